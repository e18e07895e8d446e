# SPDX-License-Identifier: GPL-2.0-or-later
"""The geometry of a row: what was measured, with arcs in the vertical plane chorded."""

from __future__ import annotations

import json

import numpy as np

from ..quantity import Floats, Ints
from ..segments import Curve, bulges, chorded, reversed_curve, ring_area
from ..shape.records import DrawnLeg, Piece


def draw_edges(piece: Piece, edges: Ints | None = None) -> Curve:
    """Some edges, in a row, as walked; all where none are named."""
    edges = np.arange(len(piece.half)) if edges is None else edges
    curve = piece.curve(edges)
    standing = {leg.first: leg for leg in piece.legs if leg.vertical is not None}
    if not any(edge in standing for edge in edges.tolist()):
        return curve
    points, bulge = [curve.points[:1]], []
    for k, edge in enumerate(edges.tolist()):
        ends = curve.points[k : k + 2]
        inner = _stand(standing[edge], ends)[1:] if edge in standing else ends[1:]
        points.append(inner)
        bulge.append(np.zeros(len(inner)) if edge in standing else curve.bulge[k : k + 1])
    return Curve(np.concatenate(points), np.concatenate(bulge))


def _stand(leg: DrawnLeg, ends: Floats) -> Floats:
    """(n, 3) chords of an arc in the vertical plane, sag 2 mm."""
    half = leg.vertical.half if leg.vertical is not None else 0.0
    run = float(np.hypot(*(ends[1, :2] - ends[0, :2])))
    upright = np.array([[0.0, ends[0, 2], 0.0], [run, ends[1, 2], 0.0]])
    chords = chorded(Curve(upright, bulges(np.array([half]))))
    part = chords[:, :1] / run
    out = np.column_stack([ends[0, :2] + part * (ends[1, :2] - ends[0, :2]), chords[:, 1]])
    out[-1] = ends[1]
    return out


def outline_of(piece: Piece, *, anticlockwise: bool) -> Curve:
    """A closed piece as a ring that runs the way asked for."""
    curve = draw_edges(piece)
    is_left = ring_area(piece.curve()) >= 0.0
    return curve if is_left == anticlockwise else reversed_curve(curve)


def shape_text(pieces: tuple[Piece, ...]) -> str:
    """The arcs that stand in the vertical plane, exact, as JSON; "" where there are none. `sweep_deg` is
    positive where the arc sags below its chord; coordinates are of the survey plane, metres."""
    arcs = []
    for piece in pieces:
        for leg in piece.legs:
            if leg.vertical is not None:
                start, end = piece.curve(np.array([leg.first])).points
                arcs.append(
                    {
                        "start": [round(float(v), 9) for v in start],
                        "end": [round(float(v), 9) for v in end],
                        "radius_m": round(leg.vertical.radius, 9),
                        "sweep_deg": round(float(np.degrees(2.0 * leg.vertical.half)), 9),
                    }
                )
    return json.dumps({"vertical_arcs": arcs}) if arcs else ""
