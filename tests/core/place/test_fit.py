# SPDX-License-Identifier: GPL-2.0-or-later
"""Placing: closed forms, and the covariance of placed points against draws."""

from __future__ import annotations

import math

import numpy as np
import pytest
from builders import DEMO, MARKS, demo_walks, drifted, make_walk, route, turn

from plugin.core.adjust.walks import adjust_walks
from plugin.core.findings import Decisions
from plugin.core.place import fit as fit_module
from plugin.core.place.fit import Placed, fit_similarity
from plugin.core.quantity import Gradient
from plugin.core.walk import Job

INSTRUMENTS = {"rover": DEMO}


def adjusted_of(walks):
    return adjust_walks(Job(tuple(walks), instruments=INSTRUMENTS), {}, Decisions())[0]


def placed_on(adjusted, names, sd, common=0.0, scale=False, targets=None):
    rows = np.array([adjusted.mark_rows[name] for name in names])
    target = np.array([MARKS[name] for name in names], float) if targets is None else targets
    picks = np.full(len(names), sd)
    fit = fit_similarity(adjusted.xy[rows], target, picks**-2.0, scale=scale)
    return Placed(adjusted, fit, rows, picks, common)


@pytest.mark.parametrize("pairs", [("A", "B"), ("P", "Q")])
def test_a_short_base_places_far_points_badly(pairs):
    """Radial sigma at C with picks of 0.05 m: 0.117 m from A-B, 0.64 m from P-Q (adjustment.md section 8)."""
    adjusted = adjusted_of(demo_walks())
    placed = placed_on(adjusted, pairs, 0.05)
    row = adjusted.mark_rows["C"]
    radial = math.sqrt(np.trace(placed.plan_ellipses(np.array([row]))[0]))
    assert radial == pytest.approx(0.117 if pairs == ("A", "B") else 0.64, rel=0.01)


def test_held_and_applied_covariances_agree(monkeypatch):
    adjusted = adjusted_of(demo_walks(noise=np.random.default_rng(4)))
    held = placed_on(adjusted, ("A", "B", "C"), 0.03, common=0.1, scale=True)
    monkeypatch.setattr(fit_module, "WHOLE_LIMIT", 0)
    applied = placed_on(adjusted, ("A", "B", "C"), 0.03, common=0.1, scale=True)
    index = np.array([3, 40, 70])
    assert applied.plan_ellipses(index) == pytest.approx(held.plan_ellipses(index), abs=1e-12)
    assert applied.plan_covariance(index) == pytest.approx(held.plan_covariance(index), abs=1e-12)
    g = Gradient(index, np.array([[1.0, 2.0], [-3.0, 0.5], [2.0, -2.5]]), np.zeros(3))
    assert applied.variance(g) == pytest.approx(held.variance(g), rel=1e-9)


def test_a_gradient_that_names_a_station_often_is_the_sum_of_its_parts(monkeypatch):
    walks = demo_walks(["W1", "W2"], noise=np.random.default_rng(4))
    walks = [make_walk(w.xy, name=w.name, z=np.arange(len(w)) * 0.1, mark=w.mark) for w in walks]
    adjusted = adjusted_of(walks)
    rng = np.random.default_rng(6)
    index = rng.integers(0, 30, 400)
    g = Gradient(index, rng.normal(size=(400, 2)), rng.normal(size=400))
    held = placed_on(adjusted, ("A", "B"), 0.03, common=0.1)
    plan, height = np.zeros((30, 2)), np.zeros(30)
    np.add.at(plan, index, g.plan)
    np.add.at(height, index, g.height)
    assert held.variance(g) == pytest.approx(held.variance(Gradient(np.arange(30), plan, height)), rel=1e-12)
    monkeypatch.setattr(fit_module, "WHOLE_LIMIT", 0)
    assert placed_on(adjusted, ("A", "B"), 0.03, common=0.1).variance(g) == pytest.approx(
        held.variance(g), rel=1e-9
    )
    assert held.height_sigma(index) == pytest.approx(adjusted.height_sigma(index), rel=1e-9)


def test_a_common_shift_moves_positions_and_no_size():
    adjusted = adjusted_of(demo_walks(["W1"]))
    near, far = (placed_on(adjusted, ("A", "B"), 0.03, common=c) for c in (0.0, 0.4))
    size = Gradient(np.array([5, 9]), np.array([[1.0, 0.0], [-1.0, 0.0]]), np.zeros(2))
    assert far.variance(size) == pytest.approx(near.variance(size), rel=1e-9)
    more = far.plan_ellipses(np.array([5])) - near.plan_ellipses(np.array([5]))
    assert more[0] == pytest.approx(0.16 * np.eye(2), abs=1e-9)


def test_sizes_of_a_placed_survey_are_those_of_the_adjusted_one():
    adjusted = adjusted_of(demo_walks(noise=np.random.default_rng(8)))
    placed = placed_on(adjusted, ("A", "B", "C"), 0.03)
    a = np.hypot(*(adjusted.xy[:, None] - adjusted.xy[None]).reshape(-1, 2).T)
    b = np.hypot(*(placed.xy[:, None] - placed.xy[None]).reshape(-1, 2).T)
    assert b == pytest.approx(a, abs=1e-12)


def test_ellipses_of_placed_points_cover_the_truth():
    """400 drawn walks and picks: the squared distance over the ellipse has the mean 2 of a chi-square."""
    points, marks = route(["A", "B", (22, 2), (22, 12), (40, 10), "A"])
    rng = np.random.default_rng(21)
    far, squares = 3 + int(np.argmin(np.hypot(*(points[3:] - (40, 10)).T))), []
    for _ in range(400):
        walk = make_walk(turn(drifted(points, rng), 1.1), mark=marks)
        adjusted = adjusted_of([walk])
        shift = rng.normal(0, 0.08, 2)
        target = np.array([MARKS["A"], MARKS["B"]]) + shift + rng.normal(0, 0.03, (2, 2))
        placed = placed_on(adjusted, ("A", "B"), 0.03, common=0.08, targets=target)
        gap = placed.xy[far] - points[far]
        squares.append(gap @ np.linalg.solve(placed.plan_ellipses(np.array([far]))[0], gap))
    # The mean of 400 chi-squares of two degrees has a standard deviation of 0.1.
    assert np.mean(squares) == pytest.approx(2.0, abs=0.3)
    assert np.mean(np.array(squares) < 5.991) == pytest.approx(0.95, abs=0.035)


def test_weights_come_from_the_picks_alone():
    local = np.array([[0.0, 0.0], [10.0, 0.0], [5.0, 8.0]])
    target = local + [[0.0, 0.0], [0.0, 0.0], [0.3, 0.0]]
    loose = fit_similarity(local, target, np.array([1.0, 1.0, 1e-6]))
    assert loose.residual[2] == pytest.approx([0.3, 0.0], abs=1e-5)
