# SPDX-License-Identifier: GPL-2.0-or-later
"""The ground: constrained triangulation, sections and volumes beside scipy and the host's own, in one run, in turn.

Usage: bench_ground.py [RUNS [POINTS]], or bench_ground.py --one WORK FOLDER SIDE for one work alone.
"""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from plugin.core.ground.surface import Surface

ROOT = Path(__file__).absolute().parent.parent
sys.path.insert(0, str(ROOT))
from scripts.bench import interleaved
from scripts.bench_host import HostGround, peak_megabytes
from scripts.bench_layers import start_host

POINTS, LINES, ON_LINES = 100_000, 40, 0.04
SIDE = 1000.0
"""Metres of the square that the points lie in."""
TRIANGLES = (100_000, 1_000_000)
SAMPLES, SECTIONS = 1000, 1000
"""Places that a sampled section has; exact sections cut."""
VOLUME_SIDES, CELL = (100.0, 200.0), 0.1
"""Metres of the squares of the volumes, and of the raster's cells beside them: the raster's time goes by the cells."""
TRIANGULATE_GOAL, SECTION_GOALS, MANY_GOAL = 2.0, (0.5, 1.5), 0.2
VOLUME_GOAL, MEMORY_GOAL = 1.0, 300
"""Times the peer's time; of single sections milliseconds; megabytes above the floor."""


PRISMS_WITHIN = 1e-9
"""Of cut and fill: both surfaces cover one square, so that their net is also the difference of two sums of prisms."""


def height(xy: np.ndarray) -> np.ndarray:
    """A rolling ground."""
    return 50.0 + 2.0 * np.sin(xy[:, 0] / 37.0) * np.cos(xy[:, 1] / 53.0) + 0.01 * xy[:, 0]


def points_and_lines(count: int) -> tuple[np.ndarray, np.ndarray]:
    """(n, 2) random places of which a part stand on winding breaklines, and (s, 2) the segments of these."""
    draw = np.random.default_rng(1)
    on = int(count * ON_LINES) // LINES
    x = np.linspace(0.01 * SIDE, 0.99 * SIDE, on)
    band = SIDE / (LINES + 1)
    lines = [
        np.column_stack([x, band * (k + 1) + 0.3 * band * np.sin(x / 21.0 + draw.uniform(0.0, 6.0))])
        for k in range(LINES)
    ]
    free = draw.uniform(0.0, SIDE, (count - on * LINES, 2))
    first = np.arange(LINES)[:, None] * on + np.arange(on - 1)
    return np.vstack([*lines, free]), np.column_stack([first.ravel(), first.ravel() + 1])


