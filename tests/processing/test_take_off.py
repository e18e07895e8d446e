# SPDX-License-Identifier: GPL-2.0-or-later
"""Faces, walls, slabs, trees and planting of layers in any CRS."""

from __future__ import annotations

import math

import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProject,
    QgsProperty,
    QgsVectorLayer,
    QgsWkbTypes,
)

from tests.processing.layers import memory_layer, rows_of

GRID = "EPSG:32631"
ON_GROUND = 1 / 0.9996
"""Ground length by grid length on the zone's central meridian."""
X, Y = 500000, 5600000


def run(provider, name, layer, **parameters):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    parameters.setdefault("OUTPUT", "memory:")
    results, good = (
        provider.algorithm(name)
        .create()
        .run({"INPUT": layer, **parameters}, context, QgsProcessingFeedback(), {}, catchExceptions=False)
    )
    assert good
    return {key: context.takeResultLayer(str(place)) or place for key, place in results.items()}


def parts_layer(kind, rows):
    """A layer with feature and part: (feature, part, points)."""
    layer = QgsVectorLayer(f"{kind}?crs={GRID}&field=feature:string&field=part:string", "walls", "memory")
    features = memory_layer(kind, GRID, [text(points) for _, _, points in rows]).getFeatures()
    out = []
    for (feature, part, _), row in zip(rows, features):
        row.setFields(layer.fields(), True)
        row.setAttributes([feature, part])
        out.append(row)
    assert layer.dataProvider().addFeatures(out)[0]
    return layer


def text(points):
    """A line Z on the ground about a place on the central meridian; points in ground metres."""
    return f"LINESTRING Z({', '.join(f'{X + x / ON_GROUND!r} {Y + y / ON_GROUND!r} {z!r}' for x, y, z in points)})"


def plot(points, kind="POLYGON"):
    body = ", ".join(
        " ".join(map(repr, (X + p[0] / ON_GROUND, Y + p[1] / ON_GROUND, *p[2:]))) for p in points
    )
    return f"{kind}(({body}))"


def in_crs(wkt, crs):
    geometry = QgsGeometry.fromWkt(wkt)
    way = QgsCoordinateTransform(
        QgsCoordinateReferenceSystem(GRID), QgsCoordinateReferenceSystem(crs), QgsProject.instance()
    )
    geometry.transform(way)
    return geometry.asWkt(14)


WALL = [
    ("W1", "foot", [(0, 0, 5), (15, 0, 5)]),
    ("W1", "top", [(15, 0, 7), (10, 0, 7), (0, 0, 6)]),
    ("W2", "top", [(0, 9, 7), (5, 9, 7)]),
    ("W3", "", [(0, 20, 0.5), (4, 20, 0.5)]),
]


def test_walls_take_their_height_from_foot_and_top_and_say_what_is_missing(provider):
    out = run(
        provider, "measure_walls", parts_layer("LineStringZ", WALL), SIGMA=0.01, COURSE=0.2, DESIGN_HEIGHT=1.9
    )
    foot, top, alone, bare = rows_of(out["OUTPUT"])
    assert foot["face_m2"] == pytest.approx(25.0, rel=1e-5)
    assert (foot["height_max_m"], foot["height_min_m"]) == (pytest.approx(2.0), pytest.approx(1.0))
    assert foot["courses"] == 10
    assert foot["front_m"] == pytest.approx(15.0, rel=1e-5)
    assert foot["finding"] == (
        "RW-01: The retained height reaches the designer's limit of 1.9 m with a chance of 100 %. Have it designed; "
        "enter the name."
    )
    assert (top["method"], top["finding"]) == ("counted with W1, foot (row 1)", None)
    assert top["face_m2"] is None
    assert alone["finding"] == "GE-07: The wall has a top only. Walk its foot, or give a height."
    assert bare["finding"] == (
        "GE-07: The wall has no height: neither a top over its foot nor a size. Walk the other line, or give a height."
    )
    assert (out["MEASURED"], out["REFUSED"], out["TOTAL"]) == (1, 2, pytest.approx(25.0, rel=1e-5))


