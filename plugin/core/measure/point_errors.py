# SPDX-License-Identifier: GPL-2.0-or-later
"""What the drawn points of a feature err against each other, in few numbers by point, so that figures taken off the survey
years later have the survey's own uncertainty: the largest parts of their covariance, and what each point errs by itself.

The points are what is drawn and measured: vertices, which may be moved by an offset, joined with a neighbour's or fitted, and
the middles of arcs; each moves with the stations as its piece says. All rows of one name are one feature, so that foot and top
of a wall are told together; of two features nothing is told.

Sizes feel neither a shift nor a turn of the whole feature. Of the errors in plan both are taken out first, as a best fit of the
feature onto its true place would: e' = e - H q with H the shifts and the turn, and g'e' = g'e for every figure of which
g'H = 0. What is left needs fewer parts: with 2n - 3 of them nothing of n stations is lost, and neither the placement, its picks
nor the common shift takes one. Of heights nothing is taken out, so that they may be held against a level.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from ..place.shared import NOTHING, turned_up
from ..quantity import Floats, Ints
from ..segments import bulges, ring_area
from ..shape.records import Piece, Shape
from ..walk import Kind
from .rows import PointErrors

if TYPE_CHECKING:
    from ..place.fit import Placed
    from .shapes import Rows

PLAN_PARTS, HEIGHT_PARTS = 40, 20
"""Numbers kept by point: of a feature of 21 stations in plan and of 20 in height, all there are."""
MOST_POINTS = 300
"""Points of a feature, and stations behind them, beyond which nothing is told: their covariance would take too long, and
their text too much room."""
LEAST_RISE = 1e-5
"""Metres: an arc that rises less over its chord is drawn as a straight, without a middle."""
TURN = np.array([[0.0, 1.0], [-1.0, 0.0]])
"""A way to the one at its right."""


@dataclass(frozen=True, eq=False)
class _Drawn:
    """The points of a run as it is drawn, and how they move with stations: (n, 3) places, (s,) rows of the stations, (n, 2, s, 2)
    change in plan and (n, s) in height by metre of each."""

    xyz: Floats
    rows: Ints
    plan: Floats
    height: Floats


def tell_points(rows: Rows, shapes: Sequence[Shape], placed: Placed) -> Rows:
    """The rows of areas and lengths with what their points err, as far as it can be told."""
    areas = [shape for shape in shapes if shape.kind is Kind.AREA]
    lengths = [shape for shape in shapes if shape.kind is Kind.LENGTH]
    holes: dict[int, list[Piece]] = {}
    for shape in shapes:
        if shape.parent is not None and shape.pieces:
            holes.setdefault(shape.parent, []).append(shape.pieces[0])
    number = {id(shape): k for k, shape in enumerate(shapes)}
    runs = {
        id(shape): [(piece, None) for piece in shape.pieces]
        if shape.kind is Kind.LENGTH
        else _rings(shape, holes.get(number[id(shape)], []))
        for shape in (*areas, *lengths)
    }
    features: dict[str, list[Shape]] = {}
    for shape in (*areas, *lengths):
        features.setdefault(shape.feature, []).append(shape)
    told: dict[int, tuple[PointErrors, ...]] = {}
    for its in features.values():
        drawn = _all_drawn([run for shape in its for run in runs[id(shape)]])
        errors = iter(_errors_of(drawn, placed) if drawn else ())
        for shape in its:
            told[id(shape)] = tuple(next(errors) for _ in runs[id(shape)]) if drawn else ()
    return replace(
        rows,
        areas=tuple(replace(row, errors=told[id(shape)]) for row, shape in zip(rows.areas, areas)),
        lengths=tuple(replace(row, errors=told[id(shape)]) for row, shape in zip(rows.lengths, lengths)),
    )


_Run = tuple[Piece, "bool | None"]
"""A piece, and whether its ring is drawn anticlockwise; None of a run that is drawn as walked."""


def _rings(shape: Shape, holes: Sequence[Piece]) -> list[_Run]:
    """The rings of an area as they are drawn: the outer one anticlockwise, its holes clockwise."""
    return [(shape.pieces[0], True), *((piece, False) for piece in holes)] if shape.pieces else []


def _all_drawn(runs: Sequence[_Run]) -> list[_Drawn]:
    """All runs of a feature; none where there are too many points, or one of them stands in an upright arc."""
    if any(leg.vertical is not None for piece, _ in runs for leg in piece.legs):
        return []
    if sum(len(piece.points) + np.count_nonzero(piece.half) for piece, _ in runs) > MOST_POINTS:
        return []
    pulls = [piece.pull for piece, _ in runs]
    behind = [rows for pull in pulls for rows in (pull.vertex_row, pull.edge_row, pull.height_row)]
    rows = np.unique(np.concatenate(behind)) if behind else np.zeros(0, np.int64)
    return [_drawn(run, rows) for run in runs] if len(rows) <= MOST_POINTS else []


def _drawn(run: _Run, rows: Ints) -> _Drawn:
    """The points of a run, vertices and middles in order, by the stations of some rows."""
    piece, anticlockwise = run
    count, (start, end) = len(piece.points), piece.ends
    by_vertex, by_height = _vertex_moves(piece, rows)
    chord = piece.points[end, :2] - piece.points[start, :2]
    bulge = bulges(piece.half)
    middle = 0.5 * (piece.points[start] + piece.points[end])
    middle[:, :2] += 0.5 * bulge[:, None] * (chord @ TURN.T)
    # The middle of an arc lies its rise to the right of its chord's middle: m = (a + b)/2 + t/2 R (b - a), t the bulge.
    by_middle = 0.5 * (by_vertex[start] + by_vertex[end])
    by_middle += (
        0.5 * bulge[:, None, None, None] * np.einsum("ij,ejsk->eisk", TURN, by_vertex[end] - by_vertex[start])
    )
    slope = 0.25 * (1.0 + bulge**2)
    by_middle += np.einsum("ei,esk->eisk", slope[:, None] * (chord @ TURN.T), _half_moves(piece, rows))
    is_arc = np.abs(bulge) * np.hypot(*chord.T) / 2.0 > LEAST_RISE
    order = [int(start[0])] if len(start) else [0]
    for edge in range(len(start)):
        order += [count + edge, int(end[edge])] if is_arc[edge] else [int(end[edge])]
    if anticlockwise is not None and (ring_area(piece.curve()) >= 0.0) != anticlockwise:
        order = order[::-1]
    by_mid_height = 0.5 * (by_height[start] + by_height[end])
    return _Drawn(
        np.concatenate([piece.points, middle])[order],
        rows,
        np.concatenate([by_vertex, by_middle])[order],
        np.concatenate([by_height, by_mid_height])[order],
    )


def _vertex_moves(piece: Piece, rows: Ints) -> tuple[Floats, Floats]:
    """(v, 2, s, 2) change of vertices in plan and (v, s) in height by stations."""
    pull, count = piece.pull, len(piece.points)
    plan, height = np.zeros((count, len(rows), 2, 2)), np.zeros((count, len(rows)))
    np.add.at(plan, (pull.vertex, np.searchsorted(rows, pull.vertex_row)), pull.vertex_by)
    np.add.at(height, (pull.height, np.searchsorted(rows, pull.height_row)), pull.height_by)
    return plan.transpose(0, 2, 1, 3), height


def _half_moves(piece: Piece, rows: Ints) -> Floats:
    """(e, s, 2) change of half sweeps by stations."""
    pull = piece.pull
    out = np.zeros((len(piece.half), len(rows), 2))
    np.add.at(out, (pull.edge, np.searchsorted(rows, pull.edge_row)), pull.edge_by)
    return out


def _errors_of(drawn: Sequence[_Drawn], placed: Placed) -> list[PointErrors]:
    """The errors of all points of a feature together."""
    rows, xyz = drawn[0].rows, np.concatenate([run.xyz for run in drawn])
    count = len(xyz)
    lead = np.concatenate([run.plan for run in drawn]).reshape(2 * count, -1)
    free = _rigid(xyz[:, :2])
    lead -= free @ (np.linalg.pinv(free) @ lead)
    whole = placed.plan_covariance(rows).reshape(2 * len(rows), -1)
    plan, left = _parts(lead, whole, PLAN_PARTS)
    own = np.full((count, 2), np.nan)
    own[:, 0] = np.sqrt(left.reshape(count, 2).mean(axis=1))
    height = np.zeros((count, 0))
    known = np.isfinite(xyz[:, 2])
    if known.any():
        lift = np.concatenate([run.height for run in drawn])[known]
        behind = np.flatnonzero(lift.any(axis=0))
        some, left = _parts(lift[:, behind], placed.height_covariance(rows[behind]), HEIGHT_PARTS)
        height = np.zeros((count, some.shape[1]))
        height[known], own[known, 1] = some, np.sqrt(left)
    parts = plan.reshape(count, 2, -1).transpose(0, 2, 1)
    ends = np.cumsum([0, *(len(run.xyz) for run in drawn)]).tolist()
    return [
        PointErrors(xyz[a:b, :2], own[a:b], parts[a:b], height[a:b], xyz[a:b, 2])
        for a, b in zip(ends, ends[1:])
    ]


def _rigid(xy: Floats) -> Floats:
    """(2n, 3) how places move with shifts along both axes and with a turn, the turn by its reach so that all count alike."""
    arm = xy - xy.mean(axis=0)
    arm = arm / max(float(np.abs(arm).max()), 1e-9)
    out = np.zeros((len(xy), 2, 3))
    out[:, 0, 0] = out[:, 1, 1] = 1.0
    out[:, 0, 2], out[:, 1, 2] = -arm[:, 1], arm[:, 0]
    return out.reshape(-1, 3)


def _parts(lead: Floats, whole: Floats, most: int) -> tuple[Floats, Floats]:
    """(m, k) the largest parts of the covariance L C L' of what follows a covariance C (s, s) by L (m, s), and (m,) the
    variances that are left."""
    covariance = lead @ whole @ lead.T
    values, vectors = np.linalg.eigh(covariance)
    good = np.flatnonzero(values > NOTHING * max(float(values[-1]), 0.0))[::-1][:most]
    parts = vectors[:, good] * np.sqrt(values[good])
    parts *= turned_up(parts)
    return parts, np.maximum(np.diag(covariance) - (parts**2).sum(axis=1), 0.0)
