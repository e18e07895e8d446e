# SPDX-License-Identifier: GPL-2.0-or-later
"""Place the adjusted survey on the map: the fit, its tests, check points, and what stays unconfirmed."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..adjust.tests import verdict
from ..adjust.walks import Adjusted
from ..errors import Refused
from ..findings import Decisions, Finding, Severity
from .confirm import check_heights, confirm, misfit_p
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
    rows = adjusted.named_rows
    known = [p for p in located.points if p.mark in rows]
    pairs = [p for p in known if not p.is_check]
    findings: list[Finding] = []
    if len(pairs) < 2:
        return _not_placed(adjusted, located, check_heights(adjusted, located, count, decisions))
    local = adjusted.xy[[rows[p.mark] for p in pairs]]
    target = np.array([p.xy for p in pairs])
    sd = np.array([p.sd for p in pairs])
    fit = fit_similarity(local, target, sd**-2.0, scale=fit_scale)
    index = np.array([rows[p.mark] for p in pairs], dtype=np.int64)
    placed = Placed(adjusted, fit, index, sd, located.common)
    findings += _judge_fit(placed, pairs, located.file, count, decisions)
    status, found = confirm(placed, pairs, [p for p in known if p.is_check], located, count, decisions)
    findings += check_heights(adjusted, located, count, decisions)
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


def _judge_fit(
    placed: Placed, pairs: list[MapPoint], file: str, count: int, decisions: Decisions
) -> list[Finding]:
    """PL-02: the base of two pairs against its length, or the residuals of more."""
    if placed.fit is None or (placed.fit.has_scale and len(pairs) == 2):
        return []
    severity = verdict(misfit_p(placed), count)
    if severity is None:
        return []
    finding = decisions.answered(_misfit_finding(placed, pairs, file, severity))
    if finding.is_open and severity is Severity.STOP:
        raise Refused("PL-02: {message} {remedy}", message=finding.message, remedy=finding.remedy_text)
    return [finding]


def _misfit_finding(placed: Placed, pairs: list[MapPoint], file: str, severity: Severity) -> Finding:
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
        file=file,
        line=next(p.row.line for p in pairs if p.mark in (data.get("mark"), data.get("one"))),
        answers=("accept",),
    )


def _scale(placed: Placed, pairs: list[MapPoint]) -> tuple[float, float]:
    """Map length by survey length over the pairs, with its sigma: shown as a check on the size."""
    local = placed.adjusted.xy[placed.rows]
    free = fit_similarity(local, np.array([p.xy for p in pairs]), placed.picks**-2.0, scale=True)
    arms = local - np.average(local, axis=0, weights=placed.picks**-2.0)
    reach = float(np.sum((arms**2).sum(axis=1) * placed.picks**-2.0))
    own = placed.adjusted.plan_covariance(placed.rows)
    lead = (arms * (placed.picks**-2.0)[:, None]) / reach
    survey = float(np.einsum("ci,cidj,dj->", lead, own, lead))
    return free.scale, math.sqrt(max(survey, 0.0) + 1.0 / reach)
