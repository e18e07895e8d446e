# SPDX-License-Identifier: GPL-2.0-or-later
"""What could be meant by an outline that crosses itself, each with the area it would give."""

from __future__ import annotations

from dataclasses import dataclass

from .crossing import Crossing, find_crossing
from .mend import Outline, drop_vertex, reverse_between, split_at
from .offset import find_inverted, outline_of
from .trace import Node

NOTHING = 1e-9
"""Square metres: no area."""


@dataclass(frozen=True, eq=False)
class Remedies:
    """The outlines that each answer gives, None where it is none: with the stations between the two edges in
    reverse order; in two parts, split where they cross; without one station, where that alone ends the crossing."""

    reversed: Outline | None
    split: tuple[Outline, Outline] | None
    dropped: Outline | None
    without: Node | None
    """The vertex left out."""


def find_remedies(outline: Outline, crossing: Crossing) -> Remedies:
    """The remedies for a closed outline, of which those are left out that would stop it anew."""
    i, j = crossing.first, crossing.second
    turned = reverse_between(outline, i, j)
    parts = split_at(outline, i, j)
    is_split = parts is not None and all(part.area > NOTHING for part in parts)
    without, dropped = _without_one(outline, (j, i + 1, i, j + 1))
    return Remedies(
        turned if turned is not None and _has_room(turned) else None,
        parts if is_split else None,
        dropped,
        without,
    )


def _has_room(outline: Outline) -> bool:
    """Whether there is an area, and the offsets leave it as it is."""
    if outline.area <= NOTHING:
        return False
    return not outline.has_offset or find_inverted(outline.walked, outline.moved) is None


def _without_one(outline: Outline, corners: tuple[int, ...]) -> tuple[Node | None, Outline | None]:
    """The first of some vertices without which nothing crosses, and the outline then."""
    nodes = outline.walked.nodes
    for k in (c % len(nodes) for c in corners):
        trial = drop_vertex(outline, k)
        if trial is not None and _has_room(trial) and find_crossing(outline_of(trial.moved)) is None:
            return nodes[k], trial
    return None, None
