# SPDX-License-Identifier: GPL-2.0-or-later
"""Polygons cut by straights, and pieces that fill the common ground once."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import Polygon

from plugin.core.ground.outline import fill_outline
from plugin.core.ground.overlay import Pieces, clip, facets_of, lay_over, moments
from tests.core.ground.grounds import drawn_surface, moved, square


def convex(count, seed, corners=6):
    """(corners, count) convex polygons on circles, anticlockwise; some with corners that repeat the first."""
    draw = np.random.default_rng(seed)
    angle = np.sort(draw.uniform(0, 2 * np.pi, (corners, count)), axis=0)
    x, y = np.cos(angle), np.sin(angle)
    few = draw.uniform(size=count) < 0.4
    x[4:, few], y[4:, few] = x[0, few], y[0, few]
    return x, y


@pytest.mark.parametrize("seed", range(5))
def test_what_is_left_and_what_is_cut_off_are_the_whole(seed):
    x, y = convex(500, seed)
    a, b, c = np.random.default_rng(seed + 9).normal(size=(3, 500))
    d = a * x + b * y + 0.3 * c
    wide = 1e3
    for sign in (1.0, -1.0):
        (left_x, left_y), kept = clip((x, y), sign * d)
        areas = moments(Pieces(left_x, left_y, kept, kept))[0]
        for k, area in zip(kept, areas):
            whole = Polygon(np.column_stack([x[:, k], y[:, k]]))
            far = np.array([a[k], b[k]]) * sign
            normal, along = far / np.hypot(*far), np.array([-far[1], far[0]]) / np.hypot(*far)
            foot = -sign * 0.3 * c[k] * far / (far @ far)
            half = Polygon(
                [
                    foot + wide * along,
                    foot - wide * along,
                    foot + wide * (normal - along),
                    foot + wide * (normal + along),
                ]
            )
            assert area == pytest.approx(whole.intersection(half).area, abs=1e-9)
    both = [moments(Pieces(*clip((x, y), s * d)[0], np.zeros(0), np.zeros(0)))[0].sum() for s in (1.0, -1.0)]
    assert sum(both) == pytest.approx(moments(Pieces(x, y, np.zeros(0), np.zeros(0)))[0].sum(), rel=1e-13)


def test_what_only_touches_is_left_out_and_what_stays_whole_is_not_moved():
    x, y = np.array([[0, 5.0], [1, 6], [0, 5]]), np.array([[0, 0.0], [0, 0], [1, 1]])
    (left_x, left_y), kept = clip((x, y), x - 1.0)
    assert kept.tolist() == [1]
    assert (left_x[:3, 0].tolist(), left_y[:3, 0].tolist()) == ([5, 6, 5], [0, 0, 1])


@pytest.mark.parametrize("turn", range(4))
@pytest.mark.parametrize("noise", [(-1, 1, -1), (1, -1, 1), (-1, 1, 0), (0, -1, 1)])
def test_corners_that_rounding_puts_to_either_side_of_the_straight_take_nothing_away(turn, noise):
    # A triangle with a corner more on its base, which is the straight.
    corners = np.roll(np.array([[0.0, 1.0], [-1.0, 0.0], [0.25, 0.0], [1.0, 0.0]]), turn, axis=0)
    d = np.roll([1.0, *(1e-17 * n for n in noise)], turn)
    for sign, area in ((1.0, 1.0), (-1.0, 0.0)):
        (x, y), kept = clip((corners[:, :1], corners[:, 1:]), sign * d[:, None])
        assert moments(Pieces(x, y, kept, kept))[0].sum() == pytest.approx(area, abs=1e-15)


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("finer", [False, True])
def test_pieces_fill_the_common_ground_once_and_lie_where_they_say(seed, finer):
    upper, lower = (
        drawn_surface(40, seed),
        moved(drawn_surface(150 if finer else 25, seed + 5), 0.5, (4, -3, 0)),
    )
    ring = np.array([[3, 1], [16, 4], [12, 12], [14, 19], [2, 15]], float)
    common = Polygon(square(0, 20)).intersection(
        Polygon(moved(drawn_surface(0, 1), 0.5, (4, -3, 0)).points[:4, :2])
    )
    above, below = facets_of(upper, np.zeros(3)), facets_of(lower, np.zeros(3))
    for over, area in ((None, common.area), (ring, common.intersection(Polygon(ring)).area)):
        total = 0.0
        for pieces in lay_over(above, below, None if over is None else fill_outline([over])):
            own, x, y = moments(pieces)
            total += own.sum()
            for facets, which in ((above, pieces.upper), (below, pieces.lower)):
                second, third = facets.weights_at(which, x, y)
                assert min(second.min(), third.min(), (1 - second - third).min()) > -1e-9
        assert total == pytest.approx(area, rel=1e-11)
