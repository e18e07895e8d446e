# SPDX-License-Identifier: GPL-2.0-or-later
"""Circles and arcs from points: through three, by least squares, and with the ends held fixed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from .errors import PointsInLine, TooFewPoints
from .quantity import Floats

IN_LINE = 0.0005
"""Metres: points nearer than this to one line make no circle."""
THREE = 3
"""Points that a circle needs."""
FLATTEST = 1e-9
"""Least curvature, by the size of the points, that the start of a circle fit gives."""
LEAST_CURVATURE = 1e-3
"""Part of the Gauss-Newton curvature below which the full one is not believed."""
ROUNDS = 60
"""Rounds of iteration at most; all fits of the tests end within 12, short noisy arcs within 40."""
STEP_END = 1e-13
"""Iteration ends at a step below this part of the size of the thing."""

Complexes = npt.NDArray[np.complex128]


@dataclass(frozen=True, eq=False)
class CircleFit:
    """A circle and how well it is known.

    Attributes:
        centre: (2,) metres.
        radius: metres.
        rms: root mean square of the distances from the points to the edge, metres.
        covariance: (3, 3) of centre x, y and radius, m2; None where no sigma is given or can be had.
    """

    centre: Floats
    radius: float
    rms: float
    covariance: Floats | None


@dataclass(frozen=True, eq=False)
class ArcFit:
    """An arc between two held ends, m points passed.

    Attributes:
        half: half of the sweep in radians, -pi to pi, positive to the left.
        by_points: (m+2, 2) change of `half` by metre of each point (start, passed points, end).
        residual: (m,) distance of each passed point from the edge, metres.
        residual_by_points: (m, m+2, 2) change of the residuals by metre of each point.
        along: (m,) half sweep from the start to each passed point's foot on the arc, radians.
        along_by_points: (m, m+2, 2) its change by metre of each point.
        foot: (m, 2) that foot, metres.
        foot_by_points: (m, 2, m+2, 2) its change by metre of each point.
    """

    half: float
    by_points: Floats
    residual: Floats
    residual_by_points: Floats
    along: Floats
    along_by_points: Floats
    foot: Floats
    foot_by_points: Floats


@dataclass(frozen=True, eq=False)
class ClosedFit:
    """A full circle through a held start, m points passed; fields as in ArcFit, points are start, passed.

    Attributes:
        centre: (2,) metres.
        centre_by_points: (2, m+1, 2).
        turn: 1 where the points go round to the left, -1 to the right.
        along: (m,) half sweep from the start to each passed point, radians, signed like `turn`.
    """

    centre: Floats
    centre_by_points: Floats
    turn: int
    residual: Floats
    residual_by_points: Floats
    along: Floats
    along_by_points: Floats
    foot: Floats
    foot_by_points: Floats


def circle_through(a: Floats, b: Floats, c: Floats) -> CircleFit:
    """The circle through three points (2,), metres.

    Raises:
        TooFewPoints: two of them are the same.
        PointsInLine: they lie on a line within 0.5 mm.
    """
    return fit_circle(np.array([a, b, c], float))


def fit_circle(points: Floats, sigma: float | None = None) -> CircleFit:
    """Fit the circle whose edge lies nearest to the points, by the sum of squared distances.

    Args:
        points: (n, 2) x and y in metres, n >= 3, in any order.
        sigma: one-sigma of a point in metres; if not given, taken from the residuals (n >= 4).
    Returns:
        Centre (2,), radius, RMS in metres; covariance (3, 3) of centre and radius in m2 (large for a short
        arc).
    Raises:
        TooFewPoints: fewer than three different points.
        PointsInLine: they lie on a line within 0.5 mm; the error gives its bearing.
    Source:
        Start: Taubin, IEEE PAMI 13 (1991) 1115-1138. Finish: Gander, Golub and Strebel, BIT 34 (1994)
        558-578. Both from memory.
    Example (the six points of Gander et al.):
        >>> fit = fit_circle(np.array([(1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)], float))
        >>> [round(float(v), 4) for v in (*fit.centre, fit.radius)]
        [4.7398, 2.9835, 4.7142]
    """
    points = np.asarray(points, float)
    _refuse_degenerate(points)
    mean = points.mean(axis=0)
    size = float(np.sqrt(((points - mean) ** 2).sum(axis=1).mean()))
    unit = (points - mean) / size
    centre, radius = _finish_circle(unit, *_start_taubin(unit))
    residual, jacobian = _circle_rows(unit, centre, radius)
    normal = jacobian.T @ jacobian
    free = len(points) - THREE
    if sigma is None and free:
        sigma = float(np.sqrt(residual @ residual / free)) * size
    covariance = None if sigma is None else sigma**2 * np.linalg.inv(normal)
    rms = float(np.sqrt((residual**2).mean())) * size
    return CircleFit(mean + centre * size, radius * size, rms, covariance)


def _refuse_degenerate(points: Floats) -> None:
    different = np.unique(points, axis=0)
    if len(different) < THREE:
        raise TooFewPoints("{n} different points make no circle. Give three or more.", n=len(different))
    mean = points.mean(axis=0)
    axis = np.linalg.svd(points - mean, full_matrices=False)[2]
    if np.abs((points - mean) @ axis[1]).max() < IN_LINE:
        bearing = float(np.degrees(np.arctan2(axis[0, 0], axis[0, 1])) % 180.0)
        raise PointsInLine(
            "The points lie on one line (bearing {bearing:.2f} degrees) within 0.5 mm. Give a point off it.",
            bearing=bearing,
        )


def _start_taubin(q: Floats) -> tuple[Floats, float]:
    """Taubin's algebraic fit by singular values, of points about their mean with mean square 1."""
    square = (q**2).sum(axis=1)
    mean = square.mean()
    scaled = (square - mean) / (2.0 * np.sqrt(mean))
    a0, a1, a2 = np.linalg.svd(np.column_stack([scaled, q]), full_matrices=False)[2][2]
    a0 = a0 / (2.0 * np.sqrt(mean))
    a0 = a0 if abs(a0) > FLATTEST else FLATTEST
    centre = -np.array([a1, a2]) / (2.0 * a0)
    return centre, float(np.sqrt(a1**2 + a2**2 + 4.0 * a0**2 * mean) / (2.0 * abs(a0)))


