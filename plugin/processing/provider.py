# SPDX-License-Identifier: GPL-2.0-or-later
"""The provider: Ground Tally's algorithms in the host's toolbox."""

from __future__ import annotations

from qgis.core import QgsProcessingProvider
from qgis.PyQt.QtGui import QIcon

from ..bridge.resources import icon_path
from .adjust_walks import AdjustWalks
from .fit_arcs import FitArcs
from .measure_areas import MeasureAreas
from .measure_lengths import MeasureLengths
from .place_survey import PlaceSurvey
from .plan_walk import PlanWalk
from .read_walks import ReadWalks
from .survey_walks import SurveyWalks

ALGORITHMS = (
    ReadWalks,
    AdjustWalks,
    PlaceSurvey,
    SurveyWalks,
    PlanWalk,
    MeasureAreas,
    MeasureLengths,
    FitArcs,
)


class Provider(QgsProcessingProvider):
    def id(self) -> str:
        return "groundtally"

    def name(self) -> str:
        return "Ground Tally"

    def icon(self) -> QIcon:
        return QIcon(icon_path("ground_tally"))

    def loadAlgorithms(self) -> None:
        for algorithm in ALGORITHMS:
            self.addAlgorithm(algorithm())
