# SPDX-License-Identifier: GPL-2.0-or-later
"""Two surfaces over the made survey, in closed form: the ground, and a level that it lies above in the west and below in the
east."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsCoordinateReferenceSystem, QgsVectorLayer

from plugin.bridge.surfaces import write_surface
from plugin.core.ground.surface import Surface

if TYPE_CHECKING:
    from pathlib import Path

    from plugin.core.plane import SurveyPlane

WEST, EAST, SOUTH, NORTH = 0.0, 20.0, -10.0, 10.0
FALL = 0.02
LEVEL = 84.4
"""Where the ground, 84.6 - 0.02 x, has it: at x = 10."""
SIGMA = 0.01


def plain(height_west: float, fall: float, sigma: float = SIGMA, *, is_weak: bool = False) -> Surface:
    """A rectangle of two triangles on a plane that falls to the east."""
    corners = np.array([(WEST, SOUTH), (EAST, SOUTH), (EAST, NORTH), (WEST, NORTH)])
    points = np.column_stack([corners, height_west - fall * corners[:, 0]])
    triangles = np.array([[0, 1, 2], [0, 2, 3]])
    return Surface(points, triangles, np.full(4, sigma), 0.0, 0.0, np.array([False, is_weak]))


def ground(*, is_weak: bool = False) -> Surface:
    """As the made survey's ground."""
    return plain(84.6, FALL, is_weak=is_weak)


def level() -> Surface:
    """Level ground."""
    return plain(LEVEL, 0.0)


def layer_of(
    surface: Surface, name: str, path: Path, plane: SurveyPlane, crs: str = "EPSG:25831"
) -> QgsVectorLayer:
    """A surface written as a table, opened."""
    written = write_surface(surface, name, path, plane, QgsCoordinateReferenceSystem(crs))
    return QgsVectorLayer(str(written), name, "ogr")
