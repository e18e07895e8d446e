# SPDX-License-Identifier: GPL-2.0-or-later
"""LandXML files of other programs: units, coordinate systems, points, and what is told of the rest."""

from __future__ import annotations

import math
import time
from xml.sax.saxutils import quoteattr

import numpy as np
import pyproj
import pytest

from plugin.core.errors import BadInput
from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.read.landxml.drawing import read_landxml
from plugin.core.walk import ErrorGrowth, SourceClass

METRES = '<Units><Metric linearUnit="meter"/></Units>'


def read(body, units=METRES, decisions=(), version="1.2", file="site.xml"):
    text = (
        f'<?xml version="1.0"?>\n<LandXML xmlns="urn:any" version="{version}">{units}\n{body}\n</LandXML>\n'
    )
    return read_landxml(file, text.encode(), Decisions(decisions))


def points(*texts, **more):
    rows = "\n".join(f'<CgPoint name="{k}">{text}</CgPoint>' for k, text in enumerate(texts, 1))
    return read(f"<CgPoints>\n{rows}</CgPoints>", **more)


def refused(body, **more):
    with pytest.raises(BadInput) as caught:
        read(body, **more)
    return str(caught.value)


def told(read_file):
    return [(f.code, f.place, f.message) for f in read_file.findings]


def test_points_are_stations_with_the_north_first():
    (walk,) = points("100 20 3.5", "101 21").walks
    assert (walk.name, walk.station, walk.file) == ("site points", ("1", "2"), "site.xml")
    assert walk.xy.tolist() == [[20, 100], [21, 101]]
    assert walk.z[0] == 3.5
    assert math.isnan(walk.z[1])
    assert walk.line.tolist() == [4, 5]
    assert walk.feature == ("", "")
    assert (walk.keys.source_class, walk.keys.growth) == (SourceClass.DIGITISED, ErrorGrowth.POINTS)


def test_the_name_of_the_walk_is_the_files_without_folder_and_ending():
    assert points("1 2", file="a\\b/yard.2.xml").walks[0].name == "yard.2 points"


def test_codes_groups_and_notes_are_kept():
    body = (
        '<CgPoints name="trees"><CgPoint name="a" code="OAK" desc="old oak" state="existing">1 2</CgPoint>'
        '<CgPoints name="hedge"><CgPoint name="b" code="BOX">3 4</CgPoint></CgPoints></CgPoints>'
    )
    (walk,) = read(body).walks
    assert walk.texts["note"] == ("old oak", "BOX")
    assert walk.extra == {"code": ("OAK", "BOX"), "state": ("existing", ""), "group": ("trees", "hedge")}


@pytest.mark.parametrize(
    ("units", "metres", "name"),
    [
        ('<Metric linearUnit="meter"/>', 1.0, "m"),
        ('<Metric linearUnit="millimeter"/>', 0.001, "mm"),
        ('<Metric linearUnit="centimeter"/>', 0.01, "cm"),
        ('<Metric linearUnit="kilometer"/>', 1000.0, "km"),
        ('<Imperial linearUnit="foot"/>', 0.3048, "ft"),
        ('<Imperial linearUnit="USSurveyFoot"/>', 1200 / 3937, "us-ft"),
        ('<Imperial linearUnit="inch"/>', 0.0254, "in"),
        ('<Imperial linearUnit="mile"/>', 1609.344, "mile"),
    ],
)
def test_every_unit_of_the_schema_is_read(units, metres, name):
    (walk,) = points("100 20 3", units=f"<Units>{units}</Units>").walks
    assert walk.xy[0] == pytest.approx([20 * metres, 100 * metres], rel=1e-15)
    assert walk.z[0] == pytest.approx(3 * metres, rel=1e-15)
    assert (walk.keys.units, walk.keys.unit_m) == (name, metres)


@pytest.mark.parametrize(
    ("units", "metres"),
    [
        ('<Imperial linearUnit="USSurveyFoot" elevationUnit="feet"/>', 1200 / 3937),
        ('<Imperial linearUnit="foot" elevationUnit="feet"/>', 0.3048),
        ('<Imperial linearUnit="foot" elevationUnit="meter"/>', 1.0),
        ('<Metric linearUnit="meter" elevationUnit="feet"/>', 0.3048),
        ('<Metric linearUnit="millimeter"/>', 0.001),
    ],
)
def test_heights_have_the_unit_that_is_given_for_them(units, metres):
    assert points("1 2 3", units=f"<Units>{units}</Units>").walks[0].z[0] == pytest.approx(
        3 * metres, rel=1e-15
    )


