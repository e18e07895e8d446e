# SPDX-License-Identifier: GPL-2.0-or-later
"""Bring all walks of a job into one survey plane: the one entry of this step."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

import numpy as np

from ..errors import Refused
from ..findings import Decisions, Finding, Severity
from ..quantity import Floats, Gradient, Ints
from ..walk import ErrorGrowth, Job, Walk
from .bases import Base, check_units
from .closures import Loop, find_loops
from .heights import tell_moved, tell_untied
from .instrument import Model
from .judge import Judged, judge
from .naming import mirrored
from .solve import Both
from .start import Pose, place_one_after_another
from .ties import Ties, own_places, tie

MOST_MENDS = 8
"""Times that answered exchanges and mirrors are carried out one after another: no job asks for more."""


@dataclass(frozen=True, eq=False)
class Adjusted:
    """All walks in one plane, with the covariance of everything (see positions.py for what it answers).

    Attributes:
        ties: walks, marks and observations. judged: networks, tests and what was let go.
        loops: of each walk. left_out: walks that are not in it: they hang on nothing, or
            a stop on their unit is open.
    """

    ties: Ties
    judged: Judged
    loops: tuple[tuple[Loop, ...], ...]
    left_out: tuple[Walk, ...]

    @property
    def both(self) -> Both:
        """The plan and the height network."""
        return self.judged.both

    @property
    def walks(self) -> tuple[Walk, ...]:
        """The walks that are in it."""
        return self.ties.walks

    @property
    def models(self) -> tuple[Model, ...]:
        """Their instrument models."""
        return self.ties.models

    @property
    def first(self) -> Ints:
        """(w+1,) first row of each walk."""
        return self.ties.first

    @property
    def xy(self) -> Floats:
        """(n, 2) all stations, metres."""
        return self.both.plan.xy

    @property
    def z(self) -> Floats:
        """(n,) ground heights, NaN where there is none."""
        return self.both.height.z

    @property
    def mark_rows(self) -> Mapping[str, int]:
        """For each mark, a station that the adjustment holds on it."""
        freed = set(self.judged.freed.stands)
        rows: dict[str, int] = {}
        for i, o in enumerate(self.ties.occupations):
            if i not in freed:
                rows.setdefault(self.ties.marks[o.mark], o.row)
        return rows

    @property
    def named_rows(self) -> Mapping[str, int]:
        """The row of each mark, and of each station by `walk:station`."""
        places = {
            walk.place(i): int(self.first[k]) + i
            for k, walk in enumerate(self.walks)
            for i in range(len(walk))
        }
        return {**places, **self.mark_rows}

    def variance(self, gradient: Gradient) -> float:
        """Variance of a figure: g' V g in plan and in height."""
        plan = np.zeros((len(self.xy), 2))
        np.add.at(plan, gradient.index, gradient.plan)
        total = self.both.plan.solved.variance(plan) if plan.any() else 0.0
        if gradient.height.any():
            height = np.zeros((len(self.xy), 1))
            np.add.at(height[:, 0], gradient.index, gradient.height)
            total += self.both.height.solved.variance(height)
        return total

    def plan_columns(self, index: Ints) -> Floats:
        """(k, 2, n, 2) covariance of k stations with all stations."""
        unit = np.zeros((len(index), 2, len(self.xy), 2))
        unit[np.arange(len(index)), 0, index, 0] = unit[np.arange(len(index)), 1, index, 1] = 1.0
        return self.both.plan.solved.apply(unit)

    def plan_covariance(self, index: Ints) -> Floats:
        """(k, 2, k, 2) joint covariance of k stations in plan."""
        return self.both.plan.solved.joint(index).reshape(len(index), 2, len(index), 2)

    def plan_ellipses(self, index: Ints) -> Floats:
        """(k, 2, 2) covariance of each of k stations."""
        return self.both.plan.solved.blocks(index)

    def height_columns(self, index: Ints) -> Floats:
        """(n, k) covariance of all heights with those of k stations."""
        return self.both.height.solved.columns(index)

    def height_sigma(self, index: Ints) -> Floats:
        """(k,) one-sigma of heights."""
        return np.asarray(np.sqrt(np.maximum(self.both.height.solved.blocks(index)[:, 0, 0], 0.0)))


def adjust_walks(
    job: Job, map_bases: Mapping[Base, float], decisions: Decisions, extra_tests: int = 0
) -> tuple[Adjusted, tuple[Finding, ...]]:
    """Bring the walks together at their marks; nothing is spread before it is tested.

    Args:
        job: walks, tapes, instruments, levels of the control.
        map_bases: ground lengths between control marks (they decide wrong units where two walks cannot).
        decisions: answers that change what is adjusted (a unit, exchanged marks, a tape left out).
        extra_tests: how many tests placing will make, for the one budget.
    Returns:
        The adjustment, and its findings.
    Raises:
        Refused: no walk is left.
    """
    job, findings = check_units(job, map_bases, decisions)
    in_doubt = {f.walk for f in findings if f.is_open and f.walk}
    walks = tuple(walk for walk in job.walks if walk.name not in in_doubt and len(walk))
    walks, lone = _tied(walks, {mark for base in map_bases for mark in base})
    if not walks:
        raise _none_left(findings, job)
    findings += tuple(decisions.answered(_untied(walk, walks)) for walk in lone)
    adjusted, found = _adjust(job, walks, lone, decisions, extra_tests)
    in_doubt_too = tuple(walk for walk in job.walks if walk.name in in_doubt)
    heights = adjusted.both.height
    found += tell_moved(adjusted.walks, heights) + tell_untied(adjusted.walks, heights)
    return replace(adjusted, left_out=lone + in_doubt_too), (*findings, *found)


