# SPDX-License-Identifier: GPL-2.0-or-later
"""The shift and turn that all places share."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.register.motion import fit_motion, robust_mean
from tests.core.register.known_sites import moved

PLACES = np.random.default_rng(2).uniform(0.0, 50.0, (40, 2))
VARIANCE = np.full(40, 0.02**2)


@pytest.mark.parametrize("turn", [0.0, 1e-5, -0.3, 3.1])
def test_a_shift_and_a_turn_are_found_exactly_and_undone(turn):
    there = moved(PLACES, (0.4, -0.7), turn)
    motion = fit_motion(PLACES, there, VARIANCE)
    assert motion.turn == pytest.approx(turn, abs=1e-10)
    assert motion.undone(there) == pytest.approx(PLACES, abs=1e-8)


def test_a_third_of_the_places_may_have_moved_anywhere():
    rng = np.random.default_rng(4)
    there = PLACES + (0.05, 0.02) + rng.normal(0.0, 0.02, PLACES.shape)
    there[:13] += rng.uniform(1.0, 5.0, (13, 2))
    motion = fit_motion(PLACES, there, VARIANCE)
    assert motion.shift == pytest.approx((0.05, 0.02), abs=0.015)


def test_what_is_taken_off_errs_no_more_than_its_spread_says():
    rng = np.random.default_rng(6)
    at = np.array([[80.0, -20.0]])
    gaps = []
    for _ in range(300):
        motion = fit_motion(PLACES, PLACES + rng.normal(0.0, 0.02, PLACES.shape), VARIANCE)
        gaps.append(((motion.undone(at) - at) ** 2)[0])
    assert (np.mean(gaps, axis=0) <= np.diag(motion.spread(at)[0])).all()


def test_one_place_gives_a_shift_and_none_gives_nothing():
    motion = fit_motion(PLACES[:1], PLACES[:1] + 3.0, VARIANCE[:1])
    assert (motion.shift.tolist(), motion.turn) == ([3.0, 3.0], 0.0)
    assert fit_motion(PLACES[:0], PLACES[:0], VARIANCE[:0]) is None


def test_the_middle_of_differences_leaves_out_what_changed():
    off = np.random.default_rng(1).normal(0.03, 0.01, 60)
    off[:20] -= 0.5
    found, share = robust_mean(off, np.full(60, 1e-4))
    assert found == pytest.approx(off[20:].mean(), abs=0.002)
    assert share.sum() == pytest.approx(1.0)
    assert share[:20].max() == 0.0
