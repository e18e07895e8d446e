# SPDX-License-Identifier: GPL-2.0-or-later
"""Published unit factors and conversions, to their printed digits."""

from __future__ import annotations

from fractions import Fraction

import pytest

from plugin.core.units import UNITS, convert, format_feet_inches

# T7-01. NIST (December 2020), revised unit conversion factors after the deprecation of the US survey foot;
# Federal Register notice 2020-21902.
NIST = {
    "ft": 0.3048, "us-ft": 0.304800609601, "chain": 20.1168, "us-chain": 20.116840234, "mile": 1609.344,
    "us-mile": 1609.347218694, "rod": 5.0292, "us-rod": 5.029210058, "link": 0.201168, "us-link": 0.201168402,
    "acre": 4046.8564224, "us-acre": 4046.872609874, "mile2": 2589988.110336, "us-mile2": 2589998.470319521,
    "acre-ft": 1233.48183754752, "us-acre-ft": 1233.489238468149, "rod2": 25.29285264, "us-rod2": 25.292953812,
}  # fmt: skip
NIST_TOLERANCE = {"us-mile2": 6e-9, "us-acre-ft": 1e-11}
"""In the unit's own SI unit: half the last printed digit, and a float's own rounding for these two."""


@pytest.mark.parametrize("unit", NIST)
def test_factors_are_those_of_the_national_institute(unit):
    assert abs(UNITS[unit].factor - NIST[unit]) <= NIST_TOLERANCE.get(unit, 6e-10)


def test_metres_of_a_state_plane_point_in_both_feet():
    # T7-03. NGS conversion sample: one point in metres, US survey feet and international feet; the metres are
    # rounded to 1 mm, so 1.8 thousandths of a foot play.
    north, east = 76470.391, 407886.681
    assert [convert(v, "m", "us-ft") for v in (north, east)] == pytest.approx(
        [250886.607, 1338208.22], abs=0.0018
    )
    assert [convert(v, "m", "ft") for v in (north, east)] == pytest.approx(
        [250887.109, 1338210.896], abs=0.0018
    )


def test_the_two_feet_are_told_apart_at_that_point():
    # The same sample as a negative test: taking one foot for the other misses by 2.7 ft at this distance.
    assert abs(convert(407886.681, "m", "ft") - 1338208.22) > 2.6


def test_the_us_survey_acre_is_its_exact_fraction():
    # T7-04. US survey acre as the exact fraction 4046 + 13,525,426/15,499,969 m2.
    assert UNITS["us-acre"].size == 4046 + Fraction(13_525_426, 15_499_969)
    assert abs(UNITS["us-acre"].factor - 4046.872609874252) <= 1e-10


@pytest.mark.parametrize(("links", "metres"), [(1000, 201.168), (3000, 603.504), (100, 20.1168)])
def test_links_of_an_old_plan_in_metres(links, metres):
    # T7-05. Deakin, R.E. (2007), Coordinate Transformations for Cadastral Surveying, RMIT University.
    assert convert(links, "link", "m") == pytest.approx(metres, abs=1e-9)


@pytest.mark.parametrize(
    ("feet", "text"), [(8.62, "8-7 7/16"), (5.92, "5-11 1/16"), (12.39, "12-4 11/16"), (14.26, "14-3 1/8")]
)
def test_decimal_feet_to_the_nearest_sixteenth(feet, text):
    # T7-06. Trade pages on decimal feet to feet, inches and sixteenths; the fraction is reduced.
    assert format_feet_inches(convert(feet, "ft", "m"), 16, marks=False) == text
