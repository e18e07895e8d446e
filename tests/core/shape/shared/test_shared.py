# SPDX-License-Identifier: GPL-2.0-or-later
"""Edges that neighbours may share: asked about within what they are worth, joined without gap, overlap or bias."""

from __future__ import annotations

import numpy as np
import pytest
from fake_positions import FakePositions, drifting, noisy, trail, walk_of
from shapely.geometry import Polygon
from shapely.ops import unary_union

from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.measure.shapes import measure_shapes
from plugin.core.segments import chorded
from plugin.core.shape.features import shape_features

# A court of 10 by 8 m, and a bed of 10 by 4 m below it, 3 cm away along y = 0.
COURT = [(10, 8), (0, 8), (0, 0), (10, 0), (10, 8)]
GAP = 0.03
BED = [(0, -4), (10, -4), (10, -GAP), (0, -GAP), (0, -4)]


def decided(*rows):
    return Decisions([Decision("GE-02", place, answer, "ann", "2026-05-13") for place, answer in rows])


def placed(walks, sigma=0.02, xy=None):
    """Walks whose stations have a noise of their own of so many metres each axis."""
    walks = [walk_of(rows, f"W{k}") for k, rows in enumerate(walks, 1)]
    n = sum(len(walk) for walk in walks)
    return FakePositions(walks, sigma**2 * np.eye(2 * n), sigma**2 * np.eye(n), xy=xy)


def shaped(positions, *answers, within=0.10):
    shapes, findings = shape_features(positions, decided(*answers), within)
    return shapes, findings, measure_shapes(shapes, positions, site="s", sigma_from={})


def areas(rows):
    return {row.tags.feature: row.area for row in rows.areas}


def ground(shape):
    """The outline as chords of a micrometre's sag."""
    curve = shape.pieces[0].curve()
    return Polygon(chorded(curve, 1e-6)[:, :2])


def moved(points, angle=0.0, shift=0.0, *, mirrored=False, backwards=False):
    turn = np.exp(1j * angle)
    out = [complex(x, -y if mirrored else y) * turn + shift * (1 - 1j) for x, y in points]
    return [(p.real, p.imag) for p in (out[::-1] if backwards else out)]


WAYS = [
    {}, {"angle": 1.1}, {"shift": 1e7}, {"mirrored": True}, {"backwards": True},
]  # fmt: skip


@pytest.mark.parametrize("way", WAYS)
def test_a_gap_within_two_sigma_is_asked_about_once_with_its_sizes(way):
    positions = placed([trail("Court", moved(COURT, **way)), trail("Bed", moved(BED, **way))])
    _, findings, rows = shaped(positions)
    (ask,) = findings
    assert (ask.code, ask.severity, ask.place, ask.answers) == (
        "GE-02", Severity.ASK, "Court+Bed", ("join", "leave"),
    )  # fmt: skip
    assert (ask.data["length"], ask.data["gap"], ask.data["over"]) == pytest.approx(
        (10.0, 0.03, 0.0), abs=1e-6
    )
    # The strip of 10 m by 3 cm goes to each by half.
    assert (ask.data["change"], ask.data["other_change"]) == pytest.approx((0.15, 0.15), abs=1e-6)
    assert areas(rows)["Court"].value == pytest.approx(80, abs=1e-6), (
        "an open ask leaves the figures as walked"
    )
    assert {side.other for side in rows.sides} == {""}


def test_the_whole_message_of_two_areas():
    _, (ask,), _ = shaped(placed([trail("Court", COURT), trail("Bed", BED)]))
    assert ask.message == (
        "W2.csv, line 2: Court and Bed run along each other for 10.000 m, at most 0.030 m apart and 0.000 m over each "
        "other, which is within what their stations can be trusted to."
    )
    assert ask.remedy_text == (
        "Answer join (one edge for both: Court changes by +0.150 m2, Bed by +0.150 m2) or leave (two edges, as walked)."
    )


