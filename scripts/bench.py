# SPDX-License-Identifier: GPL-2.0-or-later
"""Time the core chain on a job of 500 stations, from bytes to rows: medians over some runs."""

from __future__ import annotations

import platform
import re
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).absolute().parent.parent
sys.path.insert(0, str(ROOT))
STATIONS = 500


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
    took = []
    for _ in range(runs):
        begun = time.perf_counter()
        survey = survey_files(files)
        took.append(time.perf_counter() - begun)
    figures = (
        len(survey.areas) + len(survey.lengths) + len(survey.spots) + len(survey.sides) + len(survey.legs)
    )
    print(
        f"read to rows, {len(survey.stations)} stations, {figures} rows: median {statistics.median(took):.3f} s"
    )


def time_imports(runs: int) -> None:
    """A fresh process that only imports the chain."""
    took = []
    for _ in range(runs):
        begun = time.perf_counter()
        subprocess.run([sys.executable, "-c", "import plugin.core.measure.chain"], cwd=ROOT, check=True)
        took.append(time.perf_counter() - begun)
    print(f"a fresh Python that imports it: median {statistics.median(took):.3f} s")


def main() -> None:
    """Print the rows."""
    runs = int(sys.argv[1])
    print(f"Python {platform.python_version()}, {platform.machine()}")
    time_chain(job_of_500(), runs)
    time_imports(runs)


if __name__ == "__main__":
    main()
