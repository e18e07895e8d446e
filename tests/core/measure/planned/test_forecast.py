# SPDX-License-Identifier: GPL-2.0-or-later
"""Error budgets of plans against closed forms and the attained figures of the adjustment (shared design notes)."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from builders import COURT, DEMO, MARKS, ROUTES, route, turn
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.accuracy import Accuracy, AccuracyKind
from plugin.core.errors import BadInput, Cancelled
from plugin.core.findings import Severity
from plugin.core.measure.planned.forecast import forecast_plan
from plugin.core.measure.planned.records import Act, Cause, Pace, Plan, PlannedTape, PlannedWalk
from plugin.core.measure.planned.shares import variances
from plugin.core.measure.planned.survey import size_features, survey_plan
from plugin.core.quantity import COVER_95, COVER_95_PLANE
from plugin.core.walk import Instrument, Kind, Leg

SURE = Instrument(name="sure", stand=1e-4, leg=1e-7, height_leg=1e-7, height_stand=1e-4)
"""No error of its own (0.1 mm is the floor of a stand), so that what a test is about counts alone."""
SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)]


def walk(points, marks=(), *, name="W1", kind=None, feature="Lawn", **columns):
    """A walk through points, standing on marks by number; one feature where a kind is given."""
    n = len(points)
    named = dict(marks)
    more = {} if kind is None else {"feature": (feature,) * n, "kind": (kind,) * n}
    mark = tuple(named.get(i, "") for i in range(n))
    return PlannedWalk(name, np.array(points, float), mark=mark, **more, **columns)


def plan_of(*walks, instrument=DEMO, **more):
    return Plan(walks, instrument=instrument, **more)


def radial(station):
    return math.hypot(station.ellipse.major, station.ellipse.minor)


# --- closed forms ---


def test_marks_close_together_serve_badly_far_away():
    """Two pairs with picks of s per axis, b apart: s2 for the place of their middle and 2 s2 (D/b)2 for the turn. The trade's
    example: marks 4.5 m apart, the corner 40 m away, picks of 0.05 m: 0.64 m, one sigma."""
    stops = [MARKS[name] for name in ("P", "Q", "C")]
    budget = forecast_plan(
        plan_of(walk(stops, {0: "P", 1: "Q"}), instrument=SURE, picks={"P": 0.05, "Q": 0.05})
    )
    away = math.dist((2.75, -4.0), MARKS["C"])
    told = math.sqrt(0.05**2 + 2 * 0.05**2 * (away / 4.5) ** 2)
    assert radial(budget.stations[2]) == pytest.approx(told, rel=1e-4)
    assert round(told, 2) == 0.64
    assert budget.worst is budget.stations[2]
    assert budget.worst.shares[Cause.PICKS] == pytest.approx(1.0, abs=1e-4)


def test_legs_of_equal_noise_between_two_known_marks_leave_a_bridge():
    """n legs of sigma s between marks that hold the turn: across, s2 k(n-k)/n at station k (nothing at the marks, most in
    the middle); along, where nothing holds the length, s2 n/4 everywhere."""
    n, s = 8, 0.01
    line = [(5.0 * k, 0.0) for k in range(n + 1)]
    even = replace(SURE, leg=s)
    budget = forecast_plan(plan_of(walk(line, {0: "A", n: "B"}), instrument=even, picks={"A": 0.0, "B": 0.0}))
    for k, station in enumerate(budget.stations):
        across = s * math.sqrt(k * (n - k) / n)
        assert station.ellipse.major == pytest.approx(s * math.sqrt(n) / 2, abs=2e-6)
        assert station.ellipse.minor == pytest.approx(across, abs=2e-4 if k in (0, n) else 5e-6)
        assert station.shares[Cause.LEGS] == pytest.approx(1.0, abs=2e-4)


@pytest.mark.parametrize(("marks", "sigma"), [({0: "A"}, 0.346246), ({0: "A", 4: "A"}, 0.326314)])
def test_a_square_walked_round_has_the_attained_sigmas(marks, sigma):
    """A square of 10 m with the demo's instrument, before and after closing on a mark (adjustment.md, section 8). The
    outline is its first four stations; the fifth is the way back."""
    there = walk(SQUARE, marks)
    outline = replace(there, feature=(*["Lawn"] * 4, ""), kind=(*[Kind.AREA] * 4, None))
    (lawn,) = forecast_plan(plan_of(outline)).features
    assert lawn.area.value == pytest.approx(100.0, abs=1e-9)
    assert lawn.area.sigma == pytest.approx(sigma, abs=1e-6)


def test_a_scale_alone_makes_an_area_wrong_by_twice_as_much():
    budget = forecast_plan(
        plan_of(walk(SQUARE, {0: "A"}, kind=Kind.AREA), instrument=replace(SURE, scale=0.002))
    )
    (lawn,) = budget.features
    assert lawn.area.sigma == pytest.approx(2 * 0.002 * 100.0, rel=1e-4)
    assert lawn.perimeter.sigma == pytest.approx(0.002 * 40.0, rel=1e-4)
    assert lawn.shares[Cause.SCALE] == pytest.approx(1.0, abs=1e-4)
    shared = replace(SURE, scale_shared=0.002)
    again = forecast_plan(plan_of(walk(SQUARE, {0: "A"}, kind=Kind.AREA), instrument=shared))
    assert again.features[0].area.sigma == pytest.approx(lawn.area.sigma, rel=1e-9)
    assert again.features[0].shares[Cause.SCALE] == pytest.approx(1.0, abs=1e-4)


def test_a_shift_that_all_map_points_share_moves_the_site_and_no_size():
    court = walk(SQUARE, {0: "A", 2: "C"}, kind=Kind.AREA)
    without = forecast_plan(plan_of(court, picks={"A": 0.02, "C": 0.02}))
    shifted = forecast_plan(plan_of(court, picks={"A": 0.02, "C": 0.02}, common=0.3))
    assert shifted.features[0].area.sigma == pytest.approx(without.features[0].area.sigma, rel=1e-12)
    assert shifted.features[0].shares[Cause.COMMON] == 0.0
    for one, other in zip(without.stations, shifted.stations):
        assert other.ellipse.major == pytest.approx(math.hypot(one.ellipse.major, 0.3), rel=1e-9)
        assert other.shares[Cause.COMMON] == pytest.approx(0.09 / other.ellipse.major**2, rel=1e-9)


def test_heights_grow_leg_by_leg_from_a_known_level():
    """Level of 3 mm on A, 5 mm for each leg, nothing for stands but their floor: sqrt(9 + 25 k) mm at station k."""
    line = [(4.0 * k, 0.0) for k in range(5)]
    even = replace(SURE, height_leg=0.005)
    budget = forecast_plan(plan_of(walk(line, {0: "A"}), instrument=even, levels={"A": 0.003}))
    told = [math.sqrt(0.003**2 + k * 0.005**2) for k in range(5)]
    assert [station.z_sigma for station in budget.stations] == pytest.approx(told, abs=3e-6)
    assert budget.stations[4].z_95 == pytest.approx(COVER_95 * told[4], abs=6e-6)


def test_without_levels_nothing_is_told_of_heights():
    budget = forecast_plan(plan_of(walk(SQUARE, {0: "A"})))
    assert all(station.z_sigma is None and station.z_95 is None for station in budget.stations)


def test_95_percent_of_a_place_is_the_ellipse_and_of_a_figure_the_interval():
    budget = forecast_plan(plan_of(walk(SQUARE, {0: "A"}, kind=Kind.AREA)))
    station = budget.stations[2]
    assert station.major_95 == pytest.approx(math.sqrt(-2 * math.log(0.05)) * station.ellipse.major)
    assert station.minor_95 == pytest.approx(COVER_95_PLANE * station.ellipse.minor)


def court_walk():
    """The demo's first walk in its simplified form: the court with its curve, its hole, the kerb, back to A."""
    xy, names = route(ROUTES["W1"])

    def rows(stop):
        return np.flatnonzero(np.hypot(*(xy - stop).T) < 1e-9)

    feature, leg = [""] * len(xy), [Leg.DIRECT] * len(xy)
    for name, corner in (("Court", (22, 2)), ("Hole", (11.4, 6.4))):
        for i in range(rows(corner)[0], rows(corner)[-1] + 1):
            feature[i] = name
    for k, stop in enumerate(COURT[2:6]):
        leg[rows(stop)[0]] = Leg.CURVE_END if k == 3 else Leg.CURVE
    return PlannedWalk(
        "W1",
        xy,
        mark=tuple(names),
        feature=tuple(feature),
        kind=tuple(Kind.AREA if name else None for name in feature),
        leg=tuple(leg),
        hole_in=tuple("Court" if name == "Hole" else "" for name in feature),
    )


