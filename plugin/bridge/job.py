# SPDX-License-Identifier: GPL-2.0-or-later
"""A job's files from the disk: which there are, and their bytes."""

from __future__ import annotations

import re
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from osgeo import gdal

from ..core.errors import BadInput
from ..core.read.formats import TableKind, find_kind

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

LARGEST_TEXT = 512 * 1024 * 1024
"""Bytes: a text file above this is no log (a million stations take about 100 MB)."""
HEAD = 4096
"""Bytes looked at to tell text from pictures and databases."""
_SENTENCE = re.compile(rb"[$][A-Z]{5},[^\x00]*[*][0-9A-F]{2}")
"""An NMEA 0183 sentence."""
NOT_LOGS = frozenset(
    {".gpkg", ".qgz", ".qgs", ".qgd", ".json", ".md", ".aux", ".prj", ".pdf", ".svg", ".dxf"}
)
"""Endings of files that lie beside logs and are none, text though some are."""
PICTURES = frozenset({".tif", ".tiff", ".png", ".jpg", ".jpeg", ".jp2", ".vrt"})
WORLD_FILES = frozenset({".tfw", ".pgw", ".jgw", ".wld", ".j2w", ".xml"})


PARTS = {
    "control": TableKind.CONTROL,
    "tapes": TableKind.TAPES,
    "instruments": TableKind.INSTRUMENTS,
    "decisions": TableKind.DECISIONS,
}
"""What can be named apart from the logs."""
_NOT_READ = (TableKind.NO_TABLE, TableKind.PRICES)


@dataclass(frozen=True)
class JobFiles:
    """The texts of a job by the names the user knows them by, the picture, where there is one, and what of the
    texts is nothing that a survey is made from."""

    texts: Mapping[str, bytes]
    picture: Path | None = None
    not_read: tuple[str, ...] = ()


def read_files(
    logs: Sequence[str | Path],
    beside: Mapping[str, str | Path | None] | None = None,
    picture: str | Path | None = None,
) -> JobFiles:
    """Read all files of a job.

    Args:
        logs: log files and folders; of a folder every text file counts.
        beside: files named for a part of the job (`control`, `tapes`, `instruments`, `decisions`), or None. A
            part that is not named is looked for beside the logs, by content; one that is named is taken alone.
        picture: the orthophoto; looked for beside the logs where it is not named.

    Raises:
        BadInput: nothing was named, a file is not there, cannot be read or is not what it was named as, a folder
            holds no texts.
    """
    if not logs:
        raise BadInput("No logs are named. Give log files, or the folder they lie in.")
    with reading():
        return _read_files(logs, beside or {}, picture)


@contextmanager
def reading() -> Iterator[None]:
    """What the system refuses to read, told with its path."""
    try:
        yield
    except OSError as error:
        raise BadInput(
            "{path} cannot be read: {reason}. Check that it is there and that you may read it, then run again.",
            path=str(error.filename or ""),
            reason=error.strerror or str(error),
        ) from error


def _read_files(
    logs: Sequence[str | Path], beside: Mapping[str, str | Path | None], picture: str | Path | None
) -> JobFiles:
    named = {part: _existing(Path(name)) for part, name in beside.items() if name}
    given = {path: path.read_bytes() for name in logs for path in list_texts(Path(name))}
    given.update(_found_beside(logs, given))
    taken = {PARTS[part] for part in named}
    kept = {path: data for path, data in given.items() if find_kind(data) not in taken}
    kept.update({path: _checked(path, part) for part, path in named.items()})
    names = short_names(list(kept))
    found = _existing(Path(picture)) if picture else _find_picture(logs)
    texts = {names[path]: data for path, data in kept.items()}
    return JobFiles(texts, found, _not_read(texts))


def _not_read(texts: Mapping[str, bytes]) -> tuple[str, ...]:
    """Names of the texts that the survey is not made from."""
    return tuple(name for name, data in sorted(texts.items()) if find_kind(data) in _NOT_READ)


def _checked(path: Path, part: str) -> bytes:
    data = path.read_bytes()
    kind = find_kind(data)
    if kind is not PARTS[part]:
        raise BadInput(
            "{path} was named as {part}, but it holds: {kind}. Name the right file, or correct its header row.",
            path=str(path),
            part=part,
            kind=kind.value,
        )
    return data


def _found_beside(logs: Sequence[str | Path], given: Mapping[Path, bytes]) -> dict[Path, bytes]:
    """Control and its like that lie in the folders of logs that were named one by one."""
    folders = dict.fromkeys(path.parent for path in map(Path, logs) if path.is_file())
    entries = (entry for folder in folders for entry in sorted(folder.iterdir()))
    paths = (entry for entry in entries if entry not in given and entry.is_file() and _may_be_log(entry))
    texts = ((path, path.read_bytes()) for path in paths)
    return {path: data for path, data in texts if find_kind(data) in PARTS.values()}


def list_texts(path: Path) -> list[Path]:
    """The files that a folder gives a job, or a file alone.

    Raises:
        BadInput: it is not there, or a folder holds none.
        OSError: it cannot be looked into.
    """
    if not path.is_dir():
        return [_existing(path)]
    found = sorted(entry for entry in path.iterdir() if entry.is_file() and _may_be_log(entry))
    if not found:
        raise BadInput("{path} holds no text files. Give the folder that the logs lie in.", path=str(path))
    return found


def _existing(path: Path) -> Path:
    if not path.is_file():
        raise BadInput("{path} is not there. Check the name, or choose the file again.", path=str(path))
    return path


def _may_be_log(path: Path) -> bool:
    ending = path.suffix.lower()
    if ending in NOT_LOGS | PICTURES or path.name.startswith("."):
        return False
    if ending in WORLD_FILES and _beside_picture(path):
        return False
    if path.stat().st_size > LARGEST_TEXT:
        return False
    with path.open("rb") as file:
        head = file.read(HEAD)
    # Receivers leave NUL bytes in what they record.
    return b"\x00" not in head or head.startswith((b"\xff\xfe", b"\xfe\xff")) or bool(_SENTENCE.search(head))


def _beside_picture(path: Path) -> bool:
    """Whether a file only tells where the picture beside it lies."""
    stem = path.name.split(".")[0]
    return any(path.with_name(stem + ending).exists() for ending in PICTURES)


def _find_picture(logs: Sequence[str | Path]) -> Path | None:
    """The one picture in the logs' folders that knows where it lies; None of none, and of several."""
    folders = dict.fromkeys(path if path.is_dir() else path.parent for path in map(Path, logs))
    pictures = [picture for folder in folders for picture in list_pictures(folder) if is_placed(picture)]
    return pictures[0] if len(pictures) == 1 else None


def list_pictures(folder: Path) -> list[Path]:
    """The pictures of a folder, by name."""
    return [entry for entry in sorted(folder.iterdir()) if entry.suffix.lower() in PICTURES]


def is_placed(path: Path) -> bool:
    """Whether a picture knows where it lies."""
    try:
        dataset = gdal.Open(str(path))
    except RuntimeError:  # raised only where the host has switched GDAL's exceptions on
        return False
    return dataset is not None and dataset.GetGeoTransform(can_return_null=True) is not None


def short_names(paths: Sequence[Path]) -> dict[Path, str]:
    """File names; where two folders hold the same one, with the folder before it."""
    count: dict[str, int] = {}
    for path in paths:
        count[path.name] = count.get(path.name, 0) + 1
    return {path: path.name if count[path.name] == 1 else f"{path.parent.name}/{path.name}" for path in paths}
