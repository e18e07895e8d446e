# SPDX-License-Identifier: GPL-2.0-or-later
"""Where the cells of a table stand in its bytes, found for the whole table at once; a cell becomes text when asked.

What a log has a million of, rows, is never looped over here: a cell costs a few nanoseconds until it is text.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, overload

import numpy as np
import numpy.typing as npt

from ..quantity import Ints
from .decimals import BEFORE, Bytes, read_decimals

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..quantity import Floats

WIDEST = 64
"""Bytes: longer cells are cut out one by one, shorter ones together."""
MOST_WORDS = 4_096
"""A column with more different cells than this in its first rows is not searched for repeats."""
_BLOCK_BYTES = 1 << 18
_BLOCK_ROWS = 1 << 16
_NEWLINE, _RETURN, _QUOTE = ord("\n"), ord("\r"), ord('"')
_PADDING = WIDEST + 8
_BEYOND = 0xFF
"""Stands behind a short cell; no UTF-8 text has this byte."""

Flags = npt.NDArray[np.bool_]


class Column(Sequence[str]):
    """The cells of one column: fields of the file's bytes, made text at first need and then kept.

    Attributes:
        raw: the bytes of the table (UTF-8), BEFORE of them before the first field and WIDEST behind the last.
        start, end: (n,) of each field in `raw`, quotes around it left out.
    """

    def __init__(self, raw: Bytes, start: Ints, end: Ints) -> None:
        """A column of the fields raw[start:end]."""
        self.raw, self.start, self.end = raw, start, end

    @classmethod
    def of(cls, texts: str) -> Column:
        """A column of cells that each end with a NUL."""
        raw = _padded(texts.replace('"', '""'))
        stops = np.flatnonzero(raw[: len(raw) - _PADDING] == 0)
        return cls(raw, np.append(BEFORE, stops[:-1] + 1)[: len(stops)], stops)

    def __len__(self) -> int:
        """How many cells there are."""
        return len(self.start)

    @overload
    def __getitem__(self, i: int) -> str: ...
    @overload
    def __getitem__(self, i: slice) -> Sequence[str]: ...
    def __getitem__(self, i: int | slice) -> str | Sequence[str]:
        """One cell, or the cells of some rows as a list."""
        if isinstance(i, int) and "_read" not in self.__dict__:
            return _unquoted(_text(self.raw, self.start[i], self.end[i]))
        return self.texts[i]

    def __iter__(self) -> Iterator[str]:
        """The cells from the first row on."""
        return iter(self.texts)

    @property
    def texts(self) -> list[str]:
        """All cells as text; equal ones that follow one another are one object."""
        return self._read[0]

    @property
    def changes(self) -> Ints:
        """The rows whose cell may differ from the one before; no other does."""
        return self._read[1]

    @cached_property
    def _read(self) -> tuple[list[str], Ints]:
        return _read_texts(self.raw, self.start, self.end)

    @cached_property
    def is_blank(self) -> Flags:
        """(n,) whether each cell is empty."""
        return np.asarray(self.end <= self.start)

    @cached_property
    def is_spaced(self) -> bool:
        """Whether a cell may have a blank at either end: a byte there is a blank of ASCII or part of a wider sign."""
        for edge in (self.raw[self.start], self.raw[self.end - 1]):
            may_be_blank = (edge <= ord(" ")) | (edge >= 0x80)
            if may_be_blank.any() and (may_be_blank & ~self.is_blank).any():
                return True
        return False

    def may_start_with(self, sign: str) -> bool:
        """Whether a cell starts with an ASCII sign."""
        is_there = self.raw[self.start] == ord(sign)
        return bool(is_there.any() and (is_there & ~self.is_blank).any())

    def at(self, rows: Ints | slice) -> Column:
        """The column of some rows."""
        return Column(self.raw, self.start[rows], self.end[rows])

    def decimals(self, mark: str) -> tuple[Floats, Ints]:
        """(n,) the plain decimals, NaN elsewhere, and the rows that hold something else; blank ones hold nothing."""
        return read_decimals(self.raw, self.start, self.end, mark)

    def fixed(self) -> npt.NDArray[np.bytes_] | None:
        """(n,) the cells as bytes of one width, short ones filled with NUL; None where one is beyond WIDEST."""
        length = self.end - self.start
        widest = int(length.max(initial=1))
        if widest > WIDEST:
            return None
        cells = _fields(self.raw, self.start, widest)
        cells *= np.arange(widest, dtype=np.uint8) < length.astype(np.uint8)[:, None]
        return cells.view(f"S{widest}")[:, 0]


def changes_of(cells: Sequence[str]) -> Sequence[int]:
    """The rows whose cell may differ from the one before."""
    return cells.changes.tolist() if isinstance(cells, Column) else range(len(cells))


def blanks_of(cells: Sequence[str]) -> Flags:
    """(n,) whether each cell is empty."""
    return cells.is_blank if isinstance(cells, Column) else np.array([not cell for cell in cells], dtype=bool)


def _fields(raw: Bytes, start: Ints, width: int) -> Bytes:
    """(n, width) the bytes from each start on."""
    windows: npt.NDArray[np.bytes_] = np.ndarray(
        (len(raw) - width + 1,), dtype=f"S{width}", buffer=raw, strides=(1,)
    )
    return windows[start].view(np.uint8).reshape(len(start), width)


def _read_texts(raw: Bytes, start: Ints, end: Ints) -> tuple[list[str], Ints]:
    """Cells as text, and the rows where they change."""
    length = np.maximum(end - start, 0)
    long = np.flatnonzero(length > WIDEST)
    length[long] = 0
    texts: list[str] = []
    changes = [long, long[long + 1 < len(start)] + 1] if len(long) else []
    seen: dict[str, str] = {}
    for first in range(0, len(start), _BLOCK_ROWS):
        rows = slice(first, first + _BLOCK_ROWS)
        block, changed = _read_block(raw, start[rows], length[rows])
        if len(seen) < MOST_WORDS:
            block = list(map(seen.setdefault, block, block))
        texts += _repeated(block, changed, len(length[rows]))
        changes.append(changed + first)
    for row in long.tolist():
        texts[row] = _unquoted(raw[start[row] : end[row]].tobytes().decode())
    found = np.concatenate(changes) if changes else long
    return texts, np.unique(found) if len(long) else found


def _read_block(raw: Bytes, start: Ints, length: Ints) -> tuple[list[str], Ints]:
    """The cells of the rows that differ from the one before, or of all where most do, and these rows."""
    widest = int(length.max(initial=0))
    if not widest:
        return [""], np.zeros(1, dtype=np.int64)
    words = -(-widest // 8)
    cells = _fields(raw, start, 8 * words)
    cells |= (np.arange(8 * words, dtype=np.uint8) >= length.astype(np.uint8)[:, None]).view(
        np.uint8
    ) * np.uint8(_BEYOND)
    keys = cells.view(np.uint64)
    is_change = np.ones(len(start), dtype=bool)
    is_change[1:] = (keys[1:] != keys[:-1]).any(axis=1)
    rows = np.flatnonzero(is_change)
    if 2 * len(rows) < len(start):
        cells = cells[rows]
    else:
        rows = np.arange(len(start))
    joined = np.concatenate([cells, np.zeros((len(cells), 1), dtype=np.uint8)], axis=1)
    text = joined.tobytes().translate(None, bytes([_BEYOND])).decode()
    texts = text.split("\0")
    texts.pop()
    return [_unquoted(cell) for cell in texts] if '"' in text else texts, rows


def _unquoted(cell: str) -> str:
    return cell.replace('""', '"') if '"' in cell else cell


def _repeated(cells: list[str], rows: Ints, count: int) -> list[str]:
    """Each cell from its row to the next one's."""
    if len(cells) == count:
        return cells
    repeated: list[str] = np.repeat(np.array(cells, dtype=object), np.diff(rows, append=count)).tolist()
    return repeated


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


