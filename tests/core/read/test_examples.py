# SPDX-License-Identifier: GPL-2.0-or-later
"""The published formats: schemas, examples and readers say the same."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from plugin.core.read import control, decisions, instruments, tapes, walk_log
from plugin.core.read.formats import TableKind, find_kind
from plugin.core.read.job import read_job
from plugin.core.read.table import read_table

FORMATS = Path(__file__).parents[3] / "resources" / "formats"
TABLES = {
    "walk_log": (walk_log, TableKind.WALK_LOG),
    "control": (control, TableKind.CONTROL),
    "tapes": (tapes, TableKind.TAPES),
    "instruments": (instruments, TableKind.INSTRUMENTS),
    "decisions": (decisions, TableKind.DECISIONS),
}


def schema(name):
    return json.loads((FORMATS / f"{name}.schema.json").read_text(encoding="utf-8"))


def example(name):
    return (FORMATS / f"{name}.csv").read_bytes()


@pytest.mark.parametrize("name", TABLES)
def test_the_schema_has_the_readers_columns(name):
    assert tuple(field["name"] for field in schema(name)["fields"]) == TABLES[name][0].COLUMNS


@pytest.mark.parametrize("name", TABLES)
def test_every_field_is_described_and_typed(name):
    for field in schema(name)["fields"]:
        assert field["type"] in ("string", "number")
        assert field["description"].endswith(".")


def breaks(field, cell):
    """What a cell breaks of its field's constraints."""
    rules = field.get("constraints", {})
    if not cell:
        return rules.get("required", False)
    if field["type"] == "number" and not rules.get("minimum", -1e12) <= float(cell) <= rules.get(
        "maximum", 1e12
    ):
        return True
    return cell not in rules.get("enum", [cell]) or not re.fullmatch(rules.get("pattern", ".*"), cell)


@pytest.mark.parametrize("name", TABLES)
def test_the_example_keeps_to_its_schema(name):
    table = read_table(name, example(name))
    known = {field["name"]: field for field in schema(name)["fields"]}
    assert len(table) > 0
    for column in table.header:
        assert [cell for cell in table.text(column) if breaks(known[column], cell)] == []


@pytest.mark.parametrize("name", TABLES)
def test_the_example_is_known_by_its_content(name):
    assert find_kind(example(name)) is TABLES[name][1]


def test_the_examples_make_one_job_without_a_finding():
    read = read_job({name: example(name) for name in TABLES})
    assert read.findings == ()
    assert [(walk.name, len(walk)) for walk in read.job.walks] == [("W1", 10), ("W2", 5)]
    assert [len(read.job.control.points), len(read.job.tapes), len(read.decisions.rows)] == [4, 2, 2]
    assert read.job.instruments is not None
    assert list(read.job.instruments) == ["example-1"]


def test_the_example_log_shows_every_column():
    assert read_table("walk_log", example("walk_log")).header == walk_log.COLUMNS


def test_the_page_names_every_file_and_key():
    page = (FORMATS / "README.md").read_text(encoding="utf-8")
    assert [
        name for name in TABLES if f"`{name}.csv`" not in page or f"`{name}.schema.json`" not in page
    ] == []
    keys = (*walk_log.LOG_KEYS, *control.KEYS, *control.PASSED_ON)
    assert [key for key in keys if f"`{key}`" not in page] == []
