# SPDX-License-Identifier: GPL-2.0-or-later
"""The walk log, both ways, and everything that can be wrong with it."""

from __future__ import annotations

import math
from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.accuracy import Accuracy, AccuracyKind
from plugin.core.errors import BadInput
from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.read.walk_log import STATUS_WORDS, SURFACE_WORDS, read_walk_log, write_walk_log
from plugin.core.walk import ErrorGrowth, Kind, Leg, LogKeys, SourceClass, Walk

HEAD = "# units: m\nwalk,station,x,y,z,time,feature,part,mark\n"


def read(text, decisions=None, file="yard.csv"):
    return read_walk_log(file, text.encode(), decisions)


def told(text, decisions=None):
    """Code, place, message and remedy of each finding."""
    return [(f.code, f.place, f.message, f.remedy_text) for f in read(text, decisions)[1]]


def same(one, other):
    """Whether two walks agree in everything but the file and its lines."""
    for field in fields(Walk):
        a, b = getattr(one, field.name), getattr(other, field.name)
        if field.name in ("file", "line"):
            continue
        if isinstance(a, np.ndarray):
            np.testing.assert_allclose(a, b, rtol=1e-12, atol=0, err_msg=field.name)
        elif field.name == "sizes":
            assert list(a) == list(b)
            for name in a:
                np.testing.assert_allclose(a[name], b[name], rtol=1e-12, atol=0, err_msg=name)
        else:
            assert a == b, field.name


def test_a_log_is_read_into_columns_in_metres():
    text = (
        "# units: ft\n# accuracy: 0.02 m + 0.3 %\n# accuracy-kind: 95 %\n# source-class: phone\n# Weather: dry\n"
        "walk,station,x,y,z,time,hold_s,feature,geometry,leg,mark,offset,offset_side,pole,width,sd_xy,status,Colour\n"
        "W1,1,10,20,1,100,1,,,,A,,,,,,,red\n"
        "W1,2,-3.5,.5,,101.5,,Bed,area,curve,,2,left,3,4,0.5,New,\n"
        "W2,a b,1e1,2E0,0,7,2,Tree,spot,as-walked,,1,right,,,,,\n"
    )
    (one, two), findings = read(text)
    assert (one.name, two.name, one.file, len(one), len(two)) == ("W1", "W2", "yard.csv", 2, 1)
    assert (one.station, two.station) == (("1", "2"), ("a b",))
    assert one.line.tolist() == [7, 8]
    np.testing.assert_allclose(one.xy, np.array([[10, 20], [-3.5, 0.5]]) * 0.3048, rtol=1e-15)
    np.testing.assert_allclose(one.z, [0.3048, np.nan])
    np.testing.assert_allclose(one.time, [0, 1.5])
    np.testing.assert_allclose(one.hold, [1, np.nan])
    assert (one.feature, one.kind, one.leg) == (("", "Bed"), (None, Kind.AREA), (Leg.DIRECT, Leg.CURVE))
    assert (two.kind, two.leg, two.time.tolist()) == ((Kind.SPOT,), (Leg.AS_WALKED,), [0.0])
    # stood left of the edge: the edge lies to the walker's right, so it is the walk moved by minus the offset
    np.testing.assert_allclose(one.offset, [np.nan, -0.6096])
    np.testing.assert_allclose(two.offset, [0.3048])
    np.testing.assert_allclose(one.pole, [0, 0.9144])
    np.testing.assert_allclose(one.sizes["width"], [np.nan, 1.2192])
    np.testing.assert_allclose(one.sd_xy, [np.nan, 0.1524])
    assert one.texts == {"status": ("", "new")}
    assert one.extra == {"Colour": ("red", "")}
    assert one.keys == LogKeys(
        units="ft", unit_m=0.3048, accuracy=Accuracy(0.003, 0.02, AccuracyKind.P95),
        source_class=SourceClass.PHONE, growth=ErrorGrowth.RECEIVER, other=(("Weather", "dry"),),
    )  # fmt: skip
    assert [(f.code, f.severity, f.message, f.remedy_text) for f in findings] == [
        ("IN-06", Severity.NOTE, "yard.csv: unknown columns are kept as they are: Colour.", "None needed."),
        ("IN-06", Severity.NOTE, "yard.csv: unknown keys are kept as they are: Weather.", "None needed."),
    ]


def test_arrays_cannot_be_changed():
    (walk,), _ = read(HEAD + "W1,1,0,0,,,,,\n")
    for values in (walk.xy, walk.z, walk.time, walk.offset, walk.pole, walk.line):
        with pytest.raises(ValueError, match="read-only"):
            values[0] = 1


