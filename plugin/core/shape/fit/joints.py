# SPDX-License-Identifier: GPL-2.0-or-later
"""Each piece of a walked line fitted alone, and whether two neighbours meet as tangents."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...quantity import Floats
from .cuts import Cut, PieceKind

TANGENT_SIGMAS = 4.0
"""Two pieces that miss being tangents by fewer sigma than this are taken as such."""
HOPEFUL = 2.0
"""Times as many sigma while it is not yet settled which rows belong to which piece."""
GENTLE = np.radians(12.0)
"""Radians: a turn as small as this may come of such rows alone."""
SHARPEST = np.radians(60.0)
"""Radians: a turn as sharp as this between two pieces is a corner, however little is known of them."""
WIDEST_ARC = np.radians(350.0)
"""Radians of sweep: an arc that goes farther round is fitted as two."""
TURNED_BACK = 12.0
"""Sigma that rows may go back along their piece: noise, or a pause, but no turning round."""
IN_LINE = 5e-7
"""Part of their size within which points lie in line, and are no arc."""
FLATTEST = 1e-9
"""Curvature by the size of the points below which an arc is a straight."""
ROUNDS = 20
"""Rounds of iteration at most; arcs end within 6."""
STEP_END = 1e-12
"""Iteration ends where the sum of squares gets less by this part only."""


@dataclass(frozen=True, eq=False)
class Lone:
    """A piece fitted without its neighbours.

    Attributes:
        is_arc: whether it is one.
        middle: (2,) a point of the straight, or the centre of the arc, metres.
        along: (2,) direction of the straight, unit length; of an arc that from its first row to its last.
        radius: signed, positive where the arc turns left; infinite for a straight.
        cofactor: (3, 3) by sigma squared: of the arc's centre and signed radius; of a straight's distance to the
            left, its direction, and nothing.
        residual: (m,) distances of its rows, metres.
        sweep: radians from its first row to its last, signed.
        back: metres that its rows go back along it at most.
    """

    is_arc: bool
    middle: Floats
    along: Floats
    radius: float
    cofactor: Floats
    residual: Floats
    sweep: float
    back: float = 0.0

    def foot(self, point: Floats) -> Floats:
        """The point of the piece (drawn on beyond its ends) that lies nearest."""
        away = point - self.middle
        if not self.is_arc:
            return np.asarray(self.middle + self.along * (away @ self.along))
        return np.asarray(self.middle + abs(self.radius) * away / max(float(np.hypot(*away)), 1e-300))

    def heading(self, point: Floats) -> float:
        """Direction in radians in which the piece passes a point near it."""
        if not self.is_arc:
            return float(np.arctan2(self.along[1], self.along[0]))
        away = point - self.middle
        return float(np.arctan2(away[1], away[0]) + np.copysign(np.pi / 2.0, self.radius))


class Alone:
    """Fits pieces of one line each alone, and none of them twice."""

    def __init__(self, points: Floats) -> None:
        """Args: points: (n, 2) all rows, metres."""
        self.points = points
        self._known: dict[Cut, Lone] = {}

    def fit(self, cut: Cut) -> Lone:
        """The piece nearest to its own rows, as fit_alone."""
        lone = self._known.get(cut)
        if lone is None:
            lone = self._known[cut] = fit_alone(self.points, cut)
        return lone


def fit_alone(points: Floats, cut: Cut) -> Lone:
    """The piece nearest to its own rows; an arc whose rows lie in line is a straight.

    Args:
        points: (n, 2) all rows, metres.
        cut: which of them, and the kind.
    """
    own = points[cut.first : cut.last + 1]
    middle = own.mean(axis=0)
    q = own - middle
    xx, xy, yy = float(q[:, 0] @ q[:, 0]), float(q[:, 0] @ q[:, 1]), float(q[:, 1] @ q[:, 1])
    turn = 0.5 * np.arctan2(2.0 * xy, xx - yy)
    along = np.array([np.cos(turn), np.sin(turn)])
    along = along if (own[-1] - own[0]) @ along >= 0.0 else -along
    across = along[0] * q[:, 1] - along[1] * q[:, 0]
    size = max(float(np.sqrt((xx + yy) / len(own))), 1e-300)
    if cut.kind is PieceKind.ARC and len(own) >= 3 and np.abs(across).max() > IN_LINE * size:
        arc = _fit_arc(own, middle, q / size, size)
        if arc is not None:
            return arc
    u = q @ along
    cofactor = np.diag([1.0 / len(own), 1.0 / max(float(u @ u), 1e-300), 0.0])
    back = float((np.maximum.accumulate(u) - u).max())
    is_arc = False
    return Lone(is_arc, middle, along, float("inf"), cofactor, across, 0.0, back)


def _fit_arc(own: Floats, mean: Floats, q: Floats, size: float) -> Lone | None:
    """The circle nearest to points q about their mean with mean square 1; None where it is too flat to be one."""
    bend, turn, shift = _bend_to(q, *_start_arc(q))
    if not abs(bend) > FLATTEST:
        return None
    root = np.sqrt(max(1.0 + 2.0 * bend * shift, 0.0))
    centre = -root / bend * np.array([np.cos(turn), np.sin(turn)])
    away = q - centre
    distance = np.maximum(np.hypot(away[:, 0], away[:, 1]), 1e-300)
    place = away[:, 0] + 1j * away[:, 1]
    angle = np.append(0.0, np.cumsum(np.angle(place[1:] * np.conj(place[:-1]))))
    sweep, radius = float(angle[-1]), 1.0 / abs(bend)
    side = 1.0 if sweep >= 0.0 else -1.0
    design = np.column_stack([away / distance[:, None], np.full(len(q), side)])
    cofactor = _inverse(design.T @ design)
    if cofactor is None:
        return None
    chord = own[-1] - own[0]
    along = chord / max(float(np.hypot(*chord)), 1e-300)
    back = float((np.maximum.accumulate(side * angle) - side * angle).max()) * radius * size
    residual = side * (radius - distance) * size
    is_arc, middle = True, mean + centre * size
    return Lone(is_arc, middle, along, side * radius * size, cofactor, residual, sweep, back)


def _start_arc(q: Floats) -> tuple[float, float, float]:
    """Bend, direction and shift (as _bend_to has them) of Taubin's algebraic circle."""
    square = (q**2).sum(axis=1)
    rows = np.column_stack([0.5 * (square - 1.0), q])
    a, b, c = np.linalg.eigh(rows.T @ rows)[1][:, 0]
    norm = np.sqrt(b * b + c * c + a * a)
    return float(a / norm), float(np.arctan2(c, b)), float(-0.5 * a / norm)


