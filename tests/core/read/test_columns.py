# SPDX-License-Identifier: GPL-2.0-or-later
"""Fields found for a whole table at once, held to the csv module, which reads it sign by sign."""

from __future__ import annotations

import csv
import io

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.read import table as table_module
from plugin.core.read.columns import WIDEST, Column, Same, are_unique, blanks_of, changes_of
from plugin.core.read.fields import split_table
from plugin.core.read.walk_log import read_walk_log


def split(body, delimiter=",", first=1):
    found = split_table(body.encode(), delimiter, first)
    assert found is not None
    return found


def column(*cells):
    """A column of these cells, read from a table."""
    rows = "".join('"' + cell.replace('"', '""') + '",x\n' for cell in cells)
    return split("name,other\n" + rows).columns[0]


CELL = st.text(st.characters(blacklist_categories=("Cs",), blacklist_characters="\0\r"), max_size=9)


@given(
    st.integers(2, 4).flatmap(
        lambda k: st.lists(st.lists(CELL, min_size=k, max_size=k), min_size=1, max_size=8)
    ),
    st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]),
    st.sampled_from([",", ";", "\t"]),
    st.sampled_from(["\n", "\r\n"]),
)
def test_cells_and_lines_are_those_of_the_csv_module(rows, quoting, delimiter, newline):
    out = io.StringIO(newline="")
    header = [f"c{i}" for i in range(len(rows[0]))]
    csv.writer(out, delimiter=delimiter, quoting=quoting, lineterminator=newline).writerows([header, *rows])
    reader, wanted, lines, before = (
        csv.reader(io.StringIO(out.getvalue(), newline=""), delimiter=delimiter),
        [],
        [],
        0,
    )
    for row in reader:
        wanted.append(row)
        lines.append(before + 1)
        before = reader.line_num
    filled = [i for i, row in enumerate(wanted) if i and any(row)]
    found = split(out.getvalue(), delimiter)
    assert found.header == header
    assert [list(cells) for cells in zip(*found.columns)] == [wanted[i] for i in filled]
    assert found.line.tolist() == [lines[i] for i in filled]
    assert [row for row in found.odd if any(row)] == []


def test_rows_that_do_not_fit_stand_apart_with_their_lines():
    found = split('a,b\n1,"x\ny"\n\n2\n   \n3,4,5\na,b\n,\n"",""\n6,7', first=3)
    assert [list(cells) for cells in found.columns] == [["1", "6"], ["x\ny", "7"]]
    assert found.line.tolist() == [4, 13]
    assert found.odd == [["2"], ["   "], ["3", "4", "5"], ["a", "b"], ["", ""], ["", ""]]
    assert found.odd_line.tolist() == [7, 8, 9, 10, 11, 12]


@pytest.mark.parametrize(
    "body",
    [
        "a\n1\n",  # a blank line may be a blank cell
        "a,b\n",
        'a,b\n5" pipe,1\n',
        'a,b\n"5" pipe,1\n',
        'a,b\n1, "x"\n',
        'a,b\n1,"x\n',
        'a,b\n1,"x\ry"\n',
        "a,b\r1,2\r",
        "a,b\n1," + "x" * 140_000 + "\n",
    ],
)
def test_what_needs_to_be_read_sign_by_sign_is_left_to_csv(body):
    assert split_table(body.encode(), ",", 1) is None


def test_cells_of_every_length_come_out_whole():
    cells = [
        "",
        "a",
        'é "x"',
        *("ü" * n for n in range(WIDEST + 2)),
        "y" * WIDEST,
        "z" * (WIDEST + 1),
        "",
        "a",
    ]
    names = column(*cells)
    assert list(names) == cells
    assert [names[i] for i in range(len(cells))] == cells
    assert blanks_of(names).tolist() == [not cell for cell in cells]


def test_one_cell_can_be_seen_before_the_others_are_text():
    names = column("a", 'say "b"', "c" * 100)
    assert (names[1], names[-1], names[0:2]) == ('say "b"', "c" * 100, ["a", 'say "b"'])


def test_runs_that_go_on_over_a_block_keep_their_cells_and_share_one_object():
    count = 200_000
    names = column(*(f"W{i // 90_000}" for i in range(count)))
    assert list(names) == [f"W{i // 90_000}" for i in range(count)]
    assert {90_000, 180_000} <= set(changes_of(names))
    assert len(changes_of(names)) < 10
    assert len({id(name) for name in names}) == 3


@given(st.lists(st.sampled_from(["", "a", "b", "x" * WIDEST, "y" * 80, "z" * 80]), min_size=1, max_size=40))
def test_no_change_of_a_cell_is_missed(cells):
    changes = set(changes_of(column(*cells)))
    assert {i for i in range(1, len(cells)) if cells[i] != cells[i - 1]} <= changes
    assert sorted(changes) == list(changes_of(column(*cells)))


