# SPDX-License-Identifier: GPL-2.0-or-later
"""The figures of a survey: what they draw, enlarged, saved, in the window's colours, and gone with their page."""

from __future__ import annotations

import math
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from matplotlib.colors import to_hex
from matplotlib.patches import Ellipse, PathPatch
from matplotlib.quiver import Quiver
from qgis.core import QgsProject
from qgis.gui import QgsMapCanvas
from qgis.PyQt.QtCore import QSize, Qt
from qgis.PyQt.QtGui import QColor, QImageReader, QPalette
from qgis.PyQt.QtWidgets import QDialog, QFileDialog

from plugin.bridge.diagnostics import read_residual_plan
from plugin.bridge.geopackage import write_survey
from plugin.bridge.jobs import DeskJob, survey_crs
from plugin.core.measure.chain import survey_files
from plugin.core.measure.rows import ResidualKind, ResidualRow, WalkRow
from plugin.gui.pages.plots import PlotsPage
from tests.made_survey import made_survey

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
ROWS = (
    ResidualRow(ResidualKind.STAND, "A", walk="W1", station="1", x=0.03, y=-0.04, size=0.05, standard=1.5, ask=3.0, stop=4.0),
    ResidualRow(ResidualKind.STAND, "B", walk="W1", station="9", x=0.2, y=0.0, size=0.2, standard=4.5, ask=3.0, stop=4.0),
    ResidualRow(ResidualKind.TAPE, "A", "B", size=0.17, is_used=False),
    ResidualRow(ResidualKind.MAP_POINT, "A", x=0.01, y=0.0, size=0.01, standard=0.5, ask=3.0, stop=4.0),
    ResidualRow(ResidualKind.CHECK_POINT, "C", is_used=False, x=-0.02, y=0.0, size=0.02, standard=3.5, ask=3.0, stop=4.0),
)  # fmt: skip
WALKS = (
    WalkRow("W1", "w1.csv", "", 9, 90.0, 60.0, 0.031, 0.05, -0.008, 0.01),
    WalkRow("W2", "w2.csv", "", 9, 90.0, 60.0, 0.16, 0.05, 0.04, 0.01),
    WalkRow("W3", "w3.csv", "", 9, 90.0, 60.0, None, None, None, None),
)


class Window:
    """As much of the host as the page asks for."""

    def __init__(self, qtbot):
        self.canvas = QgsMapCanvas()
        qtbot.addWidget(self.canvas)

    def mapCanvas(self):
        return self.canvas


@pytest.fixture
def page(qtbot, qgis_app):
    QgsProject.instance().clear()
    page = PlotsPage(Window(qtbot))
    qtbot.addWidget(page)
    page.resize(380, 560)
    page.show()
    qtbot.waitExposed(page)
    yield page
    page.close_down()


@pytest.fixture
def job(tmp_path, qgis_app):
    survey = replace(made_survey(), residuals=ROWS, walks=WALKS)
    return DeskJob(tmp_path, write_survey(survey, tmp_path / "s.gpkg"))


@pytest.fixture(scope="module")
def demo(tmp_path_factory, qgis_app):
    survey = survey_files({path.name: path.read_bytes() for path in sorted(DEMO.glob("*.csv"))})
    folder = tmp_path_factory.mktemp("demo")
    return DeskJob(folder, write_survey(survey, folder / "yard.gpkg"))


def show(page, job, number, qtbot):
    """Choose a figure by the keyboard, and wait until it has been drawn at its size."""
    page.show_job(job, survey_crs(job))
    page.choice.setFocus()
    qtbot.keyClick(page.choice, Qt.Key.Key_Home)
    for _ in range(number):
        qtbot.keyClick(page.choice, Qt.Key.Key_Down)
    assert page.choice.currentIndex() == number
    qtbot.wait(150)
    return page.pages.currentWidget()


def visible_labels(figure):
    """Boxes of all labels and texts that are to be seen, by their text."""
    renderer = figure.canvas.get_renderer()
    return [
        (text.get_text(), text.get_window_extent(renderer))
        for axes in figure.axes
        for text in axes.texts
        if text.get_visible() and text.get_text()
    ]


