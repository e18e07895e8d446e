# SPDX-License-Identifier: GPL-2.0-or-later
"""Tolerant CSV text -> columns with line numbers, and back without loss."""

from __future__ import annotations

import codecs
import csv
import gc
import io
import re
from dataclasses import dataclass
from functools import cached_property
from itertools import islice
from typing import TYPE_CHECKING

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from .columns import Column, Same
from .faults import KEY_BELOW, REPEATED_HEADER, TOO_MANY_FIELDS, UNCLOSED, WRONG_FIELDS, BadRow
from .fields import split_table

if TYPE_CHECKING:
    from _csv import Reader
    from collections.abc import Iterable, Mapping, Sequence

LARGEST_FILE = 1_000_000_000
"""Bytes: some 10 million rows; more is no walk and would fill the memory."""
MOST_COLUMNS = 500
"""A header with more columns than this is no table of ours."""
DECIMAL_COMMAS = 2
"""A row split at decimal commas has at least so many fields too many: x and y are there always."""
CHUNK = 16_384
"""Rows that csv hands on at once."""
DELIMITERS = (",", ";", "\t")
_LINE = re.compile(rb"[^\r\n]*(?:\r\n|\r|\n|$)")
_BOMS = ((codecs.BOM_UTF8, "utf-8"), (codecs.BOM_UTF16_LE, "utf-16-le"), (codecs.BOM_UTF16_BE, "utf-16-be"))


@dataclass(frozen=True, eq=False)
class LogTable:
    """A table as it stands in its file: k columns of n cells, untouched text.

    Attributes:
        file: name, as the user knows it.
        keys: the `# key: value` lines; a `#` line without a colon has the key "".
        key_lines: their lines in the file, from 1.
        header: (k,) column names as written.
        cells: (k,) columns of n cells.
        line: (n,) line where each row starts, from 1.
        bad_rows: rows that do not fit the header, left out of `cells`.
        encoding, delimiter: how the file was written.
    """

    file: str
    keys: tuple[tuple[str, str], ...]
    key_lines: tuple[int, ...]
    header: tuple[str, ...]
    cells: tuple[Sequence[str], ...]
    line: Ints
    bad_rows: tuple[BadRow, ...] = ()
    encoding: str = "utf-8"
    delimiter: str = ","

    def __len__(self) -> int:
        """How many rows there are."""
        return len(self.line)

    @cached_property
    def names(self) -> Mapping[str, int]:
        """Column numbers by name: lower case, `_` for spaces and hyphens."""
        return {plain_name(name): i for i, name in enumerate(self.header)}

    def raw(self, name: str) -> Sequence[str]:
        """The cells of a column as written; () where there is no such column."""
        i = self.names.get(name)
        return () if i is None else self.cells[i]

    def text(self, name: str) -> Sequence[str]:
        """The cells of a column without blanks at their ends; "" for each row where there is no such column."""
        if name not in self._texts:
            cells = self.raw(name) or self.no_texts
            is_bare = cells is self.no_texts or (isinstance(cells, Column) and not cells.is_spaced)
            self._texts[name] = cells if is_bare else [cell.strip() for cell in cells]
        return self._texts[name]

    @cached_property
    def no_texts(self) -> Same[str]:
        """(n,) blank cells, for all columns that are not there."""
        return Same("", len(self))

    @cached_property
    def no_numbers(self) -> Floats:
        """(n,) NaN, for all columns that are not there."""
        numbers = np.full(len(self), np.nan)
        numbers.setflags(write=False)
        return numbers

    @cached_property
    def _texts(self) -> dict[str, Sequence[str]]:
        """The columns that were asked for, so that none is stripped twice."""
        return {}


def plain_name(name: str) -> str:
    """A column name as we compare it: lower case, `_` for spaces and hyphens."""
    return name.strip().lower().replace(" ", "_").replace("-", "_")


def decode(file: str, data: bytes) -> tuple[str, str]:
    """The text of a file and the encoding it was in: UTF-8, UTF-16 with a mark, else Latin-1.

    Raises:
        BadInput: empty, larger than LARGEST_FILE, or not text (a NUL byte).
    """
    if len(data) > LARGEST_FILE:
        raise BadInput(
            "{file} has {size} bytes; more than {largest} cannot be a log. Split it.",
            file=file, size=len(data), largest=LARGEST_FILE,
        )  # fmt: skip
    for mark, encoding in _BOMS:
        if data.startswith(mark):
            text = _decode_as(file, data[len(mark) :], encoding)
            break
    else:
        try:
            text, encoding = data.decode("utf-8"), "utf-8"
        except UnicodeDecodeError:
            text, encoding = data.decode("latin-1"), "latin-1"
    if "\0" in text:
        raise BadInput(
            "{file}, line {line}: a NUL byte stands here, so this is not text. Save it again as UTF-8 CSV.",
            file=file, line=text.count("\n", 0, text.index("\0")) + 1,
        )  # fmt: skip
    if not text or text.isspace():
        raise BadInput("{file} is empty. Give a table with a header row.", file=file)
    return text, encoding


