# SPDX-License-Identifier: GPL-2.0-or-later
"""NMEA 0183 logs -> walks: GGA or RMC give the places, RMC and ZDA the day, GST the sigma."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...errors import BadInput
from ...findings import Finding
from ...quantity import Floats, Ints
from ...walk import ErrorGrowth, LogKeys, SourceClass, Walk
from ..faults import LONGEST_SHOWN, of_whole_file
from ..recorded import FileRead, make_walk
from .fixes import SIGMA_OF_OTHERS, SIGMA_OF_QUALITY, Fixes, as_texts, note, started_at, stem_of, walk_rows
from .nmea_fields import Flags, Sentence
from .nmea_notes import NO_DAY, RMC_ALONE, tell_fixes, tell_sentences
from .nmea_sentences import Sentences, Table, split_sentences

PAUSE = 600.0
"""s: a longer gap between two fixes starts a new walk."""
NEAR = 200
"""Sentences: those of one moment stand no further apart in the file."""
DAY = 86_400.0
SURVEY_GRADE = (4, 5)
"""Qualities of an instrument: RTK, fixed and float."""


@dataclass(frozen=True, eq=False)
class _Moments:
    """The fixes used: their table, `seconds` (n,) from the first fix, and the first day (NaN where none is stated)."""

    table: Table
    seconds: Floats
    first_day: float


def read_nmea(file: str, data: bytes) -> FileRead:
    """Read an NMEA 0183 log: walks in longitude and latitude, and what was noticed (IN-01, IN-06).

    Places and heights (as the receiver gives them, above mean sea level by convention) come from GGA, or from RMC
    without heights where no GGA has a fix. A gap of over ten minutes or a time that runs back starts a new walk.
    Each stand becomes one station with its own sigma. The log counts as an instrument's where all its fixes are RTK
    (quality 4 or 5), else as a phone's (common practice, no source).

    Args:
        file: its name, for messages; the walks are named by its stem.
        data: the file's bytes.

    Raises:
        BadInput: there is no sentence with a position, or none has a fix.
    """
    sentences = split_sentences(data)
    placing = _placing(sentences)
    is_fix = _is_fix(sentences, placing)
    table = placing.where(is_fix)
    if not len(table):
        raise _no_fix(file, sentences, placing)
    once = _is_first(table)
    moments = _in_time(table.where(once), sentences)
    notes = (
        *tell_sentences(file, sentences),
        *tell_fixes(file, placing, is_fix, table.where(~once)),
        *_tell_more(file, sentences, placing, moments),
    )
    walks = _walks(file, moments, sentences.tables[Sentence.GST])
    return FileRead(walks, of_whole_file(notes, walks))


def _placing(sentences: Sentences) -> Table:
    """The sentences that give the places: GGA, or RMC where no GGA has a fix."""
    gga, rmc = sentences.tables[Sentence.GGA], sentences.tables[Sentence.RMC]
    if (gga["quality"] > 0).any() or not len(rmc):
        return gga
    blank = np.full(len(rmc), np.nan)
    columns = {**rmc.columns, **dict.fromkeys(("satellites", "hdop", "z", "geoid_separation"), blank)}
    return Table(rmc.order, rmc.line, rmc.talker, columns)


def _is_fix(sentences: Sentences, placing: Table) -> Flags:
    """(m,) sentences whose quality is above 0 and whose moment RMC does not call void."""
    rmc = sentences.tables[Sentence.RMC]
    partner = _partners(placing, rmc)
    is_void: Flags = np.append(rmc["quality"] == 0, False)[partner]
    used: Flags = (placing["quality"] > 0) & ~is_void
    return used


def _partners(table: Table, other: Table) -> Ints:
    """(m,) row of the sentence in `other` of the same time of day that stands nearest in the file; -1 for none."""
    if not len(other) or not len(table):
        return np.full(len(table), -1)
    far = int(max(table.order.max(), other.order.max())) + 1
    _, which = np.unique(np.concatenate([table["time"], other["time"]]), return_inverse=True)
    mine = which[: len(table)] * far + table.order
    theirs = which[len(table) :] * far + other.order
    theirs = np.where(np.isnan(other["time"]), -far, theirs)
    sort = np.argsort(theirs, kind="stable")
    ranked = np.concatenate([[-far], theirs[sort], [np.iinfo(np.int64).max // 2]])
    after = np.searchsorted(ranked, mine)
    nearest = np.where(mine - ranked[after - 1] <= ranked[after] - mine, after - 1, after)
    is_near = (np.abs(ranked[nearest] - mine) <= NEAR) & (ranked[nearest] // far == mine // far)
    return np.where(is_near, np.concatenate([[-1], sort, [-1]])[nearest], -1)


def _is_first(table: Table) -> Flags:
    """(n,) fixes that say something new: not the same place again, nor another talker's, at the same time."""
    is_same_time = np.concatenate([[False], np.diff(table["time"]) == 0])
    begins = np.maximum.accumulate(np.where(is_same_time, 0, np.arange(len(table))))
    keep: Flags = table.talker == table.talker[begins]
    kept = np.flatnonzero(keep)
    changes = np.diff([table[name][kept] for name in ("time", "lon", "lat")], axis=1)
    keep[kept[1:][(changes == 0).all(axis=0)]] = False
    return keep


