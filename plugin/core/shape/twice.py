# SPDX-License-Identifier: GPL-2.0-or-later
"""WK-04: a feature that was walked again over the same ground and comes out elsewhere."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from ..adjust.tests import tail
from ..findings import Decisions, Finding, Severity
from ..positions import Positions, station_of
from ..quantity import COVER_95, Floats, Ints
from ..segments import path_length, ring_area
from ..walk import Kind
from .crossing import chords_of
from .records import Shape

ALIKE = 1.5
"""Two goes over the same ground have sizes within this factor of each other."""
NEAR = 0.1
"""And half of the stations of the one lie within this part of the size of the other (root of an area, or length)."""
THREE_SIGMA = 0.0027
"""Probability beyond three sigma: the worst of k stations is told where k times its own is less."""
TOGETHER = 60
"""Pairs of stations whose covariance is asked for in one go."""
LEAST = 1e-6
"""m: least sigma of a distance."""
OLDER, NEWER, BOTH = "older", "newer", "both"


@dataclass(frozen=True)
class _Apart:
    """The station (row) of one go that lies farthest off the other for what it is worth, by how many metres, its
    one-sigma, and the probability of as much at any of the stations."""

    row: int
    distance: float
    sigma: float
    p: float


def find_twice(
    shapes: tuple[Shape, ...], positions: Positions, decisions: Decisions
) -> tuple[tuple[Shape, ...], tuple[Finding, ...]]:
    """The shapes, those that an answer sets aside marked, and WK-04 for each feature whose goes differ.

    Goes are compared where only the number of their part tells them apart: `top` and `foot` are two things.
    """
    out, said = list(shapes), []
    for i, j in _same_names(shapes):
        if out[i].set_aside or out[j].set_aside or not _same_ground(shapes[i], shapes[j]):
            continue
        apart = _farthest(shapes[i], shapes[j], positions)
        if apart is None or apart.p >= THREE_SIGMA:
            continue
        finding = decisions.answered(_finding(shapes[i], shapes[j], apart, positions))
        said.append(finding)
        gone = {OLDER: j, NEWER: i}.get(finding.answer or "")
        if gone is not None:
            out[gone] = replace(out[gone], set_aside=finding.code)
    return tuple(out), tuple(said)


def settle_asks(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings, each open IN-05 answered with `two` whose feature's goes WK-04 tells apart and an answer settles: who
    chose between two goes has said that they are two."""
    settled = {f.feature: f for f in findings if f.code == "WK-04" and f.answer in (OLDER, NEWER)}
    waiting = {f.feature for f in findings if f.code == "WK-04" and f.is_open}
    out = []
    for finding in findings:
        by = settled.get(finding.feature) if finding.code == "IN-05" and finding.is_open else None
        if by is not None and finding.feature not in waiting:
            finding = replace(  # noqa: PLW2901 - the same finding, answered
                finding, answer="two", answered_by=by.answered_by, answered_at=by.answered_at
            )
        out.append(finding)
    return tuple(out)


def _same_names(shapes: Sequence[Shape]) -> list[tuple[int, int]]:
    """Pairs of drawn shapes of one feature and kind that only the number of their part tells apart, in order."""
    of: dict[tuple[str, Kind], list[int]] = {}
    for i, shape in enumerate(shapes):
        if shape.pieces and (not shape.part or shape.part.isdigit()):
            of.setdefault((shape.feature, shape.kind), []).append(i)
    return [pair for goes in of.values() for pair in combinations(goes, 2)]


def _size(shape: Shape) -> float:
    """The root of an area, or a length, in metres."""
    if shape.kind is Kind.AREA:
        return math.sqrt(abs(ring_area(shape.pieces[0].curve())))
    return sum(path_length(piece.curve()) for piece in shape.pieces)


def _chords(shape: Shape) -> tuple[Floats, Floats]:
    """(k, 2), (k, 2) starts and ends of all chords of a shape."""
    runs = [chords.xy + chords.origin for chords in (chords_of(piece.curve()) for piece in shape.pieces)]
    return np.concatenate([run[:-1] for run in runs]), np.concatenate([run[1:] for run in runs])


