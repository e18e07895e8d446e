# SPDX-License-Identifier: GPL-2.0-or-later
"""The working of every figure: parts that add up, formulas that come to the figure, against closed forms and the demo."""

from __future__ import annotations

import json
import math
from pathlib import Path

import numpy as np
import pytest

from plugin.core.measure import working
from plugin.core.measure.chain import survey_files
from plugin.core.measure.explained import (
    StandingArc,
    edge_terms,
    merged_places,
    plane_through,
    sum_lengths,
    sum_ring,
    sum_slopes,
)
from plugin.core.measure.working import FIGURES, from_ranges, ranges
from plugin.core.segments import Curve, chorded, path_length, ring_area

DEMO = Path(__file__).parents[3] / "resources" / "demo"
HEAD = "instrument,scale,scale_shared,leg_m,stand_m,height_leg_m,height_stand_m"
SCALE, LEG, STAND, HEIGHT_LEG, HEIGHT_STAND = 0.004, 0.03, 0.005, 0.02, 0.006
INSTRUMENTS = f"{HEAD}\nwheel,{SCALE},0.003,{LEG},{STAND},{HEIGHT_LEG},{HEIGHT_STAND}\n"
WHOLE_SCALE = 0.005
"""The walk's own 0.004 and the shared 0.003 in quadrature."""


def log(rows, head="walk,station,x,y,z,feature,geometry,mark"):
    return "\n".join(["# units: m", "# instrument: wheel", head, *rows]) + "\n"


LINE = log(["W,1,0,0,10,Kerb,length,", "W,2,6,8,12,Kerb,length,"])
"""Ten metres long, two high."""


def told(texts, **settings):
    """By table and row, the figures as they are kept, of a job's texts."""
    files = {name: text if isinstance(text, bytes) else text.encode() for name, text in texts.items()}
    survey = survey_files(files)
    return survey, {(row.table, row.row): json.loads(row.text) for row in survey.workings.rows(survey)}


def parts(kept, table, row, column):
    return kept[table, row]["figures"][column]["parts"]


def demo(site):
    paths = sorted((DEMO / site).glob("*.csv"))
    return told({path.name: path.read_bytes() for path in paths})


@pytest.fixture(scope="module", params=["marlisk_yard", "sorrelback_lane"])
def site(request):
    return demo(request.param)


def figures_in(survey):
    """Every figure of every row: table, number, column, quantity in the column's unit."""
    for table in ("areas", "lengths", "spots", "sides", "legs"):
        for number, row in enumerate(getattr(survey, table), 1):
            for name, column in FIGURES[type(row)].items():
                quantity = getattr(row, name)
                if quantity is not None:
                    by = math.degrees(1.0) if quantity.unit == "rad" else 1.0
                    yield table, number, row, column, by * quantity.value, by * quantity.sigma


def test_a_length_errs_by_its_scale_its_leg_and_its_two_stands():
    _, kept = told({"w.csv": LINE, "instruments.csv": INSTRUMENTS})
    found = parts(kept, "lengths", 1, "length_m")
    wanted = {"scale": 10.0 * WHOLE_SCALE, "legs": LEG, "stands": math.sqrt(2.0) * STAND}
    assert found == pytest.approx(wanted, rel=1e-9)


def test_a_rise_errs_by_its_leg_and_its_two_stands_and_by_no_scale():
    _, kept = told({"w.csv": LINE, "instruments.csv": INSTRUMENTS})
    found = parts(kept, "lengths", 1, "rise_m")
    assert found == pytest.approx({"legs": HEIGHT_LEG, "stands": math.sqrt(2.0) * HEIGHT_STAND}, rel=1e-9)


def test_a_gradient_has_the_parts_of_rise_and_run():
    _, kept = told({"w.csv": LINE, "instruments.csv": INSTRUMENTS})
    found = parts(kept, "lengths", 1, "gradient_ratio")
    wanted = {
        "scale": 0.2 * WHOLE_SCALE,
        "legs": math.hypot(HEIGHT_LEG, 0.2 * LEG) / 10.0,
        "stands": math.sqrt(2.0) * math.hypot(HEIGHT_STAND, 0.2 * STAND) / 10.0,
    }
    assert found == pytest.approx(wanted, rel=1e-9)


