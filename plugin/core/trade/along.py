# SPDX-License-Identifier: GPL-2.0-or-later
"""Sizes and levels along a line: straight from place to place, even before the first and after the last."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..ground.levels import Levels
from ..ground.section import Section
from ..quantity import Floats, Ints

MOST = 1e7
"""Metres beyond which no size, level or chainage is one."""
SAME_PLACE = 1e-7
"""Metres along the line within which breaks are one."""
MOST_PARTS = 1_000
"""Parts of a line whose ground is held against one another, more only where it has more pieces than that."""
BEYOND = 1.0
"""Metres before the first place and after the last at which it is held to be the same."""


@dataclass(frozen=True, eq=False)
class Along:
    """A size along a line: (k,) chainages in order, metres, and (k,) values; a chainage that stands twice is a step.

    `sigma` (k,) is the one-sigma of each value, which errs by itself, metres.
    """

    chainage: Floats
    value: Floats
    sigma: Floats


def even(value: float, sigma: float) -> Along:
    """One size all along, noted once."""
    return Along(np.zeros(1), np.array([value]), np.array([sigma]))


def between(chainage: Floats, value: Floats, sigma: float) -> Along:
    """A size that was noted at some places (k,), in any order.

    Raises:
        BadInput: none, or one that is no number.
    """
    chainage, value = np.atleast_1d(np.asarray(chainage, float)), np.atleast_1d(np.asarray(value, float))
    if not len(value) or len(chainage) != len(value) or not (np.abs([chainage, value]) < MOST).all():
        raise BadInput(
            "A size along the line is no number, or has no place. Give pairs of chainage and size."
        )
    order = np.argsort(chainage, kind="stable")
    return Along(chainage[order], value[order], np.full(len(value), sigma))


@dataclass(frozen=True, eq=False)
class Pieces:
    """A line in (m,) pieces on each of which every size runs straight.

    `breaks` (m+1,) chainages, the first 0 and the last its length, metres.
    """

    breaks: Floats

    @property
    def widths(self) -> Floats:
        """(m,) metres."""
        return np.diff(self.breaks)

    @property
    def middle(self) -> Floats:
        """(m,) chainages."""
        return np.asarray(0.5 * (self.breaks[1:] + self.breaks[:-1]))

    @property
    def ends(self) -> Floats:
        """(m, 2) chainages."""
        return np.column_stack([self.breaks[:-1], self.breaks[1:]])


def cut_pieces(length: float, chainages: list[Floats]) -> Pieces:
    """A line of some length, broken at these chainages; such as lie within 1e-7 m are one."""
    every = np.sort(np.concatenate([np.zeros(0), *chainages]))
    every = every[(every > SAME_PLACE) & (every < length - SAME_PLACE)]
    apart = np.concatenate([[True], np.diff(every) > SAME_PLACE]) if len(every) else np.zeros(0, bool)
    return Pieces(np.concatenate([[0.0], every[apart], [length]]))


@dataclass(frozen=True, eq=False)
class OnPieces:
    """A size at both ends of pieces: (m, 2) values; each is told by two of the size's places, (m, 2, 2) by weights."""

    value: Floats
    place: Ints
    weight: Floats

    def sums(self, by_end: Floats, count: int) -> Floats:
        """(count,) change of a figure by each place, from its changes (m, 2) by the values at the pieces' ends."""
        pull = (by_end[:, :, None] * self.weight).reshape(-1)
        return np.asarray(np.bincount(self.place.reshape(-1), pull, count)[:count])


def on_pieces(size: Along, pieces: Pieces) -> OnPieces:
    """A size at both ends of each piece."""
    count, last = len(size.value), float(pieces.breaks[-1])
    at = np.concatenate(
        [[min(0.0, size.chainage[0]) - BEYOND], size.chainage, [max(last, size.chainage[-1]) + BEYOND]]
    )
    own = np.concatenate([[0], np.arange(count), [count - 1]])
    k = np.clip(np.searchsorted(at, pieces.middle, side="right") - 1, 0, len(at) - 2)
    # A piece may begin within the rounding of a place, so that parts are held to their stretch.
    part = np.clip((pieces.ends - at[k][:, None]) / (at[k + 1] - at[k])[:, None], 0.0, 1.0)
    weight = np.stack([1.0 - part, part], axis=2)
    place = np.broadcast_to(np.column_stack([own[k], own[k + 1]])[:, None, :], weight.shape)
    return OnPieces((weight * size.value[place]).sum(axis=2), place, weight)


@dataclass(frozen=True, eq=False)
class GroundPieces:
    """A surface's section at both ends of pieces: (m, 2) levels, and what tells them.

    Within the pieces `inner` tells the levels at the middles of (p,) parts no longer than half the reach of the ground's
    roughness (but for long lines): `piece` (p,) that each is of, and `share` (p,) of it.
    """

    value: Floats
    ends: Levels
    inner: Levels
    piece: Ints
    share: Floats


def ground_pieces(section: Section, pieces: Pieces) -> GroundPieces:
    """The levels of a section on pieces of a line whose chords it was cut along.

    Raises:
        BadInput: the surface leaves out some of the line.
    """
    chainage = section_chainages(section, float(pieces.breaks[-1]))
    row = np.clip(np.searchsorted(chainage, pieces.middle, side="right") - 1, 0, len(chainage) - 2)
    missing = float(pieces.widths[~section.is_ground[row]].sum())
    if missing > SAME_PLACE:
        first = pieces.breaks[:-1][~section.is_ground[row]][0]
        raise BadInput(
            "The surface leaves out {missing:.2f} m of the line, from {at:.2f} m along it. Extend the surface, or cut the "
            "line to it.",
            missing=missing,
            at=float(first),
        )
    wide = (chainage[row + 1] - chainage[row])[:, None]
    part = np.clip((pieces.ends - chainage[row][:, None]) / np.where(wide > 0.0, wide, 1.0), 0.0, 1.0)
    ends = section.told_between(np.repeat(row, 2), part.ravel())
    counts = _part_counts(pieces.widths, section.surface.reach)
    piece = np.repeat(np.arange(len(counts)), counts)
    number = np.arange(len(piece)) - np.repeat(np.cumsum(counts) - counts, counts)
    within = part[piece, 0] + (number + 0.5) / counts[piece] * (part[piece, 1] - part[piece, 0])
    inner = section.told_between(row[piece], within)
    return GroundPieces(ends.heights.reshape(-1, 2), ends, inner, piece, 1.0 / counts[piece])


def _part_counts(widths: Floats, reach: float) -> Ints:
    """(m,) parts of each piece within which the ground counts as one."""
    if not reach > 0.0:
        return np.ones(len(widths), np.int64)
    longest = max(0.5 * reach, float(widths.sum()) / MOST_PARTS)
    counts: Ints = np.maximum(np.ceil(widths / longest), 1).astype(np.int64)
    return counts


def section_chainages(section: Section, length: float) -> Floats:
    """(k,) chainages of a section along the line itself, of which it has the chords: arcs in fine chords are shorter by
    parts in a million, which are given back evenly."""
    if not math.isfinite(length) or section.length <= 0.0:
        return section.chainage
    return np.asarray(section.chainage * (length / section.length))
