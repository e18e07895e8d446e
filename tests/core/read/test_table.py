# SPDX-License-Identifier: GPL-2.0-or-later
"""Tolerant CSV: what is accepted, what is refused, and that nothing is lost."""

from __future__ import annotations

import codecs

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.errors import BadInput
from plugin.core.read import table as table_module
from plugin.core.read.faults import KEY_BELOW, REPEATED_HEADER, UNCLOSED, WRONG_FIELDS
from plugin.core.read.table import LogTable, decode, read_table, write_table

TEXT = "# units: m\n# a remark\nmark,x,note\nA,1.5,gate\nB,-2,Zürich\n"


def columns(table):
    return {name: list(cells) for name, cells in zip(table.header, table.cells)}


def refusal(data, file="yard.csv"):
    with pytest.raises(BadInput) as caught:
        read_table(file, data)
    return str(caught.value)


PLAIN = {"mark": ["A", "B"], "x": ["1.5", "-2"], "note": ["gate", "Zürich"]}


@pytest.mark.parametrize(
    ("data", "encoding"),
    [
        (TEXT.encode(), "utf-8"),
        (codecs.BOM_UTF8 + TEXT.encode(), "utf-8"),
        (TEXT.replace("\n", "\r\n").encode(), "utf-8"),
        (TEXT.replace("\n", "\r").encode(), "utf-8"),
        (TEXT.encode("latin-1"), "latin-1"),
        (codecs.BOM_UTF16_LE + TEXT.encode("utf-16-le"), "utf-16-le"),
        (codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"), "utf-16-be"),
        (TEXT.rstrip("\n").encode(), "utf-8"),
        (TEXT.replace("gate", '"gate"').encode(), "utf-8"),
        (TEXT.replace(",", ";").encode(), "utf-8"),
        (TEXT.replace(",", "\t").encode(), "utf-8"),
    ],
)
def test_the_same_table_is_read_however_it_was_saved(data, encoding):
    table = read_table("yard.csv", data)
    assert columns(table) == PLAIN
    assert table.keys == (("units", "m"), ("", "a remark"))
    assert table.key_lines == (1, 2)
    assert table.line.tolist() == [4, 5]
    assert table.encoding == encoding
    assert table.bad_rows == ()


def test_quoted_fields_hold_separators_quotes_and_line_breaks_and_lines_stay_right():
    table = read_table("yard.csv", b'mark,note\nA,"one, ""two""\nthree"\nB,x\n')
    assert columns(table) == {"mark": ["A", "B"], "note": ['one, "two"\nthree', "x"]}
    assert table.line.tolist() == [2, 4]


def test_a_spreadsheets_trailing_separators_are_no_columns():
    table = read_table("yard.csv", b'"# units: m",,\nmark,x,,\nA,1,,\n,,,\nB,2,,,,\n')
    assert columns(table) == {"mark": ["A", "B"], "x": ["1", "2"]}
    assert table.keys == (("units", "m"),)
    assert table.line.tolist() == [3, 5]


@pytest.mark.parametrize("quote", ["", '"'])
def test_rows_that_do_not_fit_are_told_and_the_rest_is_read(quote):
    rows = f"mark,x\n\n{quote}A{quote},1\nB\nC,1,2\nmark,x\n# units: ft\nD,4\n"
    table = read_table("yard.csv", rows.encode())
    assert columns(table) == {"mark": ["A", "D"], "x": ["1", "4"]}
    assert table.line.tolist() == [3, 8]
    assert [(bad.line, bad.fault) for bad in table.bad_rows] == [
        (4, WRONG_FIELDS), (5, WRONG_FIELDS), (6, REPEATED_HEADER), (7, KEY_BELOW),
    ]  # fmt: skip


def test_a_last_line_cut_short_in_a_quote_is_told_and_the_rest_is_read():
    table = read_table("yard.csv", b'mark,note\nA,x\nB,"half a no')
    assert columns(table) == {"mark": ["A"], "note": ["x"]}
    assert [(bad.line, bad.fault, bad.data["cell"]) for bad in table.bad_rows] == [
        (3, UNCLOSED, 'B,"half a no')
    ]


def test_a_mark_may_start_with_the_sign_of_a_key():
    table = read_table("yard.csv", b"mark,x\n#1,5\n")
    assert columns(table) == {"mark": ["#1"], "x": ["5"]}


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "yard.csv is empty. Give a table with a header row."),
        (b" \n\n", "yard.csv is empty. Give a table with a header row."),
        (b"# units: m\n", "yard.csv has no header row. Give the column names in the line above the rows."),
        (
            b"mark,x\nA,\x00\n",
            "yard.csv, line 2: a NUL byte stands here, so this is not text. Save it again as UTF-8 CSV.",
        ),
        (
            codecs.BOM_UTF16_LE + b"a\x00b",
            "yard.csv starts as UTF-16-LE but byte 2 does not fit. Save it again as UTF-8 CSV.",
        ),
        (
            b"mark,x,Mark\nA,1,2\n",
            'The header of yard.csv names the column "Mark" twice (fields 1 and 3). Rename one.',
        ),
        (b"mark,,x\nA,7,2\n", "yard.csv: column 2 of the header has no name. Name it."),
        (
            b'mark,x\nA,"1\nB,2\nC,3\n',
            (
                "yard.csv, line 2: a field that starts here cannot be read (unexpected end of data). "
                "Close each quoted field with a quote, and double the quotes inside it."
            ),
        ),
        (
            b'mark,x\nA,"5" pipe\n',
            (
                "yard.csv, line 2: a field that starts here cannot be read (',' expected after '\"'). "
                "Close each quoted field with a quote, and double the quotes inside it."
            ),
        ),
        (
            b'mark,x\nA,"' + b"y" * 200_000 + b'"\nB,2\n',
            (
                "yard.csv, line 2: a field that starts here cannot be read (field larger than field limit (131072)). "
                "Close each quoted field with a quote, and double the quotes inside it."
            ),
        ),
        (
            ",".join(f"c{i}" for i in range(501)).encode() + b"\n" + b"1," * 500 + b"1\n",
            "yard.csv: the header has 501 columns; more than 500 cannot be a table of ours.",
        ),
    ],
)
def test_what_cannot_be_used_at_all_is_refused_with_its_place(data, message):
    assert refusal(data) == message


