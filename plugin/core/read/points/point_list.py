# SPDX-License-Identifier: GPL-2.0-or-later
"""Point lists: number, northing, easting, elevation, description in any order -> one walk of single points."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields, replace
from itertools import compress
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from ...errors import BadInput
from ...findings import Decisions, Finding, Severity
from ...walk import Kind, Leg, LogKeys
from ..cells import need_filled, read_lengths, read_words, refuse_formulas, words_of
from ..faults import LEFT_OUT, SURVEY, RowFaults
from ..keys import KEPT, LOG_KEYS, tell_kept
from ..recorded import FileRead, Rows, make_walk
from ..repeats import tell_restarts
from ..stated import AS_WRITTEN, restate
from .columns import COORDINATES, OTHER, PLANS, Role, find_roles, read_choice
from .degrees import read_degrees
from .headers import find_names
from .keys import has_degrees, read_list_keys
from .order import ask_order, find_orders
from .swap import EXCHANGE, ask_exchange
from .table import PointTable, make_point_table, stem_of
from .text import ListText, is_value, read_as_table, read_text

if TYPE_CHECKING:
    from ...quantity import Floats
    from ...walk import Walk
    from ..stated import Stated

_KINDS: Mapping[str, Kind] = words_of(Kind)
_LEGS: Mapping[str, Leg] = words_of(Leg)
_TEXTS = ((Role.DESCRIPTION, "note"), (Role.ITEM, "item"))


def read_point_list(
    file: str,
    data: bytes,
    decisions: Decisions,
    columns: tuple[str, ...] | None = None,
    stated: Stated = AS_WRITTEN,
) -> FileRead:
    """Read a point list as one walk, named by the file's stem, whose points err each by itself.

    Args:
        file: its name, for messages.
        data: the file's bytes.
        decisions: answers; of these, the order of the columns (IN-01), the unit (IN-02) and exchanged coordinates
            (PL-04) change what is read.
        columns: what the columns are, in the words of point_columns.CHOICE_WORDS, for a list without header or in
            place of its header; "" or `other` is a column that is only kept.
        stated: units and CRS that count in place of the file's; its columns are given in `columns`.

    Returns:
        The walk and what was noticed; no walk where no row can be read, or where nobody has said yet in which order the
        columns stand.

    Raises:
        BadInput: the file cannot be used at all: not text, no points, no two columns that give a place, or `columns`
            that do not fit.
    """
    written = read_text(file, data)
    source = find_names(written)
    if columns is not None:
        return _read_chosen(source, columns, decisions, stated)
    if source.layout.header is not None:
        table = read_as_table(source, None if source is written else source.layout.header)
        return _read_listed(make_point_table(table, find_roles(table.header)), decisions, stated)
    return _read_unnamed(source, decisions, stated)


def _read_unnamed(source: ListText, decisions: Decisions, stated: Stated) -> FileRead:
    """A list without header: asked about, and read in the order that was answered."""
    layout = source.layout
    if not layout.fitting or not find_orders(layout):
        raise BadInput(
            "{file} has no column names, and its rows do not show which columns give a place. Put a line with the names "
            "above them, such as: number, northing, easting, elevation, description.",
            file=source.file,
        )  # fmt: skip
    finding = decisions.answered(ask_order(source.file, source.line, stem_of(source.file), layout))
    if finding.answer is None or finding.answer == LEFT_OUT:
        return FileRead(findings=(finding,))
    read = _read_chosen(source, finding.answer.split(", "), decisions, stated)
    # an answer for the first point must not be taken for the order, nor the order for such an answer
    rows = (
        replace(told, place=SURVEY) if (told.code, told.place) == (finding.code, finding.place) else told
        for told in read.findings
    )
    return replace(read, findings=(finding, *rows))


def _read_chosen(source: ListText, columns: Sequence[str], decisions: Decisions, stated: Stated) -> FileRead:
    """The list read by a choice of columns, which counts more than its header."""
    roles = read_choice(source.file, columns)
    source = _with_header(source, roles)
    width = source.layout.width
    if len(roles) != width:
        raise BadInput(
            "{file} has {found} columns, but {wanted} were named: {columns}. Name each column once, and give {other} for "
            "one that is only kept.",
            file=source.file, found=width, wanted=len(roles), columns=", ".join(columns), other=OTHER,
        )  # fmt: skip
    written = source.layout.header
    units_in = written or ("",) * width
    names = [
        role.value if role else old.strip() or f"column {i}"
        for i, (role, old) in enumerate(zip(roles, units_in), 1)
    ]
    table = read_as_table(source, names)
    read = _read_listed(make_point_table(table, roles, units_in), decisions, stated)
    if written is None:
        return read
    return replace(read, findings=(*read.findings, _header_passed(source, written)))


def _with_header(source: ListText, roles: Sequence[Role | None]) -> ListText:
    """The list with its first row taken for the header, where none of the cells that were to be numbers is one."""
    layout = source.layout
    first = layout.rows[0] if layout.rows else ()
    cells = [cell for cell, role in zip(first, roles) if role in COORDINATES]
    if layout.header is not None or not cells or any(is_value(cell, layout.separator) for cell in cells):
        return source
    return replace(source, layout=replace(layout, header=first, rows=layout.rows[1:]))


def _header_passed(source: ListText, written: Sequence[str]) -> Finding:
    return Finding(
        KEPT,
        Severity.NOTE,
        SURVEY,
        template="{file}: the columns were chosen, so its header is not used: {names}.",
        remedy="None needed.",
        data={"file": source.file, "names": ", ".join(name.strip() for name in written)[:200]},
        file=source.file,
    )


def _read_listed(listed: PointTable, decisions: Decisions, stated: Stated) -> FileRead:
    """The walk of a list whose columns are known."""
    listed, chosen = _restated(listed, stated)
    table = listed.table
    keys, findings = read_list_keys(listed, decisions)
    faults = RowFaults(table, ("walk", "station"))
    rows = _kept(_read_rows(listed, keys, faults), faults.keep)
    told = (*chosen, *findings, *faults.findings())
    kept = tell_kept(table, ("walk", "station", *listed.column.values()), LOG_KEYS)
    if not len(rows.xy):
        return FileRead(findings=tuple(map(decisions.answered, (*told, *kept))))
    walk, swapped = _exchanged(make_walk(stem_of(table.file), table.file, keys, rows), decisions)
    walks, restarts = tell_restarts([walk], decisions)
    return FileRead(walks, tuple(map(decisions.answered, (*told, *swapped, *restarts, *kept))))


def _restated(listed: PointTable, stated: Stated) -> tuple[PointTable, tuple[Finding, ...]]:
    """The list with what is stated of it; stated units go before those of its header, sigmas keep their own."""
    units = listed.units
    table, told = restate(listed.table, stated, (*units.plan, *units.height))
    if stated.units:
        units = replace(units, plan=(), height=())
    return replace(listed, table=table, units=units), told


def _exchanged(walk: Walk, decisions: Decisions) -> tuple[Walk, tuple[Finding, ...]]:
    asked = ask_exchange(walk)
    if asked is None:
        return walk, ()
    finding = decisions.answered(asked)
    if finding.answer == EXCHANGE:
        xy = walk.xy[:, ::-1].copy()
        xy.setflags(write=False)
        walk = replace(walk, xy=xy)
    return walk, (finding,)


def _read_rows(listed: PointTable, keys: LogKeys, faults: RowFaults) -> Rows:
    """All rows; those that `faults` names hold NaN where nothing could be read."""
    table, name = listed.table, listed.name
    for role in (Role.NUMBER, Role.DESCRIPTION, Role.MARK, Role.FEATURE, Role.PART):
        refuse_formulas(table, name(role), faults)
    return Rows(
        xy=_read_plan(listed, keys, faults),
        line=table.line.tolist(),
        station=table.raw("station"),
        z=read_lengths(table, name(Role.ELEVATION), faults, keys.unit_m),
        feature=table.text(name(Role.FEATURE)),
        part=table.text(name(Role.PART)),
        kind=read_words(table, name(Role.GEOMETRY), faults, _KINDS, None),
        leg=read_words(table, name(Role.LEG), faults, _LEGS, Leg.DIRECT),
        mark=table.text(name(Role.MARK)),
        sd_xy=_read_sigma(listed, keys, faults),
        sd_z=_read_sd(listed, Role.SD_Z, keys, faults),
        texts={text: table.text(name(role)) for role, text in _TEXTS if role in listed.column},
        extra=listed.extra,
    )


def _read_plan(listed: PointTable, keys: LogKeys, faults: RowFaults) -> Floats:
    """(n, 2) east and north in metres, or in the CRS's unit; longitude and latitude in degrees."""
    table = listed.table
    east, north = next(pair for pair in PLANS if set(pair) <= set(listed.column))
    names = (listed.name(east), listed.name(north))
    for name in names:
        need_filled(table, name, faults)
    if east is Role.LONGITUDE or has_degrees(keys.crs):
        values = [read_degrees(table, name, faults, kind) for name, kind in zip(names, ("EW", "NS"))]
    else:
        unit = 1.0 if keys.crs else keys.unit_m
        values = [read_lengths(table, name, faults, unit) for name in names]
    return np.column_stack(values)


