# SPDX-License-Identifier: GPL-2.0-or-later
"""The fields of a whole table found at once in its bytes; what a log has a million of, rows, is never looped over."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..quantity import Ints
from .columns import PADDING, Column, Flags, padded, text_of
from .decimals import BEFORE, Bytes

if TYPE_CHECKING:
    from collections.abc import Sequence

_BLOCK_BYTES = 1 << 18
_NEWLINE, _RETURN, _QUOTE = ord("\n"), ord("\r"), ord('"')


@dataclass(frozen=True, eq=False)
class Split:
    """The rows of a table as they stand in its bytes.

    Attributes:
        header: the cells of the first row.
        columns: its columns of n cells, of the rows that have as many fields as the header.
        line: (n,) where each of these rows starts, from 1.
        odd: the cells of every other row that is not empty, headers that stand here again too.
        odd_line: where each of those starts.
    """

    header: list[str]
    columns: tuple[Column, ...]
    line: Ints
    odd: list[list[str]]
    odd_line: Ints


def split_table(data: bytes, delimiter: str, first: int, start: int = 0) -> Split | None:
    """Find all fields of a table at once.

    Args:
        data: UTF-8; a newline, with or without a return, ends a row.
        delimiter: an ASCII sign.
        first: the header's line.
        start: where in the bytes the header starts.

    Returns:
        None where the table needs the general way: one column, no rows, a quote that does not stand at an end of
        its field, a return without a newline, a field too large for it.
    """
    has_returns = data.find(b"\r", start) >= 0
    if has_returns and data.count(b"\r", start) != data.count(b"\r\n", start):
        return None
    raw = padded(memoryview(data)[start:], b"" if data.endswith(b"\n") else b"\n")
    has_quotes = data.find(b'"', start) >= 0
    if has_quotes and not _is_well_quoted(raw, delimiter):
        return None
    stops, newlines, is_bare = _find_stops(raw, delimiter, has_quotes=has_quotes)
    rows = _find_rows(raw, stops, newlines)
    ends = stops[rows]
    width = int(rows[1])
    if width < 2 or len(rows) <= 2 or np.diff(ends).max() > csv.field_size_limit():
        return None
    (header,) = _parsed([text_of(raw, ends[0] + 1, ends[1])], delimiter)
    is_fit = np.diff(rows)[1:] == width
    find = _Finder(raw, stops, width, has_quotes, has_returns, is_bare)
    columns = find.columns(rows[2:][is_fit])
    is_fit[is_fit] = ~(_all_blank(columns) | _all_equal(columns, header))
    begin, end = ends[1:-1] + 1, ends[2:]
    line = _lines(raw, begin, first, has_quotes=has_quotes)
    if is_fit.all():
        return Split(header, columns, line, [], line[:0])
    columns = find.columns(rows[2:][is_fit])
    is_odd = ~is_fit & (end > begin)
    odd = [text_of(raw, *ends) for ends in zip(begin[is_odd].tolist(), end[is_odd].tolist())]
    return Split(header, columns, line[is_fit], _parsed(odd, delimiter), line[is_odd])


def _parsed(lines: Sequence[str], delimiter: str) -> list[list[str]]:
    """The cells of rows, each a text of its own."""
    return [
        next(csv.reader(io.StringIO(line, newline=""), delimiter=delimiter, strict=True), [])
        for line in lines
    ]


def _is_well_quoted(raw: Bytes, delimiter: str) -> bool:
    """Whether every quote opens a field, closes one or is doubled within one, so that counting them will do."""
    quotes = np.flatnonzero(raw == _QUOTE)
    if len(quotes) % 2:
        return False
    ends = np.zeros(256, dtype=bool)
    ends[[ord(delimiter), _NEWLINE, _QUOTE]] = True
    may_open = ends[raw[quotes[::2] - 1]]
    ends[_RETURN] = True
    return bool(may_open.all() and ends[raw[quotes[1::2] + 1]].all())


def _find_stops(raw: Bytes, delimiter: str, *, has_quotes: bool) -> tuple[Ints, int, bool]:
    """Where fields end: at each delimiter and newline outside quotes, from the newline before the header on; how many
    newlines there are in all, and whether all else is printable ASCII without blanks."""
    found, is_inside, newlines, is_bare = [], np.uint8(0), 0, True
    end = len(raw) - PADDING
    for first in range(BEFORE - 1, end, _BLOCK_BYTES):
        block = raw[first : min(first + _BLOCK_BYTES, end)]
        is_stop = block == _NEWLINE
        newlines += np.count_nonzero(is_stop)
        is_stop |= block == ord(delimiter)
        if has_quotes:
            quotes = np.cumsum(block == _QUOTE, dtype=np.uint8)  # it may run over: 256 is even
            quotes += is_inside
            is_stop &= quotes & 1 == 0
            is_inside = quotes[-1] & np.uint8(1)
        is_bare = is_bare and bool((is_stop | (block - np.uint8(0x21) < 0x80 - 0x21)).all())
        found.append((np.flatnonzero(is_stop) + first).astype(np.int32))
    return np.concatenate(found), newlines, is_bare


def _find_rows(raw: Bytes, stops: Ints, newlines: int) -> Ints:
    """The stops that end rows, by number, from the newline before the header on."""
    width = next(i for i in range(1, len(stops)) if raw[stops[i]] == _NEWLINE)
    ends = stops[::width]
    if newlines == len(ends) and (raw[ends] == _NEWLINE).all():
        return np.arange(0, len(stops), width, dtype=np.int32)
    return np.flatnonzero(raw[stops] == _NEWLINE).astype(np.int32)


@dataclass(frozen=True, eq=False)
class _Finder:
    """Finds the fields of rows between the stops of a table."""

    raw: Bytes
    stops: Ints
    width: int
    has_quotes: bool
    has_returns: bool
    is_bare: bool

    def columns(self, last: Ints) -> tuple[Column, ...]:
        """The columns of the rows whose last stops these are."""
        columns, end = [], self._stops(last, self.width)
        for left in range(self.width - 1, -1, -1):
            start, end = end + 1, self._stops(last, left)
            columns.append(self._column(start, end, is_last=not left))
        return tuple(columns)

    def _stops(self, last: Ints, left: int) -> Ints:
        """(n,) the stops so many before these; a slice where no other row stands between, which is far cheaper."""
        if len(last) and last[-1] - last[0] == self.width * (len(last) - 1):
            return self.stops[last[0] - left : last[-1] - left + 1 : self.width]
        found: Ints = self.stops[last - left]
        return found

    def _column(self, start: Ints, end: Ints, *, is_last: bool) -> Column:
        if self.has_returns and is_last:
            end = end - (self.raw[end - 1] == _RETURN)
        if self.has_quotes:
            is_quoted = self.raw[start] == _QUOTE
            start, end = start + is_quoted, end - is_quoted
        return Column(self.raw, start, end, is_bare=self.is_bare)


def _all_blank(columns: Sequence[Column]) -> Flags:
    """(n,) whether all cells of a row are empty."""
    is_blank = columns[0].is_blank
    for column in columns[1:]:
        if not is_blank.any():
            break
        is_blank = is_blank & column.is_blank
    return is_blank


def _all_equal(columns: Sequence[Column], cells: Sequence[str]) -> Flags:
    """(n,) whether a row holds these cells; the rows that may are fewer after each sign."""
    rows = np.flatnonzero(columns[0].end - columns[0].start == len(_quotes_doubled(cells[0])))
    for column, cell in zip(columns, cells):
        if not len(rows):
            break
        wanted = _quotes_doubled(cell)
        rows = rows[column.end[rows] - column.start[rows] == len(wanted)]
        for i, sign in enumerate(wanted):
            rows = rows[column.raw[column.start[rows] + i] == sign]
    is_equal = np.zeros(len(columns[0]), dtype=bool)
    is_equal[rows] = True
    return is_equal


def _quotes_doubled(cell: str) -> bytes:
    return cell.replace('"', '""').encode()


def _lines(raw: Bytes, begin: Ints, first: int, *, has_quotes: bool) -> Ints:
    """(n,) the line where each row starts; the header's is `first`."""
    if not has_quotes:
        return np.arange(first + 1, first + 1 + len(begin))
    newlines = np.flatnonzero(raw[BEFORE:] == _NEWLINE) + BEFORE
    return np.searchsorted(newlines, begin) + first