@pytest.mark.parametrize("way", WAYS)
def test_joined_neighbours_leave_no_gap_and_change_by_what_was_told(way):
    positions = placed([trail("Court", moved(COURT, **way)), trail("Bed", moved(BED, **way))])
    shapes, (ask,), rows = shaped(positions, ("Court+Bed", "join"))
    assert (ask.answer, ask.answered_by, ask.is_open) == ("join", "ann", False)
    fine = 1e-9 if not way.get("shift") else 1e-5
    assert areas(rows)["Court"].value == pytest.approx(80 + ask.data["change"], abs=fine)
    assert areas(rows)["Bed"].value == pytest.approx(40 - 0.3 + ask.data["other_change"], abs=fine)
    both = unary_union([ground(shape) for shape in shapes])
    assert both.area == pytest.approx(sum(row.area.value for row in rows.areas), abs=fine)
    assert both.geom_type == "Polygon"


def test_an_answer_counts_whichever_feature_it_names_first():
    positions = placed([trail("Bed", BED), trail("Court", COURT)])
    _, (ask,), rows = shaped(positions, ("Court+Bed", "join"))
    assert (ask.place, ask.answer) == ("Court+Bed", "join")
    assert areas(rows)["Court"].value == pytest.approx(80.15, abs=1e-6)
    other = [(8, 2), (15, 2), (15, 5), (8, 5), (8, 2)]
    decisions = Decisions([Decision("GE-06", "Court+Bed", "leave")])
    _, (ask,) = shape_features(placed([trail("Bed", other), trail("Court", COURT)]), decisions)
    assert (ask.place, ask.answer) == ("Court+Bed", "leave")


def test_left_edges_stay_two():
    positions = placed([trail("Court", COURT), trail("Bed", BED)])
    _, (ask,), rows = shaped(positions, ("Court+Bed", "leave"))
    assert not ask.is_open
    assert (areas(rows)["Court"].value, areas(rows)["Bed"].value) == pytest.approx((80, 39.7))
    assert {side.other for side in rows.sides} == {""}


def test_an_overlap_is_told_as_one():
    bed = [(0, -4), (10, -4), (10, 0.03), (0, 0.03), (0, -4)]
    _, (ask,), _ = shaped(placed([trail("Court", COURT), trail("Bed", bed)]))
    assert (ask.data["gap"], ask.data["over"], ask.data["change"]) == pytest.approx((0.0, 0.03, -0.15))


@pytest.mark.parametrize(
    ("gap", "sigma", "within", "asks"),
    [
        (0.03, 0.02, 0.10, 1),
        (0.03, 0.005, 0.10, 0),  # radial sigma of the gap: 0.010 m
        (0.019, 0.005, 0.10, 1),
        (0.004, 0.0, 0.10, 1),  # within 5 mm whatever the sigma
        (0.006, 0.0, 0.10, 0),
        (0.11, 0.5, 0.10, 0),
        (0.11, 0.5, 0.20, 1),
        (0.03, 0.02, 0.0, 0),
    ],
)
def test_edges_are_asked_about_up_to_two_sigma_and_the_users_limit(gap, sigma, within, asks):
    bed = [(0, -4), (10, -4), (10, -gap), (0, -gap), (0, -4)]
    _, findings, _ = shaped(placed([trail("Court", COURT), trail("Bed", bed)], sigma), within=within)
    assert len([f for f in findings if f.code == "GE-02"]) == asks


@pytest.mark.parametrize("gap", [0.0, 0.0004])
def test_an_edge_that_is_the_same_is_not_asked_about_and_knows_its_neighbour(gap):
    bed = [(0, -4), (10, -4), (10, -gap), (0, -gap), (0, -4)]
    _, findings, rows = shaped(placed([trail("Court", COURT), trail("Bed", bed)]))
    assert findings == ()
    assert [(s.tags.feature, s.owner, s.other) for s in rows.sides] == [
        ("Court", "Court", ""), ("Court", "Court", ""), ("Court", "Court", "Bed"), ("Court", "Court", ""),
        ("Bed", "Bed", ""), ("Bed", "Bed", ""), ("Bed", "Court", "Court"), ("Bed", "Bed", ""),
    ]  # fmt: skip


