# SPDX-License-Identifier: GPL-2.0-or-later
"""Polygons side by side as few: what two of them share falls away, and what is left are rings.

A side that one piece walks one way and its neighbour the other way lies inside the whole. What is left when all such are
taken out is the whole's outline, walked with the ground to the left: round the outside anticlockwise, round voids clockwise.
Pieces that hang together by shared sides are one polygon.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from ..quantity import Floats, Ints
from .overlay import Pieces
from .pairs import box_pairs
from .weld import number_places

SAME = 1e-6
"""Metres within which corners of neighbours are one, and lie on each other's sides."""
SLIVER = 1e-6
"""m2 below which a polygon or a void is only rounding."""

Polygon = tuple[Floats, ...]
"""Rings (k, 2) in metres, each ending with its first point: the outer one and the voids."""


@dataclass(frozen=True, eq=False)
class _Sides:
    """Sides of pieces, (e,) each: the corners that it runs from and to, and the piece, which lies to its left."""

    start: Ints
    end: Ints
    piece: Ints

    def only(self, rows: Ints) -> _Sides:
        return _Sides(self.start[rows], self.end[rows], self.piece[rows])


def merge_pieces(blocks: Sequence[Pieces]) -> tuple[Polygon, ...]:
    """Polygons that pieces fill together.

    Args:
        blocks: pieces that do not overlap, metres.
    Returns:
        Polygons, outer rings anticlockwise, voids clockwise. Corners are the pieces' own, such as lie within SAME of each
        other taken for one.
    """
    count = sum(map(len, blocks))
    if not count:
        return ()
    sides, xy = _sides_of(blocks)
    left, linked = _set_off(sides, len(xy))
    # Pieces of unlike cutting meet where only one of them has a corner.
    left, linked_there = _set_off(_divided(left, xy), len(xy))
    group = _groups(np.vstack([linked, linked_there]), count)
    loops = list(_loops(left, xy))
    return _polygons(loops, group[left.piece], left.start, xy)


def _sides_of(blocks: Sequence[Pieces]) -> tuple[_Sides, Floats]:
    """All sides, and (n, 2) the corners that they run between."""
    corners = np.vstack([np.column_stack([one.x.T.ravel(), one.y.T.ravel()]) for one in blocks])
    number, first = number_places(corners, SAME)
    found, done, pieces = [], 0, 0
    for one in blocks:
        start = number[done : done + one.x.size].reshape(one.x.shape[::-1])
        piece = np.repeat(np.arange(pieces, pieces + len(one)), len(one.x))
        found.append((start.ravel(), np.roll(start, -1, axis=1).ravel(), piece))
        done, pieces = done + one.x.size, pieces + len(one)
    start, end, piece = (np.concatenate(part) for part in zip(*found))
    rows = np.flatnonzero(start != end)
    return _Sides(start, end, piece).only(rows), corners[first]


def _set_off(sides: _Sides, count: int) -> tuple[_Sides, Ints]:
    """The sides that no other walks the other way, and (k, 2) the pieces on either side of those that one does.

    Args:
        sides: between corners.
        count: of corners.
    """
    low, high = np.minimum(sides.start, sides.end), np.maximum(sides.start, sides.end)
    key = 2 * (low * count + high) + (sides.start > sides.end)
    order = np.argsort(key)
    key = key[order]
    is_first = np.ones(len(key), bool)
    is_first[1:] = key[1:] != key[:-1]
    begin = np.flatnonzero(is_first)
    size = np.diff(np.append(begin, len(key)))
    # The same two corners the other way round have the last bit turned over.
    back = np.searchsorted(key[begin], key[begin] ^ 1)
    back = np.where(back < len(begin), back, 0)
    has_back = key[begin[back]] == key[begin] ^ 1
    run = np.repeat(np.arange(len(begin)), size)
    rank = np.arange(len(key)) - begin[run]
    alone = rank >= np.where(has_back, size[back], 0)[run]
    ahead = np.flatnonzero(~alone & (key % 2 == 0))
    other = begin[back[run[ahead]]] + rank[ahead]
    linked = np.column_stack([sides.piece[order[ahead]], sides.piece[order[other]]])
    return sides.only(order[np.flatnonzero(alone)]), linked


