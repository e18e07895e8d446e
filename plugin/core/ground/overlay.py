# SPDX-License-Identifier: GPL-2.0-or-later
"""Two surfaces laid over each other: the convex pieces in which one triangle of each meet, exactly."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..quantity import Floats, Ints
from .outline import Filled
from .pairs import BLOCK, box_pairs
from .surface import Flags, Surface

NONE = np.empty(0, np.int64)


@dataclass(frozen=True, eq=False)
class Facets:
    """Triangles about a centre, ready to be clipped by and to be asked for heights.

    Attributes:
        corners: (m, 3, 2) in plan, anticlockwise, metres from the centre.
        z: (m, 3) heights at the corners in metres; zeros where triangles have none.
    """

    corners: Floats
    z: Floats

    def __len__(self) -> int:
        return len(self.corners)

    @cached_property
    def boxes(self) -> Floats:
        """(m, 4) least x and y, greatest x and y."""
        return np.column_stack([self.corners.min(axis=1), self.corners.max(axis=1)])

    @cached_property
    def weights(self) -> Floats:
        """(6, m) ax, ay and the east and north slopes of the weights of the second and third corner."""
        a = self.corners[:, 0]
        u, v = self.corners[:, 1] - a, self.corners[:, 2] - a
        det = u[:, 0] * v[:, 1] - v[:, 0] * u[:, 1]
        return np.array([a[:, 0], a[:, 1], v[:, 1] / det, -v[:, 0] / det, -u[:, 1] / det, u[:, 0] / det])

    @cached_property
    def planes(self) -> Floats:
        """(5, m) ax, ay, height there, and its slopes east and north."""
        ax, ay, bx, by, cx, cy = self.weights
        up, more = self.z[:, 1] - self.z[:, 0], self.z[:, 2] - self.z[:, 0]
        return np.array([ax, ay, self.z[:, 0], bx * up + cx * more, by * up + cy * more])

    def weights_at(self, which: Ints, x: Floats, y: Floats) -> tuple[Floats, Floats]:
        """Weights of the second and third corner at places (..., k) of triangles (k,); the first has the rest."""
        ax, ay, bx, by, cx, cy = self.weights[:, which]
        dx, dy = x - ax, y - ay
        return dx * bx + dy * by, dx * cx + dy * cy

    def heights_at(self, which: Ints, x: Floats, y: Floats) -> Floats:
        """Heights of the planes of triangles (k,) at places (..., k)."""
        ax, ay, az, east, north = self.planes[:, which]
        return np.asarray(az + (x - ax) * east + (y - ay) * north)


def facets_of(surface: Surface, centre: Floats) -> Facets:
    """A surface's triangles about (3,) a centre."""
    points = surface.points - centre
    corners = points[surface.triangles]
    return Facets(np.ascontiguousarray(corners[:, :, :2]), np.ascontiguousarray(corners[:, :, 2]))


@dataclass(frozen=True, eq=False)
class Pieces:
    """Convex polygons, each within one triangle of the upper surface and, where there is a lower one, one of that.

    Attributes:
        x, y: (s, n) corners anticlockwise, metres from the centre; a polygon of fewer corners than s repeats its first.
        upper: (n,) the triangle of the upper surface.
        lower: (n,) that of the lower; empty where there is none.
    """

    x: Floats
    y: Floats
    upper: Ints
    lower: Ints

    def __len__(self) -> int:
        return self.x.shape[1]

    def only(self, keep: Ints) -> Pieces:
        """Some of them, by number."""
        lower = self.lower[keep] if len(self.lower) else self.lower
        return Pieces(self.x[:, keep], self.y[:, keep], self.upper[keep], lower)


