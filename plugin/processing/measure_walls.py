# SPDX-License-Identifier: GPL-2.0-or-later
"""Walls and kerbs along the lines of any layer: lengths, retained height, face, volumes, courses, units."""

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
from .layers import (
    add_layer_outputs,
    add_layer_parameters,
    add_part_parameters,
    size_parameter,
    size_sigma_parameter,
)
from .parameters import INPUT, OUTPUT, number_parameter

WALL_HEIGHT, THICKNESS, LIES = "WALL_HEIGHT", "THICKNESS", "LIES"
COURSE, UNIT, SAG = "COURSE", "UNIT", "SAG"
FOOTING_WIDTH, FOOTING_DEPTH, BACKFILL, DESIGN_HEIGHT = (
    "FOOTING_WIDTH",
    "FOOTING_DEPTH",
    "BACKFILL",
    "DESIGN_HEIGHT",
)


class MeasureWalls(Algorithm):
    NAME, GROUP = "measure_walls", "measure"

    def label(self) -> str:
        return tr("Measure walls")

    def help_text(self) -> str:
        return tr(
            "Walls, kerbs and edgings along the lines of any layer: front, centre and back length, arcs exact and corners "
            "mitred, retained height, face, body, footing and backfill, courses, and where straight units fit a curve.\n\n"
            "Two lines of one feature whose parts are called foot and top give the height along the wall; where both are closed, "
            "as of a planter, it does not count where either begins. A line of its own takes the height that is given. Every row comes back with its own columns and these figures, each with its "
            "one-sigma; of two lines they stand in the row of the foot. design_ratio is the chance that the height "
            "passes the height from which a licensed designer is asked for, at the place where that is likeliest.\n\n"
            "Walls and retaining structures follow local codes and a licensed practitioner's judgement. Have buried "
            "services located before breaking ground. Not a boundary or legal survey."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        self.addParameter(
            QgsProcessingParameterFeatureSource(
                INPUT, tr("Lines of walls"), [QgsProcessing.SourceType.TypeVectorLine]
            )
        )
        self._add_sizes()
        add_part_parameters(self)
        add_layer_parameters(self, tr("One-sigma of a point, each axis and height, metres"))
        more = size_sigma_parameter()
        more.setFlags(more.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        self.addParameter(more)
        self.addParameter(
            QgsProcessingParameterFeatureSink(
                OUTPUT, tr("Measured walls"), QgsProcessing.SourceType.TypeVectorLine
            )
        )
        add_layer_outputs(self)

    def _add_sizes(self) -> None:
        self.addParameter(
            size_parameter(
                WALL_HEIGHT,
                tr("Height of a wall without a top line, metres"),
                tr("It may come from a field; of a survey's lengths 0 takes the height noted on site."),
            )
        )
        self.addParameter(size_parameter(THICKNESS, tr("Thickness, metres"), tr("It may come from a field.")))
        sides = [tr("About its line"), tr("Left of its line, the front"), tr("Right of its line, the front")]
        lies = QgsProcessingParameterEnum(LIES, tr("Where the wall lies, looking along its line"), sides)
        lies.setDefaultValue(0)
        self.addParameter(lies)
        for name, label, words, default, most in _size_words():
            self.addParameter(number_parameter(name, label, words, default, (0.0, most)))

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_walls import run

        return run(ask)


def _size_words() -> tuple[tuple[str, str, str, float, float], ...]:
    return (
        (
            COURSE,
            tr("Height of a course, metres"),
            tr("Counts courses and steps of the footing; 0 for none."),
            0.0,
            10.0,
        ),
        (
            UNIT,
            tr("Length of a straight unit, metres"),
            tr("Of kerbs, blocks or capping along the front; 0 for none."),
            0.0,
            100.0,
        ),
        (
            SAG,
            tr("Largest rise of a curve over one straight unit, metres"),
            tr("10 mm is common practice, no source. Tighter curves need radius units."),
            0.010,
            1.0,
        ),
        (FOOTING_WIDTH, tr("Width of the footing, metres"), tr("Along the wall's centre."), 0.0, 100.0),
        (FOOTING_DEPTH, tr("Depth of the footing, metres"), tr("Along the wall's centre."), 0.0, 100.0),
        (
            BACKFILL,
            tr("Width of drain and backfill behind the wall, metres"),
            tr("As high as the wall, behind its back."),
            0.0,
            100.0,
        ),
        (
            DESIGN_HEIGHT,
            tr("Height from which a licensed designer is asked for, metres"),
            tr(
                "It is the local code's to say; 0 for none. RW-01 asks where it may be passed by more than 5 %."
            ),
            0.0,
            1000.0,
        ),
    )
