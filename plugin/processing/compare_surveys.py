# SPDX-License-Identifier: GPL-2.0-or-later
"""Two surveys, or two surfaces, of one place: what changed, and what is noise."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterMapLayer,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import SIGMA
from .parameters import OUTPUT, number_parameter

if TYPE_CHECKING:
    from collections.abc import Iterator

BEFORE, AFTER, LEVEL, SEE, SEE_HEIGHT = "BEFORE", "AFTER", "LEVEL", "SEE", "SEE_HEIGHT"
COMMON_SIGMA, CHANGED, SUMMARY, CHANGES = "COMMON_SIGMA", "CHANGED", "SUMMARY", "CHANGES"
LEVEL_SIGMA_M = 0.02
"""Metres: a height of a staff or a receiver on soft ground; common practice, no source."""
LEVEL_PERCENT, LEAST_PERCENT, MOST_PERCENT = 1.0, 0.001, 20.0
SEE_M, SEE_HEIGHT_M = 0.5, 0.1
"""Metres: the changes asked about unless told."""


class CompareSurveys(Algorithm):
    NAME, GROUP = "compare_surveys", "register"

    def label(self) -> str:
        return tr("Compare surveys")

    def help_text(self) -> str:
        return tr(
            "Two surveys of one place, or two surfaces: what was added, is gone, moved, or changed in size or height, each "
            "tested against what both know, so that noise is called noise.\n\n"
            "Comparison has a row for each thing: its figures before and after, the change with its sigma, p and the outcome: "
            "same, changed, cannot tell (a change of the size asked about could hide), added or gone. Every p holds for the "
            "whole pair of surveys: in an unchanged place the chance that anything at all is told as changed is the level, "
            "or less. A shift, a turn or a step in height that all places share is found first, told in the summary, and taken "
            "off. Rows of the kind patch are neighbouring heights that changed together, which are found where none of them "
            "would be by itself. Of two surfaces it has the ground as a whole, and its patches with their volumes. "
            "What changed shows it on the map.\n\n"
            "Not a boundary or legal survey: a moved edge is evidence and no title. Have buried services located before "
            "breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        for parameter in (*_layers(), *_numbers()):
            self.addParameter(parameter)
        table = QgsProcessing.SourceType.TypeVector
        for name, label, kind, by_default in (
            (OUTPUT, tr("Comparison"), table, True),
            (CHANGED, tr("What changed"), QgsProcessing.SourceType.TypeVectorPolygon, True),
            (SUMMARY, tr("Summary"), table, True),
        ):
            self.addParameter(
                QgsProcessingParameterFeatureSink(
                    name, label, kind, optional=True, createByDefault=by_default
                )
            )
        self.addOutput(QgsProcessingOutputNumber(CHANGES, tr("Changes told")))

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.compare_surveys import run

        return run(ask)


def _layers() -> Iterator[QgsProcessingParameterDefinition]:
    kinds = [QgsProcessing.SourceType.TypeVectorAnyGeometry, QgsProcessing.SourceType.TypeMesh]
    for name, label in ((BEFORE, tr("Before")), (AFTER, tr("After"))):
        layer = QgsProcessingParameterMapLayer(name, label)
        layer.setDataTypes(kinds)
        layer.setHelp(
            tr(
                "Any layer of a survey, or its GeoPackage; or a surface: a layer of triangles with heights, a mesh, or a file "
                "of one. Both of one kind."
            )
        )
        yield layer


def _numbers() -> Iterator[QgsProcessingParameterDefinition]:
    metres = (0.0, 1000.0)
    yield number_parameter(
        LEVEL,
        tr("Chance of a false change in the whole comparison, percent"),
        tr("Of the whole comparison, all its tests together."),
        LEVEL_PERCENT,
        (LEAST_PERCENT, MOST_PERCENT),
    )
    for name, label, words, default in (
        (
            SEE,
            tr("Smallest change of a length or place that matters, metres"),
            tr(
                "Where a larger one could hide the outcome is cannot tell; of an area this times its outline."
            ),
            SEE_M,
        ),
        (
            SEE_HEIGHT,
            tr("Smallest change of a height that matters, metres"),
            tr("The same for heights."),
            SEE_HEIGHT_M,
        ),
        (
            SIGMA,
            tr("One-sigma of a height where a surface does not say it, metres"),
            tr("Surfaces that were built here say what their points are worth; other files do not."),
            LEVEL_SIGMA_M,
        ),
        (
            COMMON_SIGMA,
            tr("One-sigma of one surface's heights as a whole against the other's, metres"),
            tr("Of a bench mark or a datum: a step in height within this is nothing to be told."),
            0.0,
        ),
    ):
        parameter = number_parameter(name, label, words, default, metres)
        if name in (SIGMA, COMMON_SIGMA):
            parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        yield parameter
