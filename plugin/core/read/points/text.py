# SPDX-License-Identifier: GPL-2.0-or-later
"""The text of a point list: which separator it has, whether a header, and how it becomes a table."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...errors import BadInput
from ..cells import parse_number
from ..faults import BadRow
from ..table import MOST_COLUMNS, LogTable, decode, find_delimiter, is_key, read_table
from .columns import Role, count_coordinates, find_roles, join_words
from .degrees import is_degrees

SAMPLE_SIZE = 65_536
"""Characters that are looked at to tell how a list is written."""
SAMPLE_LINES = 30
LONGEST_QUOTED = 100_000
"""Characters: the csv reader refuses a field of 131,072."""
BLANKS = " "
BAR = "|"
SEPARATORS = ("\t", ";", BAR, ",", BLANKS)
"""Where two explain a file as well, the earlier one is taken."""
_COMMA_NUMBER = re.compile(r"^[+-]?\d+,\d+$")
_LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n|$)")
_BEFORE_BRACKET = re.compile(r"\s+(?=[(\[])")
_PAIR = re.compile(r"\s*[+-]?[\d.]+\s+[+-]?[\d.]+\s*$")
"""Two numbers that a separator has left together: decimal commas between them are not separators."""
_TOKEN = re.compile(r'"(?:[^"]|"")*"(?=\s|$)|\S+')


@dataclass(frozen=True)
class Layout:
    """How a list is written.

    Attributes:
        separator: one of SEPARATORS.
        header: the cells of the header line, None where the first line is a point already.
        rows: the cells of the first lines below it.
        width: how many columns there are.
        pads: whether a row without its last cell, a description, is a row without description. Where no row of the
            sample has all columns, it is the header that has a name too many.
        is_above: whether the header is a comment above the rows, not their first line.
    """

    separator: str
    header: tuple[str, ...] | None
    rows: tuple[tuple[str, ...], ...]
    width: int
    pads: bool = True
    is_above: bool = False

    @property
    def fitting(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the sample that have all columns."""
        return tuple(row for row in self.rows if len(row) == self.width)


def is_number(cell: str, separator: str) -> bool:
    """Whether a cell holds a finite number, with a decimal comma where commas do not separate."""
    bare = cell.strip()
    if separator != "," and _COMMA_NUMBER.match(bare):
        return True
    number = parse_number(bare)
    return number is not None and abs(number) < float("inf")


def is_value(cell: str, separator: str) -> bool:
    """Whether a cell holds a number or an angle."""
    return is_number(cell, separator) or is_degrees(cell)


def find_layout(lines: Sequence[str]) -> Layout | None:
    """How the lines of a list are written; None where there is none but key lines and blank ones.

    Args:
        lines: the first lines of the file, whole ones.
    """
    first = next((i for i, line in enumerate(lines) if not is_key(line)), None)
    if first is None:
        return None
    sample = [line for line in lines[first:] if line.strip() and not line.lstrip().startswith("#")][
        :SAMPLE_LINES
    ]
    if not sample:
        return None
    best = max((_layout(sample, separator) for separator in SEPARATORS if separator != BLANKS), key=_score)
    # blanks stand within cells too: they separate only where nothing else does
    return best if _is_sound(best) else max(best, _layout(sample, BLANKS), key=_score)


def _is_sound(layout: Layout) -> bool:
    """Whether a separator makes a table of the sample: two coordinates or columns of numbers, and rows of one width."""
    rows = layout.fitting
    if layout.rows and 2 * len(rows) <= len(layout.rows):
        return False
    if layout.header is not None:
        return count_coordinates(layout.header) > 1
    values = [sum(_is_one_value(cell, layout.separator) for cell in column) for column in zip(*rows)]
    pairs = [sum(bool(_PAIR.match(cell)) for cell in column) for column in zip(*rows)]
    return sum(2 * count > len(rows) for count in values) > 1 and not any(2 * n > len(rows) for n in pairs)


def _score(layout: Layout) -> tuple[int, int, int]:
    """The more names of coordinates a separator brings out, and the more numbers and fewer other cells, the better."""
    names = count_coordinates(layout.header) if layout.header else 0
    cells = [cell.strip() for row in layout.rows for cell in row]
    values = sum(_is_one_value(cell, layout.separator) for cell in cells)
    return names, 2 * values - sum(map(bool, cells)), -len(cells) - len(layout.header or ())


