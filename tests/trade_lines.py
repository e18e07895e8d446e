# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines for the tests of the trade's quantities: arcs, rings, and draws of them with errors."""

from __future__ import annotations

import math

import numpy as np

from plugin.core.trade.lines import Line, draw_line


def straight(*points):
    """Through points of two or three coordinates; no height where there are two."""
    return draw_line(np.array([[*p, *([np.nan] * (3 - len(p)))] for p in points], float))


def arc(radius, sweep, z=math.nan, *, start=0.0, centre=(0.0, 0.0)):
    """An arc in plan about a centre, its sweep in radians positive to the left."""
    turn = start + np.array([0.0, 0.5, 1.0]) * sweep
    points = np.column_stack([centre[0] + radius * np.cos(turn), centre[1] + radius * np.sin(turn), [z] * 3])
    return draw_line(points, np.array([0, 1, 0], bool))


def circle(radius, z=math.nan):
    """A whole circle, drawn through its start and the point opposite."""
    return draw_line(np.array([[radius, 0, z], [-radius, 0, z], [radius, 0, z]]), np.array([0, 1, 0], bool))


def box(length, width, z=math.nan):
    """Anticlockwise from its corner at the origin; `z` one height, or four."""
    heights = np.broadcast_to(z, 4)
    xy = [(0, 0), (length, 0), (length, width), (0, width)]
    points = [(x, y, h) for (x, y), h in zip(xy, heights)]
    return draw_line(np.array([*points, points[0]], float))


def moved(line, by=(0.0, 0.0, 0.0), turn=0.0):
    """Turned about the origin, then moved."""
    cos, sin = math.cos(turn), math.sin(turn)
    xy = line.points[:, :2] @ np.array([[cos, sin], [-sin, cos]])
    return Line(np.column_stack([xy, line.points[:, 2]]) + np.array(by), line.is_mid)


def mirrored(line):
    """In the y axis."""
    return Line(line.points * np.array([-1.0, 1.0, 1.0]), line.is_mid)


def drawn(line, sigma, draw):
    """With errors of one sigma on each point and axis; ends that are one point stay one."""
    noise = draw.normal(0.0, sigma, line.points.shape)
    if line.is_closed:
        noise[-1] = noise[0]
    return Line(line.points + noise, line.is_mid)


def spread(reckon, sigma, *lines, draws=1500, seed=5):
    """The standard deviation of what is reckoned from lines with errors."""
    draw = np.random.default_rng(seed)
    return float(np.std([reckon(*(drawn(line, sigma, draw) for line in lines)) for _ in range(draws)]))
