# SPDX-License-Identifier: GPL-2.0-or-later
"""The rings: gui and processing -> bridge -> core, and inside core a step uses only earlier ones."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).parents[2]
PLUGIN = ROOT / "plugin"
STEPS = [
    "read",
    "check",
    "adjust",
    "place",
    "shape",
    "measure",
    "ground",
    "trade",
    "price",
    "handover",
    "register",
]
MAY_USE = {
    "core": {"core"},
    "bridge": {"core", "bridge"},
    "processing": {"core", "bridge", "processing"},
    "gui": {"core", "bridge", "gui"},
    "": {"core", "bridge", "processing", "gui", ""},
}
OUTSIDE_CORE = {"qgis", "PyQt5", "PyQt6", "osgeo", "processing"}
OURS = {"plugin", "ground_tally", "tests"}


def imported(source: str, module: tuple[str, ...]) -> Iterator[tuple[int, tuple[str, ...], bool]]:
    """Every import, in functions and under TYPE_CHECKING too: line, dotted name, whether it is relative."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield node.lineno, tuple(alias.name.split(".")), False
        elif isinstance(node, ast.ImportFrom):
            base = module[: len(module) - node.level] if node.level else ()
            names = (*base, *(node.module or "").split(".")) if node.module else base
            for alias in node.names:
                yield node.lineno, (*names, alias.name), bool(node.level)


def breaches(source: str, path: str) -> list[str]:
    """What a file at `path` (below plugin/) imports that its ring may not."""
    module = tuple(Path(path).with_suffix("").parts)
    ring = module[0] if len(module) > 1 else ""
    found = []
    for line, name, is_relative in imported(source, module):
        if is_relative:
            found += [f"{path}:{line} uses {'.'.join(name)}: {why}" for why in _inner(module, ring, name)]
        elif name[0] in OURS:
            found.append(f"{path}:{line} uses {'.'.join(name)}: our own imports are relative")
        elif ring == "core" and name[0] in OUTSIDE_CORE:
            found.append(f"{path}:{line} uses {name[0]}: core knows no host")
    return found


def _inner(module: tuple[str, ...], ring: str, name: tuple[str, ...]) -> Iterator[str]:
    other = name[0] if name and name[0] in MAY_USE else ""
    if other not in MAY_USE[ring]:
        yield f"{ring} looks outward to {other}"
    if ring == other == "core" and len(name) > 1:
        here = STEPS.index(module[1]) if module[1] in STEPS else -1
        there = STEPS.index(name[1]) if name[1] in STEPS else -1
        if there > here:
            yield f"{module[1]} looks ahead to {name[1]}"


FILES = sorted(PLUGIN.rglob("*.py"))


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.relative_to(PLUGIN).as_posix())
def test_no_file_looks_outward(path):
    assert breaches(path.read_text(encoding="utf-8"), path.relative_to(PLUGIN).as_posix()) == []


def test_every_folder_of_core_is_a_step():
    folders = {p.name for p in (PLUGIN / "core").iterdir() if p.is_dir() and p.name != "__pycache__"}
    assert folders <= set(STEPS)


@pytest.mark.parametrize(
    ("path", "source"),
    [
        ("core/read/gpx.py", "from ...bridge import crs"),
        ("core/read/gpx.py", "from ..adjust import network"),
        ("core/plane.py", "from .measure.rows import Survey"),
        ("core/plane.py", "def f():\n    import qgis.core"),
        ("core/plane.py", "from osgeo import gdal"),
        ("core/plane.py", "from plugin.core import walk"),
        ("bridge/crs.py", "from ..gui import dock"),
        ("gui/dock.py", "from ..processing import provider"),
        (
            "processing/x.py",
            "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from ..gui.dock import Dock",
        ),
    ],
)
def test_a_breach_is_seen(path, source):
    assert len(breaches(source, path)) == 1
