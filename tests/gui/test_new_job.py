# SPDX-License-Identifier: GPL-2.0-or-later
"""A new job with the mouse and the keys: files dropped, ticked, restated, and the columns of a list chosen."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsVectorLayer,
)
from qgis.PyQt.QtCore import QEvent, QMimeData, QPoint, QPointF, Qt, QTimer, QUrl
from qgis.PyQt.QtGui import QDragEnterEvent, QDropEvent, QImage
from qgis.PyQt.QtWidgets import QApplication, QFileDialog, QStyle, QStyleOptionViewItem

from plugin.bridge.choices import kept_parameters
from plugin.bridge.jobs import DeskJob
from plugin.bridge.palette import palette_colour
from plugin.gui.pages import new_job
from plugin.gui.pages.columns import ColumnsPage
from plugin.gui.pages.job_files import FILE, FRAME, SIGN
from plugin.gui.pages.new_job import NewJobPage
from plugin.gui.pages.words import BREAK
from plugin.processing.provider import Provider

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
LOG = "# units: m\nwalk,station,x,y\n{0},1,0,0\n{0},2,5,0\n"
LIST = "1,5712854.70,512347.70,84.1,peg\n2,5712859.40,512355.40,84.2,\n3,5712870.50,512340.10,84.3,post\n"
CONTROL = "# crs: EPSG:25831\nmark,x,y\nA,512340,5712850\n"
ORDER = "number, northing, easting, elevation, description"
LEFT = Qt.MouseButton.LeftButton
SIZE = (358, 520)
"""Pixels: what a dock of 380 leaves to a page."""


class Bar:
    """The host's interface as far as the page goes."""

    def __init__(self):
        self.warnings = []

    def messageBar(self):
        return self

    def pushWarning(self, *words):
        self.warnings.append(words)


@pytest.fixture
def iface():
    return Bar()


@pytest.fixture
def page(qtbot, qgis_app, iface):
    page = NewJobPage(iface)
    qtbot.addWidget(page)
    page.resize(*SIZE)
    page.show()
    qtbot.waitExposed(page)
    return page


@pytest.fixture
def folder(tmp_path):
    folder = tmp_path / "yard"
    folder.mkdir()
    return folder


def write(folder, **files):
    for name, text in files.items():
        stem, _, ending = name.rpartition("_")
        (folder / f"{stem}.{ending}").write_text(text, encoding="utf-8")


