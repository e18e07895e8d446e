# SPDX-License-Identifier: GPL-2.0-or-later
"""What one file says of itself, as a run would read it: units, CRS, and what is odd."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from ..core.errors import GroundTallyError
from ..core.findings import Severity
from ..core.read.control import read_control
from ..core.read.decisions import read_decisions
from ..core.read.formats import TableKind
from ..core.read.instruments import read_instruments
from ..core.read.lost_logs import refuse_lost_log, tell_left_aside
from ..core.read.points.point_list import read_point_list
from ..core.read.stated import AS_WRITTEN, restate
from ..core.read.table import LogTable, read_table
from ..core.read.tapes import read_tapes
from ..core.read.walk_log import read_walks
from .desk import State
from .text import explain, explain_finding, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..core.findings import Decisions, Finding
    from ..core.read.stated import Stated
    from .heads import Head

TOLD = ("units", "crs", "instrument", "site", "date")
"""Keys that say what a user would check."""
LOGS = (
    TableKind.WALK_LOG,
    TableKind.POINT_LIST,
    TableKind.GPX,
    TableKind.NMEA,
    TableKind.LANDXML,
)
RECEIVERS = (TableKind.GPX, TableKind.NMEA)
IN_DEGREES = "EPSG:4326"
"""What receivers record in."""
NOT_GIVEN, UNREADABLE = "IN-02", "IN-01"


@dataclass(frozen=True)
class Said:
    """What a file says.

    Attributes:
        kind: what it is.
        units: of LOG_UNITS, "" where it says none or has none.
        crs: as it stands there; "" where there is none.
        keys: those of its head that are worth a look.
        state: how it stands; odd: why, in a sentence.
        asks_columns: whether somebody has to say which column is which.
    """

    kind: TableKind
    units: str = ""
    crs: str = ""
    keys: tuple[tuple[str, str], ...] = ()
    state: State = State.GOOD
    odd: str = ""
    asks_columns: bool = False

    @property
    def has_units(self) -> bool:
        """Whether units can be stated of it."""
        return self.kind in (*_SETTLED, TableKind.TAPES)

    @property
    def has_crs(self) -> bool:
        """Whether a CRS can be stated of it."""
        return self.kind in _SETTLED

    @property
    def has_columns(self) -> bool:
        """Whether its columns can be chosen."""
        return self.kind in (TableKind.POINT_LIST, TableKind.UNKNOWN)


_SETTLED = (TableKind.WALK_LOG, TableKind.POINT_LIST, TableKind.LANDXML, TableKind.CONTROL)


def read_said(head: Head, decisions: Decisions, stated: Stated = AS_WRITTEN) -> Said:
    """What a file says, with what is stated in place of it, and what a run would find odd in its head."""
    kind = head.kind
    if stated.columns and kind in (TableKind.UNKNOWN, TableKind.NO_TABLE):
        kind = TableKind.POINT_LIST
    said = Said(kind, keys=_keys(head.data))
    if kind in RECEIVERS:
        return replace(said, crs=IN_DEGREES)
    try:
        return _READERS.get(kind, _read_stranger)(said, head, decisions, stated)
    except GroundTallyError as error:
        if kind is TableKind.LANDXML and not head.is_whole:
            return said  # what it needs may stand behind its head
        return replace(said, state=State.STOPS, odd=explain(error))


def _keys(data: bytes) -> tuple[tuple[str, str], ...]:
    lines = data[:4096].decode("utf-8", "replace").lstrip("\ufeff").splitlines()
    pairs = (line[1:].split(":", 1) for line in lines if line.startswith("#") and ":" in line)
    given = {key.strip().lower(): value.strip() for key, value in pairs}
    return tuple((key, given[key]) for key in TOLD if given.get(key))


def _table(head: Head, stated: Stated) -> LogTable:
    return restate(read_table(head.name, head.data), stated)[0]


def _judged(said: Said, findings: Sequence[Finding]) -> Said:
    """With the first of what stops, else of what asks, and how many there are."""
    open_ = [finding for finding in findings if finding.is_open]
    stops = [finding for finding in open_ if finding.severity is Severity.STOP]
    told = stops or open_
    if not told:
        return said
    missing = next((finding for finding in told if finding.code == NOT_GIVEN), None)
    first = missing or told[0]
    words = explain_finding(first)
    if missing:
        words += " " + tr("Choose them below.")
    elif said.asks_columns:
        words += " " + tr("Say which column is which.")
    if len(told) > 1:
        words += " " + tr("{count} more like this.").format(count=len(told) - 1)
    return replace(said, state=State.STOPS if stops else State.ASKS, odd=words)


def _read_log(said: Said, head: Head, decisions: Decisions, stated: Stated) -> Said:
    walks, findings = read_walks(_table(head, stated), decisions)
    return _judged(_of_walks(said, walks), findings)


def _of_walks(said: Said, walks: Sequence[object]) -> Said:
    keys = getattr(walks[0], "keys", None) if walks else None
    if keys is None:
        return said
    return replace(said, units=keys.units or "", crs=keys.crs or "")


def _read_list(said: Said, head: Head, decisions: Decisions, stated: Stated) -> Said:
    read = read_point_list(head.name, head.data, decisions, stated.columns, stated)
    # without a choice and without an answer only a list that nobody has named the columns of has no walk and one stop
    asks = not read.walks and any(f.code == UNREADABLE and f.is_open for f in read.findings)
    return _judged(replace(_of_walks(said, read.walks), asks_columns=asks), read.findings)


def _read_drawing(said: Said, head: Head, decisions: Decisions, stated: Stated) -> Said:
    from ..core.read.landxml.drawing import read_landxml

    read = read_landxml(head.name, head.data, decisions, stated)
    findings = read.findings if head.is_whole else [f for f in read.findings if f.code == NOT_GIVEN]
    return _judged(_of_walks(said, read.walks), findings)


def _read_control(said: Said, head: Head, decisions: Decisions, stated: Stated) -> Said:
    table = _table(head, stated)
    control, findings = read_control(table)
    keys = {key.strip().lower(): value for key, value in table.keys}
    return _judged(replace(said, units=keys.get("units", "m"), crs=control.crs or ""), findings)


def _read_tapes(said: Said, head: Head, decisions: Decisions, stated: Stated) -> Said:
    _, findings = read_tapes(_table(head, stated), decisions)
    keys = {key.strip().lower(): value for key, value in _table(head, stated).keys}
    # tapes without units take those that all logs have, which only the run knows
    told = [finding for finding in findings if finding.code != NOT_GIVEN or keys.get("units")]
    return _judged(replace(said, units=keys.get("units", "")), told)


def _read_instruments(said: Said, head: Head, decisions: Decisions, stated: Stated) -> Said:
    return _judged(said, read_instruments(_table(head, stated))[1])


def _read_decisions(said: Said, head: Head, decisions: Decisions, stated: Stated) -> Said:
    return _judged(said, read_decisions(_table(head, stated))[1])


def _read_stranger(said: Said, head: Head, decisions: Decisions, stated: Stated) -> Said:
    """A table that is none of ours, or no table at all."""
    if said.kind is TableKind.UNKNOWN:
        words = tr("A table, but none that is read. Say which column is which, or untick it.")
        return replace(said, state=State.STOPS, odd=words, asks_columns=True)
    if said.kind is TableKind.PRICES:
        return replace(said, state=State.LACKS, odd=tr("Prices or rules, which a survey is not made from."))
    refuse_lost_log(head.name, head.data)
    notes = tell_left_aside({head.name: head.data})
    if notes:
        return replace(said, state=State.ASKS, odd=explain_finding(notes[0]))
    return replace(said, state=State.LACKS, odd=tr("Neither a log nor a table that lies beside logs."))


_READERS = {
    TableKind.WALK_LOG: _read_log,
    TableKind.POINT_LIST: _read_list,
    TableKind.LANDXML: _read_drawing,
    TableKind.CONTROL: _read_control,
    TableKind.TAPES: _read_tapes,
    TableKind.INSTRUMENTS: _read_instruments,
    TableKind.DECISIONS: _read_decisions,
}
