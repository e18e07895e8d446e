# SPDX-License-Identifier: GPL-2.0-or-later
"""The edges of all features side by side, and which of their vertices face which edges of others."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from ...quantity import Floats, Ints
from ...segments import STRAIGHT, ring_area
from ...walk import Flags, Kind
from ..boxes import find_meeting_boxes
from ..records import LegShape, Piece, Shape

Complexes = npt.NDArray[np.complex128]
May = Callable[[Ints, Ints], Flags]
"""Of lines by number, pair by pair: whether the one may be a neighbour of the other."""


@dataclass(frozen=True, eq=False)
class Line:
    """One piece of a feature: number `shape` among the shapes, `piece` within it. `turn` is 1 where it goes round an
    area anticlockwise, -1 clockwise, 0 where it is none."""

    shape: int
    number: int
    piece: Piece
    turn: int

    @cached_property
    def xy(self) -> Floats:
        """(e+1, 2) ends of the edges in order; of a closed piece the first comes again."""
        points = self.piece.points[:, :2]
        return np.asarray(np.vstack([points, points[:1]]) if self.piece.closed else points)

    @cached_property
    def lengths(self) -> Floats:
        """(e,) metres along each edge in plan."""
        chord = np.hypot(*np.diff(self.xy, axis=0).T)
        half = np.abs(self.piece.half)
        bent = half > STRAIGHT
        return np.asarray(np.where(bent, chord * half / np.where(bent, np.sin(half), 1.0), chord))

    def points_at(self, at: Floats) -> Floats:
        """(k, 2) places on the line: edge number and part of the way along it in one number, wrapped round."""
        edge = self.edges_at(at)
        part = at - (np.floor(at) if self.piece.closed else edge)
        a, d = self.xy[edge], self.xy[edge + 1] - self.xy[edge]
        m = part_of_chord(part, self.piece.half[edge])
        x, y = m.real * d[:, 0] - m.imag * d[:, 1], m.imag * d[:, 0] + m.real * d[:, 1]
        return np.asarray(a + np.column_stack([x, y]))

    def edges_at(self, at: Floats) -> Ints:
        """(k,) the edge on which a place lies; a vertex lies on the edge that it begins."""
        n, edge = len(self.piece.half), np.floor(at).astype(np.int64)
        return np.asarray(edge % n if self.piece.closed else np.minimum(edge, n - 1))

    def tangent_at(self, at: float) -> Floats:
        """(2,) direction of the line at a place, length 1: the chord's, turned by what the arc turns to there."""
        edge = int(self.edges_at(np.array([at]))[0])
        part = at - (math.floor(at) if self.piece.closed else edge)
        chord = complex(*(self.xy[edge + 1] - self.xy[edge]))
        along = chord / abs(chord) * cmath.exp(1j * (2.0 * part - 1.0) * float(self.piece.half[edge]))
        return np.array([along.real, along.imag])

    @cached_property
    def _pull(self) -> tuple[_Entries, _Entries, _Entries]:
        pull = self.piece.pull
        return (
            _Entries(pull.vertex, pull.vertex_row, pull.vertex_by),
            _Entries(pull.edge, pull.edge_row, pull.edge_by),
            _Entries(pull.height, pull.height_row, pull.height_by),
        )

    def vertex_moves(self, vertex: int) -> list[tuple[int, Floats]]:
        """How a vertex moves with the stations: row and change (2, 2)."""
        return self._pull[0].of(vertex)

    def half_moves(self, edge: int) -> list[tuple[int, Floats]]:
        """How an edge's half sweep moves with the stations: row and change (2,)."""
        return self._pull[1].of(edge)

    def height_moves(self, vertex: int) -> list[tuple[int, float]]:
        """How a vertex's height moves with the stations' heights: row and factor."""
        return [(row, float(by)) for row, by in self._pull[2].of(vertex)]


class _Entries:
    """The entries of a pull, found by what they are of."""

    def __init__(self, index: Ints, row: Ints, by: Floats) -> None:
        self._order = np.argsort(index, kind="stable")
        self._index, self._row, self._by = index[self._order], row[self._order], by[self._order]

    def of(self, number: int) -> list[tuple[int, Floats]]:
        """Row and change of each entry of one vertex or edge."""
        first, last = np.searchsorted(self._index, (number, number + 1))
        return [(int(row), by) for row, by in zip(self._row[first:last], self._by[first:last])]


def part_of_chord(part: Floats, half: Floats) -> Complexes:
    """(k,) complex: where a part of the way along an edge lies, the chord being 1. It turns right of the chord by
    (1 - part) of the half sweep and reaches sin(part a)/sin(a) far, as in `segments.points_along`."""
    flat = np.abs(half) < STRAIGHT
    a = np.where(flat, 1.0, half)
    bent = np.sin(part * a) / np.sin(a) * np.exp(-1j * (1.0 - part) * a)
    return np.where(flat, part + 0j, bent)


