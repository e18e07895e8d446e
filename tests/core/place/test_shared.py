# SPDX-License-Identifier: GPL-2.0-or-later
"""What the heights of a survey share, in few numbers by station, against the whole covariance."""

from __future__ import annotations

import numpy as np
import pytest
from builders import demo_walks, make_walk

from plugin.core.place import fit as fit_module
from plugin.core.place.shared import CHOSEN, PARTS, shared_heights
from tests.core.place.test_fit import adjusted_of, placed_on


def walked(count=0, seed=4):
    """Walks with heights; with `count`, a further one of so many rows from the first mark to the second."""
    rng = np.random.default_rng(seed)
    walks = demo_walks(["W1", "W2"], noise=rng)
    walks = [make_walk(w.xy, name=w.name, z=np.arange(len(w)) * 0.1, mark=w.mark) for w in walks]
    if count:
        on = [k for k, mark in enumerate(walks[0].mark) if mark]
        first, last = walks[0].xy[on[0]], walks[0].xy[on[1]]
        xy = first + np.linspace(0.0, 1.0, count)[:, None] * (last - first)
        xy[1:-1] += rng.normal(0.0, 2.0, (count - 2, 2))
        mark = [walks[0].mark[on[0]], *[""] * (count - 2), walks[0].mark[on[1]]]
        z = np.linspace(walks[0].z[on[0]], walks[0].z[on[1]], count)
        walks.append(make_walk(xy, name="W9", z=z, mark=mark))
    return placed_on(adjusted_of(walks), ("A", "B"), 0.03)


def whole(placed):
    return placed.height_columns(np.arange(len(placed.xy)))


def told(heights):
    return np.diag(heights.own**2) + heights.shared @ heights.shared.T


def test_a_stations_own_and_shared_parts_are_its_whole_sigma():
    for placed in (walked(), walked(400)):
        heights = shared_heights(placed)
        sigma = placed.height_sigma(np.arange(len(placed.xy)))
        assert heights.shared.shape == (len(sigma), PARTS)
        assert np.hypot(heights.own, np.sqrt((heights.shared**2).sum(axis=1))) == pytest.approx(
            sigma, rel=1e-9
        )
        assert (heights.own >= 0.0).all()


def test_with_as_many_parts_as_stations_nothing_is_left_of_the_covariance():
    placed = walked()
    heights = shared_heights(placed, len(placed.xy))
    assert heights.shared @ heights.shared.T == pytest.approx(whole(placed), abs=1e-12)
    assert heights.own.max() < 1e-6


def test_of_few_stations_the_parts_are_those_of_the_largest_eigenvalues():
    placed = walked()
    values, vectors = np.linalg.eigh(whole(placed))
    best = vectors[:, -PARTS:] @ np.diag(values[-PARTS:]) @ vectors[:, -PARTS:].T
    heights = shared_heights(placed)
    assert heights.shared @ heights.shared.T == pytest.approx(best, abs=1e-12)


def test_what_is_left_out_of_many_stations_is_never_below_nothing():
    placed = walked(400)
    assert len(placed.xy) > CHOSEN
    heights = shared_heights(placed)
    rest = whole(placed) - heights.shared @ heights.shared.T
    values = np.linalg.eigvalsh(whole(placed))
    assert np.linalg.eigvalsh(rest).min() > -1e-9 * values[-1]
    kept = 1.0 - np.trace(rest) / values.sum()
    assert kept == pytest.approx(values[-PARTS:].sum() / values.sum(), abs=2e-3)


@pytest.mark.parametrize("count", [0, 400])
def test_means_of_heights_and_rises_are_worth_what_the_covariance_says(count):
    placed = walked(count)
    c, d = whole(placed), told(shared_heights(placed))
    assert d.mean() == pytest.approx(c.mean(), rel=0.02)
    rng = np.random.default_rng(2)
    i, j = rng.integers(0, len(c), (2, 400))
    far = c[i, i] + c[j, j] - 2.0 * c[i, j] > 1e-8
    rise = [np.sqrt((m[i, i] + m[j, j] - 2.0 * m[i, j])[far]) for m in (c, d)]
    assert np.median(rise[1] / rise[0]) == pytest.approx(1.0, abs=0.05)


def test_held_and_applied_covariances_give_the_same_parts(monkeypatch):
    held = shared_heights(walked(400))
    monkeypatch.setattr(fit_module, "WHOLE_LIMIT", 0)
    applied = shared_heights(walked(400))
    assert told(applied) == pytest.approx(told(held), abs=1e-10)
