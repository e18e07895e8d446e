# SPDX-License-Identifier: GPL-2.0-or-later
"""The page of the ground: surfaces built, cut, clicked and measured with real events, and nothing left afterwards."""

from __future__ import annotations

import numpy as np
import pytest
from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsGeometry,
    QgsPointXY,
    QgsProject,
    QgsRectangle,
    QgsVectorLayer,
)
from qgis.gui import QgsMapCanvas, QgsMapCanvasItem, QgsMapToolPan
from qgis.PyQt.QtCore import QPoint, Qt

from plugin.bridge.geopackage import write_survey
from plugin.bridge.ground_list import surface_way
from plugin.bridge.jobs import DeskJob, survey_crs
from plugin.bridge.survey_file import METRE, UNIT_LENGTH, UNIT_NAME, Unit
from plugin.gui.pages.ground import SECTION, SLOPE, VOLUME, GroundPage
from plugin.gui.pages.length_box import LengthBox
from plugin.gui.tools.section_tool import SectionTool
from plugin.processing.provider import Provider
from tests.made_surfaces import ground, layer_of, level
from tests.made_survey import made_survey

LEFT, RIGHT = Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton
LONG = 60_000
"""Milliseconds: a run that takes this long is stuck."""
PIXEL = 0.11
"""Metres: of the map, and a little."""


class Window:
    """As much of the host as the page asks for, with a real canvas."""

    def __init__(self, qtbot):
        self.canvas = QgsMapCanvas()
        qtbot.addWidget(self.canvas)
        self.canvas.resize(400, 400)
        self.canvas.show()
        qtbot.waitExposed(self.canvas)

    def mapCanvas(self):
        return self.canvas


@pytest.fixture
def made():
    return made_survey()


@pytest.fixture
def job(tmp_path, qgis_app, made):
    return DeskJob(tmp_path, write_survey(made, tmp_path / "yard.gpkg"))


@pytest.fixture
def window(qtbot, provider, made):
    """A window 40 m across, about the middle of the made survey; nothing on the map that a click would snap to."""
    QgsProject.instance().clear()
    window = Window(qtbot)
    crs = QgsCoordinateReferenceSystem("EPSG:25831")
    QgsProject.instance().setCrs(crs)
    window.canvas.setDestinationCrs(crs)
    x, y = made.plane.to_crs(np.array([[12.0, 0.0]]))[0].tolist()
    window.canvas.setExtent(QgsRectangle(x - 20, y - 20, x + 20, y + 20))
    yield window
    QgsProject.instance().clear()


@pytest.fixture
def page(window, job, qtbot):
    page = opened(window, job, qtbot)
    yield page
    page.close_down()


def opened(window, job, qtbot) -> GroundPage:
    page = GroundPage(window)
    qtbot.addWidget(page)
    page.setGeometry(410, 0, 380, 560)  # beside the map: the mouse is over one window only
    page.show()
    qtbot.waitExposed(page)
    page.show_job(job, survey_crs(job))
    settle(page, qtbot)
    return page


def settle(page, qtbot):
    """Until the surfaces of the project are read."""
    qtbot.waitUntil(lambda: not page.reader.is_busy, timeout=LONG)


def two_surfaces(page, made, tmp_path, qtbot):
    """The made ground and a level of 84.4, which meet at x = 10."""
    layers = [
        layer_of(ground(), "Ground", tmp_path / "g.gpkg", made.plane),
        layer_of(level(), "Level", tmp_path / "l.gpkg", made.plane),
    ]
    QgsProject.instance().addMapLayers(layers)
    settle(page, qtbot)
    assert [one.name for one in page.reader.found] == ["Ground", "Level"]
    return layers


def pixel(canvas, made, place) -> QPoint:
    x, y = made.plane.to_crs(np.array([place], float))[0].tolist()
    point = canvas.getCoordinateTransform().transform(QgsPointXY(x, y))
    return QPoint(round(point.x()), round(point.y()))


