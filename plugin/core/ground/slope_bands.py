# SPDX-License-Identifier: GPL-2.0-or-later
"""How much of an area is how steep, by bands of slope: exact from the triangles within it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints, Quantity
from .depths import Ground
from .overlay import lay_over, moments
from .surface import Surface

STEEPEST = 1000.0
"""A ratio beyond which a bound of a band is a slip: nearly 90 degrees."""
MOST_BANDS = 100
SAME_SLOPE = 1e-9
"""Ratio, and of the bound where that is steeper: a slope so near to a bound is the bound, whatever its last digits say."""


@dataclass(frozen=True)
class SlopeBands:
    """An area by bands of slope.

    Attributes:
        bounds: (b,) ratios between the bands, rising; a slope that is a bound counts as the flatter.
        areas: (b+1,) in plan, m2, flattest first; every m2 is in one. sloped: (b+1,) along the slope, m2.
        area: their sum in plan, m2. weak: of it on weak triangles; left_out: what of the outline is not on the surface.
        blur: what the slopes of triangles are worth, a ratio: root of the mean square of their sigmas, by area.
    """

    bounds: tuple[float, ...]
    areas: tuple[Quantity, ...]
    sloped: tuple[float, ...]
    area: float
    weak: float
    left_out: float
    blur: float

    @property
    def narrowest(self) -> float:
        """The narrowest band but the steepest, a ratio."""
        return float(np.diff([0.0, *self.bounds]).min())


def measure_slope_bands(ground: Ground, bounds: Sequence[float]) -> SlopeBands:
    """An outline's area over a surface by bands of the triangles' slopes.

    Args:
        ground: the surface and the outlines (its target counts for nothing).
        bounds: ratios between the bands.
    Raises:
        BadInput: no bounds, or none that rise from above 0; or the outlines are not on the surface.
    Source:
        The areas are sums over triangles, exact. Their variance: whether a triangle of the area a, the slope s and its
        one-sigma is in a band is a step of s, of which two steps' covariance is the tetrachoric (Mehler) series, the sum over
        n of rho^n / n! h(u) h(v) with the Hermite functions h of the bounds' distances u, v in sigmas. Its first term is that
        of the areas of smoothed steps, g' C g with the densities phi at the bounds as the change of each triangle's part;
        what the other terms add to a triangle's own variance p (1 - p) is added whole, what they add between triangles is of
        the second order in their correlation and left out. Slopes are of the points' heights alone. Where noise is not
        small against the slopes it makes ground steeper than it is: `blur` tells.
    """
    told = _checked(bounds)
    area = np.zeros(len(ground.upper.triangles))
    for pieces in lay_over(ground.above, None, ground.filled):
        area += np.bincount(pieces.upper, moments(pieces)[0], len(area))
    which = np.flatnonzero(area > 0.0)
    if not len(which):
        raise BadInput("No ground of the outline lies on the surface. Move it, or extend the surface.")
    own, upper = area[which], ground.upper
    slope, change, sigma = _slopes(upper, which)
    bounds_at = told + SAME_SLOPE * np.maximum(told, 1.0)
    band = np.searchsorted(bounds_at, slope, side="left")
    areas = np.bincount(band, own, len(told) + 1)
    sloped = np.bincount(band, own * np.hypot(1.0, slope), len(told) + 1)
    sigmas = _band_sigmas(upper, which, (own, slope, sigma), change, bounds_at)
    left = max(ground.filled.area - float(own.sum()), 0.0) if ground.filled is not None else 0.0
    return SlopeBands(
        tuple(told.tolist()),
        tuple(Quantity(float(a), float(s), "m2") for a, s in zip(areas, sigmas)),
        tuple(sloped.tolist()),
        float(own.sum()),
        float(own[upper.is_weak[which]].sum()),
        left,
        float(np.sqrt((own * sigma**2).sum() / own.sum())),
    )


def _checked(bounds: Sequence[float]) -> Floats:
    told = np.asarray(bounds, float).reshape(-1)
    if not 0 < len(told) <= MOST_BANDS or not ((told > 0.0) & (told < STEEPEST)).all():
        raise BadInput(
            "Bands of slope need one to {most} bounds above 0. Give them as percent, as ratios, or as 1:n.",
            most=MOST_BANDS,
        )
    if not (np.diff(told) > 0.0).all():
        raise BadInput("The bounds of the bands do not rise. Give them from the flattest to the steepest.")
    return told


def _slopes(surface: Surface, which: Ints) -> tuple[Floats, Floats, Floats]:
    """Of triangles (t,): their slopes, (t, 3) the change by metre of each corner's height, and their one-sigma.

    Of a level triangle the direction is the one that its heights know least.
    """
    a, b, c = (surface.points[surface.triangles[which, k], :2] for k in range(3))
    u, v = b - a, c - a
    det = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    second = np.column_stack([v[:, 1], -v[:, 0]]) / det[:, None]
    third = np.column_stack([-u[:, 1], u[:, 0]]) / det[:, None]
    by = np.stack([-second - third, second, third], axis=1)
    slopes = surface.slopes[which]
    size = np.hypot(*slopes.T)
    own = (by * surface.sigma[surface.triangles[which], None]) ** 2
    weakest = np.where(own[:, :, :1].sum(axis=1) >= own[:, :, 1:].sum(axis=1), (1.0, 0.0), (0.0, 1.0))
    unit = np.where(size[:, None] > 0.0, slopes / np.where(size > 0.0, size, 1.0)[:, None], weakest)
    change = (by * unit[:, None]).sum(axis=2)
    corners = surface.triangles[which]
    variance = ((change * surface.sigma[corners]) ** 2).sum(axis=1)
    for error in surface.shared.T:
        variance += (change * error[corners]).sum(axis=1) ** 2
    return size, change, np.asarray(np.sqrt(variance))


def _band_sigmas(
    surface: Surface, which: Ints, told: tuple[Floats, Floats, Floats], change: Floats, bounds: Floats
) -> Floats:
    """(b+1,) one-sigma of each band's area, m2."""
    from scipy.special import ndtr

    area, slope, sigma = told
    known = sigma > 0.0
    off = np.full((len(bounds) + 2, len(slope)), np.inf)
    off[0] = -np.inf
    size = np.where(known, sigma, 1.0)
    off[1:-1] = np.where(
        known, (bounds[:, None] - slope) / size, np.where(bounds[:, None] >= slope, np.inf, -np.inf)
    )
    below, density = ndtr(off), np.exp(-0.5 * off**2) / np.sqrt(2.0 * np.pi)
    out = np.empty(len(bounds) + 1)
    index, corners = np.unique(surface.triangles[which], return_inverse=True)
    for k in range(len(out)):
        part, first = below[k + 1] - below[k], density[k] - density[k + 1]
        by = (area * first / size)[:, None] * change
        moves = np.asarray(np.bincount(corners.reshape(-1), by.reshape(-1), len(index)), float)
        rest = area**2 * np.maximum(part * (1.0 - part) - first**2, 0.0)
        out[k] = np.sqrt(float(surface.covariance_by(moves[None], index)[0, 0]) + float(rest.sum()))
    return out
