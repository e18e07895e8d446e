# SPDX-License-Identifier: GPL-2.0-or-later
"""Files that are written beside their place and moved there whole: a run that fails leaves what was there before."""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from ..core.errors import BadInput

if TYPE_CHECKING:
    from collections.abc import Iterator

BESIDE = ("-wal", "-shm", "-journal")
"""What SQLite keeps beside a database while it is open, or after a crash."""


@contextmanager
def staged(path: Path) -> Iterator[Path]:
    """A file of the same name in a folder beside, for the time of writing; what then lies there (a format may write
    several files) takes its place.

    Raises:
        BadInput: the folder is not there, or an older file cannot be replaced.
    """
    close_database(path)
    try:
        # Its name has no ending: GDAL takes a folder called .xlsx for an archive.
        folder = Path(tempfile.mkdtemp(prefix=".unfinished_", dir=path.parent))
    except OSError as error:
        raise not_written(path, error.strerror or str(error)) from error
    try:
        yield folder / path.name
        _move(folder, path)
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _move(folder: Path, path: Path) -> None:
    try:
        for made in sorted(folder.iterdir()):
            close_database(path.parent / made.name)
        for made in sorted(folder.iterdir()):
            made.replace(path.parent / made.name)
    except OSError as error:
        raise not_written(path, error.strerror or str(error)) from error


def close_database(path: Path) -> None:
    """A database that is to be replaced leaves no pages of its own beside it: SQLite would put them into the new one.

    Raises:
        BadInput: it is open in another program, or being edited, so that they cannot be taken away.
    """
    beside = [path.with_name(path.name + ending) for ending in BESIDE]
    if not any(other.exists() for other in beside):
        return
    if path.exists():
        # Whoever closes a database last takes these files away.
        with suppress(sqlite3.Error), closing(sqlite3.connect(path, timeout=0.0)) as database:
            database.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if any(other.exists() and other.stat().st_size for other in beside):
            raise not_written(path, "it is open, and has changes that are not yet in it")
    for other in beside:
        other.unlink(missing_ok=True)


def not_written(path: Path, reason: str) -> BadInput:
    """What to say of a file that cannot be written."""
    return BadInput(
        "{path} cannot be written: {reason}. Close it in other programs, or choose another folder or name.",
        path=str(path),
        reason=reason,
    )
