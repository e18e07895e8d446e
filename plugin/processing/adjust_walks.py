# SPDX-License-Identifier: GPL-2.0-or-later
"""Walks brought into agreement at their marks, in the survey plane."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterFeatureSink

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .parameters import add_job_parameters, add_place_parameters

STATIONS, MARKS, WALKS, FINDINGS = "STATIONS", "MARKS", "WALKS", "FINDINGS"


class AdjustWalks(Algorithm):
    NAME, GROUP = "adjust_walks", "walks"

    def label(self) -> str:
        return tr("Adjust walks")

    def help_text(self) -> str:
        return tr(
            "Bring all walks into agreement at the marks they share, and write them in the survey plane: metres, "
            "true to the ground.\n\n"
            "misclosure_m is what is left when a walk returns to a mark, before it is spread, and "
            "misclosure_m_sigma what the instrument should leave; far more than that is a blunder and is not "
            "spread. The error ellipses (one sigma) grow with the distance from the marks."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        add_job_parameters(self)
        add_place_parameters(self)
        point, table = QgsProcessing.SourceType.TypeVectorPoint, QgsProcessing.SourceType.TypeVector
        self.addParameter(QgsProcessingParameterFeatureSink(STATIONS, tr("Stations"), point, optional=True))
        self.addParameter(QgsProcessingParameterFeatureSink(MARKS, tr("Marks"), point, optional=True))
        self.addParameter(QgsProcessingParameterFeatureSink(WALKS, tr("Walks"), table, optional=True))
        self.addParameter(QgsProcessingParameterFeatureSink(FINDINGS, tr("Findings"), table, optional=True))

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.adjust_walks import run

        return run(ask)
