# SPDX-License-Identifier: GPL-2.0-or-later
"""As-walked edges to shapes: the fewest straights and tangent arcs within a tolerance, with their evidence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np

from ...errors import BadInput, TooFewPoints
from ...quantity import Floats, Ints
from .cuts import ROUGHEST, Cut, Noise, PieceKind, cut_rows
from .divide import SUPPORT, Rows, Stretch, cut_section, divide_rows
from .fitted import FittedPiece, FittedRun, SigmaFrom
from .gather import Division, Ordered, gather_run, residuals_of, sum_squares
from .roughness import measure_roughness

__all__ = [
    "FittedPiece",
    "FittedRun",
    "Noise",
    "PieceKind",
    "SigmaFrom",
    "fit_drawn",
    "fit_pieces",
    "most_squares",
]

FINEST = 0.01
"""Part of the tolerance below which one-sigma is not believed: a line that is exact but for rounding."""
NOISE_ROUNDS = 3
"""Times that a line is divided with the noise that the division before found."""
SAME_NOISE = 0.1
"""Part by which the noise may change without a new division."""
ROUGHER = 1.5
"""Times the sigma given: a line rougher than this from row to row is divided by its own roughness."""
REFUTED = 3.09
"""Normal quantile of 0.999: residuals that chance makes larger than this only once in a thousand refute sigma."""
CORRELATED = 3.0
"""Residuals are taken to err together where their correlation from row to row is beyond so many sigma of chance."""
MOST_ALIKE = 0.99
"""Correlation from row to row at most: rows that were all recorded twice are alike without end."""
FEW = 30
"""Degrees of freedom below which residuals tell neither."""


def fit_pieces(
    points: Floats,
    tolerance: float,
    *,
    sigma: float | None = None,
    closed: bool = False,
    corners: Sequence[int] = (),
    hold_ends: bool = False,
) -> FittedRun:
    """Describe a walked line by the fewest straights and arcs, each row within `tolerance` of its piece.

    Neighbours that may be tangents are, exactly; what is sharper than noise explains stays a corner. A piece is
    only claimed where chi-square lets its rows belong to it, and an arc only where it is significantly better than
    straights: by 36 for one alone, of which 12 for its curvature. Rows that nothing smooth fits stay as recorded,
    and so does everything where rows err by more than half the tolerance: take a tolerance of five sigma or more.

    The rows' errors are taken as independent, of one sigma along both axes. Where the residuals show that rows err
    together (a correlation r from row to row), chi-square counts (1 - r)/(1 + r) of itself, and all sigmas grow
    accordingly; slower drift than that cannot be told from shape.

    Args:
        points: (n, 2) rows in the order walked, metres.
        tolerance: metres that a row may lie off its piece.
        sigma: one-sigma of a row per axis, metres; if not given, or refuted, taken from the residuals.
        closed: whether the line goes on from its last row to its first (which is not repeated).
        corners: rows that are corners whatever their angle (stands).
        hold_ends: whether an open line starts and ends exactly at its first and last row.
    Raises:
        BadInput: coordinates that are no numbers, a tolerance or sigma that is not above 0, corners that are none
            of the rows.
        TooFewPoints: fewer than three different points.
    Source:
        Division: dynamic programming after Bellman (1961), penalties after Schwarz (1978), distances to circles by
        Taubin (1991); fit: Gauss and Newton with multipliers on all pieces at once, our own working. From memory.
    Example (round the corner of a path, a row each 0.1 m):
        >>> s = np.arange(0, 1, 0.1)
        >>> turn = np.arange(0, np.pi / 2, 0.05)
        >>> arc = np.column_stack([1 + 2 * np.sin(turn), 2 - 2 * np.cos(turn)])
        >>> rows = np.vstack([np.column_stack([s, 0 * s]), arc, np.column_stack([0 * s + 3, s + 2])])
        >>> run = fit_pieces(rows, 0.02, sigma=0.002)
        >>> [(p.kind.value, round(p.length, 3)) for p in run.pieces]
        [('straight', 1.0), ('arc', 3.142), ('straight', 0.9)]
        >>> [p.starts_tangent for p in run.pieces], round(run.pieces[1].radius, 3)
        ([False, True, True], 2.0)
    """
    points = np.array(points, float)
    stands = tuple(sorted(set(corners)))
    _refuse(points, tolerance, sigma, stands)
    origin = points.mean(axis=0)
    ordered = _ordered(points - origin, stands, closed=closed, hold_ends=hold_ends)
    division = _divide(ordered, _first_noise(points - origin, tolerance, sigma), sigma)
    return gather_run(division, origin)


def fit_drawn(points: Floats, noise: Noise, *, closed: bool, is_quick: bool = False) -> FittedRun:
    """Describe a drawn line by the fewest straights and arcs within a tolerance, as fit_pieces, but take the noise as it
    is said: what a shape differs from arcs by is no news on it. An open line keeps its ends.

    Args:
        points: (n, 2) vertices in order, metres.
        noise: what they may err by.
        closed: whether the line goes on from its last vertex to its first.
        is_quick: whether pieces are left as first divided, without trying what else the chain as a whole allows.
    Raises:
        BadInput, TooFewPoints: as fit_pieces.
    """
    _refuse(points, noise.tolerance, noise.sigma, ())
    origin = points.mean(axis=0)
    ordered = _ordered(points - origin, (), closed=closed, hold_ends=not closed)
    ordered = replace(ordered, rows=replace(ordered.rows, is_quick=is_quick))
    sigma = noise.sigma
    noise = _first_noise(points - origin, noise.tolerance, sigma)
    if noise.sigma > ROUGHEST * noise.tolerance:
        return gather_run(_nothing(ordered, sigma), origin)
    if closed:
        ordered = _turned(ordered, noise)
    division = Division(ordered, divide_rows(ordered.rows, noise), noise.sigma, SigmaFrom.GIVEN, 1.0)
    return gather_run(division, origin)


def _refuse(points: Floats, tolerance: float, sigma: float | None, stands: Sequence[int]) -> None:
    if points.ndim != 2 or points.shape[1:] != (2,):
        raise BadInput("Rows to fit are x and y, (n, 2); here they are {shape}.", shape=points.shape)
    bad = np.flatnonzero(~np.isfinite(points).all(axis=1))
    if len(bad):
        x, y = points[bad[0]]
        raise BadInput(
            "Row {row} of the walked line has no place ({x}, {y}). Leave such rows out.",
            row=int(bad[0]),
            x=x,
            y=y,
        )
    if not 0.0 < tolerance < np.inf:
        raise BadInput("The tolerance of a fit is {tolerance} m. Give one above 0.", tolerance=tolerance)
    if sigma is not None and not 0.0 < sigma < np.inf:
        raise BadInput("The one-sigma of a row is {sigma} m. Give one above 0, or none.", sigma=sigma)
    beyond = [row for row in stands if not 0 <= row < len(points)]
    if beyond:
        raise BadInput(
            "Row {row} is to be a corner, but the line has rows 0 to {last}.",
            row=beyond[0],
            last=len(points) - 1,
        )
    different = len(np.unique(points, axis=0))
    if different < 3:
        raise TooFewPoints("{n} different points make no walked line. Give three or more.", n=different)


def _ordered(points: Floats, stands: tuple[int, ...], *, closed: bool, hold_ends: bool) -> Ordered:
    """The rows as they are divided: a closed line with stands starts at the first and ends there again."""
    order = np.arange(len(points))
    if closed and stands:
        order = np.append(np.roll(order, -stands[0]), stands[0])
        stands = (*(row - stands[0] for row in stands), len(points))
    return Ordered(Rows(points[order], stands, closed, hold_ends and not closed), order)


def _first_noise(points: Floats, tolerance: float, sigma: float | None) -> Noise:
    """The one-sigma given, unless from row to row the line is much rougher; none given: that roughness."""
    measured = measure_roughness(points)
    if sigma is not None and not (measured > ROUGHER * sigma and len(points) > FEW):
        return Noise(max(sigma, FINEST * tolerance), tolerance)
    return Noise(max(measured, FINEST * tolerance), tolerance)


def _divide(ordered: Ordered, noise: Noise, sigma: float | None) -> Division:
    """Divide with the noise known, look how large it is by what is left, and divide again if it is another."""
    if noise.sigma > ROUGHEST * noise.tolerance:
        return _nothing(ordered, sigma)
    if ordered.rows.closed and not ordered.rows.stands:
        ordered = _turned(ordered, noise)
    noise = _expect(ordered.rows, noise)
    for _ in range(NOISE_ROUNDS):
        division = _judge(ordered, divide_rows(ordered.rows, noise), sigma)
        seen = division.sigma if division.sigma is not None else noise.sigma
        new = Noise(max(seen, FINEST * noise.tolerance), noise.tolerance, division.together)
        same = [abs(new.sigma / noise.sigma - 1.0), abs(np.sqrt(new.together / noise.together) - 1.0)]
        if max(same) < SAME_NOISE:
            break
        noise = new
    return division


def _nothing(ordered: Ordered, sigma: float | None) -> Division:
    """All rows as they are."""
    whole = Stretch((Cut(PieceKind.AS_WALKED, 0, len(ordered.rows.points) - 1),), None)
    return Division(ordered, (whole,), sigma, SigmaFrom.GIVEN, 1.0)


def _turned(ordered: Ordered, noise: Noise) -> Ordered:
    """A closed line from a break on: after a stretch that stays as recorded, else the break farthest from both
    of its ends as given. A few loose rows where it begins and ends are only the rest of a piece cut in two there."""
    rows = ordered.rows
    cuts = cut_rows(rows.points, noise)
    loose = [c.kind is PieceKind.AS_WALKED and c.last - c.first + 1 >= SUPPORT for c in cuts]
    after = [cut.first for is_loose, cut in zip(loose, cuts[1:]) if is_loose]
    breaks = after or [cut.first for cut in cuts[1:]]
    if not breaks or (loose[-1] and not after):
        return ordered
    first = min(breaks, key=lambda row: abs(2 * row - len(rows.points)))
    return Ordered(replace(rows, points=np.roll(rows.points, -first, axis=0)), np.roll(ordered.order, -first))


def _judge(ordered: Ordered, stretches: tuple[Stretch, ...], sigma: float | None) -> Division:
    """A division with the one-sigma that its residuals allow, and by how much less its rows tell."""
    squares, free = sum_squares(stretches)
    together = _measure_together(residuals_of(stretches))
    if sigma is not None and (free <= 0 or squares <= sigma**2 * most_squares(free / together) * together):
        return Division(ordered, stretches, sigma, SigmaFrom.GIVEN, together)
    seen = float(np.sqrt(squares / free)) if free > 0 else None
    return Division(ordered, stretches, seen, SigmaFrom.RESIDUALS, together)


def most_squares(free: float) -> float:
    """Chi-square that chance passes once in a thousand (Wilson and Hilferty)."""
    t = 2.0 / (9.0 * free)
    return float(free * (1.0 - t + REFUTED * np.sqrt(t)) ** 3)


def _expect(rows: Rows, noise: Noise) -> Noise:
    """The noise with how far rows err together, from pieces fitted each alone: chains are worth fitting only then."""
    for _ in range(NOISE_ROUNDS):
        cuts = cut_section(rows, 0, len(rows.points) - 1, noise)
        smooth = [cut for cut in cuts if cut.kind is not PieceKind.AS_WALKED]
        alone = [rows.alone.fit(cut).residual for cut in smooth]
        together = _measure_together([(residual, np.zeros(len(residual), np.int64)) for residual in alone])
        if abs(np.sqrt(together / noise.together) - 1.0) < SAME_NOISE:
            break
        noise = replace(noise, together=together)
    return noise


def _measure_together(stretches: Iterable[tuple[Floats, Ints]]) -> float:
    """(1 + r)/(1 - r) of the correlation r of residuals from row to row, 1 where it may be chance."""
    product, square, pairs = 0.0, 0.0, 0
    for residual, piece in stretches:
        beside = (piece[1:] == piece[:-1]) & (piece[1:] >= 0)
        product += float((residual[1:] * residual[:-1])[beside].sum())
        square += float((0.5 * (residual[1:] ** 2 + residual[:-1] ** 2))[beside].sum())
        pairs += int(beside.sum())
    if pairs < FEW or square <= 0.0:
        return 1.0
    r = min(product / square, MOST_ALIKE)
    return (1.0 + r) / (1.0 - r) if r * np.sqrt(pairs) > CORRELATED else 1.0
