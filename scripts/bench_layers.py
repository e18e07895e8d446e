# SPDX-License-Identifier: GPL-2.0-or-later
"""Layers of a million outlines: ours beside the host's own algorithms, each run in a process of its own, in turn.

Usage: bench_layers.py [RUNS [OUTLINES]], or bench_layers.py --one WORK FOLDER for one work alone.
"""

from __future__ import annotations

import json
import os
import statistics
import struct
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

ROOT = Path(__file__).absolute().parent.parent
sys.path.insert(0, str(ROOT))
OUTLINES, CURVES = 1_000_000, 20_000
PLAIN_GOAL, ANY_GOAL, CURVE_GOAL, MEMORY_GOAL = 0.25, 0.65, 0.2, 300
"""Times the peer's time; megabytes above the floor."""


def outlines(count: int) -> Iterator[bytes]:
    """Simple outlines of 4 to 11 corners, some 15 m across, in rows of a thousand."""
    draw = np.random.default_rng(1)
    for i in range(count):
        n = int(draw.integers(4, 12))
        turn = (np.arange(n) + draw.random(n) * 0.8) * 2 * np.pi / n
        reach = draw.uniform(3.0, 12.0, n)
        ring = np.column_stack([reach * np.cos(turn), reach * np.sin(turn)])
        ring += (400_000 + i % 1000 * 30.0, 5_500_000 + i // 1000 * 30.0)
        yield struct.pack("<BIII", 1, 3, 1, n + 1) + np.vstack([ring, ring[:1]]).tobytes()


def write_layer(path: Path, count: int) -> None:
    """A GeoPackage of them, with four columns."""
    from osgeo import gdal, ogr, osr

    for module in (gdal, ogr, osr):
        module.UseExceptions()
    dataset = gdal.GetDriverByName("GPKG").Create(str(path), 0, 0, 0, gdal.GDT_Unknown)
    reference = osr.SpatialReference()
    reference.ImportFromEPSG(32631)
    layer = dataset.CreateLayer("plots", reference, ogr.wkbPolygon)
    kinds = (
        ("name", ogr.OFTString),
        ("class", ogr.OFTString),
        ("code", ogr.OFTInteger),
        ("cost", ogr.OFTReal),
    )
    for name, kind in kinds:
        layer.CreateField(ogr.FieldDefn(name, kind))
    dataset.StartTransaction()
    for i, wkb in enumerate(outlines(count)):
        feature = ogr.Feature(layer.GetLayerDefn())
        feature["name"], feature["class"], feature["code"], feature["cost"] = (
            f"Plot {i}",
            "lawn",
            i % 7,
            i * 0.5,
        )
        feature.SetGeometryDirectly(ogr.CreateGeometryFromWkb(wkb))
        layer.CreateFeature(feature)
    dataset.CommitTransaction()


def start_host() -> object:
    """A host without a window, with its own algorithms and ours; what is returned keeps it alive."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    from qgis.core import QgsApplication, QgsCoordinateReferenceSystem, QgsProject

    app = QgsApplication([], False)
    app.initQgis()
    # Without these the host measures in the map plane, and says nothing.
    QgsProject.instance().setCrs(QgsCoordinateReferenceSystem("EPSG:32631"))
    QgsProject.instance().setEllipsoid("EPSG:7030")
    sys.path.append(app.pkgDataPath() + "/python/plugins")
    from processing.core.Processing import Processing

    Processing.initialize()
    from plugin.processing.provider import Provider

    ours = Provider()
    QgsApplication.processingRegistry().addProvider(ours)
    return app, ours


def run(algorithm: str, **parameters: object) -> Callable[[], object]:
    """A run of an algorithm."""
    import processing

    return lambda: processing.run(algorithm, parameters)


def filtered(folder: Path) -> object:
    """The layer with a filter that lets everything through: no longer the whole plain file."""
    from qgis.core import QgsVectorLayer

    layer = QgsVectorLayer(str(folder / "plots.gpkg"), "plots", "ogr")
    if not layer.setSubsetString("code >= 0"):
        raise SystemExit("the layer takes no filter")
    return layer


def work_of(name: str, folder: Path) -> Callable[[], object]:
    """One work, ready to be timed."""
    plain, out = str(folder / "plots.gpkg"), str(folder / f"{name}.gpkg")
    works: dict[str, Callable[[], Callable[[], object]]] = {
        "nothing": lambda: lambda: None,
        "ours": lambda: run("groundtally:measure_areas", INPUT=plain, OUTPUT=out),
        "fieldcalculator": lambda: run(
            "native:fieldcalculator", INPUT=plain, FIELD_NAME="a", FORMULA="$area", OUTPUT=out
        ),
        "savefeatures": lambda: run("native:savefeatures", INPUT=plain, OUTPUT=out),
        "ours, any layer": lambda: run("groundtally:measure_areas", INPUT=filtered(folder), OUTPUT=out),
        "exportaddgeometrycolumns": lambda: run(
            "qgis:exportaddgeometrycolumns", INPUT=filtered(folder), CALC_METHOD=2, OUTPUT=out
        ),
    }
    return works[name]()


def one(name: str, folder: Path) -> None:
    """Time one work in this process and print seconds and peak memory in megabytes."""
    app = start_host()
    work = work_of(name, folder)
    begun = time.perf_counter()
    work()
    seconds = time.perf_counter() - begun
    peak = next(
        line for line in Path("/proc/self/status").read_text().splitlines() if line.startswith("VmHWM")
    )
    print(json.dumps({"seconds": seconds, "peak": int(peak.split()[1]) / 1024}), flush=True)
    del app
    os._exit(0)


def time_works(names: Sequence[str], folder: Path, runs: int) -> dict[str, tuple[float, float]]:
    """Median seconds and largest peak of each work, all done in turn."""
    took: dict[str, list[dict[str, float]]] = {name: [] for name in names}
    for _ in range(runs):
        for name in names:
            (folder / f"{name}.gpkg").unlink(missing_ok=True)
            done = subprocess.run(
                [sys.executable, __file__, "--one", name, str(folder)],
                capture_output=True,
                text=True,
                check=True,
            )
            took[name].append(json.loads(done.stdout.splitlines()[-1]))
    return {
        name: (statistics.median(t["seconds"] for t in times), max(t["peak"] for t in times))
        for name, times in took.items()
    }


def curve_outline(draw: np.random.Generator) -> str:
    """A bed of six straights with an arc round each corner."""
    turn = np.arange(6) * np.pi / 3 + draw.uniform(0.0, 0.3, 6)
    corner = draw.uniform(4.0, 9.0) * np.column_stack([np.cos(turn), np.sin(turn)]) + draw.uniform(
        4e5, 5e5, 2
    )
    after = np.roll(corner, -1, axis=0)
    start, end = corner + 0.3 * (after - corner), corner + 0.7 * (after - corner)
    pieces = []
    for k in range(6):
        a, b, c, at = start[k], end[k], start[(k + 1) % 6], after[k]
        middle = 0.25 * (b + c) + 0.5 * at
        told = [f"{x!r} {y!r}" for x, y in (a.tolist(), b.tolist(), middle.tolist(), c.tolist())]
        pieces += [f"({told[0]},{told[1]})", f"CircularString({told[1]},{told[2]},{told[3]})"]
    return f"CurvePolygon(CompoundCurve({','.join(pieces)}))"


def time_curves(runs: int) -> None:
    """Circular outlines in memory: ours from their binaries on, beside the host's exact area one by one."""
    host = start_host()
    from qgis.core import QgsGeometry

    from plugin.bridge.sources import CHUNK
    from plugin.core.measure.layer.areas import Worth, measure_areas
    from plugin.core.measure.layer.ground import open_ground
    from plugin.core.measure.layer.sums import run_areas, sum_arcs
    from plugin.core.measure.layer.wkb import join_pieces, read_shapes

    texts = [curve_outline(draw) for draw in [np.random.default_rng(2)] for _ in range(CURVES)]
    shapes_there = [QgsGeometry.fromWkt(text) for text in texts]
    pieces = join_pieces([bytes(shape.asWkb()) for shape in shapes_there])
    shapes = read_shapes(*pieces)
    local = shapes.xy - np.repeat(shapes.xy[shapes.start[:-1]], shapes.sizes, axis=0)
    blocks = []
    for first in range(0, CURVES, CHUNK):
        which = (shapes.feature >= first) & (shapes.feature < first + CHUNK)
        blocks.append((shapes.only(which), local[np.repeat(which, shapes.sizes)]))
    way, worth = open_ground("EPSG:32631"), Worth(np.full(CURVES, 0.1), np.zeros(CURVES))
    works: dict[str, Callable[[], object]] = {
        "host": lambda: [shape.constGet().area() for shape in shapes_there],
        "areas, in blocks as the algorithms take them": lambda: [run_areas(*block) for block in blocks],
        "areas and lengths, with how they move": lambda: sum_arcs(shapes, local),
        "all of it, from the binaries to figures with findings": lambda: measure_areas(
            read_shapes(*pieces), way, worth
        ),
    }
    took: dict[str, list[float]] = {name: [] for name in works}
    for _ in range(max(runs, 3)):
        for name, work in works.items():
            begun = time.perf_counter()
            work()
            took[name].append(time.perf_counter() - begun)
    alone = statistics.median(took.pop("host"))
    print(f"{CURVES} curve outlines: the host's exact area one by one {alone:.3f} s, goal {CURVE_GOAL} x")
    for name, seconds in took.items():
        print(f"    {name}: {statistics.median(seconds):.3f} s, {statistics.median(seconds) / alone:.2f} x")
    del host


def main() -> None:
    """Print the rows."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    count = int(sys.argv[2]) if len(sys.argv) > 2 else OUTLINES
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_layer(folder / "plots.gpkg", count)
        floor = time_works(["nothing"], folder, 1)["nothing"][1]
        took = time_works(
            ["ours", "fieldcalculator", "savefeatures", "ours, any layer", "exportaddgeometrycolumns"],
            folder,
            runs,
        )
    print(f"{count} outlines, a plain GeoPackage in and out:")
    for work, (seconds, peak) in took.items():
        print(f"    {work}: {seconds:.1f} s, {peak - floor:.0f} MB above the floor of {floor:.0f} MB")
    ratio = took["ours"][0] / took["fieldcalculator"][0]
    print(f"    plain file: {ratio:.2f} x fieldcalculator, goal {PLAIN_GOAL} x")
    ratio = took["ours, any layer"][0] / took["exportaddgeometrycolumns"][0]
    print(
        f"    any layer, any sink: {ratio:.2f} x exportaddgeometrycolumns, goal {ANY_GOAL} x, {MEMORY_GOAL} MB"
    )
    time_curves(runs)


if __name__ == "__main__":
    if sys.argv[1:2] == ["--one"]:
        one(sys.argv[2], Path(sys.argv[3]))
    else:
        main()
        sys.stdout.flush()
        os._exit(0)