def split_table(body: str, delimiter: str, first: int) -> Split | None:
    """Find all fields of a table at once.

    Args:
        body: the table from its header on; a newline, with or without a return, ends a row.
        delimiter: an ASCII sign.
        first: the header's line.

    Returns:
        None where the table needs the general way: one column, no rows, a quote that does not stand at an end of
        its field, a return without a newline, a field too large for it.
    """
    has_returns = "\r" in body
    if has_returns and body.count("\r") != body.count("\r\n"):
        return None
    raw = _padded(body if body.endswith("\n") else body + "\n")
    has_quotes = '"' in body
    if has_quotes and not _is_well_quoted(raw, delimiter):
        return None
    stops = _find_stops(raw, delimiter, has_quotes=has_quotes)
    rows = np.flatnonzero(raw[stops] == _NEWLINE)
    width = int(rows[1] - rows[0])
    if width < 2 or len(rows) <= 2 or np.diff(stops[rows]).max() > csv.field_size_limit():
        return None
    (header,) = _parsed([_text(raw, stops[0] + 1, stops[rows[1]])], delimiter)
    is_fit = np.diff(rows)[1:] == width
    find = _Finder(raw, stops, width, has_quotes, has_returns)
    columns = find.columns(rows[2:][is_fit])
    is_fit[is_fit] = ~(_all_blank(columns) | _all_equal(columns, header))
    if not is_fit.all():
        columns = find.columns(rows[2:][is_fit])
    begin, end = stops[rows[1:-1]] + 1, stops[rows[2:]]
    line = _lines(raw, begin, first, has_quotes=has_quotes)
    is_odd = ~is_fit & (end > begin)
    odd = [_text(raw, *ends) for ends in zip(begin[is_odd].tolist(), end[is_odd].tolist())]
    return Split(header, columns, line[is_fit], _parsed(odd, delimiter), line[is_odd])


