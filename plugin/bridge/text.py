# SPDX-License-Identifier: GPL-2.0-or-later
"""Words for the user: translation, and errors and findings as sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.PyQt.QtCore import QCoreApplication, QLocale, QTranslator

from ..core.errors import MissingLibrary
from .libraries import install_advice
from .resources import RESOURCES

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from ..core.errors import GroundTallyError
    from ..core.findings import Finding

CONTEXT = "GroundTally"
CATALOGUES = RESOURCES / "i18n"
"""Of each language one file, ground_tally_de.qm; only the zip holds them (scripts/make_package.py)."""


def tr(text: str) -> str:
    """The text in the user's language."""
    return QCoreApplication.translate(CONTEXT, text)


def explain(error: GroundTallyError) -> str:
    """An error as a sentence: its template is translated, then filled; of a missing library, also what to install."""
    sentence = tr(error.template).format(**error.fields)
    return f"{sentence} {_advise(error.fields)}" if isinstance(error, MissingLibrary) else sentence


def explain_finding(finding: Finding) -> str:
    """What a check noticed, as a sentence."""
    return tr(finding.template).format(**finding.data)


def explain_remedy(finding: Finding) -> str:
    """What to do about a finding; where a library is missing, in the ways of this system."""
    return _advise(finding.data) if "library" in finding.data else tr(finding.remedy).format(**finding.data)


def _advise(fields: Mapping[str, object]) -> str:
    return tr(install_advice(str(fields["library"]))).format(**fields)


def load_translator(folder: Path | None = None) -> QTranslator | None:
    """Put the texts of the host's language in place; None where there is no catalogue for it. Whoever loads it gives
    it to `drop_translator` in the end."""
    from .settings import (
        host_locale,  # it needs the core, and the core what this file may have to say is missing
    )

    translator = QTranslator()
    where = str(folder or CATALOGUES)
    if not translator.load(QLocale(host_locale()), "ground_tally", "_", where, ".qm"):
        return None
    QCoreApplication.installTranslator(translator)
    return translator


def drop_translator(translator: QTranslator | None) -> None:
    """Take the texts away again."""
    if translator is not None:
        QCoreApplication.removeTranslator(translator)
