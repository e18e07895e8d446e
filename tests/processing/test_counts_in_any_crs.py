# SPDX-License-Identifier: GPL-2.0-or-later
"""Counts of what is a whole number of pieces on the ground, at drawn places: rounding of the map's coordinates is no piece
more or less."""

from __future__ import annotations

import math

import numpy as np
import pytest
from pyproj import Geod, Transformer
from qgis.core import QgsProcessingContext, QgsProcessingFeedback, QgsProject

from tests.processing.layers import memory_layer, rows_of

PLACES = 200
CRSS = {
    # Ellipsoid, and about where: longitude and latitude.
    "EPSG:32631": ("WGS84", 3.4, 51.0),
    "EPSG:4326": ("WGS84", 3.4, 51.0),
    "EPSG:2264": ("GRS80", -79.5, 35.4),
    "EPSG:25831": ("GRS80", 3.4, 51.0),
}


def drawn(crs, shape, *, seed=3):
    """A shape (n, 2) in metres on the ground, at so many places of a CRS and turned any way: (places, n, 2) on the map,
    from geodesics to each of its points."""
    ellipsoid, lon, lat = CRSS[crs]
    rng = np.random.default_rng(seed)
    shape = np.asarray(shape, float)
    size = (PLACES, len(shape))
    lons, lats = rng.normal(lon, 0.02, PLACES), rng.normal(lat, 0.02, PLACES)
    turns = rng.uniform(0, 360, PLACES)
    azimuth = 90.0 - np.degrees(np.arctan2(shape[:, 1], shape[:, 0])) + turns[:, None]
    far = np.broadcast_to(np.hypot(*shape.T), size)
    x, y, _ = Geod(ellps=ellipsoid).fwd(
        np.broadcast_to(lons[:, None], size), np.broadcast_to(lats[:, None], size), azimuth, far
    )
    base = {"GRS80": {"EPSG:2264": 4269}.get(crs, 4258), "WGS84": 4326}[ellipsoid]
    way = Transformer.from_crs(base, int(crs[5:]), always_xy=True)
    return np.stack(way.transform(x, y), axis=-1)


def texts(template, places):
    return [template % ",".join(f"{x!r} {y!r}" for x, y in place.tolist()) for place in places]


def box(length, width):
    return [(0, 0), (length, 0), (length, width), (0, width), (0, 0)]


def run(provider, name, kind, crs, rows, **parameters):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    given = {"INPUT": memory_layer(kind, crs, rows), "OUTPUT": "memory:", **parameters}
    results, good = (
        provider.algorithm(name)
        .create()
        .run(given, context, QgsProcessingFeedback(), {}, catchExceptions=False)
    )
    assert good
    return rows_of(context.takeResultLayer(str(results["OUTPUT"])))


@pytest.mark.parametrize("crs", CRSS)
def test_a_bed_of_five_rolls_takes_five(provider, crs):
    rows = texts("POLYGON((%s))", drawn(crs, box(2.5, 2.0)))
    found = run(
        provider, "count_planting", "Polygon", crs, rows, ROLL_LENGTH=2.5, ROLL_WIDTH=0.4, SPACING=1.0
    )
    assert [row["rolls"] for row in found] == [5] * PLACES
    assert [row["turf_m2"] for row in found] == pytest.approx([5.0] * PLACES, abs=1e-5)


@pytest.mark.parametrize("crs", CRSS)
def test_half_a_plant_is_one_more_wherever_the_bed_lies(provider, crs):
    """2.5 by 1 m at 1 m: two and a half plants, three."""
    rows = texts("POLYGON((%s))", drawn(crs, box(2.5, 1.0)))
    found = run(provider, "count_planting", "Polygon", crs, rows, SPACING=1.0)
    assert [row["plants"] for row in found] == [3] * PLACES


@pytest.mark.parametrize("crs", CRSS)
def test_a_row_of_five_spacings_has_six_plants(provider, crs):
    rows = texts("LINESTRING(%s)", drawn(crs, [(0, 0), (2.5, 0)]))
    assert [
        row["plants"] for row in run(provider, "count_planting", "LineString", crs, rows, SPACING=0.5)
    ] == [6] * PLACES


@pytest.mark.parametrize("crs", CRSS)
def test_a_row_as_long_as_both_its_set_backs_has_one_plant(provider, crs):
    rows = texts("LINESTRING(%s)", drawn(crs, [(0, 0), (2.5, 0)]))
    found = run(provider, "count_planting", "LineString", crs, rows, SPACING=0.5, SET_BACK=1.25)
    assert [row["plants"] for row in found] == [1] * PLACES


