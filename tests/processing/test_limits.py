# SPDX-License-Identifier: GPL-2.0-or-later
"""Gradients, checks of limits and low points of layers: any CRS, what is refused, and how it is told."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from osgeo import gdal
from qgis.core import (
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProject,
    QgsVectorLayer,
)

from tests.processing.layers import memory_layer, rows_of, write_layer

GRID, WEB = 'LOCAL_CS["grid",UNIT["metre",1]]', "EPSG:3857"
UTM = "EPSG:32631"
X, Y = 500_000.0, 5_600_000.0
ON_GROUND = 1 / 0.9996
"""Ground length by grid length on the zone's central meridian."""
ROOT = Path(__file__).parents[2]
LIMITS = "limit,applies_to,quantity,at_most,at_least,unit,per,source,seen_or_memory,note\n"


class Said(QgsProcessingFeedback):
    """What a run warns of."""

    def __init__(self):
        super().__init__()
        self.warnings = []

    def pushWarning(self, text):
        self.warnings.append(text)


def run(provider, name, feedback=None, **given):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    given.setdefault("OUTPUT", "memory:")
    results, good = (
        provider.algorithm(name)
        .create()
        .run(given, context, feedback or QgsProcessingFeedback(), {}, catchExceptions=False)
    )
    assert good
    return {key: context.takeResultLayer(str(place)) or place for key, place in results.items()}


def text(kind, points):
    """A geometry with heights about a place on the central meridian; points in ground metres."""
    body = ", ".join(f"{X + x / ON_GROUND!r} {Y + y / ON_GROUND!r} {z!r}" for x, y, z in points)
    return f"{kind} Z(({body}))" if kind == "POLYGON" else f"{kind} Z({body})"


def parts_layer(rows, crs=UTM):
    """Lines with feature and part."""
    layer = QgsVectorLayer(f"LineStringZ?crs={crs}&field=feature:string&field=part:string", "lines", "memory")
    out = []
    for feature, part, points in rows:
        row = QgsFeature(layer.fields())
        row.setAttributes([feature, part])
        row.setGeometry(QgsGeometry.fromWkt(text("LINESTRING", points)))
        out.append(row)
    assert layer.dataProvider().addFeatures(out)[0]
    return layer


def drop_columns(survey):
    """A survey as an older version wrote it."""
    source = gdal.OpenEx(str(survey), gdal.OF_VECTOR | gdal.OF_UPDATE)
    layer = source.GetLayerByName("lengths")
    assert layer.DeleteField(layer.GetLayerDefn().GetFieldIndex("point_errors")) == 0


def table(folder, *rows):
    path = folder / "limits.csv"
    path.write_text(LIMITS + "\n".join(rows) + "\n", encoding="utf-8")
    return str(path)


PATIO = [(0, 0, 10.0), (8, 0, 10.0), (8, 4, 9.95), (0, 4, 9.95), (0, 0, 10.0)]
"""1:80 to the north."""


# --- gradients ---


def test_an_area_falls_as_its_own_heights_say_in_ground_metres(provider):
    layer = memory_layer("PolygonZ", UTM, [text("POLYGON", PATIO)])
    (row,) = rows_of(run(provider, "measure_gradients", INPUT=layer, DIRECTION=90, SIGMA=0.002)["OUTPUT"])
    # The plane lies at the area's mean height, 10 m, where lengths are 1.6 parts in a million longer.
    true = 1 / 80 / (1 + 9.975 / 6.3825e6)
    assert row["fall_ratio"] == pytest.approx(true, rel=1e-8)
    assert row["fall_percent"] == pytest.approx(100 * true, rel=1e-8)
    assert row["fall_deg"] == pytest.approx(math.degrees(math.atan(true)), rel=1e-8)
    assert row["fall_one_in"] == pytest.approx(1 / true, rel=1e-8)
    assert row["fall_bearing_deg"] == pytest.approx(0.0, abs=1e-6) or row[
        "fall_bearing_deg"
    ] == pytest.approx(360)
    assert row["fall_ratio_sigma"] == pytest.approx(0.002 / 4, rel=0.01)
    # Going east the right is south, which is higher: it falls to the left.
    assert row["cross_ratio"] == pytest.approx(-true, rel=1e-8)
    assert row["along_ratio"] == pytest.approx(0.0, abs=1e-9)
    assert (row["flattest_ratio"], row["steepest_ratio"]) == pytest.approx((0.0, true), abs=1e-8)
    assert (row["sigma_from"], row["finding"]) == ("assumed", None)
    assert row["method"] == (
        "least-squares plane of the outline's points, extremes of its sides, along 90 degrees"
    )


