# SPDX-License-Identifier: GPL-2.0-or-later
"""Layers of a million rows: every row comes back, in bounded memory."""

from __future__ import annotations

import resource
import sqlite3
from contextlib import closing

import pytest
from osgeo import gdal, ogr, osr
from qgis.core import QgsProcessingContext, QgsProcessingFeedback

from tests.processing.layers import raising

ROWS = 1_000_000
PLOT = "POLYGON((500000 5600000,500010 5600000,500010 5600010,500000 5600010,500000 5600000))"
LINE = "LINESTRING(500000 5600000,500003 5600004)"
MOST_MB = 450
"""Of memory above what was in use before: chunks, not layers, are held."""


@pytest.fixture(scope="module")
def million(tmp_path_factory):
    """Layers of a million like rows, made from one by the database itself."""
    folder = tmp_path_factory.mktemp("million")

    def layer(text):
        path = folder / f"{text.split('(')[0].lower()}.gpkg"
        if path.exists():
            return path
        with raising():
            dataset = gdal.GetDriverByName("GPKG").Create(str(path), 0, 0, 0, gdal.GDT_Unknown)
            reference = osr.SpatialReference()
            reference.ImportFromEPSG(32631)
            kind = ogr.CreateGeometryFromWkt(text).GetGeometryType()
            table = dataset.CreateLayer(path.stem, reference, kind, ["SPATIAL_INDEX=NO"])
            table.CreateField(ogr.FieldDefn("name", ogr.OFTString))
            feature = ogr.Feature(table.GetLayerDefn())
            feature["name"] = "row"
            feature.SetGeometryDirectly(ogr.CreateGeometryFromWkt(text))
            table.CreateFeature(feature)
            del feature, table, dataset
        with closing(sqlite3.connect(path)) as database:
            for name in ("ST_IsEmpty", "ST_MinX", "ST_MaxX", "ST_MinY", "ST_MaxY"):
                database.create_function(name, 1, lambda _: None)
            database.execute(
                f"WITH RECURSIVE n(k) AS (SELECT 2 UNION ALL SELECT k + 1 FROM n WHERE k < {ROWS}) "
                f"INSERT INTO {path.stem}(geom, name) SELECT geom, name FROM n, {path.stem}"
            )
            database.commit()
        return path

    return layer


@pytest.mark.parametrize(
    ("name", "text", "figure"),
    [
        ("measure_areas", PLOT, ("area_m2", 100 / 0.9996**2)),
        ("measure_lengths", LINE, ("length_m", 5 / 0.9996)),
        ("fit_arcs", LINE, ("straights", 1)),
    ],
)
def test_a_million_rows_come_back_measured(name, text, figure, provider, million, tmp_path):
    column, value = figure
    path, place = million(text), tmp_path / "out.gpkg"
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    _, good = (
        provider.algorithm(name)
        .create()
        .run({"INPUT": str(path), "OUTPUT": str(place)}, QgsProcessingContext(), QgsProcessingFeedback())
    )
    assert good
    assert (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024 < MOST_MB
    with closing(sqlite3.connect(place)) as database:
        rows, least, most = database.execute(
            f"SELECT count(*), min({column}), max({column}) FROM out"
        ).fetchone()
    assert rows == ROWS
    assert least == pytest.approx(value, rel=1e-7)
    assert most == pytest.approx(value, rel=1e-7)