def lines_of(shapes: Sequence[Shape]) -> list[Line]:
    """The pieces that may have neighbours: of areas and lengths, those without an arc in the vertical plane (its length
    hangs on where its ends are); of a feature walked twice, the go that counts."""
    out = []
    for i, shape in enumerate(shapes):
        if shape.set_aside:
            continue
        for number, piece in enumerate(shape.pieces):
            if any(leg.shape is LegShape.VERTICAL for leg in piece.legs) or not len(piece.half):
                continue
            turn = 0
            if shape.kind is Kind.AREA:
                turn = 1 if ring_area(piece.curve()) >= 0.0 else -1
            out.append(Line(i, number, piece, turn))
    return out


@dataclass(frozen=True, eq=False)
class Facing:
    """Vertices and the nearest place on another line: line and number of the vertex, that other line, the edge of it
    and the part of the way along (0 to 1), the nearer end of that edge, and the metres to each."""

    line: Ints
    vertex: Ints
    other: Ints
    edge: Ints
    part: Floats
    gap: Floats
    end: Ints
    end_gap: Floats


def find_facing(lines: Sequence[Line], may: May, within: float) -> Facing:
    """Each vertex against each other line that its line `may` have to do with, where that lies `within` so many
    metres."""
    counts = [len(line.piece.points) for line in lines]
    sizes = [len(line.piece.half) for line in lines]
    xy = np.concatenate([line.piece.points[:, :2] for line in lines])
    a, b = (np.concatenate([line.xy[part] for line in lines]) for part in (slice(None, -1), slice(1, None)))
    half = np.concatenate([line.piece.half for line in lines])
    of_vertex, of_edge = (np.repeat(np.arange(len(lines)), n) for n in (counts, sizes))
    reach = within + _sagitta(a, b, half)[:, None]
    found = []
    for i, k in find_meeting_boxes(xy, xy, np.minimum(a, b) - reach, np.maximum(a, b) + reach):
        its = may(of_vertex[i], of_edge[k]) & np.any(a[k] != b[k], axis=1)
        v, e = i[its], k[its]
        part, gap = _nearest(xy[v], a[e], b[e], half[e])
        near = gap <= within
        found.append((v[near], e[near], part[near], gap[near]))
    v, e, part, gap = (np.concatenate([block[k] for block in found]) for k in range(4))
    v, e, part, gap = _nearest_of_each(v, of_edge[e], e, part, gap)
    to_start, to_end = (np.hypot(*(xy[v] - ends[e]).T) for ends in (a, b))
    other = of_edge[e]
    edge = e - np.cumsum([0, *sizes])[other]
    end = edge + (to_end < to_start)
    return Facing(
        of_vertex[v],
        v - np.cumsum([0, *counts])[of_vertex[v]],
        other,
        edge,
        part,
        gap,
        # The last edge of a closed line ends at its first vertex.
        np.where(end == np.array(counts)[other], 0, end),
        np.minimum(to_start, to_end),
    )


def _nearest_of_each(
    v: Ints, other: Ints, e: Ints, part: Floats, gap: Floats
) -> tuple[Ints, Ints, Floats, Floats]:
    """Of each vertex and other line the nearest edge."""
    order = np.lexsort((gap, other, v))
    v, other = v[order], other[order]
    first = np.ones(len(v), dtype=bool)
    first[1:] = (v[1:] != v[:-1]) | (other[1:] != other[:-1])
    its = order[first]
    return v[first], e[its], part[its], gap[its]


def _sagitta(a: Floats, b: Floats, half: Floats) -> Floats:
    """(e,) how far an arc can lie outside the box of its ends, metres: its sagitta, beyond a half circle its
    diameter."""
    chord = np.hypot(*(b - a).T)
    size = np.abs(half)
    bent = size > STRAIGHT
    with np.errstate(divide="ignore", invalid="ignore"):
        deep = np.where(size <= np.pi / 2, 0.5 * chord * np.tan(0.5 * size), chord / np.abs(np.sin(size)))
    return np.asarray(np.where(bent, deep, 0.0))


def _nearest(p: Floats, a: Floats, b: Floats, half: Floats) -> tuple[Floats, Floats]:
    """Part of the way along each edge at which it is nearest to a point, and the metres between. The chord is taken
    as 1, so that an arc's centre lies at (1 + i cot a)/2."""
    chord = (b - a) @ np.array([1.0, 1j])
    z = (p - a) @ np.array([1.0, 1j]) / chord
    flat = np.abs(half) < STRAIGHT
    h = np.where(flat, 1.0, half)
    centre = 0.5 + 0.5j / np.tan(h)
    round_by = np.mod(np.sign(h) * np.angle((z - centre) / -centre), 2.0 * np.pi)
    whole = 2.0 * np.abs(h)
    beyond = np.where(round_by - whole < 2.0 * np.pi - round_by, 1.0, 0.0)
    part = np.where(flat, np.clip(z.real, 0.0, 1.0), np.where(round_by > whole, beyond, round_by / whole))
    return part, np.abs(z - part_of_chord(part, half)) * np.abs(chord)
