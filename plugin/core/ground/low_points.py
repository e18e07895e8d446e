# SPDX-License-Identifier: GPL-2.0-or-later
"""Low points of a surface: where water stands, how deep, how much, up to which level, and over which point it leaves.

Between two points of a surface of triangles the highest place on the way can be made lowest along edges alone: where a way
enters a triangle by one side and leaves it by another, both no higher than h there, the lower ends of the two sides are no
higher than h, and they are one corner or the ends of a third side. So the level to which water rises over a point is that of
the lowest way over edges to the rim, where it runs off: over outer edges and over the edges of voids. That is a way in a
least spanning tree of the edges, each as high as its higher end (Hu, Operations Research 9 (1961) 898-900, as the widest
way; from memory), so that no point need be looked at one after the other.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from .hull import neighbours_of
from .surface import Flags, Surface


@dataclass(frozen=True, eq=False)
class Flooded:
    """A surface under as much water as it holds.

    Attributes:
        surface: with the points alone that triangles stand on.
        level: (n,) metres, of the water over each point, or of the ground where there is none.
        next: (n,) the point that a lowest way out goes to from each; -1 over the rim.
        pond: (n,) the number of the pond that a point lies under, -1 for none.
        of_triangle: (m,) the pond that some of a triangle lies under, -1 for none: no triangle has two.
        spill: (p,) the point over which each pond runs off. deepest: (p,) its lowest point.
        on_rim: (n,) whether water runs off at a point.
    """

    surface: Surface
    level: Floats
    next: Ints
    pond: Ints
    of_triangle: Ints
    spill: Ints
    deepest: Ints
    on_rim: Flags

    def __len__(self) -> int:
        """How many ponds there are."""
        return len(self.spill)

    @property
    def levels(self) -> Floats:
        """(p,) metres: each pond's."""
        return np.asarray(self.surface.points[self.spill, 2])


def flood(surface: Surface) -> Flooded:
    """Where water stands on a surface once it has run together and every pond is full.

    Args:
        surface: any; its voids and outer edges let water out.
    Raises:
        BadInput: it has no triangles, or a point without place or height.
    """
    surface = used_points(surface)
    z, triangles = surface.points[:, 2], surface.triangles
    _, rank = np.unique(z, return_inverse=True)
    on_rim = _rim(triangles, len(z))
    edges = np.unique(np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1), axis=0)
    parent, filled = _ways_out(rank.reshape(-1), edges, on_rim)
    under = filled > rank.reshape(-1)
    pond, count = _joined(edges[under[edges].all(axis=1)], under)
    heights = np.sort(np.unique(z))
    corner = pond[triangles].max(axis=1)
    deepest = _deepest(pond, z, count)
    spill = _spills(deepest, parent, rank.reshape(-1), filled)
    return Flooded(surface, heights[filled], parent, pond, corner, spill, deepest, on_rim)


def used_points(surface: Surface) -> Surface:
    """The same with the points alone that triangles stand on.

    Raises:
        BadInput: it has no triangles, or one of those points has no place or height.
    """
    if not len(surface.triangles):
        raise BadInput("The surface has no triangles, so that no water stands on it. Build it.")
    used, number = np.unique(surface.triangles, return_inverse=True)
    points = surface.points[used]
    if not np.isfinite(points).all():
        raise BadInput("A point of the surface has no place or no height. Build it again without it.")
    triangles = number.reshape(-1, 3).astype(np.int64)
    return replace(
        surface, points=points, triangles=triangles, sigma=surface.sigma[used], shared=surface.shared[used]
    )


def _rim(triangles: Ints, count: int) -> Flags:
    """(n,) points on an edge that has a triangle on one side alone."""
    t, k = np.nonzero(neighbours_of(triangles, count) < 0)
    on_rim = np.zeros(count, bool)
    on_rim[triangles[t, (k + 1) % 3]] = on_rim[triangles[t, (k + 2) % 3]] = True
    return on_rim


def _ways_out(rank: Ints, edges: Ints, on_rim: Flags) -> tuple[Ints, Ints]:
    """(n,) the next point on a lowest way to the rim, -1 on the rim itself; and (n,) the rank of the highest point on it.

    Heights go as ranks, so that points of one height are alike to the bit, and one more point stands for all the ground
    beyond the rim.
    """
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import breadth_first_order, minimum_spanning_tree

    n, rim = len(rank), np.flatnonzero(on_rim)
    start = np.concatenate([edges[:, 0], rim])
    end = np.concatenate([edges[:, 1], np.full(len(rim), n)])
    high = np.concatenate([rank[edges].max(axis=1), rank[rim]]) + 1.0  # the library takes 0 for no edge
    tree = minimum_spanning_tree(coo_matrix((high, (start, end)), shape=(n + 1, n + 1)).tocsr())
    _, before = breadth_first_order(tree, n, directed=False)
    before = before.astype(np.int64)
    before[n] = n
    highest = np.append(rank, -1)
    highest = np.maximum(highest, highest[before])
    above = before.copy()
    while not (above == n).all():  # each round doubles how far a way is followed
        highest = np.maximum(highest, highest[above])
        above = above[above]
    return np.where(before[:n] == n, -1, before[:n]), highest[:n]


def _joined(edges: Ints, under: Flags) -> tuple[Ints, int]:
    """(n,) numbers of the ponds that points under water belong to, -1 for others; and how many ponds there are."""
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    n = len(under)
    pond = np.full(n, -1, np.int64)
    if not under.any():
        return pond, 0
    graph = coo_matrix((np.ones(len(edges)), (edges[:, 0], edges[:, 1])), shape=(n, n))
    _, label = connected_components(graph.tocsr(), directed=False)
    kinds, number = np.unique(label[under], return_inverse=True)
    pond[under] = number.reshape(-1)
    return pond, len(kinds)


def _deepest(pond: Ints, z: Floats, count: int) -> Ints:
    """(p,) the lowest point of each pond, of several the first."""
    rows = np.flatnonzero(pond >= 0)
    order = rows[np.lexsort((rows, z[rows], pond[rows]))]
    return np.asarray(order[np.searchsorted(pond[order], np.arange(count))])


def _spills(deepest: Ints, parent: Ints, rank: Ints, filled: Ints) -> Ints:
    """(p,) the point over which each pond runs off: the first on its way out that is as high as its water."""
    spill = deepest.copy()
    waits = np.flatnonzero(rank[spill] < filled[deepest])
    while len(waits):
        spill[waits] = parent[spill[waits]]
        waits = waits[rank[spill[waits]] < filled[deepest[waits]]]
    return spill
