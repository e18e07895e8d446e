# SPDX-License-Identifier: GPL-2.0-or-later
"""Cut and fill that noise alone may have made: where the ground lies at its target, heights that err each by themselves rise
above it here and fall below it there, and neither volume is ever less than none."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from ..quantity import Floats
from .surface import Surface

DOUBTFUL = 2.5
"""Sigmas: a depth below that may be none, and counts so; a larger one counts the less shortened the larger it is."""
FARTHEST, STEPS = 6.0, 1201
"""Sigmas up to which the table goes, and its entries: between them it is good to 1e-5 of a sigma."""


def noise_volume(area: Floats, depth: Floats, variance: Floats) -> float:
    """m3 that cut and fill are each too large by at the most, as far as the depths tell it.

    A true depth d that is measured with the normal error of one sigma s has the mean of max(measured, 0) too large by
    s (f(d / s) - |d| / s F(-|d| / s)), f and F the normal density and distribution. The true depth is not known; a measured one
    says too much, for noise has enlarged it, so it is shortened by 1 - (2.5 s / d)^2, down to none.

    Args:
        area: (n,) m2 of pieces.
        depth: (n,) metres, measured, in the middle of each.
        variance: (n,) m2 of it, of what errs from place to place.
    Source:
        The mean of a folded normal: Leone, Nelson and Nottingham, Technometrics 3 (1961) 543-550; shortening towards none:
        James and Stein, Proceedings of the Fourth Berkeley Symposium 1 (1961) 361-379.
    """
    sigma = np.sqrt(variance)
    known = sigma > 0.0
    size = np.abs(depth[known]) / sigma[known]
    with np.errstate(divide="ignore"):
        size = size * np.maximum(1.0 - (DOUBTFUL / size) ** 2, 0.0, where=size > 0.0, out=np.zeros(len(size)))
    at, excess = _table()
    return float(area[known] @ (sigma[known] * np.interp(size, at, excess, right=0.0)))


def own_variance(surface: Surface) -> Floats:
    """(m,) m2 by which heights err from place to place, of each triangle: the mean over it of the square of its corners'
    weights is a sixth, and the ground between the points adds its own."""
    return np.asarray((surface.sigma[surface.triangles] ** 2).sum(axis=1) / 6.0 + surface.rough**2)


@lru_cache(maxsize=1)
def _table() -> tuple[Floats, Floats]:
    """Sizes in sigmas, and the mean by which noise makes the part above none too large, in sigmas."""
    at = np.linspace(0.0, FARTHEST, STEPS)
    below = np.array([0.5 * math.erfc(one / math.sqrt(2.0)) for one in at])
    return at, np.exp(-0.5 * at**2) / math.sqrt(2.0 * math.pi) - at * below
