# SPDX-License-Identifier: GPL-2.0-or-later
"""A label for sentences with names of files in them, which never makes a page wider than it is."""

from __future__ import annotations

import re

from qgis.PyQt.QtWidgets import QLabel, QSizePolicy, QWidget

LONG = 24
"""Characters without a blank that may be wider than a narrow page."""
BREAK = "\u200b"
"""Where a line may break within a word."""


class WordsLabel(QLabel):
    """Breaks its lines, also within long names."""

    def __init__(self, words: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWordWrap(True)
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.show_words(words)

    def show_words(self, words: str) -> None:
        """Other words."""
        self.setText(re.sub(rf"\S{{{LONG},}}", lambda found: _breakable(found[0]), words))


def _breakable(name: str) -> str:
    """A long name that may break behind its signs, else after every LONG characters."""
    parts = re.split(r"(?<=[_\-./\\])", name)
    cut = [part[k : k + LONG] for part in parts for k in range(0, len(part), LONG)]
    return BREAK.join(cut)
