# SPDX-License-Identifier: GPL-2.0-or-later
"""Figures against limits: pass, fail, cannot tell; rows by rise and run; the table and what is wrong with it."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.quantity import COVER_95, Quantity
from plugin.core.read.table import read_table
from plugin.core.trade.checks import open_part
from plugin.core.trade.limit_table import COLUMNS, LENGTH_UNITS, SLOPE_UNITS, read_limits
from plugin.core.trade.limit_words import tell_allowed, tell_value
from plugin.core.trade.limits import (
    Check,
    Figure,
    Limit,
    LimitUnit,
    Measured,
    Outcome,
    Thing,
    check_limits,
    chosen_limits,
    judge,
)

FORMATS = Path(__file__).parents[3] / "resources" / "formats"
HEADER = ",".join(column for column in COLUMNS if column != "items")
PASSES, FAILS, OPEN = Outcome.PASSES, Outcome.FAILS, Outcome.CANNOT_TELL
INF = math.inf


def limits_of(*rows, header=HEADER):
    limits, findings = read_limits(read_table("limits.csv", "\n".join([header, *rows, ""]).encode()))
    assert findings == ()
    return limits


def shipped():
    return read_limits(read_table("limits.csv", (FORMATS / "limits.csv").read_bytes()))


def ratio(value, sigma=0.0):
    return Quantity(value, sigma, "ratio")


def ramp(value, sigma=0.0, *, rise=None, run=None, place="flight 1", figure=Figure.GRADIENT):
    sizes = [
        None if v is None else v if isinstance(v, Quantity) else Quantity(v, 0.0, "m") for v in (rise, run)
    ]
    return Measured(Thing.RAMP, "R", figure, ratio(value, sigma), place, *sizes)


# --- one figure ---


@pytest.mark.parametrize(
    ("value", "sigma", "outcome"),
    [
        (1 / 12, 0.0, PASSES),
        (0.0834, 0.0, FAILS),
        (0.080, 0.001, PASSES),
        (0.082, 0.001, OPEN),
        (0.085, 0.001, OPEN),
        (0.087, 0.001, FAILS),
        (-0.080, 0.001, PASSES),
        (-0.087, 0.001, FAILS),
        (1 / 12.1, 0.0022, OPEN),
    ],
)
def test_a_gradient_passes_or_fails_only_where_its_interval_lies_on_one_side(value, sigma, outcome):
    assert judge(ratio(value, sigma), -INF, 1 / 12, by_size=True)[0] is outcome


def test_the_edges_of_the_interval_decide():
    for off, outcome in ((-1e-6, PASSES), (1e-6, OPEN)):
        assert judge(ratio(1.0 + off, 0.5), -INF, 1.0 + 0.5 * COVER_95)[0] is outcome
    for off, outcome in ((1e-6, FAILS), (-1e-6, OPEN)):
        assert judge(ratio(1.0 + off, 0.5), -INF, 1.0 - 0.5 * COVER_95)[0] is outcome


def test_the_chance_is_that_of_normal_errors():
    """Normal distribution: 0.975 at 1.959964 sigma, 0.8413447 at 1, one half on the limit."""
    assert judge(ratio(1.0, 0.1), -INF, 1.0 + 0.1 * COVER_95)[1] == pytest.approx(0.975, abs=1e-12)
    assert judge(ratio(1.0, 0.1), -INF, 1.1)[1] == pytest.approx(0.8413447460685429, abs=1e-7)
    assert judge(ratio(1.0, 0.1), -INF, 1.0)[1] == pytest.approx(0.5, abs=1e-7)
    assert judge(ratio(1.0, 0.1), 0.9, 1.1)[1] == pytest.approx(0.6826894921370859, abs=1e-7)
    assert judge(ratio(0.0, 0.1), 0.1, INF, by_size=True)[1] == pytest.approx(
        1 - 0.6826894921370859, abs=1e-7
    )
    tail = judge(ratio(10.0, 1.0), -INF, 0.0)[1]
    assert tail == pytest.approx(7.619853024160527e-24, rel=1e-6)


def test_the_chance_is_that_of_draws():
    draw = np.random.default_rng(1).normal(-0.02, 0.01, 1_000_000)
    told = judge(ratio(-0.02, 0.01), -INF, 0.025, by_size=True)[1]
    assert told == pytest.approx((np.abs(draw) <= 0.025).mean(), abs=0.002)


def test_a_figure_without_uncertainty_cannot_be_told():
    for value, sigma in ((0.05, math.nan), (math.nan, 0.01), (math.inf, 0.01), (0.05, -1.0)):
        outcome, chance = judge(ratio(value, sigma), -INF, 1 / 12)
        assert outcome is OPEN
        assert math.isnan(chance)


def test_a_least_slope_is_held_against_the_size_too():
    for value, outcome in ((-0.02, PASSES), (0.02, PASSES), (0.001, FAILS), (-0.001, FAILS)):
        assert judge(ratio(value, 0.001), 1 / 80, INF, by_size=True)[0] is outcome


# --- rows that hang on a rise or a run ---

TABLE = (
    "T,ramp,gradient,12,,1:n,run at 2 m,,,",
    "T,ramp,gradient,15,,1:n,run at 5 m,,,",
    "T,ramp,gradient,20,,1:n,run at 10 m,,,",
)
OLD = (
    "E,ramp,gradient,12,,1:n,,,,",
    "E,ramp,gradient,10,,1:n,rise up to 6 in,,,",
    "E,ramp,gradient,8,,1:n,rise up to 3 in,,,",
)


@pytest.mark.parametrize(
    ("run", "n"), [(1, 12), (2, 12), (3, 13), (4, 14), (5, 15), (6, 16), (9, 19), (10, 20), (12, 20)]
)
def test_between_points_the_limit_goes_evenly_in_its_own_unit(run, n):
    (check,) = check_limits([ramp(1 / n, run=run)], limits_of(*TABLE))
    assert 1 / check.high == pytest.approx(n, rel=1e-12)
    assert check.outcome is PASSES
    assert check_limits([ramp(1.001 / n, run=run)], limits_of(*TABLE))[0].outcome is FAILS


@pytest.mark.parametrize(("rise", "n"), [(0.05, 8), (3 * 0.0254, 8), (0.1, 10), (6 * 0.0254, 10), (0.2, 12)])
def test_up_to_a_rise_the_first_row_that_holds_it_counts(rise, n):
    (check,) = check_limits([ramp(1 / n, rise=rise)], limits_of(*OLD))
    assert 1 / check.high == pytest.approx(n)


def test_a_rise_that_may_be_either_side_of_a_row_cannot_be_told_where_the_rows_differ():
    near = Quantity(6 * 0.0254 - 0.001, 0.003, "m")
    assert check_limits([ramp(1 / 11, rise=near)], limits_of(*OLD))[0].outcome is OPEN
    assert check_limits([ramp(1 / 13, rise=near)], limits_of(*OLD))[0].outcome is PASSES
    assert check_limits([ramp(1 / 9, rise=near)], limits_of(*OLD))[0].outcome is FAILS


def test_a_figure_that_no_row_is_of_is_not_checked():
    assert check_limits([ramp(0.05)], limits_of("P,path,gradient,20,,1:n,,,,")) == []
    assert check_limits([ramp(0.05, rise=1.0)], limits_of(OLD[1])) == []
    assert check_limits([], limits_of(*OLD)) == []


# --- several figures of one thing ---


def test_of_several_the_one_that_is_likeliest_to_break_the_limit_is_told():
    figures = [ramp(0.07, 0.001), ramp(-0.09, 0.001, place="flight 2"), ramp(0.075, 0.02, place="flight 3")]
    (check,) = check_limits(figures, limits_of(OLD[0]))
    assert (check.measured.place, check.count, check.outcome) == ("flight 2", 3, FAILS)
    (check,) = check_limits([figures[0], figures[2]], limits_of(OLD[0]))
    assert (check.measured.place, check.outcome) == ("flight 3", OPEN)


def test_of_two_that_fail_for_certain_the_farther_one_is_told():
    (check,) = check_limits([ramp(0.09), ramp(-0.12, place="flight 2")], limits_of(OLD[0]))
    assert check.measured.place == "flight 2"


# --- the table ---


def test_the_shipped_table_is_read_whole_and_says_what_is_from_memory():
    limits, findings = shipped()
    assert findings == ()
    assert len(limits) == len((FORMATS / "limits.csv").read_text(encoding="utf-8").splitlines()) - 1
    assert all(limit.source for limit in limits)
    assert {limit.is_seen for limit in limits} == {True, False}
    assert not any(limit.is_seen for limit in limits if "common practice" in limit.source)


def test_the_schema_has_the_readers_columns_and_words():
    schema = json.loads((FORMATS / "limits.schema.json").read_text(encoding="utf-8"))
    fields = {field["name"]: field for field in schema["fields"]}
    assert tuple(fields) == COLUMNS
    assert fields["applies_to"]["constraints"]["enum"] == [thing.value for thing in Thing]
    assert fields["quantity"]["constraints"]["enum"] == [figure.value for figure in Figure]
    assert fields["unit"]["constraints"]["enum"] == [*SLOPE_UNITS, *LENGTH_UNITS]
    table = read_table("limits.csv", (FORMATS / "limits.csv").read_bytes())
    assert table.header == COLUMNS
    for name, field in fields.items():
        rules = field.get("constraints", {})
        for cell in table.text(name):
            assert cell or not rules.get("required")
            assert not cell or cell in rules.get("enum", [cell])
            assert not cell or re.fullmatch(rules.get("pattern", ".*"), cell)
        assert field["description"].endswith(".")


def test_the_page_of_the_formats_names_the_table():
    page = (FORMATS / "README.md").read_text(encoding="utf-8")
    assert "`limits.csv` | `limits.schema.json`" in page


def test_units_come_to_metres_and_ratios():
    (a, b, c, d, e) = limits_of(
        "a,ramp,gradient,12,,1:n,,,,",
        "b,ramp,gradient,5,2,%,,,,",
        "c,ramp,gradient,45,,deg,,,,",
        "d,ramp,width,,36,in,,,,",
        "e,steps,2r+g,700,550,mm,,,,",
    )
    assert a.bounds == (-INF, 1 / 12)
    assert b.bounds == pytest.approx((0.02, 0.05))
    assert c.bounds[1] == pytest.approx(1.0)
    assert d.bounds == pytest.approx((0.9144, INF))
    assert e.bounds == pytest.approx((0.55, 0.7))


GOOD = "ok,ramp,gradient,12,,1:n,,,,"


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (
            "a,hill,gradient,12,,1:n,,,,",
            'limits.csv, line 3, column applies_to: "hill" is not one of: ramp, landing, steps, fall, path, wall.',
        ),
        ("a,ramp,,12,,1:n,,,,", "limits.csv, line 3, column quantity: the field is blank."),
        (
            "a,ramp,gradient,12,,mm,,,,",
            'limits.csv, line 3, column unit: "mm" is not one of: 1:n, ratio, %, deg.',
        ),
        (
            "a,ramp,width,,1,%,,,,",
            'limits.csv, line 3, column unit: "%" is not one of: m, ft, us-ft, in, cm, mm.',
        ),
        ("a,ramp,gradient,,,1:n,,,,", "limits.csv, line 3: the limit has neither at_most nor at_least."),
        ("a,ramp,gradient,twelve,,1:n,,,,", 'limits.csv, line 3, column at_most: "twelve" is not a number.'),
        ("a,ramp,gradient,nan,,1:n,,,,", 'limits.csv, line 3, column at_most: "nan" is not a finite number.'),
        ("a,ramp,gradient,0,,1:n,,,,", 'limits.csv, line 3, column at_most: "0" is not above zero.'),
        ("a,ramp,gradient,-1,,%,,,,", 'limits.csv, line 3, column at_most: "-1" is not above zero.'),
        ("a,ramp,gradient,40,20,1:n,,,,", "limits.csv, line 3: nothing lies between at_least and at_most."),
        (
            "a,ramp,gradient,12,,1:n,uphill,,,",
            'limits.csv, line 3, column per: "uphill" does not say what the limit hangs on.',
        ),
        (
            "=1+1,ramp,gradient,12,,1:n,,,,",
            'limits.csv, line 3, column limit: "=1+1" is a formula, not its value.',
        ),
    ],
)
def test_a_row_that_cannot_be_used_is_told_and_the_others_count(row, words):
    limits, findings = read_limits(read_table("limits.csv", f"{HEADER}\n{GOOD}\n{row}\n".encode()))
    assert [limit.name for limit in limits] == ["ok"]
    assert [(f.code, f.message) for f in findings] == [("IN-01", words)]


def test_tables_that_are_none_are_refused():
    with pytest.raises(BadInput) as told:
        read_limits(read_table("limits.csv", b"limit,unit\na,m\n"))
    assert str(told.value) == (
        "limits.csv: the limits have no column applies_to or quantity. Their header needs limit, applies_to, quantity and "
        "unit; it has limit, unit."
    )
    with pytest.raises(BadInput) as told:
        read_limits(read_table("limits.csv", f"{HEADER}\na,ramp,gradient,,,1:n,,,,\n".encode()))
    assert str(told.value) == (
        "limits.csv has no limit that can be used. limits.csv, line 2: the limit has neither at_most nor at_least."
    )


def test_semicolons_decimal_commas_and_columns_of_ones_own_are_read():
    text = HEADER.replace(",", ";") + ";mine\nx;fall;gradient;;1,25;%;;;;;z\n"
    limits, findings = read_limits(read_table("limits.csv", text.encode()))
    assert limits[0].at_least == 1.25
    assert [f.code for f in findings] == ["IN-06"]


def test_a_limit_is_for_the_items_that_it_names():
    """By patterns; of a thing without an item nobody knows, and a limit without items is for all."""
    header = "limit,applies_to,quantity,at_least,unit,items"
    rows = ("Lawn,fall,gradient,50,1:n,TRF-* sed-0?", "All,fall,gradient,50,1:n,")
    lawn, every = limits_of(*rows, header=header)
    items = ("TRF-01", "trf-09", "SED-01", "SED-11", "PAV-01", "")
    assert [item for item in items if lawn.concerns(item)] == ["TRF-01", "trf-09", "SED-01", ""]
    assert every.concerns("PAV-01")


def test_the_shipped_limits_hold_no_paving_to_the_fall_of_a_lawn_and_no_kerb_to_that_of_a_path():
    limits, _ = shipped()
    of = {
        item: {limit.name for limit in limits if limit.concerns(item)}
        for item in ("PAV-01", "KRB-01", "TRF-01")
    }
    assert {"Practice paving", "ADA 403.3 walking surface"} <= of["PAV-01"]
    assert "Practice lawn" not in of["PAV-01"]
    assert "ADA 403.3 walking surface" not in of["KRB-01"]
    assert {"Practice lawn"} == of["TRF-01"] - of["KRB-01"]


def test_limits_are_chosen_by_the_beginning_of_their_names():
    limits, _ = shipped()
    assert {limit.name for limit in chosen_limits(limits, ("ad m", "Designed"))} == {
        "AD M Table 1",
        "AD M Table 1 going",
        "AD M landing",
        "Designed wall",
    }
    assert chosen_limits(limits, None) == list(limits)
    with pytest.raises(BadInput) as told:
        chosen_limits(limits_of(GOOD), ("nothing",))
    assert str(told.value) == 'No limit\'s name begins with "nothing". The table has: ok.'


def test_a_whole_name_between_quotes_chooses_no_other_that_begins_with_it():
    limits, _ = shipped()
    assert {limit.name for limit in chosen_limits(limits, ('"ad m table 1"', "Designed"))} == {
        "AD M Table 1",
        "Designed wall",
    }
    with pytest.raises(BadInput) as told:
        chosen_limits(limits_of(GOOD), ('"o"',))
    assert str(told.value) == 'No limit\'s name begins with "o". The table has: ok.'
    assert chosen_limits(limits_of(GOOD), ("o",)) == list(limits_of(GOOD))


# --- in words ---


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (ratio(1 / 12.1, 0.0022), "1:n", "1:12.1 (1:11.5 to 1:12.8)"),
        (ratio(-0.001, 0.002), "1:n", "1:1000 (1:203 to level)"),
        (ratio(0.0215, 0.001), "%", "2.15 % (1.95 to 2.35)"),
        (ratio(math.tan(math.radians(5)), 0.0), "deg", "5.00 deg (5.00 to 5.00)"),
        (Quantity(0.1632, 0.004, "m"), "mm", "163 mm (155 to 171)"),
        (Quantity(0.9144, 0.0, "m"), "in", "36.00 in (36.00 to 36.00)"),
        (ratio(0.05, math.nan), "%", "5.00"),
    ],
)
def test_figures_are_told_in_the_limits_unit(value, unit, words):
    told = tell_value(value, {**SLOPE_UNITS, **LENGTH_UNITS}[unit], by_size=value.unit == "ratio")
    assert told == words


def test_what_is_allowed_is_told_in_its_unit():
    limits = limits_of(
        "a,ramp,gradient,12,,1:n,,,,",
        "b,ramp,crossfall,,80,1:n,,,,",
        "c,ramp,steepest,5,2,%,,,,",
        "d,ramp,flattest,,2,%,,,,",
    )
    figures = [
        ramp(0.03, figure=f) for f in (Figure.GRADIENT, Figure.CROSSFALL, Figure.STEEPEST, Figure.FLATTEST)
    ]
    assert [tell_allowed(check) for check in check_limits(figures, limits)] == [
        "1:12 or flatter",
        "1:80 or steeper",
        "2 to 5 %",
        "2 % or more",
    ]


def test_a_limit_between_two_rows_is_told_to_four_digits():
    """1 in 10 plus the going: 8.9873 m go at 1:18.9873."""
    limits = limits_of("a,ramp,gradient,12,,1:n,run at 2 m,,,", "a,ramp,gradient,20,,1:n,run at 10 m,,,")
    (check,) = check_limits([ramp(0.06, run=8.9873)], limits)
    assert tell_allowed(check) == "1:18.99 or flatter"


@pytest.mark.parametrize(
    ("thing", "figure", "value", "low", "high", "left"),
    [
        (Thing.FALL, Figure.GRADIENT, 0.01, 0.0, 0.02, Outcome.CANNOT_TELL),
        (Thing.FALL, Figure.GRADIENT, 0.03, 0.0, 0.02, Outcome.CANNOT_TELL),  # the rest may be level
        (Thing.FALL, Figure.CROSSFALL, 0.03, 0.0, 0.02, Outcome.CANNOT_TELL),  # of a plane
        (Thing.FALL, Figure.STEEPEST, 0.03, 0.0, 0.02, Outcome.FAILS),
        (Thing.FALL, Figure.STEEPEST, 0.01, 0.02, math.inf, Outcome.CANNOT_TELL),  # the rest may be steeper
        (Thing.FALL, Figure.FLATTEST, 0.01, 0.02, math.inf, Outcome.FAILS),
        (Thing.FALL, Figure.FLATTEST, 0.03, 0.0, 0.02, Outcome.CANNOT_TELL),
        (Thing.PATH, Figure.CROSSFALL, -0.03, 0.0, 0.02, Outcome.FAILS),  # the greatest, whichever way
        (Thing.LANDING, Figure.CROSSFALL, 0.01, 0.0, 0.02, Outcome.CANNOT_TELL),
    ],
)
def test_a_figure_of_a_part_alone_tells_nothing_of_all_but_an_extreme_that_fails(
    thing, figure, value, low, high, left
):
    limit = Limit("L", thing, figure, None, None, LimitUnit("ratio"))
    measured = Measured(thing, "A", figure, Quantity(value, 0.0, "ratio"))
    outcome, chance = judge(measured.value, low, high, by_size=True)
    told = open_part(Check(measured, limit, low, high, outcome, chance))
    assert told.outcome is left
    assert math.isnan(told.chance) is (left is Outcome.CANNOT_TELL)
