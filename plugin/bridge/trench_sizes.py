# SPDX-License-Identifier: GPL-2.0-or-later
"""Widths, depths and inverts of trenches, as a row of a layer tells them."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeatureRequest, QgsProviderRegistry, QgsVectorLayer

from ..core.errors import BadInput
from ..core.trade.along import Along, between, even
from .drawn import text_of
from .fields import ALONG, SIZES
from .survey_rows import SAME
from .survey_worth import drawn_points

if TYPE_CHECKING:
    from collections.abc import Mapping

    from qgis.core import QgsFeature

    from ..core.quantity import Floats
    from ..core.trade.lines import Line

WIDTH_M, DEPTH_M, INVERT_M = "width_m", "depth_m", "invert_m"
PAIR = (2,)
"""A chainage and a size."""
ENDS = 2
"""Points that tell which way a line runs."""
SAME_LENGTH = 1e-3
"""Metres by which a line may differ that sizes were noted along."""


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


@dataclass(frozen=True)
class RowAlong:
    """What a row's field of sizes along its line says.

    Attributes:
        pairs: by name, (k, 2) chainages and sizes, metres; nothing where the field is empty.
        why: an error that says why they do not fit the row's line; None where they do.
    """

    pairs: Mapping[str, Floats] = field(default_factory=dict)
    why: BadInput | None = None

    def of(self, name: str) -> Floats | None:
        """A size's pairs; None where it has none.

        Raises:
            BadInput: they do not fit the line.
        """
        if name in self.pairs and self.why is not None:
            raise self.why
        return self.pairs.get(name)


def read_along(row: QgsFeature, column: str | None, line: Line) -> RowAlong:
    """What a row's field says of the sizes along its line.

    Raises:
        BadInput: its text is no such thing, or names a size that is none.
    """
    text = text_of(row.attribute(column)) if column else ""
    if not text:
        return RowAlong()
    try:
        told = {str(name): np.array(pairs, float) for name, pairs in json.loads(text).items()}
    except (AttributeError, TypeError, ValueError):
        told = {"": np.zeros(0)}
    if not all(pairs.shape[1:] == PAIR and np.isfinite(pairs).all() for pairs in told.values()):
        raise BadInput(
            'The field {column} holds "{text}". Write pairs of metres along the line and size, such as '
            '{{"depth_m": [[0, 0.4], [12.5, 0.55]]}}, or empty it.',
            column=column,
            text=text,
        )
    unknown = sorted(set(told) - {WIDTH_M, DEPTH_M, INVERT_M, *SIZES})
    if unknown:
        raise BadInput(
            "The field {column} names {name}, which is no size of a trench. Write width_m, depth_m or invert_m.",
            column=column,
            name=unknown[0],
        )
    return RowAlong(told, _misfit(row, str(column), told, line))


def _misfit(row: QgsFeature, column: str, told: Mapping[str, Floats], line: Line) -> BadInput | None:
    """Why sizes do not fit a line: it is no more as the survey drew it, or ends before they do."""
    whole = float(line.edges.lengths.sum())
    its = row.attribute("length_m") if column == ALONG and row.fields().lookupField("length_m") >= 0 else None
    if isinstance(its, (int, float)):
        if abs(whole - its) > max(SAME_LENGTH, SAME * its):
            return BadInput(
                "The sizes along the line were noted on one of {noted:.3f} m, and this one is {length:.3f} m long. Give width "
                "and depth, or take the survey's own row.",
                noted=float(its),
                length=whole,
            )
        if _is_turned(line, drawn_points(row)):
            return BadInput(
                "The sizes along the line were noted from its other end: the line was turned round since. Give width and depth, "
                "or take the survey's own row."
            )
    far = [
        float(at)
        for pairs in told.values()
        for at in pairs[:, 0]
        if not -SAME_LENGTH <= at <= whole * (1 + SAME) + SAME_LENGTH
    ]
    if far:
        return BadInput(
            "The field {column} has a size at {at:.3f} m along the line, which is {length:.3f} m long. Correct the place, or "
            "take the line that was meant.",
            column=column,
            at=far[0],
            length=whole,
        )
    return None


def _is_turned(line: Line, drawn: Floats | None) -> bool:
    """Whether a line runs the other way than points (n, 2) that it was drawn through, in a plane that lies nearly as its own."""
    if drawn is None or len(drawn) < ENDS:
        return False
    here = line.points[:, :2]
    if line.is_closed:
        turned = [_twice_area(points) for points in (here, drawn)]
        return turned[0] * turned[1] < 0.0
    return float((here[-1] - here[0]) @ (drawn[-1] - drawn[0])) < 0.0


def _twice_area(points: Floats) -> float:
    """Of a ring of straights through points (n, 2), positive anticlockwise, m2."""
    x, y = (points - points[0]).T
    return float(x[:-1] @ y[1:] - x[1:] @ y[:-1])


def width_along(sizes: TrenchSizes, along: RowAlong, sigma: float) -> Along:
    """The width: as given, else as noted along the line, else as noted once (0 where it is nowhere)."""
    if sizes.width:
        return even(sizes.width, sigma)
    told = _noted(WIDTH_M, sizes, along, sigma)
    return even(0.0, 0.0) if told is None else told


def depth_along(sizes: TrenchSizes, along: RowAlong, length: float, sigma: float) -> Along | None:
    """The depth: as given, evenly to that of the end of a line of some length, from where it was noted at the start where it
    is given at the end alone; else as noted; None where it is nowhere, or where inverts are given, which go before what was
    noted."""
    if not (sizes.depth or sizes.depth_end):
        return None if sizes.inverts != (None, None) else _noted(DEPTH_M, sizes, along, sigma)
    if not sizes.depth_end:
        return even(sizes.depth, sigma)
    start = sizes.depth
    noted = None if start else _noted(DEPTH_M, sizes, along, sigma)
    if noted is not None:
        start = float(np.interp(0.0, noted.chainage, noted.value))
    return between(np.array([0.0, length]), np.array([start, sizes.depth_end]), sigma)


def invert_along(sizes: TrenchSizes, along: RowAlong, length: float, sigma: float) -> Along | None:
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


def _noted(name: str, sizes: TrenchSizes, along: RowAlong, sigma: float) -> Along | None:
    pairs = along.of(name)
    if pairs is not None:
        return between(pairs[:, 0], pairs[:, 1], sigma)
    value = sizes.noted.get(name)
    return None if value is None else even(value, sigma)


def height_shift(layer: QgsVectorLayer | None) -> float:
    """By how much the survey that a layer is of moved its heights onto a datum, metres; 0 where it did not, or where the
    layer does not say."""
    path = (
        QgsProviderRegistry.instance().decodeUri("ogr", layer.source()).get("path")
        if layer is not None
        else ""
    )
    if not path or layer is None or layer.providerType() != "ogr":
        return 0.0
    table = QgsVectorLayer(f"{path}|layername=placement", "placement", "ogr")
    if not table.isValid() or table.fields().lookupField("height_shift_m") < 0:
        return 0.0
    told = [row["height_shift_m"] for row in table.getFeatures(QgsFeatureRequest())]
    return next((float(shift) for shift in told if isinstance(shift, (int, float))), 0.0)
