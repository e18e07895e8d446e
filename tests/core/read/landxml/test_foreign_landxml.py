# SPDX-License-Identifier: GPL-2.0-or-later
"""Whole LandXML files in the ways that other programs write them, with invented coordinates.

Each shape of file below was seen in files of several programs, on which the reader's counts, sums, lengths and areas
agreed with a plain ElementTree script to the last printed digit; the same script stands here as `plain_`.
"""

from __future__ import annotations

import math
from xml.etree import ElementTree

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.findings import Decisions
from plugin.core.read.landxml.drawing import read_landxml
from plugin.core.walk import Leg

HEAD = '<?xml version="1.0" encoding="{code}"?>\n<LandXML xmlns="{space}" version="1.2">\n{units}\n'
METRES = '<Units><Metric linearUnit="meter" angularUnit="grads" directionUnit="grads"/></Units>'
FEET = '<Units><Imperial linearUnit="USSurveyFoot" angularUnit="decimal degrees"/></Units>'
TIN = """<Surface name="ground"><SourceData/><Definition surfType="TIN"><Pnts>
{points}
</Pnts><Faces>
{faces}
</Faces></Definition></Surface>"""


def whole(body, units=METRES, code="UTF-8", space="http://www.landxml.org/schema/LandXML-1.2"):
    return (HEAD.format(code=code, space=space, units=units) + body + "\n</LandXML>\n").encode(code)


def read(data):
    return read_landxml("site.xml", data, Decisions())


def plain_name(element):
    return element.tag.rpartition("}")[2]


def plain(data, name):
    root = ElementTree.fromstring(data)  # noqa: S314  # the text is this file's own
    return [element for element in root.iter() if plain_name(element) == name]


def plain_areas(data, unit):
    """Points, faces, area in plan and in space of the file's faces."""
    at = {p.get("id"): [float(word) * unit for word in p.text.split()] for p in plain(data, "P")}
    corners = np.array([[at[name] for name in face.text.split()] for face in plain(data, "F")])
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) / 2
    return len(at), len(corners), np.abs(cross[:, 2]).sum(), np.linalg.norm(cross, axis=1).sum()


def plain_length(data):
    """Length in the file's unit of its lines and minor arcs; the arcs by chord and radius alone."""
    total = 0.0
    for element in [*plain(data, "Line"), *plain(data, "Curve")]:
        at = {
            plain_name(part): np.array(part.text.split()[:2], dtype=float)
            for part in element
            if part.text.strip()
        }
        chord = math.dist(at["Start"], at["End"])
        radius = math.dist(at["Start"], at["Center"]) if "Center" in at else None
        total += 2 * radius * math.asin(chord / 2 / radius) if radius else chord
    return total


def drawn_length(walk):
    """Length in plan of a walk's legs, arcs by the circle through their three stations."""
    total, k = 0.0, 1
    while k < len(walk):
        if walk.leg[k] is Leg.CURVE:
            a, b, c = (complex(*walk.xy[i]) for i in (k - 1, k, k + 1))
            half = abs(
                np.angle((b - a) / (c - a))
            )  # a quarter of the sweep: angle between tangent's and whole chord
            total += abs(c - a) / 2 / math.sin(2 * half) * 4 * half
            k += 2
        else:
            total += math.dist(walk.xy[k - 1], walk.xy[k]) if walk.leg[k] is not Leg.CARRY else 0.0
            k += 1
    return total


GRID = [(20 * i, 30 * j, 5 + ((3 * i + 5 * j) % 7) / 4) for i in range(4) for j in range(3)]
SQUARES = [(3 * i + j + 1, 3 * i + j + 2, 3 * i + j + 5, 3 * i + j + 4) for i in range(3) for j in range(2)]
FACES = [face for a, b, c, d in SQUARES for face in ((a, b, c), (a, c, d))]


def tin(north, east, faces=tuple(FACES)):
    points = "\n".join(
        f'<P id="{k}">{north + n:.6f} {east + e:.6f} {z:.12f}</P>' for k, (n, e, z) in enumerate(GRID, 1)
    )
    return TIN.format(points=points, faces="\n".join(f"<F>{a} {b} {c}</F>" for a, b, c in faces))


@pytest.mark.parametrize(
    ("units", "unit"), [(METRES, 1.0), (FEET, 1200 / 3937)], ids=["metres", "survey feet"]
)
def test_a_surface_far_from_the_origin_has_the_areas_of_its_faces(units, unit):
    data = whole(f"<Surfaces>{tin(1_068_179.3388061523, 835_199.3388061523)}</Surfaces>", units)
    (surface,) = read(data).surfaces
    points, faces, plan, space = plain_areas(data, unit)
    assert (len(surface.points), len(surface.triangles)) == (points, faces) == (12, 12)
    corners = surface.points[surface.triangles]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) / 2
    assert (cross[:, 2] > 0).all()
    # 60 by 60 units in plan; a millionth of a unit is what six decimals leave
    assert cross[:, 2].sum() == pytest.approx(3600 * unit**2, abs=1e-3)
    assert cross[:, 2].sum() == pytest.approx(plan, abs=1e-6)
    assert np.linalg.norm(cross, axis=1).sum() == pytest.approx(space, abs=1e-6)


