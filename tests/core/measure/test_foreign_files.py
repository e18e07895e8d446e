# SPDX-License-Identifier: GPL-2.0-or-later
"""Other people's files through the whole chain: what they lose is told, and keeps figures out where it touches them."""

from __future__ import annotations

from functools import reduce

import pytest

from plugin.core.errors import Refused
from plugin.core.findings import Severity
from plugin.core.measure.chain import Settings, survey_files

GROUND = Settings(height=0.0)
LIST = "# crs: EPSG:25832\nno,easting,northing,elev,feature,geometry\n"
CORNERS = ((0, 0), (40, 0), (40, 20), (0, 20))


def points(feature, geometry, z, east=0.0):
    """A list of the four corners of a rectangle of 40 m by 20 m in a UTM zone, `east` metres farther."""
    rows = [
        f"{i},{500_000 + east + x},{5_800_000 + y},{z},{feature},{geometry}\n"
        for i, (x, y) in enumerate(CORNERS, 1)
    ]
    return (LIST + "".join(rows)).encode()


def survey(files, *answers):
    given = dict(files)
    if answers:
        given["d.csv"] = ("finding,place,answer\n" + "\n".join(answers) + "\n").encode()
    return survey_files(given, GROUND)


# --- heights ----------------------------------------------------------------------------------------------------

NOTHING_TIES = (
    "Nothing ties the heights of two to those of the others: they are as two.csv gives them. Slopes and falls within "
    "each are right, heights of one against another hang on the same datum in both."
)


def test_the_heights_of_a_second_list_are_kept_and_a_note_tells_that_nothing_ties_them():
    made = survey({"one.csv": points("Lawn", "area", 100), "two.csv": points("Level", "spot", 105, east=100)})
    assert {s.height.value for s in made.spots} == {105.0}
    notes = [f for f in made.findings if f.code == "HT-01"]
    assert [(f.severity, f.place, f.message, f.file, f.line) for f in notes] == [
        (Severity.NOTE, "survey", NOTHING_TIES, "two.csv", 3)
    ]
    assert notes[0].remedy_text == (
        "Stand on a mark with a height in both, or give the control a level of a mark in each."
    )


def test_the_slope_of_an_area_in_a_second_list_is_measured():
    rows = points("Bank", "area", 105, east=100).decode().splitlines()
    rows[4:] = [row.replace(",105,", ",115,") for row in rows[4:]]  # 10 m up on 20 m
    made = survey({"one.csv": points("Lawn", "area", 100), "two.csv": "\n".join(rows).encode()})
    bank = next(row for row in made.areas if row.tags.feature == "Bank")
    assert bank.sloped_area.value / bank.area.value == pytest.approx(1.25**0.5, rel=1e-3)


LOG = """# units: m
walk,station,x,y,z,feature,geometry,mark
W1,1,0,0,0,,,1
W1,2,10,5,0.3,Level,spot,
W1,3,40,20,0,,,3
"""


def test_a_walk_over_the_points_of_a_list_takes_its_heights_from_the_list():
    made = survey({"one.csv": points("Lawn", "area", 100), "w.csv": LOG.encode()})
    (spot,) = made.spots
    assert spot.height.value == pytest.approx(100.3, abs=1e-9)
    assert not [f for f in made.findings if f.code == "HT-01"]


def test_a_list_that_a_level_moves_to_another_datum_is_told():
    files = {"one.csv": points("Lawn", "spot", 100), "w.csv": LOG.encode()}
    made = survey({**files, "control.csv": b"mark,z\n3,70\n"})
    (note,) = [f for f in made.findings if f.code == "HT-01"]
    assert note.message == (
        "The heights of one were moved by -30.000 m to those of the levels, or of the first list: they are in another "
        "datum, or a mark or a level is not the same point."
    )
    made = survey({**files, "control.csv": b"mark,z\n3,100.02\n"})
    assert "HT-01" not in [f.code for f in made.findings]


# --- what a receiver's file lost --------------------------------------------------------------------------------


def sentence(seconds, metres):
    """A fix `metres` north of a start, with its checksum."""
    text = (
        f"GPGGA,1000{seconds:02d}.00,52{18 + metres / 1855:09.6f},N,01000.000000,E,4,12,0.8,50.0,M,45.0,M,,"
    )
    return f"${text}*{reduce(lambda a, b: a ^ b, text.encode()):02X}\n"


def record(*spoilt):
    """Thirty fixes a metre apart; a digit of those of `spoilt` is wrong."""
    lines = [sentence(i, i) for i in range(30)]
    return "".join(
        line.replace(",12,", ",13,") if i in spoilt else line for i, line in enumerate(lines)
    ).encode()


def test_sentences_that_cannot_be_used_keep_the_figures_of_their_file_out_until_they_are_left_out():
    files = {"a.nmea": record(7), "b.nmea": record(8, 9), "c.nmea": record()}
    made = survey(files)
    told = [(f.place, f.line, f.is_open) for f in made.findings if f.code == "IN-01"]
    assert told == [("a:1", 8, True), ("b:1", 9, True)]
    assert [(row.length is None, row.tags.finding) for row in made.lengths] == [
        (True, "IN-01"),
        (True, "IN-01"),
        (False, ""),
    ]
    made = survey(files, "IN-01,a:1,left out")
    assert [row.tags.finding for row in made.lengths] == ["", "IN-01", ""]
    assert made.lengths[0].length.value == pytest.approx(29, rel=0.01)


def test_a_gpx_file_that_breaks_off_keeps_the_figures_of_all_its_tracks_out():
    track = "<trk><name>{}</name><trkseg>{}</trkseg></trk>"
    fixes = "".join(f'<trkpt lat="{52 + k * 1e-3}" lon="10"/>' for k in range(5))
    whole = '<gpx version="1.1">' + track.format("Path", fixes) + track.format("Drive", fixes)
    made = survey(
        {
            "t.gpx": whole.encode(),
            "u.gpx": (whole + "</gpx>").replace("Path", "Way").replace("Drive", "Lane").encode(),
        }
    )
    assert [(row.tags.walk, row.tags.finding) for row in made.lengths if row.length is None] == [
        ("Path", "IN-01"),
        ("Drive", "IN-01"),
    ]
    assert [row.tags.finding for row in made.lengths if row.length is not None] == ["", ""]


def test_a_row_of_no_known_walk_keeps_the_figures_of_its_log_out():
    rows = "W1,1,0,0,Yard,area\nW1,2,10,0,Yard,area\n,3,10,x,,\nW1,4,0,10,Yard,area\n"
    made = survey({"w.csv": ("# units: m\nwalk,station,x,y,feature,geometry\n" + rows).encode()})
    assert (made.areas[0].area, made.areas[0].tags.finding) == (None, "IN-01")


SURFACE = """<LandXML version="1.2"><Units><Metric linearUnit="meter"/></Units><Surfaces><Surface name="Ground">
<Definition surfType="TIN"><Pnts><P id="1">0 0 1</P><P id="2">0 9 1</P><P id="3">9 0 2</P></Pnts>
<Faces><F>1 2 3</F></Faces></Definition></Surface></Surfaces></LandXML>"""


def test_a_file_of_surfaces_alone_is_refused_with_what_it_holds():
    with pytest.raises(Refused) as error:
        survey({"ground.xml": SURFACE.encode()})
    assert str(error.value) == (
        "ground.xml holds surfaces and no walk or point, so there is nothing to measure. Add the logs of the site; Read "
        "walks gives the surfaces by themselves."
    )
