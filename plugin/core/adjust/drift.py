# SPDX-License-Identifier: GPL-2.0-or-later
"""The instrument model of a walk: how errors grow from station to station.

A walk's errors are e = F u with u independent and of unit variance: one u for the walk's scale, one for its
heading rate, two for each leg's noise, one for its heading walk, two for each stand. F is never written
down: `push` applies it (cumulative sums from the start), `pull` applies its transpose (cumulative sums from
the end). Any covariance of any figures is made of these two, in O(n).

Source: Moritz, Advanced Physical Geodesy (collocation with parameters), from memory; the terms of the model
are this project's own (DEVELOPERS.md, The adjustment).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from ..defaults import WALKING_SPEED
from ..quantity import Floats, Ints
from ..walk import ErrorGrowth, Walk
from .instrument import Model

STAND_HOLD = 0.5
"""s: held at least this long, an as-walked row counts as a stand."""
FADING = 200.0
"""s, common practice, no source: time after which a satellite receiver's error has fallen to 1/e of what it was."""
FLOOR = 1e-4
"""m: least noise of a stand; with none at all the observations' covariance would be singular."""


class Drift(Protocol):
    """Error model of one walk: n stations, d axes (2 in plan, 1 in height), k independent parts."""

    @property
    def parts(self) -> int:
        """How many independent parts there are."""
        ...

    def pull(self, g: Floats) -> Floats:
        """F' g: (..., n, d) -> (..., k)."""
        ...

    def push(self, u: Floats) -> Floats:
        """F u: (..., k) -> (..., n, d)."""
        ...

    def shared(self) -> Floats:
        """(n, d) the way the instrument's shared scale moves each station, in units of its one-sigma."""
        ...

    def diagonal(self) -> Floats:
        """(n, d, d) covariance of each station for itself, without the shared scale."""
        ...

    def between(self, i: Ints, j: Ints) -> Floats:
        """(a, d, b, d) covariance of stations i (a,) with stations j (b,), without the shared scale."""
        ...


