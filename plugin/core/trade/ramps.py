# SPDX-License-Identifier: GPL-2.0-or-later
"""Ramps: flights and landings, gradients over the run and over any metre of it, clear width, crossfall."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput, MissingLibrary
from ..ground.stations import places_on
from ..quantity import Floats, Ints, Quantity
from ..segments import Curve, chorded
from .lines import Line
from .profiles import (
    Profile,
    curve_of_line,
    heights_along,
    profile_between,
    profile_of,
)
from .worth import Moves, Worth

SAG = 1e-4
"""Metres by which chords leave arcs where a clear width is looked for."""
ROUNDING = 1e-9
"""Metres, and ratio: what is shorter or steeper by less is not."""
CORNERS = 4
"""Of a ramp that was walked as an area."""


@dataclass(frozen=True)
class RampRules:
    """How a ramp is taken apart; the figures are common practice, without a source, and looser than what landings are held
    to, so that a landing that is too steep is still seen as one.

    Attributes:
        window: metres of run over which the steepest gradient is looked for.
        landing_gradient: a landing is nowhere steeper along the way, a ratio. landing_length: nor shorter, metres.
    """

    window: float = 1.0
    landing_gradient: float = 1.0 / 40.0
    landing_length: float = 1.0

    def __post_init__(self) -> None:
        for name in ("window", "landing_gradient", "landing_length"):
            value = getattr(self, name)
            if not 0.0 < value < math.inf:
                raise BadInput("{name} of a ramp is {value}. Give a number above 0.", name=name, value=value)


@dataclass(frozen=True)
class Stretch:
    """A part of a ramp between two chainages, metres: a flight or a landing.

    Attributes:
        start, end: chainages. rise: m, positive up along the way. run: m in plan. gradient: over it, a ratio.
        steepest: over any window of it, a ratio with its sign. crossfall: the one of the largest size, positive falls to
            the right; None where no edges were walked.
    """

    start: float
    end: float
    rise: Quantity
    run: Quantity
    gradient: Quantity
    steepest: Quantity
    crossfall: Quantity | None


@dataclass(frozen=True)
class Ramp:
    """A ramp's figures.

    Attributes:
        whole: from end to end. flights, landings: in order along the way.
        width: the least between the edges, m; None where they were not walked.
        method: how it was come by.
    """

    whole: Stretch
    flights: tuple[Stretch, ...]
    landings: tuple[Stretch, ...]
    width: Quantity | None
    method: str


@dataclass(frozen=True, eq=False)
class _Across:
    """Crossfalls along a way: chainages (k,) m, ratios (k-1, 2) at both ends of each piece between, and one-sigma of these."""

    chainage: Floats
    ratio: Floats
    sigma: Floats

    def largest(self, ends: Floats) -> list[Quantity | None]:
        """The crossfall of the largest size between ends (f, 2) that are chainages, each."""
        size, ratio, sigma = np.abs(self.ratio).ravel(), self.ratio.ravel(), self.sigma.ravel()
        first, last = (2 * np.searchsorted(self.chainage, ends[:, k]) for k in (0, 1))
        rows = [a + int(size[a:b].argmax()) for a, b in zip(first.tolist(), last.tolist())]
        return [Quantity(float(ratio[k]), float(sigma[k]), "ratio") for k in rows]


def measure_ramp(edges: tuple[Line, ...], worth: Worth, rules: RampRules | None = None) -> Ramp:
    """Measure a ramp along its middle.

    Args:
        edges: one line along the middle, or the left edge and the right one; heights on all.
        worth: one-sigma of their points.
        rules: what a landing is; without, the usual ones.
    Raises:
        BadInput: heights are missing, a line has no length, stands upright, or the edges touch or are closed.
        MissingLibrary: shapely, for the width between edges.
    Source:
        Own derivation. Heights run evenly between stations, so that the gradient over any stretch of one length changes
        evenly between places where either end passes a station: its extremes are there. Of two edges the middle is at the
        same part of the length of each; crossfall is square to it, on either side of each station of either edge.
        One-sigma by propagation of the points' heights and places (GUM 5.1.2).
    """
    rules = rules or RampRules()
    if len(edges) == 1:
        profile, across, width = profile_of(edges[0], worth), None, None
    else:
        left, right = edges[0], _same_way(edges[0], edges[1])
        profile = profile_between(left, right, worth)
        curves = curve_of_line(left), curve_of_line(right)
        across, width = _across(curves, profile), _clear_width(curves, profile)
    flats = _landings(profile, rules)
    others = _others(flats, profile.length)
    whole, *parts = _stretches(profile, across, [(0.0, profile.length), *others, *flats], rules)
    return Ramp(
        whole,
        tuple(parts[: len(others)]),
        tuple(parts[len(others) :]),
        width,
        f"{'middle of two edges' if len(edges) > 1 else 'along its line'}, steepest over any {rules.window:g} m of run, "
        f"landings from {rules.landing_length:g} m at 1:{1.0 / rules.landing_gradient:g} or flatter",
    )


def ramp_sides(ring: Line) -> tuple[Line, Line] | None:
    """The left and the right edge of a ramp that was walked round its four corners: the two sides along which it rises more;
    None where it has other corners, arcs, or no heights."""
    points, is_mid, seats = ring.points, ring.is_mid, ring.seats
    if not (len(points) == CORNERS + 1 and ring.is_closed and ring.has_heights and not is_mid.any()):
        return None
    lengths = ring.edges.lengths
    if not lengths.min() > ROUNDING:
        return None
    steep = np.abs(np.diff(points[:, 2])) / lengths
    k = 0 if steep[0] + steep[2] >= steep[1] + steep[3] else 1
    one, other = (
        Line(points[ends], is_mid[ends], None if seats is None else seats[ends])
        for ends in ([k, k + 1], [k + 3, k + 2])
    )
    # Anticlockwise round it the inside lies to the left.
    return (other, one) if float(ring.edges.areas.sum()) > 0.0 else (one, other)


def take_across(ramp: Ramp, other: Ramp) -> Ramp:
    """A ramp with the width and the crossfalls of the same one measured with points of another worth: two edges err otherwise
    against each other than points along one of them."""

    def parts(own: tuple[Stretch, ...], others: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
        return tuple(replace(a, crossfall=b.crossfall) for a, b in zip(own, others))

    return replace(
        ramp,
        whole=replace(ramp.whole, crossfall=other.whole.crossfall),
        flights=parts(ramp.flights, other.flights),
        landings=parts(ramp.landings, other.landings),
        width=other.width,
    )


def _same_way(left: Line, right: Line) -> Line:
    """The right edge walked as the left one was.

    Raises:
        BadInput: either is closed.
    """
    if left.is_closed or right.is_closed:
        raise BadInput(
            "An edge of the ramp is closed: it ends where it starts, and rises by nothing. Draw both from end to end of the "
            "ramp, or a line along its middle alone."
        )
    # With heights, for a ramp that goes once round ends over its start.
    ends = [np.nan_to_num(line.points[[0, -1]]) for line in (left, right)]
    straight, turned = (sum(map(math.dist, ends[0], e)) for e in (ends[1], ends[1][::-1]))
    return right.reversed() if turned < straight else right


def _landings(profile: Profile, rules: RampRules) -> list[tuple[float, float]]:
    """Chainages of the runs that are flat enough and long enough."""
    flat = np.abs(profile.gradients) <= rules.landing_gradient + ROUNDING
    round_it = np.zeros(len(flat) + 2, bool)
    round_it[1:-1] = flat
    first, last = (
        np.flatnonzero(round_it[1:] > round_it[:-1]),
        np.flatnonzero(round_it[1:] < round_it[:-1]),
    )
    ends = zip(profile.chainage[first].tolist(), profile.chainage[last].tolist())
    return [(a, b) for a, b in ends if b - a >= rules.landing_length - ROUNDING]


def _others(flats: list[tuple[float, float]], length: float) -> list[tuple[float, float]]:
    """What lies between landings."""
    bounds = [0.0, *(v for ends in flats for v in ends), length]
    return [(a, b) for a, b in zip(bounds[::2], bounds[1::2]) if b - a > ROUNDING]


def _stretches(
    profile: Profile, across: _Across | None, ends: list[tuple[float, float]], rules: RampRules
) -> list[Stretch]:
    """The figures between ends that are chainages of a profile."""
    at, steep, count = np.array(ends), profile.steepest_within(rules.window, ends), len(ends)
    ways = profile.between(np.concatenate([at[:, 0], steep[:, 0]]), np.concatenate([at[:, 1], steep[:, 1]]))
    crossfalls = [None] * count if across is None else across.largest(at)
    return [
        Stretch(
            *ends[k], ways.rise(k), ways.run(k), ways.gradient(k), ways.gradient(count + k), crossfalls[k]
        )
        for k in range(count)
    ]


@dataclass(frozen=True, eq=False)
class _Side:
    """One edge of a ramp at both ends of each piece between breaks, (k, 2) each, or (k, 2, 2) in x and y.

    Attributes:
        line: the edge. corner: (k, 2) the vertices that the piece lies between. part: of the way between them, 0 to 1.
        span: (k, 1) what they are apart as a part of the line's length.
        place: metres. level: metres. ahead: metres by the part of its length. up: (k, 1) the same in height.
    """

    line: Line
    corner: Ints
    part: Floats
    span: Floats
    place: Floats
    level: Floats
    ahead: Floats
    up: Floats

    @classmethod
    def at(cls, line: Line, curve: Curve, breaks: Floats) -> _Side:
        """The edge between breaks, parts of its length."""
        along, z = heights_along(line)
        parts, ends = along / along[-1], np.column_stack([breaks[:-1], breaks[1:]])
        edge = np.searchsorted(parts, 0.5 * ends.sum(axis=1), side="right") - 1
        edge = np.minimum(np.maximum(edge, 0), len(parts) - 2)
        corner = np.column_stack([edge, edge + 1])
        span = np.diff(parts[corner], axis=1)
        part = np.clip((ends - parts[corner[:, :1]]) / span, 0.0, 1.0)
        # An arc of half sweep a goes (2 f - 1) a to the left of its chord at the part f of it.
        heading = line.heading[edge, None] + (2.0 * part - 1.0) * line.half[edge, None]
        ahead = along[-1] * np.stack([np.cos(heading), np.sin(heading)], axis=2)
        place, up = places_on(curve, breaks * along[-1]).place, np.diff(z[corner], axis=1)
        level = z[corner[:, :1]] + part * up
        return cls(
            line, corner, part, span, np.stack([place[:-1], place[1:]], axis=1), level, ahead, up / span
        )


@dataclass(frozen=True, eq=False)
class _Square:
    """What crossfalls square to the middle are reckoned from, (k, 2) each at both ends of each piece.

    Attributes:
        way, across: (k, 2, 2) unit, along the middle, and square to it from the right edge to the left one.
        speed: metres of the middle by the part of its length. rise: its gradient.
        wide, aside: metres between the places on both edges, square to the middle and along it.
        ratio: the crossfall.
    """

    way: Floats
    across: Floats
    speed: Floats
    rise: Floats
    wide: Floats
    aside: Floats
    ratio: Floats

    def moves(self, side: _Side, sign: float) -> Moves:
        """How the crossfalls move with the points of an edge; sign: 1 of the left one, -1 of the right one."""
        slope = self.ratio[..., None] * self.across + self.rise[..., None] * self.way
        by = []
        for end, share in ((-1.0, 1.0 - side.part), (1.0, side.part)):
            turn = 0.5 * end / side.span / self.speed
            height = (sign * share - self.aside * turn) / self.wide
            plan = -height[..., None] * slope - (self.rise * turn)[..., None] * self.across
            by.append(np.concatenate([plan, height[..., None]], axis=2))
        point = np.repeat(side.line.vertices[side.corner], 2, axis=0)
        return Moves(side.line, point, np.stack(by, axis=2).reshape(-1, 2, 3))


def _across(curves: tuple[Curve, Curve], profile: Profile) -> _Across:
    """Crossfalls at both ends of each piece between stations of either edge.

    Raises:
        BadInput: the edges touch.
    Source:
        Own derivation. Between stations straights lie from one edge to the other at the same part of the length of each. The
        plane that touches them in the middle rises g along the middle and d between places a apart along it and w square to
        it, so that its slope square to the middle is (d - g a) / w: the ramp's own gradient is no crossfall, however oblique
        the ends are. Where a piece is straight it changes one way only, so that its extremes are at the ends. What slides
        along an edge does not count, which is exact of planes.
    """
    sides = [_Side.at(*both, profile.chainage / profile.whole) for both in zip(profile.lines, curves)]
    square = _square(sides[0], sides[1])
    if not square.wide.min() > ROUNDING:
        ends = np.column_stack([profile.chainage[:-1], profile.chainage[1:]])
        raise BadInput(
            "The edges of the ramp touch at {at:.2f} m along it. Draw each along its own side.",
            at=float(ends.ravel()[np.argmin(square.wide)]),
        )
    variances = profile.worth.variances(*(square.moves(side, sign) for side, sign in zip(sides, (1.0, -1.0))))
    return _Across(profile.chainage, square.ratio, np.sqrt(variances).reshape(-1, 2))


def _square(left: _Side, right: _Side) -> _Square:
    """Crossfalls square to the middle between two edges, positive where that called the right one is lower."""
    ahead, off = 0.5 * (left.ahead + right.ahead), left.place - right.place
    speed = np.hypot(ahead[..., 0], ahead[..., 1])
    with np.errstate(divide="ignore", invalid="ignore"):
        way = ahead / speed[..., None]
        across = np.stack([-way[..., 1], way[..., 0]], axis=2)
        wide = (off * across).sum(axis=2)
        # Edges that were named the other way round keep their names.
        turned = 1.0 if np.median(wide) >= 0.0 else -1.0
        aside, wide, rise = (off * way).sum(axis=2), turned * wide, 0.5 * (left.up + right.up) / speed
        ratio = (left.level - right.level - rise * aside) / wide
    return _Square(way, turned * across, speed, rise, wide, aside, ratio)


def _clear_width(curves: tuple[Curve, Curve], profile: Profile) -> Quantity:
    """The least distance in plan between the edges, m; it moves with the places where they come nearest."""
    try:
        from shapely.geometry import LineString
        from shapely.ops import nearest_points
    except ImportError as error:
        raise MissingLibrary(
            "The clear width needs the library {library}, which is not there. Install it, or give the middle of the ramp "
            "alone.",
            library="shapely",
        ) from error
    left, right = profile.lines
    lines = [LineString(chorded(curve, SAG)[:, :2] - left.points[0, :2]) for curve in curves]
    ends = nearest_points(*lines)
    way = np.array([ends[0].x - ends[1].x, ends[0].y - ends[1].y])
    wide = float(np.hypot(*way))
    # Where they meet no direction is the nearest one; that across the left edge stands for it.
    unit = way / wide if wide > ROUNDING else np.array([-np.sin(left.heading[0]), np.cos(left.heading[0])])
    moves = [
        _pulled(line, chords.project(end) / chords.length, sign * unit)
        for line, chords, end, sign in zip((left, right), lines, ends, (1.0, -1.0))
    ]
    return Quantity(wide, profile.worth.sigma(*moves), "m")


def _pulled(line: Line, part: float, unit: Floats) -> Moves:
    """How a figure moves that grows as the place at a part of a line's length moves along a unit vector (2,)."""
    along = np.concatenate([[0.0], np.cumsum(line.edges.lengths)])
    at = part * along[-1]
    edge = min(max(int(np.searchsorted(along, at, side="right")) - 1, 0), len(along) - 2)
    t = min(max((at - along[edge]) / max(along[edge + 1] - along[edge], 1e-300), 0.0), 1.0)
    by = np.array([[(1.0 - t) * unit[0], (1.0 - t) * unit[1], 0.0], [t * unit[0], t * unit[1], 0.0]])
    return Moves(line, np.array([[line.edges.p[edge], line.edges.q[edge]]]), by[None])