@pytest.mark.parametrize(
    ("sd", "sigma"), [(None, 0.813), (0.005, 0.404), (0.01, 0.432), (0.02, 0.510), (0.05, 0.685)]
)
def test_a_tape_is_worth_what_the_attained_figures_say(sd, sigma):
    """One sigma of the court less its hole, W1 alone, the base A-B taped (adjustment.md, section 3)."""
    tapes = () if sd is None else (PlannedTape("A", "B", sd),)
    budget = forecast_plan(plan_of(court_walk(), tapes=tapes))
    court, hole = budget.features
    assert court.area.value == pytest.approx(255.003 - 1.44, abs=1e-3)
    assert court.area.sigma == pytest.approx(sigma, abs=6e-4)
    assert (hole.area.value, hole.area.sigma) == (pytest.approx(1.44), pytest.approx(0.009, abs=1e-3))
    if sd is None:
        # Its own advice to tape that base, to a centimetre, tells the same.
        tape = next(a for a in budget.advice if a.act is Act.TAPE and set(a.marks) == {"A", "B"})
        assert (tape.sd, tape.size.after / COVER_95) == (0.01, pytest.approx(0.432, abs=6e-4))


# --- shares ---


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**6), common=st.floats(0.0, 0.5), is_taped=st.booleans())
def test_the_shares_of_a_figure_add_up_to_its_variance(seed, common, is_taped):
    rng = np.random.default_rng(seed)
    way = rng.uniform(0, 30, (7, 2))
    way[6] = way[0]
    first = walk(way, {0: "A", 3: "B", 6: "A"}, kind=Kind.LENGTH)
    xy = rng.uniform(0, 30, (6, 2))
    xy[0], xy[4] = first.xy[0], first.xy[3]
    second = walk(xy, {0: "A", 4: "B"}, name="W2", kind=Kind.LENGTH, feature="Kerb")
    full = replace(DEMO, scale_shared=0.001, heading_walk=0.001)
    tapes = (PlannedTape("A", "B", 0.01),) if is_taped else ()
    plan = plan_of(first, second, instrument=full, picks={"A": 0.03, "B": 0.06}, common=common, tapes=tapes)
    surveyed = survey_plan(plan)
    sized, _ = size_features(surveyed)
    for one in sized:
        parts = variances(surveyed.placed, one.main.gradient)
        whole = surveyed.placed.variance(one.main.gradient)
        assert sum(parts.values()) == pytest.approx(whole, rel=1e-7)
        assert min(parts.values()) >= 0.0
        assert parts[Cause.PICKS] + parts[Cause.COMMON] == pytest.approx(0.0, abs=1e-12)
    budget = forecast_plan(plan)
    for station in budget.stations:
        assert sum(station.shares.values()) == pytest.approx(1.0, rel=1e-12)
    row = len(budget.stations) - 1
    values = np.linalg.eigvalsh(surveyed.placed.plan_ellipses(np.array([row]))[0])
    assert budget.stations[row].ellipse.major == pytest.approx(math.sqrt(values[1]), rel=1e-9)


