# SPDX-License-Identifier: GPL-2.0-or-later
"""The jobs of a project: their folders, their surveys, and what they are surveyed with."""

from __future__ import annotations

import json
import os
import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from qgis.core import QgsCoordinateReferenceSystem

from .text import tr

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from qgis.core import QgsProject

SCOPE, KEY = "GroundTally", "jobs"
"""Where a project keeps its jobs."""
PATHS = frozenset({"LOGS", "CONTROL", "TAPES", "INSTRUMENTS", "DECISIONS", "PICTURE", "OUTPUT"})
"""Parameters of a run that are paths."""
TABLES = frozenset(
    {"walks", "stations", "marks", "areas", "lengths", "sides", "findings", "placement", "runs"}
)
"""Tables that make a GeoPackage a survey."""


@dataclass(frozen=True)
class DeskJob:
    """The folder a job's files lie in, the survey that is made of them (it need not be there yet), and the parameters
    of its run, texts and lists of texts (none: not known). A survey that was made elsewhere has no logs here: its
    folder is the survey's own, and it can be looked at but not surveyed again."""

    folder: Path
    survey: Path
    parameters: Mapping[str, object] = field(default_factory=dict, compare=False)
    has_logs: bool = True

    @classmethod
    def of_survey(cls, survey: Path) -> DeskJob:
        """A job of which there is only the survey."""
        return cls(survey.parent, survey, has_logs=False)

    @property
    def name(self) -> str:
        """What the job is called."""
        return self.folder.name if self.has_logs else self.survey.stem

    @property
    def key(self) -> Path:
        """What tells it from others: its folder; of several surveys that may lie in one folder without logs, the file."""
        return self.folder if self.has_logs else self.survey

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
    """The jobs that a project holds: those kept in it, whose entries cannot be read left out, then the surveys that it
    shows layers of and keeps no job for."""
    kept = _kept_jobs(project)
    known = {_same(job.survey) for job in kept}
    found = (survey for survey in shown_surveys(project) if _same(survey) not in known)
    return (*kept, *map(DeskJob.of_survey, found))


def shown_surveys(project: QgsProject) -> tuple[Path, ...]:
    """The survey GeoPackages that a project shows layers of, by name."""
    shown = {
        Path(layer.source().partition("|")[0])
        for layer in project.mapLayers().values()
        if layer.providerType() == "ogr"
    }
    return tuple(sorted(path for path in shown if is_survey(path)))


def is_survey(path: Path) -> bool:
    """Whether a file is a GeoPackage that a survey was written to."""
    if path.suffix.lower() != ".gpkg" or not path.is_file():
        return False
    with (
        suppress(sqlite3.Error),
        closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)) as database,
    ):
        rows = database.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
        return {str(name) for (name,) in rows} >= TABLES
    return False


def _same(path: Path) -> Path:
    """One path for one file, however it was written."""
    return Path(os.path.normcase(os.path.realpath(path)))


def _kept_jobs(project: QgsProject) -> tuple[DeskJob, ...]:
    text, _ = project.readEntry(SCOPE, KEY, "[]")
    try:
        return tuple(_job_of(project, entry) for entry in json.loads(text))
    except (ValueError, TypeError, KeyError, AttributeError):
        return ()


def _job_of(project: QgsProject, entry: dict[str, Any]) -> DeskJob:
    told = _with_paths(entry.get("parameters") or {}, project.readPath)
    folder, survey = (Path(project.readPath(entry[name])) for name in ("folder", "survey"))
    return DeskJob(folder, survey, told, has_logs=bool(entry.get("has_logs", True)))


def keep_jobs(project: QgsProject, jobs: Sequence[DeskJob]) -> None:
    """Have a project hold these jobs, by paths relative to it where it keeps them so."""
    entries = [
        {
            "folder": project.writePath(str(job.folder)),
            "survey": project.writePath(str(job.survey)),
            "parameters": _with_paths(job.parameters, project.writePath),
            "has_logs": job.has_logs,
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
    """One job more; one of the same folder takes the older one's place, and so does one whose logs are known now."""
    others = [
        other
        for other in _kept_jobs(project)
        if other.key != job.key and (other.has_logs or _same(other.survey) != _same(job.survey))
    ]
    keep_jobs(project, [*others, job])


def why_without_logs() -> str:
    """Why a survey without its logs is only looked at, and what to do."""
    return tr(
        "The logs of this survey are not known here. To answer its findings, place it or survey it again, start a new "
        "job from the folder of its logs."
    )


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
