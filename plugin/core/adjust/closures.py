# SPDX-License-Identifier: GPL-2.0-or-later
"""Loops: what is left when a walk stands on a mark again. Tested before anything is spread, against what the
instrument should give; no pose is needed for that."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..quantity import Floats
from ..walk import Walk
from .drift import Drift, height_drift, plan_drift
from .instrument import Model
from .tests import tail

FAR = 3.0
"""A misclosure beyond this many times what the instrument should give is a blunder (design, Adjustment)."""


@dataclass(frozen=True, eq=False)
class Loop:
    """A walk from a mark back to it: stations `start` and `end` (rows within the walk).

    `gap` (2,) is the misclosure in the walk's frame, `covariance` (2, 2) what it should be; the height's are
    NaN where there are none. p-values are of chi-square tests with 2 and 1 degrees of freedom.
    """

    mark: str
    start: int
    end: int
    gap: Floats
    covariance: Floats
    height_gap: float
    height_sigma: float

    @property
    def size(self) -> float:
        """The misclosure in plan, metres."""
        return math.hypot(*self.gap)

    @property
    def expected(self) -> float:
        """Its radial sigma: the root of the covariance's trace."""
        return math.sqrt(float(np.trace(self.covariance)))

    @property
    def p(self) -> float:
        """Probability of a greater misclosure in plan."""
        return tail(float(self.gap @ np.linalg.solve(self.covariance, self.gap)), 2)

    @property
    def height_p(self) -> float:
        """Probability of a greater misclosure in height; 1 where there are no heights."""
        if not math.isfinite(self.height_gap):
            return 1.0
        return tail((self.height_gap / self.height_sigma) ** 2, 1)

    @property
    def is_far(self) -> bool:
        """Whether the plan misclosure is beyond three times what the instrument should give."""
        return self.size > FAR * self.expected


def find_loops(walk: Walk, model: Model) -> tuple[Loop, ...]:
    """All returns of a walk to a mark, each from the stand before it on the same mark."""
    stands: dict[str, list[int]] = {}
    for i, mark in enumerate(walk.mark):
        if mark:
            stands.setdefault(mark, []).append(i)
    pairs = [(mark, a, b) for mark, rows in stands.items() for a, b in zip(rows, rows[1:])]
    if not pairs:
        return ()
    plan, height = plan_drift(walk, model), height_drift(walk, model)
    return tuple(_loop(walk, mark, a, b, plan, height) for mark, a, b in pairs)


def _loop(walk: Walk, mark: str, a: int, b: int, plan: Drift, height: Drift) -> Loop:
    covariance = _covariance(len(walk), a, b, plan, 2)
    rise = walk.ground_z[b] - walk.ground_z[a]
    variance = _covariance(len(walk), a, b, height, 1)[0, 0]
    return Loop(mark, a, b, walk.xy[b] - walk.xy[a], covariance, float(rise), math.sqrt(float(variance)))


def _covariance(n: int, a: int, b: int, drift: Drift, axes: int) -> Floats:
    g = np.zeros((axes, n, axes))
    for axis in range(axes):
        g[axis, b, axis], g[axis, a, axis] = 1.0, -1.0
    u, shared = drift.pull(g), drift.shared()
    lead = np.einsum("knd,nd->k", g, shared)
    return u @ u.T + np.outer(lead, lead)


def worst_loop(loops: Sequence[Loop]) -> Loop | None:
    """The loop with the largest misclosure against what it should be (what a walk's report shows)."""
    return max(loops, key=lambda loop: loop.size / loop.expected, default=None)
