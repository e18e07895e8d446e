# SPDX-License-Identifier: GPL-2.0-or-later
"""Joined pieces: how they move with the stations of all that they were joined of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ...quantity import Floats, Ints
from ...segments import STRAIGHT
from ..records import Piece, Pull
from .join import Bent, Way, bend, is_at, way_parts
from .lines import Line, part_of_chord
from .plan import FINE, Member, Plan, key_of


def joined_piece(lines: Sequence[Line], plan: Plan, number: int) -> Piece:
    """The piece as joined, which moves with the stations of all that it was joined of."""
    line, bent = lines[number], bend(lines, plan, number)
    piece, places = line.piece, plan.places[number]
    starts = np.append(places, len(piece.half)) if piece.closed else places
    index = {round(float(at)): k for k, at in enumerate(starts) if abs(at - round(float(at))) < 0.5 / FINE}
    legs = tuple(replace(leg, first=index[leg.first], last=index[leg.last]) for leg in piece.legs)
    return replace(
        piece,
        points=bent.points,
        half=bent.half,
        pull=_joined_pull(lines, plan, number, bent),
        legs=legs,
    )


def _joined_pull(lines: Sequence[Line], plan: Plan, number: int, bent: Bent) -> Pull:
    line, places = lines[number], plan.places[number]
    vertices: list[tuple[int, int, Floats]] = []
    edges: list[tuple[int, int, Floats]] = []
    heights: list[tuple[int, int, float]] = []
    for k, at in enumerate(places):
        members = plan.points.get(
            key_of(lines, number, float(at)), (Member(number, float(at), bent.points[k, :2], 1.0),)
        )
        for member in members:
            own = member_moves(lines, members, member) if member.weight else ()
            vertices += [(k, row, member.weight * by) for row, by in own]
        heights += [(k, row, by) for row, by in height_moves(line, float(at))]
    for k, (edge, part) in enumerate(zip(bent.edge, bent.part)):
        start = float(places[k])
        ways = plan.ways.get(key_of(lines, number, start))
        parts = way_parts(lines, plan, ways) if ways else [Way(number, start, start + part, 1.0, int(edge))]
        edges += [(k, row, by) for way in parts for row, by in way_moves(lines, plan, way)]
    return Pull(*_columns(vertices, (2, 2)), *_columns(edges, (2,)), *_columns(heights, ()))


def _columns(
    entries: Sequence[tuple[int, int, Floats | float]], shape: tuple[int, ...]
) -> tuple[Ints, Ints, Floats]:
    index = np.array([entry[:2] for entry in entries], dtype=np.int64).reshape(-1, 2)
    return index[:, 0], index[:, 1], np.array([entry[2] for entry in entries], float).reshape(-1, *shape)


def place_moves(line: Line, at: float) -> list[tuple[int, Floats]]:
    """How a place on a line moves with the stations, at a fixed part of its edge: row and change (2, 2).

    With m the place on a chord of 1 (a complex number, lines.py), the place is a + m (b - a), and by the half sweep h
    it moves by (b - a) m (t cot th - cot h - i (1 - t)).
    """
    piece = line.piece
    edge = int(line.edges_at(np.array([at]))[0])
    t = at - edge if not piece.closed else at - np.floor(at)
    first, last = (int(v[edge]) for v in piece.ends)
    if t == 0.0:
        return line.vertex_moves(first)
    half = float(piece.half[edge])
    m = complex(part_of_chord(np.array([t]), np.array([half]))[0])
    turn = np.array([[m.real, -m.imag], [m.imag, m.real]])
    out = [(row, by - turn @ by) for row, by in line.vertex_moves(first)]
    out += [(row, turn @ by) for row, by in line.vertex_moves(last)]
    if abs(half) >= STRAIGHT:
        chord = complex(*(line.xy[edge + 1] - line.xy[edge]))
        slope = chord * m * (t / np.tan(t * half) - 1.0 / np.tan(half) - 1j * (1.0 - t))
        out += [(row, np.outer([slope.real, slope.imag], by)) for row, by in line.half_moves(edge)]
    return out


def member_moves(
    lines: Sequence[Line], members: Sequence[Member], member: Member
) -> list[tuple[int, Floats]]:
    """How a place that becomes part of a point moves with the stations: row and change (2, 2).

    A place that a corner of another line faces moves across its own line with that line, but along it with the
    corner (of several, with their mean by weight): that is where it was found.
    """
    line = lines[member.line]
    own = place_moves(line, member.at)
    corners = [m for m in members if m.is_corner]
    if member.is_corner or not corners:
        return own
    direction = line.tangent_at(member.at)
    along = np.outer(direction, direction)
    out = [(row, by - along @ by) for row, by in own]
    return out + [(row, along @ by) for row, by in _mean_moves(lines, corners)]


def _mean_moves(lines: Sequence[Line], corners: Sequence[Member]) -> list[tuple[int, Floats]]:
    total = sum(m.weight for m in corners)
    weights = [m.weight / total if total > 0.0 else 1.0 / len(corners) for m in corners]
    return [(row, w * by) for m, w in zip(corners, weights) for row, by in place_moves(lines[m.line], m.at)]


def way_moves(lines: Sequence[Line], plan: Plan, way: Way) -> list[tuple[int, Floats]]:
    """How the half sweep of a way moves with the stations: with that of its edge, and as its ends slip along it."""
    line = lines[way.line]
    half = float(line.piece.half[way.edge])
    out = [(row, way.weight * (way.end - way.start) * by) for row, by in line.half_moves(way.edge)]
    if half:
        for at, factor in ((way.end, half), (way.start, -half)):
            out += [(row, way.weight * factor * by) for row, by in _slip(lines, plan, way.line, at)]
    return out


def _slip(lines: Sequence[Line], plan: Plan, number: int, at: float) -> list[tuple[int, Floats]]:
    """How the part of the way along its edge at which a place lies moves with the stations: row and change (2,)."""
    members = plan.points.get(key_of(lines, number, at), ())
    corners = [m for m in members if m.is_corner]
    if not corners or any(is_at(lines, m, number, at) for m in corners):
        return []
    line = lines[number]
    along = line.tangent_at(at) / line.lengths[int(line.edges_at(np.array([at]))[0])]
    away = [(row, along @ by) for row, by in _mean_moves(lines, corners)]
    return away + [(row, -along @ by) for row, by in place_moves(line, at)]


def height_moves(line: Line, at: float) -> list[tuple[int, float]]:
    """How the height of a place on a line moves with the stations' heights."""
    piece = line.piece
    edge = int(line.edges_at(np.array([at]))[0])
    t = at - edge if not piece.closed else at - np.floor(at)
    ends = ((int(piece.ends[0][edge]), 1.0 - t), (int(piece.ends[1][edge]), t))
    return [(row, weight * by) for vertex, weight in ends if weight for row, by in line.height_moves(vertex)]
