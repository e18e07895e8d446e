# SPDX-License-Identifier: GPL-2.0-or-later
"""Each piece of a walked line fitted alone, and whether two neighbours meet as tangents."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...circle import fit_circle
from ...errors import PointsInLine, TooFewPoints
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
UNIT = 1000.0
"""Points are fitted at this size, so that what is taken as in line does not hang on their own."""


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


def fit_alone(points: Floats, cut: Cut) -> Lone:
    """The piece nearest to its own rows; an arc whose rows lie in line is a straight.

    Args:
        points: (n, 2) all rows, metres.
        cut: which of them, and the kind.
    """
    own = points[cut.first : cut.last + 1]
    if cut.kind is PieceKind.ARC:
        try:
            return _fit_arc(own)
        except (PointsInLine, TooFewPoints, np.linalg.LinAlgError):
            pass
    return _fit_straight(own)


def _fit_straight(own: Floats) -> Lone:
    middle = own.mean(axis=0)
    q = own - middle
    along = np.linalg.svd(q, full_matrices=False)[2][0]
    along = along if (own[-1] - own[0]) @ along >= 0.0 else -along
    far = max(float(((q @ along) ** 2).sum()), 1e-300)
    cofactor = np.diag([1.0 / len(own), 1.0 / far, 0.0])
    residual = along[0] * q[:, 1] - along[1] * q[:, 0]
    u = q @ along
    is_arc, back = False, float((np.maximum.accumulate(u) - u).max())
    return Lone(is_arc, middle, along, float("inf"), cofactor, residual, 0.0, back)


def _fit_arc(own: Floats) -> Lone:
    mean = own.mean(axis=0)
    size = max(float(np.sqrt(((own - mean) ** 2).sum(axis=1).mean())), 1e-300) / UNIT
    fit = fit_circle((own - mean) / size, sigma=1.0)
    centre, radius = mean + fit.centre * size, fit.radius * size
    away = own - centre
    angle = np.unwrap(np.arctan2(away[:, 1], away[:, 0]))
    sweep = float(angle[-1] - angle[0])
    turn = 1.0 if sweep >= 0.0 else -1.0
    residual = turn * (radius - np.hypot(away[:, 0], away[:, 1]))
    sign = np.array([1.0, 1.0, turn])
    cofactor = np.asarray(fit.covariance) * np.outer(sign, sign)
    chord = own[-1] - own[0]
    along = chord / max(float(np.hypot(*chord)), 1e-300)
    far = np.maximum.accumulate(turn * angle) - turn * angle
    is_arc, back = True, float(far.max()) * radius
    return Lone(is_arc, centre, along, turn * radius, np.asarray(cofactor, float), residual, sweep, back)


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