def _bend_to(q: Floats, bend: float, turn: float, shift: float) -> tuple[float, float, float]:
    """The least sum of squared distances, by Gauss and Newton on F = bend/2 |q|^2 + s (q . n) + shift, where n has the
    direction `turn` and s^2 = 1 + 2 bend shift. A distance d of a point is told by F = d + bend d^2/2, which is nearly
    linear for flat arcs, and holds for full circles too. (Our own working; the form is Pratt's, 1987, from memory.)."""
    square = 0.5 * (q**2).sum(axis=1)
    last = np.inf
    for _ in range(ROUNDS):
        root = np.sqrt(max(1.0 + 2.0 * bend * shift, 1e-12))
        cos, sin = np.cos(turn), np.sin(turn)
        out = q[:, 0] * cos + q[:, 1] * sin
        value = bend * square + root * out + shift
        distance = 2.0 * value / (1.0 + np.sqrt(np.maximum(1.0 + 2.0 * bend * value, 0.0)))
        by = np.empty((3, len(q)))
        by[0] = square + shift / root * out - 0.5 * distance**2
        by[1] = root * (q[:, 1] * cos - q[:, 0] * sin)
        by[2] = 1.0 + bend / root * out
        by /= 1.0 + bend * distance
        inverse = _inverse(by @ by.T)
        squares = float(distance @ distance)
        if inverse is None or squares >= last * (1.0 - STEP_END):
            break
        last = squares
        step = -inverse @ (by @ distance)
        bend, turn, shift = bend + float(step[0]), turn + float(step[1]), shift + float(step[2])
    return bend, turn, shift


def _inverse(m: Floats) -> Floats | None:
    """Of a symmetric matrix (3, 3); None where it has none."""
    a, b, c, d, e, f = (float(v) for v in (m[0, 0], m[0, 1], m[0, 2], m[1, 1], m[1, 2], m[2, 2]))
    one, two, three = d * f - e * e, c * e - b * f, b * e - c * d
    whole = a * one + b * two + c * three
    if not whole > 0.0:
        return None
    four, five, six = a * f - c * c, b * c - a * e, a * d - b * b
    return np.array([[one, two, three], [two, four, five], [three, five, six]]) / whole


def turn_between(before: Lone, after: Lone, point: Floats) -> float:
    """The turn from one piece to the next near a point, radians, -pi to pi."""
    return float(np.angle(np.exp(1j * (after.heading(point) - before.heading(point)))))


def is_smooth(before: Lone, after: Lone, point: Floats, sigma: float, *, hopeful: bool = False) -> bool:
    """Whether two pieces may be tangents where they meet: what they miss by is within its own sigma.

    A straight and an arc are tangents where the centre lies as far to the left as the signed radius; two arcs
    where their centres lie as far apart as their signed radii differ. Two straights never are.

    Args:
        before: the piece before, as fitted alone.
        after: the piece after it.
        point: (2,) where they meet, metres.
        sigma: one-sigma of a row, metres.
        hopeful: whether the division of the rows at the joint is only a first guess.
    """
    turn = abs(turn_between(before, after, point))
    if not (before.is_arc or after.is_arc) or turn > SHARPEST:
        return False
    gap, cofactor = _gap_of_arcs(before, after) if before.is_arc and after.is_arc else _gap(before, after)
    most = TANGENT_SIGMAS * (HOPEFUL if hopeful else 1.0) * sigma * np.sqrt(max(cofactor, 0.0))
    return bool(abs(gap) <= most) or (hopeful and turn <= GENTLE)


def _gap(before: Lone, after: Lone) -> tuple[float, float]:
    straight, arc = (after, before) if before.is_arc else (before, after)
    left = np.array([-straight.along[1], straight.along[0]])
    away = arc.middle - straight.middle
    by = np.array([left[0], left[1], -1.0])
    swing = np.array([-1.0, -float(away @ straight.along), 0.0])
    gap = float(away @ left) - arc.radius
    return gap, float(by @ arc.cofactor @ by + swing @ straight.cofactor @ swing)


def _gap_of_arcs(before: Lone, after: Lone) -> tuple[float, float]:
    away = before.middle - after.middle
    length = max(float(np.hypot(*away)), 1e-300)
    turn = np.copysign(1.0, before.radius - after.radius)
    by = np.array([*(away / length), -turn])
    gap = length - abs(before.radius - after.radius)
    return gap, float(by @ (before.cofactor + after.cofactor) @ by)
