# SPDX-License-Identifier: GPL-2.0-or-later
"""The instruments file: the one-sigma parts of the instrument model, by instrument."""

from __future__ import annotations

import math
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from ..errors import BadInput
from ..walk import Instrument
from .cells import need_filled, read_numbers, refuse_formulas
from .faults import AGAIN, NEGATIVE, TOO_LARGE, RowFaults
from .keys import tell_kept

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ..findings import Finding
    from .table import LogTable

DEG_PER_MIN = math.pi / 180 / 60
"""rad/s"""
DEG = math.pi / 180
"""rad"""
PARTS: Mapping[str, tuple[str, float]] = MappingProxyType(
    {
        "scale": ("scale", 1.0),
        "scale_shared": ("scale_shared", 1.0),
        "heading_rate_deg_per_min": ("heading_rate", DEG_PER_MIN),
        "heading_walk_deg_per_sqrt_m": ("heading_walk", DEG),
        "leg_m": ("leg", 1.0),
        "leg_m_per_s1_5": ("leg_time", 1.0),
        "leg_m_per_sqrt_m": ("leg_length", 1.0),
        "stand_m": ("stand", 1.0),
        "height_leg_m": ("height_leg", 1.0),
        "height_leg_m_per_s1_5": ("height_leg_time", 1.0),
        "height_leg_m_per_sqrt_m": ("height_leg_length", 1.0),
        "height_stand_m": ("height_stand", 1.0),
    }
)
"""Column -> the record's field, and SI units by the column's unit."""
COLUMNS = ("instrument", *PARTS)
LARGEST_PART = 1000.0
"""In the column's own unit: no instrument has an error of a kilometre or of a thousand times the length."""


def read_instruments(table: LogTable) -> tuple[Mapping[str, Instrument], tuple[Finding, ...]]:
    """The instruments of a table by name, in SI units; a blank part is zero.

    Raises:
        BadInput: no column `instrument`.
    """
    if "instrument" not in table.names:
        raise BadInput(
            "{file}: the instruments have no column instrument; the header has {header}.",
            file=table.file, header=", ".join(table.header),
        )  # fmt: skip
    faults = RowFaults(table, ("instrument",))
    need_filled(table, "instrument", faults)
    refuse_formulas(table, "instrument", faults)
    parts = {}
    for column, (part, factor) in PARTS.items():
        values = read_numbers(table, column, faults)
        faults.add_where(values < 0, NEGATIVE, column)
        faults.add_where(values > LARGEST_PART, TOO_LARGE, column, largest=f"{LARGEST_PART:g}")
        parts[part] = np.nan_to_num(values, nan=0.0) * factor
    names = table.text("instrument")
    first: dict[str, int] = {}
    for i, name in enumerate(names):
        if first.setdefault(name, i) != i:
            faults.add(i, AGAIN, mark=name, first=int(table.line[first[name]]))
    keep = faults.keep
    found = {
        name: Instrument(name=name, **{part: float(values[i]) for part, values in parts.items()})  # type: ignore[arg-type]
        for i, name in enumerate(names)
        if keep is None or keep[i]
    }
    return MappingProxyType(found), (*faults.findings(), *tell_kept(table, COLUMNS, ()))
