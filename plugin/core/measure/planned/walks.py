# SPDX-License-Identifier: GPL-2.0-or-later
"""A plan as the job that a survey of it would read, had nobody erred: walks, map points, levels, tapes."""

from __future__ import annotations

import math
from collections import Counter

import numpy as np

from ...errors import BadInput
from ...place.locate import LEAST_SD, Located, MapPoint
from ...quantity import Floats
from ...walk import Control, ControlPoint, Job, Leg, LogKeys, Tape, Walk
from .records import Plan, PlannedWalk

MOST_STATIONS = 2000
"""Stations of a plan, common practice, no source: several days' work; more is a layer chosen by mistake."""
FARTHEST = 20_000.0
"""Metres from the middle of a plan, common practice, no source: nobody walks so far."""
SAME_MARK = 1e-3
"""Metres by which two stands on one mark may be drawn apart; they are taken as one."""
INSTRUMENT = "planned"
FILE = "plan"
"""What findings name as their file."""


def job_of(plan: Plan) -> tuple[Job, Located]:
    """The files of a survey without any error, as records; places are metres from the plan's middle.

    Raises:
        BadInput: a mark is planned in two places.
    """
    middle = middle_of(plan)
    marks = _places(plan, middle)
    points = tuple(_point(mark, marks[mark][:2], sd) for mark, sd in plan.picks.items())
    levels = tuple(
        ControlPoint(mark, None, float(marks[mark][2]), None, sd, is_check=False)
        for mark, sd in plan.levels.items()
    )
    tapes = tuple(
        Tape(t.start, t.end, math.dist(marks[t.start][:2], marks[t.end][:2]), t.sd, is_slope=False)
        for t in plan.tapes
    )
    named = {INSTRUMENT: plan.instrument} if plan.instrument else None
    walks = tuple(_walk(plan, walk, *_without_gaps(walk, middle, marks)) for walk in plan.walks)
    job = Job(walks, Control(levels), tapes, named)
    return job, Located(None, points, plan.common, 0.0, ())


def middle_of(plan: Plan) -> Floats:
    """(2,) the middle of what is planned: sums about it lose nothing, wherever the plane has its origin."""
    xy = np.concatenate([walk.xy for walk in plan.walks])
    return np.asarray((xy.min(axis=0) + xy.max(axis=0)) / 2.0)


def _point(mark: str, xy: Floats, sd: float) -> MapPoint:
    row = ControlPoint(mark, (float(xy[0]), float(xy[1])), None, sd, None, is_check=False)
    return MapPoint(mark, xy, max(sd, LEAST_SD), is_check=False, row=row)


def heights_of(walk: PlannedWalk) -> Floats:
    """(n,) heights of the ground; level ground where nothing is known of some."""
    z = np.zeros(len(walk)) if walk.z is None else walk.z
    return z if np.isfinite(z).all() else np.zeros(len(walk))


def _places(plan: Plan, middle: Floats) -> dict[str, Floats]:
    """(3,) where each mark is: where it is first stood on."""
    out: dict[str, Floats] = {}
    for walk in plan.walks:
        z = heights_of(walk)
        for i, mark in enumerate(walk.marks):
            if not mark:
                continue
            place = out.setdefault(mark, np.array([*(walk.xy[i] - middle), z[i]]))
            gap = math.dist(walk.xy[i] - middle, place[:2])
            if gap > SAME_MARK:
                raise BadInput(
                    "Walk {walk}, station {station}: mark {mark} is planned {gap:.2f} m from where it was before. Draw it in "
                    "one place, or give one of the two another name.",
                    walk=walk.name,
                    station=walk.names[i],
                    mark=mark,
                    gap=gap,
                )
    return out


def _without_gaps(walk: PlannedWalk, middle: Floats, marks: dict[str, Floats]) -> tuple[Floats, Floats]:
    """(n, 2) and (n,) places and heights about the middle, each mark in one place."""
    xy, z = walk.xy - middle, heights_of(walk).copy()
    for i, mark in enumerate(walk.marks):
        if mark:
            xy[i], z[i] = marks[mark][:2], marks[mark][2]
    return xy, z


