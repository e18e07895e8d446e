# SPDX-License-Identifier: GPL-2.0-or-later
"""How layers look, and which of their columns show, that the host loads when a run is over."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from qgis.core import (
    QgsConditionalStyle,
    QgsProcessingLayerPostProcessorInterface,
    QgsVectorLayer,
    QgsWkbTypes,
)
from qgis.PyQt import sip
from qgis.PyQt.QtXml import QDomDocument

from ..bridge.deepest import DEPTH_COLUMNS, tell_deepest
from ..bridge.palette import palette_colour
from ..bridge.resources import style_path
from .runs.noted import SURVEY_COLUMNS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from qgis.core import QgsMapLayer, QgsProcessingContext, QgsProcessingFeedback

AREAS, LINES = QgsWkbTypes.GeometryType.PolygonGeometry, QgsWkbTypes.GeometryType.LineGeometry
STYLES: dict[tuple[str, str], str | dict[QgsWkbTypes.GeometryType, str]] = {
    ("build_surface", "OUTPUT"): "triangles",
    ("build_surface", "CONTOURS"): "contours",
    ("measure_volumes", "THICKNESS"): "depths",
    ("measure_volumes", "ZERO_LINE"): "zero_line",
    ("find_low_points", "OUTPUT"): "ponds",
    ("find_low_points", "SPILLS"): "spills",
    ("find_low_points", "WAYS"): "water_ways",
    ("cut_sections", "SECTIONS"): "sections",
    ("measure_gradients", "OUTPUT"): {AREAS: "gradient_areas", LINES: "gradient_lines"},
    ("protect_trees", "OUTPUT"): "protection_circles",
    ("protect_trees", "OVERLAPS"): "overlaps",
    ("compare_surveys", "CHANGED"): "changed",
}
"""By algorithm and output; where the output is as its input is, by its geometry too."""
CHECKS = ("check_limits", "OUTPUT")
OUTCOMES = {"fail": "vermillion", "cannot tell": "orange", "pass": "bluish_green"}
"""Colours behind the words of a table of checks."""
EXACT_OF_SURVEY = re.compile(r"point_errors|shape|sizes_along")
EXACT_OF_TRIANGLES = re.compile(r"[abc]_\w+")
"""Two kinds of columns that hold exact numbers for later runs, which no one reads in a table."""
NAMED = re.compile(r"&quot;(\w+)&quot;")
"""A column's name in a style."""


class Styler(QgsProcessingLayerPostProcessorInterface):
    """Gives a layer its style as the host loads it, and hides columns that are for programs alone."""

    def __init__(self, algorithm: str, output: str) -> None:
        super().__init__()
        self._style = STYLES.get((algorithm, output), "")
        self._is_checks = (algorithm, output) == CHECKS

    def postProcessLayer(
        self, layer: QgsMapLayer, _context: QgsProcessingContext, _feedback: QgsProcessingFeedback
    ) -> None:
        if not isinstance(layer, QgsVectorLayer):
            return
        style = self._style
        if isinstance(style, dict):
            style = style.get(layer.geometryType(), "")
        if style:
            document = QDomDocument()
            document.setContent(_fitted(style, layer))
            layer.importNamedStyle(document)
            tell_deepest(layer, [_newest(layer, name) for name in DEPTH_COLUMNS.get(style, ())])
            layer.triggerRepaint()
        if self._is_checks:
            _colour_outcomes(layer)
        _hide(layer, style)


def _fitted(style: str, layer: QgsVectorLayer) -> str:
    """A style of ours for a layer that had columns of such names before."""
    text = style_path(style).read_text(encoding="utf-8")
    return NAMED.sub(lambda found: f"&quot;{_newest(layer, found[1])}&quot;", text)


def _newest(layer: QgsVectorLayer, column: str) -> str:
    """The column of a name that was added last: it has a number behind where the layer had such columns before."""
    number, told = 2, column
    while layer.fields().lookupField(f"{column}_{number}") >= 0:
        told = f"{column}_{number}"
        number += 1
    return told


def _colour_outcomes(layer: QgsVectorLayer) -> None:
    """The column of outcomes, each word on its colour."""
    styles = []
    for word, name in OUTCOMES.items():
        style = QgsConditionalStyle(f"@value = '{word}'")
        style.setBackgroundColor(palette_colour(name))
        style.setTextColor(palette_colour("black"))
        styles.append(style)
    layer.conditionalStyles().setFieldStyles("outcome", styles)


def _hide(layer: QgsVectorLayer, style: str) -> None:
    names = [field.name() for field in layer.fields()]
    hidden = set()
    if style == "triangles":
        hidden = set(filter(EXACT_OF_TRIANGLES.fullmatch, names))
    elif set(names) >= SURVEY_COLUMNS:
        hidden = set(filter(EXACT_OF_SURVEY.fullmatch, names))
    if hidden:
        hide_columns(layer, hidden)


def hide_columns(layer: QgsVectorLayer, hidden: Iterable[str]) -> None:
    """Columns that the layer's table does not show; they stay in their order, and whoever wants them can show them."""
    config = layer.attributeTableConfig()
    config.update(layer.fields())
    columns = config.columns()
    for column in columns:
        column.hidden = column.hidden or column.name in hidden
    config.setColumns(columns)
    layer.setAttributeTableConfig(config)


_KEPT: list[Styler] = []
"""The host holds only their addresses until it has deleted them."""


def present(context: QgsProcessingContext, destination: str, styler: Styler, title: str) -> None:
    """Say how a layer is to look and what it is to be called, where the host loads it when the run is over.

    Args:
        context: of the run.
        destination: where the layer is, as the host knows it.
        styler: what it gets.
        title: its name; empty where the host's own stays.
    """
    if not context.willLoadLayerOnCompletion(destination):
        return
    # Those of runs that are over were deleted with their contexts.
    _KEPT[:] = [kept for kept in _KEPT if not sip.isdeleted(kept)]
    _KEPT.append(styler)
    details = context.layerToLoadOnCompletionDetails(destination)
    details.setPostProcessor(styler)
    if title:
        details.name = title
