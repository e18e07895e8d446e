# SPDX-License-Identifier: GPL-2.0-or-later
"""What Qt 6, PyQt6 and QGIS 4 no longer have, and what QGIS 3.22 does not have yet, found in source text.

The host's own classes say which of their names are members of enums: PyQt6 knows these by the enum's name alone
(`Qt.ItemDataRole.UserRole`). What else is gone is listed here, from Qt's list of changes for Qt 6 and PyQt's of
differences between PyQt6 and PyQt5.
"""

from __future__ import annotations

import ast
import importlib
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

COMPAT = "plugin/bridge/compat.py"
"""The one file that may know both sides."""
FIELDS = "plugin/bridge/fields.py"
QT_MODULES = ("QtCore", "QtGui", "QtWidgets", "QtXml", "QtSvg", "QtNetwork", "QtPrintSupport", "QtTest")
HOST_MODULES = ("qgis.core", "qgis.gui", "qgis.analysis")
GONE_METHODS = {
    "exec_": "exec",
    "print_": "print",
    "setMargin": "setContentsMargins",
    "setMinimal": "setNull, which 3.22 lacks: begin with the first extent",
    "setResizeMode": "setSectionResizeMode",
    "toTime_t": "toSecsSinceEpoch",
    "fromTime_t": "fromSecsSinceEpoch",
    "toAscii": "encode",
    "writeAsVectorFormat": "writeAsVectorFormatV3",
    "writeAsVectorFormatV2": "writeAsVectorFormatV3",
}
GONE_NAMES = {
    "QRegExp": "QRegularExpression",
    "QRegExpValidator": "QRegularExpressionValidator",
    "QDesktopWidget": "QScreen",
    "QString": "str",
    "QStringList": "list",
    "QPyNullVariant": "None",
    "QDirModel": "QFileSystemModel",
    "QMatrix": "QTransform",
    "QGLWidget": "QOpenGLWidget",
    "QTextCodec": "Python's own decoding",
    "QWebView": "a widget without a browser",
    "SIGNAL": "signal.connect(slot)",
    "SLOT": "signal.connect(slot)",
}
GONE_MODULES = ("qgis.PyQt.Qt", "qgis.PyQt.QtWebKit", "qgis.PyQt.QtWebKitWidgets", "qgis.PyQt.QtScript")
BARE = ("PyQt5", "PyQt6", "PySide2", "PySide6", "sip")
MOVED = frozenset({"QAction", "QActionGroup", "QShortcut", "QUndoStack", "QUndoCommand", "QUndoGroup"})
"""From QtWidgets to QtGui."""
EVENT_METHODS = frozenset(
    {"pos", "x", "y", "globalPos", "globalX", "globalY", "localPos", "windowPos", "delta"}
)
NOT_IN_3_22 = frozenset(
    {
        *(("Qgis", name) for name in ("GeometryType", "WkbType", "DistanceUnit", "LayerType")),
        *(("Qgis", name) for name in ("ProcessingSourceType", "ProcessingNumberParameterType")),
        *(("Qgis", name) for name in ("ProcessingAlgorithmFlag", "CrsWktVariant", "SnappingMode")),
        ("QgsRenderContext", "TextRenderFormat"),
    }
)
"""Tried on 3.22 and 3.40."""


@dataclass(frozen=True)
class Members:
    """Of each class of the host: its names that PyQt6 knows only by an enum's, those that are gone, and all."""

    scopes: dict[str, dict[str, str]]
    flags: dict[str, frozenset[str]]
    words: dict[str, frozenset[str]]


@cache
def host_members() -> Members:
    """From the classes as they are installed; an older host and a newer one each know what the other lacks."""
    scopes: dict[str, dict[str, str]] = {}
    flags: dict[str, frozenset[str]] = {}
    words: dict[str, frozenset[str]] = {}
    for module in (*(f"qgis.PyQt.{name}" for name in QT_MODULES), *HOST_MODULES):
        for name, kind in vars(importlib.import_module(module)).items():
            if isinstance(kind, type):
                values = {word: getattr(kind, word, None) for word in dir(kind) if not word.startswith("_")}
                scopes.setdefault(name, {}).update(
                    {
                        word: type(value).__qualname__
                        for word, value in values.items()
                        if _is_enum_member(value)
                    }
                )
                words[name] = words.get(name, frozenset()) | frozenset(dir(kind))
                if "PyQt" in module:
                    flags[name] = frozenset(word for word, value in values.items() if _is_flags(value))
    return Members(scopes, flags, words)


