# SPDX-License-Identifier: GPL-2.0-or-later
"""Crossfalls of ways that are one line over a surface, in gradients and in limits; areas by bands of slope."""

from __future__ import annotations

import math

import pytest
from qgis.core import QgsFeature, QgsGeometry, QgsVectorLayer

from plugin.bridge.gradient_tables import read_bounds
from plugin.core.errors import BadInput
from tests.processing.layers import memory_layer, rows_of
from tests.processing.test_limits import ROOF, Said, run, surface_layer, table

TWISTED = [
    "POLYGON Z((0 -1 0,8 -1 -0.16,8 1 0.16,0 -1 0))",
    "POLYGON Z((0 -1 0,8 1 0.16,0 1 0,0 -1 0))",
]
"""Level across its left end and 16 % across its right end: along the middle of two metres z left less right over the width."""


def lines_of(surface, texts, fields=()):
    """Lines in the surface's own grid, with columns of numbers."""
    names = "".join(f"&field={name}:double" for name in dict.fromkeys(name for row in fields for name in row))
    layer = QgsVectorLayer(f"LineStringZ?field=feature:string{names}", "ways", "memory")
    layer.setCrs(QgsVectorLayer(surface, "s", "ogr").crs())
    rows = []
    for k, text in enumerate(texts):
        row = QgsFeature(layer.fields())
        row.setAttribute("feature", f"Way {k}")
        for name, value in (fields[k] if k < len(fields) else {}).items():
            row.setAttribute(name, value)
        row.setGeometry(QgsGeometry.fromWkt(text))
        rows.append(row)
    assert layer.dataProvider().addFeatures(rows)[0]
    return layer


MIDDLE, RISING = "LINESTRING Z(0 0 0,8 0 0)", "LINESTRING Z(0 0 0,8 0 0.08)"


def test_a_line_over_a_surface_has_its_mean_and_greatest_crossfall_across_its_width(provider, tmp_path):
    surface = surface_layer(tmp_path, TWISTED)
    told = run(
        provider,
        "measure_gradients",
        INPUT=lines_of(surface, [MIDDLE]),
        SURFACE=surface,
        WIDTH=2.0,
        SIGMA=0.01,
        CROSSFALLS="memory:",
    )
    (row,) = rows_of(told["OUTPUT"])
    assert row["cross_ratio"] == pytest.approx(0.08, abs=1e-9)
    assert row["cross_most_ratio"] == pytest.approx(0.16, abs=1e-9)
    assert row["cross_most_at_m"] == pytest.approx(8.0, abs=1e-6)
    # At the end two points of 1 cm stand 2 m apart.
    assert row["cross_most_ratio_sigma"] == pytest.approx(0.01 * math.sqrt(2) / 2, rel=1e-6)
    # The mean is half of each of the four, by 2 m.
    assert row["cross_ratio_sigma"] == pytest.approx(0.01 * 0.5, rel=1e-6)
    assert row["method"] == "from end to end over ground, crossfall across 2 m"
    assert row["finding"] is None
    table_rows = rows_of(told["CROSSFALLS"])
    assert [(r["chainage_m"], round(r["cross_ratio"], 9)) for r in table_rows] == [(0.0, 0.0), (8.0, 0.16)]
    assert [r["feature"] for r in table_rows] == ["Way 0"] * 2
    assert [r["cross_ratio_sigma"] for r in table_rows] == pytest.approx([0.01 / math.sqrt(2)] * 2, rel=1e-6)


def test_the_width_comes_from_the_column_or_is_none(provider, tmp_path):
    surface = surface_layer(tmp_path, ROOF)
    texts = ["LINESTRING Z(5 1 0,5 9 0)"] * 3
    layer = lines_of(surface, texts, [{"width_m": 2.0}, {"width_m": None}, {"width_m": -1.0}])
    rows = rows_of(run(provider, "measure_gradients", INPUT=layer, SURFACE=surface)["OUTPUT"])
    # Going north over 1:10 up to the east, the right is higher.
    assert [r["cross_ratio"] for r in rows[:2]] == pytest.approx([-0.1, -0.1], abs=1e-9)
    assert [r["method"].partition(", ")[2] for r in rows[:2]] == [
        "crossfall across 2 m",
        "crossfall of the triangles under it",
    ]
    assert rows[2]["cross_ratio"] is None
    assert rows[2]["along_ratio"] == pytest.approx(0.0, abs=1e-9)
    assert rows[2]["finding"] == (
        "A way cannot be -1 m wide. Give its width in metres, or 0 where it is not known."
    )


