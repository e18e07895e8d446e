# SPDX-License-Identifier: GPL-2.0-or-later
"""Logs whose x and y are in a CRS: their sizes are true on the ground, whatever the CRS and its unit."""

from __future__ import annotations

import numpy as np
import pyproj
import pytest

from plugin.core.errors import Refused
from plugin.core.findings import Severity
from plugin.core.measure.chain import Settings, survey_files

CORNERS = np.array([(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0), (0.0, 0.0)])
LON, LAT = 3.0, 51.5


def on_the_ground(crs):
    """The corners of a yard of 40 m by 30 m on the ellipsoid, by geodesics, in a CRS."""
    lon, lat, _ = pyproj.Geod(ellps="GRS80").fwd(
        np.full(5, LON), np.full(5, LAT), np.degrees(np.arctan2(*CORNERS.T)), np.hypot(*CORNERS.T)
    )
    x, y = pyproj.Transformer.from_crs("EPSG:4258", crs, always_xy=True).transform(lon, lat)
    return np.column_stack([x, y])


def log(xy, crs, units="m", more=""):
    head = f"# units: {units}\n# crs: {crs}\n{more}walk,station,x,y,z,feature,geometry\n"
    return (
        head + "".join(f"W1,{i},{x!r},{y!r},,Yard,area\n" for i, (x, y) in enumerate(xy.tolist()))
    ).encode()


def yard(data, **settings):
    survey = survey_files({"w.csv": data}, Settings(**settings))
    return survey.areas[0], survey


@pytest.mark.parametrize("crs", ["EPSG:4258", "EPSG:25831", "EPSG:28992", "EPSG:3857", "EPSG:31370"])
def test_a_log_in_a_crs_is_measured_on_the_ground(crs):
    if crs in ("EPSG:28992", "EPSG:31370"):
        # Datums of their own: the yard is laid out in them, so that no datum's accuracy comes in.
        base = pyproj.CRS(crs).geodetic_crs
        lon, lat, _ = base.get_geod().fwd(
            np.full(5, 4.0), np.full(5, 51.2), np.degrees(np.arctan2(*CORNERS.T)), np.hypot(*CORNERS.T)
        )
        xy = np.column_stack(pyproj.Transformer.from_crs(base, crs, always_xy=True).transform(lon, lat))
    elif crs == "EPSG:3857":
        xy = np.column_stack(
            pyproj.Transformer.from_crs("EPSG:4326", crs, always_xy=True).transform(
                *on_the_ground("EPSG:4258").T
            )
        )
    else:
        xy = on_the_ground(crs)
    area, survey = yard(log(xy, crs), height=0.0)
    assert area.area.value == pytest.approx(1200.0, abs=2e-4)
    assert area.perimeter.value == pytest.approx(140.0, abs=2e-5)
    # A map is not in degrees: such a log goes to the UTM zone of its datum unless a CRS is chosen for it.
    assert survey.placement.status == "placed"
    assert survey.placement.crs == ("EPSG:25831" if crs == "EPSG:4258" else crs)
    told = [f.message for f in survey.findings if "in degrees" in f.message]
    zone = (
        "The log w.csv is in degrees, at 3.0003, 51.5001 (longitude, latitude), and no CRS was chosen for the map: the "
        "survey goes to ETRS89 / UTM zone 31N."
    )
    assert told == ([zone] if crs == "EPSG:4258" else [])


def test_the_unit_of_the_crs_counts_and_not_the_units_key():
    feet = "EPSG:2277"
    base = pyproj.CRS(feet).geodetic_crs
    lon, lat, _ = base.get_geod().fwd(
        np.full(5, -97.7), np.full(5, 30.3), np.degrees(np.arctan2(*CORNERS.T)), np.hypot(*CORNERS.T)
    )
    xy = np.column_stack(pyproj.Transformer.from_crs(base, feet, always_xy=True).transform(lon, lat))
    assert yard(log(xy, feet, "us-ft"), height=0.0)[0].area.value == pytest.approx(1200.0, abs=2e-4)
    assert yard(log(xy, feet, "m"), height=0.0)[0].area.value == pytest.approx(1200.0, abs=2e-4)


def test_a_log_in_degrees_needs_no_units():
    data = log(on_the_ground("EPSG:4258"), "EPSG:4258").replace(b"# units: m\n", b"")
    assert yard(data)[0].area.value == pytest.approx(1200.0, abs=2e-4)


def test_the_height_of_the_ground_makes_lengths_longer():
    data = log(on_the_ground("EPSG:25831"), "EPSG:25831")
    low, high = yard(data, height=0.0)[0], yard(data, height=1000.0)[0]
    radius = 6_380_000.0
    assert high.perimeter.value / low.perimeter.value - 1.0 == pytest.approx(1000.0 / radius, abs=1e-6)


def test_the_height_taken_is_told_where_nobody_gave_one():
    _, survey = yard(log(on_the_ground("EPSG:25831"), "EPSG:25831"))
    told = [f for f in survey.findings if f.code == "HT-01"]
    assert [f.severity for f in told] == [Severity.NOTE]
    assert told[0].message == (
        "Logs in a CRS are measured on the ground at a height of 0.0 m (the mean of their own heights, or 0 where "
        "they have none): each 100 m above makes true lengths 1.6e-5 longer."
    )


@pytest.mark.parametrize("crs", ["EPSG:999999", "yard grid", "EPSG:5709", "EPSG:4978"])
def test_a_crs_that_cannot_be_used_is_refused(crs):
    with pytest.raises(Refused) as told:
        survey_files({"w.csv": log(CORNERS, crs)})
    assert str(told.value) == (
        f'w.csv: the CRS "{crs}" of the log is not known, or is of no place on the earth. Give an authority code such '
        "as EPSG:25831, or take the line out if x and y are in a frame of the walk's own."
    )


def test_columns_in_the_wrong_order_are_refused():
    with pytest.raises(Refused) as told:
        survey_files({"w.csv": log(on_the_ground("EPSG:25831")[:, ::-1], "EPSG:25831")})
    assert str(told.value) == (
        "w.csv: the stations of walk W1 lie outside what the CRS EPSG:25831 can hold. Check the CRS, the unit and the "
        "order of the columns x (east or longitude) and y (north or latitude)."
    )


def test_degrees_that_are_none_are_refused():
    with pytest.raises(Refused):
        survey_files({"w.csv": log(CORNERS + 500_000.0, "EPSG:4326")})


def test_a_walk_in_a_crs_and_one_in_a_frame_of_its_own_meet_at_their_marks():
    xy = on_the_ground("EPSG:25831")[:4]
    head = "walk,station,x,y,mark\n"
    one = "# units: m\n# crs: EPSG:25831\n" + head
    one += "".join(f"W1,{i},{x!r},{y!r},{m}\n" for i, ((x, y), m) in enumerate(zip(xy.tolist(), "ABCD")))
    two = "# units: m\n" + head
    turned = CORNERS[:4] @ np.array([[0.6, 0.8], [-0.8, 0.6]]) + 7.0
    two += "".join(f"W2,{i},{x!r},{y!r},{m}\n" for i, ((x, y), m) in enumerate(zip(turned.tolist(), "ABCD")))
    survey = survey_files({"one.csv": one.encode(), "two.csv": two.encode()}, Settings(height=0.0))
    assert not [f for f in survey.findings if f.severity is Severity.STOP]
    places = {row.mark: np.array(row.point[:2]) for row in survey.marks}
    assert np.hypot(*(places["C"] - places["A"])) == pytest.approx(50.0, abs=1e-4)
