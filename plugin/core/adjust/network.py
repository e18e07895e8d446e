# SPDX-License-Identifier: GPL-2.0-or-later
"""One linearised Gaussian network: what the observed stations say of the poses and the marks, and what that
says of every other station and of any figure (adjustment by collocation with parameters).

Source: Koch, Parameter Estimation and Hypothesis Testing in Linear Models (Gauss-Markov model, prior
information); Moritz, Advanced Physical Geodesy (conditional mean with parameters). Both from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..errors import Refused
from ..quantity import Floats, Ints
from .drift import Drift


@dataclass(frozen=True)
class Occupation:
    """Mark `mark` stood on at station `row` (of all walks' stations in one count) of walk `walk`."""

    walk: int
    row: int
    mark: int


@dataclass(frozen=True, eq=False)
class Field:
    """The error models of all walks side by side: w walks, n stations, d axes.

    `group[k]` numbers the instrument whose shared scale walk k has.
    """

    drifts: tuple[Drift, ...]
    first: Ints
    group: tuple[int, ...]
    axes: int

    @cached_property
    def shared(self) -> Floats:
        """(groups, n, d) how each instrument's shared scale moves every station."""
        out = np.zeros((max(self.group, default=-1) + 1, int(self.first[-1]), self.axes))
        for k, drift in enumerate(self.drifts):
            out[self.group[k], self.first[k] : self.first[k + 1]] = drift.shared()
        return out

    def diagonal(self) -> Floats:
        """(n, d, d) covariance of each station for itself, before anything is adjusted."""
        own = np.concatenate([drift.diagonal() for drift in self.drifts])
        return np.asarray(own + np.einsum("gni,gnj->nij", self.shared, self.shared))

    def between(self, i: Ints, j: Ints, turn: Floats | None = None) -> Floats:
        """(a, d, b, d) covariance of stations i (a,) with stations j (b,), before anything is adjusted; with `turn`
        (d, d), of all places turned so."""
        one, other = self.shared[:, i], self.shared[:, j]
        if turn is not None:
            one, other = one @ turn.T, other @ turn.T
        out = np.einsum("gai,gbj->aibj", one, other)
        walk_i = np.searchsorted(self.first, i, side="right") - 1
        walk_j = walk_i if j is i else np.searchsorted(self.first, j, side="right") - 1
        for k in sorted({*walk_i.tolist()} & {*walk_j.tolist()}):
            at_i, at_j = np.flatnonzero(walk_i == k), np.flatnonzero(walk_j == k)
            own = self.drifts[k].between(i[at_i] - self.first[k], j[at_j] - self.first[k])
            if turn is not None:
                own = np.einsum("pi,aibj,qj->apbq", turn, own, turn, optimize=True)
            _add_block(out, at_i, at_j, own)
        return np.asarray(out)

    def pull(self, g: Floats) -> Floats:
        """F' g: (..., n, d) -> (..., parts)."""
        own = [
            drift.pull(g[..., self.first[k] : self.first[k + 1], :]) for k, drift in enumerate(self.drifts)
        ]
        return np.concatenate([*own, np.einsum("gnd,...nd->...g", self.shared, g)], axis=-1)

    def push(self, u: Floats) -> Floats:
        """F u: (..., parts) -> (..., n, d)."""
        ends = np.cumsum([drift.parts for drift in self.drifts])
        own = [drift.push(u[..., end - drift.parts : end]) for drift, end in zip(self.drifts, ends)]
        return np.asarray(
            np.concatenate(own, axis=-2) + np.einsum("gnd,...g->...nd", self.shared, u[..., ends[-1] :])
        )


def _add_block(out: Floats, i: Ints, j: Ints, block: Floats) -> None:
    """Add to the rows i and columns j (both rising) of (a, d, b, d), which mostly follow each other without a gap."""
    if i[-1] - i[0] == len(i) - 1 and j[-1] - j[0] == len(j) - 1:
        out[i[0] : i[-1] + 1, :, j[0] : j[-1] + 1] += block
    else:
        d = np.arange(out.shape[1])
        out[np.ix_(i, d, j, d)] += block


@dataclass(frozen=True, eq=False)
class Rows:
    """The observation equations l = A x + noise, first d rows for each occupation, then the other rows.

    Attributes:
        stations: (k,) station rows of the occupations, in the order of their equations.
        residual: (r,) l: observed less computed at the point of linearisation.
        design: (r, c) A over the free columns.
        own: (r - k d,) variances of the rows after the occupations (tapes, levels).
        columns: (all,) for each parameter (poses first, then marks) its free column, -1 where held fixed.
        lever: (n,) J R m of each station where poses turn (d = 2), as an (n, 2) array; empty otherwise.
        pose: how many parameters a pose has (3 in plan, 1 in height).
        prior: (parts,) mean of the error parts before this round (heading taken out already), or None.
    """

    stations: Ints
    residual: Floats
    design: Floats
    own: Floats
    columns: Ints
    lever: Floats
    pose: int
    prior: Floats | None = None


def _whitener(covariance: Floats) -> Floats:
    """(r, r) W with W C W' = 1.

    Raises:
        Refused: the parts differ by so much that their sum cannot be told from the larger ones.
    """
    try:
        return np.asarray(np.linalg.inv(np.linalg.cholesky(covariance)))
    except np.linalg.LinAlgError as error:
        raise Refused(
            "The sigmas of this job are too far apart to be reckoned with (the largest is {largest:.3g} m). Check the "
            "instruments, the sd columns and the lengths of the walks.",
            largest=float(np.sqrt(np.abs(np.diag(covariance)).max(initial=0.0))),
        ) from error


def _inverse(r: Floats) -> Floats:
    """(c, c) inverse of a triangle.

    Raises:
        Refused: it has none, since an unknown has no observation.
    """
    try:
        return np.asarray(np.linalg.inv(r)) if r.size else r
    except np.linalg.LinAlgError as error:
        raise Refused(
            "The marks, tapes and levels do not hold the walks together once what disagrees is let go. Answer the "
            "findings on marks with leave out or exchange, or mend the logs."
        ) from error


class Solved:
    """A solved network. The covariances are a priori: no test scales them."""

    def __init__(self, field: Field, rows: Rows) -> None:
        """Factorise and solve; only the observed rows are ever factorised (Refused where that cannot be)."""
        self.field, self.rows = field, rows
        self.count = int(field.first[-1])
        self.covariance = self._observed_covariance()
        self.whiten = _whitener(self.covariance)
        residual = rows.residual
        if rows.prior is not None:
            residual = residual.copy()
            residual[: self._occupied] -= self._at_stations(field.push(rows.prior))
        self.observed = residual
        self.white = self.whiten @ rows.design
        q, r = np.linalg.qr(self.white)
        inverse = _inverse(r)
        self.step: Floats = inverse @ (q.T @ (self.whiten @ residual))
        self.q: Floats = inverse @ inverse.T
        self.v: Floats = residual - rows.design @ self.step
        self.white_v: Floats = self.whiten @ self.v
        self.chi2 = float(self.white_v @ self.white_v)
        self.redundancy = rows.design.shape[0] - rows.design.shape[1]

    @property
    def _occupied(self) -> int:
        return len(self.rows.stations) * self.field.axes

    def _at_stations(self, errors: Floats) -> Floats:
        """(..., n, d) -> (..., k d) at the occupations."""
        return errors[..., self.rows.stations, :].reshape(*errors.shape[:-2], self._occupied)

    def _scatter(self, y: Floats) -> Floats:
        """(..., r) -> (..., n, d): the rows' values put at their stations (two rows may share one)."""
        d = self.field.axes
        out = np.zeros((*y.shape[:-1], self.count, d))
        values = y[..., : self._occupied].reshape(*y.shape[:-1], len(self.rows.stations), d)
        np.add.at(np.moveaxis(out, -2, 0), self.rows.stations, np.moveaxis(values, -2, 0))
        return out

    def _observed_covariance(self) -> Floats:
        out = np.zeros((len(self.rows.residual),) * 2)
        stands = self.rows.stations
        out[: self._occupied, : self._occupied] = self.field.between(stands, stands).reshape(
            self._occupied, self._occupied
        )
        tail = np.arange(self._occupied, len(out))
        out[tail, tail] = self.rows.own
        return out

    def _pull_poses(self, g: Floats) -> Floats:
        """B' g: (..., n, d) -> (..., free columns); marks' columns get nothing."""
        sums = np.add.reduceat(g, self.field.first[:-1], axis=-2)
        if self.rows.pose > self.field.axes:
            moment = np.einsum("...nd,nd->...n", g, self.rows.lever)
            sums = np.concatenate(
                [sums, np.add.reduceat(moment, self.field.first[:-1], axis=-1)[..., None]], axis=-1
            )
        flat = sums.reshape(*g.shape[:-2], -1)
        out = np.zeros((*g.shape[:-2], self.rows.design.shape[1]))
        columns = self.rows.columns[: flat.shape[-1]]
        out[..., columns[columns >= 0]] = flat[..., columns >= 0]
        return out

    def _push_poses(self, x: Floats) -> Floats:
        """B x: (..., free columns) -> (..., n, d)."""
        walks = len(self.field.drifts)
        columns = self.rows.columns[: walks * self.rows.pose]
        full = np.zeros((*x.shape[:-1], len(columns)))
        full[..., columns >= 0] = x[..., columns[columns >= 0]]
        poses = full.reshape(*x.shape[:-1], walks, self.rows.pose)
        by_station = np.repeat(poses, np.diff(self.field.first), axis=-2)
        out = by_station[..., : self.field.axes]
        if self.rows.pose > self.field.axes:
            out = out + by_station[..., self.field.axes :] * self.rows.lever
        return out

    def noise(self) -> Floats:
        """(n, d) the stations' share of the residuals: C_ao C^-1 v, and the prior mean where there is one."""
        weight = self._scatter(self.whiten.T @ self.white_v)
        out = self.field.push(self.field.pull(weight))
        return out if self.rows.prior is None else out + self.field.push(self.rows.prior)

    def parts(self) -> Floats:
        """(parts,) the estimated independent parts of the error, F' C^-1 v (prior mean added)."""
        estimate = self.field.pull(self._scatter(self.whiten.T @ self.white_v))
        return estimate if self.rows.prior is None else estimate + self.rows.prior

    def _reduced(self, g: Floats) -> tuple[Floats, Floats, Floats]:
        """F' g, the whitened h = C_oa g, and D' g."""
        u = self.field.pull(g)
        h = self._at_stations(self.field.push(u))
        y = h @ self.whiten[:, : self._occupied].T
        return u, y, self._pull_poses(g) - y @ self.white

    def variance(self, g: Floats) -> float:
        """Variance g' V g for a gradient over all stations (n, d); V is the covariance after adjusting."""
        u, y, d = self._reduced(g)
        return float(max(u @ u - y @ y + d @ self.q @ d, 0.0))

    def apply(self, g: Floats) -> Floats:
        """V g: (..., n, d) -> (..., n, d)."""
        u, y, d = self._reduced(g)
        w = d @ self.q
        back = y + w @ self.white.T
        return self.field.push(u - self.field.pull(self._scatter(back @ self.whiten))) + self._push_poses(w)

    def by_part(self, g: Floats) -> tuple[Floats, Floats]:
        """How a figure's error moves with each independent part of the walks' errors (..., parts), and with the own noise of
        each row after the occupations (..., r - k d), both in units of one sigma: their squares add up to its variance."""
        u, y, d = self._reduced(g)
        back = (y + d @ self.q @ self.white.T) @ self.whiten
        own = back[..., self._occupied :] * np.sqrt(self.rows.own)
        return u - self.field.pull(self._scatter(back)), own

    @cached_property
    def _cross(self) -> Floats:
        """(r, n, d) whitened covariance of the observed rows with every station."""
        cross = self.field.between(self.rows.stations, np.arange(self.count))
        white = self.whiten[:, : self._occupied] @ cross.reshape(self._occupied, self.count * self.field.axes)
        return np.asarray(white.reshape(-1, self.count, self.field.axes))

    def blocks(self, index: Ints) -> Floats:
        """(k, d, d) covariance of each of k stations for itself."""
        d = self.field.axes
        y, lead = (np.moveaxis(part[:, index], 0, -1) for part in (self._cross, self._lead))
        return np.asarray(
            self.field.diagonal()[index]
            - np.einsum("kir,kjr->kij", y, y)
            + np.einsum("kic,cd,kjd->kij", lead, self.q, lead).reshape(-1, d, d)
        )

    @cached_property
    def _lead(self) -> Floats:
        """(c, n, d) how every station moves with the free columns, less what the observed rows take up of it."""
        pose = self._push_poses(np.eye(self.rows.design.shape[1]))
        return np.asarray(pose - np.tensordot(self.white.T, self._cross, axes=1))

    def joint(self, index: Ints, turn: Floats | None = None) -> Floats:
        """(k d, k d) covariance of k stations with each other; with `turn` (d, d), of their places turned so."""
        size = len(index) * self.field.axes
        y, lead = self._cross[:, index], self._lead[:, index]
        if turn is not None:
            y, lead = y @ turn.T, lead @ turn.T
        y, lead = y.reshape(-1, size), lead.reshape(-1, size)
        # In place: of a whole job each further array costs as much as the sum itself.
        out = self.field.between(index, index, turn).reshape(size, size)
        out -= y.T @ y
        out += lead.T @ self.q @ lead
        return np.asarray(out)

    def columns(self, index: Ints) -> Floats:
        """(n d, k d) covariance of all stations with k of them."""
        n, k = self.count * self.field.axes, len(index) * self.field.axes
        out = self.field.between(np.arange(self.count), index).reshape(n, k)
        out -= self._cross.reshape(-1, n).T @ self._cross[:, index].reshape(-1, k)
        out += self._lead.reshape(-1, n).T @ (self.q @ self._lead[:, index].reshape(-1, k))
        return np.asarray(out)

    def whole(self) -> Floats:
        """(n d, n d) covariance of all stations with each other: O(n^2) numbers, so of small jobs only."""
        return self.joint(np.arange(self.count))