@pytest.mark.parametrize("crs", CRSS)
def test_a_slab_of_one_sheet_and_two_bays_has_them(provider, crs):
    """4.8 by 2.4 m, 0.1 m thick: bays of 2.4 m at most, so one joint of 2.4 m."""
    rows = texts("POLYGON((%s))", drawn(crs, box(4.8, 2.4)))
    given = {"THICKNESS": 0.1, "JOINT_FACTOR": 24, "SHEET_LENGTH": 4.8, "SHEET_WIDTH": 2.4, "STEP": 0.576}
    found = run(provider, "measure_slabs", "Polygon", crs, rows, **given)
    assert [(row["sheets"], row["bays"]) for row in found] == [(1, 2)] * PLACES
    assert [row["joint_m"] for row in found] == pytest.approx([2.4] * PLACES, abs=1e-6)
    # 1.152 m3 is two steps.
    assert [row["ordered_m3"] for row in found] == [2 * 0.576] * PLACES


@pytest.mark.parametrize("crs", CRSS)
def test_a_bay_of_one_and_a_half_times_its_width_is_no_longer_than_that(provider, crs):
    rows = texts("POLYGON((%s))", drawn(crs, box(3.6, 2.4)))
    found = run(provider, "measure_slabs", "Polygon", crs, rows, THICKNESS=0.1, JOINT_FACTOR=36)
    assert [row["bays"] for row in found] == [1] * PLACES


@pytest.mark.parametrize("crs", CRSS)
def test_an_arc_of_the_limit_is_straight_and_one_below_it_curved(provider, crs):
    """A circle of 6 m: 37.70 m of form, all of one class."""
    around = [(6 * math.cos(a), 6 * math.sin(a)) for a in np.linspace(0, 2 * math.pi, 9)]
    around[-1] = around[0]
    places = drawn(crs, around)
    places[:, -1] = places[:, 0]
    rows = texts("CURVEPOLYGON(CIRCULARSTRING(%s))", places)
    found = run(provider, "measure_slabs", "CurvePolygon", crs, rows, THICKNESS=0.1)
    assert [row["form_straight_150_m"] for row in found] == pytest.approx([12 * math.pi] * PLACES, abs=1e-5)
    found = run(provider, "measure_slabs", "CurvePolygon", crs, rows, THICKNESS=0.1, TIGHT_RADIUS=6.001)
    assert [row["form_curved_150_m"] for row in found] == pytest.approx([12 * math.pi] * PLACES, abs=1e-5)


@pytest.mark.parametrize("crs", CRSS)
def test_a_joint_along_an_inner_side_is_none(provider, crs):
    """6 by 6 m less a quarter, in four bays: of either joint, at 3 m, half runs along an inner side, where a form stands."""
    angle = [(0, 0), (6, 0), (6, 3), (3, 3), (3, 6), (0, 6), (0, 0)]
    rows = texts("POLYGON((%s))", drawn(crs, angle))
    found = run(provider, "measure_slabs", "Polygon", crs, rows, THICKNESS=0.1, JOINT_FACTOR=30)
    assert [row["bays"] for row in found] == [4] * PLACES
    assert [row["joint_m"] for row in found] == pytest.approx([6.0] * PLACES, abs=1e-5)


@pytest.mark.parametrize("crs", CRSS)
def test_turf_beside_an_inner_side_is_laid_to_it(provider, crs):
    """4.8 by 2 m, and 2 by 2 m on top of it: five strips of 4.8 m and two rolls, five of 2 m and one."""
    angle = [(0, 0), (4.8, 0), (4.8, 2), (2, 2), (2, 4), (0, 4), (0, 0)]
    rows = texts("POLYGON((%s))", drawn(crs, angle))
    found = run(provider, "count_planting", "Polygon", crs, rows, ROLL_LENGTH=2.4, ROLL_WIDTH=0.4)
    assert [row["rolls"] for row in found] == [15] * PLACES
    assert [row["turf_m2"] for row in found] == pytest.approx([0.4 * (5 * 4.8 + 5 * 2.0)] * PLACES, abs=1e-5)


@pytest.mark.parametrize("crs", CRSS)
def test_a_wall_of_ten_units_takes_ten(provider, crs):
    rows = texts("LINESTRING(%s)", drawn(crs, [(0, 0), (9.15, 0)]))
    found = run(provider, "measure_walls", "LineString", crs, rows, WALL_HEIGHT=1.0, UNIT=0.915)
    assert [row["straight_units"] for row in found] == [10] * PLACES