def overlaps(figure):
    boxes = visible_labels(figure)
    return [
        (one, other)
        for k, (one, a) in enumerate(boxes)
        for other, b in boxes[k + 1 :]
        if a.shrunk(0.9, 0.8).overlaps(b.shrunk(0.9, 0.8))
    ]


def test_residuals_are_arrows_from_their_marks_and_ellipses_about_them(page, job, qtbot):
    box = show(page, job, 1, qtbot)
    (axes,) = box.figure.axes
    plan = read_residual_plan(job.survey)
    drawn = [
        (x, y, u, v)
        for quiver in axes.collections
        if isinstance(quiver, Quiver)
        for (x, y), u, v in zip(quiver.XY.tolist(), quiver.U.tolist(), quiver.V.tolist())
    ]
    # 20 times: the marks reach 40 m, the longest residual is 0.2 m.
    wanted = [(-1, -4, 0.2, 0), (-1, -4, 0.6, -0.8), (23, -4, 4, 0), (39, 14, -0.4, 0)]
    assert np.array(sorted(drawn)) == pytest.approx(np.array(wanted), abs=1e-12)
    ellipses = [patch for patch in axes.patches if isinstance(patch, Ellipse)]
    assert [(e.center, e.width, e.height) for e in ellipses] == [
        (
            (m.x, m.y),
            pytest.approx(40 * 2.447747 * 0.02, abs=1e-4),
            pytest.approx(40 * 2.447747 * 0.02, abs=1e-4),
        )
        for m in plan.marks
    ]
    assert axes.get_title() == "Residuals and 95 % ellipses, drawn 20 times their size"
    names = {text for text, _ in visible_labels(box.figure)}
    assert names >= {"A", "B", "C", "N"}
    told = [text.get_text() for text in axes.get_legend().get_texts()]
    assert told == [
        "where a walk alone puts the mark",
        "map point that was fitted",
        "check point",
        "the mark lies within (95 %)",
    ]


def test_the_scale_bar_is_as_long_as_it_says(page, job, qtbot):
    box = show(page, job, 1, qtbot)
    (axes,) = box.figure.axes
    (bar,) = [artist for artist in axes.artists if hasattr(artist, "size_bar")]
    (line,) = bar.size_bar.get_children()
    assert bar.txt_label.get_text() == "10 m"
    assert line.get_width() == 10.0
    assert axes.get_aspect() == 1.0


def test_bars_stand_beside_their_limits_and_the_odd_one_is_hatched(page, job, qtbot):
    box = show(page, job, 2, qtbot)
    (axes,) = box.figure.axes
    labels = [text.get_text() for text in axes.get_yticklabels()]
    assert labels == ["tape A to B", "B in W1:9, plan", "check point C", "A in W1:1, plan", "map point A"]
    bars = {
        labels[round(b.get_y() + b.get_height() / 2)]: (b.get_width(), b.get_hatch()) for b in axes.patches
    }
    assert bars == {
        "B in W1:9, plan": (4.5, "xxx"),
        "check point C": (3.5, "///"),
        "A in W1:1, plan": (1.5, ""),
        "map point A": (0.5, ""),
    }
    asks, stops = (line.get_xydata().tolist() for line in axes.lines)
    assert asks == [[3.0, k] for k in (1, 2, 3, 4)]
    assert stops == [[4.0, k] for k in (1, 2, 3, 4)]
    assert "let go; off by 0.17 m" in {text for text, _ in visible_labels(box.figure)}


