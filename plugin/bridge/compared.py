# SPDX-License-Identifier: GPL-2.0-or-later
"""A comparison as rows: a table of things, what changed on the map, and the summary."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeature, QgsFields, QgsGeometry, QgsLineString, QgsMultiPolygon, QgsPolygon

from ..core.plane import SurveyPlane
from ..core.quantity import Quantity
from ..core.register.records import Figure, Outcome, Table
from .fields import Kind
from .geometry import MapFrame
from .layers import fields_with

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..core.quantity import Floats
    from ..core.register.ground import GroundComparison
    from ..core.register.records import Compared, Comparison, Patch, Test, Thing
    from .planned import Plane

HEAD = (("kind", Kind.TEXT), ("feature", Kind.TEXT), ("part", Kind.TEXT), ("item", Kind.TEXT))
OUTCOME = (("outcome", Kind.TEXT), ("told_by", Kind.TEXT), ("p", Kind.REAL))


def _figure(name: str, unit: str) -> tuple[tuple[str, Kind], ...]:
    names = (
        f"{name}_before_{unit}",
        f"{name}_after_{unit}",
        f"{name}_change_{unit}",
        f"{name}_change_{unit}_sigma",
        f"{name}_p",
        f"{name}_seen_{unit}",
    )
    return tuple((one, Kind.REAL) for one in names)


FIGURES = (
    *_figure("area", "m2"),
    *_figure("length", "m"),
    *_figure("height", "m"),
    *(
        (one, Kind.REAL)
        for one in ("moved_m", "moved_m_sigma", "moved_bearing_deg", "moved_p", "moved_seen_m")
    ),
    ("volume_change_m3", Kind.REAL),
    ("volume_change_m3_sigma", Kind.REAL),
    ("volume_with_step_m3", Kind.REAL),
    ("volume_with_step_m3_sigma", Kind.REAL),
    ("ground_m2", Kind.REAL),
)
COLUMNS = (*HEAD, *OUTCOME, *FIGURES, ("method", Kind.TEXT))
"""What a row of a comparison has."""
CHANGED_COLUMNS = (*HEAD, *OUTCOME, ("change", Kind.TEXT), ("method", Kind.TEXT))
"""What a changed thing on the map has."""
COUNTED = ("same", "changed", "cannot_tell", "added", "gone", "patches")
SUMMARY_COLUMNS = (
    *((name, Kind.WHOLE) for name in COUNTED),
    *((name, Kind.REAL) for name in ("shift_m", "shift_m_sigma", "shift_bearing_deg", "shift_p")),
    *((name, Kind.REAL) for name in ("turn_deg", "turn_deg_sigma", "turn_p")),
    *((name, Kind.REAL) for name in ("height_shift_m", "height_shift_m_sigma", "height_shift_p")),
    ("level_ratio", Kind.REAL),
    ("method", Kind.TEXT),
)
"""The one row that tells of all."""
BESIDE_M = 0.25
"""Metres to either side of a changed length or spot that are shown on the map."""
SEGMENTS = 8
"""Of a quarter of a circle."""
PATCH, GROUND = "patch", "ground"


class Row:
    """One row in the making, by column."""

    def __init__(self, columns: Sequence[tuple[str, Kind]]) -> None:
        """Empty, of these columns."""
        self._columns = [name for name, _ in columns]
        self._cells: dict[str, object] = {}

    def put(self, **cells: object) -> Row:
        """Fill cells; what is no number, and what is empty, stays NULL."""
        for name, value in cells.items():
            good = value not in (None, "") and not (isinstance(value, float) and not math.isfinite(value))
            if good and name in self._columns:
                self._cells[name] = value
        return self

    def quantity(self, name: str, figure: Quantity) -> Row:
        """A figure and its sigma."""
        return self.put(**{name: figure.value, f"{name}_sigma": figure.sigma})

    @property
    def values(self) -> list[object]:
        """In the order of the columns."""
        return [self._cells.get(name) for name in self._columns]


class ComparedTables:
    """What a comparison of surveys becomes."""

    def __init__(self, comparison: Comparison, plane: Plane, level: float, method: str) -> None:
        """Of a comparison in a plane, at the level of the whole pair; the method goes into every row."""
        self._of, self._plane, self._level, self._method = comparison, plane, level, method
        self._turn = plane.grid_turn if isinstance(plane, SurveyPlane) else 0.0

    def rows(self) -> Iterator[list[object]]:
        """Of OUTPUT: things, then patches."""
        for one in self._of.rows:
            yield self._thing(one)
        for number, patch in enumerate(self._of.patches, 1):
            row = patch_row(patch, number, self._method)
            area = hull_area(patch.hull)
            row.put(
                volume_change_m3=patch.change.value * area,
                volume_change_m3_sigma=patch.change.sigma * area,
                ground_m2=area,
            )
            yield row.values

    def _thing(self, one: Compared) -> list[object]:
        row = Row(COLUMNS).put(**_head(one.told), **self._outcome(one), method=self._method)
        sizes = [thing.size if thing is not None else None for thing in (one.before, one.after)]
        if one.told.table is not Table.SPOT:
            name, unit = ("area", "m2") if one.told.table is Table.AREA else ("length", "m")
            for when, size in zip(("before", "after"), sizes):
                row.put(**{f"{name}_{when}_{unit}": None if size is None else size.value})
            _put_test(row, one.test(Figure.SIZE), name, unit)
        if one.heights is not None:
            row.put(height_before_m=one.heights[0], height_after_m=one.heights[1])
        _put_test(row, one.test(Figure.HEIGHT), "height", "m")
        place = one.test(Figure.PLACE)
        if place is not None:
            row.put(
                moved_m=place.difference, moved_m_sigma=place.sigma, moved_p=place.p, moved_seen_m=place.seen
            )
            row.put(moved_bearing_deg=self._bearing(place.bearing))
        return row.values

    def _outcome(self, one: Compared) -> dict[str, object]:
        told = [_word(test, one.told) for test in one.tests if test.p < self._level]
        return {"outcome": one.outcome.value, "told_by": ", ".join(told), "p": one.p}

    def _bearing(self, angle: float) -> float:
        return (90.0 - math.degrees(angle + self._turn)) % 360.0

    def changed(self) -> Iterator[tuple[list[object], QgsGeometry]]:
        """Of CHANGED: rows, and where they are, in the layer's CRS."""
        for one in self._of.rows:
            if one.outcome in (Outcome.CHANGED, Outcome.ADDED, Outcome.GONE):
                row = Row(CHANGED_COLUMNS).put(**_head(one.told), **self._outcome(one), method=self._method)
                row.put(change="; ".join(_said(test, one.told) for test in one.tests if test.p < self._level))
                yield row.values, ground_geometry(one.told, self._plane)
        for number, patch in enumerate(self._of.patches, 1):
            yield patch_changed(patch, number, self._method), ring_geometry(patch.hull, self._plane)

    def summary(self) -> list[object]:
        """Of SUMMARY."""
        counts = {word: sum(one.outcome is word for one in self._of.rows) for word in Outcome}
        row = Row(SUMMARY_COLUMNS).put(**{word.value.replace(" ", "_"): n for word, n in counts.items()})
        row.put(patches=len(self._of.patches), level_ratio=self._level, method=self._method)
        motion, lift = self._of.motion, self._of.lift
        if motion is not None:
            size = float(np.hypot(*motion.shift))
            row.put(shift_m=size, shift_m_sigma=motion.sigma[0], shift_p=motion.shift_p)
            row.put(shift_bearing_deg=self._bearing(math.atan2(motion.shift[1], motion.shift[0])))
            row.put(turn_deg=math.degrees(motion.turn), turn_deg_sigma=math.degrees(motion.sigma[1]))
            row.put(turn_p=motion.turn_p)
        if lift is not None:
            row.quantity("height_shift_m", lift.shift).put(height_shift_p=lift.p)
        return row.values


