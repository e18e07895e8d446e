# SPDX-License-Identifier: GPL-2.0-or-later
"""Developed faces of any layer with heights: by width, between two edges, or in a plane of their own."""

from __future__ import annotations

from qgis.core import (
    QgsProcessing,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import (
    add_layer_outputs,
    add_layer_parameters,
    add_part_parameters,
    size_parameter,
    size_sigma_parameter,
)
from .parameters import INPUT, OUTPUT, TOLERANCE, number_parameter

WIDTH = "WIDTH"
OFF_PLANE_M = 0.05
"""Metres: the largest distance from its plane of an outline that is taken for flat, unless told."""


class MeasureFaces(Algorithm):
    NAME, GROUP = "measure_faces", "measure"

    def label(self) -> str:
        return tr("Measure faces")

    def help_text(self) -> str:
        return tr(
            "The developed area of faces that stand, lean or curve: what is clad, rendered, turfed or lined. True to the "
            "ground, whatever the layer's CRS.\n\n"
            "A line with a width is a profile up a face, and its area is its length along the slope times the width. Two "
            "lines of one feature whose parts are called foot and top, or left and right, are the edges of a face of "
            "straight rulings between them; where both are closed, as of a planter, it does not count where either begins. A "
            "polygon with heights is an outline in a plane of its own, upright or "
            "leaning, holes out. Arcs are circles through their three points in space, in whichever plane these lie.\n\n"
            "Every row comes back with its own columns and, added, face_m2, length_m (of the profile, the mean of two "
            "edges, an outline's outer edge), each with its one-sigma, off_plane_m, and why a row was refused. Of two edges "
            "the figures stand in the row of foot or left.\n\n"
            "Retaining structures follow local codes and a licensed practitioner's judgement."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        line, polygon = QgsProcessing.SourceType.TypeVectorLine, QgsProcessing.SourceType.TypeVectorPolygon
        self.addParameter(
            QgsProcessingParameterFeatureSource(INPUT, tr("Profiles, edges or outlines"), [line, polygon])
        )
        self.addParameter(
            size_parameter(
                WIDTH,
                tr("Width of a profile's face, metres"),
                tr(
                    "Square to the profile. It may come from a field; of a survey's profiles 0 takes the width noted on site."
                ),
            )
        )
        add_part_parameters(self)
        add_layer_parameters(self, tr("One-sigma of a point, each axis, metres"))
        for parameter in (
            size_sigma_parameter(),
            number_parameter(
                TOLERANCE,
                tr("Largest distance of an outline's point from its plane, metres"),
                tr("An outline that lies farther off any plane is refused."),
                OFF_PLANE_M,
                (0.0001, 100.0),
            ),
        ):
            parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
            self.addParameter(parameter)
        self.addParameter(
            QgsProcessingParameterFeatureSink(
                OUTPUT, tr("Measured faces"), QgsProcessing.SourceType.TypeVectorAnyGeometry
            )
        )
        add_layer_outputs(self)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_faces import run

        return run(ask)
