# SPDX-License-Identifier: GPL-2.0-or-later
"""What is said of each thing: from its tests, and from the patches that its stations stand in."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ..quantity import Floats
from .chance import all_chances, chance_beyond, sigmas_of
from .heights import Heights, HeightsTold
from .match import Pairs
from .records import Asked, Compared, Figure, Outcome, Table, Test, Thing

SHARE = 0.2
"""Of the whole chance of a false change: what each of the five families of tests has."""


def told_rows(
    pairs: Pairs,
    tests: Sequence[Sequence[Test]],
    heights: Heights,
    keys: Sequence[tuple[str, ...]],
    told: HeightsTold | None,
    asked: Asked,
) -> tuple[Compared, ...]:
    """A row for each thing.

    Args:
        pairs: things before and after.
        tests: of sizes and places, pair by pair.
        heights: common heights.
        keys: what each of these is known by.
        told: what they say.
        asked: the level, and the changes that matter.
    """
    at: dict[tuple[str, ...], list[int]] = {}
    for k, key in enumerate(keys):
        at.setdefault(key, []).append(k)
    rows = [at.get(_key(pair[0]), []) if pair[0] and pair[1] else [] for pair in pairs]
    found = _height_tests(rows, pairs, heights, told, asked) if told else [None] * len(pairs)
    out = []
    for (before, after), its, own, height in zip(pairs, rows, tests, found):
        every = tuple(own) if height is None else (*own, height)
        levels = None
        if its and before is not None and before.table is Table.SPOT:
            levels = float(heights.before[its[0]]), float(heights.after[its[0]])
        out.append(Compared(before, after, outcome_of(before, after, every, asked), every, levels))
    return tuple(out)


def _key(thing: Thing | None) -> tuple[str, ...]:
    return () if thing is None else (thing.feature, thing.part)


def _height_tests(
    rows: Sequence[list[int]], pairs: Pairs, heights: Heights, told: HeightsTold, asked: Asked
) -> list[Test | None]:
    """Of each pair the test of its height: a spot's own, or that of the patch it stands in, whichever is clearer; of other
    things the patch that one of their stations stands in."""
    off = heights.off - told.lift.shift.value
    sigma = np.sqrt(heights.variance + told.lift.shift.sigma**2)
    spots = [k for k, (one, _) in enumerate(pairs) if rows[k] and one and one.table is Table.SPOT]
    own = np.array([chance_beyond(off[rows[k][0]] / sigma[rows[k][0]]) for k in spots])
    chances = dict(zip(spots, all_chances(own, SHARE).tolist()))
    least = _seen(sigma, told, len(spots), asked)
    out: list[Test | None] = []
    for k, its in enumerate(rows):
        if k in chances:
            at = its[0]
            single = Test(Figure.HEIGHT, float(off[at]), float(sigma[at]), chances[k], float(least[at]))
            out.append(_clearer(single, its, told))
        else:
            out.append(_clearer(None, its, told))
    return out


def _seen(sigma: Floats, told: HeightsTold, spots: int, asked: Asked) -> Floats:
    """(n,) the change of a single height that would be found nine times in ten, by itself or against its surroundings."""
    level = asked.level * SHARE
    alone = sigmas_of(level / max(spots, 1)) * sigma
    beside = sigmas_of(level / max(told.candidates, 1)) * told.single
    return np.asarray(np.fmin(alone, beside))


def _clearer(single: Test | None, its: Sequence[int], told: HeightsTold) -> Test | None:
    """The patch that one of the heights is in, where it says more than the height by itself."""
    for patch in told.patches:
        if set(its) & set(patch.rows.tolist()) and (single is None or patch.p < single.p):
            seen = math.nan if single is None else single.seen
            return Test(Figure.HEIGHT, patch.change.value, patch.change.sigma, patch.p, seen)
    return single


def outcome_of(before: Thing | None, after: Thing | None, tests: Sequence[Test], asked: Asked) -> Outcome:
    """The word for a thing."""
    if before is None or after is None:
        thing = before or after
        if thing is not None and thing.is_level:
            return Outcome.UNSURE
        return Outcome.ADDED if before is None else Outcome.GONE
    if any(test.p < asked.level for test in tests):
        return Outcome.CHANGED
    kept_out = before.table is not Table.SPOT and not any(t.figure is Figure.SIZE for t in tests)
    hidden = any(test.seen > _matters(test.figure, after, asked) for test in tests)
    return Outcome.UNSURE if kept_out or hidden or not tests else Outcome.SAME


def _matters(figure: Figure, thing: Thing, asked: Asked) -> float:
    """The smallest change of a figure that matters."""
    if figure is Figure.HEIGHT:
        return asked.see_height
    if figure is Figure.SIZE and thing.table is Table.AREA:
        return asked.see * sum(float(np.hypot(*np.diff(path, axis=0).T).sum()) for path in thing.paths)
    return asked.see
