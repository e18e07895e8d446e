# SPDX-License-Identifier: GPL-2.0-or-later
"""Constrained Delaunay triangulation: every given segment is an edge, and else circles are as empty as they can be.

scipy gives the triangulation of the points alone; only the segments that it misses are put in, each by emptying the
triangles that it crosses and filling the two sides again. Which side a point lies on is decided exactly.

Source: Anglada, An improved incremental algorithm for constructing restricted Delaunay triangulations, Computers and
Graphics 21 (1997) 215-223, for the filling of the two sides.
"""

from __future__ import annotations

import numpy as np

from ..errors import BadInput, MissingLibrary, PointsInLine, TooFewPoints
from ..quantity import Floats, Ints
from .cavity import Mesh
from .hull import mend_hull, neighbours_of
from .signs import sides_of
from .surface import Flags
from .weld import extent_of

THIN_M = 1e-6
"""Metres: a site whose area by its length is no more than this is a line."""
AREA_WITHIN = 1e-9
"""Of the hull's area: the triangles' areas add up to it, or the triangulation is not handed out."""


def triangulate(xy: Floats, segments: Ints) -> Ints:
    """(m, 3) triangles over the convex hull of points, anticlockwise, in which every segment is an edge or, where it
    runs through points, a chain of edges.

    Args:
        xy: (n, 2) places in metres, all different.
        segments: (s, 2) rows of `xy`; none crosses another between its ends (noding.py sees to that).
    Raises:
        TooFewPoints: fewer than three points. PointsInLine: all lie on one line.
        BadInput: segments that cross, or points too near each other for the site's size.
        MissingLibrary: scipy.
    """
    if len(xy) < 3:
        raise TooFewPoints(
            "A surface needs three points or more that are not in line; {count} are given.", count=len(xy)
        )
    triangles, neighbours, left_out = _unconstrained(xy)
    triangles, neighbours = mend_hull(xy, triangles, neighbours)
    if len(left_out):
        mesh = Mesh(xy, triangles, neighbours, left_out[:0])
        for point, near in left_out.tolist():
            mesh.add_point(point, near)
        triangles = mesh.triangles()
        neighbours = neighbours_of(triangles, len(xy))
    wanted = np.unique(np.sort(segments[segments[:, 0] != segments[:, 1]], axis=1), axis=0)
    missing = wanted[~has_edges(triangles, wanted, len(xy))]
    if len(missing):
        mesh = Mesh(xy, triangles, neighbours, wanted)
        for a, b in missing.tolist():
            mesh.insert(a, b)
        triangles = mesh.triangles()
    check_triangulation(xy, triangles)
    return triangles


def _unconstrained(xy: Floats) -> tuple[Ints, Ints, Ints]:
    """Delaunay triangles, anticlockwise; (m, 3) the neighbour opposite to each corner (-1: none); and (k, 2) the points
    that the library took for others, each with the one beside it: it sees squares of distances, and so only half of the
    digits."""
    try:
        from scipy.spatial import Delaunay, QhullError
    except ImportError as error:
        raise MissingLibrary(
            "A surface needs {library}, which this QGIS lacks. Install it for QGIS's Python (pip install scipy, or your "
            "system's package python3-scipy), then run this again.",
            library="scipy",
        ) from error
    scaled, _ = _scaled(xy)
    try:
        low, high = extent_of(scaled)
        if (high - low).min() <= 0.0:
            raise _in_line()
        found = Delaunay(scaled)
    except QhullError as error:
        raise _in_line() from error
    left_out = found.coplanar[:, [0, 2]].astype(np.int64)
    return found.simplices.astype(np.int64), found.neighbors.astype(np.int64), left_out


def _in_line() -> PointsInLine:
    return PointsInLine(
        "All points lie on one line, so there is no surface between them. Add points beside it."
    )


def has_edges(triangles: Ints, wanted: Ints, count: int) -> Flags:
    """(s,) whether each pair of points (s, 2), lower first, is an edge of the triangles."""
    if not len(wanted):
        return np.zeros(0, bool)
    edges = np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    # Only edges between points of segments can be wanted: sorting these few is what takes the time.
    of_segment = np.zeros(count, bool)
    of_segment[wanted] = True
    edges = edges[of_segment[edges[:, 0]] & of_segment[edges[:, 1]]]
    keys = np.unique(edges[:, 0] * count + edges[:, 1])
    return np.isin(wanted[:, 0] * count + wanted[:, 1], keys, assume_unique=True)


def check_triangulation(xy: Floats, triangles: Ints) -> None:
    """What cannot be seen is checked: no triangle is folded or without area, and together they are the hull.

    Raises:
        BadInput: they are not; nothing is handed out then.
    """
    a, b, c = (xy[triangles[:, k]] for k in range(3))
    folded = sides_of(a, b, c) <= 0
    u, v = b - a, c - a
    total = 0.5 * float((u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]).sum())
    hull = _hull_area(xy)
    low, high = extent_of(xy)
    if hull <= THIN_M * float((high - low).max()):
        raise _in_line()
    is_used = np.zeros(len(xy), bool)
    is_used[triangles] = True
    if folded.any() or not is_used.all() or abs(total - hull) > AREA_WITHIN * hull:
        k = int(np.flatnonzero(folded)[0]) if folded.any() else 0
        east, north = (a[k] + b[k] + c[k]) / 3.0
        raise BadInput(
            "The triangles do not fit together near {east:.3f}, {north:.3f} in the survey plane. Merge points within a "
            "larger distance, or leave out what lies too close there.",
            east=float(east),
            north=float(north),
        )


def _hull_area(xy: Floats) -> float:
    from scipy.spatial import ConvexHull

    scaled, size = _scaled(xy)
    return float(ConvexHull(scaled).volume) * size**2


def _scaled(xy: Floats) -> tuple[Floats, float]:
    """Places about a middle in a unit of about their reach, and that unit in metres. The middle has few digits and the
    unit is a power of two, so that nothing is rounded: what is in line stays so."""
    low, high = extent_of(xy)
    reach = float((high - low).max())
    unit = 2.0 ** np.ceil(np.log2(reach)) if reach > 0.0 else 1.0
    middle = np.round(0.5 * (low + high) / unit) * unit
    return (xy - middle) / unit, float(unit)
