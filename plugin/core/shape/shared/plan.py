# SPDX-License-Identifier: GPL-2.0-or-later
"""What becomes one where neighbours are joined: every place where their edges face each other becomes one point, the
mean of the places there, by weights that make it least uncertain (Why 16)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from ...positions import Positions
from ...quantity import Floats, Ints
from ...segments import STRAIGHT
from .lines import Line
from .neighbours import Stretch, vertex_moves

FINE = 10**9
"""Places on one edge that differ by less than a billionth of it are one."""
ROUNDS = 20
"""A place on one line is carried on to its neighbours, to theirs, and so on, at most so often."""
TOGETHER = 40
"""Points whose weights are asked for in one go."""
CLEAR = 1e-6
"""Metres: a new place is at least so far from the ends of its edge."""
RIDGE = 1e-12
"""Part of the variance that is added to each place's own, so that places known alike count alike."""

Key = tuple[int, int]
"""Number of a line, and a place on it in billionths of an edge."""


@dataclass(frozen=True, eq=False)
class Member:
    """A place on a line that becomes part of a point: the line, the place, where it lies (2,), and its weight."""

    line: int
    at: float
    xy: Floats
    weight: float

    @property
    def is_corner(self) -> bool:
        """Whether it is a vertex of its line."""
        return abs(self.at - round(self.at)) < 0.5 / FINE


@dataclass(frozen=True, eq=False)
class Plan:
    """What is to become one: for each line, its places in order (vertices and new ones); for each place that joins
    others, all of them; for each way from such a place to the next that joins arcs, those ways: line, place at which
    it starts, and 1 or -1 as it runs along with the first or against it."""

    places: Mapping[int, Floats]
    points: Mapping[Key, tuple[Member, ...]]
    ways: Mapping[Key, tuple[tuple[int, float, int], ...]]


@dataclass(eq=False)
class _Groups:
    """Which keys belong together, and whether they run alike."""

    of: dict[Key, tuple[Key, int]] = field(default_factory=dict)

    def root(self, key: Key) -> tuple[Key, int]:
        sign = 1
        self.of.setdefault(key, (key, 1))
        while self.of[key][0] != key:
            key, turn = self.of[key]
            sign *= turn
        return key, sign

    def join(self, one: Key, other: Key, sign: int = 1) -> None:
        (a, turn_a), (b, turn_b) = self.root(one), self.root(other)
        if a != b:
            self.of[b] = (a, turn_a * turn_b * sign)

    def groups(self) -> Iterator[list[tuple[Key, int]]]:
        out: dict[Key, list[tuple[Key, int]]] = {}
        for key in self.of:
            root, sign = self.root(key)
            out.setdefault(root, []).append((key, sign))
        return iter(out.values())


Points = dict[Key, tuple[Member, ...]]
"""The members of each point, by the key that stands for it."""
Places = dict[int, dict[Key, float]]
"""On each line the new places, by the point that each is part of."""


def plan_join(lines: Sequence[Line], stretches: Sequence[Stretch], positions: Positions) -> Plan:
    """What becomes one where the lines of some stretches are joined.

    Corners that face each other are one point. A corner that faces an edge makes a new place on it, which is carried
    on to whatever else runs along there. Where a new place would come to lie beyond an end of its edge, it is one with
    that end.
    """
    extra: list[tuple[Key, Key]] = []
    for _ in range(ROUNDS):
        corners = _corners(lines, stretches, extra)
        places, clashes = _places(lines, stretches, corners)
        points = _points(lines, corners, places, positions)
        clashes += _settle(lines, corners, places, points)
        if not clashes:
            break
        extra += clashes
    ways = _ways(lines, stretches, corners, places)
    by_key = {key_of(lines, m.line, m.at): members for members in points.values() for m in members}
    every = {line: _every_place(lines[line], new) for line, new in places.items()}
    return Plan(every, by_key, ways)


def _every_place(line: Line, new: Mapping[Key, float]) -> Floats:
    return np.sort(np.concatenate([np.arange(len(line.piece.points)), list(new.values())]).astype(float))


def key_of(lines: Sequence[Line], line: int, at: float) -> Key:
    """The key of a place on a line, the same however often it was counted on over the line's end."""
    piece = lines[line].piece
    number = round(at * FINE)
    return line, number % (len(piece.half) * FINE) if piece.closed else number


def _is_vertex(at: float) -> bool:
    return abs(at - round(at)) < 0.5 / FINE


def _corners(
    lines: Sequence[Line], stretches: Sequence[Stretch], extra: Sequence[tuple[Key, Key]]
) -> _Groups:
    """The vertices that are one point."""
    out = _Groups()
    for stretch in stretches:
        for a, b in zip(stretch.at_one, stretch.at_other):
            ends = ((stretch.one, float(a)), (stretch.other, float(b)))
            keys = [key_of(lines, line, at) for line, at in ends if _is_vertex(at)]
            out.join(keys[0], keys[-1])
    for one, other in extra:
        out.join(one, other)
    return out


