# SPDX-License-Identifier: GPL-2.0-or-later
"""Unit names, lengths and gradients as people write them."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.errors import BadInput, BadUnit
from plugin.core.units import (
    LOG_UNITS,
    UNITS,
    GradientStyle,
    convert,
    format_feet_inches,
    format_gradient,
    parse_gradient,
    parse_length,
    parse_length_unit,
    parse_unit,
)


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("m", Fraction(1)),
        ("cm", Fraction(1, 100)),
        ("mm", Fraction(1, 1000)),
        ("km", Fraction(1000)),
        ("ft", Fraction(3048, 10000)),
        ("us-ft", Fraction(1200, 3937)),
        ("in", Fraction(254, 10000)),
        ("yd", Fraction(9144, 10000)),
        ("chain", Fraction(201168, 10000)),
        ("link", Fraction(201168, 1000000)),
        ("ha", Fraction(10000)),
        ("acre", Fraction(40468564224, 10**7)),
        ("us-chain", Fraction(66 * 1200, 3937)),
        ("ft2", Fraction(9290304, 10**8)),
        ("yd3", Fraction(764554857984, 10**12)),
        ("litre", Fraction(1, 1000)),
    ],
)
def test_each_unit_is_its_definition(name, size):
    assert UNITS[name].size == size


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("m", "m"), (" Metres ", "m"), ("FEET", "ft"), ("foot", "ft"), ("international feet", "ft"), ("'", "ft"),
        ("US survey feet", "us-ft"), ("us-ft", "us-ft"), ("usft", "us-ft"), ("US_ft", "us-ft"), ("U.S. feet", "us-ft"),
        ("inches", "in"), ('"', "in"), ("sq yd", "yd2"), ("square metres", "m2"), ("m²", "m2"), ("cu. yd.", "yd3"),
        ("m³", "m3"), ("acres", "acre"), ("US survey acres", "us-acre"), ("hectares", "ha"), ("us chains", "us-chain"),
    ],
)  # fmt: skip
def test_a_unit_is_known_by_the_names_people_write(text, name):
    assert parse_unit(text).name == name


@pytest.mark.parametrize("text", ["", "furlong", "metrs", "m4", "us-m", "square"])
def test_an_unknown_unit_is_refused_with_the_list(text):
    with pytest.raises(BadUnit) as caught:
        parse_unit(text)
    assert str(caught.value) == f'The unit "{text}" is not known. Use one of: {", ".join(UNITS)}.'


def test_an_area_is_no_unit_of_length():
    with pytest.raises(BadUnit) as caught:
        parse_length_unit("ha")
    assert str(caught.value) == '"ha" is not a unit of length. Use one of: m, ft, us-ft, in, cm, mm.'


def test_every_unit_of_a_table_is_a_length_of_its_own_name():
    assert [parse_length_unit(name).name for name in LOG_UNITS] == list(LOG_UNITS)


def test_a_length_is_not_turned_into_an_area():
    with pytest.raises(BadUnit) as caught:
        convert(1.0, "m", "m2")
    assert str(caught.value) == '"m" measures length, "m2" area. Choose two units of one kind.'


@given(st.floats(-1e7, 1e7), st.sampled_from(sorted(LOG_UNITS)))
def test_a_length_comes_back_from_any_unit(value, unit):
    assert convert(convert(value, "m", unit), unit, "m") == pytest.approx(value, rel=1e-15, abs=1e-300)


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("12.4", 12.4), ("12,4 m", 12.4), ("-3 cm", -0.03), ("1e2 mm", 0.1), ("10 ft", 3.048),
        ("8' 7 7/16\"", (8 * 12 + 7 + 7 / 16) * 0.0254), ("8'-7 7/16\"", (8 * 12 + 7 + 7 / 16) * 0.0254),
        ("5'", 1.524), ("7 1/2\"", 0.1905), ("-1' 6\"", -0.4572), ("3/4 in", 0.01905), ("2 us-ft", 2400 / 3937),
    ],
)  # fmt: skip
def test_a_length_is_read_as_written(text, metres):
    assert parse_length(text) == pytest.approx(metres, rel=1e-15)


@pytest.mark.parametrize("text", ["", "wide", "nan", "inf", "1e999", "3/0 in", "'", "1.2.3"])
def test_what_is_no_length_is_refused(text):
    with pytest.raises(BadInput):
        parse_length(text)


def test_the_refusal_of_a_length_says_how_to_write_it():
    with pytest.raises(BadInput) as caught:
        parse_length("wide")
    assert str(caught.value) == '"wide" is not a length. Write it like 12.4 m or 8\' 7 7/16".'


@pytest.mark.parametrize(
    ("inches", "denominator", "text"),
    [
        (0.0, 16, "0' 0\""), (11.97, 16, "1' 0\""), (11.96875, 16, "1' 0\""), (-7.5, 16, "-0' 7 1/2\""),
        (-0.01, 16, "0' 0\""), (12.25, 8, "1' 0 1/4\""), (3.3, 10, "0' 3 3/10\""), (3.3, 1, "0' 3\""),
        (0.03125, 16, "0' 0 1/16\""),
    ],
)  # fmt: skip
def test_feet_and_inches_carry_and_round_half_away_from_zero(inches, denominator, text):
    assert format_feet_inches(inches * 0.0254, denominator) == text


def test_the_survey_foot_shows_over_a_long_length():
    # a mile differs by 0.0106 ft = 0.127 in between the two feet
    assert format_feet_inches(1609.344, 16) == "5280' 0\""
    assert format_feet_inches(1609.344, 16, foot="us-ft") == "5279' 11 7/8\""


@given(st.floats(-1e4, 1e4), st.sampled_from([1, 2, 8, 10, 16, 64]))
def test_feet_and_inches_read_back_within_half_a_step(length, denominator):
    half_step = 0.0254 / denominator / 2
    assert abs(parse_length(format_feet_inches(length, denominator)) - length) <= half_step + 1e-11


@pytest.mark.parametrize("denominator", [0, -2, 1025, 2.5])
def test_a_senseless_denominator_is_refused(denominator):
    with pytest.raises(BadInput) as caught:
        format_feet_inches(1.0, denominator)
    assert str(caught.value) == (
        f"{denominator} cannot be the finest fraction of an inch. Use a whole number from 1 to 1024."
    )


@pytest.mark.parametrize("length", [math.nan, math.inf])
def test_no_number_is_no_feet(length):
    with pytest.raises(BadInput) as caught:
        format_feet_inches(length)
    assert str(caught.value) == f"{length} is not a length that can be written in feet and inches."


@pytest.mark.parametrize(
    ("ratio", "style", "text"),
    [
        (1 / 15, GradientStyle.ONE_IN, "1:15.0"), (-1 / 15, GradientStyle.ONE_IN, "-1:15.0"),
        (0.0, GradientStyle.ONE_IN, "level"), (0.05, GradientStyle.PERCENT, "5.0 %"),
        (-0.0001, GradientStyle.PERCENT, "0.0 %"), (1.0, GradientStyle.DEGREES, "45.0 deg"),
        (-1.0, GradientStyle.DEGREES, "-45.0 deg"),
    ],
)  # fmt: skip
def test_a_gradient_is_written_in_each_style(ratio, style, text):
    assert format_gradient(ratio, style) == text


@pytest.mark.parametrize(
    ("text", "ratio"),
    [("1:20", 0.05), ("-1 : 20", -0.05), ("1 in 12,5", 0.08), ("5 %", 0.05), ("45°", 1.0), ("level", 0.0),
     ("0.02", 0.02), ("-2,5%", -0.025), ("1", 1.0)],
)  # fmt: skip
def test_a_gradient_is_read_in_each_style(text, ratio):
    assert parse_gradient(text) == pytest.approx(ratio, rel=1e-14)


@pytest.mark.parametrize("text", ["", "steep", "1:0", "90 deg", "1:", "nan", "2:20", "5 ft"])
def test_what_is_no_gradient_is_refused(text):
    with pytest.raises(BadInput) as caught:
        parse_gradient(text)
    assert str(caught.value) == f'"{text}" is not a gradient. Write it like 1:20, 5 % or 2.9 deg.'


def test_no_number_is_no_gradient():
    with pytest.raises(BadInput) as caught:
        format_gradient(math.nan, GradientStyle.PERCENT)
    assert str(caught.value) == "nan is not a gradient."
