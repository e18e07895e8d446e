# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of build_surface, which its form imports when it starts."""

from __future__ import annotations

from contextlib import ExitStack
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeatureRequest, QgsWkbTypes

from ...bridge.compat import IGNORE_INVALID
from ...bridge.contour_rows import contour_features, contour_fields
from ...bridge.ground_layers import GroundLayers, Role, tell_place
from ...bridge.ground_survey import add_survey
from ...bridge.surface_mesh import write_mesh
from ...bridge.surface_table import surface_features, surface_fields
from ...bridge.text import explain_finding, explain_remedy, tr
from ...core.defaults import GAP_SPACINGS, GROUND, LEVELS_WITHIN
from ...core.errors import BadInput
from ...core.findings import Severity
from ...core.ground.build import BuildRules, build_surface
from ...core.ground.contours import draw_contours
from ..algorithm import Ask
from ..build_surface import (
    BOUNDARY,
    BREAKLINES,
    CONTOURS,
    GAP,
    HEIGHTS,
    INPUT_POINTS,
    INSIDE,
    INTERVAL,
    INTERVAL_M,
    LINE_SIGMA,
    LONGEST,
    MESH,
    NAME,
    REACH,
    ROUGH,
    SURVEY,
    TRIANGLES,
    VOIDS,
    WEAK,
    WITHIN,
)
from ..layers import SIGMA
from ..parameters import HEIGHT, OUTPUT

if TYPE_CHECKING:
    from qgis.core import QgsFeature

    from ...bridge.ground_layers import LaidGround
    from ...core.ground.build import Built
    from ...core.ground.surface import Surface

OUTPUTS = (OUTPUT, CONTOURS, MESH)
MOST_TOLD = 20
"""Findings of a run that are told one by one."""


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    ask.need_one(OUTPUTS)
    outputs = {name: ask.output(name) for name in (OUTPUT, CONTOURS) if ask.is_given(name)}
    name = ask.text(NAME) or GROUND
    for output in outputs.values():
        output.name_by(name)
    progress = ask.progress()
    progress(0.0, "Reading levels and lines")
    laid = _gathered(ask, name).laid(ask.number(HEIGHT))
    progress(0.1, "Building the surface")
    built = build_surface(laid.ground, _rules(ask))
    surface = _told(ask, built, laid)
    progress(0.5, "Writing the surface")
    results: dict[str, object] = {}
    with ExitStack() as stack:
        if OUTPUT in outputs:
            kind = (surface_fields(), QgsWkbTypes.Type.PolygonZ, laid.crs)
            rows = stack.enter_context(outputs[OUTPUT].open(*kind))
            for some in surface_features(surface, name, laid.plane, laid.crs, _method(surface)):
                progress(0.5, "")
                rows.add(some)
        if CONTOURS in outputs:
            kind = (contour_fields(), QgsWkbTypes.Type.LineStringZ, laid.crs)
            contours = draw_contours(surface, _interval(ask))
            rows = stack.enter_context(outputs[CONTOURS].open(*kind))
            rows.add(list(contour_features(contours, name, laid.plane, _method(surface))))
        if ask.is_given(MESH):
            results[MESH] = str(write_mesh(surface, name, ask.output_file(MESH), laid.plane))
    results.update({key: output.destination for key, output in outputs.items()})
    return {**results, **_figures(surface)}


def _gathered(ask: Ask, name: str) -> GroundLayers:
    """All layers of the run."""
    layers = GroundLayers()
    if ask.is_given(INPUT_POINTS):
        source = ask.source(INPUT_POINTS)
        features = _features(ask, INPUT_POINTS)
        column = ask.text(HEIGHTS)
        heights = np.array([_height(row[column]) for row in features]) if column else None
        sigma = ask.by_row(SIGMA, source)(features)
        layers.add_levels(features, source.sourceCrs(), sigma, source.sourceName(), heights)
    for parameter, role in ((BREAKLINES, Role.BREAKLINE), (BOUNDARY, Role.BOUNDARY), (VOIDS, Role.VOID)):
        if ask.is_given(parameter):
            source, features = ask.source(parameter), _features(ask, parameter)
            sigma = np.full(len(features), ask.number(LINE_SIGMA) or 0.0)
            layers.add_lines(role, features, source.sourceCrs(), sigma, source.sourceName())
    if ask.is_given(SURVEY):
        inside = ask.flag(INSIDE)
        taken = add_survey(layers, ask.file(SURVEY) or "", name, inside=inside)
        if taken.areas and name != GROUND and not (inside or ask.is_given(BOUNDARY)):
            ask.feedback.pushWarning(
                tr(
                    "No boundary is given: ground between separate features is bridged. Choose the survey's areas as boundary "
                    "(Only inside the survey's areas), or draw one."
                )
            )
    return layers


def _features(ask: Ask, parameter: str) -> list[QgsFeature]:
    return list(ask.source(parameter).getFeatures(QgsFeatureRequest(), IGNORE_INVALID))


def _height(value: object) -> float:
    try:
        return float(str(value))
    except ValueError:
        return float("nan")


def _rules(ask: Ask) -> BuildRules:
    within, gap = ask.number(WITHIN), ask.number(GAP)
    return BuildRules(
        LEVELS_WITHIN if within is None else within, ask.number(LONGEST), GAP_SPACINGS if gap is None else gap
    )


def _interval(ask: Ask) -> float:
    interval = ask.number(INTERVAL)
    return INTERVAL_M if interval is None else interval


def _told(ask: Ask, built: Built, laid: LaidGround) -> Surface:
    """The surface, its findings told.

    Raises:
        BadInput: breaklines meet at different heights.
    """
    findings = [tell_place(finding, laid.plane) for finding in built.findings]
    stops = [finding for finding in findings if finding.severity is Severity.STOP]
    for finding in (stops or findings)[:MOST_TOLD]:
        ask.feedback.pushWarning(f"{finding.code}: {explain_finding(finding)} {explain_remedy(finding)}")
    if built.surface is None:
        raise BadInput(
            "{what} {advice} Such places: {count}; the log tells the first {told}.",
            what=explain_finding(stops[0]),
            advice=explain_remedy(stops[0]),
            count=len(stops),
            told=min(len(stops), MOST_TOLD),
        )
    return built.surface


def _method(surface: Surface) -> str:
    return (
        "constrained Delaunay"
        if surface.rough == 0.0 and surface.reach == 0.0
        else "constrained Delaunay, each point left out in turn"
    )


def _figures(surface: Surface) -> dict[str, object]:
    return {
        TRIANGLES: len(surface.triangles),
        WEAK: int(surface.is_weak.sum()),
        ROUGH: surface.rough if surface.reach > 0.0 else None,
        REACH: surface.reach or None,
    }
