# SPDX-License-Identifier: GPL-2.0-or-later
"""The thickened edges of slabs: all round, or along the sides that are named."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..quantity import Floats, Quantity
from ..segments import chorded
from .bands import SAG, ring_curve
from .lines import Flags, Line
from .strips import bending, refuse_narrow
from .worth import Moves, Worth, moves_of

BESIDE = 0.02
"""Metres that a side may lie off an edge and still be its: more than layers lose by their own rounding."""
NEAR = 0.1
"""Metres within which a side that lies off all along was meant for the edge."""
LEFT_OVER = 0.1
"""Metres of a side that may run along no edge: it turns a corner, or ends past one."""
LEAST = 0.1
"""Metres along an edge; shorter matches are those of lines that cross it."""
SLANT = 0.1
"""Metres off by metre along: a line that is steeper crosses the edge and does not run along it."""
MOST_CHORDS = 10_000
"""Of one straight of a side beside an arc."""


@dataclass(frozen=True)
class EdgeSection:
    """A thickening below a slab, metres: how deep, how wide at its foot, how much wider at its top; one-sigma of each; and
    how far the slab reaches past the rings as they were drawn."""

    depth: float
    width: float
    splay: float
    size_sigma: float
    extra: float = 0.0

    @property
    def area(self) -> float:
        """Of the section, m2."""
        return self.depth * (self.width + 0.5 * self.splay)

    @property
    def inward(self) -> float:
        """From the edge to the section's centroid, metres."""
        # The splay is a triangle that begins where the foot ends: its centroid lies a third of it further in.
        moment = self.width * 0.5 * self.width + 0.5 * self.splay * (self.width + self.splay / 3.0)
        return moment / (self.width + 0.5 * self.splay)


@dataclass(frozen=True)
class Stretch:
    """A part of an edge of a ring, from and to shares of its length."""

    edge: int
    first: float = 0.0
    last: float = 1.0


@dataclass(frozen=True, eq=False)
class ThickRing:
    """A ring of a slab, and the same as it was drawn, before anything reached past it; 1 where the slab lies to its left and -1
    where to its right; and what of it is thickened."""

    ring: Line
    drawn: Line
    left: float
    stretches: Sequence[Stretch]


@dataclass(frozen=True, eq=False)
class Thickening:
    """Concrete of thickened edges.

    Attributes:
        concrete: m3. moves: of it with the points of each ring as it was drawn; () where nothing is thickened.
        by_size: its one-sigma by the section's sizes alone, m3. by_extra: m3 of it by metre of the extra.
    """

    concrete: Quantity
    moves: tuple[Moves, ...] = ()
    by_size: float = 0.0
    by_extra: float = 0.0


@dataclass(frozen=True)
class Named:
    """Sides that are drawn along an outline.

    Attributes:
        stretches: of each ring, in the order of its edges, what of them a side runs along.
        off: how many sides run near the outline and not along its outer edge.
    """

    stretches: tuple[tuple[Stretch, ...], ...]
    off: int

    @property
    def is_none(self) -> bool:
        """Whether no side runs along any edge."""
        return not any(self.stretches)


def all_edges(ring: Line) -> tuple[Stretch, ...]:
    """All of a ring."""
    return tuple(Stretch(k) for k in range(len(ring.half)))


def edges_along(rings: Sequence[Line], sides: Sequence[Line]) -> Named:
    """What of the outer edges of an outline some sides run along, within 20 mm, the sides of one edge taken together.

    Args:
        rings: of the outline, metres; holes turned the other way round than the first ring, and are left out.
        sides: lines, metres.
    """
    first = float(rings[0].edges.areas.sum())
    is_outer = [float(ring.edges.areas.sum()) * first > 0.0 for ring in rings]
    curves = [chorded(ring_curve(side), SAG)[:, :2] for side in sides]
    stretches: list[tuple[Stretch, ...]] = []
    along = np.zeros(len(sides))
    for ring, outer in zip(rings, is_outer):
        found = [spans_along(ring, curve) for curve in curves] if outer else []
        along += [sum(b - a for _, a, b in spans) for spans in found] if outer else 0.0
        stretches.append(_stretches(ring, [span for spans in found for span in spans]))
    off = sum(
        own < float(side.edges.lengths.sum()) - LEFT_OVER and _is_near(curve, rings)
        for side, curve, own in zip(sides, curves, along.tolist())
    )
    return Named(tuple(stretches), off)


