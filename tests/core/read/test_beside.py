# SPDX-License-Identifier: GPL-2.0-or-later
"""What lies beside the logs: control, tapes, instruments, decisions."""

from __future__ import annotations

import math

import pytest

from plugin.core.errors import BadInput
from plugin.core.findings import Decision, Decisions
from plugin.core.read.control import read_control
from plugin.core.read.decisions import read_decisions, write_decisions
from plugin.core.read.instruments import read_instruments
from plugin.core.read.table import read_table
from plugin.core.read.tapes import read_tapes
from plugin.core.walk import ControlPoint, Instrument, LogKeys, Tape

REST = "; the rest of the file was read."


def control(text):
    return read_control(read_table("control.csv", text.encode()))


def tapes(text, decisions=None, logs=None):
    return read_tapes(read_table("tapes.csv", text.encode()), decisions or Decisions(), logs)


def instruments(text):
    return read_instruments(read_table("instruments.csv", text.encode()))


def decisions(text):
    return read_decisions(read_table("decisions.csv", text.encode()))


def told(findings):
    return [(f.code, f.place, f.message, f.remedy_text) for f in findings]


# --- control ---------------------------------------------------------------------------------------------------


def test_control_keeps_map_coordinates_and_turns_heights_and_sigmas_into_metres():
    found, findings = control(
        "# crs: EPSG:2264\n# units: us-ft\n# common-sd: 0.33\n# separation: -30.5\n# height-datum: town\n"
        "mark,x,y,z,sd_xy,sd_z,use\nA,3020000,300000,312,0.1,0.01,fit\nBM1,,,300,,,\nC,3020054.5,300047.5,,,,Check\n"
    )
    foot = 1200 / 3937
    assert (found.crs, found.height_datum, found.separation, found.file) == (
        "EPSG:2264",
        "town",
        -30.5,
        "control.csv",
    )
    assert found.common_sd == pytest.approx(0.33 * foot, rel=1e-15)
    assert found.points == (
        ControlPoint("A", (3020000.0, 300000.0), 312 * foot, 0.1 * foot, 0.01 * foot, is_check=False, line=7),
        ControlPoint("BM1", None, 300 * foot, None, None, is_check=False, line=8),
        ControlPoint("C", (3020054.5, 300047.5), None, None, None, is_check=True, line=9),
    )
    assert findings == ()


@pytest.mark.parametrize(("key", "crs"), [("", "EPSG:4326"), ("# crs: EPSG:4258\n", "EPSG:4258")])
def test_longitude_and_latitude_bring_their_own_crs(key, crs):
    found, findings = control(key + "mark,lat,lon\nA,51.5,3.25\n")
    assert (found.crs, found.points[0].xy, findings) == (crs, (3.25, 51.5), ())


def test_control_without_units_is_in_metres_and_shared_figures_may_wear_their_own():
    found, findings = control(
        "# crs: EPSG:25831\n# common-sd: 10 cm\n# separation: 43,2\nmark,x,y,z\nA,1,2,3\n"
    )
    assert (found.common_sd, found.separation, found.points[0].z, findings) == (0.1, 43.2, 3.0, ())


@pytest.mark.parametrize(
    ("row", "message", "remedy"),
    [
        ("B,1,,,,", "control.csv, line 3: B has one of x, y without the other.",
         "Give both, or empty both for a level mark" + REST),
        ("B,,,,,", "control.csv, line 3: B has neither a map point nor a height.",
         "Give x, y, or z for a level mark" + REST),
        ("A,1,2,,,", "control.csv, line 3: A stands here again; it is already in line 2.",
         "Keep one of the two lines" + REST),
        ("B,1,2,,-1,", 'control.csv, line 3, column sd_xy: "-1" is below zero.',
         "Give zero or more, or empty the field" + REST),
        ("B,1,2,,,maybe", 'control.csv, line 3, column use: "maybe" is not one of: fit, check.',
         "Write one of these words or empty the field" + REST),
        ("B,1e10,2,,,", 'control.csv, line 3, column x: "1e10" is beyond 1e9 m.',
         "Correct the number or the units" + REST),
    ],
)  # fmt: skip
def test_a_control_row_that_cannot_be_used_is_told_whole(row, message, remedy):
    found, findings = control(f"mark,x,y,z,sd_xy,use\nA,5,6,,,\n{row}\n")
    assert [point.mark for point in found.points] == ["A"]
    assert told(findings) == [("IN-01", row[0], message, remedy)]


def test_a_mark_may_have_its_point_and_its_level_in_two_rows():
    found, findings = control("mark,x,y,z\nA,5,6,\nA,,,3\n")
    assert [(p.xy, p.z) for p in found.points] == [((5.0, 6.0), None), (None, 3.0)]
    assert findings == ()


def test_degrees_beyond_the_globe_are_told():
    found, findings = control("mark,lon,lat\nA,3,91\n")
    assert found.points == ()
    assert told(findings) == [
        ("IN-01", "A", 'control.csv, line 2, column lat: "91" is not from -90 to 90.',
         "Correct the number, or exchange the columns" + REST)
    ]  # fmt: skip


