# SPDX-License-Identifier: GPL-2.0-or-later
"""A folder's files -> the job: walks, surfaces, control, tapes, instruments, decisions, and what was noticed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from ..errors import BadInput
from ..findings import Decision, Decisions, Finding
from ..walk import Control, ErrorGrowth, Instrument, Job, LogKeys, Tape, Walk
from .control import read_control
from .decisions import read_decisions
from .faults import LEFT_OUT
from .formats import TableKind, find_kind, has_columns
from .instruments import read_instruments
from .lost_logs import refuse_lost_log, tell_left_aside
from .recorded import FileRead
from .repeats import ask_repeats, tell_same_names
from .settle_points import settle_points
from .stated import AS_WRITTEN, refuse_unfit, restate
from .table import LogTable, read_table
from .tapes import read_tapes
from .walk_log import read_walks

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from .stated import Stated

_SKIPPED = (TableKind.NO_TABLE, TableKind.PRICES)
_RECORDED = (TableKind.POINT_LIST, TableKind.GPX, TableKind.NMEA, TableKind.LANDXML)
"""Other people's formats that walks are read from."""
_STRANGE = (TableKind.UNKNOWN, TableKind.NO_TABLE)
"""What is a point list only because someone says so."""


@dataclass(frozen=True, eq=False)
class ReadJob:
    """All that a job's files hold.

    Attributes:
        job: walks by file name, our logs first, then in order; surfaces, control, tapes, instruments.
        decisions: all rows of the decisions files.
        findings: what reading noticed, answers applied.
        skipped: names of the files that are no tables of a job (pictures, projects, prices).
    """

    job: Job
    decisions: Decisions
    findings: tuple[Finding, ...]
    skipped: tuple[str, ...] = ()


def read_job(
    files: Mapping[str, bytes],
    columns: tuple[str, ...] | None = None,
    stated: Mapping[str, Stated] | None = None,
) -> ReadJob:
    """Read all files of a job; what each is, its content tells.

    Args:
        files: bytes by file name, in any order.
        columns: what the columns of all point lists are, in order, whatever their header says (see
            `read_point_list`); a table that is none of ours is then a point list, and so are rows of so many columns.
        stated: what counts for single files in place of what they say (see StatedTexts.of_files), by file name; a
            file whose columns are stated is a point list.

    Raises:
        BadInput: a table that is none of ours, one of ours that cannot be used at all, two control files, or
            nothing that a walk could be read from; something stated of a file that it cannot have.
    """
    said = stated or {}
    kinds = {name: find_kind(data) for name, data in sorted(files.items())}
    if columns:
        strange = [
            name
            for name, kind in kinds.items()
            if kind is TableKind.UNKNOWN
            or (kind is TableKind.NO_TABLE and has_columns(files[name], len(columns)))
        ]
        kinds.update(dict.fromkeys(strange, TableKind.POINT_LIST))
    lists = [name for name, one in said.items() if one.columns and kinds[name] in _STRANGE]
    kinds.update(dict.fromkeys(lists, TableKind.POINT_LIST))
    refuse_unfit(kinds, said)
    _refuse_strangers(files, kinds)
    tables, chosen = _read_tables(files, kinds, said)
    rows, told = _read_decisions(tables[TableKind.DECISIONS])
    decisions = Decisions(rows)
    recorded = [
        _read_recorded(kind, name, files[name], decisions, _stated_list(said.get(name, AS_WRITTEN), columns))
        for name, kind in kinds.items()
        if kind in _RECORDED
    ]
    walks, found = _read_walks(tables[TableKind.WALK_LOG], recorded, decisions)
    control, from_control = _read_control(tables[TableKind.CONTROL])
    tapes, from_tapes = _read_tapes(tables[TableKind.TAPES], decisions, _common_keys(walks))
    instruments, from_instruments = _read_instruments(tables[TableKind.INSTRUMENTS])
    aside = tell_left_aside({name: files[name] for name, kind in kinds.items() if kind is TableKind.NO_TABLE})
    findings = (*chosen, *found, *from_control, *from_tapes, *from_instruments, *told, *aside)
    surfaces = tuple(surface for read in recorded for surface in read.surfaces)
    return ReadJob(
        Job(settle_points(walks, control, tapes), control, tapes, instruments, surfaces),
        decisions,
        tuple(map(decisions.answered, findings)),
        tuple(name for name, kind in kinds.items() if kind in _SKIPPED),
    )


def _stated_list(stated: Stated, columns: tuple[str, ...] | None) -> Stated:
    """What is stated of a list: its own columns, else those of all lists."""
    return replace(stated, columns=stated.columns or columns)


def _read_tables(
    files: Mapping[str, bytes], kinds: Mapping[str, TableKind], stated: Mapping[str, Stated]
) -> tuple[dict[TableKind, list[LogTable]], list[Finding]]:
    """The tables of each kind of ours, with what is stated of them."""
    ours = [kind for kind in TableKind if kind not in (*_SKIPPED, *_RECORDED, TableKind.UNKNOWN)]
    tables: dict[TableKind, list[LogTable]] = {kind: [] for kind in ours}
    findings: list[Finding] = []
    for name, kind in kinds.items():
        if kind in tables:
            table, told = restate(read_table(name, files[name]), stated.get(name, AS_WRITTEN))
            tables[kind].append(table)
            findings += told
    return tables, findings


