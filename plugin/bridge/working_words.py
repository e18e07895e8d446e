# SPDX-License-Identifier: GPL-2.0-or-later
"""A working in words: titles, units, causes, and each formula with its numbers in it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..core.measure.explained import (
    edge_terms,
    merged_places,
    plane_through,
    sum_lengths,
    sum_ring,
    sum_slopes,
)
from ..core.measure.parts import Part
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from ..core.measure.explained import EdgeTerm, RingSum, StandingArc
    from ..core.segments import Curve
    from .working import BehindStation, KeptRow

UNITS = (("_m2", "m²", 3), ("_m", "m", 3), ("_deg", "°", 2), ("_ratio", "", 4))
"""Column endings, their units, and the decimals that are shown."""
MOST_LINES = 1000
"""Edges of one outline that are told one by one: nobody reads more, and more make a window slow."""
SLOPE_LEVEL = 1e-9
"""A ratio nearer to none than this has no `1 in n`."""
ACCURACY: dict[str, Callable[[], str]] = {
    "instruments": lambda: tr("What the instrument is worth is taken from the instruments file."),
    "log": lambda: tr("What the instrument is worth is taken from the log's own sd columns."),
    "accuracy": lambda: tr("What the instrument is worth is taken from the accuracy that the log states."),
    "assumed": lambda: tr("ASSUMED: nothing states what the points are worth, so a default stands for it."),
}


@dataclass(frozen=True)
class Told:
    """A formula with its numbers: what they come to (None where there is nothing to add up), and how far that may lie
    off the figure by rounding alone."""

    lines: tuple[str, ...]
    value: float | None = None
    rounding: float = 0.0
    notes: tuple[str, ...] = ()


def unit_of(column: str) -> tuple[str, int]:
    """A column's unit and decimals."""
    return next((unit, places) for ending, unit, places in UNITS if column.endswith(ending))


def number(value: float | None, column: str) -> str:
    """A value of a column, with its unit."""
    if value is None or math.isnan(value):
        return "-"
    unit, places = unit_of(column)
    text = f"{value:.{places}f}"
    return f"{text}{unit}" if unit == "°" else f"{text} {unit}".rstrip()


def figure_words(column: str, value: float, half_width: float | None) -> str:
    """A figure with its 95 % half width; a ratio also as `1 in n`."""
    text = number(value, column)
    if half_width is not None:
        places = unit_of(column)[1]
        text = f"{value:.{places}f} ± {number(half_width, column)} " + tr("(95 %)")
    if column.endswith("_ratio") and abs(value) > SLOPE_LEVEL:
        text += ", " + tr("1 in {run}").format(run=f"{1.0 / abs(value):.1f}")
    return text


def figure_title(table: str, column: str) -> str:
    """What a figure is."""
    if column == "length_m":
        titles = {"sides": tr("Side length"), "legs": tr("Leg length")}
        return titles.get(table, tr("Length in plan"))
    if column == "z_m":
        return tr("Height")
    return {
        "area_m2": tr("Area in plan"),
        "area_m2_edge_sigma": tr("Edge of an area"),
        "perimeter_m": tr("Perimeter"),
        "sloped_area_m2": tr("Area on the slope"),
        "fall_ratio": tr("Fall"),
        "fall_bearing_deg": tr("Bearing of the fall"),
        "slope_length_m": tr("Length along the slope"),
        "rise_m": tr("Rise"),
        "gradient_ratio": tr("Gradient"),
        "radius_m": tr("Radius"),
        "sweep_deg": tr("Sweep"),
        "height_m": tr("Height"),
        "sigma_major_m": tr("Place"),
        "residual_m": tr("Residual"),
    }[column]


def group_words(part: Part) -> str:
    """Where a cause comes from."""
    if part in {Part.TAPES, Part.LEVELS}:
        return tr("adjustment")
    if part in {Part.PICKS, Part.COMMON}:
        return tr("placement")
    if part in {Part.ROWS, Part.EDGE}:
        return tr("edge")
    return tr("assumed") if part in {Part.POINTS, Part.UNKNOWN} else tr("instrument")