def random_surface(triangles: int, side: float, seed: int, tilt: float = 0.0) -> Surface:
    """A surface of about so many triangles over a square, through random places and its corners."""
    from plugin.core.ground.surface import Surface
    from plugin.core.ground.triangulate import triangulate

    draw = np.random.default_rng(seed)
    corners = np.array([[0.0, 0.0], [side, 0.0], [side, side], [0.0, side]])
    xy = np.vstack([corners, draw.uniform(0.0, side, (triangles // 2 - 4, 2))])
    made = triangulate(xy, np.zeros((0, 2), np.int64))
    z = height(xy) + tilt * (xy[:, 0] - 0.5 * side) + draw.normal(0.0, 0.02, len(xy))
    sigma = np.full(len(xy), 0.02)
    return Surface(np.column_stack([xy, z]), made, sigma, 0.0, 0.0, np.zeros(len(made), bool))


def time_triangulation(runs: int, count: int, host: HostGround) -> None:
    """Points and breaklines: ours from a net and as building a surface does it (the lines made to a net first), scipy without
    breaklines, and the host's mesh."""
    from scipy.spatial import Delaunay

    from plugin.core.ground.triangulate import has_edges, triangulate

    xy, segments = points_and_lines(count)
    host.load_ground(np.column_stack([xy, height(xy)]), segments)
    took = interleaved(
        {
            "as built": built(xy, count),
            "ours": lambda: triangulate(xy, segments),
            "scipy, no breaklines": lambda: Delaunay(xy - xy.mean(axis=0)),
            "the host's mesh": host.triangulate,
        },
        runs,
    )
    edges = np.sort(segments, axis=1)
    lost = [
        int((~has_edges(made, edges, len(xy))).sum())
        for made in (triangulate(xy, segments), host.triangles(xy))
    ]
    own = ("as built", "ours")
    peers = ", ".join(f"{name} {seconds:.2f} s" for name, seconds in took.items() if name not in own)
    print(
        f"constrained triangulation, {count} points, {len(segments)} segments: as a surface is built, noding too, "
        f"{took['as built']:.2f} s; from a net {took['ours']:.2f} s; {peers}"
    )
    ratios = [took[name] / took["scipy, no breaklines"] for name in own]
    print(
        f"    {ratios[0]:.2f} x scipy with noding, goal {TRIANGULATE_GOAL} x, {ratios[1]:.2f} x from a net; segments that are "
        f"no edge: ours {lost[0]}, the host's {lost[1]}"
    )


def built(xy: np.ndarray, count: int) -> Callable[[], np.ndarray]:
    """Noding of the levels and breaklines of `points_and_lines`, and their triangulation, as building a surface does."""
    from plugin.core.ground.hull import without_thin
    from plugin.core.ground.noding import node_lines
    from plugin.core.ground.records import GroundLine, Levels
    from plugin.core.ground.triangulate import triangulate

    on = int(count * ON_LINES) // LINES
    points, sigma = np.column_stack([xy, height(xy)]), np.full(len(xy), 0.02)
    lines = tuple(
        GroundLine(points[k * on : (k + 1) * on], sigma[:on], f"line {k + 1}") for k in range(LINES)
    )
    levels = Levels(points[LINES * on :], sigma[LINES * on :])

    def work() -> np.ndarray:
        net, findings = node_lines(levels, lines)
        if findings:
            raise SystemExit(f"{len(findings)} findings of breaklines that do not meet")
        return without_thin(net.points[:, :2], triangulate(net.points[:, :2], net.segments))

    return work


def time_sections(runs: int, triangles: int, goal: float, host: HostGround) -> None:
    """Exact sections beside a mesh asked for 1,000 heights along the same lines."""
    from plugin.core.ground.section import SectionCutter

    surface = random_surface(triangles, SIDE, 2)
    begun = time.perf_counter()
    cutter = SectionCutter(surface)
    ready = time.perf_counter() - begun
    draw = np.random.default_rng(3)
    ends = np.stack(
        [draw.uniform(0.0, SIDE, (SECTIONS, 2)) * (0.02, 1.0), draw.uniform(0.0, SIDE, (SECTIONS, 2))], 1
    )
    ends[:, 1, 0] = SIDE - 0.02 * ends[:, 1, 0]
    host.load_mesh(surface)
    one = interleaved(
        {"ours": lambda: cutter.cut(ends[0]), "sampled": lambda: host.sample(ends[0], SAMPLES)}, max(runs, 15)
    )
    many = interleaved(
        {
            "ours": lambda: [cutter.cut(line) for line in ends],
            "sampled": lambda: [host.sample(line, SAMPLES) for line in ends],
        },
        max(1, runs // 3),
    )
    told = f"{len(surface.triangles):,} triangles"
    print(
        f"one exact section across {told}: {1000.0 * one['ours']:.2f} ms after {ready:.2f} s of preparation, goal {goal} ms; "
        f"mesh sampled at {SAMPLES} places {1000.0 * one['sampled']:.1f} ms; breaks {len(cutter.cut(ends[0]))}"
    )
    print(
        f"    {SECTIONS} sections {many['ours']:.2f} s, sampled {many['sampled']:.2f} s: "
        f"{many['ours'] / many['sampled']:.2f} x, goal {MANY_GOAL} x"
    )


def work_of(name: str, folder: Path, side: float) -> Callable[[], object]:
    """One work of volumes between two surfaces that cross, ready to be timed; it answers with cut and fill."""
    upper, lower = (random_surface(TRIANGLES[0], side, seed, tilt) for seed, tilt in ((4, 0.0), (5, 0.004)))
    if name == "nothing":
        return lambda: (0.0, 0.0)
    if name == "ours":
        from plugin.core.ground.volume import volume_between

        prisms = _under(upper) - _under(lower)

        def exact() -> tuple[float, float]:
            volumes = volume_between(upper, lower)
            if abs(volumes.net.value - prisms) > PRISMS_WITHIN * (volumes.cut.value + volumes.fill.value):
                raise SystemExit(f"net {volumes.net.value} m3, by the prisms under both {prisms} m3")
            return volumes.cut.value, volumes.fill.value

        return exact
    host = HostGround(folder)
    meshes = [host.load_mesh(surface) for surface in (upper, lower)]
    return lambda: host.raster_difference(meshes, side, CELL)


def _under(surface: Surface) -> float:
    """m3 of the prisms between a surface and height 0."""
    return float(surface.areas @ surface.corners[:, :, 2].mean(axis=1))


def one(name: str, folder: Path, side: float) -> None:
    """Time one work in this process; print seconds, peak memory in megabytes, cut and fill."""
    host = start_host()
    work = work_of(name, folder, side)
    begun = time.perf_counter()
    found = work()
    told = {"seconds": time.perf_counter() - begun, "peak": peak_megabytes(), "found": found}
    print(json.dumps(told), flush=True)
    del host
    os._exit(0)


def time_volumes(runs: int, side: float, folder: Path) -> None:
    """Cut and fill between two surfaces, each work in a process of its own, in turn."""
    names = ("nothing", "ours", "raster")
    took: dict[str, list[dict[str, object]]] = {name: [] for name in names}
    for _ in range(runs):
        for name in names:
            line = [sys.executable, __file__, "--one", name, str(folder), str(side)]
            done = subprocess.run(line, capture_output=True, text=True, check=True)
            took[name].append(json.loads(done.stdout.splitlines()[-1]))
    seconds = {name: statistics.median(float(t["seconds"]) for t in times) for name, times in took.items()}
    floor = max(float(t["peak"]) for t in took["nothing"])
    above = {name: max(float(t["peak"]) for t in times) - floor for name, times in took.items()}
    print(f"cut and fill between two surfaces of {TRIANGLES[0]:,} triangles, {side:g} m square:")
    for name, word in (
        ("ours", "exact"),
        ("raster", f"the host's rasters of {CELL} m, and their difference"),
    ):
        cut, fill = took[name][0]["found"]
        print(
            f"    {word}: {seconds[name]:.2f} s, {above[name]:.0f} MB above the floor of {floor:.0f} MB; cut {cut:.3f}, fill {fill:.3f} m3"
        )
    print(f"    {seconds['ours'] / seconds['raster']:.2f} x, goal {VOLUME_GOAL} x, {MEMORY_GOAL} MB")


def main() -> None:
    """Print the rows."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    count = int(sys.argv[2]) if len(sys.argv) > 2 else POINTS
    app = start_host()
    with tempfile.TemporaryDirectory() as name:
        host = HostGround(Path(name))
        time_triangulation(runs, count, host)
        for triangles, goal in zip(TRIANGLES, SECTION_GOALS):
            time_sections(runs, triangles, goal, host)
        for side in VOLUME_SIDES:
            time_volumes(runs, side, Path(name))
    sys.stdout.flush()
    del app


if __name__ == "__main__":
    if sys.argv[1:2] == ["--one"]:
        one(sys.argv[2], Path(sys.argv[3]), float(sys.argv[4]))
    else:
        main()
        os._exit(0)
