# SPDX-License-Identifier: GPL-2.0-or-later
"""The layers of a survey in the host's 3D views, as the stored project has them. Nothing is drawn: that hangs."""

from __future__ import annotations

import json
import sys
from dataclasses import replace

import pytest
from qgis.core import QgsExpression, QgsExpressionContext, QgsProject
from qgis.PyQt import sip
from qgis.PyQt.QtGui import QColor

from plugin.bridge.compat import clamping_3d, material_of, module_3d
from plugin.bridge.geopackage import write_survey
from plugin.bridge.project import write_project
from plugin.bridge.resources import RESOURCES
from plugin.core.segments import Curve
from tests.made_survey import made_survey

PALETTE = json.loads((RESOURCES / "palette.json").read_text(encoding="utf-8"))["colours"]
NAN = float("nan")


@pytest.fixture(scope="module")
def three_d(qgis_app):
    """The host's module, with its symbols known to whoever reads a project."""
    module = module_3d()
    if module is None:
        pytest.skip("this host was built without its 3D module")
    module.Qgs3D.initialize()
    return module


def flat(run: Curve, rows: slice = slice(None)) -> Curve:
    """A curve without heights, or with some of them missing."""
    points = run.points.copy()
    points[rows, 2] = NAN
    return Curve(points, run.bulge)


def without_heights(survey, rows: slice = slice(None)):
    """The survey with no heights (at some vertices of every outline) in its areas."""
    areas = tuple(replace(a, outline=tuple(flat(ring, rows) for ring in a.outline)) for a in survey.areas)
    return replace(survey, areas=areas)


@pytest.fixture
def stored(three_d, tmp_path):
    """Gives a survey's project, read back from its file, and holds it: a project takes its layers with it."""
    held: list[QgsProject] = []

    def store(survey) -> QgsProject:
        held.append(QgsProject())
        assert held[-1].read(str(write_project(write_survey(survey, tmp_path / "site.gpkg"))))
        return held[-1]

    return store


def layer_of(project: QgsProject, title: str):
    return project.mapLayersByName(title)[0]


def rules_of(module, layer) -> list[tuple[str, object]]:
    """Condition and symbol of each rule of a layer's 3D renderer."""
    renderer = sip.cast(layer.renderer3D(), module.QgsRuleBased3DRenderer)
    kinds = {
        "polygon": module.QgsPolygon3DSymbol,
        "line": module.QgsLine3DSymbol,
        "point": module.QgsPoint3DSymbol,
    }
    return [
        (rule.filterExpression(), sip.cast(rule.symbol(), kinds[rule.symbol().type()]))
        for rule in renderer.rootRule().children()
    ]


def symbols_of(module, layer) -> dict[str, list]:
    """The symbols that a layer's rows take, by feature."""
    taken: dict[str, list] = {}
    for row in layer.getFeatures():
        context = QgsExpressionContext()
        context.setFeature(row)
        context.setFields(layer.fields())
        taken[row["feature"]] = [
            s for rule, s in rules_of(module, layer) if QgsExpression(rule).evaluate(context)
        ]
    return taken


def shade(module, symbol) -> str:
    """The colour that a symbol is drawn in."""
    if symbol.type() == "line":
        return sip.cast(material_of(symbol), module.QgsSimpleLineMaterialSettings).ambient().name().upper()
    return sip.cast(material_of(symbol), module.QgsPhongMaterialSettings).diffuse().name().upper()


@pytest.mark.parametrize(
    ("title", "kind", "colours"),
    [
        ("Areas", "polygon", {"yellow", "bluish_green", "vermillion", "sky_blue"}),
        ("Lengths", "line", {"blue"}),
        ("Sides", "line", {"black"}),
        ("Legs", "line", {"reddish_purple"}),
        ("Spots", "point", {"vermillion"}),
        ("Stations", "point", {"reddish_purple"}),
        ("Marks", "point", {"orange"}),
    ],
)  # fmt: skip
def test_a_layer_has_its_symbol_in_a_colour_of_the_palette(title, kind, colours, three_d, stored):
    rules = rules_of(three_d, layer_of(stored(made_survey()), title))
    assert {symbol.type() for _, symbol in rules} == {kind}
    assert {shade(three_d, symbol) for _, symbol in rules} == {PALETTE[name] for name in colours}
    assert len(rules) == 2 * len(colours)


