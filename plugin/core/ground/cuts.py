# SPDX-License-Identifier: GPL-2.0-or-later
"""Parts of straights within one triangle each: put in order, clipped, checked, and joined to the rows of a section."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from .surface import Flags

ON_LINE = 1e-7
"""Metres beside the line within which a point of the surface lies on it: fifty times what a double holds of a place
1e7 m away, and nothing that could be measured."""
LAPPED = 1e-6
"""Metres along the line that two triangles may share: more than roundings, and the surface lies over itself."""
SAME_LEVEL = 1e-6
"""Metres between two levels of one place that are one; more is an upright step."""


@dataclass(frozen=True, eq=False)
class Cuts:
    """Parts of straights within one triangle each, by straight and start.

    Attributes:
        straight: (c,) its number. triangle: (c,) that it runs through.
        along: (c, 2) start and end, metres from the straight's start. level: (c, 2) there, metres.
        corner: (c, 3) points of the surface. weight: (c, 2, 3) theirs at start and end.
    """

    straight: Ints
    triangle: Ints
    along: Floats
    level: Floats
    corner: Ints
    weight: Floats

    def only(self, rows: Ints) -> Cuts:
        """Some of them, by number."""
        return Cuts(
            self.straight[rows], self.triangle[rows], self.along.take(rows, axis=0), self.level.take(rows, axis=0),
            self.corner.take(rows, axis=0), self.weight.take(rows, axis=0),
        )  # fmt: skip


def directed(straight: Ints, triangle: Ints, corner: Ints, ends: tuple[Floats, Floats, Floats]) -> Cuts:
    """Cuts in the straight's direction, from (c, 2) metres along it and levels, and (c, 2, 3) weights, in any order."""
    along, level, weight = ends
    swap = (along[:, 0] > along[:, 1])[:, None]
    return Cuts(
        straight,
        triangle,
        np.where(swap, along[:, ::-1], along),
        np.where(swap, level[:, ::-1], level),
        corner,
        np.where(swap[:, None], weight[:, ::-1], weight),
    )


def in_order(cuts: Cuts) -> Cuts:
    """By straight and start."""
    one = not len(cuts.straight) or bool((cuts.straight == cuts.straight[0]).all())
    return cuts.only(np.argsort(cuts.along[:, 0]) if one else np.lexsort((cuts.along[:, 0], cuts.straight)))


def with_rims(cuts: Cuts, rims: Cuts) -> Cuts:
    """Cuts, and of edges along a straight those that no crossed triangle has already."""
    found = [cuts]
    for k in np.unique(rims.straight):
        own = cuts.along[cuts.straight == k]
        own = own[np.argsort(own[:, 0])]
        ends = np.maximum.accumulate(own[:, 1]) if len(own) else own[:, 1]
        reached = -np.inf
        rows = np.flatnonzero(rims.straight == k)
        for row in rows[np.lexsort((-rims.along[rows, 1], rims.along[rows, 0]))]:
            start, end = rims.along[row]
            middle = 0.5 * (start + end)
            before = int(np.searchsorted(own[:, 0], middle, side="right")) - 1
            if middle > reached and not (before >= 0 and ends[before] > middle):
                found.append(rims.only(np.array([row])))
                reached = end
    return stacked(found)


def clipped(cuts: Cuts, size: Floats) -> Cuts:
    """Cuts within their straights, (m,) metres long; what comes within ON_LINE of an end, ends there."""
    length = size[cuts.straight]
    keep = (cuts.along[:, 0] < length - ON_LINE) & (cuts.along[:, 1] > ON_LINE)
    keep &= cuts.along[:, 1] > cuts.along[:, 0]
    rows = np.flatnonzero(keep)
    cuts, length = cuts.only(rows), length[rows]
    for end, is_out, to in (
        (0, cuts.along[:, 0] <= ON_LINE, np.zeros(len(length))),
        (1, cuts.along[:, 1] >= length - ON_LINE, length),
    ):
        rows = np.flatnonzero(is_out)
        if len(rows):
            _move_end(cuts, end, rows, to)
    return cuts


def _move_end(cuts: Cuts, end: int, rows: Ints, to: Floats) -> None:
    """Let some cuts start (end 0) or end (end 1) elsewhere along their straights. They are changed where they stand: only
    for cuts that nobody has seen yet."""
    along, level, weight = cuts.along, cuts.level, cuts.weight
    part = (to[rows] - along[rows, 0]) / (along[rows, 1] - along[rows, 0])
    along[rows, end] = to[rows]
    level[rows, end] = (1.0 - part) * level[rows, 0] + part * level[rows, 1]
    part = part[:, None]
    weight[rows, end] = (1.0 - part) * weight[rows, 0] + part * weight[rows, 1]


