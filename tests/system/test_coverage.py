# SPDX-License-Identifier: GPL-2.0-or-later
"""The stated 95 % intervals over seeds 1 to 200 (scripts/coverage.py runs 2,000 and prints the table).

A right model gives an RMS of error over sigma of 1; 200 runs know it to 0.05, and a cover of 95 % to 1.5 %.
"""

from __future__ import annotations

import numpy as np
import pytest

from scripts.coverage import GROUND, TRADE, run_many, summarise, summarise_whole


@pytest.fixture(scope="module")
def runs():
    return run_many(range(1, 201), "drawn", jobs=2)


def test_errors_are_as_large_as_their_sigmas_say(runs):
    for cover in summarise(runs):
        assert 0.8 < cover.rms < 1.2, cover
        assert cover.covered >= 0.88, cover


def test_errors_have_no_bias(runs):
    means = np.mean([run.ratios for run in runs if not run.refused], axis=0)
    assert np.abs(means).max() < 0.25  # 3.5 standard deviations of a mean of 200


def test_figures_of_the_ground_have_no_bias(runs):
    """Also a fill of 2.4 m3 with a sigma of 1 m3, which is not linear in the heights: its range knows that."""
    means = np.mean([run.ground for run in runs if not run.refused], axis=0)
    assert np.abs(means).max() < 0.25


def test_what_the_stations_keep_of_the_surveys_covariance_is_as_good_as_all_of_it(runs):
    """Heights of one walk drift together: as if independent, the sigma of a volume was some four times too small."""
    stated = {cover.name: cover for cover in summarise(runs)}
    for whole in summarise_whole(runs):
        assert stated[whole.name].rms == pytest.approx(whole.rms, rel=0.08), whole
    assert stated["court cut less fill"].covered >= 0.88


def test_figures_of_the_trade_have_no_bias_but_that_of_a_least_width(runs):
    """The least of some widths that err is less than the least of the true ones: half a sigma here, two ends as wide."""
    means = dict(zip(TRADE, np.mean([run.trade for run in runs if not run.refused], axis=0)))
    assert -0.75 < means.pop("ramp width") < -0.25
    assert np.abs(list(means.values())).max() < 0.25


def test_the_trades_figures_are_as_good_by_the_rows_as_by_the_whole_covariance(runs):
    """The front of a wall, an arc that was joined with the court's, is the survey's own length."""
    (stated,) = [cover for cover in summarise(runs) if cover.name == TRADE[-1]]
    (whole,) = [cover for cover in summarise_whole(runs) if cover.name == TRADE[-1]]
    assert stated.rms == pytest.approx(whole.rms, rel=1e-4)


def test_clean_jobs_are_hardly_ever_stopped(runs):
    assert sum(bool(run.stops or run.refused) for run in runs) <= 2
