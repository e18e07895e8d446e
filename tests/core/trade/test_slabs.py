# SPDX-License-Identifier: GPL-2.0-or-later
"""Slabs: volume, thickened edges, forms, joints and mesh beside closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from trade_lines import arc, box, circle, drawn, moved, spread, straight

from plugin.core.errors import BadInput
from plugin.core.ground.surface import Surface
from plugin.core.quantity import Quantity
from plugin.core.trade.bands import lay_pieces, longest_heading, ring_curve, turn_outline
from plugin.core.trade.lines import draw_line
from plugin.core.trade.moments import moments_of
from plugin.core.trade.order import order_up, whole_up
from plugin.core.trade.slab_edges import Stretch, edges_along
from plugin.core.trade.slabs import SlabSpec, lay_joints, lay_mesh, measure_forms, measure_slab

ORIGIN = np.zeros(2)


def slab(rings, spec, sigma=0.0, area=None):
    value = moments_of(rings, rings[0].points[0, :2]).area if area is None else area
    return measure_slab(rings, Quantity(value, 0.0, "m2"), spec, sigma)


def test_an_even_slab_is_its_area_by_its_thickness():
    found = measure_slab([box(10, 5)], Quantity(50.0, 0.2, "m2"), SlabSpec(0.15, size_sigma=0.005), 0.01)
    assert found.concrete.value == pytest.approx(7.5)
    assert found.concrete.sigma == pytest.approx(math.hypot(0.2 * 0.15, 50 * 0.005))
    assert (found.thinnest, found.mean.value, found.thickest) == (0.15, 0.15, 0.15)


def test_a_slab_from_a_falling_top_to_a_level_underside():
    """10 by 5 m, 0.20 to 0.35 m thick: the mean of four corners of a plane."""
    found = slab([box(10, 5, [10.20, 10.30, 10.35, 10.25])], SlabSpec(bottom=10.0))
    assert found.concrete.value == pytest.approx(50 * 0.275, rel=1e-13)
    assert (found.thinnest, found.thickest) == (pytest.approx(0.20), pytest.approx(0.35))
    assert found.off_plane == pytest.approx(0.0, abs=1e-12)


def test_a_varying_slab_with_an_arc_takes_the_thickness_at_its_centroid():
    """A half disc of radius 3 whose thickness grows by 0.1 a metre from 0.2 at the diameter: its centroid lies at 4 r / 3 pi."""
    # The heights of two vertices tell no plane, so the slab has a strip of 1 m before its diameter as well.
    ring = draw_line(
        [(3, 0, 0.2), (0, 3, 0.5), (-3, 0, 0.2), (-3, -1, 0.1), (3, -1, 0.1), (3, 0, 0.2)],
        [False, True, False, False, False, False],
    )
    found = slab([ring], SlabSpec(bottom=0.0))
    half = math.pi * 4.5 * (0.2 + 0.1 * 4 / math.pi)
    assert found.concrete.value == pytest.approx(half + 6 * 0.15, rel=1e-12)


def test_the_sigma_of_a_varying_slab_is_that_of_draws():
    top = box(10, 5, [10.20, 10.30, 10.35, 10.25])

    def volume(ring):
        return slab([ring], SlabSpec(bottom=10.0)).concrete.value

    area_sigma = spread(lambda ring: moments_of([ring], ORIGIN).area, 0.01, top)
    found = measure_slab([top], Quantity(50.0, area_sigma, "m2"), SlabSpec(bottom=10.0), 0.01)
    assert found.concrete.sigma == pytest.approx(spread(volume, 0.01, top), rel=0.06)


@pytest.mark.parametrize("turn", [1, -1])
def test_a_thickened_edge_is_the_solid_between_two_frusta(turn):
    """0.2 m deep, 0.3 m wide at its foot and 0.5 m at its top: the integral of the ring's area over the depth."""
    ring = box(10, 5) if turn == 1 else box(10, 5).reversed()
    found = slab([ring], SlabSpec(0.15, edge_depth=0.2, edge_width=0.3, edge_splay=0.2))
    z = np.linspace(0, 0.2, 20_001)
    width = 0.3 + z
    areas = 50 - (10 - 2 * width) * (5 - 2 * width)
    exact = float(((areas[1:] + areas[:-1]) / 2).sum() * 0.2 / 20_000)
    assert found.edges.value == pytest.approx(exact, rel=1e-8)
    assert found.concrete.value == pytest.approx(7.5 + exact, rel=1e-8)


