# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines that a survey drew, and what their points are worth together, as the survey's rows say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..measure.rows import PointErrors
from ..quantity import Floats, Ints
from .lines import Line
from .worth import JointWorth

SAME_WAY = 1e-3
"""Metres, and of a way from one point to the next: a line that differs by less is as the survey drew it. A map's plane of
another height, or a datum, changes a way by less; a corner that somebody moved changes it by more, or hardly matters."""


def seat_lines(
    lines: Sequence[Line], errors: Sequence[PointErrors]
) -> tuple[tuple[Line, ...], JointWorth] | None:
    """Lines that know which of the survey's points they go through, and what these are worth.

    Args:
        lines: in one plane, metres; of one feature.
        errors: of the points of each, as its row says.
    Returns:
        None where a line is no more as the survey drew it, or the survey does not say what its heights are worth.
    """
    if not _agree(errors):
        return None
    seated, plan, first = [], [], 0
    for line, told in zip(lines, errors):
        found = _found(line, told)
        if found is None or (line.has_heights and np.isnan(told.own[found.seats, 1]).any()):
            return None
        plan.append(told.plan @ found.turn.T)
        seats = found.seats
        if line.is_closed:
            seats[-1] = seats[0]
        seated.append(replace(line, seats=seats + first))
        first += len(told.xy)
    own, height = (np.concatenate(parts) for parts in ([t.own for t in errors], [t.height for t in errors]))
    return tuple(seated), JointWorth(np.nan_to_num(own), np.concatenate(plan), np.nan_to_num(height))


def _agree(errors: Sequence[PointErrors]) -> bool:
    """Whether numbers that were read are what they should be, and the errors in common are the same of all runs."""
    for told in errors:
        count, parts, lifts = len(told.xy), errors[0].plan.shape[1], errors[0].height.shape[1]
        wanted = ((count, 2), (count, 2), (count, parts, 2), (count, lifts))
        arrays = (told.xy, told.own, told.plan, told.height)
        if count == 0 or any(array.shape != shape for array, shape in zip(arrays, wanted)):
            return False
        if not (np.isfinite(told.xy).all() and np.isfinite(told.plan).all()) or np.isinf(told.own).any():
            return False
        if np.isnan(told.own[:, 0]).any() or np.isinf(told.height).any():
            return False
    return True


@dataclass(frozen=True, eq=False)
class _Found:
    """(n,) the survey's number of each point of a line; (2, 2) the rotation from the survey plane to that of the line; and by
    how much it turns, radians."""

    seats: Ints
    turn: Floats
    angle: float


def _found(line: Line, told: PointErrors) -> _Found | None:
    """A line among the points that the survey drew, which may have been turned round: of a line that looks the same from either
    end the way that turns less is meant, for all planes lie nearly alike."""
    here, count = line.points[:, :2], len(line.points)
    if count != len(told.xy):
        return None
    both = (_laid_on(here, told.xy, seats) for seats in (np.arange(count), np.arange(count)[::-1].copy()))
    return min((found for found in both if found), key=lambda found: abs(found.angle), default=None)


def _laid_on(here: Floats, drawn: Floats, seats: Ints) -> _Found | None:
    """Points (n, 2) as those drawn in some order, shifted and turned; None where they are not.

    Source: closed form of the plane similarity in complex numbers (see place/fit.py).
    """
    one, other = (drawn[seats] - drawn[seats].mean(axis=0), here - here.mean(axis=0))
    a, b = (xy @ np.array([1.0, 1.0j]) for xy in (one, other))
    angle = float(np.angle(np.vdot(a, b)))
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    ways, its = (np.hypot(*np.diff(xy, axis=0).T) for xy in (other, one))
    off, reach = np.hypot(*(other - one @ turn.T).T).max(), np.hypot(*one.T).max()
    is_same = (np.abs(ways - its) <= SAME_WAY * np.maximum(its, 1.0)).all() and off <= SAME_WAY * max(
        reach, 1.0
    )
    return _Found(seats, turn, angle) if is_same else None
