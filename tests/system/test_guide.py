# SPDX-License-Identifier: GPL-2.0-or-later
"""The guide beside what the algorithms do: every example is run, every parameter and column looked up."""

from __future__ import annotations

import contextlib
import io
import re
import shlex
from collections import Counter
from urllib.parse import urlparse

import pytest
from guide_pages import GUIDE, IN_CODE, Block, read_page
from qgis.core import (
    QgsExpression,
    QgsExpressionContext,
    QgsExpressionContextUtils,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsVectorLayer,
)

from plugin.bridge.resources import guide_url
from plugin.processing.provider import ALGORITHMS
from scripts.make_package import is_shipped, own_files
from tests.processing.layers import memory_layer

ROOT = GUIDE.parents[1]
NAMES = [algorithm.NAME for algorithm in ALGORITHMS]
PAGES = {path.stem: read_page(path) for path in sorted(GUIDE.glob("*.md"))}
EXAMPLES = [*NAMES, "figures", "first_takeoff"]
MEASURED = {
    "measure_areas",
    "measure_lengths",
    "fit_arcs",
    "plan_walk",
    "measure_gradients",
    "measure_faces",
    "measure_walls",
    "measure_slabs",
    "measure_trenches",
    "protect_trees",
    "count_planting",
    "measure_strips",
}
WHOLLY_OWN = {
    "build_surface": {"INPUT_POINTS": "levels.csv"},
    "compare_surveys": {"BEFORE": "before.csv", "AFTER": "after.csv"},
    "cut_sections": {"SURFACES": "surfaces.csv", "LINES": "baseline.csv", "BASELINE": "baseline.csv"},
    "check_limits": {"RAMPS": "ramps.csv"},
    "find_low_points": {"SURFACE": "yard.csv"},
    "measure_volumes": {"SURFACE": "ground.csv", "TO_SURFACE": "formation.csv"},
}
"""What algorithms whose outputs have no columns of a layer that was given take from their own example."""
OF_RUN = "of the run"
MOST_SCREENS = 1_600_000
"""Bytes of the ten pictures of the window; they are shipped too."""
MOST_PICTURE, MOST_PICTURES = 80_000, 400_000
UNITS = {"_m2": "m²", "_m": "m", "_deg": "°", "_ratio": "ratio", "_s": "s"}

algorithms = pytest.mark.parametrize("name", NAMES)


# --- what is run ---


def run(groundtally, name, given):
    """An algorithm's outputs, by name."""
    algorithm = groundtally.algorithm(name).create()
    results, good = algorithm.run(
        given, QgsProcessingContext(), QgsProcessingFeedback(), {}, catchExceptions=False
    )
    assert good
    return results


def layer_of(results, named):
    """A layer of a run: OUTPUT, or the table of a GeoPackage as `OUTPUT, areas`."""
    output, _, table = named.partition(", ")
    layer = QgsVectorLayer(results[output] + (f"|layername={table}" if table else ""), named, "ogr")
    assert layer.isValid(), named
    return layer


def row_of(layer, told):
    """A row by its number (`row 2`), or the only one of a feature (`Paved court`)."""
    features = list(layer.getFeatures())
    if re.fullmatch(r"row \d+", told):
        return features[int(told[4:]) - 1]
    (found,) = [f for f in features if f["feature"] == told]
    return found


def run_command(groundtally, line, folder):
    """A command of a page; what it would write below build/ goes into a folder."""
    script, name, *words = shlex.split(line)
    assert script == "scripts/run", line
    given = dict(word.split("=", 1) for word in words)
    known = {p.name() for p in groundtally.algorithm(name).parameterDefinitions()}
    assert set(given) <= known, line
    for key, value in given.items():
        if value.startswith("build/"):
            given[key] = str(folder / value[len("build/") :])
    return run(groundtally, name, given)


def commands(block):
    return [line for line in block.text.replace("\\\n", " ").splitlines() if line.strip()]