def cause_words(part: Part) -> str:
    """A cause."""
    return {
        Part.SCALE: tr("scale"),
        Part.HEADING: tr("heading"),
        Part.LEGS: tr("from station to station"),
        Part.STANDS: tr("each station by itself"),
        Part.WALKS: tr("all of the walks' errors"),
        Part.TAPES: tr("taped lengths"),
        Part.LEVELS: tr("known levels"),
        Part.PICKS: tr("each map point by itself"),
        Part.COMMON: tr("shift of all map points"),
        Part.ROWS: tr("noise from row to row"),
        Part.EDGE: tr("where the edge is taken to lie"),
        Part.POINTS: tr("each point, as stated"),
        Part.UNKNOWN: tr("nearly level, so it may fall any way"),
    }[part]


def explain_figure(kept: KeptRow, column: str, stations: Sequence[BehindStation]) -> Told:
    """The formula of a figure of a survey."""
    if column in {"fall_ratio", "fall_bearing_deg"}:
        return _fall(kept, column, stations)
    told = {
        "area_m2": lambda: explain_area(kept.curves, (False, *[True] * (len(kept.curves) - 1))),
        "perimeter_m": lambda: explain_length(kept.curves[:1]),
        "length_m": lambda: explain_length(kept.curves),
        "slope_length_m": lambda: explain_slope_length(kept.curves, kept.standing),
        "rise_m": lambda: explain_rise(kept.curves),
        "gradient_ratio": lambda: explain_gradient(kept.curves),
        "sloped_area_m2": lambda: _sloped(kept),
        "radius_m": lambda: _radius(kept),
        "sweep_deg": lambda: _sweep(kept.curves),
        "residual_m": lambda: _residual(kept),
        "sigma_major_m": lambda: _place(kept),
    }
    return told.get(column, lambda: _height(kept))()


def _rounding(column: str) -> float:
    """Half of the last digit that is shown."""
    return 0.5 * 10.0 ** -unit_of(column)[1]


def explain_area(curves: Sequence[Curve], is_hole: Sequence[bool]) -> Told:
    """Cross products, segments of arcs, and holes off."""
    lines = [
        tr(
            "Area = sum over the edges of (x1·y2 - x2·y1) / 2; x, y in metres from the first corner, true to the ground."
        )
    ]
    rings = [sum_ring(curve) for curve in curves]
    if any(edge.is_arc for ring in rings for edge in ring.edges):
        lines.append(tr("Of an arc, its chord in that sum, and beside it the segment (θ - sin θ)·r² / 2."))
    terms, value = "", 0.0
    for k, (ring, is_off) in enumerate(zip(rings, is_hole)):
        lines.append(
            (tr("Hole {n}:") if is_off else tr("Outline {n}:")).format(
                n=1 + sum(v == is_off for v in is_hole[:k])
            )
        )
        lines += [*_folded(ring.edges, _area_edge), f"  {_ring_words(ring)}"]
        sign = "- " if is_off else "+ " if terms else ""
        terms += f"{sign}{ring.area:.3f} "
        value += -ring.area if is_off else ring.area
    if len(rings) > 1:
        lines.append(f"{terms}= {number(value, 'area_m2')}")
    return Told(tuple(lines), value, _rounding("area_m2"))


def _ring_words(ring: RingSum) -> str:
    words = tr("straights and chords {straights}, segments {segments}: {area}")
    if not ring.segments:
        words = tr("together {area}")
    parts = (number(v, "area_m2") for v in (ring.straights, ring.segments, ring.area))
    return words.format(**dict(zip(("straights", "segments", "area"), parts)))


def _folded(edges: Sequence[EdgeTerm], words: Callable[[EdgeTerm], str]) -> Iterator[str]:
    """A line an edge; of very many, the first."""
    for n, edge in enumerate(edges[:MOST_LINES], 1):
        yield f"  {n}. {words(edge)}"
    if len(edges) > MOST_LINES:
        yield "  " + tr("and {n} edges more").format(n=len(edges) - MOST_LINES)


