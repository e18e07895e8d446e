# SPDX-License-Identifier: GPL-2.0-or-later
"""Run inside QGIS by scripts/screenshot: open a project, wait until it is drawn, keep the window as a picture."""

from __future__ import annotations

import os

from qgis.core import QgsProject
from qgis.PyQt.QtCore import Qt, QTimer
from qgis.PyQt.QtWidgets import QDockWidget
from qgis.utils import iface

WIDTH, HEIGHT = 1600, 1000
QUALITY = 88
"""Of a JPEG: sharp letters at a quarter of a PNG's size."""
SETTLE_MS = 2500
"""The window lays itself out and the layer tree fills."""


def lay_out() -> None:
    """The project in view, nothing in front of it."""
    window = iface.mainWindow()
    window.setGeometry(0, 0, WIDTH, HEIGHT)
    iface.messageBar().clearWidgets()
    for panel in window.findChildren(QDockWidget):
        panel.setVisible(panel.objectName() == "Layers")
    window.resizeDocks([window.findChild(QDockWidget, "Layers")], [300], Qt.Orientation.Horizontal)
    canvas = iface.mapCanvas()
    survey = [
        layer for layer in QgsProject.instance().mapLayers().values() if layer.name() in {"Areas", "Lengths"}
    ]
    box = survey[0].extent()
    for layer in survey[1:]:
        if layer.featureCount():
            box.combineExtentWith(layer.extent())
    box.scale(1.15)
    canvas.setExtent(box)
    canvas.refresh()
    QTimer.singleShot(SETTLE_MS, keep)


def keep() -> None:
    """The picture, then out: a plain quit may ask to save."""
    iface.mapCanvas().waitWhileRendering()
    iface.mainWindow().grab().save(os.environ["SHOT_PICTURE"], quality=QUALITY)
    os._exit(0)


QgsProject.instance().read(os.environ["SHOT_PROJECT"])
QTimer.singleShot(SETTLE_MS, lay_out)
