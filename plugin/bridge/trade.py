# SPDX-License-Identifier: GPL-2.0-or-later
"""Rows of any layer as exact lines in planes of true metres, for what the trade takes off them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeatureRequest, QgsWkbTypes

from ..core.errors import BadInput, GroundTallyError
from ..core.measure.layer.areas import Worth, measure_areas
from ..core.measure.layer.fits import STEP_DEG, FlatPlane
from ..core.measure.layer.heights import heights_of
from ..core.measure.layer.shapes import Kind as ShapeKind
from ..core.place.frames import onto_plane
from ..core.plane import SurveyPlane
from ..core.quantity import Quantity
from ..core.trade.lines import Line, draw_line
from .compat import IGNORE_INVALID
from .drawn import text_of
from .fields import Kind
from .measured import ASSUMED, tell
from .sources import shapes_of
from .surface_table import local_plane
from .text import explain, tr

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ..core.measure.layer.ground import GroundWay
    from ..core.measure.layer.heights import Heights
    from ..core.measure.layer.shapes import Shapes
    from ..core.quantity import Floats
    from .planned import Plane

ROW = "GE-07"
"""The code of a row of a layer that cannot be measured."""
POLE = 90.0
MOST_LON = 540.0
"""Degrees beyond which a place is none."""
PARTNER = {"foot": "top", "left": "right"}
"""Parts of one thing with two edges: that which carries the figures, and the other."""
SAME = 2e-5
"""Of a length: as near as this to the survey's own, the line is as the survey drew it."""
SAME_DRAWN = 1e-3
"""The same where the survey's line stands in chords in the layer and is exact in its column `shape`."""


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


@dataclass(frozen=True)
class Told:
    """A column and what fills it, given a result."""

    name: str
    kind: Kind
    of: Callable[[object], object]


def figure(name: str, attribute: str) -> tuple[Told, Told]:
    """A quantity's column and that of its one-sigma."""
    return (
        Told(name, Kind.REAL, lambda result: _part(result, attribute, "value")),
        Told(f"{name}_sigma", Kind.REAL, lambda result: _part(result, attribute, "sigma")),
    )


def plain(name: str, attribute: str, kind: Kind = Kind.REAL) -> Told:
    """A column of a bare attribute; dots lead into parts of it."""
    return Told(name, kind, lambda result: _attribute(result, attribute))


def _part(result: object, attribute: str, part: str) -> object:
    quantity = _attribute(result, attribute)
    return None if quantity is None else getattr(quantity, part)


def _attribute(result: object, path: str) -> object:
    for name in path.split("."):
        if result is None:
            return None
        result = result[int(name)] if isinstance(result, tuple) else getattr(result, name)
    return result


def columns_of(told: Sequence[Told]) -> list[tuple[str, Kind]]:
    """The columns of some figures, and the words that go with them."""
    words = [(name, Kind.TEXT) for name in ("method", "sigma_from", "finding")]
    return [*((one.name, one.kind) for one in told), *words]


def values_of(told: Sequence[Told], result: object, sigma_from: str, finding: str = "") -> list[object]:
    """A row's values, from a result with a `method`."""
    figures = [one.of(result) for one in told]
    return [*figures, _attribute(result, "method"), sigma_from, finding or None]


def unasked(told: Sequence[Told], values: list[object], names: Sequence[str]) -> list[object]:
    """A row's values without those of columns that nobody asked for, nor their one-sigmas: no figure is not 0."""
    out = {*names, *(f"{name}_sigma" for name in names)}
    kept = [None if one.name in out else value for one, value in zip(told, values)]
    return [*kept, *values[len(told) :]]


def refused(told: Sequence[Told], why: str) -> list[object]:
    """A row without figures."""
    return [*([None] * len(told)), None, None, why]


def counted(told: Sequence[Told], words: str) -> list[object]:
    """A row whose figures stand in another, and which; nobody has to do anything about it."""
    return [*([None] * len(told)), words, None, None]


def reason(error: GroundTallyError) -> str:
    """An error of one row as the text of its column `finding`."""
    return f"{ROW}: {explain(error)}"


