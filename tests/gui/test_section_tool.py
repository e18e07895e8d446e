# SPDX-License-Identifier: GPL-2.0-or-later
"""A line drawn on the map with real clicks and keys, its section, and nothing left on the map afterwards."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from qgis.core import QgsCoordinateReferenceSystem, QgsPointXY, QgsProject, QgsRectangle, QgsVectorLayer
from qgis.gui import QgsMapCanvas, QgsMapCanvasItem, QgsMapToolPan, QgsRubberBand
from qgis.PyQt.QtCore import QPoint, Qt

from plugin.bridge.geopackage import write_survey
from plugin.bridge.jobs import DeskJob, survey_crs
from plugin.gui.pages.section import SectionPage
from plugin.gui.tools.section_tool import SectionTool
from tests.made_survey import made_survey

LEFT, RIGHT = Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton


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
    return DeskJob(tmp_path, write_survey(made, tmp_path / "s.gpkg"))


@pytest.fixture
def canvas(window):
    return window.canvas


@pytest.fixture
def window(qtbot, qgis_app, job, made):
    """A window that shows the made survey, 40 m across about its middle, its stations on the map."""
    QgsProject.instance().clear()
    window = Window(qtbot)
    crs = QgsCoordinateReferenceSystem("EPSG:25831")
    QgsProject.instance().setCrs(crs)
    layer = QgsVectorLayer(f"{job.survey}|layername=stations", "Stations", "ogr")
    QgsProject.instance().addMapLayer(layer)
    window.canvas.setDestinationCrs(crs)
    window.canvas.setLayers([layer])
    x, y = made.plane.to_crs(np.array([[12.0, 0.0]]))[0].tolist()
    window.canvas.setExtent(QgsRectangle(x - 20, y - 20, x + 20, y + 20))
    yield window
    QgsProject.instance().clear()


@pytest.fixture
def page(window, job, qtbot):
    page = SectionPage(window)
    qtbot.addWidget(page)
    page.setGeometry(410, 0, 380, 560)  # beside the map: the mouse is over one window only
    page.show()
    qtbot.waitExposed(page)
    page.show_job(job, survey_crs(job))
    yield page
    page.close_down()


def pixel(canvas, made, place) -> QPoint:
    """Where a place of the survey plane is on the screen."""
    x, y = made.plane.to_crs(np.array([place], float))[0].tolist()
    return screen(canvas, x, y)


def screen(canvas, x, y) -> QPoint:
    point = canvas.getCoordinateTransform().transform(QgsPointXY(x, y))
    return QPoint(round(point.x()), round(point.y()))


def start(page, qtbot):
    qtbot.mouseClick(page.draw, LEFT)
    assert page.draw.isChecked()


def click(qtbot, canvas, made, *places):
    for place in places:
        at = pixel(canvas, made, place)
        qtbot.mouseMove(canvas.viewport(), at)
        qtbot.mouseClick(canvas.viewport(), LEFT, pos=at)


def items(canvas) -> list[QgsMapCanvasItem]:
    return [item for item in canvas.scene().items() if isinstance(item, QgsMapCanvasItem)]


def test_two_clicks_and_the_right_button_make_a_section(page, canvas, made, qtbot):
    """Across the kerb at x = 9: the made ground is 84.6 - 0.02 x there, to the centimetre that a pixel of 0.1 m allows."""
    start(page, qtbot)
    assert canvas.mapTool() is page.tool
    click(qtbot, canvas, made, (9, -9), (9, -3))
    qtbot.mouseClick(canvas.viewport(), RIGHT, pos=QPoint(5, 5))
    (point,) = page.section.points
    assert point.level == pytest.approx(84.42, abs=0.01)
    assert point.along == pytest.approx(3.0, abs=0.2)
    assert page.table.rowCount() == 1
    assert page.table.item(0, 0).text().startswith("Kerb\n84.4")
    told = page.table.item(0, 0).toolTip().split("\n")
    assert told[:2] == ["Kerb", "edge between stations 1 and 2 of W1"]
    assert told[3].startswith(
        "A level runs evenly along an edge between its two stations; its 95 % is from theirs"
    )
    assert not page.draw.isChecked()
    assert canvas.mapTool() is not page.tool


@pytest.mark.parametrize("key", [Qt.Key.Key_Backspace, Qt.Key.Key_Delete])
def test_taking_a_point_back_never_lets_the_host_delete_what_is_selected(page, canvas, made, qtbot, key):
    """The host deletes the selected features of the layer at hand where a tool has accepted these keys."""
    was_accepted = []
    canvas.keyPressed.connect(lambda event: was_accepted.append(event.isAccepted()))
    start(page, qtbot)
    click(qtbot, canvas, made, (9, -9))
    qtbot.keyClick(canvas, key)
    assert page.tool.points == ()
    qtbot.keyClick(canvas, key)
    assert True not in was_accepted
    canvas.keyPressed.disconnect()


def test_enter_ends_the_line_and_backspace_takes_a_point_back(page, canvas, made, qtbot):
    start(page, qtbot)
    click(qtbot, canvas, made, (9, -9), (20, -15), (9, -3))
    assert len(page.tool.points) == 3
    qtbot.keyClick(canvas, Qt.Key.Key_Backspace)
    qtbot.keyClick(canvas, Qt.Key.Key_Backspace)
    click(qtbot, canvas, made, (9, -3))
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    assert page.section.length == pytest.approx(6.0, abs=0.3)
    assert len(page.section.points) == 1


def test_escape_gives_the_line_up_and_the_map_its_tool_back(page, canvas, made, qtbot):
    pan = QgsMapToolPan(canvas)
    canvas.setMapTool(pan)
    start(page, qtbot)
    click(qtbot, canvas, made, (9, -9))
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert canvas.mapTool() is pan
    assert (page.section, page.tool.points, page.draw.isChecked()) == (None, (), False)
    assert page.box.words.isVisible()


def test_one_click_is_no_line(page, canvas, made, qtbot):
    start(page, qtbot)
    click(qtbot, canvas, made, (9, -9))
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    assert page.section is None
    assert page.draw.isChecked()
    assert page.tool.points != ()


def test_a_double_click_is_one_point(page, canvas, made, qtbot):
    start(page, qtbot)
    at = pixel(canvas, made, (9, -9))
    qtbot.mouseClick(canvas.viewport(), LEFT, pos=at)
    qtbot.mouseClick(canvas.viewport(), LEFT, pos=at)
    assert len(page.tool.points) == 1


def test_clicks_near_stations_snap_onto_them(page, canvas, made, qtbot):
    """Stations 1 (2, 2) and 2 (22, 2) of the court, clicked some pixels off: the line goes from one to the other, 20 m long,
    falling 1 in 50."""
    start(page, qtbot)
    for place, off in (((2, 2), QPoint(4, -3)), ((22, 2), QPoint(-3, 4))):
        at = pixel(canvas, made, place) + off
        qtbot.mouseMove(canvas.viewport(), at)
        qtbot.mouseClick(canvas.viewport(), LEFT, pos=at)
    qtbot.keyClick(canvas, Qt.Key.Key_Enter)
    assert page.section.length == pytest.approx(20.0, abs=1e-5)
    assert [p.along for p in page.section.points] == pytest.approx([0.0, 20.0], abs=1e-5)
    (way,) = page.section.ways
    assert (way.rise, way.percent, way.ratio) == (
        pytest.approx(-0.4, abs=1e-5),
        pytest.approx(-2.0, abs=1e-4),
        "1 in 50 down",
    )


def drawn(page, canvas, made, qtbot, *places):
    start(page, qtbot)
    click(qtbot, canvas, made, *places)
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    qtbot.wait(150)
    return page.section


def test_the_plot_shows_each_level_with_its_95_percent_and_no_more_than_a_thin_dashed_join(
    page, canvas, made, qtbot
):
    section = drawn(page, canvas, made, qtbot, (2, 2), (22, 2))
    (axes,) = page.box.figure.axes
    (join,) = [line for line in axes.lines if line.get_label() == "between: not known"]
    assert join.get_linewidth() < 1
    assert join.is_dashed()
    assert join.get_xydata().tolist() == [[p.along, p.level] for p in section.points]
    (bars,) = [c for c in axes.containers if hasattr(c, "has_yerr")]
    (lines,) = bars[2]
    spans = [segment[:, 1].tolist() for segment in lines.get_segments()]
    assert spans == [pytest.approx([p.level - p.half_95, p.level + p.half_95]) for p in section.points]
    told = [text.get_text() for text in axes.get_legend().get_texts()]
    assert told == ["between: not known", "station ± 95 %"]
    assert {t.get_text() for t in axes.texts} == {"1", "2"}
    assert axes.get_xlim() == (0.0, section.length)


def test_pointing_at_the_plot_shows_the_place_on_the_map(page, canvas, made, qtbot):
    section = drawn(page, canvas, made, qtbot, (2, 2), (22, 2))
    figure_canvas, (axes,) = page.box.canvas, page.box.figure.axes
    x, y = axes.transData.transform((15.0, section.points[0].level))
    height = figure_canvas.height()
    qtbot.mouseMove(figure_canvas, QPoint(round(x), round(height - y)))
    assert page.box.pointed_at == pytest.approx(15.0, abs=0.2)
    assert page.on_map.marker.isVisible()
    there = made.plane.from_crs(
        np.array([[page.on_map.marker.center().x(), page.on_map.marker.center().y()]])
    )[0]
    assert there == pytest.approx([17.0, 2.0], abs=0.2)
    # The nearest level is chosen in the table.
    assert {item.row() for item in page.table.selectedItems()} == {1}
    # Beside the axes, on the same figure.
    qtbot.mouseMove(figure_canvas, QPoint(2, 2))
    assert page.box.pointed_at is None
    assert not page.on_map.marker.isVisible()


def test_pointing_at_the_line_on_the_map_shows_the_place_in_the_plot(page, canvas, made, qtbot):
    drawn(page, canvas, made, qtbot, (2, 2), (22, 2))
    qtbot.mouseMove(canvas.viewport(), pixel(canvas, made, (12, 2.2)))
    assert page.box.pointed_at == pytest.approx(10.0, abs=0.2)
    qtbot.mouseMove(canvas.viewport(), pixel(canvas, made, (12, -12)))
    assert page.box.pointed_at is None


def test_a_row_of_the_table_shows_its_level_in_the_plot_and_on_the_map(page, canvas, made, qtbot):
    section = drawn(page, canvas, made, qtbot, (2, 2), (22, 2))
    page.table.setFocus()
    qtbot.keyClick(page.table, Qt.Key.Key_Down)
    qtbot.keyClick(page.table, Qt.Key.Key_Down)
    assert page.box.pointed_at == section.points[1].along
    assert page.on_map.marker.center().x() == pytest.approx(section.points[1].at[0], abs=1e-6)


def test_a_line_drawn_in_another_crs_is_the_same_one(page, canvas, made, qtbot):
    """The map shows the web map's CRS: the line's length is still that on the ground."""
    canvas.setDestinationCrs(QgsCoordinateReferenceSystem("EPSG:3857"))
    from qgis.core import QgsCoordinateTransform

    way = QgsCoordinateTransform(
        QgsCoordinateReferenceSystem("EPSG:25831"),
        QgsCoordinateReferenceSystem("EPSG:3857"),
        QgsProject.instance(),
    )
    ends = [
        way.transform(QgsPointXY(*p)) for p in made.plane.to_crs(np.array([(2.0, 2.0), (22.0, 2.0)])).tolist()
    ]
    middle = QgsRectangle(ends[0], ends[1])
    middle.grow(10)
    canvas.setExtent(middle)
    start(page, qtbot)
    for end in ends:
        at = screen(canvas, end.x(), end.y())
        qtbot.mouseMove(canvas.viewport(), at)
        qtbot.mouseClick(canvas.viewport(), LEFT, pos=at)
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    assert page.section.length == pytest.approx(20.0, abs=1e-3)
    assert len(page.section.points) == 2
    # What lies on the map is in the map's CRS.
    assert page.on_map.band.asGeometry().boundingBox().width() == pytest.approx(
        abs(ends[1].x() - ends[0].x()), abs=1e-2
    )


def test_a_line_past_everything_says_so(page, canvas, made, qtbot):
    drawn(page, canvas, made, qtbot, (-6, -12), (-6, -9))
    assert page.box.words.text() == (
        "The line meets no edge or station that has a height. Draw it across the edges."
    )
    assert not page.table.isVisible()


def test_another_tool_of_the_window_ends_the_drawing(page, canvas, made, qtbot):
    start(page, qtbot)
    click(qtbot, canvas, made, (9, -9))
    pan = QgsMapToolPan(canvas)
    canvas.setMapTool(pan)
    assert not page.draw.isChecked()
    assert page.tool.points == ()
    assert canvas.mapTool() is pan


def test_clear_takes_the_line_away(page, canvas, made, qtbot):
    drawn(page, canvas, made, qtbot, (2, 2), (22, 2))
    assert page.on_map.band.numberOfVertices() == 2
    qtbot.mouseClick(page.wipe, LEFT)
    assert page.on_map.band.numberOfVertices() == 0
    assert page.section is None


def test_a_survey_without_heights_and_one_with_a_stop_say_so(window, made, tmp_path, qtbot):
    page = SectionPage(window)
    qtbot.addWidget(page)
    page.show()
    bare = replace(made, legs=(), spots=(), stations=())
    path = write_survey(bare, tmp_path / "bare.gpkg")
    page.show_job(DeskJob(tmp_path, tmp_path / "none.gpkg"), QgsCoordinateReferenceSystem())
    assert page.words.text() == "Nothing surveyed yet: run the job."
    assert not page.draw.isEnabled()
    page.show_job(DeskJob(tmp_path, path), survey_crs(DeskJob(tmp_path, path)))
    assert page.words.text() == "This survey has no heights."
    assert not page.draw.isEnabled()
    leg = replace(made.legs[0], rise=None, tags=replace(made.legs[0].tags, finding="TI-03"))
    path = write_survey(replace(made, legs=(leg,)), tmp_path / "stop.gpkg")
    page.show_job(DeskJob(tmp_path, path), survey_crs(DeskJob(tmp_path, path)))
    assert page.words.text() == "1 edges are left out: an open stop keeps their heights out."
    page.close_down()


def test_a_survey_that_is_not_placed_has_its_sections_too(window, tmp_path, qtbot):
    """Its layers are in a plane of their own, and so is what the map shows."""
    bare = made_survey(None)
    job = DeskJob(tmp_path, write_survey(bare, tmp_path / "bare.gpkg"))
    layer = QgsVectorLayer(f"{job.survey}|layername=stations", "Stations", "ogr")
    QgsProject.instance().addMapLayer(layer)
    window.canvas.setDestinationCrs(layer.crs())
    window.canvas.setLayers([layer])
    window.canvas.setExtent(QgsRectangle(-8, -20, 32, 20))
    page = SectionPage(window)
    qtbot.addWidget(page)
    page.show()
    page.show_job(job, survey_crs(job))
    start(page, qtbot)
    for x, y in ((2, 2), (22, 2)):
        qtbot.mouseClick(window.canvas.viewport(), LEFT, pos=screen(window.canvas, x, y))
    qtbot.keyClick(window.canvas, Qt.Key.Key_Return)
    assert page.section.length == pytest.approx(20.0, abs=1e-6)
    assert page.section.ways[0].rise == pytest.approx(-0.4, abs=1e-9)
    page.close_down()


def test_closing_leaves_nothing_on_the_map(window, job, made, qtbot):
    canvas = window.canvas
    canvas.snappingUtils()  # the host makes them at the first call, and they listen to the canvas
    before = len(items(canvas))
    receivers = canvas.receivers(canvas.xyCoordinates), canvas.receivers(canvas.mapToolSet)
    for _ in range(2):
        page = SectionPage(window)
        qtbot.addWidget(page)
        page.show()
        page.show_job(job, survey_crs(job))
        drawn(page, canvas, made, qtbot, (2, 2), (22, 2))
        qtbot.mouseMove(canvas.viewport(), pixel(canvas, made, (12, 2)))
        start(page, qtbot)
        click(qtbot, canvas, made, (9, -9))
        page.close_down()
        qtbot.wait(20)
        assert len(items(canvas)) == before
        assert (canvas.receivers(canvas.xyCoordinates), canvas.receivers(canvas.mapToolSet)) == receivers
        assert not isinstance(canvas.mapTool(), SectionTool)
        page.deleteLater()
    qtbot.wait(20)
    qtbot.mouseMove(canvas.viewport(), QPoint(20, 20))
