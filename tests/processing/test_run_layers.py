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
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransformContext,
    QgsFeature,
    QgsGeometry,
    QgsProcessing,
    QgsProcessingAlgRunnerTask,
    QgsProcessingContext,
    QgsProcessingFeatureSourceDefinition,
    QgsProcessingFeedback,
    QgsProcessingParameterCrs,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterMultipleLayers,
    QgsProcessingParameterString,
    QgsProject,
    QgsProperty,
    QgsRasterLayer,
    QgsVectorLayer,
)
from qgis.PyQt import sip

from plugin.bridge.run_layers import KEEPER, find_layers
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
        about = ask._about(source)
        rows = [feature["n"] for feature in source.getFeatures()]
        assert source.featureCount() == len(rows)
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

    def during():
        project.clear()
        let_go()
        assert not sip.isdeleted(layer)

    rows, name, _, thread = run(qtbot, {"INPUT": given}, project, during)
    assert (rows, name) == ([7], "spots")
    assert thread is not threading.main_thread()
    assert KEEPER._layers == {}
    assert sip.ispyowned(layer)  # it ends with the last who knows it


def let_go():
    """What the host means to delete is deleted."""
    for _ in range(5):
        QgsApplication.sendPostedEvents(None, 52)  # QEvent::DeferredDelete
        QgsApplication.processEvents()
    gc.collect()


def test_a_layer_that_nobody_reads_is_not_kept(layer, project, qtbot):
    other = QgsVectorLayer("Point?crs=EPSG:25831", "other", "memory")
    project.addMapLayer(other)

    def during():
        project.removeMapLayer(other.id())
        let_go()
        assert sip.isdeleted(other)

    assert run(qtbot, {"INPUT": layer}, project, during)[0] == [7]


def test_a_layer_that_is_taken_out_and_put_back_during_a_run_stays_in_the_project(layer, project, qtbot):
    name = layer.id()

    def during():
        project.addMapLayer(project.takeMapLayer(layer))

    assert run(qtbot, {"INPUT": name}, project, during)[0] == [7]
    let_go()
    assert not sip.isdeleted(layer)
    assert project.mapLayer(name) is layer
    assert not sip.ispyowned(layer)


def test_rows_are_those_of_the_start_though_the_layer_is_edited_meanwhile(layer, project, qtbot):
    layer.startEditing()
    feature = next(layer.getFeatures())
    layer.changeAttributeValue(feature.id(), 0, 8)  # not saved yet, and read all the same

    def during():
        layer.changeAttributeValue(feature.id(), 0, 9)
        layer.addFeature(QgsFeature(layer.fields()))
        layer.commitChanges()
        layer.reload()

    assert run(qtbot, {"INPUT": layer.id()}, project, during)[0] == [8]


def test_a_limit_is_one_of_the_rows_of_the_start(layer, project, qtbot):
    rows = [QgsFeature(layer.fields()) for _ in range(4)]
    for number, row in enumerate(rows, 1):
        row.setAttributes([number])
    layer.dataProvider().addFeatures(rows)
    given = QgsProcessingFeatureSourceDefinition(layer.id(), featureLimit=3)

    def during():
        layer.startEditing()
        layer.deleteFeatures(layer.allFeatureIds())
        layer.commitChanges()

    assert run(qtbot, {"INPUT": given}, project, during)[0] == [7, 1, 2]


def test_nothing_is_kept_where_no_run_is_on(layer, project):
    deadline = time.monotonic() + 10
    while KEEPER._runs and time.monotonic() < deadline:
        gc.collect()
    project.removeMapLayer(layer.id())
    let_go()
    assert sip.isdeleted(layer)


def test_a_run_leaves_the_contexts_own_transforms(layer, project):
    algorithm, context = Reads().create(), QgsProcessingContext()
    context.setProject(project)
    own = QgsCoordinateTransformContext()
    crs = QgsCoordinateReferenceSystem
    own.addCoordinateOperation(crs("EPSG:25831"), crs("EPSG:4326"), "+proj=noop")
    context.setTransformContext(own)
    Reads.go_on.set()
    _, was_good = algorithm.run({"INPUT": layer}, context, QgsProcessingFeedback())
    assert was_good
    assert context.transformContext() == own
    assert context.project() is project


def test_the_projects_crs_and_a_layers_are_those_of_the_time_of_the_start(layer, project, qtbot):
    project.setCrs(layer.crs())
    for given in ("ProjectCrs", "spots"):
        told = run(qtbot, {"INPUT": layer, "CRS": given}, project, lambda: None)
        assert told[2] == "EPSG:25831"
    assert run(qtbot, {"INPUT": layer, "CRS": "EPSG:2264"}, project, lambda: None)[2] == "EPSG:2264"


def test_a_crs_that_is_none_is_still_refused(layer, project):
    context = QgsProcessingContext()
    context.setProject(project)
    assert found(context, CRS="ProjectCrs") == {"CRS": "ProjectCrs"}  # the project has none
    assert found(context, CRS=QgsProperty.fromExpression("'spots'"))["CRS"].authid() == "EPSG:25831"


def found(context, **parameters):
    definitions = [
        QgsProcessingParameterFeatureSource("A", "A"),
        QgsProcessingParameterMultipleLayers("B", "B"),
        QgsProcessingParameterMultipleLayers("LOGS", "Logs", QgsProcessing.SourceType.TypeFile),
        QgsProcessingParameterString("C", "C"),
        QgsProcessingParameterCrs("CRS", "CRS"),
    ]
    return find_layers(parameters, definitions, context).parameters


def test_layers_are_found_in_every_form_that_the_host_has_for_them(layer, project):
    context = QgsProcessingContext()
    context.setProject(project)
    assert found(context, A=layer.id()) == {"A": layer}
    assert found(context, A=QgsProperty.fromValue("spots")) == {"A": layer}
    assert found(context, A=QgsProperty.fromExpression("'spo' || 'ts'")) == {"A": layer}
    many = found(context, B=[layer.id(), "/no/such.gpkg"], C="spots")
    copy, path = many["B"]
    assert (path, many["C"]) == ("/no/such.gpkg", "spots")
    assert copy is not layer
    assert (copy.name(), copy.crs(), [row["n"] for row in copy.getFeatures()]) == ("spots", layer.crs(), [7])
    layer.startEditing()
    assert found(context, B=["spots"]) == {"B": [layer]}  # with its edits
    layer.rollBack()
    given = QgsProcessingFeatureSourceDefinition("spots", selectedFeaturesOnly=True, featureLimit=3)
    assert found(context, A=given) == {"A": layer}
    assert given.source.staticValue() == "spots"
    lost = QgsProcessingFeatureSourceDefinition("nothing")
    assert found(context, A=lost)["A"] is lost


def test_a_log_that_is_shown_as_a_layer_too_is_a_file(layer, project):
    context = QgsProcessingContext()
    context.setProject(project)
    assert found(context, LOGS=["spots", layer.id()]) == {"LOGS": ["spots", layer.id()]}


def test_of_a_picture_and_a_layer_of_one_name_the_layer_is_read(layer, project, tmp_path, qtbot):
    path = tmp_path / "spots.asc"
    path.write_text("ncols 2\nnrows 1\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n", encoding="ascii")
    layers = [QgsRasterLayer(str(path), "spots") for _ in range(8)]  # ids are drawn: any may come first
    assert all(one.isValid() for one in layers)
    project.addMapLayers(layers)
    assert run(qtbot, {"INPUT": "spots"}, project, lambda: None)[0] == [7]
