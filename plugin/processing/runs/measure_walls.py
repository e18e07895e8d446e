# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_walls, which its form imports when it starts."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from qgis.core import QgsFeature, QgsWkbTypes

from ...bridge.fields import Kind
from ...bridge.measured import ASSUMED
from ...bridge.partners import Partners
from ...bridge.sources import ground_of, refuse_other_kind
from ...bridge.survey_rows import refuse_kept_out
from ...bridge.survey_worth import seat_lengths
from ...bridge.text import tr
from ...bridge.trade import GroundReader
from ...bridge.trade_columns import columns_of, counted, figure, plain, reason, refused, unasked, values_of
from ...core.errors import BadInput, GroundTallyError
from ...core.trade.walls import Lies, Wall, WallSpec, measure_wall
from ..algorithm import Ask
from ..layers import FEATURE, PART, SIGMA, SIZE_SIGMA, take_off_layer
from ..measure_walls import (
    BACKFILL,
    COURSE,
    DESIGN_HEIGHT,
    FOOTING_DEPTH,
    FOOTING_WIDTH,
    LIES,
    SAG,
    THICKNESS,
    UNIT,
    WALL_HEIGHT,
)
from ..parameters import HEIGHT, INPUT
from .noted import size_by_row

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsProcessingFeatureSource

    from ...bridge.trade import GroundRow

FOOT_AND_TOP = {"foot": "top"}
"""The parts of a wall: that which carries the figures, and the other."""
LIKELY = 0.05
"""Of a chance that the designer's height is passed: more than this is asked about."""
SIDES = (Lies.ABOUT, Lies.LEFT, Lies.RIGHT)
COLUMNS = (
    *figure("face_m2", "face"),
    *figure("front_m", "front"),
    *figure("centre_m", "centre"),
    *figure("back_m", "back"),
    *figure("height_max_m", "highest"),
    *figure("height_mean_m", "mean"),
    *figure("height_min_m", "lowest"),
    *figure("body_m3", "body"),
    *figure("footing_m3", "footing"),
    *figure("backfill_m3", "backfill"),
    plain("courses", "courses", Kind.WHOLE),
    plain("footing_steps", "footing_steps", Kind.WHOLE),
    plain("straight_m", "units.straight"),
    plain("radius_m", "units.radius"),
    plain("sag_m", "units.sag"),
    plain("straight_units", "units.straight_units", Kind.WHOLE),
    plain("radius_units", "units.radius_units", Kind.WHOLE),
    plain("design_ratio", "design_chance"),
)


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    source = ask.source(INPUT)
    refuse_other_kind(source, QgsWkbTypes.GeometryType.LineGeometry)
    return take_off_layer(ask, source, columns_of(COLUMNS), _Job(ask, source).values)


class _Job:
    """One run: the layer and what is noted of each wall."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        self._reader = GroundReader(
            ground_of(source.sourceCrs(), source.sourceName()), ask.number(HEIGHT) or 0.0
        )
        self._partners = Partners(source, ask.text(FEATURE), ask.text(PART), FOOT_AND_TOP)
        self._by_row = {name: ask.by_row(name, source) for name in (SIGMA, THICKNESS)}
        self._by_row[WALL_HEIGHT] = size_by_row(ask, WALL_HEIGHT, source, "height_noted_m")
        self._lies = SIDES[int(ask.number(LIES) or 0)]
        names = (SIZE_SIGMA, COURSE, UNIT, SAG, FOOTING_WIDTH, FOOTING_DEPTH, BACKFILL, DESIGN_HEIGHT)
        self._sizes = {name.lower(): ask.number(name) or 0.0 for name in names}

    def values(self, features: list[QgsFeature]) -> list[list[object]]:
        """The added columns of some rows."""
        told = {name: value(features).tolist() for name, value in self._by_row.items()}
        block = self._reader.block(features)
        return [
            self._row(
                f,
                partial(block.row, k),
                told[SIGMA][k],
                WallSpec(told[THICKNESS][k], self._lies, told[WALL_HEIGHT][k], **self._sizes),
            )
            for k, f in enumerate(features)
        ]

    def _row(
        self, feature: QgsFeature, read: Callable[[], GroundRow], sigma: float, spec: WallSpec
    ) -> list[object]:
        try:
            if self._partners.is_other(feature):
                return counted(COLUMNS, self._partners.counted_with(feature))
            wall, source = self._wall(feature, read, sigma, spec)
        except GroundTallyError as error:
            return refused(COLUMNS, reason(error))
        return unasked(COLUMNS, values_of(COLUMNS, wall, source, _asked(wall, spec)), _unasked(spec))

    def _wall(
        self, feature: QgsFeature, read: Callable[[], GroundRow], sigma: float, spec: WallSpec
    ) -> tuple[Wall, str]:
        other = self._partners.other(feature)
        for row in filter(None, (feature, other)):
            refuse_kept_out(row, "length_m")
        if other is None:
            if self._partners.part(feature) == "top" and not spec.height:
                raise BadInput("The wall has a top only. Walk its foot, or give a height.")
            rows, lines = [feature], [read().line]
        else:
            rows, lines = [feature, other], [one.line for one in self._reader.pair(feature, other)]
        seated = seat_lengths(rows, lines)
        if seated is None:
            return measure_wall(lines[0], lines[1] if other else None, spec, sigma), ASSUMED
        top = seated.lines[1] if other else None
        return measure_wall(seated.lines[0], top, spec, seated.worth), seated.sigma_from


def _unasked(spec: WallSpec) -> list[str]:
    """Columns of figures whose sizes are not given."""
    given = (
        ("body_m3", spec.thickness),
        ("footing_m3", spec.footing_width * spec.footing_depth),
        ("backfill_m3", spec.backfill),
        ("courses", spec.course),
        ("footing_steps", spec.course),
        ("design_ratio", spec.design_height),
    )
    return [name for name, size in given if not size]


def _asked(wall: Wall, spec: WallSpec) -> str:
    """The question about a height that may pass the designer's."""
    if wall.design_chance <= LIKELY:
        return ""
    words = tr(
        "RW-01: The retained height reaches the designer's limit of {limit:g} m with a chance of {chance:.0f} %. Have it "
        "designed; enter the name."
    )
    return words.format(limit=spec.design_height, chance=100.0 * wall.design_chance)
