# SPDX-License-Identifier: GPL-2.0-or-later
"""From net to what is ordered: each factor once, one rounding, at the end."""

from __future__ import annotations

import math

from ..errors import BadInput

EXACT = 1e-9
"""Of a count: a quotient that lies this little above a whole number is that number, and the rest is rounding."""


def whole_up(count: float) -> int:
    """Whole things that hold a count: rounded up, but for what is rounding of the computer alone."""
    return max(0, math.ceil(count - EXACT * max(1.0, abs(count))))


def order_up(net: float, waste: float = 0.0, step: float = 0.0, minimum: float = 0.0) -> float:
    """What is ordered for a net quantity, in its unit: net (1 + waste), up to the next step, and the minimum at least.

    Args:
        net: in any unit.
        waste: a ratio.
        step: that it is sold in; 0 for any amount.
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
    return max(minimum, whole_up(gross / step) * step if step else gross)