def test_coordinates_in_a_crs_keep_its_units_and_heights_take_the_logs():
    (walk,), findings = read("# units: ft\n# crs: EPSG:2264\nwalk,station,x,y,z\nW1,1,3020000,300000,10\n")
    assert walk.xy.tolist() == [[3020000.0, 300000.0]]
    assert walk.z.tolist() == pytest.approx([3.048], abs=1e-15)
    assert findings == ()


@pytest.mark.parametrize(
    ("separator", "number"), [(";", "12,4"), ("\t", "12,4"), (";", "12.4"), (",", "12.4"), (",", '"12.4"')]
)
def test_decimal_commas_are_read_where_the_separator_is_not_a_comma(separator, number):
    rows = [["walk", "station", "x", "y"], ["W1", "1", number, "-0" + number], ["W1", "2", "3", ""]]
    rows[1][3] = rows[1][3] if '"' not in number else "0"
    rows[2][3] = "4"
    (walk,), findings = read("# units: m\n" + "\n".join(separator.join(row) for row in rows))
    assert walk.xy[0, 0] == 12.4
    assert findings == ()


def test_a_thousands_comma_is_not_taken_for_a_decimal_one():
    _, findings = read("# units: m\nwalk;station;x;y\nW1;1;1,234;1\nW1;2;1234.5;2\n")
    assert [(f.code, f.message) for f in findings] == [
        ("IN-01", 'yard.csv, line 3, column x: "1,234" is not a number.')
    ]


REST = "; the rest of the file was read."
NUMBER = "Give a number or empty the field" + REST


@pytest.mark.parametrize(
    ("column", "cell", "problem", "remedy"),
    [
        ("z", "12m", '"12m" is not a number.', NUMBER),
        ("z", '"12,4"', '"12,4" is not a number.', "Write 12.4, or separate the columns with semicolons" + REST),
        ("x", "1_000", '"1_000" is not a number.', NUMBER),
        ("z", "nan", '"nan" is not a finite number.', NUMBER),
        ("y", "-inf", '"-inf" is not a finite number.', NUMBER),
        ("x", "1e999", '"1e999" is not a finite number.', NUMBER),
        ("x", "2e9", '"2e9" is beyond 1e9 m.', "Correct the number or the units" + REST),
        ("z", "=A1+1", '"=A1+1" is a formula, not its value.',
         "Save the sheet with values in place of formulas" + REST),
        ("feature", "=A1", '"=A1" is a formula, not its value.',
         "Save the sheet with values in place of formulas" + REST),
        ("x", "", "the field is blank.", "Fill the field in" + REST),
        ("hold_s", "-1", '"-1" is below zero.', "Give zero or more, or empty the field" + REST),
        ("hold_s", "1e7", '"1e7" is beyond 1e6 s.', "Correct the number or the units" + REST),
        ("width", "-0.1", '"-0.1" is below zero.', "Give zero or more, or empty the field" + REST),
        ("sd_xy", "-0.1", '"-0.1" is below zero.', "Give zero or more, or empty the field" + REST),
        ("offset", "-0.1", '"-0.1" is below zero.', "Give zero or more, or empty the field" + REST),
        ("offset", "0.1", 'the offset "0.1" has no side.', "Write left or right into offset_side" + REST),
        ("offset_side", "up", '"up" is not one of: left, right.',
         "Write one of these words or empty the field" + REST),
        ("leg", "curv", '"curv" is not one of: direct, curve, curve-end, as-walked, carry.',
         "Write one of these words or empty the field" + REST),
        ("geometry", "line", '"line" is not one of: area, length, spot.',
         "Write one of these words or empty the field" + REST),
        ("status", "gone", '"gone" is not one of: existing, retain, remove, new.',
         "Write one of these words or empty the field" + REST),
        ("surface", "top", '"top" is not one of: ground, stripped, formation, finished.',
         "Write one of these words or empty the field" + REST),
        ("time", "soon", '"soon" is not a time.',
         "Write it like 2024-05-01T09:30:00, or as seconds from the start" + REST),
        ("time", "1e12", '"1e12" is beyond 1e11 s.', "Correct the number or the units" + REST),
        ("time", "2024-05-01T09:30:00", '"2024-05-01T09:30:00" is not written as the first time of the walk is.',
         "Write all times of a walk in one way (with a zone, without, or in seconds)" + REST),
    ],
)  # fmt: skip
def test_a_field_that_cannot_be_read_leaves_its_row_out_and_is_told_whole(column, cell, problem, remedy):
    names = ["walk", "station", "x", "y", "z", "time", "hold_s", "feature", "width", "sd_xy", "offset", "offset_side",
             "leg", "geometry", "status", "surface"]  # fmt: skip
    values = dict.fromkeys(names, "") | {"walk": "W1", "station": "2", "x": "1", "y": "1", "feature": "Bed"}
    rows = [",".join({**values, "station": str(i), "time": str(i)}[n] for n in names) for i in (1, 3)]
    bad = ",".join({**values, column: cell}[n] for n in names)
    (walk,), findings = read("# units: m\n" + "\n".join([",".join(names), rows[0], bad, rows[1]]))
    assert walk.station == ("1", "3")
    assert [(f.code, f.severity, f.place, f.message, f.remedy_text) for f in findings] == [
        ("IN-01", Severity.STOP, "W1:2", f"yard.csv, line 4, column {column}: {problem}", remedy)
    ]
    (finding,) = findings
    assert (finding.file, finding.line, finding.walk, finding.station) == ("yard.csv", 4, "W1", "2")
    assert finding.feature == ("=A1" if cell == "=A1" else "Bed")
    assert finding.answers == ("left out",)


