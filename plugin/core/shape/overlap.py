# SPDX-License-Identifier: GPL-2.0-or-later
"""Where two outlines cover the same ground by more than touching."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..errors import MissingLibrary
from ..positions import Positions
from ..quantity import Floats
from .records import Shape

if TYPE_CHECKING:
    from shapely.geometry import Polygon
    from shapely.geometry.base import BaseGeometry

MOSTLY = 0.5
"""Of the smaller of two outlines: more than this part of it in the other is no touching, however little the
stations can be trusted."""

Limit = Callable[[tuple[float, float]], float]


@dataclass(frozen=True)
class Overlap:
    """What two outlines both cover: m2 (arcs as their chords), and a place in the widest part of it."""

    area: float
    at: tuple[float, float]


def find_overlap(one: Floats, other: Floats, limit: Limit, holes: Sequence[Floats] = ()) -> Overlap | None:
    """What two closed rings (n, 2) share outside of some holes, None where they only touch.

    They only touch where what they share is nowhere wider than `limit` (metres, asked for at a place in it) and is
    less than half of the smaller ring: two outlines of one shared edge lie over each other by a strip as wide as
    their stations are uncertain.
    """
    origin = one[0]
    first, second = _polygon(one - origin), _polygon(other - origin)
    shared = first.intersection(second)
    for hole in holes:
        shared = shared.difference(_polygon(hole - origin))
    if not shared.area:
        return None
    is_mostly = shared.area > MOSTLY * min(first.area, second.area)
    for part in _parts(shared):
        inside = part.representative_point()
        at = (float(inside.x + origin[0]), float(inside.y + origin[1]))
        # What is left after half the limit is taken off all round was wider than the limit.
        if is_mostly or not part.buffer(-0.5 * limit(at)).is_empty:
            return Overlap(float(shared.area), at)
    return None


def radial_sigma(one: Shape, other: Shape, at: tuple[float, float], positions: Positions) -> float:
    """Radial one-sigma of the two stations nearest to a place, against each other, metres."""
    rows = [int(s.rows[np.argmin(np.hypot(*(positions.xy[s.rows] - at).T))]) for s in (one, other)]
    c = positions.plan_covariance(np.array(rows, dtype=np.int64))
    trace = sum(c[0, k, 0, k] + c[1, k, 1, k] - 2.0 * c[0, k, 1, k] for k in (0, 1))
    return float(np.sqrt(max(trace, 0.0)))


def _polygon(ring: Floats) -> BaseGeometry:
    """The ring's ground; of one that crosses itself, the ground it goes round.

    Raises:
        MissingLibrary: shapely is not installed.
    """
    try:
        from shapely.geometry import Polygon  # a library of its own weight: at first use
        from shapely.validation import make_valid
    except ImportError as error:
        raise MissingLibrary(
            "Two holes of one area may overlap, and telling that needs the library {library}, which is not installed.",
            library="shapely",
        ) from error

    polygon = Polygon(ring)
    return polygon if polygon.is_valid else make_valid(polygon)


def _parts(shared: BaseGeometry) -> Iterator[Polygon]:
    """The polygons of what is shared, the largest first; lines and points are mere touching."""
    found = [part for part in getattr(shared, "geoms", (shared,)) if part.area > 0.0]
    return iter(sorted(found, key=lambda part: -float(part.area)))
