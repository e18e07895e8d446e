# SPDX-License-Identifier: GPL-2.0-or-later
"""What two surveys of one place are compared by: their things and stations in one survey plane, and what came of it."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum
from functools import cached_property

import numpy as np

from ..ground.surface import Flags
from ..quantity import Floats, Ints, Quantity


class Table(Enum):
    """What a thing is, by the survey's table that holds it."""

    AREA = "areas"
    LENGTH = "lengths"
    SPOT = "spots"


class Outcome(Enum):
    """What a comparison says of one thing."""

    SAME = "same"
    """No change shown, and one of the size asked about would have been."""
    CHANGED = "changed"
    UNSURE = "cannot tell"
    """No change shown, but one of the size asked about may hide in what the surveys do not know."""
    ADDED = "added"
    GONE = "gone"


class Figure(Enum):
    """What of a thing is tested."""

    SIZE = "size"
    PLACE = "place"
    HEIGHT = "height"


@dataclass(frozen=True, eq=False)
class Thing:
    """An area, a length or a spot of one survey.

    Attributes:
        table, feature, part, item: as the survey has them.
        paths: rings or runs, (k, 2) each, arcs as chords, metres in the common plane; of a spot its place.
        corners: (v, 2) the vertices that are tested for their place.
        spread: (v, 2, 2) covariance of each, with all that moves it, the placement's common shift too; m2.
        size: m2 of an area, m of a length; None of a spot, and where the survey kept the figure out.
    """

    table: Table
    feature: str
    part: str
    item: str
    paths: tuple[Floats, ...]
    corners: Floats
    spread: Floats
    size: Quantity | None = None
    is_level: bool = False
    """Whether it is a height of the ground and nothing that stands there."""

    @property
    def key(self) -> tuple[Table, str, str]:
        """By which it is known in another survey."""
        return self.table, self.feature, self.part

    @cached_property
    def middle(self) -> Floats:
        """(2,) of its corners, metres."""
        return np.asarray(self.corners.mean(axis=0))


@dataclass(frozen=True, eq=False)
class Stations:
    """The stations of one survey, in the order walked.

    Attributes:
        xy, z: (n, 2), (n,) metres; z NaN where there is none.
        spread: (n, 2, 2) covariance in plan with the common shift, m2. z_sigma: (n,) metres.
        key: what each is known by in another survey: a mark's name, or a feature's name and part; empty on the way.
        walk: (n,) number of its walk. leg: (n,) variance of the height on the way to it, m2. stand: (n,) of its own, m2.
        is_dense: (n,) passed without a stop, so that nobody can stand there again.
    """

    xy: Floats
    z: Floats
    spread: Floats
    z_sigma: Floats
    key: tuple[tuple[str, ...], ...]
    walk: Ints
    leg: Floats
    stand: Floats
    is_dense: Flags

    def __len__(self) -> int:
        return len(self.xy)


@dataclass(frozen=True, eq=False)
class Known:
    """One survey, as far as it is compared: its things, its stations, and the one-sigma per axis of the shift that all
    its places share, metres."""

    things: tuple[Thing, ...]
    stations: Stations
    common: float = 0.0


@dataclass(frozen=True)
class Asked:
    """What is asked of a comparison.

    Attributes:
        level: chance that a pair of surveys of one unchanged place shows any change at all.
        see: the smallest change of a length or a place that matters, metres; of an area that times its outline.
        see_height: the same of a height.
    """

    level: float = 0.01
    see: float = 0.5
    see_height: float = 0.1


@dataclass(frozen=True)
class Test:
    """One test of one figure.

    Attributes:
        difference: after less before; of a place how far it moved. Metres, or m2 of an area.
        sigma: its one-sigma. p: for the whole pair of surveys: that any of its tests goes so far by chance.
        seen: the least change that would be found nine times in ten.
        bearing: of a place, the direction it moved to, radians anticlockwise from east.
    """

    figure: Figure
    difference: float
    sigma: float
    p: float
    seen: float
    bearing: float = math.nan


