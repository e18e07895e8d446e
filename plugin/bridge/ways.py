# SPDX-License-Identifier: GPL-2.0-or-later
"""Ways that are one line over a surface: their crossfalls, across the width that is given or noted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..core.errors import BadInput
from .gradient_rows import RowReader
from .gradients import crossfall_words

if TYPE_CHECKING:
    from qgis.core import QgsFeature, QgsProcessingFeatureSource, QgsVectorLayer

    from ..core.ground.crossfall import Crossfalls
    from ..core.trade.lines import Line
    from ..core.trade.worth import JointWorth
    from .surfaces import OpenedSurfaces

NOTED = "width_m"
"""The column of widths noted on site."""


@dataclass(frozen=True, eq=False)
class WayOver:
    """Crossfalls of a row, and how they were come by."""

    ways: Crossfalls
    words: str


class WayReader:
    """Crossfalls of the rows of one layer over a surface."""

    def __init__(
        self, source: QgsProcessingFeatureSource, opened: OpenedSurfaces, sigma: float, width: float = 0.0
    ) -> None:
        """The layer, the surface, the sigma that was stated for it, and the width of rows without one of their own in their
        column width_m, metres; 0: the slope of the triangles under the line."""
        self._rows, self._width, self._name = RowReader(source, opened, sigma), width, opened.names[0]

    def laid(self, row: QgsFeature) -> tuple[Line, JointWorth]:
        """A row without heights laid on the surface, and what its heights are worth there.

        Raises:
            BadInput: part of it is not on the surface.
        """
        return self._rows.laid(row)

    def over(self, row: QgsFeature) -> WayOver | None:
        """A row's crossfalls; None where no ground of the surface lies under it, or its width is none."""
        width = self._width
        if row.fields().lookupField(NOTED) >= 0:
            noted = row.attribute(NOTED)
            width = float(noted) if isinstance(noted, (int, float)) and noted > 0.0 else width
        try:
            ways = self._rows.ways(row, width)
        except BadInput:
            return None
        return WayOver(ways, f"{crossfall_words(width)} over {self._name}")


class LayerSource:
    """A layer where a source of rows is asked for."""

    def __init__(self, layer: QgsVectorLayer) -> None:
        """The layer."""
        self._layer = layer

    def fields(self):  # type: ignore[no-untyped-def]
        """Its columns."""
        return self._layer.fields()

    def sourceCrs(self):  # type: ignore[no-untyped-def]  # noqa: N802 - the host's name
        """Its CRS."""
        return self._layer.crs()

    def sourceName(self):  # type: ignore[no-untyped-def]  # noqa: N802 - the host's name
        """Its name."""
        return self._layer.name()

    def getFeatures(self, *request: object):  # type: ignore[no-untyped-def]  # noqa: N802 - the host's name
        """Its rows."""
        return self._layer.getFeatures(*request[:1])
