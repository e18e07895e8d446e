# SPDX-License-Identifier: GPL-2.0-or-later
"""Volumes of ground to a level, to a plane and to another surface: cut and fill apart, and how well they are known.

Over the merged triangles of both surfaces the depth is affine in each piece, so its integral is the piece's area times
the depth at its centre, exactly; a piece through which the depth changes sign is split along the zero line first. A
volume moves with a point's height by the integral of the point's weight over what counts; where the line between cut and
fill moves, the depth is zero, so that this is exact too.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import IntEnum

import numpy as np

from ..quantity import Floats, Quantity
from .depths import Depths, Ground
from .noise_volume import noise_volume, own_variance
from .overlay import Facets, moments
from .roughness import mean_rough
from .surface import Surface
from .target import TargetPlane

M, M2, M3 = "m", "m2", "m3"


class Side(IntEnum):
    """What a piece of ground is."""

    CUT = 0
    FILL = 1
    LEVEL = 2
    """The depth is none."""


SIGN = np.array([1.0, -1.0, 1.0])
"""By `Side`: how its volume counts a depth."""


@dataclass(frozen=True, eq=False)
class Volumes:
    """What was measured; figures in m3, m2 and metres, with their one-sigma.

    Attributes:
        cut: ground above the target; never negative.
        fill: ground missing below it; never negative.
        net: cut less fill.
        covariance: (2, 2) of cut and fill, m6.
        areas: m2 in plan that are cut, fill, and neither.
        left_out: m2 of the outline (without one, of the upper surface) that not both cover.
        left_out_below: m2 of the lower surface outside; 0 of a plane or with an outline.
        weak: m2 that rest on a weak triangle of either surface.
        least, most: depth, of all places; positive in cut. NaN where there is no common ground.
        mean: net by area.
        moves: (2, n) change of cut and fill by metre of each point's height, of the upper surface's points and then of
            the lower's.
        noise: m3 that cut and fill may each be too large by, because heights err from place to place.
    """

    cut: Quantity
    fill: Quantity
    net: Quantity
    covariance: Floats
    areas: tuple[float, float, float]
    left_out: float
    left_out_below: float
    weak: float
    least: Quantity
    most: Quantity
    mean: Quantity
    moves: Floats
    noise: float

    @property
    def area(self) -> float:
        """m2 in plan that were measured."""
        return sum(self.areas)

    def sigma_of(self, by_cut: float, by_fill: float) -> float:
        """One-sigma of by_cut * cut + by_fill * fill, m3."""
        by = np.array([by_cut, by_fill])
        return float(np.sqrt(max(by @ self.covariance @ by, 0.0)))


def volume_to_level(
    surface: Surface,
    level: float,
    over: Sequence[Floats] | None = None,
    *,
    common: float = 0.0,
    strip: float = 0.0,
    tick: Callable[[], None] | None = None,
) -> Volumes:
    """Ground above (cut) and missing below (fill) a level, metres in the surface's frame; see `measure_ground`."""
    return measure_ground(Ground(surface, TargetPlane.at_level(level), over, strip), common, tick)


def volume_to_plane(
    surface: Surface,
    plane: TargetPlane,
    over: Sequence[Floats] | None = None,
    *,
    common: float = 0.0,
    strip: float = 0.0,
    tick: Callable[[], None] | None = None,
) -> Volumes:
    """Ground above (cut) and missing below (fill) a plane; see `measure_ground`."""
    return measure_ground(Ground(surface, plane, over, strip), common, tick)


def volume_between(
    upper: Surface,
    lower: Surface,
    over: Sequence[Floats] | None = None,
    *,
    common: float = 0.0,
    strip: float = 0.0,
    tick: Callable[[], None] | None = None,
) -> Volumes:
    """What of the upper surface lies above the lower (cut) and below it (fill), where both are; see `measure_ground`."""
    return measure_ground(Ground(upper, lower, over, strip), common, tick)


