# SPDX-License-Identifier: GPL-2.0-or-later
"""Planning a walk with the mouse: drawn, taken back, forecast, followed, and nothing left behind."""

from __future__ import annotations

import math

import pytest
from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsPointXY,
    QgsProject,
    QgsRectangle,
    QgsVectorLayer,
)
from qgis.gui import QgsMapCanvas, QgsMapToolPan
from qgis.PyQt.QtCore import QPoint, Qt
from qgis.PyQt.QtWidgets import QMainWindow, QScrollArea

from plugin.bridge.geopackage import LOCAL_WKT
from plugin.gui.pages.plan_draw import Drawing
from plugin.gui.pages.plan_walk import CHECKS, EXPECTED, PLAN, PlanWalkPage
from plugin.processing.provider import Provider

LONG = 60_000
"""Milliseconds: a run that takes this long is stuck."""
UTM = "EPSG:32631"
EAST, NORTH = 500000.0, 5600000.0
"""On the zone's middle."""
P, Q = (0, 0), (4.5, 0)
COURT = [(22, 3), (36, 3), (36, 14), (22, 14)]
LAST = (38.5, 18)
RIGHT, LEFT = Qt.MouseButton.RightButton, Qt.MouseButton.LeftButton
ROD = "instrument,leg_m,stand_m\nrod,0.001,0.001\n"
"""As in the guide: next to perfect, so that little but the marks is seen."""


class Host:
    """The host's interface as far as the page goes."""

    def __init__(self, canvas):
        self.canvas = canvas

    def mapCanvas(self):
        return self.canvas


@pytest.fixture
def window(qtbot, qgis_app, provider):
    QgsProject.instance().clear()
    window = QMainWindow()
    qtbot.addWidget(window)
    window.canvas = QgsMapCanvas(window)
    window.setCentralWidget(window.canvas)
    window.resize(900, 600)
    window.show()
    qtbot.waitExposed(window)
    yield window
    QgsProject.instance().clear()


def look_at(canvas, crs, corner=(0.0, 0.0)):
    """Show the site in a CRS; a corner is its origin there."""
    QgsProject.instance().setCrs(crs)
    canvas.setDestinationCrs(crs)
    x, y = corner
    canvas.setExtent(QgsRectangle(x - 4.0, y - 4.0, x + 44.0, y + 24.0))
    canvas.refresh()


@pytest.fixture
def page(window, qtbot):
    page = PlanWalkPage(Host(window.canvas))
    qtbot.addWidget(page)
    page.resize(380, 560)
    page.show()
    look_at(window.canvas, QgsCoordinateReferenceSystem.fromWkt(LOCAL_WKT))
    page.clicks = Clicks(page, window.canvas, qtbot)
    yield page
    page.close_down()


class Clicks:
    """Real events at places of the map: exact to a pixel, so tests of figures move the marks with them."""

    def __init__(self, page, canvas, qtbot):
        self.page, self.canvas, self.qtbot = page, canvas, qtbot
        self.way = None

    def pixel(self, place):
        at = QgsPointXY(*map(float, place))
        if self.way is not None:
            at = self.way.transform(QgsPointXY(EAST + place[0], NORTH + place[1]))
        shown = self.canvas.getCoordinateTransform().transform(at)
        return QPoint(round(shown.x()), round(shown.y()))

    def click(self, place, button=LEFT):
        self.qtbot.mouseMove(self.canvas.viewport(), self.pixel(place))
        self.qtbot.mouseClick(self.canvas.viewport(), button, pos=self.pixel(place))

    def key(self, key):
        self.qtbot.keyClick(self.canvas, key)

    def press(self, button):
        self.qtbot.mouseClick(button, LEFT)

    def choose(self, kind):
        box = self.page.form.kind
        box.setFocus()
        while box.currentData() is not kind:
            before = box.currentIndex()
            key = Qt.Key.Key_Down if list(Drawing).index(kind) > before else Qt.Key.Key_Up
            self.qtbot.keyClick(box, key)
            assert box.currentIndex() != before

    def write(self, box, text):
        box.setFocus()
        box.selectAll()
        self.qtbot.keyClicks(box, text)

    def mark(self, name, place):
        self.write(self.page.form.mark, name)
        self.click(place)

    def line(self, kind, places, name=None):
        self.choose(kind)
        if name is not None:
            self.write(self.page.form.name, name)
        for place in places:
            self.click(place)
        self.click(places[-1], RIGHT)

    def forecast(self):
        with self.qtbot.waitSignal(self.page.runner.ended, timeout=LONG) as ended:
            self.press(self.page.run)
        assert ended.args[0], ended.args[2]

    def base_case(self):
        """The guide's: marks 4.5 m apart, a court, and a far corner 40 m away."""
        page = self.page
        self.press(page.form.set)
        self.mark("P", P)
        self.mark("Q", Q)
        self.press(page.form.draw)
        self.line(Drawing.WAY, [P, Q])
        self.line(Drawing.AREA, COURT, "Court")
        self.line(Drawing.WAY, [COURT[2], LAST])


