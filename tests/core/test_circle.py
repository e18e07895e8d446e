# SPDX-License-Identifier: GPL-2.0-or-later
"""Circle fits against scipy, arcs with held ends against differences and scipy, in all the awkward places."""

from __future__ import annotations

import doctest

import numpy as np
import pytest
from scipy.optimize import least_squares, minimize_scalar

import plugin.core.circle as module
from plugin.core.circle import circle_through, fit_arc, fit_circle, fit_closed_circle
from plugin.core.errors import PointsInLine, TooFewPoints


def on_arc(centre, radius, start, sweep, count):
    angle = start + np.linspace(0, sweep, count)
    return np.column_stack([centre[0] + radius * np.cos(angle), centre[1] + radius * np.sin(angle)])


def differences(figure, points, step=1e-6):
    """Central differences of a figure by each coordinate, those last."""
    out = []
    for i in range(len(points)):
        for k in (0, 1):
            shift = np.zeros_like(points)
            shift[i, k] = step
            out.append((np.asarray(figure(points + shift)) - np.asarray(figure(points - shift))) / (2 * step))
    out = np.array(out)
    return np.moveaxis(out, 0, -1).reshape(*out.shape[1:], len(points), 2)


def test_the_example_in_the_words_of_fit_circle_holds():
    tried = doctest.testmod(module)
    assert tried.attempted > 0
    assert tried.failed == 0


