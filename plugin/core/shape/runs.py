# SPDX-License-Identifier: GPL-2.0-or-later
"""Features walked in several goes: all runs of one feature and part are one shape, across walks too (IN-05)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from ..positions import Positions, station_of
from ..quantity import Floats
from ..walk import Kind, Leg, Walk
from .legs import Group
from .spread import Spread

NUMBERS = ("xy", "z", "time", "hold", "offset", "pole", "sd_xy", "sd_z")
CELLS = ("station", "feature", "part", "kind", "hole_in", "mark")


def join_runs(groups: Sequence[Group], positions: Positions) -> list[Group]:
    """The groups, all runs of one feature and part joined in the order walked; spots stay as they are.

    A run that begins where the one before ended (on the same mark, or as near as an outline is closed) goes on
    from there; from any other one walked over without drawing, as by a carry.
    """
    runs: dict[tuple[str, str], list[Group]] = {}
    for group in groups:
        runs.setdefault((group.feature, group.part), []).append(group)
    out: list[Group] = []
    for own in runs.values():
        out += [_joined(own, positions)] if len(own) > 1 and not _are_spots(own) else own
    return out


def _are_spots(runs: Sequence[Group]) -> bool:
    kind = next((kind for kind in (group.kind() for group in runs) if kind is not None), None)
    return kind is Kind.SPOT or (kind is None and all(len(group.rows) == 1 for group in runs))


def _joined(runs: Sequence[Group], positions: Positions) -> Group:
    rows, legs = list(runs[0].rows), list(runs[0].legs)
    spread = Spread(positions, sorted({row for run in runs for row in (run.rows[0], run.rows[-1])}))
    for run in runs[1:]:
        goes_on = _goes_on(positions, spread, rows[-1], run.rows[0])
        rows += run.rows[1:] if goes_on else run.rows
        legs += run.legs[1:] if goes_on else (Leg.CARRY, *run.legs[1:])
    sources = tuple(station_of(positions, row) for row in rows)
    walk = _walk_of(sources, tuple(legs))
    others = dict.fromkeys(run.walk_number for run in runs if run.walk_number != runs[0].walk_number)
    return Group(runs[0].walk_number, walk, tuple(rows), tuple(range(len(rows))), sources, tuple(others))


def _goes_on(positions: Positions, spread: Spread, last: int, first: int) -> bool:
    (one, i), (other, k) = station_of(positions, last), station_of(positions, first)
    return bool(one.mark[i] and one.mark[i] == other.mark[k]) or spread.is_one_place(last, first)


def _walk_of(sources: Sequence[tuple[Walk, int]], legs: tuple[Leg, ...]) -> Walk:
    """One walk of these rows, with the legs given; it is called as the first row's is."""
    columns: dict[str, Any] = {name: _picked(name, sources) for name in NUMBERS}
    columns.update((name, tuple(getattr(walk, name)[i] for walk, i in sources)) for name in CELLS)
    columns["leg"] = legs
    texts = {
        name: tuple(walk.text(name, i) for walk, i in sources)
        for name in dict.fromkeys(name for walk, _ in sources for name in walk.texts)
    }
    line = np.array([walk.line[i] for walk, i in sources], dtype=np.int64)
    return replace(sources[0][0], line=line, texts=texts, sizes={}, extra={}, **columns)


def _picked(name: str, sources: Sequence[tuple[Walk, int]]) -> Floats:
    return np.array([getattr(walk, name)[i] for walk, i in sources], dtype=np.float64)
