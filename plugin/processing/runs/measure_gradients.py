# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_gradients, which its form imports when it starts."""

from __future__ import annotations

from contextlib import ExitStack
from functools import partial
from typing import TYPE_CHECKING

from qgis.core import QgsCoordinateReferenceSystem, QgsWkbTypes

from ...bridge.gradient_rows import RowReader, gradient_of_line, open_surface, take_survey_fall
from ...bridge.gradient_tables import (
    BAND_COLUMNS,
    CROSS_COLUMNS,
    band_rows,
    cross_rows,
    read_bounds,
    table_fields,
)
from ...bridge.gradients import COLUMNS, area_by_own
from ...bridge.sources import ground_of
from ...bridge.text import tr
from ...bridge.trade import GroundReader
from ...bridge.trade_columns import columns_of, reason, refused, values_of
from ...core.errors import BadInput, GroundTallyError
from ...core.trade.worth import PointWorth
from ..layers import SIGMA, take_off_layer
from ..measure_gradients import (
    BANDS,
    BY_SLOPE,
    CROSSFALLS,
    DIRECTION,
    DIRECTIONS,
    MOWING,
    PLAN_SIGMA,
    SURFACE,
    TURN,
    WIDTH,
)
from ..parameters import HEIGHT, INPUT, OUTPUT
from .noted import number_or

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ...bridge.gradients import GradientRow
    from ...bridge.trade import GroundRow
    from ..algorithm import Ask
    from ..outputs import Rows

TABLES = {BY_SLOPE: BAND_COLUMNS, CROSSFALLS: CROSS_COLUMNS}
AREAS, LINES = QgsWkbTypes.GeometryType.PolygonGeometry, QgsWkbTypes.GeometryType.LineGeometry


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    ask.need_one((OUTPUT, *TABLES))
    source = ask.source(INPUT)
    job = _Job(ask, source)
    outputs = {name: ask.output(name) for name in TABLES if ask.is_given(name)}
    with ExitStack() as stack:
        for name, output in outputs.items():
            output.name_by(source.sourceName())
            kind = (table_fields(TABLES[name]), QgsWkbTypes.Type.NoGeometry, QgsCoordinateReferenceSystem())
            job.tables[name] = stack.enter_context(output.open(*kind))
        told = take_off_layer(ask, source, columns_of(COLUMNS), job.values)
    return {**told, **{name: output.destination for name, output in outputs.items()}}


class _Job:
    """One run: the layer, and the surface where there is one."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        self._kind = QgsWkbTypes.geometryType(source.wkbType())
        if self._kind not in (AREAS, LINES):
            raise BadInput("The layer holds neither areas nor lines. Choose a layer of one of them.")
        self._sigma, self._plan = ask.by_row(SIGMA, source), ask.number(PLAN_SIGMA) or 0.0
        self._reader = GroundReader(
            ground_of(source.sourceCrs(), source.sourceName()), ask.number(HEIGHT) or 0.0
        )
        self._direction, self._column = ask.number(DIRECTION), ask.text(DIRECTIONS)
        self._width, self._noted = ask.by_row(WIDTH, source), source.fields().lookupField("width_m")
        self._bounds = read_bounds(ask.words(BANDS) or MOWING.split(", "))
        self._fields = {name: table_fields(columns) for name, columns in TABLES.items()}
        self.tables: dict[str, Rows] = {}
        self._number = 0
        self._warn_without_surface(ask)
        self._rows = None
        if ask.is_given(SURFACE):
            layer = ask.one_layer(SURFACE)
            sigma = ask.number(SIGMA) or 0.0
            self._rows = RowReader(source, open_surface(layer, sigma, ask.number(HEIGHT)), sigma)

    def _warn_without_surface(self, ask: Ask) -> None:
        """Say of tables that need a surface, and rows of another kind, that they stay empty."""
        for name, kind, words in (
            (
                BY_SLOPE,
                AREAS,
                tr("Areas by slope: none are told, for they need a layer of areas and a surface."),
            ),
            (
                CROSSFALLS,
                LINES,
                tr("Crossfalls along lines: none are told, for they need a layer of lines and a surface."),
            ),
        ):
            if ask.is_given(name) and not (ask.is_given(SURFACE) and self._kind == kind):
                ask.feedback.pushWarning(words)

    def values(self, features: list[QgsFeature]) -> list[list[object]]:
        """The added columns of some rows."""
        block, widths = self._reader.block(features), self._width(features).tolist()
        sigmas = self._sigma(features).tolist()
        return [
            self._row(f, partial(block.row, k), sigmas[k], widths[k] or self._noted_width(f))
            for k, f in enumerate(features)
        ]

    def _noted_width(self, feature: QgsFeature) -> float:
        return number_or(feature.attribute(self._noted), 0.0) if self._noted >= 0 else 0.0

    def _row(
        self, feature: QgsFeature, read: Callable[[], GroundRow], sigma: float, width: float
    ) -> list[object]:
        self._number += 1  # of the row, in what was given
        try:
            row = self._measured(feature, read, PointWorth(sigma, self._plan), width)
            self._write(feature, row)
        except GroundTallyError as error:
            return refused(COLUMNS, reason(error))
        return values_of(COLUMNS, row, row.sigma_from, row.finding)

    def _write(self, feature: QgsFeature, row: GradientRow) -> None:
        """The rows of the tables."""
        if BY_SLOPE in self.tables and self._rows is not None:
            told = ("areas of the surface's triangles by their slopes", row.sigma_from)
            bands = self._rows.bands(feature, self._bounds)
            self.tables[BY_SLOPE].add(band_rows(feature, self._number, bands, told, self._fields[BY_SLOPE]))
        if CROSSFALLS in self.tables and row.ways is not None:
            told = (row.method, row.sigma_from)
            fields = self._fields[CROSSFALLS]
            self.tables[CROSSFALLS].add(cross_rows(feature, self._number, row.ways, told, fields))

    def _measured(
        self, feature: QgsFeature, read: Callable[[], GroundRow], worth: PointWorth, width: float
    ) -> GradientRow:
        bearing = self._bearing(feature)
        if self._rows is not None:
            is_area = self._kind == AREAS
            return self._rows.area(feature, bearing) if is_area else self._rows.line(feature, width)
        row = read()
        if self._kind == LINES:
            row.refuse_gap()
            return gradient_of_line(feature, row, worth)
        return take_survey_fall(area_by_own(row, worth, bearing), feature, self._reader, row)

    def _bearing(self, feature: QgsFeature) -> float | None:
        """A row's direction, degrees."""
        if self._column is None:
            return self._direction
        value = feature.attribute(self._column)
        if isinstance(value, (int, float)) and -TURN <= value <= TURN:
            return float(value)
        raise BadInput(
            "The column {column} has no direction for this row. Give it degrees clockwise from grid north.",
            column=self._column,
        )
