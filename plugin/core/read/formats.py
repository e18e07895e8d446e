# SPDX-License-Identifier: GPL-2.0-or-later
"""Which kind of file is it? Told from its content, never from its name."""

from __future__ import annotations

import csv
import io
import re
from enum import Enum
from itertools import takewhile
from typing import TYPE_CHECKING

from .table import find_delimiter, is_key, plain_name

if TYPE_CHECKING:
    from collections.abc import Set as AbstractSet

HEAD = 65_536
"""Bytes that are looked at: key lines, header and some rows."""
ROWS_COMPARED = 5
MOST_OF_FOUR = 3
"""Of the four needed columns of a walk log."""
_NOT_TABLES = ("{", "[", "<", "%PDF", "PK", "$", "HEADER", "SQLite format")
"""How JSON, XML, PDF, zipped, NMEA and database files start."""


class TableKind(Enum):
    """The kinds of files that may lie in a job's folder."""

    WALK_LOG = "walk log"
    CONTROL = "control"
    TAPES = "tapes"
    INSTRUMENTS = "instruments"
    DECISIONS = "decisions"
    PRICES = "prices"
    """A rate book, make-ups or rules: ours, but not read here."""
    POINT_LIST = "point list"
    GPX = "GPX"
    NMEA = "NMEA 0183"
    LANDXML = "LandXML"
    UNKNOWN = "unknown"
    """A table, but none of ours."""
    NO_TABLE = "no table"


_ROOTS = {"gpx": TableKind.GPX, "LandXML": TableKind.LANDXML}
_ROOT = re.compile(r"<(?:[\w.-]+:)?([\w.-]+)(?=[\s/>])")
_SENTENCE = re.compile(r"[$!](?:[A-Z]{2}[A-Z0-9]{3}|P[A-Z0-9]{3,8}),")
"""Talker and kind, or a maker's own."""
_SIGNED = re.compile(r"[$!][A-Z0-9]{4,9},[^$!*\r\n]{0,400}\*[0-9A-Fa-f]{2}")
"""A sentence with its checksum, right or not."""
FEW_SENTENCES = 3
"""With a checksum; so many show a record of a receiver, however much noise lies between them."""
_BEFORE_ROOT = (("<!--", "-->"), ("<?", "?>"), ("<!", ">"), ("]", ">"))
TWO = 2
"""Coordinates give a place."""


def find_kind(data: bytes) -> TableKind:
    """What a file holds, from its first bytes."""
    text = _head_text(data)
    root = _find_root(text)
    if root in _ROOTS:
        return _ROOTS[root]
    lines = _lines_of(text)
    kind = _find_table(lines)
    if kind is TableKind.CONTROL and _is_numbered(lines):
        return TableKind.POINT_LIST
    if kind in (TableKind.UNKNOWN, TableKind.NO_TABLE):
        if _is_nmea(text):
            return TableKind.NMEA
        if (
            not text.lstrip().startswith(_NOT_TABLES)
            and "\0" not in text
            and _is_point_list(_whole(lines, data))
        ):
            return TableKind.POINT_LIST
    return kind


def has_columns(data: bytes, count: int) -> bool:
    """Whether a text is rows of `count` columns, two or more of them of numbers: a list that columns were chosen for."""
    from .points.order import value_columns
    from .points.text import find_layout

    text = _head_text(data)
    if text.lstrip().startswith(_NOT_TABLES) or "\0" in text:
        return False
    layout = find_layout(_whole(_lines_of(text), data))
    return (
        layout is not None
        and layout.width == count
        and 2 * len(layout.fitting) > len(layout.rows)
        and len(value_columns(layout)) >= TWO
    )


def _find_table(lines: list[str]) -> TableKind:
    """Which table of ours the lines are, if any."""
    header = next((i for i, line in enumerate(lines) if not is_key(line)), None)
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


def _find_root(text: str) -> str:
    """The name of an XML text's root element without its prefix; "" where there is none.

    What may stand before it is passed over: blanks, the declaration, comments, a document type with
    what it declares.
    """
    at = 0
    for _ in range(len(text)):
        while at < len(text) and (text[at].isspace() or text[at] == "\ufeff"):
            at += 1
        end = next((end for start, end in _BEFORE_ROOT if text.startswith(start, at)), None)
        if end is None:
            break
        found = text.find(end, at)
        if found < 0:
            return ""
        at = found + len(end)
    root = _ROOT.match(text, at)
    return root[1] if root else ""


def _is_nmea(text: str) -> bool:
    """Whether half of the lines hold a sentence, or some sentences have their checksum."""
    lines = [line for line in re.split(r"[\r\n]+", text.replace("\0", "")) if line.strip()]
    told = sum(bool(_SENTENCE.search(line)) for line in lines)
    return told > 0 and (2 * told >= len(lines) or len(_SIGNED.findall(text)) >= FEW_SENTENCES)


def _is_point_list(lines: list[str]) -> bool:
    """Whether a header, or a comment in its place, names two coordinates, or the rows are mostly numbers."""
    # Only a job with files of other people needs what reads them.
    from .points.columns import count_coordinates
    from .points.headers import names_above
    from .points.order import is_list_without_header
    from .points.text import BLANKS, find_layout, is_value

    layout = find_layout(lines)
    if layout is None:
        return False
    if layout.header is None:
        return is_list_without_header(layout) or bool(names_above(list(takewhile(is_key, lines)), layout))
    names = {plain_name(cell) for cell in layout.header}
    # a walk log with a fault in its header is none, and with blanks between them words can be prose
    if names & {"walk"} or count_coordinates(layout.header) < TWO:
        return False
    filled = [row for row in layout.rows if sum(is_value(cell, layout.separator) for cell in row) >= TWO]
    return layout.separator != BLANKS or 2 * len(filled) > len(layout.rows)


def _is_numbered(lines: list[str]) -> bool:
    """Whether a table with marks has points of its own: a number, an easting and a northing, and neither x nor y."""
    header = next(line for line in lines if not is_key(line))
    cells = _split(header, find_delimiter(header))
    if {plain_name(cell) for cell in cells} & {"x", "y", "lon", "lat"}:
        return False
    from .points.columns import Role, find_roles

    return {Role.NUMBER, Role.EASTING, Role.NORTHING} <= set(find_roles(cells))


def _head_text(data: bytes) -> str:
    """The first bytes as text, in UTF-16 where its mark or its first sign says so."""
    encoding = "utf-8-sig"
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        encoding = "utf-16"
    elif data[:4] in (b"<\0?\0", b"\0<\0?"):
        encoding = "utf-16-le" if data[0] else "utf-16-be"
    return data[:HEAD].decode(encoding, errors="replace")


def _lines_of(text: str) -> list[str]:
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _whole(lines: list[str], data: bytes) -> list[str]:
    """The lines without the one that the end of the head cuts."""
    return lines[:-1] if len(data) > HEAD and len(lines) > 1 else lines


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
        (TableKind.CONTROL, ("mark" in names or "use" in names) and not names & {"walk", "station"}),
    )
    return next((kind for kind, is_so in signs if is_so), TableKind.UNKNOWN)
