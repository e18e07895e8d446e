# SPDX-License-Identifier: GPL-2.0-or-later
"""A measured figure: value, unit, one-sigma and how it was come by."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

COVER_95 = 1.959963984540054
"""Normal quantile: 95 % of one figure lies within this many sigma on either side."""
COVER_95_PLANE = 2.447746830680816
"""sqrt(-2 ln 0.05): the 95 % ellipse of a position, in one-sigma axes."""

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Quantity:
    """A value with its one-sigma, both in the unit named ("m", "m2", "ratio", "deg").

    `moves`, where it is known, tells on demand how the value moves with the stations: from that its uncertainty can be
    taken apart.
    """

    value: float
    sigma: float
    unit: str
    moves: Callable[[], Gradient] | None = field(default=None, compare=False, repr=False)

    @property
    def half_width_95(self) -> float:
        """Half the 95 % interval, in the quantity's own unit."""
        return COVER_95 * self.sigma


@dataclass(frozen=True)
class Gradient:
    """How a figure moves with the stations it rests on.

    Attributes:
        index: (k,) rows of the survey's station arrays; a row may occur more than once (its parts add up).
        plan: (k, 2) change of the figure by metre of x and y.
        height: (k,) change of the figure by metre of z.
    """

    index: Ints
    plan: Floats
    height: Floats
