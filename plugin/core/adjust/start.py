# SPDX-License-Identifier: GPL-2.0-or-later
"""Where to begin: walks placed one after another at the marks they share, each rigidly and in closed form, so
that any turn between them is safe for the linearised network."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from ..quantity import Floats
from .network import Occupation

LEAST_BASE = 0.05
"""Metres: marks no farther apart than this (an outline is closed over as much) tell nothing of a walk's turn."""


@dataclass(frozen=True, eq=False)
class Pose:
    """Where a walk lies: its start at `origin` (2,), turned by `turn` radians anticlockwise."""

    origin: Floats
    turn: float


@dataclass(frozen=True, eq=False)
class Start:
    """First places of walks and marks; walks that share fewer than two marks (in two places) with the rest have no pose."""

    poses: dict[int, Pose]
    marks: dict[int, Floats]


def place_one_after_another(
    local: Sequence[Floats],
    occupations: Sequence[Occupation],
    rows: Sequence[int],
    mapped: Collection[int] = (),
    held: Mapping[int, Pose] = MappingProxyType({}),
) -> Start:
    """Place walk after walk, the one with most marks already placed first (longest base on a draw).

    Args:
        local: for each walk its (n, 2) places, metres, first one at (0, 0).
        occupations: all stands on marks.
        rows: first row of each walk in the common count.
        mapped: marks that have a map point: of groups that do not hang together, the one that can be placed
            on the map is kept.
        held: poses of walks whose place is known beforehand; the others are placed at them.
    """
    stands: dict[int, dict[int, list[Floats]]] = {k: {} for k in range(len(local))}
    for o in occupations:
        stands[o.walk].setdefault(o.mark, []).append(local[o.walk][o.row - rows[o.walk]])
    seen = {k: {mark: np.mean(places, axis=0) for mark, places in at.items()} for k, at in stands.items()}
    poses = dict(held)
    if not poses:
        first = max(seen, key=lambda k: (min(len(set(mapped) & set(seen[k])), 2), _shared(seen, k), -k))
        poses = {first: Pose(np.zeros(2), 0.0)}
    marks: dict[int, Floats] = {}
    for k, pose in poses.items():
        for mark, place in seen[k].items():
            marks.setdefault(mark, _apply(pose, place))
    waiting = [k for k in seen if k not in poses]
    while waiting:
        best = max(waiting, key=lambda k: _rank(seen[k], marks))
        common = [mark for mark in seen[best] if mark in marks]
        if _rank(seen[best], marks)[1] < LEAST_BASE:
            break
        pose = fit_rigid(
            np.array([seen[best][mark] for mark in common]), np.array([marks[mark] for mark in common])
        )
        poses[best] = pose
        for mark, place in seen[best].items():
            marks.setdefault(mark, _apply(pose, place))
        waiting.remove(best)
    return Start(poses, marks)


def fit_rigid(local: Floats, target: Floats, weights: Floats | None = None) -> Pose:
    """The rigid motion that brings (n, 2) points nearest to their targets by weighted squares, closed form."""
    w = np.ones(len(local)) if weights is None else weights
    a, b = local[:, 0] + 1j * local[:, 1], target[:, 0] + 1j * target[:, 1]
    mean_a, mean_b = np.average(a, weights=w), np.average(b, weights=w)
    turn = float(np.angle(np.sum(w * np.conj(a - mean_a) * (b - mean_b))))
    origin = mean_b - np.exp(1j * turn) * mean_a
    return Pose(np.array([origin.real, origin.imag]), turn)


def _apply(pose: Pose, xy: Floats) -> Floats:
    c, s = np.cos(pose.turn), np.sin(pose.turn)
    return np.asarray(pose.origin + np.array([c * xy[0] - s * xy[1], s * xy[0] + c * xy[1]]))


def _shared(seen: dict[int, dict[int, Floats]], k: int) -> int:
    others = {mark for j, at in seen.items() if j != k for mark in at}
    return len(others & set(seen[k]))


def _rank(at: dict[int, Floats], marks: dict[int, Floats]) -> tuple[int, float]:
    common = [mark for mark in at if mark in marks]
    if len(common) < 2:
        return len(common), 0.0
    places = np.array([at[mark] for mark in common])
    spread = places[:, None] - places[None]
    return min(len(common), 2), float(np.hypot(spread[..., 0], spread[..., 1]).max())
