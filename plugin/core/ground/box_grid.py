# SPDX-License-Identifier: GPL-2.0-or-later
"""Which of a million boxes a straight comes near: cells of several sizes, each box in one cell of its own size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from ..quantity import Floats, Ints

FEW = 512
"""So many boxes are looked at one by one."""
GROWTH = 6.0
"""From one size of cells to the next; a box is held against lines within half a cell of it at most."""
CELLS_A_BOX = 2.0
"""No more cells than this by box, so that a few boxes far apart take no memory."""


@dataclass(frozen=True, eq=False)
class _Level:
    """Boxes of one size.

    Attributes:
        size: of a cell, metres; no box reaches farther than half of it from its middle along either axis.
        low: (2,) the grid's corner. shape: rows and columns.
        first: (cells + 1,) where each cell's boxes begin, in the grid's order: cell by cell, row by row.
    """

    size: float
    low: Floats
    shape: tuple[int, int]
    first: Ints

    def near(self, start: Floats, end: Floats) -> tuple[Ints, Ints]:
        """Straights and boxes of whom the box comes within half a cell of the straight along both axes (and some more).

        In each row of cells the straight's part beside it covers a run of columns, whose boxes lie one after another.
        """
        straight, row = self._rows(start, end)
        if not len(straight):
            return straight, row
        a, way = start[straight] - self.low, (end - start)[straight]
        margin = 0.5 * self.size
        with np.errstate(divide="ignore", invalid="ignore"):
            one = (row * self.size - margin - a[:, 1]) / way[:, 1]
            other = ((row + 1) * self.size + margin - a[:, 1]) / way[:, 1]
        level = way[:, 1] == 0.0
        enter = np.where(level, 0.0, _within(np.fmin(one, other), 0.0, 1.0))
        leave = np.where(level, 1.0, _within(np.fmax(one, other), 0.0, 1.0))
        x0, x1 = a[:, 0] + enter * way[:, 0], a[:, 0] + leave * way[:, 0]
        last = self.shape[1] - 1
        from_column = self._cell(np.minimum(x0, x1) - margin)
        to_column = self._cell(np.maximum(x0, x1) + margin)
        is_beside = (to_column < 0) | (from_column > last)
        begin = self.first[row * self.shape[1] + _within(from_column, 0, last)]
        stop = self.first[row * self.shape[1] + _within(to_column, 0, last) + 1]
        count = np.where(is_beside, 0, stop - begin)
        return np.repeat(straight, count), spans(begin, count)

    def _rows(self, start: Floats, end: Floats) -> tuple[Ints, Ints]:
        """Each straight with each row that it comes within half a cell of."""
        y0, y1 = start[:, 1] - self.low[1], end[:, 1] - self.low[1]
        low = self._cell(np.minimum(y0, y1) - 0.5 * self.size)
        high = self._cell(np.maximum(y0, y1) + 0.5 * self.size)
        low, high = np.maximum(low, 0), np.minimum(high, self.shape[0] - 1)
        count = np.maximum(high - low + 1, 0)
        return np.repeat(np.arange(len(count)), count), spans(low, count)

    def _cell(self, along: Floats) -> Ints:
        """Numbers of cells along one axis; far outside they are cut off, so that no number overflows."""
        return np.asarray(np.floor(_within(along / self.size, -2.0, 1e9)).astype(np.int64))


class BoxGrid:
    """Boxes by their place, for straights to find; built once. `order` (n,) has the numbers of the boxes in the grid's
    order, in which neighbours lie near each other in memory too.

    Args:
        low: (n, 2) the boxes' lower corners, metres from a point among them.
        high: (n, 2) their upper ones.
        slack: metres that a box may lie off a straight and still be found.
    """

    def __init__(self, low: Floats, high: Floats, slack: float = 0.0) -> None:
        """Sort the boxes into cells."""
        middle = 0.5 * (low + high)
        half = 0.5 * (high - low).max(axis=1) + slack if len(low) else np.zeros(0)
        self._levels: list[_Level] = []
        rest, done, orders = np.arange(len(low)), 0, []
        while len(rest) > FEW:
            level, here, rest = _level(middle, half, rest, done)
            self._levels.append(level)
            orders.append(here)
            done += len(here)
        self._rest = np.arange(done, len(low))
        self.order: Ints = np.concatenate([*orders, rest])

    def near(self, start: Floats, end: Floats) -> tuple[Ints, Ints]:
        """Numbers of straights (m, 2) to (m, 2), and places in `order` of boxes that they may meet; all that they meet
        are among them, each pair once."""
        found = [level.near(start, end) for level in self._levels]
        count = len(self._rest)
        found.append((np.repeat(np.arange(len(start)), count), np.tile(self._rest, len(start))))
        straight, box = (np.concatenate(part) for part in zip(*found))
        return straight, box


def _level(middle: Floats, half: Floats, rest: Ints, done: int) -> tuple[_Level, Ints, Ints]:
    """A grid for the smaller of the boxes that are left, these in its order, and the others."""
    middle, half = middle[rest], half[rest]
    low, high = middle.min(axis=0), middle.max(axis=0)
    wide = np.maximum(high - low, 0.0)
    least = float(np.sqrt(wide[0] * wide[1] / (CELLS_A_BOX * len(rest))))
    least = max(least, float(wide.max()) / (CELLS_A_BOX * len(rest)))
    size = max(GROWTH * float(np.median(half)), least, 1e-9)
    is_small = half <= 0.5 * size
    here = rest[is_small]
    cell = np.floor((middle[is_small] - low) / size).astype(np.int64)
    columns, rows = (int(k) for k in np.floor(wide / size).astype(np.int64) + 1)
    number = cell[:, 1] * columns + cell[:, 0]
    first = np.concatenate([[done], done + np.cumsum(np.bincount(number, minlength=rows * columns))])
    order = np.argsort(number, kind="stable")
    return _Level(size, low, (rows, columns), first.astype(np.int64)), here[order], rest[~is_small]


def _within(values: npt.NDArray[Any], low: float, high: float) -> npt.NDArray[Any]:
    """As the library's clip, at a third of its time for a thousand values."""
    return np.minimum(np.maximum(values, low), high)


def spans(begin: Ints, count: Ints) -> Ints:
    """Whole numbers from each `begin`, `count` of them, one run after another."""
    total = int(count.sum())
    offset = np.repeat(begin - np.cumsum(count) + count, count)
    return np.asarray(np.arange(total) + offset, np.int64)