def test_a_walls_height_and_thickness_may_come_from_columns(provider):
    arc = f"COMPOUNDCURVE(CIRCULARSTRING({X} {Y},{X + 10} {Y + 10},{X + 20} {Y}))"
    out = run(
        provider,
        "measure_walls",
        memory_layer("CompoundCurve", GRID, [arc, arc]),
        WALL_HEIGHT=QgsProperty.fromExpression("100 * size"),
        THICKNESS=0.4 * ON_GROUND,
        LIES=1,
        UNIT=0.915,
        SIGMA=0.0,
        SIZE_SIGMA=0.0,
    )
    one, two = rows_of(out["OUTPUT"])
    # Drawn clockwise, a wall to the left lies outside: the back is the longer.
    assert one["front_m"] == pytest.approx(10 * math.pi * ON_GROUND, rel=1e-6)
    assert one["back_m"] == pytest.approx(10.4 * math.pi * ON_GROUND, rel=1e-6)
    assert one["face_m2"] == pytest.approx(one["front_m"] * 1.0)
    assert two["face_m2"] == pytest.approx(one["front_m"] * 2.0)
    assert one["sag_m"] == pytest.approx(0.915**2 / (8 * 10 * ON_GROUND), rel=1e-5)
    assert (one["straight_units"], one["radius_units"]) == (0, 35)


@pytest.mark.parametrize("crs", [GRID, "EPSG:4326", "EPSG:3857"])
def test_a_slab_is_the_same_in_every_crs(crs, provider):
    outline = in_crs(plot([(0, 0), (10, 0), (10, 5), (0, 5), (0, 0)]), crs)
    layer = memory_layer("Polygon", crs, [outline, None])
    out = run(
        provider,
        "measure_slabs",
        layer,
        THICKNESS=0.15,
        EDGE_DEPTH=0.2,
        EDGE_WIDTH=0.3,
        JOINT_FACTOR=24,
        WASTE=5,
        STEP=0.25,
    )
    slab, nothing = rows_of(out["OUTPUT"])
    edge = 0.06 * (30 - 8 * 0.15)
    assert slab["edge_m3"] == pytest.approx(edge, rel=1e-5)
    assert slab["concrete_m3"] == pytest.approx(7.5 + edge, rel=1e-5)
    assert slab["ordered_m3"] == 9.75
    assert slab["form_straight_over_m"] == pytest.approx(30.0, rel=1e-5)
    assert (slab["bays"], slab["joint_m"]) == (6, pytest.approx(20.0, rel=1e-5))
    assert nothing["finding"].startswith("GE-07: There is no geometry.")
    assert nothing["concrete_m3"] is None


def test_a_slab_over_a_level_varies_in_thickness(provider):
    corners = [(0, 0, 10.20), (10, 0, 10.30), (10, 5, 10.35), (0, 5, 10.25), (0, 0, 10.20)]
    layer = memory_layer("PolygonZ", GRID, [plot(corners, "POLYGON Z")])
    (slab,) = rows_of(run(provider, "measure_slabs", layer, BOTTOM=10.0)["OUTPUT"])
    assert slab["concrete_m3"] == pytest.approx(50 * 0.275, rel=1e-5)
    assert (slab["thickness_min_m"], slab["thickness_max_m"]) == (pytest.approx(0.2), pytest.approx(0.35))


@pytest.mark.parametrize("crs", [GRID, "EPSG:4326", "EPSG:25831"])
def test_a_slab_over_a_surface_in_another_crs(crs, provider):
    """Top level at 10; the ground falls by 0.01 a metre eastward from 9.8 under the slab's western edge."""
    corners = [(-1, -1, 9.81), (11, -1, 9.69), (11, 7, 9.69), (-1, 7, 9.81)]
    triangles = [plot([corners[k] for k in row], "POLYGON Z") for row in ((0, 1, 2, 0), (0, 2, 3, 0))]
    surface = memory_layer("PolygonZ", GRID, triangles)
    top = in_crs(plot([(0, 0, 10), (10, 0, 10), (10, 5, 10), (0, 5, 10), (0, 0, 10)], "POLYGON Z"), crs)
    out = run(provider, "measure_slabs", memory_layer("PolygonZ", crs, [top]), SURFACE=surface, SIGMA=0.01)
    (slab,) = rows_of(out["OUTPUT"])
    assert slab["concrete_m3"] == pytest.approx(12.5, rel=1e-5)
    assert (slab["thickness_min_m"], slab["thickness_max_m"]) == (pytest.approx(0.2), pytest.approx(0.3))
    assert slab["form_straight_300_m"] == pytest.approx(30.0, rel=1e-5)


