# SPDX-License-Identifier: GPL-2.0-or-later
"""SR-01: figures of walks that a phone recorded find a site; they are priced only where their own uncertainty, as a
part of the figure, is small enough."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from ..defaults import PRICE_WITHIN
from ..findings import Decisions, Finding, Severity
from ..quantity import Quantity
from ..walk import SourceClass, Walk
from .rows import AreaRow, LengthRow, SpotRow, Tags
from .shapes import Rows

BUDGET = "budget only"
Row = TypeVar("Row", AreaRow, LengthRow)


@dataclass(frozen=True)
class _Coarse:
    """A row of a phone's walk: its feature, the figure it is priced by, and the walk that says so."""

    tags: Tags
    figure: Quantity | None
    walk: Walk

    @property
    def place(self) -> str:
        return "/".join(name for name in (self.tags.feature, self.tags.part) if name)

    @property
    def part(self) -> float | None:
        """Uncertainty by figure; None where there is no figure."""
        if self.figure is None or not self.figure.value:
            return None
        return self.figure.sigma / abs(self.figure.value)


def check_coarse(
    rows: Rows, walks: Iterable[Walk], decisions: Decisions, within: float = PRICE_WITHIN
) -> tuple[Rows, tuple[Finding, ...]]:
    """SR-01 for each feature that a phone recorded, in the order of the tables.

    Args:
        rows: every figure filled in.
        walks: as they were adjusted.
        decisions: `budget only` lets a figure stay, and its row says so.
        within: one-sigma by figure up to which a phone's figure may be priced.
    Returns:
        The rows, those answered `budget only` marked in their method and spots without their heights; a stop for each
        figure that is too uncertain, a note for each that is not, and one for the spots of a walk.
    """
    phones = {walk.name: walk for walk in walks if walk.keys.source_class is SourceClass.PHONE}
    if not phones:
        return rows, ()
    found: dict[str, Finding] = {}
    for row in _coarse_rows(rows, phones):
        found[row.place] = decisions.answered(_finding(row, within))
    marked = {place for place, finding in found.items() if finding.answer == BUDGET}
    return (
        replace(
            rows,
            areas=_marked(rows.areas, marked),
            lengths=_marked(rows.lengths, marked),
            spots=tuple(_without_height(row) if row.tags.walk in phones else row for row in rows.spots),
        ),
        (*found.values(), *_of_spots(rows, phones)),
    )


def _without_height(row: SpotRow) -> SpotRow:
    return replace(row, height=None, tags=replace(row.tags, method="place by a phone, no height"))


def _of_spots(rows: Rows, phones: dict[str, Walk]) -> list[Finding]:
    out = []
    for name, walk in phones.items():
        count = sum(row.tags.walk == name for row in rows.spots)
        if count:
            out.append(
                Finding(
                    "SR-01",
                    Severity.NOTE,
                    walk.place(0),
                    "{file}: the places of the spots of walk {walk} ({count}) come from a phone and are good for some "
                    "metres; their heights are left out.",
                    "Measure them with an instrument where that matters.",
                    {"file": walk.file, "walk": name, "count": count},
                    file=walk.file,
                    line=int(walk.line[0]),
                    walk=name,
                    station=walk.station[0],
                )
            )
    return out


def _coarse_rows(rows: Rows, phones: dict[str, Walk]) -> list[_Coarse]:
    figures: list[tuple[Tags, Quantity | None]] = [
        *((row.tags, row.area) for row in rows.areas),
        *((row.tags, row.length) for row in rows.lengths),
    ]
    out = []
    for tags, figure in figures:
        walk = next((phones[name] for name in (tags.walk, *tags.other_walks) if name in phones), None)
        if walk is not None and tags.feature:
            out.append(_Coarse(tags, figure, walk))
    return out


def _marked(rows: tuple[Row, ...], places: set[str]) -> tuple[Row, ...]:
    return tuple(
        replace(row, tags=replace(row.tags, method=f"{BUDGET}: {row.tags.method}"))
        if "/".join(name for name in (row.tags.feature, row.tags.part) if name) in places
        else row
        for row in rows
    )


def _finding(row: _Coarse, within: float) -> Finding:
    part = row.part
    is_fine = part is not None and part <= within
    i = next((i for i, name in enumerate(row.walk.feature) if name == row.tags.feature), 0)
    data: dict[str, object] = {
        "feature": row.place, "walk": row.walk.name, "within": 100.0 * within,
        "part": None if part is None else 100.0 * part,
    }  # fmt: skip
    return Finding(
        "SR-01",
        Severity.NOTE if is_fine else Severity.STOP,
        row.place,
        _template(is_fine=is_fine, has_part=part is not None),
        "None needed; the accuracy is stated with the figure."
        if is_fine
        else "Measure it again with an instrument, or use it for a budget figure only.",
        data,
        file=row.walk.file,
        line=int(row.walk.line[i]),
        walk=row.walk.name,
        station=row.walk.station[i],
        feature=row.tags.feature,
        answers=() if is_fine else (BUDGET,),
    )


def _template(*, is_fine: bool, has_part: bool) -> str:
    if is_fine:
        return (
            "{feature} was recorded by a phone (walk {walk}): its uncertainty is {part:.1f} % of its figure, within the "
            "{within:.3g} % that may be priced."
        )
    if has_part:
        return (
            "{feature} was recorded by a phone (walk {walk}): its uncertainty is {part:.1f} % of its figure, more than the "
            "{within:.3g} % that may be priced."
        )
    return (
        "{feature} was recorded by a phone (walk {walk}): its place and height are good for some metres only."
    )
