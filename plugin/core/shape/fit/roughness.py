# SPDX-License-Identifier: GPL-2.0-or-later
"""How rough a walked line is from row to row, whatever its shape."""

from __future__ import annotations

import numpy as np

from ...quantity import Floats

NORMAL_MAD = 0.6744897501960817
"""Quantile 3/4 of the normal law: half of all errors lie within so many sigma."""
REACH = 2
"""Rows on either side that a fourth difference takes in: it is blind to a cubic, so to straights and arcs."""
EVEN = np.array([[1.0], [-4.0], [6.0], [-4.0], [1.0]]) / np.sqrt(70.0)
"""The weights of even steps, of unit square sum."""
STANDING = 0.08
"""Part of the way over four steps below which a step is none."""
DIRECT = 0.85
"""Part of that way that its ends lie apart at least: sixty degrees round a circle are 0.95."""
WINDOW = 30
"""Rows on either side over which roughness is taken: enough that a corner (5 rows) does not count."""
FEW = 8
"""Fewer rows than this say nothing about their own roughness."""


def _kinks(points: Floats) -> Floats:
    """(n-4,) fourth differences across the line, one-sigma of a row where rows err independently, metres.

    They are divided by the way from row to row, so that uneven steps along a curve make no roughness; where rows
    nearly stand still, or go to and fro so that the way is noise, steps count as even."""
    n = len(points) - 2 * REACH
    along = points[2 * REACH :] - points[: -2 * REACH]
    reach = np.hypot(along[:, 0], along[:, 1])
    along /= np.maximum(reach, 1e-300)[:, None]
    step = np.hypot(*np.diff(points, axis=0).T)
    steps = np.stack([step[k : k + n] for k in range(2 * REACH)])
    way = steps.sum(axis=0)
    is_even = (steps.min(axis=0) < STANDING * way) | (reach < DIRECT * way)
    even = _across(points, along, EVEN)
    divided = _across(points, along, _weights(np.where(is_even, 1.0, steps / np.where(is_even, 1.0, way))))
    return np.where(is_even, even, divided)


def _across(points: Floats, along: Floats, weight: Floats) -> Floats:
    """(n-4,) the weighted sum of five rows, square to the line there."""
    bend = sum(w[:, None] * points[k : k + len(along)] for k, w in enumerate(weight))
    return np.asarray(along[:, 0] * bend[:, 1] - along[:, 1] * bend[:, 0])


def _weights(steps: Floats) -> Floats:
    """(5, n-4) the weights of the rows in each divided difference, of unit square sum, by the four steps (4, n-4)."""
    at = np.concatenate([np.zeros((1, steps.shape[1])), np.cumsum(steps, axis=0)])
    gaps = at[:, None] - at[None]
    gaps[np.arange(len(at)), np.arange(len(at))] = 1.0
    weight = 1.0 / gaps.prod(axis=1)
    return np.asarray(weight / np.sqrt((weight**2).sum(axis=0)))


def measure_roughness(points: Floats) -> float:
    """One-sigma of a row across the line in metres, from what no straight or arc explains; 0 of fewer than 8.

    The median of the absolute fourth differences, so that corners and blunders do not count. Rows that err
    together (a slow drift) look smoother than they are.

    Args:
        points: (n, 2) rows in the order walked, metres.
    """
    if len(points) < FEW:
        return 0.0
    return float(np.median(np.abs(_kinks(points)))) / NORMAL_MAD


def measure_roughness_along(points: Floats) -> Floats:
    """(n,) the same of every row's neighbourhood (30 rows on either side), metres."""
    n = len(points)
    if n < FEW:
        return np.zeros(n)
    kinks = np.abs(_kinks(points))
    width = min(2 * WINDOW + 1, len(kinks))
    middles = np.median(np.lib.stride_tricks.sliding_window_view(kinks, width), axis=1) / NORMAL_MAD
    at = np.clip(np.arange(n) - REACH - width // 2, 0, len(middles) - 1)
    return np.asarray(middles[at])
