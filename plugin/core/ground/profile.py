# SPDX-License-Identifier: GPL-2.0-or-later
"""Several surfaces along one line, on the breaks of all of them: levels, depths between them, areas of cut and fill."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints, Quantity
from .cuts import SAME_LEVEL
from .levels import Levels, PointGradient, ground_variance, point_gradient, rise_sigmas
from .section import Section
from .surface import Flags

if TYPE_CHECKING:
    from collections.abc import Sequence

SAME_PLACE = 1e-7
"""Metres along the line within which breaks of several surfaces are one."""
UPRIGHT = 1e-9
"""Metres of run below which a rise has no gradient."""
CUT, FILL = 1.0, -1.0
"""The sign of a depth: the ground above what it is held against is cut."""


@dataclass(frozen=True, eq=False)
class Profile:
    """Surfaces along one line, in (m,) pieces of it within which each of them is straight or not there.

    Attributes:
        sections: (s of them) of one line. length: of it, metres.
        breaks: (m+1,) chainages, metres, of which the first is 0 and the last the length.
        row: (s, m) the row of each section that a piece begins at or after. is_ground: (s, m) whether the surface is there.
        part: (s, m, 2) parts of the way to the section's next row at the piece's start and end.
        level: (s, m, 2) metres at start and end, NaN where the surface is not.
    """

    sections: tuple[Section, ...]
    breaks: Floats
    row: Ints
    is_ground: Flags
    part: Floats
    level: Floats

    @property
    def length(self) -> float:
        """Of the line, metres."""
        return self.sections[0].length

    @property
    def widths(self) -> Floats:
        """(m,) of the pieces along the line, metres."""
        return np.diff(self.breaks)

    def depths(self, of: int, against: int) -> Floats:
        """(m, 2) one surface above another at both ends of each piece, metres; NaN where one is not there."""
        return np.asarray(self.level[of] - self.level[against])

    def told(self, surface: int, piece: Ints, part: Floats) -> Levels:
        """What tells a surface's level at parts (r,), 0 to 1, of pieces (r,); no level where it is not there."""
        p = self.part[surface, piece]
        levels = self.sections[surface].told_between(
            self.row[surface, piece], p[:, 0] + part * (p[:, 1] - p[:, 0])
        )
        there = self.is_ground[surface, piece][:, None]
        return Levels(levels.surface, levels.place, levels.corner, np.where(there, levels.weight, 0.0))


def make_profile(sections: Sequence[Section], also: Floats | None = None) -> Profile:
    """Sections of one line laid over each other.

    Args:
        sections: one a surface, all cut along the same line.
        also: (a,) chainages to break at besides, metres; those beyond the line's ends are left out.
    Raises:
        BadInput: no section, or of different lines.
    """
    if not sections or any(not np.array_equal(s.line, sections[0].line) for s in sections):
        raise BadInput("Sections of different lines cannot be laid over each other. Cut all along one line.")
    length = sections[0].length
    breaks = _breaks([*(s.chainage for s in sections), np.zeros(0) if also is None else also], length)
    middle = 0.5 * (breaks[1:] + breaks[:-1])
    row, there, part, level = (
        np.stack(each) for each in zip(*(_on_pieces(section, breaks, middle) for section in sections))
    )
    return Profile(tuple(sections), breaks, row, there, part, level)


def _breaks(chainages: Sequence[Floats], length: float) -> Floats:
    """Chainages in order, of those within SAME_PLACE the first, and both ends of the line exactly."""
    every = np.sort(np.concatenate(chainages))
    every = every[(every > SAME_PLACE) & (every < length - SAME_PLACE)]
    apart = np.concatenate([[True], np.diff(every) > SAME_PLACE]) if len(every) else np.zeros(0, bool)
    return np.concatenate([[0.0], every[apart], [length]])


def _on_pieces(section: Section, breaks: Floats, middle: Floats) -> tuple[Ints, Flags, Floats, Floats]:
    """Of one section on each piece: row, whether it is there, parts and levels at both ends."""
    chainage = section.chainage
    row = np.clip(np.searchsorted(chainage, middle, side="right") - 1, 0, len(chainage) - 2)
    wide = chainage[row + 1] - chainage[row]
    there = section.is_ground[row] & (wide > 0.0)
    ends = np.stack([breaks[:-1], breaks[1:]], axis=1)
    part = np.clip((ends - chainage[row, None]) / np.where(there, wide, 1.0)[:, None], 0.0, 1.0)
    level = (1.0 - part) * section.level[row, None] + part * section.level[row + 1, None]
    return row, there, part, np.where(there[:, None], level, np.nan)


