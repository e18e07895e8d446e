# SPDX-License-Identifier: GPL-2.0-or-later
"""Trees and the works near them: protection circles as true curves, and what works take of each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import (
    QgsCsException,
    QgsFeature,
    QgsFeatureRequest,
    QgsGeometry,
    QgsProject,
    QgsSpatialIndex,
    QgsWkbTypes,
)

from ..core.errors import BadInput, GroundTallyError
from ..core.quantity import Quantity
from ..core.trade.trees import Overlap, Protection, overlap_together, overlap_works, protection_circle
from .compat import IGNORE_INVALID
from .geometry import MapFrame
from .sources import ground_of
from .trade import GroundReader
from .trade_columns import reason

if TYPE_CHECKING:
    from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingFeatureSource

    from ..core.trade.lines import Line
    from .planned import Plane


LEAST_TWICE = 1e-3
"""Of what works take: less of it that is covered twice is their outlines' chords."""
NOTHING = 1e-9
"""Of a circle's area: works that take less touch it by rounding."""


@dataclass(frozen=True, eq=False)
class Taken:
    """What one row of works takes of a tree's protection, or why that is not known."""

    works: QgsFeature
    overlap: Overlap | None
    why: str = ""


@dataclass(frozen=True, eq=False)
class TreeRow:
    """A tree with its circle in the layer's CRS, and what works take of it.

    Attributes:
        protection: radius, area, fence. circle: as a curve polygon. taken: by each row of works that overlaps.
        area_taken: by all works together, what two of them cover twice; None where that of one is not known.
        method: how it was come by.
    """

    protection: Protection
    circle: QgsGeometry
    taken: tuple[Taken, ...]
    area_taken: Quantity | None
    method: str

    @property
    def share_taken(self) -> float | None:
        """Of the protection area."""
        return None if self.area_taken is None else self.area_taken.value / self.protection.area.value

    @property
    def counts_twice(self) -> bool:
        """Whether works overlap each other inside the circle."""
        shapes = [overlap_geometry(self, taken) for taken in self.taken if taken.overlap is not None]
        if len(shapes) < 2:  # noqa: PLR2004 - two
            return False
        whole = QgsGeometry.unaryUnion(shapes).area()
        return bool(whole < (1.0 - LEAST_TWICE) * sum(shape.area() for shape in shapes))


class Works:
    """Rows of works, found by their boxes."""

    def __init__(self, source: QgsProcessingFeatureSource | None, crs: QgsCoordinateReferenceSystem) -> None:
        """The polygons of works, none where there is no source, and the CRS of the trees, in which they are looked for
        and drawn; they are measured from their own.

        Raises:
            BadInput: a place that the trees' CRS cannot hold. BadCrs: they have no CRS.
        """
        self._rows: dict[int, QgsFeature] = {}
        self._numbers: dict[int, int] = {}
        self._places: dict[int, int] = {}
        self._read: dict[tuple[int, int], list[Line] | str] = {}
        self._index = QgsSpatialIndex()
        if source is None:
            return
        reader = GroundReader(ground_of(source.sourceCrs(), source.sourceName()), 0.0)
        every = list(source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID))
        self._places = {row.id(): number for number, row in enumerate(every, 1)}
        own = [row for row in every if row.hasGeometry()]
        self._numbers = {row.id(): k for k, row in enumerate(own)}
        self._block, self._areas = reader.block(own), reader.areas(own, np.zeros(len(own)))
        request = QgsFeatureRequest().setDestinationCrs(crs, QgsProject.instance().transformContext())
        try:
            for row in source.getFeatures(request, IGNORE_INVALID):
                if row.hasGeometry():
                    self._rows[row.id()] = row
                    self._index.addFeature(row)
        except QgsCsException as error:
            raise BadInput(
                "Works lie where the CRS of the trees has no place. Check both layers' CRS."
            ) from error

    def near(self, circle: QgsGeometry) -> list[QgsFeature]:
        """The rows whose box meets that of a circle, in the order of their ids."""
        return [self._rows[k] for k in sorted(self._index.intersects(circle.boundingBox()))]

    def number(self, row: QgsFeature) -> int:
        """Of a row, counted from 1 in what was given."""
        return self._places[row.id()]

    def rings(self, row: QgsFeature, plane: Plane) -> list[Line] | str:
        """The rings of a row in the plane of a tree, or why it cannot be measured; kept, for trees stand close. Planes
        are kept by whoever reads the trees, so that each can be told by its identity."""
        key = (row.id(), id(plane))
        if key not in self._read:
            self._read[key] = self._measured(self._numbers[row.id()], plane)
        return self._read[key]

    def _measured(self, number: int, plane: Plane) -> list[Line] | str:
        why = self._areas[number].why
        if why:
            return why
        try:
            return self._block.row(number, plane).rings
        except GroundTallyError as error:
            return reason(error)


def tree_row(
    tree: QgsFeature, protection: Protection, works: Works, reader: GroundReader, sigma: float
) -> TreeRow:
    """A tree's circle, and what works take of it, each row by itself."""
    centre, plane = reader.place(tree)
    circle = QgsGeometry()
    circle.fromWkb(MapFrame(plane).polygon([protection_circle(centre, protection.radius.value)]))
    circle.get().dropZValue()
    taken = []
    for row in works.near(circle):
        rings = works.rings(row, plane)
        if isinstance(rings, str):
            taken.append(Taken(row, None, rings))
            continue
        overlap = overlap_works(centre, protection, rings, sigma)
        if overlap.share > NOTHING:
            taken.append(Taken(row, overlap))
    known = [one.overlap for one in taken if one.overlap is not None]
    together = overlap_together(known, protection, sigma) if len(known) == len(taken) else None
    cap = ", at its cap" if protection.is_capped else ""
    method = f"radius {protection.radius.value:.3f} m of a stem of {protection.stem.value:.3f} m{cap}"
    return TreeRow(protection, circle, tuple(taken), together, method)


def overlap_geometry(row: TreeRow, taken: Taken) -> QgsGeometry:
    """The ground that works take of a circle, in chords."""
    shape = row.circle.intersection(taken.works.geometry())
    if QgsWkbTypes.geometryType(shape.wkbType()) != QgsWkbTypes.GeometryType.PolygonGeometry:
        parts = [
            p for p in shape.asGeometryCollection() if p.type() == QgsWkbTypes.GeometryType.PolygonGeometry
        ]
        shape = QgsGeometry.collectGeometry(parts) if parts else QgsGeometry()
    if not shape.isNull():
        shape.convertToMultiType()
    return shape
