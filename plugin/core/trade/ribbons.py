# SPDX-License-Identifier: GPL-2.0-or-later
"""Strips of even width along an edge: a mowing strip, a margin, a path along a line; their area in plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

import numpy as np

from ..errors import BadInput, MissingLibrary
from ..quantity import Floats, Quantity
from ..segments import chorded
from .lines import Line
from .profiles import curve_of_line
from .strips import offset_line, refuse_narrow
from .worth import Worth, moves_of, worth_of

SAG = 1e-3
"""Metres that chords lie off arcs where it is asked whether a strip runs over itself."""


class Side(Enum):
    """Where a strip lies, looking along its line."""

    LEFT = "to the left"
    RIGHT = "to the right"
    ABOUT = "half to each side"
    BOTH = "to either side"


REACHES = {Side.LEFT: (1.0, 0.0), Side.RIGHT: (0.0, 1.0), Side.ABOUT: (0.5, 0.5), Side.BOTH: (1.0, 1.0)}
"""Of the width, how far a strip reaches to the left and to the right."""


@dataclass(frozen=True)
class Strip:
    """A strip's figures.

    Attributes:
        area: in plan, m2. left, right: the lengths of its edges, m.
        is_over_itself: whether it runs over itself, so that ground counts twice.
        method: how it was come by.
    """

    area: Quantity
    left: Quantity
    right: Quantity
    is_over_itself: bool
    method: str


def measure_strip(
    lines: Sequence[Line], width: float, side: Side, sigma: float | Worth, width_sigma: float = 0.0
) -> Strip:
    """A strip along a line, or along each ring of an area.

    Args:
        lines: along which it runs, metres.
        width: of the strip, metres; of BOTH to either side.
        side: where it lies.
        sigma: one-sigma of a point along each axis, metres; or what the points are worth together.
        width_sigma: one-sigma of the width, metres.
    Raises:
        BadInput: a width that is not above 0, or an edge or arc that has no room for it. MissingLibrary: shapely, which
            tells whether it runs over itself.
    Source:
        The edge at the distance d to the left of a line of the length L and the turning T has the length L - d T (arcs about
        their centres, corners mitred), so that a strip from a to b has the area (b - a) (L - T (a + b) / 2): the width by
        the length of its middle (Pappus). One-sigma by propagation of points and width (GUM 5.1.2).
    """
    if not 0.0 < width < np.inf:
        raise BadInput("The strip is {width:g} m wide. Give a width above 0.", width=width)
    left, right = (part * width for part in REACHES[side])
    for line in lines:
        for by in (left, -right):
            refuse_narrow(line, by)
    worth = worth_of(sigma)
    middles, lefts, rights = (
        [offset_line(line, by) for line in lines] for by in ((left - right) / 2, left, -right)
    )
    wide = left + right
    area = wide * float(sum(one.length for one in middles))
    by_points = worth.sigma(*(moves_of(one.line, wide * one.moves) for one in middles))
    grows = float(sum(left * a.length + right * b.length for a, b in zip(lefts, rights))) / width
    edges = [
        Quantity(
            float(sum(o.length for o in some)), worth.sigma(*(moves_of(o.line, o.moves) for o in some)), "m"
        )
        for some in (lefts, rights)
    ]
    return Strip(
        Quantity(area, float(np.hypot(by_points, grows * width_sigma)), "m2"),
        edges[0],
        edges[1],
        any(_is_over_itself(line, left, right) for line in lines),
        f"{width:g} m {side.value}, arcs exact, corners mitred",
    )


def _is_over_itself(line: Line, left: float, right: float) -> bool:
    """Whether the strip between two distances to the left and to the right of a line covers ground twice.

    Raises:
        MissingLibrary: shapely is not there.
    """
    if len(line.edges.lengths) == 1:
        return False  # a straight; or one arc, whose ends do not pass each other
    try:
        from shapely.geometry import Polygon
    except ImportError as error:
        raise MissingLibrary(
            "Whether a strip runs over itself is told by the library {library}, which is not there. Install it.",
            library="shapely",
        ) from error
    xy = chorded(curve_of_line(line), SAG)[:, :2] - line.points[0, :2]
    xy = xy[np.concatenate([[True], np.hypot(*np.diff(xy, axis=0).T) > 0.0])]
    one, other = (_beside(xy, by, closed=line.is_closed) for by in (left, -right))
    if not line.is_closed:
        return not Polygon(np.vstack([one, other[::-1]])).is_valid
    rings = sorted((Polygon(one), Polygon(other)), key=lambda ring: float(ring.area))
    if not all(ring.is_valid for ring in rings):
        return True
    return not rings[1].buffer(SAG).contains(rings[0])


def _beside(xy: Floats, by: float, *, closed: bool) -> Floats:
    """(k, 2) a line of straights moved to the left, corners mitred."""
    way = np.diff(xy, axis=0)
    left = np.column_stack([-way[:, 1], way[:, 0]]) / np.hypot(*way.T)[:, None]
    before, after = np.vstack([left[:1], left]), np.vstack([left, left[-1:]])
    if closed:
        before[0], after[-1] = left[-1], left[0]
    # Of two normals n and m the mitre is (n + m) / (1 + n m).
    return np.asarray(xy + by * (before + after) / (1.0 + (before * after).sum(axis=1))[:, None])
