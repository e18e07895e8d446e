# SPDX-License-Identifier: GPL-2.0-or-later
"""Residuals, limits, misclosures and the plan, read from a survey and made ready to be drawn."""

from __future__ import annotations

import math
import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from qgis.core import QgsProject

from plugin.bridge.diagnostics import (
    Closes,
    Outcome,
    read_misclosures,
    read_residual_plan,
    read_standardised,
)
from plugin.bridge.geopackage import write_survey
from plugin.bridge.plan_preview import Shown, read_plan
from plugin.bridge.section import draw_section, level_words, one_in, read_ground, way_words
from plugin.bridge.survey_file import Unit, fit_map_way, nice_below, scale_bar, shown_unit
from plugin.bridge.survey_view import UNIT_LENGTH, UNIT_NAME
from plugin.core.errors import BadInput
from plugin.core.measure.chain import survey_files
from plugin.core.measure.rows import ResidualKind, ResidualRow, SurfaceRow, WalkRow
from tests.made_survey import PLACES, made_survey

ROOT = Path(__file__).parents[2] / "resources"
FOOT = Unit("US ft", 1200 / 3937)

RESIDUALS = (
    ResidualRow(ResidualKind.STAND, "A", walk="W1", station="1", x=0.03, y=-0.04, size=0.05, standard=1.5, ask=3.0, stop=4.0),
    ResidualRow(ResidualKind.STAND, "B", walk="W1", station="9", x=0.2, y=0.0, size=0.2, standard=3.5, ask=3.0, stop=4.0),
    ResidualRow(ResidualKind.TAPE, "A", "B", size=-0.0001, standard=0.3, ask=2.8, stop=3.9),
    ResidualRow(ResidualKind.TAPE, "A", "C", size=0.17, is_used=False),
    ResidualRow(ResidualKind.HEIGHT, "C", walk="W1", station="4", size=-0.061, standard=5.0, ask=2.8, stop=3.9),
    ResidualRow(ResidualKind.LEVEL, "C", size=0.002),
    ResidualRow(ResidualKind.MAP_POINT, "A", x=0.01, y=0.01, size=math.hypot(0.01, 0.01), standard=0.5, ask=3.0, stop=4.0),
    ResidualRow(ResidualKind.CHECK_POINT, "C", is_used=False, x=-0.02, y=0.0, size=0.02, standard=1.0, ask=3.0, stop=4.0),
)  # fmt: skip


@pytest.fixture
def survey(tmp_path, qgis_app):
    """The made survey with residuals, and walks that close well, badly and not at all."""
    walks = (
        WalkRow("W1", "w1.csv", "", 9, 90.0, 60.0, 0.031, 0.05, -0.008, 0.01),
        WalkRow("W2", "w2.csv", "", 9, 90.0, 60.0, 0.1, 0.05, None, None),
        WalkRow("W3", "w3.csv", "", 9, 90.0, 60.0, 0.16, 0.05, 0.04, 0.01),
        WalkRow("W4", "w4.csv", "", 9, 90.0, 60.0, None, None, None, None),
    )
    return write_survey(replace(made_survey(), residuals=RESIDUALS, walks=walks), tmp_path / "s.gpkg")


@pytest.fixture(scope="module")
def demo(tmp_path_factory, qgis_app):
    """The demo's own survey."""
    folder = ROOT / "demo" / "marlisk_yard"
    files = {path.name: path.read_bytes() for path in sorted(folder.glob("*.csv"))}
    survey = survey_files(files)
    return survey, write_survey(survey, tmp_path_factory.mktemp("demo") / "yard.gpkg")


def test_vectors_are_drawn_larger_by_a_round_factor_that_is_told(survey):
    """The marks reach 40 m; 14 % of that over the longest, 0.2 m, is 28, so 20 times."""
    plan = read_residual_plan(survey)
    assert plan.times == 20.0
    drawn = {(v.kind, v.mark): (v.x, v.y, v.dx, v.dy) for v in plan.vectors}
    assert drawn[ResidualKind.STAND, "A"] == pytest.approx((-1, -4, 0.6, -0.8), abs=1e-12)
    assert drawn[ResidualKind.CHECK_POINT, "C"] == pytest.approx((39, 14, -0.4, 0), abs=1e-12)
    assert len(drawn) == 4
    assert [v.mark for v in plan.named] == ["A", "B"]


