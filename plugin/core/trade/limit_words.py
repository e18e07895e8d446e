# SPDX-License-Identifier: GPL-2.0-or-later
"""Figures and limits in the words of the limit's own unit, as sheets show them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..quantity import COVER_95, Quantity

if TYPE_CHECKING:
    from .limits import Check, LimitUnit

PLACES = {"m": 3, "ft": 3, "us-ft": 3, "in": 2, "cm": 1, "mm": 0, "%": 2, "deg": 2, "ratio": 4}
"""Decimals that are shown."""
FLAT_N = 10_000.0
"""A slope flatter than 1 in this is level."""
ROUND_N = 100.0
"""From here on n is shown without decimals."""


def tell_value(value: Quantity, unit: LimitUnit, *, by_size: bool = False) -> str:
    """A figure with its 95 % interval in a limit's unit, such as `1:12.1 (1:11.5 to 1:12.8)`.

    Args:
        value: metres or ratio.
        unit: of the limit.
        by_size: of a slope, its size alone, as limits take it.
    """
    middle = abs(value.value) if by_size or unit.is_n else value.value
    if not (math.isfinite(middle) and math.isfinite(value.sigma)):
        return _number(middle, unit)
    half = COVER_95 * value.sigma
    ends = (middle - half, middle + half)
    if unit.is_n:
        ends = (max(ends[1], 0.0), max(ends[0], 0.0))
    told = " to ".join(_number(end, unit) for end in ends)
    shown = _number(middle, unit)
    return f"{shown} ({told})" if unit.is_n or not unit.name else f"{shown} {unit.name} ({told})"


def tell_allowed(check: Check) -> str:
    """What a limit allows, in its own unit, such as `1:12 or flatter`."""
    unit, low, high = check.limit.unit, check.limit.at_least, check.limit.at_most
    least, most = (None if v is None else _written(v, unit) for v in (low, high))
    after = "" if unit.is_n else f" {unit.name}"
    if least is not None and most is not None:
        return f"{least} to {most}{after}"
    if unit.is_n:
        return f"{most} or flatter" if most is not None else f"{least} or steeper"
    return f"{most}{after} or less" if most is not None else f"{least}{after} or more"


def _written(value: float, unit: LimitUnit) -> str:
    return f"1:{value:.4g}" if unit.is_n else f"{value:g}"


def _number(value: float, unit: LimitUnit) -> str:
    if not math.isfinite(value):
        return "not known"
    if unit.is_n:
        if value * FLAT_N < 1.0:
            return "level"
        n = 1.0 / value
        return f"1:{n:.0f}" if n >= ROUND_N else f"1:{n:.1f}"
    told = math.degrees(math.atan(value)) if unit.name == "deg" else value / unit.factor
    return f"{told:.{PLACES[unit.name]}f}"
