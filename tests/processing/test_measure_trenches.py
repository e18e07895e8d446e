# SPDX-License-Identifier: GPL-2.0-or-later
"""Trenches and swales of layers in any CRS, their sizes from numbers, columns and surveys, and under surfaces."""

from __future__ import annotations

import json
import math

import pytest
from qgis.core import (
    QgsFeature,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProject,
    QgsProperty,
    QgsVectorFileWriter,
    QgsVectorLayer,
)

from tests.processing.layers import memory_layer, rows_of, write_layer

LOCAL = 'LOCAL_CS["grid",UNIT["metre",1]]'
GRID = "EPSG:32631"
ON_GROUND = 1 / 0.9996
EARTH = 6.38e6
"""Metres: its mean radius there, by which lengths at some height grow."""
X, Y = 500000, 5600000
RECTANGULAR, V, TRAPEZOID, ROUND = range(4)


def run(provider, layer, **parameters):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    results, good = (
        provider.algorithm("measure_trenches")
        .create()
        .run({"INPUT": layer, "OUTPUT": "memory:", **parameters}, context, QgsProcessingFeedback(), {},
             catchExceptions=False)
    )  # fmt: skip
    assert good
    return rows_of(context.takeResultLayer(str(results["OUTPUT"])))


def line(*points):
    words = ",".join(" ".join(map(repr, (X + p[0], Y + p[1], *p[2:]))) for p in points)
    return f"LINESTRING{' Z' if len(points[0]) > 2 else ''}({words})"


def lines(fields, rows, kind="LineString", crs=GRID):
    """A layer of rows (WKT, values) with columns."""
    layer = QgsVectorLayer(f"{kind}?crs={crs}&" + "&".join(f"field={f}" for f in fields), "lines", "memory")
    for text, values in rows:
        row = next(memory_layer(kind, crs, [text]).getFeatures())
        row.setFields(layer.fields(), True)
        row.setAttributes(list(values))
        assert layer.dataProvider().addFeatures([row])[0]
    return layer


@pytest.mark.parametrize(
    ("section", "area", "face"),
    [
        (RECTANGULAR, 0.8 * 0.4, 0.8 + 0.8),
        (V, 0.8 * 0.4 / 2, 2 * math.hypot(0.4, 0.4)),
        (TRAPEZOID, (0.8 + 1.5 * 0.4) * 0.4, 0.8 + 0.8 * math.hypot(1, 1.5)),
        (ROUND, math.pi * 0.4**2 / 2, math.pi * 0.4),
    ],
)
def test_each_section_is_measured_on_the_ground_whatever_the_grid(section, area, face, provider):
    layer = memory_layer("LineString", GRID, [line((0, 0), (30, 40))])
    (row,) = run(provider, layer, SECTION=section, WIDTH=0.8, DEPTH=0.4, BATTER=1.5, SIZE_SIGMA=0)
    length = 50 * ON_GROUND
    assert row["path_m"] == pytest.approx(length, rel=1e-6)
    assert row["volume_m3"] == pytest.approx(area * length, rel=1e-6)
    assert row["face_m2"] == pytest.approx(face * length, rel=1e-6)
    assert row["section_m2"] == pytest.approx(area, rel=1e-9)
    assert row["depth_mean_m"] == pytest.approx(0.4)
    assert row["path_m_sigma"] == pytest.approx(0.1 * math.sqrt(2))
    assert row["sigma_from"] == "assumed"
    assert row["finding"] is None


def test_a_depth_that_differs_at_the_end_makes_a_prismoid(provider):
    layer = lines(
        ["d:double", "e:double"], [(line((0, 0), (10, 0)), (1.0, 2.0)), (line((0, 5), (10, 5)), (1.0, None))]
    )
    rows = run(
        provider, layer, SECTION=TRAPEZOID, WIDTH=0.5, BATTER=0.5,
        DEPTH=QgsProperty.fromField("d"), DEPTH_END=QgsProperty.fromField("e"),
    )  # fmt: skip
    sections = [(0.5 + 0.5 * d) * d for d in (1.0, 1.5, 2.0)]
    assert rows[0]["volume_m3"] == pytest.approx(
        10 * ON_GROUND / 6 * (sections[0] + 4 * sections[1] + sections[2]), rel=1e-6
    )
    assert rows[0]["top_max_m"] == pytest.approx(2.5)
    assert rows[1]["volume_m3"] == pytest.approx(10 * ON_GROUND * sections[0], rel=1e-6)


