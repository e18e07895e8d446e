# SPDX-License-Identifier: GPL-2.0-or-later
"""Ways that are one line over a surface: laid on it, and with its crossfalls."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.ground.crossfall import CrossfallReader
from plugin.core.ground.section import SectionCutter
from plugin.core.trade.crossed_ways import lay_on, take_crossfalls
from plugin.core.trade.ramps import measure_ramp
from tests.core.ground.grounds import drawn_surface, grid_surface, surface_of

WAY = np.array([[3.0, 4.0], [16.0, 12.0]])


def laid(surface, line=WAY):
    return lay_on(SectionCutter(surface).cut(line))


def test_the_gradient_of_a_laid_way_has_the_sigma_of_two_thousand_surfaces():
    """Points that err by 2 cm each and drift together: what they share cancels between the ends."""
    rng = np.random.default_rng(2)
    surface = drawn_surface(80, 7, sigma=0.02)
    surface = replace(surface, shared=0.03 * rng.standard_normal((len(surface.points), 2)))
    line, worth = laid(surface)
    told = measure_ramp((line,), worth).whole.gradient
    found = []
    for _ in range(2000):
        z = surface.sigma * rng.standard_normal(len(surface.points)) + surface.shared @ rng.standard_normal(2)
        drawn = laid(replace(surface, points=surface.points + np.column_stack([0 * z, 0 * z, z])))[0]
        found.append((drawn.points[-1, 2] - drawn.points[0, 2]) / np.hypot(*(WAY[1] - WAY[0])))
    # 2,000 draws know a sigma to 1.6 %.
    assert np.std(found) == pytest.approx(told.sigma, rel=0.05)


def test_rough_ground_makes_a_gradient_less_certain_and_never_more():
    exact, rough = (drawn_surface(80, 7, rough=r, reach=2.0) for r in (0.0, 0.02))
    sigmas = [measure_ramp((line,), worth).whole.gradient.sigma for line, worth in map(laid, (exact, rough))]
    assert sigmas[0] == pytest.approx(0.0, abs=1e-12)
    # Two levels, each off by no more than 2 cm, over the length of the way.
    assert 0.0 < sigmas[1] <= 0.02 * np.sqrt(2) / np.hypot(*(WAY[1] - WAY[0])) + 1e-12


def test_each_stretch_has_the_greatest_crossfall_of_its_own():
    """A way along y = 10 over z = 0.02 (y - 10) from x = 8 on, level before, rising along the way before and level after."""
    surface = grid_surface(lambda x, y: 0.05 * np.minimum(x, 8.0) + 0.02 * (y - 10.0) * (x >= 8.0), 20.0, 10)
    line = np.array([[0.0, 10.0], [20.0, 10.0]])
    cutter = SectionCutter(surface)
    way, worth = lay_on(cutter.cut(line))
    ramp = take_crossfalls(measure_ramp((way,), worth), CrossfallReader(cutter).along(line, 2.0))
    assert [round(part.end, 6) for part in (*ramp.flights, *ramp.landings)] == [8.0, 20.0]
    assert ramp.landings[0].crossfall.value == pytest.approx(0.02, abs=1e-9)
    assert ramp.whole.crossfall.value == pytest.approx(0.02, abs=1e-9)


def test_a_level_landing_does_not_take_the_crossfall_of_the_flight_that_begins_where_it_ends():
    """Level up to the skew edge x = 3 + y / 5; beyond it z = 0.2 (x - 3 - y / 5), which rises 4 % to the right."""
    points = [(-3, -5, 0), (2, -5, 0), (4, 5, 0), (-3, 5, 0), (9, -5, 1.4), (9, 5, 1.0)]
    surface = surface_of(points, [[0, 1, 2], [0, 2, 3], [1, 4, 5], [1, 5, 2]])
    ways = CrossfallReader(SectionCutter(surface)).along(np.array([[0.0, 0.0], [8.0, 0.0]]))
    assert ways.greatest(0.0, 3.0)[1].value == pytest.approx(0.0, abs=1e-12)
    assert ways.greatest(3.0, 8.0)[1].value == pytest.approx(-0.04, abs=1e-12)
    assert ways.greatest()[1].value == pytest.approx(-0.04, abs=1e-12)


def test_a_way_that_leaves_the_surface_cannot_be_laid():
    with pytest.raises(BadInput, match="^The line has no heights of its own and leaves the surface."):
        laid(drawn_surface(80, 7), np.array([[3.0, 4.0], [30.0, 12.0]]))
