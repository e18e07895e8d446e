# SPDX-License-Identifier: GPL-2.0-or-later
"""Which thing of one survey is which of the other: by name and place, by place alone, and last by name alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ..quantity import Floats, Ints
from ..segments import part_of_ring
from .records import Motion, Stations, Table, Thing

FAR = 4.0
"""Radial sigmas within which two places may be one."""
LEAST_REACH = 0.15
"""Metres: nobody sets an instrument down again nearer than that on ground without a nail."""
OVERLAP = 0.5
"""Of the ground that either covers: two areas of other names that share as much are one thing."""
GRID = 24
"""Places along each side of a grid by which two areas' common ground is told: to some hundredths."""

Pairs = list[tuple["Thing | None", "Thing | None"]]


def pair_things(before: Sequence[Thing], after: Sequence[Thing]) -> Pairs:
    """Things of both surveys side by side, the later survey's in its order, then what only the earlier one has.

    Both are in one plane, the later one laid on the earlier. Things of one kind, name and part that are near each other
    are one; of the rest those that lie on each other (areas by the ground they share, lengths and spots by their distance),
    the nearest first; and of the rest those of one name, which then have moved. Spots that are
    levels of the ground are no things: they are not taken to have moved.
    """
    left, right = list(range(len(before))), list(range(len(after)))
    matched: dict[int, int] = {}
    for rule in (_named_and_near, _near, _named):
        for i, j in rule([before[k] for k in left], [after[k] for k in right]):
            matched[right[j]] = left[i]
        used = set(matched.values())
        left = [k for k in left if k not in used]
        right = [k for k in right if k not in matched]
    both: Pairs = [(before[matched[j]] if j in matched else None, thing) for j, thing in enumerate(after)]
    return both + [(before[k], None) for k in left]


def _by_key(things: Sequence[Thing]) -> dict[object, int]:
    """Things whose key no other has."""
    count = Counter(thing.key for thing in things)
    return {thing.key: k for k, thing in enumerate(things) if count[thing.key] == 1}


def _named_and_near(before: Sequence[Thing], after: Sequence[Thing]) -> list[tuple[int, int]]:
    ours, theirs = _by_key(before), _by_key(after)
    shared = [(ours[key], theirs[key]) for key in ours if key in theirs]
    return [(i, j) for i, j in shared if np.isfinite(apart(before[i], after[j]))]


def _named(before: Sequence[Thing], after: Sequence[Thing]) -> list[tuple[int, int]]:
    ours, theirs = _by_key(before), _by_key(after)
    pairs = [(ours[key], theirs[key]) for key in ours if key in theirs]
    return [(i, j) for i, j in pairs if not (before[i].is_level and after[j].is_level)]


def _near(before: Sequence[Thing], after: Sequence[Thing]) -> list[tuple[int, int]]:
    found = sorted((apart(before[i], after[j]), i, j) for i, j in _beside(before, after))
    out: list[tuple[int, int]] = []
    ours, theirs = set(), set()
    for distance, i, j in found:
        if np.isfinite(distance) and i not in ours and j not in theirs:
            out.append((i, j))
            ours.add(i)
            theirs.add(j)
    return out


def _beside(before: Sequence[Thing], after: Sequence[Thing]) -> list[tuple[int, int]]:
    """Things of one kind whose boxes come within reach of each other."""
    if not before or not after:
        return []
    low, high = (np.array([getattr(t.corners, way)(axis=0) for t in after]) for way in ("min", "max"))
    slack = np.array([_half_reach(thing) for thing in after])
    kinds = np.array([thing.table.value for thing in after])
    out = []
    for i, one in enumerate(before):
        reach = (slack + _half_reach(one))[:, None]
        meets = (one.corners.min(axis=0) <= high + reach) & (one.corners.max(axis=0) >= low - reach)
        out += [(i, j) for j in np.flatnonzero(meets.all(axis=1) & (kinds == one.table.value)).tolist()]
    return out


def _half_reach(thing: Thing) -> float:
    """Two of these together are no less than `reach_of`."""
    return max(FAR * float(np.sqrt(2.0 * np.trace(thing.spread.max(axis=0)))), LEAST_REACH)


def reach_of(one: Thing, other: Thing) -> float:
    """Metres within which places of both may be one."""
    variance = max(np.trace(s.max(axis=0)) for s in (one.spread, other.spread))
    return max(FAR * float(np.sqrt(2.0 * variance)), LEAST_REACH)


def apart(one: Thing, other: Thing) -> float:
    """How unlike the places of two things of one kind are, 0 to 1; infinite where they are not one by their place."""
    if one.table is Table.AREA:
        shared = common_ground(one.paths, other.paths)
        return 1.0 - shared if shared >= OVERLAP else np.inf
    both = (distances(one.corners, other.paths), distances(other.corners, one.paths))
    mean, reach = max(float(np.mean(d)) for d in both), reach_of(one, other)
    return mean / reach if mean <= reach else np.inf


