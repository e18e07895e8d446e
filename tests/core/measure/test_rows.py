# SPDX-License-Identifier: GPL-2.0-or-later
"""The figures of rows against closed forms: slopes, falls, bearings, holes, and what rows carry."""

from __future__ import annotations

import numpy as np
import pytest
from fake_positions import FakePositions, trail, walk_of

from plugin.core.findings import Decisions
from plugin.core.measure.shapes import measure_shapes
from plugin.core.shape.features import shape_features


def measured(rows, grid_turn=0.0, sigma=0.0):
    walk = walk_of(rows)
    n = len(walk)
    positions = FakePositions([walk], sigma**2 * np.eye(2 * n), sigma**2 * np.eye(n))
    shapes, _ = shape_features(positions, Decisions())
    return measure_shapes(shapes, positions, site="Yard", sigma_from={"W1": "assumed"}, grid_turn=grid_turn)


def sloping(p, q, corners=((0, 0), (9, 0), (9, 1.5), (0, 1.5), (0, 0))):
    return trail("Ramp", [(x, y, 84.26 + p * x + q * y) for x, y in corners])


def test_a_ramp_of_one_in_fifteen_has_its_sloped_area_and_fall():
    row = measured(sloping(-0.6 / 9, 0.0)).areas[0]
    assert row.area.value == pytest.approx(13.5, abs=1e-12)
    assert row.sloped_area.value == pytest.approx(13.530, abs=5e-4)
    assert row.fall.value == pytest.approx(1 / 15, abs=1e-12)
    assert row.fall_bearing.value == pytest.approx(90.0)


@pytest.mark.parametrize(("p", "q", "bearing"), [(0, -0.02, 0), (-0.02, 0, 90), (0, 0.02, 180), (0.02, 0, 270),
                                                 (0.02, -0.02, 315)])  # fmt: skip
def test_the_bearing_is_where_the_plane_falls_to_clockwise_from_y(p, q, bearing):
    assert measured(sloping(p, q)).areas[0].fall_bearing.value == pytest.approx(bearing, abs=1e-6)


def test_a_grid_turned_anticlockwise_from_the_plane_takes_its_turn_off_the_bearing():
    row = measured(sloping(-0.02, 0.0), grid_turn=np.radians(27.5)).areas[0]
    assert row.fall_bearing.value == pytest.approx(62.5)


def test_a_level_area_falls_nowhere_but_its_fall_still_has_a_sigma():
    row = measured(sloping(0.0, 0.0), sigma=0.01).areas[0]
    assert (row.fall.value, row.fall_bearing) == (0.0, None)
    assert row.fall.sigma > 0.0
    assert row.sloped_area.value == pytest.approx(row.area.value)


def test_heights_in_one_line_give_no_plane():
    row = measured(trail("P", [(0, 0, 1), (5, 0, 1.1), (10, 0, 1.2), (5, 5)])).areas[0]
    assert (row.sloped_area, row.fall) == (None, None)
    assert row.area.value == pytest.approx(25)


def test_gradients_are_positive_up_along_the_walk():
    row = measured(trail("L", [(0, 0, 1.0), (3, 4, 1.5), (6, 8, 1.25)], geometry="length")).lengths[0]
    assert (row.length.value, row.rise.value, row.gradient.value) == pytest.approx((10, 0.25, 0.025))
    assert row.slope_length.value == pytest.approx(np.hypot(5, 0.5) + np.hypot(5, 0.25))
    legs = measured(trail("L", [(0, 0, 1.0), (3, 4, 1.5), (6, 8, 1.25)], geometry="length")).legs
    assert [leg.gradient.value for leg in legs] == pytest.approx([0.1, -0.05])


def test_steps_walked_straight_up_have_no_gradient_where_there_is_no_run():
    rows = measured(trail("Steps", [(0, 0, 0.0), (0, 0, 0.14), (0.35, 0, 0.14)], geometry="length"))
    assert rows.legs[0].gradient is None
    assert rows.legs[0].slope_length.value == pytest.approx(0.14)
    assert rows.lengths[0].slope_length.value == pytest.approx(0.49)