@pytest.mark.parametrize(
    ("row", "place", "message", "remedy"),
    [
        ("W1,2,1", "W1:2", 'yard.csv, line 4: "W1,2,1" has 3 fields where the header has 9.',
         "Complete the line, or quote a field that holds the separator" + REST),
        ("W1,2,1,1,,,,,,more", "W1:2", 'yard.csv, line 4: "W1,2,1,1,,,,,,more" has 10 fields where the header has 9.',
         "Complete the line, or quote a field that holds the separator" + REST),
        ("walk,station,x,y,z,time,feature,part,mark", "survey", "yard.csv, line 4: the header stands here again.",
         "Take the line out, or keep the logs in files of their own" + REST),
        ("# units: ft", "survey", 'yard.csv, line 4: "# units: ft" stands below the header.',
         "Put it above the header, or keep the logs in files of their own" + REST),
        ('W1,2,"1', "survey", 'yard.csv, line 4: "W1,2,"1" is cut short in a quoted field.',
         "Complete the line or take it out" + REST),
        (",2,1,1,,,,,", "survey", "yard.csv, line 4, column walk: the field is blank.", "Fill the field in" + REST),
    ],
)  # fmt: skip
def test_a_row_that_does_not_fit_is_told_whole(row, place, message, remedy):
    (walk,), findings = read(HEAD + "W1,1,0,0,,,,,\n" + row)
    assert walk.station == ("1",)
    assert [(f.code, f.place, f.message, f.remedy_text) for f in findings] == [
        ("IN-01", place, message, remedy)
    ]


def test_a_blank_walk_name_does_not_cut_the_walk_in_two():
    walks, findings = read(HEAD + "W1,1,0,0,,,,,\n,2,0,0,,,,,\nW1,3,0,0,,,,,\n")
    assert [walk.station for walk in walks] == [("1", "3")]
    assert [f.code for f in findings] == ["IN-01"]


def test_a_wrong_column_is_told_two_hundred_times_and_then_in_one():
    _, findings = read(HEAD + "".join(f"W1,{i},x,0,,,,,\n" for i in range(500)))
    assert len(findings) == 201
    assert (findings[-1].message, findings[-1].remedy_text) == (
        "yard.csv, from line 203 on: 300 more lines cannot be read.",
        "Look first at the lines named; the rest of the file was read.",
    )


def test_a_log_of_bad_rows_only_has_no_walk_but_tells_why():
    walks, findings = read(HEAD + "W1,1,x,0,,,,,\n")
    assert walks == ()
    assert [f.message for f in findings] == ['yard.csv, line 3, column x: "x" is not a number.']


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("# units: m\nwalk,station,x\nW1,1,0\n", ("yard.csv: the walk log has no column y. Its header needs walk, "
         "station, x and y; it has walk, station, x.")),
        ("x,y\n0,0\n", ("yard.csv: the walk log has no column walk or station. Its header needs walk, station, x and "
         "y; it has x, y.")),
        (HEAD, "yard.csv: the walk log has a header but no stations. Give a row a station."),
        ("# units: m\n# units: ft\nwalk,station,x,y\nW1,1,0,0\n",
         'yard.csv, line 2: units is "ft" here but "m" in line 1. Keep one of the two.'),
    ],
)  # fmt: skip
def test_a_log_that_cannot_be_used_at_all_is_refused(text, message):
    with pytest.raises(BadInput) as caught:
        read(text)
    assert str(caught.value) == message


