# SPDX-License-Identifier: GPL-2.0-or-later
"""Arcs found in layers of chords, the sides and the schedule that come with them."""

from __future__ import annotations

import numpy as np
import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProject,
    QgsVectorLayer,
    QgsWkbTypes,
)

from tests.processing.layers import memory_layer, rows_of, write_layer

UTM = "EPSG:32631"
ON_GROUND = 1 / 0.9996
"""Ground length by grid length on the zone's central meridian."""


def rounded_plot(radius=4.0, step=5.0):
    """A plot of 30 by 20 m whose corners are chords of quarter circles, (n, 2)."""
    centres = [(30 - radius, radius), (30 - radius, 20 - radius), (radius, 20 - radius), (radius, radius)]
    points = []
    for k, (x, y) in enumerate(centres):
        turn = np.radians(np.arange(0, 90 + step / 2, step) + 90 * (k - 1))
        points.append(np.column_stack([x + radius * np.cos(turn), y + radius * np.sin(turn)]))
    return np.vstack(points) + (500000, 5600000)


def text(points, kind="POLYGON"):
    ring = np.vstack([points, points[:1]]) if kind == "POLYGON" else points
    body = ", ".join(" ".join(map(repr, point)) for point in ring.tolist())
    return f"POLYGON(({body}))" if kind == "POLYGON" else f"LINESTRING({body})"


def run(provider, layer, **parameters):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    for name in ("OUTPUT", "SIDES", "SCHEDULE"):
        parameters.setdefault(name, "memory:")
    results, good = (
        provider.algorithm("fit_arcs")
        .create()
        .run({"INPUT": layer, **parameters}, context, QgsProcessingFeedback(), {}, catchExceptions=False)
    )
    assert good
    return {name: context.takeResultLayer(place) or place for name, place in results.items()}


def test_a_plot_with_rounded_corners_has_four_straights_and_four_quarter_circles(provider):
    out = run(provider, memory_layer("Polygon", UTM, [text(rounded_plot())]), TOLERANCE=0.02)
    (row,) = rows_of(out["OUTPUT"])
    assert (row["straights"], row["arcs"], row["as_recorded"]) == (4, 4, 0)
    assert row["method"] == "straights and tangent arcs within 0.02 m"
    sides = rows_of(out["SIDES"])
    arcs = [side for side in sides if side["kind"] == "arc"]
    assert len(sides) == 8
    # A straight has its two ends, a quarter circle in chords of 5 degrees nineteen points.
    assert [side["points"] for side in sides if side["kind"] == "straight"] == [2] * 4
    assert [side["points"] for side in arcs] == [19] * 4
    for arc in arcs:
        assert arc["radius_m"] == pytest.approx(4.0 * ON_GROUND, rel=1e-6)
        assert arc["sweep_deg"] == pytest.approx(90.0, abs=1e-4)
        assert arc["length_m"] == pytest.approx(2 * np.pi * ON_GROUND, rel=1e-6)
        assert arc["chord_m"] == pytest.approx(4 * np.sqrt(2) * ON_GROUND, rel=1e-6)
        assert arc["rise_m"] == pytest.approx(4 * (1 - np.sqrt(0.5)) * ON_GROUND, rel=1e-6)
        assert (arc["starts_tangent"], arc["ends_tangent"]) == (1, 1)
        assert arc["rms_m"] < 1e-6
    centres = sorted((round(a["centre_x"] - 500000, 4), round(a["centre_y"] - 5600000, 4)) for a in arcs)
    assert centres == [(4, 4), (4, 16), (26, 4), (26, 16)]
    (radius,) = rows_of(out["SCHEDULE"])
    assert (radius["count"], radius["radius_m"]) == (4, pytest.approx(4.0 * ON_GROUND, rel=1e-6))
    geometry = next(out["OUTPUT"].getFeatures()).geometry()
    assert QgsWkbTypes.isCurvedType(geometry.wkbType())
    assert geometry.constGet().area() == pytest.approx(600 - (4 - np.pi) * 16, rel=1e-6)


