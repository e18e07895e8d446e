# SPDX-License-Identifier: GPL-2.0-or-later
"""Layers that the toolbox loads come in our style."""

from __future__ import annotations

import pytest
from qgis.core import (
    QgsExpression,
    QgsExpressionContext,
    QgsExpressionContextUtils,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputLayerDefinition,
    QgsProcessingUtils,
    QgsProject,
    QgsSymbolLayer,
    QgsVectorLayer,
)

from plugin.bridge.resources import style_path
from plugin.processing.loaded import STYLES, Styler
from tests.processing.conftest import PIT
from tests.processing.layers import write_layer


def find(provider, tmp_path, place, project):
    surface = str(write_layer(tmp_path / "pit.gpkg", PIT, "EPSG:4326"))
    context, feedback = QgsProcessingContext(), QgsProcessingFeedback()
    context.setProject(project)
    given = {
        "SURFACE": surface,
        "OUTPUT": QgsProcessingOutputLayerDefinition(place, project) if project else place,
    }
    results, good = provider.algorithm("find_low_points").create().run(given, context, feedback)
    assert good
    return results["OUTPUT"], context, feedback


@pytest.mark.parametrize("in_file", [True, False])
def test_ponds_are_loaded_hatched_and_tinted_by_their_depth(provider, tmp_path, in_file):
    project = QgsProject()
    place = str(tmp_path / "ponds.gpkg") if in_file else "memory:"
    destination, context, feedback = find(provider, tmp_path, place, project)
    details = context.layerToLoadOnCompletionDetails(destination)
    layer = QgsProcessingUtils.mapLayerFromString(destination, context)
    assert details.postProcessor() is not None
    details.postProcessor().postProcessLayer(layer, context, feedback)
    renderer = layer.renderer()
    assert renderer.type() == "RuleRenderer"
    labels = [rule.label() for rule in renderer.rootRule().children()]
    assert labels == ["Pond, darker where deeper", "Cannot tell"]
    fill = renderer.rootRule().children()[0].symbol()
    depths = [row["depth_m"] for row in layer.getFeatures()]
    assert float(layer.customProperty("variableValues")[0]) == max(depths)
    scopes = QgsExpressionContext()
    scopes.appendScope(QgsExpressionContextUtils.layerScope(layer))
    tint = fill.symbolLayer(1).dataDefinedProperties().property(QgsSymbolLayer.Property.PropertyFillColor)
    for row in layer.getFeatures():
        scopes.setFeature(row)
        shade, is_told = tint.valueAsColor(scopes)
        assert is_told
        assert shade.alpha() == pytest.approx(40 + 170 * row["depth_m"] / max(depths), abs=1.0)
    assert [fill.symbolLayer(k).layerType() for k in range(fill.symbolLayerCount())] == [
        "SimpleFill",
        "SimpleFill",
        "LinePatternFill",
    ]
    assert layer.labelsEnabled()
    named = QgsExpression(layer.labeling().settings().fieldName)
    assert not named.hasParserError()
    columns = {field.name() for field in layer.fields()}
    assert {"depth_m", "depth_m_sigma", "level_m"} <= set(named.referencedColumns()) <= columns


def test_a_run_that_loads_nothing_styles_nothing(provider, tmp_path):
    destination, context, _ = find(provider, tmp_path, str(tmp_path / "ponds.gpkg"), None)
    assert not context.willLoadLayerOnCompletion(destination)


def loaded(provider, name, given, outputs):
    """The layers of a run as the host loads them: named, and styled by what the run said."""
    project, context, feedback = QgsProject(), QgsProcessingContext(), QgsProcessingFeedback()
    context.setProject(project)
    places = {output: QgsProcessingOutputLayerDefinition("memory:", project) for output in outputs}
    results, good = provider.algorithm(name).create().run({**given, **places}, context, feedback)
    assert good
    out = {}
    for output in outputs:
        details = context.layerToLoadOnCompletionDetails(results[output])
        layer = QgsProcessingUtils.mapLayerFromString(results[output], context)
        layer.setName(details.name)
        details.postProcessor().postProcessLayer(layer, context, feedback)
        out[output] = context.takeResultLayer(layer.id())
    return out


