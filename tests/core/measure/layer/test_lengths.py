# SPDX-License-Identifier: GPL-2.0-or-later
"""Lengths, rises and gradients, beside closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from tests.core.measure.layer.layers import curves_from, lengths_of, shapes_from

LINES = [
    ("LINESTRING(0 0,3 4)", 5.0),
    ("LINESTRING(0 0,3 4,3 4,6 8)", 10.0),
    ("MULTILINESTRING((0 0,3 4),(10 0,10 1))", 6.0),
    ("CIRCULARSTRING(0 0,5 5,10 0)", 5 * np.pi),
    ("CIRCULARSTRING(0 0,5 0,10 0)", 10.0),
    ("CIRCULARSTRING(0 0,10 0,0 0)", 10 * np.pi),
    ("COMPOUNDCURVE((0 0,10 0),CIRCULARSTRING(10 0,15 5,20 0),(20 0,30 0))", 20 + 5 * np.pi),
]


@pytest.mark.parametrize(("text", "length"), LINES)
def test_lengths_are_exact(text, length):
    figures = lengths_of(curves_from(text))
    assert figures.length[0] == pytest.approx(length, rel=1e-14)
    assert np.isnan(figures.rise[0])


def test_sigma_of_one_straight_is_that_of_its_ends():
    assert lengths_of(shapes_from("LINESTRING(0 0,3 4)"), sigma=0.1).length_sigma[0] == pytest.approx(
        0.1 * np.sqrt(2)
    )


def test_points_on_the_way_that_repeat_are_no_points_of_their_own():
    once, twice = lengths_of(
        shapes_from("LINESTRING(0 0,3 4,6 8)", "LINESTRING(0 0,3 4,3 4,6 8)")
    ).length_sigma
    assert once == twice


def test_a_line_with_heights_has_rise_slope_and_gradient():
    figures = lengths_of(curves_from("LINESTRING Z(0 0 1,3 0 5,3 12 5)"), sigma=0.1)
    assert (figures.length[0], figures.rise[0], figures.slope[0]) == (15.0, 4.0, 5.0 + 12.0)
    assert figures.gradient[0] == pytest.approx(4 / 15)
    assert figures.rise_sigma[0] == pytest.approx(0.1 * np.sqrt(2))
    assert figures.gradient_sigma[0] == pytest.approx(
        np.hypot(0.1 * np.sqrt(2), 4 / 15 * figures.length_sigma[0]) / 15
    )


def test_an_arc_rises_evenly():
    figures = lengths_of(curves_from("CIRCULARSTRING Z(0 0 0,5 5 1.5,10 0 3)"))
    assert figures.slope[0] == pytest.approx(np.hypot(5 * np.pi, 3.0))


def test_lines_of_several_parts_have_no_rise_of_their_own():
    figures = lengths_of(curves_from("MULTILINESTRING Z((0 0 1,3 4 2),(10 0 5,10 1 5))"))
    assert figures.slope[0] == pytest.approx(np.hypot(5, 1) + 1)
    assert np.isnan([figures.rise[0], figures.gradient[0]]).all()


def test_slope_sigma_is_what_drawn_errors_show():
    sigma, draws = 0.002, 6000
    xyz = np.array([[0, 0, 0], [3, 1, 2], [4, 6, 2.5], [9, 6, 1.0]])
    draw = np.random.default_rng(3)
    texts = [
        f"LINESTRING Z({', '.join(f'{x!r} {y!r} {z!r}' for x, y, z in moved.tolist())})"
        for moved in xyz + draw.normal(0, sigma, (draws, 4, 3))
    ]
    drawn = lengths_of(curves_from(*texts))
    stated = lengths_of(
        curves_from(f"LINESTRING Z({', '.join(f'{x} {y} {z}' for x, y, z in xyz)})"), sigma=sigma
    )
    # 6,000 draws know a sigma to 0.9 %; 3 % is over three times that.
    for name in ("length", "slope", "rise", "gradient"):
        assert np.std(getattr(drawn, name)) == pytest.approx(getattr(stated, f"{name}_sigma")[0], rel=0.03)


def test_a_line_of_one_point_and_an_outline_are_refused():
    shapes = curves_from("LINESTRING(1 1,1 1)", "POLYGON((0 0,1 0,1 1,0 0))", None)
    figures = lengths_of(shapes)
    assert {k: f.message for k, f in figures.findings.items()} == {
        0: "1 point makes no line.",
        1: "The geometry is an outline, not a line.",
        2: "There is no geometry.",
    }
