# SPDX-License-Identifier: GPL-2.0-or-later
"""The surfaces of a project: which layers hold some, read in the background, laid in one plane, and what they are worth."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsFeatureRequest,
    QgsGeometry,
    QgsLineString,
    QgsMeshLayer,
    QgsProject,
    QgsVectorLayer,
    QgsVectorLayerFeatureSource,
    QgsWkbTypes,
)

from ..core.errors import GroundTallyError
from ..core.ground.section import SectionCutter
from ..core.quantity import COVER_95
from .section_surfaces import LaidSurface
from .sources import ground_of, layer_file, shapes_of
from .surface_table import CORNERS, RING, YES, is_own_table
from .surfaces import into_plane, read_surfaces
from .survey_view import on_earth
from .text import explain, tr

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from qgis.core import QgsFeature, QgsFields, QgsMapLayer

    from ..core.ground.surface import Surface
    from ..core.quantity import Floats
    from .planned import Plane
    from .survey_file import Unit

SURVEYS_TABLE = "surfaces"
"""The survey's own table of surfaces that came in files."""
LARGE = 150_000
"""Triangles beyond which a table is not looked through where the window waits: that takes 0.2 s."""
MEASURED = "area_m2"
"""A column that layers of areas have, and no surface."""


# --- which layers ---


def surface_layers(project: QgsProject) -> list[QgsMapLayer]:
    """The layers of a project that may hold surfaces, by name; told by their columns and their first row."""
    layers = [layer for layer in project.mapLayers().values() if may_hold(layer)]
    return sorted(layers, key=lambda layer: layer.name().casefold())


def may_hold(layer: QgsMapLayer) -> bool:
    """Whether a layer may hold surfaces."""
    if not layer.isValid():
        return False
    if isinstance(layer, QgsMeshLayer):
        return True
    if not isinstance(layer, QgsVectorLayer):
        return False
    if layer.geometryType() != QgsWkbTypes.GeometryType.PolygonGeometry or not QgsWkbTypes.hasZ(
        layer.wkbType()
    ):
        return False
    return is_own_table(layer) or is_surveys_table(layer) or _begins_with_triangle(layer)


def is_surveys_table(layer: QgsVectorLayer) -> bool:
    """Whether it is the table of a survey for surfaces that came in files."""
    told = layer_file(layer) if layer.providerType() == "ogr" else None
    return told is not None and told.table == SURVEYS_TABLE


def _begins_with_triangle(layer: QgsVectorLayer) -> bool:
    if layer.fields().lookupField(MEASURED) >= 0:
        return False
    first = next(layer.getFeatures(QgsFeatureRequest().setLimit(1)), None)
    if first is None or not first.hasGeometry() or QgsWkbTypes.isCurvedType(layer.wkbType()):
        return False
    return bool(shapes_of([first]).sizes[:1] == RING)


# --- reading, where the window does not wait ---


class LayerSnapshot:
    """A vector layer as it is now, with its edits, to be read in another thread: as much of a layer as a reader asks for."""

    def __init__(self, layer: QgsVectorLayer) -> None:
        """Of a layer, where the layer lives."""
        self._source = QgsVectorLayerFeatureSource(layer)
        self._name, self._fields = layer.name(), layer.fields()
        # A plane of its own is taken off layers of the map, for the host finds no way from there.
        crs = layer.crs()
        self._crs = QgsCoordinateReferenceSystem(crs if crs.isValid() else layer.dataProvider().crs())

    def name(self) -> str:
        """The layer's name."""
        return self._name

    def fields(self) -> QgsFields:
        """The layer's columns."""
        return self._fields

    def crs(self) -> QgsCoordinateReferenceSystem:
        """The CRS of its places."""
        return self._crs

    def getFeatures(self, request: QgsFeatureRequest | None = None) -> Iterator[QgsFeature]:  # noqa: N802 - the host's
        """The layer's rows."""
        return iter(self._source.getFeatures(request or QgsFeatureRequest()))


@dataclass(frozen=True)
class SurfaceSource:
    """What is to be read of a layer: its id and name, and what opens it, to be called in any thread."""

    layer: str
    name: str
    open_layer: Callable[[], object]