def _padded(text: str) -> Bytes:
    return np.frombuffer(b"".join((b"\n" * BEFORE, text.encode(), b"\0" * _PADDING)), np.uint8)


def _text(raw: Bytes, start: int, end: int) -> str:
    return raw[start:end].tobytes().decode()


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


def _find_stops(raw: Bytes, delimiter: str, *, has_quotes: bool) -> Ints:
    """Where fields end: at each delimiter and newline outside quotes, from the newline before the header on."""
    found, is_inside = [], np.uint8(0)
    for first in range(BEFORE - 1, len(raw), _BLOCK_BYTES):
        block = raw[first : first + _BLOCK_BYTES]
        is_stop = (block == ord(delimiter)) | (block == _NEWLINE)
        if has_quotes:
            quotes = np.cumsum(block == _QUOTE, dtype=np.uint8)  # it may run over: 256 is even
            quotes += is_inside
            is_stop &= quotes & 1 == 0
            is_inside = quotes[-1] & np.uint8(1)
        found.append((np.flatnonzero(is_stop) + first).astype(np.int32))
    return np.concatenate(found)


@dataclass(frozen=True, eq=False)
class _Finder:
    """Finds the fields of rows between the stops of a table."""

    raw: Bytes
    stops: Ints
    width: int
    has_quotes: bool
    has_returns: bool

    def columns(self, last: Ints) -> tuple[Column, ...]:
        """The columns of the rows whose last stops these are."""
        columns, end = [], self._stops(last, self.width)
        for left in range(self.width - 1, -1, -1):
            start, end = end + 1, self._stops(last, left)
            columns.append(self._column(start, end, is_last=not left))
        return tuple(columns)

    def _stops(self, last: Ints, left: int) -> Ints:
        """(n,) the stops so many before these; a slice where no other row stands between, which is far cheaper."""
        wanted: Ints | slice = last - left
        if len(last) and last[-1] - last[0] == self.width * (len(last) - 1):
            wanted = slice(last[0] - left, last[-1] - left + 1, self.width)
        found: Ints = self.stops[wanted]
        return found

    def _column(self, start: Ints, end: Ints, *, is_last: bool) -> Column:
        if self.has_returns and is_last:
            end = end - (self.raw[end - 1] == _RETURN)
        if self.has_quotes:
            is_quoted = self.raw[start] == _QUOTE
            start, end = start + is_quoted, end - is_quoted
        return Column(self.raw, start, np.ascontiguousarray(end))


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
    rows = np.arange(len(columns[0]))
    for column, cell in zip(columns, cells):
        if not len(rows):
            break
        wanted = cell.replace('"', '""').encode()
        rows = rows[column.end[rows] - column.start[rows] == len(wanted)]
        for i, sign in enumerate(wanted):
            rows = rows[column.raw[column.start[rows] + i] == sign]
    is_equal = np.zeros(len(columns[0]), dtype=bool)
    is_equal[rows] = True
    return is_equal


def _lines(raw: Bytes, begin: Ints, first: int, *, has_quotes: bool) -> Ints:
    """(n,) the line where each row starts; the header's is `first`."""
    if not has_quotes:
        return np.arange(first + 1, first + 1 + len(begin))
    newlines = np.flatnonzero(raw[BEFORE:] == _NEWLINE) + BEFORE
    return np.searchsorted(newlines, begin) + first
