# SPDX-License-Identifier: GPL-2.0-or-later
"""What a survey of a demo job should show, from the sites' geometry: in closed form, or by fine quadrature."""

from __future__ import annotations

import json
import math
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from . import marlisk_yard as yard
from . import sorrelback_lane as lane
from .geometry import angle_of, arc_length, path_length, point_at, polygon_area, ring_length, segment_area
from .jobs import find_site
from .site import Site, Truth

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

STRAIGHT = "straight part"
"""Of the court: its rectangle, up to the chord of its curve. The grid of levels does not reach the curve's crown."""
CELL = 0.01
"""Metres: cell of the quadratures; their error is some 0.01 m2 at most on these shapes."""


def true_sizes(name: str | Site) -> tuple[Truth, ...]:
    """Every true figure of a site that walking it gives, row by row and column by column.

    Besides the survey's own tables: `points` (places in the map CRS's unit) and `takeoff` (figures that later
    steps measure; their column names the figure and ends in its unit).
    """
    return _sizes(find_site(name).folder)


@cache
def _sizes(folder: str) -> tuple[Truth, ...]:
    site = find_site(folder)
    figures = _yard_figures if site.folder == "marlisk_yard" else _lane_figures
    return (*_marks(site), *figures(site))


def write_truth(site: Site, truths: Iterable[Truth] | None = None) -> str:
    """truth.json: the true figures of a site (its own unless told) with its name and CRS; defaults are left out."""
    sizes = []
    for size in true_sizes(site) if truths is None else truths:
        row = {"table": size.table, "feature": size.feature, "part": size.part, "column": size.column}
        row.update({"side": size.side} if size.side else {})
        row["value"] = round(size.value, 9)
        row.update({} if size.recorded is None else {"recorded": round(size.recorded, 9)})
        row.update({"is_biased": True} if size.is_biased else {})
        sizes.append(row)
    lines = ",\n  ".join(json.dumps(row) for row in sizes)
    head = f'"site": {json.dumps(site.name)},\n "crs": {json.dumps(site.crs)},\n "map_unit": {json.dumps(site.unit)}'
    return f'{{{head},\n "sizes": [\n  {lines}\n ]}}\n'


def _marks(site: Site) -> Iterator[Truth]:
    for mark, (x, y, z) in site.marks.items():
        east, north = site.to_map(x, y)
        yield Truth("marks", mark, "", "map_x", east)
        yield Truth("marks", mark, "", "map_y", north)
        yield Truth("marks", mark, "", "z_m", z * site.unit_m)


def _point(site: Site, feature: str, part: str, place: tuple[float, float]) -> Iterator[Truth]:
    east, north = site.to_map(*place)
    yield Truth("points", feature, part, "map_x", east)
    yield Truth("points", feature, part, "map_y", north)


def _area(feature: str, area: float, perimeter: float, slope: float | None = None) -> Iterator[Truth]:
    yield Truth("areas", feature, "", "area_m2", area)
    yield Truth("areas", feature, "", "perimeter_m", perimeter)
    if slope is not None:
        yield Truth("areas", feature, "", "sloped_area_m2", area * math.hypot(1.0, slope))
        yield Truth("areas", feature, "", "fall_ratio", slope)


def _line(
    feature: str,
    part: str,
    length: float,
    *,
    along: float | None = None,
    rise: float | None = None,
    is_biased: bool = False,
) -> Iterator[Truth]:
    yield Truth("lengths", feature, part, "length_m", length, is_biased=is_biased)
    if along is not None:
        yield Truth("lengths", feature, part, "slope_length_m", along, is_biased=is_biased)
    if rise is not None:
        yield Truth("lengths", feature, part, "rise_m", rise)
        yield Truth("lengths", feature, part, "gradient_ratio", rise / length, is_biased=is_biased)


def _sides(feature: str, lengths: tuple[float, ...]) -> Iterator[Truth]:
    for i, length in enumerate(lengths, start=1):
        yield Truth("sides", feature, "", "length_m", length, side=i)


def _curved_side(feature: str, side: int, radius: float, sweep_deg: float) -> Iterator[Truth]:
    yield Truth("sides", feature, "", "radius_m", radius, side=side)
    yield Truth("sides", feature, "", "sweep_deg", sweep_deg, side=side)


