# SPDX-License-Identifier: GPL-2.0-or-later
"""Cross sections of trenches and swales: area, width at the top and face, and how they change with width and depth."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

import numpy as np

from ..errors import BadInput
from ..quantity import Floats
from ..segments import length_factor, segment_factor

SHALLOW = 1e-9
"""Of its width: a round section deeper than half its width by more overhangs."""


class Cross(Enum):
    """The form of a cross section, upright across the line; all are alike on either side of their middle."""

    RECTANGULAR = "rectangular"
    V = "V-shaped"
    TRAPEZOID = "trapezoid"
    ROUND = "round-bottomed"


@dataclass(frozen=True, eq=False)
class Told:
    """A figure of sections (...,), and its changes by metre of their width and of their depth."""

    value: Floats
    by_width: Floats
    by_depth: Floats


@dataclass(frozen=True, eq=False)
class CrossFigures:
    """Of sections: area, m2; width at the top, m; face (bottom and sides up to the ground), m by metre of length."""

    area: Told
    top: Told
    face: Told


def figures_of(cross: Cross, width: Floats, depth: Floats, batter: float = 0.0) -> CrossFigures:
    """Area, top and face of sections.

    Args:
        cross: their form.
        width: (...,) metres, of rectangular ones and trapezoids at the foot, of V-shaped and round ones at the top.
        depth: (...,) metres, 0 or more.
        batter: of a trapezoid, how far a side leans out by metre that it goes up (side slopes of 1 in n: n).
    Source:
        w d; w d / 2; (w + n d) d; a circular segment of chord w and rise d, half its sweep a = 2 atan(2 d / w): area
        w^2 / 8 (2 a - sin 2 a) / sin^2 a, arc w a / sin a.
    """
    if cross is Cross.V:
        return _v_shaped(width, depth)
    if cross is Cross.ROUND:
        return _round(width, depth)
    return _sided(width, depth, batter if cross is Cross.TRAPEZOID else 0.0)


def _sided(width: Floats, depth: Floats, n: float) -> CrossFigures:
    one, slant = np.ones_like(width), 2.0 * np.hypot(1.0, n)
    return CrossFigures(
        Told((width + n * depth) * depth, depth, width + 2.0 * n * depth),
        Told(width + 2.0 * n * depth, one, 2.0 * n * one),
        Told(width + slant * depth, one, slant * one),
    )


def _v_shaped(width: Floats, depth: Floats) -> CrossFigures:
    one, face = np.ones_like(width), np.hypot(width, 2.0 * depth)
    safe = np.where(face > 0.0, face, 1.0)
    return CrossFigures(
        Told(0.5 * width * depth, 0.5 * depth, 0.5 * width),
        Told(width, one, 0.0 * one),
        Told(face, width / safe, 4.0 * depth / safe),
    )


def _round(width: Floats, depth: Floats) -> CrossFigures:
    one = np.ones_like(width)
    half = 2.0 * np.arctan2(2.0 * depth, width)
    square = width**2 + 4.0 * depth**2
    by_width, by_depth = -4.0 * depth / square, 4.0 * width / square
    (segment, segment_by), (arc, arc_by) = segment_factor(half), length_factor(half)
    return CrossFigures(
        Told(
            width**2 / 8.0 * segment,
            0.25 * width * segment + width**2 / 8.0 * segment_by * by_width,
            width**2 / 8.0 * segment_by * by_depth,
        ),
        Told(width, one, 0.0 * one),
        Told(width * arc, arc + width * arc_by * by_width, width * arc_by * by_depth),
    )


def refuse_cross(cross: Cross, width: Floats, depth: Floats, batter: float) -> None:
    """Sections that cannot be.

    Raises:
        BadInput: a width that is none, a batter below 0, or a round section deeper than half its width.
    """
    if not 0.0 <= batter < np.inf:
        raise BadInput("The sides lean by {batter} m per metre. Give 0 (upright) or more.", batter=batter)
    may_be_narrow = cross is Cross.TRAPEZOID and batter > 0.0
    bad = ~(np.isfinite(width) & ((width >= 0.0) if may_be_narrow else (width > 0.0)))
    if bad.any():
        raise BadInput(
            "The width is {width:g} m somewhere along the line, which is no section. Note it, or give one above 0.",
            width=float(width[bad][0]),
        )
    if cross is Cross.ROUND and (depth > 0.5 * width * (1.0 + SHALLOW)).any():
        worst = int(np.argmax(depth - 0.5 * width))
        raise BadInput(
            "A round bottom {width:.3f} m wide is at most half as deep, and it is {depth:.3f} m. Choose another form, or "
            "correct width or depth.",
            width=float(width[worst]),
            depth=float(depth[worst]),
        )