def _head(thing: Thing) -> dict[str, object]:
    return {"kind": thing.table.value, "feature": thing.feature, "part": thing.part, "item": thing.item}


def _put_test(row: Row, test: Test | None, name: str, unit: str) -> None:
    if test is not None:
        row.quantity(f"{name}_change_{unit}", Quantity(test.difference, test.sigma, unit))
        row.put(**{f"{name}_p": test.p, f"{name}_seen_{unit}": test.seen})


def _word(test: Test, thing: Thing) -> str:
    if test.figure is Figure.SIZE:
        return "area" if thing.table is Table.AREA else "length"
    return "moved" if test.figure is Figure.PLACE else "height"


def _said(test: Test, thing: Thing) -> str:
    """A change in words, English as all data: `area -1.20 m2`."""
    word = _word(test, thing)
    sign = "" if test.figure is Figure.PLACE else "+"
    return f"{word} {test.difference:{sign}.3f} {'m2' if word == 'area' else 'm'}"


def patch_row(patch: Patch, number: int, method: str) -> Row:
    """The row of a patch."""
    row = Row(COLUMNS).put(**_patch_head(patch, number), height_p=patch.p, method=method)
    return row.quantity("height_change_m", patch.change)


def patch_changed(patch: Patch, number: int, method: str) -> list[object]:
    """The row of a patch on the map."""
    row = Row(CHANGED_COLUMNS).put(**_patch_head(patch, number), method=method)
    return row.put(change=f"height {patch.change.value:+.3f} m").values


