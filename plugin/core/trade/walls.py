# SPDX-License-Identifier: GPL-2.0-or-later
"""Walls and kerbs along a line: lengths, retained height, face, body, footing, backfill, courses."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Quantity
from .lines import Line
from .order import EXACT, whole_down, whole_up
from .pairs import Edge, breaks_of, match_edges
from .strips import Offset, Units, fit_units, offset_line, offset_quantity, refuse_narrow, swept
from .worth import Moves, Worth, moves_of, worth_of


class Lies(Enum):
    """Where a wall lies beside the line that was walked, looking along it."""

    ABOUT = "about the line"
    LEFT = "left of its front"
    RIGHT = "right of its front"


@dataclass(frozen=True)
class WallSpec:
    """What is noted of a wall, metres; 0 is none.

    Attributes:
        thickness: of the wall. lies: where it lies beside its line.
        height: where no top was walked; sigma of all sizes in `size_sigma`.
        course: height of a course. unit: length of a straight unit; sag: how far a curve may rise over one.
        footing_width, footing_depth: of its footing, on the wall's centre. backfill: width behind its back.
        design_height: above it a licensed designer is asked for.
    """

    thickness: float = 0.0
    lies: Lies = Lies.ABOUT
    height: float = 0.0
    size_sigma: float = 0.0
    course: float = 0.0
    unit: float = 0.0
    sag: float = 0.010
    footing_width: float = 0.0
    footing_depth: float = 0.0
    backfill: float = 0.0
    design_height: float = 0.0


@dataclass(frozen=True)
class Wall:
    """A wall's figures.

    Attributes:
        front, centre, back: lengths in plan, m. face: the height along the front, m2. body, footing, backfill: m3.
        highest, mean, lowest: heights, m. courses: at the highest. footing_steps: of a course each.
        units: of the front, where a unit was given.
        design_chance: the chance that the height passes the designer's at the place where that is likeliest.
        method: how it was come by.
    """

    front: Quantity
    centre: Quantity
    back: Quantity
    face: Quantity
    body: Quantity
    footing: Quantity
    backfill: Quantity
    highest: Quantity
    mean: Quantity
    lowest: Quantity
    courses: int
    footing_steps: int
    units: Units | None
    design_chance: float
    method: str


@dataclass(frozen=True, eq=False)
class _Heights:
    """Heights of a wall along its front.

    Attributes:
        value, sigma: (k,) where they break, metres. mean: (m,) on each edge of the front; corner: (c,) at its corners.
        face: integral along the front, m2, and its sigma. over: one-sigma of the mean height along the front, m.
    """

    value: Floats
    sigma: Floats
    mean: Floats
    corner: Floats
    face: Quantity
    over: float


def measure_wall(foot: Line, top: Line | None, spec: WallSpec, sigma: float | Worth) -> Wall:
    """Measure a wall along its foot, with the top that was walked over it or the height that was noted.

    The height at a part of the foot's length in plan is that of the top at the same part of its own; heights run evenly
    along every edge, so that what is integrated breaks at every point of both and is exact. Where both are closed in plan it
    does not count where either begins (see `pairs.py`).

    Args:
        foot: the line at the foot (or the only one), metres.
        top: the line along its top, heights on both.
        spec: what was noted.
        sigma: one-sigma of a point along each axis and in height, metres; or what the points are worth together.
    Raises:
        BadInput: no height, a top below its foot, foot and top that do not belong together (`match_edges`), or no room
            for the thickness.
    Source:
        Face: integral of h ds. Volumes: section times the path of its centroid (Pappus), h varying along it. One-sigma by
        propagation of points and sizes (GUM 5.1.2); of volumes that of the face scaled, and of the sizes.
    """
    if not 0.0 <= spec.thickness < np.inf:
        raise BadInput("The wall is {t} m thick. Give 0 or more.", t=spec.thickness)
    length, worth = offset_line(foot, 0.0), worth_of(sigma)
    if length.length <= 0.0:
        raise BadInput("The wall's line has no length. Draw it along the wall.")
    heights = _even(length, spec, worth) if top is None else _between(length, top, worth)
    sides = {Lies.ABOUT: (-0.5, 0.0, 0.5), Lies.LEFT: (0.0, 0.5, 1.0), Lies.RIGHT: (0.0, -0.5, -1.0)}[
        spec.lies
    ]
    lengths = [
        offset_quantity(
            offset_line(foot, k * spec.thickness), worth, abs(k) * spec.size_sigma * bool(spec.thickness)
        )
        for k in sides
    ]
    face = heights.face
    back = sides[2] * spec.thickness + math.copysign(0.5 * spec.backfill, sides[2])
    highest, lowest = (
        Quantity(float(heights.value[k]), float(heights.sigma[k]), "m")
        for k in (int(np.argmax(heights.value)), int(np.argmin(heights.value)))
    )
    footing = spec.footing_width * spec.footing_depth
    return Wall(
        lengths[0],
        lengths[1],
        lengths[2],
        face,
        _volume(foot, heights, (sides[1] * spec.thickness, spec.thickness), face, spec),
        _times(
            lengths[1],
            footing,
            math.hypot(spec.footing_width, spec.footing_depth) * spec.size_sigma if footing else 0.0,
        ),
        _volume(foot, heights, (back, spec.backfill), face, spec),
        highest,
        Quantity(face.value / length.length, heights.over, "m"),
        lowest,
        whole_up(highest.value, spec.course) if spec.course else 0,
        footing_steps(foot, spec.course),
        fit_units(foot, sides[0] * spec.thickness, spec.unit, spec.sag) if spec.unit else None,
        _chance(heights, spec),
        _method(spec, is_walked=top is not None),
    )


def _times(length: Quantity, section: float, section_sigma: float) -> Quantity:
    return Quantity(
        length.value * section, math.hypot(length.sigma * section, length.value * section_sigma), "m3"
    )


def _volume(
    foot: Line, heights: _Heights, where: tuple[float, float], face: Quantity, spec: WallSpec
) -> Quantity:
    """A body of some width along a path so far to the left of the line, as high as the wall."""
    by, width = where
    if width <= 0.0:
        return Quantity(0.0, 0.0, "m3")
    refuse_narrow(foot, by)
    area = swept(foot, by, heights.mean, heights.corner)
    ratio = area / face.value if face.value else 1.0
    return Quantity(width * area, math.hypot(width * ratio * face.sigma, area * spec.size_sigma), "m3")


def _even(length: Offset, spec: WallSpec, worth: Worth) -> _Heights:
    if not 0.0 < spec.height < np.inf:
        raise BadInput(
            "The wall has no height: neither a top over its foot nor a size. Walk the other line, or give a height."
        )
    h, foot = spec.height, length.line
    m, c = len(foot.half), len(foot.corners[0])
    sigma = math.hypot(
        h * worth.sigma(moves_of(foot, length.moves)),
        length.length * spec.size_sigma,
    )
    face = Quantity(h * length.length, sigma, "m2")
    return _Heights(
        np.array([h]), np.array([spec.size_sigma]), np.full(m, h), np.full(c, h), face, spec.size_sigma
    )


def _between(length: Offset, top: Line, worth: Worth) -> _Heights:
    foot = length.line
    if not (foot.has_heights and top.has_heights):
        raise BadInput("Top or foot of the wall has no heights. Give both, or a height.")
    edges = Edge.in_plan(foot), Edge.in_plan(top)
    if min(edge.length for edge in edges) <= 0.0:
        raise BadInput("Top or foot of the wall has no length in plan. Draw it along the wall.")
    match = match_edges(*edges)
    top = top.reversed() if match.is_turned else top
    low, high = _profile(foot), _profile(top)
    breaks = breaks_of(low[0], high[0], match.begin)
    below, by_foot = _ends(breaks, low, foot, -1.0)
    above, by_top = _ends(breaks, high, top, 1.0, match.begin)
    value = above - below
    if value.min() < -EXACT:
        where = np.column_stack([breaks[:-1], breaks[1:]]).ravel()
        raise BadInput(
            "The top lies {under:.3f} m below the foot at {at:.2f} m along it. Exchange the two parts, or correct heights.",
            under=-float(value.min()),
            at=float(where[np.argmin(value)] * low[2]),
        )
    cumulative = np.concatenate([[0.0], np.cumsum(value.mean(axis=1) * np.diff(breaks))])
    share = np.diff(cumulative[np.searchsorted(breaks, low[0])])
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = np.where(np.diff(low[0]) > 0.0, share / np.diff(low[0]), 0.0)
    corner = value[np.searchsorted(breaks, low[0][foot.corners[1]]), 0]
    sigma, area = np.sqrt(worth.variances(by_foot, by_top)), float(cumulative[-1] * low[2])
    by_area = _face_moves(foot, top)
    # Of the mean, face by length, the length's share is taken off.
    longer = moves_of(foot, -area / low[2] * length.moves)
    by_mean = (Moves(foot, by_area[0].point, by_area[0].by + longer.by), by_area[1])
    face = Quantity(area, worth.sigma(*by_area), "m2")
    return _Heights(value.ravel(), sigma, mean, corner, face, worth.sigma(*by_mean) / low[2])


def _profile(line: Line) -> tuple[Floats, Floats, float]:
    """Parts of a line's length at its vertices, the heights there, and the length in plan."""
    along = np.concatenate([[0.0], np.cumsum(line.edges.lengths)])
    return along / max(float(along[-1]), 1e-300), line.points[line.vertices, 2], float(along[-1])


