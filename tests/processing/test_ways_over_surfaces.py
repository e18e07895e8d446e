# SPDX-License-Identifier: GPL-2.0-or-later
"""Crossfalls of ways that are one line over a surface, in gradients and in limits; areas by bands of slope."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from qgis.core import QgsCoordinateReferenceSystem, QgsFeature, QgsGeometry, QgsVectorLayer

from plugin.bridge.gradient_tables import read_bounds
from plugin.bridge.surfaces import write_surface
from plugin.core.errors import BadInput
from plugin.core.measure.layer.fits import FlatPlane
from tests.core.ground.grounds import surface_of
from tests.processing.layers import memory_layer, rows_of
from tests.processing.test_limits import GRID, ROOF, Said, run, surface_layer, table

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
        "No ground of the surface lies under the way. Move it, or extend the surface."
    )
    part = lines_of(surface, ["LINESTRING Z(5 0 0,0.5 10 0)"])
    (row,) = rows_of(run(provider, "measure_gradients", INPUT=part, SURFACE=surface, WIDTH=2.0)["OUTPUT"])
    assert "m of it have no ground of the surface under their whole width." in row["finding"]


def test_areas_by_slope_add_up_to_the_area(provider, tmp_path):
    """Half of a 10 m square at 1:10, the other at 40 %, in outlines of 64 and 10 m2, the second half beside the ground."""
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
    assert [r["left_out_m2"] for r in rows] == pytest.approx([0] * 4 + [5] * 4, abs=1e-6)
    assert [r["finding"] for r in rows] == [None] * 4 + [
        "5.00 m2 of it do not lie on the surface and are left out."
    ] * 4


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
    by_slope = "Areas by slope: none are told, for they need a layer of areas and a surface."
    crossfalls = "Crossfalls along lines: none are told, for they need a layer of lines and a surface."
    for given, name, words in (
        ({"INPUT": areas}, "BY_SLOPE", by_slope),
        ({"INPUT": areas, "SURFACE": surface}, "CROSSFALLS", crossfalls),
        ({"INPUT": lines_of(surface, [MIDDLE]), "SURFACE": surface}, "BY_SLOPE", by_slope),
    ):
        said = Said()
        told = run(provider, "measure_gradients", said, **given, **{name: "memory:"})
        assert rows_of(told[name]) == []
        assert words in said.warnings


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


SLOPE = "Slope,path,gradient,5,,%,,my code,seen,"
NO_GROUND = "No ground of the surface lies under the way. Move it, or extend the surface."
NO_WAY = "A way cannot be 1500 m wide. Give its width in metres, or 0 where it is not known."


@pytest.mark.parametrize(
    ("line", "width", "why"),
    [
        ("LINESTRING Z(100 0 0,108 0 0.1)", 0.0, NO_GROUND),  # off the surface
        (RISING, 3.0, NO_GROUND),  # wider than the ground
        (RISING, 1500.0, NO_WAY),  # typed in millimetres
    ],
)
def test_a_crossfall_that_the_surface_does_not_tell_is_open_with_the_reason(
    line, width, why, provider, tmp_path
):
    surface = surface_layer(tmp_path, TWISTED)
    ways = lines_of(surface, [line], [{"width_m": width}])
    told = run(
        provider,
        "check_limits",
        SURFACE=surface,
        PATHS=ways,
        LIMITS=table(tmp_path, *CROSS, SLOPE),
        SIGMA=0.001,
    )
    gradient, cross = sorted(rows_of(told["OUTPUT"]), key=lambda row: row["quantity"], reverse=True)
    assert (gradient["quantity"], gradient["outcome"], gradient["finding"]) == ("gradient", "pass", None)
    assert [cross[name] for name in ("quantity", "limit", "outcome", "allowed", "finding")] == [
        "crossfall",
        "Cross",
        "cannot tell",
        "2.5 % or less",
        f"RS-01: Cannot tell. {why}",
    ]
    assert [cross[name] for name in ("measured", "figure_ratio", "figure_ratio_sigma", "chance_ratio")] == [
        None
    ] * 4
    assert (told["PASSED"], told["FAILED"], told["OPEN"]) == (1, 0, 1)


def test_without_a_surface_a_way_of_one_line_has_no_crossfall(provider, tmp_path):
    ways = lines_of(surface_layer(tmp_path, TWISTED), [RISING])
    told = run(provider, "check_limits", LIMITS=table(tmp_path, *CROSS, SLOPE), PATHS=ways)
    assert [row["quantity"] for row in rows_of(told["OUTPUT"])] == ["gradient"]


def test_a_way_of_which_a_part_alone_lies_on_the_surface_cannot_be_told_unless_that_part_fails(
    provider, tmp_path
):
    """91 m of which one is on a surface that is level across; and 8 m of 16 % at most, 4 m of which are on it."""
    surface = surface_layer(tmp_path, TWISTED)
    limits = table(tmp_path, *CROSS, SLOPE, "Rest,landing,crossfall,2,,%,,my code,seen,")
    given = {"SURFACE": surface, "LIMITS": limits, "SIGMA": 0.001, "WIDTH": 2.0}
    texts = [
        "LINESTRING Z(-90 0 0,1 0 0.1)",
        "LINESTRING Z(4 0 0,12 0 0.1)",
        "LINESTRING Z(0 0 0,1.001 0 0.01)",
    ]
    rows = rows_of(run(provider, "check_limits", PATHS=lines_of(surface, texts), **given)["OUTPUT"])
    cross = [row for row in rows if row["quantity"] == "crossfall"]
    assert [row["outcome"] for row in cross] == ["cannot tell", "fail", "pass"]
    assert cross[0]["figure_ratio"] == pytest.approx(0.02, abs=1e-9)
    assert cross[0]["chance_ratio"] is None
    assert cross[0]["finding"] == (
        "RS-01: Cannot tell. 90.00 m of it have no ground of the surface under their whole width."
    )
    assert cross[1]["finding"] == (
        "RS-01: It is outside the limit beyond what it is worth. Change it, or choose the limit that holds. 4.00 m of it "
        "have no ground of the surface under their whole width."
    )
    assert cross[2]["finding"] is None
    # A flight of 0.9 m on the surface, and a landing that is not: each is told by itself.
    ramp = lines_of(surface, ["LINESTRING Z(-3 0 0,0 0 0,0.9 0 0.07)"])
    rows = rows_of(run(provider, "check_limits", RAMPS=ramp, **given)["OUTPUT"])
    assert [(row["applies_to"], row["outcome"]) for row in rows] == [
        ("ramp", "pass"),
        ("landing", "cannot tell"),
    ]


def test_an_area_of_which_a_part_alone_lies_on_the_surface_cannot_be_told(provider, tmp_path):
    """10 m2 of 1:10, all on the surface but a thousandth; and 64 m2 of which 10 are."""
    surface = surface_layer(tmp_path, ROOF)
    areas = memory_layer(
        "Polygon", "", ["POLYGON((0 1,10.01 1,10.01 9,0 9,0 1))", "POLYGON((8 1,16 1,16 9,8 9,8 1))"]
    )
    areas.setCrs(QgsVectorLayer(surface, "s", "ogr").crs())
    limits = table(
        tmp_path,
        "A,fall,gradient,20,,%,,x,seen,",
        "B,fall,steepest,5,,%,,x,seen,",
        "C,fall,flattest,,5,%,,x,seen,",
    )
    told = run(provider, "check_limits", FALLS=areas, SURFACE=surface, LIMITS=limits, SIGMA=0.001)
    rows = rows_of(told["OUTPUT"])
    few, much = (f"{left} m2 of it do not lie on the surface and are left out." for left in ("0.08", "48.00"))
    out = "DR-01: The fall is outside the limit beyond what it is worth. Change levels, or accept it."
    assert [(row["limit"], row["outcome"], row["finding"]) for row in rows] == [
        ("A", "pass", few),
        ("B", "fail", f"{out} {few}"),
        ("C", "pass", few),
        ("A", "cannot tell", f"DR-01: Cannot tell. {much}"),
        ("B", "fail", f"{out} {much}"),
        ("C", "cannot tell", f"DR-01: Cannot tell. {much}"),
    ]
    assert rows[3]["chance_ratio"] is None


def weak_roof(folder):
    """The roof as a table of ours whose triangles nobody should lean on."""
    points = [(0, 0, 0), (10, 0, 1), (10, 10, 1), (0, 10, 0)]
    roof = surface_of(points, [[0, 1, 2], [0, 2, 3]], sigma=0.001)
    crs = QgsCoordinateReferenceSystem.fromWkt(GRID)
    weak = replace(roof, is_weak=np.ones(2, bool))
    return str(write_surface(weak, "ground", folder / "weak.gpkg", FlatPlane(1.0), crs))


def test_weak_triangles_under_ways_and_areas_are_told(provider, tmp_path):
    surface = weak_roof(tmp_path)
    areas = memory_layer("Polygon", "", ["POLYGON((1 1,9 1,9 9,1 9,1 1))"])
    areas.setCrs(QgsVectorLayer(surface, "s", "ogr").crs())
    limits = table(tmp_path, *CROSS, "A,fall,gradient,20,,%,,x,seen,", "B,path,gradient,20,,%,,x,seen,")
    ways = lines_of(surface, ["LINESTRING Z(1 5 0,9 5 0.01)", "LINESTRING(1 5,9 5)"])
    given = {
        "FALLS": areas,
        "PATHS": ways,
        "SURFACE": surface,
        "LIMITS": limits,
        "SIGMA": 0.001,
        "WIDTH": 1.0,
    }
    rows = rows_of(run(provider, "check_limits", **given)["OUTPUT"])
    weak = "It crosses weak triangles."
    assert [(row["feature"], row["quantity"], row["outcome"], row["finding"]) for row in rows] == [
        ("Way 0", "gradient", "pass", None),  # by its own heights
        ("Way 0", "crossfall", "pass", weak),
        ("Way 1", "gradient", "pass", weak),
        ("Way 1", "crossfall", "pass", weak),
        ("row 0", "gradient", "pass", "64.00 m2 of it lie on weak triangles."),
    ]
    # What a surface says its points are worth is its own where it is not what was stated.
    assert {row["sigma_from"] for row in rows[2:4]} == {"assumed"}
    run_again = {**given, "SIGMA": 0.02}
    rows = rows_of(run(provider, "check_limits", **run_again)["OUTPUT"])
    assert {row["sigma_from"] for row in rows[2:4]} == {"surface"}


def test_a_way_laid_on_a_surface_without_its_own_sigma_rests_on_the_stated_one(provider, tmp_path):
    surface = surface_layer(tmp_path, ROOF)
    ways = lines_of(surface, ["LINESTRING(1 5,9 5)"])
    given = {"PATHS": ways, "SURFACE": surface, "LIMITS": table(tmp_path, SLOPE), "SIGMA": 0.01}
    (row,) = rows_of(run(provider, "check_limits", **given)["OUTPUT"])
    assert (row["method"].endswith("heights of the surface"), row["sigma_from"]) == (True, "assumed")


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
        "GE-07: The line has no heights of its own and leaves the surface. Give it heights, shorten it, or extend the "
        "surface."
    )
