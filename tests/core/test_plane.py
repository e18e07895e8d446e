# SPDX-License-Identifier: GPL-2.0-or-later
"""The survey plane against geodesics: true to the ground in every kind of map CRS, whatever its unit, axis order,
prime meridian or conformality."""

from __future__ import annotations

import math

import numpy as np
import pyproj
import pytest

from plugin.core.errors import BadCrs
from plugin.core.plane import SurveyPlane, mean_radius, open_crs

PLACES = {
    # CRS: longitude, latitude in degrees from Greenwich, in the CRS's own datum
    "EPSG:25831": (3.178, 51.567),
    "EPSG:27700": (-4.2, 55.9),
    "EPSG:2263": (-73.9, 40.7),  # US survey feet
    "EPSG:2264": (-78.4, 35.3),  # US survey feet, Lambert
    "EPSG:2222": (-110.2, 33.5),  # international feet
    "EPSG:3857": (10.0, 52.0),  # not conformal
    "EPSG:2180": (21.0, 52.2),  # northing first
    "EPSG:32633": (15.9, 47.1),
    "EPSG:2193": (174.8, -41.3),  # northing first, south of the equator
    "EPSG:31467": (9.2, 48.8),  # northing first, Bessel
    "EPSG:2056": (7.44, 46.95),  # oblique
    "EPSG:22275": (14.5, -22.95),  # westing, southing
    "EPSG:2046": (16.2, -29.1),  # westing, southing
    "EPSG:5513": (17.3, 49.4),  # southing, westing: a mirror image of the ground
    "EPSG:5514": (17.3, 49.4),
    "EPSG:27572": (1.7, 46.7),  # grads from Paris
    "EPSG:3832": (179.99999, -17.0),  # over the 180th meridian
    "EPSG:3031": (30.0, -75.0),  # polar
}
HALF = 50.0
"""Metres from the middle to either end of a line."""


def zero_of(crs):
    """Longitude of the datum's prime meridian in degrees."""
    meridian = crs.geodetic_crs.prime_meridian
    return math.degrees(meridian.longitude * meridian.unit_conversion_factor)


def plane_at(name, height=0.0):
    crs = open_crs(name)
    lon, lat = PLACES[name]
    return SurveyPlane(crs, lon - zero_of(crs), lat, height)


def on_the_map(crs, lon, lat):
    """(n, 2) map coordinates of degrees from Greenwich, by the library alone."""
    degree = math.degrees(crs.geodetic_crs.axis_info[0].unit_conversion_factor)
    way = pyproj.Transformer.from_crs(crs.geodetic_crs, crs, always_xy=True)
    return np.column_stack(way.transform((np.asarray(lon) - zero_of(crs)) / degree, np.asarray(lat) / degree))


def ends_of(name, azimuth):
    """Longitudes and latitudes of the ends of a 100 m line through the place, and its exact length."""
    lon, lat = PLACES[name]
    geod = open_crs(name).get_geod()
    a, b = (geod.fwd(lon, lat, azimuth + turn, HALF)[:2] for turn in (0.0, 180.0))
    lons, lats = zip(a, b)
    return lons, lats, geod.inv(*a, *b)[2]


@pytest.mark.parametrize("azimuth", [0.5, 37.0, 90.0, 121.0])
@pytest.mark.parametrize("name", PLACES)
def test_a_length_in_the_plane_is_the_geodesic_at_height_0(name, azimuth):
    """To 1e-9 over 100 m; map coordinates of 1e7 m hold 2e-9 m themselves."""
    lons, lats, length = ends_of(name, azimuth)
    xy = plane_at(name).from_crs(on_the_map(open_crs(name), lons, lats))
    assert math.dist(*xy) == pytest.approx(length, rel=1e-9)
    way = xy[0] - xy[1]
    assert math.degrees(math.atan2(way[0], way[1])) % 360 == pytest.approx(azimuth, abs=1e-6)


@pytest.mark.parametrize("height", [-30.0, 84.2, 2500.0])
@pytest.mark.parametrize("name", PLACES)
def test_a_length_at_a_height_is_longer_by_height_over_radius(name, height):
    lons, lats, length = ends_of(name, 37.0)
    plane = plane_at(name, height)
    xy = plane.from_crs(on_the_map(open_crs(name), lons, lats))
    factor = 1.0 + height / mean_radius(plane.crs, PLACES[name][1])
    assert math.dist(*xy) == pytest.approx(length * factor, rel=1e-9)


@pytest.mark.parametrize("azimuth", [0.0, 45.0, 90.0])
def test_a_length_at_a_height_is_that_between_the_points_in_space(azimuth):
    """1000 m up, in space: the mean radius stands for that of the azimuth, 0.3 % off at the most (5e-7 of length)."""
    name, height = "EPSG:25831", 1000.0
    lons, lats, _ = ends_of(name, azimuth)
    to_space = pyproj.Transformer.from_crs("EPSG:4937", "EPSG:4936", always_xy=True)
    space = np.column_stack(to_space.transform(lons, lats, (height, height)))
    xy = plane_at(name, height).from_crs(on_the_map(open_crs(name), lons, lats))
    assert math.dist(*xy) == pytest.approx(math.dist(*space), rel=5e-7)
    assert math.dist(*xy) != pytest.approx(
        math.dist(*plane_at(name).from_crs(on_the_map(open_crs(name), lons, lats))), rel=1e-5
    )


@pytest.mark.parametrize("name", PLACES)
def test_the_way_to_the_map_and_back_loses_nothing(name):
    plane = plane_at(name, 120.0)
    xy = np.array([(0.0, 0.0), (300.0, -200.0), (-450.0, 10.0), (0.25, 399.0)])
    # 2e-9 m of map coordinates of 1e7 m, a few times over on the way.
    assert plane.from_crs(plane.to_crs(xy)) == pytest.approx(xy, abs=2e-8)