@pytest.mark.parametrize("value", ["-0.1", "much", "nan"])
def test_a_shared_sigma_that_is_none_is_told_and_left_out(value):
    found, findings = control(f"# common-sd: {value}\nmark,x,y\nA,1,2\n")
    assert found.common_sd is None
    assert told(findings) == [
        ("IN-01", "survey",
         f'control.csv, line 1, key common-sd: "{value}" cannot be used; write a length like 0.10.',
         "Correct the line; until then the survey goes on as if the key were not given.")
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("mark,x\nA,1\n", ("control.csv: the control needs the columns mark and x, y (or lon, lat, or z alone); "
         "it has mark, x. Name the columns so.")),
        ("mark,x,y,lon,lat\nA,1,2,3,4\n", ("control.csv: the control has columns for x, y and for lon, lat. "
         "Keep one of the two pairs.")),
        ("# crs: EPSG:25831\nmark,lon,lat\nA,3,51\n", ("control.csv, line 1: lon and lat are degrees, but the CRS "
         "EPSG:25831 is projected. Name the columns x, y, or give the CRS of the degrees.")),
        ("# units: paces\nmark,x,y\nA,3,51\n", ('control.csv, line 1: the units "paces" are not known. '
         "Write one of: m, ft, us-ft, in, cm, mm.")),
    ],
)  # fmt: skip
def test_control_that_cannot_be_used_at_all_is_refused(text, message):
    with pytest.raises(BadInput) as caught:
        control(text)
    assert str(caught.value) == message


def test_unknown_control_columns_and_keys_are_noted_and_the_pictures_date_is_passed_on():
    found, findings = control("# picture-date: 2026-01-02\n# by: us\nmark,x,y,why\nA,1,2,post\n")
    assert found.other == (("picture-date", "2026-01-02"), ("by", "us"))
    assert [f.message for f in findings] == [
        "control.csv: unknown columns are kept as they are: why.",
        "control.csv: unknown keys are kept as they are: by.",
    ]


# --- tapes -----------------------------------------------------------------------------------------------------


def test_tapes_are_read_in_metres():
    found, findings = tapes("# units: ft\nfrom,to,distance,sd,slope\nA,B,10,0.1,no\nA,W1:3,20,,YES\n")
    assert found == (
        Tape(
            "A",
            "B",
            pytest.approx(3.048),
            pytest.approx(0.03048),
            is_slope=False,
            file="tapes.csv",
            line=3,
            unit_m=0.3048,
        ),
        Tape("A", "W1:3", pytest.approx(6.096), None, is_slope=True, file="tapes.csv", line=4, unit_m=0.3048),
    )
    assert findings == ()


def test_tapes_without_units_take_those_that_all_logs_state():
    found, findings = tapes("from,to,distance\nA,B,10\n", logs=LogKeys(units="ft", unit_m=0.3048))
    assert (found[0].distance, findings) == (pytest.approx(3.048), ())


def test_tapes_without_units_beside_logs_without_them_stop():
    _, findings = tapes("from,to,distance\nA,B,10\n", logs=LogKeys())
    assert told(findings) == [
        ("IN-02", "A+B", "tapes.csv: the units are not given.",
         'State them in a line "# units: m" above the header, or answer for A+B with m, ft or us-ft.')
    ]  # fmt: skip


def test_an_answer_sets_the_tapes_units():
    found, findings = tapes("from,to,distance\nA,B,10\n", Decisions([Decision("IN-02", "A+B", "ft")]))
    assert (found[0].distance, findings[0].answer) == (pytest.approx(3.048), "ft")


def test_misspelt_units_are_not_replaced_by_those_of_the_logs():
    _, findings = tapes("# units: fet\nfrom,to,distance\nA,B,10\n", logs=LogKeys(units="ft", unit_m=0.3048))
    assert [f.message for f in findings] == ['tapes.csv, line 1: the units "fet" are not known.']


@pytest.mark.parametrize(
    ("row", "place", "message", "remedy"),
    [
        ("A,B,0,,", "A+B", 'tapes.csv, line 3, column distance: "0" is not above zero.',
         "Give a number above zero" + REST),
        ("A,B,,,", "A+B", "tapes.csv, line 3, column distance: the field is blank.", "Fill the field in" + REST),
        ("A,A,1,,", "A+A", "tapes.csv, line 3: the tape runs from A to A.", "Name two different marks" + REST),
        ("A,B,1,,steep", "A+B", 'tapes.csv, line 3, column slope: "steep" is not one of: yes, no.',
         "Write one of these words or empty the field" + REST),
        ("A,B,1,-1,", "A+B", 'tapes.csv, line 3, column sd: "-1" is below zero.',
         "Give zero or more, or empty the field" + REST),
        (",B,1,,", "survey", "tapes.csv, line 3, column from: the field is blank.", "Fill the field in" + REST),
    ],
)  # fmt: skip
def test_a_tape_that_cannot_be_used_is_told_whole(row, place, message, remedy):
    found, findings = tapes(f"# units: m\nfrom,to,distance,sd,slope\n{row}\nC,D,5,,\n")
    assert [(tape.start, tape.end) for tape in found] == [("C", "D")]
    assert told(findings) == [("IN-01", place, message, remedy)]


