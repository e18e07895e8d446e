# SPDX-License-Identifier: GPL-2.0-or-later
"""Published figures and fragments of LandXML: the schema's own documentation, and a surface whose areas its writer
states.

Sources: LandXML-1.2 schema documentation, landxml.org (elements F, CgPoint, Chain, PntList3D, CoordinateSystem, type
latLongAngularType), read in November 2026; the areas: first fixture of src/index.test.ts of the
npm library landxml 0.7.0 (MIT), attributes area2DSurf and area3DSurf; the alignment: Tests/GSG_corridors.xml of the
LandXML SDK (repository LandXmlSDK, commit ca52863d), its first alignment with the lengths and angles that
its writer states. Names are left out.
"""

from __future__ import annotations

import math

import numpy as np
import pyproj
import pytest

from plugin.core.findings import Decisions
from plugin.core.measure.chain import Settings, survey_job
from plugin.core.read.landxml.drawing import read_landxml
from plugin.core.walk import Job


def read(body, units='<Metric linearUnit="meter"/>', more=""):
    text = f'<LandXML version="1.2"><Units>{units}</Units>{more}{body}</LandXML>'
    return read_landxml("a.xml", text.encode())


def test_the_areas_of_a_surface_are_those_that_its_writer_states():
    found = read(
        '<Surfaces><Surface name="s"><SourceData><Breaklines><Breakline brkType="standard">'
        "<PntList3D>2. 1. 3. 5. 4. 6. 8. 7. 9. 2. 7. 0.</PntList3D></Breakline></Breaklines></SourceData>"
        '<Definition surfType="TIN" area2DSurf="18." area3DSurf="33.674916480965" elevMax="9." elevMin="0.">'
        '<Pnts><P id="5">2. 1. 3.</P><P id="6">5. 4. 6.</P><P id="7">8. 7. 9.</P><P id="8">2. 7. 0.</P></Pnts>'
        '<Faces><F n="2 0 0">8 6 5</F><F n="0 0 1">8 7 6</F></Faces></Definition></Surface></Surfaces>',
        '<Imperial areaUnit="squareFoot" linearUnit="foot"/>',
    )
    (one,) = found.surfaces
    a, b, c = (one.points[one.triangles[:, k]] / 0.3048 for k in range(3))
    normals = np.cross(b - a, c - a) / 2
    assert normals[:, 2].sum() == pytest.approx(18.0, abs=1e-12)
    assert np.linalg.norm(normals, axis=1).sum() == pytest.approx(33.674916480965, abs=5e-13)
    assert one.points[:, 2].max() / 0.3048 == pytest.approx(9.0, abs=1e-12)
    assert len(one.breaklines[0]) == 4
    assert not [f for f in found.findings if "is said to cover" in f.message]


def test_the_schemas_example_of_faces_hides_the_fourth():
    # Element F: <F>5 10 20</F> three times, then <F n="2 0 3" i="1">10 20 30</F>.
    points = "".join(
        f'<P id="{k}">{y} {x} 0</P>' for k, y, x in ((5, 0, 0), (10, 0, 1), (20, 1, 1), (30, 1, 2))
    )
    faces = '<F>5 10 20</F><F>5 10 20</F><F>5 10 20</F><F n="2 0 3" i="1">10 20 30</F>'
    found = read(
        f'<Surfaces><Surface name="s"><Definition surfType="TIN"><Pnts>{points}</Pnts><Faces>{faces}</Faces>'
        "</Definition></Surface></Surfaces>"
    )
    assert found.surfaces[0].triangles.tolist() == [[0, 1, 2]]


def test_the_schemas_example_of_a_chain_joins_the_points_it_names():
    # Element Chain: "1 23 45 34 represents a linear connection between CgPoint name 1, 23, 45 and 34".
    points = "".join(
        f'<CgPoint name="{name}">{k} 0</CgPoint>' for k, name in enumerate(("34", "1", "45", "23"))
    )
    found = read(
        f"<CgPoints>{points}</CgPoints><PlanFeatures><PlanFeature name='f'><CoordGeom><Chain>1 23 45 34</Chain>"
        "</CoordGeom></PlanFeature></PlanFeatures>"
    )
    assert found.walks[1].xy[:, 1].tolist() == [1, 3, 2, 0]


