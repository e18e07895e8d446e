# SPDX-License-Identifier: GPL-2.0-or-later
"""A folder's files become a job; what each file is, its content tells."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.errors import BadInput
from plugin.core.read.formats import TableKind, find_kind
from plugin.core.read.job import read_job

LOG = b"# units: m\nwalk,station,x,y,feature\nW1,1,0,0,Bed\nW1,2,5,0,Bed\n"
OTHER = b"# units: m\nwalk,station,x,y,feature\nW2,1,0,0,Kerb\nW3,1,5,0,Kerb\n"
CONTROL = b"# crs: EPSG:25831\nmark,x,y\nA,1,2\n"
TAPES = b"from,to,distance\nA,B,10\n"
INSTRUMENTS = b"instrument,leg_m\none,0.003\n"
DECISIONS = b"finding,place,answer,by,when\nIN-05,Kerb,one,us,today\n"


def refusal(files):
    with pytest.raises(BadInput) as caught:
        read_job(files)
    return str(caught.value)


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (LOG, TableKind.WALK_LOG), (LOG.replace(b",", b"\t"), TableKind.WALK_LOG),
        (b"\xef\xbb\xbf" + LOG, TableKind.WALK_LOG), (b"\xff\xfe" + LOG.decode().encode("utf-16-le"), TableKind.WALK_LOG),
        (b"station,x,y\n1,2,3\n", TableKind.WALK_LOG), (b"# units: m\n", TableKind.WALK_LOG),
        (b"walk,station,x\nW,1,2\n", TableKind.WALK_LOG), (LOG + b"\x00", TableKind.WALK_LOG),
        (CONTROL, TableKind.CONTROL), (b"mark;lon;lat\nA;1;2\n", TableKind.CONTROL), (b"mark,z\nA,1\n", TableKind.CONTROL),
        (TAPES, TableKind.TAPES), (b"from,distance\nA,1\n", TableKind.TAPES), (INSTRUMENTS, TableKind.INSTRUMENTS),
        (DECISIONS, TableKind.DECISIONS), (b"item,unit,rate\nA,m,1\n", TableKind.PRICES),
        (b"name,colour\na,red\nb,blue\n", TableKind.UNKNOWN),
        (b"", TableKind.NO_TABLE), (b'{"a": 1,\n"b": 2}', TableKind.NO_TABLE), (b"<gpx,a>\n<b,c>\n", TableKind.NO_TABLE),
        (b"II*\x00\x08\x00,\n,", TableKind.NO_TABLE), (b"PK\x03\x04\x00,\n", TableKind.NO_TABLE),
        (b"Some words, and more.\n\nA second paragraph has none.\n", TableKind.NO_TABLE),
        (b"0.05\n0\n0\n-0.05\n512000\n5712000\n", TableKind.NO_TABLE),
    ],
)  # fmt: skip
def test_a_files_kind_is_told_from_its_content(data, kind):
    assert find_kind(data) is kind


def test_a_job_is_read_from_files_of_any_name_in_any_order():
    files = {
        "z": OTHER, "b.txt": DECISIONS, "a": LOG, "7": CONTROL, "t": TAPES, "i": INSTRUMENTS,
        "p.tif": b"II*\x00", "q.qgz": b"PK\x03\x04", "rates.csv": b"item,unit,rate\nA,m,1\n",
    }  # fmt: skip
    for order in (files, dict(reversed(files.items()))):
        read = read_job(order)
        assert [(walk.name, walk.file) for walk in read.job.walks] == [("W1", "a"), ("W2", "z"), ("W3", "z")]
        assert (read.job.control.crs, read.job.tapes[0].distance) == ("EPSG:25831", 10.0)
        assert read.job.instruments is not None
        assert read.job.instruments["one"].leg == 0.003
        assert [row.answer for row in read.decisions.rows] == ["one"]
        assert read.skipped == ("p.tif", "q.qgz", "rates.csv")
        assert [(f.code, f.place, f.answer) for f in read.findings] == [("IN-05", "Kerb", "one")]


def test_a_feature_of_two_walks_that_follow_each_other_is_asked_about_across_files():
    read = read_job({"a": LOG, "b": LOG.replace(b"W1", b"W2")})
    assert [(f.code, f.message) for f in read.findings] == [
        ("IN-05", "b, line 3: Bed stands here again, first in a, line 3.")
    ]
    assert [walk.part for walk in read.job.walks] == [("", ""), ("2", "2")]


def test_an_answer_is_kept_with_the_finding():
    decisions = b"finding,place,answer,by,when\nIN-05,Bed,one,someone,today\n"
    read = read_job({"a": LOG, "b": LOG.replace(b"W1", b"W2"), "d": decisions})
    (finding,) = read.findings
    assert (finding.answer, finding.answered_by, finding.answered_at) == ("one", "someone", "today")
    assert [walk.part for walk in read.job.walks] == [("", ""), ("", "")]


def test_two_walks_of_one_name_stop_and_both_files_are_named():
    read = read_job({"a": LOG, "b": LOG.replace(b"Bed", b"Kerb")})
    (finding,) = read.findings
    assert (finding.code, finding.place) == ("IN-04", "W1:1")
    assert finding.message == "b, line 3: walk W1 stands here again, first in a, line 3."
    assert [walk.name for walk in read.job.walks] == ["W1", "W1"]


def test_tapes_take_the_unit_of_the_logs_only_where_all_agree():
    feet = LOG.replace(b"units: m", b"units: ft").replace(b"W1", b"W2").replace(b"Bed", b"Kerb")
    assert read_job({"a": feet, "t": TAPES}).job.tapes[0].distance == pytest.approx(3.048)
    assert [f.code for f in read_job({"a": LOG, "b": feet, "t": TAPES}).findings] == ["IN-02"]


@pytest.mark.parametrize(
    ("files", "message"),
    [
        ({}, "There is no walk log among the files: none. Add one, or a point list, GPX, NMEA 0183 or LandXML."),
        ({"c": CONTROL}, "There is no walk log among the files: c. Add one, or a point list, GPX, NMEA 0183 or LandXML."),
        ({"a": LOG, "e": b""}, "e is empty. Give a table with a header row."),
        ({"a": LOG, "list.csv": b"name,colour\na,red\n"},
         ("list.csv is a table, but none that is read: no walk log, control, tapes, instruments or decisions, and no "
         "point list whose columns have names that are known. Its header is name, colour. Correct the header, choose the "
         "columns before the run if it is a point list, or take the file away.")),
        ({"a": LOG, "c": CONTROL, "d": CONTROL}, "Both c and d are control files. Keep one, with all marks in it."),
        ({"a": LOG, "i": INSTRUMENTS, "j": INSTRUMENTS},
         "j: the instrument one stands in another file too. Keep it in one."),
        ({"a": LOG + b"\x00"}, "a, line 5: a NUL byte stands here, so this is not text. Save it again as UTF-8 CSV."),
        ({"a": b"# units: m\n"}, "a has no header row. Give the column names in the line above the rows."),
    ],
)  # fmt: skip
def test_a_job_that_cannot_be_used_is_refused(files, message):
    assert refusal(files) == message


def test_a_job_without_instruments_or_control_says_so_with_none():
    read = read_job({"a": LOG})
    assert (read.job.instruments, read.job.control.points, read.job.tapes) == (None, (), ())


def test_a_long_log_is_read_to_its_last_row():
    rows = b"".join(b"W1,%d,%d.25,1.5,Bed\n" % (i, i) for i in range(100_000))
    (walk,) = read_job({"a": b"# units: m\nwalk,station,x,y,feature\n" + rows}).job.walks
    assert (len(walk), walk.xy[-1].tolist(), walk.line[-1]) == (100_000, [99_999.25, 1.5], 100_002)


@given(st.data())
def test_a_spoilt_log_is_read_or_refused_but_never_fails_otherwise(data):
    log = bytearray(
        b'# units: m\n# accuracy: 0.5 %\nwalk,station,x,y,time,note\nW1,1,0,0,5,"a, b"\nW1,2,5,0,09:00,\n'
    )
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(log) - 1))
        log[at : at + data.draw(st.integers(0, 3))] = data.draw(
            st.binary(max_size=3) | st.sampled_from([b",", b'"', b"\n"])
        )
    try:
        read = read_job({"a": bytes(log)})
    except BadInput as error:
        message = str(error)
    else:
        message = ""
        assert all(finding.message and finding.remedy_text for finding in read.findings)
        assert sum(len(walk) for walk in read.job.walks) <= log.count(b"\n") + log.count(b"\r") + 1
    assert "{" not in message or b"{" in log


def test_a_log_cut_at_any_byte_is_read_or_refused_and_keeps_its_whole_rows():
    refused = []
    for end in range(len(LOG)):
        try:
            read = read_job({"a": LOG[:end]})
        except BadInput as error:
            refused.append(str(error))
        else:
            whole = LOG[:end].count(b"\n") - 2
            assert sum(len(walk) for walk in read.job.walks) >= whole
    # up to the first row nothing but a refusal can be right
    assert len(refused) >= LOG.index(b"W1")
    assert all(text.startswith(("a", "There is no walk log", "No row of the logs")) for text in refused)


def test_a_log_of_which_no_row_can_be_read_is_refused_with_its_first_fault():
    log = b"# units: m\nwalk,station,x,y\nW1,1,0,500,0,250\nW1,2,5,000,0,250\n"
    assert refusal({"a.csv": log, "c.csv": CONTROL}) == (
        "No row of the logs can be read. IN-01, the first of 2: "
        'a.csv, line 3: "W1,1,0,500,0,250" has 6 fields where the header has 4. '
        "Are these decimal commas? Write points, or separate the columns with semicolons. "
        "Else quote a field that holds a comma; the rest of the file was read."
    )


def test_the_fault_of_the_rows_comes_before_units_that_are_not_given():
    log = b"walk,station,x,y\nW1,1,a,0\n"
    assert refusal({"a.csv": log}).startswith(
        'No row of the logs can be read. IN-01, the first of 1: a.csv, line 2, column x: "a" is not a number.'
    )


def test_one_log_that_cannot_be_read_leaves_the_others():
    read = read_job({"a.csv": LOG, "b.csv": b"# units: m\nwalk,station,x,y\nW2,1,a,0\n"})
    assert [walk.name for walk in read.job.walks] == ["W1"]
    assert [f.code for f in read.findings] == ["IN-01"]


@pytest.mark.parametrize(
    "header",
    ["mark,east,north", "mark,east,north,z", "mark,p,q,z,sd_xy", "mark,z,Northing,Easting", "mark,a,b"],
)
def test_control_whose_points_stand_under_other_names_is_refused_once(header):
    cells = {"mark": "A", "z": "", "sd_xy": "0.02"}
    row = ",".join(cells.get(name, "512.25") for name in header.split(","))
    assert refusal({"a": LOG, "c.csv": f"# crs: EPSG:25831\n{header}\n{row}\n".encode()}) == (
        "c.csv: the control needs the columns mark and x, y (or lon, lat, or z alone); it has "
        f"{header.replace(',', ', ')}. Name the columns so."
    )


def test_level_marks_may_have_columns_of_their_own():
    read = read_job({"a": LOG, "c": b"mark,z,peg,lift\nA,12.5,1,2\nB,12.75,2,2\n"})
    assert [(point.mark, point.z) for point in read.job.control.points] == [("A", 12.5), ("B", 12.75)]


LANDXML = (
    b"<LandXML version='1.2'><Units><Metric linearUnit='meter'/></Units><CgPoints>"
    b"<CgPoint name='7'>200 100 3</CgPoint></CgPoints></LandXML>"
)


@pytest.mark.parametrize(
    ("data", "names"),
    [
        (b"<gpx version='1.1'><wpt lat='48.1' lon='11.5'><name>A</name></wpt></gpx>", ["f waypoints"]),
        (b"$GPRMC,225446,A,4916.45,N,12311.12,W,000.5,054.7,191194,020.3,E*68\n", ["f"]),
        (LANDXML, ["f points"]),
        (b"number,easting (m),northing (m)\n1,100,200\n2,110,200\n", ["f"]),
    ],
)  # fmt: skip
def test_other_peoples_files_are_read_beside_our_logs(data, names):
    read = read_job({"a": LOG, "f": data})
    own = [walk.name for walk in read_job({"a": LOG}).job.walks]
    assert [walk.name for walk in read.job.walks] == own + names
    assert [walk.name for walk in read_job({"f": data}).job.walks] == names


def test_a_point_list_without_a_header_is_read_in_the_order_chosen():
    data = b"# units: m\n1,200,100,3,post\n2,210,120,4,post\n"
    (walk,) = read_job({"p": data}, ("number", "northing", "easting", "elevation", "description")).job.walks
    assert walk.xy.tolist() == [[100, 200], [120, 210]]
    (walk,) = read_job({"p": data}, ("number", "easting", "northing", "elevation", "description")).job.walks
    assert walk.xy.tolist() == [[200, 100], [210, 120]]


def test_a_point_is_a_mark_where_something_else_bears_its_name():
    points = b"number,easting (m),northing (m)\nA,100,200\n7,110,200\n"
    (walk,) = read_job({"p": points, "c": b"# crs: EPSG:25831\nmark,x,y\nA,1,2\n"}).job.walks
    assert walk.mark == ("A", "")
    assert read_job({"p": points}).job.walks[0].mark == ("", "")
