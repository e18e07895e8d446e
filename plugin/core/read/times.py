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
from .columns import Column, blanks_of
from .decimals import Bytes
from .faults import MIXED_TIME, NOT_A_TIME, NOT_FINITE, TOO_LARGE, Fault, RowFaults

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..quantity import Floats, Ints
    from .table import LogTable

LARGEST_TIME = 1e11
"""Seconds, some 3,000 years: a count in milliseconds since 1970 is beyond it and is told."""
NANOSECONDS = 1_000_000_000
DAY = 86_400
FARTHEST = 9_000_000_000
"""Seconds from 1970, to the years 1685 and 2255: nanoseconds farther away do not fit into 64 bits."""
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
    seconds = np.full(len(cells), np.nan)
    if "time" not in table.names:
        return Times(seconds, ("",) * len(starts))
    is_blank = blanks_of(cells)
    instants = _plain_instants(cells) if isinstance(cells, Column) else None
    plain = _plain_seconds(cells) if instants is None else seconds
    started = []
    for first, end in zip(starts, [*starts[1:], len(cells)]):
        filled = np.flatnonzero(~is_blank[first:end]) + first
        start = cells[filled[0]] if len(filled) else ""
        if not _ISO_ONLY.search(start):
            seconds[filled], start = _second_times(cells, filled, plain, faults), ""
        elif instants is not None:
            seconds[filled] = (instants[filled] - instants[filled[0]]) / NANOSECONDS
        else:
            seconds[filled], start = _iso_times(cells, filled, utc_offset, faults)
        started.append(_canonical(start, day))
    return Times(seconds, tuple(started))


def _canonical(start: str, day: str | None) -> str:
    """A time as we write it, with its day; "" where that is not known."""
    found = _ISO.match(start)
    if found and not found["date"]:
        start = f"{day}T{start}"
        found = _ISO.match(start) if day else None
    return write_times(np.zeros(1), start)[0] if found else ""


def _plain_seconds(cells: Sequence[str]) -> Floats:
    """(n,) the numbers among the cells, NaN for all else."""
    if isinstance(cells, Column):
        return cells.decimals(".")[0]
    return np.full(len(cells), np.nan)


def _second_times(cells: Sequence[str], rows: Ints, plain: Floats, faults: RowFaults) -> Floats:
    values = plain[rows]
    for i in np.flatnonzero(np.isnan(values)).tolist():
        values[i] = _one_second(cells[rows[i]])
    for i in np.flatnonzero(~(np.abs(values) <= LARGEST_TIME)).tolist():
        faults.add(int(rows[i]), _second_fault(cells[rows[i]]), "time", largest="1e11 s")
        values[i] = np.nan
    first = values[np.isfinite(values)][:1]
    return values - first if len(first) else values


def _one_second(cell: str) -> float:
    number = parse_number(cell if cell.count(",") != 1 or "." in cell else cell.replace(",", "."))
    return np.nan if number is None else number


def _second_fault(cell: str) -> Fault:
    number = parse_number(cell)
    if number is not None:
        return TOO_LARGE if np.isfinite(number) else NOT_FINITE
    return MIXED_TIME if _ISO.match(cell) else NOT_A_TIME


def _iso_times(cells: Sequence[str], rows: Ints, offset: str | None, faults: RowFaults) -> tuple[Floats, str]:
    """Nanoseconds as whole numbers, so that no digit of a fraction is lost; seconds at the end."""
    picked = [cells[row] for row in rows.tolist()]
    instants = _mixed_instants(picked, rows.tolist(), offset, faults)
    known = np.flatnonzero(instants != _NONE)
    if not len(known):
        return np.full(len(picked), np.nan), ""
    seconds = np.where(instants == _NONE, np.nan, (instants - instants[known[0]]) / NANOSECONDS)
    return seconds, picked[known[0]]


_NONE = np.iinfo(np.int64).min
_PLAIN = re.compile(r"^\d{4}-\d\d-\d\d[T ]\d\d:\d\d:\d\d(?:\.\d{1,9})?(Z|[+-]\d\d:\d\d)?$")
_PATTERN = b"0000-00-00T00:00:00.000000000"
_SECOND_END = len("0000-00-00T00:00:00")
_FIRST_YEAR, _LAST_YEAR = 1700, 2200
"""64 bits hold nanoseconds from 1678 to 2261."""


