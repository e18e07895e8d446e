# SPDX-License-Identifier: GPL-2.0-or-later
"""Loose, compacted, tonnes and loads, by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.ground.earthwork import Soil, reckon_earthwork, whole_loads
from plugin.core.ground.volume import volume_to_level
from tests.core.ground.grounds import surface_of


def slope(high, **worth):
    """Over 20 x 10 m: cut to `high` m at one end, fill to 1 m at the other."""
    return surface_of(
        [[0, 0, -1], [20, 0, high], [20, 10, high], [0, 10, -1]], [[0, 1, 2], [0, 2, 3]], **worth
    )


def test_soil_left_over_goes_away():
    volumes = volume_to_level(slope(3.0), 0.0)
    # 15 m of cut: 15 * 3 / 2 * 10 = 225 m3; 5 m of fill: 25 m3, 25 / 0.9 in the bank.
    work = reckon_earthwork(volumes, Soil(1.3, 0.9, 1.0, 1.8, 8.0, 10.0))
    assert (work.cut.value, work.fill.value) == pytest.approx((225 * 1.3, 25 / 0.9))
    assert work.balance.value == pytest.approx(225 - 25 / 0.9)
    assert work.away.bank.value == pytest.approx(197.2222222222)
    assert work.away.loose.value == pytest.approx(256.3888888889)
    assert work.away.mass.value == pytest.approx(355.0)
    # 32.05 loads by volume, 35.5 by mass.
    assert (work.away.loads, work.away.by) == (36, "mass")
    assert (work.bring.bank.value, work.bring.loads, work.bring.by) == (0.0, 0, "")
    assert work.working == (
        "cut_loose_m3 = cut_m3 * 1.3",
        "fill_bank_m3 = fill_m3 / 0.9",
        "balance_m3 = cut_m3 * 1 - fill_bank_m3",
        "away_m3 = max(balance_m3, 0) + cut_m3 * 0",
        "bring_m3 = max(-balance_m3, 0)",
        "loose = bank * 1.3",
        "mass = bank * 1.8 t/m3",
        "loads of 8 m3 loose or 10 t, whole",
    )


def test_what_is_missing_is_brought_and_the_unfit_goes_away():
    volumes = volume_to_level(slope(0.5), 0.0)
    cut, fill = volumes.cut.value, volumes.fill.value
    work = reckon_earthwork(volumes, Soil(1.25, 0.8, 0.6, load_m3=6.0))
    assert work.bring.bank.value == pytest.approx(fill / 0.8 - 0.6 * cut)
    assert work.away.bank.value == pytest.approx(0.4 * cut)
    assert work.balance.value == -work.bring.bank.value
    assert work.bring.loads == math.ceil(work.bring.loose.value / 6.0)
    assert work.bring.mass is None
    # Bank soil is neither made nor lost: what is dug and brought is what is laid and goes away.
    assert cut + work.bring.bank.value == pytest.approx(fill / 0.8 + work.away.bank.value)


def test_the_sigma_of_the_balance_knows_that_cut_and_fill_move_together():
    volumes = volume_to_level(slope(3.0), 0.0, common=0.01)
    work = reckon_earthwork(volumes, Soil(shrink=0.9))
    # 150 m2 of cut and 50 m2 of fill go up by a centimetre: 1.5 m3 more, and 0.5 / 0.9 less to fill.
    assert work.balance.sigma == pytest.approx(1.5 + 0.5 / 0.9)
    assert work.away.bank.sigma == pytest.approx(work.balance.sigma)
    assert work.cut.sigma == pytest.approx(1.5)


def test_strip_is_apart_and_has_its_own_bulking():
    volumes = volume_to_level(slope(3.0), 0.0, strip=0.2)
    work = reckon_earthwork(volumes, Soil(1.3, strip_bulking=1.4, load_m3=8.0), strip=0.2, strip_sigma=0.03)
    assert (work.strip.bank.value, work.strip.bank.sigma) == pytest.approx((40.0, 6.0))
    assert work.strip.loose.value == pytest.approx(56.0)
    assert work.strip.loads == 7
    assert work.working[:2] == ("strip_m3 = 0.2 m * area_m2", "strip_loose_m3 = strip_m3 * 1.4")


@pytest.mark.parametrize(
    ("amount", "load", "loads"),
    [
        (0.0, 8.0, 0),
        (1e-3, 8.0, 1),
        (8.0, 8.0, 1),
        (8.0 * (1 + 1e-12), 8.0, 1),
        (0.3, 0.1, 3),
        (8.1, 8.0, 2),
        (0.7, 0.1, 7),
    ],
)
def test_loads_are_whole_and_rounding_is_none(amount, load, loads):
    assert whole_loads(amount, load) == loads


@pytest.mark.parametrize("load", [0.0, -1.0, np.nan, np.inf])
def test_a_load_that_holds_nothing_is_refused(load):
    with pytest.raises(BadInput) as told:
        whole_loads(1.0, load)
    assert str(told.value) == f"A load is {load}. Give a number above 0."


@pytest.mark.parametrize("name", ["bulking", "shrink", "density", "load_m3", "load_t", "strip_bulking"])
@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
def test_factors_are_above_zero(name, value):
    with pytest.raises(BadInput) as told:
        Soil(**{name: value})
    assert str(told.value) == f"{name} is {value}. Give a number above 0."


def test_no_more_than_all_of_the_cut_is_fit():
    with pytest.raises(BadInput) as told:
        Soil(fit=1.2)
    assert str(told.value) == "fit is 1.2. Give a part from 0 to 1."
