# SPDX-License-Identifier: GPL-2.0-or-later
"""The page of checks: limits chosen, a survey checked and looked at on the map with real events, and nothing left."""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing

import numpy as np
import pytest
from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsProject,
    QgsRectangle,
)
from qgis.gui import QgsMapCanvas, QgsMapCanvasItem
from qgis.PyQt.QtCore import QPoint, Qt

from plugin.bridge.checks_file import Verdict, checks_file, read_checks
from plugin.bridge.checks_run import CheckChoice, read_choice
from plugin.bridge.geopackage import write_survey
from plugin.bridge.jobs import DeskJob, survey_crs
from plugin.gui.checks_model import FIGURE, SIGN, WHAT
from plugin.gui.pages import checks as page_module
from plugin.gui.pages.checks import LIMITS, RESULTS, ChecksPage
from plugin.processing.provider import Provider
from tests.made_checks import AREAS, OWN
from tests.made_surfaces import ground, layer_of
from tests.made_survey import made_survey

LEFT = Qt.MouseButton.LeftButton
LONG = 60_000
"""Milliseconds: a run that takes this long is stuck."""
FLASHES = 4_000
"""Milliseconds after which a flash is over."""


class Canvas(QgsMapCanvas):
    """A real map that remembers what it flashed."""

    def __init__(self):
        super().__init__()
        self.flashed: list = []

    def flashGeometries(self, geometries, crs, *more):
        self.flashed.append((geometries, crs))
        super().flashGeometries(geometries, crs, *more)


class Window:
    """As much of the host as the page asks for, with a real canvas."""

    def __init__(self, qtbot):
        self.canvas = Canvas()
        qtbot.addWidget(self.canvas)
        self.canvas.resize(400, 400)
        self.canvas.show()
        qtbot.waitExposed(self.canvas)

    def mapCanvas(self):
        return self.canvas


@pytest.fixture
def made():
    return made_survey()


def made_job(folder, made) -> DeskJob:
    folder.mkdir(exist_ok=True)
    (folder / "own.csv").write_text(OWN, encoding="utf-8")
    return DeskJob(folder, write_survey(made, folder / "yard.gpkg"))


@pytest.fixture
def job(tmp_path, made):
    return made_job(tmp_path / "yard", made)


@pytest.fixture
def window(qtbot, provider, made):
    """A window 60 m across about the made survey."""
    QgsProject.instance().clear()
    window = Window(qtbot)
    crs = QgsCoordinateReferenceSystem("EPSG:25831")
    QgsProject.instance().setCrs(crs)
    window.canvas.setDestinationCrs(crs)
    x, y = made.plane.to_crs(np.array([[12.0, 0.0]]))[0].tolist()
    window.canvas.setExtent(QgsRectangle(x - 30, y - 30, x + 30, y + 30))
    yield window
    QgsProject.instance().clear()


@pytest.fixture
def page(window, job, qtbot):
    page = opened(window, job, qtbot)
    yield page
    page.close_down()


def opened(window, job, qtbot) -> ChecksPage:
    page = ChecksPage(window)
    qtbot.addWidget(page)
    page.setGeometry(410, 0, 380, 560)  # beside the map: the mouse is over one window only
    page.show()
    qtbot.waitExposed(page)
    page.show_job(job, survey_crs(job))
    return page


def write_table(page, qtbot, path) -> None:
    """As a user would type it."""
    page.tabs.setCurrentIndex(LIMITS)
    line = page.limits.file.lineEdit()
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, str(path))


def press_check(page, qtbot) -> None:
    with qtbot.waitSignal(page.changed, timeout=LONG):
        qtbot.mouseClick(page.check, LEFT)
    assert page.runner.is_busy is False


def checked(page, job, qtbot) -> None:
    """Held against the made table."""
    write_table(page, qtbot, job.folder / "own.csv")
    press_check(page, qtbot)


def shown(page) -> list[tuple[str, str, str]]:
    """What stands in the list: letter, feature and limit."""
    model = page.results.model
    rows = [
        [model.data(model.index(row, column)) for column in (SIGN, WHAT)] for row in range(model.rowCount())
    ]
    return [(sign, what.split("\n")[0], what.split("\n")[2]) for sign, what in rows]