# --- units -----------------------------------------------------------------------------------------------------

NO_UNITS = "walk,station,x,y\nW1,s1,10,0\n"


def test_units_not_given_stop_and_nothing_is_raised():
    (walk,), (finding,) = read(NO_UNITS)
    assert (finding.code, finding.severity, finding.place, finding.answers) == (
        "IN-02", Severity.STOP, "W1:s1", ("m", "ft", "us-ft"),
    )  # fmt: skip
    assert finding.message == "yard.csv: the units are not given."
    assert finding.remedy_text == (
        'State them in a line "# units: m" above the header, or answer for W1:s1 with m, ft or us-ft.'
    )
    assert (walk.keys.units, walk.keys.unit_m, finding.is_open) == (None, 1.0, True)


def test_units_that_are_not_known_stop_too():
    (walk,), (finding,) = read("# units: paces\n" + NO_UNITS)
    assert finding.message == 'yard.csv, line 1: the units "paces" are not known.'
    assert (
        finding.remedy_text
        == "Write one of: m, ft, us-ft, in, cm, mm, or answer for W1:s1 with m, ft or us-ft."
    )
    assert walk.keys.units is None


@pytest.mark.parametrize("unit", ["km", "mile", "acre"])
def test_units_that_no_log_may_state_stop_too(unit):
    _, (finding,) = read(f"# units: {unit}\n" + NO_UNITS)
    assert (finding.code, finding.line) == ("IN-02", 1)


@pytest.mark.parametrize("place", ["W1:s1", "survey"])
def test_an_answer_sets_the_units(place):
    decisions = Decisions([Decision("IN-02", place, "us-ft", "someone", "2026-05-12")])
    (walk,), (finding,) = read(NO_UNITS, decisions)
    assert walk.keys.units == "us-ft"
    assert walk.xy[0, 0] == pytest.approx(12000 / 3937, rel=1e-15)
    assert (finding.answer, finding.place, finding.answered_by, finding.is_open) == (
        "us-ft",
        place,
        "someone",
        False,
    )
    assert decisions.unasked([finding]) == ()


def test_an_answer_that_is_no_unit_sets_nothing():
    (walk,), (finding,) = read(NO_UNITS, Decisions([Decision("IN-02", "W1:s1", "paces")]))
    assert (walk.keys.units, finding.is_open) == (None, True)


@pytest.mark.parametrize(
    ("crs", "codes"),
    [("EPSG:25831", []), ("EPSG:4326", []), ("EPSG:2264", ["IN-02"]), ("EPSG:999999", ["IN-02"])],
)
def test_a_crs_in_metres_or_degrees_needs_no_units(crs, codes):
    (walk,), findings = read(f"# crs: {crs}\n" + NO_UNITS)
    assert [f.code for f in findings] == codes
    assert (walk.keys.crs, walk.keys.unit_m, walk.xy[0, 0]) == (crs, 1.0, 10.0)


@pytest.mark.parametrize(
    ("unit", "metres"),
    [("m", 1), ("ft", 0.3048), ("us-ft", 1200 / 3937), ("in", 0.0254), ("cm", 0.01), ("mm", 0.001)],
)
def test_every_unit_of_the_format_is_read(unit, metres):
    (walk,), findings = read(f"# units: {unit}\n" + NO_UNITS)
    assert walk.xy[0, 0] == pytest.approx(10 * metres, rel=1e-15)
    assert findings == ()


# --- keys ------------------------------------------------------------------------------------------------------

LINE = "Correct the line; until then the survey goes on as if the key were not given."


@pytest.mark.parametrize(
    ("key", "value", "words"),
    [
        ("accuracy", "good", "write it like 0.5 % or 0.02 m + 0.3 %"),
        ("accuracy", "1 % + 2 %", "write it like 0.5 % or 0.02 m + 0.3 %"),
        ("accuracy", "1.2.3 %", "write it like 0.5 % or 0.02 m + 0.3 %"),
        ("accuracy", "1 pace", "write it like 0.5 % or 0.02 m + 0.3 %"),
        ("source-class", "drone", "write one of: instrument, phone, digitised"),
        ("utc-offset", "late", "write it like +02:00"),
        ("utc-offset", "+15:00", "write it like +02:00"),
    ],
)
def test_a_key_that_cannot_be_used_is_told_and_taken_as_not_given(key, value, words):
    (walk,), (finding,) = read(f"# units: m\n# {key}: {value}\n" + NO_UNITS)
    assert (finding.code, finding.place, finding.line) == ("IN-01", "survey", 2)
    assert finding.message == f'yard.csv, line 2, key {key}: "{value}" cannot be used; {words}.'
    assert finding.remedy_text == LINE
    assert walk.keys == LogKeys(units="m")


