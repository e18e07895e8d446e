# SPDX-License-Identifier: GPL-2.0-or-later
"""A run of straights and arcs fitted at once, tangent where it is told to be: least squares with constraints."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from ...quantity import Floats, Ints

ROUNDS = 40
"""Rounds of iteration at most; fits of the tests end within 15."""
STEP_END = 1e-9
"""Iteration ends at a step below this part of the shortest chord."""
MOST_TURN = 0.4
"""Radians of half sweep, and part of a chord, that one step may take."""
WIDEST = np.pi * (1.0 - 1e-6)
"""Radians of half sweep at most."""
AT_REST = 1e-8
"""Part of the sum of squares: iteration also ends where this little is left to gain (a joint that can slide)."""
DAMP = 1e-6
"""Part of the mean weight of a coordinate that holds vertices back: those that can slide along smooth pieces at
nearly no cost stay where they are, the others lose nothing."""
HALVINGS = 6
"""A step is halved so often at most where it makes things worse."""
DENSE = 1200
"""Unknowns and constraints up to which a system is solved dense."""


@dataclass(frozen=True, eq=False)
class Chain:
    """Pieces in a row and what they are held to.

    Attributes:
        vertices: (v, 2) metres; of a closed chain the first is not repeated.
        half: (k,) half sweep of each piece, radians, positive to the left; 0 and fixed for straights.
        is_arc: (k,) which pieces are arcs.
        is_tangent: (k,) whether a piece starts tangent to the one before it (the first: closed chains only).
        piece: (n,) the piece of each row, -1 for rows that count for none (those at held vertices).
        closed: whether the last piece ends at the first vertex.
        at: vertex -> row that is an observation of it in both directions (a stand at a corner).
        held: vertex -> row it is held to exactly.
        ends: vertex -> row beside which an open end lies, square to the piece.
    """

    vertices: Floats
    half: Floats
    is_arc: npt.NDArray[np.bool_]
    is_tangent: npt.NDArray[np.bool_]
    piece: Ints
    closed: bool
    at: tuple[tuple[int, int], ...] = ()
    held: tuple[tuple[int, int], ...] = ()
    ends: tuple[tuple[int, int], ...] = ()

    @cached_property
    def after(self) -> Ints:
        """(k,) the vertex at the end of each piece; piece j starts at vertex j."""
        return np.asarray((np.arange(len(self.half)) + 1) % len(self.vertices))

    @cached_property
    def slot(self) -> Ints:
        """(k,) number of each arc's half sweep among the unknowns (all vertices first), -1 for straights."""
        v = 2 * len(self.vertices)
        return np.where(self.is_arc, v + np.cumsum(self.is_arc) - 1, -1)

    @property
    def unknowns(self) -> int:
        """Coordinates of all vertices, then the half sweeps of the arcs."""
        return 2 * len(self.vertices) + int(self.is_arc.sum())


@dataclass(frozen=True, eq=False)
class ChainFit:
    """A fitted chain.

    Attributes:
        chain: with its vertices and half sweeps where they came to be.
        residual: (n,) distance of each row from its piece, positive to the left; NaN for rows of none.
        squares: their sum and that of the misses at observed vertices, m2.
        free: rows less unknowns and more constraints.
        cofactor: (p, p) covariance of the unknowns by the square of a row's one-sigma.
        settled: whether the iteration came to rest with all constraints kept.
    """

    chain: Chain
    residual: Floats
    squares: float
    free: int
    cofactor: Floats
    settled: bool


@dataclass(frozen=True, eq=False)
class _Rows:
    """Distances of the rows from their pieces and their changes by ax, ay, bx, by and half sweep (m, 5), and
    by the row's own place (m, 2)."""

    index: Ints
    residual: Floats
    by: Floats
    normal: Floats


def chord_angles(chain: Chain) -> tuple[Floats, Floats, Floats]:
    """(k, 2) chords, their lengths and their directions in radians."""
    chord = chain.vertices[chain.after] - chain.vertices[: len(chain.half)]
    return chord, np.hypot(chord[:, 0], chord[:, 1]), np.arctan2(chord[:, 1], chord[:, 0])


