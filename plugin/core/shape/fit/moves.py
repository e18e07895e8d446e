# SPDX-License-Identifier: GPL-2.0-or-later
"""Fitted chains made simpler where the fit as a whole allows it: pieces joined, corners rounded."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from .chains import Fitted, Flags, Walked, fit_cuts, fit_tangents, settle_rows
from .cuts import LEAST_ARC, LEAST_STRAIGHT, Cut, PieceKind
from .joints import TURNED_BACK, WIDEST_ARC
from .tangent import chord_angles

PARAMETER = 7.0
"""Chi-square that one more unknown must take off: 2 ln 30."""
PIECE = 10.0
"""Chi-square that one more piece must take off besides: its break was searched for."""
ARC = 5.0
"""Chi-square that an arc must take off besides, so that none is drawn where a straight does nearly as well."""
SHORT = 16
"""Rows up to which a straight is tried as an arc that rounds its corners."""
TIGHTER = 16.0
"""Chi-square by which meeting their neighbours may cost the pieces, and 4 more for each tangent joint: beyond, a
joint is a corner after all, or a piece is missing between two."""
EACH = 4.0
EASINGS = 4
"""Times at most that a chain is eased of its worst joint."""
TRIED = 4
"""Joints that are tried each time, the worst first."""
HALF_WAY = 5
"""Rows on either side of a joint that a piece put in there starts from."""
HOPELESS = 80.0
"""Chi-square beyond which two pieces are not tried as one."""


def simplify(walked: Walked, fitted: Fitted) -> Fitted:
    """The chain after every change that pays: tangent joints taken as corners and pieces put in between where the
    joints force it, neighbours taken as one piece, short straights between corners taken as tangent arcs.

    Each change is tried on the whole chain, and kept where chi-square grows by less than the unknowns and
    pieces it saves are worth.
    """
    for _ in range(EASINGS):
        if not _is_strained(walked, fitted):
            break
        eased = _ease(walked, fitted)
        if eased is None:
            break
        fitted = eased
    for _ in range(len(fitted.cuts)):
        joined = _first_better(walked, fitted, _joins(walked, fitted))
        if joined is None:
            break
        fitted = joined
    for j in range(len(fitted.cuts)):
        trial = _round_corners(walked, fitted, j)
        if trial is not None and _is_better(walked, trial, fitted):
            fitted = trial
    return fitted


def price(walked: Walked, fitted: Fitted) -> float:
    """Chi-square, and what its unknowns, pieces and arcs must be worth."""
    chain = fitted.fit.chain
    free = chain.unknowns - int(chain.is_tangent.sum())
    pieces = PIECE * len(fitted.cuts) + ARC * float(chain.is_arc.sum())
    return fitted.fit.squares / walked.sigma**2 + PARAMETER * free + pieces


def _is_strained(walked: Walked, fitted: Fitted) -> bool:
    """Whether meeting as they do costs the pieces more than noise alone makes them."""
    cost = (fitted.fit.squares - fitted.apart) / walked.sigma**2
    return not fitted.fit.settled or cost > TIGHTER + EACH * float(fitted.fit.chain.is_tangent.sum())


def _ease(walked: Walked, fitted: Fitted) -> Fitted | None:
    """The best chain with one of its worst joints a corner, or one piece put in there; None where none is better."""
    trials = []
    for j in _worst_joints(walked, fitted):
        if fitted.fit.chain.is_tangent[j]:
            tangent = fitted.fit.chain.is_tangent.copy()
            tangent[j] = False
            trials.append(fit_tangents(walked, fitted.cuts, tangent))
        trials += [fit_tangents(walked, *changed) for changed in _insertions(walked, fitted, j)]
    best = min(trials, key=lambda trial: (not trial.fit.settled, price(walked, trial)), default=fitted)
    is_better = best.fit.settled and (not fitted.fit.settled or price(walked, best) < price(walked, fitted))
    return best if is_better else None


def _worst_joints(walked: Walked, fitted: Fitted) -> list[int]:
    """The joints, by the piece after each, between those pieces that lie farther off their rows than each alone."""
    chain, residual = fitted.fit.chain, fitted.fit.residual
    counts, k = chain.piece >= 0, len(fitted.cuts)
    squares = np.bincount(chain.piece[counts], residual[counts] ** 2, k)
    more = squares - [float(one.residual @ one.residual) for one in map(walked.alone.fit, fitted.cuts)]
    at_joint = more + np.roll(more, 1)
    joints = [j for j in range(k) if j > 0 or walked.wraps]
    return sorted(joints, key=lambda j: -at_joint[j])[:TRIED]


def _insertions(walked: Walked, fitted: Fitted, j: int) -> Iterator[tuple[tuple[Cut, ...], Flags]]:
    """The cuts with one more between two, tangent to both."""
    before, after = fitted.cuts[j - 1], fitted.cuts[j]
    first = max(after.first - HALF_WAY, before.first + LEAST_STRAIGHT)
    last = min(after.first + HALF_WAY - 1, after.last - LEAST_STRAIGHT)
    if j == 0 or after.first in walked.stands or last - first + 1 < LEAST_ARC:
        return
    tangent = np.insert(fitted.fit.chain.is_tangent, j, True)
    tangent[j + 1] = True
    kinds = [PieceKind.ARC]
    if before.kind is after.kind is PieceKind.ARC:
        kinds.append(PieceKind.STRAIGHT)
    for kind in kinds:
        new = (replace(before, last=first - 1), Cut(kind, first, last), replace(after, first=last + 1))
        yield (*fitted.cuts[: j - 1], *new, *fitted.cuts[j + 1 :]), tangent


def _is_better(walked: Walked, trial: Fitted, fitted: Fitted) -> bool:
    return trial.fit.settled and (not fitted.fit.settled or price(walked, trial) < price(walked, fitted))


def _first_better(walked: Walked, fitted: Fitted, trials: Iterator[tuple[Cut, ...]]) -> Fitted | None:
    for cuts in trials:
        trial = fit_cuts(walked, cuts)
        if _is_better(walked, trial, fitted):
            return trial
    return None


def _joins(walked: Walked, fitted: Fitted) -> Iterator[tuple[Cut, ...]]:
    """The cuts with two neighbours as one, where their rows alone do not forbid it."""
    cuts = fitted.cuts
    for j in range(1, len(cuts)):
        if cuts[j].first in walked.stands or (walked.wraps and len(cuts) < 3):
            continue
        for kind in (PieceKind.STRAIGHT, PieceKind.ARC):
            one = Cut(kind, cuts[j - 1].first, cuts[j].last)
            if one.last - one.first + 1 < LEAST_ARC:
                continue
            lone = walked.alone.fit(one)
            apart = [walked.alone.fit(cut).residual for cut in cuts[j - 1 : j + 1]]
            more = float(lone.residual @ lone.residual) - sum(float(r @ r) for r in apart)
            goes_on = lone.back <= TURNED_BACK * walked.sigma and abs(lone.sweep) <= WIDEST_ARC
            if goes_on and more < HOPELESS * walked.sigma**2:
                yield (*cuts[: j - 1], one, *cuts[j + 1 :])


def _round_corners(walked: Walked, fitted: Fitted, j: int) -> Fitted | None:
    """The chain with a short straight as an arc tangent to its neighbours; None where it cannot be one."""
    cuts, chain = fitted.cuts, fitted.fit.chain
    k, cut = len(cuts), cuts[j]
    if cut.kind is not PieceKind.STRAIGHT or cut.last - cut.first >= SHORT or k < 2 + walked.wraps:
        return None
    joints = [i % k for i in (j, j + 1) if walked.wraps or 0 < i < k]
    if chain.is_tangent[joints].any() or any(cuts[i].first in walked.stands for i in joints):
        return None
    _, _, angle = chord_angles(chain)
    half, is_arc, tangent = chain.half.copy(), chain.is_arc.copy(), chain.is_tangent.copy()
    turns = [angle[i] - half[i] - angle[i - 1] - half[i - 1] for i in joints]
    half[j] = float(np.angle(np.exp(1j * np.array(turns))).mean()) * (0.5 * len(turns))
    is_arc[j], tangent[joints] = True, True
    new = list(cuts)
    new[j] = replace(cut, kind=PieceKind.ARC)
    return settle_rows(walked, tuple(new), replace(chain, half=half, is_arc=is_arc, is_tangent=tangent))
