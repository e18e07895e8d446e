# SPDX-License-Identifier: GPL-2.0-or-later
"""Ponds beside closed forms, beside a flood point by point, and beside a flood of a fine grid."""

from __future__ import annotations

import heapq
import math
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from scipy.interpolate import LinearNDInterpolator

from plugin.core.errors import BadInput
from plugin.core.ground.low_points import flood
from plugin.core.ground.ponds import measure_ponds
from plugin.core.ground.ways_out import RIM, ways_out
from tests.core.ground.grounds import drawn_surface, grid_surface, moved, surface_of

PIT = [[0, 0, 9], [4, 0, 8.5], [4, 4, 9], [0, 4, 9], [2, 2, 8]]
FACES = [[0, 1, 4], [1, 2, 4], [2, 3, 4], [3, 0, 4]]


def terraced(surface, steps=3):
    """The same with heights in steps, so that much is level."""
    z = np.round(surface.points[:, 2] * steps) / steps
    return replace(surface, points=np.column_stack([surface.points[:, :2], z]))


def flooded_point_by_point(surface):
    """The level over each point, by a heap from the rim inwards (Barnes, Lehman and Mulla's priority flood, from memory)."""
    z = surface.points[:, 2].tolist()
    count, beside = Counter(), {k: set() for k in range(len(z))}
    for a, b, c in surface.triangles.tolist():
        for u, v in ((a, b), (b, c), (c, a)):
            count[frozenset((u, v))] += 1
            beside[u].add(v)
            beside[v].add(u)
    rim = {v for edge, n in count.items() if n == 1 for v in edge}
    level = [math.inf] * len(z)
    heap = [(z[v], v) for v in rim]
    for high, v in heap:
        level[v] = high
    heapq.heapify(heap)
    while heap:
        high, v = heapq.heappop(heap)
        for w in beside[v] if high == level[v] else ():
            if max(high, z[w]) < level[w]:
                level[w] = max(high, z[w])
                heapq.heappush(heap, (level[w], w))
    return np.array(level)


# --- where water stands ---


def test_a_pit_fills_to_its_lowest_edge():
    """A square pyramid upside down whose rim is 9 but for one corner at 8.5: water to 8.5, half a metre deep."""
    flooded = flood(surface_of(PIT, FACES))
    assert (len(flooded), flooded.spill.tolist(), flooded.deepest.tolist()) == (1, [1], [4])
    (pond,) = measure_ponds(flooded)
    assert (pond.level.value, pond.depth.value) == (8.5, 0.5)
    # The triangles by the low corner are wet to it: along their other side to its middle. By the others to half way.
    two, one = 2 * 2.0, 1.0
    assert pond.area.value == pytest.approx(two + 2 * one, rel=1e-12)
    assert pond.volume.value == pytest.approx((two + 2 * one) * 0.5 / 3, rel=1e-12)
    assert pond.is_certain
    assert pond.chance == 1.0


@pytest.mark.parametrize("seed", range(60))
@pytest.mark.parametrize("change", [lambda s: s, terraced])
def test_the_water_stands_as_a_flood_point_by_point_has_it(seed, change):
    surface = change(drawn_surface(60, seed))
    flooded = flood(surface)
    assert np.array_equal(flooded.level, flooded_point_by_point(flooded.surface))
    under = flooded.level > flooded.surface.points[:, 2]
    assert np.array_equal(under, flooded.pond >= 0)
    assert np.array_equal(flooded.level[under], flooded.levels[flooded.pond[under]])


def test_ponds_are_those_of_ever_finer_flooded_grids():
    """Cells of 50 and of 25 mm, filled by a flood of their own over eight neighbours. What they miss halves with the cell,
    so that twice the finer less the coarser one is what they come to."""
    surface = drawn_surface(50, 11, side=10.0)
    ponds = measure_ponds(flood(surface))
    assert len(ponds) > 1
    on = LinearNDInterpolator(surface.points[:, :2], surface.points[:, 2])
    coarse, fine = (_raster(on, step) for step in (0.05, 0.025))
    area, volume = 2 * fine - coarse
    assert sum(p.area.value for p in ponds) == pytest.approx(area, rel=0.005)
    assert sum(p.volume.value for p in ponds) == pytest.approx(volume, rel=0.005)


def _raster(on, step):
    """Area and volume of the water on a grid over [0, 10]^2."""
    side = np.arange(step / 2, 10, step)
    z = on(*np.meshgrid(side, side))
    full = _raster_flood(z)
    wet = full > z + 1e-9
    return np.array([wet.sum(), (full - z)[wet].sum()]) * step**2


