# SPDX-License-Identifier: GPL-2.0-or-later
"""The jobs of a project: their folders, their surveys, and what they are surveyed with."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from qgis.core import QgsCoordinateReferenceSystem

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from qgis.core import QgsProject

SCOPE, KEY = "GroundTally", "jobs"
"""Where a project keeps its jobs."""
PATHS = frozenset({"LOGS", "CONTROL", "TAPES", "INSTRUMENTS", "DECISIONS", "PICTURE", "OUTPUT"})
"""Parameters of a run that are paths."""


@dataclass(frozen=True)
class DeskJob:
    """The folder a job's files lie in, the survey that is made of them (it need not be there yet), and the parameters
    of its run, texts and lists of texts (none: not known)."""

    folder: Path
    survey: Path
    parameters: Mapping[str, object] = field(default_factory=dict, compare=False)

    @property
    def name(self) -> str:
        """What the job is called."""
        return self.folder.name

    @property
    def is_surveyed(self) -> bool:
        """Whether there is a survey."""
        return self.survey.is_file()

    @property
    def run_parameters(self) -> dict[str, object]:
        """What it is surveyed with: as it was told, else as its survey keeps it."""
        from .choices import kept_parameters

        plain = {"LOGS": [str(self.folder)], "OUTPUT": str(self.survey)}
        return {**plain, **(self.parameters or kept_parameters(self.survey))}


def read_jobs(project: QgsProject) -> tuple[DeskJob, ...]:
    """The jobs that a project holds; entries that cannot be read are left out."""
    text, _ = project.readEntry(SCOPE, KEY, "[]")
    try:
        return tuple(_job_of(project, entry) for entry in json.loads(text))
    except (ValueError, TypeError, KeyError, AttributeError):
        return ()


def _job_of(project: QgsProject, entry: dict[str, Any]) -> DeskJob:
    told = _with_paths(entry.get("parameters") or {}, project.readPath)
    return DeskJob(Path(project.readPath(entry["folder"])), Path(project.readPath(entry["survey"])), told)


def keep_jobs(project: QgsProject, jobs: Sequence[DeskJob]) -> None:
    """Have a project hold these jobs, by paths relative to it where it keeps them so."""
    entries = [
        {
            "folder": project.writePath(str(job.folder)),
            "survey": project.writePath(str(job.survey)),
            "parameters": _with_paths(job.parameters, project.writePath),
        }
        for job in jobs
    ]
    project.writeEntry(SCOPE, KEY, json.dumps(entries))


def _with_paths(parameters: Mapping[str, object], change: Callable[[str], str]) -> dict[str, object]:
    """Parameters with the paths among them changed."""
    return {
        name: [change(str(path)) for path in value]
        if name in PATHS and isinstance(value, list)
        else change(str(value))
        if name in PATHS
        else value
        for name, value in parameters.items()
    }


def add_job(project: QgsProject, job: DeskJob) -> None:
    """One job more; one of the same folder takes the older one's place."""
    others = [other for other in read_jobs(project) if other.folder != job.folder]
    keep_jobs(project, [*others, job])


def survey_crs(job: DeskJob) -> QgsCoordinateReferenceSystem:
    """The CRS that a survey's places are in, whatever the project shows; none where it is not placed."""
    with (
        suppress(sqlite3.Error),
        closing(sqlite3.connect(f"{job.survey.absolute().as_uri()}?mode=ro", uri=True)) as database,
    ):
        row = database.execute("SELECT crs FROM placement").fetchone()
        if row and row[0]:
            crs = QgsCoordinateReferenceSystem(str(row[0]))
            return crs if crs.isValid() else QgsCoordinateReferenceSystem.fromWkt(str(row[0]))
    return QgsCoordinateReferenceSystem()
