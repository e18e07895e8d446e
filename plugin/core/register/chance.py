# SPDX-License-Identifier: GPL-2.0-or-later
"""Chances: of a normal figure and of a place, of many tests at once, and the change that a test would find."""

from __future__ import annotations

import math
from statistics import NormalDist

import numpy as np

from ..quantity import Floats

NINE_IN_TEN = 1.2815515655446004
"""Normal quantile of 0.9, the chance of being found that a change which "would have been seen" has."""


def chance_beyond(ratio: float) -> float:
    """That a normal figure lies farther off than so many of its sigmas, on either side."""
    return math.erfc(abs(ratio) / math.sqrt(2.0))


def place_chance(square: float) -> float:
    """That a place errs by more: of its squared distance in its own sigmas, chi-square with two degrees of freedom."""
    return math.exp(-0.5 * square)


def sigmas_of(level: float) -> float:
    """So many sigmas a change must have to be found nine times in ten by a two-sided test at a level."""
    normal = NormalDist()
    return -normal.inv_cdf(min(0.5 * level, 0.5)) + NINE_IN_TEN


def all_chances(chances: Floats, share: float) -> Floats:
    """(n,) chances of single tests as those of all of them together, by a share of the whole.

    Source: Holm, A simple sequentially rejective multiple test procedure, Scandinavian Journal of Statistics 6 (1979)
    65-70: whatever the tests' dependence.
    """
    order = np.argsort(chances, kind="stable")
    factor = np.arange(len(chances), 0, -1) / share
    stepped = np.maximum.accumulate(np.minimum(chances[order] * factor, 1.0)) if len(chances) else chances
    out = np.empty(len(chances))
    out[order] = stepped
    return out