@pytest.mark.parametrize(
    ("cell", "is_spaced"), [(" a", True), ("a\t", True), ("\u00a0a", True), ("a b", False), ("", False)]
)
def test_a_blank_at_an_end_is_seen(cell, is_spaced):
    assert column("x", cell, "y").is_spaced is is_spaced


def test_the_sign_of_a_formula_is_seen_at_the_start_alone():
    assert column("a", "=b").may_start_with("=")
    assert not column("a", "b=").may_start_with("=")
    assert not column("", "").may_start_with('"')  # the sign behind a blank cell is not its own


def test_cells_that_were_parsed_already_make_a_column_too():
    cells = ["", 'say "b"', "two\nlines", '""', "é" * 40, "x"]
    names = Column.of("".join(cell + "\0" for cell in cells))
    assert list(names) == cells
    assert list(names.at(slice(1, 4))) == cells[1:4]
    assert list(Column.of("")) == []


def test_a_stray_quote_far_down_keeps_all_rows_and_lines_in_place(monkeypatch):
    monkeypatch.setattr(table_module, "CHUNK", 3)
    rows = "".join(f'{i},"a\nb"\n' for i in range(10))
    table = table_module.read_table("yard.csv", f'n,note\n{rows}10,5" pipe\n\nx\n11,end\n12,"cut'.encode())
    assert [list(cells) for cells in table.cells] == [
        [str(i) for i in range(12)], [*["a\nb"] * 10, '5" pipe', "end"],
    ]  # fmt: skip
    assert table.line.tolist() == [*range(2, 22, 2), 22, 25]
    assert [(bad.line, bad.data["cell"]) for bad in table.bad_rows] == [(24, "x"), (26, '12,"cut')]


BREAKS = (
    "# units: m\nwalk,station,x,y,z,time,leg,offset,offset_side,note\n"
    'W1,1,1,2,3,2026-05-11T09:00:00,,,,"two\nlines, ""so"""\n'
    "W1,2,1_000,2,,2026-05-11T09:00:01.5,curve,,,\n"
    "\n"
    'W1,3,nan,"2",,2026-05-11T09:00:02,flying,,,"a\n\nb"\n'
    "W1,4,1e1,+2, 7 ,2026-05-11T09:00:03,,1,left,\n"
    "walk,station,x,y,z,time,leg,offset,offset_side,note\n"
    "W1,5,0x10,2,,2026-05-11T09:00:04,,,,\n"
    "W1,6,1,2\n"
    "W1,7,1,=A1,,2026-05-11T09:00:05,,2,,\n"
    "W1,8,.5,-0,,2026-05-11T09:00:06,as_walked,,,end"
)
"""Everything that makes a line hard to count."""


def test_lines_are_told_right_after_quoted_breaks_blank_lines_and_headers_that_come_again():
    (walk,), findings = read_walk_log("yard.csv", BREAKS.encode())
    assert (walk.station, walk.line.tolist()) == (("1", "4", "8"), [3, 10, 15])
    assert walk.xy.tolist() == [[1, 2], [10, 2], [0.5, 0]]
    assert walk.texts["note"] == ('two\nlines, "so"', "", "end")
    assert walk.time.tolist() == [0, 3, 6]
    assert [finding.message for finding in findings] == [
        'yard.csv, line 5, column x: "1_000" is not a number.',
        'yard.csv, line 7, column leg: "flying" is not one of: direct, curve, curve-end, as-walked, carry.',
        "yard.csv, line 11: the header stands here again.",
        'yard.csv, line 12, column x: "0x10" is not a number.',
        'yard.csv, line 13: "W1,6,1,2" has 4 fields where the header has 10.',
        'yard.csv, line 14, column y: "=A1" is a formula, not its value.',
    ]


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("has_quotes", [False, True])
def test_both_ways_of_reading_give_the_same_walks_and_findings(monkeypatch, newline, delimiter, has_quotes):
    text = BREAKS if has_quotes else BREAKS.replace('"two\nlines, ""so"""', "x").replace('"2"', "2")
    text = text if has_quotes else text.replace('"a\n\nb"', "y")
    text = text.replace(",", delimiter).replace("\n", newline)
    data = (text + newline + newline + text.split(newline, 2)[2].replace("W1", "W2")).encode()
    fast = shown(read_walk_log("yard.csv", data))
    monkeypatch.setattr(table_module, "split_table", lambda *_: None)
    assert fast == shown(read_walk_log("yard.csv", data))
    assert len(fast[0]) == 2


ODD_NAMES = (
    "7",
    "007",
    "+7",
    "7.0",
    "nan",
    "NaN",
    "-0",
    "Tür",
    "点",
    'say "b"',
    "=",
    "a b",
    "x" * 200,
    "7" * 9,
)


