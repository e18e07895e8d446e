# SPDX-License-Identifier: GPL-2.0-or-later
"""The dock: a job from a folder, what it lacks, findings answered and taken back, with real events."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
import qgis.gui
from qgis.core import QgsApplication, QgsCoordinateReferenceSystem, QgsCoordinateTransform, QgsProject
from qgis.gui import QgsGui, QgsMapCanvas, QgsMapLayerAction
from qgis.PyQt.QtCore import QMimeData, QPointF, Qt, QUrl
from qgis.PyQt.QtGui import QDropEvent
from qgis.PyQt.QtWidgets import QMainWindow

from plugin.bridge.findings import read_findings
from plugin.bridge.geopackage import write_survey
from plugin.bridge.jobs import read_jobs
from plugin.bridge.project import fill_project, write_project
from plugin.gui.dock import Dock, open_dock
from plugin.gui.pages.rows import SUBJECT
from plugin.processing.provider import Provider
from tests.made_survey import made_survey

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
FORMS = ("rows", "new_job", "findings", "pairs", "plots", "ground", "checks", "working", "plan")
LONG = 60_000
"""Milliseconds: a run that takes this long is stuck."""


class Window:
    """The host's interface as far as the dock goes, with a real canvas."""

    def __init__(self, qtbot):
        self.window = QMainWindow()
        qtbot.addWidget(self.window)
        self.canvas = QgsMapCanvas(self.window)
        self.menus: list = []
        self.tables: list = []
        self.warnings: list = []

    def mapCanvas(self):
        return self.canvas

    def addDockWidget(self, area, dock):
        self.window.addDockWidget(area, dock)

    def removeDockWidget(self, dock):
        self.window.removeDockWidget(dock)

    def addPluginToMenu(self, menu, action):
        self.menus.append(action)

    def removePluginMenu(self, menu, action):
        self.menus.remove(action)

    def showAttributeTable(self, layer):
        self.tables.append(layer.source())

    def messageBar(self):
        return self

    def pushWarning(self, *words):
        self.warnings.append(words)


@pytest.fixture
def window(qtbot, qgis_app):
    return Window(qtbot)


@pytest.fixture
def dock(window, provider, qtbot):
    QgsProject.instance().clear()
    dock = open_dock(window)
    window.window.resize(1366, 768)
    window.window.show()
    yield dock
    dock.close_down()
    QgsProject.instance().clear()


@pytest.fixture
def folder(tmp_path):
    """The demo's files, to be answered."""
    folder = tmp_path / "yard"
    shutil.copytree(DEMO, folder)
    (folder / "decisions.csv").unlink(missing_ok=True)
    return folder


def survey(dock: Dock, folder: Path, qtbot) -> None:
    """As a user would: choose the folder, press the button, wait."""
    dock.new_job.folder.setFilePath(str(folder))
    qtbot.waitUntil(dock.new_job.run.isEnabled, timeout=LONG)  # it looks at the files a little at a time
    with qtbot.waitSignal(dock.runner.ended, timeout=LONG) as ended:
        qtbot.mouseClick(dock.new_job.run, Qt.MouseButton.LeftButton)
    assert ended.args[0], ended.args[2]


def rows(dock: Dock) -> dict[str, tuple[str, str]]:
    told = (
        [dock.rows.table.item(k, column).text() for column in (0, 1)]
        for k in range(dock.rows.table.rowCount())
    )
    return {text.split("\n")[0]: (sign, text.split("\n")[1]) for sign, text in told}


def test_an_empty_project_says_how_to_start(dock):
    assert rows(dock) == {}
    assert dock.words.text() == "No job yet: start one from the folder of its logs, or open a survey."
    assert not dock.again.isVisible()


def test_a_folder_becomes_a_survey_on_the_map(dock, folder, qtbot, window):
    survey(dock, folder, qtbot)
    told = rows(dock)
    assert told["Walks"][1].startswith("4 read, 281 stations")
    assert told["Place on the map"][1].startswith("placed in EPSG:25831; ±")
    assert told["Findings"][0] in "?✕"
    assert dock.job.folder == folder
    names = {layer.name() for layer in QgsProject.instance().mapLayers().values()}
    assert {"Areas", "Stations"} <= names
    assert read_jobs(QgsProject.instance()) == (dock.job,)