def test_a_thickened_edge_round_a_circle_is_pappus():
    found = slab([circle(4.0)], SlabSpec(0.15, edge_depth=0.3, edge_width=0.4))
    assert found.edges.value == pytest.approx(0.3 * math.pi * (16 - 3.6**2), rel=1e-13)


def test_forms_split_where_their_height_passes_a_class():
    ring = straight((0, 0), (10, 0))
    forms = measure_forms([ring], [np.array([0.10, 0.35])])
    assert forms.straight == (pytest.approx(2.0), pytest.approx(6.0), pytest.approx(2.0))
    assert forms.area == pytest.approx(2.25)
    level = measure_forms([ring, ring, ring], [np.full(2, h) for h in (0.15, 0.30, 0.301)])
    assert level.straight == (pytest.approx(10.0), pytest.approx(10.0), pytest.approx(10.0))


def test_forms_of_tight_arcs_are_curved_ones():
    forms = measure_forms([arc(5.9, 1.0), arc(6.1, 1.0)], [np.full(2, 0.1)] * 2)
    assert forms.curved == (pytest.approx(5.9), 0.0, 0.0)
    assert forms.straight == (pytest.approx(6.1), 0.0, 0.0)


def test_joints_keep_bays_short_and_square_enough():
    """10 by 5 m, bays of 24 x 0.15 = 3.6 m at most: three by two of 3.33 by 2.5 m, 5 + 5 + 10 m of joints."""
    joints, bays = lay_joints(turn_outline([box(10, 5)], 0.0), 3.6)
    assert (joints, bays) == (pytest.approx(20.0), 6)
    # A path 1 m wide would get bays of 3.5 m: no longer than 1.5 times its width.
    joints, bays = lay_joints(turn_outline([box(7, 1)], 0.0), 3.6)
    assert (joints, bays) == (pytest.approx(4.0), 5)


def test_mesh_sheets_cover_net_of_their_laps():
    """trade.md: 4.8 x 2.4 m less 0.3 m both ways, 9.45 m2 net (common practice, no source)."""
    sheets, net = lay_mesh([box(9.3, 4.5)], SlabSpec(sheet=(4.8, 2.4), lap=0.3))
    assert (sheets, net) == (4, pytest.approx(9.45))
    assert (
        lay_mesh([box(9.31, 4.5)], SlabSpec(sheet=(4.8, 2.4), lap=0.3))[0] == 5
    )  # five across, not six along
    assert lay_mesh([box(4.5, 9.3)], SlabSpec(sheet=(4.8, 2.4), lap=0.3))[0] == 4


def test_bands_of_an_outline_with_a_bay_count_only_where_it_lies():
    ring = straight((0, 0), (6, 0), (6, 4), (4, 4), (4, 1), (2, 1), (2, 4), (0, 4), (0, 0))
    bands = turn_outline([ring], 0.0)
    assert bands.reach(1.5, 2.5) == [(0.0, 2.0), (4.0, 6.0)]
    assert bands.reach(0.5, 1.5) == [(0.0, 6.0)]
    pieces, run = lay_pieces(bands, (2.0, 1.0), 0.0)
    assert (pieces, run) == (3 + 2 * 3, pytest.approx(6 + 4 * 3))


def test_the_longest_side_gives_the_direction_wherever_it_lies():
    ring = moved(box(10, 5), (3e6, 5e6, 0.0), 0.4)
    assert longest_heading([ring]) == pytest.approx(
        0.4, abs=1e-8
    )  # of two ways, that within a right angle of x
    assert turn_outline([ring], 0.4).size == pytest.approx([10.0, 5.0], abs=1e-6)
    assert longest_heading([circle(3.0)]) == 0.0


def test_a_circle_becomes_two_halves():
    curve = ring_curve(circle(3.0))
    assert curve.points[:, 0].tolist() == [3.0, -3.0, 3.0]
    assert curve.bulge.tolist() == [1.0, 1.0]


