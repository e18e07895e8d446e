# SPDX-License-Identifier: GPL-2.0-or-later
"""Heights that meet at one place: what becomes of them, and what is told where they are unlike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..findings import Finding, Severity
from ..quantity import Floats, Ints
from .records import Levels
from .surface import Flags
from .weld import number_places

SIGMAS = 3.0
"""Joint one-sigmas by which heights of one place may differ, as everywhere in this survey."""
LEAST_M = 1e-3
"""Metres by which they may differ in any case."""

Of = tuple[Ints, Ints, Floats]
"""Ends (k, 2), owners (k,) and parts of the way (k,) of segments."""


@dataclass(frozen=True, eq=False)
class Heights:
    """Points of a net: (n, 2) places, (n,) heights, (n,) variances in m2 of what each errs by itself, (n,) a line each lies
    on (-1: none), and (n, k) what each shares, metres.

    Whether heights are unlike is asked as if they shared nothing: only what no error explains stops the work.
    """

    xy: Floats
    z: Floats
    own: Floats
    of_line: Ints
    shared: Floats

    @property
    def variance(self) -> Floats:
        """(n,) of the heights, m2."""
        return np.asarray(self.own + (self.shared**2).sum(axis=1))

    def points(self) -> Floats:
        """(n, 3) east, north, height."""
        return np.column_stack([self.xy, self.z])

    def along(self, ends: Ints, part: Floats) -> Along:
        """At a part of the way between two points, heights running evenly."""
        a, b = ends[:, 0], ends[:, 1]
        z = self.z[a] * (1.0 - part) + self.z[b] * part
        own = self.own[a] * (1.0 - part) ** 2 + self.own[b] * part**2
        return Along(z, own, self.shared[a] * (1.0 - part)[:, None] + self.shared[b] * part[:, None])

    def cross(self, one: Of, other: Of, names: Sequence[str], within: float) -> tuple[Crossed, list[Finding]]:
        """Points where segments cross; crossings within the tolerance of each other are one point."""
        a, b = self.along(one[0], one[2]), self.along(other[0], other[2])
        start = self.xy[one[0][:, 0]]
        xy = start + (self.xy[one[0][:, 1]] - start) * one[2][:, None]
        told = [
            _lines_cross(xy[k], a.z[k], b.z[k], (names, int(one[1][k]), int(other[1][k])))
            for k in np.flatnonzero(is_unlike(a.z - b.z, a.variance + b.variance)).tolist()
        ]
        mean = _weighted(a, b)
        number, first = number_places(xy, within)
        grown = Heights(
            np.vstack([self.xy, xy[first]]),
            np.concatenate([self.z, mean.z[first]]),
            np.concatenate([self.own, mean.own[first]]),
            np.concatenate([self.of_line, one[1][first]]),
            np.vstack([self.shared, mean.shared[first]]),
        )
        return Crossed(grown, len(self.z) + number), told


@dataclass(frozen=True, eq=False)
class Along:
    """Heights (k,) on segments, the variances (k,) of what each errs by itself, and (k, j) what each shares, metres."""

    z: Floats
    own: Floats
    shared: Floats

    @property
    def variance(self) -> Floats:
        """(k,) of the heights, m2; both ends of a segment as if they shared nothing."""
        return np.asarray(self.own + (self.shared**2).sum(axis=1))


@dataclass(frozen=True, eq=False)
class Crossed:
    """The points with the new ones, and (k,) the row of each crossing."""

    heights: Heights
    rows: Ints


def is_unlike(off: Floats, variance: Floats) -> Flags:
    """(k,) whether heights differ by more than three joint sigma."""
    return np.asarray(np.abs(off) > np.maximum(SIGMAS * np.sqrt(variance), LEAST_M))


def _weighted(a: Along, b: Along) -> Along:
    """The mean by what each is worth."""
    total = a.variance + b.variance
    with np.errstate(divide="ignore", invalid="ignore"):
        part = np.where(total > 0.0, a.variance / total, 0.5)
    own = (1.0 - part) ** 2 * a.own + part**2 * b.own
    return Along(a.z + part * (b.z - a.z), own, a.shared + part[:, None] * (b.shared - a.shared))


def one_place(
    levels: Levels, of_line: Ints, number: Ints, first: Ints, names: Sequence[str]
) -> tuple[Heights, list[Finding]]:
    """Points that are one: the height is their mean by what each is worth, and those unlike the first are told.

    Args:
        levels: as given.
        of_line: (n,) a point's line, -1 for none.
        number: (n,) the row that each becomes.
        first: the first given point of each row, whose place counts.
        names: of the lines.
    """
    z, own = levels.points[:, 2], levels.sigma**2
    variance = own + (levels.shared**2).sum(axis=1)
    off = z - z[first[number]]
    unlike = is_unlike(off, variance + variance[first[number]])
    told = [
        _one_of_two(
            levels.points[k],
            float(z[first[number[k]]]),
            int(of_line[k]),
            int(of_line[first[number[k]]]),
            names,
        )
        for k in np.flatnonzero(unlike).tolist()
    ]
    count = len(first)
    lines = np.full(count, -1)
    has = of_line >= 0
    lines[number[has]] = of_line[has]
    # Heights that are exact (sigma 0) rule; among them, and where none is, each counts by its weight.
    exact = np.bincount(number, weights=variance <= 0.0, minlength=count)[number] > 0
    weight = np.where(exact, variance <= 0.0, 1.0 / np.where(variance > 0.0, variance, 1.0))
    weight[_repeats(number, z, variance)] = 0.0
    total = np.bincount(number, weights=weight, minlength=count)
    mean = z[first] + np.bincount(number, weights=weight * off, minlength=count) / total
    part = weight / total[number]
    worth = np.bincount(number, weights=part**2 * own, minlength=count).astype(float)
    shared = np.zeros((count, levels.shared.shape[1]))
    np.add.at(shared, number, part[:, None] * levels.shared)
    return Heights(levels.points[first, :2], mean, worth, lines, shared), told


def _repeats(number: Ints, z: Floats, variance: Floats) -> Ints:
    """Rows that say of a place what another row says of it, to the bit: the end of a closed ring, or a corner that two
    outlines share. They are one observation, not two."""
    shared = np.flatnonzero(np.bincount(number)[number] > 1)
    order = shared[np.lexsort((variance[shared], z[shared], number[shared]))]
    same = np.zeros(len(order), bool)
    same[1:] = np.all([row[order][1:] == row[order][:-1] for row in (number, z, variance)], axis=0)
    return np.asarray(order[same])


def meet(
    heights: Heights, ends: Ints, owner: Ints, point: Ints, part: Floats, names: Sequence[str]
) -> list[Finding]:
    """What is told of segments that pass through points of other heights."""
    along = heights.along(ends, part)
    z = along.z
    unlike = is_unlike(z - heights.z[point], along.variance + heights.variance[point])
    told = []
    for k in np.flatnonzero(unlike).tolist():
        at = np.append(heights.xy[point[k]], z[k])
        line = int(heights.of_line[point[k]])
        told.append(_one_of_two(at, float(heights.z[point[k]]), int(owner[k]), line, names))
    return told


def _one_of_two(point: Floats, other: float, line: int, other_line: int, names: Sequence[str]) -> Finding:
    """Two heights at one place: of two lines a stop, else a note."""
    if line >= 0 and other_line >= 0:
        return _lines_cross(point[:2], float(point[2]), other, (names, line, other_line))
    z, line = float(point[2]), max(line, other_line)
    data = _data(point[:2], z, other)
    if line < 0:
        return Finding(
            "GR-03",
            Severity.NOTE,
            "survey",
            "Two levels at {place} differ by {off:.3f} m, more than three times what they are worth; their mean is taken.",
            "See which of the two is right and leave the other out.",
            data,
            at=(float(point[0]), float(point[1])),
        )
    return Finding(
        "GR-03",
        Severity.NOTE,
        "survey",
        "A level at {place} is off the breakline {line} that it lies on by {off:.3f} m, more than three times what they are "
        "worth.",
        "See which of the two is right and leave the other out, or correct it.",
        {**data, "line": names[line]},
        at=(float(point[0]), float(point[1])),
    )


def _lines_cross(xy: Floats, z: float, other: float, who: tuple[Sequence[str], int, int]) -> Finding:
    names, line, other_line = who
    return Finding(
        "GR-02",
        Severity.STOP,
        "survey",
        "The breaklines {line} and {other} meet at {place} with heights that differ by {off:.3f} m ({low:.3f} and "
        "{high:.3f}), more than three times what they are worth.",
        "Correct the heights, or end one of the two lines before it meets the other; the foot and the top of an upright "
        "face are drawn a little apart. A wall with no ground at its top on either side is no ground: leave it out.",
        {**_data(xy, z, other), "line": names[line], "other": names[other_line]},
        at=(float(xy[0]), float(xy[1])),
    )


def _data(xy: Floats, z: float, other: float) -> dict[str, object]:
    place = f"{xy[0]:.3f}, {xy[1]:.3f} (survey plane)"
    return {
        "place": place,
        "off": abs(float(z) - float(other)),
        "low": min(float(z), float(other)),
        "high": max(float(z), float(other)),
    }
