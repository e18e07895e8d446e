# SPDX-License-Identifier: GPL-2.0-or-later
"""A schedule of radii: the arcs of outlines by the radii that they share."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from ..errors import BadInput
from ..quantity import Floats

Z_95 = 1.959964
"""Normal quantile of 97.5 %."""
Z_90 = 1.644854
"""Normal quantile of 95 %."""
EXACT = 1e-6
"""Metres: one-sigma of a radius that is said to be exact, or of which nothing is said."""


class Curved(Protocol):
    """What is asked of a piece: fitted ones have it, of outlines and of walked lines."""

    @property
    def radius(self) -> float:
        """Metres; of anything that is no arc not finite."""

    @property
    def radius_sigma(self) -> float:
        """Metres; NaN where it is exact."""

    @property
    def sweep(self) -> float:
        """Radians."""

    @property
    def length(self) -> float:
        """Along it, metres."""


@dataclass(frozen=True)
class RadiusRow:
    """Arcs of one radius.

    Attributes:
        radius, sigma: mean of theirs, weighted by what each is worth, and its one-sigma, metres; with a rounding, the
            radius is the rounded one.
        count: how many they are.
        length: of all of them, metres.
        least_sweep, most_sweep: radians, without a side.
        members: their numbers among the pieces.
    """

    radius: float
    sigma: float
    count: int
    length: float
    least_sweep: float
    most_sweep: float
    members: tuple[int, ...]


def radius_schedule(pieces: Iterable[Curved], *, rounding: float | None = None) -> tuple[RadiusRow, ...]:
    """The radii of all arcs among pieces, smallest first, one row for those that are the same.

    Without a rounding arcs are the same where their radii differ by no more than their joint 95 % (chi-square of all of
    them about their mean); those that agree best are put together first. Arcs of which nothing is known but the radius
    are the same within 3 um.

    Args:
        pieces: straights and stretches as recorded among them are left out.
        rounding: metres; radii are rounded to multiples of it, and are the same where these are.
    Raises:
        BadInput: a rounding that is not above 0.
    """
    if rounding is not None and not 0.0 < rounding < np.inf:
        raise BadInput("Radii are to be rounded to {rounding} m. Give a length above 0.", rounding=rounding)
    pieces = tuple(pieces)
    arcs = [k for k, piece in enumerate(pieces) if np.isfinite(piece.radius)]
    arcs.sort(key=lambda k: pieces[k].radius)
    radius = np.array([pieces[k].radius for k in arcs])
    sigma = np.array([pieces[k].radius_sigma for k in arcs])
    sigma = np.fmax(np.where(np.isfinite(sigma), sigma, 0.0), EXACT)
    groups = _alike(radius, sigma) if rounding is None else _rounded(radius, rounding)
    return tuple(
        _row(
            [pieces[arcs[i]] for i in group], [arcs[i] for i in group], radius[group], sigma[group], rounding
        )
        for group in groups
    )


def _row(
    pieces: Sequence[Curved], members: Sequence[int], radius: Floats, sigma: Floats, rounding: float | None
) -> RadiusRow:
    weight = sigma**-2
    mean = float(radius @ weight / weight.sum())
    sweeps = [abs(piece.sweep) for piece in pieces]
    return RadiusRow(
        mean if rounding is None else round(float(radius[0]) / rounding) * rounding,
        float(weight.sum() ** -0.5),
        len(pieces),
        float(sum(piece.length for piece in pieces)),
        min(sweeps),
        max(sweeps),
        tuple(sorted(members)),
    )


def _rounded(radius: Floats, rounding: float) -> list[list[int]]:
    groups: dict[int, list[int]] = {}
    for i, value in enumerate(radius.tolist()):
        groups.setdefault(round(value / rounding), []).append(i)
    return list(groups.values())


def _alike(radius: Floats, sigma: Floats) -> list[list[int]]:
    """Numbers of ascending radii in groups: neighbours are joined, those first that differ least by their sigma."""
    groups: list[_Group | None] = [
        _Group(value, weight, 0.0, [i])
        for i, (value, weight) in enumerate(zip(radius.tolist(), (sigma**-2).tolist()))
    ]
    last = len(groups)
    before, after = list(range(-1, last - 1)), list(range(1, last + 1))
    queue: list[tuple[float, int, int, int]] = []

    def offer(i: int, j: int) -> None:
        one, other = (groups[k] if 0 <= k < last else None for k in (i, j))
        if one is not None and other is not None:
            both = one.joined(other)
            if both.squares <= _most(len(both.members) - 1):
                heapq.heappush(queue, (both.squares - one.squares - other.squares, i, j, len(both.members)))

    for i in range(last - 1):
        offer(i, i + 1)
    while queue:
        _, i, j, count = heapq.heappop(queue)
        one, other = groups[i], groups[j]
        if one is None or other is None or len(one.members) + len(other.members) != count:
            continue
        groups[i], groups[j] = one.joined(other), None
        after[i] = after[j]
        if after[i] < last:
            before[after[i]] = i
        offer(before[i], i)
        offer(i, after[i])
    return [group.members for group in groups if group is not None]


@dataclass(frozen=True)
class _Group:
    """Radii put together: their mean, its weight, and chi-square about it."""

    mean: float
    weight: float
    squares: float
    members: list[int]

    def joined(self, other: _Group) -> _Group:
        weight = self.weight + other.weight
        mean = (self.mean * self.weight + other.mean * other.weight) / weight
        more = self.weight * other.weight / weight * (self.mean - other.mean) ** 2
        return _Group(mean, weight, self.squares + other.squares + more, self.members + other.members)


def _most(free: int) -> float:
    """Chi-square that chance passes once in twenty (for one degree exactly, else after Wilson and Hilferty)."""
    t = 2.0 / (9.0 * free)
    return Z_95**2 if free == 1 else free * (1.0 - t + Z_90 * t**0.5) ** 3
