# SPDX-License-Identifier: GPL-2.0-or-later
"""What ground is measured to where it is no surface: a level, or a plane."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..errors import BadInput, PointsInLine
from ..quantity import Floats

THIN = 1e-3
"""Metres that the third of three points lies off the line of the others at least: nearer, their plane tilts with any
error of theirs."""


@dataclass(frozen=True)
class TargetPlane:
    """A plane in the survey plane's frame: metres east, north and up of a point of it, and its rises by metre."""

    x: float
    y: float
    z: float
    east: float = 0.0
    north: float = 0.0

    @classmethod
    def at_level(cls, level: float) -> TargetPlane:
        """All at one height, metres.

        Raises:
            BadInput: a level that is no number.
        """
        if not np.isfinite(level):
            raise BadInput("The level is {level}. Give a height in metres.", level=level)
        return cls(0.0, 0.0, float(level))

    @classmethod
    def through(cls, points: Floats) -> TargetPlane:
        """Through three points (3, 3), metres.

        Raises:
            BadInput: other than three points, or one without place or height.
            PointsInLine: they lie in line in plan, within a millimetre.
        """
        points = np.asarray(points, float)
        if points.shape != (3, 3) or not np.isfinite(points).all():
            raise BadInput(
                "A plane goes through three points with heights; {count} were given. Give east, north and height of three.",
                count=len(points),
            )
        (ux, uy, uz), (vx, vy, vz) = points[1] - points[0], points[2] - points[0]
        det = ux * vy - uy * vx
        longest = max(np.hypot(ux, uy), np.hypot(vx, vy), np.hypot(ux - vx, uy - vy))
        if abs(det) <= THIN * longest:
            raise PointsInLine(
                "The three points of the plane lie in one line in plan. Move one of them off it."
            )
        east, north = (uz * vy - vz * uy) / det, (ux * vz - vx * uz) / det
        x, y, z = points[0].tolist()
        return cls(x, y, z, float(east), float(north))

    def heights_at(self, x: Floats, y: Floats, centre: Floats) -> Floats:
        """Heights above (3,) a centre at places given from it, metres."""
        east, north = x + (centre[0] - self.x), y + (centre[1] - self.y)
        return np.asarray(self.z - centre[2] + east * self.east + north * self.north)
