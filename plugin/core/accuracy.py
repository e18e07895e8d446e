# SPDX-License-Identifier: GPL-2.0-or-later
"""What a maker or a log says that an instrument is worth."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class AccuracyKind(Enum):
    """What a stated accuracy means; GUM 4.3.7 for LIMIT."""

    LIMIT = "limit"
    P95 = "95 %"
    SIGMA = "sigma"


@dataclass(frozen=True)
class Accuracy:
    """A stated accuracy as stated: `part` of the length (0.005 for 0.5 %) and metres of each stand."""

    part: float
    metres: float
    kind: AccuracyKind
