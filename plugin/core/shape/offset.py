# SPDX-License-Identifier: GPL-2.0-or-later
"""Edges moved to where they truly lie, where the walker stood beside them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..segments import STRAIGHT, Curve, bulges, ring_area
from .dual import Dual, cross, dot
from .trace import Edge, Node, Run, as_dual, half_as_dual, half_from, node_from, number_run

SAME = 1e-9
"""Metres: offsets that differ by less are the same."""
SMOOTH = 1e-6
"""Sine of the turn below which a corner is none: the two edges run on into each other."""
BACKWARD = 0.02
"""1 + cosine of the turn below which a corner turns back on itself (by 168 degrees): it is not mitred."""
NOTHING = 1e-9
"""Part of the walked area below which what an offset leaves of it is rounding."""


@dataclass(frozen=True, eq=False)
class _Moved:
    """An edge moved to the left: its ends, directions there, and its circle's centre and radius (None for a
    straight, or where its stations have different offsets)."""

    start: Dual
    end: Dual
    leaves: Dual
    arrives: Dual
    centre: Dual | None
    radius: Dual | None
    is_parallel: bool


def move_run(run: Run) -> Run:
    """The run with each edge moved by its stations' offsets: in parallel where both have the same (arcs keep
    their centre), each station square to the leg where they differ; corners mitred."""
    nodes, closed = run.nodes, run.closed
    if not any(node.offset for node in nodes):
        return run
    duals = [as_dual(node) for node in nodes]
    halves = [half_as_dual(edge) for edge in run.edges]
    n = len(nodes)
    moved = [
        _move_edge(duals[e], duals[(e + 1) % n], halves[e], nodes[e].offset, nodes[(e + 1) % n].offset)
        for e in range(len(halves))
    ]
    places = []
    for j in range(n):
        before = moved[j - 1] if j > 0 or closed else None
        after = moved[j] if j < len(moved) else None
        places.append(_corner(duals[j], nodes[j].offset, before, after))
    halves = [_new_half(halves[e], moved[e], duals, places, e) for e in range(len(halves))]
    return _rebuilt(run, nodes, places, halves)


def _rebuilt(run: Run, nodes: tuple[Node, ...], places: list[Dual], halves: list[Dual]) -> Run:
    new = [node_from(place, node) for place, node in zip(places, nodes)]
    edges = [Edge(new[(e + 1) % len(new)], *half_from(half)) for e, half in enumerate(halves)]
    return Run(new[0], tuple(edges), run.closed)


def _move_edge(a: Dual, b: Dual, half: Dual, left_a: float, left_b: float) -> _Moved:
    along = (b - a).unit() if a.value != b.value else Dual(1.0)
    leaves, arrives = along * half.times(-1.0).turned(), along * half.turned()
    start, end = a + leaves.times(1j * left_a), b + arrives.times(1j * left_b)
    if abs(left_a - left_b) > SAME:
        if half.value == 0 and start.value != end.value:
            leaves = arrives = (end - start).unit()
        return _Moved(start, end, leaves, arrives, None, None, is_parallel=False)
    if abs(half.value) < STRAIGHT or a.value == b.value:
        return _Moved(start, end, leaves, arrives, None, None, is_parallel=True)
    radius = (b - a).size() / half.sine().times(2.0)
    return _Moved(
        start,
        end,
        leaves,
        arrives,
        a + (leaves * radius).times(1j),
        radius - Dual(left_a),
        is_parallel=True,
    )


def _corner(at: Dual, left: float, before: _Moved | None, after: _Moved | None) -> Dual:
    if before is None or after is None:
        edge = after or before
        if edge is None:
            return at
        return edge.start if before is None else edge.end
    turn, same = cross(before.arrives, after.leaves), dot(before.arrives, after.leaves)
    if 1.0 + same.value.real < BACKWARD:
        return before.end
    mitre = _mitre(at, left, before, after, turn, same)
    if abs(turn.value) < SMOOTH or not (before.is_parallel and after.is_parallel):
        return mitre
    return _meeting(before, after, mitre)


def _mitre(at: Dual, left: float, before: _Moved, after: _Moved, turn: Dual, same: Dual) -> Dual:
    """Where the two straights through the moved ends meet."""
    if before.is_parallel and after.is_parallel:
        return at + ((before.arrives + after.leaves) / (Dual(1.0) + same)).times(1j * left)
    if abs(turn.value) < SMOOTH:
        return (before.end + after.start).times(0.5)
    reach = cross(after.start - before.end, after.leaves) / turn
    return before.end + before.arrives * reach


def _meeting(before: _Moved, after: _Moved, near: Dual) -> Dual:
    """Where the moved edges themselves meet, nearest to the mitre; the mitre where they do not."""
    line, arc = (before, after) if before.centre is None else (after, before)
    if arc.centre is None or arc.radius is None:
        return near
    if line.centre is not None and line.radius is not None:
        return _circles_meet(line.centre, line.radius, arc.centre, arc.radius, near)
    point, along = (line.end, line.arrives) if line is before else (line.start, line.leaves)
    away = point - arc.centre
    b = dot(along, away)
    inside = b * b - dot(away, away) + arc.radius * arc.radius
    if inside.value.real <= 0.0:
        return near
    root = inside.root()
    return _nearest(near, point - along * (b + root), point - along * (b - root))


def _circles_meet(centre: Dual, radius: Dual, other: Dual, other_radius: Dual, near: Dual) -> Dual:
    between = other - centre
    if abs(between.value) < SAME:
        return near
    distance, square = between.size(), radius * radius
    x = (distance * distance + square - other_radius * other_radius) / distance.times(2.0)
    inside = square - x * x
    if inside.value.real <= 0.0:
        return near
    along, y = between.unit(), inside.root()
    foot, side = centre + along * x, (along * y).times(1j)
    return _nearest(near, foot + side, foot - side)


def _nearest(near: Dual, a: Dual, b: Dual) -> Dual:
    return a if abs(a.value - near.value) <= abs(b.value - near.value) else b


def _new_half(half: Dual, edge: _Moved, old: list[Dual], new: list[Dual], e: int) -> Dual:
    """The half sweep about the kept centre, from the old one and the angles by which the ends moved round."""
    if edge.centre is None:
        return half
    last = (e + 1) % len(old)
    if min(abs(new[k].value - edge.centre.value) for k in (e, last)) <= SAME:
        return half  # moved on to its centre it has no size, and no angle to measure its sweep by
    start = ((new[e] - edge.centre) / (old[e] - edge.centre)).phase()
    end = ((new[last] - edge.centre) / (old[last] - edge.centre)).phase()
    return half + (end - start).times(0.5)


def find_inverted(run: Run, moved: Run) -> Node | None:
    """The vertex, as walked, whose offset has no room: an end of the first edge that came out turned about (moved
    beyond an arc's centre, or on a side too short for it), or any of an outline that came out inside out or with
    nothing left, in each case that of the largest offset; None where neither is so."""
    last, after = run.start, moved.start
    for old, new in zip(run.edges, moved.edges):
        if float((old.end.xy - last.xy) @ (new.end.xy - after.xy)) < 0.0:
            return max(last, old.end, key=_offset)
        last, after = old.end, new.end
    if run.closed:
        walked, left = ring_area(outline_of(run)), ring_area(outline_of(moved))
        if left * np.sign(walked) <= NOTHING * abs(walked):
            return max(run.nodes, key=_offset)
    return None


def outline_of(run: Run) -> Curve:
    """A closed run as a curve that ends at its first point."""
    points, half, _ = number_run(run)
    return Curve(np.vstack([points, points[:1]]), bulges(half))


def _offset(node: Node) -> float:
    return abs(node.offset)
