# SPDX-License-Identifier: GPL-2.0-or-later
"""Developed faces: a profile by its width, a ruled surface between two edges, an outline in its own plane."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..errors import BadInput
from ..measure.layer.areas import Worth as LayerWorth
from ..measure.layer.areas import measure_areas
from ..measure.layer.ground import GroundWay, open_ground
from ..measure.layer.shapes import Kind, Shapes
from ..quantity import Floats, Ints, Quantity
from .lines import Line
from .pairs import Edge, breaks_of, cut, match_edges
from .space import SpaceEdges
from .worth import Moves, Worth, moves_of, worth_of

NODES = 6
"""Gauss points each way of a patch: a patch of twist 1 (a unit square with one corner a metre up) comes to 1e-9."""
ARC_STEP = np.pi / 12.0
"""Radians of sweep beyond which an arc is cut into patches."""
BLOCK = 4_000
"""Patches at once."""
FLAT = 1e-9
"""Of an outline's size squared: one whose points enclose less in space lies on one line."""


@dataclass(frozen=True)
class Face:
    """A developed face.

    Attributes:
        area: m2, with its one-sigma. length: of the profile, or the mean of the two edges, m; of an outline its outer edge.
        off_plane: how far a point of an outline lies off its plane, metres; 0 of the other kinds.
        method: how it was come by.
    """

    area: Quantity
    length: Quantity
    off_plane: float
    method: str


def profile_face(profile: Line, width: float, sigma: float | Worth, width_sigma: float = 0.0) -> Face:
    """The face that a profile sweeps along a width: its developed length, arcs exact in whichever plane they stand,
    times the width.

    Args:
        profile: up the face; metres.
        width: square to it, metres.
        sigma: one-sigma of a point along each axis, metres; or what the points are worth together.
        width_sigma: one-sigma of the width, metres.
    Raises:
        BadInput: a width that is not above 0, or a whole circle drawn as one arc.
    Source:
        A cylinder over a profile unrolls without stretching. One-sigma by propagation (GUM, JCGM 100:2008, 5.1.2).
    """
    if not 0.0 < width < np.inf:
        raise BadInput("The face has no width above 0. Give its width, or draw its other edge.")
    edges = SpaceEdges(profile)
    length = float(edges.lengths.sum())
    length_sigma = worth_of(sigma).sigma(moves_of(profile, edges.moves))
    way = "profile by width, arcs exact" if len(edges.arc) else "profile by width"
    where = "" if profile.has_heights else ", in plan"
    return face_by_length(Quantity(length, length_sigma, "m"), width, width_sigma, way + where)


def face_by_length(
    length: Quantity,
    width: float,
    width_sigma: float = 0.0,
    way: str = "profile by width, the survey's length",
) -> Face:
    """The face of a profile of a known developed length, metres, along a width, metres; `way` is told as its method."""
    area = Quantity(
        length.value * width, float(np.hypot(length.sigma * width, length.value * width_sigma)), "m2"
    )
    return Face(area, length, 0.0, f"{way}: {length.value:.3f} m x {width:.3f} m")


def ruled_face(one: Line, other: Line, sigma: float | Worth) -> Face:
    """The face of straight rulings between two edges, each from a part of one edge's length to the same part of the
    other's; where they run against each other one is turned round. Of two closed edges it does not count where either
    begins: the rulings are those that lie nearest (see `pairs.py`).

    Args:
        one: an edge, metres; arcs are circles in space through their three points.
        other: the other edge, in the same plane.
        sigma: one-sigma of a point along each axis, metres; or what the points are worth together.
    Returns:
        Its area by Gauss points on patches that break at every vertex of both edges; one-sigma with the rulings held.
    Raises:
        BadInput: an edge of no length, heights on one of them alone, edges that do not belong together (`match_edges`), or a
            whole circle drawn as one arc.
    Source:
        Area of a ruled surface, the integral of |X_f x X_v|; Gauss-Legendre quadrature. Flat patches are exact.
    """
    if one.has_heights != other.has_heights:
        raise BadInput("One edge of the face has heights and the other has none. Give both.")
    edges = SpaceEdges(one), SpaceEdges(other)
    lengths = [float(some.lengths.sum()) for some in edges]
    if min(lengths) <= 0.0:
        raise BadInput("An edge of the face has no length. Draw it from end to end.")
    match = match_edges(*(Edge.in_space(*both) for both in zip((one, other), edges)))
    other = other.reversed() if match.is_turned else other
    a, b = edges[0], SpaceEdges(other) if match.is_turned else edges[1]
    shift = np.nan_to_num(other.points[0] - one.points[0])
    area, moves = _ruled(a, b, shift, match.begin)
    worth = worth_of(sigma)
    sigma_area = worth.sigma(moves_of(one, moves[0]), moves_of(other, moves[1]))
    mean_sigma = worth.sigma(moves_of(one, 0.5 * a.moves), moves_of(other, 0.5 * b.moves))
    mean = Quantity(0.5 * sum(lengths), mean_sigma, "m")
    where = "" if one.has_heights else ", in plan"
    way = f"ruled between two edges of {lengths[0]:.3f} m and {lengths[1]:.3f} m{where}"
    return Face(Quantity(area, sigma_area, "m2"), mean, 0.0, way)


