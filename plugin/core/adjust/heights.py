# SPDX-License-Identifier: GPL-2.0-or-later
"""Heights of all walks in one datum: one shift a walk, one height a mark; known levels are observations. The
same network as in plan, with one axis, no scale and no turn, so it is linear and solved once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..findings import Finding, Severity
from ..quantity import Floats, Ints
from ..walk import ErrorGrowth, SourceClass, Walk
from .drift import height_drift
from .instrument import Model
from .network import Field, Occupation, Rows, Solved
from .plan import with_freed

MOST_NAMES = 10
"""Walks that a note names."""
MOST_MOVED = 0.10
"""m, common practice, no source: two levels of one point may be so far apart, two datums seldom are so near."""


@dataclass(frozen=True)
class Level:
    """A known height of a mark (by number), metres in the datum, with its one-sigma."""

    mark: int
    height: float
    sd: float
    line: int | None = None


@dataclass(frozen=True, eq=False)
class HeightNetwork:
    """Heights brought together.

    Attributes:
        solved: the network. z: (n,) heights, NaN where none was recorded or the walk hangs on nothing.
        marks: (m,) heights of the marks, NaN where nothing says. shifts: (w,) of the walks.
        occupations, levels: the observations, in the order of the equations.
        tied: (w,) whether a walk's heights hang together with the rest. freed: equations that are let go.
    """

    solved: Solved
    z: Floats
    marks: Floats
    shifts: Floats
    occupations: tuple[Occupation, ...]
    levels: tuple[Level, ...]
    tied: tuple[bool, ...]
    freed: tuple[int, ...] = ()


@dataclass(frozen=True, eq=False)
class HeightInput:
    """What the height network is made of; `first` counts stations over all walks, `marks` is how many there are.
    `freed` are rows (numbers of equations, levels after the occupations) that are let go: a stop's."""

    walks: tuple[Walk, ...]
    models: tuple[Model, ...]
    first: Ints
    marks: int
    occupations: tuple[Occupation, ...]
    levels: tuple[Level, ...]
    freed: tuple[int, ...] = ()


def adjust_heights(job: HeightInput) -> HeightNetwork:
    """Bring the heights of all walks into one datum: that of the levels, else that of the first list of points, else
    of the first walk. Points that were recorded each by itself and hang on nothing keep the heights their file gives."""
    walks = job.walks
    recorded = np.concatenate([walk.ground_z for walk in walks])
    use = tuple(o for o in job.occupations if np.isfinite(recorded[o.row]))
    known = tuple(level for level in job.levels if any(o.mark == level.mark for o in use))
    tied = _tied(walks, use, known)
    use = tuple(o for o in use if tied[o.walk])
    freed = job.freed
    if {*freed} >= {*range(len(use), len(use) + len(known))}:
        known, freed = (), tuple(i for i in freed if i < len(use))
    columns = _columns(walks, job.marks, use, known, tied)
    # Shifts of walks are told against the recorded heights, not against their first station's: the walk that holds
    # the datum keeps its own.
    zeros = np.array([_zero(walk) for walk in walks])
    local = recorded - np.repeat(zeros, np.diff(job.first))
    solved = Solved(_field(job), _rows(replace(job, freed=freed), local, use, known, columns))
    full = np.full(len(columns), np.nan)
    full[columns >= 0] = solved.step[columns[columns >= 0]]
    held = (columns[: len(walks)] < 0) & np.array(tied)
    shifts = np.where(held, 0.0, full[: len(walks)])
    datum = float(zeros[held].sum())
    lone = np.array([_is_given(walk) for walk in walks]) & ~np.array(tied)
    shifts[lone] = zeros[lone] - datum
    z = local + np.repeat(shifts, np.diff(job.first)) + solved.noise()[:, 0] + datum
    return HeightNetwork(
        solved, z, full[len(walks) :] + datum, shifts + datum - zeros, use, known, tied, freed
    )


def tell_moved(walks: Sequence[Walk], network: HeightNetwork) -> tuple[Finding, ...]:
    """HT-01, a note for each list whose heights were brought to those of others by more than levels differ."""
    return tuple(
        Finding(
            "HT-01",
            Severity.NOTE,
            "survey",
            "The heights of {walk} were moved by {shift:+.3f} m to those of the levels, or of the first list: they are in "
            "another datum, or a mark or a level is not the same point.",
            "Compare the two heights of a mark in both files, and correct the wrong one.",
            {"walk": walk.name, "shift": float(shift)},
            file=walk.file,
            line=int(walk.line[0]),
        )
        for walk, tied, shift in zip(walks, network.tied, network.shifts)
        if tied and _is_list(walk) and abs(shift) > MOST_MOVED
    )