@dataclass(eq=False)
class _Growing:
    """The new places while they grow: lines that have a place of a point already, and corners that turn out to be one
    because a new place falls on one of them."""

    lines: Sequence[Line]
    places: Places
    taken: set[tuple[int, Key]]
    falls: list[tuple[Key, Key]] = field(default_factory=list)

    def put(self, line: int, point: Key, at: float) -> bool:
        """Give a line a place of a point, where it has none; whether it had none."""
        if (line, point) in self.taken:
            return False
        self.taken.add((line, point))
        if _is_vertex(at):
            self.falls.append((point, key_of(self.lines, line, at)))
            return False
        piece = self.lines[line].piece
        self.places[line][point] = at % len(piece.half) if piece.closed else at
        return True


def _places(
    lines: Sequence[Line], stretches: Sequence[Stretch], corners: _Groups
) -> tuple[Places, list[tuple[Key, Key]]]:
    """The new places on each line, and corners that are one because a new place falls on one of them."""
    places: Places = {line: {} for stretch in stretches for line in (stretch.one, stretch.other)}
    growing = _Growing(lines, places, {(key[0], corners.root(key)[0]) for key in list(corners.of)})
    for stretch in stretches:
        for a, b in zip(stretch.at_one.tolist(), stretch.at_other.tolist()):
            if not _is_vertex(b):
                growing.put(stretch.other, corners.root(key_of(lines, stretch.one, a))[0], b)
            elif not _is_vertex(a):
                growing.put(stretch.one, corners.root(key_of(lines, stretch.other, b))[0], a)
    for _ in range(ROUNDS):
        new = [place for stretch in stretches for place in _carried(lines, stretch, corners, places)]
        if not sum(growing.put(*place) for place in new):
            break
    return places, growing.falls


def _carried(
    lines: Sequence[Line], stretch: Stretch, corners: _Groups, places: Places
) -> list[tuple[int, Key, float]]:
    """What each line of a stretch has there, as a place on the other."""
    order = np.argsort(stretch.at_other)
    pairs = (
        (stretch.one, stretch.other, stretch.at_one, stretch.at_other),
        (stretch.other, stretch.one, stretch.at_other[order], stretch.at_one[order]),
    )
    return [
        (other, point, float(np.interp(at, own, faced)))
        for line, other, own, faced in pairs
        for at, point in _along(lines, line, own, corners, places)
    ]


def _along(
    lines: Sequence[Line], number: int, own: Floats, corners: _Groups, places: Places
) -> list[tuple[float, Key]]:
    """The points on a line along a stretch (`own` rises), with their places, counted on over the line's end."""
    line, n = lines[number], len(lines[number].piece.half)
    low, high = float(own[0]) - 0.5 / FINE, float(own[-1]) + 0.5 / FINE
    out = []
    for k in range(int(np.ceil(low)), int(np.floor(high)) + 1):
        key = (number, (k % n if line.piece.closed else k) * FINE)
        if key in corners.of:
            out.append((float(k), corners.root(key)[0]))
    for point, at in places[number].items():
        turns = (
            range(int(np.floor((low - at) / n)), int(np.ceil((high - at) / n)) + 1)
            if line.piece.closed
            else (0,)
        )
        out += [(at + n * turn, point) for turn in turns if low < at + n * turn < high]
    return sorted(out)


def _points(lines: Sequence[Line], corners: _Groups, places: Places, positions: Positions) -> Points:
    """The places of each point, with their weights."""
    groups: dict[Key, list[Key]] = {}
    for key in list(corners.of):
        groups.setdefault(corners.root(key)[0], []).append(key)
    for line, new in places.items():
        for point, at in new.items():
            groups[point].append(key_of(lines, line, at))
    return dict(zip(groups, _weighed(lines, list(groups.values()), positions)))


def mean_of(members: Sequence[Member]) -> Floats:
    """Where a point lies, (2,)."""
    base = members[0].xy
    return np.asarray(base + sum(m.weight * (m.xy - base) for m in members[1:]))


def _settle(lines: Sequence[Line], corners: _Groups, places: Places, points: Points) -> list[tuple[Key, Key]]:
    """Put the new places on straights where their points come to lie along the edge between its ends; the corners that
    are one because a point lies beyond an end."""
    clashes = []
    for number, new in places.items():
        line, n = lines[number], len(lines[number].piece.half)
        for point, at in list(new.items()):
            edge = int(at)
            if abs(line.piece.half[edge]) >= STRAIGHT:
                continue
            keys = [(number, k * FINE) for k in (edge, (edge + 1) % n if line.piece.closed else edge + 1)]
            ends = [
                mean_of(points[corners.root(key)[0]]) if key in corners.of else line.xy[k]
                for key, k in zip(keys, (edge, edge + 1))
            ]
            step = ends[1] - ends[0]
            part = float((mean_of(points[point]) - ends[0]) @ step / (step @ step))
            if not CLEAR < part * np.hypot(*step) < np.hypot(*step) - CLEAR:
                clashes.append((point, keys[0] if part < 0.5 else keys[1]))
                continue
            new[point] = edge + part
            points[point] = tuple(
                replace(m, at=edge + part) if m.line == number and not m.is_corner else m
                for m in points[point]
            )
    return clashes


