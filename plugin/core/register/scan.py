# SPDX-License-Identifier: GPL-2.0-or-later
"""Ground that went up or down: patches of neighbouring height differences, each held against the ground around it.

Each place and its 0, 1, 2, 3, 5, 8, 12 ... nearest neighbours are one candidate. A candidate's change b is the generalised
least squares estimate in d = Z c + x b + e, where d are the differences, x is 1 in the patch, the columns of Z are what
whole walks or surveys share, and e has the covariance that the surveys say. The most significant candidate is judged by its
chance among all. Then places beside it are taken in, and places of it left out, while that makes the patch clearer: its
chance stays that of the candidate, for the search behind it is not counted. The patch becomes a further column of Z, and all
are looked at again, until none is left: a second hollow is judged with the first one taken out.

Source: generalised least squares, Aitken, Proceedings of the Royal Society of Edinburgh 55 (1935) 42-48; the chance of
any of m candidates by Bonferroni's inequality, whatever their dependence.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ..quantity import Floats, Ints, Quantity
from .chance import chance_beyond
from .records import Patch

MOST_PLACES = 800
"""Places held against each other at once: their candidates' matrix has some 80 MB then."""
MOST_PATCHES = 30
"""Patches told of one part of a site: where more changed, the survey is of another ground."""
TO_SIGMA = 1.482602218505602
"""One-sigma of a normal by the median of its sizes."""
INDEPENDENT = 15
"""Patches side by side from which the scatter of their changes is told: of so few it is known to a quarter."""
FEWEST = 3
"""Places without which there are no surroundings."""
BESIDE = 6
"""Nearest places that count as beside one."""
CLEARER = 0.5
"""Sigmas by which a place more or less must make a patch clearer."""
UNSEEN = 1e-6
"""Of a candidate's weight: with less left nothing outside the patch says how high it was."""


@dataclass(frozen=True, eq=False)
class Differences:
    """Heights after less before.

    Attributes:
        xy: (n, 2) metres. off: (n,) metres, up positive.
        covariance: (n, n) m2, but for what `shared` holds. shared: (n, w) what has one unknown shift each.
    """

    xy: Floats
    off: Floats
    covariance: Floats
    shared: Floats


@dataclass(frozen=True, eq=False)
class Scanned:
    """What a scan has come to: patches, how many candidates there were, and (n,) the one-sigma of a single place's change
    against the ground around (NaN where nothing tells it)."""

    patches: tuple[Patch, ...]
    candidates: int
    single: Floats


def scan_heights(
    given: Differences, level: float, share: float, tick: Callable[[], None] | None = None
) -> Scanned:
    """The patches in which heights changed.

    Args:
        given: the differences.
        level: chance of any false one in the whole comparison.
        share: part of that chance which the patches have: a patch's p is by this larger.
        tick: called now and then; what it raises ends the work.
    """
    if len(given.off) < FEWEST:
        return Scanned((), 0, np.full(len(given.off), np.nan))
    scan = _Scan(given)
    found: list[tuple[Ints, float, float]] = []
    while len(found) < MOST_PATCHES:
        if tick is not None:
            tick()
        best, p = scan.best()
        if best < 0 or p / share >= level:
            break
        rows, sign = scan.grown(best)
        found.append((rows, sign, p / share))
        scan.settle(rows)
    groups = _joined(found, scan.near)
    changes = scan.changes([rows for rows, _ in groups])
    patches = (
        Patch(rows, given.xy[rows], change, p, patch_hull(given.xy, rows))
        for (rows, p), change in zip(groups, changes)
    )
    return Scanned(tuple(patches), len(scan.rows), scan.single)


def _joined(found: list[tuple[Ints, float, float]], near: Ints) -> list[tuple[Ints, float]]:
    """Patches that went the same way and touch as one, each with the least chance of its parts."""
    groups: list[tuple[set[int], float, float]] = []
    for rows, sign, p in found:
        its, least = set(rows.tolist()), p
        beside = its | set(near[rows].reshape(-1).tolist())
        apart = []
        for group in groups:
            if group[1] == sign and beside & group[0]:
                its, least = its | group[0], min(least, group[2])
            else:
                apart.append(group)
        groups = [*apart, (its, sign, least)]
    return [(np.array(sorted(its)), least) for its, _, least in sorted(groups, key=lambda group: group[2])]


