# SPDX-License-Identifier: GPL-2.0-or-later
"""Two surfaces of one place: where the ground went up or down, by how much, and what all heights share.

Heights are held against each other at the points of both surfaces. A difference's covariance with another is that of the
points that tell both, and of the rough ground between them (ground/levels.py). What all differences share is found from the
ground that did not change, and is taken off; patches are found as between surveys (scan.py), and their volumes are exact
over the merged triangles.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput
from ..ground.levels import Levels
from ..ground.locate import locate
from ..ground.surface import Surface
from ..ground.volume import Volumes, volume_between
from ..quantity import Floats, Ints, Quantity
from .chance import all_chances, chance_beyond, sigmas_of
from .motion import robust_mean
from .records import Asked, Lift, Outcome, Patch
from .scan import MOST_PLACES, TO_SIGMA, Differences, scan_heights

SHARE = 0.5
"""Of the whole chance of a false change: what the common shift has, and the patches."""
LEAST_VARIANCE = 1e-12
"""m2: a micrometre; without any the differences' covariance would be singular."""
BESIDE = 0.25
"""Of the spacing of points: nearer than that two of them tell of one place."""
FEWEST, CLASSES = 20, 12
"""Places, and pairs of a class of distance, from which scatter is told; and such classes up to half the reach."""


@dataclass(frozen=True, eq=False)
class PatchVolume:
    """A patch, and within its hull what the ground gained (or lost, negative), m3, the common shift taken off."""

    patch: Patch
    volume: Quantity
    area: float


@dataclass(frozen=True, eq=False)
class GroundComparison:
    """All that two surfaces differ by.

    Attributes:
        outcome: of the ground as a whole. lift: what all heights share, metres, up positive.
        patches: where it went up or down. volume: gained over all that both cover, the shift taken off, m3.
        with_shift: the same with it, m3: what it is if the ground was raised all over.
        whole: cut and fill of the later surface over the earlier one, nothing taken off.
        places: how many heights were compared. seen: a change of one place that would be found nine times in ten, metres,
            of the middle place of all.
    """

    outcome: Outcome
    lift: Lift
    patches: tuple[PatchVolume, ...]
    volume: Quantity
    with_shift: Quantity
    whole: Volumes
    places: int
    seen: float

    @property
    def p(self) -> float:
        """The least of the patches'."""
        return min((one.patch.p for one in self.patches), default=1.0)


def compare_grounds(
    before: Surface,
    after: Surface,
    common: float = 0.0,
    asked: Asked | None = None,
    tick: Callable[[], None] | None = None,
) -> GroundComparison:
    """What changed between two surfaces in one plane, tested.

    Args:
        before: the earlier surface, metres.
        after: the later one, in the same plane.
        common: one-sigma of what all heights of one lie off those of the other by, metres (a bench mark, a datum).
        asked: the level, and the change of height that matters.
        tick: called now and then; may end the work.
    Raises:
        BadInput: the surfaces share no ground.
    """
    asked = asked or Asked()
    whole = volume_between(after, before, tick=tick)
    given = height_differences(before, after)
    if not len(given.off) or whole.area == 0.0:
        raise BadInput("The two surfaces share no ground. Choose two of one place, in one datum.")
    shift, weight = robust_mean(given.off, np.diag(given.covariance))
    # As if all errors went one way: nothing says how the heights of one surface hang together.
    sigma = float(weight @ np.sqrt(np.diag(given.covariance)))
    is_told = bool(before.shared.shape[1] and after.shared.shape[1])
    scanned = scan_heights(given if is_told else with_drift(given), asked.level, SHARE, tick)
    lift = _lift(Quantity(shift, sigma, "m"), common)
    patches = tuple(_volume(before, after, patch, lift) for patch in scanned.patches)
    seen = sigmas_of(asked.level * SHARE / max(scanned.candidates, 1)) * _middle(scanned.single)
    # All of the ground may have been raised, or one of the two hangs on another bench mark: heights alone cannot tell.
    is_quiet = seen <= asked.see_height and lift.p >= asked.level
    quiet = Outcome.SAME if is_quiet else Outcome.UNSURE
    return GroundComparison(
        Outcome.CHANGED if patches else quiet,
        lift,
        patches,
        _less_lift(whole, lift),
        Quantity(whole.net.value, math.hypot(whole.net.sigma, whole.area * common), "m3"),
        whole,
        len(given.off),
        seen,
    )


def _middle(single: Floats) -> float:
    known = single[np.isfinite(single)]
    return float(np.median(known)) if len(known) else math.inf


def _lift(shift: Quantity, common: float) -> Lift:
    """The shift, with the chance that it is noise of the points and of what all heights share."""
    expected = math.hypot(shift.sigma, common)
    chance = chance_beyond(shift.value / expected) if expected > 0.0 else 1.0
    return Lift(shift, float(all_chances(np.array([chance]), SHARE)[0]))


def _volume(before: Surface, after: Surface, patch: Patch, lift: Lift) -> PatchVolume:
    volumes = volume_between(after, before, [patch.hull])
    return PatchVolume(patch, _less_lift(volumes, lift), volumes.area)


