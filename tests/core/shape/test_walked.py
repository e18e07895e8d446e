# SPDX-License-Identifier: GPL-2.0-or-later
"""As-walked edges as straights and tangent arcs: what is drawn, what is said of it, and what stays as recorded."""

from __future__ import annotations

import numpy as np
import pytest
from fake_positions import FakePositions, drifting, trail, walk_of

from plugin.core.errors import BadInput
from plugin.core.findings import Decision, Decisions
from plugin.core.measure.shapes import measure_shapes
from plugin.core.shape.features import shape_features
from plugin.core.shape.fit import smooth
from plugin.core.shape.records import LegShape
from plugin.core.shape.spread import Spread
from plugin.core.shape.trace import station_node
from plugin.core.shape.walked import row_sigma

SIGMA = 0.004
"""Metres, each axis, of every row for itself."""


def along(corners, step=0.25):
    """Places at even distances along a line of straights, its corners among them."""
    out = [corners[0]]
    for a, b in zip(corners, corners[1:]):
        n = round(np.hypot(b[0] - a[0], b[1] - a[1]) / step)
        out += [(a[0] + (b[0] - a[0]) * k / n, a[1] + (b[1] - a[1]) * k / n) for k in range(1, n + 1)]
    return out


def bow(centre, radius, first, last, step=0.25):
    """Places along an arc between two angles in degrees."""
    n = round(abs(np.radians(last - first)) * radius / step)
    turn = np.radians(np.linspace(first, last, n + 1))
    return [(centre[0] + radius * np.cos(a), centre[1] + radius * np.sin(a)) for a in turn]


RECTANGLE = along([(4, 0), (8, 0), (8, 6), (0, 6), (0, 0), (4, 0)])
STADIUM = [
    *along([(4, 0), (8, 0)]), *bow((8, 3), 3.0, -90, 90)[1:], *along([(8, 6), (0, 6)])[1:],
    *bow((0, 3), 3.0, 90, 270)[1:], *along([(0, 0), (4, 0)])[1:],
]  # fmt: skip


def walked(points, feature="Lawn", geometry="area", **more):
    """Rows as walked; the first and the last are stood on."""
    rows = trail(feature, points, ["", *["as-walked"] * (len(points) - 1)], geometry, **more)
    for row in rows[1:-1]:
        row["hold"] = 0.0
    return rows


def shaken(points, sigma=SIGMA, seed=1):
    xy = np.array(points)[:, :2] + np.random.default_rng(seed).normal(0.0, sigma, (len(points), 2))
    return [(*p, *q[2:]) for p, q in zip(map(tuple, xy.tolist()), points)]


def placed(rows, sigma=SIGMA):
    walk = walk_of(rows)
    n = len(walk)
    return FakePositions([walk], sigma**2 * np.eye(2 * n), sigma**2 * np.eye(n))


def shaped(rows, tolerance=0.05, sigma=SIGMA, *answers):
    positions = placed(rows, sigma)
    shapes, findings = shape_features(positions, Decisions(answers), as_walked=tolerance)
    return shapes, findings, measure_shapes(shapes, positions, site="s", sigma_from={})


def moved(points, turn=0.0, shift=0.0, *, mirrored=False, backwards=False):
    spin = np.exp(1j * turn)
    out = [complex(x, -y if mirrored else y) * spin + shift * (1 - 1j) for x, y in points]
    return [(p.real, p.imag) for p in (out[::-1] if backwards else out)]


def kinds(shape):
    return [leg.shape for leg in shape.pieces[0].legs]


WAYS = [{}, {"turn": 2.2}, {"shift": 1e7}, {"mirrored": True}, {"backwards": True}]


