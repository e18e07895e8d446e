# SPDX-License-Identifier: GPL-2.0-or-later
"""The working of figures as it is read from a survey and from measured layers, and told in words."""

from __future__ import annotations

import math
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from qgis.core import (
    QgsApplication,
    QgsFeature,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProject,
    QgsVectorLayer,
)

from plugin.bridge.geopackage import write_survey
from plugin.bridge.text import explain
from plugin.bridge.working import FIGURES, as_text, figures_of, read_working, survey_table
from plugin.bridge.working_layer import has_workings, layer_figures, read_layer_working
from plugin.core.errors import BadInput
from plugin.core.measure.chain import survey_files
from plugin.processing.provider import Provider
from tests.made_survey import made_survey
from tests.processing.layers import memory_layer

DEMO = Path(__file__).parents[2] / "resources" / "demo"
UTM = "EPSG:32631"
HEAD = "walk,station,x,y,z,feature,geometry,leg,mark"
COURT = f"""# units: m
# accuracy: 0.5 %
{HEAD}
W,1,0,0,10.00,Court,area,,
W,2,8,0,10.16,Court,area,,
W,3,8,6,10.16,Court,area,,
W,4,0,6,10.00,Court,area,,
W,5,20,0,10.00,Kerb,length,,
W,6,26,8,12.00,Kerb,length,,
W,7,20,20,10.00,Bow,area,,
W,8,30,30,10.00,Bow,area,,
W,9,30,20,10.00,Bow,area,,
W,10,20,30,10.00,Bow,area,,
"""
"""A court of 8 by 6 m that rises 1 in 50 to the east, a kerb of 10 m that rises 2 m, and an outline that crosses itself."""


def surveyed(path, texts):
    return write_survey(survey_files(texts), path)


@pytest.fixture(scope="module")
def made(tmp_path_factory, qgis_app):
    return surveyed(tmp_path_factory.mktemp("made") / "made.gpkg", {"w.csv": COURT.encode()})


@pytest.fixture(scope="module")
def surveyed_demo(tmp_path_factory, qgis_app):
    """A demo site's survey, made once."""
    folder, done = tmp_path_factory.mktemp("demo"), {}

    def of(site):
        if site not in done:
            texts = {path.name: path.read_bytes() for path in sorted((DEMO / site).glob("*.csv"))}
            done[site] = surveyed(folder / f"{site}.gpkg", texts)
        return done[site]

    return of


@pytest.fixture(params=["marlisk_yard", "sorrelback_lane"])
def demo(request, surveyed_demo):
    return surveyed_demo(request.param)


@pytest.fixture
def copy(made, tmp_path):
    return Path(shutil.copy(made, tmp_path / "copy.gpkg"))


def change(survey, table, row, column, value):
    """As a user does it: in the layer."""
    layer = QgsVectorLayer(f"{survey}|layername={table}", table, "ogr")
    assert layer.startEditing()
    assert layer.changeAttributeValue(row, layer.fields().lookupField(column), value)
    assert layer.commitChanges()


def count(survey, table):
    with closing(sqlite3.connect(survey)) as database:
        return database.execute(f"SELECT count(*) FROM {table}").fetchone()[0]


def test_an_area_is_told_edge_by_edge(made):
    working = read_working(made, "areas", 1, "area_m2")
    assert (working.name, working.title) == ("Court", "Area in plan: Court")
    assert working.lines == (
        "Area = sum over the edges of (x1·y2 - x2·y1) / 2; x, y in metres from the first corner, true to the ground.",
        "Outline 1:",
        "  1. (0.000, 0.000) - (8.000, 0.000): +0.000",
        "  2. (8.000, 0.000) - (8.000, 6.000): +24.000",
        "  3. (8.000, 6.000) - (0.000, 6.000): +24.000",
        "  4. (0.000, 6.000) - (0.000, 0.000): +0.000",
        "  together 48.000 m²",
    )
    assert working.explained == pytest.approx(48.0, abs=1e-9)
    assert [station.name for station in working.stations] == ["W:1", "W:2", "W:3", "W:4"]
    assert working.agrees
    assert not working.is_assumed


