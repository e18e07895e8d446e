# SPDX-License-Identifier: GPL-2.0-or-later
"""What a walk is worth: its instrument's one-sigma parts, from the first source that is there (formats.md):
the instruments file, the log's own sd columns, its accuracy key, the default."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from ..accuracy import Accuracy, AccuracyKind
from ..walk import ErrorGrowth, Instrument, SourceClass, Walk

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
OWN_SD = {
    (ErrorGrowth.RECEIVER, SourceClass.INSTRUMENT): 0.03,
    (ErrorGrowth.RECEIVER, SourceClass.PHONE): 4.0,
    (ErrorGrowth.RECEIVER, SourceClass.DIGITISED): 4.0,
    (ErrorGrowth.POINTS, SourceClass.INSTRUMENT): 0.02,
    (ErrorGrowth.POINTS, SourceClass.PHONE): 4.0,
    (ErrorGrowth.POINTS, SourceClass.DIGITISED): 0.05,
}
"""m per axis, common practice, no source: what a station that has a place of its own is worth where nothing says."""
UP_TO_PLAN = 1.5
"""Common practice, no source: a receiver's height is so many times worse than its place."""


@dataclass(frozen=True)
class Model:
    """The instrument model of one walk. `by_log` tells that the growth of the log's own sd columns takes the
    place of the leg and stand terms; `group` names the instrument whose shared scale the walk has. Where `growth` is
    not WALKED, the instrument's stand is what each station's own place is worth where its row does not say."""

    instrument: Instrument
    group: str
    by_log: bool = False
    growth: ErrorGrowth = ErrorGrowth.WALKED

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
    if walk.keys.growth is not ErrorGrowth.WALKED:
        return _own_places(walk, group)
    instrument = from_accuracy(walk.keys.accuracy) if walk.keys.accuracy else DEFAULT
    by_log = bool(np.isfinite(walk.sd_xy).sum() >= 2)
    return Model(replace(instrument, name=group), group, by_log=by_log)


def _own_places(walk: Walk, group: str) -> Model:
    """The model of stations that each have a place of their own: no scale, no heading, no legs."""
    keys, known = walk.keys, walk.sd_xy[np.isfinite(walk.sd_xy)]
    by_log = len(known) > 0
    stated = keys.accuracy.metres * _factor(keys.accuracy) if keys.accuracy else 0.0
    sd = float(np.median(known)) if by_log else stated or OWN_SD[keys.growth, keys.source_class]
    part = keys.accuracy.part * _factor(keys.accuracy) * HALF_SHARED if keys.accuracy else 0.0
    own = Instrument(
        name=group,
        scale=part,
        scale_shared=part,
        stand=sd,
        height_stand=sd * UP_TO_PLAN,
        sigma_from="accuracy" if keys.accuracy and not by_log else "assumed",
    )
    return Model(own, group, by_log=by_log, growth=keys.growth)


def _factor(accuracy: Accuracy) -> float:
    factors = {AccuracyKind.LIMIT: LIMIT_TO_SIGMA, AccuracyKind.P95: P95_TO_SIGMA, AccuracyKind.SIGMA: 1.0}
    return float(factors[accuracy.kind])


def from_accuracy(accuracy: Accuracy) -> Instrument:
    """A stated accuracy as a model: a part of the length is scale, metres are the stand; the rest is the
    default's (a scale alone would expect a misclosure of nothing and stop every job)."""
    factor = _factor(accuracy)
    scale = accuracy.part * factor * HALF_SHARED if accuracy.part else DEFAULT.scale
    stand = accuracy.metres * factor if accuracy.metres else DEFAULT.stand
    return replace(DEFAULT, scale=scale, scale_shared=scale, stand=stand, sigma_from="accuracy")