@pytest.mark.parametrize("crs", [WEB, "EPSG:4326", "EPSG:25831"])
def test_the_layers_crs_changes_no_fall(crs, provider):
    from tests.processing.test_take_off import in_crs

    layer = memory_layer("PolygonZ", crs, [])
    feature = QgsFeature(layer.fields())
    feature.setGeometry(QgsGeometry.fromWkt(in_crs(text("POLYGON", PATIO), crs)))
    layer.dataProvider().addFeatures([feature])
    (row,) = rows_of(run(provider, "measure_gradients", INPUT=layer)["OUTPUT"])
    assert row["fall_ratio"] == pytest.approx(1 / 80, rel=1e-5)


def test_a_line_goes_from_its_start_to_its_end(provider):
    layer = memory_layer("LineStringZ", UTM, [text("LINESTRING", [(0, 0, 1.0), (6, 0, 1.6), (10, 0, 1.5)])])
    (row,) = rows_of(run(provider, "measure_gradients", INPUT=layer)["OUTPUT"])
    assert row["along_ratio"] == pytest.approx(0.05, rel=1e-6)
    assert row["fall_ratio"] == pytest.approx(0.05, rel=1e-6)
    assert row["fall_bearing_deg"] == pytest.approx(270.0, abs=1e-6)
    assert (row["flattest_ratio"], row["steepest_ratio"]) == pytest.approx((0.025, 0.1), rel=1e-6)
    assert (row["cross_ratio"], row["rms_m"], row["fall_bearing_deg_sigma"]) == (None, None, None)


ROOF = [
    "POLYGON Z((0 0 0,10 0 1,10 10 1,0 0 0))",
    "POLYGON Z((0 0 0,10 10 1,0 10 0,0 0 0))",
]
"""1:10 up to the east."""


def surface_layer(folder, texts, name="ground"):
    path = write_layer(folder / f"{name}.gpkg", texts, GRID)
    layer = QgsVectorLayer(str(path), name, "ogr")
    layer.dataProvider().deleteAttributes([layer.fields().lookupField("name")])
    return str(path)


def test_over_a_surface_areas_and_lines_take_its_heights(provider, tmp_path):
    surface = surface_layer(tmp_path, ROOF)
    areas = memory_layer(
        "Polygon",
        "",
        [
            "POLYGON((1 1,9 1,9 9,1 9,1 1),(4 4,5 4,5 5,4 5,4 4))",
            "POLYGON((8 8,12 8,12 9,8 8))",
            "POLYGON((20 20,21 20,21 21,20 20))",
        ],
    )
    areas.setCrs(QgsVectorLayer(surface, "s", "ogr").crs())
    said = Said()
    told = run(provider, "measure_gradients", said, INPUT=areas, SURFACE=surface, DIRECTION=0)
    rows = rows_of(told["OUTPUT"])
    assert rows[0]["fall_ratio"] == pytest.approx(0.1, rel=1e-9)
    assert rows[0]["fall_bearing_deg"] == pytest.approx(270.0)
    # Going north the left is west, which is lower: it falls to the left.
    assert rows[0]["cross_ratio"] == pytest.approx(-0.1, rel=1e-9)
    # A triangle of 2 m2, of which half a square metre lies west of x = 10.
    assert rows[1]["finding"] == "1.50 m2 of it do not lie on the surface and are left out."
    assert rows[2]["finding"] == (
        "GE-07: No ground of the outline lies on the surface. Move it, or extend the surface."
    )
    assert (told["MEASURED"], told["REFUSED"]) == (2, 1)
    assert "TOTAL" not in told  # falls do not add up
    assert "Rows measured: 2." in said.textLog().split("\n")
    lines = memory_layer("LineString", "", ["LINESTRING(1 5,9 5)", "LINESTRING(1 5,19 5)"])
    lines.setCrs(areas.crs())
    rows = rows_of(run(provider, "measure_gradients", INPUT=lines, SURFACE=surface)["OUTPUT"])
    assert rows[0]["along_ratio"] == pytest.approx(0.1, rel=1e-9)
    assert rows[1]["finding"] == "GE-07: The line leaves the surface. Shorten it, or extend the surface."


