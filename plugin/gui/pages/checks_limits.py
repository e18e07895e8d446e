# SPDX-License-Identifier: GPL-2.0-or-later
"""What a job is held against: a table of limits, those of it that hold here, and a surface."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import QgsProject
from qgis.gui import QgsFileWidget
from qgis.PyQt.QtCore import Qt, QTimer, pyqtSignal
from qgis.PyQt.QtWidgets import (
    QComboBox,
    QFormLayout,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from ...bridge.checks_run import CheckChoice, offered_limits
from ...bridge.ground_list import surface_layers
from ...bridge.limits import load_limits
from ...bridge.text import explain, explain_finding, explain_remedy, tr
from ...core.errors import GroundTallyError
from .plan_inputs import narrow
from .words import WordsLabel

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from ...bridge.checks_run import OfferedLimit
    from ...core.findings import Finding
    from ...core.trade.limits import Limit

LIMIT, OF = range(2)
LARGEST = 500_000
"""Bytes of a table of limits: some 7,000 rows, which are read and listed in 0.2 s, so that the window does not wait."""
NAME_LETTERS = 34
"""Of a limit's name, its tick and its place in the list: as wide as the column is at first."""
ON, OFF = Qt.CheckState.Checked, Qt.CheckState.Unchecked


class LimitsTab(QWidget):
    """Signals: `changed` when the user has chosen something else."""

    changed = pyqtSignal()

    def __init__(self) -> None:
        super().__init__()
        self._choice = CheckChoice()
        self._is_filling = False
        self._read: object = None
        self.names: tuple[str, ...] = ()
        self.trouble = ""
        self.file, self.words, self.tree = QgsFileWidget(), WordsLabel(), QTreeWidget()
        self.file.setFilter(tr("Tables") + " (*.csv)")
        self.file.setDialogTitle(tr("Table of limits"))
        self.file.lineEdit().setPlaceholderText(tr("the examples"))
        self.surface = QComboBox()
        narrow(self.surface)
        self._lay_out()
        self.file.fileChanged.connect(self._take_file)
        # A source that is ticked changes all of its limits, which are taken together.
        self._ticked = QTimer(self)
        self._ticked.setSingleShot(True)
        self._ticked.timeout.connect(self._take_ticks)
        self.tree.itemChanged.connect(self._wait_for_ticks)
        self.surface.currentIndexChanged.connect(self._take_surface)
        self._project = QgsProject.instance()
        self._project.layersAdded.connect(self._show_surfaces)
        self._project.layersRemoved.connect(self._show_surfaces)
        self._show_surfaces()

    def _lay_out(self) -> None:
        tree = self.tree
        tree.setHeaderLabels([tr("Limits that hold here"), tr("What of")])
        tree.setAccessibleName(tr("Limits that hold here"))
        tree.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        tree.setIndentation(tree.indentation() * 3 // 4)
        tree.header().setStretchLastSection(True)
        tree.header().resizeSection(LIMIT, NAME_LETTERS * self.fontMetrics().averageCharWidth())
        tree.setMinimumHeight(6 * self.fontMetrics().lineSpacing())
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.addRow(tr("&Table"), self.file)
        under = QFormLayout()
        under.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        under.addRow(tr("S&urface under paths"), self.surface)
        self.surface.setToolTip(
            tr(
                "Ramps and paths that were walked as one line take their crossfall from it. Areas are held to the fall of "
                "their own heights."
            )
        )
        rows = QVBoxLayout(self)
        rows.addLayout(form)
        rows.addWidget(self.words)
        rows.addWidget(tree, 1)
        rows.addLayout(under)

    @property
    def choice(self) -> CheckChoice:
        """What is chosen."""
        return self._choice

    @property
    def why_not(self) -> str:
        """Why nothing can be checked against it; "" where it can."""
        if self.trouble:
            return self.trouble
        return "" if set(self.names) - self._choice.left_out else tr("Tick a limit that holds here.")

    def settle(self) -> None:
        """Take what was ticked a moment ago."""
        if self._ticked.isActive():
            self._ticked.stop()
            self._take_ticks()

    def show_choice(self, choice: CheckChoice) -> None:
        """What was chosen for a job."""
        self._ticked.stop()
        self._is_filling = True
        self._choice = choice
        self.file.setFilePath(choice.table)
        self._is_filling = False
        self._show_surfaces()
        self.read_again()

    def read_again(self) -> None:
        """Read the table where it is another one, or was changed by another program; then show what is ticked."""
        self.settle()
        stamp = _stamp(self._choice.path)
        if stamp != self._read:
            self._read = stamp
            self._read_table()
        self._show_ticks()

    def _read_table(self) -> None:
        path = self._choice.path
        self.names, self.trouble = (), ""
        limits: Sequence[Limit] = ()
        try:
            if path is not None and _size(path) > LARGEST:
                words = tr("{name} is far too large for a table of limits. Choose another.")
                self.trouble = words.format(name=path.name)
            else:
                limits, findings = load_limits(path)
                self.words.show_words(_table_words(path, limits, findings))
        except GroundTallyError as error:
            self.trouble = explain(error)
        self.words.setVisible(not self.trouble)
        self.names = tuple(dict.fromkeys(limit.name for limit in limits))
        self._fill_tree(offered_limits(limits))

    def _fill_tree(self, groups: Mapping[str, Sequence[OfferedLimit]]) -> None:
        self._is_filling = True
        self.tree.clear()
        for source, limits in groups.items():
            group = QTreeWidgetItem(self.tree, [source])
            group.setToolTip(LIMIT, source)
            group.setFirstColumnSpanned(True)
            group.setFlags(group.flags() | Qt.ItemFlag.ItemIsAutoTristate | Qt.ItemFlag.ItemIsUserCheckable)
            for limit in limits:
                item = QTreeWidgetItem(group, [limit.name, limit.what])
                item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
                item.setCheckState(LIMIT, ON)
                for column in (LIMIT, OF):
                    item.setToolTip(column, limit.words)
        self.tree.expandAll()
        self._is_filling = False

    def _items(self) -> list[QTreeWidgetItem]:
        groups = [self.tree.topLevelItem(k) for k in range(self.tree.topLevelItemCount())]
        return [group.child(k) for group in groups for k in range(group.childCount())]

    def _show_ticks(self) -> None:
        self._is_filling = True
        for item in self._items():
            item.setCheckState(LIMIT, OFF if item.text(LIMIT) in self._choice.left_out else ON)
        self._is_filling = False

    def _wait_for_ticks(self, *_: object) -> None:
        if not self._is_filling:
            self._ticked.start()

    def _take_ticks(self) -> None:
        unticked = {item.text(LIMIT) for item in self._items() if item.checkState(LIMIT) == OFF}
        # What another table has stays as it was said of that one.
        self._take(replace(self._choice, left_out=(self._choice.left_out - set(self.names)) | unticked))

    def _take_file(self, path: str) -> None:
        if not self._is_filling:
            self._choice = replace(self._choice, table=path.strip())
            self.read_again()
            self.changed.emit()

    def _take_surface(self, _: int) -> None:
        if not self._is_filling:
            self._take(replace(self._choice, surface=self.surface.currentData() or ""))

    def _take(self, choice: CheckChoice) -> None:
        if choice != self._choice:
            self._choice = choice
            self.changed.emit()

    def _show_surfaces(self, *_: object) -> None:
        """The layers of the project that may hold a surface; the one that is chosen stays so where it is there."""
        self._is_filling = True
        self.surface.clear()
        self.surface.addItem(tr("none"), "")
        for layer in surface_layers(self._project):
            self.surface.addItem(layer.name(), layer.id())
        self.surface.setCurrentIndex(max(0, self.surface.findData(self._choice.surface)))
        self._is_filling = False

    @property
    def told(self) -> CheckChoice:
        """What is chosen, as a run takes it: without a surface that is no longer in the project."""
        return replace(self._choice, surface=self.surface.currentData() or "")

    def close_down(self) -> None:
        """Let go of the project."""
        self._ticked.stop()
        self._project.layersAdded.disconnect(self._show_surfaces)
        self._project.layersRemoved.disconnect(self._show_surfaces)


def _stamp(path: Path | None) -> object:
    """What is another where the table is."""
    try:
        told = None if path is None else path.stat()
    except OSError:
        return path, "not there"
    return path, None if told is None else (told.st_mtime_ns, told.st_size)


def _size(path: Path) -> int:
    try:
        return path.stat().st_size
    except OSError:
        return 0  # whoever reads it says why


def _table_words(path: Path | None, limits: Sequence[Limit], findings: Sequence[Finding]) -> str:
    if path is None:
        return tr(
            "These are examples, some from memory. Local codes and a licensed practitioner's judgement rule: tick what "
            "holds where you build, or choose a table of your own."
        )
    count = len({limit.name for limit in limits})
    words = [tr("Limits in {name}: {n}.").format(n=count, name=path.name)]
    if findings:
        words += [explain_finding(findings[0]), explain_remedy(findings[0])]
    if len(findings) > 1:
        words.append(tr("{count} more like this.").format(count=len(findings) - 1))
    return " ".join(words)
