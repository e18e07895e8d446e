# SPDX-License-Identifier: GPL-2.0-or-later
"""Residuals beside their limits: quantiles as published, the placement's own test, and a stand that is off."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from plugin.core.adjust.tests import ASK_BUDGET, STOP_BUDGET, tail
from plugin.core.adjust.walks import adjust_walks
from plugin.core.findings import Decisions, Severity
from plugin.core.measure.chain import survey_files
from plugin.core.measure.residuals import limit, residual_rows
from plugin.core.measure.rows import ResidualKind
from plugin.core.place.confirm import misfit_p
from plugin.core.place.locate import locate_control
from plugin.core.place.survey import place_survey
from plugin.core.read.job import read_job

RESOURCES = Path(__file__).parents[3] / "resources"


@pytest.mark.parametrize(
    ("p", "freedom", "quantile"),
    [
        # Percentage points of the normal distribution (two-sided) and of the chi-square, as any table has them.
        (0.05, 1, 1.959964),
        (0.001, 1, 3.290527),
        (0.05, 2, math.sqrt(5.991465)),
        (0.001, 2, math.sqrt(13.815511)),
        (0.05, 3, math.sqrt(7.814728)),
    ],
)
def test_limits_are_the_quantiles_of_the_chi_square(p, freedom, quantile):
    assert limit(p, 1, freedom) == pytest.approx(quantile, abs=1e-6)


def test_the_budget_is_shared_by_the_tests_of_the_job():
    """Of 40 tests and two degrees of freedom the closed form is the root of -2 ln(p / 40)."""
    assert limit(ASK_BUDGET, 40, 2) == pytest.approx(math.sqrt(-2 * math.log(0.05 / 40)), abs=1e-12)
    assert limit(STOP_BUDGET, 40, 2) == pytest.approx(math.sqrt(-2 * math.log(0.001 / 40)), abs=1e-12)
    assert math.isfinite(limit(STOP_BUDGET, 10**9, 1))


def placed(name):
    """A job of resources, adjusted and placed, without shaping."""
    files = {path.name: path.read_bytes() for path in sorted((RESOURCES / name).glob("*.csv"))}
    job = read_job(files).job
    located = locate_control(job.control, None, None)
    adjusted, _ = adjust_walks(job, located.bases, Decisions(()), located.tests)
    return adjusted, located, place_survey(adjusted, located, Decisions(()), count=adjusted.judged.count)


def test_two_map_points_share_the_one_thing_that_tests_them():
    """A base of two points has one residual, its length: either's standardised residual is that of the whole fit."""
    adjusted, located, placement = placed("demo/marlisk_yard")
    rows = residual_rows(adjusted, located, placement)
    fitted = [row for row in rows if row.kind is ResidualKind.MAP_POINT]
    assert [row.mark for row in fitted] == ["A", "B"]
    for row in fitted:
        assert tail(row.standard**2, 1) == pytest.approx(misfit_p(placement.placed), rel=1e-9)
    checks = [row for row in rows if row.kind is ResidualKind.CHECK_POINT]
    assert {row.mark: row.size for row in checks} == pytest.approx(
        {mark: placement.residual[mark] for mark in ("C", "D")}, abs=1e-12
    )


def test_a_stands_residual_stands_for_its_test():
    """The standardised residual is the root of the chi-square that the adjustment judged by."""
    adjusted, located, placement = placed("demo/marlisk_yard")
    rows = [r for r in residual_rows(adjusted, located, placement) if r.kind is ResidualKind.STAND]
    tests = {t.number: t.outcome for t in adjusted.judged.tests if t.kind == "stand"}
    assert len(rows) == len(adjusted.ties.occupations)
    for number, row in enumerate(rows):
        outcome = tests[number]
        assert row.standard == (pytest.approx(math.sqrt(outcome.chi2)) if outcome.is_checked else None)
        assert row.size == pytest.approx(math.hypot(row.x, row.y))


@pytest.mark.parametrize("fault", sorted(p.name for p in (RESOURCES / "faults").iterdir() if p.is_dir()))
def test_what_is_beyond_its_limit_in_a_faulty_job_is_told_by_a_finding(fault):
    """A residual that is still in the adjustment and beyond its stop would be a stop that nothing told."""
    folder = RESOURCES / "faults" / fault
    try:
        survey = survey_files({path.name: path.read_bytes() for path in sorted(folder.glob("*.csv"))})
    except ValueError:
        pytest.skip("this fault is refused: there is no survey")
    stops = [f for f in survey.findings if f.severity is Severity.STOP]
    beyond = [r for r in survey.residuals if r.is_used and r.standard is not None and r.standard > r.stop]
    gone = [r for r in survey.residuals if not r.is_used and r.kind is not ResidualKind.CHECK_POINT]
    assert not beyond or stops
    assert not gone or stops
    assert all(np.isfinite([r.size]).all() for r in survey.residuals if r.size is not None)
