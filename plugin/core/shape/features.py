# SPDX-License-Identifier: GPL-2.0-or-later
"""Stations to features: areas, lengths and spots of straights and arcs, and what is doubtful about them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ..findings import Decisions, Finding
from ..positions import Positions
from ..walk import Kind, Leg
from .arcs import Drawn, draw_curve
from .crossing import find_crossing
from .faults import (
    INSIDE_OUT,
    circle_crossing_fault,
    crossing_fault,
    curve_fault,
    few_points_fault,
    gap_note,
    inside_out_fault,
    inverted_fault,
    no_edge_fault,
)
from .holes import assign_holes, stops_of_holes
from .legs import Group, RawLeg, read_legs, split_groups, stations_of_outline, stations_of_pieces
from .offset import find_inverted, move_run, outline_of
from .records import DrawnLeg, LegShape, Piece, Shape
from .remedies import find_remedies
from .risers import stand_upright
from .runs import join_runs
from .sides import find_sides
from .spread import Spread
from .trace import Edge, Node, Run, number_run, station_node

CORNERS = 3
"""An outline has at least so many different points."""
CIRCLE_STATIONS = 4
"""A full circle has a start, two passing points or more, and its start again."""
DOUBLE = 1e-6
"""Metres: stations nearer than this are the same point."""
TEXTS = ("item", "status", "surface", "option", "phase", "note")


def shape_features(
    positions: Positions, decisions: Decisions
) -> tuple[tuple[Shape, ...], tuple[Finding, ...]]:
    """All features of the walks as they lie on the ground, in the order walked, and what is doubtful.

    Rows with the same feature and part make one shape (each row of a spot its own), walked in several goes if
    need be (runs.py). Where no row of a feature names its geometry, one station is a spot, a closed run an area,
    any other a length.

    Findings: GE-01 outlines that cross themselves or have no area, GE-03 and GE-04 doubtful curves, GE-05
    holes found by where they lie, CL-02 outlines closed by a direct side; with their answers.
    """
    shapes: list[Shape] = []
    findings: list[Finding] = []
    groups = [
        group
        for number, walk in enumerate(positions.walks)
        for group in split_groups(number, walk, int(positions.first[number]))
    ]
    for group in join_runs(groups, positions):
        new, said = _shape_group(group, positions)
        shapes += new
        findings += said
    held, noticed = assign_holes(tuple(shapes), positions)
    answered = tuple(decisions.answered(finding) for finding in (*findings, *noticed))
    return held, answered + stops_of_holes(held, answered, positions)


def _shape_group(group: Group, positions: Positions) -> tuple[list[Shape], list[Finding]]:
    kind = group.kind()
    if kind is Kind.SPOT or (kind is None and len(group.rows) == 1):
        return [_shape(group, Kind.SPOT, (row,), ()) for row in group.rows], []
    spread = Spread(positions, group.rows)
    outline = stations_of_outline(group.legs)
    is_closed, gap = _closing(group, outline, spread)
    if kind is Kind.AREA or (kind is None and is_closed):
        shape, said = _shape_area(group, outline, spread, gap, is_closed=is_closed)
    else:
        shape, said = _shape_length(group, spread)
    return [shape], said


def _shape(group: Group, kind: Kind, rows: tuple[int, ...], pieces: tuple[Piece, ...]) -> Shape:
    texts = {column: group.text(column) for column in TEXTS}
    if kind is Kind.SPOT:
        cell = group.cells[group.rows.index(rows[0])]
        texts = {column: group.walk.text(column, cell) or text for column, text in texts.items()}
    hole_in = next((t for t in (group.walk.hole_in[i] for i in group.cells) if t), "")
    index = np.array(rows, dtype=np.int64)
    return Shape(
        group.walk_number,
        index,
        kind,
        group.feature,
        group.part,
        pieces,
        texts,
        hole_in=hole_in,
        others=group.others,
    )


def _closing(group: Group, stations: Sequence[int], spread: Spread) -> tuple[bool, float]:
    """Whether an outline ends where it began, and the gap in metres."""
    first, last = stations[0], stations[-1]
    gap, _ = spread.gap(group.rows[first], group.rows[last])
    return len(stations) >= CORNERS and _is_one(group, first, last, spread), gap


def _is_one(group: Group, one: int, other: int, spread: Spread) -> bool:
    """Whether two stations are taken as one point: they stand on one mark, or as near as that."""
    marks = [group.walk.mark[group.cells[k]] for k in (one, other)]
    is_same = bool(marks[0]) and marks[0] == marks[1]
    return is_same or spread.is_one_place(group.rows[one], group.rows[other])


def _shape_area(
    group: Group, stations: list[int], spread: Spread, gap: float, *, is_closed: bool
) -> tuple[Shape, list[Finding]]:
    rows = tuple(group.rows[k] for k in stations)
    own = stations[:-1] if is_closed else stations
    different = len(np.unique(spread.positions.xy[[group.rows[k] for k in own]], axis=0))
    at = _xy(spread.positions, rows[0])
    if different < CORNERS:
        return _shape(group, Kind.AREA, rows, ()), [few_points_fault(group, different, at)]
    legs = read_legs(group, stations)
    said = []
    if not is_closed:
        legs.append(RawLeg(Leg.DIRECT, (stations[-1], stations[0])))
        said.append(gap_note(group, gap, _xy(spread.positions, rows[-1])))
    nodes = _nodes(group, legs, spread, [(stations[0], stations[-1])] if is_closed else [])
    piece, doubts = _draw_piece(group, legs, nodes, spread, closed=True)
    shape = _shape(group, Kind.AREA, rows, (piece,))
    # An outline that its offset turned about crosses itself by that alone: the one stop is the one to mend.
    is_turned = any(doubt.code == INSIDE_OUT.code for doubt in doubts)
    crossed = None if is_turned else _crossing(group, piece, spread.positions)
    said += doubts + ([crossed] if crossed else [])
    return replace(shape, gap=gap if is_closed else None), said


def _shape_length(group: Group, spread: Spread) -> tuple[Shape, list[Finding]]:
    pieces, said = [], []
    for stations in stations_of_pieces(group.legs):
        legs = read_legs(group, stations)
        nodes = stand_upright(legs, _nodes(group, legs, spread, []), spread)
        piece, doubts = _draw_piece(group, legs, nodes, spread, closed=False)
        pieces.append(piece)
        said += doubts
    if not pieces:
        said.append(no_edge_fault(group, _xy(spread.positions, group.rows[0])))
    return _shape(group, Kind.LENGTH, group.rows, tuple(pieces)), said


def _xy(positions: Positions, row: int) -> tuple[float, float]:
    return float(positions.xy[row, 0]), float(positions.xy[row, 1])


def _nodes(
    group: Group, legs: Sequence[RawLeg], spread: Spread, same: list[tuple[int, int]]
) -> dict[int, Node]:
    """The vertex of each station; a full circle's first and last station are one, and so are those of `same`."""
    same = same + [(leg.stations[0], leg.stations[-1]) for leg in legs if _is_circle(group, leg, spread)]
    partner: dict[int, tuple[int, ...]] = {}
    for a, b in same:
        both = tuple(dict.fromkeys((*partner.get(a, (a,)), *partner.get(b, (b,)))))
        partner.update(dict.fromkeys(both, both))
    nodes: dict[int, Node] = {}
    for k in dict.fromkeys(k for leg in legs for k in leg.stations):
        if k not in nodes:
            together = partner.get(k, (k,))
            offsets = [float(group.walk.offset[group.cells[i]]) for i in together]
            rows = [group.rows[i] for i in together]
            node = station_node(
                spread.positions, rows, next((o for o in offsets if o and math.isfinite(o)), 0.0)
            )
            nodes.update(dict.fromkeys(together, replace(node, others=together if len(together) > 1 else ())))
    return nodes


