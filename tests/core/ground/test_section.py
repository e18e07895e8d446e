# SPDX-License-Identifier: GPL-2.0-or-later
"""Sections: breaks and levels beside shapely's, degenerate lines, turned and moved grounds, and the cover of the sigma."""

from __future__ import annotations

import numpy as np
import pytest
import shapely.geometry as sg
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import Delaunay, cKDTree

from plugin.core.errors import BadInput, TooFewPoints
from plugin.core.ground.levels import Levels, rise_sigmas
from plugin.core.ground.section import SectionCutter
from plugin.core.ground.surface import Surface


def surface_of(points, triangles, sigma=0.0, rough=0.0, reach=1.0):
    points, triangles = np.array(points, float), np.array(triangles, np.int64).reshape(-1, 3)
    return Surface(
        points, triangles, np.full(len(points), sigma), rough, reach, np.zeros(len(triangles), bool)
    )


def anticlockwise(xy, triangles):
    a, b, c = (xy[triangles[:, k]] for k in range(3))
    det = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    triangles = np.where((det < 0)[:, None], triangles[:, ::-1], triangles)
    return triangles[np.abs(det) > 1e-12].astype(np.int64)


def scattered(count, seed, size=20.0, **worth):
    """A ground of random points with bumps, Delaunay."""
    xy = np.random.default_rng(seed).uniform(0.0, size, (count, 2))
    z = 100.0 + 2.0 * np.sin(xy[:, 0] / 3.0) + np.cos(xy[:, 1] / 2.0) * xy[:, 0] / 7.0
    return surface_of(np.column_stack([xy, z]), anticlockwise(xy, Delaunay(xy).simplices), **worth)


SQUARE = [(0, 0, 0), (10, 0, 10), (10, 10, 20), (0, 10, 10)]
"""On the plane z = x + y."""
TWO = [(0, 1, 2), (0, 2, 3)]


def cut(points, triangles, line):
    return SectionCutter(surface_of(points, triangles)).cut(np.array(line, float))


# --- closed forms and lines that touch ---


def test_a_line_across_two_triangles_breaks_at_their_edge():
    section = cut(SQUARE, TWO, [(-2, 4), (12, 4)])
    assert section.chainage == pytest.approx([0, 2, 6, 12, 14])
    assert section.level == pytest.approx([np.nan, 4, 8, 14, np.nan], nan_ok=True)
    assert section.is_ground.tolist() == [False, True, True, False]
    assert section.place[2] == pytest.approx([4, 4])
    assert section.length == 14.0


def test_a_line_that_begins_and_ends_inside_one_triangle_has_its_two_ends():
    section = cut(SQUARE, TWO, [(6, 1), (8, 2)])
    assert section.chainage == pytest.approx([0, np.sqrt(5)])
    assert section.level == pytest.approx([7, 10])
    assert section.is_ground.tolist() == [True]


def test_a_line_along_the_common_edge_is_told_once():
    section = cut(SQUARE, TWO, [(-1, -1), (11, 11)])
    assert section.chainage == pytest.approx(np.sqrt(2) * np.array([0, 1, 11, 12]))
    assert section.level == pytest.approx([np.nan, 0, 20, np.nan], nan_ok=True)
    back = cut(SQUARE, TWO, [(11, 11), (-1, -1)])
    assert back.level == pytest.approx([np.nan, 20, 0, np.nan], nan_ok=True)


@pytest.mark.parametrize("line", [[(-1, 0), (11, 0)], [(11, 0), (-1, 0)]])
def test_a_line_along_the_rim_has_the_rims_level_whichever_way_it_goes(line):
    section = cut(SQUARE, TWO, line)
    levels = section.level[~np.isnan(section.level)]
    assert sorted(levels) == pytest.approx([0, 10])
    assert section.is_ground.tolist() == [False, True, False]


