# SPDX-License-Identifier: GPL-2.0-or-later
"""Rows of a layer laid over a surface, and what a survey said of a row's fall."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsMeshLayer, QgsVectorLayer

from ..core.errors import BadInput
from ..core.ground.outline import chorded_ring
from ..core.measure.layer.areas import Worth, measure_areas
from ..core.measure.layer.crossings import curve_of
from ..core.quantity import Quantity
from ..core.segments import chorded
from .gradients import SurfaceGradients, line_by_own
from .measured import ASSUMED, tell
from .sources import ground_of, shapes_of
from .surfaces import into_plane, read_surfaces
from .survey_rows import refuse_kept_out, survey_figure
from .survey_worth import keeps_heights, refuse_other_unit, seat_lengths, seat_outline
from .trade import refuse_undrawn

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsFeature, QgsMapLayer, QgsProcessingFeatureSource

    from ..core.ground.crossfall import Crossfalls
    from ..core.ground.slope_bands import SlopeBands
    from ..core.measure.layer.shapes import Shapes
    from ..core.quantity import Floats
    from ..core.segments import Curve
    from ..core.trade.lines import Line
    from ..core.trade.worth import JointWorth, PointWorth
    from .gradients import GradientRow
    from .surfaces import OpenedSurfaces
    from .trade import GroundReader, GroundRow

BY_SURVEY = "fall and bearing as the survey has them from its stations, all else by the "
EDITED = ", no more as the survey drew it"
"""Told in the method of a survey's row."""
SAME_FALL, SIGMAS = 1e-4, 3.0
"""A ratio, and so many sigmas of the survey's fall: planes through the stations and through what is drawn of them differ by
less, for both go through the same errors."""
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
            ground_of(source.sourceCrs(), source.sourceName()),
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
        refuse_undrawn(shapes, 0)
        runs = [int(k) for k in shapes.runs_numbered(0) if shapes.sizes[k] > 1]
        xy = into_plane(shapes.xy, self._way, self._plane, self._name)
        if not np.isfinite(xy).all():
            raise BadInput("The row lies where the layer's CRS has no place. Check the layer's CRS.")
        return [curve_of(shapes, xy, k) for k in runs]


def gradient_of_line(row: QgsFeature, ground: GroundRow, worth: PointWorth) -> GradientRow:
    """A line's gradient by its own points: with what they are worth together where it is a survey's as the survey drew it.

    Args:
        row: of any layer.
        ground: the row as it was read.
        worth: of points of which nobody says it.
    Raises:
        BadInput: it has no heights, the survey kept its figures out, or they are read in a unit that they are not in.
    """
    refuse_other_unit(row, [ground.line])
    seated = seat_lengths([row], [ground.line])
    if seated is None:
        told = line_by_own(ground.line, ground.plane, worth)
        return replace(told, method=told.method + EDITED) if keeps_heights(row) else told
    told = line_by_own(seated.lines[0], ground.plane, seated.worth)
    return replace(told, sigma_from=seated.sigma_from)


def take_survey_fall(
    told: GradientRow, row: QgsFeature, reader: GroundReader, ground: GroundRow
) -> GradientRow:
    """An area's figures with the survey's own fall and bearing in the place of those of its outline, where the row is as the
    survey drew it: the layer's geometry has no heights of stations passed on arcs, so that the survey's are the better ones.
    A survey's row that was edited since keeps the figures of its outline, and `method` says so.

    Args:
        told: by its own points.
        row: of any layer.
        reader: of its layer.
        ground: the row as it was read.
    Raises:
        BadInput: the survey kept the figure out, or the row's heights are read in a unit that they are not in.
    """
    if not refuse_kept_out(row, "fall_ratio"):
        return told
    size, sigma = (_number(row, name) for name in ("fall_ratio", "fall_ratio_sigma"))
    (area,) = reader.areas([row], np.zeros(1))
    if size is None or sigma is None or area.why:
        return told
    fall, bearing = Quantity(size, sigma, "ratio"), _survey_bearing(row)
    same = survey_figure(row, "area_m2", area.area.value)
    if same is None or not _is_as_drawn(row, ground, told, (fall, bearing)):
        return replace(told, method=told.method + EDITED)
    return replace(told, fall=fall, bearing=bearing, method=BY_SURVEY + told.method, sigma_from=same[1])


def _survey_bearing(row: QgsFeature) -> Quantity | None:
    angle, worth = (_number(row, name) for name in ("fall_bearing_deg", "fall_bearing_deg_sigma"))
    return None if angle is None else Quantity(angle, float("nan") if worth is None else worth, "deg")


def _is_as_drawn(
    row: QgsFeature, ground: GroundRow, told: GradientRow, survey: tuple[Quantity, Quantity | None]
) -> bool:
    """Whether each vertex has the place and the height that the survey gave it; of a row that does not keep them, whether the
    plane through its points is the survey's but for what that is worth."""
    if keeps_heights(row):
        return seat_outline(row, ground.rings) is not None
    if told.bearing is None or survey[1] is None:
        off = told.fall.value - survey[0].value
    else:
        here, there = (
            size.value * np.exp(1j * np.radians(way.value))
            for size, way in ((told.fall, told.bearing), (survey[0], survey[1]))
        )
        off = float(np.abs(here - there))
    return abs(off) <= SAME_FALL + SIGMAS * survey[0].sigma


def _number(row: QgsFeature, name: str) -> float | None:
    if row.fields().lookupField(name) < 0:
        return None
    value = row.attribute(name)
    return float(value) if isinstance(value, (int, float)) else None
