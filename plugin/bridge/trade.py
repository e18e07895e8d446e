# SPDX-License-Identifier: GPL-2.0-or-later
"""Rows of any layer as exact lines in planes of true metres, for what the trade takes off them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsWkbTypes

from ..core.errors import BadInput
from ..core.measure.layer.areas import Worth, measure_areas
from ..core.measure.layer.fits import STEP_DEG, FlatPlane
from ..core.measure.layer.heights import heights_of
from ..core.measure.layer.shapes import Kind as ShapeKind
from ..core.place.frames import onto_plane
from ..core.plane import SurveyPlane
from ..core.quantity import Quantity
from ..core.trade.lines import Line, draw_line
from .measured import ASSUMED, tell
from .sources import shapes_of
from .surface_table import local_plane
from .survey_rows import survey_figure
from .trade_columns import reason

if TYPE_CHECKING:
    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ..core.measure.layer.ground import GroundWay
    from ..core.measure.layer.heights import Heights
    from ..core.measure.layer.shapes import Shapes
    from ..core.quantity import Floats
    from .planned import Plane

POLE = 90.0
MOST_LON = 540.0
"""Degrees beyond which a place is none."""


@dataclass(frozen=True, eq=False)
class GroundRow:
    """A row on the ground.

    Attributes:
        lines: its runs in one plane, metres. is_hole: of each, whether it is an inner ring.
        plane: that they lie in, and from it the layer's CRS. height: of the plane, metres.
        gap: the first of its points, counted from 1, that has no height where others have one, so that none counts; 0 where
            there is no such point.
    """

    lines: tuple[Line, ...]
    is_hole: tuple[bool, ...]
    plane: Plane
    height: float
    gap: int = 0

    def refuse_gap(self) -> None:
        """For figures that hang on heights.

        Raises:
            BadInput: one point has none where others have.
        """
        if self.gap:
            raise BadInput(
                "Point {point} has no height, and the others have. Give it one (z), or choose a surface.",
                point=self.gap,
            )

    @property
    def line(self) -> Line:
        """Its only run.

        Raises:
            BadInput: it has several.
        """
        if len(self.lines) != 1:
            raise BadInput("The line has several parts. Split it into rows of one part each.")
        return self.lines[0]

    @property
    def has_heights(self) -> bool:
        """Whether every vertex has one."""
        return all(line.has_heights for line in self.lines)

    @property
    def rings(self) -> list[Line]:
        """The runs of an outline: outer rings anticlockwise, holes clockwise."""
        return [
            line if (float(line.edges.areas.sum()) > 0.0) != hole else line.reversed()
            for line, hole in zip(self.lines, self.is_hole)
        ]


@dataclass(frozen=True)
class PlanArea:
    """An area in m2, where its uncertainty comes from, and why there is none ("" where there is)."""

    area: Quantity
    sigma_from: str = ASSUMED
    why: str = ""


class GroundReader:
    """Reads rows of one layer; keeps the planes that it has laid out."""

    def __init__(self, way: GroundWay, height: float) -> None:
        """The layer's way to the ground, and the height of the ground in metres where rows have none."""
        self._way, self._height = way, height
        self._planes: dict[tuple[float, float, float], SurveyPlane] = {}
        self._flat = FlatPlane(way.unit_of_plan) if way.is_local else None
        self._ahead: list[QgsFeature] = []
        self._read: GroundBlock | None = None
        self._number: dict[int, int] = {}

    def read_ahead(self, features: list[QgsFeature]) -> None:
        """Read some rows at once: asked for by `row` one by one, these very objects are read already. Reading one takes as
        long as reading a hundred."""
        self._ahead, self._read = features, self.block(features) if features else None
        self._number = {id(feature): k for k, feature in enumerate(features)}

    def pair(self, one: QgsFeature, other: QgsFeature) -> tuple[GroundRow, GroundRow]:
        """Two rows of one thing in one plane; where either has heights, those of the other count though they are zero.

        Raises:
            BadInput: as for a row.
        """
        first = self.row(one)
        second = self.row(other, first.plane)
        if first.has_heights == second.has_heights:
            return first, second
        return self.row(one, first.plane, zeros_count=True), self.row(other, first.plane, zeros_count=True)

    def row(self, feature: QgsFeature, plane: Plane | None = None, *, zeros_count: bool = False) -> GroundRow:
        """One row; see `GroundBlock.row`."""
        number = self._number.get(id(feature))
        if number is None or self._read is None:
            return self.block([feature]).row(0, plane, zeros_count=zeros_count)
        return self._read.row(number, plane, zeros_count=zeros_count)

    def block(self, features: list[QgsFeature]) -> GroundBlock:
        """Some rows, read at once."""
        shapes = shapes_of(features)
        return GroundBlock(self, shapes, heights_of(shapes, self.unit_m, self._height))

    @property
    def unit_m(self) -> float:
        """Metres by unit of the layer's heights."""
        return 1.0 if self._way.is_local else self._way.unit_m

    def into(self, xy: Floats, plane: Plane) -> Floats:
        """Places of the layer in a plane of its own, or of another layer.

        Raises:
            BadInput: one of the two has no place on the map, or the plane has no such place.
        """
        if self._way.is_local != (not isinstance(plane, SurveyPlane)):
            raise BadInput(
                "The surface and the layer do not lie in one frame: only one of them has a place on the map. Choose layers "
                "that are both placed, or both in one local grid."
            )
        if not isinstance(plane, SurveyPlane):
            flat = local_plane(self._way).from_crs(xy)
        elif plane.crs is self._way.flat or self._way.flat.equals(plane.crs):
            flat = plane.from_crs(xy)
        else:
            flat = onto_plane(xy, self._way.flat.to_wkt(), plane, "")
        if not np.isfinite(flat).all():
            raise BadInput("The row lies where the layer's CRS has no place. Check the layer's CRS.")
        return np.asarray(flat)

    def place(self, feature: QgsFeature) -> tuple[Floats, Plane]:
        """The place (2,) of a row that is one point, in a plane about it, metres.

        Raises:
            BadInput: it is none, or where the layer's CRS has no place.
        """
        points = list(feature.geometry().vertices())
        if len(points) != 1:
            raise BadInput("The row is no single point. Give each tree one.")
        xy = np.array([[points[0].x(), points[0].y()]])
        plane = self.plane(xy, self._height)
        return plane.from_crs(xy)[0], plane

    def plane(self, xy: Floats, height: float) -> Plane:
        """The plane about a place (1, 2) as stored; places near each other share one.

        Raises:
            BadInput: a place that the CRS does not have.
        """
        if self._flat is not None:
            return self._flat
        degrees = self._way.lonlat(xy)[0]
        if not np.isfinite(degrees).all() or abs(degrees[1]) > POLE or abs(degrees[0]) > MOST_LON:
            raise BadInput("The row lies where the layer's CRS has no place. Check the layer's CRS.")
        lon, lat = (round(float(v) / STEP_DEG) * STEP_DEG for v in degrees)
        key = (lon, lat, round(height))
        if key not in self._planes:
            self._planes[key] = SurveyPlane(self._way.flat, lon, lat, height)
        return self._planes[key]

    def areas(self, features: list[QgsFeature], sigmas: Floats) -> list[PlanArea]:
        """The areas of rows in plan as measuring areas has them, given what a corner of each is worth; the survey's own
        where a row is as the survey drew it, and none where the survey kept it out."""
        if not features:
            return []
        worth = Worth(np.asarray(sigmas, float), np.zeros(len(features)))
        figures = measure_areas(shapes_of(features), self._way, worth, self._height)
        out = []
        for k, feature in enumerate(features):
            if k in figures.findings:
                out.append(PlanArea(Quantity(0.0, 0.0, "m2"), "", tell(figures.findings[k])))
                continue
            area = Quantity(float(figures.area[k]), float(figures.area_sigma[k]), "m2")
            try:
                told = survey_figure(feature, "area_m2", area.value)
            except BadInput as error:
                out.append(PlanArea(area, "", reason(error)))
                continue
            out.append(PlanArea(*told) if told else PlanArea(area))
        return out


