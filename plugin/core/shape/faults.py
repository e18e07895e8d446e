# SPDX-License-Identifier: GPL-2.0-or-later
"""What shaping has to say about a feature, in words."""

from __future__ import annotations

import math

from ..findings import Finding, Severity
from .arcs import Drawn
from .crossing import Crossing
from .legs import Group, RawLeg
from .remedies import Remedies


def _at_station(group: Group, k: int, code: str, severity: Severity, template: str, remedy: str,
                answers: tuple[str, ...], at: tuple[float, float] | None, **data: object) -> Finding:
    cell = group.cells[k]
    walk = group.walk
    file, line = walk.file, int(walk.line[cell])
    return Finding(
        code,
        severity,
        walk.place(cell),
        template,
        remedy,
        {"file": file, "line": line, "feature": group.place, **data},
        file=file,
        line=line,
        walk=walk.name,
        station=walk.station[cell],
        feature=group.feature,
        at=at,
        answers=answers,
    )


def _at_feature(group: Group, code: str, severity: Severity, template: str, remedy: str,
                at: tuple[float, float] | None, **data: object) -> Finding:
    walk, cell = group.walk, group.cells[0]
    return Finding(
        code,
        severity,
        group.place,
        template,
        remedy,
        {"file": walk.file, "line": int(walk.line[cell]), "feature": group.place, **data},
        file=walk.file,
        line=int(walk.line[cell]),
        walk=walk.name,
        feature=group.feature,
        at=at,
    )


def _name(group: Group, k: int) -> str:
    return group.walk.station[group.cells[k]]


def curve_fault(group: Group, leg: RawLeg, drawn: Drawn, at: tuple[float, float]) -> Finding | None:
    """GE-03 or GE-04 for a curve as drawn, None where nothing is doubtful."""
    start, end = leg.stations[0], leg.stations[-1]
    names = {"start": _name(group, start), "end": _name(group, end)}
    if drawn.doubt == "no passing point":
        template = "{file}, line {line}: the curve of {feature} from station {start} to {end} has no passing point."
        remedy = "Add a passing point with leg `curve`; else it is drawn straight."
        return _at_station(group, end, "GE-03", Severity.STOP, template, remedy, ("straight",), at, **names)
    if drawn.doubt == "straight":
        template = (
            "{file}, line {line}: the curve of {feature} from station {start} to {end} is straight within what "
            "its stations can be trusted."
        )
        remedy = "Add a passing point nearer the middle of the curve; else it is drawn straight."
        return _at_station(group, end, "GE-03", Severity.STOP, template, remedy, ("straight",), at, **names)
    if not leg.is_ended:
        template = (
            "{file}, line {line}: the curve of {feature} from station {start} does not come to a `curve-end`; its "
            "last `curve` station {end} was taken for its end."
        )
        remedy = "Give the curve's last station the leg `curve-end`, or accept it as drawn."
        return _at_station(group, end, "GE-03", Severity.STOP, template, remedy, ("accept",), at, **names)
    return _doubtful_curve(group, leg, drawn, at, names)


def _doubtful_curve(
    group: Group, leg: RawLeg, drawn: Drawn, at: tuple[float, float], names: dict[str, str]
) -> Finding | None:
    end = leg.stations[-1]
    if drawn.doubt == "misses":
        missed = _name(group, leg.stations[1 + drawn.number])
        template = (
            "{file}, line {line}: the curve of {feature} from station {start} to {end} misses station {missed} by "
            "{size:.3f} m, where one sigma is {sigma:.3f} m."
        )
        remedy = "Two curves? Put a `curve-end` where they meet. Wrong passing point? Take it out. Or accept it."
        more = {**names, "missed": missed, "size": drawn.size, "sigma": drawn.sigma}
        return _at_station(group, end, "GE-04", Severity.ASK, template, remedy, ("accept",), at, **more)
    if drawn.doubt == "tight":
        template = (
            "{file}, line {line}: the curve of {feature} from station {start} to {end} has a radius of only "
            "{size:.3f} m."
        )
        remedy = "Two curves? Wrong passing point? Correct the log, or accept it."
        more = {**names, "size": drawn.size}
        return _at_station(group, end, "GE-04", Severity.ASK, template, remedy, ("accept",), at, **more)
    if drawn.doubt == "far round":
        template = (
            "{file}, line {line}: the curve of {feature} from station {start} to {end} turns by {size:.1f} degrees "
            "without closing."
        )
        remedy = "A full circle ends at its first station again. Wrong passing point? Correct the log, or accept it."
        more = {**names, "size": math.degrees(drawn.size)}
        return _at_station(group, end, "GE-04", Severity.ASK, template, remedy, ("accept",), at, **more)
    return None


