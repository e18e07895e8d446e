# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of plan_walk, which its form imports when it starts."""

from __future__ import annotations

from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import QgsCoordinateReferenceSystem, QgsFeature, QgsFeatureRequest, QgsFields, QgsWkbTypes

from ...bridge.budget import (
    FEATURES,
    HELP,
    STATIONS,
    budget_lines,
    feature_values,
    help_rows,
    station_features,
)
from ...bridge.compat import IGNORE_INVALID
from ...bridge.drawn import read_lines, read_marks
from ...bridge.fields import Frame
from ...bridge.instruments import read_instrument
from ...bridge.layers import extended, fields_with, table_features, table_fields, table_named
from ...bridge.planned import PlannedLines, plan_lines
from ...bridge.sources import ground_of, refuse_other_kind
from ...bridge.text import explain_finding, explain_remedy
from ...core.accuracy import AccuracyKind
from ...core.errors import BadInput
from ...core.measure.planned.forecast import forecast_plan
from ...core.measure.planned.records import Pace, Plan
from ...core.plane import SurveyPlane
from ...core.read.keys import parse_accuracy
from ..algorithm import Ask
from ..parameters import HEIGHT, INPUT, INSTRUMENTS
from ..plan_walk import (
    ACCURACY,
    ACCURACY_KIND,
    COMMON_SIGMA,
    FEATURE,
    FEATURES_OUT,
    FINDINGS_OUT,
    HELP_OUT,
    HOLD,
    INSTRUMENT,
    LEVELLED,
    MARK,
    MARKS,
    MOST_SIGMA_M,
    OUTPUTS,
    PAIRED,
    SIGMA_LEVEL,
    SIGMA_PICK,
    SNAP_WITHIN,
    SPEED,
    STATIONS_OUT,
    WALK,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from qgis.core import QgsGeometry, QgsProcessingFeatureSource

    from ...bridge.drawn import DrawnMark
    from ...core.measure.planned.records import Budget

    Kinds = dict[str, tuple[QgsFields, QgsWkbTypes.Type, QgsCoordinateReferenceSystem]]


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
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


def _lines(ask: Ask, source: QgsProcessingFeatureSource) -> PlannedLines:
    """The lines and marks that were drawn, in a plane of true metres."""
    drawn = read_lines(source, ask.text(WALK), ask.text(FEATURE))
    way = ground_of(source.sourceCrs(), source.sourceName())
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
