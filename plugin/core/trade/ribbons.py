# SPDX-License-Identifier: GPL-2.0-or-later
"""Strips of even width along an edge: a mowing strip, a margin, a path along a line; their area in plan."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Any, cast

import numpy as np

from ..errors import BadInput, MissingLibrary
from ..quantity import Floats, Quantity
from ..segments import chorded
from .lines import Line
from .profiles import curve_of_line
from .strips import Offset, bending, offset_line, refuse_narrow
from .worth import Worth, moves_of, worth_of

BACKWARD = 0.02
"""1 + cosine of the turn below which a corner turns back on itself: 168.5 degrees."""
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


ROUND_AREAS = {
    Side.LEFT: "inside the edge",
    Side.RIGHT: "outside the edge",
    Side.ABOUT: "half to each side",
    Side.BOTH: "to either side",
}
"""Where a strip lies along the outer rings of an area, which run anticlockwise."""


@dataclass(frozen=True)
class Strip:
    """A strip's figures.

    Attributes:
        area: in plan, m2. left, right: the lengths of its edges, m; None along the rings of an area.
        is_over_itself: whether it runs over itself, so that ground counts twice.
        method: how it was come by.
        is_astray: whether, along an area, it reaches into a hole or into another part.
    """

    area: Quantity
    left: Quantity | None
    right: Quantity | None
    is_over_itself: bool
    method: str
    is_astray: bool = False


def measure_strip(
    lines: Sequence[Line],
    width: float,
    side: Side,
    sigma: float | Worth,
    width_sigma: float = 0.0,
    holes: Sequence[Line] | None = None,
) -> Strip:
    """A strip along a line, or along each outer ring of an area.

    Args:
        lines: along which it runs, metres; outer rings of an area anticlockwise.
        width: of the strip, metres; of BOTH to either side.
        side: where it lies.
        sigma: one-sigma of a point along each axis, metres; or what the points are worth together.
        width_sigma: one-sigma of the width, metres.
        holes: of the area whose rings the lines are; None where they are lines.
    Raises:
        BadInput: a width that is not above 0, a line that turns back on itself, or an edge or arc without room. MissingLibrary: shapely, which
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
        refuse_back(line)
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
    is_area = holes is not None
    edges = (
        [None, None] if is_area else [_length(some, worth, width_sigma / width) for some in (lefts, rights)]
    )
    over, astray = any(runs_over_itself(line, lambda _at: (left, right)) for line in lines), False
    if holes is not None and not over:
        over, astray = _meets_others(lines, holes, left, right)
    words = ROUND_AREAS[side] if is_area else side.value
    return Strip(
        Quantity(area, float(np.hypot(by_points, grows * width_sigma)), "m2"),
        edges[0],
        edges[1],
        over,
        f"{width:g} m {words}, arcs exact, corners mitred",
        astray,
    )


def refuse_back(line: Line) -> None:
    """A line that turns back on itself: at such a corner a mitre reaches ten times as far as the strip, or without end.

    Raises:
        BadInput: it does.
    """
    _, after, turn = line.corners
    back = np.flatnonzero(1.0 + np.cos(turn) < BACKWARD)
    if len(back):
        edge = int(after[back[0]])
        raise BadInput(
            "The line turns back on itself at {at:.2f} m along it, by more than 168 degrees. Draw the way back as a row of its "
            "own.",
            at=float(line.edges.lengths[:edge].sum()),
        )


def _length(some: Sequence[Offset], worth: Worth, width_ratio: float) -> Quantity:
    """The length of lines that were moved, all of them by the same part of a width whose one-sigma is so much of it."""
    by_points = worth.sigma(*(moves_of(one.line, one.moves) for one in some))
    by_width = width_ratio * float(sum(one.by * bending(one.line) for one in some))
    return Quantity(float(sum(one.length for one in some)), float(np.hypot(by_points, by_width)), "m")


