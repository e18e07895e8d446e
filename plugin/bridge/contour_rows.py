# SPDX-License-Identifier: GPL-2.0-or-later
"""Contours as rows of a layer."""

from __future__ import annotations

import struct
from typing import TYPE_CHECKING

from qgis.core import QgsFeature, QgsFields, QgsGeometry

from .fields import Kind
from .geometry import LINE_Z, MapFrame
from .layers import fields_with

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..core.ground.contours import Contour
    from .planned import Plane

COLUMNS = (
    ("surface", Kind.TEXT),
    ("height_m", Kind.REAL),
    ("height_m_sigma", Kind.REAL),
    ("shift_m_sigma", Kind.REAL),
    ("is_weak", Kind.TEXT),
    ("method", Kind.TEXT),
)


def contour_fields() -> QgsFields:
    """The columns of contours."""
    return fields_with(QgsFields(), COLUMNS)


def contour_features(
    contours: Sequence[Contour], name: str, plane: Plane, method: str
) -> Iterator[QgsFeature]:
    """Contours of the surface `name` as lines with heights, in the CRS that the plane goes to."""
    fields, frame = contour_fields(), MapFrame(plane)
    for contour in contours:
        feature = QgsFeature(fields)
        weak = "yes" if contour.is_weak else "no"
        feature.setAttributes([name, contour.height, contour.sigma, contour.shift_sigma, weak, method])
        geometry = QgsGeometry()
        points = frame.points(contour.points)
        geometry.fromWkb(struct.pack("<BII", 1, LINE_Z, len(points)) + points.tobytes())
        feature.setGeometry(geometry)
        yield feature