def _is_enum_member(value: object) -> bool:
    """Of an enum that is nested in a class; the other integers of a class are plain ones."""
    return isinstance(value, int) and "." in type(value).__qualname__


def _is_flags(value: object) -> bool:
    """A class such as Qt.Alignment: PyQt6 has the enum only."""
    return isinstance(value, type) and not issubclass(value, int) and hasattr(value, "__ixor__")


class Module:
    """One file's syntax, with what its imported names are called at home."""

    def __init__(self, source: str, path: str) -> None:
        self.tree = ast.parse(source)
        self.path = path
        self.nodes = tuple(ast.walk(self.tree))
        self.home = {
            alias.asname or alias.name: alias.name
            for node in self.nodes
            if isinstance(node, ast.ImportFrom)
            for alias in node.names
        }

        self.from_host = {
            alias.name
            for node in self.nodes
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("qgis.") and not node.level
            for alias in node.names
        }
        """What is imported from the host, by its name there."""

    def name_of(self, node: ast.AST) -> str:
        """The last name of `a` or `b.a`, as it is called where it was imported from."""
        if isinstance(node, ast.Attribute):
            return node.attr
        return self.home.get(node.id, node.id) if isinstance(node, ast.Name) else ""

    def attributes(self) -> Iterator[tuple[ast.Attribute, str]]:
        """Every `owner.name`, with the owner's name."""
        for node in self.nodes:
            if isinstance(node, ast.Attribute):
                yield node, self.name_of(node.value)

    def calls(self) -> Iterator[tuple[ast.Call, str]]:
        """Every call, with the name of what is called."""
        for node in self.nodes:
            if isinstance(node, ast.Call):
                yield node, self.name_of(node.func)

    def imports(self) -> Iterator[tuple[ast.AST, str]]:
        """Every import from elsewhere by its dotted name, a name from a module as `module.name`."""
        for node in self.nodes:
            if isinstance(node, ast.Import):
                yield from ((node, alias.name) for alias in node.names)
            elif isinstance(node, ast.ImportFrom) and not node.level:
                yield from ((node, f"{node.module}.{alias.name}") for alias in node.names)


Found = "Iterator[tuple[ast.AST, str]]"


def short_enums(module: Module) -> Found:
    """A member of an enum without the enum's name."""
    scopes = host_members().scopes
    for node, owner in module.attributes():
        if node.attr in scopes.get(owner, {}):
            yield node, f"{owner}.{node.attr} has no scope: {scopes[owner][node.attr]}.{node.attr}"


def short_enums_on_self(module: Module) -> Found:
    """The same, reached through an object of a class that is made from the host's."""
    scopes = host_members().scopes
    for one in module.nodes:
        if not isinstance(one, ast.ClassDef):
            continue
        known = {
            word: scope for base in one.bases for word, scope in scopes.get(module.name_of(base), {}).items()
        }
        own = {
            node.id
            for node in ast.walk(one)
            if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store)
        }
        own |= {node.name for node in ast.walk(one) if isinstance(node, ast.FunctionDef)}
        own |= {
            n.attr for n in ast.walk(one) if isinstance(n, ast.Attribute) and isinstance(n.ctx, ast.Store)
        }
        through = (node for node in ast.walk(one) if isinstance(node, ast.Attribute))
        for node in through:
            if module.name_of(node.value) in {"self", "cls"} and node.attr in known.keys() - own:
                yield node, f"self.{node.attr} has no scope: {known[node.attr]}.{node.attr}"


def unknown_names(module: Module) -> Found:
    """An enum or constant that a class does not have in this host: too new for an old one, or gone from a new one."""
    words = host_members().words
    for node, owner in module.attributes():
        is_known = node.attr in words.get(owner, ()) or not node.attr[0].isupper()
        if owner in module.from_host & words.keys() and not is_known and module.path != COMPAT:
            yield node, f"{owner}.{node.attr} is not in the QGIS that runs this test"


def flag_types(module: Module) -> Found:
    """A class of flags beside its enum."""
    flags = host_members().flags
    for node, owner in module.attributes():
        if node.attr in flags.get(owner, ()):
            yield node, f"{owner}.{node.attr} is gone in PyQt6, which has the enum only"


def gone_methods(module: Module) -> Found:
    """A method that is gone or renamed."""
    for node, _ in module.attributes():
        if node.attr in GONE_METHODS:
            yield node, f"{node.attr} is gone: {GONE_METHODS[node.attr]}"