def test_tapes_without_a_distance_are_refused():
    with pytest.raises(BadInput) as caught:
        tapes("from,to\nA,B\n")
    assert str(caught.value) == (
        "tapes.csv: the tapes have no column distance. Their header needs from, to and distance; it has from, to."
    )


# --- instruments -----------------------------------------------------------------------------------------------


def test_instrument_parts_become_si():
    found, findings = instruments(
        "instrument,scale,scale_shared,heading_rate_deg_per_min,heading_walk_deg_per_sqrt_m,leg_m,leg_m_per_s1_5,"
        "leg_m_per_sqrt_m,stand_m,height_leg_m,height_leg_m_per_s1_5,height_leg_m_per_sqrt_m,height_stand_m\n"
        "one,0.0015,0.001,60,180,0.003,0.0004,0.001,0.004,0.005,0.0006,0.002,0.007\ntwo,,,,,,,,,,,,\n"
    )
    assert found["one"] == Instrument(
        "one", 0.0015, 0.001, pytest.approx(math.pi / 180), pytest.approx(math.pi), 0.003, 0.0004, 0.001, 0.004,
        0.005, 0.0006, 0.002, 0.007,
    )  # fmt: skip
    assert found["two"] == Instrument("two")
    assert findings == ()


def test_a_heading_rate_in_degrees_a_minute_comes_back_from_radians_a_second():
    found, _ = instruments("instrument,heading_rate_deg_per_min\ndemo,0.04\n")
    # 0.04 deg/min = 0.04/60 deg/s
    assert math.degrees(found["demo"].heading_rate * 60) == pytest.approx(0.04, rel=1e-15)


@pytest.mark.parametrize(
    ("row", "place", "message", "remedy"),
    [
        ("one,0.1", "one", "instruments.csv, line 3: one stands here again; it is already in line 2.",
         "Keep one of the two lines" + REST),
        ("two,-1", "two", 'instruments.csv, line 3, column leg_m: "-1" is below zero.',
         "Give zero or more, or empty the field" + REST),
        ("two,1e9", "two", 'instruments.csv, line 3, column leg_m: "1e9" is beyond 1000.',
         "Correct the number or the units; the rest of the file was read."),
        (",1", "survey", "instruments.csv, line 3, column instrument: the field is blank.",
         "Fill the field in" + REST),
    ],
)  # fmt: skip
def test_an_instrument_that_cannot_be_used_is_told_whole(row, place, message, remedy):
    found, findings = instruments(f"instrument,leg_m\none,0.5\n{row}\n")
    assert (list(found), found["one"].leg) == (["one"], 0.5)
    assert told(findings) == [("IN-01", place, message, remedy)]


def test_instruments_without_names_are_refused():
    with pytest.raises(BadInput) as caught:
        instruments("scale,leg_m\n1,2\n")
    assert (
        str(caught.value)
        == "instruments.csv: the instruments have no column instrument; the header has scale, leg_m."
    )


# --- decisions -------------------------------------------------------------------------------------------------


def test_decisions_are_read_in_order_and_come_back_from_what_we_write():
    rows, findings = decisions(
        'finding,place,answer,by,when\nIN-05,"Bed, 2",two,one of us,2026-05-12\nIN-04,W1:3,as recorded,,\n'
    )
    assert rows == (
        Decision("IN-05", "Bed, 2", "two", "one of us", "2026-05-12", "decisions.csv", 2),
        Decision("IN-04", "W1:3", "as recorded", "", "", "decisions.csv", 3),
    )
    assert findings == ()
    assert decisions(write_decisions(rows))[0] == rows


def test_decisions_may_leave_out_who_and_when():
    assert decisions("finding,place,answer\nIN-02,survey,m\n")[0] == (
        Decision("IN-02", "survey", "m", file="decisions.csv", line=2),
    )


def test_a_decision_without_an_answer_is_told():
    rows, findings = decisions("finding,place,answer\nIN-05,Bed,\n")
    assert rows == ()
    assert told(findings) == [
        (
            "IN-01",
            "Bed",
            "decisions.csv, line 2, column answer: the field is blank.",
            "Fill the field in" + REST,
        )
    ]


def test_decisions_without_an_answer_column_are_refused():
    with pytest.raises(BadInput) as caught:
        decisions("finding,place\nIN-05,Bed\n")
    assert str(caught.value) == (
        "decisions.csv: the decisions have no column answer. Their header needs finding, place and answer; "
        "it has finding, place."
    )


@pytest.mark.parametrize("value", [".1\u00b3", "1.2.3", "..", "+", "1_0"])
def test_a_figure_of_the_control_that_is_no_number_is_told(value):
    """A raised 3 is a digit to Python and no number: found by feeding mutated files."""
    data = f"# crs: EPSG:25831\n# common-sd: {value}\nmark,x,y\nA,1,2\n".encode()
    control, findings = read_control(read_table("c.csv", data))
    assert control.common_sd is None
    assert [f.code for f in findings] == ["IN-01"]