def test_a_way_at_the_rim_tells_what_has_no_ground_under_its_whole_width(provider, tmp_path):
    surface = surface_layer(tmp_path, ROOF)
    layer = lines_of(surface, ["LINESTRING Z(1 1 0,9 1 0,9 9.5 0)", "LINESTRING Z(0.2 1 0,0.2 9 0)"])
    rows = rows_of(run(provider, "measure_gradients", INPUT=layer, SURFACE=surface, WIDTH=2.0)["OUTPUT"])
    assert (rows[0]["cross_ratio"], rows[0]["finding"]) == (pytest.approx(-0.1 * 8.5 / 16.5, abs=1e-9), None)
    assert rows[1]["cross_ratio"] is None
    assert rows[1]["finding"] == (
        "No ground of the surface lies under the way. Move it, or build the surface farther."
    )
    part = lines_of(surface, ["LINESTRING Z(5 0 0,0.5 10 0)"])
    (row,) = rows_of(run(provider, "measure_gradients", INPUT=part, SURFACE=surface, WIDTH=2.0)["OUTPUT"])
    assert "m of it have no ground of the surface under their whole width." in row["finding"]


def test_areas_by_slope_add_up_to_the_area(provider, tmp_path):
    """Half of a 10 m square at 1:10, the other at 40 %, in outlines of 64 and 10 m2, the second 2 m2 beside the ground."""
    steep = ["POLYGON Z((10 0 1,20 0 5,20 10 5,10 0 1))", "POLYGON Z((10 0 1,20 10 5,10 10 1,10 0 1))"]
    surface = surface_layer(tmp_path, [*ROOF, *steep])
    areas = memory_layer(
        "Polygon", "", ["POLYGON((6 1,14 1,14 9,6 9,6 1))", "POLYGON((1 -1,6 -1,6 1,1 1,1 -1))"]
    )
    areas.setCrs(QgsVectorLayer(surface, "s", "ogr").crs())
    told = run(
        provider,
        "measure_gradients",
        INPUT=areas,
        SURFACE=surface,
        BANDS="5 %, 1:4, 0.5",
        SIGMA=0.001,
        BY_SLOPE="memory:",
    )
    rows = rows_of(told["BY_SLOPE"])
    assert [(r["feature"], r["from_ratio"], r["to_ratio"]) for r in rows[:4]] == [
        ("row 0", 0.0, 0.05),
        ("row 0", 0.05, 0.25),
        ("row 0", 0.25, 0.5),
        ("row 0", 0.5, None),
    ]
    assert [r["area_m2"] for r in rows] == pytest.approx([0, 32, 32, 0, 0, 5, 0, 0], abs=1e-6)
    assert [r["part_ratio"] for r in rows] == pytest.approx([0, 0.5, 0.5, 0, 0, 1, 0, 0], abs=1e-9)
    assert max(r["area_m2_sigma"] for r in rows) < 1e-6
    assert {r["method"] for r in rows} == {"areas of the surface's triangles by their slopes"}
    assert {r["finding"] for r in rows} == {None}


def test_bands_narrower_than_what_slopes_are_worth_are_told(provider, tmp_path):
    surface = surface_layer(tmp_path, ROOF)
    areas = memory_layer("Polygon", "", ["POLYGON((1 1,9 1,9 9,1 9,1 1))"])
    areas.setCrs(QgsVectorLayer(surface, "s", "ogr").crs())
    given = {"INPUT": areas, "SURFACE": surface, "BANDS": "9 %, 11 %", "SIGMA": 0.1, "BY_SLOPE": "memory:"}
    rows = rows_of(run(provider, "measure_gradients", **given)["BY_SLOPE"])
    assert rows[0]["finding"] == (
        "The slopes of single triangles are worth 1.4 % and the narrowest band is 2.0 % wide: noise makes ground steeper than "
        "it is. Take wider bands, or fewer and better levels."
    )
    assert rows[1]["area_m2_sigma"] > 10.0


def test_the_default_bands_are_those_of_mowing(provider, tmp_path):
    surface = surface_layer(tmp_path, ROOF)
    areas = memory_layer("Polygon", "", ["POLYGON((1 1,9 1,9 9,1 9,1 1))"])
    areas.setCrs(QgsVectorLayer(surface, "s", "ogr").crs())
    rows = rows_of(
        run(provider, "measure_gradients", INPUT=areas, SURFACE=surface, BY_SLOPE="memory:")["BY_SLOPE"]
    )
    assert [r["to_ratio"] for r in rows[:3]] == pytest.approx([0.1, 0.25, 1 / 3])
    assert sum(r["area_m2"] for r in rows) == pytest.approx(64.0, abs=1e-6)


def test_tables_that_have_nothing_to_tell_stay_empty_and_that_is_said(provider, tmp_path):
    surface = surface_layer(tmp_path, ROOF)
    areas = memory_layer("Polygon", "", ["POLYGON((1 1,9 1,9 9,1 9,1 1))"])
    areas.setCrs(QgsVectorLayer(surface, "s", "ogr").crs())
    for given, name, what in (
        ({"INPUT": areas}, "BY_SLOPE", "areas"),
        ({"INPUT": areas, "SURFACE": surface}, "CROSSFALLS", "lines"),
        ({"INPUT": lines_of(surface, [MIDDLE]), "SURFACE": surface}, "BY_SLOPE", "areas"),
    ):
        said = Said()
        told = run(provider, "measure_gradients", said, **given, **{name: "memory:"})
        assert rows_of(told[name]) == []
        assert f"{name} stays empty: it is of {what} over a SURFACE." in said.warnings


