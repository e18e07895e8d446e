# SPDX-License-Identifier: GPL-2.0-or-later
"""Column names that other programs write otherwise: behind a #, or none for the names of the rows."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .columns import COORDINATES, Role, count_coordinates, find_roles, read_header_cell
from .text import (
    SAMPLE_LINES,
    SAMPLE_SIZE,
    Layout,
    ListText,
    is_number,
    is_value,
    split_header,
    split_line,
)

TWO = 2
"""Coordinates give a place."""
_LINE_END = re.compile(r"\r\n|\r|\n")


def find_names(source: ListText) -> ListText:
    """The list with all its column names; the same object where its header has them all, or it has none.

    Three ways of writing them are known besides a plain header: a comment above the rows (`# x y z`, as numpy.savetxt
    writes it), a blank cell above the rows' names (`"",x,y`, as R's write.csv and pandas write it), and no cell at all
    above them (R's write.table; its read.table takes a header of one field fewer for that).
    """
    layout = source.layout
    if layout.header is None:
        names = names_above(_LINE_END.split(source.text[: source.start][-SAMPLE_SIZE:]), layout)
        return replace(source, layout=replace(layout, header=names, is_above=True)) if names else source
    rows = _split_rows(source)
    header = ("", *layout.header) if _are_rows_named(layout, rows) else layout.header
    names = _filled(header, rows)
    if names == layout.header:
        return source
    return replace(
        source, layout=replace(layout, header=names, rows=tuple(map(tuple, rows)), width=len(names))
    )


def names_above(lines: Sequence[str], layout: Layout) -> tuple[str, ...]:
    """The names in the lowest of the comments above some rows that has one for each column; () where none has."""
    for line in reversed(lines):
        bare = line.strip().lstrip("#")
        names = tuple(name.strip() for name in split_header(bare, layout.separator))
        if len(names) == layout.width and count_coordinates(names) >= TWO and all(names):
            return names
    return ()


def _split_rows(source: ListText) -> list[list[str]]:
    """The cells of the first rows below the header, as they stand."""
    text = source.text[source.start : source.start + SAMPLE_SIZE]
    lines = _LINE_END.split(text)
    if len(text) == SAMPLE_SIZE:
        lines.pop()
    rows = [line for line in lines[1:] if line.strip() and not line.lstrip().startswith("#")]
    return [_split_whole(line, source.layout.separator) for line in rows[:SAMPLE_LINES]]


def _split_whole(line: str, separator: str) -> list[str]:
    """The cells of a row; a number in front keeps its quotes where other cells have none: so names are written."""
    cells = split_line(line, separator)
    is_quoted = line.lstrip().startswith('"') and line.count('"') < 2 * len(cells)
    return [f'"{cells[0]}"', *cells[1:]] if is_quoted else cells


def _are_rows_named(layout: Layout, rows: Sequence[Sequence[str]]) -> bool:
    """Whether each row has a name in front of which the header knows nothing.

    There is one cell more than the header has, it is no number, and only behind it the header's coordinates are.
    """
    header = layout.header or ()
    if _is_numbered(header) or not rows or any(len(row) != len(header) + 1 for row in rows):
        return False
    if any(is_number(row[0], layout.separator) for row in rows):
        return False
    places = [i for i, role in enumerate(find_roles(header)) if role in COORDINATES]
    as_written, behind = (
        sum(all(is_value(row[i + by], layout.separator) for i in places) for row in rows) for by in (0, 1)
    )
    return 2 * as_written < len(rows) < 2 * behind


def _is_numbered(header: Sequence[str]) -> bool:
    """Whether a column has the points' numbers; a bare `n` may be any number."""
    roles = find_roles(header)
    return Role.NUMBER in roles and read_header_cell(header[roles.index(Role.NUMBER)]).word != "n"


def _filled(header: Sequence[str], rows: Sequence[Sequence[str]]) -> tuple[str, ...]:
    """The header with a name for each column that has cells but no name; the first of all has the points' numbers."""
    is_numbered = _is_numbered(header)

    def name(i: int, written: str) -> str:
        if written.strip() or not any(i < len(row) and row[i].strip() for row in rows):
            return written
        return f"column {i + 1}" if i or is_numbered else Role.NUMBER.value

    return tuple(name(i, written) for i, written in enumerate(header))
