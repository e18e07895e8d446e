# SPDX-License-Identifier: GPL-2.0-or-later
"""Degrees as people write them."""

from __future__ import annotations

import pytest

from plugin.core.read.points.degrees import is_degrees, parse_degrees

# Public samples of NMEA 0183 GGA: degrees and minutes on the left (there written ddmm.mmm), decimal degrees as published
PUBLISHED = [
    ("48°07.038'N", "NS", 48.1173), ("11°31.000'E", "EW", 11.51666667),
    ("54°00.6000'N", "NS", 54.01), ("002°47.1000'W", "EW", -2.785),
    ("50°58.7457'N", "NS", 50.979095), ("6°47.0514'E", "EW", 6.78419),
    ("47°51.698'N", "NS", 47.86163333), ("122°09.774'W", "EW", -122.1629),
]  # fmt: skip


@pytest.mark.parametrize(("text", "hemispheres", "degrees"), PUBLISHED)
def test_published_positions_come_out(text, hemispheres, degrees):
    # to the eight printed decimals
    assert parse_degrees(text, hemispheres) == pytest.approx(degrees, abs=6e-9)


@pytest.mark.parametrize(
    "text",
    [
        "48°07'02.3\"N", "48°07′02.3″N", "48º07’02.3”N", "48°07'02.3''N", "N 48°07'02.3\"", "N48 07 02.3",
        "48 07 02.3", "48:07:02.3", "48:07:02.3 n", "48d07m02.3s", "+48°07'02,3\"", "  48° 07' 02.3\" N ",
    ],
)  # fmt: skip
def test_every_way_to_write_it_is_the_same_angle(text):
    # 48 + 7/60 + 2.3/3600
    assert parse_degrees(text, "NS") == pytest.approx(48 + 7 / 60 + 2.3 / 3600, abs=1e-12)


def test_south_west_and_minus_are_negative_and_a_small_minus_keeps_its_sign():
    assert (
        parse_degrees("11°30'S", "NS")
        == parse_degrees("-11°30'", "NS")
        == parse_degrees("S11.5", "NS")
        == -11.5
    )
    assert (
        parse_degrees("0°30'W", "EW")
        == parse_degrees("-0 30", "EW")
        == parse_degrees("\u22120:30", "EW")
        == -0.5
    )


@pytest.mark.parametrize(
    "text",
    [
        "", "N", "north", "48°60'N", "48°07'60\"N", "48.5°30'N", "48°7.5'30\"N", "-48°N", "N48°S", "48°N48", "1e5", "nan",
        "48°07'02.3\"E", "1234°", "48°07'02\"03", "°", "48°°", "4 8 1 2",
    ],
)  # fmt: skip
def test_what_is_no_latitude_is_none(text):
    assert parse_degrees(text, "NS") is None


def test_numbers_and_names_are_no_written_degrees():
    assert not any(
        map(is_degrees, ["48.1173", "-3", "5000,12", "N1", "E 5", "S12", "W1.2", "tree", "", "1e5", "P 1"])
    )
    assert all(map(is_degrees, ["48°", "N48.1173", "48.1173N", "48 07", "48:07"]))


def test_a_long_text_takes_no_time():
    assert parse_degrees("1 " * 100_000, "NS") is None
    assert not is_degrees("1" * 100_000)
