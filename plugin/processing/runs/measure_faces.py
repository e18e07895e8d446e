# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_faces, which its form imports when it starts."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from qgis.core import QgsFeature

from ...bridge.measured import ASSUMED
from ...bridge.partners import Partners
from ...bridge.sources import ground_of
from ...bridge.survey_rows import refuse_kept_out, survey_figure
from ...bridge.survey_worth import seat_lengths, seat_outline
from ...bridge.trade import GroundReader, is_area
from ...bridge.trade_columns import columns_of, counted, figure, plain, reason, refused, values_of
from ...core.errors import GroundTallyError
from ...core.trade.faces import Face, face_by_length, outline_face, profile_face, ruled_face
from ..algorithm import Ask
from ..layers import FEATURE, PART, SIGMA, SIZE_SIGMA, take_off_layer
from ..measure_faces import OFF_PLANE_M, WIDTH
from ..parameters import HEIGHT, INPUT, TOLERANCE
from .noted import size_by_row

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsProcessingFeatureSource

    from ...bridge.trade import GroundRow

COLUMNS = (
    *figure("face_m2", "area"),
    *figure("length_m", "length"),
    plain("off_plane_m", "off_plane"),
)


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    source = ask.source(INPUT)
    job = _Job(ask, source)
    return take_off_layer(ask, source, columns_of(COLUMNS), job.values)


class _Job:
    """One run: the layer and what each row is worth."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        self._reader = GroundReader(
            ground_of(source.sourceCrs(), source.sourceName()), ask.number(HEIGHT) or 0.0
        )
        self._partners = Partners(source, ask.text(FEATURE), ask.text(PART))
        self._sigma = ask.by_row(SIGMA, source)
        self._width = size_by_row(ask, WIDTH, source, "width_m", "profile")
        self._size_sigma = ask.number(SIZE_SIGMA) or 0.0
        self._tolerance = ask.number(TOLERANCE) or OFF_PLANE_M
        self._is_area = is_area(source)

    def values(self, features: list[QgsFeature]) -> list[list[object]]:
        """The added columns of some rows."""
        sigmas, widths = self._sigma(features).tolist(), self._width(features).tolist()
        block = self._reader.block(features)
        return [self._row(f, partial(block.row, k), sigmas[k], widths[k]) for k, f in enumerate(features)]

    def _row(
        self, feature: QgsFeature, read: Callable[[], GroundRow], sigma: float, width: float
    ) -> list[object]:
        try:
            if self._partners.is_other(feature):
                return counted(COLUMNS, self._partners.counted_with(feature))
            face, source = self._face(feature, read, sigma, width)
        except GroundTallyError as error:
            return refused(COLUMNS, reason(error))
        return values_of(COLUMNS, face, source)

    def _face(
        self, feature: QgsFeature, read: Callable[[], GroundRow], sigma: float, width: float
    ) -> tuple[Face, str]:
        if self._is_area:
            return self._outline(feature, read(), sigma)
        other = self._partners.other(feature)
        for row in filter(None, (feature, other)):
            refuse_kept_out(row, "length_m")
        if other is not None:
            one, two = self._reader.pair(feature, other)
            lines = one.line, two.line
            seated = seat_lengths((feature, other), lines)
            if seated:
                return ruled_face(seated.lines[0], seated.lines[1], seated.worth), seated.sigma_from
            return ruled_face(*lines, sigma), ASSUMED
        face = profile_face(read().line, width, sigma, self._size_sigma)
        told = survey_figure(feature, "slope_length_m", face.length.value)
        return (
            (face, ASSUMED) if told is None else (face_by_length(told[0], width, self._size_sigma), told[1])
        )

    def _outline(self, feature: QgsFeature, row: GroundRow, sigma: float) -> tuple[Face, str]:
        holes = list(row.is_hole)
        seated = seat_outline(feature, row.lines)
        if seated:
            return outline_face(list(seated.lines), holes, seated.worth, self._tolerance), seated.sigma_from
        return outline_face(list(row.lines), holes, sigma, self._tolerance), ASSUMED
