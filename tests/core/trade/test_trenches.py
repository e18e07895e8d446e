# SPDX-License-Identifier: GPL-2.0-or-later
"""Trenches and swales against closed forms and quadrature, their sigmas against draws, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from trade_lines import arc, box, circle, drawn, mirrored, moved, straight

from plugin.core.errors import BadInput
from plugin.core.ground.locate import locate
from plugin.core.ground.section import SectionCutter
from plugin.core.trade.along import Along, between, even
from plugin.core.trade.cross_sections import Cross
from plugin.core.trade.lines import draw_line
from plugin.core.trade.trenches import TrenchSpec, measure_trench
from plugin.core.trade.walls import Lies
from plugin.core.trade.worth import JointWorth
from tests.core.ground.grounds import drawn_surface, grid_surface
from tests.core.ground.grounds import moved as surface_moved

MIXED = draw_line(
    np.array([[0, 0, 10], [4, 0, 10.2], [6, 1, 10], [7, 3, 10.1], [7, 8, 10.4], [3, 9, 10.3]], float),
    np.array([0, 0, 1, 0, 0, 0], bool),
)
FIGURES = ("volume", "path", "plan", "face", "section", "mean", "deepest", "shallowest")


def spec(cross=Cross.RECTANGULAR, width=0.6, depth=1.0, **more):
    return TrenchSpec(cross, even(width, 0.0), None if depth is None else even(depth, 0.0), **more)


def values(trench):
    return np.array([getattr(trench, name).value for name in FIGURES])


def sigmas(trench):
    return np.array([getattr(trench, name).sigma for name in FIGURES])


def test_the_swale_of_the_yard_is_a_v_along_a_sine():
    x = np.linspace(24.0, 40.0, 20_001)
    line = draw_line(
        np.column_stack([x, 10 + 1.2 * np.sin(2 * np.pi * (x - 24) / 8), np.full(len(x), np.nan)])
    )
    told = measure_trench(line, spec(Cross.V, 1.8, 0.3), 0.0)
    pace = 2 * math.pi / 8
    at = np.hypot(1.0, 1.2 * pace * np.cos(pace * np.linspace(0.0, 16.0, 16_001)))
    length = 16.0 / 16_000 / 3 * float(at[0] + at[-1] + 4 * at[1:-1:2].sum() + 2 * at[2:-1:2].sum())
    assert length == pytest.approx(19.111, abs=5e-4)
    assert told.path.value == pytest.approx(length, abs=1e-6)
    assert told.plan.value == pytest.approx(34.400, abs=5e-4)
    assert told.volume.value == pytest.approx(5.160, abs=5e-4)
    assert told.face.value == pytest.approx(36.261, abs=5e-4)
    assert told.section.value == pytest.approx(0.27)


def test_a_straight_trench_and_how_it_is_told():
    told = measure_trench(straight((0, 0), (20, 0)), spec(), 0.0)
    assert values(told) == pytest.approx([12.0, 20.0, 12.0, 52.0, 0.6, 1.0, 1.0, 1.0])
    assert told.widest == 0.6
    assert told.method == (
        "rectangular, 0.6 m wide at the foot, 1 m deep, section along the path of its centroid"
    )


@pytest.mark.parametrize(("lies", "radius"), [(Lies.ABOUT, 6.0), (Lies.LEFT, 5.5), (Lies.RIGHT, 6.5)])
def test_a_trench_round_a_bend_goes_along_the_path_of_its_centroid(lies, radius):
    told = measure_trench(arc(6.0, 1.3), spec(width=1.0, depth=0.5, lies=lies), 0.0)
    assert values(told)[:4] == pytest.approx(np.array([0.5, 1.0, 1.0, 2.0]) * radius * 1.3, rel=1e-13)


@pytest.mark.parametrize(("lies", "out"), [(Lies.ABOUT, 0.0), (Lies.LEFT, -0.4), (Lies.RIGHT, 0.4)])
def test_a_trench_round_a_box_is_mitred(lies, out):
    told = measure_trench(box(10, 6), spec(width=0.8, depth=0.5, lies=lies), 0.0)
    assert told.volume.value == pytest.approx(0.4 * 2 * (10 + 6 + 4 * out))
    # The strip between two rectangles: what is dug is what lies between them.
    a, b = out - 0.4, out + 0.4
    assert told.plan.value == pytest.approx((10 + 2 * b) * (6 + 2 * b) - (10 + 2 * a) * (6 + 2 * a))


def test_a_ring_is_a_torus():
    told = measure_trench(circle(5.0), spec(Cross.ROUND, 1.0, 0.5), 0.0)
    assert told.volume.value == pytest.approx(math.pi / 8 * 2 * math.pi * 5)
    assert told.face.value == pytest.approx(math.pi / 2 * 2 * math.pi * 5)


def test_depth_that_runs_from_station_to_station_is_a_prismoid_per_leg():
    """Trapezoids 0.6 m at the foot and 1 in 0.5: areas at the ends and the middle by Simpson's rule, leg by leg."""
    line = straight((0, 0), (6, 8), (6, 20))
    depths = between([0, 4, 22], [0.8, 1.4, 1.0], 0.0)
    told = measure_trench(line, replace(spec(Cross.TRAPEZOID, 0.6, batter=0.5), depth=depths), 0.0)

    def section(d):
        return (0.6 + 0.5 * d) * d

    parts = [(4, 0.8, 1.4), (18, 1.4, 1.0)]
    volume = sum(n / 6 * (section(a) + 4 * section((a + b) / 2) + section(b)) for n, a, b in parts)
    assert told.volume.value == pytest.approx(volume, rel=1e-13)
    assert told.mean.value == pytest.approx((4 * 1.1 + 18 * 1.2) / 22)
    assert (told.deepest.value, told.shallowest.value) == (1.4, 0.8)
    assert told.widest == pytest.approx(0.6 + 1.4)
    assert "0.800 to 1.400 m deep" in told.method


