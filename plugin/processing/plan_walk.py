# SPDX-License-Identifier: GPL-2.0-or-later
"""What a walk may be expected to give, before it is walked."""

from __future__ import annotations

from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsFeatureRequest,
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

from ..bridge.budget import (
    FEATURES,
    HELP,
    STATIONS,
    budget_lines,
    feature_values,
    help_rows,
    station_features,
)
from ..bridge.compat import IGNORE_INVALID
from ..bridge.drawn import read_lines, read_marks
from ..bridge.fields import Frame
from ..bridge.instruments import read_instrument
from ..bridge.layers import extended, fields_with, table_features, table_fields, table_named
from ..bridge.planned import PlannedLines, plan_lines
from ..bridge.sources import ground_of, refuse_other_kind
from ..bridge.text import explain_finding, explain_remedy, tr
from ..core.adjust.drift import WALKING_SPEED
from ..core.adjust.ties import LEVEL_SD
from ..core.errors import BadInput
from ..core.measure.planned.forecast import forecast_plan
from ..core.measure.planned.records import HOLD as DEFAULT_HOLD
from ..core.measure.planned.records import Pace, Plan
from ..core.place.locate import PICK_SD
from ..core.plane import SurveyPlane
from ..core.read.keys import parse_accuracy
from ..core.walk import AccuracyKind
from .algorithm import Algorithm, Ask
from .parameters import HEIGHT, INPUT, INSTRUMENTS, height_parameter, number_parameter

if TYPE_CHECKING:
    from collections.abc import Iterator

    from qgis.core import QgsGeometry, QgsProcessingFeatureSource

    from ..bridge.drawn import DrawnMark
    from ..core.measure.planned.records import Budget

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
            "STATIONS have the error ellipse where they will lie on the map: one sigma, and 95 %; worst is 1 at the far "
            "corner. FEATURES are the lines with area, perimeter or length to expect. Each _share_ratio tells what part of "
            "the variance comes from the instrument's scale, its heading, the noise of legs and stands, the tapes, the map "
            "points, and the shift they share (which moves the site, not its size). HELP ranks what more could be done: "
            "stand on a station again, pair it with the map, tape a length. FINDINGS are what the survey's own checks say "
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
        ask.need_one(OUTPUTS)
        source = ask.source(INPUT)
        refuse_other_kind(source, QgsWkbTypes.GeometryType.LineGeometry)
        outputs = {name: ask.output(name) for name in OUTPUTS if ask.is_given(name)}
        lines = _lines(ask, source)
        budget = forecast_plan(_plan(ask, lines), ask.progress())
        _tell(ask, budget)
        kinds, rows = _kinds(source, lines), _rows(ask, source, lines, budget)
        with ExitStack() as stack:
            sinks = {name: stack.enter_context(output.open(*kinds[name])) for name, output in outputs.items()}
            for name, sink in sinks.items():
                sink.add(list(rows[name]))
        return {name: output.destination for name, output in outputs.items()}


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


def _lines(ask: Ask, source: QgsProcessingFeatureSource) -> PlannedLines:
    """The lines and marks that were drawn, in a plane of true metres."""
    drawn = read_lines(source, ask.text(WALK), ask.text(FEATURE))
    way = ground_of(source.sourceCrs())
    return plan_lines(drawn, _marks(ask, source), way, ask.number(HEIGHT), ask.number(SNAP_WITHIN) or 0.0)


def _marks(ask: Ask, source: QgsProcessingFeatureSource) -> list[DrawnMark]:
    if not ask.is_given(MARKS):
        return []
    fields = {name: ask.text(name) for name in (MARK, PAIRED, LEVELLED)}
    return read_marks(ask.source(MARKS), source.sourceCrs(), *fields.values())