def test_units_that_are_not_given_are_a_stop_that_an_answer_settles():
    found = points("1 2 3", units="")
    (finding,) = found.findings
    assert (finding.code, finding.severity, finding.place) == ("IN-02", Severity.STOP, "site points:1")
    assert finding.message == "site.xml: the units are not given."
    assert finding.remedy_text == (
        "State them in the element Units, or answer for site points:1 with m, ft or us-ft."
    )
    assert finding.is_open
    for place in ("site points:1", "survey"):
        found = points("1 2 3", units="", decisions=[Decision("IN-02", place, "us-ft")])
        assert found.walks[0].xy[0] == pytest.approx([2 * 1200 / 3937, 1200 / 3937])
        assert found.findings[0].answer == "us-ft"


@pytest.mark.parametrize(
    ("units", "cell"),
    [
        ('<Metric linearUnit="furlong"/>', "furlong"),
        ('<Metric linearUnit="meter"/><Imperial linearUnit="foot"/>', "meter, foot"),
        ('<Metric name="meter"/>', ""),
    ],
)
def test_units_that_are_not_one_known_unit_are_a_stop(units, cell):
    (finding,) = points("1 2 3", units=f"<Units>{units}</Units>").findings
    assert finding.code == "IN-02"
    assert finding.message == f'site.xml, line 2: the linearUnit "{cell}" is not one unit that is known.'


def test_units_of_a_survey_in_the_file_that_differ_are_asked_and_those_of_pipes_are_not():
    feet = '<Units><Imperial linearUnit="foot"/></Units>'
    body = '<CgPoints><CgPoint name="1">1 2</CgPoint></CgPoints>'
    assert told(read(f"<Survey><SurveyHeader>{feet}</SurveyHeader></Survey>{body}"))[0][0] == "IN-02"
    found = read(f"<PipeNetworks><Pipes>{feet}</Pipes></PipeNetworks>{body}")
    assert told(found) == [("IN-06", "survey", "site.xml: not read: PipeNetworks.")]


@pytest.mark.parametrize(
    "system",
    [
        'epsgCode="25832"',
        'epsgCode="EPSG:25832"',
        'name="ETRS89 / UTM zone 32N"',
        f"ogcWktCode={quoteattr(pyproj.CRS('EPSG:25832').to_wkt())}",
        'epsgCode="0" name="EPSG:25832"',
    ],
)
def test_a_coordinate_system_with_an_epsg_code_is_the_walks(system):
    found = points("5800000 400000 3", units=f"{METRES}<CoordinateSystem {system}/>")
    assert found.walks[0].keys.crs == "EPSG:25832"
    assert found.walks[0].xy.tolist() == [[400000, 5800000]]
    assert found.findings == ()


def test_coordinates_go_into_the_unit_of_the_coordinate_system():
    # EPSG:2264 counts in US survey feet (pyproj); the file is in metres.
    assert pyproj.CRS("EPSG:2264").axis_info[0].unit_name == "US survey foot"
    found = points("1200 2400 12", units=f'{METRES}<CoordinateSystem epsgCode="2264"/>')
    assert found.walks[0].xy[0] == pytest.approx([2 * 3937, 3937], rel=1e-15)
    assert found.walks[0].z[0] == 12.0


def test_coordinates_already_in_the_unit_of_the_coordinate_system_keep_every_digit():
    feet = '<Units><Imperial linearUnit="USSurveyFoot"/></Units><CoordinateSystem epsgCode="2264"/>'
    (walk,) = points("1234567.123 7654321.321 10", units=feet).walks
    assert walk.xy.tolist() == [[7654321.321, 1234567.123]]
    assert walk.z[0] == pytest.approx(10 * 1200 / 3937, rel=1e-15)


def test_a_file_in_a_metric_coordinate_system_needs_no_units():
    found = points("5800000 400000 3", units='<CoordinateSystem epsgCode="25832"/>')
    assert (found.walks[0].keys.crs, found.findings) == ("EPSG:25832", ())