def test_a_figure_stands_with_its_95_percent(made):
    working = read_working(made, "areas", 1, "area_m2")
    assert working.figure == f"48.000 ± {1.959963985 * working.sigma:.3f} m² (95 %)"
    gradient = read_working(made, "lengths", 1, "gradient_ratio")
    assert gradient.figure.startswith("0.2000 ± ")
    assert gradient.figure.endswith(" (95 %), 1 in 5.0")
    assert gradient.lines[1] == "2.000 / 10.000 = 0.2000"


def test_the_other_formulas_have_their_numbers_in_them(made):
    assert read_working(made, "lengths", 1, "length_m").lines[1] == "  1. √(6.000² + 8.000²) = 10.000"
    assert read_working(made, "lengths", 1, "slope_length_m").lines[1] == "  1. √(10.000² + 2.000²) = 10.198"
    assert read_working(made, "lengths", 1, "rise_m").lines[1] == "12.000 - 10.000 = 2.000 m"
    assert read_working(made, "areas", 1, "sloped_area_m2").lines[1] == "48.000 · √(1 + 0.0200²) = 48.010 m²"
    assert read_working(made, "areas", 1, "fall_ratio").lines == (
        "The plane nearest in height to 4 places (least squares) rises +0.02000 a metre east and +0.00000 a metre north.",
        "Fall = √(0.02000² + 0.00000²) = 0.0200",
    )
    bearing = read_working(made, "areas", 1, "fall_bearing_deg")
    assert bearing.value == pytest.approx(270.0, abs=1e-6)
    assert bearing.explained == pytest.approx(270.0, abs=1e-6)


def test_the_parts_say_from_where_and_add_up(made):
    working = read_working(made, "areas", 1, "area_m2")
    assert {(part.group, part.words) for part in working.parts} <= {
        ("instrument", "scale"),
        ("instrument", "heading"),
        ("instrument", "from station to station"),
        ("instrument", "each station by itself"),
    }
    assert sum(part.share for part in working.parts) == pytest.approx(1.0, abs=1e-9)
    assert math.sqrt(sum(part.sigma**2 for part in working.parts)) == pytest.approx(working.sigma, rel=1e-6)
    assert [part.share for part in working.parts] == sorted((p.share for p in working.parts), reverse=True)
    assert "Placement: nothing, for a size is the same wherever it is placed." in working.notes
    assert "What the instrument is worth is taken from the accuracy that the log states." in working.notes


def test_a_default_accuracy_is_flagged(tmp_path, qgis_app):
    log = COURT.replace("# accuracy: 0.5 %\n", "")
    survey = surveyed(tmp_path / "assumed.gpkg", {"w.csv": log.encode()})
    working = read_working(survey, "areas", 1, "area_m2")
    assert working.is_assumed
    assert "ASSUMED: nothing states what the points are worth, so a default stands for it." in working.notes


def test_a_figure_that_a_stop_keeps_out_says_which(made):
    assert figures_of(made, "areas", 2) == (("area_m2", "Area in plan"),)
    working = read_working(made, "areas", 2, "area_m2")
    assert working.figure == "No figure: it is kept out by GE-01 until that is answered."
    assert (working.value, working.lines, working.parts) == (None, (), ())


def test_everything_of_the_demo_comes_to_what_is_stored(demo):
    seen = 0
    for table in FIGURES:
        for row in range(1, count(demo, table) + 1):
            for column, _ in figures_of(demo, table, row):
                working = read_working(demo, table, row, column)
                assert working.agrees, working.title
                if working.explained is not None:
                    assert working.explained == pytest.approx(working.value, rel=1e-9, abs=1e-12)
                if working.parts:
                    quadrature = math.sqrt(sum(part.sigma**2 for part in working.parts))
                    assert quadrature == pytest.approx(working.sigma, rel=1e-6)
                seen += 1
    assert seen > 250