def test_every_row_opens_its_form_or_its_table(dock, folder, qtbot, window):
    survey(dock, folder, qtbot)
    opened = {}
    for k in range(dock.rows.table.rowCount()):
        item = dock.rows.table.item(k, 1)
        dock.rows.table.itemActivated.emit(item)
        page = dock.pages.currentWidget()
        figure = dock.plots.choice.currentText() if page is dock.plots else ""
        opened[item.text().split("\n")[0]] = (page, figure)
        if page is not dock.rows:
            qtbot.mouseClick(dock.back, Qt.MouseButton.LeftButton)
        assert dock.pages.currentWidget() is dock.rows
    assert opened == {
        "Walks": (dock.plots, "Misclosures"),
        "Findings": (dock.findings, ""),
        "Marks": (dock.plots, "Residuals at the marks"),
        "Place on the map": (dock.pairs, ""),
        "Heights": (dock.plots, "Section of a drawn line"),
        "Ground": (dock.ground, ""),
        "Checks": (dock.checks, ""),
        "Edges": (dock.rows, ""),
        "Figures": (dock.working, ""),
    }
    assert [source.split("layername=")[1] for source in window.tables] == ["sides"]
    assert window.canvas.mapTool() is None


def test_a_finding_is_shown_answered_and_taken_back(dock, folder, qtbot, window):
    survey(dock, folder, qtbot)
    page = dock.findings
    row = next(
        k for k in range(page.model.rowCount()) if page.model.finding(k).answers and page.model.finding(k).at
    )
    asked = page.model.finding(row)
    page.table.selectRow(row)
    # The project may show another CRS than the survey's: the place is found all the same.
    for shown in ("EPSG:25831", "EPSG:3857"):
        window.canvas.setDestinationCrs(QgsCoordinateReferenceSystem(shown))
        QgsProject.instance().setCrs(QgsCoordinateReferenceSystem(shown))
        dock.refresh()
        page.table.selectRow(row)
        page.zoom_to(row)
        way = QgsCoordinateTransform(
            QgsCoordinateReferenceSystem("EPSG:25831"),
            QgsCoordinateReferenceSystem(shown),
            QgsProject.instance(),
        )
        assert window.canvas.extent().contains(way.transform(*asked.at))
        assert window.canvas.extent().width() < 500
    assert [page.choice.itemText(k) for k in range(page.choice.count())] == ["join (recommended)", "leave"]
    page.choice.setCurrentText(asked.answers[-1])
    with qtbot.waitSignal(dock.runner.ended, timeout=LONG) as ended:
        qtbot.mouseClick(page.give, Qt.MouseButton.LeftButton)
    assert ended.args[0], ended.args[2]
    text = (folder / "decisions.csv").read_text(encoding="utf-8")
    assert f"{asked.code},{asked.place},{asked.answers[-1]}," in text
    answered = [f for f in map(page.model.finding, range(page.model.rowCount())) if f.is_answered]
    assert [(f.code, f.place, f.answer) for f in answered] == [(asked.code, asked.place, asked.answers[-1])]
    page.table.selectRow(page.model.rowCount() - 1)
    assert page.current().is_answered
    with qtbot.waitSignal(dock.runner.ended, timeout=LONG):
        qtbot.mouseClick(page.undo, Qt.MouseButton.LeftButton)
    assert (folder / "decisions.csv").read_text(encoding="utf-8").splitlines() == [
        "finding,place,answer,by,when"
    ]
    assert not any(page.model.finding(k).is_answered for k in range(page.model.rowCount()))


def test_a_folder_that_is_dropped_is_taken(dock, folder, qtbot):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(folder / "walk_1.csv"))])
    dock.new_job.dropEvent(
        QDropEvent(
            QPointF(5, 5).toPoint(),
            Qt.DropAction.CopyAction,
            data,
            Qt.MouseButton.LeftButton,
            Qt.KeyboardModifier.NoModifier,
        )
    )
    assert dock.new_job.folder.filePath() == str(folder)
    assert "walk_1.csv: walk log" in dock.new_job.found.toPlainText()