def measure_rows(points: Floats, chain: Chain) -> _Rows:
    """Signed distances of all rows that count. With the chord from -1 to 1, w the row there and half sweep a,
    N = sin a (|w|^2 - 1) - 2 cos a Im w and the distance is N/(1 + S) half chords, S = |sin a w - i cos a|
    (as in circle.fit_arc; here its ends are unknown too), positive on the outer side of a left turn; the sign is
    turned so that it is positive to the left."""
    index = np.flatnonzero(chain.piece >= 0)
    k = chain.piece[index]
    xy = chain.vertices[:, 0] + 1j * chain.vertices[:, 1]
    a, b = xy[k], xy[chain.after[k]]
    d = 0.5 * (b - a)
    size = np.maximum(np.abs(d), 1e-300)
    d = np.where(np.abs(d) > 0, d, 1e-300)
    w = (points[index, 0] + 1j * points[index, 1] - 0.5 * (a + b)) / d
    sin, cos = np.sin(chain.half[k]), np.cos(chain.half[k])
    away = sin * w - 1j * cos
    s = np.maximum(np.abs(away), 1e-300)
    square = np.abs(w) ** 2 - 1.0
    r = (sin * square - 2.0 * cos * w.imag) / (1.0 + s)
    r_half = (cos * square + 2.0 * sin * w.imag - r * r * cos) / (2.0 * s)
    r_w = away / s
    unit = d / size
    # Gradients as complex numbers g: the change is Re(conj(g) dw).
    by_a = (r_w * np.conj((w - 1.0) / (2.0 * d))) * size - 0.5 * r * unit
    by_b = (r_w * np.conj((-w - 1.0) / (2.0 * d))) * size + 0.5 * r * unit
    by_p = (r_w * np.conj(1.0 / d)) * size
    by = np.column_stack([by_a.real, by_a.imag, by_b.real, by_b.imag, r_half * size])
    return _Rows(index, -r * size, -by, -np.column_stack([by_p.real, by_p.imag]))


def _columns(chain: Chain, k: Ints) -> Ints:
    """(m, 5) the unknowns that the rows of pieces k move with; -1 for the half sweep of a straight."""
    a, b = 2 * k, 2 * chain.after[k]
    return np.column_stack([a, a + 1, b, b + 1, chain.slot[k]])


def _observed(points: Floats, chain: Chain) -> tuple[Floats, Floats, list[tuple[int, Floats]]]:
    """Rows that observe vertices: misses (m,), design (m, p), and for each the row and minus its direction."""
    miss, design, told = [], [], []
    _, _, angle = chord_angles(chain)
    last = len(chain.half) - 1
    for vertex, row in (*chain.at, *chain.ends):
        is_end = (vertex, row) in chain.ends
        turn = angle[0] - chain.half[0] if vertex == 0 else angle[last] + chain.half[last]
        axes = (
            [np.array([np.cos(turn), np.sin(turn)])] if is_end else [np.array([1.0, 0]), np.array([0, 1.0])]
        )
        for axis in axes:
            line = np.zeros(chain.unknowns)
            line[2 * vertex : 2 * vertex + 2] = axis
            miss.append(float(axis @ (chain.vertices[vertex] - points[row])))
            design.append(line)
            told.append((row, -axis))
    return np.array(miss), np.array(design).reshape(-1, chain.unknowns), told


def _constraints(points: Floats, chain: Chain) -> tuple[Floats, Floats, list[tuple[int, Floats]]]:
    """What must be nothing: turns at tangent joints (radians) and misses of held vertices (metres); their
    change by the unknowns, and by held rows."""
    chord, length, angle = chord_angles(chain)
    value, by, told = [], [], []
    across = np.column_stack([-chord[:, 1], chord[:, 0]]) / np.maximum(length, 1e-300)[:, None] ** 2
    for j in np.flatnonzero(chain.is_tangent):
        i = j - 1
        turn = angle[j] - chain.half[j] - angle[i] - chain.half[i]
        line = np.zeros(chain.unknowns)
        for piece, sign in ((j, 1.0), (i, -1.0)):
            start, end = 2 * (piece % len(chain.half)), 2 * chain.after[piece]
            line[end : end + 2] += sign * across[piece]
            line[start : start + 2] -= sign * across[piece]
            if chain.is_arc[piece]:
                line[chain.slot[piece]] -= 1.0
        value.append(float(np.angle(np.exp(1j * turn))))
        by.append(line)
        told.append((-1, np.zeros(2)))
    for vertex, row in chain.held:
        for axis in np.eye(2):
            line = np.zeros(chain.unknowns)
            line[2 * vertex : 2 * vertex + 2] = axis
            value.append(float(axis @ (chain.vertices[vertex] - points[row])))
            by.append(line)
            told.append((row, -axis))
    return np.array(value), np.array(by).reshape(-1, chain.unknowns), told


def _normal(chain: Chain, rows: _Rows, p: int) -> tuple[Floats, Floats]:
    """Normal matrix and right side of the rows, gathered piece by piece (5 x 5 each)."""
    k = chain.piece[rows.index]
    pieces = len(chain.half)
    block, side = np.zeros((pieces, 5, 5)), np.zeros((pieces, 5))
    for one in range(5):
        side[:, one] = np.bincount(k, rows.by[:, one] * rows.residual, pieces)
        for other in range(5):
            block[:, one, other] = np.bincount(k, rows.by[:, one] * rows.by[:, other], pieces)
    columns = _columns(chain, np.arange(pieces))
    matrix, right = np.zeros((p + 1, p + 1)), np.zeros(p + 1)
    np.add.at(matrix, (columns[:, :, None], columns[:, None, :]), block)
    np.add.at(right, columns, side)
    return matrix[:p, :p], right[:p]


