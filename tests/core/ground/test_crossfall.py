# SPDX-License-Identifier: GPL-2.0-or-later
"""Crossfalls of a way over a surface: across its width, or by the slope of its triangles."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from plugin.core.errors import BadInput, TooFewPoints
from plugin.core.ground.crossfall import CrossfallReader
from plugin.core.ground.section import SectionCutter
from tests.core.ground.grounds import drawn_surface, grid_surface, moved, surface_of

WAY = np.array([[2.0, 10.0], [18.0, 10.0]])


def along(surface, line=WAY, width=0.0):
    return CrossfallReader(SectionCutter(surface)).along(line, width)


def plane(east=0.05, north=-0.02, **worth):
    return grid_surface(lambda x, y: 80 + east * x + north * y, 20.0, 7, **worth)


@pytest.mark.parametrize("width", [0.0, 1.5])
@pytest.mark.parametrize("bearing", [0.0, 0.3, 1.6, 2.9, -2.2])
def test_over_a_plane_it_is_the_planes_slope_to_the_left(width, bearing):
    """The slope s along the unit vector (-sin, cos) to the left of the way, which is positive where the right is lower."""
    way = np.array([math.cos(bearing), math.sin(bearing)])
    told = along(plane(), np.array([10 - 4 * way, 10 + 5 * way]), width)
    wanted = 0.05 * -way[1] - 0.02 * way[0]
    assert told.mean.value == pytest.approx(wanted, abs=1e-12)
    assert told.ratio == pytest.approx(wanted, abs=1e-11)
    assert told.left_out == pytest.approx(0.0, abs=1e-9)
    assert told.start[0] == 0.0
    assert told.end[-1] == pytest.approx(9.0, abs=1e-9)


@pytest.mark.parametrize("width", [0.0, 1.2])
@pytest.mark.parametrize(("turn", "shift"), [(0.0, (0.0, 0.0, 0.0)), (0.7, (1e7, -1e7, 300.0))])
def test_turned_moved_and_walked_back_it_is_the_same_but_for_its_sign(width, turn, shift):
    surface = drawn_surface(200, 4, sigma=0.01, rough=0.01, reach=2.0)
    line = np.array([[3.0, 4.0], [9.0, 11.0], [16.0, 12.5]])
    here = along(surface, line, width)
    cos, sin = math.cos(turn), math.sin(turn)
    there = np.column_stack([cos * line[:, 0] - sin * line[:, 1], sin * line[:, 0] + cos * line[:, 1]])
    told = along(moved(surface, turn, shift), there + shift[:2], width)
    back = along(surface, line[::-1], width)
    assert told.mean.value == pytest.approx(here.mean.value, abs=1e-7)
    assert told.mean.sigma == pytest.approx(here.mean.sigma, rel=1e-5)
    assert back.mean.value == pytest.approx(-here.mean.value, abs=1e-9)
    assert back.mean.sigma == pytest.approx(here.mean.sigma, rel=1e-6)
    length = here.end[-1]
    assert told.greatest()[1].value == pytest.approx(here.greatest()[1].value, abs=1e-6)
    assert back.greatest()[1].value == pytest.approx(-here.greatest()[1].value, abs=1e-9)
    if width:  # without one the whole piece has it, of which the first end is told
        assert length - back.greatest()[0] == pytest.approx(here.greatest()[0], abs=1e-6)


def test_a_twisted_way_has_its_greatest_at_the_end_and_half_of_it_as_mean():
    """z = 0.01 (x - 2) (y - 10) on the way's own sides: 0.01 (x - 2), so 16 cm a metre at 18 m; the strip is two metres wide
    and drawn with edges along both sides, so that the closed form holds between them."""
    x = np.linspace(2.0, 18.0, 9)
    points = [(a, b, 0.01 * (a - 2.0) * (b - 10.0)) for b in (9.0, 11.0) for a in x]
    k = np.arange(8)
    cells = np.concatenate([np.column_stack([k, k + 1, k + 10]), np.column_stack([k, k + 10, k + 9])])
    told = along(surface_of(points, cells), WAY, 2.0)
    assert told.mean.value == pytest.approx(0.08, abs=1e-12)
    at, most = told.greatest()
    assert (at, most.value) == (pytest.approx(16.0, abs=1e-9), pytest.approx(0.16, abs=1e-12))
    at, most = told.greatest(3.0, 5.0)
    assert (at, most.value) == (pytest.approx(5.0, abs=1e-9), pytest.approx(0.05, abs=1e-12))


def test_over_a_ridge_the_triangles_say_one_thing_and_the_width_another():
    """A ridge along the way falls 4 % to both sides: across its width it is level."""
    points = [(0, 10, 1.0), (20, 10, 1.0), (0, 0, 0.6), (20, 0, 0.6), (0, 20, 0.6), (20, 20, 0.6)]
    ridge = surface_of(points, [[0, 1, 2], [1, 3, 2], [0, 1, 4], [1, 5, 4]])
    assert along(ridge, WAY, 3.0).ratio == pytest.approx(0.0, abs=1e-12)
    beside = along(ridge, WAY - [0.0, 1.0])
    assert beside.ratio == pytest.approx(0.04, abs=1e-12)
    assert abs(along(ridge, WAY).mean.value) == pytest.approx(0.04, abs=1e-12)


@pytest.mark.parametrize("width", [0.0, 1.5])
def test_its_sigma_is_that_of_two_thousand_surfaces(width):
    """Points that err by 2 cm each, and a drift of the walk that all have a share of."""
    rng = np.random.default_rng(8)
    surface = drawn_surface(60, 3, sigma=0.02)
    surface = replace(surface, shared=0.01 * rng.standard_normal((len(surface.points), 2)))
    line = np.array([[4.0, 5.0], [12.0, 9.0], [16.0, 15.0]])
    told = along(surface, line, width)
    means, firsts = [], []
    for _ in range(2000):
        z = surface.sigma * rng.standard_normal(len(surface.points)) + surface.shared @ rng.standard_normal(2)
        points = surface.points + np.column_stack([0 * z, 0 * z, z])
        drawn = along(replace(surface, points=points), line, width)
        means.append(drawn.mean.value)
        firsts.append(drawn.ratio[3, 0])
    # 2,000 draws know a sigma to 1.6 %.
    assert np.std(means) == pytest.approx(told.mean.sigma, rel=0.06)
    assert np.std(firsts) == pytest.approx(told.sigma[3, 0], rel=0.06)


def test_rough_ground_between_the_points_is_in_the_sigma_across_a_width():
    """Of one great level triangle with exact points only the ground counts: at one place it is rough sqrt(b1^2 + b2^2 - 2 b1
    b2 exp(-w/reach)) / w, and of the mean the double sum over the way, here by itself on a fine lattice."""
    surface = surface_of([(-900, -700, 0), (900, -700, 0), (0, 1200, 0)], [[0, 1, 2]], rough=0.02, reach=1.5)
    told = along(surface, np.array([[0.0, 0.0], [8.0, 0.0]]), 2.0)
    alone = 0.02 * math.sqrt(2.0 * (1.0 - math.exp(-2.0 / 1.5))) / 2.0
    assert told.sigma == pytest.approx(alone, rel=1e-6)
    x = (np.arange(400) + 0.5) * 0.02
    away = np.abs(x[:, None] - x)
    mean = 0.02**2 * np.mean(2.0 * np.exp(-away / 1.5) - 2.0 * np.exp(-np.hypot(away, 2.0) / 1.5)) / 4.0
    # The way is one piece here, and within a piece the ground counts as one: rather too large, never too small.
    assert math.sqrt(mean) <= told.mean.sigma <= alone * 1.000001


def test_what_leaves_the_surface_is_left_out_and_told():
    told = along(plane(), np.array([[-3.0, 10.0], [15.0, 10.0]]), 1.0)
    assert told.left_out == pytest.approx(3.0, abs=1e-9)
    assert told.start[0] == pytest.approx(3.0, abs=1e-9)
    half = along(plane(), np.array([[1.0, 0.2], [15.0, 0.2]]))
    assert half.left_out == pytest.approx(0.0, abs=1e-9)
    message = "No ground of the surface lies under the way. Move it, or extend the surface."
    for line, width in ((WAY + 100.0, 0.0), (np.array([[1.0, 0.2], [15.0, 0.2]]), 1.0)):
        with pytest.raises(BadInput, match="^" + message + "$"):
            along(plane(), line, width)


def test_weak_ground_is_told():
    surface = plane()
    assert not along(surface, WAY, 1.0).is_weak
    weak = replace(surface, is_weak=np.ones(len(surface.triangles), bool))
    assert along(weak, WAY, 1.0).is_weak
    assert along(weak).is_weak


@pytest.mark.parametrize("width", [-1.0, math.nan, math.inf, 1e6])
def test_a_width_that_is_none_is_refused(width):
    with pytest.raises(BadInput) as caught:
        along(plane(), WAY, width)
    assert str(caught.value) == (
        f"A way cannot be {width:g} m wide. Give its width in metres, or 0 where it is not known."
    )


def test_a_way_without_length_is_refused():
    with pytest.raises(TooFewPoints):
        along(plane(), np.array([[3.0, 3.0], [3.0, 3.0]]), 1.0)


@pytest.mark.parametrize("line", [[[0.0, 0.0], [20.0, 20.0]], [[0.0, 10.0], [20.0, 10.0]]])
def test_along_edges_of_triangles_every_piece_has_its_triangle(line):
    surface = grid_surface(lambda x, y: 0.03 * x + 0.01 * y, 20.0, 8)
    told = along(surface, np.array(line))
    way = np.diff(line, axis=0)[0] / np.hypot(*np.diff(line, axis=0)[0])
    assert told.ratio == pytest.approx(-0.03 * way[1] + 0.01 * way[0], abs=1e-12)
    assert told.left_out == pytest.approx(0.0, abs=1e-9)
