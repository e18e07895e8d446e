# SPDX-License-Identifier: GPL-2.0-or-later
"""Sections of surfaces along lines, or across a baseline: levels, gradients, depths, and areas of cut and fill."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsProcessing,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterMultipleLayers,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import SIGMA
from .parameters import OUTPUT, height_parameter, number_parameter

if TYPE_CHECKING:
    from collections.abc import Iterable


SURFACES, LINES, BASELINE, FEATURES = "SURFACES", "LINES", "BASELINE", "FEATURES"
INTERVAL, LEFT, RIGHT, COMMON_SIGMA = "INTERVAL", "LEFT", "RIGHT", "COMMON_SIGMA"
SECTIONS, END_AREAS = "SECTIONS", "END_AREAS"
INTERVAL_M, WIDTH_M = 5.0, 5.0
LEVEL_SIGMA_M = 0.02
"""Metres: a height of a staff or a receiver on soft ground; common practice, no source."""
MOST_M = 100_000.0


class CutSections(Algorithm):
    NAME, GROUP = "cut_sections", "measure"

    def label(self) -> str:
        return tr("Cut sections")

    def help_text(self) -> str:
        return tr(
            "Sections of one or more surfaces along any lines, or square to a baseline at an interval, with a break at "
            "every edge of a triangle: nothing is sampled.\n\n"
            "The chainage table has a row for each break: chainage_m along the section, level, rise and gradient of the "
            "first surface, which is the ground, and of every other its level and its depth below the ground (cut is "
            "positive, fill negative). Where the ground crosses another surface, and where the line crosses a feature, "
            "there is a row too. Sections has each as a line with heights and its figures from end to end: rise, "
            "run, lengths, the gradient as ratio, percent, degrees, inches in a foot and 1 in n, and the areas of cut and "
            "of fill, never netted. End areas has the volumes between the sections of a baseline by the average end area "
            "(with the pyramid rule where an end is zero), by the prismoid and exactly over the triangles. Every _sigma is "
            "one standard deviation.\n\n"
            "Not a boundary or legal survey. Have buried services located before breaking ground. Gradients of ramps and "
            "steps follow local codes and a licensed practitioner's judgement."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        surfaces = QgsProcessingParameterMultipleLayers(
            SURFACES,
            tr("Surfaces, the ground first"),
            QgsProcessing.SourceType.TypeMapLayer,
        )
        surfaces.setHelp(tr("Layers of triangles with heights, or meshes. Depths are of the first below it."))
        self.addParameter(surfaces)
        self._add_lines()
        for parameter in _numbers():
            self.addParameter(parameter)
        table = QgsProcessing.SourceType.TypeVector
        for name, label, kind, by_default in (
            (OUTPUT, tr("Chainage table"), table, True),
            (SECTIONS, tr("Sections"), QgsProcessing.SourceType.TypeVectorLine, True),
            (END_AREAS, tr("End areas"), table, False),
        ):
            self.addParameter(
                QgsProcessingParameterFeatureSink(
                    name, label, kind, optional=True, createByDefault=by_default
                )
            )

    def _add_lines(self) -> None:
        line = [QgsProcessing.SourceType.TypeVectorLine]
        plan = [QgsProcessing.SourceType.TypeVectorLine, QgsProcessing.SourceType.TypeVectorPolygon]
        for name, label, kinds, words in (
            (LINES, tr("Lines to cut along"), line, tr("Each part of each row is a section.")),
            (BASELINE, tr("Baseline"), line, tr("One line, arcs too; sections are cut square to it.")),
            (FEATURES, tr("Features"), plan, tr("Areas and lengths whose crossings are told by name.")),
        ):
            parameter = QgsProcessingParameterFeatureSource(name, label, kinds, optional=True)
            parameter.setHelp(words)
            self.addParameter(parameter)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.cut_sections import run

        return run(ask)


def _numbers() -> Iterable[QgsProcessingParameterDefinition]:
    """The stationing, and what the heights are worth."""
    widths = (0.0, MOST_M)
    yield number_parameter(
        INTERVAL,
        tr("Interval along the baseline, metres"),
        tr("From section to section; there is one at the end of the baseline too."),
        INTERVAL_M,
        (0.001, MOST_M),
    )
    for name, label in ((LEFT, tr("Width to the left, metres")), (RIGHT, tr("Width to the right, metres"))):
        yield number_parameter(name, label, tr("Looking along the baseline."), WIDTH_M, widths)
    later = (
        number_parameter(
            SIGMA,
            tr("One-sigma of a height where a surface does not say it, metres"),
            tr("Surfaces that were built here say what their points are worth; other layers do not."),
            LEVEL_SIGMA_M,
            (0.0, 1000.0),
        ),
        number_parameter(
            COMMON_SIGMA,
            tr("One-sigma of what all heights share, metres"),
            tr("Of a bench mark or a datum: it is in the levels, and cancels in rises and depths."),
            0.0,
            (0.0, 1000.0),
        ),
        height_parameter(),
    )
    for parameter in later:
        parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        yield parameter
