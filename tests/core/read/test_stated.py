# SPDX-License-Identifier: GPL-2.0-or-later
"""What is said of single files: their columns, units and CRS, without a change to any of them."""

from __future__ import annotations

import pytest

from plugin.core.errors import BadInput
from plugin.core.measure.chain import Settings, survey_files
from plugin.core.read.job import read_job
from plugin.core.read.stated import AS_WRITTEN, Stated, StatedTexts
from plugin.core.units import FOOT, SURVEY_FOOT

LOG = b"# units: ft\nwalk,station,x,y\nW1,1,0,0\nW1,2,1000000,0\n"
BARE = b"1,200,100,5,peg\n2,210,120,6,post\n3,220,110,7,peg\n"
"""A list without a header: number, then two coordinates."""
TAPES = b"# units: ft\nfrom,to,distance\nA,B,10\n"
CONTROL = b"# crs: EPSG:25831\nmark,x,y,z\nA,512340,5712850,1\n"
DRAWING = b"""<?xml version="1.0"?><LandXML version="1.2"><Units><Imperial linearUnit="foot" areaUnit="squareFoot"
volumeUnit="cubicFeet" temperatureUnit="fahrenheit" pressureUnit="inHG"/></Units>
<CgPoints><CgPoint name="1">3000000 2000000 10</CgPoint></CgPoints></LandXML>"""


def texts(columns=None, units=None, crs=None):
    return StatedTexts(columns, units, crs)


def notes(read):
    return [finding.message for finding in read.findings if "chosen for this run" in finding.message]


# --- how it is written ---


def test_entries_stand_apart_by_semicolons_or_lines():
    files = ("a.csv", "b.csv", "c.txt")
    said = texts(
        "c.txt: number, easting,northing", "a.csv: us survey feet;\n b.csv : m;", "a.csv: EPSG:25831"
    )
    assert dict(said.of_files(files)) == {
        "a.csv": Stated(units="us-ft", crs="EPSG:25831"),
        "b.csv": Stated(units="m"),
        "c.txt": Stated(columns=("number", "easting", "northing")),
    }
    assert dict(texts().of_files(files)) == {}
    assert dict(texts(" ", "\n", ";").of_files(files)) == {}


def test_names_may_have_semicolons_and_colons_in_them():
    files = ("a.csv", "odd; a.csv: b.csv", "yard/a.csv")
    said = texts(units="odd; a.csv: b.csv: ft; yard/a.csv: mm; a.csv: m").of_files(files)
    assert {name: one.units for name, one in said.items()} == {
        "odd; a.csv: b.csv": "ft",
        "yard/a.csv": "mm",
        "a.csv": "m",
    }


@pytest.mark.parametrize("text", ["us-ft", "nowhere.csv: us-ft", "; us-ft; a.csv: m"])
def test_what_names_no_file_of_the_job_is_refused(text):
    with pytest.raises(BadInput) as error:
        texts(units=text).of_files(("a.csv", "b.csv"))
    shown = text.strip() if not text.startswith(";") else "; us-ft"
    assert str(error.value) == (
        f'"{shown}" does not begin with a file of the job and a colon. Write it like a.csv: ..., with entries apart by '
        "semicolons; the files are a.csv, b.csv."
    )


def test_a_stranger_behind_a_file_is_refused_too():
    with pytest.raises(BadInput) as error:
        texts(units="a.csv: m; nowhere.csv: ft").of_files(("a.csv",))
    assert str(error.value) == (
        '"nowhere.csv: ft" does not begin with a file of the job and a colon. Write it like a.csv: ..., with entries apart '
        "by semicolons; the files are a.csv."
    )


@pytest.mark.parametrize("text", ["a.csv: m; a.csv: ft", "a.csv: ", "a.csv:; b.csv: m"])
def test_a_file_twice_or_without_words_is_refused(text):
    with pytest.raises(BadInput) as error:
        texts(units=text).of_files(("a.csv", "b.csv"))
    assert str(error.value) == (
        f'"{text.strip()}" says nothing of a.csv, or says it twice. Write each file once, with what counts for it.'
    )


@pytest.mark.parametrize("unit", ["cubits", "m2", "km", "yd", ""])
def test_a_unit_that_is_not_read_is_refused(unit):
    with pytest.raises(BadInput) as error:
        texts(units=f"a.csv: {unit or '?'}").of_files(("a.csv",))
    assert str(error.value) == (
        f'a.csv: the units "{unit or "?"}" that were chosen for it are not read. Choose one of: m, ft, us-ft, in, cm, mm.'
    )