def test_an_arc_is_told_by_radius_and_sweep(surveyed_demo):
    lines = read_working(surveyed_demo("marlisk_yard"), "areas", 1, "area_m2").lines
    arcs = [line for line in lines if "arc r" in line]
    assert len(arcs) == 6
    radius, sweep, segment = (
        float(arcs[3].split(start)[1].split(end)[0])
        for start, end in ((" r ", ","), ("θ ", "°"), ("°: ", "\n"))
    )
    theta = math.radians(sweep)
    assert segment == pytest.approx(0.5 * radius**2 * (theta - math.sin(theta)), abs=2e-3)
    hole = next(k for k, line in enumerate(lines) if line == "Hole 1:")
    assert lines[-1].startswith("255.02")
    assert hole > 6


def test_a_mark_is_told_with_its_residual(demo):
    working = read_working(demo, "marks", 1, "residual_m")
    dx, dy = (
        float(part) for part in working.lines[1].split("(")[1].split(")")[0].replace("²", "").split(" + ")
    )
    assert math.hypot(dx, dy) == pytest.approx(working.value, abs=1e-3)
    assert len(working.stations) == 1


def test_places_have_the_map_points_in_their_parts(demo):
    working = read_working(demo, "stations", 6, "sigma_major_m")
    groups = {part.group for part in working.parts}
    assert {"placement", "instrument"} <= groups
    assert working.figure == f"±{2.447746831 * working.value:.3f} m (95 %)"
    assert working.stations[0].map_xy is not None


def test_the_place_on_the_map_is_the_layers_own(demo):
    layer = QgsVectorLayer(f"{demo}|layername=stations", "stations", "ogr")
    geometry = layer.getFeature(5).geometry()
    point = geometry.constGet()
    place = read_working(demo, "stations", 5, "z_m").stations[0].map_xy
    assert place == (point.x(), point.y())


def test_as_text_holds_all_of_it(made):
    working = read_working(made, "lengths", 1, "length_m")
    assert as_text(working).split("\n\n")[0] == f"Length in plan: Kerb\n{working.figure}"
    assert "  1. √(6.000² + 8.000²) = 10.000" in as_text(working)
    assert "Uncertainty" not in as_text(working).split("\n\n")[1]
    for part in working.parts:
        assert f"  {part.group}: {part.words} {part.reach}, " in as_text(working)
    for station in working.stations:
        assert f"  {station.name} {station.x:.3f} {station.y:.3f}" in as_text(working)


def test_a_figure_that_was_changed_by_hand_is_told(copy):
    change(copy, "areas", 1, "area_m2", 50.0)
    working = read_working(copy, "areas", 1, "area_m2")
    assert not working.agrees
    assert working.figure.startswith("50.000 ± ")
    assert working.notes[-1] == (
        "The numbers above come to 48.000 m², not to the 50.000 m² that is stored: was the row changed after the survey "
        "was made?"
    )


def test_a_sigma_that_was_changed_by_hand_is_told(copy):
    sigma = read_working(copy, "lengths", 1, "length_m").sigma
    change(copy, "lengths", 1, "length_m_sigma", 1.0)
    working = read_working(copy, "lengths", 1, "length_m")
    assert not working.agrees
    assert working.notes[-1] == (
        f"The parts come to ±{sigma:.3f} m, not to the ±1.000 m that is stored (one sigma): was the row changed after "
        "the survey was made?"
    )


def test_a_row_that_was_drawn_by_hand_has_no_formula_and_says_so(copy):
    layer = QgsVectorLayer(f"{copy}|layername=areas", "areas", "ogr")
    drawn = QgsFeature(layer.getFeature(1))
    drawn.setAttribute("fid", 9)
    assert layer.startEditing()
    assert layer.addFeature(drawn)
    assert layer.commitChanges()
    with pytest.raises(BadInput) as caught:
        read_working(copy, "areas", 9, "area_m2")
    assert explain(caught.value) == (
        "copy.gpkg keeps no working of row 9 of areas: it was added after the survey was made. Measure the layer instead "
        "(Measure areas, Measure lengths)."
    )