def refuse_laps(cuts: Cuts, start: Floats, unit: Floats) -> None:
    """A surface that lies over itself has two levels in one place."""
    same = cuts.straight[1:] == cuts.straight[:-1]
    lapped = np.flatnonzero(same & (cuts.along[:-1, 1] - cuts.along[1:, 0] > LAPPED))
    if len(lapped):
        k = int(lapped[0]) + 1
        x, y = start[cuts.straight[k]] + cuts.along[k, 0] * unit[cuts.straight[k]]
        raise BadInput(
            "The surface lies over itself near x {x:.3f}, y {y:.3f} of the survey plane, so that it has two levels "
            "there. Build it again from its points, or cut its layers one by one.",
            x=x,
            y=y,
        )


def stacked(cuts: list[Cuts]) -> Cuts:
    """All of them, one block after another."""
    names = ("straight", "triangle", "along", "level", "corner", "weight")
    return Cuts(*(np.concatenate([getattr(c, name) for c in cuts]) for name in names))


@dataclass(frozen=True, eq=False)
class Joined:
    """The rows of a section, see `section.Section` for each."""

    chainage: Floats
    level: Floats
    place: Floats
    is_ground: Flags
    is_weak: Flags
    corner: Ints
    weight: Floats


def joined(cuts: Cuts, xy: Floats, size: Floats, weak: Flags) -> Joined:
    """Rows of a section: each cut's two ends, equal ones once, and the line's own ends.

    Two ends within LAPPED at one level are equal: the triangles that meet there share the edge, and only a rounding parts
    them.

    Args:
        cuts: in order.
        xy: (v, 2) the line, metres.
        size: (v-1,) its straights, metres.
        weak: (c,) whether a cut's triangle is.
    """
    begin = np.concatenate([[0.0], np.cumsum(size)])
    # What a bend's chainage is must not hang on which straight tells it.
    chainage = np.where(
        cuts.along == size[cuts.straight][:, None],
        begin[cuts.straight + 1][:, None],
        begin[cuts.straight][:, None] + cuts.along,
    ).reshape(-1)
    level = cuts.level.reshape(-1)
    fresh = np.ones(len(chainage), bool)
    fresh[2::2] = chainage[2::2] - chainage[1:-1:2] > LAPPED
    fresh[2::2] |= np.abs(level[2::2] - level[1:-1:2]) > SAME_LEVEL
    kept = np.flatnonzero(fresh)
    cut = kept // 2
    straight = cuts.straight[cut]
    way = (np.diff(xy, axis=0) / size[:, None])[straight]
    rows = Joined(
        chainage[kept],
        level[kept],
        xy[straight] + cuts.along.reshape(-1)[kept][:, None] * way,
        kept[1:] % 2 == 1,
        (kept[1:] % 2 == 1) & weak[cut[1:]],
        cuts.corner[cut],
        cuts.weight.reshape(-1, 3)[kept],
    )
    return _with_ends(rows, xy, float(begin[-1]))


def _with_ends(rows: Joined, xy: Floats, length: float) -> Joined:
    """Rows with the line's ends, without level where the ground does not reach them."""
    before = 1 if not len(rows.chainage) or rows.chainage[0] > 0.0 else 0
    after = 1 if not len(rows.chainage) or rows.chainage[-1] < length else 0
    if not before and not after:
        return rows
    none, gap = np.zeros((1, 3)), np.zeros(1, bool)
    gaps = before + after - (0 if len(rows.chainage) else 1)

    def padded(first: Floats, middle: Floats, last: Floats) -> Floats:
        return np.concatenate([first[:before], middle, last[:after]])

    flags = [
        np.concatenate([gap[:before], each, gap[: gaps - before]]) for each in (rows.is_ground, rows.is_weak)
    ]
    return Joined(
        padded(np.zeros(1), rows.chainage, np.array([length])),
        padded(np.array([np.nan]), rows.level, np.array([np.nan])),
        padded(xy[:1], rows.place, xy[-1:]),
        flags[0],
        flags[1],
        np.pad(rows.corner, ((before, after), (0, 0))),
        padded(none, rows.weight, none),
    )
