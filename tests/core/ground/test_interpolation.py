# SPDX-License-Identifier: GPL-2.0-or-later
"""How far the ground lies off the triangles: each point against the others, and what that says of a mean height."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.linalg import cholesky
from scipy.spatial import Delaunay
from scipy.stats import norm

from plugin.core.ground.build import GroundInput, build_surface
from plugin.core.ground.interpolation import (
    ALIKE,
    EFFICIENCY,
    FEWEST,
    LEAST_REACH,
    OF_NORMAL,
    biweight,
    fit_reach,
    leave_one_out,
)
from plugin.core.ground.noding import node_lines
from plugin.core.ground.triangulate import triangulate
from tests.core.ground.nasty import levels, line


def net_of(points, sigma=0.0, lines=()):
    net, _ = node_lines(levels(points, sigma), lines)
    return net, triangulate(net.points[:, :2], net.segments)


def test_each_departure_is_that_of_a_triangulation_made_anew_without_the_point():
    rng = np.random.default_rng(3)
    xy = rng.uniform(0, 50, (150, 2))
    z = np.sin(xy[:, 0] / 5) + rng.normal(0, 0.1, 150)
    found = leave_one_out(*net_of(np.column_stack([xy, z])))
    assert found.tested > 110
    for row, off in zip(found.rows.tolist(), found.off.tolist()):
        rest = np.delete(np.arange(150), row)
        anew = Delaunay(xy[rest])
        k = int(anew.find_simplex(xy[row]))
        way = anew.transform[k]
        part = way[:2] @ (xy[row] - way[2])
        weights = np.append(part, 1 - part.sum())
        assert off == pytest.approx(z[row] - weights @ z[rest[anew.simplices[k]]], abs=1e-9)


def test_noise_alone_is_the_points_own_and_leaves_no_roughness():
    rng = np.random.default_rng(5)
    xy = rng.uniform(0, 100, (4000, 2))
    z = 0.02 * xy[:, 0] + rng.normal(0.0, 0.03, 4000)
    assert leave_one_out(*net_of(np.column_stack([xy, z]), 0.03)).rough < 0.012
    # Where the points are said to be worth less noise than they have, the rest is ground.
    told = leave_one_out(*net_of(np.column_stack([xy, z]), 0.0))
    own = (told.off**2).mean()
    assert told.rough == pytest.approx(np.sqrt(own), rel=0.05)
    assert 1.25 * 0.03**2 < own < 1.6 * 0.03**2  # one, and a third to a half for the three corners


def test_a_few_wild_points_do_not_make_the_ground_rough():
    rng = np.random.default_rng(6)
    xy = rng.uniform(0, 100, (2000, 2))
    z = rng.normal(0.0, 0.02, 2000)
    calm = leave_one_out(*net_of(np.column_stack([xy, z]))).rough
    z[::100] += 5.0
    assert leave_one_out(*net_of(np.column_stack([xy, z]))).rough < 1.25 * calm


def test_points_on_lines_and_on_the_rim_are_not_tested():
    rng = np.random.default_rng(2)
    xy = rng.uniform(0, 50, (200, 2))
    way = np.column_stack([np.linspace(2, 48, 40), np.full(40, 25.0), np.zeros(40)])
    net, triangles = net_of(np.column_stack([xy, np.zeros(200)]), 0.0, [line(way)])
    found = leave_one_out(net, triangles)
    assert not set(found.rows.tolist()) & set(net.segments.ravel().tolist())
    hull = Delaunay(net.points[:, :2]).convex_hull.ravel()
    assert not set(found.rows.tolist()) & set(hull.tolist())


@pytest.mark.parametrize(("side", "is_known"), [(5, False), (7, True)])
def test_fewer_than_twenty_points_inside_say_nothing(side, is_known):
    rng = np.random.default_rng(1)
    x, y = np.meshgrid(np.arange(float(side)), np.arange(float(side)))
    xy = np.column_stack([x.ravel(), y.ravel()]) + rng.uniform(-0.1, 0.1, (side * side, 2))
    found = leave_one_out(*net_of(np.column_stack([xy, rng.normal(0, 1, side * side)])))
    assert (found.tested >= FEWEST) == is_known
    assert (found.rough > 0.0) == is_known
    assert (found.reach > 0.0) == is_known


def correlated(xy, sigma, reach, rng, count):
    """(count, n) heights of exponential correlation."""
    away = np.hypot(*(xy[:, None] - xy[None]).transpose(2, 0, 1))
    root = cholesky(sigma**2 * np.exp(-away / reach) + 1e-9 * np.eye(len(xy)), lower=True)
    return (root @ rng.normal(size=(len(xy), count))).T


@pytest.mark.parametrize("reach", [3.0, 8.0])
def test_the_reach_of_a_variogram_comes_back(reach):
    """Departures drawn with an exponential correlation, 900 places: the fitted reach, over 12 draws, in the median."""
    rng = np.random.default_rng(9)
    xy = rng.uniform(0, 60, (900, 2))
    spacing = 2.0
    drawn = correlated(xy, 0.1, reach, rng, 12)
    fitted = [fit_reach(xy, off, spacing) for off in drawn]
    assert np.median(fitted) == pytest.approx(reach, rel=0.4)


def test_departures_without_any_hang_have_the_reach_of_one_points_ground():
    rng = np.random.default_rng(4)
    xy = rng.uniform(0, 60, (900, 2))
    reaches = [fit_reach(xy, rng.normal(0, 1, 900), 2.0) for _ in range(20)]
    assert np.median(reaches) == LEAST_REACH * 2.0


@pytest.mark.parametrize("reach", [0.3, 1.5, 4.0, 12.0])
def test_what_is_said_of_a_mean_height_covers_the_true_one(reach):
    """Ground drawn at 700 random points and on a fine lattice; the mean of its triangles within 30 m by 30 m against the
    lattice's. Of a mean, rough and reach say rough sqrt(2 pi reach^2 / A): over 150 draws the true departures are that in
    the root mean square, or down to seven tenths of it, whether the ground's own reach is a sixth of the points' spacing or
    six of them."""
    rng = np.random.default_rng(11)
    points = rng.uniform(-10.0, 40.0, (700, 2))
    x, y = np.meshgrid(np.arange(0.5, 30.0, 1.0), np.arange(0.5, 30.0, 1.0))
    lattice = np.column_stack([x.ravel(), y.ravel()])
    drawn = correlated(np.vstack([points, lattice]), 0.1, reach, rng, 150)
    net, triangles = net_of(np.column_stack([points, np.zeros(700)]))
    mesh = Delaunay(points)
    at = mesh.find_simplex(lattice)
    way = mesh.transform[at]
    part = np.einsum("kij,kj->ki", way[:, :2], lattice - way[:, 2])
    weights = np.column_stack([part, 1 - part.sum(axis=1)])
    ratios = []
    for heights in drawn:
        there = (weights * heights[:700][mesh.simplices[at]]).sum(axis=1)
        off = (there - heights[700:]).mean()
        net.points[:, 2] = heights[:700]
        found = leave_one_out(net, triangles)
        ratios.append(off / (found.rough * np.sqrt(min(1.0, 2 * np.pi * found.reach**2 / 900.0))))
    spread = float(np.sqrt(np.mean(np.square(ratios))))
    assert 0.7 < spread < 1.1, spread


def test_a_scaled_moved_or_mirrored_ground_is_as_rough():
    rng = np.random.default_rng(7)
    xy = rng.uniform(0, 50, (600, 2))
    z = rng.normal(0, 0.05, 600)
    base = leave_one_out(*net_of(np.column_stack([xy, z])))
    for moved in (xy + 1e6, xy * (-1, 1), xy[:, ::-1]):
        found = leave_one_out(*net_of(np.column_stack([moved, z])))
        assert found.rough == pytest.approx(base.rough, rel=1e-6)
        assert found.reach == pytest.approx(base.reach, rel=1e-6)
    assert leave_one_out(*net_of(np.column_stack([xy, 3 * z + 100]))).rough == pytest.approx(3 * base.rough)


def test_twenty_thousand_of_many_points_are_tested():
    rng = np.random.default_rng(7)
    xy = rng.uniform(0, 300, (30_000, 2))
    found = build_surface(
        GroundInput(levels(np.column_stack([xy, rng.normal(0, 0.05, 30_000)])))
    ).interpolation
    assert 19_000 < found.tested <= 20_000


def test_the_biweight_of_a_normal_is_its_variance():
    """Its own integrals over nine quartiles of a normal of variance 1."""
    most = 9.0 * norm.ppf(0.75)

    def mean(of):
        return quad(lambda x: of((x / most) ** 2) * norm.pdf(x), -most, most, epsabs=1e-13)[0]

    top, below = mean(lambda s: s * (1 - s) ** 4), mean(lambda s: (1 - s) * (1 - 5 * s))
    assert pytest.approx(most**2 * top / below**2, abs=1e-9) == OF_NORMAL


def test_the_biweight_is_known_to_the_stated_efficiency_and_wild_departures_do_not_move_it():
    """4,000 draws of 100, of a variance of 0.0009; and with one of a hundred wild."""
    drawn = np.random.default_rng(12).normal(0.0, 0.03, (4000, 100))
    told = np.array([biweight(off) for off in drawn]) / 0.03**2
    assert told.mean() == pytest.approx(1.0, abs=0.01)
    assert told.std() == pytest.approx(np.sqrt(2 / (EFFICIENCY * 100)), rel=0.05)
    drawn[:, 0] = 5.0
    assert np.mean([biweight(off) for off in drawn]) / 0.03**2 == pytest.approx(1.0, abs=0.03)
    assert biweight(np.zeros(30)) == 0.0
    assert biweight(1e6 * drawn[0]) == pytest.approx(1e12 * biweight(drawn[0]), rel=1e-12)


def drawn_grounds(rough, count, points=140):
    """Roughness found on so many draws of ground of that roughness (reach one spacing) under noise of 0.03 m, and the noise's
    spread in the departures by what is told of it."""
    rng = np.random.default_rng(13)
    found, ratios = [], []
    for _ in range(count // 20):
        xy = rng.uniform(0, np.sqrt(points), (points, 2))
        net, triangles = net_of(np.column_stack([xy, np.zeros(points)]), 0.03)
        ground = correlated(net.points[:, :2], rough, 1.0, rng, 20) if rough else np.zeros((20, points))
        for heights in ground:
            net.points[:, 2] = heights + rng.normal(0, 0.03, points)
            told = leave_one_out(net, triangles)
            found.append(told.rough)
            ratios.append(biweight(told.off))
    return np.array(found), np.std(ratios) / np.mean(ratios) * np.sqrt(told.tested)


def test_smooth_ground_is_rarely_rough_and_rough_ground_hardly_ever_smooth():
    """Of 400 smooth grounds more than half had a roughness by the median of sizes alone."""
    smooth, chance = drawn_grounds(0.0, 400)
    assert chance == pytest.approx(ALIKE * np.sqrt(2 / EFFICIENCY), rel=0.15)
    assert (smooth > 0.0).mean() < 0.42
    assert np.sqrt((smooth**2).mean()) < 0.4 * 0.03
    rough, _ = drawn_grounds(0.03, 200)
    assert (rough > 0.0).mean() > 0.9
