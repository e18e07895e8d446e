# SPDX-License-Identifier: GPL-2.0-or-later
"""Columns of text -> numbers and words; what cannot be read goes to the row's faults."""

from __future__ import annotations

import re
from enum import Enum
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from .columns import Column, Same, blanks_of
from .faults import (
    BLANK,
    DECIMAL_COMMA,
    FORMULA,
    NEGATIVE,
    NOT_A_NUMBER,
    NOT_A_WORD,
    NOT_FINITE,
    TOO_LARGE,
    Fault,
    RowFaults,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from ..quantity import Floats
    from .table import LogTable

LARGEST_LENGTH = 1e9
"""Metres: farther than any coordinate on the Earth in any CRS."""
FORMULA_SIGN = "="
_COMMA_NUMBER = re.compile(r"^[+-]?\d+,\d+$")
_Member = TypeVar("_Member", bound=Enum)
_Blank = TypeVar("_Blank", bound="Enum | None")


def read_numbers(table: LogTable, column: str, faults: RowFaults) -> Floats:
    """(n,) the column's numbers, NaN where blank or unreadable (then told).

    A decimal comma is read where the separator is not a comma and the column has no decimal point.
    """
    cells = table.raw(column)
    if not cells:
        return table.no_numbers
    values = _all_numbers(cells)
    if values is None and table.delimiter != ",":
        values = _all_numbers(cells, ",")
    return values if values is not None else _one_by_one(table, column, faults)


def _all_numbers(cells: Sequence[str], mark: str = ".") -> Floats | None:
    """All cells at once; None where one of them is neither blank nor a finite number with this decimal mark."""
    if not isinstance(cells, Column):
        return _all_floats(cells, mark)
    values, others = cells.decimals(mark)
    if len(others):
        found = _all_floats(cells.at(others).texts, mark)
        if found is None:
            return None
        values[others] = found
    return values


def _all_floats(cells: Sequence[str], mark: str) -> Floats | None:
    if mark != ".":
        if any("." in cell for cell in cells):
            return None
        cells = [cell.replace(mark, ".") for cell in cells]
    try:
        values = np.array(cells, dtype=np.float64)
        blanks = 0
    except ValueError:
        filled = [cell if cell and not cell.isspace() else "nan" for cell in cells]
        blanks = sum(map(cells.count, {cell for cell in cells if not cell or cell.isspace()}))
        try:
            values = np.array(filled, dtype=np.float64)
        except ValueError:
            return None
    # float() takes 1_000 too, which no instrument writes
    if np.isfinite(values).sum() + blanks != len(cells) or "_" in "".join(cells):
        return None
    return values


def _one_by_one(table: LogTable, column: str, faults: RowFaults) -> Floats:
    cells = table.text(column)
    commas = table.delimiter != "," and not any("." in cell and "," not in cell for cell in cells)
    values, rows = np.full(len(cells), np.nan), np.arange(len(cells))
    as_written = table.raw(column)
    if isinstance(as_written, Column):
        values, rows = as_written.decimals(".")
    for row in rows.tolist():
        cell = cells[row]
        if not cell:
            continue
        number = parse_number(cell.replace(",", ".") if commas and _COMMA_NUMBER.match(cell) else cell)
        if number is None or not np.isfinite(number):
            faults.add(row, number_fault(cell, number), column, better=cell.replace(",", "."))
        else:
            values[row] = number
    return values


def parse_number(text: str) -> float | None:
    """A number (finite or not), None where the text is none."""
    try:
        return None if "_" in text else float(text)
    except ValueError:
        return None


def number_fault(cell: str, number: float | None) -> Fault:
    """Why a cell is not a finite number."""
    if number is not None:
        return NOT_FINITE
    if cell.startswith(FORMULA_SIGN):
        return FORMULA
    return DECIMAL_COMMA if _COMMA_NUMBER.match(cell) else NOT_A_NUMBER


def read_lengths(
    table: LogTable, column: str, faults: RowFaults, unit_m: float = 1.0, *, may_be_negative: bool = True
) -> Floats:
    """(n,) the column in metres (unit_m metres a unit), NaN where blank or unreadable (then told)."""
    values = read_numbers(table, column, faults)
    if column not in table.names:
        return values
    if unit_m != 1.0:
        values = values * unit_m
    is_large = (values > LARGEST_LENGTH) | (values < -LARGEST_LENGTH)
    faults.add_where(is_large, TOO_LARGE, column, largest="1e9 m")
    if not may_be_negative:
        faults.add_where(values < 0, NEGATIVE, column)
    return values


def need_filled(table: LogTable, column: str, faults: RowFaults) -> None:
    """Tell the rows whose field is blank."""
    faults.add_where(blanks_of(table.text(column)), BLANK, column)


def refuse_formulas(table: LogTable, column: str, faults: RowFaults) -> None:
    """Tell the rows whose name is a spreadsheet formula."""
    cells = table.text(column)
    if column not in table.names or (isinstance(cells, Column) and not cells.may_start_with(FORMULA_SIGN)):
        return
    for row, cell in enumerate(cells):
        if cell.startswith(FORMULA_SIGN):
            faults.add(row, FORMULA, column)


def words_of(kind: type[_Member]) -> Mapping[str, _Member]:
    """The words of an enum, as a reader takes them."""
    return {str(member.value): member for member in kind}


def read_words(
    table: LogTable, column: str, faults: RowFaults, words: Mapping[str, _Member], blank: _Blank
) -> Sequence[_Member | _Blank]:
    """(n,) the column's words as members; `blank` where blank or unreadable (then told)."""
    cells = table.text(column)
    if column not in table.names:
        return Same(blank, len(cells))
    kinds = {cell: word_of(cell, words) for cell in set(cells)}
    unknown = {cell for cell, member in kinds.items() if member is None and cell}
    if unknown:
        wrong = np.array([cell in unknown for cell in cells])
        faults.add_where(wrong, NOT_A_WORD, column, words=", ".join(words))
    members: dict[str, _Member | _Blank] = {
        cell: blank if member is None else member for cell, member in kinds.items()
    }
    return tuple(map(members.__getitem__, cells))


def word_of(cell: str, words: Mapping[str, _Member]) -> _Member | None:
    """The member that a cell means, whatever its case, with `-`, `_` or a blank between its words."""
    return words.get(cell.lower().replace("_", "-").replace(" ", "-"), words.get(cell.lower()))