def test_misclosures_stand_beside_95_percent_and_the_blunder_limit(page, job, qtbot):
    box = show(page, job, 3, qtbot)
    plan, height = box.figure.axes
    assert [(bar.get_width(), bar.get_hatch()) for bar in plan.patches] == [(0.031, ""), (0.16, "xxx")]
    expected, limit = (line.get_xdata().tolist() for line in plan.lines)
    assert expected == pytest.approx([1.731 * 0.05] * 2)
    assert limit == pytest.approx([0.15] * 2)
    assert [bar.get_width() for bar in height.patches] == [0.008, 0.04]
    assert [line.get_xdata()[0] for line in height.lines] == pytest.approx([0.0196, 0.03], abs=1e-5)
    assert [text.get_text() for text in plan.get_yticklabels()] == ["W1", "W2"]
    assert height.get_xlabel() == "come back to no mark: W3"


def test_the_plan_tells_kinds_by_hatch_and_outline(page, job, qtbot):
    box = show(page, job, 0, qtbot)
    axes, key = box.figure.axes
    areas = {
        p.get_label(): (p.get_hatch(), p.get_linestyle()) for p in axes.patches if isinstance(p, PathPatch)
    }
    assert {name: hatch for name, (hatch, _) in areas.items()} == {
        "Court": "//",
        "Bed 1": "..",
        "Bed 1 hole": "",
        "Old slab": "xx",
        "Bed 3": "--",
    }
    assert {name: style for name, (_, style) in areas.items()} == {
        "Court": "-",
        "Bed 1": "-",
        "Bed 1 hole": ":",
        "Old slab": "--",
        "Bed 3": "--",
    }
    assert key.texts[0].get_text() == "A   paving: Court, Bed 1, Old slab\nB   Bed 3\nC   kerb: Kerb"
    (kerb,) = [line for line in axes.lines if line.get_label() == "Kerb"]
    length = sum(math.dist(a, b) for a, b in zip(kerb.get_xydata().tolist(), kerb.get_xydata().tolist()[1:]))
    assert length == pytest.approx(30 + 3 * math.pi + 2.5, abs=0.02)


@pytest.mark.parametrize("number", range(4))
def test_no_two_labels_of_the_demo_lie_on_each_other(page, demo, qtbot, number):
    box = show(page, demo, number, qtbot)
    assert len(visible_labels(box.figure)) > 3
    assert overlaps(box.figure) == []


def test_marks_are_always_named_and_spots_where_there_is_room(page, demo, qtbot):
    box = show(page, demo, 0, qtbot)
    names = [text for text, _ in visible_labels(box.figure)]
    assert {"A", "B", "C", "D", "P", "Q", "BM1"} <= set(names)
    small = sum("." in name for name in names if len(name) < 7)
    qtbot.mouseClick(box.enlarge, Qt.MouseButton.LeftButton)
    qtbot.wait(300)
    large = [text for text, _ in visible_labels(box.large_box.figure)]
    assert sum("." in name for name in large if len(name) < 7) > small > 10
    assert overlaps(box.large_box.figure) == []


def test_a_figure_is_enlarged_in_a_window_of_its_own_and_closed_with_it(page, job, qtbot):
    box = show(page, job, 1, qtbot)
    qtbot.mouseClick(box.enlarge, Qt.MouseButton.LeftButton)
    large = box.large
    assert large.isWindow()
    assert (large.windowTitle(), large.size()) == ("Residuals at the marks", QSize(1000, 700))
    assert not box.large_box.enlarge.isVisible()
    qtbot.keyClick(large, Qt.Key.Key_Escape)
    assert (box.large, box.large_box) == (None, None)
    qtbot.wait(20)
    assert page.findChildren(QDialog) == []


@pytest.mark.parametrize("kind", ["PNG", "SVG", "PDF"])
def test_a_figure_is_saved_as_a_picture(page, job, qtbot, monkeypatch, tmp_path, kind):
    head, ending = {"PNG": b"\x89PNG", "SVG": b"<?xml", "PDF": b"%PDF"}[kind], kind.lower()
    box = show(page, job, 0, qtbot)
    # The host's own dialog runs a loop of its own: what it gives is given here.
    path = tmp_path / "plan"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), f"{kind} (*.{ending})"))
    qtbot.mouseClick(box.save, Qt.MouseButton.LeftButton)
    written = path.with_name(f"plan.{ending}")
    assert written.read_bytes().startswith(head)
    if ending == "png":
        assert QImageReader(str(written)).size() == QSize(1500, 1120)