def test_an_accuracy_kind_that_cannot_be_used_is_told():
    (walk,), (finding,) = read("# units: m\n# accuracy: 1 %\n# accuracy-kind: rms\n" + NO_UNITS)
    assert (
        finding.message
        == 'yard.csv, line 3, key accuracy-kind: "rms" cannot be used; write one of: limit, 95 %, sigma.'
    )
    assert walk.keys.accuracy is None


@pytest.mark.parametrize(
    ("text", "part", "metres"),
    [("0.5 %", 0.005, 0), ("0,5%", 0.005, 0), ("0.02 m + 0.3 %", 0.003, 0.02), ("0.3 % + 2 cm", 0.003, 0.02),
     ("±10 mm", 0, 0.01), ("50 ppm", 5e-5, 0)],
)  # fmt: skip
def test_an_accuracy_is_read_as_stated(text, part, metres):
    (walk,), findings = read(f"# units: ft\n# accuracy: {text}\n" + NO_UNITS)
    assert (walk.keys.accuracy.part, walk.keys.accuracy.metres) == pytest.approx((part, metres), rel=1e-14)
    assert (walk.keys.accuracy.kind, findings) == (AccuracyKind.LIMIT, ())


# --- times -----------------------------------------------------------------------------------------------------


def timed(*times, key=""):
    return HEAD.replace("# units: m\n", f"# units: m\n{key}") + "".join(
        f"W1,{i},0,0,,{time},,,\n" for i, time in enumerate(times)
    )


@pytest.mark.parametrize(
    ("times", "seconds"),
    [
        (("100", "101.5", ""), [0, 1.5, math.nan]),
        (("", "3", "5"), [math.nan, 0, 2]),
        (("2026-05-12T09:00:00", "2026-05-12T09:00:01.250"), [0, 1.25]),
        (("2026-05-12 09:00:00Z", "2026-05-12 09:01:00Z"), [0, 60]),
        (("2026-05-12T09:00:00.5+02:00", "2026-05-12T07:00:01Z"), [0, 0.5]),
        (("2026-05-12T09:00:00+0200", '"20260512T090002,5+02"'), [0, 2.5]),
        (("2026-12-31T23:59:59-03:30", "2027-01-01T00:00:01-03:30"), [0, 2]),
        (("23:59:58", "00:00:01", "00:00:02.5"), [0, 3, 4.5]),
        (("09:00", "09:01"), [0, 60]),
        (("2026-05-12T09:00:00.000000001", "2026-05-12T09:00:00.000000003"), [0, 2e-9]),
    ],
)
def test_times_become_seconds_from_the_walks_first(times, seconds):
    (walk,), findings = read(timed(*times))
    np.testing.assert_allclose(walk.time, seconds, rtol=1e-15)
    assert findings == ()


def test_a_utc_offset_joins_times_with_and_without_a_zone():
    (walk,), findings = read(
        timed("2026-05-12T09:00:00", "2026-05-12T07:00:03Z", key="# utc-offset: +02:00\n")
    )
    assert walk.time.tolist() == [0, 3]
    assert findings == ()


@pytest.mark.parametrize("other", ["2026-05-12T07:00:03Z", "09:00:03", "17"])
def test_without_it_a_change_of_style_is_told(other):
    (walk,), (finding,) = read(timed("2026-05-12T09:00:00", other))
    assert walk.station == ("0",)
    assert (
        finding.message
        == f'yard.csv, line 4, column time: "{other}" is not written as the first time of the walk is.'
    )


@pytest.mark.parametrize("bad", ["2026-13-01T00:00:00", "2026-05-12T25:00:00", "2026-02-30T00:00:00"])
def test_a_day_or_hour_that_is_none_is_told(bad):
    (walk,), (finding,) = read(timed("2026-05-12T09:00:00", bad))
    assert finding.message == f'yard.csv, line 4, column time: "{bad}" is not a time.'
    assert walk.station == ("0",)


# --- names that come again --------------------------------------------------------------------------------------

RENUMBER = (
    "Renumber it, or confirm with: as recorded. If the recorder restarted here, answer split: the rows from here on "
    "are then a walk of their own."
)