def test_what_stands_outside_of_its_section_is_read_and_is_not_told_as_unread():
    line = "<CoordGeom><Line><Start>1 2</Start><End>4 6</End></Line></CoordGeom>"
    body = f'{tin(0, 0)}<Alignment name="axis">{line}</Alignment><Feature code="mark"/><Monuments/>'
    found = read(whole(body))
    assert len(found.surfaces[0].triangles) == 12
    assert drawn_length(found.walks[0]) == 5.0
    assert [finding.message for finding in found.findings if "not read" in finding.message] == [
        "site.xml: not read: Feature, Monuments."
    ]


def test_a_surface_of_one_place_is_refused_with_the_reason():
    points = "\n".join(f'<P id="{k}">6452089.6160000013 147040.28599999999 64.691</P>' for k in range(1, 5))
    body = TIN.format(points=points, faces="<F>1 2 3</F><F>1 2 4</F>")
    with pytest.raises(BadInput) as caught:
        read(whole(f"<Surfaces>{body}</Surfaces>"))
    assert str(caught.value) == (
        "Nothing of site.xml can be read. site.xml, line 4: the surface ground is not read: no face of it can be used. "
        "Give it points and faces."
    )


def test_a_grid_and_a_feature_without_geometry_are_refused_with_the_reason():
    grid = '<Surfaces><Surface name="dem"><Definition surfType="grid"/></Surface></Surfaces>'
    with pytest.raises(BadInput) as caught:
        read(whole(grid))
    assert str(caught.value) == (
        "Nothing of site.xml can be read. site.xml, line 4: the surface dem is not read: it has no triangles but GRID. "
        "Write it as a TIN: its points and faces."
    )
    with pytest.raises(BadInput) as caught:
        read(whole('<Parcels><Parcel name="lot"/></Parcels>', METRES + '<CoordinateSystem name="works"/>'))
    assert str(caught.value) == (
        "Nothing of site.xml can be read. site.xml, line 4: lot has no CoordGeom and is not read. Give it its lines and "
        "arcs."
    )


def test_a_file_with_a_strange_coordinate_system_alone_is_refused_as_before():
    with pytest.raises(BadInput) as caught:
        read(whole("", METRES + '<CoordinateSystem name="works"/>'))
    assert str(caught.value) == (
        "site.xml has no points, parcels, plan features, alignments or surfaces of triangles that can be read. Give a "
        "file that has."
    )


def test_faces_that_name_no_three_points_of_theirs_are_counted():
    faces = "<F>1 5 2</F><F>1 5 999</F><F>1 1 2</F><F>1 2 3 4</F><F></F>"
    points = "\n".join(f'<P id="{k}">{n} {e} {z}</P>' for k, (n, e, z) in enumerate(GRID, 1))
    found = read(whole(f"<Surfaces>{TIN.format(points=points, faces=faces)}</Surfaces>"))
    assert found.surfaces[0].triangles.tolist() == [[0, 1, 4]]
    assert [finding.message.partition(": ")[2] for finding in found.findings] == [
        'faces of the surface ground that cannot be read and are left out: 3, such as "1 5 999".',
        "faces of the surface ground without an area in plan, which are left out: 1.",
        "faces of the surface ground that ran clockwise and were turned: 1.",
    ]


def arc(start, centre, end, turn, rest=""):
    places = [f"<{part}>{n:.6f} {e:.6f} 0.000000</{part}>" for part, (n, e) in
              (("Start", start), ("Center", centre), ("End", end))]  # fmt: skip
    return f'<Curve rot="{turn}" {rest}>{"".join(places)}</Curve>'


def straight(start, end):
    return "<Line><Start>{:.6f} {:.6f} 0.000000</Start><End>{:.6f} {:.6f} 0.000000</End></Line>".format(
        *start, *end
    )


