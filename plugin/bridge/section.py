# SPDX-License-Identifier: GPL-2.0-or-later
"""The section of a line that was drawn on the map, through the edges, stations and surfaces of a survey."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Protocol

import numpy as np

from ..core.measure.section_line import (
    Crossing,
    HeightPoints,
    WalkedEdges,
    Way,
    cut_section_line,
)
from ..core.quantity import COVER_95
from .section_surfaces import LaidSurface, SurfaceCuts, cut_surfaces, plain_surface
from .survey_file import METRE, MapWay, Unit, has_table, numbers, open_survey, point_places, read_map_way
from .survey_shapes import TableEdges, table_edges, table_triangles
from .text import tr

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Sequence
    from pathlib import Path

    from ..core.quantity import Floats

LEVEL_BELOW = 5e-5
"""Ratio: a gradient flatter than 1 in 20,000 is told as level; no walk shows it."""
STEEP = 10.0
"""Of 1 in n: from here on whole numbers are sharp enough."""
LEG_COLUMNS = "geom, walk, feature, part, from_station, to_station, rise_m, finding"


@dataclass(frozen=True)
class Source:
    """What a level is told by: what was walked, and the stations it is from."""

    title: str
    detail: str


class PlaneWay(Protocol):
    """Between the CRS of layers and a plane of metres: (n, 2) places each way."""

    def to_plane(self, xy: Floats) -> Floats:
        """From the layers to the plane."""

    def to_map(self, xy: Floats) -> Floats:
        """From the plane to the layers."""


@dataclass(frozen=True, eq=False)
class SectionGround:
    """All of a survey that has a height, in the survey plane.

    Attributes:
        edges, points: with the numbers of their `rows`, the first `legs` of which are legs, the others stations.
        surfaces: of the survey's own table, or such as were chosen instead.
        way: between the layers' CRS and the plane. withheld: edges whose heights an open stop keeps out.
        datum: of the heights, "" where they are relative.
        is_pair: whether the first surface is held against the second. is_chosen: whether the surfaces are chosen ones.
    """

    edges: WalkedEdges
    points: HeightPoints
    rows: tuple[sqlite3.Row, ...]
    legs: int
    surfaces: tuple[LaidSurface, ...]
    way: MapWay | PlaneWay
    withheld: int
    datum: str
    is_pair: bool = False
    is_chosen: bool = False

    @property
    def has_heights(self) -> bool:
        """Whether there is anything that a section could show."""
        return bool(len(self.edges) or len(self.points.sigma) or self.surfaces)

    def source(self, number: int) -> Source:
        """What a level is told by; words are made when they are asked for, since few of many are."""
        row = self.rows[number]
        return _edge_source(row) if number < self.legs else _station_source(row)


@dataclass(frozen=True)
class SectionPoint:
    """A level on the line, lengths in the section's unit: how far along, the level, half its 95 % (NaN where it is not
    known), what tells it, and its place on the map."""

    along: float
    level: float
    half_95: float
    source: Source
    at: tuple[float, float]
    is_point: bool


@dataclass(frozen=True)
class SectionWay:
    """From one level to the next, lengths in the section's unit: run, rise with half its 95 %, the gradient as 1 in n in
    words, in percent, and half its 95 % (None on an upright face)."""

    run: float
    rise: float
    rise_95: float
    ratio: str
    percent: float | None
    percent_95: float | None


@dataclass(frozen=True, eq=False)
class DrawnSection:
    """The section as it is shown; lengths in `unit`.

    Attributes:
        cuts: the surfaces along the line. is_chosen: whether they were chosen, and are none of the survey's own table.
        line: (v, 2) the drawn line on the map. chainage: (v,) along it at each of its points.
    """

    points: tuple[SectionPoint, ...]
    ways: tuple[SectionWay, ...]
    length: float
    cuts: SurfaceCuts
    unit: Unit
    datum: str
    line: Floats
    chainage: Floats
    is_chosen: bool = False

    @property
    def surfaces(self) -> tuple[tuple[str, Floats, Floats], ...]:
        """Of each surface met its name, (k,) distances along and (k,) levels, with NaN at gaps."""
        return self.cuts.lines

    def place_at(self, along: float) -> tuple[float, float]:
        """The place on the map at a distance along the line; its ends beyond them."""
        x, y = (float(np.interp(along, self.chainage, self.line[:, axis])) for axis in (0, 1))
        return x, y

    def along_of(self, x: float, y: float) -> tuple[float, float]:
        """How far along the line its point nearest to a place on the map is, and how far off the place lies in the
        map's own unit."""
        start, way = self.line[:-1], np.diff(self.line, axis=0)
        size = (way**2).sum(axis=1)
        part = np.clip(
            ((np.array([x, y]) - start) * way).sum(axis=1) / np.where(size > 0, size, 1.0), 0.0, 1.0
        )
        off = np.hypot(*(start + part[:, None] * way - (x, y)).T)
        k = int(np.argmin(off))
        return float(self.chainage[k] + part[k] * (self.chainage[k + 1] - self.chainage[k])), float(off[k])

    def near(self, here: tuple[float, float], edge: tuple[float, float]) -> float | None:
        """How far along the line a place on the map is, where the line passes it no farther off than `edge` lies."""
        along, off = self.along_of(*here)
        return along if off <= math.dist(here, edge) else None

    def nearest(self, along: float) -> int | None:
        """The number of the level nearest to a distance along the line."""
        if not self.points:
            return None
        return int(np.argmin([abs(point.along - along) for point in self.points]))


