# SPDX-License-Identifier: GPL-2.0-or-later
"""The colours that all our drawing is made with."""

from __future__ import annotations

import json
from functools import cache

from qgis.PyQt.QtGui import QColor

from .resources import RESOURCES


@cache
def _colours() -> dict[str, str]:
    told: dict[str, str] = json.loads((RESOURCES / "palette.json").read_text(encoding="utf-8"))["colours"]
    return told


def palette_colour(name: str) -> QColor:
    """A colour of the palette by its name."""
    return QColor(_colours()[name])
