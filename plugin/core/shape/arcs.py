# SPDX-License-Identifier: GPL-2.0-or-later
"""A curve as walked to an arc: which kind it is, and whether it can be believed (GE-03, GE-04)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

import numpy as np

from ..circle import ArcFit, ClosedFit, fit_arc, fit_closed_circle
from ..errors import PointsInLine, TooFewPoints
from ..quantity import Floats, Ints
from ..segments import length_factor
from .records import LegShape, VerticalArc
from .spread import Spread
from .trace import By, Edge, Node, joined

IN_LINE_SIGMAS = 2.0
"""A point within this many sigma of a straight lies on it."""
IN_LINE = 0.0005
"""Metres: and so does one within this, however well it is known."""
HEIGHT_SIGMAS = 3.0
"""Heights off the even rise by more than this many sigma stand for an arc in the vertical plane."""
MISS_SIGMAS = 3.0
"""A curve that misses a passed point by more than this many sigma is asked about."""
LEAST_MISS = 0.001
"""Metres: no miss or height difference smaller than this is, however small sigma is."""
LEAST_RADIUS = 0.3
"""Metres: a curve as tight as this is asked about."""
MOST_SWEEP = np.radians(350.0)
"""Radians: a curve that goes as far round without closing is asked about."""


class Doubt(Enum):
    """Why a curve as drawn may not be what was walked."""

    NO_PASSING_POINT = "no passing point"
    STRAIGHT = "straight within sigma"
    MISSES = "misses a passed point"
    TIGHT = "radius too small"
    FAR_ROUND = "goes nearly round without closing"


APART = 1e-9
"""Radians of half sweep: points of an arc nearer than this are one."""
EXACT_CIRCLE = 2
"""A circle through its start passes this many points exactly."""


@dataclass(frozen=True, eq=False)
class Drawn:
    """A curve as drawn: its edges, and what is doubtful about it."""

    shape: LegShape
    edges: tuple[Edge, ...]
    rms: float = 0.0
    vertical: VerticalArc | None = None
    doubt: Doubt | None = None
    number: int = 0
    """Of the passed point the doubt is about."""
    size: float = 0.0
    """Metres or radians of what is doubtful."""
    sigma: float = 0.0


def draw_curve(start: Node, passed: Sequence[Node], end: Node, spread: Spread, *, closed: bool) -> Drawn:
    """The arc from start through the passed points to end; `closed`: end and start are one point."""
    straight = (Edge(end),)
    if not passed:
        return Drawn(LegShape.STRAIGHT, straight, doubt=Doubt.NO_PASSING_POINT)
    nodes = [start, *passed] if closed else [start, *passed, end]
    xy = np.array([node.xy for node in nodes])
    try:
        if closed:
            return _judged_circle(fit_closed_circle(xy), nodes, end, spread)
        if _is_in_line(nodes, xy, spread):
            return _standing_arc(nodes, xy, spread) or Drawn(
                LegShape.STRAIGHT, straight, doubt=Doubt.STRAIGHT
            )
        return _judged_arc(fit_arc(xy), nodes, xy, spread)
    except (PointsInLine, TooFewPoints):
        return Drawn(LegShape.STRAIGHT, straight, doubt=Doubt.STRAIGHT)


def _sigmas(spread: Spread, nodes: Sequence[Node], by_points: Floats) -> Floats:
    """(m,) one-sigma of figures that move with nodes by (m, k, 2)."""
    rows = [row for node in nodes for row, _ in node.by]
    by = np.concatenate([by_points[:, i] @ own for i, node in enumerate(nodes) for _, own in node.by], axis=1)
    return spread.sigmas(rows, by.reshape(len(by_points), len(rows), 2))


def off_line(xy: Floats) -> tuple[Floats, Floats, Floats]:
    """Of points between a first and a last: part of the way along, distance to the left of the straight in
    metres, and the change of that distance by metre of each point (m, k, 2)."""
    chord = xy[-1] - xy[0]
    length = float(np.hypot(*chord))
    normal = np.array([-chord[1], chord[0]]) / length
    rel = xy[1:-1] - xy[0]
    part, off = rel @ chord / length**2, rel @ normal
    m = len(part)
    by = np.zeros((m, m + 2, 2))
    by[np.arange(m), np.arange(m) + 1] = normal
    by[:, 0], by[:, -1] = -(1.0 - part)[:, None] * normal, -part[:, None] * normal
    return part, off, by


def _is_in_line(nodes: Sequence[Node], xy: Floats, spread: Spread) -> bool:
    if np.hypot(*(xy[-1] - xy[0])) < IN_LINE:
        raise TooFewPoints("The ends of the curve are one point.")
    _, off, by = off_line(xy)
    return bool(np.all(np.abs(off) <= np.maximum(IN_LINE_SIGMAS * _sigmas(spread, nodes, by), IN_LINE)))


def _standing_arc(nodes: Sequence[Node], xy: Floats, spread: Spread) -> Drawn | None:
    """An arc in the vertical plane over the straight, where the heights say so."""
    z = np.array([node.z for node in nodes])
    if not np.isfinite(z).all():
        return None
    chord = xy[-1] - xy[0]
    length = float(np.hypot(*chord))
    along = chord / length
    u = (xy - xy[0]) @ along
    part = u[1:-1] / length
    off = z[1:-1] - z[0] - part * (z[-1] - z[0])
    rows = [row for node in nodes for row, _ in node.z_by]
    factors = [
        [f * w for k, node in enumerate(nodes) for _, w in node.z_by for f in [_weight(k, i, t, len(nodes))]]
        for i, t in enumerate(part)
    ]
    sigmas = np.array([spread.height_sigma(rows, factor) for factor in factors])
    if np.all(np.abs(off) <= np.maximum(HEIGHT_SIGMAS * sigmas, LEAST_MISS)):
        return None
    fit = fit_arc(np.column_stack([u, z]))
    vertical = _measure_standing(fit, nodes, xy, z, along)
    rms = float(np.sqrt((fit.residual**2).mean()))
    return Drawn(LegShape.VERTICAL, (Edge(nodes[-1]),), rms, vertical)


def _weight(k: int, i: int, part: float, n: int) -> float:
    """Factor of node k's height in how far passed point i lies above the even rise."""
    if k == 0:
        return -(1.0 - part)
    if k == n - 1:
        return -part
    return 1.0 if k == i + 1 else 0.0


