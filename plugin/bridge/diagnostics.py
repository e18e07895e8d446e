# SPDX-License-Identifier: GPL-2.0-or-later
"""What a survey says of itself, made ready to be drawn: what each mark is off by, in plan and against its limits, and
what each walk fails to close by. The figures are the survey's own (tables marks, residuals and walks)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from ..core.adjust.closures import FAR
from ..core.measure.rows import ResidualKind
from ..core.quantity import COVER_95, COVER_95_PLANE
from .desk import CLOSING_TO_95, length
from .survey_file import METRE, ScaleBar, Unit, nice_below, numbers, open_survey, scale_bar
from .text import tr

if TYPE_CHECKING:
    import sqlite3
    from pathlib import Path

SHARE = 0.14
"""Of the plan's reach: as long as the longest vector or half ellipse is drawn at the most."""
EDGE = 0.04
"""Of the reach: room about the plan, twice below for the scale bar and three times above for the arrow to the north."""
NAMED = 0.25
"""Of the longest vector: shorter ones are not told apart by their walks."""
LONELY = 20.0
"""Metres of reach about a single mark, or marks in one place."""


@dataclass(frozen=True)
class MarkDrawn:
    """A mark in the survey plane (metres, true north up) and its 95 % ellipse as it is drawn: both whole axes in metres
    by the exaggeration, and the long one's angle anticlockwise from east in degrees; None where it has none."""

    mark: str
    x: float
    y: float
    width: float | None
    height: float | None
    angle_deg: float | None


@dataclass(frozen=True)
class Vector:
    """A residual at a mark: from the mark (x, y) by (dx, dy), as drawn. `size` is the true one in metres."""

    kind: ResidualKind
    mark: str
    walk: str
    x: float
    y: float
    dx: float
    dy: float
    size: float
    is_used: bool


@dataclass(frozen=True)
class ResidualPlan:
    """The marks with their residuals, all drawn `times` their size; `box` is the least and most x and y."""

    marks: tuple[MarkDrawn, ...]
    vectors: tuple[Vector, ...]
    times: float
    bar: ScaleBar
    box: tuple[float, float, float, float]

    @property
    def named(self) -> tuple[Vector, ...]:
        """The vectors that are worth their walk's name: the longest at each mark, where it is long at all."""
        longest = max((vector.size for vector in self.vectors), default=0.0)
        by_mark: dict[str, Vector] = {}
        for vector in sorted(self.vectors, key=lambda v: v.size):
            if vector.walk and vector.size >= NAMED * longest:
                by_mark[vector.mark] = vector
        return tuple(by_mark.values())


class Outcome(Enum):
    """How a residual stands to the job's tests."""

    PASSES = "passes"
    ASKS = "asks"
    STOPS = "stops"
    LET_GO = "let go"


@dataclass(frozen=True)
class Standardised:
    """One residual in its own sigmas beside the limits from which the job's tests ask and stop; NaN of what was let go.
    `off` tells its size in words."""

    label: str
    kind: ResidualKind
    size: float
    ask: float
    stop: float
    outcome: Outcome
    off: str


class Closes(Enum):
    """How a walk closes."""

    WITHIN = "within 95 %"
    BEYOND = "beyond 95 %"
    FAR = "beyond three times"


@dataclass(frozen=True)
class Closing:
    """What one walk fails to close by, in plan or in height: the size, what 95 % of walks with its instrument stay below,
    and three times what it should give; all metres."""

    walk: str
    size: float
    expected_95: float
    limit: float

    @property
    def closes(self) -> Closes:
        """Where it stands."""
        if self.size > self.limit:
            return Closes.FAR
        return Closes.BEYOND if self.size > self.expected_95 else Closes.WITHIN


@dataclass(frozen=True)
class Misclosures:
    """The closings of all walks, and the walks that come back to no mark."""

    plan: tuple[Closing, ...]
    height: tuple[Closing, ...]
    open_walks: tuple[str, ...]


def read_residual_plan(survey: Path, unit: Unit = METRE) -> ResidualPlan:
    """The marks of a survey in plan with every residual that has a place there.

    Raises:
        BadInput: it is no survey, or one made before residuals were kept.
    """
    with open_survey(survey) as database:
        turn = _turn(database)
        marks = database.execute(
            "SELECT mark, x_m, y_m, sigma_major_m, sigma_minor_m, sigma_bearing_deg FROM marks ORDER BY mark"
        ).fetchall()
        found = database.execute(
            "SELECT kind, mark, walk, residual_x_m AS dx, residual_y_m AS dy, residual_m AS size, used FROM residuals "
            "WHERE residual_x_m IS NOT NULL"
        ).fetchall()
    places = {row["mark"]: (row["x_m"], row["y_m"]) for row in marks}
    found = [row for row in found if row["mark"] in places]
    reach = _reach(places)
    times = _times(marks, found, reach)
    drawn = tuple(_mark_drawn(row, times, turn) for row in marks)
    vectors = tuple(
        Vector(
            ResidualKind(row["kind"]),
            row["mark"],
            row["walk"] or "",
            *places[row["mark"]],
            times * row["dx"],
            times * row["dy"],
            row["size"],
            row["used"] == "yes",
        )
        for row in found
    )
    return ResidualPlan(drawn, vectors, times, scale_bar(reach, unit), _box(drawn, vectors, reach))


def _turn(database: sqlite3.Connection) -> float:
    """From the survey plane to the grid that bearings are told in, degrees anticlockwise."""
    row = database.execute("SELECT rotation_deg FROM placement").fetchone()
    return float(row[0]) if row and row[0] is not None else 0.0


