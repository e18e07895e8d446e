# SPDX-License-Identifier: GPL-2.0-or-later
"""How a figure was come by, in a few words for the row that carries it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..shape.records import DrawnLeg, Fit, Kept, LegShape, Piece, Shape

WORDS = {
    LegShape.STRAIGHT: "straight",
    LegShape.ARC: "arc in plan",
    LegShape.CIRCLE: "full circle in plan",
    LegShape.AS_WALKED: "as walked (chords as recorded, row noise not taken off)",
    LegShape.VERTICAL: "arc in the vertical plane",
}
KEPT = {
    Kept.NOTHING_FITS: "no straight or arc within {tolerance:g} m that the {rows} rows speak for",
    Kept.TOO_FEW: "fewer than four different rows, too few to fit",
    Kept.OFFSETS: "not fitted, for the {rows} rows have different offsets",
    Kept.TOO_MANY: "not fitted, for {rows} rows are too many to fit at once",
}
TANGENT = {
    (True, True): ", tangent at both ends",
    (True, False): ", tangent at its start",
    (False, True): ", tangent at its end",
}


def is_as_walked(method: str) -> bool:
    """Whether a row's method says that its edges are chords from row to row."""
    return WORDS[LegShape.AS_WALKED] in method


def leg_method(leg: DrawnLeg) -> str:
    """Of one leg or side."""
    words = WORDS[leg.shape]
    if leg.fit is not None:
        return _fitted_method(leg, leg.fit)
    fitted = {LegShape.ARC: 1, LegShape.CIRCLE: 2, LegShape.VERTICAL: 1}.get(leg.shape)
    if fitted is None:
        return words
    if len(leg.passed) > fitted:
        return f"{words}, least squares through {len(leg.passed)} passed points, RMS {leg.rms:.4f} m"
    return f"{words} through {len(leg.passed)} passed point{'s' if len(leg.passed) > 1 else ''}"


def _fitted_method(leg: DrawnLeg, fit: Fit) -> str:
    words = WORDS[leg.shape]
    if fit.kept is not None:
        return f"{words}: {KEPT[fit.kept].format(tolerance=fit.tolerance, rows=fit.rows)}"
    words += TANGENT.get((fit.starts_tangent, fit.ends_tangent), "")
    words += f", fitted to {fit.rows} as-walked rows within {fit.tolerance:g} m: {_residuals(fit.rms, fit.largest)}"
    if math.isfinite(fit.gain):
        is_straight = leg.shape is LegShape.STRAIGHT
        words += f"; {'an arc would take off' if is_straight else 'preferred to a straight by'} chi2 {fit.gain:.1f}"
    return f"{words}; height even along it"


def _residuals(rms: float, largest: float) -> str:
    return f"RMS {rms:.4f} m, largest {largest:.4f} m"


def edges_method(pieces: Sequence[Piece]) -> str:
    """What a feature's edges are, each kind once; what was fitted to as-walked rows in one go."""
    legs = [leg for piece in pieces for leg in piece.legs]
    fits = [(leg.shape, leg.fit) for leg in legs if leg.fit is not None and leg.fit.kept is None]
    words = [leg_method(leg) for leg in legs if leg.fit is None or leg.fit.kept is not None]
    words = list(dict.fromkeys(([_fits_method(fits)] if fits else []) + words))
    if any(piece.offset for piece in pieces):
        words.append("edges moved by the offsets")
    return "; ".join(words)


def _fits_method(fits: Sequence[tuple[LegShape, Fit]]) -> str:
    """Of all pieces that were fitted: how many of each kind, and what speaks for them together."""
    arcs = [fit.gain for shape, fit in fits if shape is not LegShape.STRAIGHT]
    rows = sum(fit.rows for _, fit in fits)
    rms = math.sqrt(sum(fit.rows * fit.rms**2 for _, fit in fits) / max(rows, 1))
    counts = _count(len(fits) - len(arcs), "straight") + _count(len(arcs), "arc")
    words = f"{' and '.join(counts)} fitted to {rows} as-walked rows within {fits[0][1].tolerance:g} m: "
    words += _residuals(rms, max(fit.largest for _, fit in fits))
    known = [gain for gain in arcs if math.isfinite(gain)]
    return words + (f"; an arc preferred to a straight by chi2 {min(known):.1f} at least" if known else "")


def _count(number: int, word: str) -> list[str]:
    return [f"{number} {word}{'s' if number > 1 else ''}"] if number else []


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
