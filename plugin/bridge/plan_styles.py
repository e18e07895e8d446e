# SPDX-License-Identifier: GPL-2.0-or-later
"""How a plan looks on the map: kinds of line, shapes and letters, so that nothing hangs on a colour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsCategorizedSymbolRenderer,
    QgsFillSymbol,
    QgsLineSymbol,
    QgsMarkerLineSymbolLayer,
    QgsMarkerSymbol,
    QgsPalLayerSettings,
    QgsRendererCategory,
    QgsSingleSymbolRenderer,
    QgsTextBufferSettings,
    QgsTextFormat,
    QgsVectorLayerSimpleLabeling,
)
from qgis.PyQt.QtGui import QColor

from .palette import palette_colour
from .text import tr

if TYPE_CHECKING:
    from qgis.core import QgsVectorLayer

LABEL_SIZE = 9.0
"""Points."""


def style_lines(layer: QgsVectorLayer) -> None:
    """Planned walks: a dashed line with a ring at each station, and the feature's name."""
    blue, white = _name("blue"), _name("white")
    symbol = QgsLineSymbol.createSimple({"line_color": blue, "line_width": "0.5", "line_style": "dash"})
    stations = QgsMarkerLineSymbolLayer.create({"placement": "vertex", "placements": "Vertex"})
    ring = {"name": "circle", "color": white, "outline_color": blue, "outline_width": "0.4", "size": "2"}
    stations.setSubSymbol(QgsMarkerSymbol.createSimple(ring))
    symbol.appendSymbolLayer(stations)
    layer.setRenderer(QgsSingleSymbolRenderer(symbol))
    _label(layer, '"feature"', QgsPalLayerSettings.Placement.Line)


def style_marks(layer: QgsVectorLayer, column: str) -> None:
    """Planned marks: a triangle on its place, and the mark's letter."""
    shape = {
        "name": "triangle",
        "color": _name("yellow"),
        "outline_color": _name("black"),
        "outline_width": "0.4",
        "size": "4",
    }
    layer.setRenderer(QgsSingleSymbolRenderer(QgsMarkerSymbol.createSimple(shape)))
    _label(layer, f'"{column}"')


def style_ellipses(layer: QgsVectorLayer) -> None:
    """Expected ellipses: thin outlines, and the far corner's thick, dashed and with its figure."""
    told = (
        ("0", "sky_blue", "0.5", "solid", tr("station")),
        ("1", "vermillion", "0.8", "dash", tr("far corner")),
    )
    categories = []
    for value, colour, width, line, words in told:
        outline = {
            "style": "no",
            "outline_color": _name(colour),
            "outline_width": width,
            "outline_style": line,
        }
        categories.append(QgsRendererCategory(int(value), QgsFillSymbol.createSimple(outline), words))
    layer.setRenderer(QgsCategorizedSymbolRenderer("worst", categories))
    _label(layer, "CASE WHEN \"worst\" = 1 THEN '±' || round(\"major_m_95\", 2) || ' m' END")


def _label(
    layer: QgsVectorLayer,
    expression: str,
    placement: QgsPalLayerSettings.Placement = QgsPalLayerSettings.Placement.AroundPoint,
) -> None:
    buffer = QgsTextBufferSettings()
    buffer.setEnabled(True)
    buffer.setColor(QColor(_name("white")))
    text = QgsTextFormat()
    text.setSize(LABEL_SIZE)
    text.setColor(QColor(_name("black")))
    text.setBuffer(buffer)
    label = QgsPalLayerSettings()
    label.fieldName, label.isExpression = expression, True
    label.placement = placement
    label.setFormat(text)
    layer.setLabeling(QgsVectorLayerSimpleLabeling(label))
    layer.setLabelsEnabled(True)


def _name(colour: str) -> str:
    return str(palette_colour(colour).name())