def _none_left(findings: tuple[Finding, ...], job: Job) -> Refused:
    """Why no walk is left: the first finding whole, and the row that would answer it."""
    first = next((f for f in findings if f.is_open), None)
    if first is None and job.surfaces and not job.walks:
        return Refused(
            "{file} holds surfaces and no walk or point, so there is nothing to measure. Add the logs of the site; Read "
            "walks gives the surfaces by themselves.",
            file=job.surfaces[0].file,
        )
    if first is None:
        return Refused("No walk is left to adjust: none has a station that could be read.")
    return Refused(
        "No walk is left to adjust. {code} at {place} ({file}, line {line}): {message} {remedy} Or answer it with a "
        "row in the decisions file: {code},{place},{answer}",
        code=first.code,
        place=first.place,
        file=first.file,
        line=first.line,
        message=first.message,
        remedy=first.remedy_text,
        answer=" or ".join(first.answers),
    )


def _adjust(
    job: Job,
    walks: tuple[Walk, ...],
    lone: tuple[Walk, ...],
    decisions: Decisions,
    extra: int,
    mends: int = 0,
) -> tuple[Adjusted, tuple[Finding, ...]]:
    ties = tie(job, walks)
    loops = tuple(find_loops(walk, model) for walk, model in zip(walks, ties.models))
    judged = judge(ties, loops, extra, decisions)
    mended = _mend(walks, judged) if mends < MOST_MENDS else None
    if mended is None:
        return Adjusted(ties, judged, loops, lone), judged.findings
    adjusted, more = _adjust(job, mended, lone, decisions, extra, mends + 1)
    answered = tuple(f for f in judged.findings if f.answer in ("exchange", "mirror"))
    return adjusted, (*answered, *more)


def _mend(walks: tuple[Walk, ...], judged: Judged) -> tuple[Walk, ...] | None:
    """The walks with answered exchanges and mirrors carried out; None where nothing was answered so."""
    changes = {f.walk: f for f in judged.findings if f.answer in ("exchange", "mirror")}
    if not changes:
        return None
    out = []
    for walk in walks:
        finding = changes.get(walk.name)
        if finding is None:
            out.append(walk)
        elif finding.answer == "mirror":
            out.append(mirrored(walk))
        else:
            out.append(walk.with_marks_exchanged(str(finding.data["one"]), str(finding.data["other"])))
    return tuple(out)


def _tied(walks: tuple[Walk, ...], mapped: Collection[str]) -> tuple[tuple[Walk, ...], tuple[Walk, ...]]:
    """Walks that share two marks or more with the rest, and those that do not. A walk alone is tied, and so are those
    that were recorded in a CRS, each with a place of its own; of groups that do not hang together the one with map
    points (`mapped` marks) is kept, and walked ones before those in a CRS."""
    if len(walks) < 2:
        return walks, ()
    own = set(own_places(walks))
    reached = _reached(walks, mapped, own) if own else set()
    if len(own) < len(walks) and reached <= own:
        reached = _reached(walks, mapped, set())
    kept = tuple(walk for k, walk in enumerate(walks) if k in reached)
    return kept, tuple(walk for k, walk in enumerate(walks) if k not in reached)


def _reached(walks: tuple[Walk, ...], mapped: Collection[str], own: set[int]) -> set[int]:
    """Numbers of the walks that hang together, beginning with those that have a place of their own."""
    ties = tie(Job(walks), walks)
    start = place_one_after_another(
        [walk.xy - walk.xy[:1] for walk in walks],
        ties.occupations,
        [int(r) for r in ties.first[:-1]],
        [j for j, mark in enumerate(ties.marks) if mark in mapped],
        {k: Pose(walks[k].xy[0], 0.0) for k in own},
    )
    return set(start.poses)


def _untied(walk: Walk, walks: tuple[Walk, ...]) -> Finding:
    marks = {mark for other in walks for mark in other.mark if mark}
    shared = sorted(marks & set(walk.mark))
    data = {"walk": walk.name, "shared": ", ".join(shared) or "none"}
    return Finding(
        "TI-01",
        Severity.STOP,
        walk.place(0),
        "Walk {walk} shares fewer than two marks with the others (shared: {shared}), so its place and turn are "
        "not known. It is left out."
        if len(shared) < 2
        else "The marks that walk {walk} shares with the others ({shared}) lie in one place, so its turn is not known. "
        "It is left out.",
        "Walk past two marks of the others, or place this walk on its own."
        if walk.keys.growth is ErrorGrowth.WALKED
        else "Give two of its stations the names of marks that the others stand on, or survey it by itself.",
        data,
        file=walk.file,
        line=int(walk.line[0]),
        walk=walk.name,
        station=walk.station[0],
    )