def test_rows_that_tell_no_gradient_come_back_with_the_reason(provider):
    layer = memory_layer(
        "Polygon", UTM, ["POLYGON((500000 5600000,500001 5600000,500001 5600001,500000 5600000))", None]
    )
    rows = rows_of(run(provider, "measure_gradients", INPUT=layer)["OUTPUT"])
    assert [row["finding"] for row in rows] == [
        "GE-07: The outline has no heights. Give its points some, or choose a surface.",
        "GE-07: There is no geometry. Draw it, or delete the row.",
    ]
    with pytest.raises(QgsProcessingException, match="The layer holds neither areas nor lines"):
        run(provider, "measure_gradients", INPUT=memory_layer("Point", UTM, ["POINT(1 2)"]))


# --- limits ---

RAMP = [
    ("R1", "left", [(0, 1.2, 0.0), (5, 1.2, 0.4)]),
    ("R1", "right", [(5, 0, 0.4), (0, 0, 0.0)]),
    ("R2", "", [(0, 9, 0.0), (3, 9, 0.3), (4.5, 9, 0.3), (7.5, 9, 0.55)]),
    ("R3", "left", [(0, 20, 0.0), (5, 20, 0.4)]),
    ("R3", "left", [(0, 21, 0.0), (5, 21, 0.4)]),
]


def test_ramps_are_held_against_a_table_of_ones_own(provider, tmp_path):
    limits = table(
        tmp_path,
        "Slope,ramp,gradient,12,,1:n,,my code,seen,mine",
        "Wide,ramp,width,,1,m,,my code,memory,",
        "Rest,landing,length,,1.5,m,,my code,seen,",
    )
    told = run(
        provider, "check_limits", RAMPS=parts_layer(RAMP), LIMITS=limits, SIGMA=0.001, PLAN_SIGMA=0.001
    )
    rows = rows_of(told["OUTPUT"])
    assert [(r["feature"], r["applies_to"], r["quantity"], r["outcome"]) for r in rows[:4]] == [
        ("R1", "ramp", "gradient", "pass"),
        ("R1", "ramp", "width", "pass"),
        ("R2", "ramp", "gradient", "fail"),
        ("R2", "landing", "length", "cannot tell"),
    ]
    assert (rows[2]["place"], rows[2]["count"]) == ("flight 1", 2)
    assert rows[2]["figure_ratio"] == pytest.approx(0.1, rel=1e-6)
    assert rows[2]["figure_m"] is None
    assert rows[2]["at_most_ratio"] == pytest.approx(1 / 12)
    assert rows[2]["measured"].startswith("1:10.0 (1:9.9 to 1:10.1)")
    assert rows[2]["allowed"] == "1:12 or flatter"
    assert (rows[2]["source"], rows[2]["seen_or_memory"], rows[2]["note"]) == ("my code", "seen", "mine")
    assert rows[2]["finding"] == (
        "RS-01: It is outside the limit beyond what it is worth. Change it, or choose the limit that holds."
    )
    assert rows[3]["finding"] == (
        "RS-01: Cannot tell: the 95 % interval lies on both sides. Measure it better."
    )
    assert rows[1]["figure_m"] == pytest.approx(1.2, rel=1e-6)
    assert {row["finding"] for row in rows[4:]} == {
        "GE-07: Two rows are the left of R3. Give each thing a name of its own, or join the rows."
    }
    assert (told["PASSED"], told["FAILED"], told["OPEN"]) == (2, 1, 1)


STAIR = [("S1", "", [(0, 0, 0.0), (1, 0, 0.0), (1, 0, 0.16), (1.3, 0, 0.16), (1.3, 0, 0.34), (1.6, 0, 0.34)])]
WALLS = [
    ("W1", "foot", [(0, 0, 5.0), (15, 0, 5.0)]),
    ("W1", "top", [(0, 0, 6.0), (15, 0, 6.3)]),
    ("W2", "top", [(0, 5, 6.0), (15, 5, 6.0)]),
]


