# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of survey_walks, which its form imports when it starts."""

from __future__ import annotations

import dataclasses
from datetime import datetime, timezone
from typing import TYPE_CHECKING

from ...bridge.compared_surveys import instrument_facts
from ...bridge.fields import RunFact
from ...bridge.geopackage import chorded_name, write_survey
from ...bridge.project import write_project
from ...bridge.run_facts import run_facts
from ...bridge.text import explain
from ...core.errors import GroundTallyError
from ..algorithm import Ask
from ..parameters import CHORDED, OUTPUT, PICTURE, TOLERANCE
from ..survey_walks import CHORDED_COPY, PROJECT
from .job import job_files, job_settings, make_survey

if TYPE_CHECKING:
    from pathlib import Path

MEASURED = 0.7
"""The part of a run's time that measuring takes; the rest is writing."""


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    files = job_files(ask, ask.file(PICTURE))
    settings = job_settings(ask)
    survey = make_survey(ask, files, settings, MEASURED)
    facts = (*run_facts(files, dataclasses.asdict(settings), now()), *instrument_facts(survey))
    path = write_survey(survey, ask.output_file(OUTPUT), files.picture, facts, ask.progress(MEASURED, 0.9))
    copy = None
    if ask.flag(CHORDED):
        sag = ask.number(TOLERANCE)
        told = (*facts, RunFact("setting", "chord_sag_m", str(sag)))
        copy = str(write_survey(survey, chorded_name(path), files.picture, told, sag=sag))
    return {OUTPUT: str(path), PROJECT: _project(ask, path, files.picture), CHORDED_COPY: copy}


def now() -> str:
    """The time, as it is kept."""
    return datetime.now(timezone.utc).isoformat(timespec="seconds")


def _project(ask: Ask, path: Path, picture: Path | None) -> str | None:
    """The project; without it the survey is still whole, and the project can be made again from it."""
    try:
        return str(write_project(path, picture=picture))
    except GroundTallyError as error:
        ask.feedback.pushWarning(explain(error))
        return None
