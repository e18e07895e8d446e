# SPDX-License-Identifier: GPL-2.0-or-later
"""The thickened edges of slabs: all round, or along the sides that are named."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..quantity import Floats, Ints, Quantity
from ..segments import chorded
from .bands import SAG, ring_curve
from .lines import Flags, Line
from .strips import bending, refuse_narrow
from .worth import Worth, moves_of

BESIDE = 0.02
"""Metres that a side may lie off an edge and still be its: more than layers lose by their own rounding."""


@dataclass(frozen=True)
class EdgeSection:
    """A thickening below a slab, metres: how deep, how wide at its foot, how much wider at its top; one-sigma of each."""

    depth: float
    width: float
    splay: float
    size_sigma: float


def edges_along(ring: Line, sides: Sequence[Line]) -> Flags:
    """(m,) whether each edge of a ring runs all along one of some sides, within 20 mm."""
    ends = np.stack([ring.points[ring.edges.p, :2], _middles(ring), ring.points[ring.edges.q, :2]], axis=1)
    out = np.zeros(len(ends), bool)
    for side in sides:
        chords = chorded(ring_curve(side), SAG)[:, :2]
        out |= (_away(ends.reshape(-1, 2), chords).reshape(-1, 3) <= BESIDE).all(axis=1)
    return out


def lines_of_edges(ring: Line, chosen: Flags) -> list[Line]:
    """Some edges of a ring as lines of their own, neighbours joined; all of them are the ring."""
    if chosen.all():
        return [ring]
    first = int(np.argmin(chosen))
    order = (np.arange(len(chosen)) + first) % len(chosen)
    starts = np.flatnonzero(chosen[order] & ~np.roll(chosen[order], 1))
    ends = np.flatnonzero(chosen[order] & ~np.roll(chosen[order], -1))
    return [_sub_line(ring, order[a : b + 1]) for a, b in zip(starts.tolist(), ends.tolist())]


def _sub_line(ring: Line, edges: Ints) -> Line:
    """The line of edges that follow one another."""
    rows = [k for e in edges.tolist() for k in range(int(ring.edges.p[e]), int(ring.edges.q[e]))]
    index = np.array([*rows, int(ring.edges.q[edges[-1]])])
    seats = None if ring.seats is None else ring.seats[index]
    return Line(ring.points[index], ring.is_mid[index], seats)


def thicken(edges: Sequence[tuple[Line, float]], section: EdgeSection, worth: Worth) -> Quantity:
    """Concrete of thickened edges, m3: the section along the path of its centroid, corners mitred, ends square.

    Args:
        edges: lines, with 1 where the slab lies to their left and -1 where to their right.
        section: of the thickening.
        worth: what the lines' points are worth.
    Raises:
        BadInput: no room for it at the inner side.
    """
    depth, width, splay = section.depth, section.width, section.splay
    if depth <= 0.0 or width + splay <= 0.0 or not edges:
        return Quantity(0.0, 0.0, "m3")
    area = depth * (width + 0.5 * splay)
    # The splay is a triangle that begins where the foot ends: its centroid lies a third of it further in.
    inward = (width * 0.5 * width + 0.5 * splay * (width + splay / 3.0)) / (width + 0.5 * splay)
    path, moves = 0.0, []
    for line, left in edges:
        refuse_narrow(line, left * (width + splay))
        path += float(line.edges.lengths.sum()) - left * inward * bending(line)
        moves.append(moves_of(line, line.edges.length_moves(np.ones(len(line.half)))))
    by_size = path * math.hypot(width + 0.5 * splay, depth) * section.size_sigma
    return Quantity(path * area, math.hypot(area * worth.sigma(*moves), by_size), "m3")


def form_lines(ring: Line, heights: Floats, deeper: float, chosen: Flags) -> tuple[list[Line], list[Floats]]:
    """The edges of a ring for its forms, each a line with the (2,) heights at its ends: of the chosen ones deeper."""
    lines = [_sub_line(ring, np.array([e])) for e in range(len(chosen))]
    ends = np.column_stack([heights[:-1], heights[1:]]) + np.where(chosen, deeper, 0.0)[:, None]
    return lines, list(ends)


def _middles(ring: Line) -> Floats:
    """(m, 2) of each edge."""
    out = 0.5 * (ring.points[ring.edges.p, :2] + ring.points[ring.edges.q, :2])
    out[ring.edges.arc] = ring.points[ring.edges.mid, :2]
    return np.asarray(out)


def _away(places: Floats, chords: Floats) -> Floats:
    """(n,) distance of places from the nearest of some chords, metres."""
    out = np.full(len(places), np.inf)
    for a, b in zip(chords[:-1], chords[1:]):
        way = b - a
        part = np.clip((places - a) @ way / max(float(way @ way), 1e-300), 0.0, 1.0)
        out = np.minimum(out, np.hypot(*(places - a - part[:, None] * way).T))
    return out
