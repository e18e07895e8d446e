# SPDX-License-Identifier: GPL-2.0-or-later
"""The table of findings that users read names every code and every answer that the code has."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = sorted((ROOT / "plugin" / "core").rglob("*.py"))
CODE = re.compile(r"(IN|WK|TI|CL|PL|GE|GR|HT|SR)-\d\d")
SEVERITIES = {"stop", "ask", "note", "stop or ask"}
UNITS = {"m", "ft", "us-ft", "in", "cm", "mm"}


def texts_of(node):
    return {n.value for n in ast.walk(node) if isinstance(n, ast.Constant) and isinstance(n.value, str)}


def constants_of(tree):
    """Module constants by name, those of `A, B = "a", "b"` too."""
    found = {}
    for node in tree.body:
        for target in node.targets if isinstance(node, ast.Assign) else ():
            if isinstance(target, ast.Name):
                found[target.id] = node.value
            elif isinstance(target, ast.Tuple) and isinstance(node.value, ast.Tuple):
                found.update((name.id, value) for name, value in zip(target.elts, node.value.elts))
    return found


def answers_in(path):
    """Every word that stands in a tuple of answers, names of constants followed."""
    tree = ast.parse(path.read_text("utf-8"))
    constants = constants_of(tree)
    words = set()
    for node in ast.walk(tree):
        value = node.value if isinstance(node, ast.keyword) and node.arg == "answers" else None
        if isinstance(node, ast.Assign) and any(getattr(t, "id", "") == "answers" for t in node.targets):
            value = node.value
        if value is None:
            continue
        parts = [constants.get(n.id) for n in ast.walk(value) if isinstance(n, ast.Name)]
        for part in (value, *filter(None, parts)):
            if isinstance(part, (ast.Tuple, ast.IfExp, ast.Constant)):
                words |= texts_of(part)
                names = [n.id for n in ast.walk(part) if isinstance(n, ast.Name) and n.id in constants]
                words |= {text for name in names for text in texts_of(constants[name])}
    return words


def table():
    text = (ROOT / "resources" / "formats" / "README.md").read_text(encoding="utf-8")
    rows = [line.strip("| ").split(" | ") for line in text.splitlines() if CODE.match(line.strip("| "))]
    assert rows
    return rows


def test_every_code_of_the_core_stands_in_the_table_and_no_other():
    raised = set()
    for path in FILES:
        raised |= {text for text in texts_of(ast.parse(path.read_text("utf-8"))) if CODE.fullmatch(text)}
    assert raised == {row[0] for row in table()}
    assert len(raised) > 20


def test_every_answer_of_the_core_is_explained_and_no_other():
    asked = set().union(*map(answers_in, FILES)) - UNITS
    explained = {word for row in table() for word in re.findall(r"`([^`]+)`:", row[4])} - UNITS
    assert {"left out", "accept", "use the control", "confirmed", "exchange", "one"} <= asked
    assert asked == explained


@pytest.mark.parametrize("row", table(), ids=lambda row: row[0])
def test_a_row_has_its_severity_its_place_and_its_answers(row):
    code, severity, meaning, place, answers = row
    assert severity in SEVERITIES
    assert meaning
    assert any(word in place for word in ("survey", "station", "feature", "mark", "tape", "ends"))
    assert ("`" in answers) != answers.startswith("none")
    assert severity != "note" or answers == "none"
    assert severity == "note" or answers != "none" or code in {"TI-01", "GE-01"}