@pytest.mark.parametrize("word", ["steep", "1:", "1:0", "5 o/o", ""])
def test_a_bound_that_is_none_is_refused(word):
    with pytest.raises(BadInput) as caught:
        read_bounds(["0.25", word])
    assert str(caught.value) == (
        f'BANDS: "{word}" is no slope. Write bounds with commas between, as 5 %, as 1:4 or as 0.25.'
    )
    assert read_bounds(["5 %", "2.5%", "1:4", "0.3"]) == pytest.approx((0.05, 0.025, 0.25, 0.3))


CROSS = ("Cross,path,crossfall,2.5,,%,,my code,seen,", "Ramp cross,ramp,crossfall,2,,%,,my code,seen,")


def test_a_path_and_a_ramp_of_one_line_are_held_against_limits_of_crossfall(provider, tmp_path):
    surface = surface_layer(tmp_path, TWISTED)
    given = {"SURFACE": surface, "LIMITS": table(tmp_path, *CROSS), "SIGMA": 0.001, "PLAN_SIGMA": 0.001}
    half = "LINESTRING Z(0 0 0,1 0 0.01)"
    paths = lines_of(surface, [RISING, half], [{"width_m": 2.0}] * 2)
    rows = rows_of(run(provider, "check_limits", PATHS=paths, **given)["OUTPUT"])
    assert [(r["feature"], r["quantity"], r["outcome"]) for r in rows] == [
        ("Way 0", "crossfall", "fail"),
        ("Way 1", "crossfall", "pass"),
    ]
    assert [r["figure_ratio"] for r in rows] == pytest.approx([0.16, 0.02], abs=1e-9)
    assert rows[0]["figure_ratio_sigma"] == pytest.approx(0.001 / math.sqrt(2), rel=1e-6)
    assert rows[0]["method"].endswith(", crossfall across 2 m over ground")
    # 5 m of flight, then a landing: each has the greatest of its own.
    ramp = lines_of(surface, ["LINESTRING Z(0 0 0,5 0 0.4,8 0 0.4)"])
    limits = table(tmp_path, *CROSS, "Rest,landing,crossfall,2,,%,,my code,seen,")
    rows = rows_of(
        run(provider, "check_limits", RAMPS=ramp, WIDTH=2.0, **{**given, "LIMITS": limits})["OUTPUT"]
    )
    assert [(r["applies_to"], r["place"]) for r in rows] == [("ramp", "flight 1"), ("landing", "landing 1")]
    assert [r["figure_ratio"] for r in rows] == pytest.approx([0.1, 0.16], abs=1e-9)


def test_without_a_surface_under_it_a_way_has_no_crossfall(provider, tmp_path):
    surface = surface_layer(tmp_path, TWISTED)
    limits = table(tmp_path, *CROSS, "Slope,path,gradient,5,,%,,my code,seen,")
    far = lines_of(surface, ["LINESTRING Z(100 0 0,108 0 0.1)"])
    for given in ({"SURFACE": surface, "PATHS": far}, {"PATHS": lines_of(surface, [RISING])}):
        rows = rows_of(run(provider, "check_limits", LIMITS=limits, **given)["OUTPUT"])
        assert [r["quantity"] for r in rows] == ["gradient"]


def test_a_way_without_heights_takes_those_of_the_surface(provider, tmp_path):
    """1:10 up to the east: 8 m, whose two ends are worth what the surface's points are worth there together."""
    surface = surface_layer(tmp_path, ROOF)
    limits = table(tmp_path, *CROSS, "Slope,path,gradient,5,,%,,my code,seen,")
    given = {"SURFACE": surface, "LIMITS": limits, "SIGMA": 0.01, "WIDTH": 1.0}
    paths = lines_of(surface, ["LINESTRING Z(1 5 0,9 5 0)", "LINESTRING Z(1 5 0,19 5 0)"])
    rows = rows_of(run(provider, "check_limits", PATHS=paths, **given)["OUTPUT"])
    assert [(r["feature"], r["quantity"], r["outcome"]) for r in rows] == [
        ("Way 0", "gradient", "fail"),
        ("Way 0", "crossfall", "pass"),
        ("Way 1", None, None),
    ]
    assert rows[0]["figure_ratio"] == pytest.approx(0.1, abs=1e-9)
    # At 1 and 9 m east, 5 m north: the levels are weights of the corners (0,0), (10,0), (10,10), (0,10), each of 1 cm.
    start, end = (0.5, 0.0, 0.1, 0.4), (0.1, 0.4, 0.5, 0.0)
    worth = 0.01 * math.sqrt(sum((a - b) ** 2 for a, b in zip(start, end))) / 8.0
    assert rows[0]["figure_ratio_sigma"] == pytest.approx(worth, rel=1e-6)
    assert rows[0]["method"].endswith("heights of the surface")
    assert rows[2]["finding"] == (
        "GE-07: The line has no heights of its own and leaves the surface. Give it heights, shorten it, or build the surface "
        "farther."
    )