def test_ellipses_are_the_95_percent_ones_turned_from_the_grid_into_the_plane(survey):
    """The made ellipse of a mark: 0.02 m and a circle, at 0 radians in the plane; 2.4477 sigma, both ways, 20 times."""
    ellipse = read_residual_plan(survey).marks[0]
    assert (ellipse.mark, ellipse.x, ellipse.y) == ("A", -1.0, -4.0)
    assert (ellipse.width, ellipse.height) == pytest.approx((2 * 20 * 2.447747 * 0.02,) * 2, abs=1e-5)


def test_an_ellipse_lies_in_the_plane_as_it_was_there(demo):
    """Its bearing goes out by the grid and comes back by the placement's turn."""
    survey, path = demo
    there = {row.mark: math.degrees(row.ellipse.angle) for row in survey.marks}
    for mark in read_residual_plan(path).marks:
        apart = (mark.angle_deg - there[mark.mark] + 90.0) % 180.0 - 90.0
        assert apart == pytest.approx(0.0, abs=1e-9)


def test_the_demos_map_points_are_off_by_the_marks_own_residuals(demo):
    survey, path = demo
    told = {row.mark: row.residual for row in survey.marks if row.residual is not None}
    kinds = {ResidualKind.MAP_POINT, ResidualKind.CHECK_POINT}
    drawn = {v.mark: v.size for v in read_residual_plan(path).vectors if v.kind in kinds}
    assert drawn == pytest.approx(told, abs=1e-12)
    # A fit by weights that are all alike leaves residuals that come to nothing together.
    fitted = [row for row in survey.residuals if row.kind is ResidualKind.MAP_POINT]
    assert sum(row.x for row in fitted) == pytest.approx(0.0, abs=1e-9)
    assert sum(row.y for row in fitted) == pytest.approx(0.0, abs=1e-9)


def test_a_walk_alone_leaves_its_whole_misclosure_between_two_stands_on_one_mark(demo):
    """The walk is moved as a whole, so what it is off by at two stands on a mark differs by what it fails to close by; the
    mark is one place. W1 comes back to A. (Its heading was fitted apart: a millimetre.)"""
    survey, _ = demo
    stands = [r for r in survey.residuals if r.kind is ResidualKind.STAND and (r.walk, r.mark) == ("W1", "A")]
    heights = [
        r for r in survey.residuals if r.kind is ResidualKind.HEIGHT and (r.walk, r.mark) == ("W1", "A")
    ]
    (walk,) = [row for row in survey.walks if row.walk == "W1"]
    apart = math.hypot(stands[1].x - stands[0].x, stands[1].y - stands[0].y)
    assert apart == pytest.approx(walk.misclosure, abs=1e-3)
    assert heights[1].size - heights[0].size == pytest.approx(walk.height_misclosure, abs=1e-9)


def test_what_a_stop_let_go_is_told_with_its_size_and_no_sigmas(tmp_path, qgis_app):
    """The tape of the fault is 0.173 m too long, as its finding says."""
    folder = ROOT / "faults" / "wrong_tape"
    survey = survey_files({path.name: path.read_bytes() for path in sorted(folder.glob("*.csv"))})
    rows = read_standardised(write_survey(survey, tmp_path / "s.gpkg"))
    finding = next(f for f in survey.findings if f.code == "SR-01" and f.place == "A+B")
    (row,) = [row for row in survey.residuals if not row.is_used and row.kind is ResidualKind.TAPE]
    assert row.size == pytest.approx(finding.data["difference"], abs=2e-3)
    assert (rows[0].label, rows[0].outcome, rows[0].off) == ("tape A to B", Outcome.LET_GO, "0.17 m")
    assert math.isnan(rows[0].size)


def test_residuals_stand_beside_their_limits_the_worst_first(survey):
    rows = read_standardised(survey)
    assert [(row.label, row.outcome, row.off) for row in rows] == [
        ("tape A to C", Outcome.LET_GO, "0.17 m"),
        ("C in W1:4, height", Outcome.STOPS, "-61 mm"),
        ("B in W1:9, plan", Outcome.ASKS, "0.20 m"),
        ("A in W1:1, plan", Outcome.PASSES, "50 mm"),
        ("check point C", Outcome.PASSES, "20 mm"),
        ("map point A", Outcome.PASSES, "14 mm"),
        ("tape A to B", Outcome.PASSES, "0 mm"),
    ]
    assert (rows[1].size, rows[1].ask, rows[1].stop) == (5.0, 2.8, 3.9)


def test_a_bar_beyond_its_limit_is_one_that_the_survey_asks_or_stops_at(demo):
    """No open question of the demo is about a residual, and none is beyond its limit."""
    survey, path = demo
    assert not [f for f in survey.findings if f.code == "TI-03" and f.is_open]
    assert {row.outcome for row in read_standardised(path)} == {Outcome.PASSES}


