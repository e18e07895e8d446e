# SPDX-License-Identifier: GPL-2.0-or-later
"""Concrete slabs from the outlines of any layer: volume, forms, joints, mesh."""

from __future__ import annotations

from qgis.core import (
    QgsProcessing,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterMapLayer,
)

from ..bridge.text import tr
from ..core.defaults import CURVED_BELOW
from .algorithm import Algorithm, Ask
from .layers import add_layer_outputs, add_layer_parameters, size_parameter, size_sigma_parameter
from .parameters import INPUT, OUTPUT, number_parameter

THICKNESS, BOTTOM, SURFACE = "THICKNESS", "BOTTOM", "SURFACE"
EDGE_DEPTH, EDGE_WIDTH, EDGE_SPLAY = "EDGE_DEPTH", "EDGE_WIDTH", "EDGE_SPLAY"
EDGES, EXTRA = "EDGES", "EXTRA"
TIGHT_RADIUS, JOINT_FACTOR = "TIGHT_RADIUS", "JOINT_FACTOR"
SHEET_LENGTH, SHEET_WIDTH, LAP, WASTE, STEP = "SHEET_LENGTH", "SHEET_WIDTH", "LAP", "WASTE", "STEP"


class MeasureSlabs(Algorithm):
    NAME, GROUP = "measure_slabs", "measure"

    def label(self) -> str:
        return tr("Measure slabs")

    def help_text(self) -> str:
        return tr(
            "Concrete of slabs inside the outlines of any layer, true to the ground, with its uncertainty: the plan area "
            "times an even thickness, or the plane through the corners' heights down to a level or to a surface, over "
            "its triangles; with an edge thickened all round, or along the sides that are given, on the path of its centroid. Arcs "
            "are exact, holes are out. So is a course under paving, which may reach past its edge.\n\n"
            "Every row comes back with its own columns and, added: concrete_m3 and what is ordered of it, its plan area, thinnest, mean "
            "and thickest, forms along all edges by height (to 150 mm, to 300 mm, above) and straight or curved, joints "
            "and bays, and whole mesh sheets with their laps.\n\n"
            "Form classes, bay limits and laps are common practice without a source: set your own. Concrete mixes, joints "
            "and reinforcement follow local codes and a licensed practitioner's judgement. Have buried services located "
            "before breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        self.addParameter(
            QgsProcessingParameterFeatureSource(
                INPUT, tr("Outlines of slabs"), [QgsProcessing.SourceType.TypeVectorPolygon]
            )
        )
        self.addParameter(
            size_parameter(
                THICKNESS,
                tr("Thickness, vertical, metres"),
                tr(
                    "Even all over. It may come from a field; of a survey's areas 0 takes the depth noted on site."
                ),
            )
        )
        self.addParameter(
            number_parameter(
                BOTTOM,
                tr("Level of a flat underside, metres"),
                tr(
                    "In the datum of the corners' heights, in metres. Where it is given, the thickness varies, and the even one is not used."
                ),
                None,
                (-1000.0, 10000.0),
            )
        )
        under = QgsProcessingParameterMapLayer(SURFACE, tr("Surface under the slab"), optional=True)
        under.setHelp(
            tr(
                "A layer of triangles with heights, or a mesh. It goes before the level and the thickness above."
            )
        )
        self.addParameter(under)
        line = QgsProcessing.SourceType.TypeVectorLine
        sides = QgsProcessingParameterFeatureSource(
            EDGES, tr("Sides with a thickened edge"), [line], optional=True
        )
        sides.setHelp(
            tr(
                "Lines along the outer edge, or along a part of it, such as rows of a survey's sides; without it all round."
            )
        )
        self.addParameter(sides)
        for name, label, words, default, most in (*_edge_words(), *_laying_words()):
            self.addParameter(number_parameter(name, label, words, default, (0.0, most)))
        add_layer_parameters(self, tr("One-sigma of a corner, each axis and height, metres"))
        more = size_sigma_parameter()
        more.setFlags(more.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        self.addParameter(more)
        self.addParameter(
            QgsProcessingParameterFeatureSink(
                OUTPUT, tr("Measured slabs"), QgsProcessing.SourceType.TypeVectorPolygon
            )
        )
        add_layer_outputs(self)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_slabs import run

        return run(ask)


Words = tuple[str, str, str, float, float]


def _edge_words() -> tuple[Words, ...]:
    return (
        (
            EXTRA,
            tr("Extra past the outer edge, metres"),
            tr(
                "Of a course that is wider than its area; arcs keep their centre, corners are mitred, holes stay."
            ),
            0.0,
            100.0,
        ),
        (
            EDGE_DEPTH,
            tr("Depth of a thickened edge below the slab, metres"),
            tr("Along the outer edge; 0 for none. Forms are as much higher."),
            0.0,
            100.0,
        ),
        (
            EDGE_WIDTH,
            tr("Width of a thickened edge at its foot, metres"),
            tr("From the edge inward."),
            0.0,
            100.0,
        ),
        (
            EDGE_SPLAY,
            tr("Splay of a thickened edge, metres"),
            tr("How much wider it is under the slab."),
            0.0,
            100.0,
        ),
        (
            TIGHT_RADIUS,
            tr("Radius below which a form is curved, metres"),
            tr("6 m is common practice, no source."),
            CURVED_BELOW,
            1000.0,
        ),
    )


def _laying_words() -> tuple[Words, ...]:
    return (
        (
            JOINT_FACTOR,
            tr("Longest bay, in thicknesses"),
            tr(
                "24 to 30 is common practice, no source; 0 for no joints. No bay is longer than 1.5 times its width."
            ),
            0.0,
            1000.0,
        ),
        (SHEET_LENGTH, tr("Length of a mesh sheet, metres"), tr("0 for no mesh."), 0.0, 100.0),
        (SHEET_WIDTH, tr("Width of a mesh sheet, metres"), tr("0 for no mesh."), 0.0, 100.0),
        (
            LAP,
            tr("Lap of mesh sheets, metres"),
            tr("Both ways. 0.30 m is common practice, no source."),
            0.3,
            100.0,
        ),
        (
            WASTE,
            tr("Waste of concrete, percent"),
            tr("Taken once, before the step of the order."),
            0.0,
            1000.0,
        ),
        (STEP, tr("Step that concrete is sold in, cubic metres"), tr("0 for any amount."), 0.0, 1000.0),
    )
