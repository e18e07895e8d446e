# SPDX-License-Identifier: GPL-2.0-or-later
"""Whether a piece of an outline lies within the tolerance of what was recorded there, and that of it."""

from __future__ import annotations

import numpy as np

from ...quantity import Floats
from .outline_pieces import OutlineKind, OutlinePiece

SAMPLES = 24
"""Places along a piece that are looked at, and one for each of its edges as recorded."""
MOST_SAMPLES = 120
SLACK = 1.0 + 1e-9


def lies_within(piece: OutlinePiece, own: Floats, around: Floats, tolerance: float) -> bool:
    """Whether all of a piece lies near the recorded line, and its own vertices lie beside it, not beyond its ends.

    Args:
        piece: as fitted.
        own: (m, 2) its vertices, metres.
        around: (k, 2) the recorded line along it, an edge more at both ends.
        tolerance: metres.
    """
    if piece.kind is OutlineKind.AS_RECORDED:
        places = piece.points[[0, -1]]
    else:
        places = _places(piece, min(SAMPLES + len(own), MOST_SAMPLES))
    most = tolerance * SLACK
    if _distance_to_line(places, around).max() > most:
        return False
    return piece.kind is OutlineKind.AS_RECORDED or bool(_beyond(piece, own).max(initial=0.0) <= most)


def _places(piece: OutlinePiece, count: int) -> Floats:
    """(count, 2) along a straight or an arc."""
    part = np.linspace(0.0, 1.0, count)
    if not piece.is_arc:
        return np.asarray(piece.start + part[:, None] * (piece.end - piece.start))
    spoke = complex(*(piece.start - piece.centre)) * np.exp(1j * part * piece.sweep)
    return np.asarray(piece.centre + np.column_stack([spoke.real, spoke.imag]))


def _beyond(piece: OutlinePiece, own: Floats) -> Floats:
    """(m,) how far along it each vertex lies beyond the ends of a piece, metres; negative between them."""
    if not piece.is_arc:
        length = max(piece.chord, 1e-300)
        along = (own - piece.start) @ (piece.end - piece.start) / length
        return np.asarray(np.maximum(-along, along - length))
    away = own - piece.centre
    middle = complex(*(piece.start - piece.centre)) * np.exp(0.5j * piece.sweep)
    turn = np.abs(np.angle((away[:, 0] + 1j * away[:, 1]) * np.conj(middle)))
    return np.asarray((turn - 0.5 * abs(piece.sweep)) * piece.radius)


def _distance_to_line(places: Floats, line: Floats) -> Floats:
    """(n,) from each place to a line of straights (k, 2), metres."""
    start, chord = line[None, :-1], np.diff(line, axis=0)[None]
    away = places[:, None] - start
    square = np.maximum((chord**2).sum(axis=2), 1e-300)
    part = np.clip((away * chord).sum(axis=2) / square, 0.0, 1.0)
    return np.asarray(np.sqrt(((away - part[..., None] * chord) ** 2).sum(axis=2).min(axis=1)))