def test_a_slab_that_crosses_itself_is_refused_with_its_place(provider):
    bow = plot([(0, 0), (10, 10), (10, 0), (0, 10), (0, 0)])
    (row,) = rows_of(
        run(provider, "measure_slabs", memory_layer("Polygon", GRID, [bow]), THICKNESS=0.1)["OUTPUT"]
    )
    assert row["finding"].startswith("GE-01: The outline crosses itself")


def test_faces_by_width_between_edges_and_in_their_own_plane(provider):
    rows = [
        ("Bank", "foot", [(0, 0, 0), (10, 0, 0)]),
        ("Bank", "top", [(0, 3, 4), (10, 3, 4)]),
        ("Face", "profile", [(0, 50, 0), (3, 50, 4)]),
    ]
    out = run(provider, "measure_faces", parts_layer("LineStringZ", rows), WIDTH=2.5)
    bank, other, profile = rows_of(out["OUTPUT"])
    assert bank["face_m2"] == pytest.approx(50.0, rel=1e-5)
    assert (other["method"], other["finding"]) == ("counted with Bank, foot (row 1)", None)
    # Its figures are in the other's row, so that nobody is warned.
    assert (out["MEASURED"], out["REFUSED"]) == (2, 0)
    assert profile["face_m2"] == pytest.approx(12.5, rel=1e-5)
    assert profile["sigma_from"] == "assumed"
    upright = plot([(0, 0, 1), (3, 4, 1), (3, 4, 3), (0, 0, 3), (0, 0, 1)], "POLYGON Z")
    out = run(provider, "measure_faces", memory_layer("PolygonZ", GRID, [upright]))
    assert rows_of(out["OUTPUT"])[0]["face_m2"] == pytest.approx(10.0, rel=1e-5)


def test_a_face_without_width_or_partner_is_refused(provider):
    out = run(provider, "measure_faces", parts_layer("LineStringZ", WALL[2:]))
    words = "GE-07: The face has no width above 0. Give its width, or draw its other edge."
    assert [row["finding"] for row in rows_of(out["OUTPUT"])] == [words, words]


def test_two_rows_of_one_edge_are_refused(provider):
    out = run(provider, "measure_walls", parts_layer("LineStringZ", [WALL[0], WALL[0], WALL[1]]))
    words = "GE-07: Two rows are the foot of W1. Give each thing a name of its own, or join the rows."
    assert [row["finding"] for row in rows_of(out["OUTPUT"])] == [words] * 3


def survey_lengths(slope, codes=None):
    """A row as the survey's GeoPackage has it, of a line of 5 m along the slope."""
    names = "walk:string feature:string method:string finding:string sigma_from:string slope_length_m:double slope_length_m_sigma:double length_m:double length_m_sigma:double"
    fields = "&".join(f"field={name}" for name in names.split())
    layer = QgsVectorLayer(f"LineStringZ?crs={GRID}&{fields}", "lengths", "memory")
    row = next(memory_layer("LineStringZ", GRID, [text([(0, 0, 0), (3, 0, 4)])]).getFeatures())
    row.setFields(layer.fields(), True)
    row.setAttributes(["W1", "Face", "straight", codes, "instruments", slope, 0.003, slope, 0.003])
    assert layer.dataProvider().addFeatures([row])[0]
    return layer


def test_a_surveys_own_length_and_sigma_are_taken_where_the_line_is_its(provider):
    (row,) = rows_of(run(provider, "measure_faces", survey_lengths(5.00001), WIDTH=2, SIZE_SIGMA=0)["OUTPUT"])
    assert row["face_m2_sigma"] == pytest.approx(0.006)
    assert row["sigma_from_2"] == "instruments"
    (row,) = rows_of(run(provider, "measure_faces", survey_lengths(5.1), WIDTH=2, SIZE_SIGMA=0)["OUTPUT"])
    assert row["face_m2"] == pytest.approx(10.0, rel=1e-5)
    assert row["sigma_from_2"] == "assumed"


@pytest.mark.parametrize("name", ["measure_faces", "measure_walls"])
def test_what_the_survey_kept_out_stays_out(name, provider):
    layer = survey_lengths(None, "GE-03")
    (row,) = rows_of(run(provider, name, layer, **BAD[name][1])["OUTPUT"])
    assert row["finding_2"] == (
        "GE-07: The survey kept this row's figures out (GE-03). Answer its findings in the decisions file and run the "
        "survey again."
    )