def surface_source(layer: QgsMapLayer) -> SurfaceSource:
    """What a layer is read by; called where the layer lives."""
    if isinstance(layer, QgsMeshLayer):
        told = layer.source(), layer.name(), layer.providerType()
        crs = QgsCoordinateReferenceSystem(layer.crs())
        return SurfaceSource(layer.id(), layer.name(), lambda: _open_mesh(told, crs))
    snapshot = LayerSnapshot(layer)
    return SurfaceSource(layer.id(), layer.name(), lambda: snapshot)


def _open_mesh(told: tuple[str, str, str], crs: QgsCoordinateReferenceSystem) -> QgsMeshLayer:
    """A mesh opened once more, in the CRS that its layer was given: most of its files name none."""
    layer = QgsMeshLayer(*told)
    layer.setCrs(crs)
    return layer


@dataclass(frozen=True, eq=False)
class FoundSurface:
    """A surface of the project, or why a layer holds none.

    Attributes:
        layer: id of its layer. name: of its layer, and its own where the layer holds several.
        surface: in the plane; None where it could not be read. plane, crs: that all that were read together are in.
        is_alone: whether its layer holds no other. why: it could not be read.
    """

    layer: str
    name: str
    surface: Surface | None = None
    plane: Plane | None = None
    crs: QgsCoordinateReferenceSystem | None = None
    is_alone: bool = True
    why: str = ""

    @cached_property
    def cutter(self) -> SectionCutter:
        """Made ready to be cut."""
        assert self.surface is not None  # noqa: S101 - asked of surfaces that were read
        return SectionCutter(self.surface)

    @property
    def middle_height(self) -> float:
        """The middle of its heights, to the decimetre; metres."""
        z = (
            self.surface.points[:, 2]
            if self.surface is not None and len(self.surface.points)
            else np.zeros(1)
        )
        return round(float(0.5 * (z.min() + z.max())), 1)

    @property
    def map_crs(self) -> QgsCoordinateReferenceSystem:
        """The CRS of its places on the map; none for a plane of its own."""
        return on_earth(self.crs or QgsCoordinateReferenceSystem())

    def figures(self, unit: Unit) -> str:
        """How large it is and how well it is known, in words."""
        if self.surface is None:
            return self.why
        return ". ".join((_size_words(self.surface, unit), *worth_words(self.surface, unit))) + "."


def read_found(
    sources: Sequence[SurfaceSource], is_stopped: Callable[[], bool] = lambda: False
) -> list[FoundSurface]:
    """The surfaces of layers in the plane of the first that can be read, ready to be cut; others say why not."""
    found: list[FoundSurface] = []
    for source in sources:
        if is_stopped():
            break
        try:
            found += _read(source, next((one for one in found if one.surface is not None), None))
        except GroundTallyError as error:
            found.append(FoundSurface(source.layer, source.name, why=explain(error)))
    return found


def _read(source: SurfaceSource, first: FoundSurface | None) -> list[FoundSurface]:
    opened = read_surfaces([source.open_layer()], math.nan)
    out = []
    for name, surface in zip(opened.names, opened.surfaces):
        told = source.name if len(opened.names) == 1 else f"{source.name}: {name}"
        one = FoundSurface(source.layer, told, surface, opened.plane, opened.crs, len(opened.names) == 1)
        one = _beside(one, first) if first is not None else one
        _ = one.cutter  # made here, where nobody waits
        out.append(one)
    return out


def _beside(one: FoundSurface, first: FoundSurface) -> FoundSurface:
    """A surface in the plane of another.

    Raises:
        BadInput: only one of the two has a place on the map. Refused: no good way between their CRSs.
    """
    if one.surface is None or one.plane is None or first.plane is None:
        return one
    way = ground_of(one.crs or QgsCoordinateReferenceSystem())
    points = one.surface.points
    xy = into_plane(one.plane.to_crs(points[:, :2]), way, first.plane, one.name)
    surface = replace(one.surface, points=np.column_stack([xy, points[:, 2]]))
    return replace(one, surface=surface, plane=first.plane, crs=first.crs)


def _size_words(surface: Surface, unit: Unit) -> str:
    words = tr("{points} points, {triangles} triangles, {area:.1f} {unit}²")
    area = float(surface.areas.sum()) / unit.metres**2
    return words.format(
        points=len(surface.points), triangles=len(surface.triangles), area=area, unit=unit.sign
    )


