# SPDX-License-Identifier: GPL-2.0-or-later
"""What points are worth: each by itself, or as those of a survey err together; and the variance of any figure that
moves with them.

Source: propagation of covariance, var = g' C g (GUM, JCGM 100:2008, 5.2.2), with C = diag(own^2) + sum of s s' over the
errors s that the stations have in common, so that var = sum of (own g)^2 + sum of (g . s)^2.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Union

import numpy as np

from ..quantity import Floats, Ints
from .lines import Line

BLOCK = 2_000
"""Figures at once."""
FEW = 10_000
"""Points by figures that are held in one table."""


@dataclass(frozen=True, eq=False)
class Moves:
    """How f figures move with some points of a line.

    Attributes:
        line: whose points they are.
        point: (f, q) numbers of points; one that stands there twice counts twice.
        by: (f, q, 3) change of the figure by metre of the point in x, y and height.
    """

    line: Line
    point: Ints
    by: Floats


def moves_of(line: Line, plan: Floats | None = None, height: Floats | None = None) -> Moves:
    """How one figure moves with all points of a line, (n, 2) or (n, 3) in plan and space and (n,) in height."""
    by = np.zeros((1, len(line.points), 3))
    if plan is not None:
        by[0, :, : plan.shape[1]] += plan
    if height is not None:
        by[0, :, 2] += height
    return Moves(line, np.arange(len(line.points))[None], by)


@dataclass(frozen=True)
class PointWorth:
    """One-sigma of a point's height, and of its place along each axis in plan, metres; points err independently."""

    height: float
    plan: float = 0.0

    def variances(self, *moves: Moves) -> Floats:
        """(f,) variances of figures, given how they move with the points of each line. Ends of a line that are one point
        count as one."""
        items, first = [], 0
        for move in moves:
            last = len(move.line.points) - 1
            own = np.where((move.point == last) & move.line.is_closed, 0, move.point)
            items.append(own + first)
            first += last + 1
        item, by = np.hstack(items), np.concatenate([move.by for move in moves], axis=1)
        squares, count = np.array([self.plan, self.plan, self.height]) ** 2, len(item)
        if count * first > FEW:
            figure, _, total = _gathered(item, by)
            return np.asarray(np.bincount(figure, (total**2) @ squares, count), float)
        # A row a figure and a column a point: for few of them no sorting is as fast.
        key = (np.arange(count)[:, None] * first + item).ravel()
        x, y, z = (np.bincount(key, by[..., k].ravel(), count * first) for k in range(3))
        each = squares[0] * (x * x + y * y) + squares[2] * (z * z)
        return np.asarray(each.reshape(count, first).sum(axis=1))

    def sigma(self, *moves: Moves) -> float:
        """One-sigma of a single figure."""
        return float(np.sqrt(self.variances(*moves)[0]))


@dataclass(frozen=True, eq=False)
class JointWorth:
    """What s points of a survey err by themselves and together, metres; lines say which of them their points are.

    Attributes:
        own: (s, 2) one-sigma by axis in plan, and in height, of each one's own error.
        plan: (s, k, 2), height: (s, j): what each moves by with one sigma of each error that they have in common; errors in
            plan and in height have nothing to do with each other.
    """

    own: Floats
    plan: Floats
    height: Floats

    def variances(self, *moves: Moves) -> Floats:
        """(f,) variances of figures, given how they move with the points of each line, all of which have `seats`."""
        blocks = []
        for first in range(0, len(moves[0].point), BLOCK):
            rows = slice(first, first + BLOCK)
            blocks.append(self._block([Moves(m.line, m.point[rows], m.by[rows]) for m in moves]))
        return np.concatenate(blocks) if blocks else np.zeros(0)

    def sigma(self, *moves: Moves) -> float:
        """One-sigma of a single figure."""
        return float(np.sqrt(self.variances(*moves)[0]))

    def _block(self, moves: list[Moves]) -> Floats:
        count, seats = len(moves[0].point), []
        for move in moves:
            assert move.line.seats is not None  # noqa: S101 - a survey's lines are given theirs as they are read
            seats.append(move.line.seats[move.point])
        figure, at, total = _gathered(np.hstack(seats), np.concatenate([m.by for m in moves], axis=1))
        own = np.bincount(figure, ((total * self.own[at][:, [0, 0, 1]]) ** 2).sum(axis=1), count)
        plan, height = np.zeros((count, self.plan.shape[1])), np.zeros((count, self.height.shape[1]))
        np.add.at(plan, figure, np.einsum("ia,ika->ik", total[:, :2], self.plan[at]))
        np.add.at(height, figure, total[:, 2:] * self.height[at])
        return np.asarray(own + (plan**2).sum(axis=1) + (height**2).sum(axis=1))


Worth = Union[PointWorth, JointWorth]


def worth_of(told: float | Worth) -> Worth:
    """A bare number is the one-sigma of a point along each axis and in height, metres."""
    return told if isinstance(told, (PointWorth, JointWorth)) else PointWorth(told, told)


def _gathered(item: Ints, by: Floats) -> tuple[Ints, Ints, Floats]:
    """Changes (f, q, 3) by items (f, q), those of one figure by one item added up: (i,) figures, (i,) items, (i, 3)."""
    count, wide = len(item), int(item.max(initial=0)) + 1
    key = (np.arange(count)[:, None] * wide + item).ravel()
    there, place = np.unique(key, return_inverse=True)
    total = np.stack([np.bincount(place, by[..., k].ravel(), len(there)) for k in range(3)], axis=1)
    return there // wide, there % wide, np.asarray(total, float)
