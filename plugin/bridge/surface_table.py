# SPDX-License-Identifier: GPL-2.0-or-later
"""A surface as a table of its triangles: rows that hold the points as exact numbers, so that it opens again as it was.

The geometry of a row is for the eye and for other programs. What counts are the columns: the corners in the survey plane,
what their heights are worth, and the plane itself.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeature, QgsFeatureRequest, QgsFields, QgsGeometry

from ..core.ground.surface import Surface
from ..core.measure.layer.fits import FlatPlane
from ..core.plane import SurveyPlane
from .drawn import text_of
from .fields import Kind
from .geometry import MapFrame
from .layers import fields_with
from .sources import shapes_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from qgis.core import QgsCoordinateReferenceSystem, QgsVectorLayer

    from ..core.measure.layer.ground import GroundWay
    from ..core.quantity import Floats
    from .planned import Plane

CORNERS = ("a", "b", "c")
OF_CORNER = (("x_m", Kind.REAL), ("y_m", Kind.REAL), ("z_m", Kind.REAL), ("z_m_sigma", Kind.REAL))
OF_SHARED = (("z_own_m_sigma", Kind.REAL), ("z_shared", Kind.TEXT))
"""Of a corner: where heights err together, what it errs by itself, and what it shares, as exact numbers."""
HEAD = (
    ("surface", Kind.TEXT),
    ("triangle", Kind.WHOLE),
    ("is_weak", Kind.TEXT),
    ("rough_m", Kind.REAL),
    ("reach_m", Kind.REAL),
)
TAIL = (
    ("plane_lon_deg", Kind.REAL),
    ("plane_lat_deg", Kind.REAL),
    ("plane_height_m", Kind.REAL),
    ("plane_crs", Kind.TEXT),
    ("method", Kind.TEXT),
)
COLUMNS = (
    *HEAD,
    *((f"{corner}_point", Kind.WHOLE) for corner in CORNERS),
    *((f"{corner}_{name}", kind) for corner in CORNERS for name, kind in OF_CORNER),
    *((f"{corner}_{name}", kind) for corner in CORNERS for name, kind in OF_SHARED),
    *TAIL,
)
"""The columns of a table of triangles, in order."""
LATER = tuple(name for name, _ in OF_SHARED)
"""Endings of columns that a table may lack."""
CHUNK = 2_000
"""Rows made at once."""
YES, NO = "yes", "no"
MOVED_M = 1e-3
"""Metres: a corner drawn farther from its columns than this was moved by somebody, and counts where it is drawn."""
RING = 4
"""Points of a triangle's ring."""


@dataclass(frozen=True, eq=False)
class OwnSurface:
    """A surface out of a table of ours, and the plane its points are in."""

    name: str
    surface: Surface
    plane: Plane


def surface_fields() -> QgsFields:
    """The columns of a table of triangles, as the host's."""
    return fields_with(QgsFields(), COLUMNS)


def surface_features(
    surface: Surface, name: str, plane: Plane, crs: QgsCoordinateReferenceSystem, method: str
) -> Iterator[list[QgsFeature]]:
    """The triangles as rows, some at a time.

    Args:
        surface: what is written.
        name: of the surface: ground, stripped, formation, finished or any other.
        plane: that the surface's points are in.
        crs: of the layer that is written, which is the plane's.
        method: how the surface came about.
    """
    fields = surface_fields()
    drawn = MapFrame(plane).points(surface.points)
    of_plane = _plane_values(plane, crs)
    known = surface.rough > 0.0 or surface.reach > 0.0
    ground = [surface.rough, surface.reach] if known else [None, None]
    worth, parts = surface.total_sigma, _parts(surface)
    for first in range(0, len(surface.triangles), CHUNK):
        rows = surface.triangles[first : first + CHUNK]
        weak = surface.is_weak[first : first + CHUNK].tolist()
        corners = np.concatenate([surface.points[rows], worth[rows][:, :, None]], axis=2)
        out = []
        for k, (row, corner, place) in enumerate(
            zip(rows.tolist(), corners.reshape(-1, 12).tolist(), drawn[rows])
        ):
            feature = QgsFeature(fields)
            head = [name, first + k + 1, YES if weak[k] else NO, *ground]
            feature.setAttributes(
                [*head, *row, *corner, *(v for p in row for v in parts[p]), *of_plane, method]
            )
            feature.setGeometry(_triangle(place))
            out.append(feature)
        yield out


def _parts(surface: Surface) -> list[tuple[float | None, str | None]]:
    """Of each point what its height errs by itself and what it shares; nothing where none err together."""
    if not surface.shared.shape[1]:
        return [(None, None)] * len(surface.points)
    return list(zip(surface.sigma.tolist(), map(json.dumps, surface.shared.tolist())))


def _triangle(place: Floats) -> QgsGeometry:
    geometry = QgsGeometry()
    geometry.fromWkb(polygon_wkb(place))
    return geometry


def polygon_wkb(place: Floats) -> bytes:
    """A triangle (3, 3) as a polygon with z."""
    return _HEAD + place[[0, 1, 2, 0]].tobytes()


_HEAD = bytes([1]) + np.array([1003, 1, 4], "<u4").tobytes()
"""A polygon with z, of one ring of four points, in well-known binary."""


