# SPDX-License-Identifier: GPL-2.0-or-later
"""Other people's files are told from their content."""

from __future__ import annotations

import pytest

from plugin.core.read.formats import HEAD, TableKind, find_kind

GPX = '<gpx version="1.1" creator="t"><wpt lat="1" lon="2"/></gpx>'
LANDXML = '<LandXML version="1.2"><CgPoints/></LandXML>'
GGA = b"$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47\r\n"
RMC = b"$GPRMC,225446,A,4916.45,N,12311.12,W,000.5,054.7,191194,020.3,E*68\r\n"
DECLARED = '<?xml version="1.0" encoding="%s"?>\n'


@pytest.mark.parametrize(("root", "kind"), [(GPX, TableKind.GPX), (LANDXML, TableKind.LANDXML)])
@pytest.mark.parametrize("mark", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "latin-1"])
@pytest.mark.parametrize(
    "before",
    [
        "",
        "\n \n",
        "<!-- <gpx> or <LandXML> é -->\n",
        "<?style a?><!-- a -->\n<!-- b -->",
        "<!DOCTYPE a SYSTEM 'b'>",
    ],
)
def test_gpx_and_landxml_are_told_from_the_root(root, kind, mark, before):
    text = DECLARED % mark.replace("-sig", "") + before + root
    assert find_kind(text.encode(mark)) is kind


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ('<g:gpx xmlns:g="u"/>', TableKind.GPX), ("<gpx/>", TableKind.GPX), ("<gpx\n>", TableKind.GPX),
        ("<a-1:LandXML>", TableKind.LANDXML),
        ("<kml><gpx></gpx></kml>", TableKind.NO_TABLE), ("<gpxs>", TableKind.NO_TABLE), ("<gpx", TableKind.NO_TABLE),
        ("<!-- <gpx>", TableKind.NO_TABLE), ("<!-- a --" * 5000, TableKind.NO_TABLE), ("<?" * 9000, TableKind.NO_TABLE),
        ("<!a>" * 9000 + "<gpx>", TableKind.GPX), ("<!--" + "-" * HEAD + "--><gpx>", TableKind.NO_TABLE),
        ("a <gpx>", TableKind.NO_TABLE),
    ],
)  # fmt: skip
def test_only_the_root_counts_and_only_within_the_head(text, kind):
    assert find_kind(text.encode()) is kind


@pytest.mark.parametrize(
    "data",
    [
        GGA, RMC * 3, GGA[9:] + RMC, b"4807.038,N,01131.000,E,1,08\r\n" + GGA * 2, b"\0" * 700 + GGA, b"\0\0" + GGA + b"\0",
        b"\xb5\x62\x01\x07\xff\n" + GGA * 4, GGA.strip() * 5, (GGA.strip() + RMC.strip()) * 2, b"\r\n\r\n" + GGA,
        b"!AIVDM,1,1,,A,abc,0*1C\r\n", b"$GNGGA,1,,,,,0*00\n", b"$PGRME,15.0,M,45.0,M,25.0,M*1C\n" + RMC,
        b"\xff\xfe" + GGA.decode().encode("utf-16-le"), b"# receiver one\n" + GGA, b"09:00:01 " + GGA + b"09:00:02 " + RMC,
        b"noise\n" * 9 + GGA * 3,
    ],
)  # fmt: skip
def test_nmea_is_told_from_its_sentences_whatever_surrounds_them(data):
    assert find_kind(data) is TableKind.NMEA


@pytest.mark.parametrize(
    "data",
    [
        b"$100,5\n$200,6\n",
        b"$a,b\n",
        b"price $USDEUR up\nmore\nwords\n",
        b"$gpgga,1,2\n",
        b"$,,\n",
        b"GPGGA,1,2,3\n",
    ],
)
def test_a_dollar_alone_is_no_nmea(data):
    assert find_kind(data) is not TableKind.NMEA


