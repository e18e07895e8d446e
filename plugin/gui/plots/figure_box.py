# SPDX-License-Identifier: GPL-2.0-or-later
"""One figure in the window: drawn in its colours, drawn anew at its size, enlarged, saved as a picture."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from qgis.PyQt.QtCore import QEvent, Qt, QTimer, pyqtSignal
from qgis.PyQt.QtWidgets import QDialog, QFileDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from ...bridge.text import explain, tr
from ...core.errors import MissingLibrary
from .look import FONT_SIZE, SHEET, Look, lay_out, load_matplotlib, look_of, settle_labels

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.PyQt.QtGui import QResizeEvent

    Draw = Callable[[Any, Look], Any]
    """Draws on an empty figure; gives the axes whose distances along are told, or nothing."""

SHEET_SIZE = (7.5, 5.6)
"""Inches of a saved picture: the width of a page of A4 within its margins."""
SHEET_DPI = 200
LARGE = (1000, 700)
"""Pixels of the enlarged figure's window at first."""
SETTLES = 60
"""Milliseconds without a change of size after which the figure is drawn anew."""
LEAST = 180
"""Pixels: below this nothing can be read."""


class FigureBox(QWidget):
    """Signals: `pointed` with the distance along that the mouse is at in a figure that has such an axis, `gone` when it
    is on none."""

    pointed = pyqtSignal(float)
    gone = pyqtSignal()

    def __init__(self, name: str, *, can_enlarge: bool = True) -> None:
        super().__init__()
        self.name = name
        self._draw: Draw | None = None
        self._canvas: Any = None
        self._axes: Any = None
        self._cursor: Any = None
        self.large: QDialog | None = None
        self.large_box: FigureBox | None = None
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.enlarge = QPushButton(tr("&Enlarge"))
        self.enlarge.setVisible(can_enlarge)
        self.enlarge.clicked.connect(self.open_large)
        self.save = QPushButton(tr("Save &picture..."))
        self.save.clicked.connect(self.ask_and_save)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(SETTLES)
        self._timer.timeout.connect(self.redraw)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(self.enlarge)
        buttons.addWidget(self.save)
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.addWidget(self.words, 1)
        self._rows.addLayout(buttons)
        self.show_words("")

    @property
    def figure(self) -> Any:
        """The figure that is drawn; None where there is none."""
        return None if self._canvas is None else self._canvas.figure

    @property
    def canvas(self) -> Any:
        """The widget that the figure is on."""
        return self._canvas

    def show_words(self, words: str) -> None:
        """A sentence in the figure's place."""
        self._draw = None
        self.words.setText(words)
        self.words.show()
        if self._canvas is not None:
            self._canvas.hide()
        self.enlarge.setEnabled(False)
        self.save.setEnabled(False)
        self.close_large()

    def show_figure(self, draw: Draw) -> None:
        """A figure in place of what was there, in the enlarged window too."""
        if self._canvas is None:
            try:
                self._make_canvas()
            except MissingLibrary as error:
                self.show_words(explain(error))
                return
        self._draw = draw
        self.words.hide()
        self._canvas.show()
        self.enlarge.setEnabled(True)
        self.save.setEnabled(True)
        self.redraw()
        if self.large_box is not None:
            self.large_box.show_figure(draw)

    def _make_canvas(self) -> None:
        load_matplotlib()
        from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg
        from matplotlib.figure import Figure

        self._canvas = FigureCanvasQTAgg(Figure())
        self._canvas.setMinimumSize(LEAST, LEAST)
        self._canvas.mpl_connect("motion_notify_event", self._moved)
        self._canvas.mpl_connect("figure_leave_event", lambda _: self.gone.emit())
        self._rows.insertWidget(0, self._canvas, 1)

    def redraw(self) -> None:
        """Draw the figure anew, at the size and in the colours that the widget now has."""
        if self._draw is None or self._canvas is None:
            return
        self._cursor = None
        self._axes = draw_on(self._canvas.figure, self._draw, look_of(self))
        self._canvas.draw_idle()

    def point_at(self, along: float | None) -> None:
        """Show a distance along by an upright line; none for None."""
        if self._axes is None:
            return
        if self._cursor is None:
            self._cursor = self._axes.axvline(0.0, color=look_of(self).ink, linewidth=1.0, linestyle=":")
        self._cursor.set_visible(along is not None)
        if along is not None:
            self._cursor.set_xdata([along, along])
        self._canvas.draw_idle()
        if self.large_box is not None:
            self.large_box.point_at(along)

    @property
    def pointed_at(self) -> float | None:
        """The distance that is shown."""
        is_on = self._cursor is not None and self._cursor.get_visible()
        return float(self._cursor.get_xdata()[0]) if is_on else None

    def _moved(self, event: Any) -> None:
        if self._axes is not None and event.inaxes is self._axes and event.xdata is not None:
            self.pointed.emit(float(event.xdata))
        elif self._axes is not None:
            self.gone.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._timer.start()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._timer.start()

    def open_large(self) -> None:
        """The figure in a window of its own."""
        if self._draw is None:
            return
        if self.large is None:
            self.large = QDialog(self, Qt.WindowType.Window)
            self.large.setWindowTitle(self.name)
            self.large_box = FigureBox(self.name, can_enlarge=False)
            self.large_box.pointed.connect(self.pointed)
            self.large_box.gone.connect(self.gone)
            QVBoxLayout(self.large).addWidget(self.large_box)
            self.large.resize(*LARGE)
            self.large.finished.connect(lambda _: self.close_large())
        self.large.show()
        self.large.raise_()
        assert self.large_box is not None  # noqa: S101 - made with the window
        self.large_box.show_figure(self._draw)

    def close_large(self) -> None:
        """Take the enlarged figure away."""
        large, self.large, self.large_box = self.large, None, None
        if large is not None:
            large.hide()
            large.deleteLater()

    def ask_and_save(self) -> None:
        """Ask for a file, and save the figure as the kind of picture that its name says."""
        kinds = "PNG (*.png);;SVG (*.svg);;PDF (*.pdf)"
        path, kind = QFileDialog.getSaveFileName(self, tr("Save picture"), f"{self.name}.png", kinds)
        if path:
            ending = kind.partition("*")[2].rstrip(")") or ".png"
            self.save_picture(Path(path) if Path(path).suffix else Path(path + ending))

    def save_picture(self, path: Path) -> None:
        """Write the figure on white paper; what keeps it from being written is said in the figure's window."""
        if self._draw is None:
            return
        from matplotlib.backends.backend_agg import FigureCanvasAgg
        from matplotlib.figure import Figure

        figure = Figure(figsize=SHEET_SIZE)
        FigureCanvasAgg(figure)
        draw_on(figure, self._draw, SHEET)
        try:
            figure.savefig(path, dpi=SHEET_DPI, facecolor=SHEET.paper)
        except (OSError, ValueError) as error:
            self.save.setToolTip(str(error))
            self.words.setText(tr("{path} cannot be written: {reason}.").format(path=path, reason=error))
            self.words.show()
            return
        self.words.hide()


def draw_on(figure: Any, draw: Draw, look: Look) -> Any:
    """Draw on a figure, whatever was on it before; the axes that `draw` gives."""
    import matplotlib as mpl

    figure.clear()
    lay_out(figure, is_on=True)
    figure.set_facecolor(look.paper)
    with mpl.rc_context({"font.size": FONT_SIZE, "text.color": look.ink}):
        axes = draw(figure, look)
        settle_labels(figure)
    return axes