def test_steps_walls_paths_and_falls_are_held_against_the_examples(provider):
    said = Said()
    told = run(
        provider,
        "check_limits",
        said,
        STEPS=parts_layer(STAIR),
        WALLS=parts_layer(WALLS),
        PATHS=parts_layer([("P1", "", [(0, 0, 0.0), (20, 0, 0.9)])]),
        FALLS=memory_layer("PolygonZ", UTM, [text("POLYGON", PATIO)]),
        SIGMA=0.001,
        PLAN_SIGMA=0.001,
    )
    rows = {(r["feature"], r["limit"]): r for r in rows_of(told["OUTPUT"])}
    assert rows["S1", "Even risers"]["figure_m"] == pytest.approx(0.02, rel=1e-6)
    assert rows["S1", "Even risers"]["outcome"] == "fail"
    assert rows["S1", "AD K riser"]["place"] == "riser 2"
    assert rows["S1", "Practice step length"]["measured"] == "660 mm (654 to 666)"
    assert rows["S1", "Practice step length"]["outcome"] == "pass"
    assert rows["P1", "Active travel gradient"]["outcome"] == "pass"
    assert rows["W1", "Designed wall"]["figure_m"] == pytest.approx(1.3, rel=1e-6)
    assert rows["W1", "Designed wall"]["finding"] == (
        "RW-01: The retained height may pass the limit. Have it designed; enter the name."
    )
    assert rows["W2", None]["finding"] == (
        "GE-07: The wall has no second edge. Walk its foot and its top, as parts foot and top of one feature."
    )
    assert rows["row 0", "Practice paving"]["outcome"] == "cannot tell"
    assert rows["row 0", "Practice lawn"]["finding"].startswith("DR-01: The fall is outside the limit")
    assert said.warnings == [
        "The limits are the examples shipped. Give a table of the limits that hold where you build."
    ]


def test_only_some_limits_may_be_chosen(provider):
    told = run(provider, "check_limits", RAMPS=parts_layer(RAMP[:2]), ONLY="AD M Table 1, ADA 405.6")
    assert {row["limit"] for row in rows_of(told["OUTPUT"])} == {
        "AD M Table 1",
        "AD M Table 1 going",
        "ADA 405.6 rise",
    }


def test_an_area_is_held_against_the_limits_of_its_item(provider, tmp_path):
    """A lawn's fall is asked of turf and of what says nothing, and not of paving."""
    layer = QgsVectorLayer(f"PolygonZ?crs={UTM}&field=name:string&field=item:string", "areas", "memory")
    rows = []
    for name, item in (("Court", "PAV-01"), ("Lawn", "TRF-01"), ("Yard", None)):
        row = QgsFeature(layer.fields())
        row.setAttributes([name, item])
        row.setGeometry(QgsGeometry.fromWkt(text("POLYGON", PATIO)))
        rows.append(row)
    assert layer.dataProvider().addFeatures(rows)[0]
    path = tmp_path / "limits.csv"
    head = "limit,applies_to,quantity,at_least,unit,items\n"
    path.write_text(
        head + "Paving,fall,gradient,100,1:n,PAV-*\nLawn,fall,gradient,50,1:n,trf-* sed-*\n", encoding="utf-8"
    )
    out = run(provider, "check_limits", FALLS=layer, LIMITS=str(path), SIGMA=0.002)["OUTPUT"]
    told = [(row["feature"], row["limit"], row["outcome"]) for row in rows_of(out)]
    assert told == [
        ("Court", "Paving", "pass"),
        ("Lawn", "Lawn", "fail"),
        ("Yard", "Paving", "pass"),
        ("Yard", "Lawn", "fail"),
    ]


def test_areas_over_a_surface_are_checked_with_their_extremes(provider, tmp_path):
    surface = surface_layer(tmp_path, ROOF)
    areas = memory_layer("Polygon", "", ["POLYGON((1 1,9 1,9 9,1 9,1 1))"])
    areas.setCrs(QgsVectorLayer(surface, "s", "ogr").crs())
    limits = table(
        tmp_path,
        "A,fall,steepest,20,,%,,x,seen,",
        "B,fall,flattest,,12,%,,x,seen,",
        "C,fall,crossfall,5,,%,,x,seen,",
    )
    told = run(provider, "check_limits", FALLS=areas, SURFACE=surface, LIMITS=limits, DIRECTION=0, SIGMA=0.01)
    assert [(r["limit"], r["outcome"]) for r in rows_of(told["OUTPUT"])] == [
        ("A", "pass"),
        ("B", "fail"),
        ("C", "fail"),
    ]