def test_sizes_along_the_line_come_from_a_column_of_any_layer(provider):
    told = '{"depth_m": [[0, 1.0], [4, 1.0], [4, 2.0]], "width_m": [[0, 0.5], [10, 0.7]]}'
    layer = lines(["told:string"], [("LINESTRING(0 0,10 0)", (told,))], crs=f"WKT:{LOCAL}")
    (row,) = run(provider, layer, ALONG="told")
    wanted = 4 * 0.54 * 1 + 6 * (0.58 + 0.7) / 2 * 2
    assert row["volume_m3"] == pytest.approx(wanted, rel=1e-9)


@pytest.mark.parametrize(
    "text", ["0.4", '{"depth_m": [0, 1]}', '{"depth_m": [[0, "x"]]}', "[1, 2]", '{"width_m": []}']
)
def test_a_column_of_sizes_that_is_none_is_told_with_its_text(text, provider):
    layer = lines(["told:string"], [(line((0, 0), (10, 0)), (text,))])
    (row,) = run(provider, layer, ALONG="told", WIDTH=0.5)
    assert row["finding"] == (
        f'GE-07: The field told holds "{text}". Write pairs of metres along the line and size, such as '
        '{"depth_m": [[0, 0.4], [12.5, 0.55]]}, or empty it.'
    )


def test_inverts_go_down_from_the_lines_own_heights(provider):
    layer = lines(
        ["low:double", "end:double"],
        [(line((0, 0, 10.0), (10, 0, 10.5)), (9.0, 8.5)), (line((0, 5, 1.0), (10, 5, 1.0)), (-1.0, -1.0))],
        kind="LineStringZ",
    )
    rows = run(
        provider, layer, WIDTH=0.6, BEDDING=0.1, SIGMA=0.02, SIZE_SIGMA=0.01,
        INVERT_START=QgsProperty.fromField("low"), INVERT_END=QgsProperty.fromField("end"),
    )  # fmt: skip
    assert rows[0]["depth_mean_m"] == pytest.approx(1.6)
    assert (rows[0]["depth_min_m"], rows[0]["depth_max_m"]) == pytest.approx((1.1, 2.1))
    assert rows[0]["depth_max_m_sigma"] == pytest.approx(math.sqrt(0.02**2 + 2 * 0.01**2))
    assert rows[0]["volume_m3"] == pytest.approx(0.6 * 1.6 * 10 * ON_GROUND * (1 + 10 / EARTH), rel=1e-6)
    assert rows[1]["depth_mean_m"] == pytest.approx(2.1)


@pytest.fixture
def plane(tmp_path):
    """A slope of one in ten eastward over 40 m by 20 m, as two triangles."""
    corners = [(0, 0, 10), (40, 0, 14), (40, 20, 14), (0, 20, 10)]
    texts = []
    for k in ((0, 1, 2), (0, 2, 3)):
        points = [corners[i] for i in (*k, k[0])]
        words = ",".join(f"{X + x} {Y + y} {z}" for x, y, z in points)
        texts.append(f"POLYGON Z(({words}))")
    return QgsVectorLayer(str(write_layer(tmp_path / "plane.gpkg", texts, GRID)), "plane", "ogr")


