# SPDX-License-Identifier: GPL-2.0-or-later
"""Ramps, steps, paths, falls and walls held against an editable table of limits: pass, fail, or cannot tell."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterFile,
    QgsProcessingParameterMapLayer,
    QgsProcessingParameterString,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import SIGMA
from .parameters import HEIGHT, OUTPUT, height_parameter, number_parameter

if TYPE_CHECKING:
    from collections.abc import Iterator

SURVEY, RAMPS, STEPS, PATHS = "SURVEY", "RAMPS", "STEPS", "PATHS"
FALLS, WALLS, SURFACE, LIMITS, ONLY = "FALLS", "WALLS", "SURFACE", "LIMITS", "ONLY"
WIDTH = "WIDTH"
DIRECTION, PLAN_SIGMA, WINDOW = "DIRECTION", "PLAN_SIGMA", "WINDOW"
LANDING_LENGTH, LANDING_GRADIENT = "LANDING_LENGTH", "LANDING_GRADIENT"
PASSED, FAILED, OPEN = "PASSED", "FAILED", "OPEN"
LEVELLED_M = 0.003
"""Metres: a height of a level and a staff on hard ground; common practice, no source."""
TAPED_M = 0.005
"""Metres: a place on hard ground; common practice, no source."""
ADVANCED = (PLAN_SIGMA, WINDOW, LANDING_LENGTH, LANDING_GRADIENT, HEIGHT)
TURN = 360.0


class CheckLimits(Algorithm):
    NAME, GROUP = "check_limits", "measure"

    def label(self) -> str:
        return tr("Check limits")

    def help_text(self) -> str:
        return tr(
            "Ramps, steps, paths, falls and walls held against an editable table of limits, a row a check: what was measured "
            "and its one-sigma, what is allowed, where that comes from, the outcome, and the chance that the true figure is "
            "allowed.\n\n"
            "A check passes or fails only where the 95 % interval of the figure lies wholly on one side of the limit; else "
            "the outcome is cannot tell, and it stays open. Of several flights, risers or goings the row has the one that is likeliest "
            "to break the limit. Ramps are walked along the middle, or by parts left and right; over a surface those of one line "
            "have a crossfall too; steps with a station on each "
            "nosing and at the foot of each riser; walls by parts foot and top. A survey's areas and lengths are told apart "
            "by their parts and risers.\n\n"
            "The limits shipped are examples with their source, some from memory: they are nobody's permission. Ramps, steps, "
            "walls and falls follow local codes and a licensed practitioner's judgement. Not a boundary or legal survey. Have "
            "buried services located before breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        for parameter in (*_things(), *_rules()):
            if parameter.name() in ADVANCED:
                parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
            self.addParameter(parameter)
        self.addParameter(
            QgsProcessingParameterFeatureSink(OUTPUT, tr("Checks"), QgsProcessing.SourceType.TypeVector)
        )
        for name, label in (
            (PASSED, tr("Checks that pass")),
            (FAILED, tr("Checks that fail")),
            (OPEN, tr("Checks that cannot tell")),
        ):
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.check_limits import run

        return run(ask)


def _things() -> Iterator[QgsProcessingParameterDefinition]:
    """What is checked."""
    survey = QgsProcessingParameterFile(
        SURVEY, tr("Survey GeoPackage"), optional=True, fileFilter=tr("GeoPackage") + " (*.gpkg)"
    )
    survey.setHelp(
        tr("Its areas and lengths are told apart by their parts and risers, with the survey's own sigma.")
    )
    yield survey
    line, polygon = QgsProcessing.SourceType.TypeVectorLine, QgsProcessing.SourceType.TypeVectorPolygon
    for name, label, kind, words in (
        (
            RAMPS,
            tr("Ramps"),
            line,
            tr("Lines with heights: the middle, or parts left and right of one feature."),
        ),
        (STEPS, tr("Steps"), line, tr("Lines with heights: each nosing, and the foot of each riser.")),
        (
            PATHS,
            tr("Paths"),
            line,
            tr("Lines with heights: the middle, or parts left and right of one feature."),
        ),
        (FALLS, tr("Areas with falls"), polygon, tr("With heights of their own, or over the surface.")),
        (WALLS, tr("Walls"), line, tr("Lines with heights: parts foot and top of one feature.")),
    ):
        source = QgsProcessingParameterFeatureSource(name, label, [kind], optional=True)
        source.setHelp(words)
        yield source
    surface = QgsProcessingParameterMapLayer(SURFACE, tr("Surface under areas and ways"), optional=True)
    surface.setHelp(
        tr(
            "Triangles with heights, or a mesh; without it the areas' own heights count. Ramps and paths drawn as one line take "
            "their crossfall from it, and their heights where they have none."
        )
    )
    yield surface
    yield number_parameter(
        WIDTH,
        tr("Width of a path drawn as one line, metres"),
        tr(
            "The crossfall over the surface is taken across it; a row's own width_m counts first. 0: that of the triangles "
            "under the line."
        ),
        0.0,
        (0.0, 1000.0),
    )


def _rules() -> Iterator[QgsProcessingParameterDefinition]:
    """Limits, and what points are worth."""
    table = QgsProcessingParameterFile(LIMITS, tr("Table of limits"), optional=True, extension="csv")
    table.setHelp(tr("Where it is empty, the examples shipped. Copy limits.csv of the formats and edit it."))
    yield table
    only = QgsProcessingParameterString(ONLY, tr("Only limits whose name begins with"), optional=True)
    only.setHelp(
        tr("Words with commas between, such as: ADA, Practice paving; a whole name between double quotes.")
    )
    yield only
    yield number_parameter(
        DIRECTION,
        tr("Direction along the areas, degrees"),
        tr("Clockwise from grid north; the crossfall over a surface is across it."),
        None,
        (0.0, TURN),
    )
    for name, label, words, default, span in (*_worth(), *_ramp_rules()):
        yield number_parameter(name, label, words, default, span)
    yield height_parameter()


def _worth() -> Iterator[tuple[str, str, str, float, tuple[float, float]]]:
    """What points of layers are worth."""
    metres = (0.0, 1000.0)
    yield (
        SIGMA,
        tr("One-sigma of a height, metres"),
        tr(
            "Of points of layers, and of surfaces that do not say it; the rows of a survey bring their own. It is an "
            "assumption: a level and a staff on hard ground give 3 mm, as for what is levelled to be checked. A layer "
            "that was drawn from a picture or a plan is worth less: 0.1 m is what walls and trenches take for it, and "
            "with that most checks cannot tell."
        ),
        LEVELLED_M,
        metres,
    )
    yield (
        PLAN_SIGMA,
        tr("One-sigma of a point in plan, each axis, metres"),
        tr("Of points of layers."),
        TAPED_M,
        metres,
    )


def _ramp_rules() -> Iterator[tuple[str, str, str, float, tuple[float, float]]]:
    """What of a ramp is a landing, and over which run its gradient is taken."""
    yield (
        WINDOW,
        tr("Run over which the steepest gradient is looked for, metres"),
        tr("Of ramps, landings and paths."),
        1.0,
        (0.01, 1000.0),
    )
    yield (
        LANDING_LENGTH,
        tr("Shortest run that is a landing, metres"),
        tr("Shorter flat runs are a part of the flight."),
        1.0,
        (0.01, 1000.0),
    )
    yield (
        LANDING_GRADIENT,
        tr("Steepest gradient of a landing, percent"),
        tr("Steeper runs are a flight. Take it larger than limits of landings, so that bad ones are seen."),
        2.5,
        (0.01, 100.0),
    )