def test_a_station_that_comes_again_stops_and_goes_on_under_a_name_of_its_own():
    (walk,), findings = read(HEAD + "W1,1,0,0,,,,,\nW1,2,0,0,,,,,\nW1,1,5,0,,,Bed,,\nW1,1,6,0,,,,,\n")
    assert walk.station == ("1", "2", "1 (2)", "1 (3)")
    assert [(f.code, f.severity, f.place, f.line, f.message, f.remedy_text) for f in findings] == [
        ("IN-04", Severity.STOP, "W1:1", line,
         f"yard.csv, line {line}: station 1 of walk W1 stands here again, first in line 3.", RENUMBER)
        for line in (5, 6)
    ]  # fmt: skip
    assert (findings[0].answers, findings[0].feature) == (("as recorded", "split"), "Bed")


def test_a_name_that_looks_like_ours_is_not_taken_twice():
    (walk,), _ = read(HEAD + "W1,1,0,0,,,,,\nW1,1 (2),0,0,,,,,\nW1,1,5,0,,,,,\n")
    assert walk.station == ("1", "1 (2)", "1 (3)")


def test_a_time_that_runs_back_stops_and_stays_as_recorded():
    (walk,), (finding,) = read(timed("10", "12", "", "11.5", "13"))
    assert walk.time[3] == 1.5
    assert (finding.code, finding.severity, finding.place) == ("IN-04", Severity.STOP, "W1:3")
    assert finding.message == (
        "yard.csv, line 6: the time of station 3 of walk W1 is 0.500 s before the time of station 1."
    )
    assert finding.remedy_text == (
        "Correct the time, or confirm with: as recorded. If the recorder restarted here, answer split: the rows from "
        "here on are then a walk of their own."
    )


def test_an_answer_clears_the_stop():
    _, (finding,) = read(
        timed("10", "9"), Decisions([Decision("IN-04", "W1:1", "as recorded", "someone", "today")])
    )
    assert (finding.answer, finding.is_open) == ("as recorded", False)


def test_a_walk_that_comes_again_stops():
    walks, (finding,) = read(HEAD + "W1,1,0,0,,,,,\nW2,1,0,0,,,,,\nW1,2,0,0,,,,,\n")
    assert [walk.name for walk in walks] == ["W1", "W2", "W1"]
    assert (finding.code, finding.place) == ("IN-04", "W1:2")
    assert finding.message == "yard.csv, line 5: walk W1 stands here again, first in yard.csv, line 3."
    assert finding.remedy_text == "Give one of the two walks another name, or confirm with: as recorded."


TWICE = HEAD + (
    "W1,1,0,0,,,Bed,,\nW1,2,0,0,,,Bed,,\nW1,3,0,0,,,,,B\nW1,4,0,0,,,Bed,,\nW1,5,0,0,,,Kerb,,\nW1,6,0,0,,,Bed,2,\n"
    "W1,7,0,0,,,Kerb,,\nW1,8,0,0,,,Bed,,\n"
)


def test_a_feature_that_comes_again_is_asked_about_and_kept_as_a_part_of_its_own():
    (walk,), findings = read(TWICE)
    assert walk.part == ("", "", "", "3", "", "2", "2", "4")
    assert [(f.code, f.severity, f.place, f.message) for f in findings] == [
        ("IN-05", Severity.ASK, name, f"yard.csv, line {line}: {name} stands here again, first in yard.csv, line {first}.")
        for line, name, first in ((6, "Bed", 3), (9, "Kerb", 7), (10, "Bed", 3))
    ]  # fmt: skip
    assert findings[0].remedy_text == (
        "Answer one (one shape walked in two goes), two (two shapes) or replace (the same ground again: the older go "
        "stays in the file without figures), or name the part in the log."
    )
    assert findings[0].answers == ("one", "two", "replace")


@pytest.mark.parametrize(
    ("answer", "parts"),
    [
        ("one", ("", "", "", "", "", "2", "2", "")),
        ("two", ("", "", "", "3", "", "2", "2", "4")),
        ("replace", ("replaced", "replaced", "", "replaced 2", "", "2", "2", "")),
    ],
)
def test_the_answer_joins_or_parts_them(answer, parts):
    (walk,), findings = read(TWICE, Decisions([Decision("IN-05", "Bed", answer)]))
    assert walk.part == parts
    assert [f.place for f in findings if f.is_open] == ["Kerb"]


def test_what_was_replaced_is_known_by_its_part():
    (walk,), _ = read(TWICE, Decisions([Decision("IN-05", "Bed", "replace")]))
    assert walk.replaced == {("Bed", "replaced"), ("Bed", "replaced 2")}


