# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_gradients, which its form imports when it starts."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from qgis.core import QgsWkbTypes

from ...bridge.gradient_rows import RowReader, open_surface, survey_fall
from ...bridge.gradients import COLUMNS, area_by_own, line_by_own
from ...bridge.sources import ground_of
from ...bridge.trade import GroundReader, columns_of, reason, refused, values_of
from ...core.errors import BadInput, GroundTallyError
from ...core.trade.profiles import PointWorth
from ..layers import SIGMA, take_off_layer
from ..measure_gradients import DIRECTION, DIRECTIONS, PLAN_SIGMA, SURFACE, TURN
from ..parameters import HEIGHT, INPUT

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ...bridge.gradients import GradientRow
    from ...bridge.trade import GroundRow
    from ..algorithm import Ask

AREAS, LINES = QgsWkbTypes.GeometryType.PolygonGeometry, QgsWkbTypes.GeometryType.LineGeometry


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    source = ask.source(INPUT)
    return take_off_layer(ask, source, columns_of(COLUMNS), _Job(ask, source).values)


class _Job:
    """One run: the layer, and the surface where there is one."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        self._kind = QgsWkbTypes.geometryType(source.wkbType())
        if self._kind not in (AREAS, LINES):
            raise BadInput("The layer holds neither areas nor lines. Choose a layer of one of them.")
        self._sigma, self._plan = ask.by_row(SIGMA, source), ask.number(PLAN_SIGMA) or 0.0
        self._reader = GroundReader(ground_of(source.sourceCrs()), ask.number(HEIGHT) or 0.0)
        self._direction, self._column = ask.number(DIRECTION), ask.text(DIRECTIONS)
        self._rows = None
        if ask.is_given(SURFACE):
            (layer,) = ask.layers(SURFACE)
            sigma = ask.number(SIGMA) or 0.0
            self._rows = RowReader(source, open_surface(layer, sigma, ask.number(HEIGHT)), sigma)

    def values(self, features: list[QgsFeature]) -> list[list[object]]:
        """The added columns of some rows."""
        block = self._reader.block(features)
        sigmas = self._sigma(features).tolist()
        return [self._row(f, partial(block.row, k), s) for k, (f, s) in enumerate(zip(features, sigmas))]

    def _row(self, feature: QgsFeature, read: Callable[[], GroundRow], sigma: float) -> list[object]:
        try:
            row = self._measured(feature, read, PointWorth(sigma, self._plan))
        except GroundTallyError as error:
            return refused(COLUMNS, reason(error))
        return values_of(COLUMNS, row, row.sigma_from, row.finding)

    def _measured(self, feature: QgsFeature, read: Callable[[], GroundRow], worth: PointWorth) -> GradientRow:
        bearing = self._bearing(feature)
        if self._rows is not None:
            return self._rows.area(feature, bearing) if self._kind == AREAS else self._rows.line(feature)
        row = read()
        if self._kind == LINES:
            return line_by_own(row.line, row.plane, worth)
        told = area_by_own(row, worth, bearing)
        own = survey_fall(feature, self._reader)
        return told if own is None else replace(told, fall=own[0], bearing=own[1], sigma_from=own[2])

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
