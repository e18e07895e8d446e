# SPDX-License-Identifier: GPL-2.0-or-later
"""Rows of a layer laid over a surface, and what a survey said of a row's fall."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsMeshLayer, QgsVectorLayer

from ..core.errors import BadInput
from ..core.ground.outline import chorded_ring
from ..core.measure.layer.areas import Worth, measure_areas
from ..core.measure.layer.crossings import curve_of
from ..core.quantity import Quantity
from ..core.segments import chorded
from .gradients import SurfaceGradients
from .measured import ASSUMED, tell
from .sources import ground_of, shapes_of
from .surfaces import into_plane, read_surfaces
from .trade import refuse_kept_out, survey_figure

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsFeature, QgsMapLayer, QgsProcessingFeatureSource

    from ..core.ground.crossfall import Crossfalls
    from ..core.ground.slope_bands import SlopeBands
    from ..core.measure.layer.shapes import Shapes
    from ..core.quantity import Floats
    from ..core.segments import Curve
    from ..core.trade.lines import Line
    from ..core.trade.worth import JointWorth
    from .gradients import GradientRow
    from .surfaces import OpenedSurfaces
    from .trade import GroundReader

OF_SURFACE = "surface"
"""`sigma_from` of what rests on a surface that says what its points are worth."""


def open_surface(layer: QgsMapLayer, sigma: float, height: float | None) -> OpenedSurfaces:
    """The one surface of a layer.

    Args:
        layer: triangles with heights, or a mesh.
        sigma: one-sigma of its heights where it does not say it, metres.
        height: of the ground above the ellipsoid, metres; None: its mean height.
    Raises:
        BadInput: it holds none, or several.
    """
    if not isinstance(layer, (QgsVectorLayer, QgsMeshLayer)):
        raise BadInput(
            "{layer} holds no triangles. Choose a layer of triangles with heights, or a mesh, as a surface.",
            layer=layer.name(),
        )
    opened = read_surfaces([layer], sigma, height)
    if len(opened.surfaces) != 1:
        raise BadInput(
            "The layer holds {count} surfaces: {names}. Filter it to the one that is meant.",
            count=len(opened.surfaces),
            names=", ".join(opened.names),
        )
    return opened


def surface_sigma_from(opened: OpenedSurfaces, sigma: float, number: int = 0) -> str:
    """Where a surface's uncertainty comes from: one that says nothing has the stated sigma at every point."""
    surface = opened.surfaces[number]
    return OF_SURFACE if bool((surface.sigma != sigma).any()) or surface.rough > 0.0 else ASSUMED


class RowReader:
    """Rows of one layer, laid in the plane of a surface and measured over it."""

    def __init__(
        self, source: QgsProcessingFeatureSource, opened: OpenedSurfaces, sigma: float = 0.0
    ) -> None:
        """The layer, the surface, and the sigma that was stated for it in metres."""
        self._way, self._name, self._plane = (
            ground_of(source.sourceCrs()),
            source.sourceName(),
            opened.plane,
        )
        self._over = SurfaceGradients(
            opened.surfaces[0], opened.names[0], opened.plane, surface_sigma_from(opened, sigma)
        )

    def area(self, feature: QgsFeature, bearing: float | None) -> GradientRow:
        """The fall of an area; along and across a bearing, degrees clockwise from grid north.

        Raises:
            BadInput: its outline cannot be measured, or does not lie on the surface.
        """
        none = np.zeros(1)
        shapes = shapes_of([feature])
        findings = measure_areas(shapes, self._way, Worth(none, none)).findings
        if findings:
            raise BadInput("{why}", why=tell(findings[0]))
        return self._over.area([chorded_ring(curve) for curve in self._curves(shapes)], bearing)

    def bands(self, feature: QgsFeature, bounds: Sequence[float]) -> SlopeBands:
        """An area that has a fall, by bands of slope.

        Raises:
            BadInput: it does not lie on the surface, or the bounds are none.
        """
        return self._over.bands([chorded_ring(curve) for curve in self._curves(shapes_of([feature]))], bounds)

    def line(self, feature: QgsFeature, width: float = 0.0) -> GradientRow:
        """The gradient of a line of one part, with its crossfall across a width in metres (0: of the triangles).

        Raises:
            BadInput: it has none, or several, or leaves the surface.
        """
        return self._over.line(self._line(feature), width)

    def ways(self, feature: QgsFeature, width: float = 0.0) -> Crossfalls:
        """The crossfalls of a line of one part alone.

        Raises:
            BadInput: it has none, or several, or no ground lies under it.
        """
        return self._over.ways(self._line(feature), width)

    def laid(self, feature: QgsFeature) -> tuple[Line, JointWorth]:
        """A line of one part laid on the surface, and what its heights are worth there.

        Raises:
            BadInput: it has none, or several, or leaves the surface.
        """
        return self._over.laid(self._line(feature))

    def _line(self, feature: QgsFeature) -> Floats:
        curves = self._curves(shapes_of([feature]))
        if len(curves) != 1:
            raise BadInput(
                "The row has {count} lines. Split it into rows of one part each.", count=len(curves)
            )
        return np.asarray(chorded(curves[0])[:, :2])

    def _curves(self, shapes: Shapes) -> list[Curve]:
        """The runs of one row in the surface's plane."""
        runs = [int(k) for k in shapes.runs_numbered(0) if shapes.sizes[k] > 1]
        if not runs:
            raise BadInput("The row has no line or outline that can be read. Draw it again.")
        xy = into_plane(shapes.xy, self._way, self._plane, self._name)
        if not np.isfinite(xy).all():
            raise BadInput("The row lies where the layer's CRS has no place. Check the layer's CRS.")
        return [curve_of(shapes, xy, k) for k in runs]


def survey_fall(row: QgsFeature, reader: GroundReader) -> tuple[Quantity, Quantity | None, str] | None:
    """The survey's own fall of an area and its bearing, and where their uncertainty comes from, where the row is in plan as
    the survey drew it; None where it is no such row. The layer's geometry has no heights of stations passed on arcs, so that
    the survey's figure is the better one.

    Args:
        row: of any layer.
        reader: of its layer.
    Raises:
        BadInput: the survey kept the figure out.
    """
    if not refuse_kept_out(row, "fall_ratio"):
        return None
    told = [_number(row, name) for name in ("fall_ratio", "fall_ratio_sigma")]
    (area,) = reader.areas([row], np.zeros(1))
    if told[0] is None or told[1] is None or area.why:
        return None
    same = survey_figure(row, "area_m2", area.area.value)
    if same is None:
        return None
    angle, worth = (_number(row, name) for name in ("fall_bearing_deg", "fall_bearing_deg_sigma"))
    bearing = None if angle is None else Quantity(angle, float("nan") if worth is None else worth, "deg")
    return Quantity(told[0], told[1], "ratio"), bearing, same[1]


def _number(row: QgsFeature, name: str) -> float | None:
    if row.fields().lookupField(name) < 0:
        return None
    value = row.attribute(name)
    return float(value) if isinstance(value, (int, float)) else None
