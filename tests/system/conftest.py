# SPDX-License-Identifier: GPL-2.0-or-later
"""The toolbox as the host has it, for tests that run whole algorithms."""

from __future__ import annotations

import pytest


@pytest.fixture(scope="session")
def groundtally(qgis_app, qgis_processing):
    """Our provider in the host's registry."""
    from qgis.core import QgsApplication

    from plugin.processing.provider import Provider

    ours = Provider()
    assert QgsApplication.processingRegistry().addProvider(ours)
    yield ours
    QgsApplication.processingRegistry().removeProvider(ours)