def test_a_picture_that_cannot_be_written_says_so(page, job, qtbot, monkeypatch, tmp_path):
    box = show(page, job, 0, qtbot)
    path = tmp_path / "nowhere" / "plan.png"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), "PNG (*.png)"))
    qtbot.mouseClick(box.save, Qt.MouseButton.LeftButton)
    assert box.words.isVisible()
    assert box.words.text().startswith(f"{path} cannot be written: ")


def test_a_dark_window_has_light_ink_and_a_saved_picture_has_not(page, job, qtbot, tmp_path):
    box = show(page, job, 2, qtbot)
    palette = QPalette(page.palette())
    palette.setColor(QPalette.ColorRole.Base, QColor("#101010"))
    palette.setColor(QPalette.ColorRole.Text, QColor("#eeeeee"))
    page.setPalette(palette)
    qtbot.wait(200)
    (axes,) = box.figure.axes
    assert to_hex(box.figure.get_facecolor()) == "#101010"
    assert to_hex(axes.lines[0].get_color()) == "#eeeeee"
    assert to_hex(axes.xaxis.label.get_color()) == "#eeeeee"
    box.save_picture(tmp_path / "p.png")
    image = QImageReader(str(tmp_path / "p.png")).read()
    assert image.pixelColor(2, 2).name() == "#ffffff"


def test_a_long_key_is_cut_to_the_figure_and_says_how_much_is_left_out(page, tmp_path, qtbot):
    made = made_survey()
    kerb = made.lengths[0]
    names = [f"A length with quite a long name, number {i}" for i in range(40)]
    many = tuple(
        replace(kerb, tags=replace(kerb.tags, feature=name, item=f"ITEM-{i // 2}"))
        for i, name in enumerate(names)
    )
    path = write_survey(replace(made, lengths=many), tmp_path / "s.gpkg")
    box = show(page, DeskJob(tmp_path, path), 0, qtbot)
    text = box.figure.axes[1].texts[0]
    lines = text.get_text().split("\n")
    assert lines[-1] == f"and {22 - len(lines) + 1} more: enlarge"
    assert lines[2].startswith("C   ITEM-0: A length with quite a long name")
    assert lines[2].endswith(" ...")
    assert text.get_window_extent(box.figure.canvas.get_renderer()).x1 <= box.figure.bbox.x1


def test_a_job_without_a_survey_and_a_survey_of_an_older_version_say_so(page, tmp_path, qtbot):
    box = show(page, DeskJob(tmp_path, tmp_path / "none.gpkg"), 1, qtbot)
    assert box.words.text() == "Nothing surveyed yet: run the job."
    assert not box.save.isEnabled()
    (tmp_path / "x.gpkg").write_bytes(b"no database at all")
    box = show(page, DeskJob(tmp_path, tmp_path / "x.gpkg"), 1, qtbot)
    assert "Run the job again." in box.words.text()
    assert not box.enlarge.isEnabled()


def test_another_job_is_drawn_in_place_of_the_first(page, job, demo, qtbot):
    show(page, job, 3, qtbot)
    box = show(page, demo, 3, qtbot)
    assert [text.get_text() for text in box.figure.axes[0].get_yticklabels()] == ["W1", "W2", "W4"]


def test_the_page_fits_a_narrow_dock(page, demo, qtbot):
    for number in range(5):
        show(page, demo, number, qtbot)
        assert page.minimumSizeHint().width() <= 380
        assert page.minimumSizeHint().height() <= 560


def test_the_library_that_draws_is_not_loaded_with_the_window():
    """A start of the host must not wait for it: another Python, that has drawn nothing."""
    code = "import sys, plugin.gui.pages.plots; print('matplotlib' in sys.modules)"
    told = subprocess.run(
        [sys.executable, "-c", code], cwd=DEMO.parents[2], capture_output=True, text=True, check=True
    )
    assert told.stdout.strip() == "False"