@pytest.mark.parametrize("sweep", [0.001, 0.5, 2.0, math.pi, 5.0])
def test_the_centroid_of_a_segment(sweep):
    """2/3 r^3 sin^3 a / S from the centre, S = r^2 (2a - sin 2a)/2."""
    a, r = sweep / 2, 7.0
    ring = arc(r, sweep, 0.0, start=-a)
    closed = draw_line(np.vstack([ring.points, ring.points[:1]]), [False, True, False, False])
    area = r * r * (2 * a - math.sin(2 * a)) / 2
    found = moments_of([closed], np.array([r, 0.0]))
    assert found.area == pytest.approx(area, rel=1e-6)
    assert found.centroid[0] + r == pytest.approx(
        2 / 3 * r**3 * math.sin(a) ** 3 / area, abs=1e-8 if sweep > 0.1 else 1e-3
    )
    assert found.centroid[1] == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("rings", "spec", "words"),
    [
        (
            [box(4, 3)],
            SlabSpec(),
            "The slab has no thickness above 0. Give one, or the level of its underside.",
        ),
        (
            [box(4, 3)],
            SlabSpec(bottom=1.0),
            "The slab has an underside but no heights on top. Give its corners heights, or a thickness.",
        ),
        (
            [box(4, 3, [1.0, 1.0, 1.2, 1.2])],
            SlabSpec(bottom=1.05),
            "The underside lies 0.050 m above the slab's top at its lowest corner. Correct the level or the heights.",
        ),
        (
            [box(4, 3)],
            SlabSpec(0.1, sheet=(2.0, 0.3), lap=0.3),
            "A band 0.3 m wide with a lap of 0.3 m covers nothing. Give a smaller lap.",
        ),
        (
            [box(4000, 3000)],
            SlabSpec(0.1, sheet=(2.0, 0.01)),
            "The outline would take 300000 bands of 0.01 m, more than 20000. Give a larger width.",
        ),
        (
            [box(4000, 3000)],
            SlabSpec(0.1, joint_factor=0.01),
            "Bays of 0.001 m are too many to lay out. Give a larger factor.",
        ),
    ],
)
def test_what_is_no_slab_is_refused_in_words(rings, spec, words):
    with pytest.raises(BadInput) as told:
        slab(rings, spec)
    assert str(told.value) == words


def test_rounding_of_the_computer_is_no_step_more():
    # 2 m in strips of 0.4 m, off by the step of a northing of 5.6e6 m; and by more than rounding.
    assert whole_up(2.0 + 0.93e-9, 0.4) == whole_up(2.0, 0.4) == whole_up(2.0 - 0.93e-9, 0.4) == 5
    assert whole_up(2.0 + 2e-6, 0.4) == 6
    # Of 50 km as much again as of 50 m by a thousand: 1e-9 of it.
    assert (whole_up(50_000.0 + 4e-5, 0.5), whole_up(50_000.0 + 6e-5, 0.5)) == (100_000, 100_001)
    assert whole_up(5.0000000001) == 5
    assert whole_up(5.001) == 6
    assert whole_up(0.0) == 0
    assert order_up(0.0, minimum=1.0) == 0.0
    with pytest.raises(
        BadInput, match=r"An order of -1\.0 with waste 0\.0, step 0\.0 and minimum 0\.0 has no meaning"
    ):
        order_up(-1.0)


def ground_under(heights, reach=1.0):
    """Two triangles over 12 by 8 m, from the corner at (-1, -1) anticlockwise, with heights."""
    points = np.array([(-1, -1), (11, -1), (11, 7), (-1, 7)], float)
    return Surface(
        np.column_stack([points, heights]),
        np.array([[0, 1, 2], [0, 2, 3]]),
        np.full(4, 0.02),
        0.0,
        reach,
        np.zeros(2, bool),
    )


def test_a_slab_over_a_surface_is_the_integral_over_its_triangles():
    """Top level at 10; the ground a plane falling by 0.01 a metre eastward from 9.8: by the thickness at the middle."""
    ground = ground_under([9.81, 9.69, 9.69, 9.81])
    found = slab([box(10, 5, 10.0)], SlabSpec(under=ground), 0.01)
    assert found.concrete.value == pytest.approx(50 * 0.25, rel=1e-12)
    assert (found.thinnest, found.thickest) == (pytest.approx(0.20), pytest.approx(0.30))
    assert found.forms.straight[1] == pytest.approx(30.0)
    assert found.method == "plane through the corners less the surface, over its triangles"


