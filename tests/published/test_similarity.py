# SPDX-License-Identifier: GPL-2.0-or-later
"""Published plane similarities and rigid motions, to their printed digits; a source beside each. "Memory" tells that
the figure was given from memory of the source. The fit is target = origin + scale R(turn) local, anticlockwise."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.errors import TooFewPoints
from plugin.core.place.fit import fit_similarity


def fitted(source, target, weights=None, *, scale=True):
    w = None if weights is None else np.array(weights, float)
    return fit_similarity(np.array(source, float), np.array(target, float), w, scale=scale)


def coefficients(fit):
    """a, b of X = a x - b y + Tx, Y = b x + a y + Ty, and Tx, Ty."""
    return [fit.matrix[0, 0], fit.matrix[1, 0], *fit.origin]


def clockwise(xy, angle):
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(xy, float) @ np.array([[c, -s], [s, c]])


def test_t1_01_parameters_of_a_published_operation_come_back():
    """IOGP/EPSG Guidance Note 7-2, method 9621, parameters of transformation 5166 (seen); theta is clockwise."""
    theta, scale, origin = math.radians(1.56504 / 3600), 1.0000015504, np.array([-129.549, -208.185])
    source = np.array([(300000.0, 4500000.0), (310000.0, 4500000.0), (300000.0, 4520000.0)])
    target = scale * clockwise(source, theta) + origin
    assert target[0] == pytest.approx([299905.06, 4499796.515], abs=0.0015)
    fit = fitted(source, target)
    assert fit.scale == pytest.approx(scale, abs=1e-12)
    assert fit.turn == pytest.approx(-theta, abs=1e-12)
    # 4.5e6 m from the points: 1e-12 of turn and scale come to 5e-6 m there.
    assert fit.origin == pytest.approx(origin, abs=1e-5)
    back = fitted(target, source).apply(np.array([(299905.06, 4499796.515)]))
    assert back[0] == pytest.approx([300000.0, 4500000.0], abs=0.0015)


CONTROL = [(121.622, -128.066), (141.228, 187.718), (175.802, 135.728)]
MAPPED = [(1049422.4, 51089.2), (1049413.95, 49659.3), (1049244.95, 49884.95)]


def test_t1_03_a_turn_of_183_degrees():
    """Ghilani and Wolf, Adjustment Computations, ch. 18, two-dimensional conformal transformation (numbers seen in
    three public code files; chapter, scale and rotation from memory)."""
    fit = fitted(CONTROL, MAPPED)
    a, b, tx, ty = coefficients(fit)
    assert [a, b] == pytest.approx([-4.51249, -0.25371], abs=6e-6)
    assert [tx, ty] == pytest.approx([1050003.715, 50542.131], abs=0.002)
    assert fit.scale == pytest.approx(4.51962, abs=6e-6)
    assert math.degrees(fit.turn) % 360 == pytest.approx(183.21805555557, abs=2e-5)
    others = fit.apply(
        np.array([(174.148, -120.262), (513.52, -192.13), (754.444, -67.706), (972.788, 120.994)])
    )
    printed = [
        (1049187.361, 51040.629),
        (1047637.713, 51278.829),
        (1046582.113, 50656.241),
        (1045644.713, 49749.336),
    ]
    assert others == pytest.approx(np.array(printed), abs=0.002)


def test_t1_03_a_misprinted_northing_does_not_give_the_published_parameters():
    """One public copy has 51085.20 for A."""
    fit = fitted(CONTROL, [(1049422.4, 51085.2), *MAPPED[1:]])
    assert coefficients(fit)[:2] != pytest.approx([-4.51249, -0.25371], abs=1e-3)


PARCEL = [(100.0, 250.0), (200.0, 423.205), (286.602, 373.205), (157.735, 150.0)]
MOVED = [(176.962, 249.904), (280.885, 309.904), (310.884, 257.942), (176.962, 180.622)]


def area_of(xy):
    x, y = np.asarray(xy, float).T
    return 0.5 * abs(float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)))


def test_t1_04_a_parcel_turned_scaled_and_moved():
    """Deakin (2007), Coordinate Transformations for Cadastral Surveying, RMIT University (seen)."""
    fit = fitted(PARCEL, MOVED)
    # Printed to 0.001 over arms of about 140 m.
    assert math.degrees(fit.turn) == pytest.approx(-30.0, abs=4e-4)
    assert fit.scale == pytest.approx(0.6, abs=6e-6)
    assert fit.origin == pytest.approx([50.0, 150.0], abs=0.003)
    assert np.abs(fit.residual).max() < 0.0011
    # The sheet's area is of unrounded corners, so the motion is fitted to three of these and met at the fourth.
    exact = 0.6 * clockwise(PARCEL, math.radians(30.0)) + (50.0, 150.0)
    fit = fitted(PARCEL[:3], exact[:3])
    found = fit.apply(np.array(PARCEL))
    assert found == pytest.approx(np.array(MOVED), abs=0.0011)
    assert area_of(PARCEL) == pytest.approx(22886.75, abs=0.15)
    assert area_of(found) == pytest.approx(8239.23, abs=0.06)
    assert area_of(found) / area_of(PARCEL) == pytest.approx(fit.scale**2, rel=1e-12)


def test_t1_04_without_scale_the_measured_size_is_kept():
    """The placement's default: the same parcel fitted rigidly keeps its area and its turn; the misfit shows."""
    fit = fitted(PARCEL, MOVED, scale=False)
    assert fit.scale == 1.0
    assert math.degrees(fit.turn) == pytest.approx(-30.0, abs=4e-4)
    assert area_of(fit.apply(np.array(PARCEL))) == pytest.approx(area_of(PARCEL), rel=1e-12)
    assert np.hypot(*fit.residual.T).min() > 20.0


