# SPDX-License-Identifier: GPL-2.0-or-later
"""Show the working: a click on the map or an action of a table, the page, the clipboard, and nothing left behind."""

from __future__ import annotations

from pathlib import Path

import pytest
import qgis.gui
from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsPointXY,
    QgsProject,
    QgsRectangle,
    QgsVectorLayer,
)
from qgis.gui import QgsGui, QgsMapCanvas, QgsMapLayerAction, QgsRubberBand
from qgis.PyQt.QtCore import QPoint, Qt

from plugin.bridge.geopackage import write_survey
from plugin.bridge.working import read_working
from plugin.core.measure.chain import survey_files
from plugin.gui.pages.working import WorkingPage
from plugin.gui.share_bar import SHARE
from plugin.gui.tools.figure_actions import FigureActions
from tests.made_survey import made_survey
from tests.processing.layers import memory_layer

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
LEFT = Qt.MouseButton.LeftButton


class Window:
    """The host's interface as far as the page goes, with a real canvas."""

    def __init__(self, canvas):
        self.canvas = canvas

    def mapCanvas(self):
        return self.canvas


@pytest.fixture(scope="module")
def survey(tmp_path_factory, qgis_app):
    texts = {path.name: path.read_bytes() for path in sorted(DEMO.glob("*.csv"))}
    return write_survey(survey_files(texts), tmp_path_factory.mktemp("yard") / "yard.gpkg")


def opened(survey, table):
    layer = QgsVectorLayer(f"{survey}|layername={table}", table, "ogr")
    assert layer.isValid()
    return layer


@pytest.fixture
def layers(survey):
    return {name: opened(survey, name) for name in ("marks", "stations", "lengths", "areas")}


@pytest.fixture
def canvas(qtbot, qgis_app, layers):
    made = QgsMapCanvas()
    qtbot.addWidget(made)
    made.resize(400, 400)
    made.setDestinationCrs(layers["areas"].crs())
    made.show()
    qtbot.waitExposed(made)
    made.setLayers(list(layers.values()))
    return made


@pytest.fixture
def page(qtbot, canvas):
    made = WorkingPage(Window(canvas))
    qtbot.addWidget(made)
    made.resize(380, 560)
    made.show()
    qtbot.waitExposed(made)
    yield made
    made.close_down()


def look_at(canvas, x, y, reach=1.0):
    """Show a place in the middle; where it lies in the window."""
    canvas.setExtent(QgsRectangle(x - reach, y - reach, x + reach, y + reach))
    canvas.refresh()
    pixel = canvas.getCoordinateTransform().transform(QgsPointXY(x, y))
    return QPoint(round(pixel.x()), round(pixel.y()))


def inside(layer, row):
    point = layer.getFeature(row).geometry().pointOnSurface().asPoint()
    return point.x(), point.y()


def click(qtbot, page, canvas, place):
    if not page.pick.isChecked():
        qtbot.mouseClick(page.pick, LEFT)
    assert canvas.mapTool() is page.tool
    qtbot.mouseClick(canvas.viewport(), LEFT, pos=place)


def cells(table):
    return [
        [table.item(row, column).text() for column in range(table.columnCount())]
        for row in range(table.rowCount())
    ]


def test_an_empty_page_says_how_to_begin(page):
    assert page.title.text() == (
        "Point at the map, or open a table and choose Show the working for a row: the formula of its figure stands here, "
        "and the stations it rests on."
    )
    assert not page.copy.isEnabled()
    assert not page.split.isVisible()
    assert not page.choice.isVisible()


def test_a_click_in_an_area_shows_its_working(page, canvas, layers, survey, qtbot):
    place = look_at(canvas, *inside(layers["areas"], 4))
    with qtbot.waitSignal(page.shown, timeout=1000):
        click(qtbot, page, canvas, place)
    working = read_working(survey, "areas", 4, "area_m2")
    assert page.title.text() == working.name == "Bed 2"
    assert page.figure.text() == working.figure
    assert page.formula.toPlainText().startswith("\n".join(working.lines))
    assert page.choice.currentText() == "Area in plan"
    assert [row[0] for row in cells(page.stations)] == [station.name for station in working.stations]
    assert page.tabs.tabText(1) == f"&Stations behind it ({len(working.stations)})"
    assert cells(page.parts)[0] == [
        f"{working.parts[0].group}: {working.parts[0].words}",
        f"{working.parts[0].reach}, {working.parts[0].share:.0%}",
    ]


