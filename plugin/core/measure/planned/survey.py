# SPDX-License-Identifier: GPL-2.0-or-later
"""The survey of a plan, and its rows. Sigmas are a priori, so a forecast is the survey of a walk without errors: the steps
of a survey run on the planned walks, and their sigmas are read."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from ...adjust.drift import legs_of
from ...adjust.walks import Adjusted, adjust_walks
from ...findings import Decisions, Finding, Severity
from ...place.fit import Placed, fit_similarity
from ...place.notes import tell_unchecked
from ...place.survey import Placement, place_survey
from ...quantity import Floats, Gradient
from ...shape.features import shape_features
from ...shape.records import Shape
from ...walk import Kind
from ..area import net_figure, ring_figure
from ..figure import Figure
from ..left_out import rows_of_left_out
from ..length import Edges, sum_of
from ..report import ellipses_of
from .records import FeatureBudget, Plan, StationBudget, WalkBudget
from .shares import shares_of
from .walks import job_of, refuse_bad

Progress = Callable[[float, str], None]
"""Called with the part done (0 to 1) and what comes next; raises Cancelled to stop the work."""
NO_DECISIONS = Decisions()
PAIRS = 2
"""Map points that place a survey."""


@dataclass(frozen=True, eq=False)
class Surveyed:
    """A plan surveyed without errors; `findings` are those of the steps up to placing."""

    adjusted: Adjusted
    placement: Placement
    findings: tuple[Finding, ...]

    @property
    def placed(self) -> Placed:
        """Where its stations lie."""
        return self.placement.placed

    @property
    def is_placed(self) -> bool:
        """Whether it lies on the map."""
        return self.placement.status != "not placed"


@dataclass(frozen=True, eq=False)
class Sized:
    """A feature's main figure (area or length), and of an area its perimeter."""

    shape: Shape
    main: Figure | None
    perimeter: Figure | None = None


def survey_plan(plan: Plan) -> Surveyed:
    """Bring the planned walks together and place them, as a survey does.

    Raises:
        BadInput: the plan cannot be walked.
        Refused: none of the walks can be brought together.
    """
    refuse_bad(plan)
    job, located = job_of(plan)
    adjusted, found = adjust_walks(job, located.bases, NO_DECISIONS, located.tests)
    placement = place_survey(adjusted, located, NO_DECISIONS, count=adjusted.judged.count)
    return Surveyed(adjusted, placement, (*found, *placement.findings))


def place_plan(plan: Plan) -> Placed:
    """Where the stations of a plan lie: as `survey_plan` has it, without the tests of a placing, which nothing without
    errors fails and which take long with many marks."""
    job, located = job_of(plan)
    adjusted, _ = adjust_walks(job, located.bases, NO_DECISIONS, located.tests)
    rows = adjusted.mark_rows
    points = [point for point in located.points if point.mark in rows]
    if len(points) < PAIRS:
        return place_survey(adjusted, located, NO_DECISIONS).placed
    index = np.array([rows[point.mark] for point in points], dtype=np.int64)
    sd = np.array([point.sd for point in points])
    fit = fit_similarity(adjusted.xy[index], np.array([point.xy for point in points]), sd**-2.0)
    return Placed(adjusted, fit, index, sd, located.common)


def ellipses_in(placed: Placed) -> Floats:
    """(n, 2, 2) covariance of each station for itself."""
    return placed.plan_ellipses(np.arange(len(placed.xy)))


def size_features(surveyed: Surveyed) -> tuple[list[Sized], tuple[Finding, ...]]:
    """The features of a plan with their figures, and what the checks say of them and of the walks."""
    placed = surveyed.placed
    shapes, found = shape_features(placed, NO_DECISIONS)
    unchecked = tell_unchecked(surveyed.adjusted, placed, NO_DECISIONS)
    return list(_sizes(shapes)), (*unchecked, *found)


def _sizes(shapes: Sequence[Shape]) -> Iterable[Sized]:
    holes: dict[int, list[Figure]] = {}
    for shape in shapes:
        if shape.parent is not None and shape.pieces:
            holes.setdefault(shape.parent, []).append(ring_figure(shape.pieces[0]))
    for i, shape in enumerate(shapes):
        lengths = [Edges(piece).plan_length(np.arange(len(piece.half))) for piece in shape.pieces]
        if shape.kind is Kind.AREA and shape.pieces:
            area = net_figure(ring_figure(shape.pieces[0]), holes.get(i, []))
            yield Sized(shape, area, lengths[0])
        elif shape.kind is Kind.LENGTH and shape.pieces:
            yield Sized(shape, sum_of(lengths))
        elif shape.kind is not Kind.SPOT:
            yield Sized(shape, None)