@pytest.mark.parametrize("title", ["Areas", "Lengths", "Sides", "Spots", "Stations", "Marks"])
def test_rows_with_heights_stand_at_their_own_whatever_the_terrain(title, three_d, stored):
    layer = layer_of(stored(made_survey()), title)
    absolute = clamping_3d(three_d, to_terrain=False)
    taken = symbols_of(three_d, layer)
    assert len(taken) > 0
    assert {name: [s.altitudeClamping() for s in found] for name, found in taken.items()} == {
        name: [absolute] for name in taken
    }


def test_areas_are_sheets_and_lines_keep_their_heights(three_d, stored):
    project = stored(made_survey())
    assert {s.extrusionHeight() for _, s in rules_of(three_d, layer_of(project, "Areas"))} == {0.0}
    # The host widens other lines in plan and loses their heights.
    lines = rules_of(three_d, layer_of(project, "Lengths"))
    assert {(s.renderAsSimpleLines(), s.width()) for _, s in lines} == {(True, 4.0)}


def test_an_area_has_the_colour_of_what_becomes_of_it(three_d, stored):
    taken = symbols_of(three_d, layer_of(stored(made_survey()), "Areas"))
    assert {name: [shade(three_d, s) for s in found] for name, found in taken.items()} == {
        "Court": [PALETTE["sky_blue"]],
        "Bed 1": [PALETTE["yellow"]],
        "Bed 1 hole": [PALETTE["sky_blue"]],
        "Old slab": [PALETTE["vermillion"]],
        "Bed 3": [PALETTE["sky_blue"]],
    }


def test_a_row_of_which_one_height_is_missing_is_laid_on_the_terrain(three_d, stored):
    survey = made_survey()
    court, *others = survey.areas
    court = replace(court, outline=(flat(court.outline[0], slice(1, 2)), *court.outline[1:]))
    layer = layer_of(stored(replace(survey, areas=(court, *others))), "Areas")
    terrain = clamping_3d(three_d, to_terrain=True)
    clamped = {n: [s.altitudeClamping() for s in found] for n, found in symbols_of(three_d, layer).items()}
    assert clamped.pop("Court") == [terrain]
    assert set(map(tuple, clamped.values())) == {(clamping_3d(three_d, to_terrain=False),)}


def test_a_layer_without_heights_has_no_3d_symbols_and_the_others_keep_theirs(stored):
    project = stored(without_heights(made_survey()))
    assert layer_of(project, "Areas").renderer3D() is None
    assert layer_of(project, "Lengths").renderer3D() is not None


@pytest.mark.parametrize("title", ["Findings", "Findings on the map", "Walks", "Placement", "Runs"])
def test_what_has_no_place_or_no_heights_has_no_3d_symbols(title, stored):
    assert layer_of(stored(made_survey()), title).renderer3D() is None


@pytest.mark.parametrize(("crs", "unit_m"), [("EPSG:25831", 1.0), ("EPSG:2264", 1200 / 3937), (None, 1.0)])
def test_marks_are_balls_of_25_centimetres_in_any_unit(crs, unit_m, three_d, stored):
    rules = rules_of(three_d, layer_of(stored(made_survey(crs)), "Marks"))
    for _, symbol in rules:
        assert symbol.shape() == symbol.shapeFromString("sphere")
        # The host takes a US survey foot for an international one: 2 parts in a million.
        assert float(symbol.shapeProperties()["radius"]) * unit_m == pytest.approx(0.25, abs=1e-6)


def test_a_host_without_its_3d_module_writes_the_project_all_the_same(stored, monkeypatch):
    monkeypatch.setitem(sys.modules, "qgis._3d", None)
    project = stored(made_survey())
    assert layer_of(project, "Areas").featureCount() == 5
    assert [layer.name() for layer in project.mapLayers().values() if layer.renderer3D()] == []


def test_where_the_project_has_a_terrain_it_lies_below_the_lowest_station(stored):
    project = stored(made_survey("EPSG:2264"))
    if not hasattr(project, "elevationProperties"):
        pytest.skip("3.22 keeps no terrain in the project")
    from qgis.core import QgsFlatTerrainProvider

    terrain = sip.cast(project.elevationProperties().terrainProvider(), QgsFlatTerrainProvider)
    # The court's lowest corner is at x = 22: 84.6 - 0.44 = 84.16 m, 276.11 US survey feet.
    assert terrain.offset() == 276.0


def test_the_palette_is_read_as_it_stands():
    assert {QColor(value).name().upper() for value in PALETTE.values()} == set(PALETTE.values())