def examples(groundtally, name, folder):
    """The tables of figures on a page, each with the outputs of the commands above it."""
    results = {}
    for item in PAGES[name].items:
        if isinstance(item, Block):
            for line in commands(item) if item.info == "sh" else ():
                results = run_command(groundtally, line, folder)
        elif item.header[0].startswith("in `") or item.header[0] in ("figure", OF_RUN):
            yield item, results


# --- figures ---


def is_as_printed(value, printed):
    """Whether a figure is what a page prints of it, to its digits; a text to the letter, nothing for NULL."""
    if value is None or str(value) == "NULL":
        return printed == ""
    if isinstance(value, str):
        return value == printed
    digits = len(printed.partition(".")[2])
    return abs(float(value) - float(printed.replace(",", ""))) <= 0.5 * 10.0**-digits * (1 + 1e-6)


def reckoned(layer, row, expression):
    context = QgsExpressionContext(QgsExpressionContextUtils.globalProjectLayerScopes(layer))
    context.setFeature(row)
    asked = QgsExpression(expression)
    value = asked.evaluate(context)
    assert not asked.hasEvalError(), asked.evalErrorString()
    assert isinstance(value, (int, float)), (expression, value)
    return value


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_figures_on_the_page_are_those_of_the_run(name, groundtally, tmp_path, monkeypatch):
    monkeypatch.chdir(ROOT)
    told = 0
    for table, results in examples(groundtally, name, tmp_path):
        if table.header[0] == OF_RUN:
            (cells,) = table.rows
            for output, printed in zip(table.header[1:], cells[1:]):
                assert is_as_printed(results[output], printed), (output, results[output], printed)
            continue
        if table.header[0] == "figure":
            continue
        (output,) = IN_CODE.findall(table.header[0])
        layer = layer_of(results, output)
        for cells in table.rows:
            row = row_of(layer, cells[0])
            for column, printed in zip(table.header[1:], cells[1:]):
                told += 1
                assert is_as_printed(row[column], printed), (output, cells[0], column, row[column], printed)
    assert told >= 3


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_published_figures_are_met(name, groundtally, tmp_path, monkeypatch):
    monkeypatch.chdir(ROOT)
    told = 0
    for table, results in examples(groundtally, name, tmp_path):
        if table.header[0] != "figure":
            continue
        for line in table.records():
            layer = layer_of(results, line["in"])
            here = reckoned(layer, row_of(layer, line["row"]), line["as"])
            assert is_as_printed(here, line["here"]), (line["figure"], here)
            published, within = float(line["published"].replace(",", "")), float(line["within"])
            assert abs(here - published) <= within, (line["figure"], here)
            told += 1
    assert told


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_files_on_the_page_are_those_of_the_examples(name):
    shown = {block.info.split()[1]: block.text for block in PAGES[name].files()}
    folder = GUIDE / "examples" / name
    there = {path.name: path.read_text(encoding="utf-8") for path in folder.glob("*")}
    assert shown == there


def test_the_script_about_the_hosts_own_areas_prints_what_the_page_says(qgis_app):
    page = PAGES["figures"]
    (script,), (printed,) = page.blocks("python"), page.blocks("text")
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        exec(script.text, {})  # noqa: S102 - a page of our own
    assert out.getvalue() == printed.text


# --- parameters, outputs and columns ---


def told_default(value):
    """A default as a page tells it."""
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, str) else f"{value:g}"


@algorithms
def test_the_table_of_parameters_is_the_algorithms(name, groundtally):
    (table,) = PAGES[name].tables("parameter")
    there = {
        p.name(): (
            p.description(),
            told_default(p.defaultValue()),
            f"{p.minimum():g} to {p.maximum():g}" if p.type() == "number" else "",
        )
        for p in groundtally.algorithm(name).parameterDefinitions()
        if not p.isDestination()
    }
    told = {row["parameter"]: (row["label"], row["default"], row["bounds"]) for row in table.records()}
    assert told == there
    for row in table.records():
        assert row["what it says"], row
        unit = {"metres": "m", "percent": "%"}.get(row["label"].rpartition(", ")[2], "")
        assert row["unit"] == unit, row


