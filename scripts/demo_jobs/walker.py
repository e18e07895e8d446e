# SPDX-License-Identifier: GPL-2.0-or-later
"""Somebody walks a route with an instrument that drifts: what it records, row by row.

Every leg is turned by the heading error at its middle, stretched by the walk's scale, given its own noise, and
added to the last place; each stand then adds noise of its own that is not carried on. A run recorded as walked
is one leg: its noise is shared along it by length as independent increments, and its rows have no stand noise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from .route import Route

PACE = 1.3
"""Walking speed in m/s."""
SHORTEST_MOVE_S = 0.2
"""Least time to move the instrument, also straight up or down."""
SCALE, HEADING_DEG_MIN = 0.0015, 0.04
LEG, LEG_TIME, STAND = 0.003, 0.0004, 0.004
HEIGHT_LEG, HEIGHT_LEG_TIME, HEIGHT_STAND = 0.003, 0.0003, 0.004
T_DEGREES = 4
"""Degrees of freedom of the heavy-tailed noise; its variance is t/(t-2), taken out."""
ORIGIN_SPAN, LEVEL_SPAN = 20.0, 2.0
"""Metres either way within which a walk's own frame has its origin and its level."""


@dataclass(frozen=True, eq=False)
class Path:
    """A route as arrays.

    Attributes:
        xyz: (n, 3) true places in the site's unit.
        moving: (n-1,) moving time of each leg in seconds.
        plan_sigma, height_sigma: (n-1,) noise of each leg, per axis, in metres.
        is_stand: (n,) whether the row is a stand.
        arrival: (n,) time of arrival in seconds.
    """

    xyz: np.ndarray
    moving: np.ndarray
    plan_sigma: np.ndarray
    height_sigma: np.ndarray
    is_stand: np.ndarray
    arrival: np.ndarray


def lay_path(route: Route, unit_m: float) -> Path:
    """The route as arrays, with what each of its legs is expected to do."""
    xyz = np.array([(s.x, s.y, s.z) for s in route.stops])
    hold = np.array([s.hold for s in route.stops])
    steps = np.diff(xyz, axis=0) * unit_m
    length = np.hypot(steps[:, 0], steps[:, 1])
    way = np.where(length > 0.0, length, np.abs(steps[:, 2]))
    moving = np.maximum(way / PACE, np.where(length > 0.0, 0.0, SHORTEST_MOVE_S))
    share, run_time = _share_runs(length, moving, hold)
    return Path(
        xyz=xyz,
        moving=moving,
        plan_sigma=(LEG + LEG_TIME * run_time**1.5) * share,
        height_sigma=(HEIGHT_LEG + HEIGHT_LEG_TIME * run_time**1.5) * share,
        is_stand=hold > 0.0,
        arrival=np.concatenate(([0.0], np.cumsum(moving + hold[:-1]))),
    )


def _share_runs(length: np.ndarray, moving: np.ndarray, hold: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """For each leg: the root of its share of its run, and the run's whole time (a plain leg is its own run)."""
    ends = np.flatnonzero(hold[1:] > 0.0)
    run = np.searchsorted(ends, np.arange(len(length)))
    run_length = np.bincount(run, length)[run]
    run_time = np.bincount(run, moving)[run]
    share = np.where(run_length > 0.0, length / np.where(run_length > 0.0, run_length, 1.0), 1.0)
    return np.sqrt(share), run_time


@dataclass(frozen=True)
class Drift:
    """What is drawn once a walk: relative scale, heading rate in rad/s."""

    scale: float
    heading_rate: float


def draw_drift(rng: np.random.Generator) -> Drift:
    """A walk's own scale and heading rate."""
    return Drift(SCALE * rng.standard_normal(), math.radians(HEADING_DEG_MIN) / 60.0 * rng.standard_normal())


def record(
    path: Path, unit_m: float, drift: Drift | None, rng: np.random.Generator, *, is_heavy: bool = False
) -> np.ndarray:
    """(n, 3) what the instrument shows, in the site's unit and the walk's own frame; no drift, no noise."""
    frame = rng.uniform(-1.0, 1.0, 4) * (math.pi, ORIGIN_SPAN, ORIGIN_SPAN, LEVEL_SPAN)
    steps = np.diff(path.xyz, axis=0)
    turned = steps[:, 0] + 1j * steps[:, 1]
    rise = steps[:, 2]
    stand = np.zeros((len(path.xyz), 3))
    if drift is not None:
        middle = np.cumsum(path.moving) - path.moving / 2.0
        noise = _leg_noise(rng, len(steps), is_heavy=is_heavy) / unit_m
        turned = turned * np.exp(1j * drift.heading_rate * middle) * (1.0 + drift.scale)
        turned = turned + (noise[:, 0] + 1j * noise[:, 1]) * path.plan_sigma
        rise = rise + noise[:, 2] * path.height_sigma
        sigmas = np.array((STAND, STAND, HEIGHT_STAND)) / unit_m
        stand = rng.standard_normal(stand.shape) * sigmas * path.is_stand[:, None]
    place = np.concatenate(([0.0], np.cumsum(turned))) + stand[:, 0] + 1j * stand[:, 1]
    place = place * np.exp(1j * frame[0]) + (frame[1] + 1j * frame[2]) / unit_m
    height = np.concatenate(([0.0], np.cumsum(rise))) + stand[:, 2] + frame[3] / unit_m
    return np.column_stack((place.real, place.imag, height))


def _leg_noise(rng: np.random.Generator, legs: int, *, is_heavy: bool) -> np.ndarray:
    """(legs, 3) noise of standard deviation 1."""
    if is_heavy:
        return rng.standard_t(T_DEGREES, (legs, 3)) / math.sqrt(T_DEGREES / (T_DEGREES - 2.0))
    return rng.standard_normal((legs, 3))
