# SPDX-License-Identifier: GPL-2.0-or-later
"""The keys of a point list: CRS and units, from its key lines and its header, that must not contradict each other."""

from __future__ import annotations

from dataclasses import replace

from ...errors import BadCrs, BadInput, BadUnit
from ...findings import Decisions, Finding
from ...units import parse_length_unit
from ...walk import ErrorGrowth, LogKeys
from ..faults import SURVEY
from ..keys import key_lines, read_keys, settle_units
from ..table import LogTable
from .columns import Role
from .table import PointTable

DEGREES_CRS = "EPSG:4326"
"""Of longitudes and latitudes where the list names none."""
SAME_UNIT = 1e-9
"""Relative: a CRS gives its unit as a rounded number; the two feet are 2e-6 apart."""


def read_list_keys(listed: PointTable, decisions: Decisions) -> tuple[LogKeys, tuple[Finding, ...]]:
    """The keys of a list; units that its header states count as stated.

    Raises:
        BadInput: units that contradict each other or the CRS, or longitudes in a CRS without degrees.
    """
    keys, findings = read_keys(listed.table)
    if Role.LONGITUDE in listed.column:
        keys = replace(keys, crs=keys.crs or DEGREES_CRS)
    if keys.crs:
        _check_crs(listed, keys.crs)
    table = _with_header_units(listed, keys.crs)
    if "error-growth" not in key_lines(table):
        keys = replace(keys, growth=ErrorGrowth.POINTS)
    place = f"{table.raw('walk')[0]}:{table.raw('station')[0]}" if len(table) else SURVEY
    keys, no_units = settle_units(table, keys, place, decisions)
    return keys, (*no_units, *findings)


def _with_header_units(listed: PointTable, crs: str | None) -> LogTable:
    """The table with the header's units as a key line more, which is told where it contradicts another.

    Raises:
        BadInput: the header states two units.
    """
    table = listed.table
    # with a CRS the coordinates are in its unit (held against it elsewhere), and `units` is that of the heights
    stated = listed.units.height if crs else tuple(dict.fromkeys((*listed.units.plan, *listed.units.height)))
    if len(stated) > 1:
        raise BadInput(
            "{file}: the header names two units, {one} and {two}. Give coordinates and heights in one.",
            file=table.file, one=stated[0], two=stated[1],
        )  # fmt: skip
    line = key_lines(table).get("units")
    if not stated or (line and _unit_name(line.value) == stated[0]):
        return table
    if line:
        raise BadInput(
            '{file}, line {line}: units is "{cell}", but the header says {unit}. Keep one of the two.',
            file=table.file, line=line.line, cell=line.value, unit=stated[0],
        )  # fmt: skip
    return replace(table, keys=(*table.keys, ("units", stated[0])), key_lines=(*table.key_lines, 0))


def _unit_name(text: str) -> str | None:
    try:
        return parse_length_unit(text).name
    except BadUnit:
        return None


def _check_crs(listed: PointTable, name: str) -> None:
    """Hold the header against the CRS; one that is not known is told when the survey is placed.

    Raises:
        BadInput: longitudes in a CRS without degrees, or eastings in another unit than its.
    """
    from ...plane import open_crs  # pyproj is slow to load, and many lists name no CRS

    file, in_degrees = listed.table.file, Role.LONGITUDE in listed.column
    try:
        crs = open_crs(name)
    except BadCrs as error:
        if not in_degrees:
            return
        raise BadInput(error.template, **error.fields) from error
    units = {axis.unit_name for axis in crs.axis_info[:2]}
    if in_degrees and not (crs.is_geographic and units == {"degree"}):
        raise BadInput(
            "{file}: longitude and latitude are in degrees, but the CRS {crs} is not. Name a geographic CRS, such as "
            "EPSG:4326, in the line crs.",
            file=file, crs=name,
        )  # fmt: skip
    for unit in listed.units.plan:
        size = parse_length_unit(unit).factor
        if crs.is_geographic or any(
            abs(axis.unit_conversion_factor / size - 1) > SAME_UNIT for axis in crs.axis_info[:2]
        ):
            raise BadInput(
                "{file}: the header gives the coordinates in {unit}, but the CRS {crs} has {has}. Correct the header, or "
                "the line crs.",
                file=file, unit=unit, crs=name, has=", ".join(sorted(units)),
            )  # fmt: skip


def has_degrees(crs: str | None) -> bool:
    """Whether coordinates in a CRS are longitude and latitude."""
    if not crs:
        return False
    from ...plane import open_crs

    try:
        return bool(open_crs(crs).is_geographic)
    except BadCrs:
        return False