@dataclass(frozen=True, eq=False)
class GroundBlock:
    """Some rows of a layer as read; each is taken to the ground when it is asked for."""

    reader: GroundReader
    shapes: Shapes
    heights: Heights

    def row(self, number: int, plane: Plane | None = None, *, zeros_count: bool = False) -> GroundRow:
        """A row's lines or rings, in a plane that is given or one about it; with `zeros_count` heights that are all zero
        are heights.

        Raises:
            BadInput: nothing to read, a geometry of faces, or a place that is none.
        """
        shapes, runs = self.shapes, self.shapes.runs_numbered(number)
        refuse_undrawn(shapes, number)
        first, last = int(shapes.start[runs[0]]), int(shapes.start[runs[-1] + 1])
        height = float(self.heights.mean[number])
        plane = self.reader.plane(shapes.xy[first : first + 1], height) if plane is None else plane
        xy = self.reader.into(shapes.xy[first:last], plane)
        z = shapes.z[first:last] * self.reader.unit_m if zeros_count else self.heights.z[first:last]
        points, is_mid = np.column_stack([xy, z]), shapes.is_mid[first:last]
        ends = (shapes.start[runs[0] : runs[-1] + 2] - first).tolist()
        lines = tuple(draw_line(points[a:b], is_mid[a:b]) for a, b in zip(ends, ends[1:]))
        gap = 0 if zeros_count else _gap(shapes.z[first:last])
        return GroundRow(lines, tuple(shapes.is_hole[runs].tolist()), plane, height, gap)


def refuse_undrawn(shapes: Shapes, number: int) -> None:
    """A row that is neither a line nor an outline.

    Raises:
        BadInput: it is none; the words are those of the measured layers' findings.
    """
    kind, sizes = int(shapes.kind[number]), shapes.sizes[shapes.runs_numbered(number)]
    if kind == ShapeKind.NOTHING:
        raise BadInput("There is no geometry. Draw it, or delete the row.")
    if kind == ShapeKind.LINES and (sizes == 1).any():
        raise BadInput("{count} point makes no line. Add points, or delete the row.", count=1)
    if kind not in (ShapeKind.LINES, ShapeKind.AREAS) or not (sizes > 1).any():
        raise BadInput("The row has no line or outline that can be read. Draw it again.")


def _gap(z: Floats) -> int:
    """The number of the first point without a height, from 1; 0 where all have one, or none has."""
    missing = ~np.isfinite(z)
    return (
        int(np.argmax(missing)) + 1 if missing.any() and np.nan_to_num(z, posinf=0.0, neginf=0.0).any() else 0
    )


def is_area(source: QgsProcessingFeatureSource) -> bool:
    """Whether a layer holds polygons."""
    return bool(QgsWkbTypes.geometryType(source.wkbType()) == QgsWkbTypes.GeometryType.PolygonGeometry)
