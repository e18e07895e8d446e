# SPDX-License-Identifier: GPL-2.0-or-later
"""Times as they are shown: by the clock where the log has one, else in seconds."""

from __future__ import annotations

import pytest

from plugin.core.read.times import clock_times
from plugin.core.read.walk_log import read_walk_log


def shown(*cells, keys="# units: m\n"):
    rows = "".join(f"W,{i},{i},0,{cell}\n" for i, cell in enumerate(cells))
    (walk,), findings = read_walk_log("w.csv", f"{keys}walk,station,x,y,time\n{rows}".encode())
    assert findings == ()
    return clock_times(walk.time, walk.started)


@pytest.mark.parametrize(
    ("cells", "wanted"),
    [
        (("0", "12.5", "", "123456.789"), ["0", "12.5", "", "123456.789"]),
        (("100.25", "101"), ["0", "0.75"]),
        (("2026-05-11T09:00:00", "2026-05-11T09:00:07.125"), ["2026-05-11T09:00:00", "2026-05-11T09:00:07.125"]),
        (("2026-05-11T23:59:59.9996Z", "2026-05-12T00:00:01.5Z"), ["2026-05-11T23:59:59.9996Z", "2026-05-12T00:00:01.5Z"]),
        (("2026-05-11T09:00:00+02:00", "", "2026-05-11T09:01:00+02:00"), ["2026-05-11T09:00:00+02:00", "", "2026-05-11T09:01:00+02:00"]),
        (("09:00:00", "09:00:30"), ["0", "30"]),
        (("", ""), ["", ""]),
    ],
)  # fmt: skip
def test_times_are_shown_as_the_log_counts_them(cells, wanted):
    assert shown(*cells) == wanted


def test_times_of_the_day_take_the_day_of_the_log():
    assert shown("09:00:00", "09:00:30", keys="# units: m\n# date: 2026-05-11\n") == [
        "2026-05-11T09:00:00", "2026-05-11T09:00:30",
    ]  # fmt: skip


def test_parts_of_a_millisecond_are_rounded():
    assert shown("0", "0.12345") == ["0", "0.123"]


def read_times(*cells):
    rows = "".join(f"W,{i},{i},0,{cell}\n" for i, cell in enumerate(cells))
    walks, findings = read_walk_log("w.csv", f"# units: m\nwalk,station,x,y,time\n{rows}".encode())
    return walks[0].time.tolist(), [finding.message for finding in findings]


@pytest.mark.parametrize(
    ("cells", "seconds"),
    [
        (("2026-05-11T09:00:00", "2026-05-11T09:00:00.000000001", "2026-05-11 09:00:01.5"), [0, 1e-9, 1.5]),
        (
            ("2024-02-28T23:59:59.25Z", "2024-02-29T00:00:00Z", "2024-03-01T00:00:00.5Z"),
            [0, 0.75, 86400.0 + 1.25],
        ),
        (("1999-12-31T23:59:59+05:30", "2000-01-01T00:00:00+05:30"), [0, 1]),
        (("1969-12-31T23:59:59.5", "1970-01-01T00:00:00.5"), [0, 1]),
        (("2026-05-11T09:00:00+02:00", "2026-05-11T09:00:00+01:00"), [0, 3600]),
    ],
)
def test_times_of_any_number_of_decimals_count_to_the_nanosecond(cells, seconds):
    assert read_times(*cells) == (pytest.approx(seconds, rel=0, abs=1e-12), [])


@pytest.mark.parametrize(
    "cell",
    [
        "2026-05-11T09:00:00.", "2026-05-11T09:00:60", "2026-05-11T24:00:00", "2026-00-11T09:00:00", "2025-02-29T09:00:00",
        "2026-05-32T09:00:00", "2026-05-00T09:00:00", "2026-05-11T09:00:0x", "2026-05-11T09:00:00.1.2", "3026-05-11T09:00:00",
        "0026-05-11T09:00:00", "2026-05-11T09:00:00,", "NaT", "now",
    ],
)  # fmt: skip
def test_a_cell_that_is_no_time_is_told_and_the_others_are_read(cell):
    if cell.endswith(","):  # a comma more is a field more
        cell = '"' + cell + '"'
    times, told = read_times("2026-05-11T09:00:00", cell, "2026-05-11T09:00:02.5")
    assert times == [0, 2.5]
    shown = cell.strip('"')
    assert told == [f'w.csv, line 4, column time: "{shown}" is not a time.']


@pytest.mark.parametrize("cell", ["1_000", "0x10", "1.2.3"])
def test_seconds_that_are_no_number_are_told(cell):
    assert read_times("0", cell, "1e1", "+2.5") == (
        [0, 10, 2.5],
        [
            f'w.csv, line 4, column time: "{cell}" is not a time.',
            "w.csv, line 6: the time of station 3 of walk W is 7.500 s before the time of station 2.",
        ],
    )