def inverted_fault(group: Group) -> Finding:
    """GE-04: an offset that leaves nothing of an arc."""
    template = "{file}, line {line}: an offset of {feature} is larger than the radius of the curve it belongs to."
    remedy = "Correct `offset` or `offset_side`, or accept the edge as drawn."
    finding = _at_feature(group, "GE-04", Severity.ASK, template, remedy, None)
    return Finding(**{**finding.__dict__, "answers": ("accept",)})


def gap_note(group: Group, gap: float, at: tuple[float, float]) -> Finding:
    """CL-02: an outline closed by a direct side."""
    template = (
        "{file}, line {line}: the outline of {feature} ends {gap:.3f} m from where it began; it was closed by a "
        "direct side."
    )
    remedy = "Nothing, if that side is straight; a walk back to the first corner would check the outline."
    return _at_feature(group, "CL-02", Severity.NOTE, template, remedy, at, gap=gap)


def few_points_fault(group: Group, count: int, at: tuple[float, float]) -> Finding:
    """GE-01: an outline of fewer than three different points."""
    template = "{file}, line {line}: the outline of {feature} has {count} different points, so it has no area."
    remedy = "Give it three corners or more, or another geometry (`length`, `spot`)."
    return _at_feature(group, "GE-01", Severity.STOP, template, remedy, at, count=count)


def no_edge_fault(group: Group, at: tuple[float, float]) -> Finding:
    """GE-01: a length on which nothing is drawn."""
    template = "{file}, line {line}: nothing is drawn of {feature}: it has no two stations with a way between them."
    remedy = "Give it two stations or more, or the geometry `spot`."
    return _at_feature(group, "GE-01", Severity.STOP, template, remedy, at)


def crossing_fault(
    group: Group, crossing: Crossing, first: tuple[str, str], second: tuple[str, str], remedies: Remedies | None,
    dropped: str,
) -> Finding:
    """GE-01: an outline that crosses itself, with what could be meant and the area each would give."""
    template = (
        "{file}, line {line}: the outline of {feature} crosses itself at ({x:.3f}, {y:.3f}) in the survey plane, "
        "where the way from station {a} to {b} meets the way from {c} to {d}."
    )
    data: dict[str, object] = dict(zip("abcd", (*first, *second)))
    data.update(x=crossing.at[0], y=crossing.at[1], count=crossing.count)
    remedy = "Correct the log: put stations {b} to {c} in reverse order, leave one of them out, or split there."
    if remedies is not None:
        remedy = (
            "Correct the log: stations {b} to {c} in reverse order give {reversed_area:.3f} m2; split there, the "
            "two parts have {part_1:.3f} and {part_2:.3f} m2."
        )
        data.update(reversed_area=remedies.reversed_area, part_1=remedies.split_areas[0],
                    part_2=remedies.split_areas[1])
        if dropped:
            remedy = (
                "Correct the log: stations {b} to {c} in reverse order give {reversed_area:.3f} m2; split there, "
                "the two parts have {part_1:.3f} and {part_2:.3f} m2; without station {dropped} it has "
                "{dropped_area:.3f} m2."
            )
            data.update(dropped=dropped, dropped_area=remedies.dropped_area)
    return _at_feature(group, "GE-01", Severity.STOP, template, remedy, crossing.at, **data)
