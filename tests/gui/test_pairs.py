# SPDX-License-Identifier: GPL-2.0-or-later
"""Marks paired with the picture by mouse and keys: picked, tried over it, undone, accepted."""

from __future__ import annotations

import json
import shutil
import sqlite3
import threading
from contextlib import closing
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import numpy as np
import pytest
from osgeo import gdal
from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsPointXY,
    QgsProject,
    QgsRasterLayer,
    QgsRectangle,
)
from qgis.gui import QgsMapCanvas
from qgis.PyQt.QtCore import QPoint, Qt
from qgis.PyQt.QtWidgets import QMainWindow

from plugin.bridge.jobs import DeskJob
from plugin.bridge.pairs import read_pairs
from plugin.gui.pages.pairs import PairsPage
from plugin.gui.preview_bands import PickSign
from plugin.processing.provider import Provider

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
UTM = QgsCoordinateReferenceSystem("EPSG:25831")
LEFT = Qt.MouseButton.LeftButton
LONG = 60_000
"""Milliseconds: a trial that takes this long is stuck."""
PLACES = {
    "A": (512340.109822, 5712849.930922),
    "B": (512361.460527, 5712860.985016),
    "C": (512367.291054, 5712884.327726),
}
"""Where the demo's picture shows its marks (its control file)."""


class Window:
    """The host's interface as far as the page goes."""

    def __init__(self, qtbot):
        self.window = QMainWindow()
        qtbot.addWidget(self.window)
        self.canvas = QgsMapCanvas(self.window)
        self.window.setCentralWidget(self.canvas)
        self.warnings = []

    def mapCanvas(self):
        return self.canvas

    def messageBar(self):
        return self

    def pushWarning(self, *words):
        self.warnings.append(words)


@pytest.fixture(scope="module")
def unplaced(provider, tmp_path_factory):
    """The demo's logs without control, surveyed: not placed."""
    import processing

    folder = tmp_path_factory.mktemp("pairs") / "yard"
    shutil.copytree(DEMO, folder)
    (folder / "control.csv").unlink()
    (folder / "decisions.csv").unlink()
    survey = folder / "survey" / "yard.gpkg"
    survey.parent.mkdir(exist_ok=True)
    processing.run("groundtally:survey_walks", {"LOGS": [str(folder)], "OUTPUT": str(survey)})
    return folder


@pytest.fixture
def job(unplaced, tmp_path):
    folder = tmp_path / "yard"
    shutil.copytree(unplaced, folder)
    return DeskJob(folder, folder / "survey" / "yard.gpkg")


@pytest.fixture
def window(qtbot, qgis_app):
    QgsProject.instance().clear()
    window = Window(qtbot)
    window.window.resize(1000, 700)
    window.window.show()
    qtbot.waitExposed(window.window)
    yield window
    QgsProject.instance().clear()


@pytest.fixture
def page(window, provider, job, qtbot):
    add_picture(window)
    page = PairsPage(window)
    qtbot.addWidget(page)
    page.resize(360, 600)
    page.show()
    page.show_job(job)
    page.open()
    yield page
    page.close_down()
    assert signs(window) == []
    assert window.canvas.mapTool() is not page.tool


def add_picture(window, layer=None, crs=UTM):
    layer = layer or QgsRasterLayer(str(DEMO / "orthophoto.tif"), "Picture")
    assert layer.isValid()
    QgsProject.instance().addMapLayer(layer)
    QgsProject.instance().setCrs(crs)
    window.canvas.setDestinationCrs(crs)
    window.canvas.setLayers([layer])
    way = QgsCoordinateTransform(UTM, crs, QgsProject.instance())
    window.canvas.setExtent(way.transformBoundingBox(QgsRectangle(512325.0, 5712840.0, 512385.0, 5712890.0)))
    window.canvas.waitWhileRendering()
    return layer


def signs(window) -> list[str]:
    return sorted(item.name for item in window.canvas.scene().items() if isinstance(item, PickSign))


