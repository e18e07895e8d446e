# SPDX-License-Identifier: GPL-2.0-or-later
"""What each record of the survey puts into the columns of its table (fields.py).

Angles leave here in degrees, bearings clockwise from the layer's grid north. None stands for NULL.
"""

from __future__ import annotations

import json
import math
from dataclasses import astuple, fields
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.findings import Finding
from ..core.measure.rows import (
    AreaRow,
    Ellipse,
    LegRow,
    LengthRow,
    MarkRow,
    PlacementRow,
    PointErrors,
    ResidualRow,
    SideRow,
    SpotRow,
    StationRow,
    SurfaceRow,
    Tags,
    WalkRow,
)
from ..core.measure.working import WorkingRow
from .fields import ERROR_DIGITS, SHARED_DIGITS, SIDE_TAGS, SIZES, TAGS, Frame, PlacedFinding, RunFact
from .text import explain_finding, explain_remedy

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from ..core.quantity import Floats, Quantity


def record_values(record: object, frame: Frame) -> tuple[str | float | int | None, ...]:
    """The values of a record in its table's column order; None where there is nothing, in text and figures."""
    return tuple(_plain(value) for value in _VALUES[type(record)](record, frame))


def _plain(value: str | float | int | None) -> str | float | int | None:
    return None if value == "" or (isinstance(value, float) and math.isnan(value)) else value


def _pair(figure: Quantity | None) -> tuple[float | None, float | None]:
    return (None, None) if figure is None else (figure.value, figure.sigma)


def _pairs(*figures: Quantity | None) -> tuple[float | None, ...]:
    return tuple(value for figure in figures for value in _pair(figure))


def _tags(tags: Tags) -> tuple[str, ...]:
    return tuple(getattr(tags, name) for name in TAGS)


def _ellipse(ellipse: Ellipse | None, z_sigma: float | None, frame: Frame) -> tuple[float | None, ...]:
    if ellipse is None:
        return (None, None, None, z_sigma)
    return (ellipse.major, ellipse.minor, frame.bearing_deg(ellipse.angle), z_sigma)


def _degrees(angle: float | None) -> float | None:
    return None if angle is None else math.degrees(angle)


def _area(row: AreaRow, _: Frame) -> tuple[object, ...]:
    figures = _pairs(row.area, row.sloped_area, row.perimeter, row.fall, row.fall_bearing)
    return (*_tags(row.tags), *figures, row.hole_in, *astuple(row.noted), _errors(row.errors))


def _length(row: LengthRow, _: Frame) -> tuple[object, ...]:
    figures = _pairs(row.length, row.slope_length, row.rise, row.gradient)
    return (*_tags(row.tags), *figures, *astuple(row.noted), _along(row), _errors(row.errors))


def _errors(errors: Sequence[PointErrors]) -> str | None:
    """Run by run as JSON, under the names of the core's record; NULL where they are not told."""
    runs = []
    for run in errors:
        parts = [("xy", run.xy), ("own", run.own), ("plan", run.plan), ("height", run.height)]
        parts += [] if run.z is None else [("z", run.z)]
        runs.append({name: _cells(part) for name, part in parts})
    return json.dumps(runs, separators=(",", ":")) if runs else None


def _cells(part: Floats) -> object:
    told = part.round(ERROR_DIGITS).astype(object)
    told[np.isnan(part)] = None
    return told.tolist()


def _along(row: LengthRow) -> str | None:
    """Sizes by chainage as JSON, under the names of their columns."""
    names = dict(zip((f.name for f in fields(row.noted)), SIZES))
    told = {
        names[name]: [[round(v, SHARED_DIGITS) for v in pair] for pair in pairs] for name, pairs in row.along
    }
    return json.dumps(told) if told else None


def _spot(row: SpotRow, _: Frame) -> tuple[object, ...]:
    return (*_tags(row.tags), *_pair(row.height), *astuple(row.noted))


