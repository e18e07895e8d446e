# SPDX-License-Identifier: GPL-2.0-or-later
"""What would explain control that does not fit: a unit, an outlier, exchanged pairs, a mirrored frame."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from ..adjust.bases import NEAR, UNITS
from ..quantity import Floats
from .fit import Placed, fit_similarity
from .locate import MapPoint

CLEARLY = 5.0
"""An explanation is named where it brings the largest misfit down by this factor."""


def explain_misfit(placed: Placed, pairs: Sequence[MapPoint], checks: Sequence[MapPoint] = ()) -> str:
    """A sentence on what would explain a misfit, "" where nothing clearly does.

    With two pairs only a check point can show a half-turn; exchange and mirror need three points in all.
    """
    rows = placed.adjusted.named_rows
    points = [*pairs, *checks]
    local = placed.adjusted.xy[[rows[p.mark] for p in points]]
    target = np.array([p.xy for p in points])
    now = _largest(local, target, len(pairs))
    unit = _unit(local, target)
    if unit:
        return f" It would fit if the lengths were in {unit}."
    for i, j in combinations(range(len(pairs)), 2) if len(points) >= 3 else ():
        order = list(range(len(points)))
        order[i], order[j] = j, i
        if _largest(local, target[order], len(pairs)) * CLEARLY < now:
            return f" It would fit with {points[i].mark} and {points[j].mark} exchanged."
    if len(points) >= 3 and _largest(local * (1.0, -1.0), target, len(pairs)) * CLEARLY < now:
        return " It would fit as a mirror image: is the column order of the control right?"
    if len(pairs) >= 4:
        left = leave_one_out(local[: len(pairs)], target[: len(pairs)])
        best = int(np.argmin(left))
        if left[best] * CLEARLY < now:
            return f" Without {points[best].mark} the others fit."
    return ""


def leave_one_out(local: Floats, target: Floats) -> Floats:
    """(k,) largest residual in metres of the fit without each pair in turn, k >= 3."""
    out = np.empty(len(local))
    for i in range(len(local)):
        keep = np.arange(len(local)) != i
        out[i] = _largest(local[keep], target[keep], int(keep.sum()))
    return out


def _largest(local: Floats, target: Floats, fitted: int) -> float:
    """The largest miss in metres over all points, of a rigid fit to the first `fitted`."""
    fit = fit_similarity(local[:fitted], target[:fitted])
    return float(np.hypot(*(target - fit.apply(local)).T).max())


def _unit(local: Floats, target: Floats) -> str:
    """The unit whose ratio to metres (or its inverse) the map's lengths have to the survey's, or ""."""
    a = np.hypot(*(local - local[0]).T)[1:].sum()
    b = np.hypot(*(target - target[0]).T)[1:].sum()
    ratio = b / a if a > 0 else 1.0
    names = {name: metres for name, metres in UNITS.items() if name not in ("m", "us-ft")}
    for name, metres in names.items():
        if abs(ratio / metres - 1) < NEAR or abs(ratio * metres - 1) < NEAR:
            return name
    return ""
