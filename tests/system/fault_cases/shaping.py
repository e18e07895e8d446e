# SPDX-License-Identifier: GPL-2.0-or-later
"""Faults of the shapes that are walked."""

from __future__ import annotations

from .case import ask, note, stop
from .edits import cell, chain, exchanged, text, without_rows
from .job import LOG_1, LOG_2

SHAPING = (
    stop(
        "an outline that crosses itself",
        exchanged(LOG_1, 10, 11, "x", "y"),
        "GE-01",
        "Pond",
        "walk_1.csv, line 14: the outline of Pond crosses itself at (-3.498, 1.009) in the "
        "survey plane, where the way from station 9 to 10 meets the way from 11 to 12.",
        others=(("GE-01", "Lawn"),),
    ),
    # Today Lawn is shown with 81.05 m2, its hole not deducted, without a word. So it is in the three rows below that have
    # a hole without an area.
    stop(
        "an outline of two stations",
        without_rows(LOG_1, 11, 12, 13),
        "GE-01",
        "Pond",
        "walk_1.csv, line 14: the outline of Pond has 2 different points, so it has no area.",
        others=(("GE-01", "Lawn"),),
    ),
    stop(
        "an outline of one station",
        without_rows(LOG_1, 10, 11, 12, 13),
        "GE-01",
        "Pond",
        "walk_1.csv, line 14: the outline of Pond has 1 different points, so it has no area.",
        others=(("GE-01", "Lawn"),),
    ),
    stop(
        "a length of one station",
        without_rows(LOG_2, 4, 5),
        "GE-01",
        "Path",
        "walk_2.csv, line 8: nothing is drawn of Path: it has no two stations with a way between them.",
    ),
    # Today nothing is said of it: it is measured as 0.00 m2.
    stop(
        "an outline on one line",
        chain(cell(LOG_1, 11, x="6.8969", y="3.2278"), cell(LOG_1, 12, x="7.4415", y="2.3891")),
        "GE-01",
        "Pond",
        "walk_1.csv, line 14: the outline of Pond lies on one line, so it has no area.",
        others=(("GE-01", "Lawn"),),
    ),
    stop(
        "a hole that sticks out",
        cell(LOG_1, 10, x="3.0", y="9.0"),
        "GE-01",
        "Lawn",
        "walk_1.csv, line 14: the hole Pond sticks out of Lawn by 3.969 m at (-2.100, 9.969).",
        touched=("Pond",),
    ),
    stop(
        "a hole of an area that is not there",
        text(LOG_1, lambda log: log.replace(",,Lawn,,", ",,Meadow,,")),
        "GE-01",
        "Pond",
        'walk_1.csv, line 14, column hole_in: "Meadow" is not the name of another area, so '
        "Pond is not deducted.",
        touched=("Lawn",),
    ),
    stop(
        "a hole of itself",
        text(LOG_1, lambda log: log.replace(",,Lawn,,", ",,Pond,,")),
        "GE-01",
        "Pond",
        'walk_1.csv, line 14, column hole_in: "Pond" is not the name of another area, so Pond '
        "is not deducted.",
        touched=("Lawn",),
    ),
    stop(
        "a hole of a length",
        text(LOG_1, lambda log: log.replace(",,Lawn,,", ",,Path,,")),
        "GE-01",
        "Pond",
        'walk_1.csv, line 14, column hole_in: "Path" is not the name of another area, so Pond '
        "is not deducted.",
        touched=("Lawn",),
    ),
    stop(
        "an offset larger than the area has room for",
        chain(*(cell(LOG_1, row, offset="2.5", offset_side="right") for row in range(9, 14))),
        "GE-01",
        "Pond",
        "walk_1.csv, line 14: the offset of 2.500 m is larger than Pond has room for at "
        "(-2.000, 0.005) in the survey plane: its outline comes out turned about.",
        others=(("GE-01", "Lawn"),),
    ),
    stop(
        "a curve without a passing point",
        cell(LOG_1, 5, leg="curve-end"),
        "GE-03",
        "W1:5",
        "walk_1.csv, line 10: the curve of Lawn from station 4 to 5 has no passing point.",
        others=(("GE-03", "W1:6"),),
    ),
    stop(
        "a curve without its end",
        chain(cell(LOG_1, 6, leg="curve")),
        "GE-03",
        "W1:6",
        "walk_1.csv, line 11: the curve of Lawn from station 4 does not come to a "
        "`curve-end`; its last `curve` station 6 was taken for its end.",
    ),
    stop(
        "a curve of a length without a passing point",
        cell(LOG_2, 4, leg="curve-end"),
        "GE-03",
        "W2:4",
        "walk_2.csv, line 9: the curve of Path from station 3 to 4 has no passing point.",
    ),
    stop(
        "a curve that is straight",
        cell(LOG_1, 5, x="5.9329", y="3.7942", z="1.7700"),
        "GE-03",
        "W1:6",
        "walk_1.csv, line 11: the curve of Lawn from station 4 to 6 is straight within what "
        "its stations can be trusted.",
    ),
    stop(
        "a full circle with one passing point",
        chain(
            cell(LOG_1, 10, leg="curve"),
            cell(LOG_1, 11, leg="curve-end", x="8.5308", y="0.7118"),
            without_rows(LOG_1, 12, 13),
        ),
        "GE-01",
        "Pond",
        "walk_1.csv, line 14: the outline of Pond has 2 different points, so it has no area.",
        others=(("GE-01", "Lawn"),),
    ),
    ask(
        "a curve that turns nearly round",
        chain(
            cell(LOG_1, 10, leg="curve"),
            cell(LOG_1, 11, leg="curve"),
            cell(LOG_1, 12, leg="curve-end", x="8.5102", y="0.4611"),
            without_rows(LOG_1, 13),
        ),
        "GE-04",
        "W1:12",
        "walk_1.csv, line 17: the curve of Pond from station 9 to 12 turns by 352.0 degrees without closing.",
        touched=("Lawn",),
    ),
    ask(
        "a curve that misses a station passed",
        chain(
            cell(LOG_1, 10, leg="curve"),
            cell(LOG_1, 11, leg="curve"),
            cell(LOG_1, 12, leg="curve-end", x="5.2", y="-0.5"),
        ),
        "GE-04",
        "W1:12",
        "walk_1.csv, line 17: the curve of Pond from station 9 to 12 misses station 11 by "
        "0.099 m, where one sigma is 0.005 m.",
        touched=("Lawn",),
    ),
    ask(
        "a very tight curve",
        chain(
            cell(LOG_2, 4, leg="curve", x="3.7577", y="-10.0357"),
            cell(LOG_2, 5, leg="curve-end", x="3.8817", y="-9.7815"),
        ),
        "GE-04",
        "W2:5",
        "walk_2.csv, line 10: the curve of Path from station 3 to 5 has a radius of only 0.200 m.",
    ),
    note(
        "an outline that does not come back",
        without_rows(LOG_1, 13),
        "CL-02",
        "Pond",
        "walk_1.csv, line 14: the outline of Pond ends 3.000 m from where it began; it was "
        "closed by a direct side.",
    ),
    note(
        "a hole that nothing names",
        text(LOG_1, lambda log: log.replace(",,Lawn,,", ",,,,")),
        "GE-05",
        "Pond+Lawn",
        "walk_1.csv, line 14: Pond lies inside Lawn and was taken as a hole of it.",
    ),
)
