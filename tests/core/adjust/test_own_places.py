# SPDX-License-Identifier: GPL-2.0-or-later
"""Walks whose stations each have a place of their own: point lists and satellite receivers."""

from __future__ import annotations

import math

import numpy as np
import pytest
from builders import make_walk, turn

from plugin.core.accuracy import Accuracy, AccuracyKind
from plugin.core.adjust.drift import FADING
from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.measure.chain import Settings, survey_job
from plugin.core.measure.zigzag import added_by_metre
from plugin.core.walk import (
    Control,
    ControlPoint,
    ErrorGrowth,
    Job,
    LogKeys,
    SourceClass,
)

HERE = np.array([500_000.0, 5_700_000.0])
SQUARE = np.array([(0, 0), (1, 0), (1, 1), (0, 1), (0, 0)], float)


def keys(growth, source=SourceClass.INSTRUMENT, **more):
    return LogKeys(units="m", crs="EPSG:25831", source_class=source, growth=growth, **more)


def walk(xy, growth, *, name="W1", at=HERE, dense=False, **columns):
    n = len(xy)
    source = columns.pop("source", SourceClass.INSTRUMENT)
    more = columns.pop("keys_more", {})
    return make_walk(
        np.asarray(xy, float) + at, name=name, keys=keys(growth, source, **more),
        feature=columns.pop("feature", (name,) * n), kind=columns.pop("kind", ("area",) * n),
        leg=("direct", *(("as-walked" if dense else "direct"),) * (n - 1)), **columns,
    )  # fmt: skip


def areas(*walks, decisions=None, **settings):
    survey = survey_job(Job(walks), decisions or Decisions(), Settings(**settings))
    return survey.areas, survey


def test_points_have_the_area_sigma_of_the_closed_form():
    """dA = 1/2 sum of e_i x (next - before): sigma_A = sigma / 2 sqrt(sum of squared diagonals); for a square of side
    a, sigma a sqrt 2. The first corner is also the last, so its mean has half the variance."""
    (row,), survey = areas(walk(40 * SQUARE, ErrorGrowth.POINTS, sd_xy=[0.05] * 5))
    diagonal = 40 * math.sqrt(2)
    expected = 0.05 / 2 * math.sqrt((0.5 + 3) * diagonal**2)
    # The corner walked twice is at the mean of both; the ground is 4 mm longer than the map in 10 m.
    ground = survey.placement.grid_to_ground
    assert row.area.sigma == pytest.approx(expected * ground, rel=2e-3)
    assert row.tags.sigma_from == "log"


@pytest.mark.parametrize(
    ("source", "accuracy", "sd", "words"),
    [
        (SourceClass.INSTRUMENT, None, 0.02, "assumed"),
        (SourceClass.DIGITISED, None, 0.05, "assumed"),
        (SourceClass.INSTRUMENT, Accuracy(0.0, 0.1, AccuracyKind.SIGMA), 0.1, "accuracy"),
        (SourceClass.INSTRUMENT, Accuracy(0.0, 0.3, AccuracyKind.LIMIT), 0.3 / math.sqrt(3), "accuracy"),
    ],
)
def test_points_without_a_column_of_sigmas_take_what_is_stated_or_assumed(source, accuracy, sd, words):
    points = walk(40 * SQUARE, ErrorGrowth.POINTS, source=source, keys_more={"accuracy": accuracy})
    (row,), _ = areas(points)
    assert row.area.sigma == pytest.approx(sd / 2 * math.sqrt(3.5 * 3200), rel=3e-3)
    assert row.tags.sigma_from == words


def test_the_order_of_points_tells_nothing_of_their_errors():
    shuffled = [3, 0, 1, 2]
    two = [
        survey_job(Job((walk(xy, ErrorGrowth.POINTS, kind=("spot",) * 4),)), Decisions(), Settings())
        for xy in (40 * SQUARE[:4], 40 * SQUARE[shuffled])
    ]
    sigmas = [sorted(round(s.ellipse.major, 9) for s in survey.stations) for survey in two]
    assert sigmas[0] == sigmas[1]


def fading(rng, times, sd):
    """Errors of a receiver: each step keeps exp(-dt / FADING) of the error before."""
    out = [rng.normal(0, sd, 2)]
    for dt in np.diff(times):
        keep = math.exp(-dt / FADING)
        out.append(keep * out[-1] + rng.normal(0, sd * math.sqrt(1 - keep**2), 2))
    return np.array(out)


def dense_square(side, step=2.0):
    n = round(side / step)
    return np.vstack(
        [a + (b - a) * np.arange(n)[:, None] / n for a, b in zip(side * SQUARE, side * SQUARE[1:])]
    )