def test_a_pipe_run_goes_down_from_a_surface(plane, provider):
    layer = memory_layer("LineString", GRID, [line((5, 5), (25, 15)), line((30, 5), (50, 5))])
    rows = run(
        provider,
        layer,
        SURFACE=plane,
        WIDTH=0.6,
        INVERT_START=9.5,
        INVERT_END=9.0,
        BEDDING=0.15,
        SIZE_SIGMA=0,
    )
    # Ground 10.5 to 12.5, so 1.15 to 3.65 deep.
    length = math.hypot(20, 10) * ON_GROUND
    assert rows[0]["depth_mean_m"] == pytest.approx(2.4, abs=1e-6)
    assert (rows[0]["depth_min_m"], rows[0]["depth_max_m"]) == pytest.approx((1.15, 3.65), abs=1e-6)
    assert rows[0]["volume_m3"] == pytest.approx(0.6 * 2.4 * length * (1 + 12 / EARTH), rel=1e-6)
    assert rows[1]["finding"] == (
        "GE-07: The surface leaves out 10.00 m of the line, from 10.00 m along it. Extend the surface, or cut the line to it."
    )


def test_several_surfaces_in_one_layer_are_refused(provider, tmp_path):
    layer = QgsVectorLayer(f"PolygonZ?crs={GRID}&field=surface:string", "two", "memory")
    for k, name in enumerate(("ground", "rock")):
        text = f"POLYGON Z(({X} {Y} {k},{X + 9} {Y} {k},{X} {Y + 9} {k},{X} {Y} {k}))"
        row = next(memory_layer("PolygonZ", GRID, [text]).getFeatures())
        row.setFields(layer.fields(), True)
        row.setAttributes([name])
        assert layer.dataProvider().addFeatures([row])[0]
    with pytest.raises(
        QgsProcessingException, match="The layer holds 2 surfaces: ground, rock. Filter it to the one"
    ):
        run(provider, memory_layer("LineString", GRID, [line((1, 1), (3, 1))]), SURFACE=layer, WIDTH=0.6)


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (
            {"WIDTH": 0.6},
            "The trench has no depth: neither a size nor levels of its invert. Note one, or give the parameter.",
        ),
        (
            {"DEPTH": 1.0},
            "The width is 0 m somewhere along the line, which is no section. Note it, or give one above 0.",
        ),
        (
            {"WIDTH": 0.6, "INVERT_START": 3.0},
            "The invert has a level at one end alone. Give both, or the depth.",
        ),
        (
            {"WIDTH": 0.6, "INVERT_START": 3.0, "INVERT_END": 2.0},
            "The trench has inverts and no ground: neither a surface nor heights of its line. Give one of them.",
        ),
    ],
)
def test_what_is_missing_is_told_in_the_row(given, words, provider):
    (row,) = run(provider, memory_layer("LineString", GRID, [line((0, 0), (10, 0))]), **given)
    assert row["volume_m3"] is None
    assert row["finding"] == f"GE-07: {words}"


def test_lines_of_several_parts_are_told(provider):
    layer = memory_layer(
        "MultiLineString", GRID, [f"MULTILINESTRING(({X} {Y},{X + 5} {Y}),({X + 9} {Y},{X + 12} {Y}))"]
    )
    (row,) = run(provider, layer, WIDTH=0.6, DEPTH=1)
    assert row["finding"] == "GE-07: The line has several parts. Split it into rows of one part each."


def test_a_layer_that_only_looks_like_a_survey_keeps_its_own(provider):
    layer = lines(["depth_m:double"], [(line((0, 0), (10, 0)), (1.0,))])
    (row,) = run(provider, layer, WIDTH=0.5)
    assert row["finding"].startswith("GE-07: The trench has no depth")


def told_of(provider, layer, **given):
    (row,) = run(provider, layer, **given)
    return row


SURVEY = ("walk:string", "feature:string", "part:string", "method:string", "sigma_from:string", "finding:string",
          "length_m:double", "length_m_sigma:double", "width_m:double", "depth_m:double", "invert_m:double",
          "sizes_along:string", "point_errors:string")  # fmt: skip
WAY = [(0, 0), (4, 0), (10, 3), (15, 3)]
LENGTH = 9 + math.hypot(6, 3)


