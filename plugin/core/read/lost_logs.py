# SPDX-License-Identifier: GPL-2.0-or-later
"""Walk logs that no reader knows as one. Left aside like a picture they would be missed by nobody."""

from __future__ import annotations

import re
from collections.abc import Mapping

from ..errors import BadInput
from ..findings import Finding, Severity
from .table import decode
from .walk_log import COLUMNS, NEEDED

HEAD = 65_536
"""Bytes that are looked at."""
MOSTLY = 0.75
"""Of the words of a header that are columns of ours; in a sentence on logs they are fewer."""
FEWEST = 3
"""Lines of a table that could be missed."""
TWO = 2
"""Numbers of a line of it."""
_NUMBER = re.compile(r"(?<![\w.])[+-]?\d+(?:[.,]\d+)?(?![\w.])")
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


def tell_left_aside(files: Mapping[str, bytes]) -> tuple[Finding, ...]:
    """An IN-06 note for each file that is not read and may be a table all the same: most of its lines hold numbers."""
    return tuple(_left_aside(file) for file, data in files.items() if _may_be_table(data))


def _may_be_table(data: bytes) -> bool:
    lines = [line for line in _LINE.split(data[:HEAD].replace(b"\0", b"").decode("latin-1")) if line.strip()]
    filled = sum(len(_NUMBER.findall(line)) >= TWO for line in lines)
    return len(lines) >= FEWEST and 2 * filled > len(lines)


def _left_aside(file: str) -> Finding:
    return Finding(
        "IN-06",
        Severity.NOTE,
        "survey",
        "{file} lies among the files, has numbers in most of its lines, and was not read: no kind of table was recognised.",
        "If it is a point list, put its column names in the first line; if it is a log, see its header. Else take it away.",
        {"file": file},
        file=file,
    )


def _is_key(line: str) -> bool:
    return line.lstrip('\xff\xfe\xef\xbb\xbf,;\t "').startswith("#")


def _is_header(line: str) -> bool:
    words = _WORD.findall(line)
    known = [word for word in words if word in COLUMNS]
    return set(NEEDED) <= set(words) and len(known) >= MOSTLY * len(words)
