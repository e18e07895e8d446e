# SPDX-License-Identifier: GPL-2.0-or-later
"""Answers to an outline that crosses itself: each gives the area it told, with its sigma, and nothing else."""

from __future__ import annotations

import numpy as np
import pytest
from fake_positions import FakePositions, drifting, noisy, trail, walk_of
from shapely.geometry import LineString
from shapely.ops import polygonize, unary_union

from plugin.core.findings import Decision, Decisions, Finding, Severity
from plugin.core.measure.rows import PlacementRow, Survey
from plugin.core.measure.shapes import measure_shapes
from plugin.core.measure.withhold import withhold
from plugin.core.shape.features import shape_features

BOW = [(0, 0), (10, 0), (0, 8), (10, 8), (0, 0)]
DENTED = [(0, 0), (10, 0), (12, 4), (0, 8), (10, 8), (0, 3), (0, 0)]
TOLD = {"reverse": "reversed_area", "drop": "dropped_area"}


def answers(*rows):
    return Decisions([Decision("GE-01", place, answer, "ann", "2026-05-13") for place, answer in rows])


def shaped(rows, *decided, sigma=0.004, xy=None):
    walk = walk_of(rows)
    plan, height = drifting(len(walk), xy=walk.xy)
    positions = FakePositions([walk], plan, height, xy=xy)
    shapes, findings = shape_features(positions, answers(*decided))
    return shapes, findings, measure_shapes(shapes, positions, site="s", sigma_from={}), positions


def crossing_of(findings, place):
    (found,) = (f for f in findings if f.code == "GE-01" and f.place == place)
    return found


def turned(points, angle=0.0, shift=(0.0, 0.0), *, mirrored=False):
    turn = np.exp(1j * angle)
    out = []
    for x, y, *z in points:
        p = complex(x, -y if mirrored else y) * turn + complex(*shift)
        out.append((p.real, p.imag, *z))
    return out


@pytest.mark.parametrize(
    ("answer", "areas"), [("reverse", [80.0]), ("drop", [40.0]), ("split", [20.0, 20.0])]
)
@pytest.mark.parametrize("moved", [{}, {"angle": 2.1}, {"shift": (1e7, -1e7)}, {"mirrored": True}])
def test_an_answer_gives_the_area_it_told(answer, areas, moved):
    rows = trail("Bed", turned(BOW, **moved))
    shapes, findings, measured, _ = shaped(rows, ("Bed", answer))
    found = crossing_of(findings, "Bed")
    assert (found.severity, found.answers, found.answer) == (
        Severity.STOP, ("reverse", "split", "drop"), answer,
    )  # fmt: skip
    assert (found.is_open, found.answered_by, found.answered_at) == (False, "ann", "2026-05-13")
    assert [row.area.value for row in measured.areas] == pytest.approx(areas, abs=2e-6)
    told = [found.data["part_1"], found.data["part_2"]] if answer == "split" else [found.data[TOLD[answer]]]
    assert [row.area.value for row in measured.areas] == pytest.approx(told, abs=1e-9)
    assert [shape.place for shape in shapes] == ["Bed", "Bed/2"][: len(areas)]
    assert all(row.area.sigma > 0 for row in measured.areas)


def test_without_an_answer_the_outline_stays_as_walked_and_stops():
    shapes, findings, _, _ = shaped(trail("Bed", BOW))
    assert crossing_of(findings, "Bed").is_open
    assert len(shapes[0].pieces[0].points) == 4


@pytest.mark.parametrize("answer", ["reverse", "drop", "split"])
def test_the_sigma_of_a_mended_area_is_that_of_finite_differences_of_the_whole_way(answer):
    rows = trail("Bed", [(x, y, 80 + 0.01 * x * y) for x, y in DENTED])
    _, findings, measured, positions = shaped(rows, ("Bed", answer))
    if answer not in crossing_of(findings, "Bed").answers:
        pytest.fail("the outline was to take every answer")
    step, gradients = 1e-5, []
    for i in range(len(rows)):
        for axis in (0, 1):
            both = []
            for sign in (1, -1):
                xy = positions.xy.copy()
                xy[i, axis] += sign * step
                both.append(
                    np.array([row.area.value for row in shaped(rows, ("Bed", answer), xy=xy)[2].areas])
                )
            gradients.append((both[0] - both[1]) / (2 * step))
    g = np.array(gradients).T
    sigmas = np.sqrt(np.einsum("ai,ij,aj->a", g, positions.plan, g))
    assert [row.area.sigma for row in measured.areas] == pytest.approx(sigmas, rel=1e-6)


