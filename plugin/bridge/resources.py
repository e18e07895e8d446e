# SPDX-License-Identifier: GPL-2.0-or-later
"""Where the shipped files lie, in the repository and in the installed plugin alike."""

from __future__ import annotations

from pathlib import Path

# Not resolved: a development profile reaches this file through a link, and resources/ lies beside that link.
ROOT = Path(__file__).parent.parent.parent
RESOURCES = ROOT / "resources"


def icon_path(name: str) -> str:
    """The file of an icon."""
    return str(RESOURCES / "icons" / f"{name}.svg")


def guide_url(name: str) -> str:
    """Where the guide's page of an algorithm lies, as a file URL; nothing where there is none."""
    page = RESOURCES / "guide" / f"{name}.md"
    return page.absolute().as_uri() if page.exists() else ""


def style_path(table: str) -> Path:
    """The file of a table's layer style; it need not exist."""
    return RESOURCES / "styles" / f"{table}.qml"


def plugin_version() -> str:
    """The version that metadata.txt states."""
    lines = (ROOT / "metadata.txt").read_text(encoding="utf-8").splitlines()
    return next((line.split("=", 1)[1].strip() for line in lines if line.startswith("version=")), "")
