# SPDX-License-Identifier: GPL-2.0-or-later
"""What heights of one walk are worth against each other."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.register.known import height_parts, known_survey
from plugin.core.register.noise import (
    DEFAULT_PARTS,
    HeightParts,
    leg_variances,
    read_parts,
    walk_columns,
    walk_covariance,
)
from scripts.changes import walk

PARTS = HeightParts(0.003, 0.0003, 0.001, 0.004)


def test_parts_are_read_back_as_they_were_written():
    assert read_parts(PARTS.text) == PARTS
    assert PARTS.text == (
        "height_leg_m=0.003, height_leg_m_per_s1_5=0.0003, height_leg_m_per_sqrt_m=0.001, height_stand_m=0.004"
    )


@pytest.mark.parametrize(
    "text",
    [
        "",
        "nothing",
        "height_leg_m=0.003",
        PARTS.text.replace("0.004", "-1"),
        PARTS.text + ", more=1",
        "a=b=c",
    ],
)
def test_a_text_that_is_none_gives_none(text):
    assert read_parts(text) is None


def test_a_legs_variance_is_that_of_the_instruments_model():
    xy, time = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 9.0)]), np.array([0.0, 4.0, 12.0])
    leg, stand = leg_variances(PARTS, xy, time, np.zeros(3, bool))
    expected = [0.0, (0.003 + 0.0003 * 8.0) ** 2 + 4e-6, (0.003 + 0.0003 * 8.0**1.5) ** 2 + 9e-6]
    assert leg == pytest.approx(expected, rel=1e-12)
    assert stand == pytest.approx(np.full(3, 1.6e-5))


def test_without_times_the_pace_tells_and_a_pause_counts_no_more_than_slow_walking():
    xy = np.array([(0.0, 0.0), (1.3, 0.0)])
    none = leg_variances(PARTS, xy, np.full(2, np.nan), np.zeros(2, bool))[0][1]
    assert none == pytest.approx(0.0033**2 + 1.3e-6)
    pause = leg_variances(PARTS, xy, np.array([0.0, 3600.0]), np.zeros(2, bool))[0][1]
    assert pause == pytest.approx((0.003 + 0.0003 * 3.6**1.5) ** 2 + 1.3e-6)


def test_a_run_without_stops_is_one_leg_shared_by_length():
    xy = np.column_stack([np.arange(6.0), np.zeros(6)])
    dense = np.array([False, True, True, True, True, False])
    leg, stand = leg_variances(PARTS, xy, np.arange(6.0), dense)
    whole = (0.003 + 0.0003 * 4.0**1.5) ** 2 + 4e-6
    assert leg[1:5] == pytest.approx(np.full(4, whole / 4))
    assert stand.tolist() == pytest.approx([1.6e-5, 0, 0, 0, 0, 1.6e-5])


def test_a_difference_has_the_legs_between_and_both_stands_and_walks_share_nothing():
    number, leg, stand = np.array([0, 0, 0, 1]), np.array([0.0, 1.0, 4.0, 0.0]), np.full(4, 0.25)
    c = walk_covariance(number, leg, stand, np.array([0, 2, 3]))
    g = np.array([-1.0, 1.0, 0.0])
    assert g @ c @ g == pytest.approx(5.0 + 0.5)
    assert c[0, 2] == c[1, 2] == 0.0
    assert walk_columns([np.array([0, 0, 1]), np.array([2, 2, 2])]).tolist() == [
        [1, 0, 1],
        [1, 0, 1],
        [0, 1, 1],
    ]


def test_it_is_a_bound_to_what_the_adjustment_leaves():
    """More observations never make a difference less certain: the placed covariance of the whole job beside the walk's own,
    for 400 random differences of its heights."""
    survey = walk(3, 0.0)
    stations = known_survey(survey).stations
    placed = survey.workings.placed
    rows = np.flatnonzero(stations.walk == stations.walk[-1])
    after = placed.adjusted.both.height.solved.whole()[np.ix_(rows, rows)]
    before = walk_covariance(stations.walk, stations.leg, stations.stand, rows)
    rng = np.random.default_rng(1)
    g = rng.normal(size=(400, len(rows))) * (rng.random((400, len(rows))) < 0.1)
    some = g[(g != 0.0).sum(axis=1) > 1]
    some = np.where(
        some != 0.0, some - some.sum(axis=1, keepdims=True) / (some != 0.0).sum(axis=1, keepdims=True), 0.0
    )
    ratio = np.einsum("gi,ij,gj->g", some, after, some) / np.einsum("gi,ij,gj->g", some, before, some)
    assert len(ratio) > 300
    assert ratio.max() <= 1.0
    assert np.median(ratio) > 0.4  # a bound that is near


def test_every_walk_of_an_instrument_says_its_parts():
    assert height_parts(walk(3, 0.0)) == {
        name: HeightParts(0.003, 0.0003, 0.0, 0.004) for name in ("W1", "W2", "W3", "W4")
    }
    assert HeightParts(0.006, 0.0006, 0.0, 0.008) == DEFAULT_PARTS
