# SPDX-License-Identifier: GPL-2.0-or-later
"""What the rows of layers are called in tables and messages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsFeatureRequest, QgsVectorLayer

from .compat import IGNORE_INVALID
from .drawn import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from typing import Union

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    Source = Union[QgsProcessingFeatureSource, QgsVectorLayer]

NAMES = ("feature", "name")
"""Columns that name a row, the first that is there."""


class NamedRows:
    """The rows of layers, one layer after the other, and what each is called."""

    def __init__(self, edges: Sequence[str]) -> None:
        """The words in the column part that tell edges of one thing, and no thing of its own."""
        self._edges = edges
        self._numbers: dict[int, int] = {}

    def of(self, source: Source) -> Iterator[QgsFeature]:
        """The rows of a layer."""
        self._numbers.clear()
        is_layer = isinstance(source, QgsVectorLayer)
        request = (QgsFeatureRequest(),) if is_layer else (QgsFeatureRequest(), IGNORE_INVALID)
        for number, row in enumerate(source.getFeatures(*request), 1):
            self._numbers[row.id()] = number
            yield row

    def name(self, source: Source, row: QgsFeature) -> str:
        """Of a row that was handed out: its feature, with the part where that tells no edge; without, its number from 1."""
        column = next((name for name in NAMES if source.fields().lookupField(name) >= 0), None)
        name = text_of(row[column]) if column else ""
        part = text_of(row["part"]) if source.fields().lookupField("part") >= 0 else ""
        if part and part.lower() not in self._edges:
            name = f"{name}/{part}"
        return name or f"row {self._numbers[row.id()]}"