def _ruled(a: SpaceEdges, b: SpaceEdges, shift: Floats, begin: float) -> tuple[float, tuple[Floats, Floats]]:
    """The area, and its change by the points of both edges; `begin` is the part of b's length that belongs to a's start."""
    breaks = breaks_of(_breaks(a), _breaks(b), begin)
    node, weight = np.polynomial.legendre.leggauss(NODES)  # type: ignore[no-untyped-call]
    node, weight = 0.5 * (node + 1.0), 0.5 * weight
    total, by_a, by_b = 0.0, np.zeros_like(a.xyz), np.zeros_like(b.xyz)
    for first in range(0, len(breaks) - 1, BLOCK):
        low, high = breaks[:-1][first : first + BLOCK], breaks[1:][first : first + BLOCK]
        area, pulls_a, pulls_b = _patches((a, b), shift, begin, (low, high), (node, weight))
        total += area
        by_a += a.place_moves(*pulls_a)
        by_b += b.place_moves(*pulls_b)
    return total, (by_a, by_b)


def _breaks(edges: SpaceEdges) -> Floats:
    """Parts of a line's length at which a patch ends: its vertices, and places along its arcs."""
    return np.append(cut(edges, ARC_STEP)[2], 1.0)


def _edge_at(edges: SpaceEdges, at: Floats) -> Ints:
    """The edge that a line has at some parts (p,) of its length."""
    along = np.cumsum(edges.lengths) / edges.lengths.sum()
    return np.clip(np.searchsorted(along, at, side="right"), 0, len(along) - 1)


def _parts(edges: SpaceEdges, edge: Ints, at: Floats) -> Floats:
    """The parts of edges (p,) at parts (p, k, 3) of the line's length."""
    along = np.concatenate([[0.0], np.cumsum(edges.lengths)]) / edges.lengths.sum()
    span = np.maximum(along[edge + 1] - along[edge], 1e-300)
    return np.asarray((at - along[edge][:, None, None]) / span[:, None, None])


Pull = tuple[Ints, Floats, Floats]


def _patches(
    both: tuple[SpaceEdges, SpaceEdges],
    shift: Floats,
    begin: float,
    span: tuple[Floats, Floats],
    rule: tuple[Floats, Floats],
) -> tuple[float, Pull, Pull]:
    """The area of some patches, and what it pulls at places of either edge; the second one's parts run on from `begin`.

    Within a patch the way along an edge is the difference between two places on it: on straights, where it is exact, half
    a patch apart, on arcs of 15 degrees a thousandth, good to 3e-9.
    """
    (low, high), (node, weight) = span, rule
    wide = (high - low)[:, None]
    f = low[:, None] + wide * node
    middle = 0.5 * (low + high)
    places, steps = [], []
    for edges, first in zip(both, (0.0, begin)):
        its = (middle + first) % 1.0
        edge, on = _edge_at(edges, its), f + (its - middle)[:, None]
        step = wide * np.where(np.isin(edge, edges.arc), 0.0005, 0.25)[:, None]
        part = _parts(edges, edge, np.stack([on - step, on, on + step], axis=-1))
        every = np.broadcast_to(edge[:, None, None], part.shape)
        where = edges.places(every.ravel(), part.ravel()).reshape(*part.shape, 3)
        places.append((every, part, where))
        steps.append(2.0 * step[:, :, None])
    one, two = places[0][2], places[1][2] + shift
    along = [(p[:, :, 2] - p[:, :, 0]) / step for p, step in zip((one, two), steps)]
    rule_way = two[:, :, 1] - one[:, :, 1]
    ways = along[0][:, :, None] * (1.0 - node[:, None]) + along[1][:, :, None] * node[:, None]
    normal = np.cross(ways, rule_way[:, :, None])
    size = np.sqrt((normal**2).sum(axis=-1))
    share = wide[:, :, None] * weight[:, None] * weight
    with np.errstate(divide="ignore", invalid="ignore"):
        unit = np.where(size[..., None] > 0.0, normal / size[..., None], 0.0) * share[..., None]
    # The change of |w x r| by w is r x n, by r it is n x w.
    by_way = np.cross(rule_way[:, :, None], unit)
    by_rule = np.cross(unit, ways).sum(axis=2)
    pulls = []
    for k, sign, part_of in ((0, -1.0, 1.0 - node), (1, 1.0, node)):
        edge, part, _ = places[k]
        by_along = (by_way * part_of[:, None]).sum(axis=2) / steps[k]
        pull = np.stack([-by_along, sign * by_rule, by_along], axis=2)
        pulls.append((edge.ravel(), part.ravel(), pull.reshape(-1, 3)))
    return float((size * share).sum()), pulls[0], pulls[1]


