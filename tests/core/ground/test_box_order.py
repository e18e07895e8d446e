# SPDX-License-Identifier: GPL-2.0-or-later
"""Boxes that meet a box, beside a look at all of them."""

from __future__ import annotations

import time

import numpy as np
import pytest

from plugin.core.ground.box_order import BoxOrder


def everyone(low, high, one, other):
    return np.flatnonzero((low <= other).all(axis=1) & (high >= one).all(axis=1))


@pytest.mark.parametrize("far", [0.0, 1e7])
@pytest.mark.parametrize("seed", range(30))
def test_it_finds_what_a_look_at_all_boxes_finds(seed, far):
    rng = np.random.default_rng(seed)
    low = np.round(rng.uniform(0, 50, (400, 2)), 1) + far
    high = low + np.round(rng.exponential(2.0, (400, 2)) * rng.choice([0, 1, 10], (400, 1)), 1)
    boxes = BoxOrder(low, high)
    for _ in range(40):
        one = np.round(rng.uniform(-5, 55, 2), 1) + far
        other = one + np.round(rng.exponential(3.0, 2), 1)
        assert boxes.meeting(one, other).tolist() == everyone(low, high, one, other).tolist()


def test_touching_boxes_meet_and_of_no_boxes_none_does():
    boxes = BoxOrder(np.array([[0.0, 0.0]]), np.array([[1.0, 1.0]]))
    assert boxes.meeting(np.array([1.0, 1.0]), np.array([2.0, 2.0])).tolist() == [0]
    assert boxes.meeting(np.array([1.1, 1.0]), np.array([2.0, 2.0])).tolist() == []
    assert BoxOrder(np.empty((0, 2)), np.empty((0, 2))).meeting(np.zeros(2), np.ones(2)).tolist() == []


def test_a_million_boxes_are_asked_a_thousand_times_in_seconds():
    x, y = (v.ravel() for v in np.meshgrid(np.arange(1000.0), np.arange(1000.0)))
    low = np.column_stack([x, y])
    boxes = BoxOrder(low, low + 1.0)
    begin = time.perf_counter()
    counts = [len(boxes.meeting(np.full(2, k + 0.5), np.full(2, k + 2.5))) for k in range(900)]
    assert counts == [9] * 900
    assert time.perf_counter() - begin < 5.0
