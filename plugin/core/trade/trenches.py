# SPDX-License-Identifier: GPL-2.0-or-later
"""Trenches and swales along a line: volume, plan area, face and depths, with a depth as noted or down from the ground."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..errors import BadInput
from ..ground.section import Section, SectionCutter
from ..quantity import Floats, Quantity
from ..segments import chorded
from . import trench_run as steps
from .along import Along, GroundPieces, Pieces, cut_pieces, ground_pieces, on_pieces, section_chainages
from .bands import SAG, ring_curve
from .cross_sections import Cross, refuse_cross
from .lines import Line
from .ribbons import refuse_back, runs_over_itself
from .trench_run import Run, Source, depth_at, integrate, mixed, refuse_tight
from .walls import Lies
from .worth import Worth, worth_of

ABOVE = 1e-6
"""Metres that a bottom may stand above the ground: rounding."""
SIDES = {Lies.ABOUT: 0.0, Lies.LEFT: 1.0, Lies.RIGHT: -1.0}


@dataclass(frozen=True, eq=False)
class TrenchSpec:
    """How a trench or swale is made, metres.

    Attributes:
        cross: the form of its section. width: of rectangular ones and trapezoids at the foot, of others at the top.
        depth: below the ground, as noted; None where it follows from `invert`.
        invert: the level of the invert; the ground is `surface`, and without one the line's own heights.
        bedding: what is dug below the invert. batter: of a trapezoid, how far a side leans out by metre up.
        lies: where it lies beside its line: about it, or with its top edge on it.
        size_sigma: one-sigma of the bedding; those of width, depth and invert are in them.
    """

    cross: Cross
    width: Along
    depth: Along | None = None
    invert: Along | None = None
    surface: SectionCutter | None = None
    bedding: float = 0.0
    batter: float = 0.0
    lies: Lies = Lies.ABOUT
    size_sigma: float = 0.0


@dataclass(frozen=True)
class Trench:
    """Its figures.

    Attributes:
        volume: m3. path: length in plan of the way of the section's middle, m. plan: area at the ground, m2.
        face: bottom and sides up to the ground, m2. section: the mean one, which is the dig by metre of path, m2.
        mean, deepest, shallowest: depths, m, what lies below the invert counted in. widest: at the ground, m.
        method: how it was come by. is_over_itself: whether the trench runs over itself, so that ground counts twice.
    """

    volume: Quantity
    path: Quantity
    plan: Quantity
    face: Quantity
    section: Quantity
    mean: Quantity
    deepest: Quantity
    shallowest: Quantity
    widest: float
    method: str
    is_over_itself: bool = False


def measure_trench(line: Line, spec: TrenchSpec, sigma: float | Worth) -> Trench:
    """Measure a trench or swale along a line, its lengths in plan.

    Its section stands upright across the line and ends square; the ground counts as level across it. Sizes run straight
    from place to place. The pieces break at every bend of the line, every place where a size is noted, and every edge of
    the surface's triangles, so that prismoids are exact. The face counts the section's outline along the path: what the
    bottom's fall adds to it, a half of the square of its gradient, is left out.

    Args:
        line: metres.
        spec: how it is made.
        sigma: one-sigma of a point along each axis, and in height where the line's own heights are the ground, metres; or
            what the stations are worth that it was drawn through.
    Returns:
        Figures with one-sigma by propagation (GUM, JCGM 100:2008, 5.1.2): of the points, of each size where it was noted,
        of the surface's heights, and of the ground between its points. That a line which errs in plan lies over other
        ground, the slope across by that, is left out.
    Raises:
        BadInput: no depth or width, a bottom above the ground, ground that the surface leaves out, no room, or heights of a
            closed line that do not meet. MissingLibrary: shapely, which tells whether it runs over itself.
    Source:
        Section times the path of its centroid (Pappus); the prismoidal rule, the integral of a section that is a square
        of the way; a round bottom as a segment of a circle.
    """
    line = _closed(line, spec)
    refuse_back(line)
    run, worth = _lay(line, spec), worth_of(sigma)
    refuse_tight(run)
    volume, path = integrate(run, steps.area), integrate(run, steps.one)
    if volume.value <= 0.0 or path.value <= 0.0:
        raise BadInput(
            "The trench has no depth anywhere along its line. Note it, or give its depth or inverts."
        )
    whole = float(line.edges.lengths.sum())
    mean = volume.value / path.value
    section = mixed(mean, [(1.0 / path.value, volume), (-mean / path.value, path)])
    depths, along = integrate(run, steps.depth, on_line=True), integrate(run, steps.one, on_line=True)
    deep = depths.value / whole
    told = {
        "volume": (volume, "m3"),
        "path": (path, "m"),
        "plan": (integrate(run, steps.top), "m2"),
        "face": (integrate(run, steps.face), "m2"),
        "section": (section, "m2"),
        "mean": (mixed(deep, [(1.0 / whole, depths), (-deep / whole, along)]), "m"),
        "deepest": (depth_at(run, *_where(run.depth, np.argmax)), "m"),
        "shallowest": (depth_at(run, *_where(run.depth, np.argmin)), "m"),
    }
    figures = {name: steps.with_sigma(run, moves, unit, worth) for name, (moves, unit) in told.items()}
    over = runs_over_itself(line, lambda at: steps.reach_of(run, at))
    widest = float(steps.tops_of(run).max())
    return Trench(**figures, widest=widest, method=_method(spec, run), is_over_itself=over)


def _closed(line: Line, spec: TrenchSpec) -> Line:
    """A line that ends where it begins in plan as a closed one, whatever its height there.

    Raises:
        BadInput: its heights are the ground, and the first and the last differ.
    """
    first, last = line.points[0], line.points[-1]
    if line.is_closed or not np.array_equal(first[:2], last[:2]):
        return line
    if spec.depth is None and spec.surface is None and line.has_heights:
        raise BadInput(
            "The line ends where it begins, and its heights there differ by {off:.3f} m. Give both one height, or end the line "
            "beside its start.",
            off=abs(float(last[2] - first[2])),
        )
    points = line.points.copy()
    points[-1] = first
    return replace(line, points=points)


def _where(depth: Floats, find: object) -> tuple[int, int]:
    piece, end = np.unravel_index(int(find(depth)), depth.shape)  # type: ignore[operator]
    return int(piece), int(end)


def _lay(line: Line, spec: TrenchSpec) -> Run:
    """The line in pieces, with its sizes on them."""
    vertices = np.concatenate([[0.0], np.cumsum(line.edges.lengths)])
    whole = float(vertices[-1])
    if not whole > 0.0:
        raise BadInput("The line of the trench has no length. Draw it along the trench.")
    sizes = _depth_sizes(line, spec, vertices)
    section = _section(line, spec) if spec.depth is None else None
    breaks = [vertices, spec.width.chainage, *(size.chainage for size, _ in sizes)]
    pieces = cut_pieces(whole, breaks if section is None else [*breaks, section_chainages(section, whole)])
    sources = tuple(Source(size, on_pieces(size, pieces), sign) for size, sign in sizes)
    ground = None if section is None else ground_pieces(section, pieces)
    depth = _depths(sources, ground, pieces) + (spec.bedding if spec.depth is None else 0.0)
    _refuse_above(depth, pieces)
    depth = np.maximum(depth, 0.0)
    width = Source(spec.width, on_pieces(spec.width, pieces), 1.0)
    refuse_cross(spec.cross, width.on.value, depth, spec.batter)
    return Run(
        line,
        pieces,
        np.clip(np.searchsorted(vertices, pieces.middle) - 1, 0, len(vertices) - 2),
        spec.cross,
        spec.batter,
        SIDES[spec.lies],
        width,
        depth,
        sources,
        ground,
        heights=spec.depth is None and section is None,
        bedding_sigma=spec.size_sigma if spec.depth is None and spec.bedding else 0.0,
    )


def _depth_sizes(line: Line, spec: TrenchSpec, vertices: Floats) -> list[tuple[Along, float]]:
    """What the depth is the sum of but for a surface, each with its sign; the line's own heights last."""
    if spec.depth is not None:
        return [(spec.depth, 1.0)]
    if spec.invert is None:
        raise BadInput(
            "The trench has no depth: neither a size nor levels of its invert. Note one, or give the parameter."
        )
    if not (math.isfinite(spec.bedding) and spec.bedding >= 0.0):
        raise BadInput("The bedding is {bedding} m thick. Give 0 or more.", bedding=spec.bedding)
    out = [(spec.invert, -1.0)]
    if spec.surface is None:
        if not line.has_heights:
            raise BadInput(
                "The trench has inverts and no ground: neither a surface nor heights of its line. Give one of them."
            )
        z = line.points[line.vertices, 2]
        out.append((Along(vertices, z, np.zeros(len(z))), 1.0))
    return out


