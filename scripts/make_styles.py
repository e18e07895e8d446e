# SPDX-License-Identifier: GPL-2.0-or-later
"""Write resources/styles/*.qml from resources/palette.json.

Every meaning shows twice, in colour and in hatch, line kind or letter, so that a plan copied in black and
white still reads. Sizes are millimetres on paper, chosen for 1:200 on A3. Needs QGIS's own Python.
"""

from __future__ import annotations

import json
import os
import re
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["QT_HASH_SEED"] = "0"  # the order of attributes is a hash's

from qgis.core import (
    QgsAbstractVectorLayerLabeling,
    QgsApplication,
    QgsFillSymbol,
    QgsGeometryGeneratorSymbolLayer,
    QgsLineSymbol,
    QgsMapLayer,
    QgsMarkerSymbol,
    QgsPalLayerSettings,
    QgsProperty,
    QgsReadWriteContext,
    QgsRuleBasedLabeling,
    QgsRuleBasedRenderer,
    QgsSymbol,
    QgsSymbolLayer,
    QgsTextBufferSettings,
    QgsTextFormat,
    QgsUnitTypes,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
    QgsWkbTypes,
)
from qgis.PyQt.QtCore import Qt
from qgis.PyQt.QtGui import QColor, QFont
from qgis.PyQt.QtXml import QDomDocument

ROOT = Path(__file__).parent.parent
STYLES = ROOT / "resources" / "styles"
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


def areas() -> tuple[QgsRuleBasedRenderer, list[tuple[str, QgsPalLayerSettings]]]:
    """Areas: by what becomes of them, with an arrow down their fall; a hole's own row is an outline only."""
    text = (
        "coalesce(\"feature\", '') || coalesce(' ' || \"part\", '') || "
        f"coalesce('\\n' || {figure('area_m2', 2, 2)}, coalesce('\\nno figures: ' || \"finding\", ''))"
    )
    made = labels(text, 8, bold=True, nearer=1200)
    made.placement = QgsPalLayerSettings.Placement.Horizontal
    made.fitInPolygonOnly = False
    made.multilineAlign = QgsPalLayerSettings.MultiLineAlign.MultiCenter
    made.priority = 9
    status = "lower(coalesce(\"status\", ''))"
    return (
        rules(
            (
                "No figures",
                '"finding" IS NOT NULL',
                fill("white", 0.5, "vermillion", 0.6, "dash", (hatch(0, 3, "vermillion", 0.25, "dash"),)),
            ),
            ("Hole", '"hole_in" IS NOT NULL AND "finding" IS NULL', fill("white", 0.5, "black", 0.3, "dot")),
            (
                "Existing",
                f'{status} = \'existing\' AND "hole_in" IS NULL AND "finding" IS NULL',
                fill("yellow", 0.3, "black", 0.35, "solid", (dots(3.5, "black"),)),
            ),
            (
                "To retain",
                f'{status} = \'retain\' AND "hole_in" IS NULL AND "finding" IS NULL',
                fill("bluish_green", 0.25, "black", 0.35, "dash dot", (hatch(90, 4, "bluish_green"),)),
            ),
            (
                "To remove",
                f'{status} = \'remove\' AND "hole_in" IS NULL AND "finding" IS NULL',
                fill(
                    "vermillion",
                    0.3,
                    "black",
                    0.35,
                    "dash",
                    (hatch(45, 4, "black", 0.18), hatch(135, 4, "black", 0.18)),
                ),
            ),
            (
                "New or not stated",
                f"{status} NOT IN ('existing', 'retain', 'remove') AND \"hole_in\" IS NULL AND \"finding\" IS NULL",
                fill("sky_blue", 0.28, "black", 0.4, "solid", (hatch(45, 5, "blue", 0.18),)),
            ),
            ("Falls this way", HAS_FALL, fall_arrow()),
        ),
        [(HAS_LABEL, made), (HAS_FALL, fall_label())],
    )


HAS_LABEL = "TRUE"
HAS_FALL = (
    '"hole_in" IS NULL AND "finding" IS NULL AND "fall_bearing_deg" IS NOT NULL '
    f'AND "fall_ratio" > {COVER_95} * coalesce("fall_ratio_sigma", 0)'
)
"""Areas whose fall is sure enough to have a direction."""
NARROW = 0.25
"""Radius of the largest circle in an area by the root of the area, below which the area has no room for an arrow and its
name."""
INSIDE, BESIDE = (0.8, 0.5), (0.2, 0.3)
"""Half of a fall's arrow, and how far to the right of the fall it lies off the middle: by the radius of the largest circle
in the area, in which the arrow then ends; of a narrow area by the root of the area."""