def _refuse_strangers(files: Mapping[str, bytes], kinds: Mapping[str, TableKind]) -> None:
    for name, kind in kinds.items():
        if kind is TableKind.UNKNOWN:
            raise BadInput(
                "{file} is a table, but none that is read: no walk log, control, tapes, instruments or decisions, and no "
                "point list whose columns have names that are known. Its header is {header}. Correct the header, choose the "
                "columns before the run if it is a point list, or take the file away.",
                file=name, header=", ".join(read_table(name, files[name]).header),
            )  # fmt: skip
        if not files[name].strip():
            raise BadInput("{file} is empty. Give a table with a header row.", file=name)
        if kind is TableKind.NO_TABLE:
            refuse_lost_log(name, files[name])
    if not {TableKind.WALK_LOG, *_RECORDED} & set(kinds.values()):
        raise BadInput(
            "There is no walk log among the files: {files}. Add one, or a point list, GPX, NMEA 0183 or LandXML.",
            files=", ".join(kinds) or "none",
        )


def _read_recorded(kind: TableKind, name: str, data: bytes, decisions: Decisions, stated: Stated) -> FileRead:
    # Each reader is loaded where a job has a file of its kind.
    if kind is TableKind.POINT_LIST:
        from .points.point_list import read_point_list

        return read_point_list(name, data, decisions, stated.columns, stated)
    if kind is TableKind.GPX:
        from .receiver.gpx import read_gpx

        return read_gpx(name, data, decisions)
    if kind is TableKind.NMEA:
        from .receiver.nmea import read_nmea

        return read_nmea(name, data)
    from .landxml.drawing import read_landxml

    return read_landxml(name, data, decisions, stated)


def _read_decisions(tables: Sequence[LogTable]) -> tuple[list[Decision], list[Finding]]:
    rows: list[Decision] = []
    findings: list[Finding] = []
    for table in tables:
        read, found = read_decisions(table)
        rows += read
        findings += found
    return rows, findings


def _read_walks(
    tables: Sequence[LogTable], recorded: Sequence[FileRead], decisions: Decisions
) -> tuple[tuple[Walk, ...], list[Finding]]:
    walks: list[Walk] = []
    findings: list[Finding] = []
    for table in tables:
        read, found = read_walks(table, decisions)
        walks += read
        findings += found
    for file in recorded:
        walks += file.walks
        findings += file.findings
    if any(walk.keys.growth is ErrorGrowth.RECEIVER for walk in walks):
        from .receiver.closed import ask_closed  # only jobs with tracks need it

        asked_walks, asked_closed = ask_closed(walks, decisions)
        walks, findings = list(asked_walks), [*findings, *asked_closed]
    if not any(file.surfaces for file in recorded):
        _refuse_no_walk(walks, findings)
    parted, asked = ask_repeats(walks, decisions)
    return parted, [*findings, *tell_same_names(walks), *asked]


def _refuse_no_walk(walks: Sequence[Walk], findings: Sequence[Finding]) -> None:
    """Where not one row can be read, what is wrong with the first says more than that no walk is left."""
    told = [finding for finding in findings if finding.code == "IN-01" and finding.line is not None]
    if not walks and told:
        first = told[0]
        raise BadInput(
            "No row of the logs can be read. IN-01, the first of {count}: {message} {remedy}"
            if first.answers == (LEFT_OUT,)
            else "No row of the logs can be read. IN-01, the first of {count}: {message} {remedy} As a row of the decisions "
            'file: IN-01,{place},"{answer}"; or choose the columns before the run.',
            count=len(told), message=first.message, remedy=first.remedy_text, place=first.place,
            answer=(*first.answers, "")[0],
        )  # fmt: skip


def _common_keys(walks: Sequence[Walk]) -> LogKeys | None:
    """The keys of the first walk where all walks state its unit."""
    units = {walk.keys.units for walk in walks}
    return walks[0].keys if len(units) == 1 else None


def _read_control(tables: Sequence[LogTable]) -> tuple[Control, tuple[Finding, ...]]:
    if not tables:
        return Control(), ()
    if len(tables) > 1:
        raise BadInput(
            "Both {one} and {two} are control files. Keep one, with all marks in it.",
            one=tables[0].file, two=tables[1].file,
        )  # fmt: skip
    return read_control(tables[0])


def _read_tapes(
    tables: Sequence[LogTable], decisions: Decisions, logs: LogKeys | None
) -> tuple[tuple[Tape, ...], list[Finding]]:
    tapes: list[Tape] = []
    findings: list[Finding] = []
    for table in tables:
        read, found = read_tapes(table, decisions, logs)
        tapes += read
        findings += found
    return tuple(tapes), findings


def _read_instruments(tables: Sequence[LogTable]) -> tuple[Mapping[str, Instrument] | None, list[Finding]]:
    if not tables:
        return None, []
    instruments: dict[str, Instrument] = {}
    findings: list[Finding] = []
    for table in tables:
        read, found = read_instruments(table)
        for name in read:
            if name in instruments:
                raise BadInput(
                    "{file}: the instrument {name} stands in another file too. Keep it in one.",
                    file=table.file, name=name,
                )  # fmt: skip
        instruments.update(read)
        findings += found
    return MappingProxyType(instruments), findings
