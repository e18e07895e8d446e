# SPDX-License-Identifier: GPL-2.0-or-later
"""How far the heights of one walk err against each other: what tells a hollow of five centimetres from drift.

A survey stores what each height is worth by itself, which is mostly drift that its neighbours share. Of the walk as it
came from the instrument the errors are a random walk from leg to leg, and a part of each stand's own (adjust/drift.py).
Bringing walks together observes more, and more observations never make a Gaussian figure less certain; so the variance of
any difference of heights within one walk, taken before the adjustment, is a bound to what it is afterwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np

from ..adjust.instrument import DEFAULT, Model
from ..defaults import WALKING_SPEED
from ..ground.surface import Flags
from ..quantity import Floats, Ints
from ..walk import ErrorGrowth

SLOWEST = 0.5
"""m/s, common practice, no source: nobody moves on slower; a longer time from station to station was spent standing."""


@dataclass(frozen=True)
class HeightParts:
    """What makes the heights of a walk err, one-sigma, as the instruments file has it (formats.md)."""

    height_leg_m: float
    height_leg_m_per_s1_5: float
    height_leg_m_per_sqrt_m: float
    height_stand_m: float

    @property
    def text(self) -> str:
        """As a survey keeps it."""
        return ", ".join(f"{one.name}={getattr(self, one.name)!r}" for one in fields(self))


DEFAULT_PARTS = HeightParts(
    DEFAULT.height_leg, DEFAULT.height_leg_time, DEFAULT.height_leg_length, DEFAULT.height_stand
)
"""Of a walk whose survey does not say."""


def parts_of(model: Model) -> HeightParts | None:
    """What a walk's heights are worth by its model; None where its log says, row by row, or its stations have places of
    their own."""
    if model.by_log or model.growth is not ErrorGrowth.WALKED:
        return None
    told = model.instrument
    return HeightParts(told.height_leg, told.height_leg_time, told.height_leg_length, told.height_stand)


def read_parts(text: str) -> HeightParts | None:
    """What a survey kept of it; None of a text that is none."""
    try:
        cells = {name.strip(): float(value) for name, value in (cell.split("=") for cell in text.split(","))}
        parts = HeightParts(**cells)
    except (TypeError, ValueError):
        return None
    return parts if all(0.0 <= value < np.inf for value in cells.values()) else None


def leg_variances(parts: HeightParts, xy: Floats, time: Floats, is_dense: Flags) -> tuple[Floats, Floats]:
    """(n,) variances of the ways to the stations of one walk and of their stands, m2.

    Args:
        parts: what the instrument is worth.
        xy: (n, 2) metres.
        time: (n,) seconds of arrival, NaN where not known; holds count as moving, which makes the
            variance rather too large.
        is_dense: (n,) rows passed without a stop; those between two stands are one leg, its variance shared by length.
    """
    if not len(xy):
        return np.zeros(0), np.zeros(0)
    length = np.append(0.0, np.hypot(*np.diff(xy, axis=0).T))
    took = np.append(0.0, np.diff(time))
    with np.errstate(invalid="ignore"):
        took = np.where(took > 0.0, np.minimum(took, length / SLOWEST + 1.0), length / WALKING_SPEED)
    run = np.cumsum(np.append(True, ~(is_dense[1:] & is_dense[:-1]))) - 1
    total, whole, count = (np.bincount(run, w) for w in (length, took, None))
    variance = (parts.height_leg_m + parts.height_leg_m_per_s1_5 * whole**1.5) ** 2
    variance += parts.height_leg_m_per_sqrt_m**2 * total
    share = np.where(total[run] > 0.0, length / np.where(total[run] > 0.0, total[run], 1.0), 1.0 / count[run])
    leg = variance[run] * share
    leg[0] = 0.0
    return np.asarray(leg), np.where(is_dense, 0.0, parts.height_stand_m**2)


def walk_covariance(walk: Ints, leg: Floats, stand: Floats, rows: Ints) -> Floats:
    """(k, k) covariance of the heights of some stations but for what each walk's heights share, m2.

    Args:
        walk: (n,) number of the walk of each station, in the order walked.
        leg: (n,) as `Stations` has it.
        stand: (n,) the same.
        rows: (k,) of which stations.
    """
    grown = np.zeros(len(walk))
    for one in np.unique(walk):
        its = walk == one
        grown[its] = np.cumsum(leg[its])
        # Counted from the first of those asked about: a shared start is the walk's own shift.
        asked = rows[walk[rows] == one]
        if len(asked):
            grown[its] -= grown[asked].min()
    earlier = np.minimum.outer(grown[rows], grown[rows])
    out = np.where(np.equal.outer(walk[rows], walk[rows]), earlier, 0.0)
    return np.asarray(out + np.diag(stand[rows]))


def walk_columns(walks: Sequence[Ints]) -> Floats:
    """(k, w) which station hangs on which walk, for several numberings side by side: each walk's unknown shift."""
    return np.hstack([np.equal.outer(walk, np.unique(walk)).astype(float) for walk in walks])