def test_a_click_on_a_mark_takes_the_uppermost(page, canvas, layers, qtbot):
    point = layers["marks"].getFeature(1).geometry().asPoint()
    click(qtbot, page, canvas, look_at(canvas, point.x(), point.y()))
    assert page.title.text() == "A"
    assert page.choice.count() == 3
    assert page.choice.itemText(2) == "Residual"


def test_a_click_beside_everything_says_so(page, canvas, layers, qtbot):
    extent = layers["areas"].extent()
    click(qtbot, page, canvas, look_at(canvas, extent.xMinimum() - 500.0, extent.yMinimum() - 500.0))
    assert (
        page.title.text()
        == "Nothing with a working lies there. Click on an edge, inside an area, or on a station."
    )
    assert not page.split.isVisible()


def test_a_click_with_another_button_does_nothing(page, canvas, layers, qtbot):
    place = look_at(canvas, *inside(layers["areas"], 4))
    qtbot.mouseClick(page.pick, LEFT)
    before = page.title.text()
    qtbot.mouseClick(canvas.viewport(), Qt.MouseButton.RightButton, pos=place)
    assert page.title.text() == before


def test_escape_and_the_button_put_the_tool_away(page, canvas, qtbot):
    qtbot.mouseClick(page.pick, LEFT)
    assert canvas.mapTool() is page.tool
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert canvas.mapTool() is not page.tool
    assert not page.pick.isChecked()
    qtbot.mouseClick(page.pick, LEFT)
    qtbot.mouseClick(page.pick, LEFT)
    assert canvas.mapTool() is not page.tool


def test_another_figure_of_the_row_is_chosen_with_the_keyboard(page, survey, qtbot):
    page.show_figure(survey, "lengths", 1)
    assert page.choice.currentText() == "Length in plan"
    page.choice.setFocus()
    qtbot.keyClick(page.choice, Qt.Key.Key_Down)
    assert page.choice.currentText() == "Length along the slope"
    assert page.figure.text() == read_working(survey, "lengths", 1, "slope_length_m").figure


def test_a_named_column_is_shown_first(page, survey):
    page.show_figure(survey, "areas", 1, "fall_ratio")
    assert page.choice.currentText() == "Fall"
    assert page.formula.toPlainText().splitlines()[1].startswith("Fall = √(")


def test_a_double_click_on_a_station_shows_it_on_the_map(page, canvas, survey, layers, qtbot):
    page.show_figure(survey, "areas", 1)
    page.tabs.setCurrentIndex(1)
    item = page.stations.item(2, 0)
    where = page.stations.visualItemRect(item).center()
    qtbot.mouseClick(page.stations.viewport(), LEFT, pos=where)
    qtbot.mouseDClick(page.stations.viewport(), LEFT, pos=where)
    wanted = read_working(survey, "areas", 1, "area_m2").stations[2].map_xy
    centre = canvas.extent().center()
    assert (centre.x(), centre.y()) == pytest.approx(wanted, abs=1e-3)
    assert canvas.extent().width() < 30.0


def test_enter_shows_a_station_too_whatever_crs_the_map_has(page, canvas, survey, qtbot):
    canvas.setDestinationCrs(QgsCoordinateReferenceSystem("EPSG:3857"))
    page.show_figure(survey, "areas", 1)
    page.tabs.setCurrentIndex(1)
    page.stations.setCurrentCell(0, 0)
    page.stations.setFocus()
    qtbot.keyClick(page.stations, Qt.Key.Key_Return)
    centre = canvas.extent().center()
    assert 3e5 < centre.x() < 4e5  # some 3.2 degrees east
    assert canvas.extent().width() < 60.0


def test_copy_puts_the_whole_working_on_the_clipboard(page, survey, qtbot):
    page.show_figure(survey, "areas", 1)
    qtbot.mouseClick(page.copy, LEFT)
    text = QgsApplication.clipboard().text()
    assert text.startswith(f"Area in plan: Paved court\n{page.figure.text()}\n")
    assert "Stations behind it" in text
    assert text.count("\n") > 40


def test_the_bars_are_as_long_as_the_shares(page, survey):
    page.show_figure(survey, "areas", 1)
    shares = [page.parts.item(row, 1).data(SHARE) for row in range(page.parts.rowCount())]
    assert sum(shares) == pytest.approx(1.0, abs=1e-6)
    page.split.setSizes([100, 400])
    picture = page.parts.viewport().grab().toImage()
    index = page.parts.model().index(0, 1)
    box = page.parts.visualRect(index)
    line = [picture.pixelColor(x, box.bottom() - 1).name() for x in range(box.left(), box.right())]
    assert line.count("#56b4e9") == pytest.approx(shares[0] * box.width(), abs=3)