SLIDES = [(100.69, 166.39), (34.9, 56.07), (171.36, 58.87)]
GRID = [(670305, 224173), (670764, 223898), (670741, 224444)]


def test_t1_06_two_points_are_met_exactly():
    """Greenfeld (NJIT), weighted coordinate transformations, course slides (seen)."""
    fit = fitted(SLIDES[:2], GRID[:2])
    a, b, tx, ty = coefficients(fit)
    assert a == pytest.approx(0.00851, abs=6e-6)
    assert b == pytest.approx(4.1657, abs=6e-5)
    assert [tx, ty] == pytest.approx([670997, 223752], abs=1.0)
    assert np.abs(fit.residual).max() < 1e-9


def test_t1_07_three_points_without_weights():
    """Greenfeld (NJIT), as above (seen); m0 with 2n - 4 degrees of freedom, mp = m0 sqrt 2."""
    fit = fitted(SLIDES, GRID)
    a, b, tx, ty = coefficients(fit)
    assert a == pytest.approx(0.00396, abs=6e-6)
    assert b == pytest.approx(4.0503, abs=6e-5)
    assert [tx, ty] == pytest.approx([670983, 223757], abs=1.0)
    computed = [(670309.22, 224165.37), (670755.79, 223898.46), (670744.99, 224451.17)]
    assert fit.apply(np.array(SLIDES)) == pytest.approx(np.array(computed), abs=0.02)
    squares = (fit.residual**2).sum(axis=0)
    assert squares == pytest.approx([101.14, 109.97], abs=0.6)
    m0 = math.sqrt(squares.sum() / (2 * 3 - 4))
    assert m0 == pytest.approx(10.27, abs=0.02)
    assert m0 * math.sqrt(2) == pytest.approx(14.53, abs=0.03)


def test_t1_07_three_points_with_weights():
    """Greenfeld (NJIT), as above, weights 3, 1, 1 (seen)."""
    a, b, tx, ty = coefficients(fitted(SLIDES, GRID, [3, 1, 1]))
    assert [a, b] == pytest.approx([0.03254935, 4.06528246], abs=6e-9)
    assert [tx, ty] == pytest.approx([670979.997, 223754.901], abs=0.0011)
    assert a != pytest.approx(0.00396, abs=1e-3)


def test_t1_11_eight_points_by_least_squares():
    """scikit-image test suite, eight control points (seen). The published matrix is said to be of total least squares;
    ordinary least squares meets its printed digits all the same."""
    source = [
        (-12.3705, -10.5075), (-10.7865, 15.4305), (8.6985, 10.8675), (11.4975, -9.5715), (7.8435, 7.4835),
        (-5.3325, 6.5025), (6.7905, -6.3765), (-6.1695, -0.8235),
    ]  # fmt: skip
    target = [
        (0, 0),
        (0, 5800),
        (4900, 5800),
        (4900, 0),
        (4479, 4580),
        (1176, 3660),
        (3754, 790),
        (1024, 1931),
    ]
    fit = fitted(source, target)
    published = np.array([[236.3289811, -5.5876792257], [5.5876792257, 236.3289811]])
    assert fit.matrix == pytest.approx(published, abs=6e-8)
    assert fit.origin == pytest.approx([2533.1569391, 2435.8232635], abs=6e-8)


