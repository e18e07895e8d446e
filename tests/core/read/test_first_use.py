# SPDX-License-Identifier: GPL-2.0-or-later
"""What a job does not need is not loaded: a fresh Python imports the chain and reads a job of our own files."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).absolute().parents[3]
READ = """
import sys
from plugin.core.read.job import read_job
import plugin.core.measure.chain
log = b"walk,station,x,y,mark\\nW1,1,0,0,A\\nW1,2,5,0,B\\n"
read_job({"a.csv": b"# units: m\\n" + log, "c.csv": b"mark,x,y\\nA,1,2\\n", "p.txt": FILE})
print(*sys.modules)
"""
FOREIGN = ("plugin.core.read.points", "plugin.core.read.receiver", "plugin.core.read.landxml")
HEAVY = ("scipy", "shapely", "pandas", "matplotlib")


def loaded(file, names):
    """Which of some packages a fresh Python has loaded after a job with one more file."""
    code = READ.replace("FILE", repr(file))
    # The plugin's own modules come from this checkout; PROJ's data is where the tests have it.
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-W", "ignore", "-c", code],
        capture_output=True, text=True, check=True, env=environment,
    )  # fmt: skip
    modules = done.stdout.split()
    return {name for name in names for module in modules if module == name or module.startswith(f"{name}.")}


def test_a_job_of_our_own_files_loads_no_reader_of_other_peoples():
    tapes = b"from,to,distance\nA,B,5.0\n"
    assert loaded(tapes, (*FOREIGN, *HEAVY)) == set()


def test_a_point_list_loads_its_own_reader_alone():
    points = b"number,easting,northing,elevation,code\n1,500000,5700000,3.2,TR\n2,500004,5700001,3.1,TR\n"
    assert loaded(b"# crs: EPSG:25831\n# units: m\n" + points, (*FOREIGN, *HEAVY)) == {FOREIGN[0]}