def lines_of(page):
    rows = page.inputs.lines.currentLayer().getFeatures()
    return [(row["walk"], row["feature"] or "", row.geometry().asPolyline()) for row in rows]


def marks_of(page):
    rows = page.inputs.marks.currentLayer().getFeatures()
    return {
        row["mark"]: (row.geometry().asPoint(), row["sigma_m"], row["paired"], row["level"]) for row in rows
    }


def figures(page):
    table = page.expected.table
    return [[table.item(k, c).text() for c in range(2)] for k in range(table.rowCount())]


def nearest_row(page, place):
    """The station whose place is next to this one."""
    return min(page._shown.stations, key=lambda s: math.dist((s.at.x(), s.at.y()), place))


def put_exactly(page):
    """Clicks are exact to a pixel; the host's own editing puts the stations where the guide has them."""
    lines, marks = page.inputs.layers()
    wanted = [*P, *Q, *(v for p in COURT for v in p), *LAST]
    exact = list(zip(wanted[::2], wanted[1::2]))
    for layer in (lines, marks):
        for row in list(layer.getFeatures()):
            for k, vertex in enumerate(list(row.geometry().vertices())):
                x, y = min(exact, key=lambda one: math.dist(one, (vertex.x(), vertex.y())))
                assert math.dist((x, y), (vertex.x(), vertex.y())) < 0.1
                layer.moveVertex(x, y, row.id(), k)


# --- drawing ---


def test_a_walk_is_drawn_station_by_station_into_layers_that_plan_walk_reads(page):
    page.clicks.base_case()
    reach = 0.75 * page._canvas.mapUnitsPerPixel()
    told = lines_of(page)
    assert [(walk, feature) for walk, feature, _ in told] == [("W1", ""), ("W1", "Court"), ("W1", "")]
    for (_, _, points), places in zip(told, ([P, Q], [*COURT, COURT[0]], [COURT[2], LAST])):
        assert len(points) == len(places)
        for point, place in zip(points, places):
            assert math.dist((point.x(), point.y()), place) < reach
    assert told[1][2][0] == told[1][2][-1]
    marks = marks_of(page)
    assert {name: row[1:] for name, row in marks.items()} == {
        "P": (0.05, "yes", "no"),
        "Q": (0.05, "yes", "no"),
    }
    # A click near a mark stands on it, to the last digit.
    assert told[0][2] == [marks["P"][0], marks["Q"][0]]
    lines, points = page.inputs.layers()
    assert [field.name() for field in lines.fields()] == ["walk", "feature"]
    assert [field.name() for field in points.fields()] == ["mark", "sigma_m", "paired", "level"]
    assert {layer.name() for layer in QgsProject.instance().mapLayers().values()} == {
        "Planned walks",
        "Planned marks",
    }


