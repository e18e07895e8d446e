# SPDX-License-Identifier: GPL-2.0-or-later
"""Levels where a drawn line crosses walked edges: closed forms, and what must not change them."""

from __future__ import annotations

import math
import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.measure.section_line import (
    PASS_WITHIN,
    HeightPoints,
    WalkedEdges,
    cut_section_line,
    ways_between,
)

EXACT = 1e-12
"""m: a closed form in metres of some tens, reckoned in doubles."""


def edges(*rows, sigma=0.01):
    """Edges from (x0, y0, z0, x1, y1, z1, bulge)."""
    table = np.array(rows, float).reshape(-1, 7)
    return WalkedEdges(
        table[:, :3], table[:, 3:6], table[:, 6], np.full((len(table), 2), sigma), np.arange(len(table))
    )


def points(*rows, sigma=0.01):
    table = np.array(rows, float).reshape(-1, 3)
    return HeightPoints(table, np.full(len(table), sigma), np.arange(100, 100 + len(table)))


def levels(section):
    return [(c.chainage, c.z) for c in section.crossings]


def test_a_straight_edge_gives_its_level_by_the_part_crossed():
    """From (0, 0, 10) to (8, 4, 14), crossed on x = 2: a quarter along, at y = 1, level 11."""
    section = cut_section_line(np.array([[2.0, -3.0], [2.0, 5.0]]), edges((0, 0, 10, 8, 4, 14, 0)))
    (crossing,) = section.crossings
    assert (crossing.chainage, crossing.x, crossing.y, crossing.z) == pytest.approx((4, 2, 1, 11), abs=EXACT)
    assert section.length == 8.0


def test_a_half_circle_gives_both_crossings_with_levels_even_along_the_arc():
    """From (5, 0) to (-5, 0) about the origin, to the left (over the top), climbing from 0 to 6 m. The line y = 3 meets it
    at (4, 3), asin 0.6 of the half turn along, and at (-4, 3)."""
    arc = edges((5, 0, 0, -5, 0, 6, 1.0))
    section = cut_section_line(np.array([[10.0, 3.0], [-10.0, 3.0]]), arc)
    part = math.asin(0.6) / math.pi
    assert levels(section) == [
        (pytest.approx(6, abs=EXACT), pytest.approx(6 * part, abs=EXACT)),
        (pytest.approx(14, abs=EXACT), pytest.approx(6 * (1 - part), abs=EXACT)),
    ]
    assert [c.x for c in section.crossings] == pytest.approx([4, -4], abs=EXACT)


def test_the_side_of_an_arc_that_is_not_there_is_not_crossed():
    quarter = edges((5, 0, 1, 0, 5, 2, math.tan(math.pi / 8)))
    assert levels(cut_section_line(np.array([[-10.0, -3.0], [10.0, -3.0]]), quarter)) == []
    (crossing,) = cut_section_line(np.array([[-10.0, 3.0], [10.0, 3.0]]), quarter).crossings
    assert crossing.x == pytest.approx(4, abs=EXACT)
    assert crossing.z == pytest.approx(1 + math.asin(0.6) / (math.pi / 2), abs=EXACT)


def test_an_arc_of_more_than_half_a_turn_is_crossed_on_its_own_side():
    """Three quarters of a circle of radius 5 to the left, from (5, 0) round to (0, -5), levels 0 to 3."""
    arc = edges((5, 0, 0, 0, -5, 3, math.tan(1.5 * math.pi / 4)))
    section = cut_section_line(np.array([[-9.0, 0.0], [9.0, 0.0]]), arc)
    assert levels(section) == [
        (pytest.approx(4, abs=EXACT), pytest.approx(2, abs=EXACT)),
        (pytest.approx(14, abs=EXACT), pytest.approx(0, abs=EXACT)),
    ]


def test_a_touch_is_told_once():
    arc = edges((5, 0, 0, -5, 0, 6, 1.0))
    (crossing,) = cut_section_line(np.array([[-10.0, 5.0], [10.0, 5.0]]), arc).crossings
    assert (crossing.chainage, crossing.z) == pytest.approx((10, 3), abs=1e-6)