Reach = Callable[[Floats], "tuple[Floats | float, Floats | float]"]
"""How far a strip reaches to the left and to the right of its line at places along it, metres."""


def runs_over_itself(line: Line, reach: Reach) -> bool:
    """Whether the strip along a line covers ground twice.

    Raises:
        MissingLibrary: shapely is not there.
    """
    if len(line.edges.lengths) == 1:
        return False  # a straight; or one arc, whose ends do not pass each other
    polygon = _polygons()
    xy = _fine(line)
    at = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(xy, axis=0).T))])
    left, right = reach(at * (float(line.edges.lengths.sum()) / at[-1]))
    one, other = (_beside(xy, by, closed=line.is_closed) for by in (left, -np.asarray(right)))
    if not line.is_closed:
        return not polygon(np.vstack([one, other[::-1]])).is_valid
    rings = sorted((polygon(one), polygon(other)), key=lambda ring: float(ring.area))
    if not all(ring.is_valid for ring in rings):
        return True
    return not rings[1].buffer(SAG).contains(rings[0])


def _meets_others(
    outer: Sequence[Line], holes: Sequence[Line], left: float, right: float
) -> tuple[bool, bool]:
    """Of strips round the outer rings of an area, each of which does not run over itself: whether two of them cover the same
    ground, and whether one reaches into a hole or into another part."""
    from shapely.ops import unary_union

    polygon, origin = _polygons(), outer[0].points[0, :2]
    shift = [line.points[0, :2] - origin for line in outer]
    rings = [_fine(line) + by for line, by in zip(outer, shift)]
    own = [polygon(xy) for xy in rings]
    inner = (
        [a.difference(polygon(_beside(xy, left, closed=True))) for a, xy in zip(own, rings)] if left else []
    )
    beyond = (
        [polygon(_beside(xy, -right, closed=True)).difference(a) for a, xy in zip(own, rings)]
        if right
        else []
    )
    gaps = [polygon(_fine(hole) + hole.points[0, :2] - origin) for hole in holes]
    area = unary_union(own).difference(unary_union(gaps)) if gaps else unary_union(own)
    bands = [*inner, *beyond]
    allowed = SAG * sum(band.length for band in bands)
    whole = unary_union(bands).area
    off = sum(band.difference(area).area for band in inner) + sum(
        band.intersection(area).area for band in beyond
    )
    return bool(sum(band.area for band in bands) > whole + allowed), bool(off > allowed)


def _polygons() -> Callable[[Floats], Any]:
    """What makes an area of (n, 2) points.

    Raises:
        MissingLibrary: shapely is not there.
    """
    try:
        from shapely.geometry import Polygon
    except ImportError as error:
        raise MissingLibrary(
            "Whether a strip runs over itself is told by the library {library}, which is not there. Install it.",
            library="shapely",
        ) from error
    return cast("Callable[[Floats], Any]", Polygon)


def _fine(line: Line) -> Floats:
    """(n, 2) a line in fine chords, from its first point, none of no length."""
    xy = chorded(curve_of_line(line), SAG)[:, :2] - line.points[0, :2]
    return np.asarray(xy[np.concatenate([[True], np.hypot(*np.diff(xy, axis=0).T) > 0.0])])


def _beside(xy: Floats, by: Floats | float, *, closed: bool) -> Floats:
    """(k, 2) a line of straights moved to the left, by one distance or that of each point, corners mitred."""
    way = np.diff(xy, axis=0)
    left = np.column_stack([-way[:, 1], way[:, 0]]) / np.hypot(*way.T)[:, None]
    before, after = np.vstack([left[:1], left]), np.vstack([left, left[-1:]])
    if closed:
        before[0], after[-1] = left[-1], left[0]
    # Of two normals n and m the mitre is (n + m) / (1 + n m).
    mitre = (before + after) / (1.0 + (before * after).sum(axis=1))[:, None]
    return np.asarray(xy + np.broadcast_to(by, len(xy))[:, None] * mitre)
