# SPDX-License-Identifier: GPL-2.0-or-later
"""What Qt 6 and QGIS 4 no longer have is not used: short enums, exec_, bare PyQt, names newer than 3.22."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = sorted(
    path
    for ring in ("bridge", "processing", "gui")
    for path in (ROOT / "plugin" / ring).rglob("*.py")
    if path.name != "compat.py"
)
QT_ENUM_OWNERS = {
    "Qt",
    "QMessageBox",
    "QDialogButtonBox",
    "QSizePolicy",
    "QFrame",
    "QAbstractItemView",
    "QFont",
}
GONE = {"exec_", "setMargin", "QRegExp"}
NEWER_THAN_3_22 = {
    "GeometryType",
    "WkbType",
    "DistanceUnit",
    "LayerType",
    "ProcessingSourceType",
    "CrsWktVariant",
}


def short_enums(source: str) -> list[str]:
    """`Qt.UserRole`, where `Qt.ItemDataRole.UserRole` should stand, and other words that Qt 6 does not know."""
    tree = ast.parse(source)
    scoped = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
    found = []
    for node in ast.walk(tree):
        if not isinstance(node, ast.Attribute):
            continue
        owner = node.value.id if isinstance(node.value, ast.Name) else ""
        if owner in QT_ENUM_OWNERS and node.attr[0].isupper() and id(node) not in scoped:
            found.append(f"line {node.lineno}: {owner}.{node.attr} has no scope")
        if node.attr in GONE:
            found.append(f"line {node.lineno}: {node.attr} is gone in Qt 6")
        if owner == "Qgis" and node.attr in NEWER_THAN_3_22:
            found.append(f"line {node.lineno}: Qgis.{node.attr} is not in 3.22")
    return found


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_enums_carry_their_scope(path):
    assert short_enums(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    "source",
    [
        "Qt.UserRole",
        "dialog.exec_()",
        "Qgis.GeometryType.Point",
        "QMessageBox.Yes | QMessageBox.StandardButton.No",
    ],
)
def test_a_short_enum_is_seen(source):
    assert len(short_enums(source)) == 1