def _ways(
    lines: Sequence[Line], stretches: Sequence[Stretch], corners: _Groups, places: Places
) -> dict[Key, tuple[tuple[int, float, int], ...]]:
    """The ways along arcs that become one, by where each begins."""
    ways = _Groups()
    for stretch in stretches:
        if not (lines[stretch.one].piece.half.any() and lines[stretch.other].piece.half.any()):
            continue
        sign = 1 if stretch.at_other[-1] > stretch.at_other[0] else -1
        one = _along(lines, stretch.one, stretch.at_one, corners, places)
        other = _along(lines, stretch.other, stretch.at_other[::sign], corners, places)[::sign]
        faced = {point: k for k, (_, point) in enumerate(other)}
        for (a, start), (_, end) in zip(one, one[1:]):
            i, k = faced.get(start), faced.get(end)
            if i is not None and k is not None and k - i == 1:
                b = other[i][0] if sign > 0 else other[k][0]
                ways.join(key_of(lines, stretch.one, a), key_of(lines, stretch.other, b), sign)
    return {
        key: tuple((k[0], k[1] / FINE, sign * turn) for k, turn in group)
        for group in ways.groups()
        for key, sign in group
    }


def _weighed(
    lines: Sequence[Line], groups: Sequence[Sequence[Key]], positions: Positions
) -> Iterator[tuple[Member, ...]]:
    """The places of each point with the weights that make their mean least uncertain: C^-1 1 by its sum, C being their
    covariance (both axes together), in which whatever they have in common counts for nothing; none below zero."""
    for first in range(0, len(groups), TOGETHER):
        some = groups[first : first + TOGETHER]
        keys = [key for group in some for key in group]
        moves, rows = _moves(lines, keys)
        xy = np.zeros((len(keys), 2))
        for line, its in _by_line(keys):
            xy[its] = lines[line].points_at(np.array([keys[k][1] for k in its]) / FINE)
        covariance = positions.plan_covariance(rows).reshape(2 * len(rows), -1)
        start = 0
        for group in some:
            k = slice(start, start + len(group))
            start += len(group)
            weight = _weights(_with_corners(lines, group, moves[k]), covariance)
            yield tuple(Member(*_place_of(key), own, float(w)) for key, own, w in zip(group, xy[k], weight))


def _place_of(key: Key) -> tuple[int, float]:
    """Line and place of a key."""
    return key[0], key[1] / FINE


def _by_line(keys: Sequence[Key]) -> Iterator[tuple[int, list[int]]]:
    out: dict[int, list[int]] = {}
    for k, (line, _) in enumerate(keys):
        out.setdefault(line, []).append(k)
    return iter(out.items())


def _moves(lines: Sequence[Line], keys: Sequence[Key]) -> tuple[Floats, Ints]:
    """How places move with the stations (k, 2, r, 2), an arc's taken as one on its chord, and the stations' rows."""
    found = [
        (its, *vertex_moves(lines[line], np.array([keys[k][1] for k in its]) / FINE))
        for line, its in _by_line(keys)
    ]
    rows = np.unique(np.concatenate([own for _, own, _ in found]))
    by = np.zeros((len(keys), 2, len(rows), 2))
    for its, own, block in found:
        by[np.array(its)[:, None], :, np.searchsorted(rows, own)] = block.transpose(0, 2, 1, 3)
    return by, rows


def _with_corners(lines: Sequence[Line], group: Sequence[Key], by: Floats) -> Floats:
    """The places of one point: those on an edge go along it with the corners that they were found from."""
    corner = np.array([number % FINE == 0 for _, number in group])
    if corner.all() or not corner.any():
        return by
    by, mean = by.copy(), by[corner].mean(axis=0)
    for k in np.flatnonzero(~corner):
        along = lines[group[k][0]].tangent_at(group[k][1] / FINE)
        by[k] += np.tensordot(np.outer(along, along), mean - by[k], axes=1)
    return by


def _weights(by: Floats, covariance: Floats) -> Floats:
    flat = by.reshape(2 * len(by), -1)
    whole = flat @ covariance @ flat.T
    cov = whole[0::2, 0::2] + whole[1::2, 1::2]
    cov += (RIDGE * np.trace(cov) + np.finfo(float).tiny) * np.eye(len(by))
    weight = np.maximum(np.linalg.lstsq(cov / cov.max(), np.ones(len(by)), rcond=None)[0], 0.0)
    return np.asarray(weight / weight.sum() if weight.sum() > 0.0 else np.full(len(by), 1.0 / len(by)))
