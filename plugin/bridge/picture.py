# SPDX-License-Identifier: GPL-2.0-or-later
"""What a picture in the project is worth for picking: the size of its pixels on the ground, its CRS and its date."""

from __future__ import annotations

import re
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from osgeo import gdal
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsPointXY,
    QgsProject,
    QgsRectangle,
)

from ..core.errors import GroundTallyError
from ..core.measure.layer.ground import ground_length
from ..core.place.locate import between
from ..core.place.picks import pick_sigma
from ..core.plane import open_crs
from .sources import definition_of, ground_of
from .text import tr

if TYPE_CHECKING:
    from qgis.core import QgsRasterLayer

WEB_MAP = "pseudo-mercator"
"""In the name of the web map's CRS: its lengths are no lengths on the ground, so no survey is put there unasked."""
WORLD = 4326
"""EPSG code of longitude and latitude on WGS 84."""
SEEN = 0.05
"""Of the map's width: a picture that is narrower cannot be picked from."""
ZONE = 6.0
"""Degrees of longitude of a UTM zone."""
NORTH, SOUTH = 32600, 32700
"""EPSG codes of the UTM zones on WGS 84, less the zone."""
_DATE = re.compile(r"^(\d{4})[:-](\d{2})[:-](\d{2})")
"""As TIFF 6.0 writes a date (DateTime, tag 306), and as ISO 8601 does."""


@dataclass(frozen=True)
class PictureCard:
    """A picture: its name, metres of a pixel on the ground (None: tiles, which have no size of their own), its CRS, the
    day it says it was taken (ISO, or "")."""

    name: str
    pixel: float | None
    crs: str
    date: str

    @property
    def words(self) -> str:
        """It in one line."""
        parts = [
            tr("a pixel is {size} of ground").format(size=_size(self.pixel))
            if self.pixel is not None
            else tr("tiles: a pick is worth a pixel as the map shows it"),
            self.crs,
            tr("taken {date}").format(date=self.date) if self.date else tr("no date"),
        ]
        return "; ".join(filter(None, parts))


def _size(metres: float) -> str:
    return f"{1000.0 * metres:.0f} mm" if metres < 1.0 else f"{metres:.2f} m"


def read_card(layer: QgsRasterLayer) -> PictureCard:
    """What a raster layer says of itself."""
    crs = layer.crs()
    name = crs.authid() or crs.description() or tr("no CRS")
    if layer.providerType() != "gdal":
        return PictureCard(layer.name(), None, name, "")
    middle = layer.extent().center()
    pixel = ground_size(crs, middle, layer.rasterUnitsPerPixelX(), layer.rasterUnitsPerPixelY())
    return PictureCard(layer.name(), pixel, name, _date_of(layer.source()))


def pick_worth(card: PictureCard, shown: float | None, accuracy: float) -> float:
    """One-sigma, each axis, in metres of a point picked where a pixel of the map is `shown` metres on the ground: it
    cannot be told finer than it is drawn, nor than the picture is."""
    return pick_sigma(max(card.pixel or 0.0, shown or 0.0), accuracy)


def _date_of(source: str) -> str:
    """The day that a picture's file names; "" where it names none."""
    path = source.split("|", maxsplit=1)[0]
    if not Path(path).is_file():
        return ""
    try:
        dataset = gdal.Open(path)
    except RuntimeError:  # raised only where the host has switched GDAL's exceptions on
        return ""
    told = "" if dataset is None else dataset.GetMetadataItem("TIFFTAG_DATETIME") or ""
    found = _DATE.match(told)
    return "-".join(found.groups()) if found else ""


def ground_size(crs: QgsCoordinateReferenceSystem, at: QgsPointXY, dx: float, dy: float) -> float | None:
    """Metres on the ground of a step in a CRS at a place, the longer of its two sides; None where the CRS has no
    ground."""
    try:
        way = ground_of(crs)
        sides = [
            ground_length(way, np.array([[at.x(), at.y()], [at.x() + x, at.y() + y]]))
            for x, y in ((dx, 0.0), (0.0, dy))
        ]
    except GroundTallyError:
        return None
    return max(sides) if np.isfinite(sides).all() else None


def view_of(
    layer: QgsRasterLayer, shown: QgsCoordinateReferenceSystem, extent: QgsRectangle
) -> tuple[QgsCoordinateReferenceSystem, QgsRectangle] | None:
    """The CRS and extent in which a picture can be picked from: its own, where the map shows a plane of its own, as a
    survey lies in that is not placed yet, or shows other ground; None where the map is right already."""
    here = layer.extent()
    way = QgsCoordinateTransform(layer.crs(), shown, QgsProject.instance())
    if not way.isValid():
        return layer.crs(), here
    with suppress(QgsCsException):
        here = way.transformBoundingBox(here)
        is_seen = here.intersects(extent) and here.width() > SEEN * extent.width()
        return None if is_seen else (shown, here)
    return layer.crs(), layer.extent()


def crs_of(text: str) -> QgsCoordinateReferenceSystem:
    """The CRS that a control file or a parameter names, by its code or its WKT; none of an empty text."""
    if not text:
        return QgsCoordinateReferenceSystem()
    crs = QgsCoordinateReferenceSystem(text)
    return crs if crs.isValid() else QgsCoordinateReferenceSystem.fromWkt(text)


def pairs_crs(picture: QgsCoordinateReferenceSystem, at: QgsPointXY) -> QgsCoordinateReferenceSystem:
    """The CRS that new pairs are kept in, and with it the survey's: the picture's, unless it is in degrees or the web
    map's; then the UTM zone (WGS 84) of a place in the picture."""
    if picture.isValid() and not picture.isGeographic() and WEB_MAP not in picture.description().lower():
        return picture
    longitude, latitude = moved((at.x(), at.y()), picture, QgsCoordinateReferenceSystem.fromEpsgId(WORLD))
    zone = int((longitude + 180.0) % 360.0 // ZONE) + 1
    return QgsCoordinateReferenceSystem.fromEpsgId((NORTH if latitude >= 0.0 else SOUTH) + zone)


def moved(
    at: tuple[float, float], start: QgsCoordinateReferenceSystem, end: QgsCoordinateReferenceSystem
) -> tuple[float, float]:
    """A place of one CRS in another. Not by the host, which takes a rough way between datums without a word.

    Raises:
        Refused: no way between the two is known, or only a rough one.
        BadCrs: one of them is none.
    """
    if start == end:
        return at
    source, target = (open_crs(definition_of(crs)) for crs in (start, end))
    xy, _ = between(source, target, np.array([at], float))
    return float(xy[0, 0]), float(xy[0, 1])
