# SPDX-License-Identifier: GPL-2.0-or-later
"""Styles of the ground and of what the trade checks: surfaces, depths, ponds, sections, gradients, trees, changes."""

from __future__ import annotations

from qgis.core import (
    QgsFillSymbol,
    QgsGeometryGeneratorSymbolLayer,
    QgsPalLayerSettings,
    QgsProperty,
    QgsRuleBasedRenderer,
    QgsSymbolLayer,
)
from qgis.PyQt.QtCore import Qt
from qgis.PyQt.QtGui import QColor
from style_signs import (
    COLOUR,
    UNIT,
    along,
    beside,
    dots,
    figure,
    fill,
    hatch,
    headed,
    labels,
    line,
    marker,
    number,
    outlined,
    over,
    rules,
    thin_outline,
)
from style_survey import fall_arrow, fall_label


def triangles() -> tuple[QgsRuleBasedRenderer, QgsPalLayerSettings]:
    """A built surface: thin triangles; those that no one should lean on are hatched, with a dashed edge."""
    made = labels('"surface"', 7)
    made.drawLabels = False
    sure = thin_outline()
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
