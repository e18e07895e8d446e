# SPDX-License-Identifier: GPL-2.0-or-later
"""A run of straights and arcs fitted at once, tangent where it is told to be: least squares with constraints."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from ...quantity import Floats, Ints
from .symmetric import invert_symmetric, solve_symmetric

Complexes = npt.NDArray[np.complex128]

ROUNDS = 15
"""Rounds of iteration at most; fits that come to rest do within 12."""
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
        points: (n, 2) the rows.
        settled: whether the iteration came to rest with all constraints kept.
    """

    chain: Chain
    residual: Floats
    squares: float
    free: int
    points: Floats
    settled: bool

    @cached_property
    def cofactor(self) -> Floats:
        """(p, p) covariance of the unknowns by the square of a row's one-sigma, the rows that vertices are held to
        included; NaN where nothing holds them."""
        plan = _plan(self.points, self.chain)
        p = self.chain.unknowns
        matrix = _system(self.chain, plan, _measure(self.points, self.chain, plan))[0]
        inverse = invert_symmetric(matrix)
        by_held = inverse[:p, p + len(plan.joint) :]
        return np.asarray(inverse[:p, :p] + by_held @ by_held.T)


def chord_angles(chain: Chain) -> tuple[Floats, Floats, Floats]:
    """(k, 2) chords, their lengths and their directions in radians."""
    chord = chain.vertices[chain.after] - chain.vertices[: len(chain.half)]
    return chord, np.hypot(chord[:, 0], chord[:, 1]), np.arctan2(chord[:, 1], chord[:, 0])


@dataclass(frozen=True, eq=False)
class _Plan:
    """What of a chain does not change while its vertices and half sweeps move, reckoned once a fit.

    Attributes:
        index: (m,) the rows that count, and k (m,) the piece of each, ascending; place (m,) them as complex numbers.
        begin: (k,) the first of each piece's rows among these; has: (k,) whether it has any.
        columns: (k, 5) the unknowns of each piece: a vertex (x, y) at either end, and the half sweep.
        normal: (25 k,) where its products go in the normal matrix; of p + 1 unknowns, the last one for what is none.
        joint: (c,) pieces that start tangent; turn: (10 c,) where their changes go in the (c, p + 1) constraints.
    """

    index: Ints
    k: Ints
    place: Complexes
    begin: Ints
    has: npt.NDArray[np.bool_]
    columns: Ints
    normal: Ints
    joint: Ints
    turn: Ints


def _plan(points: Floats, chain: Chain) -> _Plan:
    p, pieces = chain.unknowns, len(chain.half)
    index = np.flatnonzero(chain.piece >= 0)
    k = chain.piece[index]
    place = points[index, 0] + 1j * points[index, 1]
    begin = np.searchsorted(k, np.arange(pieces))
    has = np.append(begin[1:], len(k)) > begin
    one = np.arange(pieces)
    a, b = 2 * one, 2 * chain.after
    slot = np.where(chain.is_arc, chain.slot, p)
    columns = np.column_stack([a, a + 1, b, b + 1, slot])
    normal = (columns[:, :, None] * (p + 1) + columns[:, None, :]).ravel()
    joint = np.flatnonzero(chain.is_tangent)
    into = np.concatenate([columns[joint], columns[joint - 1]], axis=1)
    turn = (np.arange(len(joint))[:, None] * (p + 1) + into).ravel()
    return _Plan(index, k, place, begin, has, columns, normal, joint, turn)


@dataclass(frozen=True, eq=False)
class _State:
    """A chain where it stands: distances of the rows from their pieces (positive to the left), their changes by ax,
    ay, bx, by and half sweep (m, 5) and by the row's own place (m,) as complex numbers; misses at observed vertices
    and their design; what must be nothing; chords."""

    chain: Chain
    residual: Floats
    by: Floats
    normal: Complexes
    miss: Floats
    design: Floats
    value: Floats
    chord: Floats
    length: Floats

    @property
    def squares(self) -> float:
        """Of the distances and the misses, m2."""
        return float(self.residual @ self.residual + self.miss @ self.miss)

    @property
    def merit(self) -> float:
        """Sum of squares with broken constraints counted as misses (a turn as that of the chord's end)."""
        broken = self.value * float(self.length.mean())
        return self.squares + 10.0 * float(broken @ broken)