WORKS = ["POLYGON((3 51,3.0001 51,3.0001 51.0001,3 51.0001,3 51))"]
RIM = ["3 51 9", "3.001 51 8.5", "3.001 51.001 9", "3 51.001 9"]
FOOT = ["2.999 50.999 7", "3.002 50.999 7", "3.002 51.002 7", "2.999 51.002 7"]
SLOPES = [
    f"POLYGON Z(({a},{b},{c},{a}))"
    for k in range(4)
    for a, b, c in (
        (RIM[k - 1], FOOT[k - 1], FOOT[k]),
        (RIM[k - 1], FOOT[k], RIM[k]),
    )
]
"""Ground that falls away all round the pit, so that what spills runs on."""
STYLED = [
    ("build_surface", {}, ("OUTPUT", "CONTOURS")),
    ("measure_volumes", {}, ("THICKNESS", "ZERO_LINE")),
    ("cut_sections", {"LEFT": 2.0, "RIGHT": 2.0}, ("SECTIONS",)),
    ("measure_gradients", {}, ("OUTPUT",)),
    ("protect_trees", {"STEM": 0.5, "WORKS": WORKS}, ("OUTPUT", "OVERLAPS")),
    ("compare_surveys", {}, ("CHANGED",)),
    ("find_low_points", {"SURFACE": [*PIT, *SLOPES]}, ("OUTPUT", "SPILLS", "WAYS")),
]


@pytest.mark.parametrize(("name", "more", "outputs"), STYLED, ids=lambda v: v if isinstance(v, str) else "")
def test_layers_of_the_ground_are_loaded_in_our_styles(provider, given, tmp_path, name, more, outputs):
    more = {
        key: str(write_layer(tmp_path / f"{key}.gpkg", value, "EPSG:4326"))
        if isinstance(value, list)
        else value
        for key, value in more.items()
    }
    for layer in loaded(provider, name, {**given(name)[0], **more}, outputs).values():
        assert layer.featureCount() > 0
        assert layer.renderer().type() == "RuleRenderer"
        columns = set(layer.fields().names())
        rules = layer.renderer().rootRule().children()
        assert all(rule.filter() is None or rule.filter().referencedColumns() <= columns for rule in rules)
        assert {len(rule.label()) < 32 for rule in rules} == {True}
        labels = layer.labeling()
        for kind in labels.subProviders():
            told = QgsExpression(labels.settings(kind).fieldName)
            assert not told.hasParserError()
            assert set(told.referencedColumns()) <= columns


def test_every_style_of_the_toolbox_is_there(provider):
    names = [
        name for value in STYLES.values() for name in ([value] if isinstance(value, str) else value.values())
    ]
    for name in names:
        assert style_path(name).is_file()
    for algorithm, output in STYLES:
        assert provider.algorithm(algorithm).parameterDefinition(output) is not None


@pytest.mark.parametrize("kind", ["Polygon", "LineString"])
def test_a_figure_that_was_there_before_is_not_what_the_style_tells(qgis_app, kind):
    layer = QgsVectorLayer(
        f"{kind}?crs=EPSG:25831&field=fall_ratio:double&field=fall_bearing_deg:double&field=fall_ratio_2:double",
        "l",
        "memory",
    )
    Styler("measure_gradients", "OUTPUT").postProcessLayer(layer, None, None)
    labels = layer.labeling()
    told = [QgsExpression(labels.settings(kind).fieldName) for kind in labels.subProviders()]
    assert [one.referencedColumns() for one in told if one.expression()] == [{"fall_ratio_2"}]
    rule = layer.renderer().rootRule().children()[0]
    assert rule.filterExpression() == '"fall_ratio_2" IS NULL'


