# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines and lines of any layer as straights and tangent arcs, with their sides and radii."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterFeatureSink, QgsProcessingParameterFeatureSource

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import add_fit_parameters
from .parameters import INPUT, OUTPUT

SIDES_OUT, SCHEDULE_OUT = "SIDES", "SCHEDULE"


class FitArcs(Algorithm):
    NAME, GROUP = "fit_arcs", "measure"

    def label(self) -> str:
        return tr("Fit arcs")

    def help_text(self) -> str:
        return tr(
            "Outlines and lines of any layer as the fewest straights and tangent arcs of which no vertex lies off by more "
            "than the tolerance. Corners and sparse vertices stay where they are, and so do true curves. Nothing is "
            "invented: what no straight or arc fits, within what its vertices are worth, stays as recorded.\n\n"
            "Every row comes back, with true curves where any were found, and how many straights and arcs it has, the RMS "
            "and the largest distance, and why it was refused if it was. Sides has a row for each straight and arc: "
            "length, radius, centre, sweep, chord, rise over the chord, RMS, and their one-sigma, all true to the "
            "ground. The schedule has a row for each radius: alike are radii that differ by no more than their joint "
            "95 %, or that round to the same."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        line, polygon = QgsProcessing.SourceType.TypeVectorLine, QgsProcessing.SourceType.TypeVectorPolygon
        table = QgsProcessing.SourceType.TypeVector
        self.addParameter(
            QgsProcessingParameterFeatureSource(INPUT, tr("Outlines or lines"), [line, polygon])
        )
        add_fit_parameters(self)
        outputs = (
            (OUTPUT, tr("Fitted"), QgsProcessing.SourceType.TypeVectorAnyGeometry),
            (SIDES_OUT, tr("Sides"), line),
            (SCHEDULE_OUT, tr("Schedule of radii"), table),
        )
        for name, words, kind in outputs:
            self.addParameter(
                QgsProcessingParameterFeatureSink(name, words, kind, optional=True, createByDefault=True)
            )

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.fit_arcs import run

        return run(ask)
