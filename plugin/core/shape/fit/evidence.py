# SPDX-License-Identifier: GPL-2.0-or-later
"""The evidence for each piece of a fitted chain: its figures, their sigmas, and what speaks for an arc."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...quantity import Floats
from ...segments import length_factor
from .chains import Fitted
from .cuts import LEAST_STRAIGHT, Cut, PieceKind
from .fitted import FittedPiece
from .joints import fit_alone
from .tangent import chord_angles


def tell_pieces(points: Floats, fitted: Fitted, sigma: float, *, closed: bool) -> list[FittedPiece]:
    """One record for each piece of a chain; rows and edges are numbered within it.

    Args:
        points: (n, 2) rows, metres.
        fitted: the chain.
        sigma: one-sigma of a row in metres, rows that err together taken into account.
        closed: whether the last piece meets the first.
    """
    tangent = fitted.fit.chain.is_tangent
    after = np.append(tangent[1:], tangent[0] if closed else False)
    return [
        replace(
            _tell_piece(points, fitted, j, sigma),
            starts_tangent=bool(tangent[j]),
            ends_tangent=bool(after[j]),
            gain=measure_gain(points, cut, sigma),
        )
        for j, cut in enumerate(fitted.cuts)
    ]


def measure_gain(points: Floats, cut: Cut, sigma: float) -> float:
    """Chi-square that an arc takes off the rows of a cut, against a straight; NaN of fewer than four rows, or where
    there is no sigma."""
    if cut.last - cut.first + 1 < LEAST_STRAIGHT:
        return float("nan")
    straight = fit_alone(points, replace(cut, kind=PieceKind.STRAIGHT)).residual
    arc = fit_alone(points, replace(cut, kind=PieceKind.ARC)).residual
    more = max(float(straight @ straight - arc @ arc), 0.0)
    return more / sigma**2 if sigma > 0.0 else float("nan")


def _tell_piece(points: Floats, fitted: Fitted, j: int, sigma: float) -> FittedPiece:
    chain, cut = fitted.fit.chain, fitted.cuts[j]
    residual = fitted.fit.residual[chain.piece == j]
    start, end = chain.vertices[j], chain.vertices[chain.after[j]]
    half = float(chain.half[j])
    length, length_sigma = _length(fitted, j, sigma)
    radius, radius_sigma, sweep_sigma = float("inf"), float("nan"), float("nan")
    if chain.is_arc[j]:
        radius, radius_sigma, sweep_sigma = _radius(fitted, j, sigma)
    return FittedPiece(
        cut.kind,
        cut.first,
        cut.last,
        j,
        1,
        start,
        end,
        float(np.tan(0.5 * half)),
        radius,
        radius_sigma,
        2.0 * half,
        sweep_sigma,
        length,
        length_sigma,
        float(np.sqrt((residual**2).mean())) if len(residual) else 0.0,
        float(np.abs(residual).max(initial=0.0)),
        len(residual),
    )


def _by_chord(fitted: Fitted, j: int, by_chord: float, by_half: float) -> Floats:
    """(p,) change of a figure of piece j by the unknowns, from that by its chord and half sweep."""
    chain = fitted.fit.chain
    chord, length, _ = chord_angles(chain)
    out = np.zeros(chain.unknowns)
    a, b = 2 * j, 2 * chain.after[j]
    out[b : b + 2] += by_chord * chord[j] / length[j]
    out[a : a + 2] -= by_chord * chord[j] / length[j]
    if chain.is_arc[j]:
        out[chain.slot[j]] = by_half
    return out


def _sigma_of(fitted: Fitted, by: Floats, sigma: float) -> float:
    return sigma * float(np.sqrt(max(float(by @ fitted.fit.cofactor @ by), 0.0)))


def _length(fitted: Fitted, j: int, sigma: float) -> tuple[float, float]:
    chain = fitted.fit.chain
    chord = float(chord_angles(chain)[1][j])
    factor, slope = (float(v[0]) for v in length_factor(chain.half[j : j + 1]))
    return chord * factor, _sigma_of(fitted, _by_chord(fitted, j, factor, chord * slope), sigma)


def _radius(fitted: Fitted, j: int, sigma: float) -> tuple[float, float, float]:
    """Radius, its sigma, and the sigma of the sweep: R = chord/(2 sin a) at half sweep a."""
    chain = fitted.fit.chain
    chord, half = float(chord_angles(chain)[1][j]), abs(float(chain.half[j]))
    sine = max(float(np.sin(half)), 1e-300)
    radius = 0.5 * chord / sine
    by_half = -radius / np.tan(max(half, 1e-300)) * float(np.sign(chain.half[j]))
    by = _by_chord(fitted, j, 0.5 / sine, float(by_half))
    turn = _sigma_of(fitted, _by_chord(fitted, j, 0.0, 2.0), sigma)
    return radius, _sigma_of(fitted, by, sigma), turn
