# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines wider than their areas: closed forms, sigmas against draws, what has no room."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import Point, Polygon
from shapely.ops import unary_union
from trade_lines import box, circle, drawn, mirrored, moved, straight

from plugin.core.errors import BadInput
from plugin.core.quantity import Quantity
from plugin.core.segments import chorded
from plugin.core.trade.bands import ring_curve
from plugin.core.trade.lines import draw_line
from plugin.core.trade.widen import widen_outline, widen_ring
from plugin.core.trade.worth import PointWorth, moves_of

EXACT = PointWorth(0.0, 0.0)


def halves(radius):
    """A circle of two half arcs."""
    points = np.array([[radius, 0], [0, radius], [-radius, 0], [0, -radius], [radius, 0]], float)
    return draw_line(np.column_stack([points, np.full(5, np.nan)]), np.array([0, 1, 0, 1, 0], bool))


def court():
    """The yard's paved court: a rectangle of 20 m by 10 m under an arc of radius 14.5 m."""
    points = [(2, 2), (22, 2), (22, 12), (12, 16), (2, 12), (2, 2)]
    mids = [False, False, False, True, False, False]
    return draw_line(np.array([[*p, 84.0] for p in points]), np.array(mids))


def ell():
    """Two metres wide each way: one corner turns the other way."""
    return straight((0, 0), (10, 0), (10, 2), (2, 2), (2, 8), (0, 8), (0, 0))


def inside(ring):
    return abs(float(ring.edges.areas.sum()))


@pytest.mark.parametrize("ring", [circle(5.0), halves(5.0), halves(5.0).reversed(), circle(5.0).reversed()])
def test_a_circle_of_radius_r_becomes_one_of_r_and_the_extra(ring):
    wider = widen_ring(ring, 0.5)
    assert wider.area == pytest.approx(math.pi * 5.5**2, rel=1e-13)
    assert inside(wider.line) == pytest.approx(wider.area, rel=1e-13)
    assert wider.growth == pytest.approx(2 * math.pi * 5.5, rel=1e-13)


@pytest.mark.parametrize("by", [1e-6, 1e-5, 1e-4, 3e-4])
def test_however_small_the_extra_it_has_room(by):
    assert widen_ring(halves(5.0), by).area == pytest.approx(math.pi * (5.0 + by) ** 2, rel=1e-12)
    assert widen_ring(bitten(), by).area > inside(bitten())


def test_a_rectangle_keeps_its_corners():
    wider = widen_ring(box(10, 4), 0.15)
    assert wider.area == pytest.approx(10.3 * 4.3, rel=1e-14)
    assert wider.growth == pytest.approx(2 * (10.3 + 4.3), rel=1e-14)


def test_a_corner_that_turns_the_other_way_is_filled():
    """An L of two rectangles, 10 x 2 and 2 x 6: with 0.5 m more 11 x 3 and 3 x 6."""
    assert widen_ring(ell(), 0.5).area == pytest.approx(11 * 3 + 3 * 6, rel=1e-14)


def test_the_court_of_the_yard_meets_its_arc_where_the_moved_edges_meet():
    """Its corner lies on x = 22.15 and on the circle of radius 14.65 about (12, 1.5): 264.395 less its opening of
    1.44 m2 is 262.955."""
    wider = widen_ring(court(), 0.15)
    high = 1.5 + math.sqrt(14.65**2 - 10.15**2)
    sweep = 2 * math.asin(10.15 / 14.65)
    area = 2 * 10.15 * (high - 1.85) + 14.65**2 * (sweep - math.sin(sweep)) / 2
    assert wider.area == pytest.approx(area, rel=1e-13)
    assert wider.area - 1.44 == pytest.approx(262.955, abs=5e-4)
    (radius,) = wider.line.edges.lengths[wider.line.edges.arc] / (2 * wider.line.half[wider.line.edges.arc])
    assert radius == pytest.approx(14.65, rel=1e-12)


@pytest.mark.parametrize("ring", [court(), ell(), box(10, 4), circle(5.0), halves(5.0), court().reversed()])
def test_what_the_points_move_is_what_differences_say(ring):
    wider = widen_ring(ring, 0.3)
    last = len(ring.points) - 1
    for k in range(last):
        for axis in (0, 1):
            step = np.zeros_like(ring.points)
            step[k, axis] = 1e-5
            if k == 0:
                step[last] = step[0]
            ends = [widen_ring(draw_line(ring.points + s * step, ring.is_mid), 0.3).area for s in (1, -1)]
            assert wider.moves[k, axis] == pytest.approx((ends[0] - ends[1]) / 2e-5, abs=2e-6)