def test_misclosures_stand_beside_95_percent_and_three_times(survey):
    """Of a radial sigma of 50 mm: 2.448 / root 2 = 1.731 times, 86.5 mm, stay below in 19 of 20; three times is 0.15 m."""
    told = read_misclosures(survey)
    assert [(c.walk, c.size, c.closes) for c in told.plan] == [
        ("W1", 0.031, Closes.WITHIN),
        ("W2", 0.1, Closes.BEYOND),
        ("W3", 0.16, Closes.FAR),
    ]
    assert (told.plan[0].expected_95, told.plan[0].limit) == pytest.approx((0.08655, 0.15), abs=1e-9)
    assert [(c.walk, c.size, c.closes) for c in told.height] == [
        ("W1", 0.008, Closes.WITHIN),
        ("W3", 0.04, Closes.FAR),
    ]
    assert (told.height[0].expected_95, told.height[0].limit) == pytest.approx((0.0196, 0.03), abs=1e-5)
    assert told.open_walks == ("W4",)


def test_a_survey_of_an_older_version_says_to_run_again(survey):
    with closing(sqlite3.connect(survey)) as database:
        database.execute("DROP TABLE residuals")
    for read in (read_residual_plan, read_standardised):
        with pytest.raises(BadInput) as error:
            read(survey)
        assert str(error.value) == (
            f"{survey} cannot be read as a survey of this version (no such table: residuals). Run the job again."
        )


def test_what_is_no_survey_is_told(tmp_path):
    path = tmp_path / "x.gpkg"
    path.write_bytes(b"no database at all")
    for read in (read_residual_plan, read_standardised, read_misclosures, read_plan, read_ground):
        with pytest.raises(BadInput) as error:
            read(path)
        reason = "cannot be read as a survey of this version (file is not a database). Run the job again."
        assert str(error.value) == f"{path} {reason}"


def test_an_empty_survey_has_empty_figures(tmp_path, qgis_app):
    nothing = dict.fromkeys(("areas", "lengths", "spots", "sides", "legs", "stations", "marks", "walks"), ())
    path = write_survey(replace(made_survey(None), findings=(), **nothing), tmp_path / "s.gpkg")
    assert read_residual_plan(path).vectors == ()
    assert read_standardised(path) == ()
    assert read_misclosures(path).plan == ()
    assert read_plan(path).key == ()
    assert not read_ground(path).has_heights
    assert draw_section(read_ground(path), [(0, 0), (9, 9)]).points == ()


@pytest.mark.parametrize(
    ("value", "nice"),
    [(1.0, 1), (4.99, 2), (5.0, 5), (0.05, 0.05), (73, 50), (0.0, 1), (math.inf, 1), (1e-30, 1e-30)],
)
def test_round_numbers(value, nice):
    assert nice_below(value) == pytest.approx(nice)


def test_a_scale_bar_is_round_in_the_unit_that_is_shown():
    assert scale_bar(45.0, Unit()).text == "10 m"
    bar = scale_bar(45.0, FOOT)
    assert (bar.text, bar.metres) == ("20 US ft", pytest.approx(20 * 1200 / 3937))


def test_the_shown_unit_is_the_projects():
    project = QgsProject()
    assert shown_unit(project) == Unit()
    for metres, unit in ((0.3048, Unit("ft", 0.3048)), ("nothing", Unit()), (0.0, Unit()), (-1, Unit())):
        project.setCustomVariables({UNIT_NAME: "ft", UNIT_LENGTH: metres})
        assert shown_unit(project) == unit


# --- the way from the map to the plane ---


@pytest.mark.parametrize("crs", [*sorted(PLACES), None])
def test_the_way_from_the_map_is_true_to_the_ground_in_every_crs(crs, tmp_path, qgis_app):
    """The kerb's ends come back to where they were made. Within half the change of scale by the square of 20 m: the web
    map's is tan(51.56 deg) / 6371 km, 2e-7 a metre, so 40 micrometres; the others' is far less."""
    path = write_survey(made_survey(crs), tmp_path / "s.gpkg")
    ground = read_ground(path)
    (leg,) = [(ground.edges.start[k], ground.edges.end[k]) for k in range(len(ground.edges))]
    assert leg[0] == pytest.approx([-6, -6, 84.72], abs=5e-5)
    assert leg[1] == pytest.approx([24, -6, 84.12], abs=5e-5)
    back = ground.way.to_map(ground.way.to_plane(np.array([[1e6, 2e6]])))
    assert back[0] == pytest.approx([1e6, 2e6], abs=1e-6)


