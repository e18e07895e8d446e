# SPDX-License-Identifier: GPL-2.0-or-later
"""Styles of a survey's own layers.

Every meaning shows twice, in colour and in hatch, line kind or letter, so that a plan copied in black and white still reads.
"""

from __future__ import annotations

from qgis.core import (
    QgsFillSymbol,
    QgsGeometryGeneratorSymbolLayer,
    QgsPalLayerSettings,
    QgsRuleBasedRenderer,
    QgsWkbTypes,
)
from style_signs import (
    COVER_95,
    along,
    arrow,
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
    over,
    rules,
    thin_outline,
)


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
    return rules(("Surface", "ELSE", thin_outline())), made