def outline_face(rings: list[Line], is_hole: list[bool], sigma: float | Worth, tolerance: float) -> Face:
    """The true area of an outline that stands in a plane of its own, vertical or tilted, holes out, arcs exact there.

    Args:
        rings: its rings, metres, all with heights.
        is_hole: of each, whether it is an inner one.
        sigma: one-sigma of a point along each axis, metres; or what the points are worth together.
        tolerance: how far a point may lie off the plane, metres.
    Raises:
        BadInput: it has no heights, lies on one line, lies off any plane, or crosses itself.
    Source:
        The plane's normal is the vector area of the points (half the sum of their cross products); in the plane as
        `measure_areas`. To first order the tilt of the plane changes no area.
    """
    if not all(ring.has_heights for ring in rings):
        raise BadInput(
            "The outline has no heights, so it stands in no plane of its own. Give it heights, or measure areas."
        )
    origin = rings[0].points[0]
    flat, axes, off = _own_plane([np.where(np.isnan(r.points), origin, r.points) - origin for r in rings])
    if off > tolerance:
        raise BadInput(
            "The outline lies off any plane by {off:.3f} m, more than {tolerance:g} m. Draw its two edges instead, or "
            "split it.",
            off=off,
            tolerance=tolerance,
        )
    none = LayerWorth(np.zeros(1), np.zeros(1))
    figures = measure_areas(_shapes(rings, flat, is_hole), _own_ground(), none)
    if figures.findings:
        raise BadInput(
            "Seen square to its own plane the outline cannot be measured (it crosses itself, or a hole lies astray). "
            "Draw it again there."
        )
    by_area, by_edge = _outline_moves(rings, flat, is_hole, axes)
    worth = worth_of(sigma)
    area = Quantity(float(figures.area[0]), worth.sigma(*by_area), "m2")
    edge = Quantity(float(figures.perimeter[0]), worth.sigma(*by_edge), "m")
    way = "outline in its own plane, arcs exact" if figures.has_arcs[0] else "outline in its own plane"
    return Face(area, edge, off, f"{way}, {off:.3f} m off it at most")


def _outline_moves(
    rings: list[Line], flat: list[Floats], is_hole: list[bool], axes: Floats
) -> tuple[list[Moves], list[Moves]]:
    """How the area, and the length of the outer edges, move with the points of each ring, along the plane's axes (2, 3)."""
    by_area, by_edge = [], []
    for ring, xy, hole in zip(rings, flat, is_hole):
        edges = Line(np.column_stack([xy, np.zeros(len(xy))]), ring.is_mid).edges
        every = np.ones(len(edges.p))
        sign = math.copysign(1.0, float(edges.areas.sum())) * (-1.0 if hole else 1.0)
        by_area.append(moves_of(ring, edges.area_moves(sign * every) @ axes))
        if not hole:
            by_edge.append(moves_of(ring, edges.length_moves(every) @ axes))
    return by_area, by_edge


@lru_cache(maxsize=1)
def _own_ground() -> GroundWay:
    return open_ground('LOCAL_CS["own plane",UNIT["metre",1]]')


def _own_plane(rings: list[Floats]) -> tuple[list[Floats], Floats, float]:
    """Rings (n, 3) in two axes of their plane, these (2, 3), and the farthest that a point lies off it."""
    outer = rings[0]
    normal = 0.5 * np.cross(outer[:-1], outer[1:]).sum(axis=0)
    size, reach = float(np.linalg.norm(normal)), float(np.abs(outer).max())
    if size <= FLAT * reach**2:
        raise BadInput("The outline lies on one line in space. Draw it round the face.")
    normal = normal / size
    level = np.cross([0.0, 0.0, 1.0], normal)
    tilt = float(np.linalg.norm(level))
    x = level / tilt if tilt > FLAT else np.array([1.0, 0.0, 0.0])
    axes = np.array([x, np.cross(normal, x)])
    middle = outer[:-1].mean(axis=0)
    off = max(float(np.abs((ring - middle) @ normal).max()) for ring in rings)
    return [ring @ axes.T for ring in rings], axes, off


def _shapes(rings: list[Line], flat: list[Floats], is_hole: list[bool]) -> Shapes:
    counts = [len(ring.points) for ring in rings]
    parts = np.cumsum([not hole for hole in is_hole]) - 1
    return Shapes(
        np.array([int(Kind.AREAS)]),
        np.vstack(flat),
        np.full(sum(counts), np.nan),
        np.concatenate([ring.is_mid for ring in rings]),
        np.concatenate([[0], np.cumsum(counts)]).astype(np.int64),
        np.zeros(len(rings), np.int64),
        parts.astype(np.int64),
        np.array(is_hole),
    )