def test_a_click_beside_a_mark_stands_on_it_and_says_so(page):
    clicks = page.clicks
    clicks.press(page.form.set)
    clicks.mark("P", P)
    clicks.press(page.form.draw)
    beside = 7 * page._canvas.mapUnitsPerPixel()
    clicks.click((beside, 0))
    assert page.walk_tool.points == (marks_of(page)["P"][0],)
    assert page.words.text().startswith("Station 1 on mark P. ")
    clicks.click((13 * page._canvas.mapUnitsPerPixel(), 0))
    assert page.walk_tool.points[1] != page.walk_tool.points[0]
    assert page.words.text().startswith("Station 2. ")


def test_backspace_takes_the_last_station_back_and_escape_gives_up(page):
    clicks = page.clicks
    clicks.press(page.form.draw)
    for place in (P, Q, COURT[0]):
        clicks.click(place)
    clicks.key(Qt.Key.Key_Backspace)
    assert len(page.walk_tool.points) == 2
    clicks.key(Qt.Key.Key_Escape)
    assert page.walk_tool.points == ()
    assert page.inputs.lines.currentLayer() is None
    assert page._canvas.mapTool() is page.walk_tool
    clicks.key(Qt.Key.Key_Backspace)
    clicks.key(Qt.Key.Key_Escape)
    assert page._canvas.mapTool() is not page.walk_tool
    assert not page.form.draw.isChecked()


def test_enter_ends_a_line_and_too_few_stations_are_told(page):
    clicks = page.clicks
    clicks.press(page.form.draw)
    clicks.click(P)
    clicks.key(Qt.Key.Key_Return)
    assert page.words.text().startswith("It needs 2 stations at least.")
    clicks.click(Q)
    clicks.key(Qt.Key.Key_Return)
    assert len(lines_of(page)) == 1
    clicks.choose(Drawing.AREA)
    for place in (P, Q):
        clicks.click(place)
    clicks.key(Qt.Key.Key_Enter)
    assert page.words.text().startswith("It needs 3 stations at least.")
    assert len(page.walk_tool.points) == 2


def test_an_outline_ends_at_its_first_station(page):
    clicks = page.clicks
    clicks.press(page.form.draw)
    clicks.choose(Drawing.AREA)
    for place in (*COURT, COURT[0]):
        clicks.click(place)
    ((_, feature, points),) = lines_of(page)
    assert feature == "Area 1"
    assert len(points) == 5
    assert points[0] == points[-1]
    assert page.form.name.text() == "Area 2"


def test_the_second_of_a_double_click_is_no_station(page):
    clicks = page.clicks
    clicks.press(page.form.draw)
    clicks.click(P)
    viewport = page._canvas.viewport()
    clicks.qtbot.mouseDClick(viewport, LEFT, pos=clicks.pixel(P))
    clicks.qtbot.mouseRelease(viewport, LEFT, pos=clicks.pixel(P))
    assert len(page.walk_tool.points) == 1


def test_a_mark_is_not_set_twice_and_names_go_on(page):
    clicks = page.clicks
    clicks.press(page.form.set)
    for place in (P, Q):
        clicks.click(place)
    assert set(marks_of(page)) == {"A", "B"}
    assert page.form.mark.text() == "C"
    clicks.click(P)
    assert page.words.text() == "Mark A is there already."
    clicks.mark("B", COURT[0])
    assert page.words.text() == "Two marks are called B. Give each a name of its own."
    assert set(marks_of(page)) == {"A", "B"}
    clicks.key(Qt.Key.Key_Backspace)
    assert set(marks_of(page)) == {"A"}


