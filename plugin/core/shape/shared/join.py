# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines bent to where a plan of joining has them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ...quantity import Floats, Ints
from ...segments import STRAIGHT, Curve, bulges, ring_area
from .lines import Line
from .plan import FINE, Member, Plan, key_of, mean_of


@dataclass(frozen=True, eq=False)
class Bent:
    """A joined piece: its points and half sweeps, and for each edge the old edge and the part of it."""

    points: Floats
    half: Floats
    edge: Ints
    part: Floats


def bend(lines: Sequence[Line], plan: Plan, number: int) -> Bent:
    """Line `number` as the plan has it."""
    line, places = lines[number], plan.places[number]
    n = len(line.piece.half)
    ends = np.append(places[1:], n) if line.piece.closed else places[1:]
    starts = places[: len(ends)]
    edge = line.edges_at(starts)
    xy, z = line.points_at(places), _heights(line, places)
    half = line.piece.half[edge] * (ends - starts)
    for k, at in enumerate(places):
        members = plan.points.get(key_of(lines, number, float(at)))
        if members:
            xy[k] = mean_of(members)
    for k, start in enumerate(starts):
        ways = plan.ways.get(key_of(lines, number, float(start)))
        if ways:
            half[k] = _mean_half(lines, plan, ways, half[k])
    return Bent(np.column_stack([xy, z]), half, edge, ends - starts)


@dataclass(frozen=True, eq=False)
class Way:
    """A way along one edge of a line, from one place to another (backwards, where it is told against the line), with
    the weight of its half sweep in that of the edge that it becomes."""

    line: int
    start: float
    end: float
    weight: float
    edge: int


def way_parts(lines: Sequence[Line], plan: Plan, ways: Sequence[tuple[int, float, int]]) -> list[Way]:
    """Of each of some ways that become one: its places and its weight, the mean of those of its ends."""
    out = []
    for line, start, sign in ways:
        places, n = plan.places[line], len(lines[line].piece.half)
        k = int(np.searchsorted(places, start + 0.5 / FINE, side="right"))
        end = float(places[k]) if k < len(places) else float(n)
        weight = [
            next(m.weight for m in plan.points[key_of(lines, line, at)] if is_at(lines, m, line, at))
            for at in (start, end)
        ]
        ends = (start, end) if sign > 0 else (end, start)
        out.append(Way(line, *ends, sum(weight) / 2.0, int(start + 0.5 / FINE)))
    total = sum(way.weight for way in out)
    return [replace(way, weight=way.weight / total if total > 0.0 else 1.0 / len(out)) for way in out]


def is_at(lines: Sequence[Line], member: Member, line: int, at: float) -> bool:
    """Whether a member is the place `at` on a line."""
    return member.line == line and key_of(lines, line, member.at) == key_of(lines, line, at)


def _mean_half(
    lines: Sequence[Line], plan: Plan, ways: Sequence[tuple[int, float, int]], own: float
) -> float:
    if all(abs(lines[line].piece.half[int(start)]) < STRAIGHT for line, start, _ in ways):
        return own
    parts = way_parts(lines, plan, ways)
    return float(
        sum(way.weight * (way.end - way.start) * lines[way.line].piece.half[way.edge] for way in parts)
    )


def _heights(line: Line, places: Floats) -> Floats:
    """Heights run evenly along an edge."""
    first, last = line.piece.ends
    edge = line.edges_at(places)
    part = places - (np.floor(places) if line.piece.closed else edge)
    z = line.piece.points[:, 2]
    with np.errstate(invalid="ignore"):
        even = (1.0 - part) * z[first[edge]] + part * z[last[edge]]
    return np.asarray(np.where(part == 0.0, z[first[edge]], np.where(part == 1.0, z[last[edge]], even)))


def joined_area(bent: Bent) -> float:
    """Area inside a joined outline, m2, positive whichever way it was walked."""
    points = np.vstack([bent.points, bent.points[:1]])
    return abs(ring_area(Curve(points, bulges(bent.half))))
