# SPDX-License-Identifier: GPL-2.0-or-later
"""What looks like a fault and is none, what nothing could show, and names that no file should have."""

from __future__ import annotations

from .case import Harmless, Silent, edited
from .edits import cell, chain, data, moved, scaled, swap, text, without, without_rows
from .job import CONTROL, LOG_1, LOG_2, TAPES, lane, yard

FOOT = 0.3048
NAMES = {
    "a path": "../../etc/passwd",
    "a path of another system": "C:\\temp\\..\\x",
    "markup": "<b>x</b><script>1</script>",
    "braces": "{file} {0} {} {",
    "percent signs": "%s %d 100 %",
    "right-to-left text": "\u05d2\u05d9\u05e0\u05d4 \u202e)abc(",
    "emoji": "\U0001f333\U0001f469\u200d\U0001f33e",
    "ten thousand characters": "long name " * 999 + "to the end",
    "a quote and separators": 'the "old", bed;\tx',
    "a statement": "'); DROP TABLE areas; --",
    "a line break": "first\nsecond",
    "a plus, a colon and a slash": "A+B:1/2",
}
"""Names that are kept as they are."""

HARMLESS = (
    Harmless("a mark before UTF-8", data(LOG_1, lambda log: b"\xef\xbb\xbf" + log)),
    Harmless("UTF-16 with its mark", data(LOG_1, lambda log: log.decode().encode("utf-16"))),
    Harmless("CRLF", text(LOG_1, lambda log: log.replace("\n", "\r\n"))),
    Harmless("CR alone", text(LOG_1, lambda log: log.replace("\n", "\r"))),
    Harmless("tabs", text(LOG_1, lambda log: log.replace(",", "\t"))),
    Harmless("semicolons", text(LOG_1, lambda log: log.replace(",", ";"))),
    Harmless(
        "semicolons and decimal commas", text(LOG_1, lambda log: log.replace(",", ";").replace(".", ","))
    ),
    Harmless("header words in capitals", swap(LOG_1, "walk,station,x,y", "Walk,STATION,X,Y")),
    Harmless("blank lines", text(LOG_1, lambda log: log.replace("\nW1,9", "\n\n\nW1,9"))),
    Harmless("no line break at the end", text(LOG_1, str.rstrip)),
    Harmless("a walk half-turned in its own frame", scaled(LOG_2, -1.0, "x", "y")),
    Harmless("a walk far from its origin", chain(moved(LOG_2, 1, "x", 1e7), moved(LOG_2, 1, "y", -1e7))),
    Harmless("heights far from zero", moved(LOG_2, 1, "z", 5000.0)),
    Harmless(
        "a walk in feet that says so",
        chain(scaled(LOG_2, 1.0 / FOOT, "x", "y", "z"), swap(LOG_2, "units: m", "units: ft")),
    ),
    Harmless("tapes without units, those of the logs", swap(TAPES, "# units: m\n", "")),
    Harmless("a tape the other way round", swap(TAPES, "A,B,", "B,A,")),
    Harmless(
        # 2e-6 of a length: 3 cm2 of a lawn of 70 m2. It would matter in a CRS of millions of feet, which is not told by
        # this key.
        "feet for US survey feet",
        chain(*(swap(f"walk_{i}.csv", "units: us-ft", "units: ft") for i in (1, 2, 3))),
        clean=lane,
    ),
    Harmless("the yard's walk half-turned", scaled("walk_2.csv", -1.0, "x", "y"), clean=yard),
)

NO_SIZE = edited(without(TAPES, CONTROL), text(LOG_2, lambda log: log.replace("finished", "ground")))
BOTH = (LOG_1, LOG_2)

SILENT = (
    Silent(
        "every walk 3 % too large, and no tape nor map",
        chain(*(scaled(log, 1.03, "x", "y") for log in BOTH)),
        ("CL-03", "survey"),
        NO_SIZE,
    ),
    Silent(
        "every walk in feet that says metres, and no tape nor map",
        chain(*(scaled(log, 1.0 / FOOT, "x", "y", "z") for log in BOTH)),
        ("CL-03", "survey"),
        NO_SIZE,
    ),
    Silent("a station 0.4 m off that no mark checks", moved(LOG_2, 5, "x", 0.4, last=5), ("CL-02", "W2:9")),
    # No station number has to follow the one before, and the one level of a job has nothing beside it.
    Silent("a corner that was never walked", without_rows(LOG_1, 11), None),
    Silent("the only level 0.3 m wrong", cell(CONTROL, 1, z="10.300"), None),
)