def walked(points, *, width=None, depth=None, invert=None, along=None):
    """A row of a survey's lengths in a local grid, drawn through WAY and now through other points."""
    xy = [list(map(float, point[:2])) for point in WAY]
    errors = json.dumps([{"xy": xy, "own": [[0.01, 0.01]] * 4, "plan": [[]] * 4, "height": [[]] * 4}])
    values = ("W1", "Trench", "", "", "instruments", "", LENGTH, 0.01, width, depth, invert, along, errors)
    words = ",".join(" ".join(map(str, point)) for point in points)
    kind = "LineStringZ" if len(points[0]) > 2 else "LineString"
    text = f"{'LINESTRING Z' if kind.endswith('Z') else 'LINESTRING'}({words})"
    return lines(SURVEY, [(text, values)], kind=kind, crs=f"WKT:{LOCAL}")


def test_a_depth_at_the_end_runs_from_the_depth_that_was_noted(provider):
    """1 m noted, 2 m given at the end: a mean of 1.5 m."""
    row = told_of(provider, walked(WAY, width=0.5, depth=1.0), DEPTH_END=2.0)
    assert row["volume_m3"] == pytest.approx(0.5 * 1.5 * LENGTH)
    along = '{"depth_m": [[0, 1.2], [12, 0.8]]}'
    row = told_of(provider, walked(WAY, width=0.5, along=along), DEPTH_END=2.0)
    assert row["volume_m3"] == pytest.approx(0.5 * 1.6 * LENGTH)


ALONG_WAY = '{"depth_m": [[0, 1.0], [12, 2.0]]}'


@pytest.mark.parametrize(
    ("points", "words"),
    [
        (
            WAY[::-1],
            (
                "The sizes along the line were noted from its other end: the line was turned round since. Give width and depth, or "
                "take the survey's own row."
            ),
        ),
        (
            [*WAY[:-1], (12, 3)],
            (
                "The sizes along the line were noted on one of 15.708 m, and this one is 12.708 m long. Give width and depth, or "
                "take the survey's own row."
            ),
        ),
    ],
)
def test_sizes_noted_along_a_line_that_was_cut_or_turned_round_are_not_taken(points, words, provider):
    row = told_of(provider, walked(points, width=0.5, along=ALONG_WAY))
    assert (row["volume_m3"], row["finding_2"]) == (None, f"GE-07: {words}")
    # Sizes that are given do not ask what was noted.
    row = told_of(provider, walked(points, width=0.5, along=ALONG_WAY), DEPTH=1.0)
    assert (row["section_m2"], row["finding_2"]) == (pytest.approx(0.5), None)
    own = told_of(provider, walked(WAY, width=0.5, along=ALONG_WAY))
    assert own["volume_m3"] == pytest.approx(0.5 * (12 * 1.5 + 2.0 * (LENGTH - 12)))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            '{"dept_m": [[0, 1.0]]}',
            "The field told names dept_m, which is no size of a trench. Write width_m, depth_m or invert_m.",
        ),
        (
            '{"depth_m": [[0, 1.0], [10.5, 2.0]]}',
            (
                "The field told has a size at 10.500 m along the line, which is 10.000 m long. Correct the place, or take the line "
                "that was meant."
            ),
        ),
        (
            '{"depth_m": [[-1, 1.0]]}',
            (
                "The field told has a size at -1.000 m along the line, which is 10.000 m long. Correct the place, or take the line "
                "that was meant."
            ),
        ),
    ],
)
def test_sizes_along_a_line_of_another_name_or_beyond_it_are_refused(text, words, provider):
    layer = lines(["told:string"], [("LINESTRING(0 0,10 0)", (text,))], crs=f"WKT:{LOCAL}")
    row = told_of(provider, layer, ALONG="told", WIDTH=0.5)
    assert (row["volume_m3"], row["finding"]) == (None, f"GE-07: {words}")


