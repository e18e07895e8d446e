# SPDX-License-Identifier: GPL-2.0-or-later
"""All walks in one plane: the plan network solved by Gauss-Newton, with taped lengths and the heading drift
taken out again where it is large (DEVELOPERS.md, The adjustment)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..quantity import Floats, Ints
from ..walk import Walk
from .drift import PlanDrift, PlanNoise, plan_drift, plan_noise, rotated, turned_left
from .instrument import Model
from .network import Field, Occupation, Rows, Solved
from .start import Pose, fit_rigid, place_one_after_another

STEP_TOLERANCE = 1e-10
"""m and rad: the rounds end when no unknown moves more. Clean jobs end within 5 rounds."""
MOST_ROUNDS = 40
"""Jobs that hold a blunder of many metres were seen to need up to 37."""
UNSETTLED = 1e-6
"""m and rad: unknowns that still move by more in the last round have no answer worth a figure."""
STRONG_TURN = np.radians(1.0)
"""rad: expected heading drift (two sigma over the walk) from which it is taken out and fitted again."""
SEEN_TURN = np.radians(0.5)
"""rad: the same for the drift that was found."""

HEADING_ROUNDS = 3
"""Times a strong heading drift is taken out again; the cover holds to 10 degrees of turn with these."""


@dataclass(frozen=True)
class TapeRow:
    """A taped length in plan between two marks (by number), metres."""

    start: int
    end: int
    distance: float
    sd: float


@dataclass(frozen=True, eq=False)
class PlanNetwork:
    """Walks brought together in plan.

    Attributes:
        solved: the network at its last round.
        xy: (n, 2) all stations, metres. marks: (m, 2). poses: of the walks, in order.
        occupations, tapes: the observations, in the order of the equations.
        last_step: the largest move of an unknown in the last round, metres or radians.
    """

    solved: Solved
    xy: Floats
    marks: Floats
    poses: tuple[Pose, ...]
    occupations: tuple[Occupation, ...]
    tapes: tuple[TapeRow, ...]
    last_step: float = 0.0

    @property
    def is_settled(self) -> bool:
        """Whether the rounds came to an end. Judging looks at networks that did not, too: they hold a blunder."""
        return self.last_step <= UNSETTLED


@dataclass(frozen=True)
class PlanInput:
    """What the plan network is made of; `first` counts stations over all walks, `marks` is how many there are.
    `fix_turns` holds every walk's turn fixed (a traverse with known bearings). `known` marks hold their
    places; `held` walks, recorded in a CRS, hold theirs. `freed` (r, k) are effects on the equations that are let go: observations taken out by a stop."""

    walks: tuple[Walk, ...]
    models: tuple[Model, ...]
    first: Ints
    marks: int
    occupations: tuple[Occupation, ...]
    tapes: tuple[TapeRow, ...] = ()
    known: tuple[tuple[int, tuple[float, float]], ...] = ()
    fix_turns: bool = False
    held: tuple[int, ...] = ()
    freed: Floats | None = None

    @cached_property
    def noise(self) -> tuple[PlanNoise, ...]:
        """What of each walk's errors is the same in all rounds."""
        return tuple(plan_noise(walk, model) for walk, model in zip(self.walks, self.models))


def adjust_plan(job: PlanInput) -> PlanNetwork:
    """Bring all walks into one plane. Every walk must be tied (see start.py) before this is asked."""
    poses, marks = _begin(job)
    rates = np.zeros(len(job.walks))
    network = _rounds(job, poses, marks, rates)
    for _ in range(HEADING_ROUNDS):
        found = _strong_heading(job, network, rates)
        if found is None or not network.is_settled:
            break
        rates = found
        network = _rounds(job, network.poses, network.marks, rates)
    return network


