# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines and points that somebody drew for a plan: the stations of walks in order, and the marks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import (
    QgsCircularString,
    QgsCompoundCurve,
    QgsCoordinateTransform,
    QgsCsException,
    QgsFeatureRequest,
    QgsPointXY,
    QgsProject,
)

from ..core.errors import BadInput
from ..core.walk import Leg
from .compat import IGNORE_INVALID

if TYPE_CHECKING:
    from qgis.core import (
        QgsCoordinateReferenceSystem,
        QgsCurve,
        QgsFeature,
        QgsGeometry,
        QgsProcessingFeatureSource,
    )

    from ..core.quantity import Floats

ENDS = 2
"""A line has at least so many vertices."""
NO_WORDS = frozenset({"", "0", "no", "n", "false", "f", "null", "none"})
"""What a field says that says no."""
NAMES = ("mark", "name")
"""Columns that name marks where none is chosen."""


@dataclass(frozen=True, eq=False)
class Drawn:
    """One drawn line: the number of its row, the walk it belongs to, the feature it makes ("" where it is only the way),
    and its vertices (n, 3) in the layer's CRS with the leg that leads to each."""

    row: int
    walk: str
    feature: str
    xyz: Floats
    legs: tuple[Leg, ...]


@dataclass(frozen=True, eq=False)
class DrawnMark:
    """One drawn mark: its name, its place in the lines' CRS, whether it is paired with the map and has a known level."""

    name: str
    xy: tuple[float, float]
    is_paired: bool
    is_levelled: bool


def read_lines(source: QgsProcessingFeatureSource, walk: str | None, feature: str | None) -> list[Drawn]:
    """The lines of a layer, in its order.

    Args:
        source: the lines.
        walk: column that names a line's walk; without, each line is a walk of its own.
        feature: column that names its feature, blank where it is only the way; without, each line is a feature.
    Raises:
        BadInput: a row has no line, or names no walk.
    """
    out = []
    for k, row in enumerate(source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID), 1):
        name = text_of(row.attribute(walk)) if walk else f"W{k}"
        if not name:
            raise BadInput(
                "Row {row} names no walk in the column {column}. Give it the name of the walk it belongs to.",
                row=k,
                column=walk,
            )
        out.append(drawn_line(row, name, text_of(row.attribute(feature)) if feature else f"row {k}", k))
    return out


def read_marks(
    source: QgsProcessingFeatureSource,
    crs: QgsCoordinateReferenceSystem,
    name: str | None,
    paired: str | None,
    levelled: str | None,
) -> list[DrawnMark]:
    """The marks of a layer of points, in the CRS of the lines.

    Args:
        source: the points.
        crs: of the lines.
        name: column of their names; without, the column mark, or name.
        paired: column that says yes where one is paired with the map; without, all are.
        levelled: column that says yes where its height is known; without, none is.
    Raises:
        BadInput: no column of names, a row that is no single point, or a place that the lines' CRS cannot hold.
    """
    fields = source.fields()
    column = name or next((known for known in NAMES if fields.lookupField(known) >= 0), None)
    if column is None:
        raise BadInput("The marks have no column mark or name. Choose the column that names them.")
    there = source.sourceCrs()
    is_apart = there.isValid() and crs.isValid() and there != crs
    way = QgsCoordinateTransform(there, crs, QgsProject.instance()) if is_apart else None
    return [
        DrawnMark(
            text_of(row.attribute(column)),
            _place_of(row, k, way),
            is_yes(row.attribute(paired)) if paired else True,
            is_yes(row.attribute(levelled)) if levelled else False,
        )
        for k, row in enumerate(source.getFeatures(), 1)
    ]


def _place_of(row: QgsFeature, number: int, way: QgsCoordinateTransform | None) -> tuple[float, float]:
    points = list(row.geometry().vertices())
    if len(points) != 1:
        raise BadInput("Row {row} of the marks is no single point. Give each mark one.", row=number)
    try:
        place = QgsPointXY(points[0]) if way is None else way.transform(QgsPointXY(points[0]))
    except QgsCsException as error:
        raise BadInput(
            "Row {row} of the marks lies outside what the CRS of the lines can hold. Check both layers' CRS.",
            row=number,
        ) from error
    return place.x(), place.y()


def drawn_line(feature: QgsFeature, walk: str, name: str, number: int) -> Drawn:
    """A line with its vertices as stations; of a line of several parts one follows on the other, the way between
    them not drawn.

    Args:
        feature: its row.
        walk: that it belongs to.
        name: of the feature it makes.
        number: of its row, counted from 1 in what was given.
    Raises:
        BadInput: it has no vertices.
    """
    geometry: QgsGeometry = feature.geometry()
    points: list[tuple[float, float, float]] = []
    legs: list[Leg] = []
    for part in geometry.constParts():
        some, ways = _vertices(part)
        if points and ways:
            ways[0] = Leg.CARRY
        points += some
        legs += ways
    if len(points) < ENDS:
        if not points:
            raise BadInput("Row {row}: There is no geometry. Draw it, or delete the row.", row=number)
        raise BadInput(
            "Row {row}: {count} point makes no line. Add points, or delete the row.",
            row=number,
            count=len(points),
        )
    return Drawn(number, walk, name, np.array(points, float), tuple(legs))


def _vertices(curve: QgsCurve) -> tuple[list[tuple[float, float, float]], list[Leg]]:
    """The points of a curve, and how each is reached; the middle of an arc is passed."""
    if isinstance(curve, QgsCompoundCurve):
        points, legs = [], []
        for k in range(curve.nCurves()):
            some, ways = _vertices(curve.curveAt(k))
            points += some[1:] if k else some
            legs += ways[1:] if k else ways
        return points, legs
    points = [(point.x(), point.y(), point.z()) for point in curve.points()]
    legs = [Leg.DIRECT] * len(points)
    if isinstance(curve, QgsCircularString):
        legs[1:] = [Leg.CURVE if i % 2 else Leg.CURVE_END for i in range(1, len(points))]
    return points, legs


def is_yes(value: object) -> bool:
    """Whether a cell of a field says yes."""
    return value is not None and str(value).strip().lower() not in NO_WORDS


def text_of(value: object) -> str:
    """A cell as a name; "" of a NULL."""
    text = "" if value is None else str(value).strip()
    return "" if text.upper() == "NULL" else text
