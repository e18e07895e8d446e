#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-2.0-or-later
"""Write both demo jobs anew: logs, control, tapes, instruments, decisions, truth and picture.

    scripts/make_demo.py [FOLDER]
    scripts/make_demo.py --batch FOLDER

FOLDER is resources/demo unless told; each job goes into a folder of its own there. The seeded faults go into
folders of their own below faults/ beside it, each a whole job with one mistake in it. --batch writes forty plots
below FOLDER instead: copies of one demo site of many sizes and turns, six of them with a seeded fault.
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
    Expected,
    faulty_job,
    find_site,
    make_batch,
    make_job,
)
from scripts.demo_jobs.picture import draw_picture
from scripts.demo_jobs.truth import write_truth


def write_demo(folder: Path, *, pictures: bool = True) -> list[Path]:
    """Write every demo job below a folder; the files written."""
    written = []
    for name in SITES:
        site, place = find_site(name), folder / name
        texts = {
            **make_job(site, COMMITTED_SEEDS[name], variant="committed"),
            "truth.json": write_truth(site),
        }
        written += _write_texts(place, texts)
        if pictures:
            draw_picture(site, place / "orthophoto.tif")
            written.append(place / "orthophoto.tif")
    return written


def write_faults(folder: Path) -> list[Path]:
    """Write each seeded fault as a job of its own below a folder, with what should be found; the files written."""
    written = []
    for name in FAULTS:
        files, expected = faulty_job(name)
        written += _write_texts(folder / name, {**files, "expected.json": _note(expected)})
    return written


def write_batch(folder: Path) -> list[Path]:
    """Write the forty plots below a folder, each with its true figures; the files written."""
    written = []
    for plot in make_batch():
        texts = {**plot.files, "truth.json": write_truth(plot.site, plot.truth)}
        if plot.expected is not None:
            texts["expected.json"] = _note(plot.expected)
        written += _write_texts(folder / plot.site.folder, texts)
    return written


def _note(expected: Expected) -> str:
    return json.dumps({"code": expected.code, "place": expected.place}) + "\n"


def _write_texts(place: Path, texts: dict[str, str]) -> list[Path]:
    place.mkdir(parents=True, exist_ok=True)
    for file, text in texts.items():
        (place / file).write_bytes(text.encode("utf-8"))
    return [place / file for file in texts]


def main() -> None:
    """Read the command line and write."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", nargs="?", type=Path)
    parser.add_argument("--batch", action="store_true", help="write the forty plots")
    given = parser.parse_args()
    folder = given.folder or ROOT / "resources" / "demo"
    if given.batch and given.folder is None:
        parser.error("--batch needs the folder to write to.")
    made = write_batch(folder) if given.batch else write_demo(folder) + write_faults(folder.parent / "faults")
    for path in made:
        sys.stdout.write(f"{path}: {path.stat().st_size:,} bytes\n")


if __name__ == "__main__":
    main()
