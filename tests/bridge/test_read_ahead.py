# SPDX-License-Identifier: GPL-2.0-or-later
"""Rows that were read together are the rows that are read one by one."""

from __future__ import annotations

import numpy as np
import pytest
from qgis.core import QgsFeature, QgsGeometry, QgsVectorLayer

from plugin.bridge.checked import AT_ONCE, Examiner
from plugin.bridge.sources import ground_of
from plugin.bridge.trade import GroundReader
from plugin.core.errors import BadInput
from plugin.core.trade.limits import Thing
from plugin.core.trade.ramps import RampRules
from plugin.core.trade.worth import PointWorth

UTM = "EPSG:32631"
X, Y = 500_000.0, 5_600_000.0
ON_GROUND = 1 / 0.9996
"""Ground length by grid length on the zone's central meridian."""


class Source:
    """A layer as a source of rows."""

    def __init__(self, layer):
        self._layer = layer

    def sourceCrs(self):
        return self._layer.crs()

    def sourceName(self):
        return self._layer.name()

    def fields(self):
        return self._layer.fields()

    def getFeatures(self, *request):
        return self._layer.getFeatures(request[0])


def layer_of(rows):
    layer = QgsVectorLayer(f"LineStringZ?crs={UTM}&field=feature:string&field=part:string", "lines", "memory")
    out = []
    for feature, part, text in rows:
        row = QgsFeature(layer.fields())
        row.setAttributes([feature, part])
        if text:
            row.setGeometry(QgsGeometry.fromWkt(text))
        out.append(row)
    layer.dataProvider().addFeatures(out)
    return layer


def text_of(points):
    return (
        f"LineStringZ({', '.join(f'{X + float(x)!r} {Y + float(y)!r} {float(z)!r}' for x, y, z in points)})"
    )


def rows_of(*texts):
    """Rows as any layer may give them, numbered from 1."""
    fields, out = layer_of([]).fields(), []
    for number, text in enumerate(texts, 1):
        row = QgsFeature(fields, number)
        if text:
            row.setGeometry(QgsGeometry.fromWkt(text))
        out.append(row)
    return out


def reader_of():
    return GroundReader(ground_of(layer_of([]).crs()), 12.0)


@pytest.mark.parametrize("zeros_count", [False, True])
def test_rows_read_ahead_are_those_read_one_by_one_in_any_mixture(qgis_app, zeros_count):
    rows = rows_of(
        text_of([(0, 0, 1.0), (5, 0, 1.2), (9, 1, 1.5)]),
        "",
        text_of([(20, 0, 0.0), (25, 3, 0.0)]),
        f"LineString({X} {Y}, {X + 7} {Y + 1})",
        f"CompoundCurveZ(CircularStringZ({X} {Y} 1, {X + 1} {Y + 1} 2, {X + 2} {Y} 3), ({X + 2} {Y} 3, {X + 9} {Y} 4))",
    )
    one, ahead = reader_of(), reader_of()
    ahead.read_ahead(rows)
    for k in (0, 2, 3, 4):
        alone, read = (reader.row(rows[k], zeros_count=zeros_count) for reader in (one, ahead))
        assert alone.height == read.height
        assert np.array_equal(alone.line.points, read.line.points, equal_nan=True)
        assert np.array_equal(alone.line.is_mid, read.line.is_mid)
        assert alone.has_heights == (k in ((0, 2, 4) if zeros_count else (0, 4)))
    for reader in (one, ahead):
        with pytest.raises(BadInput) as words:
            reader.row(rows[1], zeros_count=zeros_count)
        assert str(words.value) == "There is no geometry. Draw it, or delete the row."


def test_a_row_that_was_not_read_ahead_is_read_though_its_number_was(qgis_app):
    (first,), (second,) = (rows_of(text_of([(0, 0, 1.0), (0, length, 1.2)])) for length in (5, 8))
    assert first.id() == second.id()
    reader = reader_of()
    reader.read_ahead([first])
    for row, length in ((first, 5.0), (second, 8.0)):
        assert reader.row(row).line.edges.lengths.sum() == pytest.approx(length * ON_GROUND, rel=1e-5)


def test_more_ramps_than_are_read_at_once_have_each_the_figures_of_its_own_edges(qgis_app):
    count, draw = AT_ONCE + 20, np.random.default_rng(1)
    length, rise, rows = draw.uniform(3.0, 9.0, count), draw.uniform(0.4, 0.6, count), []
    for k in range(count):
        for part, y, up in (("left", 1.2, 0.0), ("right", 0.0, 0.01)):
            ends = [(y + 3.0 * k, 0.0, up), (y + 3.0 * k, -length[k], up + rise[k])]
            rows.append((f"R{k}", part, text_of(ends)))
    order = draw.permutation(len(rows))  # partners far from each other
    source = Source(layer_of([rows[k] for k in order]))
    found = list(Examiner(PointWorth(0.003, 0.005), RampRules(), 0.0).ramps(source, Thing.RAMP))
    assert sorted(int(one.name[1:]) for one in found) == list(range(count))
    for one in found:
        k, figures = int(one.name[1:]), {part.figure.name: part.value.value for part in one.figures}
        assert figures["RUN"] == pytest.approx(length[k] * ON_GROUND, rel=1e-5)
        assert figures["GRADIENT"] == pytest.approx(rise[k] / length[k] / ON_GROUND, rel=1e-5)
        assert abs(figures["CROSSFALL"]) == pytest.approx(0.01 / 1.2 / ON_GROUND, rel=1e-5)
