# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines that reach past their edge: what lies under an area and is wider than it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput, MissingLibrary
from ..measure.area import ring_figure
from ..quantity import Floats, Quantity
from ..segments import Curve, bulges, chorded
from ..shape.offset import BACKWARD, find_inverted, move_run
from ..shape.records import Piece
from ..shape.trace import WHOLE, Edge, Node, Run, number_run
from .bands import SAG, ring_curve
from .lines import Line
from .worth import Moves, Worth, moves_of

BESIDE = 1e-6
"""Metres, and that part of the extra, by which a moved edge may miss its place: rounding."""
NEAR = 1e-4
"""Metres that a chord may lie off its arc where it is asked whether a moved ring leaves out anything."""
SAME_SPREAD = 1e-9
"""Of the square of their spread along: corners that spread less across lie on one line and tell no slope."""


@dataclass(frozen=True, eq=False)
class Widened:
    """A ring whose edges were moved outward.

    Attributes:
        line: through as many points as the ring, in its sense, its arcs about their centres; heights are the ring's own.
        area: inside it in plan, m2, positive. moves: (n, 2) change of the area by metre of each of the ring's points.
        growth: its length, which is the change of the area by metre of the extra, m.
    """

    line: Line
    area: float
    moves: Floats
    growth: float


def widen_ring(ring: Line, by: float) -> Widened:
    """A closed ring moved outward by some metres: straights in parallel, arcs about their centres, corners where the
    moved edges meet.

    Every moved edge is held against the one that it was: parallel all along at that distance, and not turned about; and all
    that lies nearer to the ring than the extra is inside the moved one.

    Raises:
        BadInput: it is not closed, a corner is too sharp, an edge has no room, or the moved ring runs into itself.
            MissingLibrary: shapely is not there, which tells that.
    Source:
        The circle of radius R becomes one of R + o; a corner lies where the two moved edges meet (a mitre between
        straights). How it moves with the points follows edge by edge, exact to first order.
    """
    if not ring.is_closed or not (np.isfinite(by) and by >= 0.0):
        raise BadInput(
            "An outline that is to reach {by} m past its edge is closed, and that is 0 or more.", by=by
        )
    origin = ring.points[0, :2]
    if len(ring.half) == 1:
        return _wider_circle(ring, by)
    left = -float(np.copysign(by, float(ring.edges.areas.sum())))
    if by:
        _refuse_sharp(ring)
    run = _run_of(ring, origin, left)
    moved = move_run(run)
    points, half, pull = number_run(moved)
    if by:
        inverted = find_inverted(run, moved)
        place = _misplaced(run, points[:, :2], half, left) if inverted is None else inverted.xy
        if place is None:
            place = _left_out(ring, Curve(np.vstack([points, points[:1]]), bulges(half)), by)
        if place is not None:
            raise BadInput(
                "An edge at {x:.3f}, {y:.3f} has no room for {by:.3f} m past the outline. Give a smaller extra, or draw "
                "the outline simpler there.",
                x=float(place[0] + origin[0]),
                y=float(place[1] + origin[1]),
                by=by,
            )
    figure = ring_figure(Piece(points, half, closed=True, pull=pull, legs=(), sides=()))
    moves = np.zeros((len(ring.points), 2))
    np.add.at(moves, figure.gradient.index, figure.gradient.plan)
    line = _through(ring, points[:, :2] + origin, half)
    return Widened(line, figure.value, moves, float(line.edges.lengths.sum()))


def _refuse_sharp(ring: Line) -> None:
    """Corners that turn back on themselves: mitred they would reach ten times the extra past the outline, or more."""
    _, after, turn = ring.corners
    sharp = np.flatnonzero(1.0 + np.cos(turn) < BACKWARD)
    if len(sharp):
        x, y = ring.points[ring.edges.p[after[sharp[0]]], :2].tolist()
        raise BadInput(
            "The corner at {x:.3f}, {y:.3f} is sharper than 11.5 degrees: moved out it would reach far past the outline. "
            "Cut the corner off.",
            x=x,
            y=y,
        )


def _misplaced(run: Run, xy: Floats, half: Floats, left: float) -> Floats | None:
    """The start (2,) of the first edge that did not come out parallel to what it was, or came out turned about; None where
    all are in place. `xy` (n, 2) and `half` (n,) are of the moved edges.

    Source:
        A point at v from the start of an arc of curvature k, whose left normal there is n, lies
        (2 v.n - k v.v) / (1 + |n - k v|) to its left: the radius less the distance from the centre, without either.
    """
    old = np.array([node.xy for node in run.nodes])
    turn = np.array([edge.half for edge in run.edges])
    chord, new = np.roll(old, -1, axis=0) - old, np.roll(xy, -1, axis=0) - xy
    long = np.hypot(*chord.T)
    along = chord * np.cos(turn)[:, None] + _left(chord) * -np.sin(turn)[:, None]
    n = _left(along) / long[:, None]
    k = (2.0 * np.sin(turn) / long)[:, None]
    middle = xy + 0.5 * new - 0.5 * _left(new) * np.tan(0.5 * half)[:, None]
    allowed = BESIDE * (1.0 + abs(left))
    bad = (turn * half < 0.0) | (np.abs(half) >= np.pi) | ((turn == 0.0) & ((chord * new).sum(axis=1) <= 0.0))
    for place in (xy, middle, xy + new):
        v = place - old
        beside = (2.0 * (v * n).sum(axis=1) - k[:, 0] * (v**2).sum(axis=1)) / (1.0 + np.hypot(*(n - k * v).T))
        bad |= ~(np.abs(beside - left) <= allowed)
    return np.asarray(old[np.argmax(bad)]) if bad.any() else None


