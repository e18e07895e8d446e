# SPDX-License-Identifier: GPL-2.0-or-later
"""Concrete slabs: volume with even or varying thickness, thickened edges, forms by class, joints and mesh."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..defaults import CURVED_BELOW
from ..errors import BadInput
from ..ground.depths import Ground
from ..ground.locate import locate
from ..ground.outline import chorded_ring
from ..ground.surface import Surface
from ..ground.target import TargetPlane
from ..ground.volume import measure_ground
from ..quantity import Floats, Quantity
from .bands import MOST_BANDS, Bands, lay_pieces, longest_heading, ring_curve, turn_outline
from .lines import Line
from .moments import moments_of
from .order import GROUND, order_up, whole_up
from .slab_edges import EdgeSection, Stretch, Thickening, ThickRing, all_edges, form_lines, thicken
from .slab_worth import Body, sum_concrete
from .widen import reach_past
from .worth import Moves, Worth, moves_of, worth_of

FORM_CLASSES = (0.150, 0.300)
"""Metres: forms up to the first height, up to the second, and above (common practice, no source)."""
THIN = 1e-9
"""Of the square of their spread along: corners that spread less across lie on one line."""
LEFT_OUT = 1e-5
"""Of a slab's area: less that no triangle holds, or that the ground stands above, is rounding of the outline."""
LEVEL = 1e-6
"""Metres: heights of a form that differ by less are one; so much is rounding of coordinates on the map."""
BAY_RATIO = 1.5
"""The longest bay by its width (common practice, no source)."""


@dataclass(frozen=True)
class SlabSpec:
    """How a slab is made, metres; 0 is none.

    Attributes:
        thickness: even, measured upright; where `bottom` is given it is not used.
        bottom: level of a flat underside in the heights' datum; None for an even thickness.
        under: the surface under it, in the plane of the outline; it goes before both.
        extra: how far it reaches past its outer edge; holes stay as they are.
        edge_depth, edge_width, edge_splay: a thickening below the slab along its outer edge: how deep, how wide at its
            foot, how much wider at its top. thickened: of each ring, what of its edges is; None for
            all of the outer ones.
        tight: radius below which a form is curved. joint_factor: bays are at most so many thicknesses long.
        sheet: length and width of a mesh sheet. lap: of sheets, both ways.
        waste: a ratio; step: that concrete is sold in, m3.
        size_sigma: one-sigma of thickness and sizes, metres.
    """

    thickness: float = 0.0
    bottom: float | None = None
    under: Surface | None = None
    extra: float = 0.0
    edge_depth: float = 0.0
    edge_width: float = 0.0
    edge_splay: float = 0.0
    thickened: tuple[tuple[Stretch, ...], ...] | None = None
    tight: float = CURVED_BELOW
    joint_factor: float = 0.0
    sheet: tuple[float, float] = (0.0, 0.0)
    lap: float = 0.0
    waste: float = 0.0
    step: float = 0.0
    size_sigma: float = 0.0


@dataclass(frozen=True)
class Forms:
    """Forms along all edges by class, metres: (3,) straight and (3,) curved, by FORM_CLASSES; area, m2."""

    straight: tuple[float, float, float]
    curved: tuple[float, float, float]
    area: float


@dataclass(frozen=True)
class Slab:
    """A slab's figures.

    Attributes:
        concrete: m3 of all of it; edges: of the thickenings alone; ordered: with waste, up to the step.
        area: in plan, holes out, the extra counted in, m2.
        thinnest, mean, thickest: thickness without the thickenings, m.
        forms: by class. off_plane: of the corners' heights from the plane they are taken for, m.
        joints: of all bays, m. bays: of the box. sheets: of mesh; net_sheet: m2 that one covers.
        method: how it was come by.
    """

    concrete: Quantity
    edges: Quantity
    ordered: float
    area: Quantity
    thinnest: float
    mean: Quantity
    thickest: float
    forms: Forms
    off_plane: float
    joints: float
    bays: int
    sheets: int
    net_sheet: float
    method: str


@dataclass(frozen=True, eq=False)
class _Thickness:
    """At each vertex of each ring; its mean over the area, how that moves with the points of each ring (() where it does not)
    and its one-sigma by anything else; how far heights lie off their plane; the least and the most of it."""

    rings: list[Floats]
    mean: float
    moves: list[Moves]
    by_size: float
    off: float
    least: float
    most: float


