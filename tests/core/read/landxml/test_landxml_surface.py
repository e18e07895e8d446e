# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces of triangles in LandXML: their area and heights, and the faults of their points and faces."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from scipy.spatial import Delaunay
from shapely.geometry import MultiPoint

from plugin.core.errors import BadInput
from plugin.core.findings import Severity
from plugin.core.read.landxml.drawing import read_landxml

UNITS = '<Units><Metric linearUnit="meter" areaUnit="squareMeter"/></Units>'
SQUARE = '<P id="1">0 0 1</P><P id="2">0 10 1</P><P id="3">10 10 2</P><P id="4">10 0 2</P>'


def surface(points, faces, sources="", units=UNITS, definition='surfType="TIN"'):
    text = (
        f'<LandXML version="1.2">{units}<Surfaces>\n<Surface name="ground">\n<SourceData>{sources}</SourceData>\n'
        f"<Definition {definition}>\n<Pnts>{points}</Pnts>\n<Faces>{faces}</Faces></Definition></Surface></Surfaces></LandXML>"
    )
    return read_landxml("a.xml", text.encode())


def only(found):
    (one,) = found.surfaces
    return one


def areas(one):
    a, b, c = (one.points[one.triangles[:, k], :2] for k in range(3))
    ab, ac = b - a, c - a
    return (ab[:, 0] * ac[:, 1] - ab[:, 1] * ac[:, 0]) / 2


def told(found):
    return [(f.code, f.severity, f.message) for f in found.findings]


def test_a_surface_has_its_points_east_first_and_its_triangles_anticlockwise():
    one = only(surface(SQUARE, "<F>1 2 3</F><F>1 3 4</F>"))
    assert (one.name, one.file, one.crs) == ("ground", "a.xml", None)
    assert one.points.tolist() == [[0, 0, 1], [10, 0, 1], [10, 10, 2], [0, 10, 2]]
    assert one.triangles.tolist() == [[0, 1, 2], [0, 2, 3]]
    assert areas(one).tolist() == [50, 50]
    assert not one.points.flags.writeable
    assert not one.triangles.flags.writeable


@pytest.mark.parametrize("shift", [0.0, 1e7])
@pytest.mark.parametrize("is_reversed", [False, True])
def test_the_triangles_of_scattered_points_cover_their_hull(shift, is_reversed):
    rng = np.random.default_rng(3)
    xyz = rng.uniform(0, 100, (500, 3)).round(4) + [shift, shift, 0]
    mesh = Delaunay(xyz[:, :2] - shift).simplices + 1
    points = "".join(f'<P id="{k}">{y:.4f} {x:.4f} {z:.4f}</P>' for k, (x, y, z) in enumerate(xyz, 1))
    rows = mesh[:, ::-1] if is_reversed else mesh
    one = only(surface(points, "".join(f"<F>{a} {b} {c}</F>" for a, b, c in rows)))
    assert len(one.triangles) == len(mesh)
    assert (areas(one) > 0).all()
    assert areas(one).sum() == pytest.approx(MultiPoint(xyz[:, :2] - shift).convex_hull.area, abs=1e-3)
    assert np.abs(one.points - xyz).max() < 1e-8


def test_units_of_plan_and_heights_and_the_coordinate_system_hold_for_surfaces():
    units = (
        '<Units><Imperial linearUnit="USSurveyFoot" elevationUnit="meter"/></Units>'
        '<CoordinateSystem epsgCode="25832"/>'
    )
    one = only(surface(SQUARE, "<F>1 2 3</F>", units=units))
    assert one.crs == "EPSG:25832"
    assert one.points[2] == pytest.approx([12000 / 3937, 12000 / 3937, 2], rel=1e-15)


def test_invisible_faces_are_left_out_and_neighbours_ignored():
    one = only(surface(SQUARE, '<F n="0 2 0" i="0">1 2 3</F><F n="1 0 0" i="1">1 3 4</F>'))
    assert one.triangles.tolist() == [[0, 1, 2]]


def test_faces_may_stand_in_several_groups():
    one = only(surface(SQUARE, "<F>1 2 3</F></Faces><Faces><F>1 3 4</F>"))
    assert one.triangles.tolist() == [[0, 1, 2], [0, 2, 3]]


