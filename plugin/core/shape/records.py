# SPDX-License-Identifier: GPL-2.0-or-later
"""What shaping makes of stations: features of straights and arcs that know how they move with the stations."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cached_property

import numpy as np

from ..quantity import Floats, Ints
from ..segments import Curve, bulges
from ..walk import Kind


class LegShape(Enum):
    """What a drawn leg is."""

    STRAIGHT = "straight"
    ARC = "arc"
    CIRCLE = "circle"
    """A full circle that ends at its first station."""
    AS_WALKED = "as walked"
    VERTICAL = "vertical arc"
    """Straight in plan, an arc in the vertical plane over it."""


@dataclass(frozen=True, eq=False)
class Pull:
    """How the vertices and arcs of a piece move with the stations (rows of the survey), entry by entry;
    entries of one vertex or edge add up.

    Attributes:
        vertex, vertex_row, vertex_by: (a,), (a,), (a, 2, 2) change of a vertex's x, y by a station's x, y.
        edge, edge_row, edge_by: (b,), (b,), (b, 2) change of an edge's half sweep by a station's x, y.
        height, height_row, height_by: (c,) each, change of a vertex's z by a station's z.
    """

    vertex: Ints
    vertex_row: Ints
    vertex_by: Floats
    edge: Ints
    edge_row: Ints
    edge_by: Floats
    height: Ints
    height_row: Ints
    height_by: Floats


@dataclass(frozen=True, eq=False)
class VerticalArc:
    """An arc standing over a straight: `half` its half sweep in radians (positive where it sags below its
    chord), `radius` and `length` (along the arc) in metres; `by_plan` (k, 2) and `by_height` (k,) are the
    changes of the length with the stations `rows`."""

    half: float
    radius: float
    length: float
    rows: Ints
    by_plan: Floats
    by_height: Floats


class Kept(Enum):
    """Why rows as walked stay as recorded although shapes were asked for."""

    NOTHING_FITS = "nothing fits"
    """No straights and arcs within the tolerance, or none that stand out of what the rows can be trusted to."""
    TOO_FEW = "too few"
    OFFSETS = "offsets differ"
    TOO_MANY = "too many"


@dataclass(frozen=True)
class Fit:
    """What speaks for a piece that was fitted to as-walked rows, or why there is none.

    Attributes:
        tolerance: metres that a row may lie off.
        rows: how many rows the piece rests on, or how many stay as recorded.
        rms, largest: of their distances from it, metres.
        gain: chi-square by which an arc fits its rows better than a straight; NaN where nobody can tell.
        starts_tangent, ends_tangent: whether it meets its neighbours as a tangent there.
        kept: why the rows stay as recorded; None of a straight or an arc.
    """

    tolerance: float
    rows: int
    rms: float = 0.0
    largest: float = 0.0
    gain: float = float("nan")
    starts_tangent: bool = False
    ends_tangent: bool = False
    kept: Kept | None = None


@dataclass(frozen=True, eq=False)
class DrawnLeg:
    """A drawn leg: edges `first` to `last` - 1 of its piece.

    `start` and `end` are the rows of the station at either end (two rows where two stations are one point),
    `passed` those between. `item` is the side_item of the station that ends it. `rms` is the root mean
    square by which an arc misses its passed points, metres (0 where it passes them exactly). `fit` is there
    where shapes were asked for of as-walked rows: then each piece is a leg, from its first row to its last.
    """

    shape: LegShape
    first: int
    last: int
    start: tuple[int, ...]
    passed: tuple[int, ...]
    end: tuple[int, ...]
    item: str = ""
    rms: float = 0.0
    vertical: VerticalArc | None = None
    fit: Fit | None = None


@dataclass(frozen=True, eq=False)
class Piece:
    """An unbroken run of edges.

    Attributes:
        points: (v, 3) x, y, z in metres; of a closed piece the first is not repeated.
        half: (e,) half of each edge's sweep, radians, positive to the left; e is v if closed, else v - 1.
        pull: how all of it moves with the stations.
        legs: the drawn legs in order of walking.
        sides: the legs (by number) of each side, corner to corner.
        offset: whether edges were moved off the walked line.
        owners, others: of each side of an area, the place of the feature that counts it, and of those that lie along
            it, joined by `+`; both empty where no side of it is shared.
    """

    points: Floats
    half: Floats
    closed: bool
    pull: Pull
    legs: tuple[DrawnLeg, ...]
    sides: tuple[tuple[int, ...], ...]
    offset: bool = False
    owners: tuple[str, ...] = ()
    others: tuple[str, ...] = ()

    @cached_property
    def ends(self) -> tuple[Ints, Ints]:
        """(e,) vertices at which each edge starts and ends."""
        start = np.arange(len(self.half))
        return start, (start + 1) % len(self.points)

    def curve(self, edges: Ints | None = None) -> Curve:
        """Some edges, in a row, as they were walked; all where none are named."""
        first, last = self.ends
        if edges is None:
            edges = np.arange(len(self.half))
        index = np.concatenate([first[edges], last[edges[-1:]]]) if len(edges) else np.zeros(1, int)
        return Curve(self.points[index], bulges(self.half[edges]))


@dataclass(frozen=True, eq=False)
class Shape:
    """One part of a feature as it lies on the ground.

    Attributes:
        walk: number of its walk among the survey's.
        rows: (k,) rows of its stations in the order walked, carried ones left out.
        pieces: an area has one, closed; a length one for every run between carries; a spot none.
        texts: item, status, surface, option, phase and note: the first cell that is not blank.
        gap: metres between first and last station where an outline was closed by taking them as one point.
        hole_in: name of the area this one is a hole of, "" if none.
        parent: number of that area among the shapes, None if none.
        others: numbers of further walks that it was walked in.
        set_aside: code of the answered finding by which another go took its place, "" where none did.
    """

    walk: int
    rows: Ints
    kind: Kind
    feature: str
    part: str
    pieces: tuple[Piece, ...]
    texts: Mapping[str, str]
    gap: float | None = None
    hole_in: str = ""
    parent: int | None = None
    others: tuple[int, ...] = ()
    set_aside: str = ""

    @property
    def place(self) -> str:
        """The key by which findings and decisions name it."""
        return f"{self.feature}/{self.part}" if self.part else self.feature
