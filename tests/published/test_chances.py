# SPDX-License-Identifier: GPL-2.0-or-later
"""Chances of single figures, of places and of several tests at once, beside published tables."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.register.chance import all_chances, chance_beyond, place_chance, sigmas_of


@pytest.mark.parametrize(("ratio", "inside"), [(1.0, 0.3413), (1.96, 0.4750), (2.58, 0.4951), (3.0, 0.49865)])
def test_a_normal_figure_lies_within_its_sigmas_as_the_table_says(ratio, inside):
    # NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: area from 0 to z, to the printed digits (from memory).
    digits = 5e-5 if inside != 0.49865 else 5e-6
    assert 0.5 - 0.5 * chance_beyond(ratio) == pytest.approx(inside, abs=digits)


@pytest.mark.parametrize(
    ("square", "chance"), [(4.605, 0.10), (5.991, 0.05), (7.378, 0.025), (9.210, 0.01), (13.816, 0.001)]
)
def test_a_place_lies_within_its_ellipse_as_the_table_says(square, chance):
    # NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4: upper critical values of chi-square, 2 degrees of freedom
    # (from memory); three decimals of the square are 5e-4 of half the chance.
    assert place_chance(square) == pytest.approx(chance, rel=3e-4)


def test_holms_rule_rejects_what_the_textbook_example_says():
    # Four chances 0.01, 0.04, 0.03, 0.005 at 0.05: the first and the last are rejected, the other two are not
    # (the example of the encyclopaedias' article on Holm's method, from memory).
    adjusted = all_chances(np.array([0.01, 0.04, 0.03, 0.005]), 1.0)
    assert (adjusted < 0.05).tolist() == [True, False, False, True]
    assert adjusted == pytest.approx([0.03, 0.06, 0.06, 0.02])


def test_a_share_of_the_level_makes_chances_larger_by_as_much():
    assert all_chances(np.array([0.001, 0.5]), 0.2) == pytest.approx([0.01, 1.0])
    assert all_chances(np.zeros(0), 0.2).tolist() == []


def test_the_change_that_is_found_nine_times_in_ten_is():
    # A two-sided test at 5 % with a power of 90 % needs 1.95996 + 1.28155 sigmas (any text on sample sizes).
    assert sigmas_of(0.05) == pytest.approx(1.95996 + 1.28155, abs=1e-5)
    rng = np.random.default_rng(0)
    drawn = rng.normal(sigmas_of(0.05), 1.0, 100_000)
    assert np.mean(np.abs(drawn) > 1.95996) == pytest.approx(0.9, abs=0.003)