def test_a_line_past_the_circle_meets_nothing():
    arc = edges((5, 0, 0, -5, 0, 6, 1.0))
    assert cut_section_line(np.array([[-10.0, 5.001], [10.0, 5.001]]), arc).crossings == ()


@pytest.mark.parametrize("bulge", [1e-3, 1e-6, 1e-9, 1e-11, 1e-14, 0.0, -1e-9])
def test_flat_arcs_are_met_as_exactly_as_straights(bulge):
    """A chord of 10 m: the arc lies off it by the rise, 10 b / 2, at its middle."""
    section = cut_section_line(np.array([[5.0, -50.0], [5.0, 50.0]]), edges((0, 0, 0, 10, 0, 2, bulge)))
    (crossing,) = section.crossings
    assert (crossing.y, crossing.z) == pytest.approx((-5 * bulge, 1), abs=EXACT)


def test_a_full_circle_of_two_halves_is_crossed_twice():
    ring = edges((5, 0, 0, -5, 0, 4, 1.0), (-5, 0, 4, 5, 0, 8, 1.0))
    section = cut_section_line(np.array([[0.0, -9.0], [0.0, 9.0]]), ring)
    assert levels(section) == [
        (pytest.approx(4, abs=EXACT), pytest.approx(6, abs=EXACT)),
        (pytest.approx(14, abs=EXACT), pytest.approx(2, abs=EXACT)),
    ]


def test_chainage_runs_on_round_the_corners_of_the_line():
    kerb = edges((0, 0, 1, 4, 0, 1, 0), (10, 3, 2, 10, 9, 2, 0))
    section = cut_section_line(np.array([[2.0, -3.0], [2.0, 4.0], [12.0, 4.0]]), kerb)
    assert levels(section) == [(3.0, 1.0), (15.0, 2.0)]
    assert section.length == 17.0


def test_the_corner_of_two_edges_is_one_level_and_the_station_there_names_it():
    corner = edges((0, 0, 1, 4, 0, 2, 0), (4, 0, 2, 4, 5, 3, 0))
    line = np.array([[4.0, -3.0], [4.0, -0.0], [8.0, 4.0]])
    section = cut_section_line(line, corner, points((4, 0, 2)))
    assert [(c.chainage, c.z, c.name, c.is_point) for c in section.crossings] == [(3.0, 2.0, 100, True)]


def test_an_upright_face_keeps_both_levels_and_has_no_gradient():
    face = edges((0, 0, 1, 4, 0, 1, 0), (0, 0, 1.5, 4, 0, 1.5, 0))
    section = cut_section_line(np.array([[2.0, -3.0], [2.0, 3.0]]), face)
    assert levels(section) == [(3.0, 1.0), (3.0, 1.5)]
    (way,) = section.ways
    assert (way.run, way.rise, way.gradient, way.gradient_sigma) == (0.0, 0.5, None, None)


def test_a_line_along_an_edge_meets_it_where_they_begin_and_end_to_run_together():
    edge = edges((0, 0, 1, 10, 0, 2, 0))
    section = cut_section_line(np.array([[4.0, 0.0], [20.0, 0.0]]), edge)
    assert levels(section) == [(0.0, pytest.approx(1.4, abs=EXACT)), (6.0, pytest.approx(2, abs=EXACT))]


def test_stations_are_passed_within_five_centimetres():
    near = points((1, PASS_WITHIN - 1e-9, 7), (2, PASS_WITHIN + 1e-6, 8), (-1, 0, 9), (3, -0.02, 6))
    section = cut_section_line(np.array([[0.0, 0.0], [5.0, 0.0]]), edges(), near)
    assert [(c.chainage, c.z, c.y) for c in section.crossings] == [
        (1.0, 7.0, PASS_WITHIN - 1e-9),
        (3.0, 6.0, -0.02),
    ]


