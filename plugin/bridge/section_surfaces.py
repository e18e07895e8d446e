# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces along a drawn line: levels by the core's own cuts, what lies between two of them, and that in words."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ..core.errors import GroundTallyError
from ..core.ground.profile import Profile, make_profile, section_areas, split_at_zero
from ..core.ground.section import Section, SectionCutter
from ..core.ground.surface import Surface
from ..core.quantity import COVER_95
from .text import explain, tr

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from ..core.quantity import Floats, Ints
    from .survey_file import Unit

PAIR = 2
"""Surfaces of which one is held against the other."""
MISSING = 0.005
"""Metres: less than this that one of two surfaces misses is not told."""


@dataclass(frozen=True, eq=False)
class LaidSurface:
    """A surface that lines of the survey's map can be cut through.

    Attributes:
        name: of it. surface: in a plane of metres.
        to_plane: (n, 2) places of the survey's layers to that plane; surfaces that are cut together share it.
    """

    name: str
    surface: Surface
    to_plane: Callable[[Floats], Floats]

    @cached_property
    def cutter(self) -> SectionCutter:
        """Made ready to be cut, once for many lines."""
        return SectionCutter(self.surface)


def plain_surface(points: Floats, triangles: Ints) -> Surface:
    """A surface of which nobody says what its heights are worth; triangles without all their heights are left out."""
    known = triangles[np.isfinite(points[triangles]).all(axis=(1, 2))]
    none = np.zeros(len(known), bool)
    return Surface(points, known, np.full(len(points), math.nan), 0.0, 0.0, none)


@dataclass(frozen=True, eq=False)
class Band:
    """What lies between two surfaces along a part of the line: (k,) distances along and levels of the ground and of what
    it is held against, in the section's unit."""

    is_cut: bool
    along: Floats
    ground: Floats
    other: Floats

    @property
    def middle(self) -> tuple[float, float]:
        """Halfway along it and halfway between the two levels: where its letter stands."""
        along = 0.5 * (self.along[0] + self.along[-1])
        one, other = (np.interp(along, self.along, level) for level in (self.ground, self.other))
        return float(along), float(0.5 * (one + other))


@dataclass(frozen=True, eq=False)
class SurfaceCuts:
    """Surfaces along one line.

    Attributes:
        lines: of each surface met its name, (k,) distances along and (k,) levels in the unit, NaN at gaps.
        weak: the same, of stretches that no one should lean on, NaN between them. bands: of the first surface and the second.
        said: surfaces that could not be cut, and why. profile: of all, metres; None where the line meets none.
        names: of the surfaces in the profile. unit: that lengths are told in. is_pair: whether two are held together.
    """

    lines: tuple[tuple[str, Floats, Floats], ...] = ()
    weak: tuple[tuple[Floats, Floats], ...] = ()
    bands: tuple[Band, ...] = ()
    said: tuple[str, ...] = ()
    profile: Profile | None = None
    names: tuple[str, ...] = ()
    unit: Unit | None = None
    is_pair: bool = False

    @cached_property
    def area_words(self) -> str:
        """Cut and fill between the two surfaces along the line, with their 95 %; nothing where no two are held together."""
        if not self.is_pair or self.profile is None or self.unit is None:
            return ""
        areas, square = section_areas(self.profile), self.unit.metres**2
        sign = f"{self.unit.sign}²"
        words = "; ".join(
            _with_95(label, one.area.value / square, one.area.sigma / square, sign, 2)
            for label, one in ((tr("Cut C"), areas.cut), (tr("Fill F"), areas.fill))
        )
        left = areas.left_out / self.unit.metres
        if areas.left_out > MISSING:
            gap = tr("; on {left:.2f} {unit} one of the two is missing")
            words += gap.format(left=left, unit=self.unit.sign)
        return words

    def words_at(self, along: float) -> str:
        """The level of each surface at a distance along the line, with its 95 %, and what lies between the first two."""
        if self.profile is None or self.unit is None:
            return ""
        metres, unit = along * self.unit.metres, self.unit
        piece, part = _piece_at(self.profile, metres)
        parts, told = [tr("at {along:.2f} {unit}").format(along=along, unit=unit.sign)], []
        for k, name in enumerate(self.names):
            levels = self.profile.told(k, np.array([piece]), np.array([part]))
            told.append((float(levels.heights[0]), float(levels.sigmas()[0])))
            parts.append(
                tr("{name}: none here").format(name=name)
                if math.isnan(told[k][0])
                else _with_95(name, unit.of(told[k][0]), unit.of(told[k][1]), unit.sign, 3)
            )
        if self.is_pair and not any(math.isnan(z) for z, _ in told):
            depth, sigma = told[0][0] - told[1][0], math.hypot(told[0][1], told[1][1])
            label = tr("cut C") if depth > 0.0 else tr("fill F")
            parts.append(_with_95(label, unit.of(abs(depth)), unit.of(sigma), unit.sign, 3))
        return "; ".join(parts)


