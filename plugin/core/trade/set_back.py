# SPDX-License-Identifier: GPL-2.0-or-later
"""A bed less a strip of one width along its edge, and how its area moves with the points of the bed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..errors import MissingLibrary
from ..ground.box_order import BoxOrder
from ..quantity import Floats, Ints, Quantity
from ..segments import points_along
from .bands import ring_curve
from .lines import Line
from .order import GROUND

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

SAG = 1e-4
"""Metres that chords lie off arcs where a bed's edge is set back."""
LEAST_CHORDS = 64
"""Of a full turn, however small its radius is."""
CORNER = 64
"""Chords of a quarter circle round an inner corner that is set back: what they lose is below 1e-4 of its area."""
NEAR = 0.02
"""Of the set-back: how far the edge that a place was set back from may lie off where it is looked for. The library leaves out
shallow corners that lie within 0.01 of the width off its strip."""
SPLIT = 1.5
"""Times as long as the chord that it was set back from, and a side is split into parts of half that chord's length."""
LEAST_PART = 1e-4
"""Of the set-back: parts of sides are no shorter."""
FLAT = 1e-6
"""Radians of half sweep below which an arc is taken for one of so much: its points then move it as those of a parabola."""


@dataclass(frozen=True, eq=False)
class _Chords:
    """A ring in chords: (c, 2) from one to the next and round again, metres; of each start its (c,) edge of the ring, and
    what part of that lies before it."""

    start: Floats
    edge: Ints
    part: Floats

    @property
    def end(self) -> Floats:
        return np.roll(self.start, -1, axis=0)


def set_back_area(rings: list[Line], area: Quantity, by: float) -> Quantity:
    """The area inside some rings at least so far from every edge, m2.

    Args:
        rings: of the bed, metres, an outer ring first; holes turned the other way round.
        area: in plan, holes out, m2.
        by: metres, above 0.
    Returns:
        The area; its one-sigma is to that of the bed as one follows from the points, each erring by itself, to the other.
    Raises:
        MissingLibrary: shapely is not there.
    """
    origin = rings[0].points[0, :2]
    chords = [_chorded(ring, origin) for ring in rings]
    whole, left = _set_back([one.start for one in chords], by)
    if left.is_empty:
        return Quantity(0.0, 0.0, "m2")
    moves = _area_moves(rings, chords, left, by)
    sign = math.copysign(1.0, float(rings[0].edges.areas.sum()))
    plain = [ring.edges.area_moves(np.full(len(ring.half), sign)) for ring in rings]
    own, bed = (sum(r.squares(its) for r, its in zip(rings, some)) for some in (moves, plain))
    # The chords' own loss is taken off the bed, so that the exact area is what the strip along the edge is taken off.
    value = max(area.value - (float(whole.area) - float(left.area)), 0.0)
    return Quantity(value, area.sigma * math.sqrt(own / bed) if bed else 0.0, "m2")


def _chorded(ring: Line, origin: Floats) -> _Chords:
    is_full = np.zeros(len(ring.half), bool)
    is_full[ring.edges.arc] = ring.edges.arcs.is_full
    curve, halves = ring_curve(ring), 1 + is_full
    edge = np.repeat(np.arange(len(ring.half)), halves)
    half = np.abs(ring.half)[edge] / halves[edge]
    radius = ring.edges.lengths[edge] / np.maximum(2.0 * np.abs(ring.half)[edge], 1e-300)
    step = np.minimum(np.sqrt(8.0 * SAG / np.maximum(radius, SAG)), 2.0 * np.pi / LEAST_CHORDS)
    counts = np.maximum(np.ceil(2.0 * half / step), 1.0).astype(int)
    row = np.repeat(np.arange(len(counts)), counts)
    part = (np.arange(len(row)) - np.repeat(np.cumsum(counts) - counts, counts)) / counts[row]
    # A whole circle stands there in two halves.
    second = np.concatenate([[False], edge[1:] == edge[:-1]])[row]
    start = points_along(curve, counts)[:-1, :2] - origin
    return _Chords(start, edge[row], (part + second) / halves[edge[row]])


