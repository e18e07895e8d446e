# SPDX-License-Identifier: GPL-2.0-or-later
"""Sizes on the ground, whatever the CRS, beside pyproj's geodesics."""

from __future__ import annotations

import numpy as np
import pyproj
import pytest

from plugin.core.errors import BadCrs
from plugin.core.measure.layer.ground import _boxes, open_ground
from tests.core.measure.layer.layers import areas_of, lengths_of, polygon, shapes_from

TEN = [
    "EPSG:4326",
    "EPSG:3857",
    "EPSG:32631",
    "EPSG:25831",
    "EPSG:3035",
    "EPSG:27700",
    "EPSG:2263",
    "EPSG:3034",
]
TEN += ["EPSG:4258", "EPSG:32632"]
"""Degrees, web mercator, UTM, an equal-area and a conic grid, US survey feet far off its zone, two datums."""
PLACES = [(3.1, 51.5), (-1.5, 52.0), (8.0, 47.3), (2.0, 0.2), (3.0, -33.0), (5.0, 69.5)]


def geodesic_triangle(points: np.ndarray, geod: pyproj.Geod) -> float:
    """Area of a small triangle from its three geodesic sides (Heron, as Kahan orders it); at 20 m the sphere's
    excess is below 1e-12 of it."""
    sides = [geod.inv(*points[i], *points[(i + 1) % 3])[2] for i in range(3)]
    a, b, c = sorted(sides, reverse=True)
    return 0.25 * np.sqrt((a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c)))


def around(lon: float, lat: float, size: float, n: int, seed: int) -> np.ndarray:
    """(n, 2) corners in degrees of an outline of so many metres about a place."""
    draw = np.random.default_rng(seed)
    turn = (np.arange(n) + 0.6 * draw.random(n)) * 2 * np.pi / n
    reach = 0.5 * size * draw.uniform(0.5, 1.0, n)
    geod = pyproj.Geod(ellps="WGS84")
    lon2, lat2, _ = geod.fwd(np.full(n, lon), np.full(n, lat), np.degrees(turn)[::-1], reach[::-1])
    return np.column_stack([lon2, lat2])


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("crs", TEN)
def test_a_triangle_of_20_m_is_as_its_geodesic_sides_make_it(crs, place):
    if crs in ("EPSG:27700", "EPSG:2263"):
        place = (-1.5, 52.0) if crs == "EPSG:27700" else (-74.0, 40.7)
    base = pyproj.CRS(crs).geodetic_crs
    geod = base.get_geod()
    way = pyproj.Transformer.from_crs(base, crs, always_xy=True)
    for seed in range(5):
        degrees = around(*place, 20.0, 3, seed)
        there = np.column_stack(way.transform(degrees[:, 0], degrees[:, 1]))
        figures = areas_of(shapes_from(polygon(there)), crs)
        assert figures.area[0] == pytest.approx(geodesic_triangle(degrees, geod), rel=1e-8)
        sides = sum(geod.inv(*degrees[i], *degrees[(i + 1) % 3])[2] for i in range(3))
        assert figures.perimeter[0] == pytest.approx(sides, rel=1e-9)


@pytest.mark.parametrize("size", [20.0, 200.0, 1900.0, 40_000.0])
def test_the_same_outline_in_ten_crss_has_one_area(size):
    # All on one datum, so that the same places are meant; the two grids far off their home are left to the triangles.
    crss = [c for c in TEN if c not in ("EPSG:27700", "EPSG:2263")]
    crss += [
        "+proj=laea +lat_0=50 +lon_0=2 +ellps=WGS84",
        "+proj=lcc +lat_1=49 +lat_2=52 +lon_0=3 +ellps=WGS84",
    ]
    degrees = around(3.1, 51.5, size, 7, 3)
    found = []
    for crs in crss:
        target = pyproj.CRS(crs)
        # Degrees stand for degrees: ETRS89 and WGS 84 differ by no more than the ellipsoid's 0.1 mm.
        way = pyproj.Transformer.from_crs(target.geodetic_crs, target, always_xy=True)
        there = np.column_stack(way.transform(degrees[:, 0], degrees[:, 1]))
        figures = areas_of(shapes_from(polygon(there)), crs)
        found.append((figures.area[0], figures.perimeter[0]))
    found = np.array(found)
    assert np.ptp(found[:, 0]) <= 1e-7 * found[0, 0]
    assert np.ptp(found[:, 1]) <= 1e-7 * found[0, 1]


