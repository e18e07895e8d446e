# SPDX-License-Identifier: GPL-2.0-or-later
"""Crossfall of a way that is one line over a surface: across its width, or by the slope of the triangles it crosses."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints, Quantity
from .levels import Levels, PointGradient, ground_variance, point_gradient, rise_sigmas, sum_gradients
from .locate import locate
from .profile import make_profile
from .section import Section, SectionCutter, bent_line
from .surface import Surface

SHORT = 1e-9
"""Metres: pieces of the way that are no longer have no crossfall."""
BESIDE = 1e-6
"""Metres: a place on an edge may be rounded out of a triangle by less."""
WIDEST = 1000.0
"""Metres: nobody builds a wider way; a larger width is in another unit."""
RATIO = "ratio"


@dataclass(frozen=True, eq=False)
class Crossfalls:
    """Crossfalls along a way, positive where the ground falls to the right; (m,) pieces within which each runs evenly.

    Attributes:
        start, end: (m,) chainages, metres.
        ratio, sigma: (m, 2) at start and end of each piece, and their one-sigma.
        mean: over the way, by its length. left_out: metres of the way without ground under its whole width.
        is_weak: whether it rests on triangles that no one should lean on.
    """

    start: Floats
    end: Floats
    ratio: Floats
    sigma: Floats
    mean: Quantity
    left_out: float
    is_weak: bool

    def greatest(self, start: float = 0.0, end: float = np.inf) -> tuple[float, Quantity] | None:
        """Chainage and crossfall of the largest size between two chainages, metres; None where there is none.

        Within a piece its sigma is taken evenly between those of its ends, which is never less than its own from the points.
        """
        # A piece that only touches the stretch is a part of what lies beside it.
        some = np.flatnonzero(np.minimum(self.end, end) - np.maximum(self.start, start) > SHORT)
        if not len(some):
            return None
        at = np.clip(np.column_stack([self.start[some], self.end[some]]), start, end)
        wide = (self.end - self.start)[some]
        part = (at - self.start[some, None]) / wide[:, None]
        ratio = self.ratio[some, :1] * (1.0 - part) + self.ratio[some, 1:] * part
        sigma = self.sigma[some, :1] * (1.0 - part) + self.sigma[some, 1:] * part
        k = np.unravel_index(int(np.argmax(np.abs(ratio))), ratio.shape)
        return float(at[k]), Quantity(float(ratio[k]), float(sigma[k]), RATIO)


class CrossfallReader:
    """A surface made ready to be asked for crossfalls along many lines."""

    def __init__(self, cutter: SectionCutter) -> None:
        """The surface's cutter."""
        self._cutter, self._surface = cutter, cutter.surface
        self._finder: _Triangles | None = None

    def along(self, line: Floats, width: float = 0.0) -> Crossfalls:
        """Crossfalls of a way along its middle.

        Args:
            line: (v, 2) metres in the survey plane.
            width: metres, half of it to either side; 0: the slope of the triangles under the line, square to it.
        Raises:
            BadInput: no such width, or no ground under the way. TooFewPoints: the line has no length.
        Source:
            Own derivation. The level at half the width to either side of a straight is that of the surface along a straight
            beside it, so that the crossfall (left less right, by the width) runs evenly between the breaks of both, and its
            mean and extremes are exact. One-sigma from the surface's points and the ground between them (see levels.py);
            without a width from the points alone, for rough ground has no slope at a place.
        """
        if not 0.0 <= width <= WIDEST:
            raise BadInput(
                "A way cannot be {width:g} m wide. Give its width in metres, or 0 where it is not known.",
                width=width,
            )
        xy = bent_line(line)
        way = np.diff(xy, axis=0)
        length = np.hypot(*way.T)
        left = np.column_stack([-way[:, 1], way[:, 0]]) / length[:, None]
        begin = np.cumsum(length) - length
        sums = _Sums(self._surface, float(length.sum()))
        if width:
            for k in range(len(length)):
                by = 0.5 * width * left[k]
                sides = [self._cutter.cut(xy[k : k + 2] + sign * by) for sign in (1.0, -1.0)]
                _add_between(sums, begin[k], (sides[0], sides[1]), width)
        else:
            self._add_triangles(sums, self._cutter.cut(xy), begin, left)
        return sums.told()

    def _add_triangles(self, sums: _Sums, section: Section, begin: Floats, left: Floats) -> None:
        chainage = section.chainage
        rows = np.flatnonzero(section.is_ground & (np.diff(chainage) > SHORT))
        if not len(rows):
            return
        if self._finder is None:
            self._finder = _Triangles(self._surface)
        which = self._finder.of_pieces(section, rows)
        middle = 0.5 * (chainage[rows] + chainage[rows + 1])
        across = left[np.clip(np.searchsorted(begin, middle, side="right") - 1, 0, len(begin) - 1)]
        corner, by = self._surface.triangles[which], _by_height(self._surface, which, across)
        told = Levels(self._surface, 0.5 * (section.place[rows] + section.place[rows + 1]), corner, by)
        # A sum of heights is asked here by its weights alone: they add up to 0, so that it is no level.
        ratio = (by * self._surface.points[corner, 2]).sum(axis=1)
        own = ((by * self._surface.sigma[corner]) ** 2).sum(axis=1)
        shared = np.einsum("rq,rqk->rk", by, self._surface.shared[corner])
        sigma = np.sqrt(own + (shared**2).sum(axis=1))
        two = np.ones((1, 2))
        sums.add((chainage[rows], chainage[rows + 1]), ratio[:, None] * two, sigma[:, None] * two)
        sums.add_gradient(told, np.diff(chainage)[rows])
        sums.is_weak |= bool(section.is_weak[rows].any())