def measure_ground(ground: Ground, common: float = 0.0, tick: Callable[[], None] | None = None) -> Volumes:
    """Volumes of ground over its target.

    The variance is g' C g with the heights' covariance of either surface (which are taken as independent of each other, also
    where both are of one survey), what `common` moves, and the roughness of the ground between the
    points of either surface (`mean_rough`). Ground that is level with its target may become either, so it counts in the
    sigma of both. To first order: where depths are no larger than their sigma, cut and fill are both too large, as noise
    makes either (see `noise`); the net is not. The strip, a plane and the outline are taken to be exact.

    Args:
        ground: surfaces, outlines and strip, metres.
        common: one-sigma of what all heights of the ground lie off those of the target by, metres.
        tick: called now and then; what it raises ends the work.
    Raises:
        BadInput: a surface without triangles or places, an outline that encloses nothing or crosses itself.
    """
    sums = _Sums(ground)
    for depths in ground.depths():
        if tick is not None:
            tick()
        sums.add(depths)
    return sums.told(common)


class _Sums:
    """What the pieces add up to."""

    def __init__(self, ground: Ground) -> None:
        self._ground = ground
        self._volumes, self._areas = np.zeros(3), np.zeros(3)
        self._weak = self._noise = 0.0
        sides: tuple[Facets | None, Facets | None] = (ground.above, ground.below)
        self._weights = [np.zeros((3, 3 * len(facets))) for facets in sides if facets is not None]
        self._own = [own_variance(surface) for surface in ground.surfaces]
        self._least, self._most = (np.inf, _NOWHERE), (-np.inf, _NOWHERE)

    def add(self, depths: Depths) -> None:
        """Some more pieces."""
        self._note_extremes(depths)
        for side, part in zip(Side, depths.split()):
            if len(part.pieces):
                self._add_side(side, part)

    def _add_side(self, side: Side, part: Depths) -> None:
        pieces, ground = part.pieces, self._ground
        area, x, y = moments(pieces)
        self._areas[side] += area.sum()
        depth = ground.depth_at(pieces, x, y)
        if side is not Side.LEVEL:
            self._volumes[side] += SIGN[side] * float(area @ depth)
        weak = ground.upper.is_weak[pieces.upper]
        if isinstance(ground.target, Surface):
            weak = weak | ground.target.is_weak[pieces.lower]
        self._weak += float(area[weak].sum())
        variance = np.zeros(len(area))
        for facets, which, sums, own in zip(
            (ground.above, ground.below), (pieces.upper, pieces.lower), self._weights, self._own
        ):
            assert facets is not None  # noqa: S101 - there are as many sums as surfaces
            second, third = facets.weights_at(which, x, y)
            for corner, weight in enumerate((1.0 - second - third, second, third)):
                sums[side, corner * len(facets) : (corner + 1) * len(facets)] += np.bincount(
                    which, area * weight, len(facets)
                )
            variance += own[which]
        self._noise += noise_volume(area, depth, variance)

    def _note_extremes(self, depths: Depths) -> None:
        flat = depths.depth.ravel()
        for k, is_better in ((int(flat.argmin()), np.less), (int(flat.argmax()), np.greater)):
            best = self._least if is_better is np.less else self._most
            if not is_better(flat[k], best[0]):
                continue
            row, column = divmod(k, depths.depth.shape[1])
            pieces = depths.pieces
            below = int(pieces.lower[column]) if len(pieces.lower) else -1
            place = (
                int(pieces.upper[column]),
                below,
                float(pieces.x[row, column]),
                float(pieces.y[row, column]),
            )
            found = (float(flat[k]), place)
            if is_better is np.less:
                self._least = found
            else:
                self._most = found

    def told(self, common: float) -> Volumes:
        """The figures."""
        moves = np.hstack([self._moves(k) for k in range(len(self._weights))])
        cut, fill, level = self._areas
        net = SIGN[Side.CUT] * moves[Side.CUT] - moves[Side.FILL] + moves[Side.LEVEL]
        both = np.array([moves[Side.CUT] + moves[Side.LEVEL], moves[Side.FILL] - moves[Side.LEVEL]])
        shift = np.array([cut + level, -(fill + level)]) * common
        points = self._by_points(np.vstack([both, net]))
        covariance = points[:2, :2] + np.outer(shift, shift) + self._rough()
        net_variance = points[2, 2] + (self._areas.sum() * common) ** 2 + self._rough_of(self._areas.sum())
        sigma = np.sqrt(np.diag(covariance))
        volume = float(self._volumes[Side.CUT] - self._volumes[Side.FILL])
        net_sigma, area = float(np.sqrt(net_variance)), float(self._areas.sum())
        outside, outside_below = self._left_out()
        return Volumes(
            Quantity(float(self._volumes[Side.CUT]), float(sigma[0]), M3),
            Quantity(float(self._volumes[Side.FILL]), float(sigma[1]), M3),
            Quantity(volume, net_sigma, M3),
            covariance,
            (float(cut), float(fill), float(level)),
            outside,
            outside_below,
            self._weak,
            self._extreme(self._least, common),
            self._extreme(self._most, common),
            Quantity(volume / area, net_sigma / area, M) if area else Quantity(np.nan, np.nan, M),
            both if level == 0.0 else moves[:2],
            self._noise,
        )

    def _moves(self, k: int) -> Floats:
        """(3, n) change of the volume of each side by metre of each point's height, of one of the surfaces."""
        surface, sign = self._ground.surfaces[k], 1.0 if k == 0 else -1.0
        corners = surface.triangles.T.ravel()
        return np.array(
            [
                sign * SIGN[side] * np.bincount(corners, self._weights[k][side], len(surface.points))
                for side in Side
            ]
        )

    def _by_points(self, change: Floats) -> Floats:
        """(f, f) covariance of figures from (f, n) their change by metre of each point's height, of all surfaces; these
        are taken as independent of each other."""
        counts = np.cumsum([len(surface.points) for surface in self._ground.surfaces])[:-1]
        parts = np.split(change, counts, axis=1)
        return np.asarray(sum(s.covariance_by(part) for s, part in zip(self._ground.surfaces, parts)))

    def _rough(self) -> Floats:
        """(2, 2) of cut and fill, m6: the covariance is what their sum over both has more than each."""
        cut, fill, level = self._areas
        own = [self._rough_of(cut + level), self._rough_of(fill + level)]
        cross = 0.5 * (self._rough_of(cut) + self._rough_of(fill) - self._rough_of(cut + fill))
        return np.array([[own[0], cross], [cross, own[1]]])

    def _rough_of(self, area: float) -> float:
        return sum(
            (surface.rough * mean_rough(area, surface.reach) * area) ** 2 for surface in self._ground.surfaces
        )

    def _extreme(self, found: tuple[float, _Place], common: float) -> Quantity:
        """A depth and its one-sigma where it was found."""
        depth, (above, below, x, y) = found
        if above < 0:
            return Quantity(np.nan, np.nan, M)
        variance = common**2
        sides = ((self._ground.above, above), (self._ground.below, below))
        for (facets, which), surface in zip(sides, self._ground.surfaces):
            assert facets is not None  # noqa: S101 - there are as many facets as surfaces
            second, third = facets.weights_at(np.array([which]), np.array([x]), np.array([y]))
            weights = np.array([1.0 - second[0] - third[0], second[0], third[0]])
            variance += float(surface.covariance_by(weights[None], surface.triangles[which])[0, 0])
            variance += surface.rough**2
        return Quantity(depth, float(np.sqrt(variance)), M)

    def _left_out(self) -> tuple[float, float]:
        """m2 of what was to be measured that not both surfaces cover; rounding is none."""
        ground, measured = self._ground, float(self._areas.sum())
        if ground.filled is not None:
            return _less(ground.filled.area, measured), 0.0
        areas = [float(surface.areas.sum()) for surface in ground.surfaces]
        return _less(areas[0], measured), _less(areas[1], measured) if len(areas) > 1 else 0.0


_Place = tuple[int, int, float, float]
_NOWHERE: _Place = (-1, -1, 0.0, 0.0)
NO_PART = 1e-9
"""Of an area: what is left of it below that is rounding."""


def _less(whole: float, part: float) -> float:
    return whole - part if whole - part > NO_PART * whole else 0.0