def measure_slab(rings: list[Line], area: Quantity, spec: SlabSpec, sigma: float | Worth) -> Slab:
    """Measure a slab inside an outline.

    Args:
        rings: of one part or more, metres; outer ones anticlockwise or not, holes the other way round.
        area: inside the rings in plan, holes out, m2.
        spec: how it is made.
        sigma: one-sigma of a point along each axis and in height, metres; or what the points are worth together.
    Raises:
        BadInput: no thickness, an underside above the top, or no room for the thickened edge.
    Source:
        V = integral of (top - bottom) dA: the area times the thickness at its centroid where both are planes, over the
        surface's triangles where there is one. Thickened
        edges: section times the path of its centroid (Pappus). Form, bay and lap rules: common practice, no source.
    """
    worth = worth_of(sigma)
    drawn, wider = rings, reach_past(rings, area, spec.extra, worth, spec.size_sigma)
    rings, area = wider.rings, wider.area
    outer = [ring for ring in rings if _is_outer(ring, rings)]
    if spec.under is not None:
        thick = _over_surface(rings, spec.under)
    else:
        thick = _even(rings, spec) if spec.bottom is None else _over_level(rings, spec.bottom, spec)
    edges = _edges(rings, drawn, spec, worth)
    forms = _forms(rings, thick.rings, spec)
    body = Body(wider, thick.mean, thick.moves, thick.by_size, spec.size_sigma if spec.extra else 0.0)
    concrete = sum_concrete(body, edges, worth)
    bands = turn_outline(rings, longest_heading(outer))
    joints, bays = lay_joints(bands, spec.joint_factor * thick.mean) if spec.joint_factor else (0.0, 1)
    sheets, net = lay_mesh(rings, spec) if min(spec.sheet) > 0.0 else (0, 0.0)
    return Slab(
        concrete,
        edges.concrete,
        order_up(concrete.value, spec.waste, spec.step),
        area,
        thick.least,
        Quantity(
            thick.mean, math.hypot(worth.sigma(*thick.moves) if thick.moves else 0.0, thick.by_size), "m"
        ),
        thick.most,
        forms,
        thick.off,
        joints,
        bays,
        sheets,
        net,
        _method(spec),
    )


def _is_outer(ring: Line, rings: list[Line]) -> bool:
    """Rings that turn as the first one does."""
    first, own = (float(line.edges.areas.sum()) for line in (rings[0], ring))
    return first * own > 0.0


def _even(rings: list[Line], spec: SlabSpec) -> _Thickness:
    if not 0.0 < spec.thickness < np.inf:
        raise BadInput("The slab has no thickness above 0. Give one, or the level of its underside.")
    return _Thickness(
        [np.full(len(ring.vertices), spec.thickness) for ring in rings],
        spec.thickness,
        [],
        spec.size_sigma,
        0.0,
        spec.thickness,
        spec.thickness,
    )


@dataclass(frozen=True, eq=False)
class _Top:
    """The plane nearest to the corners' heights: through a middle (3,), with rises by metre; the inverse of its corners'
    spread (2, 2), and how far one lies off it, metres."""

    middle: Floats
    slopes: Floats
    inverse: Floats
    off: float

    def at(self, xy: Floats) -> Floats:
        """Heights of places (..., 2)."""
        return np.asarray(self.middle[2] + (xy - self.middle[:2]) @ self.slopes)

    def moves(self, rings: list[Line], xy: Floats) -> list[Moves]:
        """How the height of a place (2,) moves with those of the corners of each ring."""
        count = sum(len(ring.vertices) - 1 for ring in rings)
        lead = self.inverse @ (xy - self.middle[:2])
        out = []
        for ring in rings:
            lift, its = np.zeros(len(ring.points)), ring.vertices[:-1]
            lift[its] = 1.0 / count + (ring.points[its, :2] - self.middle[:2]) @ lead
            out.append(moves_of(ring, height=lift))
        return out


def _top(rings: list[Line]) -> _Top:
    if not all(ring.has_heights for ring in rings):
        raise BadInput(
            "The slab has an underside but no heights on top. Give its corners heights, or a thickness."
        )
    origin = rings[0].points[0]
    corners = np.vstack([ring.points[ring.vertices[:-1]] for ring in rings]) - origin
    middle = corners.mean(axis=0)
    d = corners - middle
    spread = d[:, :2].T @ d[:, :2]
    if np.linalg.det(spread) <= THIN * np.trace(spread) ** 2:
        raise BadInput("The slab's corners lie on one line, so they tell no top. Give a thickness.")
    inverse = np.linalg.inv(spread)
    slopes = inverse @ d[:, :2].T @ d[:, 2]
    return _Top(middle + origin, slopes, inverse, float(np.abs(d[:, 2] - d[:, :2] @ slopes).max()))


