# SPDX-License-Identifier: GPL-2.0-or-later
"""An as-walked leg as straights and tangent arcs that know how they move with the stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...errors import BadInput
from ...quantity import Floats, Ints
from ..trace import By, Edge, Node, joined
from .fitted import FittedRun
from .pieces import PieceKind, fit_pieces

Moves = dict[int, tuple[Ints, Floats]]
"""By the number of a vertex or an edge: rows, and its changes by them."""

NOTHING = 1e-12
"""Change by metre of a station below which it is left out."""
MOST_MOVES = 4_000_000
"""Vertices and edges by rows that move them; beyond, a leg is too long to be held (some gigabyte)."""


class TooLong(BadInput):
    """A leg of so many rows and pieces that how each moves with each cannot be held."""


@dataclass(frozen=True, eq=False)
class Smoothed:
    """A leg fitted: where it starts, its edges, and the run with the evidence. The start and end of an open leg are
    the nodes given; a closed one starts at a vertex of its own."""

    start: Node
    edges: tuple[Edge, ...]
    run: FittedRun


def smooth_leg(
    nodes: Sequence[Node], tolerance: float, *, sigma: float | None = None, closed: bool = False
) -> Smoothed | None:
    """Fit an as-walked leg; None where nothing smooth can be claimed, so that it stays as recorded.

    Heights are those of the rows on either side of a vertex, evenly; between vertices they run evenly, so heights of
    rows within a piece are left out.

    Args:
        nodes: start, passed rows in order, end; of a closed leg the end is left out.
        tolerance: metres that a row may lie off its piece.
        sigma: one-sigma of a row against its neighbours, metres; if not given, from the residuals.
        closed: whether the leg ends at its start and is the whole outline.
    Raises:
        BadInput, TooFewPoints: as fit_pieces.
        TooLong: more vertices by rows than can be held.
    """
    xy = np.array([node.xy for node in nodes])
    run = fit_pieces(xy, tolerance, sigma=sigma, closed=closed, hold_ends=not closed)
    if not run.is_smooth:
        return None
    v = len(run.points)
    recorded, moves, turns = _moves(run)
    vertices = [nodes[recorded[i]] if i in recorded else _vertex(nodes, run, i, *moves[i]) for i in range(v)]
    if not closed:
        vertices[0], vertices[-1] = nodes[0], nodes[-1]
    edges = tuple(
        Edge(vertices[(e + 1) % v], float(half), _told(nodes, *turns[e]) if half else ())
        for e, half in enumerate(run.half)
    )
    return Smoothed(vertices[0], edges, run)


def _moves(run: FittedRun) -> tuple[dict[int, int], Moves, Moves]:
    """The vertices that are rows as recorded, and how the others (k, 2, 2) and the half sweeps of arcs (k, 2) move with
    their rows; part by part, for the whole of a long run is too much to hold."""
    smooth = [part for part in run.parts if part.chain is not None or part.circle is not None]
    if sum((len(part.vertex) + len(part.edge)) * len(part.row) for part in smooth) > MOST_MOVES:
        raise TooLong(
            "{v} vertices by {n} rows are too many to hold how each moves with each. Walk them in several runs.",
            v=len(run.points),
            n=run.count,
        )
    recorded: dict[int, int] = {}
    moves, turns = Moves(), Moves()
    for part in run.parts:
        if part.chain is None and part.circle is None:
            recorded.update(zip(part.vertex.tolist(), part.row.tolist()))
            continue
        a, by = len(part.vertex), part.changes()
        for k, i in enumerate(part.vertex.tolist()):
            moves[i] = (part.row, np.swapaxes(by[2 * k : 2 * k + 2], 0, 1))
        turns.update((e, (part.row, by[2 * a + k])) for k, e in enumerate(part.edge.tolist()))
    return recorded, moves, turns


def _told(nodes: Sequence[Node], rows: Ints, by: Floats) -> By:
    """Changes by rows, (k, 2) or (k, 2, 2), told by stations; rows that move nothing are left out."""
    moving = np.flatnonzero(np.abs(by).reshape(len(by), -1).max(axis=1, initial=0.0) > NOTHING)
    return joined([(nodes[int(rows[k])], by[k]) for k in moving])


def _vertex(nodes: Sequence[Node], run: FittedRun, i: int, rows: Ints, by: Floats) -> Node:
    """Vertex i of the run, which moves with rows."""
    beside = [nodes[k] for k in _rows_beside(run, i)]
    z = float(np.mean([node.z for node in beside]))
    lifts = tuple((row, factor / len(beside)) for node in beside for row, factor in node.z_by)
    return Node(
        run.points[i], z, (), _told(nodes, rows, by), lifts if np.isfinite(z) else (), nodes[0].offset
    )


def _rows_beside(run: FittedRun, i: int) -> list[int]:
    """The last row of the piece that ends at a vertex, and the first of that which starts there."""
    v = len(run.points)
    rows = [p.last for p in run.pieces if (p.edge + p.edges) % v == i and p.kind is not PieceKind.AS_WALKED]
    rows += [p.first for p in run.pieces if p.edge == i and p.kind is not PieceKind.AS_WALKED]
    return rows or [p.first for p in run.pieces if p.edge < i < p.edge + p.edges]
