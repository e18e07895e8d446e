# SPDX-License-Identifier: GPL-2.0-or-later
"""The provider: Ground Tally's algorithms in the host's toolbox."""

from __future__ import annotations

from qgis.core import QgsProcessingProvider
from qgis.PyQt.QtGui import QIcon

from ..bridge.resources import icon_path
from .adjust_walks import AdjustWalks
from .build_surface import BuildSurface
from .check_limits import CheckLimits
from .compare_surveys import CompareSurveys
from .count_planting import CountPlanting
from .cut_sections import CutSections
from .find_low_points import FindLowPoints
from .fit_arcs import FitArcs
from .measure_areas import MeasureAreas
from .measure_faces import MeasureFaces
from .measure_gradients import MeasureGradients
from .measure_lengths import MeasureLengths
from .measure_slabs import MeasureSlabs
from .measure_strips import MeasureStrips
from .measure_trenches import MeasureTrenches
from .measure_volumes import MeasureVolumes
from .measure_walls import MeasureWalls
from .place_survey import PlaceSurvey
from .plan_walk import PlanWalk
from .protect_trees import ProtectTrees
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
    BuildSurface,
    CutSections,
    MeasureVolumes,
    MeasureGradients,
    FindLowPoints,
    MeasureFaces,
    MeasureWalls,
    MeasureSlabs,
    MeasureStrips,
    MeasureTrenches,
    ProtectTrees,
    CountPlanting,
    CheckLimits,
    CompareSurveys,
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