def test_the_projects_snapping_is_followed(page):
    """A station on a corner of another layer."""
    other = QgsVectorLayer("Point", "pegs", "memory")
    other.setCrs(QgsProject.instance().crs())
    from qgis.core import QgsFeature, QgsGeometry, QgsSnappingConfig, QgsTolerance

    peg = QgsFeature()
    peg.setGeometry(QgsGeometry.fromPointXY(QgsPointXY(10.0123, 5.0456)))
    other.dataProvider().addFeatures([peg])
    QgsProject.instance().addMapLayer(other)
    page._canvas.setLayers([other])
    config = QgsSnappingConfig(QgsProject.instance())
    config.setEnabled(True)
    config.setMode(QgsSnappingConfig.SnappingMode.AllLayers)
    config.setTypeFlag(QgsSnappingConfig.SnappingTypes.VertexFlag)
    config.setTolerance(12)
    config.setUnits(QgsTolerance.UnitType.Pixels)
    page._canvas.snappingUtils().setConfig(config)
    clicks = page.clicks
    clicks.press(page.form.draw)
    clicks.click((10.2, 5.1))
    (point,) = page.walk_tool.points
    assert (point.x(), point.y()) == pytest.approx((10.0123, 5.0456), abs=1e-12)


@pytest.mark.parametrize("key", [Qt.Key.Key_Backspace, Qt.Key.Key_Delete])
def test_taking_back_never_lets_the_host_delete_what_is_selected(page, key):
    """The host deletes the selected features of the layer at hand where a tool has accepted these keys."""
    was_accepted = []
    page._canvas.keyPressed.connect(lambda event: was_accepted.append(event.isAccepted()))
    clicks = page.clicks
    clicks.press(page.form.set)
    clicks.click(P)
    clicks.key(key)
    assert marks_of(page) == {}
    clicks.press(page.form.draw)
    clicks.click(P)
    clicks.key(key)
    assert page.walk_tool.points == ()
    clicks.key(key)
    assert True not in was_accepted
    page._canvas.keyPressed.disconnect()


# --- undo ---


def test_undo_takes_back_the_last_change_of_either_layer(page):
    clicks = page.clicks
    assert not page.undo.isEnabled()
    clicks.press(page.form.set)
    clicks.mark("P", P)
    clicks.press(page.form.draw)
    clicks.line(Drawing.WAY, [P, Q])
    clicks.press(page.form.set)
    clicks.mark("Q", Q)
    clicks.press(page.undo)
    assert set(marks_of(page)) == {"P"}
    assert len(lines_of(page)) == 1
    clicks.press(page.undo)
    assert lines_of(page) == []
    page.inputs.lines.currentLayer().undoStack().redo()
    assert len(lines_of(page)) == 1
    clicks.press(page.undo)
    clicks.press(page.undo)
    assert marks_of(page) == {}
    assert not page.undo.isEnabled()


# --- the forecast ---


@pytest.fixture
def forecast_base(page, tmp_path):
    """The guide's base case, drawn, put exactly, and forecast with the guide's instrument."""
    page.clicks.base_case()
    put_exactly(page)
    (tmp_path / "instruments.csv").write_text(ROD, encoding="utf-8")
    page.inputs.instrument.take_file(tmp_path / "instruments.csv")
    page.clicks.forecast()
    return page


def test_the_base_case_has_the_figures_of_the_guide(forecast_base):
    """resources/guide/plan_walk.md: marks 4.5 m apart on a 40 m site."""
    page = forecast_base
    assert page.tabs.currentIndex() == EXPECTED
    stations = page._shown.stations
    assert [(s.station, s.mark) for s in stations[:2]] == [("1", "P"), ("2", "Q")]
    told = {s.station: s.major_95 for s in stations}
    assert told["1"] == pytest.approx(0.122, abs=0.0005)
    assert told["5"] == pytest.approx(1.408, abs=0.0005)
    assert told["9"] == pytest.approx(1.560, abs=0.0005)
    assert [s.station for s in stations if s.is_worst] == ["9"]
    # The closed form of two pairs: the middle's place, and the turn.
    far = math.dist(LAST, (2.25, 0.0))
    s2, d2 = 0.05**2, 0.05**2 * 2 * far**2 / 4.5**2
    sigmas = (stations[8].major_95 / 2.447746830680816, stations[8].minor_95 / 2.447746830680816)
    assert math.hypot(*sigmas) == pytest.approx(math.sqrt(s2 + d2), abs=0.00025)
    assert figures(page) == [
        ["Far corner\nstation 9 of walk W1", "±1.56 m"],
        ["Court", "154.000 ±0.044 m²\ncorner ±1.41 m"],
    ]
    tip = page.expected.table.item(1, 0).toolTip()
    assert "perimeter 50.0000 ±0.007" in tip
    assert "map points 100 %" in page.expected.table.item(0, 0).toolTip()
    assert page.expected.words.text() == (
        "Expected, before the walk; 95 % figures. Instrument: from the file. Ellipses are drawn 2 times their size."
    )


