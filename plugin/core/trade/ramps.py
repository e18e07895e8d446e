# SPDX-License-Identifier: GPL-2.0-or-later
"""Ramps: flights and landings, gradients over the run and over any metre of it, clear width, crossfall."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput, MissingLibrary
from ..ground.stations import places_on
from ..quantity import Floats, Quantity
from ..segments import Curve, chorded
from .lines import Line
from .profiles import (
    Profile,
    curve_of_line,
    profile_between,
    profile_of,
)
from .worth import Moves, Worth

SAG = 1e-4
"""Metres by which chords leave arcs where a clear width is looked for."""
ROUNDING = 1e-9
"""Metres, and ratio: what is shorter or steeper by less is not."""


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
    """Crossfalls along a way: chainages (k,) m, ratios (k,) and one-sigma (k,)."""

    chainage: Floats
    ratio: Floats
    sigma: Floats

    def largest(self, ends: Floats) -> list[Quantity | None]:
        """The crossfall of the largest size between ends (f, 2), each."""
        size = np.abs(self.ratio)
        first = np.searchsorted(self.chainage, ends[:, 0] - ROUNDING)
        last = np.searchsorted(self.chainage, ends[:, 1] + ROUNDING, side="right")
        rows = [a + int(size[a:b].argmax()) for a, b in zip(first.tolist(), last.tolist())]
        return [Quantity(float(self.ratio[k]), float(self.sigma[k]), "ratio") for k in rows]


def measure_ramp(edges: tuple[Line, ...], worth: Worth, rules: RampRules | None = None) -> Ramp:
    """Measure a ramp along its middle.

    Args:
        edges: one line along the middle, or the left edge and the right one; heights on all.
        worth: one-sigma of their points.
        rules: what a landing is; without, the usual ones.
    Raises:
        BadInput: heights are missing, a line has no length, stands upright, or the edges touch.
        MissingLibrary: shapely, for the width between edges.
    Source:
        Own derivation. Heights run evenly between stations, so that the gradient over any stretch of one length changes
        evenly between places where either end passes a station: its extremes are there. Of two edges the middle is at the
        same part of the length of each; crossfall is taken at the stations of either edge. One-sigma by propagation of
        the points' heights and places (GUM 5.1.2).
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
    """The right edge walked as the left one was."""
    ends = [line.points[[0, -1], :2] for line in (left, right)]
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


def _across(curves: tuple[Curve, Curve], profile: Profile) -> _Across:
    """Crossfalls at the stations of either edge.

    Raises:
        BadInput: the edges touch.
    """
    breaks, half = profile.chainage / profile.whole, profile.corner.shape[1] // 2
    left, right = profile.lines
    places = [
        places_on(curve, breaks * float(line.edges.lengths.sum())).place
        for curve, line in zip(curves, profile.lines)
    ]
    off = places[0] - places[1]
    wide = np.hypot(off[:, 0], off[:, 1])
    if not wide.min() > ROUNDING:
        raise BadInput(
            "The edges of the ramp touch at {at:.2f} m along it. Draw each along its own side.",
            at=float(profile.chainage[np.argmin(wide)]),
        )
    # Twice the middle's weights are each edge's own: half of the corners are the left one's, half the right one's.
    drop = 2.0 * profile.weight * profile.z[profile.corner]
    ratio = (drop[:, :half].sum(axis=1) - drop[:, half:].sum(axis=1)) / wide
    pull, moves = ratio[:, None] * off / wide[:, None], []
    for line, columns, first, sign in (
        (left, slice(half), 0, 2.0),
        (right, slice(half, None), len(left.vertices), -2.0),
    ):
        share = sign * profile.weight[:, columns, None] / wide[:, None, None]
        by = np.concatenate([-share * pull[:, None], share], axis=2)
        moves.append(Moves(line, line.vertices[profile.corner[:, columns] - first], by))
    sigma = np.sqrt(profile.worth.variances(*moves))
    return _Across(profile.chainage, ratio, sigma)


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
