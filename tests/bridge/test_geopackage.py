# SPDX-License-Identifier: GPL-2.0-or-later
"""The survey GeoPackage: its tables, true curves in many CRSs, and all or nothing."""

from __future__ import annotations

import math
import os
import signal
import sqlite3
import subprocess
import sys
import textwrap
import time
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from osgeo import ogr
from qgis.core import QgsVectorLayer, QgsWkbTypes

from plugin.bridge.fields import TABLES, RunFact
from plugin.bridge.geopackage import write_survey
from plugin.core.errors import BadInput, Cancelled
from plugin.core.measure.rows import AreaRow, LengthRow, SpotRow, SurfaceRow, Tags
from tests.made_survey import COURT, KERB, KERB_LENGTH_M, PLACES, Curve, curve, made_survey, metres

ROOT = Path(__file__).parents[2]
FORMATS_COLUMNS = {
    "areas": "area_m2, area_m2_sigma, sloped_area_m2, sloped_area_m2_sigma, perimeter_m, perimeter_m_sigma, "
    "fall_ratio, fall_ratio_sigma, fall_bearing_deg, fall_bearing_deg_sigma, hole_in, "
    "width_m, depth_m, height_noted_m, stem_d_m, spread_m, invert_m, point_errors",
    "lengths": "length_m, length_m_sigma, slope_length_m, slope_length_m_sigma, rise_m, rise_m_sigma, "
    "gradient_ratio, gradient_ratio_sigma, "
    "width_m, depth_m, height_noted_m, stem_d_m, spread_m, invert_m, sizes_along, point_errors",
    "spots": "height_m, height_m_sigma, width_m, depth_m, height_noted_m, stem_d_m, spread_m, invert_m",
    "stations": "station, x_m, y_m, z_m, sigma_major_m, sigma_minor_m, sigma_bearing_deg, z_m_sigma, mark, leg, time, "
    "z_own_m_sigma, z_shared, "
    "width_m, depth_m, height_noted_m, stem_d_m, spread_m, invert_m",
    "sides": "owner, other, item, length_m, length_m_sigma, radius_m, radius_m_sigma, sweep_deg, sweep_deg_sigma",
    "findings": "code, severity, file, line, walk, station, feature, place, x, y, message, remedy, answers, answer, "
    "answered_by, answered_at",
    "walks": "walk, file, instrument, stations, length_m, moving_s, misclosure_m, misclosure_m_sigma, "
    "height_misclosure_m, height_misclosure_m_sigma",
    "placement": "status, crs, rotation_deg, scale, height_shift_m, height_datum, grid_to_ground, common_m_sigma, "
    "scale_check, scale_check_sigma",
    "residuals": "kind, mark, other, walk, station, used, residual_x_m, residual_y_m, residual_m, standard_ratio, "
    "ask_ratio, stop_ratio",
}
"""As published, in the published order."""


def layer(path: Path, table: str) -> QgsVectorLayer:
    opened = QgsVectorLayer(f"{path}|layername={table}", table, "ogr")
    assert opened.isValid()
    return opened


def rows(path: Path, table: str) -> list[dict[str, object]]:
    with closing(sqlite3.connect(path)) as connection:
        connection.row_factory = sqlite3.Row
        return [dict(row) for row in connection.execute(f'SELECT * FROM "{table}"')]


@pytest.fixture
def written(tmp_path, qgis_app):
    return write_survey(made_survey(), tmp_path / "site.gpkg", runs=(RunFact("version", "qgis", "3"),))


def test_all_tables_are_there_with_their_own_columns_last_and_in_order(written):
    for name, text in FORMATS_COLUMNS.items():
        columns = [field.name() for field in layer(written, name).fields()]
        wanted = text.split(", ")
        assert columns[-len(wanted) :] == wanted, name
    assert {table.name for table in TABLES} >= {*FORMATS_COLUMNS, "marks", "legs", "runs"}