def test_a_folder_without_logs_cannot_be_run_and_says_why(dock, tmp_path):
    (tmp_path / "notes.txt").write_text("nothing here\n", encoding="utf-8")
    dock.new_job.folder.setFilePath(str(tmp_path))
    assert not dock.new_job.run.isEnabled()
    assert "a job needs walk logs" in dock.new_job.found.toPlainText()
    dock.new_job.folder.setFilePath(str(tmp_path / "nowhere"))
    assert dock.new_job.found.toPlainText() == "There is no such folder."


def test_a_run_that_fails_says_why_and_leaves_the_project_as_it_was(dock, folder, qtbot):
    for path in folder.glob("walk_*.csv"):
        path.write_text("# units: cubits\nwalk,station,x,y\nW1,1,0,0\nW1,2,5,0\nW1,3,5,5\n", encoding="utf-8")
    dock.new_job.folder.setFilePath(str(folder))
    with qtbot.waitSignal(dock.runner.ended, timeout=LONG) as ended:
        qtbot.mouseClick(dock.new_job.run, Qt.MouseButton.LeftButton)
    assert not ended.args[0]
    assert "units" in dock.words.text()
    assert QgsProject.instance().mapLayers() == {}
    assert dock.job is None


def test_two_jobs_in_one_project_are_kept_and_read_again(dock, folder, tmp_path, qtbot):
    other = tmp_path / "other"
    shutil.copytree(DEMO, other)
    survey(dock, folder, qtbot)
    survey(dock, other, qtbot)
    assert [dock.jobs.itemText(k) for k in range(dock.jobs.count())] == ["yard", "other"]
    assert dock.job.folder == other
    assert QgsProject.instance().write(str(tmp_path / "p.qgz"))
    QgsProject.instance().clear()
    assert dock.job is None
    assert QgsProject.instance().read(str(tmp_path / "p.qgz"))
    assert [dock.jobs.itemText(k) for k in range(dock.jobs.count())] == ["yard", "other"]
    dock.jobs.setCurrentIndex(0)
    assert rows(dock)["Walks"][1].startswith("4 read")


def test_the_list_can_be_used_by_the_keyboard(dock, folder, qtbot):
    survey(dock, folder, qtbot)
    dock.rows.table.setFocus()
    items = (dock.rows.table.item(k, 1) for k in range(dock.rows.table.rowCount()))
    item = next(item for item in items if item.data(SUBJECT).value == "findings")
    dock.rows.table.setCurrentItem(item)
    qtbot.keyClick(dock.rows.table, Qt.Key.Key_Return)
    assert dock.pages.currentWidget() is dock.findings
    assert dock.back.focusPolicy() != Qt.FocusPolicy.NoFocus


def test_a_form_is_made_when_it_is_first_asked_for_and_shows_the_job_then(dock, folder, qtbot):
    assert [dock.pages.widget(k) for k in range(dock.pages.count())] == [dock.rows]
    qtbot.mouseClick(dock.new, Qt.MouseButton.LeftButton)
    survey(dock, folder, qtbot)
    assert dock.pages.count() == 2
    assert dock.pages.currentWidget() is dock.rows
    items = (dock.rows.table.item(k, 1) for k in range(dock.rows.table.rowCount()))
    dock.rows.table.itemActivated.emit(next(item for item in items if item.data(SUBJECT).value == "findings"))
    assert dock.pages.count() == 3
    assert dock.pages.currentWidget() is dock.findings
    assert dock.findings.model.rowCount() == len(read_findings(dock.job.survey)) > 0
    assert dock.findings is dock.findings