def test_a_slab_over_folded_ground_with_arcs_agrees_with_a_fine_grid():
    ground = ground_under([9.7, 9.5, 9.8, 9.6])
    ring = draw_line(
        [(2, 3, 10), (5, 0.5, 10), (8, 3, 10), (8, 5, 10), (2, 5, 10), (2, 3, 10)],
        [False, True] + [False] * 4,
    )
    found = slab([ring], SlabSpec(under=ground))
    x, y = np.meshgrid(np.linspace(2, 8, 3001)[:-1] + 0.001, np.linspace(0, 5, 2501)[:-1] + 0.001)
    r = (9 + 2.5**2) / (2 * 2.5)  # chord 6, rise 2.5
    cy = 0.5 + r
    inside = (y > 3) | ((x - 5) ** 2 + (y - cy) ** 2 < r * r)
    u, v = (x + 1) / 12, (y + 1) / 8
    z = np.where(
        v <= u, 9.7 + (9.5 - 9.7) * (u - v) + (9.8 - 9.7) * v, 9.7 + (9.8 - 9.7) * u + (9.6 - 9.7) * (v - u)
    )
    assert found.concrete.value == pytest.approx(float(((10 - z) * inside).sum()) * 0.002 * 0.002, rel=1e-3)


def test_the_sigma_of_a_slab_over_a_surface_is_that_of_draws():
    ground, draw, volumes = ground_under([9.81, 9.69, 9.69, 9.81]), np.random.default_rng(2), []
    area = Quantity(50.0, 0.0, "m2")
    for _ in range(1500):
        noisy = Surface(
            ground.points + np.column_stack([np.zeros((4, 2)), draw.normal(0, 0.02, 4)]),
            ground.triangles, ground.sigma, 0.0, 1.0, ground.is_weak,
        )  # fmt: skip
        top = box(10, 5, 10.0 + draw.normal(0, 0.01, 4))
        volumes.append(measure_slab([top], area, SlabSpec(under=noisy), 0.0).concrete.value)
    found = measure_slab([box(10, 5, 10.0)], area, SlabSpec(under=ground), 0.01)
    assert found.concrete.sigma == pytest.approx(float(np.std(volumes)), rel=0.06)


@pytest.mark.parametrize(
    ("ring", "words"),
    [
        (
            box(10, 9, 10.0),
            "The surface leaves out 20.00 m2 of 90.00 m2 of the slab. Extend it, or cut the slab to it.",
        ),
        (
            box(10, 5, 9.75),
            (
                "The ground stands above the slab's top by up to 0.050 m over 25.00 m2. Dig it away in the surface, or lift the "
                "slab."
            ),
        ),
        (
            straight((0, 0, 10), (5, 0, 10), (10, 0, 10), (0, 0, 10)),
            "The slab's corners lie on one line, so they tell no top. Give a thickness.",
        ),
    ],
)
def test_a_slab_that_no_surface_carries_is_refused(ring, words):
    with pytest.raises(BadInput) as told:
        measure_slab(
            [ring], Quantity(50.0, 0.0, "m2"), SlabSpec(under=ground_under([9.81, 9.69, 9.69, 9.81])), 0.01
        )
    assert str(told.value) == words


def test_a_course_that_reaches_past_its_edge_is_measured_as_wide_as_it_is():
    """The yard's court over 0.20 m of stone, 0.15 m past its edge: 262.955 m2, 52.591 m3."""
    points = [(2, 2), (22, 2), (22, 12), (12, 16), (2, 12), (2, 2)]
    ring = draw_line(np.array([[*p, np.nan] for p in points], float), np.array([0, 0, 0, 1, 0, 0], bool))
    hole = moved(box(1.2, 1.2), (11.4, 6.4, 0.0)).reversed()
    net = Quantity(float(ring.edges.areas.sum()) - 1.44, 0.8, "m2")
    slab = measure_slab([ring, hole], net, SlabSpec(0.2, extra=0.15), 0.02)
    assert slab.area.value == pytest.approx(262.955, abs=5e-4)
    assert slab.concrete.value == pytest.approx(52.591, abs=5e-4)
    assert 0.8 < slab.area.sigma < 0.85
    assert slab.method == "plan area x 0.2 m, reaching 0.15 m past its edge"


def drive(**more):
    """The lane's drive in feet: 12 by 45, 6 in thick, edges 12 in wide and 6 in deeper."""
    return SlabSpec(0.5, edge_depth=0.5, edge_width=1.0, **more)


