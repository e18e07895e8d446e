# SPDX-License-Identifier: GPL-2.0-or-later
"""Plants, turf, seed and mulch of the beds and rows of any layer."""

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
from .parameters import INPUT, OUTPUT, number_parameter

SPACING, PATTERN, SET_BACK, EXTRA = "SPACING", "PATTERN", "SET_BACK", "EXTRA"
SEED, SEED_ALIVE, MULCH, LOOSENING = "SEED", "SEED_ALIVE", "MULCH", "LOOSENING"
ROLL_LENGTH, ROLL_WIDTH = "ROLL_LENGTH", "ROLL_WIDTH"


class CountPlanting(Algorithm):
    NAME, GROUP = "count_planting", "measure"

    def label(self) -> str:
        return tr("Count planting")

    def help_text(self) -> str:
        return tr(
            "Plants, turf, seed and mulch of the beds of any polygon layer, and plants of the rows of any line layer, true to "
            "the ground, with their uncertainty.\n\n"
            "A bed's edge is set back first; each plant has the spacing squared in square rows, and 0.866 of it in staggered "
            "ones, which takes 15.5 % more plants. A row has a plant at its start and one at every spacing; a closed one as "
            "many as have room. Turf goes in strips along the longest side, over all of the bed; rolls are counted strip by "
            "strip. Seed goes by weight and mulch by depth over the bed that is set back.\n\n"
            "Every row comes back with its own columns and these figures. Each factor is taken once, and method names it. "
            "Have buried services located before breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        line, polygon = QgsProcessing.SourceType.TypeVectorLine, QgsProcessing.SourceType.TypeVectorPolygon
        self.addParameter(QgsProcessingParameterFeatureSource(INPUT, tr("Beds or rows"), [polygon, line]))
        self.addParameter(
            size_parameter(
                SPACING,
                tr("Spacing of plants, metres"),
                tr("From plant to plant; 0 for no plants. It may come from a field."),
            )
        )
        pattern = QgsProcessingParameterEnum(
            PATTERN, tr("Pattern"), [tr("Square rows"), tr("Staggered rows")]
        )
        pattern.setDefaultValue(0)
        self.addParameter(pattern)
        self.addParameter(
            size_parameter(
                SET_BACK,
                tr("Set-back from the edge, metres"),
                tr("Of a row at both its ends. It may come from a field."),
            )
        )
        for name, label, words, default, most in _words():
            self.addParameter(number_parameter(name, label, words, default, (0.0, most)))
        add_layer_parameters(self, tr("One-sigma of a point, each axis, metres"))
        more = size_sigma_parameter()
        more.setFlags(more.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        self.addParameter(more)
        self.addParameter(
            QgsProcessingParameterFeatureSink(
                OUTPUT, tr("Counted planting"), QgsProcessing.SourceType.TypeVectorAnyGeometry
            )
        )
        add_layer_outputs(self)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.count_planting import run

        return run(ask)


def _words() -> tuple[tuple[str, str, str, float, float], ...]:
    return (
        (EXTRA, tr("More plants for losses, percent"), tr("3 % is common practice, no source."), 0.0, 1000.0),
        (
            SEED,
            tr("Seed, grams per square metre"),
            tr("35 for a new lawn: common practice, no source."),
            0.0,
            1000.0,
        ),
        (
            SEED_ALIVE,
            tr("Seed that is alive, percent"),
            tr("Purity times germination; the weight goes up accordingly."),
            100.0,
            100.0,
        ),
        (MULCH, tr("Depth of mulch, metres"), tr("As laid; 0 for none."), 0.0, 10.0),
        (
            LOOSENING,
            tr("Bulking: loose per laid"),
            tr("What is delivered for what is laid, above 0: taken once."),
            1.0,
            10.0,
        ),
        (ROLL_LENGTH, tr("Length of a roll of turf, metres"), tr("0 for no turf."), 0.0, 1000.0),
        (ROLL_WIDTH, tr("Width of a roll of turf, metres"), tr("0 for no turf."), 0.0, 100.0),
    )