def test_clockwise_faces_are_turned_and_counted():
    found = surface(SQUARE, "<F>1 3 2</F><F>1 3 4</F>")
    assert areas(only(found)).tolist() == [50, 50]
    assert told(found) == [
        (
            "IN-06",
            Severity.NOTE,
            "a.xml, line 2: faces of the surface ground that ran clockwise and were turned: 1.",
        )
    ]


def test_faces_without_an_area_are_left_out_and_counted():
    found = surface(SQUARE + '<P id="5">5 5 9</P>', "<F>1 2 3</F><F>1 1 3</F><F>1 5 3</F>")
    assert only(found).triangles.tolist() == [[0, 1, 2]]
    assert told(found) == [
        (
            "IN-06",
            Severity.NOTE,
            "a.xml, line 2: faces of the surface ground without an area in plan, which are left out: 2.",
        )
    ]


@pytest.mark.parametrize("face", ["1 2 9", "1 2", "1 2 3 4", "", "1 2 x", "1 2 -1", "0 1 2"])
def test_faces_that_name_no_three_points_are_told_once(face):
    found = surface(SQUARE, f"<F>1 2 3</F>\n<F>{face}</F>\n<F>8 9 7</F>")
    assert only(found).triangles.tolist() == [[0, 1, 2]]
    assert told(found) == [
        (
            "IN-01", Severity.STOP,
            f'a.xml, from line 7 on: faces of the surface ground that cannot be read and are left out: 2, such as "{face}".',
        )
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text", ["0 5", "0 5 nan", "0 5 1e300", "0 inf 5", "0 5 5 5", "x 5 5", "", "1_0 5 5"]
)
def test_points_that_cannot_be_read_are_told_once_and_so_are_their_faces(text):
    found = surface(f'{SQUARE}\n<P id="5">{text}</P>', "<F>1 2 3</F><F>1 5 4</F>")
    assert only(found).triangles.tolist() == [[0, 1, 2]]
    assert [message for _, _, message in told(found)] == [
        f'a.xml, from line 6 on: points of the surface ground that cannot be read: 1, such as "{text}".',
        'a.xml, from line 7 on: faces of the surface ground that cannot be read and are left out: 1, such as "1 5 4".',
    ]


def test_a_repeated_id_is_told_and_the_first_counts():
    found = surface(SQUARE + '\n<P id="3">90 90 9</P>', "<F>1 2 3</F>")
    assert areas(only(found)).tolist() == [50]
    assert told(found) == [
        (
            "IN-01", Severity.STOP,
            ("a.xml, from line 6 on: points of the surface ground with the id of another one: 1, such as 3; the first of "
            "each is taken."),
        )
    ]  # fmt: skip


def test_a_face_that_stands_there_twice_is_taken_once():
    found = surface(SQUARE, "<F>1 2 3</F><F>3 1 2</F><F>2 1 3</F><F>1 3 4</F>")
    assert areas(only(found)).sum() == 100
    assert told(found)[0] == (
        "IN-01",
        Severity.STOP,
        "a.xml, from line 2 on: faces of the surface ground that stand there a second time and are left out: 2.",
    )


def test_breaklines_and_boundaries_are_kept():
    sources = (
        '<Breaklines><Breakline name="a"><PntList3D>0 0 1 10 5 2</PntList3D></Breakline>'
        "<Breakline><PntList2D>1 2 3 4</PntList2D></Breakline></Breaklines>"
        '<Boundaries><Boundary bndType="outer" edgeTrim="true"><PntList2D>0 0 0 10 10 10 0 0</PntList2D></Boundary>'
        '<Boundary bndType="void"><PntList3D>1 2 3 4 5 6 7 8 9</PntList3D></Boundary></Boundaries>'
    )
    found = surface(SQUARE, "<F>1 2 3</F>", sources)
    one = only(found)
    assert found.findings == ()
    assert one.breaklines[0].tolist() == [[0, 0, 1], [5, 10, 2]]
    assert one.breaklines[1][:, :2].tolist() == [[2, 1], [4, 3]]
    assert np.isnan(one.breaklines[1][:, 2]).all()
    assert one.boundary[:, :2].tolist() == [[0, 0], [10, 0], [10, 10], [0, 0]]
    assert shapely.geometry.Polygon(one.boundary[:, :2]).area == 50
    assert one.voids[0].tolist() == [[2, 1, 3], [5, 4, 6], [8, 7, 9]]