@pytest.mark.parametrize(
    ("system", "name"),
    [
        ('<CoordinateSystem epsgCode="4326"/>', "EPSG:4326"),
        ('<CoordinateSystem epsgCode="99999"/>', "EPSG:99999"),
        ('<CoordinateSystem name="works grid"/>', "works grid"),
        ('<CoordinateSystem epsgCode="25832" rotationAngle="0.5"/>', "EPSG:25832"),
        ('<CoordinateSystem epsgCode="25832"><Start>1 2</Start></CoordinateSystem>', "EPSG:25832"),
        ('<CoordinateSystem ogcWktCode="PROJCS[broken"/>', "PROJCS[broken"),
    ],
)
def test_another_coordinate_system_is_told_and_the_plane_is_the_files_own(system, name):
    found = points("1 2", units=METRES + system)
    assert found.walks[0].keys.crs is None
    (note,) = found.findings
    assert note.severity is Severity.NOTE
    assert note.message == (
        f"site.xml, line 2: the coordinate system {name} is no projected one with an EPSG code, or it is moved or "
        "turned; the coordinates are taken as a plane of their own."
    )


def test_points_may_refer_to_one_another_and_groups_only_name_their_members():
    body = (
        '<CgPoints><CgPoint name="b" pntRef="a"/><CgPoint name="a" pntRef="c"/><CgPoint name="c">1 2 3</CgPoint>'
        '</CgPoints><CgPoints name="group"><CgPoint pntRef="a"/><CgPoint name="c" pntRef="c"/></CgPoints>'
    )
    (walk,) = read(body).walks
    assert walk.station == ("b", "a", "c")
    assert walk.xy.tolist() == [[2, 1]] * 3


def test_a_member_of_a_group_that_stands_before_its_point_does_not_take_its_place():
    body = '<CgPoints><CgPoint name="c" pntRef="c"/></CgPoints>\n<CgPoints><CgPoint name="c" code="OAK">1 2</CgPoint></CgPoints>'
    found = read(body)
    assert (found.walks[0].station, found.walks[0].texts["note"], found.findings) == (("c",), ("OAK",), ())
    assert found.walks[0].line.tolist() == [4]


@pytest.mark.parametrize(
    ("body", "message"),
    [
        ('<CgPoint name="a" pntRef="z"/>', 'site.xml, line 3: the point "z" that is referred to does not stand in the file.'),
        (
            '<CgPoint name="a" pntRef="b"/><CgPoint name="b" pntRef="a"/>',
            'site.xml, line 3: the point "b" refers to itself, perhaps by way of others.',
        ),
        ('<CgPoint name="a">1</CgPoint>', 'site.xml, line 3: "1" is not a point: north, east, and a height or none.'),
        ('<CgPoint name="a">1 2 3 4</CgPoint>', 'site.xml, line 3: "1 2 3 4" is not a point: north, east, and a height or none.'),
        ('<CgPoint name="a">1,5 2,5</CgPoint>', 'site.xml, line 3: "1,5 2,5" is not a point: north, east, and a height or none.'),
        ('<CgPoint name="a">1_0 2</CgPoint>', 'site.xml, line 3: "1_0 2" is not a point: north, east, and a height or none.'),
        ('<CgPoint name="a"></CgPoint>', 'site.xml, line 3: "" is not a point: north, east, and a height or none.'),
        ('<CgPoint name="a">nan 2</CgPoint>', 'site.xml, line 3: "nan 2" has a number that is not finite.'),
        ('<CgPoint name="a">1 2 INF</CgPoint>', 'site.xml, line 3: "1 2 INF" has a number that is not finite.'),
        ('<CgPoint name="a">1 1e300</CgPoint>', 'site.xml, line 3: "1 1e300" has a number beyond 1e9 m.'),
        ('<CgPoint name="a">1 2 -1e300</CgPoint>', 'site.xml, line 3: "1 2 -1e300" has a number beyond 1e9 m.'),
    ],
)  # fmt: skip
def test_points_without_a_place_are_told_and_left_out(body, message):
    found = read(f'<CgPoints>{body}<CgPoint name="good">1 2</CgPoint></CgPoints>')
    assert found.walks[0].station == ("good",)
    first = found.findings[0]
    assert (first.code, first.severity, first.place) == ("IN-01", Severity.STOP, "site points:a")
    assert first.message == message
    assert first.answers == ("left out",)


