# SPDX-License-Identifier: GPL-2.0-or-later
"""The working of a figure: the formula with its numbers, the stations behind it, and what its uncertainty is made of.

Everything is read from the survey GeoPackage, which keeps it beside the figures: what is shown is what was issued.
"""

from __future__ import annotations

import json
import math
import sqlite3
import struct
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.errors import BadInput
from ..core.measure.explained import StandingArc, combined, shares
from ..core.measure.parts import Part
from ..core.measure.working import from_ranges
from ..core.quantity import COVER_95, COVER_95_PLANE
from ..core.segments import Curve
from .jobs import DeskJob, survey_crs
from .measured import ASSUMED
from .text import tr
from .working_words import ACCURACY, cause_words, figure_title, figure_words, group_words, number, unit_of
from .working_words import explain_figure as explain

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from qgis.core import QgsCoordinateReferenceSystem, QgsVectorLayer

FIGURES = {
    "areas": ("area_m2", "perimeter_m", "sloped_area_m2", "fall_ratio", "fall_bearing_deg"),
    "lengths": ("length_m", "slope_length_m", "rise_m", "gradient_ratio"),
    "sides": ("length_m", "radius_m", "sweep_deg"),
    "legs": ("length_m", "slope_length_m", "rise_m", "gradient_ratio", "radius_m", "sweep_deg"),
    "spots": ("height_m",),
    "stations": ("sigma_major_m", "z_m"),
    "marks": ("sigma_major_m", "z_m", "residual_m"),
}
"""The columns of each table that can be worked out, the main one first."""
PLACE = "sigma_major_m"
POINT_TABLES = frozenset({"stations", "marks"})
LEAST_SHARE = 0.005
"""A share that would read 0 %."""
AGREES = 1e-6
"""Of a figure: what the parts may miss its own sigma by."""
_ENVELOPES = (0, 32, 48, 48, 64)
"""Bytes of the envelope in the head of a GeoPackage geometry, by its code (OGC 12-128r17, 2.1.3)."""


@dataclass(frozen=True)
class BehindStation:
    """A station that a figure moves with: its row, its name, its place in the survey plane in metres, one-sigma (long axis of its ellipse, and
    of its height), and where it lies on the map; None where there is nothing."""

    number: int
    name: str
    x: float
    y: float
    z: float | None
    sigma: float | None
    z_sigma: float | None
    map_xy: tuple[float, float] | None = None


@dataclass(frozen=True)
class ToldPart:
    """A cause of uncertainty: from where, what, its one-sigma in the figure's unit, its 95 % in words, and its share of
    the variance."""

    group: str
    words: str
    sigma: float
    reach: str
    share: float


@dataclass(frozen=True)
class Working:
    """The working of one figure.

    Attributes:
        name, title, figure: what it is of, the same with the kind of the figure, and the figure with its 95 % and unit.
        value, sigma: as stored (None where there is none); explained: what the formula's numbers come to.
        lines: the formula with its numbers. parts: of its uncertainty. notes: what else is to be known.
        agrees: whether formula and parts come to what is stored.
        is_assumed: whether a default or somebody's word stands for what the points are worth.
    """

    name: str
    title: str
    figure: str
    value: float | None
    sigma: float | None
    explained: float | None = None
    lines: tuple[str, ...] = ()
    stations: tuple[BehindStation, ...] = ()
    parts: tuple[ToldPart, ...] = ()
    notes: tuple[str, ...] = ()
    agrees: bool = True
    is_assumed: bool = False


@dataclass(frozen=True)
class KeptRow:
    """A row of a survey's table with what is kept of its working.

    Attributes:
        table, values: the row. curves: its edges in the survey plane. figures: parts and stations by column.
        standing: arcs in the vertical plane. turn: from the survey plane to the grid, radians.
        residual: (x, y) of a mark's map point less the mark, metres, where it has one.
    """

    table: str
    values: Mapping[str, Any]
    curves: tuple[Curve, ...] = ()
    figures: Mapping[str, Any] = field(default_factory=dict)
    standing: tuple[StandingArc, ...] = ()
    turn: float = 0.0
    residual: tuple[float, float] | None = None


