# SPDX-License-Identifier: GPL-2.0-or-later
"""Areas and perimeters of any polygon layer, true to the ground."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterFeatureSink, QgsProcessingParameterFeatureSource

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import add_layer_outputs, add_layer_parameters, edge_sigma_parameter
from .parameters import INPUT, OUTPUT


class MeasureAreas(Algorithm):
    NAME, GROUP = "measure_areas", "measure"

    def label(self) -> str:
        return tr("Measure areas")

    def help_text(self) -> str:
        return tr(
            "True ground area and perimeter of each outline of any polygon layer, with their uncertainty, whatever the "
            "layer's CRS: degrees, feet and web mercator too. Arcs are exact, holes are out.\n\n"
            "Every row of the layer comes back with its own columns and, added: area_m2 and perimeter_m (of the outer "
            "rings), in plan; sloped_area_m2 on the plane nearest to its heights, where it has any (heights that are "
            "all zero are none); every _sigma is one standard deviation; method says how it was measured, finding why "
            "an outline was refused and what each remedy would give.\n\n"
            "What the corners are worth is not in a layer, so it is assumed: state it, or take it from a field. A "
            "survey's own areas keep the figures and the uncertainty that the survey gave them, where the outline is "
            "as the survey drew it."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        self.addParameter(
            QgsProcessingParameterFeatureSource(
                INPUT, tr("Outlines"), [QgsProcessing.SourceType.TypeVectorPolygon]
            )
        )
        add_layer_parameters(self, tr("One-sigma of a corner, each axis, metres"))
        self.addParameter(edge_sigma_parameter())
        self.addParameter(
            QgsProcessingParameterFeatureSink(
                OUTPUT, tr("Measured areas"), QgsProcessing.SourceType.TypeVectorPolygon
            )
        )
        add_layer_outputs(self)

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_areas import run

        return run(ask)