def fall_line() -> str:
    """From high to low, beside the roomiest place in the area, as an expression."""
    down, right = 'radians("fall_bearing_deg")', 'radians("fall_bearing_deg" + 90)'
    root, radius = "sqrt(area($geometry))", "distance(@room, boundary($geometry))"
    half, away = (
        f"if(@radius < {NARROW} * {root}, {beside} * {root}, {inside} * @radius)"
        for inside, beside in zip(INSIDE, BESIDE)
    )
    ends = (f"project(project(@room, {away}, {right}), {sign}({half}), {down})" for sign in ("-", ""))
    room = f"pole_of_inaccessibility($geometry, 0.02 * {root})"
    return f"with_variable('room', {room}, with_variable('radius', {radius}, make_line({', '.join(ends)})))"


def fall_arrow() -> QgsFillSymbol:
    """An arrow along the fall, to its low end."""
    symbol = QgsFillSymbol()
    made = QgsGeometryGeneratorSymbolLayer.create({"geometryModifier": fall_line(), "SymbolType": "Line"})
    made.setSubSymbol(headed(line("black", 0.45, halo=True)))
    symbol.changeSymbolLayer(0, made)
    return symbol


def headed(symbol: QgsLineSymbol) -> QgsLineSymbol:
    """A line with an arrow head at its end."""
    head = layer_of("MarkerLine", placement="lastvertex")
    head.setSubSymbol(marker("filled_arrowhead", "black", 2.8, "white", 0.2))
    symbol.appendSymbolLayer(head)
    return symbol


def fall_label() -> QgsPalLayerSettings:
    """The fall in percent, along its arrow."""
    made = along(labels("format_number(100 * \"fall_ratio\", 1) || ' %'", 7.5, bold=True, nearer=1200))
    made.geometryGenerator, made.geometryGeneratorEnabled = fall_line(), True
    made.geometryGeneratorType = QgsWkbTypes.GeometryType.LineGeometry
    made.placement = QgsPalLayerSettings.Placement.Line
    made.priority = 8
    return made


def lengths() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Lengths: a heavy line with its name and length along it."""
    text = (
        "coalesce(\"feature\", '') || coalesce(' ' || \"part\", '') || "
        f"coalesce('  ' || {figure('length_m', 2)}, coalesce('  no figures: ' || \"finding\", ''))"
    )
    made = along(labels(text, 7.5, "blue", bold=True))
    status = "lower(coalesce(\"status\", ''))"
    return (
        rules(
            ("No figures", '"finding" IS NOT NULL', line("vermillion", 0.7, "dash", halo=True)),
            (
                "To remove",
                f"{status} = 'remove' AND \"finding\" IS NULL",
                line("vermillion", 0.7, "dash dot", halo=True),
            ),
            (
                "Existing or to retain",
                f"{status} IN ('existing', 'retain') AND \"finding\" IS NULL",
                line("black", 0.7, "dot", halo=True),
            ),
            ("New or not stated", "ELSE", line("blue", 0.8, halo=True)),
        ),
        made,
    )


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


def sides() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Sides: their lengths, and the radius of a curved one."""
    length, radius = number('"length_m"', 2), number('"radius_m"', 2)
    text = f"coalesce({length} || coalesce('  R ' || {radius}, ''), '')"
    return (
        rules(
            ("Shared with a neighbour", '"other" IS NOT NULL', line("reddish_purple", 0.45, "dash dot")),
            ("Curved side", '"radius_m" IS NOT NULL AND "other" IS NULL', line("bluish_green", 0.45, "dash")),
            ("Side", "ELSE", line("black", 0.3)),
        ),
        along(labels(text, 6.5, nearer=500)),
    )