def test_a_reversed_outline_with_an_arc_keeps_the_arc():
    # Half a circle of radius 2 on a square of side 4, two corners exchanged: 16 + 2 pi when put right.
    points = [(0, 0), (4, 0), (0, 4), (2, 6), (4, 4), (0, 0)]
    rows = trail("Bed", points, ["", "", "", "curve", "curve-end", ""])
    _, findings, measured, _ = shaped(rows, ("Bed", "reverse"))
    assert crossing_of(findings, "Bed").data["reversed_area"] == pytest.approx(16 + 2 * np.pi, abs=1e-9)
    assert measured.areas[0].area.value == pytest.approx(16 + 2 * np.pi, abs=1e-9)
    assert measured.areas[0].perimeter.value == pytest.approx(12 + 2 * np.pi, abs=1e-9)
    assert [(s.length.value, s.radius is None) for s in measured.sides] == [
        (pytest.approx(4), True), (pytest.approx(4), True), (pytest.approx(2 * np.pi), False), (pytest.approx(4), True),
    ]  # fmt: skip


def test_an_outline_that_crosses_in_an_arc_takes_no_answer():
    points = [(0, 0), (5, 4), (10, 0), (10, 3), (0, 3), (0, 0)]
    rows = trail("Bed", points, ["", "curve", "curve-end", "", "", ""])
    _, findings, _, _ = shaped(rows, ("Bed", "reverse"))
    found = crossing_of(findings, "Bed")
    assert (found.answers, found.answer) == ((), None)
    assert found.remedy_text == (
        f"Correct the log: put stations {found.data['b']} to {found.data['c']} in reverse order, leave one of them "
        "out, or split there."
    )


def test_offsets_are_gone_by_before_an_area_is_told():
    # Walked 1 m inside the edges of a square of 10 m, looking along the walk to the left of the edge.
    points = [(1, 1), (9, 1), (1, 9), (9, 9), (1, 1)]
    rows = trail("Bed", points, offset=-1.0)
    for answer, area in (("reverse", 100.0), ("split", None)):
        _, findings, measured, _ = shaped(rows, ("Bed", answer))
        found = crossing_of(findings, "Bed")
        told = (
            [found.data["reversed_area"]]
            if answer == "reverse"
            else [found.data["part_1"], found.data["part_2"]]
        )
        assert [row.area.value for row in measured.areas] == pytest.approx(told, abs=1e-9)
        assert all("edges moved by the offsets" in row.tags.method for row in measured.areas)
        if area:
            assert measured.areas[0].area.value == pytest.approx(area, abs=1e-9)


def test_a_hole_that_crosses_comes_off_its_area_once_it_is_answered():
    rows = trail("Lawn", [(-5, -5), (20, -5), (20, 20), (-5, 20), (-5, -5)]) + trail(
        "Bed", BOW, hole_in="Lawn"
    )
    _, findings, measured, _ = shaped(rows)
    assert [f.place for f in findings if f.is_open] == ["Bed", "Lawn"]
    _, findings, measured, _ = shaped(rows, ("Bed", "reverse"))
    assert [f.place for f in findings if f.is_open] == []
    assert measured.areas[0].area.value == pytest.approx(625 - 80, abs=1e-9)
    _, _, measured, _ = shaped(rows, ("Bed", "split"))
    assert [row.area.value for row in measured.areas] == pytest.approx([625 - 40, 20, 20], abs=1e-9)
    assert [row.hole_in for row in measured.areas] == ["", "Lawn", "Lawn"]