def click(qtbot, canvas, made, *places):
    for place in places:
        at = pixel(canvas, made, place)
        qtbot.mouseMove(canvas.viewport(), at)
        qtbot.mouseClick(canvas.viewport(), LEFT, pos=at)


def items(canvas) -> list[QgsMapCanvasItem]:
    return [item for item in canvas.scene().items() if isinstance(item, QgsMapCanvasItem)]


def listed(page) -> list[str]:
    return [page.surfaces.list.item(k).text() for k in range(page.surfaces.list.count())]


def section(page, canvas, made, qtbot, *places):
    page.tabs.setCurrentIndex(SECTION)
    qtbot.mouseClick(page.section.page.draw, LEFT)
    click(qtbot, canvas, made, *places)
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    qtbot.wait(150)
    return page.section.page.section


def test_without_a_surface_the_page_says_what_to_do(page):
    assert listed(page) == [
        "No surface yet: build one from the survey, or add a layer of triangles or a mesh to the project."
    ]
    assert page.surfaces.build.isEnabled()
    assert not page.slope.click.isEnabled()
    assert not page.volume.measure.isEnabled()
    assert page.volume.words.text() == "No surface yet: build one, or add one to the project."


def test_a_job_that_is_not_surveyed_builds_nothing(page, tmp_path):
    page.show_job(DeskJob(tmp_path, tmp_path / "none.gpkg"), QgsCoordinateReferenceSystem())
    assert not page.surfaces.build.isEnabled()
    assert page.surfaces.words.text() == "Nothing surveyed yet: run the job."


def test_a_surface_is_built_in_the_background_and_shown(page, job, made, qtbot):
    """The made court is 84.6 - 0.02 x: so is the surface over it."""
    told = []
    page.changed.connect(lambda: told.append(1))
    with qtbot.waitSignal(page.runner.ended, timeout=LONG) as ended:
        qtbot.mouseClick(page.surfaces.build, LEFT)
        assert page.stop.isVisible()
        assert not page.surfaces.build.isEnabled()
    assert ended.args[0], ended.args[2]
    settle(page, qtbot)
    assert told == [1]
    group = QgsProject.instance().layerTreeRoot().findGroup("Ground")
    assert [node.name() for node in group.findLayers()] == ["Contours of ground", "Surface ground"]
    assert (job.folder / "yard_ground_surface.gpkg").is_file()
    (found,) = page.reader.found
    line = made.plane.to_crs(np.array([(15.0, 3.0), (17.0, 3.0)]))
    told = found.cutter.cut(surface_way(found).to_plane(line))
    assert told.level == pytest.approx(84.6 - 0.02 * (15.0 + told.chainage), abs=1e-4)
    (text,) = listed(page)
    assert text.startswith(f"Surface ground\n{len(found.surface.points)} points, ")
    assert not page.stop.isVisible()
    assert page.surfaces.build.isEnabled()


def test_what_cannot_be_built_is_told_where_it_was_asked(page, qtbot):
    page.surfaces.name.setCurrentText("moon")
    with qtbot.waitSignal(page.runner.ended, timeout=LONG) as ended:
        qtbot.mouseClick(page.surfaces.build, LEFT)
    assert not ended.args[0]
    assert "holds no height of the surface moon." in page.surfaces.words.text().replace("\u200b", "")
    assert page.surfaces.words.isVisible()
    page.surfaces.name.setCurrentText("  ")
    qtbot.mouseClick(page.surfaces.build, LEFT)
    assert page.surfaces.words.text() == "Give the surface a name, such as ground."


def test_layers_that_come_and_go_are_listed(page, made, tmp_path, qtbot):
    layers = two_surfaces(page, made, tmp_path, qtbot)
    assert listed(page)[0] == (
        "Ground\n4 points, 2 triangles, 400.0 m². A point's height ±0.020 m (95 %). The ground between the points: not "
        "known. Weak: 0 % of its area."
    )
    layers[1].setName("Formation")
    settle(page, qtbot)
    assert [text.split("\n")[0] for text in listed(page)] == ["Formation", "Ground"]
    QgsProject.instance().removeMapLayer(layers[0].id())
    settle(page, qtbot)
    assert [text.split("\n")[0] for text in listed(page)] == ["Formation"]


