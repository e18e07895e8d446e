# SPDX-License-Identifier: GPL-2.0-or-later
"""Build surface: layers of any CRS and surveys in, a surface that opens again, contours and a mesh out."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsGeometry,
    QgsMeshLayer,
    QgsPoint,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProperty,
    QgsVectorLayer,
)

from plugin.bridge.surfaces import read_surfaces
from plugin.core.plane import SurveyPlane
from tests.processing.layers import memory_layer, rows_of

UTM = "EPSG:25831"
X, Y = 512340.0, 5712850.0


class Heard(QgsProcessingFeedback):
    """What a run warns of."""

    def __init__(self):
        super().__init__()
        self.warnings = []

    def pushWarning(self, warning):
        self.warnings.append(warning)


@pytest.fixture
def build(provider, tmp_path):
    def run(given, feedback=None, outputs=("OUTPUT", "CONTOURS")):
        places = {name: str(tmp_path / f"{name.lower()}.gpkg") for name in outputs}
        algorithm = provider.algorithm("build_surface").create()
        results, good = algorithm.run(
            {**places, **given},
            QgsProcessingContext(),
            feedback or QgsProcessingFeedback(),
            {},
            catchExceptions=False,
        )
        assert good
        return results

    return run


def heights(x, y):
    return 80.0 + 0.05 * x - 0.02 * y + 0.4 * np.sin(x / 5.0)


def points(count=200, seed=1):
    """(count, 3) metres about the site's corner."""
    xy = np.random.default_rng(seed).uniform(0.0, 40.0, (count, 2))
    return np.column_stack([xy, heights(*xy.T)])


def level_layer(xyz, crs=UTM, kind="PointZ"):
    out = QgsVectorLayer(f"{kind}?crs={crs}&field=level:double&field=worth:double", "levels", "memory")
    features = []
    for k, (x, y, z) in enumerate(xyz.tolist()):
        feature = QgsFeature(out.fields())
        feature.setAttributes([z, 0.01 * (1 + k % 3)])
        feature.setGeometry(
            QgsGeometry(QgsPoint(X + x, Y + y, z) if kind == "PointZ" else QgsPoint(X + x, Y + y))
        )
        features.append(feature)
    assert out.dataProvider().addFeatures(features)[0]
    return out


def wkt(corners, kind="POLYGON"):
    text = ",".join(" ".join(str(v) for v in (X + c[0], Y + c[1], *c[2:])) for c in corners)
    z = " Z" if len(corners[0]) > 2 else ""
    return f"{kind}{z}(({text}))" if kind == "POLYGON" else f"{kind}{z}({text})"


def opened(path):
    found = read_surfaces([QgsVectorLayer(path, "surface", "ogr")])
    return found, found.surfaces[0]


RING = [(5, 5), (35, 5), (35, 35), (5, 35), (5, 5)]
HOLE = [(12, 12), (18, 12), (18, 18), (12, 18), (12, 12)]


def test_a_surface_of_layers_has_its_boundary_and_void_on_the_ground(build):
    results = build(
        {
            "INPUT_POINTS": level_layer(points()),
            "BOUNDARY": memory_layer("Polygon", UTM, [wkt(RING)]),
            "VOIDS": memory_layer("Polygon", UTM, [wkt(HOLE)]),
            "SIGMA": 0.01,
        }
    )
    found, surface = opened(results["OUTPUT"])
    scale = found.plane.grid_to_ground
    assert surface.areas.sum() == pytest.approx((900.0 - 36.0) * scale**2, rel=1e-8)
    assert results["TRIANGLES"] == len(surface.triangles)
    assert results["WEAK"] == surface.is_weak.sum()
    assert (results["ROUGH"], results["REACH"]) == (surface.rough, surface.reach)
    assert 0.003 < surface.rough < 0.05
    assert surface.sigma == pytest.approx(np.full(len(surface.sigma), 0.01))


def test_the_same_ground_in_degrees_and_in_feet_is_the_same_ground(build, tmp_path):
    from pyproj import Transformer

    xyz = points()
    whole = opened(build({"INPUT_POINTS": level_layer(xyz)})["OUTPUT"])[1]
    for crs in ("EPSG:4326", "EPSG:32165"):
        way = Transformer.from_crs(UTM, crs, always_xy=True)
        unit = 1200.0 / 3937.0 if crs == "EPSG:32165" else 1.0
        if crs == "EPSG:32165":
            # A grid of feet far from the site would bend it: the same figures are laid where that grid is at home.
            here = SurveyPlane(way.target_crs, -90.5, 31.0, 80.0)
            x, y = here.to_crs(xyz[:, :2]).T
        else:
            x, y = way.transform(X + xyz[:, 0], Y + xyz[:, 1])
        texts = [
            f"POINT Z({a!r} {b!r} {z / unit!r})"
            for a, b, z in zip(x.tolist(), y.tolist(), xyz[:, 2].tolist())
        ]
        _, there = opened(build({"INPUT_POINTS": memory_layer("PointZ", crs, texts)})["OUTPUT"])
        assert there.points[:, 2].min() == pytest.approx(xyz[:, 2].min(), abs=1e-9)
        assert there.areas.sum() == pytest.approx(
            whole.areas.sum(), rel=1e-3 if crs == "EPSG:32165" else 1e-7
        )
        assert there.rough == pytest.approx(whole.rough, rel=1e-2)


