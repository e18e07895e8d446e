# SPDX-License-Identifier: GPL-2.0-or-later
"""Stations at an interval along a baseline of straights and arcs, and the lines across it there."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..errors import BadInput, TooFewPoints
from ..quantity import Floats
from ..segments import STRAIGHT, Curve, edge_lengths, half_sweeps
from .surface import Flags

MOST_STATIONS = 100_000
"""Nobody reads so many; more come from an interval in another unit."""
SAME_STATION = 1e-6
"""Of the interval: a last station this near to the end is the end."""


@dataclass(frozen=True, eq=False)
class BaseStations:
    """Places along a baseline.

    Attributes:
        baseline: that they are on.
        chainage: (k,) metres along it. place: (k, 2) metres in the survey plane.
        direction: (k, 2) unit, ahead. At a corner it is that of the edge that begins there, at the end that of the last.
        radius: (k,) of the baseline there, metres, positive where it turns left; infinite on a straight.
    """

    chainage: Floats
    place: Floats
    direction: Floats
    radius: Floats
    baseline: Curve


def stations_along(baseline: Curve, interval: float) -> BaseStations:
    """Stations from the start of a baseline on, and one at its end.

    Args:
        baseline: straights and arcs, metres; chainage runs along the arcs themselves.
        interval: between stations, metres.
    Raises:
        BadInput: the interval is none, or makes more than MOST_STATIONS.
        TooFewPoints: the baseline has no length.
    """
    lengths = edge_lengths(baseline)
    begin = np.concatenate([[0.0], np.cumsum(lengths)])
    if not np.isfinite(begin).all() or not begin[-1] > 0.0:
        raise TooFewPoints("A baseline needs two different points. Draw it from one place to another.")
    if not 0.0 < interval < np.inf or begin[-1] / interval > MOST_STATIONS:
        raise BadInput(
            "An interval of {interval:g} m along a baseline of {length:.3f} m cannot be stationed. Give one that makes "
            "no more than {most} stations.",
            interval=interval,
            length=begin[-1],
            most=MOST_STATIONS,
        )
    whole = int(np.floor(begin[-1] / interval * (1.0 - SAME_STATION)))
    return places_on(baseline, np.concatenate([np.arange(whole + 1) * interval, begin[-1:]]))


def places_on(baseline: Curve, chainage: Floats) -> BaseStations:
    """Places at (k,) chainages along a baseline, metres; its ends beyond them.

    The part f of an arc of half sweep a lies at chord * sin(f a) / sin(a) from its start, turned (1 - f) a to the right of
    the chord, and goes on turned (1 - 2 f) a to the right of it.
    """
    lengths = edge_lengths(baseline)
    begin = np.concatenate([[0.0], np.cumsum(lengths)])
    edge = np.searchsorted(begin, chainage, side="right") - 1
    solid = np.flatnonzero(lengths > 0.0)
    edge = solid[np.maximum(np.searchsorted(solid, edge, side="right") - 1, 0)]
    part = np.minimum(np.maximum((chainage - begin[edge]) / lengths[edge], 0.0), 1.0)
    half = half_sweeps(baseline.bulge)[edge]
    start = baseline.points[edge, :2]
    chord = baseline.points[edge + 1, :2] - start
    is_flat = np.abs(half) < STRAIGHT
    sine = np.where(is_flat, 1.0, np.sin(half))
    reach = np.where(is_flat, part, np.sin(part * half) / sine)
    size = np.hypot(*chord.T)
    radius = np.where(is_flat, np.inf, 0.5 * size / sine)
    return BaseStations(
        np.asarray(chainage, float),
        start + reach[:, None] * _turned(chord, (part - 1.0) * half),
        _turned(chord / size[:, None], (2.0 * part - 1.0) * half),
        radius,
        baseline,
    )


def middles_between(stations: BaseStations) -> BaseStations:
    """The (k-1,) stations half way between stations and the next."""
    return places_on(stations.baseline, 0.5 * (stations.chainage[1:] + stations.chainage[:-1]))


def _turned(vector: Floats, angle: Floats) -> Floats:
    if not angle.any():
        return vector
    cos, sin = np.cos(angle), np.sin(angle)
    return np.column_stack([cos * vector[:, 0] - sin * vector[:, 1], sin * vector[:, 0] + cos * vector[:, 1]])


def cross_lines(stations: BaseStations, left: float, right: float) -> Floats:
    """(k, 2, 2) the lines square to the baseline, from left to right looking along it; widths in metres.

    Raises:
        BadInput: a width is negative or endless, or both are 0.
    """
    if not (0.0 <= left < np.inf and 0.0 <= right < np.inf and left + right > 0.0):
        raise BadInput(
            "Widths of {left:g} m to the left and {right:g} m to the right make no section. Give widths of 0 or more, one "
            "of them more than 0.",
            left=left,
            right=right,
        )
    across = np.column_stack([-stations.direction[:, 1], stations.direction[:, 0]])
    return np.stack([stations.place + left * across, stations.place - right * across], axis=1)


def crossing_neighbours(lines: Floats) -> Flags:
    """(k-1,) whether a line across meets the next one: the inside of a bend is then counted twice.

    Args:
        lines: (k, 2, 2) as `cross_lines` makes them, metres.
    """
    return _cross(lines[:-1], lines[1:])


def any_crossing(lines: Floats) -> bool:
    """Whether any two of the lines (k, 2, 2) cross, metres."""
    return any(
        bool(_cross(np.broadcast_to(line, lines[k + 1 :].shape), lines[k + 1 :]).any())
        for k, line in enumerate(lines[:-1])
    )


def _cross(a: Floats, b: Floats) -> Flags:
    """(k,) whether lines (k, 2, 2) cross others, each in its inside."""

    def sides(of: Floats, line: Floats) -> Floats:
        way = line[:, 1] - line[:, 0]
        to = of - line[:, :1]
        return np.asarray(way[:, None, 0] * to[:, :, 1] - way[:, None, 1] * to[:, :, 0])

    one, other = sides(b, a), sides(a, b)
    return np.asarray((one[:, 0] * one[:, 1] < 0.0) & (other[:, 0] * other[:, 1] < 0.0))
