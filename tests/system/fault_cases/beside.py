# SPDX-License-Identifier: GPL-2.0-or-later
"""Faults of what lies beside the logs: control, tapes, instruments, decisions."""

from __future__ import annotations

from .case import ask, edited, note, stop
from .edits import (
    again,
    cell,
    chain,
    exchanged,
    key,
    line,
    swap,
    text,
    without,
    without_column,
    without_rows,
)
from .job import CONTROL, DECISIONS, INSTRUMENTS, LOG_2, TAPES, yard

LEVELS = swap(CONTROL, "712850.0000,,0.02,,fit", "712850.0000,9.700,0.02,0.003,fit")
"""B has a level too: 10 - 0.02 x 15."""
CHECKED = swap(CONTROL, "712861.9952,,0.02,,check", "712861.9952,9.580,0.02,0.003,check")
"""C has one that is not fitted: 10 - 0.02 x 15 - 0.01 x 12."""
UNCHECKED = {"others": (("PL-01", "survey"),)}
"""Without C nothing checks the two pairs."""

BESIDE = (
    stop(
        "a mark twice in the control",
        again(CONTROL, 2, 2),
        "IN-01",
        "B",
        "control.csv, line 6: B stands here again; it is already in line 5.",
    ),
    stop(
        "half a map point",
        cell(CONTROL, 3, y=""),
        "IN-01",
        "C",
        "control.csv, line 6: C has one of x, y without the other.",
        **UNCHECKED,
    ),
    stop(
        "a mark with neither point nor height",
        cell(CONTROL, 3, x="", y=""),
        "IN-01",
        "C",
        "control.csv, line 6: C has neither a map point nor a height.",
        **UNCHECKED,
    ),
    stop(
        "a use that is none",
        cell(CONTROL, 3, use="maybe"),
        "IN-01",
        "C",
        'control.csv, line 6, column use: "maybe" is not one of: fit, check.',
        **UNCHECKED,
    ),
    stop(
        "NaN for a map point",
        cell(CONTROL, 3, x="nan"),
        "IN-01",
        "C",
        'control.csv, line 6, column x: "nan" is not a finite number.',
        **UNCHECKED,
    ),
    stop(
        "a sigma of a map point below zero",
        cell(CONTROL, 3, sd_xy="-0.02"),
        "IN-01",
        "C",
        'control.csv, line 6, column sd_xy: "-0.02" is below zero.',
        **UNCHECKED,
    ),
    stop(
        "a formula for a mark of the control",
        cell(CONTROL, 3, mark="=A1"),
        "IN-01",
        "=A1",
        'control.csv, line 6, column mark: "=A1" is a formula, not its value.',
        **UNCHECKED,
    ),
    stop(
        "a blank mark",
        cell(CONTROL, 3, mark=""),
        "IN-01",
        "survey",
        "control.csv, line 6, column mark: the field is blank.",
        **UNCHECKED,
    ),
    stop(
        "a common sd that is none",
        key(CONTROL, "common-sd: wide"),
        "IN-01",
        "survey",
        'control.csv, line 1, key common-sd: "wide" cannot be used; write a length like 0.10.',
    ),
    stop(
        "a separation that is none",
        key(CONTROL, "separation: about 45"),
        "IN-01",
        "survey",
        'control.csv, line 1, key separation: "about 45" cannot be used; write a length like 0.10.',
    ),
    stop(
        "two map points and nothing else",
        without_rows(CONTROL, 3),
        "PL-01",
        "survey",
        "The survey is placed on two pairs only, with no check point: exchanged pairs (a "
        "half-turn) would fit just as well.",
    ),
    stop(
        "control with A and B exchanged",
        exchanged(CONTROL, 1, 2, "x", "y"),
        "PL-01",
        "C",
        "Check point C lies 28.302 m from where the map pairs put it; 0.082 m (95 %) would be "
        "expected. It would fit with A and B exchanged.",
    ),
    stop(
        "a check point 1 m off",
        cell(CONTROL, 3, y="5712862.9952"),
        "PL-01",
        "C",
        "Check point C lies 1.000 m from where the map pairs put it; 0.082 m (95 %) would be expected.",
    ),
    note(
        "control with one map point",
        without_rows(CONTROL, 2, 3),
        "PL-01",
        "survey",
        "The survey is not placed on a map: 1 of its marks have a map point, and two are "
        "needed. It is in a plane of its own; sizes are right all the same.",
    ),
    note(
        "no control",
        without(CONTROL),
        "PL-01",
        "survey",
        "The survey is not placed on a map: 0 of its marks have a map point, and two are "
        "needed. It is in a plane of its own; sizes are right all the same.",
        touched=("Oak",),  # its height is relative then, and the placement says so
        clean=edited(text(LOG_2, lambda log: log.replace("finished", "ground"))),
    ),
    note(
        "a control mark that nobody stood on",
        line(CONTROL, "E,512350.0,5712860.0,,0.02,,check"),
        "IN-06",
        "E",
        "Control point E is not used: no walk stands on a mark of this name.",
    ),
    stop(
        "a level 0.3 m off",
        cell(CONTROL, 2, z="10.000"),
        "TI-03",
        "B",
        "The known level of mark B, 10.000 m, is 0.300 m from what the walks and the other "
        "levels give (the same could be said of A).",
        others=(("TI-03", "A"),),
        clean=edited(LEVELS),
    ),
    stop(
        "a check height 0.3 m off",
        cell(CONTROL, 3, z="9.880"),
        "TI-03",
        "C",
        "Check height C, 9.880 m, lies +0.300 m from what the walks and the levels give; "
        "0.020 m (95 %) would be expected.",
        clean=edited(CHECKED),
    ),
    ask(
        "map points without accuracy",
        without_column(CONTROL, "sd_xy"),
        "PL-03",
        "survey",
        "The control gives no accuracy (sd_xy) for A, B, C; 0.05 m per axis is assumed.",
    ),
    ask(
        "a picture two years older than the walk",
        swap("control.csv", "picture-date: 2026-04-28", "picture-date: 2024-04-28"),
        "PL-03",
        "survey",
        "The picture of 2024-04-28 is 744 days older than the survey.",
        clean=yard,
    ),
    stop(
        "a tape of no length",
        cell(TAPES, 1, distance="0"),
        "IN-01",
        "A+B",
        'tapes.csv, line 3, column distance: "0" is not above zero.',
    ),
    stop(
        "a tape below zero",
        cell(TAPES, 1, distance="-15"),
        "IN-01",
        "A+B",
        'tapes.csv, line 3, column distance: "-15" is not above zero.',
    ),
    stop(
        "a tape of NaN",
        cell(TAPES, 1, distance="nan"),
        "IN-01",
        "A+B",
        'tapes.csv, line 3, column distance: "nan" is not a finite number.',
    ),
    stop(
        "a tape of infinity",
        cell(TAPES, 1, distance="inf"),
        "IN-01",
        "A+B",
        'tapes.csv, line 3, column distance: "inf" is not a finite number.',
    ),
    stop(
        "a tape of 1e300",
        cell(TAPES, 1, distance="1e300"),
        "IN-01",
        "A+B",
        'tapes.csv, line 3, column distance: "1e300" is beyond 1e9 m.',
    ),
    stop(
        "a tape with a sigma below zero",
        cell(TAPES, 1, sd="-0.01"),
        "IN-01",
        "A+B",
        'tapes.csv, line 3, column sd: "-0.01" is below zero.',
    ),
    stop(
        "a tape without a length",
        cell(TAPES, 1, distance=""),
        "IN-01",
        "A+B",
        "tapes.csv, line 3, column distance: the field is blank.",
    ),
    stop(
        "a tape from a mark to itself",
        cell(TAPES, 1, to="A"),
        "IN-01",
        "A+A",
        "tapes.csv, line 3: the tape runs from A to A.",
    ),
    stop(
        "a tape that is perhaps level",
        cell(TAPES, 1, slope="perhaps"),
        "IN-01",
        "A+B",
        'tapes.csv, line 3, column slope: "perhaps" is not one of: yes, no.',
    ),
    note(
        "a tape to a mark that nobody stood on",
        line(TAPES, "A,E,20.000,0.01,no"),
        "IN-06",
        "A+E",
        "The tape from A to E is not used: no walk stands on E.",
    ),
    stop(
        "a tape in feet that says metres",
        cell(TAPES, 1, distance=f"{15.0 / 0.3048:.3f}"),
        "IN-03",
        "A+B",
        "Tape A to B: 49.213 m is 3.281 times the length walked; ft or us-ft would fit.",
        others=(("SR-01", "A+B"),),
    ),
    stop(
        "tapes in metres that say feet",
        swap(TAPES, "units: m", "units: ft"),
        "IN-03",
        "A+B",
        "Tape A to B: 4.572 m is 0.3048 times the length walked; m would fit.",
        others=(("IN-03", "B+C"), ("SR-01", "A+B"), ("SR-01", "B+C")),
    ),
    stop(
        "a tape with a wrong digit",
        text("tapes.csv", lambda t: t.replace("A,B,23.989344", "A,B,24.19")),
        "SR-01",
        "A+B",
        "Tape A to B: taped 24.190 m, walked 24.017 m, difference +0.173 m where 0.043 m (95 "
        "%) would be expected.",
        clean=yard,
    ),
    stop(
        "a tape a metre long",
        cell(TAPES, 2, distance="13.000"),
        "SR-01",
        "B+C",
        "Tape B to C: taped 13.000 m, walked 12.000 m, difference +1.000 m where 0.039 m (95 "
        "%) would be expected.",
    ),
    stop(
        "a tape that ends exchange",
        exchanged(TAPES, 1, 2, "distance"),
        "SR-01",
        "A+B",
        "Tape A to B: taped 12.000 m, walked 16.295 m, difference -4.295 m where 0.044 m (95 "
        "%) would be expected.",
        others=(("SR-01", "B+C"),),
    ),
    ask(
        "a slope tape whose end has no height",
        chain(cell(TAPES, 1, slope="yes"), *(cell(log, 2, z="") for log in ("walk_1.csv", "walk_2.csv"))),
        "SR-01",
        "A+B",
        "The tape from A to B lies along the slope, but the height of B is not known: it is left out.",
    ),
    stop(
        "an instrument's sigma below zero",
        cell(INSTRUMENTS, 1, leg_m="-0.003"),
        "IN-01",
        "level-1",
        'instruments.csv, line 2, column leg_m: "-0.003" is below zero.',
    ),
    stop(
        "an instrument's sigma of NaN",
        cell(INSTRUMENTS, 1, scale="nan"),
        "IN-01",
        "level-1",
        'instruments.csv, line 2, column scale: "nan" is not a finite number.',
    ),
    note(
        "an answer to nothing",
        line(DECISIONS, "TI-03,W1:1,leave out,tester,2026-05-13"),
        "IN-06",
        "W1:1",
        "The decisions file answers TI-03 at W1:1 (leave out), but nothing asks that now.",
    ),
    note(
        "an answer with a word that is none",
        chain(without(TAPES), line(DECISIONS, "CL-03,survey,perhaps,tester,2026-05-13")),
        "IN-06",
        "survey",
        "The decisions file answers CL-03 at survey with perhaps, which it does not take.",
        others=(("CL-03", "survey"),),
    ),
)
