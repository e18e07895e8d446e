# SPDX-License-Identifier: GPL-2.0-or-later
"""The pages of the guide taken apart, so that tests can hold them to what the algorithms do.

A page is Markdown. Held are its fenced blocks and its tables, each kind told by its first line:

    ```text plot.csv            a file of the examples, byte for byte
    ```sh                       commands, run in order in the repository's folder
    ```python, ```text          a script for the host's Python, and what it prints
    | parameter | label | ...   the parameters of the algorithm
    | output | label | ...      its outputs
    | column | unit | ...       the columns of the output that the heading above names
    | in `OUTPUT` | ... |       figures of the last command's output: a row each, told by its number or a name
    | of the run | ... |         the numbers that a run gives
    | figure | in | row | as | here | published | within |
                                a figure reckoned from a row, by an expression of the host, beside a published one
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

GUIDE = Path(__file__).parents[1] / "resources" / "guide"
IN_CODE = re.compile(r"`([^`]+)`")


@dataclass(frozen=True)
class Block:
    """A fenced block: what stands behind its fence, and its text."""

    info: str
    text: str
    heading: str


@dataclass(frozen=True)
class Table:
    """A table: its header, its rows as they stand, and the heading above it."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    heading: str

    def records(self) -> list[dict[str, str]]:
        """Its rows by column, without the marks of code."""
        return [
            dict(zip(self.header, [cell.strip("`") if cell.count("`") == 2 else cell for cell in row]))
            for row in self.rows
        ]


@dataclass(frozen=True)
class Page:
    """A page: its text, and what is held of it in order."""

    name: str
    text: str
    items: tuple[Block | Table, ...] = field(repr=False)

    def tables(self, first: str) -> list[Table]:
        """The tables whose first column is headed so."""
        return [item for item in self.items if isinstance(item, Table) and item.header[0] == first]

    def blocks(self, language: str) -> list[Block]:
        """The blocks of a language that are no files."""
        return [item for item in self.items if isinstance(item, Block) and item.info == language]

    def files(self) -> list[Block]:
        """The blocks that are files."""
        return [item for item in self.items if isinstance(item, Block) and " " in item.info]


def read_page(path: Path) -> Page:
    """A page of the guide."""
    text = path.read_text(encoding="utf-8")
    return Page(path.stem, text, tuple(_items(text.splitlines())))


def _items(lines):
    heading, at = "", 0
    while at < len(lines):
        line = lines[at]
        if line.startswith("```"):
            end = lines.index("```", at + 1)
            yield Block(line[3:].strip(), "\n".join([*lines[at + 1 : end], ""]), heading)
            at = end
        elif line.startswith("|"):
            end = next((k for k in range(at, len(lines)) if not lines[k].startswith("|")), len(lines))
            header, _, *rows = [_cells(row) for row in lines[at:end]]
            assert all(len(row) == len(header) for row in rows), (heading, header)
            yield Table(header, tuple(rows), heading)
            at = end - 1
        elif line.startswith("#"):
            heading = line.lstrip("# ")
        at += 1


def _cells(line):
    return tuple(cell.strip() for cell in line.strip().strip("|").split("|"))
