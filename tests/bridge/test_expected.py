# SPDX-License-Identifier: GPL-2.0-or-later
"""A forecast as it is looked at: figures as they are read, their order, and ellipses in true metres in any CRS."""

from __future__ import annotations

import pyproj
import pytest
from qgis.core import QgsCoordinateReferenceSystem, QgsPointXY

from plugin.bridge.ellipses import draw_ellipses
from plugin.bridge.expected import ExpectedStation, Forecast, with_95
from plugin.bridge.geopackage import LOCAL_WKT
from plugin.bridge.instruments import instrument_names
from plugin.bridge.plan_layers import PlannedMark as Mark
from plugin.bridge.plan_layers import add_mark, free_mark, free_name, new_lines, new_marks, plan_columns
from plugin.bridge.plan_run import PlannedInstrument, PlannedPicks, Worth, plan_parameters
from plugin.core.errors import BadInput


def station(name, at, major, minor, bearing, is_worst=False):
    return ExpectedStation("W1", name, "", "", QgsPointXY(*at), major, minor, bearing, is_worst)


def forecast(crs, *stations):
    return Forecast(crs, "assumed", True, (), stations, (), ())


@pytest.mark.parametrize(
    ("value", "half", "words"),
    [
        (154.0, 0.0443, "154.000 ±0.044 m²"),
        (154.0, 12.34, "154 ±12 m²"),
        (154.0, 0.96, "154.00 ±0.96 m²"),
        (154.0, 1.04, "154.0 ±1.0 m²"),
        (0.5, 1e-12, "0.500000 ±0.000000 m²"),
        (1e7, 4.5e5, "10000000 ±450000 m²"),
        (2.0, 0.0, "2.000 ±0.000 m²"),
        (None, 0.1, ""),
        (2.0, None, ""),
    ],
)
def test_a_figure_has_two_digits_of_its_95(value, half, words):
    assert with_95(value, half, "m²") == words


@pytest.mark.parametrize("crs", ["EPSG:32631", "EPSG:3857", "EPSG:4326", "EPSG:2193"])
def test_an_ellipse_has_its_axes_on_the_ground_in_any_crs(qgis_app, crs):
    """Against geodesics: the half axes along their bearings, in metres."""
    host = QgsCoordinateReferenceSystem(crs)
    theirs = pyproj.CRS.from_user_input(crs)
    to_map = pyproj.Transformer.from_crs("EPSG:4326", theirs, always_xy=True)
    lon, lat = (3.01, 50.5) if crs != "EPSG:2193" else (172.0, -43.0)
    geod = pyproj.Geod(ellps="WGS84")
    far = geod.fwd(lon, lat, 90.0, 120.0)[:2]
    places = [to_map.transform(lon, lat), to_map.transform(*far)]
    told = forecast(
        host, station("1", places[0], 2.0, 0.5, 30.0, is_worst=True), station("2", places[1], 0.1, 0.1, 0.0)
    )
    drawn = draw_ellipses(told)
    assert drawn.times == 5
    row = next(row for row in drawn.layer.getFeatures() if row["station"] == "1")
    back = pyproj.Transformer.from_crs(theirs, "EPSG:4326", always_xy=True)
    ring = [back.transform(v.x(), v.y()) for v in row.geometry().vertices()]
    told_far = [geod.inv(lon, lat, *point) for point in ring]
    lengths = [one[2] for one in told_far]
    assert max(lengths) == pytest.approx(5 * 2.0, rel=2e-4)
    assert min(lengths) == pytest.approx(5 * 0.5, rel=2e-4)
    # The bearing is from grid north; the grid's own north is true north turned by its convergence.
    true = told_far[lengths.index(max(lengths))][0] % 180.0
    convergence = (
        pyproj.Proj(theirs).get_factors(lon, lat).meridian_convergence if theirs.is_projected else 0.0
    )
    # PROJ counts the convergence from true north to grid north, clockwise.
    assert (true - convergence) % 180.0 == pytest.approx(30.0, abs=0.02)


def test_ellipses_of_a_local_grid_are_drawn_as_they_are(qgis_app):
    local = QgsCoordinateReferenceSystem.fromWkt(LOCAL_WKT)
    told = forecast(
        local,
        station("1", (1e7, 1e7), 1.5, 0.1, 90.0, is_worst=True),
        station("2", (1e7 + 4, 1e7), 0.0, 0.0, 0.0),
    )
    drawn = draw_ellipses(told)
    assert drawn.times == 1
    assert drawn.layer.name() == "Expected 95 % ellipses, at their size"
    box = next(drawn.layer.getFeatures()).geometry().boundingBox()
    assert (box.width(), box.height()) == pytest.approx((3.0, 0.2), abs=1e-6)


