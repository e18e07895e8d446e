# SPDX-License-Identifier: GPL-2.0-or-later
"""The fields of the NMEA 0183 sentences GGA, RMC, GST and ZDA: their texts, and their numbers by whole columns.

Source of the fields: the public descriptions of NMEA 0183 sentences (from memory; checked against two
independent parsers' samples in the tests).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from enum import Enum

import numpy as np
import numpy.typing as npt

from ...quantity import Floats

Cells = Sequence["bytes | None"]
Flags = npt.NDArray[np.bool_]

LEAP = 61.0
"""Seconds of a minute: a leap second is written 60."""


class Sentence(Enum):
    """The kinds that are read."""

    GGA = "GGA"
    RMC = "RMC"
    GST = "GST"
    ZDA = "ZDA"


_TIME = rb"(\d{6}(?:\.\d*)?)?"
_PLACE = rb"(?:(\d{4}(?:\.\d*)?),([NS])|(?:\d{4}(?:\.\d*)?)?,[NS]?),(?:(\d{5}(?:\.\d*)?),([EW])|(?:\d{5}(?:\.\d*)?)?,[EW]?)"
_SIZE = rb"(\d{1,7}(?:\.\d*)?|\.\d+)?"
_NUMBER = rb"([-+]?(?:\d{1,7}(?:\.\d*)?|\.\d+))?"
LAYOUT: Mapping[Sentence, re.Pattern[bytes]] = {
    # time, place, quality, satellites, HDOP, height, separation of the geoid, age and station of corrections
    Sentence.GGA: re.compile(
        _TIME + b"," + _PLACE + rb",(\d)?,(\d{1,3})?," + _SIZE + b"," + _NUMBER + b",M?," + _NUMBER + rb",M?(?:,[^,]*){1,3}"
    ),
    # time, status, place, speed, course, date, variation and its side, mode, status of navigation
    Sentence.RMC: re.compile(
        _TIME + b",([AV])?," + _PLACE + rb",[^,]*,[^,]*,(\d{6})?(?:,[^,]*)?(?:,[^,]*)?(?:,([A-Z])?(?:,[A-Z]?)?)?"
    ),
    # time, RMS, axes and bearing of the ellipse, sigma of latitude, longitude, height
    Sentence.GST: re.compile(
        _TIME + rb",[^,]*,[^,]*,[^,]*,[^,]*," + _SIZE + b"," + _SIZE + b"," + _SIZE
    ),
    # time, day, month, year, zone
    Sentence.ZDA: re.compile(_TIME + rb",(\d\d)?,(\d\d)?,(\d{4})?,[^,]*,[^,]*"),
}  # fmt: skip
_VOID: Mapping[Sentence, re.Pattern[bytes]] = {
    Sentence.GGA: re.compile(rb"(?:[^,]*,){5}0?,.*"),
    Sentence.RMC: re.compile(rb"[^,]*,V,.*"),
}
"""Sentences that say they have no fix: whatever else stands in them, receivers that have none write odd values."""


def cells_of(kind: Sentence, text: bytes) -> tuple[bytes | None, ...] | None:
    """The fields that are used, all blank where there is no fix; None where the sentence is none of its kind."""
    found = LAYOUT[kind].fullmatch(text)
    if found is not None:
        return found.groups()
    is_void = kind in _VOID and _VOID[kind].fullmatch(text)
    return (None,) * LAYOUT[kind].groups if is_void else None


def _numbers(cells: Cells) -> Floats:
    return np.array([float(cell) if cell else np.nan for cell in cells], dtype=float)


def _times(cells: Cells) -> tuple[Floats, Flags]:
    """Seconds of the day from hhmmss.s, and where that is a time; a leap second is 60."""
    packed = _numbers(cells)
    hour, rest = np.floor(packed / 10_000), packed % 10_000
    minute = np.floor(rest / 100)
    second = np.round(rest % 100, 6)
    return hour * 3600 + minute * 60 + second, (hour < 24) & (minute < 60) & (second < LEAP)


def _degrees(cells: Cells, sides: Cells, negative: bytes, most: float) -> tuple[Floats, Flags]:
    """Degrees from dddmm.mmm and its side, and where these are in range (or blank)."""
    packed = _numbers(cells)
    whole = np.floor(packed / 100)
    minutes = packed - 100 * whole
    degrees = whole + minutes / 60
    is_good = np.isnan(packed) | ((minutes < 60) & (degrees <= most))
    sign = np.array([-1.0 if side == negative else 1.0 for side in sides])
    return degrees * sign, is_good


def _fix_columns(cells: Sequence[Cells]) -> tuple[dict[str, Floats], Flags]:
    """Time and place from the first five: time, latitude, its side, longitude, its side."""
    time, is_time = _times(cells[0])
    lat, is_lat = _degrees(cells[1], cells[2], b"S", 90.0)
    lon, is_lon = _degrees(cells[3], cells[4], b"W", 180.0)
    return {"time": time, "lat": lat, "lon": lon}, (is_time | np.isnan(time)) & is_lat & is_lon


def _gga_columns(cells: Sequence[Cells]) -> tuple[dict[str, Floats], Flags]:
    columns, is_good = _fix_columns(cells)
    names = ("quality", "satellites", "hdop", "z", "geoid_separation")
    columns.update((name, _numbers(column)) for name, column in zip(names, cells[5:]))
    return columns, ~(columns["quality"] > 0) | (is_good & _is_placed(columns))


def _is_placed(columns: Mapping[str, Floats]) -> Flags:
    placed = np.isfinite(columns["time"]) & np.isfinite(columns["lat"]) & np.isfinite(columns["lon"])
    return np.asarray(placed)


_YEARS = frozenset(str(year).encode() for year in range(1980, 2080))
"""Of satellite navigation, as far as two digits tell them."""
QUALITY_OF_MODE: Mapping[bytes, float] = {
    b"N": 0, b"A": 1, b"D": 2, b"P": 3, b"R": 4, b"F": 5, b"E": 6, b"M": 7, b"S": 8,
}  # fmt: skip
"""GGA's quality that RMC's mode stands for."""


def _rmc_columns(cells: Sequence[Cells]) -> tuple[dict[str, Floats], Flags]:
    reordered = [cells[0], *cells[2:6]]
    columns, is_good = _fix_columns(reordered)
    quality = np.array([1.0 if mode is None else QUALITY_OF_MODE.get(mode, 1.0) for mode in cells[7]])
    columns["quality"] = np.where([status == b"A" for status in cells[1]], quality, 0.0)
    dates = [_days(cell and (cell[:2], cell[2:4], _century(cell[4:]))) for cell in cells[6]]
    columns["date"] = np.array(dates, dtype=float)
    is_void = ~(columns["quality"] > 0)
    columns["date"][is_void & (columns["date"] == np.inf)] = np.nan
    return columns, is_void | (is_good & (columns["date"] != np.inf) & _is_placed(columns))


def _century(year: bytes) -> bytes:
    """Four digits: satellite navigation began in 1980."""
    return (b"19" if year >= b"80" else b"20") + year


def _days(date: tuple[bytes, bytes, bytes] | bytes | None) -> float:
    """Days from 1970-01-01; NaN where blank, infinite where there is no such day."""
    if not date or isinstance(date, bytes):
        return np.nan
    day, month, year = (part.decode() for part in date)
    try:
        return float(np.datetime64(f"{year}-{month}-{day}", "D").astype(np.int64))
    except ValueError:
        return np.inf


def _gst_columns(cells: Sequence[Cells]) -> tuple[dict[str, Floats], Flags]:
    time, is_good = _times(cells[0])
    lat, lon, z = map(_numbers, cells[1:4])
    return {"time": time, "sd_xy": np.sqrt((lat**2 + lon**2) / 2), "sd_z": z}, is_good | np.isnan(time)


def _zda_columns(cells: Sequence[Cells]) -> tuple[dict[str, Floats], Flags]:
    time, is_good = _times(cells[0])
    dates = [(d, m, y) if d and m and y else None for d, m, y in zip(*cells[1:4])]
    days = np.array(
        [_days(date) if date is None or date[2] in _YEARS else np.inf for date in dates], dtype=float
    )
    return {"time": time, "date": days}, (is_good | np.isnan(time)) & ~(days == np.inf)


COLUMNS: Mapping[Sentence, Callable[[Sequence[Cells]], tuple[dict[str, Floats], Flags]]] = {
    Sentence.GGA: _gga_columns,
    Sentence.RMC: _rmc_columns,
    Sentence.GST: _gst_columns,
    Sentence.ZDA: _zda_columns,
}
"""The columns of each kind from its cells, and which of the sentences can be."""
