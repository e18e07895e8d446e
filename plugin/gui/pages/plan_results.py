# SPDX-License-Identifier: GPL-2.0-or-later
"""The forecast as it is read: sizes and corners with their 95 %, the worst first, and what would help most."""

from __future__ import annotations

from qgis.PyQt.QtCore import Qt, pyqtSignal
from qgis.PyQt.QtGui import QResizeEvent
from qgis.PyQt.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from ...bridge.ellipses import DrawnEllipses
from ...bridge.expected import Forecast, Suggestion
from ...bridge.text import tr
from ...core.measure.planned.records import Act

KEPT = Qt.ItemDataRole.UserRole


def caption(forecast: Forecast, drawn: DrawnEllipses) -> str:
    """What these figures are, and what they rest on."""
    from_where = {
        "instruments": tr("Instrument: from the file."),
        "accuracy": tr("Instrument: from the accuracy stated."),
        "assumed": tr("Instrument ASSUMED: nobody said what it is worth, so these figures are a guess."),
    }[forecast.sigma_from]
    parts = [tr("Expected, before the walk; 95 % figures."), from_where]
    if not forecast.is_placed:
        parts.append(tr("Fewer than two marks are paired: the corners hold among the marks, not on the map."))
    larger = tr("Ellipses are drawn {times} times their size.")
    parts.append(larger.format(times=drawn.times) if drawn.times > 1 else tr("Ellipses are at their size."))
    if drawn.left_out:
        parts.append(tr("Of the smallest {n} none is drawn.").format(n=drawn.left_out))
    return " ".join(parts)


class ExpectedView(QWidget):
    """Signals: `looked_at` with places to be shown on the map, `mark_wanted` with a suggestion to be followed."""

    looked_at = pyqtSignal(list)
    mark_wanted = pyqtSignal(object)

    def __init__(self) -> None:
        super().__init__()
        self._forecast: Forecast | None = None
        self.words = QLabel(tr("No forecast yet: draw or choose a plan, then press Forecast."))
        self.words.setWordWrap(True)
        self.table = QTableWidget(0, 2)
        self.help = SentenceList()
        self.follow = QPushButton(tr("Set this mark"))
        self.follow.setToolTip(
            tr("Put a mark there, or pair the one that is there. Then forecast again; Undo takes it back.")
        )
        self._lay_out()
        self.table.currentCellChanged.connect(lambda row, *_: self._look_at_row(row))
        self.table.cellClicked.connect(lambda row, _: self._look_at_row(row))
        self.help.currentRowChanged.connect(self._look_at_help)
        self.help.itemClicked.connect(lambda item: self._look_at_help(self.help.row(item)))
        self.help.itemActivated.connect(lambda _: self._follow())
        self.follow.clicked.connect(self._follow)

    def _lay_out(self) -> None:
        self.table.verticalHeader().hide()
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.setAlternatingRowColors(True)
        self.table.setTabKeyNavigation(False)
        header = self.table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self._show_headers(is_assumed=False)
        self.follow.setEnabled(False)
        under = QHBoxLayout()
        under.addWidget(QLabel(tr("What would help most:")), 1)
        under.addWidget(self.follow)
        rows = QVBoxLayout(self)
        rows.addWidget(self.words)
        rows.addWidget(self.table, 3)
        rows.addLayout(under)
        rows.addWidget(self.help, 2)

    def _show_headers(self, *, is_assumed: bool) -> None:
        figures = tr("Expected ±95 %\n(assumed)") if is_assumed else tr("Expected ±95 %")
        self.table.setHorizontalHeaderLabels([tr("What"), figures])
        tips = (
            tr("The far corner first, then the sizes: the worst for its size at the top."),
            tr(
                "The size and what it may be off by in 95 of 100 walks; and how far its farthest-off corner may lie off on "
                "the map."
            ),
        )
        for column, words in enumerate(tips):
            self.table.horizontalHeaderItem(column).setToolTip(words)

    def show_forecast(self, forecast: Forecast, drawn: DrawnEllipses) -> None:
        """Show a forecast, and say how its ellipses are drawn."""
        self.clear("")
        self._forecast = forecast
        self.words.setText(caption(forecast, drawn))
        self._show_headers(is_assumed=forecast.is_assumed)
        self.table.blockSignals(True)  # noqa: FBT003 - Qt's own
        self.table.setRowCount(len(forecast.rows))
        for at, row in enumerate(forecast.rows):
            corner = (
                tr("corner {figure}").format(figure=row.corner) if row.size and row.corner else row.corner
            )
            for column, text in enumerate((row.title, "\n".join(filter(None, (row.size, corner))))):
                item = QTableWidgetItem(text)
                item.setToolTip(f"{row.title}\n{row.words}")
                if column:
                    item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                self.table.setItem(at, column, item)
        self.table.blockSignals(False)  # noqa: FBT003
        for suggestion in forecast.suggestions:
            item = QListWidgetItem(f"{suggestion.rank}  {suggestion.words}")
            item.setData(KEPT, suggestion)
            self.help.addItem(item)
        if not forecast.suggestions:
            self.help.addItem(tr("Nothing that one more mark, stand or tape could do helps by a hundredth."))

    def clear(self, words: str) -> None:
        """Take the figures away, and say why."""
        self._forecast = None
        self.table.setRowCount(0)
        self.help.clear()
        self.follow.setEnabled(False)
        self.words.setText(words)

    def suggestion(self) -> Suggestion | None:
        """The suggestion that is chosen."""
        item = self.help.currentItem()
        told = item.data(KEPT) if item is not None else None
        return told if isinstance(told, Suggestion) else None

    def _look_at_row(self, row: int) -> None:
        if self._forecast is not None and 0 <= row < len(self._forecast.rows):
            self.looked_at.emit(list(self._forecast.rows[row].places))

    def _look_at_help(self, _: int) -> None:
        told = self.suggestion()
        self.follow.setEnabled(told is not None and told.act is Act.PAIR)
        if told is not None:
            self.looked_at.emit([told.at])

    def _follow(self) -> None:
        told = self.suggestion()
        if told is not None and told.act is Act.PAIR:
            self.mark_wanted.emit(told)


class SentenceList(QListWidget):
    """A list whose entries are sentences, broken anew when it gets narrower."""

    def __init__(self) -> None:
        super().__init__()
        self.setWordWrap(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAlternatingRowColors(True)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()


def show_told(box: QListWidget, forecast: Forecast) -> None:
    """What the survey's own checks say of the plan, a sentence each."""
    words = {"stop": tr("stop"), "ask": tr("ask"), "note": tr("note")}
    box.clear()
    for told in forecast.told:
        box.addItem(f"{told.code}, {words[told.severity]}: {told.message} {told.remedy}")
