# SPDX-License-Identifier: GPL-2.0-or-later
"""The first job as a user does it, with the mouse and keys in a real window: from an empty project to an accepted
placement. Keeps a picture of each step, and counts clicks and seconds. Runs inside the desktop: scripts/first_job."""

from __future__ import annotations

import json
import os
import time
import traceback
from pathlib import Path

from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsPointXY,
    QgsProject,
)
from qgis.PyQt.QtCore import QMimeData, QPoint, QPointF, Qt, QTimer, QUrl
from qgis.PyQt.QtGui import QDropEvent
from qgis.PyQt.QtTest import QTest
from qgis.PyQt.QtWidgets import QDockWidget
from qgis.utils import iface

FOLDER, PICTURES, REPORT = (os.environ[name] for name in ("JOB_FOLDER", "JOB_PICTURES", "JOB_REPORT"))
PLACES = {
    "A": (512340.109822, 5712849.930922),
    "B": (512361.460527, 5712860.985016),
    "C": (512367.291054, 5712884.327726),
}
"""Where the demo's picture shows its marks (its control file)."""
LEFT = Qt.MouseButton.LeftButton
WIDTH, HEIGHT = 1366, 768
LONGEST = 30.0
"""Seconds after which a step counts as stuck."""


class Session:
    """Clicks, keys, pictures and seconds."""

    def __init__(self) -> None:
        """Nothing is done yet."""
        self.clicks = self.keys = 0
        self.steps: list[dict[str, object]] = []

    def click(self, widget, at: QPoint | None = None, *, double: bool = False) -> None:
        """Click the middle of a widget, or a place of it."""
        at = at or widget.rect().center()
        QTest.mouseMove(widget, at)
        QTest.mouseClick(widget, LEFT, Qt.KeyboardModifier.NoModifier, at)
        if double:
            QTest.mouseDClick(widget, LEFT, Qt.KeyboardModifier.NoModifier, at)
        self.clicks += 2 if double else 1

    def key(self, widget, key: Qt.Key) -> None:
        """Press a key."""
        QTest.keyClick(widget, key)
        self.keys += 1

    def wait(self, is_done) -> float:
        """Let the window work until something is so; the seconds that it took."""
        begun = time.perf_counter()
        while not is_done():
            QgsApplication.processEvents()
            time.sleep(0.005)
            if time.perf_counter() - begun > LONGEST:
                raise SystemExit("a step is stuck")
        return time.perf_counter() - begun

    def step(self, name: str, seconds: float = 0.0) -> None:
        """A picture of the window as it is now."""
        QTest.qWait(300)
        iface.mapCanvas().waitWhileRendering()
        QTest.qWait(300)
        number = len(self.steps) + 1
        path = Path(PICTURES) / f"first_job_{number}.jpg"
        QgsApplication.primaryScreen().grabWindow(0).save(str(path), quality=55)
        self.steps.append(
            {"step": name, "seconds": round(seconds, 2), "clicks": self.clicks, "keys": self.keys}
        )


def go() -> None:
    """All steps."""
    session = Session()
    dock = iface.mainWindow().findChild(QDockWidget, "GroundTallyDock")
    canvas = iface.mapCanvas()
    session.step("An empty project, and the dock")
    session.click(dock.new)
    session.step("New job: drop the folder of the logs")
    begun = time.perf_counter()
    drop(dock.new_job, FOLDER)
    session.clicks += 1
    session.wait(dock.new_job.run.isEnabled)
    session.step("What lies in the folder", time.perf_counter() - begun)
    session.click(dock.new_job.run)
    took = session.wait(lambda: not dock.runner.is_busy and dock.job is not None)
    session.step("Surveyed, and not placed yet", took)
    table = dock.rows.table
    row = next(k for k in range(table.rowCount()) if table.item(k, 1).text().startswith("Place"))
    at = table.visualItemRect(table.item(row, 1)).center()
    begun = time.perf_counter()
    session.click(table.viewport(), at, double=True)
    session.wait(lambda: dock.pages.currentWidget() is dock.pairs)
    canvas.waitWhileRendering()
    session.step("The picture, and the marks to pair with it", time.perf_counter() - begun)
    pair(session, dock.pairs, canvas)
    session.click(dock.pairs.accept)
    took = session.wait(lambda: dock.runner.is_busy)
    took += session.wait(lambda: not dock.runner.is_busy)
    session.step("Accepted: the survey on the picture", took)
    figure(session, dock, canvas)
    Path(REPORT).write_text(json.dumps(session.steps, indent=1), encoding="utf-8")


def pair(session: Session, page, canvas) -> None:
    """Three marks, each with a click and Enter."""
    session.click(page.pick)
    for mark, place in PLACES.items():
        page.table.choose(mark)
        begun = time.perf_counter()
        session.click(canvas.viewport(), pixel(canvas, place))
        if mark == "A":
            QTest.qWait(600)
            session.step("A pick: at the ground, or above it?")
        session.key(page.menu, Qt.Key.Key_Return)
        session.wait(lambda: not page.trials.is_busy and len(page.trials.previews) == len(page.trials.pairs))
        if mark != "A":
            words = "Two pairs: as picked, and turned by half" if mark == "B" else "A third mark checks it"
            session.step(words, time.perf_counter() - begun)


def figure(session: Session, dock, canvas) -> None:
    """The working of the lawn's area, by a click on the map."""
    table = dock.rows.table
    row = next(k for k in range(table.rowCount()) if table.item(k, 1).text().startswith("Figures"))
    session.click(table.viewport(), table.visualItemRect(table.item(row, 1)).center(), double=True)
    session.wait(lambda: dock.pages.currentWidget() is dock.working)
    session.click(dock.working.pick)
    session.click(canvas.viewport(), pixel(canvas, middle_of("areas")))
    QTest.qWait(300)
    session.step("The working of a figure")


def middle_of(table: str) -> tuple[float, float]:
    """A place inside the largest area."""
    layers = QgsProject.instance().mapLayers().values()
    layer = next(one for one in layers if f"layername={table}" in one.source())
    largest = max(layer.getFeatures(), key=lambda feature: feature.geometry().area())
    at = largest.geometry().pointOnSurface().asPoint()
    return at.x(), at.y()


def pixel(canvas, place: tuple[float, float]) -> QPoint:
    """Where the window shows a place of the demo's CRS."""
    crs = canvas.mapSettings().destinationCrs()
    way = QgsCoordinateTransform(QgsCoordinateReferenceSystem("EPSG:25831"), crs, QgsProject.instance())
    at = canvas.getCoordinateTransform().transform(way.transform(QgsPointXY(*place)))
    return QPoint(round(at.x()), round(at.y()))


def drop(widget, folder: str) -> None:
    """Drop a folder on a widget."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(folder)])
    place = QPointF(40, 40)
    event = QDropEvent(place, Qt.DropAction.CopyAction, data, LEFT, Qt.KeyboardModifier.NoModifier)
    widget.dropEvent(event)


def begin() -> None:
    """An empty project in a small window, with the dock open."""
    window = iface.mainWindow()
    window.setGeometry(0, 0, WIDTH, HEIGHT)
    iface.messageBar().clearWidgets()
    QgsProject.instance().clear()
    dock = window.findChild(QDockWidget, "GroundTallyDock")
    dock.show()
    dock.raise_()
    QTimer.singleShot(1000, run)


def run() -> None:
    """All of it; the window is closed whatever happens."""
    code = 1
    try:
        go()
        code = 0
    except BaseException:  # noqa: BLE001 - the window must not stay open
        traceback.print_exc()
    os._exit(code)


QTimer.singleShot(3000, begin)