def _begin(job: PlanInput) -> tuple[list[Pose], Floats]:
    """First poses and (m, 2) places of marks. Known bearings leave no turn at all; known marks turn the whole
    survey to them first (from half a turn away the rounds would not come to an end)."""
    local = [walk.xy - walk.xy[:1] for walk in job.walks]
    held = {k: Pose(job.walks[k].xy[0], 0.0) for k in job.held}
    start = place_one_after_another(local, job.occupations, list(job.first[:-1]), held=held)
    poses = [start.poses.get(k, Pose(np.zeros(2), 0.0)) for k in range(len(job.walks))]
    marks = np.array([start.marks.get(j, np.zeros(2)) for j in range(job.marks)]).reshape(-1, 2)
    seen = [(mark, place) for mark, place in job.known if mark in start.marks]
    if job.fix_turns:
        poses = [Pose(pose.origin, 0.0) for pose in poses]
    elif len(seen) >= 2:
        whole = fit_rigid(marks[[mark for mark, _ in seen]], np.array([place for _, place in seen]))
        poses = [
            Pose(whole.origin + rotated(pose.origin, whole.turn), pose.turn + whole.turn) for pose in poses
        ]
        marks = whole.origin + rotated(marks, whole.turn)
    for mark, place in job.known:
        marks[mark] = place
    return poses, marks


@dataclass(frozen=True, eq=False)
class _State:
    """Where a round begins: poses, (m, 2) marks, (n, 2) noise of the stations, and the heading rates (rad/s) that
    are already taken out of the steps."""

    poses: tuple[Pose, ...]
    marks: Floats
    noise: Floats
    rates: Floats


def _rounds(job: PlanInput, poses: Sequence[Pose], marks: Floats, rates: Floats) -> PlanNetwork:
    """Gauss-Newton from given places. `rates` (rad/s) are heading drifts already taken out of the steps."""
    columns = _columns(job)
    state, step = _State(tuple(poses), marks, np.zeros((int(job.first[-1]), 2)), rates), 0.0
    for _ in range(MOST_ROUNDS):
        field = _field(job, state.poses, rates)
        solved = Solved(field, _rows(job, field, state, columns))
        full = np.zeros(len(columns))
        full[columns >= 0] = solved.step[columns[columns >= 0]]
        state = _moved(state, full, solved.noise())
        step = float(np.abs(full).max(initial=0.0))
        if step < STEP_TOLERANCE:
            break
    origins = np.repeat([p.origin for p in state.poses], np.diff(job.first), axis=0)
    xy = origins + np.concatenate([plan_of(d).m for d in field.drifts]) + state.noise
    return PlanNetwork(solved, xy, state.marks, state.poses, job.occupations, job.tapes, step)


def _moved(state: _State, full: Floats, noise: Floats) -> _State:
    """The state after a round's step (poses first, then marks)."""
    walks = len(state.poses)
    poses = tuple(
        Pose(p.origin + d[:2], p.turn + float(d[2]))
        for p, d in zip(state.poses, full[: 3 * walks].reshape(-1, 3))
    )
    return _State(poses, state.marks + full[3 * walks :].reshape(-1, 2), noise, state.rates)


def plan_of(drift: object) -> PlanDrift:
    """The drift as a plan drift: the field of a plan network holds nothing else."""
    assert isinstance(drift, PlanDrift)  # noqa: S101
    return drift


def _field(job: PlanInput, poses: Sequence[Pose], rates: Floats) -> Field:
    drifts = tuple(
        plan_drift(walk, model, pose.turn, float(rate), noise)
        for walk, model, pose, rate, noise in zip(job.walks, job.models, poses, rates, job.noise)
    )
    names = list(dict.fromkeys(model.group for model in job.models))
    return Field(drifts, job.first, tuple(names.index(model.group) for model in job.models), axes=2)


def _columns(job: PlanInput) -> Ints:
    """Which parameters are free: the first walk holds the datum, or those whose place is known; with one mark or known
    bearings turns are held too, and known marks hold their places (the first walk is then free to move)."""
    walks = len(job.walks)
    poses = np.ones((walks, 3), dtype=bool)
    marks = np.zeros((job.marks, 2), dtype=bool)
    marks[[o.mark for o in job.occupations]] = True
    marks[[mark for mark, _ in job.known]] = False
    if not job.known and not job.held:
        poses[0] = False
    for k in range(walks):
        stood = {o.mark for o in job.occupations if o.walk == k}
        if job.fix_turns or len(stood) < 2:
            poses[k, 2] = False
    poses[list(job.held)] = False
    free = np.concatenate([poses.ravel(), marks.ravel()])
    return np.where(free, np.cumsum(free) - 1, -1).astype(np.int64)


