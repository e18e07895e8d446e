# SPDX-License-Identifier: GPL-2.0-or-later
"""The demo jobs: the true figures, the drift, the faults, the picture, and that all of it comes out the same again."""

from __future__ import annotations

import ast
import csv
import json
import math
from pathlib import Path

import numpy as np
import pytest

from scripts.demo_jobs import COMMITTED_SEEDS, FAULTS, SITES, faulty_job, find_site, make_job, true_sizes
from scripts.demo_jobs.faults import UNANSWERED, clean_job
from scripts.demo_jobs.jobs import _paths
from scripts.demo_jobs.truth import write_truth
from scripts.demo_jobs.walker import Drift, record
from scripts.make_demo import write_demo

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "resources" / "demo"
FOOT = 1200.0 / 3937.0

YARD_FIGURES = [
    ("areas", "Paved court", "", "area_m2", 0, 253.563),
    ("areas", "Paved court", "", "perimeter_m", 0, 62.069),
    ("sides", "Paved court", "", "length_m", 2, 22.069),
    ("sides", "Paved court", "", "length_m", 4, 20.000),
    ("takeoff", "Paved court", "", "stone_area_m2", 0, 262.955),
    ("lengths", "Seat wall", "", "length_m", 0, 15.184),
    ("takeoff", "Seat wall", "", "centre_length_m", 0, 15.420),
    ("takeoff", "Seat wall", "", "back_length_m", 0, 15.656),
    ("areas", "Bed 1", "", "area_m2", 0, 52.608),
    ("areas", "Bed 1", "", "perimeter_m", 0, 30.932),
    ("takeoff", "Bed 1 wall", "", "face_m2", 0, 4.455),
    ("areas", "Bed 2", "", "area_m2", 0, 81.000),
    ("sides", "Bed 2", "", "length_m", 3, 20.000),
    ("areas", "Ramp", "", "area_m2", 0, 13.500),
    ("areas", "Ramp", "", "sloped_area_m2", 0, 13.530),
    ("lengths", "Steps", "", "rise_m", 0, -0.430),
    ("lengths", "Kerb", "", "length_m", 0, 41.925),
    ("lengths", "Swale", "", "length_m", 0, 19.111),
    ("takeoff", "Swale", "", "plan_m2", 0, 34.400),
    ("takeoff", "Swale", "", "volume_m3", 0, 5.160),
    ("takeoff", "Swale", "", "face_m2", 0, 36.261),
    ("takeoff", "Bank", "", "developed_m2", 0, 27.646),
    ("takeoff", "Bank", "", "plan_m2", 0, 22.117),
    ("takeoff", "Dished face", "", "plan_m2", 0, 6.2354),
    ("takeoff", "Dished face", "", "developed_m2", 0, 7.5398),
    ("lengths", "Dished face", "profile", "rise_m", 0, 1.200),
    ("marks", "B", "", "map_x", 0, 512361.280),
    ("marks", "B", "", "map_y", 0, 5712861.077),
    ("marks", "C", "", "map_x", 0, 512367.158),
    ("marks", "C", "", "map_y", 0, 5712884.422),
    ("marks", "BM1", "", "z_m", 0, 84.810),
    ("spots", "G3", "", "height_m", 0, 83.280),
]


def value_of(site: str, table: str, feature: str, part: str, column: str, side: int = 0) -> float:
    """The one true figure of that row and column."""
    keys = (table, feature, part, column, side)
    found = [t.value for t in true_sizes(site) if (t.table, t.feature, t.part, t.column, t.side) == keys]
    assert len(found) == 1, keys
    return found[0]


def rows_of(text: str) -> list[dict[str, str]]:
    """The rows of a file, its key lines left out."""
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


def places_of(rows: list[dict[str, str]]) -> np.ndarray:
    """x and y of the rows as complex numbers."""
    return np.array([complex(float(row["x"]), float(row["y"])) for row in rows])


def logs_of(job: dict[str, str]) -> list[list[dict[str, str]]]:
    """The rows of every log, in order."""
    return [rows_of(job[name]) for name in sorted(job) if name.startswith("walk_")]