def _with_95(label: str, value: float, sigma: float, sign: str, places: int) -> str:
    if math.isnan(sigma):
        return f"{label} {value:.{places}f} {sign}"
    return f"{label} {value:.{places}f} ± {COVER_95 * sigma:.{places}f} {sign}"


def _piece_at(profile: Profile, metres: float) -> tuple[int, float]:
    """The piece of a profile that a chainage lies in, and the part of it that lies before."""
    last = len(profile.breaks) - 2
    piece = int(np.clip(np.searchsorted(profile.breaks, metres, side="right") - 1, 0, last))
    start, end = profile.breaks[piece], profile.breaks[piece + 1]
    return piece, float(np.clip((metres - start) / (end - start), 0.0, 1.0))


def cut_surfaces(
    surfaces: Sequence[LaidSurface], line: Floats, unit: Unit, *, is_pair: bool = False
) -> SurfaceCuts:
    """The surfaces along a line (v, 2) of the survey's map; with `is_pair` the first is held against the second.

    A surface that cannot be cut is told in `said`, and the others go on.
    """
    sections: list[tuple[str, Section]] = []
    said = []
    for one in surfaces:
        try:
            sections.append((one.name, one.cutter.cut(one.to_plane(line))))
        except GroundTallyError as error:
            said.append(f"{one.name}: {explain(error)}")
    met = [(name, section) for name, section in sections if not section.is_empty]
    empty = SurfaceCuts(said=tuple(said), unit=unit)
    if not met:
        return empty
    holds = is_pair and len(sections) == PAIR and len(met) == PAIR
    profile = make_profile([section for _, section in met])
    if holds:
        profile = split_at_zero(profile)
    return replace(
        empty,
        lines=tuple((name, *_drawn(section, unit)) for name, section in met),
        weak=tuple(filter(None, (_weak_parts(section, unit) for _, section in met))),
        bands=_bands(profile, unit) if holds else (),
        profile=profile,
        names=tuple(name for name, _ in met),
        is_pair=holds,
    )


def _drawn(section: Section, unit: Unit) -> tuple[Floats, Floats]:
    """Distances along and levels from where the line first meets the surface to where it last does, NaN at gaps."""
    along, level = section.broken
    known = np.flatnonzero(np.isfinite(level))
    some = slice(int(known[0]), int(known[-1]) + 1)
    return along[some] / unit.metres, level[some] / unit.metres


def _weak_parts(section: Section, unit: Unit) -> tuple[Floats, Floats] | None:
    """Where a surface is weak along the line, each stretch by its two ends and a gap."""
    rows = np.flatnonzero(section.is_weak)
    if not len(rows):
        return None
    gap = np.full(len(rows), math.nan)
    return tuple(
        np.column_stack([v[rows], v[rows + 1], gap]).ravel() / unit.metres  # type: ignore[return-value]
        for v in (section.chainage, section.level)
    )


def _bands(profile: Profile, unit: Unit) -> tuple[Band, ...]:
    """Stretches of cut and of fill, each as long as it goes on."""
    depth = profile.depths(0, 1).sum(axis=1)
    kind = np.where(np.isnan(depth), 0, np.sign(depth)).astype(int)
    starts = np.flatnonzero(np.diff(kind, prepend=kind[0] + 1 if len(kind) else 0))
    out = []
    for first, after in zip(starts.tolist(), [*starts[1:].tolist(), len(kind)]):
        if kind[first]:
            pieces = slice(first, after)
            ends = np.column_stack([profile.breaks[:-1], profile.breaks[1:]])[pieces].ravel()
            levels = [profile.level[k, pieces].ravel() / unit.metres for k in (0, 1)]
            out.append(Band(kind[first] > 0, ends / unit.metres, *levels))
    return tuple(out)