def test_a_mirrored_map_and_one_of_stations_in_a_line_find_their_way():
    plane = np.array([(0, 0, 1), (10, 0, 2), (0, 5, 3)], float)
    turned = np.column_stack([-plane[:, 1] * 2 + 7e6, -plane[:, 0] * 2 + 3e6, plane[:, 2] * 4])
    way = fit_map_way(turned, plane)
    assert way.to_plane(turned[:, :2]) == pytest.approx(plane[:, :2], abs=1e-6)
    assert way.z_metres == pytest.approx(0.25)
    line = np.array([(0, 0, 0), (3, 4, 0)], float)
    way = fit_map_way(np.array([(1e6, 1e6, 0), (1e6, 1e6 + 10, 0)]), line)
    assert way.to_plane(np.array([[1e6 - 2.0, 1e6]])) == pytest.approx(np.array([[-0.8, 0.6]]), abs=1e-6)
    assert fit_map_way(np.full((2, 3), np.nan), line).matrix.tolist() == [[1, 0], [0, 1]]


# --- the plan ---


def test_the_plan_tells_areas_by_kind_and_letter(survey):
    plan = read_plan(survey)
    assert [(a.name, a.shown, a.letter) for a in plan.areas] == [
        ("Court", Shown.NEW, "A"),
        ("Bed 1", Shown.EXISTING, "A"),
        ("Bed 1 hole", Shown.HOLE, ""),
        ("Old slab", Shown.REMOVE, "A"),
        ("Bed 3", Shown.NO_FIGURES, "B"),
    ]
    assert plan.key == (("A", "paving: Court, Bed 1, Old slab"), ("B", "Bed 3"), ("C", "kerb: Kerb"))
    assert plan.kinds == (Shown.NEW, Shown.EXISTING, Shown.REMOVE, Shown.NO_FIGURES, Shown.HOLE)
    assert [mark.text for mark in plan.marks] == ["A", "B", "C"]
    assert plan.spots[0].text == "84.64"


def test_arcs_of_the_plan_are_smooth_and_true(survey):
    """The court's area by its chords is less than the true one by two thirds of their rise along the arc at the most; the
    rise is a five-thousandth of the plan's reach."""
    plan = read_plan(survey)
    (court, hole) = plan.areas[0].rings
    area = 0.5 * abs(np.sum(court[:-1, 0] * court[1:, 1] - court[1:, 0] * court[:-1, 1]))
    sector = 14.5**2 * math.asin(10 / 14.5) - 10 * 10.5
    reach, arc = plan.box[1] - plan.box[0], 2 * 14.5 * math.asin(10 / 14.5)
    assert 0.0 < 200 + sector - area < 2 / 3 * reach / 5000 * arc
    assert len(court) > 12
    assert len(hole) == 5
    x, y = plan.areas[0].at
    assert hole[:, 0].min() > x or hole[:, 0].max() < x or hole[:, 1].min() > y or hole[:, 1].max() < y


def test_letters_go_on_after_z(tmp_path, qgis_app):
    made = made_survey()
    kerb = made.lengths[0]
    many = tuple(replace(kerb, tags=replace(kerb.tags, feature=f"K{i}", item=f"I{i}")) for i in range(30))
    plan = read_plan(write_survey(replace(made, areas=(), lengths=many), tmp_path / "s.gpkg"))
    assert [letter for letter, _ in plan.key][24:] == ["Y", "Z", "AA", "AB", "AC", "AD"]


# --- the section ---


def on_map(survey, *places):
    """Places of the survey plane on the map."""
    return [tuple(p) for p in survey.plane.to_crs(np.array(places, float)).tolist()]


def test_a_section_tells_the_made_grounds_level_where_it_crosses(tmp_path, qgis_app):
    """The kerb's leg lies on a ground of 84.6 - 0.02 x: at x = 9 its level is 84.42, 3 m along the line."""
    made = made_survey()
    ground = read_ground(write_survey(made, tmp_path / "s.gpkg"))
    section = draw_section(ground, on_map(made, (9, -9), (9, -3)))
    (point,) = section.points
    assert (point.along, point.level) == pytest.approx((3, 84.42), abs=1e-6)
    assert (point.source.title, point.source.detail) == ("Kerb", "edge between stations 1 and 2 of W1")
    assert point.at == pytest.approx(on_map(made, (9, -6))[0], abs=1e-6)
    assert section.length == pytest.approx(6, abs=1e-6)
    assert section.place_at(3.0) == pytest.approx(point.at, abs=1e-6)
    assert section.along_of(*point.at)[0] == pytest.approx(3.0, abs=1e-6)
    assert section.near(point.at, (point.at[0] + 1, point.at[1])) == pytest.approx(3.0, abs=1e-6)
    assert section.near((point.at[0] + 5, point.at[1]), (point.at[0] + 6, point.at[1])) is None
    assert section.nearest(100.0) == 0


