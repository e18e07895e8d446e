# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_lengths, which its form imports when it starts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsWkbTypes

from ...bridge.measured import length_columns
from ...bridge.sources import ground_of, has_heights, refuse_other_kind
from ...core.measure.layer.lengths import LengthFigures, measure_lengths
from ...core.measure.layer.shapes import Shapes
from ..algorithm import Ask
from ..layers import SIGMA
from ..parameters import HEIGHT, INPUT
from .layers import measure_layer

if TYPE_CHECKING:
    from ...core.quantity import Floats


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    source = ask.source(INPUT)
    refuse_other_kind(source, QgsWkbTypes.GeometryType.LineGeometry)
    way, height = ground_of(source.sourceCrs(), source.sourceName()), ask.number(HEIGHT) or 0.0

    def measure(shapes: Shapes, worth: dict[str, Floats]) -> LengthFigures:
        return measure_lengths(shapes, way, worth[SIGMA], height)

    return measure_layer(ask, source, length_columns(has_z=has_heights(source)), measure, (SIGMA,))