def _measure(points: Floats, chain: Chain, plan: _Plan) -> _State:
    """Signed distances of all rows that count. With the chord from -1 to 1, w the row there and half sweep a,
    N = sin a (|w|^2 - 1) - 2 cos a Im w and the distance is N/(1 + S) half chords, S = |sin a w - i cos a|
    (as in circle.fit_arc; here its ends are unknown too), positive on the outer side of a left turn; the sign is
    turned so that it is positive to the left."""
    chord, length, angle = chord_angles(chain)
    k = plan.k
    half_chord = 0.5 * (chord[:, 0] + 1j * chord[:, 1])
    half_chord[np.abs(half_chord) < 1e-100] = 1e-100
    xy = chain.vertices[:, 0] + 1j * chain.vertices[:, 1]
    middle = 0.5 * (xy[: len(chord)] + xy[chain.after])
    d, size = half_chord[k], np.maximum(0.5 * length, 1e-100)[k]
    w = (plan.place - middle[k]) / d
    sin, cos = np.sin(chain.half)[k], np.cos(chain.half)[k]
    away = sin * w - 1j * cos
    s = np.maximum(np.abs(away), 1e-300)
    square = w.real**2 + w.imag**2 - 1.0
    r = (sin * square - 2.0 * cos * w.imag) / (1.0 + s)
    r_half = (cos * square + 2.0 * sin * w.imag - r * r * cos) / (2.0 * s)
    # Gradients as complex numbers g: the change is Re(conj(g) dw).
    unit = d / size
    pull = away / s * unit
    stretch = 0.5 * r * unit
    by_a = 0.5 * pull * np.conj(w - 1.0) - stretch
    by_b = -0.5 * pull * np.conj(w + 1.0) + stretch
    by = np.empty((len(k), 5))
    by[:, 0], by[:, 1], by[:, 2], by[:, 3] = -by_a.real, -by_a.imag, -by_b.real, -by_b.imag
    by[:, 4] = -r_half * size
    miss, design = _observed(points, chain, angle)
    value = _values(points, chain, plan, angle)
    return _State(chain, -r * size, by, -pull, miss, design, value, chord, length)


def _observed(points: Floats, chain: Chain, angle: Floats) -> tuple[Floats, Floats]:
    """Rows that observe vertices: misses (m,) and design (m, p)."""
    told = _tell_observed(chain, angle)
    design = np.zeros((len(told), chain.unknowns))
    miss = np.empty(len(told))
    for i, (vertex, row, axis) in enumerate(told):
        design[i, 2 * vertex : 2 * vertex + 2] = axis
        miss[i] = axis @ (chain.vertices[vertex] - points[row])
    return miss, design


def _tell_observed(chain: Chain, angle: Floats) -> list[tuple[int, int, Floats]]:
    """Vertex, row and direction of each observation."""
    told = [(vertex, row, axis) for vertex, row in chain.at for axis in np.eye(2)]
    for vertex, row in chain.ends:
        turn = angle[0] - chain.half[0] if vertex == 0 else angle[-1] + chain.half[-1]
        told.append((vertex, row, np.array([np.cos(turn), np.sin(turn)])))
    return told


def _values(points: Floats, chain: Chain, plan: _Plan, angle: Floats) -> Floats:
    """What must be nothing: turns at tangent joints (radians), then misses of held vertices (metres)."""
    j = plan.joint
    turn = angle[j] - chain.half[j] - angle[j - 1] - chain.half[j - 1]
    turn = (turn + np.pi) % (2.0 * np.pi) - np.pi
    held = [chain.vertices[vertex] - points[row] for vertex, row in chain.held]
    return np.concatenate([turn, *held])


def _turns_by(chain: Chain, plan: _Plan, state: _State) -> Floats:
    """(c, p) change of what must be nothing by the unknowns."""
    p, c, j = chain.unknowns, len(plan.joint), plan.joint
    across = np.column_stack([-state.chord[:, 1], state.chord[:, 0]])
    across /= np.maximum(state.length**2, 1e-300)[:, None]
    one = np.full((c, 1), -1.0)
    changes = np.concatenate([-across[j], across[j], one, across[j - 1], -across[j - 1], one], axis=1)
    out = np.zeros((c + 2 * len(chain.held), p))
    if c:
        out[:c] = np.bincount(plan.turn, changes.ravel(), c * (p + 1)).reshape(c, p + 1)[:, :p]
    for i, (vertex, _) in enumerate(chain.held):
        out[c + 2 * i, 2 * vertex] = out[c + 2 * i + 1, 2 * vertex + 1] = 1.0
    return out