def _over_level(rings: list[Line], level: float, spec: SlabSpec) -> _Thickness:
    """The thickness between the plane nearest to the corners' heights and a level underside."""
    top = _top(rings)
    origin = rings[0].points[0, :2]
    centre = origin + moments_of(rings, origin).centroid
    rim = [top.at(ring.points[ring.vertices, :2]) - level for ring in rings]
    over = -min(float(values.min()) for values in rim)
    if over > 0.0:
        raise BadInput(
            "The underside lies {over:.3f} m above the slab's top at its lowest corner. Correct the level or the heights.",
            over=over,
        )
    every, mean = np.concatenate(rim), float(top.at(centre)) - level
    low, high = float(every.min()), float(every.max())
    return _Thickness(rim, mean, top.moves(rings, centre), spec.size_sigma, top.off, low, high)


def _over_surface(rings: list[Line], under: Surface) -> _Thickness:
    """The thickness between the plane nearest to the corners' heights and a surface, over its triangles. At a corner that
    no triangle holds the mean stands for it, for its form."""
    top = _top(rings)
    outlines = [chorded_ring(ring_curve(ring)) for ring in rings]
    target = TargetPlane(*top.middle.tolist(), *top.slopes.tolist())
    volumes = measure_ground(Ground(under, target).within(outlines))
    whole = volumes.area + volumes.left_out
    if volumes.left_out > LEFT_OUT * whole:
        raise BadInput(
            "The surface leaves out {left:.2f} m2 of {whole:.2f} m2 of the slab. Extend it, or cut the slab to it.",
            left=volumes.left_out,
            whole=whole,
        )
    if volumes.areas[0] > LEFT_OUT * whole:
        raise BadInput(
            "The ground stands above the slab's top by up to {over:.3f} m over {area:.2f} m2. Dig it away in the surface, or "
            "lift the slab.",
            over=volumes.most.value,
            area=volumes.areas[0],
        )
    origin = rings[0].points[0, :2]
    centre = origin + moments_of(rings, origin).centroid
    mean = volumes.fill.value / volumes.area
    rim = [_above(top, under, ring.points[ring.vertices, :2], mean) for ring in rings]
    lifts, low = top.moves(rings, centre), max(-volumes.most.value, 0.0)
    by_ground = volumes.fill.sigma / volumes.area
    return _Thickness(rim, mean, lifts, by_ground, top.off, low, -volumes.least.value)


def _above(top: _Top, under: Surface, xy: Floats, mean: float) -> Floats:
    triangle, weight = locate(under.points, under.triangles, xy)
    ground = (under.points[under.triangles[triangle], 2] * weight).sum(axis=1)
    return np.asarray(np.where(triangle >= 0, np.maximum(top.at(xy) - ground, 0.0), mean))


def _edges(rings: list[Line], drawn: list[Line], spec: SlabSpec, worth: Worth) -> Thickening:
    """The thickening under the outer rings, or under those of their edges that are named."""
    section = EdgeSection(spec.edge_depth, spec.edge_width, spec.edge_splay, spec.size_sigma, spec.extra)
    thick = [
        ThickRing(ring, own, math.copysign(1.0, float(ring.edges.areas.sum())), stretches)
        for ring, own, stretches in zip(rings, drawn, _thickened(rings, spec))
    ]
    return thicken(thick, section, worth)


def _thickened(rings: list[Line], spec: SlabSpec) -> list[tuple[Stretch, ...]]:
    """Of each ring, what is thickened."""
    given = spec.thickened if spec.thickened is not None else [all_edges(ring) for ring in rings]
    return [its if _is_outer(ring, rings) else () for ring, its in zip(rings, given)]


def _forms(rings: list[Line], heights: list[Floats], spec: SlabSpec) -> Forms:
    """Along all edges; deeper by the thickening, which goes along all outer ones unless sides are named."""
    if spec.thickened is None:
        deeper = [spec.edge_depth if _is_outer(ring, rings) else 0.0 for ring in rings]
        return measure_forms(rings, [values + by for values, by in zip(heights, deeper)], spec.tight)
    lines, ends = list[Line](), list[Floats]()
    for ring, values, stretches in zip(rings, heights, _thickened(rings, spec)):
        its, own = form_lines(ring, values, spec.edge_depth, stretches)
        lines, ends = lines + its, ends + own
    return measure_forms(lines, ends, spec.tight)


