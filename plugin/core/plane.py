# SPDX-License-Identifier: GPL-2.0-or-later
"""The survey plane: a conformal plane at ground level, scale 1, in which everything is measured."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import pyproj
from pyproj.enums import TransformDirection

from .errors import BadCrs
from .quantity import Floats

STEP = 50.0
"""Metres: half the length over which the grid's turn and scale at the origin are taken. Shorter, the rounding of
map coordinates of 1e7 shows (5e-10 over 2 m); over this length it and the grid's own bending stay below 2e-11."""


@dataclass(frozen=True, eq=False)
class SurveyPlane:
    """A transverse Mercator plane on the map CRS's own ellipsoid and datum, centred on the site, with scale
    1 + h/R at the origin, so that a metre in it is a metre on the ground at ellipsoidal height h.

    Attributes:
        crs: the map CRS (projected, or geographic for input only).
        lon, lat: the origin in degrees (whatever the unit of the map CRS's datum), in the map CRS's own datum;
            lon from that datum's own prime meridian, which is Greenwich for nearly all.
        height: ellipsoidal height h of the ground in metres.
    """

    crs: pyproj.CRS
    lon: float
    lat: float
    height: float = 0.0

    @cached_property
    def ground_scale(self) -> float:
        """1 + h/R, with R the Gaussian mean radius sqrt(M N) at the origin."""
        return 1.0 + self.height / mean_radius(self.crs, self.lat)

    @cached_property
    def plane_crs(self) -> pyproj.CRS:
        """The plane as a WKT2 projected CRS whose base is the map CRS's own geographic CRS."""
        base = base_of(self.crs).to_json_dict()
        base.pop("$schema", None)
        degree = {"type": "AngularUnit", "name": "degree", "conversion_factor": 0.0174532925199433}

        def parameter(name: str, value: float, unit: object) -> dict[str, object]:
            return {"name": name, "value": value, "unit": unit}

        axis = {"type": "Axis", "unit": "metre"}
        return pyproj.CRS.from_json_dict(
            {
                "type": "ProjectedCRS",
                "name": "Survey plane",
                "base_crs": base,
                "conversion": {
                    "name": "Survey plane",
                    "method": {"name": "Transverse Mercator", "id": {"authority": "EPSG", "code": 9807}},
                    "parameters": [
                        parameter("Latitude of natural origin", self.lat, degree),
                        parameter("Longitude of natural origin", self.lon, degree),
                        parameter("Scale factor at natural origin", self.ground_scale, "unity"),
                        parameter("False easting", 0.0, "metre"),
                        parameter("False northing", 0.0, "metre"),
                    ],
                },
                "coordinate_system": {
                    "subtype": "Cartesian",
                    "axis": [
                        {**axis, "name": "Easting", "abbreviation": "E", "direction": "east"},
                        {**axis, "name": "Northing", "abbreviation": "N", "direction": "north"},
                    ],
                },
            }
        )

    @property
    def wkt(self) -> str:
        """The plane as WKT2:2019, for a host that takes CRSs as text."""
        return self.plane_crs.to_wkt("WKT2_2019")

    def from_crs(self, xy: Floats) -> Floats:
        """(n, 2) east and north (or longitude and latitude) in the map CRS -> survey plane, metres."""
        return transform_points(self._transformer, xy, errcheck=True)

    def to_crs(self, xy: Floats) -> Floats:
        """(n, 2) survey plane, metres -> east and north in the map CRS, in its units."""
        return transform_points(self._transformer, xy, TransformDirection.INVERSE, errcheck=True)

    @cached_property
    def _transformer(self) -> pyproj.Transformer:
        return pyproj.Transformer.from_crs(self.crs, self._same_datum(), always_xy=True)

    def _same_datum(self) -> pyproj.CRS | str:
        """The plane for PROJ to find its way to. The base comes without the codes of its datum's members, which PROJ
        then looks up by name, 30 ms for `plane_crs` and the way to it; on a bare ellipsoid it finds the same way in 3.
        From another prime meridian than Greenwich that way is longer, so there the datum is told in full."""
        ellipsoid = base_of(self.crs).ellipsoid
        if ellipsoid is None or zero_meridian(self.crs) != 0.0:
            return self.plane_crs
        a, flat = ellipsoid.semi_major_metre, ellipsoid.inverse_flattening
        return (
            f"+proj=tmerc +lat_0={self.lat!r} +lon_0={self.lon!r} +k={self.ground_scale!r} "
            f"+a={a!r} {f'+rf={flat!r}' if flat else f'+b={a!r}'} +units=m +type=crs"
        )

    @cached_property
    def crs_unit_m(self) -> float:
        """Length of the map CRS's unit in metres (1 for metres; degrees have none and give 1)."""
        unit = self.crs.axis_info[0]
        return unit.unit_conversion_factor if self.crs.is_projected else 1.0

    @cached_property
    def jacobian(self) -> Floats:
        """(2, 2) change of the map's x and y (east and north, but see `grid_turn`), in metres, by metre of survey plane at the origin."""
        ends = self.to_crs(np.array([[STEP, 0.0], [-STEP, 0.0], [0.0, STEP], [0.0, -STEP]]))
        east, north = (ends[0] - ends[1]) / (2 * STEP), (ends[2] - ends[3]) / (2 * STEP)
        return np.column_stack([east, north]) * self.crs_unit_m

    @cached_property
    def grid_turn(self) -> float:
        """Angle anticlockwise in the grid of what points to true east at the origin, radians: what is added to an
        angle in the survey plane to have it in the grid. It is the grid's convergence, and is told from grid east
        and north even where the map's axes run west and south."""
        j = self._to_compass @ self.jacobian
        return float(np.arctan2(j[1, 0] - j[0, 1], j[0, 0] + j[1, 1]))

    @property
    def _to_compass(self) -> Floats:
        """(2, 2) from the map's x and y to grid east and north. Some maps count west and south; where PROJ leaves
        them in the order south, west, the map is a mirror image of the ground as well."""
        if sorted(axis.direction for axis in self.crs.axis_info[:2]) != ["south", "west"]:
            return np.eye(2)
        return -np.eye(2) if np.linalg.det(self.jacobian) > 0 else -np.eye(2)[::-1]

    @cached_property
    def grid_to_ground(self) -> float:
        """Ground length by grid length at the origin (root mean of both axes where the map is not conformal)."""
        return float(1.0 / np.sqrt(abs(np.linalg.det(self.jacobian))))


