# SPDX-License-Identifier: GPL-2.0-or-later
"""Logs without any error give every true size of both demo jobs, through the whole core chain."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.findings import Severity
from plugin.core.measure.chain import Settings, survey_files
from scripts.demo_jobs import make_job, true_sizes
from scripts.demo_jobs.compare import compare, figures_of_rows, tables_of

SITES = ("marlisk_yard", "sorrelback_lane")


@pytest.fixture(scope="module", params=SITES)
def job(request):
    files = make_job(request.param, 1, noise=False, digits=None)
    survey = survey_files({name: text.encode() for name, text in files.items()}, Settings())
    return request.param, survey


def test_every_true_size_is_met_to_a_millionth(job):
    site, survey = job
    rows = compare(true_sizes(site), figures_of_rows(tables_of(survey)))
    assert len(rows) > 30
    for row in rows:
        assert row.found is not None, row.truth
        true = row.truth.value if row.truth.recorded is None else row.truth.recorded
        # Map coordinates are large and in the map's unit: 2e-6 of a unit is their own millionth of a site.
        tolerance = 5e-6 if row.truth.column.startswith("map_") else 1e-6 * max(abs(true), 1e-3)
        if row.truth.column in ("rise_m", "gradient_ratio", "z_m"):
            tolerance = max(tolerance, 1e-6)
        assert row.found.value == pytest.approx(true, abs=tolerance), row.truth


def test_the_swale_comes_to_the_chords_of_its_own_points(job):
    site, survey = job
    if site != "marlisk_yard":
        return
    swale = next(row for row in survey.lengths if row.tags.feature == "Swale")
    truth = next(t for t in true_sizes(site) if t.feature == "Swale" and t.column == "length_m")
    assert swale.length.value == pytest.approx(truth.recorded, rel=1e-9)
    assert swale.length.value / truth.value - 1 == pytest.approx(-4e-4, abs=5e-6)


def test_nothing_is_stopped_or_asked(job):
    _, survey = job
    assert [f for f in survey.findings if f.severity is not Severity.NOTE] == []


def test_nothing_is_left_over_in_the_networks(job):
    _, survey = job
    for walk in survey.walks:
        if walk.misclosure is not None:
            assert walk.misclosure < 1e-9
    for mark in survey.marks:
        # The plane stands at the level mark's 84.8 m, the ground at 84.2 m: 1e-7 of 37 m.
        assert mark.residual is None or mark.residual < 4e-6


@pytest.mark.parametrize("change", ["moved", "turned", "reversed walks", "renamed", "other CRS", "in feet"])
def test_sizes_are_the_same_whatever_the_frame(change):
    """Sizes within 1e-9 relative (1e-8 where coordinates of 1e7 m hold only nine decimals)."""
    from plugin.core.measure.chain import measure_job
    from plugin.core.read.job import read_job
    from plugin.core.walk import Job

    files = {n: t.encode() for n, t in make_job("marlisk_yard", 3, digits=None).items()}
    read = read_job(files)

    def sizes(walks, crs=None):
        job = Job(tuple(walks), read.job.control, read.job.tapes, read.job.instruments)
        survey, _ = measure_job(job, read.decisions, Settings(crs=crs))
        return figures_of_rows({k: v for k, v in tables_of(survey).items() if k in ("areas", "lengths", "sides")})

    before = sizes(read.job.walks)
    walks = list(read.job.walks)
    if change == "moved":
        walks = [_changed(walk, xy=walk.xy + (1e7, -1e7)) for walk in walks]
    elif change == "turned":
        walks = [_changed(w, xy=w.xy @ _rotation(0.3 + k)) for k, w in enumerate(walks)]
    elif change == "reversed walks":
        walks = walks[::-1]
    elif change == "renamed":
        walks = [_changed(walk, name=f"{walk.name} again") for walk in walks]
    elif change == "in feet":
        walks = [walk.scaled(1 / 0.3048).scaled(0.3048) for walk in walks]
    after = sizes(walks, "EPSG:3857" if change == "other CRS" else None)
    # Eight millimetre-wide areas' worth of rounding at 1e7 m; elsewhere rounding of the arithmetic alone.
    relative = 2e-8 if change == "moved" else 1e-9
    columns = ("area_m2", "perimeter_m", "length_m", "slope_length_m", "sloped_area_m2")
    compared = [key for key in before if key[3] in columns]
    assert len(compared) > 40
    for key in compared:
        assert after[key].value == pytest.approx(before[key].value, rel=relative), key
        assert after[key].sigma == pytest.approx(before[key].sigma, rel=1e-5), key


def _changed(walk, **fields):
    from dataclasses import replace

    return replace(walk, **fields)


def _rotation(angle):
    c, s = math.cos(angle), math.sin(angle)
    return np.array([[c, s], [-s, c]])
