# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines of ponds, from where their water meets the ground on each triangle."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..errors import MissingLibrary
from ..quantity import Floats, Ints
from .low_points import Flooded

Outline = tuple[tuple[Floats, ...], ...]
"""Polygons of rings (k, 2), metres, the first of each its outer one."""


@dataclass(frozen=True, eq=False)
class _Shores:
    """Straights with the water on their left.

    Attributes:
        pond: (s,) of each. start, end: (s, 2) metres about the first point of the surface. The same place has the same
            bits in whichever triangle it is met.
    """

    pond: Ints
    start: Floats
    end: Floats


def shore_outlines(flooded: Flooded, ponds: Ints) -> list[Outline]:
    """The outlines of some ponds, in their order; islands are holes.

    Args:
        flooded: the surface under water.
        ponds: (p,) their numbers, ascending.
    Raises:
        MissingLibrary: shapely, which joins the straights to rings.
    """
    shores = _shores(flooded, ponds)
    order = np.argsort(shores.pond, kind="stable")
    bounds = np.searchsorted(shores.pond[order], np.stack([ponds, ponds + 1]))
    origin = flooded.surface.points[0, :2]
    return [
        _joined(shores.start[order[a:b]], shores.end[order[a:b]], origin)
        for a, b in zip(bounds[0], bounds[1])
    ]


def _shores(flooded: Flooded, ponds: Ints) -> _Shores:
    """Every triangle that is wet and not wholly has one straight: from where the rim of its wet part leaves the water to
    where it comes back. Sides that lie at the level with one pond's water on both sides are none."""
    kept = np.zeros(len(flooded) + 1, bool)
    kept[ponds] = True
    which = np.flatnonzero(kept[flooded.of_triangle] & (flooded.of_triangle >= 0))
    corner = flooded.surface.triangles[which]
    depth = flooded.levels[flooded.of_triangle[which]][:, None] - flooded.surface.points[corner, 2]
    after = np.roll(depth, -1, axis=1)
    leaves, comes = (depth > 0.0) & (after <= 0.0), (depth <= 0.0) & (after > 0.0)
    cut = leaves.any(axis=1)
    which, corner, depth = which[cut], corner[cut], depth[cut]
    start = _met(flooded, corner, depth, leaves[cut].argmax(axis=1))
    end = _met(flooded, corner, depth, comes[cut].argmax(axis=1))
    long = (start != end).any(axis=1)
    start, end, pond = start[long], end[long], flooded.of_triangle[which[long]]
    of = pond[:, None].astype(float)  # two ponds of one level keep the side between them
    both = np.concatenate([np.hstack([start, end, of]), np.hstack([end, start, of])])
    _, number = np.unique(both, axis=0, return_inverse=True)
    number = number.reshape(-1)
    once = ~np.isin(number[: len(start)], number[len(start) :])
    return _Shores(pond[once], start[once], end[once])


def _met(flooded: Flooded, corner: Ints, depth: Floats, side: Ints) -> Floats:
    """(k, 2) where triangles' sides, from their corners `side` to the next, are at the level."""
    rows, after = np.arange(len(corner)), (side + 1) % 3
    a, b, da, db = corner[rows, side], corner[rows, after], depth[rows, side], depth[rows, after]
    turned = a > b  # reckoned from the lower number on, so that both triangles of a side have the same bits
    a, b, da, db = (np.where(turned, v, w) for v, w in ((b, a), (a, b), (db, da), (da, db)))
    with np.errstate(invalid="ignore", divide="ignore"):
        part = np.where(da == 0.0, 0.0, np.where(db == 0.0, 1.0, da / (da - db)))[:, None]
    xy = flooded.surface.points[:, :2] - flooded.surface.points[0, :2]
    return np.asarray(np.where(part == 1.0, xy[b], xy[a] + part * (xy[b] - xy[a])))


def _joined(start: Floats, end: Floats, origin: Floats) -> Outline:
    """The faces between straights that have water inside."""
    try:
        from shapely.geometry import MultiLineString
        from shapely.geometry.polygon import orient
        from shapely.ops import polygonize
    except ImportError as error:
        raise MissingLibrary(
            "Outlines of ponds need the library {library}, which is not there. Install it.", library="shapely"
        ) from error
    ways = np.stack([start, end], axis=1).tolist()
    wet = {(tuple(a), tuple(b)) for a, b in ways}
    faces = [orient(face) for face in polygonize(MultiLineString(ways))]
    return tuple(
        tuple(np.asarray(ring.coords) + origin for ring in (face.exterior, *face.interiors))
        for face in faces
        if (face.exterior.coords[0], face.exterior.coords[1]) in wet
    )
