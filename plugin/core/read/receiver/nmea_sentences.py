# SPDX-License-Identifier: GPL-2.0-or-later
"""NMEA 0183 bytes -> the sentences GGA, RMC, GST and ZDA as columns, and a count of everything else.

Splitting and checksums are done on all bytes at once; only the four kinds are taken apart one by one (nmea_fields.py).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from ...quantity import Floats, Ints
from .fixes import Tally
from .nmea_fields import COLUMNS, LAYOUT, Sentence, cells_of

Bytes = npt.NDArray[np.uint8]

AT_ONCE = 50_000
"""Sentences taken apart before their cells become numbers: keeps the memory small."""
LONGEST_NAME = 5
"""Characters of a sentence's name: two of the talker, three of the kind."""
_PASSED_OVER = frozenset({
    "AAM", "ALM", "APB", "BOD", "BWC", "DBT", "DHV", "DTM", "GBS", "GLL", "GNS", "GRS", "GSA", "GSV", "HDG", "HDM", "HDT",
    "MSS", "RMB", "ROT", "RTE", "TXT", "VBW", "VLW", "VTG", "WPL", "XTE",
})  # fmt: skip
"""Known kinds that hold nothing for a walk: one that is damaged is no loss. A damaged name may have been a fix."""
_WANTED_STRAY = re.compile(rb"(?:GGA|RMC|GST|ZDA),[\d.,]{4}")


@dataclass(frozen=True, eq=False)
class Table:
    """The sentences of one kind: m rows in order. NaN where a field is blank.

    Attributes:
        order: (m,) number of the sentence in the file. line: (m,) its line, from 1.
        talker: (m,) its talker as a number; equal ones are the same.
        columns: (m,) arrays by name: `time` seconds of the day, `lat`, `lon` degrees (north and east positive),
            `date` days from 1970-01-01, lengths in metres.
    """

    order: Ints
    line: Ints
    talker: Ints
    columns: Mapping[str, Floats]

    def __len__(self) -> int:
        """How many sentences there are."""
        return len(self.order)

    def __getitem__(self, name: str) -> Floats:
        """A column."""
        return self.columns[name]

    def where(self, keep: npt.NDArray[np.bool_] | Ints) -> Table:
        """The rows picked."""
        columns = {name: values[keep] for name, values in self.columns.items()}
        return Table(self.order[keep], self.line[keep], self.talker[keep], columns)


@dataclass(frozen=True, eq=False)
class Sentences:
    """All of a file.

    Attributes:
        tables: by kind, sentences that can be used.
        wrong: sentences that cannot: checksum, fields, ranges, or cut short.
        unchecked: sentences used that have no checksum.
        stray: lines that hold text outside any sentence.
        others: number of each other name.
    """

    tables: Mapping[Sentence, Table]
    wrong: Tally
    unchecked: Tally
    stray: Tally
    others: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True, eq=False)
class _Marks:
    """Where sentences stand in the bytes: n of each. `star` is the end of what the checksum covers."""

    text: bytes
    start: Ints
    end: Ints
    star: Ints
    line: Ints
    has_sum: npt.NDArray[np.bool_]
    is_right: npt.NDArray[np.bool_]
    is_cut: npt.NDArray[np.bool_]

    def shown(self, i: int) -> str:
        """The sentence as text."""
        return shown(self.text[self.start[i] - 1 : self.end[i]])


def shown(text: bytes) -> str:
    """Bytes as a message repeats them."""
    return "".join(chr(code) if 32 <= code < 127 else "?" for code in text.strip())


def split_sentences(data: bytes) -> Sentences:
    """All sentences of a file; NUL bytes, byte-order marks and any kind of line end are passed over."""
    text = data.replace(b"\0", b"").replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    text = re.sub(rb"^(?:\xef\xbb\xbf|\xff\xfe|\xfe\xff)", b"", text)
    buffer = np.frombuffer(text + b"\n\0\0\0", dtype=np.uint8)
    newline = np.flatnonzero(buffer == ord("\n"))
    marks = _find_marks(text, buffer, newline)
    names, codes = _names(buffer, marks)
    kinds = np.array([_kind(name) for name in names] or [""])[codes]
    number = {talker: i for i, talker in enumerate(sorted({name[:2] for name in names}))}
    talkers = np.array([number[name[:2]] for name in names] or [0], dtype=np.int64)[codes]
    # of a sentence cut short without its checksum only GST's last field could still be read, and be wrong
    usable = marks.is_right & ~(marks.is_cut & ~marks.has_sum & (kinds == Sentence.GST.value))
    wrong = np.flatnonzero(~usable & ~np.isin(kinds, ["other"])).tolist()
    tables = {}
    for kind in Sentence:
        picked = np.flatnonzero(usable & (kinds == kind.value))
        tables[kind], bad = _read_table(kind, marks, talkers, picked)
        wrong += bad
    used = np.concatenate([table.order for table in tables.values()])
    stray, lost = _strays(text, newline, marks)
    passed = np.flatnonzero(np.isin(kinds, ["other", "unknown"]))
    counts = np.bincount(codes[np.setdiff1d(passed, wrong)], minlength=len(names))
    return Sentences(
        tables,
        _tally_wrong(marks, wrong, lost),
        _tally(marks, used[~marks.has_sum[used]]),
        stray,
        {name: int(count) for name, count in zip(names, counts) if count},
    )


