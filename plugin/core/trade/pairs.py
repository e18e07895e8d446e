# SPDX-License-Identifier: GPL-2.0-or-later
"""Two edges of one thing: which place of the one belongs to which of the other. Of open ones the ends tell it, of closed ones
it does not count where either begins, nor in which sense it was drawn.

Source: own derivation. Of all shifts s along the other of two closed edges that one is taken which makes the integral over f
of the square of the distance between the first edge at the part f of its length and the other one at f + s least. It knows no
start, so that none matters, and it turns, moves and is mirrored with the edges.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from ..segments import Curve, bulges, points_along
from .lines import ENDS, Line
from .space import SpaceEdges

STEP = np.pi / 180.0
"""Radians of sweep by which arcs are cut to see where they lie: the start of a circle of other arcs is then found to 5e-8
radians."""
PLACES = 4096
"""Places along each edge at least, from which the search starts."""
MOST_PLACES = 1 << 16
ROUNDS = 60
"""Of the search at most; rings of four to a million corners took 3 to 7."""
CLOSE = 1e-15
"""Of a length: a start that is known so well is found."""
SAME = 1e-8
"""Of a length: breaks of both edges that differ by less differ by rounding."""
NO_SENSE = 1e-6
"""Of what two circles of the same lengths would hold: edges that hold less, or stand square to each other, do not tell by
their areas whether they were drawn in one sense (an edging of 10 m by 0.1 m holds 1e-3)."""


NEARLY = 0.02
"""Of its length: an edge whose ends are so near each other may be meant to be closed, so that they tell no sense."""
ASTRAY = 0.05
"""Of a length, and both gaps: edges that nearly close and start farther from each other do not start at one place (the next
corner of an octagon is 0.125 on)."""


@dataclass(frozen=True, eq=False)
class Track:
    """Straights along an edge: (k,) parts of its length from 0 to 1, and (k, 3) the places there, metres."""

    parts: Floats
    places: Floats

    def turned(self) -> Track:
        """From its end to its start."""
        return Track(1.0 - self.parts[::-1], self.places[::-1])

    def centred(self) -> Track:
        """About the middle of its length."""
        middle = 0.5 * (self.places[1:] + self.places[:-1])
        return Track(self.parts, self.places - np.diff(self.parts) @ middle)


@dataclass(frozen=True)
class Match:
    """Whether the other edge is to be turned round, and at which part of its length, so turned, it belongs to the start of
    the first one."""

    is_turned: bool = False
    begin: float = 0.0


@dataclass(frozen=True, eq=False)
class Edge:
    """An edge of a thing.

    Attributes:
        ends: (2, k) its first and its last point, metres. length: metres. is_closed: whether these are one.
        track: what tells where it runs.
    """

    ends: Floats
    length: float
    is_closed: bool
    track: Callable[[], Track]

    @classmethod
    def in_space(cls, line: Line, edges: SpaceEdges) -> Edge:
        """A line by its length in space, or in plan where it has no heights."""
        # Without heights the third coordinates are NaN: they count for nothing, or no edge would ever be turned round.
        ends, length = np.nan_to_num(line.points[[0, -1]]), float(edges.lengths.sum())
        return cls(ends, length, line.is_closed, lambda: _track_in_space(edges))

    @classmethod
    def in_plan(cls, line: Line) -> Edge:
        """A line by its length in plan, which is closed where it ends over its start, at whichever height."""
        ends = line.points[[0, -1], :2]
        is_closed = bool((ends[0] == ends[1]).all()) and len(line.points) > ENDS
        return cls(ends, float(line.edges.lengths.sum()), is_closed, lambda: _track_in_plan(line))

    @property
    def gap(self) -> float:
        """Metres between its ends."""
        return math.dist(*self.ends)


def match_edges(one: Edge, other: Edge) -> Match:
    """How the other edge of a thing belongs to the first one; both have a length.

    Raises:
        BadInput: one is closed and the other open, or both nearly close and start at different places.
    """
    if one.is_closed != other.is_closed:
        raise BadInput(
            "One of the two edges is closed and the other is open. Draw both from end to end, or end each with its own "
            "first point."
        )
    if one.is_closed:
        return match_closed(one.track(), other.track())
    if max(one.gap / one.length, other.gap / other.length) <= NEARLY:
        return _match_nearly_closed(one, other)
    straight, turned = (
        sum(math.dist(*both) for both in zip(one.ends, ends)) for ends in (other.ends, other.ends[::-1])
    )
    return Match(is_turned=turned < straight)


def _match_nearly_closed(one: Edge, other: Edge) -> Match:
    """Of edges whose ends tell no sense, as each end lies as near to both of the other's."""
    track, start = other.track(), np.zeros(3)
    start[: one.ends.shape[1]] = one.ends[0] - other.ends[0]
    # What both starts are apart square to the nearest way from the one edge to the other.
    astray = math.sqrt(max(float(start @ start) - _nearest(track, start) ** 2, 0.0))
    if astray > ASTRAY * other.length + one.gap + other.gap:
        raise BadInput(
            "Both edges end {gap:.3f} m or less from where they start, and they start about {far:.1f} m from each other "
            "along them. End each with its own first point, or start both at one place.",
            gap=max(one.gap, other.gap),
            far=astray,
        )
    return Match(match_closed(one.track(), track).is_turned)


