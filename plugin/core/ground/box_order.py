# SPDX-License-Identifier: GPL-2.0-or-later
"""Which of a million boxes meet one box, asked thousands of times."""

from __future__ import annotations

import numpy as np

from ..quantity import Floats, Ints


class BoxOrder:
    """Boxes in the order of their left sides, with how far to the right any of them has reached by then.

    The boxes that meet another lie between the first place where one has reached its left side and the last one that begins
    before its right side; of boxes of one size these are a strip of the ground, whatever lies beside it.
    """

    def __init__(self, low: Floats, high: Floats) -> None:
        """(n, 2) lower left and upper right corners."""
        self._order = np.argsort(low[:, 0], kind="stable")
        # One row a bound, so that a strip of it lies together.
        self._low, self._high = low[self._order].T.copy(), high[self._order].T.copy()
        self._reached = np.maximum.accumulate(self._high[0]) if len(low) else self._high[0]

    def meeting(self, low: Floats, high: Floats) -> Ints:
        """(k,) numbers, rising, of the boxes that meet the one from (2,) to (2,), touching ones too."""
        first = int(np.searchsorted(self._reached, low[0], side="left"))
        last = int(np.searchsorted(self._low[0], high[0], side="right"))
        some = slice(first, max(first, last))
        meets = (
            (self._high[0, some] >= low[0])
            & (self._low[1, some] <= high[1])
            & (self._high[1, some] >= low[1])
        )
        return np.asarray(np.sort(self._order[some][meets]))