@pytest.mark.parametrize(
    "text",
    [
        "number,northing,easting,elevation,description\n1,2,3,4,a\n", "Point;East;North\n1;2,5;3,5\n", "x\ty\n1\t2\n",
        "name,lon,lat\na,1,2\n", "Lat,Long\n1,2\n", "# units: m\nPt No  Northing (m)  Easting (m)\n1 2.0 3.0\n",
        "| pt | north | east |\n| 1 | 2 | 3 |\n", "pt|x|y|z\n1|2|3|4\n", "Nr;Rechtswert;Hochwert\n1;2;3\n",
        "station,northing,easting,z\n1,2,3,4\n", "Point,Northing,Easting,Z,Mark\n1,2,3,4,A\n", "x,y,z\n", "east,elev\n1,2\n",
        "1,100.5,200.5,3,EP\n2,101,201,4,tree\n", "P1 100.5 200.5 3\nP2 101 201 4\n", "1;100,5;200,5\n2;101;201\n",
        "# units: m\n1.5 2.5 3.5\n", "1,2,3,,\n2,3,4,,\n", "North East Elev\n1 2 3 4\n5 6 7 8\n",
    ],
)  # fmt: skip
def test_a_point_list_is_told_by_its_header_or_by_its_numbers(text):
    assert find_kind(text.encode()) is TableKind.POINT_LIST
    assert find_kind(text.replace("\n", "\r\n").encode("utf-8-sig")) is TableKind.POINT_LIST
    assert find_kind(text.encode("utf-16")) is TableKind.POINT_LIST


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("walk,station,x,y,northing,easting\nW,1,2,3,4,5\n", TableKind.WALK_LOG),
        ("station,x,y,z\n1,2,3,4\n", TableKind.WALK_LOG), ("walk,station,x\nW,1,2\n", TableKind.WALK_LOG),
        ("walk,northing,easting\nW,1,2\n", TableKind.UNKNOWN), ("walk|station|x|y\nW|1|2|3\n", TableKind.NO_TABLE),
        ("W1,1,0,0\nW1,2,5,0\nW1,3,5,5\n", TableKind.UNKNOWN),
        ("mark,x,y,z\nA,1,2,3\n", TableKind.CONTROL), ("mark,lon,lat,id\nA,1,2,3\n", TableKind.CONTROL),
        ("mark,easting,northing\nA,1,2\n", TableKind.CONTROL), ("from,to,distance\nA,B,1\n", TableKind.TAPES),
        ("item,unit,rate\nA,m,1\n", TableKind.PRICES), ("name,colour\na,red\n", TableKind.UNKNOWN),
        ("height,level\n1,2\n", TableKind.UNKNOWN), ("1,2\n3,4\n", TableKind.UNKNOWN),
        ("0.05\n0\n0\n-0.05\n512000\n5712000\n", TableKind.NO_TABLE),
        ("Go east then north\nand turn left at the gate\n", TableKind.NO_TABLE),
        ("1,2,3,4,5,6,7,8\n1,2,3,4,5,6,7,8\n", TableKind.UNKNOWN), ("a,b,1\nc,d,2\n", TableKind.UNKNOWN),
        ('{"x": 1, "y": 2}\n', TableKind.NO_TABLE), ("x,y\n1,2\n\0", TableKind.NO_TABLE),
        ('GEOGCS["a",DATUM["b",SPHEROID["c",6378137,298.257223563]],PRIMEM["d",0]]', TableKind.NO_TABLE),
    ],
)  # fmt: skip
def test_what_is_ours_or_nobodys_is_no_point_list(text, kind):
    assert find_kind(text.encode()) is kind


def test_only_the_head_is_looked_at():
    assert find_kind(b"x,y\n" + b"1,2\n" * (HEAD // 4) + b"\0\xff" * 100) is TableKind.POINT_LIST
    assert find_kind(b"<!--" + b" " * (HEAD - 8) + b"-->" + GPX.encode()) is TableKind.NO_TABLE