def test_moved_far_turned_and_mirrored_it_is_as_large():
    near = widen_ring(court(), 0.15)
    far = widen_ring(moved(court(), (3e7, -1e7, 0.0), 2.0), 0.15)
    assert far.area == pytest.approx(near.area, rel=1e-8)
    for other in (mirrored(court()), court().reversed()):
        assert widen_ring(other, 0.15).area == pytest.approx(near.area, rel=1e-13)


def test_nothing_more_is_the_outline_itself():
    rings, area = widen_outline([court()], Quantity(255.0, 0.8, "m2"), 0.0, EXACT, 0.01)
    assert (rings[0].points, area) == (pytest.approx(court().points), Quantity(255.0, 0.8, "m2"))


def test_holes_stay_and_the_areas_own_value_is_kept():
    hole = moved(box(1.2, 1.2), (11.4, 6.4, 0.0)).reversed()
    told = Quantity(inside(court()) - 1.44 + 0.01, 0.0, "m2")
    rings, area = widen_outline([court(), hole], told, 0.15, EXACT)
    assert area.value == pytest.approx(262.955 + 0.01, abs=5e-4)
    assert rings[1].points == pytest.approx(hole.points, nan_ok=True)


def test_sigmas_are_those_of_draws_and_of_the_extra():
    worth, sigma, draw = PointWorth(0.0, 0.02), 0.02, np.random.default_rng(3)
    own = worth.sigma(moves_of(court(), court().edges.area_moves(np.ones(4))))
    _, area = widen_outline([court()], Quantity(inside(court()), own, "m2"), 0.4, worth)
    found = [widen_ring(drawn(court(), sigma, draw), 0.4).area for _ in range(3000)]
    assert area.sigma == pytest.approx(np.std(found), rel=0.05)
    assert area.sigma > own
    _, area = widen_outline([court()], Quantity(inside(court()), 0.0, "m2"), 0.4, EXACT, 0.01)
    assert area.sigma == pytest.approx(0.01 * widen_ring(court(), 0.4).growth)


def test_heights_run_on_in_their_plane():
    slope = box(10, 4, [84.0, 84.5, 84.3, 83.8])
    (wider,), _ = widen_outline([slope], Quantity(40.0, 0.0, "m2"), 1.0, EXACT)
    x, y, z = wider.points.T
    assert (x.min(), x.max(), y.max()) == pytest.approx((-1.0, 11.0, 5.0))
    assert z == pytest.approx(84.0 + 0.05 * x - 0.05 * y)


@pytest.mark.parametrize(
    ("ring", "by", "words"),
    [
        (
            straight((0, 0), (10, 0), (10, 5)), 0.1,
            "An outline that is to reach 0.1 m past its edge is closed, and that is 0 or more.",
        ),
        (box(4, 4), -0.1, "An outline that is to reach -0.1 m past its edge is closed, and that is 0 or more."),
        (
            straight((0, 0), (9, 0), (9, 5), (5, 5), (5, 1), (4, 1), (4, 5), (0, 5), (0, 0)), 0.6,
            ("An edge at 5.000, 1.000 has no room for 0.600 m past the outline. Give a smaller extra, or draw the outline "
            "simpler there."),
        ),
        (
            straight((0, 0), (9, 0), (9, 9), (0, 9), (0, 5), (4, 5), (4, 8), (8, 8), (8, 1), (4, 1), (4, 4), (0, 4), (0, 0)),
            0.6,
            "Moved out by 0.600 m the outline runs into itself. Give a smaller extra, or split the outline.",
        ),
    ],
)  # fmt: skip
def test_what_has_no_room_is_refused(ring, by, words):
    with pytest.raises(BadInput) as told:
        widen_ring(ring, by)
    assert str(told.value) == words


def bitten(radius=1.0):
    """A box of 6 m by 4 m with a half-round bite in its south side."""
    points = [(0, 0), (2, 0), (3, radius), (4, 0), (6, 0), (6, 4), (0, 4), (0, 0)]
    return draw_line(
        np.array([[*p, math.nan] for p in points]), np.array([0, 0, 1, 0, 0, 0, 0, 0], bool)
    )  # fmt: skip


@pytest.mark.parametrize("by", [0.51, 0.9, 1.0, 1.2])
def test_an_arc_that_no_longer_meets_the_straights_beside_it_is_refused(by):
    """A bite of 1 m in radius: moved by half of that or more its circle and the straights meet nowhere."""
    with pytest.raises(BadInput) as told:
        widen_ring(bitten(), by)
    assert str(told.value) == (
        f"An edge at 2.000, 0.000 has no room for {by:.3f} m past the outline. Give a smaller extra, or draw the outline "
        "simpler there."
    )