def test_sizes_are_even_before_the_first_place_and_after_the_last():
    depths = between([5, 15], [1.0, 2.0], 0.0)
    told = measure_trench(straight((0, 0), (20, 0)), replace(spec(width=1.0), depth=depths), 0.0)
    assert told.volume.value == pytest.approx(5 * 1 + 10 * 1.5 + 5 * 2)


def test_a_step_in_depth_is_a_step():
    depths = between([8, 8], [1.0, 2.0], 0.0)
    told = measure_trench(straight((0, 0), (20, 0)), replace(spec(width=1.0), depth=depths), 0.0)
    assert told.volume.value == pytest.approx(8 * 1 + 12 * 2)


def test_a_round_bottom_of_changing_depth_is_its_integral():
    depths = between([0, 10], [0.1, 0.4], 0.0)
    told = measure_trench(straight((0, 0), (10, 0)), replace(spec(Cross.ROUND, 1.0), depth=depths), 0.0)
    d = 0.1 + 0.3 * (np.arange(20_000) + 0.5) / 20_000
    half = 2 * np.arctan2(2 * d, 1.0)
    areas = (2 * half - np.sin(2 * half)) / np.sin(half) ** 2 / 8
    assert told.volume.value == pytest.approx(10 * areas.mean(), rel=1e-8)


def test_a_wedge_beside_a_bend_that_deepens_is_a_prismoid_too():
    """Left of an arc of radius 6, upright sides: integral of w d (1 - c / R) R da with c = w / 2."""
    line = arc(6.0, 1.5)
    depths = between([0, 9], [0.5, 1.1], 0.0)
    told = measure_trench(line, replace(spec(width=1.0, lies=Lies.LEFT), depth=depths), 0.0)
    assert told.volume.value == pytest.approx(0.8 * 9 * 5.5 / 6, rel=1e-13)


PIPE = {"depth": None, "invert": between([0, 20], [8.0, 7.0], 0.0)}


