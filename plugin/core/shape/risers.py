# SPDX-License-Identifier: GPL-2.0-or-later
"""Risers of steps: the station at the foot and the one on the nosing above it stand over one point."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..walk import Leg
from .legs import RawLeg
from .spread import Spread
from .trace import Node, joined

UPRIGHT_SIGMAS = 3.0
"""Two stations within this many sigma (radial, of their gap in plan) may stand over one point."""
UPRIGHT = 0.0005
"""Metres: and so may two within this, however well they are known."""
LEAST_RISE = 0.05
"""Metres: they only do so where one is at least this much higher, and by more than HEIGHT_SIGMAS."""
HEIGHT_SIGMAS = 3.0


def stand_upright(legs: Sequence[RawLeg], nodes: dict[int, Node], spread: Spread) -> dict[int, Node]:
    """The vertices of a length, the two of each riser moved to their mean in plan (each keeps its height).

    A riser has no run, but two stations on it never coincide: left as recorded, every step would add the size
    of their noise to the length in plan (about 6 mm a riser with the usual stand noise) and the steps would
    come out too long and too flat. What lies before and after goes to the mean, so no length is lost.
    """
    out = dict(nodes)
    used: set[int] = set()
    for leg in legs:
        a, b = leg.stations[0], leg.stations[-1]
        if leg.leg is Leg.DIRECT and not {a, b} & used and _is_riser(nodes[a], nodes[b], spread):
            used |= {a, b}
            mean = (nodes[a].xy + nodes[b].xy) / 2.0
            half = 0.5 * np.eye(2)
            by = joined([(nodes[a], half), (nodes[b], half)])
            for k in (a, b):
                own = nodes[k]
                out[k] = Node(mean, own.z, own.rows, by, own.z_by, own.offset, own.others)
    return out


def _is_riser(low: Node, high: Node, spread: Spread) -> bool:
    rise = abs(high.z - low.z)
    if not rise >= LEAST_RISE or len(low.rows) + len(high.rows) > len((low, high)):
        return False
    (a,), (b,) = low.rows, high.rows
    gap, sigma = spread.gap(a, b)
    if gap > max(UPRIGHT, UPRIGHT_SIGMAS * sigma):
        return False
    return rise > HEIGHT_SIGMAS * spread.height_sigma((a, b), (-1.0, 1.0))