@dataclass(frozen=True, eq=False)
class Compared:
    """One thing in both surveys, or in one of them."""

    before: Thing | None
    after: Thing | None
    outcome: Outcome
    tests: tuple[Test, ...] = ()
    heights: tuple[float, float] | None = None
    """Of a spot: its height before and after, metres."""

    @property
    def told(self) -> Thing:
        """The thing as it is, or was."""
        thing = self.after or self.before
        assert thing is not None  # noqa: S101 - it is in one of them
        return thing

    def test(self, figure: Figure) -> Test | None:
        """The test of a figure, where there was one."""
        return next((one for one in self.tests if one.figure is figure), None)

    @property
    def p(self) -> float | None:
        """The least of its tests."""
        return min((one.p for one in self.tests), default=None)


@dataclass(frozen=True, eq=False)
class Patch:
    """Neighbouring places whose heights changed together.

    Attributes:
        rows: (k,) of the heights that were compared. xy: (k, 2) metres.
        change: metres, up positive, against the ground around. p: for the whole pair of surveys.
        hull: (h, 2) what they stand for on the ground, closed.
    """

    rows: Ints
    xy: Floats
    change: Quantity
    p: float
    hull: Floats


def turned(xy: Floats, angle: float) -> Floats:
    """(n, 2) turned anticlockwise about the origin by an angle in radians."""
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(xy @ np.array([[c, s], [-s, c]]))


@dataclass(frozen=True, eq=False)
class Motion:
    """How one survey lies on the other: what is taken off before anything is called a change.

    Attributes:
        shift: (2,) of all places, metres, after less before. turn: radians, about `centre` (2,).
        shift_p, turn_p: for the whole pair of surveys, against what both placements state.
        sigma: one-sigma of each, metres and radians. pull: (3, 2n) how shift and turn follow from the places they were
            fitted to; `points` (2n,) one-sigma of these, metres.
    """

    shift: Floats
    turn: float
    centre: Floats
    pull: Floats
    points: Floats
    shift_p: float = 1.0
    turn_p: float = 1.0
    sigma: tuple[float, float] = (0.0, 0.0)

    def undone(self, xy: Floats) -> Floats:
        """(n, 2) places of the later survey as they lie on the earlier one."""
        return np.asarray(self.centre + turned(xy - self.shift - self.centre, -self.turn))

    def spread(self, xy: Floats) -> Floats:
        """(n, 2, 2) covariance of what was taken off at places, never too small: as if all errors of the places that
        it was fitted to pulled one way."""
        away = xy - self.centre
        out = np.zeros((len(xy), 2, 2))
        for axis, lever in ((0, -away[:, 1]), (1, away[:, 0])):
            reach = np.abs(self.pull[axis][None] + lever[:, None] * self.pull[2][None]) @ self.points
            out[:, axis, axis] = reach**2
        return out


@dataclass(frozen=True, eq=False)
class Lift:
    """The heights of one survey against the other's: the part that all share, metres, up positive."""

    shift: Quantity
    p: float = 1.0


@dataclass(frozen=True, eq=False)
class Comparison:
    """All that two surveys differ by.

    Attributes:
        rows: the things, in the order of the later survey, then those that are gone.
        patches: ground that went up or down.
        motion, lift: how the later survey lies on the earlier one; None where nothing tells.
        heights: (n, 4) places, heights before and after, of all stations whose heights were compared.
    """

    rows: tuple[Compared, ...]
    patches: tuple[Patch, ...]
    motion: Motion | None
    lift: Lift | None
    heights: Floats = field(default_factory=lambda: np.zeros((0, 4)))

    @property
    def is_changed(self) -> bool:
        """Whether anything is told as a change."""
        kinds = (Outcome.CHANGED, Outcome.ADDED, Outcome.GONE)
        return bool(self.patches) or any(row.outcome in kinds for row in self.rows)
