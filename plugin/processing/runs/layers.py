# SPDX-License-Identifier: GPL-2.0-or-later
"""One run over all rows of a layer, which comes back with columns added."""

from __future__ import annotations

from collections import deque
from itertools import repeat
from typing import TYPE_CHECKING

from qgis.core import QgsFeature
from qgis.PyQt.QtCore import QVariant

from ...bridge.layers import fields_with
from ...bridge.measured import ASSUMED, Column, Tally, column_values
from ...bridge.plain_geopackage import ENDING, write_with_columns
from ...bridge.sources import read_chunks
from ...bridge.surveyed import survey_columns, take_survey
from ...bridge.text import tr
from ..layers import MEASURED, REFUSED, TOTAL
from ..parameters import INPUT, OUTPUT

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from qgis.core import QgsProcessingFeatureSource

    from ...core.measure.layer.areas import AreaFigures
    from ...core.measure.layer.lengths import LengthFigures
    from ...core.measure.layer.shapes import Shapes
    from ...core.quantity import Floats
    from ..algorithm import Ask

    Figures = AreaFigures | LengthFigures
    Measure = Callable[[Shapes, dict[str, Floats]], Figures]


def measure_layer(
    ask: Ask,
    source: QgsProcessingFeatureSource,
    columns: Sequence[Column],
    measure: Measure,
    sigmas: Sequence[str],
) -> dict[str, object]:
    """Every row of a layer again, with columns added.

    Args:
        ask: the run.
        source: the layer.
        columns: what is added; the first is the main figure.
        measure: figures of some rows, given their shapes and what each is worth, by the parameters named in `sigmas`.
        sigmas: parameters that hold a number for every row, or a field.
    """
    fields = fields_with(source.fields(), [(column.name, column.kind) for column in columns])
    added = [field.name() for field in fields][source.fields().count() :]
    job = _Job(ask, source, columns, measure, sigmas)
    output = ask.output(OUTPUT)
    output.name_by(source.sourceName())
    path = output.path
    if path is not None and path.suffix.lower() == ENDING and job.is_plain:
        plain = ask.plain_table(INPUT)
        if plain is not None:
            kinds = [(name, column.kind) for name, column in zip(added, columns)]
            write_with_columns(plain, path, kinds, job.plain_values, ask.progress())
            return {OUTPUT: output.load(path), **job.told()}
    anew = ask.clashing_ids(OUTPUT, source)
    with output.open(fields, source.wkbType(), source.sourceCrs()) as rows:
        for features in job.chunks():
            if anew is not None:
                for feature in features:
                    feature.setAttribute(anew, None)
            rows.add(features)
    return {OUTPUT: output.destination, **job.told()}


class _Job:
    """One run over all rows."""

    def __init__(
        self,
        ask: Ask,
        source: QgsProcessingFeatureSource,
        columns: Sequence[Column],
        measure: Measure,
        sigmas: Sequence[str],
    ) -> None:
        self._ask, self._source, self._columns, self._measure = ask, source, columns, measure
        self._worth = {name: ask.by_row(name, source) for name in sigmas}
        self._survey = survey_columns(source.fields(), columns)
        self._tally = Tally(columns[0].figure)

    def told(self) -> dict[str, object]:
        """What the run has come to, in the log and as outputs."""
        tally, name = self._tally, self._columns[0].name
        self._ask.feedback.pushInfo(
            tr("Rows measured: {measured}; {name} {total:.3f} in all.").format(
                measured=tally.measured, name=name, total=tally.total
            )
        )
        if tally.refused:
            self._ask.feedback.pushWarning(
                tr("Rows without figures: {refused}. The column finding says why, and what to do.").format(
                    refused=tally.refused
                )
            )
        return {MEASURED: tally.measured, REFUSED: tally.refused, TOTAL: tally.total}

    @property
    def is_plain(self) -> bool:
        """Whether no row's figures hang on its other columns."""
        return self._survey is None and not any(map(self._ask.is_by_row, self._worth))

    def plain_values(self, shapes: Shapes) -> list[list[object]]:
        """The added columns of some rows of a plain table."""
        worth = {name: value(range(len(shapes))) for name, value in self._worth.items()}
        figures = self._measure(shapes, worth)
        self._tally.add(figures)
        return column_values(figures, self._columns, [ASSUMED] * len(shapes))

    def chunks(self) -> Iterator[list[QgsFeature]]:
        """All rows with the added columns, some at a time."""
        progress, total, done = self._ask.progress(), max(self._source.featureCount(), 1), 0
        progress(0.0, "Measuring")
        for chunk in read_chunks(self._source):
            figures = self._measure(
                chunk.shapes, {name: value(chunk.features) for name, value in self._worth.items()}
            )
            froms: Sequence[str] = [ASSUMED] * len(chunk.features)
            if self._survey:
                figures, froms = take_survey(figures, self._survey, chunk.features)
            self._tally.add(figures)
            yield _with_values(chunk.features, column_values(figures, self._columns, froms))
            done += len(chunk.features)
            progress(min(done / total, 1.0), "Measuring")


def _with_values(features: list[QgsFeature], values: list[list[object]]) -> list[QgsFeature]:
    """The features with values behind their own attributes, column by column and without a loop of ours from value to
    value where it can be: a million rows wait. A value that all rows have is made the host's own once."""
    first = features[0].attributeCount()
    _each(map(QgsFeature.resizeAttributes, features, repeat(first + len(values))))
    for k, column in enumerate(values, first):
        if column.count(column[0]) == len(column):
            if column[0] is not None:
                _each(map(QgsFeature.setAttribute, features, repeat(k), repeat(QVariant(column[0]))))
        elif None not in column:
            _each(map(QgsFeature.setAttribute, features, repeat(k), column))
        else:
            for feature, value in zip(features, column):
                if value is not None:
                    feature.setAttribute(k, value)
    return features


def _each(calls: Iterator[object]) -> None:
    deque(calls, maxlen=0)
