# SPDX-License-Identifier: GPL-2.0-or-later
"""The expected 95 % ellipses as a layer in memory, drawn larger than they are by a factor that its name states."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeature, QgsFields, QgsGeometry, QgsMemoryProviderUtils, QgsWkbTypes

from ..core.plane import SurveyPlane
from .fields import Kind
from .layers import fields_with
from .plan_styles import style_ellipses
from .planned import plane_about
from .sources import ground_of
from .text import tr

if TYPE_CHECKING:
    from qgis.core import QgsVectorLayer

    from ..core.quantity import Floats
    from .expected import ExpectedStation, Forecast

COLUMNS = (
    ("walk", Kind.TEXT),
    ("station", Kind.TEXT),
    ("mark", Kind.TEXT),
    ("worst", Kind.WHOLE),
    ("major_m_95", Kind.REAL),
    ("minor_m_95", Kind.REAL),
    ("drawn_times", Kind.WHOLE),
)
CORNERS = 72
"""Of a drawn ellipse: its outline lies within a thousandth of the true one."""
SHARE = 1.0 / 12.0
"""Of the plan's extent: half as long as the largest drawn ellipse may be."""
TIMES = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
"""Exaggerations that can be reckoned with in the head."""
MOST = 500
"""Ellipses drawn: of a larger plan the largest ones, so that the window does not wait."""


@dataclass(frozen=True)
class DrawnEllipses:
    """A layer of ellipses, how many times too large they are drawn, and how many stations have none."""

    layer: QgsVectorLayer
    times: int
    left_out: int = 0


def draw_ellipses(forecast: Forecast) -> DrawnEllipses:
    """The ellipses of a forecast's stations, in its CRS, at a factor that lets them be seen."""
    stations = sorted(forecast.stations, key=lambda station: -station.major_95)[:MOST]
    plane = plane_about(
        np.array([(s.at.x(), s.at.y()) for s in forecast.stations], float), ground_of(forecast.crs), 0.0
    )
    turn = plane.grid_turn if isinstance(plane, SurveyPlane) else 0.0
    middles = plane.from_crs(np.array([(s.at.x(), s.at.y()) for s in stations], float))
    largest = max(station.major_95 for station in stations)
    times = times_for(largest, float(np.hypot(*np.ptp(middles, axis=0))))
    sizes = ((s.major_95, s.minor_95, s.bearing_deg) for s in stations)
    outlines = np.vstack(
        [middle + times * ellipse_outline(*size, turn) for size, middle in zip(sizes, middles)]
    )
    rings = plane.to_crs(outlines).reshape(len(stations), -1, 2)
    larger = tr("Expected 95 % ellipses, drawn {times} times their size")
    name = larger.format(times=times) if times > 1 else tr("Expected 95 % ellipses, at their size")
    fields = fields_with(QgsFields(), COLUMNS)
    layer = QgsMemoryProviderUtils.createMemoryLayer(name, fields, QgsWkbTypes.Type.Polygon, forecast.crs)
    layer.dataProvider().addFeatures(
        [_feature(fields, station, ring, times) for station, ring in zip(stations, rings)]
    )
    layer.updateExtents()
    style_ellipses(layer)
    return DrawnEllipses(layer, times, len(forecast.stations) - len(stations))


def times_for(largest: float, extent: float) -> int:
    """The largest factor at which an ellipse of this half length keeps to its share of a plan's extent."""
    return max((k for k in TIMES if k * largest <= SHARE * extent), default=1) if largest > 0.0 else 1


def ellipse_outline(major: float, minor: float, bearing_deg: float, turn: float = 0.0) -> Floats:
    """(n, 2) about its middle, closed; half axes in any unit, the long one's bearing clockwise from north, of a map that
    is turned by `turn` radians against the plane it is drawn in."""
    angle = math.radians(90.0 - bearing_deg) - turn
    around = np.linspace(0.0, 2.0 * math.pi, CORNERS + 1)
    along, across = major * np.cos(around), minor * np.sin(around)
    cos, sin = math.cos(angle), math.sin(angle)
    outline = np.column_stack([cos * along - sin * across, sin * along + cos * across])
    outline[-1] = outline[0]
    return outline


def _feature(fields: QgsFields, station: ExpectedStation, ring: Floats, times: int) -> QgsFeature:
    feature = QgsFeature(fields)
    told = (station.walk, station.station, station.mark or None, int(station.is_worst))
    feature.setAttributes([*told, station.major_95, station.minor_95, times])
    text = ", ".join(f"{x!r} {y!r}" for x, y in ring.tolist())
    feature.setGeometry(QgsGeometry.fromWkt(f"POLYGON(({text}))"))
    return feature
