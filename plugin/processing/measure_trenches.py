# SPDX-License-Identifier: GPL-2.0-or-later
"""Trenches and swales along the lines of any layer: dig, plan area, face and depths."""

from __future__ import annotations

from qgis.core import (
    QgsProcessing,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterEnum,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterMapLayer,
    QgsProcessingParameterNumber,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import (
    add_layer_outputs,
    add_layer_parameters,
    size_parameter,
    size_sigma_parameter,
)
from .parameters import INPUT, OUTPUT, number_parameter

SECTION, WIDTH, DEPTH, DEPTH_END, BATTER = "SECTION", "WIDTH", "DEPTH", "DEPTH_END", "BATTER"
SURFACE, INVERT_START, INVERT_END, BEDDING = "SURFACE", "INVERT_START", "INVERT_END", "BEDDING"
LIES, ALONG = "LIES", "ALONG"
LOWEST_M, HIGHEST_M = -1000.0, 10000.0
"""Metres: levels of inverts."""


class MeasureTrenches(Algorithm):
    NAME, GROUP = "measure_trenches", "measure"

    def label(self) -> str:
        return tr("Measure trenches and swales")

    def help_text(self) -> str:
        return tr(
            "What is dug along the lines of any layer: volume, plan area, face to be lined or seeded, the mean section (the "
            "dig per metre), and mean, greatest and least depth, true to the ground, each with its one-sigma.\n\n"
            "The section is rectangular, V-shaped, a trapezoid whose sides lean by the batter, or round-bottomed, and goes along "
            "the path of its centroid, arcs exact. Its depth is one, runs evenly to the depth at the end of the line, or from place to place as "
            "noted (a prismoid from each to the next); or it goes from the ground down to the inverts at both ends and the "
            "bedding below, the ground being the surface of the ground, cut at the edge of every triangle, or the line's own heights. Widths, "
            "depths and inverts that were noted on site are taken from a survey's lengths where they are not given.\n\n"
            "Have buried services located before breaking ground. Trench sides need support, a safe slope or nobody in the "
            "trench, by local rules and a competent person's judgement: batter and depth are sizes here, not advice. Not a "
            "boundary or legal survey."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        line = QgsProcessing.SourceType.TypeVectorLine
        self.addParameter(
            QgsProcessingParameterFeatureSource(INPUT, tr("Lines of trenches and swales"), [line])
        )
        self._add_section()
        self._add_inverts()
        self._add_more()
        add_layer_parameters(self, tr("One-sigma of a point, each axis and height, metres"))
        more = size_sigma_parameter()
        more.setFlags(more.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        self.addParameter(more)
        self.addParameter(QgsProcessingParameterFeatureSink(OUTPUT, tr("Measured trenches and swales"), line))
        add_layer_outputs(self)

    def _add_section(self) -> None:
        forms = [
            tr("Rectangular: upright sides"),
            tr("V-shaped: down to the middle"),
            tr("Trapezoid: leaning sides"),
            tr("Round-bottomed: a part of a circle"),
        ]
        section = QgsProcessingParameterEnum(SECTION, tr("Cross section"), forms)
        section.setDefaultValue(0)
        self.addParameter(section)
        for name, label, words in (
            (
                WIDTH,
                tr("Width, metres"),
                tr(
                    "At the foot of a rectangle or a trapezoid, at the top of the others. It may come from a field; of a "
                    "survey's lengths 0 takes the width noted on site."
                ),
            ),
            (
                DEPTH,
                tr("Depth, metres"),
                tr(
                    "Below the ground. It may come from a field; of a survey's lengths 0 takes the depth noted on site. "
                    "Without any it follows from inverts."
                ),
            ),
            (
                DEPTH_END,
                tr("Depth at the end of the line, metres"),
                tr(
                    "Where it is not 0, the depth runs evenly from the depth above, or from what was noted at the start, to it. "
                    "It may come from a field."
                ),
            ),
        ):
            self.addParameter(size_parameter(name, label, words))
        self.addParameter(
            number_parameter(
                BATTER,
                tr("Batter of a trapezoid's sides, metres out per metre up"),
                tr("Side slopes of 1 in n: n; 0 is upright."),
                0.0,
                (0.0, 100.0),
            )
        )

    def _add_inverts(self) -> None:
        surface = QgsProcessingParameterMapLayer(SURFACE, tr("Surface of the ground"), optional=True)
        surface.setHelp(
            tr(
                "A layer of triangles with heights, or a mesh, that inverts are held against; without it the line's own heights."
            )
        )
        self.addParameter(surface)
        words = tr("In the datum of the ground's heights. It may come from a field.")
        noted = tr("Of a survey's lengths the levels noted on site count where it is empty.")
        for name, label in (
            (INVERT_START, tr("Level of the invert at the line's start, metres")),
            (INVERT_END, tr("Level of the invert at the line's end, metres")),
        ):
            self.addParameter(_level(name, label, f"{words} {noted}"))
        self.addParameter(
            number_parameter(
                BEDDING,
                tr("Bedding below the invert, metres"),
                tr("Pipe wall and bedding."),
                0.0,
                (0.0, 100.0),
            )
        )

    def _add_more(self) -> None:
        sides = [
            tr("About its line"),
            tr("Left of its line, a top edge"),
            tr("Right of its line, a top edge"),
        ]
        lies = QgsProcessingParameterEnum(LIES, tr("Where it lies, looking along its line"), sides)
        lies.setDefaultValue(0)
        along = QgsProcessingParameterField(
            ALONG, tr("Field of sizes along the line"), parentLayerParameterName=INPUT, optional=True
        )
        along.setHelp(
            tr(
                'Text such as {"depth_m": [[0, 0.4], [12.5, 0.55]]}: pairs of metres along the line and size, of width_m, '
                "depth_m and invert_m. Of a survey's lengths the field sizes_along counts."
            )
        )
        for parameter in (lies, along):
            parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
            self.addParameter(parameter)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_trenches import run

        return run(ask)


def _level(name: str, label: str, words: str) -> QgsProcessingParameterNumber:
    """A level, which may come from a field row by row and may be missing."""
    parameter = size_parameter(name, label, words, most=HIGHEST_M)
    parameter.setDefaultValue(None)
    parameter.setMinimum(LOWEST_M)
    parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagOptional)
    return parameter
