# SPDX-License-Identifier: GPL-2.0-or-later
"""Published scale factors, convergences and geodesics, met through the survey plane or by the library it stands on;
to the printed digits, a source beside each. "Memory" tells that the figure was given from memory of the source."""

from __future__ import annotations

import math

import numpy as np
import pyproj
import pytest

from plugin.core.plane import SurveyPlane, mean_radius, open_crs
from plugin.core.units import convert


def plane_at(crs, lon, lat, height=0.0):
    return SurveyPlane(open_crs(crs), lon, lat, height)


def grid_point(plane):
    return plane.to_crs(np.zeros((1, 2)))[0]


SPC = (-79.9999976143, 39.9999983008)
"""Longitude and latitude of the sample point of NOAA/NGS (T5-03)."""


@pytest.mark.parametrize(
    ("crs", "k", "convergence", "point"),
    [
        ("EPSG:32129", 0.99999024, -1.4597833333, (407886.681, 76470.391)),
        ("EPSG:2272", 0.99999024, -1.4597833333, (1338208.22, 250886.607)),
        ("EPSG:26917", 0.9996897, 0.6428277778, (585360.668, 4428235.878)),
    ],
    ids=["metres", "US survey feet", "UTM"],
)
def test_t5_03_scale_and_convergence_of_three_grids(crs, k, convergence, point):
    """NOAA/NGS coordinate conversion service, sample output (seen). EPSG:2272 is the same grid in US survey feet."""
    plane = plane_at(crs, *SPC)
    assert grid_point(plane) == pytest.approx(point, abs=0.0011)
    # k is printed to 1e-8 (1e-7 for UTM).
    assert 1.0 / plane.grid_to_ground == pytest.approx(k, abs=6e-9 if k > 0.9999 else 6e-8)
    assert math.degrees(plane.grid_turn) == pytest.approx(convergence, abs=2e-6)


def test_t5_03_international_feet_miss_the_place_of_survey_feet():
    """NOAA/NGS, as above: the same point lies 2.676 ft further east in international feet."""
    metres = grid_point(plane_at("EPSG:32129", *SPC))
    survey = [convert(float(c), "m", "us-ft") for c in metres]
    other = [convert(float(c), "m", "ft") for c in metres]
    assert survey == pytest.approx([1338208.22, 250886.607], abs=0.0035)
    assert other == pytest.approx([1338210.896, 250887.109], abs=0.0035)
    assert other[0] - survey[0] == pytest.approx(2.676, abs=0.0011)


def test_t5_05_the_elevation_part_of_a_combined_factor():
    """Mahun, coordinate systems, UTM zone 16, point Jerry (seen): k 1.00021177 and h 324.698 give 1.00016082, and H is
    h less the geoid's separation of -33.902."""
    k, height = 1.00021177, 358.6 - 33.902
    assert height == pytest.approx(324.698, abs=1e-9)
    crs = open_crs("EPSG:26916")
    # Where the grid's own factor is k: 270 km and more from the central meridian, in Wisconsin's latitude.
    lon = -87.0 + _degrees_out(crs, k, 43.0)
    plane = SurveyPlane(crs, lon, 43.0, height)
    assert 1.0 / SurveyPlane(crs, lon, 43.0).grid_to_ground == pytest.approx(k, abs=1e-9)
    assert 1.0 / plane.grid_to_ground == pytest.approx(1.00016082, abs=4e-8)


def _degrees_out(crs, k, lat):
    low, high = 0.0, 6.0
    for _ in range(60):
        middle = (low + high) / 2
        if pyproj.Proj(crs).get_factors(-87.0 + middle, lat).meridional_scale < k:
            low = middle
        else:
            high = middle
    return low


def test_t5_05_one_end_factor_for_a_long_line_is_wrong_and_the_weighted_one_right():
    """Mahun, as above: (k1 + 4 km + k2) / 6 of the line; with the end's factor it is 3.5 mm out in 1.3 km. The plane,
    centred on the middle of the line, has no such fault."""
    k1, km, k2 = 1.000206404, 1.000209086, 1.00021177
    weighted = (k1 + 4 * km + k2) / 6
    assert weighted == pytest.approx(1.000209086, abs=1.1e-9)
    grid = 1305.3993
    end_fault = grid / weighted - grid / k2
    assert end_fault == pytest.approx(0.0035, abs=1e-4)
    crs = open_crs("EPSG:26916")
    lon, lat = -87.0 + _degrees_out(crs, km, 43.0), 43.0
    plane = SurveyPlane(crs, lon, lat)
    ends = plane.to_crs(np.array([(-grid / 2, 0.0), (grid / 2, 0.0)]))
    # The plane's own scale grows by (653 m / R)^2 / 6 over the line: 2 micrometres.
    assert math.dist(*ends) == pytest.approx(grid * weighted, abs=5e-5)
    assert math.dist(*ends) != pytest.approx(grid * k2, abs=1e-3)


WEB = (-(100.0 + 20.0 / 60.0), 24.381786944444446)


