# SPDX-License-Identifier: GPL-2.0-or-later
"""The working of a figure that was measured on any layer: no stations, but its points, in true metres on the ground."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from qgis.core import QgsVectorLayer

from ..core.errors import BadInput
from ..core.measure.layer.explained import GroundShape, ground_shape
from ..core.measure.parts import Part
from ..core.quantity import COVER_95
from .measured import ASSUMED
from .sources import ground_of, shapes_of
from .text import tr
from .working import BehindStation, Working, survey_table, told_parts
from .working_words import (
    ACCURACY,
    Told,
    explain_area,
    explain_gradient,
    explain_length,
    explain_rise,
    explain_slope_length,
    figure_title,
    figure_words,
    number,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsFeature, QgsMapLayer

MEASURED = (
    "area_m2",
    "perimeter_m",
    "sloped_area_m2",
    "length_m",
    "slope_length_m",
    "rise_m",
    "gradient_ratio",
)
"""The columns of measured layers that can be worked out, the main ones first."""
HEIGHT = re.compile(r"height (-?[0-9.]+(?:e[+-]?[0-9]+)?) m")
"""In the `method` of a measured row: the height that its lengths were taken at."""
HEIGHT_ROUNDING = 1e-8
"""Of a length: what half of a decimetre of height, to which `method` gives it, changes."""


def has_workings(layer: QgsMapLayer) -> bool:
    """Whether the features of a layer have figures that can be worked out."""
    if not isinstance(layer, QgsVectorLayer) or not layer.isValid():
        return False
    return survey_table(layer) is not None or bool(layer_figures(layer))


def layer_figures(layer: QgsVectorLayer) -> tuple[tuple[str, str], ...]:
    """The figures that a measured layer has: column and title; none of a layer that nobody measured."""
    names = {field.name() for field in layer.fields()}
    if not {"method", "sigma_from"} <= names:
        return ()
    return tuple((column, figure_title("", column)) for column in MEASURED if column in names)


def read_layer_working(layer: QgsVectorLayer, row: int, column: str) -> Working:
    """The working of one figure of a measured layer.

    Args:
        layer: with the columns that measuring added.
        row: the feature's number.
        column: one of `MEASURED`.
    Raises:
        BadInput: there is no such feature or figure.
        BadCrs: the layer's CRS has no plan coordinates.
    """
    feature = layer.getFeature(row)
    if not feature.isValid() or column not in dict(layer_figures(layer)):
        raise BadInput(
            "{layer} has no figure {column} in row {row}. Choose a row of a layer that was measured.",
            layer=layer.name(),
            column=column,
            row=row,
        )
    value, sigma = _number(feature, column), _number(feature, f"{column}_sigma")
    name = f"{layer.name()}, {row}"
    title = f"{figure_title('', column)}: {name}"
    if value is None:
        words = tr("No figure: {finding}").format(finding=feature["finding"] or "-")
        return Working(name, title, words, None, None)
    shape = ground_shape(shapes_of([feature]), ground_of(layer.crs(), layer.name()), _height_of(feature))
    told = _explain(shape, feature, column)
    notes = [*told.notes, *_notes(feature, shape, column)]
    agrees = told.value is None or abs(told.value - value) <= told.rounding + HEIGHT_ROUNDING * abs(value)
    if not agrees:
        words = tr(
            "The numbers above come to {sum}, not to the {stored} that is stored: was the row changed since?"
        )
        notes.append(words.format(sum=number(told.value, column), stored=number(value, column)))
    is_assumed = feature["sigma_from"] == ASSUMED and sigma is not None
    return Working(
        name,
        title,
        figure_words(column, value, None if sigma is None else COVER_95 * sigma),
        value,
        sigma,
        told.value,
        told.lines,
        _points(shape),
        told_parts({Part.POINTS: sigma}, column) if is_assumed and sigma is not None else (),
        tuple(notes),
        agrees,
        is_assumed,
    )


def _number(feature: QgsFeature, column: str) -> float | None:
    index = feature.fields().lookupField(column)
    value = feature.attribute(index) if index >= 0 else None
    return float(value) if isinstance(value, (int, float)) else None


def _height_of(feature: QgsFeature) -> float:
    found = HEIGHT.search(str(feature["method"] or ""))
    return float(found.group(1)) if found else 0.0


def _explain(shape: GroundShape, feature: QgsFeature, column: str) -> Told:
    if shape.is_wide:
        return Told(
            (tr("It reaches farther than a kilometre from its middle, so it is measured along geodesics."),)
        )
    outer = tuple(curve for curve, is_hole in zip(shape.curves, shape.is_hole) if not is_hole)
    told: dict[str, Callable[[], Told]] = {
        "area_m2": lambda: explain_area(shape.curves, shape.is_hole),
        "perimeter_m": lambda: explain_length(outer),
        "length_m": lambda: explain_length(shape.curves),
        "slope_length_m": lambda: explain_slope_length(shape.curves),
        "rise_m": lambda: explain_rise(shape.curves),
        "gradient_ratio": lambda: explain_gradient(shape.curves),
    }
    return told.get(column, lambda: _sloped(feature))()


def _sloped(feature: QgsFeature) -> Told:
    """The plane's slope is in no column, so it is told from the two areas."""
    area, sloped = _number(feature, "area_m2"), _number(feature, "sloped_area_m2")
    words = tr(
        "Area on the slope = area in plan · √(1 + fall²), on the plane nearest to its heights: {area} · {factor}."
    )
    factor = "-" if not area or sloped is None else f"{sloped / area:.6f}"
    return Told((words.format(area=number(area, "area_m2"), factor=factor),))


