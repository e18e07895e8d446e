# SPDX-License-Identifier: GPL-2.0-or-later
"""The legs of a feature as its log tells them, before anything is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count

import numpy as np

from ..walk import Kind, Leg, Walk

STAND_HOLD = 0.5
"""Seconds: an as-walked row held as long as this is a stand and ends the run (adjustment.md, section 2)."""


@dataclass(frozen=True)
class Group:
    """Consecutive rows of one walk with the same feature and part: `rows` of the survey, `cells` of the walk.

    Of a feature walked in several goes, `walk` holds the rows of all of them, `sources` tells where each comes
    from, and `others` are the numbers of the further walks.
    """

    walk_number: int
    walk: Walk
    rows: tuple[int, ...]
    cells: tuple[int, ...]
    sources: tuple[tuple[Walk, int], ...] = ()
    others: tuple[int, ...] = ()

    def source(self, k: int) -> tuple[Walk, int]:
        """The walk that station k was recorded in, and its number there."""
        return self.sources[k] if self.sources else (self.walk, self.cells[k])

    @property
    def feature(self) -> str:
        """Its name."""
        return self.walk.feature[self.cells[0]]

    @property
    def part(self) -> str:
        """Its part, "" if none."""
        return self.walk.part[self.cells[0]]

    @property
    def place(self) -> str:
        """The key by which findings and decisions name it."""
        return f"{self.feature}/{self.part}" if self.part else self.feature

    @property
    def legs(self) -> tuple[Leg, ...]:
        """The way to each of its stations."""
        return tuple(self.walk.leg[i] for i in self.cells)

    def kind(self) -> Kind | None:
        """The first kind its rows name."""
        return next((self.walk.kind[i] for i in self.cells if self.walk.kind[i] is not None), None)

    def text(self, column: str) -> str:
        """The first cell of a text column that is not blank."""
        return next((t for t in (self.walk.text(column, i) for i in self.cells) if t), "")

    def is_stand(self, k: int) -> bool:
        """Whether as-walked station k ends a run: it has a mark, or it was held."""
        i = self.cells[k]
        return bool(self.walk.mark[i]) or bool(self.walk.hold[i] >= STAND_HOLD)


class FreeParts:
    """Gives each feature the part numbers that nothing of it uses yet."""

    def __init__(self, groups: Iterable[Group]) -> None:
        """Know the parts that there are."""
        self._taken = {(group.feature, group.part) for group in groups}

    def next_of(self, feature: str) -> str:
        """The feature's next free part, from 2."""
        number = next(n for n in count(2) if (feature, str(n)) not in self._taken)
        self._taken.add((feature, str(number)))
        return str(number)


@dataclass(frozen=True)
class RawLeg:
    """One drawn leg: its stations (numbers within the group) from start to end; `leg` is DIRECT, AS_WALKED or
    CURVE; `is_ended` tells whether a curve came to its `curve-end`."""

    leg: Leg
    stations: tuple[int, ...]
    is_ended: bool = True


def split_groups(number: int, walk: Walk, first: int) -> Iterator[Group]:
    """The walk's features: runs of rows with the same feature and part; rows without a feature are left out,
    and so are rows without a place."""
    n = len(walk)
    usable = np.isfinite(walk.xy).all(axis=1)
    start = 0
    for i in range(1, n + 1):
        if i < n and walk.feature[i] == walk.feature[start] and walk.part[i] == walk.part[start]:
            continue
        if walk.feature[start]:
            cells = tuple(k for k in range(start, i) if usable[k])
            if cells:
                yield Group(number, walk, tuple(first + k for k in cells), cells)
        start = i


def stations_of_outline(legs: Sequence[Leg]) -> list[int]:
    """The stations of an outline: those both reached and left by a carry are not on it."""
    n = len(legs)
    off = {i for i in range(1, n - 1) if legs[i] is Leg.CARRY and legs[i + 1] is Leg.CARRY}
    return [i for i in range(n) if i not in off]


def stations_of_pieces(legs: Sequence[Leg]) -> list[list[int]]:
    """The stations of each run of a length: a carry ends one; a station alone draws nothing."""
    pieces: list[list[int]] = [[0]]
    for i in range(1, len(legs)):
        if legs[i] is Leg.CARRY:
            pieces.append([i])
        else:
            pieces[-1].append(i)
    return [piece for piece in pieces if len(piece) > 1]


def read_legs(group: Group, stations: Sequence[int]) -> list[RawLeg]:
    """The legs along some stations in order. The first station's own leg counts for nothing; in an outline
    a carry is drawn as a direct side."""
    legs, out, k = group.legs, [], 1
    while k < len(stations):
        leg, end = legs[stations[k]], k
        is_ended = True
        if leg in (Leg.CURVE, Leg.CURVE_END):
            end = _end_of_curve(legs, stations, k)
            is_ended = legs[stations[end]] is Leg.CURVE_END
            leg = Leg.CURVE
        elif leg is Leg.AS_WALKED:
            end = _end_of_run(group, stations, k)
        else:
            leg = Leg.DIRECT
        out.append(RawLeg(leg, tuple(stations[k - 1 : end + 1]), is_ended))
        k = end + 1
    return out


def _end_of_curve(legs: Sequence[Leg], stations: Sequence[int], k: int) -> int:
    """The curve's `curve-end`, or the last `curve` station before another kind of leg."""
    while legs[stations[k]] is Leg.CURVE and k + 1 < len(stations):
        if legs[stations[k + 1]] not in (Leg.CURVE, Leg.CURVE_END):
            break
        k += 1
    return k


def _end_of_run(group: Group, stations: Sequence[int], k: int) -> int:
    legs = group.legs
    while not group.is_stand(stations[k]) and k + 1 < len(stations):
        if legs[stations[k + 1]] is not Leg.AS_WALKED:
            break
        k += 1
    return k
