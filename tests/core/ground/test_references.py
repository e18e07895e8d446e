# SPDX-License-Identifier: GPL-2.0-or-later
"""Areas, volumes and sections of the same triangles by shapely, scipy and trimesh, to 1e-9."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh
from scipy.spatial import ConvexHull
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

from plugin.core.ground.section import SectionCutter
from plugin.core.ground.volume import volume_to_level
from tests.core.ground.grounds import drawn_surface, moved, square

PLACES = [(0.0, (0.0, 0.0, 0.0)), (0.7, (500_000.0, 5_700_000.0, 84.0))]


@pytest.fixture(params=PLACES, ids=["at the origin", "turned, on a national grid"])
def surface(request):
    """A drawn surface; far away the reference is asked about the same triangles, moved back by whole metres."""
    return moved(drawn_surface(300, 9), *request.param)


def about_itself(surface):
    """(m, 3, 3) corners about a whole-metre place near the middle, so that the references lose no digits."""
    return surface.corners - np.round(surface.points.mean(axis=0))


def test_plan_areas_are_shapelys(surface):
    flat = [Polygon(corners[:, :2]) for corners in about_itself(surface)]
    assert surface.areas == pytest.approx([one.area for one in flat], rel=1e-9)
    assert surface.areas.sum() == pytest.approx(unary_union(flat).area, rel=1e-9)


def test_areas_along_the_slope_are_trimeshs(surface):
    mesh = trimesh.Trimesh(
        surface.points - np.round(surface.points.mean(axis=0)), surface.triangles, process=False
    )
    own = surface.areas * np.sqrt(1.0 + (surface.slopes**2).sum(axis=1))
    assert own == pytest.approx(mesh.area_faces, rel=1e-9)
    assert own.sum() == pytest.approx(mesh.area, rel=1e-9)


def test_a_volume_down_to_a_level_is_that_of_scipys_prisms(surface):
    """Each prism is the hull of a triangle and what lies under it at the level."""
    depth, middle = 10.0, np.round(surface.points.mean(axis=0))
    prisms = [
        ConvexHull(np.vstack([corners, corners * [1, 1, 0] - [0, 0, depth]])).volume
        for corners in about_itself(surface)
    ]
    told = volume_to_level(surface, middle[2] - depth)
    assert told.cut.value == pytest.approx(sum(prisms), rel=1e-9)
    assert told.fill.value == 0.0


def test_a_volume_over_an_outline_is_that_of_shapelys_pieces():
    """Each triangle's piece inside the outline, by its area and the height of the triangle's plane at its middle."""
    surface, outline = drawn_surface(300, 9), square(3.0, 16.5)
    total = 0.0
    for corners, slope in zip(surface.corners, surface.slopes):
        piece = Polygon(corners[:, :2]).intersection(Polygon(outline))
        if piece.area > 0.0:
            middle = np.array(piece.centroid.coords[0])
            total += piece.area * (corners[0, 2] + slope @ (middle - corners[0, :2]) + 10.0)
    assert volume_to_level(surface, -10.0, [outline]).cut.value == pytest.approx(total, rel=1e-9)


def test_a_sections_length_over_the_ground_is_shapelys(surface):
    """The line cut by every triangle, each part laid on the triangle's plane."""
    middle = np.round(surface.points.mean(axis=0))[:2]
    line = np.array([[-5.3, -4.1], [6.2, 5.7]])
    along, total = (line[1] - line[0]) / np.hypot(*(line[1] - line[0])), 0.0
    for corners, slope in zip(about_itself(surface), surface.slopes):
        part = LineString(line).intersection(Polygon(corners[:, :2]))
        total += part.length * np.hypot(1.0, slope @ along)
    section = SectionCutter(surface).cut(line + middle)
    own = np.hypot(np.diff(section.chainage), np.diff(section.level)).sum()
    assert section.is_ground.all()
    assert own == pytest.approx(total, rel=1e-9)
