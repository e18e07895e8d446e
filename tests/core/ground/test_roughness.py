# SPDX-License-Identifier: GPL-2.0-or-later
"""The mean of rough ground, beside drawn pairs of places."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.ground.roughness import mean_rough


@pytest.mark.parametrize("reach", [0.3, 2.0, 20.0])
def test_the_disc_is_that_of_drawn_pairs(reach):
    draw = np.random.default_rng(7)
    radius = 4.0
    r, angle = radius * np.sqrt(draw.uniform(size=(2, 400_000))), draw.uniform(0, 2 * np.pi, (2, 400_000))
    away = np.hypot(
        r[0] * np.cos(angle[0]) - r[1] * np.cos(angle[1]), r[0] * np.sin(angle[0]) - r[1] * np.sin(angle[1])
    )
    drawn = np.exp(-away / reach)
    mean, sigma = drawn.mean(), drawn.std() / np.sqrt(len(drawn))
    assert mean_rough(np.pi * radius**2, reach) ** 2 == pytest.approx(mean, abs=4 * sigma)


@pytest.mark.parametrize(("wide", "high"), [(6.0, 6.0), (36.0, 1.0)])
def test_no_other_shape_of_that_size_is_rougher(wide, high):
    draw = np.random.default_rng(8)
    p, q = draw.uniform(size=(2, 200_000, 2)) * [wide, high]
    drawn = np.exp(-np.hypot(*(p - q).T) / 2.0)
    bound = mean_rough(wide * high, 2.0) ** 2
    assert drawn.mean() - 3 * drawn.std() / np.sqrt(len(drawn)) < bound
    if wide == high:  # a square is nearly a disc
        assert drawn.mean() == pytest.approx(bound, rel=0.03)


@pytest.mark.parametrize("area", 10.0 ** np.arange(-9, 13))
def test_it_lies_below_both_bounds_and_falls_as_areas_grow(area):
    here, more = mean_rough(area, 3.0), mean_rough(2 * area, 3.0)
    assert 0 < more < here <= min(1.0, np.sqrt(2 * np.pi * 9 / area)) * (1 + 1e-9)
    # Of twice the ground more is known by mean, less in all.
    assert 2 * more > here


def test_for_wide_areas_it_is_the_patches():
    assert mean_rough(1e8, 1.0) == pytest.approx(np.sqrt(2 * np.pi / 1e8), rel=1e-3)


def test_no_area_and_no_reach():
    assert mean_rough(0.0, 1.0) == 1.0
    assert mean_rough(5.0, 0.0) == 0.0
