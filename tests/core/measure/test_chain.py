# SPDX-License-Identifier: GPL-2.0-or-later
"""Rules of the walk log from the file to the figures: the seams between reading, adjusting, shaping, measuring."""

from __future__ import annotations

import math

import pytest

from plugin.core.errors import GroundTallyError, Refused
from plugin.core.findings import Severity
from plugin.core.measure.chain import survey_files

COLUMNS = "walk,station,x,y,z,feature,part,geometry,leg,mark,offset,offset_side,hole_in,side_item"


def log(*rows, columns=COLUMNS, units="m"):
    """A log of rows given as text; short rows are filled with blanks."""
    width = columns.count(",")
    filled = [row + "," * (width - row.count(",")) for row in rows]
    return ("\n".join([f"# units: {units}", columns, *filled]) + "\n").encode()


def trail(feature, points, walk="W1", first=1, geometry="area", part="", **more):
    """Rows of one feature; points are (x, y) or (x, y, z)."""
    cells = {"feature": feature, "part": part, "geometry": geometry, **more}
    out = []
    for i, point in enumerate(points, first):
        row = {"walk": walk, "station": i, "x": point[0], "y": point[1], **cells}
        row["z"] = point[2] if len(point) > 2 else ""
        out.append(",".join(str(row.get(name, "")) for name in COLUMNS.split(",")))
    return out


def survey(*rows, answers=(), files=None):
    given = {"w.csv": log(*rows), **(files or {})}
    if answers:
        given["d.csv"] = ("finding,place,answer\n" + "\n".join(answers) + "\n").encode()
    return survey_files(given)


def codes(made, severity=None):
    return [f.code for f in made.findings if severity in (None, f.severity)]


SQUARE = [(0, 0), (10, 0), (10, 8), (0, 8), (0, 0)]


def test_a_blank_offset_is_none_and_moves_nothing():
    made = survey(*trail("Yard", SQUARE))
    assert made.areas[0].area.value == pytest.approx(80.0)


def test_an_offset_to_the_left_of_the_edge_makes_an_outline_walked_anticlockwise_larger():
    made = survey(*trail("Yard", SQUARE, offset=0.5, offset_side="left"))
    assert made.areas[0].area.value == pytest.approx(11 * 9)
    made = survey(*trail("Yard", SQUARE, offset=0.5, offset_side="right"))
    assert made.areas[0].area.value == pytest.approx(9 * 7)


TWICE = [
    *trail("Bed", [(0, 0), (10, 0), (10, 8)]),
    *trail("Tree", [(30, 30)], first=10, geometry="spot"),
    *trail("Bed", [(0, 8), (0, 0)], first=20),
]


def test_a_feature_that_comes_again_is_two_shapes_until_it_is_answered():
    made = survey(*TWICE)
    assert "IN-05" in codes(made, Severity.ASK)
    assert [(a.tags.feature, a.tags.part) for a in made.areas] == [("Bed", ""), ("Bed", "2")]


def test_the_answer_one_joins_both_goes_to_one_shape():
    made = survey(*TWICE, answers=["IN-05,Bed,one"])
    assert [(a.tags.feature, a.tags.part) for a in made.areas] == [("Bed", "")]
    assert made.areas[0].area.value == pytest.approx(80.0)
    assert len(made.sides) == 4


def test_the_answer_one_joins_goes_of_two_walks():
    marks = [(0, -5), (20, -5), (20, 20)]
    one = [
        *(f"W1,m{i},{x},{y},,,,,,{m}" for i, ((x, y), m) in enumerate(zip(marks, "ABC"))),
        *trail("Bed", [(0, 0), (10, 0), (10, 8)]),
    ]
    two = [
        *(f"W2,m{i},{x + 100},{y + 50},,,,,,{m}" for i, ((x, y), m) in enumerate(zip(marks, "ABC"))),
        *trail("Bed", [(100, 58), (100, 50)], walk="W2"),
    ]
    made = survey(*one, files={"x.csv": log(*two)}, answers=["IN-05,Bed,one"])
    assert [a.area.value for a in made.areas] == pytest.approx([80.0], abs=1e-6)
    assert made.areas[0].tags.other_walks == ("W2",)
    assert [(leg.start, leg.end) for leg in made.legs] == [
        ("1", "2"), ("2", "3"), ("3", "1"), ("1", "2"),
    ]  # fmt: skip