def test_an_absurd_size_is_refused_before_it_fills_the_memory(monkeypatch):
    monkeypatch.setattr(table_module, "LARGEST_FILE", 10)
    with pytest.raises(BadInput) as caught:
        decode("yard.csv", b"mark,x,y,z\n")
    assert str(caught.value) == "yard.csv has 11 bytes; more than 10 cannot be a log. Split it."


CELL = st.text(st.characters(blacklist_categories=("Cs",), blacklist_characters="\0"), max_size=8)


@given(
    st.integers(1, 4).flatmap(
        lambda k: st.lists(st.lists(CELL, min_size=k, max_size=k), min_size=1, max_size=5)
    )
)
def test_any_cells_come_back_from_what_we_write(rows):
    kept = [row for row in rows if any(cell.strip() for cell in row)]
    header = tuple(f"c{i}" for i in range(len(rows[0])))
    cells = tuple(zip(*kept)) if kept else ((),) * len(header)
    table = LogTable(
        "a.csv", (("units", "m"), ("free", "ä: b")), (1, 2), header, cells, table_module.np.arange(len(kept))
    )
    back = read_table("a.csv", write_table(table).encode())
    assert [list(c) for c in back.cells] == [list(c) for c in cells]
    assert (back.keys, back.header, back.bad_rows) == (table.keys, table.header, ())


def test_unknown_columns_and_keys_come_back_untouched():
    text = "# my key: 7, or so\nmark,My Column\nA, kept \n"
    table = read_table("a.csv", text.encode())
    assert read_table("a.csv", write_table(table).encode()).keys == (("my key", "7, or so"),)
    assert columns(read_table("a.csv", write_table(table).encode())) == {
        "mark": ["A"],
        "My Column": [" kept "],
    }


@pytest.mark.parametrize("name", ["station", "mät"])
def test_a_table_of_too_many_bytes_is_refused_before_it_is_read(monkeypatch, name):
    monkeypatch.setattr(table_module, "LARGEST_FILE", 10)
    with pytest.raises(BadInput) as caught:
        read_table("yard.csv", f"walk,{name}\nW1,1\n".encode())
    size = len(f"walk,{name}\nW1,1\n".encode())
    assert str(caught.value) == f"yard.csv has {size} bytes; more than 10 cannot be a log. Split it."