def _is_circle(group: Group, leg: RawLeg, spread: Spread) -> bool:
    """Whether a curve ends at its first station again: two passing points or more, all farther off than that."""
    if leg.leg is not Leg.CURVE or len(leg.stations) < CIRCLE_STATIONS:
        return False
    rows = [group.rows[k] for k in leg.stations]
    gap, _ = spread.gap(rows[0], rows[-1])
    xy = spread.positions.xy[rows]
    away = float(np.hypot(*(xy[1:-1] - xy[0]).T).max())
    return away > 2.0 * gap and _is_one(group, leg.stations[0], leg.stations[-1], spread)


def _draw_piece(
    group: Group, legs: Sequence[RawLeg], nodes: dict[int, Node], spread: Spread, *, closed: bool
) -> tuple[Piece, list[Finding]]:
    edges: list[Edge] = []
    drawn_legs: list[DrawnLeg] = []
    said: list[Finding] = []
    for leg in (_without_doubles(leg, nodes) for leg in legs):
        drawn = _draw_leg(leg, nodes, spread)
        fault = None
        if leg.leg is Leg.CURVE:
            fault = curve_fault(group, leg, drawn, _xy(spread.positions, group.rows[leg.stations[-1]]))
        said += [fault] if fault else []
        first = len(edges)
        edges += drawn.edges
        drawn_legs.append(_leg_record(group, leg, drawn, nodes, first, len(edges)))
    run = Run(nodes[legs[0].stations[0]], tuple(edges), closed)
    moved = move_run(run)
    inverted = find_inverted(run, moved) if moved is not run else None
    if inverted is not None:
        # Which way an outline runs that crosses itself as walked says nothing of its offset.
        is_outline = closed and find_crossing(outline_of(run)) is None
        said.append(_inside_out(group, inverted) if is_outline else inverted_fault(group))
    sides = find_sides(drawn_legs, spread, closed=closed)
    points, half, pull = number_run(moved)
    return Piece(points, half, closed, pull, tuple(drawn_legs), sides, moved is not run), said


