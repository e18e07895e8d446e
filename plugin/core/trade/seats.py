# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines that a survey drew, and what their points are worth together, as the survey's rows say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput
from ..measure.rows import PointErrors
from ..quantity import Floats, Ints
from ..units import FOOT, SURVEY_FOOT
from .lines import Line
from .worth import JointWorth

SAME_WAY = 1e-3
"""Metres, and of a way from one point to the next: a line that differs by less is as the survey drew it. A map's plane of
another height, or a datum, changes a way by less; a corner that somebody moved changes it by more, or hardly matters."""
SAME_HEIGHT = 1e-3
"""Metres: a height that differs by less is the survey's."""
FEET = tuple(float(unit) for foot in (FOOT, SURVEY_FOOT) for unit in (foot, 1 / foot))
"""What heights become that are read in a unit that they are not in: feet for metres, or the other way."""


def seat_lines(
    lines: Sequence[Line], errors: Sequence[PointErrors]
) -> tuple[tuple[Line, ...], JointWorth] | None:
    """Lines that know which of the survey's points they go through, and what these are worth.

    Args:
        lines: in one plane, metres; of one feature.
        errors: of the points of each, as its row says.
    Returns:
        None where a line is no more as the survey drew it, in plan, in height or beside the others, or the survey does not
        say what its heights are worth.
    Raises:
        BadInput: the heights are the survey's, but for being read in feet or as metres where they are the other.
    """
    if not _agree(errors):
        return None
    found = [_found(line, told) for line, told in zip(lines, errors)]
    laid = [one for one in found if one is not None]
    if len(laid) < len(found) or not _are_as_drawn(lines, errors, laid):
        return None
    turn = _joint_turn(lines, errors, laid)
    if not _stand_together(lines, errors, laid, turn):
        return None
    seated, first = [], 0
    for line, told, one in zip(lines, errors, laid):
        seats = one.seats
        if line.is_closed:
            seats[-1] = seats[0]
        seated.append(replace(line, seats=seats + first))
        first += len(told.xy)
    own, height = (np.concatenate(parts) for parts in ([t.own for t in errors], [t.height for t in errors]))
    plan = np.concatenate([told.plan @ turn.T for told in errors])
    return tuple(seated), JointWorth(np.nan_to_num(own), plan, np.nan_to_num(height))


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
        if told.z is not None and (told.z.shape != (count,) or np.isinf(told.z).any()):
            return False
    return True


@dataclass(frozen=True, eq=False)
class _Found:
    """(n,) the survey's number of each point of a line, and the angle by which it turns, radians."""

    seats: Ints
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
    """Points (n, 2) as those drawn in some order, shifted and turned; None where they are not."""
    angle = _angle(here, drawn[seats])
    one, other = (drawn[seats] - drawn[seats].mean(axis=0), here - here.mean(axis=0))
    ways, its = (np.hypot(*np.diff(xy, axis=0).T) for xy in (other, one))
    off, reach = np.hypot(*(other - one @ _turn(angle).T).T).max(), np.hypot(*one.T).max()
    is_same = (np.abs(ways - its) <= SAME_WAY * np.maximum(its, 1.0)).all() and off <= SAME_WAY * max(
        reach, 1.0
    )
    return _Found(seats, angle) if is_same else None


def _angle(here: Floats, drawn: Floats) -> float:
    """Radians by which points drawn (n, 2) turn onto those here, as nearly as they do.

    Source: closed form of the plane similarity in complex numbers (see place/fit.py).
    """
    a, b = ((xy - xy.mean(axis=0)) @ np.array([1.0, 1.0j]) for xy in (drawn, here))
    return float(np.angle(np.vdot(a, b)))


def _turn(angle: float) -> Floats:
    return np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])


def _are_as_drawn(lines: Sequence[Line], errors: Sequence[PointErrors], found: Sequence[_Found]) -> bool:
    """Whether the heights are the survey's and it says what they are worth.

    Raises:
        BadInput: they are, but for the unit.
    """
    here, drawn = [], []
    for line, told, one in zip(lines, errors, found):
        if line.has_heights and np.isnan(told.own[one.seats, 1]).any():
            return False
        if told.z is not None and line.has_heights:
            here.append(line.points[line.vertices, 2])
            drawn.append(told.z[one.seats][line.vertices])
    return not here or are_heights_of(np.concatenate(here), np.concatenate(drawn))


def are_heights_of(here: Floats, drawn: Floats) -> bool:
    """Whether heights (n,) are those that a survey drew, in metres.

    Raises:
        BadInput: they would be, if they were not read in feet or as metres where they are the other.
    """
    if not np.isfinite(drawn).all():
        return False
    if bool((np.abs(here - drawn) <= SAME_HEIGHT).all()):
        return True
    off = [float(np.abs(here - unit * drawn).max()) for unit in FEET]
    unit = FEET[int(np.argmin(off))]
    if min(off) <= SAME_HEIGHT * max(unit, 1.0):
        raise BadInput(
            "The row's heights are the survey's times {unit:.8g}: its layer's CRS counts heights in another unit than they "
            "are in. Choose the survey's own layer, or bring the heights into the unit of the CRS.",
            unit=unit,
        )
    return False


def _joint_turn(lines: Sequence[Line], errors: Sequence[PointErrors], found: Sequence[_Found]) -> Floats:
    """(2, 2) the rotation from the survey plane to that of the lines, one for all of them."""
    here = np.concatenate([line.points[:, :2] for line in lines])
    drawn = np.concatenate([told.xy[one.seats] for told, one in zip(errors, found)])
    return _turn(_angle(here, drawn))


def _stand_together(
    lines: Sequence[Line], errors: Sequence[PointErrors], found: Sequence[_Found], turn: Floats
) -> bool:
    """Whether each line lies to the others as the survey drew it: of each point the way to the next one of another line."""
    here = np.concatenate([line.points[:, :2] for line in lines])
    drawn = np.concatenate([told.xy[one.seats] for told, one in zip(errors, found)])
    owner = np.repeat(np.arange(len(lines)), [len(line.points) for line in lines])
    for k in range(1, len(lines)):
        some, others = np.flatnonzero(owner == k), np.flatnonzero(owner < k)
        way = drawn[others][None] - drawn[some][:, None]
        nearest = np.hypot(*way.transpose(2, 0, 1)).argmin(axis=1)
        told = way[np.arange(len(some)), nearest]
        off = np.hypot(*(here[others[nearest]] - here[some] - told @ turn.T).T)
        if (off > SAME_WAY * np.maximum(np.hypot(*told.T), 1.0)).any():
            return False
    return True
