# SPDX-License-Identifier: GPL-2.0-or-later
"""Decimals from bytes, held to float(), which rounds correctly."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.read.decimals import BEFORE, read_decimals

MANY = 200
"""Rows that are no longer a few."""


def read(cells, mark="."):
    """The numbers, and the rows that are written otherwise."""
    raw, start, end = bytearray(b"\n" * BEFORE), [], []
    for cell in cells:
        start.append(len(raw))
        raw += cell.encode()
        end.append(len(raw))
        raw += b","
    one = np.frombuffer(bytes(raw), np.uint8), np.array(start, np.int32), np.array(end, np.int32)
    values, others = read_decimals(*one, mark)
    # A few rows and many go two ways, to the same bits.
    times = MANY // max(len(cells), 1) + 1
    many, its_others = read_decimals(one[0], *(np.tile(ends, times) for ends in one[1:]), mark)
    assert many[: len(cells)].tobytes() == values.tobytes()
    assert its_others[its_others < len(cells)].tolist() == others.tolist()
    return values.tolist(), others.tolist()


PLAIN = [
    "0",
    "-0",
    "-0.0",
    "+1",
    "7",
    "5.",
    ".5",
    "-.5",
    "12.4",
    "-3.125",
    "00012.50",
    "12345678",
    "123456789",
    "0.1234567",
    "-1234.567",
    "99999999.9999999",
    "100000000.5",
    "123456789012345",
    "-999999999999999",
    "0.3",
    "2.675",
]
OTHERS = [
    ".",
    "-",
    "+",
    "-.",
    "+-",
    "--1",
    "+-1",
    "1-",
    "1.2.3",
    "1..2",
    "1e5",
    "1E5",
    "nan",
    "inf",
    "-inf",
    "1_000",
    "0x10",
    "1,5",
    "abc",
    "=A1",
    "0.12345678",
    "12.123456789",
    "9007199254740993",
    "12345678901234567",
    "١",
    "1\xa0",
]


def test_plain_decimals_are_the_numbers_that_float_gives_with_their_sign():
    values, others = read(PLAIN)
    assert others == []
    assert values == [float(cell) for cell in PLAIN]
    assert [math.copysign(1, value) for value in values] == [math.copysign(1, float(cell)) for cell in PLAIN]


@pytest.mark.parametrize("cell", OTHERS)
def test_what_is_written_otherwise_is_named_and_given_no_number(cell):
    values, others = read(["1", cell, "2"])
    assert others == [1]
    np.testing.assert_equal(values, [1, math.nan, 2])


def test_blank_fields_are_no_numbers_and_nothing_else_either():
    np.testing.assert_equal(read(["", "1.5", ""]), ([math.nan, 1.5, math.nan], []))
    assert read([]) == ([], [])


def test_another_mark_takes_the_place_of_the_point():
    values, others = read(["12,4", "-,5", "1.5", "7"], ",")
    np.testing.assert_equal(values, [12.4, -0.5, math.nan, 7])
    assert others == [2]


def test_more_rows_than_are_read_at_once_are_read_in_order():
    cells = [f"{i / 1000:.3f}" if i % 7 else "1e3" for i in range(100_000)]
    values, others = read(cells)
    assert others == list(range(0, 100_000, 7))
    assert [value for i, value in enumerate(values) if i % 7] == [
        float(c) for i, c in enumerate(cells) if i % 7
    ]


@given(st.lists(st.text("0123456789.+-eE_, n", max_size=20), max_size=30), st.sampled_from(".,"))
def test_no_text_is_given_a_number_that_float_would_not_give(cells, mark):
    values, others = read(cells, mark)
    for i, (cell, value) in enumerate(zip(cells, values)):
        if not cell or i in others:
            assert math.isnan(value)
        else:
            assert value == float(cell.replace(mark, "."))
            assert "_" not in cell


@given(st.floats(allow_nan=False, allow_infinity=False), st.integers(0, 9))
def test_any_number_as_a_log_rounds_it_is_read_exactly_or_left_to_float(number, decimals):
    cell = f"{number:.{decimals}f}"
    (value,), others = read([cell])
    assert others == [0] if math.isnan(value) else value == float(cell)


@given(st.integers(1, 7), st.sampled_from(".,"), st.data())
def test_columns_with_the_same_decimals_in_all_rows_are_rounded_as_float_does(places, mark, data):
    digits = data.draw(st.lists(st.text("0123456789", min_size=places, max_size=15), min_size=1, max_size=20))
    signs = data.draw(st.lists(st.sampled_from(["", "-"]), min_size=len(digits), max_size=len(digits)))
    cells = [f"{sign}{cell[:-places]}{mark}{cell[-places:]}" for sign, cell in zip(signs, digits)]
    wanted = np.array([float(cell.replace(mark, ".")) for cell in cells])
    values, others = read(cells, mark)
    assert (np.array(values).tobytes(), others) == (wanted.tobytes(), [])


@pytest.mark.parametrize(
    "other",
    [
        "1.23",
        "1.2345",
        "12",
        "",
        "-",
        "+1.234",
        "1.2a4",
        "12a45678.125",
        "/2345678.125",
        "1.2.4",
        "1/234",
        "1234567890123.456",
        "1e5",
    ],
)
def test_one_cell_written_otherwise_among_many_alike_changes_no_other(other):
    cells = [f"{i}.125" for i in range(300)]
    cells[150] = other
    values, others = read(cells)
    assert [value for i, value in enumerate(values) if i != 150] == [
        i + 0.125 for i in range(300) if i != 150
    ]
    is_plain = other in ("1.23", "1.2345", "12", "+1.234")
    assert values[150] == float(other) if is_plain else math.isnan(values[150])
    assert others == ([] if is_plain or not other else [150])
