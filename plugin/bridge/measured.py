# SPDX-License-Identifier: GPL-2.0-or-later
"""Figures of a layer's features as columns: what is added to each row, in the order of the rows.

Words in data are English in every language, so that tables of two desks can be compared; only reasons are told in the
user's own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from .fields import Kind
from .text import explain_finding, explain_remedy

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..core.findings import Finding
    from ..core.measure.layer.areas import AreaFigures
    from ..core.measure.layer.lengths import LengthFigures
    from ..core.quantity import Floats

NO_HEIGHT = -1e9
"""Stands for the height of a grid of its own, on which none counts."""
ASSUMED = "assumed"
"""`sigma_from` of what was never walked: somebody stated what its points are worth."""


@dataclass(frozen=True)
class Column:
    """A column that is added to a layer, and which attribute of the figures fills it ("" where a text does)."""

    name: str
    kind: Kind
    figure: str = ""


def _real(name: str, figure: str) -> Column:
    return Column(name, Kind.REAL, figure)


WORDS = tuple(Column(name, Kind.TEXT) for name in ("method", "sigma_from", "finding"))
EDGE = _real("area_m2_edge_sigma", "edge_sigma")
AREAS = (
    _real("area_m2", "area"),
    _real("area_m2_sigma", "area_sigma"),
    _real("perimeter_m", "perimeter"),
    _real("perimeter_m_sigma", "perimeter_sigma"),
)
SLOPED = (_real("sloped_area_m2", "sloped"), _real("sloped_area_m2_sigma", "sloped_sigma"))
LENGTHS = (_real("length_m", "length"), _real("length_m_sigma", "length_sigma"))
RISES = (
    _real("slope_length_m", "slope"),
    _real("slope_length_m_sigma", "slope_sigma"),
    _real("rise_m", "rise"),
    _real("rise_m_sigma", "rise_sigma"),
    _real("gradient_ratio", "gradient"),
    _real("gradient_ratio_sigma", "gradient_sigma"),
)


def area_columns(*, has_z: bool, has_edge: bool) -> tuple[Column, ...]:
    """What measuring areas adds: nothing that needs heights where there are none, and how sharp the edges are only
    where that was told."""
    return (*AREAS, *((EDGE,) if has_edge else ()), *(SLOPED if has_z else ()), *WORDS)


def length_columns(*, has_z: bool) -> tuple[Column, ...]:
    """What measuring lengths adds."""
    return (*LENGTHS, *(RISES if has_z else ()), *WORDS)


def column_values(
    figures: AreaFigures | LengthFigures, columns: Sequence[Column], sigma_from: Sequence[str]
) -> list[list[object]]:
    """The values of each column, one a feature; None where there is none."""
    methods, froms = _methods(figures), list[object](sigma_from)
    findings: list[object] = [None] * len(figures.height)
    for feature, finding in figures.findings.items():
        methods[feature] = froms[feature] = None
        findings[feature] = tell(finding)
    texts = {"method": methods, "sigma_from": froms, "finding": findings}
    return [_numbers(getattr(figures, c.figure)) if c.figure else texts[c.name] for c in columns]


class Tally:
    """What a run has come to: rows measured and refused, and the sum of the main figure."""

    def __init__(self, figure: str) -> None:
        """The name of the main figure, as the figures have it."""
        self._figure = figure
        self.measured = self.refused = 0
        self.total = 0.0

    def add(self, figures: AreaFigures | LengthFigures) -> None:
        """Some more rows."""
        values = getattr(figures, self._figure)
        self.measured += int(np.isfinite(values).sum())
        self.refused += len(figures.findings)
        self.total += float(np.nansum(values))


def tell(finding: Finding) -> str:
    """A finding in one line, code first."""
    return f"{finding.code}: {explain_finding(finding)} {explain_remedy(finding)}"


def _numbers(values: Floats) -> list[object]:
    out: list[object] = values.tolist()
    for k in np.flatnonzero(~np.isfinite(values)):
        out[k] = None
    return out


def _methods(figures: AreaFigures | LengthFigures) -> list[object]:
    """How each was measured; few kinds of rows, so few texts."""
    kinds = np.stack([figures.has_arcs, figures.is_wide, figures.has_heights], axis=1)
    kind = kinds @ np.array([1, 2, 4])
    heights = np.round(figures.height, 1)
    if np.isnan(heights).all():
        heights = np.full(len(kind), NO_HEIGHT)
    if len(heights) and (heights == heights[0]).all() and (kind == kind[0]).all():
        return [_method(int(kind[0]), float(heights[0]))] * len(kind)
    return [_method(k, h) for k, h in zip(kind.tolist(), heights.tolist())]


def _method(kind: int, height: float) -> str:
    edges = "straights and exact arcs" if kind & 1 else "straights"
    way = "along geodesics" if kind & 2 else "on the ground"
    if height == NO_HEIGHT:
        return f"{way}, {edges}"
    whose = "its own mean height" if kind & 4 else "height"
    return f"{way}, {edges}, {whose} {height:g} m"
