# SPDX-License-Identifier: GPL-2.0-or-later
"""What each observation of the adjustment and the placement is off by, and beside it what a test would let pass."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..adjust.solve import Tested
from ..adjust.tests import ASK_BUDGET, STOP_BUDGET, tail
from ..adjust.walks import Adjusted
from ..place.locate import Located
from ..place.map_residuals import MapResidual, map_residuals
from ..place.survey import Placement
from ..quantity import Floats
from .rows import ResidualKind, ResidualRow

HALVINGS = 200
"""More than a double has: the search for a limit ends at the last bit."""


@dataclass(frozen=True, eq=False)
class _Off:
    """The residuals of one adjustment, turned into the survey plane."""

    adjusted: Adjusted
    turn: Floats
    tests: dict[tuple[str, int], Tested]

    @property
    def count(self) -> int:
        return self.adjusted.judged.count


def residual_rows(adjusted: Adjusted, located: Located, placement: Placement) -> tuple[ResidualRow, ...]:
    """Every stand on a mark, tape, height and known level, observed less adjusted, then every map point.

    Returns:
        Rows in the order of the observations. Plan residuals are (x, y) in the survey plane, metres. `standard` is the
        root of the test's chi-square (of one degree of freedom: the residual in its sigmas); `ask` and `stop` are what it
        may be before the job's shared budget asks or stops (adjust/tests.py). None where nothing tests the thing.
    """
    fit = placement.placed.fit
    turn = np.eye(2) if fit is None else fit.matrix
    tests = {(tested.kind, tested.number): tested for tested in adjusted.judged.tests}
    off = _Off(adjusted, turn, tests)
    of_map = map_residuals(placement.placed, located) if placement.status != "not placed" else ()
    return (
        *_stands(off),
        *_tapes(off),
        *_heights(off),
        *_levels(off),
        *(_map_row(residual, off.count) for residual in of_map),
    )


def limit(budget: float, count: int, freedom: int) -> float:
    """The root of the chi-square whose tail is `budget` by `count`: what a standardised residual may be.

    Source: the budget of adjust/tests.py; found by halving, since the tail falls all the way.
    """
    low, high = 0.0, 1.0
    while tail(high * high, freedom) > budget / count and high < 1e150:
        high *= 2.0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        low, high = (middle, high) if tail(middle * middle, freedom) > budget / count else (low, middle)
    return 0.5 * (low + high)


def _judged(row: ResidualRow, chi2: float, freedom: int, count: int) -> ResidualRow:
    """The row with its standardised size and its limits; as it is where nothing tests it."""
    if freedom <= 0 or not math.isfinite(chi2):
        return row
    ask, stop = (limit(budget, max(count, 1), freedom) for budget in (ASK_BUDGET, STOP_BUDGET))
    return replace(row, standard=math.sqrt(max(chi2, 0.0)), ask=ask, stop=stop)


def _tested(off: _Off, row: ResidualRow, kind: str, number: int) -> ResidualRow:
    found = off.tests.get((kind, number))
    return row if found is None else _judged(row, found.outcome.chi2, found.outcome.freedom, off.count)


def _stands(off: _Off) -> list[ResidualRow]:
    """The place where a walk alone puts a mark, less where the adjustment puts it."""
    ties, plan = off.adjusted.ties, off.adjusted.both.plan
    gone, out = set(off.adjusted.judged.freed.off), []
    for i, o in enumerate(ties.occupations):
        walk = ties.walk_of(o)
        # What is let go is not in v: the adjusted station then lies off its mark by that.
        gap = off.turn @ (plan.xy[o.row] - plan.marks[o.mark] - plan.solved.v[2 * i : 2 * i + 2])
        row = ResidualRow(
            ResidualKind.STAND,
            ties.marks[o.mark],
            walk=walk.name,
            station=walk.station[ties.row_in_walk(o)],
            is_used=i not in gone,
            x=float(gap[0]),
            y=float(gap[1]),
            size=math.hypot(*gap),
        )
        out.append(_tested(off, row, "stand", i))
    return out


def _tapes(off: _Off) -> list[ResidualRow]:
    """Taped less adjusted length."""
    plan, gone, out = off.adjusted.both.plan, set(off.adjusted.judged.freed.tapes), []
    for i, (tape, named) in enumerate(zip(plan.tapes, off.adjusted.ties.tapes)):
        size = tape.distance - math.dist(plan.marks[tape.end], plan.marks[tape.start])
        row = ResidualRow(ResidualKind.TAPE, named.start, named.end, is_used=i not in gone, size=size)
        out.append(_tested(off, row, "tape", i))
    return out


def _heights(off: _Off) -> list[ResidualRow]:
    """The height that a walk alone gives a mark, less the adjusted one."""
    ties, height = off.adjusted.ties, off.adjusted.both.height
    out = []
    for i, o in enumerate(height.occupations):
        walk = ties.walk_of(o)
        row = ResidualRow(
            ResidualKind.HEIGHT,
            ties.marks[o.mark],
            walk=walk.name,
            station=walk.station[ties.row_in_walk(o)],
            is_used=i not in height.freed,
            size=float(height.z[o.row] - height.marks[o.mark] - height.solved.v[i]),
        )
        out.append(_tested(off, row, "height", i))
    return out


def _levels(off: _Off) -> list[ResidualRow]:
    """The known level less the adjusted height."""
    height, out = off.adjusted.both.height, []
    for i, level in enumerate(height.levels, start=len(height.occupations)):
        row = ResidualRow(
            ResidualKind.LEVEL,
            off.adjusted.ties.marks[level.mark],
            is_used=i not in height.freed,
            size=float(level.height - height.marks[level.mark]),
        )
        out.append(_tested(off, row, "level", i))
    return out


def _map_row(residual: MapResidual, count: int) -> ResidualRow:
    """The map point less where the survey puts the mark."""
    point, (x, y) = residual.point, residual.gap.tolist()
    kind = ResidualKind.CHECK_POINT if point.is_check else ResidualKind.MAP_POINT
    row = ResidualRow(kind, point.mark, is_used=not point.is_check, x=x, y=y, size=math.hypot(x, y))
    return _judged(row, residual.chi2, residual.freedom, count)
