# SPDX-License-Identifier: GPL-2.0-or-later
"""What a demo site is: where it lies, its marks, its walks and what stands beside the logs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from .geometry import Point
    from .route import Route


@dataclass(frozen=True)
class Truth:
    """One true figure: the row (table, feature, part) and column of the survey that should show it.

    Attributes:
        value: in the column's own unit (m, m2, ratio, deg); `map_x`, `map_y` in the map CRS's unit.
        side: of the table `sides`: which side, counted from 1 as walked; else 0.
        recorded: what logs without error give, where that is not the value (chords of a dense run).
        is_biased: noise pushes the measured figure one way (lengths of steps, walked to and fro over
            nothing), so it holds for logs without error only.
    """

    table: str
    feature: str
    part: str
    column: str
    value: float
    side: int = 0
    recorded: float | None = None
    is_biased: bool = False


@dataclass(frozen=True)
class ControlMark:
    """A mark of the control file: whether its map point is picked, and its level where it is known."""

    mark: str
    use: str
    is_picked: bool = True
    has_level: bool = False


@dataclass(frozen=True)
class Site:
    """A demo site. Lengths are in `unit` (`unit_m` metres) unless the name says otherwise.

    Attributes:
        anchor: map coordinates of mark A; turn_deg: site axes to grid, anticlockwise; scale: ground to grid.
        marks: mark -> (x, y, z) in the site's axes.
        walks: the true ways.
        pick_sd, shift_sd, level_sd, tape_sd: sigmas of picks, of the picture's own shift, of levels, of tapes.
        shift: of the picture that is shipped.
        answers: rows (finding, place, answer) of the decisions file.
    """

    name: str
    folder: str
    number: int
    unit: str
    unit_m: float
    crs: str
    anchor: Point
    turn_deg: float
    scale: float
    marks: Mapping[str, tuple[float, float, float]]
    walks: tuple[Route, ...]
    control: tuple[ControlMark, ...]
    tapes: tuple[tuple[str, str], ...]
    pick_sd: float
    shift_sd: float
    level_sd: float
    tape_sd: float
    shift: Point
    answers: tuple[tuple[str, str, str], ...] = ()

    def to_map(self, x: float, y: float) -> Point:
        """Map coordinates of a place given in the site's axes."""
        turn = math.radians(self.turn_deg)
        dx, dy = x - self.marks["A"][0], y - self.marks["A"][1]
        east = self.scale * (math.cos(turn) * dx - math.sin(turn) * dy)
        north = self.scale * (math.sin(turn) * dx + math.cos(turn) * dy)
        return self.anchor[0] + east, self.anchor[1] + north

    def grid_bearing(self, dx: float, dy: float) -> float:
        """Bearing in degrees, clockwise from grid north, of a direction in the site's axes."""
        return (90.0 - math.degrees(math.atan2(dy, dx)) - self.turn_deg) % 360.0
