# SPDX-License-Identifier: GPL-2.0-or-later
"""Root protection circles round the trees of any layer, and what works take of them."""

from __future__ import annotations

from qgis.core import (
    QgsProcessing,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
)

from ..bridge.text import tr
from ..core.defaults import TREE_CAP, TREE_TIMES
from .algorithm import Algorithm, Ask
from .layers import add_layer_outputs, add_layer_parameters, size_parameter
from .parameters import INPUT, OUTPUT, number_parameter

STEM, STEMS, STEM_COLUMN, STEM_SIGMA = "STEM", "STEMS", "STEM_COLUMN", "STEM_SIGMA"
TIMES_STEM, LARGEST_RADIUS, WORKS, OVERLAPS = "TIMES_STEM", "LARGEST_RADIUS", "WORKS", "OVERLAPS"


class ProtectTrees(Algorithm):
    NAME, GROUP = "protect_trees", "measure"

    def label(self) -> str:
        return tr("Protect trees")

    def help_text(self) -> str:
        return tr(
            "The root protection circle of each tree of a layer of points: 12 times the stem's diameter at 1.5 m (in the US "
            "1.37 m), 15 m at most; several stems count as one of the same section, more than five by their mean. True to "
            "the ground, as true circles, with area, fence length and their one-sigma.\n\n"
            "With a layer of works (dig, fill, paving) every tree tells how much of its circle they take, which is asked "
            "about (TR-01), and Overlaps with works has a row for each tree and each outline of works with the area. What two "
            "outlines cover counts twice.\n\n"
            "The rule is that of BS 5837:2012 from memory; factor and cap are yours to set. Trees follow local codes and a "
            "licensed practitioner's judgement: a circle says nothing of where the roots are. Have buried services located "
            "before breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        points, polygon = QgsProcessing.SourceType.TypeVectorPoint, QgsProcessing.SourceType.TypeVectorPolygon
        self.addParameter(QgsProcessingParameterFeatureSource(INPUT, tr("Trees"), [points]))
        self._add_stems()
        works = QgsProcessingParameterFeatureSource(
            WORKS, tr("Works: dig, fill, paving"), [polygon], optional=True
        )
        works.setHelp(tr("Their overlaps with the circles are listed."))
        self.addParameter(works)
        add_layer_parameters(self, tr("One-sigma of a tree or a corner of works, each axis, metres"))
        for name, words in ((OUTPUT, tr("Protection circles")), (OVERLAPS, tr("Overlaps with works"))):
            self.addParameter(
                QgsProcessingParameterFeatureSink(name, words, polygon, optional=True, createByDefault=True)
            )
        add_layer_outputs(self)

    def _add_stems(self) -> None:
        self.addParameter(
            size_parameter(
                STEM,
                tr("Stem diameter, metres"),
                tr(
                    "At 1.5 m above the ground; of several stems their mean. It may come from a field or an expression; of a "
                    "survey's spots 0 takes the stem noted on site."
                ),
            )
        )
        self.addParameter(
            size_parameter(
                STEMS, tr("Number of stems"), tr("Of that diameter. It may come from a field."), 1.0
            )
        )
        column = QgsProcessingParameterField(
            STEM_COLUMN,
            tr("Field of stem diameters as noted"),
            parentLayerParameterName=INPUT,
            optional=True,
        )
        column.setHelp(
            tr(
                "In metres, several stems with + between, such as 0.12+0.15; it goes before the numbers above."
            )
        )
        self.addParameter(column)
        for name, label, words, default, most in (
            (
                STEM_SIGMA,
                tr("One-sigma of a stem's diameter, metres"),
                tr("Of the combined one."),
                0.01,
                10.0,
            ),
            (
                TIMES_STEM,
                tr("Radius, in stem diameters"),
                tr("12 by BS 5837:2012, from memory."),
                TREE_TIMES,
                100.0,
            ),
            (
                LARGEST_RADIUS,
                tr("Largest radius, metres"),
                tr("15 by BS 5837:2012, from memory; 0 for none."),
                TREE_CAP,
                1000.0,
            ),
        ):
            parameter = number_parameter(name, label, words, default, (0.0, most))
            parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
            self.addParameter(parameter)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.protect_trees import run

        return run(ask)