def test_each_layer_has_the_published_geometry(written):
    kinds = {name: QgsWkbTypes.displayString(layer(written, name).wkbType()) for name in FORMATS_COLUMNS}
    assert kinds == {
        "areas": "CurvePolygonZ",
        "lengths": "CompoundCurveZ",
        "spots": "PointZ",
        "stations": "PointZ",
        "sides": "CompoundCurveZ",
        "findings": "NoGeometry",
        "walks": "NoGeometry",
        "placement": "NoGeometry",
        "residuals": "NoGeometry",
    }


def test_figures_come_back_as_they_went_in(written):
    survey = made_survey()
    court = rows(written, "areas")[0]
    assert court["area_m2"] == survey.areas[0].area.value
    assert court["area_m2_sigma"] == 0.81
    assert court["hole_in"] is None
    mark = rows(written, "marks")[1]
    assert (mark["mark"], mark["x_m"], mark["y_m"]) == ("B", 23.0, -4.0)
    assert rows(written, "runs") == [{"fid": 1, "kind": "version", "name": "qgis", "value": "3"}]


def test_figures_that_are_kept_out_are_null_and_say_why(written):
    bed = next(row for row in rows(written, "areas") if row["feature"] == "Bed 3")
    assert bed["finding"] == "GE-01"
    assert [bed[name] for name in ("area_m2", "area_m2_sigma", "perimeter_m", "fall_bearing_deg")] == [
        None
    ] * 4


def test_a_curved_side_has_radius_and_sweep_in_degrees(written):
    side = next(row for row in rows(written, "sides") if row["radius_m"] is not None)
    assert side["radius_m"] == pytest.approx(14.5, abs=1e-9)
    assert side["sweep_deg"] == pytest.approx(2 * math.degrees(math.asin(10 / 14.5)), abs=1e-9)
    assert side["radius_m_sigma"] == 0.02
    assert side["sweep_deg_sigma"] == pytest.approx(math.degrees(0.003), abs=1e-12)


def test_a_finding_is_told_in_words_at_its_place_on_the_map(written):
    finding = rows(written, "findings")[0]
    survey = made_survey()
    assert finding["message"] == 'The outline of "Bed 3" crosses itself between stations 4 and 7.'
    assert (finding["severity"], finding["answers"], finding["answer"]) == ("stop", "loop 1; loop 2", None)
    x, y = survey.plane.to_crs(np.array([[14.0, -1.0]]))[0]
    assert (finding["x"], finding["y"]) == (x, y)


@pytest.mark.parametrize("crs", sorted(PLACES))
def test_curves_come_back_true_to_the_ground_in_every_crs(crs, tmp_path, qgis_app):
    survey = made_survey(crs)
    path = write_survey(survey, tmp_path / "site.gpkg")
    opened = layer(path, "lengths")
    assert opened.crs().authid() == crs
    feature = next(opened.getFeatures())
    line = feature.geometry()
    points = np.array([(v.x(), v.y(), v.z()) for v in line.constGet().points()])
    back = survey.plane.from_crs(points[:, :2])
    # Straight, then one arc (start, middle, end), then straight; the arc's centre is (24, 0), its radius 6.
    corners = np.array(
        [(-6, -6), (24, -6), (24 + 6 * math.sqrt(0.5), -6 * math.sqrt(0.5)), (30, 0), (30, 2.5)]
    )
    assert back == pytest.approx(corners, abs=1e-6)
    assert points[:, 2] * survey.plane.crs_unit_m == pytest.approx(
        [84.72, 84.12, 84.06, 84.0, 84.0], abs=1e-9
    )


@pytest.mark.parametrize("crs", sorted(PLACES))
def test_the_bearing_of_an_ellipse_is_that_of_its_axis_on_the_grid(crs, tmp_path, qgis_app):
    survey = made_survey(crs)
    path = write_survey(survey, tmp_path / "site.gpkg")
    station = rows(path, "stations")[0]
    angle = math.radians(30)
    ends = survey.plane.to_crs(np.array([[0.0, 0.0], [math.cos(angle), math.sin(angle)]]))
    east, north = ends[1] - ends[0]
    # The web projection is not conformal: its grid bends a direction by up to 0.2 degrees.
    tolerance = 0.2 if crs == "EPSG:3857" else 1e-4
    assert station["sigma_bearing_deg"] == pytest.approx(
        math.degrees(math.atan2(east, north)) % 180, abs=tolerance
    )


