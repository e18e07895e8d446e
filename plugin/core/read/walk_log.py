# SPDX-License-Identifier: GPL-2.0-or-later
"""Walk log, version 1, both ways: text -> walks -> text (resources/formats/walk_log.schema.json)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from itertools import compress
from typing import TYPE_CHECKING, TypeVar

import numpy as np
import numpy.typing as npt

from ..errors import BadInput
from ..findings import Decisions, Finding
from ..quantity import Floats, Ints
from ..walk import SIZE_COLUMNS, TEXT_COLUMNS, Kind, Leg, LogKeys, Walk
from .cells import need_filled, read_lengths, read_numbers, read_words, refuse_formulas, words_of
from .columns import Column, Same, changes_of
from .faults import NEGATIVE, NO_SIDE, NOT_A_WORD, TOO_LARGE, RowFaults, named
from .keys import LOG_KEYS, read_keys, settle_units, tell_kept, write_keys
from .repeats import ask_repeats, tell_restarts, tell_same_names
from .table import LogTable, read_table, write_rows
from .times import read_times, write_times

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

NEEDED = ("walk", "station", "x", "y")
NAME_COLUMNS = ("walk", "station", "feature", "part", "hole_in", "mark")
LENGTH_COLUMNS = ("x", "y", "z", "offset", "pole", "sd_xy", "sd_z")
COLUMNS = (
    "walk", "station", "x", "y", "z", "time", "hold_s", "feature", "part", "geometry", "leg", "hole_in", "mark",
    "item", "side_item", "status", "surface", "option", "phase", "offset", "offset_side", "pole",
    *SIZE_COLUMNS, "sd_xy", "sd_z", "photo", "note",
)  # fmt: skip
"""The columns of formats.md, in its order."""
STATUS_WORDS = ("existing", "retain", "remove", "new")
SURFACE_WORDS = ("ground", "stripped", "formation", "finished")
NOT_NEGATIVE = frozenset({"width", "depth", "height", "stem_d", "spread", "sd_xy", "sd_z"})
_Cell = TypeVar("_Cell")
_LEGS: Mapping[str, Leg] = words_of(Leg)
_KINDS: Mapping[str, Kind] = words_of(Kind)
_LEFT_RIGHT = {"left": -1.0, "right": 1.0, "": 0.0}
"""Stood left of the edge: the edge lies to the walker's right, so the walked line moves by minus the offset."""


def read_walk_log(
    file: str, data: bytes, decisions: Decisions | None = None
) -> tuple[tuple[Walk, ...], tuple[Finding, ...]]:
    """Read a walk log: its walks, in order, and what was noticed (IN-01, IN-02, IN-04, IN-05, IN-06).

    Args:
        file: its name, for messages.
        data: the file's bytes.
        decisions: answers; of these, the unit (IN-02) and one part or two (IN-05) change what is read.

    Raises:
        BadInput: the file cannot be used at all: not text, no header, a needed column missing, no rows.
    """
    chosen = decisions if decisions is not None else Decisions()
    walks, findings = read_walks(read_table(file, data), chosen)
    walks, asked = ask_repeats(walks, chosen)
    return walks, (*map(chosen.answered, findings), *map(chosen.answered, tell_same_names(walks)), *asked)


def read_walks(table: LogTable, decisions: Decisions) -> tuple[tuple[Walk, ...], tuple[Finding, ...]]:
    """The walks of one log's table, and its own findings; names are compared over all logs later."""
    _need_columns(table)
    keys, findings = read_keys(table)
    keys, no_units = settle_units(table, keys, _first_place(table), decisions)
    faults = RowFaults(table, ("walk", "station"))
    columns = _read_columns(table, keys, faults)
    kept = columns.kept(faults.keep)
    kept.freeze()
    walks = tuple(_walk(table.file, keys, kept, i) for i in range(len(kept.starts)))
    walks, restarts = tell_restarts(walks, decisions)
    told = (*no_units, *findings, *faults.findings(), *restarts, *tell_kept(table, COLUMNS, LOG_KEYS))
    return walks, told


def _need_columns(table: LogTable) -> None:
    missing = [name for name in NEEDED if name not in table.names]
    if missing:
        raise BadInput(
            "{file}: the walk log has no column {missing}. Its header needs walk, station, x and y; it has {header}.",
            file=table.file, missing=" or ".join(missing), header=", ".join(table.header),
        )  # fmt: skip
    if not len(table) and not table.bad_rows:
        raise BadInput(
            "{file}: the walk log has a header but no stations. Give a row a station.", file=table.file
        )


def _first_place(table: LogTable) -> str:
    if not len(table):
        return named(NEEDED[:2], ())
    return named(NEEDED[:2], [table.raw(name)[0].strip() for name in NEEDED[:2]])


