# SPDX-License-Identifier: GPL-2.0-or-later
"""Control into the survey plane: what is refused, in which words, and what is noted of heights and datums."""

from __future__ import annotations

import math

import numpy as np
import pyproj
import pytest

from plugin.core.errors import BadCrs, Refused
from plugin.core.findings import Severity
from plugin.core.place.locate import PICK_SD, locate_control, plan_crs
from plugin.core.plane import open_crs
from plugin.core.walk import Control, ControlPoint

YARD = {"A": (512340.0, 5712850.0), "B": (512361.28, 5712861.08)}


def control_of(places, crs="EPSG:25831", z=None, sd=None, checks=(), **more):
    points = tuple(
        ControlPoint(mark, place, (z or {}).get(mark), sd, None, mark in checks, i + 2)
        for i, (mark, place) in enumerate(places.items())
    )
    return Control(points, crs, file="control.csv", **more)


def refusal(control, crs=None, height=0.0, error=Refused):
    with pytest.raises(error) as caught:
        locate_control(control, crs, height)
    return str(caught.value)


def test_control_without_a_crs_is_refused():
    assert refusal(control_of(YARD, None)) == (
        "PL-04: control.csv does not say in which CRS its points are. Add a line such as `# crs: EPSG:25831`."
    )


def test_control_that_is_only_levels_needs_no_crs():
    located = locate_control(control_of({"BM1": None}, None, z={"BM1": 84.81}), None, None)
    assert located.plane is None
    assert located.points == ()
    assert located.findings == ()
    assert located.tests == 0


def test_no_control_at_all_is_no_place():
    assert locate_control(Control(), None, None).plane is None


@pytest.mark.parametrize("crs", ["EPSG:999999", "EPSG:", "Yard grid"])
def test_an_unknown_crs_is_refused_by_name(crs):
    message = f'The CRS "{crs}" is not known. Give an authority code such as EPSG:25831, or its WKT.'
    assert refusal(control_of(YARD, crs), error=BadCrs) == message
    assert refusal(control_of(YARD), crs, error=BadCrs) == message


def test_a_map_in_degrees_is_refused():
    places = {"A": (3.178, 51.567), "B": (3.179, 51.567)}
    assert refusal(control_of(places, "EPSG:4326")) == (
        "PL-04: the CRS WGS 84 of control.csv is in degrees. Choose a projected CRS for the map; sizes are from the "
        "survey plane."
    )
    assert refusal(control_of(YARD), "EPSG:4258") == (
        "PL-04: the CRS ETRS89 of the settings is in degrees. Choose a projected CRS for the map; sizes are from the "
        "survey plane."
    )


ENGINEERING = 'ENGCRS["Works grid",EDATUM["Works"],CS[Cartesian,2],AXIS["x",east],AXIS["y",north],LENGTHUNIT["metre",1]]'


@pytest.mark.parametrize(
    ("crs", "name"), [("EPSG:4978", "WGS 84"), (ENGINEERING, "Works grid"), ("EPSG:5703", "NAVD88 height")]
)
def test_what_is_no_map_projection_is_refused(crs, name):
    assert refusal(control_of(YARD, crs)) == (
        f"PL-04: the CRS {name} of control.csv is not a map projection. Choose a projected CRS for the map; sizes are "
        "from the survey plane."
    )


def test_control_in_an_engineering_grid_cannot_reach_a_map():
    assert refusal(control_of(YARD, ENGINEERING), "EPSG:25831") == (
        "PL-04: there is no way from Works grid to ETRS89 / UTM zone 31N. Choose another CRS for the control or the "
        "map."
    )


def test_a_projection_that_the_library_cannot_work_is_refused():
    """EPSG:3145 is by a method that PROJ names and does not have (a traceback, once)."""
    assert refusal(control_of(YARD, "EPSG:3145")) == (
        "PL-04: there is no way from ETRS89 / Faroe Lambert to ETRS89. Choose another CRS for the control or the map."
    )


def outside(lon, lat, crs):
    return (
        f"PL-04: the site lies at {lon}, {lat} (longitude, latitude), out of the area of {open_crs(crs).name} "
        f"({open_crs(crs).area_of_use.name}). Check the CRS, the unit and the column order of the control."
    )


def test_x_and_y_exchanged_are_out_of_the_area():
    swapped = {mark: place[::-1] for mark, place in YARD.items()}
    assert refusal(control_of(swapped)) == outside("45.422", "3.416", "EPSG:25831")