@pytest.mark.parametrize(("table", "feature", "part", "column", "side", "printed"), YARD_FIGURES)
def test_the_yards_true_figures_are_the_printed_ones(table, feature, part, column, side, printed):
    """Printed to 3 or 4 decimals, so within 0.6 of the third."""
    assert value_of("marlisk_yard", table, feature, part, column, side) == pytest.approx(printed, abs=6e-4)


def test_the_yards_figures_by_quadrature_are_the_printed_ones():
    assert value_of("marlisk_yard", "takeoff", "Paved court", "", "cut_m3") == pytest.approx(25.57, abs=0.006)
    assert value_of("marlisk_yard", "takeoff", "Paved court", "", "fill_m3") == pytest.approx(3.40, abs=0.006)
    assert value_of("marlisk_yard", "takeoff", "T3", "", "swale_overlap_m2") == pytest.approx(
        21.06, abs=0.011
    )
    assert value_of("marlisk_yard", "takeoff", "T2", "", "paved_overlap_m2") == pytest.approx(
        13.22, abs=0.006
    )
    assert 1.0 / value_of("marlisk_yard", "areas", "Paved court", "", "fall_ratio") == pytest.approx(
        74.3, abs=0.05
    )
    assert 1.0 / value_of("marlisk_yard", "areas", "Ramp", "", "fall_ratio") == pytest.approx(15.0, abs=1e-9)


def test_the_lanes_true_figures_are_the_printed_ones_in_feet():
    area, length = FOOT**2, FOOT
    lane = "sorrelback_lane"
    assert value_of(lane, "areas", "Patio", "", "area_m2") == pytest.approx(40.565, abs=6e-4)
    assert value_of(lane, "areas", "Patio", "", "area_m2") / area == pytest.approx(436.641, abs=6e-4)
    assert value_of(lane, "areas", "Patio", "", "perimeter_m") / length == pytest.approx(79.819, abs=6e-4)
    assert value_of(lane, "sides", "Patio", "", "length_m", 2) / length == pytest.approx(27.819, abs=6e-4)
    assert value_of(lane, "takeoff", "Drive", "", "concrete_m3") / FOOT**3 == pytest.approx(315.0, abs=1e-6)
    assert value_of(lane, "lengths", "Wall", "top", "length_m") / length == pytest.approx(39.708, abs=6e-4)
    assert value_of(lane, "takeoff", "Wall", "", "face_m2") / area == pytest.approx(109.153, abs=6e-4)
    assert value_of(lane, "lengths", "Steps", "", "rise_m") / length == pytest.approx(35.0 / 12.0, abs=1e-9)
    assert value_of(lane, "areas", "Lawn", "", "area_m2") / area == pytest.approx(761.735, abs=6e-4)
    assert value_of(lane, "takeoff", "Oak", "", "wall_inside_m") / length == pytest.approx(6.23, abs=6e-3)
    assert value_of(lane, "marks", "B", "", "map_x") == pytest.approx(3020039.123, abs=6e-4)
    assert value_of(lane, "marks", "C", "", "map_y") == pytest.approx(300047.581, abs=6e-4)


@pytest.mark.parametrize("name", SITES)
def test_logs_without_error_lie_on_the_truth_once_a_and_b_are_placed(name):
    """Every walk is laid on A and B of the control file; 1e-6 of a unit is the last digit of map coordinates."""
    site = find_site(name)
    job = make_job(name, 5, noise=False, digits=None)
    control = {row["mark"]: row for row in rows_of(job["control.csv"])}
    origin = complex(*site.anchor)
    base = complex(float(control["B"]["x"]), float(control["B"]["y"])) - origin
    for log, route in zip(logs_of(job), site.walks):
        shown = places_of(log)
        first, second = (next(i for i, row in enumerate(log) if row["mark"] == mark) for mark in "AB")
        laid = (shown - shown[first]) * base / (shown[second] - shown[first]) + origin
        true = np.array([complex(*site.to_map(stop.x, stop.y)) for stop in route.stops])
        assert np.abs(laid - true).max() < 1e-6
        assert abs(abs(shown[second] - shown[first]) * site.scale - abs(base)) < 1e-8
        heights = np.array([float(row["z"]) for row in log])
        assert np.ptp(heights - [stop.z for stop in route.stops]) < 1e-9