def test_a_survey_in_no_place_is_written_in_a_local_crs_of_metres(tmp_path, qgis_app):
    path = write_survey(made_survey(None), tmp_path / "site.gpkg")
    opened = layer(path, "areas")
    assert opened.crs().isValid()
    assert opened.crs().authid() == ""
    court = next(opened.getFeatures()).geometry()
    assert court.constGet().area() == pytest.approx(made_survey().areas[0].area.value, abs=1e-6)


def test_a_length_of_several_runs_makes_the_layer_one_of_multi_curves(tmp_path, qgis_app):
    shifted = Curve(KERB.points + np.array([0, 40, 0]), KERB.bulge)
    length = LengthRow(Tags(feature="Kerb"), (KERB, shifted), metres(1.0), None, None, None)
    path = write_survey(made_survey(None, lengths=(length,)), tmp_path / "site.gpkg")
    opened = layer(path, "lengths")
    assert QgsWkbTypes.displayString(opened.wkbType()) == "MultiCurveZ"
    assert next(opened.getFeatures()).geometry().constGet().length() == pytest.approx(
        2 * KERB_LENGTH_M, abs=1e-6
    )


def test_heights_that_are_missing_leave_features_that_open_and_lie_where_they_should(tmp_path, qgis_app):
    flat = Curve(COURT.points * [1, 1, math.nan], COURT.bulge)
    survey = made_survey(None)
    survey = replace(survey, areas=(replace(survey.areas[0], outline=(flat,)),))
    path = write_survey(survey, tmp_path / "site.gpkg")
    shape = next(layer(path, "areas").getFeatures()).geometry()
    box = shape.boundingBox()
    assert (box.xMinimum(), box.xMaximum()) == pytest.approx((2.0, 22.0), abs=1e-9)
    assert math.isnan(shape.constGet().vertexAt(next(iter([shape.vertexIdFromVertexNr(0)[1]]))).z())


@pytest.mark.parametrize("sag", [None, 0.002])
def test_what_lies_nowhere_has_no_geometry_and_leaves_the_layers_type(sag, tmp_path, qgis_app):
    survey = made_survey()
    nan = (math.nan, math.nan, math.nan)
    gone = Tags(feature="Gone", finding="TI-01")
    survey = replace(
        survey,
        areas=(*survey.areas, AreaRow(gone, (), None, None, None, None, None)),
        lengths=(*survey.lengths, LengthRow(gone, (), None, None, None, None)),
        spots=(*survey.spots, SpotRow(gone, nan, None)),
        stations=(*survey.stations, replace(survey.stations[0], tags=gone, point=nan, ellipse=None)),
    )
    path = write_survey(survey, tmp_path / "site.gpkg", sag=sag)
    for table in ("areas", "lengths", "spots", "stations"):
        row = rows(path, table)[-1]
        assert (row["feature"], row["finding"], row["geom"]) == ("Gone", "TI-01", None)
        opened = layer(path, table)
        assert not opened.extent().isEmpty()
        assert np.isfinite([opened.extent().xMinimum(), opened.extent().yMaximum()]).all()
    assert QgsWkbTypes.displayString(layer(path, "lengths").wkbType()) == (
        "LineStringZ" if sag else "CompoundCurveZ"
    )
    assert [rows(path, "stations")[-1][name] for name in ("x_m", "y_m", "z_m")] == [None, None, None]