def test_what_would_help_is_told_and_stands_on_the_map(forecast_base):
    page = forecast_base
    first = page._shown.suggestions[0]
    assert (
        page.expected.help.item(0)
        .text()
        .startswith(
            "1  Pair station 5 of walk W1 with its map point (one sigma 0.05 m): far corner ±1.56 to ±0.136 m (95 %)"
        )
    )
    assert (first.at.x(), first.at.y()) == pytest.approx(COURT[2], abs=1e-6)
    sign = page.signs._signs[0][0]
    assert (sign.text, sign.isVisible()) == ("1", True)
    pixel = page.clicks.pixel(COURT[2])
    assert (sign.pos().x(), sign.pos().y()) == pytest.approx((pixel.x(), pixel.y()), abs=1.0)
    checks = [page.checks.item(k).text().split(":")[0] for k in range(page.checks.count())]
    assert sorted(checks) == ["CL-02, note", "PL-01, stop"]
    assert page.tabs.tabText(CHECKS) == "Checks (2)"


def test_the_ellipses_are_drawn_at_the_factor_that_is_said(forecast_base):
    page = forecast_base
    layer = QgsProject.instance().mapLayer(page._ellipses)
    assert layer.name() == "Expected 95 % ellipses, drawn 2 times their size"
    rows = {row["station"]: row for row in layer.getFeatures()}
    assert len(rows) == 9
    worst = rows["9"]
    assert worst["worst"] == 1
    ring = [(v.x() - LAST[0], v.y() - LAST[1]) for v in worst.geometry().vertices()]
    away = [math.hypot(x, y) for x, y in ring]
    assert max(away) == pytest.approx(2 * 1.560, abs=0.001)
    assert min(away) == pytest.approx(2 * 2.447746830680816 * 0.0354, abs=0.005)
    # The turn about the marks' middle moves the corner across the way to it.
    x, y = ring[away.index(max(away))]
    across = (LAST[0] - 2.25) * x + LAST[1] * y
    assert across == pytest.approx(0.0, abs=0.02 * max(away) * math.dist(LAST, (2.25, 0)))


def test_a_suggestion_is_followed_forecast_again_and_taken_back(forecast_base):
    page, clicks = forecast_base, forecast_base.clicks
    page.expected.help.setFocus()
    page.expected.help.setCurrentRow(0)
    clicks.press(page.expected.follow)
    assert set(marks_of(page)) == {"P", "Q", "A"}
    assert page.words.text() == "The plan was changed since: forecast again."
    clicks.forecast()
    assert figures(page)[0][1] == "±0.14 m"
    clicks.press(page.undo)
    assert set(marks_of(page)) == {"P", "Q"}
    clicks.forecast()
    assert figures(page)[0][1] == "±1.56 m"
    names = [layer.name() for layer in QgsProject.instance().mapLayers().values()]
    assert len([name for name in names if name.startswith("Expected")]) == 1


