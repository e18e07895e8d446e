# SPDX-License-Identifier: GPL-2.0-or-later
"""A jump in the heights of a feature, held to a fit of plane and jump for every station (numpy's least squares)."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.check.heights import _gains, find_jump


def drop_of(plane, z, k):
    """By how much the sum of squares falls with a jump from station k on."""

    def left(design):
        x = np.linalg.lstsq(design, z, rcond=1e-9)[0]
        return float(((z - design @ x) ** 2).sum())

    return left(plane) - left(np.column_stack([plane, np.arange(len(z)) >= k]))


def plane_of(xy):
    return np.column_stack([np.ones(len(xy)), xy - xy.mean(axis=0)])


def stations(kind, n=24):
    rng = np.random.default_rng(12)
    t = np.linspace(0.0, 1.0, n)
    return {
        "scattered": rng.uniform(0.0, 30.0, (n, 2)),
        "in a line": np.column_stack([12.0 * t, 7.0 * t]),
        "in one place": np.zeros((n, 2)),
        "on a ring": 9.0 * np.column_stack([np.cos(6.28 * t), np.sin(6.28 * t)]),
        "far away": rng.uniform(0.0, 30.0, (n, 2)) + 1e7,
    }[kind]


@pytest.mark.parametrize("kind", ["scattered", "in a line", "in one place", "on a ring", "far away"])
def test_what_each_jump_gains_is_what_least_squares_says(kind):
    xy = stations(kind)
    z = np.random.default_rng(3).normal(0.0, 0.1, len(xy)) + 0.4 * (np.arange(len(xy)) >= 10)
    found = _gains(plane_of(xy), z)
    expected = [drop_of(plane_of(xy), z, k) for k in range(1, len(z))]
    assert found[1:] == pytest.approx(expected, abs=1e-9)  # m2, of some 1 m2 in all


def test_a_jump_that_the_plane_holds_already_gains_nothing():
    """Two places, one half of the stations on either: the plane tilts as the jump would."""
    xy = np.repeat([[0.0, 0.0], [10.0, 0.0]], 6, axis=0)
    z = np.repeat([1.0, 1.5], 6) + np.random.default_rng(1).normal(0.0, 0.01, 12)
    assert _gains(plane_of(xy), z)[6] == 0.0
    assert find_jump(xy, z) is None


@pytest.mark.parametrize("jump", [-0.3, 0.12, 1.9])
@pytest.mark.parametrize("at", [2, 17, 35])
def test_the_station_and_the_size_of_a_jump_are_found(jump, at):
    xy = np.random.default_rng(5).uniform(0.0, 40.0, (37, 2))
    z = 0.02 * xy[:, 0] - 0.01 * xy[:, 1] + jump * (np.arange(37) >= at)
    found = find_jump(xy, z)
    assert found == (at, pytest.approx(jump, abs=1e-9))


def test_a_jump_is_found_among_twenty_thousand_stations():
    """A fit for each station would take minutes."""
    rng = np.random.default_rng(6)
    xy = rng.uniform(0.0, 400.0, (20_000, 2))
    z = rng.normal(0.0, 0.01, 20_000) + 0.3 * (np.arange(20_000) >= 12_345)
    assert find_jump(xy, z) == (12_345, pytest.approx(0.3, abs=0.001))