def test_a_table_with_faults_is_told_and_the_rest_counts(provider, tmp_path):
    said = Said()
    limits = table(tmp_path, "A,path,gradient,5,,%,,x,seen,", "B,path,gradient,,,%,,x,seen,")
    run(provider, "check_limits", said, PATHS=parts_layer([RAMP[2]]), LIMITS=limits)
    assert said.warnings == [
        (
            "IN-01: limits.csv, line 3: the limit has neither at_most nor at_least. Give one of them, or both; the rest of the "
            "file was read."
        )
    ]


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({}, "Nothing is given to check: choose a survey or a layer."),
        ({"LIMITS": "nowhere.csv", "PATHS": RAMP[2:3]}, "nowhere.csv cannot be read"),
        ({"ONLY": "nothing", "PATHS": RAMP[2:3]}, 'No limit\'s name begins with "nothing".'),
        ({"SURVEY": "nowhere.gpkg"}, "nowhere.gpkg"),
    ],
)
def test_what_cannot_be_checked_is_refused(given, words, provider):
    given = {key: parts_layer(value) if key == "PATHS" else value for key, value in given.items()}
    with pytest.raises(QgsProcessingException) as told:
        run(provider, "check_limits", **given)
    assert words in str(told.value)


def test_a_surveys_own_things_are_told_apart_and_bring_their_sigma(provider, tmp_path):
    """A log with a ramp of two edges, a wall, steps, a path and a court."""
    rows = [
        "walk,station,x,y,z,time,hold_s,feature,part,geometry,leg,mark",
        "W1,a,0,-5,10,0,5,,,,,A",
        "W1,b,30,-5,10,40,5,,,,,B",
    ]
    things = [
        ("Ramp", "left", "length", [(0, 1.2, 10.0), (5, 1.2, 10.3)]),
        ("Ramp", "right", "length", [(0, 0, 10.0), (5, 0, 10.3)]),
        ("Wall", "foot", "length", [(0, 10, 10.0), (8, 10, 10.0)]),
        ("Wall", "top", "length", [(0, 10.3, 11.0), (8, 10.3, 11.5)]),
        (
            "Stair",
            "",
            "length",
            [(0, 15, 10.0), (1, 15, 10.0), (1, 15, 10.17), (1.3, 15, 10.17), (1.3, 15, 10.34)],
        ),
        ("Path", "", "length", [(0, 20, 10.0), (20, 20, 10.5)]),
        ("Court", "", "area", [(0, 30, 10.0), (10, 30, 10.0), (10, 40, 10.2), (0, 40, 10.2)]),
    ]
    time, station = 60, 0
    for feature, part, kind, points in things:
        for x, y, z in points:
            station, time = station + 1, time + 20
            rows.append(f"W1,{station},{x},{y},{z},{time},5,{feature},{part},{kind},,")
    rows.append(f"W1,c,0,-5,10,{time + 20},5,,,,,A")
    log = tmp_path / "w1.csv"
    log.write_text("# units: m\n# accuracy: 0.01 m\n" + "\n".join(rows) + "\n", encoding="utf-8")
    survey = str(tmp_path / "survey.gpkg")
    run(provider, "survey_walks", LOGS=[str(log)], OUTPUT=survey)
    told = rows_of(run(provider, "check_limits", SURVEY=survey)["OUTPUT"])
    found = {(row["feature"], row["applies_to"]) for row in told}
    assert found == {
        ("Ramp", "ramp"),
        ("Wall", "wall"),
        ("Stair", "steps"),
        ("Path", "path"),
        ("Court", "fall"),
    }
    by = {(row["feature"], row["limit"]): row for row in told}
    assert by["Ramp", "ADA 405.5 clear width"]["figure_m"] == pytest.approx(1.2, abs=1e-6)
    assert by["Court", "Practice lawn"]["figure_ratio"] == pytest.approx(0.02, rel=1e-6)
    assert by["Stair", "AD K riser"]["figure_m"] == pytest.approx(0.17, abs=1e-6)
    assert by["Wall", "Designed wall"]["figure_m"] == pytest.approx(1.5, abs=1e-6)
    assert {row["sigma_from"] for row in told} == {"accuracy"}
    areas = QgsVectorLayer(f"{survey}|layername=areas", "areas", "ogr")
    (court,) = rows_of(areas)
    assert by["Court", "Practice lawn"]["figure_ratio_sigma"] == pytest.approx(
        court["fall_ratio_sigma"], rel=1e-12
    )
    (fall,) = rows_of(run(provider, "measure_gradients", INPUT=areas)["OUTPUT"])
    assert fall["fall_ratio_2"] == court["fall_ratio"]
    assert fall["fall_ratio_sigma_2"] == court["fall_ratio_sigma"]
    assert fall["sigma_from_2"] == "accuracy"
    # A riser is as certain as its own leg, and a ramp's gradient as that of its edges, which drift together.
    legs = rows_of(QgsVectorLayer(f"{survey}|layername=legs", "legs", "ogr"))
    (riser,) = [
        r for r in legs if (r["feature"], r["from_station"], r["to_station"]) == ("Stair", "10", "11")
    ]
    assert riser["rise_m"] == pytest.approx(0.17, abs=1e-6)
    assert by["Stair", "AD K riser"]["figure_m_sigma"] == pytest.approx(riser["rise_m_sigma"], rel=1e-3)
    lengths = rows_of(QgsVectorLayer(f"{survey}|layername=lengths", "l", "ogr"))
    least = max(r["gradient_ratio_sigma"] for r in lengths if r["feature"] == "Ramp")
    assert 0.5 * least < by["Ramp", "ADA 405.2 running slope"]["figure_ratio_sigma"] <= least
    (path,) = [r for r in lengths if r["feature"] == "Path"]
    way = next(row for row in told if row["feature"] == "Path" and row["quantity"] == "gradient")
    assert way["figure_ratio"] == pytest.approx(path["gradient_ratio"], rel=1e-6)
    assert way["figure_ratio_sigma"] == pytest.approx(path["gradient_ratio_sigma"], rel=1e-3)
    assert not any("on the whole" in row["method"] for row in told)


