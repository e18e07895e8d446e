# SPDX-License-Identifier: GPL-2.0-or-later
"""What is planned (Plan) and what may be expected of it (Budget)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from types import MappingProxyType

import numpy as np

from ...accuracy import Accuracy
from ...defaults import HOLD, WALKING_SPEED
from ...findings import Finding
from ...quantity import COVER_95, COVER_95_PLANE, Floats, Quantity
from ...walk import Instrument, Kind, Leg
from ..rows import Ellipse


@dataclass(frozen=True)
class Pace:
    """How the walk will be walked: m/s on the way, seconds held still at each stand."""

    speed: float = WALKING_SPEED
    hold: float = HOLD


@dataclass(frozen=True, eq=False)
class PlannedWalk:
    """One walk as it is planned: n stations in order.

    A column is empty where no station has anything to say in it.

    Attributes:
        name: of the walk.
        xy: (n, 2) metres, true to the ground, in a plane that all walks of a plan share.
        z: (n,) height of the ground in metres; without, the ground is taken as level.
        station: (n,) names; without, their numbers from 1.
        mark, feature, part, hole_in: (n,) text, "" for none; kind: (n,) of the feature, None for none.
        leg: (n,) how each station is reached; without, all straight.
        hold: (n,) seconds held still, NaN where the plan's pace says; as-walked rows have 0.
    """

    name: str
    xy: Floats
    z: Floats | None = None
    station: tuple[str, ...] = ()
    mark: tuple[str, ...] = ()
    feature: tuple[str, ...] = ()
    part: tuple[str, ...] = ()
    hole_in: tuple[str, ...] = ()
    kind: tuple[Kind | None, ...] = ()
    leg: tuple[Leg, ...] = ()
    hold: Floats | None = None

    def __len__(self) -> int:
        """How many stations there are."""
        return len(self.xy)

    @property
    def names(self) -> tuple[str, ...]:
        """(n,) names of the stations."""
        return self.station or tuple(str(i + 1) for i in range(len(self)))

    @property
    def marks(self) -> tuple[str, ...]:
        """(n,) marks, "" for none."""
        return self.mark or ("",) * len(self)

    def place(self, i: int) -> str:
        """The key of station i, as findings name it."""
        return f"{self.name}:{self.names[i]}"


@dataclass(frozen=True)
class PlannedTape:
    """A length that will be taped between two marks, with its one-sigma in metres."""

    start: str
    end: str
    sd: float


@dataclass(frozen=True, eq=False)
class Plan:
    """Walks that are planned, and what they will be held to.

    Attributes:
        walks: in the order they will be walked.
        pace: how they will be walked.
        instrument: what it is worth; else `accuracy` as its maker states it; else the default, told as assumed.
        picks: one-sigma per axis, metres, of the map point of each mark that is paired with the map.
        common: one-sigma per axis of a shift that all map points share.
        levels: one-sigma, metres, of the known height of each mark that has one.
        tapes: lengths that will be taped.
    """

    walks: tuple[PlannedWalk, ...]
    pace: Pace = Pace()
    instrument: Instrument | None = None
    accuracy: Accuracy | None = None
    picks: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    common: float = 0.0
    levels: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    tapes: tuple[PlannedTape, ...] = ()


class Cause(Enum):
    """What an uncertainty is made of."""

    SCALE = "scale"
    HEADING = "heading"
    LEGS = "legs"
    STANDS = "stands"
    TAPES = "tapes"
    PICKS = "picks"
    """Each map point's own."""
    COMMON = "common"
    """The shift that all map points share: it moves the site, not its size."""


Shares = Mapping[Cause, float]
"""Parts of a variance, which add up to 1."""


@dataclass(frozen=True, eq=False)
class StationBudget:
    """What to expect of one station: its one-sigma ellipse where it will lie on the map (in the plane of its marks
    where it is not placed), the shares along the ellipse's longer axis, and of its height (None without levels)."""

    walk: str
    station: str
    mark: str
    feature: str
    point: tuple[float, float, float]
    ellipse: Ellipse
    z_sigma: float | None
    shares: Shares

    @property
    def major_95(self) -> float:
        """The longer half axis of the 95 % ellipse, metres."""
        return COVER_95_PLANE * self.ellipse.major

    @property
    def minor_95(self) -> float:
        """The shorter half axis of the 95 % ellipse, metres."""
        return COVER_95_PLANE * self.ellipse.minor

    @property
    def z_95(self) -> float | None:
        """Half the 95 % interval of the height, metres."""
        return None if self.z_sigma is None else COVER_95 * self.z_sigma


