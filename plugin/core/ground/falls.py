# SPDX-License-Identifier: GPL-2.0-or-later
"""Falls: the plane nearest to points or to a surface within an outline, where it falls to, and along and across any way."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..errors import BadInput, PointsInLine, TooFewPoints
from ..quantity import Floats, Ints, Quantity
from .depths import Ground
from .overlay import Facets, Pieces, lay_over
from .surface import Surface

ANY_DIRECTION = math.pi / math.sqrt(3.0)
"""Radians: the one-sigma of a direction of which nothing is known."""
IN_LINE = 1e-10
"""Determinant of a spread by the square of its trace below which its points lie in one line."""
CORNERS = 3
"""A plane goes through so many points."""
NEGLIGIBLE = 1e-6
"""Of a triangle: where no more of it lies inside, it is not asked how steep it is."""


@dataclass(frozen=True, eq=False)
class PlaneFall:
    """A plane over the ground.

    Attributes:
        slope: (2,) rise by metre east and north. covariance: (2, 2) of them.
        rms: of the heights off the plane, metres.
    """

    slope: Floats
    covariance: Floats
    rms: float

    @property
    def fall(self) -> Quantity:
        """The steepest fall, a ratio, never negative; its sigma is of the first order.

        Level to the last digit it has no direction to vary in; its sigma is then the larger one. A fall of less than some
        two of its sigma is larger than the true one more often than not, as any length of an uncertain vector is.
        """
        size = float(np.hypot(*self.slope))
        if not size > 0.0:
            return Quantity(0.0, _root(float(np.linalg.eigvalsh(self.covariance)[-1])), "ratio")
        unit = self.slope / size
        return Quantity(size, _root(float(unit @ self.covariance @ unit)), "ratio")

    @property
    def toward(self) -> Quantity | None:
        """Where it falls to, radians anticlockwise from east, -pi to pi; None on the level. Its sigma is never more than
        that of a direction of which nothing is known."""
        square = float(self.slope @ self.slope)
        if not square > 0.0:
            return None
        turn = np.array([-self.slope[1], self.slope[0]]) / square
        sigma = min(_root(float(turn @ self.covariance @ turn)), ANY_DIRECTION)
        return Quantity(math.atan2(-self.slope[1], -self.slope[0]), sigma, "rad")

    def along(self, direction: float) -> Quantity:
        """Rise by run going that way (radians anticlockwise from east), positive up."""
        return self._towards(np.array([math.cos(direction), math.sin(direction)]))

    def across(self, direction: float) -> Quantity:
        """Crossfall of who goes that way: positive where the ground falls to the right."""
        return self._towards(np.array([-math.sin(direction), math.cos(direction)]))

    def _towards(self, unit: Floats) -> Quantity:
        return Quantity(float(unit @ self.slope), _root(float(unit @ self.covariance @ unit)), "ratio")


def fit_fall(
    points: Floats, sigma: Floats | float, plan_sigma: float = 0.0, shared: Floats | None = None
) -> PlaneFall:
    """The plane nearest in height to points, each counted alike.

    Args:
        points: (n, 3) metres in the survey plane.
        sigma: one-sigma of each height, metres: one, or (n,); the heights err independently. What all share evenly is in
            no fall.
        plan_sigma: one-sigma of each point along east and north, metres.
        shared: (n, k) what the heights move by with errors that several have in common, metres, if there are such.
    Raises:
        TooFewPoints: fewer than three points. PointsInLine: all in one line. BadInput: one has no place or height.
    Source:
        Least squares: with d the points about their mean and S = sum d d', the slope is S^-1 sum d z; a point moves it by
        S^-1 d in height and by S^-1 (e r - d p_e) along the axis e, r being its residual.
    """
    points = np.asarray(points, float).reshape(-1, 3)
    if not np.isfinite(points).all():
        raise BadInput("A point has no place or no height, so that its fall is not known. Give it one.")
    if len(points) < CORNERS:
        raise TooFewPoints(
            "A fall needs three points with heights; there are {count}. Give more.", count=len(points)
        )
    d = points[:, :2] - points[0, :2]
    d = d - d.mean(axis=0)
    z = points[:, 2] - points[0, 2]
    inverse = _inverse(d.T @ d)
    slope = inverse @ (d.T @ (z - z.mean()))
    residual = z - z.mean() - d @ slope
    by_z = d @ inverse
    worth = np.broadcast_to(np.asarray(sigma, float), len(points))
    covariance = (by_z * worth[:, None] ** 2).T @ by_z
    if shared is not None:
        together = by_z.T @ shared
        covariance = covariance + together @ together.T
    if plan_sigma:
        for axis in (0, 1):
            by = residual[:, None] * inverse[axis] - by_z * slope[axis]
            covariance = covariance + plan_sigma**2 * by.T @ by
    return PlaneFall(slope, covariance, _root(float((residual**2).mean())))


def _inverse(spread: Floats) -> Floats:
    """Of a spread of places (2, 2).

    Raises:
        PointsInLine: they lie in one line.
    """
    determinant = spread[0, 0] * spread[1, 1] - spread[0, 1] ** 2
    if not determinant > IN_LINE * np.trace(spread) ** 2:
        raise PointsInLine(
            "The points lie in one line, so that they tell no fall across it. Give one beside it."
        )
    return np.asarray(np.array([[spread[1, 1], -spread[0, 1]], [-spread[0, 1], spread[0, 0]]]) / determinant)


@dataclass(frozen=True, eq=False)
class SurfaceFall:
    """The fall of a surface within an outline.

    Attributes:
        plane: nearest to it, over its area. steepest, flattest: of its triangles there, ratios; of the points' heights
            alone, and of many triangles the extremes are rather too far apart.
        area: that was measured, m2; weak: of that, where no one should lean on the triangles; left_out: what of the
            outline is not on the surface.
    """

    plane: PlaneFall
    steepest: Quantity
    flattest: Quantity
    area: float
    weak: float
    left_out: float


def measure_surface_fall(ground: Ground) -> SurfaceFall:
    """The plane nearest to a surface over an outline's area, and its steepest and flattest triangle.

    Args:
        ground: the surface and the outlines (its target counts for nothing).
    Raises:
        BadInput: the outlines are not on the surface. PointsInLine: what is on it is a thread.
    Source:
        The integral of (z - plane)^2 over the area is least where M p = integral of d z, d about the centre of the area and M
        the integral of d d'. Over a piece of a triangle z and d are affine, so that the middles of the sides of its
        triangles give the integrals exactly. With phi = M^-1 d the ground between the points adds the double integral of
        phi phi' rough^2 exp(-distance/reach) to the covariance. The integral of phi phi' is M^-1, so that this is at most
        rough^2 2 pi reach^2 M^-1, the spectrum of exp(-r/reach) in the plane being largest at 0. Over an area of the
        diameter D it is at most rough^2 A/2 (1 - exp(-D/reach)) M^-1 too: the integral of phi is 0, so that only pairs of
        opposite sign count, each by no more than 1 - exp(-D/reach), and the integrals of their sizes are bounded by A and
        M^-1 (Cauchy and Schwarz). The smaller one is taken: never too small, some three times too large at worst.
    """
    moments = [_moments(ground.above, pieces) for pieces in lay_over(ground.above, None, ground.filled)]
    which = np.concatenate([m[0] for m in moments]) if moments else np.empty(0, np.int64)
    hats = np.concatenate([m[1] for m in moments]) if moments else np.empty((0, 3, 3))
    more = np.sum([m[2] for m in moments], axis=0) if moments else np.zeros(4)
    area = float(hats[:, :, 0].sum())
    if not area > 0.0:
        raise BadInput("No ground of the outline lies on the surface. Move it, or extend the surface.")
    upper = ground.upper
    by = _by_point(upper, which, hats)
    centre = by[:, 1:].sum(axis=0) / area
    spread = more[:3][[[0, 1], [1, 2]]] - area * np.outer(centre, centre)
    change = (by[:, 1:] - by[:, :1] * centre) @ _inverse(spread)
    z = upper.points[:, 2] - ground.centre[2]
    slope = change.T @ z
    covariance = upper.covariance_by(change.T)
    covariance += _between_points(ground, area) * _inverse(spread)
    mean = float(by[:, 0] @ z) / area
    rest = float(more[3]) / area - mean**2 - float(slope @ spread @ slope) / area
    steepest, flattest, weak = _extremes(upper, which, hats[:, :, 0].sum(axis=1))
    left = max(ground.filled.area - area, 0.0) if ground.filled is not None else 0.0
    return SurfaceFall(
        PlaneFall(slope, covariance, _root(max(rest, 0.0))), steepest, flattest, area, weak, left
    )


def _between_points(ground: Ground, area: float) -> float:
    """What the ground between the points adds, by M^-1: m2 m2."""
    reach = ground.upper.reach
    if not reach > 0.0:
        return 0.0
    xy = ground.filled.ends.reshape(-1, 2) if ground.filled is not None else ground.upper.points[:, :2]
    across = float(np.hypot(*np.ptp(xy, axis=0)))
    part = -math.expm1(-across / reach)
    return ground.upper.rough**2 * min(0.5 * area * part, 2.0 * math.pi * reach**2)


def _moments(facets: Facets, pieces: Pieces) -> tuple[Ints, Floats, Floats]:
    """Of some pieces: (n,) their triangles; (n, 3, 3) the integrals of each corner's weight, and of it times x and y; and
    the sums (4,) of the integrals of xx, xy, yy and of the square of the height."""
    x, y = pieces.x, pieces.y
    hats, more = np.zeros((len(pieces), 3, 3)), np.zeros(4)
    for k in range(1, len(x) - 1):
        dx, dy = x[[k, k + 1]] - x[0], y[[k, k + 1]] - y[0]
        third = (dx[0] * dy[1] - dx[1] * dy[0]) / 6.0
        for a, b in ((0, k), (k, k + 1), (k + 1, 0)):
            px, py = 0.5 * (x[a] + x[b]), 0.5 * (y[a] + y[b])
            second, last = facets.weights_at(pieces.upper, px, py)
            weights = np.column_stack([1.0 - second - last, second, last]) * third[:, None]
            for axis, by in enumerate((np.ones(len(px)), px, py)):
                hats[:, :, axis] += weights * by[:, None]
            z = facets.heights_at(pieces.upper, px, py)
            more += np.array([third @ (px * px), third @ (px * py), third @ (py * py), third @ (z * z)])
    return pieces.upper, hats, more


def _by_point(surface: Surface, which: Ints, hats: Floats) -> Floats:
    """(n, 3) the integrals by the surface's points."""
    at = surface.triangles[which].reshape(-1)
    flat = hats.reshape(-1, 3)
    return np.column_stack([np.bincount(at, flat[:, k], len(surface.points)) for k in range(3)])


def _extremes(surface: Surface, which: Ints, areas: Floats) -> tuple[Quantity, Quantity, float]:
    """The steepest and the flattest triangle, and the area in weak ones, which are only asked where there are no others."""
    own = np.bincount(which, areas, len(surface.triangles))
    weak = float(own[surface.is_weak].sum())
    inside = own > NEGLIGIBLE * surface.areas
    some = np.flatnonzero(inside & ~surface.is_weak)
    if not len(some):
        some = np.flatnonzero(inside if inside.any() else own > 0.0)
    size = np.hypot(*surface.slopes[some].T)
    ends = some[[int(np.argmax(size)), int(np.argmin(size))]]
    told = [triangle_fall(surface, int(k)).fall for k in ends]
    return told[0], told[1], weak


def triangle_fall(surface: Surface, triangle: int) -> PlaneFall:
    """The plane of one triangle, from its three points alone."""
    corners = surface.triangles[triangle]
    return fit_fall(surface.points[corners], surface.sigma[corners], shared=surface.shared[corners])


def _root(square: float) -> float:
    return math.sqrt(max(square, 0.0))
