# SPDX-License-Identifier: GPL-2.0-or-later
"""Times of a log: ISO 8601 or seconds -> seconds from each walk's first time, and back."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from .cells import parse_number
from .faults import MIXED_TIME, NOT_A_TIME, NOT_FINITE, TOO_LARGE, Fault, RowFaults

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..quantity import Floats
    from .table import LogTable

LARGEST_TIME = 1e11
"""Seconds, some 3,000 years: a count in milliseconds since 1970 is beyond it and is told."""
NANOSECONDS = 1_000_000_000
DAY = 86_400
FARTHEST_ZONE = 14
"""Hours from UTC: no zone is farther east."""
NO_DATE = "1970-01-01"
"""Stands for the day where a log writes the time of day alone."""
_ISO = re.compile(
    r"""^(?:(?P<date>\d{4}-\d\d-\d\d|\d{8})[T ])?(?P<h>\d\d):?(?P<m>\d\d)(?::?(?P<s>\d\d(?:[.,]\d{1,9})?))?
        \s*(?P<zone>Z|[+-]\d\d(?::?\d\d)?)?$""",
    re.VERBOSE,
)
_ISO_ONLY = re.compile(r"^\d{4}-|^\d{8}T|:")
_OFFSET = re.compile(r"^(?:UTC|GMT)?\s*([+-]?)(\d{1,2})(?::?([0-5]\d))?$", re.IGNORECASE)

Instants = npt.NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Times:
    """The time column of a whole table.

    Attributes:
        seconds: (n,) seconds from each walk's first time, NaN where blank.
        started: by walk, the ISO time at which it is 0; "" where the log counts seconds.
    """

    seconds: Floats
    started: tuple[str, ...]


def parse_offset(text: str) -> int | None:
    """Seconds east of UTC from `+02:00`, `2`, `UTC-3` or `Z`; None where the text is none."""
    if text.strip().upper() in ("Z", "UTC", "GMT"):
        return 0
    found = _OFFSET.match(text.strip())
    if not found or int(found[2]) > FARTHEST_ZONE:
        return None
    size = int(found[2]) * 3600 + int(found[3] or 0) * 60
    return -size if found[1] == "-" else size


def read_times(
    table: LogTable, starts: Sequence[int], utc_offset: str | None, day: str | None, faults: RowFaults
) -> Times:
    """The column `time`, each walk from its own first time.

    Args:
        table: the log.
        starts: the first row of each walk.
        utc_offset: of times without a zone, where other times have one.
        day: on which times of the day without a date begin; where it is not known, they count from 0.
        faults: takes the cells that are no time.
    """
    cells = table.text("time")
    ends = [*starts[1:], len(cells)]
    seconds = np.full(len(cells), np.nan)
    started = []
    for first, end in zip(starts, ends):
        filled = (
            [row for row in range(first, end) if cells[row]] if "" in cells[first:end] else range(first, end)
        )
        is_iso = bool(filled) and bool(_ISO_ONLY.search(cells[filled[0]]))
        read = _iso_times if is_iso else _second_times
        values, start = read(cells, filled, utc_offset, faults)
        seconds[first:end][np.asarray(filled, dtype=np.int64) - first] = values
        started.append(_canonical(start, day))
    return Times(seconds, tuple(started))


def _canonical(start: str, day: str | None) -> str:
    """A time as we write it, with its day; "" where that is not known."""
    found = _ISO.match(start)
    if found and not found["date"]:
        start = f"{day}T{start}"
        found = _ISO.match(start) if day else None
    return write_times(np.zeros(1), start)[0] if found else ""


def _second_times(
    cells: Sequence[str], rows: Sequence[int], _offset: str | None, faults: RowFaults
) -> tuple[Floats, str]:
    picked = [cells[row] for row in rows]
    try:
        values = np.array(picked, dtype=np.float64)
    except ValueError:
        values = np.array([_one_second(cell) for cell in picked], dtype=np.float64)
    for i in np.flatnonzero(~(np.abs(values) <= LARGEST_TIME)).tolist():
        faults.add(rows[i], _second_fault(picked[i]), "time", largest="1e11 s")
        values[i] = np.nan
    first = values[np.isfinite(values)][:1]
    return (values - first if len(first) else values), ""


def _one_second(cell: str) -> float:
    number = parse_number(cell if cell.count(",") != 1 or "." in cell else cell.replace(",", "."))
    return np.nan if number is None else number


def _second_fault(cell: str) -> Fault:
    number = parse_number(cell)
    if number is not None:
        return TOO_LARGE if np.isfinite(number) else NOT_FINITE
    return MIXED_TIME if _ISO.match(cell) else NOT_A_TIME


def _iso_times(
    cells: Sequence[str], rows: Sequence[int], offset: str | None, faults: RowFaults
) -> tuple[Floats, str]:
    """Nanoseconds as whole numbers, so that no digit of a fraction is lost; seconds at the end."""
    picked = [cells[row] for row in rows]
    instants = _plain_instants(picked)
    if instants is None:
        instants = _mixed_instants(picked, rows, offset, faults)
    known = np.flatnonzero(instants != _NONE)
    if not len(known):
        return np.full(len(picked), np.nan), ""
    seconds = np.where(instants == _NONE, np.nan, (instants - instants[known[0]]) / NANOSECONDS)
    return seconds, picked[known[0]]


_NONE = np.iinfo(np.int64).min
_PLAIN = re.compile(r"^\d{4}-\d\d-\d\d[T ]\d\d:\d\d:\d\d(?:\.\d{1,9})?(Z|[+-]\d\d:\d\d)?$")


def _plain_instants(cells: Sequence[str]) -> Instants | None:
    """All times at once where they are all written as the first one is; the zone then cancels out."""
    found = _PLAIN.match(cells[0])
    if not found:
        return None
    zone = found[1] or ""
    body = len(cells[0]) - len(zone)
    if zone and not all(cell.endswith(zone) for cell in cells):
        return None
    bare = [cell[:body] for cell in cells] if zone else cells
    if {len(cell) for cell in cells} != {len(cells[0])} or any("-" in cell[body - 6 :] for cell in bare[:1]):
        return None
    try:
        values = np.array(bare, dtype="datetime64[ns]").astype(np.int64)
    except ValueError:
        return None
    return None if (values == _NONE).any() else values


def _mixed_instants(
    cells: Sequence[str], rows: Sequence[int], offset: str | None, faults: RowFaults
) -> Instants:
    """Time by time: fractions of any length, zones that change, days that turn over."""
    values = np.full(len(cells), _NONE)
    default = parse_offset(offset) if offset else None
    first_has_zone = first_has_date = None
    turned, before = 0, None
    for i, cell in enumerate(cells):
        found = _ISO.match(cell)
        instant = _instant(found, default) if found else None
        if instant is None or found is None:
            faults.add(rows[i], MIXED_TIME if parse_number(cell) is not None else NOT_A_TIME, "time")
            continue
        has_zone, has_date = bool(found["zone"]) or default is not None, bool(found["date"])
        if first_has_zone is None:
            first_has_zone, first_has_date = has_zone, has_date
        if (has_zone, has_date) != (first_has_zone, first_has_date):
            faults.add(rows[i], MIXED_TIME, "time")
            continue
        if not has_date and before is not None and instant + turned < before - DAY // 2 * NANOSECONDS:
            turned += (
                DAY * NANOSECONDS
            )  # midnight: a fall back of less than half a day is a clock that was reset
        values[i] = before = instant + turned
    return values


def _instant(found: re.Match[str], default: int | None) -> int | None:
    """Nanoseconds from 1970 in UTC; None for a 13th month or a 25th hour."""
    second, _, fraction = (found["s"] or "0").replace(",", ".").partition(".")
    day = found["date"] or NO_DATE
    day = day if "-" in day else f"{day[:4]}-{day[4:6]}-{day[6:]}"
    try:
        whole = np.datetime64(f"{day}T{found['h']}:{found['m']}:{second.zfill(2)}", "s").astype(np.int64)
    except ValueError:
        return None
    zone = parse_offset(found["zone"]) if found["zone"] else (default or 0)
    return None if zone is None else (int(whole) - zone) * NANOSECONDS + int(fraction.ljust(9, "0") or 0)


def clock_times(seconds: Floats, started: str) -> list[str]:
    """Times to show: by the clock where the log has one, else seconds from the start, to the millisecond."""
    if started:
        return write_times(seconds, started)
    return [cell[:-2] if cell.endswith(".0") else cell for cell in write_times(np.round(seconds, 3), "")]


def write_times(seconds: Floats, started: str) -> list[str]:
    """The cells of the column `time`: as the log wrote them, ISO 8601 or seconds; "" for NaN."""
    found = _ISO.match(started)
    if not found:
        return ["" if math.isnan(value) else repr(value) for value in seconds.tolist()]
    zone = found["zone"] or ""
    start = _instant(found, 0) or 0
    start += (parse_offset(zone) or 0) * NANOSECONDS if zone else 0
    blank = np.isnan(seconds)
    ticks = np.rint(np.where(blank, 0.0, seconds) * NANOSECONDS).astype(np.int64) + start
    texts = np.datetime_as_string(ticks.astype("datetime64[ns]"))
    shown = [text[:19] + (text[19:].rstrip("0") if text[19:].strip(".0") else "") for text in texts.tolist()]
    return ["" if is_blank else text + zone for text, is_blank in zip(shown, blank.tolist())]
