# SPDX-License-Identifier: GPL-2.0-or-later
"""What an NMEA 0183 log is told: sentences that cannot be used (IN-01), and what was passed over (IN-06)."""

from __future__ import annotations

import numpy as np

from ...findings import Finding
from ..faults import LONGEST_SHOWN, Fault, unreadable
from .fixes import note
from .nmea_fields import Flags
from .nmea_sentences import Sentences, Table

NOT_MEASURED = (6, 7, 8)
"""Qualities of fixes that were reckoned, typed in or simulated."""
MOST_NAMES = 20
"""Names of other sentences that a note repeats."""

WRONG = Fault(
    template='{file}, line {line}: "{cell}" cannot be used: its checksum is wrong, a field is missing or '
    "too many, or a value cannot be. Such sentences: {count}.",
    remedy="Record the log anew, or confirm with: left out. The other sentences were read.",
)
UNCHECKED = Fault(
    template="{file}, line {line}: sentences without a checksum were used; a wrong digit would not show. Such "
    "sentences: {count}.",
    remedy="None needed; let the receiver write checksums.",
)
STRAY = Fault(
    template='{file}, line {line}: "{cell}" is in no sentence and was passed over. Such lines: {count}.',
    remedy="None needed.",
)
OTHERS = Fault(
    template="{file}: other sentences were passed over: {names}.",
    remedy="None needed.",
)
NO_FIX = Fault(
    template="{file}, line {line}: sentences without a fix were passed over. Such sentences: {count}.",
    remedy="None needed; look at the track for gaps.",
)
REPEATED = Fault(
    template="{file}, line {line}: fixes that repeat the time of the one before from the same place, or from another "
    "talker, were passed over. Such fixes: {count}.",
    remedy="None needed.",
)
RECKONED = Fault(
    template="{file}, line {line}: fixes that the receiver reckoned, took from the keyboard or simulated (quality 6, 7 or "
    "8) were used. Such fixes: {count}.",
    remedy="Take their lines out if they are not of this site.",
)
RMC_ALONE = Fault(
    template="{file}, line {line}: places in RMC at times without a GGA fix were not used. Such sentences: {count}.",
    remedy="None needed; take the GGA lines out to use RMC, without heights.",
)
NO_DAY = Fault(
    template="{file}, line {line}: no day is stated with the times; they count from the first fix.",
    remedy="None needed; let the receiver write RMC or ZDA to have the date.",
)


def tell_sentences(file: str, sentences: Sentences) -> tuple[Finding, ...]:
    """What was wrong with sentences, and which were not used."""
    told = []
    wrong, unchecked, stray = sentences.wrong, sentences.unchecked, sentences.stray
    if wrong.count:
        told.append(
            unreadable(file, wrong.line, WRONG, {"cell": wrong.text[:LONGEST_SHOWN], "count": wrong.count})
        )
    if unchecked.count:
        told.append(note(file, UNCHECKED, unchecked.line, count=unchecked.count))
    if stray.count:
        told.append(note(file, STRAY, stray.line, cell=stray.text[:LONGEST_SHOWN], count=stray.count))
    if sentences.others:
        names = [f"{name or '$'} {count}" for name, count in sorted(sentences.others.items())]
        names = [*names[:MOST_NAMES], "..."] if len(names) > MOST_NAMES else names
        told.append(note(file, OTHERS, None, names=", ".join(names)))
    return tuple(told)


def tell_fixes(file: str, placing: Table, is_fix: Flags, repeated: Table) -> tuple[Finding, ...]:
    """Which sentences with a position were passed over, and fixes that were not measured."""
    told = []
    void, reckoned = placing.where(~is_fix), placing.where(is_fix & np.isin(placing["quality"], NOT_MEASURED))
    for table, fault in ((void, NO_FIX), (repeated, REPEATED), (reckoned, RECKONED)):
        if len(table):
            told.append(note(file, fault, int(table.line[0]), count=len(table)))
    return tuple(told)
