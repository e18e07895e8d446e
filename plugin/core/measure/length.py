# SPDX-License-Identifier: GPL-2.0-or-later
"""Lengths in plan and along the slope, rises and gradients, of whole pieces and of single legs."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..positions import Positions
from ..quantity import Floats, Gradient, Ints, Quantity
from ..segments import length_factor
from ..shape.records import DrawnLeg, Piece
from .figure import BLOCK, Figure, block_sigmas, by_stations, dense_pull, mix, mixed_moves, plan_sigmas


@dataclass(frozen=True, eq=False)
class Edges:
    """The edges of a piece: lengths in plan, and their changes with vertices and half sweeps."""

    piece: Piece

    @cached_property
    def chord(self) -> Floats:
        """(e, 2) from each edge's first point to its last, metres."""
        first, last = self.piece.ends
        return np.asarray(self.piece.points[last, :2] - self.piece.points[first, :2])

    @cached_property
    def _lengths(self) -> tuple[Floats, Floats, Floats]:
        chord = np.hypot(self.chord[:, 0], self.chord[:, 1])
        factor, slope = length_factor(self.piece.half)
        with np.errstate(divide="ignore", invalid="ignore"):
            unit = np.where(chord[:, None] > 0.0, self.chord / chord[:, None], 0.0)
        return chord * factor, factor[:, None] * unit, chord * slope

    @property
    def length(self) -> Floats:
        """(e,) metres in plan."""
        return self._lengths[0]

    def by_rows(self, rows: Ints) -> Floats:
        """(e, k, 2) change of each edge's length by metre of k stations (in order of row)."""
        vertices, turns = dense_pull(self.piece, rows)
        first, last = self.piece.ends
        _, by_end, by_half = self._lengths
        moves = np.einsum("ea,eakb->ekb", by_end, vertices[last] - vertices[first])
        return np.asarray(moves + by_half[:, None, None] * turns)

    @cached_property
    def rise(self) -> Floats:
        """(e,) height of each edge's last point less its first's, NaN where one has none."""
        first, last = self.piece.ends
        return np.asarray(self.piece.points[last, 2] - self.piece.points[first, 2])

    def weighted(self, edges: Ints, factor: Floats) -> tuple[Floats, Floats]:
        """Changes by vertices (v, 2) and half sweeps (e,) of the sum of some edges' lengths times factors."""
        _, by_end, by_half = self._lengths
        first, last = self.piece.ends
        moves = factor[:, None] * by_end[edges]
        by_vertex = np.zeros((len(self.piece.points), 2))
        np.add.at(by_vertex, last[edges], moves)
        np.add.at(by_vertex, first[edges], -moves)
        turns = np.zeros(len(self.piece.half))
        turns[edges] = factor * by_half[edges]
        return by_vertex, turns

    def plan_length(self, edges: Ints) -> Figure:
        """Length in plan of some edges, metres."""
        by_vertex, by_half = self.weighted(edges, np.ones(len(edges)))
        return Figure(float(self.length[edges].sum()), by_stations(self.piece, by_vertex, by_half))

    def sweep(self, edges: Ints) -> Figure:
        """What some edges turn through from their start to their end, radians, positive to the left."""
        by_half = np.zeros(len(self.piece.half))
        by_half[edges] = 2.0
        return Figure(2.0 * float(self.piece.half[edges].sum()), by_stations(self.piece, None, by_half))

    def radius(self, edges: Ints) -> Figure | None:
        """Radius of some edges of one circle, metres: their length by their sweep; None where they do not turn."""
        length, sweep = self.plan_length(edges), self.sweep(edges)
        if sweep.value == 0.0:
            return None
        value = length.value / abs(sweep.value)
        parts = [(1.0 / abs(sweep.value), length.gradient), (-value / sweep.value, sweep.gradient)]
        return mix(value, parts)

    def slope_length(self, edges: Ints) -> Figure | None:
        """Length along the slope, heights running evenly along each edge (a standing arc: its own); None
        where a height is missing. Metres."""
        standing = [leg for leg in self.piece.legs if leg.vertical and leg.first in edges]
        edges = np.setdiff1d(edges, [leg.first for leg in standing])
        length, rise = self.length[edges], self.rise[edges]
        slope = np.hypot(length, rise)
        if not np.isfinite(slope).all():
            return None
        with np.errstate(divide="ignore", invalid="ignore"):
            along = np.where(slope > 0.0, length / slope, 0.0)
            up = np.where(slope > 0.0, rise / slope, 0.0)
        first, last = self.piece.ends
        by_z = np.zeros(len(self.piece.points))
        np.add.at(by_z, last[edges], up)
        np.add.at(by_z, first[edges], -up)
        parts = [(1.0, by_stations(self.piece, *self.weighted(edges, along), by_z))]
        value = float(slope.sum())
        for leg in standing:
            if leg.vertical is not None:
                value += leg.vertical.length
                parts.append((1.0, Gradient(leg.vertical.rows, leg.vertical.by_plan, leg.vertical.by_height)))
        return mix(value, parts)


