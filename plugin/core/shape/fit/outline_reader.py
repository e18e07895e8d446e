# SPDX-License-Identifier: GPL-2.0-or-later
"""A fitted run of an outline's vertices read as pieces that lie within the tolerance of it, and it of them."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ...quantity import Floats, Ints
from .cuts import Cut
from .fitted import FittedPiece, FittedRun
from .joints import fit_alone
from .outline_check import lies_within
from .outline_pieces import (
    NONE,
    OutlineKind,
    OutlinePiece,
    arc_piece,
    circle_piece,
    recorded_piece,
    straight_piece,
)
from .pieces import Noise, PieceKind

NOISE = 0.2
"""Part of the tolerance that vertices are taken to err by, one sigma, for the fewest pieces within it; what lies well
within the tolerance is no shape of its own. Vertices off a straight by no more than this are one."""
FEW_EDGES = 3
"""Edges of a stretch that nothing fits up to which they are straights of their own."""
SAME = 1e-6
"""Part of the tolerance within which a fitted vertex is the given one; a corner farther off, up to the noise, is fitted
anew with that vertex held."""


@dataclass(frozen=True, eq=False)
class Spread:
    """What vertices may be off by, metres: the tolerance, and one sigma if it was given; and whether there are so many
    that pieces are left as first divided."""

    tolerance: float
    sigma: float | None
    is_quick: bool = False

    @property
    def noise(self) -> Noise:
        """What pieces are told apart with."""
        return Noise(max(self.sigma or 0.0, NOISE * self.tolerance), self.tolerance)


@dataclass(frozen=True, eq=False)
class RunFit:
    """A run fitted: its pieces (vertices numbered within the run, sigmas by metre of a vertex's own), the vertices that
    lie beside its corners, and squares and degrees of freedom of the vertices about their own pieces,
    each alone."""

    pieces: list[OutlinePiece]
    corners: tuple[int, ...] = ()
    squares: float = 0.0
    free: int = 0


@dataclass(frozen=True, eq=False)
class Dense:
    """The vertices of a run with those that its long edges were given; `at` (m,) the number of each dense vertex among
    those of the run, with a fraction between two."""

    points: Floats
    at: Floats
    given: Floats


def read_run(dense: Dense, run: FittedRun, spread: Spread) -> RunFit:
    """All pieces of a fitted run, those that lie too far off as recorded, and joints too far off as the edge that was
    recorded there."""
    reading = _Reading(dense, run, spread)
    found = [_piece(reading, piece) for piece in run.pieces]
    smooth = [piece for piece in run.pieces if piece.kind is not PieceKind.AS_WALKED]
    scatter = [measure_scatter(dense.given[_rows(reading, piece)], piece.kind) for piece in smooth]
    squares, free = sum(one for one, _ in scatter), sum(other for _, other in scatter)
    pieces = _joined(reading, found)
    if not all(_is_near(reading, piece) for piece in pieces):
        return RunFit(as_recorded(dense.given, closed=run.closed))
    return RunFit(pieces, tuple(_corners(reading)), squares, free)


def as_recorded(points: Floats, *, closed: bool) -> list[OutlinePiece]:
    """All vertices (m, 2) of a run as they are."""
    ring = np.vstack([points, points[:1]]) if closed else points
    return [recorded_piece(ring, 0, 0 if closed else len(points) - 1)]


def _is_near(reading: _Reading, piece: OutlinePiece) -> bool:
    given = reading.dense.given
    m = len(given)
    if piece.first == piece.last and len(piece.bulges) > 1:
        return True
    rows = piece.first + np.arange((piece.last - piece.first) % m + 1)
    around = np.concatenate([rows[:1] - 1, rows, rows[-1:] + 1])
    around = around % m if reading.run.closed else np.unique(np.clip(around, 0, m - 1))
    tolerance = reading.spread.tolerance
    return lies_within(piece, given[rows % m], given[around], tolerance)


@dataclass(frozen=True, eq=False)
class _Reading:
    dense: Dense
    run: FittedRun
    spread: Spread

    @property
    def unit(self) -> float:
        """What the run's sigmas are multiples of, metres."""
        return self.run.sigma if self.run.sigma > 0.0 else NONE


def _rows(reading: _Reading, piece: FittedPiece) -> Ints:
    """The vertices of the run that are a piece's own."""
    m = len(reading.dense.at)
    more = (piece.last - piece.first) % m
    at = reading.dense.at[(piece.first + np.arange(more + 1)) % m]
    return np.asarray(at[at == np.floor(at)].astype(np.int64))


def _ends(reading: _Reading, piece: FittedPiece) -> tuple[int, int]:
    """A piece's first and last vertex; of one along one edge the ends of that."""
    rows = _rows(reading, piece)
    if len(rows) > 1:
        return int(rows[0]), int(rows[-1])
    first, last = reading.dense.at[piece.first], reading.dense.at[piece.last]
    return int(first), int(np.ceil(last)) % len(reading.dense.given)


def _piece(reading: _Reading, piece: FittedPiece) -> OutlinePiece:
    if piece.kind is PieceKind.AS_WALKED:
        return _recorded(reading, piece)
    own = with_distances(_drawn(reading, piece), reading.dense.given[_rows(reading, piece)])
    if max(own.largest, own.largest_middle) > reading.spread.tolerance:
        return _recorded(reading, piece)
    return own


def _drawn(reading: _Reading, piece: FittedPiece) -> OutlinePiece:
    """A straight or an arc, its sigmas by metre of a vertex's own."""
    start, end = _vertex(reading, piece.start), _vertex(reading, piece.end)
    ends = _ends(reading, piece)
    if piece.kind is PieceKind.STRAIGHT:
        own = straight_piece(np.stack([start, end]), *ends)
    elif piece.edges == 1:
        own = arc_piece(OutlineKind.ARC, start, end, piece.sweep, ends)
    else:
        centre = 0.5 * (reading.run.points[piece.edge] + reading.run.points[piece.edge + 1])
        own = circle_piece(OutlineKind.ARC, piece.start, centre, float(np.sign(piece.sweep)), ends)
    unit = reading.unit
    return replace(
        own,
        radius_sigma=piece.radius_sigma / unit,
        sweep_sigma=piece.sweep_sigma / unit,
        length_sigma=piece.length_sigma / unit,
    )


def _vertex(reading: _Reading, place: Floats) -> Floats:
    """A fitted vertex, or the given one that it is."""
    given = reading.dense.given
    away = np.hypot(*(given - place).T)
    near = int(np.argmin(away))
    return given[near] if away[near] <= SAME * reading.spread.tolerance else place


def _recorded(reading: _Reading, piece: FittedPiece) -> OutlinePiece:
    run, rows, v = reading.run, _rows(reading, piece), len(reading.run.points)
    start, end = run.points[piece.edge % v], run.points[(piece.edge + piece.edges) % v]
    path = np.vstack([start[None], reading.dense.given[rows], end[None]])
    is_new = np.append(True, np.hypot(*np.diff(path, axis=0).T) > SAME * reading.spread.tolerance)
    path = path[is_new] if is_new.sum() > 1 else path[[0, -1]]
    # The ends are those of the neighbours to the last bit.
    path[0], path[-1] = _vertex(reading, start), _vertex(reading, end)
    ends = (int(rows[0]), int(rows[-1])) if len(rows) else _ends(reading, piece)
    return recorded_piece(path, *ends)


def _corners(reading: _Reading) -> list[int]:
    """Given vertices beside which two pieces meet at a corner, but not on them."""
    out = []
    run, given, tolerance = reading.run, reading.dense.given, reading.spread.tolerance
    for k, piece in enumerate(run.pieces):
        is_inner = k > 0 or (run.closed and len(run.pieces) > 1)
        kinds = (piece.kind, run.pieces[k - 1].kind)
        if not is_inner or piece.starts_tangent or PieceKind.AS_WALKED in kinds:
            continue
        away = np.hypot(*(given - piece.start).T)
        near = int(np.argmin(away))
        if SAME * tolerance < away[near] <= NOISE * tolerance:
            out.append(near)
    return out if run.closed else [k for k in out if 0 < k < len(given) - 1]


def _joined(reading: _Reading, found: list[OutlinePiece]) -> list[OutlinePiece]:
    """The pieces with an edge of its own between two whose joint lies off the edge that was recorded there by more
    than the tolerance."""
    out = [part for piece in found for part in _few_edges(piece)]
    cut = []
    for j in range(0 if reading.run.closed and len(out) > 1 else 1, len(out)):
        a, b = out[j - 1], out[j]
        if OutlineKind.AS_RECORDED in (a.kind, b.kind) or len(a.bulges) > 1 or len(b.bulges) > 1:
            continue
        edge = reading.dense.given[[a.last, b.first]]
        if _off_edge(b.start, edge) > reading.spread.tolerance:
            cut.append((j, _foot(a, edge[0]), _foot(b, edge[1])))
    for j, one, other in cut:
        out[j - 1], out[j] = _trimmed(out[j - 1], end=one), _trimmed(out[j], start=other)
    for j, one, other in reversed(cut):
        between = straight_piece(np.stack([one, other]), out[j - 1].last, out[j].first)
        out.insert(j if j else len(out), between)
    return out


def _few_edges(piece: OutlinePiece) -> list[OutlinePiece]:
    """A stretch as recorded of few edges as straights of its own."""
    if piece.kind is not OutlineKind.AS_RECORDED or len(piece.bulges) > FEW_EDGES:
        return [piece]
    p = piece.points
    return [straight_piece(p[i : i + 2], piece.first, piece.last) for i in range(len(p) - 1)]


def distances(piece: OutlinePiece, points: Floats) -> Floats:
    """(n,) from the straight or the circle that a piece lies on, metres."""
    if piece.is_arc:
        away = points - piece.centre
        return np.asarray(np.hypot(away[:, 0], away[:, 1]) - piece.radius)
    chord = piece.end - piece.start
    away = points - piece.start
    return np.asarray((chord[0] * away[:, 1] - chord[1] * away[:, 0]) / max(float(np.hypot(*chord)), 1e-300))


def _off_edge(place: Floats, edge: Floats) -> float:
    chord, away = edge[1] - edge[0], place - edge[0]
    part = min(max(float(away @ chord) / max(float(chord @ chord), 1e-300), 0.0), 1.0)
    return float(np.hypot(*(away - part * chord)))


def _foot(piece: OutlinePiece, place: Floats) -> Floats:
    """The point of the straight or circle of a piece that lies nearest."""
    if piece.is_arc:
        away = place - piece.centre
        return np.asarray(piece.centre + piece.radius * away / max(float(np.hypot(*away)), 1e-300))
    chord = piece.end - piece.start
    part = float((place - piece.start) @ chord) / max(float(chord @ chord), 1e-300)
    return np.asarray(piece.start + part * chord)


def _trimmed(piece: OutlinePiece, *, start: Floats | None = None, end: Floats | None = None) -> OutlinePiece:
    """A piece that starts or ends elsewhere on its straight or circle."""
    a, b = piece.start if start is None else start, piece.end if end is None else end
    ends = (piece.first, piece.last)
    if not piece.is_arc:
        new = straight_piece(np.stack([a, b]), *ends)
    else:
        spokes = np.stack([piece.start, piece.end, a, b]) - piece.centre
        angle = np.arctan2(spokes[:, 1], spokes[:, 0])
        more = np.angle(np.exp(1j * (angle[3] - angle[1]))) - np.angle(np.exp(1j * (angle[2] - angle[0])))
        new = arc_piece(piece.kind, a, b, piece.sweep + float(more), ends)
    return replace(
        new,
        rms=piece.rms,
        largest=piece.largest,
        largest_middle=piece.largest_middle,
        radius_sigma=piece.radius_sigma,
        sweep_sigma=piece.sweep_sigma,
        length_sigma=piece.length_sigma,
    )


def with_distances(piece: OutlinePiece, points: Floats) -> OutlinePiece:
    """A piece with how far its own vertices, and the middles of the chords between them, lie off it."""
    off, off_middles = distances(piece, points), distances(piece, 0.5 * (points[1:] + points[:-1]))
    return replace(piece, rms=_root(off), largest=_far(off), largest_middle=_far(off_middles))


def measure_scatter(points: Floats, kind: PieceKind) -> tuple[float, int]:
    """Sum of squares of vertices about their own piece, which nothing holds, and its degrees of freedom."""
    free = len(points) - (3 if kind is PieceKind.ARC else 2)
    if free < 1:
        return 0.0, 0
    residual = fit_alone(points, Cut(kind, 0, len(points) - 1)).residual
    return float(residual @ residual), free


def _root(off: Floats) -> float:
    return float(np.sqrt((off**2).mean())) if len(off) else 0.0


def _far(off: Floats) -> float:
    return float(np.abs(off).max(initial=0.0))
