# SPDX-License-Identifier: GPL-2.0-or-later
"""What a run does with the layers of the project, in a thread of its own."""

from __future__ import annotations

import gc
import threading
import time
from typing import ClassVar

import pytest
from qgis.core import (
    QgsApplication,
    QgsFeature,
    QgsGeometry,
    QgsProcessingAlgRunnerTask,
    QgsProcessingContext,
    QgsProcessingFeatureSourceDefinition,
    QgsProcessingFeedback,
    QgsProcessingParameterCrs,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterMultipleLayers,
    QgsProject,
    QgsProperty,
    QgsVectorLayer,
)
from qgis.PyQt import sip

from plugin.bridge.run_layers import KEEPER, layers_found
from plugin.processing.algorithm import Algorithm


@pytest.fixture
def project(qgis_app):
    project = QgsProject.instance()
    project.clear()
    yield project
    project.clear()


@pytest.fixture
def layer(project):
    layer = QgsVectorLayer("Point?crs=EPSG:25831&field=n:integer", "spots", "memory")
    feature = QgsFeature(layer.fields())
    feature.setAttributes([7])
    feature.setGeometry(QgsGeometry.fromWkt("Point (1 2)"))
    layer.dataProvider().addFeatures([feature])
    project.addMapLayer(layer)
    return layer


class Reads(Algorithm):
    """Waits until its layer is gone from the project, then reads it."""

    NAME, GROUP = "reads", "measure"
    started, go_on = threading.Event(), threading.Event()
    told: ClassVar[list[object]] = []

    def label(self):
        return "Reads"

    def initAlgorithm(self, _=None):
        self.addParameter(QgsProcessingParameterFeatureSource("INPUT", "Input"))
        self.addParameter(QgsProcessingParameterMultipleLayers("MANY", "Many", optional=True))
        self.addParameter(QgsProcessingParameterCrs("CRS", "CRS", optional=True))

    def work(self, ask):
        self.started.set()
        assert self.go_on.wait(20)
        source = ask.source("INPUT")
        about = self.createExpressionContext(ask._parameters, ask._context, source)
        rows = [feature["n"] for feature in source.getFeatures()]
        self.told.append((rows, about.variable("layer_name"), ask.crs("CRS"), threading.current_thread()))
        return {}


def run(qtbot, parameters, project, during):
    Reads.started.clear()
    Reads.go_on.clear()
    Reads.told.clear()
    algorithm, context, feedback = Reads().create(), QgsProcessingContext(), QgsProcessingFeedback()
    context.setProject(project)
    task = QgsProcessingAlgRunnerTask(algorithm, parameters, context, feedback)
    ended = []
    task.executed.connect(lambda *said: ended.append(said))
    QgsApplication.taskManager().addTask(task)
    assert Reads.started.wait(20)
    during()
    Reads.go_on.set()
    qtbot.waitUntil(lambda: bool(ended), timeout=20_000)
    assert ended[0][0], feedback.textLog()
    assert context.project() is project
    return Reads.told[0]


@pytest.mark.parametrize("form", ["id", "name", "layer", "selected"])
def test_a_layer_that_is_taken_away_during_a_run_is_read_to_its_end(form, layer, project, qtbot):
    """The host deleted it under the run: a segmentation fault in one of twelve runs of the window's tests."""
    given = {"id": layer.id(), "name": "spots", "layer": layer}.get(form)
    if given is None:
        layer.selectAll()
        given = QgsProcessingFeatureSourceDefinition(layer.id(), selectedFeaturesOnly=True)
    gone = []
    layer.destroyed.connect(lambda: gone.append(True))

    def during():
        project.clear()
        for _ in range(5):  # what the host means to delete is deleted
            QgsApplication.sendPostedEvents(None, 52)  # QEvent::DeferredDelete
            QgsApplication.processEvents()
        gc.collect()
        assert gone == []

    rows, name, _, thread = run(qtbot, {"INPUT": given}, project, during)
    assert (rows, name) == ([7], "spots")
    assert thread is not threading.main_thread()
    qtbot.waitUntil(lambda: bool(gone), timeout=5_000)
    assert sip.isdeleted(layer)


def test_nothing_is_kept_where_no_run_is_on(layer, project, qtbot):
    gone = []
    layer.destroyed.connect(lambda: gone.append(True))
    deadline = time.monotonic() + 10
    while KEEPER._runs and time.monotonic() < deadline:
        gc.collect()
    project.removeMapLayer(layer.id())
    qtbot.waitUntil(lambda: bool(gone), timeout=5_000)


def test_the_projects_crs_and_a_layers_are_those_of_the_time_of_the_start(layer, project, qtbot):
    project.setCrs(layer.crs())
    for given in ("ProjectCrs", "spots"):
        told = run(qtbot, {"INPUT": layer, "CRS": given}, project, lambda: None)
        assert told[2] == "EPSG:25831"
    assert run(qtbot, {"INPUT": layer, "CRS": "EPSG:2264"}, project, lambda: None)[2] == "EPSG:2264"


def test_layers_are_found_in_every_form_that_the_host_has_for_them(layer, project):
    context = QgsProcessingContext()
    context.setProject(project)
    types = {"A": "source", "B": "multilayer", "C": "string"}

    def found(**parameters):
        return layers_found(parameters, types, context)

    assert found(A=layer.id()) == {"A": layer}
    assert found(A=QgsProperty.fromValue("spots")) == {"A": layer}
    assert found(B=[layer.id(), "/no/such.gpkg"], C="spots") == {"B": [layer, "/no/such.gpkg"], "C": "spots"}
    rule = QgsProperty.fromExpression("1")
    assert found(A=rule)["A"] is rule
    given = QgsProcessingFeatureSourceDefinition("spots", selectedFeaturesOnly=True, featureLimit=3)
    assert found(A=given) == {"A": layer}
    assert given.source.staticValue() == "spots"