@dataclass(frozen=True, eq=False)
class WalkedLegs:
    """The legs of a piece in plan: lengths (l,) and one-sigmas (l,), and the same of its sides."""

    lengths: Floats
    sigmas: Floats
    side_lengths: Floats
    side_sigmas: Floats


def measure_legs(edges: Edges, positions: Positions) -> WalkedLegs:
    """Lengths in plan of all legs and sides of a piece, metres."""
    piece = edges.piece
    first = [leg.first for leg in piece.legs]
    lengths = np.add.reduceat(edges.length, first)
    side_lengths = np.array([lengths[list(side)].sum() for side in piece.sides])
    rows = np.unique(np.concatenate([piece.pull.vertex_row, piece.pull.edge_row]))
    if len(rows) > BLOCK:
        every = [edges.plan_length(edges_of(leg)) for leg in piece.legs]
        sigmas = plan_sigmas(positions, [run.gradient for run in every])
        whole = [sum_of([every[k] for k in side]).gradient for side in piece.sides]
        return WalkedLegs(lengths, sigmas, side_lengths, plan_sigmas(positions, whole))
    moves = np.add.reduceat(edges.by_rows(rows), first, axis=0)
    whole_moves = [moves[list(side)].sum(axis=0) for side in piece.sides]
    sigmas = block_sigmas(positions, rows, np.array([*moves, *whole_moves]))
    return WalkedLegs(lengths, sigmas[: len(first)], side_lengths, sigmas[len(first) :])


def height_gradient(piece: Piece, vertex: int, factor: float = 1.0) -> Gradient:
    """How a vertex's height, times a factor, moves with the stations."""
    its = piece.pull.height == vertex
    index = piece.pull.height_row[its]
    return Gradient(index, np.zeros((len(index), 2)), factor * piece.pull.height_by[its])


def rise_between(piece: Piece, start: int, end: int) -> Figure | None:
    """Height of one vertex less that of another, metres; None where one has none."""
    value = float(piece.points[end, 2] - piece.points[start, 2])
    if not np.isfinite(value):
        return None
    return mix(value, [(1.0, height_gradient(piece, end)), (-1.0, height_gradient(piece, start))])


def edges_of(leg: DrawnLeg) -> Ints:
    """The edges of a leg."""
    return np.arange(leg.first, leg.last)


def gradient_of(rise: Quantity | None, run: Quantity) -> Quantity | None:
    """Rise by run. The run hangs on the plan and the rise on the heights alone, which are independent."""
    if rise is None or run.value <= 0.0:
        return None
    ratio = rise.value / run.value
    sigma = float(np.hypot(rise.sigma, ratio * run.sigma)) / run.value
    moves = mixed_moves((1.0 / run.value, rise), (-ratio / run.value, run))
    return Quantity(ratio, sigma, "ratio", moves)


def slope_of(rise: Quantity | None, run: Quantity) -> Quantity | None:
    """Length along the slope of one straight or one even arc, from its independent run and rise."""
    if rise is None:
        return None
    slope = float(np.hypot(rise.value, run.value))
    if slope == 0.0:
        return Quantity(
            0.0, float(np.hypot(rise.sigma, run.sigma)), "m", mixed_moves((1.0, rise), (1.0, run))
        )
    sigma = float(np.hypot(run.value * run.sigma, rise.value * rise.sigma)) / slope
    return Quantity(slope, sigma, "m", mixed_moves((run.value / slope, run), (rise.value / slope, rise)))


def sum_of(figures: list[Figure]) -> Figure:
    """Figures added up."""
    return mix(sum(f.value for f in figures), [(1.0, f.gradient) for f in figures])


@dataclass(frozen=True)
class Between:
    """From one station to another: rise and slope length None where a height is missing, gradient also
    where the run is nothing."""

    rise: Quantity | None
    run: Quantity
    slope_length: Quantity | None
    gradient: Quantity | None


def measure_between(positions: Positions, i: int, j: int) -> Between:
    """Rise, run, slope length (metres) and gradient (rise by run) from station row i straight to row j."""
    step = positions.xy[j] - positions.xy[i]
    length = float(np.hypot(*step))
    unit = step / length if length else np.zeros(2)
    index, none = np.array([i, j], dtype=np.int64), np.zeros(2)
    run = Figure(length, Gradient(index, np.array([-unit, unit]), none)).quantity(positions, "m")
    rise = float(positions.z[j] - positions.z[i])
    if not np.isfinite(rise):
        return Between(None, run, None, None)
    lift = Figure(rise, Gradient(index, np.zeros((2, 2)), np.array([-1.0, 1.0]))).quantity(positions, "m")
    return Between(lift, run, slope_of(lift, run), gradient_of(lift, run))
