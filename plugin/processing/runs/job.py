# SPDX-License-Identifier: GPL-2.0-or-later
"""One run over the files of a job: what the parameters name, the survey made of it, and what was found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...bridge.job import JobFiles, read_files
from ...bridge.text import explain_finding, explain_remedy, tr
from ...core.defaults import JOIN_WITHIN as DEFAULT_JOIN
from ...core.defaults import PRICE_WITHIN as DEFAULT_WITHIN
from ...core.findings import Finding, Severity
from ...core.measure.chain import Settings, survey_files
from ...core.read.stated import StatedTexts
from ..parameters import (
    AS_WALKED,
    COLUMNS,
    CONTROL,
    CRS,
    DECISIONS,
    FILE_CRS,
    FILE_UNITS,
    HEIGHT,
    INSTRUMENTS,
    JOIN_WITHIN,
    LOGS,
    PRICE_WITHIN,
    SCALE,
    TAPES,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ...core.measure.rows import Survey
    from ..algorithm import Ask

BESIDE = {"control": CONTROL, "tapes": TAPES, "instruments": INSTRUMENTS, "decisions": DECISIONS}
"""The parts of a job that lie beside the logs, and the parameters that name them."""


def job_files(ask: Ask, picture: str | None = None) -> JobFiles:
    """The files that a run was given, and those that lie with them."""
    files = read_files(ask.files(LOGS), {part: ask.file(name) for part, name in BESIDE.items()}, picture)
    if files.not_read:
        ask.feedback.pushInfo(
            tr("Not read, for these are no walk logs and no tables beside them: {files}.").format(
                files=", ".join(files.not_read)
            )
        )
    return files


def stated_columns(ask: Ask) -> tuple[str, ...] | None:
    """The order of the columns of all point lists, where no single lists are named."""
    text = ask.text(COLUMNS)
    return None if text is None or ":" in text else ask.words(COLUMNS)


def stated_texts(ask: Ask) -> StatedTexts:
    """What counts for single files in place of what they say."""
    columns = ask.text(COLUMNS)
    of_files = columns if columns is not None and ":" in columns else None
    return StatedTexts(of_files, ask.text(FILE_UNITS), ask.text(FILE_CRS))


def job_settings(ask: Ask) -> Settings:
    """How the survey is to be made."""
    stated = stated_texts(ask)
    within, join = ask.number(PRICE_WITHIN), ask.number(JOIN_WITHIN)
    return Settings(
        crs=ask.crs(CRS),
        height=ask.number(HEIGHT),
        fit_scale=ask.flag(SCALE),
        price_within=DEFAULT_WITHIN if within is None else within / 100.0,
        columns=stated_columns(ask),
        file_columns=stated.columns,
        file_units=stated.units,
        file_crs=stated.crs,
        join_within=DEFAULT_JOIN if join is None else join,
        as_walked=ask.number(AS_WALKED),
    )


def make_survey(ask: Ask, files: JobFiles, settings: Settings, part: float = 1.0) -> Survey:
    """The survey of a job, its findings told in the log; takes the first `part` of the run's progress."""
    survey = survey_files(files.texts, settings, progress=ask.progress(0.0, part))
    tell_findings(ask, survey.findings)
    return survey


def tell_findings(ask: Ask, findings: Sequence[Finding]) -> None:
    """Findings in the log: how many wait for an answer, and each open stop in words."""
    waiting = [finding for finding in findings if finding.is_open]
    stops = [finding for finding in waiting if finding.severity is Severity.STOP]
    ask.feedback.pushInfo(
        tr("Findings: stop {stops}, ask {asks}, answered {answered}, note {notes}.").format(
            stops=len(stops),
            asks=len(waiting) - len(stops),
            answered=sum(finding.answer is not None for finding in findings),
            notes=sum(finding.severity is Severity.NOTE for finding in findings),
        )
    )
    for finding in stops:
        ask.feedback.pushWarning(
            f"{finding.code} {finding.place}: {explain_finding(finding)} {explain_remedy(finding)}"
        )
