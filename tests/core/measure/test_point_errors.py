# SPDX-License-Identifier: GPL-2.0-or-later
"""What a survey's rows keep of how their points err together, against the survey's own covariance: every length, area and rise
of the rows again from their points alone, exactly, joined edges, arcs, fitted and offset ones among them."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.measure import point_errors
from plugin.core.measure.chain import Settings, measure_job
from plugin.core.read.job import read_job
from plugin.core.trade.seats import seat_lines
from plugin.core.trade.worth import moves_of
from scripts.demo_jobs import make_job
from scripts.trade_figures import line_of_curve, seated_rows

HEAD = "walk,station,x,y,z,time,hold_s,feature,part,geometry,leg,mark,offset,offset_side"


def survey_of(files, **settings):
    read = read_job({name: text.encode() for name, text in files.items()})
    return measure_job(read.job, read.decisions, Settings(**settings), read.findings)[0]


@pytest.fixture(scope="module", params=["marlisk_yard", "sorrelback_lane"])
def survey(request):
    return survey_of(make_job(request.param, 1))


def told_of(survey):
    return [row for row in (*survey.lengths, *survey.areas) if row.errors]


def test_all_rows_but_profiles_tell_their_points(survey):
    rows = [row for row in (*survey.lengths, *survey.areas) if not row.errors]
    assert [row.tags.feature for row in rows] in (["Dished face"], [])


def test_lengths_and_rises_are_as_certain_as_the_survey_has_them(survey):
    """To the last digits, for features of up to 20 stations; the swale's 78 rows to some thousandths."""
    for row in survey.lengths:
        if not row.errors or len(row.runs) > 1:
            continue
        (line,), worth = seated_rows(row)
        within = 5e-3 if len(line.points) > 40 else 1e-9
        length = worth.sigma(moves_of(line, line.edges.length_moves(np.ones(len(line.edges.p)))))
        assert length == pytest.approx(row.length.sigma, rel=within), row.tags.feature
        if row.rise is not None:
            ends = np.zeros(len(line.points))
            ends[0], ends[-1] = -1.0, 1.0
            assert worth.sigma(moves_of(line, height=ends)) == pytest.approx(row.rise.sigma, rel=within)


def test_areas_with_their_holes_and_perimeters_are_as_certain_as_the_survey_has_them(survey):
    for row in survey.areas:
        rings, worth = seat_lines([line_of_curve(curve) for curve in row.outline], row.errors)
        moves = [moves_of(ring, ring.edges.area_moves(np.ones(len(ring.edges.p)))) for ring in rings]
        assert worth.sigma(*moves) == pytest.approx(row.area.sigma, rel=1e-9), row.tags.feature
        edge = moves_of(rings[0], rings[0].edges.length_moves(np.ones(len(rings[0].edges.p))))
        assert worth.sigma(edge) == pytest.approx(row.perimeter.sigma, rel=1e-9), row.tags.feature


def test_a_height_by_itself_is_as_certain_as_its_station(survey):
    """Of heights nothing is taken out, so that they may be held against a level."""
    at = {(row.tags.feature, row.tags.part, row.point[2]): row.z_sigma for row in survey.stations}
    row = next(row for row in survey.lengths if row.tags.part == "foot")
    errors = row.errors[0]
    sigma = np.hypot(errors.own[:, 1], np.sqrt((errors.height**2).sum(axis=1)))
    assert sigma[0] == pytest.approx(at[row.tags.feature, "foot", float(row.runs[0].points[0, 2])], rel=1e-9)


def test_the_heights_are_kept_that_the_row_is_drawn_at(survey):
    for row in told_of(survey):
        for curve, errors in zip(getattr(row, "runs", None) or row.outline, row.errors):
            line = line_of_curve(curve)
            drawn = line.points[line.vertices, 2]
            for told in (errors.z, errors.z[::-1]):
                if np.array_equal(np.isfinite(told[line.vertices]), np.isfinite(drawn)) and np.allclose(
                    told[line.vertices], drawn, atol=1e-9, equal_nan=True
                ):
                    break
            else:
                raise AssertionError(row.tags.feature)


def test_neither_a_shift_nor_a_turn_of_a_whole_feature_is_in_it(survey):
    """So that the picks and the picture's own shift, which move and turn the site, take up none of the parts."""
    for feature in {row.tags.feature for row in told_of(survey)}:
        runs = [run for row in told_of(survey) if row.tags.feature == feature for run in row.errors]
        xy, plan = (np.concatenate([getattr(run, name) for run in runs]) for name in ("xy", "plan"))
        arm = xy - xy.mean(axis=0)
        turning = np.einsum("n,nk->k", arm[:, 0], plan[:, :, 1]) - np.einsum(
            "n,nk->k", arm[:, 1], plan[:, :, 0]
        )
        size = np.abs(plan).max() * len(xy)
        assert np.abs(plan.sum(axis=0)).max() < 1e-9 * size
        assert np.abs(turning).max() < 1e-9 * size * np.abs(arm).max()