def measure_forms(rings: list[Line], heights: list[Floats], tight: float = CURVED_BELOW) -> Forms:
    """Forms along all edges of some rings, by the class of their height and whether they are curved.

    Args:
        rings: metres.
        heights: (v,) of the form at each vertex of each, running evenly between; split where it passes a class.
        tight: radius below which a form is curved, metres.
    """
    straight, curved, area = np.zeros(3), np.zeros(3), 0.0
    limits = np.array([-np.inf, *FORM_CLASSES, np.inf])
    for ring, height in zip(rings, heights):
        lengths = ring.edges.lengths
        low, high = np.minimum(height[:-1], height[1:]), np.maximum(height[:-1], height[1:])
        share = np.empty((3, len(lengths)))
        for k in range(3):
            part = np.clip(high, limits[k], limits[k + 1]) - np.clip(low, limits[k], limits[k + 1])
            is_in = (low > limits[k] + LEVEL) & (low <= limits[k + 1] + LEVEL)
            span = high - low
            share[k] = np.where(span > LEVEL, part / np.maximum(span, 1e-300), is_in)
        is_curved = _is_curved(ring, tight)
        curved += (share * np.where(is_curved, lengths, 0.0)).sum(axis=1)
        straight += (share * np.where(is_curved, 0.0, lengths)).sum(axis=1)
        area += float((0.5 * (height[:-1] + height[1:]) * lengths).sum())
    a, b = straight.tolist(), curved.tolist()
    return Forms((a[0], a[1], a[2]), (b[0], b[1], b[2]), area)


def _is_curved(ring: Line, tight: float) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """(m,) whether an edge is an arc of a radius below a limit, by more than rounding of its points makes of it: a rise of s
    that errs by e makes a radius R err by e R / s."""
    half = np.abs(ring.half)
    with np.errstate(divide="ignore", invalid="ignore"):
        radius = ring.edges.lengths / (2.0 * half)
        allowed = GROUND * np.maximum(1.0, 1.0 / (1.0 - np.cos(half)))
    return np.asarray((half > 0.0) & (radius < tight - allowed))


def lay_joints(bands: Bands, limit: float, ratio: float = BAY_RATIO) -> tuple[float, int]:
    """Joints of bays of one size over an outline's box, and how many bays that is.

    Args:
        bands: the outline along its longest side.
        limit: the longest bay, metres.
        ratio: its length by its width at most.
    Returns:
        Length of the joints inside the outline, metres; bays of the box.
    """
    if not limit > 0.0:
        raise BadInput("Bays of {limit} m are none. Give a factor above 0.", limit=limit)
    along, across = (float(v) for v in bands.size)
    n, m = max(1, whole_up(along, limit)), max(1, whole_up(across, limit))
    if max(n, m) > MOST_BANDS:
        raise BadInput("Bays of {limit} m are too many to lay out. Give a larger factor.", limit=limit)
    while max(along / n, across / m) > ratio * min(along / n, across / m) + GROUND:
        n, m = (n + 1, m) if along / n > across / m else (n, m + 1)
    upright = Bands(bands.start[:, ::-1], bands.end[:, ::-1], bands.low[::-1], bands.high[::-1])
    total = 0.0
    for side, count in ((bands, m), (upright, n)):
        for k in range(1, count):
            total += sum(high - low for low, high in side.inside(float(side.size[1]) * k / count))
    return total, n * m


def lay_mesh(rings: list[Line], spec: SlabSpec) -> tuple[int, float]:
    """Whole mesh sheets with laps both ways, along the longest side or across it, whichever takes fewer; and the area
    that a sheet covers net of its laps, m2."""
    heading = longest_heading(rings)
    ways = [
        lay_pieces(turn_outline(rings, heading + turn), spec.sheet, spec.lap)[0]
        for turn in (0.0, 0.5 * np.pi)
    ]
    return min(ways), (spec.sheet[0] - spec.lap) * (spec.sheet[1] - spec.lap)


def _method(spec: SlabSpec) -> str:
    if spec.under is not None:
        way = "plane through the corners less the surface, over its triangles"
    elif spec.bottom is None:
        way = f"plan area x {spec.thickness:g} m"
    else:
        way = f"plane through the corners less level {spec.bottom:g} m, over the plan area"
    if spec.extra:
        way += f", reaching {spec.extra:g} m past its edge"
    if spec.edge_depth > 0.0 and spec.thickened is not None and not any(spec.thickened):
        way += ", no edge thickened"
    elif spec.edge_depth > 0.0:
        way += f", edge {spec.edge_depth:g} m deep, {spec.edge_width:g} m + {spec.edge_splay:g} m wide on its centroid path"
        way += "" if spec.thickened is None else ", under the sides named"
    if spec.waste or spec.step:
        way += f", ordered with {100.0 * spec.waste:g} % waste"
        way += f" in steps of {spec.step:g} m3" if spec.step else ""
    return way
