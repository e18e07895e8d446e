# SPDX-License-Identifier: GPL-2.0-or-later
"""The straights and arcs of many runs: their areas and lengths, and how these move with the points."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ...quantity import Floats, Ints
from ...segments import STRAIGHT, length_factor, segment_factor
from .shapes import Flags, Shapes

CLOSED = 1e-9
"""Of its first chord: an arc whose ends lie closer than this is a full circle on that chord as its diameter."""


@dataclass(frozen=True, eq=False)
class Edges:
    """Edges from vertex `p` to vertex `q`, (m,) numbers of points.

    Attributes:
        start: (r + 1,) first edge of each run, and m.
        arc: (k,) the edges that are arcs, and `mid` (k,) their middle points.
        xy: (n, 2) the points in metres.
    """

    p: Ints
    q: Ints
    start: Ints
    arc: Ints
    mid: Ints
    xy: Floats

    @cached_property
    def chord(self) -> Floats:
        """(m, 2) from p to q."""
        return np.asarray(self.xy[self.q] - self.xy[self.p])

    @cached_property
    def arcs(self) -> Arcs:
        """The arcs alone."""
        return Arcs(self.xy[self.p[self.arc]], self.xy[self.mid], self.xy[self.q[self.arc]])

    @cached_property
    def lengths(self) -> Floats:
        """(m,) metres in plan."""
        out = np.hypot(self.chord[:, 0], self.chord[:, 1])
        out[self.arc] = self.arcs.lengths
        return np.asarray(out)

    @cached_property
    def areas(self) -> Floats:
        """(m,) area between the edge and the origin, positive anticlockwise: half the cross product of its ends,
        and what an arc adds to its chord."""
        a, b = self.xy[self.p], self.xy[self.q]
        out = 0.5 * (a[:, 0] * b[:, 1] - b[:, 0] * a[:, 1])
        out[self.arc] += self.arcs.segments
        return np.asarray(out)

    def area_moves(self, weight: Floats) -> Floats:
        """(n, 2) change of the sum of areas, each edge's (m,) weight counted, by metre of each point."""
        out = np.zeros_like(self.xy)
        half = 0.5 * weight
        a, b = self.xy[self.p], self.xy[self.q]
        _add(out, self.p, half[:, None] * np.column_stack([b[:, 1], -b[:, 0]]))
        _add(out, self.q, half[:, None] * np.column_stack([-a[:, 1], a[:, 0]]))
        self._add_arcs(out, self.arcs.segment_moves, weight)
        return out

    def length_moves(self, weight: Floats) -> Floats:
        """(n, 2) change of the sum of lengths, each edge's (m,) weight counted, by metre of each point; of several sums
        (f, n, 2), given weights (f, m)."""
        size = np.hypot(self.chord[:, 0], self.chord[:, 1])
        size[self.arc] = 0.0
        is_straight = size > 0.0
        unit = self.chord / np.where(is_straight, size, 1.0)[:, None]
        along = np.where(is_straight[:, None], unit, 0.0) * weight[..., None]
        out = np.zeros((*weight.shape[:-1], *self.xy.shape))
        _add(out, self.p, -along)
        _add(out, self.q, along)
        if len(self.arc):
            self._add_arcs(out, self.arcs.length_moves, weight)
        return out

    def _add_arcs(self, out: Floats, moves: tuple[Floats, Floats, Floats], weight: Floats) -> None:
        its = weight[..., self.arc, None]
        for points, move in zip((self.p[self.arc], self.mid, self.q[self.arc]), moves):
            _add(out, points, its * move)


def _add(out: Floats, points: Ints, values: Floats) -> None:
    """Add where each point stands once only, as starts and as ends of edges do."""
    out[..., points, :] += values


