# SPDX-License-Identifier: GPL-2.0-or-later
"""What could be meant by an outline that crosses itself, each with the area it would give."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..quantity import Floats
from ..segments import Curve, ring_area
from .crossing import Crossing, find_crossing

TRIANGLE = 3
"""An outline of so few corners can lose none."""


@dataclass(frozen=True)
class Remedies:
    """Areas in m2: with the stations between the two sides in reverse order; of the two rings either side of
    the crossing; and without one corner (its number), where that alone ends the crossing."""

    reversed_area: float
    split_areas: tuple[float, float]
    dropped: int | None
    dropped_area: float


def find_remedies(curve: Curve, crossing: Crossing) -> Remedies | None:
    """The remedies for a closed outline whose two crossing edges are straights; None where one is an arc."""
    i, j = crossing.first, crossing.second
    if curve.bulge[i] or curve.bulge[j]:
        return None
    points, bulge = curve.points, curve.bulge
    at = np.array([[*crossing.at, np.nan]])
    inner, inner_bulge = points[i + 1 : j + 1], bulge[i + 1 : j]
    turned = _ring(
        [points[: i + 1], inner[::-1], points[j + 1 :]],
        [bulge[:i], [0.0], -inner_bulge[::-1], [0.0], bulge[j + 1 :]],
    )
    loop = _ring([at, inner, at], [[0.0], inner_bulge, [0.0]])
    rest = _ring([points[: i + 1], at, points[j + 1 :]], [bulge[:i], [0.0, 0.0], bulge[j + 1 :]])
    dropped, area = _without_one(curve, (j, i + 1, i, j + 1))
    areas = (abs(ring_area(loop)), abs(ring_area(rest)))
    return Remedies(abs(ring_area(turned)), areas, dropped, area)


def _ring(points: list[Floats], bulge: list[Floats | list[float]]) -> Curve:
    return Curve(np.concatenate(points), np.concatenate([np.asarray(b, float) for b in bulge]))


def _without_one(curve: Curve, corners: tuple[int, ...]) -> tuple[int | None, float]:
    """The first of some corners without which nothing crosses, and the area then; only between straights."""
    n = len(curve.bulge)
    for k in (c % n for c in corners):
        if curve.bulge[k] or curve.bulge[k - 1] or n <= TRIANGLE:
            continue
        points = np.delete(curve.points[:-1], k, axis=0)
        bulge = np.delete(curve.bulge, k)
        if k == 0:
            bulge[-1] = 0.0
        trial = Curve(np.vstack([points, points[:1]]), bulge)
        if find_crossing(trial) is None:
            return k, abs(ring_area(trial))
    return None, float("nan")
