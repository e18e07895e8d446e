# SPDX-License-Identifier: GPL-2.0-or-later
"""A map of depths: ground by classes of depth, and the line where it is none."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ..errors import BadInput, MissingLibrary
from ..quantity import Floats
from .depths import SAME, Depths, Ground
from .merged import Polygon, merge_pieces
from .overlay import moments

GRID = 1e-6
"""Metres to which ends of zero lines are rounded, so that neighbours share theirs."""
MOST_CLASSES = 1000
PLACES = 9
"""Decimals of a bound, so that seven steps of 0.1 m are 0.7 m."""


@dataclass(frozen=True, eq=False)
class DepthClass:
    """Ground whose depth lies between two bounds.

    Attributes:
        least, most: metres, positive in cut; equal (0) for ground that is level with its target.
        area: m2 in plan, exact.
        volume: m3, exact: positive for cut, negative for fill.
        polygons: where it is.
    """

    least: float
    most: float
    area: float
    volume: float
    polygons: tuple[Polygon, ...]


def depth_bounds(step: float, least: float, most: float) -> Floats:
    """Bounds of classes, whole multiples of a step in metres, that hold all depths from least to most.

    Raises:
        BadInput: a step that is none, or more than a thousand classes.
    """
    if not 0.0 < step < np.inf or not np.isfinite([least, most]).all():
        raise BadInput("The step of the depths is {step} m. Give a number above 0.", step=step)
    first, last = np.floor((least + SAME) / step), np.ceil((most - SAME) / step)
    if last - first > MOST_CLASSES:
        raise BadInput(
            "Depths from {least:.3f} m to {most:.3f} m in steps of {step} m are {count:.0f} classes. Give a larger step.",
            least=least,
            most=most,
            step=step,
            count=last - first,
        )
    return np.asarray(np.round(np.arange(first, max(last, first + 1.0) + 0.5) * step, PLACES))


def map_depths(ground: Ground, bounds: Floats, tick: Callable[[], None] | None = None) -> list[DepthClass]:
    """Ground by classes of depth, from the least; classes without ground are left out.

    A class holds its lower bound. Ground that is level with its target, over an area, is a class of its own.

    Args:
        ground: surfaces, outlines and strip.
        bounds: (k,) ascending, metres.
        tick: called now and then; what it raises ends the work.
    Raises:
        MissingLibrary: scipy, which finds the pieces that hang together.
    """
    classes = [(0.0, 0.0), *zip(bounds[:-1].tolist(), bounds[1:].tolist())]
    found: list[list[Depths]] = [[] for _ in classes]
    for block in ground.depths():
        if tick is not None:
            tick()
        for k, part in _by_class(block.at(bounds), bounds):
            found[k].append(part)
    out = []
    for k in (*range(1, len(classes)), 0):
        if found[k]:
            out.append(_joined(ground, classes[k], found[k]))
    return sorted(out, key=lambda one: (one.least, one.most))


def _by_class(depths: Depths, bounds: Floats) -> list[tuple[int, Depths]]:
    """The parts of some pieces by class; class 0 is level ground, class k lies above bounds[k - 1]."""
    low, high = depths.depth.min(axis=0), depths.depth.max(axis=0)
    even = low == high
    level = even & (low == 0.0)
    own = np.clip(np.searchsorted(bounds, low, side="right"), 1, len(bounds) - 1)
    out = [(0, depths.only(np.flatnonzero(level)))]
    for k in range(1, len(bounds)):
        out.append((k, depths.only(np.flatnonzero(even & ~level & (own == k)))))
        reach = np.flatnonzero(~even & (high > bounds[k - 1]) & (low < bounds[k]))
        if len(reach):
            out.append((k, depths.only(reach).part(bounds[k - 1], bounds[k])))
    return [(k, part) for k, part in out if len(part.pieces)]


def _joined(ground: Ground, bounds: tuple[float, float], parts: list[Depths]) -> DepthClass:
    area = volume = 0.0
    for part in parts:
        own, x, y = moments(part.pieces)
        area += float(own.sum())
        volume += float(own @ ground.depth_at(part.pieces, x, y))
    try:
        polygons = merge_pieces([part.pieces for part in parts])
    except ImportError as error:
        raise MissingLibrary(
            "The map of depths needs the library {library}, which is not there. Install it, or leave the map out.",
            library="scipy",
        ) from error
    placed = tuple(tuple(ring + ground.centre[:2] for ring in rings) for rings in polygons)
    return DepthClass(*bounds, area, volume, placed)


def zero_lines(ground: Ground, tick: Callable[[], None] | None = None) -> list[Floats]:
    """Where the depth is none: lines (k, 3) in metres of the survey plane, with the ground's height, between cut and fill
    and where either ends at level ground. Where cut only touches zero, and goes on as cut, there is none.

    Raises:
        MissingLibrary: shapely, which joins the pieces.
    """
    found: list[Floats] = []
    for block in ground.depths():
        if tick is not None:
            tick()
        above, below, _ = block.split()
        found += [
            _zero_edges(ground, part, side) for side, part in enumerate((above, below)) if len(part.pieces)
        ]
    edges = np.concatenate(found) if found else np.empty((0, 7))
    return _lines(_between(edges), ground.centre)


def _zero_edges(ground: Ground, part: Depths, side: int) -> Floats:
    """(e, 7) both ends (x, y, height about the centre) of the edges at depth zero, and which side they bound."""
    x, y, depth = part.pieces.x, part.pieces.y, part.depth
    z = ground.above.heights_at(part.pieces.upper, x, y) - ground.strip
    nx, ny, nz, after = (np.roll(v, -1, axis=0) for v in (x, y, z, depth))
    at = (depth == 0.0) & (after == 0.0) & ((np.abs(nx - x) > GRID) | (np.abs(ny - y) > GRID))
    return np.column_stack([v[at] for v in (x, y, z, nx, ny, nz)] + [np.full(int(at.sum()), float(side))])


def _between(edges: Floats) -> Floats:
    """(e, 6) edges that bound one piece of cut, or one of fill, or one of each; each once."""
    if not len(edges):
        return edges[:, :6]
    ends = np.round(edges[:, [0, 1, 3, 4]] / GRID).astype(np.int64)
    swap = (ends[:, 0] > ends[:, 2]) | ((ends[:, 0] == ends[:, 2]) & (ends[:, 1] > ends[:, 3]))
    ends[swap] = ends[swap][:, [2, 3, 0, 1]]
    _, first, number = np.unique(ends, axis=0, return_index=True, return_inverse=True)
    side = edges[:, 6]
    cut = np.bincount(number.ravel(), side == 0.0)
    fill = np.bincount(number.ravel(), side == 1.0)
    return np.asarray(edges[first[(cut < 2.0) & (fill < 2.0)], :6])


def _lines(edges: Floats, centre: Floats) -> list[Floats]:
    if not len(edges):
        return []
    try:
        from shapely.geometry import MultiLineString
        from shapely.ops import linemerge
    except ImportError as error:
        raise MissingLibrary(
            "The zero line needs the library {library}, which is not there. Install it, or leave the line out.",
            library="shapely",
        ) from error
    ends = edges.reshape(-1, 2, 3).copy()
    ends[:, :, :2] = np.round(ends[:, :, :2] / GRID) * GRID
    merged = linemerge(MultiLineString([pair.tolist() for pair in ends]))
    return [np.asarray(line.coords) + centre for line in getattr(merged, "geoms", [merged])]
