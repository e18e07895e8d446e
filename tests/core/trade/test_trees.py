# SPDX-License-Identifier: GPL-2.0-or-later
"""Root protection and overlaps beside closed forms, shapely and Monte Carlo."""

from __future__ import annotations

import math

import numpy as np
import pytest
from trade_lines import box, circle, moved, straight

from plugin.core.errors import BadInput
from plugin.core.segments import ring_area
from plugin.core.trade.lines import Line
from plugin.core.trade.trees import (
    combine_stems,
    overlap_together,
    overlap_works,
    protect_tree,
    protection_circle,
    read_stems,
)

AT_ORIGIN = np.zeros(2)


def test_a_stem_of_30_cm_is_protected_3_60_m_around():
    tree = protect_tree([0.3], 0.01)
    assert tree.radius.value == pytest.approx(3.6)
    assert tree.radius.sigma == pytest.approx(0.12)
    assert tree.area.value == pytest.approx(math.pi * 3.6**2)
    assert tree.area.sigma == pytest.approx(2 * math.pi * 3.6 * 0.12)
    assert tree.fence.value == pytest.approx(7.2 * math.pi)
    assert not tree.is_capped


def test_a_large_stem_is_protected_as_far_as_the_cap_goes():
    tree = protect_tree([1.5], 0.01)
    assert (tree.radius.value, tree.radius.sigma, tree.is_capped) == (15.0, 0.0, True)
    assert protect_tree([1.25]).radius.value == 15.0
    assert not protect_tree([1.25]).is_capped
    assert protect_tree([1.5], cap=0.0).radius.value == pytest.approx(18.0)


def test_several_stems_are_one_of_the_same_section():
    """BS 5837:2012, 4.6.1, from memory: root of the sum of squares up to five, mean times root of the number beyond."""
    assert combine_stems([0.3, 0.4]) == pytest.approx(0.5)
    assert combine_stems([0.1] * 4) == pytest.approx(0.2)
    assert combine_stems([0.1, 0.1, 0.1, 0.2, 0.2, 0.2]) == pytest.approx(0.15 * math.sqrt(6))
    assert combine_stems([0.1] * 5) == pytest.approx(combine_stems([0.1] * 6) * math.sqrt(5 / 6))
    assert read_stems(" 0.12 + 0,15+0.2") == (0.12, 0.15, 0.2)


def test_the_circle_is_a_true_one():
    assert ring_area(protection_circle(np.array([5.0, -3.0]), 3.6)) == pytest.approx(
        math.pi * 3.6**2, rel=1e-14
    )


def test_works_beyond_a_straight_take_a_segment():
    tree = protect_tree([0.3])
    r = tree.radius.value
    exact = r * r * math.acos(2 / r) - 2 * math.sqrt(r * r - 4)
    works = moved(box(8, 20), (2.0, -10.0, 0.0))
    for ring in (works, works.reversed()):
        assert overlap_works(AT_ORIGIN, tree, [ring], 0.0).area.value == pytest.approx(exact, rel=1e-13)
    assert overlap_works(AT_ORIGIN, tree, [works], 0.0).share == pytest.approx(exact / (math.pi * r * r))


def test_works_all_round_take_all_and_works_apart_nothing():
    tree = protect_tree([0.3])
    round_it = moved(box(20, 20), (-10, -10, 0.0))
    assert overlap_works(AT_ORIGIN, tree, [round_it], 0.05).share == pytest.approx(1.0)
    apart = overlap_works(AT_ORIGIN, tree, [moved(box(2, 2), (5, 5, 0.0))], 0.05)
    assert apart.area.value == pytest.approx(0.0, abs=1e-12)
    assert apart.area.sigma == pytest.approx(0.0, abs=1e-12)
    inside = overlap_works(AT_ORIGIN, tree, [moved(box(1, 2), (-0.5, -1, 0.0))], 0.0)
    assert inside.area.value == pytest.approx(2.0, rel=1e-13)


def test_holes_of_works_are_left():
    tree = protect_tree([0.3])
    outer, hole = moved(box(20, 20), (-10, -10, 0.0)), moved(box(1, 2), (-0.5, -1, 0.0)).reversed()
    left = overlap_works(AT_ORIGIN, tree, [outer, hole], 0.0).area.value
    assert left == pytest.approx(math.pi * 3.6**2 - 2.0, rel=1e-13)


def test_round_works_take_a_lens():
    """Two circles of radius 3.6 whose centres lie 4 m apart: 2 r^2 acos(d/2r) - d/2 sqrt(4r^2 - d^2)."""
    tree = protect_tree([0.3])
    r, d = 3.6, 4.0
    exact = 2 * r * r * math.acos(d / (2 * r)) - d / 2 * math.sqrt(4 * r * r - d * d)
    found = overlap_works(np.array([1e7, -2e6]), tree, [moved(circle(r), (1e7 + d, -2e6, 0.0))], 0.0)
    assert found.area.value == pytest.approx(exact, abs=1e-4)


