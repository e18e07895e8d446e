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
"""Rows that are divided at once, if no piece is longer."""
MOST_NODES = 1440
"""Nodes of a window: where a piece is longer than that many rows, a node is several."""
BAND = 64
"""Nodes whose runs are weighed at once."""
HOPELESS = 4.0
"""Times the squares that noise alone gives (of FEW_ROWS more rows) at which no longer run is tried."""
FEW_ROWS = 30
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
    start, size = 0, LONGEST_WINDOW
    while start < len(points):
        stop, step = min(start + size, len(points)), -(-size // MOST_NODES)
        own = [Cut(cut.kind, cut.first - start, cut.last - start) for cut in banned if cut.last >= start]
        window = memory.get((start, stop)) if memory is not None else None
        if window is None:
            window = _weigh(points[start:stop], rough[start:stop], noise, step)
        if memory is not None and len(points) <= REMEMBERED:
            memory[start, stop] = window
        found = _cut_window(window, stop - start, own)
        kept = found if stop == len(points) else _settled(found, stop - start - NODES_LEFT * step)
        if not kept:
            size *= 2
            continue
        out += [Cut(cut.kind, cut.first + start, cut.last + start) for cut in kept]
        start, size = out[-1].last + 1, LONGEST_WINDOW
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
    """All runs of nodes, a band of ends at a time: a start from which nothing fits any more is not looked at again,
    for the squares of a longer run are never fewer."""
    starts = np.arange(0, len(points), step)
    w = len(starts)
    q = points - points[len(points) // 2]
    is_rough = np.logical_or.reduceat(rough, starts)
    sums = _sums(q, starts)
    from_start, back = _reaches(q[starts])
    alive = np.ones(w, bool)
    window = Window(np.full((w, w), np.inf), np.zeros((w, w), bool), starts)
    for low in range(0, w, BAND):
        high = min(low + BAND, w)
        begin = np.flatnonzero(alive[:high])
        i, j = np.repeat(begin, high - low), np.tile(np.arange(low, high), len(begin))
        i, j = i[i <= j], j[i <= j]
        count, centred = _centred(sums, i, j)
        straight, arc = _squares(count, centred)
        whole = _stretch_is_clean(is_rough, i, j) & (from_start[i, j] >= LEAST_LENGTH * noise.sigma)
        goes_on = back[i, j] <= BACK * noise.sigma
        may_s = whole & goes_on & (count >= LEAST_STRAIGHT) & _fits(straight, count - 2, count, noise)
        may_a = whole & (count >= LEAST_ARC) & _fits(arc, count - 3, count, noise)
        scale = noise.sigma**2 * noise.together
        cost_s = np.where(may_s, straight / scale + COST_STRAIGHT, np.inf)
        cost_a = np.where(may_a, arc / scale + COST_ARC, np.inf)
        window.cost[i, j], window.is_arc[i, j] = np.minimum(cost_s, cost_a), cost_a < cost_s
        ends = j == high - 1
        alive[i[ends]] = arc[ends] <= HOPELESS * scale * (count[ends] + FEW_ROWS)
    return window


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


def _squares(count: Ints, c: Floats) -> tuple[Floats, Floats]:
    """Sums of squared distances to the nearest straight, and to the nearest circle to first order of the noise by the
    radius.

    For the straight that is the smaller eigenvalue of the products of x and y; for the circle the smallest of those
    of x, y and z, z scaled so that all three have a gradient of 1. Along the straight the spread is so much larger
    than any distance that it can be eliminated first, which leaves a quadratic equation (one round more settles it).
    """
    half, mean = 0.5 * (c[0] - c[2]), np.maximum(0.5 * (c[0] + c[2]), 0.0)
    spread = np.hypot(half, c[1])
    across, along = np.maximum(mean - spread, 0.0), np.maximum(mean + spread, 1e-40)
    turn = 0.5 * np.arctan2(c[1], half)
    cos, sin = np.cos(turn), np.sin(turn)
    root = np.maximum(2.0 * np.sqrt(2.0 * mean), 1e-20)
    z_along, z_across = (cos * c[3] + sin * c[4]) / root, (cos * c[4] - sin * c[3]) / root
    least = np.zeros_like(across)
    for _ in range(2):
        rest = c[5] / root**2 - z_along**2 / np.maximum(along - least, 0.5 * along)
        larger = 0.5 * (across + rest) + np.hypot(0.5 * (across - rest), z_across)
        least = np.maximum((across * rest - z_across**2) / np.maximum(larger, 1e-100), 0.0)
    return count * across, count * least


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


def _reaches(at: Floats) -> tuple[Floats, Floats]:
    """(w, w) for each run of nodes how far it goes from its start at most, and by how much its ends lie nearer to each
    other than they lie from any row between (it turned back), metres."""
    upper = np.triu(np.hypot(at[:, None, 0] - at[None, :, 0], at[:, None, 1] - at[None, :, 1]))
    from_start = np.maximum.accumulate(upper, axis=1)
    from_end = np.maximum.accumulate(upper[::-1], axis=0)[::-1]
    return from_start, np.maximum(from_start, from_end) - upper
