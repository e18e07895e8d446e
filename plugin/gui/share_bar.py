# SPDX-License-Identifier: GPL-2.0-or-later
"""A cell with a bar behind its text, as long as the share that it tells."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import QRect, Qt
from qgis.PyQt.QtWidgets import QStyledItemDelegate

from ..bridge.palette import palette_colour

if TYPE_CHECKING:
    from qgis.PyQt.QtCore import QModelIndex
    from qgis.PyQt.QtGui import QPainter
    from qgis.PyQt.QtWidgets import QStyleOptionViewItem

SHARE = Qt.ItemDataRole.UserRole
"""The role that holds the share, 0 to 1."""
HEIGHT = 3
"""Pixels: a line below the text, so that the text reads on any theme."""


class ShareBar(QStyledItemDelegate):
    """Draws the text as always, and the share as a line below it."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        super().paint(painter, option, index)
        share = index.data(SHARE)
        if share:
            box = option.rect
            long = round(float(share) * box.width())
            painter.fillRect(
                QRect(box.left(), box.bottom() - HEIGHT, long, HEIGHT), palette_colour("sky_blue")
            )
