# SPDX-License-Identifier: GPL-2.0-or-later
"""Published slopes, falls and end areas, to their printed digits; a source beside each.

Keys are those of the project's collection of check values. Values marked "computed" are not published; they are closed
forms, asserted to 1e-6 relative. Printed figures that are wrong are asserted not to be ours.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.ground.end_areas import end_area_volumes, prismoid_volumes, prismoidal_correction
from plugin.core.ground.gradient import Slope, ratio_of_degrees

FT = 0.3048
YD3 = 27.0
"""Cubic feet."""


def test_vol_01_six_stations_with_the_pyramid_rule_where_an_end_is_zero():
    """Wikibooks, Fundamentals of Transportation, Earthwork, Solution (seen). Plain average end area would give 4,100
    and 1,100."""
    stations = np.array([0, 50, 75, 100, 115, 150], float)
    fill = end_area_volumes(stations, np.array([60, 50, 25, 5, 0, 0], float))
    cut = end_area_volumes(stations, np.array([0, 0, 0, 10, 15, 30], float))
    assert fill.total == pytest.approx(4087.5, abs=0.06)
    assert cut.total == pytest.approx(1058.3, abs=0.06)
    assert fill.total - cut.total == pytest.approx(3029.2, abs=0.06)
    assert (fill.plain_total, cut.plain_total) == (4100.0, 1100.0)
    assert fill.total != pytest.approx(4100, abs=1.0)
    assert cut.total != pytest.approx(1100, abs=1.0)


def test_vol_02_average_end_area():
    """open-exam-prep.com, FS surveying guide 8.5 (seen): 80 and 140 ft2, 100 ft apart, are 11,000 ft3."""
    told = end_area_volumes(np.array([0.0, 100.0]), np.array([80.0, 140.0]))
    assert told.total == pytest.approx(11000, abs=1e-6)
    assert told.total / YD3 == pytest.approx(407.4074074074074, rel=1e-6)  # computed


def test_vol_03_a_prismoid():
    """T. G. Hicks (ed.), Handbook of Civil Engineering Calculations (seen): 1,504, 1,860 and 2,240 ft2, 100 ft. Printed as
    5,278.8 m3, which was converted from the rounded 6,904 yd3."""
    chainage, areas = np.array([0.0, 100.0]), np.array([1504.0, 2240.0])
    cubic_feet = prismoid_volumes(chainage, areas, np.array([1860.0]))[0]
    assert cubic_feet / YD3 == pytest.approx(6904, abs=0.5)
    assert cubic_feet * FT**3 == pytest.approx(5278.260204748801, rel=1e-9)
    assert cubic_feet * FT**3 != pytest.approx(5278.8, abs=0.3)
    assert end_area_volumes(chainage, areas).total / YD3 == pytest.approx(6933.333333333333, rel=1e-9)


def test_vol_14_the_prismoidal_correction_of_triangular_sections():
    """C = L/12 (c1 - c2)(d1 - d2): Earthworks slides (formula seen, numbers computed): 315 - 285 = 30."""
    chainage = np.array([0.0, 30.0])
    average = end_area_volumes(chainage, np.array([18.0, 3.0])).total
    prismoid = prismoid_volumes(chainage, np.array([18.0, 3.0]), np.array([9.0 * 2.0 / 2]))[0]
    assert (average, prismoid) == pytest.approx((315.0, 285.0), rel=1e-9)
    assert prismoidal_correction((12.0, 6.0), (3.0, 1.0), 30.0) == pytest.approx(average - prismoid)


def test_sec_01_three_slope_lengths_to_plan():
    """jiskha.com, a surveying exercise (inputs seen, outputs computed)."""
    a = Slope.of_slope_length(25.333, ratio_of_degrees(1 + 50 / 60))
    b = Slope.of_slope_length(177.5, 0.03)
    c = Slope.of_slope_and_rise(29.705, 3.658)
    assert [s.run for s in (a, b, c)] == pytest.approx(
        [25.320032472508043, 177.4201788752201, 29.478908748459464], rel=1e-6
    )
    assert [s.slope_length.value for s in (a, b, c)] == pytest.approx([25.333, 177.5, 29.705], rel=1e-12)


def test_sec_03_a_length_along_nine_degrees():
    """A hand clinometer's printed manual, p. 14 (seen). Printed 24.6, which is truncated, and 2.3 % too long at 9 degrees,
    which is 1.2 %."""
    slope = Slope.of_slope_length(25.0, ratio_of_degrees(9.0))
    assert slope.run / 25.0 == pytest.approx(0.987, abs=0.001)
    assert slope.run == pytest.approx(24.692208514878445, rel=1e-9)
    assert slope.run != pytest.approx(24.6, abs=0.05)
    too_long = 100.0 * (1.0 - slope.run / slope.slope_length.value)
    assert too_long == pytest.approx(1.231165940486223, rel=1e-9)
    assert too_long != pytest.approx(2.3, abs=0.1)
    steep = Slope.of_slope_length(1.0, ratio_of_degrees(35.0))
    assert 100.0 * (1.0 - steep.run) == pytest.approx(18, abs=0.5)


@pytest.mark.parametrize(
    ("percent", "degrees", "within"),
    [(2, 1.15, 0.005), (5, 2.86, 0.005), (8.33, 4.76, 0.005), (10, 5.71, 0.005), (25, 14.0, 0.05),
     (50, 26.6, 0.05), (100, 45.0, 1e-9)],
)  # fmt: skip
def test_sec_04_percent_to_degrees(percent, degrees, within):
    """devutl.com, percent/degree reference table (seen)."""
    slope = Slope(percent / 100.0, 1.0)
    assert slope.degrees.value == pytest.approx(degrees, abs=within)
    assert slope.percent.value == pytest.approx(percent)


def test_sec_06_a_pad_that_falls_two_percent():
    """Landscape Site Grading Principles, fig. 12.5 (seen): from 104.5 to 102.5 over 100 ft."""
    slope = Slope((102.5 - 104.5) * FT, 100.0 * FT)
    assert slope.percent.value == pytest.approx(-2.0, abs=1e-9)
    assert 104.5 + slope.ratio.value * 100.0 == pytest.approx(102.5, abs=1e-9)


def test_sec_08_falls_of_patios():
    """minsterpaving.co.uk (7 m at 1:80), cheapshoesformenwomen.com extract (1 in per 8 ft), patiolist.com (12.5 mm a
    metre, 25 mm in 1.5 m) (seen)."""
    assert Slope(0.0875, 7.0).one_in.value == pytest.approx(80, abs=1e-9)
    assert 1000.0 * Slope(1.0, 80.0).ratio.value == pytest.approx(12.5, abs=1e-9)
    for run_ft, fall_in in ((16, 2.0), (12, 1.5)):
        slope = Slope(fall_in / 12 * FT, run_ft * FT)
        assert slope.inch_per_foot.value == pytest.approx(1 / 8, abs=1e-9)
    assert Slope(0.025, 1.5).one_in.value == pytest.approx(60, abs=1e-9)
    # Printed as both 16 and 17 mm a metre at 1:60.
    assert 1000.0 * Slope(0.07, 4.2).ratio.value == pytest.approx(16.666666666666668, rel=1e-6)


@pytest.mark.parametrize(
    ("fall", "one_in", "within", "wrong", "percent"),
    [(0.03, 233, 0.5, 0.04, 0.42857142857142855), (0.045, 155, 0.6, 0.06, 0.6428571428571429)],
)
def test_sec_09_a_ratio_that_is_right_beside_a_percent_that_is_ten_times_too_small(
    fall, one_in, within, wrong, percent
):
    """pavingexpert.com forum, November 2003 (seen): 30 and 45 mm over 7 m; the percent in the same line is wrong."""
    slope = Slope(fall, 7.0)
    assert slope.one_in.value == pytest.approx(one_in, abs=within)
    assert slope.percent.value == pytest.approx(percent, rel=1e-9)
    assert slope.percent.value != pytest.approx(wrong, abs=0.005)


@pytest.mark.parametrize(
    ("n", "percent", "within"),
    [(12, 8.33, 0.005), (10, 10.0, 0.005), (8, 12.5, 0.005), (48, 2.08, 0.005), (20, 5.0, 1e-9), (80, 1.25, 1e-9),
     (40, 2.5, 1e-9)],
)  # fmt: skip
def test_grd_01_02_03_16_one_in_n_as_percent(n, percent, within):
    """2010 ADA Standards 405.2, 405.3, 403.3 and 406.3; BS 7533 quoted on pavingexpert.com forum (seen)."""
    assert Slope(1.0, float(n)).percent.value == pytest.approx(percent, abs=within)


def test_grd_04_06_07_runs_and_rises_of_ramps():
    """2010 ADA Standards 405.6: 30 in at 1:12 take 30 ft. Approved Document M vol. 2, Table 1 (quoted in a public
    repository): 10 m at 1:20 rise 500 mm, 5 m at 1:15 333, 2 m at 1:12 166, which is truncated (seen)."""
    assert Slope(30 / 12 * FT, 30.0 * FT).one_in.value == pytest.approx(12.0, abs=1e-9)
    for going, rise, within in ((10, 500, 0.01), (5, 333, 0.5), (2, 166, 0.7)):
        slope = Slope(going / (10.0 + going), float(going))
        assert 1000.0 * slope.rise == pytest.approx(rise, abs=within)
        assert slope.one_in.value == pytest.approx(10 + going)


@pytest.mark.parametrize(("n", "degrees"), [(60, 0.95), (20, 2.86)])
def test_grd_09_one_in_n_as_degrees(n, degrees):
    """Approved Document M, definitions on designingbuildings.co.uk (seen)."""
    assert Slope(1.0, float(n)).degrees.value == pytest.approx(degrees, abs=0.006)


def test_srf_01_the_factor_of_a_slopes_length():
    """'Slope measurement and area estimation for hydraulic applications', erosioncontrolnetwork.com, 2010, fig. 2
    (seen): 1.4142 at 1:1 and 1.0198 at 5:1."""
    assert Slope(1.0, 1.0).slope_length.value == pytest.approx(1.4142, abs=5e-5)
    assert Slope(1.0, 5.0).slope_length.value / 5.0 == pytest.approx(1.0198, abs=5e-5)


@pytest.mark.parametrize(
    ("percent", "more"), [(5, 0.124921972503933), (10, 0.498756211208895), (20, 1.9803902718557032)]
)
def test_srf_03_how_much_a_slope_adds(percent, more):
    """Arithmetic (computed)."""
    slope = Slope(percent / 100.0, 1.0)
    assert 100.0 * (slope.slope_length.value - 1.0) == pytest.approx(more, rel=1e-6)
    assert math.isnan(slope.rise_sigma)
