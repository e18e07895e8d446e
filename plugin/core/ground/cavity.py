# SPDX-License-Identifier: GPL-2.0-or-later
"""One segment after another put into a triangulation, by emptying what it crosses and filling both sides again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from .signs import DOUBT, exact_cotangent, side_of

NEAR_TIE = 1e-9
"""Cotangents, relative to the numbers they come from, nearer to each other than this are compared exactly."""
MANY = 64
"""Points of a chain from which numpy looks for the next corner."""


class _Rows(dict[int, list[Any]]):
    """Rows of an array as lists, each made when it is first asked for: few of them change, and numpy is slow at
    single rows."""

    def __init__(self, array: Floats | Ints) -> None:
        super().__init__()
        self._array = array

    def __missing__(self, row: int) -> list[Any]:
        found: list[Any] = self._array[row].tolist()
        self[row] = found
        return found

    def fetch(self, rows: Ints) -> None:
        """Many rows at once."""
        self.update(zip(rows.tolist(), self._array[rows].tolist()))


class Mesh:
    """Triangles of which some can change."""

    def __init__(self, xy: Floats, triangles: Ints, neighbours: Ints, fixed: Ints) -> None:
        """Take a valid triangulation of all points (n, 2).

        Args:
            xy: places.
            triangles: (m, 3) anticlockwise.
            neighbours: (m, 3), opposite to each corner, -1 for none.
            fixed: (s, 2) pairs of points, lower first, whose edges may not go.
        """
        self._xy, self._triangles, self._count = xy, triangles, len(triangles)
        self._places, self._corners, self._beside = _Rows(xy), _Rows(triangles), _Rows(neighbours)
        self._fixed: set[tuple[int, int]] = {(a, b) for a, b in fixed.tolist()}
        at = np.zeros(len(xy), np.int64)
        at[triangles] = np.arange(len(triangles))[:, None]
        self._first_at = at
        self._fetch(fixed)
        self._at: dict[int, int] = {}
        self._gone: list[int] = []

    def _fetch(self, fixed: Ints) -> None:
        """The triangles at the ends of segments at once, for they are asked for: one by one takes three times as long."""
        is_end = np.zeros(len(self._xy), bool)
        is_end[fixed] = True
        rows = np.flatnonzero(is_end[self._triangles].any(axis=1))
        points = np.unique(self._triangles[rows])
        for some, at in ((self._corners, rows), (self._beside, rows), (self._places, points)):
            some.fetch(at)

    def triangles(self) -> Ints:
        """(m, 3) as they are now."""
        out = np.vstack([self._triangles, np.zeros((self._count - len(self._triangles), 3), np.int64)])
        if self._corners:
            out[list(self._corners)] = list(self._corners.values())
        return np.delete(out, self._gone, axis=0) if self._gone else out

    def row(self, t: int) -> list[int]:
        """The corners of a triangle; none of one that was taken out."""
        return [] if t in self._gone else self._corners[t]

    def flatten(self, t: int) -> list[int]:
        """Take a flat triangle out: on the rim it goes; else the triangle beyond its longest side is divided at the corner
        that lies on that. Returns the triangles that took its place."""
        c = self._corners[t]
        places = [self._places[k] for k in c]
        axis = 0 if np.ptp([p[0] for p in places]) >= np.ptp([p[1] for p in places]) else 1
        k = sorted(range(3), key=lambda n: places[n][axis])[1]
        m, p, q = c[k], c[k - 2], c[k - 1]
        beyond = self._beside[t][k]
        if beyond < 0:
            for u, v, other in ((m, p, self._beside[t][k - 1]), (q, m, self._beside[t][k - 2])):
                if other >= 0:
                    self._beside[other][self._corner_opposite(other, u, v)] = -1
                    self._at[u] = self._at[v] = other
            self._gone.append(t)
            return []
        d = self._corners[beyond][self._corner_opposite(beyond, p, q)]
        self._place([t, beyond], [(m, p, d), (m, d, q)], self._outer([t, beyond]))
        return [t, beyond]

    def add_point(self, p: int, near: int) -> None:
        """Put in a point that no triangle uses yet, by dividing the triangle that it lies in, or the two beside the side
        that it lies on.

        Args:
            p: the point.
            near: a point of the triangulation, best one near to it.
        Raises:
            BadInput: it lies outside all triangles.
        """
        t, on = self._holding(p, near)
        region = [t] if on is None or self._beside[t][on] < 0 else [t, self._beside[t][on]]
        c = self._corners[t]
        split = set() if on is None else {(c[on - 2], c[on - 1])}
        outer = self._outer(region)
        new = [(u, v, p) for u, v in outer if (u, v) not in split]
        slots = [*region, *range(self._count, self._count + len(new) - len(region))]
        self._count += len(new) - len(region)
        self._place(slots, new, outer)

    def _holding(self, p: int, near: int) -> tuple[int, int | None]:
        """The triangle that holds a point, and which of its sides (by the corner opposite) if it lies on one."""
        places, t = self._places, next(self._around(near))
        for _ in range(4 * self._count + 16):
            c = self._corners[t]
            sides = [side_of(places[c[k - 2]], places[c[k - 1]], places[p]) for k in range(3)]
            if min(sides) >= 0:
                return t, sides.index(0) if 0 in sides else None
            t = self._beside[t][sides.index(-1)]
            if t < 0:
                break
        raise BadInput(
            "A point at {east:.3f}, {north:.3f} in the survey plane lies too near to others for a site of this size. Merge "
            "points within a larger distance, or build the surface in parts.",
            east=places[p][0],
            north=places[p][1],
        )

    def insert(self, a: int, b: int) -> None:
        """Make the segment between two points an edge, or a chain of edges through points that lie on it.

        Raises:
            BadInput: it crosses a fixed edge.
        """
        while a != b:
            a = self._advance(a, b)

    def _advance(self, a: int, b: int) -> int:
        """Make the first part of the segment an edge; returns where that ends: at b, or at a point on the segment."""
        start = None
        for t in self._around(a):
            k = self._corners[t].index(a)
            p, q = self._corners[t][k - 2], self._corners[t][k - 1]
            if b in (p, q):
                return self._fix(a, b)
            if start is None and self._leaves(a, b, p, q):
                start = t, p, q
        if start is None:
            on = self._on_the_way(a, b)
            if on is None:
                raise self._no_way(a, b)
            return self._fix(a, on)
        v, crossed, left, right = self._walk(a, b, *start)
        self._refill(a, v, crossed, left, right)
        return self._fix(a, v)

    def _walk(self, a: int, b: int, t: int, p: int, q: int) -> tuple[int, list[int], list[int], list[int]]:
        """Through the triangles from a towards b, leaving the first by its side from p (right) to q (left): the point
        where the walk ends, the triangles crossed, and the points left and right of it, in order."""
        places = self._places
        crossed, left, right = [t], [q], [p]
        while True:
            if (min(p, q), max(p, q)) in self._fixed:
                raise self._crossing(a, b, p, q)
            t = self._beside[t][self._corner_opposite(t, p, q)]
            crossed.append(t)
            v = self._corners[t][self._corner_opposite(t, p, q)]
            side = 0 if v == b else side_of(places[a], places[b], places[v])
            if side == 0:
                return v, crossed, left, right
            if side > 0:
                left.append(v)
                q = v
            else:
                right.append(v)
                p = v

    def _leaves(self, a: int, b: int, p: int, q: int) -> bool:
        """Whether the way from a to b goes through the side from p to q of the triangle a, p, q."""
        places = self._places
        return side_of(places[a], places[p], places[b]) > 0 and side_of(places[a], places[q], places[b]) < 0

    def _on_the_way(self, a: int, b: int) -> int | None:
        """The neighbour of a that lies on the segment to b."""
        places = self._places
        (ax, ay), (bx, by) = places[a], places[b]
        for t in self._around(a):
            for p in self._corners[t]:
                x, y = places[p]
                ahead = (x - ax) * (bx - ax) + (y - ay) * (by - ay) > 0.0
                if p != a and ahead and side_of(places[a], places[b], places[p]) == 0:
                    return int(p)
        return None

    def _around(self, v: int) -> Iterator[int]:
        """The triangles at a point."""
        first = self._at.get(v, -1)
        if first < 0:
            first = int(self._first_at[v])
        for step in (1, 2):
            t = first
            while t >= 0:
                if step == 1 or t != first:
                    yield t
                k = self._corners[t].index(v)
                t = self._beside[t][(k + step) % 3]
                if t == first:
                    return

    def _corner_opposite(self, t: int, p: int, q: int) -> int:
        first, second, _ = self._corners[t]
        if first not in (p, q):
            return 0
        return 1 if second not in (p, q) else 2

    def _fix(self, a: int, b: int) -> int:
        self._fixed.add((min(a, b), max(a, b)))
        return b

    def _refill(self, a: int, b: int, crossed: list[int], left: list[int], right: list[int]) -> None:
        """Fill both sides of the edge from a to b, whose chains are given in the order of the way."""
        new = [*self._fill(a, b, left), *self._fill(b, a, right[::-1])]
        self._place(crossed, new, self._outer(crossed))

    def _place(
        self, slots: list[int], new: list[tuple[int, int, int]], outer: dict[tuple[int, int], int]
    ) -> None:
        """Put triangles into slots, beside each other and beside those round them."""
        inner = {}
        for t, (a, b, c) in zip(slots, new):
            inner[b, c] = inner[c, a] = inner[a, b] = t
            self._at[a] = self._at[b] = self._at[c] = t
        for t, (a, b, c) in zip(slots, new):
            sides = []
            for u, v in ((b, c), (c, a), (a, b)):
                beside = inner.get((v, u))
                if beside is None:
                    beside = outer.get((u, v), -1)  # a new piece of the rim has nothing beside it
                    if beside >= 0:
                        self._beside[beside][self._corner_opposite(beside, u, v)] = t
                sides.append(beside)
            self._corners[t], self._beside[t] = [a, b, c], sides

    def _outer(self, crossed: list[int]) -> dict[tuple[int, int], int]:
        """The triangles round the crossed ones, by the sides they share with them."""
        gone = set(crossed)
        outer = {}
        for t in crossed:
            a, b, c = self._corners[t]
            for side, beside in zip(((b, c), (c, a), (a, b)), self._beside[t]):
                if beside not in gone:
                    outer[side] = beside
        return outer

    def _fill(self, a: int, b: int, chain: list[int]) -> Iterator[tuple[int, int, int]]:
        """Triangles between the edge from a to b and the chain on its left, from a to b."""
        waiting = [(a, b, chain)]
        while waiting:
            a, b, chain = waiting.pop()
            if not chain:
                continue
            k = self._best(a, b, chain) if len(chain) > 1 else 0
            c = chain[k]
            yield a, b, c
            waiting += [(a, c, chain[:k]), (c, b, chain[k + 1 :])]

    def _best(self, a: int, b: int, chain: list[int]) -> int:
        """The point of the chain whose circle through a and b holds no other: that sees the edge under the widest
        angle."""
        if len(chain) >= MANY:
            return self._best_of_many(a, b, chain)
        (ax, ay), (bx, by) = self._places[a], self._places[b]
        best, least, ties, bound = -1, np.inf, [], 0.0
        for k, c in enumerate(chain):
            x, y = self._places[c]
            ux, uy, vx, vy = ax - x, ay - y, bx - x, by - y
            cross = ux * vy - uy * vx
            if cross <= 4.0 * DOUBT * (abs(ux * vy) + abs(uy * vx)):
                ties.append(k)  # in doubt whether it lies left of the edge at all
                continue
            value = (ux * vx + uy * vy) / cross
            bound = NEAR_TIE * (
                1.0 + (abs(ux * vx) + abs(uy * vy) + abs(ux * vy) + abs(uy * vx)) / cross * (1.0 + abs(value))
            )
            if best >= 0 and abs(value - least) <= bound:
                ties.append(k)
            elif value < least:
                best, least = k, value
        if not ties:
            return best
        return self._best_exactly(a, b, chain, range(len(chain)))

    def _best_of_many(self, a: int, b: int, chain: list[int]) -> int:
        u, v = self._xy[a] - self._xy[chain], self._xy[b] - self._xy[chain]
        terms = np.array([u[:, 0] * v[:, 1], -u[:, 1] * v[:, 0], u[:, 0] * v[:, 0], u[:, 1] * v[:, 1]])
        cross, sizes = terms[0] + terms[1], np.abs(terms).sum(axis=0)
        doubtful = cross <= 4.0 * DOUBT * (np.abs(terms[0]) + np.abs(terms[1]))
        with np.errstate(divide="ignore", invalid="ignore"):
            value = np.where(doubtful, np.inf, (terms[2] + terms[3]) / cross)
            bound = NEAR_TIE * (1.0 + sizes / np.abs(cross) * (1.0 + np.abs(value)))
        least = float(value.min())
        close = np.flatnonzero(doubtful | (value <= least + np.where(np.isfinite(bound), bound, 0.0)))
        if len(close) == 1:
            return int(close[0])
        return self._best_exactly(a, b, chain, close.tolist())

    def _best_exactly(self, a: int, b: int, chain: list[int], among: Iterable[int]) -> int:
        places = self._places
        left = [
            (exact_cotangent(places[a], places[b], places[chain[k]]), k)
            for k in among
            if side_of(places[a], places[b], places[chain[k]]) > 0
        ]
        if not left:
            raise self._no_way(a, b)
        return min(left)[1]

    def _crossing(self, a: int, b: int, p: int, q: int) -> BadInput:
        (ax, ay), (bx, by) = self._places[a], self._places[b]
        return BadInput(
            "Two breaklines cross near {east:.3f}, {north:.3f} in the survey plane and have no point in common there. "
            "Draw a point where they meet.",
            east=0.25 * (ax + bx + self._places[p][0] + self._places[q][0]),
            north=0.25 * (ay + by + self._places[p][1] + self._places[q][1]),
        )

    def _no_way(self, a: int, b: int) -> BadInput:
        (ax, ay), (bx, by) = self._places[a], self._places[b]
        return BadInput(
            "A breakline from {east:.3f}, {north:.3f} to {to_east:.3f}, {to_north:.3f} in the survey plane cannot be put "
            "in. Merge points within a larger distance, or leave out what lies too close to it.",
            east=ax,
            north=ay,
            to_east=bx,
            to_north=by,
        )