def test_a_crs_that_is_not_known_is_refused():
    with pytest.raises(BadInput) as error:
        texts(crs="a.csv: EPSG:1").of_files(("a.csv",))
    assert str(error.value) == (
        'a.csv: the CRS "EPSG:1" that was chosen for it is not known. Give an authority code such as EPSG:25831, or none for '
        "a plane of its own."
    )


# --- what it does ---


def test_survey_feet_in_place_of_feet_move_a_log_by_two_parts_in_a_million():
    files = {"a.csv": LOG, "b.csv": LOG.replace(b"W1", b"W2")}
    read = read_job(files, stated={"a.csv": Stated(units="us-ft")})
    ends = {walk.name: walk.xy[1, 0] for walk in read.job.walks}
    assert ends["W1"] == pytest.approx(float(1_000_000 * SURVEY_FOOT), abs=1e-9)
    assert ends["W2"] == pytest.approx(float(1_000_000 * FOOT), abs=1e-9)
    assert ends["W1"] - ends["W2"] == pytest.approx(0.6096, abs=1e-4)  # 1,000,000 ft by 2 parts in a million
    assert [walk.keys.units for walk in read.job.walks] == ["us-ft", "ft"]
    assert notes(read) == ["a.csv: units chosen for this run: us-ft; the file says: ft."]


def test_what_the_file_says_already_needs_no_note():
    assert notes(read_job({"a.csv": LOG}, stated={"a.csv": Stated(units="ft")})) == []
    assert notes(read_job({"a.csv": LOG}, stated={"a.csv": AS_WRITTEN})) == []


def test_stated_units_answer_a_log_that_states_none():
    read = read_job({"a.csv": LOG[12:]}, stated={"a.csv": Stated(units="m")})
    assert read.job.walks[0].xy[1, 0] == 1_000_000.0
    assert [finding.code for finding in read.findings] == ["IN-06"]
    assert notes(read) == ["a.csv: units chosen for this run: m; the file says: -."]


def test_keys_are_replaced_however_they_are_written_even_where_they_contradict():
    log = LOG.replace(b"# units: ft", b"# Units: ft\n# units: m")
    read = read_job({"a.csv": log}, stated={"a.csv": Stated(units="cm")})
    assert read.job.walks[0].xy[1, 0] == pytest.approx(10_000.0, abs=1e-9)
    assert notes(read) == ["a.csv: units chosen for this run: cm; the file says: ft, m."]


def test_columns_of_one_list_hit_no_other():
    files = {"one.txt": BARE, "two.txt": b"number,northing,easting\n7,200,100\n8,210,120\n"}
    stated = texts("one.txt: number, easting, northing, elevation, description").of_files(files)
    read = read_job(files, stated=stated)
    one, two = sorted(read.job.walks, key=lambda walk: walk.name)
    assert one.xy.tolist() == [[200.0, 100.0], [210.0, 120.0], [220.0, 110.0]]
    assert two.xy.tolist() == [[100.0, 200.0], [120.0, 210.0]]
    assert one.station == ("1", "2", "3")


def test_columns_of_one_list_go_before_those_of_all():
    files = {"one.txt": BARE, "two.txt": BARE}
    every = ("number", "northing", "easting", "elevation", "description")
    read = read_job(
        files,
        every,
        {"one.txt": Stated(("number", "easting", "northing", "elevation", "description"))},
    )
    one, two = sorted(read.job.walks, key=lambda walk: walk.name)
    assert one.xy[0].tolist() == [200.0, 100.0]
    assert two.xy[0].tolist() == [100.0, 200.0]


def test_a_table_of_unknown_columns_is_a_list_where_they_are_stated():
    data = b"peg,up,across\n1,200,100\n2,210,120\n"
    with pytest.raises(BadInput, match="is a table, but none that is read"):
        read_job({"odd.csv": data, "a.csv": LOG})
    read = read_job(
        {"odd.csv": data, "a.csv": LOG}, stated={"odd.csv": Stated(("number", "northing", "easting"), "m")}
    )
    (walk,) = [walk for walk in read.job.walks if walk.name == "odd"]
    assert walk.xy.tolist() == [[100.0, 200.0], [120.0, 210.0]]


def test_stated_units_go_before_those_of_a_header():
    data = b"number,northing (ft),easting (ft),sd_xy (mm)\n1,200,100,5\n2,210,120,5\n"
    read = read_job({"p.csv": data}, stated={"p.csv": Stated(units="m")})
    assert read.job.walks[0].xy[0].tolist() == [100.0, 200.0]
    assert read.job.walks[0].sd_xy[0] == pytest.approx(0.005, abs=1e-12)
    assert notes(read) == ["p.csv: units chosen for this run: m; the file says: ft."]


