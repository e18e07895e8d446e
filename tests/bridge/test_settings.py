# SPDX-License-Identifier: GPL-2.0-or-later
"""What is set for all jobs: typed, kept in its limits, and never a reason for a run to fail."""

from __future__ import annotations

import math

import pytest
from qgis.core import QgsApplication, QgsProject, QgsSettings

from plugin.bridge import settings
from plugin.bridge.geopackage import write_survey
from plugin.bridge.project import write_project
from plugin.bridge.settings import (
    NUMBERS,
    PREFIX,
    ShownUnit,
    answerer,
    own_name,
    read_number,
    read_shown_unit,
)
from plugin.core.errors import BadInput
from tests.made_survey import made_survey
from tests.own_settings import own_settings

DEFAULTS = {"join_within_m": 0.1, "price_within_percent": 5.0, "digitised_sigma_m": 0.1, "fit_within_m": 0.05}


@pytest.fixture
def stored(tmp_path, qgis_app):
    settings.forget_all()
    with own_settings(tmp_path / "settings") as path:
        yield path
        settings.forget_all()


@pytest.fixture
def told(qgis_app):
    """What the message log is told under our name."""
    said = []
    log = QgsApplication.messageLog()

    def hear(text, tag, _level):
        if tag == "Ground Tally":
            said.append(text)

    log.messageReceived.connect(hear)
    yield said
    log.messageReceived.disconnect(hear)


def test_where_nothing_is_set_the_defaults_hold(stored):
    assert {number.key: read_number(number) for number in NUMBERS} == DEFAULTS
    assert read_shown_unit() is ShownUnit.OF_CRS
    assert answerer() == own_name() != ""


@pytest.mark.parametrize("number", NUMBERS, ids=lambda n: n.key)
def test_a_number_that_is_set_comes_back_to_the_bit(number, stored):
    for value in (number.least, number.most, number.default + 1 / 3 * 10**-3):
        settings.write_number(number, value)
        assert read_number(number) == value
    assert QgsSettings().value(PREFIX + number.key) is not None


@pytest.mark.parametrize("number", NUMBERS, ids=lambda n: n.key)
@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, -0.001, 1e9])
def test_a_number_out_of_its_limits_is_not_set(number, value, stored):
    with pytest.raises(BadInput) as error:
        settings.write_number(number, value)
    assert str(error.value) == (
        f"{value} cannot be set here. Give a number from {number.least} to {number.most}."
    )
    assert read_number(number) == number.default


@pytest.mark.parametrize("bad", ["", "much", "nan", "inf", "-1", "1e9", "0,1", ["0", "1"]])
def test_a_number_that_cannot_be_used_gives_the_default_and_is_told_once(bad, stored, told):
    QgsSettings().setValue(PREFIX + "fit_within_m", bad)
    assert [read_number(settings.FIT_WITHIN) for _ in range(3)] == [0.05] * 3
    shown = ", ".join(bad) if isinstance(bad, list) else bad
    sentence = (
        f'The setting ground_tally/fit_within_m is "{shown}", which cannot be used; 0.05 is taken. Set it in '
        "Settings, Options, Ground Tally."
    )
    assert told == [sentence]


@pytest.mark.parametrize("unit", list(ShownUnit))
def test_a_unit_is_stored_by_its_name(unit, stored):
    settings.write_shown_unit(unit)
    assert QgsSettings().value(PREFIX + "shown_unit") == unit.name
    assert read_shown_unit() is unit


@pytest.mark.parametrize("bad", ["", "furlong", "m", "0"])
def test_a_unit_that_is_not_known_gives_that_of_the_crs_and_is_told_once(bad, stored, told):
    QgsSettings().setValue(PREFIX + "shown_unit", bad)
    assert [read_shown_unit() for _ in range(2)] == [ShownUnit.OF_CRS] * 2
    sentence = (
        f'The setting ground_tally/shown_unit is "{bad}", which cannot be used; the CRS\'s own unit is taken. Set it '
        "in Settings, Options, Ground Tally."
    )
    assert told == [sentence]


@pytest.mark.parametrize("name", ["Site team", "A, B and C", "Über-Prüfer 2", "x" * 200])
def test_a_name_comes_back_as_it_was_given(name, stored):
    settings.write_answerer(f"  {name} ")
    assert answerer() == name


@pytest.mark.parametrize("name", ["two\nlines", "x" * 201, "tab\tin it"])
def test_a_name_that_would_break_a_row_is_not_set(name, stored, told):
    with pytest.raises(BadInput, match="A name is one line of 200 letters at the most"):
        settings.write_answerer(name)
    QgsSettings().setValue(PREFIX + "answers_by", name)
    assert [answerer() for _ in range(2)] == [own_name()] * 2
    assert len(told) == 1


def test_forgetting_leaves_no_key_behind(stored):
    settings.write_number(settings.JOIN_WITHIN, 0.2)
    settings.write_shown_unit(ShownUnit.FOOT)
    settings.write_answerer("Site team")
    settings.forget_all()
    assert [key for key in QgsSettings().allKeys() if key.startswith(PREFIX)] == []


@pytest.mark.parametrize(
    ("unit", "sign", "metres"),
    [(ShownUnit.METRE, "m", 1.0), (ShownUnit.FOOT, "ft", 0.3048), (ShownUnit.US_FOOT, "US ft", 1200 / 3937)],
)
@pytest.mark.parametrize("crs", ["EPSG:25831", "EPSG:2264", None])
def test_the_unit_that_is_set_is_the_unit_of_a_new_project(unit, sign, metres, crs, stored, tmp_path):
    settings.write_shown_unit(unit)
    project = QgsProject()
    assert project.read(str(write_project(write_survey(made_survey(crs), tmp_path / "site.gpkg"))))
    variables = project.customVariables()
    assert variables["survey_unit"] == sign
    # The feet by their definitions: 0.3048 m, and 1200/3937 m (US National Bureau of Standards, 1959).
    assert float(variables["survey_unit_m"]) == pytest.approx(metres, abs=1e-15)
