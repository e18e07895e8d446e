# SPDX-License-Identifier: GPL-2.0-or-later
"""Two surfaces laid over each other: the convex pieces in which one triangle of each meet, exactly."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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
    def plan(self) -> Floats:
        """(2, 3, m) x and y of the corners."""
        return np.ascontiguousarray(self.corners.transpose(2, 1, 0))

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
        ax, ay, bx, by, cx, cy = self.weights.take(which, axis=1)
        dx, dy = x - ax, y - ay
        return dx * bx + dy * by, dx * cx + dy * cy

    def heights_at(self, which: Ints, x: Floats, y: Floats) -> Floats:
        """Heights of the planes of triangles (k,) at places (..., k)."""
        ax, ay, az, east, north = self.planes.take(which, axis=1)
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
        return Pieces(self.x.take(keep, axis=1), self.y.take(keep, axis=1), self.upper[keep], lower)


def clip(values: Sequence[Floats], d: Floats) -> tuple[list[Floats], Ints]:
    """The parts of convex polygons where an affine function is positive.

    Every polygon is cut by one straight (Sutherland and Hodgman, CACM 17 (1974) 32-42), all at once. What only touches
    the positive side is left out.

    Args:
        values: (s, n) each, what runs evenly between the corners: x, y, and what else is wanted; a polygon of fewer corners
            than s repeats its first.
        d: (s, n) the function at the corners; the corners at 0 stay.
    Returns:
        The values (t, k) of what is left, first of polygons that stay whole; and (k,) which polygons that is.
    """
    inside = d >= 0.0
    is_whole = inside.all(axis=0)
    some = (d > 0.0).any(axis=0)
    whole, crossed = np.flatnonzero(some & is_whole), np.flatnonzero(some & ~is_whole)
    kept = np.concatenate([whole, crossed])
    if not len(crossed):
        return [v.take(whole, axis=1) for v in values], kept
    ours = [v.take(crossed, axis=1) for v in values]
    cut = _cut(ours, d.take(crossed, axis=1), inside.take(crossed, axis=1))
    return [_together(v.take(whole, axis=1), one) for v, one in zip(values, cut)], kept


def _together(whole: Floats, cut: Floats) -> Floats:
    """Corners of polygons that stay whole and of those that were cut, both with as many."""
    if not whole.shape[1]:
        return cut
    out = np.empty((max(len(whole), len(cut)), whole.shape[1] + cut.shape[1]))
    for part, at in ((whole, slice(0, whole.shape[1])), (cut, slice(whole.shape[1], None))):
        out[: len(part), at], out[len(part) :, at] = part, part[0]
    return out


def _cut(values: Sequence[Floats], d: Floats, inside: Flags) -> list[Floats]:
    """Polygons with corners on both sides: the run of corners inside, then where the outline leaves and where it comes back,
    unless a corner is there already."""
    slots, n = d.shape
    begins = inside & ~np.roll(inside, 1, axis=0)
    torn = np.flatnonzero(_number_true(begins) > 1)
    if len(torn):
        inside[:, torn] = _main_run(d[:, torn], inside[:, torn])
        begins = inside & ~np.roll(inside, 1, axis=0)
    inner, column = _number_true(inside), np.arange(n)
    row = (begins * np.arange(slots, dtype=np.int8)[:, None]).sum(axis=0, dtype=np.int64)  # of the only one
    # Every polygon twice, one below the other, as one flat array: from a corner in the first the others follow at n.
    first = row * n + column
    last = first + (inner - 1) * n
    twice = np.concatenate([d, d]).ravel()
    d_first, d_last = twice[first], twice[last]
    d_before, d_after = twice[(slots - 1) * n :][first], twice[n:][last]
    leaves, comes = d_last / (d_last - d_after), d_before / (d_before - d_first)
    back = inner + (d_last > 0.0)
    count = back + (d_first > 0.0)
    least, most = int(count.min()), int(count.max())
    short = [(k, np.flatnonzero(count <= k)) for k in range(least, most)]
    at_inner, at_back = inner * n + column, back * n + column
    out = []
    for value in values:
        v, cut = np.concatenate([value, value]).ravel(), np.empty((slots + 1, n))
        for k in range(int(inner.max())):
            cut[k] = v[k * n :][first]
        end, start, flat = v[last], v[(slots - 1) * n :][first], cut.ravel()
        flat[at_inner] = end + leaves * (v[n:][last] - end)
        flat[at_back] = start + comes * (cut[0] - start)
        for k, rows in short:
            cut[k, rows] = cut[0, rows]
        out.append(cut[:most])
    return out


def _number_true(flags: Flags) -> Ints:
    """(n,) how many of (s, n) are, s below 128."""
    return np.asarray(flags.view(np.int8).sum(axis=0, dtype=np.int8), np.int64)


def _main_run(d: Floats, inside: Flags) -> Flags:
    """Of the corners inside those that hang together with the one farthest in: a convex polygon has no others, but where
    corners lie on the straight and rounding puts some of them to either side."""
    slots, n = d.shape
    turned = (d.argmax(axis=0) + np.arange(slots)[:, None]) % slots
    from_top = np.take_along_axis(inside, turned, axis=0)
    ahead = np.logical_and.accumulate(from_top, axis=0)
    behind = np.logical_and.accumulate(from_top[::-1], axis=0)[::-1]
    out = np.zeros((slots, n), bool)
    np.put_along_axis(out, turned, ahead | behind, axis=0)
    return out


def clip_to(pieces: Pieces, facets: Facets, which: Ints) -> tuple[Pieces, Ints]:
    """Polygons cut by a triangle each: what is left, and the triangles (k,) that it lies in."""
    second, third = facets.weights_at(which, pieces.x, pieces.y)
    first = 1.0 - second - third
    # What lies beyond one side with all its corners has nothing in common with the triangle.
    near = np.flatnonzero((first > 0.0).any(axis=0) & (second > 0.0).any(axis=0) & (third > 0.0).any(axis=0))
    at = near
    x, y, d = (v.take(near, axis=1) for v in (pieces.x, pieces.y, first))
    for corner in (0, 1, 2):
        if corner:
            # From the places, not cut as they are: in a needle it is they, rounded, that lie inside or not.
            d = facets.weights_at(which[at], x, y)[corner - 1]
        (x, y), kept = clip((x, y), d)
        at = at[kept]
    lower = pieces.lower[at] if len(pieces.lower) else NONE
    return Pieces(x, y, pieces.upper[at], lower), which[at]


def own_pieces(upper: Facets, which: Ints) -> Pieces:
    """Triangles (k,) of the upper surface as pieces."""
    x, y = upper.plan.take(which, axis=2)
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