@dataclass(frozen=True, eq=False)
class PlanDrift:
    """The plan errors of one walk. All arrays are by station; leg i leads to station i, leg 0 is nothing.

    Attributes:
        m: (n, 2) recorded places less the first one, turned into the plane of the adjustment.
        middle: (n, 2) middle of leg i.
        heading: (n, 2) H_i = J sum T_l d_l: how a heading rate moves station i.
        leg: (n,) one-sigma of leg i's noise per axis; stand: (n,) of the stand's own.
        walk_leg: (n,) sg sqrt(L_i): one-sigma of the heading's random walk on leg i, radians.
        scale, scale_shared, heading_rate: one-sigma.
    """

    m: Floats
    middle: Floats
    heading: Floats
    leg: Floats
    stand: Floats
    walk_leg: Floats
    scale: float
    scale_shared: float
    heading_rate: float

    @property
    def parts(self) -> int:
        """How many independent parts: scale, heading rate, legs, stands, heading walk."""
        return 2 + 5 * len(self.m)

    def pull(self, g: Floats) -> Floats:
        """F' g: (..., n, 2) -> (..., 2 + 5 n)."""
        after = np.cumsum(g[..., ::-1, :], axis=-2)[..., ::-1, :]
        flat = (*g.shape[:-2], 2 * len(self.m))
        cross_m = np.cumsum(_dot_turned(g, self.m)[..., ::-1], axis=-1)[..., ::-1]
        turn = self.walk_leg * (cross_m - _dot_turned(after, self.middle))
        return np.concatenate(
            [
                self.scale * np.einsum("...ni,ni->...", g, self.m)[..., None],
                self.heading_rate * np.einsum("...ni,ni->...", g, self.heading)[..., None],
                (self.leg[:, None] * after).reshape(flat),
                (self.stand[:, None] * g).reshape(flat),
                turn,
            ],
            axis=-1,
        )

    def push(self, u: Floats) -> Floats:
        """F u: (..., 2 + 5 n) -> (..., n, 2)."""
        n, lead = len(self.m), u.shape[:-1]
        legs = u[..., 2 : 2 + 2 * n].reshape(*lead, n, 2)
        stands = u[..., 2 + 2 * n : 2 + 4 * n].reshape(*lead, n, 2)
        turns = self.walk_leg * u[..., 2 + 4 * n :]
        by_walk = np.cumsum(turns, axis=-1)[..., None] * self.m - np.cumsum(
            turns[..., None] * self.middle, axis=-2
        )
        return np.asarray(
            (self.scale * u[..., 0, None, None]) * self.m
            + (self.heading_rate * u[..., 1, None, None]) * self.heading
            + np.cumsum(self.leg[:, None] * legs, axis=-2)
            + self.stand[:, None] * stands
            + turned_left(by_walk)
        )

    def shared(self) -> Floats:
        """(n, 2) how one sigma of the shared scale moves each station."""
        return self.scale_shared * self.m

    def diagonal(self) -> Floats:
        """(n, 2, 2) c(i, i): scale, heading rate, legs, heading walk, stand."""
        scale, heading = self.scale * self.m, self.heading_rate * self.heading
        out = scale[:, :, None] * scale[:, None, :] + heading[:, :, None] * heading[:, None, :]
        weight = self.walk_leg**2
        s0 = np.cumsum(weight)
        s1 = turned_left(np.cumsum(weight[:, None] * self.middle, axis=0))
        middle = turned_left(self.middle)
        s2 = np.cumsum(weight[:, None, None] * middle[:, :, None] * middle[:, None, :], axis=0)
        m = turned_left(self.m)
        cross = m[:, :, None] * s1[:, None, :]
        out += s0[:, None, None] * m[:, :, None] * m[:, None, :] - cross - cross.transpose(0, 2, 1) + s2
        return np.asarray(out + (np.cumsum(self.leg**2) + self.stand**2)[:, None, None] * np.eye(2))

    def between(self, i: Ints, j: Ints) -> Floats:
        """(a, 2, b, 2) c(i, j): what was noise on the way to the earlier of two stations is common to both."""
        scale, heading = self.scale * self.m, self.heading_rate * self.heading
        out = np.multiply.outer(scale[i], scale[j]) + np.multiply.outer(heading[i], heading[j])
        common = _until_earlier(self.leg, self.stand, i, j)
        out[:, 0, :, 0] += common
        out[:, 1, :, 1] += common
        return np.asarray(out + self._heading_walk(i, j) if self.walk_leg.any() else out)

    def _heading_walk(self, i: Ints, j: Ints) -> Floats:
        """(a, 2, b, 2) share of the heading's random walk: sum of w (J m_i - J c)(J m_j - J c)' over the legs, with
        middles c and weights w, that lead to the earlier of both."""
        earlier, weight = np.minimum.outer(i, j), self.walk_leg**2
        middle, m = turned_left(self.middle), turned_left(self.m)
        s0 = np.cumsum(weight)[earlier][:, None, :, None]
        s1 = np.cumsum(weight[:, None] * middle, axis=0)[earlier]
        s2 = np.cumsum(weight[:, None, None] * middle[:, :, None] * middle[:, None, :], axis=0)[earlier]
        one = m[i][:, :, None, None] * s1[:, None]
        other = s1.transpose(0, 2, 1)[..., None] * m[j][None, None]
        return np.asarray(s0 * np.multiply.outer(m[i], m[j]) - one - other + s2.transpose(0, 2, 1, 3))


@dataclass(frozen=True, eq=False)
class HeightDrift:
    """The height errors of one walk: leg noise and stands; no scale, no heading."""

    leg: Floats
    stand: Floats

    @property
    def parts(self) -> int:
        """How many independent parts: legs and stands."""
        return 2 * len(self.leg)

    def pull(self, g: Floats) -> Floats:
        """F' g: (..., n, 1) -> (..., 2 n)."""
        flat = g[..., 0]
        after = np.cumsum(flat[..., ::-1], axis=-1)[..., ::-1]
        return np.concatenate([self.leg * after, self.stand * flat], axis=-1)

    def push(self, u: Floats) -> Floats:
        """F u: (..., 2 n) -> (..., n, 1)."""
        n = len(self.leg)
        return np.asarray((np.cumsum(self.leg * u[..., :n], axis=-1) + self.stand * u[..., n:])[..., None])

    def shared(self) -> Floats:
        """(n, 1) of zeros: heights have no scale."""
        return np.zeros((len(self.leg), 1))

    def diagonal(self) -> Floats:
        """(n, 1, 1) variance of each station."""
        return np.asarray((np.cumsum(self.leg**2) + self.stand**2)[:, None, None])

    def between(self, i: Ints, j: Ints) -> Floats:
        """(a, 1, b, 1) c(i, j)."""
        return _until_earlier(self.leg, self.stand, i, j)[:, None, :, None]