def _nearest(shape: Shape, xy: Floats) -> Floats:
    """(m, 2) the point of a shape's edges nearest to each of (m, 2) points."""
    start, end = _chords(shape)
    step = end - start
    square = np.maximum(np.einsum("ij,ij->i", step, step), LEAST**2)
    out = np.empty_like(xy)
    for k, point in enumerate(xy):
        along = np.clip(np.einsum("ij,ij->i", point - start, step) / square, 0.0, 1.0)
        foot = start + along[:, None] * step
        out[k] = foot[np.argmin(np.einsum("ij,ij->i", foot - point, foot - point))]
    return out


def _same_ground(first: Shape, second: Shape) -> bool:
    sizes = _size(first), _size(second)
    if min(sizes) <= 0 or max(sizes) > ALIKE * min(sizes):
        return False
    corners = np.vstack([piece.points[:, :2] for piece in second.pieces])
    off = np.hypot(*(corners - _nearest(first, corners)).T)
    return bool(np.median(off) < NEAR * min(sizes))


def _farthest(first: Shape, second: Shape, positions: Positions) -> _Apart | None:
    """Both ways about: a corner that slid along the other go's edge lies on it, but that go's own corner does not."""
    found = _off(first, second, positions) + _off(second, first, positions)
    if not found:
        return None
    worst = min(found, key=lambda apart: (apart.p, -apart.distance / apart.sigma))
    return replace(worst, p=min(1.0, worst.p * len(found)))


def _off(edges: Shape, stations: Shape, positions: Positions) -> list[_Apart]:
    """Each station's distance across the edges: how far along them it stands says nothing."""
    rows, own = np.unique(stations.rows), np.unique(edges.rows)
    xy = positions.xy[rows]
    across = xy - _nearest(edges, xy)
    distance = np.hypot(across[:, 0], across[:, 1])
    is_off = distance > LEAST
    rows, xy, distance = rows[is_off], xy[is_off], distance[is_off]
    mates = np.array([own[np.argmin(np.hypot(*(positions.xy[own] - at).T))] for at in xy], dtype=np.int64)
    sigmas = _sigmas(positions, rows, mates, across[is_off] / distance[:, None])
    return [
        _Apart(row, far, sigma, tail((far / sigma) ** 2, 1))
        for row, far, sigma in zip(rows.tolist(), distance.tolist(), sigmas.tolist())
    ]


def _sigmas(positions: Positions, one: Ints, other: Ints, along: Floats) -> Floats:
    """(k,) one-sigma, metres, of the distance of each two stations in a direction (k, 2)."""
    variance = np.zeros(len(one))
    for first in range(0, len(one), TOGETHER):
        its = slice(first, first + TOGETHER)
        rows, place = np.unique(np.concatenate([one[its], other[its]]), return_inverse=True)
        c = positions.plan_covariance(rows)
        a, b = place.reshape(2, -1)
        gap = c[a, :, a] + c[b, :, b] - c[a, :, b] - c[b, :, a]
        variance[its] = np.einsum("ki,kij,kj->k", along[its], gap, along[its])
    return np.asarray(np.maximum(np.sqrt(np.maximum(variance, 0.0)), LEAST))


def _finding(first: Shape, second: Shape, apart: _Apart, positions: Positions) -> Finding:
    walk, cell = station_of(positions, apart.row)
    line = int(walk.line[cell])
    return Finding(
        "WK-04",
        Severity.ASK,
        f"{first.place}+{second.place}",
        "{file}, line {line}: {second} goes over the same ground as {first}, and the two lie {distance:.3f} m apart at "
        "station {station}; {allowed:.3f} m (95 %) would be expected.",
        "Choose which walk to believe: older ({first}), newer ({second}), or both where they are two things. The other "
        "stays in the file without figures.",
        {
            "file": walk.file, "line": line, "first": first.place, "second": second.place,
            "distance": apart.distance, "station": walk.station[cell], "allowed": COVER_95 * apart.sigma,
        },
        file=walk.file,
        line=line,
        walk=walk.name,
        station=walk.station[cell],
        feature=first.feature,
        at=(float(positions.xy[apart.row, 0]), float(positions.xy[apart.row, 1])),
        answers=(OLDER, NEWER, BOTH),
    )  # fmt: skip