def test_a_survey_of_an_older_version_is_refused(tmp_path, qgis_app):
    older = write_survey(made_survey(), tmp_path / "older.gpkg")
    with pytest.raises(BadInput) as caught:
        figures_of(older, "areas", 1)
    assert explain(caught.value) == "older.gpkg was written before workings were kept. Run the job again."
    layer = QgsVectorLayer(f"{older}|layername=areas", "areas", "ogr")
    assert survey_table(layer) is None


@pytest.mark.parametrize(
    ("table", "row", "column", "said"),
    [
        ("areas", 99, "area_m2", "made.gpkg: areas has no row 99. Choose it again."),
        (
            "areas",
            1,
            "walk",
            (
                "areas.walk is no figure that has a working. Choose one of: area_m2, perimeter_m, "
                "sloped_area_m2, fall_ratio, fall_bearing_deg."
            ),
        ),
        (
            "runs",
            1,
            "value",
            (
                "runs.value is no figure that has a working. Choose one of: "
                "areas, lengths, sides, legs, spots, stations, marks."
            ),
        ),
    ],
)
def test_what_is_not_there_is_refused(made, table, row, column, said):
    with pytest.raises(BadInput) as caught:
        read_working(made, table, row, column)
    assert explain(caught.value) == said


def test_a_file_that_is_no_survey_is_refused(tmp_path):
    broken = tmp_path / "broken.gpkg"
    broken.write_bytes(b"no database at all, but long enough to be looked at" * 40)
    with pytest.raises(
        BadInput, match=r"^broken\.gpkg cannot be read as a survey: .*\. Run the job again\.$"
    ):
        read_working(broken, "areas", 1, "area_m2")


def test_survey_layers_are_known_and_others_not(made, tmp_path):
    layer = QgsVectorLayer(f"{made}|layername=areas", "areas", "ogr")
    assert survey_table(layer) == (made, "areas")
    assert has_workings(layer)
    assert survey_table(QgsVectorLayer(f"{made}|layername=runs", "runs", "ogr")) is None
    bare = memory_layer("Polygon", UTM, ["POLYGON((0 0,1 0,1 1,0 0))"])
    assert not has_workings(bare)


@pytest.fixture(scope="module")
def provider(qgis_app, qgis_processing):
    ours = Provider()
    registry = QgsApplication.processingRegistry()
    assert registry.addProvider(ours)
    yield ours
    registry.removeProvider(ours)


def measured(provider, name, layer, **parameters):
    """The layer that measuring gives."""
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    algorithm = provider.algorithm(name).create()
    results, good = algorithm.run(
        {"INPUT": layer, "OUTPUT": "memory:", **parameters},
        context,
        QgsProcessingFeedback(),
        {},
        catchExceptions=False,
    )
    assert good
    return context.takeResultLayer(results["OUTPUT"])


RING = (
    "POLYGON((500000 5600000,500010 5600000,500010 5600010,500000 5600010,500000 5600000),"
    "(500002 5600002,500004 5600002,500004 5600004,500002 5600004,500002 5600002))"
)
CIRCLE = "CURVEPOLYGON(CIRCULARSTRING(500000 5600000,500020 5600000,500000 5600000))"
BENT = "CURVEPOLYGON(COMPOUNDCURVE(CIRCULARSTRING(500000 5600000,500005 5600003,500010 5600000),(500010 5600000,500000 5600000)))"
WIDE = "POLYGON((500000 5600000,503000 5600000,503000 5603000,500000 5600000))"


@pytest.mark.parametrize("wkt", [RING, CIRCLE, BENT])
@pytest.mark.parametrize("column", ["area_m2", "perimeter_m"])
def test_a_measured_outline_is_told_by_its_points(provider, wkt, column):
    kind = "CurvePolygon" if "CURVE" in wkt else "Polygon"
    layer = measured(
        provider, "measure_areas", memory_layer(kind, UTM, [wkt]), SIGMA=0.02, EDGE_SIGMA=0.03, HEIGHT=120.0
    )
    row = next(layer.getFeatures()).id()
    assert ("area_m2", "Area in plan") in layer_figures(layer)
    working = read_layer_working(layer, row, column)
    assert working.explained == pytest.approx(working.value, rel=1e-9)
    assert working.agrees
    assert working.is_assumed
    assert [(part.group, part.share) for part in working.parts] == [("assumed", 1.0)]
    assert "±0.020 m" in next(note for note in working.notes if note.startswith("One sigma of"))


