# SPDX-License-Identifier: GPL-2.0-or-later
"""The words of the toolbox: those that the window shows, and one for one thing."""

from __future__ import annotations

import re

import pytest
from qgis.core import QgsProcessingContext, QgsProcessingFeedback, QgsVectorLayer

from plugin.processing.provider import ALGORITHMS

WORDS_ALLOWED = frozenset({"CRS", "DXF"})
"""Ids of parameters that are words of the trade too."""
names = pytest.mark.parametrize("name", sorted(algorithm.NAME for algorithm in ALGORITHMS))


def labels(algorithm) -> list[str]:
    definitions = (*algorithm.parameterDefinitions(), *algorithm.outputDefinitions())
    return [one.description() for one in definitions]


def helps(algorithm) -> list[str]:
    return [algorithm.shortHelpString(), *(one.help() for one in algorithm.parameterDefinitions())]


@names
def test_helps_name_things_by_what_the_window_shows(name, provider):
    algorithm = provider.algorithm(name)
    ids = {one.name() for one in (*algorithm.parameterDefinitions(), *algorithm.outputDefinitions())}
    assert len(ids) > 1
    named = {word for text in helps(algorithm) for word in re.findall(r"\b[A-Z][A-Z_]+\b", text)}
    assert named & ids - WORDS_ALLOWED == set()


@names
def test_a_rate_is_per_something(name, provider):
    wrong = re.compile(
        r"\b(metres?|m|m2|m3|tonnes|grams|loose|compacted|volume|dig|plants?) by (cubic|square|metre|bank|laid)",
        re.I,
    )
    algorithm = provider.algorithm(name)
    assert [text for text in (*labels(algorithm), *helps(algorithm)) if wrong.search(text)] == []


@names
def test_what_cannot_tell_is_called_so(name, provider):
    algorithm = provider.algorithm(name)
    wrong = re.compile(r"nobody can tell|no one can tell|cannot be told", re.I)
    assert [text for text in (*labels(algorithm), *helps(algorithm)) if wrong.search(text)] == []


@names
def test_what_a_layer_has_is_called_a_field(name, provider):
    for one in provider.algorithm(name).parameterDefinitions():
        if one.type() == "field":
            assert re.search(r"\bfield\b", one.description(), re.I), one.description()
            assert "column" not in one.description().lower()


def test_a_path_of_one_line_has_its_width_in_the_same_words(provider):
    said = {
        provider.algorithm(name).parameterDefinition("WIDTH").description()
        for name in ("check_limits", "measure_gradients")
    }
    assert said == {"Width of a path drawn as one line, metres"}


class Log(QgsProcessingFeedback):
    def __init__(self):
        super().__init__()
        self.said: list[str] = []

    def pushInfo(self, text):
        self.said.append(text)


def test_the_log_names_a_parameter_by_its_label(provider):
    fields = "".join(
        f"&field={name}:string" for name in ("walk", "feature", "part", "method", "sigma_from", "finding")
    )
    layer = QgsVectorLayer(
        f"LineStringZ?crs=EPSG:25831{fields}&field=height_noted_m:double", "lengths", "memory"
    )
    log = Log()
    algorithm = provider.algorithm("measure_walls").create()
    _, good = algorithm.run({"INPUT": layer, "OUTPUT": "memory:"}, QgsProcessingContext(), log)
    assert good
    assert log.said[0] == (
        "Height of a wall without a top line is not given: sizes noted on site are taken from the field height_noted_m."
    )
