# SPDX-License-Identifier: GPL-2.0-or-later
"""Shapes to the rows of the survey's tables, every figure with its uncertainty and how it was come by."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..positions import Positions, station_of
from ..quantity import Gradient, Ints, Quantity
from ..shape.records import DrawnLeg, LegShape, Piece, Shape
from ..walk import Kind
from .area import Plane, fall_bearing, fit_plane, measure_fall, net_figure, ring_figure, sloped_figure
from .drawn import draw_edges, outline_of, shape_text
from .figure import Figure, mix
from .length import (
    Edges,
    WalkedLegs,
    edges_of,
    gradient_of,
    height_gradient,
    measure_legs,
    rise_between,
    slope_of,
    sum_of,
)
from .method import area_method, leg_method, length_method
from .noted import noted_along, shape_noted
from .rows import AreaRow, LegRow, LengthRow, SideRow, SpotRow, Tags


@dataclass(frozen=True, eq=False)
class Rows:
    """The rows of all shapes, in the order walked."""

    areas: tuple[AreaRow, ...]
    lengths: tuple[LengthRow, ...]
    spots: tuple[SpotRow, ...]
    sides: tuple[SideRow, ...]
    legs: tuple[LegRow, ...]

    def joined(self, more: Rows) -> Rows:
        """These rows and then the others, table by table."""
        return Rows(
            self.areas + more.areas,
            self.lengths + more.lengths,
            self.spots + more.spots,
            self.sides + more.sides,
            self.legs + more.legs,
        )


@dataclass(frozen=True, eq=False)
class _Hole:
    """A hole and the area inside its outline."""

    shape: Shape
    ring: Figure


def measure_shapes(
    shapes: Sequence[Shape],
    positions: Positions,
    *,
    site: str,
    sigma_from: Mapping[str, str],
    grid_turn: float = 0.0,
) -> Rows:
    """Measure all shapes.

    Args:
        shapes: as `shape_features` gives them (holes point at their areas by number).
        positions: where the stations lie, and their covariance.
        site: name of the site, for every row.
        sigma_from: by the walk's name, where the word on its accuracy comes from.
        grid_turn: turn from the survey plane to the grid, anticlockwise, radians; for the bearing of a fall.
    Returns:
        Rows with every figure filled in; None only where there is none to have (no heights, no area).
    """
    holes: dict[int, list[_Hole]] = {}
    for shape in shapes:
        if shape.parent is not None and shape.pieces:
            holes.setdefault(shape.parent, []).append(_Hole(shape, ring_figure(shape.pieces[0])))
    areas, lengths, spots, sides, legs = [], [], [], [], []
    for i, shape in enumerate(shapes):
        tags = _tags(shape, positions, site, sigma_from)
        if shape.kind is Kind.SPOT:
            spots.append(_spot_row(shape, positions, tags))
            continue
        walked = [measure_legs(Edges(piece), positions) for piece in shape.pieces]
        for piece, measured in zip(shape.pieces, walked):
            legs += _leg_rows(piece, measured, positions, tags)
        if shape.kind is Kind.LENGTH:
            lengths.append(_length_row(shape, positions, tags))
            continue
        areas.append(_area_row(shape, holes.get(i, []), positions, tags, grid_turn))
        if shape.pieces:
            sides += _side_rows(shape, shape.pieces[0], walked[0], positions, tags)
    return Rows(tuple(areas), tuple(lengths), tuple(spots), tuple(sides), tuple(legs))


def _tags(shape: Shape, positions: Positions, site: str, sigma_from: Mapping[str, str]) -> Tags:
    walk = positions.walks[shape.walk].name
    others = tuple(positions.walks[number].name for number in shape.others)
    return Tags(
        site=site,
        walk=walk,
        feature=shape.feature,
        part=shape.part,
        sigma_from=sigma_from.get(walk, ""),
        shape=shape_text(shape.pieces),
        finding=shape.set_aside,
        other_walks=others,
        **shape.texts,
    )


def _spot_row(shape: Shape, positions: Positions, tags: Tags) -> SpotRow:
    row = int(shape.rows[0])
    x, y = (float(v) for v in positions.xy[row])
    z = float(positions.z[row])
    height = None
    if np.isfinite(z):
        lift = Gradient(shape.rows[:1], np.zeros((1, 2)), np.ones(1))
        height = Quantity(z, float(positions.height_sigma(shape.rows[:1])[0]), "m", lambda: lift)
    tags = replace(tags, method="position and height of the station")
    return SpotRow(tags, (x, y, z), height, shape_noted(shape, positions))


def _leg_rows(piece: Piece, walked: WalkedLegs, positions: Positions, tags: Tags) -> list[LegRow]:
    out = []
    for leg, length, sigma in zip(piece.legs, walked.lengths, walked.sigmas):
        run = Quantity(float(length), float(sigma), "m", _length_moves(piece, edges_of(leg)))
        rise = rise_between(piece, leg.first, leg.last % len(piece.points))
        lift = rise.quantity(positions, "m") if rise else None
        slope = slope_of(lift, run)
        if leg.last - leg.first > 1 or leg.vertical is not None:
            whole = Edges(piece).slope_length(edges_of(leg))
            slope = whole.quantity(positions, "m") if whole else None
        out.append(
            LegRow(
                replace(tags, method=leg_method(leg), shape=""),
                draw_edges(piece, edges_of(leg)),
                _station_name(positions, leg.start[:1]),
                _station_name(positions, leg.end[-1:]),
                run,
                slope,
                lift,
                gradient_of(lift, run),
                *_arc_of(piece, leg, edges_of(leg), positions),
            )
        )
    return out


def _length_moves(piece: Piece, index: Ints) -> Callable[[], Gradient]:
    return lambda: Edges(piece).plan_length(index).gradient


def _station_name(positions: Positions, rows: tuple[int, ...]) -> str:
    """The station of a row, "" where there is none: at the crossing where an outline was split."""
    return "".join(walk.station[cell] for walk, cell in (station_of(positions, row) for row in rows))


def _side_rows(
    shape: Shape, piece: Piece, walked: WalkedLegs, positions: Positions, tags: Tags
) -> list[SideRow]:
    out = []
    owners = piece.owners or (shape.place,) * len(piece.sides)
    others = piece.others or ("",) * len(piece.sides)
    for k, (side, value, sigma) in enumerate(zip(piece.sides, walked.side_lengths, walked.side_sigmas)):
        legs = [piece.legs[k] for k in side]
        index = np.concatenate([edges_of(leg) for leg in legs])
        radius, sweep = _arc_of(piece, legs[0], index, positions)
        own = replace(tags, method=leg_method(legs[0]), shape="")
        length = Quantity(float(value), float(sigma), "m", _length_moves(piece, index))
        curve = draw_edges(piece, index)
        out.append(SideRow(own, curve, owners[k], others[k], legs[-1].item, length, radius, sweep))
    return out


def _arc_of(
    piece: Piece, leg: DrawnLeg, index: Ints, positions: Positions
) -> tuple[Quantity | None, Quantity | None]:
    """Radius in metres and sweep in radians (positive to the left) of a side that is an arc."""
    if leg.shape not in (LegShape.ARC, LegShape.CIRCLE):
        return None, None
    edges = Edges(piece)
    radius, sweep = edges.radius(index), edges.sweep(index)
    if radius is None:
        return None, None
    return radius.quantity(positions, "m"), sweep.quantity(positions, "rad")


def _length_row(shape: Shape, positions: Positions, tags: Tags) -> LengthRow:
    tags = replace(tags, method=length_method(shape))
    runs = tuple(draw_edges(piece) for piece in shape.pieces)
    noted = shape_noted(shape, positions)
    if not runs:
        return LengthRow(tags, (), None, None, None, None, noted)
    edges = [Edges(piece) for piece in shape.pieces]
    every = [np.arange(len(piece.half)) for piece in shape.pieces]
    length = sum_of([e.plan_length(k) for e, k in zip(edges, every)]).quantity(positions, "m")
    slopes = [e.slope_length(k) for e, k in zip(edges, every)]
    known = [slope for slope in slopes if slope is not None]
    slope = sum_of(known).quantity(positions, "m") if len(known) == len(slopes) else None
    rises = [rise_between(piece, 0, len(piece.points) - 1) for piece in shape.pieces]
    drawn = [rise for rise in rises if rise is not None]
    climbed = sum_of(drawn).quantity(positions, "m") if len(drawn) == len(rises) else None
    rise, gradient = _whole_rise(shape, positions), gradient_of(climbed, length)
    return LengthRow(tags, runs, length, slope, rise, gradient, noted, noted_along(shape, positions))


def _whole_rise(shape: Shape, positions: Positions) -> Quantity | None:
    """Height of the end of the last run less that of the start of the first."""
    first, last = shape.pieces[0], shape.pieces[-1]
    if first is last:
        rise = rise_between(first, 0, len(first.points) - 1)
        return rise.quantity(positions, "m") if rise else None
    value = float(last.points[-1, 2] - first.points[0, 2])
    if not np.isfinite(value):
        return None
    up, down = height_gradient(last, len(last.points) - 1), height_gradient(first, 0)
    return mix(value, [(1.0, up), (-1.0, down)]).quantity(positions, "m")


def _area_row(
    shape: Shape, holes: Sequence[_Hole], positions: Positions, tags: Tags, grid_turn: float
) -> AreaRow:
    if not shape.pieces:
        tags = replace(tags, method="fewer than three points")
        return AreaRow(
            tags, (), None, None, None, None, None, shape.hole_in, (), shape_noted(shape, positions)
        )
    piece = shape.pieces[0]
    outline = [outline_of(piece, anticlockwise=True)]
    outline += [outline_of(hole.shape.pieces[0], anticlockwise=False) for hole in holes]
    area = net_figure(ring_figure(piece), [hole.ring for hole in holes])
    edges = Edges(piece)
    perimeter = edges.plan_length(np.arange(len(piece.half))).quantity(positions, "m")
    plane = fit_plane(positions, piece)
    sloped, fall, bearing = _sloped(area, plane, positions, grid_turn)
    taken = [(hole.shape.place, hole.ring.value) for hole in holes]
    tags = replace(tags, method=area_method(shape, taken, has_plane=plane is not None))
    return AreaRow(
        tags,
        tuple(outline),
        area.quantity(positions, "m2"),
        sloped,
        perimeter,
        fall,
        bearing,
        shape.hole_in,
        plane.places if plane else (),
        shape_noted(shape, positions),
    )


def _sloped(
    area: Figure, plane: Plane | None, positions: Positions, grid_turn: float
) -> tuple[Quantity | None, Quantity | None, Quantity | None]:
    if plane is None:
        return None, None, None
    sloped = sloped_figure(area, plane).quantity(positions, "m2")
    return sloped, measure_fall(plane, positions), fall_bearing(plane, positions, grid_turn)
