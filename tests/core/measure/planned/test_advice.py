# SPDX-License-Identifier: GPL-2.0-or-later
"""What would help: each piece of advice is true of the plan that follows it, and the best is what the eye says."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from builders import DEMO, MARKS

from plugin.core.adjust.ties import TAPE_SD
from plugin.core.measure.planned.advice import MOST_TRIES, Try, with_try
from plugin.core.measure.planned.forecast import forecast_plan
from plugin.core.measure.planned.records import Act, Plan, PlannedTape, PlannedWalk
from plugin.core.walk import Kind, Leg

STOPS = [MARKS["P"], MARKS["Q"], (22, 2), (22, 12), (2, 12), (2, 2), (22, 2), MARKS["C"]]
WAY = PlannedWalk(
    "W1",
    np.array(STOPS, float),
    mark=("P", "Q", *[""] * 6),
    feature=("", "", *["Court"] * 5, ""),
    kind=(None, None, *[Kind.AREA] * 5, None),
)
PLAN = Plan((WAY,), instrument=DEMO, picks={"P": 0.05, "Q": 0.05}, common=0.05)


@pytest.fixture(scope="module")
def budget():
    return forecast_plan(PLAN)


def test_with_marks_close_together_the_far_corner_is_to_be_paired(budget):
    best = budget.best[0]
    assert (best.act, best.station, best.at) == (Act.PAIR, "8", MARKS["C"])
    assert best.corner.before == pytest.approx(budget.worst.major_95)
    assert best.corner.after < 0.3 * best.corner.before


def test_every_candidate_does_what_it_says(budget):
    """Each is carried out by hand and forecast anew."""
    assert {advice.act for advice in budget.advice} == set(Act)
    for advice in budget.advice:
        done = forecast_plan(_done(advice))
        own = [station for station in done.stations if not station.station.endswith("+")]
        assert max(station.major_95 for station in own) == pytest.approx(advice.corner.after, rel=1e-9)
        assert done.features[0].area.half_width_95 == pytest.approx(advice.size.after, rel=1e-9)
        assert advice.size.before == pytest.approx(budget.features[0].area.half_width_95, rel=1e-12)


def _done(advice):
    if advice.act is Act.TAPE:
        return replace(PLAN, tapes=(PlannedTape(*advice.marks, TAPE_SD),))
    row = int(advice.station) - 1
    names = list(WAY.mark)
    new = names[row] or "new"
    for i, place in enumerate(STOPS):
        if place == STOPS[row]:
            names[i] = new
    if advice.act is Act.PAIR:
        return replace(PLAN, walks=(replace(WAY, mark=tuple(names)),), picks={**PLAN.picks, new: 0.05})
    longer = replace(
        WAY,
        xy=np.vstack([WAY.xy, WAY.xy[row]]),
        station=(*WAY.names, "9+"),
        mark=(*names, new),
        feature=(*WAY.feature, ""),
        kind=(*WAY.kind, None),
    )
    return replace(PLAN, walks=(longer,))


def test_nothing_makes_anything_worse(budget):
    """An observation more takes nothing away; a pick weighs by itself alone, so it may, by a hair."""
    for advice in budget.advice:
        assert advice.size.after <= advice.size.before * (1 + 1e-9)
        if advice.act is not Act.PAIR:
            assert advice.corner.after <= advice.corner.before * (1 + 1e-6)


def test_the_best_comes_first_and_no_two_of_the_best_lie_together(budget):
    gains = [advice.gain for advice in budget.advice]
    assert gains == sorted(gains, reverse=True)
    assert 1 <= len(budget.best) <= 3
    extent = np.hypot(*np.ptp(WAY.xy, axis=0))
    for one in budget.best:
        for other in budget.best:
            if one is not other and one.act is other.act:
                assert np.hypot(one.at[0] - other.at[0], one.at[1] - other.at[1]) >= 0.2 * extent


def test_without_a_place_on_the_map_only_sizes_are_spoken_of():
    budget = forecast_plan(replace(PLAN, picks={}, common=0.0))
    assert {advice.act for advice in budget.advice} == {Act.STAND_AGAIN, Act.TAPE}
    assert all(advice.corner is None and advice.size is not None for advice in budget.advice)


def test_without_features_the_corner_is_all_there_is():
    budget = forecast_plan(replace(PLAN, walks=(replace(WAY, feature=(), kind=()),)))
    assert budget.largest is None
    assert all(advice.size is None and advice.corner is not None for advice in budget.advice)


def test_a_stand_in_the_first_of_two_walks_is_weighed_on_the_right_rows():
    """It is put in before the second walk's stations: its area must not be taken from its neighbours."""
    second = PlannedWalk(
        "W2",
        np.array([MARKS["P"], MARKS["Q"], (30, 0), (40, 0), (40, 9), (30, 0)], float),
        mark=("P", "Q", *[""] * 4),
        feature=("", "", *["Bed"] * 4),
        kind=(None, None, *[Kind.AREA] * 4),
    )
    first = replace(WAY, feature=(), kind=())
    plan = replace(PLAN, walks=(first, second))
    budget = forecast_plan(plan)
    assert budget.largest.feature == "Bed"
    again = next(a for a in budget.advice if a.act is Act.STAND_AGAIN and a.walk == "W1" and a.station == "4")
    done = forecast_plan(with_try(plan, Try(Act.STAND_AGAIN, again.at, 0, 3)))
    assert done.features[0].area.half_width_95 == pytest.approx(again.size.after, rel=1e-9)


def test_what_is_done_already_is_not_advised(budget):
    taped = forecast_plan(replace(PLAN, tapes=(PlannedTape("Q", "P", 0.01),)))
    assert not [advice for advice in taped.advice if advice.act is Act.TAPE]
    assert not [a for a in budget.advice if a.act is Act.PAIR and a.marks and a.marks[0] in PLAN.picks]
    assert not [a for a in budget.advice if a.act is Act.STAND_AGAIN and a.station == "8"]  # it ends there


def test_of_many_stations_those_far_apart_are_tried():
    angle = np.linspace(0, 2 * np.pi, 160)
    ring = np.column_stack([30 * np.cos(angle), 20 * np.sin(angle)])
    way = PlannedWalk("W1", ring, mark=("A", *[""] * 79, "B", *[""] * 79))
    budget = forecast_plan(Plan((way,), instrument=DEMO, picks={"A": 0.05, "B": 0.05}))
    again = [advice for advice in budget.advice if advice.act is Act.STAND_AGAIN]
    assert MOST_TRIES - 1 <= len(again) <= MOST_TRIES  # one of those chosen may be where it ends
    tried = np.array([advice.at for advice in again])
    between = np.hypot(*(tried[:, None] - tried[None]).transpose(2, 0, 1)) + 1e9 * np.eye(len(tried))
    away = np.hypot(*(ring[:, None] - tried[None]).transpose(2, 0, 1)).min(axis=1)
    # No station lies farther from one that was tried than the nearest two of these from each other.
    # (The first and the last lie where it ends, and are not walked to again.)
    assert away[1:-1].max() <= between.min() + 1e-9


def test_rows_recorded_as_walked_are_not_stood_on_again():
    leg = (Leg.DIRECT, Leg.DIRECT, *[Leg.AS_WALKED] * 5, Leg.DIRECT)
    budget = forecast_plan(replace(PLAN, walks=(replace(WAY, leg=leg),)))
    assert {advice.station for advice in budget.advice if advice.act is not Act.TAPE} <= {"1", "2", "8"}