class Arcs:
    """(k,) arcs from p through m to q, (k, 2) each in metres.

    Half the sweep is the turn at the middle point, from the way to it to the way from it: no centre is needed, so
    flat arcs lose nothing, and a middle in line with the ends makes a straight.
    """

    def __init__(self, p: Floats, m: Floats, q: Floats) -> None:
        """Turns, chords and what follows from them."""
        self.u, self.w, self.chord = m - p, q - m, q - p
        self.half = np.arctan2(_cross(self.u, self.w), _dot(self.u, self.w))
        self._square = _dot(self.chord, self.chord)
        self.size, self.reach = np.sqrt(self._square), np.sqrt(_dot(self.u, self.u))
        self.is_full: Flags = np.asarray((self.size <= CLOSED * self.reach) & (self.reach > 0.0))
        # A full circle has its own formulas; the others' are fed a straight in its place.
        self._half = np.where(self.is_full, 0.0, self.half) if self.is_full.any() else self.half

    @cached_property
    def _length(self) -> tuple[Floats, Floats]:
        return length_factor(self._half)

    @cached_property
    def _segment(self) -> tuple[Floats, Floats]:
        return segment_factor(self._half)

    @property
    def is_impossible(self) -> Flags:
        """(k,) whether the middle lies in line with the ends but beyond them, so that no circle passes all three."""
        back = (np.abs(self.half) > np.pi - CLOSED) & ~self.is_full
        return np.asarray(back)

    @property
    def lengths(self) -> Floats:
        """(k,) metres."""
        return np.where(self.is_full, np.pi * self.reach, self.size * self._length[0])

    @property
    def segments(self) -> Floats:
        """(k,) area between chord and arc, positive where the arc turns left; a full circle's is positive."""
        full = 0.25 * np.pi * self.reach**2
        return np.where(self.is_full, full, self._square / 8.0 * self._segment[0])

    def points_at(self, arc: Ints, part: Floats) -> Floats:
        """(n, 2) places, metres from the arc's start, at a part from 0 to 1 of each of some arcs (n,).

        At part f of an arc of half sweep a a point lies chord * sin(f a)/sin(a) from the start, turned by (1 - f) a
        to the right of the chord; on a full circle at 2 r sin(f pi), turned likewise from the way to its middle.
        """
        is_full = self.is_full[arc]
        half = np.where(is_full, np.pi, self.half[arc])
        along = np.where(is_full[:, None], -_left(self.u[arc]), self.chord[arc])
        flat = np.abs(half) < STRAIGHT
        below = np.where(flat | is_full, 1.0, np.sin(half))
        reach = np.where(flat, part, np.sin(part * half) / below)
        turn = -(1.0 - part) * half + np.where(is_full, np.pi, 0.0)
        cos, sin = np.cos(turn), np.sin(turn)
        x, y = along.T
        return np.column_stack([reach * (x * cos - y * sin), reach * (x * sin + y * cos)])

    @cached_property
    def _turns(self) -> tuple[Floats, Floats, Floats]:
        """Change of half the sweep by p, m and q, (k, 2) each."""
        with np.errstate(divide="ignore", invalid="ignore"):
            by_u = np.nan_to_num(_left(self.u) / (self.u**2).sum(axis=1)[:, None])
            by_w = np.nan_to_num(_left(self.w) / (self.w**2).sum(axis=1)[:, None])
        return by_u, -by_u - by_w, by_w

    @property
    def length_moves(self) -> tuple[Floats, Floats, Floats]:
        """Change of the lengths by p, m and q, (k, 2) each."""
        with np.errstate(divide="ignore", invalid="ignore"):
            along = np.nan_to_num(self.chord / self.size[:, None])
        return self._mixed(along * self._length[0][:, None], self.size * self._length[1], np.pi)

    @property
    def segment_moves(self) -> tuple[Floats, Floats, Floats]:
        """Change of the areas by p, m and q, (k, 2) each."""
        by_chord = self.chord / 4.0 * self._segment[0][:, None]
        return self._mixed(by_chord, self._square / 8.0 * self._segment[1], 0.5 * np.pi * self.reach)

    def _mixed(
        self, by_chord: Floats, by_half: Floats, by_diameter: Floats | float
    ) -> tuple[Floats, Floats, Floats]:
        p, m, q = (by_half[:, None] * turn for turn in self._turns)
        p, q = p - by_chord, q + by_chord
        if self.is_full.any():
            with np.errstate(divide="ignore", invalid="ignore"):
                out = np.nan_to_num(self.u / self.reach[:, None]) * np.reshape(by_diameter, (-1, 1))
            full = self.is_full[:, None]
            p, m, q = np.where(full, -out, p), np.where(full, out, m), np.where(full, 0.0, q)
        return p, m, q


def edges_of(shapes: Shapes, xy: Floats) -> Edges:
    """The edges of all runs, through the points' places (n, 2)."""
    n = len(xy)
    is_last = np.zeros(n, bool)
    is_last[shapes.start[1:] - 1] = True
    if not shapes.is_mid.any():
        p = np.flatnonzero(~is_last)
        none = np.zeros(0, np.int64)
        return Edges(p, p + 1, shapes.start - np.arange(len(shapes.start)), none, none, xy)
    p = np.flatnonzero(~is_last & ~shapes.is_mid)
    is_arc = shapes.is_mid[p + 1]
    # A run has as many edges as vertices, less one.
    vertices = np.add.reduceat((~shapes.is_mid).astype(np.int64), shapes.start[:-1])
    start = np.concatenate([[0], np.cumsum(vertices - 1)]).astype(np.int64)
    arc = np.flatnonzero(is_arc)
    return Edges(p, p + 1 + is_arc, start, arc, p[arc] + 1, xy)


def _cross(a: Floats, b: Floats) -> Floats:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def _dot(a: Floats, b: Floats) -> Floats:
    return np.asarray(a[:, 0] * b[:, 0] + a[:, 1] * b[:, 1])


def _left(v: Floats) -> Floats:
    """Turned left by a right angle: how the direction of v changes by v, times its length squared."""
    return np.column_stack([-v[:, 1], v[:, 0]])
