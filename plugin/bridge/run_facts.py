# SPDX-License-Identifier: GPL-2.0-or-later
"""What a survey keeps of the run that made it."""

from __future__ import annotations

import hashlib
import os
import platform
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pyproj
from osgeo import gdal
from qgis.core import Qgis

from .fields import RunFact
from .job import reading
from .resources import plugin_version

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from .job import JobFiles


def run_facts(files: JobFiles, settings: Mapping[str, object], when: str) -> tuple[RunFact, ...]:
    """What the survey keeps of its making: the inputs' SHA-256, the settings, the versions, the time."""
    inputs = [
        RunFact("input", name, hashlib.sha256(text).hexdigest()) for name, text in sorted(files.texts.items())
    ]
    if files.picture:
        with reading():
            inputs.append(RunFact("input", files.picture.name, _file_checksum(files.picture)))
    chosen = [RunFact("setting", name, str(value)) for name, value in settings.items() if value is not None]
    return (*inputs, *chosen, *_versions(), RunFact("run", "finished", when))


def picture_fact(picture: str | Path | None, folder: Path) -> tuple[RunFact, ...]:
    """Where a survey's picture lies, seen from the GeoPackage's folder; no fact where there is none.

    Only its name is kept of a picture that lies in any folder but that one, those below and those above: the way to
    it would carry names of this machine's folders into a file that goes to others.
    """
    if not picture:
        return ()
    path = Path(picture)
    try:
        way = Path(os.path.relpath(path, folder))
    except ValueError:  # another drive
        way = Path(path.name)
    climbs = [part == os.pardir for part in way.parts[:-1]]
    shown = way.as_posix() if all(climbs) or not any(climbs) else path.name
    return (RunFact("setting", "picture", shown),)


def _versions() -> Iterable[RunFact]:
    versions = {
        "ground_tally": plugin_version(),
        "qgis": Qgis.QGIS_VERSION,
        "python": platform.python_version(),
        "numpy": np.__version__,
        "pyproj": pyproj.__version__,
        "proj": str(pyproj.proj_version_str),  # type: ignore[attr-defined] # pyproj lists it in its guide
        "gdal": gdal.__version__,
        "system": sys.platform,
    }
    return (RunFact("version", name, value) for name, value in versions.items())


def _file_checksum(path: Path) -> str:
    digest = hashlib.sha256()
    with path.open("rb") as file:
        for block in iter(lambda: file.read(1 << 20), b""):
            digest.update(block)
    return digest.hexdigest()