def _area_edge(edge: EdgeTerm) -> str:
    (x1, y1), (x2, y2) = edge.start, edge.end
    line = f"({x1:.3f}, {y1:.3f}) - ({x2:.3f}, {y2:.3f}): {edge.cross:+.3f}"
    if edge.is_arc:
        line += "; " + tr("arc r {r}, θ {sweep}: {segment}").format(
            r=f"{edge.radius:.3f}", sweep=_turn(edge.sweep), segment=f"{edge.segment:+.3f}"
        )
    return line


def _turn(angle: float) -> str:
    return f"{math.degrees(angle):.2f}°"


def explain_length(curves: Sequence[Curve]) -> Told:
    """Edge by edge, in plan."""
    lines = [tr("Length = sum of the edges in plan, true to the ground; an arc is r·θ, θ in radians.")]
    for k, curve in enumerate(curves, 1):
        if len(curves) > 1:
            lines.append(tr("Run {n}:").format(n=k))
        lines += _folded(edge_terms(curve), _plan_edge)
    value = sum_lengths(curves)
    lines.append(tr("together {length}").format(length=number(value, "length_m")))
    return Told(tuple(lines), value, _rounding("length_m"))


def _plan_edge(edge: EdgeTerm) -> str:
    if not edge.is_arc:
        dx, dy = (abs(b - a) for a, b in zip(edge.start, edge.end))
        return f"√({dx:.3f}² + {dy:.3f}²) = {edge.length:.3f}"
    words = tr("arc r {r} · {radians} ({sweep}) = {length}")
    return words.format(
        r=f"{edge.radius:.3f}",
        radians=f"{abs(edge.sweep):.5f}",
        sweep=_turn(edge.sweep),
        length=f"{edge.length:.3f}",
    )


def explain_slope_length(curves: Sequence[Curve], standing: Sequence[StandingArc] = ()) -> Told:
    """Edge by edge, along the slope."""
    slopes = sum_slopes(curves, standing)
    lines = [tr("Length along the slope = sum over the edges of √(length in plan² + rise²).")]
    lines += _folded(slopes.edges, _slope_edge)
    for arc in slopes.standing:
        words = tr("arc in the vertical plane, r {r} · {radians} ({sweep}) = {length}")
        length = f"{arc.radius * arc.sweep:.3f}"
        told = words.format(
            r=f"{arc.radius:.3f}", radians=f"{arc.sweep:.5f}", sweep=_turn(arc.sweep), length=length
        )
        lines.append(f"  {told}")
    lines.append(tr("together {length}").format(length=number(slopes.length, "slope_length_m")))
    return Told(tuple(lines), slopes.length, _rounding("slope_length_m"))


def _slope_edge(edge: EdgeTerm) -> str:
    return f"√({edge.length:.3f}² + {abs(edge.rise):.3f}²) = {edge.slope:.3f}"


def explain_rise(curves: Sequence[Curve]) -> Told:
    """From the start of the first run to the end of the last."""
    first, last = float(curves[0].points[0, 2]), float(curves[-1].points[-1, 2])
    lines = (
        tr("Rise = height of the end less height of the start."),
        f"{last:.3f} - {first:.3f} = {number(last - first, 'rise_m')}",
    )
    return Told(lines, last - first, _rounding("rise_m"))


def explain_gradient(curves: Sequence[Curve]) -> Told:
    """The rises of the runs by their lengths in plan."""
    rises = [float(curve.points[-1, 2] - curve.points[0, 2]) for curve in curves]
    run, rise = sum_lengths(curves), sum(rises)
    value = rise / run if run else math.nan
    sum_text = " + ".join(f"{one:.3f}" for one in rises)
    lines = (
        tr("Gradient = rise by length in plan, positive up along the walk."),
        f"{sum_text if len(rises) == 1 else f'({sum_text})'} / {run:.3f} = {value:.4f}",
    )
    return Told(lines, value, _rounding("gradient_ratio"))


def _sloped(kept: KeptRow) -> Told:
    area, fall = kept.values["area_m2"], kept.values["fall_ratio"]
    value = area * math.sqrt(1.0 + fall**2)
    lines = (
        tr("Area on the slope = area in plan · √(1 + fall²), on the plane nearest to the heights."),
        f"{area:.3f} · √(1 + {fall:.4f}²) = {number(value, 'sloped_area_m2')}",
    )
    return Told(lines, value, _rounding("sloped_area_m2"))