def _left(v: Floats) -> Floats:
    """(k, 2) turned by a right angle to the left."""
    return np.column_stack([-v[:, 1], v[:, 0]])


def _left_out(ring: Line, moved: Curve, by: float) -> Floats | None:
    """The place (2,) of a ring, from its first point, that a moved one comes nearer to than `by`; None where it does not.

    Raises:
        BadInput: the moved ring runs into itself. MissingLibrary: shapely is not there.
    """
    try:
        from shapely.geometry import Polygon
        from shapely.ops import nearest_points
    except ImportError as error:
        raise MissingLibrary(
            "An outline is widened with the library {library}.", library="shapely"
        ) from error
    if not Polygon(chorded(moved, SAG)[:, :2]).is_valid:
        raise BadInput(
            "Moved out by {by:.3f} m the outline runs into itself. Give a smaller extra, or split the outline.",
            by=by,
        )
    sag = min(NEAR, max(0.25 * by, SAG * SAG))
    new = Polygon(chorded(moved, sag)[:, :2])
    old = Polygon(chorded(ring_curve(ring), sag)[:, :2] - ring.points[0, :2])
    # Chords lie off their arcs by so much to the one side or the other, on either ring.
    if new.contains(old) and old.distance(new.exterior) >= by - 2.0 * sag:
        return None
    return np.array(nearest_points(old.exterior, new.exterior)[0].coords[0])


def _refuse_joined(rings: list[Line], out: list[Line], by: float) -> None:
    """Rings that were moved out into another part, into another part's hole, or beyond it."""
    from shapely.geometry import Polygon

    origin = rings[0].points[0, :2]
    old, new = ([Polygon(chorded(ring_curve(r), SAG)[:, :2] - origin) for r in some] for some in (rings, out))
    for k, ring in enumerate(new):
        others = [m for m in range(len(new)) if m != k and out[k] is not rings[k]]
        if any(
            ring.exterior.intersects(new[m].exterior) or ring.contains(new[m]) != old[k].contains(old[m])
            for m in others
        ):
            raise BadInput(
                "Moved out by {by:.3f} m two parts of the outline run into each other. Give a smaller extra, or join the "
                "parts.",
                by=by,
            )


@dataclass(frozen=True, eq=False)
class WiderOutline:
    """An outline that reaches past its edge.

    Attributes:
        rings: moved. area: inside them in plan, m2. moves: of it with the points of each ring as it was drawn.
        by_points: its one-sigma by those alone, m2. growth: m2 of it by metre of the extra.
    """

    rings: list[Line]
    area: Quantity
    moves: tuple[Moves, ...]
    by_points: float
    growth: float


def widen_outline(
    rings: list[Line], area: Quantity, by: float, worth: Worth, by_sigma: float = 0.0
) -> tuple[list[Line], Quantity]:
    """The rings and the area alone of `reach_past`."""
    wider = reach_past(rings, area, by, worth, by_sigma)
    return wider.rings, wider.area


def reach_past(
    rings: list[Line], area: Quantity, by: float, worth: Worth, by_sigma: float = 0.0
) -> WiderOutline:
    """An outline whose outer rings are moved outward; holes stay as they are.

    Args:
        rings: of one part or more, metres; holes turned the other way round than the outer ones.
        area: in plan, holes out, m2.
        by: metres past the edge.
        worth: what the rings' points are worth.
        by_sigma: one-sigma of `by`, metres.
    Returns:
        The rings, heights run on in the plane nearest to the corners'; and the area, its one-sigma grown as the points' own
        makes it grow, and with that of the extra along the moved edge.
    Raises:
        BadInput: as for a ring, or two parts run into each other.
    """
    before = _plain_moves(rings)
    if by == 0.0:
        return WiderOutline(rings, area, tuple(before), area.sigma, 0.0)
    out, growth, gain, after = list(rings), 0.0, 0.0, list(before)
    first = float(rings[0].edges.areas.sum())
    for k, ring in enumerate(rings):
        own = float(ring.edges.areas.sum())
        if own * first <= 0.0:
            continue
        wider = widen_ring(ring, by)
        gain, growth = gain + wider.area - abs(own), growth + wider.growth
        out[k], after[k] = wider.line, moves_of(ring, wider.moves)
    if len(out) > 1:
        _refuse_joined(rings, out, by)
    told = [worth.sigma(*moves) for moves in (before, after)]
    sigma = area.sigma * (told[1] / told[0] if told[0] > 0.0 else 1.0)
    widened = Quantity(area.value + gain, float(np.hypot(sigma, growth * by_sigma)), "m2")
    return WiderOutline(_with_slope(rings, out), widened, tuple(after), sigma, growth)