def clip(x: Floats, y: Floats, d: Floats) -> tuple[Floats, Floats, Ints]:
    """The parts of convex polygons where an affine function is positive.

    Every polygon is cut by one straight (Sutherland and Hodgman, CACM 17 (1974) 32-42), all at once. What only touches
    the positive side is left out.

    Args:
        x: (s, n) corners, the first repeated to fill up.
        y: (s, n) the same.
        d: (s, n) the function at the corners; the corners at 0 stay.
    Returns:
        x and y (t, k) of what is left, and (k,) which polygons that is.
    """
    inside = d >= 0.0
    whole = inside.all(axis=0)
    some = (d > 0.0).any(axis=0)
    kept = np.flatnonzero(some)
    crossed = np.flatnonzero(some & ~whole)
    if not len(crossed):
        return x[:, kept], y[:, kept], kept
    if len(crossed) == x.shape[1]:
        return (*_cut(x, y, d, inside), kept)
    cut_x, cut_y = _cut(x[:, crossed], y[:, crossed], d[:, crossed], inside[:, crossed])
    slots = max(len(cut_x), len(x))
    place = np.searchsorted(kept, crossed)
    return _filled(x[:, kept], cut_x, place, slots), _filled(y[:, kept], cut_y, place, slots), kept


def _filled(whole: Floats, cut: Floats, place: Ints, slots: int) -> Floats:
    """The polygons that stay whole, and in their places those that were cut."""
    out = np.empty((slots, whole.shape[1]))
    out[: len(whole)], out[len(whole) :] = whole, whole[0]
    out[: len(cut), place], out[len(cut) :, place] = cut, cut[0]
    return out


def _cut(x: Floats, y: Floats, d: Floats, inside: Flags) -> tuple[Floats, Floats]:
    slots, n = x.shape
    after = np.roll(d, -1, axis=0)
    crosses = ((d > 0.0) & (after < 0.0)) | ((d < 0.0) & (after > 0.0))
    with np.errstate(divide="ignore", invalid="ignore"):
        part = d / (d - after)
    told = np.empty((2 * slots, n), bool)
    told[0::2], told[1::2] = inside, crosses
    place = np.cumsum(told, axis=0, dtype=np.int8) - 1
    where = np.flatnonzero(told)
    column = where % n
    target = place.ravel()[where].astype(np.int64) * n + column
    size = int(place[-1].max()) + 1
    count = place[-1] + 1
    with np.errstate(invalid="ignore"):
        return tuple(_packed(v, part, where, target, (size, count)) for v in (x, y))  # type: ignore[return-value]


def _packed(v: Floats, part: Floats, where: Ints, target: Ints, shape: tuple[int, Ints]) -> Floats:
    """Corners that stay and crossings, in order, the first repeated to fill up."""
    size, count = shape
    slots, n = v.shape
    both = np.empty((2 * slots, n))
    both[0::2] = v
    both[1::2] = v + part * (np.roll(v, -1, axis=0) - v)
    out = np.empty((size, n))
    out.ravel()[target] = both.ravel()[where]
    for k in range(1, size):
        np.copyto(out[k], out[0], where=count <= k)
    return out


def clip_to(pieces: Pieces, facets: Facets, which: Ints) -> tuple[Pieces, Ints]:
    """Polygons cut by a triangle each: what is left, and the triangles (k,) that it lies in."""
    x, y = pieces.x, pieces.y
    at = np.arange(len(pieces))
    for corner in (0, 1, 2):
        second, third = facets.weights_at(which[at], x, y)
        d = (1.0 - second - third, second, third)[corner]
        x, y, kept = clip(x, y, d)
        at = at[kept]
    lower = pieces.lower[at] if len(pieces.lower) else NONE
    return Pieces(x, y, pieces.upper[at], lower), which[at]


def own_pieces(upper: Facets, which: Ints) -> Pieces:
    """Triangles (k,) of the upper surface as pieces."""
    corners = upper.corners[which]
    x, y = (np.ascontiguousarray(corners[:, :, k].T) for k in (0, 1))
    return Pieces(x, y, which, NONE)


def lay_over(upper: Facets, lower: Facets | None, over: Filled | None) -> Iterator[Pieces]:
    """The pieces that both surfaces cover, in blocks: they fill the common part once, without overlap.

    Args:
        upper: the one surface.
        lower: the other; None: the pieces are those of the upper one alone.
        over: what the pieces are kept within, metres from the same centre; None: everywhere.
    """
    if lower is None:
        yield from _blocks_of(upper) if over is None else _within(upper, over)
    elif over is None:
        for i, j in box_pairs(upper.boxes, lower.boxes):
            left, below = clip_to(own_pieces(upper, i), lower, j)
            yield Pieces(left.x, left.y, left.upper, below)
    elif len(lower) > len(upper):
        # The outline cuts the finer surface, so that its many small parts meet few triangles each.
        for pieces in _onto(_all_of(_within(lower, over)), upper):
            yield Pieces(pieces.x, pieces.y, pieces.lower, pieces.upper)
    else:
        yield from _onto(_all_of(_within(upper, over)), lower)