def base_of(crs: pyproj.CRS) -> pyproj.CRS:
    """The geographic CRS that a map CRS stands on.

    Raises:
        BadCrs: it stands on none (a works grid, a height).
    """
    base = crs.geodetic_crs
    if base is None:
        raise BadCrs(
            "The CRS {crs} is of no place on the earth. Choose a projected CRS for the map.", crs=crs.name
        )
    return base


def zero_meridian(crs: pyproj.CRS) -> float:
    """Longitude from Greenwich of the prime meridian that a CRS counts from, degrees."""
    meridian = base_of(crs).prime_meridian
    assert meridian is not None  # noqa: S101 - every geographic CRS has one
    return float(np.degrees(meridian.longitude * float(meridian.unit_conversion_factor)))


def mean_radius(crs: pyproj.CRS, lat: float) -> float:
    """Gaussian mean radius sqrt(M N) of the CRS's ellipsoid at a latitude in degrees, metres."""
    ellipsoid = base_of(crs).ellipsoid
    assert ellipsoid is not None  # noqa: S101 - every geographic CRS has one
    a, b = ellipsoid.semi_major_metre, ellipsoid.semi_minor_metre
    e2 = 1.0 - (b / a) ** 2
    w2 = 1.0 - e2 * np.sin(np.radians(lat)) ** 2
    return float(a * np.sqrt(1.0 - e2) / w2)


def transform_points(
    way: pyproj.Transformer,
    xy: Floats,
    direction: TransformDirection = TransformDirection.FORWARD,
    *,
    errcheck: bool = False,
) -> Floats:
    """(n, 2) points from one CRS to another.

    pyproj takes an array of one for a number, which numpy does not allow for much longer: a single point goes as two
    numbers.

    Raises:
        pyproj.exceptions.ProjError: a point has no place there; without `errcheck` it becomes infinite instead.
    """
    x, y = xy[0].tolist() if len(xy) == 1 else (xy[:, 0], xy[:, 1])
    return np.column_stack(way.transform(x, y, direction=direction, errcheck=errcheck))


def open_crs(text: str) -> pyproj.CRS:
    """The CRS a user names (an authority code, WKT or PROJ text).

    Raises:
        BadCrs: nothing by that name is known.
    """
    try:
        return pyproj.CRS.from_user_input(text)
    except pyproj.exceptions.CRSError as error:
        raise BadCrs(
            'The CRS "{crs}" is not known. Give an authority code such as EPSG:25831, or its WKT.', crs=text
        ) from error