def worth_words(surface: Surface, unit: Unit) -> tuple[str, ...]:
    """What a surface's heights are worth at its points and between them, and how much of it is weak."""
    square = float(np.mean(surface.total_sigma**2)) if len(surface.sigma) else math.nan
    at = (
        tr("Its layer does not say what a height is worth")
        if math.isnan(square)
        else tr("A point's height ±{half:.3f} {unit} (95 %)").format(
            half=COVER_95 * unit.of(math.sqrt(square)), unit=unit.sign
        )
    )
    return at, _between_words(surface, unit), weak_words(surface)


def _between_words(surface: Surface, unit: Unit) -> str:
    """What the ground between the points may be off the triangles."""
    if surface.rough > 0.0:
        half = COVER_95 * unit.of(surface.rough)
        words = tr("The ground between the points ±{half:.3f} {unit} besides")
        return words.format(half=half, unit=unit.sign)
    if surface.reach > 0.0:
        return tr("The ground between the points: no more than that was found")
    return tr("The ground between the points: not known")


def weak_words(surface: Surface) -> str:
    """The share of a surface that no one should lean on."""
    area = float(surface.areas.sum())
    share = float(surface.areas[surface.is_weak].sum()) / area if area > 0.0 else 0.0
    return tr("Weak: {share:.0f} % of its area").format(share=100.0 * share)


# --- between them and the map ---


@dataclass(frozen=True, eq=False)
class SurfaceWay:
    """Between the places of layers in a CRS and the plane of surfaces that were read together."""

    plane: Plane
    crs: QgsCoordinateReferenceSystem
    layers: QgsCoordinateReferenceSystem

    def to_plane(self, xy: Floats) -> Floats:
        """(n, 2) places in the layers' CRS, in the plane."""
        return np.asarray(self.plane.from_crs(_moved(xy, self.layers, self.crs)))

    def to_map(self, xy: Floats) -> Floats:
        """(n, 2) places in the plane, in the layers' CRS."""
        return _moved(np.asarray(self.plane.to_crs(xy)), self.crs, self.layers) if len(xy) else xy


def _moved(xy: Floats, start: QgsCoordinateReferenceSystem, end: QgsCoordinateReferenceSystem) -> Floats:
    if not (start.isValid() and end.isValid()) or start == end or on_earth(start) != start:
        return np.asarray(xy, float)
    line = QgsGeometry(QgsLineString(xy[:, 0].tolist(), xy[:, 1].tolist()))
    line.transform(QgsCoordinateTransform(start, end, QgsProject.instance()))
    return np.array([(v.x(), v.y()) for v in line.vertices()])


def surface_way(found: FoundSurface, layers: QgsCoordinateReferenceSystem | None = None) -> SurfaceWay:
    """The way from a CRS of layers, else from the surfaces' own."""
    assert found.plane is not None  # noqa: S101 - asked of surfaces that were read
    assert found.crs is not None  # noqa: S101
    return SurfaceWay(found.plane, found.crs, found.crs if layers is None else layers)


def laid(found: FoundSurface, way: SurfaceWay) -> LaidSurface:
    """A surface to cut lines through that are drawn in a CRS of layers."""
    assert found.surface is not None  # noqa: S101 - asked of surfaces that were read
    one = LaidSurface(found.name, found.surface, way.to_plane)
    one.__dict__["cutter"] = found.cutter  # made when it was read
    return one


# --- what the desk says ---


@dataclass(frozen=True)
class ToldSurface:
    """A surface by what its table says at once: triangles, weak ones, the largest one-sigma of a point's height, m."""

    name: str
    triangles: int
    weak: int
    sigma: float


def told_surfaces(project: QgsProject) -> list[ToldSurface]:
    """The surfaces of a project without opening them."""
    return [_told(layer) for layer in surface_layers(project)]


def _told(layer: QgsMapLayer) -> ToldSurface:
    if not isinstance(layer, QgsVectorLayer) or not is_own_table(layer) or layer.featureCount() > LARGE:
        return ToldSurface(layer.name(), 0, 0, math.nan)
    fields = layer.fields()
    most = [layer.maximumValue(fields.lookupField(f"{corner}_z_m_sigma")) for corner in CORNERS]
    wanted = QgsFeatureRequest().setFilterExpression(f"\"is_weak\" = '{YES}'")
    wanted.setFlags(QgsFeatureRequest.Flag.NoGeometry).setSubsetOfAttributes([])
    weak = sum(1 for _ in layer.getFeatures(wanted))
    known = [float(value) for value in most if isinstance(value, (int, float))]
    return ToldSurface(layer.name(), layer.featureCount(), weak, max(known, default=math.nan))
