# SPDX-License-Identifier: GPL-2.0-or-later
"""What all tests share: the host without a window, and PROJ's data (a virtual environment hides it)."""

from __future__ import annotations

import os
import sys
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
if Path("/usr/share/proj/proj.db").exists():
    os.environ.setdefault("PROJ_DATA", "/usr/share/proj")

ROOT = Path(__file__).parent.parent
collect_ignore_glob: list[str] = []

try:
    import qgis.core
except ImportError:
    # The core's own tests run where there is no QGIS; the rings around it cannot.
    collect_ignore_glob += ["bridge/*", "processing/*", "gui/*", "system/*"]
else:
    sys.path.append("/usr/share/qgis/python/plugins")
