# SPDX-License-Identifier: GPL-2.0-or-later
"""Plan and heights solved together, with some observations let go; and every test of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..quantity import Floats
from .heights import HeightInput, HeightNetwork, adjust_heights
from .network import Solved
from .plan import PlanInput, PlanNetwork, TapeRow, adjust_plan
from .tests import Outcome, RowTests, tail, unit_effect
from .ties import Ties


@dataclass(frozen=True, eq=False)
class Freed:
    """Observations let go by a stop: plan occupations and tapes by number, height equations by number.

    `effects` (r, k) are the directions in which plan observations are let go: only those that something else
    in the job checks, so that a walk keeps its turn, and a mark its place, where nothing else holds them. `off` are
    all stands with such a direction; `stands` those whose mark has another stand to say where it is.
    """

    stands: tuple[int, ...] = ()
    tapes: tuple[int, ...] = ()
    heights: tuple[int, ...] = ()
    effects: Floats | None = None
    off: tuple[int, ...] = ()

    @property
    def is_nothing(self) -> bool:
        """Whether nothing is let go."""
        return not (self.off or self.tapes or self.heights)


NOTHING = Freed()


@dataclass(frozen=True)
class Step:
    """Observations of one kind (`stand`, `tape`, `height`, `level`) that are let go together, by number.

    What an answer accepts is let go only while the rest is judged, and is in the network that is kept.
    """

    kind: str
    numbers: tuple[int, ...]
    is_accepted: bool = False


@dataclass(frozen=True, eq=False)
class Both:
    """The plan and the height network of one set of ties."""

    ties: Ties
    plan: PlanNetwork
    height: HeightNetwork

    @property
    def chi2(self) -> float:
        """Sum of both networks' chi-squares: how well a hypothesis fits."""
        return self.plan.solved.chi2 + self.height.solved.chi2

    @property
    def freedom(self) -> int:
        """Sum of both redundancies."""
        return self.plan.solved.redundancy + self.height.solved.redundancy


def solve(ties: Ties, freed: Freed = NOTHING) -> Both:
    """Adjust heights, then plan (slope tapes need the heights)."""
    count = len(ties.marks)
    height = adjust_heights(
        HeightInput(ties.walks, ties.models, ties.first, count, ties.occupations, ties.levels, freed.heights)
    )
    job = plan_input(ties, ties.plan_tapes(_known_heights(ties, height)), freed)
    return Both(ties, adjust_plan(job), height)


def plan_input(ties: Ties, tapes: tuple[TapeRow, ...] | None = None, freed: Freed = NOTHING) -> PlanInput:
    """The plan network's input; tapes as given (slope tapes reduced), or as if all were level."""
    return PlanInput(
        ties.walks,
        ties.models,
        ties.first,
        len(ties.marks),
        ties.occupations,
        ties.plan_tapes({}) if tapes is None else tapes,
        held=ties.held,
        freed=freed.effects,
    )


def _known_heights(ties: Ties, height: HeightNetwork) -> dict[int, tuple[float, float]]:
    if not any(tape.is_slope for tape in ties.tapes):
        return {}
    rows = {o.mark: o.row for o in height.occupations}
    sigma = np.sqrt(height.solved.blocks(np.array(list(rows.values()), dtype=np.int64))[:, 0, 0])
    return {mark: (float(height.z[row]), float(s)) for (mark, row), s in zip(rows.items(), sigma)}


def let_go(both: Both, freed: Freed, step: Step) -> Freed:
    """Let observations go too (see Freed for how far)."""
    if step.kind in ("height", "level"):
        return replace(freed, heights=(*freed.heights, *_checked_heights(both, step.numbers)))
    tests, rows = RowTests(both.plan.solved), len(both.plan.solved.rows.residual)
    stands = len(both.ties.occupations)
    if step.kind == "stand":
        at = [2 * i + axis for i in step.numbers for axis in (0, 1)]
    else:
        at = [2 * stands + i for i in step.numbers]
    checked = tests.checked(unit_effect(rows, at))
    effects = checked if freed.effects is None else np.hstack([freed.effects, checked])
    if step.kind == "stand":
        away = (*freed.stands, *_off_their_mark(both.ties, freed, step))
        return replace(freed, stands=away, effects=effects, off=(*freed.off, *step.numbers))
    return replace(freed, tapes=(*freed.tapes, *step.numbers), effects=effects)