@pytest.mark.parametrize("turn", np.linspace(0.0, 6.2, 37))
def test_a_line_along_the_rim_of_many_turned_triangles_has_no_gap(turn):
    grid = np.array([(i, j) for j in range(3) for i in range(6)], float)
    triangles = [t for j in range(2) for i in range(5) for t in cells(j * 6 + i, 6)]
    about = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    points = np.column_stack([grid @ about.T + (5e6, -3e6), grid @ (1.0, 2.0)])
    for y in (0.0, 1.0, 2.0):
        line = np.array([(-1.0, y), (6.0, y)]) @ about.T + (5e6, -3e6)
        for way in (line, line[::-1]):
            section = cut(points, triangles, way)
            assert section.is_ground.tolist() == [False, *[True] * 5, False]
            inside = section.level[1:-1]
            assert (inside if way is line else inside[::-1]) == pytest.approx(2 * y + np.arange(6), abs=1e-7)


def cells(low, row):
    return [(low, low + 1, low + row + 1), (low, low + row + 1, low + row)]


def test_a_line_through_the_middle_point_of_a_fan_meets_it_once():
    fan = [(np.cos(a), np.sin(a), 0.0) for a in np.arange(7) * 2 * np.pi / 7]
    points = [*fan, (0.0, 0.0, 1.0)]
    triangles = [(k, (k + 1) % 7, 7) for k in range(7)]
    for angle in (0.0, 0.3, 2 * np.pi / 7, 1.0):
        way = np.array([np.cos(angle), np.sin(angle)])
        section = cut(points, triangles, [-2 * way, 2 * way])
        assert np.count_nonzero(section.level == 1.0) == 1
        assert section.is_ground.sum() == 2


def test_a_line_that_starts_on_an_edge_or_a_point_has_a_level_there():
    assert cut(SQUARE, TWO, [(5, 5), (9, 3)]).level == pytest.approx([10, 12])
    assert cut(SQUARE, TWO, [(0, 0), (3, 9)]).level == pytest.approx([0, 12])
    assert cut(SQUARE, TWO, [(10, 3), (3, 10)]).level == pytest.approx([13, 13, 13])


def test_a_corner_that_is_only_touched_gives_no_ground():
    section = cut(SQUARE, TWO, [(-5, 5), (5, -5)])
    assert section.is_empty
    assert section.level.tolist() == pytest.approx([np.nan, np.nan], nan_ok=True)


def test_a_void_is_a_gap_and_the_levels_on_its_rims_stay():
    grid = [(i, j, 1.0 * i) for j in range(2) for i in range(4)]
    triangles = [t for i in (0, 2) for t in cells(i, 4)]
    section = cut(grid, triangles, [(0, 0.25), (3, 0.25)])
    assert section.chainage == pytest.approx([0, 0.25, 1, 2, 2.25, 3])
    assert section.level == pytest.approx([0, 0.25, 1, 2, 2.25, 3])
    assert section.is_ground.tolist() == [True, True, False, True, True]
    chainage, level = section.broken
    assert np.flatnonzero(np.isnan(chainage)).tolist() == [3]
    assert np.isnan(level[3])


def test_an_upright_step_has_two_levels_at_one_chainage():
    low = [(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)]
    high = [(1, 0, 2), (2, 0, 2), (2, 1, 2), (1, 1, 2)]
    section = cut(low + high, [*TWO, (4, 5, 6), (4, 6, 7)], [(0.2, 0.3), (1.8, 0.3)])
    at = np.flatnonzero(np.isclose(section.chainage, 0.8))
    assert section.level[at].tolist() == [0.0, 2.0]
    assert section.is_ground[at[0]] == False  # noqa: E712 - numpy's


def test_a_bent_line_breaks_at_its_bend_and_chainage_goes_on():
    section = cut(SQUARE, TWO, [(1, 4), (6, 4), (6, 9)])
    assert section.chainage == pytest.approx([0, 3, 5, 7, 10])
    assert section.level == pytest.approx([5, 8, 10, 12, 15])
    assert section.is_ground.all()