def test_another_countrys_grid_is_out_of_the_area():
    assert refusal(control_of(YARD, "EPSG:27700")) == outside("172.802", "78.822", "EPSG:27700")
    assert refusal(control_of({"A": (-60.0, 10.0)}, "EPSG:4258"), "EPSG:25831") == outside(
        "-60.000", "10.000", "EPSG:25831"
    )


def test_feet_in_a_grid_of_metres_are_out_of_the_area():
    """The other way round (metres in a grid of feet) may stay inside; the base between marks shows that (PL-02)."""
    message = refusal(control_of({"A": (3020000.0, 300000.0)}, "EPSG:32119"))
    assert "out of the area of NAD83 / North Carolina (" in message


@pytest.mark.parametrize("x", [math.inf, -math.inf, math.nan, 1e30])
def test_a_coordinate_beyond_any_map_is_refused(x):
    assert refusal(control_of({"A": (x, 5712850.0), "B": YARD["B"]})) == (
        "PL-04: the control points cannot be brought from ETRS89 / UTM zone 31N to ETRS89: they lie outside what these "
        "can hold. Check the CRS and the column order."
    )


def test_degrees_beyond_any_map_are_refused():
    assert refusal(control_of({"A": (3.1, 95.0)}, "EPSG:4258"), "EPSG:25831") == (
        "PL-04: the control points cannot be brought from ETRS89 to ETRS89 / UTM zone 31N: they lie outside what these "
        "can hold. Check the CRS and the column order."
    )


def test_a_datum_that_nothing_leads_to_is_refused():
    grid = "+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996 +x_0=400000 +y_0=-100000 +ellps=airy"
    assert refusal(control_of({"A": (-4.2, 55.9)}, "EPSG:4326"), grid) == (
        "PL-04: from WGS 84 to unknown only a rough way is known here (it can be 100 m off). Give the control in "
        "unknown."
    )


def test_a_known_way_between_datums_is_taken_and_noted():
    """OSGB36 by its Helmert way: good to some metres where the grid is not installed."""
    located = locate_control(control_of({"A": (530000.0, 180000.0)}, "EPSG:27700"), "EPSG:25831", 0.0)
    assert 0.0 < located.accuracy < 25.0
    (note,) = located.findings
    assert (note.code, note.severity, note.place, note.file) == (
        "PL-04",
        Severity.NOTE,
        "survey",
        "control.csv",
    )
    assert note.message == (
        "The map points were brought from OSGB36 / British National Grid to ETRS89 / UTM zone 31N by a way that is good to "
        f"{located.accuracy:.2g} m: the whole site can be that far off. Its sizes are not touched."
    )
    assert note.remedy_text == "Give them in ETRS89 / UTM zone 31N where that matters."


def test_two_grids_of_one_datum_need_no_way_between_datums():
    metres = {"A": (920497.6, 91440.2), "B": (920509.6, 91437.7)}
    located = locate_control(control_of(metres, "EPSG:32119"), "EPSG:2264", 0.0)
    assert located.accuracy == 0.0
    assert located.findings == ()
    assert located.plane.crs == open_crs("EPSG:2264")
    # Feet on the map, metres in the plane; lines between two projections bend by less than 1e-9 over 12 m.
    here = locate_control(control_of(metres, "EPSG:32119"), None, 0.0)
    assert located.bases["A", "B"] == pytest.approx(here.bases["A", "B"], rel=1e-9)


def test_longitude_and_latitude_go_straight_to_the_plane():
    geod = pyproj.Geod(ellps="GRS80")
    lon, lat, _ = geod.fwd(3.178, 51.567, 60.0, 24.0)
    located = locate_control(
        control_of({"A": (3.178, 51.567), "B": (lon, lat)}, "EPSG:4258"), "EPSG:25831", 0.0
    )
    assert located.bases == {("A", "B"): pytest.approx(24.0, rel=1e-9)}


def test_a_site_over_the_180th_meridian_has_its_plane_in_its_middle():
    """The mean of 179.9999 and -179.9999 is no place near either (the plane lay at longitude 0, once)."""
    places = {"A": (179.9999, -17.0), "B": (-179.9999, -17.0)}
    located = locate_control(control_of(places, "EPSG:4326"), "EPSG:3832", 0.0)
    assert abs(located.plane.lon) == pytest.approx(180.0, abs=1e-9)
    _, _, length = pyproj.Geod(ellps="WGS84").inv(179.9999, -17.0, -179.9999, -17.0)
    assert located.bases["A", "B"] == pytest.approx(length, rel=1e-9)
    assert length == pytest.approx(21.3, abs=0.1)