def test_logs_without_error_give_the_courts_area_and_the_swales_recorded_length():
    log = logs_of(make_job("marlisk_yard", 9, noise=False, digits=None))
    court = places_of([row for row in log[0] if row["feature"] == "Paved court"])
    straight = float((court[:-1].conj() * court[1:]).imag.sum()) / 2.0
    slivers = (
        4.0 * 14.5**2 / 2.0 * (math.radians(87.2056386) / 4.0 - math.sin(math.radians(87.2056386) / 4.0))
    )
    assert straight + slivers - 1.44 == pytest.approx(253.563, abs=6e-4)
    swale = places_of([row for row in log[2] if row["feature"] == "Swale"])
    (truth,) = (t for t in true_sizes("marlisk_yard") if t.feature == "Swale" and t.column == "length_m")
    assert float(np.abs(np.diff(swale)).sum()) == pytest.approx(truth.recorded, abs=1e-9)
    assert np.abs(np.diff(swale)).max() <= 0.25


@pytest.mark.parametrize("name", SITES)
def test_no_leg_is_over_nine_metres_and_outlines_end_where_they_began(name):
    unit = find_site(name).unit_m
    for log in logs_of(make_job(name, 3, noise=False, digits=None)):
        assert np.abs(np.diff(places_of(log))).max() * unit <= 9.0 + 1e-9
        for feature in {row["feature"] for row in log if row["geometry"] == "area"}:
            ring = places_of([row for row in log if row["feature"] == feature])
            assert abs(ring[0] - ring[-1]) < 1e-9
            assert len(ring) >= 4


@pytest.mark.parametrize("name", SITES)
def test_every_walk_starts_on_a_and_b_and_time_never_stands_still(name):
    for log in logs_of(make_job(name, 3)):
        marks = [row["mark"] for row in log if row["mark"]]
        assert log[0]["mark"] == "A"
        assert [m for m in marks if m in "AB"][:2] == ["A", "B"]
        time = np.array([float(row["time"]) for row in log])
        hold = np.array([float(row["hold_s"]) for row in log])
        assert (np.diff(time) - hold[:-1]).min() > 0.19
        assert [row["station"] for row in log] == [str(i) for i in range(1, len(log) + 1)]


def test_the_first_walk_has_the_stations_and_the_length_that_the_adjustment_was_tried_on():
    (path, *_) = _paths("marlisk_yard")
    assert len(path.xyz) == 34
    assert np.hypot(*np.diff(path.xyz[:, :2], axis=0).T).sum() == pytest.approx(174.370, abs=6e-4)


def test_the_first_walk_closes_as_the_instrument_model_says():
    """2,000 runs: radial sigma 0.0605 by the covariance (1.6 % of it is one sigma of the root mean square),
    median 0.050 and 95 % 0.104 m (three sigma of these quantiles: 0.002 and 0.004 m)."""
    gaps = []
    for seed in range(1, 2001):
        lines = make_job("marlisk_yard", seed)["walk_1.csv"].splitlines()
        first, last = (complex(*map(float, lines[i].split(",")[2:4])) for i in (5, -1))
        gaps.append(abs(last - first))
    assert math.sqrt(np.mean(np.square(gaps))) == pytest.approx(0.0605, rel=0.048)
    assert np.median(gaps) == pytest.approx(0.050, abs=0.002)
    assert np.quantile(gaps, 0.95) == pytest.approx(0.104, abs=0.004)


