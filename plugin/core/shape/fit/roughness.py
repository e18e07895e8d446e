# SPDX-License-Identifier: GPL-2.0-or-later
"""How rough a walked line is from row to row, whatever its shape."""

from __future__ import annotations

import numpy as np

from ...quantity import Floats

NORMAL_MAD = 0.6744897501960817
"""Quantile 3/4 of the normal law: half of all errors lie within so many sigma."""
FOURTH = np.array([1.0, -4.0, 6.0, -4.0, 1.0])
"""Fourth difference: blind to a cubic, so to straights, arcs and steady changes of pace."""
REACH = 2
"""Rows on either side that a fourth difference takes in."""
WINDOW = 30
"""Rows on either side over which roughness is taken: enough that a corner (5 rows) does not count."""
FEW = 8
"""Fewer rows than this say nothing about their own roughness."""


def _kinks(points: Floats) -> Floats:
    """(n-4,) fourth differences across the line, one-sigma of a row where rows err independently, metres."""
    n = len(points) - 2 * REACH
    bend = sum(weight * points[k : k + n] for k, weight in enumerate(FOURTH)) / np.sqrt((FOURTH**2).sum())
    along = points[2 * REACH :] - points[: -2 * REACH]
    length = np.maximum(np.hypot(along[:, 0], along[:, 1]), 1e-300)
    return np.asarray((along[:, 0] * bend[:, 1] - along[:, 1] * bend[:, 0]) / length)


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
