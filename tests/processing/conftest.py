# SPDX-License-Identifier: GPL-2.0-or-later
"""The provider in the host's registry, and a job on the disk."""

from __future__ import annotations

from pathlib import Path

import pytest
from qgis.core import QgsApplication

from plugin.processing.provider import Provider
from plugin.processing.runs import job as job_run
from tests.made_survey import made_survey
from tests.processing.layers import write_layer

LOG = """# units: m
walk,station,x,y,z,time,hold_s,feature,geometry,leg,mark
W1,1,0,0,85.0,0,1,,,,A
W1,2,10,0,84.9,10,1,Court,area,,
W1,3,10,5,84.8,20,1,Court,area,,
W1,4,0,5,84.9,30,1,Court,area,,
"""
CONTROL = "# crs: EPSG:25831\nmark,x,y,z,sd_xy,use\nA,512340.0,5712850.0,84.0,0.02,fit\n"


@pytest.fixture
def provider(qgis_app, qgis_processing):
    """Ours in the registry, and out again."""
    ours = Provider()
    registry = QgsApplication.processingRegistry()
    assert registry.addProvider(ours)
    yield ours
    registry.removeProvider(ours)


@pytest.fixture
def job(tmp_path):
    """A folder with a log, its control and a note."""
    folder = tmp_path / "job"
    folder.mkdir()
    (folder / "w1.csv").write_text(LOG, encoding="utf-8")
    (folder / "control.csv").write_text(CONTROL, encoding="utf-8")
    (folder / "notes.md").write_text("# not a log\n", encoding="utf-8")
    return folder


@pytest.fixture
def made_core(monkeypatch):
    """The made survey in place of the core's answer; what the core was asked is kept."""
    asked = []

    def survey_files(files, settings, progress):
        asked.append((dict(files), settings))
        progress(0.5, "Adjusting")
        return made_survey(settings.crs or "EPSG:25831")

    monkeypatch.setattr(job_run, "survey_files", survey_files)
    return asked


SQUARES = ["POLYGON((3 51,3.001 51,3.001 51.001,3 51.001,3 51))", "POLYGON((3 52,3.001 52,3 52.001,3 52))"]
LINES = ["LINESTRING(3 51,3.001 51,3.001 51.001)", "LINESTRING(3 52,3.001 52)"]
WALKS = ["LINESTRING(3 51,3.0003 51,3.0003 51.0002,3 51.0002,3 51)"]
GROUND = [
    "POLYGON Z((3 51 9,3.001 51 8,3 51.001 9,3 51 9))",
    "POLYGON Z((3.001 51 8,3.001 51.001 9,3 51.001 9,3.001 51 8))",
]
FLAT = [
    text.replace(" 9,", " 8.6,").replace(" 8,", " 8.6,").replace(" 9)", " 8.6)").replace(" 8)", " 8.6)")
    for text in GROUND
]
LEVELS = ["POINT Z(3 51 9)", "POINT Z(3.001 51 8)", "POINT Z(3 51.001 9)", "POINT Z(3.001 51.001 9)"]
ACROSS = ["LINESTRING(3.0002 51.0003,3.0004 51.0003)"]
PIT = [
    f"POLYGON Z((3.0005 51.0005 8,{a},{b},3.0005 51.0005 8))"
    for a, b in (
        ("3 51 9", "3.001 51 8.5"),
        ("3.001 51 8.5", "3.001 51.001 9"),
        ("3.001 51.001 9", "3 51.001 9"),
        ("3 51.001 9", "3 51 9"),
    )
]
SLOPES = [
    "POLYGON Z((3 51 9,3.0001 51 9,3.0001 51.0001 9.5,3 51 9))",
    "POLYGON Z((3 52 9,3.0001 52 9,3 52.0001 8.5,3 52 9))",
]
RISING = ["LINESTRING Z(3 51 1,3.0001 51 1.5)", "LINESTRING Z(3 52 1,3.0001 52 1)"]
TREES = ["POINT(3 51)", "POINT(3.001 51)"]
TAKES = {
    "measure_areas": SQUARES,
    "measure_lengths": LINES,
    "fit_arcs": LINES,
    "plan_walk": WALKS,
    "measure_faces": LINES,
    "measure_walls": LINES,
    "measure_slabs": SQUARES,
    "measure_strips": LINES,
    "measure_trenches": LINES,
    "protect_trees": TREES,
    "count_planting": SQUARES,
    "build_surface": {"INPUT_POINTS": LEVELS},
    "measure_volumes": {"SURFACE": GROUND, "TO_SURFACE": FLAT},
    "measure_gradients": SLOPES,
    "check_limits": {"PATHS": RISING},
    "find_low_points": {"SURFACE": PIT},
    "compare_surveys": {"BEFORE": GROUND, "AFTER": FLAT},
    "cut_sections": {"SURFACES": (GROUND, FLAT), "BASELINE": ACROSS},
}
"""What an algorithm on layers is given: as INPUT, or by parameter, several layers in one."""


@pytest.fixture
def given(job, made_core, tmp_path):
    """By an algorithm's name: what it is given, and the files that it may not touch."""

    def inputs(name):
        if name not in TAKES:
            return {"LOGS": [str(job)]}, sorted(job.iterdir())
        takes = TAKES[name] if isinstance(TAKES[name], dict) else {"INPUT": TAKES[name]}
        whole = {key: texts if isinstance(texts, tuple) else (texts,) for key, texts in takes.items()}
        paths = {
            key: [
                str(write_layer(tmp_path / f"{key.lower()}{k}.gpkg", t, "EPSG:4326"))
                for k, t in enumerate(each)
            ]
            for key, each in whole.items()
        }
        values = {key: some if isinstance(takes[key], tuple) else some[0] for key, some in paths.items()}
        return values, [Path(path) for some in paths.values() for path in some]

    return inputs
