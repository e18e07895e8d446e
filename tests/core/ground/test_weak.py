# SPDX-License-Identifier: GPL-2.0-or-later
"""Triangles that no one should lean on."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.ground.noding import node_lines
from plugin.core.ground.triangulate import triangulate
from plugin.core.ground.weak import farthest, find_weak, median_spacing, on_one_line
from tests.core.ground.nasty import levels, line


def lattice(n=9):
    x, y = np.meshgrid(np.arange(float(n)), np.arange(float(n)))
    return np.column_stack([x.ravel(), y.ravel()])


@pytest.mark.parametrize(
    ("corners", "wanted"),
    [
        ([(0, 0), (3, 0), (0, 4)], 2.5),  # a right angle: the middle of the longest side
        ([(0, 0), (2, 0), (1, np.sqrt(3))], 2 / np.sqrt(3)),  # the circle of an acute one
        # Obtuse at the origin, on the longest side: 5 by hand from the mid-normal of the side of 8.
        ([(0, 0), (8, 0), (-3, 4)], None),
        ([(0, 0), (1, 1e-9), (2, 0)], 0.5),
    ],
)
def test_the_farthest_place_of_a_triangle_is_that_of_a_fine_grid(corners, wanted):
    p = np.array(corners, float)
    squares = ((np.roll(p, -2, axis=0) - np.roll(p, -1, axis=0)) ** 2).sum(axis=1)
    got = float(farthest(squares[None])[0])
    u, v = np.meshgrid(np.linspace(0, 1, 801), np.linspace(0, 1, 801))
    inside = u + v <= 1
    places = p[0] + u[inside][:, None] * (p[1] - p[0]) + v[inside][:, None] * (p[2] - p[0])
    away = np.hypot(*(places[:, None] - p[None]).transpose(2, 0, 1)).min(axis=1)
    assert got == pytest.approx(away.max(), rel=5e-3)
    if wanted is not None:
        assert got == pytest.approx(wanted, rel=1e-6)


def test_a_lattice_has_no_weak_triangle_and_a_hole_in_it_has():
    xy = lattice()
    net, _ = node_lines(levels(xy), [])
    assert not find_weak(net, triangulate(xy, net.segments)).any()
    holed = xy[np.hypot(*(xy - 4).T) > 3.5]
    net, _ = node_lines(levels(holed), [])
    triangles = triangulate(net.points[:, :2], net.segments)
    weak = find_weak(net, triangles)
    middle = net.points[triangles][:, :, :2].mean(axis=1)
    assert weak.any()
    assert (np.hypot(*(middle[weak] - 4).T) < 3.5).all()
    assert not find_weak(net, triangles, 10.0).any()


def test_points_along_lines_do_not_make_the_spacing():
    dense = line(np.column_stack([np.linspace(0, 8, 400), np.full(400, 4.5), np.zeros(400)]))
    net, _ = node_lines(levels(lattice(20)), [dense])
    assert median_spacing(net, triangulate(net.points[:, :2], net.segments)) == pytest.approx(1.0)


def test_triangles_on_one_line_are_weak_and_between_two_lines_are_not():
    arc = np.linspace(0.0, np.pi, 12)
    bend = line(np.column_stack([10 * np.cos(arc), 10 * np.sin(arc), np.zeros(12)]), "bend")
    net, _ = node_lines(levels(np.empty((0, 3))), [bend])
    triangles = triangulate(net.points[:, :2], net.segments)
    assert on_one_line(net, triangles).all()
    other = line(np.column_stack([4 * np.cos(arc), 4 * np.sin(arc), np.zeros(12)]), "inner")
    net, _ = node_lines(levels(np.empty((0, 3))), [bend, other])
    triangles = triangulate(net.points[:, :2], net.segments)
    alone = on_one_line(net, triangles)
    of_outer = np.hypot(*net.points[:, :2].T) > 5
    mixed = np.ptp(of_outer[triangles].astype(int), axis=1) > 0
    assert not alone[mixed].any()
    assert alone[~mixed].all()


def test_slivers_of_the_rim_are_weak():
    xy = np.vstack([lattice(), [[4.0, -0.02], [20.0, 4.0]]])
    net, _ = node_lines(levels(xy), [])
    triangles = triangulate(xy, net.segments)
    weak = find_weak(net, triangles, 100.0)
    corners = xy[triangles[weak]]
    assert weak.any()
    assert not weak.all()
    sides = np.hypot(*(np.roll(corners, -1, axis=1) - corners).transpose(2, 0, 1)).max(axis=1)
    assert (sides > 3.0).all()


@pytest.mark.parametrize("chord", [0.5, 0.1, 0.02])
def test_of_lines_alone_the_spacing_is_not_that_of_the_chords_of_an_arc(chord):
    """A court of 8 m by 5 m beside a bed of 1 m radius, in chords: half of all 32 m of line lie in straights of 5 m or more,
    however fine the chords are; the court is not weak for them."""
    turn = np.linspace(0, 2 * np.pi, int(2 * np.pi / chord) + 1)
    bed = np.column_stack([12 + np.cos(turn), 2.5 + np.sin(turn), 0 * turn])
    bed[-1] = bed[0]
    court = line([(0, 0, 0), (8, 0, 0), (8, 5, 0), (0, 5, 0), (0, 0, 0)], "court")
    net, _ = node_lines(levels(np.empty((0, 3))), [court, line(bed, "bed")])
    triangles = triangulate(net.points[:, :2], net.segments)
    assert median_spacing(net, triangles) == pytest.approx(5.0, abs=1e-9)
    between = (net.points[triangles, 0].min(axis=1) < 8.5) & (net.points[triangles, 0].max(axis=1) > 10)
    assert between.any()
    assert not find_weak(net, triangles)[between].all()
