# SPDX-License-Identifier: GPL-2.0-or-later
"""A trench or swale along a line: its sizes on pieces of it, integrals over them, and what these move with."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from ..errors import BadInput
from ..ground.levels import Levels, ground_variance, point_gradient
from ..quantity import Floats, Ints, Quantity
from .along import Along, GroundPieces, OnPieces, Pieces
from .cross_sections import Cross, CrossFigures, Told, figures_of
from .lines import Line
from .worth import Worth, moves_of

NODES = 8
"""Gauss points of a piece: exact for the sections that are polynomials of their sizes (a prismoid, along arcs too), and good
to 1e-12 of the round one."""
MOST_PLACES = 2_000
"""Places whose ground is held against one another; of more pieces neighbours count as one."""


@dataclass(frozen=True, eq=False)
class Source:
    """What a size is the sum of: a size along the line on its pieces, and the sign it counts with."""

    along: Along
    on: OnPieces
    sign: float


@dataclass(frozen=True, eq=False)
class Run:
    """A line in pieces with its sizes on them.

    Attributes:
        line: as drawn. pieces: of it. edge: (m,) of the line, that each lies on.
        cross, batter: the form of its section. side: where its middle lies, in halves of its top: 0 on the line, 1 to the
            left, -1 to the right.
        width: at both ends of the pieces. depth: (m, 2) metres.
        sources: what the depth is the sum of. ground: the surface that it is counted from, if one is.
        heights: whether the line's own heights are the ground; they are then the last source.
        bedding_sigma: one-sigma of what is dug below the invert, metres.
    """

    line: Line
    pieces: Pieces
    edge: Ints
    cross: Cross
    batter: float
    side: float
    width: Source
    depth: Floats
    sources: tuple[Source, ...]
    ground: GroundPieces | None
    heights: bool
    bedding_sigma: float

    def figures(self, width: Floats, depth: Floats) -> CrossFigures:
        """Of sections of its form."""
        return figures_of(self.cross, width, depth, self.batter)


@dataclass(frozen=True, eq=False)
class Moves:
    """A figure and what moves it.

    Attributes:
        by_width, by_depth: (m, 2) by metre of the size at either end of each piece.
        plan: (n, 2) by metre of each point of the line.
        at_place: whether it is the size at one place rather than an integral.
    """

    value: float
    by_width: Floats
    by_depth: Floats
    plan: Floats
    at_place: bool = False


Figure = Callable[[Floats, Floats, CrossFigures], Told]


def one(_width: Floats, depth: Floats, _figures: CrossFigures) -> Told:
    """The path itself."""
    none = np.zeros_like(depth)
    return Told(none + 1.0, none, none)


def area(_width: Floats, _depth: Floats, figures: CrossFigures) -> Told:
    """Of the section, whose integral is the volume."""
    return figures.area


def top(_width: Floats, _depth: Floats, figures: CrossFigures) -> Told:
    """The width at the ground, whose integral is the plan area."""
    return figures.top


def face(_width: Floats, _depth: Floats, figures: CrossFigures) -> Told:
    """Bottom and sides."""
    return figures.face


def depth(_width: Floats, depth: Floats, _figures: CrossFigures) -> Told:
    """The depth itself."""
    none = np.zeros_like(depth)
    return Told(depth, none, none + 1.0)


def integrate(run: Run, figure: Figure, *, on_line: bool = False) -> Moves:
    """The integral of a figure of the section along the path of the section's middle (`on_line`: along the line).

    Source:
        Pappus: what lies c to the left of a line of curvature k goes (1 - k c) ds; at a corner that turns by t to the
        left, mitred, it goes 2 tan(t/2) c less. Gauss-Legendre points on each piece.
    """
    side = 0.0 if on_line else run.side
    node, share = _nodes()
    ends = np.stack([1.0 - node, node])
    w, d = run.width.on.value @ ends, run.depth @ ends
    told, middle = _with_middle(run, figure, w, d, side)
    lengths, half = run.line.edges.lengths, run.line.half
    with np.errstate(divide="ignore", invalid="ignore"):
        bend = np.where(lengths > 0.0, 2.0 * half / lengths, 0.0)[run.edge][:, None]
    step = run.pieces.widths[:, None] * share
    way = 1.0 - bend * middle.value
    by_width = ((told.by_width * way - bend * told.value * middle.by_width) * step) @ ends.T
    by_depth = ((told.by_depth * way - bend * told.value * middle.by_depth) * step) @ ends.T
    plain, aside = ((told.value * step).sum(axis=1), (told.value * middle.value * step).sum(axis=1))
    by_edge = [np.bincount(run.edge, v, len(lengths)) / np.maximum(lengths, 1e-300) for v in (plain, aside)]
    moves = Moves(
        float((told.value * way * step).sum()),
        by_width,
        by_depth,
        run.line.edges.length_moves(by_edge[0]),
    )
    return _bent(run, figure, moves, by_edge[1]) if side else moves


@lru_cache(maxsize=1)
def _nodes() -> tuple[Floats, Floats]:
    """Places from 0 to 1 in a piece, and what part each stands for."""
    node, share = np.polynomial.legendre.leggauss(NODES)  # type: ignore[no-untyped-call]
    return 0.5 * (node + 1.0), 0.5 * share


def _with_middle(run: Run, figure: Figure, w: Floats, d: Floats, side: float) -> tuple[Told, Told]:
    """A figure of sections, and how far to the left of the line their middle lies."""
    figures = run.figures(w, d)
    lies = 0.5 * side
    middle = Told(lies * figures.top.value, lies * figures.top.by_width, lies * figures.top.by_depth)
    return figure(w, d, figures), middle


def _bent(run: Run, figure: Figure, moves: Moves, aside: Floats) -> Moves:
    """With the mitres at corners, and what the turns along the line move of a section that lies to one side of it."""
    before, after, turn = run.line.corners
    begins = np.concatenate([[0.0], np.cumsum(run.line.edges.lengths)])[after]
    piece = np.clip(
        np.searchsorted(run.pieces.breaks, begins + 0.5 * run.pieces.widths.min()) - 1, 0, len(run.depth) - 1
    )
    told, middle = _with_middle(run, figure, run.width.on.value[piece, 0], run.depth[piece, 0], run.side)
    mitre, secant = 2.0 * np.tan(0.5 * turn), np.cos(0.5 * turn) ** -2.0
    off = told.value * middle.value
    by_width, by_depth = moves.by_width.copy(), moves.by_depth.copy()
    for out, by_told, by_middle in (
        (by_width, told.by_width, middle.by_width),
        (by_depth, told.by_depth, middle.by_depth),
    ):
        np.add.at(out[:, 0], piece, -mitre * (by_told * middle.value + told.value * by_middle))
    by_half, by_heading = 2.0 * aside, np.zeros(len(aside))
    for edge, sign in ((before, -1.0), (after, 1.0)):
        np.add.at(by_half, edge, -secant * off)
        np.add.at(by_heading, edge, sign * secant * off)
    plan = moves.plan - run.line.half_moves(by_half) - run.line.heading_moves(by_heading)
    return replace(
        moves, value=moves.value - float((mitre * off).sum()), by_width=by_width, by_depth=by_depth, plan=plan
    )


def depth_at(run: Run, piece: int, end: int) -> Moves:
    """The depth at one end of a piece."""
    by_depth = np.zeros_like(run.depth)
    by_depth[piece, end] = 1.0
    none = np.zeros((len(run.line.points), 2))
    return Moves(float(run.depth[piece, end]), np.zeros_like(by_depth), by_depth, none, at_place=True)


def mixed(value: float, parts: Sequence[tuple[float, Moves]]) -> Moves:
    """A figure that moves with others by some factors."""

    def total(name: str) -> Floats:
        return np.asarray(sum(factor * getattr(moves, name) for factor, moves in parts))

    return Moves(value, total("by_width"), total("by_depth"), total("plan"))


def with_sigma(run: Run, moves: Moves, unit: str, worth: Worth) -> Quantity:
    """A figure with its one-sigma: of the points, of the sizes at each place where they were noted, and of the ground."""
    lift = _lift(run, moves.by_depth) if run.heights else None
    variance = worth.sigma(moves_of(run.line, moves.plan, lift)) ** 2
    variance += _by_places(run.width, moves.by_width)
    own = run.sources[:-1] if run.heights else run.sources
    variance += sum(_by_places(source, moves.by_depth) for source in own)
    variance += (run.bedding_sigma * float(moves.by_depth.sum())) ** 2
    if run.ground is not None:
        variance += _by_ground(run.ground, moves)
    return Quantity(moves.value, math.sqrt(max(variance, 0.0)), unit)


def _by_places(source: Source, by_end: Floats) -> float:
    change = source.on.sums(by_end, len(source.along.value))
    return float(((change * source.along.sigma) ** 2).sum())


def _lift(run: Run, by_depth: Floats) -> Floats:
    """(n,) change by metre of height of each point of the line."""
    source = run.sources[-1]
    out = np.zeros(len(run.line.points))
    out[run.line.vertices] = source.on.sums(by_depth, len(source.along.value))
    return out


def _by_ground(ground: GroundPieces, moves: Moves) -> float:
    """Of the heights of the surface's points, and of the ground between them."""
    by_end = moves.by_depth.ravel()
    variance = point_gradient(ground.ends, by_end).variance(ground.ends.surface)
    if moves.at_place:
        return variance + ground_variance(ground.ends, by_end)
    return variance + ground_variance(
        *_thinned(ground.inner, moves.by_depth.sum(axis=1)[ground.piece] * ground.share)
    )


