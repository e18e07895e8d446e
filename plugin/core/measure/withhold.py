# SPDX-License-Identifier: GPL-2.0-or-later
"""Open stops keep figures out: of the feature they are in, or of all features of their walk. So does the answer that
another go has taken a feature's place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from ..findings import Finding, Severity
from .rows import AreaRow, LegRow, LengthRow, SideRow, SpotRow, Survey, Tags

Row = TypeVar("Row", AreaRow, LengthRow, SpotRow, SideRow, LegRow)
FIGURES = {
    AreaRow: ("area", "sloped_area", "perimeter", "fall", "fall_bearing"),
    LengthRow: ("length", "slope_length", "rise", "gradient"),
    SpotRow: ("height",),
    SideRow: ("length", "radius", "sweep"),
    LegRow: ("length", "slope_length", "rise", "gradient", "radius", "sweep"),
}


BY_HEIGHT = {
    AreaRow: ("sloped_area", "fall", "fall_bearing"),
    LengthRow: ("slope_length", "rise", "gradient"),
    SpotRow: ("height",),
    SideRow: (),
    LegRow: ("slope_length", "rise", "gradient"),
}
"""The figures that rest on heights."""


@dataclass(frozen=True)
class Blocks:
    """Codes of open stops by walk, by feature, by feature and part, those that put all heights in doubt, and those by
    which heights have no datum."""

    walks: dict[str, list[str]]
    features: dict[tuple[str, str | None], list[str]]
    heights: list[str]
    datum: list[str]

    def codes(self, tags: Tags) -> str:
        """The codes that keep all figures of a row out, "" where none does."""
        walked = [code for walk in (tags.walk, *tags.other_walks) for code in self.walks.get(walk, [])]
        own = self.features.get((tags.feature, tags.part), []) + self.features.get((tags.feature, None), [])
        return " ".join(dict.fromkeys([*tags.finding.split(), *walked, *own]))

    def of_heights(self, row: object) -> list[str]:
        """The codes that keep those figures of a row out that rest on heights."""
        return self.heights + (self.datum if isinstance(row, SpotRow) else [])


def withhold(survey: Survey, findings: Iterable[Finding]) -> Survey:
    """The survey without the figures that open stops keep out; each such row names the codes."""
    blocks = Blocks({}, {}, [], [])
    for finding in findings:
        if finding.severity is not Severity.STOP or not finding.is_open:
            continue
        for walk in _walks_besides(finding, survey):
            blocks.walks.setdefault(walk, []).append(finding.code)
        if finding.feature:
            blocks.features.setdefault((finding.feature, _part(finding)), []).append(finding.code)
        elif finding.walk:
            blocks.walks.setdefault(finding.walk, []).append(finding.code)
        if finding.data.get("heights"):
            blocks.heights.append(finding.code)
        if finding.data.get("datum"):
            blocks.datum.append(finding.code)
    return replace(
        survey,
        areas=_without(survey.areas, blocks),
        lengths=_without(survey.lengths, blocks),
        spots=_without(survey.spots, blocks),
        sides=_without(survey.sides, blocks),
        legs=_without(survey.legs, blocks),
    )


def _walks_besides(finding: Finding, survey: Survey) -> list[str]:
    """Names of the file's other walks, where a finding is of the whole file (`whole` in its data)."""
    if not finding.data.get("whole"):
        return []
    return [walk.walk for walk in survey.walks if walk.file == finding.file and walk.walk != finding.walk]


def _part(finding: Finding) -> str | None:
    """The part a finding is of: "" for a feature without parts, None where it means all of them, or does not say
    (a place within a part)."""
    if finding.place == finding.feature:
        return ""
    lead = finding.feature + "/"
    is_part = finding.place.startswith(lead) and "+" not in finding.place
    return finding.place[len(lead) :] if is_part else None


def _without(rows: tuple[Row, ...], blocks: Blocks) -> tuple[Row, ...]:
    return tuple(_without_figures(row, blocks) for row in rows)


def _without_figures(row: Row, blocks: Blocks) -> Row:
    codes: str = blocks.codes(row.tags)
    of_heights: list[str] = blocks.of_heights(row)
    names: tuple[str, ...] = FIGURES[type(row)] if codes else BY_HEIGHT[type(row)] if of_heights else ()
    if not names:
        return row
    said = [*codes.split(), *(of_heights if BY_HEIGHT[type(row)] else ())]
    tags = replace(row.tags, finding=" ".join(dict.fromkeys(said)))
    return replace(row, tags=tags, **dict.fromkeys(names))  # type: ignore[arg-type]