Span = tuple[int, float, float]


def spans_along(ring: Line, chords: Floats) -> list[Span]:
    """The parts of a ring's edges that chords run along: edge, from and to, metres along it."""
    out = []
    lengths, half = ring.edges.lengths, ring.half
    for e in np.flatnonzero(lengths > 0.0).tolist():
        curvature = 2.0 * half[e] / lengths[e]
        places = _fine(chords, curvature)
        along, aside = _beside(ring, e, places)
        # Beside an arc the way along leaps where it comes round behind it.
        leaps = np.abs(np.diff(along)) > 2.0 * np.hypot(*np.diff(places, axis=0).T)
        out += [(e, a, b) for a, b in _clipped(along, aside, float(lengths[e]), leaps)]
    return out


def _fine(chords: Floats, curvature: float) -> Floats:
    """Chords (n, 2) so short beside an arc that it rises over them by no more than a tenth of the width of a match."""
    if not curvature:
        return chords
    step = math.sqrt(0.8 * BESIDE / abs(curvature))
    way = np.diff(chords, axis=0)
    counts = np.minimum(np.ceil(np.hypot(*way.T) / step), MOST_CHORDS).astype(int).clip(1)
    row = np.repeat(np.arange(len(way)), counts)
    part = (np.arange(len(row)) - np.repeat(np.cumsum(counts) - counts, counts)) / counts[row]
    return np.vstack([chords[row] + part[:, None] * way[row], chords[-1:]])


def _beside(ring: Line, edge: int, places: Floats) -> tuple[Floats, Floats]:
    """(n,) how far along an edge, on its circle beyond its ends too, places lie, and how far to its left, metres."""
    a, b = (ring.points[k[edge], :2] for k in (ring.edges.p, ring.edges.q))
    half, length = float(ring.half[edge]), float(ring.edges.lengths[edge])
    if not half:
        way = (b - a) / length
        v = places - a
        return np.asarray(v @ way), np.asarray(v[:, 1] * way[0] - v[:, 0] * way[1])
    its = int(np.flatnonzero(ring.edges.arc == edge)[0])
    mid = ring.points[ring.edges.mid[its], :2]
    radius = 0.5 * length / half
    toward = ring.heading[edge] + 0.5 * math.pi
    centre = mid + radius * np.array([math.cos(toward), math.sin(toward)])
    v, zero = places - centre, mid - centre
    turn = np.arctan2(zero[0] * v[:, 1] - zero[1] * v[:, 0], v @ zero)
    return np.asarray(0.5 * length + radius * turn), np.asarray(
        math.copysign(1.0, half) * (abs(radius) - np.hypot(*v.T))
    )


def _clipped(along: Floats, aside: Floats, length: float, leaps: Flags) -> list[tuple[float, float]]:
    """The parts of an edge that chords run along whose ends lie so far along and aside of it."""
    step, drift = np.diff(along), np.diff(aside)
    runs = (np.abs(drift) <= SLANT * np.abs(step)) & (np.abs(step) > 0.0) & ~leaps
    with np.errstate(divide="ignore", invalid="ignore"):
        ends = np.sort([(s * BESIDE - aside[:-1]) / drift for s in (-1.0, 1.0)], axis=0)
    level = drift == 0.0
    low = np.where(level, 0.0, np.clip(ends[0], 0.0, 1.0))
    high = np.where(level, np.abs(aside[:-1]) <= BESIDE, np.clip(ends[1], 0.0, 1.0))
    at = np.sort([along[:-1] + low * step, along[:-1] + high * step], axis=0).clip(0.0, length)
    keep = runs & (high > low) & (at[1] > at[0])
    return list(zip(at[0][keep].tolist(), at[1][keep].tolist()))


def _stretches(ring: Line, spans: Sequence[Span]) -> tuple[Stretch, ...]:
    """Parts of edges, those of one edge joined, and held to its corners where they end within the width of a match."""
    out = []
    for e, length in enumerate(ring.edges.lengths.tolist()):
        joined: list[tuple[float, float]] = []
        for a, b in sorted((a, b) for k, a, b in spans if k == e):
            if joined and a <= joined[-1][1] + 2.0 * BESIDE:
                joined[-1] = (joined[-1][0], max(b, joined[-1][1]))
            else:
                joined.append((a, b))
        for a, b in joined:
            if b - a >= min(LEAST, 0.5 * length):
                first, last = a / length if a > BESIDE else 0.0, b / length if b < length - BESIDE else 1.0
                out.append(Stretch(e, first, last))
    return tuple(out)


