# SPDX-License-Identifier: GPL-2.0-or-later
"""What a job has come to and what it still lacks, read from its survey: one row a subject, with its worst figure."""

from __future__ import annotations

import math
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from qgis.core import QgsProject

from .text import tr

if TYPE_CHECKING:
    from pathlib import Path

    from .jobs import DeskJob

ELLIPSE_TO_95 = 2.448
"""From the ellipse's one sigma to its 95 %, a place (root of chi-square of two degrees of freedom)."""
CLOSING_TO_95 = 1.731
"""From the radial sigma of a misclosure, the root of its covariance's trace, to the size that 95 % stay below where it
errs alike along both axes: 2.448 by the root of 2."""
MILLIMETRES_BELOW = 0.1
"""Metres below which a length reads better in millimetres."""
CHECKABLE = (
    "SELECT (SELECT count(*) FROM areas WHERE fall_ratio IS NOT NULL) + "
    "(SELECT count(*) FROM lengths WHERE rise_m IS NOT NULL AND coalesce(part, '') <> 'profile')"
)
"""How many areas and lengths have heights, so that limits may be of them."""


class Subject(Enum):
    """What a row of the desk is about."""

    WALKS = "walks"
    FINDINGS = "findings"
    MARKS = "marks"
    PLACE = "place"
    HEIGHTS = "heights"
    GROUND = "ground"
    CHECKS = "checks"
    SIDES = "sides"
    FIGURES = "figures"


class State(Enum):
    """How a subject stands."""

    GOOD = "good"
    LACKS = "lacks"
    ASKS = "asks"
    STOPS = "stops"


@dataclass(frozen=True)
class DeskRow:
    """One subject of a job, how it stands, and its worst figure in words."""

    subject: Subject
    title: str
    state: State
    words: str


def _opened(survey: Path) -> sqlite3.Connection:
    return sqlite3.connect(f"{survey.absolute().as_uri()}?mode=ro", uri=True)


def read_desk(job: DeskJob) -> tuple[DeskRow, ...]:
    """The rows of a job."""
    if not job.is_surveyed:
        words = tr("nothing surveyed yet: run the job")
        return (DeskRow(Subject.WALKS, tr("Walks"), State.LACKS, words),)
    try:
        with closing(_opened(job.survey)) as database:
            survey = _Survey(database, job)
            return tuple(row for row in survey.rows() if row is not None)
    except sqlite3.Error:
        words = tr("the survey cannot be read: run the job again")
        return (DeskRow(Subject.WALKS, tr("Walks"), State.STOPS, words),)


