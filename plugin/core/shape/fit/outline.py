# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines of layers as straights and tangent arcs: what is given exactly stays, what is dense is fitted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from ...errors import BadInput, TooFewPoints
from ...quantity import Floats, Ints
from .anchors import Flags, find_anchors, find_sharpest
from .outline_pieces import (
    NONE,
    FittedOutline,
    OutlineKind,
    OutlinePiece,
    given_arc,
    recorded_piece,
    straight_piece,
    tell_tangents,
)
from .outline_reader import RunFit, Spread
from .outline_runs import LEAST_RUN, find_stops, fit_run
from .pieces import most_squares

__all__ = ["FittedOutline", "OutlineKind", "OutlinePiece", "fit_outline"]

LONG_RUN = 400
"""Vertices of a run from which on it is held at a joint every so often."""
MANY = 20_000
"""Vertices from which on pieces are left as first divided, each from vertex to vertex."""
MOST_PIECES = 12
"""Pieces that are fitted at once, of a long run."""
RAGGED = 31
"""Edges in a row, each from corner to corner, that are a ragged edge as recorded, more than are drawn by hand,"""
SHORT = 25.0
"""if none is longer than so many tolerances."""
AGAIN = 3
"""Times that a run is fitted anew with its corners held at their vertices."""


def fit_outline(
    points: Floats,
    is_mid: npt.ArrayLike | None,
    tolerance: float,
    *,
    sigma: float | None = None,
    closed: bool,
) -> FittedOutline:
    """Describe an outline by straights and tangent arcs, it and they nowhere farther apart than `tolerance`.

    Given arcs stay as they are, and so do sharp corners, vertices of long edges, and sparse vertices: of three to five
    in a row nothing is made that is not there. Dense vertices between are fitted (fit_pieces), the fewest pieces within
    the tolerance; an arc stands for chords only where their own sag is within it too. What nothing smooth fits stays as
    recorded. Where a joint would lie farther off than the tolerance, the edge that was recorded across it stays.

    Args:
        points: (n, 2) vertices in order, metres in the ground plane; the last of a closed one may repeat the first.
        is_mid: (n,) whether a vertex is the middle of a given arc, of which its neighbours are the ends; None: none.
        tolerance: metres.
        sigma: one-sigma of a vertex per axis, metres; if not given, or refuted, from the residuals of what was fitted.
        closed: whether the last vertex is joined to the first.
    Raises:
        BadInput: places that are no numbers, a tolerance or sigma that is not above 0, an arc without an end.
        TooFewPoints: fewer than two different points.
    Example (a quarter circle of 4 m radius in chords of 5 degrees, between two straights):
        >>> turn = np.radians(np.arange(0, 91, 5))
        >>> arc = np.column_stack([6 + 4 * np.sin(turn), 4 - 4 * np.cos(turn)])
        >>> kerb = np.vstack([(0, 0), arc, (10, 9)])
        >>> fitted = fit_outline(kerb, None, 0.02, closed=False)
        >>> [(p.kind.value, round(float(p.length), 3)) for p in fitted.pieces]
        [('straight', 6.0), ('arc', 6.283), ('straight', 5.0)]
        >>> round(float(fitted.pieces[1].radius), 6), bool(fitted.pieces[1].starts_tangent)
        (4.0, True)
    """
    spread = Spread(tolerance, sigma, is_quick=len(points) > MANY)
    given = _read(points, is_mid, spread, closed=closed)
    if len(given.points) < LEAST_RUN and not given.is_mid.any():
        pieces = [_numbered(piece, given.order) for piece in _own_edges(given)]
        return FittedOutline(tuple(pieces), closed, tolerance, given.sigma)
    fits = list(_fit_parts(given))
    stated = _state(fits, sigma)
    pieces = [_with_sigma(piece, stated) for fit in fits for piece in fit.pieces]
    pieces = _ragged(given, pieces) if len(pieces) >= RAGGED else pieces
    pieces = [_numbered(piece, given.order) for piece in tell_tangents(pieces, closed=closed)]
    return FittedOutline(tuple(pieces), closed, tolerance, stated)


