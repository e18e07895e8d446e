# SPDX-License-Identifier: GPL-2.0-or-later
"""The findings of a survey as a table: what stops first, then what asks, then what is to know."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import QAbstractTableModel, QModelIndex, Qt

from ..bridge.text import tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..bridge.findings import ToldFinding

MESSAGE, ANSWER = range(2)


class FindingsModel(QAbstractTableModel):
    """One row a finding; open ones of a kind before answered ones."""

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[ToldFinding, ...] = ()

    def show(self, findings: Sequence[ToldFinding]) -> None:
        """Put other findings in."""
        self.beginResetModel()
        self._rows = tuple(sorted(findings, key=lambda f: (f.is_answered, f.rank)))
        self.endResetModel()

    def finding(self, row: int) -> ToldFinding | None:
        """The finding of a row."""
        return self._rows[row] if 0 <= row < len(self._rows) else None

    def rowCount(self, parent: QModelIndex | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def columnCount(self, parent: QModelIndex | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else 2

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        if role != Qt.ItemDataRole.DisplayRole or orientation != Qt.Orientation.Horizontal:
            return None
        return (tr("What was noticed"), tr("Answer"))[section]

    def data(self, index: QModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        finding = self.finding(index.row())
        if finding is None:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            head = f"{finding.code}, {tr(finding.severity)}: {finding.where}"
            return (f"{head}\n{finding.message}", finding.answer)[index.column()]
        if role == Qt.ItemDataRole.ToolTipRole:
            return f"{finding.message}\n\n{finding.remedy}"
        return None
