# SPDX-License-Identifier: GPL-2.0-or-later
"""The way a walk takes over the true ground: every station in order, without any error."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from .geometry import Height, Point, point_at

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

STAND_S = 1.0
"""Seconds an instrument is held still at a stand."""
ROUNDING = 1e-9
"""A leg of exactly the longest length is not split for its last bit."""


@dataclass(frozen=True)
class Stop:
    """One row to be recorded: true place in the site's axes and unit, and the text cells of the row."""

    x: float
    y: float
    z: float
    leg: str
    hold: float
    cells: Mapping[str, str]


class Route:
    """Builds one walk; ways longer than `longest` are cut evenly by pass stations.

    Args:
        name: of the walk.
        ground: height of the ground at x, y.
        longest: longest leg allowed, in the site's unit.
    """

    def __init__(self, name: str, ground: Height, longest: float) -> None:
        """Start with no station."""
        self.name = name
        self.stops: list[Stop] = []
        self._ground = ground
        self._longest = longest
        self._cells: dict[str, str] = {}
        self._height: Height = ground

    def stand_on(self, mark: str, place: Point) -> None:
        """Walk to a mark and stand on it."""
        self._pass_to(place, {}, self._ground)
        self._add(place, self._ground(*place), {"mark": mark})

    def begin(
        self, feature: str, place: Point, on: Height | None = None, *, z: float | None = None, **cells: str
    ) -> None:
        """Walk to a feature's first station (of a further part: by `carry`); its rows bear these cells.

        `on` is the surface it lies on, the ground unless told; `z` this station's own height.
        """
        self._pass_to(place, {}, self._ground)
        goes_on = bool(self.stops) and self.stops[-1].cells.get("feature") == feature
        self._height = on or self._ground
        self._cells = {"feature": feature, **cells}
        self._add(
            place, self._height(*place) if z is None else z, self._cells, leg="carry" if goes_on else ""
        )

    def draw_to(self, *places: Point, z: float | None = None) -> None:
        """Walk straight sides to these places."""
        for place in places:
            self._pass_to(place, self._cells, self._height)
            self._add(place, self._height(*place) if z is None else z, self._cells)

    def draw_arc(self, centre: Point, radius: float, angles_deg: Sequence[float]) -> None:
        """Pass these points of an arc; the last one is its end. The arc starts at the station before."""
        for angle in angles_deg:
            place = point_at(centre, radius, angle)
            leg = "curve-end" if angle == angles_deg[-1] else "curve"
            self._add(place, self._height(*place), self._cells, leg=leg)

    def draw_profile(self, steps: Sequence[tuple[float, float, float]]) -> None:
        """Pass these points (x, y, z) of an arc that stands upright; the last one is its end."""
        for x, y, z in steps:
            leg = "curve-end" if (x, y, z) == steps[-1] else "curve"
            self._add((x, y), z, self._cells, leg=leg)

    def draw_run(self, places: Sequence[Point]) -> None:
        """Record densely without stopping; the last place is stood on."""
        for place in places:
            hold = STAND_S if place == places[-1] else 0.0
            self._add(place, self._height(*place), self._cells, leg="as-walked", hold=hold)

    def _pass_to(self, place: Point, cells: Mapping[str, str], height: Height) -> None:
        if not self.stops:
            return
        last = self.stops[-1]
        parts = math.ceil(math.dist((last.x, last.y), place) / self._longest - ROUNDING)
        for i in range(1, parts):
            x = last.x + (place[0] - last.x) * i / parts
            y = last.y + (place[1] - last.y) * i / parts
            self._add((x, y), height(x, y), cells)

    def _add(
        self, place: Point, z: float, cells: Mapping[str, str], *, leg: str = "", hold: float = STAND_S
    ) -> None:
        self.stops.append(Stop(place[0], place[1], z, leg, hold, dict(cells)))