def test_a_stop_in_either_walk_keeps_the_joined_figures_out():
    marks = [(0, -5), (20, -5), (20, 20)]
    one = [
        *(f"W1,m{i},{x},{y},,,,,,{m}" for i, ((x, y), m) in enumerate(zip(marks, "ABC"))),
        *trail("Bed", [(0, 0), (10, 0), (10, 8)]),
    ]
    two = [
        *(f"W2,m{i},{x + 100},{y + 50},,,,,,{m}" for i, ((x, y), m) in enumerate(zip(marks, "ABC"))),
        *trail("Bed", [(100, 58), (100, 50)], walk="W2"),
        *(f"W2,m{i + 7},{x + 100 + 2},{y + 50},,,,,,{m}" for i, ((x, y), m) in enumerate(zip(marks, "ABC"))),
    ]
    made = survey(*one, files={"x.csv": log(*two)}, answers=["IN-05,Bed,one"])
    assert {f.walk for f in made.findings if f.severity is Severity.STOP and f.is_open and not f.feature} == {
        "W2"
    }
    assert made.areas[0].area is None
    assert made.areas[0].tags.finding


def test_a_length_walked_in_two_goes_has_two_runs_and_one_where_it_goes_on():
    apart = [
        *trail("Kerb", [(0, 0), (5, 0)], geometry="length", part="a"),
        *trail("Tree", [(30, 30)], first=10, geometry="spot"),
        *trail("Kerb", [(9, 0), (12, 0)], first=20, geometry="length", part="a"),
    ]
    made = survey(*apart)
    assert [(len(row.runs), row.length.value) for row in made.lengths] == [(2, pytest.approx(8.0))]
    apart[-2] = apart[-2].replace(",9,0,", ",5,0,")
    made = survey(*apart)
    assert [(len(row.runs), row.length.value) for row in made.lengths] == [(1, pytest.approx(12.0))]


def test_two_walks_of_one_name_stop_until_they_are_confirmed():
    first, again = trail("Yard", SQUARE), trail("Yard 2", SQUARE)
    first = ["W1,a,-5,-5,,,,,,A", "W1,b,20,-5,,,,,,B", "W1,c,20,9,,,,,,C", *first]
    again = ["W1,a,-5,-5,,,,,,A", "W1,b,20,-5,,,,,,B", "W1,c,20,9,,,,,,C", *again]
    made = survey(*first, files={"v.csv": log(*again)})
    assert "IN-04" in codes(made, Severity.STOP)
    assert [row.area for row in made.areas] == [None, None]
    made = survey(*first, files={"v.csv": log(*again)}, answers=["IN-04,W1:a,as recorded"])
    assert [row.area.value for row in made.areas] == pytest.approx([80.0, 80.0], abs=1e-6)
    assert [(row.walk, row.file, row.stations) for row in made.walks] == [
        ("W1", "v.csv", 8),
        ("W1", "w.csv", 8),
    ]


def test_a_hole_by_name_is_taken_out_and_keeps_its_row():
    made = survey(
        *trail("Yard", SQUARE),
        *trail("Bed", [(2, 2), (4, 2), (4, 4), (2, 4), (2, 2)], first=10, hole_in="Yard"),
    )
    assert [row.area.value for row in made.areas] == pytest.approx([76.0, 4.0])
    assert [row.hole_in for row in made.areas] == ["", "Yard"]
    assert len(made.areas[0].outline) == 2


def test_a_hole_by_where_it_lies_is_taken_out_and_told():
    made = survey(*trail("Yard", SQUARE), *trail("Bed", [(2, 2), (4, 2), (4, 4), (2, 4), (2, 2)], first=10))
    assert made.areas[0].area.value == pytest.approx(76.0)
    assert "GE-05" in codes(made)


