# SPDX-License-Identifier: GPL-2.0-or-later
"""The tests of a job and the one false-alarm budget that they share.

A bare three sigma on each would stop one clean job in twenty. So every test gives its p-value, m of them in
the job: stop where p m < 0.001, ask where p m < 0.05 (Why 2). Source of the general test: Baarda, A testing
procedure for use in geodetic networks, 1968; Koch, as in network.py. Both from memory.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..findings import Severity
from ..quantity import Floats
from .network import Solved

STOP_BUDGET = 0.001
ASK_BUDGET = 0.05
RANK_LIMIT = 1e-8
"""Eigenvalues of E' C^-1 E below this part of the largest are nothing."""


@dataclass(frozen=True)
class Outcome:
    """One test: its p-value (1.0 where nothing checks the thing), chi-square and degrees of freedom."""

    p: float
    chi2: float
    freedom: int

    @property
    def is_checked(self) -> bool:
        """Whether anything in the job checks the thing at all."""
        return self.freedom > 0


def tail(chi2: float, freedom: int) -> float:
    """Probability of a chi-square above `chi2`: closed forms, two degrees of freedom at a time."""
    if freedom <= 0:
        return 1.0
    if not math.isfinite(chi2):
        return 0.0
    half = max(chi2, 0.0) / 2.0
    k = 1 if freedom % 2 else 2
    p = math.erfc(math.sqrt(half)) if k == 1 else math.exp(-half)
    while k < freedom:
        p += math.exp((k / 2.0) * math.log(half) - half - math.lgamma(k / 2.0 + 1.0)) if half > 0 else 0.0
        k += 2
    return p


def verdict(p: float, count: int) -> Severity | None:
    """What a p-value comes to in a job of `count` tests: stop, ask, or nothing."""
    if p * count < STOP_BUDGET:
        return Severity.STOP
    return Severity.ASK if p * count < ASK_BUDGET else None


class RowTests:
    """Tests of single observations (or groups) of a solved network: would it fit if these were free?"""

    def __init__(self, solved: Solved) -> None:
        """Prepare C^-1 v and C^-1 Qv C^-1 once for all tests."""
        white = solved.whiten @ solved.rows.design
        inverse = solved.whiten.T @ solved.whiten
        fitted = solved.whiten.T @ white
        self.weights = inverse - fitted @ solved.q @ fitted.T
        self.inverse = inverse
        self.pull = solved.whiten.T @ solved.white_v
        self.solved = solved

    def of(self, effect: Floats) -> Outcome:
        """Test whether the effect (r, k) on the rows explains something: T = g' M^+ g."""
        return self.measured(effect)[0]

    def estimate(self, effect: Floats) -> Floats:
        """(k,) size of the effect that fits best (blind directions come out as nothing)."""
        return self.measured(effect)[1]

    def measured(self, effect: Floats) -> tuple[Outcome, Floats]:
        """The test of an effect (r, k), and the (k,) size of it that fits best."""
        weighted = self.weights @ effect
        scale = float(np.einsum("rk,rk->", effect, self.inverse @ effect))
        return _fitted(effect.T @ self.pull, effect.T @ weighted, scale)

    def rows(self, at: Sequence[int]) -> tuple[Outcome, Floats]:
        """The same of the effect that frees some rows: no products are needed for that."""
        index = np.asarray(at, dtype=np.int64)
        scale = float(self.inverse[index, index].sum())
        return _fitted(self.pull[index], self.weights[np.ix_(index, index)], scale)

    def are_checked(self, at: Sequence[int]) -> bool:
        """Whether the rest of the network holds together without some rows."""
        index = np.asarray(at, dtype=np.int64)
        least = float(np.linalg.eigvalsh(self.weights[np.ix_(index, index)])[0])
        return least > RANK_LIMIT * float(self.inverse[index, index].sum())

    def checked(self, effect: Floats) -> Floats:
        """(r, j) the part of the effect (r, k) that the rest of the network checks: j of its k directions."""
        values, vectors = np.linalg.eigh(effect.T @ self.weights @ effect)
        scale = float(np.trace(effect.T @ self.inverse @ effect))
        return np.asarray(effect @ vectors[:, values > RANK_LIMIT * max(scale, 1e-300)])

    def smallest(self, effect: Floats) -> float:
        """The blunder found with a power of 80 % in the worst direction, in the effect's unit; inf where blind."""
        values = np.linalg.eigvalsh(effect.T @ self.weights @ effect)
        scale = float(np.trace(effect.T @ self.inverse @ effect))
        worst = float(values[0])
        return POWER_80 / math.sqrt(worst) if worst > RANK_LIMIT * scale else math.inf


def _fitted(g: Floats, m: Floats, scale: float) -> tuple[Outcome, Floats]:
    """T = g' M^+ g with its degrees of freedom, and M^+ g; directions that nothing checks are left out."""
    values, vectors = np.linalg.eigh(m)
    good = values > RANK_LIMIT * max(scale, 1e-300)
    vectors = vectors[:, good]
    along = vectors.T @ g
    chi2, freedom = float(np.sum(along**2 / values[good])), int(good.sum())
    return Outcome(tail(chi2, freedom), chi2, freedom), np.asarray(vectors @ (along / values[good]))


POWER_80 = 5.3
"""Non-centrality at which the stop of a job of some 40 tests comes with 80 %."""


def unit_effect(rows: int, at: Sequence[int]) -> Floats:
    """(rows, k) effect that frees the rows `at`."""
    return np.eye(rows)[:, list(at)]
