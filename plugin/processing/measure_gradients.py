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
    QgsProcessingParameterString,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import SIGMA, add_layer_outputs, size_parameter
from .parameters import INPUT, OUTPUT, height_parameter, number_parameter

SURFACE, DIRECTION, DIRECTIONS, PLAN_SIGMA = "SURFACE", "DIRECTION", "DIRECTIONS", "PLAN_SIGMA"
WIDTH, BANDS, BY_SLOPE, CROSSFALLS = "WIDTH", "BANDS", "BY_SLOPE", "CROSSFALLS"
MOWING = "1:10, 1:4, 1:3"
"""Bands of slope for mowing: an example of common practice, no source."""
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
            "Of an area it is the least-squares plane through its own points, or over all of its ground where a surface is "
            "given; of a line the gradient from its start to its end. A direction gives the fall along a way and the "
            "crossfall, positive to the right; of a line over a surface the crossfall is that of the surface across its width, "
            "and without one that of the triangles under it, its mean and the greatest. flattest and steepest are those of its sides, of its triangles, or of the "
            "line's edges. What all heights have in common is in no gradient.\n\n"
            "Areas by slope tells how much of each area over a surface is how steep, in bands of slope: every m2 is in one. "
            "Crossfalls along lines has them by chainage.\n\n"
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
            DIRECTIONS, tr("Field of directions"), parentLayerParameterName=INPUT, optional=True
        )
        column.setHelp(tr("A direction for each row, in place of the one above."))
        self.addParameter(column)
        self._add_ways()
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
        self.addParameter(QgsProcessingParameterFeatureSink(OUTPUT, tr("Measured gradients"), optional=True))
        for name, label in ((BY_SLOPE, tr("Areas by slope")), (CROSSFALLS, tr("Crossfalls along lines"))):
            kind = QgsProcessing.SourceType.TypeVector
            sink = QgsProcessingParameterFeatureSink(name, label, kind, optional=True, createByDefault=False)
            self.addParameter(sink)
        add_layer_outputs(self, is_summed=False)

    def _add_ways(self) -> None:
        self.addParameter(
            size_parameter(
                WIDTH,
                tr("Width of a path drawn as one line, metres"),
                tr(
                    "Over a surface the crossfall is taken across it, half to either side; 0: that of the triangles under the "
                    "line. It may come from a field; where it is 0, a field width_m counts."
                ),
            )
        )
        bands = QgsProcessingParameterString(
            BANDS, tr("Bounds between bands of slope"), MOWING, optional=True
        )
        bands.setHelp(
            tr(
                "With commas between, as 5 %, 1:4 or 0.25, from the flattest to the steepest. The default is an example for "
                "mowing, common practice, no source: what a machine may mow its maker says."
            )
        )
        self.addParameter(bands)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_gradients import run

        return run(ask)
