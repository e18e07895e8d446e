# SPDX-License-Identifier: GPL-2.0-or-later
"""A survey that was made elsewhere, taken into the open project."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..core.errors import BadInput
from .jobs import DeskJob, add_job, is_survey, read_jobs
from .project import fill_project, has_layers

if TYPE_CHECKING:
    from pathlib import Path

    from qgis.core import QgsMapLayer, QgsProject


def open_survey_file(project: QgsProject, path: Path) -> tuple[DeskJob, list[QgsMapLayer]]:
    """Put a survey's layers into a project that does not show them yet, and keep a job for it: the one that the project
    has of it already, else one without logs.

    Returns:
        The job, and the layers added.

    Raises:
        BadInput: the file is no survey. The project is as it was.
    """
    if not is_survey(path):
        raise BadInput(
            "{path} is no survey. Choose a GeoPackage that Survey walks has written.", path=str(path)
        )
    shown = has_layers(project, path)
    job = next((one for one in read_jobs(project) if one.survey == path), DeskJob.of_survey(path))
    layers = [] if shown else fill_project(project, path)
    add_job(project, job)
    return job, layers
