# SPDX-License-Identifier: GPL-2.0-or-later
"""Point lists: every order, separator and header, and everything that can be wrong with them."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.errors import BadInput
from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.read.points.columns import CHOICE_WORDS
from plugin.core.read.points.point_list import read_point_list
from plugin.core.read.walk_log import read_walk_log, write_walk_log
from plugin.core.units import UNITS
from plugin.core.walk import ErrorGrowth, Kind, Leg

M = "# units: m\n"

# Mahun, open-access surveying course, Traverse Computations ch. G, Example 1: adjusted four-sided traverse, N and E in
# feet; the cross sums are as published, the area is half their difference
MAHUN_NE = [(500.0, 2000.0), (323.614, 1561.426), (526.996, 1488.321), (719.336, 1686.956)]
MAHUN_SUMS = [[780713.0, 481641.5, 889019.1, 1438672.0], [647228.0, 822865.2, 1070602.9, 843478.0]]
MAHUN_AREA_FT2 = 102935.75
# Purdue University ASM 215, traverse example: balanced coordinates, N and E in feet
PURDUE_NE = [
    (10000.0, 10000.0),
    (10255.96, 10125.66),
    (10102.44, 10716.31),
    (9408.37, 10523.62),
    (9611.34, 10517.55),
]


def read(text, answers=(), columns=None, file="in/yard.v2.csv"):
    data = text if isinstance(text, bytes) else text.encode()
    rows = [Decision(*answer) for answer in answers]
    return read_point_list(file, data, Decisions(rows), columns)


def walk_of(text, *args, **named):
    (walk,) = read(text, *args, **named).walks
    return walk


def told(text, *args, **named):
    """Code, place, message and remedy of each finding."""
    return [(f.code, f.place, f.message, f.remedy_text) for f in read(text, *args, **named).findings]


def refusal(text, *args, **named):
    with pytest.raises(BadInput) as caught:
        read(text, *args, **named)
    return str(caught.value)


def ne_list(points, *, east_first):
    header = "point,easting,northing" if east_first else "point,northing,easting"
    rows = ((i, e, n) if east_first else (i, n, e) for i, (n, e) in enumerate(points, 1))
    return "# units: ft\n" + header + "\n" + "".join("{},{!r},{!r}\n".format(*row) for row in rows)


# ----------------------------------------------------------------------------------------- published points


def test_a_published_traverse_has_its_published_area_in_either_order():
    north_first, east_first = (walk_of(ne_list(MAHUN_NE, east_first=first)) for first in (False, True))
    np.testing.assert_array_equal(north_first.xy, east_first.xy)
    e, n = (north_first.xy / UNITS["ft"].factor).T
    np.testing.assert_allclose([n * np.roll(e, -1), e * np.roll(n, -1)], MAHUN_SUMS, atol=0.6)  # as printed
    area = 0.5 * np.sum(e * np.roll(n, -1) - n * np.roll(e, -1))
    assert abs(area) == pytest.approx(MAHUN_AREA_FT2, abs=1.5)  # the play of the printed sums
    assert area < 0  # walked clockwise, as its bearings have it: east and north are not exchanged


def test_published_coordinates_come_out_as_they_are_in_either_order():
    for first in (False, True):
        walk = walk_of(ne_list(PURDUE_NE, east_first=first))
        np.testing.assert_allclose(walk.xy, np.array(PURDUE_NE)[:, ::-1] * 0.3048, rtol=1e-15)
        assert walk.station == ("1", "2", "3", "4", "5")


# ---------------------------------------------------------------------------------- columns named by a header

CELLS = {"Point No": ("7", "P 2"), "Northing": ("100.5", "-1"), "Easting": ("200.25", "1e3"), "Elev.": ("3", ""),
         "Feature Code": ("EP", "tree")}  # fmt: skip


def is_the_list(walk):
    np.testing.assert_array_equal(walk.xy, [[200.25, 100.5], [1000.0, -1.0]])
    np.testing.assert_array_equal(walk.z, [3.0, np.nan])
    assert (walk.station, walk.texts, walk.extra) == (("7", "P 2"), {"note": ("EP", "tree")}, {})
    return True


@pytest.mark.parametrize("order", list(permutations(CELLS)))
def test_any_order_of_columns_gives_the_same_points(order):
    rows = [order, *(tuple(CELLS[name][i] for name in order) for i in (0, 1))]
    for separator in (",", ";", "\t", "|", " ; "):
        assert is_the_list(walk_of(M + "\n".join(map(separator.join, rows))))


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "latin-1"])
@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("Nr;Rechtswert;Hochwert;Höhe;Bemerkung\n1;1,5;2,5;3,5;a b\n", "a b"),
        ("Nr\tx\ty\tz\tcode\n1\t1,5\t2,5\t3,5\tü\n", "ü"),
        ("Nr  x    y    z    code\n1   1,5  2,5  3,5  a b\n", "a b"),
        ("Nr|e|n|h|desc\n1|1,5|2,5|3,5|a, b; c\n", "a, b; c"),
        ('"Nr","east","north","rl","note"\n"1","1.5","2.5","3.5","a ""b"", c"\n', 'a "b", c'),
        ('P N E Z Code\n1 2.5 1.5 3.5 "a  b"\n', "a  b"),
    ],
)
def test_separators_encodings_and_line_ends_do_not_matter(text, note, encoding, newline):
    walk = walk_of((M + text).replace("\n", newline).encode(encoding))
    assert (walk.xy.tolist(), walk.z.tolist(), walk.station, walk.line.tolist()) == (
        [[1.5, 2.5]],
        [3.5],
        ("1",),
        [3],
    )
    assert walk.texts == {"note": (note,)}


@pytest.mark.parametrize(
    ("header", "xy"),
    [
        ("northing,easting", [2, 1]), ("NORTH,East", [2, 1]), ("n,e", [2, 1]), ("E,N", [1, 2]), ("x,y", [1, 2]),
        ("Y,X", [2, 1]), ("Y (East),X (North)", [1, 2]), ("y (northing),x (easting)", [2, 1]),
        ("Hochwert,Rechtswert", [2, 1]), ("norte,este", [2, 1]), ("est,nord", [1, 2]), ("lat,lng", [2, 1]),
        ("Longitude (deg),Latitude (deg)", [1, 2]), ("northing_m,easting m", [2, 1]),
    ],
)  # fmt: skip
def test_the_words_for_the_two_coordinates(header, xy):
    np.testing.assert_array_equal(walk_of(M + header + "\n1,2\n").xy, [xy])


def test_words_win_over_letters_and_what_is_left_is_kept_apart_from_the_coordinates():
    text = M + "x,y,easting,northing,height,level,n,station,id,time,Colour\n1,2,3,4,5,6,7,8,9,noon,red\n"
    read_one = read(text)
    (walk,) = read_one.walks
    assert (walk.xy.tolist(), walk.z.tolist(), walk.station) == ([[3.0, 4.0]], [6.0], ("8",))
    assert walk.extra == {
        "x_listed": ("1",), "y_listed": ("2",), "height_listed": ("5",), "n": ("7",), "id": ("9",),
        "time_listed": ("noon",), "Colour": ("red",),
    }  # fmt: skip
    assert [(f.code, f.severity, f.message) for f in read_one.findings] == [
        ("IN-06", Severity.NOTE, ("in/yard.v2.csv: unknown columns are kept as they are: x_listed, y_listed, "
         "height_listed, n, id, time_listed, Colour.")),
    ]  # fmt: skip


def test_a_lone_n_beside_x_and_y_is_the_number():
    assert walk_of(M + "N,X,Y\nA1,2,3\n").station == ("A1",)


def test_the_walk_is_named_by_the_files_stem_and_its_points_err_each_by_itself():
    for file, name in (("in/yard.v2.csv", "yard.v2"), ("a\\b.txt", "b"), ("list", "list"), (".csv", ".csv")):
        walk = walk_of(M + "x,y\n1,2\n", file=file)
        assert (walk.name, walk.file, walk.keys.growth) == (name, file, ErrorGrowth.POINTS)
    assert walk_of(M + "# error-growth: receiver\nx,y\n1,2\n").keys.growth is ErrorGrowth.RECEIVER


def test_the_columns_of_a_log_are_kept_where_they_are_named_so():
    text = (
        M + "pt,e,n,sd_xy,sd_z,mark,feature,part,geometry,leg,item,note,desc\n"
        "1,0,0,0.01,0.02,A,Bed,1,Area,,K1,,x\n2,5,0,,,,Bed,1,area,curve-end,,seen,\n"
    )
    walk = walk_of(text)
    assert (walk.mark, walk.feature, walk.part) == (("A", ""), ("Bed", "Bed"), ("1", "1"))
    assert (walk.kind, walk.leg) == ((Kind.AREA,) * 2, (Leg.DIRECT, Leg.CURVE_END))
    np.testing.assert_array_equal([walk.sd_xy, walk.sd_z], [[0.01, np.nan], [0.02, np.nan]])
    assert (walk.texts, walk.extra) == ({"note": ("", "seen"), "item": ("K1", "")}, {"desc": ("x", "")})
    plain = walk_of(M + "e,n,Feature name\n1,2,Bed\n")
    assert (plain.feature, plain.kind, plain.extra) == (("",), (None,), {"Feature name": ("Bed",)})


def test_two_sigmas_in_plan_become_one_per_axis_and_half_a_pair_is_kept_unread():
    # the mean variance of the two axes: (0.03^2 + 0.04^2) / 2
    walk = walk_of("# units: cm\ne,n,sd e,sd n\n100,200,3,4\n1,2,,1\n")
    np.testing.assert_allclose(walk.sd_xy, [np.sqrt(0.00125), np.nan], rtol=1e-15)
    assert walk_of(M + "e,n,sd_e\n1,2,3\n").extra == {"sd_e": ("3",)}


def test_sigmas_may_have_a_unit_of_their_own():
    walk = walk_of("e (m),n (m),sd_xy (mm),sd z [cm]\n1,2,15,3\n")
    assert (walk.xy.tolist(), walk.keys.units) == ([[1, 2]], "m")
    np.testing.assert_allclose([walk.sd_xy[0], walk.sd_z[0]], [0.015, 0.03], rtol=1e-15)


def test_missing_numbers_are_given_and_repeated_ones_are_told():
    assert walk_of(M + "e,n\n1,2\n3,4\n").station == ("1", "2")
    assert walk_of(M + "id,e,n\n,1,2\n1,1,2\n,3,4\n3,3,4\n").station == ("2", "1", "4", "3")
    assert walk_of(M + "Station,e,n\n,1,2\nA,1,2\n").station == ("1", "A")
    read_one = read(M + "id,e,n\nA,1,2\nA,3,4\n", [("IN-04", "yard.v2:A", "as recorded")])
    (finding,) = read_one.findings
    assert read_one.walks[0].station == ("A", "A (2)")
    assert (finding.severity, finding.answer, finding.message) == (
        Severity.STOP, "as recorded",
        "in/yard.v2.csv, line 4: station A of walk yard.v2 stands here again, first in line 3.",
    )  # fmt: skip


def test_blanks_between_cells_leave_descriptions_whole():
    text = M + "Pt No Northing (m) Easting (m) Elev Code\n1 10 20 3 edge of path\n2 11 21 3 55\n3 12 22 3\n"
    walk = walk_of(text)
    assert walk.xy.tolist() == [[20, 10], [21, 11], [22, 12]]
    assert walk.texts == {"note": ("edge of path", "55", "")}


def test_blanks_in_a_name_that_is_not_known_move_no_figure():
    assert told(M + "Grid North East Elev Code\n1 100 200 3\n") == [
        ("IN-01", "survey", 'in/yard.v2.csv, line 3: "1 100 200 3" has 4 fields where the header has 5.',
         "Complete the line, or quote a field that holds the separator; the rest of the file was read."),
        ("IN-06", "survey", "in/yard.v2.csv: unknown columns are kept as they are: Grid.", "None needed."),
    ]  # fmt: skip


# ------------------------------------------------------------------------------------------------- units, CRS


@pytest.mark.parametrize(
    ("header", "unit"),
    [
        ("Easting (m),Northing (m),Elev (m)", "m"), ("easting_ft,northing_ft,elev_ft", "ft"),
        ("E [us-ft],N [us-ft],Z [US survey feet]", "us-ft"), ("East (ft),North,Z", "ft"),
        ("e,n,Elev (FT)", "ft"), ("Easting_us_ft,Northing us ft,z", "us-ft"), ("x mm,y mm,z (mm)", "mm"),
    ],
)  # fmt: skip
def test_a_unit_in_the_header_is_stated(header, unit):
    read_one = read(header + "\n1,2,3\n")
    (walk,) = read_one.walks
    assert (walk.keys.units, walk.keys.unit_m, read_one.findings) == (unit, UNITS[unit].factor, ())
    np.testing.assert_allclose([*walk.xy[0], walk.z[0]], np.array([1, 2, 3]) * UNITS[unit].factor, rtol=1e-15)


def test_units_that_agree_in_other_words_are_one():
    assert walk_of("# units: feet\nEasting (ft),Northing (foot)\n1,2\n").keys.units == "ft"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("e (m),n (ft)\n1,2\n", "the header names two units, m and ft. Give coordinates and heights in one."),
        ("e (ft),n (us-ft)\n1,2\n", "the header names two units, ft and us-ft. Give coordinates and heights in one."),
        ("e (m),n (m),z (ft)\n1,2,3\n", "the header names two units, m and ft. Give coordinates and heights in one."),
        ("e (km),n (km)\n1,2\n",
         'the column "e (km)" is in km, which is not read. Give it in one of: m, ft, us-ft, in, cm, mm.'),
        ("# crs: EPSG:25832\ne (ft),n (ft)\n5e5,53e5\n",
         "the header gives the coordinates in ft, but the CRS EPSG:25832 has metre. Correct the header, or the line crs."),
        ("# crs: EPSG:25832\nlon,lat\n1,2\n",
         ("longitude and latitude are in degrees, but the CRS EPSG:25832 is not. Name a geographic CRS, such as EPSG:4326, "
         "in the line crs.")),
    ],
)  # fmt: skip
def test_units_that_contradict_each_other_are_refused(text, message):
    assert refusal(text) == "in/yard.v2.csv: " + message


def test_units_that_contradict_the_key_line_are_refused_with_its_line():
    assert refusal("# date: today\n# units: m\ne (ft),n (ft)\n1,2\n") == (
        'in/yard.v2.csv, line 2: units is "m", but the header says ft. Keep one of the two.'
    )


def test_a_crs_that_is_not_known_cannot_hold_degrees():
    assert refusal("# crs: EPSG:99999\nlon,lat\n1,2\n") == (
        'The CRS "EPSG:99999" is not known. Give an authority code such as EPSG:25831, or its WKT.'
    )


def test_units_that_nobody_states_are_asked_for_and_answered():
    text = "id,e,n\nA,1,2\n"
    assert told(text) == [
        ("IN-02", "yard.v2:A", "in/yard.v2.csv: the units are not given.",
         'State them in a line "# units: m" above the header, or answer for yard.v2:A with m, ft or us-ft.')
    ]  # fmt: skip
    np.testing.assert_allclose(
        walk_of(text, [("IN-02", "yard.v2:A", "ft")]).xy, [[0.3048, 0.6096]], rtol=1e-15
    )


def test_in_a_crs_the_coordinates_are_its_own_and_the_heights_in_the_unit_told():
    walk = walk_of("# crs: EPSG:25832\neasting (m),northing (m),elev (ft)\n500000,5427000,10\n")
    np.testing.assert_allclose([*walk.xy[0], walk.z[0]], [500000, 5427000, 3.048], rtol=1e-15)


def test_longitude_and_latitude_are_degrees_of_wgs_84_unless_the_list_says():
    text = "name,lat,lon,h\na,48°07.038'N,11°31.000'E,545.4\nb,-48.5,\u221211 30,\n"
    read_one = read(text)
    (walk,) = read_one.walks
    # the first is the published sample of NMEA 0183 GGA: 48.1173, 11.51666667
    np.testing.assert_allclose(walk.xy, [[11.51666667, 48.1173], [-11.5, -48.5]], atol=6e-9)
    assert (walk.keys.crs, walk.z[0], read_one.findings) == ("EPSG:4326", 545.4, ())
    assert walk_of("# crs: EPSG:4258\n" + text).keys.crs == "EPSG:4258"


def test_degrees_beyond_the_globe_are_told_row_by_row():
    text = "id,lat,lon\n1,91,0\n2,0,181\n3,nan,0\n4,1,2\n5,1°60',2\n"
    assert [(place, message, remedy) for _, place, message, remedy in told(text)] == [
        ("yard.v2:1", 'in/yard.v2.csv, line 2, column lat: "91" is not from -90 to 90.',
         "Correct the number, or exchange the columns; the rest of the file was read."),
        ("yard.v2:2", 'in/yard.v2.csv, line 3, column lon: "181" is not from -180 to 180.',
         "Correct the number, or exchange the columns; the rest of the file was read."),
        ("yard.v2:3", 'in/yard.v2.csv, line 4, column lat: "nan" is not in degrees.',
         "Write it like 48.1173 or 48°07'02.3\"N; the rest of the file was read."),
        ("yard.v2:5", "in/yard.v2.csv, line 6, column lat: \"1°60'\" is not in degrees.",
         "Write it like 48.1173 or 48°07'02.3\"N; the rest of the file was read."),
    ]  # fmt: skip
    assert walk_of(text).station == ("4",)
    geographic = "# crs: EPSG:4326\nx,y\n2,91\n2,1\n"
    assert [message for _, _, message, _ in told(geographic)] == [
        'in/yard.v2.csv, line 3, column y: "91" is not from -90 to 90.'
    ]


# ------------------------------------------------------------------------------------- northing for easting

# on the central meridian of a UTM zone the easting is 500,000 m by definition; 5,427 km north of the equator
SWAPPED = "# crs: EPSG:25832\npt,northing,easting\n1,500000,5427000\n2,500010,5427020\n"


def test_coordinates_that_fit_their_crs_only_when_exchanged_are_a_stop():
    read_one = read(SWAPPED)
    (finding,) = read_one.findings
    assert (finding.code, finding.severity, finding.place, finding.answers, finding.line) == (
        "PL-04", Severity.STOP, "yard.v2:1", ("exchange", "as recorded"), 3,
    )  # fmt: skip
    assert finding.message == (
        "in/yard.v2.csv: the points of yard.v2 lie outside the area of EPSG:25832 as recorded, and inside with northing "
        "and easting exchanged."
    )
    assert (
        finding.remedy_text
        == "Name the columns rightly, or answer for yard.v2:1 with exchange or as recorded."
    )
    assert read_one.walks[0].xy.tolist() == [[5427000, 500000], [5427020, 500010]]


def test_the_answer_exchanges_them_or_leaves_them():
    exchanged = read(SWAPPED, [("PL-04", "yard.v2:1", "exchange")])
    assert exchanged.walks[0].xy.tolist() == [[500000, 5427000], [500010, 5427020]]
    assert not exchanged.findings[0].is_open
    kept = read(SWAPPED, [("PL-04", "yard.v2:1", "as recorded")])
    assert kept.walks[0].xy.tolist() == [[5427000, 500000], [5427020, 500010]]
    assert not kept.findings[0].is_open


@pytest.mark.parametrize(
    "text",
    [
        SWAPPED.replace("northing,easting", "easting,northing"),
        # IOGP Guidance Note 7-2, method 9807: a point of the British grid, inside either way
        "# crs: EPSG:27700\ne,n\n577274.99,69740.5\n", "# crs: EPSG:27700\nn,e\n577274.99,69740.5\n",
        "# crs: EPSG:25832\nx,y\n1,2\n", "# crs: EPSG:99999\n# units: m\ne,n\n500000,1\n",
        "# crs: EPSG:25832\nx,y\n1e9,1e9\n", "# crs: EPSG:4978\n# units: m\nx,y\n1,2\n",
        # across the date line: Fiji's grid
        "# crs: EPSG:3460\ne,n\n2000000,4000000\n",
    ],
)  # fmt: skip
def test_what_fits_as_recorded_or_not_at_all_is_not_asked_about(text):
    assert read(text).findings == ()


# ----------------------------------------------------------------------------------- no header, and by choice

BARE = "# units: m\n1,100.5,200.25,3,EP\n2,101,201,4,tree\n"
NEZD = "number, northing, easting, elevation, description"
ENZD = "number, easting, northing, elevation, description"


def test_a_list_without_names_is_not_read_until_its_order_is_answered():
    read_one = read(BARE)
    (finding,) = read_one.findings
    assert read_one.walks == ()
    assert (finding.code, finding.severity, finding.place, finding.line) == (
        "IN-01",
        Severity.STOP,
        "yard.v2:1",
        2,
    )
    assert finding.answers == (NEZD, ENZD, "left out")
    assert finding.message == (
        "in/yard.v2.csv, line 2: the point list has no column names; its first row is 1 | 100.5 | 200.25 | 3 | EP."
    )
    assert finding.remedy_text == (
        "Put a line with the names above it, or answer with the order of the columns; until then its points are not read."
    )


@pytest.mark.parametrize("separator", [",", ";", "\t", "|", " "])
def test_it_is_read_in_the_order_that_is_answered(separator):
    text = BARE.replace(",", separator)
    for order, xy in ((NEZD, [[200.25, 100.5], [201, 101]]), (ENZD, [[100.5, 200.25], [101, 201]])):
        read_one = read(text, [("IN-01", "yard.v2:1", order)])
        (walk,) = read_one.walks
        assert (walk.xy.tolist(), walk.z.tolist(), walk.station) == (xy, [3, 4], ("1", "2"))
        assert (walk.line.tolist(), walk.texts) == ([2, 3], {"note": ("EP", "tree")})
        assert [(f.answer, f.is_open) for f in read_one.findings] == [(order, False)]


def test_left_out_leaves_the_list_out():
    read_one = read(BARE, [("IN-01", "yard.v2:1", "left out")])
    assert (read_one.walks, [f.answer for f in read_one.findings]) == ((), ["left out"])


def test_an_answer_for_the_first_point_is_not_taken_for_the_order():
    text = BARE.replace("100.5", "1OO.5") + "3,102,202,5,wall\n"
    read_one = read(text, [("IN-01", "yard.v2:1", NEZD), ("IN-01", "survey", "left out")])
    assert [(f.place, f.message, f.answer) for f in read_one.findings] == [
        ("yard.v2:1", ("in/yard.v2.csv, line 2: the point list has no column names; its first row is 1 | 1OO.5 | 200.25 | 3 "
         "| EP."), NEZD),
        ("survey", 'in/yard.v2.csv, line 2, column northing: "1OO.5" is not a number.', None),
    ]  # fmt: skip
    assert read_one.walks[0].station == ("2", "3")


@pytest.mark.parametrize(
    ("rows", "orders"),
    [
        ("1,500,600\n2,501,601\n", ["number, northing, easting", "number, easting, northing", "northing, easting, elevation",
                                    "easting, northing, elevation"]),
        ("500.5,600.5,7\n500.5,601,8\n", ["northing, easting, elevation", "easting, northing, elevation"]),
        ("500.5,600.5,7,a\n501,601,8,b\n", ["northing, easting, elevation, description",
                                           "easting, northing, elevation, description"]),
        ("P1,500,600,7\nP2,501,601,8\n", ["number, northing, easting, elevation", "number, easting, northing, elevation"]),
        ("1,wall,500,600,7,x\n2,wall,501,601,8,y\n", ["number, other, northing, easting, elevation, description",
                                                     "number, other, easting, northing, elevation, description"]),
        ("1,500,600,7,0.01,0.02\n2,501,601,8,0.01,0.02\n", ["number, northing, easting, elevation, other, other",
                                                           "number, easting, northing, elevation, other, other"]),
        ("48.1,11.5\n48.2,11.6\n", ["northing, easting", "easting, northing", "latitude, longitude",
                                    "longitude, latitude"]),
        ("a,48°07'N,11°31'E\n", ["number, latitude, longitude"]),
        ("a,11°31',48°7'\n", ["number, latitude, longitude", "number, longitude, latitude"]),
        ("a,111°31',48°7'\nb,111°31',48°7'\n", ["number, longitude, latitude"]),
    ],
)  # fmt: skip
def test_the_orders_offered_are_those_that_the_numbers_allow(rows, orders):
    (finding,) = read(rows).findings
    assert list(finding.answers) == [*orders, "left out"]
    for order in orders:  # each of them can be read
        answered = read(M + rows, [("IN-01", finding.place, order)])
        assert len(answered.walks) == 1
        assert answered.findings[0].answer == order


def test_columns_can_be_chosen_in_place_of_an_answer_and_of_a_header():
    columns = ("number", "easting", "northing", "", "description")
    walk = walk_of(BARE, columns=columns)
    assert (walk.xy.tolist(), walk.extra) == ([[100.5, 200.25], [101, 201]], {"column 4": ("3", "4")})
    read_one = read(BARE.replace("1,", "Nr,Northing,Easting,Elev,Code\n1,", 1), columns=columns)
    (walk,) = read_one.walks
    assert (walk.xy.tolist(), walk.line.tolist(), walk.extra) == (
        [[100.5, 200.25], [101, 201]], [3, 4], {"Elev": ("3", "4")},
    )  # fmt: skip
    assert [f.message for f in read_one.findings] == [
        "in/yard.v2.csv: unknown columns are kept as they are: Elev.",
        "in/yard.v2.csv: the columns were chosen, so its header is not used: Nr, Northing, Easting, Elev, Code.",
    ]


def test_a_unit_in_a_header_that_is_not_used_is_stated_all_the_same():
    walk = walk_of("Nr,Hoch (ft),Rechts (ft)\n1,2,3\n", columns=("number", "northing", "easting"))
    np.testing.assert_allclose(walk.xy, [[0.9144, 0.6096]], rtol=1e-15)


def test_a_first_row_with_one_bad_number_is_no_header():
    text = M + "1,100,2OO\n2,101,201\n"
    assert [message for _, _, message, _ in told(text, columns=("number", "northing", "easting"))] == [
        'in/yard.v2.csv, line 2, column easting: "2OO" is not a number.'
    ]


@pytest.mark.parametrize(
    "columns",
    [
        (), ("number", "northing"), ("number", "north", "easting", "elevation", "description"),
        ("northing", "northing", "easting", "", ""), ("northing", "easting", "longitude", "latitude", ""),
        ("longitude", "easting", "", "", ""),
    ],
)  # fmt: skip
def test_a_choice_of_wrong_words_is_refused_with_the_words_allowed(columns):
    assert refusal(BARE, columns=columns) == (
        f'in/yard.v2.csv: the columns "{", ".join(columns)}" cannot be used. Name each column of the file once, with '
        "easting and northing or longitude and latitude among them; the words are number, northing, easting, elevation, "
        "description, longitude, latitude, and other for a column that is only kept."
    )


def test_a_choice_of_too_few_or_too_many_columns_is_refused():
    for columns in (("northing", "easting"), ("northing", "easting", "", "", "", "other")):
        assert refusal(BARE, columns=columns) == (
            f"in/yard.v2.csv has 5 columns, but {len(columns)} were named: {', '.join(columns)}. Name each column once, and "
            "give other for one that is only kept."
        )


# --------------------------------------------------------------------------------------------- what is refused


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "in/yard.v2.csv is empty. Give a table with a header row."),
        ("# units: m\n", "in/yard.v2.csv has no points. Give a line with column names, and a line a point."),
        ("e,n\n", "in/yard.v2.csv: the point list has a header but no points. Give a row a point."),
        ("e,n\n1,\0 2\n", "in/yard.v2.csv, line 2: a NUL byte stands here, so this is not text. Save it again as UTF-8 CSV."),
        ("id,easting,z\n1,2,3\n",
         ("in/yard.v2.csv: the point list has no two columns that give a place. Its header needs easting and northing, x and "
         "y, or longitude and latitude; it has id, easting, z. Name them, or choose the columns.")),
        ("easting,y\n1,2\n",
         ("in/yard.v2.csv: the point list has no two columns that give a place. Its header needs easting and northing, x and "
         "y, or longitude and latitude; it has easting, y. Name them, or choose the columns.")),
        ("walk,easting,northing\nW,1,2\n",
         ("in/yard.v2.csv has a column walk, so it is a walk log, not a point list. Give it the columns walk, station, x and "
         "y.")),
        ("a,1\nb,2\n",
         ("in/yard.v2.csv has no column names, and its rows do not show which columns give a place. Put a line with the "
         "names above them, such as: number, northing, easting, elevation, description.")),
        ("W1,1,0,0\nW1,2,5,0\n",
         ("in/yard.v2.csv has no column names, and its rows do not show which columns give a place. Put a line with the "
         "names above them, such as: number, northing, easting, elevation, description.")),
        ("1," * 600 + "\n", "in/yard.v2.csv has 601 columns; more than 500 cannot be a point list."),
        ("e,n" + ",a" * 600 + "\n1,2\n",
         "in/yard.v2.csv has 602 columns; more than 500 cannot be a point list."),
        ("e,n,Easting\n1,2,3\n".replace("Easting", "e"),
         'The header of in/yard.v2.csv names the column "e" twice (fields 1 and 3). Rename one.'),
    ],
)  # fmt: skip
def test_a_file_that_cannot_be_used_is_refused_in_words(text, message):
    assert refusal(text) == message


def test_a_field_that_is_left_open_is_told_with_its_own_line_though_a_header_was_put_in():
    assert refusal(
        '1,2.5,3.5,"a\n2,2.5,3.5,b\n3,2.5,3.5,c\n', columns=("number", "easting", "northing", "")
    ) == (
        "in/yard.v2.csv, line 1: a field that starts here cannot be read (unexpected end of data). Close each quoted field "
        "with a quote, and double the quotes inside it."
    )


@pytest.mark.parametrize(
    ("row", "place", "message"),
    [
        ("9,,2,3,", "yard.v2:9", "column e: the field is blank."), ("9,1,,3,", "yard.v2:9", "column n: the field is blank."),
        ("9,abc,2,3,", "yard.v2:9", 'column e: "abc" is not a number.'),
        ("9,1,2,=B2,", "yard.v2:9", 'column elev: "=B2" is a formula, not its value.'),
        ("=A1,1,2,3,", "yard.v2:=A1", 'column pt_no: "=A1" is a formula, not its value.'),
        ("9,1,2,3,=HYPERLINK()", "yard.v2:9", 'column code: "=HYPERLINK()" is a formula, not its value.'),
        ("9,inf,2,3,", "yard.v2:9", 'column e: "inf" is not a finite number.'),
        ("9,1,1e10,3,", "yard.v2:9", 'column n: "1e10" is beyond 1e9 m.'),
    ],
)  # fmt: skip
def test_a_row_that_cannot_be_read_is_left_out_and_told_whole(row, place, message):
    read_one = read(M + "Pt No,E,N,Elev,Code\n1,1,2,3,a\n" + row + "\n3,1,2,3,b\n")
    (finding,) = read_one.findings
    assert (finding.code, finding.place, finding.message) == (
        "IN-01",
        place,
        "in/yard.v2.csv, line 4, " + message,
    )
    assert read_one.walks[0].station == ("1", "3")


def test_a_row_of_another_width_is_told_with_its_number():
    (finding,) = read(M + "id,e,n\n1,2\n2,3,4\n").findings
    assert (finding.place, finding.message) == (
        "survey" if not finding.station else f"yard.v2:{finding.station}",
        'in/yard.v2.csv, line 3: "1,2" has 2 fields where the header has 3.',
    )
    assert finding.station == "1"


def test_a_list_of_which_no_row_can_be_read_has_no_walk():
    read_one = read(M + "e,n\nx,y\n")
    assert (read_one.walks, [f.code for f in read_one.findings]) == ((), ["IN-01"])


# ------------------------------------------------------------------------------------------------- properties


def test_one_point_far_away_keeps_its_digits():
    assert walk_of(M + "e,n\n10000000.123,20000000.456\n").xy.tolist() == [[10000000.123, 20000000.456]]


def test_what_is_read_can_be_written_as_a_log_and_read_back():
    text = "pt (no),E (ft),N (ft),Z (ft),code,x,y,time,width,Colour\n1,1.1,2.2,3.3,a,9,9,noon,=,red\n7,1e7,-4,,b,8,8,,,\n"
    walk = walk_of(text)
    (back,), findings = read_walk_log("yard.csv", write_walk_log([walk]).encode())
    np.testing.assert_allclose(back.xy, walk.xy, rtol=1e-12)
    np.testing.assert_allclose(back.z, walk.z, rtol=1e-12)
    assert (back.station, back.name, back.texts, back.extra, back.keys) == (
        walk.station, walk.name, walk.texts, walk.extra, walk.keys,
    )  # fmt: skip
    assert [f.code for f in findings] == ["IN-06"]


FINITE = st.floats(-1e8, 1e8, allow_nan=False).map(lambda v: round(v, 4))


@given(
    st.lists(st.tuples(FINITE, FINITE, FINITE), min_size=1, max_size=12),
    st.sampled_from(list(permutations(range(3)))),
    st.sampled_from([",", ";", "\t", "|", "  "]),
    st.booleans(),
)
def test_the_same_numbers_come_out_in_whatever_order_they_are_listed(points, order, separator, commas):
    names = ("Easting", "Northing", "Elevation")
    rows = [[names[i] for i in order], *([repr(point[i]) for i in order] for point in points)]
    text = "\n".join(map(separator.join, rows))
    if commas and separator != ",":
        text = text.replace(".", ",")
    walk = walk_of(M + text)
    np.testing.assert_array_equal(np.column_stack([walk.xy, walk.z]), points)


def outcome(text, **named):
    """What was read, or the refusal; anything but a refusal in our own words comes through."""
    try:
        return read(text, **named)
    except BadInput as error:
        return str(error)


CHOICES = st.lists(st.sampled_from([*CHOICE_WORDS, "", "x"]), max_size=6).map(tuple)


@given(st.binary(max_size=300), st.none() | CHOICES)
def test_bytes_of_any_kind_are_read_or_refused(data, columns):
    found = outcome(data, columns=columns)
    assert found if isinstance(found, str) else found.walks or found.findings


@given(st.text(alphabet="0123456789.,;|\t \"\n=xyneNE°'#:-", max_size=200), st.booleans())
def test_text_like_a_list_is_read_or_refused(text, has_header):
    found = outcome(("e,n,z\n" if has_header else "") + text)
    assert found if isinstance(found, str) else found.walks or found.findings


def test_a_list_of_key_lines_and_odd_blanks_is_refused():
    """Found by feeding mutated files: a line of vertical tabs is neither a key line nor a row."""
    with pytest.raises(BadInput):
        read_point_list("a.csv", b"# t\n# c\xff\x0100 55t\n# c\n\x0b\x0b\x0b", Decisions())
