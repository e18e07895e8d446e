# SPDX-License-Identifier: GPL-2.0-or-later
"""Whole lists of points that other programs wrote, every point held against the csv module or a split of the lines."""

from __future__ import annotations

import csv
import math

import numpy as np
import pytest
from samples import sample_files

from plugin.core.findings import Decision, Decisions
from plugin.core.read.job import read_job
from plugin.core.read.points.point_list import read_point_list

METRES = Decision("IN-02", "survey", "m")


def sample(folder, name):
    (path,) = [path for path in sample_files(f"points/{folder}", name, 1) if path.name == name]
    return path


def named_rows(path, columns):
    """The rows' names and some columns of a table that R wrote, by the csv module alone; NaN for a column ""."""
    with path.open(newline="", encoding="utf-8") as stream:
        header, *rows = list(csv.reader(stream))
    at = [header.index(name) if name else None for name in columns]
    values = [[math.nan if i is None else float(row[i]) for i in at] for row in rows]
    return tuple(row[0] for row in rows), np.array(values)


def plain_rows(path, separator=None):
    """The numbers of all lines that hold some, by splitting them."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return np.array(
        [
            [float(word) for word in line.split(separator)]
            for line in lines
            if line.strip() and not line.startswith("#")
        ]
    )


# How many rows each has stands in R's manual of the data set too.
@pytest.mark.parametrize(
    ("name", "columns", "count", "names"),
    [
        ("topo.csv", ("x", "y", "z"), 52, ("1", "52")),
        ("CobarOre.csv", ("x", "y", "z"), 38, ("1", "38")),
        ("npr1.csv", ("x", "y", ""), 104, ("86-1B", "48-36S")),
        ("brambles.csv", ("x", "y", ""), 823, ("1", "823")),
        ("seals.csv", ("long", "lat", ""), 1155, ("1", "1155")),
    ],
)
def test_tables_of_r_give_every_point_under_the_name_of_its_row(name, columns, count, names):
    path = sample("r", name)
    stations, expected = named_rows(path, columns)
    (walk,) = read_point_list(name, path.read_bytes(), Decisions([METRES])).walks
    assert (len(walk), walk.station[0], walk.station[-1]) == (count, *names)
    assert walk.station == stations
    assert np.array_equal(walk.xy, expected[:, :2])
    assert np.array_equal(walk.z, expected[:, 2], equal_nan=True)
    assert walk.keys.crs == ("EPSG:4326" if "long" in columns else None)


def test_longitudes_from_0_to_360_are_told_and_the_others_are_read():
    path = sample("r", "quakes.csv")
    stations, expected = named_rows(path, ("long", "lat"))
    found = read_point_list("quakes.csv", path.read_bytes(), Decisions([METRES]))
    east = expected[:, 0] <= 180
    assert (len(expected), int(east.sum())) == (1000, 292)
    assert np.array_equal(found.walks[0].xy, expected[east])
    first = int(np.flatnonzero(~east)[0])
    assert found.findings[0].place == f"quakes:{stations[first]}"
    assert found.findings[0].message == (
        f'quakes.csv, line {first + 2}, column long: "{expected[first, 0]:g}" is not from -180 to 180.'
    )


ORDER = "easting, northing, elevation"


@pytest.mark.parametrize(
    ("name", "separator"),
    [
        ("hemisphr.dat", None),
        ("whale.dat", None),
        ("glass.dat", None),
        ("klein.dat", None),
        ("triangle.dat", None),
        ("clip14in.dat", None),
        ("dodecahedron.dat", None),
        ("truncated_cube.dat", None),
        ("scatter2.dat", None),
        ("moli3.dat", None),
        ("silver.dat", None),
        ("arrowstyle.dat", "\t"),
        ("icosahedron.dat", ","),
    ],
)
def test_lists_without_header_give_every_point_once_their_order_is_answered(name, separator):
    path = sample("gnuplot", name)
    expected = plain_rows(path, separator)
    place = f"{name.partition('.')[0]}:1"
    asked = read_point_list(name, path.read_bytes(), Decisions([METRES]))
    assert [(finding.code, finding.place) for finding in asked.findings] == [("IN-01", place)]
    assert ORDER in asked.findings[0].answers
    (walk,) = read_point_list(
        name, path.read_bytes(), Decisions([METRES, Decision("IN-01", place, ORDER)])
    ).walks
    assert len(walk) == len(expected) > 5
    assert np.array_equal(walk.xy, expected[:, :2])
    assert np.array_equal(walk.z, expected[:, 2])


def test_two_columns_without_a_name_are_read_where_they_were_chosen():
    path = sample("gnuplot", "world.dat")
    expected = plain_rows(path)
    read = read_job({"world.dat": path.read_bytes()}, ("longitude", "latitude"))
    (walk,) = read.job.walks
    is_told = np.abs(expected[:, 0]) > 180  # some points of its coast lie beyond the date line
    assert np.array_equal(walk.xy, expected[~is_told])
    assert len(read.findings) == is_told.sum() > 0


def test_a_tabbed_header_of_latitude_and_longitude_gives_the_points():
    path = sample("gnuplot", "WorldEnergy.dat")
    rows = [line.split("\t") for line in path.read_text(encoding="utf-8").splitlines()]
    (walk,) = read_point_list(path.name, path.read_bytes(), Decisions()).walks
    assert rows[0][:2] == ["Latitude", "Longitude"]
    assert walk.xy.tolist() == [[float(row[1]), float(row[0])] for row in rows[1:]]
    assert walk.extra["Coal"] == tuple(row[3] for row in rows[1:])


def test_names_in_a_comment_above_the_rows_are_its_header():
    path = sample("gnuplot", "energy_circles.dat")
    rows = [line.split("\t") for line in path.read_text(encoding="utf-8").splitlines() if line.strip()]
    (walk,) = read_point_list(path.name, path.read_bytes(), Decisions()).walks
    assert rows[0][:2] == ["#Latitude", "Longitude"]
    assert walk.xy.tolist() == [[float(row[1]), float(row[0])] for row in rows[1:]]
    assert walk.extra["Source"] == tuple(row[3].strip('"') for row in rows[1:])


def test_columns_that_are_marked_as_degrees_are_asked_about_as_the_place():
    path = sample("gnuplot", "cities.dat")
    with path.open(newline="", encoding="utf-8") as stream:
        rows = [row for row in csv.reader(stream, delimiter="\t") if row]
    order = "number, description, other, latitude, longitude"
    asked = read_point_list(path.name, path.read_bytes(), Decisions())
    assert order in asked.findings[0].answers
    (walk,) = read_point_list(
        path.name, path.read_bytes(), Decisions([Decision("IN-01", asked.findings[0].place, order)])
    ).walks
    assert walk.xy.tolist() == [[float(row[k].rstrip("°")) for k in (4, 3)] for row in rows]
    assert walk.station == tuple(row[0].strip() for row in rows)