@given(st.lists(st.one_of(CELL.filter(bool), st.sampled_from(ODD_NAMES)), min_size=1, max_size=9), st.data())
def test_a_column_stands_for_the_tuple_of_its_cells(cells, data):
    wanted, names = tuple(cells), column(*cells)
    rows = data.draw(st.slices(len(cells)))
    i = data.draw(st.integers(-len(cells), len(cells) - 1))
    assert (names[i], len(names[rows]), names[rows]) == (wanted[i], len(wanted[rows]), wanted[rows])
    assert (wanted, column(*cells), cells) == (names, names, list(names))
    others = (*wanted, ""), wanted[:-1], (*wanted[:-1], wanted[-1] + "!"), "".join(cells)
    assert [names == other for other in others] == [False] * 4
    assert (hash(names), repr(names), {wanted: 1}[names]) == (hash(wanted), repr(wanted), 1)
    assert names[rows][:2] == wanted[rows][:2]
    assert (names[i], names[rows]) == (wanted[i], wanted[rows]), "also when its texts were read"


@pytest.mark.parametrize("i", [-4, 3, 2**40])
def test_a_row_beyond_a_column_is_an_index_error(i):
    with pytest.raises(IndexError):
        column("a", "b", "c")[i]
    with pytest.raises(IndexError):
        Same("", 3)[i]


@given(st.lists(st.one_of(st.text("01a", max_size=3), st.sampled_from(ODD_NAMES)), min_size=1, max_size=12))
def test_names_are_unique_where_a_set_of_them_is_as_large(cells):
    assert are_unique(column(*cells)) == are_unique(cells) == (len(set(cells)) == len(cells))


@pytest.mark.parametrize("size", range(1, 201))
def test_names_of_every_length_are_told_apart(size):
    names = ["a" * size, "b" + "a" * (size - 1), "a" * (size - 1) + "c", "a" * (size + 1)]
    names = list(dict.fromkeys(names))
    assert are_unique(column(*names))
    assert not are_unique(column(*names, names[0]))
    assert set(range(len(names))) <= set(changes_of(column(*names)))
    assert column(*names) == tuple(names)


def test_keys_follow_whole_numbers_and_stop_at_eight_bytes():
    keys = column("", "9", "10", "99", "100", "12345678").keys()
    assert keys is not None
    assert (keys[1:] > keys[:-1]).all()
    assert column("1", "123456789").keys() is None
    assert column("zürichs").keys() is not None  # eight bytes


def test_changes_are_found_over_the_ends_of_blocks_and_among_longer_names():
    cells = ["W1"] * 65_535 + ["W2"] * 65_537 + ["W3 of a longer name"] * 3 + ["W3"]
    names = split("name,other\n" + "".join(f"{cell},x\n" for cell in cells)).columns[0]
    assert {65_535, 131_072, 131_075} <= set(changes_of(names))
    short = names[:131_072]
    assert changes_of(short) == [0, 65_535]
    assert changes_of(names[5:5]) == []


@given(st.integers(0, 9), st.data())
def test_one_value_many_times_stands_for_a_tuple(count, data):
    same, wanted = Same("x", count), ("x",) * count
    rows = data.draw(st.slices(count))
    assert (tuple(same), same[rows], len(same)) == (wanted, wanted[rows], count)
    assert tuple(same.at(np.arange(count // 2))) == wanted[: count // 2]


def test_stations_that_come_again_are_told_whatever_the_order_of_their_names():
    names = [*range(300, 0, -1), "007", "7 (2)", "x" * 200, "Tür", 250]
    text = "# units: m\nwalk,station,x,y\n" + "".join(f"W1,{name},{i},0\n" for i, name in enumerate(names))
    (walk,), (stop,) = read_walk_log("yard.csv", text.encode())
    assert stop.message == "yard.csv, line 307: station 250 of walk W1 stands here again, first in line 53."
    assert walk.station == (*map(str, names[:-1]), "250 (2)")


def test_the_names_of_a_walk_are_those_of_its_good_rows_and_go_along_when_it_is_cut():
    text = "walk,station,x,y\nW1,01,0,0\nW1,1,1,0\nW1,2,wrong,0\nW1,é,3,0\nW2,01,0,0\n"
    (one, two), _ = read_walk_log("yard.csv", text.encode())
    assert (one.station, two.station, one.line.tolist()) == (("01", "1", "é"), ("01",), [2, 3, 5])
    part = one.cut(1, 3, "W1 (2)")
    assert (part.station, part.place(-1), len(part)) == (("1", "é"), "W1 (2):é", 2)


@pytest.mark.parametrize("cell", ["\n1", "1\n", ",1", " 1", "1\t", "\u00a01"])
def test_blanks_at_the_ends_of_a_quoted_name_are_taken_off(cell):
    text = f'walk,station,x,y\nW1,"{cell}",0,0\nW1,2,1,0\n'
    (walk,), _ = read_walk_log("yard.csv", text.encode())
    assert walk.station == (cell.strip(), "2")


def shown(read):
    """Walks and findings as text, arrays to the last bit."""
    walks, findings = read
    return [
        {
            name: repr(value.tolist() if hasattr(value, "tolist") else value)
            for name, value in vars(walk).items()
        }
        for walk in walks
    ], [repr(finding) for finding in findings]
