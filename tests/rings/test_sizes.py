# SPDX-License-Identifier: GPL-2.0-or-later
"""Files and functions stay short enough to be read."""

from __future__ import annotations

import ast
import io
import tokenize
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = sorted((ROOT / "plugin").rglob("*.py"))
LONGEST_FILE = 300
LONGEST_MAIN = 120
LONGEST_FUNCTION = 60
"""Code lines: blanks, comments and docstrings are left out."""


def code_lines(source: str) -> set[int]:
    """The lines that hold code."""
    lines: set[int] = set()
    skipped = {
        tokenize.COMMENT,
        tokenize.NL,
        tokenize.NEWLINE,
        tokenize.INDENT,
        tokenize.DEDENT,
        tokenize.ENDMARKER,
    }
    for token in tokenize.generate_tokens(io.StringIO(source).readline):
        if token.type not in skipped:
            lines.update(range(token.start[0], token.end[0] + 1))
    for node in ast.walk(ast.parse(source)):
        if (
            isinstance(node, ast.Expr)
            and isinstance(node.value, ast.Constant)
            and isinstance(node.value.value, str)
        ):
            lines.difference_update(range(node.lineno, node.end_lineno + 1))
    return lines


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_a_file_and_its_functions_can_be_read_in_one_go(path):
    source = path.read_text(encoding="utf-8")
    lines = code_lines(source)
    assert len(lines) <= (LONGEST_MAIN if path.name == "plugin.py" else LONGEST_FILE)
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            body = lines & set(range(node.lineno, node.end_lineno + 1))
            assert len(body) <= LONGEST_FUNCTION, f"{node.name} has {len(body)} code lines"


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_a_file_starts_with_its_licence(path):
    assert path.read_text(encoding="utf-8").startswith("# SPDX-License-Identifier: GPL-2.0-or-later\n")


def test_comments_and_docstrings_do_not_count():
    assert len(code_lines('"""A.\n\nB."""\n# c\n\nx = 1\n\n\ndef f():\n    """D."""\n    return x\n')) == 3
