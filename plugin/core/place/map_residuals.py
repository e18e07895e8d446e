# SPDX-License-Identifier: GPL-2.0-or-later
"""What is left between each mark and its map point, and how much of it should be: the fitted points against the fit's
own covariance, a check point against all that it tests."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..adjust.tests import RANK_LIMIT
from ..quantity import Floats
from .fit import Placed
from .locate import Located, MapPoint


@dataclass(frozen=True, eq=False)
class MapResidual:
    """One map point: (2,) metres in the survey plane from the mark's place to it, its chi-square against what it should
    be, and that chi-square's degrees of freedom (0 where nothing tests it: two points with a fitted scale)."""

    point: MapPoint
    gap: Floats
    chi2: float
    freedom: int


def map_residuals(placed: Placed, located: Located) -> tuple[MapResidual, ...]:
    """The residual of each map point whose mark is in the survey; none where the survey is not placed.

    The points must be those that `placed` was fitted to, in their order (place_survey).
    Source: as the tests in confirm.py; the fitted ones by the diagonal blocks of the residuals' covariance.
    """
    rows = placed.adjusted.named_rows
    known = [point for point in located.points if point.mark in rows]
    pairs = [point for point in known if not point.is_check]
    if placed.fit is None or len(pairs) < 2:
        return ()
    covariance = _fit_covariance(placed)
    out = []
    for point in known:
        gap = np.asarray(point.xy) - placed.xy[rows[point.mark]]
        if point.is_check:
            own = placed.joint(np.array([rows[point.mark]])) - placed.common**2 * np.eye(2)
            block = own + point.sd**2 * np.eye(2)
        else:
            at = 2 * pairs.index(point)
            block = covariance[at : at + 2, at : at + 2]
        out.append(MapResidual(point, gap, *_chi2(gap, block, float(np.trace(covariance)))))
    return tuple(out)


def _fit_covariance(placed: Placed) -> Floats:
    """(2k, 2k) covariance of the fitted points' residuals: what the survey and the picks leave after the fit."""
    assert placed.fit is not None  # noqa: S101 - asked only where there is one
    k, r = len(placed.rows), placed.fit.matrix
    design = placed.levers(placed.xy[placed.rows]).reshape(2 * k, -1)
    own = placed.adjusted.plan_covariance(placed.rows)
    sigma = np.einsum("ij,cjdk,lk->cidl", r, own, r).reshape(2 * k, 2 * k)
    sigma = sigma + np.diag(np.repeat(placed.picks, 2) ** 2)
    left = np.eye(2 * k) - design @ placed.solution
    return np.asarray(left @ sigma @ left.T)


def _chi2(gap: Floats, covariance: Floats, scale: float) -> tuple[float, int]:
    """Of g' C^+ g: its value and its degrees of freedom; directions in which nothing can be left are no part of it."""
    values, vectors = np.linalg.eigh(covariance)
    good = values > RANK_LIMIT * max(scale, 1e-300)
    along = vectors[:, good].T @ gap
    return float(np.sum(along**2 / values[good])), int(good.sum())