def test_t5_07_web_mercator_has_a_scale_for_each_direction():
    """IOGP/EPSG Guidance Note 7-2, method 1024 (seen): h north-south, k east-west, and the greatest angular error
    omega. The secant of the latitude, 1.0979179, is neither."""
    plane = plane_at("EPSG:3857", *WEB)
    assert grid_point(plane) == pytest.approx([-11169055.58, 2800000.0], abs=0.006)
    k, h = float(plane.jacobian[0, 0]), float(plane.jacobian[1, 1])
    assert h == pytest.approx(1.1034264, abs=6e-8)
    assert k == pytest.approx(1.0972914, abs=6e-8)
    omega = 2 * math.degrees(math.asin((h - k) / (h + k)))
    assert omega == pytest.approx(0.3194472222, abs=2e-6)
    secant = 1.0 / math.cos(math.radians(WEB[1]))
    assert secant == pytest.approx(1.0979179, abs=6e-8)
    assert abs(h - secant) > 5e-4
    assert abs(k - secant) > 5e-4
    assert plane.grid_to_ground == pytest.approx(1.0 / math.sqrt(h * k), abs=1e-9)
    assert plane.grid_turn == pytest.approx(0.0, abs=1e-10)


def test_t5_07_the_way_back_from_web_mercator():
    """IOGP/EPSG Guidance Note 7-2, method 1024, reverse case (seen)."""
    plane = plane_at("EPSG:3857", WEB[0], 24.463580277777776)
    assert grid_point(plane) == pytest.approx([-11169055.58, 2810000.0], abs=0.03)
    assert plane.from_crs(np.array([(-11169055.58, 2810000.0)]))[0] == pytest.approx([0.0, 0.0], abs=0.03)


def test_t5_08_british_national_grid_on_its_own_datum():
    """IOGP/EPSG Guidance Note 7-2, method 9807 (seen); latitude and longitude are already on Airy's ellipsoid."""
    assert grid_point(plane_at("EPSG:27700", 0.5, 50.5)) == pytest.approx([577274.99, 69740.5], abs=0.009)


@pytest.mark.parametrize(("east_km", "factor"), [(400, 0.9996), (300, 0.99972), (200, 1.00009)])
def test_t5_10_local_scale_factor_of_the_national_grid(east_km, factor):
    """Ordnance Survey, local scale factor by easting (table from memory, five decimals; centre 0.9996012717 seen)."""
    crs = open_crs("EPSG:27700")
    place = pyproj.Transformer.from_crs(crs, crs.geodetic_crs, always_xy=True).transform(east_km * 1e3, 300e3)
    found = 1.0 / SurveyPlane(crs, *place).grid_to_ground
    assert found == pytest.approx(factor, abs=1.2e-5)
    quick = 0.9996012717 * (1 + (east_km * 1e3 - 400e3) ** 2 / (2 * 6.38e6**2))
    assert found == pytest.approx(quick, abs=2e-6)


def test_the_mean_radius_is_of_meridian_and_prime_vertical():
    """Closed form for GRS 80: M and N at 0, 45 and 90 degrees; at the pole both are a^2 / b."""
    a, f = 6378137.0, 1 / 298.257222101
    e2 = f * (2 - f)
    for lat in (0.0, 45.0, 90.0, -45.0):
        w = 1 - e2 * math.sin(math.radians(lat)) ** 2
        expected = math.sqrt(a * (1 - e2) / w**1.5 * a / math.sqrt(w))
        assert mean_radius(open_crs("EPSG:25831"), lat) == pytest.approx(expected, abs=1e-6)
    assert mean_radius(open_crs("EPSG:25831"), 90.0) == pytest.approx(a / (1 - f), abs=1e-6)


def test_t4_06_geodesics_of_the_library_are_the_published_ones():
    """GeographicLib test suite, planimeter cases (seen); places are latitude, longitude. The ground lengths of the
    survey plane are held against these geodesics elsewhere."""
    geod = pyproj.Geod(ellps="WGS84")

    def measured(places):
        area, perimeter = geod.polygon_area_perimeter([p[1] for p in places], [p[0] for p in places])
        return abs(area), perimeter

    area, perimeter = measured([(89, 0), (89, 90), (89, 180), (89, 270)])
    assert perimeter == pytest.approx(631819.8745, abs=1e-4)
    assert area == pytest.approx(24952305678.0, abs=1)
    area, perimeter = measured([(0, -1), (-1, 0), (0, 1), (1, 0)])
    assert perimeter == pytest.approx(627598.2731, abs=1e-4)
    assert area == pytest.approx(24619419146.0, abs=1)
    area, perimeter = measured([(90, 0), (0, 0), (0, 90)])
    assert perimeter == pytest.approx(30022685, abs=1)
    assert area == pytest.approx(63758202715511.0, abs=1)
    assert measured([(2, 1), (1, 2), (3, 3)])[0] == pytest.approx(18454562325.45119, abs=0.01)
    assert geod.inv(1, 1, 2, 2)[2] == pytest.approx(156876.149, abs=0.001)


def test_t4_09_area_of_a_continent():
    """pyproj documentation, Geod.polygon_area_perimeter (seen)."""
    lats = [-72.9, -71.9, -74.9, -74.3, -77.5, -77.4, -71.7, -65.9, -65.7, -66.6, -66.9, -69.8, -70.0, -71.0, -77.3, -77.9, -74.7]  # fmt: skip
    lons = [-74, -102, -102, -131, -163, 163, 172, 140, 113, 88, 59, 25, -4, -14, -33, -46, -61]
    geod = pyproj.Geod(a=6378137.0, f=0.0033528106647475126)
    area, perimeter = geod.polygon_area_perimeter(lons, lats)
    assert area == pytest.approx(13376856682207.4, abs=0.1)
    assert perimeter == pytest.approx(14710425.4, abs=0.1)


def test_t4_10_a_geodesic_to_nearly_the_other_side_of_the_earth():
    """GeographicLib documentation, Wellington to Salamanca (seen)."""
    assert pyproj.Geod(ellps="WGS84").inv(174.81, -41.32, -5.5, 40.96)[2] == pytest.approx(
        19959679.267, abs=0.001
    )
