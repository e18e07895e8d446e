# SPDX-License-Identifier: GPL-2.0-or-later
"""Which of many boxes meet, without looking at every pair."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..quantity import Floats, Ints

FEW = 10_000
"""Pairs up to which each is looked at: sorting the boxes would take longer."""
PAIRS = 2_000_000
"""Pairs of boxes looked at in one go, so that memory stays bounded."""


def find_meeting_boxes(
    low_a: Floats, high_a: Floats, low_b: Floats, high_b: Floats
) -> Iterator[tuple[Ints, Ints]]:
    """Numbers of the boxes a (n, 2) and b (m, 2) that meet, in blocks.

    Boxes b of about one width are sorted by their left ends, and each box a is held against those that start before
    it ends; by widths, because one long side among ten thousand steps would bring every step up for every box.
    """
    if len(low_a) * len(low_b) <= FEW:
        meets = (low_a[:, None] <= high_b) & (low_b <= high_a[:, None])
        i, k = np.nonzero(meets[:, :, 0] & meets[:, :, 1])
        yield i, k
        return
    width = high_b[:, 0] - low_b[:, 0]
    _, size = np.frexp(width)
    for group in np.unique(size):
        its = np.flatnonzero(size == group)
        for i, k in _sweep(low_a, high_a, low_b[its], float(width[its].max())):
            j = its[k]
            near = np.all((low_a[i] <= high_b[j]) & (low_b[j] <= high_a[i]), axis=1)
            yield i[near], j[near]


def _sweep(low_a: Floats, high_a: Floats, low_b: Floats, widest: float) -> Iterator[tuple[Ints, Ints]]:
    order = np.argsort(low_b[:, 0], kind="stable")
    lefts = low_b[order, 0]
    begin = np.searchsorted(lefts, low_a[:, 0] - widest, "left")
    counts = np.searchsorted(lefts, high_a[:, 0], "right") - begin
    block = np.concatenate([[0], np.cumsum(counts)])[:-1] // PAIRS
    for number in np.unique(block):
        rows = np.flatnonzero(block == number)
        i = np.repeat(rows, counts[rows])
        ends = np.cumsum(counts[rows])
        k = np.arange(len(i)) - np.repeat(ends - counts[rows] - begin[rows], counts[rows])
        yield i, order[k]
