# SPDX-License-Identifier: GPL-2.0-or-later
"""Words for the user: translation, and errors and findings as sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import QCoreApplication

if TYPE_CHECKING:
    from ..core.errors import GroundTallyError
    from ..core.findings import Finding

CONTEXT = "GroundTally"


def tr(text: str) -> str:
    """The text in the user's language."""
    return QCoreApplication.translate(CONTEXT, text)


def explain(error: GroundTallyError) -> str:
    """An error as a sentence: its template is translated, then filled."""
    return tr(error.template).format(**error.fields)


def explain_finding(finding: Finding) -> str:
    """What a check noticed, as a sentence."""
    return tr(finding.template).format(**finding.data)


def explain_remedy(finding: Finding) -> str:
    """What to do about a finding."""
    return tr(finding.remedy).format(**finding.data)