def test_assumed_values_are_marked_assumed(page):
    page.clicks.base_case()
    page.clicks.forecast()
    assert "Instrument ASSUMED: nobody said what it is worth" in page.expected.words.text()
    assert page.expected.table.horizontalHeaderItem(1).text() == "Expected ±95 %\n(assumed)"
    page.inputs.instrument.worth.setCurrentIndex(1)
    page.clicks.write(page.inputs.instrument.accuracy, "0.1 %")
    assert page.words.text() == "The plan was changed since: forecast again."
    page.clicks.forecast()
    assert "Instrument: from the accuracy stated." in page.expected.words.text()
    assert page.expected.table.horizontalHeaderItem(1).text() == "Expected ±95 %"


@pytest.mark.parametrize("crs", [UTM, "EPSG:3857", "EPSG:4326"])
def test_the_same_walk_has_the_same_figures_in_any_crs(window, page, crs, tmp_path):
    """The closed form hangs on the ratio of the way to the base alone, which every map of a site keeps to a thousandth
    once it is taken back to one zone."""
    (tmp_path / "instruments.csv").write_text(ROD, encoding="utf-8")
    page.inputs.instrument.take_file(tmp_path / "instruments.csv")
    there = QgsCoordinateReferenceSystem(crs)
    way = QgsCoordinateTransform(QgsCoordinateReferenceSystem(UTM), there, QgsProject.instance())
    QgsProject.instance().setCrs(there)
    window.canvas.setDestinationCrs(there)
    window.canvas.setExtent(
        way.transformBoundingBox(QgsRectangle(EAST - 4, NORTH - 4, EAST + 44, NORTH + 24))
    )
    page.clicks.way = way
    page.clicks.base_case()
    lines, marks = page.inputs.layers()
    assert lines.crs().authid() == marks.crs().authid() == crs
    page.clicks.forecast()
    # What was clicked, to a pixel of some 6 cm: the closed form from the marks as they were set.
    back = QgsCoordinateTransform(there, QgsCoordinateReferenceSystem(UTM), QgsProject.instance())
    p, q = (back.transform(marks_of(page)[name][0]) for name in "PQ")
    corner = back.transform(lines_of(page)[-1][2][-1])
    base = p.distance(q)
    far = corner.distance(QgsPointXY((p.x() + q.x()) / 2, (p.y() + q.y()) / 2))
    picks = math.sqrt(0.05**2 + 0.05**2 * 2 * far**2 / base**2)
    worst = next(s for s in page._shown.stations if s.is_worst)
    share = page._shown.rows[0].words
    both = math.hypot(worst.major_95, worst.minor_95) / 2.447746830680816
    # The instrument adds 0.0002 m.
    assert both == pytest.approx(picks, rel=1e-3)
    assert share == "map points 100 %"
    layer = QgsProject.instance().mapLayer(page._ellipses)
    assert layer.crs().authid() == crs
    row = next(row for row in layer.getFeatures() if row["worst"] == 1)
    ring = [back.transform(QgsPointXY(v)) for v in row.geometry().vertices()]
    longest = max(point.distance(corner) for point in ring)
    assert longest == pytest.approx(row["drawn_times"] * worst.major_95, rel=2e-3)


def test_lines_that_are_there_already_are_taken_with_their_own_columns(page, tmp_path):
    """The guide's files: columns of other names are chosen, and nothing has to be drawn."""
    lines = QgsVectorLayer("LineString?field=round:string&field=outline:string", "walk", "memory")
    from qgis.core import QgsFeature, QgsGeometry

    lines.setCrs(QgsProject.instance().crs())
    texts = (
        ("LINESTRING(0 0,4.5 0)", None),
        ("LINESTRING(22 3,36 3,36 14,22 14,22 3)", "Court"),
        ("LINESTRING(36 14,38.5 18)", None),
    )
    for text, name in texts:
        row = QgsFeature(lines.fields())
        row.setAttributes(["W1", name])
        row.setGeometry(QgsGeometry.fromWkt(text))
        lines.dataProvider().addFeatures([row])
    QgsProject.instance().addMapLayer(lines)
    page.inputs.lines.setLayer(lines)
    assert page.inputs.columns["walk"].currentField() == ""
    page.inputs.columns["walk"].setField("round")
    page.inputs.columns["feature"].setField("outline")
    page.clicks.press(page.form.set)
    page.clicks.mark("P", P)
    page.clicks.mark("Q", Q)
    page.clicks.forecast()
    assert [row[0] for row in figures(page)] == ["Far corner\nstation 9 of walk W1", "Court"]
    assert abs(float(figures(page)[1][1].split(" ")[0]) - 154.0) < 0.5