class Partners:
    """The second edges of things that were walked by two: top over foot, right beside left, of one feature and site."""

    def __init__(
        self,
        source: QgsProcessingFeatureSource,
        feature: str | None,
        part: str | None,
        pairs: Mapping[str, str] = PARTNER,
    ) -> None:
        """The layer, its columns of features' names and of parts (without them nothing has a partner), and which parts
        belong together: that which carries the figures, and the other."""
        self._pairs, self._mains = pairs, {other: main for main, other in pairs.items()}
        names = [field.name() for field in source.fields()]
        self._feature = feature or ("feature" if "feature" in names else None)
        self._part = part or ("part" if "part" in names else None)
        self._site = "site" if "site" in names else None
        self._rows: dict[tuple[str, str, str], list[QgsFeature]] = {}
        self._numbers: dict[int, int] = {}
        if self._feature and self._part:
            for number, row in enumerate(source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID), 1):
                if self.part(row) in (*self._pairs, *self._mains):
                    self._numbers[row.id()] = number
                    self._rows.setdefault(self._key(row, self.part(row)), []).append(row)

    def part(self, row: QgsFeature) -> str:
        """A row's part, in small letters; "" where there is none."""
        return text_of(row.attribute(self._part)).lower() if self._part and self._feature else ""

    def name(self, row: QgsFeature) -> str:
        """A row's feature; "" where there is none."""
        return text_of(row.attribute(self._feature)) if self._feature else ""

    def _key(self, row: QgsFeature, part: str) -> tuple[str, str, str]:
        site = text_of(row.attribute(self._site)) if self._site else ""
        return site, self.name(row), part

    def other(self, row: QgsFeature) -> QgsFeature | None:
        """The other edge of a row's thing; None where it was not walked, or the row has no such part.

        Raises:
            BadInput: two rows are the same edge of one thing.
        """
        part = self.part(row)
        wanted = self._pairs.get(part) or self._mains.get(part)
        if wanted is None:
            return None
        for name in (part, wanted):
            if len(self._rows.get(self._key(row, name), [])) > 1:
                raise BadInput(
                    "Two rows are the {part} of {feature}. Give each thing a name of its own, or join the rows.",
                    part=name,
                    feature=self.name(row),
                )
        found = self._rows.get(self._key(row, wanted), [])
        return found[0] if found else None

    def is_other(self, row: QgsFeature) -> bool:
        """Whether a row is an edge whose figures stand in the row of the other one."""
        return self.part(row) in self._mains and self.other(row) is not None

    def counted_with(self, row: QgsFeature) -> str:
        """Of such a row, for its column method: which row has its figures, counted from 1 in what was given."""
        other = self.other(row)
        assert other is not None  # noqa: S101 - it is asked of rows whose other edge is there
        words = tr("counted with {feature}, {part} (row {row})")
        return words.format(feature=self.name(other), part=self.part(other), row=self._numbers[other.id()])


def refuse_kept_out(row: QgsFeature, name: str) -> bool:
    """Whether a row is one of a survey's, by the column's name of its main figure.

    Raises:
        BadInput: the survey kept the row's figures out.
    """
    names = {field.name() for field in row.fields()}
    if not {name, f"{name}_sigma", "sigma_from", "finding", "method", "walk", "feature"} <= names:
        return False
    codes = text_of(row.attribute("finding"))
    if codes and not isinstance(row.attribute(name), (int, float)):
        raise BadInput(
            "The survey kept this row's figures out ({codes}). Answer its findings in the decisions file and run the "
            "survey again.",
            codes=codes,
        )
    return True


def survey_figure(row: QgsFeature, name: str, measured: float) -> tuple[Quantity, str] | None:
    """The survey's own figure of a row by its column's name, and where its uncertainty comes from, where the row is as the
    survey drew it; None where it is no such row.

    Raises:
        BadInput: the survey kept the figure out.
    """
    if not refuse_kept_out(row, name):
        return None
    told, sigma = row.attribute(name), row.attribute(f"{name}_sigma")
    if not isinstance(told, (int, float)) or not isinstance(sigma, (int, float)):
        return None
    has_shape = row.fields().lookupField("shape") >= 0 and text_of(row.attribute("shape"))
    if abs(told - measured) > (SAME_DRAWN if has_shape else SAME) * measured:
        return None
    unit = "m2" if name.endswith("_m2") else "m"
    return Quantity(float(told), float(sigma), unit), text_of(row.attribute("sigma_from")) or ASSUMED


def is_area(source: QgsProcessingFeatureSource) -> bool:
    """Whether a layer holds polygons."""
    return bool(QgsWkbTypes.geometryType(source.wkbType()) == QgsWkbTypes.GeometryType.PolygonGeometry)