def legs() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Legs: the way walked, with rise by run in per cent."""
    text = "CASE WHEN \"gradient_ratio\" IS NOT NULL THEN format_number(100 * \"gradient_ratio\", 1) || ' %' ELSE '' END"
    made = along(labels(text, 6, "reddish_purple", nearer=400))
    return rules(("Leg, as walked", "ELSE", arrow("reddish_purple"))), made


def beside(made: QgsPalLayerSettings, distance: float = 1.5) -> QgsPalLayerSettings:
    """The labels put where there is room round the point."""
    made.placement = QgsPalLayerSettings.Placement.OrderedPositionsAroundPoint
    made.dist = distance
    made.priority = 7
    return made


def spots() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Spots: a cross with its height."""
    height = number('"height_m"', 3)
    text = f"coalesce({height}, \"feature\", '')"
    cross = over(marker("cross2", "white", 2.6, "white", 0.8), marker("cross2", "black", 2.0, "black", 0.35))
    gap = over(
        marker("cross2", "white", 2.6, "white", 0.8), marker("cross2", "vermillion", 2.0, "vermillion", 0.35)
    )
    return (
        rules(("No figures", '"finding" IS NOT NULL', gap), ("Spot", "ELSE", cross)),
        beside(labels(text, 6.5, nearer=600)),
    )


def stations() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Stations: a small ring with the number, and the height below it."""
    height = number('"z_m"', 3)
    text = f"coalesce(\"walk\" || ':', '') || \"station\" || coalesce('\\n' || {height}, '')"
    ring = marker("circle", "white", 1.2, "black", 0.25)
    return rules(("Station", "ELSE", ring)), beside(labels(text, 5, nearer=150), 1.0)


def marks() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Marks: a triangle with the name."""
    sign = over(
        marker("triangle", "white", 4.6, "white"),
        marker("triangle", "orange", 3.8, "black", 0.4),
        marker("circle", "black", 0.7),
    )
    made = beside(labels('"mark"', 9, bold=True, nearer=5000), 2.2)
    made.priority = 10
    return rules(("Mark", "ELSE", sign)), made


def finding_places() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Findings at their places: a square stops, a diamond asks, a dot is a note; an answered one is hollow."""
    text = 'CASE WHEN "severity" <> \'note\' AND "answer" IS NULL THEN "code" ELSE \'\' END'
    made = beside(labels(text, 8, "vermillion", bold=True, nearer=2500), 2.2)
    made.priority = 10
    is_open = '"answer" IS NULL'
    return (
        rules(
            (
                "Stop",
                f"\"severity\" = 'stop' AND {is_open}",
                over(marker("square", "white", 4.8), marker("square", "vermillion", 3.8, "black", 0.4)),
            ),
            (
                "Ask",
                f"\"severity\" = 'ask' AND {is_open}",
                over(marker("diamond", "white", 5.0), marker("diamond", "yellow", 4.0, "black", 0.4)),
            ),
            ("Answered", '"answer" IS NOT NULL', marker("diamond", "white", 2.6, "black", 0.3)),
            ("Note", "ELSE", marker("circle", "sky_blue", 1.8, "black", 0.2)),
        ),
        made,
    )


def surfaces() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Surfaces: thin triangles, nothing over the ground; no label, for one surface has thousands."""
    made = labels('"name"', 7)
    made.drawLabels = False
    symbol = QgsFillSymbol.createSimple(
        {
            "style": "no",
            "color": colour("white"),
            "outline_color": colour("black", 0.5),
            "outline_width": "0.1",
        }
    )
    return rules(("Surface", "ELSE", symbol)), made


def triangles() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """A built surface: thin triangles; those that no one should lean on are hatched, with a dashed edge."""
    made = labels('"surface"', 7)
    made.drawLabels = False
    sure = QgsFillSymbol.createSimple(
        {
            "style": "no",
            "color": colour("white"),
            "outline_color": colour("black", 0.5),
            "outline_width": "0.1",
        }
    )
    weak = sure.clone()
    weak.symbolLayer(0).setStrokeStyle(Qt.PenStyle.DashLine)
    weak.appendSymbolLayer(hatch(135, 1.6, "vermillion", 0.3))
    return rules(("Weak", "\"is_weak\" = 'yes'", weak), ("Triangle", "ELSE", sure)), made


