# SPDX-License-Identifier: GPL-2.0-or-later
"""Sections as tables of the host: chainages, the sections as lines with heights, and end areas along a baseline."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsGeometry, QgsLineString, QgsMultiLineString

from ..core.ground.sheet import section_slope
from .fields import Kind
from .geometry import MapFrame

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..core.ground.profile import ProfileRow, SectionArea
    from ..core.ground.section import Section
    from ..core.ground.sheet import BaseVolumes, OneSided, SheetSection
    from ..core.quantity import Floats
    from .planned import Plane

    Columns = tuple[tuple[str, Kind], ...]
    Row = tuple[QgsGeometry | None, list[object]]

NEAR = 1e-6
"""Metres along the line within which a row of the table is where a feature is crossed."""
LEVEL = 1e-9
"""Metres: surfaces that lie no farther apart are at one level."""
METHOD = "section of the triangles"


class Break(Enum):
    """Why the chainage table has a row: the first of these that holds."""

    END = "end"
    """Of the line."""
    FEATURE = "feature"
    """Is crossed."""
    CROSSING = "crossing"
    """Of the ground and another surface."""
    BEND = "bend"
    """Of the line, or an end of a chord of its arcs."""
    TRIANGLE = "triangle"
    """Of a surface: an edge of it."""


def _reals(*names: str) -> Columns:
    """Columns of figures, each with its sigma behind it."""
    return tuple((column, Kind.REAL) for name in names for column in (name, f"{name}_sigma"))


SECTION_COLUMNS: Columns = (
    ("section", Kind.TEXT),
    ("station_m", Kind.REAL),
    ("surface", Kind.TEXT),
    ("length_m", Kind.REAL),
    *_reals("start_level_m", "end_level_m"),
    ("run_m", Kind.REAL),
    *_reals(
        "rise_m", "slope_length_m", "ground_length_m", "gradient_ratio", "gradient_percent", "gradient_deg"
    ),
    *_reals("gradient_in_ft", "one_in"),
    *_reals("cut_m2", "fill_m2"),
    ("cut_width_m", Kind.REAL),
    ("fill_width_m", Kind.REAL),
    ("left_out_m", Kind.REAL),
    ("method", Kind.TEXT),
)


def _sided(side: str) -> Columns:
    return (
        *_reals(f"{side}_from_m2", f"{side}_to_m2", f"{side}_m3"),
        (f"{side}_rule", Kind.TEXT),
        (f"{side}_average_m3", Kind.REAL),
        (f"{side}_prismoid_m3", Kind.REAL),
        *_reals(f"{side}_exact_m3"),
    )


END_AREA_COLUMNS: Columns = (
    ("surface", Kind.TEXT),
    ("from_m", Kind.REAL),
    ("to_m", Kind.REAL),
    *_sided("cut"),
    *_sided("fill"),
    ("left_out_m2", Kind.REAL),
    ("method", Kind.TEXT),
)


@dataclass(frozen=True)
class SectionTables:
    """What tables of sections hold: the surfaces' names (the ground first), and the plane that they are in."""

    names: tuple[str, ...]
    plane: Plane

    @property
    def chainage_columns(self) -> Columns:
        """Of the chainage table: the ground's columns, and for each other surface its own with its name before them."""
        columns: list[tuple[str, Kind]] = [
            ("section", Kind.TEXT),
            ("station_m", Kind.REAL),
            ("chainage_m", Kind.REAL),
            ("x", Kind.REAL),
            ("y", Kind.REAL),
            ("run_m", Kind.REAL),
            ("break", Kind.TEXT),
            ("feature", Kind.TEXT),
            ("surface", Kind.TEXT),
            *_reals("level_m", "rise_m", "gradient_ratio"),
        ]
        for word in _words(self.names[1:]):
            columns += _reals(
                *(f"{word}_{name}" for name in ("level_m", "rise_m", "gradient_ratio", "depth_m"))
            )
        return (*columns, ("method", Kind.TEXT))

    def chainage_rows(self, section: SheetSection) -> Iterator[Row]:
        """Of the chainage table, one a break."""
        chainages = np.array([row.chainage for row in section.rows])
        named: dict[int, list[str]] = {}
        for crossing in section.crossed:
            at = int(np.argmin(np.abs(chainages - crossing.chainage)))
            named.setdefault(at, []).append(crossing.name)
        flat = MapFrame(self.plane).points(
            np.column_stack([np.array([row.place for row in section.rows]), np.zeros(len(chainages))])
        )
        breaks = _breaks(section, chainages, list(named))
        for k, row in enumerate(section.rows):
            head: list[object] = [
                section.named.name, section.named.station, row.chainage, *flat[k, :2].tolist(), _told(row.run),
                breaks[k].value, ", ".join(dict.fromkeys(named.get(k, []))) or None, self.names[0],
            ]  # fmt: skip
            yield None, [*head, *self._figures(row), METHOD]

    def _figures(self, row: ProfileRow) -> list[object]:
        """Level, rise and gradient of the ground; of each other surface these and its depth below the ground."""
        figures: list[object] = []
        for k in range(len(self.names)):
            pairs = [(row.level, row.sigma), (row.rise, row.rise_sigma), (row.gradient, row.gradient_sigma)]
            pairs += [(row.depth, row.depth_sigma)] if k else []
            figures += [_told(float(values[k])) for pair in pairs for values in pair]
        return figures

    def section_rows(self, section: SheetSection) -> Iterator[Row]:
        """Of the sections, one a surface that the line meets; with the areas between it and the ground."""
        for k, (name, one) in enumerate(zip(self.names, section.profile.sections)):
            told = section_slope(one)
            if told is None:
                continue
            way = told.way
            # Of the chainage table, whose sigmas hold what all heights share too.
            known = [float(row.sigma[k]) for row in section.rows if np.isfinite(row.level[k])]
            ends = (known[0], known[-1])
            values: list[object] = [section.named.name, section.named.station, name, one.length]
            values += [
                told.levels[0],
                ends[0],
                told.levels[1],
                ends[1],
                way.run,
                way.rise,
                _told(way.rise_sigma),
            ]
            figures = (
                way.slope_length, told.ground_length, way.ratio, way.percent, way.degrees, way.inch_per_foot, way.one_in
            )  # fmt: skip
            for figure in figures:
                values += [None, None] if figure is None else [_told(figure.value), _told(figure.sigma)]
            areas = section.areas[k - 1] if k else None
            if areas is None:
                values += [None] * 7
            else:
                values += [
                    *_area(areas.cut),
                    *_area(areas.fill),
                    areas.cut.width,
                    areas.fill.width,
                    areas.left_out,
                ]
            yield self._geometry(one), [*values, METHOD]

    def _geometry(self, section: Section) -> QgsGeometry:
        """The ground along the line, a part for every stretch without a gap."""
        xyz = MapFrame(self.plane).points(np.column_stack([section.place, section.level]))
        whole = QgsMultiLineString()
        ends = np.flatnonzero(~section.is_ground) + 1
        for part in np.split(np.arange(len(section)), ends):
            if len(part) > 1:
                whole.addGeometry(QgsLineString(*(xyz[part, axis].tolist() for axis in range(3))))
        return QgsGeometry(whole)

    def end_area_rows(self, volumes: Sequence[BaseVolumes]) -> Iterator[Row]:
        """Of end areas, one a length between sections and one for all of them, for each surface but the ground."""
        for name, told in zip(self.names[1:], volumes):
            for k in range(len(told.chainage) - 1):
                span = [name, float(told.chainage[k]), float(told.chainage[k + 1])]
                sides = [value for side in (told.cut, told.fill) for value in _length(side, k)]
                yield None, [*span, *sides, _told(float(told.left_out[k])), "end areas"]
            span = [name, float(told.chainage[0]), float(told.chainage[-1])]
            sides = [value for side in (told.cut, told.fill) for value in _total(side)]
            yield None, [*span, *sides, _told(float(told.left_out.sum())), "end areas, total"]