def _yard_figures(site: Site) -> Iterator[Truth]:
    yield from _court_figures(site)
    yield from _bed_figures(site)
    yield from _ramp_and_steps(site)
    yield from _yard_lines(site)
    yield from _yard_spots()
    yield from _yard_takeoff()


def court_sweep() -> float:
    """Sweep of the court's curve in degrees."""
    angles = yard.court_angles()
    return angles[-1] - angles[0]


def court_gross() -> float:
    """Plan area of the court, its opening included."""
    return polygon_area(yard.COURT) + segment_area(yard.COURT_RADIUS, court_sweep())


def _court_figures(site: Site) -> Iterator[Truth]:
    curve = arc_length(yard.COURT_RADIUS, court_sweep())
    fall = math.hypot(0.0125, 0.005)
    hole = polygon_area(yard.COURT_HOLE)
    yield from _area("Paved court", court_gross() - hole, 40.0 + curve, fall)
    yield Truth("areas", "Paved court", "", "fall_bearing_deg", site.grid_bearing(0.0125, 0.005))
    yield from _area("Court opening", hole, ring_length(yard.COURT_HOLE), fall)
    yield from _sides("Paved court", (10.0, curve, 10.0, 20.0))
    yield from _curved_side("Paved court", 2, yard.COURT_RADIUS, court_sweep())
    yield from _sides("Court opening", (1.2,) * 4)
    for i, corner in enumerate(yard.COURT, start=1):
        yield from _point(site, "Paved court", f"corner {i}", corner)


def _bed_figures(site: Site) -> Iterator[Truth]:
    ring = math.pi * yard.TREE_HOLE_RADIUS**2
    yield from _area("Bed 1", polygon_area(yard.BED_1) - ring, ring_length(yard.BED_1))
    yield from _area("Tree hole", ring, 2.0 * math.pi * yard.TREE_HOLE_RADIUS)
    yield from _area("Bed 2", polygon_area(yard.BED_2), ring_length(yard.BED_2))
    yield from _sides("Bed 1", _edges(yard.BED_1))
    yield from _sides("Bed 2", _edges(yard.BED_2))
    yield from _point(site, "Bed 1", "corner 4", yard.BED_1[3])


def _edges(corners: tuple[tuple[float, float], ...]) -> tuple[float, ...]:
    return tuple(math.dist(a, b) for a, b in zip(corners, (*corners[1:], corners[0])))


def _ramp_and_steps(site: Site) -> Iterator[Truth]:
    drop = yard.RAMP_TOP - yard.RAMP_FOOT
    yield from _area("Ramp", polygon_area(yard.RAMP), ring_length(yard.RAMP), drop / 9.0)
    yield Truth("areas", "Ramp", "", "fall_bearing_deg", site.grid_bearing(1.0, 0.0))
    yield from _sides("Ramp", _edges(yard.RAMP))
    going, rise = 2.0 * yard.STEP_GOING, sum(yard.STEP_RISERS)
    yield from _line("Steps", "", going, along=going + rise, rise=-rise, is_biased=True)


def _yard_lines(site: Site) -> Iterator[Truth]:
    seat = yard.SEAT_ANGLES[1] - yard.SEAT_ANGLES[0]
    yield from _line("Seat wall", "", arc_length(yard.COURT_RADIUS, seat))
    yield from _line("Kerb", "", 2.5 + arc_length(yard.KERB_RADIUS, 90.0) + 30.0)
    foot = yard.BED_WALL_FOOT[1] - yard.BED_WALL_FOOT[0]
    yield from _line("Bed 1 wall", "top", 9.0, along=9.0, rise=0.0)
    yield from _line("Bed 1 wall", "foot", 9.0, along=math.hypot(9.0, foot), rise=foot)
    for part, radius in zip(("foot", "top"), yard.BANK_RADII):
        length = arc_length(radius, 90.0)
        yield from _line("Bank", part, length, along=length, rise=0.0)
    profile = yard.face_profile()
    run, rise = profile[-1][1] - profile[0][1], profile[-1][2] - profile[0][2]
    along = arc_length(yard.FACE_RADIUS, yard.FACE_SWEEP)
    yield from _line("Dished face", "profile", run, along=along, rise=rise)
    chords = path_length(yard.swale_rows())
    yield Truth("lengths", "Swale", "", "length_m", yard.swale_length(), recorded=chords)
    yield from _point(site, "Swale", "end", yard.swale_rows()[-1])


