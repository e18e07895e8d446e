# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines with voids as triangles that fill them once, so that anything can be measured over them exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from ..segments import SAG, STRAIGHT, Curve, half_sweeps, points_along, radii
from .surface import Flags

CROSSING = 1e-7
"""Metres by which two edges may change sides through rounding; beyond that they cross."""
MOST_SIDES = 2_000_000
"""Sides of all slabs together, some 200 MB: a thousand teeth of a comb side by side, or millions of corners of a
shape that is not one."""
LEAST_CHORDS = 12
"""Chords of a full circle, however small it is."""


def chorded_ring(curve: Curve, sag: float = SAG) -> Floats:
    """(n, 2) a closed run as straights that enclose its area exactly, metres; the last point is the first.

    The ends of an arc stay; the points between lie outside it by as much as makes up for what the chords cut off, which
    is two thirds of the sag for many chords. Over the ground a volume then errs only by the sag times what the depth
    changes over the sag.

    Args:
        curve: points (v, 3) in metres and the bulge of each edge.
        sag: farthest that the middle of a chord lies within the arc were its ends on it, metres.
    Source:
        Own derivation: with radius r, c chords of angle t each and inner points at q r, the triangles about the centre
        have r^2 sin(t) (q + (c/2 - 1) q^2) together, which is to be the sector's r^2 c t/2.
    """
    half, radius = half_sweeps(curve.bulge), radii(curve)
    is_arc = np.abs(half) >= STRAIGHT
    r = np.where(is_arc, radius, 1.0)
    step = np.minimum(
        2.0 * np.arccos(np.clip(1.0 - sag / np.maximum(r, sag), -1.0, 1.0)), 2.0 * np.pi / LEAST_CHORDS
    )
    counts = np.where(is_arc, np.maximum(np.ceil(2.0 * np.abs(half) / step), 2), 1).astype(np.int64)
    points = points_along(curve, counts)[:, :2].copy()
    inner = np.ones(len(points), bool)
    inner[np.concatenate([[0], np.cumsum(counts)])] = False
    edge = np.append(np.repeat(np.arange(len(counts)), counts), 0)[inner]
    if len(edge):
        away = points[inner] - _centres(curve, half)[edge]
        size = np.hypot(away[:, 0], away[:, 1])
        points[inner] += away * (_outward(half, counts) * r)[edge, None] / size[:, None]
    return points


def _outward(half: Floats, counts: Ints) -> Floats:
    """(e,) how far the inner points go outward, by the radius; 0 for straights.

    With q = 1 + d and e = c/2 (t/sin t - 1) the equation of the areas is a d^2 + (2a + 1) d = e, a = c/2 - 1.
    """
    t = 2.0 * np.abs(half) / counts
    small = t < 0.02
    over = np.where(
        small,
        t * t * (1 / 6 + t * t * (7 / 360 + t * t * 31 / 15120)),
        t / np.sin(np.where(small, 1.0, t)) - 1.0,
    )
    a = 0.5 * np.maximum(counts, 2) - 1.0
    e, b = (a + 1.0) * over, 2.0 * a + 1.0
    return np.asarray(np.where(counts > 1, 2.0 * e / (b + np.sqrt(b * b + 4.0 * a * e)), 0.0))


def _centres(curve: Curve, half: Floats) -> Floats:
    """(e, 2) centres of arcs; of straights, their middles."""
    chord = np.diff(curve.points[:, :2], axis=0)
    tan = np.tan(half)
    with np.errstate(divide="ignore", invalid="ignore"):
        off = np.where(np.abs(half) >= STRAIGHT, 0.5 / tan, 0.0)
    left = np.column_stack([-chord[:, 1], chord[:, 0]])
    return np.asarray(curve.points[:-1, :2] + 0.5 * chord + off[:, None] * left)