def _in_time(table: Table, sentences: Sentences) -> _Moments:
    """The fixes with their time: midnight turns the day, and RMC and ZDA say which it is."""
    clock = table["time"]
    turns = np.concatenate(
        [[0], np.cumsum(np.where(np.diff(clock) < -DAY / 2, 1, np.where(np.diff(clock) > DAY / 2, -1, 0)))]
    )
    day = np.full(len(table), np.nan)
    for kind in (Sentence.ZDA, Sentence.RMC):
        dated = sentences.tables[kind]
        dated = dated.where(np.isfinite(dated["date"]))
        found = np.append(dated["date"], np.nan)[_partners(table, dated)]
        day = np.where(np.isnan(found), day, found)
    known = np.flatnonzero(np.isfinite(day))
    if not len(known):
        seconds = (turns - turns[0]) * DAY + (clock - clock[0])
        return _Moments(table, seconds, np.nan)
    # a fix without a day goes by the last one that has it, the first ones by the first that has
    last = np.maximum.accumulate(np.where(np.isfinite(day), np.arange(len(day)), -1))
    last = np.where(last < 0, known[0], last)
    day = day[last] + (turns - turns[last])
    return _Moments(table, (day - day[0]) * DAY + (clock - clock[0]), float(day[0]))


def _walks(file: str, moments: _Moments, gst: Table) -> tuple[Walk, ...]:
    table, seconds = moments.table, moments.seconds
    quality = table["quality"].astype(np.int64)
    is_instrument = bool(np.isin(quality, SURVEY_GRADE).all())
    fixes = _fixes(table, seconds, gst)
    step = np.diff(seconds)
    bounds = [0, *(np.flatnonzero((step < 0) | (step > PAUSE)) + 1).tolist(), len(table)]
    walks = []
    for k, (first, end) in enumerate(zip(bounds, bounds[1:])):
        name = stem_of(file) if k == 0 else f"{stem_of(file)} ({k + 1})"
        started = _started(moments, first)
        keys = LogKeys(
            units="m",
            crs="EPSG:4326",
            source_class=SourceClass.INSTRUMENT if is_instrument else SourceClass.PHONE,
            date=started[:10] or None,
            growth=ErrorGrowth.RECEIVER,
        )
        walks.append(make_walk(name, file, keys, walk_rows(fixes.cut(first, end), name), started))
    return tuple(walks)


def _fixes(table: Table, seconds: Floats, gst: Table) -> Fixes:
    partner = _partners(table, gst)
    # a sigma of nothing is a receiver that does not know it
    sd_xy, sd_z = (
        np.append(np.where(gst[name] > 0, gst[name], np.nan), np.nan)[partner] for name in ("sd_xy", "sd_z")
    )
    assumed = [SIGMA_OF_QUALITY.get(int(quality), SIGMA_OF_OTHERS) for quality in table["quality"].tolist()]
    if np.isin(table["quality"], SURVEY_GRADE).all() and (table["quality"] != SURVEY_GRADE[0]).any():
        # A float fix is far worse than a fixed one: what an instrument's log is worth is then told fix by fix.
        sd_xy = np.where(np.isfinite(sd_xy), sd_xy, assumed)
    names = ("quality", "satellites", "hdop", "geoid_separation")
    extra = {name: as_texts(table[name]) for name in names if np.isfinite(table[name]).any()}
    return Fixes(
        table["lon"], table["lat"], table["z"], seconds, table.line, sd_xy, sd_z, np.array(assumed), extra
    )


def _started(moments: _Moments, i: int) -> str:
    """ISO 8601 time of fix i; "" where no day is stated."""
    if np.isnan(moments.first_day):
        return ""
    clock = moments.table["time"][0] + moments.seconds[i]
    return started_at(int(moments.first_day), float(clock))


def _no_fix(file: str, sentences: Sentences, placing: Table) -> BadInput:
    if len(placing):
        return BadInput(
            "{file}: none of its {count} sentences with a position has a fix (the first in line {line}). Record it "
            "under open sky.",
            file=file, count=len(placing), line=int(placing.line[0]),
        )  # fmt: skip
    if sentences.wrong.count:
        return BadInput(
            '{file}, line {line}: "{cell}" cannot be used, and there is no GGA or RMC sentence that can. Record the log '
            "anew; a receiver's binary messages are not read.",
            file=file, line=sentences.wrong.line, cell=sentences.wrong.text[:LONGEST_SHOWN], count=sentences.wrong.count,
        )  # fmt: skip
    return BadInput(
        "{file}: there is no GGA or RMC sentence of NMEA 0183 in it. Let the receiver write one of them.",
        file=file,
    )


def _tell_more(file: str, sentences: Sentences, placing: Table, moments: _Moments) -> tuple[Finding, ...]:
    """RMC's places at times that GGA does not have, and a log without a day."""
    told = []
    rmc = sentences.tables[Sentence.RMC]
    if placing is sentences.tables[Sentence.GGA]:
        alone = rmc.where((rmc["quality"] > 0) & (_partners(rmc, placing) < 0))
        if len(alone):
            told.append(note(file, RMC_ALONE, int(alone.line[0]), count=len(alone)))
    if np.isnan(moments.first_day):
        told.append(note(file, NO_DAY, int(moments.table.line[0])))
    return tuple(told)
