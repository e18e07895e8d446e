# SPDX-License-Identifier: GPL-2.0-or-later
"""The tables of the survey GeoPackage, their columns, and the geometry of their records."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from ..core.findings import Finding
from ..core.measure.rows import (
    AreaRow,
    LegRow,
    LengthRow,
    MarkRow,
    SideRow,
    SpotRow,
    StationRow,
    SurfaceRow,
    Survey,
)
from .geometry import (
    COMPOUND_Z,
    CURVE_POLYGON_Z,
    LINE_Z,
    MULTI_CURVE_Z,
    MULTI_LINE_Z,
    MULTI_POLYGON_Z,
    POINT,
    POINT_Z,
    POLYGON_Z,
    MapFrame,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from ..core.plane import SurveyPlane


class Kind(Enum):
    """What a column holds."""

    TEXT = "text"
    REAL = "real"
    WHOLE = "whole"


WHOLE_COLUMNS = frozenset({"line", "stations", "points", "triangles", "for_row"})
"""The columns that count."""
NUMBER_ENDINGS = ("_m", "_m2", "_s", "_ratio", "_deg", "_sigma", "scale", "grid_to_ground", "_check")
MAP_COLUMNS = frozenset({"x", "y"})
"""Coordinates in the layers' CRS and its unit."""


@dataclass(frozen=True)
class Table:
    """One table: its name, the geometry code of its layer (None without geometry) and its columns in order."""

    name: str
    geometry: int | None
    columns: tuple[str, ...]
    records: Callable[[Survey], Sequence[object]]


@dataclass(frozen=True)
class RunFact:
    """One fact of the run that made the survey: `kind` is input, setting, version, run or instrument."""

    kind: str
    name: str
    value: str


@dataclass(frozen=True)
class PlacedFinding:
    """A finding of a place, as the map shows it."""

    finding: Finding


@dataclass(frozen=True)
class Frame(MapFrame):
    """The map frame of a survey, with the turn that bearings need."""

    plane: SurveyPlane | None

    @property
    def turn(self) -> float:
        """From the survey plane's axes to the layer grid's, anticlockwise, radians."""
        return self.plane.grid_turn if self.plane else 0.0

    def bearing_deg(self, angle: float) -> float:
        """The undirected bearing, 0 to 180, of an angle anticlockwise from the survey plane's east."""
        return (90.0 - math.degrees(angle + self.turn)) % 180.0


def _names(text: str) -> tuple[str, ...]:
    return tuple(text.replace(",", " ").split())


TAGS = _names("site walk feature part item status surface option phase note method sigma_from finding shape")
ELLIPSE = _names("sigma_major_m sigma_minor_m sigma_bearing_deg z_m_sigma")
LENGTHS = _names(
    "length_m length_m_sigma slope_length_m slope_length_m_sigma rise_m rise_m_sigma gradient_ratio gradient_ratio_sigma"
)
ARCS = _names("radius_m radius_m_sigma sweep_deg sweep_deg_sigma")
SIZES = _names("width_m depth_m height_noted_m stem_d_m spread_m invert_m")
"""Sizes noted on site, in the order of the core's record; `height_m` is what a spot has as its level."""
ALONG = "sizes_along"
ERRORS = "point_errors"
"""What the drawn points of a row err against those of its feature, as JSON."""
ERROR_DIGITS = 6
"""Of metres: a thousandth of a millimetre, of which forty together are still none."""
SHARED_DIGITS = 7
"""Of metres: a ten-thousandth of a millimetre."""
SIDE_TAGS = tuple(name for name in TAGS if name != "item")