def _raster_flood(z):
    full, seen = np.full(z.shape, np.inf), np.zeros(z.shape, bool)
    rows, cols = z.shape
    heap = [
        (z[i, j], i, j) for i in range(rows) for j in range(cols) if i in (0, rows - 1) or j in (0, cols - 1)
    ]
    for high, i, j in heap:
        full[i, j], seen[i, j] = high, True
    heapq.heapify(heap)
    while heap:
        high, i, j = heapq.heappop(heap)
        for k in range(max(i - 1, 0), min(i + 2, rows)):
            for m in range(max(j - 1, 0), min(j + 2, cols)):
                if not seen[k, m]:
                    seen[k, m], full[k, m] = True, max(high, z[k, m])
                    heapq.heappush(heap, (full[k, m], k, m))
    return full


def test_a_void_lets_water_out():
    grid = grid_surface(lambda x, y: np.hypot(x - 5, y - 5) * 0.1, 10, 10)
    (pond,) = measure_ponds(flood(grid))
    assert pond.depth.value == pytest.approx(0.5)
    drained = replace(grid, triangles=grid.triangles[~(grid.triangles == 60).any(axis=1)])
    drained = replace(drained, is_weak=np.zeros(len(drained.triangles), bool))
    assert measure_ponds(flood(drained)) == []


def test_two_pits_in_one_basin_are_one_pond_and_two_basins_are_two():
    def along(z):
        x = np.arange(len(z), dtype=float)
        rows = np.concatenate(
            [np.column_stack([x, np.full(len(x), y), z + lift]) for y, lift in ((0, 9), (1, 0), (2, 9))]
        )
        n = len(z)
        cells = [
            [k + r * n, k + 1 + r * n, k + n + 1 + r * n, k + n + r * n] for r in (0, 1) for k in range(n - 1)
        ]
        return surface_of(rows, [t for a, b, c, d in cells for t in ([a, b, c], [a, c, d])])

    both = measure_ponds(flood(along(np.array([5, 1, 2, 0, 3.0]))))
    assert [(p.level.value, p.depth.value) for p in both] == [(3.0, 3.0)]
    apart = measure_ponds(flood(along(np.array([5, 1, 4, 0, 3.0]))))
    assert sorted((p.level.value, p.depth.value) for p in apart) == [(3.0, 3.0), (4.0, 3.0)]


def test_level_ground_and_a_slope_hold_no_water():
    for height in (lambda x, y: 0 * x, lambda x, y: 0.01 * x - 0.3 * y):
        assert measure_ponds(flood(grid_surface(height, 10, 8))) == []


def test_moved_far_turned_and_mirrored_ponds_hold_the_same():
    surface = drawn_surface(60, 5, sigma=0.01, rough=0.01, reach=1.0)
    here = measure_ponds(flood(surface))
    mirror = surface_of(surface.points * [-1, 1, 1], surface.triangles, 0.01, 0.01, 1.0)
    for other in (moved(surface, 0.9, (1e7, -1e7, 200.0)), mirror):
        there = measure_ponds(flood(other))
        assert len(there) == len(here) > 0
        for a, b in zip(here, there):
            assert b.area.value == pytest.approx(a.area.value, rel=1e-6)
            assert b.volume.value == pytest.approx(a.volume.value, rel=1e-6)
            assert b.volume.sigma == pytest.approx(a.volume.sigma, rel=1e-5)
            assert b.area.sigma == pytest.approx(a.area.sigma, rel=1e-4)


def test_outlines_enclose_the_areas_and_islands_are_holes():
    ring = grid_surface(lambda x, y: np.abs(np.hypot(x - 5, y - 5) - 3.0), 10, 20)
    pond = measure_ponds(flood(ring))[0]
    assert len(pond.outline[0]) == 2
    assert _enclosed(pond.outline) == pytest.approx(pond.area.value, rel=1e-9)


@pytest.mark.parametrize("seed", range(60))
@pytest.mark.parametrize("change", [lambda s: s, terraced, lambda s: moved(s, 0.4, (1e7, -1e7, 50.0))])
def test_every_outline_encloses_the_area_of_its_pond(seed, change):
    for pond in measure_ponds(flood(change(drawn_surface(70, seed)))):
        assert _enclosed(pond.outline) == pytest.approx(pond.area.value, rel=1e-6, abs=1e-6)


def _enclosed(outline):
    """Outer rings less holes, m2."""
    area = 0.0
    for polygon in outline:
        for k, ring in enumerate(polygon):
            x, y = (ring - ring[0]).T
            own = abs(0.5 * float(x[:-1] @ y[1:] - x[1:] @ y[:-1]))
            area += -own if k else own
    return area


# --- what it is worth ---