def _is_one_value(cell: str, separator: str) -> bool:
    return is_number(cell, separator) or (is_degrees(cell) and not _PAIR.match(cell))


def _layout(sample: Sequence[str], separator: str) -> Layout:
    rows = [tuple(split_line(line, separator)) for line in sample]
    if _is_header(rows[0], separator):
        return _layout_below(tuple(split_header(sample[0], separator)), rows[1:], separator)
    if separator == BLANKS:
        width, has_text = _width_of_blanks(rows)
        rows = [tuple(_to_width(row, width)) if has_text else row for row in rows]
        return Layout(separator, None, tuple(rows), width)
    return Layout(separator, None, tuple(rows), Counter(map(len, rows)).most_common(1)[0][0])


def _layout_below(header: tuple[str, ...], rows: Sequence[Sequence[str]], separator: str) -> Layout:
    """The layout of rows below a header."""
    width, pads = len(header), True
    if separator == BLANKS and takes_rest(header):
        pads = any(len(row) >= width for row in rows)
        rows = [_to_width(row, width, pads=pads) for row in rows]
    return Layout(separator, header, tuple(map(tuple, rows)), width, pads)


def _is_header(cells: Sequence[str], separator: str) -> bool:
    return not any(is_value(cell, separator) for cell in cells) or count_coordinates(cells) > 1


def takes_rest(header: Sequence[str]) -> bool:
    """Whether the last column is a description, which may have blanks in it."""
    return find_roles(header)[-1] is Role.DESCRIPTION


def _width_of_blanks(rows: Sequence[Sequence[str]]) -> tuple[int, bool]:
    """Columns of a list without header that blanks separate, and whether the last one is text."""
    leads = [_values_ahead(row) for row in rows]
    lead = Counter(leads).most_common(1)[0][0]
    has_text = any(len(row) > lead for row, own in zip(rows, leads) if own == lead)
    return lead + has_text, has_text


def _values_ahead(row: Sequence[str]) -> int:
    """Cells up to the first that is no number; a name may come first."""
    return next((i for i, cell in enumerate(row) if i and not is_number(cell, BLANKS)), len(row))


def split_line(line: str, separator: str) -> list[str]:
    """The cells of one line."""
    if separator == BLANKS:
        return [_unquoted(token) for token in _TOKEN.findall(line)] if '"' in line else line.split()
    if '"' not in line or len(line) > LONGEST_QUOTED:
        return line.split(separator)
    return next(csv.reader(io.StringIO(line.replace("\0", "")), delimiter=separator), [])


def _unquoted(token: str) -> str:
    is_quoted = len(token) > 1 and token[0] == token[-1] == '"'
    return token[1:-1].replace('""', '"') if is_quoted else token


def split_header(line: str, separator: str) -> list[str]:
    """The names in a header; where blanks separate them, two blanks or more do so the better.

    Commas behind the names (`x, y, z` above rows without any) are none of their own.
    """
    if separator != BLANKS:
        return split_line(line, separator)
    joined = _BEFORE_BRACKET.sub("", line.strip())
    names = join_words(split_line(joined, BLANKS))
    apart = re.split(r"\s{2,}|\t", joined)
    is_better = len(apart) > 1 and count_coordinates(apart) >= count_coordinates(names)
    return [name.rstrip(",;") or name for name in (apart if is_better else names)]


def _to_width(cells: Sequence[str], width: int, *, pads: bool = True) -> list[str]:
    """The cells with the words of a description at the end put together, and a blank one where it has none."""
    if len(cells) > width:
        return [*cells[: width - 1], " ".join(cells[width - 1 :])]
    return [*cells, ""] if pads and len(cells) == width - 1 else list(cells)


@dataclass(frozen=True)
class ListText:
    """A list's text, read once: where its first line that is no key line starts, its number, and how it is written."""

    file: str
    data: bytes
    text: str
    encoding: str
    start: int
    line: int
    layout: Layout