def _patch_head(patch: Patch, number: int) -> dict[str, object]:
    return {
        "kind": PATCH,
        "feature": f"Patch {number}",
        "outcome": Outcome.CHANGED.value,
        "told_by": "height",
        "p": patch.p,
    }


def hull_area(ring: Floats) -> float:
    """m2 of a closed ring, anticlockwise."""
    xy = ring - ring[0]
    return 0.5 * float((xy[:-1, 0] * xy[1:, 1] - xy[1:, 0] * xy[:-1, 1]).sum())


def ground_rows(told: GroundComparison, names: tuple[str, str], method: str) -> Iterator[list[object]]:
    """Of OUTPUT, of two surfaces: the ground as a whole, then the patches."""
    row = Row(COLUMNS).put(kind=GROUND, feature=names[1], outcome=told.outcome.value, p=told.p, method=method)
    row.put(told_by="height" if told.outcome is Outcome.CHANGED else "", height_seen_m=told.seen)
    row.quantity("height_change_m", told.lift.shift).put(height_p=told.lift.p)
    row.quantity("volume_change_m3", told.volume).quantity("volume_with_step_m3", told.with_shift)
    row.put(ground_m2=told.whole.area)
    yield row.values
    for number, one in enumerate(told.patches, 1):
        row = patch_row(one.patch, number, method).quantity("volume_change_m3", one.volume)
        yield row.put(ground_m2=one.area).values


def ground_summary(told: GroundComparison, level: float, method: str) -> list[object]:
    """Of SUMMARY, of two surfaces."""
    row = Row(SUMMARY_COLUMNS).put(**dict.fromkeys(COUNTED, 0))
    row.put(**{told.outcome.value.replace(" ", "_"): 1}, patches=len(told.patches))
    row.quantity("height_shift_m", told.lift.shift).put(height_shift_p=told.lift.p)
    return row.put(level_ratio=level, method=method).values


def compared_fields(columns: Sequence[tuple[str, Kind]]) -> QgsFields:
    """Columns as the host's."""
    return fields_with(QgsFields(), columns)


def compared_feature(
    columns: QgsFields, values: list[object], geometry: QgsGeometry | None = None
) -> QgsFeature:
    """A row as the host's."""
    feature = QgsFeature(columns)
    feature.setAttributes(values)
    if geometry is not None:
        feature.setGeometry(geometry)
    return feature


def ring_geometry(ring: Floats, plane: Plane) -> QgsGeometry:
    """A ring in the plane as a polygon of several parts, in the layer's CRS."""
    return _multi([[_line(ring, plane)]])


def ground_geometry(thing: Thing, plane: Plane) -> QgsGeometry:
    """Where a thing is: an area's ground, and a strip or a circle about a length or a spot."""
    if thing.table is Table.AREA:
        return _multi([[_line(path, plane) for path in thing.paths]])
    parts = []
    for path in thing.paths:
        geometry = QgsGeometry.fromWkt(_wkt(path)).buffer(BESIDE_M, SEGMENTS)
        ring = np.array([(v.x(), v.y()) for v in geometry.constGet().exteriorRing().points()])
        parts.append([_line(ring, plane)])
    return _multi(parts)


def _wkt(path: Floats) -> str:
    places = ",".join(f"{x!r} {y!r}" for x, y in path.tolist())
    return f"POINT({places})" if len(path) == 1 else f"LINESTRING({places})"


def _line(ring: Floats, plane: Plane) -> QgsLineString:
    flat = MapFrame(plane).points(np.column_stack([ring, np.zeros(len(ring))]))
    return QgsLineString(flat[:, 0].tolist(), flat[:, 1].tolist())


def _multi(parts: list[list[QgsLineString]]) -> QgsGeometry:
    whole = QgsMultiPolygon()
    for rings in parts:
        polygon = QgsPolygon()
        for number, ring in enumerate(rings):
            polygon.addInteriorRing(ring) if number else polygon.setExteriorRing(ring)
        whole.addGeometry(polygon)
    return QgsGeometry(whole)
