# SPDX-License-Identifier: GPL-2.0-or-later
"""Published rules of gradients, as the shipped table of limits has them; a source beside each.

Keys are those of the project's collection of check values. Printed figures that are wrong are asserted not to be ours.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from plugin.core.ground.falls import fit_fall
from plugin.core.ground.gradient import Slope
from plugin.core.quantity import Quantity
from plugin.core.read.table import read_table
from plugin.core.trade.checks import fall_figures, ramp_figures
from plugin.core.trade.limit_table import read_limits
from plugin.core.trade.limits import Figure, Measured, Outcome, Thing, check_limits, chosen_limits
from plugin.core.trade.ramps import measure_ramp
from plugin.core.trade.worth import PointWorth
from tests.trade_lines import straight

FT = 0.3048
IN = 0.0254
TABLE = Path(__file__).parents[2] / "resources" / "formats" / "limits.csv"
LIMITS, FINDINGS = read_limits(read_table("limits.csv", TABLE.read_bytes()))


def outcome(name, thing, figure, value, rise=None, run=None):
    sizes = [None if v is None else Quantity(v, 0.0, "m") for v in (rise, run)]
    measured = Measured(thing, "x", figure, Quantity(value, 0.0, ""), "", *sizes)
    (check,) = check_limits([measured], [limit for limit in LIMITS if limit.name == name])
    return check.outcome.value


def bound(name, figure=Figure.GRADIENT):
    (limit,) = [limit for limit in LIMITS if (limit.name, limit.figure) == (name, figure)]
    return limit.bounds


def test_the_table_has_no_fault():
    assert FINDINGS == ()


def test_grd_01_running_slope_and_the_table_for_existing_sites():
    """2010 ADA Standards 405.2 and Table 405.2 (seen): 1:12 exactly passes, 8.34 % fails; steeper only by the rise."""
    percent = [100 / n for n in (12, 10, 8)]
    assert percent == pytest.approx([8.33, 10.0, 12.5], abs=0.005)
    plain, old = "ADA 405.2 running slope", "ADA 405.2 existing site"
    ramp, gradient = Thing.RAMP, Figure.GRADIENT
    assert outcome(plain, ramp, gradient, 1 / 12) == "pass"
    assert outcome(plain, ramp, gradient, 0.0834) == "fail"
    assert outcome(plain, ramp, gradient, 1 / 10, rise=6 * IN) == "fail"
    assert outcome(old, ramp, gradient, 1 / 10, rise=6 * IN) == "pass"
    assert outcome(old, ramp, gradient, 1 / 10, rise=6.1 * IN) == "fail"
    assert outcome(old, ramp, gradient, 1 / 8, rise=3 * IN) == "pass"
    assert outcome(old, ramp, gradient, 1 / 8, rise=3.1 * IN) == "fail"
    assert outcome(old, ramp, gradient, 1 / 7.9, rise=1 * IN) == "fail"


def test_grd_02_a_cross_slope_is_held_by_its_size():
    """2010 ADA Standards 405.3 (seen): 1:48. A signed comparison would pass every negative cross slope."""
    assert 100 * bound("ADA 405.3 cross slope", Figure.CROSSFALL)[1] == pytest.approx(2.08, abs=0.005)
    for value, told in ((1 / 48, "pass"), (-1 / 48, "pass"), (0.03, "fail"), (-0.03, "fail")):
        assert outcome("ADA 405.3 cross slope", Thing.RAMP, Figure.CROSSFALL, value) == told


def test_grd_03_a_walking_surface():
    """2010 ADA Standards 403.3 (seen): 1:20."""
    assert bound("ADA 403.3 walking surface")[1] == pytest.approx(0.05, abs=1e-9)


def test_grd_04_rise_landing_and_width():
    """2010 ADA Standards 405.5 to 405.7 (seen): 30 in of rise, which at 1:12 needs 30 ft of run; landings of 60 in at 1:48;
    36 in clear."""
    assert bound("ADA 405.6 rise", Figure.RISE)[1] / (1 / 12) / FT == pytest.approx(30.0, abs=1e-9)
    assert bound("ADA 405.7 landing length", Figure.LENGTH)[0] == pytest.approx(60 * IN)
    assert bound("ADA 405.7 landing slope")[1] == pytest.approx(1 / 48)
    assert bound("ADA 405.5 clear width", Figure.WIDTH)[0] == pytest.approx(36 * IN)


@pytest.mark.parametrize(
    ("going", "n", "rise", "within"), [(10, 20, 500, 0.01), (5, 15, 333, 0.5), (2, 12, 166, 0.7)]
)
def test_grd_06_the_tables_own_rows_pass(going, n, rise, within):
    """Approved Document M Vol 2, Table 1 (seen). 166 mm is truncated: a check of "rise <= 166" would fail the row itself,
    so that gradients are compared."""
    assert 1000 * going / n == pytest.approx(rise, abs=within)
    line = straight((0, 0, 0), (going, 0, going / n))
    figures = ramp_figures("R", measure_ramp((line,), PointWorth(0.0)))
    checks = check_limits(figures, chosen_limits(LIMITS, ("AD M Table 1",)))
    assert {check.outcome for check in checks} == {Outcome.PASSES}
    assert len(checks) == 2


@pytest.mark.parametrize(("going", "n"), [(3, 13), (4, 14), (6, 16), (9, 19)])
def test_grd_07_between_the_rows_one_in_ten_plus_the_going(going, n):
    """Approved Document M Vol 2 (1:14 at 4 m and 1:19 at 9 m in the Document; the others seen on a page that quotes it)."""
    assert outcome("AD M Table 1", Thing.RAMP, Figure.GRADIENT, 1 / n, run=going) == "pass"
    assert outcome("AD M Table 1", Thing.RAMP, Figure.GRADIENT, 1 / (n - 0.01), run=going) == "fail"


def test_grd_09_landings_and_what_is_level():
    """Approved Document M Vol 2, 1.26 (seen): landings 1:60 along and 1:40 across; 0.95 and 2.86 degrees."""
    assert bound("AD M landing")[1] == pytest.approx(1 / 60)
    assert bound("AD M landing", Figure.CROSSFALL)[1] == pytest.approx(1 / 40)
    degrees = [Slope(1.0, n).degrees.value for n in (60.0, 20.0)]
    assert degrees == pytest.approx([0.95, 2.86], abs=0.006)


# GRD-13, lengths by gradient of cycle routes (LTN 1/20, Table 5-8), is from memory alone: until somebody has read the table,
# no limit of it may be shipped.
def test_grd_13_lengths_by_gradient_from_memory_are_no_preset():
    assert [limit.name for limit in LIMITS if "LTN" in f"{limit.name} {limit.source}"] == []


def test_grd_14_ways_for_walking_and_cycling():
    """Active Travel England, planning page (seen): no more than 5 %, crossfall beyond 2.5 % harmful, short pieces 1 in 10."""
    assert bound("Active travel gradient")[1] == pytest.approx(0.05)
    assert bound("Active travel crossfall", Figure.CROSSFALL)[1] == pytest.approx(0.025)
    assert bound("Active travel short piece", Figure.STEEPEST)[1] == pytest.approx(0.1)


def test_grd_16_paving_falls():
    """BS 7533 as quoted on a forum of the trade (seen): 1.25 % is 1:80, 2.5 % is 1:40."""
    assert 1 / bound("BS 7533 fall")[0] == pytest.approx(80, abs=1e-9)
    assert 1 / bound("BS 7533 carriageway", Figure.CROSSFALL)[0] == pytest.approx(40, abs=1e-9)


def test_sec_08_falls_of_patios():
    """Pages of the trade (seen): 7 m at 1:80 fall 87.5 mm, 12.5 mm a metre; 25 mm in 1.5 m is 1:60. 1:60 is printed as 16
    and as 17 mm a metre; it is 16.67."""

    def patio(length, drop):
        return fit_fall(
            np.array([[0, 0, drop], [length, 0, 0], [length, 5, 0], [0, 5, drop]]), 0.0
        ).fall.value

    assert patio(7.0, 0.0875) == pytest.approx(1 / 80, abs=1e-9)
    assert 1 / patio(1.5, 0.025) == pytest.approx(60, abs=1e-9)
    assert 1000 * patio(4.2, 0.07) == pytest.approx(16.666666666666668, rel=1e-9)
    for printed in (16, 17):
        assert 1000 * patio(4.2, 0.07) != pytest.approx(printed, abs=0.3)
    for length, inches in ((16 * FT, 2.0), (12 * FT, 1.5)):
        assert patio(length, inches * IN) == pytest.approx(1 / 96, abs=1e-9)
    fall = Quantity(patio(7.0, 0.0875), 0.0, "ratio")
    checks = check_limits(
        fall_figures("P", fall), chosen_limits(LIMITS, ("Practice paving", "Practice patio"))
    )
    assert [check.outcome.value for check in checks] == ["pass", "fail"]


def test_sec_09_thirty_and_forty_five_millimetres_over_seven_metres():
    """A forum of the trade, November 2003 (seen): 1 in 233 and 155; printed as 0.04 and 0.06 %, a factor of ten off."""
    for drop, n, percent, wrong in (
        (0.030, 233, 0.42857142857142855, 0.04),
        (0.045, 155, 0.6428571428571429, 0.06),
    ):
        plane = fit_fall(np.array([[0, 0, drop], [7, 0, 0], [7, 3, 0], [0, 3, drop]]), 0.0)
        assert 1 / plane.fall.value == pytest.approx(n, abs=0.6)
        assert 100 * plane.fall.value == pytest.approx(percent, rel=1e-9)
        assert 100 * plane.fall.value != pytest.approx(wrong, abs=0.005)
        assert math.degrees(math.atan(plane.fall.value)) < 0.4
        fall = plane.fall
        (check,) = check_limits(fall_figures("P", fall), chosen_limits(LIMITS, ("Practice paving",)))
        assert check.outcome is Outcome.FAILS