def test_a_layer_is_read_only_while_somebody_looks(page, made, tmp_path, qtbot):
    page.hide()
    QgsProject.instance().addMapLayer(layer_of(ground(), "Ground", tmp_path / "g.gpkg", made.plane))
    qtbot.wait(250)
    assert page.reader.found == []
    page.show()
    qtbot.waitUntil(lambda: len(page.reader.found) == 1, timeout=LONG)


def test_a_section_has_cut_and_fill_by_hatch_and_letter(page, window, made, tmp_path, qtbot):
    """Along y = 3 from x = 0 to 20, clicked to a pixel: 1 m2 of cut and of fill."""
    two_surfaces(page, made, tmp_path, qtbot)
    page.section.against.choose(1)
    told = section(page, window.canvas, made, qtbot, (-1, 3), (21, 3))
    assert [band.is_cut for band in told.cuts.bands] == [True, False]
    assert page.section.page.here.text().startswith("Cut C 1.00 ± ")
    (axes,) = page.section.page.box.figure.axes
    hatched = {p.get_label(): p.get_hatch() for p in axes.collections if p.get_hatch()}
    assert set(hatched) == {"cut (C)", "fill (F)"}
    assert len(set(hatched.values())) == 2
    assert {"C", "F"} <= {text.get_text() for text in axes.texts}
    assert {line.get_label() for line in axes.lines} >= {"Ground", "Level"}


def test_the_mouse_on_the_plot_shows_the_place_and_tells_the_levels(page, window, made, tmp_path, qtbot):
    two_surfaces(page, made, tmp_path, qtbot)
    page.section.against.choose(1)
    told = section(page, window.canvas, made, qtbot, (0, 3), (20, 3))
    inner = page.section.page
    canvas, (axes,) = inner.box.canvas, inner.box.figure.axes
    x, y = axes.transData.transform((5.0, 84.45))
    qtbot.mouseMove(canvas, QPoint(round(x), round(canvas.height() - y)))
    at = told.cuts.words_at(inner.box.pointed_at)
    assert inner.here.text() == at
    assert at.startswith("at ")
    assert "; cut C 0.1" in at or "; cut C 0.09" in at
    place = inner.on_map.marker.center()
    there = made.plane.from_crs(np.array([[place.x(), place.y()]]))[0]
    assert there == pytest.approx([5.0, 3.0], abs=0.3)


def test_the_mouse_on_the_map_shows_the_chainage(page, window, made, tmp_path, qtbot):
    two_surfaces(page, made, tmp_path, qtbot)
    section(page, window.canvas, made, qtbot, (0, 3), (20, 3))
    qtbot.mouseMove(window.canvas.viewport(), pixel(window.canvas, made, (12, 3.2)))
    assert page.section.page.box.pointed_at == pytest.approx(12.0, abs=0.3)


def test_another_choice_cuts_the_same_line_again(page, window, made, tmp_path, qtbot):
    two_surfaces(page, made, tmp_path, qtbot)
    section(page, window.canvas, made, qtbot, (0, 3), (20, 3))
    inner = page.section.page
    assert [name for name, _, _ in inner.section.surfaces] == ["Ground"]
    line = inner.section.line
    page.section.against.setFocus()
    qtbot.keyClick(page.section.against, Qt.Key.Key_Down)
    assert [name for name, _, _ in inner.section.surfaces] == ["Ground", "Level"]
    assert inner.section.cuts.bands == ()  # all others, as lines only
    page.section.ground.setFocus()
    qtbot.keyClick(page.section.ground, Qt.Key.Key_Up)
    assert inner.section.surfaces == ()  # what was walked alone
    assert np.array_equal(inner.section.line, line)
    assert not page.section.against.isEnabled()


