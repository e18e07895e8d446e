# SPDX-License-Identifier: GPL-2.0-or-later
"""Comparisons as layers: surveys, surfaces, the summary, and what is refused."""

from __future__ import annotations

import re
import shutil

import pytest
from qgis.core import (
    QgsDistanceArea,
    QgsFeatureRequest,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProject,
    QgsVectorLayer,
)

from plugin.bridge.compared_surveys import instrument_facts
from plugin.bridge.geopackage import write_survey
from plugin.processing.provider import Provider
from scripts.changes import walk
from tests.processing.layers import rows_of
from tests.processing.test_measure_volumes import slab, surface_layer


@pytest.fixture(scope="module")
def files(qgis_app, tmp_path_factory):
    """Before, after (unchanged), and with the hollow."""
    folder = tmp_path_factory.mktemp("surveys")
    walked = {"before": walk(5, 0.0), "same": walk(1_000_005, 0.0), "hollow": walk(1_000_005, 0.05)}
    return {
        name: str(write_survey(survey, folder / f"{name}.gpkg", None, instrument_facts(survey)))
        for name, survey in walked.items()
    }


class Told(QgsProcessingFeedback):
    def __init__(self):
        super().__init__()
        self.warnings = []

    def pushWarning(self, text):
        self.warnings.append(text)


def run(provider, folder, given):
    algorithm = provider.algorithm("compare_surveys").create()
    assert isinstance(provider, Provider)
    folder.mkdir(exist_ok=True)
    places = {name: str(folder / f"{name.lower()}.gpkg") for name in ("OUTPUT", "CHANGED", "SUMMARY")}
    context, told = QgsProcessingContext(), Told()
    context.setProject(QgsProject.instance())
    results, good = algorithm.run({**places, **given}, context, told, {}, catchExceptions=False)
    assert good
    return results, told.warnings


def test_a_hollow_is_a_patch_its_spots_are_changed_and_all_else_is_not(provider, tmp_path, files):
    results, warnings = run(provider, tmp_path, {"BEFORE": files["before"], "AFTER": files["hollow"]})
    rows = rows_of(results["OUTPUT"])
    changed = {row["feature"] for row in rows if row["outcome"] == "changed"}
    assert changed == {"Patch 1", *(f"Hollow {k}" for k in range(1, 10))}
    assert results["CHANGES"] == 10
    (patch,) = [row for row in rows if row["kind"] == "patch"]
    assert patch["height_change_m"] == pytest.approx(-0.05, abs=3 * patch["height_change_m_sigma"])
    assert patch["height_change_m_sigma"] < 0.01
    assert patch["volume_change_m3"] == pytest.approx(patch["height_change_m"] * patch["ground_m2"])
    assert (patch["told_by"], patch["p"] < 1e-4) == ("height", True)
    assert warnings == []


def test_a_row_has_its_figures_before_and_after_their_change_and_what_would_have_been_seen(
    provider, tmp_path, files
):
    results, _ = run(provider, tmp_path, {"BEFORE": files["before"], "AFTER": files["same"]})
    rows = {(row["kind"], row["feature"], row["part"]): row for row in rows_of(results["OUTPUT"])}
    court = rows["areas", "Paved court", None]
    assert court["area_change_m2"] == pytest.approx(court["area_after_m2"] - court["area_before_m2"])
    assert (court["outcome"], court["told_by"], court["area_p"]) == ("same", None, 1.0)
    assert court["area_seen_m2"] > 3 * court["area_change_m2_sigma"]
    assert court["length_before_m"] is None
    level = rows["spots", "Level 01", None]
    assert level["height_after_m"] > 80.0
    assert level["moved_m"] is None  # nobody stands on a level's very place again
    assert results["CHANGES"] == 0
    assert rows_of(results["CHANGED"]) == []


def test_the_summary_counts_and_tells_how_the_one_lies_on_the_other(provider, tmp_path, files):
    results, _ = run(provider, tmp_path, {"BEFORE": files["before"], "AFTER": files["same"]})
    (row,) = rows_of(results["SUMMARY"])
    counts = [row[name] for name in ("same", "changed", "cannot_tell", "added", "gone", "patches")]
    assert sum(counts) == len(rows_of(results["OUTPUT"]))
    assert counts[1] == counts[3] == counts[4] == counts[5] == 0
    # Two pictures of 0.1 m each along each axis.
    assert row["shift_m_sigma"] == pytest.approx(0.149, abs=0.003)
    assert row["shift_m"] < 3 * row["shift_m_sigma"]
    assert row["level_ratio"] == 0.01


def test_what_changed_lies_where_it_is_on_the_map(provider, tmp_path, files):
    results, _ = run(provider, tmp_path, {"BEFORE": files["before"], "AFTER": files["hollow"]})
    layer = QgsVectorLayer(results["CHANGED"], "changed", "ogr")
    assert layer.crs().authid() == "EPSG:25831"
    (patch,) = [f for f in layer.getFeatures() if f["kind"] == "patch"]
    (row,) = [row for row in rows_of(results["OUTPUT"]) if row["kind"] == "patch"]
    measure = QgsDistanceArea()
    assert measure.measureArea(patch.geometry()) == pytest.approx(row["ground_m2"], rel=2e-3)
    assert patch["change"] == f"height {row['height_change_m']:+.3f} m"
    spots = [f for f in layer.getFeatures() if f["kind"] == "spots"]
    assert all(patch.geometry().buffer(0.3, 8).contains(f.geometry().centroid()) for f in spots)
    assert len(spots) == 9