@dataclass(frozen=True, eq=False)
class _Columns:
    """All columns of a table, read: `numbers` and `texts` by name, and the first row and name of each walk."""

    line: Ints
    numbers: Mapping[str, Floats]
    texts: Mapping[str, Sequence[str]]
    kinds: Sequence[Kind | None]
    legs: Sequence[Leg]
    extra: Mapping[str, Sequence[str]]
    starts: tuple[int, ...]
    walks: tuple[str, ...]
    started: tuple[str, ...]

    @cached_property
    def xy(self) -> Floats:
        """(n, 2) the coordinates."""
        return np.column_stack([self.numbers["x"], self.numbers["y"]])

    def freeze(self) -> None:
        """Set all arrays read-only; the walks get slices of them."""
        for values in (self.line, self.xy, *self.numbers.values()):
            values.setflags(write=False)

    def kept(self, keep: npt.NDArray[np.bool_] | None) -> _Columns:
        """Without the rows that cannot be read."""
        if keep is None:
            return self
        before = np.concatenate([[0], np.cumsum(keep)])
        starts = before[[*self.starts, len(keep)]]
        full = [i for i in range(len(self.starts)) if starts[i + 1] > starts[i]]
        return _Columns(
            self.line[keep],
            {name: values[keep] for name, values in self.numbers.items()},
            {name: _kept(cells, keep) for name, cells in self.texts.items()},
            _kept(self.kinds, keep),
            _kept(self.legs, keep),
            {name: _kept(cells, keep) for name, cells in self.extra.items()},
            tuple(int(starts[i]) for i in full),
            tuple(self.walks[i] for i in full),
            tuple(self.started[i] for i in full),
        )


def _kept(cells: Sequence[_Cell], keep: npt.NDArray[np.bool_]) -> Sequence[_Cell]:
    if isinstance(cells, (Column, Same)):
        return cells.at(np.flatnonzero(keep))
    return tuple(compress(cells, keep.tolist()))


def _read_columns(table: LogTable, keys: LogKeys, faults: RowFaults) -> _Columns:
    texts: dict[str, Sequence[str]] = {name: table.text(name) for name in NAME_COLUMNS}
    texts.update((name, table.text(name)) for name in TEXT_COLUMNS if name in table.names)
    for name in NEEDED:
        need_filled(table, name, faults)
    for name in NAME_COLUMNS:
        refuse_formulas(table, name, faults)
    legs = read_words(table, "leg", faults, _LEGS, Leg.DIRECT)
    kinds = read_words(table, "geometry", faults, _KINDS, None)
    for name, words in (("status", STATUS_WORDS), ("surface", SURFACE_WORDS)):
        if name in texts:
            texts[name] = _checked_words(table, name, words, faults)
    walks = texts.pop("walk")
    starts = _walk_starts(walks)
    times = read_times(table, starts, keys.utc_offset, keys.date, faults)
    numbers = {**_read_numbers(table, keys, faults), "time": times.seconds}
    known = set(COLUMNS)
    extra = {
        name: _as_text(table.cells[i])
        for name, (key, i) in zip(table.header, table.names.items())
        if key not in known
    }
    texts = {name: cells if name == "station" else _as_text(cells) for name, cells in texts.items()}
    names = tuple(walks[i] for i in starts)
    return _Columns(table.line, numbers, texts, kinds, legs, extra, starts, names, times.started)


def _as_text(cells: Sequence[str]) -> Sequence[str]:
    """Cells as text once for all walks; the names of the stations, of which all differ, wait until asked for."""
    return cells.texts if isinstance(cells, Column) else cells


def _read_numbers(table: LogTable, keys: LogKeys, faults: RowFaults) -> dict[str, Floats]:
    """The number columns in metres and seconds; x and y stay in the CRS's units where the log names one."""
    numbers = {}
    for name in (*LENGTH_COLUMNS, *(name for name in SIZE_COLUMNS if name in table.names)):
        unit = 1.0 if keys.crs and name in ("x", "y") else keys.unit_m
        numbers[name] = read_lengths(table, name, faults, unit, may_be_negative=name not in NOT_NEGATIVE)
    numbers["pole"] = np.where(np.isnan(numbers["pole"]), 0.0, numbers["pole"])
    hold = read_numbers(table, "hold_s", faults)
    faults.add_where(hold < 0, NEGATIVE, "hold_s")
    faults.add_where(hold > LONGEST_HOLD, TOO_LARGE, "hold_s", largest="1e6 s")
    numbers["hold"] = hold
    numbers["offset"] = _signed_offset(table, numbers["offset"], faults)
    return numbers


LONGEST_HOLD = 1e6
"""Seconds, eleven days: no instrument is held still for longer."""


def _signed_offset(table: LogTable, offset: Floats, faults: RowFaults) -> Floats:
    """Positive where the edge lies to the walker's left."""
    if not {"offset", "offset_side"} & set(table.names):
        return offset
    faults.add_where(offset < 0, NEGATIVE, "offset")
    sides = table.text("offset_side")
    signs = {side: _LEFT_RIGHT.get(side.lower(), np.nan) for side in set(sides)}
    sign = np.array([signs[side] for side in sides], dtype=np.float64)
    faults.add_where(np.isnan(sign), NOT_A_WORD, "offset_side", words="left, right")
    faults.add_where((sign == 0) & (offset > 0), NO_SIDE, "offset")
    return np.where(offset == 0, 0.0, offset * sign)