def test_the_plot_fits_the_dock_with_all_that_it_can_show(page, window, made, tmp_path, qtbot):
    """Two surfaces, cut, fill and what was walked: the legend within the picture, and half of the height for the ground."""
    two_surfaces(page, made, tmp_path, qtbot)
    page.section.against.choose(1)
    section(page, window.canvas, made, qtbot, (9, -9), (9, 9))
    figure = page.section.page.box.figure
    (axes,) = figure.axes
    legend = axes.get_legend().get_window_extent()
    assert len(axes.get_legend().get_texts()) >= 4
    assert figure.bbox.x0 <= legend.x0
    assert legend.x1 <= figure.bbox.x1
    assert legend.y1 <= figure.bbox.y1
    assert axes.bbox.height >= 0.45 * figure.bbox.height


def test_walked_edges_and_a_surface_are_in_one_section(page, window, made, tmp_path, qtbot):
    """Across the kerb at x = 9: its level is the ground's, 84.42, for it lies on it."""
    two_surfaces(page, made, tmp_path, qtbot)
    told = section(page, window.canvas, made, qtbot, (9, -9), (9, -3))
    (point,) = told.points
    ((_, along, z),) = told.surfaces
    assert np.interp(point.along, along, z) == pytest.approx(point.level, abs=1e-4)


def test_a_surface_in_another_crs_is_cut_where_it_lies(page, window, tmp_path, made, qtbot):
    """The same ground as a layer of the web map: across the kerb its level is the kerb's."""
    web = made_survey("EPSG:3857").plane
    QgsProject.instance().addMapLayer(layer_of(ground(), "Web", tmp_path / "w.gpkg", web, "EPSG:3857"))
    settle(page, qtbot)
    told = section(page, window.canvas, made, qtbot, (9, -9), (9, -3))
    (point,) = told.points
    ((_, along, z),) = told.surfaces
    assert told.length == pytest.approx(6.0, abs=2 * PIXEL)
    assert np.interp(point.along, along, z) == pytest.approx(point.level, abs=1e-4)
    assert clicked(page, window, made, qtbot, (2, 3), (17, 3))["Percent"].startswith("-2.00 ± ")


def clicked(page, window, made, qtbot, *places):
    page.tabs.setCurrentIndex(SLOPE)
    qtbot.mouseClick(page.slope.click, LEFT)
    click(qtbot, window.canvas, made, *places)
    table = page.slope.table
    return {table.item(k, 0).text(): table.item(k, 1).text() for k in range(table.rowCount())}


def test_two_clicks_tell_rise_run_and_gradient(page, window, made, tmp_path, qtbot):
    """On a fall of 1 in 50 to the east: percent, degrees and inches per foot hang on no pixel."""
    two_surfaces(page, made, tmp_path, qtbot)
    told = clicked(page, window, made, qtbot, (2, 3), (17, 3))
    assert set(told) == {"Rise", "Run", "Slope length", "Gradient", "Percent", "Degrees", "Inches per foot"}
    assert told["Gradient"].startswith("1 in 50 down")
    assert told["Percent"].startswith("-2.00 ± ")
    assert told["Degrees"].startswith("-1.15 ± ")
    assert told["Inches per foot"].startswith("-0.240 ± ")
    assert float(told["Run"].split()[0]) == pytest.approx(15.0, abs=2 * PIXEL)
    assert float(told["Rise"].split()[0]) == pytest.approx(-0.3, abs=2 * PIXEL * 0.02 + 0.001)
    assert page.slope.words.text() == "From the first place to the second, on Ground; ± is 95 %."
    assert not page.slope.click.isChecked()
    assert page.slope.on_map.band.numberOfVertices() == 2


def test_another_surface_tells_the_same_two_places(page, window, made, tmp_path, qtbot):
    two_surfaces(page, made, tmp_path, qtbot)
    clicked(page, window, made, qtbot, (2, 3), (17, 3))
    page.slope.surface.setFocus()
    qtbot.keyClick(page.slope.surface, Qt.Key.Key_Down)
    assert page.slope.table.item(3, 1).text() == "level"