def surveyed(provider, folder, things):
    """A survey of things: feature, part, kind, item, which area it is a hole of, and points."""
    rows = [
        "walk,station,x,y,z,time,hold_s,feature,part,geometry,mark,item,hole_in",
        "W1,a,0,-5,10,0,5,,,,A,,",
        "W1,b,30,-5,10,40,5,,,,B,,",
    ]
    time, station = 60, 0
    for feature, part, kind, item, hole_in, points in things:
        for x, y, z in points:
            station, time = station + 1, time + 20
            rows.append(f"W1,{station},{x},{y},{z},{time},5,{feature},{part},{kind},,{item},{hole_in}")
    rows.append(f"W1,c,0,-5,10,{time + 20},5,,,,A,,")
    log = folder / "w1.csv"
    log.write_text("# units: m\n# accuracy: 0.001 m\n" + "\n".join(rows) + "\n", encoding="utf-8")
    survey = str(folder / "survey.gpkg")
    run(provider, "survey_walks", LOGS=[str(log)], OUTPUT=survey)
    return survey


class Told(Said):
    """What a run says, too."""

    def __init__(self):
        super().__init__()
        self.infos = []

    def pushInfo(self, text):
        self.infos.append(text)


def plane_box(x, y, long, wide, along, across=0.0):
    """Corners of a box on a plane at 10 m that rises along its length and to its left."""
    corners = [(x, y), (x + long, y), (x + long, y + wide), (x, y + wide)]
    return [(a, b, 10.0 + along * (a - x) + across * (b - y)) for a, b in corners]


def test_of_a_survey_what_is_no_thing_of_the_table_has_no_row(provider, tmp_path):
    """A hole, a kerb and a bank; a court and a wall are asked."""
    survey = surveyed(
        provider,
        tmp_path,
        [
            ("Court", "", "area", "PAV-01", "", plane_box(0, 0, 10, 8, 1 / 70)),
            ("Opening", "", "area", "", "Court", plane_box(3, 3, 2, 2, 0.0)),
            ("Kerb", "", "length", "KRB-01", "", [(0, 20, 10.0), (9, 20, 10.2)]),
            ("Bank", "foot", "length", "SED-01", "", [(0, 30, 10.0), (9, 30, 10.0)]),
            ("Bank", "top", "length", "SED-01", "", [(0, 32, 12.0), (9, 32, 12.0)]),
            ("Wall", "foot", "length", "WAL-01", "", [(0, 40, 10.0), (9, 40, 10.0)]),
            ("Wall", "top", "length", "WAL-01", "", [(0, 40.2, 12.0), (9, 40.2, 12.0)]),
        ],
    )
    said = Told()
    rows = rows_of(run(provider, "check_limits", said, SURVEY=survey)["OUTPUT"])
    assert [(row["feature"], row["limit"]) for row in rows] == [
        ("Court", "BS 7533 fall"),
        ("Court", "Practice paving"),
        ("Wall", "Designed wall"),
    ]
    assert said.infos[-1] == ("Lengths of the survey that no limit of the table is of: 2. They have no row.")
    # A table that is of paths without an item is asked of the kerb too.
    said = Told()
    limits = table(tmp_path, "Slope,path,gradient,5,,%,,my code,seen,")
    rows = rows_of(run(provider, "check_limits", said, SURVEY=survey, LIMITS=limits)["OUTPUT"])
    assert [(row["feature"], row["limit"]) for row in rows] == [("Court", None), ("Kerb", "Slope")]
    assert rows[0]["finding"] == "No limit of the table is of it."
    assert said.infos[-1] == ("Lengths of the survey that no limit of the table is of: 2. They have no row.")


