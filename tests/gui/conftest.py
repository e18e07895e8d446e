# SPDX-License-Identifier: GPL-2.0-or-later
"""What the tests of the window share: our toolbox in the host's registry."""

from __future__ import annotations

import pytest
from qgis.core import QgsApplication

from plugin.processing.provider import Provider


@pytest.fixture(scope="module")
def provider(qgis_app, qgis_processing):
    """Our algorithms, where the plugin is not loaded already; taken away afterwards."""
    registry = QgsApplication.processingRegistry()
    added = None
    if registry.providerById("groundtally") is None:
        added = Provider()
        registry.addProvider(added)
    yield
    if added is not None:
        registry.removeProvider(added)
