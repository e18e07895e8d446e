# SPDX-License-Identifier: GPL-2.0-or-later
"""Areas and lengths of layers beside published ones."""

from __future__ import annotations

import numpy as np
import pyproj
import pytest

from plugin.core.measure.layer.ground import open_ground
from tests.core.measure.layer.layers import areas_of, curves_from, lengths_of, polygon, shapes_from

WGS84 = pyproj.Geod(ellps="WGS84")


def ring(rows: list[list[float]], *, lat_first: bool = True) -> np.ndarray:
    return np.array(rows, float)[:, ::-1] if lat_first else np.array(rows, float)


def test_t4_01_a_traverse_of_four_sides_in_feet():
    """Mahun, open-access surveying course, Traverse Computations ch. G, Example 1 (T4-01): the two columns of cross
    products are printed; the area is half their difference, in square feet, and 2.36308 acres."""
    north_east = [[500.0, 2000.0], [323.614, 1561.426], [526.996, 1488.321], [719.336, 1686.956]]
    figures = areas_of(shapes_from(polygon(ring(north_east))), 'LOCAL_CS["grid",UNIT["foot",0.3048]]')
    square_feet = figures.area[0] / 0.3048**2
    down, up = [780713.0, 481641.5, 889019.1, 1438672.0], [647228.0, 822865.2, 1070602.9, 843478.0]
    assert square_feet == pytest.approx(abs(sum(down) - sum(up)) / 2, abs=1.5)
    assert square_feet / 43_560 == pytest.approx(2.36308, abs=4e-5)


def test_t4_04_an_offset_of_a_hundred_million_loses_nothing():
    """Karney, Boost ticket 11928 (T4-04): cross products without a local origin give 0 for the shifted square."""
    near = [[1, 0], [0, 1], [-1, 0], [0, -1]]
    far = [[100000001, 100000000], [100000000, 100000001], [99999999, 100000000], [100000000, 99999999]]
    shapes = shapes_from(polygon(ring(near, lat_first=False)), polygon(ring(far, lat_first=False)))
    assert areas_of(shapes).area == pytest.approx([2.0, 2.0], abs=1e-12)


def test_t4_05_a_ring_that_crosses_itself_is_refused():
    """Five state-plane points of a newsgroup thread, quoting Wolf and Brinker, Elementary Surveying, 9th ed., p. 274
    (T4-05): cross products give 2,589,889, which is no area, for the ring crosses itself."""
    north_east = [
        [60320.528, 1395020.737],
        [60560.076, 1399870.961],
        [56300.124, 1397560.85],
        [57867.993, 1401028.295],
        [58670.873, 1397840.621],
    ]
    figures = areas_of(shapes_from(polygon(ring(north_east))))
    assert np.isnan(figures.area[0])
    assert figures.findings[0].code == "GE-01"
    assert "crosses itself" in figures.findings[0].message


def test_t4_06_polygons_of_the_geodesic_library():
    """GeographicLib's test suite, Planimeter cases (T4-06), WGS 84, latitude first. The cap goes round the pole, so it
    is drawn in a polar grid; the triangle is 300 km wide."""
    cap = np.array([[0, 89], [90, 89], [180, 89], [270, 89.0]])
    polar = pyproj.Transformer.from_crs("EPSG:4326", "EPSG:3995", always_xy=True)
    figures = areas_of(
        shapes_from(polygon(np.column_stack(polar.transform(cap[:, 0], cap[:, 1])))), "EPSG:3995"
    )
    assert figures.area[0] == pytest.approx(24952305678.0, abs=1)
    assert figures.perimeter[0] == pytest.approx(631819.8745, abs=1e-4)
    others = {
        "diamond": ([[0, -1], [-1, 0], [0, 1], [1, 0]], 24619419146.0, 1.0, 627598.2731, 1e-4),
        "octant": ([[90, 0], [0, 0], [0, 90]], 63758202715511.0, 1.0, 30022685, 1.0),
        "triangle": ([[2, 1], [1, 2], [3, 3]], 18454562325.45119, 0.01, None, None),
    }
    for rows, area, area_slack, perimeter, slack in others.values():
        figures = areas_of(shapes_from(polygon(ring(rows))), "EPSG:4326")
        assert figures.area[0] == pytest.approx(area, abs=area_slack)
        if perimeter is not None:
            assert figures.perimeter[0] == pytest.approx(perimeter, abs=slack)
    line = lengths_of(shapes_from("LINESTRING(1 1,2 2)"), "EPSG:4326")
    assert line.length[0] == pytest.approx(156876.149, abs=1e-3)


def test_t4_09_a_polygon_with_a_hole():
    """pyproj's documentation, Geod.geometry_area_perimeter (T4-09): their area is the outer ring's less the hole's, and
    the perimeter that they print is the outer ring's alone, as ours is."""
    outer, hole = [[1, 1], [10, 1], [10, 10], [1, 10]], [[1, 2], [3, 4], [5, 2]]
    outer_figures, hole_figures = (
        areas_of(shapes_from(polygon(ring(rows, lat_first=False))), "EPSG:4326") for rows in (outer, hole)
    )
    assert outer_figures.area[0] - hole_figures.area[0] == pytest.approx(944373881400, abs=1000)
    assert outer_figures.perimeter[0] == pytest.approx(3979008, abs=1)


def test_t4_10_a_line_nearly_to_the_other_side_of_the_earth():
    """GeographicLib's documentation, Wellington to Salamanca (T4-10)."""
    figures = lengths_of(shapes_from("LINESTRING(174.81 -41.32,-5.5 40.96)"), "EPSG:4326")
    assert figures.length[0] == pytest.approx(19959679.267, abs=1e-3)


