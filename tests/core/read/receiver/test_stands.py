# SPDX-License-Identifier: GPL-2.0-or-later
"""Stands among fixes: found in any receiver's noise that allows it, and not in a slow walk."""

from __future__ import annotations

import time as clock

import numpy as np
import pyproj
import pytest

from plugin.core.read.receiver.fixes import Fixes, as_texts, started_at, stem_of, walk_rows
from plugin.core.read.receiver.stands import find_stands, walked_metres
from plugin.core.walk import Leg

GEOD = pyproj.Geod(ellps="WGS84")


def track(legs, hz=1.0, white=0.005, seed=0, outliers=0.0, turn=0.02):
    """Times and places of (seconds, m/s) after one another, with noise from fix to fix and outliers of ten times 0.3 m."""
    rng = np.random.default_rng(seed)
    speed = np.concatenate([np.full(round(seconds * hz), v) for seconds, v in legs])
    n = len(speed)
    heading = np.cumsum(rng.normal(0, turn / np.sqrt(hz), n))
    xy = np.cumsum(np.column_stack([np.cos(heading), np.sin(heading)]) * speed[:, None] / hz, axis=0)
    xy += rng.normal(0, white, (n, 2))
    wrong = rng.random(n) < outliers
    xy[wrong] += rng.normal(0, 3.0, (int(wrong.sum()), 2))
    return np.arange(n) / hz, xy


def found(time, xy, sd):
    """(first, last) time of each stand."""
    return [(time[s.first], time[s.end - 1]) for s in find_stands(time, xy, np.full(len(time), sd))]


LEGS = [(30, 1.2), (10, 0), (30, 1.2), (6, 0), (20, 1.2), (60, 0), (20, 1.2)]
TRUE = [(30, 40), (70, 76), (96, 156)]


def near(stands, slack):
    """Whether the stands are the true ones, their ends to `slack` seconds."""
    return len(stands) == len(TRUE) and all(
        abs(a - b) <= slack for stand, true in zip(stands, TRUE) for a, b in zip(stand, true)
    )


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize(
    ("hz", "white", "sd", "outliers", "slack"),
    [
        (1, 0.0, 0.02, 0, 1.0),
        (1, 0.005, 0.02, 0, 1.0),
        (10, 0.01, 0.02, 0, 1.0),
        (5, 0.01, 0.02, 0.03, 1.2),  # one fix in thirty is metres off
        (1, 0.1, 0.3, 0, 2.0),
        (1, 0.2, 4.0, 0, 3.0),  # a phone: the fixes scatter little, their common error is metres
    ],
)
def test_stands_between_walks_are_found_whole(hz, white, sd, outliers, slack, seed):
    time, xy = track(LEGS, hz, white, seed, outliers)
    assert near(found(time, xy, sd), slack)


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("move", ["as is", "turned", "mirrored", "moved", "reversed"])
def test_stands_are_the_same_turned_mirrored_moved_and_reversed(move, seed):
    time, xy = track(LEGS, 5, 0.01, seed)
    stands = found(time, xy, 0.02)
    cos, sin = np.cos(2.3), np.sin(2.3)
    moved = {
        "as is": xy, "turned": xy @ np.array([[cos, sin], [-sin, cos]]), "mirrored": xy * [-1, 1],
        "moved": xy + [1e7, -1e7], "reversed": xy[::-1],
    }[move]  # fmt: skip
    got = found(time, moved, 0.02)
    if move == "reversed":
        got = [(time[-1] - b, time[-1] - a) for a, b in reversed(got)]
    assert len(got) == len(stands) == 3
    np.testing.assert_allclose(got, stands, atol=0.41)


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize(
    ("hz", "white", "sd"),
    [
        (1, 0.0, 4.0),
        (1, 0.01, 0.02),
        (10, 0.01, 0.02),
        (1, 0.3, 4.0),
        (5, 0.3, 1.5),
        (1, 1.0, 4.0),
        (1, 3.0, 4.0),
    ],
)
def test_a_slow_walk_is_no_stand(hz, white, sd, seed):
    time, xy = track([(300, 0.3)], hz, white, seed)
    assert found(time, xy, sd) == []


def test_with_rtk_a_creep_is_no_stand():
    time, xy = track([(300, 0.05)], 1, 0.005)
    assert found(time, xy, 0.02) == []