def contours() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Contours with their heights on the line; full metres heavier."""
    height = number('"height_m"', 2)
    made = labels(f"coalesce({height}, '')", 7, nearer=1500)
    made.placement = QgsPalLayerSettings.Placement.Curved
    made.placementFlags = 1  # on the line: the halo breaks it
    made.repeatDistance = 60
    made.maxCurvedCharAngleIn, made.maxCurvedCharAngleOut = 40, -40
    # Weak is a whole contour of which any part is: the hatched triangles below it show which.
    is_full = 'abs("height_m" - round("height_m")) < 1e-6'
    return (
        rules(
            ("Contour of a full metre", is_full, line("black", 0.5, halo=True)),
            ("Contour", "ELSE", line("black", 0.2, halo=True)),
        ),
        made,
    )


def depths() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Classes of depth: cut and fill by colour, by the way their hatch runs and by a letter; the deeper, the darker."""
    low, high = number('"depth_from_m"', 2), number('"depth_to_m"', 2)
    shallow, deep = number('-"depth_to_m"', 2), number('-"depth_from_m"', 2)
    text = (
        f"CASE WHEN \"depth_to_m\" > 0 THEN 'C ' || {low} || ' to ' || {high} "
        f"WHEN \"depth_from_m\" < 0 THEN 'F ' || {shallow} || ' to ' || {deep} ELSE 'level' END"
    )
    made = labels(text, 7, nearer=1000)
    made.placement = QgsPalLayerSettings.Placement.Horizontal
    share = shade_of('max(abs("depth_from_m"), abs("depth_to_m"))')
    return (
        rules(
            ("Cut (C), darker where deeper", '"depth_to_m" > 0', deeper("vermillion", share, 45)),
            ("Fill (F), darker where deeper", '"depth_from_m" < 0', deeper("blue", share, 135)),
            ("Level", "ELSE", fill("white", 0.3, "black", 0.15, "dot")),
        ),
        made,
    )


def ponds() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Ponds: level lines of water, darker where deeper, with their depth; one that nobody can tell is dotted."""
    level = number('"level_m"', 3)
    text = f"{figure('depth_m', 3)} || '\\n' || {level}"
    made = labels(f"coalesce({text}, '')", 7, "blue", bold=True, nearer=1000)
    made.placement = QgsPalLayerSettings.Placement.Horizontal
    share = shade_of('"depth_m"')
    unsure = fill("sky_blue", 0.2, "blue", 0.3, "dash", (dots(2.0, "blue", 0.5),))
    return (
        rules(
            ("Pond, darker where deeper", "\"outcome\" = 'pond'", deeper("sky_blue", share, 0)),
            ("Cannot tell", "ELSE", unsure),
        ),
        made,
    )


def spills() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Where ponds spill: a wedge that points down, with its level."""
    level = number('"level_m"', 3)
    made = beside(labels(f"coalesce({level}, '')", 7, "blue", bold=True, nearer=800), 1.8)
    sign = over(marker("triangle", "white", 4.2), marker("triangle", "blue", 3.2, "black", 0.3))
    sign.setAngle(180)
    return rules(("Spills here, at this level", "ELSE", sign)), made


def water_ways() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Ways of the water from a spill on, with an arrow at the end, and what it runs into."""
    made = along(labels("coalesce('to ' || \"runs_into\", '')", 6.5, "blue", nearer=800))
    return rules(("Water runs this way", "ELSE", headed(line("blue", 0.45, "dash", halo=True)))), made


def shade_of(depth: str) -> str:
    """How deep a row is in its layer, 0 to 1 (plugin/bridge/deepest.py); the middle where the layer tells no depths."""
    return f"coalesce(min(1, {depth} / @deepest_m), 0.5)"


def deeper(name: str, share: str, angle: float) -> QgsFillSymbol:
    """A hatched area that is tinted the more, the larger its share is."""
    symbol = fill(name, 0.5, "black", 0.12, "solid", (hatch(angle, 2.5, "black", 0.18),))
    shade = QColor(COLOUR[name])
    tint = f"color_rgba({shade.red()}, {shade.green()}, {shade.blue()}, 40 + 170 * ({share}))"
    symbol.symbolLayer(1).setDataDefinedProperty(
        QgsSymbolLayer.Property.PropertyFillColor, QgsProperty.fromExpression(tint)
    )
    return symbol


def zero_line() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """The line between cut and fill: heavy, dash dot, with a nought."""
    made = along(labels("'0'", 8, bold=True, nearer=1000))
    return rules(("No cut, no fill", "ELSE", line("black", 0.6, "dash dot", halo=True))), made


def sections() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Sections: where each was cut, with its chainage along the baseline, or its name where there is none."""
    chainage = number('"station_m"', 2)
    text = f"coalesce({chainage}, \"section\", '')"
    return rules(("Section", "ELSE", line("black", 0.4, "dash dot", halo=True))), along(
        labels(text, 7, bold=True, nearer=1500)
    )