def _system(points: Floats, chain: Chain) -> tuple[Floats, Floats, _Rows, Floats]:
    """Matrix with constraints bordering it, right side, the rows, and the misses at observed vertices."""
    rows = measure_rows(points, chain)
    p = chain.unknowns
    normal, right = _normal(chain, rows, p)
    miss, design, _ = _observed(points, chain)
    value, by, _ = _constraints(points, chain)
    c = len(value)
    whole = np.zeros((p + c, p + c))
    whole[:p, :p] = normal + design.T @ design
    whole[p:, :p], whole[:p, p:] = by, by.T
    return whole, -np.concatenate([right + design.T @ miss, value]), rows, miss


def _solve(matrix: Floats, right: Floats) -> Floats:
    if len(matrix) <= DENSE:
        try:
            return np.asarray(np.linalg.solve(matrix, right))
        except np.linalg.LinAlgError:
            return np.asarray(np.linalg.lstsq(matrix, right, rcond=None)[0])
    from scipy.sparse import csc_matrix
    from scipy.sparse.linalg import splu

    return np.asarray(splu(csc_matrix(matrix)).solve(right))


def _moved(chain: Chain, step: Floats) -> Chain:
    v = len(chain.vertices)
    half = chain.half.copy()
    half[chain.is_arc] = np.clip(half[chain.is_arc] + step[2 * v :], -WIDEST, WIDEST)
    return replace(chain, vertices=chain.vertices + step[: 2 * v].reshape(v, 2), half=half)


def _merit(points: Floats, chain: Chain) -> float:
    """Sum of squares with broken constraints counted as misses (a turn as that of the chord's end)."""
    rows = measure_rows(points, chain).residual
    miss = _observed(points, chain)[0]
    value = _constraints(points, chain)[0]
    broken = value * np.median(chord_angles(chain)[1])
    return float(rows @ rows + miss @ miss + 10.0 * (broken @ broken))


def fit_chain(points: Floats, chain: Chain) -> ChainFit:
    """The chain that lies nearest to its rows by the sum of squared distances, with its constraints kept.

    Gauss and Newton with Lagrange's multipliers; a step that makes things worse is halved.

    Args:
        points: (n, 2) rows, metres, near the origin.
        chain: pieces, roughly where they belong.
    """
    p = chain.unknowns
    merit, settled = _merit(points, chain), False
    for _ in range(ROUNDS):
        matrix, right, _, _ = _system(points, chain)
        v = 2 * len(chain.vertices)
        matrix[np.arange(v), np.arange(v)] += DAMP * np.trace(matrix[:v, :v]) / v
        step = _solve(matrix, right)[:p]
        least = float(chord_angles(chain)[1].min())
        size = max(np.abs(step[:v]).max() / max(least, 1e-300), np.abs(step[v:]).max(initial=0.0))
        part = min(1.0, MOST_TURN / size) if size > 0 else 1.0
        for _ in range(HALVINGS):
            trial = _moved(chain, part * step)
            new = _merit(points, trial)
            if new <= merit * (1.0 + 1e-6) + 1e-300:
                break
            part *= 0.5
        gain, chain, merit = merit - new, trial, new
        if not np.isfinite(merit):
            break
        if part * size < STEP_END or 0.0 <= gain < AT_REST * merit:
            settled = True
            break
    return _finished(points, chain, settled=settled)


def _finished(points: Floats, chain: Chain, *, settled: bool) -> ChainFit:
    matrix, right, rows, miss = _system(points, chain)
    p = chain.unknowns
    try:
        inverse = np.linalg.inv(matrix)
    except np.linalg.LinAlgError:
        inverse, settled = np.full_like(matrix, np.nan), False
    residual = np.full(len(points), np.nan)
    residual[rows.index] = rows.residual
    broken = np.abs(right[p:]).max(initial=0.0)
    settled = settled and bool(np.isfinite(inverse).all()) and broken < 1e-6
    squares = float(rows.residual @ rows.residual + miss @ miss)
    free = len(rows.residual) + len(miss) - p + len(right) - p
    return ChainFit(chain, residual, squares, free, inverse[:p, :p], settled)


def by_points(points: Floats, chain: Chain) -> Floats:
    """(p, n, 2) change of each unknown by metre of each row, to first order (the residuals' curvature is left
    out, as in Gauss and Newton's step).

    Every row of p unknowns and n points is held: for some thousand rows, not for 1e5.
    """
    matrix, _, rows, _ = _system(points, chain)
    p, n = chain.unknowns, len(points)
    inverse = np.linalg.inv(matrix)
    columns = _columns(chain, chain.piece[rows.index])
    padded = np.concatenate([inverse[:p], np.zeros((p, 1))], axis=1)
    weight = np.einsum("pmc,mc->pm", padded[:, columns], rows.by)
    out = np.zeros((p, n, 2))
    out[:, rows.index] = -weight[:, :, None] * rows.normal
    _, design, told = _observed(points, chain)
    for line, (row, axis) in zip(design, told):
        out[:, row] -= (inverse[:p, :p] @ line)[:, None] * axis
    for c, (row, axis) in enumerate(_constraints(points, chain)[2]):
        if row >= 0:
            out[:, row] -= inverse[:p, p + c][:, None] * axis
    return out