# --- nothing hangs on where and how it is drawn ---


def budget_of_square(points, **more):
    return forecast_plan(
        plan_of(walk(points, {0: "A", 2: "C"}, kind=Kind.AREA), picks={"A": 0.02, "C": 0.05}, **more)
    )


def figures(budget):
    sizes = [budget.features[0].area.sigma, budget.features[0].perimeter.sigma]
    return [*sizes, *(s.ellipse.major for s in budget.stations), *(s.ellipse.minor for s in budget.stations)]


@pytest.mark.parametrize(
    "change",
    [
        lambda xy: turn(xy, 1.1),
        lambda xy: xy + (1e7, -3e6),
        lambda xy: xy * (1, -1),
    ],
    ids=["turned", "moved by 1e7", "mirrored"],
)
def test_the_same_plan_elsewhere_has_the_same_budget(change):
    xy = np.array([(0, 0), (12, 1), (15, 9), (3, 8), (0, 0)], float)
    assert figures(budget_of_square(change(xy))) == pytest.approx(figures(budget_of_square(xy)), rel=1e-6)


def test_an_ellipse_turns_with_the_plan():
    xy = np.array([(0, 0), (12, 1), (15, 9), (3, 8), (0, 0)], float)
    for one, other in zip(budget_of_square(xy).stations, budget_of_square(turn(xy, 0.4)).stations):
        assert math.sin(other.ellipse.angle - one.ellipse.angle - 0.4) == pytest.approx(0.0, abs=1e-6)


