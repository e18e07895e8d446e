# SPDX-License-Identifier: GPL-2.0-or-later
"""Sizes noted on site, from a log through the survey's GeoPackage to the algorithms that take them."""

from __future__ import annotations

from pathlib import Path

import pytest
from qgis.core import QgsProcessingContext, QgsProcessingFeedback, QgsProject, QgsVectorLayer

from tests.processing.layers import rows_of

DEMO = Path(__file__).parents[2] / "resources" / "demo"
X, Y, FOOT, V = 500000, 5600000, 0.3048, 1


class Heard(QgsProcessingFeedback):
    """What a run says."""

    def __init__(self):
        super().__init__()
        self.said = []

    def pushInfo(self, text):
        self.said.append(text)

    def pushWarning(self, text):
        self.said.append(text)


def run(provider, layer, feedback=None, name="measure_trenches", **parameters):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    given = {"INPUT": layer, "OUTPUT": "memory:", **parameters}
    results, good = provider.algorithm(name).create().run(given, context, feedback or QgsProcessingFeedback())
    assert good
    return rows_of(context.takeResultLayer(str(results["OUTPUT"])))


LOG = """# units: ft
# crs: EPSG:32631
walk,station,x,y,z,time,hold_s,feature,geometry,leg,width,depth,height,stem_d,invert,part
W1,1,{a},{y},10,0,1,Trench,length,,2,2,,,,
W1,2,{b},{y},10,10,1,Trench,length,,2,4,,,,
W1,3,{c},{y},10,20,1,Wall,length,,,,1.5,,,
W1,4,{d},{y},10,30,1,Wall,length,,,,1.5,,,
W1,5,{d},{z},10,40,1,Oak,spot,,,,,1.25,,
W1,6,{a},{z},10,50,1,Pipe,length,,2,,,,6,
W1,7,{b},{z},10,60,1,Pipe,length,,,,,,5,
"""


@pytest.fixture(scope="module")
def noted(groundtally, tmp_path_factory):
    """A survey in feet with sizes noted on site."""
    folder = tmp_path_factory.mktemp("noted")
    places = {"a": X, "b": X + 30, "c": X + 40, "d": X + 60, "y": Y, "z": Y + 20}
    (folder / "w.csv").write_text(LOG.format(**places), encoding="utf-8")
    path = folder / "noted.gpkg"
    _, good = (
        groundtally.algorithm("survey_walks")
        .create()
        .run(
            {"LOGS": [str(folder / "w.csv")], "OUTPUT": str(path)},
            QgsProcessingContext(),
            QgsProcessingFeedback(),
        )
    )
    assert good
    return groundtally, path


def table(path, name, where):
    layer = QgsVectorLayer(f"{path}|layername={name}", name, "ogr")
    assert layer.setSubsetString(where)
    return layer


def test_a_surveys_lengths_bring_their_sizes(noted):
    provider, path = noted
    heard = Heard()
    (row,) = run(provider, table(path, "lengths", "feature = 'Trench'"), heard, SIZE_SIGMA=0)
    assert any(
        "taken from sizes noted on site, in the columns width_m, depth_m, invert_m" in said
        for said in heard.said
    )
    assert (row["width_m"], row["depth_m"]) == (pytest.approx(2 * FOOT), None)
    assert row["volume_m3"] == pytest.approx(2 * FOOT * 3 * FOOT * row["length_m"], rel=1e-6)
    assert (row["depth_min_m"], row["depth_max_m"]) == pytest.approx((2 * FOOT, 4 * FOOT))
    assert row["path_m_sigma"] == pytest.approx(row["length_m_sigma"], rel=0.02)
    (row,) = run(provider, table(path, "lengths", "feature = 'Pipe'"), SIZE_SIGMA=0)
    assert (row["depth_min_m"], row["depth_max_m"]) == pytest.approx((4 * FOOT, 5 * FOOT), abs=1e-3)
    trench = table(path, "lengths", "feature = 'Trench'")
    (row,) = run(provider, trench, INVERT_START=2.0, INVERT_END=2.0, SIZE_SIGMA=0)
    assert row["depth_mean_m"] == pytest.approx(10 * FOOT - 2.0, abs=1e-3)
    (row,) = run(provider, trench, DEPTH=1.0, WIDTH=0.5, INVERT_START=2.0, INVERT_END=2.0)
    assert row["section_m2"] == pytest.approx(0.5)


def test_the_other_algorithms_take_their_sizes_from_a_survey_too(noted):
    provider, path = noted

    def first(name, layer, **more):
        (row,) = run(provider, layer, name=name, **more)
        return row

    wall = table(path, "lengths", "feature = 'Wall'")
    assert first("measure_walls", wall)["height_mean_m"] == pytest.approx(1.5 * FOOT)
    assert first("measure_walls", wall, WALL_HEIGHT=2.0)["height_mean_m"] == pytest.approx(2.0)
    oak = table(path, "spots", "feature = 'Oak'")
    assert first("protect_trees", oak)["radius_m"] == pytest.approx(12 * 1.25 * FOOT)
    assert first("protect_trees", oak, STEM=0.1)["radius_m"] == pytest.approx(1.2)
    # A width is a profile's alone: of a trench it says nothing of a face.
    trench = table(path, "lengths", "feature = 'Trench'")
    assert first("measure_faces", trench)["finding_2"] == (
        "GE-07: The face has no width above 0. Give its width, or draw its other edge."
    )


def test_the_demos_swale_is_what_it_was_made(groundtally, tmp_path):
    """V-shaped, 1.8 m wide and 0.3 m deep as noted: 19.111 m, 34.400 m2, 5.160 m3 and 36.261 m2."""
    path = tmp_path / "yard.gpkg"
    _, good = (
        groundtally.algorithm("survey_walks")
        .create()
        .run(
            {"LOGS": [str(DEMO / "marlisk_yard")], "OUTPUT": str(path)},
            QgsProcessingContext(),
            QgsProcessingFeedback(),
        )
    )
    assert good
    (row,) = run(groundtally, table(path, "lengths", "feature = 'Swale'"), SECTION=V, SIZE_SIGMA=0)
    assert row["sigma_from_2"] == "instruments"
    for column, true in (("path_m", 19.111), ("plan_m2", 34.400), ("volume_m3", 5.160), ("face_m2", 36.261)):
        assert abs(row[column] - true) < 2.5 * row[f"{column}_sigma"]
        assert row[f"{column}_sigma"] < 0.005 * true
    assert row["depth_mean_m_sigma"] == pytest.approx(0.0, abs=1e-12)