def read_ground(survey: Path) -> SectionGround:
    """Everything of a survey that a drawn line could meet. Heights that an open stop keeps out are left out: those of a
    feature whose rows name the stop, and of stations on the way where all of their walk is kept out.

    Raises:
        BadInput: it is no survey.
    """
    with open_survey(survey) as database:
        way = read_map_way(database)
        legs = database.execute(f"SELECT {LEG_COLUMNS} FROM legs").fetchall()  # noqa: S608 - the columns above
        stations = database.execute(
            "SELECT geom, walk, station, feature, part, mark, z_m, z_m_sigma FROM stations ORDER BY fid"
        ).fetchall()
        surfaces = _surfaces(database, way)
        datum = database.execute("SELECT height_datum FROM placement").fetchone()
    edges, withheld = _edges(legs, stations, way)
    out, walks_out = _kept_out(legs)
    used = [
        row for row in stations
        if row["z_m"] is not None and not (_feature(row) in out or (not row["feature"] and row["walk"] in walks_out))
    ]  # fmt: skip
    points = _points(used, way, len(legs))
    told = str(datum[0] or "") if datum else ""
    return SectionGround(
        edges, points, (*legs, *used), len(legs), surfaces, way, withheld, "" if told == "relative" else told
    )


def _feature(row: sqlite3.Row) -> tuple[str, str, str]:
    return row["walk"], row["feature"] or "", row["part"] or ""


def _kept_out(legs: Sequence[sqlite3.Row]) -> tuple[set[tuple[str, str, str]], set[str]]:
    """Features whose heights a stop keeps out, and the walks of which all are."""
    is_out = [(row, bool(row["finding"]) and row["rise_m"] is None) for row in legs]
    walks = {row["walk"] for row, _ in is_out} - {row["walk"] for row, out in is_out if not out}
    return {_feature(row) for row, out in is_out if out}, walks