@dataclass(frozen=True, eq=False)
class Filled:
    """An outline's ground, in trapezoids between cuts along x through every vertex.

    Attributes:
        cuts: (k,) their y, ascending, metres.
        start: (k,) the first of the sides of the slab above each cut, and how many there are.
        bottom, top: (t,) x of each side where it meets the cuts below and above it; by slab and from west to east, so
            that the ground lies between the first and second, the third and fourth, and so on.
        slab: (t,) ascending.
        ends: (e, 2, 2) the outline's own edges.
    """

    cuts: Floats
    start: Ints
    bottom: Floats
    top: Floats
    slab: Ints
    ends: Floats

    @cached_property
    def area(self) -> float:
        """In plan, m2."""
        wide = self.bottom[1::2] - self.bottom[::2] + self.top[1::2] - self.top[::2]
        return float(0.5 * wide @ np.diff(self.cuts)[self.slab[::2]])

    @cached_property
    def corners(self) -> Floats:
        """(t, 3, 2) triangles anticlockwise that fill it once."""
        y0, y1 = self.cuts[self.slab[::2]], self.cuts[self.slab[::2] + 1]
        left, right = slice(0, None, 2), slice(1, None, 2)
        a, b = np.column_stack([self.bottom[left], y0]), np.column_stack([self.bottom[right], y0])
        c, d = np.column_stack([self.top[right], y1]), np.column_stack([self.top[left], y1])
        corners = np.concatenate([np.stack([a, b, c], axis=1), np.stack([a, c, d], axis=1)])
        u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
        return np.asarray(corners[u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0] > 0.0])

    def encloses(self, xy: Floats) -> Flags:
        """(n,) whether places (n, 2) lie within, metres; those on an edge may lie on either side."""
        slab = np.searchsorted(self.cuts, xy[:, 1], side="right") - 1
        at = np.flatnonzero((slab >= 0) & (slab < len(self.cuts) - 1))
        slab, inside = slab[at], np.zeros(len(xy), bool)
        first, count = self.start[slab], self.start[slab + 1] - self.start[slab]
        part = (xy[at, 1] - self.cuts[slab]) / (self.cuts[slab + 1] - self.cuts[slab])
        for k in range(int(count.max(initial=0))):
            side = np.minimum(first + k, len(self.bottom) - 1)
            x = self.bottom[side] + part * (self.top[side] - self.bottom[side])
            inside[at] ^= (k < count) & (x < xy[at, 0])
        return inside


def fill_outline(rings: Sequence[Floats]) -> Filled:
    """What rings enclose an odd number of times: outer rings less voids, all parts.

    Args:
        rings: (k, 2) each, straights, in either sense, closed or not, metres.
    Raises:
        BadInput: no ring encloses ground, a corner has no place, edges cross, or too many lie side by side.
    """
    closed = [np.vstack([ring, ring[:1]]) for ring in rings if len(ring)]
    xy = np.vstack(closed) if closed else np.empty((0, 2))
    if not np.isfinite(xy).all():
        raise BadInput("An outline has a corner without a place. Draw it again.")
    if len(xy) == 0 or not np.ptp(xy, axis=0).all():
        raise BadInput("An outline encloses no ground. Draw it round what is to be measured.")
    p, q = (np.vstack(part) for part in ([c[:-1] for c in closed], [c[1:] for c in closed]))
    filled = _slabs(p, q)
    if filled.area <= 0.0:
        raise BadInput("An outline encloses no ground. Draw it round what is to be measured.")
    return filled


def _slabs(p: Floats, q: Floats) -> Filled:
    """The sides, by slab, of edges from p to q (e, 2)."""
    rising = (q[:, 1] > p[:, 1])[:, None]
    low, high = np.where(rising, p, q), np.where(rising, q, p)
    slanted = low[:, 1] != high[:, 1]
    low, high = low[slanted], high[slanted]
    cuts = np.unique(np.concatenate([p[:, 1], q[:, 1]]))
    first, last = np.searchsorted(cuts, low[:, 1]), np.searchsorted(cuts, high[:, 1])
    count = last - first
    if count.sum() > MOST_SIDES:
        raise BadInput(
            "An outline of {corners} corners has too many edges side by side to be filled. Draw it simpler, or split it.",
            corners=len(p),
        )
    edge = np.repeat(np.arange(len(low)), count)
    slab = np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count) + first[edge]
    bottom, top = (_x_at(low[edge], high[edge], cuts[k]) for k in (slab, slab + 1))
    order = np.lexsort((bottom + top, slab))
    bottom, top, slab = bottom[order], top[order], slab[order]
    _refuse_crossing(bottom, top, slab, cuts)
    start = np.searchsorted(slab, np.arange(len(cuts)))
    return Filled(cuts, start, bottom, top, slab, np.stack([p, q], axis=1))


def _x_at(low: Floats, high: Floats, y: Floats) -> Floats:
    """(k,) where edges are at heights y of the plan, to the bit at their ends."""
    part = (y - low[:, 1]) / (high[:, 1] - low[:, 1])
    return np.where(y == high[:, 1], high[:, 0], low[:, 0] + part * (high[:, 0] - low[:, 0]))


def _refuse_crossing(bottom: Floats, top: Floats, slab: Ints, cuts: Floats) -> None:
    """Edges of one slab in the order of their middles have their ends in that order too, unless they cross."""
    back = np.minimum(np.diff(bottom), np.diff(top))
    wrong = np.flatnonzero((slab[1:] == slab[:-1]) & (back < -CROSSING))
    if len(wrong):
        k = int(wrong[0])
        raise BadInput(
            "An outline crosses itself or another of its rings near {east:.3f}, {north:.3f} from the middle of the "
            "surface, metres. Draw it again.",
            east=float(0.5 * (bottom[k] + top[k])),
            north=float(0.5 * (cuts[slab[k]] + cuts[slab[k] + 1])),
        )