def feature_rows(
    surveyed: Surveyed, sized: Sequence[Sized], findings: Sequence[Finding]
) -> tuple[FeatureBudget, ...]:
    """What to expect of each feature; those of walks that are left out, and those that a stop keeps out, have no
    figures."""
    out = [_feature_row(surveyed.placed, one, findings) for one in sized]
    lost = rows_of_left_out(surveyed.adjusted.left_out, "")
    for kind, rows in ((Kind.AREA, lost.areas), (Kind.LENGTH, lost.lengths)):
        for row in rows:
            tags = row.tags
            codes = _stops(findings, tags.walk, tags.feature)
            out.append(FeatureBudget(tags.walk, tags.feature, tags.part, kind, finding=codes))
    return tuple(out)


def _feature_row(placed: Placed, sized: Sized, findings: Sequence[Finding]) -> FeatureBudget:
    shape = sized.shape
    walk = placed.walks[shape.walk].name
    codes = " ".join(
        dict.fromkeys([*shape.set_aside.split(), *_stops(findings, walk, shape.feature).split()])
    )
    row = FeatureBudget(walk, shape.feature, shape.part, shape.kind, finding=codes)
    if codes or sized.main is None:
        return row
    shares = shares_of(placed, sized.main.gradient)
    if shape.kind is Kind.AREA and sized.perimeter is not None:
        area, perimeter = sized.main.quantity(placed, "m2"), sized.perimeter.quantity(placed, "m")
        return replace(row, area=area, perimeter=perimeter, shares=shares)
    return replace(row, length=sized.main.quantity(placed, "m"), shares=shares)


def _stops(findings: Sequence[Finding], walk: str, feature: str) -> str:
    """The codes of open stops in a feature, or in its walk as a whole."""
    own = [
        f.code
        for f in findings
        if f.severity is Severity.STOP and f.is_open and f.walk == walk and f.feature in ("", feature)
    ]
    return " ".join(dict.fromkeys(own))


def station_rows(plan: Plan, surveyed: Surveyed, progress: Progress) -> tuple[StationBudget, ...]:
    """What to expect of each station, in the order planned."""
    placed = surveyed.placed
    ellipses = ellipses_of(ellipses_in(placed))
    height = placed.height_sigma(np.arange(len(placed.xy))) if plan.levels else None
    drawn = {walk.name: walk.xy for walk in plan.walks}
    turn = 0.0 if surveyed.is_placed or placed.fit is None else placed.fit.turn
    out = []
    for k, walk in enumerate(placed.walks):
        for i in range(len(walk)):
            row = int(placed.first[k]) + i
            progress(row / len(placed.xy), "Stations")
            x, y = drawn[walk.name][i]
            out.append(
                StationBudget(
                    walk.name,
                    walk.station[i],
                    walk.mark[i],
                    walk.feature[i],
                    (float(x), float(y), float(walk.z[i])),
                    replace(ellipses[row], angle=(ellipses[row].angle - turn) % math.pi),
                    None if height is None else float(height[row]),
                    shares_of(placed, _along(row, ellipses[row].angle)),
                )
            )
    return tuple(out)


def _along(row: int, angle: float) -> Gradient:
    """A station's place in one direction of the placed plane."""
    return Gradient(np.array([row]), np.array([[math.cos(angle), math.sin(angle)]]), np.zeros(1))


def walk_rows(surveyed: Surveyed) -> tuple[WalkBudget, ...]:
    """What to expect of each walk that is brought together."""
    out = []
    for walk, loops in zip(surveyed.adjusted.walks, surveyed.adjusted.loops):
        legs = legs_of(walk)
        seconds = float(legs.moving.sum() + walk.hold.sum())
        closing = max((loop.expected for loop in loops), default=None)
        out.append(WalkBudget(walk.name, len(walk), float(legs.length.sum()), seconds, closing))
    return tuple(out)
