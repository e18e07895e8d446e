# SPDX-License-Identifier: GPL-2.0-or-later
"""Gradients in all their writings, and the way between two places on a surface."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.errors import BadInput, TooFewPoints
from plugin.core.ground.gradient import Slope, slope_between
from plugin.core.ground.section import SectionCutter
from tests.core.ground.test_section import SQUARE, TWO, surface_of


def test_a_slope_is_told_in_every_way():
    slope = Slope(0.5, 6.0, 0.01)
    assert slope.ratio.value == pytest.approx(1 / 12)
    assert slope.one_in.value == pytest.approx(12)
    assert slope.percent.value == pytest.approx(8.3333333333)
    assert slope.inch_per_foot.value == pytest.approx(1.0)
    assert slope.degrees.value == pytest.approx(math.degrees(math.atan2(1, 12)))
    assert slope.slope_length.value == pytest.approx(math.hypot(0.5, 6.0))


def test_a_fall_is_negative_in_every_way():
    slope = Slope(-0.5, 6.0, 0.01)
    for told in (slope.ratio, slope.one_in, slope.percent, slope.inch_per_foot, slope.degrees):
        assert told.value < 0.0
        assert told.sigma > 0.0


def test_the_level_has_no_n_and_an_upright_face_no_ratio():
    assert Slope(0.0, 5.0, 0.01).one_in is None
    assert Slope(0.0, 5.0, 0.01).ratio.value == 0.0
    upright = Slope(2.0, 0.0, 0.01, 0.003)
    assert (upright.ratio, upright.one_in, upright.percent, upright.inch_per_foot) == (None,) * 4
    assert upright.degrees.value == 90.0
    assert upright.degrees.sigma == pytest.approx(math.degrees(0.003 / 2.0))
    assert upright.slope_length.sigma == pytest.approx(0.01)


@pytest.mark.parametrize("figure", ["ratio", "one_in", "percent", "inch_per_foot", "degrees", "slope_length"])
def test_the_sigma_of_each_is_that_of_ten_thousand_draws(figure):
    rng = np.random.default_rng(5)
    slope = Slope(0.6, 5.0, 0.008, 0.02)
    drawn = [
        getattr(Slope(r, n), figure).value
        for r, n in zip(0.6 + 0.008 * rng.standard_normal(10_000), 5.0 + 0.02 * rng.standard_normal(10_000))
    ]
    told = getattr(slope, figure)
    # 10,000 draws know a sigma to 0.7 %; the curvature of 1 in n adds some 0.1 %.
    assert np.std(drawn) == pytest.approx(told.sigma, rel=0.03)


def test_between_two_places_of_one_plane_the_way_is_the_planes():
    slope = slope_between(
        SectionCutter(surface_of(SQUARE, TWO, sigma=0.02)), np.array([1, 1]), np.array([4, 5])
    )
    assert (slope.rise, slope.run) == pytest.approx((7.0, 5.0))
    back = slope_between(
        SectionCutter(surface_of(SQUARE, TWO, sigma=0.02)), np.array([4, 5]), np.array([1, 1])
    )
    assert back.rise == pytest.approx(-7.0)
    assert back.rise_sigma == pytest.approx(slope.rise_sigma)


def test_the_rise_between_two_measured_points_has_the_sigma_of_both():
    slope = slope_between(
        SectionCutter(surface_of(SQUARE, TWO, sigma=0.02)), np.array([0, 0]), np.array([10, 10])
    )
    assert slope.rise_sigma == pytest.approx(0.02 * math.sqrt(2))


def test_a_place_that_the_surface_does_not_reach_is_refused():
    with pytest.raises(BadInput) as told:
        slope_between(SectionCutter(surface_of(SQUARE, TWO)), np.array([1.0, 1.0]), np.array([40.0, 5.0]))
    assert str(told.value) == (
        "The surface does not reach x 40.000, y 5.000 of the survey plane. Choose a place on it."
    )


def test_one_place_twice_is_refused():
    with pytest.raises(TooFewPoints):
        slope_between(SectionCutter(surface_of(SQUARE, TWO)), np.array([1.0, 1.0]), np.array([1.0, 1.0]))


def test_a_slope_that_is_shorter_than_its_rise_is_refused():
    with pytest.raises(BadInput) as told:
        Slope.of_slope_and_rise(3.0, 3.5)
    assert str(told.value) == "A slope of 3 m cannot rise 3.5 m. Check both figures, and their units."