def test_a_folder_in_the_way_is_told_and_left_alone(tmp_path, qgis_app):
    for name in ("site.gpkg", "other.tmp.gpkg"):
        (tmp_path / name / "inside").mkdir(parents=True)
    for name in ("site.gpkg", "other.gpkg"):
        with pytest.raises(BadInput, match=rf"{name} cannot be written: Is a directory\. Close it in other"):
            write_survey(made_survey(), tmp_path / name)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["other.tmp.gpkg", "site.gpkg"]


def test_an_empty_survey_still_has_every_table(tmp_path, qgis_app):
    survey = made_survey(None)
    nothing = dict.fromkeys(("areas", "lengths", "spots", "sides", "legs", "stations", "marks", "walks"), ())
    path = write_survey(replace(survey, findings=(), **nothing), tmp_path / "site.gpkg")
    assert [layer(path, table.name).featureCount() for table in TABLES if table.name != "placement"] == [
        0
    ] * 12


def test_each_layer_carries_its_style_as_the_default(written):
    styles = rows(written, "layer_styles")
    assert [row["f_table_name"] for row in styles] == [t.name for t in TABLES if t.geometry]
    opened = layer(written, "areas")
    _, was_loaded = opened.loadDefaultStyle()
    assert was_loaded
    assert opened.renderer().type() == "RuleRenderer"
    assert opened.labelsEnabled()


def test_text_that_looks_like_sql_is_kept_as_text(tmp_path, qgis_app):
    name = "Bed'); DROP TABLE areas; --"
    survey = made_survey()
    court = replace(survey.areas[0], tags=replace(survey.areas[0].tags, feature=name))
    path = write_survey(replace(survey, areas=(court,)), tmp_path / "site.gpkg")
    assert rows(path, "areas")[0]["feature"] == name


def test_a_cancelled_write_leaves_the_older_file_and_nothing_else(tmp_path, qgis_app):
    path = write_survey(made_survey(), tmp_path / "site.gpkg")
    before = path.read_bytes()

    def stop(part: float, words: str) -> None:
        if part > 0.9:
            raise Cancelled

    with pytest.raises(Cancelled):
        write_survey(made_survey("EPSG:2264"), path, progress=stop)
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["site.gpkg"]


def test_a_file_where_the_folder_should_be_is_told(tmp_path, qgis_app):
    (tmp_path / "taken").write_text("x")
    with pytest.raises(BadInput, match="cannot be written: .*Close it in other programs, or choose another"):
        write_survey(made_survey(), tmp_path / "taken" / "site.gpkg")
    assert [p.name for p in tmp_path.iterdir()] == ["taken"]


def test_a_folder_in_place_of_the_file_is_told_and_leaves_nothing(tmp_path, qgis_app):
    (tmp_path / "site.gpkg").mkdir()
    with pytest.raises(BadInput, match=r"site\.gpkg cannot be written"):
        write_survey(made_survey(), tmp_path / "site.gpkg")
    assert [p.name for p in tmp_path.iterdir()] == ["site.gpkg"]


def test_the_picture_is_kept_relative_to_the_survey(tmp_path, qgis_app):
    path = write_survey(made_survey(), tmp_path / "out" / "site.gpkg", picture=tmp_path / "photo.tif")
    assert rows(path, "runs")[0]["value"] == "../photo.tif"


def test_a_name_without_ending_gets_one(tmp_path, qgis_app):
    assert write_survey(made_survey(), tmp_path / "site.v2").name == "site.v2.gpkg"


def test_gdal_is_left_raising_or_not_as_it_was(tmp_path, qgis_app):
    before = ogr.GetUseExceptions()
    write_survey(made_survey(), tmp_path / "site.gpkg")
    assert ogr.GetUseExceptions() == before


