# SPDX-License-Identifier: GPL-2.0-or-later
"""What an outline of a layer is fitted by: pieces that keep their given arcs, corners and sparse vertices."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from functools import cached_property

import numpy as np

from ...quantity import Floats
from ...segments import Curve, length_factor

NONE = float("nan")
LONGEST = float("inf")
PLAIN = np.zeros(1)
"""The bulge of a straight."""
PLAIN.setflags(write=False)
FLATTEST = 1e-12
"""Radians of half sweep of an arc at least, so that it has a centre."""
SMOOTH = np.radians(1.0)
"""Radians of turn within which a piece and an arc beside it are said to be tangents, where both keep a given vertex:
drawings round their coordinates."""


class OutlineKind(Enum):
    """What a piece of an outline is."""

    STRAIGHT = "straight"
    ARC = "arc"
    GIVEN_ARC = "given arc"
    AS_RECORDED = "as recorded"
    """Vertices that nothing smooth fits; they stay as they are."""


@dataclass(frozen=True, eq=False)
class OutlinePiece:
    """One straight, one arc, or one stretch left as recorded.

    Attributes:
        first, last: number of its first and last vertex as given; of a closed outline `last` may be smaller.
        points: (m+1, 2) metres: its start and its end, with what stays as recorded between them; of a full circle
            the point opposite.
        bulges: (m,) tan of a quarter of the sweep of each edge, positive to the left.
        radius, sweep: metres, and radians positive to the left; infinite and 0 of a straight, NaN as recorded.
        length: along it, metres.
        rms, largest: of the distances of its own vertices from it, metres.
        largest_middle: the farthest that the middle of a chord between two of them lies from it, metres.
        radius_sigma, sweep_sigma, length_sigma: one-sigma; NaN where there is none.
        starts_tangent, ends_tangent: whether it meets its neighbours as a tangent there.
    """

    kind: OutlineKind
    first: int
    last: int
    points: Floats
    bulges: Floats
    radius: float
    sweep: float
    length: float
    rms: float = 0.0
    largest: float = 0.0
    largest_middle: float = 0.0
    radius_sigma: float = NONE
    sweep_sigma: float = NONE
    length_sigma: float = NONE
    starts_tangent: bool = False
    ends_tangent: bool = False

    @property
    def is_arc(self) -> bool:
        """Whether it is one, found or given."""
        return self.kind in (OutlineKind.ARC, OutlineKind.GIVEN_ARC)

    @property
    def start(self) -> Floats:
        """(2,) metres."""
        return np.asarray(self.points[0])

    @property
    def end(self) -> Floats:
        """(2,) metres."""
        return np.asarray(self.points[-1])

    @property
    def bulge(self) -> float:
        """Tan of a quarter of its sweep; NaN where it has several edges."""
        return float(self.bulges[0]) if len(self.bulges) == 1 else NONE

    @property
    def centre(self) -> Floats:
        """(2,) of an arc, metres; NaN of anything else."""
        if not self.is_arc:
            return np.full(2, NONE)
        if len(self.bulges) > 1:
            return np.asarray(0.5 * (self.points[0] + self.points[1]))
        chord = self.end - self.start
        left = np.array([-chord[1], chord[0]])
        # The cotangent of the half sweep, by the bulge (its own half's tangent): nothing at half a circle.
        flat = 0.5 * (1.0 / self.bulges[0] - self.bulges[0])
        return np.asarray(0.5 * (self.start + self.end) + 0.5 * flat * left)

    @property
    def chord(self) -> float:
        """From start to end, metres."""
        return float(np.hypot(*(self.end - self.start)))

    @property
    def rise(self) -> float:
        """Of an arc over its chord at the middle, metres, positive where it lies to the right of the chord (a turn to
        the left); 0 of a straight, NaN as recorded."""
        if not self.is_arc:
            return 0.0 if self.kind is OutlineKind.STRAIGHT else NONE
        return float(np.copysign(self.radius * (1.0 - np.cos(0.5 * self.sweep)), self.sweep))

    def heading(self, *, at_end: bool) -> float:
        """Direction in radians in which it leaves its start or reaches its end."""
        edge = -1 if at_end else 0
        chord = self.points[edge] - self.points[edge - 1] if at_end else self.points[1] - self.points[0]
        half = 2.0 * float(np.arctan(self.bulges[edge]))
        return float(np.arctan2(chord[1], chord[0])) + (half if at_end else -half)


@dataclass(frozen=True, eq=False)
class FittedOutline:
    """An outline as straights and arcs.

    Attributes:
        pieces: in the order given.
        closed: whether the last one ends where the first begins.
        tolerance: metres within which all of it lies.
        sigma: one-sigma of a vertex in metres: the one given, or of the residuals of all that was fitted; NaN where
            there is neither.
    """

    pieces: tuple[OutlinePiece, ...]
    closed: bool
    tolerance: float
    sigma: float

    @property
    def is_fitted(self) -> bool:
        """Whether any piece stands for more vertices than its own ends."""
        return any(p.kind is OutlineKind.ARC or p.largest > 0.0 for p in self.pieces)

    @cached_property
    def points(self) -> Floats:
        """(v, 2) vertices in metres; of a closed outline the first is not repeated."""
        parts = [piece.points[:-1] for piece in self.pieces]
        return np.vstack(parts if self.closed else [*parts, self.pieces[-1].points[-1:]])

    @cached_property
    def bulge(self) -> Floats:
        """(e,) tan of a quarter of each edge's sweep; e is v if closed, else v - 1."""
        return np.concatenate([piece.bulges for piece in self.pieces])

    def curve(self) -> Curve:
        """Exact edges, without heights; a closed one ends with its first vertex."""
        points = np.column_stack([self.points, np.full(len(self.points), NONE)])
        return Curve(np.vstack([points, points[:1]]) if self.closed else points, self.bulge)


