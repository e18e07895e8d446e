# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines that go round the same ground more than once: their shoelace counts it as often."""

from __future__ import annotations

import numpy as np

from ..quantity import Floats
from ..segments import Curve
from .crossing import chords_of

LONGEST = 3
"""Chords beside which is looked: the longest, where beside one is surely inside or outside."""
BESIDE = 1e-3
"""Part of the chord's length off its middle, on either side."""


def rounds(curve: Curve) -> int:
    """How often a closed outline goes round the ground beside its longest sides: 1 for one that is right, 2 for one
    whose stations were listed or walked twice."""
    xy = chords_of(curve).xy
    start, end = xy[:-1], xy[1:]
    step = end - start
    longest = np.argsort(-np.hypot(step[:, 0], step[:, 1]), kind="stable")[:LONGEST]
    normal = np.column_stack([-step[longest, 1], step[longest, 0]]) * BESIDE
    middle = (start[longest] + end[longest]) / 2.0
    around = [_winding(xy, point) for point in np.vstack([middle + normal, middle - normal])]
    return max(around, default=0)


def _winding(ring: Floats, point: Floats) -> int:
    """How often a closed ring (n, 2) goes round a point that does not lie on it, in either sense."""
    arm = ring - point
    angle = np.arctan2(arm[:, 1], arm[:, 0])
    turn = (np.diff(angle) + np.pi) % (2.0 * np.pi) - np.pi
    return abs(round(float(turn.sum() / (2.0 * np.pi))))
