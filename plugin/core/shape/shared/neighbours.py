# SPDX-License-Identifier: GPL-2.0-or-later
"""Edges of neighbouring features that run along each other and may be one (GE-02)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from ...positions import Positions
from ...quantity import Floats, Ints
from ...segments import STRAIGHT
from ...walk import Flags, Kind
from ..records import Piece, Shape
from .lines import Facing, Line, May, find_facing

SIGMAS = 2.0
"""Edges that lie apart by no more than this many sigma (radial, of the gap, its root mean square along them) may be
one (trade.md, GE-02)."""
LEAST = 0.005
"""Metres: and so may edges within this, however well they are known."""
SAME = 0.0005
"""Metres: edges that lie nowhere farther apart than this are one, and nothing is asked."""
CORNER_SIGMAS = 3.0
"""Two corners of such edges that are no more than this many sigma apart are one corner."""
LEAST_RUN = 0.25
"""Metres: features that run along each other for less only touch."""
ALIKE = 0.5
"""Between two corners the shorter way is at least this part of the other, or the two do not run along each other."""
SAMPLE = 60
"""Places along one pair of lines at which the sigma of the gap is asked for; between them it hardly changes."""


@dataclass(frozen=True, eq=False)
class Stretch:
    """Where two lines run along each other.

    Attributes:
        one, other: numbers of the lines.
        at_one, at_other: (k,) places on each that face each other: edge and part of the way along it; `at_one` rises,
            `at_other` rises or falls, both beyond the line's end where the stretch runs over it.
        gap, sigma: (k,) metres between them, and its radial one-sigma.
        length: metres along it, the mean of both.
    """

    one: int
    other: int
    at_one: Floats
    at_other: Floats
    gap: Floats
    sigma: Floats
    length: float

    @property
    def is_same(self) -> bool:
        """Whether it is one edge as it stands."""
        return bool(self.gap.max() <= SAME)

    @property
    def is_within(self) -> bool:
        """Whether it may be one edge: its gap is as small as its stations can be trusted."""
        square = self.gap**2
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = np.where(square > 0.0, square / self.sigma**2, 0.0)
        return bool(np.sqrt(square.mean()) <= LEAST or np.sqrt(ratio.mean()) <= SIGMAS)


def find_stretches(
    shapes: Sequence[Shape], lines: Sequence[Line], positions: Positions, within: float
) -> list[Stretch]:
    """Where the lines of two features run along each other no more than `within` metres apart and no more than their
    stations can be trusted; lines of areas on opposite sides of it, or of an area and a length."""
    if len(lines) < 2 or within <= 0.0:
        return []
    facing = find_facing(lines, _may(shapes, lines), within)
    out = []
    for one, other, facing_each in _by_pair(facing, len(lines)):
        a, b = lines[one], lines[other]
        at_one, at_other, gap, sigma = _pairs(facing, facing_each, (a, b), (one, other), positions)
        for sign, places in _runs(a, b, at_one, at_other, within):
            along = _along((a, b), (at_one, at_other), places, sign)
            its = places % len(gap)
            stretch = Stretch(one, other, *along[:2], gap[its], sigma[its], along[2])
            if stretch.length >= LEAST_RUN and (stretch.is_same or stretch.is_within):
                out.append(stretch)
    return out


def _may(shapes: Sequence[Shape], lines: Sequence[Line]) -> May:
    """Neighbours are two areas, or an area and a length, in one option; none is a hole of the other."""
    options = {text: n for n, text in enumerate(dict.fromkeys(s.texts.get("option", "") for s in shapes), 1)}
    of = [shapes[line.shape] for line in lines]
    shape = np.array([line.shape for line in lines])
    area = np.array([s.kind is Kind.AREA for s in of])
    option = np.array([options[s.texts["option"]] if s.texts.get("option") else 0 for s in of])
    parent = np.array([-1 if s.parent is None else s.parent for s in of])

    def may(one: Ints, other: Ints) -> Flags:
        a, b = option[one], option[other]
        kin = (parent[one] == shape[other]) | (parent[other] == shape[one])
        goes = (area[one] | area[other]) & ((a == b) | (a == 0) | (b == 0))
        return np.asarray((shape[one] != shape[other]) & goes & ~kin)

    return may


def _by_pair(facing: Facing, count: int) -> Iterator[tuple[int, int, Ints]]:
    """The facing vertices of each two lines, of both of them."""
    key = np.minimum(facing.line, facing.other) * count + np.maximum(facing.line, facing.other)
    order = np.argsort(key, kind="stable")
    starts = np.flatnonzero(np.diff(key[order], prepend=-1))
    for its in np.split(order, starts[1:]) if len(starts) else []:
        if len(its) > 1:
            yield int(key[its[0]]) // count, int(key[its[0]]) % count, its


def _pairs(
    facing: Facing, its: Ints, pair: tuple[Line, Line], numbers: tuple[int, int], positions: Positions
) -> tuple[Floats, Floats, Floats, Floats]:
    """Places of two lines that face each other, in order along the first: corner to corner where two are one, else a
    corner to the place on the other line nearest to it; their gap and its sigma in metres."""
    is_one = facing.line[its] == numbers[0]
    own, end = facing.vertex[its], facing.end[its]
    part, end_gap = facing.part[its], facing.end_gap[its]
    nearest = facing.edge[its] + part
    at = (np.where(is_one, own, nearest), np.where(is_one, nearest, own))
    sigma = _sigmas(pair, at[0].astype(float), at[1].astype(float), positions)
    corner = _mutual(own, end, is_one) & (end_gap <= np.maximum(LEAST, CORNER_SIGMAS * sigma))
    inside = (part > 0.0) & (part < 1.0) & (end_gap > SAME)
    keep = (corner & is_one) | (~corner & inside)
    at_one = np.where(corner, own, at[0])[keep].astype(float)
    at_other = np.where(corner, end, at[1])[keep].astype(float)
    order = np.lexsort((at_other, at_one))
    gap = np.where(corner, end_gap, facing.gap[its])[keep]
    return at_one[order], at_other[order], gap[order], sigma[keep][order]


def _mutual(own: Ints, end: Ints, is_one: Flags) -> Flags:
    """Whether the corner nearest to each vertex has that vertex for its own nearest."""
    rows = list(zip(is_one.tolist(), own.tolist(), end.tolist()))
    nearest = {(one, v): u for one, v, u in rows}
    return np.array([nearest.get((not one, u)) == v for one, v, u in rows], dtype=bool)


def _sigmas(pair: tuple[Line, Line], at_one: Floats, at_other: Floats, positions: Positions) -> Floats:
    """(k,) radial one-sigma of the gap between two places, an arc's taken as one on its chord, metres."""
    k = np.arange(len(at_one))
    if len(k) > SAMPLE:
        k = np.unique(np.linspace(0, len(at_one) - 1, SAMPLE).astype(int))
    moves = [vertex_moves(line, at[k]) for line, at in zip(pair, (at_one, at_other))]
    rows = np.unique(np.concatenate([own for own, _ in moves]))
    by = np.zeros((len(k), 2, len(rows), 2))
    for sign, (own, block) in zip((1.0, -1.0), moves):
        by[:, :, np.searchsorted(rows, own)] += sign * block
    covariance = positions.plan_covariance(rows).reshape(2 * len(rows), 2 * len(rows))
    flat = by.reshape(2 * len(k), -1)
    variance = ((flat @ covariance) * flat).sum(axis=1).reshape(-1, 2).sum(axis=1)
    return np.asarray(np.interp(np.arange(len(at_one)), k, np.sqrt(np.maximum(variance, 0.0))))


