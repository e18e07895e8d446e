# SPDX-License-Identifier: GPL-2.0-or-later
"""What the host loads when it starts with the plugin: names and parameters, and nothing that a run needs."""

from __future__ import annotations

import pytest

from plugin.processing.provider import ALGORITHMS
from scripts.bench_start import start_apart

HEAVY = {"scipy", "shapely", "matplotlib", "pyproj", "pandas", "ezdxf", "openpyxl"}
CORE = {"plugin.core", "plugin.core.accuracy", "plugin.core.defaults", "plugin.core.errors"}
"""Of the core: what forms show, and what they may be refused with."""
PAGES = {"plugin.gui.pages", "plugin.gui.pages.rows", "plugin.gui.pages.words"}
BRIDGE = 12
"""Modules of the bridge at the most: texts, settings, icons, the open project."""
REST = 20
"""Modules of ours at the most that are neither core, bridge, nor an algorithm's form."""


def inside(folder: str, modules: set[str]) -> set[str]:
    return {name for name in modules if name == folder or name.startswith(f"{folder}.")}


@pytest.fixture(scope="module", params=["window", "line"])
def start(request):
    """A start of the host with a window and the dock closed, and one from the command line."""
    return request.param, start_apart(request.param)


def test_all_algorithms_are_there_after_a_start(start):
    _, told = start
    assert told["algorithms"] == len(ALGORITHMS)
    forms = {f"plugin.processing.{algorithm.NAME}" for algorithm in ALGORITHMS}
    assert forms <= set(told["modules"])


def test_no_library_that_only_runs_need_is_loaded(start):
    _, told = start
    assert {name.split(".")[0] for name in told["modules"]} & HEAVY == set()


def test_no_run_of_an_algorithm_is_loaded(start):
    _, told = start
    assert inside("plugin.processing.runs", set(told["modules"])) == set()


def test_no_step_of_the_core_is_loaded(start):
    _, told = start
    assert inside("plugin.core", set(told["modules"])) == CORE


def test_no_form_of_the_dock_is_loaded(start):
    way, told = start
    assert inside("plugin.gui.pages", set(told["modules"])) == (PAGES if way == "window" else set())


def test_few_modules_of_ours_are_loaded(start):
    _, told = start
    ours = inside("plugin", set(told["modules"]))
    forms = {f"plugin.processing.{algorithm.NAME}" for algorithm in ALGORITHMS}
    bridge, core = inside("plugin.bridge", ours), inside("plugin.core", ours)
    assert len(bridge) <= BRIDGE, sorted(bridge)
    assert len(ours - forms - bridge - core) <= REST, sorted(ours - forms - bridge - core)
