# SPDX-License-Identifier: GPL-2.0-or-later
"""The two layers that hold a drawn plan: its walks as lines, its marks as points, each change one step to undo.

They have the columns that Plan walk reads, so that they can be saved, edited with the host's own tools, and given to the
algorithm by hand.
"""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from string import ascii_uppercase
from typing import TYPE_CHECKING

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsFeature,
    QgsFeatureRequest,
    QgsFields,
    QgsGeometry,
    QgsMemoryProviderUtils,
    QgsPointXY,
    QgsProject,
    QgsVectorLayerUtils,
    QgsWkbTypes,
)

from ..core.errors import BadInput
from .drawn import NAMES, text_of
from .fields import Kind
from .geopackage import LOCAL_WKT
from .layers import fields_with
from .plan_styles import style_lines, style_marks
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from qgis.core import QgsRectangle, QgsVectorLayer

WALK, FEATURE = "walk", "feature"
MARK, SIGMA, PAIRED, LEVELLED = "mark", "sigma_m", "paired", "level"
LINE_COLUMNS = ((WALK, Kind.TEXT), (FEATURE, Kind.TEXT))
MARK_COLUMNS = ((MARK, Kind.TEXT), (SIGMA, Kind.REAL), (PAIRED, Kind.TEXT), (LEVELLED, Kind.TEXT))
YES, NO = "yes", "no"
MOST_NAMES = 10_000
"""Names that are looked through for one that is free."""


@dataclass(frozen=True)
class PlannedMark:
    """A mark that is to be set: its name, the one-sigma of its map point in metres, and whether its height is known."""

    name: str
    sigma: float
    is_levelled: bool = False


@dataclass(frozen=True)
class Seen:
    """A mark on the map, in the map's CRS."""

    name: str
    at: QgsPointXY


def new_lines(crs: QgsCoordinateReferenceSystem) -> QgsVectorLayer:
    """A layer in memory for planned walks; where a project has no CRS, in metres at no known place."""
    layer = _new_layer(tr("Planned walks"), LINE_COLUMNS, QgsWkbTypes.Type.LineString, crs)
    style_lines(layer)
    return layer


def new_marks(crs: QgsCoordinateReferenceSystem) -> QgsVectorLayer:
    """A layer in memory for planned marks."""
    layer = _new_layer(tr("Planned marks"), MARK_COLUMNS, QgsWkbTypes.Type.Point, crs)
    style_marks(layer, MARK)
    return layer


def _new_layer(
    name: str,
    columns: Sequence[tuple[str, Kind]],
    kind: QgsWkbTypes.Type,
    crs: QgsCoordinateReferenceSystem,
) -> QgsVectorLayer:
    there = crs if crs.isValid() else QgsCoordinateReferenceSystem.fromWkt(LOCAL_WKT)
    return QgsMemoryProviderUtils.createMemoryLayer(name, fields_with(QgsFields(), columns), kind, there)


def column_of(layer: QgsVectorLayer | None, names: Sequence[str]) -> str:
    """The first of these columns that a layer has; "" for none."""
    if layer is None:
        return ""
    return next((name for name in names if layer.fields().lookupField(name) >= 0), "")


def plan_columns(lines: QgsVectorLayer | None, marks: QgsVectorLayer | None) -> dict[str, str]:
    """The columns of a plan's layers that are named as ours are, by our name; "" where there is none."""
    told = {name: column_of(lines, (name,)) for name, _ in LINE_COLUMNS}
    told.update({name: column_of(marks, (name,)) for name, _ in MARK_COLUMNS})
    told[MARK] = told[MARK] or column_of(marks, NAMES)
    return told


def names_in(layer: QgsVectorLayer | None, column: str) -> set[str]:
    """The names that a column holds."""
    if layer is None or not column:
        return set()
    index = layer.fields().lookupField(column)
    if index < 0:
        return set()
    return {text_of(value) for value in layer.uniqueValues(index, MOST_NAMES)} - {""}


def free_mark(taken: set[str]) -> str:
    """The first letter, then A1, B1 and so on, that no mark is called yet."""
    letters = (f"{letter}{k or ''}" for k in count() for letter in ascii_uppercase)
    return next(name for name in letters if name not in taken)


def free_name(word: str, taken: set[str]) -> str:
    """A word with the first number that is not taken: Area 1."""
    return next(name for name in (f"{word} {k}" for k in count(1)) if name not in taken)


def add_line(
    layer: QgsVectorLayer,
    points: Sequence[QgsPointXY],
    crs: QgsCoordinateReferenceSystem,
    cells: Mapping[str, str],
) -> None:
    """Put a line through its stations into a layer, as one step to undo.

    Args:
        layer: of lines; it goes into editing where it is not.
        points: two or more, in `crs`.
        crs: of the map they were drawn on.
        cells: text by column.
    Raises:
        BadInput: the layer cannot be edited or take the line, or its CRS has no such places.
    """
    line = QgsGeometry.fromPolylineXY(list(points))
    _add(layer, line, crs, cells, tr("Planned walk"))