def _circle_rows(q: Floats, centre: Floats, radius: float) -> tuple[Floats, Floats]:
    away = q - centre
    distance = np.maximum(np.hypot(away[:, 0], away[:, 1]), 1e-300)
    jacobian = np.column_stack([-away / distance[:, None], -np.ones(len(q))])
    return distance - radius, jacobian


def _finish_circle(q: Floats, centre: Floats, radius: float) -> tuple[Floats, float]:
    """Gauss-Newton, damped so that the sum of squares never grows (Levenberg and Marquardt)."""
    damp = 0.0
    residual, jacobian = _circle_rows(q, centre, radius)
    for _ in range(ROUNDS):
        normal = jacobian.T @ jacobian
        step = np.linalg.solve(normal + damp * np.eye(3), -jacobian.T @ residual)
        trial = _circle_rows(q, centre + step[:2], radius + step[2])
        if trial[0] @ trial[0] > (residual @ residual) * (1.0 + 1e-14) + 1e-30:
            damp = max(10.0 * damp, 1e-6)
            continue
        centre, radius, damp = centre + step[:2], float(radius + step[2]), damp / 10.0
        residual, jacobian = trial
        if np.abs(step).max() < STEP_END * max(1.0, abs(radius)):
            break
    return centre, radius


def fit_arc(points: Floats) -> ArcFit:
    """The arc from the first point to the last that passes the points between (one: exactly; more: nearest
    by the sum of squared distances), and how it moves with all of them.

    Works where the chord runs from -1 to 1: with half sweep a and a passed point w there, the edge is
    N = sin a (|w|^2 - 1) - 2 cos a Im w = 0, the distance in half chords N/(1 + S), S = sqrt(1 + sin a N).
    Smooth through a = 0 (straight) and beyond a = pi/2 (more than half a circle). Derivatives by the
    implicit function theorem, second-order terms of the residuals included. Source: our own working from
    the inscribed angle (Euclid III.20, III.22).

    Args:
        points: (m+2, 2) start, passed points in order, end; m >= 1, start and end apart.
    Raises:
        TooFewPoints: no passed point, or start and end are the same point, or one of them is passed.
    """
    p = np.ascontiguousarray(points, float)[:, 0] + 1j * np.asarray(points, float)[:, 1]
    d = 0.5 * (p[-1] - p[0])
    if len(p) < THREE or d == 0 or np.any((p[1:-1] == p[0]) | (p[1:-1] == p[-1])):
        raise TooFewPoints("An arc needs two ends apart and points between them, apart from both.")
    w = ((p[1:-1] - p[0]) - d) / d
    half = _fit_half(w)
    r, r_a, r_w, r_aa, r_wa = _arc_rows(half, w)
    by_w = _by_points(w, d)
    gauss = float((r_a**2).sum())
    curvature = gauss + float((r * r_aa).sum())
    # At the least sum of squares the second derivative is positive; where noise swamps the arc it need not be.
    curvature = curvature if curvature > LEAST_CURVATURE * gauss else gauss
    half_by = _pull(-(r_wa * r + r_a * r_w) / curvature, by_w).sum(axis=0)
    residual_by = (_pull(r_w, by_w) + r_a[:, None, None] * half_by) * abs(d)
    residual_by[:, 0] += r[:, None] * _unit(-d) * 0.5
    residual_by[:, -1] += r[:, None] * _unit(d) * 0.5
    return ArcFit(half, half_by, r * abs(d), residual_by, *_feet(p, d, w, half, half_by, by_w))


