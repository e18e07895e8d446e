#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-2.0-or-later
"""Write both demo jobs anew: logs, control, tapes, instruments, decisions, truth and picture.

    scripts/make_demo.py [FOLDER]

FOLDER is resources/demo unless told; each job goes into a folder of its own there. The seeded faults go into
folders of their own below faults/ beside it, each a whole job with one mistake in it.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from scripts.demo_jobs import (
    COMMITTED_SEEDS,
    FAULTS,
    SITES,
    faulty_job,
    find_site,
    make_job,
)
from scripts.demo_jobs.picture import draw_picture
from scripts.demo_jobs.truth import write_truth


def write_demo(folder: Path, *, pictures: bool = True) -> list[Path]:
    """Write every demo job below a folder; the files written."""
    written = []
    for name in SITES:
        site, place = find_site(name), folder / name
        place.mkdir(parents=True, exist_ok=True)
        texts = {
            **make_job(site, COMMITTED_SEEDS[name], variant="committed"),
            "truth.json": write_truth(site),
        }
        for file, text in texts.items():
            (place / file).write_bytes(text.encode("utf-8"))
        if pictures:
            draw_picture(site, place / "orthophoto.tif")
        written += [place / file for file in (*texts, *(["orthophoto.tif"] if pictures else []))]
    return written


def write_faults(folder: Path) -> list[Path]:
    """Write each seeded fault as a job of its own below a folder, with what should be found; the files written."""
    written = []
    for name in FAULTS:
        files, expected = faulty_job(name)
        place = folder / name
        place.mkdir(parents=True, exist_ok=True)
        note = json.dumps({"code": expected.code, "place": expected.place}) + "\n"
        for file, text in {**files, "expected.json": note}.items():
            (place / file).write_bytes(text.encode("utf-8"))
            written.append(place / file)
    return written


def main() -> None:
    """Read the command line and write."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", nargs="?", type=Path, default=ROOT / "resources" / "demo")
    folder = parser.parse_args().folder
    for path in write_demo(folder) + write_faults(folder.parent / "faults"):
        sys.stdout.write(f"{path}: {path.stat().st_size:,} bytes\n")


if __name__ == "__main__":
    main()