def row_of(page, feature: str, limit: str) -> int:
    return next(k for k, (_, *what) in enumerate(shown(page)) if what == [feature, limit])


def click_row(page, qtbot, row: int, *, twice: bool = False) -> None:
    table = page.results.table
    index = page.results.model.index(row, WHAT)
    table.scrollTo(index)
    at = table.visualRect(index).center()
    qtbot.mouseClick(table.viewport(), LEFT, pos=at)
    if twice:
        qtbot.mouseDClick(table.viewport(), LEFT, pos=at)


def items(canvas) -> list[QgsMapCanvasItem]:
    return [item for item in canvas.scene().items() if isinstance(item, QgsMapCanvasItem)]


def limit_item(page, name: str):
    return next(item for item in page.limits._items() if item.text(0) == name)


def leave_out(job, feature: str) -> None:
    """An area less in the survey."""
    with closing(sqlite3.connect(job.survey)) as database:
        database.execute("DELETE FROM areas WHERE feature = ?", (feature,))
        database.commit()


def tick(page, qtbot, item) -> None:
    """Click on a tick."""
    tree = page.limits.tree
    tree.scrollToItem(item)
    depth = 1 if item.parent() is None else 2
    at = QPoint(depth * tree.indentation() + 10, tree.visualItemRect(item).center().y())
    qtbot.mouseClick(tree.viewport(), LEFT, pos=at)
    qtbot.wait(5)  # a source's limits are taken together


# --- before ---


def test_a_job_that_was_never_checked_opens_at_its_limits(page):
    assert page.tabs.currentIndex() == LIMITS
    assert page.limits.words.text() == (
        "These are examples, some from memory. Local codes and a licensed practitioner's judgement rule: tick what holds "
        "where you build, or choose a table of your own."
    )
    assert page.check.isEnabled()
    assert len(page.limits.names) > 20
    page.tabs.setCurrentIndex(RESULTS)
    assert page.results.counts.text() == (
        "Not checked yet: tick the limits that hold here, then press Check."
    )
    assert not page.results.table.isVisible()


def test_a_job_without_a_survey_cannot_be_checked(window, qtbot, tmp_path):
    page = opened(window, DeskJob(tmp_path, tmp_path / "none.gpkg"), qtbot)
    assert not page.check.isEnabled()
    assert page.results.counts.text() == "Nothing surveyed yet: run the job."
    page.close_down()


def test_the_page_fits_a_narrow_dock(page, job, qtbot):
    checked(page, job, qtbot)
    for tab in (RESULTS, LIMITS):
        page.tabs.setCurrentIndex(tab)
        assert page.minimumSizeHint().width() <= 362
        assert page.minimumSizeHint().height() < 460


# --- the run ---


def test_a_survey_is_checked_and_the_worst_stands_first(page, job, qtbot):
    checked(page, job, qtbot)
    assert page.tabs.currentIndex() == RESULTS
    assert shown(page) == [
        *(("F", name, "Steep") for name in AREAS),
        *(("?", name, "Even, or nearly") for name in AREAS),
        ("–", "Bed 3", ""),
        *(("P", name, limit) for limit in ("Drains", "Even") for name in AREAS),
    ]
    model = page.results.model
    assert model.data(model.index(0, FIGURE)) == "1:50.0\n(1:48.1 to 1:52.0)\n1:40 or steeper"
    colours = {
        shown(page)[row][0]: model.data(model.index(row, SIGN), Qt.ItemDataRole.DecorationRole).name()
        for row in (0, 3, 7)
    }
    assert colours == {"F": "#d55e00", "?": "#f0e442", "P": "#009e73"}
    assert page.results.counts.text() == "3 fail, 3 cannot tell, 1 not measured, 6 pass"
    assert page.results.state.text() == ""
    assert not page.progress.isVisible()
    layers = list(QgsProject.instance().mapLayers().values())
    assert [layer.name() for layer in layers] == ["Checks of yard"]
    assert layers[0].featureCount() == 13
    group = QgsProject.instance().layerTreeRoot().findGroup("Checks")
    assert [node.layerId() for node in group.findLayers()] == [layers[0].id()]


