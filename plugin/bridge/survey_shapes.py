# SPDX-License-Identifier: GPL-2.0-or-later
"""The geometry of a survey's layers as exact edges in the survey plane: straights and arcs, all of a table at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..core.measure.layer.wkb import read_geopackage_shapes
from ..core.segments import Curve

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..core.quantity import Floats, Ints
    from .survey_file import MapWay


@dataclass(frozen=True, eq=False)
class TableEdges:
    """Every edge of a table's lines or rings, in order.

    Attributes:
        vertex: (v, 3) vertices in the survey plane, metres. first: (e,) the vertex that an edge starts at; it ends at the
            next. bulge: (e,) tan of a quarter of its sweep. run: (e,) number of its run. row: (r,) the table's row that a
            run is of. order: (e,) from 0 within the run. is_hole: (r,) whether the run is an inner ring.
    """

    vertex: Floats
    first: Ints
    bulge: Floats
    run: Ints
    row: Ints
    order: Ints
    is_hole: Ints

    def curve(self, run: int) -> Curve:
        """One run."""
        low, high = np.searchsorted(self.run, [run, run + 1])
        first = self.first[low:high]
        return Curve(self.vertex[np.append(first, first[-1:] + 1)], self.bulge[low:high])

    def runs_of(self, row: int) -> Ints:
        """Numbers of the runs of a row of the table."""
        return np.flatnonzero(self.row == row)


def table_edges(blobs: Sequence[bytes | None], way: MapWay) -> TableEdges:
    """The edges of a table's geometry (GeoPackage binary), brought into the survey plane.

    An arc through three points keeps its sweep whichever point of it the middle one is: the chords to it turn there by
    half of the sweep.
    """
    shapes = read_geopackage_shapes(blobs)
    xy = way.to_plane(shapes.xy)
    of_run = np.repeat(np.arange(len(shapes.feature)), shapes.sizes)
    vertex = np.flatnonzero(~shapes.is_mid)
    goes_on = np.flatnonzero(of_run[vertex[:-1]] == of_run[vertex[1:]])
    start, end = vertex[goes_on], vertex[goes_on + 1]
    bulge = np.zeros(len(goes_on))
    arc = np.flatnonzero(end - start == WITH_MIDDLE)
    before, after = xy[start[arc] + 1] - xy[start[arc]], xy[end[arc]] - xy[end[arc] - 1]
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    bulge[arc] = np.tan(0.5 * np.arctan2(cross, (before * after).sum(axis=1)))
    run = of_run[start]
    begins = np.searchsorted(run, np.arange(len(shapes.feature)))
    order = np.arange(len(run)) - begins[run] if len(run) else np.zeros(0, np.int64)
    points = np.column_stack([xy, shapes.z * way.z_metres])[vertex]
    return TableEdges(points, goes_on, bulge, run, shapes.feature, order, shapes.is_hole.astype(np.int64))


def table_triangles(blobs: Sequence[bytes | None], way: MapWay) -> list[tuple[Floats, Ints]]:
    """Of each row of a table of surfaces its (n, 3) points in the survey plane, metres, and (m, 3) triangles of them."""
    shapes = read_geopackage_shapes(blobs)
    points = np.column_stack([way.to_plane(shapes.xy), shapes.z * way.z_metres])
    out = []
    for row in range(len(shapes)):
        first = shapes.start[:-1][(shapes.feature == row) & (shapes.sizes == RING)]
        out.append((points, first[:, None] + np.arange(3)))
    return out


WITH_MIDDLE = 2
"""Points from one vertex to the next where an arc's middle lies between them."""
RING = 4
"""Points of a triangle's ring, its first one again at the end."""