def test_an_axis_in_a_latin_file_with_windows_line_ends_has_its_stated_length():
    # 40 m straight north, a quarter turn to the right of radius 25, 15 m east, one to the left, 12 m north
    n, e = 6_782_560.5, 21_530_239.5
    pieces = [
        straight((n, e), (n + 40, e)),
        arc((n + 40, e), (n + 40, e + 25), (n + 65, e + 25), "cw", 'radius="25.000000" length="39.269908"'),
        straight((n + 65, e + 25), (n + 65, e + 40)),
        arc((n + 65, e + 40), (n + 90, e + 40), (n + 90, e + 65), "ccw", 'radius="25.000000" staStart="94.269908"'),
        straight((n + 90, e + 65), (n + 102, e + 65)),
    ]  # fmt: skip
    profile = "<Profile><ProfAlign><PVI>0.0 17.69</PVI><PVI>145.5 18.31</PVI></ProfAlign></Profile>"
    body = (
        '<CoordinateSystem name="GK21" epsgCode="3875" rotationAngle="0" verticalCoordinateSystemName="N2000"/>\n'
        '<Project name="Ärla"><Feature code="codes"><Property label="coding" value="own"/></Feature></Project>\n'
        '<Alignments name="axes"><Alignment name="Ärla väg" length="145.539816">\n<CoordGeom>\n'
        + "\n".join(pieces)
        + f"\n</CoordGeom>{profile}</Alignment></Alignments>"
    )
    data = whole(body, code="ISO-8859-1", space="urn:of:another:schema").replace(b"\n", b"\r\n")
    found = read(data)
    (walk,) = found.walks
    assert found.findings == ()
    assert (walk.keys.crs, walk.feature[0]) == ("EPSG:3875", "Ärla väg")
    assert plain_length(data) == pytest.approx(67 + 25 * math.pi, abs=1e-6)
    assert drawn_length(walk) == pytest.approx(67 + 25 * math.pi, abs=1e-5)
    assert [leg.name for leg in walk.leg] == [
        "DIRECT", "DIRECT", "CURVE", "CURVE_END", "DIRECT", "CURVE", "CURVE_END", "DIRECT",
    ]  # fmt: skip


def test_an_axis_with_spirals_keeps_its_straights_and_arcs_and_tells_each_spiral():
    pieces = [
        straight((0, 0), (100, 0)),
        (
            '<Spiral length="60" radiusStart="INF" radiusEnd="250" rot="cw" spiType="clothoid">'
            "<Start>100 0</Start><PI>140 0</PI><End>159.91 2.40</End><Feature><Property/></Feature></Spiral>"
        ),
        arc((160, 2), (160, 252), (410, 252), "cw"),
    ]
    data = whole(
        f'<Alignments><Alignment name="axis"><CoordGeom>{"".join(pieces)}</CoordGeom></Alignment></Alignments>'
    )
    found = read(data)
    assert [(f.code, f.place, f.message) for f in found.findings] == [
        ("IN-01", "axis", "site.xml, line 4: axis has a Spiral, which is not drawn.")
    ]
    assert drawn_length(found.walks[0]) == pytest.approx(100 + 125 * math.pi, abs=1e-6)
    assert found.walks[0].leg[2] is Leg.CARRY


def test_points_in_groups_of_groups_with_features_between_them():
    rows = [
        (
            f'<CgPoint name="{3000 + k}" code="D2342" surveyOrder="{k}" timeStamp="2020-01-01T00:00:00Z">'
            f"{6783020.064 + 7.5 * k:.6f} {21530666.426 - 3.25 * k:.6f} {17.4 + k / 8:.6f}</CgPoint>"
        )
        for k in range(1, 38)
    ]
    feature = '<Feature code="coding"><Property label="coding" value="D2342"/></Feature>'
    body = (
        '<CgPoints name="poles" code=""><CgPoints name="poles_1" desc="lamps"><CgPoints name="poles_1_1">\n'
        + "\n".join(rows)
        + f"\n{feature}</CgPoints></CgPoints></CgPoints>"
    )
    data = whole(body)
    (walk,) = read(data).walks
    numbers = np.array([[float(word) for word in point.text.split()] for point in plain(data, "CgPoint")])
    assert numbers.shape == (37, 3)
    assert np.array_equal(np.column_stack([walk.xy[:, ::-1], walk.z]), numbers)
    assert walk.station == tuple(str(3000 + k) for k in range(1, 38))
    assert set(walk.extra["group"]) == {"poles_1_1"}


def test_places_in_attributes_that_the_schema_does_not_know_are_told_once_an_element():
    pieces = '<Line><Start pnt="0.0 50.0"/><End pnt="50.0 50.0"/></Line>' * 2
    body = f'<Alignments><Alignment name="axis"><CoordGeom>\n{pieces}\n</CoordGeom></Alignment></Alignments>'
    found = read(whole(tin(0, 0) + body))
    assert len(found.surfaces) == 1
    assert [(f.code, f.message) for f in found.findings if f.code != "IN-06"] == [
        ("IN-01", 'site.xml, line 31: "" is not a point: north, east, and a height or none.')
    ] * 2