def _less_lift(volumes: Volumes, lift: Lift) -> Quantity:
    """What was gained, m3, without what the common shift gives over the area."""
    net, shift = volumes.net, lift.shift
    sigma = math.hypot(net.sigma, volumes.area * shift.sigma)
    return Quantity(net.value - volumes.area * shift.value, sigma, "m3")


def height_differences(before: Surface, after: Surface) -> Differences:
    """Heights of the later surface over the earlier one, at the points of both; where there are very many, at some of them
    evenly over the ground."""
    xy = _places(before, after)
    found = [locate(surface.points, surface.triangles, xy) for surface in (before, after)]
    good = (found[0][0] >= 0) & (found[1][0] >= 0)
    levels = [
        Levels(surface, xy[good], surface.triangles[triangle[good]], weights[good])
        for surface, (triangle, weights) in zip((before, after), found)
    ]
    covariance = _covariance(levels[0]) + _covariance(levels[1]) + LEAST_VARIANCE * np.eye(int(good.sum()))
    off = levels[1].heights - levels[0].heights
    return Differences(xy[good], off, covariance, np.ones((len(off), 1)))


def with_drift(given: Differences) -> Differences:
    """Differences with what of them grows with distance, and no surface told of, counted as drift.

    Where a surface does not say that heights of one walk drift together, the mean of many seems better than one by far. How
    differences of pairs grow with their distance shows it: half the squared robust scatter of pairs, less what their
    covariance says of it, is taken to be g0 + g1 h up to half the reach of the ground L, and g1 L exp(-h / L) is added to the
    covariance, which grows alike over short ways. Ground that changed is a small part of all pairs, and medians leave it out.

    Source: the variogram, Matheron, Economic Geology 58 (1963) 1246-1266; medians in place of means after Cressie and
    Hawkins, Mathematical Geology 12 (1980) 115-125.
    """
    i, j = np.triu_indices(len(given.off), 1)
    away = np.hypot(*(given.xy[i] - given.xy[j]).T)
    if len(given.off) < FEWEST or not away.max() > 0.0:
        return given
    reach, gap = float(away.max()), np.abs(given.off[i] - given.off[j])
    number = np.minimum((2.0 * CLASSES * away / reach).astype(np.int64), CLASSES)
    classes = [number == k for k in range(CLASSES) if (number == k).sum() >= FEWEST]
    lag = np.array([away[its].mean() for its in classes])
    sigma2 = np.diag(given.covariance)
    known = 0.5 * (sigma2[i] + sigma2[j]) - given.covariance[i, j]
    half = np.array(
        [0.5 * (TO_SIGMA * float(np.median(gap[its]))) ** 2 - float(known[its].mean()) for its in classes]
    )
    growth = max(float(np.polyfit(lag, half, 1)[0]), 0.0) if len(classes) > 1 else 0.0
    xy = given.xy - given.xy[0]
    apart = np.hypot(*(xy[:, None] - xy[None]).transpose(2, 0, 1))
    return replace(given, covariance=given.covariance + growth * reach * np.exp(-apart / reach))


def _places(before: Surface, after: Surface) -> Floats:
    """(n, 2) points of both surfaces; of the earlier one only those that do not stand beside one of the later: the same
    place told twice, a hand apart, would say how the ground slopes there and nothing of its height."""
    one, other = (
        thinned(np.unique(surface.points[_used(surface), :2], axis=0), MOST_PLACES)
        for surface in (after, before)
    )
    spacing = math.sqrt(float(after.areas.sum()) / len(one))
    nearest = np.array([np.hypot(*(one - place).T).min() for place in other])
    return thinned(np.vstack([one, other[nearest > BESIDE * spacing]]), MOST_PLACES)


def _used(surface: Surface) -> Ints:
    return np.unique(surface.triangles)


def thinned(xy: Floats, most: int) -> Floats:
    """(k, 2) of many places so many at the most: in each cell of a square grid the one nearest to its middle."""
    if len(xy) <= most:
        return xy
    low, reach = xy.min(axis=0), np.ptp(xy, axis=0)
    cell = math.sqrt(float(reach[0] * reach[1]) / most) or float(reach.max()) / most
    while True:
        at = np.floor((xy - low) / cell)
        away = (((xy - low) / cell - at - 0.5) ** 2).sum(axis=1)
        order = np.lexsort((away, at[:, 1], at[:, 0]))
        first = np.append(True, (np.diff(at[order], axis=0) != 0.0).any(axis=1))
        if first.sum() <= most:
            return np.asarray(xy[order[first]])
        cell *= 1.1


def _covariance(levels: Levels) -> Floats:
    """(n, n) of levels of one surface, m2: by the points that tell them and by the ground between these."""
    surface = levels.surface
    corners, number = np.unique(levels.corner, return_inverse=True)
    by_point = np.zeros((len(levels), len(corners)))
    row = np.repeat(np.arange(len(levels)), levels.corner.shape[1])
    np.add.at(by_point, (row, number.reshape(-1)), levels.weight.reshape(-1))
    out = surface.covariance_by(by_point, corners)
    if surface.rough > 0.0:
        rough = surface.rough * levels.between_points
        place = levels.place - levels.place[0]
        away = np.hypot(*(place[:, None] - place[None]).transpose(2, 0, 1))
        alike = np.exp(-away / surface.reach) if surface.reach > 0.0 else np.eye(len(place))
        out = out + np.outer(rough, rough) * alike
    return np.asarray(out)