def test_left_and_right_are_no_foot_and_top(provider):
    rows = [("Ramp", "left", [(0, 0, 1), (9, 0, 2)]), ("Ramp", "right", [(0, 2, 1), (9, 2, 2)])]
    out = run(provider, "measure_walls", parts_layer("LineStringZ", rows), WALL_HEIGHT=1)
    assert [row["face_m2"] for row in rows_of(out["OUTPUT"])] == [pytest.approx(9.0, rel=1e-5)] * 2
    out = run(provider, "measure_faces", parts_layer("LineStringZ", rows))
    assert rows_of(out["OUTPUT"])[0]["face_m2"] == pytest.approx(2 * math.hypot(9, 1), rel=1e-5)


TREES = [f"POINT({X} {Y})", f"POINT({X + 100} {Y})", f"POINT({X + 200} {Y})"]


def test_trees_get_true_circles_and_tell_what_works_take(provider):
    works = memory_layer("Polygon", GRID, [plot([(2, -10), (10, -10), (10, 10), (2, 10), (2, -10)])])
    out = run(
        provider,
        "protect_trees",
        memory_layer("Point", GRID, TREES),
        STEM=QgsProperty.fromExpression("case when size < 0.025 then 30 * size end"),
        WORKS=works,
        OVERLAPS="memory:",
        SIGMA=0.01,
    )
    one, two, three = rows_of(out["OUTPUT"])
    assert (one["radius_m"], two["radius_m"]) == (pytest.approx(3.6), pytest.approx(7.2))
    taken = 3.6**2 * math.acos(2 / 3.6) - 2 * math.sqrt(3.6**2 - 4)
    assert one["taken_m2"] == pytest.approx(taken, rel=1e-4)
    assert one["taken_ratio"] == pytest.approx(taken / (math.pi * 3.6**2), rel=1e-4)
    assert one["finding"] == (
        f"TR-01: Works take {taken:.2f} m2 of the protected root area (rows 1). Move them, dig by hand, or enter the "
        "arborist's name."
    )
    assert (two["taken_m2"], two["finding"]) == (0.0, None)
    assert three["finding"].startswith("GE-07: The tree has no stem diameter above 0.")
    circles = [feature.geometry() for feature in out["OUTPUT"].getFeatures()]
    assert circles[0].wkbType() == QgsWkbTypes.Type.CurvePolygon
    assert circles[0].constGet().area() == pytest.approx(math.pi * (3.6 / ON_GROUND) ** 2, rel=1e-6)
    assert circles[2].isNull()
    (overlap,) = rows_of(out["OVERLAPS"])
    assert (overlap["tree_row"], overlap["works_row"]) == (1, 1)
    assert overlap["overlap_m2"] == pytest.approx(taken, rel=1e-4)
    (drawn,) = (f.geometry().area() for f in out["OVERLAPS"].getFeatures())
    assert drawn == pytest.approx(taken / ON_GROUND**2, rel=1e-2)


def test_several_stems_come_from_a_count_or_from_a_text(provider):
    layer = memory_layer("Point", "EPSG:4326", ["POINT(3 51)"])
    (row,) = rows_of(run(provider, "protect_trees", layer, STEM=0.15, STEMS=6)["OUTPUT"])
    assert row["stem_m"] == pytest.approx(0.15 * math.sqrt(6))
    layer = QgsVectorLayer("Point?crs=EPSG:4326&field=noted:string", "trees", "memory")
    feature = next(memory_layer("Point", "EPSG:4326", ["POINT(3 51)"]).getFeatures())
    feature.setFields(layer.fields(), True)
    feature.setAttributes(["0.3+0.4"])
    assert layer.dataProvider().addFeatures([feature])[0]
    (row,) = rows_of(run(provider, "protect_trees", layer, STEM_COLUMN="noted")["OUTPUT"])
    assert (row["stem_m"], row["radius_m"]) == (pytest.approx(0.5), pytest.approx(6.0))


def test_works_near_a_tree_that_do_not_reach_it_are_not_asked_about(provider):
    corner = memory_layer("Polygon", GRID, [plot([(2.7, 2.7), (9, 2.7), (9, 9), (2.7, 9), (2.7, 2.7)])])
    out = run(
        provider,
        "protect_trees",
        memory_layer("Point", GRID, TREES[:1]),
        STEM=0.3,
        WORKS=corner,
        OVERLAPS="memory:",
    )
    (tree,) = rows_of(out["OUTPUT"])
    assert (tree["taken_m2"], tree["finding"]) == (0.0, None)
    assert rows_of(out["OVERLAPS"]) == []