def _plain_instants(cells: Column) -> Instants | None:
    """All times at once where all have a date and end in one zone, which then cancels out; else None."""
    rows = np.flatnonzero(~cells.is_blank)
    found = _PLAIN.match(cells[rows[0]]) if len(rows) else None
    if not found:
        return None
    filled, zone = cells.at(rows), found[1] or ""
    for i, sign in enumerate(zone.encode(), -len(zone)):
        if (filled.raw[filled.end + i] != sign).any():
            return None
    texts = Column(filled.raw, filled.start, filled.end - len(zone)).fixed()
    read = _read_plain(texts) if texts is not None else None
    if read is None:
        return None  # a 13th month, another style: told cell by cell
    instants = np.full(len(cells), _NONE)
    instants[rows] = read
    return instants


def _read_plain(texts: npt.NDArray[np.bytes_]) -> Instants | None:
    """Nanoseconds from 1970 of times like 2024-05-01T09:30:00.25; None where one is written in another way.

    By our own arithmetic: numpy 1.24 crashes where an array of bytes holds a date that is none.
    """
    width = texts.dtype.itemsize
    signs = texts.view(np.uint8).reshape(len(texts), width)
    if not _SECOND_END <= width <= len(_PATTERN) or not _fit_pattern(signs):
        return None
    year, month, day, hour, minute, second = (
        _digits(signs[:, first:end])
        for first, end in ((0, 4), (5, 7), (8, 10), (11, 13), (14, 16), (17, _SECOND_END))
    )
    months = ((year - 1970) * 12 + month - 1).astype("datetime64[M]")
    days = months.astype("datetime64[D]") + (day - 1)
    is_time = (days.astype("datetime64[M]") == months) & (month >= 1) & (month <= 12)
    is_time &= (hour < 24) & (minute < 60) & (second < 60) & (year >= _FIRST_YEAR) & (year <= _LAST_YEAR)
    if not is_time.all():
        return None
    seconds = ((days.astype(np.int64) * 24 + hour) * 60 + minute) * 60 + second
    fraction = _digits(signs[:, _SECOND_END + 1 :]) * 10 ** (len(_PATTERN) - max(width, _SECOND_END + 1))
    return np.asarray(seconds * NANOSECONDS + fraction)


def _fit_pattern(signs: Bytes) -> bool:
    """Whether each row is a time with seconds and up to nine decimals, NUL behind it."""
    is_pointed = (signs[:, _SECOND_END:] != 0).any(axis=1)
    if is_pointed.any() and (
        signs.shape[1] == _SECOND_END + 1 or (signs[is_pointed, _SECOND_END + 1] == 0).any()
    ):
        return False  # a point without a decimal
    for i, wanted in enumerate(_PATTERN[: signs.shape[1]]):
        sign = signs[:, i]
        is_right = sign - np.uint8(ord("0")) <= 9 if wanted == ord("0") else sign == wanted
        if wanted == ord("T"):
            is_right |= sign == ord(" ")
        if i >= _SECOND_END:
            is_right |= sign == 0
        if not is_right.all():
            return False
    return True


def _digits(signs: Bytes) -> Instants:
    """The whole number of each row of digits; NUL counts as 0."""
    number = np.zeros(len(signs), dtype=np.int64)
    for k in range(signs.shape[1]):
        number = number * 10 + np.where(signs[:, k] == 0, 0, signs[:, k] - ord("0"))
    return number


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
    """Nanoseconds from 1970 in UTC; None for a 13th month, a 25th hour or a year beyond FARTHEST."""
    second, _, fraction = (found["s"] or "0").replace(",", ".").partition(".")
    day = found["date"] or NO_DATE
    day = day if "-" in day else f"{day[:4]}-{day[4:6]}-{day[6:]}"
    try:
        whole = np.datetime64(f"{day}T{found['h']}:{found['m']}:{second.zfill(2)}", "s").astype(np.int64)
    except ValueError:
        return None
    zone = parse_offset(found["zone"]) if found["zone"] else (default or 0)
    if zone is None or abs(int(whole)) > FARTHEST:
        return None
    return (int(whole) - zone) * NANOSECONDS + int(fraction.ljust(9, "0") or 0)


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
