# SPDX-License-Identifier: GPL-2.0-or-later
"""Answers to findings, kept in the decisions file beside the logs: added, and taken back by removing the row."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from ..core.read.decisions import COLUMNS
from ..core.read.formats import TableKind, find_kind
from .staging import staged

if TYPE_CHECKING:
    from collections.abc import Iterable

NAME = "decisions.csv"
"""What a decisions file is called that is made here."""


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
    for path in sorted(folder.glob("*")):
        if path.is_file() and path.suffix.lower() in (".csv", ".txt") and _is_decisions(path):
            return path
    return folder / NAME


def _is_decisions(path: Path) -> bool:
    try:
        return find_kind(path.read_bytes()) is TableKind.DECISIONS
    except OSError:
        return False


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
    text = path.read_text(encoding="utf-8-sig") if path.is_file() else ""
    comments, names, rows = _read(text)
    kept = [row for row in rows if not _is_for(row, finding, place)]
    kept += [{column: getattr(answer, column) for column in COLUMNS} for answer in added]
    out = io.StringIO()
    out.writelines(f"{line}\n" for line in comments)
    writer = csv.DictWriter(out, names, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(kept)
    with staged(path) as made:
        made.write_text(out.getvalue(), encoding="utf-8")
    return path


def _read(text: str) -> tuple[list[str], list[str], list[dict[str, str]]]:
    """Comment lines at the head, the header, and the rows by column."""
    lines = text.splitlines()
    head = next((k for k, line in enumerate(lines) if line.strip() and not line.startswith("#")), len(lines))
    body = lines[head:]
    if not body:
        return lines, list(COLUMNS), []
    mark = max(",;\t", key=body[0].count)
    reader = csv.DictReader(body, delimiter=mark)
    rows = [{str(name): value or "" for name, value in row.items() if name} for row in reader]
    names = [str(name) for name in reader.fieldnames or COLUMNS]
    return lines[:head], names + [name for name in COLUMNS if name not in names], rows


def _is_for(row: dict[str, str], finding: str, place: str) -> bool:
    return (
        row.get("finding", "").strip().casefold() == finding.casefold()
        and row.get("place", "").strip() == place
    )