def test_a_shared_side_counts_once_by_its_owner():
    _, _, rows = shaped(placed([trail("Court", COURT), trail("Bed", BED)]), ("Court+Bed", "join"))
    owned = [side.length.value for side in rows.sides if side.owner == side.tags.feature]
    # Round the court, and the other three sides of the bed (half the gap longer).
    assert sum(owned) == pytest.approx(36.0 + 0.03 + 10.0 + 2 * (4 - 0.015), abs=1e-3)


def test_a_ramp_at_the_middle_of_a_side_gives_the_court_two_vertices():
    ramp = [(19, 3), (19, 4.5), (10.02, 4.5), (10.02, 3), (19, 3)]
    positions = placed([trail("Court", COURT), trail("Ramp", ramp)])
    shapes, (ask,), rows = shaped(positions, ("Court+Ramp", "join"))
    assert ask.data["length"] == pytest.approx(1.5)
    assert len(shapes[0].pieces[0].points) == 6
    # Between its ends a straight is better known than they are, and one of the two is the mean of two stations: of
    # the 2 cm the court takes v / (v + 1), v = (1 - t)^2 + t^2 / 2 at the part t of its side.
    v = np.array([(1 - t) ** 2 + t**2 / 2 for t in (3 / 8, 4.5 / 8)])
    low, high = 0.02 * v / (v + 1)
    gain = 3 * low / 2 + 1.5 * (low + high) / 2 + 3.5 * high / 2
    assert areas(rows)["Court"].value == pytest.approx(80 + gain, abs=1e-6)
    assert [round(side.length.value, 3) for side in rows.sides if side.tags.feature == "Court"] == [
        10,
        8,
        10,
        8,
    ]
    both = unary_union([ground(shape) for shape in shapes])
    assert both.area == pytest.approx(sum(row.area.value for row in rows.areas), abs=1e-9)


def on_circle(centre, radius, degrees):
    return [
        (centre[0] + radius * np.cos(np.radians(a)), centre[1] + radius * np.sin(np.radians(a)))
        for a in degrees
    ]


ROUND = [*on_circle((0, 0), 10, [0, 45, 90]), (0, 0), (10, 0)]
ROUND_LEGS = ["", "curve", "curve-end", "", ""]


def test_a_wall_along_an_arc_is_one_edge_with_it_when_joined():
    wall = on_circle((0, 0), 10.02, [20, 40, 70])
    positions = placed(
        [trail("Pond", ROUND, ROUND_LEGS), trail("Wall", wall, ["", "curve", "curve-end"], geometry="length")]
    )
    shapes, (ask,), rows = shaped(positions, ("Pond+Wall", "join"))
    assert ask.data["length"] == pytest.approx(np.radians(50) * 10.01, abs=1e-6)
    assert ask.data["gap"] == pytest.approx(0.02, abs=1e-6)
    # A ring of 1 cm over 50 degrees, and what the arcs beside it turn to.
    assert areas(rows)["Pond"].value - 25 * np.pi == pytest.approx(ask.data["change"], abs=1e-9)
    assert 0.9 * 0.01 * np.radians(50) * 10 < ask.data["change"] < 1.6 * 0.01 * np.radians(50) * 10
    assert rows.lengths[0].length.value == pytest.approx(
        np.radians(50) * 10.02 + ask.data["other_change"], abs=1e-9
    )
    assert np.radians(50) * 10.0 < rows.lengths[0].length.value < np.radians(50) * 10.02
    pond, its_wall = shapes[0].pieces[0], shapes[1].pieces[0]
    for point in its_wall.points:
        assert np.hypot(*(pond.points - point)[:, :2].T).min() < 1e-12
    assert [(side.tags.feature, side.other) for side in rows.sides] == [
        ("Pond", "Wall"),
        ("Pond", ""),
        ("Pond", ""),
    ]
    assert ask.remedy_text.startswith("Answer join (one edge for both: Pond changes by +0.")
    assert "m2, Wall by -0.0" in ask.remedy_text