def test_a_pipe_under_the_lines_own_heights():
    line = straight((0, 0, 10.0), (10, 0, 9.0), (20, 0, 10.0))
    told = measure_trench(line, spec(width=0.6, bedding=0.1, **PIPE), 0.0)
    # Depths: 2.1, 1.6, 3.1.
    assert told.volume.value == pytest.approx(0.6 * (10 * 1.85 + 10 * 2.35))
    assert (told.shallowest.value, told.deepest.value) == pytest.approx((1.6, 3.1))
    assert told.mean.value == pytest.approx(2.1)
    assert told.method == (
        "rectangular, 0.6 m wide at the foot, from the line's heights down to the invert of 7.000 to 8.000 m and 0.1 m "
        "below it, section along the path of its centroid"
    )


def test_a_pipe_under_a_surface_breaks_at_every_triangle():
    surface = drawn_surface(80, 3)
    line = straight((1, 2), (12, 7), (18, 19))
    invert = between([0, 30], [-4.0, -4.5], 0.0)
    own = TrenchSpec(Cross.TRAPEZOID, even(0.6, 0.0), None, invert, SectionCutter(surface), 0.1, 0.25)
    told = measure_trench(line, own, 0.0)
    at = (np.arange(200_000) + 0.5) / 200_000 * told.path.value
    way = np.array([0.0, math.hypot(11, 5), told.path.value])
    xy = np.column_stack([np.interp(at, way, [1, 12, 18]), np.interp(at, way, [2, 7, 19])])
    triangle, weight = locate(surface.points, surface.triangles, xy)
    level = (surface.points[surface.triangles[triangle], 2] * weight).sum(axis=1)
    d = level - np.interp(at, [0, 30], [-4.0, -4.5]) + 0.1
    assert told.volume.value == pytest.approx(told.path.value * ((0.6 + 0.25 * d) * d).mean(), rel=1e-8)
    assert told.mean.value == pytest.approx(d.mean(), rel=1e-8)
    assert told.deepest.value == pytest.approx(d.max(), abs=1e-3)


def test_a_plane_under_an_arc_gives_the_integral_over_the_arc():
    surface = grid_surface(lambda x, y: 10 + 0.1 * x, 20.0, 7)
    line = arc(6.0, math.pi, centre=(10.0, 8.0))
    own = TrenchSpec(Cross.RECTANGULAR, even(0.6, 0.0), None, even(8.0, 0.0), SectionCutter(surface))
    told = measure_trench(line, own, 0.0)
    # x runs from 16 to 4 evenly about 10: the mean depth is 3.
    assert told.volume.value == pytest.approx(0.6 * 3.0 * 6 * math.pi, rel=1e-6)
    assert (told.shallowest.value, told.deepest.value) == pytest.approx((2.4, 3.6), abs=1e-5)


def every():
    """A spec with all that varies, along MIXED."""
    return TrenchSpec(
        Cross.TRAPEZOID, between([1, 9], [0.6, 0.8], 0.004), between([0, 5, 15], [0.8, 1.3, 1.1], 0.006), batter=0.4,
        lies=Lies.LEFT,
    )  # fmt: skip


def test_moved_far_turned_reversed_and_mirrored_it_is_the_same():
    near = measure_trench(MIXED, every(), 0.01)
    far = measure_trench(moved(MIXED, (3e7, -1e7, 0.0), 2.0), every(), 0.01)
    assert values(far) == pytest.approx(values(near), abs=2e-7)
    assert sigmas(far) == pytest.approx(sigmas(near), rel=1e-6)
    mirror = measure_trench(mirrored(MIXED), replace(every(), lies=Lies.RIGHT), 0.01)
    assert values(mirror) == pytest.approx(values(near), rel=1e-12)
    assert sigmas(mirror) == pytest.approx(sigmas(near), rel=1e-9)
    whole = float(MIXED.edges.lengths.sum())
    back = replace(
        every(),
        lies=Lies.RIGHT,
        width=between(whole - every().width.chainage, every().width.value, 0.004),
        depth=between(whole - every().depth.chainage, every().depth.value, 0.006),
    )
    turned = measure_trench(MIXED.reversed(), back, 0.01)
    assert values(turned) == pytest.approx(values(near), rel=1e-12)
    assert sigmas(turned) == pytest.approx(sigmas(near), rel=1e-9)