def test_the_other_way_round_what_sank_has_risen(provider, tmp_path, files):
    results, _ = run(provider, tmp_path, {"BEFORE": files["hollow"], "AFTER": files["before"]})
    (patch,) = [row for row in rows_of(results["OUTPUT"]) if row["kind"] == "patch"]
    assert patch["height_change_m"] == pytest.approx(0.05, abs=3 * patch["height_change_m_sigma"])


def test_a_survey_without_its_instrument_is_compared_and_the_log_says_so(provider, tmp_path, files):
    import sqlite3
    from contextlib import closing

    old = tmp_path / "old.gpkg"
    shutil.copy(files["before"], old)
    with closing(sqlite3.connect(old)) as database, database:
        database.execute("DELETE FROM runs")
    results, warnings = run(provider, tmp_path, {"BEFORE": str(old), "AFTER": files["same"]})
    assert results["CHANGES"] == 0
    assert warnings == [
        (
            "What heights are worth against each other is assumed for: old.gpkg: W1, old.gpkg: W2, old.gpkg: W3, old.gpkg: W4. "
            "Make these surveys again to have it kept."
        )
    ]
    assert rows_of(results["OUTPUT"])[0]["method"].endswith("; heights assumed")


def test_a_step_of_all_heights_is_told_once_and_both_volumes_are_there(provider, tmp_path):
    before = surface_layer(tmp_path, "before", slab(1.0))
    after = surface_layer(tmp_path, "after", slab(1.4))
    results, warnings = run(provider, tmp_path, {"BEFORE": before, "AFTER": after})
    (row,) = rows_of(results["OUTPUT"])
    assert (row["kind"], row["volume_change_m3"]) == ("ground", pytest.approx(0.0, abs=1e-6))
    assert row["volume_with_step_m3"] == pytest.approx(0.4 * row["ground_m2"])
    assert row["height_change_m"] == pytest.approx(0.4)
    assert row["outcome"] == "cannot tell"
    assert results["CHANGES"] == 0
    assert warnings == [
        (
            "All heights differ by +0.400 m, more than both account for. Either the ground was raised or lowered all over, "
            "or one of the two hangs on another bench mark: this comparison cannot tell which. The row has the volume of both: "
            f"0.00 m3 without the step, {0.4 * row['ground_m2']:.2f} m3 with it. Check the level marks and the datums."
        )
    ]


@pytest.mark.parametrize("level", [0.0009, 21.0])
def test_a_level_that_is_none_is_refused(level, provider, tmp_path, files):
    given = {"BEFORE": files["before"], "AFTER": files["same"], "LEVEL": level, "OUTPUT": "memory:"}
    ok, _ = provider.algorithm("compare_surveys").checkParameterValues(given, QgsProcessingContext())
    assert not ok


def refused(provider, folder, given, words):
    with pytest.raises(QgsProcessingException, match=re.escape(words)):
        run(provider, folder, given)


def test_what_cannot_be_compared_is_refused_with_what_to_do(provider, tmp_path, files):
    surface = surface_layer(tmp_path, "slab", slab(1.0))
    refused(
        provider,
        tmp_path,
        {"BEFORE": files["before"], "AFTER": surface},
        f"{files['before']} is a survey and {surface} is none. Give two surveys, or two surfaces.",
    )
    gone = str(tmp_path / "gone.gpkg")
    refused(
        provider,
        tmp_path,
        {"BEFORE": gone, "AFTER": surface},
        f"{gone} is not there, or is neither a survey nor a surface. Choose a GeoPackage that Survey walks or Build surface "
        "has written, or another file or layer of triangles with heights.",
    )
    copy = str(tmp_path / "copy.gpkg")
    shutil.copy(files["before"], copy)
    refused(
        provider,
        tmp_path,
        {"BEFORE": copy, "AFTER": files["same"], "OUTPUT": copy},
        f"{copy} holds the layer that is read, and would be replaced. Choose another file or table for the output.",
    )


def test_layers_of_the_project_are_taken_as_their_files_are(provider, tmp_path, files):
    """A designer has both surveys open, and a surface that was never saved."""
    project = QgsProject.instance()
    whole, _ = run(provider, tmp_path / "a", {"BEFORE": files["before"], "AFTER": files["hollow"]})
    layers = [
        QgsVectorLayer(f"{files[name]}|layername={table}", f"{name} {table}", "ogr")
        for name, table in (("before", "areas"), ("hollow", "stations"))
    ]
    project.addMapLayers(layers)
    try:
        given = {"BEFORE": layers[0].id(), "AFTER": layers[1]}
        by_layer, _ = run(provider, tmp_path / "b", given)
    finally:
        project.removeMapLayers([layer.id() for layer in layers])
    assert rows_of(by_layer["OUTPUT"]) == rows_of(whole["OUTPUT"])


def test_a_surface_in_memory_is_compared(provider, tmp_path):
    earlier, later = (
        surface_layer(tmp_path, "earlier", slab(1.0)),
        surface_layer(tmp_path, "later", slab(1.4)),
    )
    copy = QgsVectorLayer(later, "later", "ogr").materialize(QgsFeatureRequest())
    assert copy.dataProvider().name() == "memory"
    told = [
        run(provider, tmp_path / str(k), {"BEFORE": earlier, "AFTER": after})[0]["OUTPUT"]
        for k, after in enumerate((later, copy))
    ]
    # each row but its name, which is the layer's
    from_file, from_memory = ([{**row, "feature": ""} for row in rows_of(path)] for path in told)
    assert from_memory == from_file
    assert [row["kind"] for row in from_memory][:1] == ["ground"]
