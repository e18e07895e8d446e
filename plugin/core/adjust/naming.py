# SPDX-License-Identifier: GPL-2.0-or-later
"""Which single mistake would explain what does not fit. One misclosure has two numbers, so a jump in any leg
of a section explains it equally: all that leave the rest acceptable are listed, best first, as "any of these".
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from ..errors import Refused
from ..quantity import Floats, Ints
from ..walk import Walk
from .plan import PlanNetwork, adjust_plan, plan_of
from .solve import NOTHING, Both, Freed, plan_input, solve, with_exchanged, with_walk
from .start import fit_rigid
from .tests import RowTests, tail
from .ties import Ties

ACCEPT_P = 0.01
"""A single mistake is listed where the rest of the network then fits with at least this p."""
BEATS_BY = 6.0
"""Chi-square by which the best hypothesis (marks exchanged, frame mirrored) must beat the next to be named."""
MOST_NAMED = 20
SMALL_TURN = 1e-3
"""rad: a turn found to this is found (a twentieth of a degree)."""


@dataclass(frozen=True)
class Suspect:
    """A single mistake that would explain it: `kind` is `leg` or `turn`, `station` the row within the walk
    (the leg's end, the turn's place), `size` metres along the leg or radians to the left."""

    kind: str
    station: int
    size: float


def name_suspects(both: Both, k: int, start: int, end: int) -> tuple[Suspect, ...]:
    """Legs and turns between two stations (rows within walk k) that alone would explain the misfit."""
    tests = RowTests(both.plan.solved)
    legs = [s for i in range(start + 1, end + 1) if (s := _leg_suspect(both, tests, k, i)) is not None]
    turns = [s for i in range(start + 1, end) if (s := _turn_suspect(both, tests, k, i)) is not None]
    best = sorted(legs + turns, key=lambda pair: pair[0])
    return tuple(suspect for _, suspect in best[:MOST_NAMED])


def _effect(plan: PlanNetwork, k: int, both: Both, after: int, columns: Floats) -> Floats:
    """(r, c) effect on the rows of walk k's stands at or after a station: columns (stands, 2, c) by stand."""
    rows = len(plan.solved.rows.residual)
    out = np.zeros((rows, columns.shape[-1]))
    for i, o in enumerate(plan.occupations):
        if o.walk == k and o.row - both.ties.first[k] >= after:
            out[2 * i : 2 * i + 2] = columns[i]
    return out


def _leg_suspect(both: Both, tests: RowTests, k: int, i: int) -> tuple[float, Suspect] | None:
    plan = both.plan
    m = plan_of(plan.solved.field.drifts[k]).m
    step = m[i] - m[i - 1]
    length = float(np.hypot(*step))
    if length < 1e-9:
        return None
    columns = np.broadcast_to((step / length)[None, :, None], (len(plan.occupations), 2, 1))
    effect = _effect(plan, k, both, i, columns)
    outcome, size = tests.measured(effect)
    rest = tail(plan.solved.chi2 - outcome.chi2, plan.solved.redundancy - outcome.freedom)
    if not outcome.is_checked or (rest < ACCEPT_P and plan.solved.redundancy > outcome.freedom):
        return None
    # The correction is the mistake with its sign turned: the leg was recorded too short where it is positive.
    return plan.solved.chi2 - outcome.chi2, Suspect("leg", i, -float(size[0]))


def _turn_suspect(both: Both, tests: RowTests, k: int, i: int) -> tuple[float, Suspect] | None:
    """A turn is not linear at some degrees: it is taken out of the walk and the rest adjusted again."""
    plan = both.plan
    m = plan_of(plan.solved.field.drifts[k]).m
    columns = np.zeros((len(plan.occupations), 2, 1))
    for j, o in enumerate(plan.occupations):
        if o.walk == k:
            arm = m[o.row - both.ties.first[k]] - m[i]
            columns[j, :, 0] = (-arm[1], arm[0])
    effect = _effect(plan, k, both, i + 1, columns)
    outcome, size = tests.measured(effect)
    if not outcome.is_checked or outcome.chi2 < plan.solved.chi2 / 2:
        return None
    ties, total = both.ties, float(size[0])
    for _ in range(2):
        solved = adjust_plan(plan_input(with_walk(ties, k, turned_after(ties.walks[k], i, total)))).solved
        more = float(RowTests(solved).estimate(effect)[0])
        if abs(more) < SMALL_TURN:
            break
        total += more
    rest = tail(solved.chi2, solved.redundancy - 1)
    if rest < ACCEPT_P and solved.redundancy > 1:
        return None
    return solved.chi2, Suspect("turn", i, -total)