def _inside_out(group: Group, node: Node) -> Finding:
    k = group.rows.index(node.rows[0]) if node.rows else 0
    return inside_out_fault(group, k, abs(node.offset), (float(node.xy[0]), float(node.xy[1])))


def _without_doubles(leg: RawLeg, nodes: dict[int, Node]) -> RawLeg:
    """A curve without the passed stations that are its very start or end, which tell nothing of it."""
    if leg.leg is not Leg.CURVE:
        return leg
    first, *passed, last = leg.stations
    ends = [nodes[k].xy for k in (first, last)]
    kept = [k for k in passed if all(np.hypot(*(nodes[k].xy - end)) > DOUBLE for end in ends)]
    return replace(leg, stations=(first, *kept, last))


def _draw_leg(leg: RawLeg, nodes: dict[int, Node], spread: Spread) -> Drawn:
    start, end = nodes[leg.stations[0]], nodes[leg.stations[-1]]
    if leg.leg is Leg.CURVE:
        passed = [nodes[k] for k in leg.stations[1:-1]]
        return draw_curve(start, passed, end, spread, closed=start is end)
    shape = LegShape.AS_WALKED if leg.leg is Leg.AS_WALKED else LegShape.STRAIGHT
    return Drawn(shape, tuple(Edge(nodes[k]) for k in leg.stations[1:]))


def _leg_record(
    group: Group, leg: RawLeg, drawn: Drawn, nodes: dict[int, Node], first: int, last: int
) -> DrawnLeg:
    start, *between, end = leg.stations
    together = (end, *nodes[end].others)
    item = next((t for t in (group.walk.text("side_item", group.cells[k]) for k in together) if t), "")
    passed = tuple(group.rows[k] for k in between)
    return DrawnLeg(
        drawn.shape, first, last, nodes[start].rows, passed, nodes[end].rows, item, drawn.rms, drawn.vertical
    )


def _crossing(group: Group, piece: Piece, positions: Positions) -> Finding | None:
    curve = piece.curve()
    crossing = find_crossing(curve)
    if crossing is None:
        return None
    if any(_leg_of(piece, edge).shape is LegShape.CIRCLE for edge in (crossing.first, crossing.second)):
        return circle_crossing_fault(group, crossing)
    names = dict(zip(group.rows, (group.walk.station[i] for i in group.cells)))
    remedies = find_remedies(curve, crossing)
    dropped = ""
    if remedies is not None and remedies.dropped is not None:
        dropped = _edge_names(piece, remedies.dropped, names)[0]
    ways = (*_edge_names(piece, crossing.first, names), *_edge_names(piece, crossing.second, names))
    return crossing_fault(group, crossing, ways, remedies, dropped)


def _leg_of(piece: Piece, edge: int) -> DrawnLeg:
    return next(leg for leg in piece.legs if leg.first <= edge < leg.last)


def _edge_names(piece: Piece, edge: int, names: dict[int, str]) -> tuple[str, str]:
    """The stations between which an edge lies: those of its leg, or of the as-walked step."""
    leg = _leg_of(piece, edge)
    start, end = names[leg.start[0]], names[leg.end[0]]
    if leg.shape is LegShape.AS_WALKED:
        along = [start, *(names[row] for row in leg.passed), end]
        return along[edge - leg.first], along[edge - leg.first + 1]
    return start, end