def _edges(
    legs: Sequence[sqlite3.Row], stations: Sequence[sqlite3.Row], way: MapWay
) -> tuple[WalkedEdges, int]:
    """The edges of all legs that have heights, and how many legs a stop keeps out."""
    table = table_edges([row["geom"] for row in legs], way)
    sigma = _vertex_sigmas(legs, stations, table)
    usable = np.array([row["rise_m"] is not None for row in legs], bool).reshape(-1)
    row = table.row[table.run]
    ends = table.vertex[table.first], table.vertex[table.first + 1]
    keep = usable[row] & np.isfinite(ends[0][:, 2]) & np.isfinite(ends[1][:, 2])
    edges = WalkedEdges(ends[0][keep], ends[1][keep], table.bulge[keep], sigma[keep], row[keep])
    return edges, sum(bool(leg["finding"]) and leg["rise_m"] is None for leg in legs)


def _vertex_sigmas(legs: Sequence[sqlite3.Row], stations: Sequence[sqlite3.Row], table: TableEdges) -> Floats:
    """(e, 2) sigma of the height at both ends of each edge. A leg of as many vertices as stations has each one's own; of
    any other (chords of a face, pieces that were fitted) it runs evenly between those of its two stations."""
    at = {(row["walk"], row["station"]): k for k, row in enumerate(stations)}
    told = numbers(stations, ("z_m_sigma",))[:, 0]
    out = np.full((len(table.bulge), 2), np.nan)
    bounds = np.searchsorted(table.run, np.arange(len(table.row) + 1)).tolist()
    for row, low, high in zip(table.row.tolist(), bounds, bounds[1:]):
        leg = legs[row]
        first, last = (at.get((leg["walk"], leg[name])) for name in ("from_station", "to_station"))
        if first is None or last is None:
            continue
        if last - first == high - low:
            values = told[first : last + 1]
        else:
            values = np.linspace(told[first], told[last], high - low + 1)
        out[low:high, 0], out[low:high, 1] = values[:-1], values[1:]
    return out


def _points(stations: Sequence[sqlite3.Row], way: MapWay, begin: int) -> HeightPoints:
    places = point_places([row["geom"] for row in stations])
    table = numbers(stations, ("z_m", "z_m_sigma"))
    return HeightPoints(
        np.column_stack([way.to_plane(places[:, :2]), table[:, 0]]),
        table[:, 1],
        np.arange(begin, begin + len(stations)),
    )


def _surfaces(database: sqlite3.Connection, way: MapWay) -> tuple[LaidSurface, ...]:
    if not has_table(database, "surfaces"):
        return ()
    rows = database.execute("SELECT name, geom FROM surfaces").fetchall()
    meshes = table_triangles([row["geom"] for row in rows], way)
    return tuple(
        LaidSurface(str(row["name"]), plain_surface(points, triangles), way.to_plane)
        for row, (points, triangles) in zip(rows, meshes)
    )


def with_surfaces(
    ground: SectionGround | None, surfaces: Sequence[LaidSurface], way: PlaneWay, *, is_pair: bool = False
) -> SectionGround:
    """What was walked together with surfaces that were chosen, in the place of the survey's own table's.

    Args:
        ground: of the survey; None where there is none, and lines are drawn in the surfaces' CRS.
        surfaces: chosen ones.
        way: between the surfaces' CRS and their plane.
        is_pair: whether the first is held against the second.
    """
    none, rows = np.zeros((0, 3)), np.zeros(0, np.int64)
    edges = WalkedEdges(none, none, np.zeros(0), np.zeros((0, 2)), rows)
    bare = SectionGround(edges, HeightPoints(none, np.zeros(0), rows), (), 0, (), way, 0, "")
    return replace(ground or bare, surfaces=tuple(surfaces), is_pair=is_pair, is_chosen=True)


def _edge_source(leg: sqlite3.Row) -> Source:
    words = tr("edge between stations {start} and {end} of {walk}")
    title = " ".join(filter(None, (leg["feature"], leg["part"])))
    return Source(title, words.format(start=leg["from_station"], end=leg["to_station"], walk=leg["walk"]))


def _station_source(row: sqlite3.Row) -> Source:
    detail = tr("station {station} of {walk}").format(station=row["station"], walk=row["walk"])
    place = f"{row['walk']}:{row['station']}"
    title = tr("mark {mark}").format(mark=row["mark"]) if row["mark"] else row["feature"] or place
    return Source(str(title), detail)


