# SPDX-License-Identifier: GPL-2.0-or-later
"""From levels, breaklines, a boundary and voids to a surface, with what is to be told of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..defaults import GAP_SPACINGS, LEVELS_WITHIN
from ..errors import BadInput
from ..findings import Finding, Severity
from ..quantity import Floats, Ints
from .drape import drape_rings
from .hull import without_thin
from .interpolation import FEWEST, Interpolation, leave_one_out
from .locate import locate
from .noding import node_lines
from .records import GroundLine, Levels, Net
from .surface import Flags, Surface
from .triangulate import triangulate
from .trim import peel_rim, trim_to_areas, trim_to_rings
from .upright import Leaned, lean_faces
from .weak import find_weak
from .weld import compacted

LEAST_WEAK = 0.001
"""Of a surface: less weak ground than this is told by nobody."""


@dataclass(frozen=True, eq=False)
class GroundInput:
    """What a surface is built from, in metres of one survey plane.

    Attributes:
        levels: single points of known height.
        breaklines: that the triangles are to have as edges.
        boundary, voids: rings; those without heights (a NaN among them) lie on the ground.
    """

    levels: Levels
    breaklines: tuple[GroundLine, ...] = ()
    boundary: tuple[GroundLine, ...] = ()
    voids: tuple[GroundLine, ...] = ()


@dataclass(frozen=True)
class BuildRules:
    """How it is built.

    Attributes:
        within: metres in plan in which points are one, and lines go through points.
        longest: metres; triangles of the rim with a longer side are left out where there is no boundary. None: none is.
        spacings: a place farther from every point than so many median spacings of them is weak.
    """

    within: float = LEVELS_WITHIN
    longest: float | None = None
    spacings: float = GAP_SPACINGS


@dataclass(frozen=True, eq=False)
class Built:
    """The surface, None where lines meet at different heights (GR-02 says where); what was found; and how the ground
    departs from it between the points."""

    surface: Surface | None
    findings: tuple[Finding, ...]
    interpolation: Interpolation | None = None


def build_surface(ground: GroundInput, rules: BuildRules | None = None) -> Built:
    """A constrained triangulation of the ground with what its heights are worth.

    Raises:
        TooFewPoints, PointsInLine: no surface goes through the points.
        BadInput: an unknown place or height, a ring of fewer than three points, nothing left inside the boundary, or
            points that cannot be told apart. MissingLibrary: scipy.
    """
    rules = rules or BuildRules()
    boundary, voids = (tuple(map(_closed, rings)) for rings in (ground.boundary, ground.voids))
    leaned, (boundary, voids) = _leaned(ground.levels, ground.breaklines, (boundary, voids), rules.within)
    net, met = node_lines(leaned.levels, leaned.lines, rules.within)
    findings = (*leaned.findings, *met)
    if any(finding.severity is Severity.STOP for finding in findings):
        return Built(None, findings)
    triangles = without_thin(net.points[:, :2], triangulate(net.points[:, :2], net.segments))
    weak = find_weak(net, triangles, rules.spacings)
    found = leave_one_out(net, triangles)
    bare = [ring.points[:, :2] for ring in (*boundary, *voids) if not _has_heights(ring)]
    if bare:
        net, triangles, weak = _draped(net, triangles, weak, bare, rules.within)
    keep = trim_to_rings(
        net.points, triangles, net.segments, [r.points for r in boundary], [r.points for r in voids]
    )
    areas = _areas(ground.breaklines)
    if areas:
        keep &= trim_to_areas(net.points, triangles, net.segments, areas)
    if not boundary and not areas and rules.longest is not None:
        keep &= peel_rim(net.points, triangles, net.segments, rules.longest)
    if not keep.any():
        raise BadInput(
            "No ground is left inside the boundary and outside the voids. Check that they lie where the levels are, and "
            "that all are in the CRS they say."
        )
    surface = Surface(
        net.points, triangles[keep], net.sigma, found.rough, found.reach, weak[keep], net.shared
    )
    surface = compacted(surface)
    return Built(surface, (*findings, *_told(surface, found)), found)


def _leaned(
    levels: Levels, breaklines: Sequence[GroundLine], rings: Sequence[Sequence[GroundLine]], within: float
) -> tuple[Leaned, list[tuple[GroundLine, ...]]]:
    """Levels and breaklines without upright faces, and boundary and voids likewise: rings without heights as they are."""
    known = [ring for some in rings for ring in some if _has_heights(ring)]
    lines = (*breaklines, *known)
    given = [levels.points, *(line.points for line in lines)]
    if not all(np.isfinite(points).all() for points in given):
        return Leaned(levels, lines, ()), [tuple(some) for some in rings]  # what is unknown is refused later
    found = lean_faces(levels, lines, within)
    moved = iter(found.lines[len(breaklines) :])
    return found, [tuple(next(moved) if _has_heights(ring) else ring for ring in some) for some in rings]


def _areas(lines: Sequence[GroundLine]) -> list[list[Floats]]:
    """The rings (k, 3) of each area that alone is ground."""
    areas: dict[str, list[Floats]] = {}
    for line in lines:
        if line.bounds:
            areas.setdefault(line.bounds, []).append(line.points)
    return list(areas.values())


def _closed(ring: GroundLine) -> GroundLine:
    """A ring that ends with its first point.

    Raises:
        BadInput: it has fewer than three points.
    """
    points, sigma, shared = (np.asarray(v, float) for v in (ring.points, ring.sigma, ring.shared))
    if not np.isfinite(points[:, :2]).all() or len(np.unique(points[:, :2], axis=0)) < 3:
        raise BadInput(
            "The ring {ring} has fewer than three points with a place. Draw it round the ground that it bounds.",
            ring=ring.name,
        )
    if (points[0, :2] == points[-1, :2]).all():
        return replace(ring, points=points, sigma=sigma)
    return replace(
        ring,
        points=np.vstack([points, points[:1]]),
        sigma=np.append(sigma, sigma[:1]),
        shared=np.vstack([shared, shared[:1]]),
    )


def _has_heights(ring: GroundLine) -> bool:
    return bool(np.isfinite(ring.points[:, 2]).all())


def _draped(
    net: Net, triangles: Ints, weak: Flags, rings: Sequence[Floats], within: float
) -> tuple[Net, Ints, Flags]:
    """The net and triangles with rings laid on them; a piece of a weak triangle is weak."""
    finer, pieces = drape_rings(net, triangles, rings, within)
    pieces = without_thin(finer.points[:, :2], pieces)
    old, new = np.sort(finer.first[triangles], axis=1), np.sort(pieces, axis=1)
    # Most triangles are as they were: only the others are looked for.
    number = _numbers(np.vstack([old, new]), len(finer.points))
    was = np.full(int(number.max()) + 1, -1)
    was[number[: len(old)]] = np.arange(len(old))
    parent = was[number[len(old) :]]
    other = np.flatnonzero(parent < 0)
    gone = np.flatnonzero(~np.isin(number[: len(old)], number[len(old) :]))
    if len(other):
        middles = finer.points[pieces[other]][:, :, :2].mean(axis=1)
        parent[other] = gone[locate(net.points, triangles[gone], middles)[0]]
    return finer, pieces, np.asarray(weak[parent])


def _numbers(rows: Ints, count: int) -> Ints:
    """(m,) numbers of rows (m, 3) of point numbers below `count`, the same for the same row."""
    _, pair = np.unique(rows[:, 0] * count + rows[:, 1], return_inverse=True)
    _, number = np.unique(pair.reshape(-1) * count + rows[:, 2], return_inverse=True)
    return np.asarray(number.reshape(-1), np.int64)


def _told(surface: Surface, found: Interpolation) -> tuple[Finding, ...]:
    notes = []
    area = surface.areas
    part = float(area[surface.is_weak].sum() / area.sum())
    if part >= LEAST_WEAK:
        notes.append(_weak(surface, part))
    if found.tested < FEWEST:
        notes.append(
            Finding(
                "GR-04",
                Severity.NOTE,
                "survey",
                "Only {tested} points stand inside the surface and on no line; {fewest} are needed to say how far the "
                "ground lies off the triangles between the points. That part is in no sigma.",
                "Take levels all over the ground, not only along its edges.",
                {"tested": found.tested, "fewest": FEWEST},
            )
        )
    return tuple(notes)


def _weak(surface: Surface, part: float) -> Finding:
    count = int(surface.is_weak.sum())
    data = {"count": count, "total": len(surface.triangles), "part": 100.0 * part}
    return replace(_ONE_WEAK if count == 1 else _WEAK, data=data)


_WEAK = Finding(
    "GR-01",
    Severity.NOTE,
    "survey",
    "{count} triangles of {total}, {part:.1f} % of the surface, are weak: far from every point, on one line of points, "
    "or slivers of the rim.",
    "Take levels there, or draw the boundary or a void so that they are left out.",
)
_ONE_WEAK = Finding(
    "GR-01",
    Severity.NOTE,
    "survey",
    "{count} triangle of {total}, {part:.1f} % of the surface, is weak: far from every point, on one line of points, or a "
    "sliver of the rim.",
    "Take levels there, or draw the boundary or a void so that it is left out.",
)
