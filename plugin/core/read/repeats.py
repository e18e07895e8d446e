# SPDX-License-Identifier: GPL-2.0-or-later
"""Names that come again: stations and walks (IN-04, with times that run back) and features (IN-05)."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from operator import ne
from typing import TYPE_CHECKING

import numpy as np

from ..findings import Decisions, Finding, Severity
from .columns import are_unique

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from ..walk import Walk

NO_DECISIONS = Decisions()
AS_RECORDED = ("as recorded",)
SPLIT = "split"
RESTARTED = ("as recorded", SPLIT)
ONE, TWO, REPLACE = "one", "two", "replace"
REPLACED = "replaced"
"""The part under which the older go of a feature stays in the file."""


def unique_names(names: Sequence[str]) -> tuple[str, ...]:
    """The names, the second `12` as `12 (2)`, so that each station can be told from the others."""
    if len(set(names)) == len(names):
        return tuple(names)
    taken, seen, unique = set(names), set(), []
    last: dict[str, int] = {}
    for name in names:
        number = last.get(name, 0) + 1
        free = name if number == 1 else f"{name} ({number})"
        while free in seen or (number > 1 and free in taken):
            number += 1
            free = f"{name} ({number})"
        last[name] = number
        seen.add(free)
        unique.append(free)
    return tuple(unique)


def tell_restarts(
    walks: Iterable[Walk], decisions: Decisions = NO_DECISIONS
) -> tuple[tuple[Walk, ...], tuple[Finding, ...]]:
    """The walks with stations that can be told apart, and an IN-04 stop where a station or a time comes again.

    Times stay as recorded; a station that comes again goes on as `12 (2)`. Where a stop is answered `split`, the
    rows from there on are a walk of their own, `W1 (2)`.
    """
    told: list[Walk] = []
    findings: list[Finding] = []
    for walk in walks:
        pieces, found = _tell_walk(walk, decisions)
        told += pieces
        findings += found
    return tuple(told), tuple(findings)


def _tell_walk(walk: Walk, decisions: Decisions) -> tuple[list[Walk], list[Finding]]:
    pieces: list[Walk] = []
    said: list[Finding] = []
    rest, number = walk, 1
    while True:
        again, back = _again(rest.station), _backward(rest)
        if not again and not back:
            return [*pieces, rest], said
        unique = replace(rest, station=unique_names(rest.station)) if again else rest
        found = [(i, _station_again(rest, i, first)) for i, first in again]
        found += [(i, _time_back(unique, i, before)) for i, before in back]
        answered = [
            (i, decisions.answered(finding)) for i, finding in sorted(found, key=lambda pair: pair[0])
        ]
        split = next(((i, finding) for i, finding in answered if finding.answer == SPLIT), None)
        if split is None:
            return [*pieces, unique], [*said, *(finding for _, finding in answered)]
        at, settled = split
        said += [_settled(finding, settled) if i == at else finding for i, finding in answered if i <= at]
        number += 1
        pieces.append(unique.cut(0, at, rest.name))
        rest = rest.cut(at, len(rest), f"{walk.name} ({number})")


def _settled(finding: Finding, split: Finding) -> Finding:
    """What else the row was told that a walk was split at: the split answers that too, or nobody could see why it is
    still open."""
    if not finding.is_open:
        return finding
    return replace(finding, answer=split.answer, answered_by=split.answered_by, answered_at=split.answered_at)


def _again(names: Sequence[str]) -> list[tuple[int, int]]:
    """(row, row of the first of that name) of each name that comes again."""
    if are_unique(names):
        return []
    first: dict[str, int] = {}
    return [(i, first[name]) for i, name in enumerate(names) if first.setdefault(name, i) != i]


def _backward(walk: Walk) -> list[tuple[int, int]]:
    """(row, row of the time before) where the time runs back; blank times are passed over."""
    timed = np.flatnonzero(np.isfinite(walk.time))
    back = np.flatnonzero(np.diff(walk.time[timed]) < 0)
    return [(int(timed[k + 1]), int(timed[k])) for k in back]


def _station_again(walk: Walk, i: int, first: int) -> Finding:
    return Finding(
        "IN-04",
        Severity.STOP,
        walk.place(i),
        template="{file}, line {line}: station {station} of walk {walk} stands here again, first in line {first}.",
        remedy="Renumber it, or confirm with: as recorded. If the recorder restarted here, answer split: the rows from "
        "here on are then a walk of their own.",
        data={
            "file": walk.file, "line": int(walk.line[i]), "station": walk.station[i],
            "walk": walk.name, "first": int(walk.line[first]),
        },
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        feature=walk.feature[i],
        answers=RESTARTED,
    )  # fmt: skip


def _time_back(walk: Walk, i: int, before: int) -> Finding:
    return Finding(
        "IN-04",
        Severity.STOP,
        walk.place(i),
        template="{file}, line {line}: the time of station {station} of walk {walk} is {back:.3f} s before the time "
        "of station {other}.",
        remedy="Correct the time, or confirm with: as recorded. If the recorder restarted here, answer split: the rows "
        "from here on are then a walk of their own.",
        data={
            "file": walk.file, "line": int(walk.line[i]), "station": walk.station[i], "walk": walk.name,
            "back": float(walk.time[before] - walk.time[i]), "other": walk.station[before],
        },
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        feature=walk.feature[i],
        answers=RESTARTED,
    )  # fmt: skip


def tell_same_names(walks: Sequence[Walk]) -> tuple[Finding, ...]:
    """An IN-04 stop for each walk that has the name of an earlier one."""
    first: dict[str, Walk] = {}
    return tuple(
        _walk_again(walk, first[walk.name]) for walk in walks if first.setdefault(walk.name, walk) is not walk
    )


def _walk_again(walk: Walk, first: Walk) -> Finding:
    return Finding(
        "IN-04",
        Severity.STOP,
        walk.place(0),
        template="{file}, line {line}: walk {walk} stands here again, first in {other}, line {first}.",
        remedy="Give one of the two walks another name, or confirm with: as recorded.",
        data={
            "file": walk.file, "line": int(walk.line[0]), "walk": walk.name,
            "other": first.file, "first": int(first.line[0]),
        },
        file=walk.file,
        line=int(walk.line[0]),
        walk=walk.name,
        station=walk.station[0],
        answers=AS_RECORDED,
    )  # fmt: skip


def ask_repeats(walks: Sequence[Walk], decisions: Decisions) -> tuple[tuple[Walk, ...], tuple[Finding, ...]]:
    """The walks with every (feature, part) in one run, or joined by answer, and the IN-05 asks.

    A feature that comes again later without a part is asked about. As recorded, and with the answer `two`, the
    later run is a part of its own, named by the next free number. With the answer `one` it keeps its part, so
    that all runs of that feature and part are one shape. With `replace` it keeps its part too, and what was walked
    before under that part stays as the part `replaced`, out of the figures.
    """
    goes = _Goes(walks)
    findings = []
    for k, walk in enumerate(walks):
        for name, start, end in _runs(walk.feature):
            blank = [i for i in range(start, end) if not walk.part[i]] if name in goes.first else []
            if blank:
                finding = decisions.answered(_feature_again(walk, start, *goes.first[name]))
                findings.append(finding)
                if finding.answer == REPLACE:
                    goes.set_aside(name, k, start)
                elif finding.answer != ONE:
                    goes.number(name, k, blank)
            goes.first.setdefault(name, (walk, start))
    return goes.changed(), tuple(findings)


class _Goes:
    """The parts of all walks while repeated features are settled."""

    def __init__(self, walks: Sequence[Walk]) -> None:
        self.first: dict[str, tuple[Walk, int]] = {}
        self._walks = walks
        self._free = _FreeParts(walks)
        self._parts: dict[int, list[str]] = {}
        self._replaced: dict[int, set[tuple[str, str]]] = {}

    def _of(self, k: int) -> list[str]:
        if k not in self._parts:
            self._parts[k] = list(self._walks[k].part)
        return self._parts[k]

    def number(self, name: str, k: int, rows: Iterable[int]) -> None:
        """Give rows of walk k the feature's next free number."""
        part, parts = self._free.next_of(name), self._of(k)
        for i in rows:
            parts[i] = part

    def set_aside(self, name: str, k: int, start: int) -> None:
        """Put all that was walked of a feature before row `start` of walk k, and has no part, out of the figures."""
        part = self._free.aside_of(name)
        for j in range(k + 1):
            feature, parts = self._walks[j].feature, self._of(j)
            end = start if j == k else len(feature)
            rows = [i for i in range(end) if feature[i] == name and not parts[i]]
            for i in rows:
                parts[i] = part
            if rows:
                self._replaced.setdefault(j, set()).add((name, part))

    def changed(self) -> tuple[Walk, ...]:
        """The walks with their parts as settled."""
        out = list(self._walks)
        for k, parts in self._parts.items():
            replaced = out[k].replaced | self._replaced.get(k, set())
            out[k] = replace(out[k], part=tuple(parts), replaced=frozenset(replaced))
        return tuple(out)