@pytest.mark.parametrize("seed", range(6))
def test_a_circle_fit_is_the_least_that_scipy_finds(seed):
    rng = np.random.default_rng(seed)
    points = on_arc((40, -7), 6, rng.uniform(0, 6), rng.uniform(1, 6), 12) + rng.normal(0, 0.05, (12, 2))
    fit = fit_circle(points)

    def residuals(p):
        return np.hypot(points[:, 0] - p[0], points[:, 1] - p[1]) - p[2]

    other = least_squares(residuals, [*points.mean(0), 5.0], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert [*fit.centre, fit.radius] == pytest.approx(other.x, abs=2e-6)
    assert fit.rms == pytest.approx(np.sqrt((other.fun**2).mean()), abs=1e-10)
    sigma = np.sqrt((other.fun**2).sum() / (len(points) - 3))
    assert fit.covariance == pytest.approx(
        sigma**2 * np.linalg.inv(other.jac.T @ other.jac), rel=1e-4, abs=1e-9
    )


def test_a_circle_fit_moves_with_its_points_by_1e7():
    points = on_arc((0, 0), 5, 0.3, 2.0, 9) + np.random.default_rng(1).normal(0, 0.01, (9, 2))
    near, far = fit_circle(points), fit_circle(points + 1e7)
    # Coordinates of 1e7 m are kept to 2e-9 m; an arc of 2 radians multiplies that by about ten.
    assert far.centre - 1e7 == pytest.approx(near.centre, abs=1e-7)
    assert far.radius == pytest.approx(near.radius, abs=1e-7)


def test_covariance_of_a_circle_fit_agrees_with_draws():
    rng = np.random.default_rng(4)
    points = on_arc((0, 0), 5, 0.3, 3.0, 9)
    stated = np.sqrt(np.diag(fit_circle(points, sigma=0.01).covariance))
    draws = [fit_circle(points + rng.normal(0, 0.01, points.shape)) for _ in range(3000)]
    spread = np.std([[*fit.centre, fit.radius] for fit in draws], axis=0)
    assert stated == pytest.approx(spread, rel=0.05)


def test_three_points_make_one_circle_exactly_and_no_sigma():
    fit = circle_through((3.0, 0.0), (0.0, 3.0), (-3.0, 0.0))
    assert [*fit.centre, fit.radius] == pytest.approx([0, 0, 3], abs=1e-12)
    assert fit.covariance is None


def test_too_few_points_and_points_in_line_are_refused_in_words():
    with pytest.raises(TooFewPoints, match=r"^2 different points make no circle\. Give three or more\.$"):
        fit_circle(np.array([(0, 0), (1, 1), (1, 1)], float))
    with pytest.raises(PointsInLine, match=r"bearing 45\.00 degrees"):
        fit_circle(np.array([(0, 0), (1, 1), (2, 2.0001), (5, 5)], float))


SWEEPS = [0.02, 0.5, 2.0, np.pi, 3.6, 5.0, 6.0, -0.3, -2.5, -4.5]


@pytest.mark.parametrize("sweep", SWEEPS)
def test_an_arc_through_one_point_has_the_sweep_it_was_made_with(sweep):
    for part in (0.1, 0.5, 0.8):
        ends = on_arc((4, 5), 7, 1.0, sweep, 2)
        passed = on_arc((4, 5), 7, 1.0, sweep * part, 2)[1]
        fit = fit_arc(np.array([ends[0], passed, ends[1]]))
        assert 2 * fit.half == pytest.approx(sweep, abs=1e-9)
        assert 2 * fit.along[0] == pytest.approx(sweep * part, abs=1e-9)
        assert fit.foot[0] == pytest.approx(passed, abs=1e-9)
        assert fit.residual[0] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("sweep", SWEEPS)
@pytest.mark.parametrize("count", [1, 2, 5])
def test_derivatives_of_an_arc_agree_with_differences(sweep, count):
    rng = np.random.default_rng(count)
    noise = 0.002 * min(1.0, abs(sweep)) * rng.normal(size=(count + 2, 2))
    points = on_arc((4, 5), 7, 1.0, sweep, count + 2) + noise
    fit = fit_arc(points)
    for name, by in (
        ("half", fit.by_points),
        ("residual", fit.residual_by_points),
        ("along", fit.along_by_points),
        ("foot", fit.foot_by_points),
    ):
        expected = differences(lambda p, name=name: getattr(fit_arc(p), name), points, 1e-7)
        assert by == pytest.approx(expected, rel=2e-5, abs=2e-6 / min(1.0, abs(sweep)) ** 2), name


@pytest.mark.parametrize("sweep", [0.4, 2.0, 4.0, 5.5, -1.2, -4.0])
def test_an_arc_of_several_points_is_the_least_that_scipy_finds(sweep):
    rng = np.random.default_rng(9)
    points = on_arc((1, 2), 6, -0.4, sweep, 7) + rng.normal(0, 0.02, (7, 2))
    fit = fit_arc(points)
    start, end = points[0], points[-1]
    chord = end - start
    left = np.array([-chord[1], chord[0]]) / np.hypot(*chord)

    def squares(half):
        centre = (start + end) / 2 + left * np.hypot(*chord) / 2 / np.tan(half)
        radius = np.hypot(*(start - centre))
        return float(((np.hypot(*(points[1:-1] - centre).T) - radius) ** 2).sum())

    other = minimize_scalar(
        squares, bounds=(fit.half - 0.1, fit.half + 0.1), method="bounded", options={"xatol": 1e-12}
    )
    assert fit.half == pytest.approx(other.x, abs=1e-6)
    assert (fit.residual**2).sum() == pytest.approx(other.fun, rel=1e-8)


def test_an_arc_is_smooth_through_the_straight():
    halves = [fit_arc(np.array([(0, 0), (5, -rise), (10, 0)])).half for rise in (-1e-9, 0.0, 1e-9)]
    assert halves == pytest.approx([-4e-10, 0.0, 4e-10], abs=1e-15)
    flat = fit_arc(np.array([(0.0, 0.0), (5.0, 0.0), (10.0, 0.0)]))
    assert flat.by_points[1] == pytest.approx([0.0, -0.4], abs=1e-12)


def test_an_arc_turned_moved_and_mirrored_stays_the_same_arc():
    points = on_arc((4, 5), 7, 1.0, 4.0, 5) + np.random.default_rng(3).normal(0, 0.01, (5, 2))
    turn = np.array([[0.6, 0.8], [-0.8, 0.6]])
    half = fit_arc(points).half
    assert fit_arc(points @ turn).half == pytest.approx(half, abs=1e-12)
    assert fit_arc(points * (1, -1)).half == pytest.approx(-half, abs=1e-12)
    assert fit_arc(points[::-1]).half == pytest.approx(-half, abs=1e-12)
    assert fit_arc(points + 1e7).half == pytest.approx(half, abs=1e-8)


def test_an_arc_between_one_and_the_same_point_is_refused():
    with pytest.raises(TooFewPoints):
        fit_arc(np.array([(1, 1), (2, 2), (1, 1)], float))


@pytest.mark.parametrize("count", [2, 3, 6])
@pytest.mark.parametrize("turn", [1, -1])
def test_derivatives_of_a_full_circle_agree_with_differences(count, turn):
    rng = np.random.default_rng(count)
    angle = turn * np.linspace(0, 2 * np.pi, count + 2)[:-1]
    points = (
        np.column_stack([3 * np.cos(angle), 3 * np.sin(angle)]) + rng.normal(0, 0.02, (count + 1, 2)) + (7, 2)
    )
    fit = fit_closed_circle(points)
    assert fit.turn == turn
    for name, by in (
        ("centre", fit.centre_by_points),
        ("residual", fit.residual_by_points),
        ("along", fit.along_by_points),
        ("foot", fit.foot_by_points),
    ):
        expected = differences(lambda p, name=name: getattr(fit_closed_circle(p), name), points)
        assert by == pytest.approx(expected, rel=1e-6, abs=1e-7), name


def test_a_full_circle_through_a_held_start_is_the_least_that_scipy_finds():
    rng = np.random.default_rng(5)
    points = on_arc((1, 2), 4, 0, 5.5, 8) + rng.normal(0, 0.03, (8, 2))
    fit = fit_closed_circle(points)

    def residuals(c):
        away = np.hypot(*(points - c).T)
        return away[1:] - away[0]

    other = least_squares(residuals, [1.0, 2.0], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert fit.centre == pytest.approx(other.x, abs=2e-6)