def vertex_moves(line: Line, at: Floats) -> tuple[Ints, Floats]:
    """How places on the chords of a line move with the stations: rows (r,) and changes (k, 2, r, 2)."""
    first, last = line.piece.ends
    edge = line.edges_at(at)
    part = at - (np.floor(at) if line.piece.closed else edge)
    used = np.unique(np.concatenate([first[edge], last[edge]]))
    rows, block = pull_of(line.piece, used)
    weight = np.zeros((len(at), len(used)))
    k = np.arange(len(at))
    np.add.at(weight, (k, np.searchsorted(used, first[edge])), 1.0 - part)
    np.add.at(weight, (k, np.searchsorted(used, last[edge])), part)
    return rows, np.tensordot(weight, block, axes=1)


def pull_of(piece: Piece, vertices: Ints) -> tuple[Ints, Floats]:
    """How some vertices (in rising order) move with the stations: rows (r,) and changes (v, 2, r, 2)."""
    pull = piece.pull
    place = np.minimum(np.searchsorted(vertices, pull.vertex), len(vertices) - 1)
    its = np.flatnonzero(vertices[place] == pull.vertex)
    rows = np.unique(pull.vertex_row[its])
    block = np.zeros((len(vertices), len(rows), 2, 2))
    np.add.at(
        block,
        (place[its], np.searchsorted(rows, pull.vertex_row[its])),
        pull.vertex_by[its],
    )
    return rows, block.transpose(0, 2, 1, 3)


