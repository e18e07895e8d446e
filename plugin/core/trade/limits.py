# SPDX-License-Identifier: GPL-2.0-or-later
"""Limits from an editable table, and figures held against them: pass, fail, or cannot tell."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fnmatch import fnmatchcase
from functools import lru_cache

from ..errors import BadInput
from ..quantity import COVER_95, Quantity

ROUNDING = 1e-9
"""Of a limit: a figure that is beyond it by less stands on it, and passes: 1/12 is 1:12 however it was reckoned."""


class Thing(Enum):
    """What a limit is of."""

    RAMP = "ramp"
    LANDING = "landing"
    STEPS = "steps"
    FALL = "fall"
    PATH = "path"
    WALL = "wall"


class Figure(Enum):
    """Which figure of a thing."""

    GRADIENT = "gradient"
    STEEPEST = "steepest"
    FLATTEST = "flattest"
    CROSSFALL = "crossfall"
    WIDTH = "width"
    RISE = "rise"
    RUN = "run"
    LENGTH = "length"
    RISER = "riser"
    DIFFERENCE = "difference"
    GOING = "going"
    COMFORT = "2r+g"
    HEIGHT = "height"


SLOPES = frozenset(
    {Figure.GRADIENT, Figure.STEEPEST, Figure.FLATTEST, Figure.CROSSFALL},
)
"""Ratios, held against limits by their size: which way they go makes nothing steeper or flatter."""


class Outcome(Enum):
    """What a check comes to."""

    PASSES = "pass"
    FAILS = "fail"
    CANNOT_TELL = "cannot tell"


class By(Enum):
    """What a limit hangs on."""

    RISE = "rise"
    RUN = "run"


@dataclass(frozen=True)
class Per:
    """A row that counts for some rises or runs only: up to `bound` metres, or, where `is_point`, at it, and evenly (in the
    row's own unit) from there to the next row of the same name."""

    by: By
    bound: float
    is_point: bool = False


@dataclass(frozen=True)
class LimitUnit:
    """Metres or ratio by one of the unit; of `1:n` (`is_n`) the ratio is one by the number."""

    name: str
    factor: float = 1.0
    is_n: bool = False

    def in_si(self, value: float) -> float:
        """A number of the unit as metres or ratio."""
        return (
            1.0 / value
            if self.is_n
            else math.tan(value * self.factor)
            if self.name == "deg"
            else value * self.factor
        )


@dataclass(frozen=True)
class Limit:
    """A row of the table.

    Attributes:
        name: rows of one name are one limit, of which the row that fits counts.
        thing, figure: what it is of.
        at_most, at_least: in its unit; None where there is none.
        unit, per: the same; what it hangs on, None where it always counts.
        source, is_seen, note: where it is from, and whether that was looked at (else it is from memory).
        line: of the table.
        items: patterns of the items that it is for, such as `PAV-*`; none: for all.
    """

    name: str
    thing: Thing
    figure: Figure
    at_most: float | None
    at_least: float | None
    unit: LimitUnit
    per: Per | None = None
    source: str = ""
    is_seen: bool = False
    note: str = ""
    line: int | None = None
    items: tuple[str, ...] = ()

    def concerns(self, item: str) -> bool:
        """Whether it is for a thing of an item, whatever the case; of a thing without one nobody knows, so that it is."""
        return not (self.items and item) or any(fnmatchcase(item.lower(), one.lower()) for one in self.items)

    @property
    def bounds(self) -> tuple[float, float]:
        """The least and the most that it allows, metres or ratio; minus and plus infinity where there is none."""
        low = -math.inf if self.at_least is None else self.unit.in_si(self.at_least)
        high = math.inf if self.at_most is None else self.unit.in_si(self.at_most)
        return low, high


@dataclass(frozen=True)
class Measured:
    """A figure of a thing.

    Attributes:
        thing, name, figure: of what; `name` is the feature's. place: which of several, such as "flight 2".
        value: metres or ratio. rise, run: of the stretch that it is of, m; None where limits cannot hang on them.
    """

    thing: Thing
    name: str
    figure: Figure
    value: Quantity
    place: str = ""
    rise: Quantity | None = None
    run: Quantity | None = None

    def named(self, name: str) -> Measured:
        """The same of a feature by its name."""
        return Measured(self.thing, name, self.figure, self.value, self.place, self.rise, self.run)


@dataclass(frozen=True)
class Check:
    """A figure held against a limit.

    Attributes:
        measured, limit: the two; of several figures of one thing the one that is likeliest to break it. count: of how many.
        low, high: what is allowed for it, metres or ratio.
        outcome: by the 95 % interval. chance: of the true figure to lie within what is allowed, 0 to 1, NaN where the
            figure's uncertainty is not known.
    """

    measured: Measured
    limit: Limit
    low: float
    high: float
    outcome: Outcome
    chance: float
    count: int = 1


def judge(value: Quantity, low: float, high: float, *, by_size: bool = False) -> tuple[Outcome, float]:
    """A figure against what is allowed: pass or fail where its 95 % interval lies wholly on one side, and the chance that
    the true figure is allowed.

    Args:
        value: the figure, its errors taken as normal.
        low: what it may not go below, in its unit; a figure on it passes.
        high: what it may not go above.
        by_size: what counts is its size: of -3 % as of 3 %.
    Source:
        JCGM 106:2012 (from memory): the chance of conformity of a figure with normal errors, and guard bands of the expanded
        uncertainty on both sides of a limit, what lies in them being undecided.
    """
    if not (math.isfinite(value.value) and value.sigma >= 0.0):
        return Outcome.CANNOT_TELL, math.nan
    slack = [ROUNDING * max(1e-3, abs(b)) if math.isfinite(b) else 0.0 for b in (low, high)]
    wide = low - slack[0], high + slack[1]
    allowed = _by_size(*wide) if by_size else [wide]
    # Errors know no rounding, a figure without them does.
    exact = allowed if value.sigma == 0.0 else _by_size(low, high) if by_size else [(low, high)]
    half = COVER_95 * value.sigma
    ends = value.value - half, value.value + half
    chance = sum(_within(value, a, b) for a, b in exact)
    if any(a <= ends[0] and ends[1] <= b for a, b in allowed):
        return Outcome.PASSES, chance
    if all(ends[1] < a or b < ends[0] for a, b in allowed):
        return Outcome.FAILS, chance
    return Outcome.CANNOT_TELL, chance


def _by_size(low: float, high: float) -> list[tuple[float, float]]:
    """What is allowed of a figure with its sign, where its size is limited."""
    return [(-high, high)] if low <= 0.0 else [(-high, -low), (low, high)]


def _within(value: Quantity, low: float, high: float) -> float:
    if value.sigma == 0.0:
        return float(low <= value.value <= high)
    root = value.sigma * math.sqrt(2.0)
    a, b = (low - value.value) / root, (high - value.value) / root
    # Of two tails the smaller one is exact.
    return 0.5 * (math.erfc(a) - math.erfc(b)) if a > 0.0 else 0.5 * (math.erfc(-b) - math.erfc(-a))


def check_limits(measured: Sequence[Measured], limits: Sequence[Limit]) -> list[Check]:
    """Every thing's figures against every limit that is of them, in the order of the things; of several figures of one
    kind (flights, risers) the one that is likeliest to break the limit.

    Args:
        measured: the figures.
        limits: rows of the table; those of one name and figure are one limit.
    """
    return check_grouped(measured, group_limits(limits))


Groups = Mapping[tuple[Thing, Figure], Sequence[Sequence[Limit]]]
"""Limits of each figure of each thing, and of each limit its rows."""


def group_limits(limits: Sequence[Limit]) -> Groups:
    """Rows of the table by what they are of, to hold many things against them."""
    groups: dict[tuple[Thing, Figure], dict[str, list[Limit]]] = {}
    for limit in limits:
        groups.setdefault((limit.thing, limit.figure), {}).setdefault(limit.name, []).append(limit)
    return {of: list(named.values()) for of, named in groups.items()}


def limits_by_item(limits: Sequence[Limit]) -> Callable[[str], Groups]:
    """For each item, reckoned once, the limits that are for it."""
    return lru_cache(maxsize=None)(lambda item: group_limits([one for one in limits if one.concerns(item)]))


def check_grouped(measured: Sequence[Measured], groups: Groups) -> list[Check]:
    """As `check_limits`, with limits that are grouped already."""
    things: dict[tuple[Thing, str, Figure], list[Measured]] = {}
    for one in measured:
        things.setdefault((one.thing, one.name, one.figure), []).append(one)
    out = []
    for (thing, _, figure), figures in things.items():
        for rows in groups.get((thing, figure), ()):
            checks = [check for check in (_check(one, rows) for one in figures) if check is not None]
            if len(checks) > 1:
                out.append(replace(min(checks, key=_order), count=len(checks)))
            else:
                out += checks
    return out


def _order(check: Check) -> tuple[int, float, float]:
    """Smallest for what is likeliest to break the limit; of two that are as good as certain, the one farther out."""
    rank = (Outcome.FAILS, Outcome.CANNOT_TELL, Outcome.PASSES).index(check.outcome)
    value = check.measured.value.value
    size = abs(value) if check.measured.figure in SLOPES else value
    room = min(size - check.low, check.high - size)
    return rank, check.chance if math.isfinite(check.chance) else 0.5, room


def _check(measured: Measured, rows: Sequence[Limit]) -> Check | None:
    """A figure against the row of a limit that fits it; None where none does.

    Where the rise or run that the limit hangs on is uncertain, the rows for both ends of its 95 % interval count too, and
    what they do not agree on cannot be told.
    """
    by_size = measured.figure in SLOPES
    if all(row.per is None for row in rows):
        low, high = rows[0].bounds
        return Check(measured, rows[0], low, high, *judge(measured.value, low, high, by_size=by_size))
    first, *others = _rows_for(measured, rows)
    if first is None:
        return None
    low, high = first.bounds
    outcome, chance = judge(measured.value, low, high, by_size=by_size)
    for one in others:
        if one is None or one is first:
            continue
        told = judge(measured.value, *one.bounds, by_size=by_size)
        outcome, chance = outcome if told[0] is outcome else Outcome.CANNOT_TELL, min(chance, told[1])
    return Check(measured, first, low, high, outcome, chance)


def _rows_for(measured: Measured, rows: Sequence[Limit]) -> list[Limit | None]:
    """The row that counts, and those that would where what it hangs on is at the ends of its 95 % interval."""
    always = next((row for row in rows if row.per is None), None)
    hanging = [row for row in rows if row.per is not None]
    for by in By:
        own = sorted((row for row in hanging if row.per and row.per.by is by), key=_bound)
        value = measured.rise if by is By.RISE else measured.run
        if not own or value is None:
            continue
        points = [row for row in own if row.per and row.per.is_point]
        found = []
        for part in (0.0, -COVER_95, COVER_95):
            at = abs(value.value) + (part * value.sigma if part else 0.0)
            steps = (row for row in own if at <= _bound(row) * (1.0 + ROUNDING))
            found.append(_between(points, at) if points else next(steps, always))
        return found
    return [always]


def _bound(row: Limit) -> float:
    assert row.per is not None  # noqa: S101 - only such rows are asked
    return row.per.bound


def _between(rows: Sequence[Limit], at: float) -> Limit:
    """The limit at a rise or run between those of rows; beyond them that of the nearest."""
    if at <= _bound(rows[0]):
        return rows[0]
    for low, high in zip(rows, rows[1:]):
        if at <= _bound(high):
            t = (at - _bound(low)) / (_bound(high) - _bound(low))
            most, least = (
                None if a is None or b is None else (1.0 - t) * a + t * b
                for a, b in ((low.at_most, high.at_most), (low.at_least, high.at_least))
            )
            return replace(low, at_most=most, at_least=least)
    return rows[-1]


def chosen_limits(limits: Sequence[Limit], words: Sequence[str] | None) -> list[Limit]:
    """The limits whose name begins with one of some words, or is the one that stands between double quotes, whatever the
    case; all of them without words.

    Raises:
        BadInput: no name begins with one of the words, or is the one between quotes.
    """
    if not words:
        return list(limits)
    for word in words:
        if not any(_is_named(limit, word) for limit in limits):
            raise BadInput(
                'No limit\'s name begins with "{word}". The table has: {names}.',
                word=_plain(word),
                names=", ".join(dict.fromkeys(limit.name for limit in limits)),
            )
    return [limit for limit in limits if any(_is_named(limit, word) for word in words)]


def _is_named(limit: Limit, word: str) -> bool:
    name, wanted = limit.name.lower(), _plain(word).lower()
    return name == wanted if wanted != word.lower() else name.startswith(wanted)


def _plain(word: str) -> str:
    """A word without the quotes about it, of which two within stand for one."""
    is_quoted = len(word) > 1 and word[0] == word[-1] == '"'
    return word[1:-1].replace('""', '"') if is_quoted else word
