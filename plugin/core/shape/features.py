# SPDX-License-Identifier: GPL-2.0-or-later
"""Stations to features: areas, lengths and spots of straights and arcs, and what is doubtful about them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ..defaults import JOIN_WITHIN
from ..findings import Decisions, Finding
from ..positions import Positions
from ..quantity import Floats
from ..walk import Kind, Leg
from .arcs import Drawn, draw_curve
from .crossing import chords_of, find_crossing
from .faults import (
    INSIDE_OUT,
    curve_fault,
    few_points_fault,
    flat_fault,
    gap_note,
    inside_out_fault,
    inverted_fault,
    no_edge_fault,
    rounds_fault,
)
from .holes import assign_holes, stops_of_holes
from .legs import FreeParts, Group, RawLeg, read_legs, split_groups, stations_of_outline, stations_of_pieces
from .mend import Outline
from .offset import find_inverted, move_run, outline_of
from .records import DrawnLeg, LegShape, Piece, Shape
from .risers import stand_upright
from .rounds import rounds
from .runs import join_runs
from .shared.doubled import find_doubled
from .shared.edges import share_edges
from .sides import find_sides
from .spread import CLOSING, Spread
from .trace import Edge, Node, Run, number_run, station_node
from .twice import find_twice
from .untangle import Part, untangle
from .walked import draw_walked, fitted_legs

CORNERS = 3
"""An outline has at least so many different points."""
CIRCLE_STATIONS = 4
"""A full circle has a start, two passing points or more, and its start again."""
GAP_OF_WIDTH = 0.1
"""Part of an outline's width up to which the gap between its ends may be taken as none."""
FLAT = 1e-3
"""Metres: an outline that lies within this of one line has no area."""
DOUBLE = 1e-6
"""Metres: stations nearer than this are the same point."""
TEXTS = ("item", "status", "surface", "option", "phase", "note")


def shape_features(
    positions: Positions,
    decisions: Decisions,
    join_within: float = JOIN_WITHIN,
    as_walked: float | None = None,
) -> tuple[tuple[Shape, ...], tuple[Finding, ...]]:
    """All features of the walks as they lie on the ground, in the order walked, and what is doubtful.

    Rows with the same feature and part make one shape (each row of a spot its own), walked in several goes if
    need be (runs.py). Where no row of a feature names its geometry, one station is a spot, a closed run an area,
    any other a length. As-walked rows are drawn as recorded, or, where `as_walked` is given, as the fewest straights
    and tangent arcs of which no row lies off by more than so many metres (walked.py).

    Findings: GE-01 outlines that cross themselves or have no area, GE-03 and GE-04 doubtful curves, GE-05
    holes found by where they lie, WK-04 goes over the same ground that differ, CL-02 outlines closed by a direct side, GE-02 edges of neighbours that may be
    one (no more than `join_within` metres apart), GE-06 ground that two areas count; with their answers.
    """
    shapes: list[Shape] = []
    findings: list[Finding] = []
    groups = [
        group
        for number, walk in enumerate(positions.walks)
        for group in split_groups(number, walk, int(positions.first[number]))
    ]
    free = FreeParts(groups)
    for group in join_runs(groups, positions):
        new, said = _shape_group(group, positions, decisions, free, as_walked)
        shapes += new
        findings += said
    kept, twice = find_twice(_replaced(shapes, positions), positions, decisions)
    held, noticed = assign_holes(kept, positions)
    answered = tuple(decisions.answered(finding) for finding in (*findings, *noticed)) + twice
    shared, asked = share_edges(held, positions, decisions, answered, join_within)
    answered += asked
    doubled = find_doubled(shared, positions, decisions, answered, join_within)
    answered += doubled
    return shared, answered + stops_of_holes(shared, answered, positions)


def _replaced(shapes: Sequence[Shape], positions: Positions) -> tuple[Shape, ...]:
    """The shapes, those marked whose ground was walked again and which an answer to IN-05 put out of the figures."""
    return tuple(
        replace(shape, set_aside="IN-05")
        if (shape.feature, shape.part) in positions.walks[shape.walk].replaced
        else shape
        for shape in shapes
    )