def _yard_spots() -> Iterator[Truth]:
    for name, place in yard.DRAINS.items():
        yield Truth("spots", name, "", "height_m", yard.ground(*place))
    for name, (x, y, _) in yard.TREES.items():
        yield Truth("spots", name, "", "height_m", yard.ground(x, y))
    for name, x, y in yard.level_rows():
        yield Truth("spots", name, "", "height_m", yard.ground(x, y))


def _take(feature: str, column: str, value: float, part: str = "") -> Truth:
    return Truth("takeoff", feature, part, column, value)


def _yard_takeoff() -> Iterator[Truth]:
    cut, fill = court_earthwork()
    yield from (_take("Paved court", "cut_m3", cut), _take("Paved court", "fill_m3", fill))
    cut, fill = court_earthwork(top=yard.COURT[2][1])
    yield from (
        _take("Paved court", "cut_m3", cut, STRAIGHT),
        _take("Paved court", "fill_m3", fill, STRAIGHT),
    )
    stone = court_stone_area(0.15)
    yield from (_take("Paved court", "stone_area_m2", stone), _take("Paved court", "stone_m3", stone * 0.20))
    yield from _seat_wall_takeoff()
    low, high = (yard.BED_WALL_TOP - z for z in yard.BED_WALL_FOOT)
    yield _take("Bed 1 wall", "face_m2", 9.0 * (low + high) / 2.0)
    yield from _slope_takeoff()
    for name, (_, _, stem) in yard.TREES.items():
        yield _take(name, "protected_radius_m", 12.0 * stem)
    place, stem = yard.TREES["T3"][:2], yard.TREES["T3"][2]
    yield _take("T3", "swale_overlap_m2", swale_in_circle(place, 12.0 * stem))
    circle = math.pi * (12.0 * yard.TREES["T2"][2]) ** 2
    yield _take("T2", "paved_overlap_m2", circle - polygon_area(yard.COURT_HOLE))
    low, right = yard.COURT[0][1], yard.COURT[1][0]
    ends = [yard.PLAN_MARKS[mark] for mark in "PC"]
    (px, py), (cx, cy) = ends
    into = (px + (low - py) / (cy - py) * (cx - px), low)
    out = (right, py + (right - px) / (cx - px) * (cy - py))
    levels = [yard.ground(*place) for place in (*ends, into, out)]
    yield from _section("P to C", "Paved court", math.dist(*ends), levels)


def _section(name: str, crossed: str, run: float, levels: list[float]) -> Iterator[Truth]:
    """A section from mark to mark: `levels` at both ends, and where it comes into a feature and out of it, metres."""
    start, end, into, out = levels
    yield _take(f"Section {name}", "rise_m", end - start)
    yield _take(f"Section {name}", "gradient_ratio", (end - start) / run)
    yield _take(f"Section {name}", "level_m", into, f"into {crossed}")
    yield _take(f"Section {name}", "level_m", out, f"out of {crossed}")


def _slope_takeoff() -> Iterator[Truth]:
    """Swale, bank and dished face: plan and developed areas, volume."""
    length, half = yard.swale_length(), yard.SWALE_WIDTH / 2.0
    yield _take("Swale", "plan_m2", length * yard.SWALE_WIDTH)
    yield _take("Swale", "volume_m3", length * half * yard.SWALE_DEPTH)
    yield _take("Swale", "face_m2", 2.0 * length * math.hypot(half, yard.SWALE_DEPTH))
    (inner, outer), (low, high) = yard.BANK_RADII, yard.BANK_LEVELS
    plan = math.pi / 4.0 * (outer**2 - inner**2)
    slant = math.hypot(outer - inner, high - low)
    yield from (_take("Bank", "plan_m2", plan), _take("Bank", "developed_m2", plan * slant / (outer - inner)))
    along = arc_length(yard.FACE_RADIUS, yard.FACE_SWEEP)
    run = yard.FACE_RADIUS * math.sin(math.radians(yard.FACE_SWEEP))
    yield _take("Dished face", "plan_m2", run * yard.FACE_WIDTH)
    yield _take("Dished face", "developed_m2", along * yard.FACE_WIDTH)


