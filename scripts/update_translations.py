# SPDX-License-Identifier: GPL-2.0-or-later
"""Collect every text that users see into resources/i18n/*.ts, and keep the translations that are there.

Usage: update_translations.py [LANGUAGE ...]

A new LANGUAGE (de, pt_BR) gets a file. Texts are the literals of `tr(...)`, and those that reach a parameter, a field
or a class attribute called `template` or `remedy`: told by the syntax, through names, tables and functions, since the
core holds literals and only the bridge translates them. What is no literal is told and nothing is written: no
catalogue would ever find it. A text that is used no longer goes with its translation.
"""

from __future__ import annotations

import ast
import sys
import xml.etree.ElementTree as ET
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Optional
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).parent.parent
PLUGIN = ROOT / "plugin"
FOLDER = ROOT / "resources" / "i18n"
NAME = "ground_tally"
CONTEXT = "GroundTally"
TEXTS = frozenset({"template", "remedy"})
TAKEN_ON = frozenset({*TEXTS, "remedy_text"})
"""Attributes that hand on what was a literal where the record was made."""
ERRORS = "core/errors.py"
"""Every class of it takes its template first."""
PROGRESS = frozenset({"progress", "report"})
"""Callables whose second argument names a step of the work (bridge/progress.py translates it)."""
VARIABLES = {
    ("bridge/progress.py", "words"): "",
    ("bridge/inventory.py", "self.kind.value"): "core/read/formats.py TableKind",
    ("processing/plan_walk.py", "kind.value"): "core/accuracy.py AccuracyKind",
    ("gui/findings_model.py", "finding.severity"): "core/findings.py Severity",
}
"""Where `tr` is given no literal, by file and expression, and the enum whose values it is given: they are collected."""
MAX_DEPTH = 12
"""Steps from a call to its literal: three are needed; more is a circle."""


@dataclass
class Module:
    """One file's syntax, and what stands around each node."""

    path: str
    tree: ast.Module
    around: dict[ast.AST, ast.AST] = field(default_factory=dict)
    imported: dict[str, str] = field(default_factory=dict)
    """What names the file imports, and the last name of the module each comes from."""

    def __post_init__(self) -> None:
        """Note each node's parent, and what is imported."""
        for node in ast.walk(self.tree):
            if isinstance(node, ast.ImportFrom) and node.level:
                home = (node.module or "").rpartition(".")[2]
                self.imported.update({alias.asname or alias.name: home for alias in node.names})
            for child in ast.iter_child_nodes(node):
                self.around[child] = node

    def function_of(self, node: ast.AST) -> ast.FunctionDef | None:
        """The function that a node stands in."""
        while node in self.around:
            node = self.around[node]
            if isinstance(node, ast.FunctionDef):
                return node
        return None


@dataclass(frozen=True)
class Signature:
    """The parameters of a function, or the fields of a record, in order."""

    path: str
    names: list[str]
    is_method: bool


@dataclass(frozen=True)
class Unclear:
    """An expression that is no literal, and where it stands."""

    path: str
    line: int
    text: str

    def __str__(self) -> str:
        return f"{self.path}, line {self.line}: {self.text} is no literal, so no catalogue finds it."


Part = tuple[Module, ast.expr, Optional[int]]
"""An expression, the file it stands in, and which element of it is meant where it is a tuple."""