def test_the_middle_between_two_map_points_has_half_their_variance_and_the_whole_common_shift():
    rows = ["W,1,0,0,0,,,A", "W,2,10,0,0,Post,spot,", "W,3,20,0,0,,,B"]
    control = "# crs: EPSG:25831\n# common-sd: 0.1\nmark,x,y,sd_xy,use\n"
    control += "A,512340,5712850,0.05,fit\nB,512360,5712850,0.05,fit\n"
    exact = f"{HEAD}\nwheel,0,0,0,0,0,0\n"
    _, kept = told({"w.csv": log(rows), "instruments.csv": exact, "control.csv": control})
    found = parts(kept, "stations", 2, "sigma_major_m")
    assert found["common"] == pytest.approx(0.1, rel=1e-9)
    assert found["picks"] == pytest.approx(0.05 / math.sqrt(2.0), rel=1e-3)  # the base is 7 mm off, turned


def test_the_parts_of_every_figure_add_up_to_its_own_sigma(site):
    survey, kept = site
    count = 0
    for table, number, _, column, value, sigma in figures_in(survey):
        own = parts(kept, table, number, column)
        if sigma <= 1e-12 * abs(value):
            assert own == {}  # a full circle turns through 360 degrees whatever is wrong
            continue
        assert math.sqrt(sum(part**2 for part in own.values())) == pytest.approx(sigma, rel=1e-6)
        count += 1
    assert count > 100


def test_the_parts_of_every_place_and_height_add_up(site):
    survey, kept = site
    for table in ("stations", "marks"):
        for number, row in enumerate(getattr(survey, table), 1):
            for column, sigma in (("sigma_major_m", row.ellipse.major), ("z_m", row.z_sigma)):
                own = parts(kept, table, number, column)
                assert math.sqrt(sum(part**2 for part in own.values())) == pytest.approx(sigma, rel=1e-6)


def test_placing_is_no_part_of_a_size():
    paths = sorted((DEMO / "marlisk_yard").glob("*.csv"))
    # Without the answers that join edges: the weights of a join are told along the axes of the map.
    survey, kept = told({path.name: path.read_bytes() for path in paths if path.name != "decisions.csv"})
    count = 0
    sizes = {"area_m2", "perimeter_m", "length_m", "slope_length_m", "radius_m", "rise_m"}
    for table, number, _, column, _, _ in figures_in(survey):
        if column in sizes:
            assert not {"picks", "common"} & set(parts(kept, table, number, column))
            count += 1
    assert count > 100


def test_the_edges_of_every_area_length_and_side_come_to_its_figures(site):
    survey, kept = site
    count = 0
    for table, number, _, column, value, _ in figures_in(survey):
        curves = [
            Curve(np.array(curve["points"], float), np.array(curve["bulge"], float))
            for curve in kept[table, number]["curves"]
        ]
        if column == "area_m2":
            rings = [sum_ring(curve).area for curve in curves]
            found = rings[0] - sum(rings[1:])
        elif column in {"length_m", "perimeter_m"}:
            found = sum_lengths(curves[:1] if column == "perimeter_m" else curves)
        elif column == "sweep_deg":
            found = math.degrees(sum(edge.sweep for curve in curves for edge in edge_terms(curve)))
        else:
            continue
        assert found == pytest.approx(value, rel=1e-9), (table, number, column)
        count += 1
    assert count > 50


def test_the_stations_behind_a_figure_are_those_it_moves_with():
    survey, kept = told({"w.csv": LINE, "instruments.csv": INSTRUMENTS})
    assert kept["lengths", 1]["figures"]["length_m"]["stations"] == "1-2"
    survey, kept = demo("marlisk_yard")
    for number in range(1, len(survey.sides) + 1):
        for station in from_ranges(kept["sides", number]["figures"]["length_m"]["stations"]):
            assert 1 <= station <= len(survey.stations)
    fall = kept["areas", 2]["figures"]["fall_ratio"]
    names = [survey.stations[n - 1].station for n in from_ranges(fall["stations"])]
    assert names == ["19", "20", "21", "22", "23"]
    assert [[survey.stations[n - 1].station for n in pair] for pair in fall["merged"]] == [["19", "23"]]


def turned_log(angle, shift):
    points = [(0, 0, 10), (12, 0, 10.2), (12, 7, 10.3), (0, 7, 10.1)]
    c, s = math.cos(angle), math.sin(angle)
    rows = [
        f"W,{k},{c * x - s * y + shift:.9f},{s * x + c * y - shift:.9f},{z},Court,area,"
        for k, (x, y, z) in enumerate(points, 1)
    ]
    return log(rows)


