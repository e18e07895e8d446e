# SPDX-License-Identifier: GPL-2.0-or-later
"""Boxes that meet, beside all of them held against all."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.ground.pairs import box_pairs


def boxes(count, seed, size, span=100.0):
    draw = np.random.default_rng(seed)
    low = draw.uniform(0, span, (count, 2))
    return np.column_stack([low, low + draw.exponential(size, (count, 2))])


def met(a, b):
    found = [np.column_stack(pair) for pair in box_pairs(a, b)]
    pairs = np.concatenate(found) if found else np.empty((0, 2), int)
    assert len(np.unique(pairs, axis=0)) == len(pairs), "a pair came twice"
    return {tuple(pair) for pair in pairs.tolist()}


def truly_met(a, b):
    meet = (a[:, None, :2] <= b[None, :, 2:]).all(axis=2) & (b[None, :, :2] <= a[:, None, 2:]).all(axis=2)
    return set(zip(*(k.tolist() for k in np.nonzero(meet))))


CLUSTER = np.vstack([boxes(1500, 5, 1e-4, 1e-2), boxes(300, 6, 10.0)])
FAN = np.column_stack([np.full((700, 2), 50.0), 50.0 + np.linspace(0, 50, 1400).reshape(700, 2)])


@pytest.mark.parametrize(
    ("a", "b"),
    [
        (boxes(900, 1, 3.0), boxes(1100, 2, 2.0)),
        (boxes(3, 1, 90.0), boxes(2000, 2, 1.0)),
        (CLUSTER, CLUSTER),
        (FAN, FAN),
        (boxes(500, 1, 0.5), boxes(500, 2, 0.5) + 1000.0),
        (np.array([[0, 0, 1, 1.0]]), np.array([[1, 1, 2, 2.0]])),
        (boxes(500, 1, 5.0) * [1, 0, 1, 0], boxes(400, 2, 5.0) * [1, 0, 1, 0]),
        (np.zeros((40, 4)), np.zeros((30, 4))),
        (np.empty((0, 4)), boxes(5, 1, 1.0)),
    ],
    ids=["alike", "few over many", "crowded", "fan", "apart", "corner", "on a line", "on a point", "none"],
)
def test_the_boxes_that_meet_are_found_each_once(a, b):
    assert met(a, b) == truly_met(a, b)
