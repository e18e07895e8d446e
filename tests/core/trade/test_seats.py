# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines that a survey drew find their points' errors again, and others do not."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.measure.rows import PointErrors
from plugin.core.trade.lines import Line, draw_line
from plugin.core.trade.seats import seat_lines
from plugin.core.trade.worth import moves_of
from tests.trade_lines import arc, box, mirrored, moved, straight


def errors_of(line, seed=1, parts=3, height=True):
    """Errors of a line's points as a survey would tell them, in a survey plane that the line lies in."""
    rng = np.random.default_rng(seed)
    count = len(line.points)
    told = PointErrors(
        line.points[:, :2].copy(),
        np.column_stack([rng.uniform(0.001, 0.002, count), np.full(count, 0.003 if height else np.nan)]),
        rng.normal(0.0, 0.01, (count, parts, 2)),
        rng.normal(0.0, 0.01, (count, parts)),
    )
    if line.is_closed:
        for part in (told.own, told.plan, told.height):
            part[-1] = part[0]
    return told


WAY = straight((0, 0, 0), (3, 4, 1), (9, 4, 2), (9, 9, 0))
"""From its other end it looks the same, half a turn away."""
HOOK = straight((0, 0, 0), (3, 4, 1), (10, 4, 2), (10, 9, 0))


def length_sigma(line, worth):
    return worth.sigma(moves_of(line, line.edges.length_moves(np.ones(len(line.edges.p)))))


def test_points_are_numbered_through_all_lines():
    lines, worth = seat_lines([WAY, arc(8.0, 1.0, 0.0)], [errors_of(WAY), errors_of(arc(8.0, 1.0, 0.0), 2)])
    assert lines[0].seats.tolist() == [0, 1, 2, 3]
    assert lines[1].seats.tolist() == [4, 5, 6]
    assert (worth.own.shape, worth.plan.shape, worth.height.shape) == ((7, 2), (7, 3, 2), (7, 3))


@pytest.mark.parametrize("turn", [0.0, 0.3, math.pi / 2, -2.5])
def test_in_a_plane_that_lies_otherwise_the_same_line_is_worth_the_same(turn):
    told = errors_of(HOOK)
    ((here,), worth) = seat_lines([HOOK], [told])
    ((there,), again) = seat_lines([moved(HOOK, (1e7, -3e6, 5.0), turn)], [told])
    assert length_sigma(there, again) == pytest.approx(length_sigma(here, worth), rel=1e-6)


@pytest.mark.parametrize("line", [WAY, HOOK, straight((0, 0, 0), (5, 0, 1)), arc(8.0, 1.0, 0.0)])
def test_a_line_that_was_turned_round_is_found_again_from_its_other_end(line):
    told = errors_of(line)
    ((seated,), worth) = seat_lines([moved(line.reversed(), turn=0.02)], [told])
    assert seated.seats.tolist() == list(range(len(line.points)))[::-1]
    ((plain,), same) = seat_lines([line], [told])
    assert length_sigma(seated, worth) == pytest.approx(length_sigma(plain, same), rel=1e-12)


def test_a_ring_ends_with_the_point_that_it_began_with():
    ring = box(10.0, 6.0, 1.0)
    ((seated,), _) = seat_lines([ring], [errors_of(ring)])
    assert seated.seats.tolist() == [0, 1, 2, 3, 0]
    ((seated,), _) = seat_lines([ring.reversed()], [errors_of(ring)])
    assert seated.seats.tolist() == [4, 3, 2, 1, 4]


def test_an_edge_bent_at_its_corner_and_a_mirrored_one_are_other_lines():
    bent = straight((0, 0, 0), (3, 4, 1), (9, 4, 2), (12, 8, 0))
    assert seat_lines([bent], [errors_of(WAY)]) is None
    assert seat_lines([mirrored(HOOK)], [errors_of(HOOK)]) is None


def test_a_map_plane_of_another_height_is_no_other_line():
    scaled = draw_line(WAY.points * 1.0001)
    assert seat_lines([scaled], [errors_of(WAY)]) is not None


@pytest.mark.parametrize(
    "points",
    [
        [(0, 0, 0), (3, 4.01, 1), (9, 4, 2), (9, 9, 0)],
        [(0, 0, 0), (3, 4, 1), (9, 4, 2)],
        [(0, 0, 0), (3, 4, 1), (6, 4, 1.5), (9, 4, 2), (9, 9, 0)],
    ],
)
def test_a_corner_moved_left_out_or_put_in_is_no_more_as_the_survey_drew_it(points):
    assert seat_lines([straight(*points)], [errors_of(WAY)]) is None
    assert seat_lines([WAY, straight(*points)], [errors_of(WAY), errors_of(WAY)]) is None


def test_heights_of_which_nothing_is_known_are_not_made_up():
    told = errors_of(WAY, height=False)
    assert seat_lines([WAY], [told]) is None
    flat = draw_line(np.column_stack([WAY.points[:, :2], np.full(4, np.nan)]))
    _, worth = seat_lines([flat], [told])
    assert (worth.own[:, 1] == 0.0).all()


def spoilt(**changes):
    return replace(errors_of(HOOK), **changes)


