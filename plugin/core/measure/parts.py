# SPDX-License-Identifier: GPL-2.0-or-later
"""What the uncertainty of each figure of a survey is made of: independent causes whose squares add up to its own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from enum import Enum

import numpy as np

from ..adjust.drift import HeightDrift
from ..adjust.network import Solved
from ..adjust.plan import plan_of
from ..place.fit import Placed
from ..quantity import Floats, Gradient


class Part(Enum):
    """A cause of uncertainty."""

    SCALE = "scale"
    HEADING = "heading"
    LEGS = "legs"
    """What grows along the way from station to station."""
    STANDS = "stands"
    """Each station by itself."""
    WALKS = "walks"
    """All four together, where there are too many figures to tell them apart."""
    TAPES = "tapes"
    LEVELS = "levels"
    PICKS = "picks"
    """Each map point's own."""
    COMMON = "common"
    """The shift that all map points share."""
    ROWS = "rows"
    """What noise from row to row may have added to a length that was recorded point by point."""
    EDGE = "edge"
    """Where an edge is taken to lie."""
    POINTS = "points"
    """What the points of any layer were stated to be worth."""
    UNKNOWN = "unknown"
    """A direction of which nothing is known."""


Parts = Mapping[Part, float]
"""One-sigma by cause, in the figure's unit; causes that give nothing are left out."""
DUST = 1e-8
"""Of a variance: a cause that gives less is left out, for it changes the whole by less than 1e-8 of itself."""
CELLS = 200_000
"""Figures times stations that are worked out in one go: 16 MB at a time."""


def parts_of(placed: Placed, moves: Sequence[Gradient]) -> list[Parts]:
    """The parts of the uncertainty of figures, from how they move with the stations.

    The error of a figure is a sum of independent parts of one sigma each, times factors (`Solved.by_part`); each cause
    has the root of the squares of its own. Their squares add up to `placed.variance`.
    """
    step = max(1, CELLS // max(len(placed.xy), 1))
    out: list[Parts] = []
    for k in range(0, len(moves), step):
        some = moves[k : k + step]
        squares = [_placing(placed, gradient) for gradient in some]
        for found in (_in_plan(placed, some), _in_height(placed, some)):
            for part, values in found.items():
                for own, value in zip(squares, values.tolist()):
                    own[part] = own.get(part, 0.0) + value
        out += [_rooted(own) for own in squares]
    return out


def coarse_parts(placed: Placed, moves: Gradient, sigma: float) -> Parts:
    """The walks' part in one, and the placing's: cheap, for figures by the ten thousand. `sigma` is the figure's own."""
    squares = _placing(placed, moves)
    squares[Part.WALKS] = max(sigma**2 - sum(squares.values()), 0.0)
    return _rooted(squares)


def _rooted(squares: Mapping[Part, float]) -> Parts:
    least = DUST * sum(squares.values())
    return {part: float(np.sqrt(square)) for part, square in squares.items() if square > least}


def _placing(placed: Placed, gradient: Gradient) -> dict[Part, float]:
    """The squares of what the map points and their common shift give: none to a size, which no place changes."""
    if placed.fit is None or not gradient.plan.any():
        return {}
    by_target = placed.pull(gradient.index, gradient.plan)[2]
    shift = placed.common * gradient.plan.sum(axis=0)
    return {
        Part.PICKS: float(np.sum((by_target * np.repeat(placed.picks, 2)) ** 2)),
        Part.COMMON: float(np.sum(shift**2)),
    }


def _in_plan(placed: Placed, moves: Sequence[Gradient]) -> dict[Part, Floats]:
    """(k,) squares by cause of what plan errors give."""
    if not any(gradient.plan.any() for gradient in moves):
        return {}
    g = np.zeros((len(moves), len(placed.xy), 2))
    for own, gradient in zip(g, moves):
        index, plan, _ = placed.pull(gradient.index, gradient.plan)
        np.add.at(own, index, plan)
    solved = placed.adjusted.both.plan.solved
    sizes = []
    for drift in solved.field.drifts:
        n = len(plan_of(drift).m)
        sizes += [(Part.SCALE, 1), (Part.HEADING, 1), (Part.LEGS, 2 * n), (Part.STANDS, 2 * n)]
        sizes += [(Part.HEADING, n)]
    sizes += [(Part.SCALE, len(solved.field.shared))]
    return _by_cause(solved, g, sizes, Part.TAPES)


def _in_height(placed: Placed, moves: Sequence[Gradient]) -> dict[Part, Floats]:
    """(k,) squares by cause of what height errors give."""
    if not any(gradient.height.any() for gradient in moves):
        return {}
    g = np.zeros((len(moves), len(placed.xy), 1))
    for own, gradient in zip(g, moves):
        np.add.at(own[:, 0], gradient.index, gradient.height)
    solved = placed.adjusted.both.height.solved
    sizes = []
    for drift in solved.field.drifts:
        assert isinstance(drift, HeightDrift)  # noqa: S101 - the field of a height network holds nothing else
        sizes += [(Part.LEGS, len(drift.leg)), (Part.STANDS, len(drift.stand))]
    sizes += [(Part.SCALE, len(solved.field.shared))]
    return _by_cause(solved, g, sizes, Part.LEVELS)


def _by_cause(solved: Solved, g: Floats, sizes: Iterable[tuple[Part, int]], own: Part) -> dict[Part, Floats]:
    """(k,) sums of squares of the parts by cause; `sizes` are their numbers in the order of the field, `own` the cause
    of the rows after the occupations."""
    parts, noise = solved.by_part(g)
    out = {own: (noise**2).sum(axis=-1)}
    start = 0
    for cause, size in sizes:
        square = (parts[:, start : start + size] ** 2).sum(axis=-1)
        out[cause] = out[cause] + square if cause in out else square
        start += size
    return out