@dataclass(frozen=True, eq=False)
class _Given:
    """An outline as given, without vertices that repeat the one before: (n, 2) points about `origin`, which are middles
    of arcs, (n,) their numbers as given."""

    points: Floats
    is_mid: Flags
    order: Ints
    closed: bool
    spread: Spread

    @property
    def edges(self) -> int:
        return len(self.points) - (0 if self.closed else 1)

    @property
    def sigma(self) -> float:
        return NONE if self.spread.sigma is None else self.spread.sigma

    def path(self, first: int, last: int) -> Floats:
        """(m, 2) the vertices from one to another, on beyond the end of a closed outline."""
        if last < len(self.points):
            return np.asarray(self.points[first : last + 1])
        return np.asarray(self.points[np.arange(first, last + 1) % len(self.points)])


def _read(points: Floats, is_mid: npt.ArrayLike | None, spread: Spread, *, closed: bool) -> _Given:
    points = np.array(points, float)
    mids = np.zeros(len(points), bool) if is_mid is None else np.asarray(is_mid, bool)
    _refuse(points, mids, spread)
    differs = np.empty(len(points), bool)
    differs[0] = True
    np.any(points[1:] != points[:-1], axis=1, out=differs[1:])
    if closed and len(points) > 1 and (points[-1] == points[0]).all():
        differs[-1] = False
    order = np.flatnonzero(differs)
    if len(order) < len(points):
        # A middle that repeats an end of its arc is none; an end that repeats the middle takes its place.
        points, mids = points[order], mids[order]
    if len(points) < 2:
        raise TooFewPoints("{n} different points make no outline. Give two or more.", n=len(points))
    if mids.any():
        _refuse_arcs(mids, order, closed=closed)
    return _Given(points, mids, order, closed, spread)


def _refuse(points: Floats, is_mid: Flags, spread: Spread) -> None:
    if points.ndim != 2 or points.shape[1:] != (2,) or is_mid.shape != points.shape[:1] or not len(points):
        raise BadInput(
            "Vertices to fit are x and y, (n, 2), each with whether it is the middle of an arc, (n,); here they are "
            "{shape} and {mids}.",
            shape=points.shape,
            mids=is_mid.shape,
        )
    if not np.isfinite(points).all():
        bad = int(np.flatnonzero(~np.isfinite(points).all(axis=1))[0])
        x, y = points[bad]
        raise BadInput(
            "Vertex {row} of the outline has no place ({x}, {y}). Leave such vertices out.", row=bad, x=x, y=y
        )
    tolerance, sigma = spread.tolerance, spread.sigma
    if not 0.0 < tolerance < np.inf:
        raise BadInput("The tolerance of a fit is {tolerance} m. Give one above 0.", tolerance=tolerance)
    if sigma is not None and not 0.0 < sigma < np.inf:
        raise BadInput("The one-sigma of a vertex is {sigma} m. Give one above 0, or none.", sigma=sigma)


def _refuse_arcs(is_mid: Flags, order: Ints, *, closed: bool) -> None:
    after = np.roll(is_mid, -1)
    bad = np.flatnonzero(is_mid & after)
    if not closed:
        bad = np.concatenate([np.flatnonzero(is_mid[:1]), bad, np.flatnonzero(is_mid[-1:]) + len(is_mid) - 1])
    if len(bad):
        raise BadInput(
            "Vertex {row} of the outline is the middle of an arc, but has no end of it on both sides. Give arcs as "
            "start, middle, end.",
            row=int(order[bad[0]]),
        )


def _own_edges(given: _Given) -> list[OutlinePiece]:
    """Its edges as straights of their own, numbered along its own points."""
    points = np.vstack([given.points, given.points[:1]]) if given.closed else given.points
    return [straight_piece(points[i : i + 2], i, i + 1, given.sigma) for i in range(given.edges)]


def _fit_parts(given: _Given) -> Iterable[RunFit]:
    """The whole outline, part by part from one vertex that stays to the next; numbered along its own points."""
    n = len(given.points)
    anchors = find_anchors(given.points, given.is_mid, given.spread.tolerance, closed=given.closed).tolist()
    if len(anchors) == n:
        yield RunFit(_own_edges(given))
        return
    if not anchors:
        whole = _fit_whole(given)
        if isinstance(whole, RunFit):
            yield whole
            return
        anchors = whole
    if given.closed:
        anchors.append(anchors[0] + n)
    for first, last in zip(anchors[:-1], anchors[1:]):
        yield from _fit_part(given, first, last)


def _fit_whole(given: _Given) -> RunFit | list[int]:
    """A closed outline of which no vertex stays; or vertices that are to stay after all: the sharpest of a long one, those
    that corners lie beside."""
    if len(given.points) > LONG_RUN and find_stops(given.points, given.spread, 1):
        return [find_sharpest(given.points, 0, len(given.points))]
    fit = fit_run(given.points, given.spread, closed=True)
    return sorted(fit.corners) or fit


