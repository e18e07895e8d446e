# SPDX-License-Identifier: GPL-2.0-or-later
"""What an answer makes of an outline that crosses itself: stations in reverse order, one left out, or two parts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..segments import ring_area
from .dual import cross
from .offset import move_run, outline_of
from .records import DrawnLeg, LegShape
from .trace import Edge, Node, Run, as_dual, node_from

PLAIN = (LegShape.STRAIGHT, LegShape.AS_WALKED)
"""Legs of straights, whose stations may change their order; an arc is what its stations make it together."""
TRIANGLE = 3
"""An outline of so few corners can lose none."""


@dataclass(frozen=True, eq=False)
class Outline:
    """A run as walked and as its offsets move it, edge for edge, and its legs."""

    walked: Run
    moved: Run
    legs: tuple[DrawnLeg, ...]
    has_offset: bool = False

    @property
    def area(self) -> float:
        """Inside the exact edges, m2, positive whichever way it was walked."""
        return abs(ring_area(outline_of(self.moved)))

    def leg_of(self, edge: int) -> DrawnLeg:
        """The leg that an edge (by number) is of."""
        return next(leg for leg in self.legs if leg.first <= edge < leg.last)

    @property
    def rows(self) -> set[int]:
        """Rows of all its stations, passed ones included."""
        legs = [row for leg in self.legs for row in (*leg.start, *leg.passed, *leg.end)]
        return {*legs, *(row for node in self.walked.nodes for row in node.rows)}


@dataclass(frozen=True, eq=False)
class _Unit:
    """What keeps together when stations change their order: a leg, or one step of an as-walked run."""

    start: Node
    edges: tuple[Edge, ...]
    leg: DrawnLeg

    @property
    def end(self) -> Node:
        return self.edges[-1].end

    @property
    def is_plain(self) -> bool:
        return self.leg.shape in PLAIN and len(self.edges) == 1

    def reversed(self) -> _Unit:
        nodes = (self.start, *(edge.end for edge in self.edges))
        edges = tuple(
            Edge(nodes[k], -edge.half, tuple((row, -by) for row, by in edge.by))
            for k, edge in reversed(tuple(enumerate(self.edges)))
        )
        leg, fit = self.leg, self.leg.fit
        if fit is not None:
            fit = replace(fit, starts_tangent=fit.ends_tangent, ends_tangent=fit.starts_tangent)
        turned = replace(leg, passed=leg.passed[::-1], start=leg.end, end=leg.start, fit=fit)
        return _Unit(self.end, edges, turned)

    @property
    def rows(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """Of the stations at its ends. A fitted vertex is none: a fitted piece has its own first and last row."""
        leg, start, end = self.leg, self.start.rows, self.end.rows
        if leg.fit is None:
            return start, end
        return (start or leg.start, end or leg.end) if leg.fit.kept else (leg.start, leg.end)

    def with_item(self, item: str) -> _Unit:
        return replace(self, leg=replace(self.leg, item=item))


def reverse_between(outline: Outline, first: int, second: int) -> Outline | None:
    """The outline with the stations between two edges (by number) in reverse order; None where one is an arc.

    A side's item is told at the station that ends it, and stays with that station.
    """
    units = list(_units(outline, outline.walked))
    i, k = _unit_of(units, first), _unit_of(units, second)
    if not (units[i].is_plain and units[k].is_plain):
        return None
    turned = [unit.reversed() for unit in reversed(units[i + 1 : k])]
    way_in = _straight(units[i].start, units[k].start, units[i].leg)
    way_out = _straight(units[i].end, units[k].end, units[k].leg)
    items = [unit.leg.item for unit in reversed(units[i:k])]
    between = [unit.with_item(item) for unit, item in zip((way_in, *turned), items)]
    return _rebuilt(outline, [*units[:i], *between, way_out, *units[k + 1 :]])


def drop_vertex(outline: Outline, vertex: int) -> Outline | None:
    """The outline without one vertex (by number), its neighbours joined by a straight; None where that is not a
    corner between straights, or one of three."""
    units = list(_units(outline, outline.walked))
    node = outline.walked.nodes[vertex]
    after = next((n for n, unit in enumerate(units) if unit.start is node), None)
    if after is None or len(outline.walked.nodes) <= TRIANGLE or not node.rows:
        return None
    into, out = units[after - 1], units[after]
    if not (into.is_plain and out.is_plain):
        return None
    joined = _straight(into.start, out.end, out.leg)
    if after == 0:
        return _rebuilt(outline, [*units[1:-1], joined])
    return _rebuilt(outline, [*units[: after - 1], joined, *units[after + 1 :]])


def split_at(outline: Outline, first: int, second: int) -> tuple[Outline, Outline] | None:
    """The two outlines either side of where two edges (by number) cross, that with the first station before the
    other; None where one of the edges is an arc. The offsets have been gone by already."""
    units = list(_units(outline, _settled(outline.moved)))
    i, k = _unit_of(units, first), _unit_of(units, second)
    if not (units[i].is_plain and units[k].is_plain):
        return None
    at = _crossing_node(units[i], units[k])
    into, out = units[i].leg, units[k].leg
    rest = [
        *units[:i],
        _straight(units[i].start, at, into),
        _straight(at, units[k].end, out),
        *units[k + 1 :],
    ]
    loop = [_straight(at, units[i].end, into), *units[i + 1 : k], _straight(units[k].start, at, out)]
    moved = [replace(_rebuilt(outline, part), has_offset=outline.has_offset) for part in (rest, loop)]
    return moved[0], moved[1]


def _units(outline: Outline, run: Run) -> Iterator[_Unit]:
    starts = (run.start, *(edge.end for edge in run.edges))
    for leg in outline.legs:
        if leg.shape is not LegShape.AS_WALKED:
            yield _Unit(starts[leg.first], run.edges[leg.first : leg.last], leg)
            continue
        step = replace(leg, passed=())
        for k in range(leg.first, leg.last):
            yield _Unit(starts[k], run.edges[k : k + 1], step)


def _unit_of(units: Sequence[_Unit], edge: int) -> int:
    last = np.cumsum([len(unit.edges) for unit in units])
    return int(np.searchsorted(last, edge, side="right"))


def _straight(start: Node, end: Node, like: DrawnLeg) -> _Unit:
    """A straight from one vertex to another, as walked where the leg was that it comes from."""
    fit = like.fit if like.shape is LegShape.AS_WALKED else None
    leg = replace(like, start=start.rows, passed=(), end=end.rows, rms=0.0, vertical=None, fit=fit)
    return _Unit(start, (Edge(end),), leg)


def _rebuilt(old: Outline, units: Sequence[_Unit]) -> Outline:
    """The outline of some units in order. Steps as walked go on in one run, but for where a leg ended before."""
    stands = {rows for leg in old.legs for rows in (leg.start, leg.end)}
    edges: list[Edge] = []
    legs: list[DrawnLeg] = []
    for unit in units:
        first, (start, end) = len(edges), unit.rows
        edges += unit.edges
        leg = replace(unit.leg, first=first, last=len(edges), start=start, end=end)
        goes_on = bool(legs) and leg.shape is legs[-1].shape is LegShape.AS_WALKED and start not in stands
        if goes_on:
            passed = (*legs[-1].passed, *start)
            leg = replace(leg, first=legs[-1].first, start=legs[-1].start, passed=passed)
            legs.pop()
        legs.append(leg)
    run = Run(units[0].start, tuple(edges), closed=True)
    moved = move_run(run)
    return Outline(run, moved, _still_tangent(legs), moved is not run)


def _still_tangent(legs: Sequence[DrawnLeg]) -> tuple[DrawnLeg, ...]:
    """The legs, fitted ones told as tangents only where the neighbour that they touch is still there."""
    out = []
    for k, leg in enumerate(legs):
        fit, before, after = leg.fit, legs[k - 1].fit, legs[(k + 1) % len(legs)].fit
        if fit is not None:
            starts = fit.starts_tangent and before is not None and before.ends_tangent
            ends = fit.ends_tangent and after is not None and after.starts_tangent
            fit = replace(fit, starts_tangent=starts, ends_tangent=ends)
        out.append(replace(leg, fit=fit))
    return tuple(out)


def _settled(run: Run) -> Run:
    """A moved run whose vertices stand where they are: nothing is to be moved again."""
    nodes = {id(node): replace(node, offset=0.0) for node in run.nodes}
    edges = tuple(replace(edge, end=nodes[id(edge.end)]) for edge in run.edges)
    return Run(nodes[id(run.start)], edges, run.closed)


def _crossing_node(one: _Unit, other: _Unit) -> Node:
    """Where two straights cross; its height is the mean of those of the two ways there."""
    a, b, c, d = (as_dual(node) for node in (one.start, one.end, other.start, other.end))
    part = cross(c - a, d - c) / cross(b - a, d - c)
    at = node_from(a + (b - a) * part, one.start)
    ways = []
    for unit in (one, other):
        step = unit.end.xy - unit.start.xy
        t = float((at.xy - unit.start.xy) @ step / (step @ step))
        ways.append(((unit.start, 1.0 - t), (unit.end, t)))
    heights = [sum(w * node.z for node, w in way) for way in ways]
    known = [way for way, z in zip(ways, heights) if np.isfinite(z)]
    z = float(np.mean([z for z in heights if np.isfinite(z)])) if known else float("nan")
    z_by = tuple((row, w * own / len(known)) for way in known for node, w in way for row, own in node.z_by)
    return Node(at.xy, z, (), at.by, z_by)