# The corners of an octagon of radius 10, two pairs of them exchanged: two crossings, its area when put right.
OCTAGON = [(10 * np.cos(k * np.pi / 4), 10 * np.sin(k * np.pi / 4)) for k in range(8)]
TWICE = [OCTAGON[k] for k in (0, 2, 1, 3, 4, 6, 5, 7, 0)]
NESTED = [OCTAGON[k] for k in (0, 6, 5, 3, 4, 2, 1, 7, 0)]
WHOLE = 200 * np.sqrt(2)


def test_the_next_crossing_is_asked_about_at_a_place_of_its_own():
    rows = trail("Bed", TWICE)
    _, findings, _, _ = shaped(rows, ("Bed", "reverse"))
    first, second = (f for f in findings if f.code == "GE-01")
    assert (first.place, first.answer) == ("Bed", "reverse")
    assert second.is_open
    assert second.place == "Bed+W1:6"
    _, findings, measured, _ = shaped(rows, ("Bed", "reverse"), ("Bed+W1:6", "reverse"))
    assert [f.answer for f in findings if f.code == "GE-01"] == ["reverse", "reverse"]
    assert measured.areas[0].area.value == pytest.approx(WHOLE, abs=1e-9)


def test_one_answer_never_settles_two_crossings():
    rows = trail("Bed", TWICE)
    _, findings, _, _ = shaped(rows, ("Bed+W1:6", "reverse"))
    assert [f.place for f in findings if f.code == "GE-01"] == ["Bed"]
    assert findings[0].is_open


@pytest.mark.parametrize(("points", "place", "count"), [(TWICE, "Bed+W1:6", 3), (NESTED, "Bed/2", 3)])
def test_a_split_part_that_crosses_again_is_asked_about_and_split_in_its_turn(points, place, count):
    rows = trail("Bed", points)
    _, findings, _, _ = shaped(rows, ("Bed", "split"))
    assert [(f.place, f.is_open) for f in findings if f.code == "GE-01"] == [("Bed", False), (place, True)]
    shapes, findings, measured, _ = shaped(rows, ("Bed", "split"), (place, "split"))
    assert [f.is_open for f in findings if f.code == "GE-01"] == [False, False]
    assert len({shape.place for shape in shapes}) == count
    faces = polygonize(unary_union(LineString(points)))
    assert sorted(row.area.value for row in measured.areas) == pytest.approx(
        sorted(face.area for face in faces), abs=1e-9
    )


def test_split_parts_take_the_next_free_number():
    other = trail("Bed", [(50, 0), (60, 0), (60, 10), (50, 0)], part="2")
    shapes, _, _, _ = shaped(trail("Bed", BOW) + other, ("Bed", "split"))
    assert [shape.place for shape in shapes] == ["Bed", "Bed/3", "Bed/2"]


def test_parts_of_a_split_outline_name_no_station_at_the_crossing_and_lie_in_the_mean_height():
    rows = trail("Bed", [(x, y, 80 + i) for i, (x, y) in enumerate(BOW)])
    _, _, measured, _ = shaped(rows, ("Bed", "split"))
    assert {(leg.start, leg.end) for leg in measured.legs if leg.tags.part == ""} == {
        ("1", "2"), ("2", ""), ("", "5"),
    }  # fmt: skip
    corner = next(leg for leg in measured.legs if leg.end == "" and leg.tags.part == "")
    # Half way from station 2 (81) to 3 (82), and half way from 4 (83) to the mean of 1 and 5 (82).
    assert corner.run.points[-1] == pytest.approx((5, 4, (81.5 + 82.5) / 2))


def test_a_tangle_as_walked_is_put_right_and_stays_one_run():
    angle = np.linspace(0, 2 * np.pi, 41)
    ring = [(10 * np.cos(a), 10 * np.sin(a)) for a in angle]
    tangled = [*ring[:10], *ring[19:9:-1], *ring[20:]]
    rows = trail("Pond", tangled, ["", *["as-walked"] * 40])
    for row in rows[1:-1]:
        row["hold"] = 0.0
    shapes, _, measured, _ = shaped(rows, ("Pond", "reverse"))
    clean = 0.5 * 40 * 100 * np.sin(2 * np.pi / 40)
    assert measured.areas[0].area.value == pytest.approx(clean, abs=1e-9)
    assert len(shapes[0].pieces[0].legs) == 1
    assert len(measured.sides) == 1
    assert len(shapes[0].rows) == 41


