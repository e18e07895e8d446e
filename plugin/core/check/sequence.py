# SPDX-License-Identifier: GPL-2.0-or-later
"""How a walk was walked: legs that took too long, stations that were not held."""

from __future__ import annotations

import numpy as np

from ..findings import Finding, Severity
from ..walk import Leg, Walk

LONGEST_MOVE = 12.0
"""s of moving on a drawn leg (trade.md, WK-01): leg noise grows with time to the power 1.5."""
SHORTEST_HOLD = 0.5
"""s of standing still at a corner or a mark (WK-02)."""


def check_moves(walk: Walk) -> list[Finding]:
    """WK-01: drawn legs on which the instrument moved for longer than 12 s."""
    hold = np.nan_to_num(walk.hold)
    moving = np.diff(walk.time) - hold[:-1]
    out = []
    for i in np.flatnonzero(moving > LONGEST_MOVE) + 1:
        drawn = (
            walk.feature[i] and walk.feature[i] == walk.feature[i - 1] and walk.part[i] == walk.part[i - 1]
        )
        if not drawn or walk.leg[i] in (Leg.CARRY, Leg.AS_WALKED):
            continue
        data = {"start": walk.station[i - 1], "end": walk.station[i], "seconds": float(moving[i - 1])}
        out.append(
            _at(
                walk,
                int(i),
                "WK-01",
                "The leg from {start} to {end} of {feature} took {seconds:.0f} s of moving.",
                "Add a pass station on such legs, or accept a larger uncertainty.",
                data,
            )
        )
    return out


def check_times(walk: Walk) -> list[Finding]:
    """WK-01, a note: ways for which the times leave no moving time once the hold is taken off. One a walk."""
    moving = np.diff(walk.time) - np.nan_to_num(walk.hold[:-1])
    way = np.hypot(*np.diff(walk.xy, axis=0).T)
    rows = np.flatnonzero((moving <= 0) & (way > 0)) + 1
    if not len(rows):
        return []
    i = int(rows[0])
    return [
        Finding(
            "WK-01",
            Severity.NOTE,
            walk.place(i),
            "The times of walk {walk} leave no moving time to {count} of its stations ({station} is the first) once "
            "the hold is taken off; their legs are judged by their length at walking speed.",
            "Times are those of arrival, and holds the seconds held from then on: check both columns.",
            {"walk": walk.name, "count": len(rows), "station": walk.station[i]},
            file=walk.file,
            line=int(walk.line[i]),
            walk=walk.name,
            station=walk.station[i],
        )
    ]


def check_holds(walk: Walk) -> list[Finding]:
    """WK-02: corners and marks that were held for less than 0.5 s. Blank holds say nothing."""
    out = []
    for i in np.flatnonzero(walk.hold < SHORTEST_HOLD):
        is_corner = walk.feature[i] and walk.leg[i] in (Leg.DIRECT, Leg.CURVE_END)
        if is_corner or walk.mark[i]:
            out.append(
                _at(
                    walk,
                    int(i),
                    "WK-02",
                    "Station {station} was held for {seconds:.1f} s only.",
                    "Walk it again if it is a corner or a mark; accept it if it was passed on purpose.",
                    {"station": walk.station[i], "seconds": float(walk.hold[i])},
                )
            )
    return out


def _at(walk: Walk, i: int, code: str, template: str, remedy: str, data: dict[str, object]) -> Finding:
    return Finding(
        code,
        Severity.ASK,
        walk.place(i),
        template,
        remedy,
        {**data, "feature": walk.feature[i] or walk.mark[i]},
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        feature=walk.feature[i],
        answers=("accept",),
    )