TABLES: tuple[Table, ...] = (
    Table(
        "areas",
        CURVE_POLYGON_Z,
        TAGS
        + _names(
            "area_m2 area_m2_sigma sloped_area_m2 sloped_area_m2_sigma perimeter_m perimeter_m_sigma"
            " fall_ratio fall_ratio_sigma fall_bearing_deg fall_bearing_deg_sigma hole_in"
        )
        + SIZES
        + (ERRORS,),
        lambda s: s.areas,
    ),
    Table("lengths", COMPOUND_Z, (*TAGS, *LENGTHS, *SIZES, ALONG, ERRORS), lambda s: s.lengths),
    Table("spots", POINT_Z, TAGS + _names("height_m height_m_sigma") + SIZES, lambda s: s.spots),
    Table(
        "stations",
        POINT_Z,
        TAGS
        + _names("station x_m y_m z_m")
        + ELLIPSE
        + _names("mark leg time z_own_m_sigma z_shared")
        + SIZES,
        lambda s: s.stations,
    ),
    Table(
        "sides",
        COMPOUND_Z,
        SIDE_TAGS + _names("owner other item length_m length_m_sigma") + ARCS,
        lambda s: s.sides,
    ),
    Table("legs", COMPOUND_Z, TAGS + LENGTHS + _names("from_station to_station") + ARCS, lambda s: s.legs),
    Table(
        "marks",
        POINT_Z,
        TAGS + _names("mark x_m y_m z_m") + ELLIPSE + _names("residual_m"),
        lambda s: s.marks,
    ),
    Table(
        "findings",
        None,
        _names("code severity file line walk station feature place x y message remedy answers answer")
        + _names("answered_by answered_at"),
        lambda s: s.findings,
    ),
    Table(
        "finding_places",
        POINT,
        _names("code severity place message remedy answers answer"),
        lambda s: [PlacedFinding(finding) for finding in s.findings if finding.at is not None],
    ),
    Table(
        "walks",
        None,
        _names("walk file instrument stations length_m moving_s misclosure_m misclosure_m_sigma")
        + _names("height_misclosure_m height_misclosure_m_sigma"),
        lambda s: s.walks,
    ),
    Table(
        "placement",
        None,
        _names("status crs rotation_deg scale height_shift_m height_datum grid_to_ground common_m_sigma")
        + _names("scale_check scale_check_sigma"),
        lambda s: (s.placement,),
    ),
    Table(
        "residuals",
        None,
        _names("kind mark other walk station used residual_x_m residual_y_m residual_m")
        + _names("standard_ratio ask_ratio stop_ratio"),
        lambda s: s.residuals,
    ),
    Table("runs", None, _names("kind name value"), lambda _: ()),
)
SURFACES = Table("surfaces", MULTI_POLYGON_Z, _names("name file points triangles"), lambda s: s.surfaces)
"""Written only where a file held a surface."""
WORKINGS = Table(
    "workings",
    None,
    _names("for_table for_row working"),
    lambda s: s.workings.rows(s) if s.workings is not None else (),
)
"""How each row's figures come about (core/measure/working.py)."""


def tables_of(survey: Survey) -> tuple[Table, ...]:
    """The tables that a survey's GeoPackage has."""
    tables = (*TABLES, SURFACES) if survey.surfaces else TABLES
    return tables if survey.workings is None else (*tables, WORKINGS)


def column_kind(name: str) -> Kind:
    """What a column holds, told by its name: a column wears its unit."""
    if name in WHOLE_COLUMNS:
        return Kind.WHOLE
    return Kind.REAL if name in MAP_COLUMNS or name.endswith(NUMBER_ENDINGS) else Kind.TEXT


_CHORDED = {COMPOUND_Z: LINE_Z, MULTI_CURVE_Z: MULTI_LINE_Z, CURVE_POLYGON_Z: POLYGON_Z}
"""What each curve type becomes in a chorded copy."""


def layer_geometry(table: Table, survey: Survey, frame: MapFrame) -> int | None:
    """The geometry code of a table's layer.

    Lengths are compound curves; only where a length was broken off by a carry, and so has several runs,
    does the whole layer become one of multi-curves (a layer has one type, a part one row).
    """
    code = table.geometry
    if table.name == "lengths" and any(len(row.runs) > 1 for row in survey.lengths):
        code = MULTI_CURVE_Z
    return code if code is None or frame.sag is None else _CHORDED.get(code, code)


def record_geometry(record: object, frame: Frame, code: int | None) -> bytes | None:
    """The geometry of a record in the layer's CRS, as well-known binary; None for one that lies nowhere (of a walk
    that was left out, or a feature of which nothing is drawn)."""
    if isinstance(record, AreaRow):
        return frame.polygon(record.outline) if record.outline else None
    if isinstance(record, LengthRow):
        return _lines(record, frame, code) if record.runs else None
    if isinstance(record, (SideRow, LegRow)):
        return frame.line(record.run)
    if isinstance(record, (SpotRow, StationRow, MarkRow, PlacedFinding)):
        return _point(record, frame)
    if isinstance(record, SurfaceRow):
        return frame.triangles(record.points, record.triangles)
    return None


def _point(row: SpotRow | StationRow | MarkRow | PlacedFinding, frame: Frame) -> bytes | None:
    if isinstance(row, PlacedFinding):
        return None if row.finding.at is None else frame.flat_point(row.finding.at)
    return frame.point(row.point) if all(map(math.isfinite, row.point[:2])) else None


def _lines(row: LengthRow, frame: Frame, code: int | None) -> bytes:
    is_multi = code in {MULTI_CURVE_Z, MULTI_LINE_Z}
    return frame.lines(row.runs) if is_multi else frame.line(row.runs[0])
