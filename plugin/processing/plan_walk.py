# SPDX-License-Identifier: GPL-2.0-or-later
"""What a walk may be expected to give, before it is walked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFields,
    QgsProcessing,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterEnum,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterFile,
    QgsProcessingParameterString,
    QgsPropertyDefinition,
    QgsWkbTypes,
)

from ..bridge.text import tr
from ..core.accuracy import AccuracyKind
from ..core.defaults import HOLD as DEFAULT_HOLD
from ..core.defaults import LEVEL_SD, PICK_SD, WALKING_SPEED
from .algorithm import Algorithm, Ask
from .parameters import INPUT, INSTRUMENTS, height_parameter, number_parameter

if TYPE_CHECKING:
    from collections.abc import Iterator

    Kinds = dict[str, tuple[QgsFields, QgsWkbTypes.Type, QgsCoordinateReferenceSystem]]

WALK, FEATURE, MARKS, MARK, PAIRED, LEVELLED = "WALK", "FEATURE", "MARKS", "MARK", "PAIRED", "LEVELLED"
SNAP_WITHIN, INSTRUMENT, ACCURACY, ACCURACY_KIND = "SNAP_WITHIN", "INSTRUMENT", "ACCURACY", "ACCURACY_KIND"
SIGMA_PICK, COMMON_SIGMA, SIGMA_LEVEL, SPEED, HOLD = (
    "SIGMA_PICK",
    "COMMON_SIGMA",
    "SIGMA_LEVEL",
    "SPEED",
    "HOLD",
)
STATIONS_OUT, FEATURES_OUT, HELP_OUT, FINDINGS_OUT = "STATIONS", "FEATURES", "HELP", "FINDINGS"
OUTPUTS = (STATIONS_OUT, FEATURES_OUT, HELP_OUT, FINDINGS_OUT)
SNAP_M = 0.5
"""Metres from a mark within which a drawn station stands on it: common practice, no source."""
MOST_SIGMA_M = 100.0


class PlanWalk(Algorithm):
    NAME, GROUP = "plan_walk", "walks"

    def label(self) -> str:
        return tr("Plan walk")

    def help_text(self) -> str:
        return tr(
            "Error budget before the walk: draw the stations you mean to stand on, say which are marks and what the "
            "instrument is worth, and see what the survey will give.\n\n"
            "Each line is a walk through its vertices in order; lines of one name in the field of walks are one walk, in "
            "the order of the rows. A line of one part that closes is an area, any other a length; a line without a name in "
            "the field of features is only the way. Vertices near a mark stand on it. Where a mark is walked over twice, "
            "the walk is closed there.\n\n"
            "Stations have the error ellipse where they will lie on the map: one sigma, and 95 %; worst is 1 at the far "
            "corner. Features are the lines with area, perimeter or length to expect. Each _share_ratio tells what part of "
            "the variance comes from the instrument's scale, its heading, the noise of legs and stands, the tapes, the map "
            "points, and the shift they share (which moves the site, not its size). What would help ranks what could be done: "
            "stand on a station again, pair it with the map, tape a length. Findings are what the survey's own checks say "
            "of the plan.\n\n"
            "It is the survey of this walk without any error, so the figures are the ones that Survey walks would state. "
            "Mistakes (a wrong mark, a wrong unit) are in no forecast."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        line, point = QgsProcessing.SourceType.TypeVectorLine, QgsProcessing.SourceType.TypeVectorPoint
        table = QgsProcessing.SourceType.TypeVector
        self.addParameter(QgsProcessingParameterFeatureSource(INPUT, tr("Planned walks (lines)"), [line]))
        _add_field(
            self, WALK, tr("Field that names the walk"), INPUT, tr("Empty: each line is a walk of its own.")
        )
        _add_field(
            self, FEATURE, tr("Field that names the feature"), INPUT, tr("Empty: each line is a feature.")
        )
        self.addParameter(
            QgsProcessingParameterFeatureSource(MARKS, tr("Marks (points)"), [point], optional=True)
        )
        _add_field(self, MARK, tr("Field that names the mark"), MARKS, tr("Empty: the field mark, or name."))
        _add_field(
            self,
            PAIRED,
            tr("Field that says yes where a mark is paired with the map"),
            MARKS,
            tr("Empty: all are. No, false, 0 and nothing say no."),
        )
        _add_field(
            self,
            LEVELLED,
            tr("Field that says yes where the height of a mark is known"),
            MARKS,
            tr("Empty: none is, and nothing is told of heights."),
        )
        _add_instrument_parameters(self)
        for parameter in _numbers():
            self.addParameter(parameter)
        height = height_parameter()
        height.setFlags(height.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        self.addParameter(height)
        labels = (tr("Stations"), tr("Features"), tr("What would help"), tr("Findings"))
        for name, words, kind in zip(OUTPUTS, labels, (point, line, table, table)):
            self.addParameter(
                QgsProcessingParameterFeatureSink(name, words, kind, optional=True, createByDefault=True)
            )

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.plan_walk import run

        return run(ask)


def _add_field(algorithm: Algorithm, name: str, label: str, layer: str, words: str) -> None:
    parameter = QgsProcessingParameterField(name, label, parentLayerParameterName=layer, optional=True)
    parameter.setHelp(words)
    algorithm.addParameter(parameter)


def _add_instrument_parameters(algorithm: Algorithm) -> None:
    """What the walk will be walked with."""
    instruments = QgsProcessingParameterFile(INSTRUMENTS, tr("Instruments"), optional=True)
    instruments.setHelp(tr("What each instrument is worth, one sigma: the file that goes with the logs."))
    name = QgsProcessingParameterString(INSTRUMENT, tr("Instrument"), optional=True)
    name.setHelp(tr("Its name in the file of instruments; where that holds one only, it is taken."))
    accuracy = QgsProcessingParameterString(ACCURACY, tr("Stated accuracy, without a file"), optional=True)
    accuracy.setHelp(
        tr(
            "As the maker states it: 0.5 %, or 0.02 m + 0.3 %. Without this and without a file a default is assumed."
        )
    )
    words = [tr(kind.value) for kind in AccuracyKind]
    kind = QgsProcessingParameterEnum(ACCURACY_KIND, tr("The accuracy is stated as"), words, defaultValue=0)
    for parameter in (instruments, name, accuracy, kind):
        algorithm.addParameter(parameter)


def _numbers() -> Iterator[QgsProcessingParameterDefinition]:
    """The numbers that a plan assumes."""
    common = tr("Common practice, no source; change it where you know better.")
    sigmas = (0.0, MOST_SIGMA_M)
    pick = tr("One-sigma of a map point, each axis, metres")
    picks = number_parameter(SIGMA_PICK, pick, common, PICK_SD, sigmas)
    picks.setIsDynamic(True)
    picks.setDynamicLayerParameterName(MARKS)
    positive = QgsPropertyDefinition.StandardPropertyTemplate.DoublePositive
    picks.setDynamicPropertyDefinition(QgsPropertyDefinition(SIGMA_PICK, pick, positive))
    yield picks
    yield number_parameter(
        COMMON_SIGMA,
        tr("One-sigma of the shift that all map points share, metres"),
        tr("How far the picture may lie off as a whole: it moves the site, not its size."),
        0.0,
        sigmas,
    )
    later = (
        number_parameter(SIGMA_LEVEL, tr("One-sigma of a known height, metres"), common, LEVEL_SD, sigmas),
        number_parameter(
            SNAP_WITHIN,
            tr("A station stands on a mark within, metres"),
            tr("Such a station is moved onto the mark; a mark that no station is near is refused."),
            SNAP_M,
            (0.0, MOST_SIGMA_M),
        ),
        number_parameter(SPEED, tr("Walking speed, metres a second"), common, WALKING_SPEED, (0.01, 20.0)),
        number_parameter(HOLD, tr("Seconds held still at a station"), common, DEFAULT_HOLD, (0.0, 3600.0)),
    )
    for parameter in later:
        parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        yield parameter
