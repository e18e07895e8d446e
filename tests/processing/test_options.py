# SPDX-License-Identifier: GPL-2.0-or-later
"""What the user has set is what a parameter begins with; what a run is given goes before it."""

from __future__ import annotations

import pytest
from qgis.core import QgsProcessingContext, QgsProcessingFeedback

from plugin.bridge import settings
from tests.own_settings import own_settings


@pytest.fixture
def stored(tmp_path, qgis_app):
    with own_settings(tmp_path / "settings"):
        settings.forget_all()
        yield
        settings.forget_all()


@pytest.mark.parametrize(
    ("number", "value", "name", "parameter"),
    [
        (settings.JOIN_WITHIN, 0.25, "survey_walks", "JOIN_WITHIN"),
        (settings.PRICE_WITHIN, 7.5, "survey_walks", "PRICE_WITHIN"),
        (settings.JOIN_WITHIN, 0.25, "place_survey", "JOIN_WITHIN"),
        (settings.DIGITISED_SIGMA, 0.03, "measure_areas", "SIGMA"),
        (settings.DIGITISED_SIGMA, 0.03, "measure_lengths", "SIGMA"),
        (settings.FIT_WITHIN, 0.2, "fit_arcs", "TOLERANCE"),
    ],
)
def test_an_algorithm_begins_with_what_is_set_when_it_is_made(
    number, value, name, parameter, stored, provider
):
    def default() -> float:
        algorithm = provider.algorithm(name).create()
        return algorithm.parameterDefinition(parameter).defaultValue()

    assert default() == number.default
    settings.write_number(number, value)
    assert default() == value
    settings.forget_all()
    assert default() == number.default


@pytest.mark.parametrize(
    ("given", "wanted"),
    [
        ({}, (0.08, 0.03)),
        ({"PRICE_WITHIN": 12.0, "JOIN_WITHIN": 0.5}, (0.12, 0.5)),
        ({"PRICE_WITHIN": 5.0}, (0.05, 0.03)),
    ],
)
@pytest.mark.usefixtures("stored")
def test_a_run_takes_what_is_set_unless_it_is_given_something(
    given, wanted, provider, job, made_core, tmp_path
):
    settings.write_number(settings.PRICE_WITHIN, 8.0)
    settings.write_number(settings.JOIN_WITHIN, 0.03)
    algorithm = provider.algorithm("survey_walks").create()
    run = {"LOGS": str(job), "OUTPUT": str(tmp_path / "site.gpkg"), **given}
    algorithm.run(run, QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False)
    used = made_core[0][1]
    assert (used.price_within, used.join_within) == pytest.approx(wanted, abs=1e-12)