IS_MEASURED = '"fall_ratio" IS NOT NULL'
FALLS = '"fall_ratio" IS NOT NULL AND "fall_bearing_deg" IS NOT NULL'
PERCENT = "coalesce(format_number(100 * \"fall_ratio\", 1) || ' %', '')"


def gradient_areas() -> tuple[QgsRuleBasedRenderer, list[tuple[str, QgsPalLayerSettings]]]:
    """Falls of areas: an outline, and an arrow down the fall with its percent."""
    outline = fill("white", 0.0, "black", 0.3)
    none = fill("white", 0.0, "vermillion", 0.5, "dash", (hatch(0, 3, "vermillion", 0.25, "dash"),))
    return (
        rules(
            ("No figures", '"fall_ratio" IS NULL', none),
            ("Measured", IS_MEASURED, outline),
            ("Falls this way", FALLS, fall_arrow()),
        ),
        [(FALLS, fall_label())],
    )


def gradient_lines() -> tuple[QgsRuleBasedRenderer, list[tuple[str, QgsPalLayerSettings]]]:
    """Gradients of lines: the line, with an arrow over its middle that points down, and the percent."""
    down = 'radians("fall_bearing_deg")'
    ends = (f"project(@middle, {part} * length($geometry), {down})" for part in (-0.1, 0.1))
    middle = "line_interpolate_point($geometry, length($geometry) / 2)"
    made = f"with_variable('middle', {middle}, make_line({', '.join(ends)}))"
    over = QgsGeometryGeneratorSymbolLayer.create({"geometryModifier": made, "SymbolType": "Line"})
    over.setSubSymbol(headed(line("black", 0.45, halo=True)))
    falls = line("blue", 0.5, halo=True)
    falls.appendSymbolLayer(over)
    made = along(labels(PERCENT, 7.5, bold=True, nearer=1200))
    return (
        rules(
            ("No figures", '"fall_ratio" IS NULL', line("vermillion", 0.5, "dash", halo=True)),
            ("Falls this way", FALLS, falls),
            ("Level", f'{IS_MEASURED} AND "fall_bearing_deg" IS NULL', line("blue", 0.5, "dot", halo=True)),
        ),
        [(IS_MEASURED, made)],
    )


def protection_circles() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """Protection circles: a ring with its radius; where works take something of it, a heavier one of dashes."""
    radius = number('"radius_m"', 2)
    made = labels(f"coalesce('R ' || {radius} || ' ' || {UNIT}, '')", 7, bold=True, nearer=1200)
    made.placement = QgsPalLayerSettings.Placement.Horizontal
    taken = '"taken_m2" > 0'
    return (
        rules(
            ("Works inside", taken, fill("white", 0.0, "vermillion", 0.7, "dash")),
            ("Tree protection", "ELSE", fill("white", 0.0, "bluish_green", 0.5, "dash dot")),
        ),
        made,
    )


def overlaps() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """What works take of protection circles, hatched over the ground."""
    made = labels(f"coalesce({figure('overlap_m2', 2, 2)}, '')", 7, "vermillion", bold=True, nearer=800)
    made.placement = QgsPalLayerSettings.Placement.Horizontal
    taken = fill("white", 0.0, "vermillion", 0.3, "solid", (hatch(45, 2.5, "vermillion", 0.25),))
    return rules(("Taken by works", "ELSE", taken)), made


def changed() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """What changed between two surveys: by colour, hatch and letter."""
    letter = "CASE WHEN \"outcome\" = 'added' THEN 'A' WHEN \"outcome\" = 'gone' THEN 'G' ELSE 'C' END"
    text = f"({letter}) || coalesce(' ' || \"feature\", '') || coalesce('\\n' || \"change\", '')"
    made = labels(text, 7, bold=True, nearer=1200)
    made.placement = QgsPalLayerSettings.Placement.Horizontal
    return (
        rules(
            (
                "Added (A)",
                "\"outcome\" = 'added'",
                outlined("bluish_green", "solid", hatch(90, 3, "bluish_green")),
            ),
            ("Gone (G)", "\"outcome\" = 'gone'", outlined("vermillion", "dash", hatch(0, 3, "vermillion"))),
            ("Changed (C)", "ELSE", outlined("blue", "dash dot", hatch(45, 3, "blue"))),
        ),
        made,
    )


