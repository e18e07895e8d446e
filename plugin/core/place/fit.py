# SPDX-License-Identifier: GPL-2.0-or-later
"""Lay the survey on the map: rigid (or similarity) fit of marks to map points in the survey plane, weighted by
the picks alone, with all covariance propagated. Weighting with the survey's own covariance would make the
place hang on the datum of the adjustment (Why 5).

Source: closed form of the plane similarity (Umeyama, IEEE PAMI 13 (1991) 376-380, in two dimensions); the
propagation follows Koch, as in adjust/network.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..adjust.walks import Adjusted
from ..errors import TooFewPoints
from ..quantity import Floats, Gradient, Ints
from ..walk import Walk

WHOLE_LIMIT = 600
"""Stations up to which the whole covariance is held (12 MB); beyond, it is reckoned for what is asked."""


@dataclass(frozen=True, eq=False)
class Fit:
    """target = origin + scale R(turn) (local - 0).

    Attributes:
        origin: (2,), metres. turn: radians anticlockwise. scale: 1.0 where it was not fitted.
        centre: (2,) weighted mean of the targets. weights: (k,).
        residual: (k, 2) target minus fitted.
    """

    origin: Floats
    turn: float
    scale: float
    centre: Floats
    weights: Floats
    residual: Floats
    has_scale: bool

    def apply(self, xy: Floats) -> Floats:
        """(n, 2) local -> target plane."""
        return self.origin + xy @ self.matrix.T

    @cached_property
    def matrix(self) -> Floats:
        """(2, 2) scale times rotation."""
        c, s = np.cos(self.turn), np.sin(self.turn)
        return self.scale * np.array([[c, -s], [s, c]])


def fit_similarity(
    local: Floats, target: Floats, weights: Floats | None = None, *, scale: bool = False
) -> Fit:
    """The rigid motion (with `scale`, the similarity) that brings points nearest to their targets.

    Args:
        local: (k, 2) metres, k >= 2.
        target: (k, 2) metres, where they belong.
        weights: (k,) one by the square of each target's sigma; all alike if not given.
        scale: fit the scale too; else the measured size is kept.
    Raises:
        TooFewPoints: fewer than two different points.
    """
    w = np.ones(len(local)) if weights is None else np.asarray(weights, float)
    if len(local) < 2 or np.ptp(local, axis=0).max() == 0.0:
        raise TooFewPoints("A fit needs two different points at least; there are {count}.", count=len(local))
    a, b = local[:, 0] + 1j * local[:, 1], target[:, 0] + 1j * target[:, 1]
    mean_a, mean_b = np.average(a, weights=w), np.average(b, weights=w)
    cross = np.sum(w * np.conj(a - mean_a) * (b - mean_b))
    turn = float(np.angle(cross))
    factor = float(abs(cross) / np.sum(w * np.abs(a - mean_a) ** 2)) if scale else 1.0
    motion = factor * np.exp(1j * turn)
    origin = mean_b - motion * mean_a
    residual = b - (origin + motion * a)
    return Fit(
        origin=np.array([origin.real, origin.imag]),
        turn=turn,
        scale=factor,
        centre=np.array([mean_b.real, mean_b.imag]),
        weights=w,
        residual=np.column_stack([residual.real, residual.imag]),
        has_scale=scale,
    )


@dataclass(frozen=True, eq=False)
class Placed:
    """The adjusted survey laid on targets; answers to positions.py.

    Attributes:
        adjusted: what was laid. fit: how. rows: (k,) stations that stand for the marks fitted.
        picks: (k,) one-sigma of each target per axis, metres. common: one-sigma per axis of the shift that
            all targets share: it moves the site, not its size.
    """

    adjusted: Adjusted
    fit: Fit | None
    rows: Ints
    picks: Floats
    common: float

    @property
    def walks(self) -> tuple[Walk, ...]:
        """The walks."""
        return self.adjusted.walks

    @property
    def first(self) -> Ints:
        """(w+1,) first row of each walk."""
        return self.adjusted.first

    @cached_property
    def xy(self) -> Floats:
        """(n, 2) all stations in the survey plane, metres."""
        return self.adjusted.xy if self.fit is None else self.fit.apply(self.adjusted.xy)

    @property
    def z(self) -> Floats:
        """(n,) ground heights, metres."""
        return self.adjusted.z

    @cached_property
    def solution(self) -> Floats:
        """(p, 2k) how the placement's parameters move with the targets: K = (A'WA)^-1 A'W."""
        assert self.fit is not None  # noqa: S101 - asked only where there is a fit
        design = self.levers(self.fit.apply(self.adjusted.xy[self.rows])).reshape(-1, self._parameters)
        w = np.repeat(self.fit.weights, 2)
        normal = design.T @ (w[:, None] * design)
        return np.linalg.solve(normal, design.T * w)

    @property
    def _parameters(self) -> int:
        return 4 if self.fit is not None and self.fit.has_scale else 3

    def levers(self, xy: Floats) -> Floats:
        """(n, 2, p) how a placed point moves with the parameters: shift, turn, log of scale."""
        assert self.fit is not None  # noqa: S101
        arm = xy - self.fit.centre
        out = np.zeros((len(xy), 2, self._parameters))
        out[:, 0, 0] = out[:, 1, 1] = 1.0
        out[:, 0, 2], out[:, 1, 2] = -arm[:, 1], arm[:, 0]
        if self._parameters == 4:
            out[:, :, 3] = arm
        return out

    def pull(self, index: Ints, plan: Floats) -> tuple[Ints, Floats, Floats]:
        """A gradient by placed stations as one by adjusted stations (index, (k, 2)) and by targets (2k,)."""
        if self.fit is None:
            return index, plan, np.zeros(0)
        lever = np.einsum("kd,kdp->p", plan, self.levers(self.xy[index]))
        by_target = lever @ self.solution
        back = np.concatenate([plan, -by_target.reshape(-1, 2)]) @ self.fit.matrix
        return np.concatenate([index, self.rows]), back, by_target

    @cached_property
    def _whole(self) -> Floats | None:
        """(2n, 2n) covariance of all placed stations, where they are few enough to hold it."""
        return self.joint(np.arange(len(self.xy))) if len(self.xy) <= WHOLE_LIMIT else None

    def joint(self, index: Ints) -> Floats:
        """(2k, 2k) covariance of k placed stations, reckoned for them alone."""
        solved, size = self.adjusted.both.plan.solved, 2 * len(index)
        if self.fit is None:
            return solved.joint(index)
        turned = solved.joint(np.concatenate([index, self.rows]), self.fit.matrix)
        lead = (self.levers(self.xy[index]) @ self.solution).reshape(size, -1)
        inner = turned[size:, size:] + np.diag(np.repeat(self.picks, 2) ** 2)
        # Half of what the placing adds; its mirror image is the other half.
        half = (0.5 * (lead @ inner) - turned[:size, size:]) @ lead.T
        out = turned[:size, :size]
        out += half
        out += half.T
        out[::2, ::2] += self.common**2
        out[1::2, 1::2] += self.common**2
        return np.asarray(out)

    def variance(self, gradient: Gradient) -> float:
        """Variance of a figure: the survey's share, the picks' and the common shift's."""
        gradient = _gathered(gradient)
        height = self._height_variance(gradient) if gradient.height.any() else 0.0
        if not gradient.plan.any():
            return height
        if self._whole is not None:
            at = (2 * gradient.index[:, None] + (0, 1)).ravel()
            g = gradient.plan.ravel()
            return height + float(max(g @ self._whole[at[:, None], at] @ g, 0.0))
        index, plan, by_target = self.pull(gradient.index, gradient.plan)
        own = self.adjusted.variance(Gradient(index, plan, np.zeros(len(index))))
        picks = float(np.sum((by_target * np.repeat(self.picks, 2)) ** 2)) if by_target.size else 0.0
        return height + own + picks + float(np.sum((self.common * gradient.plan.sum(axis=0)) ** 2))

    def _height_variance(self, gradient: Gradient) -> float:
        whole = self._whole_heights
        if whole is None:
            return self.adjusted.variance(
                Gradient(gradient.index, np.zeros_like(gradient.plan), gradient.height)
            )
        g = gradient.height
        return float(max(g @ whole[gradient.index[:, None], gradient.index] @ g, 0.0))

    @cached_property
    def _whole_heights(self) -> Floats | None:
        """(n, n) covariance of all heights, where they are few enough to hold it."""
        return self.adjusted.both.height.solved.whole() if len(self.xy) <= WHOLE_LIMIT else None

    def height_columns(self, index: Ints) -> Floats:
        """(n, k) covariance of all heights with those of k stations."""
        whole = self._whole_heights
        return self.adjusted.height_columns(index) if whole is None else whole[:, index]

    def height_covariance(self, index: Ints) -> Floats:
        """(k, k) covariance of the heights of k stations."""
        whole = self._whole_heights
        if whole is None:
            return self.adjusted.both.height.solved.joint(index)
        return np.asarray(whole[index[:, None], index])

    def plan_covariance(self, index: Ints) -> Floats:
        """(k, 2, k, 2) joint covariance of k placed stations."""
        k = len(index)
        if self._whole is not None:
            at = (2 * index[:, None] + (0, 1)).ravel()
            return np.asarray(self._whole[at[:, None], at].reshape(k, 2, k, 2))
        return self.joint(index).reshape(k, 2, k, 2)

    def plan_ellipses(self, index: Ints) -> Floats:
        """(k, 2, 2) covariance of each of k placed stations for itself."""
        if self._whole is not None:
            n = len(self.xy)
            return self._whole.reshape(n, 2, n, 2)[index, :, index]
        own = self.adjusted.plan_ellipses(index)
        if self.fit is None:
            return own
        r, k = self.fit.matrix, len(self.rows)
        columns = self.adjusted.plan_columns(self.rows)
        # across[a, l, c, i] is the covariance of station a (axis l) with fitted mark c (axis i).
        across = np.einsum("ij,cjak,lk->alci", r, columns[:, :, index], r)
        control = np.einsum("ij,cjdk,lk->cidl", r, columns[:, :, self.rows], r)
        lead = self.levers(self.xy[index]) @ self.solution
        cross = np.einsum("alm,ajm->alj", across.reshape(len(index), 2, 2 * k), lead)
        inner = control.reshape(2 * k, 2 * k) + np.diag(np.repeat(self.picks, 2) ** 2)
        out = np.einsum("ij,ajk,lk->ail", r, own, r) - cross - cross.transpose(0, 2, 1)
        return np.asarray(out + lead @ inner @ lead.transpose(0, 2, 1) + self.common**2 * np.eye(2))

    def height_sigma(self, index: Ints) -> Floats:
        """(k,) one-sigma of heights."""
        whole = self._whole_heights
        if whole is None:
            return self.adjusted.height_sigma(index)
        return np.asarray(np.sqrt(np.maximum(whole[index, index], 0.0)))


def _gathered(gradient: Gradient) -> Gradient:
    """The gradient with each station once: an arc through many points names each of them many times."""
    if len(gradient.index) <= FEW:
        return gradient
    rows, place = np.unique(gradient.index, return_inverse=True)
    plan, height = np.zeros((len(rows), 2)), np.zeros(len(rows))
    np.add.at(plan, place, gradient.plan)
    np.add.at(height, place, gradient.height)
    return Gradient(rows, plan, height)


FEW = 40
"""Entries up to which gathering them would cost more than it saves."""
