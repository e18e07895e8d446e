# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of adjust_walks, which its form imports when it starts."""

from __future__ import annotations

from ...bridge.fields import Frame
from ...bridge.layers import plane_crs, table_named
from ..adjust_walks import FINDINGS, MARKS, STATIONS, WALKS
from ..algorithm import Ask
from .job import job_files, job_settings, make_survey


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    ask.need_one((STATIONS, MARKS, WALKS, FINDINGS))
    survey = make_survey(ask, job_files(ask), job_settings(ask))
    frame, crs = Frame(None), plane_crs(survey)
    parts = {
        STATIONS: survey.stations,
        MARKS: survey.marks,
        WALKS: survey.walks,
        FINDINGS: survey.findings,
    }
    return {
        name: ask.write(name, table_named(name.lower()), rows, frame, crs) for name, rows in parts.items()
    }
