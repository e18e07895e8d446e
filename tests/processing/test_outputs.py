# SPDX-License-Identifier: GPL-2.0-or-later
"""What runs on layers write: never over what they read, whole or not at all, and every row."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from contextlib import closing

import pytest
from osgeo import gdal
from qgis.core import QgsProcessingException, QgsProcessingFeedback, QgsProject, QgsProperty, QgsVectorLayer

from plugin.processing.outputs import Rows
from tests.processing.layers import memory_layer, rows_of, write_layer
from tests.processing.test_layers import AREA, SQUARE, UTM, run

OWN = "{} holds the layer that is read, and would be replaced. Choose another file or table for the output."
NOPE = (
    "One-sigma of a corner, each axis: \"nope\" cannot be worked out: Field 'nope' not found. Correct it, or give a "
    "number."
)


@pytest.mark.parametrize("name", ["measure_areas", "fit_arcs"])
@pytest.mark.parametrize("ending", ["gpkg", "geojson", "shp"])
def test_a_layer_is_not_written_over_itself(name, ending, provider, tmp_path):
    # Regression: the input was replaced without a word.
    path = write_layer(tmp_path / "own.gpkg", [SQUARE], UTM)
    if ending != "gpkg":
        drivers = {"geojson": "GeoJSON", "shp": "ESRI Shapefile"}
        path = tmp_path / f"own.{ending}"
        assert gdal.VectorTranslate(str(path), str(tmp_path / "own.gpkg"), format=drivers[ending])
    before = path.read_bytes()
    (tmp_path / "link").symlink_to(tmp_path)
    for place in (path, tmp_path / "link" / path.name):
        with pytest.raises(QgsProcessingException) as told:
            run(provider, name, INPUT=str(path), OUTPUT=str(place), SIDES=None, SCHEDULE=None)
        assert str(told.value) == OWN.format(place)
    assert path.read_bytes() == before


def test_a_table_is_not_written_over_itself_and_another_of_its_file_may_be(provider, tmp_path):
    # Regression: the table was emptied before it was read.
    path = write_layer(tmp_path / "many.gpkg", [SQUARE], UTM)
    place = f"ogr:dbname='{path}' table=\"{{}}\" (geom)"
    with pytest.raises(QgsProcessingException) as told:
        run(provider, "measure_areas", INPUT=str(path), OUTPUT=place.format("many"))
    assert str(told.value) == OWN.format(path)
    rows, _ = run(provider, "measure_areas", INPUT=f"{path}|layername=many", OUTPUT=place.format("new"))
    assert rows[0]["area_m2"] == pytest.approx(AREA, rel=1e-7)
    assert len(rows_of(f"{path}|layername=many")) == 1


def test_a_cancelled_run_leaves_an_older_table_as_it_was(provider, tmp_path, monkeypatch):
    path = write_layer(tmp_path / "many.gpkg", [SQUARE], UTM)
    place = f"ogr:dbname='{path}' table=\"older\" (geom)"
    layer = memory_layer("Polygon", UTM, [SQUARE, SQUARE])
    run(provider, "measure_areas", INPUT=layer, OUTPUT=place)

    def fail(self, features):
        raise QgsProcessingException("stopped")

    monkeypatch.setattr(Rows, "add", fail)
    with pytest.raises(QgsProcessingException, match="stopped"):
        run(provider, "measure_areas", INPUT=layer, OUTPUT=place)
    assert len(rows_of(f"{path}|layername=older")) == 2


def add_pending(path):
    """A change that lies in a file beside the database; the connection that keeps it there."""
    database = sqlite3.connect(path)
    database.execute("PRAGMA journal_mode = WAL")
    database.execute("PRAGMA wal_autocheckpoint = 0")
    database.execute("CREATE TABLE pending(a)")
    database.commit()
    return database


def test_an_output_that_is_open_with_changes_is_not_replaced(provider, tmp_path):
    # Regression: SQLite put the old file's pages into the new one, and the old figures came back.
    place = tmp_path / "out.gpkg"
    layer = memory_layer("Polygon", UTM, [SQUARE])
    run(provider, "measure_areas", INPUT=layer, OUTPUT=str(place))
    with closing(add_pending(place)), pytest.raises(QgsProcessingException) as told:
        run(provider, "measure_areas", INPUT=layer, SIGMA=0.5, OUTPUT=str(place))
    assert str(told.value) == (
        f"{place} cannot be written: it is open, and has changes that are not yet in it. Close it in other programs, "
        "or choose another folder or name."
    )
    assert rows_of(str(place))[0]["area_m2_sigma"] == pytest.approx(0.1 * 2**0.5 * 10 / 0.9996, rel=1e-6)


def test_what_a_crash_left_beside_an_older_output_does_not_come_back(provider, tmp_path):
    place = tmp_path / "out.gpkg"
    layer = memory_layer("Polygon", UTM, [SQUARE])
    run(provider, "measure_areas", INPUT=layer, OUTPUT=str(place))
    crash = (
        "import os, sqlite3, sys\n"
        "d = sqlite3.connect(sys.argv[1]); d.execute('PRAGMA journal_mode = WAL')\n"
        "d.execute('PRAGMA wal_autocheckpoint = 0'); d.execute('CREATE TABLE pending(a)'); d.commit(); os._exit(0)"
    )
    subprocess.run([sys.executable, "-c", crash, str(place)], check=True)
    assert (tmp_path / "out.gpkg-wal").stat().st_size > 0
    rows, _ = run(provider, "measure_areas", INPUT=layer, SIGMA=0.5, OUTPUT=str(place))
    assert rows[0]["area_m2_sigma"] == pytest.approx(0.5 * 2**0.5 * 10 / 0.9996, rel=1e-6)
    with closing(sqlite3.connect(place)) as database:
        assert database.execute("SELECT count(*) FROM sqlite_master WHERE name = 'pending'").fetchone() == (
            0,
        )


@pytest.mark.parametrize("ending", ["xlsx", "ods", "json", "csv", "sqlite"])
def test_every_format_has_every_row_at_the_place_that_is_told(ending, provider, tmp_path):
    # Regression: GDAL took the folder for an archive (xlsx); json was written under another name than was told.
    layer = memory_layer("Polygon", UTM, [SQUARE, None])
    rows, place = run(provider, "measure_areas", INPUT=layer, OUTPUT=str(tmp_path / f"out.{ending}"))
    assert float(rows[0]["area_m2"]) == pytest.approx(AREA, rel=1e-7)
    assert len(rows) == 2
    assert [str(p) for p in tmp_path.iterdir()] == [place]


def test_a_format_that_would_leave_rows_out_is_refused(provider, tmp_path):
    place = tmp_path / "out.fgb"
    layer = memory_layer("Polygon", UTM, [SQUARE, None])
    with pytest.raises(QgsProcessingException) as told:
        run(provider, "measure_areas", INPUT=layer, OUTPUT=str(place))
    older = (
        f"{place} would hold 1 of 2 rows: this format keeps none without geometry. Choose another, such as a "
        "GeoPackage (.gpkg)."
    )
    # Newer drivers refuse such a row themselves.
    newer = "NULL geometry not supported with spatial index). Choose another format or place for the output"
    assert str(told.value) == older or newer in str(told.value)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("sigma", "words"),
    [
        (
            QgsProperty.fromExpression('"nope"'),
            NOPE,
        ),
        (-1.0, "One-sigma of a corner, each axis: -1.0 is given. Give a number that is 0 or more."),
        (float("nan"), "One-sigma of a corner, each axis: nan is given. Give a number that is 0 or more."),
    ],
)
def test_a_sigma_that_is_none_is_refused(sigma, words, provider):
    with pytest.raises(QgsProcessingException) as told:
        run(provider, "measure_areas", INPUT=memory_layer("Polygon", UTM, [SQUARE]), SIGMA=sigma)
    assert str(told.value) == words


def test_rows_without_a_sigma_of_their_own_are_told(provider, monkeypatch):
    told = []
    monkeypatch.setattr(QgsProcessingFeedback, "pushWarning", lambda _, words: told.append(words))
    rule = QgsProperty.fromExpression('if("size" > 0.015, -1, 0.5)')
    layer = memory_layer("Polygon", UTM, [SQUARE, SQUARE])
    rows, _ = run(provider, "measure_areas", INPUT=layer, SIGMA=rule)
    assert [row["area_m2_sigma"] * 0.9996 / 10 / 2**0.5 for row in rows] == pytest.approx(
        [0.5, 0.1], rel=1e-6
    )
    assert told == [
        "One-sigma of a corner, each axis: 1 rows have none that is 0 or more; 0.1 is taken for them."
    ]


def test_text_where_a_geometry_belongs_is_a_damaged_row(provider, tmp_path):
    path = write_layer(tmp_path / "bad.gpkg", [SQUARE, SQUARE], UTM)
    with closing(sqlite3.connect(path)) as database:
        names = database.execute(
            "SELECT name FROM sqlite_master WHERE type = 'trigger' AND name LIKE 'rtree%'"
        )
        for (name,) in names.fetchall():
            database.execute(f'DROP TRIGGER "{name}"')
        database.execute("UPDATE bad SET geom = 'text' WHERE fid = 2")
        database.commit()
    rows, _ = run(provider, "measure_areas", INPUT=str(path), OUTPUT=str(tmp_path / "out.gpkg"))
    assert rows[0]["area_m2"] == pytest.approx(AREA, rel=1e-7)
    assert rows[1]["finding"] == (
        "GE-07: The geometry is damaged or of a kind that is not known. Draw it again, or repair the file."
    )


def test_the_plain_way_and_the_general_way_give_the_same_bits(provider, tmp_path):
    from plugin.bridge.plain_geopackage import plain_table

    texts = [SQUARE.replace("500010", f"{500010 + k / 7!r}") for k in range(300)]
    path = write_layer(tmp_path / "plots.gpkg", texts, UTM)
    assert plain_table(QgsVectorLayer(str(path), "plots", "ogr")) is not None
    plain, _ = run(provider, "measure_areas", INPUT=str(path), OUTPUT=str(tmp_path / "plain.gpkg"))
    filtered = QgsVectorLayer(str(path), "filtered", "ogr")
    filtered.setSubsetString("fid > 0")
    general, _ = run(provider, "measure_areas", INPUT=filtered, OUTPUT=str(tmp_path / "general.gpkg"))
    assert plain == general
    assert QgsProject.instance().count() == 0