# --- what is refused ---


def test_without_a_plan_the_page_says_what_to_do(page):
    page.clicks.press(page.run)
    assert page.words.text() == (
        "Nothing is planned. Draw a line for each walk, through its stations in order."
    )
    assert not page.runner.is_busy


def test_a_mark_that_no_station_is_near_is_told_and_no_old_figures_stay(forecast_base):
    page, clicks = forecast_base, forecast_base.clicks
    clicks.press(page.form.set)
    clicks.mark("Z", (10, 15))
    with clicks.qtbot.waitSignal(page.runner.ended, timeout=LONG) as ended:
        clicks.press(page.run)
    assert not ended.args[0]
    assert "No station is within 0.5 m of mark Z: the nearest is " in page.words.text()
    assert figures(page) == []
    assert page.signs._signs == []


def test_a_file_that_holds_no_instruments_is_told(page, tmp_path):
    path = tmp_path / "walks.txt"
    path.write_text("x,y\n1,2\n", encoding="utf-8")
    page.inputs.instrument.take_file(path)
    assert "was named as instruments, but it holds" in page.inputs.instrument.words.text()


def test_a_layer_that_cannot_be_edited_is_told(page):
    lines = QgsVectorLayer("LineString?field=walk:string", "fixed", "memory")
    lines.setCrs(QgsProject.instance().crs())
    lines.setReadOnly(True)
    QgsProject.instance().addMapLayer(lines)
    page.inputs.lines.setLayer(lines)
    clicks = page.clicks
    clicks.press(page.form.draw)
    clicks.line(Drawing.WAY, [P, Q])
    words = "The layer fixed cannot be edited. Choose another layer, or a new plan."
    assert page.words.text() == words
    assert lines.featureCount() == 0
    clicks.press(page.fresh)
    clicks.line(Drawing.WAY, [P, Q])
    assert len(lines_of(page)) == 1


def test_without_marks_the_corners_are_said_to_hold_among_themselves(page):
    clicks = page.clicks
    clicks.press(page.form.draw)
    clicks.line(Drawing.AREA, COURT, "")
    clicks.forecast()
    assert "Fewer than two marks are paired" in page.expected.words.text()
    assert figures(page)[1][0] == "Area 1"


def test_a_change_by_another_tool_of_the_host_makes_the_figures_old(forecast_base):
    page = forecast_base
    assert page.words.text() == ""
    lines = page.inputs.lines.currentLayer()
    row = next(lines.getFeatures())
    lines.moveVertex(1.0, 1.0, row.id(), 0)
    assert page.words.text() == "The plan was changed since: forecast again."


def test_names_that_were_typed_stay_when_the_instrument_is_chosen(page):
    clicks = page.clicks
    clicks.choose(Drawing.LENGTH)
    clicks.write(page.form.name, "Kerb")
    clicks.write(page.form.mark, "BM1")
    page.inputs.instrument.worth.setCurrentIndex(1)
    clicks.write(page.inputs.instrument.accuracy, "1 %")
    assert (page.form.name.text(), page.form.mark.text()) == ("Kerb", "BM1")


def test_a_map_without_a_crs_is_drawn_in_metres(window, page):
    look_at(window.canvas, QgsCoordinateReferenceSystem())
    page.clicks.base_case()
    page.clicks.forecast()
    size = figures(page)[1][1].split(" ")[0]
    assert float(size) == pytest.approx(154.0, abs=2.0)