def _walk(plan: Plan, walk: PlannedWalk, xy: Floats, z: Floats) -> Walk:
    n = len(walk)
    blank, nan = ("",) * n, np.full(n, np.nan)
    hold = np.full(n, plan.pace.hold)
    if walk.hold is not None:
        hold = np.where(np.isfinite(walk.hold), walk.hold, hold)
    return Walk(
        name=walk.name,
        file=FILE,
        keys=LogKeys(units="m", instrument=INSTRUMENT, accuracy=plan.accuracy),
        station=walk.names,
        line=np.arange(1, n + 1),
        xy=xy,
        z=z,
        time=_arrivals(xy, hold, plan.pace.speed),
        hold=hold,
        feature=walk.feature or blank,
        part=walk.part or blank,
        kind=walk.kind or (None,) * n,
        leg=walk.leg or (Leg.DIRECT,) * n,
        hole_in=walk.hole_in or blank,
        mark=walk.marks,
        offset=np.zeros(n),
        pole=np.zeros(n),
        sd_xy=nan,
        sd_z=nan,
        sizes={},
        texts={},
        extra={},
    )


def _arrivals(xy: Floats, hold: Floats, speed: float) -> Floats:
    """(n,) seconds from the start to each station."""
    moving = np.hypot(*np.diff(xy, axis=0).T) / speed
    return np.concatenate([[0.0], np.cumsum(moving + hold[:-1])])


def refuse_bad(plan: Plan) -> None:
    """Refuse a plan that cannot be walked, or that names marks which no station stands on.

    Raises:
        BadInput: it is one; told by walk and station.
    """
    if not plan.walks:
        raise BadInput("Nothing is planned. Draw a line for each walk, through its stations in order.")
    for walk in plan.walks:
        _refuse_walk(walk)
    names = [walk.name for walk in plan.walks]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise BadInput("Two walks are called {walk}. Give each a name of its own.", walk=twice)
    count = sum(map(len, plan.walks))
    if count > MOST_STATIONS:
        raise BadInput(
            "The plan has {count} stations, and {most} are the most. Choose the lines that will be walked, with a vertex "
            "at each station only.",
            count=count,
            most=MOST_STATIONS,
        )
    reach = max(float(np.abs(walk.xy - middle_of(plan)).max()) for walk in plan.walks)
    if reach > FARTHEST:
        raise BadInput(
            "The plan reaches {reach:.0f} m from its middle, and {most:.0f} m are the most. Choose the walks of one site, "
            "and check the CRS.",
            reach=reach,
            most=FARTHEST,
        )
    _refuse_numbers(plan)
    _refuse_marks(plan)


def _refuse_walk(walk: PlannedWalk) -> None:
    if len(walk) < 2:
        raise BadInput(
            "Walk {walk} has {count} stations, and two are the fewest. Draw it through all its stations.",
            walk=walk.name,
            count=len(walk),
        )
    bad = np.flatnonzero(~np.isfinite(walk.xy).all(axis=1))
    if len(bad):
        raise BadInput(
            "Walk {walk}, station {station}: it has no place. Draw it again.",
            walk=walk.name,
            station=walk.names[int(bad[0])],
        )
    seen = Counter(walk.names)
    if len(seen) < len(walk.names):
        raise BadInput(
            "Walk {walk} has two stations {station}. Give each a name of its own.",
            walk=walk.name,
            station=seen.most_common(1)[0][0],
        )
    for column in (walk.station, walk.mark, walk.feature, walk.part, walk.hole_in, walk.kind, walk.leg):
        if column and len(column) != len(walk):
            raise BadInput(
                "Walk {walk} has {count} stations, and a column of {cells}. Give each station its cell.",
                walk=walk.name,
                count=len(walk),
                cells=len(column),
            )


def _refuse_numbers(plan: Plan) -> None:
    pace = plan.pace
    if not (0.0 < pace.speed < math.inf and 0.0 <= pace.hold < math.inf):
        raise BadInput(
            "The pace is {speed} m/s with {hold} s at each stand. Give a speed above 0, and seconds that are 0 or more.",
            speed=pace.speed,
            hold=pace.hold,
        )
    sigmas = (*plan.picks.values(), *plan.levels.values(), *(t.sd for t in plan.tapes), plan.common)
    for sigma in sigmas:
        if not 0.0 <= sigma < math.inf:
            raise BadInput("A one-sigma of {sigma} m is none. Give metres, 0 or more.", sigma=sigma)


def _refuse_marks(plan: Plan) -> None:
    stood = {mark for walk in plan.walks for mark in walk.marks if mark}
    ends = (end for tape in plan.tapes for end in (tape.start, tape.end))
    for mark in (*plan.picks, *plan.levels, *ends):
        if mark not in stood:
            raise BadInput(
                "No station of the plan stands on mark {mark}. Draw a walk over it, or leave it out.",
                mark=mark,
            )
