# SPDX-License-Identifier: GPL-2.0-or-later
"""The main job: from logs to the survey GeoPackage and its project."""

from __future__ import annotations

from qgis.core import QgsProcessingOutputFile, QgsProcessingParameterFileDestination

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .parameters import (
    OUTPUT,
    add_chord_parameters,
    add_job_parameters,
    add_place_parameters,
    picture_parameter,
)

PROJECT, CHORDED_COPY = "PROJECT", "CHORDED_COPY"


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
        from .runs.survey_walks import run

        return run(ask)
