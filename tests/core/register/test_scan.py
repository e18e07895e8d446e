# SPDX-License-Identifier: GPL-2.0-or-later
"""Patches of heights: closed forms, Monte Carlo, and what is no patch."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.register.scan import Differences, candidate_patches, patch_hull, scan_heights

GRID = np.array([(x, y) for x in range(8) for y in range(6)], float) * 2.0


def differences(off, sigma=0.01, xy=GRID):
    n = len(xy)
    return Differences(xy, np.asarray(off, float), sigma**2 * np.eye(n), np.ones((n, 1)))


def lowered(rows, depth=0.05, noise=0.0, seed=0):
    off = np.random.default_rng(seed).normal(0, noise, len(GRID)) if noise else np.zeros(len(GRID))
    off[rows] -= depth
    return off


def test_a_patch_of_k_among_n_is_known_to_the_closed_form():
    # Independent errors, one unknown shift: var = s^2 (1/k + 1/(n - k)).
    rows = np.array([14, 15, 20, 21])
    (patch,) = scan_heights(differences(lowered(rows)), 0.01, 1.0).patches
    assert patch.rows.tolist() == rows.tolist()
    assert patch.change.value == pytest.approx(-0.05, abs=1e-12)
    assert patch.change.sigma == pytest.approx(0.01 * np.sqrt(1 / 4 + 1 / 44), rel=1e-9)


def test_a_single_place_against_all_others_is_known_to_the_closed_form():
    single = scan_heights(differences(np.zeros(48)), 0.01, 1.0).single
    assert single == pytest.approx(np.full(48, 0.01 * np.sqrt(1 + 1 / 47)), rel=1e-9)


def test_a_random_walk_knows_a_place_by_its_two_neighbours():
    # Errors that add up from place to place by q each: the middle one of three is the mean of its neighbours but for q/2.
    n = 20
    xy = np.column_stack([np.arange(n, dtype=float), np.zeros(n)])
    q = 0.003**2
    covariance = q * np.minimum.outer(np.arange(n), np.arange(n)).astype(float) + 1e-16 * np.eye(n)
    single = scan_heights(Differences(xy, np.zeros(n), covariance, np.ones((n, 1))), 0.01, 1.0).single
    assert single[10] == pytest.approx(np.sqrt(q / 2), rel=1e-4)


def test_two_patches_are_told_apart_and_each_with_its_own_way():
    off = lowered([0, 1, 6, 7]) - lowered([40, 41, 46, 47], 0.08)
    told = scan_heights(differences(off), 0.01, 1.0).patches
    assert sorted(p.rows.tolist() for p in told) == [[0, 1, 6, 7], [40, 41, 46, 47]]
    by_size = {patch.rows[0]: patch.change.value for patch in told}
    assert by_size == {0: pytest.approx(-0.05, abs=1e-12), 40: pytest.approx(0.08, abs=1e-12)}


def test_parts_that_touch_and_went_the_same_way_are_one_patch():
    off = lowered([14, 15, 20, 21]) + lowered([26, 27], 0.10)
    (patch,) = scan_heights(differences(off), 0.01, 1.0).patches
    assert patch.rows.tolist() == [14, 15, 20, 21, 26, 27]
    assert patch.change.value == pytest.approx(-(4 * 0.05 + 2 * 0.10) / 6, abs=1e-12)


def test_what_all_places_share_is_no_patch():
    assert scan_heights(differences(np.full(48, -0.4)), 0.01, 1.0).patches == ()


@pytest.mark.parametrize("level", [0.05, 0.2])
def test_noise_is_told_as_a_patch_no_more_often_than_stated(level):
    told = sum(
        bool(scan_heights(differences(lowered([], noise=0.01, seed=k)), level, 1.0).patches)
        for k in range(400)
    )
    assert told <= 400 * level
    assert level < 0.1 or told > 0  # at 20 % something must come, or the test could not fail


def test_noise_twice_as_large_as_stated_is_seen_as_noise():
    """Surveys that say too little: the scatter of all patches counts, not what was said."""
    told = sum(
        bool(scan_heights(differences(lowered([], noise=0.02, seed=k)), 0.01, 1.0).patches)
        for k in range(200)
    )
    assert told <= 4


def test_changes_err_as_their_sigmas_say():
    rows = [14, 15, 16, 20, 21, 22]
    ratios = []
    for seed in range(300):
        (patch,) = scan_heights(differences(lowered(rows, 0.15, noise=0.01, seed=seed)), 1e-6, 1.0).patches
        assert patch.rows.tolist() == rows
        ratios.append((patch.change.value + 0.15) / patch.change.sigma)
    # 300 draws know an RMS to 4 %; the scatter of the other patches makes some sigmas larger.
    assert 0.75 < np.sqrt(np.mean(np.square(ratios))) < 1.1
    assert abs(np.mean(ratios)) < 0.2


def test_turned_moved_and_in_another_order_the_patch_is_the_same():
    rows = np.array([14, 15, 20, 21])
    plain = scan_heights(differences(lowered(rows, noise=0.004)), 0.01, 1.0).patches[0]
    order = np.random.default_rng(3).permutation(48)
    c, s = np.cos(0.7), np.sin(0.7)
    xy = (GRID @ np.array([[c, s], [-s, c]]) + 1e7)[order]
    other = scan_heights(differences(lowered(rows, noise=0.004)[order], xy=xy), 0.01, 1.0).patches[0]
    assert sorted(order[other.rows].tolist()) == rows.tolist()
    assert other.change.value == pytest.approx(plain.change.value, abs=1e-9)


@pytest.mark.parametrize("count", [0, 1, 2, 3])
def test_of_hardly_any_places_nothing_is_told(count):
    told = scan_heights(differences(np.arange(count) * 0.5, xy=GRID[:count]), 1e-6, 1.0)
    assert len(told.single) == count
    assert count == 3 or told.patches == ()


def test_a_patch_that_is_all_of_a_walk_cannot_be_told_by_it():
    """Two walks of which the second lies 0.4 m low throughout: that is its own shift."""
    shared = np.zeros((48, 2))
    shared[:24, 0] = shared[24:, 1] = 1.0
    off = np.where(np.arange(48) < 24, 0.0, -0.4)
    given = Differences(GRID, off, 1e-4 * np.eye(48), shared)
    assert scan_heights(given, 0.01, 1.0).patches == ()


def test_candidates_are_each_place_with_its_nearest_and_none_comes_twice():
    which, rows = candidate_patches(GRID)
    assert len({tuple(row.tolist()) for row in rows}) == len(rows) == which.shape[1]
    assert {len(row) for row in rows} == {1, 2, 3, 4, 6, 9, 13, 19}
    assert which.sum(axis=0).tolist() == [len(row) for row in rows]


def test_a_hull_goes_half_the_way_to_the_next_places():
    hull = patch_hull(GRID + 1e7, np.array([14, 15, 20, 21])) - 1e7
    assert (hull[0] == hull[-1]).all()
    assert hull.min(axis=0) == pytest.approx(GRID[14] - 1.0, abs=1e-6)
    assert hull.max(axis=0) == pytest.approx(GRID[21] + 1.0, abs=1e-6)
    (x, y), (u, v) = hull[:-1].T, hull[1:].T
    area = 0.5 * float((x * v - y * u).sum())
    # A square of 2 m with a strip of 1 m about it, its corners of sixteen-sided circles.
    assert area == pytest.approx(4 + 8 + 8 * np.sin(np.pi / 8), abs=1e-6)
