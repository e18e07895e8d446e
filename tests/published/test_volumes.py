# SPDX-License-Identifier: GPL-2.0-or-later
"""Volumes beside published ones, and beside wrong ones that were published too."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.ground.earthwork import Soil, reckon_earthwork, whole_loads
from plugin.core.ground.outline import chorded_ring
from plugin.core.ground.volume import volume_between, volume_to_level
from plugin.core.segments import Curve
from tests.core.ground.grounds import surface_of

FOOT, YARD = 0.3048, 0.9144
FT3, YD3 = FOOT**3, YARD**3
SPLITS = ([[0, 1, 2], [0, 2, 3]], [[0, 1, 3], [1, 2, 3]])


def cell(heights, side, split=None):
    """One square cell: about its middle with the mean height, which is the four-corner rule, or split in two."""
    a, b, c, d = heights
    corners = [[0, 0, a], [side, 0, b], [side, side, c], [0, side, d]]
    if split is not None:
        return surface_of(corners, SPLITS[split])
    middle = [side / 2, side / 2, (a + b + c + d) / 4]
    return surface_of([*corners, middle], [[0, 1, 4], [1, 2, 4], [2, 3, 4], [3, 0, 4]])


def layer(length, width, thick):
    """The volume of an even layer, m3."""
    top = surface_of(
        [[0, 0, thick], [length, 0, thick], [length, width, thick], [0, width, thick]], SPLITS[0]
    )
    return volume_to_level(top, 0.0).cut.value


def test_vol_05_one_grid_cell_filled():
    """expertsmind.com, worked answer (VOL-05): corners 87.6, 87.6, 87.6, 88.6 ft, 50 ft, filled to 90 ft: mean 87.85,
    199 cubic yards."""
    heights = np.array([87.6, 87.6, 87.6, 88.6]) * FOOT
    told = volume_to_level(cell(heights, 50 * FOOT), 90 * FOOT)
    assert (90 * FOOT + told.mean.value) / FOOT == pytest.approx(87.85, abs=1e-9)
    assert told.fill.value / YD3 == pytest.approx(199, abs=0.5)
    assert told.fill.value / YD3 == pytest.approx(199.07407407407408, rel=1e-12)
    both = [volume_to_level(cell(heights, 50 * FOOT, k), 90 * FOOT).fill.value for k in (0, 1)]
    assert np.mean(both) == pytest.approx(told.fill.value, rel=1e-12)


def test_vol_06_the_diagonal_of_a_cell_is_a_choice():
    """Formula (ha + hb + hc) s^2 / 6: University of Melbourne, Plane Survey notes, triangular base method (1998); numbers
    are ours (VOL-06): 125.0 by the mean of four, 131.67 and 118.33 by the two ways to split the cell."""
    heights = (1.0, 1.4, 1.9, 0.7)
    assert volume_to_level(cell(heights, 10.0), 0.0).cut.value == pytest.approx(125.0, rel=1e-12)
    assert volume_to_level(cell(heights, 10.0, 0), 0.0).cut.value == pytest.approx(
        131.66666666666666, rel=1e-12
    )
    assert volume_to_level(cell(heights, 10.0, 1), 0.0).cut.value == pytest.approx(
        118.33333333333333, rel=1e-12
    )


def test_vol_07_a_borrow_pit_of_three_cells():
    """Rule A/4 (S h1 + 2 S h2 + 3 S h3 + 4 S h4): expertsmind.com, earth work from spot levels; numbers are ours (VOL-07)."""
    rows = [[1.0, 1.2, 1.1], [1.4, 1.6, 1.3], [1.5, 1.7]]
    points, triangles = [], []
    for j, i in ((0, 0), (0, 1), (1, 0)):
        first = len(points)
        corners = [(j, i), (j, i + 1), (j + 1, i + 1), (j + 1, i)]
        points += [[20.0 * i, 20.0 * j, rows[j][i]] for j, i in corners]
        points.append([20.0 * (i + 0.5), 20.0 * (j + 0.5), np.mean([rows[j][i] for j, i in corners])])
        triangles += [[first + k, first + (k + 1) % 4, first + 4] for k in range(4)]
    assert volume_to_level(surface_of(points, triangles), 0.0).cut.value == pytest.approx(1660.0, rel=1e-12)


def test_vol_09_an_excavated_pond():
    """USDA NRCS Agriculture Handbook 590, Ponds (example from memory, VOL-09): 12 ft deep, bottom 40 x 100 ft, slopes 2:1
    and one end 4:1: 15,136 and 8,704 and 4,000 square feet at top, middle and bottom, 3,996 cubic yards."""
    bottom = [[0, 0], [100, 0], [100, 40], [0, 40]]
    top = [[-24, -24], [148, -24], [148, 64], [-24, 64]]
    points = [[*xy, -12.0] for xy in bottom] + [[*xy, 0.0] for xy in top]
    sides = [t for k in range(4) for t in ([k, (k + 1) % 4, 4 + (k + 1) % 4], [k, 4 + (k + 1) % 4, 4 + k])]
    pond = surface_of(np.array(points) * FOOT, [[0, 1, 2], [0, 2, 3], *sides])
    ground = surface_of(
        np.array([[-50, -50, 0], [200, -50, 0], [200, 90, 0], [-50, 90, 0]]) * FOOT, SPLITS[0]
    )
    told = volume_between(ground, pond)
    assert told.cut.value / YD3 == pytest.approx(3996, abs=0.6)
    assert told.cut.value / FT3 == pytest.approx(53952 * 12 / 6, rel=1e-12)
    assert told.area / FOOT**2 == pytest.approx(15136, abs=1e-6)
    assert told.fill.value == 0.0
    at = [volume_to_level(pond, level * FOOT).areas[1] / FOOT**2 for level in (-6.0, -1e-9)]
    assert at[0] == pytest.approx(8704, abs=1e-6)


def test_vol_13_a_pyramid_of_four_triangles():
    """Closed form; the same to 1e-9 by two general libraries (VOL-13): base 10 m, apex 3 m."""
    points = [[0, 0, 0], [10, 0, 0], [10, 10, 0], [0, 10, 0], [5, 5, 3]]
    pyramid = surface_of(points, [[0, 1, 4], [1, 2, 4], [2, 3, 4], [3, 0, 4]])
    told = volume_to_level(pyramid, 0.0)
    assert told.area == pytest.approx(100.0, abs=1e-9)
    assert told.cut.value == pytest.approx(100.0, abs=1e-9)
    assert (pyramid.areas * np.sqrt(1 + (pyramid.slopes**2).sum(axis=1))).sum() == pytest.approx(
        116.61903789690601, abs=1e-9
    )


def test_mat_01_what_a_cubic_yard_covers():
    """Printed home-improvement cost book, 2018, p. 42 (MAT-01): square feet by inches of thickness; at 7 in the book
    prints 46.2, cut off from 46.29."""
    printed = {1: 324, 2: 162, 3: 108, 4: 81, 5: 64.8, 6: 54, 7: 46.2, 8: 40.5}
    for inches, feet in printed.items():
        covered = 10 * 10 * YD3 / layer(10 * FOOT, 10 * FOOT, inches / 12 * FOOT)
        if inches == 7:
            assert covered == pytest.approx(46.29, abs=0.005)
            assert abs(covered - feet) > 0.05
        else:
            assert covered == pytest.approx(feet, abs=0.05)


def test_mat_03_a_bed_and_a_round_bed():
    """danihertopsoil.com, examples (MAT-03): 12 x 14 ft by 4 in 2.07, radius 12 ft by 6 in 8.38 cubic yards."""
    assert layer(12 * FOOT, 14 * FOOT, FOOT / 3) / YD3 == pytest.approx(2.07, abs=0.006)
    radius = 12 * FOOT
    round_bed = chorded_ring(Curve(np.array([[-radius, 0, 0], [radius, 0, 0], [-radius, 0, 0]]), np.ones(2)))
    top = surface_of(
        np.array([[-9, -9, 0.5 * FOOT], [9, -9, 0.5 * FOOT], [9, 9, 0.5 * FOOT], [-9, 9, 0.5 * FOOT]]),
        SPLITS[0],
    )
    told = volume_to_level(top, 0.0, [round_bed]).cut.value / YD3
    assert told == pytest.approx(8.38, abs=0.006)
    assert told == pytest.approx(8.377580409572781, rel=1e-12)


def test_mat_05_06_slabs():
    """Public pages (MAT-05): 10 x 10 ft by 4 in 33.3 cubic feet, 1.23 cubic yards; 1.22, of a thickness rounded to
    0.33 ft, is not it. An exam question (MAT-06): 120 x 80 x 2 ft 711.11 cubic yards."""
    slab = layer(10 * FOOT, 10 * FOOT, FOOT / 3)
    assert slab / FT3 == pytest.approx(33.3, abs=0.05)
    assert slab / YD3 == pytest.approx(1.2345679012345678, rel=1e-12)
    assert abs(slab / YD3 - 1.22) > 0.01
    assert layer(120 * FOOT, 80 * FOOT, 2 * FOOT) / YD3 == pytest.approx(711.11, abs=0.005)


def test_mat_07_loads_are_rounded_before_they_are_made_whole():
    """Sold in half yards, one yard at least: llredimix.com; numbers are ours (MAT-07): 5.43 is 11 halves, and 5.5 that is
    5.5000000001 by rounding is 11 halves too, not 12."""
    assert whole_loads(5.432098765432099, 0.5) * 0.5 == 5.5
    assert whole_loads(5.5000000001, 0.5) * 0.5 == 5.5
    assert math.ceil(5.5000000001 / 0.5) * 0.5 == 6.0


def test_mat_14_a_layer_that_was_published_too_thin():
    """pt.411answers.com (MAT-14): 200 square feet by 4 in are 66.67 cubic feet; the 50 printed there is a layer of 3 in."""
    told = layer(20 * FOOT, 10 * FOOT, FOOT / 3) / FT3
    assert told == pytest.approx(66.66666666666667, rel=1e-12)
    assert abs(told - 50) > 0.5
    assert layer(20 * FOOT, 10 * FOOT, FOOT / 4) / FT3 == pytest.approx(50, abs=1e-9)


def test_mat_18_tonnes_by_bulk_density():
    """Bulk densities, a conversion table of photohaus.co.za (MAT-18): crushed stone 1.92 t/m3: 30 m2 by 0.15 m 8.64 t."""
    stone = surface_of([[0, 0, 0.15], [6, 0, 0.15], [6, 5, 0.15], [0, 5, 0.15]], SPLITS[0])
    work = reckon_earthwork(volume_to_level(stone, 0.0), Soil(density=1.92, load_t=20.0))
    assert work.away.mass.value == pytest.approx(8.64, rel=1e-12)
    assert (work.away.loads, work.away.by) == (1, "mass")