def _unit(d: complex) -> Floats:
    return np.array([d.real, d.imag]) / abs(d)


def _by_points(w: Complexes, d: complex) -> Complexes:
    """(m, m+2) complex change of each w by its own point and by the two ends."""
    m = len(w)
    out = np.zeros((m, m + 2), complex)
    out[:, 0], out[:, -1] = (w - 1.0) / (2.0 * d), (-w - 1.0) / (2.0 * d)
    out[np.arange(m), np.arange(m) + 1] = 1.0 / d
    return out


def _pull(gradient: npt.NDArray[Any], by_w: Complexes) -> Floats:
    """(m, m+2, 2) real gradients by the points, of real figures with gradient g (complex) by w."""
    g = gradient[:, None] * np.conj(by_w)
    return np.stack([g.real, g.imag], axis=-1)


def _fit_half(w: Complexes) -> float:
    """Half sweep: the passed point nearest the middle gives the start, then Newton on the sum of squares."""
    size = np.abs(w) ** 2
    single = np.arctan2(-2.0 * w.imag, 1.0 - size)
    if len(w) == 1:
        return float(single[0])
    with np.errstate(divide="ignore"):
        half = float(single[np.argmin(np.abs(np.log(np.abs(1.0 + w)) - np.log(np.abs(1.0 - w))))])
    for _ in range(ROUNDS):
        r, r_a, _, r_aa, _ = _arc_rows(half, w)
        gauss = float((r_a**2).sum())
        newton = gauss + float((r * r_aa).sum())
        step = -float((r * r_a).sum()) / (newton if newton > 0.5 * gauss else gauss)
        step = float(np.clip(step, -0.5, 0.5))
        limit = np.pi * (1.0 - 1e-9)
        half = min(max(half + step, -limit), limit)
        if abs(step) < 1e-15 + STEP_END * abs(half):
            break
    return half


def _arc_rows(half: float, w: Complexes) -> tuple[Floats, Floats, Complexes, Floats, Complexes]:
    """Residual r of each w in half chords, and r_a, r_w (complex), r_aa, r_wa."""
    sin, cos = np.sin(half), np.cos(half)
    size = np.abs(w) ** 2 - 1.0
    n = sin * size - 2.0 * cos * w.imag
    away = sin * w - 1j * cos
    s = np.abs(away)
    r = n / (1.0 + s)
    r_a = (cos * size + 2.0 * sin * w.imag - r * r * cos) / (2.0 * s)
    s_a = r_a * sin + r * cos
    r_aa = (-n - 2.0 * r * r_a * cos + r * r * sin) / (2.0 * s) - r_a * s_a / s
    r_wa = (cos * w + 1j * sin) / s - away * s_a / s**2
    return r, r_a, away / s, r_aa, r_wa


def _feet(
    p: Complexes, d: complex, w: Complexes, half: float, half_by: Floats, by_w: Complexes
) -> tuple[Floats, Floats, Floats, Floats]:
    """Where each passed point comes to lie on the arc: along the circle that meets all arcs between these
    ends at right angles (radial but for second order), so |1 + w|/|1 - w| is kept. Returns half sweep from
    the start, foot, and their changes by the points."""
    m = len(w)
    ratio = np.abs(1.0 + w) / np.abs(1.0 - w)
    log_by = _pull(np.conj(2.0 / (1.0 - w * w)), by_w)
    cos, sin = np.cos(half), np.sin(half)
    along = np.arctan2(ratio * sin, 1.0 + ratio * cos)
    below = 1.0 + 2.0 * ratio * cos + ratio**2
    along_by = ((ratio**2 + ratio * cos) / below)[:, None, None] * half_by
    along_by = along_by + (ratio * sin / below)[:, None, None] * log_by
    t = ratio * np.exp(-1j * half)
    on = (t - 1.0) / (t + 1.0)
    foot = p[0] + d * (1.0 + on)
    change = (2.0 * d * t / (t + 1.0) ** 2)[:, None, None] * (log_by - 1j * half_by)
    foot_by = np.stack([change.real, change.imag], axis=1)
    foot_by[:, :, 0] += _turning((1.0 - on) / 2.0)
    foot_by[:, :, m + 1] += _turning((1.0 + on) / 2.0)
    return along, along_by, np.column_stack([foot.real, foot.imag]), foot_by


