# SPDX-License-Identifier: GPL-2.0-or-later
"""One run of an outline's vertices, between two that stay, as straights and arcs that lie within the tolerance of it,
and it of them."""

from __future__ import annotations

import numpy as np

from ...errors import TooFewPoints
from ...quantity import Floats
from .divide import Rows, cut_sections
from .outline_pieces import OutlinePiece, straight_piece
from .outline_reader import (
    NOISE,
    Dense,
    RunFit,
    Spread,
    as_recorded,
    measure_scatter,
    read_run,
    with_distances,
)
from .pieces import PieceKind, fit_drawn

LEAST_RUN = 6
"""Vertices of a run that is fitted: of fewer, nothing is made that is not there."""
DENSE = 1.8
"""Times the median edge of a run beyond which an edge is given vertices of its own: a long edge tells that it is
straight."""
MOST_ADDED = 4
"""Times as many vertices as the run has that are added at most."""


def fit_run(points: Floats, spread: Spread, *, closed: bool = False) -> RunFit:
    """Fit a run of vertices; an open one starts and ends exactly at its own.

    Args:
        points: (m, 2) metres.
        spread: what they may be off by.
        closed: whether they are a whole outline.
    """
    m = len(points)
    if m < LEAST_RUN:
        return RunFit(_own_edges(points, closed=closed))
    if not closed and _is_line(points, NOISE * spread.tolerance):
        return _one_straight(points)
    dense = _densify(points, closed=closed)
    try:
        run = fit_drawn(dense.points, spread.noise, closed=closed, is_quick=spread.is_quick)
    except TooFewPoints:
        return RunFit(_own_edges(points, closed=closed))
    if not run.is_smooth:
        return RunFit(as_recorded(points, closed=closed))
    return read_run(dense, run, spread)


def find_stops(points: Floats, spread: Spread, most: int) -> list[int]:
    """The vertices (m, 2 metres) at which a run is held, so that no more than `most` pieces are fitted at once."""
    middle = points.mean(axis=0)
    cuts = cut_sections(Rows(points - middle, (), closed=False, is_held=True), spread.noise)
    return [cut.first for cut in cuts[most::most] if 0 < cut.first < len(points) - 1]


def _own_edges(points: Floats, *, closed: bool) -> list[OutlinePiece]:
    m = len(points)
    ring = np.vstack([points, points[:1]]) if closed else points
    return [
        straight_piece(ring[i : i + 2], i, (i + 1) % m if closed else i + 1) for i in range(len(ring) - 1)
    ]


def _is_line(points: Floats, within: float) -> bool:
    """Whether all points lie beside the straight from the first to the last, and go along it."""
    chord = points[-1] - points[0]
    length = float(np.hypot(*chord))
    if length <= within:
        return False
    away = points - points[0]
    off = (chord[0] * away[:, 1] - chord[1] * away[:, 0]) / length
    along = away @ chord / length
    goes_on = np.diff(along).min() >= -within and along.min() >= -within and along.max() <= length + within
    return bool(np.abs(off).max() <= within and goes_on)


def _one_straight(points: Floats) -> RunFit:
    piece = straight_piece(points[[0, -1]], 0, len(points) - 1)
    squares, free = measure_scatter(points, PieceKind.STRAIGHT)
    return RunFit([with_distances(piece, points)], (), squares, free)


def _densify(points: Floats, *, closed: bool) -> Dense:
    ring = np.vstack([points, points[:1]]) if closed else points
    length = np.hypot(*np.diff(ring, axis=0).T)
    step = float(np.median(length))
    parts = np.where(length > DENSE * step, np.ceil(length / max(step, 1e-300)), 1.0)
    room = MOST_ADDED * len(points)
    if parts.sum() - len(parts) > room:
        parts = np.maximum(1.0, np.floor(parts * room / parts.sum()))
    count = parts.astype(np.int64)
    edge = np.repeat(np.arange(len(length)), count)
    share = (np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count)) / np.repeat(count, count)
    dense = ring[edge] + share[:, None] * np.diff(ring, axis=0)[edge]
    at = edge + share
    if not closed:
        dense, at = np.vstack([dense, ring[-1:]]), np.append(at, len(ring) - 1.0)
    return Dense(dense, at, points)
