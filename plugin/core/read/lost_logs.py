# SPDX-License-Identifier: GPL-2.0-or-later
"""Walk logs that no reader knows as one. Left aside like a picture they would be missed by nobody."""

from __future__ import annotations

import re

from ..errors import BadInput
from .table import decode
from .walk_log import COLUMNS, NEEDED

HEAD = 65_536
"""Bytes that are looked at."""
MOSTLY = 0.75
"""Of the words of a header that are columns of ours; in a sentence on logs they are fewer."""
_WORD = re.compile(r"[a-z][a-z0-9_]*")
_LINE = re.compile(r"\r\n|\r|\n")


def refuse_lost_log(file: str, data: bytes) -> None:
    """Refuse a file whose header is a walk log's, but not written so that its columns can be told apart.

    Raises:
        BadInput: its characters have NUL bytes between them, or other separators than those that are read.
    """
    lines = _LINE.split(data[:HEAD].replace(b"\0", b"").decode("latin-1").lower())
    number = next((i for i, line in enumerate(lines) if line.strip() and not _is_key(line)), None)
    if number is None or not _is_header(lines[number]):
        return
    decode(file, data)
    raise BadInput(
        "{file}, line {line}: the header of a walk log stands here, but its columns are not separated by commas, "
        "semicolons or tabs. Separate them so.",
        file=file, line=number + 1,
    )  # fmt: skip


def _is_key(line: str) -> bool:
    return line.lstrip('\xff\xfe\xef\xbb\xbf,;\t "').startswith("#")


def _is_header(line: str) -> bool:
    words = _WORD.findall(line)
    known = [word for word in words if word in COLUMNS]
    return set(NEEDED) <= set(words) and len(known) >= MOSTLY * len(words)