def noisy(size, draw):
    return Along(size.chainage, size.value + draw.normal(0.0, 1.0, len(size.value)) * size.sigma, size.sigma)


@pytest.mark.parametrize("lies", list(Lies))
@pytest.mark.parametrize("cross", [Cross.TRAPEZOID, Cross.V, Cross.ROUND])
def test_sigmas_of_points_and_sizes_are_those_of_draws(lies, cross):
    own = replace(every(), lies=lies, cross=cross, width=between([1, 9], [2.9, 3.1], 0.01))
    draw = np.random.default_rng(7)
    line = straight((0, 0), (9, 0), (14, 7), (22, 9))
    told = measure_trench(line, own, 0.008)
    found = [
        values(
            measure_trench(
                drawn(line, 0.008, draw),
                replace(own, width=noisy(own.width, draw), depth=noisy(own.depth, draw)),
                0.0,
            )
        )
        for _ in range(1500)
    ]
    assert sigmas(told) == pytest.approx(np.std(found, axis=0), rel=0.08)


def test_sigmas_of_a_bend_are_those_of_draws():
    own, draw = every(), np.random.default_rng(8)
    told = measure_trench(MIXED, own, 0.005)
    found = [values(measure_trench(drawn(MIXED, 0.005, draw), replace(own, depth=noisy(own.depth, draw)), 0.0))
             for _ in range(1500)]  # fmt: skip
    fixed = measure_trench(MIXED, replace(own, width=replace(own.width, sigma=np.zeros(2))), 0.005)
    assert sigmas(fixed)[:6] == pytest.approx(np.std(found, axis=0)[:6], rel=0.08)
    assert (sigmas(told) >= sigmas(fixed)).all()


def test_sigmas_of_a_pipe_under_its_own_heights_are_those_of_draws():
    line = straight((0, 0, 10.0), (10, 0, 9.0), (20, 0, 10.5))
    own = spec(width=0.6, depth=None, invert=between([0, 20], [8.0, 7.0], 0.01), batter=0.0)
    draw = np.random.default_rng(9)
    told = measure_trench(line, own, 0.02)
    found = [
        values(measure_trench(drawn(line, 0.02, draw), replace(own, invert=noisy(own.invert, draw)), 0.0))
        for _ in range(2000)
    ]
    assert sigmas(told) == pytest.approx(np.std(found, axis=0), rel=0.08)


def test_the_bedding_errs_all_along():
    line = straight((0, 0, 10.0), (20, 0, 10.0))
    own = spec(width=0.5, bedding=0.1, size_sigma=0.02, **PIPE)
    assert measure_trench(line, own, 0.0).volume.sigma == pytest.approx(20 * 0.5 * 0.02)


def test_sigmas_from_a_surface_are_those_of_its_points_and_of_the_ground_between():
    surface = replace(drawn_surface(40, 4), sigma=np.full(44, 0.03), rough=0.05, reach=1.5)
    shared = 0.02 * np.random.default_rng(1).normal(size=(44, 2))
    surface = replace(surface, shared=shared)
    line, draw = straight((2, 3), (17, 15)), np.random.default_rng(2)
    own = TrenchSpec(Cross.RECTANGULAR, even(0.6, 0.0), None, even(-5.0, 0.0), SectionCutter(surface))
    told = measure_trench(line, own, 0.0)
    found = []
    for _ in range(1200):
        z = surface.points[:, 2] + draw.normal(0.0, 0.03, 44) + shared @ draw.normal(size=2)
        lifted = replace(surface, points=np.column_stack([surface.points[:, :2], z]), rough=0.0)
        found.append(measure_trench(line, replace(own, surface=SectionCutter(lifted)), 0.0).volume.value)
    smooth = measure_trench(line, replace(own, surface=SectionCutter(replace(surface, rough=0.0))), 0.0)
    assert smooth.volume.sigma == pytest.approx(np.std(found), rel=0.08)
    # Of rough ground the double integral of b(s) b(t) exp(-|s - t| / reach) along the way, by fine sums.
    section = SectionCutter(surface).cut(line.points[:, :2])
    at = (np.arange(3000) + 0.5) / 3000 * section.length
    row = np.searchsorted(section.chainage, at) - 1
    b = section.told_between(
        row, (at - section.chainage[row]) / np.diff(section.chainage)[row]
    ).between_points
    step = section.length / 3000
    wanted = (0.6 * 0.05 * step) ** 2 * (b @ np.exp(-np.abs(at[:, None] - at) / 1.5) @ b)
    assert told.volume.sigma**2 - smooth.volume.sigma**2 == pytest.approx(wanted, rel=0.1)