def test_a_project_that_is_closed_during_a_run_gets_nothing_of_it(page):
    page.clicks.base_case()
    page.clicks.press(page.run)
    with page.clicks.qtbot.waitSignal(page.runner.ended, timeout=LONG):
        QgsProject.instance().clear()
    assert QgsProject.instance().mapLayers() == {}
    assert figures(page) == []
    assert page.run.isVisibleTo(page)


# --- the keyboard, the width, and closing ---


@pytest.mark.parametrize("worth", [0, 1, 2])
def test_the_page_fits_a_narrow_dock(page, worth, qtbot):
    page.inputs.instrument.worth.setCurrentIndex(worth)
    page.inputs.more.setCollapsed(False)
    qtbot.wait(20)
    assert page.width() == 380
    scroll = page.findChild(QScrollArea)
    assert scroll.widget().minimumSizeHint().width() <= scroll.viewport().width()


def test_every_field_can_be_reached_by_the_keyboard(page):
    page.tabs.setCurrentIndex(PLAN)
    reached = set()
    widget = page.form.walk
    for _ in range(200):
        widget = widget.nextInFocusChain()
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            reached.add(widget)
    wanted = [page.form.draw, page.form.kind, page.form.name, page.form.mark, page.form.set, page.form.level]
    wanted += [
        page.inputs.lines,
        page.inputs.marks,
        page.inputs.instrument.worth,
        page.form.sigma,
        page.inputs.common,
    ]
    wanted += [page.fresh, page.undo, page.run]
    assert [widget for widget in wanted if widget not in reached] == []


def test_another_tool_waits_while_one_draws_and_comes_back(page):
    pan = QgsMapToolPan(page._canvas)
    page._canvas.setMapTool(pan)
    page.clicks.press(page.form.draw)
    assert page._canvas.mapTool() is page.walk_tool
    page.clicks.press(page.form.draw)
    assert page._canvas.mapTool() is pan
    page._canvas.unsetMapTool(pan)


def test_a_line_waits_while_the_map_is_moved_with_another_tool(page):
    pan = QgsMapToolPan(page._canvas)
    clicks = page.clicks
    clicks.press(page.form.draw)
    clicks.click(P)
    page._canvas.setMapTool(pan)
    assert not page.form.draw.isChecked()
    clicks.press(page.form.draw)
    assert len(page.walk_tool.points) == 1
    clicks.click(Q)
    clicks.key(Qt.Key.Key_Return)
    assert len(lines_of(page)) == 1
    page._canvas.unsetMapTool(pan)


def test_closing_leaves_nothing_on_the_map(window, qtbot, tmp_path):
    canvas = window.canvas
    look_at(canvas, QgsCoordinateReferenceSystem.fromWkt(LOCAL_WKT))
    before = len(canvas.scene().items())
    for _ in range(2):
        page = PlanWalkPage(Host(canvas))
        page.clicks = Clicks(page, canvas, qtbot)
        page.show()
        page.clicks.base_case()
        page.clicks.forecast()
        page.clicks.press(page.form.draw)
        page.clicks.click(P)
        assert len(canvas.scene().items()) > before
        stacks = [layer.undoStack() for layer in page.inputs.layers()]
        page.close_down()
        page.deleteLater()
        qtbot.wait(20)
        assert len(canvas.scene().items()) == before
        assert canvas.mapTool() is None
        names = {layer.name() for layer in QgsProject.instance().mapLayers().values()}
        assert names == {"Planned walks", "Planned marks"}
        for stack in stacks:
            stack.undo()
        QgsProject.instance().clear()


def test_another_project_takes_the_figures_and_the_signs_away(forecast_base):
    page = forecast_base
    QgsProject.instance().clear()
    assert figures(page) == []
    assert page.signs._signs == []
    assert page.inputs.lines.currentLayer() is None
    assert not page.undo.isEnabled()