def test_edges_that_are_thickened_along_two_sides_are_their_own_lengths():
    ring = box(12, 45)
    area = Quantity(540.0, 0.0, "m2")
    sides = [straight((12, 0), (12, 45)), straight((0, 45), (0, 0))]
    slab = measure_slab([ring], area, drive(thickened=edges_along([ring], sides).stretches), 0.0)
    assert slab.edges.value == pytest.approx(45.0)
    assert slab.concrete.value == pytest.approx(315.0)
    # Forms: 0.5 m high at the ends, 1.0 m along the sides.
    assert slab.forms.area == pytest.approx(2 * 12 * 0.5 + 2 * 45 * 1.0)
    assert slab.method.endswith(", under the sides named")
    whole = measure_slab([ring], area, drive(), 0.0)
    assert whole.edges.value == pytest.approx(0.5 * (540 - 10 * 43))


def test_neighbouring_sides_are_mitred_and_all_sides_are_all_round():
    ring, area = box(12, 45), Quantity(540.0, 0.0, "m2")
    both = [straight((0, 0), (12, 0), (12, 45))]
    slab = measure_slab([ring], area, drive(thickened=edges_along([ring], both).stretches), 0.0)
    assert slab.edges.value == pytest.approx(0.5 * (12 + 45 - 1))
    every = measure_slab([ring], area, drive(thickened=edges_along([ring], [ring]).stretches), 0.0)
    assert every.edges.value == pytest.approx(measure_slab([ring], area, drive(), 0.0).edges.value)
    assert every.forms == measure_slab([ring], area, drive(), 0.0).forms


@pytest.mark.parametrize(
    "side",
    [
        straight((0, 0.05), (12, 0.05)),  # beside it
        straight((0, 0), (12, 45)),  # from corner to corner, across
        straight((100, 0), (112, 0)),
    ],
)
def test_what_does_not_run_along_an_edge_thickens_none(side):
    ring = box(12, 45)
    slab = measure_slab(
        [ring], Quantity(540.0, 0.0, "m2"), drive(thickened=edges_along([ring], [side]).stretches), 0.01
    )
    assert slab.edges == Quantity(0.0, 0.0, "m3")


def test_the_sigma_of_thickened_sides_is_that_of_draws():
    ring, draw = box(12, 45), np.random.default_rng(4)
    named = ((Stretch(1), Stretch(3)),)
    area = Quantity(540.0, 0.0, "m2")
    told = measure_slab([ring], area, drive(thickened=named), 0.02).edges.sigma
    found = [
        measure_slab([drawn(ring, 0.02, draw)], area, drive(thickened=named), 0.0).edges.value
        for _ in range(1500)
    ]
    assert told == pytest.approx(np.std(found), rel=0.06)


@pytest.mark.parametrize(
    ("sides", "length"),
    [
        ([straight((1, 0), (12, 0))], 11.0),
        ([straight((0.03, 0), (12, 0))], 11.97),
        ([straight((0.5, 0), (7, 0)), straight((12, 0.005), (7, -0.005))], 11.5),
        ([straight((7, 0), (0, 0)), straight((6, 0), (12, 0))], 12.0),
        ([straight((2, 0), (4, 0)), straight((6, 0), (9, 0))], 5.0),
        ([straight((-3, 0.01), (20, 0.01))], 12.0),
        ([straight((4, 0), (0, 0), (0, 20))], 24.0 - 1.0),  # mitred: the centroids' paths are 0.5 m in
        ([straight((0, 0), (12, 0)), straight((0, 0), (0, 45))], 57.0 - 1.0),
    ],
)
@pytest.mark.parametrize("turn", [0.0, 2.2])
def test_sides_of_one_edge_count_together_and_a_part_as_that_part(sides, length, turn):
    """0.5 m deep and 1 m wide: half a cubic metre by metre of side."""
    ring, sides = moved(box(12, 45), (1e6, -3e6, 0), turn), [moved(s, (1e6, -3e6, 0), turn) for s in sides]
    named = edges_along([ring], sides)
    slab = measure_slab([ring], Quantity(540.0, 0.0, "m2"), drive(thickened=named.stretches), 0.01)
    assert slab.edges.value == pytest.approx(0.5 * length, abs=1e-6)
    assert slab.concrete.value == pytest.approx(270.0 + 0.5 * length, abs=1e-6)
    assert named.off == 0


