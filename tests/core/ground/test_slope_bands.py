# SPDX-License-Identifier: GPL-2.0-or-later
"""Areas by bands of slope: exact from the triangles, and each m2 in one band."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.ground.depths import Ground
from plugin.core.ground.slope_bands import measure_slope_bands
from plugin.core.ground.target import TargetPlane
from tests.core.ground.grounds import drawn_surface, grid_surface, moved, square, surface_of

BOUNDS = (0.05, 0.10, 0.25, 1 / 3)


def bands(surface, rings=None, bounds=BOUNDS):
    return measure_slope_bands(Ground(surface, TargetPlane.at_level(0.0), rings), bounds)


def roof():
    """Four planes side by side, 10 m long and 5 m wide each: level, 8 %, 1:4 and 40 %."""
    x = [0.0, 5.0, 10.0, 15.0, 20.0]
    z = np.cumsum([0.0, 0.0, 0.4, 1.25, 2.0])
    points = [(a, y, h) for y in (0.0, 10.0) for a, h in zip(x, z)]
    k = np.arange(4)
    cells = np.concatenate([np.column_stack([k, k + 1, k + 6]), np.column_stack([k, k + 6, k + 5])])
    return surface_of(points, cells)


def test_each_plane_of_a_roof_is_in_its_band():
    """50 m2 of each in plan (closed form); a slope that is a bound, 1:4, counts as the flatter."""
    told = bands(roof())
    assert [q.value for q in told.areas] == pytest.approx([50, 50, 50, 0, 50], abs=1e-9)
    slopes = [0.0, 0.08, 0.25, 0.0, 0.40]
    wanted = [q.value * math.hypot(1, s) for q, s in zip(told.areas, slopes)]
    assert told.sloped == pytest.approx(wanted, abs=1e-9)
    assert [q.sigma for q in told.areas] == [0.0] * 5
    assert (told.area, told.left_out, told.weak) == (pytest.approx(200), 0.0, 0.0)
    assert told.narrowest == pytest.approx(0.05)


def test_an_outline_takes_its_part_of_each_plane_and_tells_what_is_beside_the_surface():
    told = bands(roof(), [np.array([[2.0, 2.0], [12.0, 2.0], [12.0, 12.0], [2.0, 12.0]])])
    assert [q.value for q in told.areas] == pytest.approx([24, 40, 16, 0, 0], abs=1e-9)
    assert told.left_out == pytest.approx(20.0, abs=1e-9)


@pytest.mark.parametrize(
    ("turn", "shift"), [(0.0, (0, 0, 0)), (0.9, (1e7, -1e7, 50.0)), (3.0, (4.0, 1.0, -9.0))]
)
def test_every_square_metre_is_in_one_band_wherever_the_ground_lies(turn, shift):
    surface = moved(drawn_surface(400, 6, sigma=0.02), turn, shift)
    cos, sin = math.cos(turn), math.sin(turn)
    ring = square(3.0, 17.0) @ np.array([[cos, sin], [-sin, cos]]) + shift[:2]
    told = bands(surface, [ring])
    assert sum(q.value for q in told.areas) == pytest.approx(196.0, abs=1e-6)
    assert told.area == pytest.approx(196.0, abs=1e-6)
    here = bands(drawn_surface(400, 6, sigma=0.02), [square(3.0, 17.0)])
    assert [q.value for q in told.areas] == pytest.approx([q.value for q in here.areas], abs=1e-4)
    assert [q.sigma for q in told.areas] == pytest.approx([q.sigma for q in here.areas], rel=1e-4)


@pytest.mark.parametrize("drift", [0.0, 0.02])
def test_their_sigma_is_that_of_two_thousand_surfaces(drift):
    """Ground of 0 to 40 %, its points known to 3 cm, triangles of some 1.5 m: slopes to 4 %. What is told is the mean over the
    draws, for each draw sees other triangles near the bounds."""
    rng = np.random.default_rng(11)
    true = drawn_surface(150, 5, height=lambda x, y: 0.01 * x**2 + 0.3 * np.sin(y / 4), sigma=0.03)
    true = replace(true, shared=drift * rng.standard_normal((len(true.points), 1)))
    ring, found, told = [square(2.0, 18.0)], [], []
    for _ in range(2000):
        z = true.sigma * rng.standard_normal(len(true.points)) + true.shared @ rng.standard_normal(1)
        drawn = bands(replace(true, points=true.points + np.column_stack([0 * z, 0 * z, z])), ring)
        found.append([q.value for q in drawn.areas])
        told.append([q.sigma for q in drawn.areas])
    ratio = np.sqrt(np.mean(np.square(told), axis=0)) / np.std(found, axis=0)
    assert np.std(found, axis=0).min() > 1.0
    # The terms left out are of the second order in how far neighbours' slopes go together.
    assert ratio == pytest.approx(np.ones(5), abs=0.15)


def test_of_one_triangle_it_is_the_chance_that_it_is_on_either_side():
    """At a bound the chance is 1/2 whatever the sigma: sqrt(1/4) of its area (closed form)."""
    surface = surface_of([(0, 0, 0), (10, 0, 1), (0, 10, 0)], [[0, 1, 2]], sigma=0.02)
    told = bands(surface, bounds=(0.1,))
    assert [q.value for q in told.areas] == pytest.approx([50, 0])
    assert [q.sigma for q in told.areas] == pytest.approx([25, 25], rel=1e-9)
    assert told.blur == pytest.approx(0.02 * math.sqrt(2) / 10, rel=1e-9)


def test_level_ground_has_a_sigma_too():
    told = bands(grid_surface(lambda x, y: 0 * x, 10.0, 5, sigma=0.05), bounds=(0.02,))
    assert told.areas[0].value == pytest.approx(100.0)
    assert told.blur == pytest.approx(0.05 * math.sqrt(2) / 2, rel=1e-6)
    assert told.areas[0].sigma > 1.0


def test_weak_ground_is_told():
    surface = roof()
    assert bands(replace(surface, is_weak=surface.slopes[:, 0] > 0.3)).weak == pytest.approx(50.0)


@pytest.mark.parametrize("bound", [0.02, 0.05, 1 / 12, 1 / 3, 0.1, 2.0])
def test_a_slope_that_is_a_bound_is_the_flatter_wherever_it_falls_to(bound):
    """A plane of 100 m2 at the bound, turned to 24 sides and lifted by 1234.567 m: by rounding alone half of it was steeper."""
    for angle in np.linspace(0.0, 2 * np.pi, 24):
        way = bound * np.array([np.cos(angle), np.sin(angle)])
        told = bands(
            grid_surface(lambda x, y, w=way: 1234.567 + w[0] * x + w[1] * y, 10.0, 5), bounds=(bound,)
        )
        assert [q.value for q in told.areas] == pytest.approx([100, 0], abs=1e-9)
        assert told.areas[1].sigma == 0.0


@pytest.mark.parametrize("bounds", [(), (0.0, 0.1), (-0.1,), (math.nan,), (math.inf,), tuple(range(1, 200))])
def test_bounds_that_are_none_are_refused(bounds):
    with pytest.raises(BadInput) as caught:
        bands(roof(), bounds=bounds)
    assert str(caught.value) == (
        "Bands of slope need one to 100 bounds above 0. Give them as percent, as ratios, or as 1:n."
    )


@pytest.mark.parametrize("bounds", [(0.1, 0.1), (0.2, 0.1)])
def test_bounds_that_do_not_rise_are_refused(bounds):
    with pytest.raises(
        BadInput, match="^The bounds of the bands do not rise. Give them from the flattest to the steepest.$"
    ):
        bands(roof(), bounds=bounds)


def test_an_outline_beside_the_surface_is_refused():
    with pytest.raises(BadInput, match="^No ground of the outline lies on the surface."):
        bands(roof(), [square(100.0, 110.0)])
