# SPDX-License-Identifier: GPL-2.0-or-later
"""How deep a layer of depths goes, told to its style as a variable of the layer.

An aggregate in a style would tell it too, but the host works those out in the thread that draws, and asks the project for
the layer there: QGIS 3.22 ended when a layer was taken away while it was drawn (seen).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsExpressionContextUtils

if TYPE_CHECKING:
    from collections.abc import Iterable

    from qgis.core import QgsVectorLayer

DEEPEST = "deepest_m"
"""The variable's name in the styles."""
DEPTH_COLUMNS = {"depths": ("depth_from_m", "depth_to_m"), "ponds": ("depth_m",)}
"""By style, the columns that hold its depths."""


def tell_deepest(layer: QgsVectorLayer, columns: Iterable[str]) -> None:
    """Give a layer the greatest depth that its rows have in some columns."""
    found = [abs(value) for value in _ends(layer, columns) if isinstance(value, (int, float))]
    if found:
        QgsExpressionContextUtils.setLayerVariable(layer, DEEPEST, max(found))


def _ends(layer: QgsVectorLayer, columns: Iterable[str]) -> Iterable[object]:
    for column in columns:
        at = layer.fields().lookupField(column)
        yield layer.minimumValue(at)
        yield layer.maximumValue(at)