def _until_earlier(leg: Floats, stand: Floats, i: Ints, j: Ints) -> Floats:
    """(a, b) leg noise up to the earlier of two stations, and the stand's own where they are one."""
    return np.asarray(
        np.cumsum(leg**2)[np.minimum.outer(i, j)] + np.equal.outer(i, j) * stand[i][:, None] ** 2
    )


@dataclass(frozen=True, eq=False)
class Legs:
    """The way a walk was walked: leg i leads to station i; leg 0 is nothing.

    Attributes:
        step: (n, 2) recorded step; length: (n,) of it.
        moving: (n,) moving time in seconds, from the times where they are good, else length by speed.
        run: (n,) number of the noise leg that leg i is part of (an as-walked run from stand to stand is one).
        is_stand: (n,) whether the instrument stood still at the station.
    """

    step: Floats
    length: Floats
    moving: Floats
    run: Ints
    is_stand: Floats


def legs_of(walk: Walk) -> Legs:
    """How a walk was walked, from its rows, times and holds."""
    step = np.vstack([np.zeros((1, 2)), np.diff(walk.xy, axis=0)])
    length = np.hypot(step[:, 0], step[:, 1])
    hold = np.nan_to_num(walk.hold)
    moving = np.full(len(walk), np.nan)
    moving[1:] = np.diff(walk.time) - hold[:-1]
    with np.errstate(invalid="ignore"):
        moving = np.where(moving > 0, moving, length / WALKING_SPEED)
    moving[:1] = 0.0
    next_dense = np.append(walk.is_dense[1:], False)
    is_stand = ~walk.is_dense | ~next_dense | walk.is_marked | (hold >= STAND_HOLD)
    run = np.concatenate([[0, 0], np.cumsum(is_stand[1:-1])])[: len(walk)] + 1
    run[:1] = 0
    return Legs(step, length, moving, run.astype(np.int64), is_stand.astype(float))


@dataclass(frozen=True, eq=False)
class PlanNoise:
    """What of a walk's plan errors hangs neither on its turn nor on its heading, by leg or station as in PlanDrift.

    Attributes:
        legs: how it was walked. middle_time: (n,) moving seconds from the start to the middle of leg i.
        leg, stand, walk_leg: as in PlanDrift.
    """

    legs: Legs
    middle_time: Floats
    leg: Floats
    stand: Floats
    walk_leg: Floats


def plan_noise(walk: Walk, model: Model) -> PlanNoise:
    """The part of a walk's plan error model that is the same however it is turned."""
    legs, part = legs_of(walk), model.instrument
    if model.growth is not ErrorGrowth.WALKED:
        leg, stand = own_places(walk, model, legs, walk.sd_xy, part.stand)
    elif model.by_log:
        leg, stand = growth(walk.sd_xy), np.full(len(walk), base_of(walk.sd_xy))
    else:
        leg = leg_sigma(legs, part.leg, part.leg_time, part.leg_length)
        stand = max(part.stand, FLOOR) * legs.is_stand
    middle_time = np.cumsum(legs.moving) - legs.moving / 2
    return PlanNoise(legs, middle_time, leg, stand, part.heading_walk * np.sqrt(legs.length))


def plan_drift(
    walk: Walk,
    model: Model,
    turn: float = 0.0,
    heading_rate: float = 0.0,
    noise: PlanNoise | None = None,
) -> PlanDrift:
    """The plan error model of a walk turned by `turn` (radians, anticlockwise).

    `heading_rate` (rad/s) is the heading drift already taken out of the steps (see network.py). `noise` is this
    walk's `plan_noise`, where that is known already.
    """
    noise = plan_noise(walk, model) if noise is None else noise
    step = rotated(noise.legs.step, turn - heading_rate * noise.middle_time)
    m = np.cumsum(step, axis=0)
    part = model.instrument
    return PlanDrift(
        m=m,
        middle=m - step / 2,
        heading=turned_left(np.cumsum(noise.middle_time[:, None] * step, axis=0)),
        leg=noise.leg,
        stand=noise.stand,
        walk_leg=noise.walk_leg,
        scale=part.scale,
        scale_shared=part.scale_shared,
        heading_rate=part.heading_rate,
    )


