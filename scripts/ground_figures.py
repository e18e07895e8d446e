# SPDX-License-Identifier: GPL-2.0-or-later
"""Figures of the ground of Marlisk Yard from one survey of it, beside the truth: the core's whole way from the adjusted
stations over a surface to volumes, a section's level, a gradient and a developed face.

Each has two sigmas: `stated` is what the surface says by itself, as it is built from what the survey's stations keep of how
their heights err together; `whole` puts the survey's whole covariance in the place of that. Of cut and fill the stated range
takes the place of 1.96 sigma: the way to its end on the truth's side.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from plugin.core.ground.build import GroundInput, build_surface
from plugin.core.ground.depths import Ground as Measured
from plugin.core.ground.gradient import slope_between
from plugin.core.ground.ranges import Range, volume_ranges
from plugin.core.ground.records import Levels
from plugin.core.ground.section import SectionCutter
from plugin.core.ground.surface import Surface
from plugin.core.ground.target import TargetPlane
from plugin.core.ground.volume import measure_ground
from plugin.core.measure.rows import Survey
from plugin.core.quantity import COVER_95, Gradient, Quantity
from plugin.core.trade.faces import face_by_length
from scripts.demo_jobs import marlisk_yard as yard
from scripts.demo_jobs import true_sizes
from scripts.demo_jobs.truth import STRAIGHT

MAKE_UP = 0.290
"""Metres from the court's finished level down to its formation."""
SITE = ((-7.0, -5.0), (39.0, 13.0))
"""Corners of the ground that places are drawn from, in the site's axes: a metre inside the grid of levels, so that they
lie on the surface however the survey errs."""
APART = 5.0
"""Metres between the two places of a gradient at least."""
STREAM = 7
"""The places that are drawn have nothing to do with the drift of the same seed."""
Frame = Callable[[object], np.ndarray]


@dataclass(frozen=True)
class GroundFigure:
    """How far off a figure is, and its two sigmas; in its own unit."""

    name: str
    error: float
    stated: float
    whole: float


@dataclass(frozen=True, eq=False)
class Ground:
    """The surface through all stations on the ground, and (n,) the station's row of each of its points."""

    survey: Survey
    surface: Surface
    rows: np.ndarray

    def whole(self, figure: Quantity, change: np.ndarray) -> float:
        """One-sigma of a figure that moves by (n,) with the points' heights, with the survey's whole covariance of them
        in place of the surface's."""
        assert self.survey.workings is not None  # noqa: S101 - it was measured
        used = np.flatnonzero(change)
        moves = Gradient(self.rows[used], np.zeros((len(used), 2)), change[used])
        own = float(self.surface.covariance_by(change[None])[0, 0])
        placed = self.survey.workings.placed
        return math.sqrt(max(figure.sigma**2 - own + placed.variance(moves), 0.0))


def build_ground(survey: Survey) -> Ground:
    """The ground of a survey: all stations of no surface or of the surface `ground`."""
    rows = [
        row
        for row, station in enumerate(survey.stations)
        if station.tags.surface in ("", "ground")
        and station.z_sigma is not None
        and np.isfinite(station.point[2])
    ]
    points = np.array([survey.stations[row].point for row in rows])
    sigma = np.array([survey.stations[row].z_own for row in rows])
    shared = np.array([survey.stations[row].z_shared for row in rows])
    surface = build_surface(GroundInput(Levels(points, sigma, shared))).surface
    assert surface is not None  # noqa: S101 - there are no lines that could meet at two heights
    away = np.hypot(*(surface.points[:, None, :2] - points[None, :, :2]).transpose(2, 0, 1))
    return Ground(survey, surface, np.array(rows)[away.argmin(axis=1)])


def site_frame(survey: Survey) -> Frame:
    """From the site's axes to the survey plane, as set out from the marks A and B where the survey has them."""
    marks = {row.mark: np.array(row.point[:2]) for row in survey.marks}
    along = (marks["B"] - marks["A"]) / np.hypot(*(marks["B"] - marks["A"]))
    axes = np.array([along, [-along[1], along[0]]])
    return lambda places: marks["A"] + (np.asarray(places, float) - yard.PLAN_MARKS["A"]) @ axes


