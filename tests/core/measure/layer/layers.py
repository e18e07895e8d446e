# SPDX-License-Identifier: GPL-2.0-or-later
"""Features of a layer made from well-known text by a general library, for the tests to measure."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import shapely.wkb
import shapely.wkt

from plugin.core.measure.layer.areas import AreaFigures, Worth, measure_areas
from plugin.core.measure.layer.ground import open_ground
from plugin.core.measure.layer.lengths import LengthFigures, measure_lengths
from plugin.core.measure.layer.shapes import Shapes
from plugin.core.measure.layer.wkb import join_pieces, read_shapes

LOCAL = 'LOCAL_CS["plane",UNIT["metre",1]]'
"""A grid of no place on the earth: its lengths are ground lengths."""


def shapes_from(*texts: str | None) -> Shapes:
    """Straight geometries from WKT, by shapely."""
    pieces = [None if text is None else shapely.wkb.dumps(shapely.wkt.loads(text)) for text in texts]
    return read_shapes(*join_pieces(pieces))


def curves_from(*texts: str | None) -> Shapes:
    """Any geometries from WKT, by OGR."""
    ogr = pytest.importorskip("osgeo.ogr", reason="OGR makes the binaries of curves")
    ogr.UseExceptions()
    pieces = [
        None if text is None else bytes(ogr.CreateGeometryFromWkt(text).ExportToIsoWkb(ogr.wkbNDR))
        for text in texts
    ]
    return read_shapes(*join_pieces(pieces))


def areas_of(shapes: Shapes, crs: object = LOCAL, sigma: float = 0.1, height: float = 0.0) -> AreaFigures:
    """Measured with one sigma for all points."""
    f = len(shapes)
    return measure_areas(shapes, open_ground(crs), Worth(np.full(f, sigma), np.full(f, 0.03)), height)


def lengths_of(shapes: Shapes, crs: object = LOCAL, sigma: float = 0.1, height: float = 0.0) -> LengthFigures:
    """Measured with one sigma for all points."""
    return measure_lengths(shapes, open_ground(crs), np.full(len(shapes), sigma), height)


def polygon(points: np.ndarray) -> str:
    """WKT of an outline through (n, 2) points, closed."""
    ring = np.vstack([points, points[:1]])
    return f"POLYGON(({', '.join(f'{x!r} {y!r}' for x, y in ring.tolist())}))"
