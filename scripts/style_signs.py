# SPDX-License-Identifier: GPL-2.0-or-later
"""Signs that the styles are made of: colours, hatches, lines, markers, rules and labels.

Sizes are millimetres on paper, chosen for 1:200 on A3.
"""

from __future__ import annotations

import json
from pathlib import Path

from qgis.core import (
    QgsApplication,
    QgsFillSymbol,
    QgsLineSymbol,
    QgsMarkerSymbol,
    QgsPalLayerSettings,
    QgsRuleBasedRenderer,
    QgsSymbol,
    QgsSymbolLayer,
    QgsTextBufferSettings,
    QgsTextFormat,
    QgsUnitTypes,
)
from qgis.PyQt.QtGui import QColor, QFont

ROOT = Path(__file__).parent.parent
COLOUR = json.loads((ROOT / "resources" / "palette.json").read_text(encoding="utf-8"))["colours"]
COVER_95 = "1.96"
FONT = "DejaVu Sans"


def colour(name: str, alpha: float = 1.0) -> str:
    """A palette colour as the host writes it: red, green, blue, alpha."""
    shade = QColor(COLOUR[name])
    return f"{shade.red()},{shade.green()},{shade.blue()},{round(255 * alpha)}"


def layer_of(layer_class: str, **settings: object) -> QgsSymbolLayer:
    """One layer of a symbol by its host class, from a registry lookup."""
    registry = QgsApplication.symbolLayerRegistry()
    return registry.symbolLayerMetadata(layer_class).createSymbolLayer(
        {k: str(v) for k, v in settings.items()}
    )


def hatch(
    angle: float, distance: float, name: str, width: float = 0.25, style: str = "solid"
) -> QgsSymbolLayer:
    """Parallel lines over an area."""
    made = layer_of("LinePatternFill", angle=angle, distance=distance, distance_unit="MM")
    line = QgsLineSymbol.createSimple({"color": colour(name), "width": str(width), "line_style": style})
    made.setSubSymbol(line)
    return made


def dots(distance: float, name: str, size: float = 0.6) -> QgsSymbolLayer:
    """Dots over an area."""
    made = layer_of("PointPatternFill", distance_x=distance, distance_y=distance, displacement_x=distance / 2)
    dot = QgsMarkerSymbol.createSimple(
        {"name": "circle", "color": colour(name), "size": str(size), "outline_style": "no"}
    )
    made.setSubSymbol(dot)
    return made


def fill(
    name: str, alpha: float, line: str, width: float, style: str = "solid", over: tuple = ()
) -> QgsFillSymbol:
    """A tinted area with an outline and hatches; a white band below the outline parts it from a picture."""
    symbol = QgsFillSymbol.createSimple(
        {
            "color": colour("white"),
            "style": "no",
            "outline_color": colour("white", 0.75),
            "outline_width": str(width + 0.8),
        }
    )
    base = layer_of(
        "SimpleFill",
        color=colour(name, alpha),
        style="solid" if alpha else "no",
        outline_color=colour(line),
        outline_width=str(width),
        outline_style=style,
    )
    for layer in (base, *over):
        symbol.appendSymbolLayer(layer)
    return symbol


def line(name: str, width: float, style: str = "solid", *, halo: bool = False) -> QgsLineSymbol:
    """A line, on a white halo where it must show over a picture."""
    ends = {"capstyle": "round", "joinstyle": "round"}
    upper = {"line_color": colour(name), "line_width": str(width), "line_style": style, **ends}
    if not halo:
        return QgsLineSymbol.createSimple(upper)
    symbol = QgsLineSymbol.createSimple(
        {"line_color": colour("white", 0.8), "line_width": str(width + 0.8), **ends}
    )
    symbol.appendSymbolLayer(layer_of("SimpleLine", **upper))
    return symbol


def arrow(name: str) -> QgsLineSymbol:
    """A thin line with an open arrow head in its middle, along the walk."""
    symbol = line(name, 0.25)
    head = layer_of("MarkerLine", placement="centralpoint")
    head.setSubSymbol(
        QgsMarkerSymbol.createSimple(
            {
                "name": "arrowhead",
                "color": colour(name),
                "size": "2.2",
                "outline_color": colour(name),
                "outline_width": "0.3",
            }
        )
    )
    symbol.appendSymbolLayer(head)
    return symbol


def marker(shape: str, name: str, size: float, edge: str = "white", width: float = 0.2) -> QgsMarkerSymbol:
    """A point sign."""
    return QgsMarkerSymbol.createSimple(
        {
            "name": shape,
            "color": colour(name),
            "size": str(size),
            "outline_color": colour(edge),
            "outline_width": str(width),
        }
    )