def _reach(places: dict[str, tuple[float, float]]) -> float:
    """Metres from one side of the marks to the other."""
    if not places:
        return LONELY
    reach = float(np.ptp(np.array(list(places.values()), float), axis=0).max())
    return reach if reach > 0.0 else LONELY


def _times(marks: list[sqlite3.Row], found: list[sqlite3.Row], reach: float) -> float:
    """The exaggeration: a round number at which the longest thing keeps to its share of the plan, one at the least."""
    sizes = [COVER_95_PLANE * row["sigma_major_m"] for row in marks if row["sigma_major_m"] is not None]
    sizes += [row["size"] for row in found]
    largest = max(sizes, default=0.0)
    return max(nice_below(SHARE * reach / largest), 1.0) if largest > 0.0 else 1.0


def _mark_drawn(row: sqlite3.Row, times: float, turn: float) -> MarkDrawn:
    if row["sigma_major_m"] is None:
        return MarkDrawn(row["mark"], row["x_m"], row["y_m"], None, None, None)
    width, height = (2.0 * times * COVER_95_PLANE * row[name] for name in ("sigma_major_m", "sigma_minor_m"))
    return MarkDrawn(
        row["mark"], row["x_m"], row["y_m"], width, height, (90.0 - row["sigma_bearing_deg"] - turn) % 180.0
    )


def _box(
    marks: tuple[MarkDrawn, ...], vectors: tuple[Vector, ...], reach: float
) -> tuple[float, float, float, float]:
    if not marks:
        return (0.0, reach, 0.0, reach)
    xs, ys = [v.x + v.dx for v in vectors], [v.y + v.dy for v in vectors]
    for mark in marks:
        half = 0.5 * (mark.width or 0.0)
        xs += [mark.x - half, mark.x + half]
        ys += [mark.y - half, mark.y + half]
    edge = EDGE * reach
    return (min(xs) - edge, max(xs) + edge, min(ys) - 2.0 * edge, max(ys) + 3.0 * edge)


def read_standardised(survey: Path) -> tuple[Standardised, ...]:
    """Every residual that something tests, and every observation that was let go: the worst against its limit first.

    Raises:
        BadInput: it is no survey, or one made before residuals were kept.
    """
    with open_survey(survey) as database:
        rows = database.execute(
            "SELECT kind, mark, other, walk, station, used, residual_m, standard_ratio, ask_ratio, stop_ratio "
            "FROM residuals"
        ).fetchall()
    told = [_standardised(row) for row in rows if _is_told(row)]
    return tuple(sorted(told, key=lambda s: (s.outcome is not Outcome.LET_GO, -s.size / s.ask)))


def _is_let_go(row: sqlite3.Row) -> bool:
    return row["used"] == "no" and row["kind"] != ResidualKind.CHECK_POINT.value


def _is_told(row: sqlite3.Row) -> bool:
    return row["standard_ratio"] is not None or _is_let_go(row)


def _standardised(row: sqlite3.Row) -> Standardised:
    size, ask, stop = (
        math.nan if row[name] is None else float(row[name])
        for name in ("standard_ratio", "ask_ratio", "stop_ratio")
    )
    outcome = Outcome.STOPS if size >= stop else Outcome.ASKS if size >= ask else Outcome.PASSES
    outcome = Outcome.LET_GO if _is_let_go(row) else outcome
    return Standardised(
        _label(row), ResidualKind(row["kind"]), size, ask, stop, outcome, _size_words(row["residual_m"])
    )


def _size_words(metres: float) -> str:
    """A size to read; what rounds to nothing has no sign."""
    told = length(metres)
    return "0 mm" if told == "-0 mm" else told


def _label(row: sqlite3.Row) -> str:
    """What was observed, in words."""
    kind, mark, walk = ResidualKind(row["kind"]), row["mark"], row["walk"]
    names = {
        ResidualKind.STAND: tr("{mark} in {walk}, plan"),
        ResidualKind.HEIGHT: tr("{mark} in {walk}, height"),
        ResidualKind.TAPE: tr("tape {mark} to {other}"),
        ResidualKind.LEVEL: tr("level of {mark}"),
        ResidualKind.MAP_POINT: tr("map point {mark}"),
        ResidualKind.CHECK_POINT: tr("check point {mark}"),
    }
    where = f"{walk}:{row['station']}" if walk else ""
    return names[kind].format(mark=mark, walk=where, other=row["other"])


def read_misclosures(survey: Path) -> Misclosures:
    """What each walk fails to close by, of its loop that is worst against what it should be.

    Source: 95 % of a misclosure in plan from its radial sigma as in desk.py; the limit is FAR times it (closures.py).

    Raises:
        BadInput: it is no survey.
    """
    names = ("misclosure_m", "misclosure_m_sigma", "height_misclosure_m", "height_misclosure_m_sigma")
    with open_survey(survey) as database:
        rows = database.execute(f"SELECT walk, {', '.join(names)} FROM walks").fetchall()  # noqa: S608 - names above
    walks, table = [str(row["walk"]) for row in rows], numbers(rows, names)
    plan = tuple(
        Closing(walk, size, CLOSING_TO_95 * sigma, FAR * sigma)
        for walk, (size, sigma, *_) in zip(walks, table.tolist())
        if math.isfinite(size)
    )
    height = tuple(
        Closing(walk, abs(size), COVER_95 * sigma, FAR * sigma)
        for walk, (*_, size, sigma) in zip(walks, table.tolist())
        if math.isfinite(size)
    )
    closed = {closing.walk for closing in plan}
    return Misclosures(plan, height, tuple(walk for walk in walks if walk not in closed))