def _blocks_of(facets: Facets) -> Iterator[Pieces]:
    for first in range(0, len(facets), BLOCK):
        yield own_pieces(facets, np.arange(first, min(first + BLOCK, len(facets))))


def _within(facets: Facets, over: Filled) -> Iterator[Pieces]:
    """What of triangles lies within an outline: those that no edge of it reaches stay whole."""
    low, high = over.ends.min(axis=(0, 1)), over.ends.max(axis=(0, 1))
    near = (facets.boxes[:, :2] <= high).all(axis=1) & (facets.boxes[:, 2:] >= low).all(axis=1)
    cut = _on_edges(facets, np.flatnonzero(near), over)
    near[cut] = False
    clear = np.flatnonzero(near)
    whole = clear[over.encloses(facets.corners[clear].mean(axis=1))]
    for first in range(0, len(whole), BLOCK):
        yield own_pieces(facets, whole[first : first + BLOCK])
    fill = Facets(over.corners, np.zeros((len(over.corners), 3)))
    for i, j in box_pairs(facets.boxes[cut], fill.boxes):
        yield clip_to(own_pieces(facets, cut[i]), fill, j)[0]


def _on_edges(facets: Facets, near: Ints, over: Filled) -> Ints:
    """Triangles that an edge of an outline may reach: those with its box in theirs, and not all on one side of it."""
    p, q = over.ends[:, 0], over.ends[:, 1]
    boxes = np.column_stack([np.minimum(p, q), np.maximum(p, q)])
    found = np.zeros(len(facets), bool)
    for i, j in box_pairs(facets.boxes[near], boxes):
        away = facets.corners[near[i]] - p[j][:, None]
        along = (q - p)[j]
        side = along[:, None, 0] * away[..., 1] - along[:, None, 1] * away[..., 0]
        on = ~((side > 0.0).all(axis=1) | (side < 0.0).all(axis=1))
        found[near[i[on]]] = True
    return np.flatnonzero(found)


def _onto(within: Pieces, lower: Facets) -> Iterator[Pieces]:
    """Pieces of the upper surface cut by the triangles of the lower."""
    if not len(within):
        return
    x, y = within.x, within.y
    boxes = np.column_stack([x.min(axis=0), y.min(axis=0), x.max(axis=0), y.max(axis=0)])
    low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
    near = np.flatnonzero((lower.boxes[:, :2] <= high).all(axis=1) & (lower.boxes[:, 2:] >= low).all(axis=1))
    for i, j in box_pairs(boxes, lower.boxes[near]):
        left, below = clip_to(within.only(i), lower, near[j])
        yield Pieces(left.x, left.y, left.upper, below)


def _all_of(blocks: Iterator[Pieces]) -> Pieces:
    some = list(blocks)
    if not some:
        return Pieces(np.empty((3, 0)), np.empty((3, 0)), NONE, NONE)
    slots = max(len(one.x) for one in some)
    x, y = (
        np.hstack([np.vstack([v, *[v[:1]] * (slots - len(v))]) for v in (getattr(one, axis) for one in some)])
        for axis in ("x", "y")
    )
    return Pieces(x, y, np.concatenate([one.upper for one in some]), NONE)


def moments(pieces: Pieces) -> tuple[Floats, Floats, Floats]:
    """(n,) area in m2 and centre of each piece; a piece that rounding left without area has none and its first corner."""
    x, y = pieces.x, pieces.y
    dx, dy = x[1:] - x[0], y[1:] - y[0]
    twice = dx[:-1] * dy[1:] - dx[1:] * dy[:-1]
    double = twice.sum(axis=0)
    good = double > 0.0
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(good, twice / (3.0 * double), 0.0)
    east = (share * (dx[:-1] + dx[1:])).sum(axis=0)
    north = (share * (dy[:-1] + dy[1:])).sum(axis=0)
    return np.where(good, 0.5 * double, 0.0), x[0] + east, y[0] + north
