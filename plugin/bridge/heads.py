# SPDX-License-Identifier: GPL-2.0-or-later
"""The first lines of files, enough to tell what they are without reading them whole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..core.errors import BadInput
from ..core.read.formats import TableKind, find_kind

if TYPE_CHECKING:
    from pathlib import Path

HEAD = 65_536
"""Bytes that are read of a file: about a thousand rows, and as much as its kind is told from."""
_WIDE = (b"\xff\xfe", b"\xfe\xff")
"""How texts begin whose characters have two bytes."""


@dataclass(frozen=True)
class Head:
    """A file's first whole lines, what they are, and whether they are all of it."""

    path: Path
    kind: TableKind
    data: bytes
    is_whole: bool

    @property
    def name(self) -> str:
        """The file's name."""
        return self.path.name


def read_head(path: Path) -> Head:
    """The head of a file.

    Raises:
        BadInput: it cannot be read.
    """
    try:
        with path.open("rb") as file:
            data = file.read(HEAD + 1)
    except OSError as error:
        raise BadInput(
            "{path} cannot be read: {reason}. Check that it is there and that you may read it, then run again.",
            path=str(path),
            reason=error.strerror or str(error),
        ) from error
    is_whole = len(data) <= HEAD
    return Head(path, find_kind(data), data if is_whole else _whole_lines(data), is_whole)


def _whole_lines(data: bytes) -> bytes:
    """Without the line that the end of the head cuts; a text of one line is kept as it is."""
    if data[:2] in _WIDE:
        text = data[: len(data) // 2 * 2].decode("utf-16", "ignore")
        return text[: text.rfind("\n") + 1 or None].encode()
    end = max(data.rfind(b"\n"), data.rfind(b"\r")) + 1
    return data[: end or None]