def click(window, qtbot, at, crs=UTM) -> QgsPointXY:
    """Click the pixel of a place; where that pixel's middle lies, in the pairs' CRS."""
    way = QgsCoordinateTransform(crs, window.canvas.mapSettings().destinationCrs(), QgsProject.instance())
    to_pixels = window.canvas.getCoordinateTransform()
    pixel = to_pixels.transform(way.transform(QgsPointXY(*at)))
    point = QPoint(round(pixel.x()), round(pixel.y()))
    qtbot.mouseMove(window.canvas.viewport(), point)
    qtbot.mouseClick(window.canvas.viewport(), LEFT, pos=point)
    back = QgsCoordinateTransform(way.destinationCrs(), crs, QgsProject.instance())
    return back.transform(to_pixels.toMapCoordinates(point.x(), point.y()))


def at_ground(page, qtbot) -> None:
    """The answer that is offered first, by Enter."""
    assert page.menu.isVisible()
    qtbot.keyClick(page.menu, Qt.Key.Key_Return)


def pick(page, window, qtbot, mark, at=None) -> QgsPointXY:
    page.table.choose(mark)
    if not page.pick.isChecked():
        qtbot.mouseClick(page.pick, LEFT)
    there = click(window, qtbot, at or PLACES[mark])
    at_ground(page, qtbot)
    return there


def tried(page, qtbot) -> None:
    qtbot.waitUntil(
        lambda: not page.trials.is_busy and len(page.trials.previews) == len(page.trials.pairs), timeout=LONG
    )


def test_two_picks_are_tried_over_the_picture_and_accepted(page, job, window, qtbot):
    assert [page.table.item(k, 0).text() for k in range(page.table.rowCount())][:3] == ["A", "B", "C"]
    assert "Two pairs far apart" in page.words.text()
    first = pick(page, window, qtbot, "A")
    second = pick(page, window, qtbot, "B")
    assert signs(window) == ["A", "B"]
    assert page.pairs.crs == "EPSG:25831"
    told = page.pairs.of("A")
    assert (told.x, told.y) == pytest.approx((first.x(), first.y()), abs=1e-6)
    # A pixel of the map is larger than the picture's 0.05 m here: a pick is worth half of it.
    assert told.sd == pytest.approx(0.5 * window.canvas.mapUnitsPerPixel() / 0.9996, rel=1e-3)
    tried(page, qtbot)
    assert [preview.status for preview in page.trials.previews] == ["not confirmed", "not confirmed"]
    right, turned = page.trials.previews
    assert right.marks["C"] == pytest.approx(PLACES["C"], abs=1.0)
    assert np.hypot(*np.subtract(turned.marks["C"], PLACES["C"])) > 30.0
    middle = 0.5 * (first.x() + second.x()), 0.5 * (first.y() + second.y())
    # The half-turn is about the middle of the two.
    for mark in ("A", "B", "C", "D"):
        mean = 0.5 * np.add(right.marks[mark], turned.marks[mark])
        assert mean == pytest.approx(middle, abs=1e-3)
    assert page.bands.bands
    assert page.accept.isEnabled()
    with qtbot.waitSignal(page.accepted):
        qtbot.mouseClick(page.accept, LEFT)
    kept = read_pairs(job.folder / "control.csv")
    assert [(p.mark, p.is_check) for p in kept.picks] == [("A", False), ("B", False)]
    assert kept.common == 0.1
    decisions = (job.folder / "decisions.csv").read_text(encoding="utf-8").splitlines()
    assert decisions[1].startswith("PL-01,survey,confirmed,")
    assert page.bands.bands == []


def test_the_turned_one_can_be_chosen_instead(page, job, window, qtbot):
    a, b = PLACES["A"], PLACES["B"]
    pick(page, window, qtbot, "A", b)
    pick(page, window, qtbot, "B", a)
    tried(page, qtbot)
    qtbot.mouseClick(page.choices[1], LEFT)
    with qtbot.waitSignal(page.accepted):
        qtbot.mouseClick(page.accept, LEFT)
    kept = read_pairs(job.folder / "control.csv")
    assert (kept.of("A").x, kept.of("A").y) == pytest.approx(a, abs=0.1)
    assert (kept.of("B").x, kept.of("B").y) == pytest.approx(b, abs=0.1)