@algorithms
def test_the_table_of_outputs_is_the_algorithms(name, groundtally):
    (table,) = PAGES[name].tables("output")
    there = {o.name(): o.description() for o in groundtally.algorithm(name).outputDefinitions()}
    assert {row["output"]: row["label"] for row in table.records()} == there


@pytest.fixture(scope="module")
def demo(groundtally, tmp_path_factory):
    """The demo's survey and the layers of the other algorithms on walks, every output of them."""
    folder = tmp_path_factory.mktemp("demo")
    logs = str(ROOT / "resources" / "demo" / "marlisk_yard")
    results = {}
    for name in set(NAMES) - MEASURED - set(WHOLLY_OWN):
        definitions = groundtally.algorithm(name).destinationParameterDefinitions()
        given = {p.name(): str(folder / f"{name}_{p.name()}.gpkg") for p in definitions}
        results[name] = run(groundtally, name, {"LOGS": [logs], **given})
    return results


LAYERS = {
    "measure_areas": (
        "PolygonZ",
        "POLYGON Z((3 51 1,3.001 51 1,3.001 51.001 2,3 51 1))",
        {"EDGE_SIGMA": 0.02},
    ),
    "measure_lengths": ("LineStringZ", "LINESTRING Z(3 51 1,3.001 51 2)", {}),
    "fit_arcs": ("LineStringZ", "LINESTRING Z(3 51 1,3.001 51 2)", {}),
    "plan_walk": ("LineStringZ", "LINESTRING Z(3 51 1,3.001 51 2)", {}),
    "measure_gradients": ("PolygonZ", "POLYGON Z((3 51 1,3.001 51 1,3.001 51.001 2,3 51 1))", {}),
    "measure_faces": ("LineStringZ", "LINESTRING Z(3 51 1,3.001 51 2)", {"WIDTH": 2.0}),
    "measure_walls": ("LineStringZ", "LINESTRING Z(3 51 1,3.001 51 2)", {"WALL_HEIGHT": 1.0}),
    "measure_slabs": ("Polygon", "POLYGON((3 51,3.001 51,3.001 51.001,3 51))", {"THICKNESS": 0.1}),
    "measure_strips": ("LineStringZ", "LINESTRING Z(3 51 1,3.001 51 2)", {"WIDTH": 0.3}),
    "measure_trenches": ("LineStringZ", "LINESTRING Z(3 51 1,3.001 51 2)", {"WIDTH": 0.6, "DEPTH": 1.0}),
    "protect_trees": ("Point", "POINT(3 51)", {"STEM": 0.3}),
    "count_planting": ("Polygon", "POLYGON((3 51,3.001 51,3.001 51.001,3 51))", {"SPACING": 0.5}),
}


def columns_of(layer):
    return [field.name() for field in layer.fields() if field.name() != "fid"]


def real_columns(name, groundtally, demo, folder):
    """The columns of every output of an algorithm, as a run gives them; of those on layers, the added ones."""
    if name in MEASURED:
        kind, text, more = LAYERS[name]
        layer = memory_layer(kind, "EPSG:4326", [text])
        outputs = {p.name() for p in groundtally.algorithm(name).destinationParameterDefinitions()}
        given = {output: str(folder / f"{output}.gpkg") for output in outputs}
        results = run(groundtally, name, {"INPUT": layer, **given, **more})
        own = set(columns_of(layer))
        return {
            output: [c for c in columns_of(layer_of(results, output)) if c not in own] for output in outputs
        }
    if name in WHOLLY_OWN:
        given = {key: str(GUIDE / "examples" / name / file) for key, file in WHOLLY_OWN[name].items()}
        sinks = groundtally.algorithm(name).destinationParameterDefinitions()
        outputs = {p.name() for p in sinks if p.type() == "sink"}
        results = run(groundtally, name, {**given, **{o: str(folder / f"{o}.gpkg") for o in outputs}})
        return {output: columns_of(layer_of(results, output)) for output in outputs}
    results = demo[name]
    if name != "survey_walks":
        outputs = [p.name() for p in groundtally.algorithm(name).destinationParameterDefinitions()]
        return {output: columns_of(layer_of(results, output)) for output in outputs}
    whole = QgsVectorLayer(results["OUTPUT"], "survey", "ogr")
    tables = [sub.split("!!::!!")[1] for sub in whole.dataProvider().subLayers()]
    tables = [table for table in tables if table != "layer_styles"]
    there = {f"OUTPUT, {table}": columns_of(layer_of(results, f"OUTPUT, {table}")) for table in tables}
    # The demo holds no surface; its table is the one that reading gives.
    there["OUTPUT, surfaces"] = columns_of(layer_of(demo["read_walks"], "SURFACES"))
    return there