def _rows(job: PlanInput, field: Field, state: _State, columns: Ints) -> Rows:
    m = np.concatenate([plan_of(d).m for d in field.drifts])
    # A pose turns the corrected walk, not the recorded one: only so is the answer the same whichever walk
    # holds the datum (with the recorded one it hangs on that by 8 micrometres).
    lever = turned_left(m + state.noise)
    design = np.zeros((2 * len(job.occupations) + len(job.tapes), len(columns)))
    residual = np.zeros(len(design))
    stations = _stand_rows(job, m, lever, state, design, residual)
    _tape_rows(job, state, design, residual)
    return Rows(
        stations=stations,
        residual=residual,
        design=with_freed(design[:, columns >= 0], job.freed),
        own=np.array([tape.sd**2 for tape in job.tapes]),
        columns=columns,
        lever=lever,
        pose=3,
        prior=_prior(job, field, state.rates),
    )


def _stand_rows(
    job: PlanInput, m: Floats, lever: Floats, state: _State, design: Floats, residual: Floats
) -> Ints:
    """Fill in the two equations of each stand on a mark; the stations' rows (k,)."""
    walks, at = len(state.poses), np.arange(len(job.occupations))
    stations, walk, mark = (
        np.array([getattr(o, name) for o in job.occupations], dtype=np.int64)
        for name in ("row", "walk", "mark")
    )
    for axis in range(2):
        design[2 * at + axis, 3 * walk + axis] = 1.0
        design[2 * at + axis, 3 * walk + 2] = lever[stations, axis]
        design[2 * at + axis, 3 * walks + 2 * mark + axis] = -1.0
    origin = np.array([p.origin for p in state.poses])
    residual[: 2 * len(at)] = (state.marks[mark] - origin[walk] - m[stations]).ravel()
    return stations


def _tape_rows(job: PlanInput, state: _State, design: Floats, residual: Floats) -> None:
    """Fill in the equation of each tape. Two marks in one place have no direction between them: any will do."""
    marks = 3 * len(state.poses)
    for row, tape in enumerate(job.tapes, start=2 * len(job.occupations)):
        way = state.marks[tape.end] - state.marks[tape.start]
        length = float(np.hypot(*way))
        unit = way / length if length > 0 else np.array([1.0, 0.0])
        residual[row] = tape.distance - length
        design[row, marks + 2 * tape.end : marks + 2 * tape.end + 2] = unit
        design[row, marks + 2 * tape.start : marks + 2 * tape.start + 2] = -unit


def with_freed(design: Floats, freed: Floats | None) -> Floats:
    """(r, c + k) the design with the freed effects as unknowns of their own, after all others."""
    return design if freed is None or not freed.size else np.hstack([design, freed])


def _prior(job: PlanInput, field: Field, rates: Floats) -> Floats | None:
    """(parts,) mean of the error parts. They are parts of the correction (minus the error), so a heading rate
    already taken out of the steps is expected back, in its sigmas, by the part that is left."""
    if not rates.any():
        return None
    ends = np.cumsum([drift.parts for drift in field.drifts])
    prior = np.zeros(int(ends[-1]) + field.shared.shape[0])
    for k, drift in enumerate(field.drifts):
        sigma = plan_of(drift).heading_rate
        if sigma > 0:
            prior[ends[k] - drift.parts + 1] = rates[k] / sigma
    return prior


def _strong_heading(job: PlanInput, network: PlanNetwork, taken: Floats) -> Floats | None:
    """Heading rates (rad/s) to take out, where a drift is strong enough for the linear model to matter."""
    parts, field = network.solved.parts(), network.solved.field
    ends = np.cumsum([drift.parts for drift in field.drifts])
    sigma = np.array([plan_of(drift).heading_rate for drift in field.drifts])
    time = np.array([float(noise.legs.moving.sum()) for noise in job.noise])
    at = ends - [drift.parts for drift in field.drifts] + 1
    rates = taken - sigma * parts[at]
    strong = (2 * sigma * time > STRONG_TURN) | (np.abs(rates) * time > SEEN_TURN)
    return rates if strong.any() else None
