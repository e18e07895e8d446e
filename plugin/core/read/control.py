# SPDX-License-Identifier: GPL-2.0-or-later
"""The control file: marks and the map points they belong to, level marks, check points."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np

from ..errors import BadCrs, BadInput
from ..units import LOG_UNITS, parse_length, parse_length_unit
from ..walk import Control, ControlPoint
from .cells import need_filled, parse_number, read_lengths, read_numbers, refuse_formulas
from .faults import AGAIN, BAD_KEY, HALF_POINT, NO_POINT, NOT_A_WORD, OUTSIDE, RowFaults, unreadable
from .keys import KeyLine, key_lines, tell_kept

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ..findings import Finding
    from ..quantity import Floats
    from .table import LogTable

COLUMNS = ("mark", "x", "y", "lon", "lat", "z", "sd_xy", "sd_z", "use")
_BARE = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)$")
"""A number without a unit; other digits than these, such as a raised 3, are none."""
KEYS = ("crs", "units", "common-sd", "separation", "height-datum")
PASSED_ON = ("picture-date",)
"""Known, but read by a later step from `Control.other`."""
GEOGRAPHIC = "EPSG:4326"
"""Of the columns lon and lat where no CRS is named."""
_USES = {"": False, "fit": False, "check": True}
_POINT_NAMES = frozenset(
    {"e", "n", "east", "north", "easting", "northing", "longitude", "latitude", "long", "lng"}
)
"""What columns of map points are called elsewhere; which is which is not guessed."""
_BOUNDS = {"lon": (-180.0, 360.0), "lat": (-90.0, 90.0)}


def read_control(table: LogTable) -> tuple[Control, tuple[Finding, ...]]:
    """The control points of a table, with its CRS and what the picks share.

    `x, y` stay in the CRS's units; `z`, the sigmas and `common-sd` are taken in `units` (metres where none are
    given); `separation` in metres.

    Raises:
        BadInput: no column for the mark or the point, both kinds of points, degrees in a projected CRS, or units
            that are not known.
    """
    lines = key_lines(table)
    pair = _point_columns(table)
    crs = _crs(table, lines, pair)
    unit = control_unit(table, lines)
    faults = RowFaults(table, ("mark",))
    need_filled(table, "mark", faults)
    refuse_formulas(table, "mark", faults)
    xy = np.column_stack([_coordinate(table, name, faults) for name in pair])
    z = read_lengths(table, "z", faults, unit)
    sd_xy, sd_z = (
        read_lengths(table, name, faults, unit, may_be_negative=False) for name in ("sd_xy", "sd_z")
    )
    checks = _checks(table, faults)
    _tell_incomplete(table, pair, xy, z, faults)
    keep = faults.keep
    points = tuple(
        ControlPoint(
            table.text("mark")[i],
            None if np.isnan(xy[i]).any() else (float(xy[i, 0]), float(xy[i, 1])),
            _given(z[i]),
            _given(sd_xy[i]),
            _given(sd_z[i]),
            checks[i],
            int(table.line[i]),
        )
        for i in range(len(table))
        if keep is None or keep[i]
    )
    common, separation, bad = _shared_figures(table, lines, unit)
    datum = lines["height-datum"].value if "height-datum" in lines else None
    other = tuple((line.written, line.value) for line in lines.values() if line.key not in KEYS)
    control = Control(points, crs, common, separation, datum, table.file, other)
    return control, (*bad, *faults.findings(), *tell_kept(table, COLUMNS, (*KEYS, *PASSED_ON)))


def _given(value: float) -> float | None:
    return None if np.isnan(value) else float(value)


def _point_columns(table: LogTable) -> tuple[str, str]:
    names = table.names
    flat, degrees = {"x", "y"} & set(names), {"lon", "lat"} & set(names)
    is_pair = {"x", "y"} <= flat or {"lon", "lat"} <= degrees
    is_level = "z" in names and not flat and not degrees and not _names_points_otherwise(table)
    if "mark" not in names or not (is_pair or is_level):
        raise BadInput(
            "{file}: the control needs the columns mark and x, y (or lon, lat, or z alone); it has {header}. "
            "Name the columns so.",
            file=table.file, header=", ".join(table.header),
        )  # fmt: skip
    if flat and degrees:
        raise BadInput(
            "{file}: the control has columns for x, y and for lon, lat. Keep one of the two pairs.",
            file=table.file,
        )
    return ("lon", "lat") if degrees else ("x", "y")


def _names_points_otherwise(table: LogTable) -> bool:
    """Whether map points stand under other names: told by the name, or by numbers where a mark has no height.

    A table of level marks may have columns of its own, so two columns of numbers alone do not tell.
    """
    unknown = [name for name in table.names if name not in COLUMNS]
    if _POINT_NAMES.intersection(unknown):
        return True
    filled = [name for name in unknown if all(_is_number(cell) for cell in table.text(name))]
    return len(filled) > 1 and "" in table.text("z")


def _is_number(cell: str) -> bool:
    return parse_number(cell.replace(",", ".")) is not None


def _crs(table: LogTable, lines: Mapping[str, KeyLine], pair: tuple[str, str]) -> str | None:
    line = lines.get("crs")
    if pair == ("x", "y") or line is None:
        return line.value if line else (GEOGRAPHIC if pair == ("lon", "lat") else None)
    if _is_projected(line.value):
        raise BadInput(
            "{file}, line {line}: lon and lat are degrees, but the CRS {crs} is projected. "
            "Name the columns x, y, or give the CRS of the degrees.",
            file=table.file, line=line.line, crs=line.value,
        )  # fmt: skip
    return line.value


def _is_projected(crs: str) -> bool:
    from ..plane import open_crs  # pyproj is slow to load, and this question is rare

    try:
        return bool(open_crs(crs).is_projected)
    except BadCrs:
        return False


def control_unit(table: LogTable, lines: Mapping[str, KeyLine]) -> float:
    """Metres by unit of the table's heights and sigmas: 1 where no units are given.

    Raises:
        BadInput: they are not among LOG_UNITS.
    """
    line = lines.get("units")
    if line is None:
        return 1.0
    try:
        unit = parse_length_unit(line.value)
    except BadInput:
        unit = None
    if unit is None or unit.name not in LOG_UNITS:
        raise BadInput(
            '{file}, line {line}: the units "{cell}" are not known. Write one of: {units}.',
            file=table.file, line=line.line, cell=line.value, units=", ".join(LOG_UNITS),
        )  # fmt: skip
    return unit.factor


def _coordinate(table: LogTable, name: str, faults: RowFaults) -> Floats:
    if name not in _BOUNDS:
        return read_lengths(table, name, faults)
    values = read_numbers(table, name, faults)
    least, most = _BOUNDS[name]
    faults.add_where((values < least) | (values > most), OUTSIDE, name, least=f"{least:g}", most=f"{most:g}")
    return values


def _checks(table: LogTable, faults: RowFaults) -> list[bool]:
    uses = [use.lower() for use in table.text("use")]
    faults.add_where(
        np.array([use not in _USES for use in uses], dtype=bool), NOT_A_WORD, "use", words="fit, check"
    )
    return [_USES.get(use, False) for use in uses]


def _tell_incomplete(
    table: LogTable, pair: tuple[str, str], xy: Floats, z: Floats, faults: RowFaults
) -> None:
    """Half a map point, nothing at all, or a mark whose point or height is given twice."""
    marks = table.text("mark")
    point, columns = ~np.isnan(xy), ", ".join(pair)
    seen: dict[tuple[str, str], int] = {}
    for i, mark in enumerate(marks):
        if point[i].sum() == 1:
            faults.add(i, HALF_POINT, mark=mark, columns=columns)
        elif not point[i].any() and np.isnan(z[i]):
            faults.add(i, NO_POINT, mark=mark, columns=columns)
        parts = [(mark, "xy")] if point[i].any() else []
        parts += [] if np.isnan(z[i]) else [(mark, "z")]
        again = [seen[part] for part in parts if part in seen]
        if again:
            faults.add(i, AGAIN, mark=mark, first=again[0])
        seen.update((part, int(table.line[i])) for part in parts if part not in seen)


def _shared_figures(
    table: LogTable, lines: Mapping[str, KeyLine], unit: float
) -> tuple[float | None, float | None, tuple[Finding, ...]]:
    """Common sigma and separation in metres; a value that is no length is told and left out."""
    values: dict[str, float] = {}
    findings = []
    for key, factor in (("common-sd", unit), ("separation", 1.0)):
        line = lines.get(key)
        if line is None:
            continue
        length = _length(line.value, factor)
        if length is None or (key == "common-sd" and length < 0):
            data = {"column": line.written, "cell": line.value, "words": "write a length like 0.10"}
            findings.append(unreadable(table.file, line.line, BAD_KEY, data))
        else:
            values[key] = length
    return values.get("common-sd"), values.get("separation"), tuple(findings)


def _length(text: str, factor: float) -> float | None:
    """A bare number in units of `factor` metres, or a length with its unit; None where it is none."""
    bare = text.replace(",", ".")
    if _BARE.match(bare):
        return float(bare) * factor
    try:
        return parse_length(text)
    except BadInput:
        return None