def _divided(sides: _Sides, xy: Floats) -> _Sides:
    """Sides as chains through the corners of others that lie on them."""
    used = np.unique(sides.start)
    p, q = xy[sides.start], xy[sides.end]
    boxes = np.column_stack([np.minimum(p, q) - SAME, np.maximum(p, q) + SAME])
    corner, of, along = [sides.start], [np.arange(len(p))], [np.zeros(len(p))]
    for i, j in box_pairs(boxes, np.column_stack([xy[used], xy[used]])):
        way, to = q[i] - p[i], xy[used[j]] - p[i]
        square = (way**2).sum(axis=1)
        part = (way * to).sum(axis=1) / square
        off = np.abs(way[:, 0] * to[:, 1] - way[:, 1] * to[:, 0])
        on = (off <= SAME * np.sqrt(square)) & (part > 0.0) & (part < 1.0)
        on &= (used[j] != sides.start[i]) & (used[j] != sides.end[i])
        corner.append(used[j[on]])
        of.append(i[on])
        along.append(part[on])
    corners, side = np.concatenate(corner), np.concatenate(of)
    order = np.lexsort((np.concatenate(along), side))
    start, side = corners[order], side[order]
    end = np.roll(start, -1)
    last = np.ones(len(side), bool)
    last[:-1] = side[1:] != side[:-1]
    end[last] = sides.end[side[last]]
    return _Sides(start, end, sides.piece[side])


def _groups(linked: Ints, count: int) -> Ints:
    """(count,) a number for each piece, the same for those that hang together."""
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    ones = np.ones(len(linked), bool)
    graph = coo_matrix((ones, (linked[:, 0], linked[:, 1])), shape=(count, count))
    return np.asarray(connected_components(graph, directed=False)[1], np.int64)


def _loops(sides: _Sides, xy: Floats) -> Iterator[list[int]]:
    """The closed ways of sides, by their numbers; none meets itself at a corner."""
    follow, start = _followers(sides, xy).tolist(), sides.start.tolist()
    is_done = [False] * len(follow)
    for first in range(len(follow)):
        way, k = [], first
        while not is_done[k]:
            is_done[k] = True
            way.append(k)
            k = follow[k]
        if way:
            yield from _simple(way, start)


def _simple(way: list[int], start: list[int]) -> Iterator[list[int]]:
    """A closed way taken apart where it comes back to a corner."""
    at: dict[int, int] = {}
    kept: list[int] = []
    for k in way:
        if start[k] in at:
            cut = at[start[k]]
            yield kept[cut:]
            for gone in kept[cut:]:
                del at[start[gone]]
            del kept[cut:]
        at[start[k]] = len(kept)
        kept.append(k)
    yield kept


def _followers(sides: _Sides, xy: Floats) -> Ints:
    """(e,) the side by which the outline goes on after each: mostly the only one that begins where it ends."""
    order = np.argsort(sides.start, kind="stable")
    begins = sides.start[order]
    first = np.searchsorted(begins, sides.end)
    count = np.searchsorted(begins, sides.end, side="right") - first
    follow = order[first]
    several = np.flatnonzero(count > 1)
    way = xy[sides.end] - xy[sides.start]
    angle = np.arctan2(way[:, 1], way[:, 0])
    for corner in np.unique(sides.end[several]).tolist():
        coming = several[sides.end[several] == corner]
        going = order[first[coming[0]] : first[coming[0]] + len(coming)].tolist()
        for k in coming.tolist():
            # Clockwise from the way back lies the ground, and then the side on its other hand.
            turns = [(angle[k] + np.pi - angle[other]) % (2.0 * np.pi) for other in going]
            follow[k] = going.pop(int(np.argmin(turns)))
    return np.asarray(follow)


def _polygons(loops: list[list[int]], group: Ints, start: Ints, xy: Floats) -> tuple[Polygon, ...]:
    """Loops of sides, of groups (e,), as polygons: of each group its outer ring and its voids."""
    outer: dict[int, tuple[float, Floats]] = {}
    voids: dict[int, list[Floats]] = {}
    for loop in loops:
        ring = xy[start[[*loop, loop[0]]]]
        area, of = _area(ring), int(group[loop[0]])
        if area > max(SLIVER, outer[of][0] if of in outer else 0.0):
            outer[of] = area, ring
        elif area < -SLIVER:
            voids.setdefault(of, []).append(ring)
    return tuple((ring, *voids.get(of, ())) for of, (_, ring) in sorted(outer.items()))


def _area(ring: Floats) -> float:
    x, y = (ring - ring[0]).T
    return 0.5 * float(x[:-1] @ y[1:] - x[1:] @ y[:-1])