def _station(row: StationRow, frame: Frame) -> tuple[object, ...]:
    ellipse = _ellipse(row.ellipse, row.z_sigma, frame)
    shared = json.dumps([round(part, SHARED_DIGITS) for part in row.z_shared]) if row.z_shared else None
    told = (row.mark, row.leg, row.time, row.z_own, shared)
    return (*_tags(row.tags), row.station, *row.point, *ellipse, *told, *astuple(row.noted))


def _side(row: SideRow, _: Frame) -> tuple[object, ...]:
    tags = tuple(getattr(row.tags, name) for name in SIDE_TAGS)
    return (*tags, row.owner, row.other, row.item, *_pair(row.length), *_arc(row))


def _arc(row: SideRow | LegRow) -> tuple[float | None, ...]:
    sweep = tuple(_degrees(angle) for angle in _pair(row.sweep))
    return (*_pair(row.radius), *sweep)


def _leg(row: LegRow, _: Frame) -> tuple[object, ...]:
    figures = _pairs(row.length, row.slope_length, row.rise, row.gradient)
    return (*_tags(row.tags), *figures, row.start, row.end, *_arc(row))


def _mark(row: MarkRow, frame: Frame) -> tuple[object, ...]:
    ellipse = _ellipse(row.ellipse, row.z_sigma, frame)
    return (*_tags(row.tags), row.mark, *row.point, *ellipse, row.residual)


def _finding(row: Finding, frame: Frame) -> tuple[object, ...]:
    where: tuple[float | None, float | None] = (None, None)
    if row.at is not None:
        x, y = frame.map_xy(row.at)
        where = (x, y)
    place = (row.code, row.severity.value, row.file, row.line, row.walk, row.station, row.feature, row.place)
    text = (explain_finding(row), explain_remedy(row), "; ".join(row.answers))
    return (*place, *where, *text, row.answer, row.answered_by, row.answered_at)


def _placed(row: PlacedFinding, _: Frame) -> tuple[object, ...]:
    found = row.finding
    text = (explain_finding(found), explain_remedy(found), "; ".join(found.answers))
    return (found.code, found.severity.value, found.place, *text, found.answer)


def _walk(row: WalkRow, _: Frame) -> tuple[object, ...]:
    closing = (row.misclosure, row.misclosure_sigma, row.height_misclosure, row.height_misclosure_sigma)
    return (row.walk, row.file, row.instrument, row.stations, row.length, row.moving_s, *closing)


def _placement(row: PlacementRow, _: Frame) -> tuple[object, ...]:
    turn = _degrees(row.rotation)
    heights = (row.height_shift, row.height_datum)
    checks = (row.scale_check, row.scale_check_sigma)
    return (row.status, row.crs, turn, row.scale, *heights, row.grid_to_ground, row.common_sigma, *checks)


def _residual(row: ResidualRow, _: Frame) -> tuple[object, ...]:
    names = (row.kind.value, row.mark, row.other, row.walk, row.station, "yes" if row.is_used else "no")
    return (*names, row.x, row.y, row.size, row.standard, row.ask, row.stop)


def _surface(row: SurfaceRow, _: Frame) -> tuple[object, ...]:
    return (row.name, row.file, len(row.points), len(row.triangles))


def _working(row: WorkingRow, _: Frame) -> tuple[object, ...]:
    return (row.table, row.row, row.text)


def _fact(row: RunFact, _: Frame) -> tuple[object, ...]:
    return (row.kind, row.name, row.value)


_VALUES: dict[type, Callable[..., tuple[Any, ...]]] = {
    AreaRow: _area,
    LengthRow: _length,
    SpotRow: _spot,
    StationRow: _station,
    SideRow: _side,
    LegRow: _leg,
    MarkRow: _mark,
    Finding: _finding,
    PlacedFinding: _placed,
    WalkRow: _walk,
    PlacementRow: _placement,
    ResidualRow: _residual,
    RunFact: _fact,
    SurfaceRow: _surface,
    WorkingRow: _working,
}
