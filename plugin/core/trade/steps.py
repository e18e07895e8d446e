# SPDX-License-Identifier: GPL-2.0-or-later
"""Steps: risers and goings from stations on the nosings and at the feet of risers, and how even they are."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints, Quantity
from .lines import Line
from .profiles import PointWorth

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


def measure_steps(line: Line, worth: PointWorth, landing: float = LANDING) -> Steps:
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
    points = line.points[line.vertices]
    if points[-1, 2] < points[0, 2]:
        points = points[::-1]
    ends = _risers(points)
    nosing = points[ends[:, 1]]
    height = nosing[:, 2] - points[ends[:, 0], 2]
    tread = np.hypot(*np.diff(nosing[:, :2], axis=0).T)
    if (tread <= 0.0).any():
        raise BadInput("Two nosings stand over each other. Correct their places in plan.")
    parts = np.flatnonzero(tread > landing) + 1
    flights = [
        _flight(height[a:b], tread[a : b - 1], worth)
        for a, b in zip([0, *parts.tolist()], [*parts.tolist(), len(height)])
    ]
    return Steps(
        tuple(flights),
        tuple(_going(float(t), worth) for t in tread[parts - 1]),
        Quantity(float(nosing[-1, 2] - points[ends[0, 0], 2]), math.sqrt(2.0) * worth.height, "m"),
        f"risers from foot to nosing, goings from nosing to nosing, landings beyond {landing:g} m",
    )


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


def _flight(height: Floats, tread: Floats, worth: PointWorth) -> Flight:
    root = math.sqrt(2.0)
    both = math.hypot(2.0 * root * worth.height, root * worth.plan)
    return Flight(
        tuple(Quantity(float(h), root * worth.height, "m") for h in height),
        tuple(_going(float(t), worth) for t in tread),
        tuple(Quantity(2.0 * float(h) + float(t), both, "m") for h, t in zip(height[1:], tread)),
        Quantity(float(np.ptp(height)), 2.0 * worth.height, "m") if len(height) > 1 else None,
    )


def _going(length: float, worth: PointWorth) -> Quantity:
    return Quantity(length, math.sqrt(2.0) * worth.plan, "m")