class _FreeParts:
    """Gives each feature the part numbers that its log does not use."""

    def __init__(self, walks: Sequence[Walk]) -> None:
        self._walks = walks
        self._last: dict[str, int] = {}

    @cached_property
    def _taken(self) -> set[tuple[str, str]]:
        return {pair for walk in self._walks for pair in set(zip(walk.feature, walk.part))}

    def next_of(self, name: str) -> str:
        """The feature's next free part, from 2."""
        number = self._last.get(name, 1) + 1
        while (name, str(number)) in self._taken:
            number += 1
        self._last[name] = number
        return str(number)

    def aside_of(self, name: str) -> str:
        """The feature's next free name for a go that another one replaced."""
        number, part = 1, REPLACED
        while (name, part) in self._taken:
            number += 1
            part = f"{REPLACED} {number}"
        self._taken.add((name, part))
        return part


def _runs(names: Sequence[str]) -> list[tuple[str, int, int]]:
    """(name, first row, row after) of each run of equal names, blank ones apart."""
    if not any(names):
        return []
    changes = np.flatnonzero(np.fromiter(map(ne, names, names[1:]), bool)) + 1
    starts = [0, *changes.tolist()]
    return [(names[i], i, end) for i, end in zip(starts, [*starts[1:], len(names)]) if names[i]]


def _feature_again(walk: Walk, i: int, first: Walk, k: int) -> Finding:
    return Finding(
        "IN-05",
        Severity.ASK,
        walk.feature[i],
        template="{file}, line {line}: {feature} stands here again, first in {other}, line {first}.",
        remedy="Answer one (one shape walked in two goes), two (two shapes) or replace (the same ground again: the older "
        "go stays in the file without figures), or name the part in the log.",
        data={
            "file": walk.file, "line": int(walk.line[i]), "feature": walk.feature[i],
            "other": first.file, "first": int(first.line[k]),
        },
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        feature=walk.feature[i],
        answers=(ONE, TWO, REPLACE),
    )  # fmt: skip
