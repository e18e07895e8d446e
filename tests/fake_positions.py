# SPDX-License-Identifier: GPL-2.0-or-later
"""Positions with a covariance of one's own choosing, and walks to put in them, for tests."""

from __future__ import annotations

import numpy as np

from plugin.core.walk import Kind, Leg, LogKeys, Walk

NAN = float("nan")


def walk_of(rows, name="W1"):
    """A walk from dicts with x, y and whatever columns matter; the rest is blank."""
    n = len(rows)

    def text(column):
        return tuple(str(row.get(column, "")) for row in rows)

    def number(column, default=NAN):
        return np.array([row.get(column, default) for row in rows], float)

    return Walk(
        name=name,
        file=f"{name}.csv",
        keys=LogKeys(units="m"),
        station=tuple(str(row.get("station", i + 1)) for i, row in enumerate(rows)),
        line=np.arange(n) + 2,
        xy=np.column_stack([number("x"), number("y")]),
        z=number("z"),
        time=number("time"),
        hold=number("hold", 1.0),
        feature=text("feature"),
        part=text("part"),
        kind=tuple(Kind(row["geometry"]) if row.get("geometry") else None for row in rows),
        leg=tuple(Leg(row.get("leg") or "direct") for row in rows),
        hole_in=text("hole_in"),
        mark=text("mark"),
        offset=number("offset", 0.0),
        pole=np.zeros(n),
        sd_xy=np.full(n, NAN),
        sd_z=np.full(n, NAN),
        sizes={},
        texts={
            c: text(c) for c in ("item", "side_item", "status", "surface", "option", "phase", "photo", "note")
        },
        extra={},
    )


def trail(feature, points, legs=(), geometry="area", **more):
    """Rows of one feature: points (x, y) or (x, y, z), and the leg to each ("" where the list ends)."""
    rows = []
    for i, point in enumerate(points):
        row = {"feature": feature, "geometry": geometry, "x": point[0], "y": point[1], **more}
        if len(point) > 2:
            row["z"] = point[2]
        if i < len(legs):
            row["leg"] = legs[i]
        rows.append(row)
    return rows


class FakePositions:
    """Stations where the walks have them, with full plan (2n, 2n) and height (n, n) covariances."""

    def __init__(self, walks, plan=None, height=None, xy=None, z=None):
        self.walks = tuple(walks)
        self.first = np.concatenate([[0], np.cumsum([len(w) for w in walks])]).astype(np.int64)
        self.xy = np.vstack([w.xy for w in walks]) if xy is None else xy
        self.z = np.concatenate([w.ground_z for w in walks]) if z is None else z
        n = len(self.xy)
        self.plan = np.zeros((2 * n, 2 * n)) if plan is None else plan
        self.height = np.zeros((n, n)) if height is None else height

    def variance(self, gradient):
        n = len(self.xy)
        g, h = np.zeros((n, 2)), np.zeros(n)
        np.add.at(g, gradient.index, gradient.plan)
        np.add.at(h, gradient.index, gradient.height)
        return float(g.ravel() @ self.plan @ g.ravel() + h @ self.height @ h)

    def plan_covariance(self, index):
        n = len(self.xy)
        return self.plan.reshape(n, 2, n, 2)[index][:, :, index]

    def plan_ellipses(self, index):
        return np.array([self.plan_covariance(np.array([i]))[0, :, 0] for i in index])

    def height_sigma(self, index):
        return np.sqrt(np.diag(self.height)[index])


def drifting(n, leg=0.004, stand=0.004, scale=0.0015, xy=None):
    """A (2n, 2n) plan and (n, n) height covariance of a walk whose legs and stands add noise."""
    steps = np.minimum.outer(np.arange(n), np.arange(n)) * leg**2
    one = steps + np.eye(n) * stand**2
    plan = np.zeros((n, 2, n, 2))
    plan[:, 0, :, 0] = plan[:, 1, :, 1] = one
    if xy is not None:
        rel = (xy - xy[0]).reshape(-1)
        plan = plan + (scale**2 * np.outer(rel, rel)).reshape(n, 2, n, 2)
    return plan.reshape(2 * n, 2 * n), one.copy()


def noisy(positions, rng):
    """The same stations, moved by one draw from their own covariance."""
    n = len(positions.xy)
    moved = positions.xy + (
        np.linalg.cholesky(positions.plan + 1e-18 * np.eye(2 * n)) @ rng.normal(size=2 * n)
    ).reshape(n, 2)
    lifted = positions.z + np.linalg.cholesky(positions.height + 1e-18 * np.eye(n)) @ rng.normal(size=n)
    return FakePositions(positions.walks, positions.plan, positions.height, moved, lifted)