def test_works_that_cannot_be_measured_are_listed_with_the_reason(provider):
    bow = plot([(-5, -5), (5, 5), (5, -5), (-5, 5), (-5, -5)])
    out = run(
        provider,
        "protect_trees",
        memory_layer("Point", GRID, TREES[:1]),
        STEM=0.3,
        WORKS=memory_layer("Polygon", GRID, [bow]),
        OVERLAPS="memory:",
    )
    (overlap,) = rows_of(out["OVERLAPS"])
    assert overlap["overlap_m2"] is None
    assert overlap["overlap_finding"].startswith("GE-01: The outline crosses itself")
    (tree,) = rows_of(out["OUTPUT"])
    assert (tree["taken_m2"], tree["taken_m2_sigma"], tree["taken_ratio"]) == (None, None, None)
    assert tree["protected_m2"] == pytest.approx(math.pi * 3.6**2)
    assert tree["finding"] == (
        "TR-01: Works lie at the protected root area (rows 1), and what they take is not known, for some cannot be "
        "measured (rows 1). Mend their outlines; see the overlaps for why."
    )


def test_works_that_overlap_are_said_to_count_twice(provider):
    whole = plot([(-9, -9), (9, -9), (9, 9), (-9, 9), (-9, -9)])
    half = plot([(0, -9), (9, -9), (9, 9), (0, 9), (0, -9)])
    other = plot([(-9, -9), (0, -9), (0, 9), (-9, 9), (-9, -9)])
    for works, is_twice in (([whole, half], True), ([half, other], False)):
        layer = memory_layer("Polygon", GRID, works)
        (tree,) = rows_of(
            run(provider, "protect_trees", memory_layer("Point", GRID, TREES[:1]), STEM=0.3, WORKS=layer)[
                "OUTPUT"
            ]
        )
        assert tree["taken_ratio"] == pytest.approx(1.5 if is_twice else 1.0, rel=1e-6)
        assert tree["finding"].endswith("Some of them overlap: what two cover counts twice.") == is_twice


def test_beds_and_rows_are_counted(provider):
    bed = memory_layer("Polygon", GRID, [plot([(0, 0), (10, 0), (10, 4), (0, 4), (0, 0)])])
    (row,) = rows_of(
        run(
            provider,
            "count_planting",
            bed,
            SPACING=0.5,
            PATTERN=1,
            SET_BACK=0.3,
            EXTRA=3,
            MULCH=0.075,
            SEED=35,
            ROLL_LENGTH=2.6,
            ROLL_WIDTH=0.401,
        )["OUTPUT"]
    )
    area = 9.4 * 3.4
    assert row["planted_m2"] == pytest.approx(area, rel=1e-5)
    assert row["plants"] == round(area / (0.25 * math.sqrt(3) / 2)) == 148
    assert row["plants_ordered"] == 153
    assert row["mulch_m3"] == pytest.approx(area * 0.075, rel=1e-5)
    assert row["seed_kg"] == pytest.approx(area * 0.035, rel=1e-5)
    assert row["rolls"] == 40  # ten strips of four
    line = memory_layer("LineString", GRID, [f"LINESTRING({X} {Y},{X + 6.1} {Y})"])
    (row,) = rows_of(run(provider, "count_planting", line, SPACING=0.3)["OUTPUT"])
    assert row["plants"] == 21
    assert row["planted_m2"] is None


def test_another_kind_of_layer_is_refused(provider):
    points = memory_layer("Point", GRID, TREES)
    with pytest.raises(QgsProcessingException, match="The layer holds points, and lines are to be measured"):
        run(provider, "measure_walls", points)
    with pytest.raises(
        QgsProcessingException, match="The layer holds points, and polygons are to be measured"
    ):
        run(provider, "measure_slabs", points)


BAD = {
    "measure_faces": ("LineStringZ", {"WIDTH": 1.0}),
    "measure_walls": ("LineStringZ", {"WALL_HEIGHT": 1.0, "THICKNESS": 0.2}),
    "measure_slabs": ("PolygonZ", {"THICKNESS": 0.1}),
    "count_planting": ("PolygonZ", {"SPACING": 0.5}),
    "measure_trenches": ("LineStringZ", {"WIDTH": 0.6, "DEPTH": 1.0}),
    "protect_trees": ("Point", {"STEM": 0.3}),
}
SHAPES = {
    "LineStringZ": (
        "LINESTRING Z EMPTY",
        "LINESTRING Z(1e30 0 1,2e30 5 1)",
        "LINESTRING Z(3 51 1,3.0001 51 2)",
    ),
    "PolygonZ": (
        "POLYGON Z EMPTY",
        "POLYGON Z((1e30 0 1,2e30 0 1,2e30 5 1,1e30 0 1))",
        "POLYGON Z((3 51 1,3.0001 51 1,3.0001 51.0001 1,3 51 1))",
    ),
    "Point": ("POINT EMPTY", "POINT(1e30 0)", "POINT(3 51)"),
}


