# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines as ground: areas by the cross product, places by the crossing number, arcs by their own formula."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.errors import BadInput
from plugin.core.ground.outline import chorded_ring, fill_outline
from plugin.core.segments import Curve, part_of_ring, ring_area
from tests.core.ground.grounds import square


def star(count, seed, turn=0.0):
    draw = np.random.default_rng(seed)
    angle = np.sort(draw.uniform(0, 2 * np.pi, count)) + turn
    return draw.uniform(2, 9, count)[:, None] * np.column_stack([np.cos(angle), np.sin(angle)])


def crossed(ring):
    x, y = (ring - ring[0]).T
    return 0.5 * (x @ np.roll(y, -1) - y @ np.roll(x, -1))


def triangles_area(corners):
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    return 0.5 * (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])


@pytest.mark.parametrize("seed", range(30))
def test_a_star_is_filled_once(seed):
    ring = star(60, seed)
    filled = fill_outline([ring])
    assert filled.area == pytest.approx(abs(crossed(ring)), rel=1e-13)
    assert triangles_area(filled.corners).min() > 0
    assert triangles_area(filled.corners).sum() == pytest.approx(filled.area, rel=1e-13)


@pytest.mark.parametrize("seed", range(10))
def test_places_within_are_those_of_the_crossing_number(seed):
    ring = star(40, seed)
    places = np.random.default_rng(seed + 100).uniform(-10, 10, (3000, 2))
    closed = np.vstack([ring, ring[:1]])
    assert (fill_outline([ring]).encloses(places) == part_of_ring(closed, places)).all()


def test_a_void_and_an_island_in_it():
    filled = fill_outline([square(0, 10), square(2, 8)[::-1], square(4, 6), square(20, 21)])
    assert filled.area == pytest.approx(100 - 36 + 4 + 1, abs=1e-12)
    inside = filled.encloses(np.array([[1, 1], [3, 3], [5, 5], [20.5, 20.5], [15, 5], [5, -1]], float))
    assert inside.tolist() == [True, False, True, True, False, False]


def test_neighbours_that_share_an_edge_are_both_counted():
    right = square(0, 10) + [10, 0]
    assert fill_outline([square(0, 10), right]).area == pytest.approx(200, abs=1e-12)


@pytest.mark.parametrize("sag", [0.002, 0.1])
@pytest.mark.parametrize("bulge", [1.0, -0.3, 0.01, 2.5, 1e-7])
def test_chords_enclose_what_their_arcs_do(bulge, sag):
    points = np.array([[0, 0, 0], [8, 1, 0], [7, 9, 0], [1, 7, 0], [0, 0, 0]], float)
    curve = Curve(points, np.array([bulge, 0.0, 0.2, 0.0]))
    ring = chorded_ring(curve, sag)
    assert crossed(ring[:-1]) == pytest.approx(ring_area(curve), rel=1e-12)
    assert any((ring == points[2, :2]).all(axis=1))


def test_a_circle_of_two_arcs_has_the_circles_area_within_its_sag():
    curve = Curve(np.array([[-5, 0, 0], [5, 0, 0], [-5, 0, 0]], float), np.array([1.0, 1.0]))
    ring = chorded_ring(curve)
    assert crossed(ring[:-1]) == pytest.approx(25 * np.pi, rel=1e-13)
    assert np.abs(np.hypot(*ring.T) - 5).max() < 0.002


@pytest.mark.parametrize(
    "rings", [[], [np.empty((0, 2))], [np.array([[0, 0], [1, 0]], float)], [np.zeros((4, 2))]]
)
def test_what_encloses_nothing_is_refused(rings):
    with pytest.raises(BadInput) as told:
        fill_outline(rings)
    assert str(told.value) == "An outline encloses no ground. Draw it round what is to be measured."


def test_a_needle_without_area_is_refused():
    with pytest.raises(BadInput, match="encloses no ground"):
        fill_outline([np.array([[0, 0], [3, 3], [6, 6.0]])])


def test_an_outline_that_crosses_itself_is_refused_with_its_place():
    with pytest.raises(BadInput) as told:
        fill_outline([np.array([[0, 0], [10, 10], [10, 0], [0, 10]], float)])
    assert str(told.value) == (
        "An outline crosses itself or another of its rings near 5.000, 5.000 from the middle of the surface, metres. "
        "Draw it again."
    )


@pytest.mark.parametrize("bad", [np.nan, np.inf])
def test_a_corner_that_is_no_place_is_refused(bad):
    ring = square(0, 1)
    ring[2, 0] = bad
    with pytest.raises(BadInput) as told:
        fill_outline([ring])
    assert str(told.value) == "An outline has a corner without a place. Draw it again."


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.tuples(st.integers(-6, 6), st.integers(-6, 6)), min_size=3, max_size=9),
    st.floats(-3.2, 3.2),
)
def test_any_ring_is_filled_or_refused_and_turning_it_changes_nothing(corners, turn):
    ring = np.array(corners, float)
    cos, sin = np.cos(turn), np.sin(turn)
    turned = ring @ np.array([[cos, sin], [-sin, cos]])

    def area(of):
        try:
            return fill_outline([of]).area
        except BadInput:
            return None

    here, there = area(ring), area(turned)
    if here is not None and there is not None:
        assert there == pytest.approx(here, abs=1e-5)
        assert here <= 144.0 + 1e-9


def test_a_comb_that_would_fill_the_memory_is_refused():
    count = 1500
    y = np.where(np.arange(2 * count) % 2, 100.0, 1.0) + np.random.default_rng(1).uniform(0, 0.9, 2 * count)
    comb = np.vstack([np.column_stack([np.arange(2.0 * count), y]), [[2.0 * count, 0], [-1, 0]]])
    with pytest.raises(BadInput) as told:
        fill_outline([comb])
    assert str(told.value) == (
        "An outline of 3002 corners has too many edges side by side to be filled. Draw it simpler, or split it."
    )
    fewer = np.vstack([comb[:-2:9], comb[-2:]])
    assert fill_outline([fewer]).area == pytest.approx(abs(crossed(fewer)), rel=1e-12)