def test_ragged_works_agree_with_shapely_and_sigma_with_draws():
    geometry = pytest.importorskip("shapely.geometry")
    draw = np.random.default_rng(3)
    turn = np.sort(draw.uniform(0, 2 * np.pi, 9))
    ring = np.column_stack([4 * np.cos(turn) * draw.uniform(0.4, 1.4, 9) + 1, 4 * np.sin(turn), np.zeros(9)])
    works = Line(np.vstack([ring, ring[:1]]), np.zeros(10, bool))
    # Errors so small that no corner enters or leaves the circle: what follows to first order is what is drawn.
    tree, centre = protect_tree([0.3], 0.001), np.array([0.3, 0.2])
    found = overlap_works(centre, tree, [works], 0.005)
    disc = geometry.Point(*centre).buffer(3.6, 2000)
    assert found.area.value == pytest.approx(disc.intersection(geometry.Polygon(ring[:, :2])).area, rel=1e-6)
    areas = []
    for _ in range(1500):
        noise = draw.normal(0, 0.005, ring.shape)
        moved_ring = np.vstack([ring + noise, (ring + noise)[:1]])
        one = protect_tree([0.3 + draw.normal(0, 0.001)])
        at = centre + draw.normal(0, 0.005, 2)
        areas.append(overlap_works(at, one, [Line(moved_ring, works.is_mid)], 0.0).area.value)
    assert found.area.sigma == pytest.approx(float(np.std(areas)), rel=0.07)


def test_outlines_that_share_an_edge_move_together():
    """Both halves of a circle: the edge between them takes from one what it gives to the other, and the radius moves all."""
    tree = protect_tree([0.3], stem_sigma=0.01)
    halves = [
        straight((0.5, -9), (0.5, 9), (-9, 9), (-9, -9), (0.5, -9)),
        straight((0.5, -9), (9, -9), (9, 9), (0.5, 9), (0.5, -9)),
    ]
    found = [overlap_works(AT_ORIGIN, tree, [half], 0.0) for half in halves]
    both = overlap_together(found, tree, 0.0)
    assert both.value == pytest.approx(tree.area.value, rel=1e-12)
    assert both.sigma == pytest.approx(tree.area.sigma, rel=1e-12)  # not the root of the sum of their squares
    sure = protect_tree([0.3])
    found = [overlap_works(AT_ORIGIN, sure, [half], 0.1) for half in halves]
    assert min(one.area.sigma for one in found) > 0.5
    assert overlap_together(found, sure, 0.1).sigma == pytest.approx(0.0, abs=1e-12)
    assert overlap_together(found[:1], sure, 0.1) == found[0].area
    assert overlap_together([], sure, 0.1).value == 0.0


def test_what_works_on_both_sides_take_is_as_sure_as_draws_say():
    tree, draw = protect_tree([0.3]), np.random.default_rng(8)
    sides = [
        np.array([[2.0, -9, 0], [9, -9, 0], [9, 9, 0], [2, 9, 0]]),
        np.array([[-2.0, -9, 0], [-2, 9, 0], [-9, 9, 0], [-9, -9, 0]]),
    ]

    def line(points):
        return [Line(np.vstack([points, points[:1]]), np.zeros(5, bool))]

    told = overlap_together([overlap_works(AT_ORIGIN, tree, line(side), 0.05) for side in sides], tree, 0.05)
    areas = []
    for _ in range(3000):
        at = draw.normal(0.0, 0.05, 2)
        drawn = [line(side + np.column_stack([draw.normal(0, 0.05, (4, 2)), np.zeros(4)])) for side in sides]
        areas.append(sum(overlap_works(at, tree, one, 0.0).area.value for one in drawn))
    assert told.sigma == pytest.approx(float(np.std(areas)), rel=0.05)


@pytest.mark.parametrize(
    ("work", "words"),
    [
        (
            lambda: protect_tree([]),
            "The tree has no stem diameter above 0. Give it in metres, of several stems with + between.",
        ),
        (
            lambda: protect_tree([0.3, math.nan]),
            "The tree has no stem diameter above 0. Give it in metres, of several stems with + between.",
        ),
        (
            lambda: protect_tree([0.3], times=0.0),
            "The radius is 0.0 stem diameters, 15.0 m at most. Give a factor above 0.",
        ),
        (
            lambda: read_stems("0.12+thick"),
            'The stems "0.12+thick" are no numbers. Write diameters in metres with + between, such as 0.12+0.15.',
        ),
    ],
)
def test_what_is_no_stem_is_refused_in_words(work, words):
    with pytest.raises(BadInput) as told:
        work()
    assert str(told.value) == words


def test_works_of_a_hundred_thousand_points():
    turn = np.linspace(0, 2 * np.pi, 100_001)
    xy = np.column_stack([2 * np.cos(turn), 2 * np.sin(turn), np.zeros(len(turn))])
    xy[-1] = xy[0]
    found = overlap_works(AT_ORIGIN, protect_tree([0.3]), [Line(xy, np.zeros(len(xy), bool))], 0.01)
    assert found.area.value == pytest.approx(4 * math.pi, rel=1e-8)


def test_a_corner_at_the_stem_itself_is_no_trouble():
    found = overlap_works(AT_ORIGIN, protect_tree([0.3]), [straight((0, 0), (9, 0), (0, 9), (0, 0))], 0.01)
    assert found.area.value == pytest.approx(math.pi * 3.6**2 / 4, rel=1e-12)