@pytest.mark.parametrize(("angle", "shift"), [(1.0, 0.0), (math.pi, 0.0), (2.5, 1e7)])
def test_parts_are_the_same_however_the_walk_lies(angle, shift):
    _, as_is = told({"w.csv": turned_log(0.0, 0.0), "instruments.csv": INSTRUMENTS})
    _, turned = told({"w.csv": turned_log(angle, shift), "instruments.csv": INSTRUMENTS})
    for column in ("area_m2", "perimeter_m", "fall_ratio"):
        wanted = parts(as_is, "areas", 1, column)
        assert parts(turned, "areas", 1, column) == pytest.approx(wanted, rel=1e-5)


def test_a_level_area_may_fall_any_way():
    rows = [f"W,{k},{x},{y},10,Court,area," for k, (x, y) in enumerate([(0, 0), (1, 0), (1, 1), (0, 1)], 1)]
    rows[2] = rows[2].replace(",10,", ",10.0001,")
    _, kept = told({"w.csv": log(rows), "instruments.csv": INSTRUMENTS})
    assert parts(kept, "areas", 1, "fall_bearing_deg") == {"unknown": pytest.approx(180 / math.sqrt(3))}


def test_what_a_stop_keeps_out_is_not_worked_out():
    bow = [(0, 0), (10, 10), (10, 0), (0, 10)]
    rows = [f"W,{k},{x},{y},0,Bow,area," for k, (x, y) in enumerate(bow, 1)]
    survey, kept = told({"w.csv": log(rows), "instruments.csv": INSTRUMENTS})
    assert survey.areas[0].area is None
    assert survey.areas[0].tags.finding == "GE-01"
    assert ("areas", 1) not in kept
    assert ("stations", 1) in kept


def receiver_track():
    """A way recorded point by point, 2 m apart, with noise across it."""
    noise = np.random.default_rng(4).normal(0.0, 0.5, 40)
    metre = 1.0 / 111_000.0
    points = "".join(
        f'<trkpt lat="{51.5 + 2.0 * k * metre:.9f}" lon="{3.0 + float(off) * metre / 0.62:.9f}">'
        f"<time>2026-05-01T08:{k // 30:02d}:{2 * k % 60:02d}Z</time></trkpt>"
        for k, off in enumerate(noise)
    )
    return (
        '<gpx version="1.1" creator="made" xmlns="http://www.topografix.com/GPX/1/1">'
        f"<trk><name>Path</name><trkseg>{points}</trkseg></trk></gpx>"
    )


def test_noise_from_row_to_row_of_a_receiver_is_a_part_of_its_own():
    survey, kept = told({"track.gpx": receiver_track()})
    row = survey.lengths[0]
    own = parts(kept, "lengths", 1, "length_m")
    assert own["rows"] > 0.0
    assert math.sqrt(sum(part**2 for part in own.values())) == pytest.approx(row.length.sigma, rel=1e-9)


def test_of_very_many_figures_the_walks_are_told_in_one(monkeypatch):
    monkeypatch.setattr(working, "FINE_CELLS", 0)
    survey, kept = demo("sorrelback_lane")
    for table, number, _, column, value, sigma in figures_in(survey):
        own = parts(kept, table, number, column)
        if sigma > 1e-12 * abs(value):
            assert set(own) <= {"walks", "picks", "common"}
            assert math.sqrt(sum(part**2 for part in own.values())) == pytest.approx(sigma, rel=1e-6)
    own = parts(kept, "stations", 1, "sigma_major_m")
    assert own["common"] > 0.0
    assert own["picks"] > 0.0


@pytest.mark.parametrize("numbers", [(), (7,), (1, 2, 3), (1, 3, 5), (2, 3, 9, 10, 11, 40)])
def test_ranges_come_back_as_they_were(numbers):
    assert from_ranges(ranges(numbers)) == numbers


def square(side, bulge=(0.0, 0.0, 0.0, 0.0), at=(0.0, 0.0)):
    xy = np.array([(0, 0), (side, 0), (side, side), (0, side), (0, 0)], float) + at
    return Curve(np.column_stack([xy, np.zeros(5)]), np.array(bulge))