def outlined(name: str, style: str, over: QgsSymbolLayer) -> QgsFillSymbol:
    """A hatched area that the ground is seen through."""
    return fill("white", 0.0, name, 0.5, style, (over,))


MADE = {
    "triangles": ("PolygonZ", triangles),
    "contours": ("LineStringZ", contours),
    "depths": ("MultiPolygon", depths),
    "zero_line": ("LineStringZ", zero_line),
    "ponds": ("MultiPolygonZ", ponds),
    "spills": ("PointZ", spills),
    "water_ways": ("LineStringZ", water_ways),
    "sections": ("MultiLineStringZ", sections),
    "gradient_areas": ("PolygonZ", gradient_areas),
    "gradient_lines": ("LineStringZ", gradient_lines),
    "protection_circles": ("CurvePolygon", protection_circles),
    "overlaps": ("MultiPolygon", overlaps),
    "changed": ("MultiPolygon", changed),
    "areas": ("CurvePolygonZ", areas),
    "lengths": ("CompoundCurveZ", lengths),
    "spots": ("PointZ", spots),
    "stations": ("PointZ", stations),
    "sides": ("CompoundCurveZ", sides),
    "legs": ("CompoundCurveZ", legs),
    "marks": ("PointZ", marks),
    "finding_places": ("Point", finding_places),
    "surfaces": ("MultiPolygonZ", surfaces),
}


def write_style(table: str, geometry: str, make: object) -> None:
    """One .qml: symbols and labels only, so that it fits a layer whatever columns were added."""
    layer = QgsVectorLayer(f"{geometry}?crs=EPSG:25831", table, "memory")
    renderer, labelling = make()
    layer.setRenderer(renderer)
    layer.setLabeling(labelling_of(labelling))
    layer.setLabelsEnabled(True)
    document = QDomDocument()
    parts = QgsMapLayer.StyleCategory
    context = QgsReadWriteContext()  # kept in a name: the host holds only its address
    layer.exportNamedStyle(document, context, QgsMapLayer.StyleCategories(parts.Symbology | parts.Labeling))
    (STYLES / f"{table}.qml").write_text(steady(document.toString(1)), encoding="utf-8")


def labelling_of(made: QgsPalLayerSettings | list) -> QgsAbstractVectorLayerLabeling:
    """One kind of label, or several by the rows that have them."""
    if isinstance(made, QgsPalLayerSettings):
        return QgsVectorLayerSimpleLabeling(made)
    root = QgsRuleBasedLabeling.Rule(None)
    root.setRuleKey("root")
    for number, (wanted, settings) in enumerate(made):
        rule = QgsRuleBasedLabeling.Rule(settings, 0, 0, wanted)
        rule.setRuleKey(f"rule-{number}")
        root.appendChild(rule)
    return QgsRuleBasedLabeling(root)


def steady(text: str) -> str:
    """The style without what changes from run to run: generated ids, and the order of attributes."""
    text = re.sub(r"\n\s*<prop [^>]*/>", "", text)  # doubles of <Option>, for hosts older than ours
    text = re.sub(r'\n\s*<Option [^>]*value="3x:0,0,0,0,0,0"[^>]*/>', "", text)  # the default
    text = re.sub(r"\{[0-9a-f]{8}-[0-9a-f-]{27}\}", "", text)
    return re.sub(r"<([\w-]+)((?: [\w:-]+=\"[^\"]*\")+)", _sorted_attributes, text)


def _sorted_attributes(tag: re.Match) -> str:
    return f"<{tag[1]} " + " ".join(sorted(re.findall(r"[\w:-]+=\"[^\"]*\"", tag[2])))


def main() -> None:
    """Write all styles."""
    application = QgsApplication([], False)
    application.initQgis()
    STYLES.mkdir(parents=True, exist_ok=True)
    for table, (geometry, make) in MADE.items():
        write_style(table, geometry, make)
    application.exitQgis()


if __name__ == "__main__":
    main()
