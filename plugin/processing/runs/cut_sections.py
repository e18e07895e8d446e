# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of cut_sections, which its form imports when it starts."""

from __future__ import annotations

from contextlib import ExitStack
from typing import TYPE_CHECKING

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsFields,
    QgsMeshLayer,
    QgsVectorLayer,
    QgsWkbTypes,
)

from ...bridge.cut_lines import read_baseline, read_cut_lines, read_plan_features
from ...bridge.layers import fields_with
from ...bridge.section_tables import END_AREA_COLUMNS, SECTION_COLUMNS, SectionTables
from ...bridge.surfaces import read_surfaces
from ...bridge.text import tr
from ...core.errors import BadInput
from ...core.ground.sheet import NamedLine, SheetCutter, base_volumes
from ...core.ground.stations import cross_lines, crossing_neighbours, middles_between, stations_along
from ..algorithm import Ask
from ..cut_sections import (
    BASELINE,
    COMMON_SIGMA,
    END_AREAS,
    FEATURES,
    INTERVAL,
    LEFT,
    LINES,
    RIGHT,
    SECTIONS,
    SURFACES,
)
from ..layers import SIGMA
from ..parameters import HEIGHT, OUTPUT

if TYPE_CHECKING:
    from collections.abc import Iterable

    from qgis.core import QgsGeometry

    from ...bridge.surfaces import OpenedSurfaces
    from ...core.ground.stations import BaseStations
    from ..outputs import Rows

OUTPUTS = (OUTPUT, SECTIONS, END_AREAS)


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    ask.need_one(OUTPUTS)
    outputs = {name: ask.output(name) for name in OUTPUTS if ask.is_given(name)}
    opened = read_surfaces(_surface_layers(ask), ask.number(SIGMA) or 0.0, ask.number(HEIGHT))
    for output in outputs.values():
        output.name_by(", ".join(opened.names))
    stations = _stations(ask, opened)
    lines = _lines(ask, opened, stations)
    features = read_plan_features(ask.source(FEATURES), opened.plane) if ask.is_given(FEATURES) else []
    cutter = SheetCutter(opened.surfaces, ask.number(COMMON_SIGMA) or 0.0)
    tables = SectionTables(opened.names, opened.plane)
    kinds, missed = _kinds(tables, opened.crs), []
    progress = ask.progress(0.0, 0.5 if END_AREAS in outputs else 1.0)
    with ExitStack() as stack:
        sinks = {name: stack.enter_context(output.open(*kinds[name])) for name, output in outputs.items()}
        for number, line in enumerate(lines):
            progress(number / len(lines), "")
            section = cutter.cut(line, features)
            if all(one.is_empty for one in section.profile.sections):
                missed.append(line.name)
            if OUTPUT in sinks:
                _add(sinks[OUTPUT], kinds[OUTPUT][0], tables.chainage_rows(section))
            if SECTIONS in sinks:
                _add(sinks[SECTIONS], kinds[SECTIONS][0], tables.section_rows(section))
        if END_AREAS in sinks:
            _add(sinks[END_AREAS], kinds[END_AREAS][0], _end_areas(ask, tables, cutter, stations))
    _tell_missed(ask, missed)
    return {name: output.destination for name, output in outputs.items()}


def _surface_layers(ask: Ask) -> list[QgsVectorLayer | QgsMeshLayer]:
    layers = ask.layers(SURFACES)
    for layer in layers:
        if not isinstance(layer, (QgsVectorLayer, QgsMeshLayer)):
            raise BadInput(
                "{layer} holds no triangles. Choose layers of triangles with heights, or meshes, as surfaces.",
                layer=layer.name(),
            )
    return layers


def _stations(ask: Ask, opened: OpenedSurfaces) -> BaseStations | None:
    """Of the baseline; None without one."""
    if not ask.is_given(BASELINE):
        if ask.is_given(END_AREAS):
            raise BadInput("End areas lie along a baseline. Give one, or leave them out.")
        return None
    return stations_along(read_baseline(ask.source(BASELINE), opened.plane), ask.number(INTERVAL) or 0.0)


def _widths(ask: Ask) -> tuple[float, float]:
    return ask.number(LEFT) or 0.0, ask.number(RIGHT) or 0.0


def _lines(ask: Ask, opened: OpenedSurfaces, stations: BaseStations | None) -> list[NamedLine]:
    """All lines to cut along: those of the layer, then those across the baseline, named by their chainage."""
    lines = []
    if ask.is_given(LINES):
        lines += read_cut_lines(ask.source(LINES), opened.plane, ask.feedback.pushWarning)
    if stations is not None:
        across = cross_lines(stations, *_widths(ask))
        crossing = int(crossing_neighbours(across).sum())
        if crossing:
            words = tr(
                "{count} sections cross the next one inside a bend of the baseline: what lies there is counted twice in "
                "end areas. Make the width on that side smaller."
            )
            ask.feedback.pushWarning(words.format(count=crossing))
        lines += [NamedLine(f"{at:.3f}", line, at) for at, line in zip(stations.chainage.tolist(), across)]
    if not lines:
        raise BadInput("There is nothing to cut along. Give lines, or a baseline.")
    return lines


def _end_areas(
    ask: Ask, tables: SectionTables, cutter: SheetCutter, stations: BaseStations | None
) -> Iterable[tuple[QgsGeometry | None, list[object]]]:
    assert stations is not None  # noqa: S101 - end areas without a baseline were refused
    progress = ask.progress(0.5, 1.0)
    volumes = base_volumes(
        cutter, stations, middles_between(stations), _widths(ask), lambda part: progress(part, "")
    )
    return tables.end_area_rows(volumes)


def _kinds(
    tables: SectionTables, crs: QgsCoordinateReferenceSystem
) -> dict[str, tuple[QgsFields, QgsWkbTypes.Type, QgsCoordinateReferenceSystem]]:
    """Columns, geometry and CRS of each output."""
    table, none = QgsWkbTypes.Type.NoGeometry, QgsCoordinateReferenceSystem()
    return {
        OUTPUT: (fields_with(QgsFields(), tables.chainage_columns), table, none),
        SECTIONS: (fields_with(QgsFields(), SECTION_COLUMNS), QgsWkbTypes.Type.MultiLineStringZ, crs),
        END_AREAS: (fields_with(QgsFields(), END_AREA_COLUMNS), table, none),
    }


def _add(sink: Rows, fields: QgsFields, rows: Iterable[tuple[QgsGeometry | None, list[object]]]) -> None:
    features = []
    for geometry, values in rows:
        feature = QgsFeature(fields)
        feature.setAttributes(values)
        if geometry is not None:
            feature.setGeometry(geometry)
        features.append(feature)
    sink.add(features)


def _tell_missed(ask: Ask, missed: list[str]) -> None:
    if missed:
        words = tr("{count} lines meet no surface: {names}.")
        ask.feedback.pushWarning(words.format(count=len(missed), names=", ".join(missed[:10])))
