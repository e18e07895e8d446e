# SPDX-License-Identifier: GPL-2.0-or-later
"""One job laid into every kind of map CRS: the same sizes everywhere, the marks back on their map points, and the
grid-to-ground factor of a geodesic. Logs without error; control computed by the library alone."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pyproj
import pytest

from plugin.core.errors import Refused
from plugin.core.findings import Severity
from plugin.core.measure.chain import Settings, survey_files
from plugin.core.place.locate import locate_control
from plugin.core.plane import open_crs
from plugin.core.read.job import read_job
from scripts.demo_jobs import find_site, make_job
from scripts.demo_jobs.compare import figures_of_rows, tables_of

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
    "EPSG:5513": (17.3, 49.4),  # southing, westing: a mirror image of the ground
    "EPSG:27572": (1.7, 46.7),  # grads from Paris
    "EPSG:3832": (180.0, -17.0),  # over the 180th meridian
}
TURN = math.radians(27.5)
SIZES = ("areas", "lengths", "sides", "legs")
SIZE_COLUMNS = (
    "area_m2",
    "sloped_area_m2",
    "perimeter_m",
    "length_m",
    "slope_length_m",
    "rise_m",
    "gradient_ratio",
)


def zero_of(crs):
    """Longitude of the datum's prime meridian in degrees."""
    meridian = crs.geodetic_crs.prime_meridian
    return math.degrees(meridian.longitude * meridian.unit_conversion_factor)


def degrees_of(crs, height=0.0, origin=None):
    """Longitude and latitude (from Greenwich) of marks A, B, C, D of the yard, by geodesics from the origin. Ground
    lengths at a height are taken down to the ellipsoid by the Gaussian mean radius, written out here."""
    ellipsoid, geod = crs.ellipsoid, crs.get_geod()
    lon, lat = origin
    e2 = 1 - (ellipsoid.semi_minor_metre / ellipsoid.semi_major_metre) ** 2
    radius = ellipsoid.semi_minor_metre / (1 - e2 * math.sin(math.radians(lat)) ** 2)
    marks = find_site("marlisk_yard").marks
    out = {}
    for name in "ABCD":
        x, y = marks[name][0] - 12.0, marks[name][1] - 5.0
        bearing = math.degrees(math.atan2(x, y) - TURN)
        out[name] = geod.fwd(lon, lat, bearing, math.hypot(x, y) / (1 + height / radius))[:2]
    return out


def map_of(crs, places):
    """Map coordinates of places in degrees from Greenwich."""
    degree = math.degrees(crs.geodetic_crs.axis_info[0].unit_conversion_factor)
    way = pyproj.Transformer.from_crs(crs.geodetic_crs, crs, always_xy=True)
    return {m: way.transform((lon - zero_of(crs)) / degree, lat / degree) for m, (lon, lat) in places.items()}


def control_text(name, places, columns="x,y", level=None):
    rows = [
        f"{mark},{x!r},{y!r},{'' if level is None or mark != 'A' else level},0.025,0.003,{'check' if mark in 'CD' else 'fit'}"
        for mark, (x, y) in places.items()
    ]
    return "\n".join([f"# crs: {name}", f"mark,{columns},z,sd_xy,sd_z,use", *rows]) + "\n"


@cache
def logs():
    return make_job("marlisk_yard", 1, noise=False, digits=None)


def survey_with(control, **settings):
    files = {**logs(), "control.csv": control}
    return survey_files({name: text.encode() for name, text in files.items()}, Settings(**settings))


@cache
def laid(name, height=0.0):
    crs = open_crs(name)
    places = map_of(crs, degrees_of(crs, height, PLACES[name]))
    return survey_with(control_text(name, places), height=height), places


def sizes_of(survey):
    figures = figures_of_rows({k: v for k, v in tables_of(survey).items() if k in SIZES})
    return {key: found.value for key, found in figures.items() if key[3] in SIZE_COLUMNS}


@cache
def expected_sizes():
    return sizes_of(survey_files({n: t.encode() for n, t in logs().items()}, Settings()))


@pytest.mark.parametrize("height", [0.0, 1300.0])
@pytest.mark.parametrize("name", PLACES)
def test_sizes_are_the_same_in_every_crs(name, height):
    found, expected = sizes_of(laid(name, height)[0]), expected_sizes()
    assert len(expected) > 40
    assert found.keys() == expected.keys()
    for key, value in expected.items():
        assert found[key] == pytest.approx(value, rel=1e-9, abs=1e-11), key


@pytest.mark.parametrize("height", [0.0, 1300.0])
@pytest.mark.parametrize("name", PLACES)
def test_the_survey_is_placed_and_its_marks_lie_on_their_map_points(name, height):
    survey, places = laid(name, height)
    assert survey.placement.status == "placed"
    assert survey.placement.scale_check == pytest.approx(1.0, abs=1e-8)
    marks = {row.mark: row for row in survey.marks if row.mark in places}
    assert set(marks) == set("ABCD")
    plane = survey.plane
    back = plane.to_crs(np.array([row.point[:2] for row in marks.values()]))
    for (mark, row), xy in zip(marks.items(), back):
        ground = math.dist(xy, places[mark]) * plane.crs_unit_m * plane.grid_to_ground
        assert ground < 1e-6, mark
        assert row.residual < 1e-6
    assert not [f for f in survey.findings if f.code.startswith("PL") and f.severity is not Severity.NOTE]