def _plain_moves(rings: list[Line]) -> list[Moves]:
    """How the area inside some rings, the first an outer one, moves with the points of each: holes turn the other way."""
    sign = np.sign(float(rings[0].edges.areas.sum()))
    return [moves_of(ring, ring.edges.area_moves(np.full(len(ring.half), sign))) for ring in rings]


def _wider_circle(ring: Line, by: float) -> Widened:
    """A ring that is one whole circle, drawn through its start and the place opposite."""
    xy = ring.points[:, :2]
    centre = 0.5 * (xy[0] + xy[1])
    radius = 0.5 * float(np.hypot(*(xy[1] - xy[0])))
    points = ring.points.copy()
    points[:, :2] = centre + (xy - centre) * ((radius + by) / radius)
    moves = np.zeros((len(points), 2))
    out = np.pi * (radius + by) * (xy[1] - xy[0]) / (2.0 * radius)
    moves[1], moves[0] = out, -out
    reach = radius + by
    return Widened(replace(ring, points=points), np.pi * reach**2, moves, 2.0 * np.pi * reach)


def _run_of(ring: Line, origin: Floats, left: float) -> Run:
    """A ring as a run whose vertices are moved to the left; of each vertex and arc, how it moves with the ring's points."""
    if ring.edges.arcs.is_full.any():
        raise BadInput("An edge of the outline goes once round. Draw it as two arcs.")
    nodes = []
    for k in ring.vertices[:-1].tolist():
        x, y, z = ring.points[k].tolist()
        place = np.array([x - origin[0], y - origin[1]])
        nodes.append(Node(place, z, (k,), ((k, WHOLE),), (), left))
    arcs = dict(zip(ring.edges.arc.tolist(), range(len(ring.edges.arc))))
    edges = []
    for e in range(len(ring.half)):
        end = nodes[(e + 1) % len(nodes)]
        edges.append(_arc(ring, e, arcs[e], end) if e in arcs else Edge(end))
    return Run(nodes[0], tuple(edges), closed=True)


def _arc(ring: Line, edge: int, arc: int, end: Node) -> Edge:
    """An arc's half sweep is the turn at its middle, from the way to it to the way from it."""
    u, w = ring.edges.arcs.u[arc], ring.edges.arcs.w[arc]
    by_u, by_w = (np.array([-v[1], v[0]]) / float(v @ v) for v in (u, w))
    first, middle, last = int(ring.edges.p[edge]), int(ring.edges.mid[arc]), int(ring.edges.q[edge])
    last = 0 if last == len(ring.points) - 1 else last
    by = ((first, by_u), (middle, -by_u - by_w), (last, by_w))
    return Edge(end, float(ring.half[edge]), by)


def _through(ring: Line, xy: Floats, half: Floats) -> Line:
    """A ring with its vertices at other places, and the middles of its arcs on the moved ones."""
    points = ring.points.copy()
    points[ring.vertices[:-1], :2] = xy
    points[-1, :2] = xy[0]
    edges = ring.edges
    a, b = points[edges.p[edges.arc], :2], points[edges.q[edges.arc], :2]
    # The middle of an arc that turns left lies to the right of its chord, by half of it times tan of a quarter sweep.
    chord = b - a
    right = np.column_stack([chord[:, 1], -chord[:, 0]])
    points[edges.mid, :2] = 0.5 * (a + b) + 0.5 * right * np.tan(0.5 * half[edges.arc])[:, None]
    return replace(ring, points=points)


def _with_slope(rings: list[Line], out: list[Line]) -> list[Line]:
    """Moved rings whose heights run on in the plane nearest to the corners of the rings as they were."""
    if not all(ring.has_heights for ring in rings):
        return out
    corners = np.vstack([ring.points[ring.vertices[:-1]] for ring in rings])
    d = corners - corners.mean(axis=0)
    spread = d[:, :2].T @ d[:, :2]
    if np.linalg.det(spread) <= SAME_SPREAD * np.trace(spread) ** 2:
        return out
    slopes = np.linalg.solve(spread, d[:, :2].T @ d[:, 2])
    lifted = []
    for ring, moved in zip(rings, out):
        points = moved.points.copy()
        points[:, 2] += (points[:, :2] - ring.points[:, :2]) @ slopes
        lifted.append(replace(moved, points=points))
    return lifted