def _shape_group(
    group: Group, positions: Positions, decisions: Decisions, free: FreeParts, as_walked: float | None
) -> tuple[list[Shape], list[Finding]]:
    kind = group.kind()
    if kind is Kind.SPOT or (kind is None and len(group.rows) == 1):
        return [_shape(group, Kind.SPOT, (row,), ()) for row in group.rows], []
    spread = Spread(positions, group.rows)
    outline = _once(group, stations_of_outline(group.legs), positions)
    is_closed, gap = _closing(group, outline, spread)
    if kind is Kind.AREA or (kind is None and is_closed):
        drawn, said = _draw_area(group, outline, spread, gap, as_walked, is_closed=is_closed)
        if drawn is None:
            return [_shape(group, Kind.AREA, tuple(group.rows[k] for k in outline), ())], said
        # An outline that its offset turned about crosses itself by that alone: the one stop is the one to mend.
        parts, crossed = [Part(group.part, drawn)], list[Finding]()
        if not any(doubt.code == INSIDE_OUT.code for doubt in said):
            parts, crossed = untangle(group, drawn, decisions, lambda: free.next_of(group.feature))
        rows = tuple(group.rows[k] for k in outline)
        gaps = [0.0 if part.is_split_off else gap if is_closed else None for part in parts]
        shapes = [_shape_part(group, part, rows, spread, its) for part, its in zip(parts, gaps)]
        return shapes, said + crossed
    shape, said = _shape_length(group, spread, as_walked)
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


def _once(group: Group, stations: list[int], positions: Positions) -> list[int]:
    """The stations of an outline without a last one that stands in the file twice: the leg of no length between the two
    would lie across the seam."""
    while len(stations) > CORNERS and group.legs[stations[-1]] is Leg.DIRECT:
        last, before = (positions.xy[group.rows[k]] for k in (stations[-1], stations[-2]))
        if float(np.hypot(*(last - before))) > DOUBLE:
            break
        stations = stations[:-1]
    return stations


def _closing(group: Group, stations: Sequence[int], spread: Spread) -> tuple[bool, float]:
    """Whether an outline ends where it began, and the gap in metres.

    Where stations are worth little, three sigma can be as wide as the outline: taken as one point its ends would then
    eat up to half of it. So the gap is also small against the outline's width.
    """
    first, last = stations[0], stations[-1]
    gap, _ = spread.gap(group.rows[first], group.rows[last])
    if len(stations) < CORNERS or not _is_one(group, first, last, spread):
        return False, gap
    width = _width(spread.positions.xy[[group.rows[k] for k in stations]])
    mark = group.walk.mark[group.cells[first]]
    is_same = bool(mark) and mark == group.walk.mark[group.cells[last]]
    return is_same or gap <= max(CLOSING, GAP_OF_WIDTH * width), gap


def _width(xy: Floats) -> float:
    """How wide points lie across their longest direction, metres."""
    middle = xy - xy.mean(axis=0)
    return float(np.ptp(middle @ np.linalg.svd(middle, full_matrices=False)[2][-1]))


def _is_one(group: Group, one: int, other: int, spread: Spread) -> bool:
    """Whether two stations are taken as one point: they stand on one mark, or as near as that."""
    marks = [group.walk.mark[group.cells[k]] for k in (one, other)]
    is_same = bool(marks[0]) and marks[0] == marks[1]
    return is_same or spread.is_one_place(group.rows[one], group.rows[other])


def _draw_area(
    group: Group,
    stations: list[int],
    spread: Spread,
    gap: float,
    as_walked: float | None,
    *,
    is_closed: bool,
) -> tuple[Outline | None, list[Finding]]:
    """The outline of an area, None where it has fewer than three different points."""
    own = stations[:-1] if is_closed else stations
    different = len(np.unique(spread.positions.xy[[group.rows[k] for k in own]], axis=0))
    if different < CORNERS:
        at = _xy(spread.positions, group.rows[stations[0]])
        return None, [few_points_fault(group, different, at)]
    legs = read_legs(group, stations)
    said = []
    if not is_closed:
        legs.append(RawLeg(Leg.DIRECT, (stations[-1], stations[0])))
        said.append(gap_note(group, gap, _xy(spread.positions, group.rows[stations[-1]])))
    nodes = _nodes(group, legs, spread, [(stations[0], stations[-1])] if is_closed else [])
    outline, doubts = _draw_run(group, legs, nodes, spread, as_walked, closed=True)
    times = rounds(outline_of(outline.walked))
    if times > 1:
        doubts = [*doubts, rounds_fault(group, times, _xy(spread.positions, group.rows[stations[0]]))]
    if _is_flat(outline):
        doubts = [*doubts, flat_fault(group, _xy(spread.positions, group.rows[stations[0]]))]
    return outline, said + doubts


