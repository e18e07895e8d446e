# SPDX-License-Identifier: GPL-2.0-or-later
"""Faults of walking: marks, sizes, holds, times, heights."""

from __future__ import annotations

from .case import ask, edited, note, stop
from .edits import (
    GROUND_LEVELS,
    cell,
    chain,
    every,
    exchanged,
    key,
    moved,
    scaled,
    swap,
    text,
    without,
    without_rows,
)
from .job import CONTROL, INSTRUMENTS, LOG_1, LOG_2, TAPES, yard

FOOT, SURVEY_FOOT = 0.3048, 1200.0 / 3937.0
LEVELS = ("x", "y", "z")
BOTH_3 = chain(scaled(LOG_1, 1.03, "x", "y"), scaled(LOG_2, 1.03, "x", "y"))
NEAR_1 = swap(LOG_1, "\nW1,2,", "\nW1,1b,6.5160,-5.3661,1.9400,3.308,1,,,,,,E,,,,,\nW1,2,")
NEAR_2 = swap(LOG_2, "\nW2,2,", "\nW2,1b,-1.0233,0.1634,1.9400,3.308,1,,,,,,E,,,,,\nW2,2,")
"""Both walks stand on a mark E at (3, 0) too."""

WALKING = (
    stop(
        "marks exchanged",
        exchanged(LOG_2, 2, 7, "mark"),
        "TI-03",
        "W2:7+W2:2",
        "Walk W2 fits the other walks only with its marks B and C exchanged (would serve as "
        "well: no other walk).",
    ),
    stop(
        "a shared mark exchanged with one of the walk's own",
        exchanged(LOG_2, 6, 7, "mark"),
        "TI-03",
        "W2:6",
        "Mark C as stood on in walk W2 at station 6 is 15.743 m from where the rest puts it "
        "(the same could be said of W1:14).",
        others=(
            ("TI-03", "W1:14"),
            ("TI-03", "W2:6+C"),
            ("TI-03", "W1:14+C"),
            ("SR-01", "A+B"),
            ("SR-01", "B+C"),
            ("PL-01", "C"),
        ),
    ),
    stop(
        "a walk mirrored",
        scaled(LOG_2, -1.0, "y"),
        "TI-03",
        "W2:1",
        "Walk W2 fits the other walks only as a mirror image (would serve as well: W1).",
        others=(("TI-03", "W1:1"), ("PL-01", "C")),
    ),
    stop(
        "a drifting walk mirrored",
        scaled("walk_2.csv", -1.0, "x"),
        "TI-03",
        "W2:1",
        "Walk W2 fits the other walks only as a mirror image (would serve as well: no other walk).",
        clean=yard,
    ),
    stop(
        "a walk with x and y exchanged",
        swap(LOG_2, "station,x,y,", "station,y,x,"),
        "TI-03",
        "W2:1",
        "Walk W2 fits the other walks only as a mirror image (would serve as well: W1).",
        others=(("TI-03", "W1:1"), ("PL-01", "C")),
    ),
    stop(
        "a walk with its heights upside down",
        scaled(LOG_2, -1.0, "z"),
        "TI-03",
        "survey",
        "The marks agree less well than the instrument should give: the test of all heights "
        "has a chance of 0.0e+00, and no single stand explains it.",
    ),
    stop(
        "a walk 1 % too large",
        scaled(LOG_2, 1.01, "x", "y"),
        "TI-03",
        "survey",
        "The marks agree less well than the instrument should give: the test between two "
        "walks has a chance of 1.0e-05, and no single stand explains it.",
    ),
    stop(
        "a walk 3 % too large",
        scaled(LOG_2, 1.03, "x", "y"),
        "TI-03",
        "survey",
        "The marks agree less well than the instrument should give: the test between two "
        "walks has a chance of 2.8e-56, and no single stand explains it.",
    ),
    stop(
        "every walk 3 % too large",
        BOTH_3,
        "SR-01",
        "A+B",
        "Tape A to B: taped 15.000 m, walked 15.450 m, difference -0.450 m where 0.044 m (95 "
        "%) would be expected.",
        clean=edited(without(CONTROL), GROUND_LEVELS, without_rows(TAPES, 2)),
    ),
    stop(
        "every walk 3 % too large, and two tapes say so",
        BOTH_3,
        "TI-03",
        "survey",
        "The marks agree less well than the instrument should give: the test of the whole "
        "plan network has a chance of 2.2e-96, and no single stand explains it.",
        others=(("PL-01", "C"),),
    ),
    stop(
        "a walk ten times too large",
        scaled(LOG_2, 10.0, *LEVELS),
        "IN-02",
        "W2:1",
        "Walk W2: its lengths between marks are 10 times those of the tape, and no unit would explain that.",
        clean=edited(without(CONTROL), GROUND_LEVELS),
    ),
    stop(
        "a walk ten times too large against the map",
        scaled(LOG_2, 10.0, "x", "y", "z"),
        "IN-02",
        "W2:1",
        "Walk W2: its lengths between marks are 10 times those of the tape, and no unit would explain that.",
    ),
    stop(
        "a walk fifty times too large",
        scaled(LOG_2, 50.0, *LEVELS),
        "IN-02",
        "W2:1",
        "Walk W2: its lengths between marks are 50 times those of the tape, and no unit would explain that.",
    ),
    stop(
        "a walk in centimetres that says millimetres",
        scaled(LOG_2, 0.1, *LEVELS),
        "IN-03",
        "W2:1",
        "Walk W2: its lengths between marks are 0.1 times those of the tape; the log says mm, "
        "and cm would fit.",
        clean=edited(scaled(LOG_2, 1000.0, *LEVELS), swap(LOG_2, "# units: m", "# units: mm")),
    ),
    stop(
        "a walk in millimetres that says metres",
        scaled(LOG_2, 1000.0, *LEVELS),
        "IN-03",
        "W2:1",
        "Walk W2: its lengths between marks are 1000 times those of the tape; the log says m, "
        "and mm would fit.",
    ),
    stop(
        "a walk in feet that says metres",
        scaled(LOG_2, 1.0 / FOOT, *LEVELS),
        "IN-03",
        "W2:1",
        "Walk W2: its lengths between marks are 3.281 times those of the tape; the log says "
        "m, and ft or us-ft would fit.",
    ),
    stop(
        "a walk in metres that says feet",
        swap(LOG_2, "# units: m", "# units: ft"),
        "IN-03",
        "W2:1",
        "Walk W2: its lengths between marks are 0.3048 times those of the tape; the log says "
        "ft, and m would fit.",
    ),
    stop(
        "a station at a mark 0.5 m off",
        moved(LOG_2, 7, "x", 0.5, last=7),
        "TI-03",
        "W2:7",
        "Mark C as stood on in walk W2 at station 7 is 0.500 m from where the rest puts it.",
    ),
    stop(
        "a mark's name on the wrong station",
        chain(cell(LOG_2, 7, mark=""), cell(LOG_2, 4, mark="C")),
        "TI-03",
        "W2:4",
        "Mark C as stood on in walk W2 at station 4 is 1.424 m from where the rest puts it.",
    ),
    stop(
        "a wrong mark's name",
        cell(LOG_2, 7, mark="D"),
        "CL-01",
        "W2:7",
        "Walk W2 comes back to D 15.000 m off, where its instrument should give 0.036 m (one "
        "sigma). No single leg or turn between stations 6 and 7 explains it.",
        others=(("CL-01", "W2:7+D"),),
    ),
    stop(
        "a mark's height 0.3 m off",
        moved(LOG_2, 7, "z", 0.3, last=7),
        "TI-03",
        "W2:7+C",
        "The height of mark C in walk W2 at station 7 is 0.300 m from what the rest gives "
        "(the same could be said of W1:14+C).",
        others=(("TI-03", "W1:14+C"),),
    ),
    stop(
        "a return 1 m off",
        moved(LOG_1, 16, "y", 1.0),
        "CL-01",
        "W1:16",
        "Walk W1 comes back to A 1.000 m off, where its instrument should give 0.051 m (one "
        "sigma). No single leg or turn between stations 1 and 16 explains it.",
    ),
    stop(
        "a leg 0.6 m too long",
        chain(moved(LOG_1, 9, "x", -0.5886), moved(LOG_1, 9, "y", -0.1165)),
        "CL-01",
        "W1:16",
        "Walk W1 comes back to A 0.600 m off, where its instrument should give 0.051 m (one "
        "sigma). Between stations 1 and 16 any one of these alone would explain it: leg 8 to "
        "9 (+0.60 m), 4 to 5 (+0.60 m).",
        others=(("TI-03", "W1:14"),),
    ),
    stop(
        "a return 0.3 m too high",
        moved(LOG_1, 16, "z", 0.3),
        "CL-01",
        "W1:16+A",
        "Walk W1 comes back to A +0.300 m off in height, where its instrument should give "
        "0.029 m (one sigma).",
    ),
    stop(
        "a walk that shares one mark",
        chain(*(cell(LOG_2, row, mark="") for row in (2, 6, 7))),
        "TI-01",
        "W2:1",
        "Walk W2 shares fewer than two marks with the others (shared: A), so its place and "
        "turn are not known. It is left out.",
    ),
    stop(
        "a walk without marks",
        every(LOG_2, mark=""),
        "TI-01",
        "W2:1",
        "Walk W2 shares fewer than two marks with the others (shared: none), so its place and "
        "turn are not known. It is left out.",
    ),
    stop(
        "a walk whose marks have other names",
        chain(
            *(
                cell(LOG_2, row, mark=name)
                for row, name in ((1, "a1"), (2, "b1"), (6, "d1"), (7, "c1"), (9, "a1"))
            )
        ),
        "TI-01",
        "W2:1",
        "Walk W2 shares fewer than two marks with the others (shared: none), so its place and "
        "turn are not known. It is left out.",
    ),
    stop(
        "finished levels and no level",
        swap("control.csv", ",10.000,0.02,0.003,", ",,0.02,,"),
        "HT-01",
        "survey",
        "Finished levels are walked (Path in walk W2 is the first), but no mark has a known height.",
    ),
    ask(
        "a pole longer from a station on",
        moved("walk_1.csv", 14, "z", 0.30),
        "WK-03",
        "W1:14",
        "The heights of Paved court fit clearly better with one jump of +0.30 m from station "
        "14 on. No step is drawn there.",
        clean=yard,
        others=(("CL-01", "W1:34+A"),),
    ),
    ask(
        "a pole longer over one feature",
        moved("walk_3.csv", 10, "z", 0.12, last=14),
        "WK-03",
        "W3:10",
        "The heights of Bed 2 fit clearly better with one jump of +0.13 m from station 10 on. "
        "No step is drawn there.",
        clean=yard,
    ),
    ask(
        "a short hold at a corner",
        cell(LOG_1, 4, hold_s="0.2"),
        "WK-02",
        "W1:4",
        "Station 4 was held for 0.2 s only.",
    ),
    ask(
        "a short hold at a mark",
        cell(LOG_1, 2, hold_s="0"),
        "WK-02",
        "W1:2",
        "Station 2 was held for 0.0 s only.",
    ),
    ask(
        "a slow leg",
        moved(LOG_2, 5, "time", 9.0),
        "WK-01",
        "W2:5",
        "The leg from 4 to 5 of Path took 19 s of moving.",
    ),
    note(
        "times at leaving in place of arrival",
        moved(LOG_1, 10, "time", 2.4, last=10),
        "WK-01",
        "W1:11",
        "The times of walk W1 leave no moving time to 1 of its stations (11 is the first) "
        "once the hold is taken off; their legs are judged by their length at walking speed.",
    ),
    note(
        "a walk by phone",
        key(LOG_2, "source-class: phone"),
        "SR-01",
        "W2:1",
        "walk_2.csv: the places of the spots of walk W2 (1) come from a phone and are good for some metres; their heights "
        "are left out.",
    ),
    ask(
        "an instrument without any noise",
        swap(INSTRUMENTS, "0.003,0.0004,0.004,", ",,,"),
        "SR-01",
        "W1:1",
        "The row level-1 of the instruments file gives neither leg noise nor stand noise: "
        "walk W1 would be certain beyond what any instrument is.",
        others=(("SR-01", "W2:1"),),
    ),
    note(
        "an instrument that the file does not have",
        swap(LOG_2, "level-1", "level-2"),
        "IN-06",
        "W2:1",
        "The instruments file has no row level-2: walk W2 goes by the default, or its own sd.",
    ),
    ask(
        "no tape",
        without(TAPES),
        "CL-03",
        "survey",
        "The walks close, but no length was taped: a closed loop cannot show the instrument's scale.",
    ),
    note(
        "a walk that does not come back",
        without_rows(LOG_2, 8, 9),
        "CL-02",
        "W2:7",
        "Walk W2 ends on mark C. Between its marks a single blunder would be seen from this "
        "size on: A to B 0.26 m; B to C 0.21 m.",
    ),
    ask(
        "marks close together for how far the walk reaches",
        chain(*(cell(LOG_2, row, mark="") for row in (3, 7, 8))),
        "TI-02",
        "W2:4",
        "The marks that walk W2 shares with the others are 3.0 m apart at the most, and it "
        "reaches 16.7 m away: expect 0.16 m (95 %) at station 4.",
        others=(("TI-02", "W1:4"),),
        clean=edited(NEAR_1, NEAR_2),
    ),
)
