# SPDX-License-Identifier: GPL-2.0-or-later
"""What can be wrong with a row, and the IN-01 findings that tell it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from ..findings import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from ..walk import Walk
    from .table import LogTable

LONGEST_SHOWN = 60
"""Characters of a cell that a message repeats."""
MOST_FINDINGS = 200
"""Of IN-01 from one file, one by one; a wrong column would otherwise give one a row, a million in all."""
LEFT_OUT = "left out"
"""The answer to IN-01: go on without this row or key."""
SURVEY = "survey"


@dataclass(frozen=True)
class Fault:
    """One way for a row to be unreadable; the file, line, column and cell are filled in."""

    template: str
    remedy: str


@dataclass(frozen=True)
class BadRow:
    """A row that does not fit the header: its line, what is wrong, the cells it has, and what to fill in."""

    line: int
    fault: Fault
    cells: tuple[str, ...]
    data: Mapping[str, object] = field(default_factory=dict)


NOT_A_NUMBER = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is not a number.',
    remedy="Give a number or empty the field; the rest of the file was read.",
)
DECIMAL_COMMA = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is not a number.',
    remedy="Write {better}, or separate the columns with semicolons; the rest of the file was read.",
)
FORMULA = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is a formula, not its value.',
    remedy="Save the sheet with values in place of formulas; the rest of the file was read.",
)
NOT_FINITE = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is not a finite number.',
    remedy="Give a number or empty the field; the rest of the file was read.",
)
TOO_LARGE = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is beyond {largest}.',
    remedy="Correct the number or the units; the rest of the file was read.",
)
NEGATIVE = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is below zero.',
    remedy="Give zero or more, or empty the field; the rest of the file was read.",
)
NOT_POSITIVE = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is not above zero.',
    remedy="Give a number above zero; the rest of the file was read.",
)
OUTSIDE = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is not from {least} to {most}.',
    remedy="Correct the number, or exchange the columns; the rest of the file was read.",
)
NOT_A_WORD = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is not one of: {words}.',
    remedy="Write one of these words or empty the field; the rest of the file was read.",
)
BLANK = Fault(
    template="{file}, line {line}, column {column}: the field is blank.",
    remedy="Fill the field in; the rest of the file was read.",
)
NO_SIDE = Fault(
    template='{file}, line {line}, column {column}: the offset "{cell}" has no side.',
    remedy="Write left or right into offset_side; the rest of the file was read.",
)
NOT_A_TIME = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is not a time.',
    remedy="Write it like 2024-05-01T09:30:00, or as seconds from the start; the rest of the file was read.",
)
MIXED_TIME = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is not written as the first time of the walk is.',
    remedy="Write all times of a walk in one way (with a zone, without, or in seconds); the rest of the file was read.",
)
WRONG_FIELDS = Fault(
    template='{file}, line {line}: "{cell}" has {found} fields where the header has {wanted}.',
    remedy="Complete the line, or quote a field that holds the separator; the rest of the file was read.",
)
TOO_MANY_FIELDS = Fault(
    template=WRONG_FIELDS.template,
    remedy="Are these decimal commas? Write points, or separate the columns with semicolons. Else quote a field that "
    "holds a comma; the rest of the file was read.",
)
UNCLOSED = Fault(
    template='{file}, line {line}: "{cell}" is cut short in a quoted field.',
    remedy="Complete the line or take it out; the rest of the file was read.",
)
REPEATED_HEADER = Fault(
    template="{file}, line {line}: the header stands here again.",
    remedy="Take the line out, or keep the logs in files of their own; the rest of the file was read.",
)
KEY_BELOW = Fault(
    template='{file}, line {line}: "{cell}" stands below the header.',
    remedy="Put it above the header, or keep the logs in files of their own; the rest of the file was read.",
)
BAD_KEY = Fault(
    template='{file}, line {line}, key {column}: "{cell}" cannot be used; {words}.',
    remedy="Correct the line; until then the survey goes on as if the key were not given.",
)
HALF_POINT = Fault(
    template="{file}, line {line}: {mark} has one of {columns} without the other.",
    remedy="Give both, or empty both for a level mark; the rest of the file was read.",
)
NO_POINT = Fault(
    template="{file}, line {line}: {mark} has neither a map point nor a height.",
    remedy="Give {columns}, or z for a level mark; the rest of the file was read.",
)
AGAIN = Fault(
    template="{file}, line {line}: {mark} stands here again; it is already in line {first}.",
    remedy="Keep one of the two lines; the rest of the file was read.",
)
SAME_ENDS = Fault(
    template="{file}, line {line}: the tape runs from {mark} to {mark}.",
    remedy="Name two different marks; the rest of the file was read.",
)
AND_MORE = Fault(
    template="{file}, from line {line} on: {found} more lines cannot be read.",
    remedy="Look first at the lines named; the rest of the file was read.",
)


def named(columns: Sequence[str], cells: Sequence[str]) -> str:
    """The key of a finding from the cells that name its row; `survey` where one is blank."""
    if not cells or not all(cells):
        return SURVEY
    return ("+" if columns[0] == "from" else ":").join(cells)


class RowFaults:
    """Collects what is wrong with a table's rows; each row is told once, by its first fault."""

    def __init__(self, table: LogTable, naming: Sequence[str]) -> None:
        """Start empty.

        Args:
            table: the table whose rows are read.
            naming: the columns whose cells name a row, such as `walk`, `station`.
        """
        self._table = table
        self._naming = tuple(naming)
        self._found: dict[int, tuple[Fault, Mapping[str, object]]] = {}

    def add(self, row: int, fault: Fault, column: str = "", **data: object) -> None:
        """Note a fault of a row (from 0) in a column."""
        cell = str(data.pop("cell", self._cell(row, column)))
        if row not in self._found:
            self._found[row] = (fault, {"column": column, "cell": cell[:LONGEST_SHOWN], **data})

    def add_where(self, mask: npt.NDArray[np.bool_], fault: Fault, column: str, **data: object) -> None:
        """Note a fault of all rows where the mask is true."""
        for row in np.flatnonzero(mask).tolist():
            self.add(row, fault, column, **data)

    @property
    def keep(self) -> npt.NDArray[np.bool_] | None:
        """(n,) rows that can be read; None where all can."""
        if not self._found:
            return None
        keep = np.ones(len(self._table), dtype=bool)
        keep[list(self._found)] = False
        return keep

    def findings(self) -> tuple[Finding, ...]:
        """The IN-01 stops of the table, by line; from MOST_FINDINGS on in one."""
        table = self._table
        told = [(int(table.line[row]), row, *found) for row, found in self._found.items()]
        rows = [self._finding(line, fault, data, self._names(row)) for line, row, fault, data in told]
        rows += [self._finding(b.line, b.fault, b.data, self._bad_names(b)) for b in table.bad_rows]
        rows.sort(key=lambda finding: finding.line or 0)
        if len(rows) > MOST_FINDINGS:
            more = {"found": len(rows) - MOST_FINDINGS}
            rest = self._finding(rows[MOST_FINDINGS].line or 0, AND_MORE, more, {})
            rows = [*rows[:MOST_FINDINGS], rest]
        return tuple(rows)

    def _cell(self, row: int, column: str) -> str:
        cells = self._table.raw(column)
        return cells[row].strip() if cells else ""

    def _names(self, row: int) -> dict[str, str]:
        return {column: self._cell(row, column) for column in (*self._naming, "feature")}

    def _bad_names(self, bad: BadRow) -> dict[str, str]:
        where = self._table.names
        return {
            column: bad.cells[where[column]].strip()
            for column in (*self._naming, "feature")
            if column in where and where[column] < len(bad.cells)
        }

    def _finding(
        self, line: int, fault: Fault, data: Mapping[str, object], names: Mapping[str, str]
    ) -> Finding:
        if "walk" in self._naming and not names.get("walk"):
            data = {**data, "whole": True}  # of no one knows which walk: of any of the file's
        return unreadable(
            self._table.file,
            line,
            fault,
            data,
            named(self._naming, [names.get(column, "") for column in self._naming]),
            walk=names.get("walk", ""),
            station=names.get("station", ""),
            feature=names.get("feature", ""),
        )


def of_whole_file(findings: Iterable[Finding], walks: Sequence[Walk]) -> tuple[Finding, ...]:
    """IN-01 stops that are of no one row, at the first station of the file's walks: an answer for one file is none for
    another, and while they are open the figures of all its walks are kept out (`whole` in their data)."""
    return tuple(
        replace(
            finding,
            place=walks[0].place(0),
            data={**finding.data, "whole": True},
            walk=walks[0].name,
            station=walks[0].station[0],
        )
        if walks and finding.code == "IN-01" and finding.place == SURVEY
        else finding
        for finding in findings
    )


def unreadable(
    file: str, line: int, fault: Fault, data: Mapping[str, object], place: str = SURVEY, **names: str
) -> Finding:
    """The IN-01 stop for one line; `left out` answers it."""
    return Finding(
        "IN-01",
        Severity.STOP,
        place,
        fault.template,
        fault.remedy,
        {"file": file, "line": line, **data},
        file=file,
        line=line,
        answers=(LEFT_OUT,),
        **names,  # type: ignore[arg-type]  # walk, station and feature, all text
    )