@pytest.mark.parametrize("side", [30.0, 200.0])
def test_a_receivers_area_is_no_better_than_said_and_not_far_worse(side):
    rng = np.random.default_rng(20)
    xy = dense_square(side)
    times = np.arange(len(xy)) * 2.0 / 1.3
    (row,), _ = areas(walk(xy, ErrorGrowth.RECEIVER, dense=True, time=times, source=SourceClass.PHONE,
                           hold=np.zeros(len(xy))), price_within=1.0)  # fmt: skip

    def shoelace(p):
        return 0.5 * float(np.sum(p[:, 0] * np.roll(p[:, 1], -1) - p[:, 1] * np.roll(p[:, 0], -1)))

    realised = np.std([shoelace(xy + fading(rng, times, 4.0)) for _ in range(3000)])
    assert realised < row.area.sigma < 1.7 * realised


def test_walks_of_one_crs_need_no_marks_to_lie_beside_each_other():
    one = walk(20 * SQUARE, ErrorGrowth.POINTS, name="One")
    two = walk(turn(30 * SQUARE, 0.4), ErrorGrowth.RECEIVER, name="Two", at=HERE + (100.0, -50.0))
    rows, survey = areas(one, two)
    assert [f.code for f in survey.findings if f.severity is Severity.STOP] == []
    assert [round(row.area.value) for row in rows] == [
        400,
        901,
    ]  # 900 m2 on the map: 1.0004^2 larger on the ground
    to_map = survey.plane.to_crs(np.array([row.outline[0].points[0, :2] for row in rows]))
    np.testing.assert_allclose(to_map, [HERE, HERE + (100.0, -50.0)], atol=1e-6)


def test_the_walks_of_one_file_without_a_crs_lie_as_they_do_in_it():
    from dataclasses import replace

    own = LogKeys(units="m", growth=ErrorGrowth.POINTS)
    first = make_walk(20 * SQUARE, name="One", feature=("One",) * 5, kind=("area",) * 5, keys=own)
    second = make_walk(20 * SQUARE + (50, 0), name="Two", feature=("Two",) * 5, kind=("area",) * 5, keys=own)
    rows, survey = areas(*(replace(w, file="drawing.xml") for w in (first, second)))
    assert [f.code for f in survey.findings if f.severity is Severity.STOP] == []
    gap = rows[1].outline[0].points[0, :2] - rows[0].outline[0].points[0, :2]
    np.testing.assert_allclose(np.hypot(*gap), 50.0)
    _, survey = areas(first, second)
    assert [f.code for f in survey.findings if f.severity is Severity.STOP] == ["TI-01"]


def test_walks_of_two_crss_come_to_lie_in_one_plane():
    import pyproj

    other = pyproj.Transformer.from_crs("EPSG:25831", "EPSG:25832", always_xy=True)
    square = 20 * SQUARE + HERE + (60.0, 0.0)
    moved = make_walk(
        np.column_stack(other.transform(*square.T)), name="Two", feature=("Two",) * 5, kind=("area",) * 5,
        keys=LogKeys(units="m", crs="EPSG:25832", growth=ErrorGrowth.POINTS),
    )  # fmt: skip
    rows, survey = areas(walk(20 * SQUARE, ErrorGrowth.POINTS, name="One"), moved)
    found = survey.plane.to_crs(rows[1].outline[0].points[:1, :2])
    np.testing.assert_allclose(found[0], HERE + (60.0, 0.0), atol=1e-6)
    assert rows[0].area.value == pytest.approx(rows[1].area.value, rel=1e-6)


def test_an_instruments_walk_hangs_on_the_waypoints_that_bear_its_marks_names():
    points = walk(np.array([(0, 0), (50, 0)]), ErrorGrowth.POINTS, name="P", source=SourceClass.PHONE,
                  mark=("A", "B"), feature=("", ""), kind=(None, None))  # fmt: skip
    yard = np.array([(0, 0), (10, 5), (30, 5), (30, 15), (10, 15), (10, 5), (50, 0)], float)
    walked = make_walk(
        turn(yard, 1.0) + (7.0, 8.0), name="W1", mark=("A", "", "", "", "", "", "B"),
        feature=("", *("Yard",) * 5, ""), kind=(None, *("area",) * 5, None),
    )  # fmt: skip
    rows, survey = areas(points, walked)
    assert [f.code for f in survey.findings if f.severity is Severity.STOP] == []
    # The waypoints' 50 m on the map are 50.02 m on the ground: against 4 m each that pulls by hardly anything.
    assert rows[0].area.value == pytest.approx(200.0, abs=2e-4)
    # The size is the walk's own, whatever the waypoints are worth; the place is theirs.
    assert rows[0].area.sigma < 2.0
    at = {row.mark: survey.plane.to_crs(np.array([row.point[:2]]))[0] for row in survey.marks}
    np.testing.assert_allclose(at["A"], HERE, atol=0.02)
    assert all(row.ellipse.major > 2.0 for row in survey.marks)