def test_a_breakline_is_an_edge_and_an_arc_is_chorded_within_two_millimetres(build):
    layer = QgsVectorLayer(f"CompoundCurveZ?crs={UTM}", "kerb", "memory")
    feature = QgsFeature()
    arc = f"CIRCULARSTRING Z({X + 10} {Y + 20} 80,{X + 20} {Y + 30} 81,{X + 30} {Y + 20} 82)"
    feature.setGeometry(QgsGeometry.fromWkt(f"COMPOUNDCURVE Z({arc})"))
    assert layer.dataProvider().addFeatures([feature])[0]
    flat = points()
    flat = flat[np.abs(np.hypot(flat[:, 0] - 20, flat[:, 1] - 20) - 10) > 0.5]
    results = build({"INPUT_POINTS": level_layer(flat), "BREAKLINES": layer, "LINE_SIGMA": 0.005})
    found, surface = opened(results["OUTPUT"])
    middle = found.plane.from_crs(np.array([[X + 20, Y + 20]]))[0]
    on = np.flatnonzero(surface.sigma == 0.005)
    radius = np.hypot(*(surface.points[on, :2] - middle).T)
    scale = found.plane.grid_to_ground
    assert len(on) > 60
    assert radius == pytest.approx(np.full(len(on), 10.0 * scale), abs=1e-6)
    # Heights run evenly along the arc: by the angle, from 80 over 81 at the top to 82.
    turn = np.pi - np.arctan2(*(surface.points[on, :2] - middle).T[::-1])
    turn -= turn[np.argmin(surface.points[on, 2])]  # the grid is turned a little against the survey plane
    assert surface.points[on, 2] == pytest.approx(80.0 + 2.0 * turn / np.pi, abs=1e-7)
    edges = {frozenset(pair) for row in surface.triangles.tolist() for pair in zip(row, row[1:] + row[:1])}
    order = on[np.argsort(turn)]
    assert all(frozenset(pair) in edges for pair in zip(order.tolist(), order[1:].tolist()))


def test_heights_and_sigmas_may_come_from_columns(build):
    flat = level_layer(points(), kind="Point")
    results = build({"INPUT_POINTS": flat, "HEIGHTS": "level", "SIGMA": QgsProperty.fromField("worth")})
    surface = opened(results["OUTPUT"])[1]
    assert np.unique(np.round(surface.sigma, 6)).tolist() == [0.01, 0.02, 0.03]
    assert surface.points[:, 2].max() == pytest.approx(points()[:, 2].max(), abs=1e-12)


def test_contours_are_at_their_heights_and_say_what_they_are_worth(build):
    results = build({"INPUT_POINTS": level_layer(points()), "INTERVAL": 0.5, "NAME": "finished"})
    layer = QgsVectorLayer(results["CONTOURS"], "contours", "ogr")
    rows = list(layer.getFeatures())
    assert len(rows) >= 4
    for row in rows:
        assert {v.z() for v in row.geometry().vertices()} == {row["height_m"]}
        assert math.isclose(row["height_m"] % 0.5, 0.0, abs_tol=1e-9)
        assert 0.005 < row["height_m_sigma"] < 0.1
        assert row["surface"] == "finished"
    assert opened(results["OUTPUT"])[0].names == ("finished",)


def test_the_mesh_opens_in_the_host(build, tmp_path):
    results = build(
        {"INPUT_POINTS": level_layer(points()), "MESH": str(tmp_path / "ground.2dm")}, outputs=("OUTPUT",)
    )
    layer = QgsMeshLayer(results["MESH"], "mesh", "mdal")
    assert layer.isValid()
    layer.setCrs(QgsCoordinateReferenceSystem(UTM))
    found = read_surfaces([QgsVectorLayer(results["OUTPUT"], "s", "ogr"), layer])
    assert found.surfaces[1].corners == pytest.approx(found.surfaces[0].corners, abs=1e-7)