def _is_near(chords: Floats, rings: Sequence[Line]) -> bool:
    """Whether a line lies near an outline's edges all along."""
    places = np.vstack([chords[:1], 0.5 * (chords[1:] + chords[:-1]), chords[-1:]])
    away = [_away(places, chorded(ring_curve(ring), SAG)[:, :2]) for ring in rings]
    return bool((np.min(away, axis=0) <= NEAR).all())


def lines_along(ring: Line, stretches: Sequence[Stretch]) -> list[Line]:
    """Parts of a ring's edges as lines of their own, neighbours joined; all of them are the ring."""
    if len(stretches) == len(ring.half) and all(is_whole(one) for one in stretches):
        return [ring]
    lines: list[list[Stretch]] = []
    for one in stretches:
        if lines and _follows(lines[-1][-1], one, len(ring.half)):
            lines[-1].append(one)
        else:
            lines.append([one])
    if len(lines) > 1 and _follows(lines[-1][-1], lines[0][0], len(ring.half)):
        lines[0] = lines.pop() + lines[0]
    return [_joined_line([part_of(ring, one) for one in some]) for some in lines]


def is_whole(stretch: Stretch) -> bool:
    """Whether it is all of an edge."""
    return stretch.first == 0.0 and stretch.last == 1.0


def _follows(one: Stretch, other: Stretch, count: int) -> bool:
    return (one.edge + 1) % count == other.edge and one.last == 1.0 and other.first == 0.0


def _joined_line(parts: Sequence[Line]) -> Line:
    last = parts[-1]
    points = np.vstack([*(part.points[:-1] for part in parts), last.points[-1:]])
    return Line(points, np.concatenate([*(part.is_mid[:-1] for part in parts), last.is_mid[-1:]]))


def part_of(ring: Line, stretch: Stretch) -> Line:
    """A part of one edge as a line of its own."""
    rows = slice(int(ring.edges.p[stretch.edge]), int(ring.edges.q[stretch.edge]) + 1)
    edge = Line(ring.points[rows], ring.is_mid[rows])
    if is_whole(stretch):
        return edge
    shares = np.array([stretch.first, 0.5 * (stretch.first + stretch.last), stretch.last])
    if not edge.half[0]:
        points = edge.points[0] + shares[:, None] * (edge.points[-1] - edge.points[0])
        return Line(points[[0, 2]], np.zeros(2, bool))
    radius = 0.5 * float(edge.edges.lengths[0]) / float(edge.half[0])
    turn = edge.heading[0] - 0.5 * math.pi + (shares - 0.5) * 2.0 * edge.half[0]
    toward = edge.heading[0] + 0.5 * math.pi
    centre = edge.points[1, :2] + radius * np.array([math.cos(toward), math.sin(toward)])
    xy = centre + radius * np.column_stack([np.cos(turn), np.sin(turn)])
    return Line(np.column_stack([xy, np.full(3, edge.points[1, 2])]), np.array([False, True, False]))


def thicken(rings: Sequence[ThickRing], section: EdgeSection, worth: Worth) -> Thickening:
    """Concrete of thickened edges: the section along the path of its centroid, corners mitred, ends square.

    Args:
        rings: of a slab, and what of them is thickened. The ends of a part of an edge are worth what the edge's own are.
        section: of the thickening.
        worth: what the rings' points are worth.
    Raises:
        BadInput: no room for it at the inner side.
    Source:
        V = d ((w + s/2) L - B (w^2/2 + s w/2 + s^2/6)) of depth d, width w, splay s, length L and bending B of the edge;
        each size errs by itself, and as it does the centroid's path moves.
    """
    depth, width, splay = section.depth, section.width, section.splay
    if depth <= 0.0 or width + splay <= 0.0 or not any(one.stretches for one in rings):
        return Thickening(Quantity(0.0, 0.0, "m3"))
    length, bend = 0.0, 0.0
    for one in rings:
        for line in lines_along(one.ring, one.stretches):
            refuse_narrow(line, one.left * (width + splay))
            length += float(line.edges.lengths.sum())
            bend += one.left * bending(line)
    value = section.area * (length - section.inward * bend)
    by_width = depth * (length - bend * (width + 0.5 * splay))
    by_splay = depth * (0.5 * length - bend * (0.5 * width + splay / 3.0)) if splay else 0.0
    by_size = math.hypot(value / depth, by_width, by_splay) * section.size_sigma
    by_extra = section.area * sum(_growth(one) for one in rings)
    moves = tuple(_volume_moves(one, section) for one in rings)
    by_reach = by_extra * section.size_sigma if section.extra else 0.0
    sigma = math.hypot(worth.sigma(*moves), by_size, by_reach)
    return Thickening(Quantity(value, sigma, "m3"), moves, by_size, by_extra)


