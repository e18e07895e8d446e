# SPDX-License-Identifier: GPL-2.0-or-later
"""The table of limits: text -> limits, with a finding for every row that cannot be used."""

from __future__ import annotations

import math
import re
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from ..errors import BadInput
from ..read.cells import need_filled, read_numbers, read_words, refuse_formulas
from ..read.faults import NOT_A_WORD, NOT_POSITIVE, Fault, RowFaults
from ..read.keys import tell_kept
from ..units import LOG_UNITS, UNITS
from .limits import SLOPES, By, Figure, Limit, LimitUnit, Per, Thing

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ..findings import Finding
    from ..read.table import LogTable

COLUMNS = (
    "limit",
    "applies_to",
    "quantity",
    "at_most",
    "at_least",
    "unit",
    "per",
    "source",
    "seen_or_memory",
    "note",
    "items",
)
NEEDED = ("limit", "applies_to", "quantity", "unit")
SLOPE_UNITS: Mapping[str, LimitUnit] = MappingProxyType(
    {
        "1:n": LimitUnit("1:n", 1.0, is_n=True),
        "ratio": LimitUnit("ratio"),
        "%": LimitUnit("%", 0.01),
        "deg": LimitUnit("deg", math.pi / 180.0),
    }
)
LENGTH_UNITS: Mapping[str, LimitUnit] = MappingProxyType(
    {name: LimitUnit(name, UNITS[name].factor) for name in LOG_UNITS}
)
SEEN, MEMORY = "seen", "memory"
_PER = re.compile(r"(rise|run) (up to|at) (\d+(?:\.\d+)?) ?(m|mm|cm|in|ft|us-ft)")
NO_BOUND = Fault(
    template="{file}, line {line}: the limit has neither at_most nor at_least.",
    remedy="Give one of them, or both; the rest of the file was read.",
)
NO_ROOM = Fault(
    template="{file}, line {line}: nothing lies between at_least and at_most.",
    remedy="Exchange the two (of 1:n, the larger n is the flatter); the rest of the file was read.",
)
BAD_PER = Fault(
    template='{file}, line {line}, column {column}: "{cell}" does not say what the limit hangs on.',
    remedy="Write it like rise up to 150 mm, or run at 5 m, or empty the field; the rest of the file was read.",
)


def read_limits(table: LogTable) -> tuple[tuple[Limit, ...], tuple[Finding, ...]]:
    """The limits of a table, in its order.

    Raises:
        BadInput: a needed column is missing, or not one row can be used.
    """
    missing = [name for name in NEEDED if name not in table.names]
    if missing:
        raise BadInput(
            "{file}: the limits have no column {missing}. Their header needs limit, applies_to, quantity and unit; it has "
            "{header}.",
            file=table.file,
            missing=" or ".join(missing),
            header=", ".join(table.header),
        )
    faults = RowFaults(table, ("limit",))
    for name in NEEDED:
        need_filled(table, name, faults)
    for name in ("limit", "items", "source", "note"):
        refuse_formulas(table, name, faults)
    limits = _rows(table, faults)
    findings = (*faults.findings(), *tell_kept(table, COLUMNS, ()))
    if not limits:
        raise BadInput(
            "{file} has no limit that can be used. {first}",
            file=table.file,
            first=findings[0].message if findings else "Give it rows.",
        )
    return limits, findings


def _rows(table: LogTable, faults: RowFaults) -> tuple[Limit, ...]:
    things = read_words(table, "applies_to", faults, {m.value: m for m in Thing}, None)
    figures = read_words(table, "quantity", faults, {m.value: m for m in Figure}, None)
    bounds = {name: read_numbers(table, name, faults) for name in ("at_most", "at_least")}
    for name, values in bounds.items():
        faults.add_where(values < 0.0, NOT_POSITIVE, name)
    faults.add_where(np.isnan(bounds["at_most"]) & np.isnan(bounds["at_least"]), NO_BOUND, "at_most")
    cells = {name: table.text(name) for name in COLUMNS}
    found = []
    for k in range(len(table)):
        thing, figure = things[k], figures[k]
        if thing is None or figure is None:
            continue
        unit = _unit(cells["unit"][k], figure, faults, k)
        per = _per(cells["per"][k], faults, k)
        if unit is None:
            continue
        most, least = (float(bounds[name][k]) for name in ("at_most", "at_least"))
        if unit.is_n and 0.0 in (most, least):
            faults.add(k, NOT_POSITIVE, "at_most" if most == 0.0 else "at_least")
            continue
        limit = Limit(
            cells["limit"][k],
            thing,
            figure,
            None if math.isnan(most) else most,
            None if math.isnan(least) else least,
            unit,
            per,
            cells["source"][k],
            cells["seen_or_memory"][k].lower() == SEEN,
            cells["note"][k],
            int(table.line[k]),
            tuple(cells["items"][k].split()),
        )
        if limit.bounds[0] > limit.bounds[1]:
            faults.add(k, NO_ROOM)
        found.append((k, limit))
    keep = faults.keep
    return tuple(limit for k, limit in found if keep is None or keep[k])


def _unit(cell: str, figure: Figure, faults: RowFaults, row: int) -> LimitUnit | None:
    """The unit that a figure's limit may be in."""
    units = SLOPE_UNITS if figure in SLOPES else LENGTH_UNITS
    unit = units.get(cell.lower())
    if unit is None and cell:
        faults.add(row, NOT_A_WORD, "unit", words=", ".join(units))
    return unit


def _per(cell: str, faults: RowFaults, row: int) -> Per | None:
    if not cell:
        return None
    told = _PER.fullmatch(" ".join(cell.lower().split()))
    if told is None:
        faults.add(row, BAD_PER, "per")
        return None
    by, how, number, unit = told.groups()
    return Per(By(by), float(number) * UNITS[unit].factor, how == "at")
