# SPDX-License-Identifier: GPL-2.0-or-later
"""An as-walked leg as straights and tangent arcs that know how they move with the stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...quantity import Floats
from ..trace import By, Edge, Node, joined
from .fitted import FittedRun
from .pieces import PieceKind, fit_pieces

NOTHING = 1e-12
"""Change by metre of a station below which it is left out."""


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
    """
    xy = np.array([node.xy for node in nodes])
    run = fit_pieces(xy, tolerance, sigma=sigma, closed=closed, hold_ends=not closed)
    if not run.is_smooth:
        return None
    v = len(run.points)
    vertices = [_vertex(nodes, run, i) for i in range(v)]
    if not closed:
        vertices[0], vertices[-1] = nodes[0], nodes[-1]
    halves = run.by_points[2 * v :]
    edges = tuple(
        Edge(vertices[(e + 1) % v], float(half), _told(nodes, halves[e]) if half else ())
        for e, half in enumerate(run.half)
    )
    return Smoothed(vertices[0], edges, run)


def _told(nodes: Sequence[Node], by: Floats) -> By:
    """Changes by the nodes, (n, 2) or (n, 2, 2), told by stations; nodes that move nothing are left out."""
    moving = [k for k in range(len(nodes)) if np.abs(by[k]).max() > NOTHING]
    return joined([(nodes[k], by[k]) for k in moving])


def _vertex(nodes: Sequence[Node], run: FittedRun, i: int) -> Node:
    """Vertex i of the run; one that is a row as recorded is that row's node."""
    by = np.swapaxes(run.by_points[2 * i : 2 * i + 2], 0, 1)
    row = _recorded_row(run, i)
    if row is not None:
        return nodes[row]
    beside = [nodes[k] for k in _rows_beside(run, i)]
    z = float(np.mean([node.z for node in beside]))
    lifts = tuple((row, factor / len(beside)) for node in beside for row, factor in node.z_by)
    return Node(run.points[i], z, (), _told(nodes, by), lifts if np.isfinite(z) else (), nodes[0].offset)


def _recorded_row(run: FittedRun, i: int) -> int | None:
    """The row that a vertex is, where it lies in a stretch as recorded."""
    for part in run.parts:
        if part.chain is None and part.circle is None and i in part.vertex:
            return int(part.row[int(np.flatnonzero(part.vertex == i)[0])])
    return None


def _rows_beside(run: FittedRun, i: int) -> list[int]:
    """The last row of the piece that ends at a vertex, and the first of that which starts there."""
    v = len(run.points)
    rows = [p.last for p in run.pieces if (p.edge + p.edges) % v == i and p.kind is not PieceKind.AS_WALKED]
    rows += [p.first for p in run.pieces if p.edge == i and p.kind is not PieceKind.AS_WALKED]
    return rows or [p.first for p in run.pieces if p.edge < i < p.edge + p.edges]
