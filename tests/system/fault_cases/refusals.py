# SPDX-License-Identifier: GPL-2.0-or-later
"""Faults that make a file unusable or every figure wrong: nothing is written, and one sentence says why."""

from __future__ import annotations

import re

import pyproj

from plugin.core.errors import BadCrs, BadInput, Refused

from .case import Refusal, edited
from .edits import (
    GROUND_LEVELS,
    cell,
    chain,
    copied,
    data,
    every,
    key,
    rows_of,
    scaled,
    swap,
    text,
    without,
    without_column,
    without_rows,
)
from .job import CONTROL, DECISIONS, INSTRUMENTS, LOG_1, LOG_2, TAPES

AREA_OF_USE = pyproj.CRS("EPSG:25831").area_of_use.name
"""As the registry on this machine words it; its editions list other countries."""


def widened(log: str) -> str:
    """The log with 982 more columns, blank: 1000 in all."""
    keys, header, rows = log.splitlines()[:4], log.splitlines()[4], log.splitlines()[5:]
    more = "".join(f",more {i}" for i in range(982))
    return "\n".join([*keys, header + more, *(row + "," * 982 for row in rows), ""])


def commas(log: str) -> str:
    """Decimal commas in every number."""
    return re.sub(r"(?<=\d)\.(?=\d)", ",", log)