def test_a_place_off_the_surface_is_told(page, window, made, tmp_path, qtbot):
    two_surfaces(page, made, tmp_path, qtbot)
    assert clicked(page, window, made, qtbot, (2, 3), (29, 3)) == {}
    assert page.slope.words.text().startswith("The surface does not reach x 2")


def test_backspace_and_escape_take_clicks_back(page, window, made, tmp_path, qtbot):
    two_surfaces(page, made, tmp_path, qtbot)
    pan = QgsMapToolPan(window.canvas)
    window.canvas.setMapTool(pan)
    clicked(page, window, made, qtbot, (2, 3))
    assert len(page.slope.tool.points) == 1
    qtbot.keyClick(window.canvas, Qt.Key.Key_Backspace)
    assert page.slope.tool.points == ()
    qtbot.keyClick(window.canvas, Qt.Key.Key_Escape)
    assert window.canvas.mapTool() is pan
    assert not page.slope.click.isChecked()


def test_a_tool_is_given_back_when_another_tab_is_looked_at(page, window, made, tmp_path, qtbot):
    two_surfaces(page, made, tmp_path, qtbot)
    clicked(page, window, made, qtbot, (2, 3))
    page.tabs.setCurrentIndex(VOLUME)
    assert not isinstance(window.canvas.mapTool(), SectionTool)
    assert not page.slope.click.isChecked()


def measured(page, qtbot):
    page.tabs.setCurrentIndex(VOLUME)
    with qtbot.waitSignal(page.runner.ended, timeout=LONG) as ended:
        qtbot.mouseClick(page.volume.measure, LEFT)
    assert ended.args[0], ended.args[2]
    table = page.volume.table
    return [[table.item(k, c).text() for c in range(4)] for k in range(table.rowCount())]


def test_a_volume_against_a_level_is_told_and_shown(page, made, tmp_path, qtbot):
    """400 m2 whose depth runs from 0.2 to -0.2: 20 m3 of cut and 20 of fill. The level begins at the middle, 84.4."""
    two_surfaces(page, made, tmp_path, qtbot)
    assert page.volume.level.value() == pytest.approx(84.4)
    ((_, cut, fill, net),) = measured(page, qtbot)
    assert cut.startswith("20.00\n± ")
    assert fill.startswith("20.00\n± ")
    assert net.split("\n")[0] in ("0.00", "-0.00")
    assert page.volume.table.isColumnHidden(0)
    assert page.volume.said.text() == "Ground to level 84.4 m; ± is 95 %."
    names = [node.name() for node in QgsProject.instance().layerTreeRoot().findGroup("Ground").findLayers()]
    assert names == [
        "Zero line of Ground to level 84.4 m",
        "Volumes of Ground to level 84.4 m",
        "Depths of Ground to level 84.4 m",
    ]
    (depths,) = QgsProject.instance().mapLayersByName(names[2])
    labels = [rule.label() for rule in depths.renderer().rootRule().children()]
    assert labels == ["Cut (C), darker where deeper", "Fill (F), darker where deeper", "Level"]


@pytest.fixture
def feet(qgis_app):
    """The project's labels show feet."""
    project = QgsProject.instance()
    before = project.customVariables()
    project.setCustomVariables({**before, UNIT_NAME: "ft", UNIT_LENGTH: "0.3048"})
    yield project
    project.setCustomVariables(before)