def _measure_standing(
    fit: ArcFit, nodes: Sequence[Node], xy: Floats, z: Floats, along: Floats
) -> VerticalArc:
    """Length of the standing arc, chord * a/sin a, and how it moves; u = (p - p0).e turns with the ends."""
    run, rise = float(np.hypot(*(xy[-1] - xy[0]))), float(z[-1] - z[0])
    chord, sin = float(np.hypot(run, rise)), float(np.sin(fit.half))
    factor, slope = (float(v[0]) for v in length_factor(np.array([fit.half])))
    by_u = chord * slope * fit.by_points[:, 0]
    by_z = chord * slope * fit.by_points[:, 1]
    by_z[-1] += factor * rise / chord
    by_z[0] -= factor * rise / chord
    normal = np.array([-along[1], along[0]])
    by_plan = by_u[:, None] * along
    by_plan[0] -= by_u.sum() * along
    swing = float(by_u @ ((xy - xy[0]) @ normal)) / run
    by_plan[-1] += swing * normal + factor * run / chord * along
    by_plan[0] -= swing * normal + factor * run / chord * along
    rows, plan, height = _by_stations(nodes, by_plan, by_z)
    radius = chord / (2.0 * abs(sin)) if sin else float("inf")
    return VerticalArc(fit.half, radius, chord * factor, rows, plan, height)


def _by_stations(nodes: Sequence[Node], by_plan: Floats, by_z: Floats) -> tuple[Ints, Floats, Floats]:
    rows, plan, height = [], [], []
    for node, p, h in zip(nodes, by_plan, by_z):
        weights = dict(node.z_by)
        for row, own in node.by:
            rows.append(row)
            plan.append(p @ own)
            height.append(h * weights.get(row, 0.0))
    return np.array(rows, dtype=np.int64), np.array(plan), np.array(height)


def _judged_arc(fit: ArcFit, nodes: Sequence[Node], xy: Floats, spread: Spread) -> Drawn:
    edges = _split_arc(fit, nodes)
    rms = float(np.sqrt((fit.residual**2).mean())) if len(fit.residual) > 1 else 0.0
    if len(fit.residual) > 1:
        missed = _worst_miss(fit.residual, _sigmas(spread, nodes, fit.residual_by_points))
        if missed:
            return Drawn(LegShape.ARC, edges, rms, None, Doubt.MISSES, *missed)
    radius = float(np.hypot(*(xy[-1] - xy[0]))) / (2.0 * abs(np.sin(fit.half)))
    if radius < LEAST_RADIUS:
        return Drawn(LegShape.ARC, edges, rms, None, Doubt.TIGHT, size=radius)
    if 2.0 * abs(fit.half) > MOST_SWEEP:
        return Drawn(LegShape.ARC, edges, rms, None, Doubt.FAR_ROUND, size=2.0 * abs(fit.half))
    return Drawn(LegShape.ARC, edges, rms)