def test_two_marks_that_are_the_datum_can_only_err_along_their_base():
    """Without map points the marks themselves are the datum, whichever way their base runs in the plan: they share out
    what its length may be wrong by."""
    for angle in (0.0, 0.7, 2.5):
        line = turn([(0, 0), (6, 2), (12, 0)], angle)
        budget = forecast_plan(plan_of(walk(line, {0: "A", 2: "B"})))
        assert budget.status == "not placed"
        first, _, last = budget.stations
        assert first.ellipse.major == pytest.approx(last.ellipse.major, rel=1e-9)
        for station in (first, last):
            assert station.ellipse.minor == pytest.approx(0.0, abs=1e-7)
            assert math.sin(station.ellipse.angle - angle) == pytest.approx(0.0, abs=1e-6)


def test_speed_counts_and_holding_does_not():
    slow = budget_of_square(SQUARE, pace=Pace(0.3, 1.0))
    quick = budget_of_square(SQUARE, pace=Pace(1.3, 1.0))
    patient = budget_of_square(SQUARE, pace=Pace(1.3, 60.0))
    assert slow.features[0].area.sigma > 1.05 * quick.features[0].area.sigma
    assert figures(patient) == pytest.approx(figures(quick), rel=1e-9)
    assert quick.walks[0].seconds == pytest.approx(40.0 / 1.3 + 5 * 1.0)
    assert patient.walks[0].seconds == pytest.approx(40.0 / 1.3 + 5 * 60.0)


# --- what it rests on, and what is found ---


@pytest.mark.parametrize(
    ("instrument", "accuracy", "told"),
    [
        (None, None, "assumed"),
        (None, Accuracy(0.005, 0.0, AccuracyKind.LIMIT), "accuracy"),
        (DEMO, Accuracy(0.005, 0.0, AccuracyKind.LIMIT), "instruments"),
    ],
)
def test_where_the_instruments_worth_comes_from_is_told(instrument, accuracy, told):
    plan = Plan((walk(SQUARE, {0: "A"}, kind=Kind.AREA),), instrument=instrument, accuracy=accuracy)
    assert forecast_plan(plan).sigma_from == told


def test_a_stated_limit_of_half_a_percent_is_the_default_but_said():
    square = walk(SQUARE, {0: "A"}, kind=Kind.AREA)
    stated = forecast_plan(Plan((square,), accuracy=Accuracy(0.005, 0.0, AccuracyKind.LIMIT)))
    assumed = forecast_plan(Plan((square,)))
    assert stated.features[0].area.sigma == pytest.approx(assumed.features[0].area.sigma, rel=1e-12)


def test_a_walk_that_returns_tells_what_it_should_close_within():
    """The loop of the square: C = 5.67323e-4 on both axes (adjustment.md, section 8)."""
    budget = forecast_plan(plan_of(walk(SQUARE, {0: "A", 4: "A"})))
    assert budget.walks[0].misclosure_sigma == pytest.approx(math.sqrt(2 * 5.67323e-4), rel=1e-5)
    assert forecast_plan(plan_of(walk(SQUARE, {0: "A"}))).walks[0].misclosure_sigma is None


def test_a_walk_that_shares_no_marks_is_left_out_and_says_why():
    alone = walk([(50, 0), (60, 0)], name="W2", kind=Kind.LENGTH, feature="Kerb")
    budget = forecast_plan(plan_of(walk(SQUARE, {0: "A", 2: "C"}, kind=Kind.AREA), alone))
    lawn, kerb = budget.features
    assert lawn.finding == ""
    assert (kerb.feature, kerb.length, kerb.finding) == ("Kerb", None, "TI-01")
    assert {station.walk for station in budget.stations} == {"W1"}


def test_a_short_base_is_told_in_the_surveys_own_words():
    first = walk([MARKS["P"], MARKS["Q"], (20, 0)], {0: "P", 1: "Q"}, kind=Kind.LENGTH)
    second = walk([MARKS["P"], MARKS["Q"], MARKS["C"]], {0: "P", 1: "Q"}, name="W2", kind=Kind.LENGTH)
    second = replace(second, feature=("", "", "Hedge"), kind=(None, None, Kind.SPOT))
    budget = forecast_plan(plan_of(first, second, picks={"P": 0.05, "Q": 0.05}))
    short = next(f for f in budget.findings if f.code == "TI-02" and f.walk == "W2")
    assert short.severity is Severity.ASK
    far = next(s for s in budget.stations if s.walk == "W2" and s.station == "3")
    assert short.message == (
        "The marks that walk W2 shares with the others are 4.5 m apart at the most, and it reaches 40.5 m away: expect "
        f"{far.major_95:.2f} m (95 %) at station 3."
    )


