# SPDX-License-Identifier: GPL-2.0-or-later
"""Lengths, rises and gradients of any line layer, true to the ground."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterFeatureSink, QgsProcessingParameterFeatureSource

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import add_layer_outputs, add_layer_parameters
from .parameters import INPUT, OUTPUT


class MeasureLengths(Algorithm):
    NAME, GROUP = "measure_lengths", "measure"

    def label(self) -> str:
        return tr("Measure lengths")

    def help_text(self) -> str:
        return tr(
            "True ground length of each line of any line layer, with its uncertainty, whatever the layer's CRS: "
            "degrees, feet and web mercator too. Arcs are exact.\n\n"
            "Every row of the layer comes back with its own columns and, added: length_m in plan, of all parts together; "
            "where the line has heights (all zero are none) slope_length_m along the slope and, of a line of one part, "
            "rise_m of its end above its start and gradient_ratio, rise by length, positive up along the line; every "
            "_sigma is one standard deviation; method says how it was measured, finding why a line was refused.\n\n"
            "What the points are worth is not in a layer, so it is assumed: state it, or take it from a field. A "
            "survey's own lengths keep the figures and the uncertainty that the survey gave them, where the line is as "
            "the survey drew it. Gradients of ramps and steps follow local codes and a licensed practitioner's judgement."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        self.addParameter(
            QgsProcessingParameterFeatureSource(INPUT, tr("Lines"), [QgsProcessing.SourceType.TypeVectorLine])
        )
        add_layer_parameters(self, tr("One-sigma of a point, each axis, metres"))
        self.addParameter(
            QgsProcessingParameterFeatureSink(
                OUTPUT, tr("Measured lengths"), QgsProcessing.SourceType.TypeVectorLine
            )
        )
        add_layer_outputs(self)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_lengths import run

        return run(ask)