def gone_names(module: Module) -> Found:
    """A class that is gone."""
    named = [(node, module.name_of(node)) for node in module.nodes if isinstance(node, ast.Name)]
    named += [(node, node.attr) for node, owner in module.attributes() if owner in QT_MODULES]
    for node, name in named:
        if name in GONE_NAMES:
            yield node, f"{name} is gone: {GONE_NAMES[name]}"


def gone_modules(module: Module) -> Found:
    """A module that is gone."""
    for node, name in module.imports():
        if any(name == gone or name.startswith(f"{gone}.") for gone in GONE_MODULES):
            yield node, f"{name} is not there in Qt 6"


def bare_bindings(module: Module) -> Found:
    """Qt by the name of one binding."""
    for node, name in module.imports():
        if name.partition(".")[0] in BARE:
            yield node, f"{name} is of one Qt only: import from qgis.PyQt"


def moved_classes(module: Module) -> Found:
    """A class that moved from one module to another; compat knows where it is."""
    if module.path == COMPAT:
        return
    for node, name in module.imports():
        if name.startswith("qgis.PyQt.") and name.rpartition(".")[2] in MOVED:
            yield node, f"{name} has moved in Qt 6: take it from compat"
    for node, owner in module.attributes():
        if owner in {"QtWidgets", "QtGui"} and node.attr in MOVED:
            yield node, f"{owner}.{node.attr} has moved in Qt 6: take it from compat"


def variant_types(module: Module) -> Found:
    """A type of QVariant, which Qt 6 does not have."""
    if module.path == COMPAT:
        return
    for node, owner in module.attributes():
        if owner == "QVariant" and node.attr[0].isupper():
            yield node, f"QVariant.{node.attr} is gone: take the type from compat"


def field_types(module: Module) -> Found:
    """A field with a type named on the spot: 3.22 wants QVariant's, Qt 6 QMetaType's."""
    if module.path in {COMPAT, FIELDS}:
        return
    for node, name in module.calls():
        if name == "QgsField" and any(
            module.name_of(part) in {"QVariant", "QMetaType"} for word in node.args for part in ast.walk(word)
        ):
            yield node, "QgsField with a type of its own: take the type from compat"


def text_widths(module: Module) -> Found:
    """The width of a text by a font's metrics: only there does width() take something."""
    for node, name in module.calls():
        if name == "width" and node.args and isinstance(node.func, ast.Attribute):
            yield node, "width(text) of a font's metrics is gone: horizontalAdvance"


def event_places(module: Module) -> Found:
    """Where a mouse event was, in an event's handler, by a method that is gone."""
    for one in module.nodes:
        if not (isinstance(one, ast.FunctionDef) and one.name.endswith("Event")):
            continue
        words = {arg.arg for arg in one.args.args} - {"self"}
        for node in ast.walk(one):
            if (
                isinstance(node, ast.Attribute)
                and node.attr in EVENT_METHODS
                and module.name_of(node.value) in words
            ):
                yield node, f"{node.attr}() of an event is gone: position(), or mapPoint() on a map"


def old_writers(module: Module) -> Found:
    """The writer made by its constructor, whose arguments have changed."""
    for node, name in module.calls():
        if name == "QgsVectorFileWriter":
            yield node, "QgsVectorFileWriter(...) is old: QgsVectorFileWriter.create"


def newer_names(module: Module) -> Found:
    """A name that 3.22 does not have."""
    if module.path == COMPAT:
        return
    for node, owner in module.attributes():
        if (owner, node.attr) in NOT_IN_3_22:
            yield node, f"{owner}.{node.attr} is not in 3.22"


def version_questions(module: Module) -> Found:
    """Which host it is: only compat asks."""
    if module.path == COMPAT:
        return
    for node, owner in module.attributes():
        if (owner, node.attr) == ("Qgis", "QGIS_VERSION_INT"):
            yield node, "only compat asks for the version"


HOST_RULES = (short_enums, short_enums_on_self, unknown_names, flag_types)
"""These ask the installed host for its classes."""
PLAIN_RULES = (
    *(gone_methods, gone_names, gone_modules, bare_bindings, moved_classes, variant_types, field_types),
    *(text_widths, event_places, old_writers, newer_names, version_questions),
)


def breaches(source: str, path: str, rules: tuple = HOST_RULES + PLAIN_RULES) -> list[str]:
    """What a file at a path below the repository breaks, as `line 3, rule: what`."""
    module = Module(source, path)
    return [f"line {node.lineno}, {rule.__name__}: {what}" for rule in rules for node, what in rule(module)]
