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