def test_the_checks_are_there_tomorrow(page, job, qtbot, window):
    checked(page, job, qtbot)
    QgsProject.instance().clear()
    other = opened(window, job, qtbot)
    assert other.tabs.currentIndex() == RESULTS
    assert len(shown(other)) == 13
    other.close_down()


def test_another_run_replaces_the_checks_whole(page, job, qtbot):
    checked(page, job, qtbot)
    (layer,) = QgsProject.instance().mapLayers().values()
    page.tabs.setCurrentIndex(LIMITS)
    for name in ("Even", "Drains", "Even, or nearly"):
        tick(page, qtbot, limit_item(page, name))
    press_check(page, qtbot)
    assert {limit for _, _, limit in shown(page)} == {"Steep", ""}
    assert list(QgsProject.instance().mapLayers().values()) == [layer]
    assert layer.featureCount() == len(read_checks(checks_file(job.survey))) == 4
    assert {row["limit"] for row in layer.getFeatures() if isinstance(row["limit"], str)} == {"Steep"}


def test_a_run_is_stopped(page, job, qtbot):
    write_table(page, qtbot, job.folder / "own.csv")
    with qtbot.waitSignal(page.runner.ended, timeout=LONG) as ended:
        qtbot.mouseClick(page.check, LEFT)
        assert page.stop.isVisible()
        assert not page.check.isEnabled()
        assert page.words.text() == "Checking yard"
        qtbot.mouseClick(page.stop, LEFT)
    assert ended.args[0] is False
    # Told by the run, or by the window where it had not begun.
    assert page.words.text() in ("Cancelled; nothing was written.", "The run was stopped.")
    assert not checks_file(job.survey).exists()
    assert page.check.isEnabled()
    assert not page.stop.isVisible()


def test_a_run_that_fails_says_why(page, job, qtbot):
    write_table(page, qtbot, job.folder / "own.csv")
    job.survey.write_bytes(b"no survey")
    with qtbot.waitSignal(page.runner.ended, timeout=LONG) as ended:
        qtbot.mouseClick(page.check, LEFT)
    assert ended.args[0] is False
    assert "cannot be read as a survey of this version" in page.words.text()
    assert page.check.isEnabled()
    assert QgsProject.instance().mapLayers() == {}


def test_a_survey_that_is_made_anew_meanwhile_is_checked_again(page, job, qtbot, monkeypatch):
    stamps = iter(["first", "second", "second"])
    monkeypatch.setattr(page_module, "survey_stamp", lambda _: next(stamps))
    runs = []
    page.runner.ended.connect(lambda was_good, *_: runs.append(was_good))
    checked(page, job, qtbot)
    assert runs == [True, True]


# --- the list ---


def test_the_filter_leaves_what_needs_somebody(page, job, qtbot):
    checked(page, job, qtbot)
    click_row(page, qtbot, row_of(page, "Bed 1", "Even, or nearly"))
    page.results.filter.setFocus()
    qtbot.keyClick(page.results.filter, Qt.Key.Key_Down)
    assert [sign for sign, *_ in shown(page)] == ["F"] * 3 + ["?"] * 3 + ["–"]
    assert page.results.current().feature == "Bed 1", "the check that was chosen stays so"
    assert page.results.current().limit == "Even, or nearly"
    qtbot.keyClick(page.results.filter, Qt.Key.Key_Up)
    assert len(shown(page)) == 13
    assert page.results.current().feature == "Bed 1"


def test_a_filter_that_leaves_nothing_says_so(page, job, qtbot):
    checked(page, job, qtbot)
    for name in ("Steep", "Even, or nearly"):
        page.tabs.setCurrentIndex(LIMITS)
        tick(page, qtbot, limit_item(page, name))
    leave_out(job, "Bed 3")
    press_check(page, qtbot)
    page.results.filter.setFocus()
    qtbot.keyClick(page.results.filter, Qt.Key.Key_Down)
    assert shown(page) == []
    assert page.results.details.toPlainText() == ("Nothing fails, and nothing is left at cannot tell.")