def _find_marks(text: bytes, buffer: Bytes, newline: Ints) -> _Marks:
    """Where each `$` starts a sentence, where it ends, and whether its checksum is right."""
    dollar = np.flatnonzero(buffer == ord("$"))
    start = dollar + 1
    row = np.searchsorted(newline, dollar)
    after = np.append(dollar[1:], len(text) + 1) if len(dollar) else dollar
    end = np.minimum(after, newline[row])
    stars = np.append(np.flatnonzero(buffer == ord("*")), len(buffer))
    star = stars[np.searchsorted(stars, start)]
    has_sum = star < end
    star = np.minimum(star, end)
    stated = np.where(
        star + 2 < end,
        16 * _HEX[buffer[np.minimum(star + 1, end)]] + _HEX[buffer[np.minimum(star + 2, end)]],
        -1,
    )
    is_right = ~has_sum | ((stated >= 0) & (stated == _sums(buffer, start, star)))
    is_cut = (end < newline[row]) | (end == len(text))
    return _Marks(text, start, end, star, row + 1, has_sum, is_right, is_cut)


_HEX = np.full(256, -(2**20), dtype=np.int64)
for _digit in range(16):
    _HEX[ord(f"{_digit:x}")] = _HEX[ord(f"{_digit:X}")] = _digit


def _sums(buffer: Bytes, start: Ints, star: Ints) -> Ints:
    """(n,) exclusive or of the bytes from each start up to its star."""
    if not len(start):
        return np.zeros(0, dtype=np.int64)
    bounds = np.column_stack([start, star]).ravel()
    sums = np.bitwise_xor.reduceat(buffer, bounds)[::2].astype(np.int64)
    return np.where(start < star, sums, 0)


def _names(buffer: Bytes, marks: _Marks) -> tuple[list[str], Ints]:
    """Different names, and (n,) the number of each sentence's own."""
    if not len(marks.start):
        return [], np.zeros(0, dtype=np.int64)
    at = marks.start[:, None] + np.arange(LONGEST_NAME + 1)
    letters = buffer[np.minimum(at, len(buffer) - 1)].copy()
    is_out = (at >= marks.star[:, None]) | (letters == ord(","))
    letters[np.logical_or.accumulate(is_out, axis=1)] = 0
    found, codes = np.unique(letters.view(f"S{LONGEST_NAME + 1}").ravel(), return_inverse=True)
    return [shown(name) for name in found.tolist()], codes


def _kind(name: str) -> str:
    """GGA, RMC, GST, ZDA; `other` for what holds nothing for a walk; `unknown`."""
    if name.startswith("P"):
        return "other"
    kind = name[2:] if len(name) == LONGEST_NAME else ""
    if kind in Sentence.__members__:
        return kind
    return "other" if kind in _PASSED_OVER else "unknown"


def _read_table(kind: Sentence, marks: _Marks, talkers: Ints, picked: Ints) -> tuple[Table, list[int]]:
    """The sentences of one kind as columns, and the numbers of those that cannot be read."""
    columns_of = COLUMNS[kind]
    bad: list[int] = []
    parts, orders = [], []
    for k in range(0, max(len(picked), 1), AT_ONCE):
        some = picked[k : k + AT_ONCE]
        spans = zip(some.tolist(), (marks.start[some] + LONGEST_NAME + 1).tolist(), marks.star[some].tolist())
        rows, order = [], []
        for i, first, last in spans:
            cells = cells_of(kind, marks.text[first:last].rstrip())
            if cells is None:
                bad.append(i)
            else:
                rows.append(cells)
                order.append(i)
        columns, is_good = columns_of(list(zip(*rows)) if rows else [()] * LAYOUT[kind].groups)
        numbers = np.array(order, dtype=np.int64)
        bad += numbers[~is_good].tolist()
        orders.append(numbers[is_good])
        parts.append({name: values[is_good] for name, values in columns.items()})
    order_all = np.concatenate(orders)
    joined = {name: np.concatenate([part[name] for part in parts]) for name in parts[0]}
    return Table(order_all, marks.line[order_all], talkers[order_all], joined), bad


def _tally(marks: _Marks, picked: Ints) -> Tally:
    if not len(picked):
        return Tally()
    first = int(picked.min())
    return Tally(len(picked), int(marks.line[first]), marks.shown(first))


def _tally_wrong(marks: _Marks, wrong: list[int], lost: Tally) -> Tally:
    """Sentences that cannot be read, with those whose start is lost."""
    told = _tally(marks, np.array(sorted(wrong), dtype=np.int64))
    if not told.count or not lost.count:
        return told if told.count else lost
    first = told if told.line <= lost.line else lost
    return Tally(told.count + lost.count, first.line, first.text)


def _strays(text: bytes, newline: Ints, marks: _Marks) -> tuple[Tally, Tally]:
    """Lines with text before their first `$`: of no sentence, and of one whose start is lost."""
    head = np.concatenate([[0], newline[:-1] + 1])
    first = np.append(marks.start - 1, len(text) + 1)[np.searchsorted(marks.start - 1, head)]
    tail = np.minimum(first, newline)
    stray, lost = Tally(), Tally()
    for row in np.flatnonzero(tail > head).tolist():
        piece = text[head[row] : tail[row]].strip()
        if _WANTED_STRAY.search(piece):
            lost = lost.and_one(row + 1, shown(piece))
        elif piece:
            stray = stray.and_one(row + 1, shown(piece))
    return stray, lost