def test_the_edge_of_a_measured_outline_is_told_apart(provider):
    layer = measured(
        provider, "measure_areas", memory_layer("Polygon", UTM, [RING]), SIGMA=0.02, EDGE_SIGMA=0.03
    )
    working = read_layer_working(layer, next(layer.getFeatures()).id(), "area_m2")
    note = next(note for note in working.notes if note.startswith("Edge, apart"))
    length = 48.0 / 0.9996
    wanted = f"±{1.959963985 * 0.03 * length:.3f} m² (95 %), for an edge that is worth ±0.059 m over {length:.3f} m in all."
    assert note == f"Edge, apart from that: {wanted}"


def test_a_measured_line_is_told_with_its_slope(provider):
    line = "LINESTRING Z(500000 5600000 100,500003 5600004 101,500003 5600010 100.5)"
    layer = measured(provider, "measure_lengths", memory_layer("LineStringZ", UTM, [line]), SIGMA=0.02)
    row = next(layer.getFeatures()).id()
    for column in ("length_m", "slope_length_m", "rise_m", "gradient_ratio"):
        working = read_layer_working(layer, row, column)
        assert working.explained == pytest.approx(working.value, rel=1e-8), column
    assert [station.map_xy for station in working.stations] == [
        (500000.0, 5600000.0),
        (500003.0, 5600004.0),
        (500003.0, 5600010.0),
    ]


def test_an_outline_of_kilometres_says_that_it_went_along_geodesics(provider):
    layer = measured(provider, "measure_areas", memory_layer("Polygon", UTM, [WIDE]), SIGMA=0.02)
    working = read_layer_working(layer, next(layer.getFeatures()).id(), "area_m2")
    assert working.lines == (
        "It reaches farther than a kilometre from its middle, so it is measured along geodesics.",
    )
    assert working.agrees


def test_a_measured_outline_that_was_moved_is_told(provider):
    layer = measured(provider, "measure_areas", memory_layer("Polygon", UTM, [RING]), SIGMA=0.02)
    feature = next(layer.getFeatures())
    layer.startEditing()
    layer.moveVertex(500012.0, 5600012.0, feature.id(), 2)
    working = read_layer_working(layer, feature.id(), "area_m2")
    assert not working.agrees
    assert working.notes[-1].startswith("The numbers above come to 116.")
    assert working.notes[-1].endswith("that is stored: was the row changed since?")
    layer.rollBack()


def test_a_refused_outline_says_why(provider):
    bow = "POLYGON((500000 5600000,500010 5600010,500010 5600000,500000 5600010,500000 5600000))"
    layer = measured(provider, "measure_areas", memory_layer("Polygon", UTM, [bow]), SIGMA=0.02)
    working = read_layer_working(layer, next(layer.getFeatures()).id(), "area_m2")
    assert working.figure.startswith("No figure: GE-01: ")


def test_a_layer_row_that_is_not_there_is_refused(provider):
    layer = measured(provider, "measure_areas", memory_layer("Polygon", UTM, [RING]), SIGMA=0.02)
    with pytest.raises(BadInput) as caught:
        read_layer_working(layer, 777, "area_m2")
    assert explain(caught.value) == (
        f"{layer.name()} has no figure area_m2 in row 777. Choose a row of a layer that was measured."
    )


def test_an_outline_that_ends_where_it_began_counts_its_first_place_once(surveyed_demo):
    working = read_working(surveyed_demo("marlisk_yard"), "areas", 2, "fall_ratio")
    assert [station.name for station in working.stations] == ["W1:19", "W1:20", "W1:21", "W1:22", "W1:23"]
    assert "to 4 places" in working.lines[0]
    assert working.explained == pytest.approx(working.value, rel=1e-9)