def test_a_pass_stays_in_the_outline_and_its_side_runs_through():
    made = survey(*trail("Yard", [(0, 0), (5, 0), (10, 0), (10, 8), (0, 8), (0, 0)]))
    assert [side.length.value for side in made.sides] == pytest.approx([10, 8, 10, 8])
    assert len(made.areas[0].outline[0].points) == 6
    assert len(made.legs) == 5


def test_a_station_doubled_on_the_spot_changes_nothing_but_its_own_leg():
    made = survey(*trail("Yard", [(0, 0), (10, 0), (10, 0), (10, 8), (0, 8), (0, 0)]))
    assert made.areas[0].area.value == pytest.approx(80.0)
    assert made.areas[0].perimeter.value == pytest.approx(36.0)
    assert sorted(leg.length.value for leg in made.legs)[0] == 0.0
    assert all(math.isfinite(leg.length.sigma) for leg in made.legs)
    assert [leg.gradient for leg in made.legs if leg.length.value == 0.0] == [None]


def test_a_walk_of_one_station_is_a_spot():
    made = survey("W1,1,3,4,2.5,Tree")
    assert made.spots[0].point[2] == 2.5
    assert made.spots[0].height.value == 2.5
    assert len(made.stations) == 1


def test_one_station_of_an_area_has_no_figures_and_says_why():
    made = survey("W1,1,3,4,2.5,Bed,,area")
    assert made.areas[0].area is None
    assert "GE-01" in codes(made, Severity.STOP)


def test_without_heights_all_plan_figures_are_there_and_no_other():
    made = survey(*trail("Yard", SQUARE), *trail("Kerb", [(0, 0), (3, 4)], first=10, geometry="length"))
    area, length = made.areas[0], made.lengths[0]
    assert (area.sloped_area, area.fall, area.fall_bearing) == (None, None, None)
    assert (length.slope_length, length.rise, length.gradient) == (None, None, None)
    assert (area.area.value, area.perimeter.value, length.length.value) == pytest.approx((80, 36, 5))


def test_heights_are_those_of_the_ground_below_the_pole():
    made = survey_files({"w.csv": b"# units: m\nwalk,station,x,y,z,pole,feature\nW1,1,0,0,12.5,2,Tree\n"})
    assert made.spots[0].height.value == 10.5


def test_a_log_in_feet_is_measured_in_metres():
    made = survey_files({"w.csv": log(*trail("Yard", SQUARE), units="ft")})
    assert made.areas[0].area.value == pytest.approx(80 * 0.3048**2)


def test_without_units_every_figure_would_be_wrong_and_nothing_is_written():
    with pytest.raises(Refused):
        survey_files({"w.csv": log(*trail("Yard", SQUARE)).replace(b"# units: m\n", b"")})


CONTROL = "# crs: EPSG:25831\nmark,x,y,z,sd_xy,sd_z,use\n"
YARD = trail("Yard", SQUARE)


def beside(control=None, *rows, **files):
    given = {"w.csv": log(*rows), **files}
    if control is not None:
        given["c.csv"] = (CONTROL + control).encode()
    return survey_files(given)


def test_a_log_without_marks_is_measured_and_not_placed():
    made = beside("A,512340,5712880,,,,\nB,512360,5712880,,,,\n", *YARD)
    assert (made.placement.status, made.plane) == ("not placed", None)
    assert made.areas[0].area.value == pytest.approx(80.0)
    assert codes(made).count("IN-06") == 2


def test_one_mark_alone_places_nothing():
    made = beside("A,512340,5712880,,,,\n", "W1,a,0,0,,,,,,A", *YARD)
    assert (made.placement.status, made.plane) == ("not placed", None)
    assert [row.mark for row in made.marks] == ["A"]


def test_empty_control_is_no_control():
    assert beside("", "W1,a,0,0,,,,,,A", *YARD).placement.status == "not placed"


