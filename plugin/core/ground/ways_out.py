# SPDX-License-Identifier: GPL-2.0-or-later
"""The way that water takes from where a pond runs off: downhill over triangles and along their edges, to the rim or into
the next pond."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ..quantity import Floats, Ints
from .hull import neighbours_of
from .low_points import Flooded

ON_CORNER = 1e-9
"""Of an edge: a way that meets it so near to its end goes on from the corner."""
RIM = -1
"""The number of what lies beyond the surface."""


@dataclass(frozen=True, eq=False)
class WayOut:
    """Where a pond's water goes.

    Attributes:
        pond: its number. into: that of the pond that it runs into, RIM over the rim.
        line: (k, 3) downhill from the point it runs off over, metres in the survey plane; one point where that lies on
            the rim, or on the edge of the next pond.
    """

    pond: int
    into: int
    line: Floats


class _On(NamedTuple):
    """A place on the way to a triangle: coming over the edge between points a and b, at the part t from a."""

    triangle: int
    a: int
    b: int
    t: float


class Descent:
    """A flooded surface made ready for many ways."""

    def __init__(self, flooded: Flooded) -> None:
        """Who stands beside whom."""
        self._flooded = flooded
        self._triangles = flooded.surface.triangles
        self._points = flooded.surface.points - flooded.surface.points[0]
        self._beside = neighbours_of(self._triangles, len(self._points))
        corner = self._triangles.reshape(-1)
        order = np.argsort(corner, kind="stable")
        self._round = order // 3
        self._first = np.searchsorted(corner[order], np.arange(len(self._points) + 1))

    def way(self, pond: int) -> WayOut:
        """The way of one pond's water.

        On a triangle it goes straight down; where both triangles of an edge slope towards it, along the edge; from a
        corner the steepest way; over level ground along edges on a lowest way out.

        Args:
            pond: its number.
        """
        at: int | _On = int(self._flooded.spill[pond])
        places = [self._points[at]]
        into: int | None = None
        while into is None:
            at, place, into = self._from_corner(at, pond) if isinstance(at, int) else self._over(at)
            if place is not None:
                places.append(place)
        return WayOut(pond, into, np.array(places) + self._flooded.surface.points[0])

    def _from_corner(self, v: int, own: int) -> tuple[int | _On, Floats | None, int | None]:
        """One step from a point of the surface."""
        flooded = self._flooded
        if flooded.on_rim[v]:
            return v, None, RIM
        steepest, best = 0.0, None
        for t in self._round[self._first[v] : self._first[v + 1]].tolist():
            if flooded.of_triangle[t] == own:
                continue
            for slope, to in self._ways_down(v, t):
                if slope > steepest:
                    steepest, best = slope, to
        if best is None:
            # Level ground: along the lowest way out, which goes nowhere higher.
            best = int(flooded.next[v])
        if isinstance(best, int):
            return self._arrived(v, best)
        return self._crossed(self._points[v], best)

    def _ways_down(self, v: int, t: int) -> list[tuple[float, int | _On]]:
        """How steep it is down a triangle from its corner v, and where to: along its sides, and over it."""
        k = int(np.flatnonzero(self._triangles[t] == v)[0])
        a, b = (int(self._triangles[t, (k + j) % 3]) for j in (1, 2))
        p = self._points
        u, w = p[a] - p[v], p[b] - p[v]
        out: list[tuple[float, int | _On]] = [
            (float(-side[2] / np.hypot(side[0], side[1])), to) for side, to in ((u, a), (w, b))
        ]
        down = -self._flooded.surface.slopes[t]
        if _cross(u, down) > 0.0 and _cross(down, w) > 0.0:
            # v + s down meets a + t (b - a).
            part = _cross(u, down) / _cross(down, w - u)
            out.append((float(np.hypot(*down)), _On(t, a, b, float(part))))
        return out

    def _arrived(self, v: int, to: int) -> tuple[int | _On, Floats | None, int | None]:
        """Along a side to its end, or to the edge of the pond that lies there."""
        number = int(self._flooded.pond[to])
        if number >= 0:
            return to, self._shore(self._points[v], self._points[to], number), number
        return to, self._points[to], None

    def _crossed(self, start: Floats, on: _On) -> tuple[int | _On, Floats | None, int | None]:
        """Over a triangle to one of its sides: on to what lies beyond it, or to the edge of a pond on the way."""
        p = self._points
        place = p[on.a] + on.t * (p[on.b] - p[on.a])
        number = int(self._flooded.of_triangle[on.triangle])
        if number >= 0 and place[2] < self._level(number):
            return on, self._shore(start, place, number), number
        if on.t <= ON_CORNER:
            return on.a, p[on.a], None
        if on.t >= 1.0 - ON_CORNER:
            return on.b, p[on.b], None
        k = int(
            np.flatnonzero((self._triangles[on.triangle] != on.a) & (self._triangles[on.triangle] != on.b))[0]
        )
        beyond = int(self._beside[on.triangle, k])
        if beyond < 0:
            return on, place, RIM
        return _On(beyond, on.a, on.b, on.t), place, None

    def _over(self, on: _On) -> tuple[int | _On, Floats | None, int | None]:
        """One step from a place on a side: over the triangle ahead, or along the side where that slopes back to it."""
        p = self._points
        start = p[on.a] + on.t * (p[on.b] - p[on.a])
        down = -self._flooded.surface.slopes[on.triangle]
        last = next(int(c) for c in self._triangles[on.triangle] if c not in (on.a, on.b))
        side, inward = p[on.b] - p[on.a], p[last] - p[on.a]
        if _cross(side, down) * _cross(side, inward) <= 0.0:
            to = on.a if p[on.a, 2] < p[on.b, 2] else on.b
            number = int(self._flooded.pond[to])
            if number >= 0:
                return to, self._shore(start, p[to], number), number
            return to, p[to], None
        for a, b in ((on.a, last), (last, on.b)):
            edge = p[b] - p[a]
            turn = _cross(down, edge)
            if turn == 0.0:
                continue
            away = p[a] - start
            reach, part = _cross(away, edge) / turn, _cross(away, down) / turn
            if reach > 0.0 and -ON_CORNER <= part <= 1.0 + ON_CORNER:
                return self._crossed(start, _On(on.triangle, a, b, float(part)))
        return last, p[last], None

    def _level(self, number: int) -> float:
        return float(self._points[self._flooded.spill[number], 2])

    def _shore(self, start: Floats, end: Floats, number: int) -> Floats | None:
        """Where a straight down into a pond meets its water; None where it starts there."""
        drop = start[2] - self._level(number)
        if not drop > 0.0:
            return None
        return np.asarray(start + min(drop / (start[2] - end[2]), 1.0) * (end - start))


def _cross(u: Floats, w: Floats) -> float:
    return float(u[0] * w[1] - u[1] * w[0])


def ways_out(flooded: Flooded, ponds: Ints) -> list[WayOut]:
    """The ways of some ponds' water, in their order.

    Args:
        flooded: the surface under water.
        ponds: (p,) their numbers.
    """
    descent = Descent(flooded)
    return [descent.way(int(k)) for k in ponds]