def tell_untied(walks: Sequence[Walk], network: HeightNetwork) -> tuple[Finding, ...]:
    """HT-01, a note: walks whose heights hang on none of the others'."""
    apart = [walk for walk, tied in zip(walks, network.tied) if not tied and np.isfinite(walk.ground_z).any()]
    if not apart:
        return ()
    are_given = all(map(_is_given, apart))
    return (
        Finding(
            "HT-01",
            Severity.NOTE,
            "survey",
            "Nothing ties the heights of {walks} to those of the others: they are as {file} gives them. Slopes and falls "
            "within each are right, heights of one against another hang on the same datum in both."
            if are_given
            else "Nothing ties the heights of {walks} to those of the others: those of walks that count from where they "
            "began are left out.",
            "Stand on a mark with a height in both, or give the control a level of a mark in each.",
            {"walks": ", ".join([walk.name for walk in apart[:MOST_NAMES]]), "file": apart[0].file},
            file=apart[0].file,
            line=int(apart[0].line[0]),
        ),
    )


def _field(job: HeightInput) -> Field:
    names = list(dict.fromkeys(model.group for model in job.models))
    drifts = tuple(height_drift(walk, model) for walk, model in zip(job.walks, job.models))
    return Field(drifts, job.first, tuple(names.index(model.group) for model in job.models), axes=1)


def _rows(
    job: HeightInput, local: Floats, use: tuple[Occupation, ...], known: tuple[Level, ...], columns: Ints
) -> Rows:
    walks = len(job.walks)
    design = np.zeros((len(use) + len(known), len(columns)))
    residual = np.zeros(len(design))
    for i, o in enumerate(use):
        design[i, o.walk], design[i, walks + o.mark] = 1.0, -1.0
        residual[i] = -local[o.row]
    for i, level in enumerate(known, start=len(use)):
        design[i, walks + level.mark] = 1.0
        residual[i] = level.height
    return Rows(
        stations=np.array([o.row for o in use], dtype=np.int64),
        residual=residual,
        design=with_freed(design[:, columns >= 0], np.eye(len(design))[:, list(job.freed)]),
        own=np.array([level.sd**2 for level in known]),
        columns=columns,
        lever=np.zeros((0, 1)),
        pose=1,
    )


def _zero(walk: Walk) -> float:
    """A recorded height near all others of the walk, taken off before sums."""
    z = walk.ground_z
    good = z[np.isfinite(z)]
    return float(good[0]) if len(good) else 0.0


def _is_given(walk: Walk) -> bool:
    """Whether a walk's heights are told point by point, and not from where the walk began."""
    return walk.keys.growth is not ErrorGrowth.WALKED


def _tied(
    walks: tuple[Walk, ...], use: tuple[Occupation, ...], levels: tuple[Level, ...]
) -> tuple[bool, ...]:
    """Which walks hang together: those that reach a known level, else those that reach the one with the datum."""
    reached_marks = {level.mark for level in levels}
    reached: set[int] = set() if reached_marks else {_holder(walks, {o.walk for o in use} or {0})}
    while True:
        marks = {o.mark for o in use if o.walk in reached} | reached_marks
        more = {o.walk for o in use if o.mark in marks} | reached
        if marks == reached_marks and more == reached:
            break
        reached_marks, reached = marks, more
    return tuple(k in reached for k in range(len(walks)))


def _holder(walks: tuple[Walk, ...], among: Iterable[int]) -> int:
    """The walk whose heights the others are brought to: a list's are levels, a log's count from where it began, and
    a phone's are good for metres."""
    return min(among, key=lambda k: (not _is_list(walks[k]), k))


def _is_list(walk: Walk) -> bool:
    """Whether a walk's heights are levels that somebody measured, point by point."""
    return walk.keys.growth is ErrorGrowth.POINTS and walk.keys.source_class is not SourceClass.PHONE


def _columns(
    walks: tuple[Walk, ...],
    marks: int,
    use: tuple[Occupation, ...],
    levels: tuple[Level, ...],
    tied: tuple[bool, ...],
) -> Ints:
    """Free parameters: shifts of tied walks (one held where no level is known) and heights of stood marks."""
    free = np.zeros(len(walks) + marks, dtype=bool)
    free[: len(walks)] = tied
    if not levels and any(tied):
        free[_holder(walks, [o.walk for o in use] or np.flatnonzero(tied).tolist())] = False
    for o in use:
        free[len(walks) + o.mark] = True
    return np.where(free, np.cumsum(free) - 1, -1).astype(np.int64)
