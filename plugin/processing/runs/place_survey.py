# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of place_survey, which its form imports when it starts."""

from __future__ import annotations

from ...bridge.fields import Frame
from ...bridge.layers import map_crs, table_named
from ..algorithm import Ask
from ..place_survey import FINDINGS, MARKS, PLACEMENT, STATIONS
from .job import job_files, job_settings, make_survey


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    ask.need_one((MARKS, STATIONS, PLACEMENT, FINDINGS))
    survey = make_survey(ask, job_files(ask), job_settings(ask))
    frame, crs = Frame(survey.plane), map_crs(survey)
    parts = {
        MARKS: survey.marks,
        STATIONS: survey.stations,
        PLACEMENT: (survey.placement,),
        FINDINGS: survey.findings,
    }
    return {
        name: ask.write(name, table_named(name.lower()), rows, frame, crs) for name, rows in parts.items()
    }