def test_a_datum_in_grads_from_paris_has_its_plane_at_the_site():
    """Grads were taken for degrees, once: the plane stood 580 km away, lengths came out 4e-7 too long and the
    grid-to-ground factor 0.4 % wrong."""
    crs = open_crs("EPSG:27572")
    places = {"A": (530000.0, 2200000.0), "B": (530024.0, 2200007.0)}
    located = locate_control(control_of(places, "EPSG:27572"), None, 0.0)
    way = pyproj.Transformer.from_crs(crs, crs.geodetic_crs, always_xy=True)
    grads = np.array([way.transform(*place) for place in places.values()])
    ends = grads * 0.9 + (2.5969213 * 0.9, 0.0)
    assert (located.plane.lon, located.plane.lat) == pytest.approx(tuple(grads.mean(axis=0) * 0.9), abs=1e-12)
    _, _, length = crs.get_geod().inv(*ends[0], *ends[1])
    assert located.bases["A", "B"] == pytest.approx(length, rel=1e-9)
    grid = math.dist(*places.values())
    assert located.plane.grid_to_ground == pytest.approx(length / grid, rel=1e-8)


@pytest.mark.parametrize("crs", ["EPSG:25831+5730", "EPSG:25831"])
def test_the_height_part_of_a_compound_crs_is_left_aside(crs):
    located = locate_control(control_of(YARD, crs), None, 0.0)
    assert located.plane.crs == open_crs("EPSG:25831")
    assert plan_crs(open_crs(crs)) == open_crs("EPSG:25831")


def test_without_any_height_the_plane_is_at_0_and_that_is_noted():
    located = locate_control(control_of(YARD), None, None)
    assert located.plane.height == 0.0
    (note,) = located.findings
    assert (note.code, note.severity, note.place, note.file) == (
        "HT-01",
        Severity.NOTE,
        "survey",
        "control.csv",
    )
    assert note.message == (
        "The survey plane is taken at height 0 (none is known): each 100 m above makes true lengths 1.6e-5 longer."
    )
    assert note.remedy_text == (
        "Give the height of the ground above the ellipsoid, or the separation, where that matters."
    )


def test_a_height_in_its_own_datum_is_taken_for_one_above_the_ellipsoid_and_that_is_noted():
    located = locate_control(control_of(YARD, z={"A": 84.0, "B": 85.0}), None, None)
    assert located.plane.height == 84.5
    (note,) = located.findings
    assert note.message == (
        "The survey plane is taken at 84.5 m: the control's height in its own datum, taken for one above the ellipsoid "
        "(no `# separation:` is given; 50 m would change the map's lengths by 8e-6, the measured sizes not at all)."
    )


def test_a_level_mark_without_a_point_gives_the_plane_its_height():
    located = locate_control(control_of({**YARD, "BM1": None}, z={"BM1": 84.81}), None, None)
    assert located.plane.height == 84.81
    assert [p.mark for p in located.points] == ["A", "B"]


@pytest.mark.parametrize("separation", [45.5, -33.902, 0.0])
def test_with_the_separation_the_height_is_ellipsoidal_and_nothing_is_noted(separation):
    located = locate_control(control_of(YARD, z={"A": 84.0}, separation=separation), None, None)
    assert located.plane.height == pytest.approx(84.0 + separation, abs=1e-12)
    assert located.findings == ()


def test_a_height_that_is_told_counts_before_the_controls():
    located = locate_control(control_of(YARD, z={"A": 84.0}, separation=45.0), None, 1300.0)
    assert located.plane.height == 1300.0
    assert located.findings == ()


def test_separation_without_a_height_is_told_as_no_height():
    located = locate_control(control_of(YARD, separation=45.0), None, None)
    assert located.plane.height == 0.0
    assert [f.code for f in located.findings] == ["HT-01"]


def test_points_keep_their_sigma_use_and_row():
    located = locate_control(control_of(YARD, sd=0.025, checks=("B",), common_sd=0.1), None, 0.0)
    a, b = located.points
    assert (a.mark, a.sd, a.is_check, a.row.line) == ("A", 0.025, False, 2)
    assert (b.mark, b.is_check, b.row.line) == ("B", True, 3)
    assert located.common == 0.1
    assert located.tests == 1
    assert locate_control(control_of(YARD), None, 0.0).points[0].sd == PICK_SD


def test_one_point_stands_at_the_origin_of_the_plane():
    located = locate_control(control_of({"A": YARD["A"]}), None, 0.0)
    assert located.points[0].xy == pytest.approx([0.0, 0.0], abs=2e-9)
    assert located.bases == {}
    assert located.tests == 0
