# SPDX-License-Identifier: GPL-2.0-or-later
"""Where the next mark, stand or tape would help most: each is tried by surveying the plan with it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from ...adjust.ties import TAPE_SD
from ...defaults import PICK_SD
from ...place.fit import Placed
from ...quantity import COVER_95, COVER_95_PLANE, Floats, Gradient
from ...walk import Leg
from .records import Act, Advice, Change, Plan, PlannedTape, PlannedWalk
from .survey import Progress, Surveyed, ellipses_in, place_plan

MOST_TRIES = 100
"""Candidates of one kind: where there are more, those that lie farthest apart are tried (neighbours help alike)."""
SAME = 1e-6
"""Metres: stations nearer than this are one place."""


@dataclass(frozen=True, eq=False)
class Try:
    """One candidate: station `row` of walk `walk` (numbers), or a tape between two marks; `at` is where."""

    act: Act
    at: tuple[float, float]
    walk: int = 0
    row: int = 0
    marks: tuple[str, ...] = ()
    sd: float | None = None


@dataclass(frozen=True, eq=False)
class Base:
    """What the candidates are held against: the plan as it is, its survey, and the gradient of the size that matters."""

    plan: Plan
    surveyed: Surveyed
    size: Gradient | None


def advise(base: Base, progress: Progress) -> tuple[Advice, ...]:
    """Every candidate with what it would change, the most helpful first."""
    tries = list(_tries(base))
    corner, size = corner_95(ellipses_in(base.surveyed.placed)), _size_95(base.surveyed.placed, base.size)
    out = []
    for k, one in enumerate(tries):
        progress(k / len(tries), "What would help")
        placed = place_plan(with_try(base.plan, one))
        out.append(_advice(base, one, placed, (corner, size)))
    return tuple(sorted(out, key=lambda advice: -advice.gain))


def _advice(base: Base, one: Try, placed: Placed, before: tuple[float, float | None]) -> Advice:
    walk = base.plan.walks[one.walk]
    moved = _moved(base, one)
    keep = np.delete(np.arange(len(placed.xy)), moved) if moved is not None else slice(None)
    corner = None
    if base.surveyed.is_placed:
        corner = Change(before[0], corner_95(ellipses_in(placed)[keep]))
    after = _size_95(placed, _shifted(base.size, moved))
    size = None if before[1] is None or after is None else Change(before[1], after)
    is_tape = one.act is Act.TAPE
    station = "" if is_tape else walk.names[one.row]
    return Advice(one.act, "" if is_tape else walk.name, station, one.at, one.marks, one.sd, corner, size)


def corner_95(ellipses: Floats) -> float:
    """The longest half axis of any station's 95 % ellipse, metres, from (n, 2, 2) covariances."""
    values = np.linalg.eigvalsh(ellipses)
    return COVER_95_PLANE * float(np.sqrt(max(values[:, -1].max(), 0.0)))


def _moved(base: Base, one: Try) -> int | None:
    """The row of the stand that a candidate adds, among all stations."""
    if one.act is not Act.STAND_AGAIN:
        return None
    name = base.plan.walks[one.walk].name
    k = [walk.name for walk in base.surveyed.placed.walks].index(name)
    return int(base.surveyed.placed.first[k + 1])


def _shifted(gradient: Gradient | None, added: int | None) -> Gradient | None:
    if gradient is None or added is None:
        return gradient
    return replace(gradient, index=gradient.index + (gradient.index >= added))


def _size_95(placed: Placed, gradient: Gradient | None) -> float | None:
    if gradient is None:
        return None
    return COVER_95 * float(np.sqrt(max(placed.variance(gradient), 0.0)))


def with_try(plan: Plan, one: Try) -> Plan:
    """The plan with a candidate done."""
    if one.act is Act.TAPE:
        assert one.sd is not None  # noqa: S101 - a tape has one
        return replace(plan, tapes=(*plan.tapes, PlannedTape(one.marks[0], one.marks[1], one.sd)))
    walk = plan.walks[one.walk]
    mark = one.marks[0] if one.marks else walk.place(one.row)
    # Once it is a mark, it is one whenever the walk stands there.
    here = np.hypot(*(walk.xy - walk.xy[one.row]).T) <= SAME
    marks = tuple(cell or mark if is_here else cell for is_here, cell in zip(here, walk.marks))
    changed = replace(walk, mark=marks)
    if one.act is Act.STAND_AGAIN:
        changed = _longer(changed, one.row)
    walks = tuple(changed if k == one.walk else other for k, other in enumerate(plan.walks))
    if one.act is Act.PAIR:
        assert one.sd is not None  # noqa: S101 - a map point has one
        return replace(plan, walks=walks, picks={**plan.picks, mark: one.sd})
    return replace(plan, walks=walks)