def test_an_answer_that_is_not_offered_is_not_taken():
    square = [(0, 0), (10, 0), (10, 3), (-1, 3), (5, 3.5), (5, -2), (4, -2), (4, 5), (0, 5), (0, 0)]
    _, findings, _, _ = shaped(trail("Bed", square), ("Bed", "drop"))
    found = crossing_of(findings, "Bed")
    assert "drop" not in found.answers
    assert found.is_open


def test_a_side_item_stays_with_the_station_that_names_it():
    rows = trail("Bed", BOW)
    for row, item in zip(rows, ("", "TO-2", "TO-3", "TO-4", "TO-1")):
        row["side_item"] = item
    _, _, measured, _ = shaped(rows, ("Bed", "reverse"))
    assert [(s.run.points[-1][0], s.run.points[-1][1], s.item) for s in measured.sides] == [
        (10, 0, "TO-2"), (10, 8, "TO-4"), (0, 8, "TO-3"), (0, 0, "TO-1"),
    ]  # fmt: skip


def test_mended_areas_of_drawn_stations_scatter_as_their_sigma_says():
    rows = trail("Bed", DENTED)
    _, _, measured, positions = shaped(rows, ("Bed", "split"))
    rng = np.random.default_rng(5)
    drawn = []
    for _ in range(400):
        moved = noisy(positions, rng)
        drawn.append([row.area.value for row in shaped(rows, ("Bed", "split"), xy=moved.xy)[2].areas])
    spread = np.std(np.array(drawn), axis=0)
    # 400 draws know a standard deviation to 3.5 %.
    assert [row.area.sigma for row in measured.areas] == pytest.approx(spread, rel=0.12)


def test_random_tangles_give_what_they_told_or_take_no_answer():
    rng = np.random.default_rng(11)
    seen = 0
    for _ in range(60):
        points = rng.uniform(0, 10, (rng.integers(5, 9), 2))
        rows = trail("Bed", [*map(tuple, points), tuple(points[0])])
        for answer in shaped(rows)[1][0].answers if shaped(rows)[1] else ():
            seen += 1
            _, findings, measured, _ = shaped(rows, ("Bed", answer))
            found = crossing_of(findings, "Bed")
            told = (
                [found.data["part_1"], found.data["part_2"]]
                if answer == "split"
                else [found.data[TOLD[answer]]]
            )
            assert [row.area.value for row in measured.areas] == pytest.approx(told, abs=1e-9)
    assert seen > 60


def test_a_hole_with_a_further_open_crossing_still_keeps_its_area_out():
    rows = trail("Lawn", [(-20, -20), (20, -20), (20, 20), (-20, 20), (-20, -20)])
    rows += trail("Bed", TWICE, hole_in="Lawn")
    _, findings, _, _ = shaped(rows, ("Bed", "reverse"))
    assert [f.place for f in findings if f.is_open] == ["Bed+W1:11", "Lawn"]


def test_an_open_stop_at_a_place_within_a_part_keeps_every_part_of_the_feature_out():
    for place in ("Bed/a+W1:6", "Bed+W1:6", "Bed/a"):
        _, _, measured, _ = shaped(trail("Bed", BOW, part="a"), ("Bed/a", "reverse"))
        stop = Finding("GE-01", Severity.STOP, place, "", "", feature="Bed")
        survey = withhold(_survey(measured), [stop])
        assert [(row.area, row.tags.finding) for row in survey.areas] == [(None, "GE-01")]


def _survey(measured):
    placement = PlacementRow("not placed", "", None, None, None, "", None, None)
    return Survey(
        "s", None, measured.areas, measured.lengths, measured.spots, measured.sides, measured.legs,
        (), (), (), placement, (),
    )  # fmt: skip
