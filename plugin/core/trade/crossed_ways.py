# SPDX-License-Identifier: GPL-2.0-or-later
"""A ramp or path that is one line over a surface: its crossfalls, and its heights where it has none of its own."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from ..errors import BadInput
from .lines import Line
from .worth import JointWorth

if TYPE_CHECKING:
    from ..ground.crossfall import Crossfalls
    from ..ground.section import Section
    from .ramps import Ramp, Stretch

MOST_SHARED = 20_000_000
"""Levels by points of the surface whose parts in each other are held at once: 160 MB. Beyond, levels count as independent,
which is careful for gradients."""


def lay_on(section: Section) -> tuple[Line, JointWorth]:
    """A way's line on the surface that it was cut through, with a point at every break, and what its heights are worth: by
    the surface's points together, and by the ground between them each by itself, which is careful for gradients.

    Raises:
        BadInput: part of it is not on the surface.
    """
    if section.is_empty or not section.is_ground[np.diff(section.chainage) > 0.0].all():
        raise BadInput(
            "The line has no heights of its own and leaves the surface. Give it heights, shorten it, or extend the "
            "surface."
        )
    told, surface, count = section.told, section.surface, len(section)
    index, corner = np.unique(told.corner, return_inverse=True)
    rough = surface.rough * told.between_points
    if count * len(index) > MOST_SHARED:
        own, height = told.sigmas(), np.zeros((count, 0))
    else:
        by_point = np.zeros((count, len(index)))
        np.add.at(by_point, (np.arange(count)[:, None], corner.reshape(told.corner.shape)), told.weight)
        own, height = rough, np.hstack([by_point * surface.sigma[index], by_point @ surface.shared[index]])
    points = np.column_stack([section.place, section.level])
    line = Line(points, np.zeros(count, bool), np.arange(count))
    return line, JointWorth(np.column_stack([np.zeros(count), own]), np.zeros((count, 0, 2)), height)


def take_crossfalls(ramp: Ramp, ways: Crossfalls) -> Ramp:
    """A ramp with the greatest crossfall of a surface on all of it, on each flight and on each landing.

    Args:
        ramp: measured along its middle.
        ways: along the same line, from its start; a stretch of which the surface says nothing has none.
    """

    def crossed(part: Stretch) -> Stretch:
        found = ways.greatest(part.start, part.end)
        return replace(part, crossfall=None if found is None else found[1])

    return replace(
        ramp,
        whole=crossed(ramp.whole),
        flights=tuple(map(crossed, ramp.flights)),
        landings=tuple(map(crossed, ramp.landings)),
    )