def candidate_patches(xy: Floats) -> tuple[Floats, list[Ints]]:
    """Each place with some of its nearest, up to half of all, each set once: (n, m) which places are in which, and the rows
    of each."""
    away = ((xy[:, None] - xy[None]) ** 2).sum(axis=2)
    order = np.argsort(away, axis=1, kind="stable")
    seen: dict[bytes, Ints] = {}
    size = 1
    while size <= max(len(xy) // 2, 1):
        for row in np.sort(order[:, :size], axis=1):
            seen.setdefault(row.tobytes(), row)
        size += max(1, size // 2)
    rows = list(seen.values())
    which = np.zeros((len(xy), len(rows)))
    for k, row in enumerate(rows):
        which[row, k] = 1.0
    return which, rows


class _Scan:
    """Candidates in the space in which all differences have unit covariance, with what is known taken off.

    Attributes:
        rows: of each candidate. near: (n, k) the places beside each. single: (n,) one-sigma of a single place's change, NaN
            where nothing tells it.
    """

    def __init__(self, given: Differences) -> None:
        which, self.rows = candidate_patches(given.xy)
        self.near = _neighbours(given.xy)
        size = len(given.off)
        jitter = 1e-12 * float(np.trace(given.covariance)) / size + 1e-18
        root = np.linalg.cholesky(given.covariance + jitter * np.eye(size))
        self._lone = np.linalg.inv(root)
        off, shared = self._lone @ given.off, _basis(self._lone @ given.shared)
        columns = self._lone @ which
        self._whole = np.einsum("nm,nm->m", columns, columns)
        self._whole_lone = (self._lone**2).sum(axis=0)
        columns -= shared @ (shared.T @ columns)
        self._columns = columns
        self._lone = self._lone - shared @ (shared.T @ self._lone)
        self._off = off - shared @ (shared.T @ off)
        self._first = self._lone, self._off
        self._size = np.array([len(row) for row in self.rows])
        self._scatter = self._scatters()
        weight = (self._lone**2).sum(axis=0)
        with np.errstate(divide="ignore", invalid="ignore"):
            self.single = np.where(weight > UNSEEN * self._whole_lone, 1.0 / np.sqrt(weight), np.nan)

    def _told(self) -> Floats:
        """(m,) changes of the candidates in their sigmas; 0 where nothing tells them."""
        weight = np.einsum("nm,nm->m", self._columns, self._columns)
        with np.errstate(divide="ignore", invalid="ignore"):
            told = (self._columns.T @ self._off) / np.sqrt(weight)
        return np.asarray(np.where(weight > UNSEEN * self._whole, told, 0.0))

    def _scatters(self) -> Floats:
        """(m,) what the sigmas are multiplied by: where the changes of all candidates of one size scatter about their middle
        by more than the surveys say, the surveys say too little, and that scatter counts, for larger ones too."""
        told, out, least = self._told(), np.ones(len(self.rows)), 1.0
        for size in np.unique(self._size):
            its = self._size == size
            known = told[its & (told != 0.0)]
            if len(known) >= INDEPENDENT * size:
                least = max(least, TO_SIGMA * float(np.median(np.abs(known - np.median(known)))))
            out[its] = least
        return out

    def best(self) -> tuple[int, float]:
        """The most significant candidate, and the chance that any goes so far; -1 where none is left."""
        told = np.abs(self._told()) / self._scatter
        best = int(np.argmax(told))
        if told[best] == 0.0:
            return -1, 1.0
        return best, len(self.rows) * chance_beyond(float(told[best]))

    def grown(self, k: int) -> tuple[Ints, float]:
        """A candidate with the places beside it that belong to it and without those that do not, and which way it went."""
        inside = np.zeros(len(self._off), bool)
        inside[self.rows[k]] = True
        column = self._lone @ inside
        best = self._clear(column)
        for _ in range(len(self._off)):
            tries = np.unique(np.append(self.near[inside], np.flatnonzero(inside)))
            signs = np.where(inside[tries], -1.0, 1.0)
            told = self._clear(column[:, None] + signs * self._lone[:, tries])
            at = int(np.argmax(told))
            if told[at] <= best + CLEARER:
                break
            best, inside[tries[at]] = told[at], signs[at] > 0.0
            column = self._lone @ inside
        return np.flatnonzero(inside), float(np.sign(column @ self._off))

    def changes(self, patches: list[Ints]) -> list[Quantity]:
        """Of patches, all of them estimated together, metres."""
        if not patches:
            return []
        lone, off = self._first
        columns = np.column_stack([lone[:, rows].sum(axis=1) for rows in patches])
        spread = np.linalg.pinv(columns.T @ columns)
        found = spread @ (columns.T @ off)
        scatter = [float(self._scatter[self._size <= max(len(rows), 1)].max()) for rows in patches]
        sigma = np.sqrt(np.maximum(np.diag(spread), 0.0)) * scatter
        return [Quantity(float(value), float(one), "m") for value, one in zip(found, sigma)]

    def _clear(self, columns: Floats) -> Floats:
        """Sizes of changes in their sigmas; those that hardly anything tells are none."""
        weight = (columns**2).sum(axis=0)
        with np.errstate(divide="ignore", invalid="ignore"):
            told = np.abs(columns.T @ self._off) / np.sqrt(weight)
        return np.asarray(np.where(weight > UNSEEN * self._whole_lone.min(), told, 0.0))

    def settle(self, rows: Ints) -> None:
        """Take a patch's change as known to be one."""
        column = self._lone[:, rows].sum(axis=1)
        unit = column / np.linalg.norm(column)
        self._off = self._off - unit * (unit @ self._off)
        self._columns -= np.outer(unit, unit @ self._columns)
        self._lone = self._lone - np.outer(unit, unit @ self._lone)
        self._scatter = self._scatters()  # what changed is no scatter


def _basis(columns: Floats) -> Floats:
    """Orthonormal columns that span the same."""
    u, s, _ = np.linalg.svd(columns, full_matrices=False)
    return np.asarray(u[:, s > 1e-9 * s.max()]) if len(s) else columns[:, :0]


def _neighbours(xy: Floats) -> Ints:
    """(n, k) the nearest of each place."""
    away = ((xy[:, None] - xy[None]) ** 2).sum(axis=2)
    return np.asarray(np.argsort(away, axis=1, kind="stable")[:, 1 : BESIDE + 1])


def patch_hull(xy: Floats, rows: Ints) -> Floats:
    """(h, 2) a closed convex outline round some of many places, half the way to the next place outside it, metres."""
    chosen = xy[rows]
    away = np.hypot(*(chosen[:, None] - xy[None]).transpose(2, 0, 1))
    away[away == 0.0] = np.inf
    near = np.sort(away, axis=1)[:, : min(4, away.shape[1])]
    near = near[np.isfinite(near)]
    reach = 0.5 * float(np.median(near)) if len(near) else 0.5
    angle = np.arange(CORNERS) * (2.0 * np.pi / CORNERS)
    ring = reach * np.column_stack([np.cos(angle), np.sin(angle)])
    return _convex((chosen[:, None] + ring[None]).reshape(-1, 2))


CORNERS = 16
"""Of the circle round a place."""


def _convex(xy: Floats) -> Floats:
    """Anticlockwise hull, closed: the monotone chain (Andrew, Information Processing Letters 9 (1979) 216-219)."""
    origin = xy[0].copy()
    places = np.unique(xy - origin, axis=0)
    halves = [_chain(places), _chain(places[::-1])]
    hull = np.array(halves[0][:-1] + halves[1][:-1])
    return np.asarray(np.vstack([hull, hull[:1]]) + origin)


def _chain(places: Floats) -> list[list[float]]:
    out: list[list[float]] = []
    for x, y in places.tolist():
        while len(out) > 1 and (out[-1][0] - out[-2][0]) * (y - out[-2][1]) <= (out[-1][1] - out[-2][1]) * (
            x - out[-2][0]
        ):
            out.pop()
        out.append([x, y])
    return out
