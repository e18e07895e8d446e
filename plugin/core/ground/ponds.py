# SPDX-License-Identifier: GPL-2.0-or-later
"""Ponds on a surface: level, depth, area and volume, exact over the triangles, with what each is worth."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..quantity import COVER_95, Floats, Ints, Quantity
from .depths import SAME
from .low_points import Flooded
from .overlay import Facets, Pieces, clip, facets_of, moments, own_pieces
from .roughness import mean_rough
from .shores import shore_outlines
from .surface import Surface


@dataclass(frozen=True, eq=False)
class Pond:
    """Water that stands.

    Attributes:
        number: of the pond. level: of the water, m. depth: at its deepest, m. area: m2. volume: m3.
        deepest, spill: (3,) the lowest point, and the point it runs off over, metres in the survey plane.
        weak: m2 of it on triangles that no one should lean on.
        chance: that it is there at all, 0 to 1: of a depth above 0.
        is_certain: whether the depth is more than 0 by its 95 % interval; else nobody can tell.
        outline: polygons of rings (k, 2), metres, the first of each its outer one.
    """

    number: int
    level: Quantity
    depth: Quantity
    area: Quantity
    volume: Quantity
    deepest: Floats
    spill: Floats
    weak: float
    chance: float
    is_certain: bool
    outline: tuple[tuple[Floats, ...], ...]


@dataclass(frozen=True, eq=False)
class _Wet:
    """What of triangles lies under water, about a centre.

    Attributes:
        pieces: convex, `upper` the triangle. depth: (s, n) metres. pond: (n,) of each piece.
        hats: (n, 3) integral of each corner's weight, m2. shore: (n, 3) the same along the water's edge, each metre of it
            by the slope of the ground there, m.
        area, volume: (n,) m2, m3.
    """

    pieces: Pieces
    depth: Floats
    pond: Ints
    hats: Floats
    shore: Floats
    area: Floats
    volume: Floats


def measure_ponds(flooded: Flooded, least: float = 0.0, common: float = 0.0) -> list[Pond]:
    """All ponds that are so deep or deeper, the deepest first.

    Args:
        flooded: the surface under water.
        least: depth in metres.
        common: one-sigma of all heights of the surface together, metres: it is in the level, and in nothing else.
    Raises:
        MissingLibrary: shapely, which joins the pieces to outlines.
    Source:
        Own derivation. The level is the height of the point s that water runs off over. The depth is that less the lowest
        point's height. A volume changes by -integral of its weight over the water with each point's height, and by the
        area with the level; an area by -integral of its weight over the slope along the water's edge, and by the whole of
        that integral with the level. The ground between the points makes the way out and the bottom uncertain by `rough`
        each (alike as they lie near each other: exp(-distance / reach)), and the mean bottom by the disc's mean of it. All of
        the first order: which point water runs off over is taken as known.
    """
    z = flooded.surface.points[:, 2]
    keep = np.flatnonzero(flooded.levels - z[flooded.deepest] >= least)
    if not len(keep):
        return []
    wet = _wet(flooded, keep)
    order = np.argsort(wet.pond, kind="stable")
    bounds = np.searchsorted(wet.pond[order], np.stack([keep, keep + 1]))
    outlines = shore_outlines(flooded, keep)
    ponds = [
        _pond(flooded, int(k), wet, order[a:b], common, outline)
        for k, a, b, outline in zip(keep, bounds[0], bounds[1], outlines)
    ]
    return sorted(ponds, key=lambda pond: -pond.depth.value)


def _wet(flooded: Flooded, keep: Ints) -> _Wet:
    """The pieces under water of some ponds."""
    surface = flooded.surface
    centre = 0.5 * (surface.points.min(axis=0) + surface.points.max(axis=0))
    facets = facets_of(surface, centre)
    kept = np.zeros(len(flooded) + 1, bool)
    kept[keep] = True
    which = np.flatnonzero(kept[flooded.of_triangle] & (flooded.of_triangle >= 0))
    depth = (
        flooded.levels[flooded.of_triangle[which]][:, None] - surface.points[surface.triangles[which], 2]
    ).T
    whole = own_pieces(facets, which)
    (x, y, under), on = clip((whole.x, whole.y, depth), depth)
    under[np.abs(under) < SAME] = 0.0
    pieces = Pieces(x, y, which[on], whole.lower)
    area, cx, cy = moments(pieces)
    second, third = facets.weights_at(pieces.upper, cx, cy)
    weights = np.column_stack([1.0 - second - third, second, third])
    corner_depth = depth[:, on].T
    volume = area * (weights * corner_depth).sum(axis=1)
    slope = np.hypot(*surface.slopes[pieces.upper].T)
    return _Wet(
        pieces,
        under,
        flooded.of_triangle[pieces.upper],
        weights * area[:, None],
        _shore(facets, pieces, under, slope),
        area,
        volume,
    )


def _shore(facets: Facets, pieces: Pieces, depth: Floats, slope: Floats) -> Floats:
    """(n, 3) integral of each corner's weight along the edge at depth 0 of pieces, by the slope there."""
    out = np.zeros((len(pieces), 3))
    slots = len(pieces.x)
    for k in range(slots):
        after = (k + 1) % slots
        at = (depth[k] == 0.0) & (depth[after] == 0.0) & (slope > 0.0)
        x, y = 0.5 * (pieces.x[k] + pieces.x[after]), 0.5 * (pieces.y[k] + pieces.y[after])
        long = np.hypot(pieces.x[after] - pieces.x[k], pieces.y[after] - pieces.y[k])
        second, third = facets.weights_at(pieces.upper, x, y)
        by = np.divide(long, slope, out=np.zeros(len(long)), where=at)
        out += np.column_stack([1.0 - second - third, second, third]) * by[:, None]
    return out


