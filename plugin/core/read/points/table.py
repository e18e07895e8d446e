# SPDX-License-Identifier: GPL-2.0-or-later
"""A point list's table: which column holds what, under names that messages and logs can use."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from ...errors import BadInput
from ..faults import BadRow
from ..table import LogTable, plain_name
from ..walk_log import COLUMNS
from .columns import HeaderUnits, Role, check_roles, find_header_units, read_header_cell


@dataclass(frozen=True, eq=False)
class PointTable:
    """A list's table, with `walk` and `station` put in front, by which findings name its rows.

    `column` has the plain name by role; `extra` the columns to keep, by the name they are kept under; `units` what
    the header states.
    """

    table: LogTable
    column: Mapping[Role, str]
    extra: Mapping[str, Sequence[str]]
    units: HeaderUnits

    def name(self, role: Role) -> str:
        """The plain name of a role's column; "", which no column has, where there is none."""
        return self.column.get(role, "")


def stem_of(file: str) -> str:
    """A file's name without its folder and its suffix."""
    name = file.replace("\\", "/").rsplit("/", 1)[-1]
    return name.rpartition(".")[0] or name


def make_point_table(
    table: LogTable, roles: Sequence[Role | None], units_in: Sequence[str] | None = None
) -> PointTable:
    """The table with its columns told apart.

    Args:
        table: as read.
        roles: what each of its columns holds.
        units_in: the names that state units, where they are not the table's own.

    Raises:
        BadInput: a walk log, no two columns that give a place, no rows, or units that are not read.
    """
    if "walk" in table.names:
        raise BadInput(
            "{file} has a column walk, so it is a walk log, not a point list. Give it the columns walk, station, x and y.",
            file=table.file,
        )  # fmt: skip
    check_roles(table.file, table.header, roles)
    if not len(table) and not table.bad_rows:
        raise BadInput(
            "{file}: the point list has a header but no points. Give a row a point.", file=table.file
        )
    units = find_header_units(table.file, units_in or table.header, roles)
    names = _shown_names(table.header, roles)
    column = {role: plain_name(name) for name, role in zip(names, roles) if role}
    extra = {name: cells for name, cells, role in zip(names, table.cells, roles) if role is None}
    return PointTable(_with_names(table, names, roles), column, extra, units)


def _shown_names(header: Sequence[str], roles: Sequence[Role | None]) -> list[str]:
    """The columns' names in messages: without units, and so that what is only kept passes for no column of a log."""
    shown = [
        read_header_cell(written).word or role.value if role else written.strip()
        for written, role in zip(header, roles)
    ]
    taken = {plain_name(name) for name, role in zip(shown, roles) if role} | set(COLUMNS)
    names = []
    for name, role in zip(shown, roles):
        free = name
        while not role and plain_name(free) in taken:
            free += "_listed"
        taken.add(plain_name(free))
        names.append(free)
    return names


def _with_names(table: LogTable, names: Sequence[str], roles: Sequence[Role | None]) -> LogTable:
    at = roles.index(Role.NUMBER) if Role.NUMBER in roles else None
    walk = stem_of(table.file)
    given = [""] * len(table) if at is None else [cell.strip() for cell in table.cells[at]]
    numbers = _numbered(given)
    # a column of numbers that is called station already stands for itself
    is_named = at is not None and plain_name(names[at]) == "station"
    cells = tuple(numbers if i == at else column for i, column in enumerate(table.cells))
    return replace(
        table,
        header=("walk", *(() if is_named else ("station",)), *names),
        cells=((walk,) * len(table), *(() if is_named else (numbers,)), *cells),
        bad_rows=tuple(_named_bad_row(row, walk, at, is_named=is_named) for row in table.bad_rows),
    )


def _named_bad_row(row: BadRow, walk: str, at: int | None, *, is_named: bool) -> BadRow:
    if not row.cells:
        return row
    number = row.cells[at].strip() if at is not None and at < len(row.cells) else ""
    return replace(row, cells=(walk, *(() if is_named else (number,)), *row.cells))


def _numbered(given: Sequence[str]) -> tuple[str, ...]:
    """The points' numbers; one that is missing is the next that no point has."""
    taken = set(given)
    if "" not in taken:
        return tuple(given)
    last, names = 0, []
    for name in given:
        if not name:
            last += 1
            while str(last) in taken:
                last += 1
        names.append(name or str(last))
    return tuple(names)
