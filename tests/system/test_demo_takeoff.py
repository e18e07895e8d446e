# SPDX-License-Identifier: GPL-2.0-or-later
"""The shipped demo jobs, whole: survey and ground takeoff by the toolbox, every stated 95 % interval beside the truth."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from scripts.demo_jobs import SITES, find_site, true_sizes
from scripts.demo_jobs.compare import OWN, compare
from scripts.demo_report import FAR, read_figures
from scripts.demo_takeoff import NOT_TAKEN, read_take_off, take_off, to_take_off

DEMO = Path(__file__).resolve().parents[2] / "resources" / "demo"
WORST = 0.025
"""Metres: more than any height of the demo's stations is worth by its stated sigma (0.0231 at most)."""
EXPECTED_OUTSIDE = 1.0 / 20.0


@pytest.fixture(scope="module")
def jobs(groundtally, tmp_path_factory):
    """Both sites: the true figures beside those of the survey, and beside those of the takeoff."""
    import processing

    folder = tmp_path_factory.mktemp("demo")
    rows = {}
    for name in SITES:
        (folder / name).mkdir()
        survey = folder / name / f"{name}.gpkg"
        processing.run("groundtally:survey_walks", {"LOGS": [str(DEMO / name)], "OUTPUT": str(survey)})
        figures = take_off(name, folder / name)
        assert read_take_off(folder / name) == figures
        own = [t for t in true_sizes(name) if not t.column.startswith("map_")]
        survey_rows = compare(own, read_figures(survey), OWN)
        rows[name] = (survey_rows, compare(to_take_off(own), figures, ["takeoff"]))
    return rows


@pytest.mark.parametrize("name", SITES)
def test_every_figure_of_the_takeoff_is_there_with_an_uncertainty(jobs, name):
    _, taken = jobs[name]
    assert len(taken) >= 8
    for row in taken:
        assert row.found is not None, row.truth
        assert row.ratio is not None, row.truth


@pytest.mark.parametrize("name", SITES)
def test_no_figure_is_beyond_three_and_a_half_sigma(jobs, name):
    for row in [row for rows in jobs[name] for row in rows]:
        assert row.ratio is None or abs(row.ratio) < FAR, row


def test_about_one_interval_in_twenty_lies_outside_at_most(jobs):
    """Figures of one shape err together, so a good job may have none outside; more than one in twenty is a fault."""
    rows = [row for both in jobs.values() for some in both for row in some if row.ratio is not None]
    assert len(rows) > 200
    assert sum(not row.is_covered for row in rows) <= EXPECTED_OUTSIDE * len(rows)


@pytest.mark.parametrize("name", SITES)
def test_uncertainties_of_the_takeoff_are_no_wider_than_the_walks_make_them(jobs, name):
    """An interval that holds everything would cover the truth too. No station's height is worth less than 25 mm. A rise
    has two of them; a volume is at worst that over its ground."""
    _, taken = jobs[name]
    court = 20.0 * 10.0 - 1.2 * 1.2
    widest = {
        "level_m": WORST,
        "rise_m": WORST * math.sqrt(2.0),
        "cut_m3": WORST * court,
        "fill_m3": WORST * court,
    }
    for row in taken:
        limit = widest.get(row.truth.column, 0.05 * abs(row.found.value))
        assert row.found.sigma < limit, row


@pytest.mark.parametrize("name", SITES)
def test_what_is_not_taken_off_is_a_true_figure_of_some_site(name):
    known = {
        (t.feature, t.part, t.column) for site in SITES for t in true_sizes(site) if t.table == "takeoff"
    }
    assert set(NOT_TAKEN) <= known
    assert find_site(name).folder == name
