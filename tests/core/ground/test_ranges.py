# SPDX-License-Identifier: GPL-2.0-or-later
"""Between what volumes the truth lies: beside closed forms, and beside drawn heights."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from plugin.core.errors import Cancelled
from plugin.core.ground.depths import Ground
from plugin.core.ground.ranges import EVEN, Range, volume_ranges
from plugin.core.ground.target import TargetPlane
from plugin.core.ground.volume import measure_ground
from plugin.core.quantity import COVER_95
from tests.core.ground.grounds import grid_surface, moved, surface_of

LEVEL = TargetPlane.at_level(0.0)
SLOPE, SIDE = 0.02, 20.0


def wedge(zero, **worth):
    """z = SLOPE (zero - x) over a square: cut up to x = zero, a wedge that long."""
    return grid_surface(lambda x, y: SLOPE * (zero - x), SIDE, 10, **worth)


def ranges(surface, target=LEVEL, common=0.0, strip=0.0):
    ground = Ground(surface, target, None, strip)
    return volume_ranges(ground, measure_ground(ground, common), common)


def wedge_volume(length):
    return SLOPE * length**2 / 2.0 * SIDE if length > 0.0 else 0.0


@pytest.mark.parametrize("zero", [3.0, 1.0])
def test_a_wedge_that_rises_or_sinks_as_a_whole_is_as_long_as_that_makes_it(zero):
    common = 0.01
    cut, _ = ranges(wedge(zero), common=common)
    reach = COVER_95 * common / SLOPE
    assert cut.high == pytest.approx(wedge_volume(zero + reach), rel=1e-9)
    assert cut.low == pytest.approx(wedge_volume(max(zero - reach, 0.0)), rel=1e-9, abs=1e-12)


def test_a_volume_far_beyond_its_sigma_has_the_range_of_its_sigma():
    surface = wedge(15.0, sigma=0.01)
    volumes = measure_ground(Ground(surface, LEVEL))
    reach = COVER_95 * volumes.cut.sigma
    assert reach < EVEN * volumes.cut.value
    assert ranges(surface)[0] == Range(volumes.cut.value - reach - volumes.noise, volumes.cut.value + reach)
    assert volumes.noise < 0.2 * reach


def test_where_no_fill_was_measured_there_may_be_some():
    """Ground a centimetre above its level, sunk by 1.96 sigma of 20 mm in common: 400 m2 by 29.2 mm of fill."""
    flat = grid_surface(lambda x, y: 0.01 + 0 * x, SIDE, 2)
    cut, fill = ranges(flat, common=0.02)
    assert measure_ground(Ground(flat, LEVEL), 0.02).fill.sigma == 0.0
    assert fill.low == 0.0
    assert fill.high == pytest.approx(400.0 * (COVER_95 * 0.02 - 0.01), rel=1e-9)
    assert cut == Range(0.0, pytest.approx(400.0 * (COVER_95 * 0.02 + 0.01), rel=1e-9))


def test_ground_that_is_known_exactly_has_no_range():
    cut, fill = ranges(wedge(3.0))
    volumes = measure_ground(Ground(wedge(3.0), LEVEL))
    assert (cut, fill) == (
        Range(volumes.cut.value, volumes.cut.value),
        Range(volumes.fill.value, volumes.fill.value),
    )


def test_ground_between_the_points_alone_makes_a_range():
    cut, _ = ranges(wedge(1.0, rough=0.05, reach=5.0))
    measured = measure_ground(Ground(wedge(1.0), LEVEL)).cut.value
    assert cut.low < measured < cut.high


def test_between_surfaces_both_count_and_cut_and_fill_change_places():
    upper, lower = wedge(2.0, sigma=0.02), grid_surface(lambda x, y: 0.001 * y, SIDE, 7, sigma=0.01)
    cut, fill = ranges(upper, lower)
    turned = ranges(lower, upper)
    assert (turned[1].low, turned[1].high) == pytest.approx((cut.low, cut.high), rel=1e-9)
    assert (turned[0].low, turned[0].high) == pytest.approx((fill.low, fill.high), rel=1e-9)
    alone = ranges(replace(upper, sigma=np.zeros(len(upper.points))), lower)[0]
    assert cut.low < alone.low
    assert alone.high < cut.high


def test_turned_and_moved_far_away_they_are_the_same():
    surface = wedge(2.0, sigma=0.03)
    far = moved(surface, 0.7, (1e7, -1e7, 0.0))
    for one, other in zip(ranges(surface), ranges(far)):
        assert (other.low, other.high) == pytest.approx((one.low, one.high), rel=1e-7)


@pytest.mark.parametrize(("zero", "strip"), [(3.0, 0.0), (1.5, 0.0), (6.0, 0.05)])
def test_drawn_heights_leave_the_truth_inside_in_95_of_100(zero, strip):
    """500 draws of heights with an own and a shared part: as many as 1.96 sigma let out, which leave 2 % of doubt."""
    truth = wedge(zero)
    true = measure_ground(Ground(truth, LEVEL, None, strip)).cut.value
    count = len(truth.points)
    shared = np.column_stack([np.full(count, 0.012), 0.001 * (truth.points[:, 0] - 10.0)])
    draw, inside, first_order = np.random.default_rng(8), 0, 0
    for _ in range(500):
        points = truth.points.copy()
        points[:, 2] += 0.008 * draw.normal(size=count) + shared @ draw.normal(size=2)
        surface = replace(truth, points=points, sigma=np.full(count, 0.008), shared=shared)
        cut, _ = ranges(surface, strip=strip)
        inside += cut.low <= true <= cut.high
        told = measure_ground(Ground(surface, LEVEL, None, strip)).cut
        first_order += abs(told.value - true) <= COVER_95 * told.sigma
    assert 461 <= inside <= 490
    assert first_order < inside or abs(first_order - inside) < 15


@pytest.mark.parametrize("height", [0.0, 0.01])
@pytest.mark.parametrize("tilt", [0.0, 0.005, 0.05])
def test_heights_that_err_each_by_themselves_leave_the_truth_inside_too(height, tilt):
    """They make cut and fill of nothing: at its target 1.5 m3 of either, of which there is none. 100 draws of 95 % leave 2 %
    of doubt, and a range may be wider than that."""
    truth = grid_surface(lambda x, y: height + tilt * (x - 8.0), 16.0, 8)
    true = measure_ground(Ground(truth, LEVEL))
    draw, inside = np.random.default_rng(5), np.zeros(2, int)
    for _ in range(100):
        points = truth.points.copy()
        points[:, 2] += 0.02 * draw.normal(size=len(points))
        told = ranges(replace(truth, points=points, sigma=np.full(len(points), 0.02)))
        for k, volume in enumerate((true.cut.value, true.fill.value)):
            inside[k] += told[k].low <= volume <= told[k].high + 1e-9
    assert inside.min() >= 90


def test_noise_of_ground_at_its_target_is_the_mean_of_what_it_makes():
    """One sigma of 20 mm by point, 256 m2: 0.3989 of a sigma, of which a triangle has the root of a half, on all of it."""
    flat = grid_surface(lambda x, y: 0 * x, 16.0, 12, sigma=0.02)
    told = measure_ground(Ground(flat, LEVEL))
    assert told.noise == pytest.approx(256.0 * 0.02 * math.sqrt(0.5) / math.sqrt(2.0 * math.pi), rel=1e-6)
    assert measure_ground(Ground(wedge(3.0), LEVEL)).noise == 0.0


def test_it_can_be_ended():
    def stop():
        raise Cancelled("ended")

    ground = Ground(wedge(1.0, sigma=0.05), LEVEL)
    with pytest.raises(Cancelled):
        volume_ranges(ground, measure_ground(ground), 0.0, stop)


def test_a_flat_triangle_off_its_level_by_less_than_its_sigma():
    """One triangle, 1 m2, 1 mm up, three points of 10 mm: mean height 5.8 mm, so fill to 1.96 of that less 1 mm."""
    one = surface_of([[0, 0, 0.001], [2, 0, 0.001], [0, 1, 0.001]], [[0, 1, 2]], sigma=0.01)
    _, fill = ranges(one)
    assert fill.high == pytest.approx(COVER_95 * 0.01 / np.sqrt(3.0) - 0.001, rel=1e-6)