def test_a_stated_crs_goes_before_the_file_s_and_none_takes_it_away():
    log = LOG.replace(b"# units: ft", b"# crs: EPSG:27700")
    (walk,) = read_job({"a.csv": log}, stated={"a.csv": Stated(crs="EPSG:25831")}).job.walks
    assert walk.keys.crs == "EPSG:25831"
    read = read_job({"a.csv": log}, stated={"a.csv": Stated(units="ft", crs="none")})
    assert read.job.walks[0].keys.crs is None
    assert read.job.walks[0].xy[1, 0] == pytest.approx(304_800.0, abs=1e-9)
    assert notes(read) == [
        "a.csv: units chosen for this run: ft; the file says: -.",
        "a.csv: crs chosen for this run: none; the file says: EPSG:27700.",
    ]


def test_tapes_and_control_take_them_too():
    files = {"a.csv": LOG, "t.csv": TAPES, "c.csv": CONTROL}
    stated = {"t.csv": Stated(units="m"), "c.csv": Stated(units="ft", crs="EPSG:25832")}
    job = read_job(files, stated=stated).job
    assert job.tapes[0].distance == 10.0
    assert (job.control.crs, job.control.points[0].z) == ("EPSG:25832", pytest.approx(0.3048, abs=1e-12))


def test_a_drawing_takes_them_too():
    read = read_job({"d.xml": DRAWING}, stated={"d.xml": Stated(units="us-ft")})
    assert read.job.walks[0].xy[0].tolist() == pytest.approx(
        [float(2_000_000 * SURVEY_FOOT), float(3_000_000 * SURVEY_FOOT)], abs=1e-6
    )
    assert read.job.walks[0].z[0] == pytest.approx(float(10 * SURVEY_FOOT), abs=1e-12)
    assert notes(read) == ["d.xml: units chosen for this run: us-ft; the file says: foot."]
    placed = read_job({"d.xml": DRAWING}, stated={"d.xml": Stated(crs="EPSG:2249")})  # its axes are in us-ft
    assert placed.job.walks[0].keys.crs == "EPSG:2249"
    assert placed.job.walks[0].xy[0].tolist() == pytest.approx(
        [float(2_000_000 * FOOT / SURVEY_FOOT), float(3_000_000 * FOOT / SURVEY_FOOT)], abs=1e-3
    )
    assert read_job({"d.xml": DRAWING}, stated={"d.xml": Stated(crs="none")}).job.walks[0].keys.crs is None
    with pytest.raises(BadInput) as error:
        read_job({"d.xml": DRAWING}, stated={"d.xml": Stated(crs="EPSG:4326")})
    assert str(error.value) == (
        "d.xml: the CRS EPSG:4326 that was chosen for it is no projected one with an EPSG code. Choose such a one, or none for "
        "a plane of its own."
    )


@pytest.mark.parametrize(
    ("name", "said", "what", "kind"),
    [
        ("a.csv", Stated(("easting", "northing")), "columns", "walk log"),
        ("i.csv", Stated(units="m"), "units", "instruments"),
        ("t.csv", Stated(crs="EPSG:25831"), "crs", "tapes"),
        ("w.gpx", Stated(units="ft"), "units", "GPX"),
        ("w.gpx", Stated(crs="EPSG:25831"), "crs", "GPX"),
    ],
)
def test_what_a_file_cannot_have_is_refused(name, said, what, kind):
    files = {
        "a.csv": LOG,
        "t.csv": TAPES,
        "i.csv": b"instrument,scale\nX,0.001\n",
        "w.gpx": b'<gpx version="1.1"><wpt lat="51" lon="1"/></gpx>',
    }
    with pytest.raises(BadInput) as error:
        read_job(files, stated={name: said})
    assert str(error.value) == (
        f"{name}: {what} were chosen for it, but it is: {kind}, which has none to choose. Take the choice back."
    )


def test_a_survey_takes_them_from_its_settings():
    square = b"# units: ft\nwalk,station,x,y,feature,geometry\n" + b"".join(
        b"W,%d,%d,%d,Bed,area\n" % row for row in ((1, 0, 0), (2, 10, 0), (3, 10, 10), (4, 0, 10))
    )
    feet, metres = (
        survey_files({"w.csv": square}),
        survey_files({"w.csv": square}, Settings(file_units="w.csv: m")),
    )
    assert feet.areas[0].area.value == pytest.approx(100 * 0.3048**2, abs=1e-9)
    assert metres.areas[0].area.value == pytest.approx(100.0, abs=1e-9)