def _turning(k: Complexes) -> Floats:
    """(m, 2, 2) real matrices of the multiplications by k."""
    return np.stack([np.stack([k.real, -k.imag], -1), np.stack([k.imag, k.real], -1)], -2)


def fit_closed_circle(points: Floats) -> ClosedFit:
    """The full circle through the first point that lies nearest to the others (two: exactly), by the sum of
    squared distances, and how it moves with all of them.

    Args:
        points: (m+1, 2) start, then the passed points in the order of walking; m >= 2.
    Raises:
        TooFewPoints: fewer than three different points.
        PointsInLine: they lie on a line within 0.5 mm.
    """
    points = np.asarray(points, float)
    _refuse_degenerate(points)
    q = points[1:] - points[0]
    centre = np.linalg.lstsq(2.0 * q, (q**2).sum(axis=1), rcond=None)[0]
    size = float(np.abs(q).max())
    for _ in range(ROUNDS):
        r, j, h, _ = _closed_rows(q, centre)
        gauss = j.T @ j
        newton = gauss + h
        normal = newton if np.linalg.eigvalsh(newton)[0] > 0.1 * np.linalg.eigvalsh(gauss)[0] else gauss
        step = -np.linalg.solve(normal, j.T @ r)
        centre = centre + step
        if np.abs(step).max() < STEP_END * size:
            break
    return _closed_fit(points, q, centre)


def _closed_rows(q: Floats, centre: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Residuals of the points q (start at 0), their change by the centre, the second-order part of the
    normal matrix, and (m+1, 2) unit vectors from the centre (start first)."""
    away = np.vstack([np.zeros(2), q]) - centre
    distance = np.hypot(away[:, 0], away[:, 1])
    u = away / distance[:, None]
    r = distance[1:] - distance[0]
    bend = _across(u) / distance[:, None, None]
    return r, u[0] - u[1:], np.einsum("i,ijk->jk", r, bend[1:] - bend[0]), u


def _across(u: Floats) -> Floats:
    return np.asarray(np.eye(2) - u[:, :, None] * u[:, None, :])


def _closed_fit(points: Floats, q: Floats, centre: Floats) -> ClosedFit:
    m = len(q)
    r, j, h, u = _closed_rows(q, centre)
    away = np.vstack([np.zeros(2), q]) - centre
    distance = np.hypot(away[:, 0], away[:, 1])
    bend = _across(u) / distance[:, None, None]
    pull = np.zeros((2, m + 1, 2))
    pull[:, 1:] = np.einsum("ij,ik->jik", j, u[1:]) - np.einsum("i,ijk->jik", r, bend[1:])
    pull[:, 0] = -j.sum(axis=0)[:, None] * u[0] + r.sum() * bend[0]
    centre_by = -np.einsum("ab,bik->aik", np.linalg.inv(j.T @ j + h), pull)
    residual_by = np.einsum("ia,abk->ibk", j, centre_by)
    residual_by[np.arange(m), np.arange(m) + 1] += u[1:]
    residual_by[:, 0] -= u[0]
    corners = np.vstack([np.zeros(2), q, np.zeros(2)])
    turn = 1 if (corners[:-1, 0] * corners[1:, 1] - corners[1:, 0] * corners[:-1, 1]).sum() >= 0 else -1
    return ClosedFit(
        points[0] + centre,
        centre_by,
        turn,
        r,
        residual_by,
        *_closed_feet(points, centre, centre_by, turn, u, distance),
    )


def _closed_feet(
    points: Floats, centre: Floats, centre_by: Floats, turn: int, u: Floats, distance: Floats
) -> tuple[Floats, Floats, Floats, Floats]:
    m = len(points) - 1
    angle = np.arctan2(u[:, 1], u[:, 0])
    along = turn * np.mod(turn * (angle[1:] - angle[0]), 2.0 * np.pi) / 2.0
    normal = np.column_stack([-u[:, 1], u[:, 0]])
    angle_by = -np.einsum("ia,abk->ibk", normal / distance[:, None], centre_by)
    angle_by[np.arange(m + 1), np.arange(m + 1)] += normal / distance[:, None]
    radius = distance[0]
    radius_by = -np.einsum("a,abk->bk", u[0], centre_by)
    radius_by[0] += u[0]
    foot = points[0] + centre + radius * u[1:]
    foot_by = centre_by[None] + np.einsum("ia,bk->iabk", u[1:], radius_by)
    foot_by = foot_by + radius * np.einsum("ia,ibk->iabk", normal[1:], angle_by[1:])
    return along, 0.5 * (angle_by[1:] - angle_by[0]), foot, foot_by
