# SPDX-License-Identifier: GPL-2.0-or-later
"""What differs between QGIS 3.22 and 4: the only place that asks which it is."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

from qgis.core import Qgis, QgsProcessingFeatureSource, QgsWkbTypes
from qgis.PyQt import QtGui, QtWidgets
from qgis.PyQt.QtCore import QMetaType, QVariant

if TYPE_CHECKING:
    from types import ModuleType

    from qgis.core import QgsProject

QAction = getattr(QtWidgets, "QAction", None) or QtGui.QAction
"""Qt 5 keeps it among the widgets, Qt 6 does not."""

_META_FIELDS_SINCE = 33800

if Qgis.QGIS_VERSION_INT >= _META_FIELDS_SINCE:
    TEXT_TYPE, REAL_TYPE, WHOLE_TYPE = QMetaType.Type.QString, QMetaType.Type.Double, QMetaType.Type.LongLong
else:
    TEXT_TYPE, REAL_TYPE, WHOLE_TYPE = QVariant.Type.String, QVariant.Type.Double, QVariant.Type.LongLong


def geometry_type(code: int | None) -> QgsWkbTypes.Type:
    """The host's geometry type for an ISO code with z; no geometry for None."""
    return QgsWkbTypes.Type.NoGeometry if code is None else QgsWkbTypes.Type(code)


IGNORE_INVALID = getattr(
    QgsProcessingFeatureSource, "Flag", QgsProcessingFeatureSource
).FlagSkipGeometryValidityChecks
"""Take a layer's features as they are: what is wrong with one is told in its row."""


def module_3d() -> ModuleType | None:
    """The host's module of 3D symbols; None of a host that was built without it."""
    try:
        return importlib.import_module("qgis._3d")
    except ImportError:
        return None


def clamping_3d(module: ModuleType, *, to_terrain: bool) -> Any:
    """How a 3D symbol takes heights: from the terrain, else from its geometry as they stand there."""
    scope = getattr(Qgis, "AltitudeClamping", None)
    if scope is not None:
        return scope.Terrain if to_terrain else scope.Absolute
    older = module.Qgs3DTypes
    return older.AltClampTerrain if to_terrain else older.AltClampAbsolute


def set_material(symbol: Any, material: Any) -> None:
    """Give a 3D symbol its material."""
    put = getattr(symbol, "setMaterialSettings", None) or symbol.setMaterial
    put(material)


def material_of(symbol: Any) -> Any:
    """The material of a 3D symbol."""
    take = getattr(symbol, "materialSettings", None) or symbol.material
    return take()


def set_flat_terrain(project: QgsProject, height: float) -> None:
    """Let the project's terrain be level at a height in its CRS's unit; 3.22 has none, its 3D views bring their own."""
    if hasattr(project, "elevationProperties"):
        from qgis.core import QgsFlatTerrainProvider

        terrain = QgsFlatTerrainProvider()
        terrain.setOffset(height)
        project.elevationProperties().setTerrainProvider(terrain)


def feature_triggered(action: Any) -> Any:
    """The signal of a layer's action on one feature: (layer, feature), since 3.30 with a context behind."""
    return getattr(action, "triggeredForFeatureV2", None) or action.triggeredForFeature


def pixel_of(event: Any) -> Any:
    """The place of a mouse event in its widget, pixels: Qt 6 gives it as `position`, Qt 5 as `localPos`."""
    place = getattr(event, "position", None) or event.localPos
    return place().toPoint()