def test_a_later_log_replaces_what_an_earlier_one_walked():
    from plugin.core.read.job import read_job

    logs = {name: (HEAD + f"{name},1,0,0,,,Bed,,\n{name},2,5,0,,,Bed,,\n").encode() for name in ("W1", "W2")}
    answer = b"finding,place,answer,by,when\nIN-05,Bed,replace,someone,today\n"
    one, two = read_job({**logs, "d": answer}).job.walks
    assert (one.part, two.part) == (("replaced", "replaced"), ("", ""))
    assert (one.replaced, two.replaced) == ({("Bed", "replaced")}, frozenset())


RESTARTED = HEAD + "".join(f"W1,{k},{x},0,,{t},,,\n" for k, x, t in (
    (1, 0, 0), (2, 5, 4), (3, 9, 8), (1, 0, 0), (2, 6, 4), (1, 7, 0))
)  # fmt: skip


def test_a_recorder_that_restarted_gives_a_walk_of_its_own_from_there_on():
    stops = [f.place for f in read(RESTARTED)[1]]
    assert stops == ["W1:1", "W1:1 (2)", "W1:2", "W1:1", "W1:1 (3)"]
    answer = Decision("IN-04", "W1:1", "split", "someone", "today")
    walks, findings = read(RESTARTED, Decisions([answer]))
    assert [(walk.name, walk.station) for walk in walks] == [
        ("W1", ("1", "2", "3")),
        ("W1 (2)", ("1", "2", "1 (2)")),
    ]
    assert [(f.place, f.answer) for f in findings] == [
        ("W1:1", "split"), ("W1:1 (2)", "split"), ("W1 (2):1", None), ("W1 (2):1 (2)", None)
    ]  # fmt: skip
    assert [(f.answered_by, f.answered_at) for f in findings[:2]] == [("someone", "today")] * 2
    more = [Decision("IN-04", place, "split") for place in ("W1:1", "W1 (2):1")]
    walks, findings = read(RESTARTED, Decisions(more))
    assert [(walk.name, walk.station, walk.line.tolist()) for walk in walks] == [
        ("W1", ("1", "2", "3"), [3, 4, 5]), ("W1 (2)", ("1", "2"), [6, 7]), ("W1 (3)", ("1",), [8])
    ]  # fmt: skip
    np.testing.assert_allclose(np.concatenate([walk.xy[:, 0] for walk in walks]), [0, 5, 9, 0, 6, 7])


def test_parts_of_one_feature_are_not_asked_about():
    _, findings = read(
        HEAD + "W1,1,0,0,,,Wall,top,\nW1,2,0,0,,,Wall,foot,\nW1,3,0,0,,,,,\nW1,4,0,0,,,Wall,top,\n"
    )
    assert findings == ()


def test_a_file_that_is_not_utf_8_is_noted():
    (walk,), (note,) = read_walk_log("yard.csv", (HEAD + "W1,1,0,0,,,Böschung,,\n").encode("latin-1"))
    assert walk.feature == ("Böschung",)
    assert (note.code, note.severity, note.place) == ("IN-06", Severity.NOTE, "survey")
    assert note.message == "yard.csv is not UTF-8 and was read as Latin-1."
    assert note.remedy_text == "Save it as UTF-8 if names look wrong."


# --- round trip ------------------------------------------------------------------------------------------------

NAME = st.text("abcXYZ019 ,;\"'#äß\n-", min_size=1, max_size=6).map(str.strip).filter(bool)
FREE = st.text("ab ,;\"'#ä\n=", max_size=6).map(str.strip)
LENGTH = st.floats(-1e7, 1e7, allow_subnormal=False)
MAYBE = st.one_of(st.just(math.nan), LENGTH)
SIZE = st.one_of(st.just(math.nan), st.floats(0, 1e5, allow_subnormal=False))


@st.composite
def walks(draw):
    """One to three walks of one log, every column filled by chance."""
    unit, metres = draw(st.sampled_from([("m", 1.0), ("ft", 0.3048), ("us-ft", 1200 / 3937), ("mm", 0.001)]))
    accuracy = draw(
        st.none() | st.builds(Accuracy, st.floats(0, 0.1), st.floats(0, 1), st.sampled_from(AccuracyKind))
    )
    keys = LogKeys(
        units=unit, unit_m=metres, crs=draw(st.none() | st.just("EPSG:25831")), instrument=draw(st.none() | NAME.filter(str.isalnum)),
        accuracy=accuracy, source_class=draw(st.sampled_from(SourceClass)), site=draw(st.none() | st.just("Yard: north")),
        utc_offset=draw(st.none() | st.just("+02:00")), other=(("weather", "dry: 20 %"), ("", "a remark")),
    )  # fmt: skip
    names = draw(st.lists(NAME, min_size=1, max_size=3, unique=True))
    return tuple(draw(one_walk(name, keys)) for name in names)