def test_a_ramp_walked_as_an_area_of_four_corners_is_a_ramp_along_the_sides_that_rise(provider, tmp_path):
    """9 m at 6.6 %, 1.5 m wide, 1 % across; one wider than long; a flat one; one of five corners; and what is none."""
    five = [*plane_box(0, 60, 9, 1.5, 0.07)[:3], (4, 61.5, 10.28), (0, 61.5, 10.0)]
    survey = surveyed(
        provider,
        tmp_path,
        [
            ("Ramp", "", "area", "CON-01", "", plane_box(0, 0, 9, 1.5, 0.066, 0.01)),
            ("Wide ramp", "", "area", "", "", plane_box(0, 20, 2, 3, -0.08)),
            ("Flat ramp", "", "area", "PAV-01", "", plane_box(0, 40, 9, 1.5, 1 / 60)),
            ("Ramp E", "", "area", "", "", five),
            ("Trampoline", "", "area", "", "", plane_box(0, 80, 4, 3, 0.07)),
        ],
    )
    limits = table(
        tmp_path,
        "Slope,ramp,gradient,12,,1:n,,my code,seen,",
        "Wide,ramp,width,,1,m,,my code,seen,",
        "Cross,ramp,crossfall,2,,%,,my code,seen,",
        "Drains,fall,gradient,,100,1:n,,my code,seen,",
    )
    rows = rows_of(run(provider, "check_limits", SURVEY=survey, LIMITS=limits)["OUTPUT"])
    assert [(row["feature"], row["applies_to"], row["limit"]) for row in rows] == [
        *(("Ramp", "ramp", limit) for limit in ("Slope", "Cross", "Wide")),
        *(("Wide ramp", "ramp", limit) for limit in ("Slope", "Cross", "Wide")),
        ("Flat ramp", "fall", "Drains"),
        ("Ramp E", "ramp", None),
        ("Trampoline", "fall", "Drains"),
    ]
    assert {row["outcome"] for row in rows if row["limit"] == "Wide"} == {"pass"}
    figures = {(row["feature"], row["limit"]): row["figure_ratio"] or row["figure_m"] for row in rows}
    assert figures["Ramp", "Slope"] == pytest.approx(0.066, rel=1e-6)
    # Up the ramp the left, which is its inside of the outline's way round, is higher: it falls to the right.
    assert figures["Ramp", "Cross"] == pytest.approx(0.01, rel=1e-5)
    assert figures["Ramp", "Wide"] == pytest.approx(1.5, rel=1e-6)
    assert abs(figures["Wide ramp", "Slope"]) == pytest.approx(0.08, rel=1e-6)
    assert figures["Wide ramp", "Wide"] == pytest.approx(3.0, rel=1e-6)
    assert rows[0]["method"].startswith("area of four corners, middle of two edges, ")
    assert rows[0]["sigma_from"] == "accuracy"
    # Of a box that is level across, the least-squares plane's fall is half the sum of the gradients of both long sides.
    areas = rows_of(QgsVectorLayer(f"{survey}|layername=areas", "areas", "ogr"))
    (wide,) = [row for row in areas if row["feature"] == "Wide ramp"]
    (slope,) = [row for row in rows if (row["feature"], row["limit"]) == ("Wide ramp", "Slope")]
    assert slope["figure_ratio_sigma"] == pytest.approx(wide["fall_ratio_sigma"], rel=0.02)
    assert rows[-2]["finding"] == (
        "GE-07: A ramp walked as an area is not checked here: give its middle line under Ramps, with a surface."
    )