def test_the_schemas_example_of_a_list_is_four_points():
    # Element PntList3D.
    found = read(
        "<PlanFeatures><PlanFeature name='f'><CoordGeom><IrregularLine><PntList3D>0.000 86.52 50.0 6.267 86.89 50.0 "
        "12.413 87.01 50.0 26.020 87.83 50.0</PntList3D></IrregularLine></CoordGeom></PlanFeature></PlanFeatures>"
    )
    (walk,) = found.walks
    assert walk.xy.tolist() == [[86.52, 0], [86.89, 6.267], [87.01, 12.413], [87.83, 26.02]]
    assert walk.z.tolist() == [50] * 4


@pytest.mark.parametrize(("code", "metres"), [("20252", 1.0), ("26755", 1200 / 3937)])
def test_the_schemas_examples_of_coordinate_systems_are_known_in_their_own_units(code, metres):
    # Element CoordinateSystem: AMG zone 52 is 20252, Colorado CS27 South zone is 26755.
    assert pyproj.CRS(f"EPSG:{code}").axis_info[0].unit_conversion_factor == pytest.approx(metres, rel=1e-12)
    found = read(
        '<CgPoints><CgPoint name="1">1000 500 3</CgPoint></CgPoints>',
        more=f'<CoordinateSystem epsgCode="{code}"/>',
    )
    assert found.walks[0].keys.crs == f"EPSG:{code}"
    assert found.walks[0].xy[0] * metres == pytest.approx([500, 1000], rel=1e-12)


def test_the_schemas_example_of_degrees_minutes_and_seconds_is_read_as_such():
    # Type latLongAngularType: "45.3025" is 45 degrees 30 minutes and 25 seconds.
    sweep = math.radians(45 + 30 / 60 + 25 / 3600)
    radius = 5000.0
    end = f"{radius * math.sin(sweep):.6f} {radius * math.cos(sweep):.6f}"
    units = '<Metric linearUnit="meter" angularUnit="{}"/>'
    body = (
        f'<PlanFeatures><PlanFeature name="f"><CoordGeom><Curve rot="ccw" delta="45.3025" radius="5000"><Start>0 5000</Start>'
        f"<Center>0 0</Center><End>{end}</End></Curve><Line><Start>{end}</Start><End>0 0</End></Line></CoordGeom>"
        "</PlanFeature></PlanFeatures>"
    )
    assert read(body, units.format("decimal dd.mm.ss")).findings == ()
    told = read(body, units.format("decimal degrees")).findings
    assert [finding.code for finding in told] == ["IN-01"]


ALIGNMENT = """
<Line dir="306.132387840202" length="460.660693398073"><Start>78179.34612006 1031253.37798237</Start>
<End>77807.290425910003 1031525.00794186</End></Line>
<Curve rot="cw" chord="210.586382043484" crvType="arc" delta="63.533966312411" length="221.775379791794"
midOrd="29.960757694037" radius="199.999999992108"><Start>77807.290425910003 1031525.00794186</Start>
<Center>77689.359826064843 1031363.4766024332</Center><End>77597.314977369999 1031541.03714373</End>
<PI>77707.265573126628 1031598.0339622597</PI></Curve>
<Line dir="242.598421532218" length="183.633379475322"><Start>77597.314977369999 1031541.03714373</Start>
<End>77434.284766059995 1031456.52461059</End></Line>
<Curve rot="ccw" chord="194.362552154018" crvType="arc" delta="58.143746128687" length="202.959961878499"
midOrd="25.197827301615" radius="200.000000000631"><Start>77434.284766059995 1031456.52461059</Start>
<Center>77342.239917370302 1031634.0851518989</Center><End>77240.004797300004 1031462.18989244</End>
<PI>77335.569974825426 1031405.3522726615</PI></Curve>
<Line dir="300.742167659368" length="589.596806880711"><Start>77240.004797300004 1031462.18989244</Start>
<End>76733.26031682 1031763.57739415</End></Line>
"""


def test_an_alignment_is_as_long_as_its_writer_states_and_so_are_its_arcs():
    found = read(
        f'<Alignments><Alignment name="a" length="1658.626221424399" staStart="0.">'
        f"<CoordGeom>{ALIGNMENT}</CoordGeom></Alignment></Alignments>",
        '<Imperial linearUnit="foot" areaUnit="squareFoot" angularUnit="decimal degrees"/>',
    )
    assert found.findings == ()
    survey = survey_job(Job(found.walks), Decisions(), Settings())
    (row,) = survey.lengths
    assert row.length.value / 0.3048 == pytest.approx(1658.626221424399, abs=1e-6)
    (walk,) = found.walks
    for first, middle_ordinate in ((1, 29.960757694037), (4, 25.197827301615)):
        start, middle, end = walk.xy[first : first + 3] / 0.3048
        assert math.dist(middle, (start + end) / 2) == pytest.approx(middle_ordinate, abs=1e-6)