def _plan(ask: Ask, lines: PlannedLines) -> Plan:
    """What is planned, as the core has it."""
    file, stated = ask.file(INSTRUMENTS), ask.text(ACCURACY)
    kind = tuple(AccuracyKind)[int(ask.number(ACCURACY_KIND) or 0)]
    level = ask.number(SIGMA_LEVEL) or 0.0
    return Plan(
        lines.walks,
        Pace(ask.number(SPEED) or 0.0, ask.number(HOLD) or 0.0),
        read_instrument(Path(file), ask.text(INSTRUMENT)) if file else None,
        parse_accuracy(stated, kind) if stated else None,
        picks=_picks(ask, lines),
        common=ask.number(COMMON_SIGMA) or 0.0,
        levels=dict.fromkeys((mark.name for mark in lines.marks if mark.is_levelled), level),
    )


def _picks(ask: Ask, lines: PlannedLines) -> dict[str, float]:
    """One-sigma of each map point: of all marks one, or each mark's own."""
    if not lines.marks:
        return {}
    marks = ask.source(MARKS)
    worth = ask.by_row(SIGMA_PICK, marks)(list(marks.getFeatures()))
    picks = {mark.name: float(sigma) for mark, sigma in zip(lines.marks, worth) if mark.is_paired}
    for mark, sigma in picks.items():
        if sigma > MOST_SIGMA_M:
            raise BadInput(
                "The map point of mark {mark} has a one-sigma of {sigma:g} m. Give {most:g} m at the most.",
                mark=mark,
                sigma=sigma,
                most=MOST_SIGMA_M,
            )
    return picks


def _tell(ask: Ask, budget: Budget) -> None:
    """The budget in the log, and what the checks say of the plan."""
    for line in budget_lines(budget):
        ask.feedback.pushInfo(line)
    for finding in budget.findings:
        words = f"{finding.code} {finding.place}: {explain_finding(finding)} {explain_remedy(finding)}"
        (ask.feedback.pushWarning if finding.is_open else ask.feedback.pushInfo)(words)


def _kinds(source: QgsProcessingFeatureSource, lines: PlannedLines) -> Kinds:
    """Columns, geometry and CRS of each output."""
    crs, none = source.sourceCrs(), QgsCoordinateReferenceSystem()
    point = QgsWkbTypes.Type.PointZ if lines.has_z else QgsWkbTypes.Type.Point
    table = QgsWkbTypes.Type.NoGeometry
    return {
        STATIONS_OUT: (fields_with(QgsFields(), STATIONS), point, crs),
        FEATURES_OUT: (fields_with(source.fields(), FEATURES), source.wkbType(), crs),
        HELP_OUT: (fields_with(QgsFields(), HELP), table, none),
        FINDINGS_OUT: (table_fields(table_named("findings")), table, none),
    }


def _rows(
    ask: Ask, source: QgsProcessingFeatureSource, lines: PlannedLines, budget: Budget
) -> dict[str, Iterator[QgsFeature]]:
    """The rows of each output."""
    frame = Frame(lines.plane if isinstance(lines.plane, SurveyPlane) else None)
    return {
        STATIONS_OUT: _filled(
            fields_with(QgsFields(), STATIONS), station_features(budget, lines.plane, has_z=lines.has_z)
        ),
        FEATURES_OUT: _lines_again(ask, source, lines, budget),
        HELP_OUT: _filled(
            fields_with(QgsFields(), HELP), ((None, row) for row in help_rows(budget, lines.plane))
        ),
        FINDINGS_OUT: table_features(table_named("findings"), budget.findings, frame),
    }


def _filled(
    fields: QgsFields, rows: Iterator[tuple[QgsGeometry | None, list[object]]]
) -> Iterator[QgsFeature]:
    for geometry, values in rows:
        feature = QgsFeature(fields)
        feature.setAttributes(values)
        if geometry is not None:
            feature.setGeometry(geometry)
        yield feature


def _lines_again(
    ask: Ask, source: QgsProcessingFeatureSource, lines: PlannedLines, budget: Budget
) -> Iterator[QgsFeature]:
    """The drawn lines with their figures."""
    anew = ask.clashing_ids(FEATURES_OUT, source)
    for feature, place in zip(source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID), lines.places):
        yield extended(feature, feature_values(budget, place), None, anew)
