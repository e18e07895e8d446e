# SPDX-License-Identifier: GPL-2.0-or-later
"""Vertices and edges of one piece while it is drawn, each with how it moves with the stations."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from ..positions import Positions
from ..quantity import Floats, Ints
from .dual import Dual
from .records import Pull

By = tuple[tuple[int, Floats], ...]
WHOLE = np.eye(2)
"""A station moves its own vertex as it moves itself."""
WHOLE.setflags(write=False)


@dataclass(frozen=True, eq=False)
class Node:
    """A vertex: `xy` (2,), `z` (NaN without), and its changes: (row, (2, 2)) in plan, (row, factor) in height.
    `offset` is how far the true edge lies to the left of it, metres; `others` the stations (numbers within
    their group) that are this one point, where there are two."""

    xy: Floats
    z: float
    rows: tuple[int, ...]
    by: By
    z_by: tuple[tuple[int, float], ...]
    offset: float = 0.0
    others: tuple[int, ...] = ()


@dataclass(frozen=True, eq=False)
class Edge:
    """An edge from the vertex before to `end`: half sweep in radians and its changes (row, (2,))."""

    end: Node
    half: float = 0.0
    by: By = ()


@dataclass(frozen=True, eq=False)
class Run:
    """A piece before it is numbered: where it starts, and its edges; a closed one ends at `start` itself."""

    start: Node
    edges: tuple[Edge, ...]
    closed: bool
    nodes: tuple[Node, ...] = field(init=False)

    def __post_init__(self) -> None:
        """The vertices in order, the first not repeated where the run is closed."""
        ends = tuple(edge.end for edge in self.edges)
        object.__setattr__(self, "nodes", (self.start, *(ends[:-1] if self.closed else ends)))


def station_node(positions: Positions, rows: Sequence[int], offset: float = 0.0) -> Node:
    """One station, or two taken as one point (their mean; each moves it by half)."""
    if len(rows) == 1:
        row = rows[0]
        z = float(positions.z[row])
        lifts = ((row, 1.0),) if math.isfinite(z) else ()
        return Node(positions.xy[row], z, (row,), ((row, WHOLE),), lifts, offset)
    part = 1.0 / len(rows)
    xy = positions.xy[list(rows)].mean(axis=0)
    known = [row for row in rows if np.isfinite(positions.z[row])]
    z = float(positions.z[known].mean()) if known else float("nan")
    by = tuple((row, part * np.eye(2)) for row in rows)
    return Node(xy, z, tuple(rows), by, tuple((row, 1.0 / len(known)) for row in known), offset)


def joined(parts: Sequence[tuple[Node, Floats]]) -> By:
    """Changes of something that moves with nodes by (k, 2) or (2,) each, told by stations."""
    return tuple((row, factor @ own) for node, factor in parts for row, own in node.by)


def as_dual(node: Node) -> Dual:
    """A vertex as x + iy."""
    by: dict[tuple[int, int], complex] = {}
    for row, block in node.by:
        for axis in (0, 1):
            by[row, axis] = by.get((row, axis), 0.0) + complex(block[0, axis], block[1, axis])
    return Dual(complex(node.xy[0], node.xy[1]), by)


def half_as_dual(edge: Edge) -> Dual:
    """An edge's half sweep."""
    by: dict[tuple[int, int], complex] = {}
    for row, change in edge.by:
        for axis in (0, 1):
            by[row, axis] = by.get((row, axis), 0.0) + float(change[axis])
    return Dual(edge.half, by)


def node_from(dual: Dual, old: Node) -> Node:
    """The old vertex, moved to where the dual is."""
    blocks: dict[int, Floats] = {}
    for (row, axis), d in dual.by.items():
        blocks.setdefault(row, np.zeros((2, 2)))[:, axis] = complex(d).real, complex(d).imag
    xy = np.array([dual.value.real, dual.value.imag])
    return Node(xy, old.z, old.rows, tuple(blocks.items()), old.z_by, old.offset)


def half_from(dual: Dual) -> tuple[float, By]:
    """Half sweep and its changes from a real dual."""
    parts: dict[int, Floats] = {}
    for (row, axis), d in dual.by.items():
        parts.setdefault(row, np.zeros(2))[axis] = complex(d).real
    return dual.value.real, tuple(parts.items())


def number_run(run: Run) -> tuple[Floats, Floats, Pull]:
    """Points (v, 3), half sweeps (e,) and the pull of a run."""
    nodes = run.nodes
    points = np.array([(*node.xy, node.z) for node in nodes])
    half = np.array([edge.half for edge in run.edges])
    plan = [(i, row, by) for i, node in enumerate(nodes) for row, by in node.by]
    arcs = [(i, row, by) for i, edge in enumerate(run.edges) for row, by in edge.by]
    heights = [(i, row, by) for i, node in enumerate(nodes) for row, by in node.z_by]
    vertex, vertex_row = _numbers(plan)
    edge, edge_row = _numbers(arcs)
    height, height_row = _numbers(heights)
    pull = Pull(
        vertex,
        vertex_row,
        np.array([entry[2] for entry in plan]).reshape(-1, 2, 2),
        edge,
        edge_row,
        np.array([entry[2] for entry in arcs]).reshape(-1, 2),
        height,
        height_row,
        np.array([entry[2] for entry in heights], dtype=float),
    )
    return points, half, pull


def _numbers(entries: Sequence[tuple[int, int, object]]) -> tuple[Ints, Ints]:
    """What each entry is of, and the station's row."""
    index = np.array([entry[:2] for entry in entries], dtype=np.int64).reshape(-1, 2)
    return index[:, 0], index[:, 1]
