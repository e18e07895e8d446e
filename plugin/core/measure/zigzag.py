# SPDX-License-Identifier: GPL-2.0-or-later
"""Lengths that a satellite receiver recorded point by point: noise across the way only ever adds to them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace

import numpy as np

from ..quantity import Quantity
from ..walk import ErrorGrowth, Walk
from .method import is_as_walked
from .rows import Tags
from .shapes import Rows

FEWEST = 8
"""Points that tell of their noise."""
MAD_TO_SIGMA = 1.4826022185056018
"""1 / (the normal quantile of 3/4): sigma from the median of absolute deviations."""
Rates = Mapping[tuple[str, str, str], float]
"""By walk, feature and part: metres that noise may have added to each metre."""


def widen_lengths(rows: Rows, walks: Iterable[Walk]) -> Rows:
    """The rows with the sigma of as-walked lengths widened by what noise may have added to them; their method says how
    much. Nothing is taken off: how much of the zigzag was walked nobody knows."""
    rates = _rates(walks)
    if not rates:
        return rows
    return replace(
        rows,
        areas=tuple(_widened(row, rates, ("perimeter",)) for row in rows.areas),
        lengths=tuple(_widened(row, rates, ("length", "slope_length")) for row in rows.lengths),
        sides=tuple(_widened(row, rates, ("length",)) for row in rows.sides),
        legs=tuple(_widened(row, rates, ("length", "slope_length")) for row in rows.legs),
    )


def _rates(walks: Iterable[Walk]) -> Rates:
    rates = {}
    for walk in walks:
        if walk.keys.growth is ErrorGrowth.RECEIVER and walk.is_dense.any():
            for feature, part in dict.fromkeys(zip(walk.feature, walk.part)):
                rate = added_by_metre(walk, feature, part)
                if feature and rate > 0.0:
                    rates[walk.name, feature, part] = rate
    return rates


def added_by_metre(walk: Walk, feature: str, part: str = "") -> float:
    """What noise across the way may have added to each metre of a feature walked point by point.

    A step of length L between two points that each err by s across it is longer by s^2 / L in the mean. The noise s is
    told by how far each point lies off the middle of its neighbours (its variance is 3/2 s^2), by the median, so
    that corners do not count.
    """
    own = zip(walk.feature, walk.part, walk.is_dense.tolist())
    xy = walk.xy[[i for i, row in enumerate(own) if row == (feature, part, True)]]
    if len(xy) < FEWEST:
        return 0.0
    bend = np.abs(xy[1:-1] - (xy[2:] + xy[:-2]) / 2.0)
    variance = (MAD_TO_SIGMA * float(np.median(bend))) ** 2 / 1.5
    step = np.hypot(*np.diff(xy, axis=0).T)
    step = step[step > 0.0]
    return variance * float(np.sum(1.0 / step)) / float(step.sum()) if len(step) else 0.0


def _widened(row, rates: Rates, names: tuple[str, ...]):  # type: ignore[no-untyped-def]  # any row of the tables
    tags: Tags = row.tags
    rate = rates.get((tags.walk, tags.feature, tags.part), 0.0)
    first: Quantity | None = getattr(row, names[0])
    if not rate or first is None or not is_as_walked(tags.method):
        return row
    wider = {name: _wider(figure, rate) for name in names if (figure := getattr(row, name)) is not None}
    added = rate * first.value
    method = f"{tags.method}; noise from row to row may have added {added:.3g} m to its length, counted in its sigma"
    return replace(row, tags=replace(tags, method=method), **wider)


def _wider(figure: Quantity, rate: float) -> Quantity:
    return replace(figure, sigma=math.hypot(figure.sigma, rate * figure.value))
