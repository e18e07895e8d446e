# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_strips, which its form imports when it starts."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsWkbTypes

from ...bridge.measured import ASSUMED
from ...bridge.sources import ground_of
from ...bridge.survey_rows import refuse_kept_out
from ...bridge.survey_worth import seat_lengths, seat_outline
from ...bridge.text import tr
from ...bridge.trade import GroundReader, is_area
from ...bridge.trade_columns import columns_of, figure, reason, refused, values_of
from ...core.errors import BadInput, GroundTallyError
from ...core.trade.ribbons import Side, Strip, measure_strip
from ..layers import SIGMA, SIZE_SIGMA, take_off_layer
from ..measure_strips import SIDE, WIDTH
from ..parameters import HEIGHT, INPUT
from .noted import size_by_row

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ...bridge.trade import GroundRow
    from ...core.trade.worth import Worth
    from ..algorithm import Ask

LINES = QgsWkbTypes.GeometryType.LineGeometry
# Outer rings run anticlockwise: what is outside lies to their right.
SIDES_OF_LINES = (Side.LEFT, Side.RIGHT, Side.ABOUT, Side.BOTH)
SIDES_OF_AREAS = (Side.RIGHT, Side.LEFT, Side.ABOUT, Side.BOTH)
COLUMNS = (*figure("strip_m2", "area"), *figure("left_m", "left"), *figure("right_m", "right"))


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    source = ask.source(INPUT)
    if not is_area(source) and QgsWkbTypes.geometryType(source.wkbType()) != LINES:
        raise BadInput("The layer holds neither areas nor lines. Choose a layer of one of them.")
    return take_off_layer(ask, source, columns_of(COLUMNS), _Job(ask, source).values)


class _Job:
    """One run: the layer, and where its strips lie."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        self._reader = GroundReader(
            ground_of(source.sourceCrs(), source.sourceName()), ask.number(HEIGHT) or 0.0
        )
        self._sigma, self._width = ask.by_row(SIGMA, source), size_by_row(ask, WIDTH, source, "width_m")
        self._size_sigma = ask.number(SIZE_SIGMA) or 0.0
        self._is_area = is_area(source)
        self._side = (SIDES_OF_AREAS if self._is_area else SIDES_OF_LINES)[int(ask.number(SIDE) or 0)]

    def values(self, features: list[QgsFeature]) -> list[list[object]]:
        """The added columns of some rows."""
        sigmas, widths = self._sigma(features).tolist(), self._width(features).tolist()
        block = self._reader.block(features)
        # What makes an outline none is told as where areas are measured.
        areas = self._reader.areas(features, np.array(sigmas)) if self._is_area else []
        why = [area.why for area in areas] or [""] * len(features)
        return [
            refused(COLUMNS, why[k]) if why[k] else self._row(f, partial(block.row, k), sigmas[k], widths[k])
            for k, f in enumerate(features)
        ]

    def _row(
        self, feature: QgsFeature, read: Callable[[], GroundRow], sigma: float, width: float
    ) -> list[object]:
        try:
            strip, source = self._strip(feature, read(), sigma, width)
        except GroundTallyError as error:
            return refused(COLUMNS, reason(error))
        told = [tr("The strip runs over itself: ground there counts twice.")] if strip.is_over_itself else []
        if strip.is_astray:
            told.append(
                tr("The strip reaches into a hole or another part of the area: that ground counts too.")
            )
        return values_of(COLUMNS, strip, source, " ".join(told))

    def _strip(self, feature: QgsFeature, row: GroundRow, sigma: float, width: float) -> tuple[Strip, str]:
        refuse_kept_out(feature, "area_m2" if self._is_area else "length_m")
        lines = row.rings if self._is_area else [row.line]
        worth: float | Worth = sigma
        source = ASSUMED
        seated = seat_outline(feature, lines) if self._is_area else seat_lengths([feature], lines)
        if seated:
            lines, worth, source = list(seated.lines), seated.worth, seated.sigma_from
        outer = [one for one, hole in zip(lines, row.is_hole) if not hole] if self._is_area else lines
        holes = [one for one, hole in zip(lines, row.is_hole) if hole] if self._is_area else None
        return measure_strip(outer, width, self._side, worth, self._size_sigma, holes), source
