# SPDX-License-Identifier: GPL-2.0-or-later
"""Strips of even thickness along a line: front, centre and back, and which units fit their curves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Quantity
from .lines import Line
from .order import GROUND, whole_up
from .worth import Worth, moves_of

SAG = 0.010
"""Metres: the largest rise of a curve over one straight unit (common practice, no source)."""
SMOOTH = np.radians(2.0)
"""Radians of turn below which no unit is cut at a corner."""


@dataclass(frozen=True, eq=False)
class Offset:
    """A line moved to the left by `by` metres (negative: to the right), arcs about their centres, corners mitred.

    Attributes:
        line: that was moved. length: metres. moves: (n, 2) change of the length by metre of each of the line's points.
    """

    by: float
    line: Line
    length: float
    moves: Floats

    @property
    def squares(self) -> float:
        """What a point's variance is multiplied by to give the length's variance."""
        return self.line.squares(self.moves)


@dataclass(frozen=True)
class Units:
    """Straight and radius units along a face.

    Attributes:
        straight, radius: metres that straight units can follow, and that they cannot.
        sag: the largest rise of any curve over one straight unit, metres (0 without curves).
        straight_units, radius_units: whole units of each, run by run.
    """

    straight: float
    radius: float
    sag: float
    straight_units: int
    radius_units: int


def bending(line: Line) -> float:
    """How much shorter a line becomes by metre that it is moved to the left: the sweep of its arcs, and twice the tangent
    of half the turn at each corner, which a mitre takes off; no unit."""
    _, _, turn = line.corners
    return float(2.0 * line.half.sum() + 2.0 * np.tan(0.5 * turn).sum())


def offset_line(line: Line, by: float) -> Offset:
    """The length of a line moved to the left by some metres.

    Where an arc meets a straight or an arc at an angle the mitre is taken between their tangents.

    Raises:
        BadInput: an arc or an edge that has no room for it.
    Source:
        L - d T with T the turning: the arc of radius R is (R - d) theta long (Euclid VI.33), a mitre takes d tan(turn/2)
        off either edge. Front, centre and back lengths L = (R +- t/2) theta follow.
    """
    refuse_narrow(line, by)
    before, after, turn = line.corners
    secant = np.cos(0.5 * turn) ** -2.0
    by_half, by_heading = np.full(len(line.half), 2.0), np.zeros(len(line.half))
    for edge, sign in ((before, -1.0), (after, 1.0)):
        np.add.at(by_half, edge, -secant)
        np.add.at(by_heading, edge, sign * secant)
    moves = line.edges.length_moves(np.ones(len(line.half)))
    moves = moves - by * (line.half_moves(by_half) + line.heading_moves(by_heading))
    length = float(line.edges.lengths.sum()) - by * bending(line)
    return Offset(by, line, length, moves)


def refuse_narrow(line: Line, by: float) -> None:
    """A line that has no room for an offset.

    Raises:
        BadInput: an arc of less radius, or an edge that the mitres at its ends use up.
    """
    lengths = line.edges.lengths
    before, after, turn = line.corners
    cut = np.zeros(len(lengths))
    np.add.at(cut, before, np.tan(0.5 * turn))
    np.add.at(cut, after, np.tan(0.5 * turn))
    left = lengths - by * (2.0 * line.half + cut)
    bad = np.flatnonzero((left <= GROUND) & (lengths > 0.0))  # no more than rounding leaves
    if len(bad) and by:
        edge = int(bad[0])
        raise BadInput(
            "Edge {edge}, {length:.3f} m long, has no room for {by:.3f} m to its inner side: its radius or its corners are "
            "too tight. Give a smaller thickness, or draw the line along the other side.",
            edge=edge + 1,
            length=float(lengths[edge]),
            by=abs(by),
        )


def offset_quantity(offset: Offset, worth: Worth, by_sigma: float) -> Quantity:
    """The length of a line that was moved, with its one-sigma from its points' and from that of how far it was moved."""
    sigma = worth.sigma(moves_of(offset.line, offset.moves))
    return Quantity(offset.length, float(np.hypot(sigma, by_sigma * bending(offset.line))), "m")


def fit_units(line: Line, by: float, unit: float, sag: float = SAG) -> Units:
    """How straight units of one length fit along a face: a curve of radius R rises u^2 / 8R over a unit u.

    Args:
        line: metres.
        by: to the left of it lies the face, metres.
        unit: length of a unit, metres.
        sag: the largest rise that is allowed, metres.
    Raises:
        BadInput: a unit or a sag that is not above 0.
    Source:
        u^2 / 8R, the rise of an arc over a short chord; 10 mm is common practice, no source. Units by run, rounded up.
    """
    if not (0.0 < unit < np.inf and 0.0 < sag < np.inf):
        raise BadInput("A unit is {unit} m long and may sag {sag} m. Give both above 0.", unit=unit, sag=sag)
    lengths = np.maximum(line.edges.lengths - 2.0 * by * line.half, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        rise = np.where(lengths > 0.0, unit**2 * 2.0 * np.abs(line.half) / (8.0 * lengths), 0.0)
    is_tight = rise > sag + GROUND
    counts = {False: 0, True: 0}
    for first, last in _runs(line, is_tight):
        kind = bool(is_tight[first])
        counts[kind] += whole_up(float(lengths[first:last].sum()), unit)
    straight, radius = float(lengths[~is_tight].sum()), float(lengths[is_tight].sum())
    return Units(straight, radius, float(rise.max(initial=0.0)), counts[False], counts[True])


def _runs(line: Line, is_tight: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> Sequence[tuple[int, int]]:
    """Stretches of one kind that no corner breaks: edge numbers, the last not included."""
    _, after, turn = line.corners
    is_break = np.zeros(len(is_tight), bool)
    is_break[after[np.abs(turn) > SMOOTH]] = True
    is_break[0] = True
    is_break[1:] |= is_tight[1:] != is_tight[:-1]
    starts = np.flatnonzero(is_break)
    return list(zip(starts.tolist(), [*starts[1:].tolist(), len(is_tight)]))


def swept(line: Line, by: float, mean: Floats, at_corner: Floats) -> float:
    """The integral along a line moved to the left by some metres of what has a mean (m,) on each edge and values (k,) at
    its corners: the volume that a section sweeps is its area times that along its centroid (Pappus)."""
    _, _, turn = line.corners
    straight = float((mean * (line.edges.lengths - 2.0 * by * line.half)).sum())
    return straight - by * float((2.0 * np.tan(0.5 * turn) * at_corner).sum())
