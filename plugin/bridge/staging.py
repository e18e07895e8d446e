# SPDX-License-Identifier: GPL-2.0-or-later
"""Files that are written beside their place and moved there whole: a run that fails leaves what was there before."""

from __future__ import annotations

import shutil
import tempfile
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from ..core.errors import BadInput

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextmanager
def staged(path: Path) -> Iterator[Path]:
    """A file of the same name in a folder beside, for the time of writing; what then lies there (a format may write
    several files) takes its place.

    Raises:
        BadInput: the folder is not there, or an older file cannot be replaced.
    """
    try:
        folder = Path(tempfile.mkdtemp(prefix=f".{path.name}.", dir=path.parent))
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
            made.replace(path.parent / made.name)
    except OSError as error:
        raise not_written(path, error.strerror or str(error)) from error


def not_written(path: Path, reason: str) -> BadInput:
    """What to say of a file that cannot be written."""
    return BadInput(
        "{path} cannot be written: {reason}. Close it in other programs, or choose another folder or name.",
        path=str(path),
        reason=reason,
    )