def test_a_surface_moved_with_its_line_by_ten_thousand_kilometres_gives_the_same():
    surface, line = drawn_surface(60, 5), straight((2, 3), (17, 15))
    own = TrenchSpec(Cross.RECTANGULAR, even(0.6, 0.0), None, even(-5.0, 0.0), SectionCutter(surface))
    near = measure_trench(line, own, 0.0)
    far = SectionCutter(surface_moved(surface, 1.1, (1e7, 1e7, 0.0)))
    away = measure_trench(moved(line, (1e7, 1e7, 0.0), 1.1), replace(own, surface=far), 0.0)
    assert values(away) == pytest.approx(values(near), rel=1e-8)


def test_stations_that_err_together_stretch_the_trench_with_its_line():
    """Both ends move by what they share, along the way: the length errs by twice it, and the section by nothing."""
    line = replace(straight((0, 0), (20, 0)), seats=np.array([0, 1]))
    worth = JointWorth(np.zeros((2, 2)), np.array([[[-0.01, 0.0]], [[0.01, 0.0]]]), np.zeros((2, 0)))
    told = measure_trench(line, spec(), worth)
    assert told.volume.sigma == pytest.approx(0.6 * 0.02)
    assert told.path.sigma == pytest.approx(0.02)
    assert told.section.sigma == pytest.approx(0.0, abs=1e-12)
    assert told.mean.sigma == pytest.approx(0.0, abs=1e-12)


def refused(line, own):
    with pytest.raises(BadInput) as told:
        measure_trench(line, own, 0.0)
    return str(told.value)


FLAT = straight((0, 0), (20, 0))


def test_what_cannot_be_measured_is_refused_in_words():
    assert refused(FLAT, spec(depth=None)) == (
        "The trench has no depth: neither a size nor levels of its invert. Note one, or give the parameter."
    )
    assert refused(FLAT, spec(depth=0.0)) == (
        "The trench has no depth anywhere along its line. Note it, or give its depth or inverts."
    )
    assert refused(FLAT, spec(**PIPE)) == (
        "The trench has inverts and no ground: neither a surface nor heights of its line. Give one of them."
    )
    assert refused(straight((0, 0, 9.0), (20, 0, 6.0)), spec(**PIPE)) == (
        "The bottom stands 1.000 m above the ground at 20.00 m along the line. Correct the level or the depth there, or end "
        "the line before."
    )
    assert refused(arc(0.5, 1.0), spec(width=1.2, depth=0.2)) == (
        "Edge 1 turns with a radius of 0.500 m, and the trench reaches 0.600 m to its inner side. Give a smaller width, or "
        "draw the line along the other side."
    )
    assert refused(straight((0, 0, 1), (0, 0, 2)), spec()) == (
        "The line of the trench has no length. Draw it along the trench."
    )
    assert refused(FLAT, spec(bedding=-0.1, **PIPE)) == "The bedding is -0.1 m thick. Give 0 or more."


def test_a_line_that_leaves_the_surface_is_refused_where_it_does():
    surface = grid_surface(lambda x, y: 10 + 0 * x, 10.0, 4)
    own = TrenchSpec(Cross.RECTANGULAR, even(0.6, 0.0), None, even(8.0, 0.0), SectionCutter(surface))
    assert refused(straight((2, 5), (14, 5)), own) == (
        "The surface leaves out 4.00 m of the line, from 8.00 m along it. Extend the surface, or cut the line to it."
    )