class Catalogue:
    """All texts of the plugin."""

    def __init__(self, plugin: Path = PLUGIN) -> None:
        """Read every file, then follow what is called template, remedy or tr."""
        self._modules = [
            Module(path.relative_to(plugin).as_posix(), ast.parse(path.read_text(encoding="utf-8")))
            for path in sorted(plugin.rglob("*.py"))
        ]
        self._nodes = [(module, node) for module in self._modules for node in ast.walk(module.tree)]
        self._parameters: dict[str, list[Signature]] = {}
        self._note_parameters()
        self.texts: dict[str, str] = {}
        """Text to the file where it was found first."""
        self.unclear: list[Unclear] = []
        for module, node in self._nodes:
            for expression in self._translated(module, node):
                self._take(module, expression)

    def _note_parameters(self) -> None:
        """The parameters of every function, method and record, by its name."""
        for module, node in self._nodes:
            if isinstance(node, ast.FunctionDef) and node.name != "__init__":
                names = [arg.arg for arg in node.args.args if arg.arg not in {"self", "cls"}]
                is_method = isinstance(module.around[node], ast.ClassDef)
                self._parameters.setdefault(node.name, []).append(Signature(module.path, names, is_method))
            elif isinstance(node, ast.ClassDef):
                fields = [part for part in node.body if isinstance(part, ast.AnnAssign)]
                names = [_last(part.target) for part in fields]
                if module.path == ERRORS:
                    names = ["template"]
                self._parameters.setdefault(node.name, []).append(
                    Signature(module.path, names, is_method=False)
                )

    def _translated(self, module: Module, node: ast.AST) -> Iterator[ast.expr]:
        """The expressions at a node that are translated, there or later."""
        if isinstance(node, ast.Call):
            yield from self._of_call(module, node)
        elif isinstance(node, (ast.Assign, ast.AnnAssign)):
            yield from _of_class(module, node)
        elif isinstance(node, ast.FunctionDef):
            named = node.args.args[len(node.args.args) - len(node.args.defaults) :]
            for arg, default in zip(named, node.args.defaults):
                if arg.arg in TEXTS and not _is_none(default):
                    yield default

    def _of_call(self, module: Module, call: ast.Call) -> Iterator[ast.expr]:
        name = _last(call.func)
        if name == "tr":
            if (module.path, ast.unparse(call.args[0])) not in VARIABLES:
                yield call.args[0]
            return
        if name in PROGRESS and len(call.args) == 2 and _is_text(call.args[1]):
            yield call.args[1]
        yield from (word.value for word in call.keywords if word.arg in TEXTS)
        for signature in self._signatures(module, call.func):
            yield from (arg for arg, word in zip(call.args, signature.names) if word in TEXTS)

    def _signatures(self, module: Module, called: ast.expr) -> list[Signature]:
        """What may be called by a name: what the file has or imports, or, behind a dot, any method."""
        known = self._parameters.get(_last(called), [])
        if isinstance(called, ast.Attribute):
            return [signature for signature in known if signature.is_method]
        plain = [signature for signature in known if not signature.is_method]
        home = module.imported.get(_last(called), Path(module.path).stem)
        return [signature for signature in plain if Path(signature.path).stem == home]

    def _take(self, module: Module, expression: ast.expr) -> None:
        for found in self._resolve(module, expression, None, 0):
            if isinstance(found, Unclear):
                self.unclear.append(found)
            elif found:
                self.texts.setdefault(found, module.path)

    def _resolve(
        self, module: Module, node: ast.expr, place: int | None, depth: int
    ) -> Iterator[str | Unclear]:
        """The literals that an expression can be (of a tuple, its element at a place)."""
        if _is_text(node):
            yield node.value
        elif depth < MAX_DEPTH and (parts := self._parts(module, node, place)) is not None:
            for where, part, at in parts:
                yield from self._resolve(where, part, at, depth + 1)
        else:
            yield Unclear(module.path, node.lineno, ast.unparse(node))

    def _parts(self, module: Module, node: ast.expr, place: int | None) -> list[Part] | None:
        """What an expression is made of or stands for; None where that cannot be told."""
        if isinstance(node, ast.Name):
            return self._assigned(module, node, place)
        if isinstance(node, ast.Call):
            return self._returned(module, node, place)
        held: list[ast.expr] | None = None
        if isinstance(node, ast.IfExp):
            held = [node.body, node.orelse]
        elif isinstance(node, ast.Dict):
            held = node.values
        elif isinstance(node, ast.Subscript):
            held = [node.value]
        elif isinstance(node, ast.Tuple) and place is not None and place < len(node.elts):
            held, place = [node.elts[place]], None
        elif isinstance(node, ast.Attribute) and node.attr in TAKEN_ON:
            held = []
        return None if held is None else [(module, part, place) for part in held]

    def _returned(self, module: Module, call: ast.Call, place: int | None) -> list[Part] | None:
        name = _last(call.func)
        found = [(m, n) for m, n in self._nodes if isinstance(n, ast.FunctionDef) and n.name == name]
        own = [(m, n) for m, n in found if m is module] or found
        returns = [
            (m, r.value, place) for m, n in own for r in ast.walk(n) if isinstance(r, ast.Return) and r.value
        ]
        return returns or None

    def _assigned(self, module: Module, name: ast.Name, place: int | None) -> list[Part] | None:
        function = module.function_of(name)
        while function is not None:
            arguments = function.args.args + function.args.kwonlyargs
            if name.id in {arg.arg for arg in arguments}:
                return [] if name.id in TEXTS else None
            found = list(_values(function, name.id, place))
            if found:
                return [(module, value, at) for value, at in found]
            function = module.function_of(function)
        for where in [module, *self._modules]:
            found = list(_values(where.tree, name.id, place, deep=False))
            if found:
                return [(where, value, at) for value, at in found]
        return None


