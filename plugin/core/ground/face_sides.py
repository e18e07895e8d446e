# SPDX-License-Identifier: GPL-2.0-or-later
"""On which side of a wall its foot lies: the one whose ground is lower, where that of the other is up to it."""

from __future__ import annotations

import numpy as np

from ..quantity import Floats, Ints
from .surface import Flags

LEFT, RIGHT, NO_SIDE = 1, -1, 0
NEAREST = (32, 512)
"""So many points beside each leg are looked at; the more where the fewer are all of the wall itself."""
APART = 0.2
"""Of half the height: by less the two sides do not differ."""
BESIDE = 0.2
"""Of its distance: a point that lies off the line by less is ahead of a wall, not beside it."""


MOST_VOTES = 2_000
"""Points that are asked, evenly chosen; each is held against every leg of the wall."""
ON = 1e-3
"""Metres: a point as near as this to a wall is on it."""


class FaceSides:
    """What lies beside walls.

    Args:
        points: (n, 3) of everything, metres.
        place: (n,) numbers of their places.
    """

    def __init__(self, points: Floats, place: Ints) -> None:
        """Index the points once for all walls."""
        from scipy.spatial import cKDTree

        self._z, self._place = points[:, 2], place
        self._xy = points[:, :2] - points[0, :2]
        self._tree = cKDTree(self._xy)

    def foot_side(self, feet: Ints, tops: Ints) -> int:
        """LEFT or RIGHT of the way along a wall's feet; NO_SIDE where the ground beside it does not tell.

        Args:
            feet: (k,) rows along the wall at its foot.
            tops: (k,) rows of its top over them.
        Source:
            Own rule: every point near by votes with its height between foot (-1) and top (1), by its distance to the
            power -2. The sides must differ by a tenth of the height, and the higher one must reach half of it.
        """
        xy = self._xy
        own = np.unique(self._place[feet])
        # Also the ends, beside which a short line may lie that a long leg's middle is far from.
        seen_from = np.vstack([0.5 * (xy[feet[1:]] + xy[feet[:-1]]), xy[feet]])
        rows = np.empty(0, np.int64)
        for count in NEAREST:
            rows = np.unique(self._tree.query(seen_from, [*range(1, min(count, len(xy)) + 1)])[1])
            rows = rows[~np.isin(self._place[rows], own)]
            if len(rows):
                break
        return _judged(*self._votes(rows[:: len(rows) // MOST_VOTES + 1], feet, tops))

    def _votes(self, rows: Ints, feet: Ints, tops: Ints) -> tuple[Floats, Floats, Floats]:
        """Of rows beside a wall: how far to the left of it (metres), the weight, and the vote."""
        a, way = self._xy[feet[:-1]], np.diff(self._xy[feet], axis=0)
        square = (way**2).sum(axis=1)
        left, weight, vote = [], [], []
        for row in rows.tolist():
            to = self._xy[row] - a
            part = np.clip((to * way).sum(axis=1) / square, 0.0, 1.0)
            away = np.hypot(*(to - part[:, None] * way).T)
            k = int(np.argmin(away))
            side = float(way[k, 0] * to[k, 1] - way[k, 1] * to[k, 0]) / float(np.sqrt(square[k]))
            if abs(side) <= max(BESIDE * float(away[k]), ON):
                continue
            foot, top = (_between(self._z[ends[k : k + 2]], part[k]) for ends in (feet, tops))
            half = 0.5 * (top - foot)
            left.append(side)
            weight.append(float(away[k]) ** -2.0)
            vote.append(float(np.clip((self._z[row] - foot - half) / half, -1.0, 1.0)) if half > 0.0 else 0.0)
        return np.array(left), np.array(weight), np.array(vote)


def _between(ends: Floats, part: float) -> float:
    return float(ends[0] + part * (ends[1] - ends[0]))


def _judged(left: Floats, weight: Floats, vote: Floats) -> int:
    lies_left, lies_right = left > 0.0, left < 0.0
    if not lies_left.any() and not lies_right.any():
        return NO_SIDE
    on_left, on_right = _mean(weight, vote, lies_left), _mean(weight, vote, lies_right)
    # Where one side is bare, the other tells alone whether it is the lower. Where neither is, one of them must be nearer to the
    # top than to the foot: a wall that stands free would else be joined to ground that is not there.
    stands_free = lies_left.any() and lies_right.any() and max(on_left, on_right) <= 0.0
    off = on_left - on_right
    return NO_SIDE if stands_free or abs(off) <= APART else LEFT if off < 0.0 else RIGHT


def _mean(weight: Floats, vote: Floats, some: Flags) -> float:
    return float((weight * vote)[some].sum() / weight[some].sum()) if some.any() else 0.0