def _longer(walk: PlannedWalk, row: int) -> PlannedWalk:
    """The walk with a way back to one of its stations, and a stand there."""
    names = walk.names
    new = next(
        name for name in (f"{names[row]}{'+' * k}" for k in range(1, len(walk) + 2)) if name not in names
    )
    return replace(
        walk,
        xy=np.vstack([walk.xy, walk.xy[row]]),
        z=None if walk.z is None else np.append(walk.z, walk.z[row]),
        station=(*names, new),
        mark=(*walk.marks, walk.marks[row]),
        kind=(*walk.kind, None) if walk.kind else (),
        leg=(*walk.leg, Leg.DIRECT) if walk.leg else (),
        hold=None if walk.hold is None else np.append(walk.hold, np.nan),
        feature=_and_blank(walk.feature),
        part=_and_blank(walk.part),
        hole_in=_and_blank(walk.hole_in),
    )


def _and_blank(cells: tuple[str, ...]) -> tuple[str, ...]:
    return (*cells, "") if cells else ()


def _tries(base: Base) -> Iterator[Try]:
    plan, joined = base.plan, {walk.name for walk in base.surveyed.placed.walks}
    places = [
        (k, i)
        for k, walk in enumerate(plan.walks)
        if walk.name in joined
        for i in range(len(walk))
        if not walk.leg or walk.leg[i] is not Leg.AS_WALKED
    ]
    again = [(k, i) for k, i in _apart(plan, places) if _is_away(plan.walks[k], i)]
    for k, i in again:
        yield Try(Act.STAND_AGAIN, _pair(plan.walks[k].xy[i]), k, i, _marks(plan.walks[k], i))
    if base.surveyed.is_placed:
        sd = float(np.median(list(plan.picks.values()))) if plan.picks else PICK_SD
        free = [(k, i) for k, i in places if not set(_marks(plan.walks[k], i)) & set(plan.picks)]
        for k, i in _apart(plan, free):
            yield Try(Act.PAIR, _pair(plan.walks[k].xy[i]), k, i, _marks(plan.walks[k], i), sd)
    yield from _tapes(plan, joined)


def _marks(walk: PlannedWalk, i: int) -> tuple[str, ...]:
    """The mark where a station lies, be it that the walk names it there or at another stand in the same place."""
    here = np.flatnonzero(np.hypot(*(walk.xy - walk.xy[i]).T) <= SAME)
    named = [walk.marks[i], *(walk.marks[int(k)] for k in here)]
    return tuple(mark for mark in named if mark)[:1]


def _is_away(walk: PlannedWalk, i: int) -> bool:
    """Whether a station lies elsewhere than where the walk ends anyway."""
    return i < len(walk) - 1 and float(np.hypot(*(walk.xy[i] - walk.xy[-1]))) > SAME


def _tapes(plan: Plan, joined: set[str]) -> Iterator[Try]:
    where: dict[str, Floats] = {}
    for walk in plan.walks:
        for i, mark in enumerate(walk.marks):
            if mark and walk.name in joined:
                where.setdefault(mark, walk.xy[i])
    taped = {frozenset((tape.start, tape.end)) for tape in plan.tapes}
    pairs = [
        pair
        for pair in combinations(where, 2)
        if frozenset(pair) not in taped and float(np.hypot(*(where[pair[0]] - where[pair[1]]))) > SAME
    ]
    pairs.sort(key=lambda pair: -float(np.hypot(*(where[pair[0]] - where[pair[1]]))))
    for pair in pairs[:MOST_TRIES]:
        yield Try(Act.TAPE, _pair((where[pair[0]] + where[pair[1]]) / 2), marks=pair, sd=TAPE_SD)


def _pair(xy: Floats) -> tuple[float, float]:
    return float(xy[0]), float(xy[1])


def _apart(plan: Plan, places: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Of stations those in different places, and of too many those that lie farthest apart, in the order planned."""
    if not places:
        return []
    xy = np.array([plan.walks[k].xy[i] for k, i in places])
    chosen = [0]
    away = np.hypot(*(xy - xy[0]).T)
    while len(chosen) < MOST_TRIES and away.max() > SAME:
        chosen.append(int(np.argmax(away)))
        away = np.minimum(away, np.hypot(*(xy - xy[chosen[-1]]).T))
    return [places[i] for i in sorted(chosen)]