def test_t2_03_a_mirrored_target_does_not_give_a_reflection():
    """Umeyama, IEEE PAMI 13 (1991), worked example (digits from memory). The least mean squared residual is given there
    as 0.053; by the paper's own formula, var_y - c^2 var_x = 10/9 (1 - 0.52), it is 0.5333: a slip, not to be met."""
    source, target = [(0, 0), (1, 0), (0, 2)], [(0, 0), (-1, 0), (0, 2)]
    fit = fitted(source, target)
    turn = fit.matrix / fit.scale
    assert turn == pytest.approx(np.array([[0.832, 0.555], [-0.555, 0.832]]), abs=6e-4)
    assert np.linalg.det(turn) == pytest.approx(1.0, abs=1e-12)
    assert fit.origin == pytest.approx([-0.8, 0.4], abs=6e-4)
    assert fit.scale == pytest.approx(0.721, abs=6e-4)
    least = (fit.residual**2).sum(axis=1).mean()
    assert least == pytest.approx(10 / 9 * (1 - 0.52), abs=1e-12)
    assert least != pytest.approx(0.053, abs=0.1)


@pytest.mark.parametrize("seed", range(5))
def test_no_fit_to_a_mirror_image_is_a_mirror(seed):
    source = np.random.default_rng(seed).normal(size=(6, 2))
    for scale in (False, True):
        fit = fitted(source, source * (-1.0, 1.0), scale=scale)
        assert np.linalg.det(fit.matrix) > 0
        assert np.abs(fit.residual).max() > 0.05


def test_t2_04_a_right_angle_by_two_points():
    """User note on transformation by two points, igirder.com (seen)."""
    fit = fitted([(7, 17), (12, 15)], [(18, 10), (16, 5)])
    assert fit.apply(np.array([(6.0, 6.0)]))[0] == pytest.approx([7, 11], abs=1e-9)
    assert math.degrees(fit.turn) == pytest.approx(-90.0, abs=1e-9)
    assert fit.scale == pytest.approx(1.0, abs=1e-12)
    rigid = fitted([(7, 17), (12, 15)], [(18, 10), (16, 5)], scale=False)
    assert rigid.apply(np.array([(6.0, 6.0)]))[0] == pytest.approx([7, 11], abs=1e-9)


def test_t2_05_axes_turned_by_27_degrees():
    """HP 33s user's guide (2004), coordinate transformations (example numbers from memory). Axes turn, so points
    turn back; the motion is found from two of the points and met at the others."""
    old, new = [(-9, 7), (-5, -4), (6, 8)], [(-9.2622, 17.0649), (-10.6921, 5.4479), (4.5569, 11.1461)]
    fit = fitted(old, new, scale=False)
    # Printed to 5e-5 over arms of about 8.
    assert math.degrees(fit.turn) == pytest.approx(-27.0, abs=5e-4)
    assert np.abs(fit.residual).max() < 6e-5
    assert fit.apply(np.array([(7.0, -4.0)]))[0] == pytest.approx([0.0, 0.0], abs=2e-4)
    back = fitted(new, old, scale=False).apply(np.array([(2.7, -3.6)]))
    assert back[0] == pytest.approx([11.0401, -5.9818], abs=2e-4)


@pytest.mark.parametrize("scale", [False, True])
def test_a_fit_far_from_the_origin_keeps_its_digits(scale):
    """Moved by 1e7 m, where a coordinate holds 2e-9 m."""
    source = np.array([(0.0, 0.0), (24.0, 0.0), (40.0, 18.0)])
    target = clockwise(source, 0.7) + (3.0, -2.0)
    fit = fitted(source + 1e7, target - 1e7, scale=scale)
    assert fit.apply(source + 1e7) == pytest.approx(target - 1e7, abs=2e-8)
    assert np.abs(fit.residual).max() < 2e-8


def test_weights_scaled_together_change_nothing():
    one = fitted(SLIDES, GRID, [3, 1, 1])
    other = fitted(SLIDES, GRID, [3e8, 1e8, 1e8])
    assert other.origin == pytest.approx(one.origin, abs=1e-6)
    assert other.matrix == pytest.approx(one.matrix, abs=1e-11)


@pytest.mark.parametrize("points", [[(1.0, 2.0)], [(1.0, 2.0), (1.0, 2.0)], [(5.0, 5.0)] * 3])
def test_one_place_is_no_base(points):
    with pytest.raises(
        TooFewPoints, match=f"^A fit needs two different points at least; there are {len(points)}.$"
    ):
        fitted(points, points)