def _set_back(rings: list[Floats], by: float) -> tuple[BaseGeometry, BaseGeometry]:
    """A bed of rings in chords, and what is left of it."""
    try:
        from shapely.geometry import Polygon
        from shapely.ops import unary_union
    except ImportError as error:
        raise MissingLibrary("A bed is set back with the library {library}.", library="shapely") from error
    turns = [_turn(ring) == _turn(rings[0]) for ring in rings]
    bed = unary_union([Polygon(ring) for ring, is_outer in zip(rings, turns) if is_outer])
    holes = unary_union([Polygon(ring) for ring, is_outer in zip(rings, turns) if not is_outer])
    whole = bed.difference(holes)
    return whole, whole.buffer(-by, CORNER)


def _turn(ring: Floats) -> float:
    x, y = ring.T
    return math.copysign(1.0, float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum()))


def _area_moves(rings: list[Line], chords: list[_Chords], left: BaseGeometry, by: float) -> list[Floats]:
    """(n, 2) change of the area that is left by metre of each point of each ring.

    Source:
        A boundary that moves by v to its outer side n changes the area by the integral of v . n along it; each place of the set
        back one moves as the place of the edge does that is nearest to it, which round an inner corner is the corner.
    """
    start, end = (np.vstack(some) for some in ([c.start for c in chords], [c.end for c in chords]))
    order = BoxOrder(np.minimum(start, end), np.maximum(start, end))
    middle, out = _sides(left)
    chord, share = _nearest((start, end), order, middle, out, by)
    # A side that the library drew past shallow corners moves with all chords that it stands for.
    long = np.hypot(*(end - start).T)[chord]
    ratio = np.hypot(*out.T) / np.maximum(long, LEAST_PART * by)
    if (ratio > SPLIT).any():
        middle, out = _split(middle, out, np.where(ratio > SPLIT, np.ceil(2.0 * ratio), 1.0).astype(int))
        chord, share = _nearest((start, end), order, middle, out, by)
    pull = np.zeros_like(start)
    rows = np.cumsum([0, *(len(c.start) for c in chords)])
    after = np.concatenate([first + np.roll(np.arange(n), -1) for first, n in zip(rows, np.diff(rows))])
    np.add.at(pull, chord, (1.0 - share)[:, None] * out)
    np.add.at(pull, after[chord], share[:, None] * out)
    return [_by_points(ring, c, pull[a:b]) for ring, c, a, b in zip(rings, chords, rows, rows[1:])]


def _sides(left: BaseGeometry) -> tuple[Floats, Floats]:
    """(s, 2) middles of the sides of what is left, and (s, 2) their outward normals, as long as they are, metres."""
    from shapely.geometry.polygon import orient

    middle, out = [], []
    for polygon in getattr(left, "geoms", [left]):
        turned = orient(polygon)
        for ring in (turned.exterior, *turned.interiors):
            xy = np.array(ring.coords)[:, :2]
            way = np.diff(xy, axis=0)
            middle.append(0.5 * (xy[1:] + xy[:-1]))
            out.append(np.column_stack([way[:, 1], -way[:, 0]]))
    return np.vstack(middle), np.vstack(out)


def _split(middle: Floats, out: Floats, counts: Ints) -> tuple[Floats, Floats]:
    """Sides in so many equal parts each."""
    row = np.repeat(np.arange(len(counts)), counts)
    part = (np.arange(len(row)) - np.repeat(np.cumsum(counts) - counts, counts) + 0.5) / counts[row] - 0.5
    way = np.column_stack([-out[:, 1], out[:, 0]])[row]
    return middle[row] + part[:, None] * way, out[row] / counts[row][:, None]


def _nearest(
    chords: tuple[Floats, Floats], order: BoxOrder, middle: Floats, out: Floats, by: float
) -> tuple[Ints, Floats]:
    """(s,) chord that each side was set back from, and what part of that lies before the place nearest to its middle."""
    (start, end), reach = chords, NEAR * by + GROUND
    long = np.hypot(*out.T)[:, None]
    places = middle + by * out / np.where(long > 0.0, long, 1.0)
    chord, share = np.zeros(len(middle), np.int64), np.zeros(len(middle))
    for k, (place, own) in enumerate(zip(places, middle)):
        some = order.meeting(place - reach, place + reach)
        some = some if len(some) else np.arange(len(start))
        way = end[some] - start[some]
        square = np.maximum((way**2).sum(axis=1), 1e-300)
        part = (((own - start[some]) * way).sum(axis=1) / square).clip(0.0, 1.0)
        away = np.hypot(*(start[some] + part[:, None] * way - own).T)
        best = int(away.argmin())
        chord[k], share[k] = some[best], part[best]
    return chord, share


