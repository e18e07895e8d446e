# SPDX-License-Identifier: GPL-2.0-or-later
"""From tests to findings: loops first, then the worst observation after another let go, until the rest fits."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..errors import Refused
from ..findings import Decisions, Finding, Severity
from .closures import Loop
from .naming import BEATS_BY, Hypothesis, name_exchange, name_suspects
from .solve import NOTHING, Both, Freed, Step, Tested, let_go, solve, test_all
from .tell import tell_exchanged, tell_height_loop, tell_loop, tell_single
from .tests import verdict
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


class _Search:
    """The network while it is judged: everything at fault let go, what an answer accepts too (so that the rest is
    judged without it); and the network that is kept, which has the accepted ones in."""

    def __init__(self, ties: Ties) -> None:
        self.whole = self.both = solve(ties)
        self.freed = NOTHING
        self.steps: list[Step] = []
        self.findings: list[Finding] = []
        self._tested: tuple[Both, tuple[Tested, ...]] | None = None

    def tests(self) -> tuple[Tested, ...]:
        """All tests of the network as it now is."""
        if self._tested is None or self._tested[0] is not self.both:
            self._tested = (self.both, test_all(self.both, self.freed))
        return self._tested[1]

    def let_go(self, step: Step) -> None:
        """Let a step's observations go too and solve again."""
        self.freed = let_go(self.both, self.freed, step)
        self.both = solve(self.whole.ties, self.freed)
        self.steps.append(step)

    def kept(self) -> tuple[Both, Freed]:
        """The network with what is accepted in it, and what is let go of it."""
        both, freed = self.both, self.freed
        if any(step.is_accepted for step in self.steps):
            both, freed = self.whole, NOTHING
            for step in self.steps:
                if not step.is_accepted:
                    freed = let_go(both, freed, step)
                    both = solve(both.ties, freed)
        return both, freed


def judge(ties: Ties, loops: Sequence[tuple[Loop, ...]], extra: int, decisions: Decisions) -> Judged:
    """Solve, test, let go what a stop names, and solve again.

    `extra` counts the tests that placing will make: one budget serves the whole job.

    Raises:
        Refused: what is kept could not be brought together.
    """
    search = _Search(ties)
    count = extra + sum(t.outcome.is_checked for t in search.tests())
    count += sum(1 + (loop.height_p < 1) for at in loops for loop in at)
    _judge_loops(search, loops, count, decisions)
    exchanged: tuple[Hypothesis, ...] = ()
    for _ in range(MOST_STOPS):
        tests = search.tests()
        worst = _worst(tests)
        severity = None if worst is None else verdict(worst.outcome.p, count)
        if worst is None or severity is None:
            break
        if not exchanged and search.freed.is_nothing:
            exchanged = name_exchange(search.both)
            if exchanged:
                _judge_exchanged(search, exchanged, severity, decisions)
                continue
        if not _judge_single(search, tests, worst, severity, decisions):
            break
    both, freed = search.kept()
    if not (both.plan.is_settled or any(f.answer in ("exchange", "mirror") for f in search.findings)):
        raise _unsettled(both, search.findings)
    tests = search.tests() if both is search.both else test_all(both, freed)
    return Judged(both, freed, tests, count, tuple(search.findings), exchanged)


def _unsettled(both: Both, findings: Sequence[Finding]) -> Refused:
    """No place in a network can be trusted whose rounds did not come to an end: the first finding says where."""
    move = both.plan.last_step
    if not findings:
        return Refused(
            "The walks could not be brought together: places still move by {move:.1e} m in the last round. Check the "
            "mark names, units and axes of the logs.",
            move=move,
        )
    first = next((f for f in findings if f.is_open), findings[0])
    return Refused(
        "The walks could not be brought together: places still move by {move:.1e} m in the last round. Look first at "
        "this, {code} at {place}: {message} {remedy}",
        move=move,
        code=first.code,
        place=first.place,
        message=first.message,
        remedy=first.remedy_text,
    )