def _notes(feature: QgsFeature, shape: GroundShape, column: str) -> list[str]:
    notes = []
    source = feature["sigma_from"]
    if source == ASSUMED:
        notes += _point_note(feature, shape, column)
        notes.append(tr("ASSUMED: somebody stated what its points are worth; nothing in a layer tells it."))
    else:
        notes.append(
            tr("The survey's own figure and uncertainty; the survey's layer tells what they are made of.")
        )
        if source in ACCURACY:
            notes.append(ACCURACY[source]())
    edge = _number(feature, "area_m2_edge_sigma")
    if column == "area_m2" and edge:
        words = tr(
            "Edge, apart from that: ±{reach} (95 %), for an edge that is worth ±{worth} over {length} in all."
        )
        one = edge / shape.edge_length if shape.edge_length else 0.0
        lengths = (number(v, "length_m") for v in (COVER_95 * one, shape.edge_length))
        told = dict(zip(("worth", "length"), lengths))
        notes.append(words.format(reach=number(COVER_95 * edge, "area_m2"), **told))
    notes.append(tr("How it was come by: {method}.").format(method=feature["method"]))
    return notes


def _point_note(feature: QgsFeature, shape: GroundShape, column: str) -> list[str]:
    """What the figure's sigma says of each point, where it moves with the places alone."""
    sigma = _number(feature, f"{column}_sigma")
    by_point = shape.area_by_point if column == "area_m2" else shape.length_by_point
    if sigma is None or column not in {"area_m2", "perimeter_m", "length_m"} or not by_point:
        return []
    words = tr("One sigma of {sigma} = {by} times what each point is worth on each axis, ±{point}.")
    by = number(by_point, "length_m") if column == "area_m2" else f"{by_point:.3f}"
    return [words.format(sigma=number(sigma, column), by=by, point=number(sigma / by_point, "length_m"))]


def _points(shape: GroundShape) -> tuple[BehindStation, ...]:
    """Its points in place of stations."""
    return tuple(
        BehindStation(n, str(n), x, y, z if z == z else None, None, None, (mx, my))  # noqa: PLR0124 - NaN
        for n, ((x, y, z), (mx, my)) in enumerate(zip(shape.ground.tolist(), shape.stored.tolist()), 1)
    )