def _add_between(sums: _Sums, begin: float, sides: tuple[Section, Section], width: float) -> None:
    """The crossfall between two straights beside one leg, which begins at a chainage."""
    left = make_profile([sides[0]], sides[1].chainage)
    right = make_profile([sides[1]], sides[0].chainage)
    piece = np.flatnonzero(left.is_ground[0] & right.is_ground[0] & (left.widths > SHORT))
    if not len(piece):
        return
    ratio = (left.level[0] - right.level[0])[piece] / width
    sigma = [
        rise_sigmas(right.told(0, piece, part), left.told(0, piece, part)) / width
        for part in (np.zeros(len(piece)), np.ones(len(piece)))
    ]
    ends = begin + left.breaks[piece], begin + left.breaks[piece + 1]
    sums.add(ends, ratio, np.column_stack(sigma))
    half = np.full(len(piece), 0.5)
    for sign, one in ((1.0, left), (-1.0, right)):
        told = one.told(0, piece, half)
        sums.add_gradient(told, sign * left.widths[piece] / width)
        sums.add_ground(told, sign * left.widths[piece] / width)
        sums.is_weak |= bool(one.sections[0].is_weak[one.row[0, piece]].any())


class _Sums:
    """What the pieces of a way add up to."""

    def __init__(self, surface: Surface, length: float) -> None:
        self._surface, self._length = surface, length
        self._pieces: list[tuple[Floats, Floats, Floats, Floats]] = []
        self._gradients: list[PointGradient] = []
        self._ground: list[tuple[Levels, Floats]] = []
        self.is_weak = False

    def add(self, ends: tuple[Floats, Floats], ratio: Floats, sigma: Floats) -> None:
        self._pieces.append((*ends, ratio, sigma))

    def add_gradient(self, told: Levels, by_level: Floats) -> None:
        """How the integral of the crossfall along the way moves with sums of heights, (r,) metres by metre of each."""
        self._gradients.append(point_gradient(told, by_level))

    def add_ground(self, told: Levels, by_level: Floats) -> None:
        self._ground.append((told, by_level))

    def told(self) -> Crossfalls:
        if not self._pieces:
            raise BadInput("No ground of the surface lies under the way. Move it, or extend the surface.")
        start, end, ratio, sigma = (np.concatenate(some) for some in zip(*self._pieces))
        wide = end - start
        whole = float(wide.sum())
        mean = float((wide * ratio.mean(axis=1)).sum()) / whole
        gradient = sum_gradients(self._gradients, [1.0] * len(self._gradients))
        variance = gradient.variance(self._surface) + self._between()
        return Crossfalls(
            start,
            end,
            ratio,
            sigma,
            Quantity(mean, float(np.sqrt(variance)) / whole, RATIO),
            max(self._length - whole, 0.0),
            self.is_weak,
        )

    def _between(self) -> float:
        """What the ground between the points adds to the variance of the integral."""
        if not self._ground:
            return 0.0
        levels, by = zip(*self._ground)
        joined = Levels(
            self._surface,
            np.vstack([one.place for one in levels]),
            np.vstack([one.corner for one in levels]),
            np.vstack([one.weight for one in levels]),
        )
        return ground_variance(joined, np.concatenate(by))


def _by_height(surface: Surface, which: Ints, across: Floats) -> Floats:
    """(r, 3) change of the slope of triangles (r,) along unit vectors (r, 2) by metre of each corner's height."""
    a, b, c = (surface.corners[which, k, :2] for k in range(3))
    u, v = b - a, c - a
    det = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    second = (across[:, 0] * v[:, 1] - across[:, 1] * v[:, 0]) / det
    third = (across[:, 1] * u[:, 0] - across[:, 0] * u[:, 1]) / det
    return np.column_stack([-second - third, second, third])


class _Triangles:
    """The triangles of a surface by their corners."""

    def __init__(self, surface: Surface) -> None:
        self._surface = surface
        rows = np.sort(surface.triangles, axis=1)
        self._count = len(surface.points)
        pair = rows[:, 0] * self._count + rows[:, 1]
        self._order = np.lexsort((rows[:, 2], pair))
        self._pair, self._last = pair[self._order], rows[self._order, 2]

    def of_pieces(self, section: Section, rows: Ints) -> Ints:
        """(r,) the triangle that each piece of a section lies in; of one along an edge, either."""
        corner = np.hstack([section.corner[rows], section.corner[rows + 1]])
        weight = np.hstack([section.weight[rows], section.weight[rows + 1]])
        # Of a piece across a triangle the corners that tell its ends are the triangle's three.
        told = np.sort(np.where(weight > 0.0, corner, self._count), axis=1)
        is_new = np.ones_like(told, bool)
        is_new[:, 1:] = told[:, 1:] != told[:, :-1]
        three = np.sort(np.where(is_new & (told < self._count), told, self._count), axis=1)[:, :3]
        found = np.full(len(rows), -1)
        pair = three[:, 0] * self._count + three[:, 1]
        at = np.searchsorted(self._pair, pair)
        for step in (0, 1):
            k = np.minimum(at + step, len(self._pair) - 1)
            same = (self._pair[k] == pair) & (self._last[k] == three[:, 2])
            found[same] = self._order[k[same]]
        rest = np.flatnonzero(found < 0)
        if len(rest):
            at = rows[rest]
            middle = 0.5 * (section.place[at] + section.place[at + 1])
            near = self._surface.box_order.meeting(middle.min(axis=0) - BESIDE, middle.max(axis=0) + BESIDE)
            found[rest] = near[locate(self._surface.points, self._surface.triangles[near], middle)[0]]
        return found