def test_rows_carry_what_the_log_says_of_the_feature():
    rows = trail("Court", [(0, 0), (10, 0), (10, 8), (0, 0)], item="PAV-01", status="new", surface="finished",
                 option="A", phase="2")  # fmt: skip
    rows[1]["note"] = "loose kerb"
    tags = measured(rows).areas[0].tags
    assert (tags.site, tags.walk, tags.feature, tags.sigma_from) == ("Yard", "W1", "Court", "assumed")
    assert (tags.item, tags.status, tags.surface, tags.option, tags.phase) == (
        "PAV-01",
        "new",
        "finished",
        "A",
        "2",
    )
    assert tags.note == "loose kerb"


def test_every_ring_is_closed_the_outer_anticlockwise_and_holes_the_other_way():
    outer = [(0, 0), (0, 8), (10, 8), (10, 0), (0, 0)]
    hole = [(2, 2), (4, 2), (4, 4), (2, 4), (2, 2)]
    rows = measured(trail("P", outer) + trail("H", hole, hole_in="P"))
    first, second = rows.areas[0].outline
    for ring, sign in ((first, 1), (second, -1)):
        xy = ring.points[:, :2]
        assert (xy[0] == xy[-1]).all()
        assert np.sign((xy[:-1, 0] * xy[1:, 1] - xy[1:, 0] * xy[:-1, 1]).sum()) == sign
        assert len(ring.bulge) == len(ring.points) - 1


@pytest.mark.parametrize("count", [90, 180])
def test_a_run_as_walked_has_one_sigma_whether_told_from_one_block_or_row_by_row(count):
    angle = np.linspace(0, 2 * np.pi, count + 1)
    points = np.column_stack([9 * np.cos(angle), 6 * np.sin(angle)])
    rows = trail("R", points, ["", *["as-walked"] * count], hold=0.0)
    out = measured(rows, sigma=0.01)
    assert len(out.sides) == len(out.legs) == 1
    assert out.sides[0].length.sigma == pytest.approx(out.areas[0].perimeter.sigma, rel=1e-9)
    assert out.legs[0].length.sigma == pytest.approx(out.areas[0].perimeter.sigma, rel=1e-9)


def test_the_sigma_of_a_bearing_is_that_of_the_height_across_the_fall():
    row = measured(sloping(-0.05, 0.0, ((-1, -1), (1, -1), (1, 1), (-1, 1))), sigma=0.001).areas[0]
    # Slopes of four heights at the corners of a square of 2 m: sigma / 2 each; the bearing turns by dq / p.
    assert row.fall_bearing.sigma == pytest.approx(np.degrees(0.001 / 2 / 0.05), rel=2e-3)


def test_the_bearing_of_a_fall_lost_in_the_noise_is_any():
    row = measured(sloping(-1e-9, 0.0), sigma=0.01).areas[0]
    assert row.fall_bearing.sigma == pytest.approx(180 / np.sqrt(3))


def test_a_full_circle_turns_through_a_whole_turn_for_certain():
    points = [(3 + 2 * np.cos(a), 4 + 2 * np.sin(a)) for a in np.radians([10, 130, 260, 10])]
    side = measured(trail("C", points, ["", "curve", "curve", "curve-end"]), sigma=0.01).sides[0]
    assert (side.radius.value, side.sweep.value) == pytest.approx((2.0, 2 * np.pi))
    assert side.sweep.sigma == pytest.approx(0.0, abs=1e-9)
    assert side.radius.sigma == pytest.approx(side.length.sigma / (2 * np.pi), rel=1e-9)


def test_straights_have_neither_radius_nor_sweep():
    assert {(s.radius, s.sweep) for s in measured(sloping(0.0, 0.0)).sides} == {(None, None)}
