# SPDX-License-Identifier: GPL-2.0-or-later
"""The findings of a survey, read back from its GeoPackage."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pathlib import Path

ORDER = ("stop", "ask", "note")
_COLUMNS = "code, severity, file, line, walk, station, place, x, y, message, remedy, answers, answer, answered_by, answered_at"


@dataclass(frozen=True)
class ToldFinding:
    """A finding as the survey tells it, in the user's words; `at` is its place on the map, where it has one."""

    code: str
    severity: str
    file: str
    line: int | None
    walk: str
    station: str
    place: str
    at: tuple[float, float] | None
    message: str
    remedy: str
    answers: tuple[str, ...]
    answer: str
    answered_by: str
    answered_at: str

    @property
    def is_answered(self) -> bool:
        """Whether somebody has answered it."""
        return bool(self.answer)

    @property
    def rank(self) -> int:
        """Stops before asks before notes."""
        return ORDER.index(self.severity) if self.severity in ORDER else len(ORDER)

    @property
    def where(self) -> str:
        """Its place, else the line that it was found in."""
        if self.place and self.place != "survey":
            return self.place
        return f"{self.file}:{self.line}" if self.file and self.line else self.file or self.place


def read_findings(survey: Path) -> tuple[ToldFinding, ...]:
    """All findings of a survey; none where it cannot be read."""
    try:
        with closing(sqlite3.connect(f"{survey.absolute().as_uri()}?mode=ro", uri=True)) as database:
            rows = database.execute(f"SELECT {_COLUMNS} FROM findings ORDER BY fid").fetchall()  # noqa: S608
    except sqlite3.Error:
        return ()
    return tuple(_told(row) for row in rows)


def _told(row: tuple[object, ...]) -> ToldFinding:
    told: dict[str, Any] = dict(zip(_COLUMNS.replace(",", " ").split(), row))
    x, y = told.pop("x"), told.pop("y")
    line, answers = told.pop("line"), told.pop("answers")
    return ToldFinding(
        line=None if line is None else int(line),
        at=None if x is None or y is None else (float(x), float(y)),
        answers=tuple(part.strip() for part in str(answers or "").split(";") if part.strip()),
        **{name: str(value or "") for name, value in told.items()},
    )
