# SPDX-License-Identifier: GPL-2.0-or-later
"""The provider in the host's registry, and a job on the disk."""

from __future__ import annotations

import pytest
from qgis.core import QgsApplication

from plugin.processing import parameters
from plugin.processing.provider import Provider
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

    monkeypatch.setattr(parameters, "survey_files", survey_files)
    return asked


SQUARES = ["POLYGON((3 51,3.001 51,3.001 51.001,3 51.001,3 51))", "POLYGON((3 52,3.001 52,3 52.001,3 52))"]
LINES = ["LINESTRING(3 51,3.001 51,3.001 51.001)", "LINESTRING(3 52,3.001 52)"]
WALKS = ["LINESTRING(3 51,3.0003 51,3.0003 51.0002,3 51.0002,3 51)"]
TAKES = {"measure_areas": SQUARES, "measure_lengths": LINES, "fit_arcs": LINES, "plan_walk": WALKS}
"""What an algorithm on layers is given."""


@pytest.fixture
def given(job, made_core, tmp_path):
    """By an algorithm's name: what it is given, and the files that it may not touch."""

    def inputs(name):
        if name not in TAKES:
            return {"LOGS": [str(job)]}, sorted(job.iterdir())
        path = write_layer(tmp_path / "layer.gpkg", TAKES[name], "EPSG:4326")
        return {"INPUT": str(path)}, [path]

    return inputs
