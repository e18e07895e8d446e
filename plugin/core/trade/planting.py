# SPDX-License-Identifier: GPL-2.0-or-later
"""Plants by spacing and pattern, turf in strips, seed and mulch."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Quantity
from .bands import lay_pieces, longest_heading, turn_outline
from .lines import Line
from .order import GROUND, whole_down, whole_near, whole_up
from .set_back import set_back_area


class Pattern(Enum):
    """How plants stand in a bed."""

    SQUARE = "square"
    STAGGERED = "staggered"


AREA_OF = {Pattern.SQUARE: 1.0, Pattern.STAGGERED: math.sqrt(3.0) / 2.0}
"""Of the spacing squared: the ground that a plant has (staggered rows stand 0.866 of the spacing apart)."""


@dataclass(frozen=True)
class PlantingSpec:
    """What is planted, sown or laid; 0 is none.

    Attributes:
        spacing, set_back: metres between plants, and from the edge of the bed. pattern: of the plants.
        extra: plants for losses, a ratio.
        seed: grams by square metre; live: of the seed's mass what is alive (purity times germination), a ratio.
        mulch: depth, metres; loosening: loose volume by laid.
        roll: length and width of a roll of turf, metres.
        size_sigma: one-sigma of depth, metres.
    """

    spacing: float = 0.0
    set_back: float = 0.0
    pattern: Pattern = Pattern.SQUARE
    extra: float = 0.0
    seed: float = 0.0
    live: float = 1.0
    mulch: float = 0.0
    loosening: float = 1.0
    roll: tuple[float, float] = (0.0, 0.0)
    size_sigma: float = 0.0


@dataclass(frozen=True)
class Planting:
    """A bed's or a row's figures.

    Attributes:
        area: planted, after the set-back, m2 (None of a row). plants: whole; plants_sigma. ordered: with losses.
        turf: of whole strips, m2; rolls. seed: kg. mulch: as laid, m3; loose: as delivered, m3.
        method: how it was come by. is_gone: whether the set-back leaves nothing to plant.
    """

    area: Quantity | None
    plants: int
    plants_sigma: float
    ordered: int
    turf: float
    rolls: int
    seed: Quantity
    mulch: Quantity
    loose: Quantity
    method: str
    is_gone: bool = False


def plant_row(row: Line, spec: PlantingSpec, sigma: float) -> Planting:
    """Plants of a single row along a line: one at its start and one at every spacing after it, both ends set back; of a
    closed line as many as have room.

    Raises:
        BadInput: no spacing.
    """
    if not 0.0 < spec.spacing < np.inf:
        raise BadInput("The row has no spacing above 0. Give the distance from plant to plant.")
    by = 0.0 if row.is_closed else spec.set_back
    whole = float(row.edges.lengths.sum())
    length = whole - 2.0 * by
    is_gone = length < -GROUND
    count = 0 if is_gone else whole_down(length, spec.spacing) + (0 if row.is_closed else 1)
    worth = sigma * math.sqrt(row.squares(row.edges.length_moves(np.ones(len(row.half))))) / spec.spacing
    none = Quantity(0.0, 0.0, "")
    way = f"single row of {whole:.3f} m{f', set back {by:g} m at both ends,' if by else ''} at {spec.spacing:g} m"
    way += _losses(spec)
    return Planting(None, count, worth, _ordered(count, spec), 0.0, 0, none, none, none, way, is_gone)


def plant_bed(rings: list[Line], area: Quantity, spec: PlantingSpec) -> Planting:
    """Plants, turf, seed and mulch of a bed.

    Plants, seed and mulch fill the bed less its set-back; turf covers all of it, in strips along the longest side.

    Args:
        rings: of the bed, metres, outer ring first.
        area: in plan, holes out, m2.
        spec: what is planted.
    Raises:
        BadInput: a set-back, spacing or rate below 0, no bulking, or nothing to plant, sow or lay. MissingLibrary: a set-back needs shapely.
    Source:
        A / s^2 in square rows, A / (0.866 s^2) in staggered ones (equilateral triangles); seed A g / 1000; mulch A t.
    """
    _refuse(spec)
    planted = set_back_area(rings, area, spec.set_back) if spec.set_back else area
    each = AREA_OF[spec.pattern] * spec.spacing**2
    count = whole_near(planted.value, each) if each else 0
    rolls, run = (0, 0.0)
    if min(spec.roll) > 0.0:
        rolls, run = lay_pieces(turn_outline(rings, longest_heading(rings)), spec.roll, 0.0)
    kilos = spec.seed / 1000.0 / spec.live
    laid_sigma = math.hypot(
        planted.sigma * spec.mulch, planted.value * spec.size_sigma if spec.mulch else 0.0
    )
    mulch = Quantity(planted.value * spec.mulch, laid_sigma, "m3")
    return Planting(
        planted,
        count,
        planted.sigma / each if each else 0.0,
        _ordered(count, spec),
        run * spec.roll[1],
        rolls,
        Quantity(planted.value * kilos, planted.sigma * kilos, "kg"),
        mulch,
        Quantity(mulch.value * spec.loosening, mulch.sigma * spec.loosening, "m3"),
        _method(spec),
        planted.value == 0.0,
    )


def _refuse(spec: PlantingSpec) -> None:
    sizes: Floats = np.array([spec.spacing, spec.set_back, spec.seed, spec.mulch, spec.loosening, *spec.roll])
    if not (np.isfinite(sizes) & (sizes >= 0.0)).all() or not 0.0 < spec.live <= 1.0:
        raise BadInput("A size of the planting is below 0, or no seed is alive. Give sizes of 0 or more.")
    if spec.mulch and spec.loosening == 0.0:
        raise BadInput(
            "Of {mulch} m of mulch nothing would be delivered at a bulking of 0. Give the loose volume by the laid one: 1 where it "
            "does not settle.",
            mulch=spec.mulch,
        )
    if not (spec.spacing or spec.set_back or spec.seed or spec.mulch or min(spec.roll)):
        raise BadInput("Nothing is asked for: give a spacing, a depth of mulch, seed, or a roll.")


def _ordered(count: int, spec: PlantingSpec) -> int:
    return whole_up(count * (1.0 + spec.extra))


def _losses(spec: PlantingSpec) -> str:
    return f", ordered with {100.0 * spec.extra:g} % for losses" if spec.extra else ""


def _method(spec: PlantingSpec) -> str:
    parts = [f"plan area set back {spec.set_back:g} m" if spec.set_back else "plan area"]
    if spec.spacing:
        parts.append(f"{spec.pattern.value} at {spec.spacing:g} m{_losses(spec)}")
    if spec.seed:
        parts.append(f"seed {spec.seed:g} g/m2" + (f" / {spec.live:g} alive" if spec.live != 1.0 else ""))
    if spec.mulch:
        parts.append(f"mulch {spec.mulch:g} m x {spec.loosening:g} loose")
    if min(spec.roll) > 0.0:
        parts.append(
            f"turf in strips of {spec.roll[1]:g} m along the longest side, rolls of {spec.roll[0]:g} m"
        )
    return ", ".join(parts)