def survey_table(layer: QgsVectorLayer) -> tuple[Path, str] | None:
    """The survey and the table that a layer shows, where it is one whose figures can be worked out."""
    source, _, rest = layer.source().partition("|layername=")
    table = rest.split("|")[0]
    path = Path(source)
    if table not in FIGURES or path.suffix.lower() != ".gpkg" or not path.is_file():
        return None
    try:
        with closing(_opened(path)) as database:
            return (path, table) if _has_workings(database) else None
    except sqlite3.Error:
        return None


def survey_frame(survey: Path) -> QgsCoordinateReferenceSystem:
    """The CRS of a survey's layers."""
    return survey_crs(DeskJob(survey.parent, survey))


def figures_of(survey: Path, table: str, row: int) -> tuple[tuple[str, str], ...]:
    """The figures of a row that are there: column and title. Where all are kept out, its main one.

    Raises:
        BadInput: there is no such row.
    """
    kept = _read(survey, table, row)[0]
    there = [column for column in FIGURES[table] if kept.values.get(column) is not None]
    return tuple((column, figure_title(table, column)) for column in there or FIGURES[table][:1])


def read_working(survey: Path, table: str, row: int, column: str) -> Working:
    """The working of one figure of a survey.

    Args:
        survey: the GeoPackage.
        table: one of `FIGURES`.
        row: the number of its row (fid).
        column: of the figure.
    Raises:
        BadInput: the file cannot be read, or it holds no such figure or no working of it.
    """
    if column not in FIGURES.get(table, ()):
        raise BadInput(
            "{table}.{column} is no figure that has a working. Choose one of: {known}.",
            table=table,
            column=column,
            known=", ".join(FIGURES.get(table, FIGURES)),
        )
    kept, stations = _read(survey, table, row, column)
    value, sigma = kept.values.get(column), _sigma(kept, column)
    name = _name_of(kept)
    title = f"{figure_title(table, column)}: {name}"
    if value is None:
        return Working(name, title, _no_figure(kept), None, None)
    parts = {Part(name): part for name, part in kept.figures.get(column, {}).get("parts", {}).items()}
    told = explain(kept, column, stations)
    notes = [*told.notes, *_notes(kept, column, parts)]
    sums_up = told.value is None or abs(told.value - value) <= told.rounding
    if not sums_up:
        words = tr(
            "The numbers above come to {sum}, not to the {stored} that is stored: was the row changed after the survey was made?"
        )
        notes.append(words.format(sum=number(told.value, column), stored=number(value, column)))
    adds_up = not parts or sigma is None or abs(combined(_plain(parts)) - sigma) <= AGREES * sigma
    if not adds_up:
        words = tr(
            "The parts come to ±{sum}, not to the ±{stored} that is stored (one sigma): was the row changed after the survey was made?"
        )
        notes.append(words.format(sum=number(combined(_plain(parts)), column), stored=number(sigma, column)))
    return Working(
        name,
        title,
        _figure(column, value, sigma),
        value,
        sigma,
        told.value,
        told.lines,
        stations,
        told_parts(parts, column),
        tuple(notes),
        sums_up and adds_up,
        kept.values.get("sigma_from") == ASSUMED,
    )


def as_text(working: Working) -> str:
    """The whole working as plain text, to be pasted into a letter."""
    blocks = [[working.title, working.figure], [*working.lines]]
    if working.parts:
        head = tr("What its uncertainty is made of (95 %, and share; the squares add up):")
        blocks.append([head, *(f"  {_part_text(part)}" for part in working.parts)])
    blocks.append([*working.notes])
    if working.stations:
        head = tr("Stations behind it (x, y, z in the survey plane, metres):")
        blocks.append([head, *(f"  {' '.join(station_cells(s))}" for s in working.stations)])
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _part_text(part: ToldPart) -> str:
    return f"{part.group}: {part.words} {part.reach}, {share_text(part.share)}"


def share_text(share: float) -> str:
    """A share in percent."""
    return f"{share:.0%}" if share >= LEAST_SHARE else "< 1%"


