# SPDX-License-Identifier: GPL-2.0-or-later
"""The decisions file: answers to findings, with who and when."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..errors import BadInput
from ..findings import Decision, Finding
from .cells import need_filled
from .faults import RowFaults
from .keys import tell_kept
from .table import LogTable, write_rows

if TYPE_CHECKING:
    from collections.abc import Iterable

COLUMNS = ("finding", "place", "answer", "by", "when")
NEEDED = COLUMNS[:3]


def read_decisions(table: LogTable) -> tuple[tuple[Decision, ...], tuple[Finding, ...]]:
    """The decisions of a table, in order.

    Raises:
        BadInput: a needed column is missing.
    """
    missing = [name for name in NEEDED if name not in table.names]
    if missing:
        raise BadInput(
            "{file}: the decisions have no column {missing}. Their header needs finding, place and answer; "
            "it has {header}.",
            file=table.file, missing=" or ".join(missing), header=", ".join(table.header),
        )  # fmt: skip
    faults = RowFaults(table, ("place",))
    for name in NEEDED:
        need_filled(table, name, faults)
    keep = faults.keep
    columns = [table.text(name) for name in COLUMNS]
    rows = tuple(
        Decision(finding, place, answer, by, when, file=table.file, line=int(table.line[i]))
        for i, (finding, place, answer, by, when) in enumerate(zip(*columns))
        if keep is None or keep[i]
    )
    return rows, (*faults.findings(), *tell_kept(table, COLUMNS, ()))


def write_decisions(rows: Iterable[Decision]) -> str:
    """The decisions as CSV text, which read_decisions turns into the same rows."""
    return write_rows(COLUMNS, ((row.finding, row.place, row.answer, row.by, row.when) for row in rows))