def test_sides_carry_the_columns_of_their_feature_and_where_they_are(provider):
    out = run(
        provider,
        memory_layer("Polygon", UTM, [text(rounded_plot()), text(rounded_plot(6.0))]),
        TOLERANCE=0.02,
    )
    sides = rows_of(out["SIDES"])
    assert [side["name"] for side in sides] == ["row 0"] * 8 + ["row 1"] * 8
    assert [(side["part"], side["ring"], side["side"]) for side in sides[:8]] == [
        (1, 0, k) for k in range(1, 9)
    ]
    schedule = rows_of(out["SCHEDULE"])
    assert [(round(r["radius_m"] / ON_GROUND, 3), r["count"]) for r in schedule] == [(4.0, 4), (6.0, 4)]
    # The sides are drawn where they lie: all of them together are the outline.
    drawn = sum(f.geometry().constGet().length() for f in out["SIDES"].getFeatures())
    whole = sum(f.geometry().constGet().perimeter() for f in out["OUTPUT"].getFeatures())
    assert drawn == pytest.approx(whole, rel=1e-12)


@pytest.mark.parametrize("crs", ["EPSG:4326", "EPSG:3857"])
def test_degrees_and_web_mercator_give_the_same_radii_in_metres(crs, provider):
    there = QgsGeometry.fromWkt(text(rounded_plot()))
    there.transform(
        QgsCoordinateTransform(
            QgsCoordinateReferenceSystem(UTM), QgsCoordinateReferenceSystem(crs), QgsProject.instance()
        )
    )
    out = run(provider, memory_layer("Polygon", crs, [there.asWkt(14)]), TOLERANCE=0.02)
    radii = [side["radius_m"] for side in rows_of(out["SIDES"]) if side["kind"] == "arc"]
    assert radii == pytest.approx([4.0 * ON_GROUND] * 4, rel=1e-5)


def test_true_curves_are_kept_and_listed(provider):
    curve = "COMPOUNDCURVE((500000 5600000,500010 5600000),CIRCULARSTRING(500010 5600000,500015 5600005,500020 5600000))"
    out = run(provider, memory_layer("CompoundCurve", UTM, [curve]))
    assert [side["kind"] for side in rows_of(out["SIDES"])] == ["straight", "given arc"]
    assert rows_of(out["SIDES"])[1]["radius_m"] == pytest.approx(5 * ON_GROUND, rel=1e-6)
    (radius,) = rows_of(out["SCHEDULE"])
    assert radius["radius_m_sigma"] is None  # nobody knows how exactly it was drawn
    geometry = next(out["OUTPUT"].getFeatures()).geometry()
    assert geometry.asWkb() == QgsGeometry.fromWkt(curve).asWkb()
    assert rows_of(out["OUTPUT"])[0]["method"] == "as given"


def test_noise_gives_sigmas_and_ragged_edges_stay_as_recorded(provider):
    draw = np.random.default_rng(4)
    turn = np.linspace(0, np.pi / 2, 60)
    arc = (
        12 * np.column_stack([np.sin(turn), 1 - np.cos(turn)])
        + draw.normal(0, 0.005, (60, 2))
        + (500000, 5600000)
    )
    x = np.arange(0, 20, 0.25)
    ragged = np.column_stack([x, draw.normal(0, 0.15, len(x))]) + (500000, 5600100)
    out = run(
        provider, memory_layer("LineString", UTM, [text(arc, "LINE"), text(ragged, "LINE")]), TOLERANCE=0.05
    )
    fitted, rough = rows_of(out["OUTPUT"])
    assert (fitted["straights"], fitted["arcs"], fitted["as_recorded"]) == (0, 1, 0)
    assert fitted["point_m_sigma"] == pytest.approx(0.005, rel=0.3)
    assert fitted["sigma_from"] == "residuals"
    side = next(side for side in rows_of(out["SIDES"]) if side["kind"] == "arc")
    assert abs(side["radius_m"] - 12 * ON_GROUND) < 3 * side["radius_m_sigma"]
    assert 0.001 < side["radius_m_sigma"] < 0.02
    assert rough["arcs"] == 0
    assert rough["as_recorded"] >= 1


def test_heights_go_with_their_vertices(provider):
    points = rounded_plot()
    z = np.linspace(10, 12, len(points))
    body = ", ".join(
        f"{x!r} {y!r} {h!r}"
        for (x, y), h in zip(np.vstack([points, points[:1]]).tolist(), [*z.tolist(), 10.0])
    )
    out = run(provider, memory_layer("PolygonZ", UTM, [f"POLYGON Z(({body}))"]), TOLERANCE=0.02)
    geometry = next(out["OUTPUT"].getFeatures()).geometry()
    heights = [
        point.z() for part in geometry.constGet().coordinateSequence() for ring in part for point in ring
    ]
    assert min(heights) == pytest.approx(10.0)
    assert 11.5 < max(heights) <= 12.0
    assert not np.isnan(heights).any()