def _pond(
    flooded: Flooded,
    number: int,
    wet: _Wet,
    rows: Ints,
    common: float,
    outline: tuple[tuple[Floats, ...], ...],
) -> Pond:
    surface = flooded.surface
    spill, lowest = int(flooded.spill[number]), int(flooded.deepest[number])
    at = surface.triangles[wet.pieces.upper[rows]].reshape(-1)
    area, volume = float(wet.area[rows].sum()), float(wet.volume[rows].sum())
    rough, away = surface.rough, float(np.hypot(*(surface.points[spill] - surface.points[lowest])[:2]))
    apart = 1.0 - (math.exp(-away / surface.reach) if surface.reach > 0.0 else 0.0)
    depth = Quantity(
        float(surface.points[spill, 2] - surface.points[lowest, 2]),
        math.hypot(
            _propagated(surface, np.array([lowest]), -np.ones(1), (spill, 1.0)),
            rough * math.sqrt(2.0 * apart),
        ),
        "m",
    )
    mean = rough**2 * (1.0 + mean_rough(area, surface.reach) ** 2)
    by_volume = _propagated(surface, at, -wet.hats[rows].reshape(-1), (spill, area))
    shore = wet.shore[rows].reshape(-1)
    edge = float(shore.sum())
    by_area = _propagated(surface, at, -shore, (spill, edge))
    return Pond(
        number,
        Quantity(float(surface.points[spill, 2]), math.hypot(surface.total_sigma[spill], rough, common), "m"),
        depth,
        Quantity(area, math.hypot(by_area, edge * rough * math.sqrt(2.0)), "m2"),
        Quantity(volume, math.sqrt(by_volume**2 + area**2 * mean), "m3"),
        surface.points[lowest].copy(),
        surface.points[spill].copy(),
        float(wet.area[rows][surface.is_weak[wet.pieces.upper[rows]]].sum()),
        _chance(depth),
        depth.value - COVER_95 * depth.sigma > 0.0,
        outline,
    )


def _propagated(surface: Surface, at: Ints, change: Floats, own: tuple[int, float]) -> float:
    """One-sigma of a figure that changes so with points, and so with one more."""
    once, where = np.unique(np.append(at, own[0]), return_inverse=True)
    total = np.bincount(where.reshape(-1), np.append(change, own[1])).astype(float)
    return float(np.sqrt(surface.covariance_by(total[None], once)[0, 0]))


def _chance(depth: Quantity) -> float:
    if depth.sigma == 0.0:
        return float(depth.value > 0.0)
    return 0.5 * math.erfc(-depth.value / (depth.sigma * math.sqrt(2.0)))
