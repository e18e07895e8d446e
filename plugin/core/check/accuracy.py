# SPDX-License-Identifier: GPL-2.0-or-later
"""What the control says of its own accuracy and age."""

from __future__ import annotations

import re
from datetime import date

from ..findings import Finding, Severity
from ..walk import Control, Job

_DATE = re.compile(r"(\d{4})(?:-(\d\d)(?:-(\d\d))?)?(?![\d/.-])", re.ASCII)
OLDEST = 365
"""days a picture may be older than the survey (trade.md, PL-03: 12 months)."""


def check_picture(job: Job) -> list[Finding]:
    """PL-03: picked points without accuracy, or a picture much older than the walks."""
    control = job.control
    bare = [p for p in control.points if p.xy is not None and p.sd_xy is None]
    if bare:
        return [
            _ask(
                control,
                "The control gives no accuracy (sd_xy) for {mark}; 0.05 m per axis is assumed.",
                "Enter how well the point could be picked: half a pixel and the picture's stated accuracy together.",
                {"mark": ", ".join(p.mark for p in bare)},
            )
        ]
    stated = dict(control.other).get("picture-date")
    taken = _date(stated)
    if stated and taken is None:
        return [
            _ask(
                control,
                'The picture-date "{cell}" is no date, so nobody can see whether the picture is too old.',
                "Write it like 2026-05-12, 2026-05 or 2026.",
                {"cell": stated},
            )
        ]
    walked = [day for walk in job.walks if (day := _date(walk.keys.date)) is not None]
    if taken and walked and (max(walked) - taken).days > OLDEST:
        return [
            _ask(
                control,
                "The picture of {taken} is {days} days older than the survey.",
                "Check that the points picked still exist on the ground.",
                {"taken": taken.isoformat(), "days": (max(walked) - taken).days},
            )
        ]
    return []


def _ask(control: Control, template: str, remedy: str, data: dict[str, object]) -> Finding:
    return Finding(
        "PL-03", Severity.ASK, "survey", template, remedy, data, file=control.file, answers=("accept",)
    )


def _date(text: str | None) -> date | None:
    """A day; of a month or a year alone its first, so that a picture is rather taken for older."""
    found = _DATE.match((text or "").strip())
    try:
        return date(int(found[1]), int(found[2] or 1), int(found[3] or 1)) if found else None
    except ValueError:
        return None