@pytest.mark.parametrize("is_heavy", [False, True])
def test_a_run_recorded_as_walked_is_one_leg_whose_variance_grows_with_length(is_heavy):
    """Run sigma 0.0255 m, with the two stands' 0.004: 0.0261 an axis; half of it halfway, one stand's. 4,000 runs of
    two axes know a sigma to 0.8 % (normal); heavy tails, whose kurtosis is greater, to less."""
    path = _paths("marlisk_yard")[2]
    dense = np.flatnonzero(~path.is_stand)
    start, middle, end = dense[0] - 1, (dense[0] + dense[-1]) // 2, dense[-1] + 1
    rng = np.random.default_rng(11)
    ends, halves, steps = [], [], []
    for _ in range(4000):
        shown = record(path, 1.0, Drift(0.0, 0.0), rng, is_heavy=is_heavy)
        place = shown[:, 0] + 1j * shown[:, 1]
        true = path.xyz[:, 0] + 1j * path.xyz[:, 1]
        turn = np.angle((place[1:40:8] - place[0]).sum() / (true[1:40:8] - true[0]).sum())
        error = (place - place[start]) * np.exp(-1j * turn) - (true - true[start])
        across = error * np.conj(true[end] - true[start]) / abs(true[end] - true[start])
        ends.append(across[end].real)
        halves.append(across[middle].real)
        steps.append((across[middle + 1] - across[middle]).real)
    sigma = 0.003 + 0.0004 * path.moving[start:end].sum() ** 1.5
    assert sigma == pytest.approx(0.0255, abs=6e-5)
    assert np.std(ends) == pytest.approx(math.hypot(sigma, 0.004 * math.sqrt(2.0)), rel=0.05)
    share = (middle - start) / (end - start)
    assert np.std(steps) == pytest.approx(sigma / math.sqrt(end - start), rel=0.05)
    assert np.std(halves) == pytest.approx(math.hypot(sigma * math.sqrt(share), 0.004), rel=0.05)


def test_the_heavy_variant_has_one_scale_for_all_walks():
    """The ratio of A-B between walks 1 and 4 is then leg and stand noise alone; with own scales it is more."""
    spread = {}
    for variant in ("drawn", "heavy"):
        ratios = []
        for seed in range(1, 401):
            logs = logs_of(make_job("marlisk_yard", seed, variant=variant))
            base = [
                abs(np.subtract(*[places_of(log)[[r["mark"] for r in log].index(m)] for m in "AB"]))
                for log in logs
            ]
            ratios.append(math.log(base[0] / base[3]))
        spread[variant] = float(np.std(ratios))
    assert spread["drawn"] == pytest.approx(0.0024, rel=0.12)
    assert spread["heavy"] < 0.7 * spread["drawn"]


def test_picks_share_one_shift_and_the_shipped_one_is_the_pictures():
    site = find_site("marlisk_yard")
    shifts = {"drawn": [], "committed": []}
    for variant, means in shifts.items():
        for seed in range(1, 301):
            rows = rows_of(make_job(site, seed, variant=variant)["control.csv"])
            gaps = [
                complex(float(r["x"]), float(r["y"])) - complex(*site.to_map(*site.marks[r["mark"]][:2]))
                for r in rows
                if r["x"]
            ]
            means.append(np.mean(gaps))
    assert np.std(np.real(shifts["drawn"])) == pytest.approx(math.hypot(0.10, 0.0125), rel=0.13)
    assert np.mean(shifts["committed"]) == pytest.approx(0.12 - 0.08j, abs=0.003)
    assert np.std(np.real(shifts["committed"])) == pytest.approx(0.0125, rel=0.13)


def test_the_same_seed_gives_the_same_job_and_another_seed_another():
    first = make_job("marlisk_yard", 4)
    assert first == make_job("Marlisk Yard", 4)
    other = make_job("marlisk_yard", 6)
    changed = {name for name in first if first[name] != other[name]}
    assert changed == {"walk_1.csv", "walk_2.csv", "walk_3.csv", "walk_4.csv", "control.csv", "tapes.csv"}


def test_an_unknown_site_variant_or_fault_is_refused_with_the_names_there_are():
    with pytest.raises(
        ValueError, match=r'"yard" is no demo site\. Write one of: marlisk_yard, sorrelback_lane\.'
    ):
        make_job("yard", 1)
    with pytest.raises(ValueError, match=r'"light" is no variant\. Write one of: drawn, committed, heavy\.'):
        make_job("marlisk_yard", 1, variant="light")
    with pytest.raises(ValueError, match=r'"rain" is no seeded fault\. Write one of: marks_exchanged, '):
        faulty_job("rain")


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_spoils_one_file_only(name):
    clean = clean_job(name)
    job, _ = faulty_job(name)
    unanswered = {"decisions.csv"} if name in UNANSWERED else set()
    assert {file for file in clean if job.get(file) != clean[file]} == {FAULTS[name][0], *unanswered}
    assert set(job) == set(clean)


