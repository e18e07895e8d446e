# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines that cross themselves (GE-01): told one crossing at a time, and mended as the answers say."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from ..findings import Decisions, Finding
from .crossing import Crossing, find_crossing
from .faults import REVERSE, SPLIT, circle_crossing_fault, crossing_fault
from .legs import Group
from .mend import Outline
from .offset import outline_of
from .records import LegShape
from .remedies import Remedies, find_remedies

NO_STATION = "the split"
"""What stands for a station's name where a part begins and ends at a crossing."""


@dataclass(frozen=True, eq=False)
class Part:
    """An outline and the name of the part that it is."""

    part: str
    outline: Outline
    is_split_off: bool = False


def untangle(
    group: Group, outline: Outline, decisions: Decisions, next_part: Callable[[], str]
) -> tuple[list[Part], list[Finding]]:
    """The outlines that are left when the answers have been followed, one a part, and what was and is to ask.

    The first crossing of a part is asked about under the part's own place. When it is answered and the outline
    still crosses itself, the next crossing is asked about under `place+walk:station`, by the station to which the
    first of the two crossing ways leads, so that one answer never settles another crossing. A crossing that comes
    again under a place already answered takes no answer: the log is then to be corrected.
    """
    todo, done, said = [Part(group.part, outline)], [], []
    asked: set[str] = set()
    while todo:
        part = todo.pop(0)
        crossing = find_crossing(outline_of(part.outline.moved))
        if crossing is None:
            done.append(part)
            continue
        finding, remedies = _fault(group, part, crossing, asked)
        finding = decisions.answered(finding)
        asked.add(finding.place)
        said.append(finding)
        if remedies is None or finding.answer is None:
            done.append(part)
        else:
            todo[:0] = _mended(part, remedies, finding.answer, next_part)
    return done, said


def _mended(part: Part, remedies: Remedies, answer: str, next_part: Callable[[], str]) -> list[Part]:
    if answer == SPLIT and remedies.split is not None:
        rest, loop = remedies.split
        return [replace(part, outline=rest), Part(next_part(), loop, is_split_off=True)]
    outline = remedies.reversed if answer == REVERSE else remedies.dropped
    return [replace(part, outline=outline or part.outline)]


def _fault(group: Group, part: Part, crossing: Crossing, asked: set[str]) -> tuple[Finding, Remedies | None]:
    outline = part.outline
    edges = (crossing.first, crossing.second)
    place = f"{group.feature}/{part.part}" if part.part else group.feature
    if any(outline.leg_of(edge).shape is LegShape.CIRCLE for edge in edges):
        return replace(circle_crossing_fault(group, crossing), place=place), None
    ways = [_stations_of(group, outline, edge) for edge in edges]
    if place in asked:
        (a, b), (c, d) = ways
        place += f"+{next((at for at, _ in (b, c, a, d) if at != NO_STATION), NO_STATION)}"
    remedies = find_remedies(outline, crossing) if place not in asked else None
    names = tuple(name for way in ways for _, name in way)
    dropped = ""
    if remedies is not None and remedies.without is not None:
        dropped = _name_of(group, remedies.without.rows)[1]
    return crossing_fault(group, crossing, names, remedies, (place, dropped)), remedies


def _stations_of(group: Group, outline: Outline, edge: int) -> tuple[tuple[str, str], tuple[str, str]]:
    """Place and name of the stations between which an edge lies: those of its leg, or of the as-walked step."""
    leg, run = outline.leg_of(edge), outline.walked
    if leg.shape is LegShape.AS_WALKED:
        nodes = run.nodes
        # A vertex that was fitted is no station: the piece has its own first and last row.
        ends = (nodes[edge].rows or leg.start, nodes[(edge + 1) % len(nodes)].rows or leg.end)
        return _name_of(group, ends[0]), _name_of(group, ends[1])
    return _name_of(group, leg.start), _name_of(group, leg.end)


def _name_of(group: Group, rows: tuple[int, ...]) -> tuple[str, str]:
    if not rows:
        return NO_STATION, NO_STATION
    k = group.rows.index(rows[0])
    walk, cell = group.source(k)
    return walk.place(cell), walk.station[cell]