def straight_piece(points: Floats, first: int, last: int, sigma: float = NONE) -> OutlinePiece:
    """A straight as it was given: points (2, 2)."""
    (x, y), (u, v) = points.tolist()
    length = ((u - x) ** 2 + (v - y) ** 2) ** 0.5
    return OutlinePiece(
        OutlineKind.STRAIGHT,
        first,
        last,
        points,
        PLAIN,
        LONGEST,
        0.0,
        length,
        length_sigma=sigma * 2.0**0.5,
    )


def recorded_piece(points: Floats, first: int, last: int) -> OutlinePiece:
    """A stretch as it was given: points (m+1, 2)."""
    length = float(np.hypot(*np.diff(points, axis=0).T).sum())
    return OutlinePiece(
        OutlineKind.AS_RECORDED, first, last, points, np.zeros(len(points) - 1), NONE, NONE, length
    )


def arc_piece(
    kind: OutlineKind, start: Floats, end: Floats, sweep: float, rows: tuple[int, int]
) -> OutlinePiece:
    """An arc by its ends and its sweep (radians, less than a full turn)."""
    half = float(np.copysign(max(abs(0.5 * sweep), FLATTEST), sweep))
    chord = float(np.hypot(*(end - start)))
    radius = 0.5 * chord / max(abs(float(np.sin(half))), 1e-300)
    length = chord * float(length_factor(np.array([half]))[0][0])
    bulges = np.array([np.tan(0.5 * half)])
    return OutlinePiece(kind, *rows, np.stack([start, end]), bulges, radius, sweep, length)


def circle_piece(
    kind: OutlineKind, start: Floats, centre: Floats, turn: float, rows: tuple[int, int]
) -> OutlinePiece:
    """A full circle from a point of it, to the left (turn 1) or to the right (-1): two half arcs."""
    radius = float(np.hypot(*(start - centre)))
    points = np.stack([start, 2.0 * centre - start, start])
    bulges = np.full(2, turn)
    length = 2.0 * np.pi * radius
    piece = OutlinePiece(kind, *rows, points, bulges, radius, turn * 2.0 * np.pi, length)
    return replace(piece, starts_tangent=True, ends_tangent=True)


def given_arc(points: Floats, rows: tuple[int, int]) -> OutlinePiece:
    """The arc through start, middle and end, points (3, 2), exactly; a straight where they lie in line or the middle
    is none; a full circle where the end is the start."""
    start, middle, end = points
    if np.array_equal(start, end):
        return circle_piece(OutlineKind.GIVEN_ARC, start, 0.5 * (start + middle), 1.0, rows)
    d = 0.5 * complex(*(end - start))
    w = complex(*(middle - 0.5 * (start + end))) / d
    # Inscribed angle (Euclid III.20): the half sweep by a point of the arc, the chord from -1 to 1.
    half = float(np.arctan2(-2.0 * w.imag, 1.0 - abs(w) ** 2))
    if abs(half) < 1e-9 or np.array_equal(middle, start) or np.array_equal(middle, end):
        return straight_piece(points[[0, 2]], *rows)
    return arc_piece(OutlineKind.GIVEN_ARC, start, end, 2.0 * half, rows)


def tell_tangents(pieces: Sequence[OutlinePiece], *, closed: bool) -> tuple[OutlinePiece, ...]:
    """The pieces with which of their joints are tangent, those that were fitted so and those that are it within a
    degree; a joint of two straights never is."""
    out = list(pieces)
    k = len(out)
    for j in range(k):
        i = j - 1
        if (j == 0 and not closed) or k == 1:
            continue
        before, after = out[i], out[j]
        if not (before.is_arc or after.is_arc) or OutlineKind.AS_RECORDED in (before.kind, after.kind):
            continue
        turn = after.heading(at_end=False) - before.heading(at_end=True)
        is_smooth = abs(float(np.angle(np.exp(1j * turn)))) < SMOOTH
        out[i], out[j] = replace(out[i], ends_tangent=is_smooth), replace(out[j], starts_tangent=is_smooth)
    return tuple(out)
