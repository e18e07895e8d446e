# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces of triangles beside published forms."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.ground.build import GroundInput, build_surface
from tests.core.ground.nasty import levels, line

HEIGHTS = (1.0, 1.4, 1.9, 0.7)
SIDE = 10.0


def volume(surface):
    """To height 0, m3: each triangle's area times the mean of its heights."""
    return float((surface.areas * surface.corners[:, :, 2].mean(axis=1)).sum())


def test_a_pyramid_of_five_points():
    """Case VOL-13, closed form: base 10 m, apex 3 m; plan 100 m2, sloped 116.61903789690601 m2, volume 100 m3, to 1e-9."""
    surface = build_surface(
        GroundInput(levels([(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (5, 5, 3)]))
    ).surface
    u, v = (surface.corners[:, k] - surface.corners[:, 0] for k in (1, 2))
    assert surface.areas.sum() == pytest.approx(100.0, abs=1e-9)
    assert 0.5 * np.linalg.norm(np.cross(u, v), axis=1).sum() == pytest.approx(116.61903789690601, abs=1e-9)
    assert volume(surface) == pytest.approx(100.0, abs=1e-9)


@pytest.mark.parametrize(("diagonal", "wanted"), [((0, 2), 131.66666666666666), ((1, 3), 118.33333333333333)])
def test_a_breakline_chooses_the_diagonal_of_a_cell(diagonal, wanted):
    """Case VOL-06: a cell of 10 m by 10 m with corners of 1.0, 1.4, 1.9 and 0.7 m, by the triangular base method
    (ha + hb + hc) s^2 / 6 (University of Melbourne, Plane Survey notes, 1998; the figures are worked from the formula, to
    1e-6 of them). The mean of the four corners, 125.0 m3, is neither."""
    corners = [(0.0, 0.0), (SIDE, 0.0), (SIDE, SIDE), (0.0, SIDE)]
    known = [(*corner, z) for corner, z in zip(corners, HEIGHTS)]
    edge = line([known[k] for k in diagonal], "diagonal")
    surface = build_surface(GroundInput(levels(known), (edge,))).surface
    assert volume(surface) == pytest.approx(wanted, rel=1e-6)
    assert abs(volume(surface) - 125.0) > 6.0
