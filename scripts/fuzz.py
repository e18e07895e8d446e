#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-2.0-or-later
"""Feed one reader mutated files, guided by what code they reach (see scripts/fuzz).

A reader may refuse a file by an error of our own; anything else it raises, a file on which it takes over ten
seconds and a memory of over 2 GB are faults.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

import atheris

with atheris.instrument_imports(include=["plugin.core.read"]):
    from plugin.core.errors import GroundTallyError
    from plugin.core.findings import Decisions
    from plugin.core.read.control import read_control
    from plugin.core.read.decisions import read_decisions
    from plugin.core.read.formats import find_kind
    from plugin.core.read.instruments import read_instruments
    from plugin.core.read.job import read_job
    from plugin.core.read.landxml.drawing import read_landxml
    from plugin.core.read.points.point_list import read_point_list
    from plugin.core.read.receiver.gpx import read_gpx
    from plugin.core.read.receiver.nmea import read_nmea
    from plugin.core.read.table import read_table
    from plugin.core.read.tapes import read_tapes
    from plugin.core.read.walk_log import read_walk_log

if TYPE_CHECKING:
    from collections.abc import Callable

LONGEST = 20_000
"""Bytes of a mutated file: longer ones only make it slower to reach new code."""
SLOWEST_S = 10
MOST_MEMORY_MB = 2048
NONE = Decisions()
READERS: dict[str, tuple[Callable[[bytes], object], tuple[str, ...]]] = {
    "walk_log": (
        lambda data: read_walk_log("a.csv", data, NONE),
        ("formats/walk_log.csv", "demo/*/walk_1.csv"),
    ),
    "control": (lambda data: read_control(read_table("a.csv", data)), ("formats/control.csv",)),
    "tapes": (lambda data: read_tapes(read_table("a.csv", data), NONE, None), ("formats/tapes.csv",)),
    "instruments": (lambda data: read_instruments(read_table("a.csv", data)), ("formats/instruments.csv",)),
    "decisions": (lambda data: read_decisions(read_table("a.csv", data)), ("formats/decisions.csv",)),
    "point_list": (lambda data: read_point_list("a.csv", data, NONE), ()),
    "gpx": (lambda data: read_gpx("a.gpx", data), ()),
    "nmea": (lambda data: read_nmea("a.txt", data), ()),
    "landxml": (lambda data: read_landxml("a.xml", data, NONE), ()),
    "kinds": (find_kind, ("formats/*.csv",)),
    "job": (lambda data: read_job({"a": data}), ("formats/*.csv",)),
}
"""Each reader, and where its first files lie below resources/; tests/seeds and build/samples hold more."""


ROUND_S = 90
"""Seconds of one process: the fuzzer's own marks in the code cost some 30 kB a run, which would look like a leak."""


def main() -> None:
    """Read the command line and feed, round after round, until the time is over or something is found."""
    if len(sys.argv) < 2 or sys.argv[1] not in READERS:
        raise SystemExit("scripts/fuzz READER [SECONDS]; readers: " + ", ".join(READERS))
    name, seconds = sys.argv[1], int(sys.argv[2] if len(sys.argv) > 2 else 600)
    if sys.argv[3:] == ["one round"]:
        feed_round(name, seconds)
    place = ROOT / "build" / "fuzz" / name
    for folder in (place / "corpus", place / "found"):
        folder.mkdir(parents=True, exist_ok=True)
    for path in first_files(name):
        (place / "corpus" / f"{path.parent.name}_{path.name}").write_bytes(path.read_bytes()[:LONGEST])
    while seconds > 0:
        command = [sys.executable, __file__, name, str(min(seconds, ROUND_S)), "one round"]
        if subprocess.run(command, check=False).returncode:
            raise SystemExit(f"Something was found: see {place.relative_to(ROOT) / 'found'}")
        seconds -= ROUND_S


def first_files(name: str) -> list[Path]:
    """Where mutation begins."""
    files = [path for pattern in READERS[name][1] for path in (ROOT / "resources").glob(pattern)]
    # What tells the kinds apart, and the whole job, begin with files of every kind.
    kinds = ("gpx", "nmea", "landxml", "point_list") if name in ("job", "kinds") else (name,)
    for kind in kinds:
        for folder in (ROOT / "tests" / "seeds" / kind, ROOT / "build" / "samples" / kind):
            files += (path for path in folder.glob("*") if path.is_file())
    return files


def feed_round(name: str, seconds: int) -> None:
    """One process of feeding; it does not come back."""
    read = READERS[name][0]

    def feed(data: bytes) -> None:
        try:
            read(data)
        except GroundTallyError as error:
            str(error)

    place = ROOT / "build" / "fuzz" / name
    options = [
        f"-max_total_time={seconds}", f"-max_len={LONGEST}", f"-timeout={SLOWEST_S}",
        f"-rss_limit_mb={MOST_MEMORY_MB}", f"-artifact_prefix={place / 'found'}/", "-print_final_stats=1",
        "-verbosity=0",
    ]  # fmt: skip
    words = ROOT / "tests" / "seeds" / f"{name}.dict"
    if words.exists():
        options.append(f"-dict={words}")
    atheris.Setup([sys.argv[0], *options, str(place / "corpus")], feed)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
