# SPDX-License-Identifier: GPL-2.0-or-later
"""Sections of several surfaces along named lines, with all that is told of each, and volumes along a baseline."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Quantity
from .crossed import FeatureCrossing, features_crossed
from .end_areas import EndAreas, end_area_sigmas, end_area_volumes, prismoid_volumes
from .gradient import Slope
from .levels import Levels, ground_variance, point_gradient, rise_sigmas
from .profile import Profile, ProfileRow, SectionArea, SectionAreas, make_profile, profile_rows, section_areas
from .profile import split_at_zero as split
from .section import Section, SectionCutter
from .stations import BaseStations, any_crossing, cross_lines, crossing_neighbours
from .volume import Volumes, volume_between

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from .crossed import PlanFeature
    from .surface import Surface


@dataclass(frozen=True, eq=False)
class NamedLine:
    """A line to cut along: its name, (v, 2) metres in the survey plane, and its chainage on a baseline (None: of none)."""

    name: str
    line: Floats
    station: float | None = None


@dataclass(frozen=True, eq=False)
class SheetSection:
    """A section of all surfaces, the first of which is the ground that the others are held against.

    Attributes:
        named: the line. profile: with breaks where the ground crosses another surface, and at features.
        rows: the chainage table. areas: for every surface but the first, cut and fill.
        crossed: features, by chainage.
    """

    named: NamedLine
    profile: Profile
    rows: tuple[ProfileRow, ...]
    areas: tuple[SectionAreas, ...]
    crossed: tuple[FeatureCrossing, ...]


class SheetCutter:
    """Surfaces in one plane, made ready to be cut; the first is the ground.

    Raises:
        BadInput: no surface, or one has a point without place or height.
    """

    def __init__(self, surfaces: Sequence[Surface], common: float = 0.0) -> None:
        """Make each surface ready; `common` is the one-sigma of all heights together, metres."""
        if not surfaces:
            raise BadInput("No surface is given to cut. Choose one or more.")
        self.surfaces = tuple(surfaces)
        self._cutters = [SectionCutter(surface) for surface in surfaces]
        self._common = common

    def cut(self, named: NamedLine, features: Sequence[PlanFeature] = ()) -> SheetSection:
        """The section along one line, with its features.

        Raises:
            TooFewPoints, BadInput: as `SectionCutter.cut`.
        """
        sections = [cutter.cut(named.line) for cutter in self._cutters]
        crossed = features_crossed(sections[0].line, features)
        also = np.array([crossing.chainage for crossing in crossed])
        profile = split(make_profile(sections, also))
        rows = profile_rows(profile, common=self._common)
        return SheetSection(named, profile, rows, self._areas(profile), crossed)

    def areas(self, named: NamedLine) -> tuple[SectionAreas, ...]:
        """Only the areas of the section along one line."""
        return self._areas(make_profile([cutter.cut(named.line) for cutter in self._cutters]))

    def _areas(self, profile: Profile) -> tuple[SectionAreas, ...]:
        return tuple(section_areas(profile, 0, k) for k in range(1, len(self.surfaces)))


@dataclass(frozen=True)
class SectionSlope:
    """From the first to the last level of a section: the straight way, and the length along the ground between."""

    way: Slope
    ground_length: Quantity
    levels: tuple[float, float]


def section_slope(section: Section) -> SectionSlope | None:
    """Of one surface; None where the line does not meet it.

    The ground's length leaves its gaps out, and is that of the triangles: what is rough between the points adds to it.
    """
    rows = np.flatnonzero(~np.isnan(section.level))
    if section.is_empty:
        return None
    told = section.told
    one, other = (
        Levels(told.surface, told.place[[k]], told.corner[[k]], told.weight[[k]]) for k in (rows[0], rows[-1])
    )
    first, last = float(section.level[rows[0]]), float(section.level[rows[-1]])
    run = float(section.chainage[rows[-1]] - section.chainage[rows[0]])
    way = Slope(last - first, run, float(rise_sigmas(one, other)[0]))
    return SectionSlope(way, _ground_length(section), (first, last))


def _ground_length(section: Section) -> Quantity:
    k = np.flatnonzero(section.is_ground)
    run, rise = np.diff(section.chainage)[k], np.diff(section.level)[k]
    length = np.hypot(run, rise)
    steep = np.divide(rise, length, out=np.zeros(len(k)), where=length > 0.0)
    by_level = np.zeros(len(section))
    by_level[k + 1] += steep
    by_level[k] -= steep
    variance = point_gradient(section.told, by_level).variance(section.surface)
    variance += ground_variance(section.told, by_level)
    return Quantity(float(length.sum()), float(np.sqrt(variance)), "m")


# --- volumes along a baseline ---


@dataclass(frozen=True, eq=False)
class OneSided:
    """Cut, or fill, of the (k-1,) lengths between sections.

    Attributes:
        areas: (k,) of the sections. by_ends: end areas. sigmas: (k-1,) of their volumes and behind them of the total.
        prismoids: (k-1,) with the section half way. exact, exact_sigmas: (k-1,) over the triangles between the lines
            across; NaN where these cross each other. exact_total: over all of them at once, None where any cross.
    """

    areas: tuple[Quantity, ...]
    by_ends: EndAreas
    sigmas: Floats
    prismoids: Floats
    exact: Floats
    exact_sigmas: Floats
    exact_total: Quantity | None


@dataclass(frozen=True, eq=False)
class BaseVolumes:
    """Volumes along a baseline between the ground and one surface; chainages (k,), metres. left_out: (k-1,) m2 between
    the lines across where one of the two is not there, NaN where that is not known."""

    chainage: Floats
    cut: OneSided
    fill: OneSided
    left_out: Floats


def base_volumes(
    cutter: SheetCutter,
    stations: BaseStations,
    middles: BaseStations,
    widths: tuple[float, float],
    tick: Callable[[float], None],
) -> tuple[BaseVolumes, ...]:
    """Cut and fill along a baseline, for every surface but the first.

    Args:
        cutter: of two surfaces or more.
        stations: (k,) of the sections.
        middles: (k-1,) half way between them.
        widths: of the sections to the left and right, metres.
        tick: told how much is done, 0 to 1; it may raise to stop.
    Raises:
        BadInput: fewer than two surfaces or sections.
    """
    if len(cutter.surfaces) < 2:
        raise BadInput(
            "End areas need two surfaces. Choose the ground first, and then what it is held against."
        )
    lines, between = (cross_lines(some, *widths) for some in (stations, middles))
    areas, halves = [], []
    for k, line in enumerate(lines):
        tick(0.5 * k / len(lines))
        areas.append(cutter.areas(NamedLine("", line)))
        if k < len(between):
            halves.append(cutter.areas(NamedLine("", between[k])))
    return tuple(
        _against(cutter, other, stations.chainage, areas, halves, _exact(cutter, other, lines, tick))
        for other in range(1, len(cutter.surfaces))
    )


def _against(
    cutter: SheetCutter,
    other: int,
    chainage: Floats,
    areas: Sequence[tuple[SectionAreas, ...]],
    halves: Sequence[tuple[SectionAreas, ...]],
    exact: tuple[Volumes | None, ...],
) -> BaseVolumes:
    """Volumes between the ground and one other surface; `exact` of each length, and behind them of all together."""
    pair = (cutter.surfaces[0], cutter.surfaces[other])
    at, half = ([told[other - 1] for told in some] for some in (areas, halves))
    sides = (
        _one_sided(
            chainage,
            [a.cut for a in at],
            [a.cut for a in half],
            pair,
            [None if v is None else v.cut for v in exact],
        ),
        _one_sided(
            chainage,
            [a.fill for a in at],
            [a.fill for a in half],
            pair,
            [None if v is None else v.fill for v in exact],
        ),
    )
    left_out = np.array([np.nan if v is None else v.left_out for v in exact[:-1]])
    return BaseVolumes(chainage, *sides, left_out)


def _one_sided(
    chainage: Floats,
    sections: list[SectionArea],
    halves: list[SectionArea],
    pair: tuple[Surface, Surface],
    exact: Sequence[Quantity | None],
) -> OneSided:
    areas = np.array([s.area.value for s in sections])
    reach = max(surface.reach for surface in pair)
    sigmas = end_area_sigmas(chainage, tuple(sections), pair, reach)
    prismoids = prismoid_volumes(chainage, areas, np.array([s.area.value for s in halves]))
    figures = np.array([(np.nan, np.nan) if q is None else (q.value, q.sigma) for q in exact[:-1]])
    return OneSided(
        tuple(s.area for s in sections),
        end_area_volumes(chainage, areas),
        sigmas,
        prismoids,
        figures[:, 0],
        figures[:, 1],
        exact[-1],
    )


def _exact(
    cutter: SheetCutter, other: int, lines: Floats, tick: Callable[[float], None]
) -> tuple[Volumes | None, ...]:
    """Of the ground between each line across and the next, and behind them between all; None where lines cross."""
    ground, other_one = cutter.surfaces[0], cutter.surfaces[other]
    rings = [np.array([one[0], one[1], next_[1], next_[0]]) for one, next_ in zip(lines, lines[1:])]
    rings.append(np.concatenate([lines[:, 0], lines[::-1, 1]]))
    crossed = [*crossing_neighbours(lines).tolist(), any_crossing(lines)]
    out: list[Volumes | None] = []
    for k, ring in enumerate(rings):
        tick(0.5 + 0.5 * k / len(rings))
        out.append(None if crossed[k] else _between(ground, other_one, ring))
    return tuple(out)


def _between(ground: Surface, other: Surface, ring: Floats) -> Volumes | None:
    """Within a ring (v, 2), metres; None where it crosses itself, so that it encloses no one ground."""
    try:
        return volume_between(ground, other, [ring])
    except BadInput:
        return None
