# SPDX-License-Identifier: GPL-2.0-or-later
"""Where water stands on a surface, how much, and the way it leaves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterMapLayer,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import SIGMA
from .parameters import OUTPUT, height_parameter, number_parameter

if TYPE_CHECKING:
    from collections.abc import Iterable

SURFACE, LEAST, COMMON_SIGMA = "SURFACE", "LEAST", "COMMON_SIGMA"
SPILLS, WAYS, PONDS, VOLUME = "SPILLS", "WAYS", "PONDS", "VOLUME"
LEVEL_SIGMA_M = 0.02
"""Metres: a height of a staff or a receiver on soft ground; common practice, no source."""
LEAST_M = 0.005
"""Metres: what dries by itself; common practice, no source."""


class FindLowPoints(Algorithm):
    NAME, GROUP = "find_low_points", "measure"

    def label(self) -> str:
        return tr("Find low points")

    def help_text(self) -> str:
        return tr(
            "Where water stands on a surface of triangles: the level it rises to before it runs off, depth, area and volume, "
            "exact over the triangles, each with its one-sigma.\n\n"
            "Ponds has them, the deepest first; Spill points where they run off; Ways out the way the water takes from "
            "there, downhill over the triangles, into the next pond or over the rim. Outer edges of the surface and edges "
            "of voids let water out: put drains in as voids. Where the depth is less than its 95 % interval, the outcome "
            "is cannot tell. What soaks away, dries or is too deep for a pipe is not reckoned.\n\n"
            "Falls and drains follow local codes and a licensed practitioner's judgement. Not a boundary or legal survey. "
            "Have buried services located before breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        surface = QgsProcessingParameterMapLayer(SURFACE, tr("Surface"))
        surface.setHelp(tr("A layer of triangles with heights, or a mesh."))
        self.addParameter(surface)
        for parameter in _numbers():
            self.addParameter(parameter)
        for name, label, kind, by_default in (
            (OUTPUT, tr("Ponds"), QgsProcessing.SourceType.TypeVectorPolygon, True),
            (SPILLS, tr("Spill points"), QgsProcessing.SourceType.TypeVectorPoint, True),
            (WAYS, tr("Ways out"), QgsProcessing.SourceType.TypeVectorLine, True),
        ):
            self.addParameter(
                QgsProcessingParameterFeatureSink(
                    name, label, kind, optional=True, createByDefault=by_default
                )
            )
        for name, label in ((PONDS, tr("Ponds found")), (VOLUME, tr("Water of all ponds, cubic metres"))):
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.find_low_points import run

        return run(ask)


def _numbers() -> Iterable[QgsProcessingParameterDefinition]:
    metres = (0.0, 1000.0)
    yield number_parameter(
        LEAST,
        tr("Shallowest pond listed, metres"),
        tr("Shallower ponds are not told; water runs on through them."),
        LEAST_M,
        metres,
    )
    later = (
        number_parameter(
            SIGMA,
            tr("One-sigma of a height where a surface does not say it, metres"),
            tr("Surfaces that were built here say what their points are worth; other layers do not."),
            LEVEL_SIGMA_M,
            metres,
        ),
        number_parameter(
            COMMON_SIGMA,
            tr("One-sigma of what all heights share, metres"),
            tr("Of a bench mark or a datum: it is in the levels alone."),
            0.0,
            metres,
        ),
        height_parameter(),
    )
    for parameter in later:
        parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        yield parameter
