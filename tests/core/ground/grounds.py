# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces for tests: of a grid, and of drawn points."""

from __future__ import annotations

import numpy as np
from scipy.spatial import Delaunay

from plugin.core.ground.surface import Surface


def surface_of(points, triangles, sigma=0.0, rough=0.0, reach=1.0):
    """A surface of points (n, 3) and triangles in either sense."""
    points, triangles = np.asarray(points, float), np.asarray(triangles, np.int64)
    a, b, c = (points[triangles[:, k], :2] for k in range(3))
    u, v = b - a, c - a
    twice = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    triangles = np.where((twice < 0)[:, None], triangles[:, ::-1], triangles)[twice != 0.0]
    worth = np.broadcast_to(np.asarray(sigma, float), len(points)).copy()
    return Surface(points, triangles, worth, rough, reach, np.zeros(len(triangles), bool))


def grid_surface(height, side, count, **worth):
    """Over a square [0, side]^2 of count x count cells, heights by `height(x, y)`, diagonals alike."""
    x, y = (v.ravel() for v in np.meshgrid(np.linspace(0, side, count + 1), np.linspace(0, side, count + 1)))
    k = (np.arange(count)[:, None] * (count + 1) + np.arange(count)).ravel()
    cells = np.stack([k, k + 1, k + count + 2, k + count + 1], axis=1)
    triangles = np.concatenate([cells[:, [0, 1, 2]], cells[:, [0, 2, 3]]])
    return surface_of(np.column_stack([x, y, np.broadcast_to(height(x, y), x.shape)]), triangles, **worth)


def drawn_surface(count, seed, side=20.0, height=None, **worth):
    """Of drawn points in a square [0, side]^2 and its corners, triangulated."""
    draw = np.random.default_rng(seed)
    xy = np.vstack([draw.uniform(0, side, (count, 2)), [[0, 0], [side, 0], [side, side], [0, side]]])
    if height is None:
        z = np.sin(xy[:, 0] / 3 + seed) + np.cos(xy[:, 1] / 4 - seed) + 0.2 * draw.normal(size=len(xy))
    else:
        z = height(xy[:, 0], xy[:, 1])
    return surface_of(np.column_stack([xy, z]), Delaunay(xy).simplices, **worth)


def moved(surface, turn=0.0, shift=(0.0, 0.0, 0.0)):
    """Turned about the origin, then moved."""
    cos, sin = np.cos(turn), np.sin(turn)
    x, y, z = surface.points.T
    points = np.column_stack([cos * x - sin * y, sin * x + cos * y, z]) + shift
    return Surface(points, surface.triangles, surface.sigma, surface.rough, surface.reach, surface.is_weak)


def square(low, high):
    """(4, 2) corners of a square."""
    return np.array([[low, low], [high, low], [high, high], [low, high]], float)
