# SPDX-License-Identifier: GPL-2.0-or-later
"""The features of a plan that a section's line crosses: names and chainages."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ..measure.section_line import WalkedEdges, cut_section_line
from ..quantity import Floats
from ..segments import Curve

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, eq=False)
class PlanFeature:
    """An area's rings or a length's runs, exact, in the survey plane, metres; heights play no part."""

    name: str
    curves: tuple[Curve, ...]

    @cached_property
    def edges(self) -> WalkedEdges:
        """All of its edges; an edge without a place is passed over when it is cut."""
        ends = [np.column_stack([c.points[:, :2], np.zeros(len(c.points))]) for c in self.curves]
        bulge = np.concatenate([c.bulge for c in self.curves])
        start, end = (np.concatenate([e[k] for e in ends]) for k in (slice(None, -1), slice(1, None)))
        none = np.full((len(bulge), 2), np.nan)
        return WalkedEdges(start, end, bulge, none, np.zeros(len(bulge), np.int64))

    @cached_property
    def box(self) -> tuple[Floats, Floats]:
        """Lower and upper corner of a box that holds it: an arc leaves its chord's box by the bulge times the chord at most
        (its rise is half of that; beyond half a circle, so is its radius)."""
        xy = np.concatenate([c.points[:, :2] for c in self.curves])
        bows = any(c.bulge.any() for c in self.curves)
        low, high = np.nanmin(xy, axis=0), np.nanmax(xy, axis=0)
        room = float(np.hypot(*(high - low))) * self._farthest if bows else 0.0
        return low - room, high + room

    @property
    def _farthest(self) -> float:
        """The largest bulge of its arcs."""
        return max(float(np.abs(c.bulge).max(initial=0.0)) for c in self.curves)


@dataclass(frozen=True)
class FeatureCrossing:
    """Metres along a line at which it crosses an edge of a feature, and its name."""

    chainage: float
    name: str


def features_crossed(line: Floats, features: Sequence[PlanFeature]) -> tuple[FeatureCrossing, ...]:
    """Every crossing of a line (v, 2), metres, with features, by chainage. Of one feature, crossings within a centimetre
    are one, and an edge along the line is met at both ends of what they share."""
    low, high = line.min(axis=0), line.max(axis=0)
    found = []
    for feature in features:
        if (feature.box[0] > high).any() or (feature.box[1] < low).any():
            continue
        section = cut_section_line(line, feature.edges)
        found += [FeatureCrossing(crossing.chainage, feature.name) for crossing in section.crossings]
    return tuple(sorted(found, key=lambda c: (c.chainage, c.name)))