def station_cells(station: BehindStation) -> tuple[str, ...]:
    """A station as text: name, x, y, z, and the long axis of its 95 % ellipse."""
    reach = None if station.sigma is None else COVER_95_PLANE * station.sigma
    figures = (f"{v:.3f}" if v is not None else "-" for v in (station.x, station.y, station.z))
    return (station.name, *figures, "-" if reach is None else f"±{reach:.3f}")


def _figure(column: str, value: float, sigma: float | None) -> str:
    if column == PLACE:
        return tr("±{reach} (95 %)").format(reach=number(COVER_95_PLANE * value, column))
    return figure_words(column, value, None if sigma is None else COVER_95 * sigma)


def _sigma(kept: KeptRow, column: str) -> float | None:
    """The one-sigma beside a figure; a place's is its own."""
    return kept.values.get(column if column == PLACE else f"{column}_sigma")


def _plain(parts: Mapping[Part, float]) -> dict[str, float]:
    return {part.value: sigma for part, sigma in parts.items()}


def told_parts(parts: Mapping[Part, float], column: str) -> tuple[ToldPart, ...]:
    """The parts of a figure's uncertainty, largest first."""
    by_share = shares(_plain(parts))
    told = [
        ToldPart(group_words(p), cause_words(p), sigma, _reach(sigma, column), by_share[p.value])
        for p, sigma in parts.items()
    ]
    return tuple(sorted(told, key=lambda part: -part.share))


def _reach(sigma: float, column: str) -> str:
    """The 95 % of a part, with three digits: the small ones show too."""
    factor = COVER_95_PLANE if column == PLACE else COVER_95
    unit = unit_of(column)[0]
    return f"±{factor * sigma:.3g}" + (unit if unit == "°" else f" {unit}".rstrip())


def _name_of(kept: KeptRow) -> str:
    values = kept.values
    if kept.table == "marks":
        return str(values["mark"])
    if kept.table == "stations":
        return f"{values['walk']}:{values['station']}"
    name = "/".join(str(values[key]) for key in ("feature", "part") if values.get(key))
    if kept.table == "legs":
        return f"{name}, {values.get('from_station')} - {values.get('to_station')}"
    return name


def _no_figure(kept: KeptRow) -> str:
    codes = kept.values.get("finding")
    if codes:
        return tr("No figure: it is kept out by {codes} until that is answered.").format(codes=codes)
    return tr("No figure: there is nothing here to measure it from.")


def _notes(kept: KeptRow, column: str, parts: Mapping[Part, float]) -> list[str]:
    values, notes = kept.values, []
    is_size = column not in {PLACE, "height_m", "z_m", "residual_m", "fall_bearing_deg"}
    if is_size and parts and not {Part.PICKS, Part.COMMON} & set(parts):
        notes.append(tr("Placement: nothing, for a size is the same wherever it is placed."))
    if column in {"area_m2", "perimeter_m", "sloped_area_m2"} and Part.EDGE not in parts:
        notes.append(tr("Edge: nothing, the edge is taken to lie where it was walked."))
    source = values.get("sigma_from")
    if source in ACCURACY:
        notes.append(ACCURACY[source]())
    if values.get("method") and kept.table not in POINT_TABLES:
        notes.append(tr("How it was come by: {method}.").format(method=values["method"]))
    return notes


def _opened(survey: Path) -> sqlite3.Connection:
    database = sqlite3.connect(f"{survey.absolute().as_uri()}?mode=ro", uri=True)
    database.row_factory = sqlite3.Row
    return database


def _has_workings(database: sqlite3.Connection, name: str = "workings") -> bool:
    found = database.execute("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?", (name,))
    return found.fetchone() is not None


def _read(survey: Path, table: str, row: int, column: str = "") -> tuple[KeptRow, tuple[BehindStation, ...]]:
    if table not in FIGURES:
        raise BadInput(
            "{table} holds no figures. Choose one of: {known}.", table=table, known=", ".join(FIGURES)
        )
    try:
        with closing(_opened(survey)) as database:
            kept = _kept(database, survey.name, table, row)
            behind = kept.figures.get(column, {}).get("stations", "")
            if column == "residual_m":
                behind = kept.figures.get(PLACE, {}).get("stations", "")
            return kept, _stations(database, from_ranges(behind))
    except sqlite3.Error as error:
        raise BadInput(
            "{file} cannot be read as a survey: {reason}. Run the job again.",
            file=survey.name,
            reason=str(error),
        ) from error


