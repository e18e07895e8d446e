# SPDX-License-Identifier: GPL-2.0-or-later
"""Ramps: flights and landings, gradients over the run and over any metre of it, clear width, crossfall."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput, MissingLibrary
from ..ground.stations import places_on
from ..quantity import Floats, Quantity
from ..segments import chorded
from .lines import Line
from .profiles import (
    PointWorth,
    Profile,
    curve_of_line,
    heights_along,
    profile_between,
    profile_of,
    shared_breaks,
)

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


def measure_ramp(edges: tuple[Line, ...], worth: PointWorth, rules: RampRules | None = None) -> Ramp:
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
        across, width = _across(left, right, profile), _clear_width(left, right, worth)
    flats = _landings(profile, rules)
    return Ramp(
        _stretch(profile, across, (0.0, profile.length), rules),
        tuple(_stretch(profile, across, ends, rules) for ends in _others(flats, profile.length)),
        tuple(_stretch(profile, across, ends, rules) for ends in flats),
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
    straight, turned = (float(np.hypot(*(ends[0] - e).T).sum()) for e in (ends[1], ends[1][::-1]))
    return right.reversed() if turned < straight else right


def _landings(profile: Profile, rules: RampRules) -> list[tuple[float, float]]:
    """Chainages of the runs that are flat enough and long enough."""
    flat = np.abs(profile.gradients) <= rules.landing_gradient + ROUNDING
    change = np.diff(np.concatenate([[False], flat, [False]]).astype(int))
    first, last = np.flatnonzero(change == 1), np.flatnonzero(change == -1)
    ends = zip(profile.chainage[first].tolist(), profile.chainage[last].tolist())
    return [(a, b) for a, b in ends if b - a >= rules.landing_length - ROUNDING]


def _others(flats: list[tuple[float, float]], length: float) -> list[tuple[float, float]]:
    """What lies between landings."""
    bounds = [0.0, *(v for ends in flats for v in ends), length]
    return [(a, b) for a, b in zip(bounds[::2], bounds[1::2]) if b - a > ROUNDING]


def _stretch(
    profile: Profile, across: _Across | None, ends: tuple[float, float], rules: RampRules
) -> Stretch:
    start, end = ends
    part = cut_profile(profile, start, end)
    steep = part.steepest(rules.window)
    crossfall = None
    if across is not None:
        at = np.flatnonzero((across.chainage >= start - ROUNDING) & (across.chainage <= end + ROUNDING))
        k = at[int(np.argmax(np.abs(across.ratio[at])))]
        crossfall = Quantity(float(across.ratio[k]), float(across.sigma[k]), "ratio")
    return Stretch(
        start,
        end,
        profile.rise(start, end),
        Quantity(end - start, profile.run_sigma, "m"),
        profile.gradient(start, end),
        profile.gradient(start + steep[0], start + steep[1]),
        crossfall,
    )


def cut_profile(profile: Profile, start: float, end: float) -> Profile:
    """The part of a profile between two of its chainages, metres."""
    rows = np.flatnonzero((profile.chainage >= start - ROUNDING) & (profile.chainage <= end + ROUNDING))
    return Profile(
        profile.chainage[rows] - profile.chainage[rows[0]],
        profile.corner[rows],
        profile.weight[rows],
        profile.z,
        profile.worth,
    )


def _across(left: Line, right: Line, profile: Profile) -> _Across:
    """Crossfalls at the stations of either edge.

    Raises:
        BadInput: the edges touch.
    """
    (a, za), (b, zb) = heights_along(left), heights_along(right)
    breaks = shared_breaks(a, b)
    places = [places_on(curve_of_line(line), breaks * v[-1]).place for line, v in ((left, a), (right, b))]
    wide = np.hypot(*(places[0] - places[1]).T)
    if not wide.min() > ROUNDING:
        raise BadInput(
            "The edges of the ramp touch at {at:.2f} m along it. Draw each along its own side.",
            at=float(breaks[np.argmin(wide)] * profile.length),
        )
    ratio = (np.interp(breaks * a[-1], a, za) - np.interp(breaks * b[-1], b, zb)) / wide
    # Twice the middle's weights are each edge's own.
    squares = 4.0 * (profile.weight**2).sum(axis=1)
    worth = profile.worth
    sigma = np.sqrt(squares) * np.hypot(worth.height, ratio * worth.plan) / wide
    return _Across(profile.chainage, ratio, sigma)


def _clear_width(left: Line, right: Line, worth: PointWorth) -> Quantity:
    """The least distance in plan between the edges, m; one-sigma that of two stations facing each other."""
    try:
        from shapely.geometry import LineString
    except ImportError as error:
        raise MissingLibrary(
            "The clear width needs the library {library}, which is not there. Install it, or give the middle of the ramp "
            "alone.",
            library="shapely",
        ) from error
    origin = left.points[0, :2]
    lines = [LineString(chorded(curve_of_line(line), SAG)[:, :2] - origin) for line in (left, right)]
    return Quantity(float(lines[0].distance(lines[1])), math.sqrt(2.0) * worth.plan, "m")