def test_a_drifting_receiver_does_not_break_a_stand():
    """The common error of a phone wanders by metres over minutes; it stays one stand."""
    rng = np.random.default_rng(3)
    time, xy = track([(30, 1.2), (120, 0), (30, 1.2)], 1, 0.1)
    drift = np.cumsum(rng.normal(0, 0.08, xy.shape), axis=0)
    ((first, last),) = found(time, xy + drift, 4.0)
    assert abs(first - 30) < 4
    assert abs(last - 150) < 4


def test_a_hold_shorter_than_five_seconds_is_no_stand():
    time, xy = track([(30, 1.2), (4, 0), (30, 1.2)], 5, 0.005)
    assert found(time, xy, 0.02) == []


def test_two_stands_a_metre_apart_are_two():
    time, xy = track([(20, 0), (2, 0.5), (20, 0)], 5, 0.005, turn=0)
    assert len(found(time, xy, 0.02)) == 2


def test_a_turn_on_the_spot_is_no_stand():
    """Out and back at walking pace: still for an instant only."""
    time = np.arange(60.0)
    xy = np.column_stack([30 - np.abs(time - 30), np.zeros(60)])
    assert found(time, xy, 0.02) == []


@pytest.mark.parametrize("n", [0, 1, 2, 3, 4])
def test_few_fixes_have_no_stand(n):
    time, xy = np.arange(float(n)), np.zeros((n, 2))
    assert found(time, xy, 0.02) == []


def test_equal_times_and_equal_places_are_survived():
    assert found(np.zeros(50), np.zeros((50, 2)), 0.02) == []
    assert found(np.arange(50.0), np.zeros((50, 2)), 0.02) == [(0.0, 49.0)]


