# SPDX-License-Identifier: GPL-2.0-or-later
"""What measured cut and fill mean for the lorries: strip, bulking, shrink, balance, loads."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import BadInput
from ..quantity import Quantity
from .volume import M3, Volumes

PLACES = 9
"""Decimals of loads that count: 5.5000000001 loads by rounding are 5.5, and 6.0000000001 are six."""
TONNES = "t"


@dataclass(frozen=True)
class Soil:
    """What the ground does when it is dug, moved and laid; each factor is applied once.

    Attributes:
        bulking: loose volume by bank volume (1.1 to 1.5 as a rule).
        shrink: compacted volume by bank volume (0.9 as a rule).
        fit: part of the cut that will do as fill, 0 to 1.
        density: tonnes by cubic metre in the bank; None: not known, so that nothing is told by mass.
        load_m3: what a lorry holds loose, m3; None: not told.
        load_t: what it may carry, tonnes; None: not told.
        strip_bulking: of the topsoil, as `bulking`; None: the same.
    """

    bulking: float = 1.0
    shrink: float = 1.0
    fit: float = 1.0
    density: float | None = None
    load_m3: float | None = None
    load_t: float | None = None
    strip_bulking: float | None = None

    def __post_init__(self) -> None:
        for name in ("bulking", "shrink", "density", "load_m3", "load_t", "strip_bulking"):
            value = getattr(self, name)
            if value is not None and not 0.0 < value < math.inf:
                raise BadInput("{name} is {value}. Give a number above 0.", name=name, value=value)
        if not 0.0 <= self.fit <= 1.0:
            raise BadInput("fit is {value}. Give a part from 0 to 1.", value=self.fit)


@dataclass(frozen=True)
class Haul:
    """Soil that goes by lorry.

    Attributes:
        bank: m3 as it lies, and its one-sigma.
        loose: m3 on the lorry.
        mass: tonnes; None without a density.
        loads: whole ones, the greater of those by volume and by mass; None where neither can be told.
        by: "volume" or "mass", whichever rules; "" where neither can be told or nothing goes.
    """

    bank: Quantity
    loose: Quantity
    mass: Quantity | None
    loads: int | None
    by: str


@dataclass(frozen=True)
class Earthwork:
    """Strip, cut and fill as they are dug, moved and laid.

    Attributes:
        strip: topsoil taken off beforehand, hauled or stacked apart; it is never fill.
        cut: what is dug below the strip, loose.
        fill: what it takes in the bank to lay the fill compacted, m3.
        balance: fit cut less that, m3 in the bank: positive where soil is left over.
        away: what is left over, and the cut that is not fit for fill.
        bring: what is missing.
        working: each formula with its factors.
    """

    strip: Haul
    cut: Quantity
    fill: Quantity
    balance: Quantity
    away: Haul
    bring: Haul
    working: tuple[str, ...]


def reckon_earthwork(volumes: Volumes, soil: Soil, strip: float = 0.0, strip_sigma: float = 0.0) -> Earthwork:
    """Earthwork of measured volumes.

    Args:
        volumes: cut and fill in the bank and as laid, measured below the strip.
        soil: its factors; they are taken to be exact.
        strip: depth of topsoil in metres, taken off all of the measured area.
        strip_sigma: one-sigma of that depth, metres.
    Source:
        Loose = bank * bulking, compacted = bank * shrink, bring = max(0, fill / shrink - fit cut): common practice.
    """
    away_by, balance_by = _shares(volumes, soil)
    balance = balance_by[0] * volumes.cut.value + balance_by[1] * volumes.fill.value
    balance_sigma = volumes.sigma_of(*balance_by)
    away = max(away_by[0] * volumes.cut.value + away_by[1] * volumes.fill.value, 0.0)
    stripped = Quantity(strip * volumes.area, strip_sigma * volumes.area, M3)
    top = soil.bulking if soil.strip_bulking is None else soil.strip_bulking
    return Earthwork(
        strip=_haul(stripped, soil, top),
        cut=_times(volumes.cut, soil.bulking),
        fill=_times(volumes.fill, 1.0 / soil.shrink),
        balance=Quantity(balance, balance_sigma, M3),
        away=_haul(Quantity(away, volumes.sigma_of(*away_by), M3), soil, soil.bulking),
        bring=_haul(Quantity(max(-balance, 0.0), balance_sigma, M3), soil, soil.bulking),
        working=_working(soil, strip, top),
    )


def _shares(volumes: Volumes, soil: Soil) -> tuple[tuple[float, float], tuple[float, float]]:
    """How cut and fill count in what goes away, and in the balance."""
    by = (soil.fit, -1.0 / soil.shrink)
    if by[0] * volumes.cut.value + by[1] * volumes.fill.value > 0.0:
        return (1.0, by[1]), by
    return (1.0 - soil.fit, 0.0), by


def _haul(bank: Quantity, soil: Soil, bulking: float) -> Haul:
    loose = _times(bank, bulking)
    mass = None
    if soil.density is not None:
        mass = Quantity(bank.value * soil.density, bank.sigma * soil.density, TONNES)
    counts = {}
    if soil.load_m3 is not None:
        counts["volume"] = whole_loads(loose.value, soil.load_m3)
    if mass is not None and soil.load_t is not None:
        counts["mass"] = whole_loads(mass.value, soil.load_t)
    if not counts:
        return Haul(bank, loose, mass, None, "")
    by = max(counts, key=lambda name: counts[name])
    return Haul(bank, loose, mass, counts[by], by if counts[by] else "")


def whole_loads(amount: float, load: float) -> int:
    """Loads that an amount takes, both in one unit; a part of one is a whole one, rounding is none.

    Raises:
        BadInput: a load that holds nothing.
    """
    if not 0.0 < load < math.inf:
        raise BadInput("A load is {load}. Give a number above 0.", load=load)
    return math.ceil(round(amount / load, PLACES))


def _times(quantity: Quantity, factor: float) -> Quantity:
    return Quantity(quantity.value * factor, quantity.sigma * factor, quantity.unit)


def _working(soil: Soil, strip: float, top: float) -> tuple[str, ...]:
    lines = [f"strip_m3 = {strip:g} m * area_m2"] if strip else []
    if strip:
        lines.append(f"strip_loose_m3 = strip_m3 * {top:g}")
    lines += [
        f"cut_loose_m3 = cut_m3 * {soil.bulking:g}",
        f"fill_bank_m3 = fill_m3 / {soil.shrink:g}",
        f"balance_m3 = cut_m3 * {soil.fit:g} - fill_bank_m3",
        f"away_m3 = max(balance_m3, 0) + cut_m3 * {1.0 - soil.fit:g}",
        "bring_m3 = max(-balance_m3, 0)",
        f"loose = bank * {soil.bulking:g}",
    ]
    if soil.density is not None:
        lines.append(f"mass = bank * {soil.density:g} t/m3")
    ways = [f"{load:g} {unit}" for load, unit in ((soil.load_m3, "m3 loose"), (soil.load_t, "t")) if load]
    return (*lines, f"loads of {' or '.join(ways)}, whole") if ways else tuple(lines)