def test_a_check_that_is_chosen_flashes_and_tells_what_is_known_of_it(page, job, qtbot, window):
    checked(page, job, qtbot)
    click_row(page, qtbot, row_of(page, "Court", "Even, or nearly"))
    assert page.results.details.toPlainText().splitlines()[:3] == [
        "DR-01: Cannot tell: the 95 % interval lies on both sides. Level it better.",
        "The chance that it is allowed is 42 %.",
        "Limit: Office, page 4 (from memory: look it up before use).",
    ]
    ((places, crs),) = window.canvas.flashed
    assert crs.authid() == "EPSG:25831"
    assert [place.boundingBox().width() > 15.0 for place in places] == [True]
    # The same once more, and the next by the keyboard.
    qtbot.wait(10)
    click_row(page, qtbot, row_of(page, "Court", "Even, or nearly"))
    assert len(window.canvas.flashed) == 2
    qtbot.keyClick(page.results.table, Qt.Key.Key_Down)
    assert page.results.current().feature == "Bed 1"
    assert len(window.canvas.flashed) == 3


def test_double_click_and_enter_zoom_to_the_feature(page, job, qtbot, window):
    checked(page, job, qtbot)
    canvas = window.canvas
    wide = canvas.extent().width()
    click_row(page, qtbot, row_of(page, "Old slab", "Steep"), twice=True)
    assert canvas.extent().width() < 0.3 * wide
    hole = canvas.flashed[-1][0][0].boundingBox()
    assert canvas.extent().contains(hole)
    row = row_of(page, "Court", "Steep")
    page.results.table.setCurrentIndex(page.results.model.index(row, WHAT))
    qtbot.keyClick(page.results.table, Qt.Key.Key_Return)
    court = canvas.flashed[-1][0][0].boundingBox()
    assert canvas.extent().contains(court)
    assert not hole.contains(court)


@pytest.mark.parametrize("shown_crs", ["EPSG:25831", "EPSG:3857", "EPSG:4326"])
def test_a_feature_that_is_off_the_map_is_brought_there(shown_crs, page, job, qtbot, window):
    checked(page, job, qtbot)
    canvas = window.canvas
    canvas.setDestinationCrs(QgsCoordinateReferenceSystem(shown_crs))
    canvas.setExtent(QgsRectangle(1.0, 1.0, 1.001, 1.001))
    click_row(page, qtbot, row_of(page, "Old slab", "Steep"))
    way = QgsCoordinateTransform(
        QgsCoordinateReferenceSystem("EPSG:25831"),
        canvas.mapSettings().destinationCrs(),
        QgsProject.instance(),
    )
    middle = way.transformBoundingBox(canvas.flashed[-1][0][0].boundingBox()).center()
    assert canvas.extent().contains(middle)


def test_a_flash_leaves_nothing_on_the_map(page, job, qtbot, window):
    checked(page, job, qtbot)
    before = len(items(window.canvas))
    click_row(page, qtbot, 0, twice=True)
    qtbot.waitUntil(lambda: len(items(window.canvas)) == before, timeout=FLASHES)


def test_a_check_of_a_feature_that_the_survey_no_longer_has_says_so(page, job, qtbot, window, made):
    checked(page, job, qtbot)
    leave_out(job, "Court")
    click_row(page, qtbot, row_of(page, "Court", "Steep"))
    assert page.words.text() == "Court is no more in the survey."
    assert window.canvas.flashed == []


def test_the_pages_keys_go_from_the_list_to_the_button(page, job, qtbot):
    checked(page, job, qtbot)
    page.results.table.setFocus()
    order = []
    for _ in range(4):
        qtbot.keyClick(QgsApplication.focusWidget(), Qt.Key.Key_Tab)
        order.append(QgsApplication.focusWidget())
    assert order[:2] == [page.results.details, page.check]


# --- out of date ---


