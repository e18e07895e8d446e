# SPDX-License-Identifier: GPL-2.0-or-later
"""Sections of several surfaces with their features, their slopes from end to end, and volumes along a baseline."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.ground.crossed import PlanFeature, features_crossed
from plugin.core.ground.section import SectionCutter
from plugin.core.ground.sheet import NamedLine, SheetCutter, base_volumes, section_slope
from plugin.core.ground.stations import middles_between, stations_along
from plugin.core.segments import Curve
from tests.core.ground.test_section import SQUARE, TWO, scattered, surface_of
from tests.core.ground.test_stations import curve

FLAT = [(0, 0, 8), (10, 0, 8), (10, 10, 8), (0, 10, 8)]


def nothing(part):
    """Nobody watches."""


def test_a_section_has_its_rows_its_areas_and_its_features():
    bed = PlanFeature("bed", (curve([(2, 0), (6, 0), (6, 9), (2, 9), (2, 0)]),))
    cutter = SheetCutter([surface_of(SQUARE, TWO), surface_of(FLAT, TWO)])
    section = cutter.cut(NamedLine("A", np.array([(0.0, 4.0), (10.0, 4.0)])), [bed])
    assert [(c.chainage, c.name) for c in section.crossed] == [(2.0, "bed"), (6.0, "bed")]
    assert [row.chainage for row in section.rows] == pytest.approx([0, 2, 4, 6, 10])
    (areas,) = section.areas
    assert (areas.cut.area.value, areas.fill.area.value) == pytest.approx((18, 8))


def test_an_arc_of_a_feature_is_crossed_where_its_circle_is():
    round_bed = PlanFeature("round", (curve([(5, 0), (-5, 0), (5, 0)], [np.pi, np.pi]),))
    found = features_crossed(np.array([(-10.0, 3.0), (10.0, 3.0)]), [round_bed])
    assert [c.chainage for c in found] == pytest.approx([6, 14])


def test_the_box_of_a_feature_holds_its_widest_arc():
    """Five sixths of a circle on a short chord: the arc leaves the chord's box by far."""
    sweep = 10 * np.pi / 6
    part = Curve(np.array([(-0.5, 0, np.nan), (0.5, 0, np.nan)]), np.array([np.tan(sweep / 4)]))
    feature = PlanFeature("bulb", (part,))
    # An anticlockwise arc of more than half a turn from left to right hangs below its chord; radius 1.
    depth = 1.0 + np.sqrt(0.75)
    for x in (-0.999, 0.0, 0.999):
        found = features_crossed(np.array([(x, -5.0), (x, -0.5)]), [feature])
        assert found, x
    (bottom, *_) = features_crossed(np.array([(0.0, -5.0), (0.0, -0.5)]), [feature])
    assert bottom.chainage == pytest.approx(5.0 - depth)


def test_features_far_from_the_line_are_not_met_and_names_keep_their_order():
    here, there = (PlanFeature(name, (curve([(x, -1), (x, 1)]),)) for name, x in (("b", 3), ("a", 3)))
    far = PlanFeature("c", (curve([(50, 50), (60, 60)]),))
    found = features_crossed(np.array([(0.0, 0.0), (10.0, 0.0)]), [here, there, far])
    assert [(c.chainage, c.name) for c in found] == [(3.0, "a"), (3.0, "b")]


def test_the_slope_of_a_section_goes_from_its_first_level_to_its_last():
    section = SectionCutter(surface_of(SQUARE, TWO, sigma=0.02)).cut(np.array([(-3.0, 0.0), (14.0, 0.0)]))
    told = section_slope(section)
    assert (told.way.rise, told.way.run) == pytest.approx((10, 10))
    assert told.way.rise_sigma == pytest.approx(0.02 * np.sqrt(2))
    assert told.ground_length.value == pytest.approx(10 * np.sqrt(2))
    # One straight: its length moves with its rise by the sine of 45 degrees.
    assert told.ground_length.sigma == pytest.approx(0.02 * np.sqrt(2) * np.sqrt(0.5))
    assert told.levels == (0.0, 10.0)


def test_a_line_beside_the_surface_has_no_slope():
    section = SectionCutter(surface_of(SQUARE, TWO)).cut(np.array([(-3.0, -1.0), (14.0, -1.0)]))
    assert section_slope(section) is None


def test_the_grounds_length_has_the_sigma_of_draws():
    surface = scattered(60, 8, sigma=0.02)
    line = np.array([(3.0, 4.0), (17.0, 15.0)])
    told = section_slope(SectionCutter(surface).cut(line))
    rng = np.random.default_rng(4)
    drawn = []
    for _ in range(800):
        up = surface.sigma * rng.standard_normal(len(surface.points))
        moved = replace(surface, points=surface.points + np.column_stack([np.zeros((len(up), 2)), up]))
        drawn.append(section_slope(SectionCutter(moved).cut(line)).ground_length.value)
    # 800 draws know a sigma to 2.5 %; three times that.
    assert np.std(drawn) == pytest.approx(told.ground_length.sigma, rel=0.075)


def volumes(ground, formation, baseline, interval, widths):
    cutter = SheetCutter([ground, formation])
    stations = stations_along(baseline, interval)
    (told,) = base_volumes(cutter, stations, middles_between(stations), widths, nothing)
    return told


def test_volumes_of_lengths_add_up_to_the_exact_one_of_all():
    told = volumes(scattered(200, 1), scattered(90, 2), curve([(5, 10), (15, 10)]), 1.7, (4.0, 3.0))
    for side in (told.cut, told.fill):
        assert side.exact.sum() == pytest.approx(side.exact_total.value, rel=1e-9)
        assert side.by_ends.total == pytest.approx(side.exact_total.value, rel=0.2)
        assert side.prismoids.sum() == pytest.approx(side.exact_total.value, rel=0.1)
        assert len(side.sigmas) == len(side.exact) + 1
    assert told.left_out.max() == pytest.approx(0.0, abs=1e-9)


def test_between_planes_end_areas_and_prismoids_are_exact():
    """Depth x + y - 8 over 2 to 8 along and 6 to 9 across is positive everywhere: linear, so all rules agree."""
    told = volumes(surface_of(SQUARE, TWO), surface_of(FLAT, TWO), curve([(2, 7), (8, 7)]), 2.0, (2.0, 1.0))
    exact = 18 * (5 + 7.5 - 8)
    assert told.cut.exact_total.value == pytest.approx(exact)
    assert told.cut.by_ends.total == pytest.approx(exact)
    assert told.cut.prismoids.sum() == pytest.approx(exact)
    assert told.fill.exact_total.value == told.fill.by_ends.total == 0.0


def test_where_lines_across_cross_each_other_there_is_no_exact_volume():
    bend = curve([(8, 5), (5, 8)], [np.pi / 2])
    told = volumes(scattered(200, 1), scattered(90, 2), bend, 1.0, (4.0, 3.0))
    assert np.isnan(told.cut.exact).all()
    assert told.cut.exact_total is None
    assert told.cut.by_ends.total > 0.0


def test_one_surface_has_no_end_areas_and_none_is_refused():
    stations = stations_along(curve([(2, 7), (8, 7)]), 2.0)
    with pytest.raises(BadInput) as told:
        base_volumes(
            SheetCutter([surface_of(SQUARE, TWO)]), stations, middles_between(stations), (1.0, 1.0), nothing
        )
    assert str(told.value) == (
        "End areas need two surfaces. Choose the ground first, and then what it is held against."
    )
    with pytest.raises(BadInput) as told:
        SheetCutter([])
    assert str(told.value) == "No surface is given to cut. Choose one or more."
