# SPDX-License-Identifier: GPL-2.0-or-later
"""The straight way between two places on a surface: rise, run, slope length and gradient in the trade's ways of writing it,
each with its 95 %."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..core.ground.gradient import slope_between
from ..core.quantity import COVER_95
from .section import LEVEL_BELOW, one_in
from .text import tr

if TYPE_CHECKING:
    from ..core.ground.gradient import Slope
    from ..core.quantity import Quantity
    from .ground_list import FoundSurface, SurfaceWay
    from .survey_file import Unit


@dataclass(frozen=True)
class SlopeRow:
    """A figure by its name, in words, and what it means."""

    name: str
    words: str
    tip: str


def read_slope(
    found: FoundSurface, way: SurfaceWay, start: tuple[float, float], end: tuple[float, float], unit: Unit
) -> tuple[SlopeRow, ...]:
    """The rows between two places in the CRS of the way's layers.

    Raises:
        BadInput: the surface does not reach one of them. TooFewPoints: both are one place.
    """
    one, other = way.to_plane(np.array([start, end], float))
    return slope_rows(slope_between(found.cutter, one, other), unit)


def slope_rows(slope: Slope, unit: Unit) -> tuple[SlopeRow, ...]:
    """Every way of telling a slope."""
    sign, metres = unit.sign, unit.metres
    return (
        SlopeRow(
            tr("Rise"),
            _words(slope.rise / metres, slope.rise_sigma / metres, sign, 3, is_signed=True),
            tr("From the first place to the second; negative where it falls."),
        ),
        SlopeRow(
            tr("Run"), f"{slope.run / metres:.3f} {sign}", tr("In plan; the two places count as exact.")
        ),
        SlopeRow(tr("Slope length"), _told(slope.slope_length, sign, 3, metres), tr("Along the slope.")),
        SlopeRow(tr("Gradient"), _ratio_words(slope), _ratio_tip(slope)),
        SlopeRow(
            tr("Percent"), _told(slope.percent, "%", 2, is_signed=True), tr("A hundred times rise by run.")
        ),
        SlopeRow(tr("Degrees"), _told(slope.degrees, "°", 2, is_signed=True), tr("From the level.")),
        SlopeRow(
            tr("Inches per foot"),
            _told(slope.inch_per_foot, "in/ft", 3, is_signed=True),
            tr("Inches of rise to a foot of run."),
        ),
    )


def _told(
    figure: Quantity | None, sign: str, places: int, metres: float = 1.0, *, is_signed: bool = False
) -> str:
    if figure is None:
        return tr("none: upright")
    return _words(figure.value / metres, figure.sigma / metres, sign, places, is_signed=is_signed)


def _words(value: float, sigma: float, sign: str, places: int, *, is_signed: bool = False) -> str:
    told = f"{value:+.{places}f}" if is_signed else f"{value:.{places}f}"
    if math.isnan(sigma):
        return f"{told} {sign}"
    return f"{told} ± {COVER_95 * sigma:.{places}f} {sign}"


def _ratio_words(slope: Slope) -> str:
    ratio = slope.ratio
    if ratio is None:
        return one_in(None)
    low, high = _reach(ratio)
    if math.isnan(low) or abs(ratio.value) < LEVEL_BELOW or low * high <= 0.0:
        return one_in(ratio.value)
    flat, steep = sorted((abs(low), abs(high)))
    words = tr("{ratio} (1 in {steep:.1f} to 1 in {flat:.1f})")
    return words.format(ratio=one_in(ratio.value), steep=1.0 / steep, flat=1.0 / flat)


def _reach(ratio: Quantity) -> tuple[float, float]:
    """The ends of a gradient's 95 %."""
    half = ratio.half_width_95
    return ratio.value - half, ratio.value + half


def _ratio_tip(slope: Slope) -> str:
    ratio = slope.ratio
    if ratio is None or math.isnan(ratio.sigma):
        return tr("Rise by run.")
    low, high = _reach(ratio)
    if low * high <= 0.0:
        return tr("Rise by run. Level lies within its 95 %: which way it falls is not sure.")
    return tr("Rise by run; in brackets the 95 %.")
