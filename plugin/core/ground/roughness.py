# SPDX-License-Identifier: GPL-2.0-or-later
"""How well the mean of rough ground over an area is known."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from ..quantity import Floats

FAR = 40.0
"""Correlation lengths beyond which exp(-d/reach) counts for nothing (4e-18)."""
NODES = 64


def mean_rough(area: float, reach: float) -> float:
    """One-sigma of the mean roughness over an area, by the one-sigma at a point: 0 to 1.

    The departures of the ground from the triangles are taken to be correlated by exp(-d/reach). The variance of their
    mean is the mean of that over all pairs of places of the area. Of all areas of one size the disc has the largest
    (Riesz's rearrangement inequality, as exp(-d/reach) falls with distance), so this, which is the disc's, is never too
    small, whatever the shape and in however many pieces; for compact areas it is hardly too large. It is below the
    bounds 1 and sqrt(2 pi reach^2 / area).

    Args:
        area: m2; of none the mean is as rough as a point.
        reach: metres; 0 or less: nothing hangs together, and a mean over any area has none left.
    Source:
        Distances between two random places of a disc: density (16 u/pi)(acos u - u sqrt(1 - u^2)) of u = d/2R (for
        instance Solomon, Geometric Probability (1978), chapter 2), integrated by Gauss and Legendre.
    """
    if area <= 0.0:
        return 1.0
    if reach <= 0.0:
        return 0.0
    k = 2.0 * np.sqrt(area / np.pi) / reach
    node, weight = _nodes()
    end = min(1.0, FAR / k)
    u = 0.5 * end * (node + 1.0)
    density = 16.0 * u / np.pi * (np.arccos(u) - u * np.sqrt(1.0 - u * u))
    return float(np.sqrt(min(0.5 * end * float(weight @ (density * np.exp(-k * u))), 1.0)))


@lru_cache(maxsize=1)
def _nodes() -> tuple[Floats, Floats]:
    """Of Gauss and Legendre, found once: that takes longer than many a volume."""
    node, weight = np.polynomial.legendre.leggauss(NODES)  # type: ignore[no-untyped-call]
    return node, weight
