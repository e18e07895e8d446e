# SPDX-License-Identifier: GPL-2.0-or-later
"""What a check noticed (Finding), what was answered (Decision), and which answers each code allows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import Enum
from types import MappingProxyType


class Severity(Enum):
    """How far a finding stops the work."""

    STOP = "stop"
    """Nothing can be issued until it is cleared; the figures it touches are kept out."""
    ASK = "ask"
    """The figures stay in as recorded; the answer is kept with name and date."""
    NOTE = "note"
    """Printed on the sheet."""


@dataclass(frozen=True)
class Finding:
    """Something a check noticed, with its place and its remedy.

    `template` and `remedy` are literals; `data` fills both (the outer ring translates before it fills).
    `place` is the key a decision uses: `walk:station`, `feature`, `feature/part`, two of them joined by `+`,
    a mark, or `survey`. `at` is the place in the survey plane in metres, where there is one.
    """

    code: str
    severity: Severity
    place: str
    template: str
    remedy: str
    data: Mapping[str, object] = field(default_factory=dict)
    file: str = ""
    line: int | None = None
    walk: str = ""
    station: str = ""
    feature: str = ""
    at: tuple[float, float] | None = None
    answers: tuple[str, ...] = ()
    answer: str | None = None
    answered_by: str = ""
    answered_at: str = ""

    @property
    def message(self) -> str:
        """The finding as a sentence, in English."""
        return self.template.format(**self.data)

    @property
    def remedy_text(self) -> str:
        """What to do, in English."""
        return self.remedy.format(**self.data)

    @property
    def is_open(self) -> bool:
        """Whether it still waits for an answer (notes never do)."""
        return self.severity is not Severity.NOTE and self.answer is None


@dataclass(frozen=True)
class Decision:
    """One row of the decisions file: the answer to a finding, with who and when."""

    finding: str
    place: str
    answer: str
    by: str = ""
    when: str = ""
    file: str = ""
    line: int | None = None


class Decisions:
    """The answers kept beside the logs; asks are matched by code and place."""

    def __init__(self, rows: Iterable[Decision] = ()) -> None:
        """Index the rows, by code and place in any case; of two answers to one finding the later row counts."""
        self.rows: tuple[Decision, ...] = tuple(rows)
        self._by_key: Mapping[tuple[str, str], Decision] = MappingProxyType(
            {_key(row.finding, row.place): row for row in self.rows}
        )

    def answered(self, finding: Finding) -> Finding:
        """The finding with its answer, where the file holds one of the words it allows."""
        row = self._by_key.get(_key(finding.code, finding.place))
        words = {word.casefold(): word for word in finding.answers}
        if row is None or row.answer.casefold() not in words:
            return finding
        answer = words[row.answer.casefold()]
        return replace(finding, answer=answer, answered_by=row.by, answered_at=row.when)

    def unasked(self, findings: Iterable[Finding]) -> tuple[Decision, ...]:
        """Rows that answer nothing that was asked, or with a word that the finding does not allow."""
        used = {_key(f.code, f.place) for f in findings if f.answer is not None}
        return tuple(row for row in self.rows if _key(row.finding, row.place) not in used)

    @property
    def overruled(self) -> tuple[tuple[Decision, Decision], ...]:
        """Rows whose finding is answered otherwise by a later row, each with that row."""
        later = [(row, self._by_key[_key(row.finding, row.place)]) for row in self.rows]
        return tuple((row, last) for row, last in later if row.answer.casefold() != last.answer.casefold())


def _key(code: str, place: str) -> tuple[str, str]:
    return code.casefold(), place
