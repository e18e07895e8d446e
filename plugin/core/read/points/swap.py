# SPDX-License-Identifier: GPL-2.0-or-later
"""Do the points of a list lie where their CRS is used, or only with northing and easting exchanged?"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...errors import BadCrs
from ...findings import Finding, Severity

if TYPE_CHECKING:
    import numpy.typing as npt
    import pyproj

    from ...quantity import Floats
    from ...walk import Walk

EXCHANGE, AS_RECORDED = "exchange", "as recorded"
SAMPLE = 1000
"""Points that are looked at, evenly through the list."""
PLAY_DEG = 0.5
"""Degrees beyond the bounds that a CRS is published for: these are rounded, and surveys on a border go over it."""
_TURN, _HALF_TURN = 360.0, 180.0


def ask_exchange(walk: Walk) -> Finding | None:
    """The PL-04 stop of points that lie outside the area of use of their CRS, but inside when exchanged.

    None where they do not, where more than half lie inside as recorded, or where the CRS is unknown (told elsewhere)
    or has no area.
    """
    found = _area(walk.keys.crs) if walk.keys.crs else None
    if found is None:
        return None
    crs, area = found
    xy = walk.xy[:: max(1, len(walk) // SAMPLE)]
    if 2 * _inside(crs, area, xy).sum() > len(xy) or 2 * _inside(crs, area, xy[:, ::-1]).sum() <= len(xy):
        return None
    return Finding(
        "PL-04",
        Severity.STOP,
        walk.place(0),
        template="{file}: the points of {walk} lie outside the area of {crs} as recorded, and inside with northing and "
        "easting exchanged.",
        remedy="Name the columns rightly, or answer for {place} with exchange or as recorded.",
        data={"file": walk.file, "walk": walk.name, "crs": walk.keys.crs, "place": walk.place(0)},
        file=walk.file,
        line=int(walk.line[0]),
        walk=walk.name,
        station=walk.station[0],
        answers=(EXCHANGE, AS_RECORDED),
    )


def _area(text: str) -> tuple[pyproj.CRS, tuple[float, float, float, float]] | None:
    """The CRS, and west, south, east and north of its area of use in degrees."""
    from ...plane import open_crs  # pyproj is slow to load, and many lists name no CRS

    try:
        crs = open_crs(text)
    except BadCrs:
        return None
    return (crs, crs.area_of_use.bounds) if crs.area_of_use and crs.geodetic_crs else None


def _inside(crs: pyproj.CRS, area: tuple[float, float, float, float], xy: Floats) -> npt.NDArray[np.bool_]:
    """(n,) whether each point lies in the area; what cannot be reached from the CRS at all does not."""
    from pyproj import Transformer

    from ...plane import transform_points

    base = crs.geodetic_crs
    lon, lat = transform_points(Transformer.from_crs(crs, base, always_xy=True), xy).T
    west, south, east, north = area
    width = (east - west) % _TURN or _TURN
    with np.errstate(invalid="ignore"):
        from_middle = np.abs((lon - west - width / 2 + _HALF_TURN) % _TURN - _HALF_TURN)
        ahead = from_middle <= width / 2 + PLAY_DEG
        inside = ahead & (lat >= south - PLAY_DEG) & (lat <= north + PLAY_DEG)
    return np.asarray(inside & np.isfinite(lon) & np.isfinite(lat), dtype=bool)