def test_what_is_too_far_hangs_on_the_unit():
    millimetres = '<Units><Metric linearUnit="millimeter"/></Units>'
    (walk,) = points("5800000000 400000000", units=millimetres).walks
    assert walk.xy[0] == pytest.approx([400000, 5800000])


def test_a_point_that_stands_again_is_told_only_where_it_lies_elsewhere():
    body = '<CgPoints><CgPoint name="1">1 2</CgPoint><CgPoint name="1">1 2</CgPoint>\n<CgPoint name="1">1 9</CgPoint></CgPoints>'
    found = read(body)
    assert found.walks[0].station == ("1", "1 (2)")
    (finding,) = found.findings
    assert (finding.code, finding.place, finding.answers) == ("IN-04", "site points:1 (2)", ("as recorded",))
    assert finding.message == (
        "site.xml, line 4: the point 1 stands here again at other coordinates, first in line 3; it goes on as 1 (2)."
    )


def test_a_flood_of_faults_is_told_in_part_and_counted():
    found = points(*["x"] * 1000, "1 2")
    assert len(found.findings) == 201
    assert "site.xml, from line 204 on: 800 more lines cannot be read." in [f.message for f in found.findings]


def test_other_content_is_named_in_one_note():
    found = read('<GradeModel/><Roadways/><Roadways/><CgPoints><CgPoint name="1">1 2</CgPoint></CgPoints>')
    assert told(found) == [("IN-06", "survey", "site.xml: not read: GradeModel, Roadways.")]


def test_an_unknown_version_is_noted():
    assert told(points("1 2", version="3.1")) == [
        ("IN-06", "survey", "site.xml, line 2: LandXML 3.1 is not known; it was read as 1.2.")
    ]
    for version in ("1.0", "1.1", "1.2", "2.0"):
        assert points("1 2", version=version).findings == ()


def test_latin_1_without_a_word_is_noted():
    text = f'<LandXML version="1.2">{METRES}<CgPoints><CgPoint name="Tür">1 2</CgPoint></CgPoints></LandXML>'
    found = read_landxml("a.xml", text.encode("latin-1"))
    assert found.walks[0].station == ("Tür",)
    assert told(found) == [("IN-06", "survey", "a.xml is not UTF-8 and was read as Latin-1.")]


def test_prefixed_elements_are_the_same_elements():
    text = (
        '<l:LandXML xmlns:l="urn:x" version="1.2"><l:Units><l:Metric linearUnit="meter"/></l:Units>'
        '<l:CgPoints><l:CgPoint name="1">1 2</l:CgPoint></l:CgPoints></l:LandXML>'
    )
    assert read_landxml("a.xml", text.encode()).walks[0].xy.tolist() == [[2, 1]]


def test_a_file_that_breaks_off_gives_what_stood_before():
    text = f'<LandXML version="1.2">{METRES}<CgPoints>\n<CgPoint name="1">1 2</CgPoint>\n<CgPoint name="2">3'
    found = read_landxml("a.xml", text.encode())
    assert found.walks[0].station == ("1",)
    assert told(found) == [
        ("IN-01", "survey", "a.xml, line 3: the CgPoint 2 breaks off and is left out."),
        ("IN-01", "survey", "a.xml, line 3: the file breaks off here."),
    ]


def test_a_file_without_anything_to_read_is_refused():
    assert refused("<Surfaces/><Roadways/>") == (
        "site.xml has no points, parcels, plan features, alignments or surfaces of triangles that can be read. Give a "
        "file that has."
    )


def test_a_file_of_which_nothing_can_be_read_says_what_is_wrong_first():
    assert refused('<CgPoints><CgPoint name="1">x</CgPoint>\n<CgPoint name="2">y</CgPoint></CgPoints>') == (
        'Nothing of site.xml can be read. IN-01, the first of 2: site.xml, line 3: "x" is not a point: north, east, '
        "and a height or none. Give two or three numbers with blanks between them; the rest of the file was read."
    )


def test_another_kind_of_xml_is_refused():
    with pytest.raises(BadInput) as caught:
        read_landxml("a.xml", b"<gpx/>")
    assert (
        str(caught.value) == "a.xml, line 1: the outermost element is gpx, not LandXML. Give a LandXML file."
    )


