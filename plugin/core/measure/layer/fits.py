# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines and lines of any layer as straights and tangent arcs, on the ground."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ...errors import BadInput
from ...findings import Finding
from ...plane import SurveyPlane
from ...quantity import Floats
from ...segments import Curve
from ...shape.fit.outline import FittedOutline, OutlineKind, OutlinePiece, fit_outline
from ...shape.fit.outline_runs import LEAST_RUN
from .areas import Worth, measure_areas
from .ground import GroundWay
from .heights import Heights, heights_of
from .lengths import measure_lengths
from .shapes import Flags, Kind, Shapes
from .sums import closed_runs

STEP_DEG = 0.01
"""Degrees: planes are laid about places of this grid, so that features near each other share one. At its farthest a
feature then lies 0.8 km from the middle, where the plane's scale is 1 + 8e-9."""


@dataclass(frozen=True, eq=False)
class FlatPlane:
    """The plane of a grid of no place on the earth: its own coordinates, in metres."""

    crs_unit_m: float

    def from_crs(self, xy: Floats) -> Floats:
        """(n, 2) as stored -> metres."""
        return np.asarray(xy * self.crs_unit_m)

    def to_crs(self, xy: Floats) -> Floats:
        """(n, 2) metres -> as stored."""
        return np.asarray(xy / self.crs_unit_m)


@dataclass(frozen=True, eq=False)
class FittedRun:
    """A ring or a line as pieces, and the height of each of its points as given (NaN where there is none), metres."""

    part: int
    is_hole: bool
    outline: FittedOutline
    z: Floats

    def heights(self, piece: OutlinePiece) -> Floats:
        """(m+1,) along a piece: those of its own points where they stay, even between its ends where they do not."""
        first, last = self.z[piece.first], self.z[piece.last % len(self.z)]
        count = len(piece.points)
        if piece.kind is OutlineKind.AS_RECORDED and piece.last - piece.first == count - 1:
            return np.asarray(self.z[piece.first : piece.last + 1])
        return np.asarray(np.linspace(first, last, count))

    def side(self, piece: OutlinePiece) -> Curve:
        """One piece with heights."""
        return Curve(np.column_stack([piece.points, self.heights(piece)]), piece.bulges)

    def curve(self) -> Curve:
        """All of it, closed where it is."""
        sides = [self.side(piece) for piece in self.outline.pieces]
        points = np.vstack([*(side.points[:-1] for side in sides), sides[-1].points[-1:]])
        if self.outline.closed:
            points[-1] = points[0]
        return Curve(points, np.concatenate([side.bulge for side in sides]))


@dataclass(frozen=True, eq=False)
class FeatureFit:
    """A feature's runs as fitted, in a plane that leads back to the map; a feature that is refused has a finding and no
    runs."""

    runs: tuple[FittedRun, ...]
    plane: SurveyPlane | FlatPlane | None
    height: float = 0.0
    has_heights: bool = False
    finding: Finding | None = None
    straights: int = 0
    """Of a feature that was left as it is without being looked at: how many it has."""

    @cached_property
    def pieces(self) -> tuple[OutlinePiece, ...]:
        """Of all runs."""
        return tuple(piece for run in self.runs for piece in run.outline.pieces)

    @property
    def is_fitted(self) -> bool:
        """Whether anything is another than it was."""
        return any(run.outline.is_fitted for run in self.runs)

    def count(self, *kinds: OutlineKind) -> int:
        """How many pieces are of some kinds."""
        if OutlineKind.STRAIGHT in kinds and not self.runs:
            return self.straights
        return sum(piece.kind in kinds for piece in self.pieces)

    @property
    def rms(self) -> float:
        """Of the distances of all vertices from the pieces that stand for them, metres."""
        own = np.array([piece.last - piece.first + 1 for piece in self.pieces], float)
        squares = np.array([piece.rms**2 for piece in self.pieces])
        return float(np.sqrt((np.maximum(own, 1.0) * squares).sum() / max(np.maximum(own, 1.0).sum(), 1.0)))

    @property
    def largest(self) -> float:
        """The farthest that a vertex, or the middle of a chord, lies from its piece, metres."""
        return max((max(p.largest, p.largest_middle) for p in self.pieces), default=0.0)

    @property
    def sigma(self) -> float:
        """One-sigma of a vertex, metres: the largest of its runs'; NaN where there is none."""
        known = [run.outline.sigma for run in self.runs if np.isfinite(run.outline.sigma)]
        return max(known, default=float("nan"))