def _by_points(ring: Line, chords: _Chords, pull: Floats) -> Floats:
    """(n, 2) pulls at a ring's points of those (c, 2) at the starts of its chords."""
    out = np.zeros((len(ring.points), 2))
    is_vertex = chords.part == 0.0
    np.add.at(out, ring.edges.p[chords.edge[is_vertex]], pull[is_vertex])
    on_arc = np.flatnonzero(~is_vertex)
    arcs = np.zeros(len(ring.half), np.int64)
    arcs[ring.edges.arc] = np.arange(len(ring.edges.arc))
    arc, part = arcs[chords.edge[on_arc]], chords.part[on_arc]
    across = (pull[on_arc] * _normals(ring, arc, part)).sum(axis=1)
    for point, move in _arc_moves(ring, arc, part):
        np.add.at(out, point, across[:, None] * move)
    return out


def _normals(ring: Line, arc: Ints, part: Floats) -> Floats:
    """(k, 2) unit normals to the left, at a part of each of some arcs."""
    edge = ring.edges.arc[arc]
    turn = ring.heading[edge] + ring.half[edge] * (2.0 * part - 1.0)
    return np.column_stack([-np.sin(turn), np.cos(turn)])


def _arc_moves(ring: Line, arc: Ints, part: Floats) -> list[tuple[Ints, Floats]]:
    """Of each of the three points of some arcs: (k,) its number, and (k, 2) how far a place at a part of the arc moves to the
    left by metre of it.

    Source:
        A circle that moves by c and grows by r moves at the angle t by r + c . n(t): what three places do gives every other by
        trigonometric interpolation, in which sin(t/2) stands for t in Lagrange's. A circle on a diameter: r and c follow from
        its ends.
    """
    edge = ring.edges.arc[arc]
    middle = _middles(ring)[arc]
    is_full = ring.edges.arcs.is_full[arc]
    half = np.where(is_full, 1.0, np.maximum(np.abs(ring.half[edge]), FLAT))
    zero, one = np.zeros(len(part)), np.ones(len(part))
    n_first, n_middle, n_last = (_normals(ring, arc, at) for at in (zero, middle, one))

    def weight(own: Floats, other: Floats, third: Floats) -> Floats:
        top = np.sin(half * (part - other)) * np.sin(half * (part - third))
        return np.asarray(top / (np.sin(half * (own - other)) * np.sin(half * (own - third))))[:, None]

    here, full = _normals(ring, arc, part), is_full[:, None]
    by_first = np.where(full, 0.5 * (n_first + here), weight(zero, middle, one) * n_first)
    by_middle = np.where(full, 0.5 * (here - n_first), weight(middle, zero, one) * n_middle)
    by_last = np.where(full, 0.0, weight(one, zero, middle) * n_last)
    return [(ring.edges.p[edge], by_first), (ring.edges.mid[arc], by_middle), (ring.edges.q[edge], by_last)]


def _middles(ring: Line) -> Floats:
    """(k,) what part of each arc lies before its middle point, which need not be half of it."""
    arcs, half = ring.edges.arcs, ring.half[ring.edges.arc]
    to, on = np.hypot(*arcs.u.T), np.hypot(*arcs.w.T)
    # The way to a point of a circle turns by half of the sweep up to it from the tangent at the start.
    turned = np.arctan2(arcs.u[:, 1], arcs.u[:, 0]) - ring.heading[ring.edges.arc] + half
    turned = (turned * np.sign(half)) % (2.0 * np.pi)
    is_plain = np.abs(half) < 1e-3  # as good to a millionth as its chords
    part = np.where(is_plain, to / (to + on), turned / np.where(is_plain, 1.0, np.abs(half)))
    return np.asarray(np.where(arcs.is_full, 0.5, part))
