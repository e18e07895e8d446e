# SPDX-License-Identifier: GPL-2.0-or-later
"""Heights along a way that was walked by its middle or by both its edges, as a chain of straights."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints, Quantity
from ..segments import Curve, bulges
from .lines import Line

UPRIGHT = 1e-9
"""Metres of run below which an edge stands upright."""


@dataclass(frozen=True)
class PointWorth:
    """One-sigma of a point's height, and of its place along each axis in plan, metres; points err independently."""

    height: float
    plan: float = 0.0


@dataclass(frozen=True, eq=False)
class Profile:
    """Heights that run evenly from one chainage to the next.

    Attributes:
        chainage: (k,) ascending, metres in plan from the start.
        corner: (k, q) the points that tell each height. weight: (k, q) how far each does.
        z: (n,) heights of the points, metres. worth: of each point.
    """

    chainage: Floats
    corner: Ints
    weight: Floats
    z: Floats
    worth: PointWorth

    @property
    def length(self) -> float:
        """In plan, metres."""
        return float(self.chainage[-1])

    @property
    def heights(self) -> Floats:
        """(k,) metres."""
        return np.asarray((self.weight * self.z[self.corner]).sum(axis=1))

    @property
    def gradients(self) -> Floats:
        """(k-1,) rise by run from a chainage to the next, positive up along the way."""
        return np.asarray(np.diff(self.heights) / np.diff(self.chainage))

    def gradient(self, start: float, end: float) -> Quantity:
        """Rise by run between two chainages, a ratio, positive up along the way."""
        rise = self.rise(start, end)
        run = end - start
        ratio = rise.value / run
        return Quantity(ratio, math.hypot(rise.sigma, ratio * self.run_sigma) / run, "ratio")

    def rise(self, start: float, end: float) -> Quantity:
        """From one chainage to another, metres. Its sigma is that of the heights; what the points' places in plan do to it
        is in the gradient's."""
        (first, by_first), (last, by_last) = self._told(start), self._told(end)
        point = np.concatenate([first, last])
        change = np.bincount(point, np.concatenate([-by_first, by_last]), len(self.z))
        return Quantity(float(change @ self.z), self.worth.height * float(np.sqrt((change**2).sum())), "m")

    @property
    def run_sigma(self) -> float:
        """One-sigma of a length in plan between two stations, metres; of the mean of two edges the same part of it."""
        share = float((self.weight**2).sum(axis=1).max())
        return self.worth.plan * math.sqrt(2.0 * share)

    def _told(self, at: float) -> tuple[Ints, Floats]:
        k = int(np.clip(np.searchsorted(self.chainage, at, side="right") - 1, 0, len(self.chainage) - 2))
        t = (at - self.chainage[k]) / (self.chainage[k + 1] - self.chainage[k])
        return (
            np.concatenate([self.corner[k], self.corner[k + 1]]),
            np.concatenate([(1.0 - t) * self.weight[k], t * self.weight[k + 1]]),
        )

    def steepest(self, window: float) -> tuple[float, float]:
        """Start and end of the steepest stretch of a length in plan (of all where it is no longer), metres.

        The rise over a stretch changes evenly as it moves between places where either end passes a chainage, so that its
        largest size is found at one of those.
        """
        if self.length <= window:
            return 0.0, self.length
        starts = np.concatenate([self.chainage, self.chainage - window])
        starts = np.unique(np.clip(starts, 0.0, self.length - window))
        rises = np.interp(starts + window, self.chainage, self.heights) - np.interp(
            starts, self.chainage, self.heights
        )
        start = float(starts[int(np.argmax(np.abs(rises)))])
        return start, min(start + window, self.length)


def profile_of(line: Line, worth: PointWorth) -> Profile:
    """Of a line with heights, arcs by their length.

    Raises:
        BadInput: heights are missing, it has no length, or it goes straight up somewhere.
    """
    along, z = heights_along(line)
    rows = np.arange(len(along))[:, None]
    return Profile(along, rows, np.ones((len(along), 1)), z, worth)


def profile_between(left: Line, right: Line, worth: PointWorth) -> Profile:
    """Of the middle between two edges with heights, which is taken at the same part of the length of each.

    Raises:
        BadInput: as for one line.
    """
    (a, za), (b, zb) = heights_along(left), heights_along(right)
    breaks = shared_breaks(a, b)
    told = [_between(breaks, v / v[-1]) for v in (a, b)]
    corner = np.hstack([told[0][0], told[1][0] + len(za)])
    weight = 0.5 * np.hstack([told[0][1], told[1][1]])
    return Profile(breaks * 0.5 * (a[-1] + b[-1]), corner, weight, np.concatenate([za, zb]), worth)


def shared_breaks(one: Floats, other: Floats) -> Floats:
    """Parts of their lengths, 0 to 1, at which either of two lines has a vertex; such as differ by rounding are one."""
    breaks = np.union1d(one / one[-1], other / other[-1])
    keep = np.concatenate([[True], np.diff(breaks) > UPRIGHT])
    breaks = breaks[keep]
    breaks[-1] = 1.0
    return np.asarray(breaks)


def _between(breaks: Floats, parts: Floats) -> tuple[Ints, Floats]:
    """(k, 2) vertices of a line beside each break, and the weight of each."""
    edge = np.clip(np.searchsorted(parts, breaks, side="right") - 1, 0, len(parts) - 2)
    t = np.clip((breaks - parts[edge]) / (parts[edge + 1] - parts[edge]), 0.0, 1.0)
    return np.column_stack([edge, edge + 1]), np.column_stack([1.0 - t, t])


def heights_along(line: Line) -> tuple[Floats, Floats]:
    """(k,) chainages of a line's vertices in plan, and (k,) their heights, metres.

    Raises:
        BadInput: heights are missing, it has no length, or it goes straight up somewhere.
    """
    if not line.has_heights:
        raise BadInput("The line has no heights, so that it has no gradient. Give each vertex one.")
    lengths = line.edges.lengths
    along = np.concatenate([[0.0], np.cumsum(lengths)])
    upright = np.flatnonzero(lengths <= UPRIGHT)
    if len(upright):
        raise BadInput(
            "The line goes straight up at {at:.2f} m along it, which has no gradient. Take its steps as steps.",
            at=float(along[upright[0]]),
        )
    return along, line.points[line.vertices, 2]


def curve_of_line(line: Line) -> Curve:
    """Its straights and arcs.

    Raises:
        BadInput: an arc goes once round.
    """
    if line.edges.arcs.is_full.any():
        raise BadInput("An edge goes once round. Draw it as two arcs.")
    return Curve(line.points[line.vertices], bulges(line.half))