def test_a_tables_action_opens_the_working_in_a_dock_that_was_never_seen(window, provider, folder, qtbot):
    QgsProject.instance().clear()
    dock = open_dock(window)
    dock.hide()
    window.window.show()
    survey(dock, folder, qtbot)
    layer = next(one for one in QgsProject.instance().mapLayers().values() if one.name() == "Lengths")
    single = QgsMapLayerAction.Target.SingleFeature
    actions = QgsGui.mapLayerActionRegistry().mapLayerActions(layer, single)
    (action,) = (one for one in actions if one.text() == "Show the working")
    context = getattr(qgis.gui, "QgsMapLayerActionContext", None)  # hosts since 3.30 want one
    action.triggerForFeature(layer, layer.getFeature(1), *(() if context is None else (context(),)))
    assert dock.isVisible()
    assert dock.pages.currentWidget() is dock.working
    assert dock.working.title.text() == str(layer.getFeature(1)["feature"])
    dock.close_down()
    assert QgsGui.mapLayerActionRegistry().mapLayerActions(layer, single) == []
    QgsProject.instance().clear()


WITHOUT_LOGS = (
    "The logs of this survey are not known here. To answer its findings, place it or survey it again, start a new job "
    "from the folder of its logs."
)


@pytest.fixture
def elsewhere(tmp_path, qgis_app):
    """A survey that somebody else made, without its logs."""
    (tmp_path / "sent").mkdir()
    return write_survey(made_survey("EPSG:25831"), tmp_path / "sent" / "yard.gpkg", None, ())


def click_row(dock: Dock, subject: str) -> None:
    items = (dock.rows.table.item(k, 1) for k in range(dock.rows.table.rowCount()))
    dock.rows.table.itemActivated.emit(next(item for item in items if item.data(SUBJECT).value == subject))


def test_the_project_of_a_survey_made_elsewhere_is_a_job_to_look_at(dock, elsewhere, qtbot, window):
    path = write_project(elsewhere)
    assert QgsProject.instance().read(str(path))
    assert [dock.jobs.itemText(k) for k in range(dock.jobs.count())] == ["yard"]
    assert dock.job.survey == elsewhere
    assert {"Walks", "Findings", "Ground", "Figures"} <= set(rows(dock))
    assert dock.words.text() == ""
    for subject, name in (
        ("walks", "plots"),
        ("findings", "findings"),
        ("ground", "ground"),
        ("checks", "checks"),
        ("figures", "working"),
    ):
        click_row(dock, subject)
        assert dock.pages.currentWidget() is getattr(dock, name)
    assert dock.findings.model.rowCount() == len(read_findings(elsewhere)) > 0
    qtbot.mouseClick(dock.rows.draw, Qt.MouseButton.LeftButton)
    assert dock.pages.currentWidget() is dock.plots


def test_a_survey_without_its_logs_is_not_run_answered_or_placed(dock, elsewhere, qtbot):
    dock.open_survey(elsewhere)
    assert dock.again.isVisible()
    assert not dock.again.isEnabled()
    assert dock.again.toolTip() == WITHOUT_LOGS
    dock.run_again()
    assert not dock.runner.is_busy
    click_row(dock, "findings")
    for k in range(dock.findings.model.rowCount()):
        dock.findings.table.selectRow(k)
        assert not dock.findings.give.isEnabled()
        assert not dock.findings.undo.isEnabled()
    assert dock.findings.give.toolTip() == WITHOUT_LOGS
    click_row(dock, "place")
    assert (dock.pages.currentWidget(), dock.plots.choice.currentText()) == (
        dock.plots,
        "Residuals at the marks",
    )
    assert dock.words.text() == WITHOUT_LOGS
    assert sorted(path.name for path in elsewhere.parent.iterdir()) == ["yard.gpkg"]


def test_layers_of_a_survey_that_come_and_go_are_a_job_that_comes_and_goes(dock, elsewhere, qtbot):
    layers = fill_project(QgsProject.instance(), elsewhere)
    qtbot.waitUntil(lambda: dock.jobs.count() == 1)
    assert dock.jobs.itemText(0) == "yard"
    QgsProject.instance().removeMapLayers([layer.id() for layer in layers])
    qtbot.waitUntil(lambda: dock.jobs.count() == 0)
    assert rows(dock) == {}