def test_a_survey_that_was_run_again_is_told_as_out_of_date(page, job, qtbot, made):
    checked(page, job, qtbot)
    time.sleep(0.01)
    write_survey(made, job.survey)
    page.show_job(job, survey_crs(job))  # as the dock does when the run ends
    assert page.results.state.text() == (
        "! Out of date. The survey was run again after these checks. Press Check."
    )
    assert len(shown(page)) == 13, "what was found stays to be read"
    press_check(page, qtbot)
    assert page.results.state.text() == ""


def test_other_limits_than_those_of_the_checks_are_told(page, job, qtbot):
    checked(page, job, qtbot)
    page.tabs.setCurrentIndex(LIMITS)
    tick(page, qtbot, limit_item(page, "Drains"))
    words = "! Out of date. Other limits are chosen now than these checks were made with. Press Check."
    assert page.results.state.text() == words
    tick(page, qtbot, limit_item(page, "Drains"))
    assert page.results.state.text() == ""


def test_a_file_of_checks_that_is_broken_is_told_and_mended_by_another_run(page, job, qtbot):
    checks_file(job.survey).write_bytes(b"broken")
    page.show_job(job, survey_crs(job))
    assert "cannot be read as checks of this version" in page.results.counts.text()
    checked(page, job, qtbot)
    assert len(shown(page)) == 13


# --- the table of limits ---


def test_a_table_of_ones_own_is_grouped_by_whom_its_limits_are_from(page, job, qtbot):
    write_table(page, qtbot, job.folder / "own.csv")
    tree = page.limits.tree
    groups = {
        tree.topLevelItem(k).text(0): [
            tree.topLevelItem(k).child(j).text(0) for j in range(tree.topLevelItem(k).childCount())
        ]
        for k in range(tree.topLevelItemCount())
    }
    assert groups == {"Office": ["Drains", "Even, or nearly", "Even"], "Town": ["Steep"]}
    assert page.limits.words.text() == "Limits in own.csv: 4."
    assert read_choice(QgsProject.instance(), job).now == CheckChoice(str(job.folder / "own.csv"))


def test_a_row_that_cannot_be_used_is_told_with_its_line(page, job, qtbot):
    table = job.folder / "faulty.csv"
    table.write_text(OWN.replace(",,60,", ',,"6,5",').replace(",,40,", ",,x,"), encoding="utf-8")
    write_table(page, qtbot, table)
    assert page.limits.words.text() == (
        'Limits in faulty.csv: 2. faulty.csv, line 2, column at_least: "6,5" is not a number. Write 6.5, or separate the '
        "columns with semicolons; the rest of the file was read. 1 more like this."
    )
    press_check(page, qtbot)
    assert {limit for _, _, limit in shown(page)} == {"Even, or nearly", "Even", ""}


def test_a_table_without_one_good_limit_cannot_be_checked_against(page, job, qtbot):
    table = job.folder / "faulty.csv"
    table.write_text(OWN.splitlines()[0] + "\nDrains,fall,gradient,,x,1:n,,,\n", encoding="utf-8")
    write_table(page, qtbot, table)
    assert page.why.text() == (
        'faulty.csv has no limit that can be used. faulty.csv, line 2, column at_least: "x" is not a number.'
    )
    assert not page.check.isEnabled()
    assert page.limits.tree.topLevelItemCount() == 0
    write_table(page, qtbot, job.folder / "own.csv")
    assert page.check.isEnabled()
    assert not page.why.isVisible()


def test_a_table_that_is_not_there_says_so_and_comes_back(page, job, qtbot):
    table = job.folder / "later.csv"
    write_table(page, qtbot, table)
    assert page.why.text().replace("\u200b", "") == (
        f"{table} cannot be read (No such file or directory). Choose the table of limits again."
    )
    assert not page.check.isEnabled()
    table.write_text(OWN, encoding="utf-8")
    page.hide()
    page.show()
    assert page.check.isEnabled()


def test_a_table_that_was_changed_by_another_program_is_read_when_it_is_checked(page, job, qtbot):
    checked(page, job, qtbot)
    (job.folder / "own.csv").write_text("\n".join(OWN.splitlines()[:2]) + "\n", encoding="utf-8")
    press_check(page, qtbot)
    assert page.limits.names == ("Drains",)
    assert {limit for _, _, limit in shown(page)} == {"Drains", ""}