def _fit_part(given: _Given, first: int, last: int) -> Iterable[RunFit]:
    if last - first == 2 and given.is_mid[(first + 1) % len(given.points)]:
        yield RunFit([given_arc(given.path(first, last), (first, last))])
        return
    stops = _held(given, first, last)
    for one, other in zip(stops[:-1], stops[1:]):
        yield from _fit_between(given, one, other, AGAIN)


def _held(given: _Given, first: int, last: int) -> list[int]:
    """A run's ends, and where it is held between."""
    if last - first < LONG_RUN:
        return [first, last]
    most = 1 if given.spread.is_quick else MOST_PIECES
    return [first, *(first + k for k in find_stops(given.path(first, last), given.spread, most)), last]


def _fit_between(given: _Given, first: int, last: int, again: int) -> Iterable[RunFit]:
    """A run between two vertices that stay, and anew between its corners where these lie beside vertices."""
    path = given.path(first, last)
    fit = fit_run(path, given.spread)
    inner = sorted(set(fit.corners)) if again else []
    if not inner and again and not given.spread.is_quick and _is_undone(fit):
        # Pieces that do not come to rest together may each, with its ends held.
        inner, again = find_stops(path, given.spread, 1), 1
    if inner:
        stops = [first, *(first + k for k in inner), last]
        for one, other in zip(stops[:-1], stops[1:]):
            yield from _fit_between(given, one, other, again - 1)
        return
    moved = [replace(p, first=p.first + first, last=p.last + first) for p in fit.pieces]
    yield replace(fit, pieces=moved)


def _is_undone(fit: RunFit) -> bool:
    return any(p.kind is OutlineKind.AS_RECORDED and len(p.bulges) >= LEAST_RUN for p in fit.pieces)


def _state(fits: Sequence[RunFit], sigma: float | None) -> float:
    """One-sigma of a vertex: that given, unless what is left refutes it; then, or if none is given, that of what is
    left."""
    squares, free = sum(fit.squares for fit in fits), sum(fit.free for fit in fits)
    if sigma is not None and (free <= 0 or squares <= sigma**2 * most_squares(free)):
        return sigma
    return float(np.sqrt(squares / free)) if free > 0 else NONE


def _with_sigma(piece: OutlinePiece, sigma: float) -> OutlinePiece:
    if piece.kind is OutlineKind.STRAIGHT and np.isnan(piece.length_sigma):
        return piece if np.isnan(sigma) else replace(piece, length_sigma=sigma * 2.0**0.5)
    if piece.kind is not OutlineKind.ARC:
        return (
            piece if np.isnan(piece.length_sigma) else replace(piece, length_sigma=piece.length_sigma * sigma)
        )
    return replace(
        piece,
        radius_sigma=piece.radius_sigma * sigma,
        sweep_sigma=piece.sweep_sigma * sigma,
        length_sigma=piece.length_sigma * sigma,
    )


def _ragged(given: _Given, pieces: Sequence[OutlinePiece]) -> list[OutlinePiece]:
    """The pieces with many short edges in a row, which only corners part, as one stretch as recorded."""
    short = SHORT * given.spread.tolerance
    out: list[OutlinePiece] = []
    heap: list[OutlinePiece] = []
    for piece in (*pieces, None):
        if piece is not None and _is_edge(piece, short):
            heap.append(piece)
            continue
        if len(heap) > 1 and sum(len(one.bulges) for one in heap) >= RAGGED:
            path = np.vstack([heap[0].points[:1], *(one.points[1:] for one in heap)])
            heap = [recorded_piece(path, heap[0].first, heap[-1].last)]
        out += heap
        heap = []
        if piece is not None:
            out.append(piece)
    return out


def _is_edge(piece: OutlinePiece, short: float) -> bool:
    """Whether a piece is a short edge as it was given, or several as recorded."""
    if piece.kind is OutlineKind.AS_RECORDED:
        return True
    is_edge = piece.kind is OutlineKind.STRAIGHT and piece.last - piece.first == 1 and piece.largest == 0.0
    return is_edge and piece.length < short


def _numbered(piece: OutlinePiece, order: Ints) -> OutlinePiece:
    """A piece with its vertices numbered as they were given."""
    n = len(order)
    return replace(piece, first=int(order[piece.first % n]), last=int(order[piece.last % n]))
