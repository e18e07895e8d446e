# SPDX-License-Identifier: GPL-2.0-or-later
"""Layers that the toolbox loads come in our style."""

from __future__ import annotations

import pytest
from qgis.core import (
    QgsExpression,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputLayerDefinition,
    QgsProcessingUtils,
    QgsProject,
)

from tests.processing.conftest import PIT
from tests.processing.layers import write_layer


def find(provider, tmp_path, place, project):
    surface = str(write_layer(tmp_path / "pit.gpkg", PIT, "EPSG:4326"))
    context, feedback = QgsProcessingContext(), QgsProcessingFeedback()
    context.setProject(project)
    given = {
        "SURFACE": surface,
        "OUTPUT": QgsProcessingOutputLayerDefinition(place, project) if project else place,
    }
    results, good = provider.algorithm("find_low_points").create().run(given, context, feedback)
    assert good
    return results["OUTPUT"], context, feedback


@pytest.mark.parametrize("in_file", [True, False])
def test_ponds_are_loaded_hatched_and_tinted_by_their_depth(provider, tmp_path, in_file):
    project = QgsProject()
    place = str(tmp_path / "ponds.gpkg") if in_file else "memory:"
    destination, context, feedback = find(provider, tmp_path, place, project)
    details = context.layerToLoadOnCompletionDetails(destination)
    layer = QgsProcessingUtils.mapLayerFromString(destination, context)
    assert details.postProcessor() is not None
    details.postProcessor().postProcessLayer(layer, context, feedback)
    renderer = layer.renderer()
    assert renderer.type() == "RuleRenderer"
    labels = [rule.label() for rule in renderer.rootRule().children()]
    assert labels == ["Water stands, darker where deeper", "Cannot be told: the depth may be none"]
    fill = renderer.rootRule().children()[0].symbol()
    assert [fill.symbolLayer(k).layerType() for k in range(fill.symbolLayerCount())] == [
        "SimpleFill",
        "SimpleFill",
        "LinePatternFill",
    ]
    assert layer.labelsEnabled()
    named = QgsExpression(layer.labeling().settings().fieldName)
    assert not named.hasParserError()
    columns = {field.name() for field in layer.fields()}
    assert {"depth_m", "depth_m_sigma", "level_m"} <= set(named.referencedColumns()) <= columns


def test_a_run_that_loads_nothing_styles_nothing(provider, tmp_path):
    destination, context, _ = find(provider, tmp_path, str(tmp_path / "ponds.gpkg"), None)
    assert not context.willLoadLayerOnCompletion(destination)
