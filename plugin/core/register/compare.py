# SPDX-License-Identifier: GPL-2.0-or-later
"""Two surveys of one place: what was added, is gone, moved, or changed in size or height, and what is noise.

One chance of a false change holds for the whole pair of surveys. It is shared out evenly to five families of tests: how the
whole survey lies, sizes, places, heights of single spots, and patches of heights; within a family by Holm's and
Bonferroni's rules, which hold whatever the tests' dependence. Every p that is told is for the whole pair: below the
level it is a change.

What a survey stores are the sigmas of single figures. Where two errors are known to hang together and how far is not, the
larger variance is taken: sizes as if the two surveys shared no scale, what was fitted to many places as if all these erred
one way. So the chance of a false change is rather less than stated, and small changes need a little more to be seen.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from .chance import NINE_IN_TEN, all_chances, chance_beyond, place_chance, sigmas_of
from .heights import HeightsTold, pair_heights, tell_heights
from .match import Pairs, pair_stations, pair_things
from .motion import fit_motion
from .outcomes import SHARE, told_rows
from .places import LEAST_VARIANCE, check_place
from .records import Asked, Comparison, Figure, Known, Lift, Motion, Test, Thing


def compare_surveys(
    before: Known, after: Known, asked: Asked | None = None, tick: Callable[[], None] | None = None
) -> Comparison:
    """Everything that differs between two surveys in one survey plane, tested.

    Args:
        before: the earlier survey, metres.
        after: the later one, its places in the same plane.
        asked: the level, and the sizes of change that matter.
        tick: called now and then; what it raises ends the work.
    Returns:
        Rows of things, patches of heights, and how the later survey lies on the earlier one, which is taken off first.
    """
    asked = asked or Asked()
    motion = _motion(before, after)
    moved = after if motion is None else _laid(after, motion)
    pairs = pair_things(before.things, moved.things)
    heights = pair_heights(before, after, pair_stations(before.stations, after.stations, motion), motion)
    told = None
    if len(heights.i):
        told = tell_heights(before, after, heights, asked.level, SHARE, tick)
    tests = _Tests(before, moved, asked, motion)
    keys = [before.stations.key[i] for i in heights.i.tolist()]
    rows = told_rows(pairs, tests.of_pairs(pairs), heights, keys, told, asked)
    table = np.column_stack([heights.xy, heights.before, heights.after])
    return Comparison(rows, told.patches if told else (), *tests.of_all(told), table)


def _motion(before: Known, after: Known) -> Motion | None:
    """How the later survey lies on the earlier one, by the stations they share."""
    common = before.common**2 + after.common**2
    motion = None
    for _ in range(2):  # first by name alone, then by those that lie on each other
        i, j = pair_stations(before.stations, after.stations, motion)
        if not len(i):
            return motion
        spread = before.stations.spread[i] + after.stations.spread[j]
        own = np.maximum(0.5 * np.trace(spread, axis1=1, axis2=2) - common, LEAST_VARIANCE)
        found = fit_motion(before.stations.xy[i], after.stations.xy[j], own)
        motion = found or motion
    return motion


def _laid(after: Known, motion: Motion) -> Known:
    """The later survey moved onto the earlier one."""
    things = tuple(
        replace(thing, paths=tuple(map(motion.undone, thing.paths)), corners=motion.undone(thing.corners))
        for thing in after.things
    )
    return replace(after, things=things)


@dataclass(frozen=True, eq=False)
class _Tests:
    """The tests of a pair of surveys, the later one laid on the earlier."""

    before: Known
    after: Known
    asked: Asked
    motion: Motion | None

    def of_all(self, told: HeightsTold | None) -> tuple[Motion | None, Lift | None]:
        """How the whole survey lies, with the chances of its shift, its turn and its heights' shift."""
        motion, lift = self.motion, told.lift if told else None
        chances = np.array([1.0, 1.0, lift.p if lift else 1.0])
        sigma = (0.0, 0.0)
        if motion is not None:
            common = self.before.common**2 + self.after.common**2
            spread = motion.spread(motion.centre[None])[0] + common * np.eye(2)
            square = float(motion.shift @ np.linalg.solve(spread, motion.shift))
            turn = float(np.abs(motion.pull[2]) @ motion.points)
            sigma = (math.sqrt(0.5 * float(np.trace(spread))), turn)
            chances[:2] = place_chance(square), chance_beyond(motion.turn / turn) if turn > 0.0 else 1.0
        p = all_chances(chances, SHARE).tolist()
        if motion is not None:
            motion = replace(motion, shift_p=p[0], turn_p=p[1], sigma=sigma)
        return motion, None if lift is None else replace(lift, p=p[2])

    def of_pairs(self, pairs: Pairs) -> list[list[Test]]:
        """Tests of sizes and places, pair by pair."""
        sizes = self._adjusted([_size_test(one, other) for one, other in pairs], _of_figure)
        places = self._adjusted([self._place(one, other) for one, other in pairs], _of_place)
        return [[test for test in both if test is not None] for both in zip(sizes, places)]

    def _adjusted(self, tests: list[Test | None], seen: Callable[[float], float]) -> list[Test | None]:
        """Tests of one family with chances for the whole pair of surveys, and the change that each would see."""
        rows = [k for k, test in enumerate(tests) if test is not None]
        chances = all_chances(np.array([test.p for test in tests if test is not None]), SHARE)
        sigmas = seen(self.asked.level * SHARE / max(len(rows), 1))
        out = list(tests)
        for k, p in zip(rows, chances.tolist()):
            test = tests[k]
            assert test is not None  # noqa: S101 - these rows have one
            out[k] = replace(test, p=p, seen=sigmas * test.sigma)
        return out

    def _place(self, before: Thing | None, after: Thing | None) -> Test | None:
        if before is None or after is None or (before.is_level and after.is_level):
            return None
        common = self.before.common, self.after.common
        return check_place(before, after, common, self.motion)


def _of_figure(level: float) -> float:
    return sigmas_of(level)


def _of_place(level: float) -> float:
    """So many sigmas a place must move to be found nine times in ten."""
    return math.sqrt(-2.0 * math.log(level)) + NINE_IN_TEN


def _size_test(before: Thing | None, after: Thing | None) -> Test | None:
    if before is None or after is None or before.size is None or after.size is None:
        return None
    difference = after.size.value - before.size.value
    sigma = math.hypot(before.size.sigma, after.size.sigma)
    if not (math.isfinite(difference) and sigma > 0.0):
        return None
    return Test(Figure.SIZE, difference, sigma, chance_beyond(difference / sigma), 0.0)