def _seat_wall_takeoff() -> Iterator[Truth]:
    sweep = yard.SEAT_ANGLES[1] - yard.SEAT_ANGLES[0]
    centre = arc_length(yard.COURT_RADIUS + yard.SEAT_THICK / 2.0, sweep)
    back = arc_length(yard.COURT_RADIUS + yard.SEAT_THICK, sweep)
    yield _take("Seat wall", "centre_length_m", centre)
    yield _take("Seat wall", "back_length_m", back)
    yield _take("Seat wall", "volume_m3", centre * yard.SEAT_THICK * yard.SEAT_HIGH)


def court_stone_area(extra: float) -> float:
    """Plan area of the court's stone, wider than the paving on its outer side alone, corners mitred.

    The straights move out by `extra`, the curve keeps its centre; where both meet, the new edges are cut.
    """
    radius, (cx, cy) = yard.COURT_RADIUS + extra, yard.COURT_CENTRE
    right, low = yard.COURT[1][0] + extra, yard.COURT[1][1] - extra
    corner = (right, cy + math.sqrt(radius**2 - (right - cx) ** 2))
    sweep = 180.0 - 2.0 * angle_of(yard.COURT_CENTRE, corner)
    straight = 2.0 * (right - cx) * (corner[1] - low)
    return straight + segment_area(radius, sweep) - polygon_area(yard.COURT_HOLE)


def court_earthwork(make_up: float = 0.290, top: float = 16.0) -> tuple[float, float]:
    """Cut and fill in m3 from the ground to the court's formation, the opening left out, by the midpoint rule.

    Args:
        make_up: metres from the finished level down to the formation.
        top: y of the site up to which the court counts; without its curve, 12.
    """
    x, y = _cells(2.0, 22.0), _cells(2.0, top)
    depth = yard.ground_grid(x, y) - (yard.court_finished(x[None, :], y[:, None]) - make_up)
    dx, dy = x[None, :] - yard.COURT_CENTRE[0], y[:, None] - yard.COURT_CENTRE[1]
    inside = (y[:, None] <= yard.COURT[2][1]) | (dx * dx + dy * dy <= yard.COURT_RADIUS**2)
    (left, low), (right, high) = yard.COURT_HOLE[0], yard.COURT_HOLE[2]
    hole = (x > left)[None, :] & (x < right)[None, :] & ((y > low) & (y < high))[:, None]
    depth = np.where(inside & ~hole, depth, 0.0) * CELL * CELL
    return float(depth[depth > 0.0].sum()), float(-depth[depth < 0.0].sum())


def swale_in_circle(centre: tuple[float, float], radius: float) -> float:
    """Area in m2 of the swale's strip (square ends) inside a circle: stations along it, offsets across it.

    A strip's element is (1 - n kappa) ds dn, n the offset to the left, kappa the curvature of its line.
    """
    pace = 2.0 * math.pi / yard.SWALE_PERIOD
    x = _cells(*yard.SWALE_X)
    slope = yard.SWALE_WAVE * pace * np.cos(pace * (x - yard.SWALE_X[0]))
    bend = -yard.SWALE_WAVE * pace**2 * np.sin(pace * (x - yard.SWALE_X[0]))
    y = yard.SWALE_Y + yard.SWALE_WAVE * np.sin(pace * (x - yard.SWALE_X[0]))
    stretch = np.hypot(1.0, slope)
    offset = _cells(-yard.SWALE_WIDTH / 2.0, yard.SWALE_WIDTH / 2.0)[:, None]
    px, py = x - offset * slope / stretch, y + offset / stretch
    element = (1.0 - offset * bend / stretch**3) * stretch * CELL * CELL
    return float(element[(px - centre[0]) ** 2 + (py - centre[1]) ** 2 <= radius**2].sum())


def _cells(first: float, last: float) -> np.ndarray:
    """Middles of the cells between two bounds."""
    return first + (np.arange(round((last - first) / CELL)) + 0.5) * CELL


