# SPDX-License-Identifier: GPL-2.0-or-later
"""Rise, run and gradient between two places, in every way the trade writes them, each with its one-sigma."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Quantity
from .levels import Levels, rise_sigmas
from .section import SectionCutter

INCHES_PER_FOOT = 12.0
UPRIGHT = 1e-9
"""Metres of run below which a rise has no gradient."""
LEVEL = 1e-9
"""Ratio: flatter than any rounding of heights, so that there is no n."""


@dataclass(frozen=True)
class Slope:
    """The straight way from one place to another.

    Attributes:
        rise: metres, positive up along the way. run: metres in plan. rise_sigma, run_sigma: one-sigma of each, taken as
            independent.
    """

    rise: float
    run: float
    rise_sigma: float = math.nan
    run_sigma: float = 0.0

    @property
    def slope_length(self) -> Quantity:
        """Metres along the slope; d = (run / length) d(run) + (rise / length) d(rise)."""
        length = math.hypot(self.rise, self.run)
        if not length > 0.0:
            return Quantity(length, math.hypot(self.rise_sigma, self.run_sigma), "m")
        sigma = math.hypot(self.run * self.run_sigma, self.rise * self.rise_sigma) / length
        return Quantity(length, sigma, "m")

    @property
    def ratio(self) -> Quantity | None:
        """Rise by run, the stored figure; None on an upright face. Its sigma is of the first order."""
        if not self.run > UPRIGHT:
            return None
        ratio = self.rise / self.run
        return Quantity(ratio, math.hypot(self.rise_sigma, ratio * self.run_sigma) / self.run, "ratio")

    @property
    def one_in(self) -> Quantity | None:
        """The n of 1 in n, with the sign of the rise; None on the level and on an upright face, where there is none.

        Its sigma is of the first order: it means little where the ratio is not several of its own sigma.
        """
        ratio = self.ratio
        if ratio is None or abs(ratio.value) < LEVEL:
            return None
        return Quantity(1.0 / ratio.value, ratio.sigma / ratio.value**2, "run by rise")

    @property
    def percent(self) -> Quantity | None:
        """A hundred times the ratio; None on an upright face."""
        ratio = self.ratio
        return None if ratio is None else Quantity(100.0 * ratio.value, 100.0 * ratio.sigma, "%")

    @property
    def inch_per_foot(self) -> Quantity | None:
        """Inches of rise by foot of run; None on an upright face."""
        ratio = self.ratio
        if ratio is None:
            return None
        return Quantity(INCHES_PER_FOOT * ratio.value, INCHES_PER_FOOT * ratio.sigma, "in/ft")

    @property
    def degrees(self) -> Quantity:
        """From the level, -90 to 90; d = (run d(rise) - rise d(run)) / length^2."""
        length = math.hypot(self.rise, self.run)
        angle = math.degrees(math.atan2(self.rise, self.run))
        if not length > 0.0:
            return Quantity(angle, math.nan, "deg")
        sigma = math.hypot(self.run * self.rise_sigma, self.rise * self.run_sigma) / length**2
        return Quantity(angle, math.degrees(sigma), "deg")

    @classmethod
    def of_slope_length(cls, length: float, ratio: float) -> Slope:
        """From a length taped along the slope, metres, and its gradient (rise by run)."""
        run = length / math.hypot(1.0, ratio)
        return cls(ratio * run, run)

    @classmethod
    def of_slope_and_rise(cls, length: float, rise: float) -> Slope:
        """From a length taped along the slope and the difference of height of its ends, metres.

        Raises:
            BadInput: the rise is more than the length.
        """
        if not abs(rise) <= length:
            raise BadInput(
                "A slope of {length:g} m cannot rise {rise:g} m. Check both figures, and their units.",
                length=length,
                rise=rise,
            )
        return cls(rise, math.sqrt((length - rise) * (length + rise)))


def ratio_of_degrees(degrees: float) -> float:
    """Rise by run of an angle from the level, degrees."""
    return math.tan(math.radians(degrees))


def slope_between(cutter: SectionCutter, start: Floats, end: Floats, place_sigma: float = 0.0) -> Slope:
    """The straight way over a surface between two places, with what its rise is worth.

    Args:
        cutter: of the surface.
        start: (2,) metres in the survey plane.
        end: (2,) the same.
        place_sigma: one-sigma of each place, each axis, metres: of places that were clicked, 0.
    Raises:
        BadInput: the surface is not there at one of them.
        TooFewPoints: both are one place.
    """
    section = cutter.cut(np.array([start, end], float))
    told = section.told
    for row, place in ((0, start), (-1, end)):
        if np.isnan(section.level[row]):
            raise BadInput(
                "The surface does not reach x {x:.3f}, y {y:.3f} of the survey plane. Choose a place on it.",
                x=place[0],
                y=place[1],
            )
    one, other = (
        Levels(told.surface, told.place[[k]], told.corner[[k]], told.weight[[k]])
        for k in (0, len(section) - 1)
    )
    return Slope(
        float(section.level[-1] - section.level[0]),
        section.length,
        float(rise_sigmas(one, other)[0]),
        math.sqrt(2.0) * place_sigma,
    )