def read_text(file: str, data: bytes) -> ListText:
    """The text of a list and how it is written.

    Raises:
        BadInput: not text, empty, or nothing but key lines.
    """
    text, encoding = decode(file, data)
    head = text[:SAMPLE_SIZE]
    lines = re.split(r"\r\n|\r|\n", head)
    if len(text) > SAMPLE_SIZE and len(lines) > 1:
        lines.pop()
    layout = find_layout(lines)
    if layout is None:
        raise BadInput("{file} has no points. Give a line with column names, and a line a point.", file=file)
    if layout.width > MOST_COLUMNS:
        raise BadInput(
            "{file} has {found} columns; more than {most} cannot be a point list.",
            file=file, found=layout.width, most=MOST_COLUMNS,
        )  # fmt: skip
    start, line = 0, 1
    while is_key(_line_at(text, start)):
        start, line = start + len(_line_at(text, start)), line + 1
    return ListText(file, data, text, encoding, start, line, layout)


def _line_at(text: str, start: int) -> str:
    found = _LINE.match(text, start)
    return found[0] if found else ""


def read_as_table(source: ListText, names: Sequence[str] | None) -> LogTable:
    """The list as a table.

    Args:
        source: the list.
        names: its column names, where it has none or others are to be used; None for those of its header.

    Raises:
        BadInput: it cannot be read as a table.
    """
    layout = source.layout
    head = _line_at(source.text, source.start)
    is_plain = layout.separator not in (BAR, BLANKS) and find_delimiter(head) == layout.separator
    if names is None and is_plain:
        return read_table(source.file, source.data)
    is_tabbed = names is None or layout.separator in (BAR, BLANKS)
    separator = "\t" if is_tabbed else layout.separator
    has_header = layout.header is not None and not layout.is_above
    header = list(names if names is not None else layout.header or ())
    body = source.text[source.start + len(head) if has_header else source.start :]
    if layout.separator != separator:
        body = _tabbed(body, layout, header)
    line = separator.join(_field(name, separator) for name in header)
    table = _shifted(source.file, source.text[: source.start] + line + "\n" + body, 0 if has_header else -1)
    bad = (
        table.bad_rows
        if layout.separator == separator
        else tuple(_as_written(row, layout) for row in table.bad_rows)
    )
    return replace(table, encoding=source.encoding, bad_rows=bad)


def _as_written(row: BadRow, layout: Layout) -> BadRow:
    """A row that does not fit, shown with the separator that it has in the file."""
    return replace(
        row, data={**row.data, "cell": str(row.data.get("cell", "")).replace("\t", layout.separator)}
    )


def _tabbed(text: str, layout: Layout, header: Sequence[str]) -> str:
    """The rows with tabs between the cells; lines stay where they are."""
    old, width = layout.separator, len(header)
    plain = text.replace("\r\n", "\n").replace("\r", "\n").replace("\t", BLANKS)
    if old != BLANKS and '"' not in text:
        return plain.replace(old, "\t")
    has_text = old == BLANKS and takes_rest(header)
    written = []
    for line in plain.split("\n"):
        if not line.strip() or line.lstrip().startswith("#"):
            written.append(line)
            continue
        cells = split_line(line, old)
        if has_text:
            cells = _to_width(cells, width, pads=layout.pads)
        written.append("\t".join(map(_quoted, cells) if '"' in line else cells))
    return "\n".join(written)


def _quoted(cell: str) -> str:
    return _field(cell, "\t")


def _field(cell: str, separator: str) -> str:
    return '"' + cell.replace('"', '""') + '"' if separator in cell or '"' in cell else cell


def _shifted(file: str, text: str, by: int) -> LogTable:
    """The table of a text with a header line put in, its lines counted as in the file.

    Raises:
        BadInput: as read_table, its lines counted as in the file.
    """
    try:
        table = read_table(file, text.encode())
    except BadInput as error:
        line = error.fields.get("line")
        if by and isinstance(line, int):
            raise BadInput(error.template, **{**error.fields, "line": line + by}) from error
        raise
    if not by:
        return table
    bad = tuple(replace(row, line=row.line + by) for row in table.bad_rows)
    return replace(table, line=table.line + by, bad_rows=bad)