def over(*markers: QgsMarkerSymbol) -> QgsMarkerSymbol:
    """Signs drawn on one another, the first lowest."""
    symbol = markers[0].clone()
    for upper in markers[1:]:
        symbol.appendSymbolLayer(upper.symbolLayer(0).clone())
    return symbol


def rules(*entries: tuple[str, str, QgsSymbol]) -> QgsRuleBasedRenderer:
    """A renderer of label, filter and symbol; the filter ELSE takes what is left."""
    root = QgsRuleBasedRenderer.Rule(None)
    root.setRuleKey("root")
    for number, (label, wanted, symbol) in enumerate(entries):
        rule = QgsRuleBasedRenderer.Rule(symbol, 0, 0, wanted, label)
        rule.setRuleKey(f"rule-{number}")
        root.appendChild(rule)
    return QgsRuleBasedRenderer(root)


def labels(
    text: str, size: float, name: str = "black", *, bold: bool = False, nearer: int = 800
) -> QgsPalLayerSettings:
    """Labels with a white buffer, shown nearer than 1:`nearer`; size in points."""
    form = QgsTextFormat()
    font = QFont(FONT)
    font.setBold(bold)
    form.setFont(font)
    form.setSize(size)
    form.setSizeUnit(QgsUnitTypes.RenderUnit.RenderPoints)
    form.setColor(QColor(COLOUR[name]))
    halo = QgsTextBufferSettings()
    halo.setEnabled(True)
    halo.setSize(0.8)
    halo.setColor(QColor(COLOUR["white"]))
    form.setBuffer(halo)
    made = QgsPalLayerSettings()
    made.fieldName, made.isExpression = text, True
    made.setFormat(form)
    made.scaleVisibility, made.minimumScale, made.maximumScale = True, nearer, 1
    return made


UNIT_M, UNIT = "coalesce(@survey_unit_m, 1)", "coalesce(@survey_unit, 'm')"
"""The project's display unit: two project variables that anyone can change without touching a stored figure."""


def number(value: str, places: int, power: int = 1) -> str:
    """A stored metre figure in the display unit, as an expression."""
    return f"format_number({value} / {UNIT_M} ^ {power}, {places})"


def figure(column: str, places: int, power: int = 1) -> str:
    """A figure with its 95 % figure and unit, as an expression; nothing where there is none."""
    value, half = f'"{column}"', f'{COVER_95} * "{column}_sigma"'
    sign = {1: "", 2: "²"}[power]
    return f"({number(value, places, power)} || ' ± ' || {number(half, places, power)} || ' ' || {UNIT} || '{sign}')"


def headed(symbol: QgsLineSymbol) -> QgsLineSymbol:
    """A line with an arrow head at its end."""
    head = layer_of("MarkerLine", placement="lastvertex")
    head.setSubSymbol(marker("filled_arrowhead", "black", 2.8, "white", 0.2))
    symbol.appendSymbolLayer(head)
    return symbol


def along(made: QgsPalLayerSettings) -> QgsPalLayerSettings:
    """The labels set along the line, above it."""
    made.placement = QgsPalLayerSettings.Placement.Curved
    flags = (
        QgsPalLayerSettings.LinePlacementFlags if hasattr(QgsPalLayerSettings, "LinePlacementFlags") else None
    )
    made.placementFlags = (
        QgsPalLayerSettings.LinePlacementFlags.AboveLine if flags and hasattr(flags, "AboveLine") else 2
    )
    made.dist = 0.6
    made.maxCurvedCharAngleIn, made.maxCurvedCharAngleOut = 40, -40
    return made


def beside(made: QgsPalLayerSettings, distance: float = 1.5) -> QgsPalLayerSettings:
    """The labels put where there is room round the point."""
    made.placement = QgsPalLayerSettings.Placement.OrderedPositionsAroundPoint
    made.dist = distance
    made.priority = 7
    return made


def outlined(name: str, style: str, over: QgsSymbolLayer) -> QgsFillSymbol:
    """A hatched area that the ground is seen through."""
    return fill("white", 0.0, name, 0.5, style, (over,))


def thin_outline() -> QgsFillSymbol:
    """A triangle of a surface: the ground is seen through it."""
    return QgsFillSymbol.createSimple(
        {
            "style": "no",
            "color": colour("white"),
            "outline_color": colour("black", 0.5),
            "outline_width": "0.1",
        }
    )