def _thinned(levels: Levels, by: Floats) -> tuple[Levels, Floats]:
    """No more than so many levels: of neighbours that are taken together the middle one."""
    count = -(-len(by) // MOST_PLACES)
    if count <= 1:
        return levels, by
    starts = np.arange(0, len(by), count)
    rows = np.minimum(starts + count // 2, len(by) - 1)
    kept = Levels(levels.surface, levels.place[rows], levels.corner[rows], levels.weight[rows])
    return kept, np.asarray(np.add.reduceat(by, starts))


def tops_of(run: Run) -> Floats:
    """(m, 2) how wide the section is at the ground, at either end of each piece, metres."""
    return run.figures(run.width.on.value, run.depth).top.value


def reach_of(run: Run, chainage: Floats) -> tuple[Floats, Floats]:
    """How far the section reaches to the left and to the right of its line at some places along it, metres."""
    top = np.interp(chainage, run.pieces.ends.ravel(), tops_of(run).ravel())
    return 0.5 * (1.0 + run.side) * top, 0.5 * (1.0 - run.side) * top


def refuse_tight(run: Run) -> None:
    """Arcs and corners that have no room for the trench on their inner side.

    Raises:
        BadInput: an arc whose radius is no larger than the trench reaches to that side, or an edge that the mitres at its
            ends use up.
    """
    half, lengths = run.line.half, run.line.edges.lengths
    before, after, turn = run.line.corners
    widest, cut = np.zeros(len(half)), np.zeros(len(half))
    np.maximum.at(widest, run.edge, tops_of(run).max(axis=1))
    for edge in (before, after):
        np.add.at(cut, edge, np.tan(0.5 * turn))
    for lies in (1.0, -1.0):
        reach = 0.5 * widest * (1.0 + lies * run.side)
        bend = lies * 2.0 * half
        bad = (lengths > 0.0) & (reach > 0.0) & (lengths - reach * (bend + lies * cut) <= 0.0)
        if bad.any():
            _refuse_edge(
                run, reach, int(np.argmax(bad)), is_arc=bool((lengths <= reach * bend)[np.argmax(bad)])
            )


def _refuse_edge(run: Run, reach: Floats, edge: int, *, is_arc: bool) -> None:
    length = float(run.line.edges.lengths[edge])
    if is_arc:
        raise BadInput(
            "Edge {edge} turns with a radius of {radius:.3f} m, and the trench reaches {reach:.3f} m to its inner side. "
            "Give a smaller width, or draw the line along the other side.",
            edge=edge + 1,
            radius=length / abs(2.0 * float(run.line.half[edge])),
            reach=float(reach[edge]),
        )
    raise BadInput(
        "Edge {edge}, {length:.3f} m long, has no room for the trench, which reaches {reach:.3f} m to its inner side: its "
        "corners are too tight. Give a smaller width, or draw the line simpler there.",
        edge=edge + 1,
        length=length,
        reach=float(reach[edge]),
    )