def test_two_areas_along_one_arc_are_watertight_when_joined():
    outer = [*on_circle((0, 0), 10.03, [90, 50, 0]), (16, 0), (0, 16), (0, 10.03)]
    positions = placed(
        [trail("Pond", ROUND, ROUND_LEGS), trail("Lawn", outer, ["", "curve", "curve-end", "", "", ""])]
    )
    shapes, (ask,), rows = shaped(positions, ("Pond+Lawn", "join"))
    both = unary_union([ground(shape) for shape in shapes])
    # Chords of 1 micrometre's sag on 16 m of arc.
    assert both.area == pytest.approx(sum(row.area.value for row in rows.areas), abs=2e-5)
    assert both.geom_type == "Polygon"
    assert rows.areas[0].area.value + rows.areas[1].area.value == pytest.approx(
        25 * np.pi + ask.data["change"] + (128 - np.pi / 4 * 10.03**2) + ask.data["other_change"], abs=1e-9
    )


def test_three_areas_that_meet_in_a_corner_are_watertight_when_joined():
    rng = np.random.default_rng(3)

    def shaken(points):
        own = rng.normal(0, 0.01, (len(points) - 1, 2))
        out = [(x + dx, y + dy) for (x, y), (dx, dy) in zip(points, own)]
        return [*out, out[0]]

    one = shaken([(0, 0), (10, 0), (10, 5), (0, 5), (0, 0)])
    two = shaken([(10, 0), (20, 0), (20, 5), (10, 5), (10, 0)])
    three = shaken([(0, 5), (10, 5), (20, 5), (20, 9), (0, 9), (0, 5)])
    positions = placed([trail("One", one), trail("Two", two), trail("Three", three)])
    pairs = ["One+Two", "One+Three", "Two+Three"]
    shapes, findings, rows = shaped(positions, *((pair, "join") for pair in pairs))
    assert [f.place for f in findings] == pairs
    both = unary_union([ground(shape) for shape in shapes])
    assert both.geom_type == "Polygon"
    assert not both.interiors
    assert both.area == pytest.approx(sum(row.area.value for row in rows.areas), abs=1e-9)
    corner = [shape.pieces[0].points[k, :2] for shape, k in zip(shapes, (2, 3, 1))]
    assert corner[0] == pytest.approx(corner[1], abs=1e-12)
    assert corner[0] == pytest.approx(corner[2], abs=1e-12)


def test_a_corner_on_one_neighbour_is_carried_on_to_the_next():
    # The bed's edge is the court's, and the wall that stands on both begins in the middle of it.
    wall = [(4, -0.01), (10, -0.01)]
    positions = placed([trail("Court", COURT), trail("Bed", BED), trail("Wall", wall, geometry="length")])
    answers = [("Court+Bed", "join"), ("Court+Wall", "join"), ("Bed+Wall", "join")]
    shapes, findings, rows = shaped(positions, *answers)
    assert sorted(f.place for f in findings) == sorted(place for place, _ in answers)
    both = unary_union([ground(shape) for shape in shapes[:2]])
    assert both.area == pytest.approx(sum(row.area.value for row in rows.areas), abs=1e-9)
    for shape in shapes[:2]:
        assert np.hypot(*(shape.pieces[0].points - shapes[2].pieces[0].points[0])[:, :2].T).min() < 1e-12


def test_the_better_walk_draws_the_joined_edge():
    walks = [walk_of(trail("Court", COURT), "W1"), walk_of(trail("Bed", BED), "W2")]
    plan = np.diag(np.repeat([0.001, 0.03], 10) ** 2)
    positions = FakePositions(walks, plan, plan[:10, :10])
    _, (ask,), rows = shaped(positions, ("Court+Bed", "join"))
    # Weights by inverse variance: 900 to 1.
    assert ask.data["change"] == pytest.approx(0.3 / 901, abs=1e-6)
    # What the bed's area then hangs on are its two far corners, one of them the mean of two stations: each moves it by
    # half of the 10 m across and half of the 4 m along.
    assert areas(rows)["Bed"].sigma == pytest.approx(0.03 * np.sqrt(1.5 * (5**2 + 2**2)), rel=0.01)


