# SPDX-License-Identifier: GPL-2.0-or-later
"""What differs between QGIS 3.22 and 4: the only place that asks which it is."""

from __future__ import annotations

from qgis.core import Qgis, QgsProcessingFeatureSource, QgsWkbTypes
from qgis.PyQt import QtGui, QtWidgets
from qgis.PyQt.QtCore import QMetaType, QVariant

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
