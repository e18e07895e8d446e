# SPDX-License-Identifier: GPL-2.0-or-later
"""Arcs in space: in plan, in a vertical or a tilted plane, each the circle through its three points."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from ..segments import STRAIGHT, length_factor
from .lines import Line

FULL = 1e-9
"""Of the way to its middle: an arc whose ends lie closer than this is a whole circle, whose plane nothing tells."""
STEP = 1e-5
"""Metres: half the step of central differences of places on arcs; what they leave is below 1e-9 of a metre a metre."""


class SpaceEdges:
    """The edges of a line in space, (m,), from p to q: straights, and arcs through their middles.

    The half sweep a of an arc is the turn at its middle between the ways to it and from it (Euclid III.20), its length
    chord * a / sin a: no centre is needed, so flat arcs lose nothing.
    """

    def __init__(self, line: Line) -> None:
        """Of a line whose points all have heights (a missing one counts as level).

        Raises:
            BadInput: a whole circle drawn as one arc.
        """
        plan = line.edges
        self.p, self.q, self.arc, self.mid = plan.p, plan.q, plan.arc, plan.mid
        self.xyz: Floats = np.nan_to_num(line.points - line.points[0])
        u, w = (
            self.xyz[self.mid] - self.xyz[self.p[self.arc]],
            self.xyz[self.q[self.arc]] - self.xyz[self.mid],
        )
        if (_size(u + w) <= FULL * _size(u)).any():
            raise BadInput("A whole circle is drawn as one arc, whose plane is unknown. Draw it as two arcs.")
        self._u, self._w = u, w
        self.chord = self.xyz[self.q] - self.xyz[self.p]

    @cached_property
    def half(self) -> Floats:
        """(k,) of each arc half the sweep, radians, 0 to pi."""
        return np.asarray(np.arctan2(_size(np.cross(self._u, self._w)), (self._u * self._w).sum(axis=1)))

    @cached_property
    def lengths(self) -> Floats:
        """(m,) metres."""
        out = _size(self.chord)
        out[self.arc] *= length_factor(self.half)[0]
        return out

    @cached_property
    def moves(self) -> Floats:
        """(n, 3) change of the whole length by metre of each point."""
        size = _size(self.chord)
        with np.errstate(divide="ignore", invalid="ignore"):
            along = np.where(size[:, None] > 0.0, self.chord / size[:, None], 0.0)
        factor, slope = length_factor(self.half)
        along[self.arc] *= factor[:, None]
        out = np.zeros_like(self.xyz)
        np.add.at(out, self.q, along)
        np.add.at(out, self.p, -along)
        by = (size[self.arc] * slope)[:, None]
        by_u, by_w = self._turns
        for at, move in (
            (self.p[self.arc], -by * by_u),
            (self.mid, by * (by_u - by_w)),
            (self.q[self.arc], by * by_w),
        ):
            np.add.at(out, at, move)
        return out

    @property
    def _turns(self) -> tuple[Floats, Floats]:
        """Change of half the sweep by the ways u and w, (k, 3) each: square to each in the arc's plane, by its length."""
        across = np.cross(self._u, self._w)
        size = _size(across)[:, None]
        with np.errstate(divide="ignore", invalid="ignore"):
            normal = np.where(size > 0.0, across / size, 0.0)
            u2, w2 = ((v**2).sum(axis=1)[:, None] for v in (self._u, self._w))
            return np.nan_to_num(np.cross(self._u, normal) / u2), np.nan_to_num(
                np.cross(normal, self._w) / w2
            )

    def places(self, edge: Ints, part: Floats) -> Floats:
        """(n, 3) places at a part from 0 to 1 of the length of some edges (n,), metres from the line's first point."""
        a, b = self.xyz[self.p[edge]], self.xyz[self.q[edge]]
        out = a + part[:, None] * (b - a)
        is_arc, which = self._arcs_among(edge)
        if is_arc.any():
            out[is_arc] = arc_places(a[is_arc], self.xyz[self.mid[which]], b[is_arc], part[is_arc])
        return np.asarray(out)

    def _arcs_among(self, edge: Ints) -> tuple[np.ndarray[tuple[int], np.dtype[np.bool_]], Ints]:
        number = np.full(len(self.p), -1)
        number[self.arc] = np.arange(len(self.arc))
        its = number[edge]
        return its >= 0, its[its >= 0]

    def place_moves(self, edge: Ints, part: Floats, pull: Floats) -> Floats:
        """(n, 3) change of the sum of places (i, 3), each drawn by pull (i, 3), by metre of each point of the line."""
        out = np.zeros_like(self.xyz)
        is_arc, which = self._arcs_among(edge)
        straight = ~is_arc
        t = part[straight, None]
        np.add.at(out, self.p[edge[straight]], (1.0 - t) * pull[straight])
        np.add.at(out, self.q[edge[straight]], t * pull[straight])
        if is_arc.any():
            ends = (self.p[edge[is_arc]], self.mid[which], self.q[edge[is_arc]])
            three = np.stack([self.xyz[k] for k in ends])
            for point in range(3):
                for axis in range(3):
                    step = np.zeros((3, 1, 3))
                    step[point, 0, axis] = STEP
                    change = _threaded(three + step, part[is_arc]) - _threaded(three - step, part[is_arc])
                    np.add.at(out[:, axis], ends[point], (change * pull[is_arc]).sum(axis=1) / (2.0 * STEP))
        return out


def _threaded(three: Floats, part: Floats) -> Floats:
    return arc_places(three[0], three[1], three[2], part)


def arc_places(a: Floats, m: Floats, b: Floats, part: Floats) -> Floats:
    """(n, 3) places at a part of arcs from a through m to b, (n, 3) each.

    At part f of an arc of half sweep h a point lies chord * sin(f h)/sin(h) from the start, turned by (1 - f) h off the
    chord to the arc's side.
    """
    chord, u, w = b - a, m - a, b - m
    across = np.cross(u, w)
    half = np.arctan2(_size(across), (u * w).sum(axis=1))
    flat = half < STRAIGHT
    below = np.where(flat, 1.0, np.sin(half))
    reach = np.where(flat, part, np.sin(part * half) / below)
    turn = (1.0 - part) * half
    size = _size(across)[:, None]
    with np.errstate(divide="ignore", invalid="ignore"):
        normal = np.where(size > 0.0, across / size, 0.0)
    side = np.cross(chord, normal)
    out = a + reach[:, None] * (np.cos(turn)[:, None] * chord + np.sin(turn)[:, None] * side)
    return np.asarray(out)


def _size(v: Floats) -> Floats:
    return np.asarray(np.sqrt((v**2).sum(axis=1)))