def test_a_survey_of_an_older_version_tells_what_its_legs_are_worth(provider, tmp_path):
    rows = [
        "walk,station,x,y,z,time,hold_s,feature,part,geometry,leg,mark",
        "W1,a,0,-5,10,0,5,,,,,A",
        "W1,b,30,-5,10,40,5,,,,,B",
        *(
            f"W1,{k + 1},{x},15,{z},{60 + 20 * k},5,Stair,,length,,"
            for k, (x, z) in enumerate([(0, 10.0), (1, 10.0), (1, 10.17), (1.3, 10.17), (1.3, 10.34)])
        ),
        "W1,c,0,-5,10,200,5,,,,,A",
    ]
    log = tmp_path / "w1.csv"
    log.write_text("# units: m\n# accuracy: 0.01 m\n" + "\n".join(rows) + "\n", encoding="utf-8")
    survey = tmp_path / "survey.gpkg"
    run(provider, "survey_walks", LOGS=[str(log)], OUTPUT=str(survey))
    drop_columns(survey)
    told = rows_of(run(provider, "check_limits", SURVEY=str(survey))["OUTPUT"])
    (riser,) = [row for row in told if row["limit"] == "AD K riser" and row["place"] == "riser 1"]
    legs = rows_of(QgsVectorLayer(f"{survey}|layername=legs", "legs", "ogr"))
    own = [r["rise_m_sigma"] for r in legs if r["feature"] == "Stair" and r["rise_m_sigma"] is not None]
    (stair,) = rows_of(QgsVectorLayer(f"{survey}|layername=lengths", "l", "ogr"))
    rms = math.sqrt(sum(v * v for v in own) / len(own))
    assert riser["figure_m_sigma"] == pytest.approx(max(rms, stair["rise_m_sigma"]), rel=1e-9)
    assert riser["method"].endswith(", points as the survey's legs and stations are worth on the whole")


# --- low points ---

PIT = [
    f"POLYGON Z((2 2 8,{a},{b},2 2 8))"
    for a, b in (("0 0 9", "4 0 8.5"), ("4 0 8.5", "4 4 9"), ("4 4 9", "0 4 9"), ("0 4 9", "0 0 9"))
]


def test_a_pond_has_its_level_depth_area_and_volume(provider, tmp_path):
    surface = surface_layer(tmp_path, PIT)
    told = run(provider, "find_low_points", SURFACE=surface, SIGMA=0.01, SPILLS="memory:", WAYS="memory:")
    (pond,) = rows_of(told["OUTPUT"])
    assert (pond["level_m"], pond["depth_m"], pond["lowest_m"]) == (8.5, 0.5, 8.0)
    assert pond["area_m2"] == pytest.approx(6.0, rel=1e-9)
    assert pond["volume_m3"] == pytest.approx(1.0, rel=1e-9)
    assert pond["depth_m_sigma"] == pytest.approx(0.01 * math.sqrt(2))
    assert (pond["outcome"], pond["runs_into"], pond["sigma_from"]) == ("pond", "rim", "assumed")
    assert (
        pond["finding"] == "DR-01: Water stands here. Raise the ground, add a drain, or accept it as a pond."
    )
    (outline,) = told["OUTPUT"].getFeatures()
    assert outline.geometry().area() == pytest.approx(6.0, rel=1e-6)
    (spill,) = told["SPILLS"].getFeatures()
    at = spill.geometry().constGet()
    assert (at.x(), at.y(), at.z()) == (4.0, 0.0, 8.5)
    assert rows_of(told["WAYS"]) == []
    assert (told["PONDS"], told["VOLUME"]) == (1, pytest.approx(1.0))


def test_a_depth_within_its_sigma_cannot_be_told_and_a_shallow_pond_is_left_out(provider, tmp_path):
    surface = surface_layer(tmp_path, PIT)
    (pond,) = rows_of(run(provider, "find_low_points", SURFACE=surface, SIGMA=0.2)["OUTPUT"])
    assert pond["outcome"] == "cannot tell"
    assert pond["chance_ratio"] == pytest.approx(0.9614, abs=1e-3)
    assert rows_of(run(provider, "find_low_points", SURFACE=surface, LEAST=0.6)["OUTPUT"]) == []


def test_a_layer_of_other_things_is_no_surface(provider):
    with pytest.raises(QgsProcessingException, match="this is no triangle"):
        run(provider, "find_low_points", SURFACE=memory_layer("PolygonZ", UTM, [text("POLYGON", PATIO)]))