def split_at_zero(profile: Profile, ground: int = 0) -> Profile:
    """The profile with breaks too where the ground crosses any other of its surfaces."""
    crossings = []
    for other in range(len(profile.sections)):
        d = profile.depths(ground, other)
        k = np.flatnonzero(d[:, 0] * d[:, 1] < 0.0)
        crossings.append(profile.breaks[k] + profile.widths[k] * (d[k, 0] / (d[k, 0] - d[k, 1])))
    return make_profile(profile.sections, np.concatenate([profile.breaks, *crossings]))


@dataclass(frozen=True, eq=False)
class ProfileRow:
    """One line of the chainage table, metres.

    Attributes:
        chainage: along the line. place: (2,) in the survey plane.
        level, sigma: (s,) of each surface, NaN where it is not there.
        rise, rise_sigma: (s,) from the row before; NaN where one is missing, or the ground breaks off between.
        run: from the row before; NaN at the first. An upright step has a run of 0.
        depth, depth_sigma: (s,) of the ground above each surface, NaN of the ground itself; positive is cut.
    """

    chainage: float
    place: Floats
    level: Floats
    sigma: Floats
    rise: Floats
    rise_sigma: Floats
    run: float
    depth: Floats
    depth_sigma: Floats

    @property
    def gradient(self) -> Floats:
        """(s,) rise by run, positive up along the line; NaN without run (an upright step) or rise."""
        return self._by_run(self.rise)

    @property
    def gradient_sigma(self) -> Floats:
        """(s,) one-sigma of it, from the rise's: the run is read off the drawn line."""
        return self._by_run(self.rise_sigma)

    def _by_run(self, values: Floats) -> Floats:
        return values / self.run if self.run > UPRIGHT else np.full(len(values), np.nan)


def profile_rows(profile: Profile, ground: int = 0, common: float = 0.0) -> tuple[ProfileRow, ...]:
    """The chainage table: a row at every break; two at an upright step.

    Args:
        profile: of one or more surfaces.
        ground: which of them the depths are of.
        common: one-sigma of all heights together, metres; it is in the levels, and cancels in rises and depths.
    """
    piece, part = _row_pieces(profile)
    each = []
    for k in range(len(profile.sections)):
        levels = profile.told(k, piece[k], part[k])
        z, sigma = levels.heights, levels.sigmas(common)
        before = Levels(levels.surface, levels.place[:-1], levels.corner[:-1], levels.weight[:-1])
        after = Levels(levels.surface, levels.place[1:], levels.corner[1:], levels.weight[1:])
        goes_on = _goes_on(profile, k, piece, part)
        rise = np.concatenate([[np.nan], np.where(goes_on, np.diff(z), np.nan)])
        rise_sigma = np.concatenate([[np.nan], np.where(goes_on, rise_sigmas(before, after), np.nan)])
        each.append((z, sigma, rise, rise_sigma, levels.sigmas()))
    z, sigma, rise, rise_sigma, alone = (np.stack(column, axis=1) for column in zip(*each))
    depth = z[:, [ground]] - z
    depth_sigma = np.hypot(alone[:, [ground]], alone)
    depth[:, ground] = depth_sigma[:, ground] = np.nan
    first = np.max(np.where(part == 0.0, piece, piece + 1), axis=0)
    chainage = profile.breaks[first]
    run = np.concatenate([[np.nan], np.diff(chainage)])
    place = places_along(profile.sections[0].line, chainage)
    columns = (place, z, sigma, rise, rise_sigma, run.tolist(), depth, depth_sigma)
    return tuple(ProfileRow(c, *row) for c, *row in zip(chainage.tolist(), *columns))


def _row_pieces(profile: Profile) -> tuple[Ints, Floats]:
    """(s, r) piece and (s, r) part of it, 0 or 1, that tells each surface's level at each row.

    A break is one row, told by the piece after it, or the one before where the surface is not after; at an upright step
    it is two, the first told from before.
    """
    count = len(profile.breaks) - 1
    before, after = profile.level[:, :-1, 1], profile.level[:, 1:, 0]
    with np.errstate(invalid="ignore"):
        steps = (np.abs(after - before) > SAME_LEVEL).any(axis=0)
    at = np.sort(np.concatenate([np.arange(count + 1), np.flatnonzero(steps) + 1]))
    is_first = np.concatenate([at[1:] == at[:-1], [False]])
    there = np.pad(profile.is_ground, ((0, 0), (1, 1)))[:, :]
    from_before = (is_first & there[:, at]) | (~there[:, at + 1] & there[:, at])
    from_before |= at == count
    piece = np.where(from_before, at - 1, at)
    piece = np.clip(piece, 0, count - 1)
    return piece, from_before.astype(float)


