# SPDX-License-Identifier: GPL-2.0-or-later
"""Which points of point lists are marks: those that something else of the job knows by name."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from ..walk import Control, ErrorGrowth, Tape, Walk

if TYPE_CHECKING:
    from collections.abc import Iterable
    from collections.abc import Set as AbstractSet


def name_marks(walks: Iterable[Walk], control: Control, tapes: Iterable[Tape]) -> tuple[Walk, ...]:
    """The walks, each point of a point list a mark where control, a tape or the mark of a walk bears its name.

    A list of ten thousand points would otherwise be ten thousand marks to adjust, and the numbers of two lists
    would tie them to each other.
    """
    all_walks = tuple(walks)
    known = {point.mark for point in control.points} | {
        end for tape in tapes for end in (tape.start, tape.end)
    }
    for walk in all_walks:
        if walk.keys.growth is not ErrorGrowth.POINTS:
            known |= {mark for mark in walk.mark if mark}
    return tuple(
        _named(walk, known) if walk.keys.growth is ErrorGrowth.POINTS else walk for walk in all_walks
    )


def _named(walk: Walk, known: AbstractSet[str]) -> Walk:
    marks = tuple(
        (mark if mark in known else "") if mark else (name if name in known else "")
        for name, mark in zip(walk.station, walk.mark)
    )
    return walk if marks == walk.mark else replace(walk, mark=marks)
