# SPDX-License-Identifier: GPL-2.0-or-later
"""How the layers of a survey stand in the host's 3D views: at their heights, in the palette's colours.

Heights are absolute: the geometry's own, in the length unit of the layer's CRS. A row of which any height is missing
is laid on the terrain instead, whole, for a part of it cannot stand at no height. Nothing is relative to the terrain:
a survey's heights are in its datum, not above what some other model says. A layer of which no row has heights gets no
3D symbols: the host then shows it as it shows any flat layer, drawn on the terrain.

The terrain of a new project lies below the survey, where the host keeps one in the project. A 3D view of 3.22 brings
its own at height 0 and begins as far above that as the map is wide: a survey that lies higher is behind the eye until
the view is zoomed out.

Nothing here draws: a host without its 3D module writes the project without them.
"""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

from qgis.core import QgsFeatureRequest, QgsUnitTypes, QgsWkbTypes
from qgis.PyQt.QtGui import QColor

from .compat import clamping_3d, module_3d, set_flat_terrain, set_material
from .resources import RESOURCES

if TYPE_CHECKING:
    from collections.abc import Iterator
    from types import ModuleType

    from qgis.core import QgsProject, QgsVectorLayer

HAS_HEIGHTS = "geom_to_wkt($geometry, 0) NOT ILIKE '%nan%'"
"""Every vertex has its height: one that is missing is NaN, and is written so."""
HAS_NONE = "geom_to_wkt($geometry, 0) ILIKE '%nan%'"
STATUS = "lower(coalesce(\"status\", ''))"
BY_STATUS = {"existing": "yellow", "retain": "bluish_green", "remove": "vermillion"}
"""As on the map (the styles of areas); any other is new or not stated."""
COLOURS = {
    "areas": "sky_blue",
    "surfaces": "white",
    "lengths": "blue",
    "sides": "black",
    "legs": "reddish_purple",
    "spots": "vermillion",
    "stations": "reddish_purple",
    "marks": "orange",
}
"""Tables with a place in a 3D view, and each one's colour."""
WIDTHS_PX = {"lengths": 4.0, "sides": 2.0, "legs": 2.0}
"""Pixels. The host has lines with a width on the ground too, but widens them in plan and loses their heights."""
RADII_M = {"spots": 0.15, "stations": 0.08, "marks": 0.25}
"""Metres: balls that can be seen and hide little."""
DARKER = 400
"""Percent: what lies in the shade, as QColor.darker has it."""


def set_scene(layer: QgsVectorLayer, table: str) -> None:
    """Give a layer of a survey its 3D symbols, where the table has any, the rows have heights, and the host has 3D."""
    module = module_3d()
    if module is None or table not in COLOURS or not _any_heights(layer):
        return
    rule = module.QgsRuleBased3DRenderer.Rule
    root = rule(None)
    for condition, shade in _shades(table):
        for heights, to_terrain in ((HAS_HEIGHTS, False), (HAS_NONE, True)):
            symbol = _symbol(module, layer, table, shade)
            symbol.setAltitudeClamping(clamping_3d(module, to_terrain=to_terrain))
            root.appendChild(rule(symbol, f"{heights}{condition}", shade))
    renderer = module.QgsRuleBased3DRenderer(root)
    renderer.setLayer(layer)
    layer.setRenderer3D(renderer)


def set_terrain(project: QgsProject, stations: QgsVectorLayer) -> None:
    """Lay the project's terrain at the survey's lowest station, to the metre below; where none has a height it stays."""
    lowest = stations.minimumValue(stations.fields().lookupField("z_m"))
    if isinstance(lowest, float) and math.isfinite(lowest):
        set_flat_terrain(project, float(math.floor(lowest / _metres(stations))))


def _any_heights(layer: QgsVectorLayer) -> bool:
    request = QgsFeatureRequest().setFilterExpression(HAS_HEIGHTS).setLimit(1)
    return next(layer.getFeatures(request), None) is not None


def _shades(table: str) -> Iterator[tuple[str, str]]:
    """What rows to tell apart, as the end of a condition, and their colour."""
    if table == "areas":
        for status, shade in BY_STATUS.items():
            yield f" AND {STATUS} = '{status}'", shade
        others = ", ".join(f"'{status}'" for status in BY_STATUS)
        yield f" AND {STATUS} NOT IN ({others})", COLOURS[table]
    else:
        yield "", COLOURS[table]


def _symbol(module: ModuleType, layer: QgsVectorLayer, table: str, shade: str) -> Any:
    colour = _colour(shade)
    if layer.geometryType() == QgsWkbTypes.GeometryType.PolygonGeometry:
        symbol = module.QgsPolygon3DSymbol()
        symbol.setExtrusionHeight(0.0)
        set_material(symbol, _matt(module, colour))
    elif layer.geometryType() == QgsWkbTypes.GeometryType.LineGeometry:
        symbol = module.QgsLine3DSymbol()
        symbol.setRenderAsSimpleLines(True)
        symbol.setWidth(WIDTHS_PX[table])
        material = module.QgsSimpleLineMaterialSettings()
        material.setAmbient(colour)
        set_material(symbol, material)
    else:
        symbol = module.QgsPoint3DSymbol()
        symbol.setShape(symbol.shapeFromString("sphere"))
        symbol.setShapeProperties({"radius": RADII_M[table] / _metres(layer)})
        set_material(symbol, _matt(module, colour))
    return symbol


def _matt(module: ModuleType, colour: QColor) -> Any:
    """A surface of one colour that does not shine."""
    material = module.QgsPhongMaterialSettings()
    material.setDiffuse(colour)
    material.setAmbient(colour.darker(DARKER))
    material.setSpecular(QColor(0, 0, 0))
    return material


def _colour(name: str) -> QColor:
    palette = json.loads((RESOURCES / "palette.json").read_text(encoding="utf-8"))
    return QColor(palette["colours"][name])


def _metres(layer: QgsVectorLayer) -> float:
    """The length unit of a layer's CRS, to what a symbol's size needs; 1 where it has no length."""
    unit, metre = layer.crs().mapUnits(), QgsUnitTypes.DistanceUnit.DistanceMeters
    is_length = QgsUnitTypes.unitType(unit) == QgsUnitTypes.DistanceUnitType.Standard
    return QgsUnitTypes.fromUnitToUnitFactor(unit, metre) if layer.crs().isValid() and is_length else 1.0