def _length(side: OneSided, k: int) -> list[object]:
    ends = [value for area in side.areas[k : k + 2] for value in (area.value, area.sigma)]
    volumes = side.by_ends
    return [
        *ends, float(volumes.volumes[k]), float(side.sigmas[k]), volumes.rules[k].value, float(volumes.average[k]),
        float(side.prismoids[k]), _told(float(side.exact[k])), _told(float(side.exact_sigmas[k])),
    ]  # fmt: skip


def _total(side: OneSided) -> list[object]:
    """All lengths together."""
    exact = side.exact_total
    ends = [value for area in (side.areas[0], side.areas[-1]) for value in (area.value, area.sigma)]
    return [
        *ends, side.by_ends.total, float(side.sigmas[-1]), None, side.by_ends.plain_total,
        float(side.prismoids.sum()), None if exact is None else exact.value, None if exact is None else exact.sigma,
    ]  # fmt: skip


def _breaks(section: SheetSection, chainages: Floats, features: Sequence[int]) -> list[Break]:
    """Of each row of the chainage table, given their chainages (n,) and which of them are at features."""
    steps = np.diff(section.named.line, axis=0)
    bends = np.concatenate([[0.0], np.cumsum(np.hypot(steps[:, 0], steps[:, 1]))])
    after = np.minimum(np.searchsorted(bends, chainages - NEAR), len(bends) - 1)
    depth = np.array([row.depth[1:] for row in section.rows])
    apart = np.abs(np.nan_to_num(depth)) > LEVEL
    beside = np.zeros_like(apart)
    beside[1:] |= apart[:-1]
    beside[:-1] |= apart[1:]
    of = np.full(len(chainages), Break.TRIANGLE, object)
    of[np.abs(bends[after] - chainages) <= NEAR] = Break.BEND
    of[(np.isfinite(depth) & ~apart & beside).any(axis=1)] = Break.CROSSING
    of[list(features)] = Break.FEATURE
    of[[0, -1]] = Break.END
    return list(of)


def _area(area: SectionArea) -> tuple[float, float]:
    return area.area.value, area.area.sigma


def _told(value: float) -> float | None:
    return None if math.isnan(value) else value


def _words(names: Sequence[str]) -> list[str]:
    """Names as beginnings of columns: small letters, digits and strokes below, no two alike."""
    out: list[str] = []
    for name in names:
        word = re.sub(r"\W+", "_", name.lower()).strip("_") or "surface"
        number, told = 1, word
        while told in out:
            number += 1
            told = f"{word}_{number}"
        out.append(told)
    return out
