# SPDX-License-Identifier: GPL-2.0-or-later
"""The batch: forty plots of many sizes, each measured against its own truth; six faults, each found and alone."""

from __future__ import annotations

import csv
import io
import json
import math
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from plugin.core.findings import Severity
from plugin.core.measure.chain import survey_files
from scripts.demo_jobs import find_site, make_batch
from scripts.demo_jobs.batch import FAULTY, scale_site, scale_truth
from scripts.demo_jobs.compare import compare, figures_of_rows, tables_of

ROOT = Path(__file__).resolve().parents[2]
INTENDED = "GE-02"
"""The yard's shared edges are asked about by intention."""
NO_FIGURE_IS_SO_FAR = 4.5
"""Sigmas: one figure in 150,000 is farther off in a right model, and the batch has 5,000."""


@pytest.fixture(scope="module")
def batch():
    return make_batch()


@pytest.fixture(scope="module")
def surveys(batch):
    return [survey_files({name: text.encode() for name, text in plot.files.items()}) for plot in batch]


def open_findings(survey):
    return [f for f in survey.findings if f.is_open and f.code != INTENDED]


def test_forty_plots_have_names_sizes_and_turns_of_their_own_and_six_are_faulty(batch):
    assert [plot.name for plot in batch] == [f"Plot {i:02d}" for i in range(1, 41)]
    assert len({plot.site.folder for plot in batch}) == len({plot.site.anchor for plot in batch}) == 40
    factors = np.array([plot.factor for plot in batch])
    turns = np.array([plot.site.turn_deg for plot in batch])
    assert 0.7 <= factors.min() < 0.8
    assert 1.3 < factors.max() <= 1.4
    assert turns.min() < 60.0
    assert turns.max() > 300.0
    assert sum(plot.expected is not None for plot in batch) == len(FAULTY) == 6
    codes = {plot.expected.code for plot in batch if plot.expected}
    assert codes == {"TI-03", "IN-03", "TI-01", "WK-02", "WK-01", "IN-05"}


def test_the_same_seed_gives_the_same_batch_and_another_seed_another(batch):
    assert [plot.files for plot in make_batch()] == [plot.files for plot in batch]
    assert all(a.files != b.files for a, b in zip(make_batch(2), batch))


def test_a_copy_is_similar_to_the_yard_in_space():
    """Twice as large and turned by a quarter more: 4 x 253.563 m2 of court, 2 x 41.925 m of kerb, the same fall
    of 1:74.3 to a bearing a quarter less; BM1 lies 0.610 m above 84.200, so twice that."""
    yard = find_site("marlisk_yard")
    truths = {(t.table, t.feature, t.part, t.column): t for t in scale_truth(2.0, yard.turn_deg + 90.0)}
    assert truths["areas", "Paved court", "", "area_m2"].value == pytest.approx(1014.252, abs=0.002)
    assert truths["lengths", "Kerb", "", "length_m"].value == pytest.approx(83.850, abs=0.001)
    assert 1.0 / truths["areas", "Paved court", "", "fall_ratio"].value == pytest.approx(74.3, abs=0.03)
    # The court falls along (0.0125, 0.005): 21.801 deg from x, at a turn of 117.5 deg.
    bearing = truths["areas", "Paved court", "", "fall_bearing_deg"].value
    assert bearing == pytest.approx((90.0 - 21.801 - 117.5) % 360.0, abs=0.001)
    assert truths["marks", "BM1", "", "z_m"].value == pytest.approx(84.200 + 2.0 * 0.610, abs=1e-9)
    site = scale_site(0, 2.0, yard.turn_deg + 90.0)
    a, b = site.to_map(*site.marks["A"][:2]), site.to_map(*site.marks["B"][:2])
    assert math.dist(a, b) == pytest.approx(48.0 * 0.99958869, abs=1e-9)
    assert math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) == pytest.approx(117.5, abs=1e-6)


def test_the_logs_of_a_plot_are_as_large_as_its_factor_says(batch):
    for plot in batch[:5]:
        rows = [
            row
            for row in csv.DictReader(
                io.StringIO("\n".join(x for x in plot.files["walk_4.csv"].splitlines() if x[0] != "#"))
            )
            if row["mark"] in ("A", "B")
        ][:2]
        xy = [(float(row["x"]), float(row["y"])) for row in rows]
        # 24 m of base; the scale of a walk is worth 0.15 %, its noise some millimetres.
        assert math.dist(*xy) == pytest.approx(24.0 * plot.factor, rel=0.006)


def test_clean_plots_have_no_open_stop(batch, surveys):
    stops = [
        (plot.name, f.code, f.place, f.message)
        for plot, survey in zip(batch, surveys)
        if plot.expected is None
        for f in open_findings(survey)
        if f.severity is Severity.STOP
    ]
    assert stops == []


def test_clean_plots_are_placed_and_their_stated_intervals_cover_the_truth(batch, surveys):
    ratios = []
    for plot, survey in zip(batch, surveys):
        if plot.expected is not None:
            continue
        assert survey.placement.status == "placed", plot.name
        truths = [t for t in plot.truth if t.recorded is None and not t.is_biased]
        rows = compare(truths, figures_of_rows(tables_of(survey)))
        assert [row.truth for row in rows if row.found is None] == []
        ratios += [row.ratio for row in rows if row.ratio is not None]
    assert len(ratios) > 5000
    assert 0.90 < np.mean(np.abs(ratios) < 1.96) < 0.99
    assert np.abs(ratios).max() < NO_FIGURE_IS_SO_FAR


def test_each_faulty_plot_gives_its_finding_and_nothing_else(batch, surveys):
    for plot, survey in zip(batch, surveys):
        if plot.expected is not None:
            found = [(f.code, f.place) for f in open_findings(survey)]
            assert found == [(plot.expected.code, plot.expected.place)], plot.name


def test_the_command_writes_forty_folders_that_read_back(batch, tmp_path):
    command = [sys.executable, str(ROOT / "scripts" / "make_demo.py"), "--batch", str(tmp_path / "plots")]
    done = subprocess.run(command, check=True, capture_output=True, text=True, timeout=60)
    folders = sorted((tmp_path / "plots").iterdir())
    assert [folder.name for folder in folders] == [plot.site.folder for plot in batch]
    assert len(done.stdout.splitlines()) == sum(1 for folder in folders for _ in folder.iterdir())
    for folder, plot in zip(folders, batch):
        texts = {path.name: path.read_text("utf-8") for path in folder.iterdir() if path.suffix == ".csv"}
        assert texts == plot.files
        held = json.loads((folder / "truth.json").read_text("utf-8"))
        assert held["site"] == plot.name
        assert [row["value"] for row in held["sizes"]] == pytest.approx(
            [t.value for t in plot.truth], abs=1e-9
        )
        expected = folder / "expected.json"
        assert expected.exists() == (plot.expected is not None)
        if plot.expected:
            assert json.loads(expected.read_text("utf-8")) == vars(plot.expected)


def test_the_batch_command_without_a_folder_says_so():
    command = [sys.executable, str(ROOT / "scripts" / "make_demo.py"), "--batch"]
    done = subprocess.run(command, check=False, capture_output=True, text=True, timeout=60)
    assert done.returncode == 2
    assert done.stderr.splitlines()[-1] == "make_demo.py: error: --batch needs the folder to write to."
