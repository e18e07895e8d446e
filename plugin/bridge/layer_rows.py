# SPDX-License-Identifier: GPL-2.0-or-later
"""A layer's rows as they were at one time, to be read in any thread."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsFeatureRequest, QgsVectorLayerFeatureSource

if TYPE_CHECKING:
    from qgis.core import (
        QgsCoordinateReferenceSystem,
        QgsExpressionContext,
        QgsFeatureIterator,
        QgsFields,
        QgsProcessingFeatureSourceDefinition,
        QgsVectorLayer,
        QgsWkbTypes,
    )


class LayerRows:
    """As much of the host's QgsProcessingFeatureSource as runs ask for, with the host's names. It holds the layer's edits,
    filter, joins and virtual fields of the time it was made, and no part of the layer: a run that read the layer itself ended
    the host when an editing session began or the layer was read anew just then (seen on QGIS 3.22).

    Attributes:
        about: what expressions about the rows know; None where nobody asked.
        is_edited: whether rows may be among them that are not saved.
    """

    def __init__(
        self,
        layer: QgsVectorLayer,
        about: QgsExpressionContext | None = None,
        only: QgsProcessingFeatureSourceDefinition | None = None,
    ) -> None:
        """Take the layer as it is, in its own thread; with `only`, so many rows or those of its filter."""
        self._most = -1 if only is None else int(only.featureLimit)
        self._filter = getattr(only, "filterExpression", "")  # newer hosts have it
        self._rows, count = QgsVectorLayerFeatureSource(layer), int(layer.featureCount())
        self._count = -1 if self._filter else count if self._most < 0 else min(count, self._most)
        self._fields, self._kind = layer.fields(), layer.wkbType()
        self._crs, self._name = layer.crs(), layer.name()
        self.about, self.is_edited = about, bool(layer.isEditable())

    def getFeatures(  # noqa: N802 - the host's name
        self, request: QgsFeatureRequest | None = None, _flags: object = None
    ) -> QgsFeatureIterator:
        """The rows, as the layer gives them; geometries are not looked at."""
        wanted = QgsFeatureRequest() if request is None else QgsFeatureRequest(request)
        if self._filter:
            wanted.combineFilterExpression(self._filter)
        if self._most >= 0 and not 0 <= wanted.limit() < self._most:
            wanted.setLimit(self._most)
        found = self._rows.getFeatures(wanted)
        found.rows = self._rows  # the iterator has only their address
        return found

    def featureCount(self) -> int:  # noqa: N802 - the host's name
        """How many there are; below 0 where the layer does not know."""
        return self._count

    def fields(self) -> QgsFields:
        """The columns."""
        return self._fields

    def wkbType(self) -> QgsWkbTypes.Type:  # noqa: N802 - the host's name
        """The layer's type of geometry."""
        return self._kind

    def sourceCrs(self) -> QgsCoordinateReferenceSystem:  # noqa: N802 - the host's name
        """The layer's CRS."""
        return self._crs

    def sourceName(self) -> str:  # noqa: N802 - the host's name
        """The layer's name."""
        return str(self._name)
