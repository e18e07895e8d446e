# SPDX-License-Identifier: GPL-2.0-or-later
"""How a figure was come by, in a few words for the row that carries it."""

from __future__ import annotations

from collections.abc import Sequence

from ..shape.records import DrawnLeg, LegShape, Piece, Shape

WORDS = {
    LegShape.STRAIGHT: "straight",
    LegShape.ARC: "arc in plan",
    LegShape.CIRCLE: "full circle in plan",
    LegShape.AS_WALKED: "as walked (chords as recorded, row noise not taken off)",
    LegShape.VERTICAL: "arc in the vertical plane",
}


def leg_method(leg: DrawnLeg) -> str:
    """Of one leg or side."""
    words = WORDS[leg.shape]
    fitted = {LegShape.ARC: 1, LegShape.CIRCLE: 2, LegShape.VERTICAL: 1}.get(leg.shape)
    if fitted is None:
        return words
    if len(leg.passed) > fitted:
        return f"{words}, least squares through {len(leg.passed)} passed points, RMS {leg.rms:.4f} m"
    return f"{words} through {len(leg.passed)} passed point{'s' if len(leg.passed) > 1 else ''}"


def edges_method(pieces: Sequence[Piece]) -> str:
    """What a feature's edges are, each kind once."""
    legs = [leg for piece in pieces for leg in piece.legs]
    words = list(dict.fromkeys(leg_method(leg) for leg in legs))
    if any(piece.offset for piece in pieces):
        words.append("edges moved by the offsets")
    return "; ".join(words)


def area_method(shape: Shape, holes: Sequence[tuple[str, float]], *, has_plane: bool) -> str:
    """Of an area: its edges, how it was closed, what was deducted, and what its slope is taken from."""
    words = [f"plan area of exact edges: {edges_method(shape.pieces)}"]
    if shape.gap is None:
        words.append("closed by a direct side")
    else:
        words.append(f"closed where it began, gap {shape.gap:.3f} m")
    words += [f"less hole {place} ({area:.3f} m2)" for place, area in holes]
    if has_plane:
        words.append("slope and fall of the least-squares plane through the outline's stations")
    return "; ".join(words)


def length_method(shape: Shape) -> str:
    """Of a length: its edges, and in how many runs."""
    words = [f"plan length of exact edges: {edges_method(shape.pieces)}" if shape.pieces else "nothing drawn"]
    if len(shape.pieces) > 1:
        words.append(f"{len(shape.pieces)} runs with carries between; gradient from the rises of the runs")
    return "; ".join(words)