def test_triangles_that_are_weak_are_told():
    surface = surface_of(SQUARE, TWO)
    weak = Surface(surface.points, surface.triangles, surface.sigma, 0.0, 1.0, np.array([True, False]))
    section = SectionCutter(weak).cut(np.array([(-2.0, 4.0), (12.0, 4.0)]))
    assert section.is_weak.tolist() == [False, False, True, False]


# --- lines and grounds that are none ---


@pytest.mark.parametrize("line", [[], [(1, 1)], [(1, 1), (1, 1), (1, 1)], [(1, 1), (1 + 1e-7, 1)]])
def test_a_line_without_two_different_points_is_refused(line):
    with pytest.raises(TooFewPoints) as told:
        cut(SQUARE, TWO, np.array(line, float).reshape(-1, 2))
    assert (
        str(told.value)
        == "A section needs a line of two different points. Draw it from one place to another."
    )


@pytest.mark.parametrize("bad", [np.nan, np.inf])
def test_a_line_with_a_point_that_is_no_place_is_refused(bad):
    with pytest.raises(BadInput) as told:
        cut(SQUARE, TWO, [(0, 0), (bad, 1), (2, 2)])
    assert str(told.value) == "A point of the section's line has no place. Draw the line again."


def test_a_surface_with_a_point_without_height_is_refused():
    with pytest.raises(BadInput) as told:
        cut([(0, 0, 0), (1, 0, np.nan), (0, 1, 0)], [(0, 1, 2)], [(0, 0), (1, 1)])
    assert (
        str(told.value)
        == "A point of the surface has no place or no height. Build the surface again without it."
    )


def test_a_surface_that_lies_over_itself_is_refused_where_the_line_meets_that():
    points = [*SQUARE, (5, 0, 3), (15, 0, 3), (10, 9, 3)]
    cut(points, [*TWO, (4, 5, 6)], [(1, 1), (3, 4)])
    with pytest.raises(BadInput) as told:
        cut(points, [*TWO, (4, 5, 6)], [(1, 1), (12, 1)])
    assert str(told.value) == (
        "The surface lies over itself near x 5.556, y 1.000 of the survey plane, so that it has two levels there. Build "
        "it again from its points, or cut its layers one by one."
    )


def test_no_triangles_are_an_empty_section():
    section = cut(np.zeros((0, 3)), [], [(0, 0), (3, 4)])
    assert section.is_empty
    assert section.chainage.tolist() == [0.0, 5.0]


# --- beside other libraries ---


def by_shapely(surface, line):
    """Breaks and levels by shapely alone: each straight with every triangle, heights by each triangle's plane."""
    found, begin = [], 0.0
    for ends in zip(line, line[1:]):
        way = sg.LineString(ends)
        for corners in surface.points[surface.triangles]:
            part = sg.Polygon(corners[:, :2]).intersection(way)
            if part.length < 1e-9:
                continue
            plane = np.linalg.solve(np.column_stack([corners[:, :2], np.ones(3)]), corners[:, 2])
            found += [(begin + way.project(sg.Point(xy)), plane @ (*xy, 1.0)) for xy in part.coords]
        begin += way.length
    found.sort()
    chainage, level = np.array(found).T
    keep = np.concatenate([[True], np.diff(chainage) > 1e-8])
    return chainage[keep], level[keep]


@pytest.mark.parametrize("seed", range(25))
def test_breaks_and_levels_are_shapelys(seed):
    surface = scattered(150, seed)
    rng = np.random.default_rng(1000 + seed)
    line = np.vstack([rng.uniform(5.0, 15.0, (1, 2)), rng.uniform(-3.0, 23.0, (int(rng.integers(1, 4)), 2))])
    section = SectionCutter(surface).cut(line)
    chainage, level = by_shapely(surface, line)
    has = ~np.isnan(section.level)
    assert section.chainage[has] == pytest.approx(chainage, abs=1e-9 * 20)
    assert section.level[has] == pytest.approx(level, rel=1e-9)


