# SPDX-License-Identifier: GPL-2.0-or-later
"""Contours of a surface: exact on its triangles, and joined into lines.

A corner at a contour's very height counts as above it. So a line that runs through a corner or along a side is drawn once,
level ground has its contour where it falls off, and no line ends inside the surface.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from .surface import Surface

MOST_PIECES = 20_000_000
"""Crossings of triangles and heights up to which contours are drawn: beyond, the interval was meant otherwise."""


@dataclass(frozen=True, eq=False)
class Contour:
    """One line at one height.

    Attributes:
        height: metres.
        points: (k, 3) metres in the survey plane, higher ground on the left; the last is the first where it closes.
        sigma: one-sigma of the surface's height along it, metres: root mean square over its length, from the points'
            heights and the ground between them.
        shift_sigma: one-sigma of its place across its run, metres: `sigma` by the slope, likewise.
        is_weak: whether a part of it runs over weak triangles.
    """

    height: float
    points: Floats
    sigma: float
    shift_sigma: float
    is_weak: bool

    @property
    def is_closed(self) -> bool:
        """Whether it goes round something."""
        return bool((self.points[0] == self.points[-1]).all())


def draw_contours(surface: Surface, interval: float, base: float = 0.0) -> tuple[Contour, ...]:
    """The contours of a surface at base + k interval, from low to high.

    Args:
        surface: in metres.
        interval: metres of height from one to the next.
        base: a height that has one, metres.
    Raises:
        BadInput: an interval that is not above 0, or so small that nothing could be seen.
    """
    if not (np.isfinite(interval) and interval > 0.0 and np.isfinite(base)):
        raise BadInput("The interval of contours is {interval:g} m. Give one above 0.", interval=interval)
    if not len(surface.triangles):
        return ()
    triangle, level = _crossed(surface, interval, base)
    if not len(triangle):
        return ()
    pieces = _pieces(surface, triangle, base + level * interval)
    out = []
    starts = np.flatnonzero(np.append(True, np.diff(level) != 0))
    for first, last in zip(starts, np.append(starts[1:], len(level))):
        out += _lines(surface, pieces.part(first, last), float(base + level[first] * interval))
    return tuple(out)


def _crossed(surface: Surface, interval: float, base: float) -> tuple[Ints, Ints]:
    """Triangles and numbers of the heights that cross them, by height."""
    z = surface.corners[:, :, 2]
    low, high = np.floor((z.min(axis=1) - base) / interval), np.ceil((z.max(axis=1) - base) / interval)
    # One more at either end: the test of corners against heights decides, not this rounding.
    count = (high - low + 1).astype(np.int64)
    if count.sum() > MOST_PIECES:
        raise BadInput(
            "Contours every {interval:g} m are more than can be drawn on heights from {low:.2f} to {high:.2f} m. Give a "
            "larger interval.",
            interval=interval,
            low=float(z.min()),
            high=float(z.max()),
        )
    triangle = np.repeat(np.arange(len(z)), count)
    level = np.repeat(low, count) + np.arange(len(triangle)) - np.repeat(np.cumsum(count) - count, count)
    above = z[triangle] >= (base + level * interval)[:, None]
    crossed = above.any(axis=1) & ~above.all(axis=1)
    triangle, level = triangle[crossed], level[crossed].astype(np.int64)
    order = np.lexsort((triangle, level))
    return triangle[order], level[order]


@dataclass(frozen=True, eq=False)
class _Pieces:
    """Straights over single triangles, higher ground on the left: the side each comes in by and goes out by, as keys
    (p,), the places (p, 2) there, and the triangle."""

    enter: Ints
    leave: Ints
    start: Floats
    end: Floats
    triangle: Ints

    def part(self, first: int, last: int) -> _Pieces:
        some = slice(first, last)
        return _Pieces(
            self.enter[some], self.leave[some], self.start[some], self.end[some], self.triangle[some]
        )


def _pieces(surface: Surface, triangle: Ints, height: Floats) -> _Pieces:
    corners = surface.triangles[triangle]
    above = surface.points[corners, 2] >= height[:, None]
    # The corner that is alone on its side; from it, anticlockwise, the sides to its next and from its last are crossed.
    alone = np.argmax(above == (above.sum(axis=1) == 1)[:, None], axis=1)
    rows = np.arange(len(corners))
    v, w, u = (corners[rows, (alone + k) % 3] for k in range(3))
    is_top = above[rows, alone]
    # A corner alone above: in by the side to the next corner, out by the side from the last, to have it on the left.
    first, last = _crossing(surface, v, w, height), _crossing(surface, v, u, height)
    keys = _keys(v, w, len(surface.points)), _keys(v, u, len(surface.points))
    enter, leave = np.where(is_top, keys[0], keys[1]), np.where(is_top, keys[1], keys[0])
    start = np.where(is_top[:, None], first, last)
    end = np.where(is_top[:, None], last, first)
    return _Pieces(enter, leave, start, end, triangle)


def _keys(a: Ints, b: Ints, count: int) -> Ints:
    return np.asarray(np.minimum(a, b) * count + np.maximum(a, b))


def _crossing(surface: Surface, a: Ints, b: Ints, height: Floats) -> Floats:
    """(p, 2) where a side is at a height, from its lower point, so that both of its triangles find the same place; its
    ends to the bit where they are at that height."""
    za, zb = surface.points[a, 2], surface.points[b, 2]
    low, high = np.where(za < zb, a, b), np.where(za < zb, b, a)
    z0, z1 = surface.points[low, 2], surface.points[high, 2]
    part = ((height - z0) / (z1 - z0))[:, None]
    start, end = surface.points[low, :2], surface.points[high, :2]
    return np.where(part == 1.0, end, start + part * (end - start))


def _lines(surface: Surface, pieces: _Pieces, height: float) -> list[Contour]:
    """The pieces of one height, joined."""
    after = dict(zip(pieces.enter.tolist(), range(len(pieces.enter))))
    ends = set(pieces.leave.tolist())
    leave = pieces.leave.tolist()
    waiting = [k for k, key in enumerate(pieces.enter.tolist()) if key not in ends]
    used = np.zeros(len(leave), bool)
    out = []
    for first in [*waiting, *range(len(leave))]:
        if used[first]:
            continue
        chain, k = [], first
        while k is not None and not used[k]:
            used[k] = True
            chain.append(k)
            k = after.get(leave[k])
        line = _line(surface, pieces, np.array(chain), height)
        if line is not None:
            out.append(line)
    return out


def _line(surface: Surface, pieces: _Pieces, chain: Ints, height: float) -> Contour | None:
    """A contour through pieces in order; None where it is a single place (a top at the very height)."""
    xy = np.vstack([pieces.start[chain[:1]], pieces.end[chain]])
    step = np.diff(xy, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    moves = length > 0.0
    if not moves.any():
        return None
    xy = xy[np.append(True, moves)]
    triangle, length = pieces.triangle[chain][moves], length[moves]
    middle = 0.5 * (pieces.start[chain][moves] + pieces.end[chain][moves])
    variance = _variance(surface, triangle, middle)
    steep = np.maximum((surface.slopes[triangle] ** 2).sum(axis=1), 1e-300)
    total = length.sum()
    return Contour(
        height,
        np.column_stack([xy, np.full(len(xy), height)]),
        float(np.sqrt((length * variance).sum() / total)),
        float(np.sqrt((length * variance / steep).sum() / total)),
        bool(surface.is_weak[triangle].any()),
    )


def _variance(surface: Surface, triangle: Ints, xy: Floats) -> Floats:
    """(p,) variance of the surface's height at places in triangles: of the corners by their weights, and of the ground
    between the points."""
    corners = surface.corners[triangle][:, :, :2] - xy[:, None]
    x, y = corners[:, :, 0], corners[:, :, 1]
    twice = np.stack(
        [x[:, (k + 1) % 3] * y[:, (k + 2) % 3] - x[:, (k + 2) % 3] * y[:, (k + 1) % 3] for k in range(3)],
        axis=1,
    )
    weights = twice / twice.sum(axis=1, keepdims=True)
    at = surface.triangles[triangle]
    own = (weights**2 * surface.sigma[at] ** 2).sum(axis=1)
    together = (np.einsum("pc,pck->pk", weights, surface.shared[at]) ** 2).sum(axis=1)
    return np.asarray(own + together + surface.rough**2)
