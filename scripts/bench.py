# SPDX-License-Identifier: GPL-2.0-or-later
"""What must be fast: each row beside its peers in one run, interleaved, medians over some runs."""

from __future__ import annotations

import csv
import io
import platform
import random
import re
import statistics
import subprocess
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

ROOT = Path(__file__).absolute().parent.parent
sys.path.insert(0, str(ROOT))
STATIONS = 500
ROWS, WALKS = 1_000_000, 20
"""Of the large logs."""
PLAIN_GOAL, QUOTED_GOAL = 1.5, 2.5
"""Times the time of pandas."""


def job_of_500() -> dict[str, bytes]:
    """Marlisk Yard with walks of more days (other seeds, other names), until there are 500 stations or more."""
    from scripts.demo_jobs import make_job

    files = dict(make_job("marlisk_yard", 2))
    count = sum(_rows(text) for name, text in files.items() if name.startswith("walk_"))
    for day in (3, 5):
        for name, text in make_job("marlisk_yard", day).items():
            if not name.startswith("walk_") or count >= STATIONS:
                continue
            body = re.sub(r"^W(\d),", rf"W\1-{day},", text, flags=re.MULTILINE)
            files[f"day_{day}_{name}"] = _renamed(body, day)
            count += _rows(text)
    print(f"{count} stations in {sum('walk_' in name for name in files)} walks")
    return {name: text.encode() for name, text in files.items()}


def _rows(text: str) -> int:
    return sum(line.startswith("W") for line in text.splitlines())


def _renamed(text: str, day: int) -> str:
    """Features named for their day, so that none is walked twice under one name."""
    lines = text.splitlines()
    head = next(i for i, line in enumerate(lines) if line.startswith("walk,"))
    columns = lines[head].split(",")
    at = [columns.index(name) for name in ("feature", "hole_in") if name in columns]
    for i in range(head + 1, len(lines)):
        cells = lines[i].split(",")
        for k in at:
            cells[k] = f"{cells[k]} {day}" if cells[k] else ""
        lines[i] = ",".join(cells)
    return "\n".join(lines) + "\n"


def time_chain(files: dict[str, bytes], runs: int) -> None:
    """The chain in this process, imports done."""
    from plugin.core.measure.chain import survey_files

    survey = survey_files(files)
    took, used = [], []
    for _ in range(runs):
        begun, before = time.perf_counter(), time.process_time()
        survey = survey_files(files)
        took.append(time.perf_counter() - begun)
        used.append(time.process_time() - before)
    figures = (
        len(survey.areas) + len(survey.lengths) + len(survey.spots) + len(survey.sides) + len(survey.legs)
    )
    print(
        f"read to rows, {len(survey.stations)} stations, {figures} rows: median {statistics.median(took):.3f} s; "
        f"processor {min(used):.3f} s at best, {statistics.median(used):.3f} s in the median"
    )


def time_imports(runs: int) -> None:
    """A fresh process that only imports the chain."""
    took = []
    for _ in range(runs):
        begun = time.perf_counter()
        subprocess.run([sys.executable, "-c", "import plugin.core.measure.chain"], cwd=ROOT, check=True)
        took.append(time.perf_counter() - begun)
    print(f"a fresh Python that imports it: median {statistics.median(took):.3f} s")


def plain_log(rows: int = ROWS) -> bytes:
    """A log of numbers and two names: `walk,station,x,y,z,hold_s`, to the millimetre."""
    draw = random.Random(1)  # noqa: S311  # a log to be read, no secret
    lines, x, y = ["walk,station,x,y,z,hold_s"], 0.0, 0.0
    for i in range(rows):
        x, y = x + draw.uniform(-1.0, 1.2), y + draw.uniform(-1.0, 1.2)
        hold = "" if i % 10 else "2.5"
        lines.append(f"{_names(i, rows)},{x:.3f},{y:.3f},{draw.uniform(0, 5):.3f},{hold}")
    return ("# units: m\n" + "\n".join(lines) + "\n").encode()


