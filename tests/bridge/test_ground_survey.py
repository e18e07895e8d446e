# SPDX-License-Identifier: GPL-2.0-or-later
"""From a survey's stations over its GeoPackage to a surface that still knows how the heights err together."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from qgis.core import QgsCoordinateReferenceSystem, QgsGeometry, QgsVectorLayer

from plugin.bridge.geopackage import write_survey
from plugin.bridge.ground_layers import GroundLayers
from plugin.bridge.ground_survey import UNKNOWN_SIGMA_M, add_survey
from plugin.bridge.surfaces import read_surfaces, write_surface
from plugin.core.errors import BadInput
from plugin.core.ground.build import build_surface
from plugin.core.ground.surface import Surface
from plugin.core.ground.volume import volume_to_level
from plugin.core.measure.chain import Settings, measure_job
from plugin.core.place.shared import PARTS
from plugin.core.quantity import Gradient
from plugin.core.read.job import read_job
from tests.made_survey import made_survey

DEMO = Path(__file__).parents[2] / "resources" / "demo"


@pytest.fixture(scope="module")
def survey():
    job = read_job(
        {file.name: file.read_bytes() for file in (DEMO / "marlisk_yard").iterdir() if file.is_file()}
    )
    return measure_job(job.job, job.decisions, Settings(), job.findings)[0]


@pytest.fixture(scope="module")
def file(survey, tmp_path_factory, qgis_app):
    return write_survey(survey, tmp_path_factory.mktemp("ground") / "yard.gpkg")


def laid(path, surface="ground"):
    layers = GroundLayers()
    add_survey(layers, path, surface)
    return layers.laid()


def rows_of(surface, survey):
    """Of a surface's points in the survey plane, the nearest station and how far it is off, metres."""
    xy = np.array([row.point[:2] for row in survey.stations])
    away = np.hypot(*(surface.points[:, None, :2] - xy[None]).transpose(2, 0, 1))
    return away.argmin(axis=1), away.min(axis=1)


def in_survey_plane(found, survey):
    xy = survey.plane.from_crs(found.plane.to_crs(found.ground.levels.points[:, :2]))
    return replace(found.ground.levels, points=np.column_stack([xy, found.ground.levels.points[:, 2]]))


def test_every_level_has_what_its_station_has(survey, file):
    levels = in_survey_plane(laid(file), survey)
    rows, away = rows_of(
        Surface(levels.points, np.empty((0, 3), int), levels.sigma, 0.0, 0.0, np.empty(0, bool)), survey
    )
    assert len(levels.points) > 20
    assert away.max() < 1e-3
    assert levels.shared.shape[1] == PARTS
    # Of two stands on one mark either may be the nearest: a stand is held to it within a millimetre or two.
    assert levels.shared == pytest.approx(np.array([survey.stations[k].z_shared for k in rows]), abs=2e-3)
    total = np.hypot(levels.sigma, np.sqrt((levels.shared**2).sum(axis=1)))
    assert total == pytest.approx([survey.stations[k].z_sigma for k in rows], rel=0.05)


def test_on_an_edge_it_runs_evenly_from_station_to_station(survey, file):
    (number, tags), *_ = [
        (k, a.tags) for k, a in enumerate(survey.areas, 1) if a.tags.feature == "Paved court"
    ]
    lines = laid(file, tags.surface or "ground").ground.breaklines
    court = next(line for line in lines if line.name == f"areas, row {number}")
    own = np.array([row.z_shared for row in survey.stations if row.tags.feature == "Paved court"])
    assert court.shared.shape == (len(court.points), PARTS)
    assert len(court.points) > len(own)
    assert (court.shared <= own.max(axis=0) + 1e-6).all()
    assert (court.shared >= own.min(axis=0) - 1e-6).all()
    steps = np.abs(np.diff(court.shared, axis=0)).max()
    assert steps < np.ptp(own, axis=0).max()


def test_the_surface_opens_again_to_the_bit_with_its_volumes_sigma(survey, file, tmp_path):
    found = laid(file)
    surface = build_surface(found.ground).surface
    path = write_surface(surface, "ground", tmp_path / "g.gpkg", found.plane, found.crs)
    layer = QgsVectorLayer(str(path), "ground", "ogr")
    (again,) = read_surfaces([layer]).surfaces
    for name in ("points", "triangles", "sigma", "shared", "is_weak"):
        assert np.array_equal(getattr(again, name), getattr(surface, name)), name
    assert volume_to_level(again, 80.0).net.sigma == volume_to_level(surface, 80.0).net.sigma
    row = next(layer.getFeatures())
    assert row["a_z_m_sigma"] == surface.total_sigma[row["a_point"]]
    assert row["a_z_own_m_sigma"] == surface.sigma[row["a_point"]]


def test_a_volumes_sigma_is_the_surveys_own(survey, file):
    """The whole way by the file against the survey's whole covariance, with the ground between the points left out."""
    found = laid(file)
    surface = replace(build_surface(found.ground).surface, rough=0.0)
    told = volume_to_level(surface, 80.0)
    on_plane = survey.plane.from_crs(found.plane.to_crs(surface.points[:, :2]))
    rows, _ = rows_of(replace(surface, points=np.column_stack([on_plane, surface.points[:, 2]])), survey)
    moves = told.moves[0] - told.moves[1]
    true = survey.workings.placed.variance(Gradient(rows, np.zeros((len(rows), 2)), moves))
    assert told.net.sigma == pytest.approx(np.sqrt(true), rel=0.05)
    alone = replace(surface, sigma=surface.total_sigma, shared=np.empty((len(rows), 0)))
    assert volume_to_level(alone, 80.0).net.sigma < 0.4 * told.net.sigma


