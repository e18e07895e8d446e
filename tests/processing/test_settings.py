# SPDX-License-Identifier: GPL-2.0-or-later
"""The parameters by which a run is made reach the chain."""

from __future__ import annotations

import pytest
from qgis.core import QgsProcessingContext, QgsProcessingFeedback


@pytest.mark.parametrize(
    ("given", "setting"),
    [
        ({}, ("join_within", 0.10)),
        ({"JOIN_WITHIN": 0.05}, ("join_within", 0.05)),
        ({}, ("price_within", 0.05)),
        ({"PRICE_WITHIN": 12.0}, ("price_within", 0.12)),
        ({}, ("columns", None)),
        ({"COLUMNS": "number, easting,northing"}, ("columns", ("number", "easting", "northing"))),
        ({}, ("as_walked", None)),
        ({"AS_WALKED": 0.05}, ("as_walked", 0.05)),
    ],
)
def test_a_parameter_becomes_a_setting(provider, job, made_core, tmp_path, given, setting):
    algorithm = provider.algorithm("survey_walks").create()
    run = {"LOGS": str(job), "OUTPUT": str(tmp_path / "site.gpkg"), **given}
    algorithm.run(run, QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False)
    field, value = setting
    assert getattr(made_core[0][1], field) == (pytest.approx(value) if isinstance(value, float) else value)