@pytest.mark.parametrize("place", PLACES)
def test_forty_kilometres_are_as_the_geodesic_polygon(place):
    degrees = around(*place, 40_000.0, 9, 1)
    area, perimeter = pyproj.Geod(ellps="WGS84").polygon_area_perimeter(degrees[:, 0], degrees[:, 1])
    way = pyproj.Transformer.from_crs("EPSG:4326", "EPSG:3857", always_xy=True)
    there = np.column_stack(way.transform(degrees[:, 0], degrees[:, 1]))
    figures = areas_of(shapes_from(polygon(there)), "EPSG:3857")
    assert figures.area[0] == pytest.approx(abs(area), rel=1e-6)
    assert figures.perimeter[0] == pytest.approx(perimeter, rel=1e-9)
    assert figures.is_wide[0]


def test_plane_and_geodesics_agree_where_one_takes_over_from_the_other():
    # Just below and just above a kilometre from the middle: the geodesic polygon is good to 1e-9 at that size.
    geod = pyproj.Geod(ellps="WGS84")
    for size in (1300.0, 1900.0):
        for seed in range(10):
            degrees = around(3.1, 60.0, size, 8, seed)
            area = abs(geod.polygon_area_perimeter(degrees[:, 0], degrees[:, 1])[0])
            figures = areas_of(shapes_from(polygon(degrees)), "EPSG:4326")
            assert figures.area[0] == pytest.approx(area, rel=1e-8)


def test_height_makes_it_larger_by_the_radius():
    degrees = around(3.1, 51.5, 20.0, 5, 1)
    low = areas_of(shapes_from(polygon(degrees)), "EPSG:4326")
    high = areas_of(shapes_from(polygon(degrees)), "EPSG:4326", height=1000.0)
    # The root of meridian and normal radius is b / (1 - e2 sin2), with WGS 84's own b and e2.
    radius = 6_356_752.314245 / (1.0 - 0.00669437999014 * np.sin(np.radians(51.5)) ** 2)
    assert high.area[0] / low.area[0] == pytest.approx((1 + 1000 / radius) ** 2, rel=1e-9)


def test_an_outline_over_the_date_line_is_whole():
    east = np.array([[179.9999, 10.0], [-179.9999, 10.0], [-179.9999, 10.0001], [179.9999, 10.0001]])
    west = np.array([[9.9999, 10.0], [10.0001, 10.0], [10.0001, 10.0001], [9.9999, 10.0001]])
    figures = areas_of(shapes_from(polygon(east), polygon(west)), "EPSG:4326")
    assert figures.area[0] == pytest.approx(figures.area[1], rel=1e-9)


def test_near_a_pole_it_goes_along_geodesics():
    ring = np.array([[0.0, 89.9], [90.0, 89.9], [180.0, 89.9], [270.0, 89.9]])
    area, perimeter = pyproj.Geod(ellps="WGS84").polygon_area_perimeter(ring[:, 0], ring[:, 1])
    way = pyproj.Transformer.from_crs("EPSG:4326", "EPSG:3995", always_xy=True)
    figures = areas_of(
        shapes_from(polygon(np.column_stack(way.transform(ring[:, 0], ring[:, 1])))), "EPSG:3995"
    )
    assert figures.area[0] == pytest.approx(area, rel=1e-9)
    assert figures.perimeter[0] == pytest.approx(perimeter, rel=1e-9)


def test_units_of_a_local_grid_count():
    feet = 'LOCAL_CS["plane",UNIT["foot",0.3048]]'
    figures = areas_of(shapes_from("POLYGON((0 0,10 0,10 10,0 10,0 0))"), feet)
    assert figures.area[0] == pytest.approx(100 * 0.3048**2, rel=1e-15)


def test_an_offset_of_ten_million_costs_nothing():
    near = areas_of(shapes_from("POLYGON((0 0,1 0,1 1,0 1,0 0))"))
    far = areas_of(
        shapes_from(
            "POLYGON((10000000 10000000,10000001 10000000,10000001 10000001,10000000 10000001,10000000 10000000))"
        )
    )
    assert far.area[0] == near.area[0] == 1.0


@pytest.mark.parametrize("crs", [None, ""])
def test_without_a_crs_it_is_refused_with_what_to_do(crs):
    with pytest.raises(BadCrs) as error:
        open_ground(crs)
    assert str(error.value) == (
        "The layer has no CRS, so its sizes on the ground are unknown. Set the layer's CRS (it says what the "
        "coordinates are; it does not move them), then run this again."
    )


def test_a_layer_without_a_crs_is_named():
    with pytest.raises(BadCrs) as error:
        open_ground(None, "paths")
    assert str(error.value) == (
        "The layer paths has no CRS, so its sizes on the ground are unknown. Set the layer's CRS (it says what the "
        "coordinates are; it does not move them), then run this again."
    )