def test_the_level_of_an_edge_has_the_95_percent_of_its_stations(tmp_path, qgis_app):
    """The made stations 1 and 2 of W1 have sigmas of 12 mm: 23.5 mm."""
    made = made_survey()
    ground = read_ground(write_survey(made, tmp_path / "s.gpkg"))
    (point,) = draw_section(ground, on_map(made, (9, -9), (9, -3))).points
    assert point.half_95 == pytest.approx(1.959964 * 0.012, abs=1e-7)


def test_a_section_through_stations_gives_rises_and_gradients(tmp_path, qgis_app):
    """Along the court's south side, stations 1 (2, 2) and 2 (22, 2): it falls 0.4 m in 20 m, 1 in 50."""
    made = made_survey()
    ground = read_ground(write_survey(made, tmp_path / "s.gpkg"))
    section = draw_section(ground, on_map(made, (1, 2), (23, 2)))
    assert [(p.source.title, p.is_point) for p in section.points] == [("Court", True), ("Court", True)]
    (way,) = section.ways
    assert (way.run, way.rise, way.percent) == pytest.approx((20, -0.4, -2), abs=1e-5)
    assert way.rise_95 == pytest.approx(1.959964 * math.hypot(0.012, 0.012), abs=1e-6)
    assert way.ratio == "1 in 50 down"
    assert level_words(section, section.points[0]) == "Court\n84.560 ± 0.024 m\nat 1.00 m"
    assert way_words(section, 0) == "20.00 m, 1 in 50 down\n-0.400 ± 0.033 m\n-2.0 ± 0.2 %"
    assert way_words(section, 1) == ""


def test_a_section_in_feet_is_the_same_one(tmp_path, qgis_app):
    made = made_survey("EPSG:2264")
    ground = read_ground(write_survey(made, tmp_path / "s.gpkg"))
    section = draw_section(ground, on_map(made, (9, -9), (9, -3)), FOOT)
    (point,) = section.points
    assert (point.along, point.level) == pytest.approx((3 * 3937 / 1200, 84.42 * 3937 / 1200), abs=1e-4)
    assert section.place_at(point.along) == pytest.approx(point.at, abs=1e-4)


def test_a_surface_is_cut_where_the_line_meets_it(tmp_path, qgis_app):
    corners = np.array([(0, 0, 80.0), (10, 0, 81.0), (10, 10, 81.0), (0, 10, 80.0)])
    surface = SurfaceRow("made", "made.xml", corners, np.array([[0, 1, 2], [0, 2, 3]]))
    made = replace(made_survey(), surfaces=(surface,))
    ground = read_ground(write_survey(made, tmp_path / "s.gpkg"))
    section = draw_section(ground, on_map(made, (-5, 4), (15, 4)))
    ((name, along, level),) = section.surfaces
    assert name == "made"
    assert (along[0], along[-1]) == pytest.approx((5, 15), abs=1e-5)
    assert level == pytest.approx(80 + 0.1 * (along - 5), abs=1e-6)


def test_heights_that_a_stop_keeps_out_are_in_no_section(tmp_path, qgis_app):
    made = made_survey()
    leg = replace(made.legs[0], rise=None, tags=replace(made.legs[0].tags, finding="TI-03"))
    stations = tuple(replace(s, tags=replace(s.tags, feature="Kerb")) for s in made.stations)
    ground = read_ground(write_survey(replace(made, legs=(leg,), stations=stations), tmp_path / "s.gpkg"))
    assert (ground.has_heights, ground.withheld) == (False, 1)


@pytest.mark.parametrize(
    ("gradient", "words"),
    [
        (0.025, "1 in 40 up"),
        (-0.125, "1 in 8.0 down"),
        (1e-6, "level"),
        (None, "upright"),
        (-2.0, "1 in 0.5 down"),
    ],
)
def test_gradients_in_words(gradient, words):
    assert one_in(gradient) == words


def test_the_demos_section_stays_within_its_95_percent_of_the_truth(demo):
    """Across the court between two stations: the level of every edge crossed lies between the lowest and highest station."""
    survey, path = demo
    ground = read_ground(path)
    assert len(ground.edges) > 100
    assert np.isfinite(ground.edges.sigma).all()
    low = np.minimum(ground.edges.start[:, 2], ground.edges.end[:, 2])
    z = np.array([row.point[2] for row in survey.stations])
    assert z.min() - 1e-9 <= low.min()