def test_a_survey_of_before_says_what_its_heights_are_worth_alone(survey, file, tmp_path):
    old = tmp_path / "old.gpkg"
    old.write_bytes(file.read_bytes())
    with closing(sqlite3.connect(old)) as database:
        for (trigger,) in database.execute(
            "SELECT name FROM sqlite_master WHERE type = 'trigger'"
        ).fetchall():
            database.execute(f'DROP TRIGGER "{trigger}"')
        for column in ("z_shared", "z_own_m_sigma"):
            database.execute(f"ALTER TABLE stations DROP COLUMN {column}")
        database.commit()
    levels = in_survey_plane(laid(old), survey)
    assert levels.shared.shape == (len(levels.points), 0)
    assert set(levels.sigma.round(9)) <= {round(row.z_sigma, 9) for row in survey.stations}


def test_where_stations_say_nothing_a_height_is_worth_what_is_assumed(tmp_path, qgis_app):
    made = made_survey()
    bare = replace(made, stations=tuple(replace(row, z_sigma=None) for row in made.stations))
    levels = laid(write_survey(bare, tmp_path / "bare.gpkg")).ground.levels
    assert set(levels.sigma) == {UNKNOWN_SIGMA_M}
    assert levels.shared.shape == (len(levels.points), 0)


def test_a_table_of_before_opens_as_it_was(tmp_path, qgis_app):
    points = np.array([[0.0, 0, 1], [4, 0, 2], [0, 4, 3]])
    surface = Surface(points, np.array([[0, 1, 2]]), np.full(3, 0.02), 0.01, 2.0, np.zeros(1, bool))
    found = laid(write_survey(made_survey(), tmp_path / "site.gpkg"))
    crs = QgsCoordinateReferenceSystem("EPSG:25831")
    layer = QgsVectorLayer(
        str(write_surface(surface, "ground", tmp_path / "s.gpkg", found.plane, crs)), "s", "ogr"
    )
    row = next(layer.getFeatures())
    assert {str(row[f"{corner}_{name}"]) for corner in "abc" for name in ("z_own_m_sigma", "z_shared")} == {
        "NULL"
    }
    layer.dataProvider().deleteAttributes(
        [
            k
            for k, field in enumerate(layer.fields())
            if field.name().endswith(("_z_own_m_sigma", "_z_shared"))
        ]
    )
    layer.updateFields()
    (again,) = read_surfaces([layer]).surfaces
    assert np.array_equal(again.points, points)
    assert again.sigma.tolist() == [0.02] * 3
    assert again.shared.shape == (3, 0)


def test_the_finished_surface_of_the_yard_builds_with_its_risers_and_its_wall(file):
    """Three risers, and the wall of Bed 1 as the parts foot and top; the steps stood 33 mm inside the court's edge."""
    built = build_surface(laid(file, "finished").ground)
    told = [f for f in built.findings if f.code == "GR-05"]
    assert {f.code for f in built.findings} == {"GR-01", "GR-04", "GR-05"}
    assert len(told) == 4
    heights = sorted(round(f.data["high"] - f.data["low"], 2) for f in told)
    assert heights == pytest.approx([0.14, 0.14, 0.14, 0.56], abs=0.011)
    assert [round(f.data["shift"], 3) for f in told if f.data["shift"]] == [pytest.approx(0.033, abs=0.002)]
    assert [f.data["off"] for f in told] == pytest.approx([0.002] * 4, abs=1e-12)
    assert (built.surface.areas > 0.0).all()


def test_chords_do_not_make_the_finished_yard_weak(file):
    """Of its lines alone: 96.9 % were weak where the spacing was that of chords and of rows recorded on the way."""
    surface = build_surface(laid(file, "finished").ground).surface
    weak = surface.areas[surface.is_weak].sum() / surface.areas.sum()
    assert 0.05 < weak < 0.2


def test_only_inside_its_areas_the_finished_yard_is_as_large_as_they_are(file):
    """The union of the survey's own outlines (arcs exact to 0.1 mm of their chords), not the hull of all that stands on it."""
    layers = GroundLayers()
    taken = add_survey(layers, file, "finished", inside=True)
    surface = build_surface(layers.laid().ground).surface
    areas = QgsVectorLayer(f"{file}|layername=areas", "areas", "ogr")
    outlines = [row.geometry() for row in areas.getFeatures() if row["surface"] == "finished"]
    whole = QgsGeometry.unaryUnion([QgsGeometry(one.constGet().segmentize(1e-3)) for one in outlines])
    assert (taken.areas, taken.rows) == (len(outlines), 12)
    scale = sum(row["area_m2"] for row in areas.getFeatures() if row["surface"] == "finished") / sum(
        one.area() for one in outlines
    )
    assert surface.areas.sum() == pytest.approx(whole.area() * scale, rel=1e-3)
    assert surface.areas.sum() < 0.5 * build_surface(laid(file, "finished").ground).surface.areas.sum()


def test_without_areas_of_the_surface_there_is_no_inside(file, tmp_path):
    bare = tmp_path / "bare.gpkg"
    bare.write_bytes(file.read_bytes())
    with closing(sqlite3.connect(bare)) as database:
        for (trigger,) in database.execute(
            "SELECT name FROM sqlite_master WHERE type = 'trigger'"
        ).fetchall():
            database.execute(f'DROP TRIGGER "{trigger}"')
        database.execute("DELETE FROM areas WHERE surface = 'finished'")
        database.commit()
    with pytest.raises(BadInput) as caught:
        add_survey(GroundLayers(), bare, "finished", inside=True)
    assert str(caught.value) == (
        f"{bare} has no area of the surface finished with heights. Draw a boundary instead, or build it without one."
    )