def _goes_on(profile: Profile, k: int, piece: Ints, part: Floats) -> Flags:
    """(r-1,) whether a surface is there all the way from each row to the next; over an upright step it is."""
    at = np.max(np.where(part == 0.0, piece, piece + 1), axis=0)
    upright = at[1:] == at[:-1]
    return np.asarray(upright | profile.is_ground[k, np.minimum(at[:-1], profile.is_ground.shape[1] - 1)])


def places_along(line: Floats, chainage: Floats) -> Floats:
    """(c, 2) places at chainages along a line (v, 2), metres."""
    step = np.diff(line, axis=0)
    begin = np.concatenate([[0.0], np.cumsum(np.hypot(*step.T))])
    k = np.clip(np.searchsorted(begin, chainage, side="right") - 1, 0, len(step) - 1)
    part = (chainage - begin[k]) / np.hypot(*step[k].T)
    return np.asarray(line[k] + part[:, None] * step[k])


@dataclass(frozen=True, eq=False)
class SectionArea:
    """Cut or fill in a section.

    Attributes:
        area: m2, with its one-sigma. width: of the line that has it, metres.
        gradients: how it moves with the ground's points, and with those of the surface held against it.
        rough: one-sigma of the area from the ground between the points alone, m2.
    """

    area: Quantity
    width: float
    gradients: tuple[PointGradient, PointGradient]
    rough: float


@dataclass(frozen=True, eq=False)
class SectionAreas:
    """Cut and fill in a section, never netted; `left_out` metres of the line have no level of one of the two."""

    cut: SectionArea
    fill: SectionArea
    left_out: float


def section_areas(profile: Profile, ground: int = 0, against: int = 1) -> SectionAreas:
    """Areas between two surfaces along the line, exact, cut and fill apart, split where the surfaces cross.

    The sigma is of the first order: from both surfaces' points, taken as independent, and from the ground between them.
    Where the depth is nowhere more than its own sigma, cut and fill are noise rather than work, and add up.
    """
    d = profile.depths(ground, against)
    left_out = float(profile.widths[np.isnan(d).any(axis=1)].sum())
    cut, fill = (_one_sided(profile, (ground, against), sign) for sign in (CUT, FILL))
    return SectionAreas(cut, fill, left_out)


def _one_sided(profile: Profile, pair: tuple[int, int], sign: float) -> SectionArea:
    depth = sign * profile.depths(*pair)
    piece = np.flatnonzero((depth >= 0.0).any(axis=1) & ~np.isnan(depth).any(axis=1))
    d, w = depth[piece], profile.widths[piece]
    positive = np.maximum(d, 0.0)
    span = np.where((d >= 0.0).all(axis=1), 1.0, _share(d))
    area = 0.5 * w * span * positive.sum(axis=1)
    # The part of the piece that counts is a triangle where the sign changes: its corner at the crossing moves no area.
    middle = _middles(d, span)
    by_level = w * span
    gradients, variance, rough = [], 0.0, 0.0
    for surface, side in zip(pair, (sign, -sign)):
        levels = profile.told(surface, piece, middle)
        gradient = point_gradient(levels, side * by_level)
        variance += gradient.variance(levels.surface)
        rough += ground_variance(levels, by_level)
        gradients.append(gradient)
    width = float((w * span)[(d > 0.0).any(axis=1)].sum())
    sigma = float(np.sqrt(variance + rough))
    return SectionArea(
        Quantity(float(area.sum()), sigma, "m2"), width, (gradients[0], gradients[1]), float(np.sqrt(rough))
    )


def _share(d: Floats) -> Floats:
    """Part of a piece in which a depth that changes its sign is positive."""
    wide = np.abs(d[:, 0] - d[:, 1])
    return np.asarray(np.maximum(d, 0.0).sum(axis=1) / np.where(wide > 0.0, wide, 1.0))


def _middles(d: Floats, span: Floats) -> Floats:
    """Parts of pieces in the middle of where a depth is positive: a straight depth is its mean there, for all its points."""
    return np.asarray(np.where(d[:, 0] >= d[:, 1], 0.5 * span, 1.0 - 0.5 * span))
