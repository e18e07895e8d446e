# SPDX-License-Identifier: GPL-2.0-or-later
"""What every algorithm of the provider keeps to."""

from __future__ import annotations

from pathlib import Path

import pytest
from qgis.core import (
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProcessingOutputLayerDefinition,
)

from plugin.bridge.resources import icon_path
from plugin.processing.provider import ALGORITHMS

ROOT = Path(__file__).parents[2]
SHARED = {"__init__", "algorithm", "layers", "loaded", "outputs", "parameters", "prepared", "provider"}
GROUPS = {"walks": "Walks", "measure": "Measure", "register": "Register"}
ON_LAYERS = {"plan_walk"}
"""Of the walks' group, what is given layers and no logs."""
BY_NAME = {algorithm.NAME: algorithm for algorithm in ALGORITHMS}
names = pytest.mark.parametrize("name", sorted(BY_NAME))


def outputs(algorithm, folder: Path) -> dict[str, object]:
    """A place for each of an algorithm's outputs."""
    places = {}
    for parameter in algorithm.destinationParameterDefinitions():
        ending = "gpkg" if parameter.name() == "OUTPUT" else "csv"
        places[parameter.name()] = str(folder / f"{parameter.name().lower()}.{ending}")
    return places


def test_every_file_is_one_algorithm_and_its_id_is_the_files_name(provider):
    files = {path.stem for path in (ROOT / "plugin" / "processing").glob("*.py")} - SHARED
    assert {algorithm.name() for algorithm in provider.algorithms()} == files
    assert {algorithm.id() for algorithm in provider.algorithms()} == {
        f"groundtally:{name}" for name in files
    }


@names
def test_it_has_label_group_help_and_icon(name, provider):
    algorithm = provider.algorithm(name)
    assert algorithm.displayName()[0].isupper()
    assert algorithm.group() == GROUPS[algorithm.groupId()]
    assert len(algorithm.shortHelpString()) > 200
    assert Path(icon_path(name)).exists()
    assert not algorithm.icon().isNull()


@names
def test_every_parameter_is_named_in_capitals_and_labelled(name, provider):
    for parameter in provider.algorithm(name).parameterDefinitions():
        assert parameter.name() == parameter.name().upper()
        assert parameter.description()[0].isupper()


@names
def test_a_clone_has_the_same_parameters(name, provider):
    algorithm = provider.algorithm(name)
    clone = algorithm.create()
    assert type(clone) is type(algorithm)
    assert [p.name() for p in clone.parameterDefinitions()] == [
        p.name() for p in algorithm.parameterDefinitions()
    ]


@names
def test_no_run_leaves_anything_on_the_algorithm(name, provider, given, tmp_path):
    algorithm = provider.algorithm(name).create()
    before = dict(vars(algorithm))
    results, was_good = algorithm.run(
        {**given(name)[0], **outputs(algorithm, tmp_path)}, QgsProcessingContext(), QgsProcessingFeedback()
    )
    assert was_good
    assert vars(algorithm) == before
    assert results


@names
def test_the_inputs_are_untouched(name, provider, given, tmp_path):
    inputs, files = given(name)
    before = [path.read_bytes() for path in files]
    algorithm = provider.algorithm(name).create()
    algorithm.run({**inputs, **outputs(algorithm, tmp_path)}, QgsProcessingContext(), QgsProcessingFeedback())
    assert [path.read_bytes() for path in files] == before


@pytest.mark.parametrize(
    "name", [name for name in sorted(BY_NAME) if BY_NAME[name].GROUP == "walks" and name not in ON_LAYERS]
)
@pytest.mark.parametrize(
    ("logs", "words"),
    [
        ("nowhere.csv", "nowhere.csv is not there. Check the name, or choose the file again."),
        ("empty", "empty holds no text files. Give the folder that the logs lie in."),
    ],
)
def test_what_is_not_there_is_told_and_nothing_is_written(name, logs, words, provider, tmp_path):
    (tmp_path / "empty").mkdir()
    (tmp_path / "out").mkdir()
    algorithm = provider.algorithm(name).create()
    given = {"LOGS": [str(tmp_path / logs)], **outputs(algorithm, tmp_path / "out")}
    with pytest.raises(QgsProcessingException, match=words.replace(".", r"\.")):
        algorithm.run(given, QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False)
    assert list((tmp_path / "out").iterdir()) == []


@names
def test_it_stops_when_cancelled_and_writes_nothing(name, provider, given, tmp_path):
    (tmp_path / "out").mkdir()
    algorithm = provider.algorithm(name).create()
    feedback = QgsProcessingFeedback()
    feedback.cancel()
    with pytest.raises(QgsProcessingException, match="Cancelled; nothing was written."):
        algorithm.run(
            {**given(name)[0], **outputs(algorithm, tmp_path / "out")},
            QgsProcessingContext(),
            feedback,
            {},
            catchExceptions=False,
        )
    assert list((tmp_path / "out").iterdir()) == []


@names
def test_any_one_output_is_enough(name, provider, given, tmp_path):
    algorithm = provider.algorithm(name).create()
    places, inputs = outputs(algorithm, tmp_path), given(name)[0]
    for one, place in places.items():
        results, was_good = algorithm.run(
            {**inputs, one: place}, QgsProcessingContext(), QgsProcessingFeedback()
        )
        assert was_good
        assert results[one] == place
        assert not set(places) - {one} & set(results)
        assert not any(isinstance(value, QgsProcessingOutputLayerDefinition) for value in results.values())


@names
def test_a_run_that_would_write_nothing_is_refused(name, provider, given):
    algorithm = provider.algorithm(name).create()
    ok, why = algorithm.checkParameterValues(given(name)[0], QgsProcessingContext())
    if not ok:
        assert why in (
            "Incorrect parameter value for OUTPUT",
            "Could not create destination layer for OUTPUT: no value specified for parameter",
        )
        return
    with pytest.raises(
        QgsProcessingException, match=r"No output is chosen\. Choose one or more of: [A-Z][A-Za-z, ]+\.$"
    ):
        algorithm.run(
            given(name)[0], QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False
        )