def test_a_part_of_an_arc_is_thickened_on_its_centroids_path():
    """A round slab of 5 m: a third of its edge, 1 m wide, on a radius of 4.5 m; drawn as an arc and as chords."""
    points = [(5, 0), (0, 5), (-5, 0), (0, -5), (5, 0)]
    ring = draw_line(np.array([[*p, math.nan] for p in points], float), np.array([0, 1, 0, 1, 0], bool))
    turns = np.linspace(math.pi / 4, math.pi / 4 + 2 * math.pi / 3, 200)
    chords = straight(*(5 * np.column_stack([np.cos(turns), np.sin(turns)])).tolist())
    for side in (arc(5.0, 2 * math.pi / 3, start=math.pi / 4), chords, chords.reversed()):
        named = edges_along([ring], [side])
        slab = measure_slab([ring], Quantity(78.54, 0.0, "m2"), drive(thickened=named.stretches), 0.0)
        assert slab.edges.value == pytest.approx(0.5 * 4.5 * 2 * math.pi / 3, abs=1e-3)
        assert named.off == 0
    for whole in (circle(5.0), circle(5.0).reversed()):
        named = edges_along([whole], [arc(5.0, math.pi, start=0.5 * math.pi)])
        slab = measure_slab([whole], Quantity(78.54, 0.0, "m2"), drive(thickened=named.stretches), 0.0)
        assert slab.edges.value == pytest.approx(0.5 * 4.5 * math.pi, abs=1e-3)


def test_forms_along_a_part_of_a_side_are_deeper_there():
    ring = box(12, 45)
    named = edges_along([ring], [straight((3, 0), (7, 0))])
    slab = measure_slab([ring], Quantity(540.0, 0.0, "m2"), drive(thickened=named.stretches), 0.0)
    assert slab.forms.area == pytest.approx(114 * 0.5 + 4 * 0.5)


def test_forms_round_a_hole_are_no_deeper_for_the_thickened_outer_edge():
    rings = [box(10, 10), moved(box(2, 2), (4, 4, 0)).reversed()]
    slab = measure_slab(rings, Quantity(96.0, 0.0, "m2"), SlabSpec(0.1, edge_depth=0.2, edge_width=0.3), 0.0)
    assert slab.forms.area == pytest.approx(40 * 0.3 + 8 * 0.1)


def test_sides_beside_the_edge_and_of_holes_are_counted_as_off():
    ring, hole = box(12, 45), moved(box(2, 2), (5, 5, 0)).reversed()
    off = [straight((0, 0.03), (12, 0.03)), straight((5, 5), (7, 5))]
    named = edges_along([ring, hole], [*off, straight((0, 0), (12, 0)), straight((0, 100), (12, 100))])
    assert named.off == 2
    assert named.stretches == ((Stretch(0),), ())
    far = edges_along([ring], [straight((100, 0), (112, 0))])
    assert (far.off, far.is_none) == (0, True)
    slab = measure_slab([ring], Quantity(540.0, 0.0, "m2"), drive(thickened=far.stretches), 0.0)
    assert slab.method == "plan area x 0.5 m, no edge thickened"


def test_a_splayed_edge_errs_by_its_depth_its_width_and_its_splay():
    """V = L d (w + s / 2) along straight sides, whose three sizes err by themselves: beside draws of them."""
    ring, draw = box(12, 45), np.random.default_rng(8)
    named = ((Stretch(1),),)

    def edge(sizes, sigma=0.0):
        depth, width, splay = sizes
        spec = SlabSpec(
            0.5, edge_depth=depth, edge_width=width, edge_splay=splay, thickened=named, size_sigma=sigma
        )
        return measure_slab([ring], Quantity(540.0, 0.0, "m2"), spec, 0.0).edges

    found = [edge(np.array([0.4, 0.3, 0.5]) + draw.normal(0.0, 0.01, 3)).value for _ in range(4000)]
    told = edge((0.4, 0.3, 0.5), 0.01).sigma
    # L times the root of (w + s / 2)^2, d^2 and (d / 2)^2.
    assert told == pytest.approx(45 * 0.01 * math.sqrt(0.55**2 + 0.4**2 + 0.2**2))
    assert told == pytest.approx(np.std(found), rel=0.04)
