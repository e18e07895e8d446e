# SPDX-License-Identifier: GPL-2.0-or-later
"""A figure with how it moves with the stations, and what follows from that."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from ..positions import Positions
from ..quantity import Floats, Gradient, Ints, Quantity
from ..shape.records import Piece

BLOCK = 150
"""Stations up to which the joint covariance of a feature is worth asking for at once."""


@dataclass(frozen=True, eq=False)
class Figure:
    """A value and its change with the stations, exact to first order."""

    value: float
    gradient: Gradient

    def quantity(self, positions: Positions, unit: str) -> Quantity:
        """The value with its one-sigma."""
        sigma = float(np.sqrt(max(positions.variance(self.gradient), 0.0)))
        return Quantity(self.value, sigma, unit, lambda: self.gradient)


def mix(value: float, parts: Sequence[tuple[float, Gradient]]) -> Figure:
    """A figure that moves as a sum of others, each times a factor."""
    return Figure(
        value,
        Gradient(
            np.concatenate([g.index for _, g in parts]),
            np.concatenate([factor * g.plan for factor, g in parts]),
            np.concatenate([factor * g.height for factor, g in parts]),
        ),
    )


def mixed_moves(*parts: tuple[float, Quantity]) -> Callable[[], Gradient] | None:
    """How a figure moves that is a sum of others, each times a factor; None where one of them does not tell."""
    told = [(factor, figure.moves) for factor, figure in parts if figure.moves is not None]
    if len(told) < len(parts):
        return None
    return lambda: mix(0.0, [(factor, moves()) for factor, moves in told]).gradient


def by_stations(
    piece: Piece, by_vertex: Floats | None = None, by_half: Floats | None = None, by_z: Floats | None = None
) -> Gradient:
    """Changes by the stations from changes by a piece's vertices (v, 2), half sweeps (e,) and heights (v,)."""
    pull = piece.pull
    index, plan, height = [np.zeros(0, dtype=np.int64)], [np.zeros((0, 2))], [np.zeros(0)]
    if by_vertex is not None:
        index.append(pull.vertex_row)
        plan.append(np.einsum("ai,aij->aj", by_vertex[pull.vertex], pull.vertex_by))
        height.append(np.zeros(len(pull.vertex_row)))
    if by_half is not None and len(pull.edge_row):
        index.append(pull.edge_row)
        plan.append(by_half[pull.edge][:, None] * pull.edge_by)
        height.append(np.zeros(len(pull.edge_row)))
    if by_z is not None:
        index.append(pull.height_row)
        plan.append(np.zeros((len(pull.height_row), 2)))
        height.append(by_z[pull.height] * pull.height_by)
    rows, moves, lifts = np.concatenate(index), np.concatenate(plan), np.concatenate(height)
    used = (moves[:, 0] != 0.0) | (moves[:, 1] != 0.0) | (lifts != 0.0)
    return Gradient(rows[used], moves[used], lifts[used])


def plan_sigmas(positions: Positions, gradients: Sequence[Gradient]) -> Floats:
    """(m,) one-sigma of figures, one by one."""
    return np.sqrt([max(positions.variance(g), 0.0) for g in gradients])


def block_sigmas(positions: Positions, rows: Ints, moves: Floats) -> Floats:
    """(m,) one-sigma of figures that move with some stations by (m, k, 2), from one joint covariance."""
    flat = moves.reshape(len(moves), -1)
    covariance = positions.plan_covariance(rows).reshape(2 * len(rows), 2 * len(rows))
    return np.asarray(np.sqrt(np.maximum(((flat @ covariance) * flat).sum(axis=1), 0.0)))


def dense_pull(piece: Piece, rows: Ints) -> tuple[Floats, Floats]:
    """The pull of a piece as (v, 2, k, 2) and (e, k, 2), k stations in order of row."""
    pull = piece.pull
    vertices = np.zeros((len(piece.points), len(rows), 2, 2))
    np.add.at(vertices, (pull.vertex, np.searchsorted(rows, pull.vertex_row)), pull.vertex_by)
    turns = np.zeros((len(piece.half), len(rows), 2))
    np.add.at(turns, (pull.edge, np.searchsorted(rows, pull.edge_row)), pull.edge_by)
    return vertices.transpose(0, 2, 1, 3), turns
