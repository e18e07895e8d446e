# SPDX-License-Identifier: GPL-2.0-or-later
"""Steps: risers and goings from stations on the nosings and at the feet of risers, and how even they are."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints, Quantity
from .lines import Line
from .worth import Moves, Worth

LANDING = 0.9
"""Metres from nosing to nosing beyond which a tread is a landing: common practice, no source."""


@dataclass(frozen=True)
class Flight:
    """Risers of one flight from the bottom up.

    Attributes:
        risers: heights from the foot of a riser to its nosing, m.
        goings: from a nosing to the next in plan, m; one fewer than risers.
        comfort: of each going, twice the riser above it and the going (2R + G), m.
        difference: the largest riser less the smallest, m; None of one riser.
    """

    risers: tuple[Quantity, ...]
    goings: tuple[Quantity, ...]
    comfort: tuple[Quantity, ...]
    difference: Quantity | None


@dataclass(frozen=True)
class Steps:
    """A stair's figures.

    Attributes:
        flights: from the bottom up. landings: the treads between them, m from nosing to nosing.
        rise: from the foot of the first riser to the last nosing, m. method: how it was come by.
    """

    flights: tuple[Flight, ...]
    landings: tuple[Quantity, ...]
    rise: Quantity
    method: str


def measure_steps(line: Line, worth: Worth, landing: float = LANDING) -> Steps:
    """Measure steps along a line with a station on each nosing and at the foot of each riser.

    An edge that rises more than it runs is a riser, or a part of one; the line may be walked up or down, and nosings may
    stand out over the feet.

    Args:
        line: with heights, metres.
        worth: one-sigma of its points.
        landing: from nosing to nosing, metres: a longer tread is a landing and parts two flights.
    Raises:
        BadInput: heights are missing, no riser, or risers both up and down.
    Source:
        2R + G: the rule of step length as the trade has it. One-sigma by propagation of the points (GUM 5.1.2): a riser and
        a going rest on two points each, two risers on four.
    """
    if not line.has_heights:
        raise BadInput("The steps have no heights. Give each nosing and each foot of a riser one.")
    if line.points[line.vertices[-1], 2] < line.points[line.vertices[0], 2]:
        line = line.reversed()
    points = line.points[line.vertices]
    ends = _risers(points)
    nosing = points[ends[:, 1]]
    way = np.diff(nosing[:, :2], axis=0)
    tread = np.hypot(*way.T)
    if (tread <= 0.0).any():
        raise BadInput("Two nosings stand over each other. Correct their places in plan.")
    stair = _Stair(line, line.vertices[ends], nosing[:, 2] - points[ends[:, 0], 2], tread, way, worth)
    parts = np.flatnonzero(tread > landing) + 1
    bounds = zip([0, *parts.tolist()], [*parts.tolist(), len(ends)])
    goings = stair.goings()
    rise = float(nosing[-1, 2] - points[ends[0, 0], 2])
    return Steps(
        tuple(_flight(stair, goings, a, b) for a, b in bounds),
        tuple(goings[k - 1] for k in parts.tolist()),
        Quantity(rise, worth.sigma(_lifted(line, stair.ends[[0], 0], stair.ends[[-1], 1])), "m"),
        f"risers from foot to nosing, goings from nosing to nosing, landings beyond {landing:g} m",
    )


@dataclass(frozen=True, eq=False)
class _Stair:
    """A line walked up: (r, 2) numbers of the foot and of the nosing of each riser, (r,) heights, (r - 1,) treads from nosing
    to nosing and (r - 1, 2) the ways along them, metres."""

    line: Line
    ends: Ints
    height: Floats
    tread: Floats
    way: Floats
    worth: Worth

    @property
    def by_riser(self) -> Moves:
        """How each riser moves."""
        return _lifted(self.line, self.ends[:, 0], self.ends[:, 1])

    @property
    def by_going(self) -> Moves:
        """How each tread moves."""
        unit = np.column_stack([self.way / self.tread[:, None], np.zeros(len(self.tread))])
        points = np.column_stack([self.ends[:-1, 1], self.ends[1:, 1]])
        return Moves(self.line, points, np.stack([-unit, unit], axis=1))

    def goings(self) -> list[Quantity]:
        """All treads."""
        return _quantities(self.tread, self.worth.variances(self.by_going))


def _risers(points: Floats) -> Ints:
    """(r, 2) rows of the foot and of the nosing of each riser, walking up."""
    run, rise = np.hypot(*np.diff(points[:, :2], axis=0).T), np.diff(points[:, 2])
    steep = np.abs(rise) > run
    if not steep.any():
        raise BadInput(
            "No edge of the steps rises more than it runs, so that there is no riser. Walk a station at the foot of each "
            "riser and one on its nosing."
        )
    if (rise[steep] < 0.0).any():
        raise BadInput(
            "The steps go up and down: after {at} stations a riser goes down. Split the line at the top.",
            at=int(np.flatnonzero(steep & (rise < 0.0))[0]) + 1,
        )
    change = np.diff(np.concatenate([[False], steep, [False]]).astype(int))
    return np.column_stack([np.flatnonzero(change == 1), np.flatnonzero(change == -1)])


def _flight(stair: _Stair, goings: list[Quantity], first: int, last: int) -> Flight:
    """Of the risers from the first to the last, which is not among them."""
    rise, run = stair.by_riser, stair.by_going
    risers, treads = slice(first, last), slice(first, last - 1)
    above = slice(first + 1, last)
    both = Moves(
        stair.line,
        np.hstack([rise.point[above], run.point[treads]]),
        np.concatenate([2.0 * rise.by[above], run.by[treads]], axis=1),
    )
    height = stair.height[risers]
    return Flight(
        tuple(
            _quantities(height, stair.worth.variances(Moves(stair.line, rise.point[risers], rise.by[risers])))
        ),
        tuple(goings[treads]),
        tuple(_quantities(2.0 * height[1:] + stair.tread[treads], stair.worth.variances(both))),
        _difference(stair, rise, first, height) if len(height) > 1 else None,
    )


def _difference(stair: _Stair, rise: Moves, first: int, height: Floats) -> Quantity:
    """The largest riser less the smallest."""
    most, least = first + int(np.argmax(height)), first + int(np.argmin(height))
    points = np.concatenate([rise.point[most], rise.point[least]])[None]
    by = np.concatenate([rise.by[most], -rise.by[least]])[None]
    return Quantity(float(np.ptp(height)), stair.worth.sigma(Moves(stair.line, points, by)), "m")


def _lifted(line: Line, low: Ints, high: Ints) -> Moves:
    """How heights of points (r,) above others move."""
    by = np.zeros((len(low), 2, 3))
    by[:, 0, 2], by[:, 1, 2] = -1.0, 1.0
    return Moves(line, np.column_stack([low, high]), by)


def _quantities(values: Floats, variances: Floats) -> list[Quantity]:
    return [Quantity(v, s, "m") for v, s in zip(values.tolist(), np.sqrt(variances).tolist())]