def height_drift(walk: Walk, model: Model) -> HeightDrift:
    """The height error model of a walk."""
    legs, part = legs_of(walk), model.instrument
    if model.growth is not ErrorGrowth.WALKED:
        return HeightDrift(*own_places(walk, model, legs, walk.sd_z, part.height_stand))
    if model.by_log and np.isfinite(walk.sd_z).sum() >= 2:
        return HeightDrift(growth(walk.sd_z), np.full(len(walk), base_of(walk.sd_z)))
    leg = leg_sigma(legs, part.height_leg, part.height_leg_time, part.height_leg_length)
    return HeightDrift(leg, max(part.height_stand, FLOOR) * legs.is_stand)


def own_places(walk: Walk, model: Model, legs: Legs, sd: Floats, default: float) -> tuple[Floats, Floats]:
    """(n,), (n,) one-sigma of legs and of stands where each station has a place of its own.

    POINTS: each row errs by itself. RECEIVER: an error of standard deviation s (the median of the rows) is there
    from the first row on and fades with time t as exp(-t / FADING), so that two places t apart differ by
    2 s^2 (1 - exp(-t / FADING)). The noise of each leg is the random walk that begins like it, 2 s^2 t / FADING: its
    spectrum is nowhere below the fading one, so no figure made of differences is better than said. A row whose
    sd is larger than the median has the rest as its own.
    """
    own = np.maximum(np.where(np.isfinite(sd), sd, default), FLOOR)
    if model.growth is ErrorGrowth.POINTS or not len(walk):
        return np.zeros(len(walk)), own
    took = np.append(0.0, np.diff(walk.time))
    with np.errstate(invalid="ignore"):
        took = np.where(took > 0, took, legs.length / WALKING_SPEED)
    common = float(np.median(own))
    leg = common * np.sqrt(2.0 * took / FADING)
    leg[0] = common
    return np.asarray(leg), np.maximum(np.sqrt(np.maximum(own**2 - common**2, 0.0)), FLOOR)


def leg_sigma(legs: Legs, a: float, b: float, c: float) -> Floats:
    """(n,) one-sigma of each leg: sigma^2 = (a + b t^1.5)^2 + c^2 L of its whole run, shared by length."""
    runs = int(legs.run[-1]) + 1 if len(legs.run) else 1
    total = np.bincount(legs.run, legs.length, runs)
    time = np.bincount(legs.run, legs.moving, runs)
    rows = np.bincount(legs.run, minlength=runs)
    variance = (a + b * time**1.5) ** 2 + c**2 * total
    with np.errstate(invalid="ignore", divide="ignore"):
        # A run that ends where it began row by row (a pure change of height) is shared evenly.
        share = np.where(total[legs.run] > 0, legs.length / total[legs.run], 1.0 / rows[legs.run])
    sigma = np.sqrt(variance[legs.run] * share)
    sigma[:1] = 0.0
    return np.asarray(sigma)


def base_of(sd: Floats) -> float:
    """The part of the log's sd that every row has, metres: it is each station's own, not carried on. A receiver
    that writes the same sd on every row says just that."""
    return max(float(np.nanmin(sd)), FLOOR)


def growth(sd: Floats) -> Floats:
    """(n,) one-sigma of each leg from the log's sd column: only its growth from row to row counts (Why 4)."""
    known = np.isfinite(sd)
    last = np.maximum.accumulate(np.where(known, np.arange(len(sd)), -1))
    filled = np.where(last >= 0, sd[np.maximum(last, 0)], 0.0)
    return np.asarray(np.sqrt(np.concatenate([[0.0], np.maximum(np.diff(filled**2), 0.0)]))[: len(sd)])


def rotated(xy: Floats, angle: float | Floats) -> Floats:
    """(n, 2) turned anticlockwise by an angle, or each by its own (n,)."""
    c, s = np.cos(angle), np.sin(angle)
    return np.stack([c * xy[..., 0] - s * xy[..., 1], s * xy[..., 0] + c * xy[..., 1]], axis=-1)


def turned_left(xy: Floats) -> Floats:
    """J x: (..., 2) turned a quarter anticlockwise."""
    return np.stack([-xy[..., 1], xy[..., 0]], axis=-1)


def _dot_turned(g: Floats, m: Floats) -> Floats:
    """Product g . J m for (..., n, 2) and (n, 2) -> (..., n)."""
    return g[..., 1] * m[:, 0] - g[..., 0] * m[:, 1]
