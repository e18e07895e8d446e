# SPDX-License-Identifier: GPL-2.0-or-later
"""Levels and lines that nobody should draw: in line, twice, touching, nearly crossing, turned, far from the origin."""

from __future__ import annotations

from fractions import Fraction

import numpy as np

from plugin.core.ground.records import GroundLine, Levels


def nasty_ground(seed):
    """Levels and lines at height 0, by a number."""
    rng = np.random.default_rng(seed)
    step = float(rng.choice([1.0, 5.0, 10.0]))
    xy = _points(rng, seed % 8, step)
    lines = []
    for _ in range(int(rng.integers(0, 12))):
        lines.append(_line(rng, xy, lines, step))
    turn = rng.choice([0.0, rng.uniform(0.0, 6.0)])
    way = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    far = float(rng.choice([0.0, 1e7]))
    return levels(xy @ way.T + far), [line(p @ way.T + far, f"line {k}") for k, p in enumerate(lines)]


def _points(rng, kind, step):
    xy = rng.uniform(0.0, 20.0, (int(rng.integers(0, 60)), 2))
    if kind in (1, 2):
        return np.round(xy / step) * step
    if kind == 3:
        return np.column_stack([xy[:, 0], 0.1 * xy[:, 0]])
    if kind == 4:
        return np.repeat(xy, 2, axis=0)
    if kind == 5:
        return np.vstack([xy, xy + rng.normal(0.0, 5e-4, xy.shape)])
    if kind == 6:
        angle = 2.0 * np.pi * np.arange(len(xy)) / max(len(xy), 1)
        return 10.0 * np.column_stack([np.cos(angle), np.sin(angle)]) + 10.0
    return xy


def _line(rng, xy, lines, step):
    p = rng.uniform(-1.0, 21.0, (int(rng.integers(1, 7)), 2))
    if rng.random() < 0.5:
        p = np.round(p / step) * step
    if rng.random() < 0.3 and len(xy):
        p[rng.integers(len(p))] = xy[rng.integers(len(xy))]
    if rng.random() < 0.3 and lines:
        other = lines[rng.integers(len(lines))]
        k = rng.integers(len(other))
        p[rng.integers(len(p))] = other[k - 1] + rng.random() * (other[k] - other[k - 1])
    if rng.random() < 0.2 and lines:
        p = lines[rng.integers(len(lines))] + rng.normal(0.0, rng.choice([0.0, 1e-9, 1e-4, 2e-3]), 2)
    if rng.random() < 0.2:
        p[:, 1] = p[0, 1]
    return np.vstack([p, p[:1]]) if rng.random() < 0.1 else p


def levels(xyz, sigma=0.0):
    """Levels from places (height 0) or points."""
    xyz = np.asarray(xyz, float)
    if xyz.shape[1] == 2:
        xyz = np.column_stack([xyz, np.zeros(len(xyz))])
    return Levels(xyz, np.full(len(xyz), sigma))


def line(xyz, name="line", sigma=0.0):
    """A line from places (height 0) or points."""
    known = levels(xyz, sigma)
    return GroundLine(known.points, known.sigma, name)


def hand(a, b, c):
    """The sign of the turn from a over b to c, in fractions."""
    (ax, ay), (bx, by), (cx, cy) = (map(Fraction, map(float, p)) for p in (a, b, c))
    det = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
    return (det > 0) - (det < 0)


def faults_of(xy, segments, triangles):
    """What is wrong with a triangulation: all that could be, looked at without the code under test."""
    from shapely.geometry import MultiPoint

    faults = []
    sides = [side for a, b, c in triangles.tolist() for side in ((a, b), (b, c), (c, a))]
    there = set(sides)
    if len(there) < len(sides):
        faults.append("two triangles lie on one hand of a side")
    near = xy - xy.mean(axis=0)
    a, b, c = (xy[triangles[:, k]] for k in range(3))
    u, v = b - a, c - a
    double = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    for k in np.flatnonzero(double < 1e-6).tolist():
        if hand(a[k], b[k], c[k]) <= 0:
            faults.append(f"triangle {k} is folded or flat")
    hull = MultiPoint(near).convex_hull.area
    if abs(0.5 * double.sum() - hull) > 1e-9 * hull:
        faults.append(f"triangles have {0.5 * double.sum()} m2, the hull {hull}")
    if len(np.unique(triangles)) != len(xy):
        faults.append("a point is left out")
    faults += [f"segment {s} is missing" for s in segments.tolist() if not _is_there(xy, s, there)]
    return faults


def _is_there(xy, segment, sides):
    """Whether a segment is a side, or a chain of sides through points that lie on it exactly."""
    a, b = segment
    if (a, b) in sides or (b, a) in sides:
        return True
    way = xy[b] - xy[a]
    part = (xy - xy[a]) @ way / (way @ way)
    on = [k for k in range(len(xy)) if 0 < part[k] < 1 and hand(xy[a], xy[b], xy[k]) == 0]
    chain = [a, *sorted(on, key=lambda k: part[k]), b]
    return len(chain) > 2 and all((u, v) in sides or (v, u) in sides for u, v in zip(chain, chain[1:]))
