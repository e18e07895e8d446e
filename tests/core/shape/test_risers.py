# SPDX-License-Identifier: GPL-2.0-or-later
"""Steps: risers have no run, whatever the noise of their two stations."""

from __future__ import annotations

import numpy as np
import pytest
from fake_positions import FakePositions, noisy, trail, walk_of

from plugin.core.findings import Decisions
from plugin.core.measure.shapes import measure_shapes
from plugin.core.shape.features import shape_features

STEPS = [(0, 0, 0.0), (0, 0, 0.18), (0.3, 0, 0.18), (0.3, 0, 0.36), (0.6, 0, 0.36), (0.6, 0, 0.54)]


def measured(positions):
    shapes, findings = shape_features(positions, Decisions())
    assert findings == ()
    return measure_shapes(shapes, positions, site="s", sigma_from={}).lengths[0]


def steps(points=STEPS, sigma=0.006):
    walk = walk_of(trail("Steps", points, geometry="length"))
    n = len(walk)
    return FakePositions([walk], sigma**2 * np.eye(2 * n), sigma**2 * np.eye(n))


def test_noisy_steps_have_neither_a_bias_in_plan_nor_a_wrong_sigma():
    clean = measured(steps())
    rng = np.random.default_rng(3)
    rows = [measured(noisy(steps(), rng)) for _ in range(1500)]
    for name, true in (("length", 0.6), ("rise", 0.54), ("gradient", 0.9)):
        values = np.array([getattr(row, name).value for row in rows])
        sigma = getattr(clean, name).sigma
        # 1,500 draws know a mean to 0.026 sigma and a sigma to 1.8 %; what is left of the bias (the treads'
        # own, half the lateral variance over 0.3 m) is 0.06 mm each.
        assert abs(values.mean() - true) < 0.1 * sigma, name
        assert sigma == pytest.approx(values.std(), rel=0.08), name


def test_without_noise_steps_are_what_they_are():
    row = measured(steps(sigma=0.0))
    assert (row.length.value, row.slope_length.value, row.rise.value) == pytest.approx((0.6, 1.14, 0.54))
    assert len(row.runs[0].points) == 6


def test_a_leaning_riser_loses_no_length():
    points = [(0, 0, 0.0), (0.01, 0, 0.18), (0.3, 0, 0.18), (0.31, 0, 0.36), (0.6, 0, 0.36)]
    row = measured(steps(points))
    # The first and last stations are ends: 5 mm of the first riser lies before its mean.
    assert row.length.value == pytest.approx(0.6 - 0.005, abs=1e-9)


def test_stations_close_together_at_one_height_are_left_as_they_are():
    row = measured(steps([(0, 0, 0.0), (0.01, 0, 0.01), (0.3, 0, 0.02)]))
    assert row.length.value == pytest.approx(0.3)
    assert row.runs[0].points[:, 0] == pytest.approx([0, 0.01, 0.3])