def test_two_hundred_thousand_fixes_take_seconds_whatever_they_are():
    """Linear in every shape: all one stand, one stand after another, and a mess that is slow and goes nowhere."""
    rng = np.random.default_rng(5)
    n = 200_000
    time = np.arange(n) * 0.5
    walk = np.cumsum(np.where(time // 10 % 2 == 0, 0.6, 0.0))
    shapes = {
        "one stand": rng.normal(0, 0.01, (n, 2)),
        "many": np.column_stack([walk, np.zeros(n)]) + rng.normal(0, 0.01, (n, 2)),
        "wander": np.cumsum(rng.normal(0, 0.05, (n, 2)), axis=0) % 8.0,
    }
    for name, xy in shapes.items():
        begin = clock.process_time()
        stands = find_stands(time, xy, np.full(n, 4.0 if name == "wander" else 0.02))
        assert clock.process_time() - begin < 6, name
        if name == "one stand":
            assert [(s.first, s.end) for s in stands] == [(0, n)]
        elif name == "many":
            assert len(stands) == pytest.approx(n / 40, abs=n / 4000)


# --- sigma ---


def test_the_sigma_of_a_stand_is_its_scatter_where_that_is_more_than_the_stated_one():
    """Ten independent ones in 200 s: 0.2 m / sqrt(10), to three sigma of a scatter from 402 numbers."""
    time = np.arange(201.0)
    xy = np.random.default_rng(4).normal(0, 0.2, (201, 2))
    (stand,) = find_stands(time, xy, np.full(201, 0.05))
    assert stand.sd_xy == pytest.approx(0.2 / np.sqrt(10), rel=3 / np.sqrt(2 * 402))
    (stated,) = find_stands(time, xy, np.full(201, 0.3))
    assert stated.sd_xy == 0.3


def test_the_sigma_of_a_stand_does_not_shrink_with_the_number_of_fixes():
    """Monte Carlo: the error common to all fixes of a stand stays in their mean; the stated sigma must hold it."""
    rng = np.random.default_rng(11)
    off, sigma = [], []
    for _ in range(300):
        common = rng.normal(0, 0.3, 2)
        xy = common + rng.normal(0, 0.05, (60, 2))
        (stand,) = find_stands(np.arange(60.0), xy, np.full(60, 0.3))
        off.append(xy[list(stand.rows)].mean(axis=0))
        sigma.append(stand.sd_xy)
    pulls = np.array(off) / np.array(sigma)[:, None]
    # 600 standard normals: their RMS is 1 within three times 1 / sqrt(1200)
    assert np.sqrt(np.mean(pulls**2)) == pytest.approx(1.0, abs=3 / np.sqrt(1200))


def fixes(lon, lat, time, sd_xy=np.nan, assumed=0.02):
    n = len(lon)
    full = np.full(n, np.nan)
    return Fixes(
        np.asarray(lon, float), np.asarray(lat, float), full, np.asarray(time, float), np.arange(1, n + 1),
        np.broadcast_to(sd_xy, n).astype(float), full, np.full(n, assumed), {"n": as_texts(np.arange(float(n)))},
    )  # fmt: skip


def test_a_stands_place_is_weighted_by_the_stated_sigma():
    """Half the fixes with sigma 1, half with 2, 1e-8 degrees apart: 4/5 of the weight to the first."""
    time = np.arange(20.0)
    lat = np.where(time % 2 == 0, 48.0, 48.0 + 1e-8)
    rows = walk_rows(fixes(np.full(20, 11.0), lat, time, np.where(time % 2 == 0, 0.01, 0.02)), "A")
    assert rows.xy[0, 1] - 48.0 == pytest.approx(0.2e-8, rel=1e-4)
    assert len(rows.xy) == 1
    assert list(rows.extra["fixes"]) == ["20"]


def test_without_times_or_with_times_that_run_back_nothing_is_a_stand():
    still = np.full(30, 11.0), np.full(30, 48.0)
    for time in (np.full(30, np.nan), np.arange(30.0)[::-1]):
        rows = walk_rows(fixes(*still, time), "A")
        assert len(rows.xy) == 30
        assert set(rows.leg) == {Leg.AS_WALKED}


# --- metres ---


@pytest.mark.parametrize("lat", [-89.9, -60.0, 0.0, 23.4, 48.0, 89.0])
@pytest.mark.parametrize("turn", range(0, 360, 45))
def test_steps_are_as_long_as_geodesics_to_1e_6(lat, turn):
    """Against pyproj's geodesics, legs of 500 m in a row, across 180 degrees too; the pole apart."""
    lon, lat_all = [179.999], [lat]
    for _ in range(5):
        x, y, _ = GEOD.fwd(lon[-1], lat_all[-1], turn, 500.0 if abs(lat) < 89.5 else 5.0)
        lon.append(x)
        lat_all.append(y)
    steps = np.diff(walked_metres(np.array(lon), np.array(lat_all)), axis=0)
    np.testing.assert_allclose(np.hypot(*steps.T), 500.0 if abs(lat) < 89.5 else 5.0, rtol=1e-6)


def test_east_is_x_and_north_is_y():
    np.testing.assert_array_equal(
        np.sign(walked_metres(np.array([0.0, 1e-3]), np.array([0.0, 1e-3]))[1]), [1, 1]
    )
    assert walked_metres(np.zeros(0), np.zeros(0)).shape == (0, 2)


def test_a_wrong_fix_far_away_does_not_bend_what_follows():
    lat = np.array([48.0, 0.0, 48.0, 48.00001])
    lon = np.array([11.0, 0.0, 11.0, 11.0])
    xy = walked_metres(lon, lat)
    assert np.hypot(*(xy[2] - xy[0])) < 1e-6
    assert np.hypot(*(xy[3] - xy[2])) == pytest.approx(1.112, abs=1e-3)


# --- small things ---


@pytest.mark.parametrize(
    ("file", "stem"),
    [
        ("a/b/yard.nmea", "yard"), ("c:\\logs\\yard.1.gpx", "yard.1"), (".gpx", ".gpx"), ("yard", "yard"), ("a.b/yard", "yard"),
    ],
)  # fmt: skip
def test_a_stem_is_the_name_without_folders_and_its_last_extension(file, stem):
    assert stem_of(file) == stem


def test_numbers_as_text_are_as_short_as_they_are_exact():
    assert as_texts(np.array([8.0, np.nan, 0.9, -33.902, 1e-9])) == ("8", "", "0.9", "-33.902", "1e-09")
    assert as_texts(np.zeros(0)) == ()


def test_a_start_is_written_with_its_day_and_zone():
    assert started_at(8847, 45319.0) == "1994-03-23T12:35:19Z"
    assert started_at(0, 0.25) == "1970-01-01T00:00:00.25Z"