def _checked_heights(both: Both, numbers: Sequence[int]) -> list[int]:
    """Those of some height equations that can go one after another while the rest still holds together. The last
    known level can go too: heights are then in the datum of the first walk."""
    stands, freed = len(both.height.occupations), set(both.height.freed)
    if {*numbers, *freed} >= {*range(stands, stands + len(both.height.levels))} and min(numbers) >= stands:
        return list(numbers)
    tests = RowTests(both.height.solved)
    out: list[int] = []
    for i in numbers:
        if tests.are_checked([*out, i]):
            out.append(i)
    return out


def _off_their_mark(ties: Ties, freed: Freed, step: Step) -> list[int]:
    """Those of the stands whose mark has another stand left: the last one still says where its mark is."""
    gone = {*freed.off, *step.numbers}
    held = {o.mark for i, o in enumerate(ties.occupations) if i not in gone}
    return [i for i in step.numbers if ties.occupations[i].mark in held]


@dataclass(frozen=True)
class Tested:
    """One test of the job: what it is of (`stand`, `tape`, `pair`, `height`, `level`, `plan`, `heights`), the
    number of that thing, and its outcome. `size` is the estimated blunder in metres (observed less what the rest
    gives; a length where there are two axes or more) and `sigma` its sigma."""

    kind: str
    number: int
    outcome: Outcome
    size: float = math.nan
    sigma: float = math.nan


def test_all(both: Both, freed: Freed) -> tuple[Tested, ...]:
    """Every stand, tape, pair of walks, height, level, and each network as a whole."""
    return (*_test_plan(both, freed), *_test_heights(both, freed))


def _test_plan(both: Both, freed: Freed) -> list[Tested]:
    solved, ties = both.plan.solved, both.ties
    tests, stands = RowTests(solved), len(ties.occupations)
    out = [_row_test(tests, "stand", i, (2 * i, 2 * i + 1)) for i in range(stands) if i not in freed.stands]
    for i in range(len(ties.tapes)):
        if i not in freed.tapes:
            out.append(_row_test(tests, "tape", i, (2 * stands + i,)))
    for k, group in enumerate(_pairs(ties)):
        out.append(_row_test(tests, "pair", k, [2 * i + axis for i in group for axis in (0, 1)]))
    return [*out, _whole_test("plan", solved)]


def _test_heights(both: Both, freed: Freed) -> list[Tested]:
    solved = both.height.solved
    tests, stands = RowTests(solved), len(both.height.occupations)
    out = [
        _row_test(tests, "height" if i < stands else "level", i, (i,))
        for i in range(len(solved.rows.residual))
        if i not in freed.heights
    ]
    return [*out, _whole_test("heights", solved)]


def _whole_test(kind: str, solved: Solved) -> Tested:
    outcome = Outcome(tail(solved.chi2, solved.redundancy), solved.chi2, solved.redundancy)
    return Tested(kind, 0, outcome)


def _row_test(tests: RowTests, kind: str, number: int, at: Sequence[int]) -> Tested:
    outcome, found = tests.rows(at)
    if not outcome.is_checked:
        return Tested(kind, number, outcome)
    size = float(found[0]) if len(found) == 1 else float(np.linalg.norm(found))
    sigma = abs(size) / math.sqrt(outcome.chi2) if outcome.chi2 > 0 else math.nan
    return Tested(kind, number, outcome, size, sigma)


def _pairs(ties: Ties) -> list[tuple[int, ...]]:
    """For each two walks that share marks: the stands of the one on them. Sets that say the same are kept once."""
    groups: dict[tuple[int, ...], None] = {}
    for one in range(len(ties.walks)):
        for other in range(len(ties.walks)):
            shared = ties.stood(one) & ties.stood(other)
            group = tuple(i for i, o in enumerate(ties.occupations) if o.walk == one and o.mark in shared)
            if one != other and len(shared) >= 2:
                groups.setdefault(group)
    return list(groups)


def with_walk(ties: Ties, k: int, walk: object) -> Ties:
    """The ties with one walk in another form (its points changed, its stands the same)."""
    return replace(ties, walks=tuple(walk if i == k else w for i, w in enumerate(ties.walks)))  # type: ignore[misc]


def with_exchanged(ties: Ties, k: int, one: int, other: int) -> Ties:
    """The ties with two marks exchanged in one walk."""
    names = {one: other, other: one}
    stands = tuple(replace(o, mark=names.get(o.mark, o.mark)) if o.walk == k else o for o in ties.occupations)
    return replace(ties, occupations=stands)