@dataclass(frozen=True, eq=False)
class FeatureBudget:
    """What to expect of one feature's size: of an area its area and perimeter, of a length its length. `shares` are of
    the area or the length. `finding` names the codes for which it would have no figures."""

    walk: str
    feature: str
    part: str
    kind: Kind
    area: Quantity | None = None
    perimeter: Quantity | None = None
    length: Quantity | None = None
    shares: Shares = field(default_factory=lambda: MappingProxyType({}))
    finding: str = ""

    @property
    def size(self) -> Quantity | None:
        """The area, or the length."""
        return self.area or self.length


@dataclass(frozen=True)
class WalkBudget:
    """What to expect of one walk: stations, length in metres, seconds with all holds, and what it should miss by where it
    returns to a mark (one-sigma, radial, metres; None where it does not)."""

    walk: str
    stations: int
    length: float
    seconds: float
    misclosure_sigma: float | None


class Act(Enum):
    """What would help."""

    STAND_AGAIN = "stand again"
    """Walk back to a station at the end of its walk, and stand on it once more."""
    PAIR = "pair"
    """Pair a station with its map point."""
    TAPE = "tape"
    """Tape the length between two marks."""


@dataclass(frozen=True)
class Change:
    """95 % before and after."""

    before: float
    after: float

    @property
    def gain(self) -> float:
        """By how much it shrinks, as a part of what it was."""
        return 1.0 - self.after / self.before if self.before > 0.0 else 0.0


@dataclass(frozen=True)
class Advice:
    """One thing more that could be done, and what it would change.

    Attributes:
        act: what to do; walk, station: where (of a tape "" and ""); at: (x, y) of it in the plan's plane (of a tape the
            middle).
        marks: the marks it is about: of a tape both ends.
        sd: one-sigma that is taken for it, metres; None of a stand.
        corner: of the worst station, metres; None where nothing is placed.
        size: of the largest area (of the longest length where there is no area); None without features.
    """

    act: Act
    walk: str
    station: str
    at: tuple[float, float]
    marks: tuple[str, ...]
    sd: float | None
    corner: Change | None
    size: Change | None

    @property
    def gain(self) -> float:
        """Both gains added up: what the advice is ranked by."""
        return sum(change.gain for change in (self.corner, self.size) if change is not None)


@dataclass(frozen=True, eq=False)
class Budget:
    """What may be expected of a plan.

    Attributes:
        status: as a placement's. sigma_from: where the instrument's worth comes from.
        stations, features, walks: in the order planned; of a walk that would be left out there are no stations.
        worst: the station with the longest 95 % ellipse: the far corner.
        largest: the feature whose size `advice` is about.
        advice: what would help, most first; what helps by less than a hundredth is there too, at the end.
        findings: what the survey's own checks say of the plan.
    """

    status: str
    sigma_from: str
    stations: tuple[StationBudget, ...]
    features: tuple[FeatureBudget, ...]
    walks: tuple[WalkBudget, ...]
    worst: StationBudget
    largest: FeatureBudget | None
    advice: Sequence[Advice]
    findings: tuple[Finding, ...]

    @property
    def best(self) -> tuple[Advice, ...]:
        """The three things that would help most."""
        return best_of(self.advice, np.array([station.point[:2] for station in self.stations]))


def best_of(ranked: Sequence[Advice], xy: Floats) -> tuple[Advice, ...]:
    """The three things that would help most: none that helps by less than a hundredth, and of the same thing done
    nearby only the best.

    Args:
        ranked: most helpful first.
        xy: (n, 2) metres, the stations of the plan.
    """
    near = NEAR_PART * float(np.hypot(*np.ptp(xy, axis=0)))
    out: list[Advice] = []
    for advice in ranked:
        again = any(one.act is advice.act and math.dist(one.at, advice.at) < near for one in out)
        if len(out) < BEST and advice.gain >= LEAST_GAIN and not again:
            out.append(advice)
    return tuple(out)


BEST = 3
"""Pieces of advice that are named."""
LEAST_GAIN = 0.01
"""Of the 95 %: less is not worth a walk."""
NEAR_PART = 0.2
"""Of the plan's extent: stations nearer than this help alike, so one of them is named."""
