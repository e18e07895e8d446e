# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of fit_arcs, which its form imports when it starts."""

from __future__ import annotations

from contextlib import ExitStack
from typing import TYPE_CHECKING

from qgis.core import QgsCoordinateReferenceSystem, QgsFeature, QgsFields, QgsWkbTypes

from ...bridge.fitted import (
    FEATURES,
    SCHEDULE,
    SIDES,
    feature_values,
    fitted_geometry,
    schedule_rows,
    side_rows,
)
from ...bridge.layers import extended, fields_with, is_id, without_ids
from ...bridge.sources import ground_of, has_heights, read_chunks
from ...core.measure.layer.fits import Fitter
from ..algorithm import Ask
from ..fit_arcs import SCHEDULE_OUT, SIDES_OUT
from ..layers import ROUNDING, SIGMA
from ..parameters import HEIGHT, INPUT, OUTPUT, TOLERANCE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from qgis.core import QgsProcessingFeatureSource

    from ...core.measure.layer.fits import FeatureFit
    from ...core.shape.fit.outline import OutlinePiece
    from ..outputs import Rows

CHUNK = 500
"""Features at a time, so that progress is seen and cancelling is heard."""


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    names = (OUTPUT, SIDES_OUT, SCHEDULE_OUT)
    ask.need_one(names)
    job = _Job(ask, ask.source(INPUT))
    outputs = {name: ask.output(name) for name in names if ask.is_given(name)}
    with ExitStack() as stack:
        rows = {name: stack.enter_context(output.open(*job.kinds[name])) for name, output in outputs.items()}
        job.write_features(rows.get(OUTPUT), rows.get(SIDES_OUT))
        if SCHEDULE_OUT in rows:
            job.write_schedule(rows[SCHEDULE_OUT])
    return {name: output.destination for name, output in outputs.items()}


class _Job:
    """One run: the layer's features in, fitted features, their sides and the schedule out."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        self._ask, self._source = ask, source
        self._tolerance = ask.number(TOLERANCE) or 0.0
        self._sigma = ask.number(SIGMA)
        self._fitter = Fitter(
            ground_of(source.sourceCrs(), source.sourceName()),
            self._tolerance,
            self._sigma,
            ask.number(HEIGHT) or 0.0,
        )
        self._has_z = has_heights(source)
        self._arcs: list[tuple[str, OutlinePiece]] = []
        crs, kind = source.sourceCrs(), QgsWkbTypes.curveType(source.wkbType())
        side = QgsWkbTypes.Type.CompoundCurveZ if self._has_z else QgsWkbTypes.Type.CompoundCurve
        self.kinds = {
            OUTPUT: (fields_with(source.fields(), FEATURES), kind, crs),
            SIDES_OUT: (fields_with(without_ids(source.fields()), SIDES), side, crs),
            SCHEDULE_OUT: (
                fields_with(QgsFields(), SCHEDULE),
                QgsWkbTypes.Type.NoGeometry,
                QgsCoordinateReferenceSystem(),
            ),
        }

    def write_features(self, rows: Rows | None, sides: Rows | None) -> None:
        """Every row of the layer as fitted, and the sides of each where they are wanted."""
        progress, total, done = self._ask.progress(), max(self._source.featureCount(), 1), 0
        progress(0.0, "Fitting")
        every = sides is not None or self._ask.is_given(SCHEDULE_OUT)
        anew = self._ask.clashing_ids(OUTPUT, self._source)
        for chunk in read_chunks(self._source, CHUNK):
            fitted = []
            for feature, fit in zip(chunk.features, self._fitter.fit(chunk.shapes, every=every)):
                if fit.runs:
                    progress(min(done / total, 1.0), "Fitting")
                done += 1
                if sides is not None:
                    sides.add(list(self._sides(feature, done, fit)))
                self._arcs += [
                    (f"{done}/{k}", piece) for k, piece in enumerate(fit.pieces, 1) if piece.is_arc
                ]
                if rows is not None:
                    fitted.append(self._fitted(feature, fit, anew))
            if rows is not None:
                rows.add(fitted)
            progress(min(done / total, 1.0), "Fitting")

    def _fitted(self, feature: QgsFeature, fit: FeatureFit, anew: int | None) -> QgsFeature:
        values = feature_values(fit, self._tolerance, is_stated=self._sigma is not None)
        geometry = fitted_geometry(fit, feature.geometry()) if feature.hasGeometry() else None
        return extended(feature, values, geometry, anew)

    def _sides(self, feature: QgsFeature, number: int, fit: FeatureFit) -> Iterator[QgsFeature]:
        own = self.kinds[SIDES_OUT][0]
        told = [value for field, value in zip(feature.fields(), feature.attributes()) if not is_id(field)]
        for geometry, values in side_rows(fit, number, has_z=self._has_z):
            side = QgsFeature(own)
            side.setGeometry(geometry)
            side.setAttributes(told + values)
            yield side

    def write_schedule(self, rows: Rows) -> None:
        """A row for each radius."""
        fields = self.kinds[SCHEDULE_OUT][0]
        for values in schedule_rows(self._arcs, self._ask.number(ROUNDING)):
            row = QgsFeature(fields)
            row.setAttributes(list(values))
            rows.add([row])
