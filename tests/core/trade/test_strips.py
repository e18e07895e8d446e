# SPDX-License-Identifier: GPL-2.0-or-later
"""Front, centre and back of strips, and straight units on curves."""

from __future__ import annotations

import math

import numpy as np
import pytest
from trade_lines import arc, box, circle, mirrored, moved, spread, straight

from plugin.core.errors import BadInput
from plugin.core.trade.lines import draw_line
from plugin.core.trade.strips import fit_units, offset_line, offset_quantity, swept
from plugin.core.trade.worth import PointWorth

MIXED = draw_line(
    np.array([[0, 0, 0], [4, 0, 0], [6, 1, 0], [7, 3, 0], [7, 8, 0], [3, 9, 0]], float),
    np.array([0, 0, 1, 0, 0, 0], bool),
)


@pytest.mark.parametrize("by", [0.15, -0.15, 2.0])
def test_an_arc_moves_about_its_centre(by):
    assert offset_line(arc(5.0, 1.3), by).length == pytest.approx((5.0 - by) * 1.3, rel=1e-14)
    assert offset_line(arc(5.0, -1.3), by).length == pytest.approx((5.0 + by) * 1.3, rel=1e-14)


def test_corners_are_mitred():
    assert offset_line(box(10, 5), 1.0).length == pytest.approx(2 * (8 + 3))
    assert offset_line(box(10, 5), -1.0).length == pytest.approx(2 * (12 + 7))
    assert offset_line(straight((0, 0), (10, 0), (10, 5)), 1.0).length == pytest.approx(9 + 4)


def test_a_whole_circle_moves_inward_to_the_left():
    assert offset_line(circle(5.0), 1.0).length == pytest.approx(2 * math.pi * 4.0, rel=1e-14)
    assert offset_line(circle(5.0).reversed(), 1.0).length == pytest.approx(2 * math.pi * 4.0, rel=1e-14)


@pytest.mark.parametrize("by", [0.0, 0.4, -0.4])
def test_the_sigma_of_a_moved_line_is_that_of_draws(by):
    told = offset_quantity(offset_line(MIXED, by), PointWorth(0.01, 0.01), 0.0)
    found = spread(lambda line: offset_line(line, by).length, 0.01, MIXED)
    assert told.sigma == pytest.approx(found, rel=0.06)


def test_moved_far_turned_reversed_and_mirrored_it_is_as_long():
    near = offset_line(MIXED, 0.4)
    far = offset_line(moved(MIXED, (3e7, -1e7, 0.0), 2.0), 0.4)
    assert far.length == pytest.approx(near.length, abs=2e-7)
    assert far.squares == pytest.approx(near.squares, rel=1e-6)
    for other in (MIXED.reversed(), mirrored(MIXED)):
        assert offset_line(other, -0.4).length == pytest.approx(near.length, rel=1e-13)
        assert offset_line(other, -0.4).squares == pytest.approx(near.squares, rel=1e-12)


@pytest.mark.parametrize(
    ("line", "by", "words"),
    [
        (
            arc(0.5, 1.0),
            0.6,
            (
                "Edge 1, 0.500 m long, has no room for 0.600 m to its inner side: its radius or its corners are too tight. "
                "Give a smaller thickness, or draw the line along the other side."
            ),
        ),
        (
            box(3.0, 1.0),
            0.5,
            (
                "Edge 2, 1.000 m long, has no room for 0.500 m to its inner side: its radius or its corners are too tight. "
                "Give a smaller thickness, or draw the line along the other side."
            ),
        ),
    ],
)
def test_a_strip_without_room_is_refused(line, by, words):
    with pytest.raises(BadInput) as told:
        offset_line(line, by)
    assert str(told.value) == words


def test_straight_units_go_round_a_curve_down_to_the_radius_of_the_rule():
    """trade.md: u^2 / 8R at 10 mm, units of 0.915 m, R >= 10.5 m (common practice, no source)."""
    least = 0.915**2 / (8 * 0.010)
    assert least == pytest.approx(10.465, abs=0.001)
    assert fit_units(arc(10.5, 1.0), 0.0, 0.915).radius == 0.0
    tight = fit_units(arc(10.4, 1.0), 0.0, 0.915)
    assert (tight.straight, tight.radius) == (0.0, pytest.approx(10.4))
    assert tight.sag == pytest.approx(0.915**2 / (8 * 10.4))


def test_units_are_counted_run_by_run():
    line = draw_line(
        np.array(
            [[0, 0, 0], [5, 0, 0], [5 + 2 * math.sin(0.5), 2 - 2 * math.cos(0.5), 0], [7, 2, 0], [7, 6, 0]]
        ),
        np.array([0, 0, 1, 0, 0], bool),
    )
    units = fit_units(line, 0.0, 1.0)
    assert (units.straight_units, units.radius_units) == (5 + 4, 4)  # an arc of pi metres
    assert units.straight == pytest.approx(9.0)
    assert units.radius == pytest.approx(math.pi)
    with pytest.raises(BadInput, match=r"A unit is 0\.0 m long and may sag 0\.01 m\. Give both above 0\."):
        fit_units(line, 0.0, 0.0)


def test_a_length_that_units_fill_to_the_rounding_takes_no_unit_more():
    assert fit_units(straight((0, 0), (0.1 * 3, 0)), 0.0, 0.1).straight_units == 3


def test_what_a_section_sweeps_is_its_area_along_its_centroid():
    """A ring of square section, by Pappus and by the difference of two cylinders."""
    ring = circle(5.0)
    volume = 0.4 * swept(ring, 0.2, np.ones(1), np.ones(1) * 1.0)
    assert volume == pytest.approx(math.pi * (25 - 4.6**2), rel=1e-13)
