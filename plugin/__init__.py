# SPDX-License-Identifier: GPL-2.0-or-later
"""Ground Tally: walked points to a placed, measured survey."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .plugin import GroundTallyPlugin
    from .unready import UnreadyPlugin


def classFactory(iface: Any) -> GroundTallyPlugin | UnreadyPlugin:
    """The plugin, for the host; imported only now, so that `core` runs where there is no QGIS."""
    from .bridge.libraries import missing_at_start

    missing = missing_at_start()
    if missing:
        from .unready import UnreadyPlugin

        return UnreadyPlugin(iface, missing)
    from .plugin import GroundTallyPlugin

    return GroundTallyPlugin(iface)