def test_a_shift_in_common_says_nothing_on_which_edge_is_better():
    positions = placed([trail("Court", COURT), trail("Bed", BED)])
    shifted = FakePositions(positions.walks, positions.plan + 100.0 * np.kron(np.ones((10, 10)), np.eye(2)))
    one, other = (shaped(p, ("Court+Bed", "join"))[1][0].data["change"] for p in (positions, shifted))
    assert one == pytest.approx(other, abs=1e-6)


def figures(rows):
    out = [row.area for row in rows.areas] + [row.perimeter for row in rows.areas]
    out += [row.length for row in rows.lengths] + [side.length for side in rows.sides]
    return out + [side.radius for side in rows.sides if side.radius]


def test_sigmas_of_joined_figures_are_those_of_finite_differences_of_the_whole_way():
    wall = on_circle((0, 0), 10.02, [20, 40, 70])
    walks = [
        trail("Pond", [(x, y, 80.0) for x, y in ROUND], ROUND_LEGS),
        trail("Wall", [(x, y, 81.0) for x, y in wall], ["", "curve", "curve-end"], geometry="length"),
        trail("Bed", [(0, -0.02), (0, -3), (6, -3), (6, -0.02), (0, -0.02)]),
    ]
    answers = [("Pond+Wall", "join"), ("Pond+Bed", "join")]
    positions = placed(walks)
    _, findings, rows = shaped(positions, *answers)
    assert [f.answer for f in findings] == ["join", "join"]
    step, gradients = 1e-5, []
    for i in range(len(positions.xy)):
        for axis in (0, 1):
            both = []
            for sign in (1, -1):
                xy = positions.xy.copy()
                xy[i, axis] += sign * step
                its = shaped(placed(walks, xy=xy), *answers)[2]
                both.append(np.array([q.value for q in figures(its)]))
            gradients.append((both[0] - both[1]) / (2 * step))
    g = np.array(gradients).T
    sigmas = np.sqrt(np.einsum("ai,ij,aj->a", g, positions.plan, g))
    # What is left out: places found anew along an edge of some metres as it turns by a gap of 2 cm.
    assert [q.sigma for q in figures(rows)] == pytest.approx(list(sigmas), rel=0.01)


def test_joined_areas_of_drawn_walks_scatter_as_their_sigma_says():
    true = placed(
        [trail("Court", COURT), trail("Bed", [(0, -4), (10, -4), (10, 0), (0, 0), (0, -4)])], sigma=0.01
    )
    rng = np.random.default_rng(9)
    errors = []
    for _ in range(400):
        _, findings, rows = shaped(noisy(true, rng), ("Court+Bed", "join"))
        if any(f.answer == "join" for f in findings):
            errors.append(
                [(areas(rows)[n].value - a) / areas(rows)[n].sigma for n, a in (("Court", 80), ("Bed", 40))]
            )
    assert len(errors) > 380
    # 390 draws know a standard deviation to 3.6 %.
    assert np.std(errors, axis=0) == pytest.approx([1, 1], abs=0.12)
    assert np.abs(np.mean(errors, axis=0)).max() < 0.16