def spoilt(name: str) -> tuple[list[dict[str, str]], list[dict[str, str]], object]:
    """The clean and the spoilt rows of the file that a fault spoils, and the place expected."""
    clean = clean_job(name)[FAULTS[name][0]]
    job, expected = faulty_job(name)
    return rows_of(clean), rows_of(job[FAULTS[name][0]]), expected


def row_at(rows: list[dict[str, str]], place: str) -> int:
    """Index of the row that a place names."""
    return [f"{row['walk']}:{row['station']}" for row in rows].index(place)


def test_marks_exchanged_and_marks_lost_show_in_the_mark_column():
    _, rows, expected = spoilt("marks_exchanged")
    assert [row["mark"] for row in rows if row["mark"]] == ["B", "P", "Q", "A", "B"]
    assert (expected.code, expected.place) == ("TI-03", "W1:1+W1:5")
    _, rows, expected = spoilt("one_mark_only")
    assert [row["mark"] for row in rows if row["mark"]] == ["A"]
    assert (expected.code, rows[-1]["feature"]) == ("TI-01", "Swale")


def test_feet_for_metres_makes_every_length_longer_by_one_factor():
    clean, rows, expected = spoilt("feet_as_metres")
    ratio = np.abs(np.diff(places_of(rows))) / np.maximum(np.abs(np.diff(places_of(clean))), 1e-12)
    long = np.abs(np.diff(places_of(clean))) > 0.5
    assert ratio[long] == pytest.approx(1.0 / 0.3048, rel=1e-5)
    assert expected.code == "IN-03"


def test_the_short_hold_and_the_slow_leg_stand_where_they_are_expected():
    clean, rows, expected = spoilt("short_hold")
    i = row_at(rows, expected.place)
    assert (rows[i]["hold_s"], rows[i]["feature"], expected.code) == ("0.3", "Bed 1", "WK-02")
    moving = [float(t[i + 1]["time"]) - float(t[i]["time"]) - float(t[i]["hold_s"]) for t in (clean, rows)]
    assert moving[0] == pytest.approx(moving[1], abs=2e-6)
    _, rows, expected = spoilt("long_leg")
    i = row_at(rows, expected.place)
    moving = float(rows[i]["time"]) - float(rows[i - 1]["time"]) - float(rows[i - 1]["hold_s"])
    assert moving == pytest.approx(24.0, abs=2e-6)
    assert (rows[i]["leg"], rows[i]["feature"], expected.code) == ("curve-end", "Kerb", "WK-01")


def test_the_pole_is_longer_from_station_fourteen_on():
    clean, rows, expected = spoilt("pole_raised")
    raised = [round(float(b["z"]) - float(a["z"]), 6) for a, b in zip(clean, rows)]
    assert raised == [0.0] * 13 + [0.3] * 21
    assert (expected.code, expected.place, rows[13]["feature"]) == ("WK-03", "W1:14", "Paved court")
    assert rows[12]["feature"] == "Paved court"


def test_the_tape_reads_24_19():
    _, rows, expected = spoilt("wrong_tape")
    assert [row["distance"] for row in rows if (row["from"], row["to"]) == ("A", "B")] == ["24.190000"]
    assert (expected.code, expected.place) == ("SR-01", "A+B")


def test_the_outline_with_two_corners_exchanged_crosses_itself():
    def crosses(points: np.ndarray) -> bool:
        def side(a: complex, b: complex, c: complex) -> float:
            return ((b - a).conjugate() * (c - a)).imag

        edges = list(zip(points, points[1:]))
        return any(
            side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0
            for i, (a, b) in enumerate(edges)
            for c, d in edges[i + 2 :]
            if (i, d) != (0, points[-1])
        )

    clean, rows, expected = spoilt("outline_crosses")
    outlines = [
        places_of([row for row in table if row["feature"] == expected.place]) for table in (clean, rows)
    ]
    assert [crosses(outline) for outline in outlines] == [False, True]
    assert expected.code == "GE-01"


def test_bed_2_is_named_in_two_goes_because_one_pass_lost_its_name():
    clean, rows, expected = spoilt("two_goes")
    changed = [i for i, (a, b) in enumerate(zip(clean, rows)) if a != b]
    assert (len(changed), clean[changed[0]]["feature"], rows[changed[0]]["feature"]) == (1, "Bed 2", "")
    assert (rows[changed[0] - 1]["feature"], rows[changed[0] + 1]["feature"]) == ("Bed 2", "Bed 2")
    assert (expected.code, expected.place) == ("IN-05", "Bed 2")