def add_mark(
    layer: QgsVectorLayer,
    at: QgsPointXY,
    crs: QgsCoordinateReferenceSystem,
    mark: PlannedMark,
    columns: Mapping[str, str],
) -> None:
    """Put a mark into a layer of points whose columns are told by our names; it is paired with the map. One step to undo.

    Raises:
        BadInput: the name is none or taken, or as for lines.
    """
    if not columns[MARK]:
        raise BadInput(
            "The layer {layer} has no column for the names of marks. Choose one, or a new plan.",
            layer=layer.name(),
        )
    if not mark.name:
        raise BadInput("A mark has no name. Give each a name of its own.")
    if mark.name in names_in(layer, columns[MARK]):
        raise BadInput("Two marks are called {mark}. Give each a name of its own.", mark=mark.name)
    told = {MARK: mark.name, SIGMA: mark.sigma, PAIRED: YES, LEVELLED: YES if mark.is_levelled else NO}
    cells = {columns[name]: value for name, value in told.items() if columns[name]}
    _add(layer, QgsGeometry.fromPointXY(at), crs, cells, tr("Planned mark"))


def pair_mark(layer: QgsVectorLayer, name: str, columns: Mapping[str, str]) -> None:
    """Say of a mark that is there that it is paired with the map.

    Raises:
        BadInput: the layer cannot say it, or cannot be edited.
    """
    index = layer.fields().lookupField(columns[PAIRED]) if columns[PAIRED] else -1
    rows = [row.id() for row in layer.getFeatures() if text_of(row.attribute(columns[MARK])) == name]
    if index < 0 or not rows:
        raise BadInput(
            "The layer {layer} has no column that says whether mark {mark} is paired. Choose one.",
            layer=layer.name(),
            mark=name,
        )
    with _step(layer, tr("Mark paired with the map")):
        if not layer.changeAttributeValue(rows[0], index, YES):
            raise _cannot_take(layer)


def marks_near(
    layer: QgsVectorLayer | None, column: str, about: QgsRectangle, crs: QgsCoordinateReferenceSystem
) -> list[Seen]:
    """The marks of a layer inside a rectangle of the map."""
    if layer is None or layer.fields().lookupField(column) < 0:
        return []
    request = QgsFeatureRequest().setFilterRect(about)
    if crs.isValid() and layer.crs().isValid() and crs != layer.crs():
        request.setDestinationCrs(crs, QgsProject.instance().transformContext())
    try:
        return [_seen(row, column) for row in layer.getFeatures(request) if not row.geometry().isEmpty()]
    except QgsCsException:  # the map shows what the layer's CRS cannot hold
        return []


def _seen(row: QgsFeature, column: str) -> Seen:
    return Seen(text_of(row.attribute(column)), QgsPointXY(next(row.geometry().vertices())))


def _add(
    layer: QgsVectorLayer,
    geometry: QgsGeometry,
    crs: QgsCoordinateReferenceSystem,
    cells: Mapping[str, object],
    words: str,
) -> None:
    feature = QgsFeature(layer.fields())
    for column, value in cells.items():
        feature.setAttribute(column, value)
    feature.setGeometry(_moved(geometry, crs, layer))
    with _step(layer, words):
        for row in QgsVectorLayerUtils.makeFeatureCompatible(feature, layer):
            if not layer.addFeature(row):
                raise _cannot_take(layer)
    layer.triggerRepaint()


def _moved(geometry: QgsGeometry, crs: QgsCoordinateReferenceSystem, layer: QgsVectorLayer) -> QgsGeometry:
    """A drawn geometry in a layer's CRS."""
    if crs.isValid() and layer.crs().isValid() and crs != layer.crs():
        try:
            geometry.transform(QgsCoordinateTransform(crs, layer.crs(), QgsProject.instance()))
        except QgsCsException as error:
            raise BadInput(
                "What was drawn lies outside what the CRS of the layer {layer} can hold. Choose another layer.",
                layer=layer.name(),
            ) from error
    return geometry


@contextmanager
def _step(layer: QgsVectorLayer, words: str) -> Iterator[None]:
    """A change of a layer that can be undone as a whole; one that fails leaves nothing."""
    if not layer.isEditable() and not layer.startEditing():
        raise BadInput(
            "The layer {layer} cannot be edited. Choose another layer, or a new plan.", layer=layer.name()
        )
    layer.beginEditCommand(words)
    try:
        yield
    except Exception:
        layer.destroyEditCommand()
        raise
    layer.endEditCommand()


def _cannot_take(layer: QgsVectorLayer) -> BadInput:
    return BadInput(
        "The layer {layer} does not take it. Choose another layer, or a new plan.", layer=layer.name()
    )
