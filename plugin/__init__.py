# SPDX-License-Identifier: GPL-2.0-or-later
"""Ground Tally: walked points to a placed, measured survey."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .plugin import GroundTallyPlugin


def classFactory(iface: Any) -> GroundTallyPlugin:
    """The plugin, for the host; imported only now, so that `core` runs where there is no QGIS."""
    from .plugin import GroundTallyPlugin

    return GroundTallyPlugin(iface)
