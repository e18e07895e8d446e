# SPDX-License-Identifier: GPL-2.0-or-later
"""All checks of the walks as they were read, in order."""

from __future__ import annotations

from ..findings import Decisions, Finding
from ..walk import ErrorGrowth, Job
from .accuracy import check_picture
from .beside import check_instruments, check_names
from .grid import check_grid
from .heights import check_datum, check_jumps
from .sequence import check_holds, check_moves, check_times


def check_job(job: Job, decisions: Decisions) -> tuple[Finding, ...]:
    """Findings IN-06, WK, HT, PL-03 and SR-01 of a job, with their answers where the decisions hold them."""
    found: list[Finding] = []
    for walk in job.walks:
        # Stations that have a place of their own hang neither on the way between them nor on a pole's length.
        if walk.keys.growth is ErrorGrowth.WALKED:
            found += check_moves(walk) + check_times(walk) + check_holds(walk) + check_jumps(walk)
    found += check_names(job) + check_instruments(job)
    found += check_picture(job) + check_datum(job) + check_grid(job)
    return tuple(decisions.answered(finding) for finding in found)
