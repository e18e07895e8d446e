# SPDX-License-Identifier: GPL-2.0-or-later
"""The checks of a survey as a table: a letter and its colour, what was checked, and the figure beside what is allowed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import QAbstractTableModel, QModelIndex, Qt

from ..bridge.checks_file import OPEN, Verdict
from ..bridge.palette import palette_colour
from ..bridge.text import tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..bridge.checks_file import ToldCheck

SIGN, WHAT, FIGURE = range(3)
LETTERS = {
    Verdict.FAILS: "F",
    Verdict.CANNOT_TELL: "?",
    Verdict.NOT_MEASURED: "–",
    Verdict.PASSES: "P",
    Verdict.NO_LIMIT: "",
}
"""A letter for each verdict, so that nothing hangs on a colour."""
COLOURS = {Verdict.FAILS: "vermillion", Verdict.CANNOT_TELL: "yellow", Verdict.PASSES: "bluish_green"}
LINES = 3
"""Of each row: the feature, what of it, the limit; and beside them the figure, its 95 %, what is allowed."""


class ChecksModel(QAbstractTableModel):
    """One row a check, in the order that they are given in."""

    def __init__(self) -> None:
        super().__init__()
        self._all: tuple[ToldCheck, ...] = ()
        self._rows: tuple[ToldCheck, ...] = ()
        self._is_open_only = False

    def show(self, checks: Sequence[ToldCheck]) -> None:
        """Put other checks in."""
        self.beginResetModel()
        self._all = tuple(checks)
        self._choose()
        self.endResetModel()

    def show_open_only(self, *, is_on: bool) -> None:
        """Leave out what needs nothing."""
        self.beginResetModel()
        self._is_open_only = is_on
        self._choose()
        self.endResetModel()

    def _choose(self) -> None:
        self._rows = (
            tuple(check for check in self._all if check.verdict in OPEN) if self._is_open_only else self._all
        )

    def check(self, row: int) -> ToldCheck | None:
        """The check of a row."""
        return self._rows[row] if 0 <= row < len(self._rows) else None

    def rowCount(self, parent: QModelIndex | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def columnCount(self, parent: QModelIndex | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else 3

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return ("", tr("What"), tr("Measured"))[section]
        if role == Qt.ItemDataRole.ToolTipRole:
            return (
                tr("F fails, ? cannot tell, – could not be measured, P passes"),
                tr("The feature, which figure of it, and the limit that it is held against"),
                tr("The figure, its 95 % interval, and what is allowed"),
            )[section]
        return None

    def data(self, index: QModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        check = self.check(index.row())
        if check is None:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return _text(check, index.column())
        if role == Qt.ItemDataRole.DecorationRole and index.column() == SIGN and check.verdict in COLOURS:
            return palette_colour(COLOURS[check.verdict])
        if role == Qt.ItemDataRole.ToolTipRole:
            return f"{verdict_words(check.verdict)}: {check.sentence}\n{check.details}"
        return None


def _text(check: ToldCheck, column: int) -> str:
    if column == SIGN:
        return LETTERS[check.verdict]
    if column == WHAT:
        return "\n".join((check.feature, check.what, check.limit))
    if check.limit:
        return "\n".join((*check.figure, check.allowed))
    return verdict_words(check.verdict)


def verdict_words(verdict: Verdict) -> str:
    """A verdict in the user's language."""
    return {
        Verdict.FAILS: tr("fails"),
        Verdict.CANNOT_TELL: tr("cannot tell"),
        Verdict.NOT_MEASURED: tr("not measured"),
        Verdict.PASSES: tr("passes"),
        Verdict.NO_LIMIT: tr("no limit is of it"),
    }[verdict]
