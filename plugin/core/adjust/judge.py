# SPDX-License-Identifier: GPL-2.0-or-later
"""From tests to findings: loops first, then the worst observation after another let go, until the rest fits."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..findings import Decisions, Finding, Severity
from .closures import Loop
from .naming import Hypothesis, name_exchange, name_suspects
from .solve import NOTHING, Both, Freed, Tested, let_go, solve, test_all
from .tell import tell_exchanged, tell_height_loop, tell_loop, tell_single
from .tests import RowTests, verdict
from .ties import Ties

MOST_STOPS = 8
"""Observations let go one after another at the most; a job worse than that is not adjusted further."""
SINGLE = ("stand", "tape", "height", "level")


@dataclass(frozen=True, eq=False)
class Judged:
    """The network as it is kept, what was let go, all tests of it, their count, and the findings."""

    both: Both
    freed: Freed
    tests: tuple[Tested, ...]
    count: int
    findings: tuple[Finding, ...]
    exchanged: tuple[Hypothesis, ...] = ()


def judge(ties: Ties, loops: Sequence[tuple[Loop, ...]], extra: int, decisions: Decisions) -> Judged:
    """Solve, test, let go what a stop names, and solve again.

    `extra` counts the tests that placing will make: one budget serves the whole job.
    """
    whole = solve(ties)
    tests = test_all(whole, NOTHING)
    count = sum(t.outcome.is_checked for t in tests) + sum(
        1 + (loop.height_p < 1) for at in loops for loop in at
    )
    count += extra
    findings, freed = _judge_loops(whole, loops, count, decisions)
    exchanged: tuple[Hypothesis, ...] = ()
    both = whole if freed.is_nothing else solve(ties, freed)
    for _ in range(MOST_STOPS):
        tests = test_all(both, freed)
        worst = _worst(tests)
        severity = None if worst is None else verdict(worst.outcome.p, count)
        if worst is None or severity is None:
            break
        if not exchanged and freed.is_nothing:
            exchanged = name_exchange(both)
            if exchanged:
                named = tell_exchanged(ties, exchanged, severity, decisions)
                findings += named
                freed = _without_heights(both, exchanged, freed)
                both = solve(ties, freed)
                continue
        found = tell_single(both, worst, _as_unlikely(tests, worst), severity, decisions)
        findings += found
        if severity is Severity.ASK and not any(f.answer == "leave out" for f in found):
            break
        if worst.kind not in SINGLE:
            break
        freed = let_go(both, freed, worst.kind, worst.number)
        both = solve(ties, freed)
    return Judged(both, freed, test_all(both, freed), count, tuple(findings), exchanged)


def _worst(tests: Sequence[Tested]) -> Tested | None:
    """The least likely single observation; a group or a whole network only where no single one is as bad.

    A tape and the stand at its end can be equally unlikely: the tape is then named. Of two stands in disagreement
    the first walked comes first, so chi-squares are compared without their rounding.
    """
    order = ("tape", "level", "stand", "height")

    def unlikely(t: Tested) -> tuple[float, int, float]:
        rank = order.index(t.kind) if t.kind in order else len(order)
        return round(math.log10(max(t.outcome.p, 1e-300)), 4), rank, -float(f"{t.outcome.chi2:.6g}")

    return min((t for t in tests if t.outcome.is_checked), key=unlikely, default=None)


def _as_unlikely(tests: Sequence[Tested], worst: Tested) -> tuple[Tested, ...]:
    """Tests of the same kind that nothing tells from the worst one: the other end of the same disagreement."""
    return tuple(
        t
        for t in tests
        if t.kind == worst.kind
        and t.outcome.is_checked
        and t.outcome.chi2 > worst.outcome.chi2 * (1.0 - SAME)
    )


SAME = 0.01
"""Two observations whose chi-squares differ by less than this part are equally at fault, for all one can see."""


def _without_heights(both: Both, exchanged: tuple[Hypothesis, ...], freed: Freed) -> Freed:
    """A walk with exchanged marks keeps one height (its shift); the others would bend its neighbours. What nothing
    else holds (a mark that no other stand shares, the last tie between two walks) bends nothing and is kept."""
    tests, stands, rows = RowTests(both.height.solved), both.height.occupations, list(freed.heights)
    for walk in {h.walk for h in exchanged}:
        own = [i for i, o in enumerate(stands) if o.walk == walk]
        for i in own[1:]:
            if i not in rows and tests.are_checked([*rows, i]):
                rows.append(i)
    return replace(freed, heights=tuple(rows))


def _judge_loops(
    both: Both, loops: Sequence[tuple[Loop, ...]], count: int, decisions: Decisions
) -> tuple[list[Finding], Freed]:
    ties, findings, freed = both.ties, [], NOTHING
    for k, own in enumerate(loops):
        for loop in own:
            severity = Severity.STOP if loop.is_far else verdict(loop.p, count)
            if severity is not None:
                suspects = name_suspects(both, k, loop.start, loop.end)
                findings.append(decisions.answered(tell_loop(ties, k, loop, severity, suspects)))
            if severity is Severity.STOP:
                freed = let_go(both, freed, "stand", _stand_at(ties, k, loop.end))
            level = verdict(loop.height_p, count)
            if level is not None:
                findings.append(decisions.answered(tell_height_loop(ties, k, loop, level)))
            if level is Severity.STOP:
                row = int(ties.first[k]) + loop.end
                for i in [i for i, o in enumerate(both.height.occupations) if o.row == row]:
                    freed = let_go(both, freed, "height", i)
    return findings, freed


def _stand_at(ties: Ties, k: int, i: int) -> int:
    row = int(ties.first[k]) + i
    return next(n for n, o in enumerate(ties.occupations) if o.row == row)