def _nearest(track: Track, place: Floats) -> float:
    """Metres from a place to the nearest one of a track."""
    way, back = np.diff(track.places, axis=0), place - track.places[:-1]
    square = (way**2).sum(axis=1)
    part = np.clip((way * back).sum(axis=1) / np.where(square > 0.0, square, 1.0), 0.0, 1.0)
    return math.sqrt(float(((back - part[:, None] * way) ** 2).sum(axis=1).min()))


def cut(edges: SpaceEdges, step: float) -> tuple[Ints, Floats, Floats]:
    """Pieces of edges, arcs by no more than some radians of sweep: (k,) the edge, (k,) the part of it, and (k,) of the whole
    length at which each piece begins."""
    along = np.concatenate([[0.0], np.cumsum(edges.lengths)])
    counts = np.ones(len(edges.p), int)
    counts[edges.arc] = np.maximum(np.ceil(2.0 * edges.half / step), 1).astype(int)
    edge = np.repeat(np.arange(len(counts)), counts)
    part = (np.arange(len(edge)) - np.repeat(np.cumsum(counts) - counts, counts)) / np.repeat(counts, counts)
    return edge, part, (along[edge] + part * edges.lengths[edge]) / along[-1]


def _track_in_space(edges: SpaceEdges) -> Track:
    """An edge by its length in space."""
    edge, part, parts = cut(edges, STEP)
    places = edges.places(edge, part)
    return Track(np.append(parts, 1.0), np.vstack([places, edges.xyz[-1:]]))


def _track_in_plan(line: Line) -> Track:
    """An edge by its length in plan."""
    edges = line.edges
    xyz = (line.points - line.points[0]) * np.array([1.0, 1.0, 0.0])
    # A whole circle that is one arc has its middle opposite: it is two half circles.
    is_full = edges.arcs.is_full
    points = np.insert(xyz[line.vertices], edges.arc[is_full] + 1, xyz[edges.mid[is_full]], axis=0)
    times = np.ones(len(edges.p), int)
    times[edges.arc[is_full]] = 2
    half, lengths = (np.repeat(v / times, times) for v in (line.half, edges.lengths))
    counts = np.maximum(np.ceil(2.0 * np.abs(half) / STEP), 1).astype(int)
    parts = np.cumsum(np.repeat(lengths / counts, counts)) / lengths.sum()
    parts[-1] = 1.0
    return Track(np.append(0.0, parts), points_along(Curve(points, bulges(half)), counts))


def match_closed(one: Track, other: Track) -> Match:
    """How another closed edge belongs to the first one: in the sense that its area tells, or where that tells nothing the
    one that brings it nearer; begun where it lies nearest.

    Edges that have two such places, as a long box and one that stands square to it, have the first that is found.
    """
    one, other = one.centred(), other.centred()
    turned, sense = other.turned(), _sense(one, other)
    if sense:
        return Match(sense < 0.0, _begin(one, turned if sense < 0.0 else other)[0])
    ways = [_begin(one, track) for track in (other, turned)]
    is_turned = ways[1][1] > ways[0][1]
    return Match(is_turned, ways[is_turned][0])


