# SPDX-License-Identifier: GPL-2.0-or-later
"""What lies in a job's folder: each file, what it is, and what its head says of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..core.read.formats import TableKind, find_kind
from .job import read_files
from .text import tr

if TYPE_CHECKING:
    from pathlib import Path

HEAD = 4096
"""Bytes of a file that are looked at for its keys."""
TOLD = ("units", "crs", "instrument", "site", "date")
"""Keys that say what a user would check."""
LOGS = (
    TableKind.WALK_LOG,
    TableKind.POINT_LIST,
    TableKind.GPX,
    TableKind.NMEA,
    TableKind.LANDXML,
)


@dataclass(frozen=True)
class FoundFile:
    """A file by its name, what it is, and the keys of its head that are worth a look."""

    name: str
    kind: TableKind
    keys: tuple[tuple[str, str], ...]

    @property
    def words(self) -> str:
        """It in one line."""
        told = ", ".join(f"{key} {value}" for key, value in self.keys)
        return f"{self.name}: {tr(self.kind.value)}" + (f" ({told})" if told else "")


@dataclass(frozen=True)
class Inventory:
    """The files of a folder and its picture."""

    files: tuple[FoundFile, ...]
    picture: str

    @property
    def has_logs(self) -> bool:
        """Whether there is anything to survey."""
        return any(file.kind in LOGS for file in self.files)

    @property
    def words(self) -> str:
        """One line a file: logs first."""
        order = sorted(self.files, key=lambda file: (file.kind not in LOGS, file.name))
        lines = [file.words for file in order]
        if self.picture:
            lines.append(tr("{name}: the picture").format(name=self.picture))
        if not self.has_logs:
            lines.append(
                tr("No log among them: a job needs walk logs, point lists, GPX, NMEA 0183 or LandXML.")
            )
        return "\n".join(lines)


def take_inventory(folder: Path) -> Inventory:
    """Look through a folder.

    Raises:
        BadInput: it cannot be read or holds no texts.
    """
    files = read_files([folder])
    found = [FoundFile(name, find_kind(data), _keys(data)) for name, data in sorted(files.texts.items())]
    return Inventory(tuple(found), files.picture.name if files.picture else "")


def _keys(data: bytes) -> tuple[tuple[str, str], ...]:
    head = data[:HEAD].decode("utf-8", "replace").lstrip("\ufeff").splitlines()
    pairs = (line[1:].split(":", 1) for line in head if line.startswith("#") and ":" in line)
    given = {key.strip().lower(): value.strip() for key, value in pairs}
    return tuple((key, given[key]) for key in TOLD if given.get(key))
