# SPDX-License-Identifier: GPL-2.0-or-later
"""The sides of an outline, corner to corner: a station on the straight between its neighbours is a pass."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ..quantity import Floats
from .arcs import IN_LINE, IN_LINE_SIGMAS, off_line
from .records import DrawnLeg, LegShape
from .spread import Spread

RADIAL = math.sqrt(2.0)
"""The sigma of a place is radial (both axes together), as a misclosure's is. With the lateral one alone each
twentieth pass of a clean walk would break a straight side in two (Why 8)."""


def find_sides(legs: Sequence[DrawnLeg], spread: Spread, *, closed: bool) -> tuple[tuple[int, ...], ...]:
    """The legs of each side in order of walking. Straights run on through a pass, unless the pass names an
    item of its own; an arc, an as-walked run or a piece fitted to one is a side for itself. The first side of a closed outline
    starts at its first corner."""
    n = len(legs)
    if not n:
        return ()
    joins = [_runs_on(legs[k], legs[(k + 1) % n], spread) for k in range(n if closed else n - 1)]
    if not closed:
        joins.append(False)
    start = next((k + 1 for k in range(n - 1, -1, -1) if not joins[k]), 0) % n
    sides: list[list[int]] = [[]]
    for k in (*range(start, n), *range(start)):
        sides[-1].append(k)
        if not joins[k]:
            sides.append([])
    return _in_order([side for side in sides if side])


def _in_order(sides: list[list[int]]) -> tuple[tuple[int, ...], ...]:
    """The side that holds the first leg comes first."""
    first = next(i for i, side in enumerate(sides) if 0 in side)
    return tuple(tuple(side) for side in (*sides[first:], *sides[:first]))


def _runs_on(leg: DrawnLeg, after: DrawnLeg, spread: Spread) -> bool:
    """Whether the station between two legs is a pass."""
    plain = (each.shape is LegShape.STRAIGHT and each.fit is None for each in (leg, after))
    if leg is after or not all(plain):
        return False
    # Where an outline was split at its crossing there is no station, but a corner.
    if (
        leg.item not in ("", after.item)
        or leg.start == after.end
        or not (leg.start and leg.end and after.end)
    ):
        return False
    stations = (leg.start, leg.end, after.end)
    a, b, c = (_place(rows, spread) for rows in stations)
    chord, rel = (c[0] - a[0], c[1] - a[1]), (b[0] - a[0], b[1] - a[1])
    length = math.hypot(*chord)
    along = rel[0] * chord[0] + rel[1] * chord[1]
    if not 0.0 < along < length * length:
        return False
    off = abs(chord[0] * rel[1] - chord[1] * rel[0]) / length
    if off <= IN_LINE:
        return True
    # No distance from a straight is less certain than twice the least certain station: most corners end here.
    if off > 2.0 * RADIAL * IN_LINE_SIGMAS * spread.largest:
        return False
    _, _, by = off_line(np.array([a, b, c]))
    return off <= RADIAL * IN_LINE_SIGMAS * _sigma(stations, by, spread)


def _place(rows: tuple[int, ...], spread: Spread) -> tuple[float, float]:
    xy = spread.positions.xy
    x, y = (sum(float(xy[row, k]) for row in rows) / len(rows) for k in (0, 1))
    return x, y


def _sigma(stations: Sequence[tuple[int, ...]], by: Floats, spread: Spread) -> float:
    rows = [row for group in stations for row in group]
    each = [by[:, k : k + 1] / len(group) for k, group in enumerate(stations) for _ in group]
    return float(spread.sigmas(rows, np.concatenate(each, axis=1))[0])
