# SPDX-License-Identifier: GPL-2.0-or-later
"""Place the adjusted survey on the map: the fit, its tests, check points, and what stays unconfirmed."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..adjust.tests import tail, verdict
from ..adjust.walks import Adjusted
from ..errors import Refused
from ..findings import Decisions, Finding, Severity
from ..quantity import Floats
from .diagnose import explain_misfit
from .fit import Fit, Placed, fit_similarity
from .locate import Located, MapPoint


@dataclass(frozen=True, eq=False)
class Placement:
    """A placed survey with what is to be said of it.

    Attributes:
        placed: positions of all stations. status: `placed`, `not confirmed` or `not placed`.
        residual: metres from its map point, of each mark that has one.
        scale: map length by survey length of the fit (shown as a check unless it was fitted) and its sigma;
            None where there is no fit.
    """

    placed: Placed
    status: str
    residual: dict[str, float]
    scale: float | None
    scale_sigma: float | None
    findings: tuple[Finding, ...]


def place_survey(
    adjusted: Adjusted, located: Located, decisions: Decisions, *, fit_scale: bool = False, count: int = 1
) -> Placement:
    """Fit the survey to its control; `count` is how many tests the job has in all.

    Raises:
        Refused: PL-02, the control does not fit the survey and no decision accepts that.
    """
    rows = adjusted.mark_rows
    known = [p for p in located.points if p.mark in rows]
    pairs = [p for p in known if not p.is_check]
    findings = [_unknown_mark(p) for p in located.points if p.mark not in rows]
    if len(pairs) < 2:
        return _not_placed(adjusted, located, findings)
    local = adjusted.xy[[rows[p.mark] for p in pairs]]
    target = np.array([p.xy for p in pairs])
    sd = np.array([p.sd for p in pairs])
    fit = fit_similarity(local, target, sd**-2.0, scale=fit_scale)
    index = np.array([rows[p.mark] for p in pairs], dtype=np.int64)
    placed = Placed(adjusted, fit, index, sd, located.common)
    findings += _judge_fit(placed, pairs, count, decisions)
    checks = [p for p in known if p.is_check]
    checked, found = _judge_checks(placed, pairs, checks, located.common, count)
    findings += [decisions.answered(f) for f in found]
    status, found = _status(len(pairs), decisions, checked=checked, refuted=len(found) > 0)
    scale, scale_sigma = _scale(placed, pairs)
    return Placement(
        placed,
        status,
        {p.mark: math.dist(p.xy, placed.xy[rows[p.mark]]) for p in known},
        scale,
        scale_sigma,
        (*findings, *found),
    )


def _not_placed(adjusted: Adjusted, located: Located, findings: list[Finding]) -> Placement:
    """No place on the map: the longest base between marks serves as datum, its first mark at the origin and
    its second on the x axis, so that ellipses are told from marks that exist on the ground."""
    rows = adjusted.mark_rows
    names = list(rows)
    best = max(
        (
            (math.dist(adjusted.xy[rows[a]], adjusted.xy[rows[b]]), a, b)
            for a in names
            for b in names
            if a < b
        ),
        default=None,
    )
    fit: Fit | None = None
    index = np.zeros(0, dtype=np.int64)
    if best is not None and best[0] > 0:
        index = np.array([rows[best[1]], rows[best[2]]], dtype=np.int64)
        fit = fit_similarity(adjusted.xy[index], np.array([[0.0, 0.0], [best[0], 0.0]]))
    note = Finding(
        "PL-01",
        Severity.NOTE,
        "survey",
        "The survey is not placed on a map: {count} of its marks have a map point, and two are needed. It is in a "
        "plane of its own; sizes are right all the same.",
        "Give map points of two marks or more in the control file.",
        {"count": sum(p.mark in rows and not p.is_check for p in located.points)},
    )
    placed = Placed(adjusted, fit, index, np.zeros(len(index)), 0.0)
    return Placement(placed, "not placed", {}, None, None, (*findings, note))


def _unknown_mark(point: MapPoint) -> Finding:
    return Finding(
        "IN-06",
        Severity.NOTE,
        point.mark,
        "Control point {mark}: no walk stands on a mark of this name, so it is not used.",
        "Check the mark's name in the control and in the logs.",
        {"mark": point.mark},
        line=point.row.line,
    )


def _judge_fit(placed: Placed, pairs: list[MapPoint], count: int, decisions: Decisions) -> list[Finding]:
    """PL-02: the base of two pairs against its length, or the residuals of more."""
    if placed.fit is None or (placed.fit.has_scale and len(pairs) == 2):
        return []
    chi2, freedom = _misfit(placed, pairs)
    severity = verdict(tail(chi2, freedom), count)
    if severity is None:
        return []
    finding = decisions.answered(_misfit_finding(placed, pairs, severity))
    if finding.is_open and severity is Severity.STOP:
        raise Refused("PL-02: {message} {remedy}", message=finding.message, remedy=finding.remedy_text)
    return [finding]


def _misfit(placed: Placed, pairs: list[MapPoint]) -> tuple[float, int]:
    """Chi-square of the residuals and its degrees of freedom: 2k - 3 (one less with a fitted scale). The shift
    that all picks share cancels."""
    assert placed.fit is not None  # noqa: S101
    k = len(pairs)
    v = placed.fit.residual.ravel()
    r = placed.fit.matrix
    columns = placed.adjusted.plan_columns(placed.rows)[:, :, placed.rows]
    sigma = np.einsum("ij,cjdk,lk->cidl", r, columns, r).reshape(2 * k, 2 * k)
    sigma = sigma + np.diag(np.repeat(placed.picks, 2) ** 2)
    design = placed.levers(placed.xy[placed.rows]).reshape(2 * k, -1)
    left = np.eye(2 * k) - design @ placed.solution
    values, vectors = np.linalg.eigh(left @ sigma @ left.T)
    freedom = 2 * k - design.shape[1]
    along = vectors[:, -freedom:].T @ v
    return float(np.sum(along**2 / values[-freedom:])), freedom


def _misfit_finding(placed: Placed, pairs: list[MapPoint], severity: Severity) -> Finding:
    assert placed.fit is not None  # noqa: S101
    hint = explain_misfit(placed, pairs)
    if len(pairs) == 2:
        walked = math.dist(*placed.adjusted.xy[placed.rows])
        mapped = math.dist(pairs[0].xy, pairs[1].xy)
        template = (
            "The base {one} to {other} is {walked:.3f} m walked and {mapped:.3f} m on the map (ground length), "
            "{difference:+.3f} m apart.{hint}"
        )
        data: dict[str, object] = {
            "one": pairs[0].mark,
            "other": pairs[1].mark,
            "walked": walked,
            "mapped": mapped,
            "difference": mapped - walked,
            "hint": hint,
        }
    else:
        worst = int(np.argmax(np.hypot(*placed.fit.residual.T)))
        template = "The map points do not fit the survey: {mark} is {residual:.3f} m off.{hint}"
        data = {
            "mark": pairs[worst].mark,
            "residual": float(np.hypot(*placed.fit.residual[worst])),
            "hint": hint,
        }
    return Finding(
        "PL-02",
        severity,
        "+".join(p.mark for p in pairs[:2]) if len(pairs) == 2 else str(data["mark"]),
        template,
        "Wrong point, wrong unit or wrong CRS: check these map points.",
        data,
        answers=("accept",),
    )


def _judge_checks(
    placed: Placed, pairs: list[MapPoint], checks: list[MapPoint], common: float, count: int
) -> tuple[bool, list[Finding]]:
    """Whether a check point confirms the placement, and a PL-01 for each that speaks against it."""
    rows = placed.adjusted.mark_rows
    findings, confirmed = [], False
    for point in checks:
        row = rows[point.mark]
        gap = np.asarray(point.xy) - placed.xy[row]
        # The check comes from the same picture as the pairs: its own shift says nothing about them.
        own = placed.plan_ellipses(np.array([row]))[0] - common**2 * np.eye(2)
        covariance = own + point.sd**2 * np.eye(2)
        severity = verdict(tail(float(gap @ np.linalg.solve(covariance, gap)), 2), count)
        if severity is None:
            confirmed = True
        else:
            findings.append(_check_finding(placed, pairs, point, gap, covariance, severity))
    return confirmed and not any(f.severity is Severity.STOP for f in findings), findings


def _check_finding(
    placed: Placed,
    pairs: list[MapPoint],
    point: MapPoint,
    gap: Floats,
    covariance: Floats,
    severity: Severity,
) -> Finding:
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
            "allowed": 2.4477 * math.sqrt(float(np.trace(covariance)) / 2),
            "hint": explain_misfit(placed, pairs, [point]),
        },
        line=point.row.line,
        answers=("accept",),
    )


def _status(pairs: int, decisions: Decisions, *, checked: bool, refuted: bool) -> tuple[str, list[Finding]]:
    if refuted:
        return "not confirmed", []
    if checked or pairs >= 3:
        return "placed", []
    finding = decisions.answered(
        Finding(
            "PL-01",
            Severity.STOP,
            "survey",
            "The survey is placed on two pairs only, with no check point: exchanged pairs (a half-turn) would fit "
            "just as well.",
            "Pair a third ground point as a check, or look at the preview over the picture and confirm it.",
            answers=("confirmed",),
        )
    )
    return ("not confirmed" if finding.is_open else "placed"), [finding]


def _scale(placed: Placed, pairs: list[MapPoint]) -> tuple[float, float]:
    """Map length by survey length over the pairs, with its sigma: shown as a check on the size."""
    local = placed.adjusted.xy[placed.rows]
    free = fit_similarity(local, np.array([p.xy for p in pairs]), placed.picks**-2.0, scale=True)
    arms = local - np.average(local, axis=0, weights=placed.picks**-2.0)
    reach = float(np.sum((arms**2).sum(axis=1) * placed.picks**-2.0))
    own = placed.adjusted.plan_columns(placed.rows)[:, :, placed.rows]
    lead = (arms * (placed.picks**-2.0)[:, None]) / reach
    survey = float(np.einsum("ci,cidj,dj->", lead, own, lead))
    return free.scale, math.sqrt(max(survey, 0.0) + 1.0 / reach)