def test_a_write_killed_in_the_middle_leaves_the_older_file_whole(tmp_path, qgis_app):
    path = write_survey(made_survey(), tmp_path / "site.gpkg")
    before = path.read_bytes()
    code = f"""
        import sys, time
        sys.path.insert(0, {str(ROOT)!r})
        from dataclasses import replace
        from tests.made_survey import made_survey
        from plugin.bridge.geopackage import write_survey
        survey = made_survey()
        survey = replace(survey, stations=survey.stations * 2000)
        def halfway(part, words):
            if part > 0.5:
                print("halfway", flush=True)
                time.sleep(60)
        write_survey(survey, {str(path)!r}, progress=halfway)
    """
    child = subprocess.Popen([sys.executable, "-c", textwrap.dedent(code)], stdout=subprocess.PIPE, text=True)
    assert child.stdout.readline().strip() == "halfway"
    os.kill(child.pid, signal.SIGKILL)
    child.wait()
    child.stdout.close()
    assert path.read_bytes() == before
    assert QgsVectorLayer(f"{path}|layername=areas", "areas", "ogr").featureCount() == 5
    # The next run clears what the killed one left, and its own file is whole.
    write_survey(made_survey(), path)
    assert [p.name for p in tmp_path.iterdir()] == ["site.gpkg"]


def test_a_hundred_thousand_stations_are_written_in_seconds(tmp_path, qgis_app):
    survey = made_survey(None)
    many = replace(survey, stations=survey.stations * 20_000)
    start = time.monotonic()
    path = write_survey(many, tmp_path / "site.gpkg")
    assert layer(path, "stations").featureCount() == 100_000
    assert time.monotonic() - start < 20.0, "two cores of 2020 take about 4 s"


def test_nothing_holds_the_finished_file(written):
    with closing(sqlite3.connect(written, timeout=0)) as connection:
        connection.execute("BEGIN EXCLUSIVE")
        assert connection.in_transaction


def test_a_curve_of_one_edge_is_enough(tmp_path, qgis_app):
    run = curve((0, 0), (1, 0))
    length = LengthRow(Tags(feature="Stub"), (run,), metres(1.0), None, None, None)
    path = write_survey(made_survey(None, lengths=(length,)), tmp_path / "site.gpkg")
    assert next(layer(path, "lengths").getFeatures()).geometry().constGet().length() == 1.0


def surface():
    points = np.array([(0, 0, 1.0), (10, 0, 2.0), (10, 10, 3.0), (0, 10, 2.0)], float)
    return SurfaceRow("Ground", "site.xml", points, np.array([(0, 1, 2), (0, 2, 3)]))


def test_a_surface_is_written_triangle_by_triangle_and_only_where_there_is_one(tmp_path):
    path = write_survey(replace(made_survey(), surfaces=(surface(),)), tmp_path / "s.gpkg")
    (row,) = layer(path, "surfaces").getFeatures()
    assert [row[name] for name in ("name", "file", "points", "triangles")] == ["Ground", "site.xml", 4, 2]
    geometry = row.geometry()
    parts = list(geometry.constParts())
    assert len(parts) == 2
    plane = made_survey().plane
    at = plane.to_crs(np.array([(10.0, 0.0)]))[0]
    corner = parts[0].exteriorRing().pointN(1)
    assert (corner.x(), corner.y(), corner.z()) == pytest.approx((at[0], at[1], 2.0), abs=1e-9)
    factor = made_survey().placement.grid_to_ground
    assert geometry.area() * factor**2 == pytest.approx(100.0, rel=1e-3)
    other = write_survey(made_survey(), tmp_path / "t.gpkg")
    with closing(sqlite3.connect(other)) as database:
        assert not database.execute("SELECT 1 FROM gpkg_contents WHERE table_name = 'surfaces'").fetchall()


def test_a_surface_lies_in_the_group_ground_of_the_project(tmp_path):
    from qgis.core import QgsProject

    from plugin.bridge.project import fill_project

    path = write_survey(replace(made_survey(), surfaces=(surface(),)), tmp_path / "s.gpkg")
    project = QgsProject()
    fill_project(project, path)
    ground = project.layerTreeRoot().findGroup("Ground")
    assert [node.name() for node in ground.findLayers()] == ["Surfaces"]
    assert ground.findLayers()[0].layer().renderer().rootRule().children()[0].label() == "Surface"