def test_the_sigma_of_a_level_goes_from_one_stations_to_the_others():
    table = edges((0, 0, 10, 8, 0, 14, 0))
    table = WalkedEdges(table.start, table.end, table.bulge, np.array([[0.01, 0.03]]), table.name)
    (crossing,) = cut_section_line(np.array([[2.0, -1.0], [2.0, 1.0]]), table).crossings
    assert crossing.sigma == pytest.approx(0.015, abs=EXACT)
    assert crossing.half_width_95 == pytest.approx(1.959964 * 0.015, abs=1e-7)


def test_rise_run_and_gradient_between_crossings_with_their_sigmas():
    """1 in 40 over 8 m; the sigmas 3 and 4 cm of the levels make 5 cm of the rise."""
    low, high = edges((0, 0, 10, 0, 4, 10, 0), sigma=0.03), edges((8, 0, 10.2, 8, 4, 10.2, 0), sigma=0.04)
    both = WalkedEdges(
        *(
            np.concatenate([getattr(t, n) for t in (low, high)])
            for n in ("start", "end", "bulge", "sigma", "name")
        )
    )
    section = cut_section_line(np.array([[-1.0, 2.0], [9.0, 2.0]]), both)
    (way,) = section.ways
    assert (way.run, way.rise, way.rise_sigma) == pytest.approx((8, 0.2, 0.05), abs=EXACT)
    assert (way.gradient, way.gradient_sigma) == pytest.approx((1 / 40, 0.05 / 8), abs=EXACT)
    assert ways_between(section.crossings) == section.ways


MIXED = (
    (0, 0, 10, 10, 1, 11, 0),
    (2, 3, 10, 9, 4, 12, 0.7),
    (1, 6, 9, 12, 5, 8, -0.4),
    (0, 9, 9, 11, 9, 9.5, 1e-7),
    (3, 12, 5, 9, 12, 6, 2.2),
)
LINE = np.array([[5.0, -4.0], [6.0, 7.5], [6.5, 18.0]])


def moved(table, turn=0.0, shift=(0.0, 0.0), mirror=False, back=False):
    """The edges, and the line, turned, shifted, mirrored, or with each edge walked the other way."""
    c, s = math.cos(turn), math.sin(turn)

    def move(xy):
        xy = xy * (-1.0, 1.0) if mirror else xy
        return xy @ np.array([[c, s], [-s, c]]) + shift

    start = np.column_stack([move(table.start[:, :2]), table.start[:, 2]])
    end = np.column_stack([move(table.end[:, :2]), table.end[:, 2]])
    bulge = -table.bulge if mirror else table.bulge
    if back:
        start, end, bulge = end, start, -bulge
    return WalkedEdges(start, end, bulge, table.sigma, table.name), move(LINE)


@pytest.mark.parametrize(
    ("motion", "within"),
    [
        ({"turn": 0.7}, 1e-12),
        ({"turn": -2.9}, 1e-12),
        (
            {"shift": (1e7, -1e7)},
            1e-7,
        ),  # a double near 1e7 m is good to 2e-9, and a flat angle of crossing widens it
        ({"turn": 1.1, "shift": (5e5, 5.7e6)}, 1e-7),
        ({"mirror": True}, 1e-12),
        ({"back": True}, 1e-12),
    ],
)
def test_levels_are_the_same_turned_moved_mirrored_and_walked_back(motion, within):
    table = edges(*MIXED)
    wanted = levels(cut_section_line(LINE, table))
    assert len(wanted) == 5
    found = levels(cut_section_line(moved(table, **motion)[1], moved(table, **motion)[0]))
    assert np.array(found) == pytest.approx(np.array(wanted), abs=within)


def test_drawn_the_other_way_chainages_run_back_and_rises_change_their_sign():
    there, back = cut_section_line(LINE, edges(*MIXED)), cut_section_line(LINE[::-1], edges(*MIXED))
    assert [there.length - c.chainage for c in reversed(back.crossings)] == pytest.approx(
        [c.chainage for c in there.crossings], abs=1e-11
    )
    assert [-w.rise for w in reversed(back.ways)] == pytest.approx([w.rise for w in there.ways], abs=1e-11)


