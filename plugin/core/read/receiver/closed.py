# SPDX-License-Identifier: GPL-2.0-or-later
"""Tracks that end where they began: a receiver's file cannot say whether a way or an area was walked."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from ...findings import Decisions, Finding, Severity
from ...walk import ErrorGrowth, Kind, Walk
from .stands import walked_metres

AREA, LENGTH = "area", "length"
NEAR = 0.05
"""Part of a track's length within which its ends may be one place."""
FARTHEST = 15.0
"""m, and no farther apart than this: some sigma of a phone's fix (common practice, no source)."""
FEWEST = 4
"""Stations: three corners and the first one again."""


def ask_closed(walks: Iterable[Walk], decisions: Decisions) -> tuple[tuple[Walk, ...], tuple[Finding, ...]]:
    """The walks of receivers, those that an answer makes outlines changed to areas; an ask (IN-07) for each track that
    ends where it began and is one length from end to end."""
    out, said = [], []
    for walk in walks:
        gap = _gap(walk)
        if gap is not None:
            finding = decisions.answered(_finding(walk, gap))
            said.append(finding)
            if finding.answer == AREA:
                walk = replace(walk, kind=(Kind.AREA,) * len(walk))  # noqa: PLW2901 - the same walk, as answered
        out.append(walk)
    return tuple(out), tuple(said)


def _gap(walk: Walk) -> float | None:
    """Metres from the end of a track to its beginning, where they may be one place; None for any other walk."""
    is_track = walk.keys.growth is ErrorGrowth.RECEIVER and len(walk) >= FEWEST
    if not is_track or set(walk.kind) != {Kind.LENGTH} or len(set(zip(walk.feature, walk.part))) > 1:
        return None
    xy = walked_metres(walk.xy[:, 0], walk.xy[:, 1])
    length = float(np.hypot(*np.diff(xy, axis=0).T).sum())
    gap = float(np.hypot(*(xy[-1] - xy[0])))
    return gap if gap <= min(FARTHEST, NEAR * length) else None


def _finding(walk: Walk, gap: float) -> Finding:
    return Finding(
        "IN-07",
        Severity.ASK,
        walk.place(0),  # two tracks of a file may bear one name
        "{file}: the track {feature} ends {gap:.1f} m from where it began; it was taken as a way.",
        "Answer area (an outline was walked: it is closed and measured) or length (a way).",
        {"file": walk.file, "feature": walk.feature[0], "gap": gap},
        file=walk.file,
        line=int(walk.line[0]),
        walk=walk.name,
        station=walk.station[0],
        feature=walk.feature[0],
        answers=(AREA, LENGTH),
    )