def _values(
    inside: ast.AST, name: str, place: int | None, *, deep: bool = True
) -> Iterator[tuple[ast.expr, int | None]]:
    """What is assigned to a name, alone or as one of several."""
    for node in ast.walk(inside) if deep else ast.iter_child_nodes(inside):
        if isinstance(node, ast.AnnAssign) and _last(node.target) == name and node.value is not None:
            yield node.value, place
        for target in node.targets if isinstance(node, ast.Assign) else []:
            if isinstance(target, ast.Name) and target.id == name:
                yield node.value, place
            elif isinstance(target, ast.Tuple):
                names = [_last(element) for element in target.elts]
                if name in names:
                    yield node.value, names.index(name)


def _of_class(module: Module, node: ast.Assign | ast.AnnAssign) -> Iterator[ast.expr]:
    """What a class has: a text of its own, or the values of an enum that is translated by its values."""
    owner = module.around.get(node)
    if not isinstance(owner, ast.ClassDef) or node.value is None:
        return
    target = node.targets[0] if isinstance(node, ast.Assign) else node.target
    if _last(target) in TEXTS or f"{module.path} {owner.name}" in VARIABLES.values():
        yield node.value


def _last(node: ast.AST) -> str:
    """The last name of `a`, `b.a` or `b.a[c]`."""
    if isinstance(node, ast.Attribute):
        return node.attr
    if isinstance(node, ast.Subscript):
        return _last(node.value)
    return node.id if isinstance(node, ast.Name) else ""


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def _is_none(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and node.value is None


def read_translations(path: Path) -> dict[str, str]:
    """The finished translations of a file."""
    if not path.exists():
        return {}
    found = {}
    for message in ET.parse(path).getroot().iter("message"):  # noqa: S314 - our own file
        text = message.find("translation")
        if text is not None and text.text and text.get("type") is None:
            found[message.findtext("source", "")] = text.text
    return found


def written(texts: dict[str, str], language: str, translations: dict[str, str]) -> str:
    """A .ts file, its texts in order."""
    head = f' language="{language}"' if language else ""
    lines = [
        '<?xml version="1.0" encoding="utf-8"?>',
        "<!DOCTYPE TS>",
        f'<TS version="2.1"{head} sourcelanguage="en">',
        "<context>",
        f"    <name>{CONTEXT}</name>",
    ]
    for text in sorted(texts):
        told = translations.get(text, "")
        state = "" if told else ' type="unfinished"'
        lines += [
            "    <message>",
            f"        <source>{_escaped(text)}</source>",
            f"        <translation{state}>{_escaped(told)}</translation>",
            "    </message>",
        ]
    return "\n".join([*lines, "</context>", "</TS>", ""])


def _escaped(text: str) -> str:
    return escape(text, {'"': "&quot;", "'": "&apos;"})


def language_of(path: Path) -> str:
    """The language of a file, by its name; none of the source file."""
    return path.stem[len(NAME) + 1 :]


def updated(catalogue: Catalogue, folder: Path = FOLDER, more: tuple[str, ...] = ()) -> dict[Path, str]:
    """Every .ts file as it ought to be."""
    paths = {
        folder / f"{NAME}.ts",
        *folder.glob(f"{NAME}_*.ts"),
        *(folder / f"{NAME}_{word}.ts" for word in more),
    }
    return {
        path: written(catalogue.texts, language_of(path), read_translations(path)) for path in sorted(paths)
    }


def main() -> None:
    """Write them, and say how much is translated."""
    catalogue = Catalogue()
    if catalogue.unclear:
        sys.exit("\n".join(map(str, catalogue.unclear)))
    FOLDER.mkdir(parents=True, exist_ok=True)
    for path, text in updated(catalogue, more=tuple(sys.argv[1:])).items():
        path.write_text(text, encoding="utf-8", newline="\n")
        done = len(read_translations(path))
        print(f"{path.relative_to(ROOT)}: {done} of {len(catalogue.texts)} translated")


if __name__ == "__main__":
    main()
