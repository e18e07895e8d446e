# SPDX-License-Identifier: GPL-2.0-or-later
"""Root protection: the circle round a stem, and how much of it works would take."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..defaults import TREE_CAP, TREE_TIMES
from ..errors import BadInput
from ..quantity import Floats, Quantity
from ..segments import Curve, chorded
from .bands import SAG, ring_curve
from .lines import Line

SAME_PLACE = 1e-6
"""Metres: points as near as this are one."""
FEW = 5
"""Stems up to which each counts by its own section; of more the mean counts (BS 5837:2012, from memory)."""


@dataclass(frozen=True)
class Protection:
    """A tree's root protection: radius, area, and the length of a fence round it."""

    stem: Quantity
    radius: Quantity
    area: Quantity
    fence: Quantity
    is_capped: bool


@dataclass(frozen=True, eq=False)
class Overlap:
    """What works take of a protection area, m2, and of the whole of it, a ratio.

    Attributes:
        arc: m2 by metre of the radius. corner: (n, 2) the works' points about the tree, metres, and by: (n, 2) m2 by metre of
            each.
    """

    area: Quantity
    share: float
    arc: float
    corner: Floats
    by: Floats


def combine_stems(diameters: Sequence[float]) -> float:
    """The one diameter that stands for several stems, metres: of up to five the root of the sum of their squares, of more
    the mean times the root of their number.

    Raises:
        BadInput: none, or one that is not above 0.
    Source:
        BS 5837:2012, 4.6.1, from memory.
    """
    stems = np.asarray(list(diameters), float)
    if not len(stems) or not (np.isfinite(stems) & (stems > 0.0)).all():
        raise BadInput(
            "The tree has no stem diameter above 0. Give it in metres, of several stems with + between."
        )
    if len(stems) <= FEW:
        return float(np.sqrt((stems**2).sum()))
    return float(stems.mean() * np.sqrt(len(stems)))


def read_stems(text: str) -> tuple[float, ...]:
    """Stem diameters as noted, with + between: 0.12+0.15.

    Raises:
        BadInput: one that is no number.
    """
    try:
        return tuple(float(word.strip().replace(",", ".")) for word in text.split("+"))
    except ValueError as error:
        raise BadInput(
            'The stems "{text}" are no numbers. Write diameters in metres with + between, such as 0.12+0.15.',
            text=text,
        ) from error


def protect_tree(
    stems: Sequence[float], stem_sigma: float = 0.0, times: float = TREE_TIMES, cap: float = TREE_CAP
) -> Protection:
    """The root protection of a tree.

    Args:
        stems: their diameters, metres.
        stem_sigma: one-sigma of the combined one, metres.
        times: radius by diameter.
        cap: the largest radius, metres; 0 for none.
    Returns:
        At the cap the radius is a rule and has no uncertainty.
    Raises:
        BadInput: no stem, or a factor that is not above 0.
    Source:
        Radius 12 x stem diameter at 1.5 m, 15 m at most (BS 5837:2012, from memory).
    """
    if not (0.0 < times < np.inf and 0.0 <= cap < np.inf):
        raise BadInput(
            "The radius is {times} stem diameters, {cap} m at most. Give a factor above 0.",
            times=times,
            cap=cap,
        )
    stem = combine_stems(stems)
    is_capped = 0.0 < cap < times * stem
    radius = cap if is_capped else times * stem
    sigma = 0.0 if is_capped else times * stem_sigma
    return Protection(
        Quantity(stem, stem_sigma, "m"),
        Quantity(radius, sigma, "m"),
        Quantity(math.pi * radius**2, 2.0 * math.pi * radius * sigma, "m2"),
        Quantity(2.0 * math.pi * radius, 2.0 * math.pi * sigma, "m"),
        is_capped,
    )


def protection_circle(centre: Floats, radius: float) -> Curve:
    """The circle round a place (2,) as a closed curve of two half circles, anticlockwise, without heights."""
    x, y = float(centre[0]), float(centre[1])
    points = [(x + radius, y, np.nan), (x - radius, y, np.nan), (x + radius, y, np.nan)]
    return Curve(np.array(points), np.ones(2))


