# SPDX-License-Identifier: GPL-2.0-or-later
"""How a walk was walked: slow legs, short holds, times that cannot be; whole messages."""

from __future__ import annotations

import pytest
from builders import make_walk

from plugin.core.check.rules import check_job
from plugin.core.check.sequence import check_holds, check_moves, check_times
from plugin.core.findings import Decisions, Severity
from plugin.core.walk import ErrorGrowth, Job, LogKeys

LINE = [(0, 0), (8, 0), (16, 0), (24, 0)]


def walked(time, hold=(1, 1, 1, 1), leg=None):
    return make_walk(LINE, time=time, hold=hold, feature=["Kerb"] * 4, kind=["length"] * 4, leg=leg)


def test_times_that_leave_no_moving_are_told_once_a_walk():
    (note,) = check_times(walked([0, 0.5, 1.0, 9.0]))
    assert (note.code, note.severity, note.place) == ("WK-01", Severity.NOTE, "W1:1")
    assert note.message == (
        "The times of walk W1 leave no moving time to 2 of its stations (1 is the first) once the hold is taken off; "
        "their legs are judged by their length at walking speed."
    )


@pytest.mark.parametrize("time", [[0, 7, 14, 21], [float("nan")] * 4])
def test_good_times_and_none_are_left_in_peace(time):
    assert check_times(walked(time)) == []
    assert check_moves(walked(time)) == []
    assert check_holds(walked(time)) == []


def test_a_leg_of_more_than_twelve_seconds_of_moving_is_asked_about():
    """13.5 s between arrivals less 1 s of hold is 12.5 s; with 2 s of hold it is 11.5 s."""
    (ask,) = check_moves(walked([0, 13.5, 20, 27]))
    assert (ask.severity, ask.place) == (Severity.ASK, "W1:1")
    assert ask.message == "The leg from 0 to 1 of Kerb took 12 s of moving."
    assert check_moves(walked([0, 13.5, 20, 27], hold=(2, 1, 1, 1))) == []


def test_carried_and_as_walked_ways_may_take_their_time():
    assert check_moves(walked([0, 60, 120, 180], leg=["direct", "carry", "as-walked", "carry"])) == []


def test_passed_points_of_a_curve_need_no_hold_and_corners_do():
    legs = ["direct", "curve", "curve-end", "direct"]
    (ask,) = check_holds(walked([0, 7, 14, 21], hold=(1, 0, 0.3, 1), leg=legs))
    assert ask.message == "Station 2 was held for 0.3 s only."


@pytest.mark.parametrize("growth", [ErrorGrowth.RECEIVER, ErrorGrowth.POINTS])
def test_a_walk_whose_stations_have_places_of_their_own_is_not_asked_how_it_was_walked(growth):
    xy = [(0, 0), (30, 0), (30, 20), (0, 20)]
    columns = {"time": [0, 40, 80, 120], "hold": [0.1] * 4, "feature": ("Bed",) * 4, "kind": ("area",) * 4}
    codes = {}
    for kind in (ErrorGrowth.WALKED, growth):
        walk = make_walk(xy, keys=LogKeys(units="m", growth=kind), **columns)
        codes[kind] = {finding.code for finding in check_job(Job((walk,)), Decisions())}
    assert {"WK-01", "WK-02"} <= codes[ErrorGrowth.WALKED]
    assert not codes[growth] & {"WK-01", "WK-02", "WK-03"}
