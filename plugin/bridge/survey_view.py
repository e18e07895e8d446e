# SPDX-License-Identifier: GPL-2.0-or-later
"""How a project shows a survey: its CRS, its units, its first view."""

from __future__ import annotations

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsMapLayer,
    QgsProject,
    QgsRectangle,
    QgsReferencedRectangle,
    QgsUnitTypes,
)

from ..core.errors import BadCrs
from .settings import ShownUnit, metres_in, read_shown_unit

MARGIN = 1.2
"""How much wider than the survey the first view is: room for the signs and labels of its outermost marks."""
UNIT_NAME, UNIT_LENGTH = "survey_unit", "survey_unit_m"
"""Project variables that the labels show lengths by: the unit's name and its length in metres."""
HOST_UNITS = {
    ShownUnit.METRE: QgsUnitTypes.DistanceUnit.DistanceMeters,
    ShownUnit.FOOT: QgsUnitTypes.DistanceUnit.DistanceFeet,
    ShownUnit.US_FOOT: QgsUnitTypes.DistanceUnit.DistanceFeet,
}
"""What the host measures in where the user has set a unit; it knows one foot."""
UNIT_SIGNS = {"US survey foot": "US ft"}
"""Signs of units that the host does not tell apart: on paper the two feet must not be taken for one another."""


def on_earth(crs: QgsCoordinateReferenceSystem) -> QgsCoordinateReferenceSystem:
    """A CRS, or none in the place of a plane of its own: the host knows no way from there to any map, and says so in red
    at every drawing; without a CRS it draws what is there."""
    if not crs.isValid():
        return crs
    from .sources import ground_of

    try:
        is_local = ground_of(crs).is_local
    except BadCrs:
        is_local = False
    return QgsCoordinateReferenceSystem() if is_local else crs


def set_view(project: QgsProject, layers: list[QgsMapLayer], crs: QgsCoordinateReferenceSystem) -> None:
    """A survey's CRS, and a first view that shows all of its layers."""
    spatial = [layer for layer in layers if layer.isSpatial()]
    extents = [layer.extent() for layer in spatial if layer.featureCount()]
    extent = extents[0] if extents else QgsRectangle()
    for other in extents[1:]:
        extent.combineExtentWith(other)
    project.setCrs(on_earth(crs))
    _set_units(project, crs)
    if extent.width() > 0 or extent.height() > 0:
        extent.scale(MARGIN)
        project.viewSettings().setDefaultViewExtent(QgsReferencedRectangle(extent, on_earth(crs)))


def _set_units(project: QgsProject, crs: QgsCoordinateReferenceSystem) -> None:
    """Labels in the CRS's own length unit, or the one that the user has set, by two project variables; the stored
    figures stay metres.

    The factor comes from the CRS's definition: the host takes a US survey foot for an international one.
    """
    shown = read_shown_unit()
    unit = HOST_UNITS.get(shown, crs.mapUnits())
    metres, name = 1.0, QgsUnitTypes.toAbbreviatedString(unit) or "m"
    told = metres_in(shown)
    if told is not None:
        metres, name = told, shown.value
    elif crs.isValid() and crs.mapUnits() != QgsUnitTypes.DistanceUnit.DistanceMeters:
        import pyproj

        definition = crs.toWkt(QgsCoordinateReferenceSystem.WktVariant.WKT_PREFERRED)
        axis = pyproj.CRS.from_wkt(definition).axis_info[0]
        metres, name = axis.unit_conversion_factor, UNIT_SIGNS.get(axis.unit_name, name)
    if crs.isValid() and unit != QgsUnitTypes.DistanceUnit.DistanceMeters:
        project.setAreaUnits(QgsUnitTypes.distanceToAreaUnit(unit))
    project.setDistanceUnits(unit)
    project.setCustomVariables({**project.customVariables(), UNIT_NAME: name, UNIT_LENGTH: metres})
