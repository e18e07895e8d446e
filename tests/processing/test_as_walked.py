# SPDX-License-Identifier: GPL-2.0-or-later
"""The tolerance for as-walked edges: asked for by every algorithm that measures, kept with the survey, off by default."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import numpy as np
import pytest
from qgis.core import QgsProcessingContext, QgsProcessingFeedback, QgsProcessingParameterDefinition

NAMES = ("survey_walks", "place_survey", "adjust_walks")


def run(provider, name="survey_walks", **given):
    algorithm = provider.algorithm(name).create()
    results, was_good = algorithm.run(
        given, QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False
    )
    assert was_good
    return results


@pytest.fixture
def walked_job(job):
    """The court of the job recorded every 0.25 m, 2 mm of noise."""
    corners = [(0, 0), (10, 0), (10, 5), (0, 5), (0, 0)]
    points = [(0.0, 0.0)]
    for (x, y), (u, v) in zip(corners, corners[1:]):
        n = 4 * (abs(u - x) + abs(v - y))
        points += [(x + (u - x) * k / n, y + (v - y) * k / n) for k in range(1, n + 1)]
    xy = np.array(points) + np.random.default_rng(1).normal(0.0, 0.002, (len(points), 2))
    lines = ["# units: m", "walk,station,x,y,z,time,hold_s,feature,geometry,leg,mark"]
    for i, (x, y) in enumerate(xy):
        ends = i in (0, len(xy) - 1)
        leg = "as-walked" if i else ""
        lines.append(f"W1,{i + 1},{x:.4f},{y:.4f},85,{i},{int(ends)},Court,area,{leg},{'A' if ends else ''}")
    (job / "w1.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return job


def rows(path, text):
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(text).fetchall()


@pytest.mark.parametrize("name", NAMES)
def test_every_algorithm_that_shapes_has_the_parameter_empty_and_among_the_advanced(provider, name):
    parameter = provider.algorithm(name).parameterDefinition("AS_WALKED")
    flags = QgsProcessingParameterDefinition.Flag
    assert parameter.flags() & flags.FlagAdvanced
    assert parameter.flags() & flags.FlagOptional
    assert (parameter.defaultValue(), parameter.minimum()) == (None, 0.001)
    assert parameter.help() == (
        "Where it is empty, as-walked rows are drawn as recorded, with a chord from row to row. Else they become the "
        "fewest straights and tangent arcs of which no row lies off by more than this; corners stay. Take five times "
        "the noise from row to row, or more. Nothing is fitted where the rows do not speak for it: those stay as "
        "recorded, and their method says so."
    )


def test_the_tolerance_reaches_the_core_and_nothing_is_none(provider, job, made_core, tmp_path):
    for k, given in enumerate(({}, {"AS_WALKED": 0.05})):
        run(provider, LOGS=str(job), OUTPUT=str(tmp_path / f"{k}.gpkg"), **given)
    assert [settings.as_walked for _, settings in made_core] == [None, 0.05]
    kept = "SELECT value FROM runs WHERE kind = 'setting' AND name = 'as_walked'"
    assert [rows(tmp_path / f"{k}.gpkg", kept) for k in (0, 1)] == [[], [("0.05",)]]


def test_a_court_walked_row_by_row_has_four_sides_in_the_geopackage(provider, walked_job, tmp_path):
    for k, given in enumerate(({}, {"AS_WALKED": 0.05})):
        run(provider, LOGS=str(walked_job), OUTPUT=str(tmp_path / f"{k}.gpkg"), **given)
    sides = "SELECT length_m, radius_m, method FROM sides ORDER BY length_m"
    (plain,) = rows(tmp_path / "0.gpkg", sides)
    assert plain[1:] == (None, "as walked (chords as recorded, row noise not taken off)")
    found = rows(tmp_path / "1.gpkg", sides)
    assert [length for length, _, _ in found] == pytest.approx([5, 5, 10, 10], abs=0.01)
    assert all(method.startswith("straight, fitted to ") for _, _, method in found)
    legs = rows(tmp_path / "1.gpkg", "SELECT radius_m, radius_m_sigma, sweep_deg, sweep_deg_sigma FROM legs")
    assert legs == [(None,) * 4] * 4
