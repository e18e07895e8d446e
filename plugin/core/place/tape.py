# SPDX-License-Identifier: GPL-2.0-or-later
"""Control better than the walk may enter the adjustment as taped lengths, by decision: it then says how long
things are, and not only where they lie. Points picked from one picture may not (a picture is no ruler)."""

from __future__ import annotations

import math
from itertools import combinations

from ..findings import Decisions, Finding, Severity
from ..walk import Tape
from .locate import Located

USE_CONTROL = "use the control"


def ask_scale(located: Located, decisions: Decisions, *, closed: bool, taped: bool) -> Finding | None:
    """CL-03: the walks close and nothing was taped; offers the control as a tape where it can serve."""
    if taped or not closed:
        return None
    answers = ("accept", USE_CONTROL) if _can_serve(located) else ("accept",)
    return decisions.answered(
        Finding(
            "CL-03",
            Severity.ASK,
            "survey",
            "The walks close, but no length was taped: a closed loop cannot show the instrument's scale.",
            "Tape one length of 10 m or more between two marks."
            if len(answers) == 1
            else "Tape one length of 10 m or more between two marks, or let the control's own lengths count as taped.",
            answers=answers,
        )
    )


def _can_serve(located: Located) -> bool:
    return located.common == 0.0 and sum(not p.is_check for p in located.points) >= 2


def control_as_tapes(located: Located, asked: Finding | None) -> tuple[Tape, ...]:
    """The lengths between the fitted control points as tapes, where CL-03 was answered so."""
    if asked is None or asked.answer != USE_CONTROL:
        return ()
    points = [p for p in located.points if not p.is_check]
    return tuple(
        Tape(a.mark, b.mark, math.dist(a.xy, b.xy), math.hypot(a.sd, b.sd), is_slope=False, file="control")
        for a, b in combinations(points, 2)
    )