def test_exact_numbers_of_a_surface_and_of_a_surveys_rows_are_not_shown_in_the_table(provider, given):
    layer = loaded(provider, "build_surface", given("build_surface")[0], ("OUTPUT",))["OUTPUT"]
    config = layer.attributeTableConfig()
    shown = [c.name for c in config.columns() if not c.hidden and c.name]
    assert shown == [
        "surface", "triangle", "is_weak", "rough_m", "reach_m", "plane_lon_deg", "plane_lat_deg", "plane_height_m",
        "plane_crs", "method",
    ]  # fmt: skip
    names = [
        "walk",
        "feature",
        "part",
        "shape",
        "sizes_along",
        "method",
        "sigma_from",
        "point_errors",
        "finding",
    ]
    fields = "&".join(f"field={name}:string" for name in names)
    for without, hidden in ((None, {"shape", "sizes_along", "point_errors"}), ("walk", set())):
        text = fields.replace("field=walk:string&", "") if without else fields
        layer = QgsVectorLayer(f"Point?crs=EPSG:25831&{text}", "l", "memory")
        Styler("measure_areas", "OUTPUT").postProcessLayer(layer, None, None)
        assert {c.name for c in layer.attributeTableConfig().columns() if c.hidden and c.name} == hidden


NAMES = [
    (
        "build_surface",
        {"NAME": "finished"},
        {"OUTPUT": "Surface: finished", "CONTOURS": "Contours: finished"},
    ),
    (
        "measure_volumes",
        {},
        {"OUTPUT": "Volumes: surface0 to to_surface0", "ZERO_LINE": "Zero line: surface0 to to_surface0"},
    ),
    ("find_low_points", {}, {"OUTPUT": "Ponds: surface0"}),
    ("cut_sections", {}, {"SECTIONS": "Sections: surfaces0, surfaces1"}),
    ("measure_gradients", {}, {"OUTPUT": "Measured gradients: input0"}),
    ("measure_areas", {}, {"OUTPUT": "Measured areas: input0"}),
    ("protect_trees", {"STEM": 0.5}, {"OUTPUT": "Protection circles: input0"}),
]


@pytest.mark.parametrize(("name", "more", "names"), NAMES, ids=[name for name, _, _ in NAMES])
def test_layers_are_called_by_what_is_in_them(provider, given, name, more, names):
    layers = loaded(provider, name, {**given(name)[0], **more}, tuple(names))
    assert {output: layer.name() for output, layer in layers.items()} == names


@pytest.mark.parametrize("in_file", [True, False])
def test_a_name_that_a_model_gives_stays(provider, given, tmp_path, in_file):
    project, context = QgsProject(), QgsProcessingContext()
    place = QgsProcessingOutputLayerDefinition(str(tmp_path / "s.gpkg") if in_file else "memory:", project)
    place.destinationName = "Ground of the yard"
    given = {**given("build_surface")[0], "OUTPUT": place}
    results, good = provider.algorithm("build_surface").create().run(given, context, QgsProcessingFeedback())
    assert good
    assert context.layerToLoadOnCompletionDetails(results["OUTPUT"]).name == "Ground of the yard"


def test_a_table_of_checks_is_coloured_by_outcome_behind_its_words(provider, given):
    layer = loaded(provider, "check_limits", given("check_limits")[0], ("OUTPUT",))["OUTPUT"]
    styles = layer.conditionalStyles().fieldStyles("outcome")
    told = {style.rule(): style.backgroundColor().name() for style in styles}
    assert told == {
        "@value = 'fail'": "#d55e00",
        "@value = 'cannot tell'": "#e69f00",
        "@value = 'pass'": "#009e73",
    }
    words = {feature["outcome"] for feature in layer.getFeatures() if feature["outcome"]}
    assert words
    assert words <= {"fail", "cannot tell", "pass"}