def ground_figures(survey: Survey, seed: int) -> list[GroundFigure]:
    """All of them; the places of the level and the gradient are drawn from the seed."""
    ground, frame = build_ground(survey), site_frame(survey)
    return [*_volumes(ground, frame), *_at_places(ground, frame, seed), _face(survey)]


@lru_cache(maxsize=1)
def _truth() -> dict[tuple[str, str, str], float]:
    sizes = true_sizes("marlisk_yard")
    return {(t.feature, t.part, t.column): t.value for t in sizes if t.table == "takeoff"}


def _volumes(ground: Ground, frame: Frame) -> list[GroundFigure]:
    """Cut and fill of the court's straight part to its formation; neither the outline nor the plane has an error."""
    court = _court_ground(ground, frame)
    volumes = measure_ground(court)
    ranges = volume_ranges(court, volumes)
    cut, fill = (_truth()["Paved court", STRAIGHT, name] for name in ("cut_m3", "fill_m3"))
    by_cut, by_fill = volumes.moves
    rows = (
        ("court cut", volumes.cut, cut, by_cut, _to_end(volumes.cut.value, ranges[0], cut)),
        ("court fill", volumes.fill, fill, by_fill, _to_end(volumes.fill.value, ranges[1], fill)),
        ("court cut less fill", volumes.net, cut - fill, by_cut - by_fill, volumes.net.sigma),
    )
    return [
        GroundFigure(name, q.value - true, stated, stated * ground.whole(q, by) / q.sigma)
        for name, q, true, by, stated in rows
    ]


def _to_end(value: float, told: Range, true: float) -> float:
    """The range on the truth's side, as a sigma."""
    return (value - told.low if true < value else told.high - value) / COVER_95


def _court_ground(ground: Ground, frame: Frame) -> Measured:
    outline = frame([*yard.COURT, yard.COURT[0]])
    hole = frame([*yard.COURT_HOLE, yard.COURT_HOLE[0]])[::-1]
    levels = [yard.court_finished(x, y) - MAKE_UP for x, y in yard.COURT[:3]]
    plane = TargetPlane.through(np.column_stack([frame(yard.COURT[:3]), levels]))
    return Measured(ground.surface, plane, [outline, hole])


def _at_places(ground: Ground, frame: Frame, seed: int) -> list[GroundFigure]:
    """A section's first level, and the gradient from end to end of it."""
    start, end = _drawn_places(seed)
    cutter = SectionCutter(ground.surface)
    section = cutter.cut(frame([start, end]))
    slope = slope_between(cutter, *frame([start, end]))
    moves = np.zeros((2, len(ground.surface.points)))
    for k, row in enumerate((0, -1)):
        np.add.at(moves[k], section.told.corner[row], section.told.weight[row])
    level = Quantity(float(section.level[0]), float(section.told.sigmas()[0]), "m")
    ratio, run = slope.ratio, math.dist(start, end)
    assert ratio is not None  # noqa: S101 - the places are apart
    true = (yard.ground(*end) - yard.ground(*start)) / run
    return [
        GroundFigure(
            "section level",
            level.value - yard.ground(*start),
            level.sigma,
            ground.whole(level, moves[0]),
        ),
        GroundFigure(
            "gradient",
            ratio.value - true,
            ratio.sigma,
            ground.whole(ratio, (moves[1] - moves[0]) / slope.run),
        ),
    ]


def _drawn_places(seed: int) -> tuple[tuple[float, float], tuple[float, float]]:
    rng = np.random.default_rng((STREAM, seed))
    start, end = rng.uniform(*SITE), rng.uniform(*SITE)
    while math.dist(start, end) < APART:
        end = rng.uniform(*SITE)
    return tuple(start.tolist()), tuple(end.tolist())


def _face(survey: Survey) -> GroundFigure:
    """The dished face by the survey's length of its profile; that length knows the survey's covariance already."""
    (profile,) = [row for row in survey.lengths if row.tags.feature == "Dished face"]
    assert profile.slope_length is not None  # noqa: S101 - nothing keeps it out
    area = face_by_length(profile.slope_length, yard.FACE_WIDTH).area
    error = area.value - _truth()["Dished face", "", "developed_m2"]
    return GroundFigure("dished face", error, area.sigma, area.sigma)
