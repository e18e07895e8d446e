# SPDX-License-Identifier: GPL-2.0-or-later
"""The survey placed on the map by its control pairs."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterFeatureSink

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .parameters import add_job_parameters, add_place_parameters

MARKS, STATIONS, PLACEMENT, FINDINGS = "MARKS", "STATIONS", "PLACEMENT", "FINDINGS"


class PlaceSurvey(Algorithm):
    NAME, GROUP = "place_survey", "walks"

    def label(self) -> str:
        return tr("Place survey")

    def help_text(self) -> str:
        return tr(
            "Place the adjusted walks on the map by the marks whose map points are known.\n\n"
            "Two pairs give position and turn; the measured size is kept and the scale shown as a check. "
            "residual_m is how far a mark lies from its map point; a check point tests the fit without taking part "
            "in it. rotation_deg turns the survey plane to the grid, anticlockwise; grid_to_ground is ground length "
            "by grid length; common_m_sigma the shift that all picks of one picture share. Two marks close together "
            "serve badly far away: look at the error ellipses."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        add_job_parameters(self)
        add_place_parameters(self)
        point, table = QgsProcessing.SourceType.TypeVectorPoint, QgsProcessing.SourceType.TypeVector
        self.addParameter(QgsProcessingParameterFeatureSink(MARKS, tr("Marks"), point, optional=True))
        self.addParameter(QgsProcessingParameterFeatureSink(STATIONS, tr("Stations"), point, optional=True))
        self.addParameter(QgsProcessingParameterFeatureSink(PLACEMENT, tr("Placement"), table, optional=True))
        self.addParameter(QgsProcessingParameterFeatureSink(FINDINGS, tr("Findings"), table, optional=True))

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.place_survey import run

        return run(ask)
