# SPDX-License-Identifier: GPL-2.0-or-later
"""Contours: exact, whole, each once, through corners and along sides."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.ground.build import GroundInput, build_surface
from plugin.core.ground.contours import draw_contours
from plugin.core.ground.locate import locate
from plugin.core.ground.surface import Surface
from tests.core.ground.nasty import levels


def surface_of(points, sigma=0.0, rough=0.0):
    made = build_surface(GroundInput(levels(points, sigma))).surface
    return Surface(made.points, made.triangles, made.sigma, rough, 1.0, np.zeros(len(made.triangles), bool))


def hilly(seed=1, count=600):
    xy = np.random.default_rng(seed).uniform(0, 60, (count, 2))
    return surface_of(np.column_stack([xy, 3 * np.sin(xy[:, 0] / 6) + 2 * np.cos(xy[:, 1] / 5)]), 0.01)


def lattice(z):
    x, y = np.meshgrid(np.arange(7.0), np.arange(7.0))
    return surface_of(np.column_stack([x.ravel(), y.ravel(), z(x.ravel(), y.ravel())]))


def length(contour):
    return float(np.hypot(*np.diff(contour.points[:, :2], axis=0).T).sum())


def test_a_pyramid_has_a_square_at_each_height():
    made = surface_of([(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (5, 5, 3)])
    drawn = draw_contours(made, 1.0)
    # At 3 m the top is a single place, and at 0 m nothing falls below: neither has a line.
    assert [c.height for c in drawn] == [1.0, 2.0]
    for contour in drawn:
        assert contour.is_closed
        assert length(contour) == pytest.approx(4 * 10 * (1 - contour.height / 3), abs=1e-12)


def test_higher_ground_lies_on_the_left():
    for contour in draw_contours(
        surface_of([(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (5, 5, 3)]), 1.0
    ):
        x, y = contour.points[:, :2].T
        assert (x[:-1] * y[1:] - x[1:] * y[:-1]).sum() > 0  # anticlockwise round the top


def test_every_point_lies_on_the_surface_at_its_height():
    made = hilly()
    for contour in draw_contours(made, 0.37, 0.11):
        at, weights = locate(made.points, made.triangles, contour.points[:, :2])
        assert (at >= 0).all()
        z = (made.points[made.triangles[at], 2] * weights).sum(axis=1)
        assert z == pytest.approx(np.full(len(z), contour.height), abs=1e-9)


def test_lines_end_on_the_rim_alone_and_together_cross_every_triangle_once_a_height():
    made = hilly()
    rim = {}
    for a, b, c in made.triangles.tolist():
        for u, v in ((a, b), (b, c), (c, a)):
            rim[frozenset((u, v))] = rim.get(frozenset((u, v)), 0) + 1
    sides = np.array([sorted(side) for side, count in rim.items() if count == 1])
    p, q = made.points[sides[:, 0], :2], made.points[sides[:, 1], :2]
    drawn = draw_contours(made, 0.25)
    z = made.corners[:, :, 2]
    crossed = sum(int(((z.min(axis=1) < h) & (z.max(axis=1) > h)).sum()) for h in {c.height for c in drawn})
    assert sum(len(c.points) - 1 for c in drawn) == crossed
    for contour in drawn:
        for end in () if contour.is_closed else (contour.points[0, :2], contour.points[-1, :2]):
            along = np.hypot(*(p - end).T) + np.hypot(*(q - end).T) - np.hypot(*(p - q).T)
            assert along.min() < 1e-9


def test_a_line_through_corners_is_one_line():
    (contour,) = draw_contours(lattice(lambda x, y: x - y), 100.0)
    assert contour.height == 0.0
    assert length(contour) == pytest.approx(6 * np.sqrt(2), abs=1e-12)
    assert not contour.is_closed


def test_a_line_along_sides_is_drawn_once():
    (contour,) = draw_contours(lattice(lambda x, y: np.abs(x - 3.0) * -1.0 + 0.0 * y), 10.0)[:1] or [None]
    assert contour.height == 0.0
    total = sum(length(c) for c in draw_contours(lattice(lambda x, y: x - 3.0), 10.0))
    assert total == pytest.approx(6.0, abs=1e-12)


def test_level_ground_has_its_contour_where_it_falls_off():
    def terrace(x, y):
        return np.where((np.abs(x - 3) <= 1) & (np.abs(y - 3) <= 1), 1.0, 0.0)

    (contour,) = draw_contours(lattice(terrace), 1.0)
    assert contour.height == 1.0
    assert contour.is_closed
    assert length(contour) == pytest.approx(8.0, abs=1e-12)
    assert draw_contours(lattice(lambda x, y: 0.0 * x), 1.0) == ()


def test_a_contour_says_what_its_height_and_its_place_are_worth():
    """On a plane of slope 0.1 whose points are worth s each, the height along a straight within one triangle has the
    variance s^2 sum w^2; the place across it is worth ten times as much."""
    made = surface_of([(0, 0, 0), (10, 0, 1), (0, 10, 0)], 0.02, 0.03)
    (contour,) = [c for c in draw_contours(made, 0.5) if c.height == 0.5]
    w = np.array([0.25, 0.5, 0.25])
    wanted = np.sqrt(0.02**2 * (w**2).sum() + 0.03**2)
    assert contour.sigma == pytest.approx(wanted, abs=1e-12)
    assert contour.shift_sigma == pytest.approx(wanted / 0.1, abs=1e-10)
    assert not contour.is_weak


def test_contours_move_and_mirror_with_the_ground():
    made = hilly()
    total = {}
    for c in draw_contours(made, 0.5):
        total[c.height] = total.get(c.height, 0.0) + length(c)
    mirrored = Surface(
        made.points * (-1, 1, 1) + (1e7, 1e7, 0), made.triangles[:, ::-1], made.sigma, 0.0, 0.0, made.is_weak
    )
    again = {}
    for c in draw_contours(mirrored, 0.5):
        again[c.height] = again.get(c.height, 0.0) + length(c)
    assert again.keys() == total.keys()
    for height, value in total.items():
        assert again[height] == pytest.approx(value, abs=1e-5)


@pytest.mark.parametrize("interval", [0.0, -1.0, np.nan, np.inf])
def test_an_interval_that_is_none_is_refused(interval):
    with pytest.raises(BadInput) as caught:
        draw_contours(hilly(), interval)
    assert str(caught.value) == f"The interval of contours is {interval:g} m. Give one above 0."


def test_too_many_contours_are_refused_before_they_are_drawn():
    with pytest.raises(
        BadInput,
        match=r"^Contours every 1e-09 m are more than can be drawn on heights from 0\.00 to 3\.00 m\.",
    ):
        draw_contours(surface_of([(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (5, 5, 3)]), 1e-9)
