# SPDX-License-Identifier: GPL-2.0-or-later
"""Falls of areas and gradients of lines: how steep, where to, along and across a direction."""

from __future__ import annotations

from qgis.core import (
    QgsProcessing,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterMapLayer,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import SIGMA, add_layer_outputs, size_parameter
from .parameters import INPUT, OUTPUT, height_parameter, number_parameter

SURFACE, DIRECTION, DIRECTIONS, PLAN_SIGMA = "SURFACE", "DIRECTION", "DIRECTIONS", "PLAN_SIGMA"
LEVEL_SIGMA_M = 0.02
"""Metres: a height of a staff or a receiver on soft ground; common practice, no source."""
TURN = 360.0


class MeasureGradients(Algorithm):
    NAME, GROUP = "measure_gradients", "measure"

    def label(self) -> str:
        return tr("Measure gradients")

    def help_text(self) -> str:
        return tr(
            "How steep areas and lines are, and where they fall to, whatever the layer's CRS: as ratio, percent, degrees and "
            "1 in n, each with its one-sigma.\n\n"
            "Of an area it is the least-squares plane through its own points, or over all of its ground where a SURFACE is "
            "given; of a line the gradient from its start to its end. DIRECTION gives the fall along a way and the "
            "crossfall, positive to the right. flattest and steepest are those of its sides, of its triangles, or of the "
            "line's edges. What all heights have in common is in no gradient.\n\n"
            "Gradients of ramps, steps and paths follow local codes and a licensed practitioner's judgement. Not a boundary "
            "or legal survey. Have buried services located before breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        self.addParameter(
            QgsProcessingParameterFeatureSource(
                INPUT,
                tr("Areas or lines"),
                [QgsProcessing.SourceType.TypeVectorPolygon, QgsProcessing.SourceType.TypeVectorLine],
            )
        )
        surface = QgsProcessingParameterMapLayer(SURFACE, tr("Surface"), optional=True)
        surface.setHelp(tr("Triangles with heights, or a mesh; without it the rows' own heights count."))
        self.addParameter(surface)
        self.addParameter(
            number_parameter(
                DIRECTION,
                tr("Direction along the area, degrees"),
                tr("Clockwise from grid north, 90 to the east; the crossfall is across it."),
                None,
                (0.0, TURN),
            )
        )
        column = QgsProcessingParameterField(
            DIRECTIONS, tr("Column of directions"), parentLayerParameterName=INPUT, optional=True
        )
        column.setHelp(tr("A direction for each row, in place of the one above."))
        self.addParameter(column)
        self.addParameter(
            size_parameter(
                SIGMA,
                tr("One-sigma of a height, metres"),
                tr("Of the rows' own points, and of surfaces that do not say it. It may come from a field."),
                LEVEL_SIGMA_M,
            )
        )
        plan = number_parameter(
            PLAN_SIGMA,
            tr("One-sigma of a point in plan, each axis, metres"),
            tr("Of the rows' own points."),
            LEVEL_SIGMA_M,
            (0.0, 1000.0),
        )
        for parameter in (plan, height_parameter()):
            parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
            self.addParameter(parameter)
        self.addParameter(QgsProcessingParameterFeatureSink(OUTPUT, tr("Measured gradients")))
        add_layer_outputs(self)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_gradients import run

        return run(ask)
