# SPDX-License-Identifier: GPL-2.0-or-later
"""As-walked legs as straights and tangent arcs, where the rows speak for them beyond what the survey's own covariance
lets chance make."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput
from ..quantity import Gradient
from .dual import Dual
from .fit.cuts import COST_ARC, COST_STRAIGHT, LEAST_STRAIGHT, ROUGHEST
from .fit.fitted import FittedPiece
from .fit.pieces import PieceKind
from .fit.smooth import Smoothed, TooLong, smooth_leg
from .offset import SAME
from .records import DrawnLeg, Fit, Kept, LegShape
from .spread import Spread
from .trace import Node, as_dual, half_as_dual

WINDOW = 31
"""Rows: so many in a row are looked at to tell how far one lies off a straight through them by noise alone."""
WINDOWS = 5
"""Places along a leg where that is done; the median counts."""
SIGMAS = 5.0
"""A tolerance is taken as so many sigma of a row, where rows err by less: what lies well within it is no shape of its
own, and the fewest pieces are asked for."""
SHAPES = {
    PieceKind.STRAIGHT: LegShape.STRAIGHT,
    PieceKind.ARC: LegShape.ARC,
    PieceKind.AS_WALKED: LegShape.AS_WALKED,
}


@dataclass(frozen=True, eq=False)
class Walked:
    """What became of an as-walked leg: fitted (its `nodes`, and by the number of an arc's piece the chi-square of its
    bend), or kept as recorded, and why."""

    kept: Fit
    nodes: tuple[Node, ...] = ()
    smoothed: Smoothed | None = None
    bends: tuple[float, ...] = ()


def draw_walked(nodes: Sequence[Node], tolerance: float, spread: Spread, *, closed: bool) -> Walked:
    """Fit an as-walked leg, or say why it stays as recorded.

    Args:
        nodes: start, passed rows in order, end; the same vertex at both ends where the leg is a whole outline.
        tolerance: metres that a row may lie off its piece.
        spread: the covariance of the stations.
        closed: whether the run that the leg is part of is an outline.
    Raises:
        BadInput: a tolerance that is not above 0.
    """
    if not 0.0 < tolerance < np.inf:
        raise BadInput("The tolerance of a fit is {tolerance} m. Give one above 0.", tolerance=tolerance)
    whole = closed and nodes[0] is nodes[-1]
    own = nodes[:-1] if whole else nodes
    if len(np.unique([node.xy for node in own], axis=0)) < LEAST_STRAIGHT:
        return Walked(Fit(tolerance, len(own), kept=Kept.TOO_FEW))
    if np.ptp([node.offset for node in own]) > SAME:
        return Walked(Fit(tolerance, len(own), kept=Kept.OFFSETS))
    try:
        found = _fit(own, tolerance, spread, whole=whole)
    except TooLong:
        return Walked(Fit(tolerance, len(own), kept=Kept.TOO_MANY))
    return found or Walked(Fit(tolerance, len(own), kept=Kept.NOTHING_FITS))


def _fit(nodes: Sequence[Node], tolerance: float, spread: Spread, *, whole: bool) -> Walked | None:
    """The leg fitted with ever more noise, until every bend and corner is worth its price by the stations' own
    covariance too: rows that drift together look bent, and their residuals tell that badly from a curve."""
    # An instrument worse than the tolerance may still have walked a smooth line: how rough it is, the fit looks itself.
    most = ROUGHEST * tolerance
    sigma = min(max(row_sigma(nodes, spread), tolerance / SIGMAS), most)
    while sigma <= most:
        smoothed = smooth_leg(nodes, tolerance, sigma=sigma, closed=whole)
        if smoothed is not None:
            bends = tuple(_bends(smoothed, spread))
            corners = _corners(smoothed, spread)
            if min(bends) >= COST_ARC and min(corners, default=np.inf) >= COST_STRAIGHT:
                return Walked(Fit(tolerance, len(nodes)), tuple(nodes), smoothed, bends)
        sigma *= 2.0
    return None


def row_sigma(nodes: Sequence[Node], spread: Spread) -> float:
    """One-sigma of a row in metres against its neighbours, per axis: by how much noise lets rows lie off the straight
    nearest to some thirty of them. For rows whose errors are their own it is their sigma; errors that all of them
    share (where the walk began, how it was placed) are not in it.
    """
    n = min(WINDOW, len(nodes))
    rows = [node.rows[0] for node in nodes]
    t = np.linspace(-1.0, 1.0, n)
    line = np.column_stack([np.full(n, n**-0.5), t / np.sqrt(t @ t)])
    found = []
    for first in np.unique(np.linspace(0, len(nodes) - n, WINDOWS).round().astype(int)):
        covariance = spread.plan(rows[first : first + n])
        one = 0.5 * np.einsum("iaja->ij", covariance)
        found.append((np.trace(one) - np.einsum("ik,ij,jk", line, one, line)) / (n - 2))
    return float(np.sqrt(max(np.median(found), 0.0)))


def _bends(smoothed: Smoothed, spread: Spread) -> Iterator[float]:
    """For each piece the chi-square of its bend: infinite of a straight, of rows as recorded and of a full circle."""
    for piece in smoothed.run.pieces:
        is_bend = piece.kind is PieceKind.ARC and piece.edges == 1
        yield _chi2(half_as_dual(smoothed.edges[piece.edge]), spread) if is_bend else np.inf


def _corners(smoothed: Smoothed, spread: Spread) -> Iterator[float]:
    """The chi-square of the turn at each corner between two fitted pieces."""
    pieces, edges = smoothed.run.pieces, smoothed.edges
    before = [*pieces[-1:], *pieces[:-1]] if smoothed.run.closed else [None, *pieces[:-1]]
    for one, piece in zip(before, pieces):
        if one is None or one is piece or piece.starts_tangent:
            continue
        if PieceKind.AS_WALKED in (one.kind, piece.kind):
            continue
        arrives = _direction(smoothed, one.edge + one.edges - 1, 1.0)
        leaves = _direction(smoothed, piece.edge % len(edges), -1.0)
        yield _chi2((leaves / arrives).phase(), spread)


def _direction(smoothed: Smoothed, edge: int, sign: float) -> Dual:
    """The direction of an edge at its start (-1) or its end (1)."""
    edges = smoothed.edges
    start = edges[edge - 1].end if edge else smoothed.start
    chord = as_dual(edges[edge].end) - as_dual(start)
    return chord * half_as_dual(edges[edge]).times(sign).turned()


def _chi2(angle: Dual, spread: Spread) -> float:
    """An angle by its own sigma, squared."""
    rows = sorted({row for row, _ in angle.by})
    plan = np.array([[complex(angle.by.get((row, axis), 0.0)).real for axis in (0, 1)] for row in rows])
    if not rows:
        return float("inf")
    gradient = Gradient(np.array(rows, dtype=np.int64), plan.reshape(-1, 2), np.zeros(len(rows)))
    variance = float(spread.positions.variance(gradient))
    return angle.value.real**2 / variance if variance > 0.0 else float("inf")


def fitted_legs(walked: Walked, first: int, item: str) -> Iterator[DrawnLeg]:
    """One leg for each piece of a fitted leg whose edges come after `first` others; `item` is that of its end."""
    if walked.smoothed is None:
        return
    run, nodes = walked.smoothed.run, walked.nodes
    for piece, bend in zip(run.pieces, walked.bends):
        more = piece.last - piece.first
        rows = [nodes[k % len(nodes)] for k in range(piece.first, piece.first + more % len(nodes) + 1)]
        shape = LegShape.CIRCLE if piece.edges > 1 and piece.kind is PieceKind.ARC else SHAPES[piece.kind]
        passed = tuple(row for node in rows[1:-1] for row in node.rows)
        fit = _evidence(walked.kept, piece, bend, len(rows))
        edge = first + piece.edge
        start, end = rows[0].rows, rows[-1].rows
        yield DrawnLeg(shape, edge, edge + piece.edges, start, passed, end, item, piece.rms, fit=fit)


def _evidence(leg: Fit, piece: FittedPiece, bend: float, count: int) -> Fit:
    if piece.kind is PieceKind.AS_WALKED:
        return replace(leg, rows=count, kept=Kept.NOTHING_FITS)
    # The rows' own scatter and the stations' covariance both have a say on a bend: the weaker counts.
    gain = float(np.fmin(piece.gain, bend))
    tangent = (piece.starts_tangent, piece.ends_tangent)
    return Fit(leg.tolerance, piece.rows, piece.rms, piece.largest, gain, *tangent)
