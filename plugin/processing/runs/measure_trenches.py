# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_trenches, which its form imports when it starts."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeature, QgsWkbTypes

from ...bridge.fields import ALONG as NOTED_ALONG
from ...bridge.gradient_rows import open_surface
from ...bridge.measured import ASSUMED
from ...bridge.sources import ground_of, refuse_other_kind
from ...bridge.survey_rows import refuse_kept_out
from ...bridge.survey_worth import seat_lengths
from ...bridge.text import tr
from ...bridge.trade import GroundReader
from ...bridge.trade_columns import columns_of, figure, plain, reason, refused, values_of
from ...bridge.trench_sizes import (
    DEPTH_M,
    INVERT_M,
    WIDTH_M,
    RowAlong,
    TrenchSizes,
    depth_along,
    height_shift,
    invert_along,
    read_along,
    width_along,
)
from ...core.errors import GroundTallyError
from ...core.ground.section import SectionCutter
from ...core.trade.cross_sections import Cross
from ...core.trade.trenches import Trench, TrenchSpec, measure_trench
from ...core.trade.walls import Lies
from ..algorithm import Ask
from ..layers import SIGMA, SIZE_SIGMA, take_off_layer
from ..measure_trenches import (
    ALONG,
    BATTER,
    BEDDING,
    DEPTH,
    DEPTH_END,
    INVERT_END,
    INVERT_START,
    LIES,
    SECTION,
    SURFACE,
    WIDTH,
)
from ..parameters import HEIGHT, INPUT
from .noted import has_noted, number_or

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsProcessingFeatureSource

    from ...bridge.planned import Plane
    from ...bridge.trade import GroundRow
    from ...core.trade.lines import Line
    from ...core.trade.worth import Worth

SECTIONS = (Cross.RECTANGULAR, Cross.V, Cross.TRAPEZOID, Cross.ROUND)
SIDES = (Lies.ABOUT, Lies.LEFT, Lies.RIGHT)
COLUMNS = (
    *figure("volume_m3", "volume"),
    *figure("path_m", "path"),
    *figure("plan_m2", "plan"),
    *figure("face_m2", "face"),
    *figure("section_m2", "section"),
    *figure("depth_mean_m", "mean"),
    *figure("depth_max_m", "deepest"),
    *figure("depth_min_m", "shallowest"),
    plain("top_max_m", "widest"),
)


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    source = ask.source(INPUT)
    refuse_other_kind(source, QgsWkbTypes.GeometryType.LineGeometry)
    return take_off_layer(ask, source, columns_of(COLUMNS), _Job(ask, source).values)


@dataclass(frozen=True)
class _Made:
    """How all trenches of a run are made."""

    cross: Cross
    batter: float
    bedding: float
    lies: Lies
    size_sigma: float