def _read_sigma(listed: PointTable, keys: LogKeys, faults: RowFaults) -> Floats:
    """(n,) sigma per axis; of one for east and one for north, the root of their mean square."""
    axes = [role for role in (Role.SD_XY, Role.SD_EAST, Role.SD_NORTH) if role in listed.column]
    values = [_read_sd(listed, role, keys, faults) for role in axes]
    if not values:
        return np.full(len(listed.table), np.nan)
    return np.asarray(np.sqrt(np.mean(np.square(values), axis=0)), dtype=float)


def _read_sd(listed: PointTable, role: Role, keys: LogKeys, faults: RowFaults) -> Floats:
    unit = listed.units.sigma_m(role, keys.unit_m)
    return read_lengths(listed.table, listed.name(role), faults, unit, may_be_negative=False)


def _kept(rows: Rows, keep: npt.NDArray[np.bool_] | None) -> Rows:
    """Without the rows that cannot be read."""
    if keep is None:
        return rows
    flags = keep.tolist()

    def some(values: Sequence[object] | Mapping[str, Sequence[object]] | Floats | None) -> object:
        if isinstance(values, np.ndarray):
            return values[keep]
        if isinstance(values, Mapping):
            return {name: tuple(compress(cells, flags)) for name, cells in values.items()}
        return None if values is None else tuple(compress(values, flags))

    return Rows(**{field.name: some(getattr(rows, field.name)) for field in fields(Rows)})  # type: ignore[arg-type]
