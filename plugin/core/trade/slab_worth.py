# SPDX-License-Identifier: GPL-2.0-or-later
"""What the concrete of a slab is worth: its body and its thickened edge move with the same corners."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..quantity import Quantity
from .slab_edges import Thickening
from .widen import WiderOutline
from .worth import Moves, Worth


@dataclass(frozen=True, eq=False)
class Body:
    """A slab without its thickened edge.

    Attributes:
        outline: of it. mean: its thickness, metres.
        lifts: how the mean moves with the points of each ring; () where it does not.
        by_size: one-sigma of the mean by what is not the points', metres.
        extra_sigma: one-sigma of how far the outline reaches past the drawn one, metres.
    """

    outline: WiderOutline
    mean: float
    lifts: Sequence[Moves]
    by_size: float
    extra_sigma: float


def sum_concrete(body: Body, edges: Thickening, worth: Worth) -> Quantity:
    """The concrete of a slab's body and of its thickened edge, m3, with one-sigma.

    Source:
        V = A t + E: how A, t and E move with one point is added up before it is squared (GUM, JCGM 100:2008, 5.2.2). An area
        that is told with an uncertainty of its own moves with its points by as much more or less than by `worth`.
    """
    outline = body.outline
    drawn = worth.sigma(*outline.moves)
    ratio = outline.by_points / drawn if drawn > 0.0 else 0.0
    moves = []
    for k, one in enumerate(outline.moves):
        by = body.mean * ratio * one.by
        by = by + outline.area.value * body.lifts[k].by if body.lifts else by
        by = by + edges.moves[k].by if edges.moves else by
        moves.append(Moves(one.line, one.point, by))
    sigma = math.hypot(
        worth.sigma(*moves),
        0.0 if drawn > 0.0 else body.mean * outline.by_points,
        outline.area.value * body.by_size,
        edges.by_size,
        (body.mean * outline.growth + edges.by_extra) * body.extra_sigma,
    )
    return Quantity(outline.area.value * body.mean + edges.concrete.value, sigma, "m3")