def _runs(
    one: Line, other: Line, at_one: Floats, at_other: Floats, within: float
) -> Iterator[tuple[int, Ints]]:
    """The facing places, by number, that follow each other along both lines: one run after another, each with 1
    where the other line runs the same way and -1 where it runs against it. A run over the end of a closed line goes
    on with the numbers from the start, the count added."""
    k = len(at_one)
    if k < 2:
        return
    signs = _go_on(one, other, at_one, at_other, within)
    if not one.piece.closed:
        signs[-1] = 0
    breaks = np.flatnonzero(signs != np.roll(signs, 1))
    if not len(breaks):
        if signs[0]:
            yield int(signs[0]), np.arange(k + 1)
        return
    for sign, run in groupby(range(int(breaks[0]), int(breaks[0]) + k), key=lambda i: int(signs[i % k])):
        ways = list(run)
        if sign:
            yield sign, np.arange(ways[0], ways[-1] + 2)


def _go_on(one: Line, other: Line, at_one: Floats, at_other: Floats, within: float) -> Ints:
    """(k,) whether the way from each facing place to the next is one edge of each line, and the two are alike: 1 where
    they run the same way, -1 where against each other, 0 where neither."""
    out = np.zeros(len(at_one), dtype=np.int64)
    is_way, edge, part = _way(one, at_one, np.roll(at_one, -1), forward=True)
    for sign in (1, -1):
        if one.turn * other.turn * sign > 0:
            continue  # both areas lie on one side of the edge
        its_way, its_edge, its_part = _way(other, at_other, np.roll(at_other, -1), forward=sign > 0)
        lengths = one.lengths[edge] * part, other.lengths[its_edge] * its_part
        alike = np.minimum(*lengths) >= ALIKE * np.maximum(*lengths)
        half, its_half = one.piece.half[edge] * part, sign * other.piece.half[its_edge] * its_part
        kind = (np.abs(half) > STRAIGHT) == (np.abs(its_half) > STRAIGHT)
        sag = 0.5 * np.maximum(*lengths) * np.abs(np.tan(0.5 * half) - np.tan(0.5 * its_half))
        out[is_way & its_way & alike & kind & (sag <= within) & (lengths[0] > 0.0)] = sign
    return out


def _way(line: Line, start: Floats, end: Floats, *, forward: bool) -> tuple[Flags, Ints, Floats]:
    """Of the way from one place to another along a line: whether it stays on one edge, which, and how much of it."""
    if not forward:
        start, end = end, start
    n = len(line.piece.half)
    edge = np.floor(start).astype(np.int64)
    to = np.where((end <= start) & line.piece.closed, end + n, end)
    is_one = (to > start) & (to <= edge + 1) & (edge < n)
    return is_one, np.minimum(edge, n - 1), np.where(is_one, to - start, 0.0)


def _along(
    pair: tuple[Line, Line], at: tuple[Floats, Floats], places: Ints, sign: int
) -> tuple[Floats, Floats, float]:
    """The places of one run along both lines, unwrapped, and the metres along it."""
    k, n, m = len(at[0]), len(pair[0].piece.half), len(pair[1].piece.half)
    one = at[0][places % k] + n * (places // k)
    other = at[1][places % k]
    step = np.diff(other)
    if pair[1].piece.closed:
        step = sign * np.mod(sign * step, m)
    other = other[0] + np.concatenate([[0.0], np.cumsum(step)])
    lengths = [
        float((line.lengths[line.edges_at(np.minimum(its[:-1], its[1:]))] * np.abs(np.diff(its))).sum())
        for line, its in zip(pair, (one, other))
    ]
    return one, other, 0.5 * sum(lengths)