def _fall(kept: KeptRow, column: str, stations: Sequence[BehindStation]) -> Told:
    places = {s.number: (s.x, s.y, s.z) for s in stations if s.z is not None}
    plane = plane_through(merged_places(places, kept.figures[column].get("merged", ())))
    if plane is None:
        return Told((tr("The plane nearest to the heights of the stations below."),))
    lines = [
        tr(
            "The plane nearest in height to {n} places (least squares) rises {p} a metre east and {q} a metre north."
        ).format(n=plane.count, p=f"{plane.p:+.5f}", q=f"{plane.q:+.5f}")
    ]
    if column == "fall_ratio":
        lines.append(tr("Fall = √({p}² + {q}²) = {fall}").format(
            p=f"{plane.p:.5f}", q=f"{plane.q:.5f}", fall=f"{plane.fall:.4f}"
        ))  # fmt: skip
        return Told(tuple(lines), plane.fall, _rounding(column))
    bearing = plane.bearing_deg(kept.turn)
    lines.append(tr("It falls to the bearing {bearing}, clockwise from grid north (the grid is turned by {turn}).").format(
        bearing=number(bearing, column), turn=f"{math.degrees(kept.turn):.4f}°"
    ))  # fmt: skip
    # 359.999 and 0.001 are neighbours.
    stored = float(kept.values[column])
    nearest = stored + (bearing - stored + 180.0) % 360.0 - 180.0
    return Told(tuple(lines), nearest, _rounding(column))


def _radius(kept: KeptRow) -> Told:
    length, sweep = sum_lengths(kept.curves), _swept(kept.curves)
    value = length / abs(sweep) if sweep else math.inf
    lines = (
        tr("Radius = length of the arc by what it turns through, in radians."),
        f"{length:.3f} / {abs(sweep):.5f} ({_turn(abs(sweep))}) = {number(value, 'radius_m')}",
    )
    return Told(lines, value, _rounding("radius_m"))


def _swept(curves: Sequence[Curve]) -> float:
    return sum(edge.sweep for curve in curves for edge in edge_terms(curve))


def _sweep(curves: Sequence[Curve]) -> Told:
    value = math.degrees(_swept(curves))
    edges = [edge for curve in curves for edge in edge_terms(curve)]
    terms = " + ".join(_turn(edge.sweep) for edge in edges)
    lines = (
        tr(
            "Sweep = what the arc turns through, positive to the left along the walk: θ = 2·asin(chord / 2r)."
        ),
        f"{terms} = {number(value, 'sweep_deg')}" if len(edges) > 1 else terms,
    )
    return Told(lines, value, _rounding("sweep_deg"))


def _residual(kept: KeptRow) -> Told:
    lines = [tr("Distance in the survey plane from the mark, as placed, to its map point.")]
    notes = (
        tr("A residual has no uncertainty of its own: it shows how well the map points fit the survey."),
    )
    if kept.residual is None:
        return Told(tuple(lines), notes=notes)
    dx, dy = map(abs, kept.residual)
    value = math.hypot(dx, dy)
    lines.append(f"√({dx:.3f}² + {dy:.3f}²) = {number(value, 'residual_m')}")
    return Told(tuple(lines), value, _rounding("residual_m"), notes)


def _place(kept: KeptRow) -> Told:
    values = kept.values
    lines = (
        tr("Adjusted and placed: x {x} east, y {y} north in the survey plane.").format(
            x=number(values["x_m"], "x_m"), y=number(values["y_m"], "y_m")
        ),
        tr(
            "Its ellipse, one sigma: {major} along the bearing {bearing}, {minor} across. 2.448 of the long one are the 95 %."
        ).format(
            major=number(values["sigma_major_m"], "x_m"),
            minor=number(values["sigma_minor_m"], "x_m"),
            bearing=number(values["sigma_bearing_deg"], "sweep_deg"),
        ),
    )
    return Told(lines)


def _height(kept: KeptRow) -> Told:
    value = kept.values.get("height_m", kept.values.get("z_m"))
    words = tr(
        "Height of the ground at the station, the pole taken off, after the adjustment and the shift to the levels: {z}"
    )
    return Told((words.format(z=number(value, "z_m")),))
