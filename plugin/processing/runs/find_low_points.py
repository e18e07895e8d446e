# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of find_low_points, which its form imports when it starts."""

from __future__ import annotations

from contextlib import ExitStack
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsFields,
    QgsMeshLayer,
    QgsVectorLayer,
    QgsWkbTypes,
)

from ...bridge.gradient_rows import surface_sigma_from
from ...bridge.layers import fields_with
from ...bridge.pond_rows import (
    POND_COLUMNS,
    SPILL_COLUMNS,
    WAY_COLUMNS,
    long_ways,
    number_ponds,
    pond_geometry,
    pond_values,
    spill_geometry,
    spill_values,
    way_geometry,
    way_values,
)
from ...bridge.surfaces import read_surfaces
from ...bridge.text import tr
from ...core.errors import BadInput
from ...core.ground.low_points import flood
from ...core.ground.ponds import measure_ponds
from ...core.ground.ways_out import ways_out
from ..find_low_points import COMMON_SIGMA, LEAST, PONDS, SPILLS, SURFACE, VOLUME, WAYS
from ..layers import SIGMA
from ..parameters import HEIGHT, OUTPUT

if TYPE_CHECKING:
    from collections.abc import Iterable

    from qgis.core import QgsGeometry

    from ...bridge.pond_rows import PondRow
    from ...bridge.surfaces import OpenedSurfaces
    from ..algorithm import Ask
    from ..outputs import Rows

OUTPUTS = (OUTPUT, SPILLS, WAYS)


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    ask.need_one(OUTPUTS)
    outputs = {name: ask.output(name) for name in OUTPUTS if ask.is_given(name)}
    progress = ask.progress()
    progress(0.0, "Reading the surface")
    opened = _opened(ask)
    for output in outputs.values():
        output.name_by(", ".join(opened.names))
    kinds = _kinds(opened.crs)
    count, volume = 0, 0.0
    with ExitStack() as stack:
        sinks = {name: stack.enter_context(output.open(*kinds[name])) for name, output in outputs.items()}
        for k in range(len(opened.surfaces)):
            progress(0.2 + 0.8 * k / len(opened.surfaces), "Finding low points")
            rows = _rows(ask, opened, k, count + 1)
            _write(ask, opened, k, rows, {name: (sinks[name], kinds[name][0]) for name in sinks})
            count, volume = count + len(rows), volume + sum(row.pond.volume.value for row in rows)
    words = tr("Ponds found: {count}, {volume:.3f} m3 in all.")
    ask.feedback.pushInfo(words.format(count=count, volume=volume))
    return {
        **{name: output.destination for name, output in outputs.items()},
        PONDS: count,
        VOLUME: volume,
    }


def _opened(ask: Ask) -> OpenedSurfaces:
    layer = ask.one_layer(SURFACE)
    if not isinstance(layer, (QgsVectorLayer, QgsMeshLayer)):
        raise BadInput(
            "{layer} holds no triangles. Choose a layer of triangles with heights, or a mesh, as a surface.",
            layer=layer.name(),
        )
    return read_surfaces([layer], ask.number(SIGMA) or 0.0, ask.number(HEIGHT))


def _rows(ask: Ask, opened: OpenedSurfaces, k: int, first: int) -> list[PondRow]:
    flooded = flood(opened.surfaces[k])
    ponds = measure_ponds(flooded, ask.number(LEAST) or 0.0, ask.number(COMMON_SIGMA) or 0.0)
    return number_ponds(ponds, ways_out(flooded, np.arange(len(flooded))), first)


def _kinds(
    crs: QgsCoordinateReferenceSystem,
) -> dict[str, tuple[QgsFields, QgsWkbTypes.Type, QgsCoordinateReferenceSystem]]:
    """Columns, geometry and CRS of each output."""
    return {
        OUTPUT: (fields_with(QgsFields(), POND_COLUMNS), QgsWkbTypes.Type.MultiPolygonZ, crs),
        SPILLS: (fields_with(QgsFields(), SPILL_COLUMNS), QgsWkbTypes.Type.PointZ, crs),
        WAYS: (fields_with(QgsFields(), WAY_COLUMNS), QgsWkbTypes.Type.LineStringZ, crs),
    }


def _write(
    ask: Ask, opened: OpenedSurfaces, k: int, rows: list[PondRow], sinks: dict[str, tuple[Rows, QgsFields]]
) -> None:
    """The rows of one surface into the layers that are asked for."""
    plane, name = opened.plane, opened.names[k]
    if OUTPUT in sinks:
        worth = surface_sigma_from(opened, ask.number(SIGMA) or 0.0, k)
        _add(sinks[OUTPUT], [(pond_geometry(row.pond, plane), pond_values(row, name, worth)) for row in rows])
    if SPILLS in sinks:
        _add(sinks[SPILLS], [(spill_geometry(row.pond, plane), spill_values(row, name)) for row in rows])
    if WAYS in sinks:
        _add(sinks[WAYS], [(way_geometry(row.way, plane), way_values(row, name)) for row in long_ways(rows)])


def _add(sink: tuple[Rows, QgsFields], rows: Iterable[tuple[QgsGeometry, list[object]]]) -> None:
    features = []
    for geometry, values in rows:
        feature = QgsFeature(sink[1])
        feature.setAttributes(values)
        feature.setGeometry(geometry)
        features.append(feature)
    sink[0].add(features)
