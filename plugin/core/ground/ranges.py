# SPDX-License-Identifier: GPL-2.0-or-later
"""Between what volumes the true cut and fill lie in 95 of 100 surveys.

A volume well beyond its sigma moves evenly with the heights, so its range is 1.96 sigma either way. A small one does not: the
fill of a wedge goes with the square of its depth, is never below none, and where the ground lies a hair above its target there
may be fill although none was measured. Its range is then between the volumes of the ground as low and as high as its heights
may stand, moved along what changes that volume most.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from ..quantity import COVER_95, Floats, Quantity
from .depths import Ground
from .surface import Surface
from .volume import Side, Volumes, measure_ground

EVEN = 0.25
"""Of a volume: what 1.96 sigma are below it move it evenly. A wedge, whose volume goes with the square of its depth, is then
off by a hundredth of itself at either end."""
STEPS = 2
"""The way that changes a volume most is itself another once the heights have moved; a third step changes a range of the tests
by less than a hundredth of its width."""


@dataclass(frozen=True)
class Range:
    """m3; low is never negative."""

    low: float
    high: float


def volume_ranges(
    ground: Ground, volumes: Volumes, common: float = 0.0, tick: Callable[[], None] | None = None
) -> tuple[Range, Range]:
    """Where cut and fill lie in 95 of 100 surveys.

    Args:
        ground: what was measured.
        volumes: its cut and fill.
        common: what they were measured with, metres.
        tick: called now and then; what it raises ends the work.
    Source:
        The extremes of a figure over the heights' ellipsoid {d : d' C^-1 d <= 1.96^2} stand where d = 1.96 C g / sqrt(g' C g)
        with g the figure's change at d itself (Lagrange); found by stepping there from d = 0.
    """
    reckon = _Ranges(ground, volumes, common, tick)
    return reckon.of(Side.CUT), reckon.of(Side.FILL)


@dataclass(frozen=True, eq=False)
class _Ranges:
    ground: Ground
    measured: Volumes
    common: float
    tick: Callable[[], None] | None

    def of(self, side: Side) -> Range:
        """Of cut or fill."""
        figure = _figure(self.measured, side)
        reach = COVER_95 * figure.sigma
        noise = self.measured.noise
        if figure.value > 0.0 and reach <= EVEN * figure.value:
            return Range(max(figure.value - reach - noise, 0.0), figure.value + reach)
        low = self._end(side, -COVER_95) if figure.value > 0.0 else 0.0
        low = max(min(low, figure.value) - noise, 0.0)
        return Range(low, max(self._end(side, COVER_95), figure.value))

    def _end(self, side: Side, sigmas: float) -> float:
        """The volume with the heights that many sigmas off, m3."""
        found = self.measured
        for _ in range(STEPS):
            move = self._move(found, side)
            if move is None or self._is_out_of_reach(found, side, sigmas * move):
                break
            found = measure_ground(_moved(self.ground, sigmas * move), self.common, self.tick)
        return _figure(found, side).value

    def _move(self, found: Volumes, side: Side) -> Floats | None:
        """(n,) metres that all points, of the upper surface and then of the lower, move for one sigma more of a volume. Where
        none of it is there, for one sigma of the net, of which it begins. None: nothing is uncertain."""
        change, sigma = found.moves[side], _figure(found, side).sigma
        if not change.any():
            change, sigma = found.moves[side] - found.moves[1 - side], found.net.sigma
        along = self._covariance_times(change)
        variance = float(change @ along)
        if variance > 0.0:
            return along * (sigma / variance)
        # Heights without an error of their own: the ground between them rises or sinks as one.
        whole = np.where(np.arange(len(change)) < len(self.ground.upper.points), 1.0, 0.0)
        by = float(change @ whole)
        return whole * (sigma / by) if by and sigma else None

    def _is_out_of_reach(self, found: Volumes, side: Side, move: Floats) -> bool:
        """Whether a volume of none stays none, however the points move by that."""
        if _figure(found, side).value:
            return False
        nearest = found.least.value if side is Side.FILL else -found.most.value
        counts = np.cumsum([len(surface.points) for surface in self.ground.surfaces])[:-1]
        return found is not self.measured or nearest > sum(
            float(np.abs(part).max()) for part in np.split(move, counts)
        )

    def _covariance_times(self, change: Floats) -> Floats:
        """(n,) C g of all points, m2 by what g changes."""
        counts = np.cumsum([len(surface.points) for surface in self.ground.surfaces])[:-1]
        parts = np.split(change, counts)
        out = [_times(surface, part) for surface, part in zip(self.ground.surfaces, parts)]
        out[0] = out[0] + self.common**2 * parts[0].sum()
        return np.concatenate(out)


def _figure(volumes: Volumes, side: Side) -> Quantity:
    return volumes.cut if side is Side.CUT else volumes.fill


def _times(surface: Surface, change: Floats) -> Floats:
    return np.asarray(surface.sigma**2 * change + surface.shared @ (surface.shared.T @ change))


def _moved(ground: Ground, move: Floats) -> Ground:
    """The same with points raised by (n,) metres."""
    upper, count = ground.upper, len(ground.upper.points)
    target = ground.target
    if isinstance(target, Surface):
        target = _raised(target, move[count:])
    return replace(ground, upper=_raised(upper, move[:count]), target=target)


def _raised(surface: Surface, move: Floats) -> Surface:
    points = surface.points.copy()
    points[:, 2] += move
    return replace(surface, points=points)
