# SPDX-License-Identifier: GPL-2.0-or-later
"""What the points of point lists are: marks, where something else of the job knows them by name, else spots."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from ..walk import Control, ErrorGrowth, Kind, Tape, Walk

if TYPE_CHECKING:
    from collections.abc import Iterable
    from collections.abc import Set as AbstractSet


def settle_points(walks: Iterable[Walk], control: Control, tapes: Iterable[Tape]) -> tuple[Walk, ...]:
    """The walks, each point of a point list a mark where control, a tape or the mark of a walk bears its name; of the
    others each that is part of no feature is a spot of its own name.

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
        _settled(walk, known) if walk.keys.growth is ErrorGrowth.POINTS else walk for walk in all_walks
    )


def _settled(walk: Walk, known: AbstractSet[str]) -> Walk:
    marks = tuple(
        (mark if mark in known else "") if mark else (name if name in known else "")
        for name, mark in zip(walk.station, walk.mark)
    )
    bare = [not feature and not mark for feature, mark in zip(walk.feature, marks)]
    return replace(
        walk,
        mark=marks,
        feature=tuple(
            name if is_bare else own for name, own, is_bare in zip(walk.station, walk.feature, bare)
        ),
        kind=tuple(Kind.SPOT if is_bare else kind for kind, is_bare in zip(walk.kind, bare)),
    )
