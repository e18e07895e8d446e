# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_areas, which its form imports when it starts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsWkbTypes

from ...bridge.measured import area_columns
from ...bridge.sources import ground_of, has_heights, refuse_other_kind
from ...core.measure.layer.areas import AreaFigures, Worth, measure_areas
from ...core.measure.layer.shapes import Shapes
from ..algorithm import Ask
from ..layers import EDGE_SIGMA, SIGMA
from ..parameters import HEIGHT, INPUT
from .layers import measure_layer

if TYPE_CHECKING:
    from ...core.quantity import Floats


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    source = ask.source(INPUT)
    refuse_other_kind(source, QgsWkbTypes.GeometryType.PolygonGeometry)
    way, height = ground_of(source.sourceCrs(), source.sourceName()), ask.number(HEIGHT) or 0.0

    def measure(shapes: Shapes, worth: dict[str, Floats]) -> AreaFigures:
        return measure_areas(shapes, way, Worth(worth[SIGMA], worth[EDGE_SIGMA]), height)

    has_edge = ask.is_by_row(EDGE_SIGMA) or bool(ask.number(EDGE_SIGMA))
    columns = area_columns(has_z=has_heights(source), has_edge=has_edge)
    return measure_layer(ask, source, columns, measure, (SIGMA, EDGE_SIGMA))