REFUSALS = (
    Refusal(
        "no units",
        swap(LOG_1, "# units: m\n", ""),
        Refused,
        'IN-02: walk_1.csv: the units are not given. State them in a line "# units: m" above '
        "the header, or answer for W1:1 with m, ft or us-ft.",
    ),
    Refusal(
        "unknown units",
        swap(LOG_1, "# units: m\n", "# units: ells\n"),
        Refused,
        'IN-02: walk_1.csv, line 1: the units "ells" are not known. Write one of: m, ft, '
        "us-ft, in, cm, mm, or answer for W1:1 with m, ft or us-ft.",
    ),
    Refusal(
        "two different units",
        key(LOG_1, "units: ft"),
        BadInput,
        'walk_1.csv, line 2: units is "m" here but "ft" in line 1. Keep one of the two.',
    ),
    Refusal(
        "unknown units of the tapes",
        swap(TAPES, "units: m", "units: rods"),
        Refused,
        'IN-02: tapes.csv, line 1: the units "rods" are not known. Write one of: m, ft, '
        "us-ft, in, cm, mm, or answer for A+B with m, ft or us-ft.",
    ),
    Refusal(
        "unknown units of the control",
        key(CONTROL, "units: rods"),
        BadInput,
        'control.csv, line 1: the units "rods" are not known. Write one of: m, ft, us-ft, in, cm, mm.',
    ),
    Refusal(
        "no column x",
        without_column(LOG_1, "x"),
        BadInput,
        "walk_1.csv: the walk log has no column x. Its header needs walk, station, x and y; "
        "it has walk, station, y, z, time, hold_s, feature, part, geometry, leg, hole_in, "
        "mark, surface, offset, offset_side, width, note.",
    ),
    Refusal(
        "no column station",
        without_column(LOG_1, "station"),
        BadInput,
        "walk_1.csv: the walk log has no column station. Its header needs walk, station, x "
        "and y; it has walk, x, y, z, time, hold_s, feature, part, geometry, leg, hole_in, "
        "mark, surface, offset, offset_side, width, note.",
    ),
    Refusal(
        "a column twice",
        swap(LOG_1, ",hold_s,", ",x,"),
        BadInput,
        'The header of walk_1.csv names the column "x" twice (fields 3 and 7). Rename one.',
    ),
    Refusal(
        "a thousand columns",
        text(LOG_1, widened),
        BadInput,
        "walk_1.csv: the header has 1000 columns; more than 500 cannot be a table of ours.",
    ),
    Refusal(
        "a column without a name",
        swap(LOG_1, ",hold_s,", ",,"),
        BadInput,
        "walk_1.csv: column 7 of the header has no name. Name it.",
    ),
    Refusal(
        "an empty file",
        data(LOG_1, lambda log: b""),
        BadInput,
        "walk_1.csv is empty. Give a table with a header row.",
    ),
    Refusal(
        "a file of blanks",
        data(LOG_1, lambda log: b" \n\t\n"),
        BadInput,
        "walk_1.csv is empty. Give a table with a header row.",
    ),
    Refusal(
        "a header and no row",
        text(LOG_1, lambda log: "\n".join(log.splitlines()[:5]) + "\n"),
        BadInput,
        "walk_1.csv: the walk log has a header but no stations. Give a row a station.",
    ),
    Refusal(
        "keys and nothing else",
        text(LOG_1, lambda log: "\n".join(log.splitlines()[:4]) + "\n"),
        BadInput,
        "walk_1.csv has no header row. Give the column names in the line above the rows.",
    ),
    Refusal(
        "rows without a header",
        text(LOG_1, lambda log: "\n".join(log.splitlines()[5:]) + "\n"),
        BadInput,
        'The header of walk_1.csv names the column "1" twice (fields 2 and 7). Rename one.',
    ),
    Refusal(
        "bars for separators",
        text(LOG_1, lambda log: log.replace(",", "|")),
        BadInput,
        "walk_1.csv, line 5: the header of a walk log stands here, but its columns are not "
        "separated by commas, semicolons or tabs. Separate them so.",
    ),
    Refusal(
        "a NUL byte in a row",
        data(LOG_1, lambda log: log.replace(b"W1,9,", b"W1,\x009,")),
        BadInput,
        "walk_1.csv, line 14: a NUL byte stands here, so this is not text. Save it again as UTF-8 CSV.",
    ),
    Refusal(
        "UTF-16 without its mark",
        data(LOG_1, lambda log: log.decode().encode("utf-16-le")),
        BadInput,
        "walk_1.csv, line 1: a NUL byte stands here, so this is not text. Save it again as UTF-8 CSV.",
    ),
    Refusal(
        "UTF-16 cut within a character",
        data(LOG_1, lambda log: log.decode().encode("utf-16")[:-1]),
        BadInput,
        "walk_1.csv starts as UTF-16-LE but byte 2114 does not fit. Save it again as UTF-8 CSV.",
    ),
    Refusal(
        "a quote left open in the middle",
        swap(LOG_1, "W1,9,", '"W1,9,'),
        BadInput,
        "walk_1.csv, line 14: a field that starts here cannot be read (unexpected end of "
        "data). Close each quoted field with a quote, and double the quotes inside it.",
    ),
    Refusal(
        "no row that can be read",
        every(LOG_1, x="?"),
        BadInput,
        "No row of the logs can be read. IN-01, the first of 16: walk_1.csv, line 6, column "
        'x: "?" is not a number. Give a number or empty the field; the rest of the file was '
        "read.",
        clean=edited(without(LOG_2)),
    ),
    Refusal(
        "no log at all",
        without(LOG_1, LOG_2),
        BadInput,
        "There is no walk log among the files: control.csv, decisions.csv, instruments.csv, "
        "tapes.csv. Add one, or a point list, GPX, NMEA 0183 or LandXML.",
    ),
    Refusal(
        "two files of control",
        copied(CONTROL, "control_old.csv"),
        BadInput,
        "Both control.csv and control_old.csv are control files. Keep one, with all marks in it.",
    ),
    Refusal(
        "two rows of one instrument",
        copied(INSTRUMENTS, "instruments_old.csv"),
        BadInput,
        "instruments_old.csv: the instrument level-1 stands in another file too. Keep it in one.",
    ),
    Refusal(
        "a table of something else",
        rows_of("staff.csv", "name,shoe size", "one,41", "two,43"),
        BadInput,
        "staff.csv is a table, but none that is read: no walk log, control, tapes, instruments or decisions, and no point "
        "list whose columns have names that are known. Its header is name, shoe size. Correct the header, choose the "
        "columns before the run if it is a point list, or take the file away.",
    ),
    Refusal(
        "a control without a CRS",
        swap(CONTROL, "# crs: EPSG:25831\n", ""),
        Refused,
        "PL-04: control.csv does not say in which CRS its points are. Add a line such as `# "
        "crs: EPSG:25831`.",
    ),
    Refusal(
        "a CRS that nobody knows",
        swap(CONTROL, "EPSG:25831", "EPSG:999999"),
        BadCrs,
        'The CRS "EPSG:999999" is not known. Give an authority code such as EPSG:25831, or its WKT.',
    ),
    Refusal(
        "a CRS in degrees",
        swap(CONTROL, "EPSG:25831", "EPSG:4326"),
        Refused,
        "PL-04: the CRS WGS 84 of control.csv is in degrees. Choose a projected CRS for the "
        "map; sizes are from the survey plane.",
    ),
    Refusal(
        "a CRS of another country",
        swap(CONTROL, "EPSG:25831", "EPSG:27700"),
        Refused,
        "PL-04: the site lies at 172.802, 78.822 (longitude, latitude), out of the area of "
        "OSGB36 / British National Grid (United Kingdom (UK) - offshore to boundary of UKCS "
        "within 49°45'N to 61°N and 9°W to 2°E; onshore Great Britain (England, Wales and "
        "Scotland). Isle of Man onshore.). Check the CRS, the unit and the column order of "
        "the control.",
    ),
    Refusal(
        "map points that say the web projection",
        swap(CONTROL, "EPSG:25831", "EPSG:3857"),
        Refused,
        "PL-02: The base A to B is 15.000 m walked and 10.513 m on the map (ground length), "
        "-4.487 m apart. Wrong point, wrong unit or wrong CRS: check these map points.",
    ),
    Refusal(
        "every walk in feet that says metres, against the tapes",
        chain(*(scaled(log, 1.0 / 0.3048, "x", "y", "z") for log in (LOG_1, LOG_2))),
        Refused,
        "No walk is left to adjust. IN-03 at W1:1 (walk_1.csv, line 6): Walk W1: its lengths between marks are 3.281 "
        "times those of the tape; the log says m, and ft or us-ft would fit. Set the walk's unit to ft or us-ft. Or answer "
        "it with a row in the decisions file: IN-03,W1:1,ft or us-ft",
        clean=edited(without(CONTROL), GROUND_LEVELS),
    ),
    Refusal(
        "every walk 3 % too large against the map",
        chain(scaled(LOG_1, 1.03, "x", "y"), scaled(LOG_2, 1.03, "x", "y")),
        Refused,
        "PL-02: The base A to B is 15.450 m walked and 15.000 m on the map (ground length), "
        "-0.450 m apart. Wrong point, wrong unit or wrong CRS: check these map points.",
        clean=edited(without_rows(TAPES, 2)),
    ),
    Refusal(
        "every walk in feet that says metres, against the map",
        chain(scaled(LOG_1, 1.0 / 0.3048, "x", "y", "z"), scaled(LOG_2, 1.0 / 0.3048, "x", "y", "z")),
        Refused,
        "PL-02: The base A to B is 49.213 m walked and 15.000 m on the map (ground length), "
        "-34.213 m apart. It would fit if the lengths were in ft. Wrong point, wrong unit or "
        "wrong CRS: check these map points.",
    ),
    Refusal(
        "decimal commas among commas in every log",
        chain(*(text(log, commas) for log in (LOG_1, LOG_2))),
        BadInput,
        "No row of the logs can be read. IN-01, the first of 25: walk_1.csv, line 6, column "
        'leg: "1" is not one of: direct, curve, curve-end, as-walked, carry. Write one of '
        "these words or empty the field; the rest of the file was read.",
    ),
    Refusal(
        "lon and lat under x and y names",
        swap(CONTROL, "mark,x,y,", "mark,lon,lat,"),
        BadInput,
        "control.csv, line 1: lon and lat are degrees, but the CRS EPSG:25831 is projected. "
        "Name the columns x, y, or give the CRS of the degrees.",
    ),
    Refusal(
        "map points whose base is 1 m longer",
        cell(CONTROL, 2, x="512355.9940"),
        Refused,
        "PL-02: The base A to B is 15.000 m walked and 16.000 m on the map (ground length), "
        "+1.000 m apart. Wrong point, wrong unit or wrong CRS: check these map points.",
    ),
    Refusal(
        "control in feet that says metres",
        scaled(CONTROL, 1.0 / 0.3048, "x", "y"),
        Refused,
        "PL-04: the site lies at 172.244, 11.139 (longitude, latitude), out of the area of "
        f"ETRS89 / UTM zone 31N ({AREA_OF_USE}). Check the CRS, the unit and the column order of the control.",
    ),
    Refusal(
        "every walk 10 % too large and no tape",
        chain(without(TAPES), scaled(LOG_1, 1.1, "x", "y"), scaled(LOG_2, 1.1, "x", "y")),
        Refused,
        "PL-02: The base A to B is 16.500 m walked and 15.000 m on the map (ground length), "
        "-1.500 m apart. Wrong point, wrong unit or wrong CRS: check these map points.",
    ),
    Refusal(
        "a decision's column missing",
        rows_of(DECISIONS, "finding,answer", "CL-03,accept"),
        BadInput,
        "decisions.csv: the decisions have no column place. Their header needs finding, place "
        "and answer; it has finding, answer.",
    ),
    Refusal(
        "a tape's column missing",
        without_column(TAPES, "distance"),
        BadInput,
        "tapes.csv: the tapes have no column distance. Their header needs from, to and "
        "distance; it has from, to, sd, slope.",
    ),
    # Today it is read as a point list, and stopped for sharing no marks (TI-01) and for having no level (HT-01).
    Refusal(
        "a control without marks",
        without_column(CONTROL, "mark"),
        BadInput,
        "control.csv: the control needs the columns mark and x, y (or lon, lat, or z alone); it has x, y, z, sd_xy, "
        "sd_z, use. Name the columns so.",
    ),
)