def _is_flat(outline: Outline) -> bool:
    return _width(chords_of(outline_of(outline.walked)).xy) <= FLAT


def _shape_part(group: Group, part: Part, rows: tuple[int, ...], spread: Spread, gap: float | None) -> Shape:
    """The area of one outline; of the stations `rows`, those that it has kept."""
    kept = part.outline.rows
    shape = _shape(
        group, Kind.AREA, tuple(row for row in rows if row in kept), (_piece(part.outline, spread),)
    )
    return replace(shape, part=part.part, gap=gap)


def _shape_length(group: Group, spread: Spread, as_walked: float | None) -> tuple[Shape, list[Finding]]:
    pieces, said = [], []
    for stations in stations_of_pieces(group.legs):
        legs = read_legs(group, stations)
        nodes = stand_upright(legs, _nodes(group, legs, spread, []), spread)
        drawn, doubts = _draw_run(group, legs, nodes, spread, as_walked, closed=False)
        pieces.append(_piece(drawn, spread))
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


def _draw_run(
    group: Group,
    legs: Sequence[RawLeg],
    nodes: dict[int, Node],
    spread: Spread,
    as_walked: float | None,
    *,
    closed: bool,
) -> tuple[Outline, list[Finding]]:
    start, edges = nodes[legs[0].stations[0]], list[Edge]()
    drawn_legs: list[DrawnLeg] = []
    said: list[Finding] = []
    for leg in (_without_doubles(leg, nodes) for leg in legs):
        first, fit = len(edges), None
        if leg.leg is Leg.AS_WALKED and as_walked is not None:
            fit = draw_walked([nodes[k] for k in leg.stations], as_walked, spread, closed=closed)
        if fit is not None and fit.smoothed is not None:
            start = fit.smoothed.start if not edges else start
            edges += fit.smoothed.edges
            drawn_legs += fitted_legs(fit, first, _item_of(group, leg, nodes))
            continue
        drawn = _draw_leg(leg, nodes, spread)
        fault = None
        if leg.leg is Leg.CURVE:
            fault = curve_fault(group, leg, drawn, _xy(spread.positions, group.rows[leg.stations[-1]]))
        said += [fault] if fault else []
        edges += drawn.edges
        record = _leg_record(group, leg, drawn, nodes, first, len(edges))
        drawn_legs.append(replace(record, fit=fit.kept) if fit is not None else record)
    run = Run(start, tuple(edges), closed)
    moved = move_run(run)
    inverted = find_inverted(run, moved) if moved is not run else None
    if inverted is not None:
        # Which way an outline runs that crosses itself as walked says nothing of its offset.
        is_outline = closed and find_crossing(outline_of(run)) is None
        said.append(_inside_out(group, inverted) if is_outline else inverted_fault(group))
    return Outline(run, moved, tuple(drawn_legs), moved is not run), said


def _piece(outline: Outline, spread: Spread) -> Piece:
    sides = find_sides(outline.legs, spread, closed=outline.walked.closed)
    points, half, pull = number_run(outline.moved)
    return Piece(points, half, outline.walked.closed, pull, outline.legs, sides, outline.has_offset)


def _inside_out(group: Group, node: Node) -> Finding:
    # A vertex that was fitted, or lies where an outline was split, is told by the first station that moves it.
    rows = node.rows or tuple(row for row, _ in node.by)
    k = group.rows.index(rows[0]) if rows else 0
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
    item = _item_of(group, leg, nodes)
    passed = tuple(group.rows[k] for k in between)
    return DrawnLeg(
        drawn.shape, first, last, nodes[start].rows, passed, nodes[end].rows, item, drawn.rms, drawn.vertical
    )


def _item_of(group: Group, leg: RawLeg, nodes: dict[int, Node]) -> str:
    """The side_item of the station that ends a leg."""
    together = (leg.stations[-1], *nodes[leg.stations[-1]].others)
    return next((t for t in (group.walk.text("side_item", group.cells[k]) for k in together) if t), "")
