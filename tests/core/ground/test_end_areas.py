# SPDX-License-Identifier: GPL-2.0-or-later
"""End areas and prismoids beside solids of known volume, and what their totals are worth."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.ground.end_areas import Rule, end_area_sigmas, end_area_volumes, prismoid_volumes
from plugin.core.ground.profile import make_profile, section_areas
from plugin.core.ground.section import SectionCutter
from plugin.core.ground.volume import volume_between
from tests.core.ground.test_section import scattered


def test_a_wedge_is_exact_by_the_average_and_a_pyramid_by_its_rule():
    wedge = end_area_volumes(np.array([0.0, 6.0]), np.array([4.0, 2.0]))
    assert wedge.total == 18.0
    pyramid = end_area_volumes(np.array([0.0, 6.0]), np.array([4.0, 0.0]))
    assert (pyramid.total, pyramid.plain_total) == (8.0, 12.0)
    assert (wedge.rules, pyramid.rules) == ((Rule.AVERAGE,), (Rule.PYRAMID,))


def test_nothing_between_two_sections_of_nothing():
    told = end_area_volumes(np.array([0.0, 6.0, 9.0]), np.zeros(3))
    assert told.total == 0.0
    assert told.rules == (Rule.NONE, Rule.NONE)


@pytest.mark.parametrize("power", [0, 1, 2, 3])
def test_the_prismoid_is_exact_to_the_third_power(power):
    x = np.array([0.0, 2.0, 5.0])
    middles = (0.5 * (x[1:] + x[:-1])) ** power
    told = prismoid_volumes(x, x**power, middles)
    assert told.sum() == pytest.approx(5.0 ** (power + 1) / (power + 1))


@pytest.mark.parametrize(
    ("chainage", "areas"),
    [([0.0], [1.0]), ([], []), ([0.0, 0.0], [1.0, 1.0]), ([5.0, 0.0], [1.0, 1.0]), ([0.0, 1.0], [1.0])],
)
def test_sections_that_make_no_length_are_refused(chainage, areas):
    with pytest.raises(BadInput) as told:
        end_area_volumes(np.array(chainage), np.array(areas))
    assert str(told.value) == (
        "A volume from end areas needs two sections or more, in the order of their chainages."
    )


def test_a_netted_area_is_refused():
    with pytest.raises(BadInput) as told:
        end_area_volumes(np.array([0.0, 5.0]), np.array([2.0, -1.0]))
    assert str(told.value) == (
        "The section at chainage 5.000 m has an area of -1 m2. Areas of cut and of fill are 0 or more, and are never "
        "netted."
    )


def test_middles_that_are_missing_are_refused():
    with pytest.raises(BadInput) as told:
        prismoid_volumes(np.array([0.0, 5.0]), np.array([2.0, 1.0]), np.zeros(0))
    assert str(told.value) == (
        "Each length between two sections needs one middle section with an area of 0 or more."
    )


def strip(count, left=2.0, right=16.0):
    """Sections of two bumpy grounds, evenly along x."""
    x = np.linspace(4.0, 14.0, count)
    return x, [np.array([(c, right), (c, left)]) for c in x]


def cut_of(ground, formation, count):
    cutters = SectionCutter(ground), SectionCutter(formation)
    chainage, lines = strip(count)
    return chainage, [section_areas(make_profile([c.cut(line) for c in cutters])) for line in lines]


def test_many_end_areas_come_to_the_exact_volume():
    """And few do not: that is why the exact one stands beside them."""
    ground, formation = scattered(200, 1), scattered(90, 2)
    over = [np.array([(4, 2), (14, 2), (14, 16), (4, 16), (4, 2)], float)]
    exact = volume_between(ground, formation, over)
    for name in ("cut", "fill"):
        figures = []
        for count in (3, 401):
            chainage, areas = cut_of(ground, formation, count)
            figures.append(
                end_area_volumes(chainage, np.array([getattr(a, name).area.value for a in areas])).total
            )
        true = getattr(exact, name).value
        # The error of the trapezoid rule goes with the square of the interval, 25 mm here.
        assert figures[1] == pytest.approx(true, rel=2e-4)
        assert abs(figures[0] - true) > 20 * abs(figures[1] - true)


def test_the_sigma_of_a_total_is_that_of_draws():
    """Points of both grounds drawn 600 times; neighbouring sections share points, so that errors do not average out."""
    from dataclasses import replace

    ground, formation = scattered(60, 1, sigma=0.03), scattered(40, 2, sigma=0.02)
    deep = replace(formation, points=formation.points - (0.0, 0.0, 9.0))
    chainage, areas = cut_of(ground, deep, 5)
    told = end_area_sigmas(chainage, tuple(a.cut for a in areas), (ground, deep), 1.0)
    rng = np.random.default_rng(2)
    drawn = []
    for _ in range(600):
        moved = [
            replace(
                s,
                points=s.points
                + np.column_stack(
                    [np.zeros((len(s.points), 2)), s.sigma * rng.standard_normal(len(s.points))]
                ),
            )
            for s in (ground, deep)
        ]
        x, cuts = cut_of(*moved, 5)
        volumes = end_area_volumes(x, np.array([a.cut.area.value for a in cuts])).volumes
        drawn.append([*volumes, volumes.sum()])
    # 600 draws know a sigma to 3 %; three times that.
    assert np.std(drawn, axis=0) == pytest.approx(told, rel=0.09)
