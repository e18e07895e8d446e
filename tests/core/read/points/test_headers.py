# SPDX-License-Identifier: GPL-2.0-or-later
"""Column names behind a #, and rows with names of their own that the header leaves out."""

from __future__ import annotations

import io

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.findings import Decision, Decisions
from plugin.core.read.job import read_job
from plugin.core.read.points.point_list import read_point_list

METRES = Decision("IN-02", "survey", "m")
PLACES = [[4.25, 10.5], [4.75, 11.25], [5.5, 10.0]]
HEIGHTS = [7.125, 7.25, 7.5]


def read(text, *decisions):
    return read_point_list("yard.txt", text.encode(), Decisions([METRES, *decisions]))


def told(found):
    return [f"{finding.code} {finding.message}" for finding in found.findings if finding.code != "IN-02"]


def rows(separator=" ", names=("", "", ""), tail=""):
    lines = [
        separator.join([*([name] if name else []), *map(str, (*place, z))]) + tail
        for name, place, z in zip(names, PLACES, HEIGHTS)
    ]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize(
    "text",
    [
        '"","x","y","z"\n' + rows(",", ('"A"', '"B"', '"C"')),  # R's write.csv
        ",x,y,z\n" + rows(",", ("A", "B", "C")),  # pandas
        '"x","y","z"\n' + rows(",", ('"A"', '"B"', '"C"')),  # R's write.table with commas
        '"x" "y" "z"\n' + rows(" ", ('"A"', '"B"', '"C"')),  # R's write.table
        "x\ty\tz\n" + rows("\t", ("A", "B", "C")),  # the same without quotes
        "# names of ours\nx y z\n" + rows(" ", ("A", "B", "C")),
        '"x" "y" "z"\r\n' + rows(" ", ('"A"', '"B"', '"C"')).replace("\n", "\r\n"),
        '"" "x" "y" "z"\n' + rows(" ", ('"A"', '"B"', '"C"')),
    ],
)
def test_names_of_rows_that_the_header_leaves_out_are_the_points_numbers(text):
    found = read(text)
    (walk,) = found.walks
    assert walk.station == ("A", "B", "C")
    assert walk.xy.tolist() == PLACES
    assert walk.z.tolist() == HEIGHTS
    assert walk.line.tolist() == [text.count("\n") - 2 + k for k in range(3)]
    assert told(found) == []


@pytest.mark.parametrize("separator", [" ", ",", "\t", ";"])
def test_row_names_that_look_like_numbers_are_known_by_their_quotes(separator):
    head = separator.join(('"x"', '"y"', '"z"')) + "\n"
    (walk,) = read(head + rows(separator, ('"1"', '"2"', '"3"'))).walks
    assert walk.station == ("1", "2", "3")
    assert walk.xy.tolist() == PLACES


def test_a_cell_more_that_may_be_anything_is_told_and_nothing_moves():
    for text, first in (
        ("x y z\n" + rows(" ", ("1", "2", "3")), "1 4.25 10.5 7.125"),
        ("x y z\n" + rows(" ", tail=" oak"), "4.25 10.5 7.125 oak"),
        # all cells quoted: the quotes say nothing of the first one
        ('"x","y"\n"4.25","10.5","9"\n"4.75","11.25","9"\n"5.5","10.0","9"\n', "4.25,10.5,9"),
        # without a name in front the coordinates are right
        ("code x y\noak 4.25 10.5 77\nelm 4.75 11.25 77\nyew 5.5 10.0 77\n", "oak 4.25 10.5 77"),
    ):
        found = read(text)
        assert found.walks == ()
        cells = len(first.replace(",", " ").split())
        assert told(found)[0] == (
            f'IN-01 yard.txt, line 2: "{first}" has {cells} fields where the header has {cells - 1}.'
        )
        assert len(told(found)) == 3


def test_a_number_column_of_the_files_own_goes_before_names_of_rows():
    (walk,) = read(",id,x,y\n0,P1,4.25,10.5\n1,P2,4.75,11.25\n2,P3,5.5,10.0\n").walks
    assert walk.station == ("P1", "P2", "P3")
    assert walk.extra == {"column 1": ("0", "1", "2")}


def test_a_bare_n_is_no_number_where_the_rows_have_names():
    (walk,) = read(",n,x,y\n1,2,4.25,10.5\n2,2,4.75,11.25\n3,2,5.5,10.0\n").walks
    assert walk.station == ("1", "2", "3")
    assert walk.extra == {"n": ("2", "2", "2")}


def test_a_column_without_a_name_between_others_is_kept_and_a_blank_one_is_dropped():
    found = read("no,x,,y,\n1,4.25,a,10.5,\n2,4.75,b,11.25,\n3,5.5,c,10.0,\n")
    (walk,) = found.walks
    assert walk.xy.tolist() == PLACES
    assert walk.extra == {"column 3": ("a", "b", "c")}
    assert told(found) == ["IN-06 yard.txt: unknown columns are kept as they are: column 3."]