def test_sigmas_of_depth_volume_and_area_are_those_of_draws():
    surface = drawn_surface(25, 3, side=20.0, sigma=0.004)
    told = measure_ponds(flood(surface))[0]
    draw, found = np.random.default_rng(2), []
    for _ in range(600):
        points = surface.points.copy()
        points[:, 2] += draw.normal(0, 0.004, len(points))
        pond = measure_ponds(flood(replace(surface, points=points)))[0]
        found.append([pond.level.value, pond.depth.value, pond.area.value, pond.volume.value])
    sigma = [q.sigma for q in (told.level, told.depth, told.area, told.volume)]
    assert sigma == pytest.approx(np.std(found, axis=0), rel=0.09)


def test_what_all_heights_share_is_in_the_level_alone():
    flooded = flood(surface_of(PIT, FACES, 0.01))
    (one,), (other,) = measure_ponds(flooded), measure_ponds(flooded, common=0.05)
    assert other.level.sigma == pytest.approx(math.hypot(0.01, 0.05))
    assert (other.depth, other.area, other.volume) == (one.depth, one.area, one.volume)


def test_a_depth_within_its_interval_cannot_be_told():
    (pond,) = measure_ponds(flood(surface_of(PIT, FACES, 0.5 / math.sqrt(2) / 1.5)))
    assert not pond.is_certain
    assert pond.chance == pytest.approx(0.9331927987, abs=1e-9)  # 1.5 sigma, normal
    (pond,) = measure_ponds(flood(surface_of(PIT, FACES, 0.5 / math.sqrt(2) / 2.0)))
    assert pond.is_certain


def test_shallow_ponds_are_left_out():
    flooded = flood(surface_of(PIT, FACES))
    assert len(measure_ponds(flooded, 0.5)) == 1
    assert measure_ponds(flooded, 0.51) == []


# --- the way out ---


def test_water_leaves_over_the_rim_where_it_runs_off_there():
    (way,) = ways_out(flood(surface_of(PIT, FACES)), np.array([0]))
    assert way.into == RIM
    assert way.line == pytest.approx(np.array([[4.0, 0.0, 8.5]]), abs=1e-12)


def test_water_runs_down_a_valley_and_over_a_plane():
    """A pit in the middle of a plane that falls 1:10 to the east, dammed at 5.5: straight down from the dam."""

    def height(x, y):
        hole = np.maximum(0.0, 1.0 - np.hypot(x - 5, y - 5)) * 1.0
        return 10 - 0.1 * x - hole

    flooded = flood(grid_surface(height, 10, 10))
    (way,) = ways_out(flooded, np.array([0]))
    assert way.into == RIM
    assert way.line[0, 2] == flooded.levels[0]
    assert way.line[-1] == pytest.approx([10.0, way.line[0, 1], 9.0], abs=1e-9)
    assert np.ptp(way.line[:, 1]) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("seed", range(80))
@pytest.mark.parametrize("change", [lambda s: s, terraced])
def test_ways_go_down_and_end_at_the_rim_or_at_water(seed, change):
    flooded = flood(change(drawn_surface(80, seed)))
    surface = flooded.surface
    on = LinearNDInterpolator(surface.points[:, :2], surface.points[:, 2])
    for way in ways_out(flooded, np.arange(len(flooded))):
        assert (np.diff(way.line[:, 2]) <= 1e-12).all()
        assert way.line[0] == pytest.approx(surface.points[flooded.spill[way.pond]], abs=1e-12)
        assert way.into != way.pond
        if way.into != RIM:
            assert way.line[-1, 2] == pytest.approx(max(flooded.levels[way.into], way.line[-1, 2]), abs=1e-9)
            assert flooded.levels[way.into] <= way.line[0, 2] + 1e-12
        middles = 0.5 * (way.line[1:] + way.line[:-1])
        told = on(middles[:, :2])
        good = np.isfinite(told)
        # Straights of the way lie in triangles: their middles are on the ground.
        assert np.abs(told[good] - middles[good, 2]).max(initial=0.0) < 1e-6


# --- bad and large ---


def test_what_is_no_surface_is_refused():
    with pytest.raises(BadInput) as none:
        flood(surface_of(PIT, np.empty((0, 3), int)))
    assert str(none.value) == "The surface has no triangles, so that no water stands on it. Build it."
    for bad in (math.nan, math.inf):
        with pytest.raises(BadInput) as broken:
            flood(surface_of([*PIT[:4], [2, 2, bad]], FACES))
        assert str(broken.value) == (
            "A point of the surface has no place or no height. Build it again without it."
        )


def test_points_without_triangles_are_passed_over():
    surface = surface_of([*PIT, [100, 100, math.nan]], FACES)
    assert len(measure_ponds(flood(surface))) == 1


def test_half_a_million_triangles_are_flooded():
    grid = grid_surface(lambda x, y: np.sin(x / 7) + np.cos(y / 9), 500, 500)
    flooded = flood(grid)
    assert len(grid.triangles) == 500_000
    assert len(flooded) > 50
    assert (flooded.level >= grid.points[:, 2]).all()