def test_the_sliver_is_four_centimetres_along_the_whole_shared_edge_away_from_the_court():
    clean, rows, expected = spoilt("sliver")
    before, after = places_of(clean), places_of(rows)
    a, b = (before[next(i for i, row in enumerate(clean) if row["mark"] == mark)] for mark in "AB")
    moved = (after - before) / ((b - a) / abs(b - a))
    changed = np.flatnonzero(np.abs(moved) > 1e-5)
    assert moved[changed] == pytest.approx(np.full(4, -0.04j), abs=2e-6)
    site = {int(row["station"]): row["feature"] for row in rows}
    assert {site[i + 1] for i in changed} == {"Bed 2"}
    # Bed 2 is walked (4,-2.5) (20,-2.5) (22,2) (2,2): the edge is 20 m long and starts at its third corner.
    assert abs(after[changed[-1]] - after[changed[0]]) == pytest.approx(20.0, abs=0.05)
    assert (expected.code, expected.place) == ("GE-02", "Paved court+Bed 2")
    job, _ = faulty_job("sliver")
    assert [row["place"] for row in rows_of(job["decisions.csv"])] == [
        "Paved court+Seat wall", "Paved court+Ramp", "Bed 1 wall/top+Bed 1", "Bed 1 wall/foot+Bed 1",
    ]  # fmt: skip


def test_the_shipped_jobs_are_what_the_generator_writes(tmp_path):
    for path in write_demo(tmp_path, pictures=False):
        assert path.read_bytes() == (DEMO / path.relative_to(tmp_path)).read_bytes(), path.name


@pytest.mark.parametrize("name", SITES)
def test_truth_json_reads_back_with_every_figure(name):
    site = find_site(name)
    held = json.loads(write_truth(site))
    assert (held["site"], held["crs"]) == (site.name, site.crs)
    assert [row["value"] for row in held["sizes"]] == pytest.approx(
        [t.value for t in true_sizes(name)], abs=1e-9
    )


def test_the_generator_shares_no_code_with_the_plugin():
    for path in sorted((ROOT / "scripts" / "demo_jobs").glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [a.name for a in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            assert not [name for name in names if name.split(".")[0] == "plugin"], path.name


@pytest.mark.parametrize(("name", "pixel", "arm"), [("marlisk_yard", 0.05, 2), ("sorrelback_lane", 0.25, 1)])
def test_the_picture_lies_where_its_shift_puts_it_with_a_pale_cross_on_each_mark(name, pixel, arm):
    from osgeo import gdal

    gdal.UseExceptions()
    site = find_site(name)
    picture = gdal.Open(str(DEMO / name / "orthophoto.tif"))
    west, width, turn, north, lean, height = picture.GetGeoTransform()
    assert (width, height, turn, lean) == (pixel, -pixel, 0.0, 0.0)
    assert picture.GetSpatialRef().GetAuthorityCode(None) == site.crs.split(":")[1]
    grey = picture.ReadAsArray().astype(float).mean(axis=0)
    for x, y, _ in site.marks.values():
        east, up = site.to_map(x, y)
        column = int((east + site.shift[0] - west) / pixel)
        row = int((north - up - site.shift[1]) / pixel)
        near = grey[row - 12 : row + 13, column - 12 : column + 13]
        peak = np.unravel_index(np.argmax(near), near.shape)
        assert math.dist(peak, (12, 12)) <= 2.5 * arm + 1.0
        assert near.max() > np.median(near) + 40.0


def test_the_demo_folder_is_small():
    assert sum(path.stat().st_size for path in DEMO.rglob("*") if path.is_file()) < 6_000_000


def test_the_committed_faults_are_what_the_generator_makes(tmp_path):
    from scripts.make_demo import write_faults

    made = write_faults(tmp_path)
    assert len(made) > 60
    for path in made:
        kept = ROOT / "resources" / "faults" / path.relative_to(tmp_path)
        assert kept.read_bytes() == path.read_bytes(), kept.name