def overlap_works(centre: Floats, protection: Protection, works: list[Line], sigma: float) -> Overlap:
    """How much of a protection area an outline of works covers.

    Straight sides are exact; arcs are taken in chords that lie off by 0.01 mm at most.

    Args:
        centre: (2,) of the tree, metres.
        protection: of it.
        works: rings of one outline, holes the other way round than their outer ring.
        sigma: one-sigma of a point along each axis, of the tree and of the works, metres.
    Source:
        The area of circle and polygon, side by side: a triangle where a side runs inside, a sector where it runs outside.
        It moves with the radius by the arc inside the works, with a point of a side by that side's length inside.
    """
    radius = protection.radius.value
    total, arc, corners, changes = 0.0, 0.0, [np.zeros((0, 2))], [np.zeros((0, 2))]
    for ring in works:
        xy = chorded(ring_curve(ring), SAG)[:, :2] - np.asarray(centre, float)
        area, angle, moves = _circle_sides(xy, radius)
        total, arc = total + area, arc + radius * angle
        moves[0] += moves[-1]
        corners.append(xy[:-1])
        changes.append(moves[:-1])
    sign = -1.0 if total < 0.0 else 1.0
    corner, by = np.concatenate(corners), sign * np.concatenate(changes)
    worth = _worth(sign * arc, corner, by, protection, sigma)
    return Overlap(
        Quantity(abs(total), worth, "m2"), abs(total) / protection.area.value, sign * arc, corner, by
    )


def overlap_together(overlaps: Sequence[Overlap], protection: Protection, sigma: float) -> Quantity:
    """What several outlines of works take of one protection area, m2; what two of them cover counts twice.

    They move together with the tree's place and its radius, and so do points that are one place.

    Args:
        overlaps: by each outline, of the same tree.
        protection: of it.
        sigma: as for each.
    """
    if not overlaps:
        return Quantity(0.0, 0.0, "m2")
    corner = np.concatenate([one.corner for one in overlaps])
    by = np.concatenate([one.by for one in overlaps])
    area = sum(one.area.value for one in overlaps)
    return Quantity(area, _worth(sum(one.arc for one in overlaps), corner, by, protection, sigma), "m2")


def _worth(arc: float, corner: Floats, by: Floats, protection: Protection, sigma: float) -> float:
    """One-sigma of an area that moves so with the radius and with some points about the tree, each as often as it stands
    there: the radius', each point's own, and the tree's place against all of them."""
    _, place = np.unique(np.round(corner / SAME_PLACE), axis=0, return_inverse=True)
    own = np.column_stack([np.bincount(place.ravel(), by[:, k]) for k in range(2)]) if len(by) else by
    pull = by.sum(axis=0)
    variance = sigma**2 * float((own**2).sum() + pull @ pull)
    return math.sqrt(variance + (arc * protection.radius.sigma) ** 2)


def _circle_sides(xy: Floats, radius: float) -> tuple[float, float, Floats]:
    """Of a closed polygon (n, 2) about a circle's centre: area inside the circle, angle of the circle inside the polygon
    (both signed, anticlockwise positive), and the change of the area by each point."""
    a, b = xy[:-1], xy[1:]
    way = b - a
    square = np.maximum((way**2).sum(axis=1), 1e-300)
    middle = -(a * way).sum(axis=1) / square
    off = (a[:, 0] * way[:, 1] - a[:, 1] * way[:, 0]) ** 2 / square
    reach = np.sqrt(np.maximum(radius**2 - off, 0.0) / square)
    first, last = np.clip(middle - reach, 0.0, 1.0), np.clip(middle + reach, 0.0, 1.0)
    p, q = a + first[:, None] * way, a + last[:, None] * way
    angle = float((_angle(a, p) + _angle(q, b)).sum())
    area = 0.5 * float((p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]).sum()) + 0.5 * radius**2 * angle
    out = np.column_stack([way[:, 1], -way[:, 0]])
    by_b = 0.5 * (last**2 - first**2)
    by_a = (last - first) - by_b
    moves = np.zeros_like(xy)
    moves[:-1] += by_a[:, None] * out
    moves[1:] += by_b[:, None] * out
    return area, angle, moves


def _angle(a: Floats, b: Floats) -> Floats:
    """(n,) from a to b about the centre, radians; a place at the centre has none."""
    return np.asarray(np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], (a * b).sum(axis=1)))
