# SPDX-License-Identifier: GPL-2.0-or-later
"""Libraries that a user's QGIS may lack: where they come from, and what to install. Nothing else knows."""

from __future__ import annotations

import importlib
import importlib.util
import sys
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING

from ..core.errors import MissingLibrary

if TYPE_CHECKING:
    from types import ModuleType

CARRIED = Path(__file__).parent.parent.parent / "_vendor"
"""Beside plugin/ in the zip; not there in the repository."""
CARRIED_LIBRARIES = frozenset({"ezdxf", "openpyxl"})
NEEDED_AT_START = ("numpy", "pyproj")
"""What the rings import before anything is asked of them, or in every run; looked for, not imported."""
OS_RELEASE = Path("/etc/os-release")


class System(Enum):
    """Whose ways of installing apply."""

    DEBIAN = "debian"
    WINDOWS = "windows"
    MACOS = "macos"
    OTHER = "other"


ADVICE = {
    System.DEBIAN: "Install it (apt install python3-{library}) and start QGIS again.",
    System.WINDOWS: "Install it (the package python3-{library} in OSGeo4W Setup) and start QGIS again.",
    System.MACOS: "QGIS for macOS brings it: install QGIS again from its own installer and start it again.",
    System.OTHER: "Install it for the Python that QGIS runs in and start QGIS again.",
}
"""By system, for libraries that are the system's to bring."""
CARRIED_ADVICE = "The plugin's zip brings it: install the plugin again from the zip and start QGIS again."
"""A carried library is missing where the zip was unpacked in part, or where no zip was made."""
NOT_INSTALLED = "The library {library} is not installed."


def read_os_release(path: Path = OS_RELEASE) -> str:
    """What the system says of itself; nothing where it has no such file."""
    try:
        return path.read_text(encoding="utf-8", errors="replace")
    except OSError:
        return ""


def find_system(platform: str, os_release: str) -> System:
    """Whose ways of installing apply.

    Args:
        platform: as in `sys.platform`.
        os_release: the text of /etc/os-release (its format: freedesktop.org, os-release(5)); Ubuntu, Mint and others
            name debian in ID_LIKE.
    """
    if platform in ("win32", "cygwin"):
        return System.WINDOWS
    if platform == "darwin":
        return System.MACOS
    rows = (line.partition("=") for line in os_release.splitlines())
    facts = {name.strip(): value.strip().strip("\"'") for name, _, value in rows}
    names = f"{facts.get('ID', '')} {facts.get('ID_LIKE', '')}".split()
    return System.DEBIAN if {"debian", "ubuntu"} & set(names) else System.OTHER


def install_advice(library: str, system: System | None = None) -> str:
    """What to do about a library that is missing: a template with the field `library`."""
    if library in CARRIED_LIBRARIES:
        return CARRIED_ADVICE
    return ADVICE[system or find_system(sys.platform, read_os_release())]


def import_library(name: str, carried: Path = CARRIED) -> ModuleType:
    """The library: the system's own, else the one that the zip carries.

    The system's goes first because a process can hold only one copy of a library: the host, or another plugin, may
    be using the system's already, and it is the one that gets the system's corrections. So the folder of the carried
    ones goes to the end of the path, and only once one of them is asked for; it stays, since they import one another
    (and their own parts) when first needed.

    Raises:
        MissingLibrary: it is neither here nor there; the message says what to install.
    """
    if not _is_there(name) and carried.is_dir() and str(carried) not in sys.path:
        sys.path.append(str(carried))
        importlib.invalidate_caches()
    if not _is_there(name):
        raise MissingLibrary(NOT_INSTALLED, library=name)
    return importlib.import_module(name)


def missing_at_start() -> tuple[MissingLibrary, ...]:
    """One error for each library without which nothing works and which is not there."""
    return tuple(
        MissingLibrary(NOT_INSTALLED, library=name) for name in NEEDED_AT_START if not _is_there(name)
    )


def _is_there(name: str) -> bool:
    try:
        return importlib.util.find_spec(name) is not None
    except (ImportError, ValueError):  # ValueError: put into sys.modules by hand, without a spec
        return name in sys.modules
