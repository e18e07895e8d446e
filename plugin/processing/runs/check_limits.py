# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of check_limits, which its form imports when it starts."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import QgsCoordinateReferenceSystem, QgsFeature, QgsFields, QgsWkbTypes

from ...bridge.check_rows import COLUMNS, check_values, refused_values
from ...bridge.checked import Examiner
from ...bridge.gradient_rows import RowReader, open_surface
from ...bridge.layers import fields_with
from ...bridge.limits import load_limits, split_names
from ...bridge.sources import refuse_other_kind
from ...bridge.text import explain_finding, explain_remedy, tr
from ...bridge.ways import WayReader
from ...core.errors import BadInput
from ...core.trade.checks import open_part
from ...core.trade.limits import Outcome, Thing, check_grouped, chosen_limits, limits_by_item
from ...core.trade.ramps import RampRules
from ...core.trade.worth import PointWorth
from ..check_limits import (
    DIRECTION,
    FAILED,
    FALLS,
    LANDING_GRADIENT,
    LANDING_LENGTH,
    LIMITS,
    ONLY,
    OPEN,
    PASSED,
    PATHS,
    PLAN_SIGMA,
    RAMPS,
    STEPS,
    SURFACE,
    SURVEY,
    WALLS,
    WIDTH,
    WINDOW,
)
from ..layers import SIGMA
from ..parameters import HEIGHT, OUTPUT

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from qgis.core import QgsProcessingFeatureSource

    from ...bridge.checked import Examined
    from ...bridge.surfaces import OpenedSurfaces
    from ...core.trade.limits import Groups, Limit
    from ..algorithm import Ask

THINGS = (SURVEY, RAMPS, STEPS, PATHS, FALLS, WALLS)
TOLD = {Outcome.PASSES: PASSED, Outcome.FAILS: FAILED, Outcome.CANNOT_TELL: OPEN}


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    if not any(map(ask.is_given, THINGS)):
        raise BadInput("Nothing is given to check: choose a survey or a layer.")
    output = ask.output(OUTPUT)
    limits_of = limits_by_item(chosen_limits(_limits(ask), split_names(ask.text(ONLY))))
    examined = _examined(ask)
    fields = fields_with(QgsFields(), COLUMNS)
    told: Counter[str] = Counter({PASSED: 0, FAILED: 0, OPEN: 0})
    progress, others = ask.progress(), 0
    progress(0.0, "Checking")
    kind = (fields, QgsWkbTypes.Type.NoGeometry, QgsCoordinateReferenceSystem())
    with output.open(*kind) as rows:
        for one in examined:
            progress(0.5, "")
            limits = limits_of(one.item)
            if one.is_found and not _concern(limits, one.thing):
                others += 1
                continue
            rows.add(_features(fields, one, limits, told))
    ask.feedback.pushInfo(
        tr("Checks: {passed} pass, {failed} fail, {open} cannot tell.").format(
            passed=told[PASSED], failed=told[FAILED], open=told[OPEN]
        )
    )
    if others:
        words = tr("Lengths of the survey that no limit of the table is of: {count}. They have no row.")
        ask.feedback.pushInfo(words.format(count=others))
    return {OUTPUT: output.destination, **told}


def _concern(limits: Groups, thing: Thing) -> bool:
    """Whether any limit is of a kind of thing, or of a part of it."""
    parts = (thing, Thing.LANDING) if thing is Thing.RAMP else (thing,)
    return any(of in parts for of, _ in limits)


def _limits(ask: Ask) -> Sequence[Limit]:
    """The limits of the run; what is wrong with the table is told."""
    path = ask.file(LIMITS)
    limits, findings = load_limits(None if path is None else Path(path))
    for finding in findings:
        ask.feedback.pushWarning(f"{finding.code}: {explain_finding(finding)} {explain_remedy(finding)}")
    if path is None:
        ask.feedback.pushWarning(
            tr("The limits are the examples shipped. Give a table of the limits that hold where you build.")
        )
    return limits


def _examined(ask: Ask) -> Iterator[Examined]:
    """Everything that was given, measured one after the other."""
    worth = PointWorth(ask.number(SIGMA) or 0.0, ask.number(PLAN_SIGMA) or 0.0)
    rules = RampRules(
        ask.number(WINDOW) or 0.0,
        0.01 * (ask.number(LANDING_GRADIENT) or 0.0),
        ask.number(LANDING_LENGTH) or 0.0,
    )
    opened = _opened(ask)
    over = None if opened is None else _ways(ask, opened)
    examiner = Examiner(worth, rules, ask.number(HEIGHT) or 0.0, over)
    line = QgsWkbTypes.GeometryType.LineGeometry
    if ask.is_given(SURVEY):
        yield from examiner.survey(Path(ask.file(SURVEY) or ""))
    for name, thing in ((RAMPS, Thing.RAMP), (PATHS, Thing.PATH)):
        if ask.is_given(name):
            yield from examiner.ramps(_source(ask, name, line), thing)
    if ask.is_given(STEPS):
        yield from examiner.steps(_source(ask, STEPS, line))
    if ask.is_given(WALLS):
        yield from examiner.walls(_source(ask, WALLS, line))
    if ask.is_given(FALLS):
        yield from _falls(ask, examiner, opened)


def _opened(ask: Ask) -> OpenedSurfaces | None:
    """The surface under areas and ways."""
    if not ask.is_given(SURFACE):
        return None
    layer = ask.one_layer(SURFACE)
    return open_surface(layer, ask.number(SIGMA) or 0.0, ask.number(HEIGHT))


def _ways(ask: Ask, opened: OpenedSurfaces) -> Callable[[QgsProcessingFeatureSource], WayReader]:
    sigma, width = ask.number(SIGMA) or 0.0, ask.number(WIDTH) or 0.0
    return lambda source: WayReader(source, opened, sigma, width)


def _falls(ask: Ask, examiner: Examiner, opened: OpenedSurfaces | None) -> Iterator[Examined]:
    source = _source(ask, FALLS, QgsWkbTypes.GeometryType.PolygonGeometry)
    bearing = ask.number(DIRECTION)
    if opened is None:
        return examiner.falls(source, None, bearing)
    rows = RowReader(source, opened, ask.number(SIGMA) or 0.0)
    return examiner.falls(source, lambda row: rows.area(row, bearing), bearing)


def _source(ask: Ask, name: str, kind: QgsWkbTypes.GeometryType) -> QgsProcessingFeatureSource:
    source = ask.source(name)
    refuse_other_kind(source, kind)
    return source


def _features(fields: QgsFields, one: Examined, limits: Groups, told: Counter[str]) -> list[QgsFeature]:
    """The rows of one thing: one a check, or one that says why there is none."""
    checks = [
        open_part(check) if one.under.lacks(check.measured) else check
        for check in check_grouped(one.figures, limits)
    ]
    for check in checks:
        told[TOLD[check.outcome]] += 1
    values = [check_values(one, check) for check in checks] or [refused_values(one)]
    out = []
    for row in values:
        feature = QgsFeature(fields)
        feature.setAttributes(row)
        out.append(feature)
    return out
