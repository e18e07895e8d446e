# SPDX-License-Identifier: GPL-2.0-or-later
"""How one survey lies on another: the shift and the turn that all places share, found from what did not move.

The turn is exact; Gauss and Newton's steps and the weights settle together.

Source: robust weights, Beaton and Tukey, Technometrics 16 (1974) 147-185 (the biweight, with the usual 4.685 sigmas).
"""

from __future__ import annotations

import numpy as np

from ..place.fit import fit_similarity
from ..quantity import Floats
from .records import Motion, turned

BIWEIGHT = 4.685
"""Sigmas from which a place says nothing."""
ROUNDS = 50
SETTLED = 1e-9
"""Metres by which the shift moves no more: reached in 5 to 20 rounds."""
TO_SIGMA = 1.482602218505602
FEWEST = 2
"""Places from which a turn is told."""
LEAST_BASE = 1.0
"""Metres, the reach of the places in the root mean square below which they tell no turn."""


def fit_motion(before: Floats, after: Floats, variance: Floats) -> Motion | None:
    """The shift and turn from one survey to the other by places they share; None without any.

    Args:
        before: (n, 2) places in the earlier survey, metres.
        after: (n, 2) the same places in the later one.
        variance: (n,) of each difference along each axis, without what all share, m2.
    """
    if not len(before):
        return None
    off, centre = after - before, before.mean(axis=0)
    has_turn = len(before) >= FEWEST and np.sqrt(((before - centre) ** 2).sum(axis=1).mean()) >= LEAST_BASE
    design = _levers(before - centre, has_turn=has_turn)
    found = _start(before - centre, off, has_turn=has_turn)
    for _ in range(ROUNDS):
        rest = off - _motion(before - centre, found)
        pull = _pull(design, _weights(rest, variance))
        step = pull @ rest.reshape(-1)
        found = found + step
        if np.abs(step).max() < SETTLED:
            break
    pull = np.vstack([pull, np.zeros((3 - len(pull), pull.shape[1]))])
    turn = float(found[2]) if has_turn else 0.0
    return Motion(found[:2], turn, centre, pull, np.repeat(np.sqrt(variance), 2))


def _start(away: Floats, off: Floats, *, has_turn: bool) -> Floats:
    """A shift and a turn to begin with: the median shift, or all places fitted at once (a survey may lie half turned),
    whichever leaves less for the middle place."""
    plain = np.array([*np.median(off, axis=0), 0.0])
    if not has_turn:
        return plain[:2]
    fit = fit_similarity(away, away + off)
    other = np.array([*fit.origin, fit.turn])
    left = [float(np.median(np.hypot(*(off - _motion(away, one)).T))) for one in (plain, other)]
    return plain if left[0] <= left[1] else other


def _motion(away: Floats, found: Floats) -> Floats:
    """(n, 2) by how much a shift and a turn move places given from the centre."""
    turn = float(found[2:].sum())  # none where only a shift is fitted
    return np.asarray(found[:2] + turned(away, turn) - away)


def _levers(away: Floats, *, has_turn: bool) -> Floats:
    """(n, 2, 3) how a place moves with the shift and the turn."""
    out = np.zeros((len(away), 2, 3))
    out[:, 0, 0] = out[:, 1, 1] = 1.0
    out[:, 0, 2], out[:, 1, 2] = -away[:, 1], away[:, 0]
    return out if has_turn else out[:, :, :2]


def _weights(rest: Floats, variance: Floats) -> Floats:
    """(n,) one by the variance, and nothing for what lies far off. Where most lie farther off than their sigmas say, the
    scatter of most counts."""
    size = np.hypot(*rest.T) / np.sqrt(variance)
    scatter = max(1.0, float(np.median(size)) / MEDIAN_RADIUS)
    part = np.clip(size / (BIWEIGHT * scatter), 0.0, 1.0)
    return np.asarray((1.0 - part**2) ** 2 / variance)


MEDIAN_RADIUS = 1.177410022515475
"""sqrt(2 ln 2): the median distance of a place whose axes err by one."""


def _pull(design: Floats, weight: Floats) -> Floats:
    """(p, 2n) how the unknowns follow from the differences."""
    flat = design.reshape(-1, design.shape[2])
    w = np.repeat(weight, 2)
    normal = flat.T @ (w[:, None] * flat)
    return np.asarray(np.linalg.solve(normal, flat.T * w))


def robust_mean(off: Floats, variance: Floats) -> tuple[float, Floats]:
    """The middle of differences that most share, and (n,) the weights it gives each; they add up to 1."""
    found = float(np.median(off))
    share = np.full(len(off), 1.0 / len(off))
    for _ in range(ROUNDS):
        size = np.abs(off - found) / np.sqrt(variance)
        scatter = max(1.0, TO_SIGMA * float(np.median(size)))
        part = np.clip(size / (BIWEIGHT * scatter), 0.0, 1.0)
        weight = (1.0 - part**2) ** 2 / variance
        share = weight / weight.sum()
        last, found = found, float(share @ off)
        if abs(found - last) < SETTLED:
            break
    return found, np.asarray(share)