def test_a_file_far_too_large_is_no_table(page, job, qtbot):
    table = job.folder / "large.csv"
    table.write_bytes(OWN.encode() + b"," * 3_000_000)
    write_table(page, qtbot, table)
    assert page.why.text() == "large.csv is far too large for a table of limits. Choose another."


def test_ticks_choose_the_limits_and_stay_with_the_job(page, job, qtbot, window):
    write_table(page, qtbot, job.folder / "own.csv")
    tick(page, qtbot, limit_item(page, "Even"))
    page.limits.tree.setFocus()
    page.limits.tree.setCurrentItem(limit_item(page, "Steep"))
    qtbot.keyClick(page.limits.tree, Qt.Key.Key_Space)
    qtbot.wait(5)
    kept = read_choice(QgsProject.instance(), job)
    assert kept.now.left_out == {"Even", "Steep"}
    assert kept.ran is None
    press_check(page, qtbot)
    assert {limit for _, _, limit in shown(page)} == {"Drains", "Even, or nearly", ""}
    other = opened(window, job, qtbot)
    states = {item.text(0): item.checkState(0) == Qt.CheckState.Checked for item in other.limits._items()}
    assert states == {"Drains": True, "Even, or nearly": True, "Even": False, "Steep": False}
    other.close_down()


def test_what_is_ticked_the_moment_that_the_job_changes_is_kept_with_its_own(
    page, job, qtbot, tmp_path, made
):
    write_table(page, qtbot, job.folder / "own.csv")
    other = made_job(tmp_path / "other", made)
    page.limits.tree.setFocus()
    page.limits.tree.setCurrentItem(limit_item(page, "Steep"))
    qtbot.keyClick(page.limits.tree, Qt.Key.Key_Space)
    page.show_job(other, survey_crs(other))
    qtbot.wait(5)
    assert read_choice(QgsProject.instance(), job).now.left_out == {"Steep"}
    assert read_choice(QgsProject.instance(), other).now == CheckChoice()


def test_a_source_is_ticked_as_a_whole_and_nothing_ticked_cannot_be_checked(page, job, qtbot):
    write_table(page, qtbot, job.folder / "own.csv")
    for k in range(2):
        tick(page, qtbot, page.limits.tree.topLevelItem(k))
    assert read_choice(QgsProject.instance(), job).now.left_out == {
        "Drains",
        "Even, or nearly",
        "Even",
        "Steep",
    }
    assert page.why.text() == "Tick a limit that holds here."
    assert not page.check.isEnabled()
    tick(page, qtbot, page.limits.tree.topLevelItem(1))
    assert page.check.isEnabled()
    press_check(page, qtbot)
    assert {limit for _, _, limit in shown(page)} == {"Steep", ""}


def test_what_was_left_out_of_one_table_is_remembered_beside_another(page, job, qtbot):
    write_table(page, qtbot, job.folder / "own.csv")
    tick(page, qtbot, limit_item(page, "Steep"))
    write_table(page, qtbot, "")
    page.limits.file.lineEdit().clear()
    tick(page, qtbot, limit_item(page, "ADA 405.2 anywhere"))
    assert read_choice(QgsProject.instance(), job).now == CheckChoice(
        "", frozenset({"Steep", "ADA 405.2 anywhere"})
    )


def test_a_surface_gives_paths_their_crossfall(page, job, qtbot, made, tmp_path):
    (job.folder / "paths.csv").write_text(
        "limit,applies_to,quantity,at_most,unit\nCamber,path,crossfall,10,%\n", encoding="utf-8"
    )
    write_table(page, qtbot, job.folder / "paths.csv")
    press_check(page, qtbot)
    assert {limit for *_, limit in shown(page)} == {""}
    layer = layer_of(ground(), "Ground", tmp_path / "g.gpkg", made.plane)
    QgsProject.instance().addMapLayer(layer)
    page.tabs.setCurrentIndex(LIMITS)
    page.limits.surface.setFocus()
    qtbot.keyClick(page.limits.surface, Qt.Key.Key_Down)
    assert page.limits.surface.currentText() == "Ground"
    press_check(page, qtbot)
    found = [check for check in read_checks(checks_file(job.survey)) if check.feature == "Kerb"]
    assert [(check.limit, check.quantity) for check in found] == [("Camber", "crossfall")]
    assert found[0].verdict is not Verdict.NO_LIMIT
    QgsProject.instance().removeMapLayer(layer.id())
    assert page.limits.surface.currentText() == "none"
    press_check(page, qtbot)
    assert {limit for *_, limit in shown(page)} == {""}