@pytest.mark.parametrize("way", WAYS)
def test_a_rectangle_walked_in_one_run_has_four_sides_and_its_corners(way):
    shapes, findings, rows = shaped(walked(moved(shaken(RECTANGLE), **way)))
    assert findings == ()
    (shape,) = shapes
    assert kinds(shape) == [LegShape.STRAIGHT] * 4
    # A corner is where two lines of 24 or 32 rows of 4 mm meet: known to 2 mm an axis, four times that is 8.
    true = np.array(
        moved([(8, 0), (8, 6), (0, 6), (0, 0)], **{k: v for k, v in way.items() if k != "backwards"})
    )
    off = np.abs(shape.pieces[0].points[:, None, :2] - true[None]).max(axis=2).min(axis=0)
    assert off.max() < 0.008
    assert sorted(side.length.value for side in rows.sides) == pytest.approx([6, 6, 8, 8], abs=0.012)
    assert rows.areas[0].area.value == pytest.approx(48, abs=4 * rows.areas[0].area.sigma)
    # Each side of length L rests on its own rows: its place has sigma 4 mm/sqrt(n), 28 m of rim with 112 rows.
    assert rows.areas[0].area.sigma == pytest.approx(28 * SIGMA / np.sqrt(112), rel=0.15)


@pytest.mark.parametrize("way", WAYS)
def test_straights_and_arcs_meet_as_tangents_and_make_a_schedule_of_radii(way):
    (shape,), findings, rows = shaped(walked(moved(shaken(STADIUM), **way)))
    assert findings == ()
    arcs = [side for side in rows.sides if side.radius is not None]
    assert sorted(kinds(shape), key=str) == [LegShape.ARC] * 2 + [LegShape.STRAIGHT] * 2
    for arc in arcs:
        assert arc.radius.value == pytest.approx(3.0, abs=4 * arc.radius.sigma)
        assert 0.0 < arc.radius.sigma < 0.01
        turn = -np.pi if way.get("mirrored") or way.get("backwards") else np.pi
        assert arc.sweep.value == pytest.approx(turn, abs=4 * arc.sweep.sigma)
        assert "arc in plan, tangent at both ends, fitted to" in arc.tags.method
    assert [leg.radius for leg in rows.legs] == [pytest.approx(side.radius) for side in rows.sides]
    assert rows.areas[0].area.value == pytest.approx(48 + 9 * np.pi, abs=4 * rows.areas[0].area.sigma)
    assert rows.areas[0].perimeter.value == pytest.approx(
        16 + 6 * np.pi, abs=4 * rows.areas[0].perimeter.sigma
    )


def test_the_whole_words_of_a_straight_an_arc_and_their_area():
    _, _, rows = shaped(walked(STADIUM), sigma=0.0)
    straight, arc = (
        next(side for side in rows.sides if (side.radius is None) is plain) for plain in (True, False)
    )
    # A row exactly at a joint belongs to either side: rounding decides.
    assert straight.tags.method.split("; an arc")[0].replace("32 as", "31 as") == (
        "straight, tangent at both ends, fitted to 31 as-walked rows within 0.05 m: RMS 0.0000 m, largest 0.0000 m"
    )
    told, gain = arc.tags.method.split("; preferred to a straight by chi2 ")
    assert told.replace("38 as", "39 as") == (
        "arc in plan, tangent at both ends, fitted to 39 as-walked rows within 0.05 m: RMS 0.0000 m, largest 0.0000 m"
    )
    assert float(gain.split(";")[0]) > 1e3
    assert gain.endswith("; height even along it")
    assert rows.areas[0].tags.method.startswith(
        "plan area of exact edges: 2 straights and 2 arcs fitted to 140 as-walked rows within 0.05 m: RMS 0.0000 m, "
        "largest 0.0000 m; an arc preferred to a straight by chi2 "
    )


def test_every_row_is_on_one_piece_and_the_pieces_are_the_whole_outline():
    (shape,), _, _ = shaped(walked(shaken(STADIUM)))
    piece = shape.pieces[0]
    assert [(leg.first, leg.last) for leg in piece.legs] == [(0, 1), (1, 2), (2, 3), (3, 4)]
    rows = [row for leg in piece.legs for row in (*leg.start, *leg.passed, *leg.end)]
    assert sorted(rows) == list(range(len(STADIUM)))
    assert piece.sides == ((0,), (1,), (2,), (3,))
    assert all(leg.rms == leg.fit.rms > 0 for leg in piece.legs)


