# SPDX-License-Identifier: GPL-2.0-or-later
"""What the plugin adds to the host's start: scripts/bench_start.py [RUNS]. Each start in a process of its own."""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))
GOAL_S = 0.05


class Window:
    """The host's interface as far as a start goes, with a real window; what only registers is taken silently."""

    def __init__(self) -> None:
        """A window with a map."""
        from qgis.gui import QgsMapCanvas
        from qgis.PyQt.QtWidgets import QMainWindow

        self.window = QMainWindow()
        self.canvas = QgsMapCanvas(self.window)

    def mainWindow(self) -> Any:  # noqa: N802 - the host's name
        """The window."""
        return self.window

    def mapCanvas(self) -> Any:  # noqa: N802
        """The map."""
        return self.canvas

    def addToolBar(self, title: str) -> Any:  # noqa: N802
        """A toolbar."""
        return self.window.addToolBar(title)

    def addDockWidget(self, area: Any, dock: Any) -> None:  # noqa: N802
        """A dock, as a user has left it who had closed it."""
        self.window.addDockWidget(area, dock)
        dock.hide()

    def __getattr__(self, name: str) -> Any:
        """Whatever else the host is told."""
        return lambda *_: None


def start_once(way: str) -> dict[str, object]:
    """Load the plugin as a window does, or as the command line; what it took, and which modules it brought in.

    A host has loaded its own toolbox by then, and with it numpy and GDAL.
    """
    from qgis.core import QgsApplication

    app = QgsApplication([], way == "window")
    app.initQgis()
    sys.path.append(app.pkgDataPath() + "/python/plugins")
    import numpy
    import processing
    from osgeo import gdal, ogr

    window = Window() if way == "window" else None
    before = {*sys.modules, numpy.__name__, processing.__name__, gdal.__name__, ogr.__name__}
    begun = time.perf_counter()
    from plugin import classFactory

    loaded = classFactory(window)
    (loaded.initProcessing if window is None else loaded.initGui)()
    took = time.perf_counter() - begun
    provider = QgsApplication.processingRegistry().providerById("groundtally")
    return {
        "seconds": took,
        "modules": sorted(set(sys.modules) - before),
        "algorithms": len(provider.algorithms()),
    }


def start_apart(way: str, cache: Path | None = None) -> dict[str, Any]:
    """The same in a process of its own, with a platform that needs no screen; byte code is kept in a folder, where one
    is given, as a host keeps it beside an installed plugin."""
    line = [sys.executable, __file__, "--one", way]
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    if cache is not None:
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        environment["PYTHONPYCACHEPREFIX"] = str(cache)
    done = subprocess.run(line, capture_output=True, text=True, check=True, env=environment)
    return dict(json.loads(done.stdout.splitlines()[-1]))


def main() -> None:
    """Print a row for each way to start."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    with tempfile.TemporaryDirectory() as name:
        for way, words in (("window", "a window with its dock closed"), ("line", "the command line")):
            first, *later = (float(start_apart(way, Path(name))["seconds"]) for _ in range(runs + 1))
            print(
                f"the plugin's part of a start, {words}: {min(later):.3f} s at best, {statistics.median(later):.3f} s median, "
                f"goal {GOAL_S} s; {first:.3f} s the first time"
            )


if __name__ == "__main__":
    if sys.argv[1:2] == ["--one"]:
        print(json.dumps(start_once(sys.argv[2])), flush=True)
        os._exit(0)
    main()