@pytest.mark.parametrize(
    "told",
    [
        spoilt(own=np.zeros((3, 2))),
        spoilt(own=np.zeros((4, 1))),
        spoilt(own=np.full((4, 2), np.nan)),
        spoilt(own=np.full((4, 2), np.inf)),
        spoilt(xy=np.full((4, 2), np.nan)),
        spoilt(plan=np.full((4, 3, 2), np.nan)),
        spoilt(plan=np.zeros((4, 2, 2))),
        spoilt(height=np.full((4, 3), np.inf)),
        spoilt(height=np.zeros((4, 1))),
        spoilt(z=np.zeros(3)),
        spoilt(z=np.full(4, np.inf)),
        PointErrors(np.zeros((0, 2)), np.zeros((0, 2)), np.zeros((0, 3, 2)), np.zeros((0, 3))),
    ],
)
def test_numbers_that_are_none_or_of_other_errors_count_as_nothing_told(told):
    assert seat_lines([HOOK, HOOK], [errors_of(HOOK), told]) is None
    assert seat_lines([HOOK, HOOK], [errors_of(HOOK), errors_of(HOOK)]) is not None


def test_points_all_at_one_place_divide_by_nothing():
    line = Line(np.zeros((2, 3)), np.zeros(2, bool))
    ((seated,), _) = seat_lines([line], [errors_of(line)])
    assert len(seated.seats) == 2


def surveyed(line, seed=1):
    """Errors as a survey tells them that keeps heights."""
    return replace(errors_of(line, seed), z=line.points[:, 2].copy())


def lifted(line, rows, by):
    points = line.points.copy()
    points[rows, 2] += by
    return Line(points, line.is_mid)


def test_a_point_that_was_lifted_is_no_more_the_surveys():
    told = surveyed(HOOK)
    assert seat_lines([HOOK], [told]) is not None
    assert seat_lines([moved(HOOK.reversed(), (5.0, 2.0, 0.0), 0.4)], [told]) is not None
    for rows in ([2], [0, 1], [0, 1, 2, 3]):
        assert seat_lines([lifted(HOOK, rows, 1.0)], [told]) is None
        assert seat_lines([lifted(HOOK, rows, -0.002)], [told]) is None
        assert seat_lines([lifted(HOOK, rows, 0.0005)], [told]) is not None
    # A survey of an older version kept no heights to hold them against.
    assert seat_lines([lifted(HOOK, [2], 1.0)], [errors_of(HOOK)]) is not None


def test_heights_that_were_dropped_leave_the_plan_as_it_was():
    flat = Line(np.column_stack([HOOK.points[:, :2], np.full(4, np.nan)]), HOOK.is_mid)
    assert seat_lines([flat], [surveyed(HOOK)]) is not None


@pytest.mark.parametrize("unit", [0.3048, 1200 / 3937, 1 / 0.3048])
def test_heights_read_in_another_unit_than_theirs_are_told_not_taken(unit):
    high = lifted(HOOK, [0, 1, 2, 3], 20.0)
    read = Line(high.points * (1.0, 1.0, unit), high.is_mid)
    with pytest.raises(BadInput) as caught:
        seat_lines([read], [surveyed(high)])
    assert str(caught.value) == (
        f"The row's heights are the survey's times {unit:.8g}: its layer's CRS counts heights in another unit than they "
        "are in. Choose the survey's own layer, or bring the heights into the unit of the CRS."
    )


RIGHT = straight((0, 1.2, 0.0), (6, 1.2, 0.4), (12, 1.4, 1.0))
LEFT = straight((0, 0, 0.0), (12, 0, 1.0))


@pytest.mark.parametrize("turn", [0.0, 0.3, -1.2])
def test_two_lines_of_one_feature_are_the_surveys_only_where_they_lie_to_each_other_as_it_drew_them(turn):
    told = [surveyed(LEFT), surveyed(RIGHT, 2)]

    def seated(second):
        return seat_lines([moved(line, (1e6, 3e6, 0.0), turn) for line in (LEFT, second)], told)

    assert seated(RIGHT) is not None
    assert seated(RIGHT.reversed()) is not None
    for by in ((0.0, 0.2, 0.0), (0.0, 3.0, 0.0), (0.2, 0.0, 0.0), (0.0, -0.003, 0.0)):
        assert seated(moved(RIGHT, by)) is None
    assert seated(moved(RIGHT, turn=0.01)) is None
    # Scaled as a map's plane of another height is, both are still where they were to each other.
    both = [draw_line(line.points * (1.0001, 1.0001, 1.0)) for line in (LEFT, RIGHT)]
    assert seat_lines(both, told) is not None


def test_a_walls_top_over_its_foot_may_not_be_moved_away_by_itself():
    foot, top = straight((0, 0, 0), (8, 0, 0.1)), straight((0, 0, 1.0), (8, 0, 1.1))
    told = [surveyed(foot), surveyed(top, 2)]
    assert seat_lines([foot, top], told) is not None
    assert seat_lines([foot, moved(top, (0.0, 3.0, 0.0))], told) is None
    assert seat_lines([foot, lifted(top, [1], 1.0)], told) is None