def test_a_kept_out_figure_and_an_assumed_one_are_said(page, tmp_path, qtbot):
    head = "# units: m\nwalk,station,x,y,z,feature,geometry\n"
    rows = "W,1,0,0,0,Court,area\nW,2,8,0,0,Court,area\nW,3,8,6,0,Court,area\nW,4,0,6,0,Court,area\n"
    bow = "W,5,20,0,0,Bow,area\nW,6,30,10,0,Bow,area\nW,7,30,0,0,Bow,area\nW,8,20,10,0,Bow,area\n"
    made = write_survey(survey_files({"w.csv": (head + rows + bow).encode()}), tmp_path / "made.gpkg")
    page.show_figure(made, "areas", 1)
    assert page.warning.text() == "! Assumed: nobody measured what these points are worth."
    assert page.warning.isVisible()
    page.show_figure(made, "areas", 2)
    assert page.figure.text() == "No figure: it is kept out by GE-01 until that is answered."
    assert page.parts.rowCount() == 0


def test_a_survey_of_an_older_version_says_what_to_do(page, tmp_path):
    older = write_survey(made_survey(), tmp_path / "older.gpkg")
    page.show_figure(older, "areas", 1)
    assert page.title.text() == "older.gpkg was written before workings were kept. Run the job again."
    assert not page.copy.isEnabled()


@pytest.fixture
def offered(page):
    """The action of tables, which asks the page."""
    actions = FigureActions(page)
    actions.chosen.connect(page.take)
    actions.add()
    yield actions
    actions.remove()


def ours(layer):
    actions = QgsGui.mapLayerActionRegistry().mapLayerActions(layer, QgsMapLayerAction.Target.SingleFeature)
    return [action for action in actions if action.text() == "Show the working"]


def trigger(action, layer, feature):
    """As the host does it: since 3.30 with a context."""
    context = getattr(qgis.gui, "QgsMapLayerActionContext", None)
    action.triggerForFeature(layer, feature, *(() if context is None else (context(),)))


def test_the_tables_action_shows_the_working(page, offered, layers, qtbot):
    (action,) = ours(layers["lengths"])
    with qtbot.waitSignal(page.shown, timeout=1000):
        trigger(action, layers["lengths"], layers["lengths"].getFeature(1))
    assert page.title.text() == "Kerb"


def test_the_action_is_offered_where_there_is_a_working_and_nowhere_else(offered, layers, survey):
    bare = memory_layer("Polygon", "EPSG:32631", ["POLYGON((0 0,1 0,1 1,0 0))"])
    assert ours(bare) == []
    assert ours(opened(survey, "walks")) == []
    assert len(ours(layers["areas"])) == 1


def test_nothing_is_left_when_it_closes(qtbot, canvas, layers):
    before = len(canvas.scene().items())
    for _ in range(2):
        page = WorkingPage(Window(canvas))
        qtbot.addWidget(page)
        qtbot.mouseClick(page.pick, LEFT)
        place = look_at(canvas, *inside(layers["areas"], 4))
        qtbot.mouseClick(canvas.viewport(), LEFT, pos=place)
        tool = page.tool
        page.close_down()
        page.close_down()
        assert canvas.mapTool() is not tool
        assert not [item for item in canvas.scene().items() if isinstance(item, QgsRubberBand)]
    assert len(canvas.scene().items()) == before


def test_the_action_is_taken_back_as_often_as_it_was_offered(qtbot, layers):
    actions = FigureActions()
    for _ in range(2):
        actions.add()
        actions.add()
        assert len(ours(layers["areas"])) == 1
        actions.remove()
        actions.remove()
        assert ours(layers["areas"]) == []


def test_it_fits_a_narrow_dock(page, survey):
    page.show_figure(survey, "marks", 1, "residual_m")
    assert page.minimumSizeHint().width() <= 380
    page.show_figure(survey, "areas", 1)
    assert page.minimumSizeHint().width() <= 380
    assert page.minimumSizeHint().height() <= 560


def test_the_project_is_left_alone(page, survey):
    page.show_figure(survey, "areas", 1)
    assert QgsProject.instance().mapLayers() == {}
