# SPDX-License-Identifier: GPL-2.0-or-later
"""The figures of ramps, steps, falls, paths and walls that limits may be of."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from .limits import Figure, Measured, Outcome, Thing

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..quantity import Quantity
    from .limits import Check
    from .ramps import Ramp, Stretch
    from .steps import Steps


def ramp_figures(name: str, ramp: Ramp) -> list[Measured]:
    """Of a ramp and of its landings: each flight by itself, the clear width once."""
    out = [one for k, part in enumerate(ramp.flights, 1) for one in _flight(name, f"flight {k}", part)]
    if ramp.width is not None:
        out.append(Measured(Thing.RAMP, name, Figure.WIDTH, ramp.width))
    for k, part in enumerate(ramp.landings, 1):
        out += _landing(name, f"landing {k}", part)
    return out


def _flight(name: str, place: str, part: Stretch) -> Iterator[Measured]:
    for figure, value in (
        (Figure.GRADIENT, part.gradient),
        (Figure.STEEPEST, part.steepest),
        (Figure.CROSSFALL, part.crossfall),
        (Figure.RISE, _size(part.rise)),
        (Figure.RUN, part.run),
    ):
        if value is not None:
            yield Measured(Thing.RAMP, name, figure, value, place, part.rise, part.run)


def _landing(name: str, place: str, part: Stretch) -> Iterator[Measured]:
    for figure, value in (
        (Figure.GRADIENT, part.gradient),
        (Figure.STEEPEST, part.steepest),
        (Figure.CROSSFALL, part.crossfall),
        (Figure.LENGTH, part.run),
    ):
        if value is not None:
            yield Measured(Thing.LANDING, name, figure, value, place)


def _size(value: Quantity) -> Quantity:
    return type(value)(abs(value.value), value.sigma, value.unit)


def path_figures(name: str, ramp: Ramp) -> list[Measured]:
    """Of a way that is no ramp: over all of it, and over its steepest metre."""
    whole = ramp.whole
    told = [
        (Figure.GRADIENT, whole.gradient),
        (Figure.STEEPEST, whole.steepest),
        (Figure.CROSSFALL, whole.crossfall),
        (Figure.WIDTH, ramp.width),
    ]
    return [
        Measured(Thing.PATH, name, figure, value, "", whole.rise, whole.run)
        for figure, value in told
        if value is not None
    ]


def steps_figures(name: str, steps: Steps) -> list[Measured]:
    """Of steps: each riser and going by itself, counted from the bottom."""
    out: list[Measured] = []
    risers = goings = 0
    for number, flight in enumerate(steps.flights, 1):
        for figure, word, first, values in (
            (Figure.RISER, "riser", risers, flight.risers),
            (Figure.GOING, "going", goings, flight.goings),
            (Figure.COMFORT, "going", goings, flight.comfort),
        ):
            out += _each(name, figure, word, first, values)
        if flight.difference is not None:
            out.append(Measured(Thing.STEPS, name, Figure.DIFFERENCE, flight.difference, f"flight {number}"))
        risers, goings = risers + len(flight.risers), goings + len(flight.goings)
    out.append(Measured(Thing.STEPS, name, Figure.RISE, steps.rise))
    out += _each(name, Figure.LENGTH, "landing", 0, steps.landings)
    return out


def _each(name: str, figure: Figure, word: str, first: int, values: Sequence[Quantity]) -> list[Measured]:
    return [
        Measured(Thing.STEPS, name, figure, value, f"{word} {first + k}") for k, value in enumerate(values, 1)
    ]


def fall_figures(
    name: str,
    fall: Quantity,
    extremes: tuple[Quantity, Quantity] | None = None,
    crossfall: Quantity | None = None,
) -> list[Measured]:
    """Of an area: its plane's fall, its steepest and flattest part where they are known, and a crossfall."""
    told = [(Figure.GRADIENT, fall)]
    if extremes is not None:
        told += [(Figure.STEEPEST, extremes[0]), (Figure.FLATTEST, extremes[1])]
    if crossfall is not None:
        told.append((Figure.CROSSFALL, crossfall))
    return [Measured(Thing.FALL, name, figure, value) for figure, value in told]


def wall_figures(name: str, highest: Quantity) -> list[Measured]:
    """Of a wall: its largest height."""
    return [Measured(Thing.WALL, name, Figure.HEIGHT, highest)]


def open_part(check: Check) -> Check:
    """The check of a figure that is of a part of its thing alone: it cannot be told, unless the figure is an extreme that is
    beyond the limit whatever the rest is like."""
    measured, size = check.measured, abs(check.measured.value.value)
    # An area's crossfall is that of its plane, a way's the greatest along it.
    is_most = measured.figure is Figure.STEEPEST or (
        measured.figure is Figure.CROSSFALL and measured.thing is not Thing.FALL
    )
    is_least = measured.figure is Figure.FLATTEST
    is_beyond = (is_most and size > check.high) or (is_least and size < check.low)
    if check.outcome is Outcome.FAILS and is_beyond:
        return check
    return replace(check, outcome=Outcome.CANNOT_TELL, chance=math.nan)
