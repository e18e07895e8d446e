# SPDX-License-Identifier: GPL-2.0-or-later
"""From cuts to fitted chains: where pieces meet, which meet as tangents, and which row belongs to which."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from ...quantity import Floats
from .cuts import LEAST_ARC, LEAST_STRAIGHT, Cut, PieceKind
from .joints import Alone, Lone, is_smooth
from .tangent import Chain, ChainFit, chord_angles, fit_chain

Flags = npt.NDArray[np.bool_]

ROUNDS = 4
"""Times that rows near the joints are handed over to the piece they lie beside."""


WORSE = 36.0
"""Chi-square that handing rows over may cost: what an arc is worth."""
NEAR = 0.5
"""Radians along an arc from a joint within which rows may change over."""
LEAST_NEAR = 4
"""Rows on either side of a joint that may, whatever the arc."""


AT_JOINT = 1e-3
"""Sigma from a joint within which a row is at it."""


@dataclass(frozen=True, eq=False)
class Walked:
    """The rows as they are divided: pieces of them each `alone`, `stands` the rows that are corners, whether the ends
    are held to their rows, and whether the last piece meets the first."""

    alone: Alone
    sigma: float
    stands: frozenset[int]
    is_held: bool
    wraps: bool

    @property
    def points(self) -> Floats:
        """(n, 2) the rows, near the origin, metres."""
        return self.alone.points


@dataclass(frozen=True, eq=False)
class Fitted:
    """A chain with the cuts it is made of."""

    cuts: tuple[Cut, ...]
    fit: ChainFit
    apart: float = 0.0
    """Sum of squares of its pieces fitted each alone, m2: of those it began with, or it ended with, the smaller."""


def fit_cuts(walked: Walked, cuts: Sequence[Cut]) -> Fitted:
    """Fit smooth pieces in a row at once.

    Args:
        walked: the rows and what is held.
        cuts: straights and arcs that follow one another without a gap.
    """
    lone = [walked.alone.fit(cut) for cut in cuts]
    apart = _squares_of(lone)
    cuts = [cut if one.is_arc else replace(cut, kind=PieceKind.STRAIGHT) for cut, one in zip(cuts, lone)]
    tangent = _find_tangents(walked, cuts, lone, hopeful=True)
    fitted = _fit_tangents(walked, cuts, lone, tangent)
    lone = [walked.alone.fit(cut) for cut in fitted.cuts]
    sure = _find_tangents(walked, fitted.cuts, lone)
    if np.any(tangent & ~sure):
        tangent = tangent & sure
        fitted = _fit_tangents(walked, fitted.cuts, lone, tangent)
    return replace(fitted, apart=min(apart, _squares_of(lone)))


def fit_tangents(walked: Walked, cuts: Sequence[Cut], tangent: Flags) -> Fitted:
    """Fit smooth pieces in a row at once, of which it is told which start as tangents of those before them."""
    lone = [walked.alone.fit(cut) for cut in cuts]
    return replace(_fit_tangents(walked, cuts, lone, tangent), apart=_squares_of(lone))


def _squares_of(lone: Sequence[Lone]) -> float:
    return sum(float(one.residual @ one.residual) for one in lone)


def _meeting(points: Floats, before: Lone, after: Lone, cut: Cut, other: Cut) -> Floats:
    """Where two pieces meet, roughly: between the last row of one and the first of the other."""
    middle = 0.5 * (points[cut.last] + points[other.first])
    return np.asarray(0.5 * (before.foot(middle) + after.foot(middle)))


def _find_tangents(
    walked: Walked, cuts: Sequence[Cut], lone: Sequence[Lone], *, hopeful: bool = False
) -> Flags:
    """(k,) whether each piece starts tangent to the one before it."""
    k = len(cuts)
    tangent = np.zeros(k, bool)
    for j in range(k):
        i = j - 1
        if (j == 0 and not walked.wraps) or cuts[j].first in walked.stands:
            continue
        at = _meeting(walked.points, lone[i], lone[j], cuts[i], cuts[j])
        tangent[j] = is_smooth(lone[i], lone[j], at, walked.sigma, hopeful=hopeful)
    return tangent


def _start(walked: Walked, cuts: Sequence[Cut], lone: Sequence[Lone], tangent: Flags) -> Chain:
    points, k = walked.points, len(cuts)
    vertices = [] if walked.wraps else [lone[0].foot(points[cuts[0].first])]
    for j in range(0 if walked.wraps else 1, k):
        stand = cuts[j].first in walked.stands
        vertices.append(
            points[cuts[j].first] if stand else _meeting(points, lone[j - 1], lone[j], cuts[j - 1], cuts[j])
        )
    if not walked.wraps:
        vertices.append(lone[-1].foot(points[cuts[-1].last]))
    half = np.array([0.5 * one.sweep for one in lone])
    is_arc = np.array([one.is_arc for one in lone])
    chain = Chain(np.array(vertices), half, is_arc, np.asarray(tangent, bool), np.empty(0, int), walked.wraps)
    return _told(walked, cuts, _swept(chain, lone))


def _swept(chain: Chain, lone: Sequence[Lone]) -> Chain:
    """The half sweeps from vertex to vertex, from those between the outermost rows."""
    half = chain.half.copy()
    for j in np.flatnonzero(chain.is_arc):
        one = lone[j]
        away = chain.vertices[[j, chain.after[j]]] - one.middle
        turn = float(np.arctan2(away[1, 1], away[1, 0]) - np.arctan2(away[0, 1], away[0, 0]))
        half[j] = 0.5 * (one.sweep + float(np.angle(np.exp(1j * (turn - one.sweep)))))
    return replace(chain, half=half)


def _told(walked: Walked, cuts: Sequence[Cut], chain: Chain) -> Chain:
    """The chain with its rows: which piece each belongs to, and what its vertices are held to."""
    piece = np.full(len(walked.points), -1)
    for j, cut in enumerate(cuts):
        piece[cut.first : cut.last + 1] = j
    at: list[tuple[int, int]] = []
    held: list[tuple[int, int]] = []
    ends: list[tuple[int, int]] = []
    if not walked.wraps:
        for vertex, row in ((0, cuts[0].first), (len(cuts), cuts[-1].last)):
            is_exact = walked.is_held and row in (0, len(walked.points) - 1)
            is_exact = is_exact or row in walked.stands
            (held if is_exact else ends).append((vertex, row))
    for j in range(0 if walked.wraps else 1, len(cuts)):
        if cuts[j].first in walked.stands:
            at.append((j, cuts[j].first))
    if walked.wraps and cuts[0].first in walked.stands:
        piece[cuts[-1].last] = -1
    piece[[row for _, row in (*at, *held)]] = -1
    return replace(chain, piece=piece, at=tuple(at), held=tuple(held), ends=tuple(ends))


def _fit_tangents(walked: Walked, cuts: Sequence[Cut], lone: Sequence[Lone], tangent: Flags) -> Fitted:
    return settle_rows(walked, tuple(cuts), _start(walked, cuts, lone, tangent))


def settle_rows(walked: Walked, cuts: tuple[Cut, ...], chain: Chain) -> Fitted:
    """Fit, hand rows near the joints over to the piece beside which they lie, and fit again."""
    fit = fit_chain(walked.points, chain)
    for _ in range(ROUNDS):
        if not fit.settled:
            break
        shared = _share_rows(walked, cuts, fit.chain)
        if shared == cuts:
            break
        again = fit_chain(walked.points, _told(walked, shared, fit.chain))
        if not again.settled or again.squares > fit.squares + WORSE * walked.sigma**2:
            break
        cuts, fit = shared, again
    return Fitted(cuts, fit)


def _share_rows(walked: Walked, cuts: tuple[Cut, ...], chain: Chain) -> tuple[Cut, ...]:
    """Each joint's break put where the rows pass the line that halves the turn there."""
    _, _, angle = chord_angles(chain)
    out = list(cuts)
    for j in range(1, len(cuts)):
        if cuts[j].first in walked.stands:
            continue
        before, after = out[j - 1], out[j]
        low = max(before.first + _least(before), after.first - _near(before, chain.half[j - 1]))
        high = min(after.last + 1 - _least(after), after.first + _near(after, chain.half[j]))
        if low > high:
            continue
        out_of, into = angle[j - 1] + chain.half[j - 1], angle[j] - chain.half[j]
        way = np.exp(1j * out_of) + np.exp(1j * into)
        q = walked.points[low:high] - chain.vertices[j]
        # A row at the joint itself is an arc's rather than a straight's, whichever way the line runs.
        level = AT_JOINT if chain.is_arc[j - 1] and not chain.is_arc[j] else -AT_JOINT
        is_past = q[:, 0] * way.real + q[:, 1] * way.imag >= level * walked.sigma
        count = np.append(0, np.cumsum(is_past)) + np.append(np.cumsum(~is_past[::-1])[::-1], 0)
        near = low + np.flatnonzero(count == count.min())
        split = int(near[np.argmin(np.abs(near - after.first))])
        out[j - 1], out[j] = replace(before, last=split - 1), replace(after, first=split)
    return tuple(out)


def _near(cut: Cut, half: float) -> int:
    """Rows that may change over from a piece: all of a straight, of an arc those near the joint, for those beyond go
    back past any line across it."""
    rows = cut.last - cut.first + 1
    return max(LEAST_NEAR, int(rows * min(1.0, NEAR / max(2.0 * abs(half), 1e-300))))


def _least(cut: Cut) -> int:
    """Rows that a piece keeps: an arc of three or more is held by its tangents as well."""
    return min(LEAST_ARC if cut.kind is PieceKind.ARC else LEAST_STRAIGHT, cut.last - cut.first + 1)