def _judge_exchanged(
    search: _Search, exchanged: tuple[Hypothesis, ...], severity: Severity, decisions: Decisions
) -> None:
    """Name the walks, and let go what of them would bend their neighbours. Accepted names where one wrong height
    would explain it as well leave the heights to be judged one by one."""
    found = tell_exchanged(search.whole.ties, exchanged, severity, decisions)
    search.findings += found
    for hypothesis, finding in zip(exchanged, found):
        is_accepted = finding.answer == "accept"
        if is_accepted and hypothesis.is_one_of_heights:
            continue
        stays = is_accepted or severity is Severity.ASK
        for step in _steps_of(search.both, hypothesis):
            search.let_go(replace(step, is_accepted=stays))


def _steps_of(both: Both, hypothesis: Hypothesis) -> list[Step]:
    """A walk with exchanged marks keeps one height (its shift); the others would bend its neighbours, and in plan
    the stands would. What nothing else holds (the last tie between two walks) bends nothing and is kept."""
    k, marks = hypothesis.walk, hypothesis.marks
    own = tuple(i for i, o in enumerate(both.height.occupations) if o.walk == k)
    stands = tuple(
        i for i, o in enumerate(both.ties.occupations) if o.walk == k and (o.mark in marks or not marks)
    )
    steps = [Step("height", own[1:])] if own[1:] else []
    return [*steps, Step("stand", stands)] if hypothesis.is_in_plan else steps


def _judge_single(
    search: _Search, tests: Sequence[Tested], worst: Tested, severity: Severity, decisions: Decisions
) -> bool:
    """Name the worst and what nothing tells from it, and act on the answers; whether to look further.

    One answer `leave out` settles the disagreement, so the open findings on its twins are dropped.
    """
    found = tell_single(search.both, worst, _as_unlikely(tests, worst), severity, decisions)
    out = [t for t, finding in found if finding.answer == "leave out"]
    search.findings += [finding for _, finding in found if finding.answer is not None or not out]
    waiting = [t for t, finding in found if finding.answer is None]
    if worst.kind not in SINGLE or (severity is Severity.ASK and len(waiting) == len(found)):
        return False
    if not out:
        stays = severity is Severity.ASK or not waiting
        out = [(waiting or [worst])[0]]
        search.let_go(Step(out[0].kind, (out[0].number,), stays))
        return True
    for tested in out:
        search.let_go(Step(tested.kind, (tested.number,)))
    return True


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
    """Tests of its kind that nothing tells from the worst one: the other end of the same disagreement. The other
    end of a known level can be another level or the height of a stand."""
    kinds = ("level", "height") if worst.kind == "level" else (worst.kind,)
    return tuple(
        t
        for t in tests
        if t.kind in kinds
        and t != worst
        and t.outcome.is_checked
        and t.outcome.chi2 > worst.outcome.chi2 - min(SAME * worst.outcome.chi2, BEATS_BY)
    )


SAME = 0.01
"""Two observations whose chi-squares differ by less than this part (and by less than BEATS_BY) are equally at fault,
for all one can see."""


def _judge_loops(
    search: _Search, loops: Sequence[tuple[Loop, ...]], count: int, decisions: Decisions
) -> None:
    """Loops in plan and in height. One beyond what the instrument should give is not spread, unless accepted."""
    ties = search.whole.ties
    for k, own in enumerate(loops):
        for loop in own:
            row = int(ties.first[k]) + loop.end
            severity = Severity.STOP if loop.is_far else verdict(loop.p, count)
            if severity is not None:
                suspects = name_suspects(search.whole, k, loop.start, loop.end)
                stand = [i for i, o in enumerate(ties.occupations) if o.row == row]
                finding = decisions.answered(tell_loop(ties, k, loop, severity, suspects))
                _act_on_loop(search, finding, "stand", stand)
            severity = verdict(loop.height_p, count)
            if severity is not None:
                stand = [i for i, o in enumerate(search.whole.height.occupations) if o.row == row]
                finding = decisions.answered(tell_height_loop(ties, k, loop, severity))
                _act_on_loop(search, finding, "height", stand)


def _act_on_loop(search: _Search, finding: Finding, kind: str, stand: list[int]) -> None:
    search.findings.append(finding)
    is_accepted = finding.answer == "accept"
    if stand and (is_accepted or finding.severity is Severity.STOP):
        search.let_go(Step(kind, tuple(stand), is_accepted))
