# SPDX-License-Identifier: GPL-2.0-or-later
"""Sides of outlines that are drawn in a layer of their own, found by their boxes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsCsException, QgsFeatureRequest, QgsProject, QgsSpatialIndex

from ..core.errors import BadInput
from .compat import IGNORE_INVALID
from .sources import ground_of
from .trade import GroundReader

if TYPE_CHECKING:
    from qgis.core import QgsCoordinateReferenceSystem, QgsFeature, QgsProcessingFeatureSource

    from ..core.trade.lines import Line
    from .planned import Plane


class EdgeSides:
    """Lines along the edges of outlines."""

    def __init__(
        self, source: QgsProcessingFeatureSource, crs: QgsCoordinateReferenceSystem, height: float
    ) -> None:
        """The lines, the CRS of the outlines, in which they are looked for (they are measured from their own), and the
        height of the ground where they have none, metres.

        Raises:
            BadInput: a place that the outlines' CRS cannot hold. BadCrs: they have no CRS.
        """
        self._reader = GroundReader(ground_of(source.sourceCrs(), source.sourceName()), height)
        self._rows = {row.id(): row for row in source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID)}
        self._index = QgsSpatialIndex()
        request = QgsFeatureRequest().setDestinationCrs(crs, QgsProject.instance().transformContext())
        try:
            for row in source.getFeatures(request, IGNORE_INVALID):
                if row.hasGeometry():
                    self._index.addFeature(row)
        except QgsCsException as error:
            raise BadInput(
                "Sides lie where the CRS of the outlines has no place. Check both layers' CRS."
            ) from error

    def near(self, outline: QgsFeature, plane: Plane) -> list[Line]:
        """The lines whose box meets that of an outline, in a plane, in the order of their ids.

        Raises:
            BadInput: one of them cannot be read.
        """
        box = outline.geometry().boundingBox()
        box.grow(0.02 * (box.width() + box.height()))
        ids = sorted(self._index.intersects(box))
        return [line for k in ids for line in self._reader.row(self._rows[k], plane).lines]
