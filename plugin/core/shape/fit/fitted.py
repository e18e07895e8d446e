# SPDX-License-Identifier: GPL-2.0-or-later
"""What a walked line is fitted by: pieces with their evidence, and how all of it moves with the rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from functools import cached_property

import numpy as np

from ...errors import BadInput
from ...quantity import Floats, Ints
from ...segments import Curve, half_sweeps
from .cuts import PieceKind
from .tangent import Chain, by_points

MOST_CHANGES = 60_000_000
"""Changes by rows that are held at once: half a gigabyte."""


class SigmaFrom(Enum):
    """Where the one-sigma of a row is from."""

    GIVEN = "given"
    RESIDUALS = "residuals"


@dataclass(frozen=True, eq=False)
class FittedPiece:
    """One straight, one arc, or one stretch left as recorded, and the evidence for it.

    Attributes:
        first, last: its first and last row; of a closed line `last` may be smaller.
        edge, edges: number of its first edge in the run, and how many it has (one, but for stretches as recorded
            and full circles, which are two half arcs).
        start, end: (2,) metres.
        bulge: tan of a quarter of its sweep, positive to the left; NaN where it has several edges.
        radius, sweep: metres, and radians positive to the left; infinite and 0 for a straight, NaN as recorded.
        radius_sigma, sweep_sigma, length_sigma: one-sigma of these and of the length; NaN where there is none.
        length: along it, metres.
        rms, largest: of the distances of its rows from it, metres; 0 as recorded.
        rows: how many of them count.
        starts_tangent, ends_tangent: whether it meets its neighbours as a tangent there.
        gain: chi-square that an arc takes off its rows, against a straight (each fitted alone; one degree of
            freedom). An arc is large here; NaN as recorded.
    """

    kind: PieceKind
    first: int
    last: int
    edge: int
    edges: int
    start: Floats
    end: Floats
    bulge: float
    radius: float
    radius_sigma: float
    sweep: float
    sweep_sigma: float
    length: float
    length_sigma: float
    rms: float
    largest: float
    rows: int
    starts_tangent: bool = False
    ends_tangent: bool = False
    gain: float = float("nan")

    @property
    def chord(self) -> float:
        """From start to end, metres."""
        return float(np.hypot(*(self.end - self.start)))

    @property
    def rise(self) -> float:
        """Of an arc over its chord at the middle, metres, positive where it lies to the right of the chord (a turn
        to the left); 0 for a straight."""
        if self.kind is PieceKind.STRAIGHT:
            return 0.0
        return float(np.copysign(self.radius * (1.0 - np.cos(0.5 * self.sweep)), self.sweep))


@dataclass(frozen=True, eq=False)
class Part:
    """Vertices and edges of a run that move with the rows in one way.

    Attributes:
        vertex: (a,) numbers of its vertices in the run; edge: (b,) of its edges.
        row: (m,) which of the given rows each of its own rows is.
        chain: the fitted chain; None where its vertices are the rows themselves.
        points: (m, 2) its own rows as fitted, metres near the origin.
        circle: (2a + b, m, 2) changes already known, of a full circle.
    """

    vertex: Ints
    edge: Ints
    row: Ints
    chain: Chain | None
    points: Floats
    circle: Floats | None = None

    def changes(self) -> Floats:
        """(2a + b, m, 2) change of its vertices (x, y of each), then of the half sweeps of its edges."""
        if self.circle is not None:
            return self.circle
        a, b, m = len(self.vertex), len(self.edge), len(self.row)
        out = np.zeros((2 * a + b, m, 2))
        if self.chain is None:
            out[2 * np.arange(a), np.arange(a), 0] = 1.0
            out[2 * np.arange(a) + 1, np.arange(a), 1] = 1.0
            return out
        moved = by_points(self.points, self.chain)
        out[: 2 * a] = moved[: 2 * a]
        out[2 * a + np.flatnonzero(self.chain.is_arc)] = moved[2 * a :]
        return out


@dataclass(frozen=True, eq=False)
class FittedRun:
    """A walked line as straights and arcs.

    Attributes:
        pieces: in the order walked.
        points: (v, 2) vertices in metres; of a closed line the first is not repeated.
        bulge: (e,) tan of a quarter of each edge's sweep, positive to the left; e is v if closed, else v - 1.
        closed: whether the last edge ends at the first vertex.
        rms: of the distances of all rows that count from their pieces, metres; NaN where nothing is smooth.
        chi2, dof: sum of their squares by sigma squared, and the degrees of freedom.
        sigma: one-sigma of a row in metres that every stated sigma rests on; NaN where there is none.
        sigma_from: where it is from. A given one that the residuals refute (by one chance in a thousand) is not
            used: the residuals' own stands in its place.
        together: by how much less the rows tell than independent ones would; it is in every stated sigma (1: not
            at all).
        parts: how it moves with the rows.
        count: how many rows were given.
    """

    pieces: tuple[FittedPiece, ...]
    points: Floats
    bulge: Floats
    closed: bool
    rms: float
    chi2: float
    dof: int
    sigma: float
    sigma_from: SigmaFrom
    together: float
    parts: tuple[Part, ...]
    count: int

    @property
    def is_smooth(self) -> bool:
        """Whether anything smooth is claimed."""
        return any(piece.kind is not PieceKind.AS_WALKED for piece in self.pieces)

    def curve(self, z: Sequence[float] | None = None) -> Curve:
        """The run as exact edges; z of each vertex in metres if given. A closed one ends with its first vertex."""
        height = np.full(len(self.points), np.nan) if z is None else np.asarray(z, float)
        points = np.column_stack([self.points, height])
        return Curve(np.vstack([points, points[:1]]) if self.closed else points, self.bulge)

    @cached_property
    def by_points(self) -> Floats:
        """(2v + e, n, 2) change of x and y of each vertex, then of half the sweep of each edge, by metre of each row
        (to first order, which pieces were found held as it is).

        Raises:
            BadInput: more than 60 million entries; take it from `parts`, one by one.
        """
        v, e = len(self.points), len(self.bulge)
        if 2 * (2 * v + e) * self.count > MOST_CHANGES:
            raise BadInput(
                "{v} vertices by {n} rows are too many to hold how each moves with each. Take them part by part.",
                v=v,
                n=self.count,
            )
        out = np.zeros((2 * v + e, self.count, 2))
        for part in self.parts:
            index = np.concatenate(
                [np.column_stack([2 * part.vertex, 2 * part.vertex + 1]).ravel(), 2 * v + part.edge]
            )
            np.add.at(out, (index[:, None], part.row[None, :]), part.changes())
        return out

    @cached_property
    def covariance(self) -> Floats:
        """(2v + e, 2v + e) covariance of the same, m2, m rad and rad2, from `sigma` and `together`."""
        by = self.by_points.reshape(len(self.by_points), -1)
        return np.asarray(self.sigma**2 * self.together * (by @ by.T))

    @property
    def half(self) -> Floats:
        """(e,) half of each edge's sweep, radians."""
        return half_sweeps(self.bulge)