def test_a_survey_is_opened_by_its_button_and_kept_with_the_project(
    dock, elsewhere, qtbot, monkeypatch, tmp_path
):
    asked = []

    def choose(parent, title, start, kinds):
        asked.append((title, kinds))
        return str(elsewhere), kinds

    monkeypatch.setattr("plugin.gui.dock.QFileDialog.getOpenFileName", choose)
    qtbot.mouseClick(dock.open, Qt.MouseButton.LeftButton)
    assert asked == [("Open a survey", "GeoPackage (*.gpkg)")]
    assert dock.job.survey == elsewhere
    shown = len(QgsProject.instance().mapLayers())
    assert shown > 10
    qtbot.mouseClick(dock.open, Qt.MouseButton.LeftButton)  # once more: the same job, no layer twice
    assert (dock.jobs.count(), len(QgsProject.instance().mapLayers())) == (1, shown)
    QgsProject.instance().removeAllMapLayers()  # it is the project that keeps it, not its layers
    assert QgsProject.instance().write(str(tmp_path / "p.qgz"))
    QgsProject.instance().clear()
    assert QgsProject.instance().read(str(tmp_path / "p.qgz"))
    assert [(job.survey, job.has_logs) for job in read_jobs(QgsProject.instance())] == [(elsewhere, False)]
    assert dock.job.survey == elsewhere
    assert not dock.again.isEnabled()


def test_a_file_that_is_no_survey_is_told_when_it_is_opened(dock, tmp_path):
    path = tmp_path / "x.gpkg"
    path.write_bytes(b"no database at all")
    dock.open_survey(path)
    told = dock.words.text().replace("\u200b", "")  # where a long path may break
    assert told == f"{path} is no survey. Choose a GeoPackage that Survey walks has written."
    assert dock.job is None
    assert QgsProject.instance().mapLayers() == {}


def test_a_survey_that_is_run_from_its_logs_takes_the_place_of_the_one_that_was_opened(dock, folder, qtbot):
    survey(dock, folder, qtbot)
    made = dock.job.survey
    QgsProject.instance().clear()
    dock.open_survey(made)
    assert not dock.again.isEnabled()
    shown = set(QgsProject.instance().mapLayers())
    qtbot.mouseClick(dock.new, Qt.MouseButton.LeftButton)
    survey(dock, folder, qtbot)
    assert (dock.jobs.count(), dock.job.has_logs) == (1, True)
    assert dock.again.isEnabled()
    assert set(QgsProject.instance().mapLayers()) == shown


def test_pairs_are_left_for_a_survey_without_logs(dock, folder, elsewhere, qtbot):
    survey(dock, folder, qtbot)
    dock.open_survey(elsewhere)
    dock.jobs.setCurrentIndex(0)
    click_row(dock, "place")
    assert dock.pages.currentWidget() is dock.pairs
    dock.jobs.setCurrentIndex(1)
    assert dock.pages.currentWidget() is dock.rows


def test_closing_gives_all_back(window, provider, qtbot):
    dock = open_dock(window)
    assert window.menus == [dock.toggleViewAction()]
    dock.close_down()
    qtbot.wait(20)
    assert window.menus == []
    assert window.window.findChildren(Dock) == []


def test_the_window_fits_a_screen_of_1366_by_768_with_any_page(dock, window, qtbot):
    for name in FORMS:
        dock._show(getattr(dock, name))
        qtbot.wait(20)
        assert dock.minimumSizeHint().height() < 500, name
        assert dock.minimumSizeHint().width() < 420, name
        assert window.window.minimumSizeHint().height() < 768
    assert dock.pages.count() == len(FORMS)


def test_a_survey_that_is_placed_later_gets_its_crs_on_the_map(dock, folder, qtbot):
    control = (folder / "control.csv").read_bytes()
    (folder / "control.csv").unlink()
    survey(dock, folder, qtbot)
    shown = [
        one
        for one in QgsProject.instance().mapLayers().values()
        if one.name() != "Picture" and one.isSpatial()
    ]
    assert len(shown) > 5
    assert not any(layer.crs().isValid() for layer in shown)
    (folder / "control.csv").write_bytes(control)
    with qtbot.waitSignal(dock.runner.ended, timeout=LONG) as ended:
        qtbot.mouseClick(dock.again, Qt.MouseButton.LeftButton)
    assert ended.args[0], ended.args[2]
    assert {layer.crs().authid() for layer in shown} == {"EPSG:25831"}