def _ends(
    breaks: Floats, profile: tuple[Floats, Floats, float], line: Line, sign: float, begin: float = 0.0
) -> tuple[Floats, Moves]:
    """(k, 2) heights of a line, whose parts run on from `begin`, at both ends of each stretch between breaks, and how a figure
    moves with it that takes each of them with a sign. At an upright edge the two stretches beside it have heights of their
    own."""
    parts, z, _ = profile
    middle = 0.5 * (breaks[1:] + breaks[:-1])
    its = (middle + begin) % 1.0
    edge = np.clip(np.searchsorted(parts, its, side="right") - 1, 0, len(parts) - 2)
    ends = np.column_stack([breaks[:-1], breaks[1:]]) + (its - middle)[:, None]
    t = (ends - parts[edge][:, None]) / np.maximum(parts[edge + 1] - parts[edge], 1e-300)[:, None]
    # Breaks that are one but for rounding may lie a little beyond an edge.
    t = np.minimum(np.maximum(t, 0.0), 1.0)
    by = np.zeros((t.size, 2, 3))
    by[:, 0, 2], by[:, 1, 2] = sign * (1.0 - t).ravel(), sign * t.ravel()
    point = np.repeat(line.vertices[np.column_stack([edge, edge + 1])], 2, axis=0)
    return (1.0 - t) * z[edge][:, None] + t * z[edge + 1][:, None], Moves(line, point, by)


