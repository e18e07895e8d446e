# SPDX-License-Identifier: GPL-2.0-or-later
"""Names that come again: stations and walks (IN-04, with times that run back) and features (IN-05)."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

import numpy as np

from ..findings import Decisions, Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from ..walk import Walk

AS_RECORDED = ("as recorded",)
ONE, TWO = "one", "two"


def unique_names(names: Sequence[str]) -> tuple[str, ...]:
    """The names, the second `12` as `12 (2)`, so that each station can be told from the others."""
    if len(set(names)) == len(names):
        return tuple(names)
    taken, seen, unique = set(names), set(), []
    for name in names:
        free, number = name, 1
        while free in seen or (number > 1 and free in taken):
            number += 1
            free = f"{name} ({number})"
        seen.add(free)
        unique.append(free)
    return tuple(unique)


def tell_restarts(walks: Iterable[Walk]) -> tuple[tuple[Walk, ...], tuple[Finding, ...]]:
    """The walks with stations that can be told apart, and an IN-04 stop where a station or a time comes again.

    Times stay as recorded; a station that comes again goes on as `12 (2)`.
    """
    told, findings = [], []
    for walk in walks:
        findings += [_station_again(walk, i, first) for i, first in _again(walk.station)]
        walk_unique = replace(walk, station=unique_names(walk.station))
        findings += [_time_back(walk_unique, i, before) for i, before in _backward(walk)]
        told.append(walk_unique)
    findings.sort(key=lambda finding: finding.line or 0)
    return tuple(told), tuple(findings)


def _again(names: Sequence[str]) -> list[tuple[int, int]]:
    """(row, row of the first of that name) of each name that comes again."""
    if len(set(names)) == len(names):
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
        remedy="Renumber it, or confirm with: as recorded. If the recorder restarted, give the rows a new walk name.",
        data={
            "file": walk.file, "line": int(walk.line[i]), "station": walk.station[i],
            "walk": walk.name, "first": int(walk.line[first]),
        },
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        feature=walk.feature[i],
        answers=AS_RECORDED,
    )  # fmt: skip


def _time_back(walk: Walk, i: int, before: int) -> Finding:
    return Finding(
        "IN-04",
        Severity.STOP,
        walk.place(i),
        template="{file}, line {line}: the time of station {station} of walk {walk} is {back:.3f} s before the time "
        "of station {other}.",
        remedy="Correct the time, or confirm with: as recorded. If the recorder restarted, give the rows a new "
        "walk name.",
        data={
            "file": walk.file, "line": int(walk.line[i]), "station": walk.station[i], "walk": walk.name,
            "back": float(walk.time[before] - walk.time[i]), "other": walk.station[before],
        },
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        feature=walk.feature[i],
        answers=AS_RECORDED,
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
    that all runs of that feature and part are one shape.
    """
    free = _FreeParts(walks)
    first: dict[str, tuple[Walk, int]] = {}
    changed, findings = [], []
    for walk in walks:
        parts = list(walk.part)
        for name, start, end in _runs(walk.feature):
            blank = [i for i in range(start, end) if not walk.part[i]] if name in first else []
            if blank:
                finding = decisions.answered(_feature_again(walk, start, *first[name]))
                findings.append(finding)
                part = "" if finding.answer == ONE else free.next_of(name)
                for i in blank:
                    parts[i] = part
            first.setdefault(name, (walk, start))
        changed.append(walk if tuple(parts) == walk.part else replace(walk, part=tuple(parts)))
    return tuple(changed), tuple(findings)


class _FreeParts:
    """Gives each feature the part numbers that its log does not use."""

    def __init__(self, walks: Sequence[Walk]) -> None:
        self._taken = {pair for walk in walks for pair in set(zip(walk.feature, walk.part))}
        self._last: dict[str, int] = {}

    def next_of(self, name: str) -> str:
        """The feature's next free part, from 2."""
        number = self._last.get(name, 1) + 1
        while (name, str(number)) in self._taken:
            number += 1
        self._last[name] = number
        return str(number)


def _runs(names: Sequence[str]) -> list[tuple[str, int, int]]:
    """(name, first row, row after) of each run of equal names, blank ones apart."""
    runs, start = [], 0
    for name, rows in groupby(names):
        end = start + sum(1 for _ in rows)
        if name:
            runs.append((name, start, end))
        start = end
    return runs


def _feature_again(walk: Walk, i: int, first: Walk, k: int) -> Finding:
    return Finding(
        "IN-05",
        Severity.ASK,
        walk.feature[i],
        template="{file}, line {line}: {feature} stands here again, first in {other}, line {first}.",
        remedy="Answer one (one shape walked in two goes) or two (two shapes), or name the part in the log.",
        data={
            "file": walk.file, "line": int(walk.line[i]), "feature": walk.feature[i],
            "other": first.file, "first": int(first.line[k]),
        },
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        feature=walk.feature[i],
        answers=(ONE, TWO),
    )  # fmt: skip
