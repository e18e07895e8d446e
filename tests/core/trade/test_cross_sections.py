# SPDX-License-Identifier: GPL-2.0-or-later
"""Sections of trenches: closed forms, slopes by differences, what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.trade.cross_sections import Cross, figures_of, refuse_cross

STEP = 1e-6


def figures(cross, width, depth, batter=0.0):
    told = figures_of(cross, np.array([float(width)]), np.array([float(depth)]), batter)
    return [float(v.value[0]) for v in (told.area, told.top, told.face)]


def test_upright_sides():
    assert figures(Cross.RECTANGULAR, 0.6, 1.2) == pytest.approx([0.72, 0.6, 3.0])


def test_a_trapezoid_of_one_in_two():
    assert figures(Cross.TRAPEZOID, 1.0, 0.5, 2.0) == pytest.approx([1.0, 3.0, 1.0 + math.sqrt(5.0)])


def test_a_trapezoid_without_a_foot_is_a_v():
    assert figures(Cross.TRAPEZOID, 0.0, 0.3, 3.0) == pytest.approx(figures(Cross.V, 1.8, 0.3))


def test_a_v_of_the_swale():
    assert figures(Cross.V, 1.8, 0.3) == pytest.approx([0.27, 1.8, 2.0 * math.hypot(0.9, 0.3)])


def test_a_half_round_pipe_trench():
    assert figures(Cross.ROUND, 1.0, 0.5) == pytest.approx([math.pi / 8.0, 1.0, math.pi / 2.0])


def test_a_segment_by_its_radius():
    """Chord 8 and rise 2: radius 5, half the sweep asin 0.8."""
    half = math.asin(0.8)
    area = 25.0 * half - 0.5 * 25.0 * math.sin(2.0 * half)
    assert figures(Cross.ROUND, 8.0, 2.0) == pytest.approx([area, 8.0, 10.0 * half])


def test_a_shallow_segment_is_two_thirds_of_its_box():
    assert figures(Cross.ROUND, 3.0, 1e-5)[0] == pytest.approx(2.0 / 3.0 * 3.0e-5, rel=1e-9)


@pytest.mark.parametrize("cross", list(Cross))
def test_no_depth_is_no_area_and_a_face_as_wide_as_the_foot(cross):
    assert figures(cross, 1.5, 0.0, 0.5) == pytest.approx([0.0, 1.5, 1.5])


@pytest.mark.parametrize("cross", list(Cross))
@pytest.mark.parametrize(("width", "depth"), [(1.8, 0.3), (0.6, 0.25), (4.0, 0.01)])
def test_changes_by_width_and_depth_are_those_of_differences(cross, width, depth):
    told = figures_of(cross, np.array([width]), np.array([depth]), 1.5)
    for k, one in enumerate((told.area, told.top, told.face)):
        by_width, by_depth = (
            (figures(cross, width + a, depth + b, 1.5)[k] - figures(cross, width - a, depth - b, 1.5)[k])
            / (2 * STEP)
            for a, b in ((STEP, 0.0), (0.0, STEP))
        )
        assert float(one.by_width[0]) == pytest.approx(by_width, abs=1e-8)
        assert float(one.by_depth[0]) == pytest.approx(by_depth, abs=1e-8)


@pytest.mark.parametrize(
    ("cross", "width", "depth", "batter", "words"),
    [
        (
            Cross.V, 0.0, 1.0, 0.0,
            "The width is 0 m somewhere along the line, which is no section. Note it, or give one above 0.",
        ),
        (
            Cross.TRAPEZOID, math.nan, 1.0, 1.0,
            "The width is nan m somewhere along the line, which is no section. Note it, or give one above 0.",
        ),
        (
            Cross.TRAPEZOID, 1.0, 1.0, -0.5,
            "The sides lean by -0.5 m per metre. Give 0 (upright) or more.",
        ),
        (
            Cross.ROUND, 1.0, 0.6, 0.0,
            ("A round bottom 1.000 m wide is at most half as deep, and it is 0.600 m. Choose another form, or correct width "
            "or depth."),
        ),
    ],
)  # fmt: skip
def test_sections_that_cannot_be_are_refused(cross, width, depth, batter, words):
    with pytest.raises(BadInput) as told:
        refuse_cross(cross, np.array([1.0, width]), np.array([0.1, depth]), batter)
    assert str(told.value) == words


def test_a_half_round_is_still_one():
    refuse_cross(Cross.ROUND, np.array([1.0]), np.array([0.5]), 0.0)