@pytest.mark.parametrize("height", [0.0, 1300.0])
@pytest.mark.parametrize("name", PLACES)
def test_the_grid_to_ground_factor_is_a_geodesic_by_its_grid_length(name, height):
    """Along both axes of the ground, the root of their product where the map is not conformal."""
    crs, (lon, lat) = open_crs(name), PLACES[name]
    survey = laid(name, height)[0]
    plane, geod = survey.plane, crs.get_geod()
    lon, lat = plane.lon + zero_of(crs), plane.lat
    factors = []
    for azimuth in (0.0, 90.0):
        a, b = (geod.fwd(lon, lat, azimuth + turn, 50.0)[:2] for turn in (0.0, 180.0))
        grid = math.dist(*map_of(crs, {"a": a, "b": b}).values()) * crs.axis_info[0].unit_conversion_factor
        factors.append(geod.inv(*a, *b)[2] / grid)
    at_height = math.sqrt(factors[0] * factors[1]) * plane.ground_scale
    assert survey.placement.grid_to_ground == pytest.approx(at_height, rel=2e-10)
    assert plane.ground_scale == pytest.approx(1 + height / 6.38e6, abs=1e-6)
    if name != "EPSG:3857":
        assert factors[0] == pytest.approx(factors[1], rel=1e-9)


@pytest.mark.parametrize("name", PLACES)
def test_features_point_the_same_way_on_the_ground(name):
    """The ramp falls along the site's x: that is TURN north of east; its grid bearing differs by the grid's turn."""
    survey, _ = laid(name)
    ramp = next(row for row in survey.areas if row.tags.feature == "Ramp")
    true_bearing = ramp.fall_bearing.value + math.degrees(survey.plane.grid_turn)
    expected = 90.0 - math.degrees(TURN)
    assert (true_bearing - expected + 180) % 360 - 180 == pytest.approx(0.0, abs=2e-5)


@pytest.mark.parametrize("name", ["EPSG:25831", "EPSG:2180", "EPSG:22275", "EPSG:3857"])
def test_longitude_and_latitude_give_the_survey_that_map_coordinates_give(name):
    crs = open_crs(name)
    degrees = degrees_of(crs, 0.0, PLACES[name])
    geographic = "EPSG:" + crs.geodetic_crs.to_authority()[1]
    survey = survey_with(control_text(geographic, degrees, "lon,lat"), crs=name, height=0.0)
    assert survey.placement.status == "placed"
    assert survey.placement.crs == name
    before = laid(name)[0]
    for one, other in zip(before.marks, survey.marks):
        assert other.point[:2] == pytest.approx(one.point[:2], abs=1e-7)
    assert sizes_of(survey) == pytest.approx(sizes_of(before), rel=1e-9, abs=1e-11)


def test_control_in_one_grid_of_a_datum_may_be_laid_into_another():
    """Near the edge of zone 31: into zone 32 and into Europe's Lambert; sizes and marks on the ground stay."""
    crs = open_crs("EPSG:25831")
    control = control_text("EPSG:25831", map_of(crs, degrees_of(crs, 0.0, (5.8, 51.567))))
    before = survey_with(control, height=0.0)
    for name in ("EPSG:25832", "EPSG:3034"):
        survey = survey_with(control, crs=name, height=0.0)
        assert survey.placement.crs == name
        assert sizes_of(survey) == pytest.approx(sizes_of(before), rel=1e-9, abs=1e-11)
        assert survey.placement.grid_to_ground != pytest.approx(before.placement.grid_to_ground, abs=1e-6)
        for one, other in zip(before.marks, survey.marks):
            assert other.point[:2] == pytest.approx(one.point[:2], abs=1e-7)


def test_a_map_in_degrees_is_refused_even_where_the_control_is_in_metres():
    crs = open_crs("EPSG:25831")
    control = control_text("EPSG:25831", map_of(crs, degrees_of(crs, 0.0, PLACES["EPSG:25831"])))
    with pytest.raises(Refused) as caught:
        survey_with(control, crs="EPSG:4258")
    assert str(caught.value) == (
        "PL-04: the CRS ETRS89 of the settings is in degrees. Choose a projected CRS for the map; sizes are from the "
        "survey plane."
    )


def test_survey_feet_taken_for_international_feet_move_the_place():
    """Lot 9, Sorrelback Lane lies at E 3020000 US survey feet: read as international feet it moves 6.04 ft (1.84 m) to
    the west, and no size changes by more than the 2e-6 between the feet."""
    files = {n: t.encode() for n, t in make_job("sorrelback_lane", 1, noise=False, digits=None).items()}
    control = read_job(files).job.control
    survey_foot = open_crs("EPSG:2264")
    wrong = _in_international_feet(survey_foot)
    right, moved = (
        locate_control(control, None, 0.0).plane,
        locate_control(_of(control, wrong), None, 0.0).plane,
    )
    geod = survey_foot.get_geod()
    azimuth, _, distance = geod.inv(right.lon, right.lat, moved.lon, moved.lat)
    east = distance * math.sin(math.radians(azimuth) - right.grid_turn)
    assert east / 0.3048 == pytest.approx(-6.04, abs=0.01)
    base, other = (locate_control(c, None, 0.0).bases["A", "B"] for c in (control, _of(control, wrong)))
    assert other / base == pytest.approx(0.3048 * 3937 / 1200, rel=1e-8)


def _of(control, crs):
    return replace(control, crs=crs.to_wkt())


def _in_international_feet(crs):
    """The same grid, with its coordinates counted in international feet; the false origin stays where it is."""
    text = crs.to_json_dict()
    text.pop("id")
    for axis in text["coordinate_system"]["axis"]:
        axis["unit"] = {"type": "LinearUnit", "name": "foot", "conversion_factor": 0.3048}
    return pyproj.CRS.from_json_dict(text)
