# SPDX-License-Identifier: GPL-2.0-or-later
"""Two surfaces of one place."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.ground.build import GroundInput, build_surface
from plugin.core.ground.records import Levels
from plugin.core.register.ground import compare_grounds, height_differences, thinned, with_drift
from plugin.core.register.records import Asked, Outcome

SIGMA = 0.01


def surface(xy, z, sigma=SIGMA):
    levels = Levels(np.column_stack([xy, z]), np.full(len(xy), sigma))
    return build_surface(GroundInput(levels)).surface


def grid(step=2.0, reach=30.0, origin=0.0):
    side = np.arange(0.0, reach + step / 2, step)
    return np.array([(x, y) for x in side for y in side]) + origin


def plane(xy, origin=0.0):
    return 5.0 + 0.03 * (xy[:, 0] - origin) - 0.01 * (xy[:, 1] - origin)


def inside(xy, low, high):
    return ((xy >= low - 1e-9) & (xy <= high + 1e-9)).all(axis=1)


def test_a_surface_against_itself_has_not_changed():
    one = surface(grid(), plane(grid()))
    told = compare_grounds(one, one)
    assert told.outcome is Outcome.SAME
    assert told.patches == ()
    assert told.lift.shift.value == pytest.approx(0.0, abs=1e-12)
    assert told.volume.value == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("origin", [0.0, 1e7])
def test_a_hollow_in_ground_that_lies_higher_throughout_is_found_with_its_volume(origin):
    xy = grid(1.0, 26.0, origin)
    low = inside(xy - origin, 10.0, 14.0)
    before = surface(xy, plane(xy, origin))
    after = surface(xy, plane(xy, origin) + 0.07 - np.where(low, 0.20, 0.0))
    told = compare_grounds(before, after)
    assert told.outcome is Outcome.CHANGED
    assert told.lift.shift.value == pytest.approx(0.07, abs=1e-6)
    assert told.lift.p < 1e-5  # 4.9 sigma
    (one,) = told.patches
    assert len(one.patch.rows) == 25
    assert one.patch.change.value == pytest.approx(-0.20, abs=1e-6)
    # The ground from the hollow's rim to the next points slopes: 0.2 (4 x 4 + 4 x 4 x 0.5 + corners), of which the hull
    # takes in the half next to it. Between the floor alone and all of it:
    assert -0.20 * (16 + 8 + 4 / 3) < one.volume.value < -0.20 * 16
    # All of it is in the volume of the whole, the common 0.07 m taken off.
    assert told.volume.value == pytest.approx(-0.20 * (16 + 8) - 0.20 * 2 * (1 / 3 + 1 / 6), rel=0.02)
    assert told.whole.net.value == pytest.approx(told.volume.value + 0.07 * 676, abs=1e-3)


def test_a_step_in_height_is_held_against_the_points_and_the_bench_mark():
    """Two surfaces whose heights may all err one way by 10 mm each: 50 mm are 3.54 sigma, and 0.96 with a bench mark that
    is worth 50 mm; half the level is the step's."""
    before, after = surface(grid(), plane(grid())), surface(grid(), plane(grid()) + 0.05)
    for common in (0.0, 0.05):
        ratio = 0.05 / math.hypot(0.01, 0.01, common)
        told = compare_grounds(before, after, common)
        assert told.lift.p == pytest.approx(2.0 * math.erfc(ratio / math.sqrt(2.0)), rel=1e-3)
    alone, marked = compare_grounds(before, after), compare_grounds(before, after, 0.05)
    assert alone.lift.p < 0.01 < marked.lift.p
    # Nobody can tell whether it was raised all over: the volume of either is there.
    assert alone.outcome is Outcome.UNSURE
    assert alone.volume.value == pytest.approx(0.0, abs=1e-9)
    assert alone.with_shift.value == pytest.approx(0.05 * alone.whole.area, rel=1e-9)
    assert marked.with_shift.sigma > 0.05 * marked.whole.area


def test_noise_is_no_patch_and_its_scatter_is_as_stated():
    rng = np.random.default_rng(5)
    xy = grid()
    told = 0
    for _ in range(60):
        pair = [surface(xy, plane(xy) + rng.normal(0.0, SIGMA, len(xy))) for _ in range(2)]
        told += compare_grounds(*pair, asked=Asked(0.1)).outcome is Outcome.CHANGED
    assert told <= 6


def test_differences_have_the_covariance_of_what_tells_them():
    """Heights drawn as stated on two unlike nets: the spread of the differences beside their covariance."""
    rng = np.random.default_rng(8)
    one, other = rng.uniform(0, 10, (25, 2)), rng.uniform(0, 10, (30, 2))
    first, second = surface(one, np.zeros(25)), surface(other, np.zeros(30))
    given = height_differences(first, second)
    plain = np.linalg.solve(np.linalg.cholesky(given.covariance), np.eye(len(given.off)))
    squares = []
    for _ in range(400):
        a, b = (surface(xy, rng.normal(0, SIGMA, len(xy))) for xy in (one, other))
        off = height_differences(a, b).off
        squares.append(float(((plain @ off) ** 2).mean()))
    rough = first.rough**2 + second.rough**2
    assert rough >= 0.0
    assert np.mean(squares) == pytest.approx(1.0, abs=0.05)


def test_where_no_ground_is_shared_it_says_so():
    one, other = surface(grid(), plane(grid())), surface(grid(origin=100.0), plane(grid()))
    words = "The two surfaces share no ground. Choose two of one place, in one datum."
    with pytest.raises(BadInput, match=re.escape(words)):
        compare_grounds(one, other)


def test_too_uncertain_to_see_it_is_told_so():
    one = surface(grid(), plane(grid()), sigma=0.2)
    assert compare_grounds(one, one).outcome is Outcome.UNSURE
    assert compare_grounds(one, one, asked=Asked(see_height=3.0)).outcome is Outcome.SAME


def test_many_places_are_thinned_evenly_and_few_are_kept():
    xy = np.random.default_rng(1).uniform(0, 100, (20_000, 2)) + 1e6
    few = thinned(xy, 500)
    assert 250 <= len(few) <= 500
    assert {tuple(row) for row in few.tolist()} <= {tuple(row) for row in xy.tolist()}
    counts = np.histogram2d(*few.T, bins=4)[0]
    assert counts.min() > 0.5 * counts.max()
    assert thinned(xy[:10], 500) is not None
    assert len(thinned(xy[:10], 500)) == 10
    line = np.column_stack([np.arange(3000.0), np.zeros(3000)])
    assert len(thinned(line, 500)) <= 500


def test_ground_without_drift_gets_none():
    xy = grid(3.0, 27.0)
    noise = np.random.default_rng(3).normal(0.0, 0.01, len(xy))
    given = height_differences(surface(xy, plane(xy)), surface(xy, plane(xy) + noise))
    added = with_drift(given).covariance - given.covariance
    assert 0.0 <= added.max() < 0.3 * 0.01**2
