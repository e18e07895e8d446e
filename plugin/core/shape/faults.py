# SPDX-License-Identifier: GPL-2.0-or-later
"""What shaping has to say about a feature, in words."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Optional

from ..findings import Finding, Severity
from ..walk import Leg
from .arcs import Doubt, Drawn
from .crossing import Crossing
from .legs import Group, RawLeg
from .remedies import Remedies


@dataclass(frozen=True)
class _Words:
    """What is the same of every finding of one kind."""

    code: str
    severity: Severity
    template: str
    remedy: str
    answers: tuple[str, ...] = ()


Place = Optional[tuple[float, float]]
REVERSE, SPLIT, DROP = "reverse", "split", "drop"


def _at_station(group: Group, k: int, words: _Words, at: Place, **data: object) -> Finding:
    walk, cell = group.source(k)
    finding = _at_feature(group, words, at, **data)
    line = int(walk.line[cell])
    return replace(
        finding,
        place=walk.place(cell),
        data={**finding.data, "file": walk.file, "line": line},
        file=walk.file,
        line=line,
        walk=walk.name,
        station=walk.station[cell],
    )


def _at_feature(group: Group, words: _Words, at: Place, **data: object) -> Finding:
    walk, line = group.walk, int(group.walk.line[group.cells[0]])
    return Finding(
        words.code,
        words.severity,
        group.place,
        words.template,
        words.remedy,
        {"file": walk.file, "line": line, "feature": group.place, **data},
        file=walk.file,
        line=line,
        walk=walk.name,
        feature=group.feature,
        at=at,
        answers=words.answers,
    )


NO_PASSING_POINT = _Words(
    "GE-03",
    Severity.STOP,
    template="{file}, line {line}: the curve of {feature} from station {start} to {end} has no passing point.",
    remedy="Add a passing point with leg `curve`; else it is drawn straight.",
    answers=("straight",),
)
STRAIGHT = _Words(
    "GE-03",
    Severity.STOP,
    template="{file}, line {line}: the curve of {feature} from station {start} to {end} is straight within what "
    "its stations can be trusted.",
    remedy="Add a passing point nearer the middle of the curve; else it is drawn straight.",
    answers=("straight",),
)
NOT_ENDED = _Words(
    "GE-03",
    Severity.STOP,
    template="{file}, line {line}: the curve of {feature} from station {start} does not come to a `curve-end`; its "
    "last `curve` station {end} was taken for its end.",
    remedy="Give the curve's last station the leg `curve-end`, or accept it as drawn.",
    answers=("accept",),
)
MISSES = _Words(
    "GE-04",
    Severity.ASK,
    template="{file}, line {line}: the curve of {feature} from station {start} to {end} misses station {missed} by "
    "{size:.3f} m, where one sigma is {sigma:.3f} m.",
    remedy="Two curves? Put a `curve-end` where they meet. Wrong passing point? Take it out. Or accept it.",
    answers=("accept",),
)
TIGHT = _Words(
    "GE-04",
    Severity.ASK,
    template="{file}, line {line}: the curve of {feature} from station {start} to {end} has a radius of only "
    "{size:.3f} m.",
    remedy="Two curves? Wrong passing point? Correct the log, or accept it.",
    answers=("accept",),
)
FAR_ROUND = _Words(
    "GE-04",
    Severity.ASK,
    template="{file}, line {line}: the curve of {feature} from station {start} to {end} turns by {size:.1f} degrees "
    "without closing.",
    remedy="A full circle ends at its first station again. Wrong passing point? Correct the log, or accept it.",
    answers=("accept",),
)
INVERTED = _Words(
    "GE-04",
    Severity.ASK,
    template="{file}, line {line}: an offset of {feature} is larger than a curve or side of it has room for.",
    remedy="Correct `offset` or `offset_side`, or accept the edge as drawn.",
    answers=("accept",),
)
INSIDE_OUT = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: the offset of {offset:.3f} m is larger than {feature} has room for at "
    "({x:.3f}, {y:.3f}) in the survey plane: its outline comes out turned about.",
    remedy="Correct `offset` or `offset_side`, or walk the true edge there.",
)
NOT_CLOSED = _Words(
    "CL-02",
    Severity.NOTE,
    template="{file}, line {line}: the outline of {feature} ends {gap:.3f} m from where it began; it was closed by "
    "a direct side.",
    remedy="Nothing, if that side is straight; a walk back to the first corner would check the outline.",
)
FEW_POINTS = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: the outline of {feature} has {count} different points, so it has no area.",
    remedy="Give it three corners or more, or another geometry (`length`, `spot`).",
)
ON_ONE_LINE = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: the outline of {feature} lies on one line, so it has no area.",
    remedy="Correct the stations, or give it another geometry (`length`).",
)
GOES_ROUND = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: the outline of {feature} goes round the same ground {times} times.",
    remedy="Take the stations of one round out of the log, or give the second round a name of its own.",
)
ONE_ON_CIRCLE = _Words(
    "GE-01",
    Severity.STOP,
    template=FEW_POINTS.template,
    remedy="A full circle needs two `curve` stations or more between its first station and the `curve-end` at the "
    "same place: walk it again with two.",
)
NO_EDGE = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: nothing is drawn of {feature}: it has no two stations with a way between them.",
    remedy="Give it two stations or more, or the geometry `spot`.",
)
CROSSES = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane, "
    "where the way from station {a} to {b} meets the way from {c} to {d}.",
    remedy="Correct the log: put stations {b} to {c} in reverse order, leave one of them out, or split there.",
)
CIRCLE_CROSSES = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: a full circle in the outline of {feature} crosses the outline at ({x:.3f}, {y:.3f}) "
    "in the survey plane.",
    remedy="Correct the stations of the circle, its `offset`, or the sides there; walk a circle that stands by itself "
    "as a feature of its own.",
)
CROSSES_SPLIT = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane, "
    "where the way from station {a} to {b} meets the way from {c} to {d}.",
    remedy="Answer split (two parts there, of {part_1:.3f} and {part_2:.3f} m2), or correct the log.",
    answers=(SPLIT,),
)
CROSSES_REVERSE = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane, "
    "where the way from station {a} to {b} meets the way from {c} to {d}.",
    remedy="Answer reverse (stations {b} to {c} in reverse order give {reversed_area:.3f} m2) or split (two parts "
    "there, of {part_1:.3f} and {part_2:.3f} m2), or correct the log.",
    answers=(REVERSE, SPLIT),
)
CROSSES_DROP = _Words(
    "GE-01",
    Severity.STOP,
    template="{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane, "
    "where the way from station {a} to {b} meets the way from {c} to {d}.",
    remedy="Answer reverse (stations {b} to {c} in reverse order give {reversed_area:.3f} m2), split (two parts "
    "there, of {part_1:.3f} and {part_2:.3f} m2) or drop (without station {dropped} it has {dropped_area:.3f} m2), or "
    "correct the log.",
    answers=(REVERSE, SPLIT, DROP),
)
CURVE_WORDS = {
    Doubt.NO_PASSING_POINT: NO_PASSING_POINT,
    Doubt.STRAIGHT: STRAIGHT,
    Doubt.MISSES: MISSES,
    Doubt.TIGHT: TIGHT,
    Doubt.FAR_ROUND: FAR_ROUND,
}


def _name(group: Group, k: int) -> str:
    return group.walk.station[group.cells[k]]


def curve_fault(group: Group, leg: RawLeg, drawn: Drawn, at: Place) -> Finding | None:
    """GE-03 or GE-04 for a curve as drawn, None where nothing is doubtful."""
    start, end = leg.stations[0], leg.stations[-1]
    data: dict[str, object] = {"start": _name(group, start), "end": _name(group, end)}
    if not leg.is_ended and drawn.doubt not in (Doubt.NO_PASSING_POINT, Doubt.STRAIGHT):
        return _at_station(group, end, NOT_ENDED, at, **data)
    if drawn.doubt is None:
        return None
    size = math.degrees(drawn.size) if drawn.doubt is Doubt.FAR_ROUND else drawn.size
    data.update(size=size, sigma=drawn.sigma, missed=_name(group, leg.stations[1 + drawn.number]))
    return _at_station(group, end, CURVE_WORDS[drawn.doubt], at, **data)


def inverted_fault(group: Group) -> Finding:
    """GE-04: an offset that leaves nothing of an arc or a side."""
    return _at_feature(group, INVERTED, None)


def inside_out_fault(group: Group, k: int, offset: float, at: tuple[float, float]) -> Finding:
    """GE-01: an offset (metres, of station k) that leaves nothing of an outline, or turns some of it about."""
    walk, cell = group.source(k)
    line = int(walk.line[cell])
    finding = _at_feature(group, INSIDE_OUT, at, offset=offset, x=at[0], y=at[1])
    return replace(finding, data={**finding.data, "file": walk.file, "line": line}, file=walk.file, line=line)


def circle_crossing_fault(group: Group, crossing: Crossing) -> Finding:
    """GE-01: an outline that crosses a full circle in it, whose two ends are one station."""
    return _at_feature(group, CIRCLE_CROSSES, crossing.at, x=crossing.at[0], y=crossing.at[1])


def gap_note(group: Group, gap: float, at: Place) -> Finding:
    """CL-02: an outline closed by a direct side."""
    return _at_feature(group, NOT_CLOSED, at, gap=gap)


def few_points_fault(group: Group, count: int, at: Place) -> Finding:
    """GE-01: an outline of fewer than three different points."""
    is_curved = Leg.CURVE in group.legs or Leg.CURVE_END in group.legs
    return _at_feature(group, ONE_ON_CIRCLE if is_curved else FEW_POINTS, at, count=count)


def rounds_fault(group: Group, times: int, at: Place) -> Finding:
    """GE-01: an outline whose stations go round more than once, so that its ground would count as often."""
    return _at_feature(group, GOES_ROUND, at, times=times)


def flat_fault(group: Group, at: Place) -> Finding:
    """GE-01: an outline that encloses nothing."""
    return _at_feature(group, ON_ONE_LINE, at)


def no_edge_fault(group: Group, at: Place) -> Finding:
    """GE-01: a length on which nothing is drawn."""
    return _at_feature(group, NO_EDGE, at)


def crossing_fault(
    group: Group,
    crossing: Crossing,
    ways: tuple[str, ...],
    remedies: Remedies | None,
    named: tuple[str, str],
) -> Finding:
    """GE-01: an outline that crosses itself, with what could be meant and the area each would give; `ways` are the
    stations of the two edges, `named` the place and the station that could be left out ("" if there is none)."""
    place, dropped = named
    data: dict[str, object] = dict(zip("abcd", ways))
    data.update(x=crossing.at[0], y=crossing.at[1], count=crossing.count)
    words = CROSSES
    if remedies is not None and remedies.split is not None:
        words = CROSSES_SPLIT
        data.update(part_1=remedies.split[0].area, part_2=remedies.split[1].area)
        if remedies.reversed is not None:
            words = CROSSES_REVERSE
            data.update(reversed_area=remedies.reversed.area)
            if remedies.dropped is not None:
                words = CROSSES_DROP
                data.update(dropped=dropped, dropped_area=remedies.dropped.area)
    return replace(_at_feature(group, words, crossing.at, **data), place=place)
