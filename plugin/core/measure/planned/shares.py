# SPDX-License-Identifier: GPL-2.0-or-later
"""What an uncertainty is made of: the shares of the instrument's parts, the tapes and the map points."""

from __future__ import annotations

from types import MappingProxyType

import numpy as np

from ...adjust.plan import plan_of
from ...place.fit import Placed
from ...quantity import Floats, Gradient
from .records import Cause, Shares


def variances(placed: Placed, gradient: Gradient) -> dict[Cause, float]:
    """The variance of a figure in plan, cause by cause; their sum is `placed.variance`.

    The error of a figure is a sum of independent parts of one sigma each, times factors; each cause has the squares of
    its own.
    """
    index, plan, by_target = placed.pull(gradient.index, gradient.plan)
    g = np.zeros((len(placed.xy), 2))
    np.add.at(g, index, plan)
    solved = placed.adjusted.both.plan.solved
    parts, own = solved.by_part(g)
    out = dict.fromkeys(Cause, 0.0)
    start = 0
    for drift in solved.field.drifts:
        _add_walk(out, parts[start : start + drift.parts], len(plan_of(drift).m))
        start += drift.parts
    out[Cause.SCALE] += _square(parts[start:])
    out[Cause.TAPES] = _square(own)
    out[Cause.PICKS] = _square(by_target * np.repeat(placed.picks, 2)) if by_target.size else 0.0
    out[Cause.COMMON] = _square(placed.common * gradient.plan.sum(axis=0))
    return out


def _add_walk(out: dict[Cause, float], parts: Floats, n: int) -> None:
    """The parts of one walk of n stations, in the order of PlanDrift: scale, heading rate, legs, stands, heading walk."""
    ends = (1, 2, 2 + 2 * n, 2 + 4 * n)
    causes = (Cause.SCALE, Cause.HEADING, Cause.LEGS, Cause.STANDS, Cause.HEADING)
    for cause, some in zip(causes, np.split(parts, ends)):
        out[cause] += _square(some)


def _square(factors: Floats) -> float:
    return float(np.sum(factors**2))


def shares_of(placed: Placed, gradient: Gradient) -> Shares:
    """The parts of a figure's variance, which add up to 1 (all 0 where there is no variance)."""
    parts = variances(placed, gradient)
    whole = sum(parts.values())
    return MappingProxyType({cause: part / whole if whole > 0.0 else 0.0 for cause, part in parts.items()})