def test_a_hundred_thousand_points_are_read():
    rows = "".join(f'<CgPoint name="{k}">{k} {2 * k} 1</CgPoint>' for k in range(100_000))
    (walk,) = read(f"<CgPoints>{rows}</CgPoints>").walks
    assert len(walk) == 100_000
    assert np.array_equal(walk.xy[:, 0], 2 * walk.xy[:, 1])


def test_answers_settle_what_was_told():
    found = read(
        '<CgPoints><CgPoint name="a">x</CgPoint><CgPoint name="b">1 2</CgPoint></CgPoints>',
        decisions=[Decision("IN-01", "site points:a", "left out", "me")],
    )
    assert (found.findings[0].answer, found.findings[0].answered_by) == ("left out", "me")


def test_long_chains_of_references_and_many_points_of_one_name_take_no_long_time():
    count = 20_000
    chain = "".join(f'<CgPoint name="{k}" pntRef="{k + 1}"/>' for k in range(count))
    same = "".join(f'<CgPoint name="tree">{k} 1</CgPoint>' for k in range(count))
    start = time.process_time()
    found = read(f'<CgPoints>{chain}<CgPoint name="{count}">1 2</CgPoint>{same}</CgPoints>')
    assert time.process_time() - start < 20
    assert len(found.walks[0]) == 2 * count + 1
    assert found.walks[0].xy[0].tolist() == [2, 1]
    assert found.walks[0].station[-1] == "tree (20000)"
    assert found.findings[-1].message == (
        "site.xml, from line 3 on: more points of a name that stands there already, at other coordinates: 19799."
    )
    assert {(f.code, f.answers) for f in found.findings} == {("IN-04", ("as recorded",))}


def test_notes_come_in_numbers_that_can_be_read():
    found = read(
        '<CgPoints><CgPoint name="1">1 2</CgPoint></CgPoints><Parcels>' + "<Parcel/>" * 1000 + "</Parcels>"
    )
    assert len(found.findings) == 201
    assert found.findings[-1].message == "site.xml, from line 3 on: more notes: 800."


WHOLE = f"""<?xml version="1.0"?>
<LandXML version="1.2">{METRES}<CoordinateSystem epsgCode="25832"/>
<CgPoints><CgPoint name="1">10 20 3</CgPoint><CgPoint name="2" pntRef="1"/></CgPoints>
<Parcels><Parcel name="A"><CoordGeom><Line><Start pntRef="1"/><End>10 40</End></Line>
<Curve rot="ccw" radius="10" length="31.416"><Start>10 40</Start><Center>20 40</Center><End>30 40</End></Curve>
<IrregularLine><PntList2D>30 40 32 30 10 20</PntList2D></IrregularLine></CoordGeom></Parcel></Parcels>
<Surfaces><Surface name="s"><Definition surfType="TIN"><Pnts><P id="1">0 0 1</P><P id="2">0 9 1</P><P id="3">9 0 2</P>
</Pnts><Faces><F>1 2 3</F></Faces></Definition></Surface></Surfaces>
</LandXML>"""
DAMAGE = (
    "<",
    ">",
    '"',
    "&",
    "nan",
    "INF",
    "-1e300",
    "1_0",
    "",
    "<!DOCTYPE a>",
    "\0",
    "]]>",
    "</CoordGeom>",
    "9" * 400,
)


def test_damaged_files_are_told_of_or_refused_and_nothing_else():
    rng = np.random.default_rng(20)
    outcomes = {"whole": 0, "told": 0, "refused": 0}
    for _ in range(400):
        text = WHOLE
        for _ in range(rng.integers(1, 4)):
            at, length = rng.integers(0, len(text)), rng.integers(0, 30)
            text = text[:at] + DAMAGE[rng.integers(len(DAMAGE))] + text[at + length :]
        try:
            found = read_landxml("a.xml", text.encode())
        except BadInput:
            outcomes["refused"] += 1
            continue
        for walk in found.walks:
            assert np.isfinite(walk.xy).all()
            assert np.abs(walk.xy).max() <= 1e9
        for surface in found.surfaces:
            assert np.isfinite(surface.points).all()
            assert surface.triangles.max() < len(surface.points)
        outcomes["told" if found.findings else "whole"] += 1
    assert min(outcomes["told"], outcomes["refused"]) > 100
