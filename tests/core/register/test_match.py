# SPDX-License-Identifier: GPL-2.0-or-later
"""Which thing is which, and which station stands on which."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.register.match import common_ground, distances, offsets, pair_stations, pair_things
from tests.core.register.known_sites import area, length, ring, spot, stations


def names(pairs):
    return [(one and one.feature, other and other.feature) for one, other in pairs]


def test_common_ground_of_two_squares_is_their_overlap():
    # Squares of 4 m, the second moved by 1 m: 12 of 20 m2; the grid tells it to some hundredths.
    assert common_ground([ring(0, 0, 4, 4)], [ring(1, 0, 4, 4)]) == pytest.approx(0.6, abs=0.05)
    assert common_ground([ring(0, 0, 4, 4)], [ring(9, 0, 4, 4)]) == 0.0
    hole = [ring(0, 0, 4, 4), ring(1, 1, 2, 2)]
    assert common_ground(hole, hole) == 1.0
    assert common_ground(hole, hole[1:]) == 0.0


def test_distances_are_to_the_nearest_point_of_any_path():
    paths = (np.array([(0.0, 0.0), (10.0, 0.0)]), np.array([(0.0, 5.0)]))
    places = np.array([(3.0, 2.0), (12.0, 0.0), (0.5, 4.0)])
    assert distances(places, paths) == pytest.approx([2.0, 2.0, np.hypot(0.5, 1.0)])
    assert offsets(places, paths)[0].tolist() == [0.0, 2.0]


def test_parts_of_one_name_that_lie_elsewhere_are_still_one_if_nothing_lies_nearer():
    before, after = [area("Court", ring(0, 0, 5, 5))], [area("Court", ring(20, 0, 5, 5))]
    assert names(pair_things(before, after)) == [("Court", "Court")]
    there = [*after, area("Yard", ring(0.1, 0, 5, 5))]
    assert names(pair_things(before, there)) == [(None, "Court"), ("Court", "Yard")]


def test_kinds_are_never_mixed():
    pairs = pair_things([length("X", [(0, 0), (5, 0)])], [area("X", ring(0, 0, 5, 5))])
    assert names(pairs) == [(None, "X"), ("X", None)]


def test_the_nearest_of_several_is_taken_first():
    before = [spot("a", 0, 0), spot("b", 0.1, 0)]
    after = [spot("c", 0.09, 0), spot("d", -0.02, 0)]
    assert names(pair_things(before, after)) == [("b", "c"), ("a", "d")]


def test_a_name_that_comes_twice_is_matched_by_its_place():
    before = [spot("T", 0, 0), spot("T", 9, 0)]
    after = [spot("T", 9.01, 0), spot("T", 0.01, 0)]
    pairs = pair_things(before, after)
    assert [one.corners[0, 0] for one, _ in pairs] == [9.0, 0.0]


def test_stations_of_one_name_go_in_their_order_where_as_many_are_there():
    # A riser: foot and nosing at one place in plan, which only the order tells apart.
    xy, keys = [(0, 0), (0, 0), (1, 0), (1, 0)], [("Steps", "")] * 4
    one = stations(xy, [0.0, 0.15, 0.15, 0.30], keys)
    assert [rows.tolist() for rows in pair_stations(one, one, None)] == [[0, 1, 2, 3], [0, 1, 2, 3]]


def test_where_the_numbers_differ_a_riser_is_left_out_and_what_stands_alone_is_not():
    one = stations([(0, 0), (0, 0), (5, 0)], 0.0, [("Steps", "")] * 3)
    other = stations([(0, 0), (0, 0), (5, 0), (9, 0)], 0.0, [("Steps", "")] * 4)
    motion = _still(one)
    assert [rows.tolist() for rows in pair_stations(one, other, motion)] == [[2], [2]]


def _still(one):
    from plugin.core.register.motion import fit_motion

    return fit_motion(one.xy, one.xy, np.full(len(one), 1e-4))


def test_what_is_only_passed_and_what_is_on_the_way_is_nobodys_place():
    one = stations([(0, 0), (5, 0)], 0.0, [(), ("Kerb", "")])
    dense = stations([(0, 0), (5, 0)], 0.0, [(), ("Kerb", "")])
    object.__setattr__(dense, "is_dense", np.array([False, True]))
    assert [len(rows) for rows in pair_stations(one, one, None)] == [1, 1]
    assert [len(rows) for rows in pair_stations(one, dense, None)] == [0, 0]