def _kept(database: sqlite3.Connection, file: str, table: str, row: int) -> KeptRow:
    values = database.execute(f'SELECT * FROM "{table}" WHERE fid = ?', (row,)).fetchone()  # noqa: S608 - of FIGURES
    if values is None:
        raise BadInput("{file}: {table} has no row {row}. Choose it again.", file=file, table=table, row=row)
    if not _has_workings(database):
        raise BadInput("{file} was written before workings were kept. Run the job again.", file=file)
    told = database.execute(
        "SELECT working FROM workings WHERE for_table = ? AND for_row = ?", (table, row)
    ).fetchone()
    has_figure = any(values[column] is not None for column in FIGURES[table])
    if told is None and has_figure:
        raise BadInput(
            "{file} keeps no working of row {row} of {table}: it was added after the survey was made. Measure the layer "
            "instead (Measure areas, Measure lengths).",
            file=file,
            row=row,
            table=table,
        )
    working = json.loads(told[0]) if told else {"curves": [], "figures": {}}
    turn = database.execute("SELECT rotation_deg FROM placement").fetchone()
    return KeptRow(
        table,
        dict(values),
        tuple(map(_curve, working["curves"])),
        working["figures"],
        _standing(database, values) if table in {"lengths", "legs"} else (),
        math.radians(turn[0]) if turn and turn[0] is not None else 0.0,
        _residual(database, values["mark"]) if table == "marks" else None,
    )


def _curve(told: Mapping[str, Any]) -> Curve:
    points = np.array(told["points"], dtype=float).reshape(-1, 3)
    return Curve(points, np.array(told["bulge"], dtype=float))


def _standing(database: sqlite3.Connection, values: sqlite3.Row) -> tuple[StandingArc, ...]:
    """The arcs of a feature that stand in the vertical plane."""
    query = "SELECT shape FROM lengths WHERE walk IS ? AND feature IS ? AND part IS ? AND shape IS NOT NULL"
    texts = database.execute(query, (values["walk"], values["feature"], values["part"])).fetchall()
    arcs = [arc for text in texts for arc in json.loads(text[0]).get("vertical_arcs", ())]
    return tuple(
        StandingArc(tuple(a["start"]), tuple(a["end"]), a["radius_m"], math.radians(abs(a["sweep_deg"])))
        for a in arcs
    )


def _residual(database: sqlite3.Connection, mark: str) -> tuple[float, float] | None:
    if not _has_workings(database, "residuals"):
        return None
    query = (
        "SELECT residual_x_m, residual_y_m FROM residuals WHERE mark = ? AND kind IN ('map point', 'check point') "
        "AND residual_x_m IS NOT NULL"
    )
    found = database.execute(query, (mark,)).fetchone()
    return (float(found[0]), float(found[1])) if found else None


def _stations(database: sqlite3.Connection, numbers: Sequence[int]) -> tuple[BehindStation, ...]:
    if not numbers:
        return ()
    wanted = set(numbers)
    query = "SELECT * FROM stations WHERE fid BETWEEN ? AND ? ORDER BY fid"
    rows = database.execute(query, (min(wanted), max(wanted))).fetchall()
    return tuple(_station(row) for row in rows if row["fid"] in wanted)


def _station(row: sqlite3.Row) -> BehindStation:
    name = f"{row['walk']}:{row['station']}"
    place = _point_of(row["geom"])
    return BehindStation(
        row["fid"], name, row["x_m"], row["y_m"], row["z_m"], row["sigma_major_m"], row["z_m_sigma"], place
    )


def _point_of(blob: bytes | None) -> tuple[float, float] | None:
    """The place of a point as a GeoPackage keeps it."""
    if not blob:
        return None
    at = 8 + _ENVELOPES[(blob[3] >> 1) & 7]
    x, y = struct.unpack_from("<dd" if blob[at] == 1 else ">dd", blob, at + 5)
    return x, y
