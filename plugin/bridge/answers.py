# SPDX-License-Identifier: GPL-2.0-or-later
"""Answers to findings, kept in the decisions file beside the logs: added, and taken back by removing the row."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from ..core.read.decisions import COLUMNS
from ..core.read.formats import TableKind
from .kept_table import find_table, read_kept, write_kept

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

NAME = "decisions.csv"
"""What a decisions file is called that is made here."""

MENDS = frozenset({"exchange", "mirror", "leave out", "join", "reverse", "straight"})
"""Answers that put right what the finding's own test speaks for."""
UNITS_TOLD = "IN-03"
"""The finding that names first the unit that would fit best."""


def recommended(code: str, answers: Sequence[str]) -> str:
    """The answer that the data speak for; "" where only somebody who was there can tell: to accept what a test speaks
    against is never recommended."""
    if not answers:
        return ""
    return answers[0] if answers[0] in MENDS or code == UNITS_TOLD else ""


@dataclass(frozen=True)
class Answer:
    """One answer: the finding's code and place, the word, and who gave it when."""

    finding: str
    place: str
    answer: str
    by: str = ""
    when: str = ""


def find_decisions(folder: Path) -> Path:
    """The decisions file of a folder, found by its content; where there is none, the one to make."""
    return find_table(folder, TableKind.DECISIONS, NAME)


def add_answer(folder: Path, answer: Answer) -> Path:
    """Write an answer; an older one to the same finding goes. Other rows, columns and comments stay.

    Raises:
        BadInput: the file cannot be written.
    """
    return _rewrite(folder, answer.finding, answer.place, [answer])


def take_back(folder: Path, finding: str, place: str) -> Path:
    """Remove the answer to a finding."""
    return _rewrite(folder, finding, place, [])


def _rewrite(folder: Path, finding: str, place: str, added: Iterable[Answer]) -> Path:
    path = find_decisions(folder)
    table = read_kept(path, COLUMNS)
    kept = [row for row in table.rows if not _is_for(row, finding, place)]
    kept += [{column: getattr(answer, column) for column in COLUMNS} for answer in added]
    write_kept(path, replace(table, rows=tuple(kept)))
    return path


def _is_for(row: dict[str, str], finding: str, place: str) -> bool:
    return (
        row.get("finding", "").strip().casefold() == finding.casefold()
        and row.get("place", "").strip() == place
    )