@pytest.mark.parametrize("seed", range(20))
def test_random_neighbours_are_watertight_when_joined(seed):
    rng = np.random.default_rng(seed)
    edge = np.cumsum(rng.uniform(0.8, 3.0, 9))
    shared = np.column_stack([edge, rng.normal(0, 0.4, 9)])

    def side(count):
        own = shared[np.sort(rng.choice(np.arange(1, 8), count, replace=False))]
        return np.vstack([shared[:1], own, shared[-1:]])

    points = side(7)
    up = [*points, (edge[-1], 9), (edge[0], 9), points[0]]
    low = shared + rng.normal(0, 0.01, shared.shape)
    passes = [low[0]]
    for a, b in zip(low, low[1:]):
        passes += [a + (b - a) * t for t in sorted(rng.uniform(0.2, 0.8, rng.integers(0, 3)))] + [b]
    down = [*passes, (edge[-1], -9), (edge[0], -9), passes[0]]
    shapes, findings, rows = shaped(
        placed([trail("Up", up), trail("Down", down[::-1] if seed % 2 else down)]), ("Up+Down", "join")
    )
    (ask,) = (f for f in findings if f.code == "GE-02")
    assert ask.answer == "join"
    both = unary_union([ground(shape) for shape in shapes])
    assert both.area == pytest.approx(sum(row.area.value for row in rows.areas), abs=1e-9)
    assert both.geom_type == "Polygon"
    assert not both.interiors


def test_areas_on_one_side_of_an_edge_options_apart_and_holes_are_no_neighbours():
    inner = [(0, 0.02), (10, 0.02), (10, 5), (0, 5), (0, 0.02)]
    _, findings, _ = shaped(placed([trail("Court", COURT), trail("Mat", inner, surface="stripped")]))
    assert [f.code for f in findings if f.code == "GE-02"] == []
    _, findings, _ = shaped(placed([trail("Court", COURT, option="a"), trail("Bed", BED, option="b")]))
    assert findings == ()
    hole = [(0.02, 2), (3, 2), (3, 4), (0.02, 4), (0.02, 2)]
    _, findings, _ = shaped(placed([trail("Court", COURT), trail("Pit", hole, hole_in="Court")]))
    assert [f.code for f in findings] == []


def test_lengths_along_each_other_corners_that_touch_and_ends_of_walls_are_no_shared_edges():
    wall = [(0, -0.02), (10, -0.02)]
    lengths = [trail("A", [(0, 0), (10, 0)], geometry="length"), trail("B", wall, geometry="length")]
    assert shaped(placed(lengths))[1] == ()
    corner = [(10.01, 8.01), (15, 8.01), (15, 12), (10.01, 8.01)]
    assert shaped(placed([trail("Court", COURT), trail("Bed", corner)]))[1] == ()
    end = [(5, -0.02), (5, -6)]
    assert shaped(placed([trail("Court", COURT), trail("Wall", end, geometry="length")]))[1] == ()


def test_a_stopped_outline_takes_no_part():
    bow = [(0, -4), (10, -4), (0, -GAP), (10, -GAP), (0, -4)]
    _, findings, _ = shaped(placed([trail("Court", COURT), trail("Bed", bow)]))
    assert [f.code for f in findings] == ["GE-01"]


def test_ground_that_two_areas_count_is_asked_about():
    other = [(8, 2), (15, 2), (15, 5), (8, 5), (8, 2)]
    positions = placed([trail("Court", COURT), trail("Bed", other)])
    _, (ask,), rows = shaped(positions)
    assert (ask.code, ask.severity, ask.place, ask.answers) == (
        "GE-06",
        Severity.ASK,
        "Court+Bed",
        ("leave",),
    )
    assert ask.message == (
        "W2.csv, line 2: Court and Bed lie over each other by 6.000 m2 at (9.000, 3.500) in the survey plane, and both "
        "count it."
    )
    assert ask.is_open
    _, (ask,) = shape_features(positions, Decisions([Decision("GE-06", "Court+Bed", "leave", "ann")]))
    assert (ask.answer, ask.is_open) == ("leave", False)
    assert areas(rows)["Court"].value == pytest.approx(80)


@pytest.mark.parametrize("column", ["option", "surface", "phase"])
def test_ground_counted_in_another_option_surface_or_phase_is_counted_once(column):
    other = [(8, 2), (15, 2), (15, 5), (8, 5), (8, 2)]
    walks = [trail("Court", COURT, **{column: "a"}), trail("Bed", other, **{column: "b"})]
    assert shaped(placed(walks))[1] == ()
    walks = [trail("Court", COURT, **{column: "a"}), trail("Bed", other)]
    assert [f.code for f in shaped(placed(walks))[1]] == ["GE-06"]