def test_the_item_of_the_runs_end_goes_on_all_its_pieces():
    rows = walked(shaken(STADIUM))
    rows[-1]["side_item"] = "KRB-01"
    _, _, measured = shaped(rows)
    assert [side.item for side in measured.sides] == ["KRB-01"] * 4


def test_a_run_between_stands_keeps_them_as_its_ends():
    points = along([(0, 0), (6, 0), (6, 5)])
    rows = trail("Path", points, ["", *["as-walked"] * (len(points) - 1)], "length")
    for k, row in enumerate(rows):
        row["hold"] = 1.0 if k in (0, 24, len(rows) - 1) else 0.0
    shaken_rows = [{**row, "x": p[0], "y": p[1]} for row, p in zip(rows, shaken(points))]
    (shape,), _, measured = shaped(shaken_rows)
    piece = shape.pieces[0]
    assert kinds(shape) == [LegShape.STRAIGHT] * 2
    assert piece.points[:, :2] == pytest.approx(
        np.array([[shaken_rows[k]["x"], shaken_rows[k]["y"]] for k in (0, 24, 44)]), abs=1e-12
    )
    assert [(leg.start, leg.end) for leg in measured.legs] == [("1", "25"), ("25", "45")]
    assert measured.lengths[0].length.sigma > 0


def test_a_ring_in_one_run_is_a_full_circle():
    ring = bow((2, 1), 4.0, 0, 360)
    (shape,), findings, rows = shaped(walked(shaken(ring)))
    assert findings == ()
    assert kinds(shape) == [LegShape.CIRCLE]
    assert rows.sides[0].radius.value == pytest.approx(4.0, abs=4 * rows.sides[0].radius.sigma)
    # The radius is the mean of n distances of 4 mm.
    assert rows.sides[0].radius.sigma == pytest.approx(SIGMA / np.sqrt(len(ring) - 1), rel=0.1)


def test_a_ragged_edge_stays_as_recorded_and_says_so():
    points = shaken(RECTANGLE, 0.08)
    points[-1] = points[0]
    (shape,), _, rows = shaped(walked(points))
    assert kinds(shape) == [LegShape.AS_WALKED]
    assert rows.sides[0].tags.method == (
        "as walked (chords as recorded, row noise not taken off): no straight or arc within 0.05 m that the 112 rows "
        "speak for"
    )
    _, _, plain = shaped(walked(points), None)
    assert rows.areas[0].area == plain.areas[0].area


def test_a_ragged_stretch_stays_as_recorded_between_straights():
    points = np.array(along([(0, 0), (30, 0)], 0.1))
    points[:, 1] += np.random.default_rng(3).normal(0, 0.01, len(points))
    points[120:170, 1] += np.random.default_rng(4).normal(0, 0.2, 50)
    (shape,), _, rows = shaped(walked([*map(tuple, points)], geometry="length"), 0.06, 0.01)
    assert kinds(shape) == [LegShape.STRAIGHT, LegShape.AS_WALKED, LegShape.STRAIGHT]
    assert "no straight or arc within 0.06 m that the" in rows.legs[1].tags.method
    assert "1 arc" not in rows.lengths[0].tags.method
    assert rows.lengths[0].tags.method.startswith("plan length of exact edges: 2 straights fitted to ")
    assert "; as walked (chords as recorded" in rows.lengths[0].tags.method


