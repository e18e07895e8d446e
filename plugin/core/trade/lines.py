# SPDX-License-Identifier: GPL-2.0-or-later
"""One line or ring on the ground, and how its figures move with the points that it was drawn through."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from ..errors import BadInput
from ..measure.layer.edges import Edges
from ..quantity import Floats, Ints

Flags = npt.NDArray[np.bool_]
ENDS = 2
"""A line has at least so many points."""


@dataclass(frozen=True, eq=False)
class Line:
    """Straights and arcs through points, metres in a plane of true metres.

    Attributes:
        points: (n, 3) vertices, and the middles of arcs; z is NaN where there is no height.
        is_mid: (n,) whether a point is the middle of the arc between its neighbours.
        seats: (n,) numbers of the points among those whose errors are known together; None where none are.
    """

    points: Floats
    is_mid: Flags
    seats: Ints | None = None

    @cached_property
    def edges(self) -> Edges:
        """Its edges in plan, about its first point."""
        p = np.flatnonzero(~self.is_mid[:-1])
        arc = np.flatnonzero(self.is_mid[p + 1])
        xy = self.points[:, :2] - self.points[0, :2]
        return Edges(p, p + 1 + self.is_mid[p + 1], np.array([0, len(p)]), arc, p[arc] + 1, xy)

    @cached_property
    def is_closed(self) -> bool:
        """Whether it ends with its first point."""
        return (
            bool(np.array_equal(self.points[0], self.points[-1], equal_nan=True)) and len(self.points) > ENDS
        )

    @cached_property
    def has_heights(self) -> bool:
        """Whether every vertex has a height."""
        return bool(np.isfinite(self.points[~self.is_mid, 2]).all())

    @cached_property
    def vertices(self) -> Ints:
        """Numbers of the points that are vertices, in order."""
        return np.flatnonzero(~self.is_mid)

    @cached_property
    def half(self) -> Floats:
        """(m,) half of each edge's sweep, radians, positive to the left; of a full circle pi."""
        out = np.zeros(len(self.edges.p))
        arcs = self.edges.arcs
        out[self.edges.arc] = np.where(arcs.is_full, np.pi, arcs.half)
        return out

    @cached_property
    def heading(self) -> Floats:
        """(m,) direction of each edge half-way along, radians anticlockwise from x."""
        out = np.arctan2(self.edges.chord[:, 1], self.edges.chord[:, 0])
        arcs = self.edges.arcs
        across = np.arctan2(arcs.u[:, 1], arcs.u[:, 0]) + 0.5 * np.pi
        out[self.edges.arc] = np.where(arcs.is_full, across, out[self.edges.arc])
        return np.asarray(out)

    @cached_property
    def corners(self) -> tuple[Ints, Ints, Floats]:
        """The corners: (k,) edge before, (k,) edge after, (k,) turn between them in radians, positive to the left. Edges
        that stand upright have no direction in plan and are passed over."""
        lying = np.flatnonzero(self.edges.lengths > 0.0)
        before, after = lying[:-1], lying[1:]
        if self.is_closed and len(lying):
            before, after = lying, np.roll(lying, -1)
        turn = (self.heading - self.half)[after] - (self.heading + self.half)[before]
        return before, after, np.asarray((turn + np.pi) % (2.0 * np.pi) - np.pi)

    def half_moves(self, weight: Floats) -> Floats:
        """(n, 2) change of the sum of half sweeps, each edge's (m,) weight counted, by metre of each point."""
        out = np.zeros((len(self.points), 2))
        arcs, edges = self.edges.arcs, self.edges
        its = np.where(arcs.is_full, 0.0, weight[edges.arc])[:, None]
        by_u, by_w = (its * _turn_of(v) for v in (arcs.u, arcs.w))
        for at, move in ((edges.p[edges.arc], by_u), (edges.mid, -by_u - by_w), (edges.q[edges.arc], by_w)):
            np.add.at(out, at, move)
        return out

    def heading_moves(self, weight: Floats) -> Floats:
        """(n, 2) the same of headings."""
        out = np.zeros((len(self.points), 2))
        by = weight[:, None] * _turn_of(self.edges.chord)
        np.add.at(out, self.edges.q, by)
        np.add.at(out, self.edges.p, -by)
        return out

    def squares(self, plan: Floats | None = None, height: Floats | None = None) -> float:
        """Sum of squares of changes by each point, (n, 2) in plan and (n,) in height: what the square of a point's
        one-sigma is multiplied by to give a figure's variance. Ends that are one point count as one."""
        total = 0.0
        for moves in (plan, height):
            if moves is None:
                continue
            own = moves.copy()
            if self.is_closed:
                own[0] += own[-1]
                own[-1] = 0.0
            total += float((own**2).sum())
        return total

    def reversed(self) -> Line:
        """From its end to its start."""
        seats = None if self.seats is None else self.seats[::-1]
        return Line(self.points[::-1], self.is_mid[::-1], seats)


def _turn_of(v: Floats) -> Floats:
    """(k, 2) change of the direction of v by v, radians a metre; none of a way of no length."""
    square = (v**2).sum(axis=1)[:, None]
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(square > 0.0, np.column_stack([-v[:, 1], v[:, 0]]) / square, 0.0)


def draw_line(points: Floats, is_mid: Flags | None = None) -> Line:
    """A line through points (n, 3), metres; repeated vertices are one.

    Raises:
        BadInput: fewer than two points, a place that is none, or an arc whose points lie on no circle.
    """
    points = np.array(points, float).reshape(-1, 3)
    is_mid = np.zeros(len(points), bool) if is_mid is None else np.asarray(is_mid, bool)
    if not np.isfinite(points[:, :2]).all():
        raise BadInput("A point of the line has no place. Draw it again.")
    same = np.zeros(len(points), bool)
    same[1:] = _same(points[1:], points[:-1]) & ~is_mid[1:] & ~is_mid[:-1]
    line = Line(points[~same], is_mid[~same])
    if len(line.points) < ENDS or line.is_mid[0] or line.is_mid[-1]:
        raise BadInput("The line has fewer than two points. Draw it through its stations.")
    if len(line.edges.arc) and (line.edges.arcs.is_impossible | (line.edges.arcs.reach == 0.0)).any():
        raise BadInput("The three points of an arc lie on no circle. Move its middle between its ends.")
    return line


def _same(a: Floats, b: Floats) -> Flags:
    return np.asarray(((a == b) | (np.isnan(a) & np.isnan(b))).all(axis=1))