@st.composite
def one_walk(draw, name, keys):
    n = draw(st.integers(1, 5))

    def column(strategy):
        return draw(st.lists(strategy, min_size=n, max_size=n))

    def numbers(strategy):
        return np.array(column(strategy), dtype=float)

    started = draw(
        st.sampled_from(["", "2026-05-12T09:00:00.25+02:00", "2026-05-12T09:00:00", "2026-05-12T09:00:00Z"])
    )
    time = np.cumsum(np.array([0, *column(st.integers(0, 10**9))[1:]])) / 1e6
    feature = [f"{name.strip()} {i}" for i in range(n)]
    return Walk(
        name=name, file="", keys=keys, station=tuple(draw(st.lists(NAME, min_size=n, max_size=n, unique=True))),
        line=np.arange(n), xy=np.column_stack([numbers(LENGTH), numbers(LENGTH)]), z=numbers(MAYBE), time=time,
        hold=numbers(SIZE), feature=tuple(feature), part=tuple(column(FREE.filter(lambda t: t[:1] != "="))),
        kind=tuple(column(st.none() | st.sampled_from(Kind))), leg=tuple(column(st.sampled_from(Leg))),
        hole_in=tuple(column(st.sampled_from(["", "Court"]))), mark=tuple(column(st.sampled_from(["", "A"]))),
        offset=np.where(draw(st.booleans()), np.nan, numbers(LENGTH)), pole=numbers(st.just(0.0) | LENGTH),
        sd_xy=numbers(SIZE), sd_z=numbers(SIZE), sizes={"width": numbers(SIZE), "invert": numbers(MAYBE)},
        texts={"status": tuple(column(st.sampled_from(["", *STATUS_WORDS]))),
               "surface": tuple(column(st.sampled_from(["", *SURFACE_WORDS]))), "note": tuple(column(FREE))},
        extra={"My colour": tuple(column(st.text("ab ,;\n\"", max_size=5)))}, started=started,
    )  # fmt: skip


@given(walks())
def test_what_is_written_is_read_back_the_same(written):
    back, findings = read(write_walk_log(written))
    assert [f for f in findings if f.severity is not Severity.NOTE] == []
    assert len(back) == len(written)
    for one, found in zip(written, back):
        other = found
        if one.keys.accuracy:
            parts = [(w.keys.accuracy.part, w.keys.accuracy.metres) for w in (one, found)]
            assert parts[0] == pytest.approx(parts[1], rel=1e-12, abs=1e-300)
            other = replace(other, keys=replace(other.keys, accuracy=one.keys.accuracy))
        same(one, other)


def test_iso_times_come_back_as_they_were():
    text = timed("2026-05-12T09:00:00.125+02:00", "2026-05-12T09:00:01+02:00", "")
    (walk,), _ = read(text)
    written = write_walk_log([walk])
    assert "2026-05-12T09:00:00.125+02:00" in written
    assert "2026-05-12T09:00:01+02:00" in written
    (back,), _ = read(written)
    same(walk, back)


@pytest.mark.parametrize(
    ("key", "cell", "started"),
    [
        ("", "100", ""), ("", "2026-05-12 09:00Z", "2026-05-12T09:00:00Z"), ("", "09:00:00.50", ""),
        ("# date: 2026-05-12\n", "09:00:00.50", "2026-05-12T09:00:00.5"), ("# date: today\n", "09:00", ""),
    ],
)  # fmt: skip
def test_the_time_a_walk_started_is_kept_where_its_day_is_known(key, cell, started):
    (walk,), findings = read(timed(cell, key=key))
    assert (walk.started, walk.time.tolist(), findings) == (started, [0.0], ())


def test_walks_with_different_keys_are_not_written_into_one_log():
    (one,), _ = read(HEAD + "W1,1,0,0,,,,,\n")
    (two,), _ = read(HEAD.replace("units: m", "units: ft") + "W2,1,0,0,,,,,\n")
    with pytest.raises(BadInput) as caught:
        write_walk_log([one, two])
    assert (
        str(caught.value) == "The walks W1 and W2 have different key lines. Write them to logs of their own."
    )


def test_no_walk_is_not_written():
    with pytest.raises(BadInput) as caught:
        write_walk_log([])
    assert str(caught.value) == "There is no walk to write. Choose one."
