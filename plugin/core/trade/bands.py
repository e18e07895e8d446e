# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines in bands: strips, sheets and rows laid along one direction, and straight lines across."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats
from ..segments import Curve, bulges, chorded
from .lines import Line
from .order import GROUND, whole_up

SAG = 1e-5
"""Metres that a chord may lie off its arc where outlines are cut in bands: nothing that is laid is cut so finely."""
MOST_BANDS = 20_000
"""Bands of one outline; more are a width that was not meant."""


@dataclass(frozen=True, eq=False)
class Bands:
    """An outline turned so that its bands run along the first axis.

    Attributes:
        start, end: (e, 2) ends of its edges, arcs in chords, metres.
        low, high: (2,) corners of its box.
    """

    start: Floats
    end: Floats
    low: Floats
    high: Floats

    @property
    def size(self) -> Floats:
        """(2,) metres along the bands and across."""
        return np.asarray(self.high - self.low)

    def across(self, at: float) -> list[tuple[float, float]]:
        """Where a straight along the bands, so far above the box's foot, lies inside: from, to, metres."""
        y = self.low[1] + at
        spans = (self.start[:, 1] <= y) != (self.end[:, 1] <= y)
        a, b = self.start[spans], self.end[spans]
        x = np.sort(a[:, 0] + (y - a[:, 1]) * (b[:, 0] - a[:, 0]) / (b[:, 1] - a[:, 1]))
        return list(zip(x[0::2].tolist(), x[1::2].tolist()))

    def inside(self, at: float) -> list[tuple[float, float]]:
        """The same of what lies inside on either hand: what runs along an edge, but for rounding, is no inside."""
        below, above = self.across(at - GROUND), self.across(at + GROUND)
        both = [(max(a, c), min(b, d)) for a, b in below for c, d in above]
        return [(low, high) for low, high in both if high > low]

    def reach(self, first: float, last: float) -> list[tuple[float, float]]:
        """The stretches along a band, from `first` to `last` above the box's foot, in which some of the outline lies."""
        low, high = self.low[1] + first, self.low[1] + last
        # An edge that reaches into a band by no more than rounding lies beside it.
        inside = (np.maximum(self.start[:, 1], self.end[:, 1]) > low + GROUND) & (
            np.minimum(self.start[:, 1], self.end[:, 1]) < high - GROUND
        )
        a, b = self.start[inside], self.end[inside]
        rise = b[:, 1] - a[:, 1]
        with np.errstate(divide="ignore", invalid="ignore"):
            part = [
                np.clip(np.where(rise != 0.0, (y - a[:, 1]) / rise, t), 0.0, 1.0)
                for y, t in ((low, 0.0), (high, 1.0))
            ]
        x = np.stack([a[:, 0] + t * (b[:, 0] - a[:, 0]) for t in part])
        spans = list(zip(x.min(axis=0).tolist(), x.max(axis=0).tolist()))
        return _joined([*spans, *self.across(first + GROUND), *self.across(last - GROUND)])


def _joined(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    out: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if out and low <= out[-1][1] + GROUND:
            out[-1] = (out[-1][0], max(high, out[-1][1]))
        else:
            out.append((low, high))
    return out


def longest_heading(rings: list[Line]) -> float:
    """Direction of the longest straight side, radians anticlockwise from x, -pi/2 to pi/2; 0 where there are arcs alone."""
    best, heading = 0.0, 0.0
    for ring in rings:
        lengths = np.where(ring.half == 0.0, ring.edges.lengths, 0.0)
        longest = float(lengths.max(initial=0.0))
        if longest > best + GROUND:
            # Of sides that are equally long but for rounding the first one.
            best, heading = longest, float(ring.heading[np.argmax(lengths >= longest - GROUND)])
    return (heading + 0.5 * np.pi) % np.pi - 0.5 * np.pi


def turn_outline(rings: list[Line], heading: float) -> Bands:
    """An outline in bands along a heading, radians anticlockwise from x."""
    turned = np.array([[np.cos(heading), -np.sin(heading)], [np.sin(heading), np.cos(heading)]])
    origin = rings[0].points[0, :2]
    chords = [(chorded(ring_curve(ring), SAG)[:, :2] - origin) @ turned for ring in rings]
    every = np.vstack(chords)
    starts, ends = np.vstack([c[:-1] for c in chords]), np.vstack([c[1:] for c in chords])
    return Bands(starts, ends, every.min(axis=0), every.max(axis=0))


def ring_curve(ring: Line) -> Curve:
    """A line as a curve; a whole circle in two halves."""
    is_full = ring.edges.arcs.is_full
    bulge = bulges(ring.half)
    if not is_full.any():
        return Curve(ring.points[ring.vertices], bulge)
    full = ring.edges.arc[is_full]
    bulge[full] = 1.0
    points = np.insert(ring.points[ring.vertices], full + 1, ring.points[ring.edges.mid[is_full]], axis=0)
    return Curve(points, np.insert(bulge, full + 1, 1.0))


def count_bands(across: float, width: float, lap: float) -> int:
    """Bands that cover a distance: the first its width, every further one its width less the lap.

    Raises:
        BadInput: no width is left, or more bands than anybody lays.
    """
    if not width - lap > 0.0:
        raise BadInput(
            "A band {width} m wide with a lap of {lap} m covers nothing. Give a smaller lap.",
            width=width,
            lap=lap,
        )
    count = max(1, whole_up(across - lap, width - lap))
    if count > MOST_BANDS:
        raise BadInput(
            "The outline would take {count} bands of {width} m, more than {most}. Give a larger width.",
            count=count,
            width=width,
            most=MOST_BANDS,
        )
    return count


def lay_pieces(bands: Bands, size: tuple[float, float], lap: float) -> tuple[int, float]:
    """Whole pieces (sheets, rolls) laid band by band, and the length of all bands, metres.

    Args:
        bands: the outline.
        size: length along the bands and width, metres.
        lap: both ways, metres.
    """
    length, width = size
    pieces, run = 0, 0.0
    net = width - lap
    for k in range(count_bands(float(bands.size[1]), width, lap)):
        for low, high in bands.reach(k * net, min(k * net + width, float(bands.size[1]))):
            run += high - low
            pieces += count_bands(high - low, length, lap)
    return pieces, run