def test_an_outline_that_crosses_itself_has_no_figures_in_a_plan_either():
    bow = walk([(0, 0), (10, 10), (10, 0), (0, 10), (0, 0)], {0: "A"}, kind=Kind.AREA)
    budget = forecast_plan(plan_of(bow))
    assert (budget.features[0].area, budget.features[0].finding) == (None, "GE-01")
    assert budget.largest is None


# --- what is refused ---


@pytest.mark.parametrize(
    ("plan", "words"),
    [
        (Plan(()), "Nothing is planned. Draw a line for each walk, through its stations in order."),
        (
            Plan((walk([(0, 0)]),)),
            "Walk W1 has 1 stations, and two are the fewest. Draw it through all its stations.",
        ),
        (
            Plan((walk([(0, 0), (math.nan, 1)]),)),
            "Walk W1, station 2: it has no place. Draw it again.",
        ),
        (
            Plan((walk([(0, 0), (math.inf, 1)]),)),
            "Walk W1, station 2: it has no place. Draw it again.",
        ),
        (
            Plan((walk(SQUARE), walk(SQUARE))),
            "Two walks are called W1. Give each a name of its own.",
        ),
        (
            Plan((walk([(0, 0), (1e6, 0)]),)),
            (
                "The plan reaches 500000 m from its middle, and 20000 m are the most. Choose the walks of one site, and check "
                "the CRS."
            ),
        ),
        (
            Plan((walk([(i % 100, i // 100) for i in range(2001)]),)),
            (
                "The plan has 2001 stations, and 2000 are the most. Choose the lines that will be walked, with a vertex at each "
                "station only."
            ),
        ),
        (
            Plan((walk(SQUARE),), pace=Pace(0.0)),
            "The pace is 0.0 m/s with 1.0 s at each stand. Give a speed above 0, and seconds that are 0 or more.",
        ),
        (
            Plan((walk(SQUARE, {0: "A"}),), picks={"A": -0.1}),
            "A one-sigma of -0.1 m is none. Give metres, 0 or more.",
        ),
        (
            Plan((walk(SQUARE, {0: "A"}),), picks={"B": 0.1}),
            "No station of the plan stands on mark B. Draw a walk over it, or leave it out.",
        ),
        (
            Plan((walk(SQUARE, {0: "A"}),), tapes=(PlannedTape("A", "B", 0.01),)),
            "No station of the plan stands on mark B. Draw a walk over it, or leave it out.",
        ),
        (
            Plan((walk(SQUARE, {0: "A", 1: "A"}),)),
            (
                "Walk W1, station 2: mark A is planned 10.00 m from where it was before. Draw it in one place, or give one of "
                "the two another name."
            ),
        ),
        (
            Plan((replace(walk(SQUARE), station=("1", "2", "3", "4", "2")),)),
            "Walk W1 has two stations 2. Give each a name of its own.",
        ),
        (
            Plan((replace(walk(SQUARE), feature=("Lawn",)),)),
            "Walk W1 has 5 stations, and a column of 1. Give each station its cell.",
        ),
    ],
    ids=lambda value: "" if isinstance(value, Plan) else value[:30],
)
def test_a_plan_that_cannot_be_walked_is_refused(plan, words):
    with pytest.raises(BadInput) as told:
        forecast_plan(plan)
    assert str(told.value) == words


def test_a_plan_with_as_many_stations_as_may_be_gets_its_advice(monkeypatch):
    """What is tried has one station more: it was refused."""
    monkeypatch.setattr("plugin.core.measure.planned.walks.MOST_STATIONS", len(SQUARE))
    assert forecast_plan(plan_of(walk(SQUARE, {0: "A", 2: "C"}))).advice


def test_it_stops_when_told_to():
    def stop(part, what):
        if what == "What would help":
            raise Cancelled

    with pytest.raises(Cancelled):
        forecast_plan(plan_of(walk(SQUARE, {0: "A"})), stop)


def test_progress_only_goes_forward():
    seen = []
    forecast_plan(plan_of(walk(SQUARE, {0: "A"})), lambda part, what: seen.append(part))
    assert seen == sorted(seen)
    assert 0.0 <= seen[0] <= seen[-1] <= 1.0
