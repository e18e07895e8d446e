# SPDX-License-Identifier: GPL-2.0-or-later
"""Several surfaces along one line: closed forms, a shapely area, and the cover of the areas' sigma."""

from __future__ import annotations

import numpy as np
import pytest
import shapely.geometry as sg

from plugin.core.errors import BadInput
from plugin.core.ground.profile import make_profile, profile_rows, section_areas, split_at_zero
from plugin.core.ground.section import SectionCutter
from tests.core.ground.test_section import SQUARE, TWO, correlated, scattered, surface_of

FLAT = [(0, 0, 8), (10, 0, 8), (10, 10, 8), (0, 10, 8)]


def profile_of(line, *surfaces):
    return make_profile([SectionCutter(s).cut(np.array(line, float)) for s in surfaces])


def test_cut_and_fill_are_apart_and_split_where_the_surfaces_cross():
    """Ground z = x + 4 along y = 4 over a formation at 8: fill below x = 4, cut above."""
    profile = profile_of([(0, 4), (10, 4)], surface_of(SQUARE, TWO), surface_of(FLAT, TWO))
    areas = section_areas(profile)
    assert areas.cut.area.value == pytest.approx(6 * 6 / 2)
    assert areas.fill.area.value == pytest.approx(4 * 4 / 2)
    assert (areas.cut.width, areas.fill.width, areas.left_out) == pytest.approx((6, 4, 0))


def test_the_crossing_becomes_a_row_with_a_depth_of_zero():
    profile = profile_of([(0, 5), (10, 5)], surface_of(SQUARE, TWO), surface_of(FLAT, TWO))
    rows = profile_rows(split_at_zero(profile))
    assert [row.chainage for row in rows] == pytest.approx([0, 3, 5, 10])
    assert [row.depth[1] for row in rows] == pytest.approx([-3, 0, 2, 7])
    assert [row.level[0] for row in rows] == pytest.approx([5, 8, 10, 15])
    assert [row.rise[0] for row in rows] == pytest.approx([np.nan, 3, 2, 5], nan_ok=True)
    assert [row.run for row in rows] == pytest.approx([np.nan, 3, 2, 5], nan_ok=True)
    assert all(np.isnan(row.depth[0]) for row in rows)
    assert np.array([row.place for row in rows]) == pytest.approx(np.array([(0, 5), (3, 5), (5, 5), (10, 5)]))


def test_areas_do_not_change_where_the_profile_is_split():
    one, other = scattered(80, 1), scattered(60, 2)
    profile = profile_of([(3, 3), (16, 14)], one, other)
    plain, split = section_areas(profile), section_areas(split_at_zero(profile))
    for a, b in ((plain.cut, split.cut), (plain.fill, split.fill)):
        assert a.area.value == pytest.approx(b.area.value, rel=1e-12)
        assert a.area.sigma == pytest.approx(b.area.sigma, rel=1e-9)
        assert a.width == pytest.approx(b.width, rel=1e-9)


@pytest.mark.parametrize("seed", range(8))
def test_areas_are_those_of_shapelys_polygons_between_the_two_profiles(seed):
    one, other = scattered(80, seed), scattered(60, seed + 100)
    line = np.array([(6.0, 6.0), (14.0, 12.0)])
    profile = profile_of(line, one, other)
    sections = profile.sections
    box = [(np.r_[s.chainage, s.length, 0.0], np.r_[s.level, 0.0, 0.0]) for s in sections]
    ground, against = (sg.Polygon(np.column_stack(xy)).buffer(0) for xy in box)
    areas = section_areas(profile)
    assert areas.cut.area.value == pytest.approx(ground.difference(against).area, abs=1e-7)
    assert areas.fill.area.value == pytest.approx(against.difference(ground).area, abs=1e-7)
    assert areas.left_out == 0.0


def test_where_one_surface_is_not_there_is_left_out_and_told():
    small = [(2, 0, 8), (6, 0, 8), (6, 10, 8), (2, 10, 8)]
    profile = profile_of([(0, 4), (10, 4)], surface_of(SQUARE, TWO), surface_of(small, TWO))
    areas = section_areas(profile)
    assert areas.left_out == pytest.approx(6.0)
    assert areas.cut.area.value == pytest.approx(2.0)
    assert areas.fill.area.value == pytest.approx(2.0)
    rows = profile_rows(split_at_zero(profile))
    assert [row.chainage for row in rows if not np.isnan(row.level[1])] == pytest.approx([2, 3.6, 4, 6])
    assert [row.chainage for row in rows] == pytest.approx([0, 2, 3.6, 4, 6, 10])


def test_the_same_surface_twice_has_no_cut_and_no_fill():
    surface = scattered(80, 4)
    areas = section_areas(profile_of([(3, 3), (16, 14)], surface, surface))
    assert (areas.cut.area.value, areas.fill.area.value) == (0.0, 0.0)
    assert (areas.cut.width, areas.fill.width) == (0.0, 0.0)