def turned_after(walk: Walk, i: int, angle: float) -> Walk:
    """The walk with everything after station i turned about it, radians anticlockwise."""
    xy = walk.xy.copy()
    c, s = math.cos(angle), math.sin(angle)
    xy[i + 1 :] = walk.xy[i] + (walk.xy[i + 1 :] - walk.xy[i]) @ np.array([[c, s], [-s, c]])
    return replace(walk, xy=xy)


def mirrored(walk: Walk) -> Walk:
    """The walk with its y axis turned over."""
    return replace(walk, xy=walk.xy * (1.0, -1.0))


@dataclass(frozen=True)
class Hypothesis:
    """A walk with two marks exchanged, or mirrored (`marks` empty).

    `is_in_plan`: whether it is needed in plan too, not for the heights alone; `is_one_of_heights`: whether one
    wrong height or known level alone would explain it as well.
    """

    walk: int
    marks: tuple[int, ...]
    is_in_plan: bool = False
    is_one_of_heights: bool = False


def hypotheses(both: Both) -> tuple[Hypothesis, ...]:
    """Each exchange of two marks that a walk shares with the rest, and each walk mirrored."""
    ties, out = both.ties, []
    for k in range(len(ties.walks)):
        elsewhere = {o.mark for o in ties.occupations if o.walk != k} | {level.mark for level in ties.levels}
        shared = sorted(ties.stood(k) & elsewhere)
        out += [Hypothesis(k, pair) for pair in combinations(shared, 2)]
        if len(shared) >= 3:
            out.append(Hypothesis(k, ()))
    return tuple(out)


def suppose(both: Both, hypothesis: Hypothesis, freed: Freed = NOTHING) -> Both:
    """The job adjusted as if the hypothesis were true."""
    ties, k = both.ties, hypothesis.walk
    if hypothesis.marks:
        return solve(with_exchanged(ties, k, *hypothesis.marks), freed)
    return solve(with_walk(ties, k, mirrored(ties.walks[k])), freed)


def name_exchange(both: Both) -> tuple[Hypothesis, ...]:
    """The exchanges or mirrored frames that explain a misfit: one where it beats all others, more where they
    tie, none where nothing gains."""
    near = [h for h in hypotheses(both) if not _is_far_off(both, h)]
    tried = [(h, changed) for h in near if (changed := _supposed(both, h)) is not None]
    tried.sort(key=lambda pair: pair[1].chi2)
    if not tried:
        return ()
    best = tried[0][1]
    if best.chi2 > both.chi2 - BEATS_BY or tail(best.chi2, best.freedom) < ACCEPT_P:
        return ()
    single = _one_height_explains(both)
    return tuple(
        replace(h, is_in_plan=in_plan, is_one_of_heights=single and not in_plan)
        for h, changed in tried
        if changed.chi2 < best.chi2 + BEATS_BY
        for in_plan in [changed.plan.solved.chi2 < both.plan.solved.chi2 - BEATS_BY]
    )


def _supposed(both: Both, hypothesis: Hypothesis) -> Both | None:
    """The job as if the hypothesis were true; None where it cannot be adjusted so at all."""
    try:
        return suppose(both, hypothesis)
    except Refused:
        return None


def _one_height_explains(both: Both) -> bool:
    """Whether the heights would fit without one of them (a stand's or a known level)."""
    solved = both.height.solved
    tests = RowTests(solved)
    for i in range(len(solved.rows.residual)):
        outcome, _ = tests.rows([i])
        rest = tail(solved.chi2 - outcome.chi2, solved.redundancy - outcome.freedom)
        if outcome.is_checked and rest > ACCEPT_P:
            return True
    return False