def test_parts_and_holes_stay_what_they_are(provider):
    outer, hole = rounded_plot(), rounded_plot(3.0)
    inner = (hole - hole.mean(axis=0)) * 0.4 + outer.mean(axis=0)
    ring = lambda p: "(" + ", ".join(f"{x!r} {y!r}" for x, y in np.vstack([p, p[:1]]).tolist()) + ")"  # noqa: E731
    whole = f"MULTIPOLYGON(({ring(outer)},{ring(inner)}),({ring(outer + [50, 0])}))"
    out = run(provider, memory_layer("MultiPolygon", UTM, [whole]), TOLERANCE=0.02)
    (row,) = rows_of(out["OUTPUT"])
    assert (row["straights"], row["arcs"]) == (12, 12)
    geometry = next(out["OUTPUT"].getFeatures()).geometry()
    assert QgsWkbTypes.displayString(geometry.wkbType()) == "MultiSurface"
    assert [(s["part"], s["ring"]) for s in rows_of(out["SIDES"])] == [(1, 0)] * 8 + [(1, 1)] * 8 + [
        (2, 0)
    ] * 8
    exact = 2 * (600 - (4 - np.pi) * 16) - 0.16 * (600 - (4 - np.pi) * 9)
    assert geometry.constGet().area() == pytest.approx(exact, rel=1e-5)


def test_what_crosses_itself_comes_back_as_it_was_with_the_reason(provider):
    bow = "POLYGON((500000 5600000,500010 5600010,500010 5600000,500000 5600010,500000 5600000))"
    out = run(provider, memory_layer("Polygon", UTM, [bow, None, text(rounded_plot())]))
    rows = rows_of(out["OUTPUT"])
    assert rows[0]["finding"].startswith("GE-01: The outline crosses itself")
    assert rows[1]["finding"].startswith("GE-07: There is no geometry.")
    assert rows[2]["arcs"] == 4
    geometries = [f.geometry() for f in out["OUTPUT"].getFeatures()]
    given = QgsGeometry.fromWkt(bow)
    assert [v.asWkt() for v in geometries[0].vertices()] == [v.asWkt() for v in given.vertices()]


def test_a_geopackage_takes_all_three(provider, tmp_path):
    path = write_layer(tmp_path / "plots.gpkg", [text(rounded_plot())], UTM)
    out = run(
        provider,
        str(path),
        TOLERANCE=0.02,
        **{name: str(tmp_path / f"{name.lower()}.gpkg") for name in ("OUTPUT", "SIDES", "SCHEDULE")},
    )
    fitted = QgsVectorLayer(out["OUTPUT"], "x", "ogr")
    assert QgsWkbTypes.isCurvedType(next(fitted.getFeatures()).geometry().wkbType())
    assert len(rows_of(out["SIDES"])) == 8
    assert len(rows_of(out["SCHEDULE"])) == 1


def test_radii_are_rounded_where_that_is_asked(provider):
    plots = [text(rounded_plot(r)) for r in (3.98, 4.03)]
    out = run(provider, memory_layer("Polygon", UTM, plots), TOLERANCE=0.02, ROUNDING=0.1)
    assert [(r["radius_m"], r["count"]) for r in rows_of(out["SCHEDULE"])] == [(pytest.approx(4.0), 8)]


def test_circles_of_the_pieces_that_a_digitiser_draws(provider):
    turn = np.linspace(0, 2 * np.pi, 49)[:-1]
    circle = 7.5 * np.column_stack([np.cos(turn), np.sin(turn)]) + (500000, 5600000)
    octagon = 7.5 * np.column_stack([np.cos(turn[::6]), np.sin(turn[::6])]) + (500100, 5600000)
    out = run(provider, memory_layer("Polygon", UTM, [text(circle), text(octagon)]), TOLERANCE=0.03)
    round_one, straight_one = rows_of(out["OUTPUT"])
    assert (round_one["straights"], round_one["arcs"]) == (0, 1)
    assert (straight_one["straights"], straight_one["arcs"]) == (8, 0)
    side = rows_of(out["SIDES"])[0]
    assert side["radius_m"] == pytest.approx(7.5 * ON_GROUND, rel=1e-6)
    assert abs(side["sweep_deg"]) == pytest.approx(360.0)
