# SPDX-License-Identifier: GPL-2.0-or-later
"""Which kind of file is it? Told from its content, never from its name."""

from __future__ import annotations

import csv
import io
import re
from enum import Enum
from typing import TYPE_CHECKING

from .table import find_delimiter, plain_name

if TYPE_CHECKING:
    from collections.abc import Set as AbstractSet

HEAD = 65_536
"""Bytes that are looked at: key lines, header and some rows."""
ROWS_COMPARED = 5
MOST_OF_FOUR = 3
"""Of the four needed columns of a walk log."""
_NOT_TABLES = ("{", "[", "<", "%PDF", "PK", "$", "HEADER", "SQLite format")
"""How JSON, XML, PDF, zipped, NMEA and database files start."""


_LATER = {
    "GPX": re.compile(r"<gpx[\s>]"),
    "LandXML": re.compile(r"<LandXML[\s>]"),
    "NMEA 0183": re.compile(r"^\$G[A-Z]{4},", re.MULTILINE),
}
"""How formats that are not read yet are told."""


class TableKind(Enum):
    """The kinds of files that may lie in a job's folder."""

    WALK_LOG = "walk log"
    CONTROL = "control"
    TAPES = "tapes"
    INSTRUMENTS = "instruments"
    DECISIONS = "decisions"
    PRICES = "prices"
    """A rate book, make-ups or rules: ours, but not read here."""
    UNKNOWN = "unknown"
    """A table, but none of ours."""
    NO_TABLE = "no table"


def find_kind(data: bytes) -> TableKind:
    """What a file holds, from its first bytes."""
    lines = _head_lines(data)
    header = next((i for i, line in enumerate(lines) if not _is_key(line)), None)
    if header is None:
        has_keys = any(line.strip(',;\t "').startswith("#") for line in lines)
        return (
            TableKind.WALK_LOG if has_keys and not any("\0" in line for line in lines) else TableKind.NO_TABLE
        )
    delimiter = find_delimiter(lines[header])
    names = [plain_name(cell) for cell in _split(lines[header], delimiter)]
    kind = _kind_of(frozenset(names))
    if kind is not TableKind.UNKNOWN:
        return kind
    if lines[header].startswith(_NOT_TABLES) or any("\0" in line for line in lines):
        return TableKind.NO_TABLE
    rows = [line for line in lines[header + 1 :] if line.strip()][:ROWS_COMPARED]
    like = [len(_split(row, delimiter)) == len(names) for row in rows]
    is_table = len(names) > 1 and bool(rows) and 2 * sum(like) > len(rows)
    return TableKind.UNKNOWN if is_table else TableKind.NO_TABLE


def find_later_format(data: bytes) -> str:
    """The name of a format that a later version will read, "" where it is none: GPX, LandXML or NMEA 0183."""
    head = "\n".join(_head_lines(data))
    for name, sign in _LATER.items():
        if sign.search(head):
            return name
    return ""


def _head_lines(data: bytes) -> list[str]:
    encoding = "utf-8-sig"
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        encoding = "utf-16"
    text = data[:HEAD].decode(encoding, errors="replace")
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _is_key(line: str) -> bool:
    bare = line.strip(",;\t ").strip('"')
    return not bare or bare.startswith("#")


def _split(line: str, delimiter: str) -> list[str]:
    return next(csv.reader(io.StringIO(line.replace("\0", "")), delimiter=delimiter), [])


def _kind_of(names: AbstractSet[str]) -> TableKind:
    """The kind by its header, told even where one needed column is missing, so that its reader can say which."""
    signs = (
        (
            TableKind.WALK_LOG,
            len(names & {"walk", "station", "x", "y"}) >= MOST_OF_FOUR and names & {"walk", "station"},
        ),
        (TableKind.DECISIONS, "finding" in names and names & {"place", "answer"}),
        (TableKind.TAPES, len(names & {"from", "to", "distance"}) > 1),
        (TableKind.INSTRUMENTS, "instrument" in names),
        (TableKind.CONTROL, "mark" in names and names & {"x", "y", "z", "lon", "lat"}),
        (TableKind.PRICES, "course" in names or {"item", "rate"} <= names or names & {"limit", "rule"}),
        (TableKind.CONTROL, "mark" in names and not names & {"walk", "station"}),
    )
    return next((kind for kind, is_so in signs if is_so), TableKind.UNKNOWN)
