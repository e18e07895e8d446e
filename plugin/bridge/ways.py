# SPDX-License-Identifier: GPL-2.0-or-later
"""Ways that are one line over a surface: their crossfalls, across the width that is given or noted; what is to be told of
the ground under things; and ramps that were walked as areas."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from ..core.errors import BadInput
from ..core.quantity import Quantity
from ..core.trade.crossed_ways import take_crossfalls
from ..core.trade.limits import SLOPES, Figure, Thing
from ..core.trade.ramps import ramp_sides
from .drawn import text_of
from .gradient_rows import RowReader, surface_sigma_from
from .gradients import LEFT_OUT, crossfall_words
from .survey_worth import seat_outline
from .text import explain, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ..core.ground.crossfall import Crossfalls
    from ..core.trade.limits import Measured
    from ..core.trade.lines import Line
    from ..core.trade.ramps import Ramp, Stretch
    from ..core.trade.worth import JointWorth
    from .gradients import GradientRow
    from .surfaces import OpenedSurfaces
    from .survey_worth import Seated

NOTED = "width_m"
"""The column of widths noted on site."""
HOLE = "hole_in"
"""The column that names the area that another is a hole of."""


MOST_LEFT = 0.01
"""Of a way or an area: where more of it lies beside the surface, what holds on the rest says nothing of all of it."""
UNKNOWN = Quantity(math.nan, math.nan, "ratio")
"""The crossfall of a stretch without ground: limits of it cannot be told."""


@dataclass(frozen=True)
class Under:
    """What is to be told of the ground of a surface under a thing.

    Attributes:
        finding: words, "" where there is nothing.
        figures: that rest on the ground.
        lacking: those that are of a part of the thing alone.
    """

    finding: str = ""
    figures: frozenset[Figure] = frozenset()
    lacking: frozenset[tuple[Thing, Figure]] = frozenset()

    def lacks(self, measured: Measured) -> bool:
        """Whether a figure is of a part of its thing alone."""
        return (measured.thing, measured.figure) in self.lacking

    def words(self, measured: Measured) -> str:
        """What is to be told with a figure."""
        return self.finding if measured.figure in self.figures else ""


NO_GROUND = Under()
"""Nothing is to be told."""


def under_area(row: GradientRow) -> Under:
    """Of an area."""
    lacking = {(Thing.FALL, figure) for figure in SLOPES} if row.left > MOST_LEFT else ()
    return Under(row.finding, SLOPES, frozenset(lacking))


@dataclass(frozen=True, eq=False)
class WayOver:
    """Crossfalls of a row, how they were come by, and what is to be told of them; none where no ground lies under it."""

    ways: Crossfalls | None
    words: str
    finding: str = ""

    def crossed(self, ramp: Ramp) -> Ramp:
        """A ramp with them; a stretch of which the surface says nothing has one that nobody knows."""
        if self.ways is not None:
            ramp = take_crossfalls(ramp, self.ways)

        def known(part: Stretch) -> Stretch:
            return part if part.crossfall is not None else replace(part, crossfall=UNKNOWN)

        flights, landings = (tuple(map(known, parts)) for parts in (ramp.flights, ramp.landings))
        return replace(ramp, whole=known(ramp.whole), flights=flights, landings=landings)

    def under(self, ramp: Ramp, figures: frozenset[Figure]) -> Under:
        """What is to be told with the figures that rest on the surface."""
        parts = ((Thing.PATH, (ramp.whole,)), (Thing.RAMP, ramp.flights), (Thing.LANDING, ramp.landings))
        lacking = {(thing, Figure.CROSSFALL) for thing, own in parts if not all(map(self._covers, own))}
        return Under(self.finding, figures, frozenset(lacking))

    def _covers(self, part: Stretch) -> bool:
        if self.ways is None:
            return False
        both = np.minimum(self.ways.end, part.end) - np.maximum(self.ways.start, part.start)
        return bool(np.maximum(both, 0.0).sum() >= (1.0 - MOST_LEFT) * (part.end - part.start))


class WayReader:
    """Crossfalls of the rows of one layer over a surface."""

    def __init__(
        self, source: QgsProcessingFeatureSource, opened: OpenedSurfaces, sigma: float, width: float = 0.0
    ) -> None:
        """The layer, the surface, the sigma that was stated for it, and the width of rows without one of their own in their
        column width_m, metres; 0: the slope of the triangles under the line."""
        self._rows, self._width, self._name = RowReader(source, opened, sigma), width, opened.names[0]
        self.sigma_from = surface_sigma_from(opened, sigma)

    def laid(self, row: QgsFeature) -> tuple[Line, JointWorth]:
        """A row without heights laid on the surface, and what its heights are worth there.

        Raises:
            BadInput: part of it is not on the surface.
        """
        return self._rows.laid(row)

    def over(self, row: QgsFeature) -> WayOver:
        """A row's crossfalls, and what is to be told of them: what has no ground under its whole width, weak triangles, or
        why there are none."""
        width = self._width
        if row.fields().lookupField(NOTED) >= 0:
            noted = row.attribute(NOTED)
            width = float(noted) if isinstance(noted, (int, float)) and noted > 0.0 else width
        words = f"{crossfall_words(width)} over {self._name}"
        try:
            ways = self._rows.ways(row, width)
        except BadInput as error:
            return WayOver(None, words, explain(error))
        notes, length = [], ways.left_out + float((ways.end - ways.start).sum())
        if ways.left_out > LEFT_OUT * length:
            left = tr("{left:.2f} m of it have no ground of the surface under their whole width.")
            notes.append(left.format(left=ways.left_out))
        if ways.is_weak:
            notes.append(tr("It crosses weak triangles."))
        return WayOver(ways, words, " ".join(notes))


def is_hole(row: QgsFeature) -> bool:
    """Whether a survey's area is a hole of another: nothing is built there that could fall."""
    return row.fields().lookupField(HOLE) >= 0 and bool(text_of(row.attribute(HOLE)))


def is_ramp(words: str) -> bool:
    """Whether a name or an item has a word that begins with ramp; a trampoline is none."""
    return re.search("(?<![a-z])ramp", words.lower()) is not None


def seat_sides(row: QgsFeature, lines: Sequence[Line]) -> Seated:
    """The left and the right edge of a survey's ramp that was walked as an area of four corners.

    Raises:
        BadInput: it is no such area, or no more as the survey drew it.
    """
    seated = seat_outline(row, lines) if len(lines) == 1 else None
    sides = ramp_sides(seated.lines[0]) if seated else None
    if seated is None or sides is None:
        raise BadInput(
            "A ramp walked as an area is not checked here: give its middle line under Ramps, with a surface."
        )
    return replace(seated, lines=sides)
