# SPDX-License-Identifier: GPL-2.0-or-later
"""Lines, arcs and lists of points of LandXML features: their stations, and the figures of the survey that these make."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.findings import Decisions, Severity
from plugin.core.measure.chain import Settings, survey_job
from plugin.core.read.landxml.drawing import read_landxml
from plugin.core.walk import Job, Kind, Leg

UNITS = '<Units><Metric linearUnit="meter" angularUnit="decimal degrees"/></Units>'
FOOT = 0.3048


def read(body, units=UNITS):
    return read_landxml("a.xml", f'<LandXML version="1.2">{units}\n{body}\n</LandXML>'.encode())


def feature(*elements, kind="Parcel", name="F", units=UNITS):
    body = "\n".join(elements)
    return read(
        f'<{kind}s><{kind} name="{name}">\n<CoordGeom>\n{body}\n</CoordGeom></{kind}></{kind}s>', units
    )


def line(*ends):
    start, end = (" ".join(map(repr, map(float, (y, x, *z)))) for x, y, *z in ends)
    return f"<Line><Start>{start}</Start><End>{end}</End></Line>"


def curve(start, centre, end, rot, more=""):
    texts = [" ".join(map(repr, map(float, (y, x, *z)))) for x, y, *z in (start, centre, end)]
    parts = "".join(f"<{name}>{text}</{name}>" for name, text in zip(("Start", "Center", "End"), texts))
    return f'<Curve rot="{rot}" {more}>{parts}</Curve>'


def ring(*corners):
    return [line(a, b) for a, b in zip(corners, (*corners[1:], corners[0]))]


def survey_of(found):
    return survey_job(Job(found.walks), Decisions(), Settings(), found.findings)


def area_of(found):
    (row,) = survey_of(found).areas
    return row.area.value


def length_of(found):
    (row,) = survey_of(found).lengths
    return row.length.value


def told(found):
    return [(f.code, f.severity, f.place, f.message) for f in found.findings]


def test_a_parcel_of_lines_is_an_area_of_its_corners():
    found = feature(*ring((0, 0), (30, 0), (30, 10), (0, 10)))
    (walk,) = found.walks
    assert (walk.name, walk.feature[0], walk.kind[0]) == ("a parcels", "F", Kind.AREA)
    assert walk.xy.tolist() == [[0, 0], [30, 0], [30, 10], [0, 10], [0, 0]]
    assert set(walk.leg) == {Leg.DIRECT}
    assert walk.line.tolist() == [4, 4, 5, 6, 7]
    assert area_of(found) == pytest.approx(300, abs=1e-9)


@pytest.mark.parametrize("kind", ["PlanFeature", "Alignment"])
def test_plan_features_and_alignments_are_lengths_even_where_closed(kind):
    found = feature(*ring((0, 0), (30, 0), (30, 10), (0, 10)), kind=kind)
    assert found.walks[0].kind[0] is Kind.LENGTH
    assert length_of(found) == pytest.approx(80, abs=1e-9)


@pytest.mark.parametrize("shift", [0.0, 1e7])
@pytest.mark.parametrize("turn_deg", [0, 37, 180, 271])
@pytest.mark.parametrize("sweep_deg", [1, 90, 179, 181, 270, 350])
@pytest.mark.parametrize("rot", ["cw", "ccw"])
def test_an_arc_and_its_chord_have_the_area_of_their_segment(shift, turn_deg, sweep_deg, rot):
    radius, sweep = 12.5, math.radians(sweep_deg)
    way = 1 if rot == "ccw" else -1
    first = math.radians(turn_deg)
    start, end = (
        (shift + radius * math.cos(a), shift + radius * math.sin(a)) for a in (first, first + way * sweep)
    )
    found = feature(curve(start, (shift, shift), end, rot), line(end, start))
    wanted = radius**2 / 2 * (sweep - math.sin(sweep))
    assert [leg.value for leg in found.walks[0].leg] == ["direct", "curve", "curve-end", "direct"]
    middle = found.walks[0].xy[1]
    assert math.dist(middle, (shift, shift)) == pytest.approx(radius, abs=1e-8)
    assert _segment(found.walks[0].xy[:3], sweep > math.pi) == pytest.approx(
        wanted, abs=1e-7 * (1 + shift / 1e5)
    )


def _segment(three, is_major):
    """Area between a chord and the arc through a point on it, from the sagitta and the chord alone."""
    start, middle, end = three
    chord = math.dist(start, end)
    rise = math.dist(middle, (start + end) / 2)
    radius = rise / 2 + chord**2 / (8 * rise)
    half = math.asin(min(1.0, chord / 2 / radius))
    sweep = 2 * (math.pi - half) if is_major else 2 * half
    return radius**2 / 2 * (sweep - math.sin(sweep))


def test_a_rectangle_with_a_half_circle_has_the_area_of_both():
    found = feature(
        line((20, 10), (40, 10)),
        curve((40, 10), (40, 20), (40, 30), "ccw", 'radius="10" delta="180" length="31.416"'),
        line((40, 30), (20, 30)),
        line((20, 30), (20, 10)),
    )
    assert area_of(found) == pytest.approx(400 + 50 * math.pi, abs=1e-8)
    assert found.findings == ()


def test_a_half_circle_cut_in_is_taken_off():
    found = feature(
        line((20, 10), (40, 10)),
        curve((40, 10), (40, 20), (40, 30), "cw"),
        line((40, 30), (20, 30)),
        line((20, 30), (20, 10)),
    )
    assert area_of(found) == pytest.approx(400 - 50 * math.pi, abs=1e-8)


@pytest.mark.parametrize("rot", ["cw", "ccw"])
def test_a_full_circle_has_two_points_on_the_way(rot):
    found = feature(curve((10, 0, 1), (0, 0), (10, 0, 1), rot))
    assert [leg.value for leg in found.walks[0].leg] == ["direct", "curve", "curve", "curve-end"]
    assert area_of(found) == pytest.approx(100 * math.pi, abs=1e-8)
    y = found.walks[0].xy[1][1]
    assert (y > 0) == (rot == "ccw")


def test_a_three_quarter_circle_is_as_long_as_it_is():
    found = feature(curve((10, 0), (0, 0), (0, -10), "ccw"), kind="PlanFeature")
    assert length_of(found) == pytest.approx(15 * math.pi, abs=1e-8)


def test_heights_run_evenly_along_an_arc():
    walk = feature(curve((10, 0, 1), (0, 0), (0, 10, 3), "ccw"), kind="PlanFeature").walks[0]
    assert walk.z.tolist() == [1, 2, 3]


def test_arcs_are_in_the_files_units():
    units = '<Units><Imperial linearUnit="foot"/></Units>'
    found = feature(curve((10, 0), (0, 0), (10, 0), "cw", 'radius="10"'), units=units)
    assert area_of(found) == pytest.approx(100 * math.pi * FOOT**2, abs=1e-9)


def test_an_arc_that_is_a_straight_is_written_as_one():
    found = feature(curve((0, 0), (0, 1e7), (1, 5e-8), "ccw"), kind="PlanFeature")
    assert [leg.value for leg in found.walks[0].leg] == ["direct", "direct"]


BAD_CURVES = {
    "radii": (
        curve((10, 0), (0, 0), (0, 10.0012), "ccw"),
        "a.xml, line 5: the Curve of F has radii from 10.0000 to 10.0012 m (centre to start, centre to end, as stated).",
    ),
    "stated": (
        curve((10, 0), (0, 0), (0, 10), "ccw", 'radius="12"'),
        "a.xml, line 5: the Curve of F has radii from 10.0000 to 12.0000 m (centre to start, centre to end, as stated).",
    ),
    "endless": (
        curve((10, 0), (0, 0), (0, 10), "ccw", 'radius="INF"'),
        "a.xml, line 5: the Curve of F has radii from 10.0000 to inf m (centre to start, centre to end, as stated).",
    ),
    "nothing": (
        curve((0, 0), (0, 0), (0, 0), "ccw"),
        "a.xml, line 5: the Curve of F has radii from 0.0000 to 0.0000 m (centre to start, centre to end, as stated).",
    ),
    "length": (
        curve((10, 0), (0, 0), (0, 10), "ccw", 'length="47.124"'),
        "a.xml, line 5: the Curve of F is 15.708 m long by its points but 47.124 m by its length.",
    ),
    "delta": (
        curve((10, 0), (0, 0), (0, 10), "ccw", 'delta="270"'),
        "a.xml, line 5: the Curve of F is 15.708 m long by its points but 47.124 m by its delta.",
    ),
    "rot": (
        curve((10, 0), (0, 0), (0, 10), "left"),
        'a.xml, line 5: the Curve of F turns neither cw nor ccw but "left".',
    ),
    "centre": (
        '<Curve rot="cw"><Start>0 0</Start><End>0 1</End></Curve>',
        "a.xml, line 5: the Curve of F has no Center.",
    ),
    "spiral": ('<Spiral length="3" radiusEnd="INF"/>', "a.xml, line 5: F has a Spiral, which is not drawn."),
    "list": (
        "<IrregularLine><PntList2D>1 2 3</PntList2D></IrregularLine>",
        'a.xml, line 5: the numbers of the PntList2D are not 2 to a point; it starts with "1 2".',
    ),
    "no list": (
        "<IrregularLine><Start>1 2</Start></IrregularLine>",
        "a.xml, line 5: the IrregularLine of F has no PntList2D or PntList3D.",
    ),
    "chain": (
        "<Chain>1 2</Chain>",
        'a.xml, line 5: the point "1" that is referred to does not stand in the file.',
    ),
    "nan": (
        "<Line><Start>0 NaN</Start><End>0 1</End></Line>",
        'a.xml, line 5: "0 NaN" has a number that is not finite.',
    ),
}


@pytest.mark.parametrize("case", BAD_CURVES)
def test_a_piece_that_cannot_be_drawn_keeps_the_area_out_for_good(case):
    bad, message = BAD_CURVES[case]
    found = feature(line((0, 0), (10, 0)), bad, line((0, 10), (0, 0)))
    first, second = found.findings
    assert (first.code, first.severity, first.place, first.answers) == (
        "IN-01",
        Severity.STOP,
        "F",
        ("left out",),
    )
    assert first.message == message
    assert (second.code, second.severity, second.place, second.answers) == ("GE-01", Severity.STOP, "F", ())
    assert second.message == "a.xml, line 5: a piece of the outline of F is not drawn, so it has no area."
    assert [leg.value for leg in found.walks[0].leg] == ["direct", "direct", "carry", "direct"]
    (row,) = survey_of(found).areas
    assert (row.area, row.tags.finding) == (None, "IN-01 GE-01")


@pytest.mark.parametrize("case", BAD_CURVES)
def test_a_length_without_a_piece_is_kept_out_until_that_is_accepted(case):
    bad, message = BAD_CURVES[case]
    found = feature(line((0, 0), (10, 0)), bad, line((0, 10), (0, 0)), kind="PlanFeature")
    assert told(found) == [("IN-01", Severity.STOP, "F", message)]
    (row,) = survey_of(found).lengths
    assert (row.length, row.tags.finding) == (None, "IN-01")


@pytest.mark.parametrize(
    ("start", "end", "is_drawn"),
    [
        ("0 10", "10.1 0", False),
        ("0 10.00", "10.01 0", True),
        ("0 10.00", "10.02 0", False),
        ("0 10.000", "10.002 0", True),
        ("0 10.000", "10.003 0", False),
        ("0 10.00000", "10.00090 0", True),
        ("0 10.00000", "10.00110 0", False),
    ],
)
def test_radii_may_differ_by_a_millimetre_and_the_rounding_of_the_coordinates(start, end, is_drawn):
    # A distance between two points of two decimals is off by 2 x 5 mm x sqrt(2) = 14 mm at most.
    text = f'<Curve rot="ccw"><Start>{start}</Start><Center>0 0</Center><End>{end}</End></Curve>'
    found = feature(text, line((5, 5), (6, 6)), kind="PlanFeature")
    assert (found.walks[0].leg[1] is Leg.CURVE) == is_drawn


def test_an_angle_without_a_unit_is_not_looked_at():
    units = '<Units><Metric linearUnit="meter"/></Units>'
    found = feature(curve((10, 0), (0, 0), (0, 10), "ccw", 'delta="90"'), kind="PlanFeature", units=units)
    assert found.findings == ()


@pytest.mark.parametrize(
    ("unit", "delta"),
    [("radians", math.pi / 2), ("grads", 100), ("decimal degrees", 90), ("decimal dd.mm.ss", 90)],
)
def test_angles_are_in_the_unit_that_is_stated(unit, delta):
    units = f'<Units><Metric linearUnit="meter" angularUnit="{unit}"/></Units>'
    arc = ((10, 0), (0, 0), (0, 10), "ccw")
    assert feature(curve(*arc, f'delta="{delta!r}"'), kind="PlanFeature", units=units).findings == ()
    wrong = feature(
        curve(*arc, f'delta="{delta / 2!r}"'), line((5, 5), (6, 6)), kind="PlanFeature", units=units
    )
    assert [f.code for f in wrong.findings] == ["IN-01"]


def test_a_gap_in_a_length_is_carried_and_told():
    found = feature(line((0, 0), (10, 0)), line((10, 3), (20, 3)), kind="PlanFeature")
    assert [leg.value for leg in found.walks[0].leg] == ["direct", "direct", "carry", "direct"]
    assert told(found) == [
        (
            "CL-02", Severity.NOTE, "F",
            ("a.xml, line 5: F goes on 3.000 m from where the piece before ended; an outline is closed there by a direct "
            "side, of a length nothing is drawn."),
        )
    ]  # fmt: skip
    assert length_of(found) == pytest.approx(20, abs=1e-9)


@pytest.mark.parametrize(
    ("gap", "code"), [(0.0009, None), (0.0015, "CL-02"), (0.04, "CL-02"), (0.06, "GE-01")]
)
def test_a_gap_in_an_outline_is_closed_only_where_it_is_small(gap, code):
    found = feature(line((0, 0), (10, 0)), line((10 + gap, 0), (10, 10)), line((10, 10), (0, 0)))
    assert [f.code for f in found.findings] == ([code] if code else [])
    if code == "GE-01":
        assert found.findings[0].answers == ()
        assert found.findings[0].message == (
            "a.xml, line 5: the outline of F is open here by 0.060 m, so it has no area."
        )
        assert survey_of(found).areas[0].area is None
    else:
        assert area_of(found) == pytest.approx(50, abs=0.3)


def test_a_list_of_points_is_drawn_with_and_without_its_ends():
    inner = "<PntList3D>0 1 5 0 2 6</PntList3D>"
    ends = "<Start>0 0 4</Start>{}<End>0 3 7</End>"
    for text in (ends.format(inner), ends.format("<PntList3D>0 0 4 0 1 5 0 2 6 0 3 7</PntList3D>")):
        (walk,) = feature(f"<IrregularLine>{text}</IrregularLine>", kind="PlanFeature").walks
        assert walk.xy.tolist() == [[0, 0], [1, 0], [2, 0], [3, 0]]
        assert walk.z.tolist() == [4, 5, 6, 7]


def test_a_plain_list_has_no_heights():
    (walk,) = feature(
        "<IrregularLine><PntList2D>0 0 0 5</PntList2D></IrregularLine>", kind="PlanFeature"
    ).walks
    assert walk.xy.tolist() == [[0, 0], [5, 0]]
    assert np.isnan(walk.z).all()


def test_a_step_between_two_elements_of_a_length_stays():
    (walk,) = feature(line((0, 0, 1), (5, 0, 1)), line((5, 0, 2), (9, 0, 2)), kind="PlanFeature").walks
    assert walk.z.tolist() == [1, 1, 2, 2]


def test_ends_and_chains_refer_to_points_that_may_stand_later():
    found = read(
        '<Parcels><Parcel name="P"><CoordGeom><Line><Start pntRef="1"/><End pntRef="2"/></Line>'
        "<Chain>2 3 4 1</Chain></CoordGeom></Parcel></Parcels><CgPoints>"
        '<CgPoint name="1">0 0</CgPoint><CgPoint name="2">0 8</CgPoint><CgPoint name="3">5 8</CgPoint>'
        '<CgPoint name="4">5 0</CgPoint></CgPoints>'
    )
    assert [walk.name for walk in found.walks] == ["a points", "a parcels"]
    assert area_of(found) == pytest.approx(40, abs=1e-9)


def test_several_features_have_names_that_differ_and_keep_their_columns():
    one = "<CoordGeom>" + "".join(ring((0, 0), (3, 0), (3, 4))) + "</CoordGeom>"
    found = read(
        f'<Parcels><Parcel name="Lot" desc="first" area="6">{one}</Parcel><Parcel name="Lot">{one}</Parcel>'
        f'<Parcel>{one}</Parcel></Parcels><PlanFeatures><PlanFeature name="Lot">{one}</PlanFeature></PlanFeatures>'
    )
    names = [list(dict.fromkeys(walk.feature)) for walk in found.walks]
    assert names == [["Lot", "Lot (2)", "Parcel 3"], ["Lot (3)"]]
    assert found.walks[0].texts["note"][0] == "first"
    assert found.walks[0].extra["area"][0] == "6"
    assert [row.area.value for row in survey_of(found).areas] == pytest.approx([6, 6, 6], abs=1e-9)


def test_parcels_inside_parcels_are_read_too():
    one = "<CoordGeom>" + "".join(ring((0, 0), (3, 0), (3, 4))) + "</CoordGeom>"
    two = one.replace(" 0.0", " 100.0").replace(" 3.0", " 103.0")
    found = read(
        f'<Parcels><Parcel name="A">{one}<Parcels><Parcel name="B">{two}</Parcel></Parcels></Parcel></Parcels>'
    )
    assert list(dict.fromkeys(found.walks[0].feature)) == ["A", "B"]


def test_two_outlines_of_one_parcel_are_two_parts():
    one = "<CoordGeom>" + "".join(ring((0, 0), (3, 0), (3, 4))) + "</CoordGeom>"
    two = one.replace(" 0.0", " 100.0").replace(" 3.0", " 103.0")
    found = read(f'<Parcels><Parcel name="A">{one}{two}</Parcel></Parcels>')
    assert list(dict.fromkeys(zip(found.walks[0].feature, found.walks[0].part))) == [("A", "1"), ("A", "2")]
    assert sum(row.area.value for row in survey_of(found).areas) == pytest.approx(12, abs=1e-8)


def test_two_geometries_of_one_length_are_two_pieces():
    pieces = [f"<CoordGeom>{line((x, 0), (x + 3, 0))}</CoordGeom>" for x in (0, 100)]
    found = read(f'<PlanFeatures><PlanFeature name="A">{"".join(pieces)}</PlanFeature></PlanFeatures>')
    assert found.findings == ()
    assert length_of(found) == pytest.approx(6, abs=1e-9)


def test_a_feature_without_geometry_is_noted():
    found = read(
        f'<Parcels><Parcel name="A"/><Parcel name="B"><CoordGeom>{line((0, 0), (1, 1))}</CoordGeom></Parcel></Parcels>'
    )
    assert [f.message for f in found.findings] == ["a.xml, line 2: A has no CoordGeom and is not read."]


def test_a_parcel_that_the_file_breaks_off_in_is_left_out():
    text = f'<LandXML version="1.2">{UNITS}<Parcels>\n<Parcel name="A"><CoordGeom>{line((0, 0), (1, 1))}</CoordGeom></Parcel>\n'
    text += f'<Parcel name="B"><CoordGeom>{line((0, 0), (1, 1))}<Line>'
    found = read_landxml("a.xml", text.encode())
    assert set(found.walks[0].feature) == {"A"}
    assert found.findings[0].message == "a.xml, line 3: the Parcel B breaks off and is left out."


def test_a_list_of_a_hundred_thousand_points_is_read():
    rng = np.random.default_rng(5)
    numbers = " ".join(map(str, rng.integers(0, 1000, 300_000).tolist()))
    (walk,) = feature(
        f"<IrregularLine><PntList3D>{numbers}</PntList3D></IrregularLine>", kind="PlanFeature"
    ).walks
    assert len(walk) == 100_000
