# SPDX-License-Identifier: GPL-2.0-or-later
"""Falls beside closed forms, sums over fine grids, and draws."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.errors import BadInput, PointsInLine, TooFewPoints
from plugin.core.ground.depths import Ground
from plugin.core.ground.falls import ANY_DIRECTION, fit_fall, measure_surface_fall
from plugin.core.ground.target import TargetPlane
from plugin.core.quantity import COVER_95
from tests.core.ground.grounds import drawn_surface, grid_surface, moved, square, surface_of

PATIO = np.array([[0, 0, 10.0], [7, 0, 10.0], [7, 4, 9.95], [0, 4, 9.95]])
"""1:80 to the north."""


def over(surface, rings):
    return measure_surface_fall(Ground(surface, TargetPlane.at_level(0.0)).within(rings))


# --- of points ---


def test_a_plane_falls_where_it_falls():
    plane = fit_fall(PATIO, 0.0)
    assert plane.fall.value == pytest.approx(1 / 80, rel=1e-12)
    assert plane.toward.value == pytest.approx(math.pi / 2, abs=1e-12)
    assert plane.rms == pytest.approx(0.0, abs=1e-12)


def test_along_is_up_and_across_is_down_to_the_right():
    plane = fit_fall(np.array([[0, 0, 0], [1, 0, 0.02], [0, 1, 0.03], [1, 1, 0.05]]), 0.0)
    assert plane.along(0.0).value == pytest.approx(0.02, rel=1e-12)
    # Walking east the left is north, which is higher: it falls to the right.
    assert plane.across(0.0).value == pytest.approx(0.03, rel=1e-12)
    assert plane.across(math.pi).value == pytest.approx(-0.03, rel=1e-12)
    assert plane.fall.value == pytest.approx(math.hypot(0.02, 0.03), rel=1e-12)


def test_the_least_squares_plane_is_that_of_another_library():
    points = np.random.default_rng(3).normal(size=(40, 3)) * [10, 8, 0.1] + [5, 6, 80]
    design = np.column_stack([points[:, :2] - points[:, :2].mean(axis=0), np.ones(len(points))])
    best, *_ = np.linalg.lstsq(design, points[:, 2], rcond=None)
    told = fit_fall(points, 0.02)
    assert told.slope == pytest.approx(best[:2], rel=1e-10)
    assert told.covariance == pytest.approx(0.02**2 * np.linalg.inv(design.T @ design)[:2, :2], rel=1e-9)


@pytest.mark.parametrize("shift", [1e3, 1e7])
def test_moved_far_it_has_the_same_digits(shift):
    draw = np.random.default_rng(4).uniform(0, 8, (9, 3)).round(3)
    here, there = fit_fall(draw, 0.01), fit_fall(draw + [shift, -shift, 0.0], 0.01)
    assert there.slope == pytest.approx(here.slope, abs=1e-7)
    assert there.fall.sigma == pytest.approx(here.fall.sigma, rel=1e-6)


def test_turned_the_fall_stays_and_its_direction_turns():
    turn, (c, s) = 0.7, (math.cos(0.7), math.sin(0.7))
    points = PATIO.copy()
    points[:, :2] = points[:, :2] @ np.array([[c, s], [-s, c]])
    here, there = fit_fall(PATIO, 0.01), fit_fall(points, 0.01)
    assert there.fall.value == pytest.approx(here.fall.value, rel=1e-12)
    assert there.fall.sigma == pytest.approx(here.fall.sigma, rel=1e-12)
    assert there.toward.value == pytest.approx(here.toward.value + turn, abs=1e-12)


def test_reversed_and_mirrored_it_is_as_steep():
    for points in (PATIO[::-1], PATIO * [-1, 1, 1]):
        assert fit_fall(points, 0.01).fall.value == pytest.approx(1 / 80, rel=1e-12)


def test_the_level_has_no_direction_and_the_larger_sigma():
    plane = fit_fall(np.array([[0, 0, 5.0], [10, 0, 5], [10, 1, 5], [0, 1, 5]]), 0.01)
    assert plane.toward is None
    assert plane.fall.value == 0.0
    assert plane.fall.sigma == pytest.approx(0.01, rel=1e-9)  # two points 1 m from two: 0.01 sqrt(2/4 + 2/4)


def test_a_direction_of_which_nothing_is_known_says_so():
    assert fit_fall(PATIO, 5.0).toward.sigma == ANY_DIRECTION


def test_sigmas_are_those_of_draws_in_height_and_in_plan():
    rough = PATIO + [[0, 0, 0.3], [0, 0, 0], [0, 0, 0.2], [0, 0, 0]]
    draw, told = np.random.default_rng(5), fit_fall(rough, 0.02, 0.05)
    slopes = np.array(
        [fit_fall(rough + draw.normal(size=(4, 3)) * [0.05, 0.05, 0.02], 0.0).slope for _ in range(20_000)]
    )
    assert np.sqrt(np.diag(told.covariance)) == pytest.approx(slopes.std(axis=0), rel=0.03)


def test_the_95_percent_interval_covers_the_true_fall():
    """Seeds 1 to 2,000: 93 to 97 % of the falls, along and across a direction too."""
    true = fit_fall(PATIO * [1, 1, 2], 0.0)
    inside = np.zeros(3)
    for seed in range(1, 2001):
        noise = np.random.default_rng(seed).normal(size=PATIO.shape) * [0.01, 0.01, 0.004]
        told = fit_fall(PATIO * [1, 1, 2] + noise, 0.004, 0.01)
        pairs = (
            (told.fall, true.fall),
            (told.along(0.4), true.along(0.4)),
            (told.across(0.4), true.across(0.4)),
        )
        inside += [abs(a.value - b.value) <= COVER_95 * a.sigma for a, b in pairs]
    assert (inside / 2000 > 0.93).all()
    assert (inside / 2000 < 0.97).all()


def test_a_million_points_are_fitted():
    draw = np.random.default_rng(6)
    xy = draw.uniform(0, 100, (1_000_000, 2))
    told = fit_fall(np.column_stack([xy, 0.02 * xy[:, 0]]), 0.01)
    assert told.fall.value == pytest.approx(0.02, rel=1e-9)


def test_what_tells_no_plane_is_refused():
    with pytest.raises(TooFewPoints) as few:
        fit_fall(PATIO[:2], 0.0)
    assert str(few.value) == "A fall needs three points with heights; there are 2. Give more."
    with pytest.raises(TooFewPoints):
        fit_fall(np.empty((0, 3)), 0.0)
    with pytest.raises(PointsInLine) as line:
        fit_fall(np.array([[0, 0, 1.0], [1, 1, 1], [2, 2, 5]]), 0.0)
    assert str(line.value) == (
        "The points lie in one line, so that they tell no fall across it. Give one beside it."
    )
    for bad in (math.nan, math.inf):
        with pytest.raises(BadInput) as none:
            fit_fall(PATIO + [[0, 0, 0], [0, 0, bad], [0, 0, 0], [0, 0, 0]], 0.0)
        assert str(none.value) == (
            "A point has no place or no height, so that its fall is not known. Give it one."
        )


# --- of a surface ---


def test_a_plane_surface_falls_as_its_plane_within_any_outline():
    surface = drawn_surface(300, 1, height=lambda x, y: 0.02 * x - 0.03 * y + 5)
    told = over(surface, [np.array([[3, 3], [15, 4], [12, 14.0]]), square(8, 9)])
    assert told.plane.slope == pytest.approx([0.02, -0.03], abs=1e-12)
    assert told.plane.rms == pytest.approx(0.0, abs=1e-7)
    assert told.area == pytest.approx(61.5 - 1.0, rel=1e-12)
    assert told.left_out == pytest.approx(0.0, abs=1e-9)
    for extreme in (told.steepest, told.flattest):
        assert extreme.value == pytest.approx(math.hypot(0.02, 0.03), rel=1e-6)


def test_the_plane_is_that_of_a_fine_grid_over_the_triangles():
    surface = drawn_surface(60, 2)
    told = over(surface, [square(4, 15)])
    from scipy.interpolate import LinearNDInterpolator
    from scipy.spatial import Delaunay

    step = 11 / 1500
    x, y = (v.ravel() for v in np.meshgrid(*[np.arange(4 + step / 2, 15, step)] * 2))
    own = Delaunay(surface.points[:, :2])
    z = LinearNDInterpolator(own, surface.points[:, 2])(x, y)
    best = fit_fall(np.column_stack([x, y, z]), 0.0)
    assert told.plane.slope == pytest.approx(best.slope, abs=2e-5)
    assert told.plane.rms == pytest.approx(best.rms, rel=1e-3)


def test_the_extremes_are_those_of_the_triangles_inside_and_none_beside():
    roof = surface_of(
        [[0, 0, 0], [4, 0, 0], [4, 4, 1], [0, 4, 1], [4, 8, 5], [0, 8, 5]],
        [[0, 1, 2], [0, 2, 3], [3, 2, 4], [3, 4, 5]],
        sigma=0.01,
    )
    told = over(roof, [np.array([[0, 0], [4, 0], [4, 6], [0, 6.0]])])
    assert (told.flattest.value, told.steepest.value) == pytest.approx((0.25, 1.0), rel=1e-12)
    assert told.steepest.sigma == pytest.approx(0.01 * math.sqrt(2) / 4, rel=1e-9)
    assert over(roof, [np.array([[0, 0], [4, 0], [4, 3.9], [0, 3.9]])]).steepest.value == pytest.approx(0.25)


def test_of_a_million_triangles_each_counts():
    grid = grid_surface(lambda x, y: 0.01 * x, 100, 710)
    assert len(grid.triangles) > 1_000_000
    told = measure_surface_fall(Ground(grid, TargetPlane.at_level(0.0)))
    assert told.plane.fall.value == pytest.approx(0.01, rel=1e-9)
    assert (told.flattest.value, told.steepest.value) == pytest.approx((0.01, 0.01), rel=1e-6)


def test_what_lies_beside_the_surface_and_on_weak_triangles_is_told():
    surface = drawn_surface(30, 7, height=lambda x, y: 0.1 * x)
    surface.is_weak[:] = True
    told = over(surface, [square(15, 25)])
    assert (told.area, told.left_out) == pytest.approx((25.0, 75.0), rel=1e-9)
    assert told.weak == pytest.approx(25.0, rel=1e-9)
    with pytest.raises(BadInput) as none:
        over(surface, [square(50, 60)])
    assert str(none.value) == (
        "No ground of the outline lies on the surface. Move it, or extend the surface."
    )


def test_a_surfaces_fall_moved_and_turned_is_the_same():
    surface = drawn_surface(80, 8, sigma=0.01, rough=0.01, reach=2.0)
    ring, turn = square(4, 16), 0.5
    c, s = math.cos(turn), math.sin(turn)
    here = over(surface, [ring])
    there = over(moved(surface, turn, (1e7, -1e7, 100.0)), [ring @ np.array([[c, s], [-s, c]]) + [1e7, -1e7]])
    assert there.plane.fall.value == pytest.approx(here.plane.fall.value, rel=1e-6)
    assert there.plane.fall.sigma == pytest.approx(here.plane.fall.sigma, rel=1e-6)
    assert there.plane.rms == pytest.approx(here.plane.rms, rel=1e-6)


def test_a_surfaces_sigma_is_that_of_draws_of_its_points():
    surface = drawn_surface(40, 9, sigma=0.03)
    told = over(surface, [square(5, 14)])
    draw, slopes = np.random.default_rng(1), []
    for _ in range(1500):
        points = surface.points.copy()
        points[:, 2] += draw.normal(0, 0.03, len(points))
        slopes.append(over(surface_of(points, surface.triangles), [square(5, 14)]).plane.slope)
    assert np.sqrt(np.diag(told.plane.covariance)) == pytest.approx(np.std(slopes, axis=0), rel=0.06)


@pytest.mark.parametrize(("reach", "slack"), [(0.3, 1.4), (1.0, 3.1), (40.0, 4.0)])
def test_the_ground_between_the_points_is_never_counted_too_small(reach, slack):
    """Beside the double integral of phi phi' exp(-d/reach) over 6 m by 4 m, on a grid; short reaches are told
    closely, none more than four times too large in the square."""
    rough, flat = (
        0.02,
        surface_of(
            [[0, 0, 0], [6, 0, 0], [6, 4, 0], [0, 4, 0.0]], [[0, 1, 2], [0, 2, 3]], rough=0.02, reach=reach
        ),
    )
    told = over(flat, [np.array([[0, 0], [6, 0], [6, 4], [0, 4.0]])]).plane.covariance
    step = 0.1
    x, y = (v.ravel() for v in np.meshgrid(np.arange(step / 2, 6, step), np.arange(step / 2, 4, step)))
    phi = (x - 3) / (4 * 6**3 / 12)
    alike = np.exp(-np.hypot(x[:, None] - x, y[:, None] - y) / reach)
    true = rough**2 * phi @ alike @ phi * step**4
    assert true <= told[0, 0] <= slack * true