def _decode_as(file: str, data: bytes, encoding: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        raise BadInput(
            "{file} starts as {encoding} but byte {byte} does not fit. Save it again as UTF-8 CSV.",
            file=file, encoding=encoding.upper(), byte=error.start,
        ) from error  # fmt: skip


def read_table(file: str, data: bytes) -> LogTable:
    """Read a table: key lines, a header, rows. Nothing is interpreted, nothing dropped but blank lines.

    Args:
        file: its name, for messages.
        data: the file's bytes.

    Raises:
        BadInput: not text, empty, no header, quotes that do not match, columns unnamed or named twice.
    """
    data, encoding = _as_utf8(file, data)
    keys, lines, start, first = _read_keys(data)
    if start >= len(data):
        raise BadInput(
            "{file} has no header row. Give the column names in the line above the rows.", file=file
        )
    delimiter = find_delimiter(_line(data, start))
    header, cells, line, bad = _read_body(file, data, start, delimiter, first)
    names, cells = _checked_header(file, header, cells)
    return LogTable(file, keys, lines, names, cells, line, bad, encoding, delimiter)


def _as_utf8(file: str, data: bytes) -> tuple[bytes, str]:
    """The bytes of the text in UTF-8, and the encoding it was in; ASCII is not copied."""
    if len(data) <= LARGEST_FILE and data.isascii() and b"\0" not in data and data and not data.isspace():
        return data, "utf-8"
    text, encoding = decode(file, data)
    return text.encode(), encoding


def find_delimiter(header: str) -> str:
    """The separator that stands most often in a header row, outside quotes."""
    bare = re.sub(r'"[^"]*"', "", header)
    return max(DELIMITERS, key=bare.count)


def _line(data: bytes, start: int) -> str:
    """The line that starts here, with its end."""
    return _LINE.match(data, start)[0].decode()  # type: ignore[index]  # it matches anything


def _read_keys(data: bytes) -> tuple[tuple[tuple[str, str], ...], tuple[int, ...], int, int]:
    """Key lines, their line numbers, where the header starts in the bytes, and its line."""
    keys, lines, start, number = [], [], 0, 1
    while start < len(data):
        line = _line(data, start)
        bare = line.strip().strip(",;\t ").strip('"')
        if bare and not bare.startswith("#"):
            break
        if bare:
            keys.append(_split_key(bare))
            lines.append(number)
        start, number = start + len(line.encode()), number + 1
    return tuple(keys), tuple(lines), start, number


def is_key(line: str) -> bool:
    """Whether a line above the header is a key line, a comment or blank."""
    bare = line.strip(",;\t ").strip('"')
    return not bare or bare.startswith("#")


def _split_key(line: str) -> tuple[str, str]:
    body = line[1:].strip()
    key, colon, value = body.partition(":")
    return (key.strip(), value.strip()) if colon else ("", body)


Body = tuple[list[str], "tuple[Sequence[str], ...]", Ints, "tuple[BadRow, ...]"]


def _read_body(file: str, data: bytes, start: int, delimiter: str, first: int) -> Body:
    """Header, columns, lines and bad rows; by whole columns where the table lets us."""
    if data.find(b"\r", start) >= 0 and data.find(b'"', start) < 0:
        data, start = data[start:].replace(b"\r\n", b"\n").replace(b"\r", b"\n"), 0
    split = split_table(data, delimiter, first, start)
    if split is not None:
        good, bad = _sort_rows(split.odd, split.odd_line, split.header, delimiter)
        if not good:
            return split.header, split.columns, split.line, tuple(bad)
    return _read_quoted(file, data[start:].decode(), delimiter, first)


def _read_quoted(file: str, body: str, delimiter: str, first: int) -> Body:
    """The general way: csv, with quoted fields, blank lines and rows that do not fit."""
    was_enabled = gc.isenabled()
    gc.disable()  # thousands of row lists would be walked through again and again, and none is garbage
    try:
        return _read_chunks(file, body, delimiter, first)
    finally:
        if was_enabled:
            gc.enable()


def _read_chunks(file: str, body: str, delimiter: str, first: int) -> Body:
    """Some thousand rows at once, so that a large table is never held as single cells."""
    reader = csv.reader(io.StringIO(body, newline=""), delimiter=delimiter, strict=True)
    headers, last, error = _parse_rows(reader, 1, [0])
    header: list[str] = headers[0] if headers else []
    texts: list[list[str]] = [[] for _ in header]
    lines, bad = [np.zeros(0, dtype=np.int64)], []
    while error is None:
        rows, ends, error = _parse_rows(reader, CHUNK, last[-1:])
        if not rows and error is None:
            break
        starts, last = np.array(ends[:-1], dtype=np.int64) + first, ends
        good, odd = _sort_rows(rows, starts, header, delimiter)
        bad += odd
        lines.append(starts[good])
        for column, cells in zip(texts, zip(*(rows[i] for i in good))):
            column.append("\0".join(cells) + "\0")
    if error is not None:
        bad.append(_cut_row(file, body, first, last[-1], error))
    columns = tuple(Column.of("".join(column)) for column in texts)
    return header, columns, np.concatenate(lines), tuple(bad)


def _sort_rows(
    rows: list[list[str]], starts: Ints, header: list[str], delimiter: str
) -> tuple[Sequence[int], list[BadRow]]:
    """The rows that fit the header, by number, and those that do not; blank lines are in neither."""
    width = len(header)
    good: list[int] = []
    bad: list[BadRow] = []
    if set(map(len, rows)) == {width} and header not in rows and [""] * width not in rows:
        return range(len(rows)), bad
    for i, row in enumerate(rows):
        while len(row) > width and not row[-1].strip():
            row.pop()
        if row == header:
            bad.append(BadRow(int(starts[i]), REPEATED_HEADER, ()))
        elif len(row) == width and any(row):
            good.append(i)
        elif "".join(row).strip():
            bad.append(_misfit(int(starts[i]), row, width, delimiter))
    return good, bad


def _misfit(line: int, row: list[str], width: int, delimiter: str) -> BadRow:
    shown = delimiter.join(row)[:60]
    if row[0].lstrip().startswith("#"):
        return BadRow(line, KEY_BELOW, (), {"cell": shown})
    fault = TOO_MANY_FIELDS if delimiter == "," and len(row) >= width + DECIMAL_COMMAS else WRONG_FIELDS
    return BadRow(line, fault, tuple(row), {"cell": shown, "found": len(row), "wanted": width})


def _parse_rows(
    reader: Reader, most: int, before: list[int]
) -> tuple[list[list[str]], list[int], str | None]:
    """The next rows, the line before them and the last line of each, and what is wrong with the row behind them."""
    rows: list[list[str]] = []
    ends = list(before)
    try:
        for row in islice(reader, most):
            rows.append(row)
            ends.append(reader.line_num)
    except csv.Error as error:
        return rows, ends, str(error)
    return rows, ends, None


def _cut_row(file: str, body: str, first: int, start: int, reason: str) -> BadRow:
    """A quote left open in the very last line is told, not raised."""
    rest = list(io.StringIO(body, newline=""))[start:]
    if start and len(rest) == 1 and reason.startswith("unexpected end"):
        return BadRow(first + start, UNCLOSED, (), {"cell": rest[0].strip()[:60]})
    raise BadInput(
        "{file}, line {line}: a field that starts here cannot be read ({reason}). "
        "Close each quoted field with a quote, and double the quotes inside it.",
        file=file, line=first + start, reason=reason,
    )  # fmt: skip


def _checked_header(
    file: str, header: list[str], cells: tuple[Sequence[str], ...]
) -> tuple[tuple[str, ...], tuple[Sequence[str], ...]]:
    """The header without nameless blank columns (a sheet's trailing separators).

    Raises:
        BadInput: too many columns, a column that holds cells but has no name, two of one name.
    """
    if len(header) > MOST_COLUMNS:
        raise BadInput(
            "{file}: the header has {found} columns; more than {most} cannot be a table of ours.",
            file=file, found=len(header), most=MOST_COLUMNS,
        )  # fmt: skip
    keep = [i for i, name in enumerate(header) if name.strip() or any(cell.strip() for cell in cells[i])]
    seen: dict[str, int] = {}
    for i in keep:
        name = plain_name(header[i])
        if not name:
            raise BadInput(
                "{file}: column {number} of the header has no name. Name it.", file=file, number=i + 1
            )
        if name in seen:
            raise BadInput(
                'The header of {file} names the column "{column}" twice (fields {one} and {two}). Rename one.',
                file=file, column=header[i].strip(), one=seen[name] + 1, two=i + 1,
            )  # fmt: skip
        seen[name] = i
    return tuple(header[i] for i in keep), tuple(cells[i] for i in keep)


def write_table(table: LogTable) -> str:
    """The table as UTF-8 CSV text with commas: key lines, header, rows; reading it gives the same cells."""
    lines = [f"# {key}: {value}" if key else f"# {value}" for key, value in table.keys]
    return "\n".join(lines) + ("\n" if lines else "") + write_rows(table.header, zip(*table.cells))


def write_rows(header: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Header and rows as CSV lines, a field quoted where it must be."""
    return "".join(",".join(map(_quoted, row)) + "\n" for row in (header, *rows))


_MUST_QUOTE = re.compile(r'[",;\t\r\n]|^\s|\s$')


def _quoted(cell: str) -> str:
    return '"' + cell.replace('"', '""') + '"' if _MUST_QUOTE.search(cell) else cell