def test_foot_and_top_of_a_wall_are_told_together(survey):
    """The height between them loses what both drift by: less than each end by itself, by a quarter at least."""
    foot, top = (
        next(r for r in survey.lengths if "all" in r.tags.feature and r.tags.part == part)
        for part in ("foot", "top")
    )
    (low, high), worth = seated_rows(foot, top)
    one = np.zeros(len(low.points))
    one[0] = 1.0
    near = np.hypot(*(high.points[[0, -1], :2] - low.points[0, :2]).T)
    other = np.zeros(len(high.points))
    other[0 if near[0] < near[1] else -1] = 1.0
    apart = np.hypot(worth.sigma(moves_of(low, height=one)), worth.sigma(moves_of(high, height=other)))
    assert worth.sigma(moves_of(low, height=-one), moves_of(high, height=other)) < 0.75 * apart


def job(*rows):
    """A log of one walk between two marks."""
    lines, time = [HEAD, "W1,a,0,-5,10,0,5,,,,,A,,", "W1,b,30,-5,10,40,5,,,,,B,,"], 60
    for k, row in enumerate(rows):
        time += 20
        x, y, z, feature, part, kind, leg, offset, side = (*row, *[""] * (9 - len(row)))
        lines.append(f"W1,{k + 1},{x},{y},{z},{time},5,{feature},{part},{kind},{leg},,{offset},{side}")
    lines.append(f"W1,c,0,-5,10,{time + 20},5,,,,,A,,")
    return {"w1.csv": "# units: m\n# accuracy: 0.01 m\n" + "\n".join(lines) + "\n"}


def test_an_edge_moved_off_the_walked_line_is_told_as_drawn():
    files = job(
        *((x, y, 10.0, "Kerb", "", "length", "", 0.3, "left") for x, y in [(0, 0), (6, 0), (9, 4), (9, 10)])
    )
    (row,) = survey_of(files).lengths
    (line,), worth = seated_rows(row)
    by = line.edges.length_moves(np.ones(len(line.edges.p)))
    assert worth.sigma(moves_of(line, by)) == pytest.approx(row.length.sigma, rel=1e-9)


def test_points_without_heights_have_none_to_tell():
    (row,) = survey_of(job(*((x, 0, "", "Kerb", "", "length") for x in (0, 5, 9)))).lengths
    (errors,) = row.errors
    assert np.isnan(errors.own[:, 1]).all()
    assert errors.height.shape == (3, 0)
    assert np.isfinite(errors.own[:, 0]).all()


def test_of_a_long_feature_forty_and_twenty_parts_are_kept_and_nothing_is_lost_of_a_points_own():
    rng = np.random.default_rng(3)
    places = [(0.5 * k, float(rng.normal(0, 0.3)), 10.0 + 0.01 * k) for k in range(120)]
    (row,) = survey_of(job(*((*p, "Kerb", "", "length") for p in places))).lengths
    (errors,) = row.errors
    assert errors.plan.shape == (120, point_errors.PLAN_PARTS, 2)
    assert errors.height.shape == (120, point_errors.HEIGHT_PARTS)
    (line,), worth = seated_rows(row)
    z = np.zeros(120)
    z[60] = 1.0
    alone = np.hypot(errors.own[60, 1], np.sqrt((errors.height[60] ** 2).sum()))
    assert worth.sigma(moves_of(line, height=z)) == pytest.approx(alone, rel=1e-12)


@pytest.mark.parametrize("apart", [4, 10, 20, 40])
def test_of_a_long_feature_lengths_of_one_to_ten_metres_come_out_within_some_percent(apart):
    """What 40 parts leave of a random walk of 78 rows, 0.25 m apart, counts as each point's own; of half a metre, which no
    figure of the trade is, 7 % of the sigma is missing."""
    survey = survey_of(make_job("marlisk_yard", 1))
    row = next(row for row in survey.lengths if row.tags.feature == "Swale")
    (line,), worth = seated_rows(row)
    placed = survey.workings.placed
    rows = [k for k, s in enumerate(survey.stations) if s.tags.feature == "Swale"]
    assert len(rows) == len(line.points)
    ratios = []
    for first in range(0, len(rows) - apart, 3):
        share = np.zeros(len(line.edges.p))
        share[first : first + apart] = 1.0
        by = line.edges.length_moves(share)
        whole = placed.plan_covariance(np.array(rows)).reshape(2 * len(rows), -1)
        ratios.append(worth.sigma(moves_of(line, by)) / np.sqrt(by.ravel() @ whole @ by.ravel()))
    assert np.median(ratios) == pytest.approx(1.0, abs=0.05)
    assert min(ratios) > 0.85
    assert max(ratios) < 1.15


def test_a_feature_of_too_many_points_tells_nothing_and_keeps_its_figures(monkeypatch):
    monkeypatch.setattr(point_errors, "MOST_POINTS", 2)
    (row,) = survey_of(job(*((x, 0, 10.0, "Kerb", "", "length") for x in (0, 5, 9)))).lengths
    assert row.errors == ()
    assert row.length.sigma > 0.0