def test_a_third_pick_checks_and_refutes_the_turned_one(page, job, window, qtbot):
    for mark in ("A", "B", "C"):
        pick(page, window, qtbot, mark)
    assert page.pairs.of("C").is_check
    tried(page, qtbot)
    right, turned = page.trials.previews
    assert right.status == "placed"
    assert not right.asks
    assert turned.against
    assert "Check point C lies" in turned.words
    qtbot.mouseClick(page.choices[1], LEFT)
    assert not page.accept.isEnabled()
    assert "Check point C lies" in page.words.text()
    qtbot.mouseClick(page.choices[0], LEFT)
    off = page.table.item([page.table.item(k, 0).text() for k in range(page.table.rowCount())].index("C"), 3)
    assert off.text().endswith("mm") or off.text().endswith(" m")
    with qtbot.waitSignal(page.accepted):
        qtbot.mouseClick(page.accept, LEFT)
    assert not (job.folder / "decisions.csv").exists()


def test_what_stands_above_the_ground_is_not_taken(page, window, qtbot):
    page.table.choose("A")
    qtbot.mouseClick(page.pick, LEFT)
    click(window, qtbot, PLACES["A"])
    qtbot.keyClick(page.menu, Qt.Key.Key_Down)
    qtbot.keyClick(page.menu, Qt.Key.Key_Return)
    assert page.pairs.picks == ()
    assert page.words.text().startswith("Not taken: what stands above the ground leans")


