# SPDX-License-Identifier: GPL-2.0-or-later
"""Widths, depths and inverts of trenches, as a row of a layer tells them."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from ..core.errors import BadInput
from ..core.trade.along import Along, between, even
from .drawn import text_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from qgis.core import QgsFeature

    from ..core.quantity import Floats

WIDTH_M, DEPTH_M, INVERT_M = "width_m", "depth_m", "invert_m"
PAIR = (2,)
"""A chainage and a size."""


@dataclass(frozen=True)
class TrenchSizes:
    """What a run gives for a row, metres; 0 (of levels None) is not given.

    Attributes:
        width, depth, depth_end: sizes. inverts: levels at the start and the end.
        noted: what a survey's row has in its columns of sizes noted on site, by column.
    """

    width: float = 0.0
    depth: float = 0.0
    depth_end: float = 0.0
    inverts: tuple[float | None, float | None] = (None, None)
    noted: Mapping[str, float | None] = field(default_factory=dict)


def read_along(row: QgsFeature, column: str | None) -> dict[str, Floats]:
    """By name, (k, 2) chainages and sizes that a row's column has, metres; nothing where it is empty.

    Raises:
        BadInput: its text is no such thing.
    """
    text = text_of(row.attribute(column)) if column else ""
    if not text:
        return {}
    try:
        told = {str(name): np.array(pairs, float) for name, pairs in json.loads(text).items()}
    except (AttributeError, TypeError, ValueError):
        told = {"": np.zeros(0)}
    if not all(pairs.shape[1:] == PAIR and np.isfinite(pairs).all() for pairs in told.values()):
        raise BadInput(
            'The column {column} holds "{text}". Write pairs of metres along the line and size, such as '
            '{{"depth_m": [[0, 0.4], [12.5, 0.55]]}}, or empty it.',
            column=column,
            text=text,
        )
    return told


def width_along(sizes: TrenchSizes, along: Mapping[str, Floats], sigma: float) -> Along:
    """The width: as given, else as noted along the line, else as noted once (0 where it is nowhere)."""
    if sizes.width:
        return even(sizes.width, sigma)
    told = _noted(WIDTH_M, sizes, along, sigma)
    return even(0.0, 0.0) if told is None else told


def depth_along(sizes: TrenchSizes, along: Mapping[str, Floats], length: float, sigma: float) -> Along | None:
    """The depth: as given, evenly to that of the end of a line of some length; else as noted; None where it is nowhere, or
    where inverts are given, which go before what was noted."""
    if sizes.depth or sizes.depth_end:
        if not sizes.depth_end:
            return even(sizes.depth, sigma)
        return between(np.array([0.0, length]), np.array([sizes.depth, sizes.depth_end]), sigma)
    return None if sizes.inverts != (None, None) else _noted(DEPTH_M, sizes, along, sigma)


def invert_along(
    sizes: TrenchSizes, along: Mapping[str, Floats], length: float, sigma: float
) -> Along | None:
    """The level of the invert: as given at both ends of a line of some length, else as noted; None where it is nowhere.

    Raises:
        BadInput: it is given at one end alone.
    """
    known = [level for level in sizes.inverts if level is not None]
    if len(known) == 1:
        raise BadInput("The invert has a level at one end alone. Give both, or the depth.")
    if known:
        return between(np.array([0.0, length]), np.array(known), sigma)
    return _noted(INVERT_M, sizes, along, sigma)


def _noted(name: str, sizes: TrenchSizes, along: Mapping[str, Floats], sigma: float) -> Along | None:
    if name in along:
        return between(along[name][:, 0], along[name][:, 1], sigma)
    value = sizes.noted.get(name)
    return None if value is None else even(value, sigma)