class Fitter:
    """Fits the features of one layer: keeps the planes that it has laid out."""

    def __init__(
        self, way: GroundWay, tolerance: float, sigma: float | None = None, height: float = 0.0
    ) -> None:
        """The layer's way to the ground; metres that a vertex may lie off; one-sigma of a vertex in metres, or None
        for the residuals'; height of the ground in metres where features have none.

        Raises:
            BadInput: a tolerance or a sigma that is not above 0.
        """
        if not 0.0 < tolerance < np.inf:
            raise BadInput("The tolerance of a fit is {tolerance} m. Give one above 0.", tolerance=tolerance)
        self._way, self._tolerance, self._sigma, self._height = way, tolerance, sigma, height
        self._planes: dict[tuple[float, float, float], SurveyPlane] = {}

    def fit(self, shapes: Shapes, *, every: bool = True) -> Iterator[FeatureFit]:
        """Each feature in order. Without `every`, features of a few straights alone, in which nothing can be fitted, come
        without runs."""
        shapes = shapes.without_repeats()
        heights = heights_of(shapes, 1.0 if self._way.is_local else self._way.unit_m, self._height)
        findings = self._findings(shapes)
        plain = _plain(shapes, self._way.ground(shapes, heights.mean).xy, self._tolerance)
        edges = np.bincount(shapes.feature, weights=shapes.sizes - 1, minlength=len(shapes))
        degrees = None if self._way.is_local else self._way.lonlat(shapes.xy)
        for feature in range(len(shapes)):
            if feature in findings:
                yield FeatureFit((), None, finding=findings[feature])
            elif plain[feature] and not every:
                yield FeatureFit((), None, straights=int(edges[feature]))
            else:
                yield self._fit(shapes, feature, heights, degrees)

    def _findings(self, shapes: Shapes) -> dict[int, Finding]:
        """What cannot be fitted: what cannot be measured as an outline, or as a line."""
        none = np.zeros(len(shapes))
        is_line = shapes.kind == Kind.LINES
        if is_line.any():
            told = measure_lengths(shapes, self._way, none, self._height).findings
            if (is_line | (shapes.kind != Kind.AREAS)).all():
                return dict(told)
        areas = measure_areas(shapes, self._way, Worth(none, none), self._height).findings
        return {k: areas[k] for k in areas if not is_line[k]}

    def _fit(self, shapes: Shapes, feature: int, heights: Heights, degrees: Floats | None) -> FeatureFit:
        runs = shapes.runs_numbered(feature)
        height = float(heights.mean[feature])
        at = int(shapes.start[runs[0]])
        plane = self._plane(None if degrees is None else degrees[at], height)
        fitted: list[FittedRun] = []
        for run in runs:
            first, last = int(shapes.start[run]), int(shapes.start[run + 1])
            closed = bool((shapes.xy[first] == shapes.xy[last - 1]).all()) and last - first > 2
            outline = fit_outline(
                plane.from_crs(shapes.xy[first:last]),
                shapes.is_mid[first:last],
                self._tolerance,
                sigma=self._sigma,
                closed=closed,
            )
            z = heights.z[first:last]
            fitted.append(FittedRun(int(shapes.part[run]), bool(shapes.is_hole[run]), outline, z))
        return FeatureFit(tuple(fitted), plane, height, bool(heights.has[feature]))

    def _plane(self, lonlat: Floats | None, height: float) -> SurveyPlane | FlatPlane:
        if lonlat is None:
            return FlatPlane(self._way.unit_of_plan)
        lon, lat = (round(float(v) / STEP_DEG) * STEP_DEG for v in lonlat)
        key = (lon, lat, round(height))
        if key not in self._planes:
            self._planes[key] = SurveyPlane(self._way.flat, lon, lat, height)
        return self._planes[key]


def _plain(shapes: Shapes, xy: Floats, tolerance: float) -> Flags:
    """(f,) features in which nothing can be fitted: no arc is given, and each run has few vertices, or turns so far at
    each that the chords of an arc with such corners would lie farther than the tolerance from it."""
    out = np.ones(len(shapes), bool)
    if len(xy):
        busy = (shapes.sizes > LEAST_RUN) & ~np.logical_and.reduceat(
            _is_sharp(shapes, xy, tolerance), shapes.start[:-1]
        )
        busy |= np.logical_or.reduceat(shapes.is_mid, shapes.start[:-1])
        out[shapes.feature[busy]] = False
    return out


def _is_sharp(shapes: Shapes, xy: Floats, tolerance: float) -> Flags:
    """(n,) whether a vertex is too sharp to lie on an arc of the edges beside it: the shorter chord, turned by a quarter
    of the turn at either end, rises c/2 tan(turn/4) over it. Ends of open lines are."""
    first, last = shapes.start[:-1], shapes.start[1:] - 1
    step = np.zeros_like(xy)
    step[:-1] = xy[1:] - xy[:-1]
    step[last] = 0.0
    before = np.zeros_like(xy)
    before[1:] = step[:-1]
    is_closed = closed_runs(shapes)
    before[first] = np.where(is_closed[:, None], step[np.maximum(last - 1, 0)], 0.0)
    cross = before[:, 0] * step[:, 1] - before[:, 1] * step[:, 0]
    dot = before[:, 0] * step[:, 0] + before[:, 1] * step[:, 1]
    chord = np.sqrt(np.minimum((step**2).sum(axis=1), (before**2).sum(axis=1)))
    sharp = 0.5 * chord * np.tan(0.25 * np.abs(np.arctan2(cross, dot))) > tolerance
    sharp[last] = True
    sharp[first[~is_closed]] = True
    return np.asarray(sharp)
