# SPDX-License-Identifier: GPL-2.0-or-later
"""What Qt 6 and QGIS 4 no longer have, or 3.22 has not yet, is not used: tests/qt6_rules.py has the rules."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

from tests import qt6_rules
from tests.qt6_rules import COMPAT, FIELDS, HOST_RULES, PLAIN_RULES, breaches, host_members

ROOT = Path(__file__).parents[2]
FILES = sorted(path for top in ("plugin", "tests", "scripts") for path in (ROOT / top).rglob("*.py"))
HAS_HOST = importlib.util.find_spec("qgis") is not None
RULES = HOST_RULES + PLAIN_RULES if HAS_HOST else PLAIN_RULES
needs_host = pytest.mark.skipif(not HAS_HOST, reason="the enums are read from the host's own classes")

TOOL = "from qgis.gui import QgsMapTool as Tool\nclass Line(Tool):\n    def "

SAMPLES = [
    ("short_enums", "Qt.UserRole", "Qt.ItemDataRole.UserRole"),
    ("short_enums", "QtCore.Qt.LeftButton", "QtCore.Qt.MouseButton.LeftButton"),
    ("short_enums", "QMessageBox.Yes", "QMessageBox.StandardButton.Yes"),
    ("short_enums", "QWidget.DrawChildren", "QWidget.RenderFlag.DrawChildren"),
    ("short_enums", "QgsWkbTypes.PolygonGeometry", "QgsWkbTypes.GeometryType.PolygonGeometry"),
    ("short_enums", "QgsProcessing.TypeVectorPolygon", "QgsProcessing.SourceType.TypeVectorPolygon"),
    ("short_enums", "QgsFeatureSink.FastInsert", "QgsFeatureSink.Flag.FastInsert"),
    ("short_enums", "Qgis.Warning", "Qgis.MessageLevel.Warning"),
    ("short_enums", "QMetaType.Double", "QMetaType.Type.Double"),
    ("short_enums", "QFont.Bold", "font.Bold"),
    ("short_enums", "from qgis.PyQt.QtCore import Qt as T\nT.AlignLeft", "class T:\n    pass\nT.AlignLeft"),
    ("short_enums", "x = a | Qt.AlignLeft | b", "x = Qt.ItemDataRole(256)"),
    ("short_enums_on_self", TOOL + "f(self):\n        self.Transient", TOOL + "f(self):\n        self.Flag.Transient"),
    (
        "short_enums_on_self",
        "class Box(QDialog):\n    def f(self):\n        self.Accepted",
        "class Box(QDialog):\n    Accepted = 3\n    def f(self):\n        self.Accepted",
    ),
    (
        "unknown_names",
        "from qgis.core import Qgis\nQgis.SomethingOfLater.Member",
        "from qgis.core import Qgis\nQgis.MessageLevel.Info",
    ),
    ("unknown_names", "from qgis.PyQt.QtCore import Qt as T\nT.NoSuchEnum", "class Qt:\n    pass\nQt.NoSuchEnum"),
    ("flag_types", "Qt.Alignment(1)", "Qt.AlignmentFlag(1)"),
    ("flag_types", "Qt.WindowFlags", "Qt.WindowType.Dialog"),
    ("gone_methods", "dialog.exec_()", "dialog.exec()"),
    ("gone_methods", "extent.setMinimal()", "extent.grow(1)"),
    ("gone_methods", "QgsVectorFileWriter.writeAsVectorFormatV2()", "QgsVectorFileWriter.writeAsVectorFormatV3()"),
    ("gone_methods", "moment.toTime_t()", "moment.toSecsSinceEpoch()"),
    ("gone_names", "QRegExp('a')", "QRegularExpression('a')"),
    ("gone_names", "QtWidgets.QDesktopWidget()", "QtGui.QScreen"),
    ("gone_names", "from qgis.PyQt.QtCore import QRegExp as R\nR('a')", "from re import compile as R\nR('a')"),
    ("gone_names", "QString('a')", "QMetaType.Type.QString"),
    ("gone_names", "a.connect(b, SIGNAL('c'))", "b.c.connect(a)"),
    ("gone_modules", "from qgis.PyQt.Qt import QWidget", "from qgis.PyQt.QtWidgets import QWidget"),
    ("gone_modules", "from qgis.PyQt import Qt", "from qgis.PyQt.QtCore import Qt"),
    ("gone_modules", "import qgis.PyQt.QtWebKitWidgets", "import qgis.PyQt.QtWidgets"),
    ("bare_bindings", "from PyQt5.QtCore import Qt", "from qgis.PyQt.QtCore import Qt"),
    ("bare_bindings", "def f():\n    import PyQt6", "def f():\n    import qgis.PyQt"),
    ("bare_bindings", "import sip", "from qgis.PyQt import sip"),
    ("moved_classes", "from qgis.PyQt.QtWidgets import QAction", "from .compat import QAction"),
    ("moved_classes", "from qgis.PyQt.QtGui import QShortcut", "from qgis.PyQt.QtGui import QIcon"),
    ("moved_classes", "QtWidgets.QAction('a')", "QtWidgets.QWidget()"),
    ("variant_types", "x == QVariant.Type", "x = QVariant()"),
    ("field_types", "QgsField('a', QMetaType.Type.Double)", "QgsField('a', REAL_TYPE)"),
    ("field_types", "core.QgsField('a', QVariant(1))", "core.QgsField('a', compat.REAL_TYPE)"),
    ("text_widths", "metrics.width('a')", "widget.width() + width('a')"),
    ("text_widths", "self.fontMetrics().width(text)", "self.fontMetrics().horizontalAdvance(text)"),
    (
        "event_places",
        "def canvasMoveEvent(self, event):\n    event.x()",
        "def canvasMoveEvent(self, event):\n    event.mapPoint().x()",
    ),
    ("event_places", "def dropEvent(self, e):\n    e.pos()", "def place(self, e):\n    e.pos()"),
    ("event_places", "def wheelEvent(self, event):\n    event.delta()", "def wheelEvent(self, event):\n    event.angleDelta()"),
    ("old_writers", "QgsVectorFileWriter('a.gpkg', 'UTF-8')", "QgsVectorFileWriter.create('a.gpkg')"),
    ("newer_names", "Qgis.GeometryType.Point", "QgsWkbTypes.GeometryType.PointGeometry"),
    ("newer_names", "core.Qgis.LayerType", "core.QgsMapLayerType"),
    ("version_questions", "Qgis.QGIS_VERSION_INT > 3", "Qgis.QGIS_VERSION"),
]  # fmt: skip


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_a_file_holds_to_what_both_hosts_have(path):
    assert breaches(path.read_text(encoding="utf-8"), path.relative_to(ROOT).as_posix(), RULES) == []


@pytest.mark.parametrize(("name", "bad", "good"), SAMPLES, ids=[f"{s[0]}: {s[1]}" for s in SAMPLES])
def test_a_rule_sees_its_breach_and_leaves_the_good_twin(name, bad, good):
    rule = getattr(qt6_rules, name)
    if rule in HOST_RULES and not HAS_HOST:
        pytest.skip("the enums are read from the host's own classes")
    found = breaches(bad, "plugin/gui/dock.py", (rule,))
    assert len(found) == 1, found
    assert f", {name}: " in found[0]
    assert breaches(good, "plugin/gui/dock.py", (rule,)) == []


def test_every_rule_has_a_sample():
    assert {rule.__name__ for rule in HOST_RULES + PLAIN_RULES} == {name for name, _, _ in SAMPLES}


@pytest.mark.parametrize(
    ("source", "path"),
    [
        ("QVariant.String", COMPAT),
        ("Qgis.QGIS_VERSION_INT", COMPAT),
        ("from qgis.PyQt.QtWidgets import QAction", COMPAT),
        ("QgsField('a', QMetaType.Type.Double)", FIELDS),
    ],
)
def test_the_file_that_knows_both_hosts_may_name_either(source, path):
    assert breaches(source, path, PLAIN_RULES) == []
    assert len(breaches(source, "plugin/gui/dock.py", PLAIN_RULES)) == 1


@needs_host
def test_the_enums_come_from_the_host_by_the_thousand():
    scopes = host_members().scopes
    assert scopes["Qt"]["UserRole"] == "Qt.ItemDataRole"
    assert scopes["QWidget"]["DrawChildren"] == "QWidget.RenderFlag"
    assert sum(map(len, scopes.values())) > 10_000
    assert {"Alignment", "ItemFlags"} <= host_members().flags["Qt"]