def test_lengths_of_a_volume_are_asked_in_the_projects_unit(page, made, tmp_path, qtbot, feet):
    two_surfaces(page, made, tmp_path, qtbot)
    page.tabs.setCurrentIndex(VOLUME)
    volume = page.volume
    assert {box.suffix() for box in (volume.level, volume.strip, volume.step)} == {" ft"}
    assert volume.step.value() == pytest.approx(0.328)
    assert volume.step.metres() == 0.1
    volume.level.setValue(276.5)
    volume.strip.setValue(0.5)
    with qtbot.waitSignal(page.runner.ended, timeout=LONG), qtbot.waitSignal(volume.wanted) as asked:
        qtbot.mouseClick(volume.measure, LEFT)
    (ask,) = asked.args
    assert (ask.level, ask.strip, ask.step) == (
        pytest.approx(276.5 * 0.3048, abs=1e-12),
        pytest.approx(0.1524, abs=1e-12),
        0.1,
    )
    assert ask.target == "level 276.5 ft"
    assert page.volume.said.text().startswith("Ground to level 276.5 ft; ± is 95 %.")
    assert "ft³" in page.volume.table.item(0, 1).text()


def test_contours_are_asked_in_the_projects_unit(page, feet):
    page.tabs.setCurrentIndex(VOLUME)
    page.tabs.setCurrentIndex(0)
    assert (page.surfaces.interval.suffix(), page.surfaces.interval.value()) == (" ft", pytest.approx(0.82))
    assert page.surfaces.interval.metres() == 0.25
    page.surfaces.interval.setValue(1.0)
    assert page.surfaces.interval.metres() == pytest.approx(0.3048)


def test_a_length_box_shows_one_length_in_any_unit(qtbot):
    box = LengthBox(-10.0, 10.0, 1.0)
    qtbot.addWidget(box)
    told = []
    box.valueChanged.connect(told.append)
    foot = Unit("ft", 0.3048)
    box.show_unit(foot)
    assert (box.value(), box.metres(), box.maximum()) == (pytest.approx(3.281), 1.0, pytest.approx(32.808))
    box.show_unit(METRE)
    assert (box.value(), box.metres(), told) == (1.0, 1.0, [])
    box.set_metres(84.4321)
    assert (box.value(), box.metres()) == (10.0, 10.0)
    box.set_metres(1.23456)
    assert (box.value(), box.metres(), told) == (1.235, 1.235, [])
    box.show_unit(foot)
    box.setValue(2.0)
    assert (box.metres(), told) == (pytest.approx(0.6096, abs=1e-12), [2.0])


def test_all_of_the_ground_is_said_where_no_areas_are_chosen(window, job, qtbot):
    """Also where the project held layers of polygons before the page was made."""
    QgsProject.instance().addMapLayer(QgsVectorLayer("Polygon?crs=EPSG:25831", "Beds", "memory"))
    page = opened(window, job, qtbot)
    assert page.volume.areas.currentText() == "all of the ground"
    assert page.volume.areas.currentLayer() is None
    page.close_down()


def test_a_volume_against_a_surface_inside_areas(page, made, tmp_path, qtbot):
    """West of x = 10 only, 10 m wide: 0.1 on the mean over 10 by 10 is 10 m3 of cut and no fill, of which there may be some
    at the zero line."""
    two_surfaces(page, made, tmp_path, qtbot)
    beds = QgsVectorLayer("Polygon?crs=EPSG:25831&field=name:string", "Beds", "memory")
    ring = made.plane.to_crs(np.array([(0.0, -5.0), (10.0, -5.0), (10.0, 5.0), (0.0, 5.0)])).tolist()
    feature = QgsFeature(beds.fields())
    feature.setAttributes(["West"])
    feature.setGeometry(QgsGeometry.fromPolygonXY([[QgsPointXY(*p) for p in (*ring, ring[0])]]))
    assert beds.dataProvider().addFeatures([feature])[0]
    QgsProject.instance().addMapLayer(beds)
    page.volume.against.choose(1)
    page.volume.areas.setLayer(beds)
    assert not page.volume.level.isEnabled()
    ((name, cut, fill, _),) = measured(page, qtbot)
    assert (name, cut.split("\n")[0]) == ("West", "10.00")
    assert fill.startswith("0.00,\nbetween 0.00 and 0.")
    assert not page.volume.table.isColumnHidden(0)