def _plane_values(plane: Plane, crs: QgsCoordinateReferenceSystem) -> list[object]:
    if isinstance(plane, SurveyPlane):
        return [plane.lon, plane.lat, plane.height, crs.authid()]
    return [None, None, None, crs.authid()]


def is_own_table(layer: QgsVectorLayer) -> bool:
    """Whether a layer has the columns of a table of triangles."""
    names = {field.name() for field in layer.fields()}
    return {name for name, _ in COLUMNS if not name.endswith(LATER)} - {"method"} <= names


def read_own(layer: QgsVectorLayer, way: GroundWay) -> list[OwnSurface] | None:
    """The surfaces of a table of ours, as they were written; None where the layer was brought into another CRS or
    corners of it were moved, so that its geometry counts and not its columns.

    Args:
        layer: with the columns of `is_own_table`.
        way: of the layer's CRS to the ground.
    """
    names = [name for name, _ in COLUMNS if name != "method"]
    at = [layer.fields().lookupField(name) for name in names]
    features = list(layer.getFeatures(QgsFeatureRequest()))
    rows = [
        [None if k < 0 else values[k] for k in at]
        for values in (feature.attributes() for feature in features)
    ]
    groups: dict[tuple[str, ...], list[int]] = {}
    last: list[object] = []
    its: list[int] = []
    for k, row in enumerate(rows):
        told = [row[0], row[3], row[4], *row[-4:]]
        if told != last:  # most rows are of the surface of the row before
            its, last = groups.setdefault(tuple(map(text_of, told)), []), told
        its.append(k)
    places = _places_of(features)
    found = []
    for key, its in groups.items():
        its.sort(key=lambda k: (_order(rows[k][1]), k))
        own = _own(key, [rows[k] for k in its], way, layer.crs().authid())
        if own is None or places is None or _was_moved(own, places[its]):
            return None
        found.append(own)
    return found


def _order(value: object) -> int:
    return value if isinstance(value, int) else 0


def _places_of(features: list[QgsFeature]) -> Floats | None:
    """(m, 3, 3) corners as drawn; None where not every row is one triangle."""
    shapes = shapes_of(features)
    if len(shapes.sizes) != len(features) or not (shapes.sizes == RING).all():
        return None
    return np.column_stack([shapes.xy, shapes.z]).reshape(-1, RING, 3)[:, :3]


def _own(key: tuple[str, ...], rows: list[list[object]], way: GroundWay, crs: str) -> OwnSurface | None:
    """One surface of a table; None where a column is not what was written, or the CRS is another."""
    try:
        triangles = np.array([row[5:8] for row in rows], np.int64)
        flat = np.array([row[8:20] for row in rows], float).reshape(-1, 4)
        rough, reach = float(key[1] or 0.0), float(key[2] or 0.0)
        own, shared = _read_parts([row[20:26] for row in rows])
    except (TypeError, ValueError):
        return None
    plane = _plane(key, way)
    if plane is None or key[-1] != crs or not np.isfinite(flat).all():
        return None
    _, first, number = np.unique(triangles, return_index=True, return_inverse=True)
    if not np.array_equal(flat[first][number.reshape(-1)], flat):
        return None
    weak = np.array([row[2] == YES for row in rows])
    points, sigma = flat[first, :3].copy(), (flat[:, 3] if own is None else own)[first]
    surface = Surface(
        points, number.reshape(-1, 3).astype(np.int64), sigma, rough, reach, weak, shared[first]
    )
    return OwnSurface(key[0], surface, plane)


def _read_parts(rows: list[list[object]]) -> tuple[Floats | None, Floats]:
    """(3m,) own parts of the corners and (3m, k) what they share; None and (3m, 0) where none err together.

    Raises:
        TypeError, ValueError: a corner has none where others have, or not numbers.
    """
    if not any(map(text_of, rows[0])):
        return None, np.empty((3 * len(rows), 0))
    known: dict[object, list[float]] = {}
    texts = [text for row in rows for text in row[1::2]]
    shared = [known[text] if text in known else known.setdefault(text, json.loads(text)) for text in texts]  # type: ignore[arg-type]
    return np.array([row[::2] for row in rows], float).reshape(-1), np.array(shared, float)


def _plane(key: tuple[str, ...], way: GroundWay) -> Plane | None:
    lon, lat, height = key[3:6]
    if not (lon and lat and height):
        return local_plane(way) if way.is_local else None
    return None if way.is_local else SurveyPlane(way.flat, float(lon), float(lat), float(height))


def local_plane(way: GroundWay) -> FlatPlane:
    """The plane of a grid of no place on the earth."""
    axes = way.crs.axis_info
    return FlatPlane(float(axes[0].unit_conversion_factor) if axes else 1.0)


def _was_moved(own: OwnSurface, places: Floats) -> bool:
    """Whether a corner is drawn elsewhere than its columns say."""
    flat = places.reshape(-1, 3)
    here = np.column_stack([own.plane.from_crs(flat[:, :2]), flat[:, 2] * own.plane.crs_unit_m])
    return bool(np.abs(here - own.surface.corners.reshape(-1, 3)).max() > MOVED_M)