@settings(max_examples=200, deadline=None)
@given(
    st.floats(-20, 20), st.floats(-20, 20), st.floats(-20, 20), st.floats(-20, 20), st.floats(-3, 3),
)  # fmt: skip
def test_every_crossing_lies_on_the_circle_and_on_the_line(ax, ay, bx, by, bulge):
    """Held against the circle by its centre, which the method does not use."""
    if math.hypot(ax - bx, ay - by) < 0.1 or abs(bulge) < 0.05:
        return
    line = np.array([[-30.0, -7.0], [30.0, 11.0]])
    section = cut_section_line(line, edges((ax, ay, 0, bx, by, 1, bulge)))
    chord = np.array([bx - ax, by - ay])
    size, sweep = math.hypot(*chord), 4 * math.atan(bulge)
    radius = size / (2 * abs(math.sin(sweep / 2)))
    left = np.array([-chord[1], chord[0]])
    centre = np.array([ax + bx, ay + by]) / 2 + left / (2 * math.tan(sweep / 2))
    for c in section.crossings:
        assert math.hypot(c.x - centre[0], c.y - centre[1]) == pytest.approx(radius, abs=1e-6)
        # The part along the arc is the angle at the centre.
        begun = math.atan2(ay - centre[1], ax - centre[0])
        here = math.atan2(c.y - centre[1], c.x - centre[0])
        turned = math.copysign(1, sweep) * (here - begun) % (2 * math.pi)
        turned = 0.0 if turned > 2 * math.pi - 1e-4 else turned
        assert c.z == pytest.approx(turned / abs(sweep), abs=1e-4)


def test_a_line_of_no_length_and_nothing_to_cross_are_empty_sections():
    for line in ([], [[1.0, 2.0]], [[1.0, 2.0], [1.0, 2.0]], [[np.nan, 0.0], [1.0, 1.0]]):
        section = cut_section_line(np.array(line, float).reshape(-1, 2), edges(*MIXED))
        assert (section.crossings, section.ways, section.length) == ((), (), 0.0)
    assert cut_section_line(LINE, edges()).crossings == ()


@pytest.mark.parametrize("bad", [np.nan, np.inf])
def test_edges_without_a_height_or_place_are_not_crossed(bad):
    assert (
        cut_section_line(np.array([[2.0, -3.0], [2.0, 5.0]]), edges((0, 0, bad, 8, 4, 14, 0))).crossings == ()
    )
    assert (
        cut_section_line(np.array([[2.0, -3.0], [2.0, 5.0]]), edges((0, 0, 1, 8, 4, 14, bad))).crossings == ()
    )
    assert cut_section_line(np.array([[0.0, 0], [5.0, 0]]), edges(), points((1, 0, bad))).crossings == ()


def test_an_edge_of_no_length_gives_nothing():
    assert (
        cut_section_line(np.array([[2.0, -3.0], [2.0, 5.0]]), edges((1, 1, 1, 1, 1, 2, 0.5))).crossings == ()
    )


def test_a_million_edges_are_cut_in_seconds():
    x = np.arange(1_000_000) * 0.01
    start = np.column_stack([x, np.full(len(x), -1.0), x])
    end = np.column_stack([x, np.full(len(x), 1.0), x])
    bulge = np.where(np.arange(len(x)) % 2, 0.3, 0.0)
    many = WalkedEdges(start, end, bulge, np.full((len(x), 2), 0.01), np.zeros(len(x), int))
    begun = time.perf_counter()
    section = cut_section_line(np.array([[-1.0, 0.0], [5.0, 0.0]]), many)
    # The arcs bulge to the right of their way (east) by 0.3 m at their middles, so those of x to 4.7 are met.
    assert len(section.crossings) == 251 + 235
    assert time.perf_counter() - begun < 10.0