def _ends_at_corners(one: ThickRing) -> tuple[Floats, Floats, Flags]:
    """(m,) how much of each edge is thickened; (k,) how many edges are, of the two at each corner, up to it; and whether
    both are, so that they are mitred."""
    count = len(one.drawn.half)
    parts = np.zeros(count)
    starts, ends = np.zeros(count, bool), np.zeros(count, bool)
    for each in one.stretches:
        parts[each.edge] += each.last - each.first
        starts[each.edge] |= each.first == 0.0
        ends[each.edge] |= each.last == 1.0
    before, after, _ = one.drawn.corners
    return parts, ends[before].astype(float) + starts[after], ends[before] & starts[after]


def _growth(one: ThickRing) -> float:
    """How much longer the thickened edges become by metre of the extra: their arcs, and the mitres of moved edges at all
    corners up to which they go."""
    parts, ends, _ = _ends_at_corners(one)
    turn = one.drawn.corners[2]
    return one.left * float(2.0 * (one.drawn.half * parts).sum() + (ends * np.tan(0.5 * turn)).sum())


def _volume_moves(one: ThickRing, section: EdgeSection) -> Moves:
    """How the concrete moves with the points of a ring as it was drawn: arcs are those of a path so far inside it, less the
    extra; so are mitres, but at ends, which the extra alone moves."""
    ring, (parts, ends, is_mitred) = one.drawn, _ends_at_corners(one)
    before, after, turn = ring.corners
    arcs = one.left * (section.inward - section.extra)
    mitres = one.left * (np.where(is_mitred, section.inward, 0.0) - 0.5 * ends * section.extra)
    secant = mitres * np.cos(0.5 * turn) ** -2.0
    by_half, by_heading = 2.0 * arcs * parts, np.zeros(len(ring.half))
    for edge, sign in ((before, -1.0), (after, 1.0)):
        np.add.at(by_half, edge, -secant)
        np.add.at(by_heading, edge, sign * secant)
    moves = ring.edges.length_moves(parts) - ring.half_moves(by_half) - ring.heading_moves(by_heading)
    return moves_of(ring, section.area * moves)


def form_lines(
    ring: Line, heights: Floats, deeper: float, stretches: Sequence[Stretch]
) -> tuple[list[Line], list[Floats]]:
    """The edges of a ring for its forms, each part a line with the (2,) heights at its ends: of some stretches deeper."""
    lines, ends = list[Line](), list[Floats]()
    for e in range(len(ring.half)):
        own = [one for one in stretches if one.edge == e]
        cuts = sorted({0.0, 1.0, *(one.first for one in own), *(one.last for one in own)})
        for a, b in zip(cuts, cuts[1:]):
            is_deep = any(one.first <= a and b <= one.last for one in own)
            lines.append(part_of(ring, Stretch(e, a, b)))
            rise = heights[e + 1] - heights[e]
            ends.append(heights[e] + rise * np.array([a, b]) + (deeper if is_deep else 0.0))
    return lines, ends


def _away(places: Floats, chords: Floats) -> Floats:
    """(n,) distance of places from the nearest of some chords, metres."""
    out = np.full(len(places), np.inf)
    for a, b in zip(chords[:-1], chords[1:]):
        way = b - a
        part = np.clip((places - a) @ way / max(float(way @ way), 1e-300), 0.0, 1.0)
        out = np.minimum(out, np.hypot(*(places - a - part[:, None] * way).T))
    return out
