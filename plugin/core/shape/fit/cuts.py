# SPDX-License-Identifier: GPL-2.0-or-later
"""Where a walked line divides into straights and arcs: the cheapest division, by dynamic programming."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

import numpy as np
import numpy.typing as npt

from ...quantity import Floats, Ints
from .roughness import measure_roughness_along

LEAST_STRAIGHT = 4
"""Rows that a straight rests on at least: two define it, two confirm."""
LEAST_ARC = 6
"""Rows that an arc rests on at least: three define it, three confirm."""
COST_STRAIGHT = 24.0
"""What one more straight must take off chi-square (two parameters and a break, searched for along the line)."""
COST_ARC = 36.0
"""The same of an arc: its curvature alone must be worth 12, a chance of 1 in 2,000 (chi-square, one degree)."""
COST_ROW = 18.0
"""What a row left as recorded costs: more than any row a piece may miss by chance."""
MISFIT_QUANTILE = 4.75
"""Normal quantile of 1 - 1e-6: a piece that misses its rows by more than that chance is none."""
ROUGHEST = 0.5
"""Part of the tolerance: where rows err by more, one in twenty would lie outside it, and nothing is smooth."""
BACK = 5.0
"""Sigma that a row may lie beyond the ends of its straight."""
LEAST_LENGTH = 12.0
"""Sigma that a piece is long at least: rows recorded in one place lie within less."""
LONGEST_WINDOW = 360
"""Nodes that are divided at once."""
REMEMBERED = 20_000
"""Rows up to which windows are remembered: each takes 1.2 MB."""
NODES_LEFT = 40
"""Nodes at the end of a window whose division waits for what comes after."""


class PieceKind(Enum):
    """What a fitted piece is."""

    STRAIGHT = "straight"
    ARC = "arc"
    AS_WALKED = "as walked"
    """Rows that nothing smooth fits; they stay as recorded."""


@dataclass(frozen=True)
class Cut:
    """Rows `first` to `last` (both included) as one piece."""

    kind: PieceKind
    first: int
    last: int


@dataclass(frozen=True)
class Noise:
    """What rows may err by: `sigma` and `tolerance` in metres; `together` is by how much less the rows tell
    than independent ones would ((1 + r)/(1 - r) of a correlation r from row to row, 1 if none)."""

    sigma: float
    tolerance: float
    together: float = 1.0


@dataclass(frozen=True, eq=False)
class Window:
    """The costs of all runs of nodes from i to j: infinite where no piece fits."""

    cost: Floats
    is_arc: npt.NDArray[np.bool_]
    starts: Ints


Memory = dict[tuple[int, int], Window]
"""Windows already weighed, by first row and the row after the last."""


def cut_rows(
    points: Floats, noise: Noise, banned: Iterable[Cut] = (), memory: Memory | None = None
) -> list[Cut]:
    """Divide rows into the cheapest run of straights, arcs and rows left as recorded.

    Cost is the sum of squared distances by sigma squared, and a price for each piece (a Bayesian information
    criterion with the search for the break in its price). Long lines are divided window by window, in time
    proportional to n.

    Args:
        points: (n, 2) metres, in the order walked.
        noise: what the rows may err by.
        banned: pieces that must not come again, nor any that contains one of them.
        memory: kept by the caller between calls with the same points and noise, so that nothing is weighed twice.
    Source:
        Bellman, Communications of the ACM 4 (1961) 284, for straights (from memory); distances to a circle by
        Taubin, IEEE PAMI 13 (1991) 1115-1138 (from memory).
    """
    rough = measure_roughness_along(points) > ROUGHEST * noise.tolerance
    out: list[Cut] = []
    start, step = 0, 1
    while start < len(points):
        stop = min(start + LONGEST_WINDOW * step, len(points))
        own = [Cut(cut.kind, cut.first - start, cut.last - start) for cut in banned]
        window = memory.get((start, stop)) if memory is not None else None
        if window is None:
            window = _weigh(points[start:stop], rough[start:stop], noise, step)
        if memory is not None and len(points) <= REMEMBERED:
            memory[start, stop] = window
        found = _cut_window(window, stop - start, own)
        kept = found if stop == len(points) else _settled(found, stop - start - NODES_LEFT * step)
        if not kept:
            step *= 2
            continue
        out += [Cut(cut.kind, cut.first + start, cut.last + start) for cut in kept]
        start, step = out[-1].last + 1, 1
    return _joined(out)


def _settled(cuts: list[Cut], limit: int) -> list[Cut]:
    """The cuts that what follows the window cannot change: all but the last two, and what ends near its end."""
    kept = [cut for cut in cuts[:-2] if cut.last < limit]
    tail = cuts[-1]
    if tail.kind is PieceKind.AS_WALKED and tail.first < limit:
        return [*cuts[:-1], Cut(tail.kind, tail.first, limit)]
    return kept


def _joined(cuts: list[Cut]) -> list[Cut]:
    """Stretches left as recorded that follow one another are one."""
    out: list[Cut] = []
    for cut in cuts:
        if out and cut.kind is PieceKind.AS_WALKED is out[-1].kind:
            out[-1] = Cut(cut.kind, out[-1].first, cut.last)
        else:
            out.append(cut)
    return out


def _cut_window(window: Window, rows: int, banned: list[Cut]) -> list[Cut]:
    starts = np.append(window.starts, rows)
    cost = window.cost.copy() if banned else window.cost
    for cut in banned:
        kind = window.is_arc == (cut.kind is PieceKind.ARC)
        inside = (starts[:-1, None] <= cut.first) & (starts[None, 1:] > cut.last) & kind
        cost[inside] = np.inf
    w = len(window.starts)
    best, back = np.zeros(w + 1), np.full(w, -1)
    count = np.diff(starts)
    for j in range(w):
        way = best[: j + 1] + cost[: j + 1, j]
        i = int(np.argmin(way))
        alone = best[j] + COST_ROW * count[j]
        best[j + 1] = min(alone, way[i])
        back[j] = i if way[i] < alone else -1
    cuts, j = [], w - 1
    while j >= 0:
        i = int(back[j])
        kind = PieceKind.AS_WALKED if i < 0 else PieceKind.ARC if window.is_arc[i, j] else PieceKind.STRAIGHT
        cuts.append(Cut(kind, int(starts[max(i, 0) if i >= 0 else j]), int(starts[j + 1]) - 1))
        j = (i if i >= 0 else j) - 1
    return _joined(cuts[::-1])


def _weigh(points: Floats, rough: npt.NDArray[np.bool_], noise: Noise, step: int) -> Window:
    starts = np.arange(0, len(points), step)
    w = len(starts)
    q = points - points[len(points) // 2]
    is_rough = np.logical_or.reduceat(rough, starts)
    i, j = np.triu_indices(w)
    sums = _sums(q, starts)
    count, centred = _centred(sums, i, j)
    straight = _straight_squares(count, centred)
    arc = np.full(len(i), np.inf)
    whole = _stretch_is_clean(is_rough, i, j) & (count >= LEAST_STRAIGHT)
    long = whole & (count >= LEAST_ARC)
    arc[long] = _arc_squares(count[long], centred[:, long])
    goes_on, is_long = _reaches(q, starts, i, j, noise)
    price_s = np.where(
        whole & is_long & goes_on & _fits(straight, count - 2, count, noise), COST_STRAIGHT, np.inf
    )
    price_a = np.where(is_long & _fits(arc, count - 3, count, noise), COST_ARC, np.inf)
    scale = noise.sigma**2 * noise.together
    cost_s, cost_a = straight / scale + price_s, np.where(np.isfinite(arc), arc, 0.0) / scale + price_a
    cost, is_arc = np.full((w, w), np.inf), np.zeros((w, w), bool)
    cost[i, j], is_arc[i, j] = np.minimum(cost_s, cost_a), cost_a < cost_s
    return Window(cost, is_arc, starts)


def _sums(q: Floats, starts: Ints) -> Floats:
    """(10, w+1) sums from the first node on of 1, x, y, xx, xy, yy, zx, zy, zz and z = xx + yy."""
    x, y = q.T
    z = x * x + y * y
    terms = np.stack([np.ones(len(q)), x, y, x * x, x * y, y * y, z * x, z * y, z * z, z])
    nodes = np.add.reduceat(terms, starts, axis=1)
    return np.concatenate([np.zeros((10, 1)), np.cumsum(nodes, axis=1)], axis=1)


def _centred(sums: Floats, i: Ints, j: Ints) -> tuple[Ints, Floats]:
    """Rows of each run of nodes, and its mean products about its own mean: xx, xy, yy, zx, zy, zz, where z is
    the squared distance from that mean."""
    total = sums[:, j + 1] - sums[:, i]
    n = total[0]
    _, mx, my, xx, xy, yy, zx, zy, zz, z = total / n
    xx, xy, yy = xx - mx * mx, xy - mx * my, yy - my * my
    zx, zy, zz = zx - z * mx, zy - z * my, zz - z * z
    away_x, away_y = zx - 2.0 * (mx * xx + my * xy), zy - 2.0 * (mx * xy + my * yy)
    spread = zz - 4.0 * (mx * zx + my * zy) + 4.0 * (mx * mx * xx + 2.0 * mx * my * xy + my * my * yy)
    return np.rint(n).astype(np.int64), np.stack([xx, xy, yy, away_x, away_y, spread])


def _straight_squares(count: Ints, c: Floats) -> Floats:
    """Sum of squared distances to the nearest straight: the smaller eigenvalue of the products."""
    half = 0.5 * (c[0] - c[2])
    return np.asarray(count * np.maximum(0.5 * (c[0] + c[2]) - np.hypot(half, c[1]), 0.0))


def _arc_squares(count: Ints, c: Floats) -> Floats:
    """Sum of squared distances to the nearest circle, to first order of the noise by the radius: the smallest
    eigenvalue of the products of x, y and z, z scaled so that all three have a gradient of 1."""
    mean = np.maximum(c[0] + c[2], 1e-300)
    root = 2.0 * np.sqrt(mean)
    rows = np.array(
        [[c[0], c[1], c[3] / root], [c[1], c[2], c[4] / root], [c[3] / root, c[4] / root, c[5] / root**2]]
    )
    return np.asarray(count * np.maximum(np.linalg.eigvalsh(np.moveaxis(rows, -1, 0))[:, 0], 0.0))


def _fits(squares: Floats, free: Ints, count: Ints, noise: Noise) -> npt.NDArray[np.bool_]:
    """Whether rows that miss a piece by this much may be its own: within tolerance by root mean square, and by
    chi-square (Wilson and Hilferty's approximation of its quantile)."""
    free = np.maximum(free / noise.together, 1.0)
    t = 2.0 / (9.0 * free)
    most = free * (1.0 - t + MISFIT_QUANTILE * np.sqrt(t)) ** 3
    near, likely = squares <= count * noise.tolerance**2, squares <= noise.sigma**2 * noise.together * most
    return np.asarray(near & likely, dtype=np.bool_)


def _stretch_is_clean(is_rough: npt.NDArray[np.bool_], i: Ints, j: Ints) -> npt.NDArray[np.bool_]:
    before = np.concatenate([[0], np.cumsum(is_rough)])
    return np.asarray(before[j + 1] == before[i], dtype=np.bool_)


def _reaches(
    q: Floats, starts: Ints, i: Ints, j: Ints, noise: Noise
) -> tuple[npt.NDArray[np.bool_], npt.NDArray[np.bool_]]:
    """Whether the rows of a run go from its one end to its other without turning back, and whether they go far
    enough to be more than the noise of one place."""
    at = q[starts]
    upper = np.triu(np.hypot(at[:, None, 0] - at[None, :, 0], at[:, None, 1] - at[None, :, 1]))
    from_start = np.maximum.accumulate(upper, axis=1)[i, j]
    from_end = np.maximum.accumulate(upper[::-1], axis=0)[::-1][i, j]
    reach = upper[i, j] + BACK * noise.sigma
    return np.maximum(from_start, from_end) <= reach, from_start >= LEAST_LENGTH * noise.sigma