def test_a_walk_that_hangs_on_nothing_goes_before_a_track_that_does_not_share_its_marks():
    track = walk(dense_square(30.0), ErrorGrowth.RECEIVER, name="T", dense=True, source=SourceClass.PHONE)
    yard = make_walk(
        20 * SQUARE, name="W1", mark=("A", "B", "", "", "A"), feature=("Yard",) * 5, kind=("area",) * 5
    )
    control = Control(
        (ControlPoint("A", tuple(HERE), None, 0.05, None, is_check=False),
         ControlPoint("B", tuple(HERE + (20, 0)), None, 0.05, None, is_check=False)), crs="EPSG:25831",
    )  # fmt: skip
    survey = survey_job(Job((track, yard), control), Decisions(), Settings())
    assert [(f.code, f.place) for f in survey.findings if f.code == "TI-01"] == [("TI-01", "T:0")]
    assert survey.areas[0].tags.feature == "Yard"


def phone(side, **settings):
    xy = dense_square(side)
    decisions = settings.pop("decisions", None)
    columns = {"time": np.arange(len(xy)) * 2.0 / 1.3, "hold": np.zeros(len(xy))}
    return areas(walk(xy, ErrorGrowth.RECEIVER, dense=True, source=SourceClass.PHONE, name="Field", **columns),
                 decisions=decisions, **settings)  # fmt: skip


def test_a_phones_figure_is_refused_for_pricing_where_it_is_too_uncertain():
    (row,), survey = phone(50.0)
    (finding,) = (f for f in survey.findings if f.code == "SR-01")
    assert (finding.severity, finding.place, finding.answers) == (Severity.STOP, "Field", ("budget only",))
    assert row.area is None
    assert row.tags.finding == "SR-01"
    assert finding.message == (
        "Field was recorded by a phone (walk Field): its uncertainty is 8.8 % of its figure, more than the 5 % that may be "
        "priced."
    )


def test_a_phones_figure_may_be_priced_where_its_own_sigma_is_small():
    (row,), survey = phone(400.0)
    (finding,) = (f for f in survey.findings if f.code == "SR-01")
    assert finding.severity is Severity.NOTE
    assert row.area.sigma / row.area.value < 0.05
    (row,), _ = phone(400.0, price_within=0.01)
    assert row.area is None


def test_a_budget_figure_says_so_in_its_row():
    (row,), _ = phone(50.0, decisions=Decisions([Decision("SR-01", "Field", "budget only")]))
    assert row.area.value == pytest.approx(2500.0, rel=2e-3)
    assert row.tags.method.startswith("budget only: plan area")


def test_the_growth_of_errors_is_read_from_the_log_and_written_back():
    from plugin.core.read.walk_log import read_walk_log, write_walk_log

    log = b"# units: m\n# crs: EPSG:25831\n# error-growth: points\nwalk,station,x,y\nW,1,500000,5700000\n"
    (one,), _ = read_walk_log("a.csv", log)
    assert one.keys.growth is ErrorGrowth.POINTS
    (again,), _ = read_walk_log("b.csv", write_walk_log([one]).encode())
    assert again.keys == one.keys
    _, findings = read_walk_log("a.csv", log.replace(b"points", b"fast"))
    assert [f.code for f in findings] == ["IN-01"]


def test_noise_from_point_to_point_counts_in_a_receivers_length():
    """132 m of a way of 120: 0.3 m of noise on points a metre apart; s^2 / L makes 0.09 m a step."""
    rng = np.random.default_rng(5)
    xy = np.column_stack([np.arange(400.0), np.zeros(400)])
    for sigma, severity in ((0.0, Severity.NOTE), (0.3, Severity.STOP)):
        noisy = xy + rng.normal(0, sigma, xy.shape)
        columns = {"time": np.arange(400) / 1.3, "hold": np.zeros(400), "kind": ("length",) * 400}
        track = walk(noisy, ErrorGrowth.RECEIVER, dense=True, source=SourceClass.PHONE, name="Way", **columns)
        _, survey = areas(track)
        (finding,) = (f for f in survey.findings if f.code == "SR-01")
        assert finding.severity is severity
    added = np.hypot(*np.diff(noisy, axis=0).T).sum() - 399.0
    assert 399.0 * added_by_metre(track, "Way") == pytest.approx(added, rel=0.25)


def test_an_rtk_tracks_length_is_covered_although_noise_adds_to_it():
    rng = np.random.default_rng(6)
    xy = np.column_stack([np.arange(389.0), np.zeros(389)]) + rng.normal(0, 0.1, (389, 2))
    columns = {"time": np.arange(389) / 1.3, "hold": np.zeros(389), "kind": ("length",) * 389}
    track = walk(xy, ErrorGrowth.RECEIVER, dense=True, name="Kerb", sd_xy=[0.1] * 389, **columns)
    survey = survey_job(Job((track,)), Decisions(), Settings())
    (row,) = survey.lengths
    ground = 388.0 * survey.placement.grid_to_ground
    assert row.length.value - ground > 1.0
    assert abs(row.length.value - ground) < 1.96 * row.length.sigma
    assert "noise from row to row may have added" in row.tags.method
    assert survey.legs[0].length.sigma == pytest.approx(row.length.sigma, rel=1e-6)
