# SPDX-License-Identifier: GPL-2.0-or-later
"""A point list before it is read: its rows, the guess at its columns, the sketch."""

from __future__ import annotations

import math

import pytest

from plugin.bridge.heads import HEAD
from plugin.bridge.lists import (
    NAMED,
    SKETCHED,
    Sketch,
    check_choice,
    exchange_words,
    guess_columns,
    read_sample,
    sketch_points,
)
from plugin.core.errors import BadInput

PNEZD = ("number", "northing", "easting", "elevation", "description")
PENZD = ("number", "easting", "northing", "elevation", "description")
GRID = "1,5712854.70,512347.70,84.1,peg\n2,5712859.40,512355.40,84.2,\n3,5712870.50,512340.10,84.3,post\n"
"""Number, northing, easting, height, words, in the metric grid EPSG:25831."""
USUAL = "Nothing in the numbers tells northing from easting; northing first is usual. Hold the sketch against the site."


@pytest.fixture
def sample(tmp_path):
    def made(text, name="points.txt"):
        path = tmp_path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return read_sample(path)

    return made


# --- the rows ---


def test_the_first_rows_are_shown_as_they_stand(sample):
    listed = sample(GRID)
    assert listed.header is None
    assert listed.width == 5
    assert listed.rows[1] == ("2", "5712859.40", "512355.40", "84.2", "")


def test_a_header_is_no_row(sample):
    listed = sample("no;north;east\n1;2,5;3,5\n")
    assert (listed.header, listed.rows) == (("no", "north", "east"), (("1", "2,5", "3,5"),))


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "utf-16-be"])
def test_of_a_long_list_only_whole_rows_are_read(sample, encoding):
    text = "".join(f"{k},{k}.5,{2 * k}.25,peg é{k}\n" for k in range(1, 40_000))
    mark = "\ufeff" if encoding == "utf-16-be" else ""
    listed = sample((mark + text).encode(encoding))
    assert len(listed.head.data) <= HEAD
    assert not listed.head.is_whole
    assert listed.head.data.endswith(b"\n")
    sketch = sketch_points(listed, ("number", "northing", "easting", "description"))
    assert len(sketch.places) == SKETCHED
    assert "cannot be read" not in sketch.words


@pytest.mark.parametrize("text", [b"", b"\n\n", b"# units: m\n"])
def test_what_has_no_points_is_refused(sample, text):
    with pytest.raises(BadInput):
        sample(text)


def test_a_file_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(BadInput) as error:
        read_sample(tmp_path / "none.txt")
    assert str(error.value).endswith(
        "none.txt cannot be read: No such file or directory. Check that it is there and that you may read it, then run again."
    )


# --- the guess ---


def test_names_say_it_best(sample):
    guess = guess_columns(sample("pt,y,x,extra\n1,2,3,4\n2,3,4,5\n"))
    assert (guess.words, guess.why) == (
        ("number", "northing", "easting", "other"),
        "As the names in its first line say.",
    )


def test_the_crs_tells_northing_from_easting(sample):
    why = "Only so do the points lie where EPSG:25831 is used."
    told = guess_columns(sample(GRID), "EPSG:25831")
    assert (told.words, told.why) == (PNEZD, why)
    turned = (
        "1,512347.70,5712854.70,84.1,peg\n2,512355.40,5712859.40,84.2,\n3,512340.10,5712870.50,84.3,post\n"
    )
    told = guess_columns(sample(turned), "EPSG:25831")
    assert (told.words, told.why) == (PENZD, why)


def test_without_a_crs_the_number_of_digits_tells(sample):
    why = "Northings of metric grids have seven digits, eastings six. Hold the sketch against the site."
    assert guess_columns(sample(GRID)).why == why
    assert guess_columns(sample(GRID)).words == PNEZD
    turned = guess_columns(sample("1,512347.70,5712854.70\n2,512355.40,5712859.40\n"))
    assert (turned.words, turned.why) == (("number", "easting", "northing"), why)


def test_in_feet_digits_tell_nothing(sample):
    # state grids in feet have eastings of seven digits and northings of six
    assert guess_columns(sample(GRID), units="us-ft").why == USUAL


def test_where_nothing_tells_northing_first_is_offered_and_said_to_be_so(sample):
    guess = guess_columns(sample("1,200,100,5,peg\n2,210,120,6,post\n"))
    assert (guess.words, guess.why) == (PNEZD, USUAL)


def test_fine_numbers_near_together_are_degrees(sample):
    why = "Written so finely, and all so near together: these are degrees. Hold the sketch against the site."
    guess = guess_columns(sample("A,48.117301,11.516670\nB,48.117350,11.516702\n"))
    assert (guess.words, guess.why) == (("number", "latitude", "longitude"), why)
    far = guess_columns(sample("A,-122.326897,47.644548\nB,-122.326800,47.644600\n"))
    assert (far.words, far.why) == (("number", "longitude", "latitude"), why)
    plane = guess_columns(sample("A,48.117301,11.516670\nB,28.117350,31.516702\n"))
    assert "latitude" not in plane.words


def test_angles_tell_themselves(sample):
    guess = guess_columns(sample("A;11°31'00\"E;48°07'02\"N\nB;11°31'01\"E;48°07'03\"N\n"))
    assert (guess.words, guess.why) == (
        ("number", "longitude", "latitude"),
        "The values are written as angles.",
    )