def common_ground(one: Sequence[Floats], other: Sequence[Floats]) -> float:
    """Of the ground that either of two areas covers, the part that both do, by a grid of places."""
    xy = np.vstack([*one, *other])
    low, high = xy.min(axis=0), xy.max(axis=0)
    step = (np.arange(GRID) + 0.5) / GRID
    x, y = (low[k] + step * (high[k] - low[k]) for k in (0, 1))
    places = np.column_stack([np.repeat(x, GRID), np.tile(y, GRID)])
    ours, theirs = (np.logical_xor.reduce([part_of_ring(r, places) for r in rings]) for rings in (one, other))
    either = int((ours | theirs).sum())
    return float((ours & theirs).sum()) / either if either else 0.0


def distances(places: Floats, paths: Sequence[Floats]) -> Floats:
    """(n,) metres from places (n, 2) to the nearest point of some paths."""
    return np.asarray(np.hypot(*offsets(places, paths).T))


def offsets(places: Floats, paths: Sequence[Floats]) -> Floats:
    """(n, 2) from the nearest point of some paths to each place, metres."""
    best, out = np.full(len(places), np.inf), np.zeros((len(places), 2))
    for path in paths:
        start = path[:-1] if len(path) > 1 else path
        along = np.diff(path, axis=0) if len(path) > 1 else np.zeros((1, 2))
        square = np.maximum((along**2).sum(axis=1), 1e-300)
        away = places[:, None] - start[None]
        part = np.clip((away * along[None]).sum(axis=2) / square, 0.0, 1.0)
        gap = away - part[:, :, None] * along[None]
        size = (gap**2).sum(axis=2)
        k = np.argmin(size, axis=1)
        row = np.arange(len(places))
        nearer = size[row, k] < best
        best[nearer], out[nearer] = size[row, k][nearer], gap[row, k][nearer]
    return out


def pair_stations(before: Stations, after: Stations, motion: Motion | None) -> tuple[Ints, Ints]:
    """(k,), (k,) rows of stations that stand on the same place in both.

    Those of one feature and part, or of one mark, in their order where both surveys have as many; else those that are
    each other's nearest. With a motion, only such as lie on each other then.
    """
    ours, theirs = _rows_by_key(before), _rows_by_key(after)
    moved = after if motion is None else replace(after, xy=motion.undone(after.xy))
    left, right = [np.zeros(0, np.int64)], [np.zeros(0, np.int64)]
    for key, i in ours.items():
        if key in theirs:
            a, b = _paired(before, moved, i, theirs[key], only_in_order=motion is None)
            left.append(a)
            right.append(b)
    return np.concatenate(left), np.concatenate(right)


def _rows_by_key(stations: Stations) -> dict[tuple[str, ...], Ints]:
    rows: dict[tuple[str, ...], list[int]] = {}
    for k, key in enumerate(stations.key):
        if key and not stations.is_dense[k]:
            rows.setdefault(key, []).append(k)
    return {key: np.array(its) for key, its in rows.items()}


def _paired(before: Stations, after: Stations, i: Ints, j: Ints, *, only_in_order: bool) -> tuple[Ints, Ints]:
    if len(i) == len(j):
        near = _are_near(before, after, i, j)
        if only_in_order or near.all():
            return i, j
    elif only_in_order:
        return i[:0], j[:0]
    away = np.hypot(*(before.xy[i][:, None] - after.xy[j][None]).transpose(2, 0, 1))
    to, back = away.argmin(axis=1), away.argmin(axis=0)
    mutual = np.flatnonzero(back[to] == np.arange(len(i)))
    # Where two stations of one survey stand nearly on each other (a riser), nobody can say which is which.
    lone = _are_alone(before.xy[i])[mutual] & _are_alone(after.xy[j])[to[mutual]]
    a, b = i[mutual[lone]], j[to[mutual[lone]]]
    near = _are_near(before, after, a, b)
    return a[near], b[near]


def _are_near(before: Stations, after: Stations, i: Ints, j: Ints) -> Floats:
    variance = np.trace(before.spread[i] + after.spread[j], axis1=1, axis2=2)
    away = np.hypot(*(before.xy[i] - after.xy[j]).T)
    return np.asarray(away <= np.maximum(FAR * np.sqrt(variance), LEAST_REACH))


def _are_alone(xy: Floats) -> Floats:
    away = np.hypot(*(xy[:, None] - xy[None]).transpose(2, 0, 1)) + np.diag(np.full(len(xy), np.inf))
    return np.asarray(away.min(axis=1) > LEAST_REACH)
