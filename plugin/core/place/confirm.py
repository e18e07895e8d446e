# SPDX-License-Identifier: GPL-2.0-or-later
"""What speaks for a placement: check points, and whether the points could tell it from exchanged ones at all. A
point that would agree with the half-turned site as well confirms nothing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

import numpy as np

from ..adjust.tests import tail, verdict
from ..adjust.walks import Adjusted
from ..findings import Decisions, Finding, Severity
from ..quantity import COVER_95, COVER_95_PLANE, Floats
from ..walk import ControlPoint
from .diagnose import explain_misfit
from .fit import Placed, fit_similarity
from .locate import Located, MapPoint

CHECK_HEIGHT_SD = 0.01
"""m, common practice, no source: one-sigma of a check height where the file does not say."""


def confirm(
    placed: Placed,
    pairs: Sequence[MapPoint],
    checks: Sequence[MapPoint],
    located: Located,
    count: int,
    decisions: Decisions,
) -> tuple[str, list[Finding]]:
    """The status of a placement on two pairs or more, and PL-01 for what speaks against it or is missing."""
    agreeing, findings = [], []
    for point in checks:
        gap, covariance = _gap(placed, point)
        severity = verdict(_gap_p(gap, covariance), count)
        if severity is None:
            agreeing.append(point)
        else:
            found = _check_finding(placed, pairs, point, located.file, severity)
            findings.append(decisions.answered(found))
    if any(finding.is_open for finding in findings):
        return "not confirmed", findings
    if located.is_own:
        return "placed", findings
    hidden = [
        (i, j) for i, j in combinations(range(len(pairs)), 2) if _fits(placed, pairs, agreeing, (i, j), count)
    ]
    if not hidden:
        return "placed", findings
    asked = decisions.answered(_unconfirmed(pairs, agreeing, hidden[0]))
    return ("not confirmed" if asked.is_open else "placed"), [*findings, asked]


def _fits(
    placed: Placed, pairs: Sequence[MapPoint], agreeing: Sequence[MapPoint], swap: tuple[int, int], count: int
) -> bool:
    """Whether the site placed with two map points exchanged would not be rejected either."""
    order = list(range(len(pairs)))
    order[swap[0]], order[swap[1]] = swap[1], swap[0]
    target = np.array([pairs[k].xy for k in order])
    assert placed.fit is not None  # noqa: S101 - there are pairs
    fit = fit_similarity(
        placed.adjusted.xy[placed.rows], target, placed.fit.weights, scale=placed.fit.has_scale
    )
    other = Placed(placed.adjusted, fit, placed.rows, placed.picks, placed.common)
    # The residuals first: they cost little, and where they speak against it the check points need not be asked.
    if verdict(misfit_p(other), count) is not None:
        return False
    return all(verdict(_gap_p(*_gap(other, point)), count) is None for point in agreeing)


def misfit_p(placed: Placed) -> float:
    """Probability of larger residuals of the fit: v' S^+ v with 2k - 3 degrees of freedom (one less with a fitted
    scale). The shift that all picks share cancels; two pairs with a fitted scale have nothing left over."""
    assert placed.fit is not None  # noqa: S101
    k = len(placed.rows)
    design = placed.levers(placed.xy[placed.rows]).reshape(2 * k, -1)
    freedom = 2 * k - design.shape[1]
    if freedom < 1:
        return 1.0
    r = placed.fit.matrix
    own = placed.adjusted.plan_covariance(placed.rows)
    sigma = np.einsum("ij,cjdk,lk->cidl", r, own, r).reshape(2 * k, 2 * k)
    sigma = sigma + np.diag(np.repeat(placed.picks, 2) ** 2)
    left = np.eye(2 * k) - design @ placed.solution
    values, vectors = np.linalg.eigh(left @ sigma @ left.T)
    along = vectors[:, -freedom:].T @ placed.fit.residual.ravel()
    return tail(float(np.sum(along**2 / values[-freedom:])), freedom)


def _gap(placed: Placed, point: MapPoint) -> tuple[Floats, Floats]:
    """(2,) how far a check point lies from its mark, and (2, 2) what that should be. The check comes from the same
    picture as the pairs: their common shift says nothing about it."""
    row = placed.adjusted.named_rows[point.mark]
    own = placed.joint(np.array([row])) - placed.common**2 * np.eye(2)
    return np.asarray(point.xy) - placed.xy[row], own + point.sd**2 * np.eye(2)


def _gap_p(gap: Floats, covariance: Floats) -> float:
    return tail(float(gap @ np.linalg.solve(covariance, gap)), 2)


def _check_finding(
    placed: Placed, pairs: Sequence[MapPoint], point: MapPoint, file: str, severity: Severity
) -> Finding:
    gap, covariance = _gap(placed, point)
    return Finding(
        "PL-01",
        severity,
        point.mark,
        "Check point {mark} lies {gap:.3f} m from where the map pairs put it; {allowed:.3f} m (95 %) would be "
        "expected.{hint}",
        "Look at the pairs and at this point on the picture: one of them is a wrong point, or two are exchanged.",
        {
            "mark": point.mark,
            "gap": float(np.hypot(*gap)),
            "allowed": COVER_95_PLANE * math.sqrt(float(np.trace(covariance)) / 2),
            "hint": explain_misfit(placed, pairs, [point]),
        },
        file=file,
        line=point.row.line,
        answers=("accept",),
    )


def _unconfirmed(pairs: Sequence[MapPoint], agreeing: Sequence[MapPoint], swap: tuple[int, int]) -> Finding:
    template = (
        "The survey is placed on two pairs only, with no check point: exchanged pairs (a half-turn) would fit just as "
        "well."
        if len(pairs) == 2 and not agreeing
        else "The survey is placed, but {points} would agree as well with {one} and {other} exchanged: they cannot tell "
        "the two apart."
    )
    return Finding(
        "PL-01",
        Severity.STOP,
        "survey",
        template,
        "Pair a third ground point as a check, well off the middle of the others, or look at the preview over the "
        "picture and confirm it.",
        {
            "points": ", ".join(p.mark for p in (*pairs, *agreeing)),
            "one": pairs[swap[0]].mark,
            "other": pairs[swap[1]].mark,
        },
        answers=("confirmed",),
    )


def check_heights(adjusted: Adjusted, located: Located, count: int, decisions: Decisions) -> list[Finding]:
    """TI-03 for each check height that the walks and the other levels speak against; without levels none can."""
    if not adjusted.both.height.levels:
        return []
    out = []
    for point in located.levels:
        row = adjusted.named_rows.get(point.mark)
        if row is None or point.z is None or not math.isfinite(adjusted.z[row]):
            continue
        own = float(adjusted.height_sigma(np.array([row]))[0])
        sigma = math.hypot(own, CHECK_HEIGHT_SD if point.sd_z is None else point.sd_z)
        gap = point.z - float(adjusted.z[row])
        severity = verdict(tail((gap / sigma) ** 2, 1), count)
        if severity is not None:
            out.append(decisions.answered(_height_finding(point, gap, sigma, located.file, severity)))
    return out


def _height_finding(point: ControlPoint, gap: float, sigma: float, file: str, severity: Severity) -> Finding:
    return Finding(
        "TI-03",
        severity,
        point.mark,
        "Check height {mark}, {height:.3f} m, lies {gap:+.3f} m from what the walks and the levels give; "
        "{allowed:.3f} m (95 %) would be expected.",
        "Check this height and the level marks: datum, unit, point.",
        {"mark": point.mark, "height": point.z, "gap": gap, "allowed": COVER_95 * sigma, "heights": True},
        file=file,
        line=point.line,
        answers=("accept",),
    )