def quoted_log(rows: int = ROWS) -> bytes:
    """A log with times, features, legs, quoted names and notes of several lines."""
    draw = random.Random(2)  # noqa: S311  # a log to be read, no secret
    lines, x, y = ["walk,station,x,y,z,time,hold_s,feature,part,geometry,leg,mark,item,note"], 0.0, 0.0
    notes = ('"edge, ""soft"" ground"', '"two\nlines"')
    for i in range(rows):
        x, y = x + draw.uniform(-1.0, 1.2), y + draw.uniform(-1.0, 1.2)
        time_of_day = f"{8 + i // 7200 % 10:02}:{i // 120 % 60:02}:{i // 2 % 60:02}.{i % 2 * 5}00"
        day = f"2026-{1 + i // 72000 // 28:02}-{1 + i // 72000 % 28:02}"
        feature = (f'"Bed {i // 50}",,area', ",,")[i // 50 % 3 == 0]
        leg, mark = "as-walked" if i % 5 else "", "" if i % 5000 else "A"
        note = "" if i % 20 else notes[i // 20 % 2]
        lines.append(
            f"{_names(i, rows)},{x:.3f},{y:.3f},{draw.uniform(0, 5):.3f},{day}T{time_of_day},"
            f"{'' if i % 10 else '2.5'},{feature},{leg},{mark},{'turf' if 'Bed' in feature else ''},{note}"
        )
    return ("# units: m\n" + "\n".join(lines) + "\n").encode()


def _names(i: int, rows: int) -> str:
    """Walk and station of row i."""
    walk = max(rows // WALKS, 1)
    return f"W{i // walk + 1},{i % walk + 1}"


def time_log(name: str, log: bytes, goal: float, runs: int) -> None:
    """A log beside pandas (as it comes, and with exact numbers and names as text, as ours are) and csv."""
    import pandas as pd

    from plugin.core.read.walk_log import read_walk_log

    took = interleaved(
        {
            "ours": lambda: read_walk_log("log.csv", log),
            "pandas": lambda: pd.read_csv(io.BytesIO(log), skiprows=1),
            "pandas, exact": lambda: pd.read_csv(
                io.BytesIO(log), skiprows=1, float_precision="round_trip", dtype={"station": str}
            ),
            "csv": lambda: list(csv.reader(io.StringIO(log.decode(), newline=""))),
        },
        runs,
    )
    peers = ", ".join(f"{peer} {seconds:.2f} s" for peer, seconds in took.items() if peer != "ours")
    ratio, exact = took["ours"] / took["pandas"], took["ours"] / took["pandas, exact"]
    print(f"log of 1e6 rows, {name}, {len(log) / 1e6:.0f} MB: {took['ours']:.2f} s; {peers}")
    print(f"    {ratio:.2f} x pandas, goal {goal} x; {exact:.2f} x pandas where it reads exactly")


def interleaved(works: Mapping[str, Callable[[], object]], runs: int) -> dict[str, float]:
    """The median seconds of each work, all done in turn, each round begun by another: what comes after the work that
    frees most memory pays for having it back."""
    took: dict[str, list[float]] = {name: [] for name in works}
    names = list(works)
    for turn in range(runs):
        for name in names[turn % len(names) :] + names[: turn % len(names)]:
            begun = time.perf_counter()
            result = works[name]()
            took[name].append(time.perf_counter() - begun)
            del result
    return {name: statistics.median(seconds) for name, seconds in took.items()}


def main() -> None:
    """Print the rows."""
    runs = int(sys.argv[1])
    print(f"Python {platform.python_version()}, {platform.machine()}")
    time_chain(job_of_500(), runs)
    time_imports(runs)
    time_log("plain", plain_log(), PLAIN_GOAL, runs)
    time_log("quoted", quoted_log(), QUOTED_GOAL, runs)


if __name__ == "__main__":
    main()