def _checked_words(table: LogTable, column: str, words: Sequence[str], faults: RowFaults) -> tuple[str, ...]:
    cells = table.text(column)
    lower = {cell: cell.lower() for cell in set(cells)}
    unknown = {cell for cell, word in lower.items() if word not in (*words, "")}
    if unknown:
        faults.add_where(np.array([c in unknown for c in cells]), NOT_A_WORD, column, words=", ".join(words))
    return tuple(map(lower.__getitem__, cells))


def _walk_starts(names: Sequence[str]) -> tuple[int, ...]:
    """The first row of each run of equal walk names; a row without one (told elsewhere) ends no run."""
    if not names:
        return ()
    starts, running = [0], names[0]
    rows = changes_of(names)
    for i, name in zip(rows, names.at(np.array(rows)) if isinstance(names, Column) else names):
        if name and name != running:
            running = name
            starts.append(i)
    return tuple(starts)


def _walk(file: str, keys: LogKeys, columns: _Columns, i: int) -> Walk:
    """The walk whose rows start at columns.starts[i]."""
    first = columns.starts[i]
    end = columns.starts[i + 1] if i + 1 < len(columns.starts) else len(columns.line)
    number = {name: values[first:end] for name, values in columns.numbers.items()}
    text = {name: tuple(cells[first:end]) for name, cells in columns.texts.items() if name != "station"}
    station = columns.texts["station"][first:end]
    return Walk(
        name=columns.walks[i],
        file=file,
        keys=keys,
        station=station if isinstance(station, Column) else tuple(station),
        line=columns.line[first:end],
        xy=columns.xy[first:end],
        z=number["z"],
        time=number["time"],
        hold=number["hold"],
        feature=text["feature"],
        part=text["part"],
        kind=tuple(columns.kinds[first:end]),
        leg=tuple(columns.legs[first:end]),
        hole_in=text["hole_in"],
        mark=text["mark"],
        offset=number["offset"],
        pole=number["pole"],
        sd_xy=number["sd_xy"],
        sd_z=number["sd_z"],
        sizes={name: number[name] for name in SIZE_COLUMNS if name in number},
        texts={name: text[name] for name in TEXT_COLUMNS if name in text},
        extra={name: tuple(cells[first:end]) for name, cells in columns.extra.items()},
        started=columns.started[i],
    )


def write_walk_log(walks: Iterable[Walk]) -> str:
    """The walks as one log, which read_walk_log turns into the same walks (lengths to 1e-12 relative).

    Raises:
        BadInput: no walk, or walks whose key lines differ, which one log cannot say.
    """
    written = tuple(walks)
    if not written:
        raise BadInput("There is no walk to write. Choose one.")
    for walk in written[1:]:
        if walk.keys != written[0].keys:
            raise BadInput(
                "The walks {one} and {two} have different key lines. Write them to logs of their own.",
                one=written[0].name, two=walk.name,
            )  # fmt: skip
    tables = [_cells(walk) for walk in written]
    extra = [name for table in tables for name in table if name not in COLUMNS]
    header = [name for name in (*COLUMNS, *dict.fromkeys(extra)) if any(name in table for table in tables)]
    rows = (
        row
        for walk, table in zip(written, tables)
        for row in zip(*(table.get(name, ("",) * len(walk)) for name in header))
    )
    return write_keys(written[0].keys) + write_rows(header, rows)


def _cells(walk: Walk) -> dict[str, Sequence[str]]:
    """The columns of a walk that hold anything, as text; those that the log had, even when blank."""
    unit, side = walk.keys.unit_m, 1.0 if walk.keys.crs else walk.keys.unit_m
    columns: dict[str, Sequence[str]] = {
        "walk": (walk.name,) * len(walk),
        "station": walk.station,
        "x": _numbers(walk.xy[:, 0] / side),
        "y": _numbers(walk.xy[:, 1] / side),
        "z": _numbers(walk.z / unit),
        "time": write_times(walk.time, walk.started),
        "hold_s": _numbers(walk.hold),
        **{name: getattr(walk, name) for name in ("feature", "part", "hole_in", "mark")},
        "geometry": [kind.value if kind else "" for kind in walk.kind],
        "leg": ["" if leg is Leg.DIRECT else leg.value for leg in walk.leg],
        "offset": _numbers(np.abs(walk.offset) / unit),
        "offset_side": [_side(offset) for offset in walk.offset.tolist()],
        "pole": _numbers(np.where(walk.pole == 0, np.nan, walk.pole) / unit),
        **{name: _numbers(getattr(walk, name) / unit) for name in ("sd_xy", "sd_z")},
    }
    columns = {name: cells for name, cells in columns.items() if name in NEEDED or any(cells)}
    columns.update((name, _numbers(values / unit)) for name, values in walk.sizes.items())
    return {**columns, **walk.texts, **walk.extra}


def _side(offset: float) -> str:
    if offset < 0:
        return "left"
    return "right" if offset > 0 else ""


def _numbers(values: Floats) -> list[str]:
    return ["" if math.isnan(value) else repr(value) for value in values.tolist()]