def test_a_breakline_that_cannot_be_read_is_told():
    found = surface(
        SQUARE,
        "<F>1 2 3</F>",
        "<Breaklines><Breakline><PntList3D>0 0 1 x</PntList3D></Breakline></Breaklines>",
    )
    assert only(found).breaklines == ()
    assert told(found) == [
        (
            "IN-01", Severity.STOP,
            'a.xml, line 3: a Breakline of the surface ground cannot be read; it starts with "0 0 1".',
        )
    ]  # fmt: skip


def test_sources_that_are_not_read_are_named():
    sources = (
        '<Contours><Contour elev="1"><PntList2D>1 2 3 4</PntList2D></Contour></Contours><Breaklines><RetWall/></Breaklines>'
        '<Boundaries><Boundary bndType="island"><PntList2D>1 2 3 4</PntList2D></Boundary></Boundaries>'
    )
    found = surface(SQUARE, "<F>1 2 3</F>", sources)
    assert told(found) == [
        (
            "IN-06", Severity.NOTE,
            "a.xml, from line 3 on: of the surface ground is not read: Contours, RetWall, Boundary island.",
        )
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("stated", "is_told"), [("100.05", False), ("50", True), ("NaN", True), ("x", False)]
)
def test_a_stated_area_that_is_not_the_triangles_is_noted(stated, is_told):
    found = surface(SQUARE, "<F>1 2 3</F><F>1 3 4</F>", definition=f'surfType="TIN" area2DSurf="{stated}"')
    shown = {"50": "50", "NaN": "nan"}.get(stated)
    assert told(found) == [
        (
            "IN-06", Severity.NOTE,
            (f"a.xml, line 4: the surface is said to cover {shown} in plan; its triangles cover 100 (in the square of "
            "the file's unit of length)."),
        )
    ] * is_told  # fmt: skip


def test_a_grid_is_named_as_not_read():
    with pytest.raises(BadInput):
        surface(SQUARE, "<F>1 2 3 4</F>", definition='surfType="grid"')
    text = (
        f'<LandXML version="1.2">{UNITS}<CgPoints><CgPoint name="1">1 2</CgPoint></CgPoints><Surfaces>\n'
        f'<Surface name="g"><Definition surfType="grid"><Pnts>{SQUARE}</Pnts></Definition></Surface>\n'
        '<Surface name="s"><SourceData/></Surface></Surfaces></LandXML>'
    )
    assert [f.message for f in read_landxml("a.xml", text.encode()).findings] == [
        "a.xml, line 2: the surface g is not read: it has no triangles but GRID.",
        "a.xml, line 3: the surface s is not read: it has no triangles but its sources alone.",
    ]


def test_a_surface_that_the_file_breaks_off_in_is_left_out():
    text = (
        f'<LandXML version="1.2">{UNITS}<CgPoints><CgPoint name="1">1 2</CgPoint></CgPoints><Surfaces>\n'
        f'<Surface name="g"><Definition surfType="TIN"><Pnts>{SQUARE}</Pnts><Faces><F>1 2 3</F><F>1 3'
    )
    found = read_landxml("a.xml", text.encode())
    assert found.surfaces == ()
    assert found.findings[0].message == "a.xml, line 2: the Surface g breaks off and is left out."


def test_ids_need_not_be_numbers_nor_in_order():
    points = '<P id="c">0 0 1</P><P id="7">0 10 1</P><P id="03">10 0 1</P>'
    assert only(surface(points, "<F>c 7 03</F>")).triangles.tolist() == [[0, 1, 2]]


def test_a_hundred_thousand_triangles_are_read_with_their_area():
    n = 225
    y, x = np.divmod(np.arange(n * n), n)
    points = "".join(f'<P id="{k}">{b} {a} 0</P>' for k, (a, b) in enumerate(zip(x.tolist(), y.tolist())))
    corner = [k for k in range(n * (n - 1)) if k % n < n - 1]
    faces = "".join(f"<F>{k} {k + 1} {k + n}</F><F>{k + 1} {k + n + 1} {k + n}</F>" for k in corner)
    one = only(surface(points, faces))
    assert len(one.triangles) == 2 * (n - 1) ** 2
    assert areas(one).sum() == (n - 1) ** 2
