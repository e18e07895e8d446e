# SPDX-License-Identifier: GPL-2.0-or-later
"""Boxes that meet, held to a look at every pair."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.shape import boxes
from plugin.core.shape.boxes import find_meeting_boxes


def pairs_of(a, b):
    """All pairs found, each once."""
    found = [(int(i), int(k)) for one, other in find_meeting_boxes(*a, *b) for i, k in zip(one, other)]
    assert len(found) == len(set(found))
    return set(found)


def some_boxes(rng, n, size):
    low = rng.uniform(0.0, 100.0, (n, 2))
    return low, low + rng.uniform(0.0, size, (n, 2)) ** 2


@pytest.mark.parametrize("few", [boxes.FEW, 0])
@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_boxes_that_meet_are_found_both_ways(monkeypatch, few, shift):
    monkeypatch.setattr(boxes, "FEW", few)
    rng = np.random.default_rng(8)
    a, b = some_boxes(rng, 60, 4.0), some_boxes(rng, 90, 3.0)
    a, b = tuple(x + shift for x in a), tuple(x + shift for x in b)
    meets = np.all((a[0][:, None] <= b[1]) & (b[0] <= a[1][:, None]), axis=2)
    assert pairs_of(a, b) == set(zip(*(its.tolist() for its in np.nonzero(meets))))


@pytest.mark.parametrize("few", [boxes.FEW, 0])
def test_boxes_that_touch_meet_and_none_meet_none(monkeypatch, few):
    monkeypatch.setattr(boxes, "FEW", few)
    one, next_to_it = (np.array([[x, 0.0]]) for x in (0.0, 1.0))
    assert pairs_of((one, one + 1.0), (next_to_it, next_to_it + 1.0)) == {(0, 0)}
    none = np.zeros((0, 2))
    assert pairs_of((none, none), (one, one + 1.0)) == set()