def _section(line: Line, spec: TrenchSpec) -> Section | None:
    if spec.surface is None:
        return None
    return spec.surface.cut(chorded(ring_curve(line), SAG)[:, :2])


def _depths(sources: tuple[Source, ...], ground: GroundPieces | None, pieces: Pieces) -> Floats:
    out = np.zeros((len(pieces.widths), 2))
    if ground is not None:
        out += ground.value
    for source in sources:
        out += source.sign * source.on.value
    return out


def _refuse_above(depth: Floats, pieces: Pieces) -> None:
    if not depth.min() < -ABOVE:
        return
    piece, end = _where(depth, np.argmin)
    raise BadInput(
        "The bottom stands {above:.3f} m above the ground at {at:.2f} m along the line. Correct the level or the depth there, "
        "or end the line before.",
        above=-float(depth[piece, end]),
        at=float(pieces.ends[piece, end]),
    )


def _method(spec: TrenchSpec, run: Run) -> str:
    foot = "at the top" if spec.cross in (Cross.V, Cross.ROUND) else "at the foot"
    way = f"{spec.cross.value}, {_span(run.width.on.value)} m wide {foot}"
    if spec.cross is Cross.TRAPEZOID:
        way += f", sides leaning {spec.batter:g} m per metre"
    if spec.depth is not None:
        way += f", {_span(run.depth)} m deep"
    else:
        ground = "the line's heights" if spec.surface is None else "the surface"
        way += f", from {ground} down to the invert of {_span(run.sources[0].on.value)} m"
        way += f" and {spec.bedding:g} m below it" if spec.bedding else ""
    where = {Lies.ABOUT: "", Lies.LEFT: ", left of its line", Lies.RIGHT: ", right of its line"}[spec.lies]
    return f"{way}{where}, section along the path of its centroid"


def _span(values: Floats) -> str:
    low, high = float(values.min()), float(values.max())
    return f"{low:g}" if high - low <= ABOVE else f"{low:.3f} to {high:.3f}"