def _is_far_off(both: Both, hypothesis: Hypothesis) -> bool:
    """Cheap look: whether the changed walk laid on any one of the others misses it by far, in plan or in height.

    Only a hypothesis that fits all the others can be the one mistake, so one miss is enough.
    """
    k, spread = hypothesis.walk, both.plan.solved.field.diagonal()
    plan = np.trace(spread, axis1=1, axis2=2)
    height = both.height.solved.field.diagonal()[:, 0, 0]
    for other in range(len(both.ties.walks)):
        own, its = _common_rows(both.ties, hypothesis, other)
        if other == k or len(own) < 2:
            continue
        gaps = _gaps_in_plan(both.ties, hypothesis, own, its)
        if float(np.abs(gaps).max()) > FAR_OFF * math.sqrt(float(plan[own].max() + plan[its].max())):
            return True
        rises = _recorded(both.ties)[its] - _recorded(both.ties)[own]
        seen = np.isfinite(rises)
        if seen.sum() < 2:
            continue
        allowed = FAR_OFF * math.sqrt(float(height[own][seen].max() + height[its][seen].max()))
        if float(np.ptp(rises[seen])) > allowed:
            return True
    return False


FAR_OFF = 6.0
"""Sigmas of the two walks together beyond which a changed walk is not adjusted to see how badly it fits."""


def _recorded(ties: Ties) -> Floats:
    return np.concatenate([walk.ground_z for walk in ties.walks])


def _common_rows(ties: Ties, hypothesis: Hypothesis, other: int) -> tuple[list[int], list[int]]:
    """Rows of the stands of the changed walk, and of another one, on the marks that they then share."""
    names = dict(zip(hypothesis.marks, reversed(hypothesis.marks)))
    stands = reversed(ties.occupations)
    its = {o.mark: o.row for o in stands if o.walk == other}
    own = {names.get(o.mark, o.mark): o.row for o in reversed(ties.occupations) if o.walk == hypothesis.walk}
    shared = sorted(own.keys() & its.keys())
    return [own[mark] for mark in shared], [its[mark] for mark in shared]


def _gaps_in_plan(ties: Ties, hypothesis: Hypothesis, own: list[int], its: list[int]) -> Floats:
    """(k, 2) what is left between two walks at some stands, the one laid rigidly on the other, metres."""
    xy = np.concatenate([walk.xy - walk.xy[:1] for walk in ties.walks])
    local = xy[own] if hypothesis.marks else xy[own] * (1.0, -1.0)
    pose = fit_rigid(local, xy[its])
    c, s = math.cos(pose.turn), math.sin(pose.turn)
    return np.asarray(xy[its] - pose.origin - local @ np.array([[c, s], [-s, c]]))


def not_excluded(both: Both, k: int) -> tuple[Hypothesis, ...]:
    """Exchanges and mirrors of walk k that the marks would not show: nothing in the job speaks against them."""
    ties = both.ties
    shared = sorted({o.mark for o in ties.occupations if o.walk != k} & ties.stood(k))
    if len(shared) < 2:
        return ()
    stands = [o for o in ties.occupations if o.walk == k and o.mark in shared]
    local = ties.walks[k].xy[[o.row - ties.first[k] for o in stands]]
    marks = np.array([o.mark for o in stands], dtype=np.int64)
    out = [h for h in [Hypothesis(k, ())] if _fits(both, h, local * (1.0, -1.0), marks)]
    pairs = [Hypothesis(k, pair) for pair in combinations(shared, 2)]
    return (*[h for h in pairs if _fits(both, h, local, _exchanged(marks, *h.marks))], *out)


def _exchanged(marks: Ints, one: int, other: int) -> Ints:
    """(s,) the marks with two exchanged."""
    return np.where(marks == one, other, np.where(marks == other, one, marks))


def _fits(both: Both, hypothesis: Hypothesis, local: Floats, marks: Ints) -> bool:
    """Cheap look first: the changed walk's stands (s, 2) laid rigidly on the adjusted marks; only then adjust."""
    target = both.plan.marks[marks]
    pose = fit_rigid(local, target)
    c, s = math.cos(pose.turn), math.sin(pose.turn)
    gaps = target - pose.origin - local @ np.array([[c, s], [-s, c]])
    if float(np.abs(gaps).max()) > CLOSE:
        return False
    changed = _supposed(both, hypothesis)
    return changed is not None and tail(changed.chi2, changed.freedom) > ACCEPT_P


CLOSE = 0.5
"""m: a changed walk whose marks miss by more is excluded without adjusting again."""