def test_a_surface_is_not_held_against_itself(page, made, tmp_path, qtbot):
    two_surfaces(page, made, tmp_path, qtbot)
    page.volume.against.choose(0)
    assert not page.volume.measure.isEnabled()
    assert page.volume.words.text() == "Choose another surface, or a level, to hold it against."


def test_more_offers_what_the_toolbox_has(page):
    page.surfaces.more.menu().aboutToShow.emit()
    labels = [action.text() for action in page.surfaces.more.menu().actions()]
    registry = QgsApplication.processingRegistry()
    assert "Cut sections..." in labels
    assert all(text.endswith("...") for text in labels)
    assert len(labels) == sum(
        registry.algorithmById(f"groundtally:{name}") is not None
        for name in (
            "find_low_points",
            "measure_gradients",
            "cut_sections",
            "check_limits",
            "compare_surveys",
        )
    )


def test_another_project_takes_everything_away(page, window, made, tmp_path, qtbot):
    two_surfaces(page, made, tmp_path, qtbot)
    section(page, window.canvas, made, qtbot, (0, 3), (20, 3))
    clicked(page, window, made, qtbot, (2, 3), (17, 3))
    QgsProject.instance().clear()
    settle(page, qtbot)
    assert page.reader.found == []
    assert page.section.page.section is None
    assert page.slope.table.rowCount() == 0
    assert page.slope.on_map.band.numberOfVertices() == 0


def test_surfaces_without_a_survey_are_cut_too(window, made, tmp_path, qtbot):
    page = opened(window, DeskJob(tmp_path, tmp_path / "none.gpkg"), qtbot)
    two_surfaces(page, made, tmp_path, qtbot)
    told = section(page, window.canvas, made, qtbot, (0, 3), (20, 3))
    assert told.points == ()
    assert told.length == pytest.approx(20.0, abs=2 * PIXEL)
    page.close_down()


def test_it_fits_the_narrow_dock(page):
    assert page.minimumSizeHint().width() <= 362
    assert page.minimumSizeHint().height() <= 560


def test_closing_leaves_nothing(window, job, made, tmp_path, qtbot):
    canvas, project = window.canvas, QgsProject.instance()
    canvas.snappingUtils()  # the host makes them at the first call, and they listen to the canvas
    layer = layer_of(ground(), "Ground", tmp_path / "g.gpkg", made.plane)
    project.addMapLayer(layer)

    def left():
        signals = (canvas.xyCoordinates, canvas.mapToolSet)
        told = [canvas.receivers(signal) for signal in signals]
        told += [
            project.receivers(s) for s in (project.layersAdded, project.layersWillBeRemoved, project.cleared)
        ]
        return [
            *told,
            layer.receivers(layer.dataChanged),
            layer.receivers(layer.nameChanged),
            len(items(canvas)),
        ]

    page = opened(window, job, qtbot)  # what the host makes once is made
    page.close_down()
    page.deleteLater()
    qtbot.wait(50)
    before = left()
    for _ in range(2):
        page = opened(window, job, qtbot)
        section(page, canvas, made, qtbot, (0, 3), (20, 3))
        clicked(page, window, made, qtbot, (2, 3), (17, 3))
        qtbot.mouseClick(page.slope.click, LEFT)
        page.close_down()
        page.deleteLater()
        qtbot.wait(50)
        assert left() == before
        assert not isinstance(canvas.mapTool(), SectionTool)
    project.removeMapLayer(layer.id())
    qtbot.mouseMove(canvas.viewport(), QPoint(20, 20))


def test_a_page_that_closes_while_it_reads_and_runs_says_nothing_more(window, job, made, tmp_path, qtbot):
    page = opened(window, job, qtbot)
    qtbot.mouseClick(page.surfaces.build, LEFT)
    page.reader.make_stale()
    qtbot.wait(110)
    page.close_down()
    page.deleteLater()
    qtbot.wait(500)
    assert QgsProject.instance().mapLayersByName("Surface ground") == []