def test_a_surface_that_does_not_say_its_sigma_is_worth_what_points_are(plane, provider):
    """Heights of the corners with 0.05 m each: a level right on one of them knows no less."""
    layer = memory_layer("LineString", GRID, [line((0, 0), (40, 0))])
    given = {"SURFACE": plane, "WIDTH": 0.6, "INVERT_START": 9.0, "INVERT_END": 9.0, "SIZE_SIGMA": 0}
    exact, told = (told_of(provider, layer, SIGMA=sigma, **given) for sigma in (0.0, 0.05))
    assert exact["depth_max_m_sigma"] == 0.0
    assert told["depth_max_m_sigma"] == pytest.approx(0.05, rel=1e-3)
    # The mean of two corners that err each by itself.
    assert told["depth_mean_m_sigma"] == pytest.approx(0.05 / math.sqrt(2), rel=1e-3)
    # Where each row has its own, the surface is worth what the parameter is by default.
    by_row = told_of(provider, layer, SIGMA=QgsProperty.fromField("size"), **given)
    default = provider.algorithm("measure_trenches").parameterDefinition("SIGMA").defaultValue()
    assert by_row["depth_max_m_sigma"] == pytest.approx(default, rel=1e-3)


def test_a_depth_leaves_the_surface_the_inverts_and_the_bedding_out_and_says_so(plane, provider):
    """300 km east of the surface: in the line's own plane, to a millionth."""
    far = memory_layer("LineString", GRID, ["LINESTRING(500000 5600000,500100 5600000)"])
    shifted = memory_layer("LineString", GRID, ["LINESTRING(800000 5600000,800100 5600000)"])
    for layer in (far, shifted):
        plain = told_of(provider, layer, WIDTH=0.6, DEPTH=1.0)
        row = told_of(provider, layer, WIDTH=0.6, DEPTH=1.0, SURFACE=plane, BEDDING=0.1, INVERT_START=1.0)
        assert row["volume_m3"] == pytest.approx(plain["volume_m3"], rel=1e-9)
        assert plain["finding"] is None
        assert row["finding"] == (
            "The depth that is given or noted goes before inverts; not used: SURFACE, INVERT_START, BEDDING."
        )


def test_a_trench_over_itself_is_told(provider):
    layer = memory_layer("LineString", GRID, [line((0, 0), (10, 0), (10, 10), (5, 10), (5, -5))])
    row = told_of(provider, layer, WIDTH=0.6, DEPTH=1.0)
    assert row["finding"] == "The trench runs over itself: ground there counts twice."


def test_noted_inverts_under_heights_that_were_moved_are_told(provider, tmp_path):
    points = [(x, y, 10.0) for x, y in WAY]
    source = walked(points, width=0.6, invert=8.5)
    path = str(tmp_path / "survey.gpkg")
    options = QgsVectorFileWriter.SaveVectorOptions()
    options.driverName, options.layerName = "GPKG", "lengths"
    context = QgsProject.instance().transformContext()
    assert QgsVectorFileWriter.writeAsVectorFormatV3(source, path, context, options)[0] == 0

    def moved(shift):
        table = QgsVectorLayer("None?field=height_shift_m:double", "placement", "memory")
        row = QgsFeature(table.fields())
        row.setAttributes([shift])
        table.dataProvider().addFeatures([row])
        options.layerName = "placement"
        options.actionOnExistingFile = QgsVectorFileWriter.ActionOnExistingFile.CreateOrOverwriteLayer
        assert QgsVectorFileWriter.writeAsVectorFormatV3(table, path, context, options)[0] == 0
        layer = QgsVectorLayer(f"{path}|layername=lengths", "lengths", "ogr")
        given = {} if shift != 5.0 else {"INVERT_START": 8.5, "INVERT_END": 8.5}
        row = told_of(provider, layer, **given)
        assert row["depth_mean_m"] == pytest.approx(1.5)
        return row["finding_2"]

    assert moved(4.25) == (
        "The survey's heights were moved by 4.250 m onto their datum, the inverts stand as they were noted: make sure that they "
        "are levels in that datum, or give the inverts."
    )
    assert (moved(0.0), moved(None), moved(5.0)) == (None, None, None)