def test_a_half_circle_on_a_square_is_told_as_chord_and_segment():
    ring = sum_ring(square(4.0, (0.0, 1.0, 0.0, 0.0), at=(1e6, -1e6)))
    assert ring.straights == pytest.approx(16.0, rel=1e-12)
    assert ring.segments == pytest.approx(0.5 * math.pi * 4.0, rel=1e-12)
    arc = ring.edges[1]
    assert arc.radius == pytest.approx(2.0)
    assert arc.sweep == pytest.approx(math.pi)
    assert arc.segment == pytest.approx(0.5 * arc.radius**2 * (arc.sweep - math.sin(arc.sweep)))
    assert arc.length == pytest.approx(arc.radius * arc.sweep)


def test_an_outline_has_its_area_whichever_way_it_runs():
    curve = square(3.0, (0.3, -0.2, 0.0, 0.1))
    back = Curve(curve.points[::-1], -curve.bulge[::-1])
    assert sum_ring(back).area == pytest.approx(sum_ring(curve).area, rel=1e-12)
    assert sum_ring(curve).area == pytest.approx(ring_area(curve), rel=1e-12)


def test_nothing_and_one_point_have_no_edges():
    for points in (np.zeros((0, 3)), np.zeros((1, 3))):
        curve = Curve(points, np.zeros(0))
        assert edge_terms(curve) == ()
        assert sum_ring(curve).area == 0.0


def test_a_slope_with_a_height_missing_is_no_number():
    points = np.array([(0, 0, 1), (3, 0, math.nan), (6, 0, 1)])
    assert math.isnan(sum_slopes([Curve(points, np.zeros(2))]).length)


def test_chords_of_a_standing_arc_give_way_to_it():
    upright = np.array([[0.0, 10.0, 0.0], [2.0, 10.0, 0.0]])
    sag = chorded(Curve(upright, np.array([math.tan(math.pi / 8)])), 1e-4)
    drawn = np.column_stack([sag[:, 0], np.zeros(len(sag)), sag[:, 1]])
    before, after = np.array([[-3.0, 0.0, 10.0]]), np.array([[2.0, 4.0, 10.0]])
    curve = Curve(np.vstack([before, drawn, after]), np.zeros(len(drawn) + 1))
    arc = StandingArc((0.0, 0.0, 10.0), (2.0, 0.0, 10.0), math.sqrt(2.0), math.pi / 2)
    slopes = sum_slopes([curve], [arc])
    assert slopes.standing == (arc,)
    assert len(slopes.edges) == 2
    assert slopes.length == pytest.approx(3.0 + 4.0 + math.sqrt(2.0) * math.pi / 2, rel=1e-12)


def test_two_hundred_thousand_edges_are_told():
    angle = np.linspace(0.0, 2.0 * math.pi, 200_001)
    curve = Curve(np.column_stack([np.cos(angle), np.sin(angle), 0 * angle]), np.zeros(200_000))
    assert sum_lengths([curve]) == pytest.approx(path_length(curve), rel=1e-12)


def test_a_plane_through_places_is_found_again_wherever_they_lie():
    rng = np.random.default_rng(1)
    xy = rng.uniform(-20, 20, (9, 2))
    for shift in (0.0, 1e6):
        z = 80.0 + 0.02 * xy[:, 0] - 0.03 * xy[:, 1]
        plane = plane_through(np.column_stack([xy + shift, z]))
        assert (plane.p, plane.q) == pytest.approx((0.02, -0.03), rel=1e-6)
        assert plane.bearing_deg(0.0) == pytest.approx(math.degrees(math.atan2(-0.02, 0.03)) % 360, abs=1e-4)


def test_no_plane_goes_through_two_places_or_a_line():
    assert plane_through(np.zeros((2, 3))) is None
    assert plane_through(np.array([(0, 0, 0), (1, 0, 1), (2, 0, 5)], float)) is None


def test_two_stations_of_one_place_count_as_their_mean():
    places = {4: (0.0, 0.0, 1.0), 5: (9.0, 0.0, 2.0), 6: (0.2, 0.0, 3.0)}
    found = merged_places(places, [[4, 6]])
    assert found.tolist() == [[0.1, 0.0, 2.0], [9.0, 0.0, 2.0]]
    assert merged_places({}, [[1, 2]]).shape == (0, 3)
