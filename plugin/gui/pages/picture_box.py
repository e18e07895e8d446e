# SPDX-License-Identifier: GPL-2.0-or-later
"""Which picture is picked from, what it says of itself, and what its points are worth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsMapLayerProxyModel, QgsPointXY
from qgis.gui import QgsMapLayerComboBox
from qgis.PyQt.QtCore import pyqtSignal
from qgis.PyQt.QtWidgets import QDoubleSpinBox, QFormLayout, QHBoxLayout, QLabel, QWidget

from ...bridge.picture import PictureCard, ground_size, pick_worth, read_card
from ...bridge.text import tr
from .words import WordsLabel

if TYPE_CHECKING:
    from qgis.core import QgsRasterLayer
    from qgis.gui import QgsMapCanvas

COMMON = 0.1
"""Metres, one sigma of a whole picture's shift where nobody told it: common practice, no source."""


class PictureBox(QWidget):
    """Signals: `changed` when another picture is chosen, `shared` with the shift that all its points share, metres."""

    changed = pyqtSignal()
    shared = pyqtSignal(float)

    def __init__(self) -> None:
        super().__init__()
        self.picture = QgsMapLayerComboBox()
        self.picture.setFilters(QgsMapLayerProxyModel.Filter.RasterLayer)
        self.picture.layerChanged.connect(lambda _: self.show_card())
        self.card = WordsLabel()
        self.accuracy, self.common = _metres(0.0), _metres(COMMON)
        self.accuracy.setToolTip(
            tr("What the picture's points err by against each other, one sigma, metres.")
        )
        self.common.setToolTip(
            tr(
                "What the whole picture may be shifted by, one sigma, metres: it moves the site, not its size."
            )
        )
        self.common.editingFinished.connect(lambda: self.shared.emit(self.common.value()))
        form, worth = QFormLayout(self), QHBoxLayout()
        form.setContentsMargins(0, 0, 0, 0)
        form.addRow(tr("Picture"), self.picture)
        form.addRow(self.card)
        worth.addWidget(self.accuracy, 1)
        worth.addWidget(QLabel(tr("all of it")))
        worth.addWidget(self.common, 1)
        form.addRow(tr("Errs by"), worth)

    @property
    def layer(self) -> QgsRasterLayer | None:
        """The picture."""
        return self.picture.currentLayer()

    def read(self) -> PictureCard:
        """What it says of itself."""
        return read_card(self.picture.currentLayer())

    def show_card(self) -> None:
        """Tell of the picture that is chosen."""
        if self.layer is None:
            words = tr(
                "No picture in the project: add one (a file, tiles or WMS), or give surveyed points as control."
            )
        else:
            words = f"{self.read().words}. " + tr("Roofs and tree tops lean: pick at the foot.")
        self.card.show_words(words)
        self.changed.emit()

    def share(self, common: float | None) -> None:
        """Show what all points share, where that was told."""
        self.common.setValue(COMMON if common is None else common)

    def worth(self, canvas: QgsMapCanvas, at: QgsPointXY, times: float) -> float:
        """One-sigma in metres of a point picked on a map, or where it is drawn so many times larger."""
        size = canvas.mapUnitsPerPixel() / times
        shown = ground_size(canvas.mapSettings().destinationCrs(), at, size, size)
        return pick_worth(self.read(), shown, self.accuracy.value())


def _metres(value: float) -> QDoubleSpinBox:
    box = QDoubleSpinBox()
    box.setDecimals(3)
    box.setRange(0.0, 100.0)
    box.setSingleStep(0.01)
    box.setPrefix("± ")
    box.setSuffix(" m")
    box.setValue(value)
    return box
