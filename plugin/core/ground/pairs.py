# SPDX-License-Identifier: GPL-2.0-or-later
"""Which boxes of two sets meet, found in a grid that is made finer where many lie in one cell."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ..quantity import Floats, Ints

BLOCK = 1 << 15
"""Pairs that are handed on together: enough for arrays to pay, few enough to stay near the processor."""
CANDIDATES = 1 << 18
"""Pairs of one cell that are held against each other at once."""
BOXES_A_CELL = 8.0
"""Boxes by cell, of both sets together."""
MOST_ENTRIES = 8
"""Cells that a box may lie in, on average; a grid that is finer than that is made coarser."""
HEAVY = 1 << 16
"""Pairs of one cell beyond which it gets a grid of its own."""
DEEPEST = 8
"""Grids within grids."""
WORTH = 0.5
"""Of all pairs: a grid whose cells hold more than this together is worth nothing, and finer ones are not either."""
FIRST_COLUMN, FIRST_ROW, BOTH = 1, 2, 3


def box_pairs(a: Floats, b: Floats) -> Iterator[tuple[Ints, Ints]]:
    """Pairs of boxes that overlap or touch, each once, in blocks.

    A pair is found in the one cell that holds the lower left corner of what the two boxes share, which is in the first
    column of either box and in the first row of either.

    Args:
        a: (n, 4) least x, least y, greatest x, greatest y, metres.
        b: (m, 4) the same.
    Returns:
        Blocks of rows of `a` (k,) and of `b` (k,), k at most a few times `BLOCK`.
    """
    waiting: list[tuple[Ints, Ints]] = []
    count = 0
    for i, j in _pairs(a, b, 0):
        waiting.append((i, j))
        count += len(i)
        if count >= BLOCK:
            yield _joined(waiting)
            waiting, count = [], 0
    if count:
        yield _joined(waiting)


def _joined(some: list[tuple[Ints, Ints]]) -> tuple[Ints, Ints]:
    if len(some) == 1:
        return some[0]
    return np.concatenate([i for i, _ in some]), np.concatenate([j for _, j in some])


@dataclass(frozen=True, eq=False)
class _Entries:
    """Boxes by the cells they lie in, ordered by cell.

    Attributes:
        box: (e,) its number.
        first: (e,) whether the cell is in the box's first column (1), its first row (2).
        cell: (e,) ascending.
    """

    box: Ints
    first: Ints
    cell: Ints


@dataclass(frozen=True, eq=False)
class _Grid:
    """Columns and rows of cells over a region; boxes beyond it belong to its outermost cells."""

    low: Floats
    size: Floats
    shape: tuple[int, int]

    def spans(self, boxes: Floats) -> tuple[Ints, Ints]:
        """(n, 2) first and last column and row of each box."""
        with np.errstate(invalid="ignore", over="ignore"):
            first = np.floor((boxes[:, :2] - self.low) / self.size)
            last = np.floor((boxes[:, 2:] - self.low) / self.size)
        most = np.array(self.shape) - 1
        return np.clip(first, 0, most).astype(np.int64), np.clip(last, 0, most).astype(np.int64)

    def entries(self, boxes: Floats) -> _Entries:
        first, last = self.spans(boxes)
        wide, high = (last - first + 1).T
        box = np.repeat(np.arange(len(boxes)), wide * high)
        k = np.arange(len(box)) - np.repeat(np.cumsum(wide * high) - wide * high, wide * high)
        row, column = np.divmod(k, wide[box])
        flags = ((column == 0) * FIRST_COLUMN + (row == 0) * FIRST_ROW).astype(np.int8)
        cell = (row + first[box, 1]) * self.shape[0] + column + first[box, 0]
        order = np.argsort(cell, kind="stable")
        return _Entries(box[order], flags[order], cell[order])


def _pairs(a: Floats, b: Floats, depth: int) -> Iterator[tuple[Ints, Ints]]:
    if not len(a) or not len(b):
        return
    grid = _grid_for(a, b)
    ours, theirs = grid.entries(a), grid.entries(b)
    cells = grid.shape[0] * grid.shape[1]
    starts = np.searchsorted(theirs.cell, np.arange(cells + 1))
    per = np.diff(starts)[ours.cell]
    work = np.bincount(ours.cell, weights=per, minlength=cells)
    if work.sum() > WORTH * len(a) * len(b):
        yield from _all_pairs(a, b)
        return
    heavy = work > HEAVY if depth < DEEPEST else np.zeros(cells, bool)
    light = np.flatnonzero((per > 0) & ~heavy[ours.cell])
    yield from _in_cells(a, b, ours, theirs, (light, per[light], starts))
    for cell in np.flatnonzero(heavy):
        yield from _within(a, b, ours, theirs, int(cell), depth)


def _all_pairs(a: Floats, b: Floats) -> Iterator[tuple[Ints, Ints]]:
    """Every box against every other, where no grid helps: boxes that all share a place."""
    rows = max(CANDIDATES // len(b), 1)
    for first in range(0, len(a), rows):
        p, q = a[first : first + rows, None], b[None]
        meet = (p[..., :2] <= q[..., 2:]).all(axis=2) & (q[..., :2] <= p[..., 2:]).all(axis=2)
        i, j = np.nonzero(meet)
        yield i + first, j


def _grid_for(a: Floats, b: Floats) -> _Grid:
    """Cells over what both sets can share, about as many as a quarter of the boxes."""
    low = np.maximum(a[:, :2].min(axis=0), b[:, :2].min(axis=0))
    span = np.maximum(np.minimum(a[:, 2:].max(axis=0), b[:, 2:].max(axis=0)) - low, 0.0)
    wanted = (len(a) + len(b)) / BOXES_A_CELL
    while True:
        shape = _shape_of(span, wanted)
        size = np.where(span > 0.0, span / shape, 1.0)
        grid = _Grid(low, size, (int(shape[0]), int(shape[1])))
        entries = sum(
            float(np.prod(last - first + 1, axis=1).sum()) for first, last in map(grid.spans, (a, b))
        )
        if entries <= MOST_ENTRIES * (len(a) + len(b)) or wanted <= 1.0:
            return grid
        wanted /= 4.0


def _shape_of(span: Floats, wanted: float) -> Ints:
    """Columns and rows of nearly square cells."""
    if not (span > 0.0).all():
        return np.where(span > 0.0, max(int(wanted), 1), 1).astype(np.int64)
    side = np.sqrt(span[0] * span[1] / max(wanted, 1.0))
    return np.asarray(np.clip(np.round(span / side), 1, max(int(wanted), 1)).astype(np.int64))


def _in_cells(
    a: Floats, b: Floats, ours: _Entries, theirs: _Entries, which: tuple[Ints, Ints, Ints]
) -> Iterator[tuple[Ints, Ints]]:
    """Each of our entries held against all of theirs in its cell, some hundred thousand pairs at a time."""
    light, per, starts = which
    ends = np.cumsum(per)
    done = 0
    while done < len(light):
        before = ends[done] - per[done]
        last = max(int(np.searchsorted(ends, before + CANDIDATES, side="right")), done + 1)
        entry, count = light[done:last], per[done:last]
        at = np.repeat(entry, count)
        run = np.arange(len(at)) - np.repeat(np.cumsum(count) - count, count)
        other = run + np.repeat(starts[ours.cell[entry]], count)
        owned = np.flatnonzero((ours.first[at] | theirs.first[other]) == BOTH)
        yield _that_meet(a, b, ours.box[at[owned]], theirs.box[other[owned]])
        done = last


def _that_meet(a: Floats, b: Floats, i: Ints, j: Ints) -> tuple[Ints, Ints]:
    meet = (a[i, 0] <= b[j, 2]) & (b[j, 0] <= a[i, 2])
    meet &= (a[i, 1] <= b[j, 3]) & (b[j, 1] <= a[i, 3])
    return i[meet], j[meet]


def _within(
    a: Floats, b: Floats, ours: _Entries, theirs: _Entries, cell: int, depth: int
) -> Iterator[tuple[Ints, Ints]]:
    """One crowded cell with a grid of its own; what belongs to another cell by its corner is left to that."""
    (first, last), (start, end) = (np.searchsorted(e.cell, [cell, cell + 1]) for e in (ours, theirs))
    p, q = ours.box[first:last], theirs.box[start:end]
    for i, j in _pairs(a[p], b[q], depth + 1):
        owned = (ours.first[first + i] | theirs.first[start + j]) == BOTH
        yield p[i[owned]], q[j[owned]]