def _system(chain: Chain, plan: _Plan, state: _State) -> tuple[Floats, Floats]:
    """Normal matrix bordered by the constraints, and right side; gathered piece by piece (5 x 5 each)."""
    p, c = chain.unknowns, len(state.value)
    products = np.empty((len(plan.k) + 1, 30))
    products[-1] = 0.0
    products[:-1, :25] = (state.by[:, :, None] * state.by[:, None, :]).reshape(-1, 25)
    products[:-1, 25:] = state.by * state.residual[:, None]
    block = np.add.reduceat(products, plan.begin, axis=0) * plan.has[:, None]
    normal = np.bincount(plan.normal, block[:, :25].ravel(), (p + 1) ** 2).reshape(p + 1, p + 1)
    right = np.bincount(plan.columns.ravel(), block[:, 25:].ravel(), p + 1)
    by = _turns_by(chain, plan, state)
    whole = np.zeros((p + c, p + c))
    whole[:p, :p] = normal[:p, :p] + state.design.T @ state.design
    whole[p:, :p], whole[:p, p:] = by, by.T
    return whole, -np.concatenate([right[:p] + state.design.T @ state.miss, state.value])


def _moved(chain: Chain, step: Floats) -> Chain:
    v = len(chain.vertices)
    half = chain.half.copy()
    half[chain.is_arc] = np.clip(half[chain.is_arc] + step[2 * v :], -WIDEST, WIDEST)
    return replace(chain, vertices=chain.vertices + step[: 2 * v].reshape(v, 2), half=half)


def fit_chain(points: Floats, chain: Chain, *, rest: float = AT_REST) -> ChainFit:
    """The chain that lies nearest to its rows by the sum of squared distances, with its constraints kept.

    Gauss and Newton with Lagrange's multipliers; a step that makes things worse is halved.

    Args:
        points: (n, 2) rows, metres, near the origin.
        chain: pieces, roughly where they belong.
        rest: part of the sum of squares; iteration ends where this little is left to gain.
    """
    plan = _plan(points, chain)
    v = 2 * len(chain.vertices)
    state, settled = _measure(points, chain, plan), False
    for _ in range(ROUNDS):
        matrix, right = _system(state.chain, plan, state)
        matrix[np.arange(v), np.arange(v)] += DAMP * np.trace(matrix[:v, :v]) / v
        step = solve_symmetric(matrix, right)[: chain.unknowns]
        if not np.isfinite(step).all():
            break
        least = float(state.length.min())
        size = max(np.abs(step[:v]).max() / max(least, 1e-300), np.abs(step[v:]).max(initial=0.0))
        part = min(1.0, MOST_TURN / size) if size > 0 else 1.0
        merit = state.merit
        for _ in range(HALVINGS):
            trial = _measure(points, _moved(state.chain, part * step), plan)
            new = trial.merit
            if new <= merit * (1.0 + 1e-6) + 1e-300:
                break
            part *= 0.5
        else:
            break
        state = trial
        if part * size < STEP_END or 0.0 <= merit - new < rest * merit:
            settled = True
            break
    return _finished(points, state, plan, settled=settled)


def _finished(points: Floats, state: _State, plan: _Plan, *, settled: bool) -> ChainFit:
    chain, value = state.chain, state.value
    residual = np.full(len(points), np.nan)
    residual[plan.index] = state.residual
    settled = settled and float(np.abs(value).max(initial=0.0)) < 1e-6
    free = len(state.residual) + len(state.miss) - chain.unknowns + len(value)
    return ChainFit(chain, residual, state.squares, free, points, settled)


def by_points(points: Floats, chain: Chain) -> Floats:
    """(p, n, 2) change of each unknown by metre of each row, to first order (the residuals' curvature is left
    out, as in Gauss and Newton's step).

    Every row of p unknowns and n points is held: for some thousand rows, not for 1e5.
    """
    plan = _plan(points, chain)
    state = _measure(points, chain, plan)
    p, n, c = chain.unknowns, len(points), len(plan.joint)
    inverse = invert_symmetric(_system(chain, plan, state)[0])
    padded = np.concatenate([inverse[:p], np.zeros((p, 1))], axis=1)
    columns = np.where(plan.columns == p, -1, plan.columns)[plan.k]
    weight = np.einsum("pmc,mc->pm", padded[:, columns], state.by)
    out = np.zeros((p, n, 2))
    out[:, plan.index] = -weight[:, :, None] * np.column_stack([state.normal.real, state.normal.imag])
    for vertex, row, axis in _tell_observed(chain, chord_angles(chain)[2]):
        out[:, row] += (inverse[:p, 2 * vertex : 2 * vertex + 2] @ axis)[:, None] * axis
    for i, (_, row) in enumerate(chain.held):
        for k in (0, 1):
            out[:, row, k] += inverse[:p, p + c + 2 * i + k]
    return out