def test_breaklines_at_different_heights_are_refused_with_the_place_on_the_map(build):
    lines = memory_layer(
        "LineStringZ",
        UTM,
        [wkt([(0, 20, 80), (40, 20, 80)], "LINESTRING"), wkt([(20, 0, 81), (20, 40, 81.5)], "LINESTRING")],
    )
    heard = Heard()
    with pytest.raises(QgsProcessingException) as caught:
        build({"INPUT_POINTS": level_layer(points()), "BREAKLINES": lines}, heard)
    place = f"{X + 20:.3f}, {Y + 20:.3f}"
    assert str(caught.value) == (
        f"The breaklines layer, row 1 and layer, row 2 meet at {place} with heights that differ by 1.250 m (80.000 and "
        "81.250), more than three times what they are worth. Correct the heights, or end one of the two lines before it "
        "meets the other; the foot and the top of an upright face are drawn a little apart. A wall with no ground at its top "
        "on either side is no ground: leave it out. Such places: 1; the log tells the first 1."
    )
    assert [text[:6] for text in heard.warnings] == ["GR-02:"]


def test_layers_of_another_crs_are_laid_over_the_levels(build):
    from pyproj import Transformer

    way = Transformer.from_crs(UTM, "EPSG:3857", always_xy=True)
    corners = [way.transform(X + x, Y + y) for x, y in RING]
    text = "POLYGON((" + ",".join(f"{x!r} {y!r}" for x, y in corners) + "))"
    results = build(
        {"INPUT_POINTS": level_layer(points()), "BOUNDARY": memory_layer("Polygon", "EPSG:3857", [text])}
    )
    found, surface = opened(results["OUTPUT"])
    assert surface.areas.sum() == pytest.approx(900.0 * found.plane.grid_to_ground**2, rel=1e-6)


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (dict, "No level and no breakline is given. Choose a layer of points with heights."),
        (
            lambda: {"INPUT_POINTS": level_layer(points() * (1, 1, 0))},
            (
                "levels: all heights are 0, as many programs write it where nobody levelled. Give the heights as z, or "
                "choose the column that holds them."
            ),
        ),
        (
            lambda: {"INPUT_POINTS": level_layer(points(), kind="Point")},
            "levels, row 1: a point has no height. Give it one (z, or a column of heights), or leave it out.",
        ),
        (
            lambda: {"BREAKLINES": memory_layer("LineString", UTM, [wkt([(0, 0), (9, 9)], "LINESTRING")])},
            (
                "layer, row 1: a breakline has a vertex without a height. Give each vertex one (z), or take the line as "
                "boundary or void."
            ),
        ),
        (
            lambda: {"INPUT_POINTS": level_layer(points()), "SURVEY": "nowhere.gpkg"},
            "nowhere.gpkg cannot be read as a survey of this version (unable to open database file). Run the job again.",
        ),
        (
            lambda: {"INPUT_POINTS": level_layer(points(2))},
            "A surface needs three points or more that are not in line; 2 are given.",
        ),
    ],
)
def test_what_gives_no_surface_is_refused_in_words(given, words, build, tmp_path):
    with pytest.raises(QgsProcessingException) as caught:
        build(given())
    assert str(caught.value) == words
    assert not list(tmp_path.glob("*.gpkg"))


def test_a_surveys_own_heights_and_edges_make_its_ground(build, tmp_path):
    from plugin.bridge.geopackage import write_survey
    from tests.made_survey import made_survey

    path = write_survey(made_survey(), tmp_path / "site.gpkg")
    results = build({"SURVEY": str(path)})
    surface = opened(results["OUTPUT"])[1]
    there = {row["surface"] for row in rows_of(f"{path}|layername=stations")}
    assert there <= {None, "ground", "finished"}
    assert len(surface.triangles) > 3
    with pytest.raises(QgsProcessingException) as caught:
        build({"SURVEY": str(path), "NAME": "stripped"})
    assert str(caught.value) == (
        f"{path} holds no height of the surface stripped. Choose another surface, or write its name into the logs' column "
        "surface."
    )


def test_the_finished_ground_of_a_survey_is_bridged_with_a_word_or_ends_at_its_areas(
    provider, build, tmp_path
):
    demo = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
    survey = str(tmp_path / "yard.gpkg")
    _, good = (
        provider.algorithm("survey_walks")
        .create()
        .run({"LOGS": [str(demo)], "OUTPUT": survey}, QgsProcessingContext(), QgsProcessingFeedback())
    )
    assert good
    words = (
        "No boundary is given: ground between separate features is bridged. Choose the survey's areas as boundary "
        "(Only inside the survey's areas), or draw one."
    )
    sizes = {}
    for inside in (False, True):
        heard = Heard()
        results = build({"SURVEY": survey, "NAME": "finished", "INSIDE": inside}, heard)
        sizes[inside] = opened(results["OUTPUT"])[1].areas.sum()
        assert (words in heard.warnings) is not inside
    assert sizes[True] < 0.5 * sizes[False]
    heard = Heard()
    build({"SURVEY": survey}, heard)
    assert words not in heard.warnings
