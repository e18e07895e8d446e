# SPDX-License-Identifier: GPL-2.0-or-later
"""Heights along a way that was walked by its middle or by both its edges, as a chain of straights."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints, Quantity
from ..segments import Curve, bulges
from .lines import Line
from .worth import Moves, Worth

UPRIGHT = 1e-9
"""Metres of run below which an edge stands upright."""
EVEN = 1e-9
"""Metres of rise by which one stretch is no steeper than another."""
AT_ONCE = 1 << 20
"""Points by figures of which it is told at once how they move."""


@dataclass(frozen=True, eq=False)
class Ways:
    """Ways along a profile, (f,) each, metres.

    Attributes:
        rises: positive up along the way. rise_sigmas: by the heights alone.
        runs: in plan. run_sigmas: one-sigma of these.
    """

    rises: Floats
    rise_sigmas: Floats
    runs: Floats
    run_sigmas: Floats

    def rise(self, k: int) -> Quantity:
        """Of one of them, metres."""
        return Quantity(float(self.rises[k]), float(self.rise_sigmas[k]), "m")

    def run(self, k: int) -> Quantity:
        """Of one of them, metres in plan."""
        return Quantity(float(self.runs[k]), float(self.run_sigmas[k]), "m")

    def gradient(self, k: int) -> Quantity:
        """Rise by run of one of them, a ratio, positive up along the way."""
        run = float(self.runs[k])
        ratio = float(self.rises[k]) / run
        sigma = math.hypot(float(self.rise_sigmas[k]), ratio * float(self.run_sigmas[k])) / run
        return Quantity(ratio, sigma, "ratio")


@dataclass(frozen=True, eq=False)
class Profile:
    """Heights that run evenly from one chainage to the next.

    Attributes:
        chainage: (k,) ascending, metres in plan from the start.
        corner: (k, q) the vertices of the lines, one line after the other, that tell each height. weight: (k, q) how far
            each does.
        z: (n,) heights of the vertices, metres.
        lines: along or between which it runs. worth: of their points. whole: its length, metres.
    """

    chainage: Floats
    corner: Ints
    weight: Floats
    z: Floats
    lines: tuple[Line, ...]
    worth: Worth
    whole: float

    @property
    def length(self) -> float:
        """In plan, metres."""
        return float(self.chainage[-1])

    @cached_property
    def heights(self) -> Floats:
        """(k,) metres."""
        return np.asarray((self.weight * self.z[self.corner]).sum(axis=1))

    @property
    def gradients(self) -> Floats:
        """(k-1,) rise by run from a chainage to the next, positive up along the way."""
        z, at = self.heights, self.chainage
        return np.asarray((z[1:] - z[:-1]) / (at[1:] - at[:-1]))

    def gradient(self, start: float, end: float) -> Quantity:
        """Rise by run between two chainages, a ratio, positive up along the way."""
        return self.between(np.array([start]), np.array([end])).gradient(0)

    def rise(self, start: float, end: float) -> Quantity:
        """From one chainage to another, metres. Its sigma is that of the heights; what the points' places in plan do to it
        is in the gradient's."""
        return self.between(np.array([start]), np.array([end])).rise(0)

    def between(self, start: Floats, end: Floats) -> Ways:
        """The ways from chainages (f,) to others (f,), metres, all at once."""
        first, last = self._told(start), self._told(end)
        point = np.concatenate([first[0], last[0]], axis=1)
        by = np.concatenate([-first[1], last[1]], axis=1)
        share = self.corner.shape[1] // len(self.lines)
        lifts, begin = [], 0
        for number, line in enumerate(self.lines):
            columns = [
                c for c in range(point.shape[1]) if c // share % len(self.lines) == number
            ]  # the corners of one line after those of another
            its = by[:, columns]
            moves = np.zeros((*its.shape, 3))
            moves[..., 2] = its
            lifts.append(Moves(line, line.vertices[point[:, columns] - begin], moves))
            begin += len(line.vertices)
        rise = (by * self.z[point]).sum(axis=1)
        return Ways(rise, np.sqrt(self.worth.variances(*lifts)), end - start, self._run_sigmas(start, end))

    def _run_sigmas(self, start: Floats, end: Floats) -> Floats:
        """(f,) one-sigma of the lengths in plan between chainages (f,), metres: both ends go with the edges that they lie
        on."""
        block = max(1, AT_ONCE // sum(len(line.points) for line in self.lines))
        out = []
        for k in range(0, len(start), block):
            ends = np.stack([start[k : k + block], end[k : k + block]]) / self.whole
            out.append(self.worth.variances(*(self._stretched(line, ends) for line in self.lines)))
        return np.sqrt(np.concatenate(out))

    def _stretched(self, line: Line, ends: Floats) -> Moves:
        """How lengths between parts of a line (2, f), start and end, move with its points."""
        lengths = line.edges.lengths
        begin = np.cumsum(lengths) - lengths
        upto = (ends[..., None] * lengths.sum() - begin) / lengths
        upto = np.minimum(np.maximum(upto, 0.0), 1.0)
        by = np.zeros((ends.shape[1], len(line.points), 3))
        by[..., :2] = line.edges.length_moves((upto[1] - upto[0]) / len(self.lines))
        return Moves(line, np.broadcast_to(np.arange(len(line.points)), by.shape[:2]), by)

    def _told(self, at: Floats) -> tuple[Ints, Floats]:
        """(f, 2 q) vertices that tell the heights at chainages (f,), and how far each does."""
        k = np.searchsorted(self.chainage, at, side="right") - 1
        k = np.minimum(np.maximum(k, 0), len(self.chainage) - 2)
        t = ((at - self.chainage[k]) / (self.chainage[k + 1] - self.chainage[k]))[:, None]
        return (
            np.concatenate([self.corner[k], self.corner[k + 1]], axis=1),
            np.concatenate([(1.0 - t) * self.weight[k], t * self.weight[k + 1]], axis=1),
        )

    def steepest(self, window: float) -> tuple[float, float]:
        """Start and end of the steepest stretch of a length in plan (of all where it is no longer), metres."""
        start, end = self.steepest_within(window, [(0.0, self.length)])[0].tolist()
        return start, end

    def steepest_within(self, window: float, ends: Sequence[tuple[float, float]]) -> Floats:
        """(f, 2) the same between ends (f, 2) that are chainages of the profile.

        The rise over a stretch changes evenly as it moves between places where either end passes a chainage, so that its
        largest size is found at one of those. Of several that are as steep, but for rounding, the first.
        """
        starts = np.sort(np.concatenate([self.chainage, self.chainage - window]))
        heights, out = self.heights, np.array(ends, float)
        low, high = (np.interp(at, self.chainage, heights) for at in (starts, starts + window))
        rises = np.abs(high - low)
        first = np.searchsorted(starts, out[:, 0])
        last = np.searchsorted(starts, out[:, 1] - window, side="right")
        for k in np.flatnonzero(out[:, 1] - out[:, 0] > window).tolist():
            own = rises[first[k] : last[k]]
            start = float(starts[first[k] + int((own >= own.max() - EVEN).argmax())])
            out[k] = start, min(start + window, out[k, 1])
        return out


def profile_of(line: Line, worth: Worth) -> Profile:
    """Of a line with heights, arcs by their length.

    Raises:
        BadInput: heights are missing, it has no length, or it goes straight up somewhere.
    """
    along, z = heights_along(line)
    rows = np.arange(len(along))[:, None]
    return Profile(along, rows, np.ones((len(along), 1)), z, (line,), worth, float(along[-1]))


def profile_between(left: Line, right: Line, worth: Worth) -> Profile:
    """Of the middle between two edges with heights, which is taken at the same part of the length of each.

    Raises:
        BadInput: as for one line.
    """
    (a, za), (b, zb) = heights_along(left), heights_along(right)
    breaks = shared_breaks(a, b)
    told = [_between(breaks, v / v[-1]) for v in (a, b)]
    corner = np.concatenate([told[0][0], told[1][0] + len(za)], axis=1)
    weight = 0.5 * np.concatenate([told[0][1], told[1][1]], axis=1)
    whole = 0.5 * float(a[-1] + b[-1])
    heights = np.concatenate([za, zb])
    return Profile(breaks * whole, corner, weight, heights, (left, right), worth, whole)


def shared_breaks(one: Floats, other: Floats) -> Floats:
    """Parts of their lengths, 0 to 1, at which either of two lines has a vertex; such as differ by rounding are one."""
    breaks = np.sort(np.concatenate([one / one[-1], other / other[-1]]))
    keep = np.ones(len(breaks), bool)
    keep[1:] = breaks[1:] - breaks[:-1] > UPRIGHT
    breaks = breaks[keep]
    breaks[-1] = 1.0
    return np.asarray(breaks)


def _between(breaks: Floats, parts: Floats) -> tuple[Ints, Floats]:
    """(k, 2) vertices of a line beside each break, and the weight of each."""
    edge = np.minimum(np.maximum(np.searchsorted(parts, breaks, side="right") - 1, 0), len(parts) - 2)
    t = np.minimum(np.maximum((breaks - parts[edge]) / (parts[edge + 1] - parts[edge]), 0.0), 1.0)
    return np.stack([edge, edge + 1], axis=1), np.stack([1.0 - t, t], axis=1)


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