# --- jobs, projects, the end ---


def test_another_job_shows_its_own_checks_and_limits(page, job, qtbot, tmp_path, made):
    checked(page, job, qtbot)
    other = made_job(tmp_path / "other", made)
    page.show_job(other, survey_crs(other))
    assert page.tabs.currentIndex() == LIMITS
    assert page.limits.file.filePath() == ""
    assert shown(page) == []
    page.show_job(job, survey_crs(job))
    assert page.tabs.currentIndex() == RESULTS
    assert page.limits.file.filePath() == str(job.folder / "own.csv")
    assert len(shown(page)) == 13


def test_a_run_ends_for_the_job_it_began_for(page, job, qtbot, tmp_path, made):
    write_table(page, qtbot, job.folder / "own.csv")
    other = made_job(tmp_path / "other", made)
    with qtbot.waitSignal(page.changed, timeout=LONG):
        qtbot.mouseClick(page.check, LEFT)
        page.show_job(other, survey_crs(other))
        assert not page.check.isEnabled()
    assert shown(page) == []
    assert not checks_file(other.survey).exists()
    assert len(read_checks(checks_file(job.survey))) == 13
    kept = read_choice(QgsProject.instance(), job)
    assert kept.ran == kept.now == CheckChoice(str(job.folder / "own.csv"))
    assert read_choice(QgsProject.instance(), other).ran is None
    assert page.check.isEnabled()


def test_another_project_forgets_a_run(page, job, qtbot):
    write_table(page, qtbot, job.folder / "own.csv")
    with qtbot.waitSignal(page.runner.ended, timeout=LONG):
        qtbot.mouseClick(page.check, LEFT)
        QgsProject.instance().clear()
    assert QgsProject.instance().mapLayers() == {}
    assert not page.check.isEnabled()
    assert page.words.text() == ""


def test_a_page_that_closes_in_the_middle_of_a_run_leaves_nothing(window, job, qtbot):
    page = opened(window, job, qtbot)
    write_table(page, qtbot, job.folder / "own.csv")
    told = []
    page.changed.connect(lambda: told.append(1))
    with qtbot.waitSignal(page.runner.ended, timeout=LONG):
        qtbot.mouseClick(page.check, LEFT)
        page.close_down()
    assert told == []
    assert QgsProject.instance().mapLayers() == {}


def test_a_page_that_closed_hears_of_nothing_any_more(window, job, qtbot, made, tmp_path):
    before = len(items(window.canvas))
    for _ in range(2):
        page = opened(window, job, qtbot)
        page.close_down()
        count = page.limits.surface.count()
        layer = layer_of(ground(), "Ground", tmp_path / "g.gpkg", made.plane)
        QgsProject.instance().addMapLayer(layer)
        assert page.limits.surface.count() == count
        QgsProject.instance().clear()
        assert page._job == job
    assert len(items(window.canvas)) == before


@pytest.mark.parametrize("shown_crs", ["", "EPSG:25831"])
def test_a_survey_at_no_known_place_is_flashed_in_its_own_plane(shown_crs, window, qtbot, tmp_path):
    job = made_job(tmp_path / "plane", made_survey(None))
    page = opened(window, job, qtbot)
    window.canvas.setDestinationCrs(QgsCoordinateReferenceSystem(shown_crs))
    checked(page, job, qtbot)
    click_row(page, qtbot, 0, twice=True)
    place = window.canvas.flashed[-1][0][0].boundingBox()
    assert (place.xMinimum(), place.yMinimum()) == pytest.approx((2.0, 2.0), abs=1e-6)
    assert window.canvas.extent().contains(place)
    page.close_down()
