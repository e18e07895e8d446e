# SPDX-License-Identifier: GPL-2.0-or-later
"""Strips of even width along the lines or round the areas of any layer: mowing strips, margins, edgings."""

from __future__ import annotations

from qgis.core import (
    QgsProcessing,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterEnum,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import add_layer_outputs, add_layer_parameters, size_parameter, size_sigma_parameter
from .parameters import INPUT, OUTPUT

WIDTH, SIDE = "WIDTH", "SIDE"


class MeasureStrips(Algorithm):
    NAME, GROUP = "measure_strips", "measure"

    def label(self) -> str:
        return tr("Measure strips")

    def help_text(self) -> str:
        return tr(
            "The plan area of strips of even width along the lines of any layer, or round the outer edge of its areas: mowing "
            "strips, margins, edgings, verges; true to the ground, with its uncertainty.\n\n"
            "A strip lies to one side of its edge, half to each, or its width to either. Arcs keep their centre and corners are "
            "mitred, so that the area is exact: the width by the length of the strip's middle. left_m and right_m are the "
            "lengths of its edges along a line. Where a strip runs over itself, or round an area into a hole or another part, "
            "finding says that this ground counts twice or too; an edge without room for it is refused.\n\n"
            "Have buried services located before breaking ground. Not a boundary or legal survey."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        line, polygon = QgsProcessing.SourceType.TypeVectorLine, QgsProcessing.SourceType.TypeVectorPolygon
        self.addParameter(QgsProcessingParameterFeatureSource(INPUT, tr("Lines or areas"), [line, polygon]))
        self.addParameter(
            size_parameter(
                WIDTH,
                tr("Width of the strip, metres"),
                tr("It may come from a field; of a survey's rows 0 takes the width noted on site."),
            )
        )
        sides = [
            tr("Left of a line, outside an area"),
            tr("Right of a line, inside an area"),
            tr("Half to each side"),
            tr("The width to either side"),
        ]
        side = QgsProcessingParameterEnum(SIDE, tr("Where the strip lies"), sides)
        side.setDefaultValue(0)
        self.addParameter(side)
        add_layer_parameters(self, tr("One-sigma of a point, each axis, metres"))
        more = size_sigma_parameter()
        more.setFlags(more.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        self.addParameter(more)
        self.addParameter(QgsProcessingParameterFeatureSink(OUTPUT, tr("Measured strips")))
        add_layer_outputs(self)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_strips import run

        return run(ask)
