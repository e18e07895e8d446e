# SPDX-License-Identifier: GPL-2.0-or-later
"""Taped lengths between marks or stations."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..errors import BadInput
from ..walk import LogKeys, Tape
from .cells import need_filled, read_lengths, refuse_formulas
from .faults import NOT_A_WORD, NOT_POSITIVE, SAME_ENDS, RowFaults, named
from .keys import settle_units, tell_kept

if TYPE_CHECKING:
    from ..findings import Decisions, Finding
    from .table import LogTable

COLUMNS = ("from", "to", "distance", "sd", "slope")
NEEDED = COLUMNS[:3]
KEYS = ("units",)
_SLOPES = {"": False, "no": False, "false": False, "0": False, "yes": True, "true": True, "1": True}


def read_tapes(
    table: LogTable, decisions: Decisions, logs: LogKeys | None = None
) -> tuple[tuple[Tape, ...], tuple[Finding, ...]]:
    """The taped lengths of a table, in metres.

    Args:
        table: the file's table.
        decisions: answers; one may state the unit.
        logs: the keys of the job's logs where all of them state the same unit: the tapes' unit where the table
            states none.

    Raises:
        BadInput: a needed column is missing.
    """
    missing = [name for name in NEEDED if name not in table.names]
    if missing:
        raise BadInput(
            "{file}: the tapes have no column {missing}. Their header needs from, to and distance; it has {header}.",
            file=table.file, missing=" or ".join(missing), header=", ".join(table.header),
        )  # fmt: skip
    unit, no_units = _unit(table, decisions, logs)
    faults = RowFaults(table, ("from", "to"))
    for name in NEEDED:
        need_filled(table, name, faults)
    for name in NEEDED[:2]:
        refuse_formulas(table, name, faults)
    distance = read_lengths(table, "distance", faults, unit)
    faults.add_where(distance <= 0, NOT_POSITIVE, "distance")
    sd = read_lengths(table, "sd", faults, unit, may_be_negative=False)
    slopes = [cell.lower() for cell in table.text("slope")]
    wrong = np.array([slope not in _SLOPES for slope in slopes], dtype=bool)
    faults.add_where(wrong, NOT_A_WORD, "slope", words="yes, no")
    starts, ends = table.text("from"), table.text("to")
    for i, (start, end) in enumerate(zip(starts, ends)):
        if start and start == end:
            faults.add(i, SAME_ENDS, mark=start)
    keep = faults.keep
    tapes = tuple(
        Tape(
            starts[i],
            ends[i],
            float(distance[i]),
            None if np.isnan(sd[i]) else float(sd[i]),
            _SLOPES[slopes[i]],
            table.file,
            int(table.line[i]),
            unit,
        )
        for i in range(len(table))
        if keep is None or keep[i]
    )
    return tapes, (*no_units, *faults.findings(), *tell_kept(table, COLUMNS, KEYS))


def _unit(table: LogTable, decisions: Decisions, logs: LogKeys | None) -> tuple[float, tuple[Finding, ...]]:
    """Metres by unit: the table's own, an answer, or the one that all logs state."""
    if not len(table):
        return 1.0, ()
    place = named(NEEDED[:2], [table.raw(name)[0].strip() for name in NEEDED[:2]])
    keys, findings = settle_units(table, LogKeys(), place, decisions)
    says_nothing = not any(key.strip().lower() == "units" and value for key, value in table.keys)
    if findings and findings[0].is_open and says_nothing and logs is not None and logs.units:
        return logs.unit_m, ()
    return keys.unit_m, findings