def drop(page, *paths):
    """As the window system does it: the drag is offered first."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    at, none = QPoint(50, 200), Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(at, Qt.DropAction.CopyAction, data, LEFT, none)
    enter.ignore()
    QApplication.sendEvent(page, enter)
    if not enter.isAccepted():
        return False
    QApplication.sendEvent(page, QDropEvent(QPointF(at), Qt.DropAction.CopyAction, data, LEFT, none))
    return True


def row_of(page, name):
    texts = [page.found.item(k, FILE).text() for k in range(page.found.rowCount())]
    (row,) = [
        k for k, text in enumerate(texts) if text.partition("\n")[0] == name or text.startswith(name + ":")
    ]
    return row


def click(page, name, qtbot, at=None):
    table, row = page.found, row_of(page, name)
    table.scrollToItem(table.item(row, FILE))
    rect = table.visualItemRect(table.item(row, FILE))
    qtbot.mouseClick(table.viewport(), LEFT, pos=at(rect) if at else rect.center())


def click_tick(page, name, qtbot):
    table, row = page.found, row_of(page, name)
    table.scrollToItem(table.item(row, FILE))
    option = QStyleOptionViewItem()
    option.initFrom(table)
    option.rect = table.visualItemRect(table.item(row, FILE))
    option.features = QStyleOptionViewItem.ViewItemFeature.HasCheckIndicator
    box = table.style().subElementRect(QStyle.SubElement.SE_ItemViewItemCheckIndicator, option, table)
    qtbot.mouseClick(table.viewport(), LEFT, pos=box.center())
    qtbot.wait(10)


def is_ticked(page, name):
    return page.found.item(row_of(page, name), FILE).checkState() == Qt.CheckState.Checked


def wanted(page, qtbot):
    with qtbot.waitSignal(page.wanted, timeout=1000) as asked:
        qtbot.mouseClick(page.run, LEFT)
    return asked.args


# --- the files ---


def test_an_empty_page_says_how_to_begin(page):
    assert page.hint.isVisible()
    assert page.hint.text() == "Choose the folder of the logs, or drop it here, or single files:"
    assert page.found.toPlainText() == "Nothing chosen yet."
    assert not page.run.isEnabled()


def test_a_dropped_folder_shows_its_files_in_rows(page, qtbot, tmp_path):
    demo = tmp_path / "marlisk_yard"
    shutil.copytree(DEMO, demo)
    assert drop(page, demo)
    table = page.found
    row = row_of(page, "walk_1.csv")
    assert table.item(row, SIGN).text() == "✓"
    assert table.item(row, FILE).text() == "walk_1.csv\nwalk log"
    assert table.item(row, FRAME).text() == "m"
    assert table.item(row_of(page, "control.csv"), FRAME).text() == "m\nEPSG:25831"
    assert page.run.isEnabled()
    assert not page.hint.isVisible()
    job, parameters = wanted(page, qtbot)
    assert job == DeskJob(demo, demo / "survey" / "marlisk_yard.gpkg")
    assert parameters == {"LOGS": [str(demo)], "OUTPUT": str(job.survey)}


def test_what_is_missing_has_a_row_and_a_click_on_enter_asks_for_it(
    page, folder, qtbot, tmp_path, monkeypatch
):
    write(folder, w_csv=LOG.format("W"))
    write(tmp_path, pegs_csv=CONTROL)
    drop(page, folder)
    row = row_of(page, "No control")
    assert page.found.item(row, SIGN).text() == "–"
    assert page.found.item(row, FILE).text() == (
        "No control: the survey will not be placed on the map; it is measured all the same."
    )
    asked = []
    monkeypatch.setattr(
        QFileDialog,
        "getOpenFileName",
        lambda *args: asked.append(args[2]) or (str(tmp_path / "pegs.csv"), ""),
    )
    page.found.setFocus()
    page.found.setCurrentCell(row, FILE)
    qtbot.keyClick(page.found, Qt.Key.Key_Return)
    assert asked == [str(folder)]
    assert row_of(page, "pegs.csv") >= 0
    _, parameters = wanted(page, qtbot)
    assert parameters["CONTROL"] == str(tmp_path / "pegs.csv")


def test_single_logs_that_are_dropped_count_alone(page, folder, qtbot):
    write(folder, w_csv=LOG.format("W"), v_csv=LOG.format("V"), u_csv=LOG.format("U"))
    drop(page, folder / "w.csv", folder / "u.csv")
    assert page.folder.filePath() == str(folder)
    assert [is_ticked(page, f"{name}.csv") for name in "uvw"] == [True, False, True]
    assert wanted(page, qtbot)[1]["LOGS"] == [str(folder / "u.csv"), str(folder / "w.csv")]


def test_what_is_not_there_is_no_drop(page, tmp_path):
    assert not drop(page, tmp_path / "nowhere")
    assert page.folder.filePath() == ""


def test_a_tick_is_taken_away_with_the_mouse(page, folder, qtbot):
    write(folder, w_csv=LOG.format("W"), v_csv=LOG.format("V"))
    drop(page, folder)
    click_tick(page, "v.csv", qtbot)
    assert not is_ticked(page, "v.csv")
    assert wanted(page, qtbot)[1]["LOGS"] == [str(folder / "w.csv")]
    click_tick(page, "w.csv", qtbot)
    assert page.problem.text() == "Tick a log."
    assert not page.run.isEnabled()


def test_a_tick_is_taken_away_with_the_space_bar(page, folder, qtbot):
    write(folder, w_csv=LOG.format("W"), v_csv=LOG.format("V"))
    drop(page, folder)
    page.found.setFocus()
    page.found.setCurrentCell(row_of(page, "v.csv"), FILE)
    qtbot.keyClick(page.found, Qt.Key.Key_Space)
    qtbot.wait(10)
    assert not is_ticked(page, "v.csv")


def test_another_folder_gets_another_survey_but_a_chosen_name_stays(page, tmp_path):
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
        write(tmp_path / name, w_csv=LOG.format("W"))
    drop(page, tmp_path / "one")
    assert page.survey.filePath() == str(tmp_path / "one" / "survey" / "one.gpkg")
    drop(page, tmp_path / "two")
    assert page.survey.filePath() == str(tmp_path / "two" / "survey" / "two.gpkg")
    page.survey.setFilePath(str(tmp_path / "mine.gpkg"))
    drop(page, tmp_path / "one")
    assert page.survey.filePath() == str(tmp_path / "mine.gpkg")


def test_without_a_name_for_the_survey_nothing_runs(page, folder):
    write(folder, w_csv=LOG.format("W"))
    drop(page, folder)
    page.survey.setFilePath("")
    assert page.problem.text() == "Name the survey that is to be made."
    assert not page.run.isEnabled()


def test_a_survey_that_cannot_be_written_there_says_so(page, folder, qtbot):
    write(folder, w_csv=LOG.format("W"))
    drop(page, folder)
    page.survey.setFilePath(str(folder / "w.csv" / "s.gpkg"))
    qtbot.mouseClick(page.run, LEFT)
    told = page.problem.text().replace(BREAK, "")
    assert told == f"{folder / 'w.csv'} cannot be made: File exists. Name the survey elsewhere."


# --- units and CRS ---


def test_units_are_offered_as_the_file_has_them_and_changed_for_it_alone(page, folder, qtbot):
    write(folder, v_csv=LOG.replace("m\n", "ft\n", 1).format("V"), w_csv=LOG.format("W"))
    drop(page, folder)
    click(page, "v.csv", qtbot)
    details = page.details
    assert details.units.currentText() == "as in the file: ft"
    details.units.setFocus()
    for _ in range(3):
        qtbot.keyClick(details.units, Qt.Key.Key_Down)
    assert details.units.currentText() == "us-ft: US survey feet"
    assert page.found.item(row_of(page, "v.csv"), FRAME).text() == "us-ft, not ft"
    assert page.found.item(row_of(page, "w.csv"), FRAME).text() == "m"
    assert page.found.current().name == "v.csv"
    assert wanted(page, qtbot)[1]["FILE_UNITS"] == "v.csv: us-ft"
    assert "units: ft" in (folder / "v.csv").read_text(encoding="utf-8")
    qtbot.keyClick(details.units, Qt.Key.Key_Home)
    assert "FILE_UNITS" not in wanted(page, qtbot)[1]


def test_units_that_are_missing_are_pointed_at_and_gone_when_chosen(page, folder, qtbot):
    write(folder, w_csv=LOG.partition("\n")[2].format("W"), v_csv=LOG.format("V"))
    drop(page, folder)
    assert page.found.current().name == "w.csv"
    assert page.found.item(row_of(page, "w.csv"), SIGN).text() == "✕"
    assert page.found.item(row_of(page, "w.csv"), FRAME).text() == "?"
    assert page.details.words.text() == "w.csv: the units are not given. Choose them below."
    page.details.units.setFocus()
    qtbot.keyClick(page.details.units, Qt.Key.Key_Down)
    assert page.found.item(row_of(page, "w.csv"), SIGN).text() == "✓"
    assert page.details.words.text() == "w.csv: walk log."


def test_the_crs_of_one_file_and_that_of_the_survey_are_two_things(page, folder, qtbot):
    write(folder, w_csv=LOG.format("W"), c_csv=CONTROL)
    drop(page, folder)
    click(page, "c.csv", qtbot)
    page.details.crs.setCrs(QgsCoordinateReferenceSystem("EPSG:25832"))
    assert page.found.item(row_of(page, "c.csv"), FRAME).text() == "m\nEPSG:25832, not EPSG:25831"
    page.crs.setCrs(QgsCoordinateReferenceSystem("EPSG:3857"))
    parameters = wanted(page, qtbot)[1]
    assert (parameters["FILE_CRS"], parameters["CRS"]) == ("c.csv: EPSG:25832", "EPSG:3857")
    assert json.loads(json.dumps(parameters)) == parameters


def test_what_has_no_units_has_none_to_choose(page, qtbot):
    drop(page, DEMO)
    click(page, "instruments.csv", qtbot)
    assert not page.details.units.isVisible()
    assert not page.details.crs.isVisible()
    click(page, "tapes.csv", qtbot)
    assert page.details.units.isVisible()
    assert not page.details.crs.isVisible()


# --- the columns of a list ---


@pytest.fixture
def listed(page, folder, qtbot):
    """The page with a list that has no header, opened by a click on it."""
    write(folder, pegs_txt=LIST, w_csv=LOG.format("W"))
    drop(page, folder)
    click(page, "pegs.txt", qtbot)
    assert page.pages.currentWidget() is page.columns
    return page


def test_a_click_on_a_list_without_names_opens_its_columns(listed):
    columns = listed.columns
    assert columns.title.text() == "pegs.txt: which column is which?"
    assert columns.words() == tuple(ORDER.split(", "))
    assert columns.rows.item(1, 1).text() == "5712854.70"
    assert columns.why.text() == (
        "Northings of metric grids have seven digits, eastings six. Hold the sketch against the site."
    )
    assert columns.told.text() == "3 points: 15.3 from west to east, 15.8 from south to north."
    assert columns.accept.isEnabled()
    assert columns.rows.cellWidget(0, 0) is columns.choices[0]


def test_accepting_by_the_mouse_names_the_columns_of_this_list(listed, qtbot):
    qtbot.mouseClick(listed.columns.accept, LEFT)
    assert listed.pages.currentWidget() is listed.form
    assert listed.details.words.text() == "pegs.txt: the units are not given. Choose them below."
    listed.details.units.setFocus()
    qtbot.keyClick(listed.details.units, Qt.Key.Key_Down)
    parameters = wanted(listed, qtbot)[1]
    assert parameters["COLUMNS"] == f"pegs.txt: {ORDER}"
    assert parameters["FILE_UNITS"] == "pegs.txt: m"


def test_exchanging_turns_the_sketch_at_once_and_is_accepted_by_enter(listed, qtbot):
    columns = listed.columns
    before = columns.sketch.sketch.places
    qtbot.mouseClick(columns.exchange, LEFT)
    assert columns.sketch.sketch.places == tuple((north, east) for east, north in before)
    assert columns.words()[1:3] == ("easting", "northing")
    assert not columns.why.isVisible()
    columns.choices[0].setFocus()
    qtbot.keyClick(columns.choices[0], Qt.Key.Key_Return)
    assert listed.pages.currentWidget() is listed.form
    assert "pegs.txt: number, easting, northing" in wanted(listed, qtbot)[1]["COLUMNS"]


def test_a_coordinate_twice_cannot_be_accepted_and_says_so(listed, qtbot):
    columns = listed.columns
    columns.choices[2].setFocus()
    qtbot.keyClick(columns.choices[2], Qt.Key.Key_Up)
    assert columns.words()[1:3] == ("northing", "northing")
    assert columns.told.text() == "Northing is chosen twice."
    assert not columns.accept.isEnabled()
    qtbot.keyClick(columns.choices[2], Qt.Key.Key_Return)
    assert listed.pages.currentWidget() is columns
    qtbot.keyClick(columns.choices[2], Qt.Key.Key_End)
    assert columns.told.text() == "Choose the column of the northing and that of the easting."
    assert not columns.accept.isEnabled()


def test_escape_leaves_the_columns_as_they_were(listed, qtbot):
    qtbot.keyClick(listed.columns.choices[0], Qt.Key.Key_Escape)
    assert listed.pages.currentWidget() is listed.form
    assert "COLUMNS" not in wanted(listed, qtbot)[1]


def test_enter_on_cancel_cancels(listed, qtbot):
    listed.columns.cancel.setFocus()
    qtbot.keyClick(listed.columns.cancel, Qt.Key.Key_Return)
    assert listed.pages.currentWidget() is listed.form
    assert "COLUMNS" not in wanted(listed, qtbot)[1]


def test_the_tab_key_goes_from_column_to_column_to_the_buttons(listed, qtbot):
    columns = listed.columns
    assert columns.choices[0].hasFocus()
    for after in (*columns.choices[1:], columns.exchange, columns.accept, columns.cancel):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        assert QApplication.focusWidget() is after


def test_the_wheel_above_a_column_changes_nothing(listed):
    choice = listed.columns.choices[2]
    before = listed.columns.words()
    event = QEvent(QEvent.Type.Wheel)
    choice.wheelEvent(event)
    assert not event.isAccepted()
    assert listed.columns.words() == before


def test_what_was_chosen_is_shown_when_the_columns_are_opened_again(listed, qtbot):
    qtbot.mouseClick(listed.columns.exchange, LEFT)
    qtbot.mouseClick(listed.columns.accept, LEFT)
    qtbot.mouseClick(listed.details.columns, LEFT)
    assert listed.columns.words()[1:3] == ("easting", "northing")
    assert listed.columns.why.text() == "As you chose before."


def test_a_list_with_names_opens_by_enter_and_not_by_a_click(page, folder, qtbot):
    write(folder, p_csv="# units: m\nno,north,east\n1,2,3\n2,5,9\n")
    drop(page, folder)
    click(page, "p.csv", qtbot)
    assert page.pages.currentWidget() is page.form
    page.found.setFocus()
    qtbot.keyClick(page.found, Qt.Key.Key_Return)
    assert page.pages.currentWidget() is page.columns
    assert not page.columns.rows.horizontalHeader().isHidden()
    assert page.columns.why.text() == "As the names in its first line say."


def test_the_sketch_shows_the_points_north_up_in_the_palette_s_colours(listed, qtbot):
    view = listed.columns.sketch
    first, second, third = view.points()
    # the third peg lies farthest north and west
    assert (third.y, third.x) == (min(p.y for p in view.points()), min(p.x for p in view.points()))
    assert [point.name for point in (first, second, third)] == ["1", "2", "3"]
    picture = QImage(view.size(), QImage.Format.Format_RGB32)
    view.render(picture)
    assert picture.pixelColor(round(first.x), round(first.y)) == palette_colour("vermillion")
    assert picture.pixelColor(round(second.x), round(second.y)) == palette_colour("blue")


def test_a_list_of_many_columns_can_be_moved_sideways(qtbot, qgis_app, tmp_path):
    from plugin.bridge.lists import guess_columns, read_sample

    path = tmp_path / "wide.csv"
    path.write_text(",".join(["no", "north", "east", *"abcdefghijkl"]) + "\n" + ",".join(["1"] * 15) + "\n")
    page = ColumnsPage()
    qtbot.addWidget(page)
    page.resize(*SIZE)
    page.show()
    sample = read_sample(path)
    page.show_list(sample, guess_columns(sample))
    assert page.width() == SIZE[0]
    assert page.rows.horizontalScrollBar().maximum() > 0
    page.choices[-1].setFocus()
    qtbot.wait(10)
    at = page.choices[-1].mapTo(page.rows.viewport(), QPoint(5, 5))
    assert page.rows.viewport().rect().contains(at)


# --- in time ---


def test_many_files_are_looked_at_while_the_window_goes_on(page, folder, qtbot, monkeypatch):
    for k in range(60):
        write(folder, **{f"w{k}_csv": LOG.format(f"W{k}")})
    monkeypatch.setattr(new_job, "AT_ONCE_S", 0.0005)
    beats = []
    timer = QTimer()
    timer.timeout.connect(lambda: beats.append(page.found.toPlainText()))
    timer.start(0)
    drop(page, folder)
    assert page.found.toPlainText() == "Looking at the files..."
    assert not page.run.isEnabled()
    qtbot.waitUntil(page.run.isEnabled, timeout=5000)
    timer.stop()
    assert beats.count("Looking at the files...") > 2
    assert page.found.rowCount() == 60 + 4


def test_another_folder_stops_the_look_at_the_first(page, folder, tmp_path, qtbot, monkeypatch):
    for k in range(30):
        write(folder, **{f"w{k}_csv": LOG.format(f"W{k}")})
    other = tmp_path / "other"
    other.mkdir()
    write(other, v_csv=LOG.format("V"))
    monkeypatch.setattr(new_job, "AT_ONCE_S", 0.0005)
    drop(page, folder)
    drop(page, other)
    qtbot.waitUntil(page.run.isEnabled, timeout=5000)
    assert page.found.rowCount() == 1 + 4
    assert wanted(page, qtbot)[1]["LOGS"] == [str(other)]


def test_files_that_came_meanwhile_are_seen_when_the_user_comes_back(page, folder, qtbot):
    write(folder, w_csv=LOG.format("W"), v_csv=LOG.format("V"))
    drop(page, folder)
    click_tick(page, "v.csv", qtbot)
    write(folder, c_csv=CONTROL)
    QApplication.sendEvent(page, QEvent(QEvent.Type.WindowActivate))
    assert page.found.item(row_of(page, "c.csv"), FILE).text() == "c.csv\ncontrol"
    assert not is_ticked(page, "v.csv")


def test_a_page_that_goes_while_it_looks_leaves_nothing_behind(qtbot, qgis_app, folder, monkeypatch):
    for k in range(30):
        write(folder, **{f"w{k}_csv": LOG.format(f"W{k}")})
    monkeypatch.setattr(new_job, "AT_ONCE_S", 0.0005)
    page = NewJobPage()
    page.folder.setFilePath(str(folder))
    assert not page.run.isEnabled()
    timers = page.findChildren(QTimer)
    assert len(timers) >= 1
    page.deleteLater()
    qtbot.wait(50)  # a timer that outlived its page would raise here


# --- a job that is there already ---


def test_a_job_is_shown_again_as_it_was_last_run(page, folder, qtbot, tmp_path):
    write(folder, w_csv=LOG.format("W"), v_csv=LOG.format("V"), pegs_txt=LIST)
    drop(page, folder)
    click_tick(page, "v.csv", qtbot)
    page.found.setCurrentCell(row_of(page, "w.csv"), FILE)
    page.details.units.setFocus()
    qtbot.keyClick(page.details.units, Qt.Key.Key_End)
    click(page, "pegs.txt", qtbot)
    qtbot.mouseClick(page.columns.accept, LEFT)
    page.crs.setCrs(QgsCoordinateReferenceSystem("EPSG:25831"))
    job, parameters = wanted(page, qtbot)
    kept = json.loads(json.dumps(parameters))
    other = NewJobPage()
    qtbot.addWidget(other)
    other.show_job(job, None, kept)
    assert not is_ticked(other, "v.csv")
    assert other.found.item(row_of(other, "w.csv"), FRAME).text() == "mm, not m"
    assert other.crs.crs().authid() == "EPSG:25831"
    assert wanted(other, qtbot) == [job, parameters]


def test_what_no_longer_fits_is_told(page, folder, iface):
    write(folder, w_csv=LOG.format("W"))
    page.show_job(
        DeskJob(folder, folder / "s.gpkg"), None, {"LOGS": [str(folder)], "FILE_UNITS": "gone.csv: ft"}
    )
    assert len(iface.warnings) == 1
    assert iface.warnings[0][1].startswith(
        '"gone.csv: ft" does not begin with a file of the job and a colon.'
    )
    assert page.run.isEnabled()


def test_the_page_is_no_wider_than_its_dock(page, folder, qtbot):
    shutil.copytree(DEMO, folder, dirs_exist_ok=True)
    write(folder, a_list_of_points_with_a_rather_long_name_indeed_txt=LIST)
    drop(page, folder)
    qtbot.wait(20)
    assert (page.width(), page.height()) == SIZE
    assert page.minimumSizeHint().width() <= SIZE[0]
    assert page.found.columnWidth(FILE) > 120
    assert not page.found.horizontalScrollBar().isVisible()


# --- the run ---


@pytest.fixture
def survey_walks(provider):
    """The algorithm by its id, as the window starts it."""
    return QgsApplication.processingRegistry().createAlgorithmById("groundtally:survey_walks")


def run(algorithm, parameters, table):
    """The rows of a table of the survey that a run makes."""
    results, was_good = algorithm.run(
        parameters, QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False
    )
    assert was_good
    layer = QgsVectorLayer(f"{results['OUTPUT']}|layername={table}", table, "ogr")
    assert layer.isValid()
    return list(layer.getFeatures())


def test_the_run_takes_what_was_said_of_a_list_and_the_survey_gives_it_back(
    page, folder, qtbot, survey_walks
):
    write(folder, pegs_txt=LIST)
    drop(page, folder)
    click(page, "pegs.txt", qtbot)
    qtbot.mouseClick(page.columns.accept, LEFT)
    page.details.crs.setCrs(QgsCoordinateReferenceSystem("EPSG:25831"))
    job, parameters = wanted(page, qtbot)
    places = {row["station"]: row.geometry().constGet() for row in run(survey_walks, parameters, "stations")}
    assert (places["3"].x(), places["3"].y()) == pytest.approx((512340.10, 5712870.50), abs=1e-3)
    assert kept_parameters(job.survey) == {key: parameters[key] for key in ("COLUMNS", "FILE_CRS")}
    again = NewJobPage()
    qtbot.addWidget(again)
    again.show_job(job)
    qtbot.waitUntil(again.run.isEnabled, timeout=5000)
    assert wanted(again, qtbot) == [job, parameters]


def test_the_run_takes_what_was_said_of_a_log_s_units(page, folder, qtbot, survey_walks):
    write(folder, w_csv=LOG.format("W"))
    drop(page, folder)
    page.details.units.setFocus()
    for _ in range(3):
        qtbot.keyClick(page.details.units, Qt.Key.Key_Down)
    job, parameters = wanted(page, qtbot)
    (walk,) = run(survey_walks, parameters, "walks")
    assert walk["length_m"] == pytest.approx(5 * 1200 / 3937, abs=1e-9)
    assert kept_parameters(job.survey) == {"FILE_UNITS": "w.csv: us-ft"}
