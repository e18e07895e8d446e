# SPDX-License-Identifier: GPL-2.0-or-later
"""A table beside the logs that is changed in places: what is not changed stays as it was written."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from ..core.read.formats import TableKind, find_kind
from ..core.read.table import find_delimiter
from .staging import staged

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

ENDINGS = (".csv", ".txt")


@dataclass(frozen=True)
class KeptTable:
    """A table as text: the lines before its header, its columns, its rows by column."""

    names: tuple[str, ...]
    comments: tuple[str, ...] = ()
    rows: tuple[dict[str, str], ...] = ()
    delimiter: str = ","

    def with_key(self, key: str, value: str) -> KeptTable:
        """A `# key: value` line in the place of the one there is, else as the last."""
        line = f"# {key}: {value}"
        is_it = [_key_of(old) == key for old in self.comments]
        if any(is_it):
            return replace(self, comments=tuple(line if it else old for it, old in zip(is_it, self.comments)))
        return replace(self, comments=(*self.comments, line))

    def with_columns(self, names: Sequence[str]) -> KeptTable:
        """Columns that are not there yet, behind the others."""
        return replace(self, names=(*self.names, *(name for name in names if name not in self.names)))


def _key_of(line: str) -> str:
    return line.lstrip("# \t").partition(":")[0].strip().lower() if line.startswith("#") else ""


def find_table(folder: Path, kind: TableKind, name: str) -> Path:
    """The file of a folder that holds a kind of table, found by its content; where there is none, the one to make."""
    for path in sorted(folder.glob("*")):
        if path.is_file() and path.suffix.lower() in ENDINGS and _is_kind(path, kind):
            return path
    return folder / name


def _is_kind(path: Path, kind: TableKind) -> bool:
    try:
        return find_kind(path.read_bytes()) is kind
    except OSError:
        return False


def read_kept(path: Path, columns: Sequence[str]) -> KeptTable:
    """A table; one with these columns and no rows where there is no such file."""
    text = _decoded(path.read_bytes()) if path.is_file() else ""
    lines = text.splitlines()
    head = next((k for k, line in enumerate(lines) if line.strip() and not line.startswith("#")), len(lines))
    body = lines[head:]
    if not body:
        return KeptTable(tuple(columns), tuple(lines))
    mark = find_delimiter(body[0])
    reader = csv.DictReader(body, delimiter=mark)
    rows = tuple({str(name): value or "" for name, value in row.items() if name} for row in reader)
    names = tuple(str(name) for name in reader.fieldnames or columns)
    return KeptTable(names, tuple(lines[:head]), rows, mark).with_columns(columns)


def _decoded(data: bytes) -> str:
    """As the readers take it: UTF-8, or what older programs write."""
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("latin-1")


def write_kept(path: Path, table: KeptTable) -> None:
    """Write it whole, or not at all.

    Raises:
        BadInput: it cannot be written.
    """
    out = io.StringIO()
    out.writelines(f"{line}\n" for line in table.comments)
    writer = csv.DictWriter(out, table.names, restval="", lineterminator="\n", delimiter=table.delimiter)
    writer.writeheader()
    writer.writerows(table.rows)
    with staged(path) as made:
        made.write_text(out.getvalue(), encoding="utf-8")