def test_an_upright_step_is_two_rows_and_a_rise_without_run():
    low = [(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)]
    high = [(1, 0, 2), (2, 0, 2), (2, 1, 2), (1, 1, 2)]
    step = surface_of(low + high, [*TWO, (4, 5, 6), (4, 6, 7)])
    rows = profile_rows(profile_of([(0.2, 0.1), (1.8, 0.1)], step))
    at = [k for k, row in enumerate(rows) if row.run == 0.0]
    assert len(at) == 1
    assert rows[at[0]].rise[0] == 2.0
    assert [rows[at[0] - 1].level[0], rows[at[0]].level[0]] == [0.0, 2.0]


def test_rows_asked_for_besides_are_there():
    section = SectionCutter(surface_of(SQUARE, TWO)).cut(np.array([(0.0, 4.0), (10.0, 4.0)]))
    rows = profile_rows(make_profile([section], np.array([7.5, -1.0, 22.0])))
    assert [row.chainage for row in rows] == pytest.approx([0, 4, 7.5, 10])
    assert [row.level[0] for row in rows] == pytest.approx([4, 8, 11.5, 14])


def test_rises_do_not_cross_a_gap():
    grid = [(i, j, 1.0 * i) for j in range(2) for i in range(4)]
    triangles = [(0, 1, 5), (0, 5, 4), (2, 3, 7), (2, 7, 6)]
    rows = profile_rows(profile_of([(0, 0.25), (3, 0.25)], surface_of(grid, triangles)))
    assert [row.rise[0] for row in rows] == pytest.approx(
        [np.nan, 0.25, 0.75, np.nan, 0.25, 0.75], nan_ok=True
    )


def test_sections_of_different_lines_are_refused():
    cutter = SectionCutter(surface_of(SQUARE, TWO))
    one, other = (
        cutter.cut(np.array([(0.0, 4.0), (10.0, 4.0)])),
        cutter.cut(np.array([(0.0, 5.0), (9.0, 4.0)])),
    )
    with pytest.raises(BadInput) as told:
        make_profile([one, other])
    assert (
        str(told.value)
        == "Sections of different lines cannot be laid over each other. Cut all along one line."
    )


def test_the_sigma_of_an_area_is_that_of_a_mean_height_where_one_triangle_tells_it():
    """Over a whole edge of 10 m the weights of its ends are 1/2 each: 10 * sigma / sqrt 2, ground and formation."""
    surface = surface_of(SQUARE, TWO, sigma=0.02)
    deep = surface_of([(x, y, -5.0) for x, y, _ in SQUARE], TWO, sigma=0.01)
    areas = section_areas(profile_of([(0, 0), (10, 0)], surface, deep))
    assert areas.cut.area.value == pytest.approx(10 * (5 + 5))
    assert areas.cut.area.sigma == pytest.approx(10 * np.hypot(0.02, 0.01) / np.sqrt(2))
    assert areas.fill.area.value == 0.0


def test_95_percent_of_2000_true_grounds_have_an_area_within_1_96_sigma():
    """Points and the ground between them drawn, of both surfaces; the depth changes its sign along the line.

    Stated is rather too much for the ground between (within a triangle it counts as one), so that the cover may come out
    above 95 %, and not below.
    """
    rng = np.random.default_rng(3)
    ground = scattered(60, 8, sigma=0.03, rough=0.05, reach=2.0)
    formation = scattered(50, 9, sigma=0.02)
    line = np.array([(3.0, 4.0), (17.0, 15.0)])
    areas = section_areas(profile_of(line, ground, formation))
    along = (np.arange(1_400) + 0.5) / 1_400
    places = line[0] + along[:, None] * (line[1] - line[0])
    width = np.hypot(*(line[1] - line[0])) / len(places)
    depth, off = np.zeros(len(places)), np.zeros((2_000, len(places)))
    for surface, sign in ((ground, 1.0), (formation, -1.0)):
        by_point = barycentric(surface, places)
        depth += sign * (by_point @ surface.points[:, 2])
        errors = rng.standard_normal((2_000, len(surface.points))) * surface.sigma
        off += sign * (errors @ by_point.T)
        if surface.rough:
            b = np.sqrt(np.minimum(1.0, 2.0 * (1.0 - (by_point**2).sum(axis=1))))
            coarse = correlated(rng, places[::4], surface.reach, 2_000)
            off += sign * surface.rough * b * np.repeat(coarse, 4, axis=1)
    for side, told in ((1.0, areas.cut), (-1.0, areas.fill)):
        true = width * np.maximum(side * (depth + off), 0.0).sum(axis=1)
        assert told.area.value == pytest.approx(width * np.maximum(side * depth, 0.0).sum(), rel=1e-3)
        covered = (np.abs(true - told.area.value) <= told.area.half_width_95).mean()
        assert 0.93 < covered < 0.975
        assert true.std() == pytest.approx(told.area.sigma, rel=0.1)


def barycentric(surface, places):
    """(k, n) weights of the points at places, by looking at every triangle."""
    out = np.zeros((len(places), len(surface.points)))
    for triangle in surface.triangles:
        a = np.vstack([surface.points[triangle, :2].T, np.ones(3)])
        w = np.linalg.solve(a, np.vstack([places.T, np.ones(len(places))])).T
        inside = (w >= -1e-12).all(axis=1)
        out[inside] = 0.0
        out[np.ix_(inside, triangle)] = w[inside]
    return out
