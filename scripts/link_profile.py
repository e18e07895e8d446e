# SPDX-License-Identifier: GPL-2.0-or-later
"""Lay the plugin out as QGIS loads it, by links, and make a profile in which it is switched on.

Usage: link_profile.py PLUGINS PROFILES

PLUGINS/ground_tally/ gets a one-line __init__.py and links to plugin/, resources/ and metadata.txt: the layout
of the zip. The links' own path stays inside, so resources/ is found beside plugin/ as it is there.
"""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent
NAME = "ground_tally"
INIT = "# SPDX-License-Identifier: GPL-2.0-or-later\nfrom .plugin import classFactory  # noqa: F401\n"
INI = f"[PythonPlugins]\n{NAME}=true\ngrassprovider=false\nsagaprovider=false\n\n[qgis]\ncheckVersion=false\nnewsFeed=false\n\n[core]\nshowTips335=false\n"


def link_plugin(folder: Path) -> None:
    """The plugin's folder, of links."""
    target = folder / NAME
    target.mkdir(parents=True, exist_ok=True)
    (target / "__init__.py").write_text(INIT, encoding="utf-8")
    for name in ("plugin", "resources", "metadata.txt", "LICENSE"):
        link = target / name
        if link.is_symlink() and link.readlink() == ROOT / name:
            continue
        link.unlink(missing_ok=True)
        link.symlink_to(ROOT / name)


def write_profile(folder: Path) -> None:
    """A profile with the plugin on; one that is there keeps its own settings."""
    ini = folder / "profiles" / "default" / "QGIS" / "QGIS3.ini"
    if not ini.exists():
        ini.parent.mkdir(parents=True, exist_ok=True)
        ini.write_text(INI, encoding="utf-8")


def main() -> None:
    """Do both."""
    plugins, profiles = map(Path, sys.argv[1:3])
    link_plugin(plugins)
    write_profile(profiles)


if __name__ == "__main__":
    main()