def test_cells_without_a_name_below_the_rows_that_are_looked_at_are_refused_as_before():
    text = "no,x,y,\n" + "".join(f"{k},{k}.5,{k}.25,\n" for k in range(1, 60)) + "60,1.5,2.5,late\n"
    with pytest.raises(BadInput) as caught:
        read(text)
    assert str(caught.value) == "yard.txt: column 4 of the header has no name. Name it."


@pytest.mark.parametrize(
    ("head", "separator"),
    [
        ("#x,y,z\n", ","),
        ("# x, y, z\n", " "),
        ("# Easting Northing Elevation\n", " "),
        ("# made in spring\n#x\ty\tz\n", "\t"),
        ("# x y z\n# --------\n", " "),
        ("# x y z\r\n\r\n", " "),
        ("## x (m) y (m) z (m)\n", " "),
    ],
)
def test_names_in_a_comment_are_the_header(head, separator):
    found = read(head + rows(separator))
    (walk,) = found.walks
    assert walk.xy.tolist() == PLACES
    assert walk.z.tolist() == HEIGHTS
    assert walk.line[0] == head.count("\n") + 1
    assert told(found) == []


def test_commas_behind_the_names_alone_separate_nothing():
    found = read("x, y, z\n" + rows())
    assert found.walks[0].xy.tolist() == PLACES
    assert told(found) == []


def test_what_numpy_writes_is_read():
    for delimiter, names in ((" ", "y x z"), (",", "y,x,z"), ("\t", "y\tx\tz")):
        text = io.StringIO()
        at = np.column_stack([PLACES, HEIGHTS])
        np.savetxt(text, at[:, [1, 0, 2]], delimiter=delimiter, header=names)
        (walk,) = read(text.getvalue()).walks
        assert np.array_equal(walk.xy, at[:, :2])
        assert np.array_equal(walk.z, at[:, 2])


def test_units_in_a_comment_count_as_stated():
    found = read_point_list("yard.txt", ("# x [ft] y [ft] z [ft]\n" + rows()).encode(), Decisions())
    assert found.walks[0].keys.units == "ft"
    assert found.walks[0].xy[0] == pytest.approx([4.25 * 0.3048, 10.5 * 0.3048], rel=1e-15)
    assert found.findings == ()


@pytest.mark.parametrize("head", ["# x y\n", "# x y z w\n", "# a b c\n", "# units: m\n", "#\n"])
def test_a_comment_that_does_not_name_every_column_is_none(head):
    found = read(head + rows())
    assert found.walks == ()
    assert told(found) == [
        "IN-01 yard.txt, line 2: the point list has no column names; its first row is 4.25 | 10.5 | 7.125."
    ]


def test_a_comment_may_be_overruled_by_a_choice():
    found = read_point_list(
        "yard.txt",
        ("# x y z\n" + rows()).encode(),
        Decisions([METRES]),
        ("northing", "easting", "elevation"),
    )
    assert found.walks[0].xy.tolist() == [[east, north] for north, east in PLACES]
    assert told(found) == ["IN-06 yard.txt: the columns were chosen, so its header is not used: x, y, z."]


def test_columns_marked_as_degrees_are_the_place_wherever_they_stand():
    text = "A,12,48.5°,11.5°,510\nB,14,48.6°,11.6°,511\nC,13,48.7°,11.7°,512\n"
    found = read_point_list("yard.txt", text.encode(), Decisions())
    assert found.findings[0].answers == (
        "number, other, latitude, longitude, elevation",
        "number, other, longitude, latitude, elevation",
        "left out",
    )


def test_rows_of_two_columns_are_a_list_only_where_two_columns_were_chosen():
    files = {"edge.txt": b"4.25 10.5\n4.75 11.25\n5.5 10.0\n", "about.txt": b"A note.\nIt has two lines.\n"}
    (walk,) = read_job(files, ("easting", "northing")).job.walks
    assert walk.xy.tolist() == PLACES
    for columns in (None, ("easting", "northing", "elevation")):
        with pytest.raises(BadInput) as caught:
            read_job(files, columns)
        assert str(caught.value) == (
            "There is no walk log among the files: about.txt, edge.txt. Add one, or a point list, GPX, NMEA 0183 or "
            "LandXML."
        )


def test_two_columns_that_a_comment_names_are_a_list_of_a_job():
    (walk,) = read_job({"edge.txt": b"# x y\n4.25 10.5\n4.75 11.25\n5.5 10.0\n"}).job.walks
    assert walk.xy.tolist() == PLACES


def test_a_hundred_thousand_named_rows_are_read():
    count = 100_000
    text = '"x" "y"\n' + "".join(f'"{k}" {k}.5 {k}.25\n' for k in range(count))
    (walk,) = read(text).walks
    assert (len(walk), walk.station[-1], walk.xy[-1].tolist()) == (
        count,
        "99999",
        [99999.5, 99999.25],
    )