def test_a_bed_in_an_opening_is_counted_once_and_one_over_its_rim_twice():
    hole = [(3, 3), (6, 3), (6, 6), (3, 6), (3, 3)]
    lawn = trail("Court", COURT) + trail("Hole", hole, hole_in="Court")
    inside = [(3.5, 3.5), (5.5, 3.5), (5.5, 5.5), (3.5, 5.5), (3.5, 3.5)]
    _, findings, _ = shaped(placed([lawn, trail("Bed", inside, surface="ground")]))
    assert [f.code for f in findings if f.code == "GE-06"] == []
    over = [(3.5, 3.5), (12, 3.5), (12, 5.5), (3.5, 5.5), (3.5, 3.5)]
    _, findings, _ = shaped(placed([lawn, trail("Bed", over)]))
    (ask,) = (f for f in findings if f.code == "GE-06")
    assert (ask.place, ask.data["overlap"]) == ("Court+Bed", pytest.approx(2 * (6.5 - 2.5)))


def test_an_overlap_as_wide_as_its_stations_are_uncertain_is_not_asked_about():
    other = [(9.8, 2), (15, 2), (15, 5), (9.8, 5), (9.8, 2)]
    for sigma, count in ((0.01, 1), (0.05, 0)):
        _, findings, _ = shaped(placed([trail("Court", COURT), trail("Bed", other)], sigma))
        assert len([f for f in findings if f.code == "GE-06"]) == count


def test_without_shapely_crossing_outlines_are_noted(monkeypatch):
    import sys

    for name in ("shapely", "shapely.geometry", "shapely.validation"):
        monkeypatch.setitem(sys.modules, name, None)
    other = [(8, 2), (15, 2), (15, 5), (8, 5), (8, 2)]
    _, (note,), _ = shaped(placed([trail("Court", COURT), trail("Bed", other)]))
    assert (note.code, note.severity, note.place) == ("GE-06", Severity.NOTE, "survey")
    assert note.message == (
        "Outlines of areas cross each other, and how much ground they both count was not looked at: the library shapely "
        "is not installed."
    )


@pytest.mark.parametrize("seed", range(12))
def test_a_bond_of_slabs_with_corners_on_each_others_sides_is_watertight_when_joined(seed):
    """Corners of one row face sides of the next; three slabs meet in each. (Spikes came out where a corner of two
    slabs had two places on the side of the third.)"""
    rng = np.random.default_rng(seed)
    rows, names = [], []
    for i in range(3):
        cuts = [0.0, *(2.5 + 3.0 * np.arange(3) + rng.uniform(-1, 1, 3)), 12.0]
        for j, (a, b) in enumerate(zip(cuts, cuts[1:])):
            corners = np.array([(a, 3 * i), (b, 3 * i), (b, 3 * i + 3), (a, 3 * i + 3)])
            corners = np.roll(corners + rng.normal(0, 0.006, (4, 2)), rng.integers(4), axis=0)
            names.append(f"S{i}{j}")
            rows += trail(names[-1], [*map(tuple, corners), tuple(corners[0])])
    positions = placed([rows], 0.012)  # twice the noise, so that no pair is beyond two sigma by chance
    answers = [(f"{a}+{b}", "join") for k, a in enumerate(names) for b in names[k + 1 :]]
    shapes, findings, measured = shaped(positions, *answers)
    assert {(f.code, f.answer) for f in findings} == {("GE-02", "join")}
    outlines = [ground(shape) for shape in shapes]
    assert all(outline.is_valid for outline in outlines)
    whole = unary_union(outlines)
    assert whole.geom_type == "Polygon"
    assert not whole.interiors
    assert whole.area == pytest.approx(sum(row.area.value for row in measured.areas), abs=1e-9)