def test_a_bite_with_room_is_smaller_by_the_extra():
    """6.6 by 4.6 m less a segment of a circle of 0.7 m about (3, 0), cut off at y = -0.3 (closed form)."""
    cut = math.pi * 0.7**2 - (0.7**2 * math.acos(3 / 7) - 0.3 * math.sqrt(0.7**2 - 0.3**2))
    assert widen_ring(bitten(), 0.3).area == pytest.approx(6.6 * 4.6 - cut, rel=1e-12)


@pytest.mark.parametrize("ring", [
    straight((0, 0), (10, 0), (10, 1), (0, 0)), straight((0, 0), (10, 1), (10, 0), (0, 0)),
])  # fmt: skip
def test_a_corner_that_is_too_sharp_is_refused(ring):
    with pytest.raises(BadInput) as told:
        widen_ring(ring, 0.3)
    assert str(told.value) == (
        "The corner at 0.000, 0.000 is sharper than 11.5 degrees: moved out it would reach far past the outline. Cut the "
        "corner off."
    )
    blunter = straight((0, 0), (10, 0), (10, 2.1), (0, 0))
    wanted = Polygon(blunter.points[:, :2]).buffer(0.3, join_style=2, mitre_limit=100).area
    assert widen_ring(blunter, 0.3).area == pytest.approx(wanted, rel=1e-12)


def wild(draw):
    """A ring of straights and arcs round a middle, with bites and bows."""
    count = int(draw.integers(3, 9))
    turn = np.sort(draw.uniform(0.0, 2 * math.pi, count))
    corners = draw.uniform(2.0, 8.0, (count, 1)) * np.column_stack([np.cos(turn), np.sin(turn)])
    points, mids = [], []
    for a, b in zip(corners, np.roll(corners, -1, axis=0)):
        points, mids = [*points, a], [*mids, False]
        if draw.uniform() < 0.5:
            way = b - a
            points = [*points, 0.5 * (a + b) + draw.uniform(-0.6, 0.6) * np.array([way[1], -way[0]])]
            mids = [*mids, True]
    xy = np.array([*points, points[0]])
    return draw_line(np.column_stack([xy, np.full(len(xy), math.nan)]), np.array([*mids, False]))


def chords(ring, sag=1e-3):
    return Polygon(chorded(ring_curve(ring), sag)[:, :2])


def test_a_thousand_rings_are_those_of_a_library_or_refused():
    """Beside shapely's mitred buffer of fine chords. At a corner of an arc the moved circles run on and its straight chords do
    not, so that the two may differ there, no further out than the corner itself."""
    draw, held = np.random.default_rng(11), 0
    for _ in range(2100):
        ring, by = wild(draw), float(draw.uniform(0.05, 1.2))
        if not chords(ring).is_valid or inside(ring) < 1.0:
            continue
        try:
            wider = widen_ring(ring, by)
        except BadInput:
            continue
        held += 1
        drawn_wider, own = chords(wider.line), chords(ring)
        told = own.buffer(by, join_style=2, mitre_limit=1000)
        assert wider.area == pytest.approx(chords(wider.line, 1e-7).area, rel=1e-6)
        assert own.distance(drawn_wider.exterior) > by - 3e-3
        assert own.buffer(by).difference(drawn_wider).area < 1e-3 * wider.growth
        corners = ring.points[ring.vertices[:-1], :2]
        own_reach = np.hypot(*(wider.line.points[ring.vertices[:-1], :2] - corners).T)
        reach = np.maximum(own_reach, np.roll(by / np.cos(0.5 * ring.corners[2]), 1)) * 1.01
        discs = [Point(*p).buffer(r) for p, r in zip(corners, reach)]
        blunt = unary_union(discs) if ring.half.any() else Point()
        assert drawn_wider.symmetric_difference(told).difference(blunt).area < 1e-3 * wider.growth
    assert held > 500


def test_parts_that_grow_into_each_other_are_refused():
    """Two boxes 0.4 m apart, and one in the hole of another."""
    one, other = box(4, 4), moved(box(4, 4), (4.4, 0.0, 0.0))
    _, area = widen_outline([one, other], Quantity(32.0, 0.0, "m2"), 0.15, EXACT)
    assert area.value == pytest.approx(2 * 4.3**2)
    frame = [box(10, 10), moved(box(6, 6), (2, 2, 0)).reversed(), moved(box(5, 5), (2.5, 2.5, 0))]
    for rings in ([one, other], frame):
        with pytest.raises(BadInput) as told:
            widen_outline(rings, Quantity(32.0, 0.0, "m2"), 0.6, EXACT)
        assert str(told.value) == (
            "Moved out by 0.600 m two parts of the outline run into each other. Give a smaller extra, or join the parts."
        )