@pytest.mark.parametrize(
    "bad", [([0.0], [math.nan]), ([], []), ([0.0, 1.0], [1.0]), ([math.inf], [1.0]), ([0.0], [1e300])]
)
def test_sizes_that_are_none_are_refused(bad):
    with pytest.raises(BadInput, match=r"^A size along the line is no number, or has no place\."):
        between(*bad, 0.0)


def test_a_hundred_thousand_pieces_are_done_at_once():
    x = np.linspace(0.0, 1000.0, 100_001)
    line = draw_line(np.column_stack([x, np.zeros((len(x), 2))]))
    told = measure_trench(line, replace(spec(), depth=between([0, 1000], [1.0, 2.0], 0.0)), 0.01)
    assert told.volume.value == pytest.approx(900.0)


@pytest.mark.parametrize(
    ("points", "lies", "words"),
    [
        (
            [(0, 0), (10, 0), (0, 0.0)], Lies.LEFT,
            "The line turns back on itself at 10.00 m along it, by more than 168 degrees. Draw the way back as a row of its own.",
        ),
        (
            [(0, 0), (10, 0), (0, -0.3)], Lies.LEFT,
            "The line turns back on itself at 10.00 m along it, by more than 168 degrees. Draw the way back as a row of its own.",
        ),
        (
            [(0, 0), (10, 0), (10, 0.5)], Lies.LEFT,
            ("Edge 2, 0.500 m long, has no room for the trench, which reaches 1.000 m to its inner side: its corners are too "
            "tight. Give a smaller width, or draw the line simpler there."),
        ),
        (
            [(0, 0), (10, 0), (10, 0.4), (0, 0.4)], Lies.ABOUT,
            ("Edge 2, 0.400 m long, has no room for the trench, which reaches 0.500 m to its inner side: its corners are too "
            "tight. Give a smaller width, or draw the line simpler there."),
        ),
    ],
)  # fmt: skip
def test_corners_without_room_are_refused(points, lies, words):
    with pytest.raises(BadInput) as told:
        measure_trench(straight(*points), spec(width=1.0, lies=lies), 0.0)
    assert str(told.value) == words


def test_a_short_leg_on_the_outer_side_has_room():
    """1 m wide right of 10 m and 0.5 m with a corner to the left: 10.5 m and a square of 1 m."""
    told = measure_trench(straight((0, 0), (10, 0), (10, 0.5)), spec(width=1.0, lies=Lies.RIGHT), 0.0)
    assert told.volume.value == pytest.approx(10.5 + 1.0)
    assert not told.is_over_itself


def test_a_trench_that_crosses_itself_or_comes_back_beside_itself_is_told():
    crossing = straight((0, 0), (10, 0), (10, 10), (5, 10), (5, -5))
    assert measure_trench(crossing, spec(), 0.0).is_over_itself
    back = straight((0, 0), (10, 0), (10, 2), (0, 0.4))
    assert measure_trench(back, spec(width=0.6), 0.0).is_over_itself
    assert not measure_trench(back, spec(width=0.3), 0.0).is_over_itself
    # Narrow where it comes back, wide elsewhere.
    tapered = TrenchSpec(
        Cross.RECTANGULAR, between([0, 10, 12, 22.1], [0.3, 0.9, 0.9, 0.3], 0.0), even(1.0, 0.0)
    )
    assert not measure_trench(back, tapered, 0.0).is_over_itself
    assert not measure_trench(MIXED, spec(), 0.0).is_over_itself


def test_a_ring_whose_heights_do_not_meet_is_closed_where_they_do_not_count():
    ring = straight((0, 0, 5.0), (10, 0, 5.0), (10, 6, 5.0), (0, 6, 5.0), (0, 0, 5.01))
    told = measure_trench(ring, spec(width=1.0, lies=Lies.LEFT), 0.0)
    assert told.volume.value == pytest.approx(60.0 - 8 * 4)
    with pytest.raises(BadInput) as caught:
        measure_trench(ring, spec(depth=None, invert=even(4.0, 0.0)), 0.0)
    assert str(caught.value) == (
        "The line ends where it begins, and its heights there differ by 0.010 m. Give both one height, or end the line beside "
        "its start."
    )