@algorithms
def test_the_tables_of_columns_are_those_of_a_run(name, groundtally, demo, tmp_path):
    there = real_columns(name, groundtally, demo, tmp_path)
    told, shared = {}, []
    for table in PAGES[name].tables("column"):
        columns = [row["column"] for row in table.records()]
        outputs = IN_CODE.findall(table.heading)
        if outputs:
            told[", ".join(outputs)] = columns
        else:
            shared += columns
    assert set(told) == set(there)
    for output, columns in there.items():
        own = told[output]
        assert set(own) <= set(columns), output
        assert set(columns) <= {*own, *shared}, output
        assert [c for c in columns if c in own] == own, output
    uses = Counter(column for columns in there.values() for column in columns)
    assert [column for column in shared if uses[column] < 2] == []


@algorithms
def test_the_units_of_columns_are_those_that_their_names_wear(name):
    for table in PAGES[name].tables("column"):
        for row in table.records():
            bare = re.sub(r"_edge_sigma$|_sigma$", "", row["column"])
            ending = next((ending for ending in UNITS if bare.endswith(ending)), None)
            if ending:
                assert row["unit"] == UNITS[ending], row["column"]
            assert row["meaning"], row["column"]


# --- the guide as a whole ---


def test_every_algorithm_has_its_page_and_its_help_leads_there(groundtally):
    assert set(PAGES) == {*NAMES, "figures", "first_job", "first_takeoff", "README"}
    for algorithm in groundtally.algorithms():
        address = urlparse(algorithm.helpUrl())
        assert address.scheme == "file"
        assert address.path == str(GUIDE / f"{algorithm.name()}.md")


def test_an_algorithm_without_a_page_has_no_address():
    assert guide_url("measure_nothing") == ""


@pytest.mark.parametrize("name", sorted(PAGES))
def test_what_a_page_links_to_is_there(name):
    links = re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", PAGES[name].text)
    assert links or name == "figures"
    assert [link for link in links if "://" not in link and not (GUIDE / link).exists()] == []


def test_the_index_names_every_page():
    links = set(re.findall(r"\]\(([^)]+\.md)\)", PAGES["README"].text))
    assert {f"{name}.md" for name in PAGES if name != "README"} <= links


def test_the_pictures_are_small_and_all_are_shown():
    pictures = sorted((GUIDE / "pictures").iterdir())
    screens = [path for path in pictures if path.name.startswith("first_job")]
    assert len(screens) == 10
    assert sum(path.stat().st_size for path in screens) < MOST_SCREENS
    drawn = [path for path in pictures if path not in screens]
    assert all(path.stat().st_size < MOST_PICTURE for path in drawn)
    assert sum(path.stat().st_size for path in drawn) < MOST_PICTURES
    shown = {link for page in PAGES.values() for link in re.findall(r"\]\(pictures/([^)]+)\)", page.text)}
    assert shown == {path.name for path in pictures}
    assert {
        f"{name}.png" for name in ("measure_areas", "measure_lengths", "fit_arcs", "survey_walks")
    } <= shown


def test_the_package_takes_the_guide_along():
    inside = {name for name, _ in own_files()}
    for path in GUIDE.rglob("*"):
        if path.is_file():
            name = path.relative_to(ROOT).as_posix()
            assert is_shipped(name)
            assert name in inside
