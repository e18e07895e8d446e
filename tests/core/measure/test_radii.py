# SPDX-License-Identifier: GPL-2.0-or-later
"""A schedule of radii: what agrees is one row, what does not is not, whatever the order."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.measure.radii import radius_schedule
from plugin.core.shape.fit.outline import fit_outline
from plugin.core.shape.fit.pieces import fit_pieces

NAN, INF = float("nan"), float("inf")


@dataclass(frozen=True)
class Arc:
    radius: float
    radius_sigma: float = NAN
    sweep: float = 1.0

    @property
    def length(self):
        return abs(self.sweep) * self.radius


def test_radii_that_agree_within_their_joint_95_percent_are_one_row():
    """6.00 +- 0.03 and 6.05 +- 0.04: apart by 0.05, joint sigma 0.05, one sigma. Weights 16 to 9 (of 1/0.0144 m2): mean
    (16 x 6.00 + 9 x 6.05)/25 = 6.018, sigma 0.03 x 0.04/0.05 = 0.024. 6.30 +- 0.03 lies 0.282/0.0384 = 7 sigma off."""
    rows = radius_schedule([Arc(6.05, 0.04, -0.5), Arc(INF), Arc(6.30, 0.03), Arc(6.0, 0.03, 1.5), Arc(NAN)])
    assert [row.members for row in rows] == [(0, 3), (2,)]
    assert (rows[0].radius, rows[0].sigma) == pytest.approx((6.018, 0.024), abs=1e-12)
    assert rows[0].count == 2
    assert (rows[0].least_sweep, rows[0].most_sweep) == (0.5, 1.5)
    assert rows[0].length == pytest.approx(0.5 * 6.05 + 1.5 * 6.0, abs=1e-12)
    assert (rows[1].radius, rows[1].sigma) == pytest.approx((6.30, 0.03), abs=1e-12)


def test_the_limit_is_1_96_joint_sigma():
    joint = np.hypot(0.03, 0.04)
    assert len(radius_schedule([Arc(6.0, 0.03), Arc(6.0 + 1.95 * joint, 0.04)])) == 1
    assert len(radius_schedule([Arc(6.0, 0.03), Arc(6.0 + 1.97 * joint, 0.04)])) == 2


def test_radii_that_each_agree_with_the_next_are_not_all_one():
    """Each 1.5 sigma from the next: chi-square of three about their mean is 4.5, of 5.99 that two degrees allow; of four
    11.25, of 7.81."""
    rows = radius_schedule([Arc(5.0 + 0.015 * k, 0.01) for k in range(9)])
    assert 3 <= len(rows) <= 5
    assert max(row.count for row in rows) <= 3


def test_many_arcs_of_three_radii_are_three_rows():
    """The chance that 20 arcs of one radius are told apart is one in twenty: of 100 draws of three radii some 86 come out
    as three, give or take 3.5."""
    rng = np.random.default_rng(3)
    found = [
        len(
            radius_schedule(
                [Arc(float(r), 0.01) for r in np.repeat([2.0, 3.0, 4.5], 20) + rng.normal(0, 0.01, 60)]
            )
        )
        for _ in range(100)
    ]
    assert min(found) == 3
    assert 75 <= found.count(3) <= 97


def test_exact_radii_are_the_same_within_3_micrometres():
    rows = radius_schedule([Arc(3.0), Arc(3.0 + 2e-6), Arc(3.0 + 1e-5), Arc(3.001)])
    assert [row.count for row in rows] == [2, 1, 1]


def test_with_a_rounding_radii_are_the_same_where_they_round_to_the_same():
    rows = radius_schedule([Arc(5.98, 0.001), Arc(6.02, 0.001), Arc(6.3, 0.001)], rounding=0.25)
    assert [(row.radius, row.count) for row in rows] == [(6.0, 2), (6.25, 1)]
    assert rows[0].sigma == pytest.approx(0.001 / np.sqrt(2), abs=1e-12)


def test_the_order_does_not_count():
    rng = np.random.default_rng(1)
    arcs = [Arc(float(r), 0.01) for r in rng.choice([2.0, 3.0, 4.5], 60) + rng.normal(0, 0.01, 60)]
    rows = radius_schedule(arcs)
    shuffled = [arcs[k] for k in rng.permutation(60)]
    again = radius_schedule(shuffled)
    assert [row.count for row in again] == [row.count for row in rows]
    assert [row.radius for row in again] == pytest.approx([row.radius for row in rows], abs=1e-9)
    assert sum(row.count for row in rows) == 60


def test_95_of_100_groups_of_arcs_of_one_radius_stay_one_row():
    """Two arcs of one radius: 95 %, give or take 0.7 % of 1,000."""
    rng = np.random.default_rng(2)
    pairs = 10.0 + 0.02 * rng.normal(size=(1000, 2))
    one = [len(radius_schedule([Arc(a, 0.02), Arc(b, 0.02)])) == 1 for a, b in pairs.tolist()]
    assert np.mean(one) == pytest.approx(0.95, abs=0.021)


def test_many_radii_take_seconds():
    rows = radius_schedule([Arc(1.0 + 0.001 * k, 1e-4) for k in range(20_000)])
    assert len(rows) == 20_000


def test_nothing_bent_has_no_rows_and_a_rounding_of_nothing_is_refused():
    assert radius_schedule([]) == ()
    assert radius_schedule([Arc(INF), Arc(NAN)]) == ()
    for rounding in (0.0, -1.0, NAN, INF):
        with pytest.raises(BadInput) as told:
            radius_schedule([], rounding=rounding)
        assert str(told.value) == f"Radii are to be rounded to {rounding} m. Give a length above 0."


def stadium(step):
    turn = np.radians(np.arange(0.0, 181.0, step))
    right = np.column_stack([10.0 + 2.0 * np.sin(turn), -2.0 * np.cos(turn)])
    return np.vstack([right, (10.0, 0.0) - right])


def test_a_drawn_stadium_and_a_walked_bend_make_a_schedule():
    """Two half circles of 2 m: one row of 4 pi m, exact."""
    outline = fit_outline(stadium(5.0), None, 0.02, closed=True)
    (row,) = radius_schedule(outline.pieces)
    assert (row.count, row.radius) == (2, pytest.approx(2.0, abs=1e-9))
    assert row.length == pytest.approx(4.0 * np.pi, abs=1e-9)
    assert (row.least_sweep, row.most_sweep) == pytest.approx((np.pi, np.pi), abs=1e-9)
    t = np.arange(0.0, 1.2, 0.025)
    rows = 4.0 * np.column_stack([np.sin(t), 1.0 - np.cos(t)])
    run = fit_pieces(rows + np.random.default_rng(3).normal(0, 0.002, rows.shape), 0.012, sigma=0.002)
    (row,) = radius_schedule(run.pieces)
    assert row.radius == pytest.approx(4.0, abs=4.0 * row.sigma)
    assert row.sigma == pytest.approx(run.pieces[0].radius_sigma, rel=1e-12)