def _face_moves(foot: Line, top: Line) -> tuple[Moves, Moves]:
    """With mean heights z of edges of length e, the face is (L/M) sum_top(e z) - sum_foot(e z), L and M the lengths of foot
    and top: what follows by every length and height."""
    (_, low, front), (_, high, above) = _profile(foot), _profile(top)
    e_low, e_high = foot.edges.lengths, top.edges.lengths
    z_low, z_high = 0.5 * (low[1:] + low[:-1]), 0.5 * (high[1:] + high[:-1])
    mean = float((e_high * z_high).sum()) / above
    moves = []
    for line, e, by_e, factor in (
        (foot, e_low, mean - z_low, -1.0),
        (top, e_high, front / above * (z_high - mean), front / above),
    ):
        lift = np.zeros(len(line.points))
        for ends in (line.edges.p, line.edges.q):
            np.add.at(lift, ends, 0.5 * factor * e)
        moves.append(moves_of(line, line.edges.length_moves(by_e), lift))
    return moves[0], moves[1]


def footing_steps(foot: Line, course: float) -> int:
    """Steps of a level footing that follows a foot, each as high as a course: one whenever the foot has risen, or fallen,
    by a course since it last turned; none where a course or heights are not known."""
    if not course or not foot.has_heights:
        return 0
    z = foot.points[foot.vertices, 2]
    if foot.is_closed:  # begun at its lowest, for no rise goes on beyond that
        z = np.roll(z[:-1], -int(np.argmin(z[:-1])))
        z = np.append(z, z[0])
    way = np.sign(np.diff(z))
    keep = np.flatnonzero(way)
    turns = [0, *(keep[1:][way[keep][1:] != way[keep][:-1]]).tolist(), len(z) - 1]
    return sum(whole_down(rise, course) for rise in np.abs(np.diff(z[turns])).tolist())


def _chance(heights: _Heights, spec: WallSpec) -> float:
    """Of a height above the designer's, at the place where it is likeliest (normal errors)."""
    if not spec.design_height:
        return 0.0
    over = heights.value - spec.design_height
    with np.errstate(divide="ignore", invalid="ignore"):
        score = np.where(heights.sigma > 0.0, over / heights.sigma, np.where(over > 0.0, np.inf, -np.inf))
    return 0.5 * math.erfc(-float(score.max()) / math.sqrt(2.0))


def _method(spec: WallSpec, *, is_walked: bool) -> str:
    way = (
        "height from foot to top, face along the foot" if is_walked else f"height {spec.height:g} m as noted"
    )
    if spec.thickness:
        way += f", {spec.thickness:g} m thick {spec.lies.value}"
    if spec.footing_width and spec.footing_depth:
        way += f", footing {spec.footing_width:g} m x {spec.footing_depth:g} m"
    if spec.backfill:
        way += f", backfill {spec.backfill:g} m behind"
    return way


def units_for_face(area: float, unit: tuple[float, float], joint: float) -> float:
    """Units that cover a face in one skin: by the face of a unit with a joint on two sides of it, all in metres and m2.

    Source:
        UK practice as quoted for bricks 215 x 65 and blocks 450 x 215 with 10 mm joints.
    """
    return area / ((unit[0] + joint) * (unit[1] + joint))
