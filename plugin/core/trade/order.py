# SPDX-License-Identifier: GPL-2.0-or-later
"""From net to what is ordered: each factor once, one rounding, at the end."""

from __future__ import annotations

import math

from ..errors import BadInput

GROUND = 1e-6
"""Metres of the ground (m2, m3, pieces) by which what is counted may miss a whole number of pieces. A coordinate of 1e7 is
rounded to 2e-9 m in any CRS (metres, feet, degrees), and a size that is exact on the ground misses it by some times that,
of a perimeter of hundreds of metres by 1e-6 m2; nobody walks, tapes or lays anything to a thousandth of a millimetre."""
EXACT = 1e-9
"""Of a size, the same: of 10 km, or 1,000 m2, it is more than GROUND, as rounding is along so long an edge."""


def slack(size: float) -> float:
    """By how much a size may miss a whole number of pieces, in its own unit: rounding."""
    return max(GROUND, EXACT * abs(size))


def whole_up(size: float, piece: float = 1.0) -> int:
    """Whole pieces that hold a size, both in metres (m2, m3; or a count of ones): rounded up, but for what is rounding of
    coordinates alone."""
    return max(0, math.ceil((size - slack(size)) / piece))


def whole_down(size: float, piece: float = 1.0) -> int:
    """Whole pieces that a size holds: rounded down, but for the same."""
    return math.floor((size + slack(size)) / piece)


def whole_near(size: float, piece: float = 1.0) -> int:
    """The nearest whole number of pieces, halves up, but for the same."""
    return math.floor((size + slack(size)) / piece + 0.5)


def order_up(net: float, waste: float = 0.0, step: float = 0.0, minimum: float = 0.0) -> float:
    """What is ordered for a net quantity, in its unit: net (1 + waste), up to the next step, and the minimum at least.

    Args:
        net: in any unit.
        waste: a ratio.
        step: that it is sold in, in the same unit; 0 for any amount.
        minimum: that is delivered.
    Raises:
        BadInput: something below 0.
    """
    if not all(0.0 <= value < math.inf for value in (net, waste, step, minimum)):
        raise BadInput(
            "An order of {net} with waste {waste}, step {step} and minimum {minimum} has no meaning. Give each as 0 or "
            "more.",
            net=net,
            waste=waste,
            step=step,
            minimum=minimum,
        )
    gross = net * (1.0 + waste)
    if gross == 0.0:
        return 0.0
    return max(minimum, whole_up(gross, step) * step if step else gross)