class _Job:
    """One run: the layer and how its trenches are made."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        self._reader = GroundReader(
            ground_of(source.sourceCrs(), source.sourceName()), ask.number(HEIGHT) or 0.0
        )
        self._by_row = {name: ask.by_row(name, source) for name in (SIGMA, WIDTH, DEPTH, DEPTH_END)}
        self._levels = [ask.levels_by_row(name, source) for name in (INVERT_START, INVERT_END)]
        self._noted = [name for name in (WIDTH_M, DEPTH_M, INVERT_M) if has_noted(source, name)]
        if self._noted:
            words = tr("What is not given is taken from sizes noted on site, in the columns {columns}.")
            ask.feedback.pushInfo(words.format(columns=", ".join(self._noted)))
        self._along = ask.text(ALONG) or (NOTED_ALONG if has_noted(source, NOTED_ALONG) else None)
        self._made = _Made(
            SECTIONS[int(ask.number(SECTION) or 0)],
            ask.number(BATTER) or 0.0,
            ask.number(BEDDING) or 0.0,
            SIDES[int(ask.number(LIES) or 0)],
            ask.number(SIZE_SIGMA) or 0.0,
        )
        self._ground, self._plane = _ground(ask)
        self._shift = height_shift(ask.layer(INPUT)) if INVERT_M in self._noted else 0.0

    def values(self, features: list[QgsFeature]) -> list[list[object]]:
        """The added columns of some rows."""
        told = {name: value(features).tolist() for name, value in self._by_row.items()}
        levels = [value(features) for value in self._levels]
        block = self._reader.block(features)
        return [
            self._row(
                f,
                partial(block.row, k),
                told[SIGMA][k],
                TrenchSizes(
                    told[WIDTH][k],
                    told[DEPTH][k],
                    told[DEPTH_END][k],
                    (levels[0][k], levels[1][k]),
                    {name: _number(f.attribute(name)) for name in self._noted},
                ),
            )
            for k, f in enumerate(features)
        ]

    def _row(
        self,
        feature: QgsFeature,
        read: Callable[[Plane | None], GroundRow],
        sigma: float,
        sizes: TrenchSizes,
    ) -> list[object]:
        try:
            trench, source, spec = self._trench(feature, read, sigma, sizes)
        except GroundTallyError as error:
            return refused(COLUMNS, reason(error))
        return values_of(COLUMNS, trench, source, " ".join(self._notes(trench, spec, sizes)))

    def _notes(self, trench: Trench, spec: TrenchSpec, sizes: TrenchSizes) -> list[str]:
        """What is to be told of a row that was measured."""
        out = []
        if trench.is_over_itself:
            out.append(tr("The trench runs over itself: ground there counts twice."))
        given = (
            (SURFACE, self._ground is not None),
            (INVERT_START, sizes.inverts[0] is not None),
            (INVERT_END, sizes.inverts[1] is not None),
            (BEDDING, self._made.bedding > 0.0),
        )
        unused = [name for name, is_given in given if is_given]
        if spec.depth is not None and unused:
            words = tr("The depth that is given or noted goes before inverts; not used: {names}.")
            out.append(words.format(names=", ".join(unused)))
        if spec.depth is None and self._shift and sizes.inverts == (None, None):
            words = tr(
                "The survey's heights were moved by {shift:.3f} m onto their datum, the inverts stand as they were noted: make "
                "sure that they are levels in that datum, or give the inverts."
            )
            out.append(words.format(shift=self._shift))
        return out

    def _trench(
        self,
        feature: QgsFeature,
        read: Callable[[Plane | None], GroundRow],
        sigma: float,
        sizes: TrenchSizes,
    ) -> tuple[Trench, str, TrenchSpec]:
        refuse_kept_out(feature, "length_m")
        row = read(None)
        along = read_along(feature, self._along, row.line)
        spec = self._spec(sizes, row.line, along)
        if spec.surface is not None and self._plane is not None:
            # Only what is held against a surface is measured in its plane, which may lie far away.
            row = read(self._plane)
            spec = self._spec(sizes, row.line, along)
        line, worth, source = self._seated(feature, row, spec, sigma)
        return measure_trench(line, spec, worth), source, spec

    def _spec(self, sizes: TrenchSizes, line: Line, along: RowAlong) -> TrenchSpec:
        made, length = self._made, float(line.edges.lengths.sum())
        depth = depth_along(sizes, along, length, made.size_sigma)
        return TrenchSpec(
            made.cross,
            width_along(sizes, along, made.size_sigma),
            depth,
            invert_along(sizes, along, length, made.size_sigma) if depth is None else None,
            self._ground if depth is None else None,
            made.bedding,
            made.batter,
            made.lies,
            made.size_sigma,
        )

    def _seated(
        self, feature: QgsFeature, row: GroundRow, spec: TrenchSpec, sigma: float
    ) -> tuple[Line, float | Worth, str]:
        """The line, and what its points are worth: as the survey says where it drew it. What it says of heights holds within
        a feature alone, so that against levels from elsewhere the given one-sigma counts."""
        is_apart = spec.depth is None and spec.surface is None
        if not is_apart:
            seated = seat_lengths([feature], [row.line])
            if seated:
                return seated.lines[0], seated.worth, seated.sigma_from
        return row.line, sigma, ASSUMED


def _number(value: object) -> float | None:
    told = number_or(value, float("nan"))
    return told if np.isfinite(told) else None


def _ground(ask: Ask) -> tuple[SectionCutter | None, Plane | None]:
    """The ground ready to be cut, and its plane; none where no surface is given."""
    if not ask.is_given(SURFACE):
        return None, None
    layer = ask.one_layer(SURFACE)
    opened = open_surface(layer, ask.number(SIGMA) or 0.0, ask.number(HEIGHT))
    return SectionCutter(opened.surfaces[0]), opened.plane