def _lane_figures(site: Site) -> Iterator[Truth]:
    foot = lane.FOOT
    sweep = 180.0 - 2.0 * angle_of(lane.PATIO_CENTRE, lane.PATIO[2])
    curve = arc_length(lane.PATIO_RADIUS, sweep) * foot
    patio = polygon_area(lane.PATIO) + segment_area(lane.PATIO_RADIUS, sweep)
    slope = math.hypot(0.02, 0.015)
    yield from _area("Patio", patio * foot**2, 52.0 * foot + curve, slope)
    yield Truth("areas", "Patio", "", "fall_bearing_deg", site.grid_bearing(0.02, 0.015))
    yield from _sides("Patio", (14.0 * foot, curve, 14.0 * foot, 24.0 * foot))
    yield from _curved_side("Patio", 2, lane.PATIO_RADIUS * foot, sweep)
    yield from _area("Drive", polygon_area(lane.DRIVE) * foot**2, ring_length(lane.DRIVE) * foot, slope)
    ring = math.pi * lane.RING_RADIUS**2
    lawn = polygon_area(lane.LAWN)
    yield from _area("Lawn", (lawn - ring) * foot**2, ring_length(lane.LAWN) * foot, slope)
    yield from _area("Tree ring", ring * foot**2, 2.0 * math.pi * lane.RING_RADIUS * foot, slope)
    for part in ("top", "foot"):
        yield from _line("Wall", part, (24.0 + arc_length(lane.WALL_RADIUS, 90.0)) * foot)
    rise, run = lane.STEP_COUNT * lane.STEP_RISER * foot, (lane.STEP_COUNT - 1) * lane.STEP_GOING * foot
    yield from _line("Steps", "", run, along=run + rise, rise=rise, is_biased=True)
    yield Truth("spots", "Oak", "", "height_m", lane.ground(*lane.OAK) * foot)
    yield from _point(site, "Wall", "end", point_at(lane.WALL_CENTRE, lane.WALL_RADIUS, 90.0))
    yield from _point(site, "Patio", "corner 1", lane.PATIO[0])
    yield from _lane_takeoff()


def _lane_takeoff() -> Iterator[Truth]:
    foot = lane.FOOT
    low, high, end = lane.WALL_HEIGHTS
    bend = arc_length(lane.WALL_RADIUS, 90.0)
    face = 24.0 * (low + high) / 2.0 + bend * (high + end) / 2.0
    yield _take("Wall", "face_m2", face * foot**2)
    edges = 2.0 * 45.0 * lane.EDGE_WIDE * (lane.EDGE_DEEP - lane.DRIVE_THICK)
    concrete = polygon_area(lane.DRIVE) * lane.DRIVE_THICK + edges
    yield _take("Drive", "concrete_m3", concrete * foot**3)
    yield _take("Drive", "slab_m3", (concrete - edges) * foot**3)
    yield _take("Drive", "edge_m3", edges * foot**3)
    radius = 12.0 * lane.OAK_STEM
    yield _take("Oak", "protected_radius_m", radius * foot)
    yield _take("Oak", "wall_inside_m", wall_in_circle(radius) * foot)
    ends = [lane.PLAN_MARKS[mark] for mark in "AC"]
    low, part = lane.PATIO[0][1], _out_of_circle(ends, lane.PATIO_CENTRE, lane.PATIO_RADIUS)
    places = (*ends, (ends[1][0] * low / ends[1][1], low), (ends[1][0] * part, ends[1][1] * part))
    levels = [lane.ground(*place) * foot for place in places]
    yield from _section("A to C", "Patio", math.dist(*ends) * foot, levels)


def _out_of_circle(ends: list[tuple[float, float]], centre: tuple[float, float], radius: float) -> float:
    """Part of a way from the origin at which it leaves a circle: the larger root of |t e - c|^2 = r^2."""
    _, (ex, ey) = ends
    square, half = ex * ex + ey * ey, ex * centre[0] + ey * centre[1]
    return (half + math.sqrt(half**2 - square * (math.hypot(*centre) ** 2 - radius**2))) / square


def wall_in_circle(radius: float) -> float:
    """Feet of the wall's curve inside the circle round the oak: half the chord angle seen from the curve's centre."""
    gap = math.dist(lane.OAK, lane.WALL_CENTRE)
    toward = angle_of(lane.WALL_CENTRE, lane.OAK)
    cosine = (lane.WALL_RADIUS**2 + gap**2 - radius**2) / (2.0 * lane.WALL_RADIUS * gap)
    half = math.degrees(math.acos(cosine))
    first, last = max(90.0, toward - half), min(180.0, toward + half)
    return arc_length(lane.WALL_RADIUS, last - first)
