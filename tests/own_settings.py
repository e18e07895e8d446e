# SPDX-License-Identifier: GPL-2.0-or-later
"""Settings of a test's own: the host's lie in one file that every run on this machine shares."""

from __future__ import annotations

from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import QgsSettings
from qgis.PyQt.QtCore import QSettings

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextmanager
def own_settings(folder: Path) -> Iterator[Path]:
    """The host's settings in a folder that is empty at first; the file's path."""
    before = Path(QgsSettings().fileName()).parents[1]
    where = (QSettings.Format.IniFormat, QSettings.Scope.UserScope)
    QSettings.setPath(*where, str(folder))
    try:
        path = Path(QgsSettings().fileName())
        assert path.is_relative_to(folder)
        yield path
    finally:
        QSettings.setPath(*where, str(before))