def line_ratio(crs: str, lon: float, lat: float, azimuth: float, size: float = 100.0) -> float:
    """Length in the map by length on the ground of a short line about a place."""
    ends = [WGS84.fwd(lon, lat, azimuth + turn, size / 2)[:2] for turn in (0.0, 180.0)]
    way = pyproj.Transformer.from_crs(pyproj.CRS(crs).geodetic_crs, crs, always_xy=True)
    there = np.array([way.transform(*end) for end in ends])
    text = f"LINESTRING({', '.join(f'{x!r} {y!r}' for x, y in there.tolist())})"
    ground = lengths_of(shapes_from(text), crs).length[0]
    return float(np.hypot(*(there[1] - there[0])) * open_ground(crs).unit_m / ground)


def test_t5_03_state_plane_and_utm_scale():
    """NOAA/NGS conversion service, sample point (T5-03): scale factors in Pennsylvania South and UTM zone 17."""
    lat, lon = 39.9999983008, -79.9999976143
    for crs, scale in (("EPSG:32129", 0.99999024), ("EPSG:2272", 0.99999024), ("EPSG:26917", 0.9996897)):
        for azimuth in (0.0, 50.0, 90.0):
            assert line_ratio(crs, lon, lat, azimuth) == pytest.approx(scale, abs=6e-9)


def test_t5_07_web_mercator_has_two_scales():
    """IOGP Guidance Note 7-2, method 1024, example (T5-07): h along the meridian, k along the parallel."""
    lat, lon = 24.381786944444446, -100.33333333333333
    assert line_ratio("EPSG:3857", lon, lat, 0.0) == pytest.approx(1.1034264, abs=6e-8)
    assert line_ratio("EPSG:3857", lon, lat, 90.0) == pytest.approx(1.0972914, abs=6e-8)
    # A square of the map 20 units wide: its ground area by the product of both.
    x, y = -11169055.58, 2800000.0
    square = np.array([[x - 10, y - 10], [x + 10, y - 10], [x + 10, y + 10], [x - 10, y + 10]])
    figures = areas_of(shapes_from(polygon(square)), "EPSG:3857")
    assert 400.0 / figures.area[0] == pytest.approx(1.1034264 * 1.0972914, rel=1e-7)


def test_t5_05_height_and_grid_scale_together():
    """Mahun, open-access surveying course, Coordinate systems ch. L, UTM zone 16 (T5-05): combined factor at an
    ellipsoidal height of 324.698 m where k is 1.00021177. The place is not printed: one with that k is looked for."""
    way = pyproj.Proj("EPSG:26916")
    lons = np.linspace(-87.0, -82.0, 50_001)
    k = way.get_factors(lons, np.full(len(lons), 43.0)).meridional_scale
    lon = float(lons[np.argmin(np.abs(k - 1.00021177))])
    near = float(np.min(np.abs(k - 1.00021177)))
    ends = [WGS84.fwd(lon, 43.0, azimuth, 50.0)[:2] for azimuth in (90.0, 270.0)]
    transform = pyproj.Transformer.from_crs("EPSG:4269", "EPSG:26916", always_xy=True)
    there = np.array([transform.transform(*end) for end in ends])
    text = f"LINESTRING({', '.join(f'{x!r} {y!r}' for x, y in there.tolist())})"
    figures = lengths_of(shapes_from(text), "EPSG:26916", height=324.698)
    combined = np.hypot(*(there[1] - there[0])) / figures.length[0]
    assert combined == pytest.approx(1.00016082, abs=4e-8 + 2 * near)


def test_t5_10_the_british_grid_by_its_easting():
    """Local scale factor by easting (T5-10; table values from memory, the central factor 0.9996012717 is printed)."""
    way = pyproj.Transformer.from_crs("EPSG:27700", pyproj.CRS("EPSG:27700").geodetic_crs, always_xy=True)
    for east, factor in ((400_000, 0.9996), (300_000, 0.99972), (200_000, 1.00009)):
        figures = lengths_of(shapes_from(f"LINESTRING({east} 300000,{east} 300010)"), "EPSG:27700")
        assert 10.0 / figures.length[0] == pytest.approx(factor, abs=1.2e-5)
        assert way.transform(east, 300_000)[1] > 50


def test_arc_18_the_kerb_line_of_a_track_is_exact_where_a_host_measures_its_chords():
    """Measured with QGIS 3.22.16, 3.40.6 and 3.44.15 (ARC-18): 3.22's own area of the shape in chords is 10345.644326 m2,
    0.2125 m2 low, and its length 398.113353 m, 2.9 mm short. Closed forms: pi 36.5^2 + 73 x 84.39, and 73 pi + 2 x 84.39."""
    track = (
        "CURVEPOLYGON(COMPOUNDCURVE(CIRCULARSTRING(0 -36.5,36.5 0,0 36.5),(0 36.5,-84.39 36.5),"
        "CIRCULARSTRING(-84.39 36.5,-120.89 0,-84.39 -36.5),(-84.39 -36.5,0 -36.5)))"
    )
    figures = areas_of(curves_from(track))
    assert figures.area[0] == pytest.approx(10345.856812745002, abs=1e-6)
    assert figures.perimeter[0] == pytest.approx(398.1162637120549, abs=1e-6)
    assert figures.area[0] != pytest.approx(10345.644325692769, abs=0.1)
    assert figures.perimeter[0] != pytest.approx(398.1133528972663, abs=1e-3)