def breaks_of(one: Floats, other: Floats, begin: float) -> Floats:
    """Parts, 0 to 1, of the first edge's length at which either has a vertex, given those of each by its own length."""
    own = (other - begin) % 1.0 if begin else other
    k = np.searchsorted(one, own)
    near = np.minimum(np.abs(own - one[np.maximum(k - 1, 0)]), np.abs(own - one[np.minimum(k, len(one) - 1)]))
    breaks = np.unique(np.concatenate([one, own[near > SAME]]))
    return np.asarray(breaks)


def _sense(one: Track, other: Track) -> float:
    """Above 0 of edges drawn in one sense, below of opposite ones, 0 where their areas do not tell."""
    areas = [0.5 * np.cross(t.places[:-1], t.places[1:]).sum(axis=0) for t in (one, other)]
    rounds = [
        np.sqrt((np.diff(t.places, axis=0) ** 2).sum(axis=1)).sum() ** 2 / (4.0 * np.pi) for t in (one, other)
    ]
    ratio = float(areas[0] @ areas[1] / (rounds[0] * rounds[1]))
    return ratio if abs(ratio) > NO_SENSE else 0.0


def _begin(one: Track, other: Track) -> tuple[float, float]:
    """The part of the other edge's length that belongs to the first one's start, 0 to 1, and how well both then agree: the
    sum of products of their places, which is largest where the squared distances are least."""
    count = int(min(max(PLACES, 4 * len(one.parts), 4 * len(other.parts)), MOST_PLACES))
    at = np.arange(count) / count
    a, b = (
        np.fft.rfft([np.interp(at, t.parts, along) for along in t.places.T], axis=1) for t in (one, other)
    )
    agree = np.fft.irfft(np.conj(a) * b, count, axis=1).sum(axis=0)
    k = int(agree.argmax())
    begin = _falling_through(_slope(one, other), (k - 1) / count, (k + 1) / count)
    return begin % 1.0, float(agree[k] / count)


def _slope(one: Track, other: Track) -> Callable[[float], float]:
    """How fast the integral of A(f) B(f + s) grows with s: the sum over B's straights of their direction by the integral of A
    over the parts of A that they then belong to."""
    width, step = np.diff(one.parts), np.diff(one.places, axis=0)
    with np.errstate(divide="ignore", invalid="ignore"):
        bend = np.where(width[:, None] > 0.0, step / width[:, None], 0.0)
        far = np.diff(other.parts)[:, None]
        way = np.where(far > 0.0, np.diff(other.places, axis=0) / far, 0.0)
    area = np.vstack([np.zeros(3), np.cumsum((one.places[:-1] + 0.5 * step) * width[:, None], axis=0)])

    def slope(s: float) -> float:
        at = (other.parts - s) % 1.0
        k = np.clip(np.searchsorted(one.parts, at, side="right") - 1, 0, len(width) - 1)
        t = (at - one.parts[k])[:, None]
        whole = area[k] + one.places[k] * t + 0.5 * bend[k] * t * t
        return float((way * np.diff(whole, axis=0)).sum())

    return slope


def _falling_through(slope: Callable[[float], float], low: float, high: float) -> float:
    """Where a slope falls through 0 between two places; half-way where it does not.

    Source: false position, the end that stays counted half (Illinois; Dowell and Jarratt, BIT 11 (1971) 168-174).
    """
    up, down, kept = slope(low), slope(high), 0
    if not up > 0.0 > down:
        return 0.5 * (low + high)
    at = low
    for _ in range(ROUNDS):
        before, at = at, low + (high - low) * up / (up - down)
        found = slope(at)
        if found == 0.0 or abs(at - before) < CLOSE:
            return at
        if found > 0.0:
            low, up, down = at, found, 0.5 * down if kept > 0 else down
            kept = 1
        else:
            high, down, up = at, found, 0.5 * up if kept < 0 else up
            kept = -1
    return at