def test_where_no_columns_give_a_place_nothing_is_chosen(sample):
    listed = sample("peg\tup\tgate\nA\thigh\t1\nB\tlow\t2\nC\tlow\t3\n")
    guess = guess_columns(listed)
    assert guess.words == ("other",) * listed.width
    assert guess.why == "Nothing shows which columns give a place: choose them."


# --- the choice ---


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (PNEZD, ""),
        (("latitude", "longitude"), ""),
        (("other", "northing", "easting", "other"), ""),
        (("number", "northing", "northing"), "Northing is chosen twice."),
        (("number", "northing", "other"), "Choose the column of the northing and that of the easting."),
        (("number", "latitude"), "Choose the column of the northing and that of the easting."),
        ((), "Choose the column of the northing and that of the easting."),
        (
            ("northing", "easting", "latitude"),
            "Choose northing and easting, or latitude and longitude, not some of both.",
        ),
    ],
)
def test_a_choice_needs_each_of_two_coordinates_once(words, said):
    assert check_choice(words) == said


def test_exchanging_twice_changes_nothing():
    assert exchange_words(PNEZD) == PENZD
    assert exchange_words(PENZD) == PNEZD
    assert exchange_words(("latitude", "other", "longitude")) == ("longitude", "other", "latitude")


# --- the sketch ---


def test_a_sketch_has_the_points_about_their_middle(sample):
    sketch = sketch_points(sample("a,0,0\nb,0,30\nc,10,30\n"), ("number", "northing", "easting"), units="m")
    assert sketch.names == ("a", "b", "c")
    assert sketch.places == ((-15.0, -5.0), (15.0, -5.0), (15.0, 5.0))
    assert sketch.words == "3 points: 30 m from west to east, 10 m from south to north."


def test_exchanged_columns_mirror_the_sketch(sample):
    listed = sample(GRID)
    one, other = (sketch_points(listed, words).places for words in (PNEZD, PENZD))
    assert other == tuple((north, east) for east, north in one)


def test_a_sketch_far_from_zero_loses_no_millimetre(sample):
    near = sketch_points(sample("1,0.001,0\n2,0,0.003\n"), ("number", "northing", "easting")).places
    far = sketch_points(
        sample("1,10000000.001,1e7\n2,1e7,10000000.003\n"), ("number", "northing", "easting")
    ).places
    assert [x for place in far for x in place] == pytest.approx(
        [x for place in near for x in place], abs=1e-8
    )


def test_degrees_are_as_wide_as_they_are_there(sample):
    text = "a,60.0,10.0\nb,60.0,10.01\nc,60.01,10.0\n"
    places = sketch_points(sample(text), ("number", "latitude", "longitude")).places
    width, height = places[1][0] - places[0][0], places[2][1] - places[0][1]
    assert width / height == pytest.approx(math.cos(math.radians(60.005)), abs=1e-9)
    # 0.01 degree of latitude is 0.6 sea miles of 1852 m, one of longitude half as much at 60 degrees
    sketch = sketch_points(sample(text), ("number", "latitude", "longitude"))
    assert sketch.words == "3 points: 556 m from west to east, 1111 m from south to north."


def test_rows_that_cannot_be_read_so_are_counted(sample):
    sketch = sketch_points(sample("1,2,3\n2,x,4\n3,5,5\n"), ("number", "northing", "easting"))
    assert sketch.names == ("1", "3")
    assert sketch.words.endswith("Rows that cannot be read so: 1.")


def test_a_choice_that_gives_no_point_says_why(sample):
    listed = sample(GRID)
    assert sketch_points(listed, ("number",) * 5) == Sketch(words="Number is chosen twice.")
    none = sketch_points(listed, ("other", "northing", "other", "other", "easting"))
    assert none.places == ()
    assert none.words


@pytest.mark.parametrize("size", [(300, 200), (200, 300), (60, 60), (1, 1)])
def test_a_sketch_is_drawn_to_equal_scale_north_up(size):
    width, height = size
    sketch = Sketch(("a", "b", "c"), ((-15.0, -5.0), (15.0, -5.0), (15.0, 5.0)))
    a, b, c = sketch.placed(width, height, 20.0)
    assert b.x - a.x == pytest.approx(3 * (b.y - c.y), abs=1e-9)
    assert b.y > c.y
    assert (a.x + b.x) / 2 == pytest.approx(width / 2, abs=1e-9)
    if min(size) > 40:
        assert min(a.x, c.y) >= 20.0 - 1e-9
        assert a.x == pytest.approx(20.0, abs=1e-9) or c.y == pytest.approx(20.0, abs=1e-9)


def test_one_point_and_none_can_be_drawn():
    assert Sketch().placed(100, 100, 10) == ()
    (only,) = Sketch(("a",), ((0.0, 0.0),)).placed(100, 50, 10)
    assert (only.name, only.x, only.y) == ("a", 50.0, 25.0)
    line = Sketch(("a", "b"), ((0.0, -2.0), (0.0, 2.0))).placed(100, 100, 10)
    assert [(point.x, point.y) for point in line] == [(50.0, 90.0), (50.0, 10.0)]


def test_only_the_first_points_have_their_numbers(sample):
    text = "".join(f"{k},{k},{k * k}\n" for k in range(1, 31))
    points = sketch_points(sample(text), ("number", "northing", "easting")).placed(300, 300, 20)
    assert [point.name for point in points if point.name] == [str(k) for k in range(1, NAMED + 1)]