def compass(crs, xy):
    """Map x, y as grid east and north, by the CRS's own list of axes and the known order of PROJ."""
    directions = [axis.direction for axis in crs.axis_info[:2]]
    if directions == ["west", "south"]:
        return -xy
    return -xy[:, ::-1] if directions == ["south", "west"] else xy


@pytest.mark.parametrize("name", PLACES)
def test_the_grid_turn_is_where_true_north_points_in_the_grid(name):
    """By a geodesic to the north and the south; web Mercator, not conformal, keeps its north straight up."""
    plane, crs = plane_at(name), open_crs(name)
    lons, lats, length = ends_of(name, 0.0)
    north, south = compass(crs, on_the_map(crs, lons, lats)) * plane.crs_unit_m
    way = north - south
    found = math.degrees(math.atan2(-way[0], way[1]))
    # 2e-9 m of coordinates over 100 m.
    assert math.degrees(plane.grid_turn) == pytest.approx(found, abs=1e-7)
    if name != "EPSG:3857":
        assert plane.grid_to_ground == pytest.approx(length / math.hypot(*way), rel=2e-10)


def test_grids_of_west_and_south_axes_turn_as_their_twins_do():
    assert math.degrees(plane_at("EPSG:5513").grid_turn) == pytest.approx(
        math.degrees(plane_at("EPSG:5514").grid_turn), abs=1e-7
    )
    # West of its central meridian of 15 degrees, south of the equator: true north lies left of grid north.
    assert math.degrees(plane_at("EPSG:22275").grid_turn) == pytest.approx(
        math.degrees(math.atan(math.tan(math.radians(-0.5)) * math.sin(math.radians(-22.95)))), abs=1e-4
    )


@pytest.mark.parametrize(
    ("name", "unit"), [("EPSG:2263", 1200 / 3937), ("EPSG:2222", 0.3048), ("EPSG:2180", 1.0)]
)
def test_the_unit_of_the_map_is_known_in_metres(name, unit):
    plane = plane_at(name)
    assert plane.crs_unit_m == pytest.approx(unit, rel=1e-12)
    ends = plane.to_crs(np.array([(-HALF, 0.0), (HALF, 0.0)]))
    assert math.dist(*ends) * unit * plane.grid_to_ground == pytest.approx(2 * HALF, rel=1e-9)


def test_web_mercator_is_larger_than_the_ground_in_each_direction_by_its_own_factor():
    """Closed form: east a / (N cos lat), north a / (M cos lat)."""
    plane, lat = plane_at("EPSG:3857"), math.radians(52.0)
    f = 1 / 298.257223563
    e2 = f * (2 - f)
    w = 1 - e2 * math.sin(lat) ** 2
    east, north = math.sqrt(w) / math.cos(lat), w**1.5 / ((1 - e2) * math.cos(lat))
    assert plane.jacobian == pytest.approx(np.diag([east, north]), abs=2e-9)
    assert plane.grid_to_ground == pytest.approx(1 / math.sqrt(east * north), rel=1e-9)


@pytest.mark.parametrize("name", PLACES)
def test_the_plane_as_text_is_the_same_plane(name):
    plane = plane_at(name, 84.2)
    again = pyproj.CRS.from_wkt(plane.wkt)
    way = pyproj.Transformer.from_crs(plane.crs, again, always_xy=True)
    xy = np.array([(120.0, -80.0), (-15.0, 310.0)])
    found = np.column_stack(way.transform(*plane.to_crs(xy).T))
    assert found == pytest.approx(xy, abs=2e-8)


def test_the_plane_stands_on_the_datum_of_the_map():
    plane = plane_at("EPSG:27700")
    assert plane.plane_crs.ellipsoid.semi_major_metre == 6377563.396
    assert plane.plane_crs.geodetic_crs == open_crs("EPSG:27700").geodetic_crs
    assert plane.ground_scale == 1.0


def test_a_works_grid_has_no_plane():
    grid = 'ENGCRS["Works grid",EDATUM["Works"],CS[Cartesian,2],AXIS["x",east],AXIS["y",north],LENGTHUNIT["metre",1]]'
    with pytest.raises(BadCrs) as caught:
        SurveyPlane(open_crs(grid), 0.0, 50.0).from_crs(np.zeros((1, 2)))
    expected = "The CRS Works grid is of no place on the earth. Choose a projected CRS for the map."
    assert str(caught.value) == expected


def test_no_points_make_no_points():
    assert plane_at("EPSG:25831").from_crs(np.zeros((0, 2))).shape == (0, 2)


def test_one_point_goes_where_it_goes_among_others():
    """pyproj took an array of one for a number, at which newer numpy warns (an error in these tests)."""
    plane = plane_at("EPSG:25831")
    xy = np.array([(512340.0, 5712850.0), (512380.0, 5712870.0)])
    there = plane.from_crs(xy)
    for point, found in zip(xy, there):
        assert plane.from_crs(point[None]).tolist() == [found.tolist()]
        assert plane.to_crs(found[None]) == pytest.approx(point[None], abs=2e-8)


@pytest.mark.parametrize("text", ["EPSG:999999", "", "somewhere", "+proj=nothing"])
def test_a_crs_that_nothing_answers_to_is_refused_by_name(text):
    with pytest.raises(BadCrs) as caught:
        open_crs(text)
    expected = f'The CRS "{text}" is not known. Give an authority code such as EPSG:25831, or its WKT.'
    assert str(caught.value) == expected


def test_a_crs_may_be_given_as_its_text():
    assert open_crs(open_crs("EPSG:25831").to_wkt()) == open_crs("EPSG:25831")
