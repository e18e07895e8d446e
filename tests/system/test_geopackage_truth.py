# SPDX-License-Identifier: GPL-2.0-or-later
"""Logs without any error give every true size to 1e-6 through survey_walks and the GeoPackage it writes."""

from __future__ import annotations

import pytest

from scripts.demo_jobs import make_job, true_sizes
from scripts.demo_jobs.compare import compare
from scripts.demo_report import find_place, read_figures


@pytest.fixture(scope="module", params=["marlisk_yard", "sorrelback_lane"])
def written(request, tmp_path_factory, groundtally):
    import processing

    folder = tmp_path_factory.mktemp(request.param)
    for name, text in make_job(request.param, 1, noise=False, digits=None).items():
        (folder / name).write_text(text, encoding="utf-8")
    output = folder / "out" / "site.gpkg"
    output.parent.mkdir()
    processing.run("groundtally:survey_walks", {"LOGS": [str(folder)], "OUTPUT": str(output)})
    return request.param, output


def test_every_true_size_is_in_the_geopackage(written):
    site, path = written
    truths = [t for t in true_sizes(site) if not t.column.startswith("map_")]
    rows = compare(truths, read_figures(path))
    assert len(rows) > 25
    for row in rows:
        assert row.found is not None, row.truth
        true = row.truth.value if row.truth.recorded is None else row.truth.recorded
        tolerance = 1e-6 * max(abs(true), 1.0 if row.truth.column.endswith(("_m", "_ratio")) else 1e-3)
        assert row.found.value == pytest.approx(true, abs=tolerance), row.truth


def test_every_true_place_is_in_the_geopackage(written):
    import numpy as np

    site, path = written
    places = {}
    for t in true_sizes(site):
        if t.column.startswith("map_"):
            places.setdefault((t.table, t.feature, t.part), {})[t.column] = t.value
    assert len(places) >= 3
    for (table, name, part), xy in places.items():
        true = np.array([xy["map_x"], xy["map_y"]])
        found = find_place(path, table, name, true)
        assert found is not None, (name, part)
        # Map units; the plane stands at the level mark's height and not at the site's mean ground.
        assert found[0] == pytest.approx(true, abs=2e-5), (name, part)