def test_ellipses_of_one_place_and_of_no_error_are_drawn(qgis_app):
    local = QgsCoordinateReferenceSystem.fromWkt(LOCAL_WKT)
    told = forecast(local, station("1", (0, 0), 0.0, 0.0, 0.0, is_worst=True))
    drawn = draw_ellipses(told)
    assert (drawn.times, drawn.layer.featureCount()) == (1, 1)


def test_of_a_large_plan_the_largest_ellipses_are_drawn(qgis_app):
    local = QgsCoordinateReferenceSystem.fromWkt(LOCAL_WKT)
    many = [station(str(k), (k % 50, k // 50), 0.001 * k, 0.0, 0.0, is_worst=k == 699) for k in range(700)]
    drawn = draw_ellipses(forecast(local, *many))
    assert drawn.left_out == 200
    assert min(row["major_m_95"] for row in drawn.layer.getFeatures()) == pytest.approx(0.2)


def test_free_names_go_on_where_letters_end():
    letters = {chr(65 + k) for k in range(26)}
    assert free_mark(set()) == "A"
    assert free_mark({"A", "C"}) == "B"
    assert free_mark(letters) == "A1"
    assert free_mark(letters | {"A1"}) == "B1"
    assert free_name("Area", {"Area 1", "Area 3"}) == "Area 2"


def test_new_layers_have_the_columns_that_plan_walk_reads(qgis_app):
    crs = QgsCoordinateReferenceSystem("EPSG:25831")
    lines, marks = new_lines(crs), new_marks(crs)
    assert plan_columns(lines, marks) == {
        "walk": "walk",
        "feature": "feature",
        "mark": "mark",
        "sigma_m": "sigma_m",
        "paired": "paired",
        "level": "level",
    }
    assert lines.crs() == marks.crs() == crs
    assert not new_lines(QgsCoordinateReferenceSystem()).crs().isGeographic()


def test_a_mark_where_the_layers_crs_has_no_place_is_refused(qgis_app):
    marks = new_marks(QgsCoordinateReferenceSystem("EPSG:32631"))
    columns = plan_columns(None, marks)
    with pytest.raises(BadInput) as refused:
        add_mark(
            marks, QgsPointXY(0, 1e9), QgsCoordinateReferenceSystem("EPSG:4326"), Mark("A", 0.1), columns
        )
    words = (
        "What was drawn lies outside what the CRS of the layer Planned marks can hold. Choose another layer."
    )
    assert str(refused.value) == words
    assert marks.featureCount() == 0


@pytest.mark.parametrize(
    ("instrument", "words"),
    [
        (
            PlannedInstrument(Worth.STATED),
            "No accuracy is stated. Write it like 0.5 % or 0.02 m + 0.3 %, or choose assumed.",
        ),
        (PlannedInstrument(Worth.FILE), "No file of instruments is named. Choose one, or choose assumed."),
    ],
)
def test_what_is_missing_of_the_instrument_is_told(qgis_app, instrument, words):
    lines = new_lines(QgsCoordinateReferenceSystem("EPSG:25831"))
    with pytest.raises(BadInput) as refused:
        plan_parameters(lines, None, plan_columns(lines, None), instrument, PlannedPicks(0.05, 0.0))
    assert str(refused.value) == words


def test_the_parameters_are_those_of_plan_walk(qgis_app):
    crs = QgsCoordinateReferenceSystem("EPSG:25831")
    lines, marks = new_lines(crs), new_marks(crs)
    told = plan_parameters(
        lines,
        marks,
        plan_columns(lines, marks),
        PlannedInstrument(Worth.STATED, "0.5 %", 1),
        PlannedPicks(0.07, 0.2),
    )
    rule = told.pop("SIGMA_PICK")
    assert rule.expressionString() == 'coalesce("sigma_m", 0.07)'
    assert told == {
        "INPUT": lines.id(),
        "COMMON_SIGMA": 0.2,
        "WALK": "walk",
        "FEATURE": "feature",
        "MARKS": marks.id(),
        "MARK": "mark",
        "PAIRED": "paired",
        "LEVELLED": "level",
        "ACCURACY": "0.5 %",
        "ACCURACY_KIND": 1,
        **dict.fromkeys(("STATIONS", "FEATURES", "HELP", "FINDINGS"), "memory:"),
    }


def test_the_instruments_of_a_file_are_named_in_its_order(tmp_path):
    path = tmp_path / "instruments.csv"
    path.write_text("instrument,leg_m,stand_m\nrod,0.001,0.001\nbox,0.01,0.01\n", encoding="utf-8")
    assert instrument_names(path) == ("rod", "box")
    with pytest.raises(BadInput) as refused:
        instrument_names(tmp_path / "gone.csv")
    assert (
        str(refused.value)
        == f"{tmp_path / 'gone.csv'} is not there. Check the name, or choose the file again."
    )