def test_level_marks_alone_give_heights_and_no_place():
    rows = [row.replace(",Yard", "3,Yard", 1) for row in YARD]
    made = beside("BM,,,84.2,,0.003,\n", "W1,a,0,0,3.5,,,,,BM", *rows)
    assert made.placement.status == "not placed"
    assert made.stations[0].point[2] == pytest.approx(84.2, abs=1e-9)
    assert made.placement.height_shift == pytest.approx(80.7, abs=1e-9)


def test_five_walks_of_the_same_rows_agree():
    base = ["W1,a,-5,-5,,,,,,A", "W1,b,20,-5,,,,,,B", "W1,c,20,9,,,,,,C"]
    rows = [
        row.replace("W1", f"W{k}").replace("Yard", f"Yard {k}") for k in range(1, 6) for row in (*base, *YARD)
    ]
    made = beside(None, *rows)
    assert [row.area.value for row in made.areas] == pytest.approx([80.0] * 5, abs=1e-9)
    assert not codes(made, Severity.STOP)


@pytest.mark.parametrize("name", ["A;1", "mark {x}", "Ä ß 木", "a+b", "W1:1", "%s", "'", "survey"])
def test_marks_may_have_any_name(name):
    marks = [(-5, -5, "A"), (20, -5, name), (20, 9, "C")]
    rows = [f"{w},m{i},{x},{y},,,,,,{mark}" for w in ("W1", "W2") for i, (x, y, mark) in enumerate(marks)]
    rows = rows[:3] + YARD + rows[3:]
    made = beside(f"A,512340,5712880,,,,\n{name},512365,5712880,,,,\nC,512365,5712894,,,,check\n", *rows)
    assert made.placement.status == "placed"
    assert {row.mark for row in made.marks} == {"A", name, "C"}
    assert all(f.message and f.remedy_text for f in made.findings)


def test_where_every_walk_is_stopped_no_survey_is_written():
    base = ["W1,a,0,0,,,,,,A", "W1,b,328.2,0,,,,,,B", *YARD]
    with pytest.raises(Refused) as told:
        beside("A,512340,5712880,,,,\nB,512440,5712880,,,,\n", *base)
    assert str(told.value) == (
        "No walk is left to adjust. IN-03 at W1:a (w.csv, line 3): Walk W1: its lengths between marks are 3.281 times "
        "those of the map; the log says m, and ft or us-ft would fit. Set the walk's unit to ft or us-ft. Or answer it "
        "with a row in the decisions file: IN-03,W1:a,ft or us-ft"
    )


def test_two_marks_in_one_place_are_no_base():
    with pytest.raises(GroundTallyError) as told:
        beside("A,512340,5712880,,,,\nB,512340,5712880,,,,\n", "W1,a,0,0,,,,,,A", "W1,b,0,0,,,,,,B", *YARD)
    assert "{" not in str(told.value)


@pytest.mark.parametrize("there", [(0, 0), (0, 1e-7)])
def test_walks_that_share_two_marks_in_one_place_are_not_tied(there):
    rows = [
        f"{walk},{mark},{x},{y},,,,,,{mark}"
        for walk in ("W1", "W2")
        for mark, (x, y) in (("A", (0, 0)), ("B", there))
    ]
    made = beside(None, *rows[:2], *YARD, *rows[2:], *trail("Bed", SQUARE, walk="W2"))
    assert "TI-01" in codes(made, Severity.STOP)


def test_sigmas_beyond_reckoning_are_refused():
    instruments = b"instrument,heading_rate_deg_per_min\nrover,1000\n"
    rows = [f"W1,{i}m,{i % 2 * 1e8},{i // 2 * 1e8},,,,,,{mark}" for i, mark in enumerate("ABCDABCD")]
    files = {"w.csv": b"# instrument: rover\n" + log(*rows, *YARD), "i.csv": instruments}
    with pytest.raises(Refused) as told:
        survey_files(files)
    assert str(told.value).startswith(
        "The sigmas of this job are too far apart to be reckoned with (the largest is "
    )
