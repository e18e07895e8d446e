# SPDX-License-Identifier: GPL-2.0-or-later
"""Survey GeoPackages side by side: what is read of them is what was measured."""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from dataclasses import replace

import numpy as np
import pytest

from plugin.bridge.compared_surveys import instrument_facts, is_survey, read_pair
from plugin.bridge.geopackage import write_survey
from plugin.core.errors import BadInput
from plugin.core.register.compare import compare_surveys
from plugin.core.register.known import known_survey
from scripts.changes import compare_pair, walk

SEEDS = (5, 1_000_005)


@pytest.fixture(scope="module")
def surveys():
    return walk(SEEDS[0], 0.0), walk(SEEDS[1], 0.05)


@pytest.fixture(scope="module")
def files(surveys, qgis_app, tmp_path_factory):
    folder = tmp_path_factory.mktemp("pair")
    return [
        write_survey(survey, folder / f"{name}.gpkg", None, instrument_facts(survey))
        for name, survey in zip(("before", "after"), surveys)
    ]


def test_what_a_file_tells_is_what_was_measured(surveys, files):
    pair = read_pair(*files)
    assert pair.assumed == ()
    assert pair.crs.authid() == "EPSG:25831"
    for survey, read in zip(surveys, (pair.before, pair.after)):
        own = known_survey(survey, lambda xy, survey=survey: pair.plane.from_crs(survey.plane.to_crs(xy)))
        assert read.common == own.common == 0.1
        assert read.stations.key == own.stations.key
        for name in ("xy", "z", "z_sigma", "leg", "stand"):
            one, other = getattr(read.stations, name), getattr(own.stations, name)
            assert np.allclose(one, other, rtol=1e-9, atol=1e-9, equal_nan=True), name
        # The axes' bearing is told from the grid at the survey's own middle: 1e-8 of a metre squared.
        assert np.abs(read.stations.spread - own.stations.spread).max() < 1e-7
        assert [thing.key for thing in read.things] == [thing.key for thing in own.things]
        assert [thing.is_level for thing in read.things] == [thing.is_level for thing in own.things]
        for one, other in zip(read.things, own.things):
            assert one.corners == pytest.approx(other.corners, abs=1e-6)
            assert (one.size and one.size.value) == (
                other.size and pytest.approx(other.size.value, rel=1e-12)
            )


def test_the_files_give_the_comparison_of_the_surveys_themselves(surveys, files):
    pair = read_pair(*files)
    one, other = compare_surveys(pair.before, pair.after), compare_pair(*surveys)
    assert [row.outcome for row in one.rows] == [row.outcome for row in other.rows]
    assert [patch.rows.tolist() for patch in one.patches] == [patch.rows.tolist() for patch in other.patches]
    assert one.patches[0].change.value == pytest.approx(other.patches[0].change.value, abs=1e-6)
    assert one.motion.shift == pytest.approx(
        other.motion.shift, abs=1e-3
    )  # the planes' norths differ by 1e-6


def test_a_survey_that_was_placed_in_another_crs_is_compared_all_the_same(surveys, files, tmp_path):
    from plugin.core.measure.chain import Settings, survey_job
    from plugin.core.read.job import read_job
    from scripts.changes import walked_site
    from scripts.demo_jobs import make_job

    job = make_job(walked_site(0.05), SEEDS[1])
    read = read_job({name: text.encode() for name, text in job.items()})
    elsewhere = survey_job(read.job, read.decisions, Settings(crs="EPSG:3857"), read.findings)
    path = write_survey(elsewhere, tmp_path / "web.gpkg", None, instrument_facts(elsewhere))
    one = compare_surveys(*_both(read_pair(*files)))
    other = compare_surveys(*_both(read_pair(files[0], path)))
    assert other.motion.shift == pytest.approx(one.motion.shift, abs=2e-3)
    assert [row.outcome for row in one.rows] == [row.outcome for row in other.rows]
    assert other.patches[0].change.value == pytest.approx(one.patches[0].change.value, abs=1e-4)


def _both(pair):
    return pair.before, pair.after


def test_a_survey_without_a_place_is_laid_on_the_other_by_the_names_they_share(surveys, files, tmp_path):
    loose = replace(
        surveys[1], plane=None, placement=replace(surveys[1].placement, status="not placed", crs="")
    )
    path = write_survey(loose, tmp_path / "loose.gpkg", None, instrument_facts(loose))
    told = compare_surveys(*_both(read_pair(files[0], path)))
    assert not [row for row in told.rows if row.outcome.value in ("added", "gone")]
    assert told.motion.shift_p == 1.0
    assert {row.told.feature for row in told.rows if row.outcome.value == "changed"} == {
        f"Hollow {k}" for k in range(1, 10)
    }


def test_two_surveys_of_which_one_has_no_place_and_no_names_alike_are_refused(surveys, files, tmp_path):
    bare = replace(
        surveys[1],
        plane=None,
        stations=tuple(replace(s, tags=replace(s.tags, feature=""), mark="") for s in surveys[1].stations),
    )
    path = write_survey(bare, tmp_path / "bare.gpkg", None)
    words = (
        f"{path} or the survey before it is not placed on the map, and they name no two places alike. Place both, or name "
        "the marks alike."
    )
    with pytest.raises(BadInput, match=re.escape(words)):
        read_pair(files[0], path)


def test_a_survey_of_before_keeps_nothing_of_its_instrument_and_that_is_told(surveys, tmp_path, files):
    old = write_survey(surveys[0], tmp_path / "old.gpkg", None)
    pair = read_pair(old, files[1])
    assert pair.assumed == tuple(f"old.gpkg: {name}" for name in ("W1", "W2", "W3", "W4"))
    # The default instrument is twice as rough on its legs; each stand may err by all that its height does.
    exact, told = read_pair(*files).before.stations, pair.before.stations
    assert told.leg.sum() > 3.9 * exact.leg.sum()
    assert told.stand[0] == pytest.approx(told.z_sigma[0] ** 2)


def test_a_file_that_is_no_survey_says_so(tmp_path, files):
    other = tmp_path / "other.gpkg"
    with closing(sqlite3.connect(other)) as database, database:
        database.execute("CREATE TABLE things (name TEXT)")
    assert not is_survey(other)
    assert not is_survey(tmp_path / "nowhere.gpkg")
    assert is_survey(files[0])
    words = f"{other} is no survey. Choose a GeoPackage that Survey walks has written."
    with pytest.raises(BadInput, match=re.escape(words)):
        read_pair(files[0], other)


def test_the_files_are_only_read(files):
    before = [path.read_bytes() for path in files]
    read_pair(*files)
    assert [path.read_bytes() for path in files] == before