def draw_section(
    ground: SectionGround, line: Sequence[tuple[float, float]], unit: Unit = METRE
) -> DrawnSection:
    """The section of a line drawn in the layers' CRS; lengths are ground lengths."""
    on_map = np.array(line, float).reshape(-1, 2)
    in_plane = ground.way.to_plane(on_map)
    cut = cut_section_line(in_plane, ground.edges, ground.points)
    steps = np.hypot(*np.diff(in_plane, axis=0).T) if len(on_map) > 1 else np.zeros(0)
    cuts = cut_surfaces(ground.surfaces, on_map, unit, is_pair=ground.is_pair)
    places = ground.way.to_map(np.array([(c.x, c.y) for c in cut.crossings], float).reshape(-1, 2))
    return DrawnSection(
        tuple(_point(ground, c, (x, y), unit) for c, (x, y) in zip(cut.crossings, places.tolist())),
        tuple(_way(way, unit) for way in cut.ways),
        unit.of(cut.length),
        cuts,
        unit,
        ground.datum,
        on_map,
        np.concatenate([[0.0], np.cumsum(steps)]) / unit.metres if len(on_map) else np.zeros(0),
        ground.is_chosen,
    )


def _point(ground: SectionGround, crossing: Crossing, at: tuple[float, float], unit: Unit) -> SectionPoint:
    source = ground.source(crossing.name)
    along, level, half = (unit.of(v) for v in (crossing.chainage, crossing.z, crossing.half_width_95))
    return SectionPoint(along, level, half, source, at, crossing.is_point)


def _way(way: Way, unit: Unit) -> SectionWay:
    gradient, sigma = way.gradient, way.gradient_sigma
    return SectionWay(
        unit.of(way.run),
        unit.of(way.rise),
        unit.of(COVER_95 * way.rise_sigma),
        one_in(gradient),
        None if gradient is None else 100.0 * gradient,
        None if sigma is None else 100.0 * COVER_95 * sigma,
    )


def one_in(gradient: float | None) -> str:
    """A gradient as 1 in so much; level below what a walk can show, upright where there is no run."""
    if gradient is None:
        return tr("upright")
    if abs(gradient) < LEVEL_BELOW:
        return tr("level")
    n = 1.0 / abs(gradient)
    told = f"{n:.0f}" if n >= STEEP else f"{n:.1f}"
    words = tr("1 in {n} up") if gradient > 0 else tr("1 in {n} down")
    return words.format(n=told)


def level_words(section: DrawnSection, point: SectionPoint) -> str:
    """A level for the table: what it is of, the level with its 95 %, and how far along."""
    sign = section.unit.sign
    if math.isnan(point.half_95):
        level = tr("{level:.3f} {unit}, 95 % not known").format(level=point.level, unit=sign)
    else:
        level = tr("{level:.3f} ± {half:.3f} {unit}").format(level=point.level, half=point.half_95, unit=sign)
    return f"{point.source.title}\n{level}\n" + tr("at {along:.2f} {unit}").format(
        along=point.along, unit=sign
    )


def way_words(section: DrawnSection, number: int) -> str:
    """What lies between a level and the next, for the table: run, rise and gradient; nothing after the last."""
    if number >= len(section.ways):
        return ""
    way, sign = section.ways[number], section.unit.sign
    first = tr("{run:.2f} {unit}, {ratio}").format(run=way.run, unit=sign, ratio=way.ratio)
    second = tr("{rise:+.3f} ± {half:.3f} {unit}").format(rise=way.rise, half=way.rise_95, unit=sign)
    if way.percent is None or way.percent_95 is None:
        return f"{first}\n{second}"
    third = tr("{percent:+.1f} ± {half:.1f} %").format(percent=way.percent, half=way.percent_95)
    return f"{first}\n{second}\n{third}"
