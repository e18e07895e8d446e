# SPDX-License-Identifier: GPL-2.0-or-later
"""The main job: from logs to the survey GeoPackage and its project."""

from __future__ import annotations

import dataclasses
from datetime import datetime, timezone
from typing import TYPE_CHECKING

from qgis.core import QgsProcessingOutputFile, QgsProcessingParameterFileDestination

from ..bridge.fields import RunFact
from ..bridge.geopackage import chorded_name, write_survey
from ..bridge.job import run_facts
from ..bridge.project import write_project
from ..bridge.text import explain, tr
from ..core.errors import GroundTallyError
from .algorithm import Algorithm, Ask
from .parameters import (
    CHORDED,
    OUTPUT,
    PICTURE,
    TOLERANCE,
    add_chord_parameters,
    add_job_parameters,
    add_place_parameters,
    job_files,
    job_settings,
    make_survey,
    picture_parameter,
)

if TYPE_CHECKING:
    from pathlib import Path

PROJECT, CHORDED_COPY = "PROJECT", "CHORDED_COPY"
MEASURED = 0.7
"""The part of a run's time that measuring takes; the rest is writing."""


class SurveyWalks(Algorithm):
    NAME, GROUP = "survey_walks", "walks"

    def label(self) -> str:
        return tr("Survey walks")

    def help_text(self) -> str:
        return tr(
            "From walk logs to one placed, measured survey: a GeoPackage with true curves, and a project beside it "
            "that shows it.\n\n"
            "Areas are in plan, holes out (area_m2), and along the slope (sloped_area_m2); lengths in plan "
            "(length_m) and along the slope (slope_length_m); gradient_ratio is rise by run, positive up along the "
            "walk; fall_ratio and fall_bearing_deg are those of the plane nearest to the area's heights. All are "
            "true measures on the ground, whatever the CRS. Every _sigma is one standard deviation; labels show "
            "the 95 % figure, 1.96 times as wide.\n\n"
            "What looks wrong is a finding. A stop keeps the figures it touches out until it is answered in the "
            "decisions file; an ask leaves them in as recorded. Read the table of findings before you use a "
            "figure.\n\n"
            "Not a boundary or legal survey. Have buried services located before breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        add_job_parameters(self)
        self.addParameter(picture_parameter())
        add_place_parameters(self)
        self.addParameter(
            QgsProcessingParameterFileDestination(
                OUTPUT, tr("Survey GeoPackage"), tr("GeoPackage") + " (*.gpkg)"
            )
        )
        add_chord_parameters(self)
        self.addOutput(QgsProcessingOutputFile(PROJECT, tr("Project")))
        self.addOutput(QgsProcessingOutputFile(CHORDED_COPY, tr("Chorded copy")))

    def work(self, ask: Ask) -> dict[str, object]:
        files = job_files(ask, ask.file(PICTURE))
        settings = job_settings(ask)
        survey = make_survey(ask, files, settings, MEASURED)
        facts = run_facts(files, dataclasses.asdict(settings), now())
        path = write_survey(
            survey, ask.output_file(OUTPUT), files.picture, facts, ask.progress(MEASURED, 0.9)
        )
        copy = None
        if ask.flag(CHORDED):
            sag = ask.number(TOLERANCE)
            told = (*facts, RunFact("setting", "chord_sag_m", str(sag)))
            copy = str(write_survey(survey, chorded_name(path), files.picture, told, sag=sag))
        return {OUTPUT: str(path), PROJECT: self._project(ask, path, files.picture), CHORDED_COPY: copy}

    def _project(self, ask: Ask, path: Path, picture: Path | None) -> str | None:
        """The project; without it the survey is still whole, and the project can be made again from it."""
        try:
            return str(write_project(path, picture=picture))
        except GroundTallyError as error:
            ask.feedback.pushWarning(explain(error))
            return None


def now() -> str:
    """The time, as it is kept."""
    return datetime.now(timezone.utc).isoformat(timespec="seconds")
