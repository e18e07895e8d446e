# SPDX-License-Identifier: GPL-2.0-or-later
"""Chains, circles and stretches as recorded put together to one run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from ...quantity import Floats, Ints
from .cuts import Cut, PieceKind
from .divide import Rows, Stretch
from .evidence import measure_gain, tell_pieces
from .fitted import FittedPiece, FittedRun, Part, SigmaFrom
from .joints import Lone


@dataclass(frozen=True, eq=False)
class Ordered:
    """Rows as they are divided, and (m,) which of the rows given each of them is."""

    rows: Rows
    order: Ints


@dataclass(frozen=True, eq=False)
class Division:
    """A line divided, the one-sigma of a row that all is stated with (metres, None: nothing to tell it), and by how
    much less rows tell than independent ones."""

    ordered: Ordered
    stretches: tuple[Stretch, ...]
    sigma: float | None
    sigma_from: SigmaFrom
    together: float


@dataclass
class _Sheet:
    """What is put together so far."""

    division: Division
    points: list[Floats] = field(default_factory=list)
    half: dict[int, float] = field(default_factory=dict)
    pieces: list[FittedPiece] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    last_row: int = -1
    """Of the stretch before: a stand belongs to both of its sections, but is one vertex."""

    @property
    def rows(self) -> Floats:
        return self.division.ordered.rows.points

    @property
    def sigma(self) -> float:
        """One-sigma of a row, rows that err together taken into account."""
        own = self.division.sigma
        return float("nan") if own is None else own * float(np.sqrt(self.division.together))


def residuals_of(stretches: Sequence[Stretch]) -> Iterator[tuple[Floats, Ints]]:
    """Of each smooth stretch: distances of the rows (NaN for those of others), and the piece of each (-1: none)."""
    for stretch in stretches:
        if stretch.chain is not None:
            yield stretch.chain.fit.residual, stretch.chain.fit.chain.piece
        elif stretch.circle is not None:
            yield stretch.circle.residual, np.zeros(len(stretch.circle.residual), np.int64)


def sum_squares(stretches: Sequence[Stretch]) -> tuple[float, int]:
    """Sum of squares of all that is smooth, m2, and its degrees of freedom."""
    squares, free = 0.0, 0
    for stretch in stretches:
        if stretch.chain is not None:
            squares, free = squares + stretch.chain.fit.squares, free + stretch.chain.fit.free
        elif stretch.circle is not None:
            own = stretch.circle.residual
            squares, free = squares + float(own @ own), free + len(own) - 3
    return squares, free


def gather_run(division: Division, origin: Floats) -> FittedRun:
    """The run of all stretches, its coordinates as they were given (origin added again)."""
    sheet = _Sheet(division)
    stretches = division.stretches
    closed = division.ordered.rows.closed
    for k, stretch in enumerate(stretches):
        if stretch.chain is not None:
            _add_chain(sheet, stretch)
        elif stretch.circle is not None:
            _add_circle(sheet, stretch, stretch.circle)
        else:
            follows = stretches[k + 1] if k + 1 < len(stretches) else None
            _add_recorded(sheet, stretch.cuts[0], follows)
        sheet.last_row = stretch.cuts[-1].last
    if closed:
        _close(sheet)
    return _run(sheet, origin)


def _run(sheet: _Sheet, origin: Floats) -> FittedRun:
    division, closed = sheet.division, sheet.division.ordered.rows.closed
    points = np.array(sheet.points).reshape(-1, 2)
    half = np.zeros(len(points) - (0 if closed else 1))
    half[list(sheet.half)] = list(sheet.half.values())
    bulge = np.tan(0.5 * half)
    squares, free = sum_squares(division.stretches)
    counted = [residual[piece >= 0] for residual, piece in residuals_of(division.stretches)]
    rms = float(np.sqrt((np.concatenate(counted) ** 2).mean())) if counted else float("nan")
    sigma = float("nan") if division.sigma is None else division.sigma
    chi2 = squares / sigma**2 if sigma > 0 else float("nan")
    pieces = tuple(_placed(piece, points, bulge, division.ordered.order, origin) for piece in sheet.pieces)
    return FittedRun(
        pieces,
        points + origin,
        bulge,
        closed,
        rms,
        chi2,
        free,
        sigma,
        division.sigma_from,
        division.together,
        tuple(sheet.parts),
        len(np.unique(division.ordered.order)),
    )


def _placed(piece: FittedPiece, points: Floats, bulge: Floats, order: Ints, origin: Floats) -> FittedPiece:
    """A piece with its rows and places as they were given."""
    v = len(points)
    return replace(
        piece,
        first=int(order[piece.first]),
        last=int(order[piece.last]),
        start=points[piece.edge % v] + origin,
        end=points[(piece.edge + piece.edges) % v] + origin,
        bulge=float(bulge[piece.edge]) if piece.edges == 1 else float("nan"),
    )


def _add_chain(sheet: _Sheet, stretch: Stretch) -> None:
    fitted = stretch.chain
    if fitted is None:
        return
    chain, v = fitted.fit.chain, len(sheet.points)
    k = len(chain.half)
    is_whole_turn = sheet.division.ordered.rows.closed and not stretch.wraps
    ends_at_start = is_whole_turn and bool(sheet.division.ordered.rows.stands)
    ends_at_start = ends_at_start and stretch.cuts[-1].last == len(sheet.rows) - 1
    for piece in tell_pieces(sheet.rows, fitted, sheet.sigma, closed=stretch.wraps):
        sheet.pieces.append(replace(piece, edge=piece.edge + v))
    kept = len(chain.vertices) - (1 if ends_at_start and sheet.points else 0)
    sheet.points += list(chain.vertices[:kept])
    sheet.half.update({v + j: float(h) for j, h in enumerate(chain.half)})
    sheet.parts.append(
        Part(v + np.arange(kept), v + np.arange(k), sheet.division.ordered.order, chain, sheet.rows)
    )


def _add_recorded(sheet: _Sheet, cut: Cut, follows: Stretch | None) -> None:
    """Rows as they are; the edges from the vertex before the first and to the one after the last are theirs."""
    rows, n = sheet.division.ordered.rows, len(sheet.rows)
    first = cut.first + (1 if cut.first == sheet.last_row else 0)
    is_shared = follows is not None and follows.chain is not None and follows.cuts[0].first == cut.last
    is_start_again = rows.closed and bool(rows.stands) and cut.last == n - 1 and first > 0
    last = cut.last - (1 if is_shared or is_start_again else 0)
    edge = max(len(sheet.points) - 1, 0)
    own = np.arange(first, last + 1)
    sheet.parts.append(
        Part(
            len(sheet.points) + np.arange(len(own)),
            np.empty(0, np.int64),
            sheet.division.ordered.order[own],
            None,
            sheet.rows[own],
        )
    )
    sheet.points += list(sheet.rows[own])
    end = len(sheet.points) - 1
    goes_on = (follows is not None and follows.chain is not None) or (follows is None and rows.closed)
    end += 1 if goes_on else 0
    if end > edge:
        sheet.pieces.append(_recorded(sheet, cut, edge, end - edge))


def _recorded(sheet: _Sheet, cut: Cut, edge: int, edges: int) -> FittedPiece:
    none = float("nan")
    nowhere = np.full(2, none)
    kind = PieceKind.AS_WALKED
    unknown = (none,) * 6
    return FittedPiece(
        kind, cut.first, cut.last, edge, edges, nowhere, nowhere, none, *unknown, rms=0.0, largest=0.0, rows=0
    )


def _close(sheet: _Sheet) -> None:
    """The edge back to the first vertex, where no piece has it: as recorded, from the last row to the first."""
    used = sum(piece.edges for piece in sheet.pieces)
    v = len(sheet.points)
    if used < v:
        sheet.pieces.append(
            _recorded(sheet, Cut(PieceKind.AS_WALKED, len(sheet.rows) - 1, 0), used, v - used)
        )


def _add_circle(sheet: _Sheet, stretch: Stretch, lone: Lone) -> None:
    """A full circle as two half arcs, from beside its first row."""
    points, sigma = sheet.rows, sheet.sigma
    radius, turn = abs(lone.radius), float(np.sign(lone.radius))
    away = points - lone.middle
    distance = np.hypot(away[:, 0], away[:, 1])[:, None]
    unit = away / distance
    by_circle = _circle_by_points(lone, unit, turn)
    start = lone.middle + radius * unit[0]
    across = np.array([-unit[0, 1], unit[0, 0]])
    swing = -np.einsum("a,abk->bk", across, by_circle[:2].reshape(2, len(points), 2)) / distance[0]
    swing[0] += across / distance[0]
    changes = np.zeros((6, len(points), 2))
    for vertex, sign in ((0, 1.0), (1, -1.0)):
        for axis in (0, 1):
            moved = by_circle[axis] + sign * (unit[0, axis] * by_circle[2] + radius * across[axis] * swing)
            changes[2 * vertex + axis] = moved
    sheet.points += [start, 2.0 * lone.middle - start]
    sheet.half.update({0: turn * np.pi / 2.0, 1: turn * np.pi / 2.0})
    order = sheet.division.ordered.order
    sheet.parts.append(Part(np.arange(2), np.arange(2), order, None, points, changes))
    cut, spread = stretch.cuts[0], sigma * float(np.sqrt(max(lone.cofactor[2, 2], 0.0)))
    figures = (2.0 * np.pi * radius, 2.0 * np.pi * spread)
    piece = FittedPiece(
        PieceKind.ARC,
        cut.first,
        cut.last,
        0,
        2,
        start,
        start,
        float("nan"),
        radius,
        spread,
        turn * 2.0 * np.pi,
        0.0,
        *figures,
        float(np.sqrt((lone.residual**2).mean())),
        float(np.abs(lone.residual).max()),
        len(lone.residual),
        starts_tangent=True,
        ends_tangent=True,
        gain=measure_gain(points, cut, sigma),
    )
    sheet.pieces.append(piece)


def _circle_by_points(lone: Lone, unit: Floats, turn: float) -> Floats:
    """(3, n, 2) change of a circle's centre and radius by its points: N^-1 A' times each point's own direction."""
    design = np.column_stack([-unit, -np.ones(len(unit))])
    sign = np.array([1.0, 1.0, turn])
    cofactor = lone.cofactor * np.outer(sign, sign)
    return np.asarray(-(cofactor @ design.T)[:, :, None] * unit[None])
