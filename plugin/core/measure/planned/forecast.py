# SPDX-License-Identifier: GPL-2.0-or-later
"""The error budget of a plan: what may be expected of it, what that is made of, and what would help most."""

from __future__ import annotations

from collections.abc import Sequence

from ...quantity import Gradient
from ...walk import Kind
from .advice import Base, advise
from .records import Budget, FeatureBudget, Plan
from .survey import Progress, Sized, feature_rows, size_features, station_rows, survey_plan, walk_rows

UNTIL_SURVEYED, UNTIL_STATIONS = 0.05, 0.25
"""Parts of the work that are then done."""


def forecast_plan(plan: Plan, progress: Progress = lambda part, what: None) -> Budget:
    """What a survey of this plan would say of its stations and features, before anybody walks it.

    Args:
        plan: what will be walked, with what, and to what it will be held.
        progress: told of each step.
    Raises:
        BadInput: the plan cannot be walked: no station, a place that is none, a mark that nothing stands on.
        Refused: none of its walks can be brought together.
    Source:
        Sigmas of the adjustment hang on where stations lie and not on what is observed, so those of walks without
        errors are those of the real ones to first order (Koch, Parameter Estimation and Hypothesis Testing in Linear
        Models, from memory).
    """
    progress(0.0, "Surveying the plan")
    surveyed = survey_plan(plan)
    sized, found = size_features(surveyed)
    findings = (*surveyed.findings, *found)
    features = feature_rows(surveyed, sized, findings)
    largest = _largest(features)
    stations = station_rows(plan, surveyed, _between(progress, UNTIL_SURVEYED, UNTIL_STATIONS))
    size = None if largest is None else _gradient(sized, features, largest)
    return Budget(
        status=surveyed.placement.status,
        sigma_from=surveyed.adjusted.models[0].sigma_from,
        stations=stations,
        features=features,
        walks=walk_rows(surveyed),
        worst=max(stations, key=lambda station: station.ellipse.major),
        largest=largest,
        advice=advise(Base(plan, surveyed, size), _between(progress, UNTIL_STATIONS, 1.0)),
        findings=findings,
    )


def _largest(features: Sequence[FeatureBudget]) -> FeatureBudget | None:
    """The largest area that has a figure; the longest length where there is no area."""
    known = [row for row in features if row.size is not None]
    return max(
        known, key=lambda row: (row.kind is Kind.AREA, row.size.value if row.size else 0.0), default=None
    )


def _gradient(
    sized: Sequence[Sized], features: Sequence[FeatureBudget], wanted: FeatureBudget
) -> Gradient | None:
    """How a feature's size moves with the stations: `features` begin with the rows of `sized`."""
    main = next(one.main for one, row in zip(sized, features) if row is wanted)
    return None if main is None else main.gradient


def _between(progress: Progress, start: float, end: float) -> Progress:
    return lambda part, what: progress(start + (end - start) * part, what)