@pytest.mark.parametrize("name", sorted(BAD))
def test_rows_without_a_place_are_refused_and_the_others_measured(name, provider):
    kind, more = BAD[name]
    out = run(provider, name, memory_layer(kind, "EPSG:4326", [None, *SHAPES[kind]]), **more)
    rows = rows_of(out["OUTPUT"])
    assert [bool(row["finding"]) for row in rows] == [True, True, True, False]
    assert [row["finding"][:6] for row in rows[:3]] == ["GE-07:"] * 3
    assert (out["MEASURED"], out["REFUSED"]) == (1, 3)


@pytest.mark.parametrize("name", sorted(BAD))
def test_a_layer_without_rows_gives_one_without_rows(name, provider):
    kind, more = BAD[name]
    out = run(provider, name, memory_layer(kind, "EPSG:4326", []), **more)
    assert rows_of(out["OUTPUT"]) == []
    assert (out["MEASURED"], out["TOTAL"]) == (0, 0.0)


def bare(row, names):
    """Columns and their one-sigmas that have no figure."""
    return [name for name in names if row[name] is None and row.get(f"{name}_sigma") is None]


def test_what_was_not_asked_for_has_no_figure_and_not_0(provider):
    (row,) = rows_of(
        run(provider, "measure_walls", parts_layer("LineStringZ", WALL[-1:]), WALL_HEIGHT=1.0)["OUTPUT"]
    )
    names = ["body_m3", "footing_m3", "backfill_m3", "courses", "footing_steps", "design_ratio"]
    assert bare(row, names) == names
    sizes = {"THICKNESS": 0.2, "FOOTING_WIDTH": 0.4, "FOOTING_DEPTH": 0.2, "BACKFILL": 0.3, "COURSE": 0.2}
    sizes["DESIGN_HEIGHT"] = 2.0
    (row,) = rows_of(
        run(provider, "measure_walls", parts_layer("LineStringZ", WALL[-1:]), WALL_HEIGHT=1.0, **sizes)[
            "OUTPUT"
        ]
    )
    assert bare(row, names) == []
    assert row["design_ratio"] == pytest.approx(0.0, abs=1e-9)

    square = memory_layer("Polygon", GRID, [plot([(0, 0), (10, 0), (10, 4), (0, 4), (0, 0)])])
    names = ["joint_m", "bays", "sheets", "sheet_net_m2"]
    (row,) = rows_of(run(provider, "measure_slabs", square, THICKNESS=0.1)["OUTPUT"])
    assert (bare(row, names), row["edge_m3"]) == (names, 0.0)
    (row,) = rows_of(
        run(
            provider, "measure_slabs", square, THICKNESS=0.1, JOINT_FACTOR=200, SHEET_LENGTH=4, SHEET_WIDTH=2
        )["OUTPUT"]
    )
    assert (bare(row, names), row["bays"], row["joint_m"]) == ([], 2, pytest.approx(4.0, rel=1e-5))

    names = ["turf_m2", "rolls", "seed_kg", "mulch_m3", "mulch_loose_m3"]
    (row,) = rows_of(run(provider, "count_planting", square, SPACING=1.0)["OUTPUT"])
    assert (bare(row, names), row["plants"]) == (names, 40)
    (row,) = rows_of(run(provider, "count_planting", square, MULCH=0.1)["OUTPUT"])
    assert (bare(row, names), row["mulch_m3"]) == (names[:3], pytest.approx(4.0, rel=1e-5))
    (row,) = rows_of(run(provider, "count_planting", square)["OUTPUT"])
    assert row["finding"] == (
        "GE-07: Nothing is asked for: give a spacing, a depth of mulch, seed, or a roll."
    )

    (row,) = rows_of(
        run(provider, "protect_trees", memory_layer("Point", GRID, TREES[:1]), STEM=0.3)["OUTPUT"]
    )
    assert bare(row, ["taken_m2", "taken_ratio"]) == ["taken_m2", "taken_ratio"]
