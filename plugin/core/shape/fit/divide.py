# SPDX-License-Identifier: GPL-2.0-or-later
"""A whole walked line into fitted chains and stretches that stay as recorded, nothing farther off than tolerance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from ...quantity import Floats
from .chains import Fitted, Flags, Walked, fit_cuts, fit_tangents
from .cuts import LEAST_ARC, Cut, Memory, Noise, PieceKind, cut_rows
from .joints import TURNED_BACK, WIDEST_ARC, Alone, Lone
from .moves import simplify

AGAIN = 5
"""Times that pieces which miss a row by more than the tolerance are divided anew; then they stay as recorded."""
AGAIN_QUICK = 1
"""The same where pieces are left as first divided."""
SUPPORT = 16
"""Rows that a piece beside a stretch as recorded must rest on: in ragged edges a few rows lie in line by chance."""
LEAST_SMOOTH = 0.5
"""Part of the rows from stand to stand: where less than this is smooth, none is; what fits there does by chance."""
BLOCK = 16
"""Pieces that are simplified at once: long chains go block by block, then all is fitted once more."""


ROUND = 2.5
"""Steps from row to row that the ends of a circle may lie apart."""


@dataclass(frozen=True, eq=False)
class Rows:
    """The rows as given: `points` (n, 2) near the origin, metres; `stands` those that are corners; whether the
    line closes, whether its ends are held, and whether pieces are left as first divided. A closed line with stands
    starts at one, and that row is repeated at its end."""

    points: Floats
    stands: tuple[int, ...]
    closed: bool
    is_held: bool
    is_quick: bool = False

    @cached_property
    def alone(self) -> Alone:
        """Its pieces, each alone."""
        return Alone(self.points)

    @cached_property
    def memory(self) -> dict[tuple[int, int, Noise], Memory]:
        """What was weighed before, by first and last row and noise."""
        return {}


@dataclass(frozen=True, eq=False)
class Stretch:
    """Consecutive cuts: either smooth pieces and the chain they make, or one stretch as recorded (no
    chain, no circle)."""

    cuts: tuple[Cut, ...]
    chain: Fitted | None
    wraps: bool = False
    circle: Lone | None = None
    """A full circle that is the whole line."""


Known = dict[tuple[tuple[Cut, ...], bool], Stretch]
"""Chains already fitted, by their cuts and whether they close."""


def divide_rows(rows: Rows, noise: Noise) -> tuple[Stretch, ...]:
    """Divide a line into chains of straights and arcs, and stretches that stay as recorded.

    Where a fitted piece misses a row by more than the tolerance, or a chain does not come to rest, its pieces are
    not claimed: the line is divided anew without them, and in the end such rows stay as recorded.
    """
    banned: list[Cut] = []
    known: Known = {}
    for _ in range(AGAIN_QUICK if rows.is_quick else AGAIN):
        cuts = cut_sections(rows, noise, banned)
        stretches = _fit_stretches(rows, noise, cuts, known)
        bad = [cut for stretch in stretches for cut in _missing(stretch, noise)]
        if not bad:
            return stretches
        banned += bad
    while bad:
        cuts = _believed(rows, _as_recorded(cuts, bad))
        stretches = _fit_stretches(rows, noise, cuts, known)
        # A chain may have handed rows on: the cuts that hold the pieces which cannot be claimed are to go.
        wrong = [cut for stretch in stretches for cut in _missing(stretch, noise)]
        bad = [cut for cut in cuts if any(cut.first <= one.last and one.first <= cut.last for one in wrong)]
        bad = [cut for cut in bad if cut.kind is not PieceKind.AS_WALKED]
    return stretches


def cut_sections(rows: Rows, noise: Noise, banned: Sequence[Cut] = ()) -> list[Cut]:
    """The cuts of each section from stand to stand, without those that fit by chance; a stand belongs to both of its
    sections."""
    n = len(rows.points)
    ends = sorted({0, *rows.stands, n - 1})
    out: list[Cut] = []
    for first, last in zip(ends[:-1], ends[1:]):
        out += _cut_within(rows, first, last, noise, list(banned))
    return _believed(rows, out)


def _cut_within(rows: Rows, first: int, last: int, noise: Noise, banned: list[Cut]) -> list[Cut]:
    for _ in range(AGAIN):
        cuts = cut_section(rows, first, last, noise, banned)
        smooth = [cut for cut in cuts if cut.kind is not PieceKind.AS_WALKED]
        bad = [cut for cut in smooth if _is_wrong(rows.alone, cut, noise)]
        if not bad:
            break
        banned += bad
    return _as_recorded(cuts, bad)


def cut_section(rows: Rows, first: int, last: int, noise: Noise, banned: Sequence[Cut] = ()) -> list[Cut]:
    """The cuts of rows `first` to `last`, as cut_rows; what was weighed before is remembered."""
    own = [Cut(cut.kind, cut.first - first, cut.last - first) for cut in banned]
    memory = rows.memory.setdefault((first, last, noise), {})
    cuts = cut_rows(rows.points[first : last + 1], noise, own, memory)
    return [Cut(cut.kind, cut.first + first, cut.last + first) for cut in cuts]


def _is_wrong(alone: Alone, cut: Cut, noise: Noise) -> bool:
    """Whether a piece alone misses a row by more than the tolerance, or is one that its rows walk back on."""
    lone = alone.fit(cut)
    return bool(np.abs(lone.residual).max() > noise.tolerance or lone.back > TURNED_BACK * noise.sigma)


def _believed(rows: Rows, cuts: list[Cut]) -> list[Cut]:
    """The cuts without those that fit by chance: in a section of which little is smooth, or beside rows that stay as
    recorded."""
    ends = sorted({0, *rows.stands, len(rows.points) - 1})
    while True:
        cuts = _supported(cuts, closed=rows.closed)
        out: list[Cut] = []
        for first, last in zip(ends[:-1], ends[1:]):
            own = [cut for cut in cuts if first <= cut.first and cut.last <= last]
            smooth = sum(cut.last - cut.first + 1 for cut in own if cut.kind is not PieceKind.AS_WALKED)
            is_ragged = smooth < LEAST_SMOOTH * (last - first + 1)
            out += [Cut(PieceKind.AS_WALKED, first, last)] if is_ragged else own
        if out == cuts:
            return out
        cuts = out


def _supported(cuts: list[Cut], *, closed: bool) -> list[Cut]:
    """The cuts without those beside a stretch as recorded that rest on too few rows to stand by themselves."""
    while True:
        k = len(cuts)
        loose = [cut.kind is PieceKind.AS_WALKED for cut in cuts]
        sides = [
            [i % k for i in (j - 1, j + 1) if closed or 0 <= i < k] if not loose[j] else [] for j in range(k)
        ]
        bad = [
            cut
            for cut, near in zip(cuts, sides)
            if cut.last - cut.first + 1 < SUPPORT and any(loose[i] for i in near)
        ]
        if not bad:
            return cuts
        cuts = _as_recorded(cuts, bad)


def _as_recorded(cuts: Sequence[Cut], bad: Sequence[Cut]) -> list[Cut]:
    """The cuts with some of them, and then neighbours of their kind, one stretch as recorded; at a stand, which
    belongs to both of its sections, they stay two."""
    out: list[Cut] = []
    for cut in cuts:
        mine = replace(cut, kind=PieceKind.AS_WALKED) if cut in bad else cut
        follows = bool(out) and out[-1].last + 1 == mine.first
        if follows and mine.kind is PieceKind.AS_WALKED is out[-1].kind:
            out[-1] = replace(out[-1], last=mine.last)
        else:
            out.append(mine)
    return out


def _halved(alone: Alone, cut: Cut) -> list[Cut]:
    """An arc that goes nearly round as two, which will be tangents: a chord of nothing holds no arc."""
    if cut.kind is not PieceKind.ARC or cut.last - cut.first + 1 < 2 * LEAST_ARC:
        return [cut]
    if abs(alone.fit(cut).sweep) <= WIDEST_ARC:
        return [cut]
    middle = (cut.first + cut.last) // 2
    return [replace(cut, last=middle), replace(cut, first=middle + 1)]


def _fit_stretches(rows: Rows, noise: Noise, cuts: Sequence[Cut], known: Known) -> tuple[Stretch, ...]:
    if rows.closed and not rows.stands and len(cuts) == 1 and cuts[0].kind is PieceKind.ARC:
        lone = rows.alone.fit(cuts[0])
        if lone.is_arc and _goes_round(rows.points, lone):
            return (Stretch(tuple(cuts), None, circle=lone),)
    groups: list[list[Cut]] = []
    for cut in (part for whole in cuts for part in _halved(rows.alone, whole)):
        is_new = not groups or PieceKind.AS_WALKED in (cut.kind, groups[-1][-1].kind)
        if is_new:
            groups.append([cut])
        else:
            groups[-1].append(cut)
    out = []
    for group in groups:
        if group[0].kind is PieceKind.AS_WALKED:
            out.append(Stretch(tuple(group), None))
            continue
        wraps = rows.closed and len(groups) == 1 and len(group) > 1
        key = (tuple(group), wraps)
        if key not in known:
            sigma = noise.sigma * float(np.sqrt(noise.together))
            walked = Walked(rows.alone, sigma, frozenset(rows.stands), rows.is_held, wraps)
            fitted = fit_cuts(walked, group) if rows.is_quick else _fit_long(walked, group)
            known[key] = Stretch(fitted.cuts, fitted, wraps)
        out.append(known[key])
    return tuple(out)


def _goes_round(points: Floats, lone: Lone) -> bool:
    """Whether the arc that all rows of a closed line lie on is the whole circle: its ends are no farther apart than
    rows are."""
    step = np.median(np.hypot(*np.diff(points, axis=0).T))
    left = (2.0 * np.pi - abs(lone.sweep)) * abs(lone.radius)
    return abs(lone.sweep) > WIDEST_ARC or bool(abs(left) < ROUND * step)


def _fit_long(walked: Walked, group: Sequence[Cut]) -> Fitted:
    """A chain fitted and simplified, block by block where it is long."""
    if len(group) <= BLOCK:
        return simplify(walked, fit_cuts(walked, group))
    cuts: list[Cut] = []
    tangent: list[Flags] = []
    for start in range(0, len(group), BLOCK):
        own = group[start : start + BLOCK]
        part = replace(walked, wraps=False)
        block = simplify(part, fit_cuts(part, own))
        cuts += block.cuts
        tangent.append(block.fit.chain.is_tangent)
    guess = fit_cuts(walked, cuts).fit.chain.is_tangent
    told = np.concatenate(tangent)
    starts = np.cumsum([0, *(len(flags) for flags in tangent[:-1])])
    told[starts] = guess[starts]
    return fit_tangents(walked, cuts, told)


def _missing(stretch: Stretch, noise: Noise) -> list[Cut]:
    """The smooth pieces that cannot be claimed."""
    if stretch.chain is None:
        return []
    if not stretch.chain.fit.settled:
        return list(stretch.cuts)
    piece, residual = stretch.chain.fit.chain.piece, stretch.chain.fit.residual
    far = np.zeros(len(stretch.cuts))
    counts = piece >= 0
    np.maximum.at(far, piece[counts], np.abs(residual[counts]))
    return [cut for cut, most in zip(stretch.cuts, far) if most > noise.tolerance]