def test_rows_that_drift_together_are_no_arcs():
    """Straights of 36 rows whose errors add up from row to row, 5 mm each: bent by eye, and by chi-square of rows that
    are taken as independent in half of all draws; by their own covariance straight."""
    n = len(RECTANGLE)
    plan, height = drifting(n, leg=0.005, stand=1e-4, scale=0.0)
    root = np.linalg.cholesky(plan)
    for seed in range(12):
        noise = (root @ np.random.default_rng(seed).normal(size=2 * n)).reshape(n, 2)
        walk = walk_of(walked([*map(tuple, np.array(RECTANGLE) + noise)]))
        shapes, _ = shape_features(FakePositions([walk], plan, height), Decisions(), as_walked=0.08)
        assert LegShape.ARC not in kinds(shapes[0]), seed


def test_the_sigma_of_a_row_is_its_own_where_rows_err_alone_and_leaves_out_what_all_share():
    walk = walk_of(walked(along([(0, 0), (20, 0)])))
    n = len(walk)
    shared = np.kron(np.ones((n, n)), np.eye(2)) * 3.0**2
    positions = FakePositions([walk], SIGMA**2 * np.eye(2 * n) + shared, np.zeros((n, n)))
    nodes = [station_node(positions, [k]) for k in range(n)]
    assert row_sigma(nodes, Spread(positions, range(n))) == pytest.approx(SIGMA, rel=1e-6)
    # Errors that add up, s a row: off the straight nearest to N of them by s sqrt(N/15) for large N.
    plan, height = drifting(n, leg=0.005, stand=0.0, scale=0.0)
    adding = FakePositions([walk], plan, height)
    assert row_sigma(nodes, Spread(adding, range(n))) == pytest.approx(0.005 * np.sqrt(31 / 15), rel=0.1)


def test_an_offset_moves_what_was_fitted_in_parallel():
    (shape,), findings, rows = shaped(walked(shaken(STADIUM), offset=0.5))
    assert findings == ()
    radii = [side.radius.value for side in rows.sides if side.radius]
    # Walked to the left, half a metre inside of the edge as seen from there: the true edge lies to the left.
    assert radii == pytest.approx([2.5, 2.5], abs=0.012)
    assert rows.areas[0].area.value == pytest.approx(8 * 5 + 2.5**2 * np.pi, abs=4 * rows.areas[0].area.sigma)
    assert "edges moved by the offsets" in rows.areas[0].tags.method
    assert shape.pieces[0].offset


def test_rows_of_different_offsets_stay_as_recorded_and_say_so():
    rows = walked(shaken(RECTANGLE))
    for row in rows[40:]:
        row["offset"] = 0.2
    (shape,), _, measured = shaped(rows)
    assert kinds(shape) == [LegShape.AS_WALKED]
    assert measured.sides[0].tags.method == (
        "as walked (chords as recorded, row noise not taken off): not fitted, for the 112 rows have different offsets"
    )


def test_too_few_rows_stay_as_recorded_and_say_so():
    for points in ([(0, 0), (1, 0), (1, 1)], [(0, 0), (1, 0)], [(0, 0), (1, 0), (1, 0), (1, 0), (1, 0)]):
        (shape,), _, rows = shaped(walked(points, geometry="length"))
        assert kinds(shape) == [LegShape.AS_WALKED]
        assert rows.legs[0].tags.method == (
            "as walked (chords as recorded, row noise not taken off): fewer than four different rows, too few to fit"
        )


def test_more_than_can_be_held_stays_as_recorded_and_says_so(monkeypatch):
    monkeypatch.setattr(smooth, "MOST_MOVES", 500)
    (shape,), _, rows = shaped(walked(shaken(STADIUM)))
    assert kinds(shape) == [LegShape.AS_WALKED]
    assert rows.sides[0].tags.method.endswith("not fitted, for 140 rows are too many to fit at once")


@pytest.mark.parametrize("tolerance", [0.0, -1.0, float("nan"), float("inf")])
def test_a_tolerance_that_is_none_is_refused(tolerance):
    with pytest.raises(BadInput) as told:
        shaped(walked(STADIUM), tolerance)
    assert str(told.value) == f"The tolerance of a fit is {tolerance} m. Give one above 0."