def test_every_change_is_undone_by_button_and_keys(page, window, qtbot):
    pick(page, window, qtbot, "A")
    pick(page, window, qtbot, "B")
    page.table.choose("A")
    qtbot.mouseClick(page.remove, LEFT)
    assert [p.mark for p in page.pairs.picks] == ["B"]
    qtbot.mouseClick(page.undo, LEFT)
    assert [p.mark for p in page.pairs.picks] == ["A", "B"]
    page.table.setFocus()
    qtbot.keyClick(page, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert [p.mark for p in page.pairs.picks] == ["A"]
    qtbot.mouseClick(page.undo, LEFT)
    assert page.pairs.picks == ()
    assert not page.undo.isEnabled()
    assert signs(window) == []


def test_the_keyboard_alone_picks(page, window, qtbot):
    page.table.choose("A")
    page.pick.setFocus()
    qtbot.keyClick(page.pick, Qt.Key.Key_Space)
    assert window.canvas.mapTool() is page.tool
    size = window.canvas.mapUnitsPerPixel()
    middle = window.canvas.center()
    x, y = middle.x(), middle.y()
    for _ in range(3):
        qtbot.keyClick(window.canvas, Qt.Key.Key_Right)
    qtbot.keyClick(window.canvas, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(window.canvas, Qt.Key.Key_Return)
    at_ground(page, qtbot)
    told = page.pairs.of("A")
    assert (told.x, told.y) == pytest.approx((x + 3 * size, y + 0.25 * size), abs=1e-6)
    qtbot.keyClick(window.canvas, Qt.Key.Key_Escape)
    assert not page.pick.isChecked()
    assert window.canvas.mapTool() is not page.tool


def test_the_zoom_box_shows_the_place_and_takes_a_finer_pick(page, window, qtbot):
    page.table.choose("A")
    qtbot.mouseClick(page.pick, LEFT)
    page.tool.aim_at(*PLACES["A"])
    qtbot.waitUntil(lambda: page.zoom.map.extent().contains(QgsPointXY(*PLACES["A"])), timeout=5000)
    box = page.zoom.map
    assert box.mapUnitsPerPixel() == pytest.approx(window.canvas.mapUnitsPerPixel() / 6.0, rel=0.02)
    assert (box.center().x(), box.center().y()) == pytest.approx(PLACES["A"], abs=0.02)
    cross = page.zoom.findChild(type(page.zoom._cross))
    at = QPoint(cross.width() // 2 + 12, cross.height() // 2)
    qtbot.mouseClick(cross, LEFT, pos=at)
    at_ground(page, qtbot)
    told = page.pairs.of("A")
    assert told.x == pytest.approx(PLACES["A"][0] + 12 * box.mapUnitsPerPixel(), abs=0.03)
    # Drawn finer than the picture's own pixels: those tell what it is worth.
    assert told.sd == pytest.approx(0.025, rel=1e-3)


@pytest.mark.parametrize("shown", ["EPSG:3857", "EPSG:4326", "EPSG:32631", "EPSG:2154"])
def test_in_any_project_crs_the_pairs_are_the_pictures(shown, job, window, provider, qtbot):
    crs = QgsCoordinateReferenceSystem(shown)
    add_picture(window, crs=crs)
    page = PairsPage(window)
    qtbot.addWidget(page)
    page.show()
    page.show_job(job)
    page.open()
    there = pick(page, window, qtbot, "A")
    told = page.pairs.of("A")
    assert page.pairs.crs == "EPSG:25831"
    assert (told.x, told.y) == pytest.approx((there.x(), there.y()), abs=0.002)
    assert (told.x, told.y) == pytest.approx(PLACES["A"], abs=0.2)
    # A pixel of the window on the ground, whatever the map's units make of it.
    assert 0.02 < told.sd < 0.1
    page.close_down()


class Tiles(BaseHTTPRequestHandler):
    """A grey picture for every tile and every map, and what a WMS says of itself."""

    def do_GET(self):
        query = {k.upper(): v[0] for k, v in parse_qs(urlsplit(self.path).query).items()}
        if query.get("REQUEST") == "GetCapabilities":
            self.answer("text/xml", CAPABILITIES.format(url=f"http://{self.headers['Host']}/wms?").encode())
        else:
            width, height = int(query.get("WIDTH", 256)), int(query.get("HEIGHT", 256))
            self.answer("image/png", png(width, height))

    def answer(self, kind, data):
        self.send_response(200)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)

    def log_message(self, *_):
        pass


CAPABILITIES = """<?xml version="1.0"?>
<WMS_Capabilities version="1.3.0" xmlns="http://www.opengis.net/wms" xmlns:xlink="http://www.w3.org/1999/xlink">
<Service><Name>WMS</Name><Title>Test</Title></Service>
<Capability><Request>
<GetCapabilities><Format>text/xml</Format><DCPType><HTTP><Get><OnlineResource xlink:href="{url}"/></Get></HTTP></DCPType>
</GetCapabilities>
<GetMap><Format>image/png</Format><DCPType><HTTP><Get><OnlineResource xlink:href="{url}"/></Get></HTTP></DCPType></GetMap>
</Request><Exception><Format>XML</Format></Exception>
<Layer><Title>Root</Title><CRS>EPSG:25831</CRS>
<EX_GeographicBoundingBox><westBoundLongitude>3</westBoundLongitude><eastBoundLongitude>4</eastBoundLongitude>
<southBoundLatitude>51</southBoundLatitude><northBoundLatitude>52</northBoundLatitude></EX_GeographicBoundingBox>
<BoundingBox CRS="EPSG:25831" minx="500000" miny="5700000" maxx="520000" maxy="5720000"/>
<Layer queryable="0"><Name>photo</Name><Title>Photo</Title><CRS>EPSG:25831</CRS>
<BoundingBox CRS="EPSG:25831" minx="500000" miny="5700000" maxx="520000" maxy="5720000"/></Layer></Layer>
</Capability></WMS_Capabilities>"""


def png(width, height):
    dataset = gdal.GetDriverByName("MEM").Create("", width, height, 1)
    dataset.GetRasterBand(1).Fill(180)
    gdal.GetDriverByName("PNG").CreateCopy("/vsimem/tile.png", dataset)
    file = gdal.VSIFOpenL("/vsimem/tile.png", "rb")
    data = bytes(gdal.VSIFReadL(1, 1 << 24, file))
    gdal.VSIFCloseL(file)
    return data


@pytest.fixture
def server():
    server = HTTPServer(("127.0.0.1", 0), Tiles)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


@pytest.mark.parametrize(
    ("source", "kept_in"),
    [
        ("type=xyz&url=http://{server}/%7Bz%7D/%7Bx%7D/%7By%7D.png&zmin=0&zmax=21", "EPSG:32631"),
        ("url=http://{server}/wms?&layers=photo&styles=&format=image/png&crs=EPSG:25831", "EPSG:25831"),
    ],
)
@pytest.mark.usefixtures("provider")
def test_tiles_and_wms_are_picked_from_alike(source, kept_in, server, job, window, qtbot):
    layer = QgsRasterLayer(source.format(server=server), "Service", "wms")
    crs = QgsCoordinateReferenceSystem("EPSG:3857") if "xyz" in source else UTM
    add_picture(window, layer, crs)
    page = PairsPage(window)
    qtbot.addWidget(page)
    page.show()
    page.show_job(job)
    page.open()
    assert "tiles: a pick is worth a pixel as the map shows it" in page.picture.card.text()
    for mark in ("A", "B"):
        pick(page, window, qtbot, mark)
    assert page.pairs.crs == kept_in
    told = page.pairs.of("A")
    assert (told.x, told.y) == pytest.approx(PLACES["A"], abs=0.5)
    # Half a pixel of the map, on the ground: the web map's own metres are 1.6 times as long here.
    assert told.sd == pytest.approx(0.5 * ground_pixel(window), rel=2e-3)
    tried(page, qtbot)
    assert [preview.status for preview in page.trials.previews] == ["not confirmed", "not confirmed"]
    page.close_down()


def ground_pixel(window) -> float:
    """Metres on the ellipsoid of a pixel in the middle of the map, the longer side."""
    import pyproj

    size, middle = window.canvas.mapUnitsPerPixel(), window.canvas.center()
    crs = window.canvas.mapSettings().destinationCrs().authid()
    way = pyproj.Transformer.from_crs(crs, "EPSG:4326", always_xy=True)
    lon, lat = way.transform(
        [middle.x(), middle.x(), middle.x() + size], [middle.y(), middle.y() + size, middle.y()]
    )
    geod = pyproj.Geod(ellps="WGS84")
    return max(geod.inv(lon[0], lat[0], lon[k], lat[k])[2] for k in (1, 2))


def test_pairs_that_cannot_be_right_say_why_and_are_not_accepted(page, window, qtbot):
    pick(page, window, qtbot, "A")
    pick(page, window, qtbot, "B", (PLACES["B"][0] + 18.0, PLACES["B"][1]))
    tried(page, qtbot)
    assert all(isinstance(preview, str) for preview in page.trials.previews)
    assert "PL-02" in page.words.text()
    assert not page.accept.isEnabled()


def test_an_accepted_placement_has_the_truths_places(page, job, window, qtbot):
    """From picks to the survey: the marks' places within what the survey says of them."""
    import processing

    for mark in ("A", "B", "C"):
        pick(page, window, qtbot, mark)
    tried(page, qtbot)
    with qtbot.waitSignal(page.accepted):
        qtbot.mouseClick(page.accept, LEFT)
    processing.run("groundtally:survey_walks", {"LOGS": [str(job.folder)], "OUTPUT": str(job.survey)})
    with closing(sqlite3.connect(job.survey)) as database:
        status, crs = database.execute("SELECT status, crs FROM placement").fetchone()
        kept = database.execute("SELECT mark, residual_m FROM marks WHERE residual_m IS NOT NULL").fetchall()
    assert (status, crs) == ("placed", "EPSG:25831")
    assert {mark for mark, _ in kept} == {"A", "B", "C"}
    assert max(size for _, size in kept) < 0.2
    assert json.dumps(read_pairs(job.folder / "control.csv").crs) == '"EPSG:25831"'
