# SPDX-License-Identifier: GPL-2.0-or-later
"""Published circle fits, to their printed digits; a source beside each. "Memory" tells that the figure was given
from memory of the source."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.circle import circle_through, fit_circle


def test_t6_01_six_points_of_a_short_arc():
    """Gander, Golub & Strebel, BIT 34, 1994 (memory). The algebraic fit, a metre off, must not be given."""
    fit = fit_circle(np.array([(1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)], float))
    assert [*fit.centre, fit.radius] == pytest.approx([4.7398, 2.9835, 4.7142], abs=6e-5)
    assert [*fit.centre, fit.radius] != pytest.approx([5.3794, 7.2532, 3.037], abs=0.5)


def test_t6_03_a_full_circle_of_points():
    """SciPy cookbook, least-squares circle (seen); "residu" is the sum of squared distances."""
    points = np.column_stack([[9, 35, -13, 10, 23, 0], [34, 10, 6, -14, 27, -10]]).astype(float)
    fit = fit_circle(points)
    assert [*fit.centre, fit.radius] == pytest.approx([10.50009, 9.65995, 23.33353], abs=1.1e-5)
    assert fit.rms**2 * len(points) == pytest.approx(7.711852, abs=1.1e-5)


def test_t6_05_eight_points_nearly_all_round():
    """Spaeth and Coope (partly memory)."""
    points = [(0.7, 4), (3.3, 4.7), (5.6, 4), (7.5, 1.3), (6.4, -1.1), (4.4, -3), (0.3, -2.5), (-1.1, 1.3)]
    fit = fit_circle(np.array(points))
    assert [*fit.centre, fit.radius] == pytest.approx([3.04324, 0.74568, 4.10586], abs=6e-6)


def test_t6_06_an_as_built_curve_of_which_the_algebraic_fit_is_published():
    """Ghilani & Wolf, Elementary Surveying, 14th ed., as quoted on a calculator blog (seen): a linear fit. Ours
    is the geometric one, near it but not it; the linear fit of the same points is made here to compare."""
    points = np.array([(6975.82, 6947.93), (7577.11, 6572.6), (8084.03, 6071.29), (8431.38, 5542.0)])
    mean = points.mean(axis=0)
    q = points - mean
    linear = np.linalg.lstsq(np.column_stack([2 * q, np.ones(4)]), (q**2).sum(1), rcond=None)[0]
    published = [5587.37457087, 4053.99226137, 3209.76637679]
    radius = np.sqrt(linear[2] + linear[0] ** 2 + linear[1] ** 2)
    assert [*(linear[:2] + mean), radius] == pytest.approx(published, abs=5e-6)
    fit = fit_circle(points)

    def squares(x, y, r):
        return float(((np.hypot(*(points - (x, y)).T) - r) ** 2).sum())

    assert squares(*fit.centre, fit.radius) < squares(*published)
    assert [*fit.centre, fit.radius] == pytest.approx(published, abs=1.0)


def test_t6_07_a_curve_through_three_points():
    """Mahun, open-access surveying course, three-point curve (seen); coordinates to two decimals."""
    north_east = [(902.72, 1751.91), (870.76, 1237.76), (538.57, 1293.16)]
    fit = circle_through(*north_east)
    assert fit.radius == pytest.approx(294.42, abs=0.011)
    assert fit.centre == pytest.approx([744.39, 1503.68], abs=0.011)