def _judged_circle(fit: ClosedFit, nodes: Sequence[Node], end: Node, spread: Spread) -> Drawn:
    edges = _split_circle(fit, nodes, end)
    rms = float(np.sqrt((fit.residual**2).mean())) if len(fit.residual) > EXACT_CIRCLE else 0.0
    if len(fit.residual) > EXACT_CIRCLE:
        missed = _worst_miss(fit.residual, _sigmas(spread, nodes, fit.residual_by_points))
        if missed:
            return Drawn(LegShape.CIRCLE, edges, rms, None, Doubt.MISSES, *missed)
    radius = float(np.hypot(*(nodes[0].xy - fit.centre)))
    if radius < LEAST_RADIUS:
        return Drawn(LegShape.CIRCLE, edges, rms, None, Doubt.TIGHT, size=radius)
    return Drawn(LegShape.CIRCLE, edges, rms)


def _worst_miss(residual: Floats, sigma: Floats) -> tuple[int, float, float] | None:
    """The passed point missed by most sigma, if that is too many: its number, the miss and its sigma."""
    over = np.abs(residual) / np.maximum(MISS_SIGMAS * sigma, LEAST_MISS)
    worst = int(np.argmax(over))
    if over[worst] <= 1.0:
        return None
    return worst, float(abs(residual[worst])), float(sigma[worst])


def _kept(along: Floats, whole: float, passed: Sequence[Node]) -> list[int]:
    """The passed points at which the arc is divided, so that its height runs evenly between its stations:
    those with a height, as long as they lie one after the other along the arc."""
    kept, before = [], 0.0
    for i, node in enumerate(passed):
        if np.isfinite(node.z) and before < abs(along[i]) - APART < abs(whole) - 2.0 * APART:
            kept.append(i)
            before = float(abs(along[i]))
    return kept


def _foot_node(nodes: Sequence[Node], i: int, foot: Floats, foot_by: Floats) -> Node:
    """Passed point i (node i + 1), moved on to the arc."""
    by = joined([(node, foot_by[i][:, k]) for k, node in enumerate(nodes)])
    own = nodes[i + 1]
    return Node(foot[i], own.z, own.rows, by, own.z_by, own.offset)


def _edges_between(
    nodes: Sequence[Node],
    kept: Sequence[int],
    whole: float,
    whole_by: Floats,
    fit: ArcFit | ClosedFit,
    end: Node,
) -> tuple[Edge, ...]:
    """The arc from station to station; each part's half sweep is the difference of those from the start."""
    out, before, before_by = [], 0.0, np.zeros_like(whole_by)
    for i in kept:
        by = fit.along_by_points[i] - before_by
        node = _foot_node(nodes, i, fit.foot, fit.foot_by_points)
        out.append(Edge(node, float(fit.along[i]) - before, _told(nodes, by)))
        before, before_by = float(fit.along[i]), fit.along_by_points[i]
    out.append(Edge(end, whole - before, _told(nodes, whole_by - before_by)))
    return tuple(out)


def _told(nodes: Sequence[Node], by: Floats) -> By:
    return joined([(node, by[k]) for k, node in enumerate(nodes)])


def _split_arc(fit: ArcFit, nodes: Sequence[Node]) -> tuple[Edge, ...]:
    kept = _kept(fit.along, fit.half, nodes[1:-1])
    return _edges_between(nodes, kept, fit.half, fit.by_points, fit, nodes[-1])


def _split_circle(fit: ClosedFit, nodes: Sequence[Node], end: Node) -> tuple[Edge, ...]:
    """The circle in parts from station to station, or as two halves where fewer than two have heights."""
    whole = fit.turn * np.pi
    kept = _kept(fit.along, whole, nodes[1:])
    none = np.zeros((len(nodes), 2))
    if len(kept) > 1:
        return _edges_between(nodes, kept, whole, none, fit, end)
    across_by = 2.0 * fit.centre_by_points
    across_by[:, 0] -= np.eye(2)
    by = joined([(node, across_by[:, k]) for k, node in enumerate(nodes)])
    across = Node(2.0 * fit.centre - nodes[0].xy, float("nan"), (), by, (), nodes[0].offset)
    return Edge(across, whole / 2.0), Edge(end, whole / 2.0)