class _Survey:
    """Questions to one survey."""

    def __init__(self, database: sqlite3.Connection, job: DeskJob) -> None:
        self._database, self._job = database, job

    def rows(self) -> tuple[DeskRow | None, ...]:
        return (
            self._walks(),
            self._findings(),
            self._marks(),
            self._place(),
            self._heights(),
            self._ground(),
            self._checks(),
            self._sides(),
            self._figures(),
        )

    def _one(self, query: str) -> tuple[object, ...]:
        row = self._database.execute(query).fetchone()
        return tuple(row) if row else ()

    def _count(self, query: str) -> int:
        return int(str(self._one(query)[0]))

    def _walks(self) -> DeskRow:
        walks, stations = self._one("SELECT count(*), total(stations) FROM walks")
        worst = self._one(
            "SELECT walk, misclosure_m, misclosure_m_sigma FROM walks WHERE misclosure_m_sigma > 0 "
            "ORDER BY misclosure_m / misclosure_m_sigma DESC LIMIT 1"
        )
        words = tr("{walks} read, {stations} stations").format(
            walks=walks, stations=round(float(str(stations)))
        )
        if worst:
            walk, closing_m, sigma = worst
            words += tr("; {walk} closes to {size}, expected below {expected} (95 %)").format(
                walk=walk, size=length(closing_m), expected=length(CLOSING_TO_95 * float(str(sigma)))
            )
        return DeskRow(Subject.WALKS, tr("Walks"), State.GOOD if walks else State.LACKS, words)

    def _findings(self) -> DeskRow:
        stops, asks, notes = (
            self._count(f"SELECT count(*) FROM findings WHERE severity = '{severity}' AND answer IS NULL")  # noqa: S608
            for severity in ("stop", "ask", "note")
        )
        answered = self._count("SELECT count(*) FROM findings WHERE answer IS NOT NULL")
        state = State.STOPS if stops else State.ASKS if asks else State.GOOD
        parts = [
            tr("{n} that stop").format(n=stops) if stops else "",
            tr("{n} to answer").format(n=asks) if asks else "",
            tr("{n} answered").format(n=answered) if answered else "",
            tr("{n} to know").format(n=notes) if notes else "",
        ]
        return DeskRow(Subject.FINDINGS, tr("Findings"), state, ", ".join(filter(None, parts)) or tr("none"))

    def _marks(self) -> DeskRow:
        count = self._count("SELECT count(*) FROM marks")
        worst = self._one(
            "SELECT mark, residual_m FROM marks WHERE residual_m IS NOT NULL ORDER BY residual_m DESC"
        )
        if not count:
            words = tr("none: nothing checks the walks against each other")
            return DeskRow(Subject.MARKS, tr("Marks"), State.LACKS, words)
        words = tr("{n} marks").format(n=count)
        if worst:
            words += tr("; worst {mark}, {size}").format(mark=worst[0], size=length(worst[1]))
        return DeskRow(Subject.MARKS, tr("Marks"), State.GOOD, words)

    def _place(self) -> DeskRow:
        told = self._one("SELECT status, crs FROM placement")
        status, crs = told or ("not placed", "")
        far = self._one("SELECT max(sigma_major_m) FROM stations")
        words = str(status)
        if status != "not placed" and far and far[0] is not None:
            reach = length(ELLIPSE_TO_95 * float(str(far[0])))
            words += tr(" in {crs}; ±{reach} at the worst station (95 %)").format(crs=crs, reach=reach)
        states = {"placed": State.GOOD, "not confirmed": State.ASKS}
        return DeskRow(Subject.PLACE, tr("Place on the map"), states.get(str(status), State.LACKS), words)

    def _heights(self) -> DeskRow:
        told = self._one("SELECT height_shift_m, height_datum FROM placement")
        if told and told[0] is not None:
            words = tr("in {datum}").format(datum=told[1] or tr("the control's datum"))
            return DeskRow(Subject.HEIGHTS, tr("Heights"), State.GOOD, words)
        has = self._count("SELECT count(*) FROM stations WHERE z_m IS NOT NULL")
        words = tr("relative: no level mark") if has else tr("none")
        return DeskRow(Subject.HEIGHTS, tr("Heights"), State.LACKS, words)

    def _ground(self) -> DeskRow | None:
        """The surfaces of the project that is open, for a survey that could have some."""
        if not self._count("SELECT count(*) FROM stations WHERE z_m IS NOT NULL"):
            return None
        from ..core.quantity import COVER_95
        from .ground_list import told_surfaces

        told = told_surfaces(QgsProject.instance())
        if not told:
            return DeskRow(Subject.GROUND, tr("Ground"), State.LACKS, tr("no surface yet"))
        words = ", ".join(one.name for one in told)
        known = [one for one in told if not math.isnan(one.sigma)]
        if known:
            worst = max(known, key=lambda one: one.sigma)
            words += tr("; worst point {size} (95 %), in {name}").format(
                size=f"±{length(COVER_95 * worst.sigma)}", name=worst.name
            )
        weak, of = sum(one.weak for one in told), sum(one.triangles for one in told)
        if weak:
            words += tr("; {weak} of {count} triangles are weak").format(weak=weak, count=of)
        return DeskRow(Subject.GROUND, tr("Ground"), State.GOOD, words)

    def _checks(self) -> DeskRow | None:
        """What limits are kept, for a survey that has something they could be of."""
        from .checks_file import checks_file
        from .checks_run import why_old

        survey = self._job.survey
        if not checks_file(survey).is_file():
            words = tr("not held against limits yet")
            return (
                DeskRow(Subject.CHECKS, tr("Checks"), State.LACKS, words) if self._count(CHECKABLE) else None
            )
        state, words = self._told_checks()
        if state is not State.LACKS and why_old(QgsProject.instance(), self._job):
            state, words = State.LACKS, tr("out of date: {words}").format(words=words)
        return DeskRow(Subject.CHECKS, tr("Checks"), state, words)

    def _told_checks(self) -> tuple[State, str]:
        from ..core.errors import BadInput
        from .checks_file import OPEN, Verdict, checks_file, count_checks, read_checks, tell_counts

        try:
            checks = read_checks(checks_file(self._job.survey))
        except BadInput:
            return State.LACKS, tr("they cannot be read: check again")
        counts = count_checks(checks)
        words = tell_counts(counts)
        if checks and checks[0].verdict in OPEN:
            words = tr("{counts}; worst: {check}").format(counts=words, check=checks[0].sentence)
        if counts[Verdict.FAILS]:
            return State.STOPS, words
        is_open = counts[Verdict.CANNOT_TELL] or counts[Verdict.NOT_MEASURED]
        return (State.ASKS if is_open else State.GOOD if counts[Verdict.PASSES] else State.LACKS), words

    def _sides(self) -> DeskRow | None:
        sides = self._count("SELECT count(*) FROM sides")
        bare, size = self._one("SELECT count(*), total(length_m) FROM sides WHERE item IS NULL OR item = ''")
        if not sides:
            return None
        if not bare:
            words = tr("all {n} have an item").format(n=sides)
            return DeskRow(Subject.SIDES, tr("Edges"), State.GOOD, words)
        words = tr("{n} sides without an item, {size} in all").format(n=bare, size=length(size))
        return DeskRow(Subject.SIDES, tr("Edges"), State.LACKS, words)

    def _figures(self) -> DeskRow:
        kept_out = self._count(
            "SELECT (SELECT count(*) FROM areas WHERE area_m2 IS NULL) + "
            "(SELECT count(*) FROM lengths WHERE length_m IS NULL)"
        )
        areas, total, lengths = self._one(
            "SELECT count(*), total(area_m2), (SELECT count(*) FROM lengths) FROM areas"
        )
        words = tr("{areas} areas, {total:.1f} m² in all; {lengths} lengths").format(
            areas=areas, total=float(str(total)), lengths=lengths
        )
        if kept_out:
            words += tr("; {n} without a figure").format(n=kept_out)
        return DeskRow(Subject.FIGURES, tr("Figures"), State.STOPS if kept_out else State.GOOD, words)


def length(metres: object) -> str:
    """A length to read: millimetres below 10 cm, else metres to the centimetre."""
    value = float(str(metres))
    return f"{1000.0 * value:.0f} mm" if abs(value) < MILLIMETRES_BELOW else f"{value:.2f} m"