def test_a_crs_without_plan_coordinates_is_refused():
    with pytest.raises(BadCrs, match="has no plan coordinates. Reproject the layer"):
        open_ground("EPSG:4978")


def test_a_place_that_is_none_in_the_crs_is_told_by_its_row():
    figures = areas_of(
        shapes_from("POLYGON((0 0,0 1,1 1,0 0))", "POLYGON((0 0,0 100,1 100,0 0))"), "EPSG:4326"
    )
    assert list(figures.findings) == [1]
    assert (
        figures.findings[1].message == "(0.0000000, 100.0000000) is no place on the earth in the layer's CRS."
    )
    assert np.isnan(figures.area[1])
    assert lengths_of(shapes_from("LINESTRING(0 0,0 100)"), "EPSG:4326").findings[0].code == "GE-07"


def test_places_are_told_in_the_digits_of_the_crs():
    """A bow tie of 10 m, in degrees and in metres: its sides cross in its middle."""
    bow = "POLYGON(({0},{1},{2},{3},{0}))"
    there = [(-0.1, 54.001), (-0.0998, 54.0012), (-0.0998, 54.001), (-0.1, 54.0012)]
    figures = areas_of(shapes_from(bow.format(*(f"{x} {y}" for x, y in there))), "EPSG:4326")
    assert figures.findings[0].message.startswith(
        "The outline crosses itself at (-0.0999000, 54.0011000), where its side 1 meets its side 3."
    )
    here = [(500000, 6000000), (500010, 6000010), (500010, 6000000), (500000, 6000010)]
    figures = areas_of(shapes_from(bow.format(*(f"{x} {y}" for x, y in here))), "EPSG:32631")
    assert figures.findings[0].message.startswith(
        "The outline crosses itself at (500005.000, 6000005.000), where its side 1 meets its side 3."
    )


@pytest.mark.parametrize(
    "crs", ["EPSG:32631", "EPSG:3857", "EPSG:3035", "EPSG:2263", "EPSG:27700", "EPSG:3413"]
)
def test_the_metric_of_cells_is_as_every_point_through_proj(crs):
    """On triangles of 100 m, whose size the rounding of PROJ's longitudes leaves at 1e-10."""
    way = open_ground(crs)
    home = {"EPSG:2263": (-74, 40.7), "EPSG:3413": (-40, 74)}.get(crs, (0.0, 51.0))
    draw = np.random.default_rng(2)
    forward = pyproj.Transformer.from_crs(pyproj.CRS(crs).geodetic_crs, crs, always_xy=True)
    middles = np.column_stack(
        forward.transform(*(np.array(home)[:, None] + draw.uniform(-0.4, 0.4, (2, 500))))
    )
    turn = np.arange(3) * 2 * np.pi / 3 + draw.uniform(0, 6, (500, 1))
    corners = middles[:, None] + 60 / way.unit_of_plan * np.stack([np.cos(turn), np.sin(turn)], axis=2)
    shapes = shapes_from(*map(polygon, corners))
    height = np.full(500, 200.0)
    near = way._by_metric(shapes, _boxes(shapes)[0], height)
    exact = way._exactly(shapes, height)
    sides = [np.hypot(*np.diff(g.xy.reshape(500, 4, 2), axis=1).transpose(2, 0, 1)) for g in (near, exact)]
    assert np.abs(sides[0] / sides[1] - 1).max() < 2e-9


PLANE = 'LOCAL_CS["Undefined Cartesian SRS",UNIT["Meter",1],AXIS["Easting",EAST],AXIS["Northing",NORTH]]'
GLOBE = (
    'GEOGCS["Undefined geographic SRS",DATUM["unknown",SPHEROID["unknown",6378137,298.257223563]],'
    'PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]]'
)


@pytest.mark.parametrize("wkt", [PLANE, GLOBE])
def test_a_geopackages_crs_that_says_nothing_is_none(wkt):
    with pytest.raises(BadCrs, match="The layer has no CRS, .* Set the layer's CRS"):
        open_ground(wkt)


def test_a_longitude_of_a_thousand_degrees_is_no_place():
    figures = areas_of(
        shapes_from("POLYGON((0 0,1000 0,1000 1,0 1,0 0))", "POLYGON((359 0,361 0,361 1,359 1,359 0))"),
        "EPSG:4326",
    )
    assert (
        figures.findings[0].message
        == "(1000.0000000, 0.0000000) is no place on the earth in the layer's CRS."
    )
    assert list(figures.findings) == [0]
