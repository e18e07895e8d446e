# SPDX-License-Identifier: GPL-2.0-or-later
"""Open stops keep figures out: of the feature they are in, or of all features of their walk."""

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
    LegRow: ("length", "slope_length", "rise", "gradient"),
}


@dataclass(frozen=True)
class Blocks:
    """Codes of open stops by walk, and by feature or feature/part."""

    walks: dict[str, list[str]]
    features: dict[str, list[str]]

    def codes(self, tags: Tags) -> str:
        """The codes that keep a row's figures out, "" where none does."""
        own = f"{tags.feature}/{tags.part}" if tags.part else tags.feature
        walked = [code for walk in (tags.walk, *tags.other_walks) for code in self.walks.get(walk, [])]
        found = walked + self.features.get(own, []) + self.features.get(tags.feature, [])
        return " ".join(dict.fromkeys(found))


def withhold(survey: Survey, findings: Iterable[Finding]) -> Survey:
    """The survey without the figures that open stops keep out; each such row names the codes."""
    blocks = Blocks({}, {})
    for finding in findings:
        if finding.severity is not Severity.STOP or not finding.is_open:
            continue
        if finding.feature:
            blocks.features.setdefault(finding.place, []).append(finding.code)
            if "/" not in finding.place:
                blocks.features.setdefault(finding.feature, []).append(finding.code)
        elif finding.walk:
            blocks.walks.setdefault(finding.walk, []).append(finding.code)
    return replace(
        survey,
        areas=_without(survey.areas, blocks),
        lengths=_without(survey.lengths, blocks),
        spots=_without(survey.spots, blocks),
        sides=_without(survey.sides, blocks),
        legs=_without(survey.legs, blocks),
    )


def _without(rows: tuple[Row, ...], blocks: Blocks) -> tuple[Row, ...]:
    out = []
    for row in rows:
        codes = blocks.codes(row.tags)
        empty = dict.fromkeys(FIGURES[type(row)])
        tags = replace(row.tags, finding=codes)
        out.append(replace(row, tags=tags, **empty) if codes else row)  # type: ignore[arg-type]
    return tuple(out)
