# SPDX-License-Identifier: GPL-2.0-or-later
"""What a walk is worth: its instrument's one-sigma parts, from the first source that is there (formats.md):
the instruments file, the log's own sd columns, its accuracy key, the default."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from ..walk import Accuracy, AccuracyKind, Instrument, Walk

LIMIT_TO_SIGMA = 1.0 / np.sqrt(3.0)
"""GUM (JCGM 100:2008) 4.3.7: a limit +-a with nothing else known has a sigma of a / sqrt 3."""
P95_TO_SIGMA = 1.0 / 1.959963984540054
HALF_SHARED = np.sqrt(0.5)
"""A stated scale is half (of the variance) the walk's own, half common to all walks of the instrument: a
compromise that covers 92 to 99 % whichever is true (Why 3)."""
DEFAULT_SCALE_LIMIT = 0.005
DEFAULT = Instrument(
    name="",
    scale=DEFAULT_SCALE_LIMIT * LIMIT_TO_SIGMA * HALF_SHARED,
    scale_shared=DEFAULT_SCALE_LIMIT * LIMIT_TO_SIGMA * HALF_SHARED,
    heading_rate=np.radians(0.08) / 60.0,
    leg=0.006,
    leg_time=0.0008,
    stand=0.008,
    height_leg=0.006,
    height_leg_time=0.0006,
    height_stand=0.008,
    sigma_from="assumed",
)
"""Common practice, no source: a point-measuring instrument walked with ordinary care."""


@dataclass(frozen=True)
class Model:
    """The instrument model of one walk. `by_log` tells that the growth of the log's own sd columns takes the
    place of the leg and stand terms; `group` names the instrument whose shared scale the walk has."""

    instrument: Instrument
    group: str
    by_log: bool = False

    @property
    def sigma_from(self) -> str:
        """Which source it is: `instruments`, `log`, `accuracy` or `assumed`."""
        return "log" if self.by_log else self.instrument.sigma_from


def model_of(walk: Walk, instruments: Mapping[str, Instrument] | None) -> Model:
    """The model of a walk, from the first source that is there."""
    group = walk.keys.instrument or ""
    stated = (instruments or {}).get(group)
    if stated is not None:
        return Model(stated, group)
    instrument = from_accuracy(walk.keys.accuracy) if walk.keys.accuracy else DEFAULT
    by_log = bool(np.isfinite(walk.sd_xy).sum() >= 2)
    return Model(replace(instrument, name=group), group, by_log=by_log)


def from_accuracy(accuracy: Accuracy) -> Instrument:
    """A stated accuracy as a model: a part of the length is scale, metres are the stand; the rest is the
    default's (a scale alone would expect a misclosure of nothing and stop every job)."""
    factor = {
        AccuracyKind.LIMIT: LIMIT_TO_SIGMA,
        AccuracyKind.P95: P95_TO_SIGMA,
        AccuracyKind.SIGMA: 1.0,
    }[accuracy.kind]
    scale = accuracy.part * factor * HALF_SHARED if accuracy.part else DEFAULT.scale
    stand = accuracy.metres * factor if accuracy.metres else DEFAULT.stand
    return replace(DEFAULT, scale=scale, scale_shared=scale, stand=stand, sigma_from="accuracy")
