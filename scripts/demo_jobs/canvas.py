# SPDX-License-Identifier: GPL-2.0-or-later
"""A picture from straight above, painted from true geometry: every pixel knows its place in the site's axes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from scipy.ndimage import gaussian_filter

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from .geometry import Point
    from .site import Site

FINE = 2
"""Samples a pixel each way; they are averaged, so edges come out soft."""
JPEG_QUALITY = 82
TEXTURE_SEED = 7
Mask = np.ndarray
Colour = tuple[float, float, float]


class Canvas:
    """The picture while it is painted.

    Args:
        site: where it lies; the site's own picture shift is built in.
        corners: of the part of the site to show, in its axes.
        pixel: size of a pixel in the map CRS's unit.

    Attributes:
        x, y: (rows, columns) place of each sample in the site's axes; rgb: its colour, 0 to 1.
    """

    def __init__(self, site: Site, corners: Sequence[Point], pixel: float) -> None:
        """Lay the samples out, north up."""
        self.site, self.pixel = site, pixel
        east, north = (np.array(v) for v in zip(*(site.to_map(*c) for c in corners)))
        self.west, self.north = math.floor(east.min()), math.ceil(north.max())
        columns = round((math.ceil(east.max()) - self.west) / pixel) * FINE
        rows = round((self.north - math.floor(north.min())) / pixel) * FINE
        step = pixel / FINE
        e = self.west + (np.arange(columns) + 0.5) * step - site.shift[0] - site.anchor[0]
        n = self.north - (np.arange(rows) + 0.5) * step - site.shift[1] - site.anchor[1]
        turn = math.radians(site.turn_deg)
        e, n = e[None, :] / site.scale, n[:, None] / site.scale
        self.x = (math.cos(turn) * e + math.sin(turn) * n + site.marks["A"][0]).astype(np.float32)
        self.y = (-math.sin(turn) * e + math.cos(turn) * n + site.marks["A"][1]).astype(np.float32)
        self.rgb = np.zeros((rows, columns, 3), dtype=np.float32)
        self._rng = np.random.default_rng(TEXTURE_SEED)
        self._table = self._rng.standard_normal(8191).astype(np.float32)
        self.grain = self.noise(0.6)

    def noise(self, size: float) -> np.ndarray:
        """Random texture of mean 0 and standard deviation 1; `size` in pixels."""
        coarse = max(1, int(size))
        shape = tuple(-(-n // coarse) + 1 for n in self.x.shape)
        rough = gaussian_filter(
            self._rng.standard_normal(shape).astype(np.float32), size * FINE / coarse / 2.0
        )
        full = np.kron(rough, np.ones((coarse, coarse), np.float32)) if coarse > 1 else rough
        full = gaussian_filter(full, coarse / 2.0) if coarse > 1 else full
        full = full[: self.x.shape[0], : self.x.shape[1]]
        return full / full.std()

    def units(self, x: np.ndarray, y: np.ndarray, long: float, wide: float) -> tuple[np.ndarray, np.ndarray]:
        """Units laid in half bond: a random number for each, and the distance of a sample to its joint."""
        row = np.floor(y / wide)
        shifted = x + (row % 2.0) * long / 2.0
        number = np.floor(shifted / long)
        index = (number.astype(np.int64) * 613 + row.astype(np.int64) * 2791) % len(self._table)
        along, across = shifted - number * long, y - row * wide
        joint = np.minimum(np.minimum(along, long - along), np.minimum(across, wide - across))
        return self._table[index], joint

    def paint(
        self, mask: Mask, colour: Colour, texture: np.ndarray | float = 0.0, grain: float = 0.03
    ) -> None:
        """Cover what lies under a mask; `texture` is added to the brightness as a part of it."""
        bright = np.broadcast_to(1.0 + np.asarray(texture) + grain * self.grain, mask.shape)[mask]
        self.rgb[mask] = np.array(colour, np.float32) * bright[:, None]

    def shade(self, mask: Mask, share: float | np.ndarray) -> None:
        """Darken (below 1) or brighten what lies under a mask."""
        factor = np.broadcast_to(share, mask.shape)[mask]
        self.rgb[mask] *= factor[:, None] * np.array((1.0, 1.0, 1.03), np.float32)

    def disc(self, centre: Point, radius: float) -> Mask:
        """Samples inside a circle."""
        return (self.x - centre[0]) ** 2 + (self.y - centre[1]) ** 2 <= radius**2

    def box(self, left: float, low: float, right: float, high: float) -> Mask:
        """Samples inside an upright rectangle of the site's axes."""
        return (self.x >= left) & (self.x <= right) & (self.y >= low) & (self.y <= high)

    def polygon(self, corners: Sequence[Point]) -> Mask:
        """Samples inside a polygon of straights, by counting crossings."""
        inside = np.zeros(self.x.shape, bool)
        for (ax, ay), (bx, by) in zip(corners, (*corners[1:], corners[0])):
            if ay != by:
                cut = (self.y > min(ay, by)) & (self.y <= max(ay, by))
                inside ^= cut & (self.x < ax + (self.y - ay) * (bx - ax) / (by - ay))
        return inside

    def band(self, points: Sequence[Point], half: float) -> Mask:
        """Samples within `half` of a path of straights."""
        near = np.zeros(self.x.shape, bool)
        for (ax, ay), (bx, by) in zip(points, points[1:]):
            dx, dy = bx - ax, by - ay
            t = np.clip(((self.x - ax) * dx + (self.y - ay) * dy) / (dx * dx + dy * dy), 0.0, 1.0)
            near |= (self.x - ax - t * dx) ** 2 + (self.y - ay - t * dy) ** 2 <= half**2
        return near

    def sector(self, centre: Point, radii: Point, angles_deg: Point) -> Mask:
        """Samples between two radii and two directions (anticlockwise)."""
        dx, dy = self.x - centre[0], self.y - centre[1]
        turn = (np.degrees(np.arctan2(dy, dx)) - angles_deg[0]) % 360.0
        far = np.hypot(dx, dy)
        return (far >= radii[0]) & (far <= radii[1]) & (turn <= angles_deg[1] - angles_deg[0])

    def away(self, east: float, north: float) -> Point:
        """A direction of the map in the site's axes."""
        turn = math.radians(self.site.turn_deg)
        return math.cos(turn) * east + math.sin(turn) * north, -math.sin(turn) * east + math.cos(turn) * north

    def save(self, path: Path) -> None:
        """Write a GeoTIFF: tiled, JPEG inside, georeferenced in the site's CRS."""
        from osgeo import gdal, osr  # only pictures need it, logs do not

        gdal.UseExceptions()
        rows, columns = (n // FINE for n in self.x.shape)
        mean = self.rgb.reshape(rows, FINE, columns, FINE, 3).mean(axis=(1, 3))
        pixels = np.clip(mean * 255.0 + 0.5, 0, 255).astype(np.uint8)
        options = ["COMPRESS=JPEG", f"JPEG_QUALITY={JPEG_QUALITY}", "PHOTOMETRIC=YCBCR", "TILED=YES"]
        picture = gdal.GetDriverByName("GTiff").Create(str(path), columns, rows, 3, gdal.GDT_Byte, options)
        picture.SetGeoTransform((self.west, self.pixel, 0.0, self.north, 0.0, -self.pixel))
        crs = osr.SpatialReference()
        crs.ImportFromEPSG(int(self.site.crs.split(":")[1]))
        picture.SetProjection(crs.ExportToWkt())
        for band in range(3):
            picture.GetRasterBand(band + 1).WriteArray(pixels[:, :, band])
        picture.FlushCache()