def test_without_a_tolerance_every_row_is_drawn_and_no_word_is_said_of_fits():
    (shape,), _, rows = shaped(walked(shaken(STADIUM)), None)
    assert len(shape.pieces[0].points) == len(STADIUM) - 1
    assert shape.pieces[0].legs[0].fit is None
    assert rows.sides[0].tags.method == "as walked (chords as recorded, row noise not taken off)"


@pytest.mark.parametrize("answer", ["reverse", "split"])
def test_a_fitted_outline_that_crosses_itself_is_mended(answer):
    """A bow tie of 10 by 8 m, walked in one run: two triangles of 20 m2, or put right 80 m2."""
    tie = along([(5, 0), (10, 0), (0, 8), (10, 8), (0, 0), (5, 0)])
    decision = Decision("GE-01", "Lawn", answer, "ann", "2026-05-13")
    shapes, (found,), rows = shaped(walked(shaken(tie)), 0.05, SIGMA, decision)
    assert (found.code, found.answer, "the split" in found.message) == ("GE-01", answer, False)
    wanted = [80.0] if answer == "reverse" else [20.0, 20.0]
    for area, value in zip(rows.areas, wanted):
        assert area.area.value == pytest.approx(value, abs=4 * area.area.sigma)
    assert len(rows.areas) == len(wanted)
    assert "2 straights fitted to" in rows.areas[0].tags.method or answer == "split"
    assert {leg.shape for shape in shapes for leg in shape.pieces[0].legs} == {LegShape.STRAIGHT}


def test_fitted_edges_of_neighbours_are_joined_without_gap():
    bed = [(8, -0.02), (8, -4), (0, -4), (0, -0.02), (8, -0.02)]
    rows = walked(shaken(RECTANGLE, 0.01)) + trail("Bed", bed)
    decision = Decision("GE-02", "Lawn+Bed", "join", "ann", "2026-05-13")
    shapes, findings, measured = shaped(rows, 0.05, 0.01, decision)
    (asked,) = findings
    assert (asked.code, asked.answer) == ("GE-02", "join")
    lawn, bed_row = measured.areas
    # The strip of 8 m by 2 cm is shared out; nothing is lost or counted twice.
    assert lawn.area.value + bed_row.area.value == pytest.approx(80.0, abs=0.15)
    shared = [side for side in measured.sides if side.other]
    assert [(side.tags.feature, side.owner, side.other) for side in shared] == [
        ("Lawn", "Lawn", "Bed"), ("Bed", "Lawn", "Lawn"),
    ]  # fmt: skip
    ends = [np.sort(side.run.points[[0, -1], 0]) for side in shared]
    assert ends[0] == pytest.approx(ends[1], abs=1e-9)
    assert [leg.fit is not None for leg in shapes[0].pieces[0].legs] == [True] * 4


def test_figures_move_with_every_row_as_their_sigma_says():
    """Central differences of the whole way, by every coordinate of every row."""
    rows = walked(shaken(STADIUM, 0.003)[::2])
    positions = placed(rows)

    def values(xy):
        at = FakePositions(positions.walks, positions.plan, positions.height, xy, positions.z)
        shapes, _ = shape_features(at, Decisions(), as_walked=0.05)
        area = measure_shapes(shapes, at, site="s", sigma_from={}).areas[0]
        return np.array([area.area.value, area.perimeter.value])

    # The first and last row are one vertex, their mean.
    step, moves = 1e-4, []
    for i in range(len(rows)):
        for k in (0, 1):
            shift = np.zeros_like(positions.xy)
            shift[i, k] = step
            moves.append((values(positions.xy + shift) - values(positions.xy - shift)) / (2 * step))
    sigmas = SIGMA * np.sqrt((np.array(moves) ** 2).sum(axis=0))
    _, _, measured = shaped(rows)
    area = measured.areas[0]
    # The fit is a Gauss-Newton one: its first-order changes leave out a term of the residuals by the radius (1e-3).
    assert [area.area.sigma, area.perimeter.sigma] == pytest.approx(sigmas, rel=5e-3)