@pytest.mark.parametrize("count", [3_000, 20_000])
def test_levels_on_a_large_ground_are_those_of_the_linear_interpolation(count):
    """The grid is in several sizes here: points thin out towards one corner."""
    rng = np.random.default_rng(count)
    xy = rng.uniform(0.0, 1.0, (count, 2)) ** 3 * 500.0
    z = np.hypot(*xy.T) / 9.0
    surface = surface_of(np.column_stack([xy, z]), anticlockwise(xy, Delaunay(xy).simplices))
    reference = LinearNDInterpolator(Delaunay(xy), z)
    cutter = SectionCutter(surface)
    met = 0
    for _ in range(20):
        line = rng.uniform(0.0, 400.0, (2, 2))
        section = cutter.cut(line)
        k = np.flatnonzero(section.is_ground & (np.diff(section.chainage) > 1e-6))
        middle = 0.5 * (section.place[k] + section.place[k + 1])
        level = 0.5 * (section.level[k] + section.level[k + 1])
        met += len(k)
        assert level == pytest.approx(reference(middle), rel=1e-9)
    assert met > 500


def test_the_grid_finds_what_looking_at_every_triangle_finds():
    surface = scattered(4_000, 3, size=100.0)
    corners = surface.points[surface.triangles][:, :, :2]
    cutter = SectionCutter(surface)
    for seed in range(30):
        line = np.random.default_rng(seed).uniform(-10.0, 110.0, (2, 2))
        way = sg.LineString(line)
        close = np.array([k for k, c in enumerate(corners) if sg.Polygon(c).intersection(way).length > 1e-6])
        section = cutter.cut(line)
        assert np.count_nonzero(section.is_ground & (np.diff(section.chainage) > 1e-6)) == len(close)


# --- properties ---


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10_000), st.floats(0.0, 6.28), st.sampled_from([0.0, 1e4, 1e7]))
def test_levels_do_not_change_when_the_ground_is_turned_and_moved(seed, turn, offset):
    surface = scattered(60, seed)
    line = np.random.default_rng(seed + 1).uniform(2.0, 18.0, (3, 2))
    about = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    moved = np.column_stack([surface.points[:, :2] @ about.T + (offset, -offset), surface.points[:, 2]])
    here = SectionCutter(surface).cut(line)
    there = SectionCutter(surface_of(moved, surface.triangles)).cut(line @ about.T + (offset, -offset))
    assert len(there) == len(here)
    assert there.is_ground.tolist() == here.is_ground.tolist()
    # Coordinates of 1e7 m are doubles 2e-9 m apart, and the bumps are steep by some needles' corners.
    assert there.length == pytest.approx(here.length, abs=1e-8)
    steep = np.abs(surface.slopes).max()
    assert there.level == pytest.approx(
        here.level, abs=2e-9 * offset / 1e7 * (1.0 + 5.0 * steep) + 1e-9, nan_ok=True
    )


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10_000))
def test_a_line_the_other_way_meets_the_same_levels(seed):
    surface = scattered(80, seed)
    line = np.random.default_rng(seed + 1).uniform(-2.0, 22.0, (2, 2))
    one, other = SectionCutter(surface).cut(line), SectionCutter(surface).cut(line[::-1])
    assert len(one) == len(other)
    assert other.level[::-1] == pytest.approx(one.level, nan_ok=True, abs=1e-9)
    assert one.length - other.chainage[::-1] == pytest.approx(one.chainage, abs=1e-9)
    assert other.is_ground[::-1].tolist() == one.is_ground.tolist()


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_nasty_lines_over_a_grid_never_gap_inside_it(data):
    """Lines through grid points and along grid lines and diagonals, all of them ties."""
    size = 4
    grid = np.array([(i, j) for j in range(size + 1) for i in range(size + 1)], float)
    triangles = [t for j in range(size) for i in range(size) for t in cells(j * (size + 1) + i, size + 1)]
    z = grid @ (0.3, -0.2) + 5.0
    number = st.integers(0, 2 * size)
    line = np.array(data.draw(st.lists(st.tuples(number, number), min_size=2, max_size=4))) / 2.0
    turn = data.draw(st.floats(0.0, 6.28))
    about = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    if np.hypot(*np.diff(line, axis=0).T).max() == 0.0:
        return
    points = np.column_stack([grid @ about.T + 1e6, z])
    section = cut(points, triangles, line @ about.T + 1e6)
    assert section.is_ground.all()
    assert (np.diff(section.chainage) > 0.0).all()
    flat = (section.place - 1e6) @ about
    assert section.level == pytest.approx(flat @ (0.3, -0.2) + 5.0, abs=1e-7)


