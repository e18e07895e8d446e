# SPDX-License-Identifier: GPL-2.0-or-later
"""The map of depths and the zero line, on grounds whose classes are known."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import Polygon

from plugin.core.errors import BadInput
from plugin.core.ground.depths import Ground
from plugin.core.ground.target import TargetPlane
from plugin.core.ground.thickness import depth_bounds, map_depths, zero_lines
from plugin.core.ground.volume import measure_ground
from tests.core.ground.grounds import drawn_surface, grid_surface, moved, square, surface_of


def shape_area(one):
    return sum(Polygon(rings[0], rings[1:]).area for rings in one.polygons)


def told(classes):
    return [(one.least, one.most, one.area, one.volume) for one in classes]


LEVEL = TargetPlane.at_level(0.0)


def test_a_slope_in_bands():
    slope = surface_of([[0, 0, -1], [20, 0, 3], [20, 10, 3], [0, 10, -1]], [[0, 1, 2], [0, 2, 3]])
    classes = map_depths(Ground(slope, LEVEL), np.array([-1.0, 0.0, 1.0, 2.0, 3.0]))
    assert np.array(told(classes)) == pytest.approx(
        np.array([(-1, 0, 50, -25), (0, 1, 50, 25), (1, 2, 50, 75), (2, 3, 50, 125)]), rel=1e-12
    )
    assert [len(one.polygons) for one in classes] == [1, 1, 1, 1]
    assert [shape_area(one) for one in classes] == pytest.approx([50] * 4, rel=1e-6)


def test_even_ground_lies_in_the_class_that_begins_there_and_level_ground_in_its_own():
    ramp = grid_surface(lambda x, y: np.maximum(x - 10.0, 0.0) / 10.0, 20.0, 2)
    level, risen = told(map_depths(Ground(ramp, LEVEL, [square(5, 15)]), np.array([-1.0, 0.0, 1.0, 2.0])))
    assert level == pytest.approx((0, 0, 50, 0))
    assert risen == pytest.approx((0, 1, 50, 12.5))
    even = grid_surface(lambda x, y: 1.0 + 0 * x, 20.0, 2)
    assert told(map_depths(Ground(even, LEVEL), np.array([0.0, 1.0, 2.0]))) == [
        (1.0, 2.0, pytest.approx(400), pytest.approx(400))
    ]
    assert told(map_depths(Ground(even, even), np.array([-1.0, 0.0, 1.0]))) == [
        (0.0, 0.0, pytest.approx(400), 0.0)
    ]


@pytest.mark.parametrize("seed", range(3))
def test_the_classes_of_drawn_ground_are_all_of_it(seed):
    ground = Ground(drawn_surface(120, seed), drawn_surface(90, seed + 5), [square(1, 18), square(6, 9)])
    volumes = measure_ground(ground)
    bounds = depth_bounds(0.5, volumes.least.value, volumes.most.value)
    classes = map_depths(ground, bounds)
    assert sum(one.area for one in classes) == pytest.approx(volumes.area, rel=1e-11)
    assert sum(one.volume for one in classes if one.least >= 0) == pytest.approx(volumes.cut.value, rel=1e-11)
    assert sum(one.volume for one in classes if one.most <= 0) == pytest.approx(
        -volumes.fill.value, rel=1e-11
    )
    for one in classes:
        assert shape_area(one) == pytest.approx(one.area, abs=1e-3)
        assert one.least * one.area - 1e-9 <= one.volume <= one.most * one.area + 1e-9


def test_the_zero_line_of_a_slope_is_one_straight():
    slope = surface_of([[0, 0, -1], [20, 0, 3], [20, 10, 3], [0, 10, -1]], [[0, 1, 2], [0, 2, 3]])
    (line,) = zero_lines(Ground(moved(slope, 0.0, (1e7, 0, 0)), LEVEL))
    assert line[:, 0] - 1e7 == pytest.approx(5.0, abs=1e-6)
    assert np.ptp(line[:, 1]) == pytest.approx(10.0, abs=2e-6)
    assert line[:, 2] == pytest.approx(0.0, abs=1e-9)


def test_the_zero_line_of_a_cone_is_a_ring_about_it():
    angle = np.linspace(0, 2 * np.pi, 37)[:-1]
    rim = np.column_stack([10 * np.cos(angle), 10 * np.sin(angle), 0 * angle - 1.0])
    cone = surface_of(np.vstack([rim, [0, 0, 1]]), [[k, (k + 1) % 36, 36] for k in range(36)])
    (line,) = zero_lines(Ground(cone, LEVEL))
    assert line[0] == pytest.approx(line[-1])
    assert Polygon(line[:, :2]).area == pytest.approx(36 * 0.5 * 25 * np.sin(np.pi / 18), rel=1e-6)


def test_where_cut_ends_at_level_ground_there_is_a_line_and_where_it_only_touches_none():
    ridge = grid_surface(lambda x, y: np.abs(x - 10.0), 20.0, 2)
    assert zero_lines(Ground(ridge, LEVEL)) == []
    ramp = grid_surface(lambda x, y: np.maximum(x - 10.0, 0.0), 20.0, 2)
    (line,) = zero_lines(Ground(ramp, LEVEL))
    assert line[:, 0] == pytest.approx(10.0, abs=1e-6)


def test_ground_without_a_zero_has_no_line():
    assert zero_lines(Ground(grid_surface(lambda x, y: 1.0 + 0 * x, 20.0, 2), LEVEL)) == []


@pytest.mark.parametrize(
    ("step", "least", "most", "bounds"),
    [
        (0.5, -0.7, 0.6, [-1, -0.5, 0, 0.5, 1]),
        (1.0, 0.0, 2.0, [0, 1, 2]),
        (1.0, 1.0, 1.0, [1, 2]),
        (0.25, 0.0, 0.0, [0, 0.25]),
    ],
)
def test_bounds_are_multiples_of_the_step(step, least, most, bounds):
    assert depth_bounds(step, least, most).tolist() == bounds


@pytest.mark.parametrize("step", [0.0, -1.0, np.nan, np.inf])
def test_a_step_that_is_none_is_refused(step):
    with pytest.raises(BadInput) as words:
        depth_bounds(step, 0.0, 1.0)
    assert str(words.value) == f"The step of the depths is {step} m. Give a number above 0."


def test_too_many_classes_are_refused():
    with pytest.raises(BadInput) as words:
        depth_bounds(0.001, -1.0, 1.0)
    assert str(words.value) == (
        "Depths from -1.000 m to 1.000 m in steps of 0.001 m are 2000 classes. Give a larger step."
    )