# --- what it is worth ---


def test_the_sigma_at_a_point_is_the_points_and_half_way_along_an_edge_has_all_of_the_roughness():
    surface = surface_of(SQUARE, TWO, sigma=0.02, rough=0.05)
    told = SectionCutter(surface).cut(np.array([(0.0, 0.0), (5.0, 5.0)])).told
    assert told.sigmas() == pytest.approx([0.02, np.hypot(0.02 / np.sqrt(2), 0.05)])
    assert told.sigmas(0.03)[0] == pytest.approx(np.hypot(0.02, 0.03))


def test_the_sigma_of_a_rise_leaves_out_what_both_ends_share():
    surface = surface_of(SQUARE, TWO, sigma=0.02)
    section = SectionCutter(surface).cut(np.array([(2.0, 2.0), (4.0, 4.0)]))
    told = section.told
    one, other = (Levels(surface, told.place[[k]], told.corner[[k]], told.weight[[k]]) for k in (0, 1))
    # Weights (0.8, 0.2) and (0.6, 0.4) of the diagonal's ends: the rise is 0.2 of their difference.
    assert rise_sigmas(one, other) == pytest.approx([0.02 * 0.2 * np.sqrt(2)])


def correlated(rng, place, reach, draws):
    """(draws, k) of the ground's unit field at places."""
    away = np.hypot(*(place[:, None] - place[None]).transpose(2, 0, 1))
    root = np.linalg.cholesky(np.exp(-away / reach) + 1e-10 * np.eye(len(place)))
    return rng.standard_normal((draws, len(place))) @ root.T


def test_95_percent_of_2000_true_grounds_lie_within_1_96_sigma_of_a_level():
    """Points drawn with their sigma, the ground between them with its roughness; level and rise, at all breaks."""
    surface = scattered(40, 8, sigma=0.03, rough=0.04, reach=2.5)
    line = np.array([(3.0, 4.0), (17.0, 15.0)])
    section = SectionCutter(surface).cut(line)
    told = section.told
    rng = np.random.default_rng(1)
    draws = 2_000
    errors = rng.standard_normal((draws, len(surface.points))) * surface.sigma
    by_point = np.zeros((len(told), len(surface.points)))
    np.add.at(by_point, (np.arange(len(told))[:, None], told.corner), told.weight)
    b = np.sqrt(np.minimum(1.0, 2.0 * (1.0 - (by_point**2).sum(axis=1))))
    off = errors @ by_point.T + surface.rough * b * correlated(rng, told.place, surface.reach, draws)
    covered = (np.abs(off) <= 1.959964 * told.sigmas()).mean(axis=0)
    assert covered.min() > 0.93
    assert covered.max() < 0.97
    before = Levels(surface, told.place[:-1], told.corner[:-1], told.weight[:-1])
    after = Levels(surface, told.place[1:], told.corner[1:], told.weight[1:])
    covered = (np.abs(np.diff(off, axis=1)) <= 1.959964 * rise_sigmas(before, after)).mean(axis=0)
    assert covered.min() > 0.93
    assert covered.max() < 0.97


def test_a_line_of_a_hundred_thousand_points_is_cut():
    surface = scattered(300, 2)
    angle = np.linspace(0.0, 40 * np.pi, 100_001)
    line = np.column_stack([10 + angle / 16 * np.cos(angle), 10 + angle / 16 * np.sin(angle)])
    section = SectionCutter(surface).cut(line)
    assert section.length == pytest.approx(np.hypot(*np.diff(line, axis=0).T).sum())
    tree = cKDTree(section.place)
    assert tree.query(line)[0].max() < 1e-6
